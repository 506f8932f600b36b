//! Figures are computed in `results` and below: neither the workbook nor the other outputs reckon with decimals.
//!
//! What is looked for is named: the checked operations of the engine, those of rates and amounts, rounding, and operators,
//! which rustfmt sets between blanks. What may stand is listed with its reason; a reason that nothing needs any more is told.

use std::path::Path;

use super::imports::{code, sources};
use super::src;

/// The rooms above results.
const ABOVE: [&str; 2] = ["workbook", "output"];

/// What reckons.
const RECKONS: &[&str] = &[
    "exact::",
    "exact}",
    "exact,",
    ".checked_add(",
    ".checked_sub(",
    ".checked_mul(",
    ".checked_div(",
    ".checked_rem(",
    ".abs()",
    ".floor()",
    ".ceil()",
    ".trunc()",
    ".round_",
    "half_up",
    "round_up_steps",
    // Of rates and amounts.
    ".cost_of(",
    ".per_unit()",
    ".unit_cost()",
    ".after_yield(",
    ".cross(",
    ".crossed()",
    ".times(",
    ".over(",
    ".value()",
    ".qs(",
    // Operators, alone and with an assignment.
    " + ",
    " - ",
    " * ",
    " / ",
    " % ",
    " += ",
    " -= ",
    " *= ",
    " /= ",
    ".sum()",
    ".sum::",
    ".product()",
];

/// What may stand: the file, what it names, why that is no figure.
const MAY: &[(&str, &str, &str)] = &[
    ("workbook/layout.rs", ".checked_sub(", "columns are counted"),
    ("workbook/layout/recipe/in_place.rs", ".checked_sub(", "lines are counted"),
    ("workbook/xlsx/archive.rs", ".sum()", "the checksum of an entry of the archive"),
    ("workbook/xlsx/archive.rs", ".checked_add(", "entries of the archive are counted"),
    ("workbook/xlsx/archive.rs", " / ", "room for packed bytes"),
    ("workbook/xlsx/binder.rs", ".checked_sub(", "sheets are counted"),
    ("workbook/xlsx/row_writer.rs", " / ", "rows are counted in blocks"),
    ("workbook/xlsx/sheet_order.rs", " + ", "a bound of a type"),
    ("workbook/xlsx/styles.rs", " % ", "specimens are counted by row and column"),
    ("workbook/xlsx/styles.rs", " / ", "specimens are counted by row and column"),
    ("workbook/xlsx/styles.rs", " - ", "the last column"),
    ("workbook/xlsx/xml.rs", " += ", "bytes are counted"),
    ("workbook/cells/number.rs", " % ", "the digits of a number"),
    ("workbook/cells/number.rs", " /= ", "the digits of a number"),
    ("workbook/layout/column_width.rs", " / ", "the width of a column in characters"),
    ("workbook/layout/column_width.rs", " * ", "the width of a page in pixels"),
    ("workbook/layout/column_width.rs", ".sum::", "the width of a page in pixels"),
    ("workbook/sheets/kitchen_cards.rs", " / ", "rows on a page are counted"),
    ("workbook/sheets/kitchen_cards.rs", ".sum::", "rows on a page are counted"),
    ("workbook/xlsx/letters.rs", ".checked_sub(", "letters are numbered"),
    ("workbook/xlsx/page_setup.rs", ".checked_sub(", "columns are counted"),
    ("workbook/xlsx/strips.rs", " / ", "pages are measured in pixels"),
    ("workbook/cells/chart.rs", ".checked_sub(", "rows are counted"),
    ("workbook/cells/row.rs", " + ", "a bound on a type"),
    ("workbook/sheets/table.rs", ".sum::", "the widths of columns in characters"),
    ("workbook/sheets/cards.rs", " + ", "columns are counted"),
    ("workbook/xlsx/workers.rs", " + ", "bounds on a type"),
    ("workbook/xlsx/height.rs", ".sum()", "the height of a row in lines"),
    ("workbook/xlsx/height.rs", ".sum::", "the height of a row in lines"),
    ("workbook/xlsx/height.rs", " / ", "the height of a row in lines"),
    ("workbook/xlsx/height.rs", " % ", "the height of a row in lines"),
    ("output/text/found.rs", " + ", "columns of the terminal"),
    ("output/text/table.rs", " + ", "columns of the terminal"),
    ("output/text/table.rs", ".sum()", "columns of the terminal"),
    ("output/text/width.rs", " + ", "columns of the terminal"),
    ("output/text/width.rs", " += ", "columns of the terminal"),
    ("output/text/reprice/prices.rs", " - ", "how many more rows there are"),
];

/// A line of code without what stands in quotation marks.
fn without_texts(line: &str) -> String {
    let mut bare = String::new();
    let mut letters = line.chars();
    while let Some(letter) = letters.next() {
        if letter != '"' {
            bare.push(letter);
            continue;
        }
        while let Some(inner) = letters.next() {
            match inner {
                '\\' => drop(letters.next()),
                '"' => break,
                _ => {}
            }
        }
    }
    bare
}

/// What the code of a file reckons with: each with its line.
fn reckoned(lines: &[String]) -> Vec<(&'static str, String)> {
    let mut found = Vec::new();
    // A text may run over lines; its middle has no quotation marks of its own.
    for line in lines {
        let bare = without_texts(line);
        found.extend(RECKONS.iter().filter(|word| bare.contains(**word)).map(|word| (*word, line.trim().to_owned())));
    }
    found
}

/// Whether a file is a module of tests: its parent declares it as one.
fn is_test(path: &Path) -> bool {
    let (folder, stem) = (path.parent().unwrap(), path.file_stem().unwrap().to_str().unwrap());
    let declared = format!("#[cfg(test)]\nmod {stem};");
    [folder.with_extension("rs"), folder.join("mod.rs")]
        .iter()
        .filter_map(|parent| std::fs::read_to_string(parent).ok())
        .any(|parent| parent.contains(&declared))
}

#[test]
fn no_figure_is_computed_above_results() {
    let mut used = vec![false; MAY.len()];
    let mut wrong = Vec::new();
    let mut files = 0;
    for path in ABOVE.iter().flat_map(|room| sources(&src().join(room))) {
        if is_test(&path) {
            continue;
        }
        files += 1;
        let inside = path.strip_prefix(src()).unwrap();
        for (word, line) in reckoned(&texts_closed(&code(&path))) {
            match MAY.iter().position(|(file, may, _)| Path::new(file) == inside && *may == word) {
                Some(at) => used[at] = true,
                None => wrong.push(format!("{} reckons with “{word}”: {line}", inside.display())),
            }
        }
    }
    assert!(wrong.is_empty(), "a figure belongs into results:\n{}", wrong.join("\n"));
    let idle: Vec<&(&str, &str, &str)> = MAY.iter().zip(used).filter(|(_, used)| !used).map(|(may, _)| may).collect();
    assert!(idle.is_empty(), "nothing needs {idle:?}");
    assert!(files > 80, "only {files} files");
}

/// The lines with those of one text joined: a text that is left open at the end of a line ends in a backslash.
fn texts_closed(lines: &[String]) -> Vec<String> {
    let mut closed: Vec<String> = Vec::new();
    let mut open = false;
    for line in lines {
        match closed.last_mut().filter(|_| open) {
            Some(last) => last.push_str(line),
            None => closed.push(line.clone()),
        }
        open = closed.last().is_some_and(|line| line.ends_with('\\'));
        if let (true, Some(last)) = (open, closed.last_mut()) {
            last.pop();
        }
    }
    closed
}

#[test]
fn what_reckons_is_seen() {
    for (line, seen) in [
        ("let rest = exact::sub(total, own).ok();", "exact::"),
        ("use crate::number::{Decimal, exact};", "exact}"),
        ("let share = cost.checked_div(food);", ".checked_div("),
        ("let half = cost / two;", " / "),
        ("sum += cost;", " += "),
        ("page.figure(row, 1, text, rate.cost_of(amount), look)", ".cost_of("),
        ("let told = format!(\"{} a {}\", half_up(cost, 2), unit);", "half_up"),
    ] {
        let found = reckoned(&texts_closed(&[line.to_owned()]));
        assert!(found.iter().any(|(word, _)| *word == seen), "{line}: {found:?}");
    }
    for line in [
        "let text = format!(\"{} * {} + exact::\", a, b);",
        "say(\"a \\\" - b\");",
        "let first = *rows;",
        "Ok(-1)",
        "fn at(&'a self) -> &'a str {",
    ] {
        assert_eq!(reckoned(&texts_closed(&[line.to_owned()])), [], "{line}");
    }
    let over_lines = ["say(\"one - \\".to_owned(), "    two - three\");".to_owned()];
    assert_eq!(reckoned(&texts_closed(&over_lines)), []);
}
