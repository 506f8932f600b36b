//! Book of chance as xlsx (ECMA-376), written by hand, so that cells are as odd as other programs write them.

use std::fmt::Write;

use crate::book::{Book, Cell};
use crate::{escaped, zipped};

/// Number formats: none, a date, a percentage (18.8.30).
const STYLES: &str = "<styleSheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><cellXfs count=\"3\">\
    <xf numFmtId=\"0\"/><xf numFmtId=\"14\"/><xf numFmtId=\"9\"/></cellXfs></styleSheet>";

/// The bytes of the workbook.
pub fn written(book: &Book) -> Vec<u8> {
    let main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    let relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    let package = "http://schemas.openxmlformats.org/package/2006";
    let (mut names, mut links, mut types) = (String::new(), String::new(), String::new());
    let mut parts = Vec::new();
    for (at, sheet) in (1..).zip(&book.sheets) {
        let _ = write!(names, "<sheet name=\"{}\" sheetId=\"{at}\" r:id=\"rId{at}\"/>", escaped(&sheet.name));
        let _ = write!(
            links,
            "<Relationship Id=\"rId{at}\" Type=\"{relations}/worksheet\" Target=\"worksheets/sheet{at}.xml\"/>"
        );
        let _ = write!(
            types,
            "<Override PartName=\"/xl/worksheets/sheet{at}.xml\" ContentType=\"application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml\"/>"
        );
        let mut rows = String::new();
        for (row, cells) in (1..).zip(&sheet.rows) {
            let _ = write!(rows, "<row r=\"{row}\">");
            for (column, cell) in ('A'..='Z').zip(cells) {
                rows.push_str(&of_cell(&format!("{column}{row}"), cell));
            }
            rows.push_str("</row>");
        }
        parts.push((
            format!("xl/worksheets/sheet{at}.xml"),
            format!("<worksheet xmlns=\"{main}\"><sheetData>{rows}</sheetData></worksheet>"),
        ));
    }
    parts.extend([
        (
            "[Content_Types].xml".to_owned(),
            format!(
                "<Types xmlns=\"{package}/content-types\"><Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>\
                 <Override PartName=\"/xl/workbook.xml\" ContentType=\"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml\"/>{types}</Types>"
            ),
        ),
        (
            "_rels/.rels".to_owned(),
            format!("<Relationships xmlns=\"{package}/relationships\"><Relationship Id=\"rId1\" Type=\"{relations}/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>"),
        ),
        ("xl/workbook.xml".to_owned(), format!("<workbook xmlns=\"{main}\" xmlns:r=\"{relations}\"><sheets>{names}</sheets></workbook>")),
        (
            "xl/_rels/workbook.xml.rels".to_owned(),
            format!(
                "<Relationships xmlns=\"{package}/relationships\">{links}<Relationship Id=\"rId0\" Type=\"{relations}/styles\" Target=\"styles.xml\"/></Relationships>"
            ),
        ),
        ("xl/styles.xml".to_owned(), STYLES.to_owned()),
    ]);
    let parts: Vec<(&str, &[u8])> = parts.iter().map(|(name, text)| (name.as_str(), text.as_bytes())).collect();
    zipped(&parts)
}

fn of_cell(at: &str, cell: &Cell) -> String {
    let number = |style: u8, text: &str| format!("<c r=\"{at}\" s=\"{style}\"><v>{}</v></c>", Cell::number(text));
    match cell {
        Cell::Blank => String::new(),
        Cell::Text(text) => format!("<c r=\"{at}\" t=\"inlineStr\"><is><t>{}</t></is></c>", escaped(text)),
        Cell::Number(text) => number(0, text),
        Cell::Date(text) => number(1, text),
        Cell::Percent(text) => number(2, text),
        Cell::Bool(truth) => format!("<c r=\"{at}\" t=\"b\"><v>{}</v></c>", u8::from(*truth)),
        Cell::Formula(formula, Some(value)) => {
            format!("<c r=\"{at}\"><f>{formula}</f><v>{}</v></c>", Cell::number(value))
        }
        Cell::Formula(formula, None) => format!("<c r=\"{at}\"><f>{formula}</f></c>"),
        Cell::Error(error) => format!("<c r=\"{at}\" t=\"e\"><v>{error}</v></c>"),
    }
}
