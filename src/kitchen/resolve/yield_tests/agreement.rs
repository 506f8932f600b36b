//! Agreement of the runs of a yield test on how a part is charged. Money is compared per gram, so that one run may be
//! weighed in pounds and another in ounces, and whether a currency sign was typed says nothing.

use crate::kitchen::Field;
use crate::kitchen::name::NameKey;
use crate::kitchen::reuse::PerWeight;
use crate::kitchen::yield_test::{Charged, InsteadOf, TestRow, ValueGiven};
use crate::number::{Decimal, exact};

/// Whether two runs say the same of a part's charge.
pub(super) fn agree(a: &TestRow, b: &TestRow) -> bool {
    charge(a) == charge(b)
        && same(&value(a), &value(b))
        && same(&further_cost(a), &further_cost(b))
        && match (a.instead_of.given(), b.instead_of.given()) {
            (Some(a), Some(b)) => stands_for_the_same(a, b),
            (a, b) => a.is_none() && b.is_none(),
        }
}

/// A blank is free.
fn charge(row: &TestRow) -> Option<Charged> {
    row.charge.given().copied().filter(|charge| *charge != Charged::Free)
}

/// What a cell is worth.
enum CellWorth<'a> {
    Nothing,
    /// A fraction of the AP price.
    Fraction(Decimal),
    /// Money for so many grams.
    PerWeight(Decimal, Decimal),
    /// What is no money by weight.
    Other(&'a Field<ValueGiven>),
}

fn value(row: &TestRow) -> CellWorth<'_> {
    match row.value.given() {
        None => CellWorth::Nothing,
        Some(ValueGiven::Percent(fraction)) => CellWorth::Fraction(*fraction),
        Some(_) => match row.sales_value() {
            Some(PerWeight { money, grams }) => CellWorth::PerWeight(money, grams),
            None => CellWorth::Other(&row.value),
        },
    }
}

/// A blank is nothing.
fn further_cost(row: &TestRow) -> CellWorth<'static> {
    let cost = row.further_cost.given().copied().unwrap_or_default();
    match row.weight.given() {
        Some(weight) if !cost.is_zero() => CellWorth::PerWeight(cost, weight.unit_grams),
        _ => CellWorth::Nothing,
    }
}

fn same(a: &CellWorth<'_>, b: &CellWorth<'_>) -> bool {
    match (a, b) {
        (CellWorth::Nothing, CellWorth::Nothing) => true,
        (CellWorth::Fraction(a), CellWorth::Fraction(b)) => a == b,
        (CellWorth::PerWeight(a, of_a), CellWorth::PerWeight(b, of_b)) => same_ratio((*a, *of_a), (*b, *of_b)),
        (CellWorth::Other(a), CellWorth::Other(b)) => a == b,
        _ => false,
    }
}

/// Whether a ÷ b is c ÷ d, by their products.
fn same_ratio((a, b): (Decimal, Decimal), (c, d): (Decimal, Decimal)) -> bool {
    match (exact::mul(a, d), exact::mul(c, b)) {
        (Ok(left), Ok(right)) => left == right,
        _ => (a, b) == (c, d),
    }
}

/// As much of the same item for as much of the part.
fn stands_for_the_same(a: &InsteadOf, b: &InsteadOf) -> bool {
    let same_units = a.amount.unit == b.amount.unit && a.per.unit == b.per.unit;
    let same_item = NameKey::of(&a.item) == NameKey::of(&b.item);
    same_item && (a == b || same_units && same_ratio((a.amount.amount, a.per.amount), (b.amount.amount, b.per.amount)))
}
