//! Money that stands on a row of a yield test where nothing asks for it: told, since whoever typed it meant something
//! by it.

use crate::kitchen::Entries;
use crate::kitchen::yield_test::{Charged, JointMethod, Role, Test, TestRow};
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// Notes every Value, Price and Further cost of a test that counts for nothing where it stands.
pub(super) fn tell(test: &Test, entries: &Entries, problems: &mut Vec<Problem>) {
    let parts = test.parts.iter().flat_map(|part| part.rows.iter().map(move |row| (part.role, *row)));
    let runs = test.runs.iter().map(|run| (Role::AsPurchased, run.row));
    let added = test.added.iter().map(|added| (Role::Added, added.row));
    for (role, index) in parts.chain(runs).chain(added) {
        let Some(row) = entries.tests.get(index) else { continue };
        let found = [
            (Column::Value, row.value.given().and_then(|_| of_value(role, row))),
            (Column::Price, row.price.given().and_then(|_| of_price(role, row))),
            (Column::FurtherCost, row.further_cost.given().and_then(|_| of_further_cost(role, row))),
        ];
        for (column, fault) in found {
            problems.extend(fault.map(|fault| fault.at(row.input.place(column))));
        }
    }
}

/// A main's is its sales value, and a by-product under a blank Charged as has an error of its own.
fn of_value(role: Role, row: &TestRow) -> Option<Fault> {
    let charge = row.charge.given().copied();
    let help = match (role, charge) {
        (Role::Main, _) | (Role::ByProduct, None | Some(Charged::Fraction | Charged::Price)) => return None,
        (Role::ByProduct, Some(Charged::Joint(JointMethod::SalesValue | JointMethod::NetRealizableValue))) => {
            return None;
        }
        (Role::ByProduct, Some(Charged::Free | Charged::Market | Charged::Joint(JointMethod::Weight))) => {
            "It is used only where the ways of charging are compared. To charge by it, type price (money per Unit) or fraction \
             (a percentage) in Charged as; else clear it."
        }
        (Role::Waste, _) => {
            "Waste bears no cost: clear the value. If somebody uses or buys it, set Role to by-product and say in Charged as \
             how it is charged."
        }
        (Role::AsPurchased | Role::Added, _) => "Clear it. What was paid goes into Price, or into the price list.",
    };
    let why = match (role, charge) {
        (Role::ByProduct, Some(charge)) => format!("it is charged as {}", charge.word()),
        _ => format!("its Role is {}", role.word()),
    };
    Some(Fault::new(Code::ValueUnused, format!("the value of “{}” is not used: {why}", row.part), help))
}

fn of_price(role: Role, row: &TestRow) -> Option<Fault> {
    let help = match role {
        Role::AsPurchased | Role::Added => return None,
        Role::Main | Role::Waste => "Clear it. Only what went in has a price; a main's sales value goes into Value.",
        Role::ByProduct => "To charge a by-product at a price, type price in Charged as and the money into Value.",
    };
    Some(Fault::new(
        Code::ValueUnused,
        format!("the price of “{}” is not used: its Role is {}", row.part, role.word()),
        help,
    ))
}

fn of_further_cost(role: Role, row: &TestRow) -> Option<Fault> {
    let part = matches!(role, Role::Main | Role::ByProduct);
    (!part).then(|| {
        Fault::new(
            Code::ValueUnused,
            format!("the further cost of “{}” is not used: its Role is {}", row.part, role.word()),
            "Clear it. Further cost is what makes a main or by-product ready for use or sale.",
        )
    })
}
