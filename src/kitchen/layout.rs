//! Supplier layouts as read: under which heading a supplier's lists have what we call price, code or pack.

use super::{Field, InputRow, NameKey};
use crate::schema::header::same;
use crate::schema::{Column, TableKind};

/// A row of the table *Supplier layouts*.
#[derive(Debug, Clone)]
pub struct LayoutRow {
    /// The cells.
    pub input: InputRow,
    /// The supplier.
    pub supplier: String,
    /// Our column.
    pub column: Field<Column>,
    /// The heading in the supplier's lists.
    pub heading: Field<String>,
}

/// The columns that a supplier's list may have: what a supplier knows. What is the kitchen's own to decide (which supplier
/// is preferred, other names, the food to borrow from) is never taken from a list.
pub const OF_LISTS: &[Column] = &[
    Column::Item,
    Column::Code,
    Column::Pack,
    Column::PackCount,
    Column::UnitSize,
    Column::SizeUnit,
    Column::Price,
    Column::Per,
    Column::Supplier,
    Column::Date,
    Column::Until,
    Column::FurtherCost,
    Column::Credit,
    Column::Tax,
    Column::Yield,
    Column::Allergens,
    Column::MayContain,
];

/// The words for those columns: our headers.
pub fn words() -> impl Iterator<Item = &'static str> {
    OF_LISTS.iter().map(|column| TableKind::Prices.header(*column))
}

/// The word for a column; `None` for one that no list is asked for.
pub fn word_of(column: Column) -> Option<&'static str> {
    OF_LISTS.contains(&column).then(|| TableKind::Prices.header(column))
}

/// The column that a word names, by its header or a synonym of it, whatever its case.
pub fn column_named(word: &str) -> Option<Column> {
    let known = |column: &&Column| {
        let def = TableKind::Prices.column(**column);
        def.is_some_and(|def| def.headers().any(|header| same(header, word)))
    };
    // No header is empty.
    OF_LISTS.iter().find(known).copied()
}

impl LayoutRow {
    /// Whether it is about the lists of `supplier`.
    pub fn is_of(&self, supplier: &str) -> bool {
        NameKey::of(&self.supplier) == NameKey::of(supplier)
    }
}
