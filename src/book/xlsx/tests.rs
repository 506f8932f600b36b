//! Tests of reading workbooks: some written by a spreadsheet library, some put together part by part to hold what
//! no library writes.

use std::io::{Cursor, Write};

use jiff::civil::date;
use rust_xlsxwriter::{ExcelDateTime, Format, Formula, Workbook as Writer};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

use super::*;
use crate::book;
use crate::book::grid::GridRow;

const MAIN: &str = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATIONS: &str = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

/// A zip of parts.
fn zipped(parts: &[(&str, &[u8])]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in parts {
        let options = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
        zip.start_file(*name, options).unwrap();
        zip.write_all(bytes).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

/// A workbook of one sheet with these rows, and what `properties` adds to it.
fn workbook(rows: &str, properties: &str, more: &[(&str, &[u8])]) -> Vec<u8> {
    let sheet = format!("<worksheet xmlns=\"{MAIN}\"><sheetData>{rows}</sheetData></worksheet>");
    workbook_of(sheet.as_bytes(), properties, more)
}

fn workbook_of(sheet: &[u8], properties: &str, more: &[(&str, &[u8])]) -> Vec<u8> {
    let book = format!(
        "<workbook xmlns=\"{MAIN}\" xmlns:r=\"{RELATIONS}\">{properties}<sheets><sheet name=\"S\" sheetId=\"1\" r:id=\"rId1\"/></sheets></workbook>"
    );
    let package = "http://schemas.openxmlformats.org/package/2006/relationships";
    let rels = format!(
        "<Relationships xmlns=\"{package}\"><Relationship Id=\"rId1\" Type=\"{RELATIONS}/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>"
    );
    let book_rels = format!(
        "<Relationships xmlns=\"{package}\"><Relationship Id=\"rId1\" Type=\"{RELATIONS}/worksheet\" Target=\"worksheets/sheet1.xml\"/></Relationships>"
    );
    let types = b"<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\"/>";
    let mut parts: Vec<(&str, &[u8])> = vec![
        ("[Content_Types].xml", types),
        ("_rels/.rels", rels.as_bytes()),
        ("xl/workbook.xml", book.as_bytes()),
        ("xl/_rels/workbook.xml.rels", book_rels.as_bytes()),
        ("xl/worksheets/sheet1.xml", sheet),
    ];
    parts.extend_from_slice(more);
    zipped(&parts)
}

fn read(bytes: &[u8]) -> Result<Vec<Grid>, ReadError> {
    book::grids(&Source { name: "a.xlsx", bytes }, &crate::schema::Limits::USUAL)
}

fn one(bytes: &[u8]) -> Grid {
    read(bytes).unwrap().remove(0)
}

fn number(text: &str, shown: Shown) -> Typed {
    Typed { value: Value::Number(text.parse().unwrap()), shown }
}

#[test]
fn values_come_with_what_their_formats_say() {
    let mut writer = Writer::new();
    let sheet = writer.add_worksheet();
    let put = |sheet: &mut rust_xlsxwriter::Worksheet, row, value, format: &str| {
        sheet.write_number_with_format(row, 0, value, &Format::new().set_num_format(format)).unwrap();
    };
    put(sheet, 0, 0.28, "0%");
    put(sheet, 1, 38.45, "\"$\"#,##0.00");
    put(sheet, 2, 12.5, "[$€-407] #,##0.00");
    put(sheet, 3, 1.5, "# ?/?");
    put(sheet, 4, 0.1 + 0.2, "General");
    put(sheet, 5, 2.0, "0.0 \"kg\"");
    put(sheet, 6, 0.25, "h:mm");
    sheet.write_string(7, 0, "  Onions\u{a0}").unwrap();
    sheet.write_boolean(8, 0, true).unwrap();
    let day = ExcelDateTime::from_ymd(2026, 5, 6).unwrap();
    sheet.write_datetime_with_format(9, 0, &day, &Format::new().set_num_format("d-mmm")).unwrap();
    sheet.write_string(10, 0, "   ").unwrap();
    sheet.write_formula(11, 0, Formula::new("=1/0").set_result("#DIV/0!")).unwrap();
    sheet.write_formula(12, 0, Formula::new("=2*21").set_result("42")).unwrap();
    let grid = one(&writer.save_to_buffer().unwrap());
    let cells: Vec<&Typed> = (0..13).map(|row| grid.get(row, 0)).collect();
    assert_eq!(cells[0], &number("0.28", Shown::Percent));
    assert_eq!(cells[1], &number("38.45", Shown::Money("$".into())));
    assert_eq!(cells[2], &number("12.5", Shown::Money("€".into())));
    assert_eq!(cells[3], &number("1.5", Shown::Fraction));
    assert_eq!(cells[4], &number("0.3", Shown::Plain));
    assert_eq!(cells[5], &number("2", Shown::Plain));
    assert_eq!(cells[6], &number("0.25", Shown::Date), "a time of day is no day, but shown as one");
    assert_eq!(cells[7], &Typed::text("Onions"));
    assert_eq!(cells[8].value, Value::Bool(true));
    assert_eq!(cells[9], &Typed { value: Value::Date(date(2026, 5, 6)), shown: Shown::Date });
    assert!(cells[10].is_blank());
    assert_eq!(cells[11].value, Value::Error("#DIV/0!".into()));
    assert_eq!(cells[12].value, Value::Number(42.into()));
}

#[test]
fn dates_follow_the_workbooks_epoch() {
    let styles = format!(
        "<styleSheet xmlns=\"{MAIN}\"><cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"14\"/><xf numFmtId=\"7\"/></cellXfs></styleSheet>"
    );
    let rows = "<row r=\"1\"><c r=\"A1\" s=\"1\"><v>0</v></c><c r=\"B1\" s=\"1\"><v>44000.75</v></c>\
                <c r=\"C1\" s=\"2\"><v>3</v></c><c r=\"D1\" t=\"d\"><v>2026-11-25T10:00:00</v></c></row>";
    let more: &[(&str, &[u8])] = &[("xl/styles.xml", styles.as_bytes())];
    let grid = one(&workbook(rows, "<workbookPr date1904=\"1\"/>", more));
    assert_eq!(grid.get(0, 0).value, Value::Date(date(1904, 1, 1)));
    // 44000 days from 1904-01-01: 120 years of which 30 are leap years are 43830 days, to 2024-01-01; 170 more.
    assert_eq!(grid.get(0, 1).value, Value::Date(date(2024, 6, 19)));
    assert_eq!(grid.get(0, 2).shown, Shown::Money(String::new()), "format 7: the region's currency");
    assert_eq!(grid.get(0, 3).value, Value::Date(date(2026, 11, 25)));
    let grid = one(&workbook(rows, "", more));
    assert_eq!(grid.get(0, 0), &number("0", Shown::Date));
}

#[test]
fn hidden_sheets_are_read_and_chart_sheets_are_not() {
    let mut writer = Writer::new();
    writer.add_worksheet().set_name("Shown").unwrap().write(0, 0, 1).unwrap();
    writer.add_worksheet().set_name("Hidden").unwrap().set_hidden(true).write(0, 0, 2).unwrap();
    let mut chart = rust_xlsxwriter::Chart::new(rust_xlsxwriter::ChartType::Bar);
    chart.add_series().set_values("Shown!$A$1:$A$1");
    writer.add_chartsheet().insert_chart(0, 0, &chart).unwrap();
    let grids = read(&writer.save_to_buffer().unwrap()).unwrap();
    let names: Vec<_> = grids.iter().map(|grid| grid.place().sheet_name()).collect();
    assert_eq!(names, ["Shown", "Hidden"]);
}

const HEADER: &str = "<row r=\"1\"><c r=\"A1\" t=\"inlineStr\"><is><t>Item</t></is></c>\
     <c r=\"B1\" t=\"inlineStr\"><is><t>Price</t></is></c><c r=\"C1\" t=\"inlineStr\"><is><t>Per</t></is></c></row>";

#[test]
fn formulas_without_a_value_are_handed_on_where_they_matter() {
    let rows = format!(
        "{HEADER}<row r=\"2\"><c r=\"A2\" t=\"inlineStr\"><is><t>Onions</t></is></c><c r=\"B2\"><f>1+1</f></c>\
         <c r=\"C2\" t=\"str\"><f>X</f><v></v></c></row>\
         <row r=\"3\"><c r=\"A3\"><f t=\"shared\" si=\"0\" ref=\"A3:A4\">Z1</f></c></row>\
         <row r=\"4\"><c r=\"A4\"><f t=\"shared\" si=\"0\"/></c><c r=\"B4\" s=\"0\"/></row>"
    );
    let grid = one(&workbook(&rows, "", &[]));
    assert_eq!(grid.get(1, 1).value, Value::Formula("1+1".into()));
    assert!(grid.get(1, 2).is_blank(), "its stored value is empty text");
    assert_eq!(grid.get(2, 0).value, Value::Formula("Z1".into()), "a row of nothing but formulas is not lost");
    assert_eq!(grid.get(3, 0).value, Value::Formula("Z1".into()));
    assert!(grid.get(3, 1).is_blank(), "only styled");
    let all = "<row r=\"1\"><c r=\"A1\"><f>Prices!A1</f></c></row>";
    let grid = one(&workbook(all, "", &[]));
    let sheet = book::find::find(&grid);
    assert_eq!(sheet.problems[0].code, crate::problem::Code::FormulaWithoutValue);
}

#[test]
fn newer_error_values_are_errors_at_their_cells() {
    let rows = format!(
        "{HEADER}<row r=\"2\"><c r=\"A2\" t=\"e\"><f>X</f><v>#SPILL!</v></c><c r=\"C2\" t=\"e\"><v>#REF!</v></c></row>"
    );
    let grid = one(&workbook(&rows, "", &[]));
    assert_eq!(grid.get(1, 0).value, Value::Error("#VALUE!".into()));
    assert_eq!(grid.get(1, 2).value, Value::Error("#REF!".into()));
}

#[test]
fn absurd_numbers_stay_text() {
    let rows = "<row r=\"1\"><c r=\"A1\"><v>1e300</v></c><c r=\"B1\"><v>-1e-40</v></c><c r=\"C1\"><v>nan</v></c>\
                <c r=\"D1\"><v>inf</v></c><c r=\"E1\" t=\"n\"><v>+5</v></c><c r=\"F1\"><v>1e99999999999</v></c></row>";
    let grid = one(&workbook(rows, "", &[]));
    let seen: Vec<_> = (0..6).map(|column| grid.get(0, column).seen()).collect();
    assert_eq!(seen, ["1e300", "-1e-40", "NaN", "inf", "5", "inf"]);
}

#[test]
fn a_far_corner_and_a_million_empty_rows_cost_nothing() {
    let mut rows = String::from("<row r=\"1\"><c r=\"A1\"><v>1</v></c></row>");
    rows.push_str(&"<row><c s=\"1\"/></row>".repeat(1_000_000));
    rows.push_str("<row r=\"1048576\"><c r=\"XFD1048576\"><v>2</v></c></row>");
    let grid = one(&workbook(&rows, "", &[]));
    assert_eq!(grid.rows().iter().map(|row: &GridRow| row.row).collect::<Vec<_>>(), [0, 1_048_575]);
    assert_eq!(grid.get(1_048_575, 16_383).value, Value::Number(2.into()));
}

#[test]
fn what_lies_beyond_a_sheet_is_damage() {
    for cell in ["A1048577", "XFE1", "ZZZZ1"] {
        let rows = format!("<row r=\"1\"><c r=\"{cell}\"><v>1</v></c></row>");
        assert!(matches!(read(&workbook(&rows, "", &[])), Err(ReadError::Damaged { .. })), "{cell}");
    }
}

#[test]
fn one_long_text_in_many_cells_is_refused() {
    // A text of 1 MB that 351 cells point at packs into a few kilobytes.
    let texts = format!("<sst xmlns=\"{MAIN}\"><si><t>{}</t></si></sst>", "x".repeat(1_000_000));
    let rows: String =
        (1..=351).map(|row| format!("<row r=\"{row}\"><c r=\"A{row}\" t=\"s\"><v>0</v></c></row>")).collect();
    let bytes = workbook(&rows, "", &[("xl/sharedStrings.xml", texts.as_bytes())]);
    assert!(matches!(read(&bytes), Err(ReadError::TooLarge { most, .. }) if most == "350 MB of cells"));
}

#[test]
fn a_truncated_workbook_is_damaged() {
    let whole = workbook("<row r=\"1\"><c r=\"A1\"><v>1</v></c></row>", "", &[]);
    for keep in [4, 30, whole.len() / 2, whole.len() - 1] {
        let error = read(&whole[..keep]).unwrap_err();
        assert!(matches!(error, ReadError::Damaged { .. }), "{keep}: {error}");
        assert!(error.to_string().starts_with("a.xlsx is damaged"));
    }
    let cut = workbook_of(b"<worksheet><sheetData><row r=\"1\"><c r=\"A1\"><v>1", "", &[]);
    assert!(matches!(read(&cut), Err(ReadError::Damaged { .. })));
}

#[test]
fn a_list_of_texts_that_declares_an_absurd_length_is_refused() {
    for count in ["18446744073709551615", "99999999999999999999999", "4000000000"] {
        let texts =
            format!("<?xml version=\"1.0\"?><!-- <sst> -->\n<sst xmlns=\"{MAIN}\" uniqueCount=\"{count}\"></sst>");
        let bytes = workbook("", "", &[("xl/sharedStrings.xml", texts.as_bytes())]);
        assert!(matches!(read(&bytes), Err(ReadError::Damaged { .. })), "{count}");
    }
    let texts =
        format!("<x:sst xmlns:x=\"{MAIN}\" count=\"1\" uniqueCount=\"1\"><x:si><x:t>Leeks</x:t></x:si></x:sst>");
    let rows = "<row r=\"1\"><c r=\"A1\" t=\"s\"><v>0</v></c></row>";
    let bytes = workbook(rows, "", &[("xl/sharedStrings.xml", texts.as_bytes())]);
    assert_eq!(one(&bytes).get(0, 0), &Typed::text("Leeks"));
}

#[test]
fn a_zip_bomb_is_refused() {
    // 16 MiB of blanks pack into 16 KiB; the same part 64 times over is 1.07 GB.
    let one = zipped(&[("part", &vec![b' '; 16 << 20])]);
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for name in ["[Content_Types].xml".to_owned()].into_iter().chain((0..63).map(|n| format!("xl/{n}.xml"))) {
        let mut part = zip::ZipArchive::new(Cursor::new(&one)).unwrap();
        zip.raw_copy_file_rename(part.by_index_raw(0).unwrap(), name).unwrap();
    }
    let bytes = zip.finish().unwrap().into_inner();
    assert!(bytes.len() < 2_000_000);
    assert!(matches!(read(&bytes), Err(ReadError::TooLarge { most, .. }) if most == "300 MB"));
}

#[test]
fn too_many_parts_are_refused() {
    let names: Vec<String> = (0..2_001).map(|n| format!("{n}.xml")).collect();
    let parts: Vec<(&str, &[u8])> = names.iter().map(|name| (name.as_str(), b"".as_slice())).collect();
    assert!(matches!(read(&zipped(&parts)), Err(ReadError::TooLarge { most, .. }) if most == "2,000 parts"));
}
