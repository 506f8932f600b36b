//! Laws of the balance and of the three kitchens, over houses of chance: nothing is lost, no money is made by a credit.

use std::collections::BTreeMap;

use parings::analysis::Trim;
use parings::analysis::balance::{Balance, PartBalance};
use parings::analysis::trim_savings::{PartWorth, sells_at};
use parings::costing::Unused;
use parings::costing::{Charging, Costing, Rate, RecipeCost};
use parings::internals::Reach;
use parings::kitchen::PartId;
use parings::kitchen::yield_test::Role;
use parings::{Scenario, cost};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use rust_decimal::Decimal;

use super::house::house;
use super::planned::{Planned, planned};
use super::{errors, rounded};

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
        let PartBalance { on_hand, made, wanted, used, left_over, left_of_made, too_old, too_old_of_made, short } =
            *part;
        let (there, gone) = (on_hand + made, used + left_over + too_old);
        prop_assert!(close(there, gone, CLOSE, there), "{part:?}");
        prop_assert!(close(wanted, used + short, CLOSE, wanted), "{part:?}");
        for grams in [on_hand, made, wanted, used, left_over, left_of_made, too_old, too_old_of_made, short] {
            prop_assert!(grams >= Decimal::ZERO, "{part:?}");
        }
        // Of what was made there is no more than was made, and what is there of it is within what is there.
        prop_assert!(left_of_made + too_old_of_made <= made + CLOSE * made, "{part:?}");
        prop_assert!(left_of_made <= left_over && too_old_of_made <= too_old, "{part:?}");
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

/// In plain decimals: of what is left of a sum by rounding nothing is left in money.
fn money(rate: Rate, grams: Decimal) -> Decimal {
    rate.money * grams / rate.per
}

/// What a part bears, or was given as a credit, by weight, where mains bear what is unearned. `None` of a joint part of which
/// some is bought in: its users pay a blend, and its own share is told nowhere.
fn full(alone: &Costing, id: PartId) -> Option<Rate> {
    let part = alone.part(id)?;
    match part.charge {
        Some(charge) => Some(charge),
        None => part.rate.filter(|_| !alone.scenario.bought_in.contains_key(&id)),
    }
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
            let lineless = |cost: RecipeCost| RecipeCost { lines: Vec::new(), ..cost };
            let recipes: Vec<_> = whole.recipes.into_iter().map(|cost| cost.map(lineless)).collect();
            prop_assert_eq!(&recipes, &costing.recipes);
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
            if let Some(sold) = sells_at(part) {
                // What is left of it and good is sold in the other kitchens too; what was on hand was used first.
                expected -= money(sold, balance.made - balance.left_of_made);
            }
        }
        let found = binned.brought_in - free.brought_in;
        prop_assert!(close(found, expected, OF_PURCHASES, binned.brought_in), "{found} instead of {expected}");
    }

    /// What the columns of the three kitchens say is saved is what the text, the JSON and the sum over the parts say.
    #[test]
    fn columns_and_text_say_the_same_is_saved(house in house()) {
        let of = planned(&house.book());
        let plan = of.plan();
        let [Some(binned), Some(free), Some(credited)] = plan.totals else { return Ok(()) };
        let within = |left, right| close(left, right, OF_PURCHASES, binned.brought_in);
        prop_assert!(within(free.comes_to, credited.comes_to), "{free:?} {credited:?}");
        let saving = plan.saving.ok_or_else(|| TestCaseError::fail("the columns know what the sum does not"))?;
        prop_assert!(within(binned.comes_to - free.comes_to, saving), "{binned:?} {free:?} {saving}");
        prop_assert!(within(plan.saving.unwrap(), plan.known_saving));
        // What is not kept for use is sold in all three, and saves nothing.
        for part in of.worth.parts.iter().filter(|part| !part.counts()) {
            prop_assert_eq!(part.saved, Some(Decimal::ZERO), "{:?}", part);
        }
        let trim = Trim::of(&of.reading.kitchen, &of.costing, &[], Decimal::ONE);
        let json = parings::output::json::trim(&of.reading.kitchen, &of.costing, &trim, &[]);
        let json: serde_json::Value = serde_json::from_str(&json).unwrap();
        let figure = |value: &serde_json::Value| value.as_str().unwrap().parse::<Decimal>().unwrap();
        prop_assert_eq!(figure(&json["plan"]["saved"]), saving);
        let comes_to = |at: usize| figure(&json["plan"]["kitchens"][at]["comes_to"]);
        prop_assert!(within(comes_to(0) - comes_to(1), saving) && within(comes_to(0) - comes_to(2), saving));
        let said = format!("{:.2}", rounded(saving.abs(), 2));
        let said = match saving {
            _ if !of.worth.parts.iter().any(PartWorth::counts) => "nothing is saved by it".to_owned(),
            some if some < Decimal::ZERO => format!("Using trim costs ${said} more over the plan"),
            _ => format!("Using trim saves ${said} over the plan"),
        };
        let report = of.report();
        prop_assert!(of.worth.parts.is_empty() || report.contains(&said), "{said}: {report}");
    }

    /// If what is left over is thrown away and what is sold is sold, the dishes bear all that was bought: none of the credit is
    /// lost on its way through tests and recipes.
    #[test]
    fn what_is_unearned_is_borne_by_dishes_or_left_in_mains(house in house()) {
        let of = planned(&house.book());
        let kitchen = &of.reading.kitchen;
        let [_, _, Some(credited)] = of.plan().totals else { return Ok(()) };
        let book = &of.worth.kitchens[2];
        let mut unused = BTreeMap::new();
        for id in by_products(&of) {
            let (part, of_part) = (kitchen.part(id).unwrap(), of.balance().part(id).unwrap());
            let at = sells_at(part);
            let sold = if at.is_some() { of_part.left_of_made } else { Decimal::ZERO };
            let stays = of_part.left_of_made - sold + of_part.too_old_of_made;
            if !of_part.made.is_zero() {
                unused.insert(id, Unused { made: of_part.made, stays, sold, at });
            }
        }
        let alone = cost(kitchen, &Scenario { unused: unused.clone(), ..book.scenario.clone() });
        // Served, and left in mains, recipes and what was on hand before; less what was on hand; all at the rates of those
        // who bear it. What of a credit is above the price that trim is sold for is borne as well, what is below is not.
        let mut sum = Decimal::ZERO;
        for dish in &of.worth.dishes {
            let Some(portions) = dish.portions else { continue };
            let earned = of.plan().earned.iter().find(|earned| earned.served == dish.served);
            sum += portions * earned.map_or(dish.food[2].unwrap(), |earned| earned.alone);
        }
        for id in kitchen.all_parts() {
            let Some(of_part) = of.balance().part(id).filter(|part| !(part.made + part.on_hand).is_zero()) else { continue };
            let Some(rate) = full(&alone, id) else { return Ok(()) };
            let unused = unused.get(&id);
            let before = of_part.left_over - of_part.left_of_made + of_part.too_old - of_part.too_old_of_made;
            let left = if unused.is_some() { before } else { of_part.left_over + of_part.too_old };
            sum += money(rate, left) - money(rate, of_part.on_hand);
            if let Some(Unused { sold, at: Some(at), .. }) = unused {
                sum += money(rate, *sold).min(money(*at, *sold));
            }
        }
        for stock in &of.balance().recipes {
            let Some(batch) = alone.recipes[stock.recipe.index()].as_ref().map(|cost| cost.batch) else { continue };
            sum += batch * (stock.left_over - stock.on_hand);
        }
        let bought = of.balance().purchases.sums(book).unwrap();
        let expected = credited.purchases - bought.left_over + bought.on_hand;
        prop_assert!(close(sum, expected, OF_PURCHASES, credited.purchases), "{sum} instead of {expected}");
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
            of.reading
                .kitchen
                .tests
                .iter()
                .any(|test| test.input == parings::kitchen::recipe::IngredientSource::Part(id))
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
