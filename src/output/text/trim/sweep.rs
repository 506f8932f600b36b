//! A credit moved from nothing to the whole AP price: one dish pays less as the other pays more, and the total stands
//! still.

use std::cmp::Ordering;

use super::super::table::{TextColumn, TextRow, table};
use super::super::{Emphasis, printable};
use super::TrimPage;
use crate::analysis::sweep::{DishAt, Side, Step, Sweep};
use crate::number::Decimal;
use crate::results::figures::{NONE, percent, shown};

const BORNE: [TextColumn; 3] = [
    TextColumn { header: &["It", "bears"], figures: true },
    TextColumn { header: &["The rest", "bears"], figures: true },
    TextColumn { header: &["In", "all"], figures: true },
];

fn columns(side: Side) -> [TextColumn; 2] {
    let portion: &'static [&'static str] = match side {
        Side::Maker => &["Made beside:", "a portion"],
        Side::User => &["Made of it:", "a portion"],
        Side::Both => &["Of both:", "a portion"],
    };
    [TextColumn { header: portion, figures: true }, TextColumn { header: &["", "%"], figures: true }]
}

/// The table of one by-product, with the first dish of each side.
pub(super) fn sweep(page: &TrimPage<'_>, sweep: &Sweep) -> String {
    let Some(test) = page.kitchen.test(sweep.part.test) else { return String::new() };
    let Some(part) = page.kitchen.part(sweep.part) else { return String::new() };
    let mut out =
        Emphasis::Strong.on(&format!("What if {} were charged more, or less?", printable(&part.name)), page.view);
    out.push('\n');
    let sides: Vec<String> = Side::ALL.into_iter().filter_map(|side| of_side(page, sweep, side)).collect();
    let sides = if sides.is_empty() { "No dish is made of either.".to_owned() } else { sides.join(" ") };
    let several = Side::ALL.into_iter().any(|side| names(page, sweep, side).len() > 1);
    let first = if several { " The first of each is shown; --format csv has them all." } else { "" };
    out.push_str(
        &page.say(&format!("One batch of {}, charged from nothing to all of the AP price. {sides}{first}", test.name)),
    );
    out.push('\n');
    let sides = Side::ALL.into_iter().filter(|side| sweep.dishes.iter().any(|dish| dish.side == *side)).count();
    let dishes = sweep.shown(sides);
    let mut all = BORNE.to_vec();
    all.extend(dishes.iter().filter_map(|index| sweep.dishes.get(*index)).flat_map(|dish| columns(dish.side)));
    let rows: Vec<TextRow> = sweep.steps.iter().map(|step| row(page, sweep, step, &dishes)).collect();
    out.push_str(&table("Charged, %", &all, &rows, page.view));
    let stopped = sweep.steps.iter().find_map(|step| Some((step.fraction, step.outcome.as_ref().err()?)));
    if let Some((fraction, problem)) = stopped {
        out.push_str(&page.point(&format!("From {} % on: {}.", percent(Some(fraction)), problem.message())));
    }
    for (index, dish) in sweep.dishes.iter().enumerate().filter(|(_, dish)| dish.side == Side::Both) {
        let name = page.kitchen.dishes.get(dish.dish).map(|dish| dish.name.as_str()).unwrap_or_default();
        let moves = match sweep.moves(index) {
            Some(Ordering::Less) => "it gains more by its mains than it pays for its trim",
            Some(Ordering::Greater) => "it pays more for its trim than it gains by its mains",
            Some(Ordering::Equal) => "what it pays for its trim it gains by its mains",
            None => continue,
        };
        out.push_str(&page.point(&format!("{name} is made of both: as the charge grows, {moves}.")));
    }
    out.push_str(&page.say(
        "What one dish gains the other pays: a credit moves cost from dish to dish, and saves nothing by itself.",
    ));
    out
}

fn names<'a>(page: &'a TrimPage<'_>, sweep: &Sweep, side: Side) -> Vec<&'a str> {
    let dishes = sweep.dishes.iter().filter(|dish| dish.side == side);
    dishes.filter_map(|dish| page.kitchen.dishes.get(dish.dish)).map(|dish| dish.name.as_str()).collect()
}

/// The dishes of one side, in a sentence; nothing where there are none.
fn of_side(page: &TrimPage<'_>, sweep: &Sweep, side: Side) -> Option<String> {
    const MOST: usize = 3;
    let lead = match side {
        Side::Maker => "Made beside it",
        Side::User => "Made of it",
        Side::Both => "Made of both",
    };
    let names = names(page, sweep, side);
    let more = names.len().saturating_sub(MOST);
    let told = names.iter().take(MOST).copied().collect::<Vec<_>>().join("; ");
    let more = if more == 0 { String::new() } else { format!("; and {more} more") };
    (!names.is_empty()).then(|| format!("{lead}: {told}{more}."))
}

fn row(page: &TrimPage<'_>, sweep: &Sweep, step: &Step, dishes: &[usize]) -> TextRow {
    let name = percent(Some(step.fraction));
    let Ok(swept) = &step.outcome else {
        let cells = BORNE.len().saturating_add(dishes.len().saturating_mul(2));
        return TextRow { name, cells: vec![(NONE.to_owned(), Emphasis::Faint); cells] };
    };
    let money = |amount: Option<Decimal>| (shown(amount, page.places), Emphasis::Plain);
    let mut cells = vec![money(swept.bears(sweep.part)), money(swept.rest(sweep.part)), money(Some(swept.total))];
    for index in dishes {
        let at: Option<DishAt> = swept.dishes.get(*index).copied().flatten();
        cells.push(money(at.map(|at| at.portion_cost)));
        cells.push((percent(at.and_then(|at| at.food_cost)), Emphasis::Plain));
    }
    TextRow { name, cells }
}
