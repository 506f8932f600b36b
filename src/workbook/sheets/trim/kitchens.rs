//! The same kitchen three times, per portion and over the plan, and what the trim saves.

use super::TrimSheet;
use super::places::Places;
use super::rates::{buy_in_cell, paid_cell};
use crate::analysis::trim_savings::{DishWorth, Kept, Worth};
use crate::kitchen::PartId;
use crate::kitchen::plan::Served;
use crate::kitchen::reuse::PerWeight;
use crate::kitchen::yield_test::Part;
use crate::number::plain;
use crate::results::display_units::DisplayUnit;
use crate::schema::{Column, TableKind, Value};
use crate::workbook::cells::formula::Formula;
use crate::workbook::cells::row::{Cell, Look};
use crate::workbook::layout::recipe::Total;
use crate::workbook::layout::sheet_names;
use crate::workbook::sheets::dish_formulas::DishFormulas;

const HEADERS: [&str; 8] = [
    "Food in a portion",
    "Portions",
    "Trim binned",
    "Reused, free",
    "Reused, credited",
    "Food as costed",
    "Seasoning within",
    "Only earned credit",
];
const SAVED: [&str; 8] = [
    "What the plan's trim saves",
    "Unit",
    "Used",
    "Not bought",
    "Sale given up",
    "Further cost",
    "Haulage spared",
    "Saved",
];

/// The column in which a wage may be typed.
const WAGE: u16 = 4;

/// The most products of one formula; beyond that a total is a constant.
pub(super) const MOST: usize = 120;

pub(super) fn column(kept: Kept) -> u16 {
    match kept {
        Kept::Binned => 2,
        Kept::Free => 3,
        Kept::Credited => 4,
    }
}

pub(super) fn write(page: &mut TrimSheet<'_>) {
    let Some(worth) = &page.trim.worth else { return };
    page.told_head(
        page.places.kitchens,
        "The same kitchen three times",
        "Free and credited come to the same: a credit moves cost, and saves nothing by itself. Food as costed: with trim at its charge; less Seasoning within: Q and spice of sub-recipes' cards. Only earned credit: if trim left over is thrown away.",
        &HEADERS,
    );
    for (served, row) in page.places.served.clone() {
        if let Some(dish) = worth.dishes.iter().find(|dish| dish.served == served) {
            portion(page, dish, row);
        }
    }
    super::totals::write(page, worth);
    saved(page, worth);
}

fn portion(page: &mut TrimSheet<'_>, dish: &DishWorth, row: u32) {
    let context = page.context;
    page.words(row, 0, context.kitchen.served_name(dish.served));
    if let Some(portions) = dish.portions {
        match planned(page, dish.served) {
            Some(text) => page.figure(row, 1, text, portions, Look::Quantity),
            None => page.reading(row, 1, portions, Look::Quantity),
        }
    }
    let base = base(page, dish, row);
    only_earned(page, dish, row);
    for (kept, food) in Kept::ALL.into_iter().zip(dish.food) {
        let Some(food) = food else {
            page.words(row, column(kept), "not known");
            continue;
        };
        let mut text = base.clone();
        for (part, _, at) in page.places.used.by(dish.served) {
            let Some(text) = &mut text else { break };
            let (Some(paid), Some(rated)) = (paid_cell(page.places, *part, kept), page.places.rated.get(part)) else {
                continue;
            };
            text.push_str(&format!("+{}*({paid}-{})", Places::cell(*at, 1), Places::cell(*rated, 1)));
        }
        match text.filter(|text| text.len() < 8_000) {
            Some(text) => page.figure(row, column(kept), text, food, context.money()),
            None => page.planned(row, column(kept), food, context.money()),
        }
    }
}

/// The food of a dish of mains if the trim that is left over is thrown away. It comes of a costing of its own, so it stands
/// as long as the dish does, as costed and with trim reused free; else the cell asks to cost again.
fn only_earned(page: &mut TrimSheet<'_>, dish: &DishWorth, row: u32) {
    let plan = page.trim.worth.as_ref().and_then(|worth| worth.plan.as_ref());
    let Some(earned) = plan.and_then(|plan| plan.earned.iter().find(|earned| earned.served == dish.served)) else {
        return;
    };
    let (context, alone) = (page.context, earned.alone);
    let costed = match dish.served {
        Served::Dish(index) => context.costing.dishes.get(index).and_then(Option::as_ref).map(|dish| dish.food),
        Served::Recipe(_) => None,
    };
    let [_, free, _] = dish.food;
    let (Some(costed), Some(free)) = (costed, free) else {
        page.planned(row, 7, alone, context.money());
        return;
    };
    let stands = [(Places::cell(row, 5), costed), (Places::cell(row, column(Kept::Free)), free)];
    page.while_stand(row, 7, &stands, alone);
}

/// Food as costed, less what the cards of the recipes within it add: what the differences are added to.
fn base(page: &mut TrimSheet<'_>, dish: &DishWorth, row: u32) -> Option<String> {
    let Served::Dish(index) = dish.served else { return None };
    let context = page.context;
    let costed = context.costing.dishes.get(index)?.as_ref()?.food;
    let food = DishFormulas::of(context, index, (sheet_names::TRIM, row))?.food_cost(index);
    page.figure(row, 5, food, costed, context.money());
    let mut terms = Vec::new();
    for (recipe, _, at) in page.places.seasoned.by(dish.served) {
        let cell = |total| Some(context.total(*recipe, total)?.from(sheet_names::TRIM));
        terms.push(format!("{}*({}-{})", Places::cell(*at, 1), cell(Total::Batch)?, cell(Total::Food)?));
    }
    let uses = &page.trim.worth.as_ref()?.uses;
    let seasoning = uses.dishes.get(index)?.as_ref()?.seasoning(context.costing)?;
    if terms.is_empty() {
        page.reading(row, 6, seasoning, context.money());
    } else {
        page.figure(row, 6, terms.join("+"), seasoning, context.money());
    }
    Some(format!("{}-{}", Places::cell(row, 5), Places::cell(row, 6)))
}

/// The cells of the plan that name a dish, added up; `None` where one is no plain number.
fn planned(page: &TrimSheet<'_>, served: Served) -> Option<String> {
    let kitchen = page.context.kitchen;
    let rows = kitchen.plan.rows.iter().filter(|row| row.served == served);
    let cells: Option<Vec<String>> = rows
        .map(|row| {
            let typed = kitchen.entries.plan.get(row.row)?.input.typed(Column::Portions);
            let Value::Number(_) = typed.value else { return None };
            Some(page.context.input(TableKind::Plan, row.row, Column::Portions)?.from(sheet_names::TRIM))
        })
        .collect();
    cells.filter(|cells| !cells.is_empty()).map(|cells| cells.join("+"))
}

fn saved(page: &mut TrimSheet<'_>, worth: &Worth) {
    let (Some(start), Some(plan)) = (page.places.saved, &worth.plan) else { return };
    page.head(start, "What is saved: what need not be bought, less what using it costs", &SAVED);
    let mut sums = Vec::new();
    let mut last = start.saturating_add(1);
    for (id, row) in page.places.savers.clone() {
        last = last.max(row);
        saver(page, worth, id, row);
        let is_known = worth.parts.iter().any(|part| part.part == id && part.saved.is_some());
        sums.extend(is_known.then(|| Places::cell(row, 7)));
    }
    let row = last.saturating_add(1);
    page.words(row, 0, if plan.saving.is_some() { "In all" } else { "In all, as far as it is known" });
    let look = page.context.money();
    if sums.is_empty() || sums.len() > MOST {
        page.planned(row, 7, plan.known_saving, look);
    } else {
        page.figure(row, 7, sums.join("+"), plan.known_saving, look);
    }
    page.words(
        row.saturating_add(1),
        0,
        "Using the trim is worth while as long as the extra labor costs less than this.",
    );
    labor(page, row);
}

/// For how much labor what is saved would pay, at a wage that is typed there: a book says none.
fn labor(page: &mut TrimSheet<'_>, saved: u32) {
    const WANTED: &str = "type a wage";
    let row = saved.saturating_add(2);
    page.words(row, 0, "Minutes of labor that use it up, at an hourly wage of");
    page.put(row, Cell { look: page.context.money(), ..Cell::room(WAGE) });
    let (saved, wage) = (Places::cell(saved, 7), Places::cell(row, WAGE));
    let minutes = format!("INT(ROUND(MAX(0,{saved})*60/{wage},9))");
    let text = format!("IF(ISNUMBER({wage}),IF({wage}>0,{minutes},\"{WANTED}\"),\"{WANTED}\")");
    page.put(row, Cell::figure(7, Formula::text(text, WANTED), Look::Words));
}

fn saver(page: &mut TrimSheet<'_>, worth: &Worth, id: PartId, row: u32) {
    let context = page.context;
    let (Some(part), Some(of_part)) = (context.kitchen.part(id), worth.parts.iter().find(|part| part.part == id))
    else {
        return;
    };
    let Some(test) = context.kitchen.test(id.test) else { return };
    let unit = DisplayUnit::of_test(context.kitchen, test);
    let grams = plain(unit.size);
    let used = of_part.used.unwrap_or_default();
    page.words(row, 0, &part.name);
    page.words(row, 1, &unit.name);
    page.planned(row, 2, unit.count(used).unwrap_or_default(), Look::Quantity);
    let money = || context.money();
    page.planned(row, 4, of_part.not_sold, money());
    match further_cost(page, part) {
        Some(cell) => {
            page.figure(row, 5, format!("{}*{grams}*{cell}", Places::cell(row, 2)), of_part.further_cost, money())
        }
        None => page.planned(row, 5, of_part.further_cost, money()),
    }
    page.planned(row, 6, of_part.haulage, money());
    match (of_part.not_bought, of_part.saved, buy_in_cell(page.places, id)) {
        (Some(not_bought), Some(saved), Some(buy_in)) => {
            let text = format!("{}*{grams}*{buy_in}", Places::cell(row, 2));
            page.figure(row, 3, text, not_bought, money());
            let at = |column| Places::cell(row, column);
            page.figure(row, 7, format!("{}-{}-{}+{}", at(3), at(4), at(5), at(6)), saved, money());
        }
        _ => {
            page.words(row, 3, "not known");
            page.words(row, 7, "not known");
        }
    }
}

/// Further cost per gram, as a formula reads it off the row that states it, or may state it yet; `None` where it is no plain
/// number.
fn further_cost(page: &TrimSheet<'_>, part: &Part) -> Option<String> {
    let Some(PerWeight { money, grams }) = part.reuse.further_cost else {
        let [index] = part.rows.as_slice() else { return None };
        let unit_grams = page.context.kitchen.entries.tests.get(*index)?.weight.given()?.unit_grams;
        let cell = page.context.input(TableKind::YieldTests, *index, Column::FurtherCost)?.from(sheet_names::TRIM);
        return Some(format!("{cell}/{}", plain(unit_grams)));
    };
    part.rows.iter().rev().find_map(|index| {
        let row = page.context.kitchen.entries.tests.get(*index)?;
        let says = row.further_cost.given() == Some(&money) && row.weight.given()?.unit_grams == grams;
        let number = matches!(row.input.typed(Column::FurtherCost).value, Value::Number(_));
        let cell = page.context.input(TableKind::YieldTests, *index, Column::FurtherCost)?.from(sheet_names::TRIM);
        (says && number).then(|| format!("{cell}/{}", plain(grams)))
    })
}
