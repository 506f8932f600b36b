//! Whose yield a price row without one takes: of its supplier and code, of its supplier, of another.

use super::{everywhere, food, soup, told};
use crate::analysis::d;
use crate::reprice::repriced;

const HEAD: &str = "Item,Pack,Price,Supplier,Code,Date,Yield\n";

fn of(rows: &str) -> String {
    soup(&format!("{HEAD}{rows}"))
}

/// A pound of leeks of 10 lb at 12.00 is 1.20; at 30 % usable 4.00, at 90 % it would be 1.33.
#[test]
fn a_new_price_keeps_the_yield_of_its_supplier() {
    let json = everywhere(&of("Leeks,10 lb,$10.00,Alpha,,2026-09-25,30%\nLeeks,10 lb,$11.00,Beta,,2026-10-01,90%\n\
                               Leeks,10 lb,$12.00,Alpha,,2026-11-01,\n"));
    assert_eq!((food(&json), told(&json)), (Some(d("4")), vec![]));
}

/// Alpha sells them with roots as A1, cut as A2. 12.00 ÷ 10 ÷ 40 % = 3.00, though A2's 80 % is the newer.
#[test]
fn the_code_comes_before_the_supplier() {
    let json =
        everywhere(&of("Leeks,10 lb,$10.00,Alpha,A1,2026-09-25,40%\nLeeks,10 lb,$11.00,Alpha,A2,2026-10-10,80%\n\
                               Leeks,10 lb,$12.00,Alpha,a1,2026-11-01,\n"));
    assert_eq!((food(&json), told(&json)), (Some(d("3")), vec![]));
    // A code that states none: the newest of the supplier, 80 %: 12.00 ÷ 10 ÷ 80 % = 1.50.
    let other =
        everywhere(&of("Leeks,10 lb,$10.00,Alpha,A1,2026-09-25,40%\nLeeks,10 lb,$11.00,Alpha,A2,2026-10-10,80%\n\
                                Leeks,10 lb,$12.00,Alpha,A3,2026-11-01,\n"));
    assert_eq!((food(&other), told(&other)), (Some(d("1.5")), vec![]));
}

/// A blank supplier is one too: 12.00 ÷ 10 ÷ 60 % = 2.00, by the row that names nobody.
#[test]
fn no_supplier_is_a_supplier_too() {
    let json = everywhere(&of("Leeks,10 lb,$10.00,,,2026-09-25,60%\nLeeks,10 lb,$11.00,Beta,,2026-10-01,90%\n\
                               Leeks,10 lb,$12.00,,,2026-11-01,\n"));
    assert_eq!((food(&json), told(&json)), (Some(d("2")), vec![]));
}

/// 12.00 ÷ 10 ÷ 75 % = 1.60 by Beta's; a yield stated for later does not count yet.
#[test]
fn another_suppliers_is_taken_with_a_note_that_names_it() {
    let json = everywhere(&of("Leeks,10 lb,$11.00,Beta,,2026-10-01,75%\nLeeks,10 lb,$12.00,Alpha,,2026-11-01,\n\
                               Leeks,10 lb,$12.00,Alpha,,2026-12-01,50%\n"));
    assert_eq!((food(&json), told(&json)), (Some(d("1.6")), vec!["A3 yield-of-another".to_owned()]));
    let said = &json["problems"].as_array().unwrap().iter().find(|one| one["code"] == "yield-of-another").unwrap();
    assert_eq!(
        said["message"],
        "no price of “Leeks” of “Alpha” states a yield, so that of “Beta”, 75 % at book.csv ▸ G2, is used"
    );
}

/// Two packs of one day at 60 % and 40 %: the lower, 12.00 ÷ 10 ÷ 40 % = 3.00, whichever stands first.
#[test]
fn of_equally_new_ones_the_lowest_with_a_warning() {
    let (small, large) = ("Leeks,5 lb,$7.00,Alpha,,2026-10-01,60%\n", "Leeks,25 lb,$25.00,Alpha,,2026-10-01,40%\n");
    for rows in [[small, large], [large, small]] {
        let json = everywhere(&of(&format!("{}Leeks,10 lb,$12.00,Alpha,,2026-11-01,\n", rows.concat())));
        assert_eq!((food(&json), told(&json)), (Some(d("3")), vec!["A4 yields-several".to_owned()]));
    }
}

/// A yield that could not be read may be the one that counts: nothing is costed. Where a newer row states one it does not.
#[test]
fn a_yield_that_cannot_be_read_is_not_passed_over() {
    let stopped =
        everywhere(&of("Leeks,10 lb,$10.00,Alpha,,2026-09-25,50%\nLeeks,10 lb,$11.00,Alpha,,2026-10-01,half\n\
                                  Leeks,10 lb,$12.00,Alpha,,2026-11-01,\n"));
    assert_eq!((food(&stopped), told(&stopped)), (None, vec!["G3 not-a-number".to_owned()]));
    let newer =
        everywhere(&of("Leeks,10 lb,$11.00,Alpha,,2026-09-25,half\nLeeks,10 lb,$10.00,Alpha,,2026-10-01,50%\n\
                                Leeks,10 lb,$12.00,Alpha,,2026-11-01,\n"));
    // 12.00 ÷ 10 ÷ 50 %.
    assert_eq!(food(&newer), Some(d("2.4")));
}

/// Suppliers of one day are compared by what each of them leaves: Alpha's 12.00 ÷ 10 ÷ 50 % = 2.40 by its old 50 %, Beta's 15.00
/// ÷ 10 ÷ 75 % = 2.00.
#[test]
fn suppliers_are_compared_by_the_yield_that_each_takes() {
    let json = everywhere(&of("Leeks,10 lb,$10.00,Alpha,,2026-09-25,50%\nLeeks,10 lb,$14.00,Beta,,2026-10-01,75%\n\
                               Leeks,10 lb,$12.00,Alpha,,2026-11-01,\nLeeks,10 lb,$15.00,Beta,,2026-11-01,\n"));
    assert_eq!(food(&json), Some(d("2")));
}

/// What a new list does: Alpha's leeks go from 1.00 ÷ 30 % = 3.333… to 1.20 ÷ 30 % = 4.00 a pound, 0.666… more.
#[test]
fn reprice_keeps_it_as_well() {
    let others = "Recipe,Soup\nPortions,1\nMenu price,9.00\nIngredient,Qty,Unit\nLeeks,1,lb\n";
    let prices = "Leeks,10 lb,11.00,Beta,2026-09-01,90%,\nLeeks,10 lb,10.00,Alpha,2026-10-01,30%,\n";
    let found = repriced(prices, "Leeks,10 lb,12.00,Alpha,2026-11-01,,\n", others).without_errors();
    found.driven("Soup", &[("Leeks", "0.6666666666666666666666666667")]);
}
