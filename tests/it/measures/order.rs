//! The order of Measures rows and of price rows changes nothing.

use super::{HEAD, asking};
use crate::support::{chance, cost_json};
use proptest::prelude::*;
use serde_json::Value;

/// Price rows of several suppliers and packs, one of them in use.
pub(super) const PRICES: &[&str] = &[
    "Chicory,24 ct 12 lb,24.00,North,,2026-11-01",
    "Chicory,20 ct 12 lb,26.00,South,,2026-10-01",
    "Peaches,6/#10 (6 lb 12 oz),54.00,North,,2026-11-01",
    "Peaches,6/#10 (6 lb 8 oz),52.00,South,,2026-10-01",
    "Carob,1 kg,10.00,North,,",
    "Gem,100 ct,100.00,North,,",
];

/// Rows with ties everywhere a tie can be: two bases, two units of one kind, two counts, one row twice.
pub(super) const MEASURES: &[&str] = &[
    "Chicory,each,6.5 oz,EP",
    "Chicory,dozen,80 oz,EP",
    "Chicory,each,8 oz,AP",
    "Chicory,leaf,10 g,AP",
    "Chicory,leaf,8 g,EP",
    "Peaches,#10 can,4 lb 14 oz,EP",
    "Peaches,cup,8 oz,EP",
    "Peaches,cup,9 oz,AP",
    "Peaches,pt,17 oz,EP",
    "Carob,cup,240 g,",
    "Carob,qt,1 kg,",
    "Carob,tbsp,12 g,",
    "Carob,cup,0.24 kg,",
    "Carob,\"cup, packed\",280 g,",
    "Gem,each,100 g,EP",
    "Gem,each,125 g,AP",
    "Gem,dozen,1.5 kg,AP",
];

pub(super) const LINES: &[&str] = &[
    "Chicory,2,each,,,",
    "Chicory,2,each,,EP,",
    "Chicory,1,dozen,,,",
    "Chicory,300,g,,,",
    "Chicory,3,leaf,,,",
    "Chicory,3,leaf,,EP,",
    "Peaches,1,can,,,",
    "Peaches,2,cup,,,",
    "Peaches,2,cup,,AP,",
    "Peaches,1,qt,,,",
    "Peaches,1,case,,EP,",
    "Carob,1,pt,,,",
    "Carob,3,tsp,,,",
    "Carob,1,cup,packed,,",
    "Gem,400,g,,AP,",
    "Gem,400,g,,EP,",
];

fn figures(prices: &[&str], measures: &[&str]) -> (Value, Vec<String>) {
    let book = format!(
        "{HEAD}Item,Pack,Price,Supplier,Preferred,Date\n{}\n\nItem,Measure,Weighs,Basis\n{}\n{}",
        prices.join("\n"),
        measures.join("\n"),
        asking(LINES)
    );
    let json = cost_json(&[("book.csv", &book)]);
    crate::support::no_errors(&json);
    let mut codes: Vec<String> =
        json["problems"].as_array().unwrap().iter().map(|problem| problem["code"].to_string()).collect();
    codes.sort();
    (json["recipes"][0]["lines"].clone(), codes)
}

proptest! {
    #![proptest_config(chance(12))]

    #[test]
    fn the_order_of_rows_says_nothing(
        prices in Just(PRICES.to_vec()).prop_shuffle(),
        measures in Just(MEASURES.to_vec()).prop_shuffle(),
    ) {
        prop_assert_eq!(figures(PRICES, MEASURES), figures(&prices, &measures));
    }
}
