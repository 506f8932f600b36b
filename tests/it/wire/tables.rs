//! The csv tables of a costing: rectangles with a row for each thing, the figures of the JSON, and text that any reader
//! gets back.

use csv::{Reader, StringRecord};
use serde_json::Value;

use crate::cli::Folder;
use crate::support::json_of;
use crate::workbook::{TEACHING_KITCHEN, costed};

/// An invented kitchen. Hake: 80.00 for 10 kg is 0.008 a gram; bones at a quarter of it are 0.002 a gram, 4.00 for
/// 2 kg; the fillets bear 76.00 over 5 kg, 0.0152 a gram, 1.9 times what went in. 1 kg of 10 is missing.
/// Soup: 500 g of leeks at 15.00 for 10 kg of which half is left, 1.50; 1.5 kg of bones 3.00; 500 ml of cream at 4.00 a
/// litre 2.00; 1 kg of leeks as purchased 1.50: 8.00.
const KITCHEN: &str = r#"Setting,Value
Costing date,2026-11-20
Currency,EUR

Item,Pack,Price,Yield
Leeks,10 kg,15.00,50%
Cream,1 l,4.00,
Hake,10 kg,80.00,
Salt,1 kg,1.00,

Test,Role,Part,Weight,Charged as,Value
Filleting,as purchased,Hake,10 kg,,
Filleting,main,Fillets,5 kg,,
Filleting,by-product,Bones,2 kg,fraction,25%
Filleting,waste,Heads,2 kg,,

Recipe,"Leek ""n"" hake soup, hot"
Portions,4
Menu price,8.00
Ingredient,Qty,Unit,Prep,Basis,Note
Leeks,500,g,"sliced, fine",EP,"washed
twice"
Bones,1.5,kg,,,
Cream,500,ml,,,say; when
Leeks,1,kg,,AP,-
Salt,to taste,,,,

Recipe,Broken
Portions,1
Ingredient,Qty,Unit
Saffron,1,g
"#;

fn rows(text: &str) -> (Vec<String>, Vec<Vec<String>>) {
    let mut reader = Reader::from_reader(text.as_bytes());
    let owned = |record: &StringRecord| record.iter().map(str::to_owned).collect::<Vec<_>>();
    let header = owned(reader.headers().unwrap());
    // The reader refuses a row of another length.
    (header, reader.records().map(|record| owned(&record.unwrap())).collect())
}

fn printed(args: &[&str], code: i32) -> String {
    let folder = Folder::with("kitchen.csv", KITCHEN);
    folder.run(&[&["cost", "kitchen.csv", "--format", "csv"], args].concat()).ends(code).out
}

#[test]
fn lines_are_a_row_each() {
    let (header, rows) = rows(&printed(&["--rows", "lines"], 1));
    let columns = "recipe line ingredient source qty unit prep basis base_qty base_unit yield_percent yield_from \
                   measure_from unit_cost line_cost share_percent note currency as_of";
    assert_eq!(header.join(" "), columns);
    let soup = "Leek \"n\" hake soup, hot";
    let day = "2026-11-20";
    let expected: [[&str; 19]; 6] = [
        [
            soup,
            "1",
            "Leeks",
            "bought",
            "500",
            "g",
            "sliced, fine",
            "EP",
            "500",
            "g",
            "50",
            "price row",
            "same kind",
            "0.003",
            "1.5",
            "18.75",
            "washed\ntwice",
            "EUR",
            day,
        ],
        [
            soup,
            "2",
            "Bones",
            "fabricated",
            "1.5",
            "kg",
            "",
            "EP",
            "1500",
            "g",
            "100",
            "none",
            "same kind",
            "0.002",
            "3",
            "37.5",
            "",
            "EUR",
            day,
        ],
        [
            soup,
            "3",
            "Cream",
            "bought",
            "500",
            "ml",
            "",
            "EP",
            "500",
            "ml",
            "100",
            "none",
            "same kind",
            "0.004",
            "2",
            "25",
            "say; when",
            "EUR",
            day,
        ],
        [
            soup,
            "4",
            "Leeks",
            "bought",
            "1",
            "kg",
            "",
            "AP",
            "1000",
            "g",
            "",
            "none",
            "same kind",
            "0.0015",
            "1.5",
            "18.75",
            "'-",
            "EUR",
            day,
        ],
        // What is not costed has only what was typed.
        [soup, "5", "Salt", "bought", "", "to taste", "", "EP", "", "", "", "", "", "", "", "", "", "EUR", day],
        ["Broken", "1", "Saffron", "", "1", "g", "", "EP", "", "", "", "", "", "", "", "", "", "EUR", day],
    ];
    assert_eq!(rows, expected);
}

#[test]
fn parts_are_a_row_each() {
    let (header, rows) = rows(&printed(&["--rows", "parts"], 1));
    let columns = "test part role weight_g yield_percent charged_as cost cost_per_g cost_factor test_weight_g test_cost \
                   test_loss_g test_taken_up_g currency as_of";
    assert_eq!(header.join(" "), columns);
    let [test, day] = ["Filleting", "2026-11-20"];
    let expected: [[&str; 15]; 3] = [
        [
            test,
            "Fillets",
            "main",
            "5000",
            "50",
            "by weight",
            "76",
            "0.0152",
            "1.9",
            "10000",
            "80",
            "1000",
            "0",
            "EUR",
            day,
        ],
        [
            test,
            "Bones",
            "by-product",
            "2000",
            "20",
            "fraction",
            "4",
            "0.002",
            "0.25",
            "10000",
            "80",
            "1000",
            "0",
            "EUR",
            day,
        ],
        [test, "Heads", "waste", "2000", "20", "", "0", "0", "0", "10000", "80", "1000", "0", "EUR", day],
    ];
    assert_eq!(rows, expected);
}

#[test]
fn dishes_are_what_is_printed_when_nothing_is_chosen() {
    let dishes = printed(&["--rows", "dishes"], 1);
    assert_eq!(dishes, printed(&[], 1));
    assert!(dishes.starts_with("dish,recipe,portion_qty,portion_unit,portion_cost,"), "{dishes}");
    // Rows end with a line feed, the last one too.
    assert!(!dishes.contains('\r') && dishes.ends_with("2026-11-20\n"), "{dishes:?}");
}

/// The page lists the columns of every table, in their order.
#[test]
fn the_page_lists_the_columns() {
    let table = crate::docs::pages::rows("csv");
    let listed: Vec<(&str, Vec<&str>)> =
        table.iter().map(|row| (row[0].split('`').nth(1).unwrap(), row[2].split(", ").collect())).collect();
    assert_eq!(listed.iter().map(|(name, _)| *name).collect::<Vec<_>>(), ["dishes", "recipes", "lines", "parts"]);
    for (name, columns) in listed {
        assert_eq!(rows(&printed(&["--rows", name], 1)).0, columns, "{name}");
    }
}

#[test]
fn rows_are_for_csv_and_stand_behind_the_command() {
    let folder = Folder::with("kitchen.csv", KITCHEN);
    for args in
        [&["cost", "kitchen.csv", "--rows", "lines"][..], &["kitchen.csv", "--rows", "parts", "--format", "json"]]
    {
        let ran = folder.run(args).ends(2).complains_of(&["error: ", "--rows", "add --format csv", "Usage:"]);
        assert_eq!(ran.out, "");
    }
    folder.run(&["--rows", "lines", "cost", "kitchen.csv"]).ends(2).complains_of(&["put --rows behind the command"]);
    folder
        .run(&["cost", "kitchen.csv", "--format", "csv", "--rows", "cups"])
        .ends(2)
        .complains_of(&["dishes, recipes, lines, parts"]);
    assert_eq!(folder.names(), ["kitchen.csv"]);
    // A book alone is costed, with the same flags.
    let ran = folder.run(&["kitchen.csv", "--rows", "parts", "--format", "csv", "-o", "out.xlsx"]).ends(1);
    assert_eq!(ran.out, printed(&["--rows", "parts"], 1));
    assert_eq!(folder.names(), ["kitchen.csv", "out.xlsx"]);
}

/// A cell as the JSON has it: text and figures are strings, what is not known is blank.
fn said(value: &Value) -> String {
    match value {
        Value::Null => String::new(),
        Value::String(text) => text.clone(),
        other => other.to_string(),
    }
}

/// Asserts that the columns named `pairs` hold what stands under the keys of `things`, one a row.
fn agree(table: &str, things: &[(&Value, &Value)], pairs: &[(&str, &str)]) {
    let (header, rows) = rows(table);
    assert_eq!(rows.len(), things.len());
    for (column, key) in pairs {
        let at = header.iter().position(|name| name == column).unwrap_or_else(|| panic!("no column {column}"));
        for (row, (whole, thing)) in rows.iter().zip(things) {
            let from = match key.strip_prefix('^') {
                Some(key) => &whole[key],
                None => thing.pointer(&format!("/{key}")).unwrap_or_else(|| panic!("no key {key}")),
            };
            assert_eq!(row[at], said(from), "{column} of {row:?}");
        }
    }
}

#[test]
fn the_tables_hold_what_the_json_holds() {
    let (reading, costing, _) = costed("kitchen.xlsx", TEACHING_KITCHEN);
    let json = json_of(&reading, &costing);
    let kitchen = &reading.kitchen;
    let list = |key: &str| json[key].as_array().unwrap();
    let within = |key: &str, list_of: &str| -> Vec<(Value, Value)> {
        let all =
            list(key).iter().flat_map(|whole| whole[list_of].as_array().unwrap().iter().map(move |one| (whole, one)));
        all.map(|(whole, one)| (whole.clone(), one.clone())).collect()
    };
    let same = |name: &'static str| (name, name);
    let dishes: Vec<_> = list("dishes").iter().map(|dish| (&json, dish)).collect();
    let money = ["portion_cost", "menu_price", "food_cost_percent", "target_percent", "price_at_target", "margin"];
    let sums = ["share", "food_cost", "q", "spice", "ex_tax_price"];
    let mut pairs =
        vec![("dish", "name"), ("recipe", "recipe"), ("portion_qty", "portion/qty"), ("currency", "^currency")];
    pairs.extend([("portion_unit", "portion/unit"), ("as_of", "^as_of")]);
    pairs.extend(money.map(same));
    pairs.extend(sums.map(same));
    agree(&parings::output::csv::dishes(kitchen, &costing), &dishes, &pairs);

    let lines = within("recipes", "lines");
    assert!(lines.len() > 40);
    let lines: Vec<_> = lines.iter().map(|(recipe, line)| (recipe, line)).collect();
    let mut pairs = vec![("recipe", "^name"), ("ingredient", "item"), ("line_cost", "cost")];
    pairs.extend(["source", "qty", "unit", "basis", "base_qty", "base_unit"].map(same));
    pairs.extend(["yield_percent", "yield_from", "measure_from", "unit_cost"].map(same));
    agree(&parings::output::csv::lines(kitchen, &costing), &lines, &pairs);

    let parts = within("tests", "parts");
    assert!(parts.len() > 10);
    let parts: Vec<_> = parts.iter().map(|(test, part)| (test, part)).collect();
    let mut pairs = vec![("test", "^name"), ("part", "name"), ("test_weight_g", "^weight_g"), ("test_cost", "^cost")];
    pairs.extend([("test_loss_g", "^loss_g"), ("test_taken_up_g", "^taken_up_g")]);
    pairs.extend(["role", "weight_g", "yield_percent", "cost", "cost_per_g", "cost_factor"].map(same));
    agree(&parings::output::csv::parts(kitchen, &costing), &parts, &pairs);
}
