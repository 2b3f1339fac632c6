//! From the form to the question.

use super::fields as f;
use crate::Flags;
use crate::field::{Field, Unit};
use crate::problem::What;
use crate::read::{Given, Table, Taken};
use catalogue::Trim;
use quantity::Currency;
use rust_decimal::Decimal;
use worth::{
    AfterCooking, Answered, Bought, Class, Cooked, Costs, Grams, Number, Part, PerMass, Place, Price,
    Question, Ranged, Scale, Scales, Uncut, Use, Worth, WorthError,
};

/// The answer; what the numbers contradict goes back to the form as problems.
pub(super) fn reckon(question: &Question, root: &Table<'_>, flags: &Flags) -> Option<Answered> {
    let answered = if flags.exact {
        worth::worth(&question.worth).map(Answered::exact)
    } else {
        worth::answer(question, flags.draws, flags.seed)
    };
    answered.map_err(|error| object(root, &error)).ok()
}

/// Reads the whole form. Fields the check has refused read as left out, so everything else is still looked at.
pub(super) fn question(root: &Table<'_>) -> Option<Question> {
    let mut ranges = Ranges::default();
    let currency = root.text(&f::CURRENCY).and_then(|code| Currency::new(code).ok());
    let piece_table = root.table(&f::PIECE);
    let piece = piece_table.as_ref().and_then(|table| piece(table, &mut ranges));
    let part_tables = root.tables(&f::PART);
    let parts: Vec<Part> =
        part_tables.iter().enumerate().filter_map(|(at, table)| part(table, at, &mut ranges)).collect();
    let uncut = match (&piece_table, root.has(&f::PART)) {
        (Some(table), false) => uncut(table, &mut ranges),
        _ => Some(None),
    };
    let counter_table = root.table(&f::COUNTER);
    let counter =
        counter_table.as_ref().and_then(|table| ranges.price(table, &f::COUNTER_PRICE, Number::Counter));
    let costs = root.table(&f::COSTS).map(|table| costs(&table, &mut ranges)).unwrap_or_default();
    let cooked = root.table(&f::COOKED).and_then(|table| cooked(&table, &mut ranges));
    let portion = root
        .table(&f::SERVE)
        .and_then(|table| ranges.number(&table, &f::PORTION, Number::Portion))
        .map(Grams::new);
    let worth = Worth {
        currency: currency?,
        piece: piece?,
        parts,
        counter,
        costs,
        cooked,
        portion,
        scales: root.table(&f::SCALE).map(|table| scales(&table)).unwrap_or_default(),
    };
    Some(Question { worth, ranges: ranges.list, uncut: uncut? })
}

/// The ranges met while reading.
#[derive(Default)]
struct Ranges {
    list: Vec<Ranged>,
}

impl Ranges {
    /// A number in its base unit; a range is noted, and its middle stands in.
    fn number(&mut self, table: &Table<'_>, field: &Field, number: Number) -> Option<Decimal> {
        let given = table.given(field);
        self.note(table, field, number, given);
        given.middle()
    }

    /// A price in the unit it was said in.
    fn price(&mut self, table: &Table<'_>, field: &Field, number: Number) -> Option<PerMass> {
        let Taken { given, unit } = table.taken(field)?;
        self.note(table, field, number, given);
        let amount = given.middle()?;
        Some(match unit {
            Unit::MoneyPerLb | Unit::MoneyPerLbMonth => PerMass::per_lb(amount),
            _ => PerMass::per_kg(amount),
        })
    }

    fn note(&mut self, table: &Table<'_>, field: &Field, number: Number, given: Given) {
        if let Given::Range { low, high } = given {
            self.list.push(Ranged { name: table.name(field), number, low, high });
        }
    }
}

fn piece(table: &Table<'_>, ranges: &mut Ranges) -> Option<Bought> {
    let mass = ranges.number(table, &f::PIECE_MASS, Number::PieceMass);
    let per = ranges.price(table, &f::PRICE_PER, Number::Price).map(Price::Per);
    let total = ranges.number(table, &f::TOTAL, Number::Price).map(Price::Total);
    let purge = ranges.number(table, &f::PURGE, Number::Purge).map(Grams::new);
    Some(Bought { mass: Grams::new(mass?), price: per.or(total)?, purge })
}

fn part(table: &Table<'_>, at: usize, ranges: &mut Ranges) -> Option<Part> {
    let name = table.text(&f::NAME);
    let mass = ranges.number(table, &f::PART_MASS, Number::PartMass(at)).map(Grams::new);
    let value = ranges.price(table, &f::VALUE, Number::PartValue(at));
    let used = match table.word(&f::USE)? {
        "keep" => Use::Keep { value },
        other => {
            if table.has(&f::VALUE) {
                let message = format!(
                    "{} is given for a part whose use is \"{other}\", which is credited nothing",
                    table.name(&f::VALUE)
                );
                table.impossible(&f::VALUE, "a value only where use = \"keep\"", &message);
            }
            if other == "portion" { Use::Portion } else { Use::Waste }
        }
    };
    Some(Part { name: name?.to_owned(), used, mass: mass? })
}

/// What stands in for parts that are not there; `None` where the form must say more.
fn uncut(piece: &Table<'_>, ranges: &mut Ranges) -> Option<Option<Uncut>> {
    if piece.exact() {
        let message = "piece.cut: there is no [[part]], and --exact takes no yield from the catalogue";
        piece.object(What::NotExact, &f::CUT, "[[part]] with what each part weighs, or no --exact", message);
        return None;
    }
    if !piece.has(&f::CUT) {
        let message =
            "there is no [[part]], so piece.cut must say which cut it is; its usual yield then stands in";
        piece.missing(&f::CUT, message);
        return None;
    }
    let cut = piece.word(&f::CUT)?;
    let trim = piece.word(&f::TRIM).and_then(Trim::named);
    let mut uncut = Uncut::of_cut(cut, trim);
    if uncut.levels.is_empty() {
        no_yield(piece, cut);
        return None;
    }
    uncut.lean_value = ranges.price(piece, &f::LEAN_VALUE, Number::LeanValue);
    uncut.fat_value = ranges.price(piece, &f::FAT_VALUE, Number::FatValue);
    Some(Some(uncut))
}

fn no_yield(piece: &Table<'_>, cut: &str) {
    let known: Vec<&str> =
        catalogue::yields().iter().filter(|row| row.cut == cut).map(|row| row.trim.name()).collect();
    if known.is_empty() {
        let cuts: Vec<&str> = catalogue::cuts()
            .iter()
            .map(|cut| cut.id.as_str())
            .filter(|id| catalogue::yields().iter().any(|row| row.cut == *id))
            .collect();
        let message =
            format!("the catalogue has no yield of {cut}; weigh the parts and give them as [[part]]");
        piece.impossible(&f::CUT, &cuts.join(", "), &message);
    } else {
        let message = format!("the catalogue has no yield of {cut} at this trim level");
        piece.impossible(&f::TRIM, &known.join(", "), &message);
    }
}

fn costs(table: &Table<'_>, ranges: &mut Ranges) -> Costs {
    let mut amount = |field, number| ranges.number(table, field, number).unwrap_or_default();
    Costs {
        bag: amount(&f::BAG, Number::Bag),
        months: amount(&f::MONTHS, Number::Months),
        labour: amount(&f::LABOUR, Number::Labour),
        bags: table.count(&f::BAGS),
        energy_month: ranges.price(table, &f::ENERGY, Number::Energy),
    }
}

fn cooked(table: &Table<'_>, ranges: &mut Ranges) -> Option<Cooked> {
    let loss = ranges.number(table, &f::LOSS, Number::CookedLoss).map(AfterCooking::Loss);
    let mass = ranges
        .number(table, &f::COOKED_MASS, Number::CookedMass)
        .map(|mass| AfterCooking::Mass(Grams::new(mass)));
    let waste = ranges.number(table, &f::COOKED_WASTE, Number::CookedWaste).unwrap_or_default();
    Some(Cooked { after: loss.or(mass)?, waste: Grams::new(waste) })
}

fn scales(table: &Table<'_>) -> Scales {
    let scale = |field, usual: Scale| match table.given(field).known() {
        Some(division) => Scale { class: Class::Three, division: Grams::new(division) },
        None => usual,
    };
    Scales { label: scale(&f::LABEL_DIVISION, Scale::SHOP), board: scale(&f::DIVISION, Scale::KITCHEN) }
}

/// Points at the number an error is about.
fn object(root: &Table<'_>, error: &WorthError) {
    let message = error.to_string();
    let allowed = match error {
        WorthError::OutOfRange { allowed, .. } => (*allowed).to_owned(),
        WorthError::NoPortions => "one part with use = \"portion\" and a mass above 0".to_owned(),
        WorthError::MoreOutThanIn { out, .. } => {
            format!("parts and purge of no more than the piece, or a piece of {out} g")
        }
        WorthError::CookedHeavier { raw, .. } => format!("at most {raw} g"),
        WorthError::NothingCarved { cooked, .. } => format!("less than {cooked} g"),
        WorthError::HowManyBags => "a number of bags, or [serve] with the size of a portion".to_owned(),
        WorthError::BadPrior { .. } | WorthError::TooLarge => "numbers a piece of meat has".to_owned(),
    };
    let say = |table: Option<Table<'_>>, field: &Field| match table {
        Some(table) => table.impossible(field, &allowed, &message),
        None => root.impossible(&f::PIECE, &allowed, &message),
    };
    match error.place() {
        Place::PieceMass | Place::Prior => say(root.table(&f::PIECE), &f::PIECE_MASS),
        Place::PiecePrice => say(root.table(&f::PIECE), &f::PRICE_PER),
        Place::Purge => say(root.table(&f::PIECE), &f::PURGE),
        Place::Parts => root.impossible(&f::PART, &allowed, &message),
        Place::PartMass(at) => say(root.tables(&f::PART).into_iter().nth(at), &f::PART_MASS),
        Place::PartValue(at) => say(root.tables(&f::PART).into_iter().nth(at), &f::VALUE),
        Place::Counter => say(root.table(&f::COUNTER), &f::COUNTER_PRICE),
        Place::Costs => say(root.table(&f::COSTS), &f::BAG),
        Place::Bags => say(root.table(&f::COSTS), &f::BAGS),
        Place::Cooked => {
            let table = root.table(&f::COOKED);
            let field = if table.as_ref().is_some_and(|table| table.has(&f::COOKED_MASS)) {
                f::COOKED_MASS
            } else {
                f::LOSS
            };
            say(table, &field);
        }
        Place::CookedWaste => say(root.table(&f::COOKED), &f::COOKED_WASTE),
        Place::Portion => say(root.table(&f::SERVE), &f::PORTION),
        Place::Division => say(root.table(&f::SCALE), &f::DIVISION),
    }
}
