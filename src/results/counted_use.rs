//! Counted use, item by item: what was used by the counts, what ought to have been, and the gap in money: price, mix, use.

use schemars::JsonSchema;
use serde::Serialize;

use super::display_units::DisplayUnit;
use super::value::{Figure, percent};
use super::word::Word;
use crate::analysis::counted_use::{CountLack, CountedItem, CountedMoney, CountedUse};
use crate::costing::yield_test::input_cost::on_hand;
use crate::costing::{BaseUnitKind, Costing};
use crate::kitchen::Kitchen;
use crate::kitchen::plan::CountRow;
use crate::kitchen::recipe::IngredientSource;
use crate::measure::{Measured, Unit};
use crate::number::{Decimal, exact, settled};
use crate::schema::TableKind;

/// What was counted item by item. Gap = actual - standard = price + mix + use, exactly, for each item and for all of them.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Counted")]
pub struct CountedUseResult<'a> {
    /// The money of the items of which all is known; null where none is.
    pub money: Option<CountedMoneyResult>,
    /// The gap in points of the food-cost percent; null without sales.
    pub gap_points: Option<Figure>,
    /// What of the variance is of items that are not counted, or not known; null without a variance.
    pub not_counted: Option<Figure>,
    /// The items, in the order of the counts.
    pub items: Vec<CountedItemResult<'a>>,
}

/// What counted items come to in money.
#[derive(Debug, Clone, Copy, Serialize, JsonSchema)]
#[schemars(rename = "CountedMoney")]
pub struct CountedMoneyResult {
    /// What the use by the counts cost: opening + purchases + transfers in - transfers out - closing.
    pub actual_cost: Figure,
    /// What the standard use would have cost at the last day's price.
    pub standard_cost: Figure,
    /// The difference; above zero where more was spent.
    pub gap: Figure,
    /// Of it for other prices than those of the last day.
    pub of_price: Figure,
    /// Of it for other proportions among items that stand in for one another.
    pub of_mix: Figure,
    /// Of it for more or less than ought to have been used.
    pub of_use: Figure,
    /// What was written down as thrown away, which mix and use contain.
    pub waste: Figure,
}

/// Something that was counted.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "CountedItem")]
pub struct CountedItemResult<'a> {
    /// Its name, as spelled in the counts.
    pub name: &'a str,
    /// The unit of its quantities.
    pub unit: String,
    /// Counted on the first day.
    pub opening: Option<Figure>,
    /// Bought.
    pub purchases: Option<Figure>,
    /// Transfers in.
    pub transfers_in: Option<Figure>,
    /// Transfers out.
    pub transfers_out: Option<Figure>,
    /// Counted on the last day.
    pub closing: Option<Figure>,
    /// Used: opening + purchases + transfers in - transfers out - closing.
    pub used: Option<Figure>,
    /// What ought to have been used for the dishes sold; of trim what was wanted of it less what was made beside, which is
    /// below zero where more is made than wanted; 0 of a recipe, of which as much is made as is used.
    pub standard_use: Option<Figure>,
    /// The price of a unit in force on the first day; a part's is its charge.
    pub opening_price: Option<Figure>,
    /// The price of a unit in force on the last day.
    pub price: Option<Figure>,
    /// What the opening count was worth on the first day.
    pub opening_value: Option<Figure>,
    /// What the closing count was worth on the last day.
    pub closing_value: Option<Figure>,
    /// Its money; null where something of it is not known.
    pub money: Option<CountedMoneyResult>,
    /// The cells that leave something unknown.
    pub lacking: Vec<LackingCount>,
}

/// A cell that leaves something unknown.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LackingCount {
    /// Its column.
    pub column: &'static str,
    /// Why.
    pub because: Word<CountLack>,
}

/// What was counted, with the sales of the period.
pub(super) fn counted_use<'a>(
    kitchen: &'a Kitchen,
    costing: &Costing,
    counted: &CountedUse,
    sales: Option<Decimal>,
) -> CountedUseResult<'a> {
    let gap = counted.all.map(|money| money.gap);
    let points = gap.zip(sales).and_then(|(gap, sales)| exact::div(gap, sales).ok());
    CountedUseResult {
        money: counted.all.as_ref().map(CountedMoneyResult::of),
        gap_points: points.and_then(percent),
        not_counted: counted.not_counted.map(Figure),
        items: counted.items.iter().filter_map(|item| CountedItemResult::of(kitchen, costing, item)).collect(),
    }
}

impl CountedMoneyResult {
    fn of(money: &CountedMoney) -> Self {
        CountedMoneyResult {
            actual_cost: Figure(money.actual),
            standard_cost: Figure(money.standard),
            gap: Figure(money.gap),
            of_price: Figure(money.price),
            of_mix: Figure(money.mix),
            of_use: Figure(money.use_of_more),
            waste: Figure(money.thrown),
        }
    }
}

impl<'a> CountedItemResult<'a> {
    fn of(kitchen: &'a Kitchen, costing: &Costing, item: &CountedItem) -> Option<Self> {
        let row = kitchen.entries.counts.get(*item.rows.first()?)?;
        let unit = unit_of(kitchen, costing, item);
        let amount = |amount: Option<Decimal>| amount.and_then(|amount| count(&unit, amount)).map(Figure);
        let lacking = item.lacking.iter();
        Some(CountedItemResult {
            name: &row.item,
            opening: amount(item.opening),
            purchases: amount(item.purchased),
            transfers_in: amount(item.came_in),
            transfers_out: amount(item.went_out),
            closing: amount(item.closing),
            used: amount(item.used),
            standard_use: amount(item.standard),
            opening_price: item.opening_rate.and_then(|rate| unit.cost_at(rate)).map(Figure),
            price: item.rate.and_then(|rate| unit.cost_at(rate)).map(Figure),
            opening_value: item.stock.opening.map(Figure),
            closing_value: item.stock.closing.map(Figure),
            money: item.money.as_ref().map(CountedMoneyResult::of),
            lacking: lacking
                .map(|(column, why)| LackingCount { column: TableKind::Counts.header(*column), because: Word(*why) })
                .collect(),
            unit: unit.name,
        })
    }
}

/// The unit in which an item is told: the one it was counted in, of its price's kind before packages and the like that lead to
/// it; else that by which it is bought; recipes in batches.
fn unit_of(kitchen: &Kitchen, costing: &Costing, item: &CountedItem) -> DisplayUnit {
    let (volumes, source) = (kitchen.settings.volumes, item.source);
    let kind = match source {
        IngredientSource::Bought(id) => costing.item(id).map(|cost| cost.kind.clone()),
        IngredientSource::Part(_) => Some(BaseUnitKind::Mass),
        IngredientSource::Made(_) | IngredientSource::Unknown => None,
    };
    let rows: Vec<&CountRow> = item.rows.iter().filter_map(|row| kitchen.entries.counts.get(*row)).collect();
    let counted = rows.iter().flat_map(|row| [&row.opening, &row.closing]).filter_map(|field| field.given());
    let units: Vec<&Unit> =
        counted.filter(|counted| !counted.amount.is_zero()).map(|counted: &Measured| &counted.unit).collect();
    let of_kind = units.iter().find_map(|unit| {
        let (of, size) = BaseUnitKind::of(unit, volumes);
        (kind.as_ref() == Some(&of)).then(|| DisplayUnit { name: unit.name(), size })
    });
    let opening = rows.first().and_then(|row| row.opening.given()).filter(|_| rows.len() == 1);
    let led = || {
        units.iter().find_map(|unit| {
            let one = Measured::new(Decimal::ONE, (*unit).clone());
            let size = on_hand(kitchen, costing, source, &one).ok().filter(|size| *size > Decimal::ZERO)?;
            let unit = DisplayUnit { name: unit.name(), size };
            opening.is_none_or(|typed| is_of_one_size(&unit, typed, item.opening)).then_some(unit)
        })
    };
    of_kind.or_else(led).unwrap_or_else(|| match (kind, source) {
        (Some(kind), IngredientSource::Bought(id)) => {
            DisplayUnit::of_item(kitchen, costing, id).unwrap_or_else(|| DisplayUnit::of_house(&kind, volumes))
        }
        (Some(kind), _) => DisplayUnit::of_house(&kind, volumes),
        (None, _) => DisplayUnit { name: "batch".to_owned(), size: Decimal::ONE },
    })
}

/// Whether a package that was counted on the first day holds what it does on the last.
fn is_of_one_size(unit: &DisplayUnit, typed: &Measured, opening: Option<Decimal>) -> bool {
    let meant = exact::mul(typed.amount, unit.size).map(settled);
    opening.is_none_or(|opening| unit.name != typed.unit.name() || meant == Ok(settled(opening)))
}

/// So many of a unit: two thirds of a batch that makes three quarts are two.
fn count(unit: &DisplayUnit, amount: Decimal) -> Option<Decimal> {
    const FEW: u32 = 10;
    let counted = unit.count(amount)?;
    let settled = settled(counted).normalize();
    Some(if settled.scale() <= FEW { settled } else { counted })
}

/// The words for what ails a cell of the counts.
pub(crate) fn count_lack(why: CountLack) -> &'static str {
    match why {
        CountLack::Blank => "blank",
        CountLack::Unread => "not understood",
        CountLack::NoMeasure => "in a unit that nothing leads from to that of its price",
        CountLack::NoCost => "not costed",
    }
}
