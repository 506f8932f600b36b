//! Units of the stock list and the counts that lead nowhere: told at their cells, once a row, beside whatever else is wrong.

use serde_json::Value;

use crate::cli::Folder;
use crate::support::{cost_json, recipe};

/// Row 19 to 23 are the stock list, row 26 and 27 the counts.
const BOOK: &str = "\
Setting,Value
Currency,USD
Costing date,2026-11-20
Target food cost,30%

Item,Pack,Price
Flour,50 lb,$20.00
Oil,6/750 ml,$36.00
Wine,12/750 ml,$96.00

Recipe,Bread
Portions,10
Menu price,3.00
Ingredient,Qty,Unit
Flour,5,lb
Oil,1,bottle

Item,On hand,On order,Unit
Flour,3,1 sack,cup
Oil,2 lb,2 lb,
Wine,2 bottle,1 ozz,
Flour,0 cup,,
Flour,5 lb,,

Item,Opening,Purchases,Closing,Unit
Oil,3,2,1,lb
Flour,10 lb,,5 lb,

Dish,Portions
Bread,20
";

/// The errors as `cell code`.
fn errors(json: &Value) -> Vec<String> {
    let text = |problem: &Value, key: &str| problem[key].as_str().unwrap().to_owned();
    let errors = json["problems"].as_array().unwrap().iter().filter(|problem| problem["severity"] == "error");
    errors.map(|problem| format!("{} {}", text(problem, "cell"), text(problem, "code"))).collect()
}

/// A cup of flour by weight, and a pound of oil by volume, on hand, on order and counted; one problem for the two of a row.
/// Nothing is nothing in any unit.
#[test]
fn a_unit_that_leads_nowhere_is_told_at_its_cell_once_a_row() {
    let json = cost_json(&[("book.csv", BOOK)]);
    assert_eq!(
        errors(&json),
        ["B19 measure-missing", "B20 measure-missing", "C21 unit-unknown", "B26 measure-missing"],
        "{:#}",
        json["problems"]
    );
    let of = |cell: &str, key: &str| {
        let problem = json["problems"].as_array().unwrap().iter().find(|problem| problem["cell"] == cell).unwrap();
        problem[key].as_str().unwrap().to_owned()
    };
    assert_eq!(of("B19", "message"), "“Flour” is counted in cup but priced by weight, and nothing joins the two");
    assert_eq!(
        of("B19", "help"),
        "Add a Measures row: Item Flour, Measure cup, Weighs what it weighs, such as 4 oz; or count it by weight."
    );
    assert!(of("C21", "help").starts_with("Did you mean oz?"), "{}", of("C21", "help"));
    // The recipe costs what it did: 5 lb at 0.40 and a bottle at 6.00.
    assert_eq!(recipe(&json, "Bread")["food_cost"], "8");
    // What the help says to type mends it.
    let mended = format!("{BOOK}\nItem,Measure,Weighs\nFlour,cup,4 oz\nOil,cup,8 oz\n");
    assert_eq!(errors(&cost_json(&[("book.csv", &mended)])), ["C21 unit-unknown"]);
}

#[test]
fn every_command_tells_it_and_says_what_it_left_out() {
    let folder = Folder::with("book.csv", BOOK);
    let message = "“Flour” is counted in cup but priced by weight, and nothing joins the two";
    let told = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ").matches(message).count();
    let check = folder.run(&["check", "book.csv"]).ends(1);
    assert_eq!(told(&check.out), 1, "{}", check.out);
    assert!(check.out.contains("book.csv ▸ B19 [measure-missing]"), "{}", check.out);
    let cost = folder.run(&["cost", "book.csv"]).ends(1);
    assert!(cost.err.contains("book.csv ▸ B19 [measure-missing]"), "{}", cost.err);
    let buy = folder.run(&["buy", "book.csv"]).ends(1);
    let left_out = "What is on hand of Flour could not be weighed against the plan, so it counts as nothing";
    assert!(buy.out.split_whitespace().collect::<Vec<_>>().join(" ").contains(left_out), "{}", buy.out);
    let control = folder.run(&["control", "book.csv"]).ends(1);
    assert!(control.out.contains("Opening of Oil is in a unit that nothing leads from"), "{}", control.out);
    // In the costed workbook it stands at the cell of that sheet.
    assert_eq!(folder.run(&["check", "book.costed.xlsx"]).ends(1).out.matches("[measure-missing]").count(), 3);
}
