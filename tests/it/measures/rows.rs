//! Several rows of Measures for one item: which serves, and which cannot both be true.

use super::{json, one, sound, told};

#[test]
fn two_weights_for_one_measure_are_an_error_that_stops_its_lines_alone() {
    // 21: a cup of 200 g and of 190 g. The tablespoon and the piece are sound: 20 g, 100 g at 10.00 a kilo.
    let tables = "Item,Pack,Price\nSumac,1 kg,10.00\n\nItem,Measure,Weighs,Basis\nSumac,cup,200 g,\nSumac,cups,190 g,EP\n\
                  Sumac,tbsp,12 g,\nSumac,each,100 g,\n";
    let json = json(tables, &["Sumac,1,cup,,,"]);
    assert_eq!(super::costs(&json), ["-"]);
    assert_eq!(
        told(&json, "measure-twice"),
        [("C11", "1 cup of “Sumac” weighs 190 g here and 200 g at book.csv ▸ C10")]
    );
    assert_eq!(one(tables, "Sumac,1,tbsp,,,"), "0.12");
    assert_eq!(one(tables, "Sumac,2,each,,,"), "2");
    assert_eq!(one(tables, "Sumac,50,g,,,"), "0.5");
    // The same weight twice says nothing new.
    assert_eq!(sound(&tables.replace("190 g", "0.2 kg"), &["Sumac,1,cup,,,"]), ["2"]);
    // A preparation or a basis tells them apart.
    assert_eq!(sound(&tables.replace("cups,190 g", "\"cup, whole\",190 g"), &["Sumac,1,cup,,,"]), ["2"]);
    assert_eq!(sound(&tables.replace("190 g,EP", "190 g,AP"), &["Sumac,1,cup,,,", "Sumac,1,cup,,AP,"]), ["2", "1.9"]);
}

#[test]
fn ap_and_ep_rows_of_one_count_serve_each_its_own() {
    // 20: 10 kg for 20.00. A head is 500 g as purchased and 400 g edible, 80 %.
    let tables = "Item,Pack,Price\nEscarole,10 kg,20.00\n\nItem,Measure,Weighs,Basis\nEscarole,head,500 g,AP\n\
                  Escarole,head,400 g,EP\n";
    // 500 g; 400 g ÷ 80 % = 500 g; 400 g edible; 400 g as purchased.
    let lines = ["Escarole,1,head,,,", "Escarole,1,head,,EP,", "Escarole,400,g,,,", "Escarole,400,g,,AP,"];
    assert_eq!(sound(tables, &lines), ["1", "1", "1", "0.8"]);
    // Priced by the head, 24 for 24.00: a weight goes by the row of its own basis.
    let heads = tables.replace("10 kg,20.00", "24 head,24.00");
    assert_eq!(sound(&heads, &lines), ["1", "1", "1", "0.8"]);
}

#[test]
fn volume_rows_serve_each_its_own_basis_and_imply_no_yield() {
    let tables = "Item,Pack,Price,Yield\nSorrel,10 kg,50.00,50%\n\nItem,Measure,Weighs,Basis\nSorrel,cup,30 g,AP\n\
                  Sorrel,cup,60 g,EP\n";
    // 30 g at 5.00 a kilo; 60 g ÷ 50 % = 120 g. A cup of edible leaves weighs more than one with stalks: no error.
    assert_eq!(sound(tables, &["Sorrel,1,cup,,AP,", "Sorrel,1,cup,,,"]), ["0.15", "0.6"]);
    // Where only one is given it serves both, the yield crossed once: 60 g ÷ 50 %.
    let only = tables.replace("Sorrel,cup,30 g,AP\n", "");
    assert_eq!(sound(&only, &["Sorrel,1,cup,,AP,", "Sorrel,1,cup,,,"]), ["0.6", "0.6"]);
    let none = tables.replace(",50%", ",");
    assert_eq!(sound(&none, &["Sorrel,100,g,,,"]), ["0.5"], "no yield is implied");
}

/// A cup of 240 g, and a tablespoon of 12 g: 192 g a cup, more than a tenth off. A kilo is 10.00.
const UNITS: &str = "Item,Pack,Price\nCarob,1 kg,10.00\n\nItem,Measure,Weighs\nCarob,cup,240 g\nCarob,tbsp,12 g\n";

#[test]
fn of_volume_rows_that_of_the_lines_unit_serves_else_the_nearest() {
    // A quart is 4 cups and 64 tbsp: the cup, 960 g. A teaspoon is a third of a tbsp: 4 g. 4 tbsp are a quarter of a cup, but
    // the line's unit is tbsp: 48 g. Two tsp: 8 g. Half a fluid ounce each way: 1 fl oz is 2 tbsp, an eighth of a cup: 24 g.
    let lines = ["Carob,1,cup,,,", "Carob,4,tbsp,,,", "Carob,1,qt,,,", "Carob,2,tsp,,,", "Carob,1,fl oz,,,"];
    let json = json(UNITS, &lines);
    crate::support::no_errors(&json);
    assert_eq!(super::costs(&json), ["2.4", "0.48", "9.6", "0.08", "0.24"]);
    assert_eq!(
        told(&json, "measures-disagree"),
        [(
            "C11",
            "1 tbsp of “Carob” weighs 12 g here and 1 cup 240 g at book.csv ▸ C10: for the same amount more than 10 % apart"
        )]
    );
    // Within a tenth nothing is said: 14 g a tbsp are 224 g a cup.
    assert!(told(&super::json(&UNITS.replace("12 g", "14 g"), &lines), "measures-disagree").is_empty());
}

#[test]
fn of_two_as_near_the_larger_serves_and_grams_take_the_largest() {
    // A pint is half a quart and two cups: the quart of 1 kg, 500 g.
    let tables = "Item,Pack,Price\nCarob,1 kg,10.00\n\nItem,Measure,Weighs\nCarob,cup,240 g\nCarob,qt,1 kg\n";
    assert_eq!(one(tables, "Carob,1,pt,,,"), "5");
    // Priced by the quart at 10.00, grams take the quart of 1 kg: 100 g are 1.00.
    assert_eq!(one(&tables.replace("1 kg,10.00", "1 qt,10.00"), "Carob,100,g,,,"), "1");
}

#[test]
fn a_row_that_cannot_be_understood_is_an_error_at_its_cell() {
    let book = |measure: &str, rest: &str| {
        format!("Item,Pack,Price\nCarob,1 kg,10.00\n\nItem,Measure,{rest}\nCarob,cup,240 g\nCarob,{measure}\n")
    };
    for (row, cell, message) in [
        ("2 cups,480 g", "B11", "“2 cups” names no one measure"),
        ("?,10 g", "B11", "“?” names no one measure"),
        ("lb,450 g", "B11", "lb is a weight already, and this row says that it is 450 g"),
    ] {
        let json = json(&book(row, "Weighs"), &["Carob,1,cup,,,"]);
        assert_eq!(told(&json, "measure-not-understood"), [(cell, message)], "{row}");
        // The cup is sound, and no line uses the other.
        assert_eq!(super::costs(&json), ["2.4"], "{row}");
    }
    let json = json("Item,Pack,Price\nCarob,1 kg,10.00\n\nItem,Measure,Holds\nCarob,cup,250 ml\n", &["Carob,1,g,,,"]);
    assert_eq!(
        told(&json, "measure-not-understood"),
        [("B10", "cup is a volume already, and this row says that it is 250 ml")]
    );
    // A basis that is none: which of a piece's weights it is cannot be told, so pieces are stopped, and cups are not.
    let tables =
        "Item,Pack,Price\nCarob,1 kg,10.00\n\nItem,Measure,Weighs,Basis\nCarob,cup,240 g,\nCarob,each,20 g,whole\n";
    assert_eq!((one(tables, "Carob,1,cup,,,"), one(tables, "Carob,1,each,,,")), ("2.4".to_owned(), "-".to_owned()));
}
