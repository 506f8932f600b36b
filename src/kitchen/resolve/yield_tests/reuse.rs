//! Reuse of a part as its rows state it, over all its runs, and what it stands in for.

use crate::in_order::InOrder;
use crate::kitchen::resolve::lookups::Lookups;
use crate::kitchen::reuse::{BuyIn, Otherwise, PerWeight, Reuse};
use crate::kitchen::yield_test::{Charged, InsteadOf, Part, Test, TestRow};
use crate::kitchen::{Entries, Field};
use crate::measure::{Measured, Unit};
use crate::number::{Decimal, exact};
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// Settles every part of a test.
pub(super) fn settle(test: &mut Test, entries: &Entries, lookups: &Lookups, problems: &mut Vec<Problem>) {
    for part in &mut test.parts {
        let mut rows: Vec<&TestRow> = part.rows.iter().filter_map(|index| entries.tests.get(*index)).collect();
        // Stable, so that of one day the lower row stays behind.
        rows.put_in_order_by_key(|row| row.date.given().copied());
        part.reuse = Reuse {
            further_cost: newest(&rows, |row| &row.further_cost)
                .and_then(|(row, money)| Some(PerWeight { money: *money, grams: row.weight.given()?.unit_grams })),
            otherwise: newest(&rows, |row| &row.otherwise).map_or(Otherwise::Binned, |(_, otherwise)| *otherwise),
            eaten: newest(&rows, |row| &row.eaten).map_or(Decimal::ZERO, |(_, eaten)| *eaten),
            keeps: newest(&rows, |row| &row.keeps).map(|(_, days)| *days),
            unread: rows.iter().any(|row| {
                row.further_cost.is_broken()
                    || row.otherwise.is_broken()
                    || row.eaten.is_broken()
                    || row.keeps.is_broken()
                    || row.instead_of.is_broken()
            }),
        };
        name_buy_in(part, &rows, lookups, problems);
    }
}

/// What the newest run that says anything says, with its row.
fn newest<'a, T>(rows: &[&'a TestRow], field: impl Fn(&TestRow) -> &Field<T>) -> Option<(&'a TestRow, &'a T)> {
    rows.iter().rev().find_map(|row| Some((*row, field(row).given()?)))
}

/// *Instead of* first, else the item of the part's own name. That stays, for its allergens, where *Instead of* could not be
/// understood; what it would cost is not known then.
fn name_buy_in(part: &mut Part, rows: &[&TestRow], lookups: &Lookups, problems: &mut Vec<Problem>) {
    part.buy_in = of_own_name(&part.name, lookups);
    for row in rows {
        let Some(instead) = row.instead_of.given() else { continue };
        match instead_of(instead, lookups) {
            Ok(buy_in) => part.buy_in = Some(buy_in),
            Err(fault) => {
                part.reuse.unread = true;
                // A part charged at market reports this itself.
                if row.charge.given() != Some(&Charged::Market) {
                    problems.push(fault.at(row.input.place(Column::InsteadOf)));
                }
            }
        }
    }
}

/// The item of the part's own name, gram for gram.
pub(super) fn of_own_name(name: &str, lookups: &Lookups) -> Option<BuyIn> {
    let item = lookups.bought(name)?;
    Some(BuyIn { item, amount: Measured::new(Decimal::ONE, Unit::gram()), grams: Decimal::ONE })
}

/// What *Instead of* names.
///
/// # Errors
/// A fault when the item is not in the book, or the part is not given by weight.
pub(super) fn instead_of(instead: &InsteadOf, lookups: &Lookups) -> Result<BuyIn, Fault> {
    let item = lookups.bought(&instead.item).ok_or_else(|| lookups.unknown(&instead.item))?;
    let grams = instead.per.unit.grams().and_then(|grams| exact::mul(grams, instead.per.amount).ok());
    match grams {
        Some(grams) if grams > Decimal::ZERO => Ok(BuyIn { item, amount: instead.amount.clone(), grams }),
        _ => Err(Fault::new(
            Code::UnitUnknown,
            "what a by-product saves buying is given per weight of the by-product",
            "Write it like 2 oz Shellfish base per lb.",
        )),
    }
}
