//! Order list of the plan: what to order from whom, what is left of it, and what trim comes out beside.

use jiff::civil::Date;
use schemars::JsonSchema;
use serde::Serialize;

use super::problem::ProblemResult;
use super::value::{Day, Figure, FormatVersion, VERSION};
use super::word::{Word, base};
use crate::analysis::OrderList;
use crate::analysis::order_list::{Order, OrderLine, TrimMade};
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::measure::Base;
use crate::problem::Problem;

/// What to order for the plan: `parings buy --format json`. What is not known is null; without a plan all lists are empty.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "parings buy")]
pub struct OrderListResults<'a> {
    /// The version of the program.
    pub parings: &'a str,
    /// The version of this format.
    pub format: FormatVersion,
    /// The day whose prices count.
    pub as_of: Day,
    /// The currency of all money, such as USD; empty where the book shows none.
    pub currency: &'a str,
    /// The days that the plan spans; null without a plan.
    pub plan_days: Option<Figure>,
    /// The orders, by supplier.
    pub orders: Vec<OrderResult<'a>>,
    /// What all of them come to; null where something is on none.
    pub money: Option<Figure>,
    /// What is wanted and none of which is ordered, for there is enough on hand and on order.
    pub covered: Vec<OrderLineResult<'a>>,
    /// Trim that is short and for which nobody says what is bought: it is on no order.
    pub not_on_order: Vec<&'a str>,
    /// Dishes of the plan that are not costed, or whose portions could not be read: nothing is ordered for them.
    pub nothing_for: Vec<&'a str>,
    /// What is on hand and could not be weighed against the plan: it counts as nothing.
    pub not_counted: Vec<&'a str>,
    /// What is on order and could not be weighed against the plan: it counts as nothing.
    pub on_order_not_counted: Vec<&'a str>,
    /// The by-products that the plan makes.
    pub trim: Vec<TrimMadeResult<'a>>,
    /// Every problem of the book.
    pub problems: Vec<ProblemResult<'a>>,
}

/// What one supplier is asked for.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Order")]
pub struct OrderResult<'a> {
    /// The supplier; empty where the price row names none.
    pub supplier: &'a str,
    /// What is ordered.
    pub items: Vec<OrderLineResult<'a>>,
    /// What it comes to.
    pub money: Option<Figure>,
    /// The least that the supplier delivers, in money; null where the book does not say.
    pub minimum: Option<Figure>,
    /// What is missing to it; null where nothing is.
    pub below_minimum: Option<Figure>,
}

/// An item that is wanted. On hand, on order and ordered is wanted and left.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "OrderLine")]
pub struct OrderLineResult<'a> {
    /// Its name, as first spelled in the book.
    pub item: &'a str,
    /// The supplier's code; empty where none is stated.
    pub code: &'a str,
    /// The pack as typed; empty where none is.
    pub pack: &'a str,
    /// The unit of the quantities.
    pub base_unit: Word<Base>,
    /// How much the plan wants, as purchased.
    pub wanted: Figure,
    /// How much of that stands in for short trim.
    pub stands_in: Figure,
    /// On hand before the plan.
    pub on_hand: Figure,
    /// On order already.
    pub on_order: Figure,
    /// How much is to be bought beyond what is on hand and on order, before whole packs.
    pub to_buy: Figure,
    /// How many packs are ordered; null where it is bought by weight, volume or the piece.
    pub packs: Option<Figure>,
    /// How much is ordered.
    pub ordered: Figure,
    /// What that costs.
    pub money: Option<Figure>,
    /// Left when the plan is through.
    pub left: Figure,
    /// For how many more days of such a plan that is enough.
    pub lasts_days: Option<Figure>,
}

/// A by-product that comes out.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "TrimMade")]
pub struct TrimMadeResult<'a> {
    /// The yield test.
    pub test: &'a str,
    /// The part.
    pub part: &'a str,
    /// Days it may be kept by the house rule, that of its making the first; null where nothing is stated.
    pub keeps_days: Option<Figure>,
    /// The days that make it.
    pub days: Vec<TrimDayResult<'a>>,
}

/// A day that makes trim.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "TrimDay")]
pub struct TrimDayResult<'a> {
    /// The day, as the plan names it; empty where it names none.
    pub day: &'a str,
    /// Made on it.
    pub made_g: Figure,
    /// The last day on which it may be used; null where the plan's day is no date, or nothing says how long it keeps.
    pub use_by: Option<Day>,
}

/// What to order; `list` is `None` without a plan.
pub fn order_list<'a>(
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    list: Option<&'a OrderList>,
    problems: &'a [Problem],
) -> OrderListResults<'a> {
    let unknown = list.iter().flat_map(|list| &list.unknown);
    OrderListResults {
        parings: VERSION,
        format: FormatVersion,
        as_of: Day(costing.scenario.date),
        currency: &kitchen.settings.currency,
        plan_days: list.map(|list| Figure(list.days)),
        orders: list.map(|list| orders(kitchen, costing, list).collect()).unwrap_or_default(),
        money: list.and_then(OrderList::money).map(Figure),
        covered: list.map(|list| covered(kitchen, costing, list).collect()).unwrap_or_default(),
        not_on_order: unknown.filter_map(|id| Some(kitchen.part(*id)?.name.as_str())).collect(),
        nothing_for: list
            .map(|list| not_costed(kitchen, list).chain(not_read(kitchen, list)).collect())
            .unwrap_or_default(),
        not_counted: list.map(|list| stock_named(kitchen, &list.not_counted).collect()).unwrap_or_default(),
        on_order_not_counted: list
            .map(|list| stock_named(kitchen, &list.on_order_not_counted).collect())
            .unwrap_or_default(),
        trim: list.map(|list| trim_made(kitchen, list).collect()).unwrap_or_default(),
        problems: problems.iter().map(ProblemResult::of).collect(),
    }
}

/// The orders, by supplier.
pub(crate) fn orders<'a>(
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    list: &'a OrderList,
) -> impl Iterator<Item = OrderResult<'a>> {
    list.orders.iter().map(|order| OrderResult::of(kitchen, costing, order))
}

/// What is wanted and there is enough of.
pub(crate) fn covered<'a>(
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    list: &'a OrderList,
) -> impl Iterator<Item = OrderLineResult<'a>> {
    list.covered.iter().filter_map(|line| OrderLineResult::of(kitchen, costing, line))
}

/// Dishes of the plan that are not costed.
pub(crate) fn not_costed<'a>(kitchen: &'a Kitchen, list: &'a OrderList) -> impl Iterator<Item = &'a str> {
    list.not_costed.iter().map(|served| kitchen.served_name(*served))
}

/// Dishes of the plan in rows that could not be read.
pub(crate) fn not_read<'a>(kitchen: &'a Kitchen, list: &'a OrderList) -> impl Iterator<Item = &'a str> {
    list.not_read.iter().filter_map(|row| Some(kitchen.entries.plan.get(*row)?.dish.as_str()))
}

/// What the rows of the stock list name.
pub(crate) fn stock_named<'a>(kitchen: &'a Kitchen, rows: &[usize]) -> impl Iterator<Item = &'a str> {
    rows.iter().filter_map(|row| Some(kitchen.entries.stock.get(*row)?.item.as_str()))
}

/// The by-products that the plan makes.
pub(crate) fn trim_made<'a>(kitchen: &'a Kitchen, list: &'a OrderList) -> impl Iterator<Item = TrimMadeResult<'a>> {
    list.trim.iter().filter_map(|made| TrimMadeResult::of(kitchen, made))
}

impl<'a> OrderResult<'a> {
    fn of(kitchen: &'a Kitchen, costing: &'a Costing, order: &'a Order) -> Self {
        let items = order.lines.iter().filter_map(|line| OrderLineResult::of(kitchen, costing, line));
        OrderResult {
            supplier: &order.supplier,
            items: items.collect(),
            money: order.money.map(Figure),
            minimum: order.minimum.map(Figure),
            below_minimum: order.below_minimum().map(Figure),
        }
    }
}

impl<'a> OrderLineResult<'a> {
    fn of(kitchen: &'a Kitchen, costing: &'a Costing, line: &OrderLine) -> Option<Self> {
        let row = line.row.and_then(|row| kitchen.entries.prices.get(row));
        Some(OrderLineResult {
            item: &kitchen.item(line.item.item)?.name,
            code: row.map(|row| row.code.as_str()).unwrap_or_default(),
            pack: row.and_then(|row| row.pack.given()).map(|pack| pack.text.as_str()).unwrap_or_default(),
            base_unit: base(&costing.item(line.item.item)?.kind),
            wanted: Figure(line.item.wanted),
            stands_in: Figure(line.item.stands_in),
            on_hand: Figure(line.item.on_hand),
            on_order: Figure(line.on_order),
            to_buy: Figure(line.to_buy),
            packs: line.packs.map(Figure),
            ordered: Figure(line.ordered),
            money: line.money.map(Figure),
            left: Figure(line.left),
            lasts_days: line.lasts_days.map(Figure),
        })
    }
}

impl<'a> TrimMadeResult<'a> {
    fn of(kitchen: &'a Kitchen, made: &'a TrimMade) -> Option<Self> {
        let days = made.days.iter().map(|of| TrimDayResult {
            day: kitchen.plan.days.names.get(of.day).map(String::as_str).unwrap_or_default(),
            made_g: Figure(of.made),
            use_by: of.use_by.map(|day: Date| Day(day)),
        });
        Some(TrimMadeResult {
            test: &kitchen.test(made.part.test)?.name,
            part: &kitchen.part(made.part)?.name,
            keeps_days: made.keeps.map(Figure),
            days: days.collect(),
        })
    }
}
