//! New purchase prices: the same test at another price, and the stored factor that textbooks multiply instead.

use parings::analysis::{Factors, cost_factor};
use parings::costing::Rate;
use rust_decimal::Decimal;

use super::{comes_to, costed, d, half_up, per_grams, prints};
use crate::support::{part, recipe, test};

/// A stored factor of 1.70 at a new purchase price of 4.65: 7.905, printed as 7.91.
///
/// The separate line on new prices in the source of `tests/worked/rib-to-the-next-cut.md`. The factor is had from our own weights, 17 lb in and 10 lb out.
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
    let (_, _, json) = costed(tables);
    let cut = part(&json, "Primal trimming", "Trimmed cut");
    prints(&cut["cost_factor"], "1.70");
    comes_to(per_grams(cut, POUND), "7.91"); // 1.70 × 4.65 = 7.905: half up, not half to even
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
    let (reading, costing, _) = costed(tables);
    let id = reading.kitchen.test_ids().next().unwrap();
    cost_factor::of(&reading.kitchen, &costing, id).unwrap().unwrap()
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
    costed(&format!("Setting,Value\nCosting date,{date}\n{TENDERLOIN}")).2
}

/// A tenderloin portion of 6 oz before and after the dealer's price rises from 6.11 to 6.37 a pound.
///
/// "Standard Portion Cost: Butcher Test", college course slides, author not shown,
/// <https://www.scribd.com/doc/77630658/Yield-Test>.
#[test]
fn tenderloin_before_and_after_a_price_rise() {
    let before = tenderloin_on("2026-11-01");
    let steaks = part(&before, "Tenderloin cutting", "Tenderloin steaks");
    prints(&test(&before, "Tenderloin cutting")["cost"], "54.99"); // 9 × 6.11
    prints(&steaks["cost"], "53.12"); // 54.99 − 1.87
    comes_to(per_grams(steaks, POUND), "12.4988"); // 53.12 ÷ 4.25
    comes_to(per_grams(steaks, "28.349523125"), "0.7812");
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
    comes_to(per_grams(part(&after, "Tenderloin cutting", "Tenderloin steaks"), POUND), "13.04941176");
    prints(&recipe(&after, "Tenderloin plate")["portion_cost"], "4.89352941"); // 55.46 ÷ 68 × 6
}

/// The veal book under this price row; the test states what was paid.
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

/// Ten veal legs by the stored factor at other prices and portions: factor × price × kilograms.
///
/// Source as of `tests/worked/ten-veal-legs.md`. The price paid a kilogram, 850.41 ÷ 112.93, has no end in decimals; the test states it to
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
