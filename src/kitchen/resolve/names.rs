//! Names of the table *Names*: what else bought items, parts and recipes are called.

use super::lookups::Lookups;
use crate::kitchen::Entries;
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// Registers the other names; items, recipes and parts must be known.
pub(super) fn list(entries: &Entries, lookups: &mut Lookups, problems: &mut Vec<Problem>) {
    for row in &entries.names {
        if !lookups.is_known(&row.item) {
            problems.push(lookups.unknown(&row.item).at(row.input.place(Column::Item)));
            continue;
        }
        for alias in &row.aliases {
            if !lookups.also(alias, &row.item) {
                let fault = Fault::new(
                    Code::AliasTwice,
                    format!("“{alias}” is also the name of something else"),
                    format!("Take it out of Also called of “{}”, or of the other.", row.item),
                );
                problems.push(fault.at(row.input.place(Column::AlsoCalled)));
            }
        }
    }
}
