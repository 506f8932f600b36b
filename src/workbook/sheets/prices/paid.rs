//! What is paid in the end for what a price is for, as a formula: without the tax within the price, with further cost, less
//! credit.

use crate::kitchen::Field;
use crate::kitchen::price::PriceRow;
use crate::kitchen::settings::Setting;
use crate::number::BareRule;
use crate::schema::Column;
use crate::workbook::cells::formula::needed;
use crate::workbook::context::{Context, fraction_from};
use crate::workbook::layout::TableLayout;

/// What is paid at `price`, in the price row `index`.
pub(super) fn formula(
    context: &Context<'_>,
    table: &TableLayout,
    index: usize,
    row: &PriceRow,
    price: String,
) -> String {
    let cell = |column| table.input(index, column).map(|cell| cell.cell());
    let charges = &row.charges;
    let rate = charges.tax_within(context.kitchen.settings.price_tax).and_then(|_| match &charges.tax {
        Field::Given(_) => fraction_from(row.input.typed(Column::Tax), &cell(Column::Tax)?, BareRule::BelowOne),
        _ => context.settings.value(Setting::PriceTax).map(|cell| needed(&cell.from(&table.sheet))),
    });
    let net = rate.map_or_else(|| price.clone(), |rate| format!("{price}/(1+{rate})"));
    let moved = [('+', Column::FurtherCost, &charges.further), ('-', Column::Credit, &charges.credit)]
        .into_iter()
        .filter(|(_, _, amount)| amount.given().is_some())
        .filter_map(|(sign, column, _)| Some(format!("{sign}{}", cell(column)?)))
        .collect::<String>();
    if moved.is_empty() { net } else { format!("({net}{moved})") }
}
