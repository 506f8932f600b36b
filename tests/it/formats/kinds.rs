//! A book with a cell of every kind that a spreadsheet can hold.

use parings::internals::Grid;
use parings::schema::Typed;
use rust_xlsxwriter::{ExcelDateTime, Format, Formula, Note, Workbook};

use super::{KINDS_ODS, KINDS_XLS, sheets};

/// The book as an xlsx; `tests/files` holds what LibreOffice made of it.
fn book() -> Vec<u8> {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet().set_name("Kinds").unwrap();
    let shown = |code: &str| Format::new().set_num_format(code);
    let numbers = [
        (178.5, "\"$\"#,##0.00"),
        (12.4, "#,##0.00\\ [$€-407]"),
        (9.95, "[$£-809]#,##0.00"),
        (0.28, "0%"),
        (0.125, "0.0%"),
        (1.5, "# ?/?"),
        (-3.25, "#,##0.00"),
        (1234.5, "#,##0.0"),
        (0.1 + 0.2, "General"),
        (1e15, "General"),
        (0.000_012_3, "General"),
        (123_456_789.0, "General"),
        (-536_870_912.0, "General"),
        (0.01, "General"),
        (40.0, "0 \"lb\""),
    ];
    for (row, (number, code)) in (0..).zip(numbers) {
        sheet.write_number_with_format(row, 0, number, &shown(code)).unwrap();
    }
    for column in 0..6 {
        sheet.write_number(20, column, f64::from(column) * 1.25).unwrap();
    }
    let day = ExcelDateTime::from_ymd(2026, 5, 6).unwrap();
    sheet.write_datetime_with_format(0, 1, &day, &shown("yyyy-mm-dd")).unwrap();
    sheet.write_datetime_with_format(1, 1, &day, &shown("d-mmm")).unwrap();
    sheet.write_number_with_format(2, 1, 0.25, &shown("h:mm")).unwrap();
    sheet.write_boolean(3, 1, true).unwrap();
    sheet.write_boolean(4, 1, false).unwrap();
    sheet.write_formula(5, 1, Formula::new("1/0").set_result("#DIV/0!")).unwrap();
    sheet.write_formula(6, 1, Formula::new("NA()").set_result("#N/A")).unwrap();
    sheet.write_formula(7, 1, Formula::new("A1*2").set_result("357")).unwrap();
    sheet.write_formula(8, 1, Formula::new("\"leeks \"&\"and more\"").set_result("leeks and more")).unwrap();
    sheet.write_formula(10, 1, Formula::new("2>1").set_result("TRUE")).unwrap();
    let texts = [
        "Crème fraîche",
        "大根, 10 kg",
        "two  spaces   and more",
        "line\nbreak",
        "<b> & \"quotes\" & 'more'",
        "5 € / kg",
        "🍋 × 12",
        "='not a formula",
    ];
    for (row, text) in (0..).zip(texts) {
        sheet.write_string(row, 2, text).unwrap();
    }
    sheet.write_rich_string(9, 2, &[(&Format::new().set_bold(), "bold"), (&Format::new(), " and plain")]).unwrap();
    sheet.insert_note(0, 2, &Note::new("a note that is no part of the cell")).unwrap();
    sheet.merge_range(12, 2, 13, 4, "merged", &Format::new()).unwrap();
    sheet.set_row_hidden(3).unwrap();
    // Texts that break off within a record of an xls, first in narrow letters and then in wide ones.
    for (row, letter) in (30..40).zip(["x", "é", "大", "a大"].iter().cycle()) {
        sheet.write_string(row, 0, format!("{row} {}", letter.repeat(3_001))).unwrap();
    }
    sheet.write_string(200, 40, "far").unwrap();
    let hidden = book.add_worksheet().set_name("Hidden, too").unwrap();
    hidden.set_hidden(true);
    hidden.write_string(0, 0, "seen").unwrap();
    book.add_worksheet().set_name("Empty").unwrap();
    book.save_to_buffer().unwrap()
}

/// Everything on the sheets: sheet, row, column and cell.
fn cells(grids: &[Grid]) -> Vec<(String, u32, u32, Typed)> {
    let of = |grid: &Grid| {
        let rows = grid.rows().iter();
        rows.flat_map(|row| {
            row.cells().iter().map(|(at, typed)| (grid.place().sheet_name().to_owned(), row.row, *at, typed.clone()))
        })
        .collect::<Vec<_>>()
    };
    grids.iter().flat_map(of).collect()
}

#[test]
fn every_kind_of_cell_means_the_same_in_every_format() {
    let expected = sheets("kinds.xlsx", &book());
    for (name, bytes) in [
        ("kinds.xls", KINDS_XLS.to_vec()),
        ("kinds.ods", KINDS_ODS.to_vec()),
        ("kinds.xlsb", super::xlsb::written(&expected)),
    ] {
        let found = sheets(name, &bytes);
        for (expected, found) in cells(&expected).iter().zip(&cells(&found)) {
            assert_eq!(found, expected, "{name}");
        }
        assert_eq!(cells(&found).len(), cells(&expected).len(), "{name}");
        let names = |grids: &[Grid]| grids.iter().map(|grid| grid.place().sheet_name().to_owned()).collect::<Vec<_>>();
        assert_eq!(names(&found), names(&expected), "{name}");
    }
}

#[test]
#[ignore = "writes target/kinds.xlsx, for LibreOffice to recalculate and save as tests/files/kinds.xls and kinds.ods"]
fn write_the_kinds() {
    std::fs::write(concat!(env!("CARGO_MANIFEST_DIR"), "/target/kinds.xlsx"), book()).unwrap();
}
