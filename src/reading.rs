//! From the bytes of a book's files to its kitchen: the one place where `book` and `kitchen` meet.

mod typed_over;

use std::collections::{HashMap, HashSet};
use std::convert::Infallible;

use jiff::civil::Date;

use crate::analysis::supplier_list;
use crate::analysis::supplier_list::PriceList;
use crate::book::{self, Found, Grid, ReadError, SheetState, SheetTables, Source, find};
use crate::costing::Costing;
use crate::in_order::InOrder;
use crate::kitchen::list::ListOptions;
use crate::kitchen::resolve::{Options, resolve};
use crate::kitchen::{Entries, Kitchen};
use crate::problem::{Code, Fault, Place, Problem};
use crate::schema::{CarriedSheet, FoundTable, MOST_CHARACTERS, SheetFound, TableKind, Typed, marker, memory};

/// A book that has been read.
#[derive(Debug, Clone)]
pub struct Reading {
    /// Its rows, with every name resolved.
    pub kitchen: Kitchen,
    /// What was met on the way.
    pub problems: Vec<Problem>,
    /// What was found on each sheet, in book order.
    pub sheets: Vec<SheetFound>,
    /// What was not read: sheets that hold no known table, and tables that fit two kinds.
    pub carried: Vec<CarriedSheet>,
    /// The names of the files that the book's figures come from.
    pub origins: Vec<String>,
    /// What was typed over of a costed workbook.
    typed_over: Vec<book::typed_over::TypedOver>,
    /// How many of the problems were met before names were looked up: the first.
    of_cells: usize,
    /// What the caller decided.
    options: Options,
}

/// The files of a book, opened and kept: their cells, before anything is made of them.
///
/// For callers who try things out: [`Opened::set`] says what a cell would hold instead, and [`Opened::read`] reads the book
/// as it then stands. No file is opened a second time.
#[derive(Debug, Clone)]
pub struct Opened {
    grids: Vec<Grid>,
    /// Every file, with the files that its figures come from.
    origins: Vec<(String, Vec<String>)>,
    /// What the caller decided.
    options: Options,
}

/// Opens the files of a book. Takes bytes; opens nothing itself.
///
/// # Errors
/// As [`read`].
pub fn open(sources: &[Source<'_>], options: Options) -> Result<Opened, ReadError> {
    let mut grids: Vec<Grid> = Vec::new();
    let mut origins: Vec<(String, Vec<String>)> = Vec::new();
    for source in sources {
        let of_file = book::grids(source, &options.limits)?;
        origins.push((source.name.to_owned(), figured_from(&of_file)));
        grids.extend(of_file);
    }
    refuse_own_source(&origins)?;
    Ok(Opened { grids, origins, options })
}

/// Reads the files of a book. Takes bytes; opens nothing.
///
/// # Errors
/// [`ReadError`] when a file cannot be read at all, or when a costed workbook is given together with a file that it
/// was made from. What is wrong inside a book is among the problems.
pub fn read(sources: &[Source<'_>], options: Options) -> Result<Reading, ReadError> {
    let Opened { grids, origins, options } = open(sources, options)?;
    let cells = grids.iter().map(Grid::memory).fold(0, usize::saturating_add);
    let rows = RowsRead::of(&grids, |sheets| {
        let found = sheets.iter().flat_map(|sheet| &sheet.found);
        expect_memory(sources, found.map(memory_of).fold(0, usize::saturating_add))
    })?;
    // What counts stands in the rows: the kitchen can take the room of the cells.
    drop(grids);
    // Names are looked up in what takes about as much as the cells did.
    expect_memory(sources, cells)?;
    Ok(rows.resolved(&origins, options))
}

impl Opened {
    /// What stands in a cell; `None` where it is not filled, or there is no such sheet.
    pub fn cell(&self, place: &Place) -> Option<&Typed> {
        let cell = place.cell_ref()?;
        let grid = self.grids.iter().find(|grid| is_sheet(grid, place))?;
        Some(grid.get(cell.row, cell.column)).filter(|typed| !typed.is_blank())
    }

    /// Puts `typed` into a cell, as if it had been typed there; gives what stood in it. `None`, and nothing is changed, where
    /// no such cell is filled.
    pub fn set(&mut self, place: &Place, typed: Typed) -> Option<Typed> {
        let cell = place.cell_ref()?;
        self.grids.iter_mut().find(|grid| is_sheet(grid, place))?.set(cell, typed)
    }

    /// Reads the book as it stands.
    pub fn read(&self) -> Reading {
        let Ok(rows) = RowsRead::of(&self.grids, |_| Ok::<(), Infallible>(()));
        rows.resolved(&self.origins, self.options)
    }
}

/// Whether a grid is the sheet of a place.
fn is_sheet(grid: &Grid, place: &Place) -> bool {
    grid.place().file_name() == place.file_name() && grid.place().sheet_name() == place.sheet_name()
}

/// What was read from the cells of a book, before names are looked up.
struct RowsRead {
    entries: Entries,
    problems: Vec<Problem>,
    sheets: Vec<SheetFound>,
    carried: Vec<CarriedSheet>,
    typed_over: Vec<book::typed_over::TypedOver>,
}

impl RowsRead {
    /// Reads the rows of the tables and cards on the sheets, once `before` has looked at these.
    fn of<E>(grids: &[Grid], before: impl FnOnce(&[SheetTables<'_>]) -> Result<(), E>) -> Result<Self, E> {
        let mut sheets: Vec<SheetTables<'_>> = grids.iter().map(find::find).collect();
        find::pass_over_copies(&mut sheets);
        before(&sheets)?;
        let (entries, cell_problems) = book::rows::read(&sheets);
        let mut problems: Vec<Problem> = sheets.iter().flat_map(|sheet| sheet.problems.iter().cloned()).collect();
        problems.extend(grids.iter().flat_map(|grid| cut(grid).chain(beyond(grid)).chain(repeated(grid))));
        let typed_over = book::typed_over::cells(grids, &sheets);
        problems.extend(cell_problems);
        let carried = grids.iter().zip(&sheets).filter_map(|(grid, sheet)| carry(grid, sheet)).collect();
        Ok(RowsRead { entries, problems, sheets: sheets.iter().map(found_on).collect(), carried, typed_over })
    }

    fn resolved(self, origins: &[(String, Vec<String>)], options: Options) -> Reading {
        let RowsRead { entries, mut problems, sheets, carried, typed_over } = self;
        let of_cells = problems.len();
        let (kitchen, name_problems) = resolve(entries, options);
        problems.extend(name_problems);
        let origins =
            origins.iter().flat_map(|(file, from)| if from.is_empty() { vec![base_name(file)] } else { from.clone() });
        let origins = origins.collect();
        Reading { kitchen, problems, sheets, carried, origins, typed_over, of_cells, options }
    }
}

/// The bytes of memory that the rows of a table or card come to take.
fn memory_of(found: &Found<'_>) -> usize {
    /// A price row says much; and a list that grows is twice its size at the most.
    const OF_A_PRICE: usize = 1_500;
    const OF_A_ROW: usize = 1_000;
    match found {
        Found::Table(table) if table.kind == TableKind::Prices => table.rows.len().saturating_mul(OF_A_PRICE),
        Found::Table(table) => table.rows.len().saturating_mul(OF_A_ROW),
        Found::Card(card) => {
            card.lines.iter().map(|lines| lines.rows.len()).fold(0, usize::saturating_add).saturating_mul(OF_A_ROW)
        }
        Found::Loose(card) => card.lines.len().saturating_mul(OF_A_ROW),
    }
}

/// Refuses to go on where so many bytes of memory cannot be had.
fn expect_memory(sources: &[Source<'_>], bytes: usize) -> Result<(), ReadError> {
    let largest = sources.iter().max_by_key(|source| source.bytes.len());
    match largest.filter(|_| !memory::is_left(bytes.saturating_add(memory::LITTLE))) {
        Some(source) => Err(ReadError::NoMemory { file: source.name.to_owned() }),
        None => Ok(()),
    }
}

/// Reads suppliers' new lists and compares them with the book that `reading` read and `costing` costed. Changes nothing:
/// [`Reading::with_list`] gives the book with the new rows.
///
/// # Errors
/// [`ReadError`] when a file cannot be read at all, when no price row can be found in it, or when no file has a heading
/// that the options name.
pub fn read_list(
    reading: &Reading,
    costing: &Costing,
    files: &[Source<'_>],
    options: &ListOptions,
) -> Result<PriceList, ReadError> {
    let kitchen = &reading.kitchen;
    let currency = Some(kitchen.settings.currency.as_str()).filter(|code| !code.is_empty());
    let volumes = kitchen.settings.volumes;
    let known =
        book::list::KnownOfBook { entries: &kitchen.entries, currency, volumes, limits: reading.options.limits };
    let mut problems = Vec::new();
    let mut lists = Vec::new();
    for file in files {
        lists.push(book::list::read(file, known, options)?);
    }
    for (_, heading) in &options.columns {
        let lacks = |list: &&book::list::ListFile| list.not_found.contains(heading);
        if let Some(list) = lists.first().filter(|_| lists.iter().all(|list| lacks(&list))) {
            return Err(book::list::heading_not_found(list, heading));
        }
    }
    let layouts = book::list::to_remember(&lists, &kitchen.entries, options);
    let mut order: HashMap<(String, String), usize> = HashMap::new();
    let lists = lists.into_iter().map(|file| {
        problems.extend(file.problems);
        for sheet in file.sheets {
            let next = order.len();
            order.entry((sheet.file_name().to_owned(), sheet.sheet_name().to_owned())).or_insert(next);
        }
        file.list
    });
    let lists = lists.collect();
    let mut compared = supplier_list::compare(kitchen, costing, lists, options);
    problems.append(&mut compared.problems);
    let files: Vec<&str> = files.iter().map(|file| file.name).collect();
    problems.sort_by_cached_key(|problem| {
        let (file, sheet) = (problem.place.file_name(), problem.place.sheet_name());
        let file_at = files.iter().position(|name| *name == file);
        // What concerns a file as a whole comes first.
        let sheet_at = order.get(&(file.to_owned(), sheet.to_owned())).copied();
        (file_at, sheet_at, problem.place.cell_ref(), problem.severity(), problem.code)
    });
    Ok(PriceList { problems, layouts, ..compared })
}

impl Reading {
    /// The book to be costed on `day`, whatever its costing date is.
    #[must_use]
    pub fn on(mut self, day: Date) -> Reading {
        self.options.as_of = Some(day);
        self.kitchen.settings.costing_date = day;
        self
    }

    /// The book with the prices that `list` brings appended to its price rows, what the caller said of the list's columns to
    /// its supplier layouts, and every name looked up anew, on the same costing date.
    #[must_use]
    pub fn with_list(&self, list: &PriceList) -> Reading {
        let mut entries = self.kitchen.entries.clone();
        entries.prices.extend(list.new_rows());
        entries.layouts.extend(list.layouts.iter().cloned());
        let (kitchen, name_problems) = resolve(entries, self.options);
        let mut problems: Vec<Problem> = self.problems.iter().take(self.of_cells).cloned().collect();
        problems.extend(name_problems);
        Reading { kitchen, problems, ..self.clone() }
    }

    /// What the caller decided when it was read.
    pub(crate) fn options(&self) -> Options {
        self.options
    }

    /// All problems, those of `costing` included, in book order and each once.
    pub fn problems_with(&self, costing: &Costing) -> Vec<Problem> {
        let sheets: HashMap<(&str, &str), usize> =
            self.sheets.iter().enumerate().map(|(at, s)| ((s.place.file_name(), s.place.sheet_name()), at)).collect();
        let mut all: Vec<Problem> = self.problems.iter().chain(&costing.problems).cloned().collect();
        all.extend(typed_over::problems(self, costing));
        all.put_in_order_by_key(|problem| {
            let at = sheets.get(&(problem.place.file_name(), problem.place.sheet_name())).copied();
            (at.unwrap_or(usize::MAX), problem.place.cell_ref(), problem.severity(), problem.code)
        });
        let mut seen: HashSet<(Code, Place, String)> = HashSet::new();
        all.retain(|problem| seen.insert((problem.code, problem.place.clone(), problem.message())));
        all
    }
}

/// The cells of a sheet whose text was cut.
fn cut(grid: &Grid) -> impl Iterator<Item = Problem> {
    grid.cut().iter().map(|(cell, characters)| {
        let message =
            format!("the text has {characters} characters, and a cell holds {MOST_CHARACTERS}; the rest was left out");
        let help = "Shorten it, or part it among several cells. If it holds other rows, a quotation mark is missing.";
        Fault::new(Code::TextTooLong, message, help).at(grid.place_of(*cell))
    })
}

/// The rows of a sheet that were filled down by accident and were read once.
fn repeated(grid: &Grid) -> impl Iterator<Item = Problem> {
    grid.repeated().iter().map(|(first, count)| {
        let message = format!("this row stands {count} times, one below the other, and was read once");
        let help = "Take out the copies below it. If they are meant, let each say how it differs.";
        Fault::new(Code::RowsRepeated, message, help).at(grid.place_of(*first))
    })
}

/// The cells of a sheet that lay beyond its last row or column.
fn beyond(grid: &Grid) -> Option<Problem> {
    let (first, count) = grid.beyond()?;
    let cells = if count == 1 { "this cell lies".to_owned() } else { format!("{count} cells from this one on lie") };
    let message = format!("{cells} beyond the last row or column of a sheet, which is XFD1048576, and were left out");
    let message = if count == 1 { message.replace("and were left", "and was left") } else { message };
    let help = "Part the file into several, or take out the empty columns. If one line holds a whole file, its line breaks \
                were lost.";
    Some(Fault::new(Code::CellBeyondSheet, message, help).at(grid.place_of(first)))
}

/// The file's name without its folders.
pub(crate) fn base_name(file: &str) -> String {
    file.rsplit(['/', '\\']).next().unwrap_or(file).to_owned()
}

/// The files that a costed workbook says it was made from; nothing for any other.
fn figured_from(grids: &[Grid]) -> Vec<String> {
    grids.iter().find_map(find::mark).map(marker::origins).unwrap_or_default()
}

/// A costed workbook beside its own source would count every row twice.
fn refuse_own_source(files: &[(String, Vec<String>)]) -> Result<(), ReadError> {
    for (costed, from) in files {
        let source = files.iter().find(|(file, of)| of.is_empty() && from.contains(&base_name(file)));
        let twin = files
            .iter()
            .find(|(file, of)| file != costed && !from.is_empty() && of.iter().any(|one| from.contains(one)));
        if let Some((source, _)) = source.or(twin) {
            return Err(ReadError::OutputWithSource { costed: costed.clone(), origin: source.clone() });
        }
    }
    Ok(())
}

/// What is carried over of a sheet: all of it when no table is on it, else the tables that fit two kinds.
fn carry(grid: &Grid, found: &SheetTables<'_>) -> Option<CarriedSheet> {
    let cells: Vec<(u32, u32, Typed)> = match found.standing {
        SheetState::NotRead | SheetState::Guide => {
            let cells = grid.rows().iter().flat_map(|row| row.cells().iter().map(|(at, typed)| (row.row, *at, typed)));
            cells.map(|(row, column, typed)| (row, column, typed.clone())).collect()
        }
        SheetState::Read if !found.unread.is_empty() => found.unread.clone(),
        _ => return None,
    };
    let sheet = grid.place().sheet_name();
    let base = base_name(grid.place().file_name());
    let stem = base.rsplit_once('.').map_or(base.as_str(), |(stem, _)| stem);
    let name = if sheet.is_empty() { stem.to_owned() } else { sheet.to_owned() };
    Some(CarriedSheet { place: grid.place().clone(), name, cells })
}

fn found_on(sheet: &SheetTables<'_>) -> SheetFound {
    let tables = sheet.found.iter().map(|found| match found {
        Found::Table(table) => {
            FoundTable { kind: table.kind, place: table.place.clone(), name: None, rows: table.rows.len() }
        }
        Found::Loose(card) => FoundTable {
            kind: TableKind::CardLines,
            place: card.place.clone(),
            name: Some(card.name.text.clone()),
            rows: card.lines.len(),
        },
        Found::Card(card) => FoundTable {
            kind: TableKind::CardLines,
            place: card.place.clone(),
            name: card.labels.first().map(|label| label.value.seen()),
            rows: card.lines.iter().map(|lines| lines.rows.len()).sum(),
        },
    });
    SheetFound {
        place: sheet.place.clone(),
        tables: tables.collect(),
        is_output: sheet.standing == SheetState::Output,
        is_guide: matches!(sheet.standing, SheetState::Guide | SheetState::Choices),
        is_form: sheet.standing == SheetState::Read && sheet.found.is_empty() && sheet.unread.is_empty(),
    }
}
