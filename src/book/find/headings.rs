//! Headings that mean more than what they mean in every book: in a supplier's list, whose columns are called what the
//! supplier calls them.

use std::collections::HashMap;

use crate::schema::Column;
use crate::schema::header::{normal, read};

/// How the header rows of a file are to be taken.
#[derive(Debug, Clone, Default)]
pub struct Headings {
    of_list: bool,
    mapped: HashMap<String, Column>,
}

impl Headings {
    /// Those of a supplier's list: every price table needs a price and an item or code, and each heading of `mapped`
    /// stands over its column, whatever else it might mean. Of two for one heading the first counts.
    pub fn of_list<'a>(mapped: impl IntoIterator<Item = (&'a str, Column)>) -> Self {
        let mut headings = Headings { of_list: true, mapped: HashMap::new() };
        for (heading, column) in mapped {
            headings.mapped.entry(normal(heading)).or_insert(column);
        }
        // A heading without a letter or digit would be every blank cell.
        headings.mapped.remove("");
        headings
    }

    /// Whether the file is a supplier's list.
    pub(super) fn is_list(&self) -> bool {
        self.of_list
    }

    /// Whether any heading is mapped.
    pub(super) fn any(&self) -> bool {
        !self.mapped.is_empty()
    }

    /// The column that a heading is mapped to, with or without what stands in its brackets.
    pub(super) fn column_of(&self, text: &str) -> Option<Column> {
        if self.mapped.is_empty() {
            return None;
        }
        self.mapped.get(&normal(text)).or_else(|| self.mapped.get(&read(text).key)).copied()
    }
}
