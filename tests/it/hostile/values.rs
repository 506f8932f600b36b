//! Values that are absurd, empty or of the wrong kind: each is doubted or refused at its cell, and the rest of the book is
//! costed.

use std::io::{Cursor, Read, Write};

use parings::Source;
use parings::problem::Code;
use rust_xlsxwriter::{Format, Workbook};
use serde_json::Value;
use zip::write::SimpleFileOptions;
use zip::{ZipArchive, ZipWriter};

use crate::faults::chance::same_again;
use crate::formats::hostile::ods;
use crate::support::{cost_bytes, cost_bytes_json, cost_json, dec, recipe};
use crate::workbook::STAMP;
use crate::written::same_when_written;

/// The codes of a book's problems with their cells.
fn problems(json: &Value, code: Code) -> Vec<String> {
    let of = json["problems"].as_array().unwrap().iter().filter(|problem| problem["code"] == code.name());
    of.map(|problem| format!("{} {}", problem["cell"].as_str().unwrap(), problem["severity"].as_str().unwrap()))
        .collect()
}

#[test]
fn a_price_and_a_quantity_of_nothing_are_doubted() {
    let json = cost_json(&[(
        "book.csv",
        "Item,Pack,Price\nFlour,10 lb,0\nButter,1 lb,$4.00\n\nRecipe,Roll\nPortions,2\nIngredient,Qty,Unit,Basis\nFlour,1,lb,AP\nButter,0,lb,AP\n",
    )]);
    assert_eq!(problems(&json, Code::PriceZero), ["C2 warning"]);
    assert_eq!(problems(&json, Code::QuantityZero), ["B9 warning"]);
    assert_eq!(recipe(&json, "Roll")["food_cost"], "0");
}

#[test]
fn digits_that_no_spreadsheet_keeps_are_told() {
    let book = "Item,Pack,Price,Yield\nFlour,10 lb,$5.0000000000000000001,80%\nButter,1 lb,$4,90.00000000000000000%\n\n\
                Recipe,Roll\nPortions,2\nIngredient,Qty,Unit,Basis\nFlour,1/3,lb,AP\nButter,0.12345678901234567,lb,AP\n";
    let json = cost_json(&[("book.csv", book)]);
    // Noughts at the end say nothing, and a third is no slip; a quantity of text is taken in full.
    assert_eq!(problems(&json, Code::DigitsCut), ["C2 note"]);
    // 5 ÷ 10 ÷ 3 + 4 × 0.12345678901234567.
    let off = dec(&recipe(&json, "Roll")["food_cost"]) - dec(&"0.6604938227160493466666666667".into());
    assert!(off.abs() < dec(&"0.000000000000000000000001".into()), "{}", recipe(&json, "Roll")["food_cost"]);
    same_again("book.csv", book.as_bytes()).unwrap();
    same_when_written(&[("book.csv", book.as_bytes())]).unwrap();
}

#[test]
fn a_recipe_may_be_called_as_headers_are() {
    for name in [
        "Dish",
        "Portions",
        "Portion",
        "Makes",
        "Menu price",
        "Target",
        "Ingredient",
        "Item",
        "Qty",
        "Price",
        "Yield",
        "Method",
        "Note",
    ] {
        // As a list, where any name is a name.
        let list = format!(
            "Item,Pack,Price\nFlour,10 lb,$5.00\n\nRecipe,Portions,Makes\nBread,4,2 lb\n{name},4,2 lb\n\n\
             Recipe,Ingredient,Qty,Unit,Basis\nBread,Flour,1,lb,AP\n{name},Flour,2,lb,AP\n\nDish,Recipe,Menu price\nSupper,{name},$3\n"
        );
        let json = cost_json(&[("book.csv", &list)]);
        // Two pounds of ten for 5.00.
        assert_eq!(recipe(&json, name)["food_cost"], "1", "{name} {:#}", json["problems"]);
        same_again("book.csv", list.as_bytes()).unwrap_or_else(|error| panic!("{name}: {error}"));
        same_when_written(&[("book.csv", list.as_bytes())]).unwrap_or_else(|error| panic!("{name}: {error}"));
        // As a card that somebody types.
        let card = format!(
            "Item,Pack,Price\nFlour,10 lb,$5.00\n\nRecipe,{name}\nPortions,4\nIngredient,Qty,Unit,Basis\nFlour,2,lb,AP\n"
        );
        let json = cost_json(&[("book.csv", &card)]);
        assert_eq!(recipe(&json, name)["food_cost"], "1", "{name} {:#}", json["problems"]);
    }
    // A list of such names is a list.
    let list = "Item,Pack,Price\nFlour,10 lb,$5.00\n\nRecipe,Portions\nPortions,4\nMakes,8\n\nRecipe,Ingredient,Qty,Unit,Basis\n\
                Portions,Flour,2,lb,AP\nMakes,Flour,4,lb,AP\n";
    let json = cost_json(&[("book.csv", list)]);
    assert_eq!(
        (&recipe(&json, "Portions")["portions"], &recipe(&json, "Makes")["portions"]),
        (&"4".into(), &"8".into())
    );
}

/// A workbook of one sheet of text cells, its sheet's XML changed.
fn changed(rows: &[&[&str]], change: impl Fn(String) -> String) -> Vec<u8> {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (row, cells) in (0_u32..).zip(rows) {
        for (column, text) in (0_u16..).zip(*cells) {
            sheet.write_string(row, column, *text).unwrap();
        }
    }
    let bytes = book.save_to_buffer().unwrap();
    let mut old = ZipArchive::new(Cursor::new(bytes)).unwrap();
    let mut new = ZipWriter::new(Cursor::new(Vec::new()));
    for at in 0..old.len() {
        let mut entry = old.by_index(at).unwrap();
        let name = entry.name().unwrap().into_owned();
        let mut bytes = Vec::new();
        entry.read_to_end(&mut bytes).unwrap();
        if name == "xl/worksheets/sheet1.xml" {
            bytes = change(String::from_utf8(bytes).unwrap()).into_bytes();
        }
        new.start_file(name, SimpleFileOptions::default()).unwrap();
        new.write_all(&bytes).unwrap();
    }
    new.finish().unwrap().into_inner()
}

#[test]
fn a_malformed_value_spoils_its_cell_and_not_the_file() {
    let rows: [&[&str]; 3] =
        [&["Item", "Pack", "Price", "Preferred"], &["Flour", "10 lb", "$5.00", "x"], &["Butter", "1 lb", "$4.00", ""]];
    for (kind, value) in [("b", "maybe"), ("n", "often"), ("odd", "perhaps")] {
        let bytes = changed(&rows, |xml| {
            let (before, _) = xml.split_once("<c r=\"D2\"").unwrap();
            let (_, after) = xml.split_once("<row r=\"3\"").unwrap();
            format!("{before}<c r=\"D2\" t=\"{kind}\"><v>{value}</v></c></row><row r=\"3\"{after}")
        });
        let json = cost_bytes_json(&[("book.xlsx", &bytes)]);
        assert_eq!(problems(&json, Code::NotYesNo), ["D2 error"], "{kind} {:#}", json["problems"]);
        assert!(!json["problems"].to_string().contains("Butter"), "{:#}", json["problems"]);
    }
    let text = |text: &str| {
        format!("<table:table-cell office:value-type=\"string\"><text:p>{text}</text:p></table:table-cell>")
    };
    let row = |cells: &[&str]| {
        format!("<table:table-row>{}</table:table-row>", cells.iter().map(|cell| text(cell)).collect::<String>())
    };
    let maybe = "<table:table-cell office:value-type=\"boolean\" office:boolean-value=\"maybe\"><text:p>MAYBE</text:p></table:table-cell>";
    let flour = row(&["Flour", "10 lb", "$5.00", "there"]).replace(&text("there"), maybe);
    let json = cost_bytes_json(&[("book.ods", &ods(&[row(rows[0]), flour].concat()))]);
    assert_eq!(problems(&json, Code::NotYesNo), ["D2 error"], "{:#}", json["problems"]);
}

/// A workbook counts its days from 1900, and a 29 February 1900 that never was among them.
#[test]
fn days_before_a_workbooks_calendar_are_what_they_are() {
    let days = [
        "1850-01-01",
        "1899-12-30",
        "1899-12-31",
        "1900-01-01",
        "1900-02-28",
        "1900-03-01",
        "1904-01-01",
        "2026-11-01",
    ];
    let rows: String = days.iter().map(|day| format!("Item of {day},10 lb,$5.00,{day}\n")).collect();
    let book = format!("Item,Pack,Price,Date\n{rows}\nSetting,Value\nCosting date,2026-11-20\n");
    let of = |files: &[(&str, &[u8])]| {
        let (reading, costing) = cost_bytes(files);
        let dates = reading.kitchen.entries.prices.iter().map(|row| format!("{:?}", row.date)).collect::<Vec<_>>();
        (dates, parings::write(&reading, &costing, STAMP).unwrap())
    };
    let (dates, once) = of(&[("book.csv", book.as_bytes())]);
    for (day, date) in days.iter().zip(&dates) {
        assert!(date.contains(day), "{day} {date}");
    }
    let (again, twice) = of(&[("book.costed.xlsx", &once)]);
    assert_eq!(again, dates);
    assert!(once == twice);
    same_again("book.csv", book.as_bytes()).unwrap();
}

/// Each program takes the one that it likes.
#[test]
fn a_cell_that_stands_twice_is_damaged_unless_both_say_the_same() {
    let rows: [&[&str]; 2] = [&["Item", "Pack", "Price"], &["Flour", "10 lb", "$5.00"]];
    let twice = |second: &str| {
        changed(&rows, |xml| {
            let cells = format!("<c r=\"C2\"><v>5</v></c><c r=\"C2\"><v>{second}</v></c></row></sheetData>");
            let (before, _) = xml.split_once("<c r=\"C2\"").unwrap();
            let (_, after) = xml.split_once("</sheetData>").unwrap();
            format!("{before}{cells}{after}")
        })
    };
    let read = |bytes: &[u8]| parings::internals::grids(&Source { name: "book.xlsx", bytes });
    let error = read(&twice("9")).unwrap_err().to_string();
    assert!(error.contains("it has two cells C2, of different values"), "{error}");
    assert!(read(&twice("5")).is_ok());
}

/// What is typed into a cell that is formatted so is a hundredth; the text of a csv says the same.
#[test]
fn a_percentage_is_no_amount_by_its_format_either() {
    let in_csv = "Item,Pack,Price\nFlour,10 lb,$5.00\n\nRecipe,Bun\nPortions,40%\nIngredient,Qty,Unit\nFlour,50%,lb\n";
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    let percent = Format::new().set_num_format("0%");
    for (row, line) in (0_u32..).zip(in_csv.lines()) {
        for (column, text) in (0_u16..).zip(line.split(',')) {
            match text {
                "40%" => sheet.write_number_with_format(row, column, 0.4, &percent),
                "50%" => sheet.write_number_with_format(row, column, 0.5, &percent),
                text => sheet.write_string(row, column, text),
            }
            .unwrap();
        }
    }
    let bytes = book.save_to_buffer().unwrap();
    for json in [cost_json(&[("book.csv", in_csv)]), cost_bytes_json(&[("book.xlsx", &bytes)])] {
        assert_eq!(problems(&json, Code::NotANumber), ["B5 error"], "{:#}", json["problems"]);
        assert_eq!(problems(&json, Code::UnitUnknown), ["B7 error"], "{:#}", json["problems"]);
    }
    same_again("book.xlsx", &bytes).unwrap();
}

/// U+FFFE and U+FFFF stand for no character: a workbook with one of them outside its cells opens nowhere.
#[test]
fn no_part_of_a_workbook_holds_what_no_xml_may() {
    let book = "Setting,Value\nHouse name,House\u{FFFE}\nTarget food cost,30%\n\nItem,Pack,Price,Group\nFlour\u{FFFF},10 lb,$5.00,\u{FFFE}Dry\n\n\
                Recipe,Bun\u{FFFE}\nPortions,4\nMenu price,$2.00\nNote,\u{FFFF}warm\nIngredient,Qty,Unit\nFlour\u{FFFF},1,lb\nSaffron\u{FFFE},1,g\n\n\
                Recipe,Roll\u{FFFF}\nPortions,4\nMenu price,$2.00\nIngredient,Qty,Unit\nFlour\u{FFFF},1,lb\n";
    let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
    let mut zip = ZipArchive::new(Cursor::new(parings::write(&reading, &costing, STAMP).unwrap())).unwrap();
    for at in 0..zip.len() {
        let mut part = zip.by_index(at).unwrap();
        let mut bytes = Vec::new();
        part.read_to_end(&mut bytes).unwrap();
        let text = String::from_utf8(bytes).unwrap();
        assert!(!text.contains(['\u{FFFE}', '\u{FFFF}']), "{}", part.name().unwrap());
    }
}
