//! The kitchen's own measure, however it is spelled, is never dropped.

use super::{json, sound, told};

#[test]
fn one_measure_in_four_spellings() {
    // 2 kg for 8.00: a cup of 150 g is 0.60.
    for row in ["\"cup, diced\"", "cup diced", "diced cup", "cup (diced)"] {
        let tables = format!(
            "Item,Pack,Price\n\"Onions, yellow\",2 kg,8.00\n\nItem,Measure,Weighs\n\"Onions, yellow\",{row},150 g\n"
        );
        let lines = [
            "\"Onions, yellow\",1,cup,diced,,",
            "\"Onions, yellow\",1,cup diced,,,",
            "\"Onions, yellow\",1,diced cup,,,",
            "\"Onions, yellow\",1,cup (diced),,,",
            "\"Onions, yellow\",1 cup diced,,,,",
            "\"Onions, yellow\",1,\"cup, diced\",,,",
        ];
        assert_eq!(sound(&tables, &lines), ["0.6"; 6], "{row}");
        let json = json(&tables, &lines);
        assert!(told(&json, "measure-borrowed").is_empty(), "{row}");
        assert_eq!(json["recipes"][0]["lines"][1]["unit"], "cup diced", "as typed");
    }
}

#[test]
fn a_row_never_asked_for_while_one_is_borrowed_is_named() {
    // Fried, nobody asks; SR28 11282 lends a cup, chopped, of 160 g: 160 g of 90 % at 4.00 a kilo is not hers.
    let tables = "Item,Pack,Price\n\"Onions, yellow\",2 kg,8.00\n\nItem,Measure,Weighs\n\"Onions, yellow\",\"cup, fried\",120 g\n";
    let json = json(tables, &["\"Onions, yellow\",1,each,,,"]);
    let found = told(&json, "measure-passed-over");
    assert_eq!(found.len(), 1, "{:#?}", json["problems"]);
    let (cell, message) = found[0];
    assert_eq!(cell, "B10");
    assert!(
        message.starts_with("no line asks for “cup, fried” of “Onions, yellow”, while a borrowed measure is used: "),
        "{message}"
    );
    // Where a line asks for it, nothing is said.
    let both = ["\"Onions, yellow\",1,each,,,", "\"Onions, yellow\",1,cup,fried,,"];
    assert!(told(&super::json(tables, &both), "measure-passed-over").is_empty());
}
