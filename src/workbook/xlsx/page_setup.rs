//! Page setup: the paper of the country, one page wide, with the house and the day above and the page below.

use jiff::civil::Date;
use rust_xlsxwriter::{Worksheet, XlsxError};

use crate::workbook::cells::row::Frame;
use crate::workbook::layout::inputs::Inputs;

/// What is the same on every page.
#[derive(Debug)]
pub(super) struct Paper {
    size: u8,
    header: String,
}

/// What is below: the sheet's name, and which page of how many (codes of ECMA-376 part 1, 18.3.1.46).
const FOOTER: &str = "&L&8&A&R&8Page &P of &N";

/// The most characters of a header (common practice, no source).
const MOST_CHARACTERS: usize = 255;

/// The most rows that stand again on every page.
const MOST_REPEATED: u32 = 3;

impl Paper {
    /// The paper of a kitchen; with the day of its figures, where there are any.
    pub(super) fn of(inputs: &Inputs<'_>, costed_on: Option<Date>) -> Self {
        let settings = &inputs.kitchen.settings;
        // An ampersand begins a code, two of them are one; a name is cut before the text is.
        let house: String = settings.house_name.chars().filter(|c| !c.is_control()).take(100).collect();
        let house = house.replace('&', "&&");
        let costed = costed_on.map(|date| format!("&R&8Costed on {date}")).unwrap_or_default();
        let header = format!("&L&8{}{costed}", spaced(&house));
        Paper { size: size(&settings.currency), header: if fits(&header) { header } else { String::new() } }
    }

    /// One without a header.
    #[cfg(test)]
    pub(super) fn plain() -> Self {
        Paper { size: size("EUR"), header: String::new() }
    }

    /// Prepares a sheet whose rows end at `last_row`.
    pub(super) fn set(&self, sheet: &mut Worksheet, frame: &Frame, last_row: u32) -> Result<(), XlsxError> {
        if frame.page.upright {
            sheet.set_portrait();
        } else {
            sheet.set_landscape();
        }
        sheet.set_paper_size(self.size).set_print_fit_to_pages(1, 0).set_margins(0.5, 0.5, 0.7, 0.6, 0.3, 0.3);
        sheet.set_header(&self.header).set_footer(FOOTER);
        if let Some(column) = frame.page.last_column {
            sheet.set_print_area(0, 0, last_row, column)?;
        }
        // More than a header would leave little room on a page.
        if (1..=MOST_REPEATED).contains(&frame.frozen_rows) && last_row >= frame.frozen_rows {
            sheet.set_repeat_rows(0, frame.frozen_rows.saturating_sub(1))?;
        }
        Ok(())
    }
}

/// A name that begins with a figure would be taken for the size of its letters.
fn spaced(name: &str) -> String {
    if name.starts_with(|c: char| c.is_ascii_digit()) { format!(" {name}") } else { name.to_owned() }
}

fn fits(header: &str) -> bool {
    header.encode_utf16().count() <= MOST_CHARACTERS
}

/// Letter where it is used (common practice, no source), A4 elsewhere; numbers of ECMA-376 part 1, 18.3.1.63.
fn size(currency: &str) -> u8 {
    const LETTER: u8 = 1;
    const A4: u8 = 9;
    if matches!(currency, "USD" | "CAD" | "MXN") { LETTER } else { A4 }
}
