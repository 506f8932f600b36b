//! Edible-portion cost of a price row, whether it is in use or not: its yield by the rule of `yields`,
//! and the scale that brings its price to the unit in which rows are compared.
//!
//! Takes an item's price rows; gives what the item would cost by one of them, that row's yield, and how it is compared.

use jiff::civil::Date;

use super::rate::{Amount, Rate};
use super::{MeasureFrom, YieldFrom};
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::convert::{AskedBy, Crossing, NoConversion, Wanted, convert};
use crate::costing::conversion::equivalences_of_item;
use crate::costing::item_yield;
use crate::costing::item_yield::ItemYield;
use crate::costing::piece_yield;
use crate::costing::piece_yield::Pieces;
use crate::costing::price::bought::{ItemCost, PriceFrom, RowCost};
use crate::costing::price::lent_statements;
use crate::costing::price::lent_statements::{LentStatement, Statements};
use crate::kitchen::bridge::Basis;
use crate::kitchen::price::{Item, TrimYield};
use crate::kitchen::{Field, Kitchen, Reference};
use crate::measure::{Measured, Unit};
use crate::number::{Decimal, exact};
use crate::problem::Problem;

/// How the price of a row is brought to the unit in which rows of its item are compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ComparisonScale {
    /// Base units of its price for one unit of what is compared, before its yield.
    pub units: Amount,
    /// Whether its yield comes on top. Not where a trim test speaks for all rows, nor where the edible weight of a piece holds
    /// the yield already.
    pub across_yield: bool,
    /// Base units of its price for one unit as purchased, for ties.
    pub bought: Amount,
}

impl ComparisonScale {
    /// That of a row which stands alone.
    pub const PLAIN: ComparisonScale = ComparisonScale { units: Amount::ONE, across_yield: true, bought: Amount::ONE };
}

/// The price rows of one item with what they state.
pub struct EdibleCosts<'k> {
    kitchen: &'k Kitchen,
    item: &'k Item,
    yields: Statements<'k, Decimal>,
    references: Statements<'k, Reference>,
}

impl<'k> EdibleCosts<'k> {
    /// The rows of `item` on `day`.
    pub fn of(kitchen: &'k Kitchen, day: Date, item: &'k Item) -> Self {
        let (yields, references) =
            (lent_statements::yields(kitchen, day, item), lent_statements::references(kitchen, day, item));
        EdibleCosts { kitchen, item, yields, references }
    }

    /// The yield that price rows state for one of them.
    pub(super) fn stated(&self, row: usize) -> Option<LentStatement<Decimal>> {
        self.yields.of_row(row)
    }

    /// What the item would cost by `row` at the price of `priced`, which is another one at a market price. `None` where the
    /// yield that counts for it could not be read.
    pub fn cost_by(&self, row: usize, priced: usize, cost: &RowCost) -> Option<ItemCost> {
        let row_yield = match self.stated(row) {
            Some(LentStatement { value: Field::Broken, .. }) => return None,
            stated => stated.and_then(|stated| Some((*stated.value.given()?, stated.row))),
        };
        let reference = self.references.of_row(row);
        Some(ItemCost {
            from: PriceFrom::Row(priced),
            kind: cost.kind.clone(),
            ap: cost.ap,
            row_yield,
            reference: reference.map_or(Field::Blank, |stated| stated.value.map(|food| (food, stated.row))),
            scale: ComparisonScale::PLAIN,
            rivals: Vec::new(),
        })
    }

    /// What the pieces of the item say of its yield in the pack of a row.
    pub(super) fn pieces(&self, cost: &ItemCost) -> (Pieces, Vec<Problem>) {
        piece_yield::of_item(self.kitchen, self.item, cost)
    }

    /// The yield of a row where no trim test speaks.
    ///
    /// # Errors
    /// A [`NoConversion`] where what would say it could not be read, or cannot be.
    pub(super) fn yield_of(&self, cost: &ItemCost) -> Result<ItemYield, NoConversion> {
        item_yield::without_test(cost, Some(&self.pieces(cost).0))
    }

    /// The yield of a row as a fraction, and where it is from; none at all where it cannot be told.
    pub fn yield_read(&self, cost: &ItemCost) -> (Decimal, YieldFrom) {
        let found = self.yield_of(cost).unwrap_or(ItemYield::NONE);
        (found.fraction, found.from)
    }

    /// How a row is brought to one base unit of `kind`, and the measures passed through; `None` where nothing joins them.
    ///
    /// Compared is the edible portion; where a trim test gives all rows one yield, what is bought.
    pub fn scale(&self, cost: &ItemCost, kind: &BaseUnitKind) -> Option<(ComparisonScale, Vec<MeasureFrom>)> {
        let volumes = self.kitchen.settings.volumes;
        let unit: Unit = kind.unit();
        let links = equivalences_of_item::of_item(self.kitchen, self.item, cost, (&unit, None));
        let quantity = Measured::new(Decimal::ONE, unit);
        let name = self.item.name.as_str();
        let one = |basis| {
            let wanted = Wanted { quantity: &quantity, prep: None, basis, name, by: AskedBy::Recipe };
            convert(wanted, &cost.kind, &links, volumes).ok()
        };
        let by_test = matches!(self.item.trim, TrimYield::Main(_));
        let bought = one(Basis::Ap)?;
        if by_test {
            let is_plain = bought.crossing == Crossing::None;
            let scale = ComparisonScale { units: bought.amount, across_yield: false, bought: bought.amount };
            return is_plain.then_some((scale, bought.through));
        }
        let edible = one(Basis::Ep)?;
        // The edible weight of what is counted is known, so that it, and no yield, leads to what is on the plate.
        let held = *kind == cost.kind && kind.is_counted() && self.item.bridge.is_edible(&kind.unit());
        let fraction = || self.yield_of(cost).map(|found| found.fraction);
        let as_bought = match bought.crossing {
            Crossing::None => bought.amount,
            crossing => crossing.cross(bought.amount, fraction().ok()?).ok()?,
        };
        let across_yield = edible.basis == Basis::Ep && !held;
        Some((ComparisonScale { units: edible.amount, across_yield, bought: as_bought }, edible.through))
    }

    /// Money for one unit of what is compared, edible, and as purchased.
    ///
    /// # Errors
    /// A [`NoConversion`] where the yield of the row cannot be told or a figure does not fit.
    pub fn compared(&self, cost: &ItemCost, scale: &ComparisonScale) -> Result<(Decimal, Decimal), NoConversion> {
        let rate = |units: Amount| -> Result<Rate, NoConversion> {
            Ok(Rate { money: exact::mul(cost.ap.money, units.num)?, per: exact::mul(cost.ap.per, units.den)? })
        };
        let mut edible = rate(scale.units)?;
        if scale.across_yield {
            let Amount { num, den } = self.yield_of(cost)?.ratio;
            edible = Rate { money: exact::mul(edible.money, den)?, per: edible.per }.after_yield(num)?;
        }
        Ok((edible.unit_cost()?, rate(scale.bought)?.unit_cost()?))
    }
}
