//! A plan is told alike in the terminal, JSON, csv and the sheet: what must be bought, days apart, enough for how many. All
//! books invented, and worked with a pencil.

use parings::analysis::{Effects, Trim};
use parings::output::{csv, json};
use proptest::prelude::*;
use rust_decimal::Decimal;
use serde_json::Value as Json;

use super::house::house;
use super::planned::{Planned, is, planned};
use super::{d, errors};
use crate::recalc::{Sheets, Value, assert_recalculates, with_changes};
use crate::support::dec;

/// A plate takes half a pound of tails and leaves 0.1 lb of heads; a portion of bisque wants a quarter pound of heads.
fn heads(more: &str) -> Planned {
    planned(&format!(
        "Setting,Value\nCosting date,2026-11-20\nCurrency,USD\n
Item,Pack,Price
Prawns,10 lb,$60.00
Base,6/1 lb,$96.00

Test,Role,Part,Weight,Charged as,Instead of
Peeling,as purchased,Prawns,10 lb,,
Peeling,main,Tails,5 lb,,
Peeling,by-product,Heads,1 lb,free,2 oz Base per lb

Recipe,Plate
Portions,10
Menu price,20.00
Ingredient,Qty,Unit
Tails,5,lb

Recipe,Bisque
Portions,4
Ingredient,Qty,Unit
Heads,1,lb

{more}"
    ))
}

fn trim_of(of: &Planned) -> Trim {
    Trim::of(&of.reading.kitchen, &of.costing, &[], d("0.5"))
}

fn json_of(of: &Planned) -> Json {
    serde_json::from_str(&json::trim(&of.reading.kitchen, &of.costing, &trim_of(of), &[])).unwrap()
}

fn workbook_of(of: &Planned) -> Vec<u8> {
    parings::write(&of.reading, &of.costing, crate::workbook::STAMP).unwrap()
}

/// The first row of the sheet Trim, from `after` on, whose first cell says so.
#[track_caller]
fn row_of(sheets: &Sheets, after: usize, name: &str) -> usize {
    let is_it = |row: &usize| sheets.value("Trim", &format!("A{row}")) == Value::Text(name.to_owned());
    (after..after + 200).find(is_it).unwrap_or_else(|| panic!("no row “{name}”"))
}

#[track_caller]
fn shows(sheets: &Sheets, row: usize, cells: &[(&str, f64)]) {
    for (column, expected) in cells {
        let found = sheets.value("Trim", &format!("{column}{row}"));
        assert!(found.agrees(&Value::Number(*expected)), "Trim!{column}{row}: {found} instead of {expected}");
    }
}

/// Monday peels 20 lb, whose 2 lb of heads are one short of 3; Tuesday peels 10, and nobody wants its pound.
const TWO_DAYS: &str = "Dish,Portions,Day\nPlate,20,Mon\nBisque,12,Mon\nPlate,10,Tue\n";

#[test]
fn short_and_left_over_in_one_row_are_given_per_day() {
    let of = heads(TWO_DAYS);
    assert_eq!(errors(&of.reading, &of.costing), [""; 0]);
    of.balances("Heads", ["0", "3", "3", "2", "1", "0", "1"]);
    let report = of.report();
    for row in ["Heads (by-product) – 3.00 3.00 1.00 – 1.00", "· Mon – 2.00 3.00 – – 1.00", "· Tue – 1.00 – 1.00 – –"]
    {
        assert!(report.contains(row), "{row}: {report}");
    }
    let json = json_of(&of);
    let parts = json["balance"][0]["parts"].as_array().unwrap();
    assert_eq!(parts[0]["days"], Json::Array(Vec::new()), "tails are never short");
    let days = parts[1]["days"].as_array().unwrap();
    let figures = ["on_hand_g", "made_g", "wanted_g", "used_g", "left_over_g", "too_old_g", "short_g"];
    let pounds = [("Mon", ["0", "2", "3", "2", "0", "0", "1"]), ("Tue", ["0", "1", "0", "0", "1", "0", "0"])];
    assert_eq!(days.len(), 2);
    for (day, (name, pounds)) in days.iter().zip(pounds) {
        assert_eq!(day["day"], name);
        for (figure, pounds) in figures.iter().zip(pounds) {
            is(dec(&day[figure]), d(pounds) * super::planned::LB, figure);
        }
    }
    let csv = csv::balance(&of.reading.kitchen, &trim_of(&of));
    let rows: Vec<&str> = csv.lines().filter(|row| row.starts_with("Peeling,Heads,")).collect();
    assert_eq!(rows.len(), 3, "{csv}");
    // A pound is 453.59237 g.
    assert_eq!(rows[1], "Peeling,Heads,by-product,Mon,0,907.18474,1360.77711,907.18474,0,0,453.59237");
    assert_eq!(rows[2], "Peeling,Heads,by-product,Tue,0,453.59237,0,0,453.59237,0,0");
    let written = workbook_of(&of);
    assert_recalculates(&written, "two days");
    let sheets = Sheets::open(&written);
    // On hand, made, wanted, used, left over, too old, short stand in C to I.
    let monday = row_of(&sheets, 1, "Heads, Mon");
    shows(&sheets, monday, &[("C", 0.0), ("D", 2.0), ("E", 3.0), ("F", 2.0), ("G", 0.0), ("H", 0.0), ("I", 1.0)]);
    shows(&sheets, monday + 1, &[("C", 0.0), ("D", 1.0), ("E", 0.0), ("F", 0.0), ("G", 1.0), ("H", 0.0), ("I", 0.0)]);
}

#[test]
fn a_row_that_cannot_be_misread_is_one() {
    // Short on both days, or left over on both.
    for plan in ["Bisque,1,Mon\nBisque,2,Tue\n", "Plate,1,Mon\nPlate,2,Tue\n"] {
        let of = heads(&format!("Dish,Portions,Day\n{plan}"));
        assert!(of.balance().by_day(super::part(&of.reading, "Heads")).is_empty());
    }
}

#[test]
fn the_list_is_one_set_of_numbers() {
    let of = heads(TWO_DAYS);
    // 30 lb of prawns at 6.00 = 180.00; 2 oz of base for the pound of heads that is short, at 16.00 a pound: 2.00.
    // Whole packs: 3 of 60.00 and a case of 6 lb at 96.00. Binned, base stands in for 3 lb of heads: 6.00.
    let report = of.report();
    assert!(report.contains("In all 182.00 276.00"), "{report}");
    assert!(report.contains("Of this stands in for trim that is short: 0.13 lb of Base."), "{report}");
    let json = json_of(&of);
    is(dec(&json["plan"]["purchases"]), d("182"), "purchases");
    is(dec(&json["plan"]["purchases_in_whole_packs"]), d("276"), "in whole packs");
    let kitchens = json["plan"]["kitchens"].as_array().unwrap();
    for (kitchen, list) in kitchens.iter().zip(["186", "182", "182"]) {
        is(dec(&kitchen["purchases"]), d(list), "in a kitchen");
        is(dec(&kitchen["brought_in"]), d(list), "brought in: nothing is sold");
    }
    let bought: Decimal = json["to_buy"].as_array().unwrap().iter().map(|item| dec(&item["money"])).sum();
    is(bought, d("182"), "item by item");
    let csv = csv::purchases(&of.reading.kitchen, &of.costing, &trim_of(&of));
    let all: Vec<&str> = csv.lines().last().unwrap().split(',').collect();
    for (at, expected) in [(8, "182"), (10, "276"), (12, "186")] {
        is(d(all[at]), d(expected), "csv");
    }
    let written = workbook_of(&of);
    assert_recalculates(&written, "the list");
    let sheets = Sheets::open(&written);
    let list = row_of(&sheets, 1, "What the plan must buy, as purchased");
    let all = row_of(&sheets, list, "In all");
    shows(&sheets, all, &[("H", 182.0), ("J", 276.0), ("M", 186.0)]);
    let totals = row_of(&sheets, all, "To buy, before whole packs");
    shows(&sheets, totals, &[("C", 186.0), ("D", 182.0), ("E", 182.0)]);
    // The basket that new prices are weighed with is the list.
    let (kitchen, costing) = (&of.reading.kitchen, &of.costing);
    let effects = Effects::of(kitchen, costing, kitchen, costing);
    is(effects.index.unwrap().was, d("182"), "the basket");
}

#[test]
fn the_list_follows_the_prices() {
    let of = heads(&format!("{TWO_DAYS}\nItem,On hand\nPrawns,5 lb\nBase,1 oz\n"));
    let written = workbook_of(&of);
    assert_recalculates(&written, "with stock");
    let sheets = Sheets::open(&written);
    let column = |name: &str| {
        let is_it = |column: &char| sheets.value("Prices", &format!("{column}1")) == Value::Text(name.to_owned());
        ('A'..='Z').find(is_it).unwrap()
    };
    let named =
        |row: &usize| sheets.value("Prices", &format!("{}{row}", column("Item"))) == Value::Text("Prawns".to_owned());
    let price = format!("{}{}", column("Price"), (2..10).find(named).unwrap());
    // Prawns at 70.00 for 10 lb: 25 lb at 7.00 = 175.00, and 1 oz of base at 1.00. Whole packs: 3 × 70.00 and 96.00.
    let changed = with_changes(&written, &[("Prices", &price, 70.0)]);
    let all = row_of(&changed, row_of(&changed, 1, "What the plan must buy, as purchased"), "In all");
    shows(&changed, all, &[("H", 176.0), ("J", 306.0)]);
    // On hand: 5 lb of prawns, 35.00, and 1.00 of base, all of it used. In the dishes 15 lb of tails at 14.00 and the 2.00 of
    // base: 212.00, less 36.00 on hand: 176.00.
    let served = row_of(&changed, all, "In the dishes");
    shows(&changed, served, &[("D", 212.0)]);
    shows(&changed, served + 2, &[("D", 36.0)]);
    shows(&changed, served + 4, &[("D", 176.0)]);
}

#[test]
fn enough_for_how_many_is_told_everywhere() {
    // Without Instead of nothing can be bought: Monday's 2 lb of heads are enough for 8 of 12.
    let plan = TWO_DAYS.to_owned() + "Bisque,6,Tue\n";
    let of = planned(&format!(
        "Setting,Value\nCosting date,2026-11-20\nCurrency,USD\n\nItem,Pack,Price\nPrawns,10 lb,$60.00\n\n\
             Test,Role,Part,Weight,Charged as\nPeeling,as purchased,Prawns,10 lb,\nPeeling,main,Tails,5 lb,\n\
             Peeling,by-product,Heads,1 lb,free\n\nRecipe,Plate\nPortions,10\nIngredient,Qty,Unit\nTails,5,lb\n\n\
             Recipe,Bisque\nPortions,4\nIngredient,Qty,Unit\nHeads,1,lb\n\n{plan}"
    ));
    assert_eq!(errors(&of.reading, &of.costing), [""; 0]);
    // Tuesday's pound is enough for 4 of 6.
    let report = of.report();
    assert!(report.contains("Mon: Bisque 12 8 Tue: Bisque 6 4"), "{report}");
    assert!(report.contains("In all, as far as it is known 180.00"), "{report}");
    let json = json_of(&of);
    let enough = &json["enough_for"];
    assert_eq!(enough["by_products"], serde_json::json!(["Heads"]));
    assert_eq!(
        enough["portions"],
        serde_json::json!([
            {"day": "Mon", "name": "Bisque", "planned": "12", "enough": "8"},
            {"day": "Tue", "name": "Bisque", "planned": "6", "enough": "4"},
        ])
    );
    assert_eq!(json["plan"]["purchases"], Json::Null, "what the heads would cost is not known");
    let csv = csv::portions(&of.reading.kitchen, &trim_of(&of));
    assert_eq!(csv, "dish,day,planned,enough\nBisque,Mon,12,8\nBisque,Tue,6,4\n");
    let written = workbook_of(&of);
    assert_recalculates(&written, "enough for");
    let sheets = Sheets::open(&written);
    let row = row_of(&sheets, row_of(&sheets, 1, "Enough trim for"), "Bisque");
    assert_eq!(sheets.value("Trim", &format!("B{row}")), Value::Text("Mon".to_owned()));
    shows(&sheets, row, &[("C", 12.0), ("D", 8.0)]);
    shows(&sheets, row + 1, &[("C", 6.0), ("D", 4.0)]);
    assert_eq!(json["plan"]["known_purchases"], "180", "but for the heads");
    let all = row_of(&sheets, row, "In all, as far as it is known");
    shows(&sheets, all, &[("H", 180.0)]);
    assert_eq!(sheets.value("Trim", &format!("J{all}")), Value::Text("not known".to_owned()));
}

#[test]
fn a_switch_is_worth_what_is_bought() {
    let of = planned(
        "Setting,Value\nCosting date,2026-11-20\nCurrency,USD\n
Item,Supplier,Pack,Price,Date
Prawns,Southbay,10 lb,$60.00,2026-11-01
Base,Northgate,1 lb,$16.00,2026-11-10
Base,Southbay,1 lb,$12.00,2026-11-01

Test,Role,Part,Weight,Charged as,Instead of
Peeling,as purchased,Prawns,10 lb,,
Peeling,main,Tails,5 lb,,
Peeling,by-product,Heads,1 lb,free,2 oz Base per lb

Recipe,Bisque
Portions,4
Ingredient,Qty,Unit
Heads,1,lb

Dish,Portions
Bisque,32

Item,On hand
Base,4 oz
",
    );
    assert_eq!(errors(&of.reading, &of.costing), [""; 0]);
    // 8 lb of heads are short, for which 16 oz of base stand in; 4 are on hand. 12 oz, three quarters of a pound, cost 4.00 a
    // pound less at Southbay: 3.00.
    let (kitchen, costing) = (&of.reading.kitchen, &of.costing);
    let effects = Effects::of(kitchen, costing, kitchen, costing);
    let [switch] = &effects.switches[..] else { panic!("{:?}", effects.switches) };
    is(switch.worth.unwrap(), d("3"), "worth");
    is(effects.index.unwrap().was, d("12"), "the basket: 0.75 lb at 16.00");
}

proptest! {
    #![proptest_config(crate::support::chance(4))]

    /// What new prices are weighed with is what must be bought.
    #[test]
    fn the_basket_is_the_list(house in house()) {
        let of = planned(&house.book());
        let (kitchen, costing) = (&of.reading.kitchen, &of.costing);
        let index = Effects::of(kitchen, costing, kitchen, costing).index.unwrap();
        let list = of.balance().purchases.sums(costing).unwrap();
        let within = Decimal::new(1, 15) * list.known.max(Decimal::ONE);
        prop_assert!((index.was - list.known).abs() <= within, "{} instead of {}", index.was, list.known);
        prop_assert_eq!(index.was, index.now);
    }

    /// The sheet of any house comes to what is stored in it.
    #[test]
    fn the_sheet_recalculates(house in house()) {
        let of = planned(&house.book());
        assert_recalculates(&workbook_of(&of), "a house");
    }
}
