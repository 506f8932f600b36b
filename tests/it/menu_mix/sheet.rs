//! The sheet Menu mix: figures by hand, recalculated by another engine, before and after a price and sales are changed; its
//! picture.

use std::io::{Cursor, Read as _};

use calamine::{Reader, Xlsx};
use zip::ZipArchive;

use super::plates;
use super::sales::FOUR;
use crate::recalc::{Sheets, Value, assert_recalculates, with_changes};
use crate::workbook::costed;

const SHEET: &str = "Menu mix";

#[track_caller]
fn row_of(sheets: &Sheets, sheet: &str, name: &str) -> u32 {
    let is = |row: &u32| matches!(sheets.value(sheet, &format!("A{row}")), Value::Text(text) if text == name);
    (1..60).find(is).unwrap_or_else(|| panic!("no {name} on {sheet}"))
}

#[track_caller]
fn says(sheets: &Sheets, name: &str, figures: [f64; 4], class: &str) {
    let row = row_of(sheets, SHEET, name);
    for (column, expected) in ["E", "F", "G", "H"].into_iter().zip(figures) {
        let found = sheets.number(SHEET, &format!("{column}{row}"));
        assert!((found - expected).abs() < 1e-9, "{column} of {name}: {found}, not {expected}");
    }
    assert_eq!(sheets.value(SHEET, &format!("B{row}")), Value::Text(class.to_owned()), "{name}");
}

/// 40 at 9 − 2 = 7.00, 20 at 5.00, 25 at 5.50, 15 at 2.00: 280 + 100 + 137.50 + 30 = 547.50 of 100 portions, 5.475; popular from
/// 17.5 of them. With the stew at 5.00 its margin is 3.00: 120 + 267.50 = 387.50, 3.875. Sixty toasts more: 160 portions,
/// popular from 28, 687.50 ÷ 160 = 4.296875; stew 40, pea soup 25.
#[test]
fn classes_follow_prices_and_sales() {
    let (_, _, written) = costed("book.csv", plates(&FOUR).as_bytes());
    assert_recalculates(&written, "mix.xlsx");
    let sheets = Sheets::open(&written);
    says(&sheets, "Barley stew", [40.0, 0.4, 7.0, 280.0], "popular, high margin");
    says(&sheets, "Egg toast", [20.0, 0.2, 5.0, 100.0], "popular, low margin");
    says(&sheets, "Pea soup", [25.0, 0.25, 5.5, 137.5], "popular, high margin");
    says(&sheets, "Pan bread", [15.0, 0.15, 2.0, 30.0], "seldom ordered, low margin");
    let lines = row_of(&sheets, SHEET, "All; popular from, high margin from");
    let of = |column: &str| sheets.number(SHEET, &format!("{column}{lines}"));
    assert_eq!(["E", "F", "G", "H"].map(of), [100.0, 0.175, 5.475, 547.5]);
    let tried = sheets.value(SHEET, &format!("C{}", row_of(&sheets, SHEET, "Pan bread")));
    assert!(matches!(&tried, Value::Text(text) if text.starts_with("Change it or take it off")), "{tried}");

    let stew = row_of(&sheets, "Menu", "Barley stew");
    let price = ["B", "C", "D"].map(|column| format!("{column}{stew}"));
    let price = price.iter().find(|cell| sheets.value("Menu", cell) == Value::Number(9.0)).unwrap();
    let dearer = with_changes(&written, &[("Menu", price, 5.0)]);
    says(&dearer, "Barley stew", [40.0, 0.4, 3.0, 120.0], "popular, low margin");
    says(&dearer, "Egg toast", [20.0, 0.2, 5.0, 100.0], "popular, high margin");

    let toast = row_of(&sheets, "Menu", "Egg toast");
    let sold = ["E", "F", "G"].map(|column| format!("{column}{toast}"));
    let sold = sold.iter().find(|cell| sheets.value("Menu", cell) == Value::Number(20.0)).unwrap();
    let more = with_changes(&written, &[("Menu", price, 5.0), ("Menu", sold, 80.0)]);
    says(&more, "Egg toast", [80.0, 0.5, 5.0, 400.0], "popular, high margin");
    says(&more, "Pea soup", [25.0, 0.156_25, 5.5, 137.5], "seldom ordered, high margin");
    assert!(more.errors().is_empty(), "{:?}", more.errors());
}

/// A refund and a list of sales add up, live; three dishes are not compared; without Sold there is no sheet.
#[test]
fn sales_add_up_and_few_dishes_have_no_class() {
    let sales = "Dish,Sold\nPea soup,4\nPea soup,-1\n";
    let (_, _, written) = costed("book.csv", format!("{}\n{sales}", plates(&FOUR[1..])).as_bytes());
    assert_recalculates(&written, "mix.xlsx");
    let sheets = Sheets::open(&written);
    // 20 + (25 + 4 − 1) + 15 = 63.
    says(&sheets, "Pea soup", [28.0, 28.0 / 63.0, 5.5, 154.0], "fewer than four dishes");
    let (_, _, none) = costed("book.csv", plates(&FOUR).replace("Sold", "Note").as_bytes());
    let names = Xlsx::new(Cursor::new(none)).unwrap().sheet_names();
    assert!(!names.contains(&SHEET.to_owned()), "{names:?}");
}

/// A list of sales by the day: sixty rows of pea soup are more than one formula holds. 25 + 60 = 85; with 11 for one of the 1s
/// 95, on Menu mix and on Food cost; with a word there none is known.
#[test]
fn sixty_days_of_sales_are_followed() {
    let days = "Pea soup,1\n".repeat(60);
    let control = "Opening,Purchases,Closing,Sales\n100.00,200.00,50.00,1000.00\n";
    let book = format!("{}\nDish,Sold\n{days}\n{control}", plates(&FOUR));
    let (_, _, written) = costed("book.csv", book.as_bytes());
    assert_recalculates(&written, "mix.xlsx");
    let sheets = Sheets::open(&written);
    let sold = |sheets: &Sheets| {
        let of = |sheet, column| sheets.value(sheet, &format!("{column}{}", row_of(sheets, sheet, "Pea soup")));
        [of(SHEET, "E"), of("Food cost", "B")]
    };
    assert_eq!(sold(&sheets), [85.0; 2].map(Value::Number));
    let is_one = |cell: &String| sheets.value("Menu", cell) == Value::Number(1.0);
    let cell = (1..90).flat_map(|row| ["C", "D", "E", "F", "G"].map(|column| format!("{column}{row}"))).rfind(is_one);
    let cell = cell.unwrap();
    assert_eq!(sold(&with_changes(&written, &[("Menu", &cell, 11.0)])), [95.0; 2].map(Value::Number));
    let mut cleared = Sheets::open(&written);
    cleared.type_text("Menu", &cell, "few");
    assert_eq!(sold(&cleared), ["not known"; 2].map(|says| Value::Text(says.to_owned())));
}

/// A dish of trim is shown as it would be if that were bought; see the same book in `sales`: 7.875 and 7.00.
#[test]
fn a_dish_of_trim_is_shown_at_its_buy_in_price() {
    let book = super::sales::trim_book();
    let (_, _, written) = costed("book.csv", book.as_bytes());
    assert_recalculates(&written, "mix.xlsx");
    let sheets = Sheets::open(&written);
    let row = row_of(&sheets, SHEET, "Bone broth");
    assert_eq!(sheets.value(SHEET, &format!("B{row}")), Value::Text("popular, high margin".to_owned()));
    assert!((sheets.number(SHEET, &format!("I{row}")) - 7.0).abs() < 1e-9);
    assert_eq!(sheets.value(SHEET, &format!("D{row}")), Value::Text("popular, low margin".to_owned()));
    // Another price, and what was worked out for this one does not stand.
    let menu = row_of(&sheets, "Menu", "Bone broth");
    let price = ["B", "C", "D"].map(|column| format!("{column}{menu}"));
    let price = price.iter().find(|cell| sheets.value("Menu", cell) == Value::Number(8.0)).unwrap();
    let other = with_changes(&written, &[("Menu", price, 9.0)]);
    assert_eq!(other.value(SHEET, &format!("I{row}")), Value::Text("cost again".to_owned()));
}

/// The picture: a point a dish, named by its cell, with its figures stored; the words of the quadrants; a text for whoever
/// does not see it.
#[test]
fn the_quadrants_are_a_picture() {
    let (_, _, written) = costed("book.csv", plates(&FOUR).as_bytes());
    let mut zip = ZipArchive::new(Cursor::new(&written)).unwrap();
    let mut parts = Vec::new();
    for at in 0..zip.len() {
        let mut file = zip.by_index(at).unwrap();
        let name = file.name().unwrap().into_owned();
        if name.starts_with("xl/charts/") || name.starts_with("xl/drawings/") {
            let mut text = String::new();
            file.read_to_string(&mut text).unwrap();
            parts.push(text);
        }
    }
    let chart = parts.iter().find(|text| text.contains("<c:scatterChart>")).expect("a scatter chart");
    for held in [
        "<c:v>Barley stew</c:v>",
        "<c:v>40</c:v>",
        "<c:showVal val=\"0\"/><c:showSerName val=\"1\"/>",
        "<c:v>5.475</c:v>",
        "seldom ordered, high margin",
    ] {
        assert!(chart.contains(held), "{held} is not in {chart}");
    }
    let told = "Dishes by portions sold and margin in four quadrants: Barley stew 40 at 7, popular, high margin";
    assert!(parts.iter().any(|text| text.contains(told)));
}

/// A dish that is put in another group leaves one group short of it, and lacks in another one: no class stands, no share and no
/// line, till the book is costed again. What was sold of each and its margin stay.
#[test]
fn a_dish_put_in_another_group_is_costed_again() {
    let dishes: Vec<_> = FOUR.into_iter().chain([("Rye crisp", 1, "1.00", "3.00")]).collect();
    let book = plates(&dishes);
    let (before, menu) = book.split_once("Dish,Menu price,Sold\n").unwrap();
    for group in ["Plates", ""] {
        let groups = [group, group, group, group, "Other"];
        let menu: String = menu.lines().zip(groups).map(|(line, group)| format!("{line},{group}\n")).collect();
        let book = format!("{before}Dish,Menu price,Sold,Group\n{menu}");
        let (_, _, written) = costed("book.csv", book.as_bytes());
        assert_recalculates(&written, "mix.xlsx");
        let sheets = Sheets::open(&written);
        says(&sheets, "Egg toast", [20.0, 0.2, 5.0, 100.0], "popular, low margin");
        let toast = row_of(&sheets, "Menu", "Egg toast");
        let header = |column: &&str| sheets.value("Menu", &format!("{column}1")) == Value::Text("Group".to_owned());
        let cell = format!("{}{toast}", ["B", "C", "D", "E", "F", "G"].into_iter().find(header).unwrap());
        let moved = with_changes(&written, &[("Menu", &cell, 7.0)]);
        let says_text = |name: &str, column: &str, text: &str| {
            let found = moved.value(SHEET, &format!("{column}{}", row_of(&moved, SHEET, name)));
            assert_eq!(found, Value::Text(text.to_owned()), "{column} of {name}");
        };
        for dish in ["Egg toast", "Barley stew"] {
            says_text(dish, "B", "cost again");
            says_text(dish, "F", "not known");
            let row = row_of(&moved, SHEET, dish);
            assert_eq!(moved.number(SHEET, &format!("H{row}")), sheets.number(SHEET, &format!("H{row}")), "{dish}");
        }
        for column in ["E", "F", "G", "H"] {
            says_text("All; popular from, high margin from", column, "not known");
        }
    }
}
