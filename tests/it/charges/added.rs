//! What is added to what went in: it costs as purchased, and what was taken up of it is told as that, not as a loss below zero.

use parings::schema::Column;

use super::{book, cell_of, costed, problems};
use crate::recalc::{Sheets, Value, assert_recalculates, with_changes};
use crate::support::{dec, no_errors, part, rounded, test};
use crate::workbook::costed as written;

/// 2 lb of rice at 0.80 take up most of 4 lb of water; salt at 0.50 a pound. Prawns are peeled beside it.
const RICE: &str = "Item,Pack,Price,Yield\nRice,10 lb,8.00,\nSalt,1 lb,0.50,\nPrawns,10 lb,60.00,\n\n\
    Test,Role,Part,Weight,Kind\n\
    Boiling,as purchased,Rice,2 lb,cooking\nBoiling,added,Water,4 lb,\n\
    Boiling,main,Boiled rice,5.5 lb,\n\
    Peeling,as purchased,Prawns,10 lb,\nPeeling,main,Tails,5 lb,\nPeeling,by-product,Shells,2 lb,\n";

#[test]
fn water_taken_up_is_a_weight_of_its_own() {
    let json = costed(RICE);
    no_errors(&json);
    let boiling = test(&json, "Boiling");
    // 2 + 4 − 5.5 = 0.5 lb are lost, and 5.5 − 2 = 3.5 lb of the water taken up; 1 lb is 453.59237 g.
    assert_eq!(dec(&boiling["loss_g"]), "226.796185".parse().unwrap());
    assert_eq!(dec(&boiling["taken_up_g"]), "1587.573295".parse().unwrap());
    assert_eq!(
        (&boiling["cost"], &part(&json, "Boiling", "Boiled rice")["yield_percent"]),
        (&"1.6".into(), &"275".into())
    );
    assert_eq!(test(&json, "Peeling")["taken_up_g"], "0");
    // What loses weight in the water takes none up: 2 + 4 − 1.5 = 4.5 lb lost.
    let json = costed(&RICE.replace("5.5 lb", "1.5 lb"));
    assert_eq!(test(&json, "Boiling")["taken_up_g"], "0");
    assert_eq!(dec(&test(&json, "Boiling")["loss_g"]), "2041.165665".parse().unwrap());
    // A scale that is off by 0.3 % took nothing up: nothing was added. 10 − 10.03 lb.
    let json = costed(&RICE.replace("Tails,5 lb", "Tails,8.03 lb"));
    assert_eq!(
        (&test(&json, "Peeling")["taken_up_g"], problems(&json)),
        (&"0".into(), vec!["D14 note parts-slightly-over".into()])
    );
    assert_eq!(dec(&test(&json, "Peeling")["loss_g"]), "-13.6077711".parse().unwrap());
    // With water, no more than was added: 6.01 lb came out of 6, half a percent of the rice more; 4 lb of water were there.
    let json = costed(&RICE.replace("5.5 lb", "6.01 lb"));
    assert_eq!(dec(&test(&json, "Boiling")["taken_up_g"]), "1814.36948".parse().unwrap());
}

#[test]
fn the_terminal_says_water_taken_up_and_no_bar_is_longer_than_all_that_went_in() {
    let out = trim(RICE);
    let row = |name: &str| {
        let line = out.lines().find(|line| line.starts_with(name)).unwrap_or_else(|| panic!("no {name} in {out}"));
        let marks = line.chars().filter(|c| *c == '█').count();
        let words: Vec<&str> = line[name.len()..].split_whitespace().take(2).collect();
        (words.join(" "), marks)
    };
    // Of 6 lb, 5.5 are 22 of 24 marks and half a pound is 2; by weight in, 275 %, 25 % and 175 %.
    assert_eq!(row("Boiled rice (main)"), ("5.50 275.0".to_owned(), 22));
    assert_eq!(row("Cooking loss"), ("0.50 25.0".to_owned(), 2));
    assert_eq!(row("Water taken up"), ("3.50 175.0".to_owned(), 0));
    assert!(out.contains("with 4.00 lb of Water added"), "{out}");
    assert!(!out.contains("-0."), "{out}");
    // A scale that is off is told as that: 0.03 lb more, 0.3 %.
    let out = trim(&RICE.replace("Tails,5 lb", "Tails,8.03 lb"));
    assert!(
        out.lines().any(|line| line.starts_with("More than went in") && line.contains("0.03") && line.contains("0.3")),
        "{out}"
    );
}

fn trim(tables: &str) -> String {
    use crate::cli::Folder;
    let folder = Folder::with("book.csv", book(tables));
    folder.run(&["trim", "book.csv"]).ends(0).out
}

#[test]
fn the_sheets_say_water_taken_up_and_every_bar_is_as_long() {
    let (_, _, bytes) = written("book.csv", book(RICE).as_bytes());
    assert_recalculates(&bytes, "water taken up");
    let sheets = Sheets::open(&bytes);
    let rows = labelled(&sheets);
    let of =
        |label: &str| rows.iter().find(|(name, _)| name == label).unwrap_or_else(|| panic!("no {label}: {rows:?}")).1;
    assert_eq!(number(&sheets, "C", of("Water")), 4.0);
    assert_eq!((number(&sheets, "C", of("Water taken up")), number(&sheets, "E", of("Water taken up"))), (3.5, 1.75));
    assert_eq!((number(&sheets, "C", of("Cooking loss")), number(&sheets, "E", of("Cooking loss"))), (0.5, 0.25));
    // The picture: 5.5 and 0.5 of 6 lb; 5, 2 and 3 of 10 lb. One each.
    for (bar, sum) in bars(&sheets) {
        assert!((sum - 1.0).abs() < 1e-11, "{bar}: {sum}");
    }
    // Less came out than the rice weighed: nothing taken up, and 4.5 lb lost.
    let sheets = with_changes(&bytes, &[("Yield tests", &cell_of(&bytes, "Boiled rice", Column::Weight), 1.5)]);
    assert_eq!(number(&sheets, "C", of("Water taken up")), 0.0);
    assert_eq!(number(&sheets, "C", of("Cooking loss")), 4.5);
    assert_eq!(sheets.errors(), Vec::<String>::new());
}

#[test]
fn the_sheet_says_when_more_came_out_than_went_in() {
    let (_, _, bytes) = written("book.csv", book(&RICE.replace("Tails,5 lb", "Tails,8.03 lb")).as_bytes());
    assert_recalculates(&bytes, "a scale that is off");
    let sheets = Sheets::open(&bytes);
    let rows = labelled(&sheets);
    let (_, row) = rows.iter().find(|(name, _)| name == "More than went in").unwrap_or_else(|| panic!("{rows:?}"));
    assert_eq!(number(&sheets, "C", *row), 0.03);
    for (bar, sum) in bars(&sheets) {
        assert!((0.99..1.01).contains(&sum), "{bar}: {sum}");
    }
}

/// The rows of the Trim sheet by what stands in the first column, the first of each.
fn labelled(sheets: &Sheets) -> Vec<(String, u32)> {
    let rows = (1..=120).filter_map(|row| match sheets.value("Trim", &format!("A{row}")) {
        Value::Text(text) => Some((text, row)),
        _ => None,
    });
    rows.collect()
}

/// A figure of the Trim sheet to twelve decimals.
fn number(sheets: &Sheets, column: &str, row: u32) -> f64 {
    (sheets.number("Trim", &format!("{column}{row}")) * 1e12).round() / 1e12
}

/// The sums of the bars of the picture, by the test's name.
fn bars(sheets: &Sheets) -> Vec<(String, f64)> {
    let rows = labelled(sheets);
    let (_, head) = rows.iter().find(|(name, _)| name == "The picture's figures").unwrap();
    let tests = rows.iter().filter(|(_, row)| (*head + 1..=*head + 2).contains(row));
    let bars: Vec<(String, f64)> = tests
        .map(|(name, row)| (name.clone(), ["B", "C", "D", "E", "F"].iter().map(|c| number(sheets, c, *row)).sum()))
        .collect();
    assert_eq!(bars.len(), 2, "{rows:?}");
    bars
}

#[test]
fn what_is_added_costs_as_purchased_whatever_its_yield() {
    // A pound of butter at 4.00 goes in as bought: its yield of 80 % is for those who clarify it. 10 × 3.00 + 4.00 = 34.00;
    // loss 10 + 1 − 8 = 3 lb, and the yield is of what was purchased alone: 8 of 10.
    let tables = "Item,Pack,Price,Yield\nCod,10 lb,30.00,\nButter,1 lb,4.00,80%\n\nTest,Role,Part,Weight,Kind\n\
                  Baking,as purchased,Cod,10 lb,cooking\nBaking,added,Butter,1 lb,\nBaking,main,Baked cod,8 lb,\n";
    let json = costed(tables);
    no_errors(&json);
    assert_eq!(test(&json, "Baking")["cost"], "34");
    assert_eq!(part(&json, "Baking", "Baked cod")["yield_percent"], "80");
    assert_eq!(dec(&test(&json, "Baking")["loss_g"]), "1360.77711".parse().unwrap());
    // Cost factor: (34 ÷ 8) ÷ 3.00, by what was purchased alone.
    assert_eq!(rounded(&part(&json, "Baking", "Baked cod")["cost_factor"], 10), "1.4166666667".parse().unwrap());
    let (_, _, bytes) = written("book.csv", book(tables).as_bytes());
    assert_recalculates(&bytes, "added as purchased");
    let sheets = Sheets::open(&bytes);
    let cells: Vec<Value> = ('A'..='Z').map(|column| sheets.value("Yield tests", &format!("{column}3"))).collect();
    assert!(cells.contains(&Value::Text("costs as purchased".to_owned())), "{cells:?}");
}

#[test]
fn pieces_that_are_added_cost_by_the_piece() {
    // Four eggs of 24 at 6.00 are 1.00, whatever they weigh: 30.00 and 1.00.
    let tables = "Item,Pack,Price\nCod,10 lb,30.00\nEggs,24 each,6.00\n\nTest,Role,Part,Weight\n\
                  Baking,as purchased,Cod,10 lb\nBaking,added,Eggs,\"4 each, 0.5 lb\"\nBaking,main,Cod loaf,9 lb\n\n\
                  Recipe,Plate\nPortions,9\nMenu price,9.00\nIngredient,Qty,Unit\nCod loaf,9,lb\n";
    let json = costed(tables);
    no_errors(&json);
    assert_eq!(test(&json, "Baking")["cost"], "31");
    let (_, _, bytes) = written("book.csv", book(tables).as_bytes());
    assert_recalculates(&bytes, "added pieces");
    // A case at 12.00: two dollars for the eggs, and so on the sheet. Without a count the weight alone does not price them.
    assert_eq!(test(&costed(&tables.replace("24 each,6.00", "24 each,12.00")), "Baking")["cost"], "32");
    let json = costed(&tables.replace("\"4 each, 0.5 lb\"", "0.5 lb"));
    assert_eq!(problems(&json), ["C11 error measure-missing"]);
}
