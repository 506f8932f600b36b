//! Joint shares: they add up to the cost exactly, none is below zero, and what is worth nothing bears nothing.

use proptest::prelude::*;
use rust_decimal::Decimal;

use super::{book, costed, problems};
use crate::recalc::{Value, assert_recalculates, with_changes};
use crate::support::{chance, dec, no_errors, part, test};
use crate::workbook::costed as written;

/// A bird of 10 lb at 3.00 a pound: 30.00. The last part by name costs more to finish than it sells for.
const BIRD: &str = "Item,Pack,Price\nBird,10 lb,30.00\n\n\
    Test,Role,Part,Weight,Charged as,Value,Further cost\n\
    Cutting,as purchased,Bird,10 lb,,,\n\
    Cutting,main,Breast,3 lb,net realizable value,$7.00,$1.00\n\
    Cutting,main,Legs,3 lb,,$6.00,\n\
    Cutting,by-product,Offal,3 lb,net realizable value,$6.00,\n\
    Cutting,by-product,Wings,1 lb,net realizable value,$1.00,$1.50\n";

#[test]
fn a_part_worth_nothing_once_it_is_finished_bears_nothing_and_the_last_with_a_share_takes_the_rest() {
    let json = costed(BIRD);
    no_errors(&json);
    // Three keys of 18 are a third each of 30.00: 10, exactly. Wings are worth 1.00 − 1.50 a pound: nothing, and told.
    for (name, cost) in [("Breast", "10"), ("Legs", "10"), ("Offal", "10"), ("Wings", "0")] {
        assert_eq!(part(&json, "Cutting", name)["cost"], cost, "{name}");
    }
    assert_eq!(part(&json, "Cutting", "Wings")["cost_per_g"], "0");
    assert_eq!(problems(&json), ["F13 warning value-negative"]);
    // 10.00 in thirds, to 27 − 2 = 25 decimals: Offal, the last by name with a share, takes 10 − 2 × 3.33…3.
    let json = costed(&BIRD.replace("10 lb,30.00", "10 lb,10.00"));
    let third = format!("3.{}", "3".repeat(25));
    let rest = format!("3.{}4", "3".repeat(24));
    for (name, cost) in [("Breast", &third), ("Legs", &third), ("Offal", &rest), ("Wings", &"0".to_owned())] {
        assert_eq!(part(&json, "Cutting", name)["cost"].as_str(), Some(cost.as_str()), "{name}");
    }
    // 20.00 in thirds: 6.66…67 twice, and 20 − 13.33…34 = 6.66…66.
    let json = costed(&BIRD.replace("10 lb,30.00", "10 lb,20.00"));
    assert_eq!(part(&json, "Cutting", "Offal")["cost"], format!("6.{}", "6".repeat(25)));
    assert_eq!(part(&json, "Cutting", "Wings")["cost"], "0");
}

#[test]
fn a_share_too_small_for_a_decimal_is_nothing_and_stops_no_test() {
    // Legs are worth 10⁻²⁶ of a cent beside 6 × 10¹⁴: of 30.00 nothing that a decimal could hold.
    let tables = "Item,Pack,Price\nBird,10 lb,30.00\n\nTest,Role,Part,Weight,Charged as,Value\n\
                  Cutting,as purchased,Bird,10 lb,,\nCutting,main,Breast,6 lb,by sales value,100000000000000\n\
                  Cutting,main,Legs,3 lb,,0.00000000000001\n";
    let json = costed(tables);
    no_errors(&json);
    let [breast, legs] = ["Breast", "Legs"].map(|name| part(&json, "Cutting", name));
    // 30 × (3 × 10⁻¹⁴) ÷ (6 × 10¹⁴) = 1.5 × 10⁻²⁷, to 25 decimals nothing.
    assert_eq!((&breast["cost"], &legs["cost"]), (&"30".into(), &"0".into()));
    assert_eq!((&legs["cost_per_g"], &legs["cost_factor"]), (&"0".into(), &"0".into()));
}

#[test]
fn a_value_of_nothing_by_sales_value_is_told_as_that() {
    let tables = "Item,Pack,Price\nBird,10 lb,30.00\n\nTest,Role,Part,Weight,Charged as,Value\n\
                  Cutting,as purchased,Bird,10 lb,,\nCutting,main,Breast,6 lb,by sales value,5.00\n\
                  Cutting,main,Legs,3 lb,,0\n";
    let json = costed(tables);
    assert_eq!(problems(&json), ["F11 warning value-negative"]);
    assert_eq!(json["problems"][0]["message"], "“Legs” is worth nothing, so it takes none of the joint cost");
    assert_eq!(part(&json, "Cutting", "Breast")["cost"], "30");
}

/// A main that is worth nothing beside a joint by-product, but bears everything where trim is free: 30.00 ÷ 6 lb.
#[test]
fn every_kitchen_of_a_worthless_main_recalculates() {
    let tables = "Item,Pack,Price\nBird,10 lb,30.00\n\nTest,Role,Part,Weight,Charged as,Value,Further cost\n\
                  Cutting,as purchased,Bird,10 lb,,,\nCutting,main,Breast,6 lb,net realizable value,$1.00,$2.00\n\
                  Cutting,by-product,Legs,3 lb,net realizable value,$4.00,\n\n\
                  Recipe,Plate\nPortions,6\nMenu price,$9.00\nIngredient,Qty,Unit\nBreast,6,lb\n\n\
                  Dish,Portions\nPlate,6\n";
    let (_, _, bytes) = written("book.csv", book(tables).as_bytes());
    assert_recalculates(&bytes, "a worthless main");
    let sheets = with_changes(&bytes, &[("Prices", "C2", 60.0)]);
    assert_eq!(sheets.errors(), Vec::<String>::new());
    // Binned, free and credited, six plates: with the legs free the breast bears all of 60.00, credited the legs do.
    let is_total = |row: &u32| sheets.value("Trim", &format!("A{row}")) == Value::Text("In the dishes".to_owned());
    let row = (1..=120).find(is_total).unwrap();
    let totals = ["C", "D", "E"].map(|column| sheets.value("Trim", &format!("{column}{row}")));
    assert_eq!(totals, [Value::Number(60.0), Value::Number(60.0), Value::Number(0.0)]);
}

/// A number with a fourth decimal, so that no mark could part thousands.
fn written_out(digits: i64, scale: u32) -> String {
    format!("{:.1$}", Decimal::new(digits, scale), scale.max(4) as usize)
}

/// A test of up to six parts, each with a weight in grams, a value in money and a further cost.
fn random() -> impl Strategy<Value = (String, usize)> {
    let amount = || {
        prop_oneof![
            2 => Just("0".to_owned()),
            5 => (1i64..100_000, 0u32..=4).prop_map(|(n, scale)| written_out(n, scale)),
            1 => (1i64..1000, 10u32..=13).prop_map(|(n, scale)| written_out(n, scale)),
            1 => (1i64..1000).prop_map(|n| format!("{n}00000000")),
        ]
    };
    let part = (1i64..5_000_000, amount(), amount(), any::<bool>());
    let method = prop_oneof![Just("by weight"), Just("by sales value"), Just("net realizable value")];
    (prop::collection::vec(part, 2..7), method, 1i64..10_000_000_000, any::<bool>()).prop_map(
        |(parts, method, cents, fixed)| {
            let weight: i64 = parts.iter().map(|(grams, ..)| grams).sum::<i64>() + 1000;
            let mut tables = format!(
                "Item,Pack,Price\nBird,{weight} g,{}\n\nTest,Role,Part,Weight,Charged as,Value,Further cost\n\
                 Cutting,as purchased,Bird,{weight} g,,,\n",
                Decimal::new(cents, 2)
            );
            for (nth, (grams, value, further, main)) in parts.iter().enumerate() {
                let (role, charge) = if nth == 0 || *main { ("main", "") } else { ("by-product", method) };
                let charge = if nth == 0 { method } else { charge };
                tables.push_str(&format!("Cutting,{role},Part {nth},{grams} g,{charge},{value},{further}\n"));
            }
            if fixed {
                tables.push_str("Cutting,by-product,Trim,1000 g,fraction,33.33333%,\n");
            }
            (tables, parts.len())
        },
    )
}

proptest! {
    #![proptest_config(chance(32))]
    /// The parts add up to the cost exactly, none is below zero, one that is worth nothing bears exactly nothing, and every
    /// part that weighs something has a cost by weight.
    #[test]
    fn shares_add_up_and_none_is_below_zero((tables, parts) in random()) {
        let json = costed(&tables);
        let of = test(&json, "Cutting");
        if of["cost"].is_null() {
            // Nothing to share by.
            prop_assert!(problems(&json).iter().any(|problem| problem.contains(" error value-missing")), "{tables}{json:#}");
            return Ok(());
        }
        let mut sum = Decimal::ZERO;
        for part in of["parts"].as_array().unwrap() {
            let cost = dec(&part["cost"]);
            sum += cost;
            prop_assert!(cost >= Decimal::ZERO, "{part:#}");
            prop_assert!(!part["cost_per_g"].is_null() && !part["cost_factor"].is_null(), "{part:#}");
        }
        prop_assert_eq!(sum, dec(&of["cost"]));
        let rows: Vec<Vec<&str>> = tables.lines().filter(|line| line.matches(',').count() == 6).map(|line| line.split(',').collect()).collect();
        let by = rows.iter().find(|row| row.get(2) == Some(&"Part 0")).map(|row| row[4]).unwrap();
        for row in rows.iter().filter(|row| row[0] == "Cutting" && row[2].starts_with("Part")) {
            let [value, further] = [row[5], row[6]].map(|text| text.parse::<Decimal>().unwrap());
            let worth = match by {
                "by weight" => Decimal::ONE,
                "by sales value" => value,
                _ => value - further,
            };
            let share = &part(&json, "Cutting", row[2])["cost"];
            prop_assert!(worth > Decimal::ZERO || share == "0", "{} of {parts}: {}\n{}", row[2], share, tables);
        }
    }
}
