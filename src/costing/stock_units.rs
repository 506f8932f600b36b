//! Units of the stock list and of the counts: one that nothing leads from to that of the price is told at its cell, once a row,
//! for what stands on it counts as nothing, or is not known.

use std::collections::HashSet;

use super::Costing;
use super::conversion::package;
use super::yield_test::input_cost::on_hand;
use crate::kitchen::plan::CountRow;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::{InputRow, Kitchen};
use crate::measure::{Measured, Unit};
use crate::problem::{Code, Place, Problem};
use crate::schema::Column;

/// An amount of the stock list or the counts.
struct StockCell<'a> {
    input: &'a InputRow,
    column: Column,
    source: IngredientSource,
    amount: &'a Measured,
}

/// What is wrong with any of them, and what was taken for granted.
pub(super) fn problems(kitchen: &Kitchen, costing: &Costing) -> Vec<Problem> {
    let mut told: HashSet<(&Place, String)> = HashSet::new();
    let mut problems = Vec::new();
    for cell in cells(kitchen) {
        let found = match on_hand(kitchen, costing, cell.source, cell.amount) {
            Ok(_) => cell.assumed(kitchen, costing),
            Err(stop) => stop.at(cell.input.place(cell.column)),
        };
        let Some(mut problem) = found else { continue };
        if problem.code == Code::UnitUnknown && Unit::read(&cell.input.text(Column::Unit)) == cell.amount.unit {
            problem.place = cell.input.unit_place(cell.column);
        }
        if told.insert((&cell.input.place, problem.message())) {
            problems.push(problem);
        }
    }
    problems
}

impl StockCell<'_> {
    /// What its package word was taken for.
    fn assumed(&self, kitchen: &Kitchen, costing: &Costing) -> Option<Problem> {
        let IngredientSource::Bought(id) = self.source else { return None };
        let (item, cost) = (kitchen.item(id)?, costing.item(id)?);
        let fault = package::assumed_whole(kitchen, item, cost, &self.amount.unit)?;
        Some(fault.at(self.input.place(self.column)))
    }
}

fn cells(kitchen: &Kitchen) -> impl Iterator<Item = StockCell<'_>> {
    let entries = &kitchen.entries;
    let stock = kitchen.stock.iter().filter_map(|held| {
        let input = &entries.stock.get(held.row)?.input;
        Some(StockCell { input, column: Column::OnHand, source: held.source, amount: held.amount.as_ref()? })
    });
    let on_order = kitchen.on_order.iter().filter_map(|ordered| {
        let input = &entries.stock.get(ordered.row)?.input;
        let source = IngredientSource::Bought(ordered.item);
        Some(StockCell { input, column: Column::OnOrder, source, amount: ordered.amount.as_ref()? })
    });
    let counts = kitchen.counts.iter().flat_map(|count| {
        let row = entries.counts.get(count.row);
        row.into_iter().flat_map(counted).map(|(input, column, amount)| StockCell {
            input,
            column,
            source: count.source,
            amount,
        })
    });
    stock.chain(on_order).chain(counts)
}

/// What was counted in a row.
fn counted(row: &CountRow) -> impl Iterator<Item = (&InputRow, Column, &Measured)> {
    let fields = [
        (Column::OpeningCount, &row.opening),
        (Column::PurchasedCount, &row.purchased),
        (Column::CameIn, &row.came_in),
        (Column::WentOut, &row.went_out),
        (Column::ClosingCount, &row.closing),
        (Column::Thrown, &row.thrown),
    ];
    fields.into_iter().filter_map(|(column, field)| Some((&row.input, column, field.given()?)))
}
