//! The unit that a yield test is weighed in: the one of its first as purchased row. What is told of it is told in that.

use crate::kitchen::Kitchen;
use crate::kitchen::yield_test::Test;
use crate::number::Decimal;

/// A unit of weight.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Scale {
    /// Its name.
    pub name: String,
    /// Grams in one of it.
    pub grams: Decimal,
}

impl Scale {
    /// The unit of `test`; grams where none was read.
    pub fn of(kitchen: &Kitchen, test: &Test) -> Self {
        let row = test.runs.first().and_then(|run| kitchen.entries.tests.get(run.row));
        let weight = row.and_then(|row| row.weight.given());
        weight.map_or(Scale { name: "g".to_owned(), grams: Decimal::ONE }, |weight| Scale {
            name: weight.unit.name(),
            grams: weight.unit_grams,
        })
    }
}
