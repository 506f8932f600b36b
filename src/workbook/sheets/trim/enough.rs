//! Portions for which there is enough trim that nothing is bought in for, day by day.

use super::TrimSheet;
use crate::workbook::cells::row::Look;

const HEADERS: [&str; 4] = ["Enough trim for", "Day", "Planned", "Enough for"];

pub(super) fn write(page: &mut TrimSheet<'_>) {
    let promise = page.trim.balance.as_ref().and_then(|balance| balance.promise.as_ref());
    let (Some(start), Some(promise)) = (page.places.enough, promise) else { return };
    let whole = if promise.is_whole { "" } else { " The plan is too large to say so for all of its days." };
    let kitchen = page.context.kitchen;
    let short = promise.parts.iter().filter_map(|part| Some(kitchen.part(*part)?.name.as_str()));
    let short = short.collect::<Vec<&str>>().join(", ");
    let short = if short.is_empty() { "trim".to_owned() } else { short };
    let told = format!(
        "Of {short}, in whose place nothing is bought. An earlier day serves what it can; on one day dishes are cut by one share, in whole portions, and what that leaves goes portion by portion in the plan's order.{whole}"
    );
    page.told_head(start, "For how many portions is there enough?", &told, &HEADERS);
    for (one, row) in promise.portions.iter().zip(start.saturating_add(3)..) {
        page.words(row, 0, kitchen.served_name(one.served));
        page.words(row, 1, kitchen.plan.days.names.get(one.day).map(String::as_str).unwrap_or_default());
        page.planned(row, 2, one.planned, Look::Quantity);
        page.planned(row, 3, one.portions, Look::Quantity);
    }
}
