//! Styles of a workbook: the number of every format, in the order of first use, as the library numbers them.

use std::collections::HashMap;

use rust_xlsxwriter::{Format, Worksheet, XlsxError};

use super::format::format_of;
use super::piece::CellKind;
use super::row_writer::COLUMNS;
use crate::problem::place::column_letters;

/// The numbers of the formats that were used.
#[derive(Debug, Default)]
pub(super) struct Styles {
    /// By what they are made from: no format is made twice.
    kinds: HashMap<CellKind, u32>,
    /// By the format: two kinds may look the same.
    numbers: HashMap<Format, u32>,
    formats: Vec<Format>,
}

/// Specimens stand beyond all columns in use, so many in a row.
const IN_A_ROW: u32 = 64;

impl Styles {
    /// The number of a kind's format: 0 is that of a cell without one.
    pub(super) fn number(&mut self, kind: CellKind) -> u32 {
        if let Some(known) = self.kinds.get(&kind) {
            return *known;
        }
        let format = format_of(kind.0, &kind.1);
        let number = if format == Format::new() {
            0
        } else {
            let formats = &mut self.formats;
            *self.numbers.entry(format).or_insert_with_key(|format| {
                formats.push(format.clone());
                u32::try_from(formats.len()).unwrap_or(u32::MAX)
            })
        };
        self.kinds.insert(kind, number);
        number
    }

    /// Puts a specimen of every format on the first sheet, so that the library numbers them in this order.
    pub(super) fn specimens(&self, sheet: &mut Worksheet) -> Result<(), XlsxError> {
        for (format, at) in self.formats.iter().zip(0..) {
            let (row, column) = place(at);
            sheet.write_blank(row, column, format)?;
        }
        Ok(())
    }

    /// Whether the library, as its first sheet says, numbered the formats as they are numbered here.
    pub(super) fn are_in(&self, first_sheet: &str) -> bool {
        self.formats.iter().zip(0..).all(|(_, at)| {
            let (row, column) = place(at);
            let letters = column_letters(u32::from(column));
            let (row, number) = (u64::from(row).saturating_add(1), u64::from(at).saturating_add(1));
            first_sheet.contains(&format!("<c r=\"{letters}{row}\" s=\"{number}\"/>"))
        })
    }
}

/// Where the specimen so numbered stands.
fn place(at: u32) -> (u32, u16) {
    let column = u16::try_from(at % IN_A_ROW).unwrap_or_default();
    (at / IN_A_ROW, COLUMNS.saturating_sub(2).saturating_sub(column))
}

/// Where a text stands that makes the library write a table of texts.
pub(super) const TEXT_SPECIMEN: (u32, u16) = (0, COLUMNS - 1);
