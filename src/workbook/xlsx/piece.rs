//! Piece of a sheet: some of its rows as XML. Styles and texts go by numbers that hold for the whole workbook and are known
//! only when everything before is bound, so their places are left open.

use indexmap::IndexSet;

use super::extent::Extent;
use super::xml::push_number;
use crate::workbook::cells::row::{Ink, Look};

/// What kind a cell is and how it is shown: all that its style depends on.
pub(super) type CellKind = (Ink, Look);

/// What is to be put into a place that was left open.
#[derive(Debug, Clone, Copy)]
pub(super) enum Open {
    /// The attribute of the style of the kind so numbered.
    Style(u32),
    /// The number of the text so numbered.
    Text(u32),
    /// The columns that the block of rows so numbered goes over.
    Columns(u32),
}

/// Rows of a sheet as XML, and what a workbook must know of them besides.
#[derive(Debug, Default)]
pub(super) struct Piece {
    pub(super) xml: Vec<u8>,
    /// The places in it that are left open.
    pub(super) open: Vec<(usize, Open)>,
    /// The kinds of its cells in the order of their first use.
    pub(super) kinds: Vec<CellKind>,
    /// Its texts in the order of their first use.
    pub(super) texts: IndexSet<String>,
    /// How many cells hold a text.
    pub(super) uses: u64,
    /// The columns that each block of its rows goes over.
    pub(super) columns: Vec<(u16, u16)>,
    /// The cells that it fills.
    pub(super) extent: Option<Extent>,
    /// The cells that lead to others, as XML (`hyperlink`; ECMA-376 part 1, 18.3.1.47).
    pub(super) links: Vec<u8>,
    /// Cells of one text: row, first and last column.
    pub(super) merged: Vec<(u32, u16, u16)>,
    /// The rows that are higher than usual, and how high in points.
    pub(super) heights: Vec<(u32, u32)>,
}

impl Piece {
    /// Hands the XML to `take`, bit by bit: every kind in the style, and every text by the number, that these are known by.
    pub(super) fn closed(&self, styles: &[u32], texts: &[u32], take: &mut impl FnMut(&[u8])) {
        // Handed over in portions: the bits between two places are short.
        const PORTION: usize = 1 << 16;
        let mut portion = Vec::with_capacity(PORTION.saturating_add(1 << 12));
        let mut from = 0;
        let number = |numbers: &[u32], at: u32| {
            usize::try_from(at).ok().and_then(|at| numbers.get(at)).copied().map_or(0, u64::from)
        };
        for (at, open) in &self.open {
            portion.extend_from_slice(self.xml.get(from..*at).unwrap_or_default());
            from = *at;
            match open {
                Open::Style(kind) => match number(styles, *kind) {
                    0 => {}
                    style => {
                        portion.extend_from_slice(b" s=\"");
                        push_number(&mut portion, style);
                        portion.push(b'"');
                    }
                },
                Open::Text(text) => push_number(&mut portion, number(texts, *text)),
                Open::Columns(block) => {
                    let block = usize::try_from(*block).ok().and_then(|block| self.columns.get(block));
                    let (first, last) = block.copied().unwrap_or_default();
                    push_number(&mut portion, u64::from(first).saturating_add(1));
                    portion.push(b':');
                    push_number(&mut portion, u64::from(last).saturating_add(1));
                }
            }
            if portion.len() >= PORTION {
                take(&portion);
                portion.clear();
            }
        }
        portion.extend_from_slice(self.xml.get(from..).unwrap_or_default());
        take(&portion);
    }
}
