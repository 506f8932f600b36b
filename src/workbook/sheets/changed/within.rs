//! Parts and recipes between prices and dishes: parts of yield tests with their credits, and recipes that others use.

use super::{Page, before, live, words};
use crate::number::{Decimal, exact, plain};
use crate::results::changes::bearing;
use crate::results::display_units::{Scale, costed_by};
use crate::workbook::cells::row::{Cell, Ink, Look};
use crate::workbook::layout::recipe::Total;
use crate::workbook::layout::sheet_names;

const HEADERS: [&str; 6] = ["Part or recipe", "Per", "Before", "Now", "Moved", "What it is"];

pub(super) fn within(page: &mut Page<'_, '_>) {
    let rows: Vec<Line> = parts(page).into_iter().chain(recipes(page)).collect();
    if rows.is_empty() {
        return;
    }
    page.head("On the way: parts of yield tests, and what is made for other dishes", &HEADERS, &["Per", "What it is"]);
    let look = page.context.cost_per_unit();
    for line in rows {
        let mut cells = vec![Cell::text(0, line.name, Ink::Reading), words(1, line.unit)];
        cells.push(before(2, line.was, look.clone()));
        cells.push(match line.cell {
            Some(cell) => live(3, cell, line.now, look.clone()),
            None => before(3, line.now, look.clone()),
        });
        let moved = exact::sub(line.now, line.was).and_then(|moved| exact::div(moved, line.was));
        let text = format!("{}/{}-1", page.here(3), page.here(2));
        cells.extend(moved.ok().map(|moved| live(4, text, moved, Look::Percent(1))));
        cells.push(words(5, line.what));
        page.put(cells);
    }
}

struct Line {
    name: String,
    unit: String,
    was: Decimal,
    now: Decimal,
    cell: Option<String>,
    what: &'static str,
}

fn parts(page: &Page<'_, '_>) -> Vec<Line> {
    let (context, changes) = (page.context, page.changes);
    let parts = changes.effects.tests.iter().flat_map(|test| &test.parts);
    let line = |effect: &crate::analysis::reprice::PartEffect| {
        let per_gram = effect.per_gram.filter(|change| change.moved())?;
        let part = changes.new.part(effect.part)?;
        let scale = Scale::of(changes.new, changes.new.test(effect.part.test)?);
        let what = bearing(part.role, effect.charge.is_some());
        let cell = context.part_cell(effect.part, "Cost per gram");
        Some(Line {
            name: part.name.clone(),
            unit: scale.name,
            was: exact::mul(per_gram.was, scale.grams).ok()?,
            now: exact::mul(per_gram.now, scale.grams).ok()?,
            cell: cell.map(|cell| format!("{}*{}", cell.from(sheet_names::CHANGED), plain(scale.grams))),
            what,
        })
    };
    parts.filter_map(line).collect()
}

fn recipes(page: &Page<'_, '_>) -> Vec<Line> {
    let (context, changes) = (page.context, page.changes);
    let line = |effect: &crate::analysis::reprice::RecipeEffect| {
        let recipe = changes.new.recipe(effect.recipe)?;
        let batch = context.total(effect.recipe, Total::Batch)?.from(sheet_names::CHANGED);
        let name = recipe.name.clone();
        Some(match recipe.makes.first().filter(|_| effect.unit.is_some()) {
            Some(makes) => {
                let typed = makes.unit.name();
                let (unit, times) = costed_by(&typed);
                let of_one = |batch: Decimal| {
                    exact::mul(batch, Decimal::from(times)).and_then(|many| exact::div(many, makes.amount)).ok()
                };
                Line {
                    name,
                    unit: unit.to_owned(),
                    was: of_one(effect.batch.was)?,
                    now: of_one(effect.batch.now)?,
                    cell: Some(format!("{batch}*{times}/{}", plain(makes.amount))),
                    what: "recipe",
                }
            }
            None => Line {
                name,
                unit: "batch".to_owned(),
                was: effect.batch.was,
                now: effect.batch.now,
                cell: Some(batch),
                what: "recipe",
            },
        })
    };
    changes.effects.recipes.iter().filter_map(line).collect()
}
