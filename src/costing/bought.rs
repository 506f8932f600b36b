//! What bought items cost: every price row per unit, and the ways from other measures to that unit.

use super::choice::{Choice, RowState};
use super::convert::{Converted, Kind, Links, Wanted, convert};
use super::rate::Rate;
use super::scenario::Scenario;
use super::{Costing, PartCost};
use crate::kitchen::bridge::Basis;
use crate::kitchen::price::{Item, Price, PriceRow, Trim};
use crate::kitchen::settings::Setting;
use crate::kitchen::{Field, ItemId, Kitchen};
use crate::measure::{Measured, Volumes};
use crate::number::{Decimal, exact, rounding};
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// What a price row costs as purchased.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RowCost {
    /// The kind of base unit it is priced by.
    pub kind: Kind,
    /// Money for so many base units.
    pub ap: Rate,
    /// The row's own yield as a fraction; one when it states none.
    pub trim_yield: Decimal,
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
    pub kind: Kind,
    /// As purchased.
    pub ap: Rate,
    /// The price row's yield as a fraction, and the row that states it; `None` when no row does.
    pub row_yield: Option<(Decimal, usize)>,
}

/// What a price list comes to.
pub(super) struct Priced {
    /// Every price row per unit.
    pub(super) rows: Vec<Option<RowCost>>,
    /// Why every price row is used or not.
    pub(super) states: Vec<RowState>,
    /// The items.
    pub(super) items: Vec<Option<ItemCost>>,
    /// The problems met.
    pub(super) problems: Vec<Problem>,
}

/// All price rows and items.
pub(super) fn all(kitchen: &Kitchen, scenario: &Scenario) -> Priced {
    let mut problems = Vec::new();
    let volumes = kitchen.settings.volumes;
    let rows: Vec<Option<RowCost>> = if kitchen.settings.is_broken(Setting::Volumes) {
        kitchen.entries.prices.iter().map(|_| None).collect()
    } else {
        kitchen.entries.prices.iter().map(|row| row_cost(row, volumes, &mut problems)).collect()
    };
    let mut states: Vec<RowState> =
        rows.iter().map(|row| if row.is_some() { RowState::Other } else { RowState::Broken }).collect();
    let mut items = Vec::with_capacity(kitchen.items.len());
    for item in &kitchen.items {
        let mut choice = Choice { kitchen, scenario, rows: &rows, states: &mut states, problems: &mut problems };
        items.push(choice.item(item));
    }
    Priced { rows, states, items, problems }
}

/// Money for what one price buys. A market price costs nothing yet: the row that stands in for it does.
fn row_cost(row: &PriceRow, volumes: Volumes, problems: &mut Vec<Problem>) -> Option<RowCost> {
    let bought: Measured = match (&row.per, &row.pack) {
        (Field::Broken, _) | (Field::Blank, Field::Broken | Field::Blank) => return None,
        (Field::Given(per), _) => per.clone(),
        (Field::Blank, Field::Given(pack)) => pack.content.clone().or_else(|| pack.pieces.clone())?,
    };
    let trim_yield = match row.trim_yield {
        Field::Broken => return None,
        Field::Blank => Decimal::ONE,
        Field::Given(fraction) => fraction,
    };
    let money = match row.price.given()? {
        Price::Money(money) => *money,
        Price::Market => Decimal::ZERO,
    };
    let (kind, factor) = Kind::of(&bought.unit, volumes);
    match exact::mul(bought.amount, factor) {
        Ok(per) if per > Decimal::ZERO => Some(RowCost { kind, ap: Rate { money, per }, trim_yield }),
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

/// Everything that joins kinds of a bought item: its measures, then its pack.
pub(super) fn links(kitchen: &Kitchen, item: &Item, cost: &ItemCost) -> Links {
    let volumes = kitchen.settings.volumes;
    let mut links = Links::default();
    links.measures(&item.bridge, volumes);
    if let PriceFrom::Row(row) = cost.from
        && let Some(Field::Given(pack)) = kitchen.entries.prices.get(row).map(|row| &row.pack)
    {
        links.pack(pack, row, volumes);
    }
    links
}

/// Converts `quantity` of an item as purchased into the base unit of its price.
pub(super) fn as_purchased(
    kitchen: &Kitchen,
    id: ItemId,
    cost: &ItemCost,
    quantity: &Measured,
) -> Result<Converted, super::convert::Stop> {
    let Some(item) = kitchen.item(id) else { return Err(super::convert::Stop::Known) };
    let wanted = Wanted { quantity, prep: None, basis: Basis::Ap, name: &item.name };
    convert(wanted, &cost.kind, &links(kitchen, item, cost), kitchen.settings.volumes)
}

/// Warns where a price row's yield and the item's trim test say different things, to the precision typed.
pub(super) fn compare_yields(kitchen: &Kitchen, costing: &mut Costing) {
    /// Whole percents: what a cook who types `85%` means.
    const LEAST_PLACES: u32 = 2;
    let mut found = Vec::new();
    for (item, cost) in kitchen.items.iter().zip(&costing.items) {
        let (Trim::Main(part), Some(cost)) = (&item.trim, cost) else { continue };
        let (Some((stated, row)), Some(tested)) = (cost.row_yield, costing.part(*part)) else { continue };
        let PartCost { fraction, .. } = tested;
        let places = stated.normalize().scale().max(LEAST_PLACES);
        if rounding::half_up(*fraction, places) == stated.normalize() {
            continue;
        }
        let Some(row) = kitchen.entries.prices.get(row) else { continue };
        let percent = |x: Decimal| x.checked_mul(Decimal::ONE_HUNDRED).map(|p| rounding::half_up(p, 1).normalize());
        let (Some(stated), Some(tested)) = (percent(stated), percent(*fraction)) else { continue };
        found.push(
            Fault::new(
                Code::YieldDisagrees,
                format!(
                    "the price row says {stated} %, the yield test of “{}” gives {tested} %; the test is used",
                    item.name
                ),
                "Clear Yield here, or test again.",
            )
            .at(row.input.place(Column::Yield)),
        );
    }
    costing.problems.extend(found);
}
