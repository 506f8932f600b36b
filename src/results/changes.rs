//! Changes that reports on new prices are made from, and the words that all of them use.

use jiff::civil::Date;

use crate::analysis::reprice::{BasketKind, Driver, Effects, Mover, Switch};
use crate::analysis::supplier_list::{Change, Held, NotTaken, PriceList, Taken};
use crate::costing::Costing;
use crate::costing::price::bought::PriceFrom;
use crate::kitchen::price::PriceRow;
use crate::kitchen::yield_test::{Charge, Part, Role};
use crate::kitchen::{ItemId, Kitchen};
use crate::number::{Decimal, half_up, plain};
use crate::problem::{Problem, Severity};
use crate::results::display_units::DisplayUnit;
use crate::results::target_status::TargetStatus;

/// A book before new prices and after, and what they do.
#[derive(Debug, Clone, Copy)]
pub struct Changes<'a> {
    /// The kitchen before.
    pub old: &'a Kitchen,
    /// Its costing.
    pub was: &'a Costing,
    /// The kitchen with the new prices.
    pub new: &'a Kitchen,
    /// Its costing.
    pub now: &'a Costing,
    /// The lists, and what became of each row.
    pub list: &'a PriceList,
    /// What the new prices do.
    pub effects: &'a Effects,
    /// The book's own costing day, where both are costed for a later one.
    pub moved_from: Option<Date>,
}

/// A price that moved, in the unit by which it is priced.
#[derive(Debug, Clone)]
pub(crate) struct MovedPrice {
    /// The unit.
    pub(crate) unit: DisplayUnit,
    /// What one cost as purchased; `None` where that does not fit.
    pub was: Option<Decimal>,
    /// What it costs now; `None` where the two prices are by unlike measures.
    pub now: Option<Decimal>,
    /// How many the basket has; `None` where that is not known.
    pub quantity: Option<Decimal>,
}

/// A price in use and a cheaper one, per usable unit.
#[derive(Debug, Clone)]
pub(crate) struct CheaperPrice {
    /// The unit.
    pub unit: String,
    /// What one costs at the price in use; `None` where that does not fit.
    pub from: Option<Decimal>,
    /// What it would cost; `None` likewise.
    pub to: Option<Decimal>,
}

/// How a credit moved that makes a dish cheaper or dearer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Credit {
    /// The by-product is charged more, and its mains bear less.
    Larger,
    /// The by-product is charged less, and its mains bear more.
    Smaller,
}

impl Credit {
    /// Both, in the order in which they are listed.
    pub const ALL: [Credit; 2] = [Credit::Larger, Credit::Smaller];

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Credit::Larger => "larger",
            Credit::Smaller => "smaller",
        }
    }
}

impl<'a> Changes<'a> {
    /// The name of an item.
    pub fn item(&self, id: ItemId) -> &'a str {
        self.new.item(id).map(|item| item.name.as_str()).unwrap_or_default()
    }

    /// A price that moved, in the unit by which it is priced.
    pub(crate) fn told(&self, mover: &Mover) -> MovedPrice {
        let row = match mover.was.from {
            PriceFrom::Row(row) => self.new.entries.prices.get(row),
            PriceFrom::TestRow(_) | PriceFrom::Water => None,
        };
        let typed = row.and_then(PriceRow::unit);
        let unit = DisplayUnit::of_price(&mover.was.kind, typed, self.new.settings.volumes);
        MovedPrice {
            was: unit.cost(mover.was.unit_cost),
            now: mover.now_as_was.ok().and_then(|now| unit.cost(now)),
            quantity: mover.quantity.and_then(|quantity| unit.count(quantity)),
            unit,
        }
    }

    /// A cheaper price, in the unit by which the one in use is priced.
    pub(crate) fn told_switch(&self, switch: &Switch) -> CheaperPrice {
        let typed = self.new.entries.prices.get(switch.from).and_then(PriceRow::unit);
        let unit = DisplayUnit::of_price(&switch.kind, typed, self.new.settings.volumes);
        CheaperPrice { from: unit.cost(switch.ep_from), to: unit.cost(switch.ep_to), unit: unit.name }
    }

    /// What became of the price row that an item is now costed by, if a list brought it.
    pub fn taken(&self, mover: &Mover) -> Option<&'a Taken> {
        let PriceFrom::Row(row) = mover.now.from else { return None };
        let place = &self.new.entries.prices.get(row)?.input.place;
        self.list.taken.iter().find(|taken| taken.price.input.place == *place)
    }

    /// The basket in words: `the plan`, `one batch of each recipe`.
    pub fn basket(&self) -> &'static str {
        match self.effects.basket.as_ref().map(|basket| basket.kind) {
            Ok(BasketKind::Batches) => "one batch of each recipe",
            Ok(BasketKind::Plan) | Err(_) => "the plan",
        }
    }

    /// What one dish's change is worth over: `the plan`, `one portion`.
    pub fn portions(&self) -> &'static str {
        if self.new.plan.rows.is_empty() { "one portion" } else { "the plan" }
    }

    /// What a driver is called: an item, and where its price moves the dish the other way, the credit that does it. What
    /// by-products save buying at market is taken off the mains, so that a dearer item makes their dishes cheaper.
    pub fn driver(&self, driver: &Driver) -> String {
        let item = self.item(driver.item);
        self.by_credit(driver).map_or_else(|| item.to_owned(), |credit| format!("{item} (a {} credit)", credit.word()))
    }

    /// How the credit moved that a driver works by; `None` where the dish moves as the item's price does.
    pub fn by_credit(&self, driver: &Driver) -> Option<Credit> {
        let by = self.effects.movers.iter().find(|mover| mover.item == driver.item)?.fraction?;
        let is_opposite = by.is_sign_positive() != driver.change.is_sign_positive();
        let credits = |part: &Part| matches!(&part.charge, Charge::Market(buy_in) if buy_in.item == driver.item);
        let by_credit = is_opposite && !by.is_zero() && self.new.tests.iter().flat_map(|test| &test.parts).any(credits);
        by_credit.then_some(if by > Decimal::ZERO { Credit::Larger } else { Credit::Smaller })
    }

    /// How a dish stands with the new prices.
    pub fn standing(&self, dish: usize) -> TargetStatus {
        let cost = self.now.dishes.get(dish).and_then(Option::as_ref);
        self.new.dishes.get(dish).map_or(TargetStatus::NotCosted, |dish| TargetStatus::of(dish, cost))
    }

    /// Why a held row was held back, in the words of its problem; the last found is the one that says so.
    pub fn held_because(&self, held: &Held) -> Option<String> {
        let place = &self.list.rows.get(held.row)?.input.place;
        let row = place.cell_ref()?.row;
        let here = |problem: &&Problem| {
            problem.place.file_name() == place.file_name()
                && problem.place.sheet_name() == place.sheet_name()
                && problem.place.cell_ref().is_some_and(|cell| cell.row == row)
                && problem.severity() != Severity::Note
        };
        self.list.problems.iter().rfind(here).map(Problem::message)
    }

    /// What a held row is about, as the book or else the list spells it.
    pub fn held_name(&self, held: &Held) -> &'a str {
        let listed = || self.list.rows.get(held.row).map(|row| row.item.as_str()).unwrap_or_default();
        held.item.map_or_else(listed, |id| self.old.item(id).map_or_else(listed, |item| item.name.as_str()))
    }
}

/// What happened to a price besides its going up or down; nothing where that is all.
pub(crate) fn happened(change: &Change) -> Option<String> {
    match change {
        Change::SmallerPack { from, to } => Some(format!("smaller pack: {from} before, {to} now")),
        Change::LargerPack { from, to } => Some(format!("larger pack: {from} before, {to} now")),
        Change::NewSupplier => Some("a new supplier".to_owned()),
        Change::First => Some("its first price".to_owned()),
        Change::Market => Some("market price: the last dated price stays".to_owned()),
        Change::NotComparable => Some("by another measure: cannot be compared".to_owned()),
        Change::Same | Change::Rise | Change::Fall => None,
    }
}

/// What a part of a yield test is, and how it bears its cost.
pub(crate) fn bearing(role: Role, is_charged: bool) -> &'static str {
    match (role, is_charged) {
        (Role::Main, _) => "main",
        (_, true) => "by-product, its credit",
        (_, false) => "by-product, its share",
    }
}

/// Why a row was held back, in a few words.
pub(crate) fn why(why: NotTaken) -> &'static str {
    match why {
        NotTaken::Jump => "moved more than the bound",
        NotTaken::Slip => "looks priced by another unit than before",
        NotTaken::NotComparable => "in a unit that cannot be compared with the one before",
        NotTaken::Stops => "would leave something without a cost",
        NotTaken::Ended => "has ended already",
        NotTaken::CodeOfAnother => "its code is another item's",
        NotTaken::Conflict => "the list says two things",
        NotTaken::Withdrawn => "is offered no more",
        NotTaken::Unreadable => "could not be read",
    }
}

/// A fraction as a signed percentage to one decimal: `+12.5 %`.
pub(crate) fn signed_percent(fraction: Decimal) -> String {
    let Some(percent) = fraction.checked_mul(Decimal::ONE_HUNDRED) else { return "–".to_owned() };
    let rounded = half_up(percent, 1);
    let sign = if rounded > Decimal::ZERO { "+" } else { "" };
    format!("{sign}{} %", plain(rounded))
}
