//! Worked examples that others have published, written as the book a kitchen would keep and costed by the tool.
//!
//! Facts and figures are the sources'; wording, item names and layout are ours. Each test names its source and gives
//! the arithmetic. Printed answers are compared at the printed number of places, rounding half up. Where a source
//! rounds on the way or errs, the test holds our exact answer and a comment says what the source prints and why.
//! What cannot be put into a book stands in the table at the end of this file.

mod ap_ep;
mod butcher;
mod cooking;
mod joint;
mod packs;
mod price;
mod recipe;
mod repricing;
mod scaling;

use parings::{Costing, Reading};
use rust_decimal::{Decimal, RoundingStrategy};
use serde_json::Value;

use crate::support::{cost_bytes, cost_json, dec, json_of, no_errors, rounded};

/// The costing date of every book here that does not name its own.
const COSTING_DATE: &str = "Costing date,2026-11-20";

/// The JSON of a book of these `tables`, which must hold no error.
#[track_caller]
fn costed(tables: &str) -> Value {
    costed_with("", tables)
}

/// As [`costed`], with more rows in the table of settings.
#[track_caller]
fn costed_with(settings: &str, tables: &str) -> Value {
    let json = read(settings, tables);
    no_errors(&json);
    json
}

/// The JSON of a book that may hold errors.
fn read(settings: &str, tables: &str) -> Value {
    cost_json(&[("book.csv", &book(settings, tables))])
}

/// The kitchen of a book of these `tables`, and its costing.
#[track_caller]
fn kitchen_of(tables: &str) -> (Reading, Costing) {
    let (reading, costing) = cost_bytes(&[("book.csv", book("", tables).as_bytes())]);
    no_errors(&json_of(&reading, &costing));
    (reading, costing)
}

/// A book of these `tables` with the settings above them.
fn book(settings: &str, tables: &str) -> String {
    let date = if settings.contains("Costing date") { "" } else { COSTING_DATE };
    let settings = ["Setting,Value", "Currency,USD", date, settings.trim()].map(str::trim);
    let settings = settings.into_iter().filter(|row| !row.is_empty()).collect::<Vec<_>>().join("\n");
    format!("{settings}\n\n{}\n", tables.trim_matches('\n'))
}

/// A decimal as written.
#[allow(clippy::expect_used, reason = "a slip in a test's own figure should stop it")]
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

/// Asserts that a figure is this number and nothing beside it.
#[track_caller]
fn exactly(figure: &Value, number: &str) {
    assert_eq!(dec(figure), d(number));
}

/// Money for so many grams at a part's cost per gram. Rounded at 20 decimals, so that the last digit of a quotient
/// does not tip a half.
#[track_caller]
fn per_grams(part: &Value, grams: &str) -> Decimal {
    half_up(dec(&part["cost_per_g"]) * d(grams), 20)
}

/// A part's cost per pound (453.59237 g).
#[track_caller]
fn per_lb(part: &Value) -> Decimal {
    per_grams(part, "453.59237")
}

/// A part's cost per ounce (28.349523125 g).
#[track_caller]
fn per_oz(part: &Value) -> Decimal {
    per_grams(part, "28.349523125")
}

/// A part's cost per kilogram.
#[track_caller]
fn per_kg(part: &Value) -> Decimal {
    per_grams(part, "1000")
}

/// What is missing after a test, as a percentage of what went in.
#[track_caller]
fn loss_percent(test: &Value) -> Decimal {
    half_up(dec(&test["loss_g"]) * Decimal::ONE_HUNDRED / dec(&test["weight_g"]), 20)
}

/// A weight in grams told in pounds.
#[track_caller]
fn pounds(grams: &Value) -> Decimal {
    half_up(dec(grams) / d("453.59237"), 20)
}

// Not expressed as a book, or only in part:
//
// | example | what | why |
// | --- | --- | --- |
// | A-RIB-3812 | factor of the whole chain on the purchase price | the JSON's factor is on what went into each test; it is reckoned from the cost per pound |
// | A-TLOIN-SLIDES | weights of the credited parts | the source gives their money alone |
// | A-PORKBUTT-CWT | mark-up on cost | no such figure in the JSON; the margin and food-cost % are checked instead |
// | A-VEAL-KG | portion size for a target cost, legs and kilograms to buy | inverse questions, not a costing; buying belongs to the plan |
// | B-HAM-ROAST | total cost increase of 164 % | its purchase price is inferred, not printed |
// | B-LOWE-LOSSES | means of the separate roasts | the separate roasts are not given; the tool pools totals |
// | C-BC-EX12 | drained tuna as a test | a yield test goes by weight; the yield stands on the price row |
// | C-PROSTART, C-TRASTER-4 | whole units to order, whole portions served | a matter of rounding an order, not of costing |
// | D-GW-PRIME | labour, supplies, benefits, prime cost | the tool costs food |
// | D-MIDNIGHT | answers rounded to cents on the way | the tool does not round on the way |
// | D-FSI-WINE | price by the rounded multiplier | the tool divides |
// | E-DOD-348 | ounces rounded to quarter steps, and E-PORTION-CHANGE's 1.78 | rounding of shown quantities belongs to `scale` |
// | E-USDA-80 | the volume of chicken | one quantity per line; its weight is used |
// | H-XYZ-CGM, H-DAIRY-10K | the constant gross margin | no way of charging of ours: it works back from final sales |
// | H-DORSEY | what finishing adds | a choice to be made, not a cost; the arithmetic stands in the test |
// | K-CANS | ranges of weights by can | ranges are not figures to cost from; a label weight is in D-TRASTER-5 |
