//! Charts before anything renders them: which cells of their own sheet they are drawn from, and where they stand.

use crate::number::Decimal;
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
    /// Where the axis of figures begins, where it does not begin at nothing.
    pub begins: Option<Decimal>,
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
    /// Points by two figures, each series with its own figures across.
    Points,
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
    /// Which of its figures stand in the picture.
    pub labels: Labels,
    /// Its figures across, where they are points.
    pub across: Option<Span>,
    /// The cell that names it, where it is to follow one.
    pub named_by: Option<(u32, u16)>,
}

impl Series {
    /// Figures of a colour, none of which stands in the picture.
    pub fn new(name: impl Into<String>, values: Span, tint: Tint) -> Self {
        Series { name: name.into(), values, tint, labels: Labels::None, across: None, named_by: None }
    }

    /// As points, with their figures across.
    pub fn plotted_over(self, across: Span) -> Self {
        Series { across: Some(across), ..self }
    }

    /// Named by a cell.
    pub fn named_by(self, row: u32, column: u16) -> Self {
        Series { named_by: Some((row, column)), ..self }
    }

    /// With its figures in the picture.
    pub fn labelled(self, labels: Labels) -> Self {
        Series { labels, ..self }
    }
}

/// The least share of a bar whose figure there is room for within it: 6 %.
pub const LEAST_SHARE: Decimal = Decimal::from_parts(6, 0, 0, false, 2);

/// Which figures stand in a picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Labels {
    /// None: the table beside it has them.
    None,
    /// Every one, behind the end of its bar.
    Behind,
    /// Those from this one up, for which there is room, within their bars.
    Within(Decimal),
    /// As what is added to the bar before: nothing of those that are nothing.
    Added,
    /// As what is taken off the bar before, likewise.
    TakenOff,
    /// Its name, right of each point.
    NameRight,
    /// Its name, left of each point.
    NameLeft,
}

/// Colours by what they stand for, the same on every sheet. Parts of one bar are dark and light in turn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tint {
    /// Food, and the mains that it is made of.
    Food,
    /// Trim that is used, and what it is charged.
    Trim,
    /// Trim that is left over.
    TrimLeft,
    /// Waste.
    Waste,
    /// What is lost.
    Loss,
    /// A target.
    Target,
    /// Q.
    Q,
    /// Spice.
    Spice,
    /// Tax.
    Tax,
    /// What is earned.
    Margin,
    /// What a basket costs.
    Basket,
    /// What makes it cost more.
    Dearer,
    /// What makes it cost less.
    Cheaper,
    /// One of several lines, by its place among them.
    Line(usize),
    /// What carries others and is not seen, nor named in the key.
    Unseen,
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
    /// One cell.
    pub fn cell(row: u32, column: u16) -> Self {
        Span { column, first: row, last: row }
    }

    /// The cell's place among these.
    pub fn place(&self, row: u32, column: u16) -> Option<usize> {
        let below = row.checked_sub(self.first).filter(|_| column == self.column && row <= self.last)?;
        usize::try_from(below).ok()
    }
}
