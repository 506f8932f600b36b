//! Sales of dishes: how many were sold of each, in the menu's own rows and in lists of sales that stand beside them.
//!
//! A row that says how many were sold and nothing of how belongs to the dish that another row names; only where none does
//! is it the dish itself. Takes the menu's rows; gives which of them are dishes, and what was sold by name.

use std::collections::BTreeMap;

use crate::kitchen::menu::MenuRow;
use crate::kitchen::{Field, NameKey};
use crate::number::{Decimal, exact, plain};
use crate::problem::{Code, Fault, Problem, THERE};
use crate::schema::Column;

/// What the rows of one name are.
#[derive(Debug)]
struct NamedSales {
    /// The row that stands for the dish, as an index: the first that says more than how many were sold, else the first.
    home: usize,
    says_how: bool,
    sold: Field<Decimal>,
    /// The rows that say how many were sold, as indices.
    rows: Vec<usize>,
}

/// The sales of a menu.
#[derive(Debug)]
pub(super) struct Sales {
    named: BTreeMap<NameKey, NamedSales>,
}

impl Sales {
    /// The sales of a menu's rows. A sum that does not fit is a problem at the row that is too much.
    pub(super) fn of(rows: &[MenuRow], problems: &mut Vec<Problem>) -> Self {
        let mut named: BTreeMap<NameKey, NamedSales> = BTreeMap::new();
        for (index, row) in rows.iter().enumerate() {
            let says_how = !row.is_sales_alone();
            let entry = named.entry(NameKey::of(&row.dish)).or_insert(NamedSales {
                home: index,
                says_how,
                sold: Field::Blank,
                rows: Vec::new(),
            });
            if !row.sold.is_blank() {
                entry.rows.push(index);
            }
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
        named.values_mut().for_each(|sales| problems.extend(sales.refuse_below_zero(rows)));
        let sales = Sales { named };
        problems.extend(rows.iter().enumerate().filter_map(|(index, row)| sales.added_to(index, row, rows)));
        sales
    }

    /// A note where a dish's own row says how many were sold and lists of sales say more.
    fn added_to(&self, index: usize, row: &MenuRow, rows: &[MenuRow]) -> Option<Problem> {
        let named = self.named.get(&NameKey::of(&row.dish))?;
        let own = row.sold.given().filter(|_| named.home == index && named.says_how)?;
        let other = named.rows.iter().find(|other| **other != index).and_then(|other| rows.get(*other))?;
        let all = named.sold.given()?;
        let fault = Fault::new(
            Code::SalesAdded,
            format!(
                "{} of “{}” on the menu and what {THERE} says are added up: {}",
                plain(*own),
                row.dish,
                plain(*all)
            ),
            "If the list holds them all, leave Sold blank on the menu.",
        );
        Some(fault.speaking_of(other.input.place(Column::Sold)).at(row.input.place(Column::Sold)))
    }

    /// Whether the row at `index` only adds to the sales of the dish that another row is.
    pub(super) fn adds_to_another(&self, index: usize, row: &MenuRow) -> bool {
        row.is_sales_alone() && self.named.get(&NameKey::of(&row.dish)).is_some_and(|named| named.home != index)
    }

    /// How many were sold of a dish whose row is the one at `row`: of two dishes of one name, the sales are those of one.
    pub(super) fn sold(&self, dish: &str, row: Option<usize>) -> Field<Decimal> {
        let named = self.named.get(&NameKey::of(dish)).filter(|named| Some(named.home) == row);
        named.map_or(Field::Blank, |named| named.sold.clone())
    }
}

impl NamedSales {
    /// Refunds of more than was sold leave nothing that could be counted: a problem at the last of them.
    fn refuse_below_zero(&mut self, rows: &[MenuRow]) -> Option<Problem> {
        let all = *self.sold.given().filter(|sold| **sold < Decimal::ZERO)?;
        let is_refund = |row: &&MenuRow| row.sold.given().is_some_and(|sold| *sold < Decimal::ZERO);
        let last = self.rows.iter().rev().filter_map(|row| rows.get(*row)).find(is_refund)?;
        self.sold = Field::Broken;
        let fault = Fault::new(
            Code::NumberOutOfRange,
            format!("of “{}” more was given back than sold: {} in all", last.dish, plain(all)),
            "Check how many were sold.",
        );
        Some(fault.at(last.input.place(Column::Sold)))
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
