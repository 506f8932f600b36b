//! The three kitchens over the plan: what is in the dishes, left over, on hand and sold, and what using trim costs and
//! spares. The columns differ by what is saved.

use super::TrimSheet;
use super::balance::{LEFT_OVER, MADE, ON_HAND, TOO_OLD};
use super::kitchens::{MOST, column};
use super::places::Places;
use super::purchases;
use super::rates::{carried_cell, sold_cell};
use crate::analysis::balance::RecipeStock;
use crate::analysis::trim_savings::{Kept, Worth, own_rate, sells_at};
use crate::kitchen::PartId;
use crate::kitchen::yield_test::Role;
use crate::number::{Decimal, plain};
use crate::results::display_units::DisplayUnit;

/// How many rows they take.
pub(super) const TOTALS: u32 = 9;

const ROWS: [&str; 9] = [
    "In the dishes",
    "and left over",
    "less what was on hand",
    "less what is sold",
    "What the plan brings in",
    "and further cost of using trim",
    "less haulage spared",
    "What it comes to",
    "To buy, before whole packs",
];

pub(super) fn write(page: &mut TrimSheet<'_>, worth: &Worth) {
    let (Some(start), Some(plan)) = (page.places.totals, &worth.plan) else { return };
    let rows = [0, 1, 2, 3, 4, 5, 6, 7, 8].map(|below| start.saturating_add(below));
    let [served, left, on_hand, sold, brought_in, further_cost, haulage, comes_to, bought] = rows;
    for (row, text) in rows.into_iter().zip(ROWS) {
        page.words(row, 0, text);
    }
    for (kept, total) in Kept::ALL.into_iter().zip(plan.totals) {
        let at = column(kept);
        let Some(total) = total else {
            page.words(brought_in, at, "not known");
            page.words(comes_to, at, "not known");
            page.words(bought, at, "not known");
            continue;
        };
        let dishes: Vec<String> = page
            .places
            .served
            .iter()
            .map(|(_, row)| format!("{}*{}", Places::cell(*row, 1), Places::cell(*row, at)))
            .collect();
        amount(page, served, at, total.served, dishes);
        let terms = weights(page, kept, WeighedSide::LeftOver);
        amount(page, left, at, total.left_over, terms);
        let terms = weights(page, kept, WeighedSide::OnHand);
        amount(page, on_hand, at, total.on_hand, terms);
        let terms = sold_terms(page, kept);
        amount(page, sold, at, total.sold, terms);
        let cell = |row| Places::cell(row, at);
        let text = format!("{}+{}-{}-{}", cell(served), cell(left), cell(on_hand), cell(sold));
        let look = page.context.money();
        page.figure(brought_in, at, text, total.brought_in, look);
        amount(page, further_cost, at, total.further_cost, of_savers(page, kept, 5));
        amount(page, haulage, at, total.haulage, of_savers(page, kept, 6));
        let text = format!("{}+{}-{}", cell(brought_in), cell(further_cost), cell(haulage));
        let look = page.context.money();
        page.figure(comes_to, at, text, total.comes_to, look);
        let look = page.context.money();
        match purchases::total_cell(page.places, kept == Kept::Binned) {
            Some(cell) => page.figure(bought, at, cell, total.purchases, look),
            None => page.planned(bought, at, total.purchases, look),
        }
    }
}

/// A total over its terms.
fn amount(page: &mut TrimSheet<'_>, row: u32, at: u16, result: Decimal, terms: Vec<String>) {
    let look = page.context.money();
    if terms.is_empty() || terms.len() > MOST {
        page.planned(row, at, result, look);
    } else {
        page.figure(row, at, terms.join("+"), result, look);
    }
}

/// What using trim costs or spares stands in the table of what is saved; nothing of it where trim is binned.
fn of_savers(page: &TrimSheet<'_>, kept: Kept, column: u16) -> Vec<String> {
    let savers = page.places.savers.values().filter(|_| kept != Kept::Binned);
    savers.map(|row| Places::cell(*row, column)).collect()
}

/// Which side of the balance is weighed.
#[derive(Clone, Copy, PartialEq, Eq)]
enum WeighedSide {
    OnHand,
    LeftOver,
}

/// Weights of the balance times what the parts carry, and bought items at their prices. Nothing where recipes are on hand
/// too: what those cost in a kitchen stands in no cell, so all of it is a constant.
fn weights(page: &TrimSheet<'_>, kept: Kept, side: WeighedSide) -> Vec<String> {
    let Some(balance) = &page.trim.balance else { return Vec::new() };
    let is_there = |stock: &RecipeStock| match side {
        WeighedSide::OnHand => !stock.on_hand.is_zero(),
        WeighedSide::LeftOver => !stock.left_over.is_zero(),
    };
    if balance.recipes.iter().any(is_there) {
        return Vec::new();
    }
    let kitchen = page.context.kitchen;
    let parts = page.places.balanced.iter().filter_map(|(id, row)| {
        let part = kitchen.part(*id)?;
        let binned = kept == Kept::Binned && part.role == Role::ByProduct;
        let columns: &[u16] = match side {
            WeighedSide::OnHand if binned => return None,
            WeighedSide::OnHand => &[ON_HAND],
            // All that is made is sold, or goes in the bin.
            WeighedSide::LeftOver if binned => &[MADE],
            WeighedSide::LeftOver => &[LEFT_OVER, TOO_OLD],
        };
        let cells: Vec<String> = columns.iter().map(|column| Places::cell(*row, *column)).collect();
        let grams = plain(DisplayUnit::of_test(kitchen, kitchen.test(id.test)?).size);
        Some(format!("({})*{grams}*{}", cells.join("+"), carried_cell(page.places, *id, kept)?))
    });
    let items = purchases::terms(page, side == WeighedSide::LeftOver);
    parts.chain(items).collect()
}

/// What is sold: weights of the balance at the price that the kitchen which bins its trim takes off. Nothing where that
/// kitchen is not known: all of it is a constant.
fn sold_terms(page: &TrimSheet<'_>, kept: Kept) -> Vec<String> {
    let kitchen = page.context.kitchen;
    let prices = page.trim.worth.as_ref().and_then(|worth| worth.kitchens.first());
    let is_known = |id: &PartId| prices.is_some_and(|binned| own_rate(binned, *id).is_some());
    let is_sold = |id: &PartId| kitchen.part(*id).is_some_and(|part| sells_at(part).is_some());
    if page.places.balanced.keys().any(|id| is_sold(id) && !is_known(id)) {
        return Vec::new();
    }
    let terms = page.places.balanced.iter().filter_map(|(id, row)| {
        let part = kitchen.part(*id)?;
        sells_at(part)?;
        let price = carried_cell(page.places, *id, Kept::Binned)?;
        let grams = plain(DisplayUnit::of_test(kitchen, kitchen.test(id.test)?).size);
        Some(match kept {
            Kept::Binned => format!("{}*{grams}*{price}", Places::cell(*row, MADE)),
            Kept::Free | Kept::Credited => format!("{}*{price}", sold_cell(page.places, *id)?),
        })
    });
    terms.collect()
}
