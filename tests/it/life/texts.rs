//! Texts that could be taken for something else come back as they were typed, from every column that takes text: to
//! another reader (calamine), and to parings itself.

use std::collections::BTreeSet;
use std::io::{Cursor, Read};

use calamine::{Data, Reader, Xlsx};
use parings::Reading;
use parings::kitchen::InputRow;
use parings::problem::Code;
use parings::schema::Value;
use rust_xlsxwriter::Workbook;

use crate::faults::chance::difference;
use crate::recalc::assert_recalculates;
use crate::support::{at_length, cost_bytes, is_its_turn};
use crate::workbook::costed;

/// Texts that a cook, a supplier or somebody with ill intent may have typed.
const HOSTILE: &[&str] = &[
    // The beginnings of formulas, and of what older programs ran (`=cmd|…`).
    "=1+1",
    "=cmd|' /C calc'!A0",
    "'=cmd",
    "=HYPERLINK(\"http://example.invalid\",\"menu\")",
    "+2",
    "-3 + 2",
    "@SUM(A1:A9)",
    "=",
    "==",
    "{=A1}",
    "=(Prices!$A$1,Prices!$B$1)",
    "Prices!$A$1",
    "#REF",
    // Quotation marks and apostrophes.
    "\"quoted\"",
    "'",
    "''",
    "chef's \"best\"",
    "\"",
    // Breaks and spaces.
    "one\ntwo",
    "one\r\ntwo",
    "one\rtwo",
    "\tone\ttwo\t",
    "  wide   inside  ",
    "\u{A0}no-break\u{A0}",
    "\u{3000}wide\u{3000}",
    "line\u{2028}apart\u{2029}",
    // Other scripts, directions and signs beyond the first plane.
    "🍋 lemon",
    "👩\u{1F3FD}\u{200D}🍳",
    "\u{1D11E}\u{10FFFF}",
    "لحم الضأن",
    "\u{202E}esrever",
    "מרק \u{200F}(2)",
    "crème brûlée",
    "cre\u{300}me",
    "牛肉",
    // What no XML holds, and how workbooks write it.
    "a\u{1}b",
    "\u{1}\u{2}\u{3}\u{4}\u{5}\u{6}\u{7}\u{8}",
    "x\u{B}\u{C}\u{E}\u{F}\u{10}\u{11}\u{12}\u{13}\u{14}\u{15}\u{16}\u{17}x",
    "x\u{18}\u{19}\u{1A}\u{1B}\u{1C}\u{1D}\u{1E}\u{1F}x",
    "\u{7F}\u{80}\u{9F}x",
    "\u{FFFE}",
    "\u{FFFF}x",
    "_x0041_",
    "_x005F_x0041_",
    "_x0041_x0042_",
    "_x000D_",
    "_xD83D__xDCF7_",
    "_xZZZZ_ _X0041_ _x41_",
    // Markup.
    "<r>plain</r>",
    "<r><t>rich</t></r>",
    "<r>&</r>",
    "<b>&amp;</b> ]]> <!-- -->",
    "</t></si>",
    "&#10; &nope;",
    // Codes of page headers, and of number formats.
    "&P of &N, &D",
    "&\"Arial,Bold\"&20",
    "0.00;[Red]@",
];

/// A text that no other one is told from by how names are compared, and that is the same after outer spaces are gone.
fn tidy(text: &str) -> &str {
    text.trim()
}

/// A book in which `text` stands in every column that takes text, beside enough that is sound for figures to be there.
/// What must be told apart says its column behind the text.
fn rows(text: &str) -> Vec<Vec<String>> {
    let own = |what: &str| format!("{text} {what}");
    let row = |cells: &[&str]| cells.iter().map(|cell| (*cell).to_owned()).collect::<Vec<String>>();
    let (item, other, part, test, card) = (own("item"), own("other"), own("part"), own("test"), own("card"));
    vec![
        row(&["Item", "Pack", "Price", "Supplier", "Code", "Also called", "Group", "Note", "Allergens"]),
        row(&[&item, "10 lb", "$20.00", text, text, "", text, text, "none"]),
        row(&[&other, text, "$1.00", text, text, "", text, text, text]),
        row(&["Leeks", "10 lb", "$20.00", "", "", &own("alias"), "", "", "none"]),
        vec![],
        row(&["Test", "Role", "Part", "Weight", "Unit", "Kind", "Note"]),
        row(&[&test, "as purchased", &item, "10", "lb", "", text]),
        row(&[&test, "main", &part, "8", "lb", "", text]),
        row(&[&test, "waste", text, "2", "lb", text, text]),
        vec![],
        row(&["Recipe", &card]),
        row(&["Portions", "4"]),
        row(&["Group", text]),
        row(&["Note", text]),
        row(&["Method", text]),
        row(&["Ingredient", "Qty", "Unit", "Prep", "Note"]),
        row(&[&part, "1", "lb", text, text]),
        row(&[&own("alias"), "2", "lb", "", text]),
        vec![],
        row(&["Recipe", &own("broken")]),
        row(&["Makes", text]),
        row(&["Ingredient", "Qty", "Unit", "Note"]),
        row(&[text, "1", text, text]),
        row(&[&part, text, "lb", text]),
        vec![],
        row(&["Dish", "Recipe", "Menu price", "Group", "Note"]),
        row(&[&own("dish"), &card, "$9.00", text, text]),
        vec![],
        row(&["Dish", "Portions", "Day", "Note"]),
        row(&[&own("dish"), "40", "1", text]),
        vec![],
        row(&["Item", "On hand", "Unit", "Note"]),
        row(&[&item, "3", "lb", text]),
        vec![],
        row(&["Item", "Measure", "Weighs", "Note"]),
        row(&[&item, "cup", "8 oz", text]),
        vec![],
        row(&["Setting", "Value"]),
        row(&["House name", text]),
        row(&["Currency", "USD"]),
        row(&["Target food cost", "30%"]),
    ]
}

fn csv(rows: &[Vec<String>]) -> Vec<u8> {
    let quoted = |text: &String| format!("\"{}\"", text.replace('"', "\"\""));
    let line = |row: &Vec<String>| row.iter().map(quoted).collect::<Vec<_>>().join(",");
    rows.iter().map(line).collect::<Vec<_>>().join("\n").into_bytes()
}

/// The same as a workbook. The texts that the library takes for its own markup are left to csv.
fn xlsx(rows: &[Vec<String>]) -> Vec<u8> {
    let mut workbook = Workbook::new();
    let sheet = workbook.add_worksheet();
    for (at, row) in (0_u32..).zip(rows) {
        for (column, text) in (0_u16..).zip(row).filter(|(_, text)| !text.is_empty()) {
            sheet.write_string(at, column, text).unwrap();
        }
    }
    workbook.save_to_buffer().unwrap()
}

/// Every text that another reader finds in the cells of a workbook, and every formula.
fn seen(bytes: &[u8]) -> (BTreeSet<String>, BTreeSet<String>) {
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).unwrap();
    let (mut texts, mut formulas) = (BTreeSet::new(), BTreeSet::new());
    for sheet in book.sheet_names() {
        let values = book.worksheet_range(&sheet).unwrap();
        texts.extend(values.used_cells().filter_map(|(_, _, cell)| match cell {
            Data::String(text) => Some(tidy(text).to_owned()),
            _ => None,
        }));
        let of_sheet = book.worksheet_formula(&sheet).unwrap();
        formulas.extend(of_sheet.used_cells().map(|(_, _, formula)| shape(formula)));
    }
    (texts, formulas)
}

/// A formula without the cells that it names, which stand elsewhere where a column is empty.
fn shape(formula: &str) -> String {
    let mut shape = String::new();
    for part in formula.split_inclusive(|c: char| !c.is_ascii_alphanumeric()) {
        let word = part.trim_end_matches(|c: char| !c.is_ascii_alphanumeric());
        let is_cell =
            word.starts_with(|c: char| c.is_ascii_uppercase()) && word.ends_with(|c: char| c.is_ascii_digit());
        shape.push_str(&if is_cell { part.replacen(word, "·", 1) } else { part.to_owned() });
    }
    shape
}

/// Every typed text of a book's rows.
fn typed(reading: &Reading) -> Vec<Vec<String>> {
    let entries = &reading.kitchen.entries;
    let cells = |row: &InputRow| -> Vec<String> {
        let texts = row.cells.iter().filter_map(|cell| match &cell.typed.value {
            Value::Text(text) => Some(text.clone()),
            _ => None,
        });
        // Columns may stand in another order.
        let mut texts: Vec<String> = texts.collect();
        texts.sort();
        texts
    };
    let mut all: Vec<Vec<String>> = Vec::new();
    all.extend(entries.prices.iter().map(|row| cells(&row.input)));
    all.extend(entries.measures.iter().map(|row| cells(&row.input)));
    all.extend(entries.tests.iter().map(|row| cells(&row.input)));
    all.extend(entries.menu.iter().map(|row| cells(&row.input)));
    all.extend(entries.plan.iter().map(|row| cells(&row.input)));
    all.extend(entries.stock.iter().map(|row| cells(&row.input)));
    for recipe in &entries.recipes {
        all.push(cells(&recipe.input));
        all.extend(recipe.lines.iter().map(|line| cells(&line.input)));
    }
    all.extend(entries.unread.iter().map(|(_, row)| cells(row)));
    // Rows that could not be read stand in the order of their sheets.
    all.sort();
    all
}

/// Every part of a workbook is XML that another parser takes.
fn assert_well_formed(bytes: &[u8], what: &str) {
    let mut zip = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    for at in 0..zip.len() {
        let mut entry = zip.by_index(at).unwrap();
        let mut text = String::new();
        let name = entry.name().unwrap().into_owned();
        entry.read_to_string(&mut text).unwrap();
        // XML 1.0, 2.2: the characters that a document may hold.
        let legal =
            |c: char| matches!(c, '\t' | '\n' | '\r' | ' '..='\u{D7FF}' | '\u{E000}'..='\u{FFFD}' | '\u{10000}'..);
        assert!(text.chars().all(legal), "{what}: {name} holds what no XML may");
        let mut in_words = false;
        let mut reader = quick_xml::Reader::from_str(&text);
        reader.config_mut().check_end_names = true;
        loop {
            match reader.read_event() {
                Ok(quick_xml::events::Event::Eof) => break,
                Ok(quick_xml::events::Event::GeneralRef(of)) => {
                    let known = of.is_char_ref() || ["amp", "lt", "gt", "quot", "apos"].contains(&of.as_ref());
                    assert!(known, "{what}: {name} holds the entity {of:?}");
                }
                // A title or a name in a chart's key is text, and never leads to a cell.
                Ok(quick_xml::events::Event::Start(tag)) if tag.name().as_ref() == "c:tx" => in_words = true,
                Ok(quick_xml::events::Event::End(tag)) if tag.name().as_ref() == "c:tx" => in_words = false,
                Ok(quick_xml::events::Event::Start(tag)) if tag.name().as_ref() == "c:f" => {
                    assert!(!in_words, "{what}: {name} has a title that is a reference");
                }
                Ok(_) => {}
                Err(error) => panic!("{what}: {name}: {error}"),
            }
        }
    }
}

/// In the heads and feet of printed pages an ampersand begins a code, so one that was typed stands doubled.
#[track_caller]
fn assert_no_codes(bytes: &[u8], typed: &str) {
    let mut zip = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    for at in 0..zip.len() {
        let mut xml = String::new();
        zip.by_index(at).unwrap().read_to_string(&mut xml).unwrap();
        let start = xml.find("<headerFooter").unwrap_or(xml.len());
        let printed = &xml[start..xml.find("</headerFooter>").unwrap_or(xml.len())];
        let written = |text: &str| text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;");
        let rest = printed.replace(&written(&typed.replace('&', "&&")), "");
        assert!(!typed.contains('&') || !rest.contains(&written(typed)), "{typed:?} is a code in {printed}");
    }
}

/// A formula without the words that cells are held to: `·<>"words"` as where a cell is only to be filled, `·=""`.
fn unheld(formula: &str) -> String {
    let mut out = String::new();
    let mut rest = formula;
    while let Some((before, after)) = rest.split_once("·<>\"") {
        out.push_str(before);
        out.push_str("·=\"\"");
        // A doubled mark is part of the words.
        let mut end = 0;
        while let Some(at) = after[end..].find('"') {
            end += at + 1;
            if !after[end..].starts_with('"') {
                break;
            }
            end += 1;
        }
        rest = &after[end..];
    }
    out + rest
}

/// Fails unless all that was typed in `rows` is read from the workbook, and no formula is made of it.
#[track_caller]
fn assert_kept(text: &str, rows: &[Vec<String>], bytes: &[u8], name: &str) {
    let what = format!("{text:?} in {name}");
    let (reading, _, once) = costed(name, bytes);
    assert_well_formed(&once, &what);
    assert_no_codes(&once, text);
    let (texts, formulas) = seen(&once);
    let (_, plain) = seen(&costed("plain.csv", &csv(&self::rows("plain"))).2);
    let quoted_name = |formula: &String| formula.contains('!');
    // Words that a cell is held to stand whole in quotes.
    let plain: Vec<String> = plain.iter().map(|formula| unheld(formula)).collect();
    let held = formulas.iter().map(|formula| unheld(formula));
    let strange: Vec<String> = held.filter(|formula| !quoted_name(formula) && !plain.contains(formula)).collect();
    assert!(strange.is_empty(), "{what}: formulas {strange:?}");
    // Numbers of a csv file become numbers; headers and roles are the book's own words.
    for cell in rows.iter().flatten().filter(|cell| cell.contains(text)) {
        assert!(texts.contains(tidy(cell)), "{what}: {cell:?} is lost");
    }
    let (again, costing) = cost_bytes(&[("book.costed.xlsx", &once)]);
    for (before, after) in typed(&reading).iter().zip(&typed(&again)) {
        assert_eq!(before, after, "{what}: read again");
    }
    let twice = parings::write(&again, &costing, crate::workbook::STAMP).unwrap();
    assert!(once == twice, "{what}: {}", difference(&once, &twice));
    assert_recalculates(&once, &what);
}

#[test]
fn texts_that_look_like_something_else_are_kept_in_every_column() {
    let mut failed = Vec::new();
    for (at, text) in HOSTILE.iter().enumerate() {
        let rows = rows(text);
        let books = [("book.csv", csv(&rows)), ("book.xlsx", xlsx(&rows))];
        let books = books.into_iter().take(if text.starts_with("<r>") { 1 } else { 2 }).enumerate();
        // By turns, a third of the texts and each in one kind of file; all in both with the long checks.
        let turn = |kind: &usize| *kind == at % 2 || text.starts_with("<r>");
        for (_, (name, bytes)) in
            books.filter(|(kind, _)| at_length() || (is_its_turn(3, text.as_bytes()) && turn(kind)))
        {
            let kept = std::panic::catch_unwind(|| assert_kept(text, &rows, &bytes, name));
            if kept.is_err() {
                failed.push((name, text));
            }
        }
    }
    assert!(failed.is_empty(), "see above: {failed:?}");
}

/// A cell holds 32,767 characters. What has as many is kept whole; of what has more the beginning is kept, and it is said
/// where, once: in the costed workbook nothing is too long any more.
#[test]
fn what_no_cell_holds_is_said() {
    let most = 32_767;
    // The last but one would end in a space where it is cut; a lemon counts twice.
    let texts = [
        ("leek".repeat(8_192)[..most].to_owned(), None),
        ("=".to_owned() + &"leek".repeat(8_192)[..most - 1], None),
        ("leek".repeat(8_192), Some(32_768)),
        ("leek ".repeat(8_000).trim().to_owned(), Some(39_999)),
        ("x".repeat(32_766) + " and more", Some(32_775)),
        ("🍋".repeat(16_384), Some(32_768)),
    ];
    for (text, said) in texts {
        let book = format!(
            "Item,Pack,Price,Supplier,Note\nLeeks,10 lb,$20.00,North,\"{text}\"\n\nRecipe,Leek soup\nPortions,4\n\
             Method,\"{text}\"\nIngredient,Qty,Unit\nLeeks,2,lb\n"
        );
        let (reading, costing, once) = costed("book.csv", book.as_bytes());
        let problems = reading.problems_with(&costing);
        let long = problems.iter().filter(|problem| problem.code == Code::TextTooLong);
        let found: Vec<(String, String)> =
            long.map(|problem| (problem.place.cell_ref().unwrap().to_string(), problem.message())).collect();
        let message = said.map(|characters: usize| {
            format!("the text has {characters} characters, and a cell holds 32767; the rest was left out")
        });
        let expected: Vec<(String, String)> = message
            .iter()
            .flat_map(|said| [("E2".to_owned(), said.clone()), ("B6".to_owned(), said.clone())])
            .collect();
        assert_eq!(found, expected);
        let (texts, _) = seen(&once);
        let kept: Vec<&String> = texts.iter().filter(|kept| kept.len() > 32_000).collect();
        assert_eq!(kept.len(), 1);
        assert!(text.starts_with(kept[0].as_str()) && (said.is_some() || text == *kept[0]));
        let (again, costing) = cost_bytes(&[("book.costed.xlsx", &once)]);
        assert!(again.problems_with(&costing).iter().all(|problem| problem.code != Code::TextTooLong));
        let twice = parings::write(&again, &costing, crate::workbook::STAMP).unwrap();
        assert!(once == twice, "{}", difference(&once, &twice));
    }
}
