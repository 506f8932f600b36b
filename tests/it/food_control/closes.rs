//! Control closes: over random books price, mix and use add up to the gap to the last digit.

use proptest::prelude::*;
use rust_decimal::Decimal;
use serde_json::Value;

use super::control;
use crate::support::{dec, no_errors};

/// An item: cents for a pack of so many ounces, hundredths of an ounce in a portion, counts in hundredths, and what was paid.
type Row = (u32, u32, u32, [u32; 3], Option<u32>, u8);

fn rows() -> impl Strategy<Value = Vec<Row>> {
    let counts = [0_u32..100_000, 0_u32..100_000, 0_u32..100_000];
    let row = (1_u32..9_999, 1_u32..999, 0_u32..900, counts, proptest::option::of(0_u32..99_999), 0_u8..3);
    proptest::collection::vec(row, 1..7)
}

fn hundredths(number: u32) -> String {
    format!("{}.{:02}", number / 100, number % 100)
}

fn book(rows: &[Row], sold: u32, later: u32) -> String {
    let mut prices = "Item,Pack,Price,Date\n".to_owned();
    let mut lines = "Recipe,Stew\nPortions,7\nIngredient,Qty,Unit\n".to_owned();
    let mut counts = "Item,Opening,Purchases,Closing,Unit,Paid,Group\n".to_owned();
    for (at, (cents, pack, qty, [opening, bought, closing], paid, group)) in rows.iter().enumerate() {
        prices.push_str(&format!("Food {at}x,{pack} oz,{},2026-10-01\n", hundredths(*cents)));
        prices.push_str(&format!("Food {at}x,{pack} oz,{},2026-10-15\n", hundredths(cents + later)));
        lines.push_str(&format!("Food {at}x,{},oz\n", hundredths(*qty + 1)));
        let [opening, bought, closing] = [opening, bought, closing].map(|count| hundredths(*count));
        let paid = paid.map(hundredths).unwrap_or_default();
        let group = if *group == 0 { String::new() } else { format!("Group {group}") };
        counts.push_str(&format!("Food {at}x,{opening},{bought},{closing},oz,{paid},{group}\n"));
    }
    format!(
        "{prices}\n{lines}\nDish,Recipe,Menu price,Sold\nStew,Stew,9.00,{sold}\n\n\
         Period,From,To,Opening,Purchases,Closing,Sales\nOctober,2026-10-02,2026-10-30,,,,1234.56\n\n{counts}"
    )
}

fn sum(of: &Value, keys: &[&str]) -> Decimal {
    keys.iter().map(|key| dec(&of[key])).sum()
}

proptest! {
    #![proptest_config(crate::support::chance(24))]

    #[test]
    fn price_mix_and_use_are_the_gap_exactly(rows in rows(), sold in 1_u32..5_000, later in 0_u32..500) {
        let json = control(&book(&rows, sold, later));
        no_errors(&json);
        let items = json["counted"]["items"].as_array().cloned().unwrap_or_default();
        prop_assert_eq!(items.len(), rows.len());
        let all = &json["counted"]["money"];
        let parts = ["of_price", "of_mix", "of_use"];
        for money in items.iter().map(|item| &item["money"]).chain([all]) {
            prop_assert_eq!(sum(money, &parts), dec(&money["gap"]), "{}", money);
            prop_assert_eq!(dec(&money["actual_cost"]) - dec(&money["standard_cost"]), dec(&money["gap"]), "{}", money);
        }
        for key in ["actual_cost", "standard_cost", "gap", "of_price", "of_mix", "of_use"] {
            let of_items: Decimal = items.iter().map(|item| dec(&item["money"][key])).sum();
            prop_assert_eq!(of_items, dec(&all[key]), "{}", key);
        }
        // Everything is counted: the mix of a group comes to what it comes to, and nothing is left of the variance but the
        // last digits of quotients.
        let rest = dec(&json["counted"]["not_counted"]);
        prop_assert!(rest.abs() < Decimal::new(1, 9), "{}", rest);
        prop_assert_eq!(dec(&json["periods"][0]["food_sold"]), dec(&all["actual_cost"]));
        // Without its group an item is all price and use.
        for (item, row) in items.iter().zip(&rows).filter(|(_, row)| row.5 == 0) {
            prop_assert_eq!(dec(&item["money"]["of_mix"]), Decimal::ZERO, "{:?}", row);
        }
    }
}
