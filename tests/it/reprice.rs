//! What new prices do: dishes and what drove them, parts and recipes on the way, the basket, and cheaper offers.

mod alone;
mod amounts;
mod chance;
mod credits;
mod deep;
mod dishes;
mod index;
pub mod laws;
mod sample;
mod sheet;
mod switch;

use parings::analysis::Effects;
use parings::analysis::reprice::{DishEffect, PartEffect, TestEffect};
use parings::{Costing, Reading};
use rust_decimal::Decimal;

use crate::analysis::d;
use crate::support::cost_bytes;

/// A book before and after new price rows.
pub struct Repriced {
    pub old: Reading,
    pub was: Costing,
    pub new: Reading,
    pub now: Costing,
    pub effects: Effects,
}

/// The columns of the price lists here.
const PRICES: &str = "Item,Pack,Price,Supplier,Date,Yield,Preferred";

/// A book of `prices`, and of the same and `more`, with the same other tables.
#[track_caller]
pub fn repriced(prices: &str, more: &str, others: &str) -> Repriced {
    between(&format!("{PRICES}\n{prices}\n\n{others}"), &format!("{PRICES}\n{prices}{more}\n\n{others}"))
}

/// What the second book does to the first.
#[track_caller]
pub fn between(old: &str, new: &str) -> Repriced {
    let (old, was) = cost_bytes(&[("book.csv", old.as_bytes())]);
    let (new, now) = cost_bytes(&[("book.csv", new.as_bytes())]);
    let effects = Effects::of(&old.kitchen, &was, &new.kitchen, &now);
    Repriced { old, was, new, now, effects }
}

impl Repriced {
    /// Asserts that neither side has an error.
    #[track_caller]
    pub fn without_errors(self) -> Self {
        for (reading, costing) in [(&self.old, &self.was), (&self.new, &self.now)] {
            let errors: Vec<_> = reading.problems_with(costing).into_iter().filter(|p| p.is_error()).collect();
            assert!(errors.is_empty(), "{errors:#?}");
        }
        self
    }

    /// The effect on the dish of this name.
    #[track_caller]
    pub fn dish(&self, name: &str) -> &DishEffect {
        let named = |effect: &&DishEffect| self.new.kitchen.dishes[effect.dish].name == name;
        self.effects.dishes.iter().find(named).unwrap_or_else(|| panic!("“{name}” did not move"))
    }

    /// The names of the dishes that moved, in the order told.
    pub fn moved(&self) -> Vec<&str> {
        self.effects.dishes.iter().map(|effect| self.new.kitchen.dishes[effect.dish].name.as_str()).collect()
    }

    /// The name of an item.
    pub fn item(&self, id: parings::kitchen::ItemId) -> &str {
        &self.new.kitchen.item(id).unwrap().name
    }

    /// Asserts what drove a dish, and that it adds up.
    #[track_caller]
    pub fn driven(&self, name: &str, expected: &[(&str, &str)]) {
        let effect = self.dish(name);
        let drivers = effect.drivers.as_ref().unwrap();
        let found: Vec<_> = drivers.items.iter().map(|driver| (self.item(driver.item), driver.change)).collect();
        let names: Vec<_> = found.iter().map(|(name, _)| *name).collect();
        assert_eq!(names, expected.iter().map(|(name, _)| *name).collect::<Vec<_>>(), "{found:?}");
        for ((name, found), (_, expected)) in found.iter().zip(expected) {
            close(*found, d(expected), name);
        }
        assert_eq!(drivers.sum(), Ok(effect.change));
        assert_eq!(drivers.sum(), Ok(effect.now.portion_cost - effect.was.portion_cost));
        assert_eq!((drivers.together, drivers.other), (Decimal::ZERO, Decimal::ZERO));
    }

    /// The effect on the yield test of this name.
    #[track_caller]
    pub fn test(&self, name: &str) -> &TestEffect {
        let named = |effect: &&TestEffect| self.new.kitchen.test(effect.test).unwrap().name == name;
        self.effects.tests.iter().find(named).unwrap_or_else(|| panic!("“{name}” did not move"))
    }

    /// The effect on a part of the yield test of this name.
    #[track_caller]
    pub fn part(&self, test: &str, name: &str) -> &PartEffect {
        let named = |effect: &&PartEffect| self.new.kitchen.part(effect.part).unwrap().name == name;
        self.test(test).parts.iter().find(named).unwrap_or_else(|| panic!("no “{name}” in “{test}”"))
    }
}

/// Asserts that two numbers differ by no more than the last digits of a long division.
#[track_caller]
pub fn close(found: Decimal, expected: Decimal, what: &str) {
    let off = (found - expected).abs();
    assert!(off <= d("0.000000000000000000000001"), "{what}: {found}, not {expected}");
}
