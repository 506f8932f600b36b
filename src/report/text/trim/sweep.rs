//! A credit moved from nothing to the whole AP price: one dish pays less as the other pays more, and the total stands still.

use super::super::figures::{NONE, percent, shown};
use super::super::table::{Column, Row, table};
use super::super::{Ink, printable};
use super::Page;
use crate::analysis::sweep::{DishAt, Side, Step, Sweep};
use crate::number::{Decimal, exact};

const COLUMNS: [Column; 7] = [
    Column { header: &["It", "bears"], figures: true },
    Column { header: &["The rest", "bears"], figures: true },
    Column { header: &["In", "all"], figures: true },
    Column { header: &["Made beside:", "a portion"], figures: true },
    Column { header: &["", "%"], figures: true },
    Column { header: &["Made of it:", "a portion"], figures: true },
    Column { header: &["", "%"], figures: true },
];

/// The table of one by-product, with one dish of each side.
pub(super) fn sweep(page: &Page<'_>, sweep: &Sweep) -> String {
    let Some(test) = page.kitchen.test(sweep.part.test) else { return String::new() };
    let Some(part) = page.kitchen.part(sweep.part) else { return String::new() };
    let first = |side: Side| sweep.dishes.iter().position(|dish| dish.side == side);
    let (maker, user) = (first(Side::Maker), first(Side::User));
    let mut out = Ink::Strong.on(&format!("What if {} were charged more, or less?", printable(&part.name)), page.view);
    out.push('\n');
    let named = |dish: Option<usize>| {
        let dish = dish.and_then(|index| page.kitchen.dishes.get(sweep.dishes.get(index)?.dish));
        dish.map_or("no dish", |dish| dish.name.as_str())
    };
    out.push_str(&page.say(&format!(
        "One batch of {}, charged from nothing to all of the AP price. Made beside it: {}. Made of it: {}.",
        test.name,
        named(maker),
        named(user)
    )));
    out.push('\n');
    let rows: Vec<Row> = sweep.steps.iter().map(|step| row(page, sweep, step, maker, user)).collect();
    out.push_str(&table("Charged, %", &COLUMNS, &rows, page.view));
    let stopped = sweep.steps.iter().find_map(|step| Some((step.fraction, step.outcome.as_ref().err()?)));
    if let Some((fraction, problem)) = stopped {
        out.push_str(&page.point(&format!("From {} % on: {}.", percent(Some(fraction)), problem.message())));
    }
    out.push_str(&page.say(
        "What one dish gains the other pays: a credit moves cost from dish to dish, and saves nothing by itself.",
    ));
    out
}

fn row(page: &Page<'_>, sweep: &Sweep, step: &Step, maker: Option<usize>, user: Option<usize>) -> Row {
    let name = percent(Some(step.fraction));
    let Ok(swept) = &step.outcome else {
        return Row { name, cells: vec![(NONE.to_owned(), Ink::Faint); COLUMNS.len()] };
    };
    let money = |amount: Option<Decimal>| (shown(amount, page.places), Ink::Plain);
    let own = swept.parts.get(sweep.part.index()).map(|part| part.cost);
    let rest = own.and_then(|own| exact::sub(swept.total, own).ok());
    let mut cells = vec![money(own), money(rest), money(Some(swept.total))];
    for dish in [maker, user] {
        let at: Option<DishAt> = dish.and_then(|index| swept.dishes.get(index).copied().flatten());
        cells.push(money(at.map(|at| at.portion_cost)));
        cells.push((percent(at.and_then(|at| at.food_cost)), Ink::Plain));
    }
    Row { name, cells }
}
