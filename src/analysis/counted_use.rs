//! Counted use, item by item: what was used by the stock counts, what the dishes sold ought to have used, and the gap in
//! money, taken apart into price, mix and use.
//!
//! Used = opening + purchases + transfers in − transfers out − closing. What that cost: the opening count at the price in
//! force on the first day, purchases at what was paid, all else at the price in force on the last. Price is what that is
//! above the used amount at the last day's price. What is left, (used − standard) × price, is mix and use where items
//! stand in for one another: use is the whole group's amount above its standard, in the standard's proportions; mix that
//! more of a dear or cheap one was taken. After *material price, mix and yield variances* of standard costing.
//!
//! Takes a kitchen and its costings on both days; gives money to twelve decimals, so that the parts add up exactly.

mod money;

use std::collections::BTreeMap;

use indexmap::IndexMap;
pub use money::CountedMoney;
use money::{held, money};

use super::standard_use::StandardUse;
use crate::costing::Costing;
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::price::bought::PriceFrom;
use crate::costing::rate::Rate;
use crate::costing::yield_test::input_cost::{on_hand, part_rate};
use crate::kitchen::plan::CountRow;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::{Field, Kitchen, NameKey};
use crate::measure::Measured;
use crate::number::{Decimal, exact};
use crate::schema::Column;

/// Everything that was counted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CountedUse {
    /// What was counted, in the order of the counts.
    pub items: Vec<CountedItem>,
    /// The money of those of which all is known; `None` where none is, or it does not fit.
    pub all: Option<CountedMoney>,
    /// What the stock was worth, of all items.
    pub stock: StockValues,
    /// What of the variance is of no item whose money is known; `None` without a variance.
    pub not_counted: Option<Decimal>,
}

/// Something that was counted, rows of one name together: a bought item in base units of its price, a part in grams, a recipe
/// in batches. What is not known is `None`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CountedItem {
    /// What it is.
    pub source: IngredientSource,
    /// Its rows, as indices into the entries.
    pub rows: Vec<usize>,
    /// Counted on the first day.
    pub opening: Option<Decimal>,
    /// Bought.
    pub purchased: Option<Decimal>,
    /// Came from elsewhere.
    pub came_in: Option<Decimal>,
    /// Went elsewhere.
    pub went_out: Option<Decimal>,
    /// Counted on the last day.
    pub closing: Option<Decimal>,
    /// Used.
    pub used: Option<Decimal>,
    /// What ought to have been used.
    pub standard: Option<Decimal>,
    /// Thrown away, as written down.
    pub thrown: Option<Decimal>,
    /// The price in force on the last day; a part's is its charge.
    pub rate: Option<Rate>,
    /// The price in force on the first day.
    pub opening_rate: Option<Rate>,
    /// What the stock was worth.
    pub stock: StockValues,
    /// Its money; `None` where something of it is not known.
    pub money: Option<CountedMoney>,
    /// The cells that leave something unknown.
    pub lacking: Vec<(Column, CountLack)>,
}

/// What counts come to in money; `None` is not known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct StockValues {
    /// The opening count at the first day's price.
    pub opening: Option<Decimal>,
    /// Purchases at what was paid, else at the last day's price.
    pub purchases: Option<Decimal>,
    /// What came from elsewhere, at the last day's price.
    pub came_in: Option<Decimal>,
    /// What went elsewhere, at the last day's price.
    pub went_out: Option<Decimal>,
    /// The closing count at the last day's price.
    pub closing: Option<Decimal>,
}

impl StockValues {
    /// Those of a book without counts: nothing is known of the stock, and no transfer was written down.
    pub const NOT_COUNTED: Self = StockValues {
        opening: None,
        purchases: None,
        came_in: Some(Decimal::ZERO),
        went_out: Some(Decimal::ZERO),
        closing: None,
    };
}

/// Why a cell of the counts leaves something unknown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CountLack {
    /// Nothing was typed.
    Blank,
    /// It could not be read, which is reported.
    Unread,
    /// No measure leads from its unit to that of the price, or to the weight of a part.
    NoMeasure,
    /// What it costs is not known.
    NoCost,
}

/// The two days, as costed, and what was sold between them.
pub(super) struct Period<'a> {
    pub(super) kitchen: &'a Kitchen,
    pub(super) first_day: &'a Costing,
    pub(super) last_day: &'a Costing,
    /// `None` where no dish says how many were sold, or it does not fit.
    pub(super) standard: Option<&'a StandardUse>,
}

impl CountedUse {
    /// What was counted; `None` where nothing was.
    pub(super) fn of(period: &Period<'_>) -> Option<Self> {
        let kitchen = period.kitchen;
        let mut rows: IndexMap<IngredientSource, Vec<usize>> = IndexMap::new();
        for count in &kitchen.counts {
            rows.entry(count.source).or_default().push(count.row);
        }
        if rows.is_empty() {
            return None;
        }
        let mut items: Vec<CountedItem> = rows.into_iter().map(|(source, rows)| period.item(source, rows)).collect();
        period.take_apart(&mut items);
        let all_of = |value: fn(&StockValues) -> Option<Decimal>| {
            exact::sum(items.iter().map(|item| value(&item.stock)).collect::<Option<Vec<Decimal>>>()?).ok()
        };
        let stock = StockValues {
            opening: all_of(|stock| stock.opening),
            purchases: all_of(|stock| stock.purchases),
            came_in: all_of(|stock| stock.came_in),
            went_out: all_of(|stock| stock.went_out),
            closing: all_of(|stock| stock.closing),
        };
        let all = CountedMoney::sum(items.iter().filter_map(|item| item.money));
        Some(CountedUse { all, stock, not_counted: None, items })
    }

    /// Says what of a variance is of other items.
    pub(super) fn held_against(&mut self, variance: Option<Decimal>) {
        self.not_counted = variance.zip(self.all).and_then(|(variance, all)| exact::sub(variance, all.gap).ok());
    }
}

impl Period<'_> {
    fn item(&self, source: IngredientSource, rows: Vec<usize>) -> CountedItem {
        let (rate, opening_rate) = (self.rate(self.last_day, source), self.rate(self.first_day, source));
        let typed: Vec<&CountRow> = rows.iter().filter_map(|row| self.kitchen.entries.counts.get(*row)).collect();
        let mut lacking: Vec<(Column, CountLack)> = Vec::new();
        // What was not there yet on the first day need not have had a price then.
        let none_at_first = typed.iter().all(|row| row.opening.given().is_some_and(|count| count.amount.is_zero()));
        if rate.is_none() {
            lacking.push((Column::Item, CountLack::NoCost));
        } else if opening_rate.is_none() && !none_at_first {
            lacking.push((Column::OpeningCount, CountLack::NoCost));
        }
        let counting_day = self.opening_day(source);
        let mut counted = |column: Column, field: fn(&CountRow) -> &Field<Measured>, wanted: bool| {
            let day = if column == Column::OpeningCount { counting_day } else { self.last_day };
            let amounts = typed.iter().map(|row| match field(row) {
                Field::Blank if wanted => Err(CountLack::Blank),
                Field::Blank => Ok(Decimal::ZERO),
                Field::Broken => Err(CountLack::Unread),
                Field::Given(amount) => self.amount(day, source, amount).ok_or(CountLack::NoMeasure),
            });
            match amounts.collect::<Result<Vec<Decimal>, CountLack>>() {
                Ok(amounts) => exact::sum(amounts).ok(),
                // Without a cost there is no unit to bring it to.
                Err(CountLack::NoMeasure) if rate.is_none() => None,
                Err(lack) => {
                    lacking.push((column, lack));
                    None
                }
            }
        };
        let opening = counted(Column::OpeningCount, |row| &row.opening, true);
        let purchased = counted(Column::PurchasedCount, |row| &row.purchased, false);
        let came_in = counted(Column::CameIn, |row| &row.came_in, false);
        let went_out = counted(Column::WentOut, |row| &row.went_out, false);
        let closing = counted(Column::ClosingCount, |row| &row.closing, true);
        let thrown = counted(Column::Thrown, |row| &row.thrown, false);
        let worth = |amount: Option<Decimal>| match amount {
            Some(amount) if amount.is_zero() => Some(amount),
            amount => money(rate?, amount?),
        };
        let stock = StockValues {
            opening: match opening {
                Some(opening) if opening.is_zero() => Some(opening),
                opening => opening.and_then(|_| self.opening_value(source, &typed, opening_rate?, &mut lacking)),
            },
            purchases: self.paid(source, &typed, rate, &mut lacking),
            came_in: worth(came_in),
            went_out: worth(went_out),
            closing: worth(closing),
        };
        let used = opening.zip(purchased).zip(came_in.zip(went_out)).zip(closing).and_then(
            |(((opening, purchased), (came_in, went_out)), closing)| {
                let came = exact::sum([opening, purchased, came_in]).ok()?;
                exact::sub(exact::sub(came, went_out).ok()?, closing).ok()
            },
        );
        let standard = self.standard.map(|standard| standard.drawn(source));
        CountedItem {
            source,
            rows,
            opening,
            purchased,
            came_in,
            went_out,
            closing,
            used,
            standard,
            thrown,
            rate,
            opening_rate,
            stock,
            money: None,
            lacking,
        }
    }

    /// The day by whose packs an opening count is brought to base units: the first, unless the price was in another kind of
    /// unit then. A case that stood there on the first day is a case of that day.
    fn opening_day(&self, source: IngredientSource) -> &Costing {
        let kind_on = |day: &Costing| match source {
            IngredientSource::Bought(id) => day.item(id).map(|cost| cost.kind.clone()),
            _ => None,
        };
        let kind = kind_on(self.first_day);
        if kind.is_some() && kind == kind_on(self.last_day) { self.first_day } else { self.last_day }
    }

    /// An amount in base units.
    fn amount(&self, costing: &Costing, source: IngredientSource, amount: &Measured) -> Option<Decimal> {
        on_hand(self.kitchen, costing, source, amount).ok()
    }

    /// What a base unit costs: as purchased, a part's charge, a batch.
    fn rate(&self, costing: &Costing, source: IngredientSource) -> Option<Rate> {
        match source {
            IngredientSource::Bought(id) => {
                let cost = costing.item(id)?;
                let is_water = cost.from == PriceFrom::Water;
                Some(if is_water { Rate { money: Decimal::ZERO, per: Decimal::ONE } } else { cost.ap })
            }
            IngredientSource::Part(id) => part_rate(self.kitchen, costing, id).ok(),
            IngredientSource::Made(id) => Some(Rate { money: costing.recipe(id)?.batch, per: Decimal::ONE }),
            IngredientSource::Unknown => None,
        }
    }

    /// The opening counts in the units and at the price of the first day, whose pack may have been another.
    fn opening_value(
        &self,
        source: IngredientSource,
        typed: &[&CountRow],
        rate: Rate,
        lacking: &mut Vec<(Column, CountLack)>,
    ) -> Option<Decimal> {
        let amounts = typed.iter().map(|row| self.amount(self.first_day, source, row.opening.given()?));
        let Some(amounts) = amounts.collect::<Option<Vec<Decimal>>>() else {
            lacking.push((Column::OpeningCount, CountLack::NoMeasure));
            return None;
        };
        money(rate, exact::sum(amounts).ok()?)
    }

    /// What the purchases cost: what was paid, row by row, else their amount at the last day's price.
    fn paid(
        &self,
        source: IngredientSource,
        typed: &[&CountRow],
        rate: Option<Rate>,
        lacking: &mut Vec<(Column, CountLack)>,
    ) -> Option<Decimal> {
        let mut all = Some(Decimal::ZERO);
        for row in typed {
            let of_row = match (&row.paid, &row.purchased) {
                (Field::Broken, _) => {
                    lacking.push((Column::Paid, CountLack::Unread));
                    None
                }
                (Field::Given(_), Field::Blank) => {
                    lacking.push((Column::PurchasedCount, CountLack::Blank));
                    None
                }
                (Field::Given(paid), _) => held(*paid),
                (Field::Blank, Field::Blank) => Some(Decimal::ZERO),
                (Field::Blank, Field::Broken) => None,
                (Field::Blank, Field::Given(amount)) => {
                    self.amount(self.last_day, source, amount).zip(rate).and_then(|(amount, rate)| money(rate, amount))
                }
            };
            all = all.zip(of_row).and_then(|(all, of_row)| exact::add(all, of_row).ok());
        }
        all
    }

    /// Takes the gap of each item apart.
    fn take_apart(&self, items: &mut [CountedItem]) {
        let mut groups: BTreeMap<(BaseUnitKind, NameKey), (Decimal, Decimal)> = BTreeMap::new();
        let sums: Option<()> = items.iter().try_for_each(|item| {
            let (Some(key), Some((used, standard))) = (self.group(item), comparable(item)) else { return Some(()) };
            let (all_used, all_standard) = groups.entry(key).or_default();
            *all_used = exact::add(*all_used, used).ok()?;
            *all_standard = exact::add(*all_standard, standard).ok()?;
            Some(())
        });
        if sums.is_none() {
            groups.clear();
        }
        for item in items {
            let group =
                self.group(item).filter(|_| comparable(item).is_some()).and_then(|key| groups.get(&key).copied());
            // Where the dishes want nothing of any of them there are no proportions.
            item.money = CountedMoney::of(item, group.filter(|(_, standard)| *standard > Decimal::ZERO));
        }
    }

    /// What it stands in for: bought items of one group of the counts whose prices are in one kind of unit.
    fn group(&self, item: &CountedItem) -> Option<(BaseUnitKind, NameKey)> {
        let IngredientSource::Bought(id) = item.source else { return None };
        let named = item.rows.iter().filter_map(|row| self.kitchen.entries.counts.get(*row));
        let group = named.map(|row| NameKey::of(&row.group)).find(|group| !group.is_empty())?;
        Some((self.last_day.item(id)?.kind.clone(), group))
    }
}

/// What was used and what ought to have been of an item that can be compared with others; of what no dish wants that was
/// taken in their place, nothing.
fn comparable(item: &CountedItem) -> Option<(Decimal, Decimal)> {
    let standard = item.standard.filter(|standard| *standard >= Decimal::ZERO)?;
    item.rate.filter(|_| item.lacking.is_empty())?;
    Some((item.used?, standard))
}
