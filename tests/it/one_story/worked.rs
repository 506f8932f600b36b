//! Cases worked by hand, each told by terminal, JSON, csv and the sheet; all invented, from common practice.

use parings::analysis::Trim;
use parings::output::{csv, json, text};
use rust_decimal::Decimal;
use serde_json::Value;

use super::{Cells, Stored, WIDE, costs, csv_rows, list, on_one_line};
use crate::recalc::{Sheets, Value as Cell, assert_recalculates, with_changes};
use crate::support::{cost_bytes, json_of};
use crate::workbook::STAMP;

/// A squash is 900 g of what is usable, and 80 % of it is. Two as purchased are 1800 ÷ 0.8 = 2250 g as purchased, at 2.00 a
/// kilo 4.50; two usable ones are 1800 g at 2.00 ÷ 0.8 = 2.50 a kilo, 4.50 as well.
#[test]
fn a_piece_as_purchased_by_its_edible_weight_is_one_line_everywhere() {
    let book = "Setting,Value\nCurrency,USD\nCosting date,2026-11-20\n
Item,Pack,Price,Yield
Squash,10 kg,20.00,80%

Item,Measure,Weighs,Basis
Squash,each,900 g,EP

Recipe,Roast
Portions,4
Ingredient,Qty,Unit,Basis
Squash,2,each,AP
Squash,2,each,EP
Squash,1,kg,AP
";
    let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
    let figures = costs::story(&reading, &costing).end(40).unwrap_or_else(|differs| panic!("{differs}"));
    assert!(figures > 40);
    let json = json_of(&reading, &costing);
    let keys = ["base_qty", "yield_percent", "yield_from", "unit_cost", "cost"];
    let lines: Vec<Vec<&Value>> =
        list(&json["recipes"][0]["lines"]).iter().map(|line| keys.iter().map(|key| &line[*key]).collect()).collect();
    // As purchased: 2 × 900 g ÷ 80 %. The yield is its measure's, and no yield of the line.
    let crossed = [Value::from("2250"), Value::Null, Value::from("none"), Value::from("0.002"), Value::from("4.5")];
    assert!(lines[0].iter().zip(&crossed).all(|(found, expected)| *found == expected), "{:?}", lines[0]);
    assert_eq!(lines[1], ["1800", "80", "price row", "0.0025", "4.5"]);
    // A kilo as purchased is one, whatever is left of it.
    let plain = [Value::from("1000"), Value::Null, Value::from("none"), Value::from("0.002"), Value::from("2")];
    assert!(lines[2].iter().zip(&plain).all(|(found, expected)| *found == expected), "{:?}", lines[2]);
    let written = parings::write(&reading, &costing, STAMP).unwrap();
    assert_recalculates(&written, "squash");
    let stored = Stored::open(&written);
    let sheet = stored.sheet("How it was figured").unwrap();
    let at = sheet.row_of(0, "Recipe").unwrap();
    let told = |row: u32| format!("{}; {}", sheet.says(row, 3), sheet.says(row, 5));
    assert_eq!(told(at + 1), "2250 g; 80 %, Prices!E2, so what a piece weighs as purchased");
    assert_eq!(told(at + 2), "1800 g; 80 %, Prices!E2");
    assert_eq!(told(at + 3), "1000 g; as purchased");
}

/// A plate takes half a pound of tails and leaves 0.1 lb of heads; a portion of bisque wants a quarter pound of heads, which
/// 2 oz of base at 16.00 a pound stand in for: 2.00 a pound. Of butter nobody says what stands in for its whey.
const HEADS: &str = "Setting,Value\nCosting date,2026-11-20\nCurrency,USD\n
Item,Pack,Price
Prawns,10 lb,$60.00
Base,1 lb,$16.00
Milk,10 lb,$5.00

Test,Role,Part,Weight,Charged as,Instead of
Peeling,as purchased,Prawns,10 lb,,
Peeling,main,Tails,5 lb,,
Peeling,by-product,Heads,1 lb,free,2 oz Base per lb
Churning,as purchased,Milk,10 lb,,
Churning,main,Curd,5 lb,,
Churning,by-product,Whey,4 lb,free,

Recipe,Plate
Portions,10
Ingredient,Qty,Unit
Tails,5,lb

Recipe,Bisque
Portions,4
Ingredient,Qty,Unit
Heads,1,lb

Recipe,Dumplings
Portions,10
Ingredient,Qty,Unit
Curd,5,lb

Recipe,Whey bread
Portions,4
Ingredient,Qty,Unit
Whey,1,lb
";

fn trim_at(book: &str, wage: Option<Decimal>) -> (String, Value, Vec<u8>, String) {
    let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
    let kitchen = &reading.kitchen;
    let mut trim = Trim::of_book(kitchen, &costing);
    trim.wage = wage;
    let report = on_one_line(&text::trim(kitchen, &costing, &trim, WIDE));
    let json: Value = serde_json::from_str(&json::trim(kitchen, &costing, &trim, &[])).unwrap();
    crate::wire::schemas::meets("trim", &json);
    let written = parings::write(&reading, &costing, STAMP).unwrap();
    (report, json, written, csv::purchases(kitchen, &costing, &trim))
}

/// 20 plates leave 2 lb of heads, and 8 portions of bisque use them: 2 × 2.00 = 4.00 need not be bought. An hour at 18.00
/// makes 4 × 60 ÷ 18 = 13 whole minutes; at 7.00 34 (34.28…).
#[test]
fn minutes_of_labor_are_told_everywhere() {
    let book = format!("{HEADS}\nDish,Portions\nPlate,20\nBisque,8\n");
    let (report, json, written, _) = trim_at(&book, Some(Decimal::from(18)));
    assert_eq!((&json["plan"]["saved"], &json["plan"]["labor_minutes"]), (&"4".into(), &"13".into()));
    assert!(report.contains("At the wage given, 13 minutes of labor"), "{report}");
    let (report, json, ..) = trim_at(&book, None);
    assert!(json["plan"]["labor_minutes"].is_null() && !report.contains("minutes of labor"), "{report}");
    assert_recalculates(&written, "labor");
    let stored = Stored::open(&written);
    let sheet = stored.sheet("Trim").unwrap();
    let row = sheet.row_of(0, "Minutes of labor that use it up, at an hourly wage of").unwrap() + 1;
    let (wage, minutes) = (format!("E{row}"), format!("H{row}"));
    let wanted = Cell::Text("type a wage".to_owned());
    assert_eq!(Sheets::open(&written).value("Trim", &minutes), wanted);
    for (hour, expected) in [(18.0, Cell::Number(13.0)), (7.0, Cell::Number(34.0)), (0.0, wanted)] {
        let typed = with_changes(&written, &[("Trim", &wage, hour)]);
        assert_eq!(typed.value("Trim", &minutes), expected, "at {hour}");
    }
}

/// Whey of which a pound is short, and nobody says what stands in for it: 20 plates want 10 lb of prawns as tails, 20 lb at
/// 6.00 = 120.00; 4 portions of whey bread want 1 lb of whey, and nothing is churned. The 2 lb of heads save 4.00.
#[test]
fn what_is_known_of_a_list_and_of_savings_is_told_everywhere() {
    let book = format!("{HEADS}\nDish,Portions\nPlate,20\nBisque,8\nWhey bread,4\n");
    let (report, json, written, table) = trim_at(&book, None);
    let plan = &json["plan"];
    assert!(plan["purchases"].is_null() && plan["purchases_in_whole_packs"].is_null(), "{plan}");
    assert_eq!(plan["known_purchases"], "120");
    assert!(report.contains("In all, as far as it is known 120.00 –"), "{report}");
    let rows = csv_rows(&table);
    assert_eq!(rows.last().unwrap()["money"], "", "what is not known is blank");
    assert_recalculates(&written, "known");
    let stored = Stored::open(&written);
    let sheet = stored.sheet("Trim").unwrap();
    let all = sheet.row_of(0, "In all, as far as it is known").unwrap();
    assert_eq!(sheet.at(all, 7), &calamine::Data::Float(120.0));
    assert_eq!(sheet.says(all, 9), "not known");
}

/// Two tubs of 3 lb at 9.00 and, by weight, 4 lb of lamb at 5.00: what is not bought by the pack costs what it costs, in the
/// whole packs' column as well: 18.00 + 20.00.
#[test]
fn what_is_bought_loose_is_in_the_sum_of_whole_packs() {
    let book = "Setting,Value\nCosting date,2026-11-20\nCurrency,USD\n
Item,Pack,Price,Per
Curd,3 lb,9.00,
Lamb,,5.00,lb

Recipe,Plate
Portions,10
Ingredient,Qty,Unit
Curd,4,lb
Lamb,4,lb

Dish,Portions
Plate,10
";
    let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
    let trim = Trim::of_book(&reading.kitchen, &costing);
    let json: Value = serde_json::from_str(&json::trim(&reading.kitchen, &costing, &trim, &[])).unwrap();
    let whole: Vec<&Value> = list(&json["to_buy"]).iter().map(|item| &item["money_in_whole_packs"]).collect();
    assert_eq!(whole, ["18", "20"]);
    assert_eq!(json["plan"]["purchases_in_whole_packs"], "38");
    let rows = csv_rows(&csv::purchases(&reading.kitchen, &costing, &trim));
    let column: Vec<&str> = rows.iter().map(|row| row["money_in_whole_packs"].as_str()).collect();
    assert_eq!(column, ["18", "20", "38"]);
}
