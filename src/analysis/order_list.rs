//! Order list of a plan: what to order from whom, in whole packs, what is left of them, and what trim comes out beside.
//!
//! Takes a kitchen with a plan, its costing and the plan's balance; gives bought items in base units of their price as
//! purchased, trim in grams. On hand + on order + ordered = wanted + left, item by item.

use std::collections::BTreeMap;

use indexmap::IndexMap;
use jiff::ToSpan;
use jiff::civil::Date;

use super::balance::{Balance, ItemBalance, Purchases, rest};
use super::stock_on_hand;
use crate::costing::Costing;
use crate::costing::price::bought::PriceFrom;
use crate::kitchen::plan::Served;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::Role;
use crate::kitchen::{ItemId, Kitchen, NameKey, PartId};
use crate::number::{Decimal, Overflow, exact};

/// What a plan asks for.
#[derive(Debug, Clone)]
pub struct OrderList {
    /// The days that the plan spans, the first and the last within; 1 where it names none.
    pub days: Decimal,
    /// The orders, by supplier in the order of the book.
    pub orders: Vec<Order>,
    /// What is wanted and none of which is ordered, for there is enough on hand and on order; in book order.
    pub covered: Vec<OrderLine>,
    /// Short trim for which nobody says what is bought: it is on no order.
    pub unknown: Vec<PartId>,
    /// Dishes of the plan that are not costed: they take nothing here, so the list is short of what they want.
    pub not_costed: Vec<Served>,
    /// Rows of the plan that could not be read, as indices into the entries: they take nothing here either.
    pub not_read: Vec<usize>,
    /// Rows of the stock list whose On hand could not be weighed against the plan, as indices into the entries: it counts as
    /// nothing.
    pub not_counted: Vec<usize>,
    /// The same of their On order.
    pub on_order_not_counted: Vec<usize>,
    /// By-products that the plan makes, in book order.
    pub trim: Vec<TrimMade>,
}

/// What one supplier is asked for.
#[derive(Debug, Clone)]
pub struct Order {
    /// The supplier as first spelled; empty for rows that name none.
    pub supplier: String,
    /// What is ordered, in book order.
    pub lines: Vec<OrderLine>,
    /// What it comes to; `None` where it does not fit.
    pub money: Option<Decimal>,
    /// The least that the supplier delivers, in money; `None` where the book does not say.
    pub minimum: Option<Decimal>,
}

/// An item that is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OrderLine {
    /// The item over the plan.
    pub item: ItemBalance,
    /// Its price row, as an index into the entries; `None` where only a yield test says what was paid.
    pub row: Option<usize>,
    /// On order already.
    pub on_order: Decimal,
    /// To be bought beyond what is on hand and on order.
    pub to_buy: Decimal,
    /// How many packs, where its price is for a pack.
    pub packs: Option<Decimal>,
    /// What is ordered: whole packs, else as much as is to be bought.
    pub ordered: Decimal,
    /// What it costs; `None` where it does not fit.
    pub money: Option<Decimal>,
    /// Left when the plan is through.
    pub left: Decimal,
    /// For how many more days of such a plan what is left is enough; `None` where it does not fit.
    pub lasts_days: Option<Decimal>,
}

/// A by-product that comes out.
#[derive(Debug, Clone)]
pub struct TrimMade {
    /// The part.
    pub part: PartId,
    /// Days it may be kept, that of its making the first; `None` where nothing is stated.
    pub keeps: Option<Decimal>,
    /// The days that make it.
    pub days: Vec<TrimDay>,
}

/// A day that makes trim.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TrimDay {
    /// The day, as an index into the plan's.
    pub day: usize,
    /// Grams made.
    pub made: Decimal,
    /// The last day on which it may be used; `None` where the plan's day is no date, or nothing says how long it keeps.
    pub use_by: Option<Date>,
}

impl OrderList {
    /// The list of a kitchen's plan under its costing; `None` without a plan.
    ///
    /// # Errors
    /// [`Overflow`] when a quantity does not fit.
    pub fn of(kitchen: &Kitchen, costing: &Costing) -> Result<Option<Self>, Overflow> {
        let days = days_of(kitchen);
        let Some(balance) = Balance::of(kitchen, costing)? else {
            let not_read = kitchen.plan.unread.clone();
            return Ok((!not_read.is_empty()).then(|| OrderList::of_nothing(days, not_read)));
        };
        let under_way = Deliveries::of(kitchen, costing)?;
        let mut orders: IndexMap<NameKey, Order> = IndexMap::new();
        let mut covered = Vec::new();
        for item in balance.purchases.items.iter().filter(|item| !item.wanted.is_zero()) {
            let on_order = under_way.items.get(&item.item).copied().unwrap_or_default();
            let line = OrderLine::of(kitchen, costing, *item, on_order, days)?;
            if line.to_buy.is_zero() {
                covered.push(line);
                continue;
            }
            let row = line.row.and_then(|row| kitchen.entries.prices.get(row));
            let supplier = row.map(|row| row.supplier.trim()).unwrap_or_default();
            let new = || Order {
                supplier: supplier.to_owned(),
                lines: Vec::new(),
                money: None,
                minimum: kitchen.minimum_order(supplier),
            };
            orders.entry(NameKey::of(supplier)).or_insert_with(new).lines.push(line);
        }
        let mut orders: Vec<Order> = orders.into_values().collect();
        for order in &mut orders {
            let money: Option<Vec<Decimal>> = order.lines.iter().map(|line| line.money).collect();
            order.money = money.and_then(|money| exact::sum(money).ok());
        }
        let trim = trim_made(kitchen, &balance);
        let not_costed = balance.servings.iter().filter(|serving| !serving.costed).map(|serving| serving.served);
        Ok(Some(OrderList {
            days,
            orders,
            covered,
            unknown: balance.purchases.unknown,
            not_costed: not_costed.collect(),
            not_read: kitchen.plan.unread.clone(),
            not_counted: balance.not_counted,
            on_order_not_counted: under_way.not_counted,
            trim,
        }))
    }

    /// That of a plan of which no row could be read.
    fn of_nothing(days: Decimal, not_read: Vec<usize>) -> Self {
        OrderList {
            days,
            orders: Vec::new(),
            covered: Vec::new(),
            unknown: Vec::new(),
            not_costed: Vec::new(),
            not_read,
            not_counted: Vec::new(),
            on_order_not_counted: Vec::new(),
            trim: Vec::new(),
        }
    }

    /// Whether everything that the plan wants is on an order.
    pub fn is_whole(&self) -> bool {
        self.unknown.is_empty() && self.not_costed.is_empty() && self.not_read.is_empty()
    }

    /// What all orders come to; `None` where something is on none, or it does not fit.
    pub fn money(&self) -> Option<Decimal> {
        let money: Option<Vec<Decimal>> = self.orders.iter().map(|order| order.money).collect();
        exact::sum(money?).ok().filter(|_| self.is_whole())
    }
}

/// Deliveries under way.
#[derive(Default)]
struct Deliveries {
    items: BTreeMap<ItemId, Decimal>,
    not_counted: Vec<usize>,
}

impl Deliveries {
    fn of(kitchen: &Kitchen, costing: &Costing) -> Result<Self, Overflow> {
        let mut all = Deliveries::default();
        for ordered in stock_on_hand::under_way(kitchen, costing) {
            match (ordered.source, ordered.amount) {
                (IngredientSource::Bought(item), Some(amount)) => {
                    let sum = all.items.entry(item).or_default();
                    *sum = exact::add(*sum, amount)?;
                }
                _ => all.not_counted.push(ordered.row),
            }
        }
        Ok(all)
    }
}

impl Order {
    /// How much money is missing to the least that the supplier delivers; `None` where nothing is, or one of them is not known.
    pub fn below_minimum(&self) -> Option<Decimal> {
        let missing = exact::sub(self.minimum?, self.money?).ok()?;
        (missing > Decimal::ZERO).then_some(missing)
    }
}

impl OrderLine {
    fn of(
        kitchen: &Kitchen,
        costing: &Costing,
        item: ItemBalance,
        on_order: Decimal,
        days: Decimal,
    ) -> Result<Self, Overflow> {
        let row = match costing.item(item.item).map(|cost| cost.from) {
            Some(PriceFrom::Row(row)) => Some(row),
            _ => None,
        };
        let to_buy = if on_order >= item.purchase { Decimal::ZERO } else { rest(item.purchase, on_order)? };
        let packs = Purchases::whole_packs(kitchen, costing, item.item, to_buy);
        let ordered = match packs {
            Some(packs) => exact::mul(packs.packs, packs.holds)?,
            None => to_buy,
        };
        let money = match packs {
            Some(packs) => Some(packs.money),
            None => Purchases::money(costing, item.item, to_buy).ok(),
        };
        let bought = exact::add(on_order, ordered)?;
        let left = exact::add(item.left_over, rest(bought, item.purchase)?)?;
        let lasts_days = exact::mul(left, days).and_then(|left| exact::div(left, item.wanted)).ok();
        let packs = packs.map(|packs| packs.packs);
        Ok(OrderLine { item, row, on_order, to_buy, packs, ordered, money, left, lasts_days })
    }
}

/// How many days a plan spans; as many as it names where nothing says how far apart they are.
fn days_of(kitchen: &Kitchen) -> Decimal {
    let days = &kitchen.plan.days;
    let span = days.apart.as_ref().and_then(|apart| apart.last().map(|last| last.saturating_add(1)));
    span.map_or_else(|| Decimal::from(days.len()), Decimal::from).max(Decimal::ONE)
}

fn trim_made(kitchen: &Kitchen, balance: &Balance) -> Vec<TrimMade> {
    let dates = dates_of(kitchen);
    let by_products = kitchen.all_parts().filter_map(|id| Some((id, kitchen.part(id)?)));
    let by_products = by_products.filter(|(_, part)| part.role == Role::ByProduct);
    let made = by_products.filter_map(|(id, part)| {
        let keeps = part.reuse.keeps;
        let days: Vec<TrimDay> = balance
            .made_by_day(id)
            .map(|(day, made)| TrimDay { day, made, use_by: use_by(dates.get(day).copied().flatten(), keeps) })
            .collect();
        (!days.is_empty()).then_some(TrimMade { part: id, keeps, days })
    });
    made.collect()
}

/// The date of every day of the plan, by its first row; looked up once, for a year has many rows.
fn dates_of(kitchen: &Kitchen) -> Vec<Option<Date>> {
    let mut dates = vec![None; kitchen.plan.days.len()];
    for row in kitchen.plan.rows.iter().rev() {
        if let Some(date) = dates.get_mut(row.day) {
            *date = kitchen.entries.plan.get(row.row).and_then(|row| row.date);
        }
    }
    dates
}

/// The last day on which what a day makes may be used: that of its making is the first.
fn use_by(date: Option<Date>, keeps: Option<Decimal>) -> Option<Date> {
    let date = date?;
    let after = exact::sub(keeps?.floor(), Decimal::ONE).ok().filter(|after| *after >= Decimal::ZERO)?;
    let after: i32 = after.try_into().ok()?;
    date.checked_add(after.days()).ok()
}
