//! Figures and readings of a costed workbook that were typed over are told at their cell, and nothing else is.

use std::io::{Cursor, Read, Write};

use ironcalc::base::Model;
use parings::problem::Code;

use crate::corners::CORNERS;
use crate::recalc::Original;
use crate::support::{at_length, cost_bytes};
use crate::workbook::{TEACHING_KITCHEN, costed, teaching_workbook};

fn model(bytes: &[u8]) -> Model<'static> {
    Original::read(bytes).model()
}

fn saved(mut model: Model<'static>) -> Vec<u8> {
    model.evaluate();
    ironcalc::export::save_xlsx_to_writer(&model, Cursor::new(Vec::new())).unwrap().into_inner()
}

/// What is told of cells that were typed over: sheet, cell and message.
fn told(bytes: &[u8]) -> Vec<(String, String, String)> {
    let (reading, costing) = cost_bytes(&[("costed.xlsx", bytes)]);
    let problems = reading.problems_with(&costing);
    let typed = problems.iter().filter(|problem| problem.code == Code::FigureTypedOver);
    let cell = |problem: &parings::Problem| problem.place.cell_ref().map(|cell| cell.to_string()).unwrap_or_default();
    typed.map(|one| (one.place.sheet_name().to_owned(), cell(one), one.message())).collect()
}

/// The cell below a header, or right of a label, that holds a formula: its row and column, from one.
fn figure(model: &Model<'static>, sheet: u32, header: &str) -> Option<(i32, i32)> {
    let text = |row, column| model.get_formatted_cell_value(sheet, row, column).unwrap();
    let is_formula = |row, column| model.get_cell_formula(sheet, row, column).unwrap().is_some();
    for row in 1..=60 {
        for column in 1..=40 {
            if text(row, column) != header {
                continue;
            }
            let below = (row + 1..row + 12).find(|below| is_formula(*below, column)).map(|below| (below, column));
            let beside = (column == 1 && is_formula(row, 2)).then_some((row, 2));
            if let Some(found) = beside.or(below) {
                return Some(found);
            }
        }
    }
    None
}

#[test]
fn a_costed_workbook_that_nobody_typed_over_says_nothing() {
    for (name, bytes) in [("teaching-kitchen.xlsx", TEACHING_KITCHEN), ("corners.csv", CORNERS.as_bytes())] {
        let workbook = costed(name, bytes).2;
        assert_eq!(told(&workbook), [], "{name}");
        // Saved by another program.
        assert_eq!(told(&saved(model(&workbook))), [], "{name}");
        // A price and a yield changed, and all figured anew.
        let mut changed = model(&workbook);
        let sheet = sheet_of(&changed, "Prices");
        changed.set_user_input(sheet, 2, 3, "190".to_owned()).unwrap();
        assert_eq!(told(&saved(changed)), [], "{name}");
    }
    for file in ["us.xlsx", "metric.xlsx"] {
        let book = std::fs::read(format!("{}/templates/{file}", env!("CARGO_MANIFEST_DIR"))).unwrap();
        assert_eq!(told(&costed(file, &book).2), [], "{file}");
    }
}

fn sheet_of(model: &Model<'static>, name: &str) -> u32 {
    let at = model.workbook.get_worksheet_names().iter().position(|known| known == name);
    u32::try_from(at.unwrap_or_else(|| panic!("there is no sheet {name}"))).unwrap()
}

#[test]
fn a_figure_that_was_typed_over_is_told_at_its_cell() {
    let workbook = teaching_workbook();
    const FIGURES: &[(&str, &str)] = &[
        ("Prices", "AP cost per unit"),
        ("Prices", "EP cost per unit"),
        ("Yield tests", "Cost carried"),
        ("Yield tests", "Cost per unit"),
        ("Yield tests", "Cost factor"),
        ("Menu", "Portion cost"),
        ("Menu", "Margin"),
        ("Menu", "Price at target"),
        ("Duck fat potatoes", "Line cost"),
        ("Duck fat potatoes", "Cost per unit"),
        ("Duck fat potatoes", "Share of cost"),
        ("Duck fat potatoes", "Food cost"),
        ("Duck fat potatoes", "Batch cost"),
        ("Summary", "Portion cost"),
        ("Summary", "Food cost %"),
    ];
    // All in one workbook, and with the long checks each by itself.
    let alone = FIGURES.chunks(if at_length() { 1 } else { FIGURES.len() });
    for figures in std::iter::once(FIGURES).chain(alone.filter(|some| some.len() < FIGURES.len())) {
        let mut edited = model(&workbook);
        let mut cells = Vec::new();
        for (sheet, header) in figures {
            let at = sheet_of(&edited, sheet);
            let (row, column) = figure(&edited, at, header).unwrap_or_else(|| panic!("{sheet} has no {header}"));
            edited.set_user_input(at, row, column, "987.25".to_owned()).unwrap();
            let at = [row - 1, column - 1].map(|at| u32::try_from(at).unwrap());
            cells.push((sheet, header, parings::problem::CellRef::new(at[0], at[1]).to_string()));
        }
        let said = told(&saved(edited));
        assert_eq!(said.len(), figures.len(), "{said:?}");
        for (sheet, header, cell) in cells {
            let (begins, goes_on) =
                (format!("“{header}” was typed over, and not read: "), format!(" in {cell}, where parings figures "));
            let tells = |(on, at, text): &&(String, String, String)| {
                on == sheet && *at == cell && text.starts_with(&begins) && text.contains(&goes_on)
            };
            assert_eq!(said.iter().filter(tells).count(), 1, "{sheet}, {header}: {said:?}");
        }
    }
}

/// A figure in the place of a formula is told with what parings figures: 20.00 ÷ 10 lb is 2.00 a pound; 2 lb of it are 4.00, of
/// which a fourth is 1.00.
#[test]
fn what_was_typed_over_is_told_with_what_parings_figures_and_reads() {
    let book = "Setting,Value\nCurrency,USD\nTarget food cost,30%\n\nItem,Pack,Price,Allergens\nLeeks,10 lb,$20.00,none\n\n\
                Recipe,Leek soup\nPortions,4\nMenu price,$9.00\nIngredient,Qty,Unit\nLeeks,2,lb\n";
    let workbook = costed("soup.csv", book.as_bytes()).2;
    for (sheet, cell_of, typed, expected) in [
        (
            "Prices",
            "AP cost per unit",
            "1.5",
            "“AP cost per unit” was typed over, and not read: $1.5 in {}, where parings figures 2.000",
        ),
        (
            "Prices",
            "Pack read as",
            "5 lb",
            "“Pack read as” was typed over, and not read: 5 lb in {}, where parings reads 10 lb",
        ),
        (
            "Leek soup",
            "Unit factor",
            "500",
            "“Unit factor” was typed over, and not read: 500 in {}, where parings reads 453.5924",
        ),
        ("Leek soup", "AP or EP", "AP", "“AP or EP” was typed over, and not read: AP in {}, where parings reads EP"),
        (
            "Leek soup",
            "Allergens found",
            "milk",
            "“Allergens found” was typed over, and not read: milk in {}, where parings reads none",
        ),
        (
            "Summary",
            "Portion cost",
            "3.1",
            "“Portion cost” was typed over, and not read: $3.1 in {}, where parings figures 1.00",
        ),
        (
            "Summary",
            "Menu price",
            "8",
            "“Menu price” was typed over, and not read: $8 in {}, where parings figures 9.00",
        ),
        (
            "Summary",
            "Target %",
            "0.28",
            "“Target %” was typed over, and not read: 28% in {}, where parings figures 30 %",
        ),
    ] {
        let mut edited = model(&workbook);
        let at = sheet_of(&edited, sheet);
        let text = |row, column| edited.get_formatted_cell_value(at, row, column).unwrap();
        let mut cells = (1..60).flat_map(|row| (1..40).map(move |column| (row, column)));
        let (row, column) = cells.find(|(row, column)| text(*row, *column) == cell_of).unwrap();
        let (row, column) = if column == 1 { (row, 2) } else { (row + 1, column) };
        edited.set_user_input(at, row, column, typed.to_owned()).unwrap();
        let said = told(&saved(edited));
        let cell = parings::problem::CellRef::new(u32::try_from(row - 1).unwrap(), u32::try_from(column - 1).unwrap());
        let text = expected.replace("{}", &cell.to_string());
        assert_eq!(said, [(sheet.to_owned(), cell.to_string(), text)], "{sheet}, {cell_of}");
    }
}

/// What is typed over elsewhere on our output sheets goes with them: each is written anew as a whole.
const WRITTEN_ANEW: [&str; 7] =
    ["Trim", "What if", "In pictures", "Problems", "How it was figured", "Kitchen cards", "What changed"];

/// Every cell of ours with something in it, on the sheets that are read again, and in the rows of the dishes on the Summary:
/// typed over with a number, it is told. Cells of one row of each column at a time, so that each is named.
#[test]
fn every_figure_and_reading_of_the_samples_is_told_when_it_is_typed_over() {
    for (name, bytes) in [("teaching-kitchen.xlsx", TEACHING_KITCHEN), ("corners.csv", CORNERS.as_bytes())] {
        let workbook = costed(name, bytes).2;
        let mut at_row: std::collections::BTreeMap<usize, Vec<OwnCell>> = std::collections::BTreeMap::new();
        let cells = own_cells(&workbook);
        assert!(cells.len() > 300, "{name}: {} cells", cells.len());
        cells.into_iter().for_each(|cell| at_row.entry(cell.nth).or_default().push(cell));
        for (nth, cells) in at_row {
            if !(crate::support::at_length() || nth < 3) {
                continue;
            }
            let said = told(&with_numbers(&workbook, &cells));
            for cell in &cells {
                let named = said
                    .iter()
                    .any(|(sheet, _, text)| *sheet == cell.sheet && text.contains(&format!(" in {},", cell.cell)));
                assert!(named, "{name}: {} {} is not told", cell.sheet, cell.cell);
            }
        }
    }
}

#[test]
fn many_cells_of_a_column_are_one_line_and_a_sheet_of_values_none() {
    let workbook = teaching_workbook();
    let mut edited = model(&workbook);
    let sheet = sheet_of(&edited, "Menu");
    let (first, column) = figure(&edited, sheet, "Portion cost").unwrap();
    for row in first..first + 5 {
        edited.set_user_input(sheet, row, column, "2.5".to_owned()).unwrap();
    }
    let said = told(&saved(edited));
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(said[0].2.contains("; 2 more"), "{said:?}");
    // Pasted as values, or through a program that keeps none of the formulas.
    assert_eq!(told(&without_formulas(&workbook)), []);
}

#[test]
fn a_word_that_parings_does_not_write_under_row_used_is_told() {
    let workbook = teaching_workbook();
    let mut edited = model(&workbook);
    let sheet = sheet_of(&edited, "Prices");
    let column =
        (1..40).find(|column| edited.get_formatted_cell_value(sheet, 1, *column).unwrap() == "Row used").unwrap();
    edited.set_user_input(sheet, 3, column, "yes please".to_owned()).unwrap();
    let said = told(&saved(edited));
    assert!(
        matches!(said.as_slice(), [(on, _, text)] if on == "Prices" && text.contains("yes please in") && text.contains("where parings reads in use")),
        "{said:?}"
    );
}

/// A table of somebody's own has a margin too, some of it typed: that is none of our business.
#[test]
fn a_table_that_was_never_costed_is_left_alone() {
    let mut workbook = rust_xlsxwriter::Workbook::new();
    let sheet = workbook.add_worksheet();
    for (column, header) in (0..).zip(["Dish", "Menu price", "Portion cost", "Margin"]) {
        sheet.write(0, column, header).unwrap();
    }
    for (row, dish) in (1..).zip(["Leek soup", "Carrot soup"]) {
        sheet.write(row, 0, dish).unwrap();
        sheet.write(row, 1, 8).unwrap();
        sheet.write(row, 2, 2).unwrap();
    }
    sheet.write_formula(1, 3, "B2-C2").unwrap();
    sheet.write(2, 3, 5.5).unwrap();
    assert_eq!(told(&workbook.save_to_buffer().unwrap()), []);
}

/// Every formula of a workbook gone, its value left.
fn without_formulas(bytes: &[u8]) -> Vec<u8> {
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    let mut out = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for at in 0..archive.len() {
        let mut part = archive.by_index(at).unwrap();
        let name = part.name().unwrap().into_owned();
        let mut bytes = Vec::new();
        part.read_to_end(&mut bytes).unwrap();
        if name.starts_with("xl/worksheets/sheet") {
            let sheet = String::from_utf8(bytes).unwrap();
            let mut pieces = sheet.split("<f>");
            let mut plain = pieces.next().unwrap().to_owned();
            pieces.for_each(|piece| plain.push_str(piece.split_once("</f>").unwrap().1));
            bytes = plain.into_bytes();
        }
        out.start_file(name, zip::write::SimpleFileOptions::default()).unwrap();
        out.write_all(&bytes).unwrap();
    }
    out.finish().unwrap().into_inner()
}

/// A cell of ours: its sheet, its name, and how many filled ones are before it under its header or beside its label.
#[derive(Debug)]
struct OwnCell {
    sheet: String,
    cell: String,
    nth: usize,
}

/// The first header of ours on the sheet of each table; what stands from there on is ours.
const FIRST_OWN: [(&str, &str); 7] = [
    ("Prices", "Row used"),
    ("Measures", "Measure read as"),
    ("Yield tests", "Share of weight"),
    ("Stock", "On hand read as"),
    ("Menu", "Recipe used"),
    ("Plan", "Row key"),
    ("", "AP or EP"),
];

/// Rows of a card that hold nothing to type over: heads, the day, and lines to sign on.
const NOT_FIGURED: [&str; 5] = ["On the menu", "Against the target", "Costed on", "Made by, date", "Checked by, date"];

/// Every filled cell of ours but the seals themselves.
fn own_cells(workbook: &[u8]) -> Vec<OwnCell> {
    let model = model(workbook);
    let mut found = Vec::new();
    for (name, sheet) in model.workbook.get_worksheet_names().into_iter().zip(0..) {
        if WRITTEN_ANEW.contains(&name.as_str()) {
            continue;
        }
        let text = |row, column| model.get_formatted_cell_value(sheet, row, column).unwrap();
        let is_card = text(1, 1) == "Recipe";
        let (header, first, end) = if name == "Summary" {
            let header = (1..20).find(|row| text(*row, 1) == "Dish").unwrap();
            (header, 2, (header..).find(|row| text(*row, 1).is_empty()).unwrap())
        } else {
            let kind = if is_card { "" } else { name.as_str() };
            let Some((_, own)) = FIRST_OWN.iter().find(|(known, _)| *known == kind) else { continue };
            let cells = || (1..40).flat_map(|row| (1..60).map(move |column| (row, column)));
            let Some((header, first)) = cells().find(|(row, column)| text(*row, *column) == *own) else { continue };
            (header, first, 200)
        };
        // The Summary's seals have no header.
        let is_seals = |column: &i32| text(header, *column) == "As written";
        let seals = if name == "Summary" { 9 } else { (1..60).find(is_seals).unwrap() };
        let lines = (header + 1..end).find(|row| text(*row, 1).is_empty()).unwrap_or(end);
        let mut before = std::collections::BTreeMap::new();
        for row in (if is_card { header - 1 } else { header + 1 })..end {
            let label = text(row, 1);
            if row == header || NOT_FIGURED.contains(&label.as_str()) {
                continue;
            }
            let is_labelled = is_card && !(header..lines).contains(&row);
            let beside = is_labelled.then_some(2);
            for column in beside.into_iter().chain(first..seals) {
                if text(row, column).is_empty() {
                    continue;
                }
                let under = if is_labelled { label.clone() } else { column.to_string() };
                let nth: &mut usize = before.entry(under).or_default();
                let at =
                    parings::problem::CellRef::new(u32::try_from(row - 1).unwrap(), u32::try_from(column - 1).unwrap());
                found.push(OwnCell { sheet: name.clone(), cell: at.to_string(), nth: *nth });
                *nth += 1;
            }
        }
    }
    found
}

/// The workbook with a number in the place of each of these cells.
fn with_numbers(workbook: &[u8], cells: &[OwnCell]) -> Vec<u8> {
    let names = model(workbook).workbook.get_worksheet_names();
    let mut archive = zip::ZipArchive::new(Cursor::new(workbook)).unwrap();
    let mut out = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for at in 0..archive.len() {
        let mut part = archive.by_index(at).unwrap();
        let name = part.name().unwrap().into_owned();
        let mut bytes = Vec::new();
        part.read_to_end(&mut bytes).unwrap();
        let sheet = names.iter().enumerate().find(|(at, _)| name == format!("xl/worksheets/sheet{}.xml", at + 1));
        if let Some((_, sheet)) = sheet {
            let mut text = String::from_utf8(bytes).unwrap();
            for cell in cells.iter().filter(|cell| cell.sheet == *sheet) {
                let start = text.find(&format!("<c r=\"{}\"", cell.cell)).unwrap();
                let whole = &text[start..start + text[start..].find("</c>").unwrap() + 4];
                text = text.replace(whole, &format!("<c r=\"{}\"><v>987.25</v></c>", cell.cell));
            }
            bytes = text.into_bytes();
        }
        out.start_file(name, zip::write::SimpleFileOptions::default()).unwrap();
        out.write_all(&bytes).unwrap();
    }
    out.finish().unwrap().into_inner()
}
