//! Explanations of problem codes on the terminal: one or several in full, or the list of all.
//!
//! The books of an explanation are drawn as a spreadsheet program shows them, with the letters of columns and the numbers
//! of rows, so that the cell that a message names can be found.

use super::problems::{ink, one as problem};
use super::width::{hang, left, right, width};
use super::{Emphasis, View};
use crate::problem::place::column_letters;
use crate::problem::{CellRef, Explanation};

/// The space between columns.
const GAP: &str = "  ";

/// The explanations in full, one below the other.
pub fn explained(explanations: &[&Explanation], view: View) -> String {
    let all: Vec<String> = explanations.iter().map(|explanation| one(explanation, view)).collect();
    all.join("\n\n")
}

/// Every code with its severity and title, in groups, and how to ask for one.
pub fn listed(explanations: &[Explanation], view: View) -> String {
    let names = explanations.iter().map(|one| width(one.code.name())).max().unwrap_or(0);
    let mut out = String::new();
    let mut group = "";
    for explanation in explanations {
        if explanation.group != group {
            group = explanation.group;
            let gap = if out.is_empty() { "" } else { "\n" };
            out.push_str(&format!("{gap}{}\n", Emphasis::Strong.on(group, view)));
        }
        let code = explanation.code;
        let severity = left(&code.severity().to_string(), "warning".len());
        let head = format!("  {}  {severity}  ", left(code.name(), names));
        let title = hang(&head, code.title(), view.width);
        out.push_str(&title.replacen(&severity, &ink(code.severity()).on(&severity, view), 1));
    }
    out.push_str("\nMore about one of them: parings explain pack-is-a-date\n");
    out
}

fn one(explanation: &Explanation, view: View) -> String {
    let code = explanation.code;
    let mut out = hang("", &format!("{code} ({}): {}", code.severity(), code.title()), view.width);
    out = out.replacen(code.name(), &Emphasis::Strong.on(code.name(), view), 1);
    let mut section =
        |title: &str, body: &str| out.push_str(&format!("\n{}\n{body}", Emphasis::Strong.on(title, view)));
    let prose = |text: &str| hang("  ", text, view.width);
    section("What it means", &prose(&explanation.means));
    section("Why it matters", &prose(&explanation.matters));
    let met = problem(&explanation.problem, "", view);
    let at = explanation.problem.place.cell_ref();
    let example = match &explanation.list {
        None => sheet(&explanation.example, at, view),
        Some(list) => with_list(&sheet(&explanation.example, None, view), &sheet(list, at, view)),
    };
    section("An example", &format!("{example}\n{met}"));
    let instead = match &explanation.list_instead {
        None => sheet(&explanation.instead, None, view),
        // Most often only the list wants mending.
        Some(list) if explanation.instead == explanation.example => format!("{IN_LIST}{}", sheet(list, None, view)),
        Some(list) => with_list(&sheet(&explanation.instead, None, view), &sheet(list, None, view)),
    };
    section("What to type instead", &instead);
    if let Some(not_sure) = &explanation.not_sure {
        section("If you are not sure", &prose(not_sure));
    }
    out
}

/// What stands above a supplier's list.
const IN_LIST: &str = "  In the supplier's list:\n";

/// A book and a supplier's list beside it, both drawn.
fn with_list(book: &str, list: &str) -> String {
    format!("  In the book:\n{book}\n{IN_LIST}{list}")
}

/// A book of csv text as a sheet, the cell `at` marked where there is colour.
fn sheet(book: &str, at: Option<CellRef>, view: View) -> String {
    let rows = rows(book);
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let numbers = rows.len().to_string().len();
    let letters: Vec<String> = (0_u32..).take(columns).map(column_letters).collect();
    let widest = |column: usize| rows.iter().filter_map(|row| row.get(column)).map(|cell| width(cell)).max();
    let widths: Vec<usize> = (0..columns).map(|column| widest(column).unwrap_or(0).max(1)).collect();
    let line = |number: &str, cells: Vec<String>| {
        let number = Emphasis::Faint.on(&right(number, numbers), view);
        format!("{}\n", format!("  {number}{GAP}{}", cells.join(GAP)).trim_end())
    };
    let heads = letters.iter().zip(&widths).map(|(letter, columns)| Emphasis::Faint.on(&left(letter, *columns), view));
    let mut out = line("", heads.collect());
    for (row, cells) in (0_u32..).zip(&rows) {
        let cells = (0_u32..).zip(cells.iter().zip(&widths)).map(|(column, (cell, columns))| {
            let marked = at == Some(CellRef::new(row, column));
            let shown = if marked { Emphasis::Bad } else { Emphasis::Plain }.on(cell, view);
            format!("{shown}{}", " ".repeat(columns.saturating_sub(width(cell))))
        });
        out.push_str(&line(&row.saturating_add(1).to_string(), cells.collect()));
    }
    out
}

/// The rows of csv text. Blank lines, which part the tables of a book, are rows as well.
fn rows(book: &str) -> Vec<Vec<String>> {
    let row = |line: &str| -> Vec<String> {
        let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(line.as_bytes());
        let record = reader.records().next().and_then(Result::ok).unwrap_or_default();
        record.iter().map(str::to_owned).collect()
    };
    book.lines().map(row).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_book_is_drawn_with_its_letters_and_numbers() {
        let book = "Item,Pack,Price\n\"Cod, whole\",6/5,$12.00\n\nRecipe,Soup\n";
        let drawn = sheet(book, Some(CellRef::new(1, 1)), View::default());
        let lines: Vec<&str> = drawn.lines().collect();
        assert_eq!(
            lines,
            [
                "     A           B     C",
                "  1  Item        Pack  Price",
                "  2  Cod, whole  6/5   $12.00",
                "  3",
                "  4  Recipe      Soup",
            ]
        );
        let coloured = sheet(book, Some(CellRef::new(1, 1)), View { color: true, ..View::default() });
        assert!(coloured.contains("\u{1b}[31m6/5\u{1b}[0m   $12.00"), "{coloured:?}");
    }
}
