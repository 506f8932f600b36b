//! Price rows as read, and the items they price.

use jiff::civil::Date;

use super::bridge::Bridge;
use super::{Field, InputRow, NameKey, PartId, Reference, TestId};
use crate::food::StatedAllergens;
use crate::measure::{Measured, Pack, Unit};
use crate::number::{Decimal, Overflow, exact};

/// A row of a price list.
#[derive(Debug, Clone)]
pub struct PriceRow {
    /// The cells.
    pub input: InputRow,
    /// The item's name as spelled here.
    pub item: String,
    /// What the price buys, if a pack is named.
    pub pack: Field<Pack>,
    /// The price.
    pub price: Field<Price>,
    /// What one price is for, when not the pack.
    pub per: Field<Measured>,
    /// Who sells it; empty when not named.
    pub supplier: String,
    /// The supplier's code; empty when not named.
    pub code: String,
    /// What changes what it costs.
    pub charges: Charges,
    /// Whether its supplier offers it no more.
    pub withdrawn: bool,
    /// Since when; blank is the oldest.
    pub date: Field<Date>,
    /// The last day on which it counts; blank is for good. Broken, too, where it is before the date.
    pub until: Field<Date>,
    /// AP to EP by trimming, as a fraction.
    pub trim_yield: Field<Decimal>,
    /// The built-in food to borrow measures and yield from.
    pub reference: Field<Reference>,
    /// Whether this supplier's row is to be used.
    pub preferred: Field<bool>,
    /// More names.
    pub aliases: Vec<String>,
    /// The allergens stated; `None` when nothing is stated.
    pub allergens: Option<StatedAllergens>,
    /// The allergens it may contain.
    pub may_contain: Option<StatedAllergens>,
}

impl PriceRow {
    /// The unit in which what its price buys was typed: that of *Per*, else that of the pack's weight or volume.
    pub fn unit(&self) -> Option<&Unit> {
        let per = self.per.given().map(|per| &per.unit);
        per.or_else(|| Some(&self.pack.given()?.content.as_ref()?.unit))
    }

    /// Whether it has ended by `day`.
    pub fn has_ended(&self, day: Date) -> bool {
        self.until.given().is_some_and(|until| *until < day)
    }

    /// Whether it has begun by `day`, as far as its date is known.
    pub fn has_begun(&self, day: Date) -> bool {
        self.date.given().is_none_or(|date| *date <= day)
    }
}

/// What stands beside a price and changes what is paid in the end.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Charges {
    /// Money that comes on top, for whatever the price is for: freight, delivery.
    pub further: Field<Decimal>,
    /// Money that comes back, for whatever the price is for: a deposit, a rebate.
    pub credit: Field<Decimal>,
    /// The rate of tax within the price, as a fraction, where prices include tax; blank is the setting's.
    pub tax: Field<Decimal>,
}

impl Charges {
    /// Whether a cell of them could not be read.
    pub fn is_broken(&self) -> bool {
        self.further.is_broken() || self.credit.is_broken() || self.tax.is_broken()
    }

    /// The tax within the price, where the setting *Prices include tax* has the rate `included`; nothing where prices
    /// are without.
    pub fn tax_within(&self, included: Option<Decimal>) -> Option<Decimal> {
        included.map(|rate| self.tax.given().copied().unwrap_or(rate))
    }

    /// What is paid in the end at `price`.
    ///
    /// # Errors
    /// [`Overflow`] when it does not fit.
    pub fn paid(&self, price: Decimal, included: Option<Decimal>) -> Result<Decimal, Overflow> {
        let net = match self.tax_within(included) {
            Some(tax) => exact::div(price, exact::add(Decimal::ONE, tax)?)?,
            None => price,
        };
        let more = self.further.given().copied().unwrap_or_default();
        exact::sub(exact::add(net, more)?, self.credit.given().copied().unwrap_or_default())
    }
}

/// A price cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Price {
    /// Money for the pack, or for one *Per*.
    Money(Decimal),
    /// The market's: the last dated price counts.
    Market,
}

/// Something bought, under all its price rows.
#[derive(Debug, Clone)]
pub struct Item {
    /// The name as first spelled in the book.
    pub name: String,
    /// How it is compared.
    pub key: NameKey,
    /// Its price rows, as indices into the entries, in book order.
    pub rows: Vec<usize>,
    /// Whether it costs nothing without a price: water and ice.
    pub is_water: bool,
    /// A price documented by a yield test, for an item without a price row.
    pub test_price: Option<TestPrice>,
    /// Its own conversions.
    pub bridge: Bridge,
    /// What its trim tests say about its yield.
    pub trim: TrimYield,
    /// What its pieces weigh as purchased, by the tests that counted them.
    pub counted: Option<CountedIn>,
    /// Whether a problem with its name or measures stops it.
    pub broken: bool,
}

/// Pieces that were counted and weighed as they went into yield tests: `4 each, 12 lb`, over all runs that say both.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CountedIn {
    /// Pieces.
    pub count: Decimal,
    /// What they weigh, in grams.
    pub grams: Decimal,
    /// The first such row, as an index into the entries.
    pub row: usize,
}

/// The price paid in a yield test.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TestPrice {
    /// The test row, as an index into the entries.
    pub row: usize,
    /// Money.
    pub price: Decimal,
    /// For one of this.
    pub per: Unit,
}

/// What the trim tests of an item say about its EP cost.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum TrimYield {
    /// There is none.
    #[default]
    None,
    /// One test with one main: that part is the item's EP.
    Main(PartId),
    /// One test with several mains: a line must name one.
    SeveralMains(TestId),
    /// Two tests: neither gives a yield.
    SeveralTests,
    /// One test, of whose mains a reported problem leaves nothing known.
    Unreadable,
}
