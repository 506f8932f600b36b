//! Hostile and broken workbooks of the older and open kinds: a clear answer in little memory, never a panic.

use std::io::{Cursor, Read};
use std::sync::LazyLock;

use parings::internals::grids;
use parings::{ReadError, Source};
use proptest::prelude::*;

use super::xls::{begins, biff, xls};
use super::xlsb::{record, text, zipped};
use super::{KINDS_ODS, KINDS_XLS, sheets, xlsb};
use crate::support::{at_length, chance};
use crate::workbook::TEACHING_KITCHEN;

/// An ods of one sheet with this in it.
pub fn ods(sheet: &str) -> Vec<u8> {
    let content = format!(
        "<?xml version=\"1.0\"?><office:document-content><office:body><office:spreadsheet>\
         <table:table table:name=\"S\">{sheet}</table:table></office:spreadsheet></office:body></office:document-content>"
    );
    zipped(&[
        ("mimetype".to_owned(), b"application/vnd.oasis.opendocument.spreadsheet".to_vec()),
        ("content.xml".to_owned(), content.into_bytes()),
    ])
}

/// An xls whose sheets, `names`, all begin where `sheet` does, with one list of texts.
fn xls_of(names: usize, texts: &[u8], sheet: &[u8]) -> Vec<u8> {
    let of_sheets = |at: u32| -> Vec<u8> {
        (0..names)
            .flat_map(|n| {
                let name = format!("S{n}");
                let length = u8::try_from(name.len()).unwrap();
                biff(0x0085, &[&at.to_le_bytes()[..], &[0, 0, length, 0], name.as_bytes()].concat())
            })
            .collect()
    };
    let before = |at: u32| [begins(), of_sheets(at), texts.to_vec(), biff(0x000A, &[])].concat();
    let at = u32::try_from(before(0).len()).unwrap();
    xls(&[before(at), begins(), sheet.to_vec(), biff(0x000A, &[])].concat())
}

/// A number at a place.
fn number(row: u16, column: u16) -> Vec<u8> {
    biff(0x0203, &[&row.to_le_bytes()[..], &column.to_le_bytes(), &[0, 0], &1.0_f64.to_le_bytes()].concat())
}

/// The parts of an xlsb of one sheet.
fn xlsb_of(sheet: Vec<u8>) -> Vec<u8> {
    let mut book = Vec::new();
    record(&mut book, 156, &[&[0; 8][..], &text("rId1"), &text("S")].concat());
    let relations = b"<Relationships><Relationship Id=\"rId1\" Target=\"worksheets/a.bin\"/></Relationships>".to_vec();
    zipped(&[
        ("xl/workbook.bin".to_owned(), book),
        ("xl/_rels/workbook.bin.rels".to_owned(), relations),
        ("xl/worksheets/a.bin".to_owned(), sheet),
    ])
}

/// What reading a file says.
fn says(name: &str, bytes: &[u8]) -> String {
    match grids(&Source { name, bytes }) {
        Ok(grids) => {
            format!("{} cells", grids.iter().flat_map(|grid| grid.rows()).map(|row| row.cells().len()).sum::<usize>())
        }
        Err(error) => error.to_string(),
    }
}

/// A cell of a text.
const FILLED: &str = "<table:table-cell office:value-type=\"string\" table:number-columns-repeated=\"16384\"><text:p>x</text:p></table:table-cell>";

/// Hostile files: name, bytes, and what is said of them.
pub fn hostile() -> Vec<(&'static str, Vec<u8>, &'static str)> {
    let row = |repeated: u32, cells: &str| {
        format!("<table:table-row table:number-rows-repeated=\"{repeated}\">{cells}</table:table-row>")
    };
    let empty = |repeated: u32| format!("<table:table-cell table:number-columns-repeated=\"{repeated}\"/>");
    let one = "<table:table-cell office:value-type=\"float\" office:value=\"1\"/>";
    let spaces = "<table:table-cell office:value-type=\"string\"><text:p>a<text:s text:c=\"4000000000\"/>b</text:p></table:table-cell>";
    let long = format!(
        "<table:table-cell office:value-type=\"string\" table:number-columns-repeated=\"16384\"><text:p>{}</text:p></table:table-cell>",
        "x".repeat(1_000_000)
    );
    let many_styled: String = (0..if at_length() { 1_000_000 } else { 100_000 })
        .map(|_| "<table:table-row><table:table-cell table:style-name=\"c\"/></table:table-row>")
        .collect();
    // 32,767 letters in the list of texts, in 8,224 bytes a record, and 100,000 cells that point at them.
    let text: Vec<u8> =
        [vec![1, 0, 0, 0, 1, 0, 0, 0], 32_767_u16.to_le_bytes().to_vec(), vec![0], vec![b'x'; 8_000]].concat();
    let mut texts = biff(0x00FC, &text);
    for part in [8_000, 8_000, 8_000, 767] {
        texts.extend(biff(0x003C, &[vec![0], vec![b'x'; part]].concat()));
    }
    let pointing: Vec<u8> = (0..50_000_u16)
        .flat_map(|row| {
            [0_u8, 1].map(|column| biff(0x00FD, &[&row.to_le_bytes()[..], &[column, 0, 0, 0, 0, 0, 0, 0]].concat()))
        })
        .flatten()
        .collect();
    let dimensions = biff(0x0200, &[0, 0, 0, 0, 0xFF, 0xFF, 0xFF, 0xFF, 0, 0, 0xFF, 0xFF, 0, 0]);
    let begins_data = |into: &mut Vec<u8>| record(into, 145, &[]);
    let at_row = |into: &mut Vec<u8>, row: u32| record(into, 0, &row.to_le_bytes());
    let mut far = Vec::new();
    begins_data(&mut far);
    at_row(&mut far, 1_048_575);
    record(&mut far, 5, &[&16_383_u32.to_le_bytes()[..], &[0; 4], &1.0_f64.to_le_bytes()].concat());
    record(&mut far, 146, &[]);
    let mut beyond = Vec::new();
    begins_data(&mut beyond);
    at_row(&mut beyond, u32::MAX);
    record(&mut beyond, 5, &[&[0; 8][..], &1.0_f64.to_le_bytes()].concat());
    let mut pointless = Vec::new();
    begins_data(&mut pointless);
    record(&mut pointless, 7, &[&[0; 8][..], &u32::MAX.to_le_bytes()].concat());
    // A record that declares 268,435,455 bytes.
    let declaring = vec![0x05, 0xFF, 0xFF, 0xFF, 0x7F, 1, 2, 3];
    let too_many = "unpacks into more than 350 MB of cells";
    let too_long = "unpacks into more than 350 MB of cells";
    let mut all = vec![
        ("long.ods", ods(&row(1, &long)), too_long),
        ("empty.ods", ods(&row(1_048_575, &empty(16_384))), "0 cells"),
        (
            "far.ods",
            ods(&[row(1_048_575, &empty(1)), row(1, &[empty(16_383).as_str(), one].concat())].concat()),
            "1 cells",
        ),
        ("beyond.ods", ods(&[row(4_000_000_000, &empty(1)), row(1, one)].concat()), "a cell lies beyond"),
        ("spaces.ods", ods(&row(1, spaces)), "1 cells"),
        ("styled.ods", ods(&many_styled), "0 cells"),
        ("repeats.ods", ods(&row(1, "<table:table-cell table:number-columns-repeated=\"-1\"/>")), "repeated is “-1”"),
        ("cut.ods", ods("<table:table-row>"), "is damaged"),
        ("far.xls", xls_of(1, &[], &[dimensions.clone(), number(0, 0), number(65_535, 255)].concat()), "2 cells"),
        ("texts.xls", xls_of(1, &texts, &pointing), "2 cells"),
        ("same.xls", xls_of(20_000, &[], &number(0, 0).repeat(50_000)), "its sheets lie within one another"),
        ("cut.xls", xls(&begins()), "is cut short"),
        ("old.xls", xls(&biff(0x0409, &[0, 4])), "before 1995"),
        ("locked.xls", xls(&[begins(), biff(0x002F, &[1, 0])].concat()), "is protected by a password"),
        ("nowhere.xls", xls_of(1, &[], &biff(0x00FD, &[0, 0, 0, 0, 0, 0, 9, 9, 9, 9])), "sheet “S0” is cut short"),
        ("far.xlsb", xlsb_of(far), "1 cells"),
        ("beyond.xlsb", xlsb_of(beyond), "a cell lies beyond"),
        ("pointless.xlsb", xlsb_of(pointless), "is cut short"),
        ("declaring.xlsb", xlsb_of(declaring), "is damaged"),
    ];
    // Five million cells are read before it is refused.
    if at_length() {
        all.push(("filled.ods", ods(&row(1_048_576, FILLED)), too_many));
    }
    all
}

/// What is read of those that can be read; what is said of the others is what the command says of them: see `hostile::inputs`.
#[test]
fn sparse_workbooks_are_read_whole() {
    let is_read = |expected: &str| expected.starts_with(|first: char| first.is_ascii_digit());
    for (name, bytes, expected) in hostile().into_iter().filter(|(.., expected)| is_read(expected)) {
        let said = says(name, &bytes);
        assert!(said.contains(expected), "{name}: {said}");
    }
}

#[test]
fn an_encrypted_ods_is_told() {
    let manifest = b"<manifest:manifest><manifest:file-entry><manifest:encryption-data/></manifest:file-entry></manifest:manifest>";
    let bytes = zipped(&[
        ("mimetype".to_owned(), b"application/vnd.oasis.opendocument.spreadsheet".to_vec()),
        ("content.xml".to_owned(), b"scrambled".to_vec()),
        ("META-INF/manifest.xml".to_owned(), manifest.to_vec()),
    ]);
    assert!(matches!(grids(&Source { name: "a.ods", bytes: &bytes }), Err(ReadError::PasswordProtected { .. })));
}

/// The teaching kitchen as xlsb.
static TEACHING_XLSB: LazyLock<Vec<u8>> = LazyLock::new(|| xlsb::written(&sheets("a.xlsx", TEACHING_KITCHEN)));

/// A zip in whose directory the part `name` has another checksum (APPNOTE 4.3.12: 16 bytes behind the mark; the name 46).
fn with_another_checksum(bytes: &[u8], name: &str) -> Vec<u8> {
    let mut bytes = bytes.to_vec();
    let marks: Vec<usize> = (0..bytes.len()).filter(|at| bytes[*at..].starts_with(b"PK\x01\x02")).collect();
    let of = marks.into_iter().find(|at| bytes[at + 46..].starts_with(name.as_bytes())).unwrap();
    bytes[of + 16] ^= 1;
    bytes
}

/// A figure may have been damaged on its way and still be a figure.
#[test]
fn a_part_that_is_not_as_it_was_packed_is_damaged_and_no_figure_of_it_counts() {
    for (name, bytes, part) in [
        ("a.xlsx", TEACHING_KITCHEN, "xl/worksheets/sheet2.xml"),
        ("a.xlsx", TEACHING_KITCHEN, "xl/sharedStrings.xml"),
        ("a.ods", KINDS_ODS, "content.xml"),
        ("a.xlsb", TEACHING_XLSB.as_slice(), "xl/worksheets/sheet2.bin"),
    ] {
        let bytes = with_another_checksum(bytes, part);
        let read = grids(&Source { name, bytes: &bytes });
        assert!(matches!(read, Err(ReadError::Damaged { .. })), "{name}, {part}");
    }
}

/// The part of an ods that holds its cells.
fn content_of(bytes: &[u8]) -> Vec<u8> {
    let mut content = Vec::new();
    let mut zip = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    zip.by_name("content.xml").unwrap().read_to_end(&mut content).unwrap();
    content
}

proptest! {
    #![proptest_config(chance(16))]

    #[test]
    fn chance_in_the_bytes_of_a_workbook_never_panics(changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..12), cut in any::<Option<prop::sample::Index>>()) {
        let spoiled = |whole: &[u8]| {
            let mut bytes = whole.to_vec();
            for (at, byte) in &changes {
                let at = at.index(bytes.len());
                bytes[at] = *byte;
            }
            if let Some(cut) = cut {
                bytes.truncate(cut.index(bytes.len()));
            }
            bytes
        };
        says("a.xls", &spoiled(KINDS_XLS));
        says("a.ods", &spoiled(KINDS_ODS));
        let content = spoiled(&content_of(KINDS_ODS));
        says("b.ods", &zipped(&[("mimetype".to_owned(), b"application/vnd.oasis.opendocument.spreadsheet".to_vec()), ("content.xml".to_owned(), content)]));
        // Stored, not packed: the change meets the records themselves.
        says("a.xlsb", &spoiled(&TEACHING_XLSB));
    }
}
