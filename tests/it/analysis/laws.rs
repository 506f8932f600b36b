//! Laws of the ways and the sweep, over kitchens of chance.

use parings::analysis::sweep::Side;
use parings::analysis::{Way, spread, sweep, ways};
use parings::costing::Charging;
use parings::kitchen::yield_test::Role;
use parings::{Scenario, cost};
use proptest::prelude::*;
use rust_decimal::Decimal;

use super::{read, trial};
use crate::laws::kitchen::kitchen;

/// Sums of quotients may part in the last of 28 digits.
const CLOSE: Decimal = Decimal::from_parts(1, 0, 0, false, 20);

proptest! {
    #![proptest_config(crate::support::chance(24))]

    /// Under every way that can be done, what the parts bear adds up to what went in, to the last digit; as the book says is
    /// what is costed; and no part is charged less than nothing.
    #[test]
    fn mains_and_credits_add_up_under_every_way(kitchen in kitchen()) {
        let (reading, costing) = read(&kitchen.tables().book());
        for id in reading.kitchen.test_ids() {
            let ways = ways::of(&reading.kitchen, &costing, id).unwrap();
            let test = costing.test(id).unwrap();
            prop_assert_eq!(ways.cost, test.cost);
            for (way, outcome) in &ways.ways {
                let Ok(under) = outcome else {
                    prop_assert!(matches!(way, Way::Market | Way::SalesValue | Way::NetRealizableValue), "{:?}", outcome);
                    continue;
                };
                prop_assert_eq!(under.parts.iter().map(|part| part.cost).sum::<Decimal>(), ways.cost, "{:?}", way);
                prop_assert_eq!(under.total, ways.cost);
                prop_assert!(under.parts.iter().all(|part| part.cost >= Decimal::ZERO), "{:?}", under);
                if *way == Way::AsTheBookSays {
                    let costs = |under: &[Decimal]| under.to_vec();
                    let found: Vec<Decimal> = under.parts.iter().map(|part| part.cost).collect();
                    let known: Vec<Decimal> = test.parts.iter().map(|part| part.cost).collect();
                    prop_assert_eq!(costs(&found), costs(&known));
                }
            }
        }
    }

    /// As the charge of a by-product grows, the total stands still, who uses it pays no less, and who is made of the rest
    /// pays no more; every step is what costing the whole kitchen gives, and the trial leaves no trace.
    #[test]
    fn a_sweep_moves_cost_and_nothing_else(kitchen in kitchen()) {
        let (reading, costing) = read(&kitchen.tables().book());
        let kitchen = &reading.kitchen;
        let mut trial = trial(&reading, &costing);
        let fractions = sweep::fractions(Decimal::new(25, 2));
        for part in kitchen.test_ids().flat_map(|test| kitchen.part_ids(test)) {
            if kitchen.part(part).unwrap().role != Role::ByProduct {
                continue;
            }
            let sweep = sweep::of(&mut trial, part, &fractions).unwrap();
            let mut before: Option<Vec<Option<Decimal>>> = None;
            for step in &sweep.steps {
                let charging = Charging::OneAt { part, fraction: step.fraction };
                let whole = cost(kitchen, &Scenario { charging, ..Scenario::of(kitchen) });
                let Ok(swept) = &step.outcome else {
                    prop_assert_eq!(&whole.tests[part.test.index()], &None);
                    continue;
                };
                prop_assert_eq!(swept.total, costing.test(part.test).unwrap().cost);
                let test = whole.test(part.test).unwrap();
                prop_assert!(swept.parts.iter().zip(&test.parts).all(|(swept, part)| swept.cost == part.cost));
                // What is listed moves as it should, and what is not listed stands still.
                for (index, dish) in whole.dishes.iter().enumerate() {
                    let whole = dish.as_ref().map(|dish| dish.portion_cost);
                    match sweep.dishes.iter().position(|swept| swept.dish == index) {
                        Some(nth) => prop_assert_eq!(whole, swept.dishes[nth].map(|dish| dish.portion_cost)),
                        None => {
                            prop_assert_eq!(whole, costing.dishes[index].as_ref().map(|dish| dish.portion_cost));
                        }
                    }
                }
                let now: Vec<Option<Decimal>> =
                    swept.dishes.iter().map(|dish| dish.map(|dish| dish.portion_cost)).collect();
                for ((dish, then), now) in sweep.dishes.iter().zip(before.iter().flatten()).zip(&now) {
                    let (Some(then), Some(now)) = (then, now) else { continue };
                    match dish.side {
                        Side::User => prop_assert!(*now >= then - CLOSE, "a user fell: {then} to {now}"),
                        Side::Maker => prop_assert!(*now <= then + CLOSE, "a maker rose: {then} to {now}"),
                        Side::Both => {}
                    }
                }
                before = Some(now);
            }
        }
        prop_assert_eq!(&trial.costing().dishes, &costing.dishes);
        prop_assert_eq!(&trial.costing().tests, &costing.tests);
        prop_assert_eq!(&trial.costing().recipes, &costing.recipes);
        prop_assert_eq!(&trial.costing().problems, &costing.problems);
        prop_assert_eq!(&trial.costing().scenario, &costing.scenario);
    }

    /// The least and the most of a part lie about its pooled yield; what one run alone makes of a dish is what costing the
    /// whole kitchen on it gives.
    #[test]
    fn runs_lie_about_what_they_make_together(kitchen in kitchen()) {
        let (reading, costing) = read(&kitchen.tables().book());
        let kitchen = &reading.kitchen;
        let mut trial = trial(&reading, &costing);
        for id in kitchen.test_ids() {
            let spread = spread::of(&mut trial, id).unwrap();
            prop_assert_eq!(spread.runs.len(), kitchen.test(id).unwrap().runs.len());
            for part in &spread.parts {
                let (least, most) = (part.yields[part.lowest], part.yields[part.highest]);
                prop_assert!(part.yields.iter().all(|one| *one >= least && *one <= most));
                prop_assert!(least <= part.pooled + CLOSE && part.pooled <= most + CLOSE, "{:?}", part);
            }
            for main in &spread.mains {
                let alone = |run| cost(kitchen, &Scenario { one_run: Some((id, run)), ..Scenario::of(kitchen) });
                let (best, worst) = (alone(main.best), alone(main.worst));
                for dish in &main.dishes {
                    let of = |costing: &parings::Costing| costing.dishes[dish.dish].as_ref().map(|dish| dish.portion_cost);
                    prop_assert_eq!((dish.pooled, dish.best, dish.worst), (of(&costing), of(&best), of(&worst)));
                }
            }
        }
    }
}
