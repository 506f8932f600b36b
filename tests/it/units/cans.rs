//! Cans in the program: counted as cans; by weight or volume through their label weight, a Measures row, or with a warning
//! the published figure.

use serde_json::Value;

use crate::support::{cost_json, dec, line, no_errors};

/// A recipe of one line that asks for something of six cans at 42.00, so 7.00 a can.
fn costed(pack: &str, measures: &str, qty: &str) -> Value {
    let text = format!(
        "Setting,Value\nCurrency,USD\n\nItem,Pack,Price\nPlum tomatoes,{pack},42.00\n\n{measures}\nRecipe,Sauce\nPortions,1\n\
         Ingredient,Qty\nPlum tomatoes,{qty}\n"
    );
    cost_json(&[("book.csv", &text)])
}

fn warnings(json: &Value) -> Vec<(&str, &str)> {
    let problems = json["problems"].as_array().unwrap().iter();
    let cans = problems.filter(|problem| problem["code"] == "can-published");
    cans.map(|problem| (problem["severity"].as_str().unwrap(), problem["message"].as_str().unwrap())).collect()
}

#[track_caller]
fn assert_costs(json: &Value, cost: &str) {
    no_errors(json);
    assert_eq!(dec(&line(json, "Sauce", "Plum tomatoes")["cost"]), cost.parse().unwrap());
}

/// Every size with its figures (containers.tsv; see `containers.rs`): a tenth of what is taken costs 0.70.
#[test]
fn every_size_serves_by_its_published_figures_with_a_warning() {
    for (pack, can, oz, fl_oz) in [
        ("6/#10", "#10 can", "10.5", "9.6"),
        ("6/No. 10", "#10 can", "10.5", "9.6"),
        ("6xA10", "#10 can", "10.5", "9.6"),
        ("6 x A10 tins", "#10 can", "10.5", "9.6"),
        ("6/#5 squat", "#5 squat can", "6.8", "6.4"),
        ("6/#5", "#5 can", "", "5.6"),
        ("6/#3 cyl", "#3 cylinder can", "5.1", "4.6"),
        ("6/No. 3 cylinder", "#3 cylinder can", "5.1", "4.6"),
        ("6/#3", "#3 can", "", "3.2"),
        ("6/#2 1/2", "#2-1/2 can", "2.9", "2.6"),
        ("6/#2-1/2", "#2-1/2 can", "2.9", "2.6"),
        ("6/#2½", "#2-1/2 can", "2.9", "2.6"),
        ("6/#2", "#2 can", "2", "1.8"),
        ("6/#303", "#303 can", "1.6", "1.5"),
        ("6/#300 cans", "#300 can", "1.45", "1.35"),
        ("6/#1 tall", "#1 tall can", "1.6", "1.5"),
        ("6/No. 1 (picnic)", "#1 picnic can", "1.1250", "1"),
        ("6/#1", "#1 can", "", "1"),
    ] {
        for (qty, verb) in [(format!("{oz} oz wt"), "weighs"), (format!("{fl_oz} US fl oz"), "holds")] {
            if qty.starts_with(' ') {
                continue;
            }
            let json = costed(pack, "", &qty);
            assert_costs(&json, "0.70");
            let [(severity, message)] = warnings(&json)[..] else { panic!("{pack} {qty}: {:#}", json["problems"]) };
            let starts = format!("nothing says what a {can} of “Plum tomatoes” {verb}; the published ");
            assert!(severity == "warning" && message.starts_with(&starts), "{message}");
            assert_eq!(line(&json, "Sauce", "Plum tomatoes")["measure_from"], "reference");
        }
        if oz.is_empty() {
            let json = costed(pack, "", "1 lb");
            assert!(json["problems"].to_string().contains("measure-missing"), "{pack} has no published weight");
        }
    }
}

#[test]
fn what_the_label_or_the_kitchen_says_comes_first() {
    // 6 lb 9 oz is 105 oz, and 10.5 oz a tenth of a can.
    let json = costed("6/#10 (6 lb 9 oz)", "", "10.5 oz");
    assert_costs(&json, "0.70");
    assert_eq!(warnings(&json), []);
    // A can of 70 oz drained: 7 oz is a tenth, whatever is published.
    let row = "Item,Measure,Weighs,Basis\nPlum tomatoes,#10 can,70 oz,EP\n\n";
    let json = costed("6/#10", row, "7 oz");
    assert_costs(&json, "0.70");
    assert_eq!(warnings(&json), []);
    // A cup of it is known to weigh 7 oz, the can 70.
    let rows = "Item,Measure,Weighs,Basis\nPlum tomatoes,#10 can,70 oz,\nPlum tomatoes,cup,7 oz,\n\n";
    let json = costed("6/#10", rows, "1 cup");
    assert_costs(&json, "0.70");
    assert_eq!(warnings(&json), []);
}

#[test]
fn cans_counted_as_cans_need_no_figure() {
    for (pack, qty) in [("6/#10", "2 #10 cans"), ("6xA10", "2 cans"), ("6/No. 10", "2 A10"), ("6/#2½", "2 no. 2½ tins")]
    {
        let json = costed(pack, "", qty);
        assert_costs(&json, "14");
        assert_eq!(warnings(&json), []);
    }
}

/// Priced by the label weight and asked for in cups: the published volume joins what the label does not.
#[test]
fn a_label_weight_and_the_published_volume_chain() {
    // 12 cups are 96 fl oz, one can: 39.375 lb cost 42.00, 6.5625 lb of them 7.00.
    let json = costed("6/#10 (6 lb 9 oz)", "", "12 US cups");
    assert_costs(&json, "7");
    assert_eq!(warnings(&json).len(), 1);
}

/// What went into a yield test by weight, of an item bought by the can: the test is warned of, at its row.
#[test]
fn a_yield_test_of_cans_is_warned_of() {
    let text = "\
Setting,Value
Currency,USD

Item,Pack,Price
Chickpeas,6/#10,42.00

Test,Role,Part,Weight,Unit
Draining,as purchased,Chickpeas,105,oz
Draining,main,Drained chickpeas,70,oz

Recipe,Salad
Portions,1
Ingredient,Qty,Unit
Drained chickpeas,7,oz
";
    let json = cost_json(&[("book.csv", text)]);
    no_errors(&json);
    // 105 oz are one can, 7.00; a tenth of what drains is 0.70.
    assert_eq!(dec(&line(&json, "Salad", "Drained chickpeas")["cost"]), "0.70".parse().unwrap());
    let cans: Vec<_> = json["problems"].as_array().unwrap().iter().filter(|p| p["code"] == "can-published").collect();
    assert_eq!(cans.len(), 1, "{cans:#?}");
    assert_eq!(cans[0]["cell"], "C8");
}
