//! Names that are not in the book and stand only where nothing is costed: salt to taste, a brine. One note a name,
//! however often it is used: what is to be done is done once.

use std::collections::HashMap;

use super::lookups::{Lookups, WASTE_USED};
use crate::kitchen::NameKey;
use crate::problem::{Code, Fault, Place, Problem};

/// The names met, in the order in which they were first met.
#[derive(Debug, Default)]
pub(super) struct UncostedNames {
    names: Vec<UncostedName>,
    at: HashMap<NameKey, usize>,
}

/// One of them.
#[derive(Debug)]
struct UncostedName {
    name: String,
    first: Place,
    lines: usize,
}

impl UncostedNames {
    /// Takes a name that is not in the book, at a line without cost.
    pub(super) fn take(&mut self, name: &str, place: Place) {
        let next = self.names.len();
        let at = *self.at.entry(NameKey::of(name)).or_insert(next);
        match self.names.get_mut(at) {
            Some(known) => known.lines += 1,
            None => self.names.push(UncostedName { name: name.to_owned(), first: place, lines: 1 }),
        }
    }

    /// The notes, each at the first line that has the name.
    pub(super) fn notes(self, lookups: &Lookups) -> impl Iterator<Item = Problem> {
        self.names.into_iter().map(|UncostedName { name, first, lines }| {
            let others = match lines - 1 {
                0 => String::new(),
                1 => ", here and on 1 other line".to_owned(),
                more => format!(", here and on {more} other lines"),
            };
            let message = format!("“{name}” is not costed and has no price row{others}: its allergens are not stated");
            let help = match lookups.suggestion(&name) {
                _ if lookups.is_wasted(&name) => WASTE_USED.to_owned(),
                Some(near) => format!("{near} If not, add a price row of this name to state its allergens."),
                None => "Add a price row of this name to state its allergens; if the price list has it under another \
                         name, type this one there under Also called."
                    .to_owned(),
            };
            Fault::new(Code::NameUncosted, message, help).at(first)
        })
    }
}
