//! The costed workbook: alive, and the same book when it is read again.

use std::sync::LazyLock;

use jiff::civil::{DateTime, datetime};
use parings::{Cards, Costing, Reading, write, write_with_cards};

use crate::recalc::assert_recalculates;
use crate::support::cost_bytes;

/// When the tests write.
pub const STAMP: DateTime = datetime(2026, 11, 20, 12, 0, 0, 0);

/// The invented teaching kitchen.
pub const TEACHING_KITCHEN: &[u8] = include_bytes!("../../sample-books/teaching-kitchen.xlsx");

/// A book of one file costed and written.
#[track_caller]
pub fn costed(name: &str, bytes: &[u8]) -> (Reading, Costing, Vec<u8>) {
    costed_together(&[(name, bytes)])
}

/// A book of several files costed and written.
#[track_caller]
pub fn costed_together(files: &[(&str, &[u8])]) -> (Reading, Costing, Vec<u8>) {
    let (reading, costing) = cost_bytes(files);
    let written = write(&reading, &costing, STAMP).unwrap_or_else(|error| panic!("{error}"));
    (reading, costing, written)
}

/// A csv costed and written with all its recipes in lists, as those of a book of more recipes than have cards.
#[track_caller]
pub fn costed_in_lists(book: &str) -> (Reading, Costing, Vec<u8>) {
    let (reading, costing) = cost_bytes(&[("many.csv", book.as_bytes())]);
    let written = write_with_cards(&reading, &costing, &Cards::default().up_to(0), STAMP);
    let (written, _) = written.unwrap_or_else(|error| panic!("{error}"));
    (reading, costing, written)
}

/// The costed workbook of the teaching kitchen, made once for all who look at it or edit it.
pub fn teaching_workbook() -> Vec<u8> {
    static WRITTEN: LazyLock<Vec<u8>> = LazyLock::new(|| costed("teaching-kitchen.xlsx", TEACHING_KITCHEN).2);
    WRITTEN.clone()
}

/// A kitchen of `recipes` recipes, each made of the one before and of something bought, and sold; invented. At its full size
/// the lists are looked at in `life::sizes`.
fn many_recipes(recipes: usize) -> String {
    let mut book = "Item,Pack,Price,Yield\nStock base,10 lb,$20.00,\nGreens,10 lb,$9.00,90%\n\n".to_owned();
    for n in 0..recipes {
        let before = if n % 10 == 0 { "Stock base,1,lb,".to_owned() } else { format!("Soup {},1,qt,", n - 1) };
        book.push_str(&format!(
            "Recipe,Soup {n}\nMakes,2 qt\nPortion,8 fl oz\nMenu price,$4.00\nServing loss,2%\nSpice factor,1%\n\
             Ingredient,Qty,Unit,Note\n{before}\nGreens,{},oz,\nSalt,to taste,,flaky\n\n",
            n % 7 + 1
        ));
    }
    book
}

#[test]
fn recipes_on_cards_and_in_lists_live() {
    let book = many_recipes(21);
    for in_lists in [false, true] {
        let (reading, costing, once) =
            if in_lists { costed_in_lists(&book) } else { costed("many.csv", book.as_bytes()) };
        // Soup 0: 1 lb of base 2.00, an ounce of greens 0.90 ÷ 90 % ÷ 16 = 0.0625; 2.0625 + 1 %, 8 × 98 % portions.
        let first = costing.recipes[0].as_ref().unwrap();
        assert_eq!(first.batch.normalize().to_string(), "2.083125");
        assert!(costing.recipes.iter().all(Option::is_some), "{:?}", reading.problems_with(&costing));
        let sheets = crate::recalc::Sheets::open(&once);
        let at = if in_lists { ("Recipes", "J2") } else { ("Soup 0", "B18") };
        assert_eq!(sheets.value(at.0, at.1), crate::recalc::Value::Number(2.083125), "{at:?}");
        assert_recalculates(&once, "many.costed.xlsx");
        let (reading, costing) = cost_bytes(&[("many.costed.xlsx", &once)]);
        let cards = Cards::default().up_to(if in_lists { 0 } else { 200 });
        let (twice, _) = write_with_cards(&reading, &costing, &cards, STAMP).unwrap_or_else(|error| panic!("{error}"));
        assert!(once == twice, "in lists, {in_lists}: costing the costed book gave another book");
    }
}
