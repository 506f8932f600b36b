//! The dishes that moved, by money, and which ingredients drove them.

use super::{Writing, before, live, words};
use crate::analysis::reprice::DishEffect;
use crate::number::Decimal;
use crate::results::distinguishing_decimals;
use crate::workbook::cells::row::{Cell, Ink, Look};
use crate::workbook::layout::sheet_names;
use crate::workbook::layout::summary_columns::SummaryColumn;

pub(super) const HEADERS: [&str; 11] = [
    "Dish",
    "Portion before",
    "Now",
    "Moved",
    "Food cost % before",
    "Now",
    "Target %",
    "Price at target",
    "Portions",
    "Worth",
    "Standing now",
];

pub(super) fn dishes(page: &mut Writing<'_, '_>) {
    let changes = page.changes;
    let title = format!("What it does to the dishes; worth over {}", changes.portions());
    page.head(&title, &HEADERS, &["Standing now"]);
    for effect in &changes.effects.dishes {
        let cells = row(page, effect);
        page.put(cells);
    }
    let unmoved = changes.effects.unmoved.len();
    page.say(&match unmoved {
        0 => "Every dish that is costed moved.".to_owned(),
        1 => "1 dish costs what it did.".to_owned(),
        many => format!("{many} dishes cost what they did."),
    });
}

pub(super) fn row(page: &Writing<'_, '_>, effect: &DishEffect) -> Vec<Cell> {
    use SummaryColumn as C;
    let (context, changes) = (page.context, page.changes);
    let money = || context.money();
    let dish = changes.new.dishes.get(effect.dish);
    let at = |column: C| column.cell(effect.dish).from(sheet_names::CHANGED);
    let name = dish.map(|dish| dish.name.as_str()).unwrap_or_default();
    let mut cells = vec![Cell::link(0, name, &C::Dish.cell(effect.dish), Ink::Reading)];
    // As many decimals as show that it moved, up to four.
    let (was, now) = (effect.was.portion_cost, effect.now.portion_cost);
    let portion = || match money() {
        Look::Money { sign, places } => Look::Money {
            sign,
            places: distinguishing_decimals::places(was, now, places).min(places.saturating_add(2)),
        },
        other => other,
    };
    cells.push(before(1, was, portion()));
    cells.push(live(2, at(C::PortionCost), now, portion()));
    let text = format!("{}-{}", page.here(2), page.here(1));
    let change = if portion() == money() { context.cost_per_unit() } else { portion() };
    cells.push(live(3, text, effect.change, change));
    cells.extend(effect.was.food_cost.map(|share| before(4, share, Look::Percent(1))));
    let now =
        |column, summary, result: Option<Decimal>, look| result.map(|result| live(column, at(summary), result, look));
    cells.extend(now(5, C::FoodCost, effect.now.food_cost, Look::Percent(1)));
    cells.extend(now(6, C::Target, dish.and_then(|dish| dish.target), Look::Percent(1)));
    cells.extend(now(7, C::PriceAtTarget, effect.now.price_at_target, money()));
    if let Some(portions) = effect.portions.or_else(|| changes.new.plan.rows.is_empty().then_some(Decimal::ONE)) {
        cells.push(before(8, portions, Look::Quantity));
        let text = format!("{}*{}", page.here(3), page.here(8));
        cells.extend(effect.worth.as_ref().ok().map(|worth| live(9, text, *worth, money())));
    }
    let standing = changes.standing(effect.dish).words();
    let newly = if effect.is_newly_over() { ", newly" } else { "" };
    cells.push(words(10, format!("{standing}{newly}")));
    cells
}

/// The most rows of the table of drivers.
const MOST: usize = 5_000;

/// What drove every dish: rows that add up to its change.
pub(super) fn drivers(page: &mut Writing<'_, '_>) {
    let changes = page.changes;
    let known = changes.effects.dishes.iter().filter_map(|effect| Some((effect, effect.drivers.as_ref().ok()?)));
    let rows: Vec<(&DishEffect, String, Decimal)> = known
        .flat_map(|(effect, drivers)| {
            let items = drivers.items.iter().map(|one| (changes.driver(one), one.change));
            let rest = [("many small ones", drivers.together), ("no one item", drivers.other)];
            let rest = rest.into_iter().filter(|(_, change)| !change.is_zero());
            let all: Vec<(String, Decimal)> =
                items.chain(rest.map(|(name, change)| (name.to_owned(), change))).collect();
            all.into_iter().map(move |(name, change)| (effect, name, change))
        })
        .take(MOST)
        .collect();
    if rows.is_empty() {
        return;
    }
    page.head(
        "What drove it, in one portion: the rows of a dish add up to its change",
        &["Dish", "By", "Item"],
        &["Item"],
    );
    let look = page.context.small_cost();
    for (effect, item, change) in rows {
        let name = changes.new.dishes.get(effect.dish).map(|dish| dish.name.as_str()).unwrap_or_default();
        page.put(vec![Cell::text(0, name, Ink::Reading), before(1, change, look.clone()), words(2, item)]);
    }
}
