//! A plan of several days: what is made on one serves the next, as long as it keeps. All books invented.
//!
//! The day of making is the first: FDA Food Code 3-501.17 counts so (made on 1 April with 7 days, out by 7 April, as the
//! Southern Nevada Health District's questions and answers have it).

use super::errors;
use super::planned::planned;

/// A plate takes half a pound of tails and so leaves 0.2 lb of shells; a portion of butter wants a quarter pound of them.
fn prawns(keeps: &str, plan: &str) -> String {
    format!(
        "Item,Pack,Price
Prawns,10 lb,$60.00

Test,Role,Part,Weight,Charged as,Keeps
Peeling,as purchased,Prawns,10 lb,,
Peeling,main,Tails,5 lb,,
Peeling,by-product,Shells,2 lb,free,{keeps}

Recipe,Plate
Portions,10
Ingredient,Qty,Unit
Tails,5,lb

Recipe,Butter
Portions,4
Ingredient,Qty,Unit
Shells,1,lb

Dish,Portions,Day
{plan}"
    )
}

/// Asserts the shells of a plan: made, wanted, used, left over, too old, short.
#[track_caller]
fn shells(keeps: &str, plan: &str, [made, wanted, used, left, old, short]: [&str; 6]) {
    let of = planned(&prawns(keeps, plan));
    assert_eq!(errors(&of.reading, &of.costing), [""; 0]);
    of.balances("Shells", ["0", made, wanted, used, left, old, short]);
}

#[test]
fn what_is_fresh_serves_and_what_is_too_old_does_not() {
    // 20 plates make 4 lb of shells on the first day; 8 of butter want 2 lb on a later one.
    let after = |day: &str| format!("Plate,20,2026-11-24\nButter,8,2026-11-{day}\n");
    for (keeps, day, used) in [
        ("1", "24", true),
        ("1", "25", false),
        ("2", "25", true),
        ("2", "26", false),
        // Made on the 24th: day 1. The 26th is day 3, the 27th day 4.
        ("3", "26", true),
        ("3", "27", false),
        // Not for a whole day: on its own day it serves all the same.
        ("0", "24", true),
        ("0", "25", false),
    ] {
        let rest = if used { ["4", "2", "2", "2", "0", "0"] } else { ["4", "2", "0", "0", "4", "2"] };
        shells(keeps, &after(day), rest);
    }
    // Not stated, it is not judged.
    shells("", &after("30"), ["4", "2", "2", "2", "0", "0"]);
    // The 25th is day 2 and within two and a half days, the 26th is day 3 and not.
    shells("2.5", &after("25"), ["4", "2", "2", "2", "0", "0"]);
    shells("2.5", &after("26"), ["4", "2", "0", "0", "4", "2"]);
}

#[test]
fn days_span_and_the_oldest_is_used_first() {
    // Keeps two days. Monday 1 lb made; Tuesday 1 lb made and 1 lb wanted, which takes Monday's; Wednesday takes Tuesday's.
    let plan = "Plate,5,Mon\nPlate,5,Tue\nButter,4,Tue\nButter,4,Wed\n";
    shells("2", plan, ["2", "2", "2", "0", "0", "0"]);
    // Monday 4 lb made, keeps three days. Wednesday takes 1, Thursday finds none: 3 too old, 1 short.
    let plan = "Plate,20,Mon\nButter,4,Wed\nButter,4,Thu\n";
    shells("3", plan, ["4", "2", "1", "0", "3", "1"]);
    // Monday's and Wednesday's 1 lb each; Thursday wants 2: it is Monday's fourth day.
    let plan = "Plate,5,Mon\nPlate,5,Wed\nButter,8,Thu\n";
    shells("3", plan, ["2", "2", "1", "0", "1", "1"]);
    shells("4", plan, ["2", "2", "2", "0", "0", "0"]);
}

#[test]
fn a_day_cannot_use_what_a_later_day_makes() {
    // However the rows stand.
    for plan in ["Butter,8,Mon\nPlate,20,Tue\n", "Plate,20,Tue\nButter,8,Mon\n"] {
        shells("", plan, ["4", "2", "0", "4", "0", "2"]);
    }
}

#[test]
fn days_that_are_only_named_follow_each_other_and_age_nothing() {
    shells("0", "Plate,20,Lunch\nButter,8,Dinner\n", ["4", "2", "2", "2", "0", "0"]);
    // Without any day it is one.
    shells("0", "Butter,8,\nPlate,20,\n", ["4", "2", "2", "2", "0", "0"]);
}

#[test]
fn what_was_on_hand_before_counts_as_made_on_the_first_day() {
    let book = |keeps: &str| {
        let plan = "Plate,5,Mon\nButter,4,Tue\nButter,4,Wed\nButter,8,Fri\n";
        format!("{}\nItem,On hand\nShells,1 lb\nShells,2 lb\n", prawns(keeps, plan))
    };
    // 3 on hand and Monday's 1 lb keep two days: Tuesday takes 1, on Wednesday 3 are too old; 1 and Friday's 2 are short.
    planned(&book("2")).balances("Shells", ["3", "1", "4", "1", "0", "3", "3"]);
    // Three days: Wednesday takes 1 more, on Friday 2 are too old and 2 short.
    planned(&book("3")).balances("Shells", ["3", "1", "4", "2", "0", "2", "2"]);
    planned(&book("")).balances("Shells", ["3", "1", "4", "4", "0", "0", "0"]);
}

#[test]
fn mains_are_kept_as_long_as_they_may_be() {
    // Four whole birds of 5 lb, 1 lb of breast in each. Monday wants half a pound: one bird, half left, keeps two days.
    let of = planned(
        "Item,Pack,Price
Bird,20 lb,$40.00

Test,Role,Part,Weight,Charged as,Keeps
Cutting,as purchased,Bird,\"4 each, 20 lb\",,
Cutting,main,Breast,4 lb,,2
Cutting,by-product,Frame,8 lb,free,

Recipe,Plate
Portions,2
Ingredient,Qty,Unit
Breast,1,lb

Dish,Portions,Day
Plate,1,Mon
Plate,1,Tue
Plate,1,Wed
Plate,1,Fri
",
    );
    // Tuesday takes Monday's other half. Wednesday a new bird, whose other half is too old on Friday, its third day: a third bird.
    assert_eq!(of.test("Cutting").pieces, Some(super::d("3")));
    of.balances("Breast", ["0", "3", "2", "2", "0.5", "0.5", "0"]);
    of.balances("Frame", ["0", "6", "0", "0", "6", "0", "0"]);
}
