//! What differs between a kitchen that weighs in pounds and one that weighs in kilos: units, money, paper.

#![allow(clippy::disallowed_types, reason = "a spreadsheet's numbers are floats, and this writes a spreadsheet")]

use super::pen::{Cell, Paper, usd};

/// How euros and cents are shown: the sign in front, as in costed workbooks.
const EUROS: &str = "\"€\"#,##0.00";

/// Euros and cents.
pub fn eur(euros: f64) -> Cell {
    Cell::Money(euros, EUROS)
}

/// Which measures a template is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Region {
    /// Pounds, ounces and cups; dollars; Letter paper.
    Us,
    /// Kilos, grams and litres; euros; A4 paper.
    Metric,
}

impl Region {
    /// The word of the two that fits.
    pub fn pick<T>(self, us: T, metric: T) -> T {
        match self {
            Region::Us => us,
            Region::Metric => metric,
        }
    }

    /// What the book is printed on.
    pub fn paper(self) -> Paper {
        self.pick(Paper::Letter, Paper::A4)
    }

    /// An amount of money.
    pub fn money(self, amount: f64) -> Cell {
        self.pick(usd(amount), eur(amount))
    }

    /// The number format of money that is still to be typed.
    pub fn money_format(self) -> &'static str {
        self.pick("\"$\"#,##0.00", EUROS)
    }

    /// Units of weight.
    pub fn weights(self) -> &'static [&'static str] {
        self.pick(&["lb", "oz", "kg", "g"], &["kg", "g"])
    }

    /// What a supplier may price by.
    pub fn per(self) -> &'static [&'static str] {
        self.pick(&["case", "lb", "oz", "each", "dozen", "gal", "qt"], &["case", "kg", "g", "each", "dozen", "l"])
    }

    /// What a recipe may ask in.
    pub fn recipe_units(self) -> &'static [&'static str] {
        self.pick(
            &[
                "lb", "oz", "cup", "tbsp", "tsp", "fl oz", "pt", "qt", "gal", "each", "bunch", "head", "portion",
                "batch",
            ],
            &["kg", "g", "l", "ml", "tbsp", "tsp", "each", "bunch", "head", "portion", "batch"],
        )
    }

    /// What stock is counted in.
    pub fn stock_units(self) -> &'static [&'static str] {
        self.pick(&["lb", "oz", "qt", "gal", "each", "case"], &["kg", "g", "l", "ml", "each", "case"])
    }

    /// Measures that a kitchen weighs once. How a thing is cut, `cup, diced`, cannot stand in a list, whose words a comma
    /// parts.
    pub fn measures(self) -> &'static [&'static str] {
        self.pick(
            &["cup", "tbsp", "tsp", "bunch", "each", "head", "can"],
            &["each", "bunch", "head", "tbsp", "tsp", "can"],
        )
    }
}
