//! Charge of a part in words, and the money of its Value in the unit in which that counts.

use crate::kitchen::Kitchen;
use crate::kitchen::yield_test::{Charge, JointMethod, Part, Role, Test, TestRow};
use crate::measure::currency;
use crate::number::{Decimal, half_up};

/// How a part is charged.
pub fn words(kitchen: &Kitchen, test: &Test, part: &Part) -> String {
    match &part.charge {
        Charge::Free => "free".to_owned(),
        Charge::Fraction(_) => "fraction of the AP price".to_owned(),
        Charge::Price { .. } => "price".to_owned(),
        Charge::Market(buy_in) => {
            let name = kitchen.item(buy_in.item).map(|item| item.name.as_str()).unwrap_or_default();
            format!("market: {name}")
        }
        Charge::Joint { .. } if takes_what_remains(test) => "what remains".to_owned(),
        Charge::Joint { .. } => test.joint.word().to_owned(),
    }
}

/// Whether one part alone takes all that fixed charges leave.
fn takes_what_remains(test: &Test) -> bool {
    test.parts.iter().filter(|part| part.is_joint()).count() == 1
}

/// The money of a part's Value as words say it: `price: $2.00 an oz`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ChargeWords {
    /// What stands before the amount.
    pub before: String,
    /// The amount.
    pub amount: Decimal,
    /// Its decimals.
    pub places: u32,
    /// What stands after it.
    pub after: String,
}

impl ChargeWords {
    /// What is said of the part's Value; `None` where it is no money that counts.
    pub fn of(kitchen: &Kitchen, test: &Test, part: &Part, row: &TestRow) -> Option<ChargeWords> {
        let (amount, per) = row.value.given()?.money()?;
        let unit = match per {
            Some(unit) => unit,
            None => &row.weight.given()?.unit,
        };
        let words = words(kitchen, test, part);
        let alone = takes_what_remains(test);
        let before = match (&part.charge, test.joint) {
            (Charge::Joint { .. }, _) if alone && part.role == Role::Main => format!("{words}; sells at "),
            (Charge::Price { .. }, _) => format!("{words}: "),
            (Charge::Joint { .. }, JointMethod::SalesValue | JointMethod::NetRealizableValue) if !alone => {
                format!("{words}: ")
            }
            _ => return None,
        };
        let nets = test.joint == JointMethod::NetRealizableValue && !alone && part.is_joint();
        let less = if nets && row.further_cost.given().is_some() { ", less further cost" } else { "" };
        let iso = &kitchen.settings.currency;
        let coin = currency::minor_digits(iso);
        Some(ChargeWords {
            before: format!("{before}{}", currency::sign_of(iso)),
            amount,
            places: amount.normalize().scale().clamp(coin, coin.max(6)),
            after: format!(" {}{less}", unit.one()),
        })
    }

    /// The words.
    pub fn text(&self) -> String {
        format!("{}{}", self.before, self.money())
    }

    /// The money with its unit: `$2.00 an oz` without the sign.
    fn money(&self) -> String {
        format!("{:.1$}{2}", half_up(self.amount, self.places), self.places as usize, self.after)
    }
}
