//! Two suppliers' new prices for the teaching kitchen, against what `sample-books/teaching_kitchen_reprice.py` worked by
//! hand in fractions.

use std::collections::{BTreeMap, BTreeSet};

use jiff::civil::date;
use parings::analysis::Effects;
use parings::analysis::reprice::{BasketKind, CostChange};
use parings::{Costing, Options, Reading, Scenario, Source, cost, read};
use rust_decimal::Decimal;

use super::Repriced;
use crate::analysis::d;
use crate::workbook::TEACHING_KITCHEN;

/// What is taken of the two lists, as it is appended to the book: neither what is held back nor what the book does not know.
const TAKEN: &str = "\
Item,Supplier,Code,Pack,Price,Per,Date
Butternut squash,Fernhollow Produce,F-05,35 lb,26.25,,2026-11-23
Yellow onions,Fernhollow Produce,F-11,50 lb,27.00,,2026-11-23
Carrots,Fernhollow Produce,F-14,50 lb,33.00,,2026-11-23
Celery,Fernhollow Produce,F-15,24 ct,38.40,,2026-11-23
Fennel,Fernhollow Produce,F-19,18 ct,36.00,,2026-11-23
\"Garlic, peeled\",Fernhollow Produce,F-22,4/5 lb,54.00,,2026-11-23
Flat parsley,Fernhollow Produce,F-27,60 bunch,48.00,,2026-11-23
\"Potatoes, yellow\",Fernhollow Produce,F-30,50 lb,24.00,,2026-11-23
\"Apples, tart\",Fernhollow Produce,F-41,88ct 40#,48.40,,2026-11-23
\"Grapefruit, ruby\",Fernhollow Produce,F-44,36 ct,34.20,,2026-11-23
Whole duck,Oxbarrow Foods,X-220,6/5 lb avg,$4.50,LB,2026-11-23
Chicken backs,Oxbarrow Foods,X-231,40 lb,$30.00,,2026-11-23
\"White shrimp, head on\",Oxbarrow Foods,X-236,6/5 lb,$198.00,,2026-11-23
\"Butter, unsalted\",Oxbarrow Foods,X-310,36/1 lb,$122.40,,2026-11-23
Carrots,Oxbarrow Foods,X-402,50 lb,$32.00,,2026-11-23
Pearl barley,Oxbarrow Foods,X-512,24/1 lb,$33.60,,2026-11-23
Honey,Oxbarrow Foods,X-520,12/32 oz,$156.00,,2026-11-23
Tomato paste,Oxbarrow Foods,X-533,6/#10 (6 lb 15 oz),$69.93,,2026-11-23
Smoked paprika,Oxbarrow Foods,X-541,6/18 oz,$78.30,,2026-11-23
Kosher salt,Oxbarrow Foods,X-545,12/3 lb,$30.60,,2026-11-23
Bay leaves,Oxbarrow Foods,X-546,8 oz,$9.20,,2026-11-23
Shellfish base,Oxbarrow Foods,X-560,6/1 lb,$91.80,,2026-11-23
Olive oil,Oxbarrow Foods,X-602,4 x 3 L,$138.00,,2026-11-23
Dijon mustard,Oxbarrow Foods,X-615,6 x 1 kg,$57.60,,2026-11-23
";

/// The kitchen before the lists and with them, both on their day.
fn teaching_kitchen() -> Repriced {
    let on_that_day = |sources: &[Source<'_>]| -> (Reading, Costing) {
        let options = Options::on(date(2026, 11, 25)).costed_on(Some(date(2026, 11, 23)));
        let reading = read(sources, options).unwrap();
        let costing = cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
        (reading, costing)
    };
    let book = Source { name: "teaching-kitchen.xlsx", bytes: TEACHING_KITCHEN };
    let (old, was) = on_that_day(&[book]);
    let (new, now) = on_that_day(&[book, Source { name: "taken.csv", bytes: TAKEN.as_bytes() }]);
    let effects = Effects::of(&old.kitchen, &was, &new.kitchen, &now);
    Repriced { old, was, new, now, effects }.without_errors()
}

/// Every figure, by kind, name and figure as in the answers.
fn figures(sample: &Repriced) -> BTreeMap<(&'static str, String, &'static str), Decimal> {
    let mut all = BTreeMap::new();
    let (effects, kitchen) = (&sample.effects, &sample.new.kitchen);
    let hundred = Decimal::ONE_HUNDRED;
    for effect in &effects.dishes {
        let name = &kitchen.dishes[effect.dish].name;
        let mut note = |figure, value| all.insert(("dish", name.clone(), figure), value);
        for (side, [portion, percent, margin, over, price]) in [
            (
                &effect.was,
                ["portion_cost_was", "food_cost_percent_was", "margin_was", "over_points_was", "price_at_target_was"],
            ),
            (
                &effect.now,
                ["portion_cost_now", "food_cost_percent_now", "margin_now", "over_points_now", "price_at_target_now"],
            ),
        ] {
            note(portion, side.portion_cost);
            note(percent, side.food_cost.unwrap() * hundred);
            note(margin, side.margin.unwrap());
            note(over, side.over.unwrap() * hundred);
            note(price, side.price_at_target.unwrap());
        }
        note("change", effect.change);
        note("portions", effect.portions.unwrap());
        note("worth", *effect.worth.as_ref().unwrap());
        let drivers = effect.drivers.as_ref().unwrap();
        assert_eq!((drivers.together, drivers.other, drivers.sum()), (Decimal::ZERO, Decimal::ZERO, Ok(effect.change)));
        for driver in &drivers.items {
            all.insert(("driver", format!("{name} > {}", sample.item(driver.item)), "change"), driver.change);
        }
    }
    for mover in &effects.movers {
        let name = sample.item(mover.item).to_owned();
        all.insert(("mover", name.clone(), "unit_cost_was"), mover.was.unit_cost);
        all.insert(("mover", name.clone(), "unit_cost_now"), mover.now_as_was.unwrap());
        all.insert(("mover", name.clone(), "change_percent"), mover.fraction.unwrap() * hundred);
        all.insert(("mover", name.clone(), "quantity"), mover.quantity.unwrap());
        all.insert(("mover", name, "worth"), mover.worth.unwrap());
    }
    let mut pair = |kind, name: &str, figures: [&'static str; 2], change: CostChange| {
        all.insert((kind, name.to_owned(), figures[0]), change.was);
        all.insert((kind, name.to_owned(), figures[1]), change.now);
    };
    for test in &effects.tests {
        pair("test", &kitchen.test(test.test).unwrap().name, ["cost_was", "cost_now"], test.cost);
        for part in &test.parts {
            let name = &kitchen.part(part.part).unwrap().name;
            pair("part", name, ["cost_was", "cost_now"], part.cost);
            pair("part", name, ["cost_per_g_was", "cost_per_g_now"], part.per_gram.unwrap());
        }
    }
    for recipe in &effects.recipes {
        let name = &kitchen.recipe(recipe.recipe).unwrap().name;
        pair("recipe", name, ["batch_cost_was", "batch_cost_now"], recipe.batch);
        pair("recipe", name, ["unit_cost_was", "unit_cost_now"], recipe.unit.clone().unwrap().1);
    }
    let index = effects.index.as_ref().unwrap();
    pair("index", "plan", ["was", "now"], CostChange { was: index.was, now: index.now });
    all.insert(("index", "plan".to_owned(), "index"), index.index.unwrap());
    all.insert(("index", "plan".to_owned(), "counted"), Decimal::from(index.counted));
    all
}

/// Compared both ways: nothing that was worked by hand is missing, and nothing else moves.
#[test]
fn the_new_lists_do_what_was_worked_by_hand() {
    let found = figures(&teaching_kitchen());
    let mut worked = BTreeSet::new();
    for answer in include_str!("../../../sample-books/teaching-kitchen.reprice.tsv").lines().skip(1) {
        let [kind, name, figure, _, expected] = answer.split('\t').collect::<Vec<_>>()[..] else {
            panic!("not five columns: {answer}");
        };
        let place = found.keys().find(|(k, n, f)| (*k, n.as_str(), *f) == (kind, name, figure));
        let place = place.unwrap_or_else(|| panic!("not found: {answer}"));
        let (is, expected) = (found[place], d(expected));
        let off = (is - expected).abs();
        assert!(off <= Decimal::new(1, 20) * expected.abs().max(Decimal::ONE), "{answer}: found {is}");
        worked.insert(place.clone());
    }
    let not_worked: Vec<_> = found.keys().filter(|place| !worked.contains(*place)).collect();
    assert!(not_worked.is_empty(), "moves and was not worked by hand: {not_worked:#?}");
}

/// The page says which dish the lists put over its target, and what would be cheaper.
#[test]
fn the_new_lists_do_what_the_page_says() {
    let sample = teaching_kitchen();
    let effects = &sample.effects;
    assert_eq!(effects.basket.as_ref().unwrap().kind, BasketKind::Plan);
    assert!(effects.index.as_ref().unwrap().left_out.is_empty());
    assert!(effects.unmoved.is_empty() && effects.uncosted.is_empty() && effects.unpriced.is_empty());
    let name = |dish: usize| sample.new.kitchen.dishes[dish].name.as_str();
    let newly_over: Vec<_> = effects.dishes.iter().filter(|e| e.is_newly_over()).map(|e| name(e.dish)).collect();
    assert_eq!(newly_over, ["Duck breast with honeyed apples"]);
    assert!(!effects.dishes.iter().any(|effect| effect.is_no_longer_over()));
    // By what they are worth over the plan, the largest rise first: the order of the table's last column.
    let order = [
        "Chilled shrimp with grapefruit and fennel",
        "Duck breast with honeyed apples",
        "Duck and lentil plate",
        "Duck and barley soup",
        "Smoky shrimp soup, bowl",
        "Smoky shrimp soup, cup",
        "Warm lentils with a soft egg",
    ];
    assert_eq!(sample.moved(), order);
    // Butter at the preferred $3.40, with $3.15 from the other; shrimp at the newest $6.60, with $6.30 from the one before;
    // carrots at the cheaper of two of one day, with nothing cheaper left.
    let suppliers = |row: usize| sample.new.kitchen.entries.prices[row].supplier.as_str();
    let switches: BTreeSet<_> = effects
        .switches
        .iter()
        .filter(|switch| switch.is_other_supplier)
        .map(|switch| (sample.item(switch.item), suppliers(switch.from), suppliers(switch.to), switch.is_preferred))
        .collect();
    let expected = [
        ("Butter, unsalted", "Oxbarrow Foods", "Cloverfen Dairy", true),
        ("White shrimp, head on", "Oxbarrow Foods", "Tidewrack Fish", false),
    ];
    assert_eq!(switches, BTreeSet::from(expected));
}
