//! The units in which a kitchen is told: that of a yield test is the one of its first as purchased row, that of what is
//! bought the one by which a kitchen of its measures buys.

use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::{Costing, PriceFrom, Rate};
use crate::kitchen::price::PriceRow;
use crate::kitchen::recipe::Recipe;
use crate::kitchen::yield_test::Test;
use crate::kitchen::{ItemId, Kitchen};
use crate::measure::{Unit, Volumes};
use crate::number::{Decimal, exact};

/// A unit in which amounts of one kind are told.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DisplayUnit {
    /// Its name.
    pub name: String,
    /// Base units in one of it: grams, millilitres or pieces.
    pub size: Decimal,
}

impl DisplayUnit {
    /// That of the weights of `test`; grams where none was read.
    pub fn of_test(kitchen: &Kitchen, test: &Test) -> Self {
        let row = test.runs.first().and_then(|run| kitchen.entries.tests.get(run.row));
        let weight = row.and_then(|row| row.weight.given());
        weight.map_or(DisplayUnit { name: "g".to_owned(), size: Decimal::ONE }, |weight| DisplayUnit {
            name: weight.unit.name(),
            size: weight.unit_grams,
        })
    }

    /// What a kitchen of these volumes buys by.
    pub fn of_house(kind: &BaseUnitKind, volumes: Volumes) -> Self {
        let named = |name: &str| {
            let size = Unit::parse(name).as_ref().and_then(|unit| unit.to_base(volumes)).map(|(_, size)| size);
            DisplayUnit { name: name.to_owned(), size: size.unwrap_or(Decimal::ONE) }
        };
        match (kind, volumes) {
            (BaseUnitKind::Mass, Volumes::Metric) => named("kg"),
            (BaseUnitKind::Mass, _) => named("lb"),
            (BaseUnitKind::Volume, Volumes::Metric) => named("l"),
            (BaseUnitKind::Volume, _) => named("qt"),
            (BaseUnitKind::Each, _) => DisplayUnit { name: "each".to_owned(), size: Decimal::ONE },
            (BaseUnitKind::Own(name), _) => DisplayUnit { name: name.to_string(), size: Decimal::ONE },
        }
    }

    /// What something is priced by: kilos and litres where its pack is metric, else what the kitchen buys by.
    pub fn of_price(kind: &BaseUnitKind, typed: Option<&Unit>, volumes: Volumes) -> Self {
        // A metric unit is a power of ten of the base unit.
        let of_ten = |size: Decimal| [1, 10, 100, 1000].into_iter().any(|power| size == Decimal::from(power));
        let metric = typed.and_then(|unit| unit.to_base(volumes)).is_some_and(|(_, size)| of_ten(size));
        DisplayUnit::of_house(kind, if metric { Volumes::Metric } else { volumes })
    }

    /// That by which what is bought is told, by its price in use; `None` where it is not costed.
    pub fn of_item(kitchen: &Kitchen, costing: &Costing, id: ItemId) -> Option<Self> {
        let cost = costing.item(id)?;
        let row = match cost.from {
            PriceFrom::Row(row) => kitchen.entries.prices.get(row),
            _ => None,
        };
        Some(DisplayUnit::of_price(&cost.kind, row.and_then(PriceRow::unit), kitchen.settings.volumes))
    }

    /// How many of it so many base units are; `None` where that does not fit.
    pub fn count(&self, amount: Decimal) -> Option<Decimal> {
        exact::div(amount, self.size).ok()
    }

    /// What one of it costs where a base unit costs so much; `None` where that does not fit.
    pub fn cost(&self, unit_cost: Decimal) -> Option<Decimal> {
        exact::mul(unit_cost, self.size).ok()
    }

    /// What one of it costs at a rate; `None` where that does not fit.
    pub fn cost_at(&self, rate: Rate) -> Option<Decimal> {
        exact::div(exact::mul(rate.money, self.size).ok()?, rate.per).ok()
    }
}

/// The unit by which it is told what is made of a recipe costs: that of the first of its measures, or a larger one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MadeUnit {
    /// Its name.
    pub name: String,
    /// How many it holds of the unit in which it is typed what the batch makes.
    pub times: u32,
    /// How many of that one the batch makes.
    pub makes: Decimal,
}

impl MadeUnit {
    /// That of `recipe`; `None` where only portions are known.
    pub fn of(recipe: &Recipe) -> Option<Self> {
        let makes = recipe.makes.first()?;
        let typed = makes.unit.name();
        let (name, times) = costed_by(&typed);
        Some(MadeUnit { name: name.to_owned(), times, makes: makes.amount })
    }

    /// What falls on one of it of `whole`, which is the batch's: its cost, or the base units that it makes.
    pub fn share_of(&self, whole: Decimal) -> Option<Decimal> {
        exact::div(exact::mul(whole, Decimal::from(self.times)).ok()?, self.makes).ok()
    }
}

/// The unit in which a kind is counted, in words.
pub fn base_unit(kind: &BaseUnitKind) -> String {
    match kind {
        BaseUnitKind::Own(name) => name.to_string(),
        other => other.symbol().to_owned(),
    }
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
