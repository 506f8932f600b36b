//! Whatever recipes are called, their cards' sheets have names that a workbook allows, and formulas find them.

use std::collections::HashSet;
use std::io::{Cursor, Read};

use calamine::{Reader, Xlsx};
use parings::kitchen::NameKey;
use proptest::prelude::*;

use crate::recalc::{Sheets, Value, assert_recalculates, with_changes};
use crate::support::chance;
use crate::workbook::costed;

/// Names that sheets may not bear, that formulas could take for something else, and that are one name to some programs.
const HARD: &[&str] = &[
    "Summary",
    "summary",
    "TRIM",
    "History",
    "HISTORY",
    "Prices",
    "Yield tests",
    "What if",
    "How it was figured",
    "Problems",
    "Lines",
    "Recipes",
    "Sheet",
    "Sheet 2",
    "Sheet1",
    "[",
    ":",
    "*?/\\",
    "[soup]",
    "a/b",
    "a:b",
    "a b",
    "A1",
    "a1",
    "XFD1048576",
    "R1C1",
    "RC",
    "R",
    "C",
    "R1",
    "TRUE",
    "FALSE",
    "SUM",
    "'",
    "''",
    "'''quoted'''",
    "chef's",
    "chef''s",
    "'chef",
    "chef'",
    "A1:B2",
    "Prices!A1",
    "Fish & chips!",
    "#REF! soup",
    "$A$1",
    "1",
    "2026-11-25",
    "+1+1",
    "&P",
    "&amp;",
    "<r>",
    "\"",
    "0\"",
    "Pizza 12\"",
    "12\" pizza, 2\" thick",
    "BASE(tomato)",
    "SORT(A)",
    "1.LET(x)",
    "(soup)",
    "soup, hot",
    "soup; cold",
    "Straße",
    "STRASSE",
    "Crème",
    "cre\u{300}me",
    "İnci",
    "i̇nci",
    "ＡＢＣ",
    "abc",
    "🍋🍋🍋🍋🍋🍋🍋🍋🍋🍋🍋🍋🍋🍋🍋🍋🍋",
    "x🍋🍋🍋🍋🍋🍋🍋🍋🍋🍋🍋🍋🍋🍋🍋🍋🍋",
    "لحم الضأن",
    "牛肉のスープ",
    "\u{202E}esrever",
    "a\u{1}b",
    "\u{FFFF}",
    "\u{200B}",
    "a\nb",
    "A very long name of a soup that nobody says twice",
    "A very long name of a soup that nobody says thrice",
    "A very long name of a soup that' comes to an end",
    "A very long name of a soup tha' 's",
    "Thirty-one signs are here allow",
];

/// A book of these recipes. The nth costs n dollars: one portion, of n pounds of what costs a dollar a pound.
fn book(names: &[String]) -> String {
    let quoted = |text: &str| format!("\"{}\"", text.replace('"', "\"\""));
    let mut book = "Item,Pack,Price\nLeeks,10 lb,$10.00\n\nSetting,Value\nTarget food cost,30%\n\n".to_owned();
    book.push_str("Recipe,Portions\n");
    for name in names {
        book.push_str(&format!("{},1\n", quoted(name)));
    }
    book.push_str("\nDish,Recipe,Menu price\n");
    for (name, nth) in names.iter().zip(1..) {
        book.push_str(&format!("Dish no {nth},{},$8.00\n", quoted(name)));
    }
    book.push_str("\nRecipe,Ingredient,Qty,Unit\n");
    for (name, pounds) in names.iter().zip(1..) {
        book.push_str(&format!("{},Leeks,{pounds},lb\n", quoted(name)));
    }
    book
}

/// What ECMA-376 part 1, 18.2.19, and spreadsheet programs ask of a sheet's name; the last is from memory.
fn allowed(name: &str) -> bool {
    let length = name.encode_utf16().count();
    (1..=31).contains(&length)
        && !name.contains(|c: char| "[]:*?/\\".contains(c) || c.is_control() || ('\u{FFFE}'..='\u{FFFF}').contains(&c))
        && !name.starts_with('\'')
        && !name.ends_with('\'')
        && !name.trim().is_empty()
        && name.to_lowercase() != "history"
}

/// Fails unless every sheet's name is allowed and distinct, and every dish of the Summary follows its own card.
fn named_well(names: &[String]) -> Result<(), TestCaseError> {
    let (reading, costing, once) = costed("book.csv", book(names).as_bytes());
    let file: Xlsx<_> = Xlsx::new(Cursor::new(&once[..])).unwrap();
    let sheets = file.sheet_names();
    let mut seen = HashSet::new();
    for sheet in &sheets {
        prop_assert!(allowed(sheet), "{sheet:?}");
        prop_assert!(seen.insert(sheet.to_lowercase()), "{sheet:?} in {sheets:?}");
    }
    let upper: HashSet<String> = sheets.iter().map(|sheet| sheet.to_uppercase()).collect();
    prop_assert_eq!(upper.len(), sheets.len(), "{:?}", &sheets);
    links_lead_somewhere(&once, &sheets)?;
    let recipes = &reading.kitchen.recipes;
    prop_assert_eq!(recipes.len(), names.len(), "{:?}", reading.problems_with(&costing));
    // Summary, Menu, Kitchen cards, In pictures, Prices, Settings, Problems, How it was figured, and a card each.
    prop_assert_eq!(sheets.len(), recipes.len() + 8, "{:?}", &sheets);
    let engine = Sheets::open(&once);
    for (dish, name) in names.iter().enumerate() {
        let row = dish + 8;
        prop_assert_eq!(engine.value("Summary", &format!("A{row}")), Value::Text(format!("Dish no {}", dish + 1)));
        let cost = engine.number("Summary", &format!("B{row}"));
        prop_assert!((cost - (dish as f64 + 1.0)).abs() < 1e-9, "{name:?} costs {cost}");
    }
    assert_recalculates(&once, "names");
    let (_, _, twice) = costed("book.costed.xlsx", &once);
    prop_assert!(once == twice, "costing the costed book gave another book");
    Ok(())
}

/// Every link within the workbook names a sheet that is there.
fn links_lead_somewhere(bytes: &[u8], sheets: &[String]) -> Result<(), TestCaseError> {
    let mut zip = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
    let mut links = 0;
    for at in 0..zip.len() {
        let mut entry = zip.by_index(at).unwrap();
        if !entry.name().unwrap().starts_with("xl/worksheets/sheet") {
            continue;
        }
        let mut xml = String::new();
        entry.read_to_string(&mut xml).unwrap();
        let mut reader = quick_xml::Reader::from_str(&xml);
        loop {
            use quick_xml::events::Event;
            match reader.read_event().unwrap() {
                Event::Eof => break,
                Event::Empty(tag) | Event::Start(tag) if tag.name().as_ref() == "hyperlink" => {
                    let location = tag.try_get_attribute("location").unwrap().unwrap();
                    let location = location.normalized_value(quick_xml::XmlVersion::Implicit1_0).unwrap();
                    let (sheet, _) = location.rsplit_once('!').unwrap();
                    let sheet = sheet.trim_start_matches('\'').trim_end_matches('\'').replace("''", "'");
                    prop_assert!(sheets.contains(&sheet), "a link to {location:?}, but there are {sheets:?}");
                    links += 1;
                }
                _ => {}
            }
        }
    }
    prop_assert!(links > 0, "no links were seen");
    Ok(())
}

/// Without what is one name to parings, and without what is no name: nothing but marks, or a formula that was lost.
fn distinct(names: impl IntoIterator<Item = String>) -> Vec<String> {
    let mut seen = HashSet::new();
    let key = |name: &String| NameKey::of(name);
    names
        .into_iter()
        .filter(|name| !key(name).is_empty() && !name.trim().starts_with('=') && seen.insert(key(name)))
        .collect()
}

#[test]
fn hard_names_all_in_one_book() {
    let names = distinct(HARD.iter().map(|name| (*name).to_owned()));
    assert!(names.len() > 50, "{}", names.len());
    named_well(&names).unwrap();
}

/// A formula that names a sheet by its quoted name still finds it after the price has changed.
#[test]
fn cards_of_hard_names_follow_a_price() {
    let names = distinct(HARD.iter().map(|name| (*name).to_owned()));
    let (_, _, once) = costed("book.csv", book(&names).as_bytes());
    // $30 for 10 lb instead of $10: three times as much for every dish.
    let sheets = with_changes(&once, &[("Prices", "C2", 30.0)]);
    for (dish, name) in names.iter().enumerate() {
        let cost = sheets.number("Summary", &format!("B{}", dish + 8));
        assert!((cost - 3.0 * (dish as f64 + 1.0)).abs() < 1e-9, "{name:?} costs {cost}");
    }
}

proptest! {
    #![proptest_config(chance(4))]

    #[test]
    fn any_set_of_names_makes_sheets(
        names in prop::collection::vec(
            prop_oneof![
                3 => proptest::sample::select(HARD).prop_map(str::to_owned),
                2 => "[-'\\[\\]:*?/\\\\ a-cA-C1]{1,34}",
                1 => "\\PC{1,40}",
                1 => ".{1,12}",
                2 => "[Ss]oup that is called by a very long name,? no [0-9]{1,3}",
            ],
            1..14,
        ),
    ) {
        let names = names.into_iter().map(|name| name.replace(['\0', '\r'], ""));
        named_well(&distinct(names))?;
    }
}
