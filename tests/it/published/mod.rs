//! Published examples that stay in Rust because they ask what no figure of `tests/worked` says: the cost by a test's old
//! factor beside today's, a comparison that the `trim` command makes and a costing does not.
//!
//! All other published examples are `tests/worked/*.md`. What those leave out of their sources, and why, stands in the
//! table at the end of this file.

mod repricing;

use parings::{Costing, Reading};
use rust_decimal::{Decimal, RoundingStrategy};
use serde_json::Value;

use crate::support::{cost_bytes, json_of, no_errors, rounded};

/// The kitchen of a book of these `tables`, its costing and its JSON, which holds no error.
#[track_caller]
fn costed(tables: &str) -> (Reading, Costing, Value) {
    let (reading, costing) = cost_bytes(&[("book.csv", tables.trim_matches('\n').as_bytes())]);
    let json = json_of(&reading, &costing);
    no_errors(&json);
    (reading, costing, json)
}

/// A decimal as written.
#[track_caller]
fn d(text: &str) -> Decimal {
    text.parse().expect("a decimal")
}

/// Half up (away from zero), as the sources print.
fn half_up(number: Decimal, places: u32) -> Decimal {
    number.round_dp_with_strategy(places, RoundingStrategy::MidpointAwayFromZero)
}

/// Asserts that a figure, rounded half up to the places of `printed`, is `printed`.
#[track_caller]
fn prints(figure: &Value, printed: &str) {
    let printed = d(printed);
    assert_eq!(rounded(figure, printed.scale()), printed, "the full figure is {figure}");
}

/// Asserts that a number reckoned from figures, rounded half up to the places of `printed`, is `printed`.
#[track_caller]
fn comes_to(number: Decimal, printed: &str) {
    let printed = d(printed);
    assert_eq!(half_up(number, printed.scale()), printed, "the full number is {number}");
}

/// Money for so many grams at a part's cost per gram. Rounded at 20 decimals, so that the last digit of a quotient
/// does not tip a half.
#[track_caller]
fn per_grams(part: &Value, grams: &str) -> Decimal {
    half_up(crate::support::dec(&part["cost_per_g"]) * d(grams), 20)
}

// Not expressed, or only in part:
//
// | example | what | why |
// | --- | --- | --- |
// | rib-cut-and-roasted | factor of the whole chain on the purchase price | the JSON's factor is on what went into each test; the arithmetic stands there |
// | pork-butts | mark-up on cost | no figure of ours; margin and food cost % are checked instead |
// | ten-veal-legs | portion size for a target cost, legs and kilograms to buy | inverse questions, not a costing; buying belongs to the plan |
// | ham-roasted | total cost increase of 164 % | its purchase price is inferred, not printed |
// | losses-of-seven-roasts | means of the separate roasts | the separate roasts are not given; the tool pools totals |
// | tenderloin-and-salmon | drained tuna as a test | a yield test goes by weight; the yield stands on the price row |
// | beans-and-potatoes, vegetables-through-their-yields | whole units to order, whole portions served | a matter of rounding an order, not of costing |
// | food-of-a-hamburger | labour, supplies, benefits, prime cost | the tool costs food |
// | one-drink-in-five-proportions | answers rounded to cents on the way | the tool does not round on the way |
// | wine-plate-and-batch | price by the rounded multiplier | the tool divides |
// | hundred-portions-to-348, number-and-size-of-portions | quarter ounces, and 1.78 for the factor | rounding of shown quantities is no costing |
// | hundred-servings-to-eighty | the volume of chicken | one quantity per line; its weight is used |
// | three-joint-products, butter-and-buttermilk | the constant gross margin | no way of charging of ours: it works back from final sales |
// | sell-or-finish | what finishing adds | a choice to be made, not a cost; the arithmetic stands there |
// | (a table of cans) | ranges of weights by can | ranges are not figures to cost from; a label weight is in tomato-and-vinegar-cases |
