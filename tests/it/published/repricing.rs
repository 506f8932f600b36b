//! New purchase prices: the same test at another price, and the stored factor that textbooks multiply instead.

use super::{comes_to, costed, d, exactly, half_up, per_kg, per_lb, per_oz, prints};
use crate::support::{dec, part, recipe, test};

/// A stored factor of 1.70 at a new purchase price of 4.65: 7.905, printed as 7.91.
///
/// A-RIB-103, the separate line on new prices. The factor is had from our own weights, 17 lb in and 10 lb out.
#[test]
fn stored_factor_at_a_new_price() {
    let json = costed(
        r#"
Item,Date,Price,Per
Primal cut,2026-10-01,4.30,lb
Primal cut,2026-11-15,4.65,lb

Test,Role,Part,Weight
Primal trimming,as purchased,Primal cut,17 lb
Primal trimming,main,Trimmed cut,10 lb
"#,
    );
    let cut = part(&json, "Primal trimming", "Trimmed cut");
    prints(&cut["cost_factor"], "1.70");
    comes_to(per_lb(cut), "7.91"); // 1.70 × 4.65 = 7.905: half up, not half to even
}

/// The tenderloin book at a costing date: 9 lb bought, 4.25 lb used, 1.87 credited. The source gives the credit in
/// money alone; it is one pound at 1.87 here, since only the product counts.
fn tenderloin_on(date: &str) -> serde_json::Value {
    super::costed_with(
        &format!("Costing date,{date}"),
        r#"
Item,Date,Price,Per
Beef tenderloin,2026-03-01,6.11,lb
Beef tenderloin,2026-11-15,6.37,lb

Test,Role,Part,Weight,Charged as,Value
Tenderloin cutting,as purchased,Beef tenderloin,9 lb,,
Tenderloin cutting,main,Tenderloin steaks,4 lb 4 oz,,
Tenderloin cutting,by-product,Other tenderloin parts,1 lb,price,1.87

Recipe,Tenderloin plate
Portions,1
Ingredient,Qty,Unit
Tenderloin steaks,6,oz
"#,
    )
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
    let factor = dec(&steaks["cost_factor"]);
    comes_to(factor * d("6.37"), "13.03068836");
    comes_to(factor * d("6.37") * d("6") / d("16"), "4.88650814");

    // Today's figure: the credit is money and does not rise with the meat. (9 × 6.37 − 1.87) ÷ 4.25 = 55.46 ÷ 4.25.
    let after = tenderloin_on("2026-11-20");
    prints(&test(&after, "Tenderloin cutting")["cost"], "57.33");
    comes_to(per_lb(part(&after, "Tenderloin cutting", "Tenderloin steaks")), "13.04941176");
    prints(&recipe(&after, "Tenderloin plate")["portion_cost"], "4.89352941"); // 55.46 ÷ 68 × 6
}

/// The veal book under this price row.
fn veal_legs(price_row: &str) -> serde_json::Value {
    costed(&format!(
        r#"
Item,Pack,Price,Per
{price_row}

Test,Role,Part,Weight,Charged as,Value
Ten legs,as purchased,Leg of veal,"10 each, 112.93 kg",,
Ten legs,by-product,Fat of veal,18.80 kg,price,1.00
Ten legs,by-product,Bones of veal,25.62 kg,price,1.00
Ten legs,by-product,Shanks,8.95 kg,price,7.50
Ten legs,by-product,Trimmings,21.43 kg,price,4.99
Ten legs,main,Usable veal,37 kg,,

Recipe,Veal 150
Portions,1
Ingredient,Qty,Unit
Usable veal,150,g
"#
    ))
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
        let json = veal_legs(price_row);
        let legs = test(&json, "Ten legs");
        prints(&legs["cost"], "850.4100000000");
        exactly(&legs["weight_g"], "112930");
        exactly(&legs["loss_g"], "1130"); // 112.93 − (18.80 + 25.62 + 8.95 + 21.43 + 37)
        let usable = part(&json, "Ten legs", "Usable veal");
        prints(&usable["cost"], "631.92930000"); // 850.41 − (18.80 + 25.62 + 67.125 + 106.9357 = 218.4807)
        comes_to(per_kg(usable), "17.07917027"); // ÷ 37
        prints(&usable["cost_factor"], "2.26802448"); // ÷ (850.41 ÷ 112.93 = 7.53041707)
        prints(&recipe(&json, "Veal 150")["portion_cost"], "2.56187554"); // × 0.150
        // By the stored factor at other prices and portions: factor × price × kilograms.
        let factor = dec(&usable["cost_factor"]);
        let at = |price, kilograms| half_up(factor * d(price) * d(kilograms), 20);
        comes_to(factor * d("0.150"), "0.34020367");
        comes_to(at("7.79", "0.150"), "2.65018661");
        comes_to(at("8.10", "0.150"), "2.75564974");
        comes_to(at("8.50", "0.150"), "2.89173121");
        comes_to(at("7.79", "0.175"), "3.09188437");
        comes_to(at("8.10", "0.125"), "2.29637479");
        comes_to(at("8.55", "0.125"), "2.42395116");
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
        let json = veal_legs(&format!("Leg of veal,,{price},kg"));
        prints(&recipe(&json, "Veal 150")["portion_cost"], portion);
    }
}
