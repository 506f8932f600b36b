//! The README keeps its word: its commands run and print what it shows, its example tables cost what it works out by
//! hand, and its lists of packs, quantities, columns, settings and sheets are those of the code.
//!
//! A table that is tested stands below an HTML comment that says what it is.

use std::fs;
use std::io::Cursor;

use calamine::{Reader, Xlsx};
use parings::kitchen::settings::Setting;
use parings::measure::{QuantityText, Volumes, compound_in_first, parse_pack, parse_quantity};
use parings::number::{Marks, plain};
use parings::schema::{Role, TableKind};
use rust_decimal::Decimal;
use serde_json::Value;

use crate::cli::Folder;
use crate::support::{cost_json, dish, no_errors, part, rounded};
use crate::workbook::{TEACHING_KITCHEN, costed};

const README: &str = include_str!("../../README.md");

/// A table's rows, its header first; the cells as they are typed.
type Table = Vec<Vec<String>>;

/// What stands below every comment that says `mark`.
fn below(mark: &str) -> Vec<&'static str> {
    let comment = format!("<!-- {mark} -->\n\n");
    let found: Vec<_> = README.split(&comment).skip(1).collect();
    assert!(!found.is_empty(), "no {comment}");
    found
}

/// The tables below the comments that say `mark`.
fn tables(mark: &str) -> Vec<Table> {
    let cells = |line: &str| -> Vec<String> {
        let inside = line.strip_prefix('|').and_then(|line| line.strip_suffix('|')).expect("a row ends with a bar");
        inside.split('|').map(|cell| cell.trim().replace('\\', "")).collect()
    };
    let table = |text: &str| -> Table {
        let rows: Vec<_> = text.lines().take_while(|line| line.starts_with('|')).map(cells).collect();
        assert!(rows.len() > 2, "no table below {mark}");
        assert!(rows.iter().all(|row| row.len() == rows[0].len()), "{rows:?}");
        rows.into_iter().filter(|row| !row[0].starts_with("---")).collect()
    };
    below(mark).into_iter().map(table).collect()
}

/// The rows of the one table below the comment `mark`, without its header.
fn rows(mark: &str) -> Table {
    let mut all = tables(mark);
    assert_eq!(all.len(), 1, "{mark}");
    all.remove(0).split_off(1)
}

/// Tables as a csv file, one below the other.
fn csv(tables: &[Table]) -> String {
    let quoted = |cell: &String| format!("\"{}\"", cell.replace('"', "\"\""));
    let line = |row: &Vec<String>| row.iter().map(quoted).collect::<Vec<_>>().join(",");
    let table = |table: &Table| table.iter().map(line).collect::<Vec<_>>().join("\n");
    tables.iter().map(table).collect::<Vec<_>>().join("\n\n") + "\n"
}

/// The lines of the blocks of commands.
fn commands() -> Vec<&'static str> {
    let blocks = README.split("```sh\n").skip(1).map(|from| from.split("```").next().unwrap());
    blocks.flat_map(str::lines).collect()
}

/// A folder with the example as one book, `kitchen.csv`, and in two, `prices.csv` and `recipes.csv`.
fn example() -> Folder {
    let tables = tables("example");
    let folder = Folder::with("kitchen.csv", csv(&tables));
    folder.put("prices.csv", csv(&tables[..2]));
    folder.put("recipes.csv", csv(&tables[2..]));
    folder.put("greengrocer.csv", csv(&self::tables("list")));
    folder
}

/// What a cell says in money or as a number.
fn number(cell: &str) -> Decimal {
    cell.trim_start_matches('$').parse().unwrap_or_else(|_| panic!("{cell} is no number"))
}

/// Asserts that a figure, rounded as `cell` is, is what it says.
#[track_caller]
fn comes_to(figure: &Value, cell: &str) {
    let said = number(cell);
    assert_eq!(rounded(figure, said.scale()), said, "the full figure is {figure}");
}

#[test]
fn the_first_command_prints_what_is_shown_and_writes_the_workbook() {
    let args = commands()[0].strip_prefix("cargo run --release -- ").unwrap();
    let folder = Folder::with("README.md", README);
    fs::create_dir(folder.path("sample-books")).unwrap();
    folder.put("sample-books/teaching-kitchen.xlsx", TEACHING_KITCHEN);
    let ran = folder.run(&args.split(' ').collect::<Vec<_>>()).ends(0);
    let printed = format!("{}{}", ran.out, ran.err);
    let shown = below("first command")[0].strip_prefix("```text\n").unwrap().split("```").next().unwrap();
    let (begins, ends) = shown.split_once("…\n").unwrap();
    assert!(printed.starts_with(begins) && printed.ends_with(ends), "{printed}");
    let written = "sample-books/teaching-kitchen.costed.xlsx";
    assert!(folder.path(written).is_file() && ends.contains(written));
    assert!(include_str!("../../.gitignore").lines().any(|line| line == "*.costed.xlsx"));
    assert!(README.contains("(sample-books/teaching-kitchen.summary.png)"));
}

#[test]
fn the_explanation_that_is_shown_is_the_one_that_is_printed() {
    let ran = example().run(&["explain", "pack-is-a-ratio"]).ends(0);
    let shown = below("explain pack-is-a-ratio")[0].strip_prefix("```text\n").unwrap().split("```").next().unwrap();
    assert_eq!(ran.out, shown);
}

#[test]
fn the_second_command_is_how_every_change_is_tested() {
    assert_eq!(commands()[1], "cargo test");
    assert!(include_str!("../../.ci/run").lines().any(|line| line.trim() == commands()[1]));
}

#[test]
fn the_commands_of_every_day_run() {
    let folder = example();
    let commands: Vec<_> = commands().into_iter().filter_map(|line| line.strip_prefix("parings ")).collect();
    assert!(commands.len() >= 6, "{commands:?}");
    for command in commands {
        folder.run(&command.split(' ').collect::<Vec<_>>()).ends(0);
    }
    let names = [
        "greengrocer.csv",
        "kitchen-december.xlsx",
        "kitchen.costed.xlsx",
        "kitchen.csv",
        "kitchen.repriced.xlsx",
        "my-kitchen.costed.xlsx",
        "my-kitchen.xlsx",
        "our-kitchen.xlsx",
        "prices.csv",
        "recipes.csv",
        "spring-menu.xlsx",
        "yield-test.xlsx",
    ];
    assert_eq!(folder.names(), names);
}

/// The arithmetic stands in the README, under “When supplier prices change”.
#[test]
fn the_new_list_does_what_is_said() {
    let ran = example().run(&["reprice", "kitchen.csv", "--prices", "greengrocer.csv", "--format", "json"]).ends(0);
    let json: Value = serde_json::from_str(&ran.out).unwrap();
    let named = |list: &str, name: &str| {
        let all = json[list].as_array().unwrap();
        all.iter().find(|one| one["name"] == name).unwrap_or_else(|| panic!("no {name} in {list}")).clone()
    };
    assert_eq!(rounded(&named("items", "Leeks")["change_percent"], 1), number("11.1"));
    assert_eq!(rounded(&named("items", "Potatoes")["change_percent"], 1), number("20"));
    let bowl = named("dishes", "Leek soup, bowl");
    assert_eq!(rounded(&bowl["before"]["portion_cost"], 3), number("1.3"));
    assert_eq!(rounded(&bowl["now"]["portion_cost"], 3), number("1.397"));
}

/// The arithmetic stands in the README, under “What the example comes to”.
#[test]
fn the_example_comes_to_what_is_worked_out() {
    let json = cost_json(&[("kitchen.csv", &csv(&tables("example")))]);
    no_errors(&json);
    let answers = rows("answers");
    assert_eq!(json["dishes"].as_array().unwrap().len(), answers.len());
    for answer in &answers {
        let dish = dish(&json, &answer[0]);
        for (figure, cell) in
            ["portion_cost", "food_cost_percent", "price_at_target", "margin"].iter().zip(&answer[1..])
        {
            comes_to(&dish[figure], cell);
        }
    }
    // Before 9 November leeks cost 14.00: 2.80 a usable pound instead of 3.00. The soup's two pounds save 0.40, the
    // pound in the stock 0.20 × 4 ÷ 6: (20.00 − 0.533333) ÷ 16 × 1.04 = 1.265333.
    let before = example().run(&["cost", "kitchen.csv", "--as-of", "2026-11-01", "--format", "json"]).ends(0);
    let json: Value = serde_json::from_str(&before.out).unwrap();
    comes_to(&dish(&json, "Leek soup, bowl")["portion_cost"], "1.265333");
    let words = README.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("as of 1 November the bowl of soup costs $1.27 instead of $1.30"));
}

/// 72.00 for what went in; the breast bears 108 ÷ 132 of what the carcass leaves, or its share by the joint key.
#[test]
fn every_way_of_charging_bears_what_is_said() {
    let ways = rows("ways");
    assert_eq!(ways.len(), 7);
    for way in &ways {
        let mut tables = tables("example");
        let carcass = tables.iter_mut().flatten().find(|row| row.get(2).is_some_and(|cell| cell == "Chicken carcass"));
        carcass.unwrap()[4..7].clone_from_slice(&way[..3]);
        let json = cost_json(&[("kitchen.csv", &csv(&tables))]);
        no_errors(&json);
        comes_to(&part(&json, "Cutting up chicken", "Chicken carcass")["cost"], &way[3]);
        let breast: Decimal =
            part(&json, "Cutting up chicken", "Chicken breast")["cost"].as_str().unwrap().parse().unwrap();
        comes_to(&Value::String((breast / Decimal::from(12)).to_string()), &way[4]);
    }
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

/// Each list of columns is the code's, in its order: header, whether it must be there, what else it is read as.
#[test]
fn the_lists_of_columns_are_complete() {
    let mut listed = 0;
    for kind in
        TableKind::ALL.iter().copied().filter(|kind| README.contains(&format!("<!-- columns {} -->", kind.name())))
    {
        let said: Vec<(String, String)> =
            rows(&format!("columns {}", kind.name())).into_iter().map(|row| (row[0].clone(), row[1].clone())).collect();
        let known: Vec<(String, String)> = kind
            .columns()
            .iter()
            .map(|def| {
                let mark = match def.role {
                    Role::Required => " *",
                    Role::Optional if kind.signature().any.contains(&def.column) => " †",
                    Role::Optional => "",
                };
                (format!("{}{mark}", def.header), def.synonyms.join(" · "))
            })
            .collect();
        assert_eq!(said, known, "{}", kind.name());
        listed += 1;
    }
    assert_eq!(listed, 7);
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
    let (reading, _, written) = costed("kitchen.csv", csv(&tables("example")).as_bytes());
    let book: Xlsx<_> = Xlsx::new(Cursor::new(written)).unwrap();
    let is_card = |sheet: &String| reading.kitchen.recipes.iter().any(|recipe| recipe.name == *sheet);
    let (cards, sheets): (Vec<String>, Vec<String>) = book.sheet_names().into_iter().partition(is_card);
    assert_eq!(cards.len(), 3);
    for sheet in sheets {
        assert!(README.contains(&format!("**{sheet}**")), "{sheet}");
    }
}
