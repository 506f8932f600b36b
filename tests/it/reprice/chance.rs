//! Laws over kitchens and new prices of chance: drivers add up to the change exactly, nothing is left over beyond rounding, and
//! each is what its item's row alone does.

use proptest::collection::vec;
use proptest::prelude::*;
use rust_decimal::Decimal;

use super::alone::each_alone;
use super::{Repriced, between};
use crate::laws::kitchen::{Kitchen, kitchen};
use crate::support::{chance, cost_bytes};

/// The book with a new price, in percent of the old one, for every row that has one; `only` keeps the rows of one item.
fn written(kitchen: &Kitchen, percents: &[Option<i64>], only: Option<&str>) -> String {
    let tables = kitchen.tables();
    let mut prices: Vec<String> = tables.prices.iter().map(|row| format!("{row},")).collect();
    for (row, percent) in tables.prices.iter().zip(percents.iter().cycle()) {
        let cells: Vec<&str> = row.split(',').collect();
        let Some(percent) = percent.filter(|_| only.is_none_or(|only| cells[0] == only)) else { continue };
        let price = cells[2].parse::<Decimal>().unwrap() * Decimal::new(percent, 2);
        prices.push(format!("{},{},{price},{},,2026-11-01", cells[0], cells[1], cells[3]));
    }
    let mut files = tables.files();
    for (name, text) in &mut files {
        if name == "prices.csv" {
            *text = format!("Item,Pack,Price,Per,Yield,Date\n{}\n", prices.join("\n"));
        }
    }
    files.into_iter().map(|(_, text)| text).collect::<Vec<_>>().join("\n")
}

fn repriced(kitchen: &Kitchen, percents: &[Option<i64>]) -> Repriced {
    between(&written(kitchen, &[None], None), &written(kitchen, percents, None))
}

/// New prices from a tenth of the old to three times as much; some stay.
fn percents() -> impl Strategy<Value = Vec<Option<i64>>> {
    vec(prop::option::weighted(0.8, 10_i64..300), 1..9)
}

proptest! {
    #![proptest_config(chance(16))]

    #[test]
    fn drivers_add_up_and_leave_nothing_over(kitchen in kitchen(), percents in percents()) {
        let found = repriced(&kitchen, &percents);
        let within = Decimal::new(1, 18);
        for effect in &found.effects.dishes {
            let drivers = effect.drivers.as_ref().unwrap();
            prop_assert_eq!(drivers.sum(), Ok(effect.now.portion_cost - effect.was.portion_cost));
            let most = effect.now.portion_cost.max(effect.was.portion_cost);
            prop_assert!(drivers.other.abs() <= most * within, "{} is left over of {most}", drivers.other);
            prop_assert_eq!(drivers.together, Decimal::ZERO);
        }
        let told = found.effects.dishes.len() + found.effects.unmoved.len() + found.effects.uncosted.len();
        prop_assert_eq!(told, found.new.kitchen.dishes.len());
    }

    #[test]
    fn worth_of_movers_is_what_the_basket_moved(kitchen in kitchen(), percents in percents()) {
        let found = repriced(&kitchen, &percents);
        let index = found.effects.index.as_ref().unwrap();
        let worth: Decimal = found.effects.movers.iter().map(|mover| mover.worth.unwrap()).sum();
        prop_assert!((index.now - index.was - worth).abs() <= index.was.max(Decimal::ONE) * Decimal::new(1, 20));
        for (_, percent) in found.effects.movers.iter().zip(&percents) {
            // Where all prices move alike, so does the basket.
            if percents.iter().all(|one| one.is_some() && one == percent) && !index.was.is_zero() {
                let expected = Decimal::new(percent.unwrap(), 2);
                prop_assert!((index.index.unwrap() - expected).abs() <= Decimal::new(1, 20));
            }
        }
    }
}

proptest! {
    #![proptest_config(chance(4))]

    #[test]
    fn each_driver_is_what_its_row_alone_does(kitchen in kitchen(), percents in percents()) {
        let found = repriced(&kitchen, &percents);
        // Credits in money may be more than a cheaper input costs, in one of the books and not in the other.
        prop_assume!(found.effects.uncosted.is_empty());
        each_alone(&found, |name| cost_bytes(&[("book.csv", written(&kitchen, &percents, Some(name)).as_bytes())]));
    }
}
