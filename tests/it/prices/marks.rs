//! One mark with three digits behind it: as its column has it, else the book, else a decimal before pounds.

use super::{everywhere, food, told};
use crate::analysis::d;
use crate::support::{cost_json, recipe, rounded};

/// `pack` at 51.00, of which a quarter of a pound, in a book whose other numbers are as `others` has them.
fn book(pack: &str, others: &str) -> String {
    format!(
        "Item,Pack,Price\nLeeks,{pack},51\nSalt,{others},1\n\nRecipe,Soup\nPortions,1\nIngredient,Qty,Unit\nLeeks,1/4,lb\n"
    )
}

/// 6.375 lb is six and three eighths: 51 ÷ 6.375 = 8.00 a pound, 2.00 for a quarter.
#[test]
fn eighths_of_a_pound_are_decimals() {
    for pack in ["6.375 lb", "6.375#", "6.375 lbs", "6.375-lb", "6.375 pounds", "2/3.1875 lb"] {
        let json = everywhere(&book(pack, "3 lb"));
        assert_eq!(
            (food(&json), told(&json).contains(&"B2 number-ambiguous".to_owned())),
            (Some(d("2")), false),
            "{pack}"
        );
    }
    // 48 ÷ 14.875 does not end; 4 × 14.875 lb = 59.5 lb at 51.00 + 8.50 = 59.50 are 1.00 a pound.
    let json = everywhere(&book("4/14.875 lb", "3 lb").replace(",51\n", ",59.50\n"));
    assert_eq!(food(&json), Some(d("0.25")));
}

/// A comma before pounds may part thousands: 1,250 lb is a truck load, or a pound and a quarter.
#[test]
fn a_comma_before_pounds_is_asked_for() {
    let json = cost_json(&[("book.csv", &book("\"1,250 lb\"", "3 lb"))]);
    assert!(told(&json).contains(&"B2 number-ambiguous".to_owned()), "{:?}", told(&json));
}

/// 2.892 kg are 2892 g, and 453.59237 ÷ 4 × 51 ÷ 2892 of a quarter of a pound: 578.3302717… ÷ 289.2 = 1.99975…; with the
/// column's or the book's points it is read so, with commas it is 2892 kg, and with neither it is a question.
#[test]
fn kilos_follow_the_column_then_the_book() {
    let kilos = |others: &str, more: &str| cost_json(&[("book.csv", &format!("{}{more}", book("2.892 kg", others)))]);
    let alone = kilos("3 kg", "");
    assert_eq!((food(&alone), told(&alone).contains(&"B2 number-ambiguous".to_owned())), (None, true));
    let money = |json: &serde_json::Value| rounded(&recipe(json, "Soup")["food_cost"], 6);
    // 453.59237 × 51 ÷ 4 ÷ 2892 = 23133.21087 ÷ 11568 = 1.999759
    assert_eq!(money(&kilos("3.5 kg", "")), d("1.999759"), "another pack of the column");
    assert_eq!(money(&kilos("3 kg", "\nSetting,Value\nTarget food cost,27.5%\n")), d("1.999759"), "another table");
    assert_eq!(
        money(&kilos("3 kg", "\nRecipe,Other\nMakes,1.5 qt\nIngredient,Qty,Unit\nSalt,1,g\n")),
        d("1.999759"),
        "a card"
    );
    // A thousand times as much for the money.
    assert_eq!(money(&kilos("\"3,5 kg\"", "")), d("0.002000"), "the column's comma");
    assert_eq!(
        money(&kilos("3 kg", "\nSetting,Value\nTarget food cost,\"27,5%\"\n")),
        d("0.002000"),
        "the book's comma"
    );
    // The column comes before the book.
    assert_eq!(money(&kilos("3.5 kg", "\nSetting,Value\nTarget food cost,\"27,5%\"\n")), d("1.999759"));
}

/// Where the unit stands beside the number or in the header: 1.125 lb at 8.00 ÷ 1 lb = 9.00.
#[test]
fn the_unit_may_stand_elsewhere() {
    let prices = "Item,Unit size,Size unit,Price\nLeeks,6.375,lb,51\n";
    for lines in [
        "Ingredient,Qty,Unit\nLeeks,1.125,lb\n",
        "Ingredient,Qty (lb)\nLeeks,1.125\n",
        "Ingredient,Qty\nLeeks,1.125 lb\n",
    ] {
        let json = everywhere(&format!("{prices}\nRecipe,Soup\nPortions,1\n{lines}"));
        assert_eq!(food(&json), Some(d("9")), "{lines}");
    }
}
