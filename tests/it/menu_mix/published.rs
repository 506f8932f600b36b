//! Printed tables of menu analysis.

use serde_json::Value;

use super::{dish, mix, plates};
use crate::support::{dec, rounded};

const HIGH: &str = "popular, high margin";
const LOW: &str = "popular, low margin";
const SELDOM_HIGH: &str = "seldom ordered, high margin";
const SELDOM_LOW: &str = "seldom ordered, low margin";

#[track_caller]
fn is(value: &Value, places: u32, printed: &str) {
    assert_eq!(rounded(value, places), printed.parse().unwrap(), "{value} for {printed}");
}

/// Penn State, HMD 329 (open textbook, after BCcampus), chapter 9, *Menu Analysis (Engineering)*, figure 1: sold, portion
/// cost, menu price, and as printed contribution margin, all of it, and its share of 415.25. The classes are not printed;
/// they follow from the rule: 50 sold of 7 dishes, so popular from 50 × 0.7 ÷ 7 = 5 sold; the average margin is
/// 415.25 ÷ 50 = 8.305. Ham sandwich and steak sandwich stand just on the line.
#[test]
fn a_lunch_menu_of_seven_dishes() {
    let table = [
        ("Hamburger", 12, "2.75", "10.95", "8.20", "98.40", LOW),
        ("Cheeseburger", 8, "4.25", "11.95", "7.70", "61.60", LOW),
        ("BLT", 10, "3.75", "11.95", "8.20", "82.00", LOW),
        ("Ham sandwich", 5, "3.50", "10.95", "7.45", "37.25", LOW),
        ("Fried chicken", 4, "5.25", "14.95", "9.70", "38.80", SELDOM_HIGH),
        ("Clubhouse", 6, "4.00", "12.95", "8.95", "53.70", HIGH),
        ("Steak sandwich", 5, "7.25", "15.95", "8.70", "43.50", HIGH),
    ];
    let json = mix(&[("lunch.csv", &plates(&table.map(|(name, sold, cost, price, ..)| (name, sold, cost, price))))]);
    for (name, sold, _, _, margin, in_all, class) in table {
        let dish = dish(&json, name);
        is(&dish["margin"], 2, margin);
        is(&dish["margin_in_all"], 2, in_all);
        assert_eq!(dish["class"], class, "{name}");
        assert_eq!(dec(&dish["sold_percent"]), (sold * 2).into(), "{name}: {sold} of 50");
    }
    let group = &json["groups"][0];
    assert_eq!((group["sold"].as_str(), group["average_margin"].as_str()), (Some("50"), Some("8.305")));
    is(&group["margin_in_all"], 2, "415.25");
    is(&group["popular_from_percent"], 9, "10");
}

/// *Resto Menu Analysis* (Indonesian course workbook): seven mains in rupiah, contribution in all as printed. The sheet
/// averages margins without weights (52,571); Kasavana and Smith weigh by what was sold: 37,111,000 ÷ 700 = 53,015.714….
/// Popular from 700 × 0.7 ÷ 7 = 70 sold.
#[test]
fn seven_mains_in_rupiah() {
    let table = [
        ("Beef steak", 73, "40000", "86000", "3358000", LOW),
        ("Coconut shrimp", 121, "25000", "82000", "6897000", HIGH),
        ("Grilled tuna", 105, "36000", "88000", "5460000", LOW),
        ("Chicken curry", 140, "15000", "70000", "7700000", HIGH),
        ("Butter lobster", 51, "56000", "107000", "2601000", SELDOM_LOW),
        ("Sauteed clams", 85, "18000", "75000", "4845000", HIGH),
        ("Pepper beef", 125, "30000", "80000", "6250000", LOW),
    ];
    let json = mix(&[("mains.csv", &plates(&table.map(|(name, sold, cost, price, ..)| (name, sold, cost, price))))]);
    for (name, _, _, _, in_all, class) in table {
        let dish = dish(&json, name);
        is(&dish["margin_in_all"], 0, in_all);
        assert_eq!(dish["class"], class, "{name}");
    }
    let group = &json["groups"][0];
    is(&group["average_margin"], 8, "53015.71428571");
    is(&group["margin_in_all"], 0, "37111000");
}

/// *George's Restaurant* (Dittmer and Keefe, *Principles of Food, Beverage, and Labor Cost Controls*, 9th ed., chapter 11,
/// as quoted on a tutoring site); the book leaves the answers to the reader. 629 sold of 8: popular from 8.75 %, 55.0375
/// sold, so 55 lamb chops (8.744 %) are just below. Average margin 7,075.75 ÷ 629 = 11.249….
#[test]
fn eight_entrees_of_which_one_just_misses_the_line() {
    let table = [
        ("Strip steak", 73, "6.50", "18.90", HIGH),
        ("Fried chicken", 90, "3.90", "12.75", LOW),
        ("Lamb chops", 55, "7.00", "20.35", SELDOM_HIGH),
        ("Fried scallops", 92, "5.90", "18.50", HIGH),
        ("Broiled haddock", 85, "4.50", "15.65", LOW),
        ("Roast turkey", 92, "3.00", "12.00", LOW),
        ("Stuffed shrimp", 77, "6.70", "18.50", HIGH),
        ("Veal marsala", 65, "6.50", "18.75", HIGH),
    ];
    let json = mix(&[("week.csv", &plates(&table.map(|(name, sold, cost, price, _)| (name, sold, cost, price))))]);
    for (name, .., class) in table {
        assert_eq!(dish(&json, name)["class"], class, "{name}");
    }
    is(&json["groups"][0]["average_margin"], 8, "11.24920509");
    is(&json["groups"][0]["popular_from_percent"], 9, "8.75");
}
