//! The same kitchen under another scenario: a credit moves cost from dish to dish and saves nothing by itself.

use jiff::civil::date;
use parings::costing::Charging;
use parings::kitchen::{PartId, yield_test::Role};
use parings::{Costing, Reading, Scenario, cost};
use rust_decimal::Decimal;

use crate::support::cost_bytes;

/// Two dishes, one made of the tails and one of the shells; invented.
const BOOK: &str = "Item,Pack,Price,Date
Prawns,10 lb,$60.00,2026-10-01
Prawns,10 lb,$80.00,2026-11-25
Rice,10 lb,$10.00,

Test,Role,Part,Weight,Charged as,Value
Peeling,as purchased,Prawns,10 lb,,
Peeling,main,Tails,5 lb,,
Peeling,by-product,Shells,2 lb,fraction,25%
Peeling,by-product,Heads,2 lb,by weight,

Recipe,Prawns and rice
Portions,1
Menu price,$60.00
Ingredient,Qty,Unit
Tails,5,lb
Rice,1,lb

Recipe,Shell soup
Portions,1
Menu price,$9.00
Ingredient,Qty,Unit
Shells,2,lb
Heads,2,lb
Rice,1,lb
";

fn under(reading: &Reading, charging: Charging) -> Costing {
    cost(&reading.kitchen, &Scenario { charging, ..Scenario::of(&reading.kitchen) })
}

fn dishes(costing: &Costing) -> Vec<Decimal> {
    costing
        .dishes
        .iter()
        .map(|dish| {
            dish.as_ref()
                .unwrap()
                .portion_cost
                .round_dp_with_strategy(4, rust_decimal::RoundingStrategy::MidpointAwayFromZero)
        })
        .collect()
}

fn d(text: &str) -> Decimal {
    text.parse().unwrap()
}

fn shells(reading: &Reading) -> PartId {
    let line = &reading.kitchen.recipes[1].lines[0];
    let parings::kitchen::recipe::IngredientSource::Part(part) = line.source else { panic!("the shells are a part") };
    assert_eq!(reading.kitchen.part(part).unwrap().role, Role::ByProduct);
    part
}

#[test]
fn by_products_are_charged_as_the_scenario_says() {
    let (reading, costing) = cost_bytes(&[("prawns.csv", BOOK.as_bytes())]);
    // 60.00 in. Shells: 25 % of 6.00 a pound × 2 lb = 3.00. The rest, 57.00, by weight: tails 5 of 7, heads 2 of 7:
    // 40.7143 and 16.2857. With 1.00 of rice each: 41.7143 and 3.00 + 16.2857 + 1.00 = 20.2857.
    assert_eq!(dishes(&costing), [d("41.7143"), d("20.2857")]);
    // All free: the tails bear the 60.00, the soup its rice.
    assert_eq!(dishes(&under(&reading, Charging::Free)), [d("61"), d("1")]);
    // Shells at all of the AP price: 12.00; the rest, 48.00: 34.2857 and 13.7143.
    let whole = Charging::OneAt { part: shells(&reading), fraction: Decimal::ONE };
    assert_eq!(dishes(&under(&reading, whole)), [d("35.2857"), d("26.7143")]);
}

#[test]
fn whatever_is_charged_the_kitchen_pays_what_it_bought() {
    let (reading, _) = cost_bytes(&[("prawns.csv", BOOK.as_bytes())]);
    let part = shells(&reading);
    let steps = (0..=10).map(|tenth| Charging::OneAt { part, fraction: Decimal::new(tenth, 1) });
    let mut before: Option<(Decimal, Decimal)> = None;
    for charging in steps.chain([Charging::AsTheBookSays, Charging::Free]) {
        let costing = under(&reading, charging);
        let test = costing.tests[0].as_ref().unwrap();
        // Nothing is left over in this kitchen: the parts, and so the dishes, add up to the purchase. To the last digit.
        assert_eq!(test.parts.iter().map(|part| part.cost).sum::<Decimal>(), test.cost);
        let dishes: Vec<Decimal> = costing.dishes.iter().map(|dish| dish.as_ref().unwrap().food).collect();
        assert_eq!(
            (dishes[0] + dishes[1]).round_dp_with_strategy(20, rust_decimal::RoundingStrategy::MidpointAwayFromZero),
            d("62")
        );
        // Raising a credit never lowers the dish that uses it, nor raises the one that made it.
        if let (Charging::OneAt { .. }, Some((maker, user))) = (charging, before) {
            assert!(dishes[0] < maker && dishes[1] > user, "{dishes:?}");
        }
        before = Some((dishes[0], dishes[1]));
    }
}

#[test]
fn another_day_takes_the_prices_of_that_day() {
    let (reading, _) = cost_bytes(&[("prawns.csv", BOOK.as_bytes())]);
    let later = Scenario { date: date(2026, 11, 25), charging: Charging::Free, ..Scenario::of(&reading.kitchen) };
    // From 25 November ten pounds are 80.00; all free, the tails bear them.
    assert_eq!(dishes(&cost(&reading.kitchen, &later)), [d("81"), d("1")]);
}

/// With the trim free, the two mains are left to bear the cost, and both are given away.
#[test]
fn a_scenario_that_leaves_nobody_to_bear_the_cost_says_so() {
    let book = "Item,Pack,Price
Pike,10 lb,$50.00

Test,Role,Part,Weight,Charged as,Value
Filleting,as purchased,Pike,10 lb,,
Filleting,main,Fillet,5 lb,by sales value,$0
Filleting,main,Loin,2 lb,by sales value,$0
Filleting,by-product,Roe,1 lb,by sales value,$9.00
";
    let (reading, costing) = cost_bytes(&[("pike.csv", book.as_bytes())]);
    assert_eq!(costing.tests[0].as_ref().unwrap().parts[2].cost, d("50"));
    let free = under(&reading, Charging::Free);
    assert!(free.tests[0].is_none());
    let said: Vec<String> = free.problems.iter().map(parings::Problem::message).collect();
    assert_eq!(said, ["no main of “Filleting” has a weight and a value above zero"]);
}
