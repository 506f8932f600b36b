//! Rows of the menu, the plan and the stock list.

use super::amounts::Quantity;
use super::reader::Reader;
use crate::book::dates;
use crate::kitchen::Field;
use crate::kitchen::menu::MenuRow;
use crate::kitchen::plan::{PlanRow, StockRow};
use crate::number::{BareRule, Decimal, plain};
use crate::problem::{Code, Fault};
use crate::schema::{Column, Typed, Value};

/// Reads a menu row; `None` when it names no dish.
pub(super) fn row(mut reader: Reader<'_>) -> Option<MenuRow> {
    let dish = reader.name(Column::Dish)?;
    if let (Some(group), true) = (reader.group.clone(), reader.input.typed(Column::Group).is_blank()) {
        reader.input.set(Column::Group, Typed::text(group));
    }
    let (recipe, portion) = (reader.text(Column::Recipe).unwrap_or_default(), reader.portion());
    let (menu_price, tax) = (reader.money(Column::MenuPrice), reader.percent(Column::Tax, BareRule::BelowOne));
    let target = reader.share(Column::Target, BareRule::UpToOne, false);
    let group = reader.text(Column::Group).unwrap_or_default();
    let sold = reader.number(Column::Sold);
    let mut row = MenuRow { dish, recipe, portion, menu_price, target, tax, group, sold, input: reader.input.clone() };
    // A list of sales takes off what was given back; what a dish itself says cannot be below nothing.
    if let Field::Given(sold) = row.sold
        && sold < Decimal::ZERO
        && !row.is_sales_alone()
    {
        let fault = reader.below_zero(Column::Sold, &plain(sold));
        row.sold = reader.fail(Column::Sold, fault);
    }
    Some(row)
}

/// Reads a row of the plan; `None` when it names no dish.
pub(super) fn plan(mut reader: Reader<'_>) -> Option<PlanRow> {
    let dish = reader.name(Column::Dish)?;
    let portions = reader.count(Column::Portions);
    // Portions of nobody knows which day are not planned.
    let (day, portions) = match reader.text(Column::Day) {
        Some(day) => (day, portions),
        None => (String::new(), Field::Broken),
    };
    let date = match reader.input.typed(Column::Day).value {
        Value::Date(date) => Some(date),
        _ => dates::parse(&day),
    };
    Some(PlanRow { dish, portions, day, date, input: reader.input })
}

/// Reads a row of the stock list; `None` when it names no item.
pub(super) fn stock(mut reader: Reader<'_>) -> Option<StockRow> {
    let item = reader.name(Column::Item)?;
    let on_hand = match reader.quantity(Column::OnHand, Column::Unit) {
        Field::Given(Quantity::Measured(measured)) => Field::Given(measured),
        Field::Given(Quantity::Bare(number)) => {
            let fault = reader.unit_missing(Column::OnHand, &plain(number));
            reader.fail(Column::OnHand, fault)
        }
        Field::Given(Quantity::Words(words)) => {
            let fault =
                Fault::new(Code::NotANumber, format!("On hand is “{words}”"), "Type how much there is, such as 12 lb.");
            reader.fail(Column::OnHand, fault)
        }
        Field::Blank => Field::Blank,
        Field::Broken => Field::Broken,
    };
    let on_order = reader.measured_beside(Column::OnOrder, Column::Unit);
    Some(StockRow { item, on_hand, on_order, input: reader.input })
}
