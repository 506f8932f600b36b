//! Runs of one test agree on a charge when it is the same money by weight, however it was typed.

use super::{costed, problems};
use crate::support::{no_errors, part, test};

/// Two runs of 10 lb at 6.00 a pound; shells of 2 lb and of 16 oz are charged as the two runs say.
fn prawns(first: &str, second: &str) -> serde_json::Value {
    costed(&format!(
        "Item,Pack,Price\nPrawns,10 lb,60.00\nBase,1 lb,8.00\n\n\
         Test,Run,Role,Part,Weight,Charged as,Value,Further cost,Instead of\n\
         Peeling,1,as purchased,Prawns,10 lb,,,,\nPeeling,1,main,Tails,5 lb,,,,\n\
         Peeling,1,by-product,Shells,2 lb,{first}\n\
         Peeling,2,as purchased,Prawns,10 lb,,,,\nPeeling,2,main,Tails,5 lb,,,,\n\
         Peeling,2,by-product,Shells,16 oz,{second}\n"
    ))
}

#[test]
fn the_same_money_by_weight_is_one_charge() {
    for (first, second, cost) in [
        // 3 lb at 0.80.
        ("price,$0.80,,", "price,0.05,,", "2.4"),
        ("price,0.80,,", "price,$0.80 / lb,,", "2.4"),
        ("price,0.80 / lb,,", "price,$0.05,,", "2.4"),
        // A fraction however it is typed: 3 lb at a quarter of 6.00.
        ("fraction,25%,,", "fraction,0.25,,", "4.5"),
        // A further cost of nothing is none, and one by the ounce is a sixteenth of one by the pound.
        ("price,0.80,0,", "price,0.05,,", "2.4"),
        ("price,0.80,$1.60,", "price,0.05,0.10,", "2.4"),
        // 2 oz a pound at 8.00 is 1.00 a pound; 4 oz for two pounds is the same.
        ("market,,,2 oz Base per lb", "market,,,4 oz base per 2 lb", "3"),
        ("free,,,", ",,,", "0"),
    ] {
        let json = prawns(first, second);
        no_errors(&json);
        assert_eq!(part(&json, "Peeling", "Shells")["cost"], cost, "{first} and {second}: {json:#}");
        // 20 lb at 6.00, less what the shells bear.
        assert_eq!(test(&json, "Peeling")["cost"], "120");
    }
}

#[test]
fn other_money_by_weight_is_an_error() {
    for (first, second) in [
        // The same number for a pound and for an ounce.
        ("price,0.80,,", "price,0.80,,"),
        ("price,0.80,,", "market,,,2 oz Base per lb"),
        ("price,0.80,0.10,", "price,0.05,0.10,"),
        ("market,,,2 oz Base per lb", "market,,,3 oz Base per lb"),
        ("fraction,25%,,", "fraction,26%,,"),
        ("price,0.80,,", "free,,,"),
    ] {
        assert_eq!(problems(&prawns(first, second)), ["F15 error charge-conflict"], "{first} and {second}");
    }
}

#[test]
fn a_sign_of_the_currency_makes_no_other_charge() {
    // 3 lb at 1.25, in euros; one run names the sign and the other does not.
    let book = "Setting,Value\nCurrency,EUR\nCosting date,2026-11-20\n\nItem,Pack,Price\nPrawns,10 lb,€60.00\n\n\
                Test,Run,Role,Part,Weight,Charged as,Value\n\
                Peeling,1,as purchased,Prawns,10 lb,,\nPeeling,1,main,Tails,5 lb,,\n\
                Peeling,1,by-product,Shells,2 lb,price,€1.25\n\
                Peeling,2,as purchased,Prawns,10 lb,,\nPeeling,2,main,Tails,5 lb,,\n\
                Peeling,2,by-product,Shells,1 lb,price,1.25\n";
    let json = crate::support::cost_json(&[("book.csv", book)]);
    no_errors(&json);
    assert_eq!(part(&json, "Peeling", "Shells")["cost"], "3.75");
}
