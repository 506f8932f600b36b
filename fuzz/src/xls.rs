//! Book of chance as xls (\[MS-XLS\]): records of a workbook in a compound file.

use std::io::{Cursor, Write};

use crate::book::{Book, Cell};

fn record(kind: u16, body: &[u8]) -> Vec<u8> {
    // No body here is longer; what would be is cut, which is hostile enough.
    let body = body.get(..8_224).unwrap_or(body);
    let length = u16::try_from(body.len()).unwrap_or(0);
    [&kind.to_le_bytes()[..], &length.to_le_bytes(), body].concat()
}

fn begins(kind: u8) -> Vec<u8> {
    record(0x0809, &[0, 6, kind, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0])
}

/// A string of 16-bit units behind its length.
fn unicode(text: &str, wide: bool) -> Vec<u8> {
    let units: Vec<u16> = text.encode_utf16().take(if wide { 4_000 } else { 31 }).collect();
    let length = u16::try_from(units.len()).unwrap_or(0).to_le_bytes();
    let length = if wide { &length[..] } else { &length[..1] };
    [length, &[1], &units.iter().flat_map(|unit| unit.to_le_bytes()).collect::<Vec<u8>>()].concat()
}

/// The bytes of the workbook.
pub fn written(book: &Book) -> Vec<u8> {
    let sheets: Vec<Vec<u8>> = book.sheets.iter().map(|sheet| of_sheet(&sheet.rows)).collect();
    let formats: Vec<u8> = [0_u16, 14, 9]
        .iter()
        .flat_map(|format| record(0x00E0, &[&[0, 0][..], &format.to_le_bytes(), &[0; 16]].concat()))
        .collect();
    let globals = |places: &[u32]| {
        let named = book.sheets.iter().zip(places);
        let named = named.flat_map(|(sheet, at)| {
            record(0x0085, &[&at.to_le_bytes()[..], &[0, 0], &unicode(&sheet.name, false)].concat())
        });
        [begins(5), formats.clone(), named.collect(), record(0x000A, &[])].concat()
    };
    let nowhere = vec![0; sheets.len()];
    let mut at = u32::try_from(globals(&nowhere).len()).unwrap_or(0);
    let mut places = Vec::new();
    for sheet in &sheets {
        places.push(at);
        at = at.wrapping_add(u32::try_from(sheet.len()).unwrap_or(0));
    }
    let stream = [globals(&places), sheets.concat()].concat();
    let mut file = cfb::CompoundFile::create(Cursor::new(Vec::new())).unwrap();
    file.create_stream("/Workbook").unwrap().write_all(&stream).unwrap();
    file.into_inner().into_inner()
}

fn of_sheet(rows: &[Vec<Cell>]) -> Vec<u8> {
    let mut stream = begins(16);
    for (row, cells) in (0_u16..).zip(rows) {
        for (column, cell) in (0_u16..).zip(cells) {
            let place = |style: u16| [row.to_le_bytes(), column.to_le_bytes(), style.to_le_bytes()].concat();
            let float = |text: &str| text.parse::<f64>().unwrap_or(0.0).to_le_bytes();
            let number = |style: u16, text: &str| record(0x0203, &[&place(style)[..], &float(text)].concat());
            stream.extend(match cell {
                Cell::Blank => record(0x0201, &place(0)),
                Cell::Text(text) => record(0x0204, &[place(0), unicode(text, true)].concat()),
                Cell::Number(text) => number(0, text),
                Cell::Date(text) => number(1, text),
                Cell::Percent(text) => number(2, text),
                Cell::Bool(truth) => record(0x0205, &[&place(0)[..], &[u8::from(*truth), 0]].concat()),
                Cell::Error(_) => record(0x0205, &[&place(0)[..], &[7, 1]].concat()),
                Cell::Formula(_, value) => {
                    let value = value.as_deref().map_or([3, 0, 0, 0, 0, 0, 0xFF, 0xFF], float);
                    record(0x0006, &[&place(0)[..], &value, &[0; 8]].concat())
                }
            });
        }
    }
    stream.extend(record(0x000A, &[]));
    stream
}
