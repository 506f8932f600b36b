//! Sales of dishes: how many were sold of each, in the menu's own rows and in lists of sales that stand beside them.
//!
//! A row that says how many were sold and nothing of how belongs to the dish that another row names; only where none does
//! is it the dish itself. Takes the menu's rows; gives which of them are dishes, and what was sold by name.

use std::collections::HashMap;

use crate::kitchen::menu::MenuRow;
use crate::kitchen::{Field, NameKey};
use crate::number::{Decimal, exact};
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// What the rows of one name are.
#[derive(Debug)]
struct NamedSales {
    /// The row that stands for the dish, as an index: the first that says more than how many were sold, else the first.
    home: usize,
    says_how: bool,
    sold: Field<Decimal>,
}

/// The sales of a menu.
#[derive(Debug)]
pub(super) struct Sales {
    named: HashMap<NameKey, NamedSales>,
}

impl Sales {
    /// The sales of a menu's rows. A sum that does not fit is a problem at the row that is too much.
    pub(super) fn of(rows: &[MenuRow], problems: &mut Vec<Problem>) -> Self {
        let mut named: HashMap<NameKey, NamedSales> = HashMap::new();
        for (index, row) in rows.iter().enumerate() {
            let says_how = !row.is_sales_alone();
            let entry =
                named.entry(NameKey::of(&row.dish)).or_insert(NamedSales { home: index, says_how, sold: Field::Blank });
            if says_how && !entry.says_how {
                (entry.home, entry.says_how) = (index, true);
            }
            entry.sold = match (&entry.sold, &row.sold) {
                (Field::Broken, _) | (_, Field::Broken) => Field::Broken,
                (sold, Field::Blank) => sold.clone(),
                (Field::Blank, sold) => sold.clone(),
                (Field::Given(one), Field::Given(other)) => exact::add(*one, *other).map_or_else(
                    |_| {
                        problems.push(too_many(row));
                        Field::Broken
                    },
                    Field::Given,
                ),
            };
        }
        Sales { named }
    }

    /// Whether the row at `index` only adds to the sales of the dish that another row is.
    pub(super) fn adds_to_another(&self, index: usize, row: &MenuRow) -> bool {
        row.is_sales_alone() && self.named.get(&NameKey::of(&row.dish)).is_some_and(|named| named.home != index)
    }

    /// How many were sold of a dish.
    pub(super) fn sold(&self, dish: &str) -> Field<Decimal> {
        self.named.get(&NameKey::of(dish)).map_or(Field::Blank, |named| named.sold.clone())
    }
}

fn too_many(row: &MenuRow) -> Problem {
    Fault::new(
        Code::NumberOutOfRange,
        format!("what was sold of “{}” is too much to add up", row.dish),
        "Check how many were sold.",
    )
    .at(row.input.place(Column::Sold))
}
