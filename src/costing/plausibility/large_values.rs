//! Values of parts that are far above what went in costs by weight: mostly money for a pound, on a row weighed in
//! ounces.
//!
//! Takes a test and what its input costs; gives warnings at the cell of the value.

use crate::costing::rate::Rate;
use crate::costing::yield_test::large_credits::money;
use crate::kitchen::Kitchen;
use crate::kitchen::yield_test::{Charged, JointMethod, Part, Role, Test, TestRow, TestWeight};
use crate::number::{Decimal, Overflow, exact, half_up, plain};
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// How many times what went in costs by weight a value may be that names no unit of its own.
const MOST: Decimal = Decimal::TEN;

/// The doubts of a test whose input costs `input` by weight; none where that is nothing.
pub(super) fn of_test(kitchen: &Kitchen, test: &Test, input: Rate) -> Vec<Problem> {
    let row = |part: &Part| part.rows.iter().filter_map(|row| kitchen.entries.tests.get(*row)).find_map(counted);
    let doubt = |(_, (row, amount, weight)): (Role, Counted<'_>)| {
        let fault = doubt(row, amount, weight, input).ok()??;
        Some(fault.at(row.input.place(Column::Value)))
    };
    let rows = test.parts.iter().filter_map(|part| Some((part.role, row(part)?)));
    rows.filter(|(role, (row, ..))| counts(*role, row)).filter_map(doubt).collect()
}

/// A row, its value and the weight whose unit the value counts for.
type Counted<'a> = (&'a TestRow, Decimal, &'a TestWeight);

/// A value that is money and names no unit: it counts for the unit of the row's weight.
fn counted(row: &TestRow) -> Option<Counted<'_>> {
    let (amount, per) = row.value.given()?.money()?;
    if per.is_some() { None } else { Some((row, amount, row.weight.given()?)) }
}

/// Whether the value is used as money.
fn counts(role: Role, row: &TestRow) -> bool {
    let by_value = [JointMethod::SalesValue, JointMethod::NetRealizableValue].map(Charged::Joint);
    match (role, row.charge.given()) {
        (Role::Main, _) => true,
        (Role::ByProduct, Some(charge)) => *charge == Charged::Price || by_value.contains(charge),
        _ => false,
    }
}

fn doubt(row: &TestRow, amount: Decimal, weight: &TestWeight, input: Rate) -> Result<Option<Fault>, Overflow> {
    // amount ÷ grams of its unit beside money ÷ grams of the input.
    let valued = exact::mul(amount, input.per)?;
    let cost = exact::mul(input.money, weight.unit_grams)?;
    if cost.is_zero() || valued <= exact::mul(cost, MOST)? {
        return Ok(None);
    }
    let (unit, one) = (weight.unit.name(), weight.unit.one());
    let times = plain(half_up(exact::div(valued, cost)?, 0));
    let message = format!(
        "the value of “{}” is {} {one}, {times} times what went in costs, {} {one}",
        row.part,
        money(amount),
        money(exact::div(cost, input.per)?)
    );
    let other = match unit.as_str() {
        "lb" | "g" | "mg" => "kg",
        _ => "lb",
    };
    let help = format!(
        "It counts by {one}, the unit of its weight. If it is money for another unit, write that behind it, such as {} / {other}.",
        money(amount)
    );
    Ok(Some(Fault::new(Code::ValueFarOverCost, message, help)))
}
