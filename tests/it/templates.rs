//! The templates: committed as their program makes them, read without a word of blame, costed to what was worked by
//! hand, and ready to be filled in.

use std::io::{Cursor, Read, Write};

use calamine::{Reader, Xlsx};
use parings::Reading;
use parings::measure::Unit;
use parings::problem::{Code, Severity};
use serde_json::Value;

use crate::cli::Folder;
use crate::follow::every_cell_follows;
use crate::recalc::assert_recalculates;
use crate::support::{cost_bytes, dish, json_of, no_errors, part, recipe, rounded};
use crate::workbook::costed;
use crate::written::same_when_written;

#[path = "../../templates/make.rs"]
mod make;

/// The committed file.
fn template(file: &str) -> Vec<u8> {
    std::fs::read(format!("{}/templates/{file}", env!("CARGO_MANIFEST_DIR"))).unwrap()
}

/// The two with an example.
const WITH_EXAMPLE: [&str; 2] = ["us.xlsx", "metric.xlsx"];

#[test]
fn the_committed_templates_are_what_their_program_makes() {
    for (file, make) in make::TEMPLATES {
        assert!(template(file) == make().unwrap(), "run `cargo run --example make-templates`: {file} differs");
    }
}

fn codes(reading: &Reading, costing: &parings::Costing) -> Vec<Code> {
    let problems = reading.problems_with(costing);
    assert!(problems.iter().all(|problem| problem.severity() == Severity::Note), "{problems:#?}");
    problems.iter().map(|problem| problem.code).collect()
}

#[test]
fn every_template_is_read_without_a_note() {
    for (file, _) in make::TEMPLATES {
        let (reading, costing) = cost_bytes(&[(file, &template(file))]);
        // The guide is known for what it is, and so are the words that the bench form prints to write beside.
        assert_eq!(codes(&reading, &costing), [], "{file}");
        assert_eq!(costing.dishes.iter().filter(|dish| dish.is_none()).count(), 0, "{file}");
        let empty = !WITH_EXAMPLE.contains(file);
        assert_eq!(reading.kitchen.items.is_empty() && reading.kitchen.dishes.is_empty(), empty, "{file}");
    }
}

fn costs(file: &str) -> Value {
    let (reading, costing) = cost_bytes(&[(file, &template(file))]);
    json_of(&reading, &costing)
}

#[track_caller]
fn comes_to(figure: &Value, expected: &str) {
    assert_eq!(rounded(figure, 8).normalize().to_string(), expected);
}

/// - Turkey: 32 lb × 1.50 = 48.00. Bones: 20 % of 1.50 = 0.30 × 8 lb = 2.40. The mains share 45.60 by sales value, 12 × 6
///   = 72 to 8 × 3 = 24: breast 45.60 × 72 ÷ 96 = 34.20, 2.85 a pound; leg meat 11.40, 1.425 a pound.
/// - Onions 30 ÷ 50 ÷ 80 % = 0.75, carrots 16 ÷ 25 ÷ 80 % = 0.80, rice 20 ÷ 25 = 0.80, butter 158.40 ÷ 36 = 4.40 a pound.
/// - Stock: 2.40 + 0.75 = 3.15 for 9 qt, 0.35 a quart.
/// - Soup: stock 8 × 0.35 = 2.80, leg meat 4 × 1.425 = 5.70, carrots 8 cups × 4.5 oz = 2.25 lb 1.80, onions 1.50, rice
///   1.20, butter ½ lb 2.20: 15.20. Portions: 10 qt = 320 fl oz, less 5 %, ÷ 10 = 30.4. 0.50, and 4 % Q: 0.52; a cup of 6
///   of its 10 fl oz 0.312. At 30 %: 1.733…, up to 1.95; 1.04, up to 1.95.
/// - Breast: 5 × 2.85 = 14.25, carrots 1.60, butter ¼ lb 1.10, stock 0.35: 17.30 ÷ 10 = 1.73, and 4 % Q: 1.7992; at 30 %
///   5.997…, up to 6.95.
#[test]
fn the_us_example_costs_what_was_worked_by_hand() {
    let json = costs("us.xlsx");
    for (name, cost) in [("Turkey breast", "34.2"), ("Turkey leg meat", "11.4"), ("Turkey bones", "2.4")] {
        comes_to(&part(&json, "Boning turkey", name)["cost"], cost);
    }
    for (name, food) in
        [("Turkey stock", "3.15"), ("Turkey and rice soup", "15.2"), ("Turkey breast with carrots", "17.3")]
    {
        comes_to(&recipe(&json, name)["food_cost"], food);
    }
    for (name, cost, at_target) in [
        ("Turkey and rice soup, bowl", "0.52", "1.95"),
        ("Turkey and rice soup, cup", "0.312", "1.95"),
        ("Turkey breast with carrots", "1.7992", "6.95"),
    ] {
        comes_to(&dish(&json, name)["portion_cost"], cost);
        comes_to(&dish(&json, name)["price_at_target"], at_target);
    }
}

/// - Cod: 10 kg × 9.00 = 90.00. Frames 3 kg × 0.90 = 2.70; fillet 87.30 ÷ 4.5 = 19.40 a kilo.
/// - Leeks: 10 ÷ 5 = 2.00 a kilo as it comes, one of 300 g 0.60. Potatoes 8 ÷ 10 ÷ 80 % = 1.00, cream 27 ÷ 6 = 4.50 a
///   litre, butter 40 ÷ 5 kg = 8.00.
/// - Stock: 2.70 + 2 × 0.60 = 3.90 for 3 l, 1.30 a litre.
/// - Soup: stock 3.90, potatoes 1.50, fillet 0.6 × 19.40 = 11.64, leeks 2.40, cream 2.25, butter 1.20: 22.89. Portions: 5 l
///   less 4 %, ÷ 250 ml = 19.2. 1.1921875; a small one of 150 ml 0.7153125. At 30 %: 3.9739… net, × 1.10 = 4.371…, up to
///   4.50; 2.384375 net, 2.6228…, up to 3.00.
/// - Cod with leeks: 1.2 × 19.40 = 23.28, leeks 4.80, cream 0.90, butter 0.80: 29.78 ÷ 8 = 3.7225. 12.408… net, 13.649…,
///   up to 14.00.
#[test]
fn the_metric_example_costs_what_was_worked_by_hand() {
    let json = costs("metric.xlsx");
    comes_to(&part(&json, "Filleting cod", "Cod fillet")["cost"], "87.3");
    comes_to(&part(&json, "Filleting cod", "Cod frames")["cost"], "2.7");
    for (name, food) in [("Fish stock", "3.9"), ("Cod and potato soup", "22.89"), ("Cod with leeks", "29.78")] {
        comes_to(&recipe(&json, name)["food_cost"], food);
    }
    for (name, cost, at_target) in [
        ("Cod and potato soup", "1.1921875", "4.5"),
        ("Cod and potato soup, small", "0.7153125", "3"),
        ("Cod with leeks", "3.7225", "14"),
    ] {
        comes_to(&dish(&json, name)["portion_cost"], cost);
        comes_to(&dish(&json, name)["price_at_target"], at_target);
    }
}

#[test]
fn the_costed_examples_recalculate_follow_and_come_round() {
    for file in WITH_EXAMPLE {
        let once = costed(file, &template(file)).2;
        assert_recalculates(&once, file);
        let twice = costed(&format!("{file}.costed.xlsx"), &once).2;
        assert!(once == twice, "{file}: costing its costed workbook gives another book");
        every_cell_follows(&once, 30);
    }
}

/// The templates without an example can be costed as they are, and again.
#[test]
fn an_empty_template_costs_to_an_empty_book() {
    for file in ["us-plain.xlsx", "metric-plain.xlsx", "us-bench.xlsx", "metric-bench.xlsx"] {
        let once = costed(file, &template(file)).2;
        let twice = costed(&format!("{file}.costed.xlsx"), &once).2;
        assert!(once == twice, "{file}");
    }
}

#[test]
fn every_template_is_the_same_book_when_written() {
    for (file, _) in make::TEMPLATES {
        same_when_written(&[(file, &template(file))]).unwrap_or_else(|error| panic!("{file}: {error}"));
    }
}

/// What a cook types into an empty cell.
pub enum Typed {
    Words(&'static str),
    Number(&'static str),
}

use Typed::{Number, Words};

/// The workbook with something typed into empty cells, as a spreadsheet program would save it.
pub fn filled(workbook: &[u8], sheet: &str, cells: &[(&str, Typed)]) -> Vec<u8> {
    let names = Xlsx::<_>::new(Cursor::new(workbook)).unwrap().sheet_names();
    let number = names.iter().position(|name| name == sheet).unwrap() + 1;
    let part = format!("xl/worksheets/sheet{number}.xml");
    let mut old = zip::ZipArchive::new(Cursor::new(workbook)).unwrap();
    let mut new = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for at in 0..old.len() {
        let mut entry = old.by_index(at).unwrap();
        let name = entry.name().unwrap().into_owned();
        let mut content = Vec::new();
        entry.read_to_end(&mut content).unwrap();
        if name == part {
            let mut xml = String::from_utf8(content).unwrap();
            for (cell, typed) in cells {
                let start = xml.find(&format!("<c r=\"{cell}\"")).unwrap_or_else(|| panic!("no {sheet}!{cell}"));
                let end = start + xml[start..].find("/>").unwrap();
                let open = xml[start..end].to_owned();
                assert!(!open.contains('>'), "{sheet}!{cell} is not empty: {open}");
                let content = match typed {
                    Words(text) => format!("{open} t=\"inlineStr\"><is><t>{text}</t></is></c>"),
                    Number(number) => format!("{open}><v>{number}</v></c>"),
                };
                xml.replace_range(start..end + 2, &content);
            }
            content = xml.into_bytes();
        }
        new.start_file(name, zip::write::SimpleFileOptions::default()).unwrap();
        new.write_all(&content).unwrap();
    }
    new.finish().unwrap().into_inner()
}

/// Chicken: 40 lb × 1.50 = 60.00; bones 10 × 0.30 = 3.00, meat 57.00 ÷ 20 = 2.85 a pound. Barley 20 ÷ 25 = 0.80.
/// Broth: bones 3.00, meat 2 × 2.85 = 5.70, barley 1½ × 0.80 = 1.20: 9.90. 8 qt ÷ 8 fl oz = 32 portions of 0.309375; at
/// 30 % 1.03125.
#[test]
fn a_plain_template_that_a_cook_fills_in_costs_what_was_worked_by_hand() {
    let book = filled(
        &template("us-plain.xlsx"),
        "Prices",
        &[
            ("A5", Words("Whole chicken")),
            ("C5", Words("40 lb avg")),
            ("D5", Number("1.5")),
            ("E5", Words("lb")),
            ("F5", Number("46335")),
            ("J5", Words("none")),
            ("A6", Words("Barley")),
            ("C6", Words("25 lb")),
            ("D6", Number("20")),
            ("J6", Words("barley")),
        ],
    );
    let book = filled(
        &book,
        "Yield tests",
        &[
            ("A5", Words("Chicken, boned")),
            ("B5", Words("as purchased")),
            ("C5", Words("Whole chicken")),
            ("D5", Words("40 lb")),
            ("A6", Words("Chicken, boned")),
            ("B6", Words("main")),
            ("C6", Words("Chicken meat")),
            ("D6", Number("20")),
            ("E6", Words("lb")),
            ("A7", Words("Chicken, boned")),
            ("B7", Words("by-product")),
            ("C7", Words("Chicken bones")),
            ("D7", Words("10")),
            ("E7", Words("lb")),
            ("G7", Words("price")),
            ("H7", Number("0.3")),
        ],
    );
    let book = filled(
        &book,
        "Recipe card",
        &[
            ("B4", Words("Chicken broth")),
            ("B6", Words("8 qt")),
            ("B7", Words("8 fl oz")),
            ("A18", Words("Chicken bones")),
            ("B18", Number("10")),
            ("C18", Words("lb")),
            ("A19", Words("Chicken meat")),
            ("B19", Words("2")),
            ("C19", Words("lb")),
            ("A20", Words("Barley")),
            ("B20", Words("1 1/2")),
            ("C20", Words("lb")),
        ],
    );
    let book = filled(&book, "Menu", &[("A5", Words("Chicken broth")), ("D5", Number("4"))]);
    let book = filled(&book, "Settings", &[("B8", Number("0.3"))]);
    let (reading, costing) = cost_bytes(&[("kitchen.xlsx", &book)]);
    assert_eq!(codes(&reading, &costing), []);
    let json = json_of(&reading, &costing);
    comes_to(&recipe(&json, "Chicken broth")["food_cost"], "9.9");
    let broth = dish(&json, "Chicken broth");
    comes_to(&broth["portion_cost"], "0.309375");
    comes_to(&broth["price_at_target"], "1.03125");
    assert_recalculates(&costed("kitchen.xlsx", &book).2, "kitchen.costed.xlsx");
}

/// A cook names a built-in food in the column that the messages speak of. SR28 11282 Onions: 1 cup, chopped = 160 g, 10 %
/// refuse. Two cups of onions at 9.00 for 1600 g: 320 × 9 ÷ 1600 ÷ 0.9 = 2.
#[test]
fn a_reference_food_has_its_column() {
    for file in ["us-plain.xlsx", "metric-plain.xlsx"] {
        let (item, reference) = (("A5", Words("White onions")), ("M5", Words("onion, yellow")));
        let book = filled(&template(file), "Prices", &[item, ("C5", Words("1600 g")), ("D5", Number("9")), reference]);
        let card = [("B4", Words("Onion dish")), ("B6", Words("1 l")), ("A18", Words("White onions"))];
        let line = [("B18", Words("2")), ("C18", Words("US cup")), ("D18", Words("chopped"))];
        let book = filled(&filled(&book, "Recipe card", &card), "Recipe card", &line);
        let (reading, costing) = cost_bytes(&[("kitchen.xlsx", &book)]);
        let json = json_of(&reading, &costing);
        no_errors(&json);
        comes_to(&recipe(&json, "Onion dish")["food_cost"], "2");
    }
    for region in [make::region::Region::Us, make::region::Region::Metric] {
        let columns = make::columns::prices(region);
        let names: Vec<&str> = columns.iter().map(|column| column.name).collect();
        assert!(names.ends_with(&["Reference food", "Note"]), "{names:?}");
    }
}

/// The form typed into by an independent spreadsheet engine, which fills in name, role and date, and read beside prices.
/// Duck: 30 lb × 4.00 = 120.00; frames 25 % of 4.00 = 1.00 × 9 lb = 9.00; breast 111.00 for 12 lb.
#[test]
fn a_bench_form_that_is_filled_in_is_a_yield_test() {
    let bytes = template("us-bench.xlsx");
    let workbook = ironcalc::import::load_from_xlsx_bytes(&bytes, "form", "en", "UTC").unwrap();
    let mut model = ironcalc::base::Model::from_workbook(workbook, "en").unwrap();
    for (row, column, text) in [
        (4, 2, "Ducks, boned"),
        (5, 2, "2026-11-18"),
        (9, 1, "Whole duck"),
        (9, 3, "30"),
        (9, 4, "lb"),
        (11, 1, "Duck breast"),
        (11, 3, "12"),
        (11, 4, "lb"),
        (15, 1, "Duck frames"),
        (15, 3, "9 lb"),
        (15, 6, "fraction"),
        (15, 7, "25%"),
        (15, 8, "kept for the stock"),
        (21, 1, "Skin"),
        (21, 3, "4"),
        (21, 4, "lb"),
    ] {
        model.set_user_input(0, row, column, text.to_owned()).unwrap();
    }
    model.evaluate();
    let saved = ironcalc::export::save_xlsx_to_writer(&model, Cursor::new(Vec::new())).unwrap().into_inner();
    let prices = b"Item,Pack,Price,Per\nWhole duck,30 lb avg,$4.00,lb\n";
    let (reading, costing) = cost_bytes(&[("form.xlsx", &saved), ("prices.csv", prices)]);
    let json = json_of(&reading, &costing);
    no_errors(&json);
    assert_eq!(codes(&reading, &costing), []);
    assert_eq!(reading.kitchen.entries.tests.len(), 4);
    assert!(reading.kitchen.entries.tests.iter().all(|row| row.date.given().is_some()));
    comes_to(&part(&json, "Ducks, boned", "Duck frames")["cost"], "9");
    comes_to(&part(&json, "Ducks, boned", "Duck breast")["cost"], "111");
}

/// Lists of what was typed elsewhere begin right below the header that they are of, on the sheet that they name.
#[test]
fn lists_of_what_was_typed_are_where_it_is_typed() {
    // Prices choose items, the plan chooses dishes.
    for (cells, header) in [(make::columns::ITEMS, "Item"), (make::columns::DISHES, "Dish")] {
        let (sheet, range) = cells.trim_start_matches('=').split_once('!').unwrap();
        let first: u32 = range.split(':').next().unwrap().trim_start_matches("$A$").parse().unwrap();
        for (file, _) in make::TEMPLATES.iter().filter(|(file, _)| !file.contains("bench")) {
            let mut book = Xlsx::<_>::new(Cursor::new(template(file))).unwrap();
            let found = book.worksheet_range(sheet).unwrap();
            assert_eq!(found.get_value((first - 2, 0)).unwrap().to_string(), header, "{file}");
            let mut archive = zip::ZipArchive::new(Cursor::new(template(file))).unwrap();
            let mut lists = 0;
            for at in 0..archive.len() {
                let mut xml = String::new();
                let mut entry = archive.by_index(at).unwrap();
                if entry.name().unwrap().starts_with("xl/worksheets/sheet") {
                    entry.read_to_string(&mut xml).unwrap();
                    lists += xml.matches(&format!("<formula1>{sheet}!{range}</formula1>")).count();
                }
            }
            assert_eq!(lists, 1, "{file}");
        }
    }
}

/// An independent spreadsheet engine fills in a template, and the names that the lists offer are what was typed, each once.
#[test]
fn the_names_to_choose_from_fill_themselves_in() {
    for (file, sheets) in [("us-plain.xlsx", 14), ("metric-plain.xlsx", 14)] {
        let workbook = ironcalc::import::load_from_xlsx_bytes(&template(file), "book", "en", "UTC").unwrap();
        let names = workbook.get_worksheet_names();
        assert_eq!(names.len(), sheets, "{names:?}");
        let sheet = |name: &str| u32::try_from(names.iter().position(|known| known == name).unwrap()).unwrap();
        let (prices, tests, menu) = (sheet("Prices"), sheet("Yield tests"), sheet("Menu"));
        let choices = sheet(make::choices::SHEET);
        let mut model = ironcalc::base::Model::from_workbook(workbook, "en").unwrap();
        for (sheet, row, column, text) in [
            (prices, 5, 1, "Onions"),
            (prices, 6, 1, "Onions"),
            (prices, 8, 1, "Whole duck"),
            (tests, 5, 3, "Whole duck"),
            (tests, 6, 3, "Duck breast"),
            (choices, 5, 3, "Duck stock"),
            (menu, 5, 1, "Duck soup"),
            (menu, 6, 1, "Soup, cup"),
            (menu, 6, 2, "Duck soup"),
        ] {
            model.set_user_input(sheet, row, column, text.to_owned()).unwrap();
        }
        model.evaluate();
        let column = |column| {
            let texts = (5..20).map(|row| model.get_formatted_cell_value(choices, row, column).unwrap());
            texts.filter(|text| !text.is_empty()).collect::<Vec<String>>()
        };
        assert_eq!(column(1), ["Onions", "Whole duck", "Duck breast", "Duck stock", "Duck soup"], "{file}");
        assert_eq!(column(2), ["Duck stock", "Duck soup"], "{file}");
        let (reading, _) = cost_bytes(&[(file, &{
            ironcalc::export::save_xlsx_to_writer(&model, Cursor::new(Vec::new())).unwrap().into_inner()
        })]);
        // They are not read, nor carried along.
        assert!(reading.carried.iter().all(|sheet| sheet.name == "Start here"), "{:?}", reading.carried.len());
    }
    // Measures, yield tests, card, stock, names and counts choose from everything; menu and card from recipes.
    let mut archive = zip::ZipArchive::new(Cursor::new(template("us-plain.xlsx"))).unwrap();
    let (mut everything, mut recipes) = (0, 0);
    for at in 0..archive.len() {
        let mut xml = String::new();
        let mut entry = archive.by_index(at).unwrap();
        if entry.name().unwrap().starts_with("xl/worksheets/sheet") {
            entry.read_to_string(&mut xml).unwrap();
            everything += xml.matches("<formula1>OFFSET('Names to choose from'!$A$5,").count();
            recipes += xml.matches("<formula1>OFFSET('Names to choose from'!$B$5,").count();
        }
    }
    assert_eq!((everything, recipes), (6, 2));
}

/// The same examples make the lesson of trim whole: every way of charging is known, and so is what is saved.
///
/// - US: 20 breasts are two batches, 10 lb of breast, so 26 2/3 lb of turkey go in and 6 2/3 lb of bones come out; 6 lb are on
///   hand. The soup takes 24 ÷ 30.4 × 8 qt of stock, the breasts 2 qt, a quart 8 ÷ 9 lb of bones: 7.391813 lb. Chicken backs
///   in their place 4.804678. Sold at 0.20 a pound would be 6 2/3 lb instead of the 5.274854 lb that are left: 0.278363.
/// - Metric: fillet 16 ÷ 8 × 1.2 + 20 ÷ 19.2 × 0.6 = 3.025 kg, so 2.016667 kg of frames; 2 kg are on hand. The soup takes
///   20 ÷ 19.2 × 3 = 3.125 kg, 3.75 in fish bones; 2.016667 kg would be sold at 0.30 instead of 0.891667 kg: 0.3375.
#[test]
fn the_examples_teach_what_trim_is_worth() {
    for (file, saved) in WITH_EXAMPLE.into_iter().zip(["4.526316", "3.4125"]) {
        let (reading, costing) = cost_bytes(&[(file, &template(file))]);
        let trim = parings::analysis::Trim::of_book(&reading.kitchen, &costing);
        let ways = trim.ways[0].as_ref().unwrap();
        let told = format!("{ways:?}");
        assert!(!told.contains("Err("), "{file}: {told}");
        let plan = trim.worth.as_ref().unwrap().plan.as_ref().unwrap();
        assert_eq!(
            plan.saving
                .map(|saving| saving
                    .round_dp_with_strategy(6, rust_decimal::RoundingStrategy::MidpointAwayFromZero)
                    .normalize()
                    .to_string())
                .as_deref(),
            Some(saved),
            "{file}"
        );
        let sold =
            reading.kitchen.entries.menu.iter().all(|row| !row.input.typed(parings::schema::Column::Sold).is_blank());
        assert!(sold, "{file}");
    }
}

/// The same examples make a whole week's control, and two items counted.
///
/// - US: 120 bowls at 0.52, 90 cups at 0.312 and 75 breasts at 1.7992 are 225.42, and 240.00 was used: 14.58 more, of which
///   4.00 is written down. Carrots: 8 cups × 4½ oz ÷ 80 % = 2.8125 lb for 30.4 bowls, so 16.097862 for 120 and 90 × 0.6;
///   18.75 for 75 breasts: 34.847862 lb.
/// - Metric: 110 × 1.1921875 + 60 × 0.7153125 + 80 × 3.7225 = 471.859375 of 500.00. Potatoes: 1.5 ÷ 80 % = 1.875 kg for
///   19.2 soups, so for 110 and 60 × 0.6 14.2578125 kg.
#[test]
fn the_examples_show_what_food_really_cost() {
    let counts = [("34.847862", "lb"), ("14.257813", "kg")];
    for ((file, standard, gap), (counted, unit)) in
        [("us.xlsx", "225.42", "14.58"), ("metric.xlsx", "471.859375", "28.140625")].into_iter().zip(counts)
    {
        let folder = Folder::with("book.xlsx", template(file));
        let ran = folder.run(&["control", "book.xlsx", "--format", "json"]).ends(0);
        let control: Value = serde_json::from_str(&ran.out).unwrap();
        comes_to(&control["standard"]["cost"], standard);
        comes_to(&control["standard"]["variance"], gap);
        let item = &control["counted"]["items"][0];
        assert_eq!(item["unit"], unit);
        assert_eq!(rounded(&item["standard_use"], 6).to_string(), counted, "{file}");
    }
}

/// What is on order comes off, and an order below the least is told: 26 2/3 lb of turkey at 1.50 are 40.00, 35.00 short.
#[test]
fn the_example_orders_what_is_not_on_order() {
    let told = Folder::with("book.xlsx", template("us.xlsx")).run(&["buy", "book.xlsx"]).ends(0).out;
    assert!(told.contains("Below the minimum order of 75.00: 35.00 is missing."), "{told}");
    assert!(told.contains("There is enough of Butter (4.00 lb on hand and 36.00 lb on order;"), "{told}");
}

/// The form filled in by a program that does not calculate: its formulas have no results.
#[test]
fn a_form_without_results_is_worked_out_from_what_was_typed() {
    let rows: [(&str, Typed); 18] = [
        ("B4", Words("Ducks, boned")),
        ("B5", Number("46344")),
        ("B6", Words("Ana")),
        ("A9", Words("Whole duck")),
        ("C9", Words("30")),
        ("D9", Words("lb")),
        ("A11", Words("Duck breast")),
        ("C11", Words("12")),
        ("D11", Words("lb")),
        ("A15", Words("Duck frames")),
        ("C15", Words("9 lb")),
        ("F15", Words("fraction")),
        ("G15", Words("25%")),
        ("M15", Words("1 lb Chicken backs per lb")),
        ("N15", Words("sold 0.20 / lb")),
        ("P15", Number("3")),
        ("A21", Words("Skin")),
        ("C21", Words("4 lb")),
    ];
    let form = filled(&template("us-bench.xlsx"), "Yield test", &rows);
    let form = without_results(&form);
    let prices = b"Item,Pack,Price,Per\nWhole duck,30 lb avg,$4.00,lb\nChicken backs,10 lb,$6.50,\n";
    let (reading, costing) = cost_bytes(&[("form.xlsx", &form), ("prices.csv", prices)]);
    assert_eq!(codes(&reading, &costing), []);
    let json = json_of(&reading, &costing);
    no_errors(&json);
    assert_eq!(reading.kitchen.entries.tests.len(), 4);
    let date = Some(&jiff::civil::date(2026, 11, 18));
    assert!(reading.kitchen.entries.tests.iter().all(|row| row.date.given() == date));
    // As above: frames 9.00, breast 111.00.
    comes_to(&part(&json, "Ducks, boned", "Duck frames")["cost"], "9");
    comes_to(&part(&json, "Ducks, boned", "Duck breast")["cost"], "111");
    // And a book whose names to choose from have lost theirs.
    for file in ["us-plain.xlsx", "us.xlsx"] {
        let (reading, costing) = cost_bytes(&[(file, &without_results(&template(file)))]);
        assert_eq!(codes(&reading, &costing), [], "{file}");
    }
}

/// The workbook with the results of its formulas taken out.
fn without_results(workbook: &[u8]) -> Vec<u8> {
    let mut old = zip::ZipArchive::new(Cursor::new(workbook)).unwrap();
    let mut new = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for at in 0..old.len() {
        let mut entry = old.by_index(at).unwrap();
        let name = entry.name().unwrap().into_owned();
        let mut content = Vec::new();
        entry.read_to_end(&mut content).unwrap();
        if name.starts_with("xl/worksheets/sheet") {
            let xml = String::from_utf8(content).unwrap();
            let mut cells = xml.split("</f><v>");
            let mut bare = cells.next().unwrap().to_owned();
            for rest in cells {
                bare += "</f>";
                bare += rest.split_once("</v>").unwrap().1;
            }
            content = bare.replace(" t=\"str\"><f>", "><f>").into_bytes();
        }
        new.start_file(name, zip::write::SimpleFileOptions::default()).unwrap();
        new.write_all(&content).unwrap();
    }
    new.finish().unwrap().into_inner()
}

/// The words of every list mean something to the reader.
#[test]
fn every_word_to_choose_from_is_understood() {
    for region in [make::region::Region::Us, make::region::Region::Metric] {
        let units = [region.weights(), region.stock_units(), region.measures(), region.recipe_units(), region.per()];
        for unit in units.concat() {
            let known = Unit::parse(unit).is_some() || ["portion", "batch"].contains(&unit);
            assert!(known, "{unit} is no unit");
        }
        for column in make::columns::prices(region).iter().filter(|column| column.choices.contains(&"none")) {
            let stated = parings::food::allergens::read(&column.choices.join("; ")).unwrap();
            assert!(stated.unknown.is_empty(), "{:?}", stated.unknown);
        }
    }
    let role = |role: &&str| format!("Test {role},{role},Part,1 lb,,\n");
    let charge = |charge: &&str| format!("Test,by-product,{charge},1 lb,{charge},1\n");
    let rows: String = make::columns::ROLES.iter().map(role).chain(make::columns::CHARGES.iter().map(charge)).collect();
    let book = format!("Test,Role,Part,Weight,Charged as,Value\n{rows}");
    let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
    let codes: Vec<Code> = reading.problems_with(&costing).iter().map(|problem| problem.code).collect();
    assert!(!codes.contains(&Code::RoleUnknown) && !codes.contains(&Code::ChargeUnknown), "{codes:?}");
}

/// They are within the program: no sheet is filled with empty cells.
#[test]
fn the_templates_are_small() {
    for (file, _) in make::TEMPLATES {
        let bytes = template(file);
        assert!(bytes.len() < 80_000, "{file} has {} bytes", bytes.len());
        let mut archive = zip::ZipArchive::new(Cursor::new(&bytes)).unwrap();
        for at in 0..archive.len() {
            let mut entry = archive.by_index(at).unwrap();
            let mut xml = String::new();
            if entry.name().unwrap().starts_with("xl/worksheets/sheet") {
                entry.read_to_string(&mut xml).unwrap();
                let cells = xml.matches("<c r=").count();
                // The names to choose from fill themselves in, and are formulas.
                let most = if xml.contains("<f>INDEX(Prices!") { 2_000 } else { 1_000 };
                assert!(cells < most, "{file} has {cells} cells in {:?}", entry.name());
            }
        }
    }
}
