//! Parts and recipes between prices and dishes: to the parts of yield tests and their credits, and to recipes that
//! others use.

use super::super::table::{TextColumn, TextRow, table};
use super::super::{Ink, printable};
use super::{MOST, Page};
use crate::number::Decimal;
use crate::results::changes::signed_percent;
use crate::results::figures::{NONE, shown};
use crate::results::on_the_way::OnTheWay;

const COLUMNS: [TextColumn; 5] = [
    TextColumn { header: &["What it is"], figures: false },
    TextColumn { header: &["Per"], figures: false },
    TextColumn { header: &["Before"], figures: true },
    TextColumn { header: &["Now"], figures: true },
    TextColumn { header: &["Moved"], figures: true },
];

/// The table; nothing where nothing moved.
pub(super) fn within(page: &Page<'_>) -> String {
    let all = OnTheWay::all(page.changes);
    if all.is_empty() {
        return String::new();
    }
    let mut out = page.title("On the way: parts of yield tests, and what is made for other dishes");
    let rows: Vec<TextRow> = all.iter().take(MOST).map(|one| row(page, one)).collect();
    out.push_str(&table("Part or recipe", &COLUMNS, &rows, page.view));
    out.push_str(&page.more(all.len()));
    out
}

fn row(page: &Page<'_>, one: &OnTheWay<'_>) -> TextRow {
    let cost = |cost: Decimal| (shown(Some(cost), page.places.saturating_add(1)), Ink::Plain);
    let cells = vec![
        (one.what.to_owned(), Ink::Plain),
        (one.unit.clone(), Ink::Plain),
        cost(one.was),
        cost(one.now),
        (one.moved.map_or_else(|| NONE.to_owned(), signed_percent), Ink::Plain),
    ];
    TextRow { name: printable(one.name), cells }
}
