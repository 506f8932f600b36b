//! What a page asks, asked of the engine as it stands.

use serde_json::{Value, json};

use crate::Engine;

const KITCHEN: &[u8] = include_bytes!("../../sample-books/teaching-kitchen.xlsx");

/// Asks; the words of the answer and the file behind them.
fn ask(engine: &mut Engine, question: Value, bytes: &[u8]) -> Result<(Value, Vec<u8>), String> {
    let mut asked = question.to_string().into_bytes();
    asked.push(b'\n');
    asked.extend(bytes);
    let answer = engine.ask(&asked);
    let mut parts = answer.splitn(2, |byte| *byte == b'\n');
    let said: Value = serde_json::from_slice(parts.next().unwrap_or_default()).unwrap();
    match said.get("no").and_then(Value::as_str) {
        Some(why) => Err(why.to_owned()),
        None => Ok((said["ok"].clone(), parts.next().unwrap_or_default().to_vec())),
    }
}

fn said(engine: &mut Engine, question: Value) -> Value {
    ask(engine, question, &[]).unwrap().0
}

fn opened() -> (Engine, Value) {
    let mut engine = Engine::default();
    ask(&mut engine, json!({"ask": "file", "name": "teaching-kitchen.xlsx"}), KITCHEN).unwrap();
    let overview = said(&mut engine, json!({"ask": "open", "today": "2026-11-20"}));
    (engine, overview)
}

fn workbook(engine: &mut Engine, of: &str) -> Vec<u8> {
    ask(engine, json!({"ask": "workbook", "of": of, "at": "2026-11-20T09:00:00"}), &[]).unwrap().1
}

#[test]
fn json_is_what_the_command_prints() {
    use parings::{Options, Scenario, Source, cost, output::json::costing, read};
    let (mut engine, overview) = opened();
    let files = [Source { name: "teaching-kitchen.xlsx", bytes: KITCHEN }];
    let reading = read(&files, Options::on(jiff::civil::date(2026, 11, 20))).unwrap();
    let costed = cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
    let wanted = costing(&reading.kitchen, &costed, &reading.problems_with(&costed));
    let (_, all) = ask(&mut engine, json!({"ask": "costs"}), &[]).unwrap();
    assert!(all == wanted.as_bytes(), "the two differ");
    assert_eq!(overview["dishes"].as_array().unwrap().len(), 7);
    assert_eq!(overview["counts"], json!({"error": 0, "warning": 1, "note": 2}));
}

#[test]
fn every_step_of_a_credit_adds_up_to_the_same() {
    let (mut engine, _) = opened();
    let trim = said(&mut engine, json!({"ask": "trim"}));
    let sweeps = trim["sweeps"].as_array().unwrap();
    assert!(!sweeps.is_empty());
    for sweep in sweeps {
        let steps = sweep["steps"].as_array().unwrap();
        assert_eq!(steps.len(), 101);
        assert!(steps.iter().all(|step| step["total"] == steps[0]["total"]), "{}", sweep["by_product"]);
        assert!(steps.iter().all(|step| step["bears"].is_string()));
    }
}

/// A price of the book, by its item's name.
fn knob(knobs: &Value, kind: &str, name: &str) -> (usize, Value) {
    let all = knobs.as_array().unwrap();
    let at = all.iter().position(|knob| knob["kind"] == kind && knob["name"] == name);
    let at = at.unwrap_or_else(|| panic!("no {kind} of {name} among {all:#?}"));
    (at, all[at].clone())
}

#[test]
fn what_is_tried_is_never_in_the_book() {
    let (mut engine, before) = opened();
    let untouched = workbook(&mut engine, "book");
    let knobs = said(&mut engine, json!({"ask": "knobs"}));
    let (at, shrimp) = knob(&knobs, "menu-price", "Chilled shrimp with grapefruit and fennel");
    assert_eq!(shrimp["now"], "16.95");
    let moves = json!([{"knob": at, "value": "20"}]);
    let tried = said(&mut engine, json!({"ask": "try", "moves": moves}));
    let dish = |of: &Value, key: &str| of["dishes"][2][key].as_str().unwrap_or_default().to_owned();
    assert_eq!(dish(&tried, "menu_price"), "20");
    assert_eq!(dish(&tried, "portion_cost"), dish(&before, "portion_cost"));
    let as_tried = workbook(&mut engine, "tried");
    let files = [parings::Source { name: "tried.xlsx", bytes: &as_tried }];
    let read = parings::read(&files, parings::Options::on(jiff::civil::date(2026, 11, 20))).unwrap();
    let sheet = read.carried.iter().find(|sheet| sheet.name == "Tried").unwrap();
    let words: Vec<String> = sheet.cells.iter().map(|(_, _, typed)| typed.seen()).collect();
    let named = "Chilled shrimp with grapefruit and fennel";
    assert_eq!(words[1], format!("Menu price of {named}: 20, in the book 16.95"), "{words:#?}");
    assert_eq!(workbook(&mut engine, "book"), untouched, "the book as opened");
    let again = said(&mut engine, json!({"ask": "try", "moves": []}));
    assert_eq!(dish(&again, "menu_price"), "16.95");
    assert!(ask(&mut engine, json!({"ask": "workbook", "of": "tried", "at": "2026-11-20T09:00:00"}), &[]).is_err());
}

#[test]
fn a_yield_goes_to_the_waste_and_the_test_still_closes() {
    let (mut engine, _) = opened();
    let knobs = said(&mut engine, json!({"ask": "knobs"}));
    let yields = knobs.as_array().unwrap().iter().enumerate();
    let yields: Vec<(usize, &Value)> =
        yields.filter(|(_, knob)| knob["kind"] == "yield" && knob["detail"] != "price list").collect();
    assert!(!yields.is_empty(), "{knobs:#?}");
    for (at, knob) in yields {
        for end in ["low", "high"] {
            let moves = json!([{"knob": at, "value": knob[end]}]);
            let tried = said(&mut engine, json!({"ask": "try", "moves": moves}));
            assert_eq!(tried["stopped"], json!([]), "{knob:#?}");
        }
    }
}

#[test]
fn a_price_moves_its_dishes_in_proportion() {
    let mut engine = Engine::default();
    let book = "Item,Pack,Price\nOnions,50 lb,$25.00\n\nRecipe,Onion broth\nPortions,4\nMenu price,$3.00\nTarget,10%\n\
                Ingredient,Qty,Unit\nOnions,2,lb\n";
    ask(&mut engine, json!({"ask": "file", "name": "broth.csv"}), book.as_bytes()).unwrap();
    let before = said(&mut engine, json!({"ask": "open", "today": "2026-11-20"}));
    // 25 ÷ 50 × 2 ÷ 4 = 0.25 of 3.00, 8.3 %: within 10 %. At 40: 40 ÷ 50 × 2 ÷ 4 = 0.40, 13.3 %: over.
    assert_eq!(before["dishes"][0]["standing"], "within target");
    let knobs = said(&mut engine, json!({"ask": "knobs"}));
    let (at, onions) = knob(&knobs, "price", "Onions");
    assert_eq!([&onions["low"], &onions["now"], &onions["high"], &onions["step"]], ["12.4", "25", "50", "0.2"]);
    let tried = said(&mut engine, json!({"ask": "try", "moves": [{"knob": at, "value": "40"}]}));
    assert_eq!(tried["dishes"][0]["portion_cost"], "0.4");
    assert_eq!(tried["dishes"][0]["standing"], "over target");
    // Beyond its end a knob does not go.
    let tried = said(&mut engine, json!({"ask": "try", "moves": [{"knob": at, "value": "4000"}]}));
    assert_eq!(tried["dishes"][0]["portion_cost"], "0.5");
    // Eight portions from a batch are half as dear each.
    let (at, _) = knob(&knobs, "portion", "Onion broth");
    let tried = said(&mut engine, json!({"ask": "try", "moves": [{"knob": at, "value": "8"}]}));
    assert_eq!(tried["dishes"][0]["portion_cost"], "0.125");
}

#[test]
fn a_list_with_other_headings_is_asked_about_and_then_read() {
    let (mut engine, _) = opened();
    let list = "Was,Wieviel,Netto\nLeeks,20 lb,31.00\nCelery,30 lb,41.00\n";
    ask(&mut engine, json!({"ask": "file", "name": "list.csv", "list": true}), list.as_bytes()).unwrap();
    let asked = said(&mut engine, json!({"ask": "reprice"}));
    assert_eq!(asked["headings"], json!(["Was", "Wieviel", "Netto"]));
    assert!(asked["why"].as_str().unwrap().contains("Which heading is which"), "{asked:#?}");
    let columns = json!([["Item", "Was"], ["Pack", "Wieviel"], ["Price", "Netto"]]);
    let read = said(&mut engine, json!({"ask": "reprice", "columns": columns}));
    assert!(read["headings"].is_null(), "{read:#?}");
}

#[test]
fn a_list_that_was_understood_says_as_what_and_is_read_otherwise() {
    let mut engine = Engine::default();
    let book =
        "Item,Pack,Price\nOnions,50 lb,$25.00\n\nRecipe,Onion broth\nPortions,4\nIngredient,Qty,Unit\nOnions,2,lb\n";
    ask(&mut engine, json!({"ask": "file", "name": "broth.csv"}), book.as_bytes()).unwrap();
    said(&mut engine, json!({"ask": "open", "today": "2026-11-20"}));
    let list = "Item,Pack,Price,Netto\nOnions,50 lb,30.00,27.50\n";
    ask(&mut engine, json!({"ask": "file", "name": "list.csv", "list": true}), list.as_bytes()).unwrap();
    let read = said(&mut engine, json!({"ask": "reprice"}));
    assert_eq!(read["columns"]["headings"], json!(["Item", "Pack", "Price", "Netto"]));
    assert_eq!(read["columns"]["read"], json!([["Item", "Item"], ["Pack", "Pack"], ["Price", "Price"]]));
    // 30.00 ÷ 25.00 is a fifth more, 27.50 ÷ 25.00 a tenth.
    assert_eq!(read["taken"][0]["change_percent"], "20");
    let again = said(&mut engine, json!({"ask": "reprice", "columns": [["Price", "Netto"]]}));
    assert_eq!(again["columns"]["read"], json!([["Item", "Item"], ["Pack", "Pack"], ["Price", "Netto"]]));
    assert_eq!(again["taken"][0]["change_percent"], "10");
}

#[test]
fn new_prices_are_taken_and_written() {
    let (mut engine, _) = opened();
    let list = include_bytes!("../../sample-books/teaching-kitchen-fernhollow.csv");
    ask(&mut engine, json!({"ask": "file", "name": "fernhollow.csv", "list": true}), list).unwrap();
    let read = said(&mut engine, json!({"ask": "reprice"}));
    assert!(!read["taken"].as_array().unwrap().is_empty(), "{read:#?}");
    assert!(workbook(&mut engine, "repriced").starts_with(b"PK"));
    let (about, file) = ask(&mut engine, json!({"ask": "new-book", "at": "2026-11-20T09:00:00"}), &[]).unwrap();
    assert!(file.starts_with(b"PK") && about["ending"] == "xlsx", "{about:#?}");
}

#[test]
fn a_credit_that_is_tried_is_that_of_the_sweep() {
    let (mut engine, _) = opened();
    let knobs = said(&mut engine, json!({"ask": "knobs"}));
    let (at, shells) = knob(&knobs, "credit", "Shrimp shells");
    assert_eq!([&shells["now"], &shells["low"], &shells["high"]], ["20", "0", "100"]);
    let tried = said(&mut engine, json!({"ask": "try", "moves": [{"knob": at, "value": "70"}]}));
    // Two ways to one figure: the cells typed over and read again, and the sweep over the costing as it stands.
    let trim = said(&mut engine, json!({"ask": "trim"}));
    let swept = &trim["sweeps"]
        .as_array()
        .unwrap()
        .iter()
        .find(|sweep| sweep["by_product"] == "Shrimp shells")
        .unwrap()["steps"][70];
    assert_eq!(swept["charged_percent"], "70");
    let dishes = swept["dishes"].as_array().unwrap();
    assert!(dishes.len() > 2, "{swept:#?}");
    for dish in dishes {
        let of = tried["dishes"].as_array().unwrap().iter().find(|one| one["name"] == dish["name"]).unwrap();
        assert_eq!(of["portion_cost"], dish["portion_cost"], "{}", dish["name"]);
    }
}

#[test]
fn warming_up_leaves_nothing_open() {
    let mut engine = Engine::default();
    assert_eq!(said(&mut engine, json!({"ask": "warm", "at": "2026-11-20T09:00:00"})), Value::Null);
    assert_eq!(ask(&mut engine, json!({"ask": "trim"}), &[]).unwrap_err(), "No book is open.");
}

#[test]
fn what_cannot_be_done_is_said() {
    let mut engine = Engine::default();
    assert_eq!(ask(&mut engine, json!({"ask": "trim"}), &[]).unwrap_err(), "No book is open.");
    assert!(ask(&mut engine, json!({"ask": "dance"}), &[]).is_err());
    ask(&mut engine, json!({"ask": "file", "name": "notes.csv"}), b"milk\neggs\n").unwrap();
    let why = ask(&mut engine, json!({"ask": "open", "today": "2026-11-20"}), &[]).unwrap_err();
    assert!(why.starts_with("No table that parings knows"), "{why}");
    let (mut engine, _) = opened();
    assert!(ask(&mut engine, json!({"ask": "card", "recipe": 999}), &[]).is_err());
    let card = said(&mut engine, json!({"ask": "card", "recipe": 0}));
    assert!(card["recipe"]["lines"].as_array().is_some_and(|lines| !lines.is_empty()), "{card:#?}");
}

/// What is said of files that are opened together.
fn together(files: &[(&str, &[u8])]) -> Result<Value, String> {
    let mut engine = Engine::default();
    for (name, bytes) in files {
        ask(&mut engine, json!({"ask": "file", "name": name}), bytes)?;
    }
    Ok(ask(&mut engine, json!({"ask": "open", "today": "2026-11-20"}), &[])?.0)
}

#[test]
fn two_whole_books_are_told_in_one_sentence() {
    const METRIC: &[u8] = include_bytes!("../../sample-books/metric-kitchen.xlsx");
    const PRICES: &[u8] = include_bytes!("../../sample-books/metric-kitchen-prices.csv");
    let why = together(&[("old.xlsx", KITCHEN), ("new.xlsx", KITCHEN)]).unwrap_err();
    assert!(why.starts_with("new.xlsx and old.xlsx are two books, for both hold the same recipes, such as “"), "{why}");
    let why = together(&[("teaching.xlsx", KITCHEN), ("metric.xlsx", METRIC)]).unwrap_err();
    assert!(why.starts_with("teaching.xlsx and metric.xlsx are two books, for both have different settings:"), "{why}");
    let parts = together(&[("metric.xlsx", METRIC), ("prices.csv", PRICES)]).unwrap();
    assert_eq!(parts["counts"]["error"], 0);
}

#[test]
fn one_recipe_that_stands_in_two_files_is_a_slip() {
    let file = |name: &str| {
        format!("Item,Pack,Price\n{name},50 lb,25\n\nRecipe,Item,Qty,Unit\nSoup,{name},2,lb\n{name} stew,{name},2,lb\n")
    };
    let (one, other) = (file("Onions"), file("Carrots"));
    let overview = together(&[("one.csv", one.as_bytes()), ("other.csv", other.as_bytes())]).unwrap();
    assert!(overview["problems"].as_array().unwrap().iter().any(|problem| problem["code"] == "recipe-twice"));
}
