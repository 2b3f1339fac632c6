//! Entries in words, as the log of a piece tells them.

use quantity::{Grain, Length, Mass, Money, Temperature};
use record::{
    Body, Contents, Dose, Entry, Method, Outcome, Paid, PieceMeasured, PieceReceived, Probed, State, Where,
    Wrap,
};
use uuid::Uuid;

use super::names::{kilo_word, part_name, price_here};
use crate::house::Visit;
use crate::words::{and_list, counted, sentence_case};

/// What an entry says, as a sentence without its hour.
pub(crate) fn entry_words(visit: &Visit, entry: &Entry) -> String {
    let say = Say(visit);
    let state = &visit.state;
    match &entry.body {
        Body::PieceReceived(body) => say.received(body),
        Body::PieceMeasured(body) => say.measured(body),
        Body::KnifePlanned(body) => {
            format!("Knife plan settled, {}", counted(body.want.len(), "wish", "wishes"))
        }
        Body::PortionWeighed(body) => format!("Portion {}, {}", body.n, say.grams(body.mass)),
        Body::PartWeighed(body) => {
            format!("{} {}", sentence_case(&part_name(body.part, body.name.as_deref())), say.grams(body.mass))
        }
        Body::PackSealed(body) => {
            let place = body.place.as_ref().map_or_else(String::new, |place| format!(", into {place}"));
            let wrap = if body.wrap == Wrap::Vacuum { "Sealed" } else { "Packed" };
            format!("{wrap} {}{place}", contents(state, &body.contents))
        }
        Body::Moved(body) => {
            let spot = body.spot.as_ref().map_or_else(String::new, |spot| format!(", {spot}"));
            format!("{} to {}{spot}", thing(state, body.what), body.place)
        }
        Body::TakenOut(body) => {
            let names: Vec<String> = body.packs.iter().map(|pack| thing(state, *pack)).collect();
            format!("{} out, to {}, {}", and_list(&names), body.place, method(body.method))
        }
        Body::Salted(body) => say.salted(&body.portions, body.dose),
        Body::PutOn(body) => {
            let degrees = body.temperature.map_or_else(String::new, |at| format!(" at {}", say.degrees(at)));
            format!("{} on the {}{degrees}", portions(state, &body.portions), body.on)
        }
        Body::ProbeRead(body) => {
            let what = match body.probed {
                Probed::Portion(id) | Probed::Piece(id) => thing(state, id),
            };
            format!("{what}, core {}", say.degrees(body.core))
        }
        Body::Pulled(body) => {
            let core = body.core.map_or_else(String::new, |core| format!(" at {}", say.degrees(core)));
            format!("{} pulled{core}", portions(state, &body.portions))
        }
        Body::Served(body) => {
            let came = match body.outcome {
                Outcome::Eaten => "eaten",
                Outcome::Spare => "left over",
                Outcome::Discarded => "thrown away",
            };
            let note = body.note.as_ref().map_or_else(String::new, |note| format!(". {note}"));
            format!("{} {came}{note}", thing(state, body.portion))
        }
        Body::Discarded(body) => format!("{} thrown away: {}", thing(state, body.what), body.because),
        Body::Counted(body) => format!(
            "{} counted: {} here, {} missing",
            sentence_case(&body.place),
            body.here.len(),
            body.missing.len()
        ),
        Body::LeakerFound(body) => format!("{} found loose", thing(state, body.pack)),
        Body::TemperatureRead(body) => format!("{} {}", sentence_case(&body.place), say.degrees(body.at)),
        Body::PriceNoted(body) => {
            let form = if body.form == Where::Whole { "whole" } else { "at the counter, cut" };
            let price = price_here(visit, Money::new(body.price.per_kg(), body.currency));
            let cut = super::cut_name(visit.settings(), &body.cut);
            format!("Price noted: {cut} {form}, {price} a {}", kilo_word(visit))
        }
        Body::SupperPlanned(body) => {
            let at = visit.moments.time(&visit.zoned(body.serve.at));
            format!("Supper planned for {at}, {}", counted(body.portions.len(), "portion", "portions"))
        }
        Body::SettingChanged(body) => format!("Setting {} changed", body.key),
        Body::Corrected(body) => format!("Corrected: {}", body.because),
    }
}

/// Words in the reader's units.
struct Say<'v>(&'v Visit);

impl Say<'_> {
    fn grams(&self, mass: Mass) -> String {
        self.0.units.mass(mass, Grain::Reading)
    }

    fn degrees(&self, temperature: Temperature) -> String {
        self.0.units.temperature(temperature, Grain::Reading)
    }

    fn length(&self, length: Length) -> String {
        self.0.units.length(length)
    }

    fn received(&self, body: &PieceReceived) -> String {
        let money = |amount| Money::new(amount, body.currency);
        let paid = match body.paid {
            Paid::ByMass(price) => format!(
                "{} at {}: {}",
                self.grams(body.mass),
                price_here(self.0, money(price.per_kg())),
                money(body.paid.total(body.mass))
            ),
            Paid::Total(total) => format!("{} for {}", self.grams(body.mass), money(total)),
        };
        let core = body.core.map_or_else(String::new, |core| format!(", core {}", self.degrees(core)));
        format!("Bought, {paid}{core}")
    }

    fn measured(&self, body: &PieceMeasured) -> String {
        let said = [
            body.bag_off.map(|mass| format!("bag off, {}", self.grams(mass))),
            body.purge.map(|mass| format!("purge {}", self.grams(mass))),
            body.length.map(|length| format!("{} long", self.length(length))),
            body.core.map(|core| format!("core {}", self.degrees(core))),
            (!body.station.is_empty())
                .then(|| format!("{} measured", counted(body.station.len(), "section", "sections"))),
            body.from_end.as_ref().map(|end| format!("from the {end}")),
        ];
        let said: Vec<String> = said.into_iter().flatten().collect();
        if said.is_empty() { "Ends measured".to_owned() } else { sentence_case(&said.join("; ")) }
    }

    fn salted(&self, of: &[Uuid], dose: Dose) -> String {
        let count = counted(of.len(), "portion", "portions");
        match dose {
            Dose::Salt(salt) => format!("Salted, {} on {count}", self.grams(salt)),
            Dose::Percent(percent) => format!("Salted, {percent}\u{202f}% on {count}"),
            Dose::Unknown => format!("Salted, {count}, not weighed"),
        }
    }
}

/// What an id is called: `TARN 4`, `TARN 11+12`, `TARN`.
fn thing(state: &State, id: Uuid) -> String {
    let portion = || state.portion(id).map(record::Portion::name);
    let pack = || state.pack(id).map(|pack| pack.name.clone());
    let part = || {
        let part = state.part(id)?;
        Some(format!("{} {}", part.word, part_name(part.weighed.part, part.weighed.name.as_deref())))
    };
    let piece = || state.piece(id).map(|piece| piece.word.to_string());
    pack().or_else(portion).or_else(part).or_else(piece).unwrap_or_else(|| "something taken back".to_owned())
}

/// `TARN 1, 2 and 3`
fn portions(state: &State, ids: &[Uuid]) -> String {
    let found: Vec<_> = ids.iter().filter_map(|id| state.portion(*id)).collect();
    let one_piece = found.iter().all(|portion| portion.piece == found[0].piece);
    match found.as_slice() {
        [] => "Portions taken back".to_owned(),
        [first, ..] if one_piece => {
            let places: Vec<String> = found.iter().map(|portion| portion.n.to_string()).collect();
            format!("{} {}", first.word, and_list(&places))
        }
        _ => and_list(&found.iter().map(|portion| portion.name()).collect::<Vec<_>>()),
    }
}

fn contents(state: &State, contents: &Contents) -> String {
    match contents {
        Contents::Portions(ids) => portions(state, ids),
        Contents::Part(id) => thing(state, *id),
    }
}

fn method(method: Method) -> &'static str {
    match method {
        Method::Fridge => "in the fridge",
        Method::ColdWater => "in cold water",
        Method::WarmWater => "in warm water",
        Method::FromFrozen => "from frozen",
        Method::Counter => "on the counter",
    }
}
