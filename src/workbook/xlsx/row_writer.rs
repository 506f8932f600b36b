//! Writer of a sheet's rows, each below the one before: cells as the XML of a [`Piece`], blocks of rows with the columns that
//! they go over.

use std::collections::BTreeMap;

use rust_xlsxwriter::XlsxError;

use super::extent::Extent;
use super::piece::{CellKind, Open, Piece};
use super::sheet::days;
use super::xml::{push_attribute, push_escaped, push_number};
use crate::in_order::InOrder;
use crate::problem::place::column_letters;
use crate::schema::fitting;
use crate::workbook::cells::formula::{Formula, Outcome, Ref};
use crate::workbook::cells::number::push_stored;
use crate::workbook::cells::row::{Cell, Content, Ink, Look, Row};

/// The rows and columns of a sheet (ECMA-376 part 1, 18.3.1.73 and 18.3.1.13, as programs write them).
const ROWS: u32 = 1_048_576;
pub(super) const COLUMNS: u16 = 16_384;

/// Writes rows, each below the one before.
#[derive(Debug)]
pub(super) struct RowWriter {
    piece: Piece,
    /// The cells with a note, from the last to the first: their rows are told of even where nothing stands in them.
    notes: Vec<(u32, u16)>,
    /// Whether every row tells which columns it and those beside it go over: a hint that a program can do without, which
    /// only whoever writes the whole sheet can give.
    whole: bool,
    block: Option<RowBlock>,
    /// The next row that may come.
    next: u32,
    letters: Vec<String>,
    /// What stood last in each column, which often stands again.
    last: Vec<Last>,
}

/// Numbers of the kind and the text that stood last in a column.
#[derive(Debug, Clone, Copy, Default)]
struct Last {
    kind: Option<u32>,
    text: Option<u32>,
}

/// Sixteen rows, and the columns that they go over.
#[derive(Debug, Clone, Copy)]
struct RowBlock {
    at: u32,
    columns: Option<(u16, u16)>,
}

/// How long a piece of a list comes to, a card, and a cell of it, in bytes.
const PIECE: usize = 1 << 18;
const CARD: usize = 1 << 15;
const A_CELL: usize = 1 << 6;

/// How many rows share a hint of their columns.
pub(super) const BLOCK: u32 = 16;

impl RowWriter {
    /// None yet, of a sheet with `notes` at these cells; `whole` says whether all of its rows are to come, or all of whole
    /// blocks of it with their notes.
    pub(super) fn of(notes: impl Iterator<Item = (u32, u16)>, whole: bool) -> Self {
        let mut notes: Vec<(u32, u16)> = notes.collect();
        notes.put_in_order_by(|one, other| other.cmp(one));
        let mut piece = Piece::default();
        // Of long lists the pieces are about as long; of other sheets most are cards.
        let length = if whole { CARD } else { PIECE };
        piece.xml.reserve(length);
        piece.open.reserve(length / A_CELL);
        RowWriter { piece, notes, whole, block: None, next: 0, letters: Vec::new(), last: Vec::new() }
    }

    /// Writes a row that is so high, in points, where that is not as usual.
    ///
    /// # Errors
    /// Beyond the rows or columns of a sheet, and for a row that stands not below the last.
    pub(super) fn put(&mut self, row: Row, height: Option<u32>) -> Result<(), XlsxError> {
        if row.row >= ROWS || row.cells.iter().any(|cell| cell.column >= COLUMNS) {
            return Err(XlsxError::RowColumnLimitError);
        }
        if row.row < self.next {
            return Err(XlsxError::RowColumnOrderError);
        }
        let cells = self.in_columns(row.row, row.cells);
        let (Some(first), Some(last)) = (cells.first(), cells.last()) else { return Ok(()) };
        let extent = Extent { first: (row.row, first.column), last: (row.row, last.column) };
        self.rows_of_notes_until(row.row);
        self.next = row.row.saturating_add(1);
        self.piece.extent = Extent::joined(self.piece.extent, Some(extent));
        self.open(row.row, Some((extent.first.1, extent.last.1)));
        if let Some(height) = height {
            self.piece.heights.push((row.row, height));
            self.push(b" ht=\"");
            push_number(&mut self.piece.xml, u64::from(height));
            self.push(b"\" customHeight=\"1\"");
        }
        self.push(b">");
        let mut digits = Vec::new();
        push_number(&mut digits, u64::from(self.next));
        for cell in cells {
            self.cell(&digits, cell);
        }
        self.push(b"</row>");
        Ok(())
    }

    /// Gets to know the kinds of cells before they are written: they are numbered in the order in which they come.
    pub(super) fn know(&mut self, cells: &[Cell]) {
        for cell in cells {
            self.kind(cell.column, cell.ink, cell.look.clone());
        }
    }

    /// What was written.
    pub(super) fn piece(mut self) -> Piece {
        self.rows_of_notes_until(ROWS);
        self.close_block();
        self.piece
    }

    fn push(&mut self, bytes: &[u8]) {
        self.piece.xml.extend_from_slice(bytes);
    }

    fn leave_open(&mut self, what: Open) {
        self.piece.open.push((self.piece.xml.len(), what));
    }

    /// Rows before `end` in which nothing but notes stand.
    fn rows_of_notes_until(&mut self, end: u32) {
        while let Some((row, column)) = self.notes.last().copied().filter(|(row, _)| self.whole && *row < end) {
            self.notes.pop();
            if row >= self.next {
                self.next = row.saturating_add(1);
                self.open(row, Some((column, column)));
                self.push(b"/>");
            } else {
                self.widen((column, column));
            }
        }
    }

    /// The beginning of a row's tag.
    fn open(&mut self, row: u32, columns: Option<(u16, u16)>) {
        let at = row / BLOCK;
        if self.block.is_none_or(|block| block.at != at) {
            self.close_block();
            self.block = Some(RowBlock { at, columns: None });
        }
        if let Some(columns) = columns {
            self.widen(columns);
        }
        self.push(b"<row r=\"");
        push_number(&mut self.piece.xml, u64::from(row).saturating_add(1));
        self.push(b"\"");
        if self.whole {
            self.push(b" spans=\"");
            let block = number_of(self.piece.columns.len());
            self.leave_open(Open::Columns(block));
            self.push(b"\"");
        }
    }

    fn widen(&mut self, (first, last): (u16, u16)) {
        if let Some(block) = &mut self.block {
            block.columns = Some(block.columns.map_or((first, last), |known| (known.0.min(first), known.1.max(last))));
        }
    }

    fn close_block(&mut self) {
        if let Some(RowBlock { at, mut columns }) = self.block.take() {
            // Notes that stand in rows already written.
            let end = at.saturating_add(1).saturating_mul(BLOCK);
            while let Some((_, column)) = self.notes.last().copied().filter(|(row, _)| self.whole && *row < end) {
                self.notes.pop();
                columns = columns.map(|known| (known.0.min(column), known.1.max(column)));
            }
            self.piece.columns.extend(columns);
        }
    }

    fn cell(&mut self, digits: &[u8], cell: Cell) {
        let Cell { column, content, ink, look } = cell;
        let kind = self.kind(column, ink, look);
        self.push(b"<c r=\"");
        let at = usize::from(column);
        while self.letters.len() <= at {
            let next = column_letters(number_of(self.letters.len()));
            self.letters.push(next);
        }
        if let Some(letters) = self.letters.get(at) {
            self.piece.xml.extend_from_slice(letters.as_bytes());
        }
        self.push(digits);
        self.push(b"\"");
        self.leave_open(Open::Style(kind));
        match content {
            Content::Blank => self.push(b"/>"),
            Content::Text(text) => self.text(column, text),
            Content::Link { text, to } => {
                self.link(column, digits, &to);
                self.text(column, text);
            }
            Content::Number(number) => {
                self.push(b"><v>");
                push_stored(&mut self.piece.xml, number);
                self.push(b"</v></c>");
            }
            Content::Bool(yes) => self.push(if yes { b" t=\"b\"><v>1</v></c>" } else { b" t=\"b\"><v>0</v></c>" }),
            Content::Date(date) => match days(date) {
                Some(days) => {
                    self.push(b"><v>");
                    self.push(days.as_bytes());
                    self.push(b"</v></c>");
                }
                // A workbook's calendar begins in 1900.
                None => self.text(column, date.to_string()),
            },
            Content::Formula(formula) => self.formula(&formula),
        }
    }

    /// Of a cell that leads to another.
    fn link(&mut self, column: u16, digits: &[u8], to: &Ref) {
        let target = to.linked();
        let links = &mut self.piece.links;
        links.extend_from_slice(b"<hyperlink ref=\"");
        links.extend_from_slice(self.letters.get(usize::from(column)).map(String::as_bytes).unwrap_or_default());
        links.extend_from_slice(digits);
        for attribute in [b"\" location=\"".as_slice(), b"\" display=\""] {
            links.extend_from_slice(attribute);
            push_attribute(links, &target);
        }
        links.extend_from_slice(b"\"/>");
    }

    fn formula(&mut self, formula: &Formula) {
        self.push(match &formula.result {
            Outcome::Number(_) => b"><f>",
            Outcome::Text(_) => b" t=\"str\"><f>",
        });
        for part in formula.parts() {
            push_escaped(&mut self.piece.xml, part);
        }
        self.push(b"</f><v>");
        match &formula.result {
            Outcome::Number(number) => push_stored(&mut self.piece.xml, *number),
            Outcome::Text(text) => push_escaped(&mut self.piece.xml, text),
        }
        self.push(b"</v></c>");
    }

    fn text(&mut self, column: u16, text: String) {
        if text.is_empty() {
            return self.push(b"/>");
        }
        let text = match fitting(&text) {
            whole if whole.len() == text.len() => text,
            fitting => fitting.to_owned(),
        };
        self.piece.uses = self.piece.uses.saturating_add(1);
        let texts = &mut self.piece.texts;
        let stood = self.last.get(usize::from(column)).and_then(|last| last.text);
        let known = stood.filter(|at| texts.get_index(*at as usize).is_some_and(|known| *known == text));
        let number = known.unwrap_or_else(|| number_of(texts.insert_full(text).0));
        if let Some(last) = self.last.get_mut(usize::from(column)) {
            last.text = Some(number);
        }
        self.push(b" t=\"s\"><v>");
        self.leave_open(Open::Text(number));
        self.push(b"</v></c>");
    }

    /// The number of a kind.
    fn kind(&mut self, column: u16, ink: Ink, look: Look) -> u32 {
        let at = usize::from(column);
        if self.last.len() <= at {
            self.last.resize(at.saturating_add(1), Last::default());
        }
        let kinds = &mut self.piece.kinds;
        let is_it = |kind: &CellKind| kind.0 == ink && kind.1 == look;
        let stood = self.last.get(at).and_then(|last| last.kind);
        if let Some(kind) = stood.filter(|kind| kinds.get(*kind as usize).is_some_and(is_it)) {
            return kind;
        }
        let kind = number_of(kinds.iter().position(is_it).unwrap_or(kinds.len()));
        if kinds.len() == kind as usize {
            kinds.push((ink, look));
        }
        if let Some(last) = self.last.get_mut(at) {
            last.kind = Some(kind);
        }
        kind
    }

    /// The cells of a row from left to right, the last of those that share a column; a text over several columns goes on in
    /// blank ones.
    fn in_columns(&mut self, row: u32, cells: Vec<Cell>) -> Vec<Cell> {
        let flows = |cell: &Cell| match (&cell.look, &cell.content) {
            (Look::Flowing(last), Content::Text(_) | Content::Formula(_)) if *last > cell.column => Some(*last),
            _ => None,
        };
        let ordered = cells.is_sorted_by(|one, other| one.column < other.column);
        if ordered && !cells.iter().any(|cell| flows(cell).is_some()) {
            return cells;
        }
        self.know(&cells);
        let mut placed = BTreeMap::new();
        for cell in cells {
            if let Some(last) = flows(&cell) {
                self.piece.merged.push((row, cell.column, last));
                for column in cell.column.saturating_add(1)..=last {
                    placed.insert(
                        column,
                        Cell { column, content: Content::Blank, ink: cell.ink, look: cell.look.clone() },
                    );
                }
            }
            placed.insert(cell.column, cell);
        }
        placed.into_values().collect()
    }
}

fn number_of(index: usize) -> u32 {
    u32::try_from(index).unwrap_or(u32::MAX)
}
