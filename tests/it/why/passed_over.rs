//! What was passed over, each with its reason.

use serde_json::Value;

use super::asked;

fn reasons(json: &Value) -> Vec<(String, String)> {
    let text = |one: &Value, key: &str| one[key].as_str().unwrap().to_owned();
    json["not_used"].as_array().unwrap().iter().map(|one| (text(one, "says"), text(one, "why"))).collect()
}

#[track_caller]
fn passed_over(rows: &str, reason: &[(&str, &str)]) {
    let header = "Item,Pack,Price,Supplier,Date,Until,Preferred,Yield";
    let book = format!("Setting,Value\nCosting date,2026-11-20\nCurrency,EUR\n\n{header}\n{rows}");
    let found = reasons(&asked(&book, "Leeks", None));
    assert_eq!(found.len(), reason.len(), "{found:#?}");
    for ((says, why), (begins, wanted)) in found.iter().zip(reason) {
        assert!(says.starts_with(begins) && why.contains(wanted), "{says}: {why}, not {begins}: {wanted}");
    }
}

#[test]
fn rows_that_are_not_of_the_day() {
    passed_over(
        "Leeks,10 kg,15.00,Oxbarrow,2026-11-10,,,\n\
         Leeks,10 kg,14.00,Oxbarrow,2026-10-10,,,\n\
         Leeks,10 kg,13.00,Ullage,2026-11-15,2026-11-18,,\n\
         Leeks,10 kg,16.00,Oxbarrow,2026-12-01,,,\n",
        &[("Oxbarrow, 2026-12-01", "begins on 2026-12-01"), ("Ullage", "ended on 2026-11-18"), ("Oxbarrow", "older")],
    );
}

#[test]
fn rows_of_other_suppliers() {
    passed_over(
        "Leeks,10 kg,15.00,Oxbarrow,2026-11-10,,yes,\nLeeks,10 kg,9.00,Ullage,2026-11-15,,,\n",
        &[("Ullage", "Oxbarrow is preferred")],
    );
    passed_over(
        "Leeks,10 kg,15.00,Oxbarrow,2026-11-10,,,\nLeeks,10 kg,9.00,Ullage,2026-11-01,,,\n",
        &[("Ullage", "the price of Oxbarrow is newer (2026-11-10)")],
    );
    // 15.00 at 75 % is 20.00 for 10 kg that are left, 14.00 at 56 % is 25.00.
    passed_over(
        "Leeks,10 kg,15.00,Oxbarrow,2026-11-10,,,75%\nLeeks,10 kg,14.00,Ullage,2026-11-10,,,56%\n",
        &[("Ullage", "dearer for what is left"), ("56 %", "the yield of the row in use")],
    );
}

#[test]
fn a_market_price_and_one_that_cannot_be_read() {
    passed_over(
        "Leeks,10 kg,15.00,Oxbarrow,2026-11-10,,,\nLeeks,10 kg,MKT,Oxbarrow,2026-11-18,,,\n",
        &[("Oxbarrow, 2026-11-18", "the last price in money counts")],
    );
}

/// A yield test of the kitchen's own before the price row, and a line's own before both.
#[test]
fn yields_that_give_way() {
    let book = "Setting,Value\nCosting date,2026-11-20\nCurrency,EUR\n\nItem,Pack,Price,Yield\nLeeks,10 kg,15.00,65%\n\n\
        Test,Role,Part,Weight\nTrimming,as purchased,Leeks,10 kg\nTrimming,main,Leek hearts,6 kg\n\n\
        Recipe,Soup\nPortions,4\nIngredient,Qty,Unit,Yield\nLeeks,900,g,\nLeeks,300,g,50%\n";
    let found = reasons(&asked(book, "Soup", None));
    let wanted = [("65 %, Yield of the price row", "yield test"), ("60 %, the yield test Trimming", "a line of Soup")];
    assert_eq!(found.len(), wanted.len(), "{found:#?}");
    for ((says, why), (begins, contains)) in found.iter().zip(wanted) {
        assert!(says.starts_with(begins) && why.contains(contains), "{says}: {why}");
    }
}
