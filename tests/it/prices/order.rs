//! The order of rows and files decides nothing: ties by rule, contradictions, rows at fault; and a law over prices with ties
//! wherever a tie can be.

use proptest::collection::vec;
use proptest::prelude::*;
use serde_json::Value;

use super::{everywhere, food, soup, told};
use crate::analysis::d;
use crate::laws::kitchen::shuffle;
use crate::support::{chance, cost_json, recipe};

const HEAD: &str = "Item,Pack,Price,Per,Supplier,Code,Date,Until,Yield,Preferred,Reference food,Allergens\n";

fn of(rows: &[String]) -> String {
    soup(&format!("{HEAD}{}", rows.concat()))
}

/// Costs the same rows forwards and backwards.
#[track_caller]
fn either_way(rows: &[&str]) -> Value {
    let rows: Vec<String> = rows.iter().map(|row| format!("Leeks,{row}\n")).collect();
    let json = everywhere(&of(&rows));
    let backwards: Vec<String> = rows.into_iter().rev().collect();
    assert_eq!(food(&json), food(&cost_json(&[("book.csv", &of(&backwards))])));
    json
}

/// Per usable pound both are 2.50: 20.00 ÷ 10 ÷ 80 % and 25.00 ÷ 10. An AP line costs 2.00 of the one and 2.50 of the other: the
/// cheaper per AP unit counts.
#[test]
fn equal_per_ep_unit_the_cheaper_per_ap_unit() {
    let rows = ["10 lb,$25.00,,North,,2026-11-01,,100%,,,", "10 lb,$20.00,,South,,2026-11-01,,80%,,,"];
    let json = either_way(&rows);
    assert_eq!(food(&json), Some(d("2.5")));
    let as_purchased = |rows: Vec<String>| {
        cost_json(&[(
            "book.csv",
            &of(&rows).replace("Ingredient,Qty,Unit\nLeeks,1,lb", "Ingredient,Qty,Unit,Basis\nLeeks,1,lb,AP"),
        )])
    };
    let rows: Vec<String> = rows.iter().map(|row| format!("Leeks,{row}\n")).collect();
    assert_eq!(food(&as_purchased(rows.clone())), Some(d("2")));
    assert_eq!(food(&as_purchased(rows.into_iter().rev().collect())), Some(d("2")));
}

/// Equal in both, the first by supplier, code and pack: Alpha's. Its pack counts its pieces, so that one costs 20.00 ÷ 20.
#[test]
fn equal_in_both_the_first_by_name() {
    let rows = ["10 lb,$20.00,,Beta,,2026-11-01,,,,,", "20 ct 10 lb,$20.00,,Alpha,,2026-11-01,,,,,"];
    let each = |rows: &[&str]| {
        let rows: Vec<String> = rows.iter().map(|row| format!("Leeks,{row}\n")).collect();
        let json = cost_json(&[("book.csv", &of(&rows).replace("Leeks,1,lb", "Leeks,1,each"))]);
        food(&json)
    };
    assert_eq!(each(&rows), Some(d("1")));
    assert_eq!(each(&[rows[1], rows[0]]), Some(d("1")));
}

/// Two rows of one pack and day are one statement: what the second leaves blank the first says. 30.00 ÷ 10 ÷ 80 % = 3.75,
/// though the promotion of the days between, which has ended, said 90 %: that would make 3.33 of whichever stood first.
#[test]
fn what_a_row_of_the_same_pack_and_day_says_comes_before_a_newer_one() {
    let blank = "10 lb,$30.00,,North,,2026-11-01,,,yes,,";
    let stated = "10 lb,$30.00,,North,,2026-11-01,,80%,,,";
    let ended = "10 lb,$24.00,,North,,2026-11-12,2026-11-14,90%,,,";
    let json = either_way(&[blank, stated, ended]);
    assert_eq!((food(&json), told(&json)), (Some(d("3.75")), vec!["H4 price-ended".to_owned()]));
    assert_eq!(food(&either_way(&[stated, blank, ended])), Some(d("3.75")));
}

/// North was preferred in October and is so no more in November, so that both suppliers’ bags stand: one is 10 lb, the other
/// 20 lb. Preferred, North’s alone would, at 30.00 a bag.
#[test]
fn the_newest_word_on_preferred_says_whose_bag_is_meant() {
    let book = |word: &str| {
        let north = format!(
            "Leeks,10 lb,$28.00,,North,,2026-10-01,,,yes,,\nLeeks,10 lb,$30.00,,North,,2026-11-02,,,{word},,\n"
        );
        let rows = [north, "Leeks,20 lb,$44.00,,South,,2026-11-01,,,,,\n".to_owned()];
        everywhere(&of(&rows).replace("Leeks,1,lb", "Leeks,1,bag"))
    };
    for (word, cost) in [("", Some(d("30"))), ("yes", Some(d("30"))), ("no", None)] {
        let json = book(word);
        assert_eq!(food(&json), cost, "{word}");
        assert_eq!(
            told(&json).iter().any(|one| one.ends_with("measure-ambiguous")),
            cost.is_none(),
            "{:?}",
            told(&json)
        );
    }
}

/// Two prices, two yields, two last days or two words on Preferred of one item, supplier, code, pack and date.
#[test]
fn rows_that_contradict_each_other_stop_the_item_that_would_go_by_them() {
    for (one, other) in [
        ("10 lb,$20.00,,North,7,2026-11-01,,,,,", "10 lb,$21.00,,north,7,2026-11-01,,,,,"),
        ("10 lb,$20.00,,North,7,2026-11-01,,50%,,,", "10 LB,$20.00,,North,7,2026-11-01,,60%,,,"),
        ("10 lb,$20.00,,North,7,2026-11-01,2026-11-30,,,,", "10 lb,$20.00,,North,7,2026-11-01,2026-12-30,,,,"),
        ("10 lb,$20.00,,North,7,2026-11-01,,,yes,,", "10 lb,$20.00,,North,7,2026-11-01,,,no,,"),
        ("10 lb,$20.00,lb,North,7,2026-11-01,,,,,", "10 lb,$20.00,,North,7,2026-11-01,,,,,"),
        ("10 lb,$20.00,,North,7,2026-11-01,,,,leek,", "10 lb,$20.00,,North,7,2026-11-01,,,,\"onion, yellow\","),
    ] {
        let alone = either_way(&[one, other]);
        assert_eq!(food(&alone), None, "{other}");
        assert!(told(&alone).iter().any(|told| told.ends_with(" price-row-twice")), "{:?}", told(&alone));
        // Where another price is newer, they are told and left out: 30.00 ÷ 10, by its own yield.
        let newer = either_way(&[one, other, "10 lb,$30.00,,South,,2026-11-02,,100%,yes,leek,"]);
        let preferred = one.contains(",yes,");
        assert_eq!(food(&newer), if preferred { None } else { Some(d("3")) }, "{other}");
        assert!(told(&newer).iter().any(|told| told.ends_with(" price-row-twice")), "{:?}", told(&newer));
    }
}

/// Of one day 20.00 once and 21.00 twice, and a last day that is none: each row but the first says otherwise than another, so
/// that two are told in any order.
#[test]
fn as_many_contradictions_are_told_in_any_order() {
    let rows = [
        "Leeks,10 lb,$20.00,,North,7,2026-11-01,,,,,\n",
        "Leeks,10 lb,$21.00,,North,7,2026-11-01,then,,,,\n",
        "Leeks,10 lb,$21.00,,North,7,2026-11-01,,,,,\n",
    ];
    for order in [[0, 1, 2], [0, 2, 1], [1, 0, 2], [1, 2, 0], [2, 0, 1], [2, 1, 0]] {
        let json = cost_json(&[("book.csv", &of(&order.map(|at: usize| rows[at].to_owned())))]);
        let twice: Vec<String> = told(&json).into_iter().filter(|one| one.ends_with(" price-row-twice")).collect();
        assert_eq!(twice, ["C3 price-row-twice", "C4 price-row-twice"], "{order:?}");
    }
}

/// The same price again is no contradiction; what one of the two leaves blank the other may say.
#[test]
fn rows_that_agree_are_one() {
    let json =
        either_way(&["10 lb,$20.00,,North,7,2026-11-01,,,,,milk", "10 lb,$20.00,,North,7,2026-11-01,,50%,,,celery"]);
    // 20.00 ÷ 10 ÷ 50 %.
    assert_eq!((food(&json), told(&json)), (Some(d("4")), vec![]));
    let allergens = recipe(&json, "Soup")["allergens"].to_string();
    assert!(allergens.contains("milk") && allergens.contains("celery"), "{allergens}");
}

/// A row at fault stops its item when it would be in use, or that cannot be told; otherwise it is left out.
#[test]
fn a_row_at_fault_counts_only_where_it_might_be_used() {
    let sound = "10 lb,$30.00,,South,,2026-11-05,,100%,,,";
    let preferred = "10 lb,$30.00,,South,,2026-11-05,,100%,yes,,";
    for (at_fault, beside_sound, beside_preferred) in [
        // Older than the one in use, newer, of the same day, and of an unknown day.
        ("10 lb,dear,,North,,2026-11-01,,,,,", true, true),
        ("10 lb,dear,,North,,2026-11-10,,,,,", false, true),
        ("10 lb,dear,,North,,2026-11-05,,,,,", false, true),
        ("10 lb,$20.00,,North,,soon,,,,,", false, true),
        // Later than the costing date.
        ("10 lb,dear,,North,,2026-12-01,,,,,", true, true),
        // Whether North is preferred is not known; and so it is of an older row of South's own, which changes nothing.
        ("10 lb,$20.00,,North,,2026-11-01,,,perhaps,,", false, false),
        ("10 lb,$20.00,,South,,2026-11-01,,,perhaps,,", true, true),
        // Whether it has ended is not known.
        ("10 lb,$20.00,,North,,2026-11-10,soon,,,,", false, true),
        ("10 lb,$20.00,,North,,2026-11-01,soon,,,,", true, true),
        // A pack that nobody understands may be any pack of its supplier's: an older one is not used.
        ("a heap,$20.00,,North,,2026-11-01,,,,,", true, true),
        ("10 lb,$20.00,,North,,2026-11-10,,0%,,,", false, true),
    ] {
        for (row, costed) in [(sound, beside_sound), (preferred, beside_preferred)] {
            let json = either_way(&[at_fault, row]);
            let errors = json["problems"].as_array().unwrap().iter().filter(|one| one["severity"] == "error").count();
            assert_eq!((food(&json), errors > 0), (costed.then(|| d("3")), true), "{at_fault} beside {row}");
        }
    }
}

/// A price row of leeks with ties: few suppliers, codes, packs, days, prices, yields.
fn row() -> impl Strategy<Value = String> {
    let pick = |words: &'static [&'static str]| prop::sample::select(words);
    let bought = pick(&[
        "10 lb,$20.00,",
        "10 lb,$24.00,",
        "20 lb,$40.00,",
        "5 kg,$20.00,",
        "20 ct 10 lb,$20.00,",
        "10 lb,MKT,",
        "24 ct,$20.00,",
        "10 lb,dear,",
    ]);
    let seller = pick(&["North,1", "North,2", "South,", ",", "north,1"]);
    let since = pick(&["", "2026-10-01", "2026-11-01", "2026-11-10", "2026-12-01", "soon"]);
    let until = pick(&["", "", "", "2026-11-15", "2026-11-30", "2026-10-05", "then"]);
    let yields = pick(&["", "", "50%", "80%", "half"]);
    let rest = pick(&[",,", ",,", ",,", "yes,,", "no,,milk", ",leek,", ",\"onion, yellow\",celery", "perhaps,,none"]);
    (bought, seller, since, until, yields, rest).prop_map(|(bought, seller, since, until, yields, rest)| {
        format!("Leeks,{bought},{seller},{since},{until},{yields},{rest}\n")
    })
}

/// All that a reader of the answer sees but places: figures, allergens, and which problems there are.
fn answer(files: &[(&str, &str)]) -> (Value, Vec<String>) {
    let json = cost_json(files);
    let soup = recipe(&json, "Soup");
    let line = &soup["lines"][0];
    let figures = serde_json::json!([
        soup["food_cost"],
        soup["allergens"],
        soup["may_contain"],
        soup["allergens_not_stated"],
        line["unit_cost"],
        line["yield"],
    ]);
    let mut codes: Vec<String> =
        json["problems"].as_array().unwrap().iter().map(|one| one["code"].as_str().unwrap().to_owned()).collect();
    codes.sort();
    (figures, codes)
}

proptest! {
    #![proptest_config(chance(8))]

    #[test]
    fn order_decides_nothing(rows in vec(row(), 1..7), seed: u64, cut in 0_usize..7) {
        let as_given = answer(&[("book.csv", &of(&rows))]);
        let mut moved = rows.clone();
        shuffle(&mut moved, seed);
        prop_assert_eq!(&as_given, &answer(&[("book.csv", &of(&moved))]), "{:?}\n{:?}", rows, moved);
        // In two files, the other one first.
        let (one, other) = moved.split_at(cut.min(moved.len()));
        let (one, other) = (of(one), format!("{HEAD}{}", other.concat()));
        prop_assert_eq!(&as_given, &answer(&[("b.csv", &other), ("a.csv", &one)]));
        prop_assert_eq!(&as_given, &answer(&[("a.csv", &one), ("b.csv", &other)]));
    }
}
