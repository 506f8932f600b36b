//! Units of a title: what all prices below it are for, as in *all $/cwt unless noted*.

use crate::book::find::Table;
use crate::book::grid::Grid;
use crate::measure::Unit;
use crate::problem::{CellRef, Code, Fault, Problem};
use crate::schema::{Column, TableKind, Value};

/// How many rows above a header are looked at.
const MOST_ROWS: usize = 20;

/// The cell above `header` (zero-based) that says what the prices below are for, the words that say it, and the unit as
/// typed. Weights and volumes only: a price for *each* may be one for a case.
pub(in crate::book) fn titled_unit(grid: &Grid, header: u32) -> Option<(CellRef, String, String)> {
    let above = grid.rows().iter().filter(|row| row.row < header).take(MOST_ROWS);
    above.flat_map(|row| row.cells().iter().map(|(at, typed)| (CellRef::new(row.row, *at), typed))).find_map(
        |(cell, typed)| {
            let Value::Text(text) = &typed.value else { return None };
            in_title(text).map(|(words, unit)| (cell, words, unit))
        },
    )
}

/// What to ask of a table of prices whose title says what they are for and whose columns say nothing but packs.
pub(super) fn doubt(grid: &Grid, table: &Table<'_>) -> Option<Problem> {
    let says = [Column::Per, Column::SizeUnit, Column::PoundPrice];
    let of_header = table.heading(Column::Price).is_some_and(|heading| heading.default.is_some());
    if table.kind != TableKind::Prices || of_header || says.iter().any(|column| table.heading(*column).is_some()) {
        return None;
    }
    let (cell, words, unit) = titled_unit(grid, table.place.cell_ref()?.row)?;
    let fault = Fault::new(
        Code::PerAmbiguous,
        format!("this title says “{words}”, but the prices below it were read as for their packs"),
        format!(
            "Add a column Per, with {unit} in every row that goes by it; or take “{words}” out of the title, if the prices \
             are for the packs."
        ),
    );
    Some(fault.at(grid.place_of(cell)))
}

/// The words of a title that say what a price is for, and the unit.
fn in_title(text: &str) -> Option<(String, String)> {
    let trim = |word: &str| word.trim_matches(|c: char| matches!(c, '(' | ')' | ',' | ';' | ':' | '.')).to_owned();
    let words: Vec<String> = text.split_whitespace().map(trim).collect();
    let of_money = |word: &str| {
        let lower = word.to_lowercase();
        lower.ends_with(['$', '€', '£'])
            || matches!(lower.as_str(), "price" | "prices" | "priced" | "usd" | "eur" | "gbp")
    };
    let speaks_of_money = words.iter().any(|word| of_money(word));
    words.iter().enumerate().find_map(|(at, word)| {
        if let Some((money, unit)) = word.split_once('/') {
            let said = of_money(money) || (money.is_empty() && speaks_of_money);
            return (said && is_amount(unit)).then(|| (word.clone(), unit.to_owned()));
        }
        let unit = words.get(at.checked_add(1)?)?;
        let said = word.eq_ignore_ascii_case("per") && speaks_of_money && is_amount(unit);
        said.then(|| (format!("{word} {unit}"), unit.clone()))
    })
}

fn is_amount(unit: &str) -> bool {
    Unit::parse(unit).is_some_and(|unit| matches!(unit, Unit::Standard(_)) && !unit.is_count_like())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_title_says_what_its_prices_are_for() {
        // Common practice in the trade, no source.
        for (text, unit) in [
            ("PRICES $/CWT", Some("CWT")),
            ("Cut sheet - all $/cwt FOB plant unless noted", Some("cwt")),
            ("All prices per kg, ex works", Some("kg")),
            ("Prices /lb", Some("lb")),
            ("(EUR/kg)", Some("kg")),
            ("Prices per case", None),
            ("Delivered twice per week", None),
            ("Order 24/7, prices below", None),
            ("and/or", None),
        ] {
            assert_eq!(in_title(text).map(|(_, unit)| unit).as_deref(), unit, "{text}");
        }
    }
}
