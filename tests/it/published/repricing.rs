//! New purchase prices: the same test at another price, and the stored factor that textbooks multiply instead.

use parings::analysis::{Factors, factor};
use parings::costing::Rate;
use rust_decimal::Decimal;

use super::{comes_to, costed, d, exactly, half_up, kitchen_of, per_kg, per_lb, per_oz, prints};
use crate::support::{part, recipe, test};

/// A stored factor of 1.70 at a new purchase price of 4.65: 7.905, printed as 7.91.
///
/// A-RIB-103, the separate line on new prices. The factor is had from our own weights, 17 lb in and 10 lb out.
#[test]
fn stored_factor_at_a_new_price() {
    let tables = r#"
Item,Date,Price,Per
Primal cut,2026-10-01,4.30,lb
Primal cut,2026-11-15,4.65,lb

Test,Role,Part,Weight,Price
Primal trimming,as purchased,Primal cut,17 lb,4.30
Primal trimming,main,Trimmed cut,10 lb,
"#;
    let json = costed(tables);
    let cut = part(&json, "Primal trimming", "Trimmed cut");
    prints(&cut["cost_factor"], "1.70");
    comes_to(per_lb(cut), "7.91"); // 1.70 × 4.65 = 7.905: half up, not half to even
    // Without credits the old factor says the same.
    let cut = &factors(tables).parts[0];
    comes_to(cut.then.unwrap(), "1.70");
    comes_to(money_for(cut.by_old, POUND), "7.91");
    comes_to(money_for(cut.today, POUND), "7.91");
}

/// A pound in grams.
const POUND: &str = "453.59237";

/// The factors of the only test of a book, which states the price paid.
#[track_caller]
fn factors(tables: &str) -> Factors {
    let (reading, costing) = kitchen_of(tables);
    let id = reading.kitchen.test_ids().next().unwrap();
    factor::of(&reading.kitchen, &costing, id).unwrap().unwrap()
}

/// Money at a rate for so many grams, rounded at 20 decimals, so that the last digit of a quotient does not tip a half.
#[track_caller]
fn money_for(rate: Option<Rate>, grams: &str) -> Decimal {
    let rate = rate.unwrap();
    half_up(rate.money * d(grams) / rate.per, 20)
}

/// The tenderloin book: 9 lb bought, 4.25 lb used, 1.87 credited. The source gives the credit in
/// money alone; it is one pound at 1.87 here, since only the product counts.
const TENDERLOIN: &str = r#"
Item,Date,Price,Per
Beef tenderloin,2026-03-01,6.11,lb
Beef tenderloin,2026-11-15,6.37,lb

Test,Role,Part,Weight,Charged as,Value,Price
Tenderloin cutting,as purchased,Beef tenderloin,9 lb,,,6.11
Tenderloin cutting,main,Tenderloin steaks,4 lb 4 oz,,,
Tenderloin cutting,by-product,Other tenderloin parts,1 lb,price,1.87,

Recipe,Tenderloin plate
Portions,1
Ingredient,Qty,Unit
Tenderloin steaks,6,oz
"#;

/// The same at a costing date.
#[track_caller]
fn tenderloin_on(date: &str) -> serde_json::Value {
    super::costed_with(&format!("Costing date,{date}"), TENDERLOIN)
}

/// A tenderloin portion of 6 oz before and after the dealer's price rises from 6.11 to 6.37 a pound.
///
/// A-TLOIN-SLIDES. "Standard Portion Cost: Butcher Test", college course slides, author not shown,
/// <https://www.scribd.com/doc/77630658/Yield-Test>.
#[test]
fn tenderloin_before_and_after_a_price_rise() {
    let before = tenderloin_on("2026-11-01");
    let steaks = part(&before, "Tenderloin cutting", "Tenderloin steaks");
    prints(&test(&before, "Tenderloin cutting")["cost"], "54.99"); // 9 × 6.11
    prints(&steaks["cost"], "53.12"); // 54.99 − 1.87
    comes_to(per_lb(steaks), "12.4988"); // 53.12 ÷ 4.25
    comes_to(per_oz(steaks), "0.7812");
    prints(&steaks["cost_factor"], "2.04563397");
    // 53.12 ÷ 68 oz × 6 = 4.68705882. The slides multiply the rounded 0.7812 and print 4.6872.
    prints(&recipe(&before, "Tenderloin plate")["portion_cost"], "4.6871");

    // By the old factor, as the slides announce: 2.04563397 × 6.37 a pound, 6 ⁄ 16 of it a portion.
    let factors = factors(TENDERLOIN);
    assert!(factors.moved);
    let old = &factors.parts[0];
    comes_to(old.then.unwrap(), "2.04563397");
    comes_to(money_for(old.by_old, POUND), "13.03068836");
    comes_to(money_for(old.by_old, "170.09713875"), "4.88650814");
    comes_to(money_for(old.today, POUND), "13.04941176");

    // Today's figure: the credit is money and does not rise with the meat. (9 × 6.37 − 1.87) ÷ 4.25 = 55.46 ÷ 4.25.
    let after = tenderloin_on("2026-11-20");
    prints(&test(&after, "Tenderloin cutting")["cost"], "57.33");
    comes_to(per_lb(part(&after, "Tenderloin cutting", "Tenderloin steaks")), "13.04941176");
    prints(&recipe(&after, "Tenderloin plate")["portion_cost"], "4.89352941"); // 55.46 ÷ 68 × 6
}

/// The veal book under this price row. The test states what was paid where `paid` says so.
fn veal_legs(price_row: &str, paid: &str) -> String {
    format!(
        r#"
Item,Pack,Price,Per
{price_row}

Test,Role,Part,Weight,Charged as,Value,Price
Ten legs,as purchased,Leg of veal,"10 each, 112.93 kg",,,{paid}
Ten legs,by-product,Fat of veal,18.80 kg,price,1.00,
Ten legs,by-product,Bones of veal,25.62 kg,price,1.00,
Ten legs,by-product,Shanks,8.95 kg,price,7.50,
Ten legs,by-product,Trimmings,21.43 kg,price,4.99,
Ten legs,main,Usable veal,37 kg,,,

Recipe,Veal 150
Portions,1
Ingredient,Qty,Unit
Usable veal,150,g
"#
    )
}

/// Ten veal legs in kilograms, bought for 850.41 together, or at 85.041 a leg (written with a fourth decimal: one mark with three digits behind it
/// could be thousands).
///
/// A-VEAL-KG. "Circle Restaurant veal problem", Principles of Food, Beverage, and Labour Cost Controls, Canadian
/// edition (Wiley; attribution ours), answers recomputed,
/// <https://solutioninn.com/study-help/questions/2-the-following-information-taken-from-records-in-the-circle-9767570>.
#[test]
fn ten_veal_legs() {
    for price_row in ["Leg of veal,112.93 kg,850.41,", "Leg of veal,,85.0410,each"] {
        let json = costed(&veal_legs(price_row, ""));
        let legs = test(&json, "Ten legs");
        prints(&legs["cost"], "850.4100000000");
        exactly(&legs["weight_g"], "112930");
        exactly(&legs["loss_g"], "1130"); // 112.93 − (18.80 + 25.62 + 8.95 + 21.43 + 37)
        let usable = part(&json, "Ten legs", "Usable veal");
        prints(&usable["cost"], "631.92930000"); // 850.41 − (18.80 + 25.62 + 67.125 + 106.9357 = 218.4807)
        comes_to(per_kg(usable), "17.07917027"); // ÷ 37
        prints(&usable["cost_factor"], "2.26802448"); // ÷ (850.41 ÷ 112.93 = 7.53041707)
        prints(&recipe(&json, "Veal 150")["portion_cost"], "2.56187554"); // × 0.150
    }
}

/// The same legs by the stored factor at other prices and portions: factor × price × kilograms.
///
/// A-VEAL-KG, as above. The price paid a kilogram, 850.41 ÷ 112.93, has no end in decimals; the test states it to
/// the fifteen digits that a spreadsheet holds.
#[test]
fn ten_veal_legs_by_the_stored_factor() {
    for (price, grams, portion) in [
        ("7.79", "150", "2.65018661"),
        ("8.10", "150", "2.75564974"),
        ("8.50", "150", "2.89173121"),
        ("7.79", "175", "3.09188437"),
        ("8.10", "125", "2.29637479"),
        ("8.55", "125", "2.42395116"),
    ] {
        let book = veal_legs(&format!("Leg of veal,,{price},kg"), "7.53041707252280");
        let factors = factors(&book);
        let usable = factors.parts.last().unwrap();
        comes_to(usable.then.unwrap(), "2.26802448");
        comes_to(usable.then.unwrap() * d("0.150"), "0.34020367");
        comes_to(half_up(money_for(usable.by_old, grams), 12), portion);
    }
}

/// The same legs when the price list changes. The credits are money per kilogram and stay, so the figures lie above
/// those by the stored factor.
///
/// A-VEAL-KG, as above; by hand (112.93 × price − 218.4807) ÷ 37 × 0.150.
#[test]
fn ten_veal_legs_at_new_prices() {
    for (price, portion) in [
        ("7.79", "2.68071892"), // (879.7247 − 218.4807) × 0.150 ÷ 37
        ("8.10", "2.82264446"), // (914.733 − 218.4807) × 0.150 ÷ 37
        ("8.50", "3.00577419"), // (959.905 − 218.4807) × 0.150 ÷ 37
    ] {
        let json = costed(&veal_legs(&format!("Leg of veal,,{price},kg"), ""));
        prints(&recipe(&json, "Veal 150")["portion_cost"], portion);
    }
}
