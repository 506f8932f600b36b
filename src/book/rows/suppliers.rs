//! Rows of suppliers: the least that each delivers.

use super::reader::Reader;
use crate::kitchen::Field;
use crate::kitchen::supplier::SupplierTerms;
use crate::number::{Decimal, plain};
use crate::schema::Column;

/// Reads a row of suppliers; `None` when it names none.
pub(super) fn row(mut reader: Reader<'_>) -> Option<SupplierTerms> {
    let supplier = reader.name(Column::Supplier)?;
    let minimum = match reader.money(Column::MinimumOrder) {
        Field::Given(money) if money < Decimal::ZERO => {
            let fault = reader.below_zero(Column::MinimumOrder, &plain(money));
            reader.fail(Column::MinimumOrder, fault)
        }
        minimum => minimum,
    };
    Some(SupplierTerms { supplier, minimum, input: reader.input })
}
