//! Lines of text, one in each row: a printed page or a note that was turned into a sheet, whose columns are lost.

use crate::book::grid::Grid;
use crate::measure::Unit;
use crate::problem::CellRef;
use crate::schema::{Typed, Value};

/// What to ask for instead.
const ASK: &str = "Ask the supplier for the same list as a spreadsheet or csv file, with its columns \
     apart; or type what you buy from it into a table Item, Pack, Price.";

/// What to ask for instead, with a line of the sheet as it would be typed where one is plain.
pub(in crate::book) fn ask(grid: &Grid) -> String {
    let line = grid.rows().iter().find_map(|row| match row.cells() {
        [(_, Typed { value: Value::Text(text), .. })] => item_and_price(text),
        _ => None,
    });
    match line {
        Some((item, price)) => format!("{ASK} “{item}” goes under Item, and “{price}” under Price."),
        None => ASK.to_owned(),
    }
}

/// An item and its price for a unit, of a line that ends in them: `carrots bunched  2.50 ea`, `leeks 3.25/lb`.
fn item_and_price(line: &str) -> Option<(String, String)> {
    let words: Vec<&str> = line.split_whitespace().collect();
    let is_unit = |word: &str| Unit::parse(word).is_some();
    let at = match words.as_slice() {
        [.., price] if price.split_once('/').is_some_and(|(amount, unit)| has_amount(amount) && is_unit(unit)) => 1,
        [.., price, unit] if has_amount(price) && is_unit(unit) => 2,
        _ => return None,
    };
    let (item, price) = words.split_at_checked(words.len().checked_sub(at)?)?;
    let plain = !item.is_empty() && !item.iter().any(|word| word.contains(|c: char| c.is_ascii_digit()));
    plain.then(|| (item.join(" "), price.join("/")))
}

/// The first cell of a sheet that is lines of text, a good part of which hold an amount with cents; `None` for any other.
pub(in crate::book) fn printed_page(grid: &Grid) -> Option<CellRef> {
    /// Fewer lines with amounts are no list.
    const LEAST: usize = 5;
    let rows: Vec<_> = grid.rows().iter().filter(|row| !row.cells().is_empty()).collect();
    let first = rows.first()?;
    let (column, _) = first.cells().first()?;
    let mut priced = 0_usize;
    for row in &rows {
        let [(at, typed)] = row.cells() else { return None };
        let Value::Text(text) = &typed.value else { return None };
        if at != column {
            return None;
        }
        priced = priced.saturating_add(usize::from(has_amount(text)));
    }
    (priced >= LEAST && priced.saturating_mul(5) >= rows.len().saturating_mul(2))
        .then(|| CellRef::new(first.row, *column))
}

/// Whether an amount with cents stands among the words: `2.39`, `86,00`, `$27.50`.
fn has_amount(text: &str) -> bool {
    text.split_whitespace().any(|word| {
        let word = word.trim_matches(|c: char| !c.is_ascii_digit());
        word.rsplit_once(['.', ',']).is_some_and(|(whole, cents)| {
            let digits = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
            cents.len() == 2 && digits(cents) && digits(whole)
        })
    })
}
