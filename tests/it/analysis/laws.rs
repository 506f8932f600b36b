//! Laws of the ways and the sweep, over kitchens of chance.

use parings::analysis::sweep::Side;
use parings::analysis::{Trim, Way, charging_methods, cost_factor, run_variation, sweep};
use parings::costing::Charging;
use parings::kitchen::yield_test::Role;
use parings::output::text::View;
use parings::{Costing, Reading, Scenario, cost};
use proptest::prelude::*;
use rust_decimal::Decimal;

use super::conservation::adds_up;
use super::{read, trial};
use crate::laws::kitchen::kitchen;

/// Everything that can be asked about the trim of a book, whatever state it is in: it ends, what adds up adds up, what is
/// tried is what costing the whole kitchen gives, and it leaves no trace.
pub fn holds(reading: &Reading, costing: &Costing) -> Result<(), TestCaseError> {
    let kitchen = &reading.kitchen;
    let mut trial = trial(reading, costing);
    let portions = |costing: &Costing| -> Vec<Option<Decimal>> {
        costing.dishes.iter().map(|dish| dish.as_ref().map(|dish| dish.portion_cost)).collect()
    };
    for id in kitchen.test_ids() {
        let ways = charging_methods::of(kitchen, costing, id);
        prop_assert!(ways.is_some() || costing.test(id).is_none());
        for (way, outcome) in ways.iter().flat_map(|ways| &ways.ways) {
            match outcome {
                Ok(under) => prop_assert_eq!(under.total, ways.as_ref().unwrap().cost, "{:?}", way),
                Err(lacks) => {
                    prop_assert!(lacks.iter().all(|lack| !lack.words(kitchen).is_empty()) && !lacks.is_empty())
                }
            }
        }
        let _ = cost_factor::of(kitchen, costing, id);
        for part in kitchen.part_ids(id) {
            let fractions = sweep::fractions(Decimal::new(5, 1));
            let Some(sweep) = sweep::of(&mut trial, part, &fractions) else { continue };
            for step in &sweep.steps {
                let charging = Charging::OneAt { part, fraction: step.fraction };
                let whole = cost(kitchen, &Scenario { charging, ..Scenario::of(kitchen) });
                prop_assert_eq!(step.outcome.is_err(), whole.test(id).is_none());
                let Ok(swept) = &step.outcome else { continue };
                for (dish, at) in sweep.dishes.iter().zip(&swept.dishes) {
                    prop_assert_eq!(portions(&whole)[dish.dish], at.map(|at| at.portion_cost));
                }
                // What is not listed stands still, unless a later test is stopped at a step, or as the book stands.
                let listed = |index: usize| sweep.dishes.iter().any(|dish| dish.dish == index);
                for (index, (then, now)) in portions(costing).into_iter().zip(portions(&whole)).enumerate() {
                    let stopped = (now.is_none() && !swept.stopped.is_empty()) || then.is_none();
                    prop_assert!(listed(index) || then == now || stopped, "{} moved", kitchen.dishes[index].name);
                }
            }
        }
        let Some(spread) = run_variation::of(&mut trial, id) else { continue };
        for main in &spread.mains {
            let alone = |run| portions(&cost(kitchen, &Scenario { one_run: Some((id, run)), ..Scenario::of(kitchen) }));
            let (best, worst) = (alone(main.best), alone(main.worst));
            for dish in &main.dishes {
                prop_assert_eq!((dish.best, dish.worst), (best[dish.dish], worst[dish.dish]));
            }
        }
    }
    let trim = Trim::of(kitchen, costing, &[], Decimal::new(5, 1));
    if let Some(balance) = &trim.balance {
        adds_up(balance)?;
    }
    let plan = trim.worth.as_ref().and_then(|worth| worth.plan.as_ref());
    prop_assert!(plan.is_none() || trim.balance.is_some());
    let text = parings::output::text::trim(kitchen, costing, &trim, View::default());
    prop_assert!(!text.is_empty());
    prop_assert_eq!(&trial.costing().dishes, &costing.dishes);
    prop_assert_eq!(&trial.costing().tests, &costing.tests);
    prop_assert_eq!(&trial.costing().recipes, &costing.recipes);
    prop_assert_eq!(&trial.costing().problems, &costing.problems);
    prop_assert_eq!(&trial.costing().scenario, &costing.scenario);
    crate::reprice::laws::holds(reading, costing)
}

/// Sums of quotients may part in the last of 28 digits.
const CLOSE: Decimal = Decimal::from_parts(1, 0, 0, false, 20);

proptest! {
    #![proptest_config(crate::support::chance(4))]

    /// Under every way that can be done, what the parts bear adds up to what went in, to the last digit; as the book says is
    /// what is costed; and no part is charged less than nothing.
    #[test]
    fn mains_and_credits_add_up_under_every_way(kitchen in kitchen()) {
        let (reading, costing) = read(&kitchen.tables().book());
        for id in reading.kitchen.test_ids() {
            let ways = charging_methods::of(&reading.kitchen, &costing, id).unwrap();
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

    #[test]
    fn all_of_it_holds_in_any_kitchen(kitchen in kitchen()) {
        let (reading, costing) = read(&kitchen.tables().book());
        holds(&reading, &costing)?;
    }

    /// As the charge of a by-product grows, the total stands still, who uses it pays no less, and who is made of the rest
    /// pays no more.
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
                let Ok(swept) = &step.outcome else { continue };
                prop_assert_eq!(swept.total, costing.test(part.test).unwrap().cost);
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
    }

    /// The least and the most of a part lie about its pooled yield.
    #[test]
    fn runs_lie_about_what_they_make_together(kitchen in kitchen()) {
        let (reading, costing) = read(&kitchen.tables().book());
        let mut trial = trial(&reading, &costing);
        for id in reading.kitchen.test_ids() {
            let spread = run_variation::of(&mut trial, id).unwrap();
            prop_assert_eq!(spread.runs.len(), reading.kitchen.test(id).unwrap().runs.len());
            prop_assert!(spread.runs.len() < 2 || !spread.mains.is_empty());
            for part in &spread.parts {
                let (least, most) = (part.yields[part.lowest], part.yields[part.highest]);
                prop_assert!(part.yields.iter().all(|one| *one >= least && *one <= most));
                prop_assert!(least <= part.pooled + CLOSE && part.pooled <= most + CLOSE, "{:?}", part);
            }
        }
    }
}
