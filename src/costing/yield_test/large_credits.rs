//! Credits that are too large: above what a test cost, or above half of it.
//!
//! Takes a test with the fixed charges of its parts; gives the fault and its place, the cell of the largest credit. The
//! first stops the test, the second is a doubt about what it cost.

use super::cost::TestCost;
use crate::costing::rate::{Amount, Rate};
use crate::kitchen::Kitchen;
use crate::kitchen::yield_test::{Charge, Part, Test, TestWeight};
use crate::number::rounding::half_up;
use crate::number::{Decimal, exact, plain};
use crate::problem::{Code, Fault, Place, Problem};
use crate::schema::Column;

/// The credits of a test.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Credits<'a> {
    pub(crate) kitchen: &'a Kitchen,
    pub(crate) test: &'a Test,
    /// The fixed charge of each part, beside the test's own; `None` where it has none.
    pub(crate) charges: &'a [Option<Rate>],
    /// What the test cost.
    pub(crate) cost: Decimal,
}

/// The doubt of a costed test whose credits are large.
pub(crate) fn of_test(kitchen: &Kitchen, test: &Test, cost: &TestCost) -> Option<Problem> {
    let charges: Vec<Option<Rate>> = cost.parts.iter().map(|part| part.charge).collect();
    let credits = exact::sum(cost.parts.iter().filter(|part| part.charge.is_some()).map(|part| part.cost)).ok()?;
    let (place, fault) = Credits { kitchen, test, charges: &charges, cost: cost.cost }.large(credits)?;
    Some(fault.at(place))
}

impl Credits<'_> {
    /// They come to more than the test cost.
    pub(crate) fn over_cost(self, credits: Decimal) -> (Place, Fault) {
        let said = format!("“{}” gives its by-products more than it cost", self.test.name);
        let ask = "Lower it, or charge by-products by a joint method such as by sales value.";
        self.fault(Code::CreditOverCost, &said, ask, credits)
    }

    /// They come to more than half of what the test cost; `None` where they do not.
    fn large(self, credits: Decimal) -> Option<(Place, Fault)> {
        let is_large = exact::mul(credits, Decimal::TWO).is_ok_and(|twice| twice > self.cost);
        let said = format!("by-products carry more than half of “{}”", self.test.name);
        let ask = "Check it: what a by-product takes, the main no longer pays.";
        is_large.then(|| self.fault(Code::CreditLarge, &said, ask, credits))
    }

    fn fault(self, code: Code, said: &str, ask: &str, credits: Decimal) -> (Place, Fault) {
        let largest = self.largest();
        let row = largest.and_then(|(part, _)| self.kitchen.entries.tests.get(*part.rows.first()?));
        let place = row.map_or_else(|| self.test.place.clone(), |row| row.input.place(Column::Value));
        let weight = row.and_then(|row| row.weight.given());
        let told = match (largest, weight) {
            (Some((part, credit)), Some(weight)) => credit_of(part, credit, weight).unwrap_or_default(),
            _ => String::new(),
        };
        let per_unit = match (largest.map(|(part, _)| &part.charge), weight) {
            (Some(Charge::Price { .. }), Some(weight)) => {
                format!("Value is money for one {} of a part, not for all of it. ", weight.unit.name())
            }
            _ => String::new(),
        };
        let amounts = format!("{} of credits against a cost of {}{told}", money(credits), money(self.cost));
        (place, Fault::new(code, format!("{said}: {amounts}"), format!("{per_unit}{ask}")))
    }

    /// The part that takes most off the top, the first of several, with its credit.
    fn largest(&self) -> Option<(&Part, Decimal)> {
        let credits = self
            .test
            .parts
            .iter()
            .zip(self.charges)
            .filter_map(|(part, charge)| Some((part, charge.as_ref()?.cost_of(Amount::of(part.grams)).ok()?)));
        // Of equals `max_by_key` gives the last.
        credits.collect::<Vec<_>>().into_iter().rev().max_by_key(|(_, credit)| *credit)
    }
}

/// `; the largest is “Cod bones”, 2 lb at 30.00 per lb: 60.00`, in the unit of the part's row.
fn credit_of(part: &Part, credit: Decimal, weight: &TestWeight) -> Option<String> {
    let amount = exact::div(part.grams, weight.unit_grams).ok()?;
    let value = exact::mul(credit, weight.unit_grams).and_then(|all| exact::div(all, part.grams)).ok()?;
    let (unit, amount) = (weight.unit.name(), plain(half_up(amount, 2)));
    Some(format!("; the largest is “{}”, {amount} {unit} at {} per {unit}: {}", part.name, money(value), money(credit)))
}

/// Money as messages show it: to the cent, and where there is less than one of it to four decimals.
pub(crate) fn money(amount: Decimal) -> String {
    let fine = half_up(amount, 4).normalize();
    if amount < Decimal::ONE && fine.scale() > 2 { plain(fine) } else { format!("{:.2}", half_up(amount, 2)) }
}
