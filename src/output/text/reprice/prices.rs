//! Prices that moved, per unit, what that is worth, the basket as a whole, and which other supplier would be cheaper.

use super::super::table::{TextColumn, TextRow, table};
use super::super::{Emphasis, many, printable};
use super::{MOST, RepricePage};
use crate::analysis::reprice::{Mover, Switch};
use crate::number::Decimal;
use crate::results::changes::{happened, signed_percent};
use crate::results::figures::{NONE, shown};

const MOVERS: [TextColumn; 5] = [
    TextColumn { header: &["Per"], figures: false },
    TextColumn { header: &["Before"], figures: true },
    TextColumn { header: &["Now"], figures: true },
    TextColumn { header: &["Moved"], figures: true },
    TextColumn { header: &["Worth"], figures: true },
];

/// The items whose price moved, the costliest rise first.
pub(super) fn movers(page: &RepricePage<'_>) -> String {
    let movers = &page.changes.effects.movers;
    if movers.is_empty() {
        return page.say("No price in use moved.");
    }
    let mut out = page.title(&format!("What moved, per unit; worth over {}", page.changes.basket()));
    let rows: Vec<TextRow> = movers.iter().take(MOST).map(|mover| row(page, mover)).collect();
    out.push_str(&table("Item", &MOVERS, &rows, page.view));
    out.push_str(&page.more(movers.len()));
    for mover in movers.iter().take(MOST) {
        let Some(taken) = page.changes.taken(mover) else { continue };
        if let Some(what) = happened(&taken.moved.change) {
            out.push_str(&page.point(&format!("{}: {what}.", page.changes.item(mover.item))));
        }
    }
    for unpriced in &page.changes.effects.unpriced {
        let when = if unpriced.when == crate::analysis::reprice::NotPriced::Before {
            "has a price only now"
        } else {
            "has no price now"
        };
        out.push_str(&page.point(&format!("{} {when}.", page.changes.item(unpriced.item))));
    }
    out
}

fn row(page: &RepricePage<'_>, mover: &Mover) -> TextRow {
    let told = page.changes.told(mover);
    let cost = |cost: Option<Decimal>| shown(cost, page.places.saturating_add(1));
    let ink = match mover.fraction {
        Some(fraction) if fraction > Decimal::ZERO => Emphasis::Bad,
        Some(fraction) if fraction < Decimal::ZERO => Emphasis::Good,
        _ => Emphasis::Plain,
    };
    let worth = mover.worth.map_or_else(|_| NONE.to_owned(), |worth| page.moved(worth, page.places));
    let cells = vec![
        (told.unit.name.clone(), Emphasis::Plain),
        (cost(told.was), Emphasis::Plain),
        (cost(told.now), Emphasis::Plain),
        (mover.fraction.map_or_else(|| NONE.to_owned(), signed_percent), ink),
        (worth, Emphasis::Strong),
    ];
    TextRow { name: printable(page.changes.item(mover.item)), cells }
}

/// How much dearer the basket is.
pub(super) fn index(page: &RepricePage<'_>) -> String {
    let Ok(index) = &page.changes.effects.index else { return String::new() };
    let basket = page.changes.basket();
    if index.index.is_none() {
        return String::new();
    }
    let hundred = shown(index.points(), 2);
    let mut out = page.say(&format!(
        "What {basket} buys, {}, cost {} and costs {} now: an index of {hundred} (Laspeyres: the same quantities at both \
         prices, 100 before).",
        many(index.counted, "item", "items"),
        page.money(index.was),
        page.money(index.now),
    ));
    for (item, reason) in index.left_out.iter().take(MOST) {
        out.push_str(&page.point(&format!("Left out of it: {}, for {}.", page.changes.item(*item), reason.words())));
    }
    out
}

/// The most switches that are shown.
const SWITCHES: usize = 5;

/// Where another supplier's price, or another pack, is cheaper now.
pub(super) fn switches(page: &RepricePage<'_>) -> String {
    let worth: Vec<&Switch> = page.changes.effects.switches.iter().collect();
    if worth.is_empty() {
        return String::new();
    }
    let basket = page.changes.basket();
    let mut out = page.title(&format!("What a switch would save, over {basket}"));
    worth.iter().take(SWITCHES).for_each(|one| out.push_str(&page.point(&switch(page, one))));
    if worth.len() > SWITCHES {
        out.push_str(&page.say(&format!("… and {} more: --format json has them all.", worth.len() - SWITCHES)));
    }
    out
}

fn switch(page: &RepricePage<'_>, switch: &Switch) -> String {
    let changes = page.changes;
    let row = |index: usize| changes.new.entries.prices.get(index);
    let named = |index: usize| {
        row(index).map_or_else(String::new, |row| {
            let pack = row.pack.given().map(|pack| pack.text.clone()).unwrap_or_default();
            let supplier = if row.supplier.is_empty() { "no supplier named" } else { &row.supplier };
            if switch.is_other_supplier || pack.is_empty() {
                supplier.to_owned()
            } else {
                format!("{supplier} ({pack})")
            }
        })
    };
    let told = changes.told_switch(switch);
    let cost = |cost: Option<Decimal>| shown(cost, page.places.saturating_add(1));
    let worth = switch.worth.map_or_else(|reason| reason.words().to_owned(), |worth| page.money(worth));
    let preferred = if switch.is_preferred { " (marked Preferred)" } else { "" };
    format!(
        "{}: {}{preferred} at {} a usable {}, {} at {}: {worth}.",
        changes.item(switch.item),
        named(switch.from),
        cost(told.from),
        told.unit,
        named(switch.to),
        cost(told.to),
    )
}
