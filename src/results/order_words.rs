//! Order list in words: how much of an item, what no order holds, what stands in for trim, and the trim that comes out.

use crate::analysis::OrderList;
use crate::analysis::order_list::{Order, OrderLine, TrimMade};
use crate::costing::Costing;
use crate::kitchen::{ItemId, Kitchen};
use crate::number::{Decimal, plain};
use crate::results::display_units::{DisplayUnit, base_unit};
use crate::results::figures::{amount, at_most, shown};
use crate::results::not_weighed::{StockColumn, not_weighed};
use crate::results::order_list::{not_costed, not_read};

/// What is said where nothing is planned.
pub const NOTHING_PLANNED: &str =
    "Nothing is planned: add a table with Dish and Portions (and Day, if you like) to see what to order.";

/// What stands above the by-products.
pub const TRIM_HEAD: &str = "Trim that comes out:";

/// Tells an order list.
#[derive(Debug, Clone, Copy)]
pub struct OrderTelling<'a> {
    /// The kitchen.
    pub kitchen: &'a Kitchen,
    /// Its costing.
    pub costing: &'a Costing,
    /// The decimals of money.
    pub places: u32,
}

impl OrderTelling<'_> {
    /// For which plan, at the prices of which day, in which currency: `the plan of 2 days, at the prices of 2026-11-24 in USD`.
    pub fn plan(&self, list: &OrderList) -> String {
        let currency = &self.kitchen.settings.currency;
        let money = if currency.is_empty() { String::new() } else { format!(" in {currency}") };
        let days = if list.days == Decimal::ONE { String::new() } else { format!(" of {} days", plain(list.days)) };
        format!("the plan{days}, at the prices of {}{money}", self.costing.scenario.date)
    }

    /// The unit that an item is told in: that by which it is bought; grams, millilitres or pieces where `most` is so
    /// little that two decimals of it would say next to nothing.
    pub fn unit(&self, item: ItemId, most: Decimal) -> Option<DisplayUnit> {
        let kind = &self.costing.item(item)?.kind;
        let unit = DisplayUnit::of_item(self.kitchen, self.costing, item)?;
        let is_little = unit.count(most).is_some_and(|count| !count.is_zero() && count < Decimal::new(1, 1));
        Some(if is_little { DisplayUnit { name: base_unit(kind), size: Decimal::ONE } } else { unit })
    }

    /// So much of an item; of pieces no decimals that say nothing.
    pub fn so_much(&self, item: ItemId, base_units: Decimal) -> Option<String> {
        let unit = self.unit(item, base_units)?;
        Some(if unit.size == Decimal::ONE {
            let kind = &self.costing.item(item)?.kind;
            format!("{} {}", at_most(base_units, 2), base_unit(kind))
        } else {
            format!("{} {}", amount(base_units, &unit), unit.name)
        })
    }

    /// What is missing to the least that the supplier delivers; `None` where nothing is.
    pub fn below_minimum(&self, order: &Order) -> Option<String> {
        let [missing, minimum] = [order.below_minimum()?, order.minimum?].map(|money| shown(Some(money), self.places));
        Some(format!("Below the minimum order of {minimum}: {missing} is missing."))
    }

    /// What of an item is bought in the place of short trim; `None` where nothing is.
    pub fn stands_in(&self, line: &OrderLine) -> Option<String> {
        if line.item.stands_in.is_zero() {
            return None;
        }
        let name = &self.kitchen.item(line.item.item)?.name;
        let so_much = self.so_much(line.item.item, line.item.stands_in)?;
        Some(format!("{name}: {so_much} of what is wanted stands in for trim that is short."))
    }

    /// What is wanted and not ordered, for there is enough; `None` where there is nothing of the kind.
    pub fn covered(&self, list: &OrderList) -> Option<String> {
        let told = list.covered.iter().filter_map(|line| {
            let item = line.item.item;
            let held = [(line.item.on_hand, "on hand"), (line.on_order, "on order")];
            let held = held.into_iter().filter(|(amount, _)| !amount.is_zero());
            let held: Option<Vec<String>> =
                held.map(|(amount, how)| Some(format!("{} {how}", self.so_much(item, amount)?))).collect();
            let name = &self.kitchen.item(item)?.name;
            Some(format!("{name} ({}; {} is left)", held?.join(" and "), self.so_much(item, line.left)?))
        });
        let told: Vec<String> = told.collect();
        (!told.is_empty()).then(|| format!("There is enough of {}.", told.join(", ")))
    }

    /// What the plan wants and no order holds, and what was not reckoned with.
    pub fn not_on_order(&self, list: &OrderList) -> Vec<String> {
        let kitchen = self.kitchen;
        let mut told: Vec<String> = Vec::new();
        told.extend(not_costed(kitchen, list).map(|name| format!("Nothing is ordered for {name}: it is not costed.")));
        told.extend(
            not_read(kitchen, list)
                .map(|name| format!("A row of the plan for {name} could not be read: nothing is ordered for it.")),
        );
        told.extend(list.unknown.iter().filter_map(|id| Some(&kitchen.part(*id)?.name)).map(|name| {
            format!("There is not enough of {name}, and nothing says what is bought in its place: it is on no order.")
        }));
        let stock = [(&list.not_counted, StockColumn::OnHand), (&list.on_order_not_counted, StockColumn::OnOrder)];
        for (rows, column) in stock {
            told.extend(rows.iter().filter_map(|row| not_weighed(kitchen, self.costing, *row, column)));
        }
        told
    }

    /// A by-product that comes out, day by day, and how long it keeps.
    pub fn trim(&self, made: &TrimMade) -> String {
        let name = self.kitchen.part(made.part).map(|part| part.name.as_str()).unwrap_or_default();
        let unit = self.kitchen.test(made.part.test).map(|test| DisplayUnit::of_test(self.kitchen, test));
        let days = made.days.iter().map(|of| {
            let weight = unit.as_ref().map_or_else(|| plain(of.made), |unit| amount(of.made, unit));
            let unit = unit.as_ref().map_or("g", |unit| unit.name.as_str());
            let day = self.kitchen.plan.days.names.get(of.day).filter(|day| !day.is_empty());
            let on = day.map(|day| format!(" on {day}")).unwrap_or_default();
            let by = of.use_by.map(|day| format!(", to be used by {day}")).unwrap_or_default();
            format!("{weight} {unit}{on}{by}")
        });
        let days: Vec<String> = days.collect();
        let keeps = match made.keeps {
            Some(keeps) => {
                let days = if keeps == Decimal::ONE { "day" } else { "days" };
                format!("It keeps {} {days} by your house rule, the day it is made the first", at_most(keeps, 2))
            }
            None => "Nothing says how long your house keeps it".to_owned(),
        };
        format!("{name}: {}. {keeps}.", days.join("; "))
    }
}
