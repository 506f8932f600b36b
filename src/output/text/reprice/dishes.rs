//! Dishes at the new prices, by money, and which ingredients drove it.

use super::super::table::{TextColumn, TextRow, table};
use super::super::{Emphasis, many, printable};
use super::{MOST, RepricePage};
use crate::analysis::reprice::{DishEffect, Drivers, NotPriced};
use crate::number::Decimal;
use crate::results::distinguishing_decimals;
use crate::results::figures::{NONE, percent, shown};
use crate::results::target_status::TargetStatus;

const COLUMNS: [TextColumn; 8] = [
    TextColumn { header: &["Portion", "before"], figures: true },
    TextColumn { header: &["Now"], figures: true },
    TextColumn { header: &["Moved"], figures: true },
    TextColumn { header: &["Food %", "before"], figures: true },
    TextColumn { header: &["Now"], figures: true },
    TextColumn { header: &["Target", "%"], figures: true },
    TextColumn { header: &["Price at", "target"], figures: true },
    TextColumn { header: &["Worth"], figures: true },
];

/// The dishes that moved; those that stand still are counted, those without a cost named.
pub(super) fn dishes(page: &RepricePage<'_>) -> String {
    let effects = page.changes.effects;
    let mut out = String::new();
    if !effects.dishes.is_empty() {
        out = page.title(&format!("What it does to the dishes; worth over {}", page.changes.portions()));
        let rows: Vec<TextRow> = effects.dishes.iter().take(MOST).map(|effect| row(page, effect)).collect();
        out.push_str(&table("Dish", &COLUMNS, &rows, page.view));
        out.push_str(&page.more(effects.dishes.len()));
    }
    if !effects.unmoved.is_empty() {
        let stand = if effects.unmoved.len() == 1 { "costs what it did" } else { "cost what they did" };
        out.push_str(&page.say(&format!("{} {stand}.", many(effects.unmoved.len(), "dish", "dishes"))));
    }
    let name = |index: usize| page.changes.new.dishes.get(index).map(|dish| dish.name.as_str()).unwrap_or_default();
    for (is, what) in [
        (DishEffect::is_newly_over as fn(&DishEffect) -> bool, "Newly over target"),
        (DishEffect::is_no_longer_over, "No longer over target"),
    ] {
        let names: Vec<&str> =
            effects.dishes.iter().filter(|effect| is(effect)).map(|effect| name(effect.dish)).collect();
        if !names.is_empty() {
            out.push_str(&page.point(&format!("{what}: {}.", names.join("; "))));
        }
    }
    for uncosted in &effects.uncosted {
        let when = match uncosted.when {
            NotPriced::Before => "can be costed only with the new prices",
            NotPriced::Now => "cannot be costed any more",
            NotPriced::Both => "is not costed, before or now",
        };
        out.push_str(&page.point(&format!("{} {when}.", name(uncosted.dish))));
    }
    out
}

fn row(page: &RepricePage<'_>, effect: &DishEffect) -> TextRow {
    let dish = page.changes.new.dishes.get(effect.dish);
    let money = |amount: Option<Decimal>| (shown(amount, page.places), Emphasis::Plain);
    let over = page.changes.standing(effect.dish) == TargetStatus::OverTarget;
    let worth = effect.worth.as_ref().map_or_else(|_| NONE.to_owned(), |worth| page.moved(*worth, page.places));
    // As many decimals as show that it moved.
    let (was, now) = (effect.was.portion_cost, effect.now.portion_cost);
    let places = distinguishing_decimals::places(was, now, page.places);
    let cells = vec![
        (shown(Some(was), places), Emphasis::Plain),
        (shown(Some(now), places), Emphasis::Plain),
        (page.moved(effect.change, places.max(page.places.saturating_add(1))), Emphasis::Plain),
        (percent(effect.was.food_cost), Emphasis::Plain),
        (percent(effect.now.food_cost), if over { Emphasis::Bad } else { Emphasis::Plain }),
        (percent(dish.and_then(|dish| dish.target)), Emphasis::Plain),
        money(effect.now.price_at_target),
        (worth, Emphasis::Strong),
    ];
    TextRow { name: dish.map(|dish| printable(&dish.name)).unwrap_or_default(), cells }
}

/// The most drivers that are named of one dish.
const DRIVERS: usize = 3;
/// The most dishes whose drivers are told.
const TOLD: usize = 12;

/// Which ingredients drove the dishes.
pub(super) fn reasons(page: &RepricePage<'_>) -> String {
    let dishes = &page.changes.effects.dishes;
    if dishes.is_empty() {
        return String::new();
    }
    let mut out = page.title("What drove it, in one portion");
    for effect in dishes.iter().take(TOLD) {
        let name = page.changes.new.dishes.get(effect.dish).map(|dish| dish.name.as_str()).unwrap_or_default();
        let told = match &effect.drivers {
            Ok(drivers) => told(page, drivers),
            Err(lack) => lack.words(page.changes.new),
        };
        out.push_str(&page.point(&format!("{name} {}: {told}.", page.moved(effect.change, MILLS))));
    }
    let more = dishes.len().saturating_sub(TOLD);
    if more > 0 {
        out.push_str(&page.say(&format!("… and {more} more dishes: --format json has all of them, exactly.")));
    }
    out
}

/// The decimals in which a portion's change is told.
const MILLS: u32 = 4;

fn told(page: &RepricePage<'_>, drivers: &Drivers) -> String {
    let mut words: Vec<String> = drivers
        .items
        .iter()
        .take(DRIVERS)
        .map(|driver| format!("{} {}", page.changes.driver(driver), page.moved(driver.change, MILLS)))
        .collect();
    let others = drivers.items.len().saturating_sub(DRIVERS);
    if let Some(rest) = drivers.beyond(DRIVERS).filter(|rest| !rest.is_zero()) {
        let who = if others == 0 { "many small ones".to_owned() } else { many(others, "other", "others") };
        words.push(format!("{who} {}", page.moved(rest, MILLS)));
    }
    if !drivers.other.is_zero() {
        words.push(format!("what belongs to no one item {}", page.moved(drivers.other, MILLS)));
    }
    words.join(", ")
}
