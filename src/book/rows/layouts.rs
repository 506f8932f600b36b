//! Rows of supplier layouts.

use super::reader::Reader;
use crate::kitchen::Field;
use crate::kitchen::layout::{LayoutRow, column_named, words};
use crate::problem::suggest::did_you_mean;
use crate::problem::{Code, Fault};
use crate::schema::Column;

/// Reads a row of supplier layouts; `None` when it names no supplier.
pub(super) fn row(mut reader: Reader<'_>) -> Option<LayoutRow> {
    let supplier = reader.name(Column::Supplier)?;
    let column = match reader.text(Column::OurColumn) {
        None => Field::Broken,
        Some(text) => match column_named(&text) {
            Some(column) => Field::Given(column),
            None => reader.fail(Column::OurColumn, unknown(&text)),
        },
    };
    let heading = match reader.text(Column::TheirHeading) {
        None => Field::Broken,
        Some(text) if text.is_empty() => {
            let fault = Fault::new(
                Code::LayoutWrong,
                "this row does not say under which heading the supplier has it",
                "Fill Their heading as it stands in the supplier's list, or clear the row.",
            );
            reader.fail(Column::TheirHeading, fault)
        }
        Some(text) => Field::Given(text),
    };
    Some(LayoutRow { supplier, column, heading, input: reader.input })
}

fn unknown(text: &str) -> Fault {
    let what = if text.is_empty() {
        "this row names no column of ours".to_owned()
    } else {
        format!("“{text}” is not a column of price lists")
    };
    let help = did_you_mean(text, words()).unwrap_or_else(|| {
        let known: Vec<&str> = words().collect();
        format!("Write one of: {}.", known.join(", "))
    });
    Fault::new(Code::LayoutWrong, what, help)
}
