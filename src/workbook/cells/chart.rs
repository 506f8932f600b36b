//! Charts before anything renders them: which cells of their own sheet they are drawn from, and where they stand.

use crate::workbook::cells::row::Look;

/// A chart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// What it answers, as a question or a plain sentence.
    pub title: String,
    /// What is seen in it, with the main figures, for whoever does not see it.
    pub told: String,
    /// How it is drawn.
    pub kind: PictureKind,
    /// The zero-based row and column of its upper left corner.
    pub at: (u32, u16),
    /// Its width and height in pixels.
    pub size: (u32, u32),
    /// The cells that name what is drawn.
    pub names: Span,
    /// What is drawn, one colour each.
    pub series: Vec<Series>,
    /// How names that are numbers are shown.
    pub names_look: Look,
    /// How the figures along the axis are shown.
    pub look: Look,
    /// What the axis of figures counts, and what the other names, where that is not plain.
    pub axes: (Option<String>, Option<String>),
}

/// How a chart is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PictureKind {
    /// Bars from left to right, the first at the top.
    Bars,
    /// Bars from left to right, parts of one whole behind one another.
    Shares,
    /// Lines over steps.
    Lines,
}

/// What is drawn in one colour.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Series {
    /// Its name in the key.
    pub name: String,
    /// Its figures, one for each name.
    pub values: Span,
    /// How it is coloured.
    pub tint: Tint,
}

/// Colours that mean the same everywhere; dark and light ones, so that neighbours are told apart in grey as well.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tint {
    /// What the picture is about.
    Deep,
    /// What stands beside it.
    Middle,
    /// What is left over.
    Pale,
    /// What is lost.
    Grey,
    /// What wants attention.
    Warm,
}

/// Cells below one another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Span {
    /// Zero-based column.
    pub column: u16,
    /// Zero-based first row.
    pub first: u32,
    /// Zero-based last row.
    pub last: u32,
}

impl Span {
    /// The cell's place among these.
    pub fn place(&self, row: u32, column: u16) -> Option<usize> {
        let below = row.checked_sub(self.first).filter(|_| column == self.column && row <= self.last)?;
        usize::try_from(below).ok()
    }
}
