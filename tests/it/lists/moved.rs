//! What moved, per unit and not per pack.

use parings::analysis::supplier_list::{Change, NotTaken};

use super::{BOOK, compared, dec, of_green_valley, with};

#[test]
fn same_rise_and_fall() {
    // Onions 26.00 → 26.00 for 50 lb; carrots 20.00 → 22.00: 22/20 − 1 = 0.1; butter 108.00 → 81.00: 81/108 − 1 = −0.25.
    let list = "Code,Item,Pack,Price\n1001,Onions,50 lb,26.00\n1002,Carrots,25 lb,22.00\n1003,Butter,36/1 lb,81.00\n";
    let compared = compared(list);
    assert_eq!(compared.moved("Onions").change, Change::Same);
    assert_eq!(compared.moved("Carrots").change, Change::Rise);
    assert_eq!(compared.moved("Butter").change, Change::Fall);
    assert_eq!(["Onions", "Carrots", "Butter"].map(|item| compared.by(item)), [dec("0"), dec("0.1"), dec("-0.25")]);
    assert_eq!(compared.told(), [] as [&str; 0]);
    assert!(compared.missing().is_empty());
}

#[test]
fn a_pack_that_shrank_at_the_same_price_is_a_rise() {
    // 26.00 for 40 lb instead of 50: 50/40 − 1 = 0.25 a pound more.
    let smaller = compared("Code,Item,Pack,Price\n1001,Onions,40 lb,26.00\n");
    let change = Change::SmallerPack { from: "50 lb".to_owned(), to: "40 lb".to_owned() };
    assert_eq!((&smaller.moved("Onions").change, smaller.by("Onions")), (&change, dec("0.25")));
    // 40 lb at 20.80 is 0.52 a pound, as 26.00 for 50 lb is: in proportion.
    assert_eq!(compared("Code,Item,Pack,Price\n1001,Onions,40 lb,20.80\n").moved("Onions").change, Change::Same);
    // 40 lb at 18.00 is 0.45 a pound.
    assert_eq!(compared("Code,Item,Pack,Price\n1001,Onions,40 lb,18.00\n").moved("Onions").change, Change::Fall);
}

#[test]
fn a_larger_pack_at_the_same_price_is_a_fall() {
    let larger = compared("Code,Item,Pack,Price\n1001,Onions,80 lb,26.00\n");
    let change = Change::LargerPack { from: "50 lb".to_owned(), to: "80 lb".to_owned() };
    // 50/80 − 1.
    assert_eq!((&larger.moved("Onions").change, larger.by("Onions")), (&change, dec("-0.375")));
    // 60 lb at 39.00 is 0.65 a pound: 25 % dearer, whatever its pack.
    assert_eq!(compared("Code,Item,Pack,Price\n1001,Onions,60 lb,39.00\n").moved("Onions").change, Change::Rise);
}

#[test]
fn the_same_pack_in_other_words_or_units_is_compared_per_unit() {
    // 36 × 1 lb is 576 oz.
    let same = compared("Code,Item,Pack,Price\n1003,Butter,36/16 oz,108.00\n");
    assert_eq!(same.moved("Butter").change, Change::Same);
    // 26.00 for 22.6796185 kg, and 13.00 for 10 kg: 22.6796185 × 13 ÷ (26 × 10) − 1.
    let kilos = compared("Code,Item,Pack,Price\n1001,Onions,10 kg,13.00\n");
    assert_eq!(kilos.by("Onions"), dec("0.133980925"));
}

#[test]
fn another_supplier_is_compared_with_the_price_in_use() {
    let options = parings::ListOptions { supplier: Some("Harbour Foods".to_owned()), ..of_green_valley() };
    let other = with(BOOK, "Item,Pack,Price\nOnions,50 lb,28.60\n", &options);
    // 28.60 ÷ 26.00.
    assert_eq!((&other.moved("Onions").change, other.by("Onions")), (&Change::NewSupplier, dec("0.1")));
    assert_eq!(other.taken("Onions").price.supplier, "Harbour Foods");
    assert!(other.missing().is_empty(), "nothing was bought of them");
}

#[test]
fn kinds_that_nothing_joins_are_not_compared_and_measures_join_them() {
    let list = "Code,Item,Pack,Price\n1001,Onions,100 ct,26.00\n";
    let alone = compared(list);
    let held = alone.held("Onions");
    let moved = held.moved.as_ref().unwrap();
    assert_eq!((held.why, &moved.change, moved.by), (NotTaken::NotComparable, &Change::NotComparable, None));
    // An onion weighs half a pound: 100 of them are 50 lb.
    let book = format!("{BOOK}\nItem,Measure,Weighs\nOnions,each,0.5 lb\n");
    let joined = with(&book, list, &of_green_valley());
    assert_eq!(joined.moved("Onions").change, Change::Same);
}

#[test]
fn a_market_price_leaves_the_last_one_in_use() {
    let market = compared("Code,Item,Pack,Price\n1001,Onions,50 lb,MKT\n");
    assert_eq!(market.moved("Onions").change, Change::Market);
    let (reading, costing) = market.repriced();
    let onions = costing.items[0].as_ref().unwrap();
    assert_eq!(onions.ap.money, dec("26"));
    assert_eq!(reading.kitchen.entries.prices.len(), 6);
}

#[test]
fn a_case_and_a_split_case_of_one_code_each_succeed_their_own() {
    let book = "\
Item,Pack,Price,Supplier,Code,Date
Olive oil,4/1 gal,$120.00,Green Valley,55,2026-10-01
Olive oil,1 gal,$34.00,Green Valley,55,2026-10-01
";
    let list = "Code,Item,Pack,Price\n55,Olive oil,4/1 gal,126.00\n55,Olive oil,1 gal,34.00\n";
    let both = with(book, list, &of_green_valley());
    let changes: Vec<&Change> = both.list.taken.iter().map(|taken| &taken.moved.change).collect();
    assert_eq!(changes, [&Change::Rise, &Change::Same]);
    assert_eq!(both.told(), [] as [&str; 0]);
}
