//! Rounds: how often somebody who does what `check` says, and no more, has to type before a file of prices or recipes as
//! people have it asks nothing any more. At most two.
//!
//! A round is one run that asks for something, and typing all of it. What only the supplier or the cook can know (a price,
//! a weight, what is in a box) is of our invention; where it goes and in what form is what the messages say.

mod cook;
mod recipe_files;
mod suppliers;

use std::collections::BTreeMap;

use parings::internals::grids;
use parings::problem::{CellRef, Code, Problem, Severity};
use parings::schema::{Typed, Value};
use parings::{Costing, Options, Reading, Source};

/// A cell of a sheet, and what is typed into it. The cell `+1` is a new row above
/// row 1; `=` is the whole sheet, as lines of plain csv.
type Answer = (&'static str, &'static str, &'static str);

/// The sheets of files while somebody types in them, each by its name.
struct Sheets(Vec<(String, Vec<Vec<String>>)>);

impl Sheets {
    fn of(files: &[(&str, Vec<u8>)]) -> Sheets {
        let mut sheets = Vec::new();
        for (name, bytes) in files {
            for grid in grids(&Source { name, bytes }).unwrap() {
                let stem = name.split('.').next().unwrap();
                let sheet = Some(grid.place().sheet_name()).filter(|sheet| !sheet.is_empty()).unwrap_or(stem);
                let mut rows: Vec<Vec<String>> = Vec::new();
                for row in grid.rows() {
                    rows.resize((row.row as usize).max(rows.len()), Vec::new());
                    let last = row.cells().last().map_or(0, |(at, _)| *at);
                    rows.push((0..=last).map(|at| text(row.get(at))).collect());
                }
                sheets.push((sheet.to_owned(), rows));
            }
        }
        Sheets(sheets)
    }

    /// Types `text` into a cell.
    fn answer(&mut self, sheet: &str, cell: &str, text: &str) {
        let (_, rows) = self.0.iter_mut().find(|(name, _)| name == sheet).unwrap_or_else(|| panic!("{sheet}"));
        if cell == "+1" {
            return rows.insert(0, Vec::new());
        }
        if cell == "=" {
            *rows = text.lines().map(|line| line.split(',').map(str::to_owned).collect()).collect();
            return;
        }
        let at = CellRef::named(cell).unwrap();
        let (row, column) = (at.row as usize, at.column as usize);
        rows.resize(rows.len().max(row + 1), Vec::new());
        let row = &mut rows[row];
        row.resize(row.len().max(column + 1), String::new());
        text.clone_into(&mut row[column]);
    }

    /// Every sheet as a csv file of its name.
    fn files(&self) -> Vec<(String, Vec<u8>)> {
        let cell = |cell: &String| format!("\"{}\"", cell.replace('"', "\"\""));
        let line = |row: &Vec<String>| row.iter().map(cell).collect::<Vec<_>>().join(",");
        let file = |rows: &Vec<Vec<String>>| rows.iter().map(line).collect::<Vec<_>>().join("\n").into_bytes();
        self.0.iter().map(|(name, rows)| (format!("{name}.csv"), file(rows))).collect()
    }
}

/// A cell as somebody would type it.
fn text(typed: &Typed) -> String {
    match &typed.value {
        Value::Number(number) => number.normalize().to_string(),
        _ => typed.seen(),
    }
}

fn read(files: &[(String, Vec<u8>)], options: Options) -> (Reading, Costing) {
    let sources: Vec<Source<'_>> = files.iter().map(|(name, bytes)| Source { name, bytes }).collect();
    let reading = parings::read(&sources, options).unwrap();
    let costing = parings::cost(&reading.kitchen, &parings::Scenario::of(&reading.kitchen));
    (reading, costing)
}

/// What a run asks for: errors, sheets that are not read, and warnings that a price or pack may be another.
fn asked(reading: &Reading, costing: &Costing) -> Vec<Problem> {
    let asks = |problem: &Problem| {
        problem.severity() == Severity::Error
            || matches!(
                problem.code,
                Code::SheetNotRead | Code::GlazeInWeight | Code::OuncesDoubtful | Code::PriceIsMarket
            )
    };
    reading.problems_with(costing).into_iter().filter(asks).collect()
}

/// Asserts that something is asked where an answer is typed: in its row, or of its sheet as a whole. A cell may be cleared.
#[track_caller]
fn assert_asked(asked: &[Problem], (sheet, cell, text): &Answer) {
    let row = CellRef::named(cell).map(|cell| cell.row);
    let of_row = |problem: &&Problem| {
        let whole = matches!(problem.code, Code::SheetNotRead | Code::SheetOfLines);
        problem.place.to_string().contains(sheet) && (whole || problem.place.cell_ref().map(|cell| cell.row) == row)
    };
    assert!(text.is_empty() || asked.iter().any(|problem| of_row(&problem)), "{sheet} {cell} is not asked about");
}

/// A few words on each problem, for a test that fails.
fn told(problems: &[Problem]) -> String {
    problems.iter().map(|one| format!("    {} {}: {}\n", one.place, one.code.name(), one.message())).collect()
}

/// The rounds of every file as `docs/checked.md` shows them: name, and how many.
fn on_the_page() -> BTreeMap<String, usize> {
    let page = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/docs/checked.md")).unwrap();
    let rows = page.lines().filter_map(|line| line.strip_prefix("| `")?.split_once("` | "));
    rows.map(|(name, rest)| (name.to_owned(), rest[..1].parse().unwrap())).collect()
}

#[test]
fn the_rounds_on_the_page_are_those_that_it_takes() {
    let counted: BTreeMap<String, usize> = suppliers::count().into_iter().chain(recipe_files::count()).collect();
    assert!(counted.values().all(|rounds| *rounds <= 2), "{counted:#?}");
    assert_eq!(counted.len(), 25);
    assert_eq!(counted, on_the_page());
}
