//! Costs per unit of price rows and of bought items.

use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::edible_portion::ComparisonScale;
use crate::costing::rate::Rate;
use crate::kitchen::price::{Price, PriceRow};
use crate::kitchen::settings::{Setting, Settings};
use crate::kitchen::{Field, Reference};
use crate::measure::Measured;
use crate::number::{Decimal, exact};
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// What a price row costs as purchased.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RowCost {
    /// The kind of base unit it is priced by.
    pub kind: BaseUnitKind,
    /// Money for so many base units.
    pub ap: Rate,
}

/// Where an item's price comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PriceFrom {
    /// A price row, as an index into the entries.
    Row(usize),
    /// The price paid in a yield test; the test row, as an index into the entries.
    TestRow(usize),
    /// Water and ice without a price.
    Water,
}

/// What an item costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ItemCost {
    /// Where the price comes from.
    pub from: PriceFrom,
    /// The kind of base unit.
    pub kind: BaseUnitKind,
    /// As purchased.
    pub ap: Rate,
    /// The price row's yield as a fraction, and the row that states it; `None` when no row does.
    pub row_yield: Option<(Decimal, usize)>,
    /// The built-in food that a price row names, and that row; broken when the name is not known.
    pub reference: Field<(Reference, usize)>,
    /// How its row was compared with others of the day.
    pub(crate) scale: ComparisonScale,
    /// The other rows of the day that its row was compared with.
    pub rivals: Vec<Rival>,
}

/// A price row that another was compared with for what its price comes to on the plate.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rival {
    /// The row, as an index into the entries: its yield is compared by.
    pub row: usize,
    /// The row of its price: itself, or at a market price that of the last price.
    pub priced: usize,
    /// How its price is compared.
    pub(crate) scale: ComparisonScale,
    /// Whether it stands before the row in use where both cost the same.
    pub wins_ties: bool,
}

/// Money for what one price buys. A market price costs nothing yet: the row that stands in for it does.
pub fn row_cost(row: &PriceRow, settings: &Settings, problems: &mut Vec<Problem>) -> Option<RowCost> {
    let volumes = settings.volumes;
    let bought = bought(row)?;
    if row.trim_yield.is_broken() || row.charges.is_broken() {
        return None;
    }
    let money = match row.price.given()? {
        Price::Money(price) => paid(row, *price, settings, problems)?,
        Price::Market => Decimal::ZERO,
    };
    let (kind, factor) = BaseUnitKind::of(&bought.unit, volumes);
    match exact::mul(bought.amount, factor) {
        Ok(per) if per > Decimal::ZERO => Some(RowCost { kind, ap: Rate { money, per } }),
        _ => {
            let fault = Fault::new(
                Code::NumberOutOfRange,
                "the pack is too large, too small or empty",
                "Check the pack; it must hold more than nothing.",
            );
            problems.push(fault.at(row.input.place(Column::Pack)));
            None
        }
    }
}

/// What is paid in the end for what one price buys.
fn paid(row: &PriceRow, price: Decimal, settings: &Settings, problems: &mut Vec<Problem>) -> Option<Decimal> {
    // Whether any tax is within is not known then; none at all is the same either way.
    if settings.is_broken(Setting::PriceTax) && row.charges.tax.given() != Some(&Decimal::ZERO) {
        return None;
    }
    match row.charges.paid(price, settings.price_tax) {
        Ok(paid) if paid >= Decimal::ZERO => Some(paid),
        _ => {
            let fault = Fault::new(
                Code::NumberOutOfRange,
                "with its credit and tax taken off, the price is less than nothing",
                "Check Price, Credit and Tax: all are for whatever the price is for.",
            );
            problems.push(fault.at(row.input.place(Column::Credit)));
            None
        }
    }
}

/// What one price of a row buys. `None` where the row does not say, or in a way that could not be read.
pub fn bought(row: &PriceRow) -> Option<Measured> {
    match (&row.per, &row.pack) {
        (Field::Broken, _) | (Field::Blank, Field::Broken | Field::Blank) => None,
        (Field::Given(per), _) => Some(per.clone()),
        (Field::Blank, Field::Given(pack)) => pack.content.clone().or_else(|| pack.pieces.clone()),
    }
}

/// Whether what a price buys depends on the setting Volumes.
pub fn varies(row: &PriceRow) -> bool {
    let pack = row.pack.given();
    let amounts = [row.per.given(), pack.and_then(|p| p.content.as_ref()), pack.and_then(|p| p.pieces.as_ref())];
    amounts.into_iter().flatten().any(|measured| measured.unit.varies())
}
