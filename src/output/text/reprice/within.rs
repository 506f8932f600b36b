//! Parts and recipes between prices and dishes: to the parts of yield tests and their credits, and to recipes that
//! others use.

use super::super::table::{TextColumn, TextRow, table};
use super::super::{Emphasis, printable};
use super::{MOST, RepricePage};
use crate::number::Decimal;
use crate::results::changes::signed_percent;
use crate::results::figures::{NONE, shown};
use crate::results::on_the_way::MovedOnTheWay;

const COLUMNS: [TextColumn; 5] = [
    TextColumn { header: &["What it is"], figures: false },
    TextColumn { header: &["Per"], figures: false },
    TextColumn { header: &["Before"], figures: true },
    TextColumn { header: &["Now"], figures: true },
    TextColumn { header: &["Moved"], figures: true },
];

/// The table; nothing where nothing moved.
pub(super) fn within(page: &RepricePage<'_>) -> String {
    let all = MovedOnTheWay::all(page.changes);
    if all.is_empty() {
        return String::new();
    }
    let mut out = page.title("On the way: parts of yield tests, and what is made for other dishes");
    let rows: Vec<TextRow> = all.iter().take(MOST).map(|one| row(page, one)).collect();
    out.push_str(&table("Part or recipe", &COLUMNS, &rows, page.view));
    out.push_str(&page.more(all.len()));
    out
}

fn row(page: &RepricePage<'_>, one: &MovedOnTheWay<'_>) -> TextRow {
    let cost = |cost: Decimal| (shown(Some(cost), page.places.saturating_add(1)), Emphasis::Plain);
    let cells = vec![
        (one.what.to_owned(), Emphasis::Plain),
        (one.unit.clone(), Emphasis::Plain),
        cost(one.was),
        cost(one.now),
        (one.moved.map_or_else(|| NONE.to_owned(), signed_percent), Emphasis::Plain),
    ];
    TextRow { name: printable(one.name), cells }
}
