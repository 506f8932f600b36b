//! Charges of the parts of a test: words and values checked and turned into something to compute with.

use super::agreement::agree;
use super::{reuse, unused};
use crate::kitchen::resolve::lookups::Lookups;
use crate::kitchen::reuse::PerWeight;
use crate::kitchen::yield_test::{Charge, Charged, JointMethod, Role, Test, TestRow, ValueGiven, net_value};
use crate::kitchen::{Entries, Field};
use crate::number::Decimal;
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// A fault and the column that it belongs to.
type Misfit = (Column, Fault);

/// Settles the joint method and every part's charge.
pub(super) fn settle(test: &mut Test, entries: &Entries, lookups: &Lookups, problems: &mut Vec<Problem>) {
    check_placement(test, entries, problems);
    unused::tell(test, entries, problems);
    if test.broken {
        return;
    }
    let first_row = |rows: &[usize]| rows.first().and_then(|index| entries.tests.get(*index));
    if let Err((row, (column, fault))) = settle_joint(test, entries) {
        test.broken = true;
        problems.push(fault.at(row.input.place(column)));
        return;
    }
    let joint = test.joint;
    let keyed = test.parts.iter().filter(|part| takes_joint_share(first_row(&part.rows), part.role)).count() > 1;
    for part in &mut test.parts {
        let Some(row) = first_row(&part.rows) else { continue };
        let differs = part.rows.iter().filter_map(|index| entries.tests.get(*index)).find(|other| !agree(row, other));
        if let Some(other) = differs {
            test.broken = true;
            problems.push(
                Fault::new(
                    Code::ChargeConflict,
                    format!("“{}” is charged otherwise in another run of “{}”", part.name, test.name),
                    "Give it the same Charged as, Value, Further cost and Instead of in every run.",
                )
                .at(other.input.place(Column::ChargedAs)),
            );
            continue;
        }
        let charge = if takes_joint_share(Some(row), part.role) {
            // The key of a lone main does not matter: it takes all that remains.
            joint_charge(row, if keyed { joint } else { JointMethod::Weight })
        } else {
            fixed_charge(row, lookups)
        };
        match charge {
            Ok(charge) => {
                if let Charge::Joint { money, .. } = &charge
                    && *money <= Decimal::ZERO
                {
                    problems.push(worthless(row, joint));
                }
                part.charge = floor_at_zero(charge);
            }
            Err((column, fault)) => {
                test.broken = true;
                problems.push(fault.at(row.input.place(column)));
            }
        }
    }
    check_keys(test, problems);
}

fn takes_joint_share(row: Option<&TestRow>, role: Role) -> bool {
    let joint = row.is_some_and(|row| matches!(row.charge, Field::Given(Charged::Joint(_))));
    role == Role::Main || (role == Role::ByProduct && joint)
}

/// Only mains and by-products can be charged, and a value needs to say how.
fn check_placement(test: &mut Test, entries: &Entries, problems: &mut Vec<Problem>) {
    let part_rows = test.parts.iter().flat_map(|part| part.rows.iter().map(move |row| (part.role, *row)));
    let run_rows = test.runs.iter().map(|run| (Role::AsPurchased, run.row));
    let added_rows = test.added.iter().map(|added| (Role::Added, added.row));
    let mut broken = false;
    for (role, index) in part_rows.chain(run_rows).chain(added_rows) {
        let Some(row) = entries.tests.get(index) else { continue };
        let charge = row.charge.given();
        let misfit = match (role, charge) {
            (Role::Main, Some(Charged::Joint(_)) | None) | (Role::ByProduct, Some(_)) => None,
            (Role::ByProduct, None) if row.value.given().is_some() => Some((
                Column::Value,
                Fault::new(
                    Code::ValueUncharged,
                    format!("“{}” has a value but does not say how it is charged", row.part),
                    "Type one of the seven ways in Charged as: price (the value is money per Unit), fraction (a percentage), \
                     by sales value or net realizable value (what a Unit of it sells for); market, by weight and free \
                     need no value.",
                ),
            )),
            (Role::ByProduct, None) => None,
            (_, Some(charge)) => Some((
                Column::ChargedAs,
                Fault::new(
                    Code::ChargeMisplaced,
                    format!("a row whose Role is {} cannot be charged as {}", role.word(), charge.word()),
                    "Clear Charged as, or set Role to by-product.",
                ),
            )),
            (_, None) => None,
        };
        if let Some((column, fault)) = misfit {
            broken = true;
            problems.push(fault.at(row.input.place(column)));
        }
    }
    test.broken |= broken;
}

/// One test has one joint method; where none is named, mains share by sales value when each has one, else by weight.
fn settle_joint<'a>(test: &mut Test, entries: &'a Entries) -> Result<(), (&'a TestRow, Misfit)> {
    let mut named: Option<JointMethod> = None;
    let rows = test.parts.iter().filter_map(|part| Some((part.role, entries.tests.get(*part.rows.first()?)?)));
    let mut mains = 0_usize;
    let mut valued = 0_usize;
    for (role, row) in rows {
        if role == Role::Main {
            mains = mains.saturating_add(1);
            valued = valued.saturating_add(usize::from(row.value.given().is_some()));
        }
        let Some(Charged::Joint(method)) = row.charge.given() else { continue };
        match named {
            Some(known) if known != *method => {
                let fault = Fault::new(
                    Code::JointMixed,
                    format!("“{}” is charged {} and {} in one test", test.name, known.word(), method.word()),
                    "Keep one joint method for all mains and joint by-products of a test.",
                );
                return Err((row, (Column::ChargedAs, fault)));
            }
            _ => named = Some(*method),
        }
    }
    let unnamed = if mains > 1 && mains == valued { JointMethod::SalesValue } else { JointMethod::Weight };
    test.joint = named.unwrap_or(unnamed);
    Ok(())
}

/// Money and grams of a value that is money per weight.
fn money_per_grams(row: &TestRow) -> Result<(Decimal, Decimal), Misfit> {
    if row.weight.given().is_none() {
        return Err((Column::Weight, missing_value(row, "a weight")));
    }
    if let Some(PerWeight { money, grams }) = row.sales_value() {
        return Ok((money, grams));
    }
    match row.value.given() {
        Some(ValueGiven::Money { per: Some(unit), .. }) => Err((
            Column::Value,
            Fault::new(
                Code::UnitUnknown,
                format!("a part's value is per weight, not per {}", unit.name()),
                "Write it per lb, oz, kg or g.",
            ),
        )),
        Some(ValueGiven::Percent(_)) => Err((
            Column::Value,
            Fault::new(
                Code::ValueMissing,
                format!("“{}” needs money here, not a percentage", row.part),
                "Write the money per Unit, such as $1.20; for a percentage of the AP price, type fraction in Charged as.",
            ),
        )),
        _ => Err((Column::Value, missing_value(row, "money per Unit"))),
    }
}

fn missing_value(row: &TestRow, what: &str) -> Fault {
    Fault::new(
        Code::ValueMissing,
        format!("“{}” needs a value: {what}", row.part),
        "Fill the Value column, or change Charged as.",
    )
}

fn joint_charge(row: &TestRow, method: JointMethod) -> Result<Charge, Misfit> {
    match method {
        JointMethod::Weight => Ok(Charge::Joint { money: Decimal::ONE, grams: Decimal::ONE }),
        JointMethod::SalesValue => {
            let (money, grams) = money_per_grams(row)?;
            Ok(Charge::Joint { money, grams })
        }
        JointMethod::NetRealizableValue => {
            let (money, grams) = money_per_grams(row)?;
            let unit_grams = row.weight.given().map_or(grams, |weight| weight.unit_grams);
            let further = row.further_cost.given().copied().unwrap_or(Decimal::ZERO);
            let net = net_value((money, grams), (further, unit_grams))
                .map_err(|_| (Column::Value, missing_value(row, "one that can be computed with")))?;
            Ok(Charge::Joint { money: net, grams })
        }
    }
}

fn fixed_charge(row: &TestRow, lookups: &Lookups) -> Result<Charge, Misfit> {
    match row.charge.given() {
        None | Some(Charged::Free | Charged::Joint(_)) => Ok(Charge::Free),
        Some(Charged::Fraction) => match row.value.given() {
            Some(ValueGiven::Percent(share) | ValueGiven::Bare(share)) => Ok(Charge::Fraction(*share)),
            Some(ValueGiven::Money { .. }) => Err((
                Column::Value,
                Fault::new(
                    Code::ValueMissing,
                    format!("“{}” is charged at a fraction of the AP price, so its value is a percentage", row.part),
                    "Write a percentage such as 30%, or type price in Charged as.",
                ),
            )),
            None => Err((Column::Value, missing_value(row, "a percentage of the AP price"))),
        },
        Some(Charged::Price) => money_per_grams(row).map(|(money, grams)| Charge::Price { money, grams }),
        Some(Charged::Market) => market(row, lookups),
    }
}

fn market(row: &TestRow, lookups: &Lookups) -> Result<Charge, Misfit> {
    if let Some(instead) = row.instead_of.given() {
        let buy_in = reuse::instead_of(instead, lookups).map_err(|fault| (Column::InsteadOf, fault))?;
        return Ok(Charge::Market(buy_in));
    }
    match reuse::of_own_name(&row.part, lookups) {
        Some(buy_in) => Ok(Charge::Market(buy_in)),
        None => Err((
            Column::ChargedAs,
            Fault::new(
                Code::NoBuyIn,
                format!("“{}” is charged at market, but nothing says what it would cost to buy", row.part),
                "Fill Instead of (such as 2 oz Shellfish base per lb), or add a price row of this name.",
            ),
        )),
    }
}

fn worthless(row: &TestRow, method: JointMethod) -> Problem {
    let (why, help) = match method {
        JointMethod::NetRealizableValue => (" once its further cost is taken off", "Check Value and Further cost."),
        JointMethod::SalesValue | JointMethod::Weight => ("", "Check Value."),
    };
    let message = format!("“{}” is worth nothing{why}, so it takes none of the joint cost", row.part);
    Fault::new(Code::ValueNegative, message, help).at(row.input.place(Column::Value))
}

fn floor_at_zero(charge: Charge) -> Charge {
    match charge {
        Charge::Joint { money, grams } => Charge::Joint { money: money.max(Decimal::ZERO), grams },
        other => other,
    }
}

/// The joint remainder needs something to be spread over.
fn check_keys(test: &mut Test, problems: &mut Vec<Problem>) {
    let any = test.parts.iter().any(|part| {
        part.grams > Decimal::ZERO && matches!(&part.charge, Charge::Joint { money, .. } if *money > Decimal::ZERO)
    });
    if !any && !test.broken {
        test.broken = true;
        problems.push(test.nothing_to_share_by().at(test.place.clone()));
    }
}
