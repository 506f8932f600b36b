//! Catch weights of one item on several lines of an invoice, each box with its weight and perhaps its own price: one price,
//! averaged by weight.

use std::collections::BTreeMap;

use crate::kitchen::price::{Price, PriceRow};
use crate::kitchen::{Field, NameKey};
use crate::measure::{Measured, Unit};
use crate::number::{Decimal, exact, plain};
use crate::problem::{Code, Fault, Problem};
use crate::schema::{Column, Typed, Value};

/// Several lines that are one price.
pub(super) struct Averaged {
    /// The line that stands for all of them, by its place among the rows.
    pub(super) kept: usize,
    /// What it becomes: what all of them cost, for all that they weigh.
    pub(super) row: PriceRow,
    /// The other lines.
    pub(super) others: Vec<usize>,
    /// What is told of it.
    pub(super) note: Problem,
}

/// The lines among `rows` of one table that speak of one item, supplier, code, pack and day, go by the same unit of weight,
/// say what they weighed, and differ in their price.
pub(super) fn averaged(rows: &[&PriceRow]) -> Vec<Averaged> {
    let mut groups: BTreeMap<(NameKey, NameKey, String, String), Vec<usize>> = BTreeMap::new();
    for (at, row) in rows.iter().enumerate().filter(|(_, row)| weighed(row).is_some()) {
        let (pack, date) = (row.input.text(Column::Pack), row.input.text(Column::Date));
        let key = (NameKey::of(&row.item), NameKey::of(&row.supplier), row.code.to_lowercase(), pack + &date);
        groups.entry(key).or_default().push(at);
    }
    groups.into_values().filter_map(|group| average(rows, &group)).collect()
}

/// The unit that a row goes by, what it weighed, and its price for one.
fn weighed(row: &PriceRow) -> Option<(Unit, Decimal, Decimal)> {
    let per = row.per.given().filter(|per| per.amount == Decimal::ONE && per.unit.grams().is_some())?;
    let Price::Money(price) = *row.price.given()? else { return None };
    let weight = match &row.input.typed(Column::Weight).value {
        Value::Number(number) => *number,
        Value::Text(text) => text.trim().parse().ok()?,
        _ => return None,
    };
    (weight > Decimal::ZERO).then(|| (per.unit.clone(), weight, price))
}

fn average(rows: &[&PriceRow], group: &[usize]) -> Option<Averaged> {
    let lines: Vec<(Unit, Decimal, Decimal)> = group.iter().filter_map(|at| weighed(rows.get(*at).copied()?)).collect();
    let ((unit, _, price), (kept, others)) = (lines.first()?, group.split_first()?);
    if lines.iter().any(|(other, ..)| other != unit) || lines.iter().all(|(_, _, other)| other == price) {
        return None;
    }
    let weight = exact::sum(lines.iter().map(|(_, weight, _)| *weight)).ok()?;
    let money = lines.iter().map(|(_, weight, price)| exact::mul(*weight, *price)).collect::<Result<Vec<_>, _>>();
    let money = exact::sum(money.ok()?).ok()?;
    let mut row = (*rows.get(*kept)?).clone();
    let place = row.input.place(Column::Weight);
    let all = Measured::new(weight.normalize(), unit.clone());
    let shown = row.input.typed(Column::Price).shown.clone();
    row.input.set(Column::Price, Typed { value: Value::Number(money.normalize()), shown });
    row.input.set(Column::Per, Typed::text(all.to_string()));
    row.input.cells.retain(|cell| !matches!(cell.column, Column::Qty | Column::Weight | Column::Extended));
    let note = Fault::new(
        Code::CatchWeightsAveraged,
        format!(
            "{} lines of “{}” were averaged by weight: {} for {all}",
            lines.len(),
            row.item,
            plain(money.normalize())
        ),
        "Nothing to do, unless one of them is another kind of it: then give that one another name or code.",
    )
    .at(place);
    row.price = Field::Given(Price::Money(money));
    row.per = Field::Given(all);
    Some(Averaged { kept: *kept, row, others: others.to_vec(), note })
}
