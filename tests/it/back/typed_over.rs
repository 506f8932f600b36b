//! Figures and readings of a costed workbook that were typed over are told at their cell, and nothing else is.

use std::io::{Cursor, Read, Write};

use ironcalc::base::Model;
use parings::problem::Code;

use crate::corners::CORNERS;
use crate::support::cost_bytes;
use crate::workbook::{TEACHING_KITCHEN, costed};

fn model(bytes: &[u8]) -> Model<'static> {
    let workbook = ironcalc::import::load_from_xlsx_bytes(bytes, "workbook", "en", "UTC").unwrap();
    Model::from_workbook(workbook, "en").unwrap()
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
    let workbook = costed("teaching-kitchen.xlsx", TEACHING_KITCHEN).2;
    for (sheet, header) in [
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
    ] {
        let mut edited = model(&workbook);
        let at = sheet_of(&edited, sheet);
        let (row, column) = figure(&edited, at, header).unwrap_or_else(|| panic!("{sheet} has no {header}"));
        edited.set_user_input(at, row, column, "987.25".to_owned()).unwrap();
        let said = told(&saved(edited));
        let cell = parings::problem::CellRef::new(u32::try_from(row - 1).unwrap(), u32::try_from(column - 1).unwrap());
        let (begins, goes_on) =
            (format!("“{header}” was typed over: "), format!(" in {cell} stands where parings has"));
        assert!(
            matches!(said.as_slice(), [(on, at, text)] if on == sheet && *at == cell.to_string() && text.starts_with(&begins) && text.contains(&goes_on)),
            "{sheet}, {header}: {said:?}"
        );
    }
}

#[test]
fn many_cells_of_a_column_are_one_line_and_a_sheet_of_values_none() {
    let workbook = costed("teaching-kitchen.xlsx", TEACHING_KITCHEN).2;
    let mut edited = model(&workbook);
    let sheet = sheet_of(&edited, "Menu");
    let (first, column) = figure(&edited, sheet, "Portion cost").unwrap();
    for row in first..first + 5 {
        edited.set_user_input(sheet, row, column, "2.5".to_owned()).unwrap();
    }
    let said = told(&saved(edited));
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(said[0].2.contains("and 2 more") || said[0].2.contains(", 2 more"), "{said:?}");
    // Pasted as values, or through a program that keeps none of the formulas.
    assert_eq!(told(&without_formulas(&workbook)), []);
}

#[test]
fn a_word_that_parings_does_not_write_under_row_used_is_told() {
    let workbook = costed("teaching-kitchen.xlsx", TEACHING_KITCHEN).2;
    let mut edited = model(&workbook);
    let sheet = sheet_of(&edited, "Prices");
    let column =
        (1..40).find(|column| edited.get_formatted_cell_value(sheet, 1, *column).unwrap() == "Row used").unwrap();
    edited.set_user_input(sheet, 3, column, "yes please".to_owned()).unwrap();
    let said = told(&saved(edited));
    assert!(matches!(said.as_slice(), [(on, _, text)] if on == "Prices" && text.contains("yes please in")), "{said:?}");
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
