//! Writing a binary workbook (xlsb) from the cells of another, by \[MS-XLSB\].
//!
//! Numbers are written in each of their forms: packed whole numbers, packed hundredths, and floats; texts as shared, in
//! the cell, and as the result of a formula.

use std::io::{Cursor, Write};

use parings::internals::Grid;
use parings::number::Decimal;
use parings::schema::{Shown, Typed, Value};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

/// A zip of parts.
pub fn zipped(parts: &[(String, Vec<u8>)]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in parts {
        zip.start_file(name.as_str(), SimpleFileOptions::default().compression_method(CompressionMethod::Stored))
            .unwrap();
        zip.write_all(bytes).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

/// A record: its kind and length, seven bits in a byte, and its bytes (2.1.4).
pub fn record(into: &mut Vec<u8>, kind: u16, body: &[u8]) {
    let mut sevens = |mut number: usize| loop {
        let byte = u8::try_from(number & 0x7F).unwrap();
        number >>= 7;
        into.push(if number > 0 { byte | 0x80 } else { byte });
        if number == 0 {
            break;
        }
    };
    sevens(usize::from(kind));
    sevens(body.len());
    into.extend_from_slice(body);
}

/// A text: a count of UTF-16 code units, and these (2.5.168).
pub fn text(text: &str) -> Vec<u8> {
    let units: Vec<u16> = text.encode_utf16().collect();
    let mut bytes = u32::try_from(units.len()).unwrap().to_le_bytes().to_vec();
    bytes.extend(units.iter().flat_map(|unit| unit.to_le_bytes()));
    bytes
}

/// The codes of the number formats, of which the first is 164 in the file.
const CODES: &[(&str, &str)] = &[("$", "\"$\"#,##0.00"), ("€", "#,##0.00\\ [$€-407]"), ("£", "[$£-809]#,##0.00")];

/// The cell format of a cell, by its place in the list that [`styles`] writes.
fn style(shown: &Shown) -> u32 {
    match shown {
        Shown::Plain => 0,
        Shown::Percent => 1,
        Shown::Date => 2,
        Shown::Fraction => 3,
        Shown::Money(sign) => 4 + u32::try_from(CODES.iter().position(|(s, _)| s == sign).unwrap()).unwrap(),
    }
}

/// The part that says how numbers are shown.
fn styles() -> Vec<u8> {
    let mut part = Vec::new();
    record(&mut part, 615, &u32::try_from(CODES.len()).unwrap().to_le_bytes());
    for (id, (_, code)) in (164_u16..).zip(CODES) {
        record(&mut part, 44, &[id.to_le_bytes().to_vec(), text(code)].concat());
    }
    record(&mut part, 616, &[]);
    // Percent, date and fraction are built in.
    let ids: Vec<u16> = [0, 10, 14, 12].into_iter().chain(164..167).collect();
    record(&mut part, 617, &u32::try_from(ids.len()).unwrap().to_le_bytes());
    for id in ids {
        record(&mut part, 47, &[&0_u16.to_le_bytes()[..], &id.to_le_bytes(), &[0; 12]].concat());
    }
    record(&mut part, 618, &[]);
    part
}

/// The bytes of one cell after its column and format, with the kind of its record.
fn cell(typed: &Typed, nth: usize, shared: &mut Vec<String>) -> (u16, Vec<u8>) {
    match &typed.value {
        Value::Text(words) => match nth % 3 {
            0 => (6, text(words)),
            // The result of a formula of no tokens.
            1 => (8, [text(words), vec![0; 10]].concat()),
            _ => {
                shared.push(words.clone());
                (7, u32::try_from(shared.len() - 1).unwrap().to_le_bytes().to_vec())
            }
        },
        Value::Number(number) => of_number(*number, nth),
        Value::Date(day) => {
            // Day 1 is 1 January 1900, and a 29 February is counted that never was.
            let days = day.since(jiff::civil::date(1899, 12, 30)).unwrap().get_days();
            (5, f64::from(days).to_le_bytes().to_vec())
        }
        Value::Bool(truth) => (4, vec![u8::from(*truth)]),
        Value::Error(error) => (
            3,
            vec![match error.as_str() {
                "#DIV/0!" => 0x07,
                "#N/A" => 0x2A,
                other => panic!("{other} has no code here"),
            }],
        ),
        other => panic!("{other:?} is not written here"),
    }
}

/// A number in whichever form holds it (2.5.123).
fn of_number(number: Decimal, nth: usize) -> (u16, Vec<u8>) {
    let packed = |whole: Decimal| i32::try_from(whole).ok().filter(|whole| (-(1 << 29)..1 << 29).contains(whole));
    let float: f64 = number.to_string().parse().unwrap();
    if number.fract().is_zero()
        && let Some(whole) = packed(number)
    {
        return (2, (whole << 2 | 2).to_le_bytes().to_vec());
    }
    let hundredfold = number * Decimal::ONE_HUNDRED;
    if hundredfold.fract().is_zero()
        && let Some(whole) = packed(hundredfold)
    {
        return (2, (whole << 2 | 3).to_le_bytes().to_vec());
    }
    (if nth.is_multiple_of(2) { 5 } else { 9 }, float.to_le_bytes().to_vec())
}

/// The workbook.
pub fn written(grids: &[Grid]) -> Vec<u8> {
    let mut shared = Vec::new();
    let mut parts: Vec<(String, Vec<u8>)> = Vec::new();
    let mut book = Vec::new();
    let mut relations = String::new();
    record(&mut book, 131, &[]);
    record(&mut book, 153, &[0; 8]);
    record(&mut book, 143, &[]);
    for (at, grid) in grids.iter().enumerate() {
        let id = format!("rId{}", at + 1);
        let sheet = u32::try_from(at + 1).unwrap().to_le_bytes();
        record(&mut book, 156, &[&[0; 4], &sheet[..], &text(&id), &text(grid.place().sheet_name())].concat());
        relations.push_str(&format!(
            "<Relationship Id=\"{id}\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet\" Target=\"worksheets/sheet{}.bin\"/>",
            at + 1
        ));
        parts.push((format!("xl/worksheets/sheet{}.bin", at + 1), sheet_part(grid, &mut shared)));
    }
    record(&mut book, 144, &[]);
    record(&mut book, 132, &[]);
    let mut texts = Vec::new();
    let count = u32::try_from(shared.len()).unwrap().to_le_bytes();
    record(&mut texts, 159, &[count, count].concat());
    for words in &shared {
        record(&mut texts, 19, &[vec![0], text(words)].concat());
    }
    record(&mut texts, 160, &[]);
    let relations = format!(
        "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">{relations}</Relationships>"
    );
    for (name, bytes) in [
        (
            "[Content_Types].xml",
            b"<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\"/>".to_vec(),
        ),
        ("xl/workbook.bin", book),
        ("xl/_rels/workbook.bin.rels", relations.into_bytes()),
        ("xl/styles.bin", styles()),
        ("xl/sharedStrings.bin", texts),
    ] {
        parts.push((name.to_owned(), bytes));
    }
    zipped(&parts)
}

fn sheet_part(grid: &Grid, shared: &mut Vec<String>) -> Vec<u8> {
    let mut part = Vec::new();
    record(&mut part, 129, &[]);
    record(&mut part, 148, &[0; 16]);
    record(&mut part, 145, &[]);
    for row in grid.rows() {
        record(&mut part, 0, &[&row.row.to_le_bytes()[..], &[0; 13]].concat());
        for (nth, (column, typed)) in row.cells().iter().enumerate() {
            let (kind, body) = cell(typed, nth, shared);
            record(&mut part, kind, &[&column.to_le_bytes()[..], &style(&typed.shown).to_le_bytes(), &body].concat());
        }
    }
    record(&mut part, 146, &[]);
    record(&mut part, 130, &[]);
    part
}
