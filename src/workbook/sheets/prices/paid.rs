//! What is paid in the end for what a price is for, as a formula: without the tax within the price, with further cost, less
//! credit.

use crate::kitchen::Field;
use crate::kitchen::price::PriceRow;
use crate::kitchen::settings::Setting;
use crate::number::BareRule;
use crate::schema::Column;
use crate::workbook::cells::formula::{not_below_nought, or_else};
use crate::workbook::context::{Context, share_from};
use crate::workbook::layout::TableLayout;

/// What is paid at `price`, in the price row `index`.
pub(super) fn formula(
    context: &Context<'_>,
    table: &TableLayout,
    index: usize,
    row: &PriceRow,
    price: String,
) -> String {
    let charges = &row.charges;
    // A blank one is nothing, and may be filled.
    let cell = |column, is_blank: bool| {
        table.input(index, column).filter(|_| table.roomy || !is_blank).map(|cell| cell.cell())
    };
    let within = context.settings.value(Setting::PriceTax).filter(|_| context.kitchen.settings.price_tax.is_some());
    let rate = within.map(|setting| {
        let setting = not_below_nought(&setting.from(&table.sheet));
        match cell(Column::Tax, charges.tax == Field::Blank) {
            Some(cell) => {
                // Where prices are without tax, a row's own is passed over.
                let own = share_from(row.input.typed(Column::Tax), &cell, BareRule::BelowOne);
                or_else(&cell, &or_else(&setting, &own, "0"), &setting)
            }
            None => setting,
        }
    });
    let net = rate.map_or_else(|| price.clone(), |rate| format!("{price}/(1+{rate})"));
    let moved = [('+', Column::FurtherCost, &charges.further), ('-', Column::Credit, &charges.credit)]
        .into_iter()
        .filter_map(|(sign, column, amount)| {
            Some(format!("{sign}{}", not_below_nought(&cell(column, *amount == Field::Blank)?)))
        })
        .collect::<String>();
    if moved.is_empty() { net } else { format!("({net}{moved})") }
}
