//! What several pages say alike: names of cuts and heaps, the ledger, the thread.

mod bag;
mod entries;
mod ledger;
mod log;
mod names;
pub(crate) mod places;
pub(crate) mod side;
mod thread;
mod wants;

pub(crate) use bag::{LIPS, TRIMS, date_on_bag};
pub(crate) use entries::entry_words;
pub(crate) use ledger::{Ledger, bar_with_list, ledger_of, ledger_table};
pub(crate) use log::{Day, days, log, struck};
pub(crate) use names::{
    cut_name, cut_options, cut_unit_price, in_the, kilo_word, part_name, per_unit, portions_of, price_here,
    whereabouts_words,
};
pub(crate) use thread::{first_thread, portion_thread_of, thread_of};
pub(crate) use wants::{aim_words, given_words, want_line, want_more};
