//! No cell of a csv table runs as a formula, whatever was typed in the book and at whatever mark a spreadsheet program
//! parts cells; and figures stay figures.

use parings::analysis::Trim;
use parings::output::csv;
use proptest::prelude::*;
use rust_decimal::Decimal;

use crate::support::{chance, cost_bytes};

const STARTS: [char; 8] = ['=', '+', '-', '@', '＝', '＋', '－', '＠'];

/// A book with one text wherever a kitchen writes freely, as csv text.
fn book(text: &str) -> String {
    let cell = format!("\"{}\"", text.replace('"', "\"\""));
    format!(
        "Item,Pack,Price,Allergens\nLeeks,10 kg,15.00,{cell}\n{cell},10 kg,5.00,none\nHake,10 kg,80.00,\n\n\
         Test,Role,Part,Weight,Charged as,Value,Note\nFilleting,as purchased,Hake,10 kg,,,\nFilleting,main,Fillets,5 kg,,,\n\
         Filleting,by-product,Bones {cell_open},2 kg,fraction,25%,{cell}\n{cell},as purchased,Leeks,1 kg,,,\n\
         {cell},main,Hearts,900 g,,,\n\n\
         Recipe,{cell}\nPortions,2\nMenu price,0.10\nIngredient,Qty,Unit,Prep,Note\nLeeks,500,g,{cell},{cell}\n\
         {cell},1,{cell},,\nBones {cell_open},1,kg,,\n\n{cell},{cell}\n",
        cell_open = text.replace(['"', ',', '\n', '\r'], " "),
    )
}

/// Every csv table that is made of a book.
fn tables(name: &str, book: &str) -> Vec<String> {
    let (reading, costing) = cost_bytes(&[(name, book.as_bytes())]);
    let kitchen = &reading.kitchen;
    let every_part: Vec<_> = kitchen.all_parts().collect();
    let trim = Trim::of(kitchen, &costing, &every_part, Decimal::ONE);
    vec![
        csv::dishes(kitchen, &costing),
        csv::lines(kitchen, &costing),
        csv::recipes(kitchen, &costing),
        csv::parts(kitchen, &costing),
        csv::problems(&reading.problems_with(&costing)),
        csv::ways(kitchen, &costing, &trim),
        csv::sweeps(kitchen, &trim),
    ]
}

/// The first cell that would run, by the csv's own rules, or by those of a program that parts cells at semicolons or
/// tabs and rows at every line break, and heeds no quotation marks.
fn runs(table: &str) -> Option<String> {
    let mut reader = ::csv::Reader::from_reader(table.as_bytes());
    for record in reader.records() {
        for cell in &record.unwrap() {
            if cell.starts_with(STARTS) && cell.parse::<Decimal>().is_err() || cell.starts_with(['\t', '\r', '\n']) {
                return Some(cell.to_owned());
            }
        }
    }
    let shown = |piece: &&str| {
        piece.trim_matches(|c: char| c.is_whitespace() || c.is_control() || c == '"').starts_with(STARTS)
    };
    table.split([';', '\t', '\r', '\n']).find(shown).map(str::to_owned)
}

#[test]
fn what_is_typed_never_runs() {
    for text in [
        "=1+1",
        "+1",
        "-1",
        "@SUM(A1)",
        "＝1",
        "－1",
        "\t=1",
        "\r\n=1",
        " =1",
        "a;=1",
        "a;\"=1\"",
        "a\n-1",
        "\"=1\"",
        "=\"a\"",
        "=HYPERLINK(\"x\";\"y\")",
        "a\t@x",
        ";=1;+2;-3;@4",
        "\u{feff}=1",
        ",=1",
        "\",=1,\"",
    ] {
        // A file may be called anything, too.
        for table in tables(&format!("{}.csv", text.replace('/', "")), &book(text)) {
            assert_eq!(runs(&table), None, "{text:?} in\n{table}");
        }
    }
}

/// A dish that costs more than it sells for: its margin stays a number.
#[test]
fn a_figure_below_zero_is_left_alone() {
    let sound = "Item,Pack,Price\nLeeks,10 kg,15.00\n\nRecipe,-Stew\nPortions,1\nMenu price,0.50\nIngredient,Qty,Unit\nLeeks,1,kg\n";
    // 0.50 − 1.50.
    let dishes = &tables("book.csv", sound)[0];
    assert!(dishes.contains("\n'-Stew,'-Stew,1,portion,1.5,0.5,300,,,-1,"), "{dishes}");
}

/// The check itself sees what would run.
#[test]
fn what_would_run_is_seen() {
    for table in ["a\n=1\n", "a\nb;=1\n", "a\n\"b\n@x\"\n", "a\n\"b;\"\"=1\"\"\"\n", "a,b\nx,+y\n", "a\n＝1\n"] {
        assert!(runs(table).is_some(), "{table:?}");
    }
    assert_eq!(runs("a,b\n'=x,-1.5\n"), None);
}

fn typed() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(vec![
        "=", "+", "-", "@", "＝", "－", ";", "\t", "\n", "\r", "\"", ",", "'", " ", "a", "1", "Soup", "\u{a0}",
        "\u{feff}",
    ]);
    prop::collection::vec(piece, 1..8).prop_map(|pieces| pieces.concat())
}

proptest! {
    #![proptest_config(chance(64))]

    #[test]
    fn nothing_typed_by_chance_runs(text in typed()) {
        for table in tables("book.csv", &book(&text)) {
            prop_assert_eq!(runs(&table), None, "{:?} in\n{}", text, table);
        }
    }
}
