//! What follows from the entries, as tables: one row a thing, units in the names of the columns.

use clap::ValueEnum;
use quantity::{Length, Mass, Temperature};
use record::{Contents, State};

/// Which table.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum Table {
    /// Every entry: number, hours, writer, kind, body as JSON
    Entries,
    /// Pieces with their grams
    Pieces,
    /// Portions, from the knife to the plate
    Portions,
    /// Heaps that are no portion
    Parts,
    /// Packs and where they lie
    Packs,
    /// Suppers
    Suppers,
    /// Prices noted
    Prices,
    /// Temperatures read
    Temperatures,
}

/// The table as CSV, with a heading (RFC 4180).
pub(crate) fn csv(state: &State, table: Table) -> Result<Vec<u8>, csv::Error> {
    let (heading, rows) = match table {
        Table::Entries => entries(state),
        Table::Pieces => pieces(state),
        Table::Portions => portions(state),
        Table::Parts => parts(state),
        Table::Packs => packs(state),
        Table::Suppers => suppers(state),
        Table::Prices => prices(state),
        Table::Temperatures => temperatures(state),
    };
    let mut writer = csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    writer.write_record(heading)?;
    for row in rows {
        writer.write_record(row)?;
    }
    writer.into_inner().map_err(|error| error.into_error().into())
}

type Rows = (&'static [&'static str], Vec<Vec<String>>);

fn entries(state: &State) -> Rows {
    let heading = &["number", "written", "writer", "id", "at", "kind", "body", "corrected_by"];
    let rows = state.log().map(|row| {
        let stored = &row.stored;
        vec![
            stored.number.to_string(),
            stored.written.to_string(),
            stored.writer.to_string(),
            stored.entry.id.to_string(),
            stored.entry.at.to_string(),
            stored.entry.kind().to_string(),
            stored.entry.body.to_value().to_string(),
            row.correction.as_ref().map(|correction| correction.number.to_string()).unwrap_or_default(),
        ]
    });
    (heading, rows.collect())
}

fn pieces(state: &State) -> Rows {
    let heading = &[
        "word",
        "id",
        "at",
        "cut",
        "mass_g",
        "paid",
        "currency",
        "purge_g",
        "portions_g",
        "parts_g",
        "discarded_g",
        "unexplained_g",
        "scale_error_g",
    ];
    let rows = state.pieces().map(|piece| {
        let ledger = state.ledger(piece);
        let received = &piece.received;
        vec![
            piece.word.to_string(),
            piece.id.to_string(),
            piece.at.to_string(),
            received.cut.clone(),
            grams(ledger.came_in),
            received.paid.total(received.mass).normalize().to_string(),
            received.currency.to_string(),
            ledger.purge.map(|purge| grams(purge.mass())).unwrap_or_default(),
            grams(ledger.portions),
            grams(ledger.cut() - ledger.portions),
            grams(ledger.discarded),
            grams(ledger.unexplained),
            grams(ledger.scale_error),
        ]
    });
    (heading, rows.collect())
}

fn portions(state: &State) -> Rows {
    let heading = &[
        "name",
        "id",
        "at",
        "mass_g",
        "from_mm",
        "to_mm",
        "thickness_mm",
        "stage",
        "pack",
        "salt_g",
        "served_at",
        "core_c",
    ];
    let rows = state.portions().map(|portion| {
        let served = portion.served.last();
        vec![
            portion.name(),
            portion.id.to_string(),
            portion.at.to_string(),
            grams(portion.weighed.mass),
            millimetres(portion.weighed.from),
            millimetres(portion.weighed.to),
            millimetres(portion.weighed.thickness),
            state.stage(portion).word().to_owned(),
            portion.pack.and_then(|id| state.pack(id)).map(|pack| pack.slug.clone()).unwrap_or_default(),
            portion
                .salted
                .iter()
                .filter_map(|salting| salting.salt)
                .reduce(|a, b| a + b)
                .map(grams)
                .unwrap_or_default(),
            served.map(|served| served.at.to_string()).unwrap_or_default(),
            celsius(served.and_then(|served| served.served.core)),
        ]
    });
    (heading, rows.collect())
}

fn parts(state: &State) -> Rows {
    let heading = &["word", "part", "id", "at", "mass_g", "use", "name", "value_per_kg", "pack"];
    let rows = state.parts().map(|part| {
        vec![
            part.word.to_string(),
            part.weighed.part.to_string(),
            part.id.to_string(),
            part.at.to_string(),
            grams(part.weighed.mass),
            part.weighed.keep.to_string(),
            part.weighed.name.clone().unwrap_or_default(),
            part.weighed.value.map(|value| value.per_kg().normalize().to_string()).unwrap_or_default(),
            part.pack.and_then(|id| state.pack(id)).map(|pack| pack.slug.clone()).unwrap_or_default(),
        ]
    });
    (heading, rows.collect())
}

fn packs(state: &State) -> Rows {
    let heading = &[
        "pack",
        "id",
        "at",
        "holds",
        "mass_g",
        "wrap",
        "place",
        "where",
        "since",
        "frozen_since",
        "leaker",
        "out_since",
        "missing_since",
        "gone",
        "gone_at",
    ];
    let rows = state.packs().map(|pack| {
        let holds = match pack.sealed.contents {
            Contents::Portions(_) => {
                state.portions_in(pack).map(|portion| portion.n.to_string()).collect::<Vec<_>>().join(" ")
            }
            Contents::Part(id) => {
                state.part(id).map(|part| part.weighed.part.to_string()).unwrap_or_default()
            }
        };
        let at = |at: Option<record::At>| at.map(|at| at.to_string()).unwrap_or_default();
        vec![
            pack.slug.clone(),
            pack.id.to_string(),
            pack.at.to_string(),
            holds,
            grams(pack.mass),
            pack.sealed.wrap.to_string(),
            pack.lying.as_ref().map(|lying| lying.place.clone()).unwrap_or_default(),
            pack.lying.as_ref().and_then(|lying| lying.spot.clone()).unwrap_or_default(),
            at(pack.lying.as_ref().map(|lying| lying.since)),
            at(pack.frozen),
            at(pack.leaker.as_ref().map(|leak| leak.at)),
            at(pack.out.as_ref().map(|out| out.at)),
            at(pack.missing),
            pack.gone.as_ref().map(|gone| gone.how.to_owned()).unwrap_or_default(),
            at(pack.gone.as_ref().map(|gone| gone.at)),
        ]
    });
    (heading, rows.collect())
}

fn suppers(state: &State) -> Rows {
    let heading = &["table", "id", "serve_at", "seats", "portions", "served", "route"];
    let rows = state.suppers().map(|supper| {
        vec![
            supper.slug.clone(),
            supper.id.to_string(),
            supper.planned.serve.at.to_string(),
            supper.planned.seat.len().to_string(),
            supper.planned.portions.len().to_string(),
            supper.served.len().to_string(),
            supper.planned.route.to_string(),
        ]
    });
    (heading, rows.collect())
}

fn prices(state: &State) -> Rows {
    let heading = &["at", "cut", "price_per_kg", "currency", "where", "sale"];
    let rows = state.prices().map(|noted| {
        let note = &noted.note;
        vec![
            noted.at.to_string(),
            note.cut.clone(),
            note.price.per_kg().normalize().to_string(),
            note.currency.to_string(),
            note.form.to_string(),
            note.sale.map(|sale| sale.to_string()).unwrap_or_default(),
        ]
    });
    (heading, rows.collect())
}

fn temperatures(state: &State) -> Rows {
    let heading = &["at", "place", "at_c"];
    let rows = state
        .temperatures()
        .map(|noted| vec![noted.at.to_string(), noted.note.place.clone(), celsius(Some(noted.note.at))]);
    (heading, rows.collect())
}

fn grams(mass: Mass) -> String {
    plain(mass.g())
}

fn millimetres(length: Option<Length>) -> String {
    length.map(|length| plain(length.mm())).unwrap_or_default()
}

fn celsius(temperature: Option<Temperature>) -> String {
    temperature.map(|temperature| plain(temperature.c())).unwrap_or_default()
}

/// Without the tail a sum or a conversion leaves: a millionth of the unit.
fn plain(value: f64) -> String {
    ((value * 1e6).round() / 1e6 + 0.0).to_string()
}
