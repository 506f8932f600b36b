//! Lists on the pages that are those of the code: packs, quantities, columns, settings, sheets, and the library's example.

use std::io::Cursor;

use calamine::{Reader, Xlsx};
use parings::kitchen::settings::Setting;
use parings::measure::{
    AmountText, Conventions, QuantityText, Volumes, compound_in_first, parse_line, parse_pack, parse_quantity,
};
use parings::number::{Marks, plain};
use parings::schema::{ColumnNeed, TableKind};

use super::pages::{PAGES, Page, csv, read, rows, tables};
use crate::workbook::costed;

/// Whether a page has it.
fn on_a_page(text: &str) -> bool {
    PAGES.iter().any(|page| page.text.contains(text))
}

#[test]
fn packs_are_read_as_is_said() {
    for row in rows("packs") {
        assert_eq!(parse_pack(&row[0], Marks::Unknown).unwrap().read_as, row[1], "{}", row[0]);
    }
    for row in rows("packs refused") {
        assert_eq!(parse_pack(&row[0], Marks::Unknown).unwrap_err().code.name(), row[3], "{}", row[0]);
        for instead in row[2].split(" or ") {
            assert!(parse_pack(instead, Marks::Unknown).is_ok(), "{instead}");
        }
    }
}

#[test]
fn quantities_are_read_as_is_said() {
    for row in rows("quantities") {
        let read = match parse_quantity(&row[0], Marks::Unknown) {
            Ok(QuantityText::Number(number)) => plain(number),
            Ok(QuantityText::Measured(one)) => one.to_string(),
            Ok(QuantityText::Compound(all)) => {
                let sum = compound_in_first(&all, Volumes::Us).unwrap().unwrap();
                format!("{} {}", plain(sum), all[0].unit)
            }
            Ok(QuantityText::Unmeasured(_)) => "nothing to cost".to_owned(),
            Err(fault) => match fault.code.name() {
                "range-given" => "refused: a range".to_owned(),
                "number-ambiguous" => "refused: 1234, or 1.234?".to_owned(),
                other => other.to_owned(),
            },
        };
        assert_eq!(read, row[1], "{}", row[0]);
    }
}

#[test]
fn ingredient_lines_are_read_as_is_said() {
    let how = Conventions { marks: Marks::Unknown, volumes: Volumes::Us };
    for row in rows("ingredient lines") {
        let line = parse_line(row[0].trim_matches('`'), how);
        let much = match (&line.amount, line.total()) {
            (_, Some(total)) if line.notes.is_empty() => total.to_string(),
            (_, Some(total)) => format!("{total}, noted"),
            (AmountText::Bare(number), _) => plain(*number),
            (AmountText::Asked, _) => "a question".to_owned(),
            _ => "not costed".to_owned(),
        };
        assert_eq!([&much, &line.name, &line.prep], [&row[1], &row[2], &row[3]], "{}", row[0]);
    }
}

/// Each list of columns is the code's, in its order: header, whether it must be there, what else it is read as.
#[test]
fn the_lists_of_columns_are_complete() {
    let mut listed = 0;
    for kind in TableKind::ALL.iter().copied().filter(|kind| on_a_page(&format!("<!-- columns {} -->", kind.name()))) {
        let said: Vec<(String, String)> =
            rows(&format!("columns {}", kind.name())).into_iter().map(|row| (row[0].clone(), row[1].clone())).collect();
        let known: Vec<(String, String)> = kind
            .columns()
            .iter()
            .map(|def| {
                let mark = match def.role {
                    ColumnNeed::Required => " *",
                    ColumnNeed::Optional if kind.signature().any.contains(&def.column) => " †",
                    ColumnNeed::Optional => "",
                };
                (format!("{}{mark}", def.header), def.synonyms.join(" · "))
            })
            .collect();
        assert_eq!(said, known, "{}", kind.name());
        listed += 1;
    }
    assert_eq!(listed, 9);
}

#[test]
fn the_list_of_settings_is_complete() {
    let mut said: Vec<String> = rows("settings").into_iter().map(|row| row[0].clone()).collect();
    let mut known: Vec<String> = Setting::ALL.iter().map(|setting| setting.name().to_owned()).collect();
    said.sort();
    known.sort();
    assert_eq!(said, known);
}

#[test]
fn every_sheet_of_the_costed_workbook_is_named() {
    let (reading, _, written) = costed("kitchen.csv", csv(&tables("kitchen.csv")).as_bytes());
    let book: Xlsx<_> = Xlsx::new(Cursor::new(written)).unwrap();
    let is_card = |sheet: &String| reading.kitchen.recipes.iter().any(|recipe| recipe.name == *sheet);
    let (cards, sheets): (Vec<String>, Vec<String>) = book.sheet_names().into_iter().partition(is_card);
    assert_eq!(cards.len(), 3);
    for sheet in sheets {
        assert!(on_a_page(&format!("**{sheet}**")), "{sheet}");
    }
}

/// The library's own documentation has it too, and runs it.
#[test]
fn the_example_of_the_library_is_its_own() {
    let library = read("src/lib.rs");
    let documented =
        library.lines().filter_map(|line| line.strip_prefix("//!")).filter(|line| !line.starts_with(" # "));
    let documented: Vec<&str> = documented.map(|line| line.strip_prefix(' ').unwrap_or(line)).collect();
    let blocks = Page::of("docs/programs/library.md");
    let shown = blocks.blocks("rust");
    assert_eq!(shown.len(), 1);
    assert!(documented.join("\n").contains(&format!("```\n{}```", shown[0])), "{}", shown[0]);
}
