//! What holds for new prices in a book in whatever state: every dish is told once, and what drove it adds up.

use parings::analysis::Effects;
use parings::internals::resolve;
use parings::kitchen::price::Price;
use parings::kitchen::{Field, Kitchen};
use parings::{Costing, Reading, Scenario, cost};
use proptest::prelude::*;
use rust_decimal::Decimal;

use crate::support::options;

/// The kitchen with a row of its costing day for every price, each by another part of it dearer or cheaper.
fn moved(kitchen: &Kitchen) -> Kitchen {
    let mut entries = kitchen.entries.clone();
    for (n, row) in kitchen.entries.prices.iter().enumerate() {
        let mut row = row.clone();
        if let Field::Given(Price::Money(money)) = row.price {
            let factor = Decimal::new([107, 93, 250, 100][n % 4], 2);
            row.price = money.checked_mul(factor).map_or(Field::Broken, |money| Field::Given(Price::Money(money)));
        }
        row.date = Field::Given(kitchen.settings.costing_date);
        entries.prices.push(row);
    }
    resolve(entries, options()).0
}

/// Moves every price of a book, and moves it back.
pub fn holds(reading: &Reading, costing: &Costing) -> Result<(), TestCaseError> {
    let (old, new) = (&reading.kitchen, moved(&reading.kitchen));
    let now = cost(&new, &Scenario::of(&new));
    let there = Effects::of(old, costing, &new, &now);
    let back = Effects::of(&new, &now, old, costing);
    for effects in [&there, &back] {
        for dish in &effects.dishes {
            let Ok(drivers) = &dish.drivers else { continue };
            prop_assert_eq!(drivers.sum(), Ok(dish.change));
            let most = dish.was.portion_cost.max(dish.now.portion_cost);
            let name = &old.dishes[dish.dish].name;
            prop_assert!(drivers.other.abs() <= most * Decimal::new(1, 18), "{name}: {drivers:?} of {most}");
        }
        let mut told: Vec<usize> = effects.dishes.iter().map(|dish| dish.dish).collect();
        told.extend(&effects.unmoved);
        told.extend(effects.uncosted.iter().map(|dish| dish.dish));
        told.sort_unstable();
        prop_assert_eq!(told, (0..old.dishes.len()).collect::<Vec<_>>());
        prop_assert!(effects.switches.iter().all(|switch| switch.saving > Decimal::ZERO));
    }
    let (there, back): (Vec<_>, Vec<_>) = (there.unmoved.iter().collect(), back.unmoved.iter().collect());
    prop_assert_eq!(there, back);
    let still = Effects::of(old, costing, old, costing);
    prop_assert!(still.dishes.is_empty() && still.movers.is_empty() && still.tests.is_empty());
    Ok(())
}
