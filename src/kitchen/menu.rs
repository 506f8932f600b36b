//! The menu: rows as read, and the dishes sold.

use super::{Field, InputRow, RecipeId};
use crate::measure::{Measured, Unit};
use crate::number::Decimal;
use crate::problem::Place;

/// A row of the menu.
#[derive(Debug, Clone)]
pub struct MenuRow {
    /// The cells.
    pub input: InputRow,
    /// The dish's name as spelled.
    pub dish: String,
    /// The recipe's name; empty is the recipe of the dish's name.
    pub recipe: String,
    /// What is served of it; blank is the card's portion.
    pub portion: Field<Measured>,
    /// The menu price as typed.
    pub menu_price: Field<Decimal>,
    /// Target food-cost %, as a fraction.
    pub target: Field<Decimal>,
    /// The rate of tax within this dish's price, as a fraction.
    pub tax: Field<Decimal>,
    /// The group it is compared within; empty where none is named.
    pub group: String,
    /// How many portions of it were sold.
    pub sold: Field<Decimal>,
}

impl MenuRow {
    /// Whether the row says how many were sold and nothing of how, as a list of sales does.
    pub fn is_sales_alone(&self) -> bool {
        let says_how = self.portion.is_blank() && self.menu_price.is_blank() && self.target.is_blank();
        !self.sold.is_blank() && self.recipe.is_empty() && says_how && self.tax.is_blank()
    }
}

/// How many plates one of a unit is, of a dish that a recipe's line names: portions and pieces count them. `None` of any other.
pub(crate) fn plates_in(unit: &Unit) -> Option<Decimal> {
    if unit.is_portion() { Some(Decimal::ONE) } else { unit.pieces() }
}

/// A dish sold.
#[derive(Debug, Clone)]
pub struct Dish {
    /// Its name as spelled.
    pub name: String,
    /// Where it is named.
    pub place: Place,
    /// Its menu row, as an index into the entries; `None` when its card alone makes it a dish.
    pub row: Option<usize>,
    /// Its recipe; `None` when that was not found.
    pub recipe: Option<RecipeId>,
    /// What is served, where it is not the card's portion.
    pub portion: Option<Measured>,
    /// The menu price as typed.
    pub menu_price: Option<Decimal>,
    /// Target food-cost %, as a fraction.
    pub target: Option<Decimal>,
    /// The rate of tax within its price, as a fraction.
    pub tax: Decimal,
    /// The group it is compared within: the menu's, else its card's; empty where none is named.
    pub group: String,
    /// How many portions of it were sold, all its rows together; broken where one of them could not be read.
    pub sold: Field<Decimal>,
    /// Whether a reported problem stops it.
    pub broken: bool,
}
