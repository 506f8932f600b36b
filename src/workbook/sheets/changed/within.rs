//! Parts and recipes between prices and dishes: parts of yield tests with their credits, and recipes that others use.

use super::{Writing, before, live, words};
use crate::number::plain;
use crate::results::on_the_way::{FigureOnTheWay, MovedOnTheWay};
use crate::workbook::cells::row::{Cell, Ink, Look};
use crate::workbook::layout::recipe::Total;
use crate::workbook::layout::sheet_names;

const HEADERS: [&str; 6] = ["Part or recipe", "Per", "Before", "Now", "Moved", "What it is"];

pub(super) fn within(page: &mut Writing<'_, '_>) {
    let all = MovedOnTheWay::all(page.changes);
    if all.is_empty() {
        return;
    }
    page.head("On the way: parts of yield tests, and what is made for other dishes", &HEADERS, &["Per", "What it is"]);
    let look = page.context.cost_per_unit();
    for one in all {
        let mut cells = vec![Cell::text(0, one.name, Ink::Reading), words(1, &one.unit)];
        cells.push(before(2, one.was, look.clone()));
        cells.push(match formula(page, &one) {
            Some(text) => live(3, text, one.now, look.clone()),
            None => before(3, one.now, look.clone()),
        });
        let text = format!("{}/{}-1", page.here(3), page.here(2));
        cells.extend(one.moved.map(|moved| live(4, text, moved, Look::Percent(1))));
        cells.push(words(5, one.what));
        page.put(cells);
    }
}

/// What it costs now, read off the sheet where it is figured.
fn formula(page: &Writing<'_, '_>, one: &MovedOnTheWay<'_>) -> Option<String> {
    let batch = |id| Some(page.context.total(id, Total::Batch)?.from(sheet_names::CHANGED));
    Some(match &one.of {
        FigureOnTheWay::Part(part, grams) => {
            let cell = page.context.part_cell(*part, "Cost per gram")?;
            format!("{}*{}", cell.from(sheet_names::CHANGED), plain(*grams))
        }
        FigureOnTheWay::Made(id, made) => format!("{}*{}/{}", batch(*id)?, made.times, plain(made.makes)),
        FigureOnTheWay::Batch(id) => batch(*id)?,
    })
}
