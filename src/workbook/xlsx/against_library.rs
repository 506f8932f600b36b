//! Comparison of sheets with those that the library writes cell by cell: the same cells must become the same XML, whole or in
//! pieces, packed at the end or on the way. Then another library reads what was written.

use std::collections::BTreeMap;
use std::io::{Cursor, Read};
use std::ops::Range;

use calamine::{Data, Reader, Xlsx};
use jiff::civil::date;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, Format, Formula as Written, Note, Url, Workbook, Worksheet};
use zip::ZipArchive;

use super::binder::Binder;
use super::format::format_of;
use super::height::height_of;
use super::notes::CellNotes;
use super::page_setup::Paper;
use super::row_writer::BLOCK;
use super::sheet::{Drawn, days};
use super::workers;
use crate::number::Decimal;
use crate::workbook::cells::formula::{Formula, Outcome, Ref};
use crate::workbook::cells::number::{stored, to_float};
use crate::workbook::cells::row::{Cell, Content, Frame, Ink, Look, PrintedPage, Row, Tab};

/// Texts that something could be taken for, or that XML or a spreadsheet could spoil.
const HOSTILE: &[&str] = &[
    "plain",
    "=1+1",
    "{=SUM(A1)}",
    "+1",
    "@now",
    "<r>rich</r>x",
    "a & b < c > d \"e\" 'f'",
    "]]> <!-- -->",
    " before",
    "behind ",
    "\ttab\t",
    "one\ntwo\n",
    "line\r\nline",
    "bell\u{7} escape\u{1b} nul\u{0}",
    "_x0041_",
    "_x0041_x0042_",
    "_x005F_x0041_",
    "__x000d_ _x00é_ _X0041_ _x004",
    "\u{FFFE}\u{FFFF}\u{FFFD}",
    "🥕 crème fraîche \u{200F}\u{202E}",
    "TRUE",
    "#DIV/0!",
    "1e300",
    "",
];

const MONEY: &str = "$";

/// Rows of every kind of cell, so many of them that blocks of rows and portions of XML end among them.
fn rows() -> Vec<Row> {
    let decimal = |text: &str| text.parse::<Decimal>().unwrap();
    let money = |places| Look::Money { sign: MONEY.into(), places };
    let numbers = ["0", "-0.5", "12.340", "0.0000000000000000000000000007", "79228162514264337593543950335"];
    (0..700_u32)
        .map(|row| {
            let nth = row as usize;
            let text = HOSTILE[nth % HOSTILE.len()];
            let number = decimal(numbers[nth % numbers.len()]);
            let content = match row % 4 {
                0 => Content::Bool(row % 8 == 0),
                1 => Content::Date(date(2026, 11, 1 + i8::try_from(row % 28).unwrap())),
                2 => Content::Blank,
                _ => Content::Text(format!("row {row}")),
            };
            let mut cells = vec![
                Cell::text(0, text, Ink::Input),
                Cell { column: 1, content, ink: Ink::Fact, look: Look::Date },
                Cell::number(2, number, Ink::Reading, money(2 + row % 3)),
                Cell::figure(3, Formula::number(format!("C{}*2<A1&\"é\"", row + 1), number), money(2)),
                Cell::figure(
                    30,
                    Formula::text("IF(A1>1,\"a\",\"b\")", if row % 2 == 0 { "a & b" } else { "" }),
                    Look::Words,
                ),
            ];
            if row % 50 == 7 {
                cells.push(Cell::link(31, text, &Ref::new("It's & more", row, 1), Ink::Plain));
            }
            Row { row: row + u32::from(row > 100), cells }
        })
        .collect()
}

fn frame(name: &str) -> Frame {
    Frame::new(name, vec![12, 9]).frozen(1)
}

fn paper() -> Paper {
    Paper::plain()
}

fn notes() -> CellNotes {
    [((3, 0), vec!["one & two".to_owned()]), ((101, 40), vec!["where no row is".to_owned()])].into_iter().collect()
}

/// Cell by cell by the library.
fn by_the_library(sheets: &[(&str, &[Row])]) -> Vec<u8> {
    let mut book = Workbook::new();
    for (name, rows) in sheets {
        let mut sheet = Worksheet::new();
        sheet.set_name(*name).unwrap();
        sheet.set_formula_result_default("");
        sheet.set_column_width(0, 12).unwrap().set_column_width(1, 9).unwrap();
        for row in *rows {
            for cell in &row.cells {
                put(&mut sheet, row.row, cell);
            }
        }
        sheet.set_freeze_panes(1, 0).unwrap();
        sheet.set_screen_gridlines(false).set_tab_color(super::format::tab(frame(name).tab).unwrap());
        let (page, _) = paper().page(&frame(name), (rows.last().unwrap().row, 31), &[]);
        page.set(&mut sheet).unwrap();
        sheet.set_repeat_rows(0, 0).unwrap();
        for ((row, column), texts) in notes() {
            let note = Note::new(texts.join("")).add_author_prefix(false).set_author("parings");
            sheet.insert_note(row, column, &note.set_width(320).set_height(120)).unwrap();
        }
        book.push_worksheet(sheet);
    }
    book.save_to_buffer().unwrap()
}

fn put(sheet: &mut Worksheet, row: u32, cell: &Cell) {
    let format: &Format = &format_of(cell.ink, &cell.look);
    let column = cell.column;
    match &cell.content {
        Content::Blank => sheet.write_blank(row, column, format),
        Content::Text(text) => sheet.write_string_with_format(row, column, text, format),
        Content::Number(number) => sheet.write_number_with_format(row, column, to_float(*number), format),
        Content::Bool(yes) => sheet.write_boolean_with_format(row, column, *yes, format),
        Content::Date(date) => {
            let (year, month, day) = (u16::try_from(date.year()), u8::try_from(date.month()), u8::try_from(date.day()));
            let written = ExcelDateTime::from_ymd(year.unwrap(), month.unwrap(), day.unwrap()).unwrap();
            sheet.write_datetime_with_format(row, column, &written, format)
        }
        Content::Formula(formula) => {
            let result = match &formula.result {
                Outcome::Number(number) => stored(*number),
                Outcome::Text(text) => text.clone(),
            };
            sheet.write_formula_with_format(row, column, Written::new(formula.whole()).set_result(result), format)
        }
        Content::Link { text, to } => {
            let target = format!("internal:'{}'!{}", to.sheet.replace('\'', "''"), to.cell());
            sheet.write_url_with_format(row, column, Url::new(target), format).unwrap();
            sheet.write_string_with_format(row, column, text, format)
        }
    }
    .unwrap();
}

/// By us; in pieces of so many rows, of which all that is longer than `long` is packed on the way.
fn by_us(sheets: &[(&str, &[Row])], piece: usize, long: usize) -> Vec<u8> {
    let drawn = sheets.iter().flat_map(|(name, rows)| {
        let all = (rows.len() <= piece).then_some(0..u32::MAX);
        rows.chunks(piece).map(move |some| drawn(name, some, all.clone()))
    });
    bound(drawn, long)
}

/// By us, in parts of so many rows of the sheet, which are whole blocks.
fn by_us_in_blocks(sheets: &[(&str, &[Row])], part: u32) -> Vec<u8> {
    let drawn = sheets.iter().flat_map(|(name, rows)| {
        let last = rows.last().map_or(0, |row| row.row / part);
        (0..=last).map(move |at| {
            let end = if at == last { u32::MAX } else { (at + 1) * part };
            let some: Vec<Row> = rows.iter().filter(|row| row.row / part == at).cloned().collect();
            drawn(name, &some, Some(at * part..end))
        })
    });
    bound(drawn, 1)
}

fn drawn(name: &str, rows: &[Row], blocks: Option<Range<u32>>) -> Drawn {
    Drawn::of_list(frame(name), notes(), blocks, |out| rows.iter().cloned().for_each(out)).unwrap()
}

fn bound(drawn: impl Iterator<Item = Drawn>, long: usize) -> Vec<u8> {
    let paper = paper();
    workers::hire(|crew| {
        let mut binder = Binder::new(&paper, crew).packing_above(long);
        drawn.for_each(|one| binder.take(one).unwrap());
        binder.bound(&properties(), names()).unwrap()
    })
}

fn properties() -> DocProperties {
    DocProperties::new().set_creation_datetime(&ExcelDateTime::from_ymd(2026, 11, 20).unwrap())
}

fn names() -> Vec<(String, String)> {
    let named = [("target", "'It''s & more'!$B$2"), ("Costing_date", "1+1"), ("Q_factor", "IF(Others!$A$1<2,\"&\",1)")];
    named.map(|(name, formula)| (name.to_owned(), formula.to_owned())).to_vec()
}

/// A part of a workbook, without its hints of columns if these are not to count.
fn part(book: &[u8], name: &str, hints: bool) -> String {
    let mut text = String::new();
    ZipArchive::new(Cursor::new(book)).unwrap().by_name(name).unwrap().read_to_string(&mut text).unwrap();
    if hints {
        return text;
    }
    let without = text.split(" spans=\"").enumerate();
    // Rows in which nothing but a note stands say nothing but their hint.
    let text: String = without.map(|(at, one)| if at == 0 { one } else { one.split_once('"').unwrap().1 }).collect();
    text.replace("<row r=\"4\"/>", "").replace("<row r=\"102\"/>", "")
}

const PARTS: [&str; 5] = [
    "xl/worksheets/sheet1.xml",
    "xl/worksheets/sheet2.xml",
    "xl/styles.xml",
    "xl/sharedStrings.xml",
    "xl/drawings/vmlDrawing1.vml",
];

#[test]
fn the_same_cells_become_the_same_xml() {
    let rows = rows();
    let sheets = [("It's & more", rows.as_slice()), ("Others", &rows[20..650])];
    let expected = by_the_library(&sheets);
    for (piece, long) in [(usize::MAX, usize::MAX), (usize::MAX, 1), (64, usize::MAX), (64, 1), (1, 5_000)] {
        let written = by_us(&sheets, piece, long);
        for name in PARTS {
            let hints = piece == usize::MAX;
            assert!(part(&written, name, hints) == part(&expected, name, hints), "{name}, pieces of {piece}, {long}");
        }
        assert!(written == by_us(&sheets, piece, long), "the same bytes each time");
    }
    for blocks in [1, 2, 7] {
        let written = by_us_in_blocks(&sheets, blocks * BLOCK);
        for name in PARTS {
            assert!(part(&written, name, true) == part(&expected, name, true), "{name}, parts of {blocks} blocks");
        }
    }
}

/// Every part of a workbook by its name.
fn parts(book: &[u8]) -> BTreeMap<String, String> {
    let mut archive = ZipArchive::new(Cursor::new(book)).unwrap();
    let names: Vec<String> = archive.file_names().map(|name| name.unwrap().into_owned()).collect();
    let mut read = |name: String| {
        let mut text = String::new();
        archive.by_name(&name).unwrap().read_to_string(&mut text).unwrap();
        (name, text)
    };
    names.into_iter().map(&mut read).collect()
}

/// Sheets of every kind of frame, some of one look and some of their own, in one row.
fn frames() -> Vec<(Frame, CellNotes, Vec<Row>)> {
    let page = |page: PrintedPage| Frame { page, ..frame("") };
    let wide = Frame::new("", vec![20; 30]);
    let kinds = [
        (frame(""), CellNotes::new()),
        (frame(""), CellNotes::new()),
        (frame(""), notes()),
        (frame("").upright(), CellNotes::new()),
        (Frame { frozen_columns: 2, ..frame("") }, CellNotes::new()),
        (Frame { frozen_rows: 0, frozen_columns: 1, tab: Tab::Carried, ..frame("") }, CellNotes::new()),
        (wide.clone(), CellNotes::new()),
        (Frame { page: PrintedPage { first_columns: 3, ..wide.page.clone() }, ..wide }, CellNotes::new()),
        (page(PrintedPage { last_column: Some(3), ..PrintedPage::default() }), CellNotes::new()),
        (page(PrintedPage { first_row: 4, last_row: Some(4), heading: Some(2), ..PrintedPage::default() }), notes()),
        (page(PrintedPage { begins: vec![20, 40], upright: true, ..PrintedPage::default() }), CellNotes::new()),
        (frame("").tabbed(Tab::Card), CellNotes::new()),
    ];
    let names =
        ["Summary", "It's & more", "R1C1", "Bœuf <à la mode>", "2026", "AB12", "Others", "_x", "e", "f", "Zoë", "z"];
    let rows = |at: usize| {
        let text = Cell { look: Look::Flowing(4), ..Cell::text(1, "over four columns", Ink::Plain) };
        let merged = Row { row: 700 + u32::try_from(at).unwrap(), cells: vec![text] };
        // Sheets of one look fill more or fewer cells; some lead elsewhere.
        let some = self::rows().into_iter().skip(at * 10).take(5 + at % 3 * 30);
        if at % 4 == 3 { some.collect() } else { some.chain([merged]).collect() }
    };
    let twice = kinds
        .clone()
        .into_iter()
        .chain(kinds)
        .zip(names.into_iter().flat_map(|name| [name.to_owned(), format!("{name} 2")]));
    twice.enumerate().map(|(at, ((frame, notes), name))| (Frame { name, ..frame }, notes, rows(at))).collect()
}

#[test]
fn a_workbook_of_many_sheets_is_the_one_that_the_library_writes_of_all_of_them() {
    let mut book = Workbook::new();
    book.set_properties(&properties());
    let paper = paper();
    let mut drawn = Vec::new();
    for (frame, notes, rows) in frames() {
        let mut sheet = Worksheet::new();
        sheet.set_name(&frame.name).unwrap().set_formula_result_default("");
        for (column, width) in (0_u16..).zip(&frame.widths) {
            sheet.set_column_width(column, *width).unwrap();
        }
        let (mut last, mut heights) = ((0, 0), Vec::new());
        for row in &rows {
            for cell in &row.cells {
                if let Look::Flowing(last) = cell.look {
                    sheet
                        .merge_range(row.row, cell.column, row.row, last, "", &format_of(cell.ink, &cell.look))
                        .unwrap();
                }
                put(&mut sheet, row.row, cell);
                let end = if let Look::Flowing(last) = cell.look { last } else { cell.column };
                last = (row.row, end.max(last.1));
            }
            if let Some(height) = height_of(row, &frame.widths) {
                sheet.set_row_height(row.row, height).unwrap();
                heights.push((row.row, height));
            }
        }
        if (frame.frozen_rows, frame.frozen_columns) != (0, 0) {
            sheet.set_freeze_panes(frame.frozen_rows, frame.frozen_columns).unwrap();
        }
        sheet.set_screen_gridlines(frame.tab == Tab::Carried);
        if let Some(colour) = super::format::tab(frame.tab) {
            sheet.set_tab_color(colour);
        }
        let (page, printed) = paper.page(&frame, last, &heights);
        page.set(&mut sheet).unwrap();
        if let Some((first, last)) = printed.rows {
            sheet.set_repeat_rows(first, last).unwrap();
        }
        if let Some(last) = printed.columns {
            sheet.set_repeat_columns(0, last).unwrap();
        }
        if let Some(area) = printed.area {
            sheet.set_print_area(area.first.0, area.first.1, area.last.0, area.last.1).unwrap();
        }
        for ((row, column), texts) in &notes {
            let note = Note::new(texts.join("")).add_author_prefix(false).set_author("parings");
            sheet.insert_note(*row, *column, &note.set_width(320).set_height(120)).unwrap();
        }
        book.push_worksheet(sheet);
        drawn.push(Drawn::of_list(frame, notes, Some(0..u32::MAX), |out| rows.into_iter().for_each(out)).unwrap());
    }
    for (name, formula) in names() {
        book.define_name(name, &formula).unwrap();
    }
    let expected = parts(&book.save_to_buffer().unwrap());
    let written = parts(&bound(drawn.into_iter(), usize::MAX));
    assert!(written.keys().eq(expected.keys()), "{:?}", written.keys());
    for (name, text) in &expected {
        let at = text.bytes().zip(written[name].bytes()).take_while(|(one, other)| one == other).count();
        let near = |text: &str| text.get(at.saturating_sub(60)..text.len().min(at + 60)).map(str::to_owned);
        assert_eq!(near(text), near(&written[name]), "{name}");
        assert!(*text == written[name], "{name}");
    }
}

#[test]
fn another_library_reads_what_was_meant() {
    let rows = rows();
    let written = by_us(&[("Texts", rows.as_slice())], 64, 1);
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(written)).unwrap();
    let (values, formulas) = (book.worksheet_range("Texts").unwrap(), book.worksheet_formula("Texts").unwrap());
    for row in &rows {
        let value = |column: u32| values.get_value((row.row, column)).cloned().unwrap_or(Data::Empty);
        let Content::Text(text) = &row.cells[0].content else { panic!("a text") };
        // A reader may give a line's end as XML has it (XML 1.0, 2.11), and not know U+FFFE and U+FFFF by their codes.
        let plain = |text: &str| text.replace('\r', "");
        match value(0) {
            Data::Empty => assert_eq!(text, ""),
            read => assert_eq!(plain(&read.to_string()), plain(text), "row {}", row.row),
        }
        if let Content::Date(date) = row.cells[1].content {
            assert_eq!(value(1).to_string(), days(date).unwrap());
        }
        let Content::Number(number) = row.cells[2].content else { panic!("a number") };
        assert_eq!(value(2), Data::Float(to_float(number)));
        assert_eq!(value(3), Data::Float(to_float(number)));
        let Content::Formula(formula) = &row.cells[3].content else { panic!("a formula") };
        assert_eq!(formulas.get_value((row.row, 3)), Some(&formula.whole()));
    }
}
