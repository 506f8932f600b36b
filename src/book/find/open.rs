//! A table while its rows are coming in: which cell of a row means what, what is passed over, and the notes on it.

mod close;
mod invoices;

pub(in crate::book) use invoices::passed_over;

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::book::find::header::HeaderRow;
use crate::book::find::table::{Heading, TableRow};
use crate::book::grid::{Grid, GridRow};
use crate::problem::{CellRef, Code, Fault, Problem};
use crate::schema::header::same;
use crate::schema::row_names::{is_clear_heading, is_total};
use crate::schema::{Column, TableKind, Typed, Value, fill_in, output};

/// What a header cell stands for.
#[derive(Debug)]
enum Head {
    /// A column of the kind, and whether under its canonical header.
    Known { heading: Heading, canonical: bool },
    /// A reading or figure of ours, under its header.
    Ours { text: String },
    /// One of several columns of one meaning that is not used.
    Unused,
    /// A header that the kind does not know.
    Ignored { text: String },
}

/// A table whose end is not reached.
#[derive(Debug)]
pub(super) struct OpenTable<'g> {
    /// Its kind; `None` under an ambiguous header, whose rows are swallowed.
    kind: Option<TableKind>,
    /// The row of its header.
    header: u32,
    /// Its header cells by zero-based column.
    heads: BTreeMap<u32, Head>,
    /// The first of its columns that mean the same, by meaning.
    first: BTreeMap<Column, u32>,
    /// Our columns that are filled beside every row.
    sources: Vec<u32>,
    /// Its rows so far.
    rows: Vec<TableRow<'g>>,
    /// The heading that the next rows stand under.
    group: Option<Arc<str>>,
    /// Its headings as typed: where each stands, and how many rows stood above it.
    headings: Vec<(CellRef, String, usize)>,
    /// Columns without a header in which something stands: the first cell and how many.
    stray: BTreeMap<u32, (CellRef, usize)>,
    /// What there was to say about its rows.
    problems: Vec<Problem>,
    /// Its cells, header and all, when its header was ambiguous and none of them is read.
    unread: Vec<(u32, u32, Typed)>,
}

impl<'g> OpenTable<'g> {
    /// The table that `header`, in the sheet's row `row`, opens.
    pub fn new(header: &HeaderRow<'g>, row: u32) -> Self {
        let kind = match header.kinds.as_slice() {
            [kind] => Some(*kind),
            _ => None,
        };
        let head = |cell: &crate::book::find::header::HeaderCell<'g>| match kind {
            Some(kind) => match cell.meaning(kind) {
                Some(meaning) => Head::Known {
                    heading: Heading {
                        column: meaning.column,
                        at: cell.at,
                        text: cell.text.clone().into_owned(),
                        default: cell.read.default_of(meaning.column, &cell.text),
                    },
                    canonical: meaning.canonical,
                },
                None if output::is_column(kind, &cell.text) => Head::Ours { text: cell.text.clone().into_owned() },
                None => Head::Ignored { text: cell.text.clone().into_owned() },
            },
            None => Head::Unused,
        };
        let mut table = OpenTable {
            kind,
            header: row,
            heads: header.cells.iter().map(|cell| (cell.at, head(cell))).collect(),
            first: BTreeMap::new(),
            sources: Vec::new(),
            rows: Vec::new(),
            group: None,
            headings: Vec::new(),
            stray: BTreeMap::new(),
            problems: Vec::new(),
            unread: Vec::new(),
        };
        for (at, head) in &table.heads {
            match head {
                Head::Known { heading, .. } => {
                    table.first.entry(heading.column).or_insert(*at);
                }
                Head::Ours { text } if is_source(text) => table.sources.push(*at),
                _ => {}
            }
        }
        if kind.is_none() {
            table.unread.extend(header.cells.iter().map(|cell| (row, cell.at, Typed::text(cell.text.as_ref()))));
        }
        table
    }

    /// Its kind, unless its header was ambiguous.
    pub fn kind(&self) -> Option<TableKind> {
        self.kind
    }

    /// The first cell of its header.
    pub fn start(&self) -> CellRef {
        CellRef::new(self.header, self.span().0)
    }

    /// Its first and last column.
    pub fn span(&self) -> (u32, u32) {
        let first = self.heads.first_key_value().map_or(0, |(at, _)| *at);
        (first, self.heads.last_key_value().map_or(0, |(at, _)| *at))
    }

    /// Whether `other` has the same headers in the same columns: a header repeated on the next page.
    pub fn has_same_header(&self, other: &OpenTable<'_>) -> bool {
        self.kind.is_some()
            && self.kind == other.kind
            && self.heads.len() == other.heads.len()
            && self.heads.iter().zip(&other.heads).all(|((at, head), (other_at, other))| {
                at == other_at
                    && match (head, other) {
                        (Head::Known { heading: a, .. }, Head::Known { heading: b, .. }) => {
                            a.column == b.column && a.default == b.default
                        }
                        (Head::Ours { .. }, Head::Ours { .. }) | (Head::Unused, Head::Unused) => true,
                        (Head::Ignored { text: a }, Head::Ignored { text: b }) => a == b,
                        _ => false,
                    }
            })
    }

    /// Whether the row of a cell is one of this table for certain: something but its header stands in a column of our own,
    /// so we wrote it, whatever its name looks like.
    pub fn wrote(&self, at: u32, typed: &Typed) -> bool {
        let ours = match (self.heads.get(&at), &typed.value) {
            (Some(Head::Ours { text }), Value::Text(found)) => !same(text, found),
            (Some(Head::Ours { .. }), value) => *value != Value::Blank,
            _ => false,
        };
        ours && self.kind.is_some()
    }

    /// Whether we wrote beside `line` where its ingredient comes from, as we do for every line and for no total, or that
    /// it is a row.
    fn has_source(&self, line: &GridRow) -> bool {
        self.sources.iter().any(|at| !line.get(*at).is_blank())
    }

    /// Whether a key of ours stands in `line`.
    fn has_key(&self, line: &GridRow) -> bool {
        let is_key = |head: &Head| matches!(head, Head::Ours { text } if same(text, output::ROW_KEY));
        self.heads.iter().any(|(at, head)| is_key(head) && !line.get(*at).is_blank())
    }

    /// Whether `line`, a price row, says what its price is for.
    fn says_what_for(&self, line: &GridRow) -> bool {
        [Column::Pack, Column::PackCount, Column::UnitSize, Column::SizeUnit, Column::Per]
            .into_iter()
            .filter_map(|column| self.column_at(column))
            .any(|at| !line.get(at).is_blank())
    }

    /// Takes the `cells` of `line` that are its own.
    pub fn take(&mut self, grid: &Grid, line: &'g GridRow, cells: impl Iterator<Item = &'g (u32, Typed)> + Clone) {
        let mut start = cells.clone();
        let Some(kind) = self.kind else {
            return self.unread.extend(cells.map(|(at, typed)| (line.row, *at, typed.clone())));
        };
        let Some((first, first_cell)) = start.next() else { return };
        let alone = start.next().is_none();
        let here = CellRef::new(line.row, *first);
        if !self.has_source(line) && self.is_ours_or_total(grid, kind, here, first_cell, line) {
            return;
        }
        if alone && kind == TableKind::Prices && invoices::is_remark(first_cell, *first, self.column_at(Column::Item)) {
            self.problems.push(invoices::passed_over(&first_cell.seen(), "is a remark").at(grid.place_of(here)));
            return;
        }
        if let Some(text) = self.heading_in(kind, *first, first_cell).filter(|_| alone) {
            self.headings.push((here, text.to_owned(), self.rows.len()));
            self.group = Some(Arc::from(text.trim_end_matches(':').trim_end()));
            return;
        }
        let mut understood = false;
        for (at, _) in cells {
            match self.heads.get(at) {
                Some(Head::Known { .. }) => understood = true,
                Some(_) => {}
                None => {
                    let stray = self.stray.entry(*at).or_insert((CellRef::new(line.row, *at), 0));
                    stray.1 += 1;
                }
            }
        }
        if understood {
            self.rows.push(TableRow { line, group: self.group.clone() });
        }
    }

    /// Whether a row is one of our own totals on a card, or a total of the user's, which is noted. A line of a
    /// flat list comes to stand on a card of ours, so what would be a total there is one here.
    fn is_ours_or_total(&mut self, grid: &Grid, kind: TableKind, here: CellRef, first: &Typed, line: &GridRow) -> bool {
        let is = |typed: &Typed, what: fn(&str) -> bool| matches!(&typed.value, Value::Text(text) if what(text));
        let item = self.column_at(Column::Item).map(|at| (CellRef::new(line.row, at), line.get(at)));
        let named = match kind {
            TableKind::CardLines if is(first, output::is_card_label) => return true,
            // One of the menu has a key.
            TableKind::Menu if is(first, output::is_on_its_card) && !self.has_key(line) => return true,
            TableKind::CardLines => {
                [Some((here, first)), item].into_iter().flatten().find(|(_, cell)| is(cell, is_total))
            }
            TableKind::RecipeLines => item.filter(|(_, cell)| is(cell, is_total) || is(cell, output::is_card_label)),
            // What an order comes to stands below many a price list; a thing for sale would have a pack or a unit.
            TableKind::Prices if !self.says_what_for(line) => item.filter(|(_, cell)| is(cell, is_total)),
            _ => None,
        };
        if let Some((at, named)) = named {
            self.problems.push(
                Fault::new(
                    Code::TotalSkipped,
                    format!("the row “{}” was skipped: totals are computed", named.seen()),
                    "If something that counts has that name, give it another.",
                )
                .at(grid.place_of(at)),
            );
        }
        named.is_some()
    }

    /// The text of a row's only cell, when it makes the row a heading: text in the table's first column or before it.
    /// Where a name alone can be a row, and in the name's own column, only in capitals or with a colon at its end.
    fn heading_in<'t>(&self, kind: TableKind, at: u32, only: &'t Typed) -> Option<&'t str> {
        let Value::Text(text) = &only.value else { return None };
        if !kind.has_headings() || only.error().is_some() || only.lost_formula().is_some() {
            return None;
        }
        let clear = is_clear_heading(text);
        let named = matches!(self.heads.get(&at), Some(Head::Known { heading, .. }) if Some(&heading.column) == kind.signature().all.first());
        let first = at <= self.span().0;
        let is_heading = if kind.name_alone_is_a_row() { clear && (first || named) } else { first || (clear && named) };
        if is_heading { Some(text) } else { None }
    }

    /// Where the table has `column`, before columns of one meaning are settled.
    fn column_at(&self, column: Column) -> Option<u32> {
        self.first.get(&column).copied()
    }

    /// The cells that are not read because its header was ambiguous.
    pub fn take_unread(&mut self) -> Vec<(u32, u32, Typed)> {
        std::mem::take(&mut self.unread)
    }
}

/// Whether it is the header of a column that we fill beside every row, and beside no total.
fn is_source(header: &str) -> bool {
    same(header, "Source") || same(header, output::ROW_READ_AS) || same(header, fill_in::ASKED_AT)
}
