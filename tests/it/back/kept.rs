//! New prices put into the file that holds a kitchen's prices: everything that people made of it stays, and the book
//! costs what it costs with the new prices.

use std::collections::BTreeMap;
use std::io::{Cursor, Read, Write};

use parings::{ListOptions, PatchedBook, Repriced, Source, patch_book, reprice};
use rust_xlsxwriter::{Format, Workbook};

use crate::support::{cost_bytes, json_of};
use crate::workbook::costed;

/// Made by `make_kept_kitchen.py` beside it, with openpyxl.
const KEPT: &[u8] = include_bytes!("../../files/kept-kitchen.xlsx");
const MACROS: &[u8] = include_bytes!("../../files/kept-kitchen.xlsm");

const LIST: &str = "\
Supplier,Item no,Product,Pack,Price,Date,Yield
Hill Farm,H1,LEEKS,10 lb,$24.00,2026-11-19,55%
Hill Farm,H2,Potatoes,45 lb,$30.00,2026-11-19,
Brook Dairy,B7,Butter,40/1 lb,$130.00,2026-11-19,
";

fn repriced(files: &[(&str, &[u8])], list: &str) -> Repriced {
    let (reading, _) = cost_bytes(files);
    let list = Source { name: "list.csv", bytes: list.as_bytes() };
    reprice(reading, &[list], &ListOptions::default(), true).unwrap()
}

fn patched(files: &[(&str, &[u8])], list: &str) -> Result<PatchedBook, String> {
    let sources: Vec<Source<'_>> = files.iter().map(|(name, bytes)| Source { name, bytes }).collect();
    patch_book(&sources, &repriced(files, list)).map_err(|error| error.reason)
}

/// The parts of a workbook by name.
fn parts(bytes: &[u8]) -> BTreeMap<String, Vec<u8>> {
    let mut archive = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    let mut parts = BTreeMap::new();
    for at in 0..archive.len() {
        let mut file = archive.by_index(at).unwrap();
        let mut bytes = Vec::new();
        file.read_to_end(&mut bytes).unwrap();
        parts.insert(String::from_utf8_lossy(file.name_raw()).into_owned(), bytes);
    }
    parts
}

fn text(parts: &BTreeMap<String, Vec<u8>>, part: &str) -> String {
    String::from_utf8(parts[part].clone()).unwrap()
}

/// What a workbook costs on the list's day: its dishes.
fn dishes(files: &[(&str, &[u8])]) -> serde_json::Value {
    let (reading, costing) = cost_bytes(files);
    json_of(&reading, &costing)["dishes"].clone()
}

/// Every row of a sheet part as it stands, by its number.
fn rows(sheet: &str) -> BTreeMap<u32, String> {
    sheet
        .split("<row ")
        .skip(1)
        .map(|row| row.split("</row>").next().unwrap().to_owned())
        .map(|row| (row.split('"').nth(1).unwrap().parse().unwrap(), row))
        .collect()
}

#[test]
fn a_workbook_that_people_made_keeps_all_but_its_new_rows() {
    for (name, bytes, ending) in [("kept-kitchen.xlsx", KEPT, "xlsx"), ("kept-kitchen.xlsm", MACROS, "xlsm")] {
        let book = patched(&[(name, bytes)], LIST).unwrap();
        assert_eq!((book.source, book.ending, book.said.as_slice()), (0, ending, [].as_slice()));
        assert_eq!(book.added[0].to_string(), format!("{name} ▸ What we pay!A9"));
        let (before, after) = (parts(bytes), parts(&book.bytes));
        assert_eq!(before.keys().collect::<Vec<_>>(), after.keys().collect::<Vec<_>>());
        let changed: Vec<&str> =
            before.iter().filter(|(part, bytes)| after[*part] != **bytes).map(|(part, _)| part.as_str()).collect();
        assert_eq!(changed, ["xl/tables/table1.xml", "xl/workbook.xml", "xl/worksheets/sheet1.xml"]);

        let (old, new) = (text(&before, changed[2]), text(&after, changed[2]));
        let (old_rows, new_rows) = (rows(&old), rows(&new));
        for (number, row) in &old_rows {
            assert_eq!(&new_rows[number], row, "{name}, row {number}");
        }
        assert_eq!(new_rows.keys().filter(|row| !old_rows.contains_key(row)).collect::<Vec<_>>(), [&9, &10, &11]);
        // Without its new rows the sheet differs in what ends with the table: E5:E8 and A5:A8 end with row 11 now.
        let without: String =
            new.split("<row r=\"9\"").next().unwrap().to_owned() + new.rsplit("</row>").next().unwrap();
        let mended = without
            .replace("sqref=\"E5:E11\"", "sqref=\"E5:E8\"")
            .replace("sqref=\"A5:A11\"", "sqref=\"A5:A8\"")
            .replace("ref=\"A1:M11\"", "ref=\"A1:M8\"");
        assert_eq!(mended, old, "{name}");
        let table = text(&after, changed[0]);
        assert_eq!(table.replace("A4:J11", "A4:J8"), text(&before, changed[0]));
        assert_eq!(table.matches("A4:J11").count(), 2, "the table and its filter: {table}");
        for row in 9..=11 {
            assert!(new_rows[&row].contains(&format!("<f>E{row}/2+$M$5</f>")), "{}", new_rows[&row]);
        }
        let workbook = text(&after, changed[1]);
        for grown in ["'What we pay'!$C$5:$C$11", "'What we pay'!$A$1:$J$11", "fullCalcOnLoad=\"1\""] {
            assert!(workbook.contains(grown), "{grown}: {workbook}");
        }
    }
}

#[test]
fn the_patched_workbook_costs_what_the_new_prices_cost() {
    let book = patched(&[("kept-kitchen.xlsx", KEPT)], LIST).unwrap();
    let wanted = {
        let repriced = repriced(&[("kept-kitchen.xlsx", KEPT)], LIST);
        json_of(&repriced.after, &repriced.now)["dishes"].clone()
    };
    let now = dishes(&[("kept-kitchen.xlsx", &book.bytes)]);
    assert_eq!(now, wanted);
    // Leeks 5 × 2.40 ÷ 0.55 = 21.8182; potatoes at the 80 % of the row before 4 × (30 ÷ 45) ÷ 0.8 = 3.3333; butter
    // 130 ÷ 40 = 3.25; cream 2 × 48 ÷ 12 = 8: 36.4015 ÷ 10.
    assert!(now[0]["portion_cost"].as_str().unwrap().starts_with("3.6401515"), "{now}");
}

/// Prices, something beside them and something below, written as a program would.
fn book(headers: &[&str], below: Option<&str>) -> Vec<u8> {
    let mut workbook = Workbook::new();
    let money = Format::new().set_num_format("$#,##0.00");
    let sheet = workbook.add_worksheet().set_name("Prices").unwrap();
    for (column, header) in (0..).zip(headers) {
        sheet.write(0, column, *header).unwrap();
    }
    for (row, (item, pack, price)) in (1..).zip([("Leeks", "10 lb", 20.0), ("Butter", "36/1 lb", 108.0)]) {
        sheet.write(row, 0, item).unwrap();
        sheet.write(row, 1, pack).unwrap();
        sheet.write_with_format(row, 2, price, &money).unwrap();
    }
    if let Some(below) = below {
        sheet.write(4, 0, below).unwrap();
    }
    let card = workbook.add_worksheet();
    for (row, cells) in (0..).zip([["Recipe", "Soup", ""], ["Portions", "4", ""], ["Ingredient", "Qty", "Unit"]]) {
        for (column, cell) in (0..).zip(cells) {
            card.write(row, column, cell).unwrap();
        }
    }
    card.write(3, 0, "Leeks").unwrap();
    card.write(3, 1, 2).unwrap();
    card.write(3, 2, "lb").unwrap();
    workbook.save_to_buffer().unwrap()
}

/// By an independent engine: the formulas go on in the new rows, one that cells share too, and a day is shown as those
/// above it.
#[test]
fn formulas_go_on_in_the_new_rows() {
    let mut workbook = Workbook::new();
    let day = Format::new().set_num_format("d mmm yyyy");
    let sheet = workbook.add_worksheet();
    for (column, header) in (0..).zip(["Item", "Pack", "Price", "A pound", "Date", "Twice"]) {
        sheet.write(0, column, header).unwrap();
    }
    for (row, item, price) in [(1, "Leeks", 20.0), (2, "Carrots", 15.0)] {
        sheet.write(row, 0, item).unwrap();
        sheet.write(row, 1, "10 lb").unwrap();
        sheet.write(row, 2, price).unwrap();
        sheet.write_formula(row, 3, format!("C{}/10+$I$1", row + 1).as_str()).unwrap();
        sheet
            .write_datetime_with_format(row, 4, rust_xlsxwriter::ExcelDateTime::from_ymd(2026, 11, 2).unwrap(), &day)
            .unwrap();
        sheet.write_formula(row, 5, format!("C{}*2", row + 1).as_str()).unwrap();
    }
    sheet.write(0, 8, 1).unwrap();
    let plain = workbook.save_to_buffer().unwrap();
    // The last column's formula shared by its cells, as spreadsheet programs write it.
    let shared = with_part(&plain, "xl/worksheets/sheet1.xml", |sheet| {
        sheet
            .replace("<f>C2*2</f>", "<f t=\"shared\" ref=\"F2:F3\" si=\"0\">C2*2</f>")
            .replace("<f>C3*2</f>", "<f t=\"shared\" si=\"0\"/>")
    });
    let book = patched(&[("own.xlsx", &shared)], "Item,Pack,Price,Date\nLeeks,10 lb,24,2026-11-19\n").unwrap();
    assert!(book.said.is_empty(), "{:?}", book.said);
    let workbook = ironcalc::import::load_from_xlsx_bytes(&book.bytes, "workbook", "en", "UTC").unwrap();
    let mut model = ironcalc::base::Model::from_workbook(workbook, "en").unwrap();
    model.evaluate();
    let shown = |row, column| model.get_formatted_cell_value(0, row, column).unwrap();
    // 24 ÷ 10 + 1, and twice 24.
    assert_eq!((shown(4, 4).as_str(), shown(4, 6).as_str()), ("3.4", "48"));
    assert_eq!(shown(4, 5), "19 Nov 2026");
    assert_eq!((shown(3, 4).as_str(), shown(3, 6).as_str()), ("2.5", "30"));
}

/// A workbook with one part written otherwise.
fn with_part(bytes: &[u8], part: &str, edit: impl Fn(String) -> String) -> Vec<u8> {
    let mut out = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in parts(bytes) {
        out.start_file(name.clone(), zip::write::SimpleFileOptions::default()).unwrap();
        let bytes = if name == part { edit(String::from_utf8(bytes).unwrap()).into_bytes() } else { bytes };
        out.write_all(&bytes).unwrap();
    }
    out.finish().unwrap().into_inner()
}

const SHORT: &str = "Item,Pack,Price,Date,Yield\nLeeks,10 lb,$24.00,2026-11-19,50%\n";

#[test]
fn a_column_that_the_table_lacks_is_put_beside_it() {
    let own = book(&["Item", "Pack", "Price"], None);
    let book = patched(&[("own.xlsx", &own)], SHORT).unwrap();
    let workbook = ironcalc::import::load_from_xlsx_bytes(&book.bytes, "workbook", "en", "UTC").unwrap();
    let model = ironcalc::base::Model::from_workbook(workbook, "en").unwrap();
    let shown = |row, column| model.get_formatted_cell_value(0, row, column).unwrap();
    assert_eq!((shown(1, 4).as_str(), shown(1, 5).as_str()), ("Date", "Yield"));
    assert_eq!((shown(4, 1).as_str(), shown(4, 3).as_str()), ("Leeks", "$24.00"));
    assert_eq!(shown(4, 5), "50.00%");
    // 2 lb edible of 24 ÷ 10 ÷ 0.5, for four.
    let (reading, costing) = cost_bytes(&[("own.xlsx", &book.bytes)]);
    assert_eq!(json_of(&reading, &costing)["recipes"][0]["portion_cost"], "2.4");
}

#[test]
fn what_stands_in_the_way_is_named_and_nothing_is_moved() {
    let own = book(&["Item", "Pack", "Price", "Date", "Yield"], Some("Ask again on Monday"));
    let two = format!("{SHORT}Butter,36/1 lb,$110.00,2026-11-19,\n");
    // One row and a free one below it end above row 5; two do not.
    let reason = patched(&[("own.xlsx", &own)], &two).unwrap_err();
    assert!(reason.contains("on its sheet Prices something stands in A5"), "{reason}");
}

#[test]
fn only_what_was_typed_of_a_costed_workbook_goes_on() {
    let (_, _, workbook) = costed("kept-kitchen.xlsx", KEPT);
    let reason = patched(&[("kept.costed.xlsx", &workbook)], LIST).unwrap_err();
    assert!(reason.contains("it is a costed workbook"), "{reason}");
}

/// Semicolons, decimal commas, quotation marks, line ends and Windows-1252 as they were; what follows the table stays.
#[test]
fn a_csv_takes_rows_as_it_is_typed() {
    let own = "Artikel der Küche\r\n\r\nItem;Pack;Price;Per;Date\r\n\"Lauch; jung\";10 kg;20,00 €;;02.11.2026\r\n\
               Crème;1 l;4,50 €;;02.11.2026\r\n\r\nRecipe;Suppe\r\nPortions;4\r\nIngredient;Qty;Unit\r\nCrème;2;l";
    let bytes = |text: &str| -> Vec<u8> {
        let byte = |c: char| if c == '€' { 0x80 } else { u8::try_from(u32::from(c)).unwrap() };
        text.chars().map(byte).collect()
    };
    let list = "Item;Pack;Price;Date\nLauch; jung;10 kg;22,5 €;2026-11-19\nCrème;1 l;5,00 €;2026-11-19\n";
    let list = list.replace("Lauch; jung", "\"Lauch; jung\"");
    let book = patched(&[("own.csv", &bytes(own))], &list).unwrap();
    let wanted = own.replacen(
        "4,50 €;;02.11.2026\r\n",
        "4,50 €;;02.11.2026\r\n\"Lauch; jung\";10 kg;22,50 €;;19.11.2026\r\nCrème;1 l;5,00 €;;19.11.2026\r\n",
        1,
    );
    assert_eq!(book.bytes, bytes(&wanted));
    // At the end of a file without a last line end; a column that it lacks.
    let own = "Item,Pack,Price\nLeeks,10 lb,$20.00\n\nRecipe,Soup\nPortions,4\nIngredient,Qty,Unit\nLeeks,2,lb\n";
    let book = patched(&[("own.csv", own.as_bytes())], SHORT).unwrap();
    let wanted = own.replacen("Item,Pack,Price\n", "Item,Pack,Price,Date,Yield\n", 1).replacen(
        "$20.00\n",
        "$20.00\nLeeks,10 lb,$24.00,2026-11-19,50%\n",
        1,
    );
    assert_eq!(String::from_utf8(book.bytes).unwrap(), wanted);
}

#[test]
fn of_several_files_the_one_with_the_prices_is_patched() {
    let prices = "Item,Pack,Price,Date,Yield\nLeeks,10 lb,$20.00,2026-11-02,50%";
    let recipes = "Recipe,Soup\nPortions,4\nIngredient,Qty,Unit\nLeeks,2,lb\n";
    let files: [(&str, &[u8]); 2] = [("recipes.csv", recipes.as_bytes()), ("prices.csv", prices.as_bytes())];
    let book = patched(&files, SHORT).unwrap();
    assert_eq!(book.source, 1);
    assert_eq!(String::from_utf8(book.bytes).unwrap(), format!("{prices}\nLeeks,10 lb,$24.00,2026-11-19,50%"));
}

/// Some programs write every tag with a prefix; a file that does not say where its cells stand is left alone.
#[test]
fn other_programs_ways_of_writing_a_sheet_are_followed_or_refused() {
    let own = book(&["Item", "Pack", "Price", "Date", "Yield"], None);
    let sheet = "xl/worksheets/sheet1.xml";
    let prefixed = with_part(&own, sheet, |xml| {
        let (head, body) = xml.split_at(xml.find("<worksheet").unwrap());
        let body = body.replace("</", "\u{0}").replace('<', "<x:").replace('\u{0}', "</x:");
        head.to_owned() + &body.replace("xmlns=", "xmlns:x=")
    });
    let book = patched(&[("own.xlsx", &prefixed)], SHORT).unwrap();
    assert!(text(&parts(&book.bytes), sheet).contains("<x:row r=\"4\">"), "{}", text(&parts(&book.bytes), sheet));
    let (reading, costing) = cost_bytes(&[("own.xlsx", &book.bytes)]);
    assert_eq!(json_of(&reading, &costing)["recipes"][0]["portion_cost"], "2.4");

    let unsaid = with_part(&own, sheet, |xml| xml.replace("<row r=\"2\" spans=\"1:5\">", "<row>"));
    let reason = patched(&[("own.xlsx", &unsaid)], SHORT);
    assert!(reason.is_err_and(|reason| reason.contains("does not say where its cells stand")));
}

/// Separators behind the headers, as spreadsheet programs leave them.
#[test]
fn a_csv_with_empty_cells_behind_its_headers_takes_a_column() {
    let own = "Item,Pack,Price,,\nLeeks,10 lb,$20.00,,\n\nRecipe,Soup\nPortions,4\nIngredient,Qty,Unit\nLeeks,2,lb\n";
    let book = patched(&[("own.csv", own.as_bytes())], SHORT).unwrap();
    let wanted = own.replacen("Price,,", "Price,Date,Yield,,", 1).replacen(
        "$20.00,,\n",
        "$20.00,,\nLeeks,10 lb,$24.00,2026-11-19,50%\n",
        1,
    );
    assert_eq!(String::from_utf8(book.bytes).unwrap(), wanted);
}

/// A part may begin with a byte-order mark, as some programs write them: its tags stand three bytes further on.
#[test]
fn a_byte_order_mark_before_a_part_moves_nothing() {
    let mut marked = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in parts(KEPT) {
        let has_mark = name.starts_with("xl/tables/") || (name.starts_with("xl/worksheets/") && name.ends_with(".xml"));
        marked.start_file(name, zip::write::SimpleFileOptions::default()).unwrap();
        marked.write_all(if has_mark { b"\xEF\xBB\xBF" } else { b"" }).unwrap();
        marked.write_all(&bytes).unwrap();
    }
    let marked = marked.finish().unwrap().into_inner();
    let [plain, book] = [KEPT, &marked].map(|bytes| patched(&[("kept-kitchen.xlsx", bytes)], LIST).unwrap());
    let tables = |bytes: &[u8]| {
        let tables = parts(bytes).into_iter().filter(|(name, _)| name.starts_with("xl/tables/"));
        let bare = |text: Vec<u8>| String::from_utf8(text).unwrap().trim_start_matches('\u{feff}').to_owned();
        tables.map(|(_, text)| bare(text)).collect::<Vec<String>>()
    };
    assert_ne!(tables(&plain.bytes), tables(KEPT), "the table grows");
    assert_eq!(tables(&plain.bytes), tables(&book.bytes));
    assert_eq!(plain.added, book.added);
}

/// A list that brings nothing new leaves the file as it is, to the byte.
#[test]
fn a_list_without_news_copies_the_file() {
    let book = patched(&[("kept-kitchen.xlsx", KEPT)], "Item,Pack,Price,Date\nNutmeg,1 lb,$9.00,2026-11-19\n").unwrap();
    assert_eq!((book.bytes.as_slice(), book.added.as_slice()), (KEPT, [].as_slice()));
}

/// Formats, validations and room that were prepared below the last row serve the new ones.
#[test]
fn rows_that_were_prepared_are_used() {
    let mut workbook = Workbook::new();
    let (straw, day) = (Format::new().set_background_color(0xFF_F4_CC), Format::new().set_num_format("d mmm yyyy"));
    let sheet = workbook.add_worksheet();
    for (column, header) in (0..).zip(["Item", "Pack", "Price", "Date"]) {
        sheet.write(0, column, header).unwrap();
    }
    for (column, text) in (0..).zip(["Leeks", "10 lb"]) {
        sheet.write(1, column, text).unwrap();
    }
    sheet.write(1, 2, 20).unwrap();
    for row in 2..8 {
        for column in 0..3 {
            sheet.write_blank(row, column, &straw).unwrap();
        }
        sheet.write_blank(row, 3, &day).unwrap();
        sheet.write(row, 6, "beside it").unwrap();
    }
    let own = workbook.save_to_buffer().unwrap();
    let book = patched(&[("own.xlsx", &own)], "Item,Pack,Price,Date\nLeeks,10 lb,24,2026-11-19\n").unwrap();
    let new = rows(&text(&parts(&book.bytes), "xl/worksheets/sheet1.xml"));
    let old = rows(&text(&parts(&own), "xl/worksheets/sheet1.xml"));
    assert_eq!((&new[&4], new.len()), (&old[&4], old.len()));
    assert!(new[&3].contains("r=\"A3\"") && new[&3].contains("<c r=\"G3\""), "{}", new[&3]);
    let workbook = ironcalc::import::load_from_xlsx_bytes(&book.bytes, "workbook", "en", "UTC").unwrap();
    let model = ironcalc::base::Model::from_workbook(workbook, "en").unwrap();
    assert_eq!(model.get_formatted_cell_value(0, 3, 3).unwrap(), "24");
}

#[test]
fn new_rows_are_in_sight_where_the_rows_below_the_table_were_hidden() {
    let mut workbook = Workbook::new();
    let sheet = workbook.add_worksheet();
    let typed =
        [["Item", "Pack", "Price", "Code"], ["Leeks", "10 lb", "$20.00", "H1"], ["Potatoes", "45 lb", "$30.00", "H2"]];
    for (row, cells) in (0..).zip(typed) {
        sheet.write_row(row, 0, cells).unwrap();
    }
    // Filtered away, and made flat by hand.
    sheet.set_row_hidden(3).unwrap().set_row_height(4, 0).unwrap();
    sheet.write(3, 9, "beside").unwrap();
    let book = workbook.save_to_buffer().unwrap();
    let before = text(&parts(&book), "xl/worksheets/sheet1.xml");
    assert!(before.contains("hidden=\"1\""), "{before}");
    let after = patched(&[("book.xlsx", &book)], LIST).unwrap();
    let sheet = text(&parts(&after.bytes), "xl/worksheets/sheet1.xml");
    assert!(sheet.contains("$24.00") || sheet.contains("24"), "{sheet}");
    for (row, text) in rows(&sheet) {
        let tag = text.split('>').next().unwrap();
        assert!(!tag.contains("hidden") && !tag.contains("ht=\"0\""), "row {row}: {tag}");
    }
}
