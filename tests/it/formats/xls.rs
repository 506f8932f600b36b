//! Writing the records of an old binary workbook (xls), by \[MS-XLS\], and what only such a workbook holds.

use std::io::{Cursor, Write};

use jiff::civil::date;
use parings::schema::{Shown, Value};

use super::{opinion, sheets};

/// A compound file around the records of a workbook.
pub fn xls(stream: &[u8]) -> Vec<u8> {
    let mut file = cfb::CompoundFile::create(Cursor::new(Vec::new())).unwrap();
    file.create_stream("/Workbook").unwrap().write_all(stream).unwrap();
    file.into_inner().into_inner()
}

/// A record of an xls.
pub fn biff(kind: u16, body: &[u8]) -> Vec<u8> {
    let length = u16::try_from(body.len()).unwrap();
    [&kind.to_le_bytes()[..], &length.to_le_bytes(), body].concat()
}

/// The first record of a workbook or sheet in BIFF8.
pub fn begins() -> Vec<u8> {
    biff(0x0809, &[0, 6, 5, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0])
}

/// A BIFF5 workbook of one sheet in a code page, its dates counted from 1904: a text in that code page, money, a percentage
/// and a date.
fn biff5(code_page: u16, letters: &[u8]) -> Vec<u8> {
    let begins = |kind: u8| biff(0x0809, &[0, 5, kind, 0, 0, 0, 0, 0]);
    let format = |id: u16, code: &str| {
        biff(0x041E, &[&id.to_le_bytes()[..], &[u8::try_from(code.len()).unwrap()], code.as_bytes()].concat())
    };
    let used = |id: u16| biff(0x00E0, &[&[0, 0][..], &id.to_le_bytes(), &[0; 12]].concat());
    let length = u8::try_from(letters.len()).unwrap();
    let before = |at: u32| {
        [
            begins(5),
            biff(0x0042, &code_page.to_le_bytes()),
            biff(0x0022, &[1, 0]),
            format(164, "\"$\"#,##0.00"),
            [0, 164, 10, 14].map(used).concat(),
            biff(0x0085, &[&at.to_le_bytes()[..], &[0, 0, length], letters].concat()),
            biff(0x000A, &[]),
        ]
        .concat()
    };
    let text = biff(0x0204, &[&[0, 0, 0, 0, 0, 0, length, 0], letters].concat());
    // 12.5, 28 % and day 44,885 as packed numbers: hundredths of a whole number, and a whole number.
    let packed = |rk: u32, format: u16| [format.to_le_bytes().to_vec(), rk.to_le_bytes().to_vec()].concat();
    let numbers = [packed(1_250 << 2 | 3, 1), packed(28 << 2 | 3, 2), packed(44_885 << 2 | 2, 3)].concat();
    let numbers = biff(0x00BD, &[&[1, 0, 0, 0][..], &numbers, &[2, 0]].concat());
    let at = u32::try_from(before(0).len()).unwrap();
    xls(&[before(at), begins(16), text, numbers, biff(0x000A, &[])].concat())
}

#[test]
fn a_workbook_from_1995_speaks_in_its_code_page() {
    // Windows-1252: E8 is è, EE is î. Windows-1251: EB F3 EA are л, у and к.
    for (code_page, letters, says) in
        [(1252, &b"cr\xE8me fra\xEEche"[..], "crème fraîche"), (1251, b"\xEB\xF3\xEA", "лук")]
    {
        let bytes = biff5(code_page, letters);
        let found = sheets("a.xls", &bytes);
        let grid = &found[0];
        assert_eq!(grid.place().sheet_name(), says);
        assert_eq!(grid.get(0, 0).value, Value::Text(says.to_owned()));
        let money = grid.get(1, 0);
        assert_eq!(
            (&money.value, &money.shown),
            (&Value::Number("12.5".parse().unwrap()), &Shown::Money("$".to_owned()))
        );
        let percent = grid.get(1, 1);
        assert_eq!((&percent.value, &percent.shown), (&Value::Number("0.28".parse().unwrap()), &Shown::Percent));
        // 122 years from 1 January 1904 hold 122 × 365 + 31 leap days = 44,561 days; 324 more, 304 to 1 November, end on the 21st.
        assert_eq!(grid.get(1, 2).value, Value::Date(date(2026, 11, 21)));
        assert_eq!(opinion::agrees("a.xls", &bytes, &found), 4);
    }
}
