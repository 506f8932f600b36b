//! Trim that is sold, binned and used in one plan, by hand: the columns of the three kitchens differ by what the text says is
//! saved. All books invented.

use rust_decimal::Decimal;
use serde_json::Value;

use super::planned::{LB, Planned, is, planned};
use super::{d, errors};
use crate::recalc::{Sheets, Value as Cell, assert_recalculates, with_changes};
use crate::workbook::costed;

/// Forty pounds of goose at 3.00 give ten of breast. Of carcasses at 0.50 half go into broth and half are left; a pound
/// saves buying an ounce of base, 8.00 ÷ 16 = 0.50. Fat at 1.50 is sold for 0.90 where nobody uses it; a pound saves four
/// ounces, 2.00. Feet carry nothing and are sold for 0.30: no dish wants them.
pub fn goose(feet_keep: &str, more: &str, plan: &str) -> String {
    format!(
        "Setting,Value
Waste haulage,$0.10 / lb

Item,Pack,Price
Goose,40 lb,$120.00
Bone base,1 lb,$8.00

Test,Role,Part,Weight,Charged as,Value,Further cost,Instead of,Otherwise,Eaten,Keeps
Cutting,as purchased,Goose,40 lb,,,,,,,
Cutting,main,Breast,10 lb,,,,,,,
Cutting,by-product,Carcass,12 lb,price,0.50 / lb,0.20,1 oz Bone base per lb,binned,25%,
Cutting,by-product,Fat,4 lb,price,1.50 / lb,,4 oz Bone base per lb,sold 0.90 / lb,,
Cutting,by-product,Feet,2 lb,free,,,,sold 0.30 / lb,,{feet_keep}

Recipe,Plate
Portions,20
Ingredient,Qty,Unit
Breast,10,lb

Recipe,Broth
Portions,12
Ingredient,Qty,Unit
Carcass,6,lb

Recipe,Spread
Portions,4
Ingredient,Qty,Unit
Fat,1,lb
{more}
Dish,Menu price
Plate,24.00
Broth,6.00
Spread,3.00

Dish,Portions,Day
{plan}"
    )
}

pub const ONE_DAY: &str = "Plate,20,\nBroth,12,\nSpread,4,\n";

#[track_caller]
fn json(of: &Planned) -> Value {
    let trim = parings::analysis::Trim::of(&of.reading.kitchen, &of.costing, &[], d("0.5"));
    serde_json::from_str(&parings::output::json::trim(&of.reading.kitchen, &of.costing, &trim, &[])).unwrap()
}

#[test]
fn the_columns_differ_by_what_is_saved() {
    let of = planned(&goose("", "", ONE_DAY));
    assert_eq!(errors(&of.reading, &of.costing), [""; 0]);
    // Binned: breast (120 − 4 × 0.90 − 2 × 0.30) ÷ 10 = 11.58. Free 12.00. Credited (120 − 12 × 0.50 − 4 × 1.50) ÷ 10 = 10.80.
    of.food("Plate", [d("5.79"), d("6"), d("5.4")]);
    of.food("Broth", [d("0.25"), d("0"), d("0.25")]);
    of.food("Spread", [d("0.5"), d("0"), d("0.375")]);
    // Dishes 20 × 5.79 + 12 × 0.25 + 4 × 0.50; 20 × 6.00; 20 × 5.40 + 12 × 0.25 + 4 × 0.375. Left over: what is sold, 4.20;
    // nothing; 6 × 0.50 and 3 × 1.50. Sold: all of it, 4 × 0.90 + 2 × 0.30; where some is used 3 × 0.90 + 2 × 0.30.
    of.totals([["120.8", "4.2", "0", "120.8"], ["120", "0", "0", "116.7"], ["112.5", "7.5", "0", "116.7"]]);
    // Six pounds of carcass take 1.20 to use; a quarter of them is eaten, and 1.5 × 0.10 is not hauled.
    for (total, [sold, further_cost, haulage, comes_to]) in of.plan().totals.iter().zip([
        ["4.2", "0", "0", "120.8"],
        ["3.3", "1.2", "0.15", "117.75"],
        ["3.3", "1.2", "0.15", "117.75"],
    ]) {
        let total = total.unwrap();
        is(total.sold, d(sold), "sold");
        is(total.further_cost, d(further_cost), "further cost");
        is(total.haulage, d(haulage), "haulage");
        is(total.comes_to, d(comes_to), "comes to");
    }
    // Carcasses 6 × 0.50 − 1.20 + 0.15; fat 2.00 less a pound that is not sold. 120.80 − 117.75.
    is(of.saves("Carcass").saved.unwrap(), d("1.95"), "carcass");
    is(of.saves("Fat").saved.unwrap(), d("1.1"), "fat");
    is(of.plan().saving.unwrap(), d("3.05"), "saving");
    let report = of.report();
    for words in [
        "Using trim saves $3.05 over the plan",
        "In all $3.05 are really saved",
        "less what is sold 4.20 3.30 3.30",
        "What it comes to 120.80 117.75 117.75",
    ] {
        assert!(report.contains(words), "no “{words}” in {report}");
    }
    let json = json(&of);
    let kitchen = |at: usize, key: &str| json["plan"]["kitchens"][at][key].as_str().unwrap().to_owned();
    assert_eq!(json["plan"]["saved"], "3.05");
    assert_eq!([0, 1, 2].map(|at| kitchen(at, "comes_to")), ["120.8", "117.75", "117.75"]);
    assert_eq!([0, 1, 2].map(|at| kitchen(at, "sold")), ["4.2", "3.3", "3.3"]);
}

/// The sheet says the same, and follows a price.
#[test]
fn the_sheet_says_what_the_text_says() {
    let (_, _, written) = costed("goose.csv", goose("", "", ONE_DAY).as_bytes());
    assert_recalculates(&written, "goose.costed.xlsx");
    let row_of = |sheets: &Sheets, text: &str| {
        let is_it = |row: &u32| matches!(sheets.value("Trim", &format!("A{row}")), Cell::Text(found) if found == text);
        (1..200).find(is_it).unwrap_or_else(|| panic!("no “{text}”"))
    };
    let at = |sheets: &Sheets, column: &str, row: u32| sheets.number("Trim", &format!("{column}{row}"));
    let near = |found: f64, expected: f64| assert!((found - expected).abs() < 1e-9, "{found}, not {expected}");
    let sheets = Sheets::open(&written);
    let (comes_to, sold) = (row_of(&sheets, "What it comes to"), row_of(&sheets, "less what is sold"));
    for (column, total, price) in [("C", 120.8, 4.2), ("D", 117.75, 3.3), ("E", 117.75, 3.3)] {
        near(at(&sheets, column, comes_to), total);
        near(at(&sheets, column, sold), price);
    }
    // In all of what is saved: the row below the parts, in the last column.
    let saved = (comes_to..200)
        .find(|row| matches!(sheets.value("Trim", &format!("A{row}")), Cell::Text(found) if found == "In all"));
    near(at(&sheets, "H", saved.unwrap()), 3.05);
    // Base at 16.00 a pound doubles what is not bought: 6.00 − 1.05 and 4.00 − 0.90.
    let dearer = with_changes(&written, &[("Prices", "C3", 16.0)]);
    near(at(&dearer, "H", saved.unwrap()), 8.05);
    near(at(&dearer, "C", comes_to) - at(&dearer, "D", comes_to), 8.05);
    // A spread is all trim, and what that would cost to buy is 1.00 now.
    let spread = (saved.unwrap()..200)
        .find(|row| matches!(sheets.value("Trim", &format!("A{row}")), Cell::Text(found) if found == "Spread"));
    near(at(&dearer, "B", spread.unwrap()), 1.0);
    near(at(&dearer, "D", spread.unwrap()), 1.0);
}

/// The report begins with its answer: five lines, then the detail.
#[test]
fn the_answer_stands_first() {
    let of = planned(&goose("", "", ONE_DAY));
    let trim = parings::analysis::Trim::of(&of.reading.kitchen, &of.costing, &[], d("0.5"));
    let view = parings::output::text::View::default();
    let text = parings::output::text::trim(&of.reading.kitchen, &of.costing, &trim, view);
    let lines: Vec<&str> = text.lines().take(6).collect();
    // The plate is credited 5.40 and would be 6.00; broth is charged 0.25 and the spread 0.375, which were nothing.
    assert_eq!(
        lines,
        [
            "Using trim saves $3.05 over the plan: what need not be bought, less what using it costs.",
            "Gain by the credits, a portion: Plate $0.60.",
            "Pay for them: Broth $0.25; Spread $0.38.",
            "There is enough of all trim.",
            "Trim is left over that was given $4.80 of credit, which no dish has paid for.",
            "",
        ]
    );
}

/// What moves less than a cent is shown with the decimals that moved.
#[test]
fn a_move_below_a_cent_is_seen() {
    // Eight portions of spread want 2 lb of fat, and 4 lb are made: nothing is short. Sixteen and a fraction want 4.0125: at 1.50
    // but for 0.0125 lb at 2.00 of 4.0125. A quarter pound costs 0.375 and then (6.00 + 0.025) ÷ 4.0125 ÷ 4 = 0.375389.
    let of = planned(&goose("", "", "Plate,20,\nSpread,16.05,\n"));
    let report = of.report();
    assert!(report.contains("of Spread from $0.3750 to $0.3754"), "{report}");
}

#[test]
fn of_the_credit_for_what_is_sold_the_price_is_earned() {
    let of = planned(&goose("", "", ONE_DAY));
    // Six pounds of carcass stay at 0.50. Three of fat are sold for 0.60 less than their credit.
    is(of.saves("Carcass").unearned, d("3"), "carcass");
    is(of.saves("Fat").unearned, d("1.8"), "fat");
    is(of.plan().unearned, d("4.8"), "all");
    // Over ten pounds of breast: 0.48 a pound, 0.24 for half a pound.
    let [plate] = of.plan().earned[..] else { panic!("{:?}", of.plan().earned) };
    assert_eq!(of.name(plate.served), "Plate");
    is(plate.food, d("5.4"), "as credited");
    is(plate.alone, d("5.64"), "earned alone");
    // Sold for more than its credit, fat has earned all of it.
    let dear = planned(&goose("", "", ONE_DAY).replace("sold 0.90", "sold 1.75"));
    assert_eq!(dear.saves("Fat").unearned, Decimal::ZERO);
    is(dear.plan().unearned, d("3"), "all");
}

#[test]
fn what_no_dish_wants_is_sold_when_it_is_made() {
    // Plates on two days; feet keep a day. Nobody waits until they are too old.
    let of = planned(&goose("1", "", "Plate,10,Mon\nBroth,12,Mon\nSpread,4,Mon\nPlate,10,Wed\n"));
    of.balances("Feet", ["0", "2", "0", "0", "2", "0", "0"]);
    is(of.part("Feet").left_of_made, d("2") * LB, "made");
    let totals = of.plan().totals.map(|total| total.unwrap());
    // 0.60 for the feet and 2.70 for the fat that is left, as on one day.
    is(totals[1].sold, d("3.3"), "sold");
    is(of.plan().saving.unwrap(), totals[0].comes_to - totals[1].comes_to, "saving");
}

#[test]
fn what_is_kept_in_vain_and_could_have_been_sold_is_given_up() {
    // Plates on Monday leave 4 lb of fat that keeps its own day; the spread is made on Wednesday, when no goose is cut. All of
    // it is bought in, and 4 × 0.90 are not earned.
    let plan = "Plate,20,Mon\nSpread,4,Wed\n";
    let of = planned(&goose("", "", plan).replace("sold 0.90 / lb,,", "sold 0.90 / lb,,1"));
    of.balances("Fat", ["0", "4", "1", "0", "0", "4", "1"]);
    let fat = of.saves("Fat");
    is(fat.not_sold, d("3.6"), "not sold");
    is(fat.saved.unwrap(), d("-3.6"), "saved");
    is(of.plan().saving.unwrap(), d("-3.6"), "saving");
    let totals = of.plan().totals.map(|total| total.unwrap());
    is(totals[0].comes_to - totals[1].comes_to, d("-3.6"), "columns");
    let report = of.report();
    assert!(report.contains("Using trim costs $3.60 more over the plan than it saves."), "{report}");
}

#[test]
fn of_stock_and_what_is_made_the_stock_is_used_first() {
    // A pound of fat on hand serves the spread: all four that are made are sold.
    let of = planned(&format!("{}\nItem,On hand\nFat,1 lb\n", goose("", "", ONE_DAY)));
    is(of.part("Fat").left_of_made, d("4") * LB, "made and left");
    is(of.plan().totals[1].unwrap().sold, d("4.2"), "4 × 0.90 + 2 × 0.30");
    is(of.saves("Fat").saved.unwrap(), d("2"), "four ounces of base");
    // Six pounds on hand: five are left of them, and are not what the plan made.
    let of = planned(&format!("{}\nItem,On hand\nFat,6 lb\n", goose("", "", ONE_DAY)));
    of.balances("Fat", ["6", "4", "1", "1", "9", "0", "0"]);
    is(of.plan().totals[1].unwrap().sold, d("4.2"), "4 × 0.90 + 2 × 0.30");
}

#[test]
fn what_stands_in_may_be_on_the_shelf() {
    // A pound of base at 8.00 is on hand and stays there in all three kitchens: saved are 3.05 as before.
    let of = planned(&format!("{}\nItem,On hand\nBone base,1 lb\n", goose("", "", ONE_DAY)));
    for (total, comes_to) in of.plan().totals.iter().zip(["120.8", "117.75", "117.75"]) {
        is(total.unwrap().comes_to, d(comes_to), "comes to");
    }
    is(of.plan().saving.unwrap(), d("3.05"), "saving");
}
