//! The Prices sheet: every price row with what it costs per unit, and why it is used or not.

mod better_row;

use std::collections::HashMap;

use crate::costing::conversion::base_unit::Kind;
use crate::costing::edible_portion::EdibleCosts;
use crate::costing::price::bought::PriceFrom;
use crate::costing::{ItemCost, RowCost, RowState, YieldFrom};
use crate::kitchen::price::{Item, Price, PriceRow, TrimYield};
use crate::kitchen::{Field, ItemId};
use crate::number::{BareRule, Decimal, exact};
use crate::results::display_units::{base_unit, priced_unit};
use crate::schema::{Column, TableKind};
use crate::workbook::cells::formula::Formula;
use crate::workbook::cells::row::{Content, Ink, Look, Rows};
use crate::workbook::context::{Context, fraction_from};
use crate::workbook::layout::own_columns::Own;
use crate::workbook::layout::{TableLayout, rows_of};
use crate::workbook::sheets::table;

/// The rows of the sheet.
pub fn rows(context: &Context<'_>, table: &TableLayout, out: &mut Rows<'_>) {
    out(table::header(table));
    let items = items_of_rows(context);
    let mut offers: HashMap<ItemId, EdibleCosts<'_>> = HashMap::new();
    for (index, input) in rows_of(context.kitchen, TableKind::Prices).into_iter().enumerate() {
        let mut own = Own::of(table);
        match context.kitchen.entries.prices.get(index) {
            Some(row) => {
                let known = items.get(&index).and_then(|id| Some((*id, context.kitchen.item(*id)?)));
                let item = known.map(|(id, item)| OfItem {
                    id,
                    item,
                    offers: offers
                        .entry(id)
                        .or_insert_with(|| EdibleCosts::of(context.kitchen, context.costing.scenario.date, item)),
                });
                own_cells(context, table, index, row, item.as_ref(), &mut own);
            }
            None => own.say("Row used", RowState::Broken.word()),
        }
        out(table::row(table.row(index), table::inputs(context, table, input), own));
    }
}

fn items_of_rows(context: &Context<'_>) -> HashMap<usize, ItemId> {
    let items = context.kitchen.items.iter().enumerate();
    items.flat_map(|(id, item)| item.rows.iter().map(move |row| (*row, ItemId::new(id)))).collect()
}

/// The item of a price row.
struct OfItem<'a> {
    id: ItemId,
    item: &'a Item,
    offers: &'a EdibleCosts<'a>,
}

fn own_cells(
    context: &Context<'_>,
    table: &TableLayout,
    index: usize,
    row: &PriceRow,
    item: Option<&OfItem<'_>>,
    own: &mut Own<'_>,
) {
    let state = context.costing.row_states.get(index).copied().unwrap_or(RowState::Broken);
    own.say("Row used", state.word());
    let Some(cost) = context.costing.rows.get(index).and_then(Option::as_ref) else { return };
    match (&row.per, &row.pack) {
        (Field::Given(per), _) => own.say("Pack read as", format!("price per {per}")),
        (_, Field::Given(pack)) => own.say("Pack read as", pack.read_as.clone()),
        _ => {}
    }
    own.read("Pack in g, ml, each", cost.ap.per);
    own.say("Figured in", base_unit(&cost.kind));
    if row.price == Field::Given(Price::Market) {
        // Its last price may be the better one, by its own yield.
        yield_used(context, table, index, cost, (item, None), own);
        return;
    }
    let here = &table.sheet;
    let (Some(price), Ok(ap)) = (table.input(index, Column::Price), cost.ap.unit_cost()) else { return };
    let pack = table.own(index, "Pack in g, ml, each");
    let text = format!("{}/{}", price.from(here), pack.from(here));
    own.figure("AP per g, ml, each", Formula::number(text, ap), context.unit_cost());
    let (unit, size) = priced_unit(&cost.kind, row.unit(), context.kitchen.settings.volumes);
    own.say("Cost unit", unit);
    own.read("Units per cost unit", size);
    cost_per_unit(context, table, index, ["AP per g, ml, each", "AP cost per unit"], (ap, size), own);
    let item_cost = item.and_then(|of| context.costing.item(of.id));
    let in_use = item_cost.filter(|_| state == RowState::InUse);
    if let Some(ep) = yield_cells(context, table, index, cost, item, in_use, own) {
        cost_per_unit(context, table, index, ["EP per g, ml, each", "EP cost per unit"], (ep, size), own);
    }
    if let (Some(of), Some(in_use)) = (item, in_use) {
        better_row::say(table, index, of.item, in_use, own);
    }
}

/// The yield that leads from AP to EP, and the EP unit cost, which is given back.
fn yield_cells(
    context: &Context<'_>,
    table: &TableLayout,
    index: usize,
    cost: &RowCost,
    item: Option<&OfItem<'_>>,
    in_use: Option<&ItemCost>,
    own: &mut Own<'_>,
) -> Option<Decimal> {
    let here = &table.sheet;
    if let (Some(_), Some(TrimYield::Main(part))) = (in_use, item.map(|of| &of.item.trim)) {
        let figures = context.costing.part(*part);
        let rate = figures.and_then(|part| part.rate).and_then(|rate| rate.unit_cost().ok());
        let cells = context.part_cell(*part, "Share of weight").zip(context.part_cell(*part, "Cost per gram"));
        if let (Some(figures), Some(rate), Some((share, per_gram))) = (figures, rate, cells) {
            own.figure("Yield used", Formula::number(share.from(here), figures.fraction), Look::Percent(1));
            own.say("Yield from", "yield test");
            if cost.kind == Kind::Mass {
                own.figure("EP per g, ml, each", Formula::number(per_gram.from(here), rate), context.unit_cost());
                return Some(rate);
            }
        }
        return None;
    }
    let fraction = yield_used(context, table, index, cost, (item, in_use), own);
    let ep = exact::div(cost.ap.money, cost.ap.per).and_then(|ap| exact::div(ap, fraction)).ok()?;
    let ap = table.own(index, "AP per g, ml, each").from(here);
    let used = table.own(index, "Yield used").from(here);
    own.figure("EP per g, ml, each", Formula::number(format!("{ap}/{used}"), ep), context.unit_cost());
    Some(ep)
}

/// The yield of a row where no trim test speaks, and where it is from.
fn yield_used(
    context: &Context<'_>,
    table: &TableLayout,
    index: usize,
    cost: &RowCost,
    (item, in_use): (Option<&OfItem<'_>>, Option<&ItemCost>),
    own: &mut Own<'_>,
) -> Decimal {
    let by_row = item.and_then(|of| {
        let cost = in_use.cloned().or_else(|| of.offers.cost_by(index, index, cost))?;
        Some(of.offers.yield_read(&cost))
    });
    let (fraction, from) = by_row.unwrap_or((Decimal::ONE, YieldFrom::None));
    if let YieldFrom::PriceRow(row) = from
        && let Some(text) = yield_formula(context, row, &table.sheet)
    {
        own.figure("Yield used", Formula::number(text, fraction), Look::Percent(1));
        let cell = table.input(row, Column::Yield).map(|cell| cell.cell()).unwrap_or_default();
        own.say("Yield from", if row == index { "this row".to_owned() } else { cell });
        return fraction;
    }
    own.put("Yield used", Content::Number(fraction), Ink::Reading, Look::Percent(1));
    let none = || "none stated".to_owned();
    own.say(
        "Yield from",
        match from {
            YieldFrom::Piece(row) => {
                let cell = context.input(TableKind::Measures, row, Column::Measure);
                cell.map_or_else(none, |cell| format!("weight of a piece, {}", cell.spoken()))
            }
            YieldFrom::Reference(food) => food.spoken(),
            _ => none(),
        },
    );
    fraction
}

/// What one of the units costs by which the item is bought, from what a base unit does.
fn cost_per_unit(
    context: &Context<'_>,
    table: &TableLayout,
    index: usize,
    [from, to]: [&'static str; 2],
    (unit_cost, size): (Decimal, Decimal),
    own: &mut Own<'_>,
) {
    if let Ok(cost) = exact::mul(unit_cost, size) {
        let cell = |header| table.own(index, header).from(&table.sheet);
        let text = format!("{}*{}", cell(from), cell("Units per cost unit"));
        own.figure(to, Formula::number(text, cost), context.cost_per_unit());
    }
}

/// The yield cell of a price row as a formula on `sheet` reads it.
pub fn yield_formula(context: &Context<'_>, row: usize, sheet: &str) -> Option<String> {
    let typed = context.kitchen.entries.prices.get(row)?.input.typed(Column::Yield);
    let cell = context.input(TableKind::Prices, row, Column::Yield)?.from(sheet);
    fraction_from(typed, &cell, BareRule::UpToOne)
}

/// Where an item's price came from, in words: the row, or the yield test's.
pub fn price_from(context: &Context<'_>, cost: &ItemCost) -> String {
    match cost.from {
        PriceFrom::Row(row) => context.input(TableKind::Prices, row, Column::Price).map(|cell| cell.spoken()),
        PriceFrom::TestRow(row) => context.input(TableKind::YieldTests, row, Column::Price).map(|cell| cell.spoken()),
        PriceFrom::Water => Some("water costs nothing unless priced".to_owned()),
    }
    .unwrap_or_default()
}
