//! Rows of the control table and of the stock counts.

use super::reader::Reader;
use crate::kitchen::Field;
use crate::kitchen::plan::{ControlRow, CountRow};
use crate::measure::{Measured, Unit};
use crate::problem::{Code, Fault};
use crate::schema::Column;

/// Reads a row of the control table.
pub(super) fn period(mut reader: Reader<'_>) -> ControlRow {
    let (first_day, mut last_day) = (reader.date(Column::FirstDay), reader.date(Column::LastDay));
    if let (Field::Given(first), Field::Given(last)) = (&first_day, &last_day)
        && last < first
    {
        let fault = Fault::new(
            Code::UntilBeforeDate,
            format!("To is {last}, before the period begins on {first}"),
            "Correct the one or the other.",
        );
        last_day = reader.fail(Column::LastDay, fault);
    }
    ControlRow {
        period: reader.text(Column::Period).unwrap_or_default(),
        first_day,
        last_day,
        opening: reader.money(Column::Opening),
        purchases: reader.money(Column::Purchases),
        closing: reader.money(Column::Closing),
        transfers_in: reader.money(Column::TransfersIn),
        transfers_out: reader.money(Column::TransfersOut),
        staff_meals: reader.money(Column::StaffMeals),
        comps: reader.money(Column::Comps),
        waste: reader.money(Column::WasteLogged),
        trim_sold: reader.money(Column::TrimSold),
        sales: reader.money(Column::Sales),
        input: reader.input,
    }
}

/// Reads a row of the counts; `None` when it names no item.
pub(super) fn count(mut reader: Reader<'_>) -> Option<CountRow> {
    let item = reader.name(Column::Item)?;
    let unit = reader.unit_beside(Column::Unit);
    let mut counted = |column| counted(&mut reader, column, &unit);
    let (opening, closing) = (counted(Column::OpeningCount), counted(Column::ClosingCount));
    let (purchased, thrown) = (counted(Column::PurchasedCount), counted(Column::Thrown));
    let (came_in, went_out) = (counted(Column::CameIn), counted(Column::WentOut));
    let paid = reader.money(Column::Paid);
    let group = reader.text(Column::Group).unwrap_or_default();
    Some(CountRow { item, opening, purchased, came_in, went_out, closing, thrown, paid, group, input: reader.input })
}

fn counted(reader: &mut Reader<'_>, column: Column, unit: &Field<Unit>) -> Field<Measured> {
    match unit {
        Field::Broken => Field::Broken,
        unit => reader.counted(column, unit.given()),
    }
}
