//! The books as a table for a spreadsheet (RFC 4180): metric, money to the coin, a point for the decimals.

use crate::house::Visit;

const HEAD: &str = "word,cut,received,mass_g,paid,currency,plates,plates_g,all_in,each,per_kg,counter,saved";

pub(super) fn pieces(visit: &Visit) -> String {
    let books = season::books(&visit.state, visit.at());
    let mut table = format!("{HEAD}\r\n");
    for row in &books.rows {
        let plates = row.ledger.plates.as_ref();
        let money = |money: Option<quantity::Money>| {
            money.map(|money| money.to_coin().amount.to_string()).unwrap_or_default()
        };
        let fields = [
            row.piece.word.to_string(),
            row.piece.received.cut.clone(),
            visit.zoned(row.piece.at).date().to_string(),
            format!("{:.0}", row.ledger.came_in.g()),
            money(Some(row.ledger.paid)),
            row.ledger.paid.currency.to_string(),
            plates.map(|plates| plates.count.to_string()).unwrap_or_default(),
            plates.map(|plates| format!("{:.1}", plates.mass.g())).unwrap_or_default(),
            money(plates.map(|plates| plates.all_in)),
            money(plates.map(|plates| plates.each)),
            money(plates.map(|plates| plates.per_kg)),
            money(plates.and_then(|plates| plates.counter)),
            money(plates.and_then(|plates| plates.saved)),
        ];
        table.push_str(&fields.map(|field| quoted(&field)).join(","));
        table.push_str("\r\n");
    }
    table
}

/// Quoted where a comma, a quotation mark or a line's end would break the row.
fn quoted(field: &str) -> String {
    if field.contains([',', '"', '\r', '\n']) {
        format!("\"{}\"", field.replace('"', "\"\""))
    } else {
        field.to_owned()
    }
}
