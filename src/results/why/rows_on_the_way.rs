//! Rows of the book that a figure stands on, and the problems at their cells.

use std::collections::HashSet;

use crate::analysis::why::{Subject, Why};
use crate::costing::price::bought::PriceFrom;
use crate::costing::{Costing, LineCost, MeasureFrom};
use crate::kitchen::{InputRow, Kitchen};
use crate::problem::{Place, Problem};
use crate::results::stopped_by::Errors;

/// The errors that stop what is asked about, the nearest first.
pub(super) fn stopping<'a>(
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    why: &Why,
    problems: &'a [Problem],
) -> Vec<&'a Problem> {
    let errors = Errors::of(kitchen, costing, problems);
    match why.subject {
        Subject::Dish(index) => kitchen.dishes.get(index).map(|dish| errors.stopping(dish)).unwrap_or_default(),
        Subject::Recipe(id) => errors.stopping_recipe(id),
        Subject::Part(_) | Subject::Item(_) => {
            touching(kitchen, costing, why, problems).into_iter().filter(|problem| problem.is_error()).collect()
        }
    }
}

/// The problems at the rows that it stands on, in the order given.
pub(super) fn touching<'a>(
    kitchen: &Kitchen,
    costing: &Costing,
    why: &Why,
    problems: &'a [Problem],
) -> Vec<&'a Problem> {
    let rows = rows(kitchen, costing, why);
    let places: HashSet<&Place> = rows
        .iter()
        .flat_map(|row| std::iter::once(&row.place).chain(row.cells.iter().map(|cell| &cell.place)))
        .collect();
    problems.iter().filter(|problem| places.contains(&problem.place)).collect()
}

fn rows<'k>(kitchen: &'k Kitchen, costing: &Costing, why: &Why) -> Vec<&'k InputRow> {
    let entries = &kitchen.entries;
    let mut rows: Vec<&InputRow> = Vec::new();
    if let Subject::Dish(index) = why.subject {
        let row = kitchen.dishes.get(index).and_then(|dish| dish.row).and_then(|row| entries.menu.get(row));
        rows.extend(row.map(|row| &row.input));
    }
    let mut only = why.lines.as_deref();
    for id in &why.way.recipes {
        let asked = only.take();
        let Some(entry) = kitchen.recipe(*id).and_then(|recipe| entries.recipes.get(recipe.entry)) else { continue };
        if asked.is_none() {
            rows.push(&entry.input);
        }
        let is_asked = |index: usize| asked.is_none_or(|asked| asked.contains(&index));
        rows.extend(entry.lines.iter().enumerate().filter(|(at, _)| is_asked(*at)).map(|(_, line)| &line.input));
        let costs = costing.recipe(*id).map(|cost| cost.lines.as_slice()).unwrap_or_default();
        for (_, cost) in costs.iter().enumerate().filter(|(at, _)| is_asked(*at)) {
            let LineCost::Costed { trace, .. } = cost else { continue };
            rows.extend(trace.measures.iter().filter_map(|step| match step {
                MeasureFrom::Row(row) => entries.measures.get(*row).map(|row| &row.input),
                _ => None,
            }));
        }
    }
    for test in why.way.tests.iter().filter_map(|id| kitchen.test(*id)) {
        let went_in = test.runs.iter().map(|run| run.row).chain(test.added.iter().map(|added| added.row));
        let all = went_in.chain(test.parts.iter().flat_map(|part| part.rows.iter().copied()));
        rows.extend(all.filter_map(|row| entries.tests.get(row)).map(|row| &row.input));
    }
    for id in &why.way.items {
        let Some(item) = kitchen.item(*id) else { continue };
        // Of an item that is costed the row in use counts, and those that are newer.
        let used = costing.item(*id).and_then(|cost| match cost.from {
            PriceFrom::Row(row) => Some(row),
            _ => None,
        });
        let is_near = |row: &usize| used.is_none_or(|used| used == *row || is_newer(kitchen, *row, used));
        let near = item.rows.iter().copied().filter(|row| is_near(row));
        rows.extend(near.filter_map(|row| entries.prices.get(row)).map(|row| &row.input));
    }
    rows
}

fn is_newer(kitchen: &Kitchen, row: usize, used: usize) -> bool {
    let date = |row: usize| kitchen.entries.prices.get(row).and_then(|row| row.date.given().copied());
    date(row) > date(used)
}
