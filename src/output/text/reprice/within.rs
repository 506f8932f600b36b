//! Parts and recipes between prices and dishes: to the parts of yield tests and their credits, and to recipes that
//! others use.

use super::super::table::{Column, Row, table};
use super::super::{Ink, printable};
use super::{MOST, Page};
use crate::analysis::reprice::{Change, PartEffect, RecipeEffect};
use crate::kitchen::TestId;
use crate::number::{Decimal, exact};
use crate::results::changes::{bearing, signed_percent};
use crate::results::display_units::{Scale, costed_by};
use crate::results::figures::shown;

const COLUMNS: [Column; 5] = [
    Column { header: &["What it is"], figures: false },
    Column { header: &["Per"], figures: false },
    Column { header: &["Before"], figures: true },
    Column { header: &["Now"], figures: true },
    Column { header: &["Moved"], figures: true },
];

/// The table; nothing where nothing moved.
pub(super) fn within(page: &Page<'_>) -> String {
    let effects = page.changes.effects;
    let parts = effects.tests.iter().flat_map(|test| test.parts.iter().map(move |part| (test.test, part)));
    let parts = parts.filter_map(|(test, part)| of_part(page, test, part));
    let recipes = effects.recipes.iter().filter_map(|recipe| of_recipe(page, recipe));
    let rows: Vec<Row> = parts.chain(recipes).collect();
    if rows.is_empty() {
        return String::new();
    }
    let mut out = page.title("On the way: parts of yield tests, and what is made for other dishes");
    let shown: Vec<Row> = rows.iter().take(MOST).cloned().collect();
    out.push_str(&table("Part or recipe", &COLUMNS, &shown, page.view));
    out.push_str(&page.more(rows.len()));
    out
}

fn of_part(page: &Page<'_>, test: TestId, effect: &PartEffect) -> Option<Row> {
    let kitchen = page.changes.new;
    let per_gram = effect.per_gram.filter(|change| change.moved())?;
    let part = kitchen.part(effect.part)?;
    let scale = Scale::of(kitchen, kitchen.test(test)?);
    let what = bearing(part.role, effect.charge.is_some());
    Some(row(page, (&part.name, what, &scale.name), per_gram, scale.grams))
}

fn of_recipe(page: &Page<'_>, effect: &RecipeEffect) -> Option<Row> {
    let recipe = page.changes.new.recipe(effect.recipe)?;
    match (&effect.unit, recipe.makes.first()) {
        (Some(_), Some(makes)) => {
            let unit = makes.unit.name();
            let (unit, times) = costed_by(&unit);
            let per = exact::div(Decimal::from(times), makes.amount).ok()?;
            Some(row(page, (&recipe.name, "recipe", unit), effect.batch, per))
        }
        _ => Some(row(page, (&recipe.name, "recipe", "batch"), effect.batch, Decimal::ONE)),
    }
}

fn row(page: &Page<'_>, (name, what, unit): (&str, &str, &str), change: Change, times: Decimal) -> Row {
    let in_unit = |cost: Decimal| (shown(exact::mul(cost, times).ok(), page.places.saturating_add(1)), Ink::Plain);
    let moved = change.fraction().map_or_else(|_| "–".to_owned(), signed_percent);
    let cells = vec![
        (what.to_owned(), Ink::Plain),
        (unit.to_owned(), Ink::Plain),
        in_unit(change.was),
        in_unit(change.now),
        (moved, Ink::Plain),
    ];
    Row { name: printable(name), cells }
}
