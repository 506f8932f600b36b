//! Rows of plain typed cells: what every sheet is made of before anything renders it.

use std::sync::Arc;

use jiff::civil::Date;

use crate::number::Decimal;
use crate::schema::output;
use crate::workbook::cells::chart::{Picture, Span};
use crate::workbook::cells::formula::{Formula, LONGEST, Outcome, Ref, while_filled};
use crate::workbook::layout::sheet_names;

/// What stands in a cell.
#[derive(Debug, Clone, PartialEq)]
pub enum Content {
    /// Nothing: room for what may be typed or written there.
    Blank,
    /// Text; never a formula, whatever it begins with.
    Text(String),
    /// A number.
    Number(Decimal),
    /// A date.
    Date(Date),
    /// TRUE or FALSE.
    Bool(bool),
    /// A live formula with the engine's result.
    Formula(Formula),
    /// Text that leads to a cell of this workbook.
    Link {
        /// What is shown.
        text: String,
        /// The cell that it leads to.
        to: Box<Ref>,
    },
}

/// What kind of cell it is; told apart by more than colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ink {
    /// What the user typed, or may type.
    Input,
    /// What the user typed beside its label.
    Fact,
    /// The same, a long text that stands elsewhere in full: no more than its first lines are in sight.
    LongFact,
    /// What was understood or chosen.
    Reading,
    /// A reading that leads elsewhere.
    Link,
    /// A number computed from those.
    Figure,
    /// A figure that adds up others.
    Total,
    /// The name of a sheet or card.
    Title,
    /// What a table on a sheet of several is about.
    Section,
    /// The header of an input column.
    Header,
    /// The header of an input column that leads elsewhere.
    HeaderLink,
    /// The header of a column of our own.
    OwnHeader,
    /// A label beside its value.
    Label,
    /// Plain text.
    Plain,
    /// Small text that can be passed over.
    Aside,
    /// Room to write by hand.
    ToWriteOn,
    /// Large text, to be read on the wall.
    Wall,
    /// What is large and stands beside its label.
    WallFact,
    /// A large label.
    WallLabel,
    /// A large header.
    WallHead,
    /// The name of what hangs on the wall.
    WallTitle,
    /// A high row to write on by hand.
    WallRule,
}

/// How a cell shows its content.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Look {
    /// As it is.
    General,
    /// Money in the currency of the sign.
    Money {
        /// The sign, or the currency's code; empty where no currency is known.
        sign: Arc<str>,
        /// Its decimals.
        places: u32,
    },
    /// Money in the region's own format, which shows that it is money and names no sign.
    RegionMoney,
    /// A percentage with so many decimals.
    Percent(u32),
    /// A quantity, to three decimals and one at least.
    Quantity,
    /// A quantity that is a whole number and no figure.
    Whole,
    /// A date.
    Date,
    /// A vulgar fraction.
    Fraction,
    /// Words that stand clear of a figure to their left.
    Words,
    /// Text that wraps.
    Wrapped,
    /// Text that wraps over the columns from its own to this one.
    Flowing(u16),
    /// The header of a column of figures: over their right end.
    OverFigures,
}

/// A cell of a row.
#[derive(Debug, Clone, PartialEq)]
pub struct Cell {
    /// Zero-based column.
    pub column: u16,
    /// What stands in it.
    pub content: Content,
    /// What kind it is.
    pub ink: Ink,
    /// How it is shown.
    pub look: Look,
}

impl Content {
    /// A formula, or what would be longer than a program takes as the constant that it comes to.
    pub fn of(formula: Formula) -> Self {
        match formula.result {
            _ if formula.length() <= LONGEST => Content::Formula(formula),
            Outcome::Number(number) => Content::Number(number),
            Outcome::Text(text) => Content::Text(text),
        }
    }

    /// A number that was read of `cells`, which is not known once one of them is cleared.
    pub fn read_of(cells: &[String], number: Decimal) -> Self {
        while_filled(cells, number).map_or(Content::Number(number), Content::Formula)
    }
}

impl Cell {
    /// Text of a kind.
    pub fn text(column: u16, text: impl Into<String>, ink: Ink) -> Self {
        Cell { column, content: Content::Text(text.into()), ink, look: Look::General }
    }

    /// A number of a kind.
    pub fn number(column: u16, number: Decimal, ink: Ink, look: Look) -> Self {
        let whole = look == Look::Quantity && number.is_integer();
        Cell { column, content: Content::Number(number), ink, look: if whole { Look::Whole } else { look } }
    }

    /// Room for what may be typed.
    pub fn room(column: u16) -> Self {
        Cell { column, content: Content::Blank, ink: Ink::Input, look: Look::General }
    }

    /// The header of a column of our own, of words or of figures; the first of a table is of words.
    pub fn over(column: u16, text: &str, words: bool) -> Self {
        match (column, words) {
            (0, _) => Cell::text(0, text, Ink::OwnHeader),
            (_, true) => Cell { look: Look::Words, ..Cell::text(column, text, Ink::OwnHeader) },
            (_, false) => Cell::over_figures(column, text),
        }
    }

    /// The header of a column of figures.
    pub fn over_figures(column: u16, text: impl Into<String>) -> Self {
        Cell { look: Look::OverFigures, ..Cell::text(column, text, Ink::OwnHeader) }
    }

    /// Text that leads to a cell of another sheet.
    pub fn link(column: u16, text: impl Into<String>, to: &Ref, ink: Ink) -> Self {
        let content = Content::Link { text: text.into(), to: Box::new(to.clone()) };
        Cell { column, content, ink, look: Look::General }
    }

    /// The way back to the Summary.
    pub fn back(column: u16) -> Self {
        let summary = Ref::new(sheet_names::SUMMARY, 0, 0);
        Cell::link(column, output::BACK, &summary, Ink::Reading)
    }

    /// A figure.
    pub fn figure(column: u16, formula: Formula, look: Look) -> Self {
        match Content::of(formula) {
            content @ Content::Formula(_) => Cell { column, content, ink: Ink::Figure, look },
            content => Cell { column, content, ink: Ink::Reading, look },
        }
    }
}

/// A row of cells.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Zero-based row.
    pub row: u32,
    /// Its cells, by column.
    pub cells: Vec<Cell>,
}

impl Row {
    /// The header row of a table, whose first header leads back to the Summary: it stays in sight, and what it says is what
    /// it said.
    pub fn leading_back(mut self) -> Self {
        let first = self.cells.first_mut().filter(|cell| cell.column == 0 && cell.ink == Ink::Header);
        if let Some(cell) = first
            && let Content::Text(text) = &cell.content
        {
            let summary = Ref::new(sheet_names::SUMMARY, 0, 0);
            let content = Content::Link { text: text.clone(), to: Box::new(summary) };
            *cell = Cell { column: 0, content, ink: Ink::HeaderLink, look: cell.look.clone() };
        }
        self
    }
}

/// What a sheet is besides its rows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Frame {
    /// Its name.
    pub name: String,
    /// The widths of its first columns, in characters.
    pub widths: Vec<u16>,
    /// Rows that stay in sight; few enough, they stand again on every page.
    pub frozen_rows: u32,
    /// Columns that stay in sight.
    pub frozen_columns: u16,
    /// Its charts.
    pub pictures: Vec<Picture>,
    /// How it comes to paper.
    pub page: PrintedPage,
    /// Whose it is.
    pub tab: Tab,
    /// A column of words of which some are to catch the eye: the words, and where they may stand.
    pub alert: Option<(String, Span)>,
}

/// How a sheet comes to paper.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct PrintedPage {
    /// Whether the page stands upright, where the sheet is narrow enough.
    pub upright: bool,
    /// The last column that is printed; all of them otherwise.
    pub last_column: Option<u16>,
    /// How many columns stand again on every page of a sheet that is several pages wide.
    pub first_columns: u16,
    /// The column before which such a sheet is best divided.
    pub parts: Option<u16>,
    /// The first rows of groups that are best not cut, from the top down; each ends where the next begins.
    pub groups: Vec<u32>,
    /// Rows with which a page begins in any case, from the top down.
    pub begins: Vec<u32>,
    /// A row that stands again on every page after it, where the first rows do not.
    pub heading: Option<u32>,
    /// The first row that is printed.
    pub first_row: u32,
    /// The last row that is printed; all of them otherwise.
    pub last_row: Option<u32>,
}

/// Whose a sheet is, told by the colour of its tab besides its name.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Tab {
    /// What came out.
    #[default]
    Output,
    /// A recipe's card.
    Card,
    /// What the user types.
    Inputs,
    /// The user's own, carried over.
    Carried,
}

impl Frame {
    /// A sheet of this name whose first columns are so wide, and nothing more.
    pub fn new(name: impl Into<String>, widths: Vec<u16>) -> Self {
        Frame {
            name: name.into(),
            widths,
            frozen_rows: 0,
            frozen_columns: 0,
            pictures: Vec::new(),
            page: PrintedPage { first_columns: 1, ..PrintedPage::default() },
            tab: Tab::default(),
            alert: None,
        }
    }

    /// With its first `rows` rows in sight.
    pub fn frozen(self, rows: u32) -> Self {
        Frame { frozen_rows: rows, ..self }
    }

    /// With the page upright.
    pub fn upright(self) -> Self {
        Frame { page: PrintedPage { upright: true, ..self.page }, ..self }
    }

    /// With rows in groups, which begin at these.
    pub fn in_groups(self, groups: Vec<u32>) -> Self {
        Frame { page: PrintedPage { groups, ..self.page }, ..self }
    }

    /// With its tab coloured as what it is.
    pub fn tabbed(self, tab: Tab) -> Self {
        Frame { tab, ..self }
    }
}

/// Takes the rows of a sheet, one after the other.
pub type RowSink<'a> = dyn FnMut(Row) + 'a;
