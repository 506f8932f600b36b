//! Cost factors at the price paid in a test and at today's.

use parings::analysis::{Factors, Lack, cost_factor};
use parings::{Costing, Reading};

use super::{comes_to, d, errors, only_test, per_lb, read};

fn of(reading: &Reading, costing: &Costing) -> Factors {
    cost_factor::of(&reading.kitchen, costing, only_test(reading)).unwrap().unwrap()
}

/// Prawns peeled at 6.00 a pound, 10 lb, with salt water; invented.
fn prawns(today: &str, paid: &str, shells: &str) -> String {
    format!(
        "Item,Pack,Price
Prawns,10 lb,{today}
Butter,1 lb,$2.00

Test,Role,Part,Weight,Charged as,Value,Price
Peeling,as purchased,Prawns,10 lb,,,{paid}
Peeling,added,Butter,1 lb,,,
Peeling,main,Tails,5 lb,,,
Peeling,by-product,Shells,2 lb,{shells},
Peeling,waste,Heads,2 lb,,,
"
    )
}

#[test]
fn credits_in_money_make_the_factors_differ() {
    let (reading, costing) = read(&prawns("$80.00", "$6.00", "price,1.00"));
    assert_eq!(errors(&reading, &costing), [""; 0]);
    let factors = of(&reading, &costing);
    assert!(factors.moved);
    comes_to(per_lb(Some(factors.then)), "6");
    comes_to(per_lb(Some(factors.now)), "8");
    // Then 60 + 2 of butter − 2 of shells = 60, 12.00 a pound: 2.00 of 6.00. Now 80 + 2 − 2 = 80, 16.00: 2.00 of 8.00.
    let tails = &factors.parts[0];
    assert_eq!((tails.then, tails.now), (Some(d("2")), Some(d("2"))));
    comes_to(per_lb(tails.by_old), "16");
    // Shells are 1.00 a pound then and now; by the old factor they would have risen with the prawns, to 8 ÷ 6.
    let shells = &factors.parts[1];
    comes_to(shells.then.unwrap(), "0.16666667");
    assert_eq!(shells.now, Some(d("0.125")));
    comes_to(per_lb(shells.by_old), "1.33333333");
    comes_to(per_lb(shells.today), "1");
    assert_eq!(factors.parts[2].then, Some(d("0")));
}

#[test]
fn a_fraction_moves_with_the_price() {
    let (reading, costing) =
        read(&prawns("$80.00", "$6.00", "fraction,50%").replace("Peeling,added,Butter,1 lb,,,\n", ""));
    let factors = of(&reading, &costing);
    for part in &factors.parts {
        assert_eq!(part.then, part.now);
        assert_eq!(per_lb(part.by_old), per_lb(part.today));
    }
    // 80 − 2 × 4 = 72 over 5 lb.
    comes_to(per_lb(factors.parts[0].today), "14.4");
}

#[test]
fn a_price_that_has_not_moved_says_so() {
    let (reading, costing) = read(&prawns("$60.00", "$6.00", "price,1.00"));
    let factors = of(&reading, &costing);
    assert!(!factors.moved);
    assert!(factors.parts.iter().all(|part| part.then == part.now));
}

#[test]
fn runs_that_state_a_price_count_by_weight() {
    // 10 lb at 6.00 and 5 lb at 9.00 are 105 for 15 lb: 7.00 a pound. The third run says nothing.
    let (reading, costing) = read(
        "Item,Pack,Price
Prawns,10 lb,$80.00

Test,Run,Role,Part,Weight,Price
Peeling,1,as purchased,Prawns,10 lb,$6.00
Peeling,1,main,Tails,5 lb,
Peeling,2,as purchased,Prawns,80 oz,$0.5625
Peeling,2,main,Tails,3 lb,
Peeling,3,as purchased,Prawns,5 lb,
Peeling,3,main,Tails,2 lb,
",
    );
    let factors = of(&reading, &costing);
    comes_to(per_lb(Some(factors.then)), "7");
    comes_to(factors.parts[0].then.unwrap(), "2"); // 20 lb in, 10 lb out, no credits
}

#[test]
fn without_a_price_there_is_no_old_factor_and_credits_above_it_are_told() {
    let (reading, costing) = read(&prawns("$80.00", "", "price,1.00"));
    assert_eq!(cost_factor::of(&reading.kitchen, &costing, only_test(&reading)), None);
    let (reading, costing) = read(&prawns("$80.00", "$0.60", "price,5.00"));
    // 2 lb at 5.00 against 6.00 + 2.00 of butter then.
    let lack = Lack::CreditsOverCost { credits: d("10"), cost: d("8") };
    assert_eq!(cost_factor::of(&reading.kitchen, &costing, only_test(&reading)), Some(Err(vec![lack])));
}
