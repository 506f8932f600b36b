//! Suppliers as the kitchen knows them, apart from their lists: the least that each delivers.

use super::{Field, InputRow, Kitchen, NameKey};
use crate::number::Decimal;

/// A row of the table *Suppliers*.
#[derive(Debug, Clone)]
pub struct SupplierTerms {
    /// The cells.
    pub input: InputRow,
    /// The supplier, as on the price rows.
    pub supplier: String,
    /// The least that is delivered, in money.
    pub minimum: Field<Decimal>,
}

impl Kitchen {
    /// The least that a supplier delivers, in money; `None` where the book does not say, or says it in two ways.
    pub fn minimum_order(&self, supplier: &str) -> Option<Decimal> {
        let key = NameKey::of(supplier);
        let mut rows = self.entries.suppliers.iter().filter(|row| NameKey::of(&row.supplier) == key);
        let first = rows.next()?.minimum.given().copied()?;
        rows.all(|row| row.minimum.given() == Some(&first)).then_some(first)
    }
}
