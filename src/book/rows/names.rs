//! Rows of names: what the kitchen also calls something, apart from the price list.

use super::reader::Reader;
use crate::kitchen::names::NamesRow;
use crate::problem::{Code, Fault};
use crate::schema::Column;

/// Reads a row of names; `None` when it names nothing.
pub(super) fn row(mut reader: Reader<'_>) -> Option<NamesRow> {
    let item = reader.name(Column::Item)?;
    let also = reader.text(Column::AlsoCalled).unwrap_or_default();
    let aliases: Vec<String> =
        also.split(';').map(str::trim).filter(|alias| !alias.is_empty()).map(str::to_owned).collect();
    if aliases.is_empty() {
        let fault = Fault::new(
            Code::RowNotUnderstood,
            format!("this row does not say what else “{item}” is called"),
            "Fill Also called, several names parted by semicolons, or clear the row.",
        );
        reader.report(Column::Item, fault);
    }
    Some(NamesRow { item, aliases, input: reader.input })
}
