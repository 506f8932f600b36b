//! One test under every way of charging.

use parings::analysis::charging_methods::{PartUnder, UnderWay};
use parings::analysis::{Lack, Way, Ways, charging_methods};
use parings::kitchen::yield_test::{Charged, JointMethod};
use parings::{Costing, Reading};
use rust_decimal::Decimal;

use super::{comes_to, d, errors, only_test, part, per_lb, read};

const PRICES: &str = "Item,Pack,Price,Per
Whole chicken,40 lb CW,1.80,lb
Chicken backs,10 lb,6.00,
";

/// The chicken of the example kitchen (`docs/cooks/example.md`) with a Value on every main and by-product; invented.
fn chicken(carcass: &str, fat: &str) -> String {
    format!(
        "{PRICES}
Test,Role,Part,Weight,Charged as,Value,Further cost,Instead of,Otherwise
Cutting up,as purchased,Whole chicken,40 lb,,,,,
Cutting up,main,Breast,12 lb,,$9.00,,,
Cutting up,main,Legs,12 lb,,$2.00,,,
Cutting up,by-product,Carcass,10 lb,{carcass}
Cutting up,by-product,Fat,2 lb,{fat}
Cutting up,waste,Scraps,2 lb,,,,,
"
    )
}

fn under(ways: &Ways, wanted: Way) -> &Result<UnderWay, Vec<Lack>> {
    &ways.ways.iter().find(|(way, _)| *way == wanted).unwrap().1
}

#[track_caller]
fn parts(ways: &Ways, way: Way) -> &[PartUnder] {
    let under = under(ways, way).as_ref().unwrap_or_else(|lack| panic!("{way:?} lacks {lack:?}"));
    assert_eq!(under.total, ways.cost, "{way:?}");
    assert_eq!(under.parts.iter().map(|part| part.cost).sum::<Decimal>(), ways.cost, "{way:?}");
    &under.parts
}

#[track_caller]
fn costs(ways: &Ways, way: Way, expected: [&str; 5]) {
    let found = parts(ways, way);
    assert_eq!(found.len(), 5);
    for (part, expected) in found.iter().zip(expected) {
        comes_to(part.cost, expected);
    }
}

fn of(reading: &Reading, costing: &Costing) -> Ways {
    charging_methods::of(&reading.kitchen, costing, only_test(reading)).unwrap()
}

/// What is wanting for a way, in words.
fn wanting(reading: &Reading, ways: &Ways, way: Way) -> Vec<String> {
    under(ways, way).as_ref().unwrap_err().iter().map(|lack| lack.words(&reading.kitchen)).collect()
}

#[test]
fn a_chicken_under_every_way() {
    let (reading, costing) = read(&chicken("market,$0.60,$0.10,1 lb Chicken backs per lb,", "free,$0.50,$0.75,,"));
    assert_eq!(errors(&reading, &costing), [""; 0]);
    let ways = of(&reading, &costing);
    assert_eq!(ways.cost, d("72")); // 40 × 1.80
    assert_eq!(ways.ways.iter().map(|(way, _)| *way).collect::<Vec<_>>(), Way::ALL);
    // Breast, legs, carcass, fat, scraps. The mains share by sales value, 108 : 24.
    costs(&ways, Way::Free, ["58.9091", "13.0909", "0", "0", "0"]); // 72 × 108 ÷ 132
    // Ten pounds of backs at 0.60; nothing says what fat would cost, so it stays free. 66 × 108 ÷ 132.
    costs(&ways, Way::Market, ["54", "12", "6", "0", "0"]);
    costs(&ways, Way::AsTheBookSays, ["54", "12", "6", "0", "0"]);
    costs(&ways, Way::Weight, ["24", "24", "20", "4", "0"]); // 72 ÷ 36 = 2.00 a pound
    // 12 × 9, 12 × 2, 10 × 0.60, 2 × 0.50: 108, 24, 6 and 1 of 139.
    costs(&ways, Way::SalesValue, ["55.9424", "12.4317", "3.1079", "0.5180", "0"]);
    // Carcass 10 × 0.50, fat 0.50 − 0.75 counts as nothing: 108, 24, 5 and 0 of 137.
    costs(&ways, Way::NetRealizableValue, ["56.7591", "12.6131", "2.6277", "0", "0"]);

    comes_to(per_lb(parts(&ways, Way::Free)[0].rate), "4.90909091");
    comes_to(per_lb(parts(&ways, Way::Weight)[2].rate), "2");
    let charged = |way: Way| parts(&ways, way).iter().map(|part| part.charged).collect::<Vec<_>>();
    let mains = Some(Charged::Joint(JointMethod::SalesValue));
    assert_eq!(charged(Way::Market), [mains, mains, Some(Charged::Market), Some(Charged::Free), None]);
    let kept: Vec<bool> = parts(&ways, Way::Market).iter().map(|part| part.kept).collect();
    assert_eq!(kept, [false, false, false, true, false]);
    let net = Some(Charged::Joint(JointMethod::NetRealizableValue));
    assert_eq!(charged(Way::NetRealizableValue), [net, net, net, net, None]);
    let worthless = parts(&ways, Way::NetRealizableValue).iter().map(|part| part.worthless).collect::<Vec<_>>();
    assert_eq!(worthless, [false, false, false, true, false]);
    assert_eq!(under(&ways, Way::Market).as_ref().unwrap().credits, d("6"));
}

#[test]
fn a_way_that_lacks_something_says_what() {
    let (reading, costing) = read(&chicken("fraction,20%,,,", ",,,,"));
    let ways = of(&reading, &costing);
    assert_eq!(
        under(&ways, Way::SalesValue),
        &Err(vec![Lack::Value(part(&reading, "Carcass")), Lack::Value(part(&reading, "Fat")),])
    );
    assert_eq!(
        wanting(&reading, &ways, Way::NetRealizableValue),
        ["“Carcass” has no Value in money", "“Fat” has no Value in money"]
    );
    assert_eq!(
        wanting(&reading, &ways, Way::Market),
        ["nothing says what “Carcass” would cost to buy", "nothing says what “Fat” would cost to buy"]
    );
    // A fifth of 1.80 for ten pounds; the other 68.40 by 108 : 24.
    costs(&ways, Way::AsTheBookSays, ["55.9636", "12.4364", "3.6", "0", "0"]);
    costs(&ways, Way::Weight, ["24", "24", "20", "4", "0"]);
}

#[test]
fn a_value_is_had_from_what_it_fetches_too() {
    let (reading, costing) = read(&chicken("fraction,20%,,,sold 0.60 / lb", ",,,,sold 0.50 / lb"));
    let ways = of(&reading, &costing);
    costs(&ways, Way::SalesValue, ["55.9424", "12.4317", "3.1079", "0.5180", "0"]);
}

#[test]
fn a_buy_in_without_a_price_is_wanting() {
    let book = chicken("free,,,1 lb Chicken backs per lb,", ",,,,").replace("10 lb,6.00,", "24 each,6.00,");
    let (reading, costing) = read(&book);
    assert_eq!(errors(&reading, &costing), [""; 0]);
    let ways = of(&reading, &costing);
    assert_eq!(
        wanting(&reading, &ways, Way::Market),
        ["what “Chicken backs” costs is not known, which “Carcass” stands in for"]
    );
}

#[test]
fn charges_above_the_cost_are_told_instead_of_figures_and_the_other_ways_stand() {
    let (reading, costing) = read(&chicken("price,$8.00,,1 lb Chicken backs per lb,", "free,$0.50,,,"));
    assert_eq!(errors(&reading, &costing), ["credit-over-cost"]);
    let ways = of(&reading, &costing);
    assert_eq!(under(&ways, Way::AsTheBookSays), &Err(vec![Lack::CreditsOverCost { credits: d("80"), cost: d("72") }]));
    assert_eq!(wanting(&reading, &ways, Way::AsTheBookSays), ["by-products would take 80.00 of a cost of 72.00"]);
    costs(&ways, Way::Market, ["54", "12", "6", "0", "0"]);
}

#[test]
fn mains_worth_nothing_bear_nothing_and_say_so() {
    // Both mains are given away; as the book says, the carcass bears all. Free, nobody could.
    let book = chicken("by sales value,$0.60,,,", "free,,,,").replace("$9.00", "$0").replace("$2.00", "$0");
    let (reading, costing) = read(&book);
    let ways = of(&reading, &costing);
    costs(&ways, Way::AsTheBookSays, ["0", "0", "72", "0", "0"]);
    assert_eq!(under(&ways, Way::Free), &Err(vec![Lack::NothingToShareBy]));
    assert_eq!(
        wanting(&reading, &ways, Way::Free),
        ["nothing that shares the cost has a weight and a value above zero"]
    );
}

#[test]
fn a_lone_main_needs_no_value() {
    let (reading, costing) = read(
        "Item,Pack,Price
Cod,10 lb,$50.00

Test,Role,Part,Weight
Filleting,as purchased,Cod,10 lb
Filleting,main,Fillet,6 lb
Filleting,waste,Bones,3 lb
",
    );
    let ways = of(&reading, &costing);
    for way in [Way::Free, Way::Weight, Way::AsTheBookSays] {
        comes_to(parts(&ways, way)[0].cost, "50");
    }
    // Nothing else takes anything, so there is nothing to value it against; the rule asks for a Value all the same.
    assert_eq!(wanting(&reading, &ways, Way::SalesValue), ["“Fillet” has no Value in money"]);
}

#[test]
fn what_cannot_be_costed_has_no_ways() {
    let (reading, costing) =
        read("Test,Role,Part,Weight\nFilleting,as purchased,Cod,10 lb\nFilleting,main,Fillet,6 lb\n");
    assert_eq!(charging_methods::of(&reading.kitchen, &costing, only_test(&reading)), None);
}
