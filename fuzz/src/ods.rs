//! Book of chance as ods (OASIS OpenDocument 1.3), with runs of equal cells written once, as programs do.

use std::fmt::Write;

use crate::book::{Book, Cell};
use crate::{escaped, zipped};

/// The bytes of the workbook.
pub fn written(book: &Book) -> Vec<u8> {
    let mut tables = String::new();
    for sheet in &book.sheets {
        let _ = write!(tables, "<table:table table:name=\"{}\">", escaped(&sheet.name));
        for row in &sheet.rows {
            tables.push_str("<table:table-row>");
            for same in row.chunk_by(PartialEq::eq) {
                let Some(cell) = same.first() else { continue };
                tables.push_str(&of_cell(cell, same.len()));
            }
            tables.push_str("</table:table-row>");
        }
        tables.push_str("</table:table>");
    }
    let content = format!(
        "<?xml version=\"1.0\"?><office:document-content xmlns:office=\"urn:oasis:names:tc:opendocument:xmlns:office:1.0\" \
         xmlns:table=\"urn:oasis:names:tc:opendocument:xmlns:table:1.0\" xmlns:text=\"urn:oasis:names:tc:opendocument:xmlns:text:1.0\">\
         <office:body><office:spreadsheet>{tables}</office:spreadsheet></office:body></office:document-content>"
    );
    zipped(&[("mimetype", b"application/vnd.oasis.opendocument.spreadsheet"), ("content.xml", content.as_bytes())])
}

fn of_cell(cell: &Cell, times: usize) -> String {
    let element = |attributes: &str, text: &str| {
        format!(
            "<table:table-cell table:number-columns-repeated=\"{times}\" {attributes}><text:p>{}</text:p></table:table-cell>",
            escaped(text)
        )
    };
    let float = |text: &str| format!("office:value-type=\"float\" office:value=\"{}\"", Cell::number(text));
    match cell {
        Cell::Blank => format!("<table:table-cell table:number-columns-repeated=\"{times}\"/>"),
        Cell::Text(text) => element("office:value-type=\"string\"", text),
        Cell::Number(text) => element(&float(text), text),
        Cell::Date(text) => {
            element(&format!("office:value-type=\"date\" office:date-value=\"{}\"", escaped(text)), text)
        }
        Cell::Percent(text) => {
            element(&format!("office:value-type=\"percentage\" office:value=\"{}\"", Cell::number(text)), text)
        }
        Cell::Bool(truth) => element(&format!("office:value-type=\"boolean\" office:boolean-value=\"{truth}\""), ""),
        Cell::Formula(formula, Some(value)) => {
            element(&format!("table:formula=\"of:={formula}\" {}", float(value)), value)
        }
        Cell::Formula(formula, None) => element(&format!("table:formula=\"of:={formula}\""), ""),
        Cell::Error(error) => {
            element("table:formula=\"of:=1/0\" office:value-type=\"string\" office:string-value=\"\"", error)
        }
    }
}
