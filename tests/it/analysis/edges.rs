//! Figures that no kitchen means: nothing panics, nothing is made up, and what is not touched stands.

use parings::analysis::{Balance, Trim};
use rust_decimal::Decimal;

use super::planned::{LB, is, planned};
use super::{d, errors, read};
use crate::support::at_length;

fn prawns(shells: &str, plan: &str, rest: &str) -> String {
    format!(
        "Item,Pack,Price
Prawns,10 lb,$60.00
Base,1 lb,$16.00

Test,Role,Part,Weight,Charged as,Value,Further cost,Instead of,Otherwise,Eaten,Keeps
Peeling,as purchased,Prawns,10 lb,,,,,,,
Peeling,main,Tails,5 lb,,,,,,,
Peeling,by-product,Shells,{shells}

Recipe,Plate
Portions,10
Menu price,20.00
Ingredient,Qty,Unit
Tails,5,lb

Recipe,Butter
Portions,4
Menu price,5.00
Ingredient,Qty,Unit
Shells,1,lb

Dish,Portions
{plan}
{rest}"
    )
}

const SHELLS: &str = "2 lb,fraction,10%,,2 oz Base per lb,,,";

/// The trim report of a book in every form: none of them may panic.
fn reported(book: &str) -> Trim {
    let (reading, costing) = read(book);
    let kitchen = &reading.kitchen;
    let trim = Trim::of(kitchen, &costing, &[], d("0.5"));
    let problems = reading.problems_with(&costing);
    let text = parings::output::text::trim(kitchen, &costing, &trim, parings::output::text::View::default());
    let json = parings::output::json::trim(kitchen, &costing, &trim, &problems);
    assert!(!text.is_empty() && !json.is_empty());
    trim
}

#[test]
fn what_does_not_fit_is_left_out_and_the_rest_of_the_report_stands() {
    let (most, many) = ("9999999999999999999999999999", "90000000000000000000000000");
    for plan in [format!("Plate,{most}"), format!("Plate,{many}"), format!("Plate,1\nPlate,{most}\nPlate,{most}")] {
        let trim = reported(&prawns(SHELLS, &plan, ""));
        assert!(trim.ways[0].is_some() && trim.spreads[0].is_some());
        // Either it is known and right, or it is not said at all.
        assert!(trim.balance.is_none(), "{plan}");
    }
    // A hundred billion plates: 50 billion pounds of tails.
    let of = planned(&prawns(SHELLS, "Plate,100000000000\n", ""));
    is(of.part("Tails").made, d("50000000000") * LB, "tails");
    // What is on hand, too large to weigh.
    let trim = reported(&prawns(SHELLS, "Plate,10\n", &format!("Item,On hand\nTails,{most} lb\n")));
    let balance = trim.balance.unwrap();
    assert_eq!(balance.not_counted, [0]);
    is(balance.tests[0].as_ref().unwrap().parts[0].made, d("5") * LB, "tails");
}

#[test]
fn a_crumb_of_a_portion_is_a_crumb() {
    let of = planned(&prawns(SHELLS, "Plate,0.000000001\nButter,0.000000001\n", ""));
    let tails = of.part("Tails");
    is(tails.made * d("1000000000"), d("0.5") * LB, "tails");
    assert_eq!(tails.short, Decimal::ZERO);
    let shells = of.part("Shells");
    is((shells.used + shells.short) * d("1000000000"), d("0.25") * LB, "shells");
}

#[test]
fn less_than_nothing_is_refused_where_it_stands() {
    let book = prawns(SHELLS, "Plate,-5\nPlate,10\n", "Item,On hand\nTails,-2 lb\n");
    let (reading, costing) = read(&book);
    assert_eq!(errors(&reading, &costing).len(), 2, "{:?}", reading.problems_with(&costing));
    let balance = Balance::of(&reading.kitchen, &costing).unwrap().unwrap();
    let tails = balance.tests[0].as_ref().unwrap().parts[0];
    assert_eq!(tails.on_hand, Decimal::ZERO);
    is(tails.made, d("5") * LB, "tails");
}

#[test]
fn a_part_that_weighs_nothing_is_never_made() {
    // A main of no weight cannot be asked for: the dish is an error, and the other takes what it took.
    let book = prawns(SHELLS, "Plate,10\nButter,4\n", "").replace("main,Tails,5 lb", "main,Tails,0 lb");
    reported(&book);
    // A by-product of no weight: bought in, it has a price in the binned kitchen; made, there is none of it.
    let of = planned(&prawns("0 lb,free,,,2 oz Base per lb,,,", "Plate,10\nButter,4\n", ""));
    assert!(!errors(&of.reading, &of.costing).is_empty());
    is(of.dish("Butter").food[0].unwrap(), d("0.5"), "a quarter pound at 2.00");
    assert_eq!(of.dish("Butter").food[2], None);
    of.balances("Tails", ["0", "5", "5", "5", "0", "0", "0"]);
}

#[test]
fn credits_above_the_cost_leave_the_test_out_of_the_plan() {
    let of = planned(&prawns("2 lb,price,40.00,,2 oz Base per lb,,,", "Plate,10\nButter,4\n", ""));
    assert!(errors(&of.reading, &of.costing).contains(&"credit-over-cost"));
    assert_eq!(of.balance().tests, [None]);
    assert!(of.balance().servings.iter().all(|serving| !serving.costed));
    // Sold for more than it cost, only the kitchen that sells it is not known.
    let of = planned(&prawns("2 lb,fraction,10%,,2 oz Base per lb,sold 40.00 / lb,,", "Plate,10\nButter,4\n", ""));
    assert_eq!(errors(&of.reading, &of.costing), [""; 0]);
    assert_eq!(of.dish("Plate").food[0], None);
    let [binned, free, credited] = of.plan().totals;
    assert!(binned.is_none());
    // 10 lb at 6.00, less the pound of shells that the butter leaves, sold for 40.00.
    is(free.unwrap().purchases, d("60"), "purchases");
    is(free.unwrap().brought_in, d("20"), "brought in");
    is(credited.unwrap().brought_in, d("20"), "brought in");
}

#[test]
fn a_long_plan_of_many_dishes_is_gone_through() {
    // What grew with the square of a plan would take minutes over ten thousand days.
    let (tests, dishes, days) = if at_length() { (400, 4_000, 10_000) } else { (100, 1_000, 2_500) };
    let mut book = String::from("Item,Pack,Price\nPrawns,10 lb,$60.00\nBase,1 lb,$16.00\n\n");
    book.push_str("Test,Role,Part,Weight,Charged as,Instead of,Keeps\n");
    for n in 0..tests {
        book.push_str(&format!("Test {n},as purchased,Prawns,10 lb,,,\nTest {n},main,Main {n},5 lb,,,\n"));
        book.push_str(&format!("Test {n},by-product,Trim {n},2 lb,free,1 oz Base per lb,3\n"));
    }
    book.push_str("\nRecipe,Makes,Portion,Menu price\n");
    (0..dishes).for_each(|n| book.push_str(&format!("Dish {n},10 lb,1 lb,9.00\n")));
    book.push_str("\nRecipe,Item,Qty,Unit\n");
    for n in 0..dishes {
        book.push_str(&format!("Dish {n},Main {},1,lb\nDish {n},Trim {},0.1,lb\n", n % tests, (n + 1) % tests));
        if n % 5 > 0 {
            book.push_str(&format!("Dish {n},Dish {},0.1,lb\n", n - 1));
        }
    }
    book.push_str("\nDish,Portions,Day\n");
    (0..days).for_each(|n| book.push_str(&format!("Dish {},3,{}\n", n % 40, n + 1)));
    let (reading, costing) = read(&book);
    assert_eq!(errors(&reading, &costing), [""; 0]);
    let balance = Balance::of(&reading.kitchen, &costing).unwrap().unwrap();
    let worth = parings::analysis::Worth::of(&reading.kitchen, &costing, Some(&balance)).unwrap();
    assert_eq!(worth.dishes.len(), dishes);
}
