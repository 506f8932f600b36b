//! The items of a book: one per name over all its price rows, with aliases and trim tests.

use super::lookups::Lookups;
use crate::kitchen::price::{CountedIn, Item, TrimYield};
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::{Role, Test, TestKind, TestRow};
use crate::kitchen::{Entries, Field, ItemId, NameKey, PartId, TestId};
use crate::number::{Decimal, exact};
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// Lists the items of the price rows under their names and aliases.
pub(super) fn list(entries: &Entries, lookups: &mut Lookups, problems: &mut Vec<Problem>) {
    for (index, row) in entries.prices.iter().enumerate() {
        let id = lookups.item_for(&row.item);
        if let Some(item) = lookups.item_mut(id) {
            item.rows.push(index);
            item.is_water = false;
        }
    }
    for row in &entries.prices {
        let Some(id) = lookups.bought(&row.item) else { continue };
        for alias in &row.aliases {
            if !lookups.alias(alias, id) {
                problems.push(
                    Fault::new(
                        Code::AliasTwice,
                        format!("“{alias}” is also the name of another item"),
                        format!("Take it out of Also called of “{}”, or of the other item.", row.item),
                    )
                    .at(row.input.place(Column::AlsoCalled)),
                );
            }
        }
    }
}

/// Notes for every item what its trim tests say about its yield.
pub(super) fn name_trim_tests(items: &mut [Item], tests: &[Test], problems: &mut Vec<Problem>) {
    let mut first_test: Vec<Option<&Test>> = vec![None; items.len()];
    for (index, test) in tests.iter().enumerate() {
        let (TestKind::Trim, IngredientSource::Bought(item)) = (test.kind, test.input) else { continue };
        let Some(known) = items.get_mut(item.index()) else { continue };
        if let Some(other) = first_test.get(item.index()).copied().flatten() {
            problems.push(
                Fault::new(
                    Code::TestsSeveral,
                    format!(
                        "“{}” and “{}” both break down {}, so neither gives its yield",
                        other.name, test.name, known.name
                    ),
                    "Name a part of one of them in recipes, or give repeats of one test the same name.",
                )
                .at(test.place.clone()),
            );
            known.trim = TrimYield::SeveralTests;
            continue;
        }
        if let Some(slot) = first_test.get_mut(item.index()) {
            *slot = Some(test);
        }
        known.trim = of_one_test(TestId::new(index), test);
    }
    for item in tests.iter().flat_map(|test| &test.contested) {
        if let Some(known) = items.get_mut(item.index()) {
            known.trim = TrimYield::Unreadable;
        }
    }
}

/// Notes for every item what its pieces weigh as purchased, where runs of its tests count and weigh them.
pub(super) fn weigh_pieces(items: &mut [Item], tests: &[Test]) {
    for test in tests {
        let IngredientSource::Bought(item) = test.input else { continue };
        let Some(known) = items.get_mut(item.index()) else { continue };
        for run in &test.runs {
            let Some(count) = run.count.filter(|count| *count > Decimal::ZERO && run.grams > Decimal::ZERO) else {
                continue;
            };
            let before =
                known.counted.unwrap_or(CountedIn { count: Decimal::ZERO, grams: Decimal::ZERO, row: run.row });
            if let (Ok(count), Ok(grams)) = (exact::add(before.count, count), exact::add(before.grams, run.grams)) {
                known.counted = Some(CountedIn { count, grams, ..before });
            }
        }
    }
}

fn of_one_test(id: TestId, test: &Test) -> TrimYield {
    if test.unclear {
        return TrimYield::Unreadable;
    }
    let mut mains = test.parts.iter().enumerate().filter(|(_, part)| part.role == Role::Main);
    match (mains.next(), mains.next()) {
        (Some((main, _)), None) => TrimYield::Main(PartId::new(id, main)),
        (Some(_), Some(_)) => TrimYield::SeveralMains(id),
        (None, _) => TrimYield::Unreadable,
    }
}

/// Gives an item that only yield tests name the price documented there: of all the tests that it went into the newest, and
/// of equally new ones the dearest, so that no order of rows makes a cost smaller.
pub(super) fn price_from_tests(
    entries: &Entries,
    name: &str,
    lookups: &mut Lookups,
    problems: &mut Vec<Problem>,
) -> Option<ItemId> {
    let key = NameKey::of(name);
    let went_in = |row: &&TestRow| {
        matches!(row.role, Field::Given(Role::AsPurchased | Role::Added)) && NameKey::of(&row.part) == key
    };
    let newest = entries
        .tests
        .iter()
        .enumerate()
        .filter(|(_, row)| went_in(row))
        .filter_map(|(index, row)| Some((index, row, *row.price.given()?, row.weight.given()?)))
        .max_by_key(|(_, row, price, weight)| (row.date.given().copied(), price.checked_div(weight.unit_grams)));
    let (index, row, price, weight) = newest?;
    let per = weight.unit.clone();
    let id = lookups.item_for(&row.part);
    let item = lookups.item_mut(id)?;
    if item.test_price.is_none() {
        item.is_water = false;
        item.test_price = Some(crate::kitchen::price::TestPrice { row: index, price, per });
        problems.push(
            Fault::new(
                Code::TestPriceUsed,
                format!("“{}” has no price row, so the price paid in its yield test is used", row.part),
                "Add a price row to cost it at today's price.",
            )
            .at(row.input.place(Column::Price)),
        );
    }
    Some(id)
}
