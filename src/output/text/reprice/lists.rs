//! The lists: how many of their rows were taken, what is held back, what the book does not know, and what they lack.

use super::super::many;
use super::{MOST, RepricePage};
use crate::analysis::supplier_list::{Change, Held};
use crate::results::changes::{happened, signed_percent, why};

/// Whose lists they are, and what became of their rows.
pub(super) fn files(page: &RepricePage<'_>) -> String {
    let list = page.changes.list;
    let mut out = String::new();
    for (file, supplier) in &list.suppliers {
        let of = if supplier.is_empty() { String::new() } else { format!(", the list of {supplier}") };
        out.push_str(&page.say(&format!("{file}{of}.")));
    }
    let same = list.taken.iter().filter(|taken| taken.moved.change == Change::Same).count();
    let moved = list.taken.len().saturating_sub(same);
    let counts = [
        (moved, "taken that moved"),
        (same, "taken at the price as before"),
        (list.held.len(), "held back"),
        (list.older.len(), "older than the book's, kept as history"),
        (list.already.len(), "in the book already"),
        (list.unknown.len(), "not in the book"),
    ];
    let told: Vec<String> =
        counts.iter().filter(|(count, _)| *count > 0).map(|(count, what)| format!("{count} {what}")).collect();
    let told = if told.is_empty() { "none of them a price for this book".to_owned() } else { told.join(", ") };
    out.push_str(&page.say(&format!("{}: {told}.", many(list.rows.len(), "price row", "price rows"))));
    for name in &list.accepted_in_vain {
        out.push_str(&page.say(&format!("--accept “{name}”: nothing was held back under that name.")));
    }
    out
}

/// What is held back, with what to do.
pub(super) fn held(page: &RepricePage<'_>) -> String {
    let held = &page.changes.list.held;
    if held.is_empty() {
        return String::new();
    }
    let mut out = page.title("Held back: these prices are not in the figures below");
    held.iter().take(MOST).for_each(|held| out.push_str(&page.point(&held_back(page, held))));
    out.push_str(&page.more(held.len()));
    out
}

fn held_back(page: &RepricePage<'_>, held: &Held) -> String {
    let name = page.changes.held_name(held);
    let moved = held.moved.as_ref().and_then(|moved| {
        let by = signed_percent(moved.by?);
        let what = happened(&moved.change).map(|what| format!("; {what}")).unwrap_or_default();
        Some(format!(" ({by} per unit{what})"))
    });
    let place = page.changes.list.rows.get(held.row).map(|row| row.input.place.to_string()).unwrap_or_default();
    let to_do = if held.why.may_be_accepted() {
        format!("If it is right: --accept \"{name}\".")
    } else {
        page.changes.held_because(held).map(|because| format!("{because}.")).unwrap_or_default()
    };
    format!("{name}: {}{}, {place}. {to_do}", why(held.why), moved.unwrap_or_default())
}

/// What the book does not know.
pub(super) fn unknown(page: &RepricePage<'_>) -> String {
    let list = page.changes.list;
    if list.unknown.is_empty() {
        return String::new();
    }
    let mut out = page.title("In the lists and not in the book");
    for unknown in list.unknown.iter().take(MOST) {
        let Some(row) = list.rows.get(unknown.row) else { continue };
        let code = if row.code.is_empty() { String::new() } else { format!(" (code {})", row.code) };
        let name = if row.item.is_empty() { "without a name" } else { &row.item };
        let question = unknown.question.as_ref().map(|question| format!(" {question}")).unwrap_or_default();
        out.push_str(&page.point(&format!("{name}{code}.{question} {}", unknown.what_to_do)));
    }
    out.push_str(&page.more(list.unknown.len()));
    out
}

/// What the lists do not have.
pub(super) fn missing(page: &RepricePage<'_>) -> String {
    let missing = &page.changes.list.missing;
    if missing.is_empty() {
        return String::new();
    }
    let mut out = page.title("Bought of these suppliers and not in their lists");
    for one in missing.iter().take(MOST) {
        let name = page.changes.old.item(one.item).map(|item| item.name.as_str()).unwrap_or_default();
        let question = one.question.as_ref().map(|question| format!("{question} ")).unwrap_or_default();
        out.push_str(&page.point(&format!("{name}. {question}{}", one.what_to_do)));
    }
    out.push_str(&page.more(missing.len()));
    out
}
