//! Page setup: the paper of the country, as many pages wide as keep the letters large enough, with the house and the day
//! above and the page below.

use jiff::civil::Date;
use rust_xlsxwriter::{Worksheet, XlsxError};

use super::extent::Extent;
use super::strips::{LEAST, Pages, Strips};
use crate::workbook::cells::row::Frame;
use crate::workbook::cells::unprintable::is_unprintable;
use crate::workbook::layout::inputs::Inputs;

/// What is the same on every page.
#[derive(Debug)]
pub(super) struct Paper {
    size: u8,
    house: String,
    costed: String,
}

/// The letters of what stands above and below, in points.
const LETTERS: u32 = 9;

/// The most characters of a header (common practice, no source).
const MOST_CHARACTERS: usize = 255;

/// The most rows that stand again on every page.
const MOST_REPEATED: u32 = 3;

impl Paper {
    /// The paper of a kitchen; with the day of its figures, where there are any.
    pub(super) fn of(inputs: &Inputs<'_>, costed_on: Option<Date>) -> Self {
        let settings = &inputs.kitchen.settings;
        // An ampersand begins a code, two of them are one; a name is cut before the text is.
        let house: String = settings.house_name.chars().filter(|c| !is_unprintable(*c)).take(100).collect();
        let house = spaced(&house.replace('&', "&&"));
        let costed = costed_on.map(|date| format!("Costed on {date}")).unwrap_or_default();
        Paper { size: size(&settings.currency), house, costed }
    }

    /// What stands above, in letters of so many points (codes of ECMA-376 part 1, 18.3.1.46).
    fn header(&self, points: u32) -> String {
        let costed = if self.costed.is_empty() { String::new() } else { format!("&R&{points}{}", self.costed) };
        let header = format!("&L&{points}{}{costed}", self.house);
        if fits(&header) { header } else { String::new() }
    }

    /// One without a header.
    #[cfg(test)]
    pub(super) fn plain() -> Self {
        Paper { size: size("EUR"), house: String::new(), costed: String::new() }
    }

    /// How a sheet that ends at the row and column `last` comes to paper, and what of it is told apart; its rows are as high
    /// as `heights` says, in points.
    pub(super) fn page(&self, frame: &Frame, last: (u32, u16), heights: &[(u32, u32)]) -> (PageSetup, Printed) {
        let strips = Strips::of(frame, Some(last.1));
        let last_row = last.0;
        // More than a header would leave little room on a page.
        let repeats = (1..=MOST_REPEATED).contains(&frame.frozen_rows) && last_row >= frame.frozen_rows;
        let repeated = if repeats { frame.frozen_rows } else { 0 };
        let heading = || frame.page.heading.filter(|heading| *heading < last_row).map(|heading| (heading, heading));
        let pages = strips.pages(frame, last_row, heights, repeated);
        let scale = match &pages {
            Pages::Fitted => strips.scale,
            Pages::One => LEAST,
            Pages::Set(scale, _) => *scale,
        };
        // Some programs scale what stands above and below with the page, whatever they are told.
        let points = LETTERS.saturating_mul(100).div_ceil(scale.max(1));
        let (first, end) = (frame.page.first_row, frame.page.last_row);
        let in_part = frame.page.last_column.is_some() || end.is_some() || first > 0;
        let area =
            in_part.then(|| Extent { first: (first, 0), last: (end.unwrap_or(last_row).max(first), strips.last) });
        let printed = Printed {
            rows: if repeats { repeated.checked_sub(1).map(|last| (0, last)) } else { heading() },
            // The strips of some rows lie together.
            columns: frame.page.first_columns.checked_sub(1).filter(|_| !strips.breaks.is_empty()),
            area,
        };
        let page = PageSetup {
            paper: self.size,
            upright: strips.upright,
            pages,
            breaks: strips.breaks.iter().copied().map(u32::from).collect(),
            header: self.header(points),
            footer: footer(points),
        };
        (page, printed)
    }
}

/// How a sheet comes to paper: what stands on the sheet itself, and is the same for many.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(super) struct PageSetup {
    paper: u8,
    upright: bool,
    pages: Pages,
    /// The columns with which further strips begin.
    breaks: Vec<u32>,
    header: String,
    footer: String,
}

impl PageSetup {
    /// Prepares a sheet.
    pub(super) fn set(&self, sheet: &mut Worksheet) -> Result<(), XlsxError> {
        if self.upright {
            sheet.set_portrait();
        } else {
            sheet.set_landscape();
        }
        sheet.set_paper_size(self.paper).set_margins(0.5, 0.5, 0.7, 0.6, 0.3, 0.3);
        match &self.pages {
            Pages::Fitted => {
                sheet.set_print_fit_to_pages(1, 0);
            }
            Pages::One => {
                sheet.set_print_fit_to_pages(1, 1);
            }
            Pages::Set(scale, begins) => {
                sheet.set_print_scale(u16::try_from(*scale).unwrap_or(100));
                if !begins.is_empty() {
                    sheet.set_page_breaks(begins)?;
                }
            }
        }
        if !self.breaks.is_empty() {
            sheet.set_page_order(true).set_vertical_page_breaks(&self.breaks)?;
        }
        sheet.set_header(&self.header).set_footer(&self.footer).set_header_footer_scale_with_doc(false);
        Ok(())
    }
}

/// What of a sheet is printed, which the workbook's names tell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Printed {
    /// The first and the last row that stand again on every page.
    pub(super) rows: Option<(u32, u32)>,
    /// The last of the first columns, where these do.
    pub(super) columns: Option<u16>,
    /// The cells that are printed, where that is not all of them.
    pub(super) area: Option<Extent>,
}

/// What stands below: the sheet's name, and which page of how many.
fn footer(points: u32) -> String {
    format!("&L&{points}&A&R&{points}Page &P of &N")
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
