//! Weights on an invoice and the unit that they are in, where its column does not say: that in which the packs of fixed
//! weight weigh what they say.

use crate::book::Table;
use crate::measure::{Unit, parse_pack};
use crate::number::{Decimal, Marks, exact};
use crate::schema::{Column, TableKind, Typed, Value};

/// The unit that the column *Weight* of a table of prices is in: pounds or kilos, where every line that can tell says the
/// same; nothing where none can.
pub(super) fn unit_of(table: &Table<'_>) -> Option<Unit> {
    if table.kind != TableKind::Prices {
        return None;
    }
    table.heading(Column::Weight)?;
    let mut votes = table.rows.iter().filter_map(|row| {
        let number = |column| match &table.cell(row, column).value {
            Value::Number(number) if !number.is_zero() => Some(*number),
            Value::Text(text) => text.trim().parse::<Decimal>().ok().filter(|number| !number.is_zero()),
            _ => None,
        };
        let typed: &Typed = table.cell(row, Column::Pack);
        let Value::Text(text) = &typed.value else { return None };
        let pack = parse_pack(text, Marks::Unknown).ok().filter(|pack| !pack.nominal)?;
        let content = pack.content?;
        let all = exact::mul(number(Column::Qty)?, exact::mul(content.amount, content.unit.grams()?).ok()?).ok()?;
        let weight = number(Column::Weight)?;
        ["lb", "kg"].into_iter().filter_map(Unit::parse).find(|unit| {
            let weighed = unit.grams().and_then(|size| exact::mul(weight, size).ok());
            weighed.is_some_and(|weighed| exact::is_near(weighed, all))
        })
    });
    let first = votes.next()?;
    votes.all(|unit| unit == first).then_some(first)
}
