//! The units in which a kitchen is told: that of a yield test is the one of its first as purchased row, that of what is
//! bought the one by which a kitchen of its measures buys.

use crate::costing::conversion::base_unit::Kind;
use crate::kitchen::Kitchen;
use crate::kitchen::yield_test::Test;
use crate::measure::{Unit, Volumes};
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

/// The unit in which a kind is counted, in words.
pub fn base_unit(kind: &Kind) -> String {
    match kind {
        Kind::Own(name) => name.to_string(),
        other => other.symbol().to_owned(),
    }
}

/// What a kitchen of these volumes buys by, and its size in base units.
pub fn house_unit(kind: &Kind, volumes: Volumes) -> (String, Decimal) {
    let named = |name: &str| {
        let unit = Unit::parse(name);
        let size = unit.as_ref().and_then(|unit| unit.to_base(volumes)).map(|(_, size)| size);
        (name.to_owned(), size.unwrap_or(Decimal::ONE))
    };
    match (kind, volumes) {
        (Kind::Mass, Volumes::Metric) => named("kg"),
        (Kind::Mass, _) => named("lb"),
        (Kind::Volume, Volumes::Metric) => named("l"),
        (Kind::Volume, _) => named("qt"),
        (Kind::Each, _) => ("each".to_owned(), Decimal::ONE),
        (Kind::Own(name), _) => (name.to_string(), Decimal::ONE),
    }
}

/// What something is priced by: kilos and litres where its pack is metric, else what the kitchen buys by.
pub fn priced_unit(kind: &Kind, typed: Option<&Unit>, volumes: Volumes) -> (String, Decimal) {
    // A metric unit is a power of ten of the base unit.
    let of_ten = |size: Decimal| [1, 10, 100, 1000].into_iter().any(|power| size == Decimal::from(power));
    let metric = typed.and_then(|unit| unit.to_base(volumes)).is_some_and(|(_, size)| of_ten(size));
    house_unit(kind, if metric { Volumes::Metric } else { volumes })
}

/// The unit by which the cost of `unit` is told, and how many of `unit` it holds: what an ounce or a gram costs means little
/// to anybody.
pub fn costed_by(unit: &str) -> (&str, u32) {
    match unit {
        "mg" => ("g", 1000),
        "g" => ("kg", 1000),
        "oz" => ("lb", 16),
        "ml" => ("l", 1000),
        "cl" => ("l", 100),
        "dl" => ("l", 10),
        "fl oz" => ("qt", 32),
        other => (other, 1),
    }
}
