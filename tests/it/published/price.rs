//! Menu prices: the price at a target, the food-cost percentage of a price.

use super::{costed, costed_with, exactly, prints};
use crate::support::{dish, recipe};

/// The dishes of the slides: a veal plate that costs 5.71 for 30.2 %, a grouper that costs 5.28 for 24.3 %.
const PLATES: &str = r#"
Item,Price,Per
Veal plate,5.71,each
Grouper plate,5.28,each

Recipe,Veal
Portions,1
Ingredient,Qty,Unit
Veal plate,1,each

Recipe,Grouper
Portions,1
Ingredient,Qty,Unit
Grouper plate,1,each

Dish,Target
Veal,30.2%
Grouper,24.3%
"#;

/// A menu price from a portion cost and a target, without a price step.
///
/// D-TRASTER-6. Daniel Traster, Foundations of Cost Control (Pearson), chapter 6 slides, examples 6a and 6b,
/// <http://slidegur.com/doc/77437/prime-cost-methods>.
#[test]
fn price_at_target() {
    let json = costed(PLATES);
    let veal = dish(&json, "Veal");
    prints(&veal["price_at_target"], "18.91"); // 5.71 ÷ 0.302
    prints(&veal["price_at_target"], "18.90728477");
    prints(&veal["target_percent"], "30.2");
    assert!(veal["menu_price"].is_null() && veal["food_cost_percent"].is_null() && veal["margin"].is_null());
    // (710,000 + 47,000) ÷ 1,000,000 = 75.7 % leaves 24.3 % for food; 5.28 ÷ 0.243. The slide prints 21.79.
    prints(&dish(&json, "Grouper")["price_at_target"], "21.73");
    prints(&dish(&json, "Grouper")["price_at_target"], "21.72839506");
}

/// The same prices brought up to a quarter, or to an ending of .95.
///
/// D-TRASTER-6, as above; step and ending are ours.
#[test]
fn price_at_target_on_a_step_or_an_ending() {
    let step = costed_with("Price step,0.25", PLATES);
    exactly(&dish(&step, "Veal")["price_at_target"], "19"); // 18.907 ÷ 0.25 = 75.63, up to 76 steps
    exactly(&dish(&step, "Grouper")["price_at_target"], "21.75"); // 86.91, up to 87 steps
    let ending = costed_with("Price ending,.95", PLATES);
    exactly(&dish(&ending, "Veal")["price_at_target"], "18.95"); // 18.907 − 0.95 = 17.957, up to 18, + 0.95
    exactly(&dish(&ending, "Grouper")["price_at_target"], "21.95"); // 21.728 − 0.95 = 20.778, up to 21, + 0.95
}

/// A bottle of wine at 41 %, a plate at 10.00 that costs 2.20, a batch of 22.00 in eleven portions.
///
/// D-FSI-WINE. "Math formulas", Foodservice Institute training sheet,
/// <https://info.5y1.org/cost-to-sales-ratio-formula_1_b807c5.html>.
#[test]
fn wine_plate_and_batch() {
    let book = r#"
Item,Pack,Price,Per
Red wine,750 ml,14.00,
Food for a plate,,2.20,each
Food for a batch,,22.00,each

Recipe,Bottle of wine
Portions,1
Target,41%
Ingredient,Qty,Unit
Red wine,750,ml

Recipe,Plate
Portions,1
Menu price,10.00
Target,22%
Ingredient,Qty,Unit
Food for a plate,1,each

Recipe,Eleven portions
Portions,11
Ingredient,Qty,Unit
Food for a batch,1,each

Dish,Recipe,Portion
Wine,Bottle of wine,
"#;
    let json = costed(book);
    // 14 ÷ 0.41. By the multiplier 1 ÷ 0.41 rounded to 2.44 the sheet also gets 34.16, a cent more.
    prints(&dish(&json, "Wine")["price_at_target"], "34.15");
    prints(&dish(&json, "Wine")["price_at_target"], "34.14634146");
    prints(&dish(&json, "Plate")["food_cost_percent"], "22.00000000"); // 2.20 ÷ 10.00
    prints(&dish(&json, "Plate")["price_at_target"], "10.00000000"); // 2.20 ÷ 0.22
    prints(&dish(&json, "Plate")["margin"], "7.80000000");
    prints(&recipe(&json, "Eleven portions")["portion_cost"], "2.00000000"); // 22 ÷ 11

    // A price that already stands on a step stays there (the step is ours).
    let stepped = costed_with("Price step,0.25", book);
    exactly(&dish(&stepped, "Plate")["price_at_target"], "10");
    exactly(&dish(&stepped, "Wine")["price_at_target"], "34.25");
}
