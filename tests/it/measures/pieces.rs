//! What a piece weighs, as purchased and edible, and the yield that the two imply.

use super::{json, one, sound, told};
use crate::support::rounded;

/// A can of 6.75 lb for 9.00, drained 4.875 lb: 13 ÷ 18 = 72.2222 %.
const PEACHES: &str = "Item,Pack,Price,Yield\nCling peaches,6/#10 (6 lb 12 oz),54.00,YIELD\n\n\
                       Item,Measure,Weighs,Basis\nCling peaches,#10 can,4 lb 14 oz,EP\n";

fn peaches(stated: &str) -> String {
    PEACHES.replace("YIELD", stated)
}

#[test]
fn the_drained_weight_of_a_can_implies_its_yield() {
    // 4.875 lb, 78 oz, drained are one can, 9.00; 13 oz, a sixth of it, 1.50. A can as purchased is 9.00, and 6.75 lb as purchased.
    let lines =
        ["Cling peaches,78,oz,,,", "Cling peaches,13,oz,,,", "Cling peaches,1,can,,,", "Cling peaches,6.75,lb,,AP,"];
    let json = json(&peaches(""), &lines);
    crate::support::no_errors(&json);
    assert_eq!(super::costs(&json), ["9", "1.5", "9", "9"]);
    let lines = &json["recipes"][0]["lines"];
    assert_eq!(lines[0]["yield_from"], "piece");
    assert_eq!(rounded(&lines[0]["yield_percent"], 6).to_string(), "72.222222");
    assert_eq!((&lines[2]["yield_percent"], &lines[2]["measure_from"]), (&serde_json::Value::Null, &"pack".into()));
    // One can, EP, is what is left of it: 4.875 lb, one can.
    assert_eq!(one(&peaches(""), "Cling peaches,1,can,,EP,"), "9");
}

#[test]
fn a_stated_yield_stands_before_and_is_told_where_it_differs_by_more_than_two_points() {
    // 72 % is 0.22 points off: 4.875 lb ÷ 72 % × 8.00 ÷ 6 a pound = 9.0277777778.
    let near = json(&peaches("72%"), &["Cling peaches,78,oz,,,"]);
    assert_eq!(super::costs(&near), ["9.0277777778"]);
    assert!(told(&near, "yield-disagrees").is_empty());
    // 65 %: 4.875 × 1.3333333333 ÷ 65 % = 10.
    let far = json(&peaches("65%"), &["Cling peaches,78,oz,,,"]);
    assert_eq!(super::costs(&far), ["10"]);
    assert_eq!(
        told(&far, "yield-disagrees"),
        [(
            "D7",
            "the price row says 65 %, the weight of a piece of “Cling peaches”, edible and as purchased, gives 72.2 %; the \
             price row is used"
        )]
    );
    // A line's own stands before both: 4.875 ÷ 50 % × 1.3333333333 = 13.
    assert_eq!(one(&peaches("65%"), "Cling peaches,78,oz,,,50%"), "13");
}

#[test]
fn it_stands_before_a_reference_food() {
    // Bulbs of 10 oz, trimmed 7 oz: 70 %. SR28 11282 has 90 % for onions.
    let tables = "Item,Pack,Price,Reference food\nWelsh onions,20 lb,16.00,\"onion, yellow\"\n\n\
                  Item,Measure,Weighs,Basis\nWelsh onions,bulb,10 oz,AP\nWelsh onions,bulb,7 oz,EP\n";
    // 7 lb edible are 10 lb at 0.80.
    assert_eq!(one(tables, "Welsh onions,7,lb,,,"), "8");
}

/// 100 for 100.00; 100 g of each is edible.
const BY_COUNT: &str =
    "Item,Pack,Price,Yield\nBaby gem,100 ct,100.00,80%\n\nItem,Measure,Weighs,Basis\nBaby gem,each,100 g,EP\n\n";

#[test]
fn of_what_is_priced_by_the_piece_the_edible_weight_holds_the_yield() {
    let lines = ["Baby gem,500,g,,,", "Baby gem,2,each,,,", "Baby gem,2,each,,EP,", "Baby gem,500,g,,AP,"];
    // 500 g edible are five, 5.00; two are 2.00, edible or not; a piece as purchased is 100 ÷ 80 % = 125 g: 500 g are four.
    let json = json(BY_COUNT, &lines);
    crate::support::no_errors(&json);
    assert_eq!(super::costs(&json), ["5", "2", "2", "4"]);
    let found = &json["recipes"][0]["lines"];
    assert_eq!((&found[0]["yield_from"], &found[0]["yield_percent"]), (&"piece".into(), &"80".into()));
    assert_eq!((&found[3]["base_qty"], &found[3]["base_unit"]), (&"4".into(), &"each".into()));
    // A line's own yield beside it is not used.
    let own = super::json(BY_COUNT, &["Baby gem,500,g,,,50%"]);
    assert_eq!(super::costs(&own), ["5"]);
    assert_eq!(
        told(&own, "yield-unused"),
        [(
            "F16",
            "“Baby gem” is priced by the piece, and what is left of a piece is weighed: that holds the yield, so 50 % is not \
             used"
        )]
    );
}

#[test]
fn a_trim_test_beside_an_edible_piece_rules_edible_weights_alone() {
    // Ten, 1.25 kg, cost 10.00; 1 kg of hearts and 0.2 kg of leaves at 5.00 a kilo, 1.00: the hearts bear 9.00 a kilo.
    let test = "Test,Role,Part,Weight,Charged as,Value\nGem test,as purchased,Baby gem,\"10 each, 1250 g\",,\n\
                Gem test,main,Gem hearts,1 kg,,\nGem test,by-product,Gem leaves,0.2 kg,price,5.00 / kg\n";
    let tables = format!("{BY_COUNT}{test}");
    let lines = [
        "Baby gem,500,g,,,",
        "Baby gem,2,each,,EP,",
        "Baby gem,2,each,,,",
        "Baby gem,500,g,,AP,",
        "Baby gem,500,g,,,90%",
    ];
    // 500 g × 9.00 = 4.50; two edible are 200 g, 1.80; two are 2.00; 500 g ÷ 125 g of the test's ten = 4.00; its own yield
    // is not used beside an edible piece: 4.50.
    let json = json(&tables, &lines);
    crate::support::no_errors(&json);
    assert_eq!(super::costs(&json), ["4.5", "1.8", "2", "4", "4.5"]);
    let from: Vec<&str> =
        json["recipes"][0]["lines"].as_array().unwrap().iter().map(|l| l["yield_from"].as_str().unwrap()).collect();
    assert_eq!(from, ["test", "test", "none", "none", "test"]);
    assert!(told(&json, "yield-disagrees").is_empty(), "80 % is said by the row, the test and the piece alike");
    // Where they differ, the message says what the figure does: 75 % is stated, the test has 80 %.
    let other = super::json(&tables.replace("80%", "75%"), &["Baby gem,500,g,,,"]);
    assert_eq!(super::costs(&other), ["4.5"]);
    let said: Vec<&str> = told(&other, "yield-disagrees").into_iter().map(|(_, message)| message).collect();
    assert_eq!(said.len(), 2);
    assert!(said.iter().all(|message| message.ends_with("test is used")), "{said:?}");
}

/// Two rows of one run say what went in, one of them with a count: neither says what a piece weighs, in whatever order (found
/// by kitchens of chance). Nor is there a yield to work it from what is edible of one, so the line is not costed.
#[test]
fn a_run_with_two_inputs_weighs_no_piece() {
    let tables = |inputs: [&str; 2]| {
        let rows = inputs.map(|weight| format!("Gem test,as purchased,Baby gem,{weight}\n"));
        format!(
            "Item,Pack,Price\nBaby gem,100 ct,100.00\n\nItem,Measure,Weighs,Basis\nBaby gem,each,0.5 lb,EP\n\n\
             Test,Role,Part,Weight\n{}Gem test,main,Gem hearts,10 lb\n\n",
            rows.concat()
        )
    };
    let counted = "\"10 each, 20 lb\"";
    let figures = |inputs| {
        let json = json(&tables(inputs), &["Baby gem,4,lb,,AP,"]);
        assert!(told(&json, "test-not-understood").len() == 1, "{json:#}");
        json["recipes"][0]["lines"][0]["cost"].clone()
    };
    assert_eq!(figures([counted, "30 lb"]), serde_json::Value::Null);
    assert_eq!(figures(["30 lb", counted]), serde_json::Value::Null);
    // A weight that says no unit is another that went in, wherever it stands.
    assert_eq!(figures([counted, "30"]), serde_json::Value::Null);
    assert_eq!(figures(["30", counted]), serde_json::Value::Null);
}

#[test]
fn two_pieces_edible_are_two_over_the_yield_where_nothing_says_what_is_left_of_one() {
    // 40 for 20.00, 80 % edible: 2 ÷ 80 % × 0.50 = 1.25; of a pack with weights the same.
    for pack in ["40 ct", "40 ct 30 lb"] {
        let tables = format!("Item,Pack,Price,Yield\nFennel,{pack},20.00,80%\n\n");
        assert_eq!(one(&tables, "Fennel,2,each,,EP,"), "1.25", "{pack}");
        // With a test of 75 %, whose tops are worth 0.20, the bulbs bear 1.80 of 2.00 for 2.25 lb: 0.80 a pound. Two pieces of
        // 0.75 lb as edible portion are 1.5 lb, 1.20.
        let test = "Test,Role,Part,Weight,Charged as,Value\nFennel test,as purchased,Fennel,\"4 each, 3 lb\",,\n\
                    Fennel test,main,Fennel bulb,2.25 lb,,\nFennel test,by-product,Fennel tops,0.5 lb,price,0.40 / lb\n";
        assert_eq!(one(&format!("{tables}{test}"), "Fennel,2,each,,EP,"), "1.2", "{pack}");
        assert_eq!(one(&format!("{tables}{test}"), "Fennel,2.25,lb,,,"), "1.8", "{pack}");
    }
}

#[test]
fn a_piece_as_purchased_is_its_edible_weight_over_the_yield() {
    // 20 kg for 40.00. A head is 900 g trimmed, 80 % of it: 1125 g as purchased; two are 2250 g, 4.50.
    let tables = "Item,Pack,Price,Yield\nHispi cabbage,20 kg,40.00,80%\n\n\
                  Item,Measure,Weighs,Basis\nHispi cabbage,each,900 g,EP\n";
    let json = json(tables, &["Hispi cabbage,2,each,,,", "Hispi cabbage,2,each,,EP,", "Hispi cabbage,2,each,,,90%"]);
    // Edible: 1800 g ÷ 80 %, the same. With a yield of its own the line is edible too: 1800 g ÷ 90 % = 2000 g, 4.00.
    assert_eq!(super::costs(&json), ["4.5", "4.5", "4"]);
    let line = &json["recipes"][0]["lines"][0];
    assert_eq!((&line["base_qty"], &line["yield_percent"]), (&"2250".into(), &serde_json::Value::Null));
    assert_eq!((&line["basis"], &line["unit_cost"]), (&"AP".into(), &"0.002".into()));
}

#[test]
fn what_a_test_weighed_as_purchased_is_a_pieces_weight() {
    // Two tests, so neither gives a yield; five pieces were weighed, 10 kg: 2 kg each at 3.00 a kilo.
    let tables = "Item,Pack,Price\nCelery root,20 kg,60.00\n\nTest,Role,Part,Weight\n\
                  A,as purchased,Celery root,\"2 each, 4.5 kg\"\nA,main,Root dice,3 kg\n\
                  B,as purchased,Celery root,\"3 each, 5.5 kg\"\nB,main,Root slices,4 kg\n";
    assert_eq!(one(tables, "Celery root,3,each,,,"), "18");
    // A row of Measures stands before it: 1.5 kg.
    assert_eq!(
        one(&format!("{tables}\nItem,Measure,Weighs\nCelery root,each,1.5 kg\n"), "Celery root,3,each,,,"),
        "13.5"
    );
}

const TWO_MAINS: &str = "Item,Pack,Price,Yield\nSpring lamb,20 kg,200.00,\n\nTest,Role,Part,Weight\n\
                         Lamb test,as purchased,Spring lamb,10 kg\nLamb test,main,Leg,3 kg\nLamb test,main,Rack,2 kg\n\n";

#[test]
fn several_mains_stop_edible_lines_and_no_others() {
    let rows = "Item,Measure,Weighs,Basis\nSpring lamb,each,5 kg,AP\n";
    // As purchased: a kilo 10.00, a piece of 5 kg 50.00.
    assert_eq!(sound(&format!("{TWO_MAINS}{rows}"), &["Spring lamb,1,kg,,AP,", "Spring lamb,1,each,,,"]), ["10", "50"]);
    for line in ["Spring lamb,1,kg,,,", "Spring lamb,1,each,,EP,"] {
        let json = json(&format!("{TWO_MAINS}{rows}"), &[line]);
        assert_eq!((super::costs(&json)[0].as_str(), told(&json, "mains-several").len()), ("-", 1), "{line}");
    }
    // Priced by the piece, with an edible weight: always an error for an edible weight, never for a piece.
    let counted = TWO_MAINS.replace("20 kg", "4 ct").replace("lamb,10 kg", "lamb,\"2 each, 10 kg\"");
    let edible = format!("{counted}Item,Measure,Weighs,Basis\nSpring lamb,each,3 kg,EP\n");
    let weight = json(&edible, &["Spring lamb,1,kg,,,"]);
    assert_eq!(told(&weight, "mains-several").len(), 1);
    assert_eq!(one(&edible, "Spring lamb,1,each,,,"), "50");
    // By weight as purchased a piece of the test is 5 kg.
    assert_eq!(one(&edible, "Spring lamb,1,kg,,AP,"), "10");
}

#[test]
fn with_several_mains_an_edible_weight_tells_no_weight_as_purchased() {
    let json =
        json(&format!("{TWO_MAINS}Item,Measure,Weighs,Basis\nSpring lamb,each,3 kg,EP\n"), &["Spring lamb,1,each,,,"]);
    assert!(told(&json, "mains-several").is_empty());
    assert_eq!(
        told(&json, "piece-unweighed"),
        [(
            "B20",
            "“Spring lamb” is broken down into several mains, so its edible weight does not tell what a piece weighs as \
             purchased"
        )]
    );
}

#[test]
fn of_two_implied_yields_the_lower_serves_and_is_told() {
    // A head of 1000 g leaves 700 g, 70 %; a leaf of 10 g leaves 8 g, 80 %.
    let tables = "Item,Pack,Price\nRed chicory,10 kg,30.00\n\nItem,Measure,Weighs,Basis\nRed chicory,head,1000 g,AP\n\
                  Red chicory,head,700 g,EP\nRed chicory,leaf,10 g,AP\nRed chicory,leaf,8 g,EP\n";
    let json = json(tables, &["Red chicory,700,g,,,"]);
    // 700 g ÷ 70 % = 1 kg, 3.00.
    assert_eq!(super::costs(&json), ["3"]);
    assert_eq!(
        told(&json, "yield-disagrees"),
        [(
            "C13",
            "the edible weight here implies a yield of 80 % for “Red chicory”, that at book.csv ▸ C11 70 %; the lower is used"
        )]
    );
}

#[test]
fn an_edible_piece_heavier_than_the_piece_is_an_error_where_it_would_count() {
    let tables = |stated: &str| {
        format!(
            "Item,Pack,Price,Yield\nPapaya,12 ct 18 lb,36.00,{stated}\n\nItem,Measure,Weighs,Basis\n\
             Papaya,each,1 lb 14 oz,EP\n"
        )
    };
    // A papaya is 18 ÷ 12 = 1.5 lb for 3.00; 1 lb 14 oz cannot be left of it.
    let json = json(&tables(""), &["Papaya,1,lb,,,"]);
    assert_eq!(super::costs(&json), ["-"]);
    assert_eq!(
        told(&json, "yield-too-high"),
        [("C10", "1 each of “Papaya” is 1.875 lb EP here and 1.5 lb AP at book.csv ▸ B7")]
    );
    assert_eq!(one(&tables(""), "Papaya,1,each,,,"), "3");
    assert_eq!(one(&tables(""), "Papaya,1,lb,,AP,"), "2");
    // A stated yield needs no other: 1 lb ÷ 50 % × 2.00.
    assert_eq!(one(&tables("50%"), "Papaya,1,lb,,,"), "4");
}
