//! What the rows of a part state that its own way of charging may not use: what it sells for, what finishing it takes, and
//! what it saves buying.
//!
//! Takes a resolved part; reads its first row, for runs that say different things are a problem of the book. Gives money
//! by weight.

use crate::costing::Rate;
use crate::kitchen::yield_test::{Charge, InsteadOf, Otherwise, Part, TestRow, ValueGiven};
use crate::kitchen::{Kitchen, NameKey};
use crate::measure::Dimension;
use crate::number::{Decimal, exact};

fn row<'a>(kitchen: &'a Kitchen, part: &Part) -> Option<&'a TestRow> {
    kitchen.entries.tests.get(*part.rows.first()?)
}

/// What a part sells for, in money for so many grams: its Value where that is money, else what it fetches when it is not
/// used. `None` when neither is stated.
pub fn sales_value(kitchen: &Kitchen, part: &Part) -> Option<Rate> {
    let row = row(kitchen, part)?;
    let value = match row.value.given() {
        Some(ValueGiven::Money { amount, per: Some(unit) }) if unit.dimension() == Dimension::Mass => {
            Some(Rate { money: *amount, per: unit.grams()? })
        }
        Some(ValueGiven::Money { amount, per: None } | ValueGiven::Bare(amount)) => {
            Some(Rate { money: *amount, per: row.weight.given()?.unit_grams })
        }
        _ => None,
    };
    value.or_else(|| match row.otherwise.given()? {
        Otherwise::Sold { money, grams } => Some(Rate { money: *money, per: *grams }),
        Otherwise::Binned => None,
    })
}

/// What it takes to make a part usable or saleable, in money for so many grams; `None` when nothing is stated.
pub fn further_cost(kitchen: &Kitchen, part: &Part) -> Option<Rate> {
    let row = row(kitchen, part)?;
    Some(Rate { money: *row.further_cost.given()?, per: row.weight.given()?.unit_grams })
}

/// The charge of a part at what it would cost to buy: *Instead of* first, else the item of its own name; `None` when
/// nothing says what that is.
pub fn at_market(kitchen: &Kitchen, part: &Part) -> Option<Charge> {
    if let Charge::Market { .. } = part.charge {
        return Some(part.charge.clone());
    }
    let item = part.buy_in?;
    match row(kitchen, part)?.instead_of.given() {
        Some(InsteadOf { amount, item: name, per }) => {
            // A name that is not in the book leaves the item of the part's own name as what would be bought.
            let known = kitchen.item(item)?;
            if known.key == part.key && known.key != NameKey::of(name) {
                return None;
            }
            let grams = exact::mul(per.unit.grams()?, per.amount).ok().filter(|grams| *grams > Decimal::ZERO)?;
            Some(Charge::Market { item, amount: Some(amount.clone()), grams })
        }
        None => Some(Charge::Market { item, amount: None, grams: Decimal::ONE }),
    }
}
