//! Going down a sheet, row by row: where tables and cards begin and end, and which row belongs to which.

use crate::book::find::card::{Card, LabelCell};
use crate::book::find::header::{self, HeaderRow};
use crate::book::find::headings::Headings;
use crate::book::find::labels::{is_label_row, is_one_label, names_a_card, not_a_label, starts_card};
use crate::book::find::not_read::{is_guide, not_read};
use crate::book::find::open::OpenTable;
use crate::book::find::side_by_side::SideBySide;
use crate::book::find::{Found, loose, own_sheet, titled_unit};
use crate::book::grid::{Grid, GridRow};
use crate::in_order::InOrder;
use crate::problem::{CellRef, Code, Fault, Place, Problem};
use crate::schema::as_written::Seal;
use crate::schema::{Label, TableKind, Typed, Value, marker, output};

/// How a sheet is to be taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SheetState {
    /// Tables or cards were found on it.
    Read,
    /// Our own output: passed over.
    Output,
    /// No known table is on it.
    NotRead,
    /// The instructions of a template, and nothing else: nobody expects them to be read.
    Guide,
    /// The names to choose from of a template, which say again what was typed elsewhere: passed over.
    Choices,
    /// Nothing is on it.
    Empty,
}

/// What was found on a sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetTables<'g> {
    /// The sheet.
    pub place: Place,
    /// How it is to be taken.
    pub standing: SheetState,
    /// Its tables and cards, in the order of where they begin.
    pub found: Vec<Found<'g>>,
    /// What is wrong with it, or was passed over.
    pub problems: Vec<Problem>,
    /// The cells of tables that fit two kinds, by row and column: not read, but not lost.
    pub unread: Vec<(u32, u32, Typed)>,
    /// Whether a row in which only cells without a value stand may belong to something found.
    loose_rows: bool,
}

impl SheetTables<'_> {
    /// Whether a cell that matters is there but has no value, so that it may be a formula saved without its result.
    pub fn may_lack_values(&self) -> bool {
        self.loose_rows
            || self.found.iter().any(|found| match found {
                Found::Table(table) => table.may_lack_values(),
                Found::Loose(_) => false,
                Found::Card(card) => {
                    card.labels.iter().any(|cell| cell.valueless)
                        || card.lines.iter().any(|lines| lines.may_lack_values())
                }
            })
    }
}

/// Finds the tables and cards on a sheet.
pub fn find(grid: &Grid) -> SheetTables<'_> {
    find_with(grid, &Headings::default())
}

/// Finds the tables and cards on a sheet whose headings are to be taken as `headings` says.
pub fn find_with<'g>(grid: &'g Grid, headings: &Headings) -> SheetTables<'g> {
    let place = grid.place().clone();
    let sheet = |standing| SheetTables {
        place,
        standing,
        found: Vec::new(),
        problems: Vec::new(),
        unread: Vec::new(),
        loose_rows: false,
    };
    if let Some(own) = own_sheet::known(grid) {
        return SheetTables { problems: own.problem(grid).into_iter().collect(), ..sheet(SheetState::Output) };
    }
    if grid.is_empty() {
        return SheetTables { loose_rows: grid.last_valueless_row().is_some(), ..sheet(SheetState::Empty) };
    }
    if matches!(&grid.get(0, 0).value, Value::Text(text) if marker::is_choices(text)) {
        return sheet(SheetState::Choices);
    }
    let mut finder = Finder::new(grid, headings);
    if !headings.is_list() {
        finder.certain = loose::certain_starts(grid);
    }
    for (at, row) in grid.rows().iter().enumerate() {
        finder.row(row, grid.rows().get(at + 1..).unwrap_or_default());
    }
    let found = finder.finish();
    // Where one card is certain and nothing of ours is there, the others on the sheet are cards too.
    let all_loose = !found.found.is_empty() && found.found.iter().all(|one| matches!(one, Found::Loose(_)));
    if (all_loose || found.standing == SheetState::NotRead) && !headings.is_list() {
        loose_cards(grid).unwrap_or(found)
    } else {
        found
    }
}

/// A sheet without a table of ours, on which recipes stand as people type them.
fn loose_cards(grid: &Grid) -> Option<SheetTables<'_>> {
    let (cards, problems) = loose::find(grid, 0, u32::MAX);
    (!cards.is_empty()).then(|| SheetTables {
        place: grid.place().clone(),
        standing: SheetState::Read,
        found: cards.into_iter().map(|(_, card)| Found::Loose(card)).collect(),
        problems,
        unread: Vec::new(),
        loose_rows: grid.has_valueless(),
    })
}

/// A card whose end is not reached.
#[derive(Debug)]
struct OpenCard<'g> {
    start: CellRef,
    card: Card<'g>,
}

/// What is open while going down a sheet.
struct Finder<'g, 'h> {
    grid: &'g Grid,
    headings: &'h Headings,
    /// Tables that go on, the lines of the card among them.
    tables: SideBySide<'g>,
    /// The card that goes on.
    card: Option<OpenCard<'g>>,
    /// What was found and is closed, by where it begins.
    found: Vec<(CellRef, Found<'g>)>,
    problems: Vec<Problem>,
    /// The cells of tables that fit two kinds.
    unread: Vec<(u32, u32, Typed)>,
    /// The lower of two rows that are one heading.
    lower: Option<u32>,
    /// The rows in which a recipe without the word Recipe begins for certain.
    certain: Vec<u32>,
    /// The first row of the loose cards that go on.
    loose: Option<u32>,
    /// Rows before the first table or card: the first, the last, and whether one is more than a title.
    before: Option<(u32, u32, bool)>,
}

impl<'g, 'h> Finder<'g, 'h> {
    fn new(grid: &'g Grid, headings: &'h Headings) -> Self {
        Finder {
            grid,
            headings,
            tables: SideBySide::default(),
            card: None,
            found: Vec::new(),
            problems: Vec::new(),
            unread: Vec::new(),
            lower: None,
            certain: Vec::new(),
            loose: None,
            before: None,
        }
    }

    /// Takes one row; `below` are the filled rows after it.
    fn row(&mut self, row: &'g GridRow, below: &'g [GridRow]) {
        let next = below.first();
        if self.lower == Some(row.row) {
            return;
        }
        if row.cells().iter().any(|(at, typed)| self.tables.over(*at).is_some_and(|table| table.wrote(*at, typed))) {
            return self.cells(row, row.cells(), false);
        }
        let in_labels = self.card.is_some() && self.tables.is_empty();
        if self.certain.binary_search(&row.row).is_ok() && !in_labels {
            self.close_all();
            self.loose.get_or_insert(row.row);
        }
        let spans = if self.loose.is_some() { &[] } else { self.tables.spans() };
        let is_card = is_label_row(row) || names_a_card(row, below);
        let headers = if is_card || (in_labels && is_one_label(row)) {
            Vec::new()
        } else {
            let joined = next.filter(|_| self.card.is_none());
            match joined.and_then(|next| header::joined(row, next, spans, self.headings)) {
                Some(joined) => {
                    self.lower = row.row.checked_add(1);
                    vec![joined]
                }
                None => header::header_rows(row, self.card.is_some(), spans, self.headings),
            }
        };
        if self.loose.is_some() {
            if headers.is_empty() && !starts_card(row, next) {
                return;
            }
            self.close_loose(row.row);
        }
        if !headers.is_empty() {
            let spans: Vec<(u32, u32)> = headers.iter().map(HeaderRow::span).collect();
            let after = |at: u32| spans.get(spans.partition_point(|span| span.1 < at));
            let within = |at: u32| after(at).is_some_and(|span| span.0 <= at);
            self.open(&headers, row.row);
            self.cells(row, row.cells().iter().filter(|(at, _)| !within(*at)), true);
        } else if starts_card(row, next) {
            self.close_all();
            let start = CellRef::new(row.row, row.cells().first().map_or(0, |(at, _)| *at));
            let card = Card { place: self.grid.place_of(start), labels: Vec::new(), lines: Vec::new() };
            self.card = Some(OpenCard { start, card });
            self.labels(row);
        } else if self.card.is_some() && self.tables.is_empty() {
            self.labels(row);
        } else if self.tables.is_empty() {
            let title = match row.cells() {
                [(_, Typed { value: Value::Text(_), .. })] => true,
                [(_, Typed { value: Value::Text(text), .. }), ..] => output::is_bench_label(text),
                _ => false,
            };
            let (first, _, more) = self.before.unwrap_or((row.row, row.row, false));
            self.before = Some((first, row.row, more || !title));
        } else {
            self.cells(row, row.cells(), false);
        }
    }

    /// Opens the tables of a header row, and closes what they end.
    fn open(&mut self, headers: &[HeaderRow<'g>], row: u32) {
        for header in headers {
            let table = OpenTable::new(header, row);
            let span = table.span();
            let same = self.tables.beginning_at(span.0).filter(|open| open.has_same_header(&table));
            if let Some(same) = same {
                same.next_page(self.grid, row);
                continue;
            }
            let ended = self.tables.take_under(span);
            let lines = table.kind() == Some(TableKind::CardLines);
            let ends_card =
                ended.iter().any(|open| open.kind() == Some(TableKind::CardLines)) || !self.tables.has_lines();
            for open in ended {
                self.close_table(open);
            }
            if !lines && ends_card {
                self.close_card();
            }
            if table.kind().is_none() {
                let kinds: Vec<&str> = header.kinds.iter().map(|kind| kind.name()).collect();
                self.problems.push(
                    Fault::new(
                        Code::TableAmbiguous,
                        format!(
                            "this header row fits two kinds of table, {}; the rows under it were not read",
                            kinds.join(" and ")
                        ),
                        "Make two tables of it, each with its own columns.",
                    )
                    .at(self.grid.place_of(table.start())),
                );
            }
            self.tables.add(table);
        }
    }

    /// Gives the `cells` of `row` to the tables they belong to: the one they stand under, else the nearest. Beside a
    /// header, cells that stand under no table are the header's own business.
    fn cells<I>(&mut self, row: &'g GridRow, cells: I, beside_header: bool)
    where
        I: IntoIterator<Item = &'g (u32, Typed)>,
        I::IntoIter: Clone,
    {
        if let (Some(only), false) = (self.tables.only(), beside_header) {
            only.take(self.grid, row, cells.into_iter());
            return;
        }
        let (grid, cells) = (self.grid, cells.into_iter());
        let column = |cell: &&'g (u32, Typed)| cell.0;
        let take = |table: &mut OpenTable<'g>, share: &[&'g (u32, Typed)]| table.take(grid, row, share.iter().copied());
        if beside_header {
            self.tables.share_among_older(row.row, cells, column, take);
        } else {
            self.tables.share(cells, column, take);
        }
    }

    /// Reads a row of a card above its line header: labels, each with the cell right beside it.
    fn labels(&mut self, row: &'g GridRow) {
        let Some(open) = self.card.as_mut() else { return };
        let mut cells = row.cells().iter().peekable();
        while let Some((at, typed)) = cells.next() {
            let place = self.grid.place_of(CellRef::new(row.row, *at));
            let beside = at.saturating_add(1);
            let text = if let Value::Text(text) = &typed.value { text.as_str() } else { "" };
            if let Some((label, default)) = Label::read(text) {
                let value_place = self.grid.place_of(CellRef::new(row.row, beside));
                let (value, valueless) = (row.get(beside), row.is_valueless(beside));
                open.card.labels.push(LabelCell { label, place: value_place, value, default, valueless });
            } else if !output::is_card_label(text) && Seal::read(text).is_none() {
                self.problems.push(not_a_label(typed, row.get(beside), row.cells().len()).at(place));
            }
            cells.next_if(|(next, _)| *next == beside);
        }
    }

    /// Closes a table and keeps it, the card's lines with the card.
    fn close_table(&mut self, mut open: OpenTable<'g>) {
        let start = open.start();
        self.unread.append(&mut open.take_unread());
        let (table, mut problems) = open.close(self.grid);
        self.problems.append(&mut problems);
        let Some(table) = table else { return };
        match (&mut self.card, table.kind) {
            (Some(open), TableKind::CardLines) => open.card.lines.push(table),
            _ => self.found.push((start, Found::Table(table))),
        }
    }

    /// Closes the loose cards, the last of which ends above the row `end`.
    fn close_loose(&mut self, end: u32) {
        let Some(first) = self.loose.take() else { return };
        let (cards, mut problems) = loose::find(self.grid, first, end);
        self.found.extend(cards.into_iter().map(|(start, card)| (start, Found::Loose(card))));
        self.problems.append(&mut problems);
    }

    /// Closes the card and keeps it, unless it is an empty form.
    fn close_card(&mut self) {
        let Some(OpenCard { start, card }) = self.card.take() else { return };
        if !card.is_empty_form() || card.labels.iter().any(|cell| cell.valueless) {
            self.found.push((start, Found::Card(card)));
        }
    }

    /// Closes everything.
    fn close_all(&mut self) {
        for open in self.tables.take_all() {
            self.close_table(open);
        }
        self.close_card();
    }

    /// What was found, with the sheet's own notes.
    fn finish(mut self) -> SheetTables<'g> {
        self.close_loose(u32::MAX);
        let any = self.card.is_some() || !self.tables.is_empty() || !self.found.is_empty();
        self.close_all();
        self.found.put_in_order_by_key(|(start, _)| *start);
        self.unread.put_in_order_by_key(|(row, column, _)| (*row, *column));
        for (_, found) in &self.found {
            if let Found::Table(table) = found {
                self.problems.extend(titled_unit::doubt(self.grid, table));
            }
        }
        let first = self.found.first().map(|(start, _)| start.row);
        let mut standing = if any { SheetState::Read } else { SheetState::NotRead };
        if !any {
            let not_read = not_read(self.grid, self.headings);
            // Where something looks like a header, or lost its value, somebody typed on it what should count.
            let is_bare = not_read.code == Code::SheetNotRead && not_read.place.cell_ref().is_none();
            if is_bare && is_guide(self.grid) {
                standing = SheetState::Guide;
            } else {
                self.problems.push(not_read);
            }
        } else if let Some((first, last, true)) = self.before {
            self.problems.push(
                Fault::new(
                    Code::RowsNotRead,
                    format!("rows {} to {} stand above the first table or card and were not read", first + 1, last + 1),
                    "Nothing to do, unless they hold something that should count: then give them a header row.",
                )
                .at(self.grid.place_of(CellRef::new(first, 0))),
            );
        }
        let last = self.grid.last_valueless_row();
        let loose_rows = if any { last > first } else { last.is_some() };
        SheetTables {
            place: self.grid.place().clone(),
            standing,
            found: self.found.into_iter().map(|(_, found)| found).collect(),
            problems: self.problems,
            unread: self.unread,
            loose_rows,
        }
    }
}
