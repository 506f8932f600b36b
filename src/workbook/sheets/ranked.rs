//! Ranking against target: the dishes ranked by food-cost %, and their picture.
//!
//! The ranking is that of the day of costing; its names and figures are live.

use crate::in_order::InOrder;
use crate::number::Decimal;
use crate::results::figures::percent_at_most;
use crate::workbook::cells::chart::{Labels, Picture, PictureKind, Series, Span, Tint};
use crate::workbook::cells::formula::{Formula, needed};
use crate::workbook::cells::row::{Cell, Ink, Look, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::sheet_names;
use crate::workbook::layout::summary_columns::SummaryColumn;

/// The most dishes that are ranked: as many as can be told apart in a picture.
const MOST: usize = 20;

/// The dishes with a food-cost %, the highest first.
fn ranked(context: &Context<'_>) -> Vec<(usize, Decimal)> {
    let dishes = context.costing.dishes.iter().enumerate();
    let mut ranked: Vec<(usize, Decimal)> =
        dishes.filter_map(|(index, dish)| Some((index, dish.as_ref()?.food_cost?))).collect();
    ranked.put_in_order_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(&b.0)));
    ranked.truncate(MOST);
    ranked
}

/// How many dishes are ranked; none where there is nothing to compare.
pub fn count(context: &Context<'_>) -> u32 {
    u32::try_from(ranked(context).len()).ok().filter(|dishes| *dishes > 1).unwrap_or_default()
}

/// The picture of the ranking below `row`, which stands at the row `at`; none where there is nothing to compare.
pub fn picture(context: &Context<'_>, row: u32, at: u32, size: (u32, u32)) -> Option<Picture> {
    let dishes = Some(count(context)).filter(|dishes| *dishes > 0)?;
    let span = |column: SummaryColumn| Span {
        column: column.column(),
        first: row.saturating_add(1),
        last: row.saturating_add(dishes),
    };
    let series = |name: &str, column, tint| Series::new(name, span(column), tint);
    Some(Picture {
        title: "Food cost against target".to_owned(),
        told: told(context),
        kind: PictureKind::Bars,
        at: (at, 0),
        size,
        names: span(SummaryColumn::Dish),
        series: vec![
            series("Food cost %", SummaryColumn::FoodCost, Tint::Food).labelled(Labels::Behind),
            series("Target %", SummaryColumn::Target, Tint::Target),
        ],
        names_look: Look::General,
        look: Look::Percent(0),
        axes: (None, None),
        begins: None,
    })
}

/// What the picture shows, in words.
fn told(context: &Context<'_>) -> String {
    let said = ranked(context).into_iter().filter_map(|(index, food_cost)| {
        let dish = context.kitchen.dishes.get(index)?;
        let target = dish.target.map(|target| format!(" of {} %", percent_at_most(target, 1))).unwrap_or_default();
        Some(format!("{} {} %{target}", dish.name, percent_at_most(food_cost, 1)))
    });
    format!(
        "Bars of each dish's food cost beside its target, the highest first: {}",
        said.collect::<Vec<String>>().join("; ")
    )
}

/// The ranking from `row` on: a heading, then a row a dish in the columns of the table above.
pub fn rows(context: &Context<'_>, row: u32, out: &mut RowSink<'_>) {
    use SummaryColumn as C;
    let ranked = ranked(context);
    if ranked.len() < 2 {
        return;
    }
    let mut cells = vec![Cell::text(C::Dish.column(), "From the highest food cost down", Ink::OwnHeader)];
    let between = [C::PortionCost, C::MenuPrice].map(|column| Cell::text(column.column(), "", Ink::OwnHeader));
    cells.extend(between);
    cells.extend([C::FoodCost, C::Target].map(|column| Cell::over_figures(column.column(), column.header())));
    out(Row { row, cells });
    for ((index, food_cost), row) in ranked.into_iter().zip(row.saturating_add(1)..) {
        let Some(dish) = context.kitchen.dishes.get(index) else { continue };
        let mut cells = vec![
            Cell {
                ink: Ink::Reading,
                ..Cell::figure(
                    C::Dish.column(),
                    Formula::text(C::Dish.cell(index).from(sheet_names::SUMMARY), &dish.name),
                    Look::General,
                )
            },
            Cell::figure(
                C::FoodCost.column(),
                Formula::number(needed(&C::FoodCost.cell(index).from(sheet_names::SUMMARY)), food_cost),
                Look::Percent(1),
            ),
        ];
        cells.extend(dish.target.map(|target| {
            let text = C::Target.cell(index).from(sheet_names::SUMMARY);
            Cell::figure(C::Target.column(), Formula::number(needed(&text), target), Look::Percent(1))
        }));
        out(Row { row, cells });
    }
}
