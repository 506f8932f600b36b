//! Values: what they count for is shown, one that is far off is doubted, and one that nothing uses is told.

use parings::schema::Column;

use super::{book, cell_of, costed, problems};
use crate::recalc::{Sheets, Value, assert_recalculates, with_changes};
use crate::support::{no_errors, part};
use crate::workbook::costed as written;

/// Shrimp at 3.20 a pound, 20 lb of them: 0.20 an ounce. Heads, roe and shells are charged as their rows say.
fn shrimp(rows: &str) -> String {
    format!(
        "Item,Pack,Price\nShrimp,20 lb,64.00\nBase,1 lb,8.00\n\n\
         Test,Role,Part,Weight,Charged as,Value,Further cost,Price,Instead of\n\
         Peeling,as purchased,Shrimp,20 lb,,,,,\n{rows}"
    )
}

const MAIN: &str = "Peeling,main,Tails,12 lb,,,,,\n";

#[test]
fn a_bare_value_far_above_what_went_in_costs_is_doubted() {
    // Ten times 0.20 is 2.00 an ounce: that much is not yet doubted, 2.01 is.
    for (row, doubted) in [
        ("Roe,4 oz,price,2.00,,,", false),
        ("Roe,4 oz,price,2.01,,,", true),
        ("Roe,4 oz,price,$2.01,,,", true),
        // It names its own unit: so it is meant.
        ("Roe,4 oz,price,$2.01 / oz,,,", false),
        ("Roe,4 oz,price,2.00 / lb,,,", false),
        // By the pound ten times 3.20 are 32.00.
        ("Roe,0.25 lb,price,32.00,,,", false),
        ("Roe,0.25 lb,price,32.01,,,", true),
        ("Roe,4 oz,by sales value,2.10,,,", true),
        ("Roe,4 oz,fraction,20,,,", false),
    ] {
        let main = if row.contains("by sales") { "Peeling,main,Tails,12 lb,,9.00,,,\n" } else { MAIN };
        let json = costed(&shrimp(&format!("{main}Peeling,by-product,{row}\n")));
        let expected: &[&str] = if doubted { &["F12 warning value-far-over-cost"] } else { &[] };
        assert_eq!(problems(&json), expected, "{row}");
    }
    // 2.40 ÷ 0.20 = 12; 4 oz at 2.40 are charged all the same.
    let json = costed(&shrimp(&format!("{MAIN}Peeling,by-product,Roe,4 oz,price,2.40,,,\n")));
    assert_eq!(
        json["problems"][0]["message"],
        "the value of “Roe” is 2.40 an oz, 12 times what went in costs, 0.20 an oz"
    );
    assert_eq!(part(&json, "Peeling", "Roe")["cost"], "9.6");
    // A main's Value is its sales value, doubted where it would never be used too.
    let json = costed(&shrimp("Peeling,main,Tails,192 oz,,9.00,,,\n"));
    assert_eq!(problems(&json), ["F11 warning value-far-over-cost"]);
    // What went in costs nothing: nothing to compare with.
    let json = costed(&shrimp(MAIN).replace("64.00", "0"));
    assert!(!problems(&json).iter().any(|problem| problem.contains("value-far")), "{json:#}");
}

#[test]
fn money_counts_for_the_first_unit_named() {
    // 2 lb 8 oz at 0.40 a pound are 1.00; 2 kg 500 g at 0.40 a kilo too.
    for weight in ["2 lb 8 oz", "2 kg 500 g"] {
        let json = costed(&shrimp(&format!("{MAIN}Peeling,by-product,Shells,{weight},price,0.40,,,\n")));
        no_errors(&json);
        assert_eq!(part(&json, "Peeling", "Shells")["cost"], "1", "{weight}");
    }
}

#[test]
fn money_on_a_row_that_does_not_use_it_is_told() {
    let by_product = |row: &str| shrimp(&format!("{MAIN}Peeling,by-product,Shells,2 lb,{row}\n"));
    for (tables, cells) in [
        (by_product("free,1.20,,,"), vec!["F12"]),
        (by_product("market,1.20,,,2 oz Base per lb"), vec!["F12"]),
        (by_product("by weight,1.20,,,"), vec!["F12"]),
        (by_product("price,1.20,0.10,,"), vec![]),
        (by_product("price,1.20,,1.50,"), vec!["H12"]),
        (shrimp(&format!("{MAIN}Peeling,waste,Grit,1 lb,,1.20,0.10,,\n")), vec!["F12", "G12"]),
        (shrimp(&format!("{MAIN}Peeling,added,Base,1 lb,,1.20,,,\n")), vec!["F12"]),
        (shrimp(MAIN).replace("20 lb,,,,,", "20 lb,,3.00,,3.10,"), vec!["F10"]),
        // What was paid documents the test, and a main's value is what it sells for.
        (shrimp("Peeling,main,Tails,12 lb,,9.00,0.50,,\n").replace("20 lb,,,,,", "20 lb,,,,3.10,"), vec![]),
    ] {
        let expected: Vec<String> = cells.iter().map(|cell| format!("{cell} note value-unused")).collect();
        let json = costed(&tables);
        no_errors(&json);
        assert_eq!(problems(&json), expected, "{tables}");
    }
    // Told, and still costed as free.
    let json = costed(&by_product("free,1.20,,,"));
    assert_eq!(json["problems"][0]["message"], "the value of “Shells” is not used: it is charged as free");
    assert_eq!(part(&json, "Peeling", "Tails")["cost"], "64");
}

/// The readings of the column Charge read as, by the part's name.
fn readings(sheets: &Sheets) -> Vec<(String, String)> {
    let text = |cell: &str| match sheets.value("Yield tests", cell) {
        Value::Text(text) => text,
        other => other.to_string(),
    };
    let headers: Vec<(String, String)> =
        ('A'..='Z').map(|column| (text(&format!("{column}1")), column.to_string())).collect();
    let column = |name: &str| headers.iter().find(|(header, _)| header == name).unwrap().1.clone();
    let (part, read) = (column("Part"), column("Charge read as"));
    (2..=9).map(|row| (text(&format!("{part}{row}")), text(&format!("{read}{row}")))).collect()
}

#[test]
fn the_reading_says_what_a_value_counts_for_and_follows_its_cell() {
    let rows = "Peeling,main,Tails,12 lb,by sales value,9.00,,,\n\
                Peeling,main,Claws,16 oz,,0.5,,,\n\
                Peeling,by-product,Roe,4 oz,by sales value,2.00 / lb,,,\n\
                Peeling,by-product,Shells,20 oz,price,0.075,,,\n\
                Peeling,by-product,Heads,2 lb,fraction,10%,,,\n\
                Peeling,by-product,Feet,1 lb,free,,,,\n\
                Peeling,added,Salt,1 lb,,,,,\n";
    let (_, _, bytes) = written("book.csv", book(&shrimp(rows)).as_bytes());
    assert_recalculates(&bytes, "readings of values");
    let expected = [
        ("Tails", "by sales value: $9.00 a lb"),
        ("Claws", "by sales value: $0.50 an oz"),
        ("Roe", "by sales value: $2.00 a lb"),
        ("Shells", "price: $0.075 an oz"),
        ("Heads", "fraction of the AP price"),
        ("Feet", "free"),
        ("Salt", "costs nothing: no price"),
    ];
    let found = readings(&Sheets::open(&bytes));
    for (name, reading) in expected {
        assert!(found.contains(&(name.to_owned(), reading.to_owned())), "{name}: {found:?}");
    }
    // 20 oz at 0.08 are 1.60, and so it says.
    let sheets = with_changes(&bytes, &[("Yield tests", &cell_of(&bytes, "Shells", Column::Value), 0.08)]);
    let found = readings(&sheets);
    assert!(found.contains(&("Shells".to_owned(), "price: $0.080 an oz".to_owned())), "{found:?}");
    // A main that bears what remains sells at its Value.
    let rows = "Peeling,main,Tails,12 lb,,9.00,,,\n";
    let (_, _, bytes) = written("book.csv", book(&shrimp(rows)).as_bytes());
    let found = readings(&Sheets::open(&bytes));
    assert!(found.contains(&("Tails".to_owned(), "what remains; sells at $9.00 a lb".to_owned())), "{found:?}");
}

#[test]
fn what_a_value_is_less_its_further_cost_is_said() {
    let rows = "Peeling,main,Tails,12 lb,net realizable value,9.00,0.50,,\n\
                Peeling,by-product,Roe,4 oz,net realizable value,1.50,,,\n";
    let (_, _, bytes) = written("book.csv", book(&shrimp(rows)).as_bytes());
    assert_recalculates(&bytes, "net values");
    let found = readings(&Sheets::open(&bytes));
    for (name, reading) in
        [("Tails", "net realizable value: $9.00 a lb, less further cost"), ("Roe", "net realizable value: $1.50 an oz")]
    {
        assert!(found.contains(&(name.to_owned(), reading.to_owned())), "{name}: {found:?}");
    }
}
