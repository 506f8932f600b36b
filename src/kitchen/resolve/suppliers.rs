//! Suppliers of the table of that name, held against those of the price rows, and against each other.

use std::collections::{HashMap, HashSet};

use crate::kitchen::supplier::SupplierTerms;
use crate::kitchen::{Entries, NameKey};
use crate::problem::names::Names;
use crate::problem::{Code, Fault, Problem, THERE};
use crate::schema::Column;

/// Tells of suppliers that no price row names, and of two minima for one.
pub(super) fn check(entries: &Entries, problems: &mut Vec<Problem>) {
    if entries.suppliers.is_empty() {
        return;
    }
    let known: HashSet<NameKey> = entries.prices.iter().map(|row| NameKey::of(&row.supplier)).collect();
    let names: Names = entries.prices.iter().map(|row| row.supplier.as_str()).collect();
    let mut seen: HashMap<NameKey, &SupplierTerms> = HashMap::new();
    for row in &entries.suppliers {
        let key = NameKey::of(&row.supplier);
        if !known.contains(&key) {
            let message = format!("no price row is of “{}”, so its minimum order counts for nothing", row.supplier);
            let help = names
                .did_you_mean(&row.supplier)
                .unwrap_or_else(|| "Write the supplier as in the price list, or clear the row.".to_owned());
            problems.push(Fault::new(Code::SupplierUnknown, message, help).at(row.input.place(Column::Supplier)));
        }
        match seen.get(&key) {
            Some(first) if first.minimum != row.minimum => problems.push(said_twice(first, row)),
            Some(_) => {}
            None => {
                seen.insert(key, row);
            }
        }
    }
}

fn said_twice(first: &SupplierTerms, row: &SupplierTerms) -> Problem {
    let said = |row: &SupplierTerms| row.input.typed(Column::MinimumOrder).seen();
    Fault::new(
        Code::SettingTwice,
        format!("the minimum order of “{}” is “{}” here and “{}” at {THERE}", row.supplier, said(row), said(first)),
        "Keep one row for each supplier.",
    )
    .speaking_of(first.input.place(Column::MinimumOrder))
    .at(row.input.place(Column::MinimumOrder))
}
