//! A quantity in a unit that the pack counts costs its share of the pack's price.

use super::{json, one, sound, told};

/// Six cans of 6.75 lb for 54.00: 9.00 a can. 150 limes of 30 lb for 60.00: 0.40 each.
const PACKS: &str = "Item,Pack,Price\nCling peaches,6/#10 (6 lb 12 oz),54.00\nKey limes,150 ct 30 lb,60.00\n\
                     Rolled oats,8/4 lb,40.00\nCider vinegar,12/750 ml,45.00\nRye flour,50 lb,30.00\nCups,500/cs,12.00\n\n";

#[test]
fn a_piece_and_a_can_cost_their_share_whatever_measures_say() {
    // Measures: a can of 7 lb, a lime of 3.4 oz (by the pack 30 lb ÷ 150 = 3.2 oz), a bag of 4.2 lb (4 lb): all within a
    // tenth, and none of them counts.
    let rows = "Item,Measure,Weighs\nCling peaches,#10 can,7 lb\nKey limes,each,3.4 oz\nRolled oats,bag,4.2 lb\n";
    let tables = format!("{PACKS}{rows}");
    let lines = [
        "Cling peaches,1,#10 can,,,", // 54.00 ÷ 6
        "Cling peaches,2,cans,,,",    // a can of it is one of those
        "Cling peaches,1,dozen,,,",   // of what? Only a piece is a dozenth: see below.
    ];
    assert_eq!(sound(&tables, &lines[..2]), ["9", "18"]);
    let lines = ["Key limes,1,each,,,", "Key limes,1,dozen,,,", "Key limes,3.2,oz,,AP,", "Rolled oats,3,bag,,,"];
    // 0.40; 12 × 0.40; 3.2 oz are one of 0.40; a bag is 40.00 ÷ 8 = 5.00.
    assert_eq!(sound(&tables, &lines), ["0.4", "4.8", "0.4", "15"]);
    let json = json(&tables, &lines);
    assert_eq!(json["recipes"][0]["lines"][0]["measure_from"], "pack");
    assert!(told(&json, "measures-disagree").is_empty());
}

#[test]
fn a_dozen_goes_by_the_packs_count_and_a_weight_far_from_it_is_told() {
    // 27: 88 for 44.00 is 0.50 each and 6.00 a dozen. By the pack 12 × 25 lb ÷ 88 = 3.409 lb; Measures say 5 lb.
    let tables =
        "Item,Pack,Price\nSeville oranges,88 ct 25 lb,44.00\n\nItem,Measure,Weighs\nSeville oranges,dozen,5 lb\n";
    let json = json(tables, &["Seville oranges,1,dozen,,,", "Seville oranges,3,each,,,"]);
    assert_eq!(super::costs(&json), ["6", "1.5"]);
    assert_eq!(
        told(&json, "measures-disagree"),
        [(
            "C10",
            "1 dozen of “Seville oranges” is 5 lb here and 3.409 lb by the pack at book.csv ▸ B7; the pack is used"
        )]
    );
}

#[test]
fn package_words_mean_the_pack_or_one_of_its_innermost() {
    for (line, cost) in [
        ("Cling peaches,1,case,,,", "54"),
        ("Key limes,1,box,,,", "60"),
        ("Key limes,0.5,flat,,,", "30"),
        ("Rolled oats,1,carton,,,", "40"),
        ("Rolled oats,1,sack,,,", "5"),
        ("Cider vinegar,1,bottle,,,", "3.75"), // 45.00 ÷ 12
        ("Cider vinegar,1,cs,,,", "45"),
        ("Rye flour,1,bag,,,", "30"), // the pack itself
        ("Cups,2,case,,,", "24"),
        ("Cups,1,sleeve,,,", "-"), // so many of 500? Nobody said.
    ] {
        assert_eq!(one(PACKS, line), cost, "{line}");
    }
    // What the pack says of a bag comes before Measures; of what it does not count, Measures speak.
    let rows = "Item,Measure,Weighs\nRolled oats,bag,8 lb\nRolled oats,scoopful,4 oz\nCups,sleeve,1 lb\n";
    assert_eq!(one(&format!("{PACKS}{rows}"), "Rolled oats,1,bag,,,"), "5");
    // 4 oz of 32 lb at 40.00: 0.3125.
    assert_eq!(one(&format!("{PACKS}{rows}"), "Rolled oats,1,scoopful,,,"), "0.3125");
}

#[test]
fn catch_weight_and_nominal_packs_join_nothing() {
    let tables = "Item,Pack,Price,Per\nPork belly,4/10 lb avg,3.00,lb\nCapons,8 ct 48 lb,2.00,lb\n\n";
    for line in ["Pork belly,1,case,,,", "Pork belly,1,bag,,,", "Capons,1,case,,,", "Capons,1,each,,,"] {
        let json = json(tables, &[line]);
        assert_eq!((super::costs(&json)[0].as_str(), told(&json, "measure-missing").len()), ("-", 1), "{line}");
    }
    // A row of Measures says what a piece of it weighs: 5 lb at 2.00.
    assert_eq!(one(&format!("{tables}Item,Measure,Weighs\nCapons,each,5 lb\n"), "Capons,1,each,,,"), "10");
}

#[test]
fn suppliers_whose_cases_differ_leave_the_word_open() {
    let tables = |preferred: &str| {
        format!(
            "Item,Pack,Price,Supplier,Preferred,Date\nRolled oats,8/4 lb,40.00,North Mill,{preferred},2026-11-01\n\
             Rolled oats,4/10 lb,48.00,South Mill,,2026-11-10\nRolled oats,6/5 lb,30.00,South Mill,,2026-01-02\n\
             Plums,6/#10 (6 lb 10 oz),54.00,North Mill,,2026-11-01\nPlums,6/#10 (6 lb 6 oz),50.00,South Mill,,2026-11-10\n"
        )
    };
    // South Mill's is the newer: 40 lb for 48.00. Weights are clear, bags and cases are not.
    assert_eq!(one(&tables(""), "Rolled oats,5,lb,,,"), "6");
    let both = json(&tables(""), &["Rolled oats,1,bag,,,"]);
    // 8/4 lb, 4/10 lb and 6/5 lb are three packs, all of them current.
    assert_eq!(
        told(&both, "measure-ambiguous"),
        [("B16", "1 bag of “Rolled oats” may be 10 lb of South Mill or 4 lb of North Mill or 5 lb of South Mill")]
    );
    // North Mill is preferred, and means 4 lb for 5.00.
    assert_eq!(one(&tables("yes"), "Rolled oats,1,bag,,,"), "5");
    assert_eq!(one(&tables("yes"), "Rolled oats,1,case,,,"), "40");
    // A can of one size is a can of that size, whatever its label says: 50.00 ÷ 6.
    assert_eq!(one(&tables(""), "Plums,3,can,,,"), "25");
}
