//! Laws of the balance and of the three kitchens, over houses of chance: nothing is lost, no money is made by a credit.

use parings::analysis::balance::{Balance, PartBalance};
use parings::analysis::reach::Reach;
use parings::costing::rate::Amount;
use parings::costing::{Charging, Costing, Rate};
use parings::kitchen::PartId;
use parings::kitchen::reuse::{Otherwise, PerWeight};
use parings::kitchen::yield_test::Role;
use parings::{Scenario, cost};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use rust_decimal::Decimal;

use super::errors;
use super::house::house;
use super::planned::{Planned, planned};

/// One in a thousand billion million: what money is kept to over a plan.
const OF_PURCHASES: Decimal = Decimal::from_parts(1, 0, 0, false, 15);
const CLOSE: Decimal = Decimal::from_parts(1, 0, 0, false, 18);

/// Whether two figures are one, but for so much of `size`.
fn close(left: Decimal, right: Decimal, within: Decimal, size: Decimal) -> bool {
    (left - right).abs() <= within * size.abs().max(Decimal::ONE)
}

/// A balance adds up: nothing is lost, nothing comes from nowhere, nothing is below nothing.
pub fn adds_up(balance: &Balance) -> Result<(), TestCaseError> {
    let parts = balance.tests.iter().flatten().flat_map(|test| &test.parts);
    for part in parts {
        let PartBalance { on_hand, made, wanted, used, left_over, too_old, short } = *part;
        let (there, gone) = (on_hand + made, used + left_over + too_old);
        prop_assert!(close(there, gone, CLOSE, there), "{part:?}");
        prop_assert!(close(wanted, used + short, CLOSE, wanted), "{part:?}");
        for grams in [on_hand, made, wanted, used, left_over, too_old, short] {
            prop_assert!(grams >= Decimal::ZERO, "{part:?}");
        }
    }
    for item in balance.purchases.items.iter().chain(&balance.purchases_binned.items) {
        let (there, gone) = (item.purchase + item.on_hand, item.wanted + item.left_over);
        prop_assert!(close(there, gone, CLOSE, there), "{item:?}");
        prop_assert!(close(item.wanted, item.from_stock + item.purchase, CLOSE, item.wanted), "{item:?}");
        prop_assert!(item.stands_in <= item.wanted, "{item:?}");
        for amount in [item.wanted, item.stands_in, item.on_hand, item.from_stock, item.purchase, item.left_over] {
            prop_assert!(amount >= Decimal::ZERO, "{item:?}");
        }
    }
    for stock in &balance.recipes {
        prop_assert!(stock.left_over >= Decimal::ZERO && stock.left_over <= stock.on_hand, "{stock:?}");
    }
    Ok(())
}

fn by_products(of: &Planned) -> impl Iterator<Item = PartId> {
    let kitchen = &of.reading.kitchen;
    kitchen.all_parts().filter(|id| kitchen.part(*id).unwrap().role == Role::ByProduct)
}

fn money(rate: Rate, grams: Decimal) -> Decimal {
    rate.cost_of(Amount::of(grams)).unwrap()
}

/// What a part costs those who use it in a costing.
fn rate(costing: &Costing, id: PartId) -> Option<Rate> {
    costing.part(id)?.rate
}

proptest! {
    #![proptest_config(crate::support::chance(8))]

    #[test]
    fn every_part_and_item_adds_up(house in house()) {
        let of = planned(&house.book());
        prop_assert_eq!(errors(&of.reading, &of.costing), [""; 0], "{}", house.book());
        adds_up(of.balance())?;
    }

    /// Each kitchen is what costing the whole house so gives.
    #[test]
    fn kitchens_are_what_costing_everything_gives(house in house()) {
        let of = planned(&house.book());
        for costing in of.worth.kitchens.iter().chain([&of.worth.planned]) {
            let whole = cost(&of.reading.kitchen, &costing.scenario);
            prop_assert_eq!(&whole.tests, &costing.tests);
            prop_assert_eq!(&whole.recipes, &costing.recipes);
            prop_assert_eq!(&whole.dishes, &costing.dishes);
        }
    }

    /// In every kitchen: what the plan brings in is the list before whole packs, less what is sold; and it is what is in
    /// the dishes and left over, less what was on hand and what is sold.
    #[test]
    fn what_is_bought_is_served_left_over_or_sold(house in house()) {
        let of = planned(&house.book());
        let (plan, balance) = (of.plan(), of.balance());
        let [_, free, credited] = plan.totals;
        prop_assert_eq!(free.is_some(), credited.is_some());
        prop_assert_eq!(plan.purchases.is_some(), credited.is_some());
        prop_assert_eq!(plan.purchases, credited.map(|total| total.purchases));
        let bought = [&balance.purchases_binned, &balance.purchases, &balance.purchases];
        for (total, bought) in plan.totals.iter().zip(bought) {
            let Some(total) = total else { continue };
            // Item by item at its AP price, apart from the engine's own sum.
            let list: Decimal = bought
                .items
                .iter()
                .map(|item| money(of.costing.item(item.item).unwrap().ap, item.purchase))
                .sum();
            prop_assert!(close(total.purchases, list, OF_PURCHASES, list), "{total:?} {list}");
            let within = |left, right| close(left, right, OF_PURCHASES, list);
            prop_assert!(within(total.brought_in, list - total.sold), "{total:?} {list}");
            let dishes_and_left = total.served + total.left_over - total.on_hand - total.sold;
            prop_assert!(within(total.brought_in, dishes_and_left), "{total:?} {list}");
            prop_assert!(total.sold >= Decimal::ZERO && total.purchases >= Decimal::ZERO, "{total:?}");
        }
        let (Some(free), Some(credited)) = (free, credited) else { return Ok(()) };
        prop_assert!(close(free.brought_in, credited.brought_in, OF_PURCHASES, free.purchases), "{free:?} {credited:?}");
    }

    /// What trim is worth in food is what is not bought in its place, less what selling it would have brought.
    #[test]
    fn the_bin_costs_what_is_bought_instead_less_what_is_sold(house in house()) {
        let of = planned(&house.book());
        let [Some(binned), Some(free), _] = of.plan().totals else { return Ok(()) };
        let mut expected = Decimal::ZERO;
        for id in by_products(&of) {
            let (part, balance) = (of.reading.kitchen.part(id).unwrap(), of.balance().part(id).unwrap());
            if !balance.used.is_zero() {
                let worth = of.worth.parts.iter().find(|worth| worth.part == id).unwrap();
                let Some(buy_in) = worth.buy_in else { return Err(TestCaseError::fail("binned is known without it")) };
                expected += money(buy_in, balance.used);
            }
            if let Otherwise::Sold(PerWeight { money: sold, grams }) = part.reuse.otherwise {
                // What is left of it and good is sold in the other kitchens too; what was on hand was used first.
                let given_up = balance.made - balance.left_over.min(balance.made);
                expected -= money(Rate { money: sold, per: grams }, given_up);
            }
        }
        let found = binned.brought_in - free.brought_in;
        prop_assert!(close(found, expected, OF_PURCHASES, binned.brought_in), "{found} instead of {expected}");
    }

    /// A dish in another kitchen is what it is credited, and its grams of every part times the difference in rate.
    #[test]
    fn kitchens_differ_by_grams_times_rates(house in house()) {
        let of = planned(&house.book());
        let credited = &of.worth.kitchens[2];
        for (index, dish) in of.worth.dishes.iter().enumerate().take(of.reading.kitchen.dishes.len()) {
            let uses = of.worth.uses.dishes[index].as_ref().unwrap();
            for (costing, food) in of.worth.kitchens.iter().zip(dish.food) {
                let rates: Option<Vec<(Decimal, Rate, Rate)>> = uses.parts
                    .iter()
                    .map(|(id, grams)| Some((*grams, rate(costing, *id)?, rate(credited, *id)?)))
                    .collect();
                let (Some(food), Some(was), Some(rates)) = (food, dish.food[2], rates) else { continue };
                let moved: Decimal = rates.iter().map(|(grams, then, now)| money(*then, *grams) - money(*now, *grams)).sum();
                prop_assert!(close(food, was + moved, CLOSE, food), "{}: {food}, {was} and {moved}", of.name(dish.served));
            }
            // What every part of a dish costs is known where the dish is.
            for (costing, food) in of.worth.kitchens.iter().zip(dish.food) {
                prop_assert!(food.is_none() || uses.parts.keys().all(|id| rate(costing, *id).is_some()));
            }
        }
    }

    /// The more a by-product is charged, the more a dish that is made of it alone costs, and the less one made of the rest.
    #[test]
    fn a_charge_moves_cost_one_way(house in house(), pick: usize, low in 0_i64..30, more in 0_i64..30) {
        let of = planned(&house.book());
        let kitchen = &of.reading.kitchen;
        let all: Vec<PartId> = by_products(&of).collect();
        prop_assume!(!all.is_empty());
        let part = all[pick % all.len()];
        let at = |percent: i64| {
            let charging = Charging::OneAt { part, fraction: Decimal::new(percent, 2) };
            cost(kitchen, &Scenario { charging, food_alone: true, ..Scenario::of(kitchen) })
        };
        let (less, more) = (at(low), at(low + more));
        let reach = Reach::of(kitchen, &of.costing, part.test);
        for (index, dish) in kitchen.dishes.iter().enumerate() {
            let (Some(less), Some(more)) = (&less.dishes[index], &more.dishes[index]) else { continue };
            let holds = reach.dish(dish);
            let slack = CLOSE * less.food.max(Decimal::ONE);
            if holds.iter().eq([&part.index()]) {
                prop_assert!(more.food >= less.food - slack, "{}: {} to {}", dish.name, less.food, more.food);
            } else if !holds.contains(&part.index()) {
                prop_assert!(more.food <= less.food + slack, "{}: {} to {}", dish.name, less.food, more.food);
            }
        }
    }

    /// Rows in another order, days a while later, names in capitals: the same plan.
    #[test]
    fn a_plan_told_otherwise_is_the_same_plan(house in house(), seed in 1_u64.., later in 0_i64..20, capitals: bool) {
        let (one, other) = (planned(&house.book()), planned(&house.book_with(&house.planned(seed, later, capitals))));
        let both = one.balance().tests.iter().flatten().zip(other.balance().tests.iter().flatten());
        for (one, other) in both.flat_map(|(one, other)| one.parts.iter().zip(&other.parts)) {
            let pairs = [(one.wanted, other.wanted), (one.used, other.used), (one.left_over, other.left_over)];
            for (left, right) in pairs.into_iter().chain([(one.too_old, other.too_old), (one.short, other.short)]) {
                prop_assert!(close(left, right, CLOSE, left), "{one:?} {other:?}");
            }
        }
        for (one, other) in one.plan().totals.iter().zip(&other.plan().totals) {
            let (Some(one), Some(other)) = (one, other) else {
                prop_assert_eq!(one.is_some(), other.is_some());
                continue;
            };
            prop_assert!(close(one.brought_in, other.brought_in, OF_PURCHASES, one.brought_in), "{one:?} {other:?}");
        }
    }
}

/// The laws are asked of houses where something happens.
#[test]
fn houses_of_chance_run_short_and_have_something_left() {
    let mut runner = TestRunner::deterministic();
    let mut seen = [0; 7];
    for _ in 0..100 {
        let of = planned(&house().new_tree(&mut runner).unwrap().current().book());
        let any = |field: fn(&PartBalance) -> Decimal| {
            by_products(&of).any(|id| !field(of.balance().part(id).unwrap()).is_zero())
        };
        let known = of.plan().totals.iter().all(Option::is_some);
        let chained = |id: PartId| {
            of.reading.kitchen.tests.iter().any(|test| test.input == parings::kitchen::recipe::Source::Part(id))
        };
        let here = [
            known,
            known && any(|part| part.short),
            known && any(|part| part.left_over),
            any(|part| part.too_old),
            known && !of.plan().known_saving.is_zero(),
            known && by_products(&of).any(|id| chained(id) && !of.balance().part(id).unwrap().used.is_zero()),
            !known && any(|part| part.short),
        ];
        seen.iter_mut().zip(here).for_each(|(seen, here)| *seen += i32::from(here));
    }
    assert!(seen.iter().all(|seen| *seen >= 8), "{seen:?}");
}
