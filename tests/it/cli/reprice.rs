//! `reprice`: the report in its forms, what is written, and what stops it.

use serde_json::Value;

use super::{Folder, Ran};

/// A soup of onions and butter, from two suppliers, with a plan of eighty portions.
const KITCHEN: &str = "\
Setting,Value
Costing date,2026-11-20
Target food cost,30%

Item,Pack,Price,Supplier,Code,Date
Onions,50 lb,$25.00,Hill Farm,H1,2026-11-01
Butter,36/1 lb,$108.00,Dale Dairy,D1,2026-11-01

Recipe,Onion soup
Makes,4 qt
Portions,8
Menu price,$2.50
Ingredient,Qty,Unit
Onions,4,lb
Butter,1,lb

Dish,Portions
Onion soup,80
";

/// The pack of onions shrank at the same price; butter went from 3.00 to 4.00 a pound.
const LIST: &str = "\
Code,Item,Pack,Price,Supplier,Date
H1,Onions,40 lb,$25.00,Hill Farm,2026-11-19
D1,Butter,36/1 lb,$144.00,Dale Dairy,2026-11-19
";

fn folder() -> Folder {
    let folder = Folder::with("book.csv", KITCHEN);
    folder.put("new.csv", LIST);
    folder
}

fn json(ran: &Ran) -> Value {
    serde_json::from_str(&ran.out).unwrap()
}

#[test]
fn the_table_tells_what_moved_and_why_and_the_book_is_not_touched() {
    let folder = folder();
    let ran = folder.run(&["reprice", "book.csv", "--prices", "new.csv"]).ends(0);
    for words in [
        "Costed on 2026-11-20 in USD, before and after.",
        "2 price rows: 2 taken that moved.",
        // 25 ÷ 50 = 0.50 and 25 ÷ 40 = 0.625 a pound.
        "+25 %",
        "Onions: smaller pack: 50 lb before, 40 lb now.",
        // (4 × 0.50 + 3.00) ÷ 8 = 0.625 and (4 × 0.625 + 4.00) ÷ 8 = 0.8125; × 80 portions = 15.00.
        "+15.00",
        "Newly over target: Onion soup.",
        // 1.00 ÷ 8 and 4 × 0.125 ÷ 8.
        "Onion soup +0.1875: Butter +0.1250, Onions +0.0625.",
        // Ten batches: 40 lb of onions and 10 lb of butter, 20 + 30 before, 25 + 40 now.
        "cost $50.00 and costs $65.00 now: an index of 130.00",
    ] {
        assert!(ran.out.contains(words), "no “{words}” in {}", ran.out);
    }
    assert!(ran.out.lines().all(|line| line.chars().count() <= 100), "{}", ran.out);
    assert_eq!(folder.names(), ["book.csv", "book.repriced.xlsx", "new.csv"]);
    assert_eq!((folder.bytes("book.csv"), folder.bytes("new.csv")), (KITCHEN.into(), LIST.into()));
}

#[test]
fn json_has_every_figure_in_full() {
    let folder = folder();
    let ran = folder.run(&["reprice", "book.csv", "--prices", "new.csv", "--format", "json"]).ends(0);
    let json = json(&ran);
    let dish = &json["dishes"][0];
    assert_eq!((&dish["before"]["portion_cost"], &dish["now"]["portion_cost"]), (&"0.625".into(), &"0.8125".into()));
    assert_eq!((&dish["change"], &dish["worth"]), (&"0.1875".into(), &"15".into()));
    // 0.8125 ÷ 2.50, and 0.8125 ÷ 30 % = 2.7083…; 32.5 − 30.
    assert_eq!((&dish["now"]["food_cost_percent"], &dish["now"]["over_points"]), (&"32.5".into(), &"2.5".into()));
    assert_eq!(dish["drivers"][0], serde_json::json!({"item": "Butter", "change": "0.125", "credit": null}));
    assert_eq!(dish["drivers"][1], serde_json::json!({"item": "Onions", "change": "0.0625", "credit": null}));
    assert_eq!((&json["index"]["laspeyres"], &json["index"]["now"]), (&"1.3".into(), &"65".into()));
    assert_eq!(json["taken"][0]["happened"], "smaller pack: 50 lb before, 40 lb now");
    assert_eq!(folder.names(), ["book.csv", "new.csv"], "json alone writes nothing");
}

#[test]
fn the_csv_rows_of_a_dish_add_up_to_its_change() {
    let folder = folder();
    let ran = folder.run(&["reprice", "book.csv", "--prices", "new.csv", "--format", "csv"]).ends(0);
    let mut rows = csv::Reader::from_reader(ran.out.as_bytes());
    let rows: Vec<Vec<String>> = rows.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect();
    let told: Vec<(&str, &str, &str)> =
        rows.iter().map(|row| (row[3].as_str(), row[9].as_str(), row[10].as_str())).collect();
    assert_eq!(told, [("0.1875", "Butter", "0.125"), ("0.1875", "Onions", "0.0625")]);
}

/// The portion cost of the soup in a file, on a day.
fn portion_cost(folder: &Folder, file: &str, day: &str) -> Value {
    let ran = folder.run(&["cost", file, "--as-of", day, "--format", "json"]).ends(0);
    json(&ran)["dishes"][0]["portion_cost"].clone()
}

#[test]
fn the_book_with_the_new_prices_costs_as_before_on_the_days_before() {
    let folder = folder();
    folder.run(&["reprice", "book.csv", "--prices", "new.csv", "--write-book", "december.xlsx"]).ends(0);
    assert_eq!(folder.names(), ["book.csv", "book.repriced.xlsx", "december.xlsx", "new.csv"]);
    assert_eq!(portion_cost(&folder, "book.csv", "2026-11-18"), "0.625");
    assert_eq!(portion_cost(&folder, "december.xlsx", "2026-11-18"), "0.625");
    assert_eq!(portion_cost(&folder, "december.xlsx", "2026-11-19"), "0.8125");
    // And the same list once more says nothing new.
    let again = folder.run(&["reprice", "december.xlsx", "--prices", "new.csv", "--format", "json"]).ends(0);
    assert_eq!((&json(&again)["dishes"], &json(&again)["taken"]), (&serde_json::json!([]), &serde_json::json!([])));
}

/// The csv itself: two rows below its own, and nothing else moved.
#[test]
fn the_file_that_holds_the_prices_takes_the_new_rows() {
    let folder = folder();
    let write = |name: &str| folder.run(&["reprice", "book.csv", "--prices", "new.csv", "--write-book", name]);
    write("december.csv").ends(0).complains_of(&["book.csv with the new prices below its own, from row 8 on"]);
    let butter = "Butter,36/1 lb,$108.00,Dale Dairy,D1,2026-11-01\n";
    let new = "Onions,40 lb,$25.00,Hill Farm,H1,2026-11-19\nButter,36/1 lb,$144.00,Dale Dairy,D1,2026-11-19\n";
    let wanted = KITCHEN.replace(butter, &format!("{butter}{new}"));
    assert_eq!(std::fs::read_to_string(folder.path("december.csv")).unwrap(), wanted);
    assert_eq!(portion_cost(&folder, "december.csv", "2026-11-19"), "0.8125");
    // As a workbook it is what it always was, and says how to have the file itself.
    write("december.xlsx").ends(0).complains_of(&["named with .csv"]);
    write("december.xlsm").ends(2).complains_of(&["december.xlsm must end in .xlsx"]);
    assert!(!folder.names().contains(&"december.xlsm".to_owned()));
}

/// A book with a costing date of its own goes on costing that day, which is said.
#[test]
fn a_costing_date_before_the_new_prices_is_told() {
    let folder = folder();
    folder.put("dated.csv", KITCHEN.replace("2026-11-20", "2026-11-18"));
    let written = |day: &str| {
        folder.run(&["reprice", "dated.csv", "--prices", "new.csv", "--write-book", day, "--force"]).ends(0)
    };
    written("later.csv")
        .complains_of(&["Its costing date is 2026-11-18", "type 2026-11-19 for it, as in dated.csv ▸ B"]);
    let costs = |file: &str| json(&folder.run(&["cost", file, "--format", "json"]).ends(0))["dishes"][0].clone();
    assert_eq!(costs("later.csv")["portion_cost"], "0.625");
    let dated = std::fs::read_to_string(folder.path("later.csv")).unwrap();
    folder.put("moved.csv", dated.replace("2026-11-18", "2026-11-19"));
    assert_eq!(costs("moved.csv")["portion_cost"], "0.8125");
}

/// A name that a spreadsheet program would not open is refused; a file that cannot take rows is written anew and told.
#[test]
fn a_book_with_macros_is_named_as_one() {
    let folder = Folder::with("book.csv", KITCHEN);
    folder.put("kept.xlsm", include_bytes!("../../files/kept-kitchen.xlsm"));
    folder.put("kept.xlsx", include_bytes!("../../files/kept-kitchen.xlsx"));
    folder.put("new.csv", "Vendor,Item no,Product,Pack,Price,Date\nHill Farm,H1,Leeks,10 lb,$24.00,2026-11-19\n");
    let write = |book: &str, name: &str| folder.run(&["reprice", book, "--prices", "new.csv", "--write-book", name]);
    write("kept.xlsm", "next.xlsx").ends(2).complains_of(&["try next.xlsm"]);
    write("kept.xlsm", "next.xlsm")
        .ends(0)
        .complains_of(&["kept.xlsm with the new prices below its own, from What we pay!A9 on"]);
    write("kept.xlsx", "next.xlsx").ends(0).complains_of(&["all else is as it was"]);
    folder.run(&["cost", "kept.xlsx", "-o", "costed.xlsx"]).ends(0);
    write("costed.xlsx", "inputs.xlsx").ends(0).complains_of(&["written anew: not its colors", "costed workbook"]);
}

#[test]
fn what_was_said_of_a_column_is_remembered_in_the_book() {
    let folder = folder();
    folder.put("new.csv", LIST.replace("Price,", "Net amt,"));
    let list = ["reprice", "book.csv", "--prices", "new.csv", "--supplier", "Hill Farm", "--format", "json"];
    folder.run(&list).ends(2).complains_of(&["“Net amt”", "--column price=\"Net amt\""]);
    let mapped = [&list[..], &["--column", "price=Net amt", "--write-book", "next.xlsx"]].concat();
    assert_eq!(json(&folder.run(&mapped).ends(0))["dishes"][0]["change"], "0.1875");
    // A later list under the same heading needs no option.
    folder.put("later.csv", "Code,Item,Pack,Net amt,Date\nH1,Onions,40 lb,$30.00,2026-11-20\n");
    let ran =
        folder.run(&["reprice", "next.xlsx", "--prices", "later.csv", "--supplier", "Hill Farm", "--format", "json"]);
    // 30 ÷ 40 = 0.75: 4 × 0.125 ÷ 8 more.
    assert_eq!(json(&ran.ends(0))["dishes"][0]["change"], "0.0625");
}

#[test]
fn what_moves_too_far_waits_for_its_name() {
    let folder = folder();
    // From 3.00 to 5.00 a pound is two thirds more.
    folder.put("new.csv", LIST.replace("$144.00", "$180.00"));
    let list = ["reprice", "book.csv", "--prices", "new.csv"];
    let ran = folder.run(&list).ends(0);
    assert!(ran.out.contains("(+66.7 % per unit)") && ran.out.contains("--accept"), "{}", ran.out);
    assert!(ran.out.contains("Onion soup +0.0625: Onions +0.0625."), "{}", ran.out);
    for more in [["--accept", "butter"], ["--bound", "70%"]] {
        let ran = folder.run(&[&list[..], &more].concat()).ends(0);
        // 4 × 0.125 + 2.00, ÷ 8.
        assert!(ran.out.contains("Onion soup +0.3125: Butter +0.2500, Onions +0.0625."), "{more:?} {}", ran.out);
    }
}

#[test]
fn prices_that_count_from_a_later_day_are_costed_for_that_day() {
    let folder = folder();
    folder.put("new.csv", LIST.replace("2026-11-19", "2026-11-23"));
    let ran = folder.run(&["reprice", "book.csv", "--prices", "new.csv"]).ends(0);
    assert!(ran.out.contains("Costed on 2026-11-23"), "{}", ran.out);
    assert!(ran.out.contains("Onion soup +0.1875"), "{}", ran.out);
    let fixed = folder.run(&["reprice", "book.csv", "--prices", "new.csv", "--as-of", "2026-11-20"]).ends(0);
    assert!(fixed.out.contains("No price in use moved."), "{}", fixed.out);
    assert!(fixed.out.contains("count from a later day"), "{}", fixed.out);
}

/// Old prices are of the matter; other faults of the book are counted with the worst; its notes are for `check`.
#[test]
fn old_prices_and_faults_of_the_book_are_told() {
    let folder = folder();
    folder.put(
        "book.csv",
        KITCHEN.replace("D1,2026-11-01", "D1,2026-07-01")
            + "\nRecipe,Bun\nPortions,1\nMenu price,$9\n\
        Ingredient,Qty,Unit\nSaffron,1,g\n",
    );
    folder.put("new.csv", LIST.lines().take(2).collect::<Vec<_>>().join("\n"));
    // From 1 July to 20 November are 142 days; a price is old from 60 on.
    let ran = folder.run(&["reprice", "book.csv", "--prices", "new.csv"]).ends(1);
    let told = ran.complains_of(&[
        "the price of “Butter” is 142 days old",
        "In the book itself, 1 problem: 1 error",
        "“Saffron”",
    ]);
    assert!(told.out.contains("Bun is not costed, before or now."), "{}", told.out);
    assert!(told.out.contains("Onion soup +0.0625: Onions +0.0625."), "{}", told.out);
}

#[test]
fn what_stops_it_is_told() {
    let folder = folder();
    folder.run(&["reprice", "book.csv"]).ends(2).complains_of(&["--prices"]);
    folder.run(&["reprice", "book.csv", "--prices", "book.csv"]).ends(2).complains_of(&["are one file: give it once"]);
    folder.run(&["reprice", "book.csv", "--prices", "none.csv"]).ends(2).complains_of(&["there is no file none.csv"]);
    folder.put("odd.csv", "Item,Pack,Net amt\nOnions,50 lb,27.00\n");
    let odd = folder.run(&["reprice", "book.csv", "--prices", "odd.csv"]).ends(2);
    odd.complains_of(&[
        "Row 1 reads “Item”, “Pack”, “Net amt”: say which is which, such as --column price=\"Net amt\"",
    ]);
    folder.put("empty.csv", "");
    folder.run(&["reprice", "book.csv", "--prices", "empty.csv"]).ends(2).complains_of(&["empty.csv"]);
    let list = ["reprice", "book.csv", "--prices", "new.csv"];
    let with = |more: &[&str]| folder.run(&[&list[..], more].concat());
    with(&["--column", "colour=Net"]).ends(2).complains_of(&["“colour” is no column of a price list", "Price"]);
    with(&["--column", "Net amt"]).ends(2).complains_of(&["price=\"Net amt\""]);
    with(&["--bound", "none"]).ends(2).complains_of(&["a percentage above nothing"]);
    with(&["-o", "both.xlsx", "--write-book", "both.xlsx"]).ends(2).complains_of(&["would be written twice"]);
    with(&["--write-book", "new.csv"]).ends(2).complains_of(&["new.csv"]);
    assert_eq!(folder.names(), ["book.csv", "empty.csv", "new.csv", "odd.csv"], "nothing was written");
}

/// Prawns whose shells are credited at what they save buying.
const CREDITED: &str = "\
Setting,Value
Costing date,2026-11-20

Item,Pack,Price,Supplier,Code,Date
Prawns,10 lb,$60.00,Quay,Q1,2026-11-01
Shellfish base,1 lb,$16.00,Quay,Q2,2026-11-01

Test,Role,Part,Weight,Charged as,Value,Instead of
Peeling,as purchased,Prawns,10 lb,,,
Peeling,main,Tails,5 lb,,,
Peeling,by-product,Shells,2 lb,market,,2 oz Shellfish base per lb

Recipe,Plate
Portions,10
Menu price,$20.00
Ingredient,Qty,Unit
Tails,5,lb

Recipe,Butter
Portions,400
Menu price,$1.00
Ingredient,Qty,Unit
Shells,1,lb
";

#[test]
fn a_larger_credit_that_lowers_a_plate_is_called_that() {
    let folder = Folder::with("book.csv", CREDITED);
    folder.put("new.csv", "Code,Item,Pack,Price,Supplier,Date\nQ2,Shellfish base,1 lb,$17.60,Quay,2026-11-19\n");
    let run = |format: &str| folder.run(&["reprice", "book.csv", "--prices", "new.csv", "--format", format]).ends(0);
    // Two ounces are 2.00, then 2.20: 4.00, then 4.40 for 2 lb. The tails bear 56.00, then 55.60; a portion a tenth.
    let ran = run("table");
    for words in [
        "Plate -0.0400: Shellfish base (a larger credit) -0.0400.",
        // 2.00 ÷ 400 and 2.20 ÷ 400: less than a cent, and seen in mills, half up.
        "Butter +0.0005: Shellfish base +0.0005.",
    ] {
        assert!(ran.out.contains(words), "no “{words}” in {}", ran.out);
    }
    let row = ran.out.lines().find(|line| line.starts_with("Butter ")).unwrap();
    assert!(row.contains(" 0.005 ") && row.contains(" 0.006 ") && row.contains(" +0.001 "), "{row}");
    let json = json(&run("json"));
    let credit = |name: &str| {
        let dish = json["dishes"].as_array().unwrap().iter().find(|dish| dish["name"] == name).unwrap();
        dish["drivers"][0]["credit"].clone()
    };
    assert_eq!((credit("Plate"), credit("Butter")), ("larger".into(), Value::Null));
    let csv = run("csv");
    assert!(csv.out.lines().any(|line| line.contains(",Shellfish base,-0.04,larger,")), "{}", csv.out);
    // Cheaper base makes the credit smaller, and the plate dearer.
    folder.put("new.csv", "Code,Item,Pack,Price,Supplier,Date\nQ2,Shellfish base,1 lb,$14.40,Quay,2026-11-19\n");
    let ran = run("table");
    assert!(ran.out.contains("Plate +0.0400: Shellfish base (a smaller credit) +0.0400."), "{}", ran.out);
}
