//! Prices that moved, per unit, what that is worth over the basket, the basket's index, and switches that would save.

use super::{Writing, before, detail, live, picture_rows, words};
use crate::analysis::reprice::{Index, Mover};
use crate::costing::price::bought::PriceFrom;
use crate::results::changes::{Changes, happened};
use crate::schema::{Column, TableKind, own_sheets};
use crate::workbook::cells::formula::Ref;
use crate::workbook::cells::row::{Cell, Ink, Look};
use crate::workbook::layout::sheet_names;

const MOVERS: [&str; 8] = own_sheets::MOVERS;
/// The column of what a move is worth.
pub(super) const WORTH: u16 = 6;

/// The row of the first mover: below its heading and headers.
fn first_mover(changes: &Changes<'_>) -> u32 {
    detail(changes).saturating_add(picture_rows(changes)).saturating_add(3)
}

pub(super) fn worth_cell(changes: &Changes<'_>, at: usize) -> Ref {
    let below = u32::try_from(at).unwrap_or(u32::MAX);
    Ref::new(sheet_names::CHANGED, first_mover(changes).saturating_add(below), WORTH)
}

/// The row of the first cell that the picture is drawn from.
pub(super) fn pictured_row(changes: &Changes<'_>) -> u32 {
    let movers = u32::try_from(changes.effects.movers.len()).unwrap_or(u32::MAX);
    first_mover(changes).saturating_add(movers).saturating_add(3)
}

pub(super) fn movers(page: &mut Writing<'_, '_>) {
    let changes = page.changes;
    let title = format!("What moved, per unit; worth over {}", changes.basket());
    page.head(&title, &MOVERS, &["Per", "What happened"]);
    for mover in &changes.effects.movers {
        let cells = row(page, mover);
        page.put(cells);
    }
    if changes.effects.movers.is_empty() {
        page.say("No price in use moved.");
    }
}

fn row(page: &Writing<'_, '_>, mover: &Mover) -> Vec<Cell> {
    let (context, changes) = (page.context, page.changes);
    let per_unit = context.cost_per_unit();
    let told = changes.told(mover);
    let name = changes.item(mover.item);
    let item = match mover.now.from {
        PriceFrom::Row(row) => context.input(TableKind::Prices, row, Column::Item),
        PriceFrom::TestRow(_) | PriceFrom::Water => None,
    };
    let mut cells = vec![match item {
        Some(cell) => Cell::link(0, name, &cell, Ink::Reading),
        None => Cell::text(0, name, Ink::Reading),
    }];
    cells.push(words(1, &told.unit.name));
    cells.extend(told.was.map(|cost| before(2, cost, per_unit.clone())));
    if let Some(now) = told.now {
        let source = match mover.now.from {
            PriceFrom::Row(row) if mover.now.kind == mover.was.kind => {
                context.own(TableKind::Prices, row, "AP per g, ml, each")
            }
            _ => None,
        };
        cells.push(match source {
            Some(cell) => {
                let text = format!("{}*{}", cell.from(sheet_names::CHANGED), crate::number::plain(told.unit.size));
                live(3, text, now, per_unit)
            }
            None => before(3, now, per_unit),
        });
        let text = format!("{}/{}-1", page.here(3), page.here(2));
        cells.extend(mover.fraction.map(|fraction| live(4, text, fraction, Look::Percent(1))));
    }
    if let Some(quantity) = told.quantity {
        cells.push(before(5, quantity, Look::Quantity));
        if let (Ok(worth), Some(_)) = (mover.worth, told.now) {
            let text = format!("({}-{})*{}", page.here(3), page.here(2), page.here(5));
            cells.push(live(WORTH, text, worth, context.money()));
        }
    }
    let what = changes.taken(mover).and_then(|taken| happened(&taken.moved.change));
    cells.extend(what.map(|what| words(7, what)));
    cells
}

/// What the picture is drawn from.
pub(super) fn pictured(page: &mut Writing<'_, '_>) {
    let changes = page.changes;
    let shown = super::pictured(changes);
    if shown.is_empty() {
        return;
    }
    // The head of the table stands where an empty list would be told.
    page.row = pictured_row(changes).saturating_sub(3);
    page.head("What the picture is drawn from", &["Item", "", "", "", "", "", "Worth"], &[]);
    for (at, mover) in shown {
        let Ok(worth) = mover.worth else { continue };
        let text = worth_cell(changes, at).cell();
        let money = page.context.money();
        page.put(vec![Cell::text(0, changes.item(mover.item), Ink::Reading), live(WORTH, text, worth, money)]);
    }
}

/// What the basket costs, beside what it cost: that and all moves.
pub(super) fn basket_now(page: &Writing<'_, '_>, index: &Index) -> Cell {
    let (changes, money) = (page.changes, page.context.money());
    let movers = &changes.effects.movers;
    if movers.is_empty() || !index.is_sum_of(movers) {
        return before(2, index.now, money);
    }
    let last = worth_cell(changes, movers.len().saturating_sub(1)).cell();
    live(2, format!("{}+SUM({}:{last})", page.here(1), worth_cell(changes, 0).cell()), index.now, money)
}

/// What the basket cost and costs.
pub(super) fn index(page: &mut Writing<'_, '_>) {
    let changes = page.changes;
    let Ok(index) = &changes.effects.index else { return };
    let title = format!("What {} buys, at both prices", changes.basket());
    page.head(&title, &["Laspeyres: the same quantities", "Before", "Now", "Index"], &[]);
    let money = page.context.money();
    let mut cells = vec![Cell::text(0, format!("{} items", index.counted), Ink::Reading), before(1, index.was, money)];
    cells.push(basket_now(page, index));
    // An index of prices is a number about 100, no percentage.
    let text = format!("{}*100/{}", page.here(2), page.here(1));
    cells.extend(index.points().map(|hundred| live(3, text, hundred, Look::Money { sign: "".into(), places: 2 })));
    page.put(cells);
    for (item, reason) in &index.left_out {
        page.say(&format!("Left out: {}, for {}.", changes.item(*item), reason.words()));
    }
}

/// Where another price is cheaper.
pub(super) fn switches(page: &mut Writing<'_, '_>) {
    let changes = page.changes;
    if changes.effects.switches.is_empty() {
        return;
    }
    let title = format!("What a switch of supplier would save, over {}", changes.basket());
    page.head(&title, &["Item", "Saves", "Buys from", "", "", "Instead from"], &["Buys from", "Instead from"]);
    let supplier = |row: usize| {
        let row = changes.new.entries.prices.get(row);
        row.map(|row| {
            let pack = row.pack.given().map(|pack| format!(" ({})", pack.text)).unwrap_or_default();
            format!("{}{pack}", if row.supplier.is_empty() { "no supplier named" } else { &row.supplier })
        })
        .unwrap_or_default()
    };
    for switch in &changes.effects.switches {
        let mut cells = vec![Cell::text(0, changes.item(switch.item), Ink::Reading)];
        cells.extend(switch.worth.ok().map(|worth| before(1, worth, page.context.money())));
        let preferred = if switch.is_preferred { ", preferred" } else { "" };
        cells.push(words(2, format!("{}{preferred}", supplier(switch.from))));
        cells.push(words(5, supplier(switch.to)));
        page.put(cells);
    }
}
