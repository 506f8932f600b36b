//! Trim balance: is there enough? The plan's weights, as they were worked out when the book was costed.

use super::TrimSheet;
use crate::analysis::balance::PartBalance;
use crate::results::allergen_words::in_words;
use crate::results::display_units::DisplayUnit;
use crate::workbook::cells::row::Look;

const HEADERS: [&str; 11] =
    ["Part", "Unit", "On hand", "Made", "Wanted", "Used", "Left over", "Too old", "Short", "Keeps, days", "Carries"];

/// Columns that totals are reckoned from.
pub(super) const ON_HAND: u16 = 2;
pub(super) const MADE: u16 = 3;
pub(super) const LEFT_OVER: u16 = 6;
pub(super) const TOO_OLD: u16 = 7;

pub(super) fn write(page: &mut TrimSheet<'_>) {
    let Some(start) = page.places.balance else { return };
    page.told_head(
        start,
        "Is there enough trim for the plan?",
        "Weights were worked out when the book was costed: after a change of portions or quantities they ask to cost it again.",
        &HEADERS,
    );
    for (id, row) in page.places.balanced.clone() {
        let part = page.trim.balance.as_ref().and_then(|balance| balance.part(id)).copied();
        let (Some(balance), Some(part)) = (part, page.context.kitchen.part(id)) else { continue };
        let Some(test) = page.context.kitchen.test(id.test) else { continue };
        let unit = DisplayUnit::of_test(page.context.kitchen, test);
        page.words(row, 0, &part.name);
        page.words(row, 1, &unit.name);
        if let Some(days) = part.reuse.keeps {
            page.planned(row, 9, days, Look::Quantity);
        }
        let carried = page.context.costing.test_allergens.get(id.test.index());
        let carried = carried.map(|set| in_words(set.contains.iter()).join(", ")).unwrap_or_default();
        if !carried.is_empty() {
            page.words(row, 10, &carried);
        }
        weights(page, row, &balance, &unit);
    }
    for (id, day, row) in page.places.days.clone() {
        let kitchen = page.context.kitchen;
        let by_day = page.trim.balance.as_ref().map(|balance| balance.by_day(id)).unwrap_or_default();
        let of_day = by_day.into_iter().find(|(other, _)| *other == day);
        let (Some((_, balance)), Some(part), Some(test)) = (of_day, kitchen.part(id), kitchen.test(id.test)) else {
            continue;
        };
        let unit = DisplayUnit::of_test(kitchen, test);
        let name = kitchen.plan.days.names.get(day).map(String::as_str).unwrap_or_default();
        page.words(row, 0, &format!("{}, {name}", part.name));
        page.words(row, 1, &unit.name);
        weights(page, row, &balance, &unit);
    }
}

/// A part's weights, over the plan or on one day.
fn weights(page: &mut TrimSheet<'_>, row: u32, balance: &PartBalance, unit: &DisplayUnit) {
    let weights = [
        balance.on_hand,
        balance.made,
        balance.wanted,
        balance.used,
        balance.left_over,
        balance.too_old,
        balance.short,
    ];
    for (weight, column) in weights.into_iter().zip(2_u16..) {
        page.planned(row, column, unit.count(weight).unwrap_or_default(), Look::Quantity);
    }
}
