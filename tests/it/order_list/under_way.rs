//! What is on order already, and the least that a supplier delivers.

use parings::analysis::OrderList;
use proptest::collection::vec;
use proptest::prelude::*;

use super::{KITCHEN, closes, item, lb, order};
use crate::analysis::house::house;
use crate::analysis::planned::planned;
use crate::cli::Folder;
use crate::support::dec;

/// The kitchen with a box of hake and 12 lb of leeks under way.
fn with_deliveries() -> String {
    KITCHEN.replace("Item,On hand\nHake,3 lb\n", "Item,On hand,On order\nHake,3 lb,1 case\nLeeks,,12 lb\n")
}

/// Of 20 lb of hake 3 are there and a case of 10 is coming: 7 more are to be bought, a box of 10 for 40.00, and
/// 3 + 10 + 10 − 20 = 3 lb are left. Of leeks 12 lb are coming where 10 are wanted: none is ordered, 2 lb are left, which is
/// 2 ÷ (10 ÷ 2 days) = 0.4 days.
#[test]
fn what_is_on_order_comes_off_before_whole_packs() {
    let json = order(&with_deliveries());
    let hake = item(&json, "Hake");
    assert_eq!((dec(&hake["on_order"]), dec(&hake["to_buy"])), (lb("10"), lb("7")));
    assert_eq!((hake["packs"].as_str(), dec(&hake["money"]), dec(&hake["left"])), (Some("1"), 40.into(), lb("3")));
    assert_eq!(json["orders"].as_array().unwrap().len(), 1, "{json:#}");
    let covered = json["covered"].as_array().unwrap();
    let named: Vec<&str> = covered.iter().map(|line| line["item"].as_str().unwrap()).collect();
    // A pound of salt is there, of which 20 × 0.01 = 0.2 lb are wanted.
    assert_eq!(named, ["Leeks", "Salt"]);
    assert_eq!((dec(&covered[0]["left"]), covered[0]["lasts_days"].as_str()), (lb("2"), Some("0.4")));
    assert_eq!((dec(&covered[1]["wanted"]), dec(&covered[1]["left"])), (lb("0.2"), lb("0.8")));
    assert_eq!(json["money"], "40");
}

/// Every way to type it: with its unit, as a number of the unit beside it or in the header, nothing; and what is wrong with
/// it, at its cell.
#[test]
fn on_order_is_read_as_any_quantity() {
    let on_order = |stock: &str| {
        let json = order(&KITCHEN.replace("Item,On hand\nHake,3 lb\nSalt,1 lb\n", stock));
        let hake = item(&json, "Hake");
        (dec(&hake["on_hand"]), dec(&hake["on_order"]))
    };
    let read = [
        ("Item,On hand,On order\nHake,3 lb,80 oz\n", ("3", "5")),
        ("Item,On hand,On order,Unit\nHake,3,5,lb\n", ("3", "5")),
        ("Item,On hand,On order\nHake,3 lb,5\n", ("3", "5")),
        ("Item,On hand,Under way (case)\nHake,3 lb,1\n", ("3", "10")),
        ("Item,On hand,On order\nHake,,0 lb\nHake,3 lb,\n", ("3", "0")),
        ("Item,On hand,On order\nHake,,2 lb\nHake,,1/2 case\n", ("0", "7")),
    ];
    for (stock, (on_hand, coming)) in read {
        assert_eq!(on_order(stock), (lb(on_hand), lb(coming)), "{stock}");
    }
    let faults = [
        ("Hake,3 lb,soon", "“soon” is not a quantity"),
        ("Fillet,,3 lb", "“Fillet” is on order, and no price row of this name says what is bought"),
        ("Hake,,-2 lb", "less than nothing"),
    ];
    for (row, said) in faults {
        let book = KITCHEN.replace("Item,On hand\nHake,3 lb\n", &format!("Item,On hand,On order\n{row}\n"));
        let told = Folder::with("book.csv", book).run(&["buy", "book.csv"]).ends(1).err;
        assert!(told.to_lowercase().contains(&said.to_lowercase()), "{row}: {told}");
    }
}

/// Hake is ordered for 80.00 where the van comes from 150.00 on: 70.00 is missing. Leeks for 15.00 are more than 12.50.
#[test]
fn what_is_missing_to_a_suppliers_minimum_is_told() {
    let suppliers = "\nSupplier,Minimum order\nHarbor fish,$150.00\nGreengrocer,$12.50\n";
    let json = order(&format!("{KITCHEN}{suppliers}"));
    assert_eq!((&json["orders"][0]["minimum"], &json["orders"][0]["below_minimum"]), (&"150".into(), &"70".into()));
    assert_eq!(json["orders"][1]["minimum"], "12.5");
    assert!(json["orders"][1]["below_minimum"].is_null());
    let folder = Folder::with("book.csv", format!("{KITCHEN}{suppliers}"));
    let printed = folder.run(&["buy", "book.csv"]).ends(0).out;
    assert!(printed.contains("Below the minimum order of 150.00: 70.00 is missing."), "{printed}");
    let rows = folder.run(&["buy", "book.csv", "--format", "csv"]).ends(0).out;
    let mut rows = rows.lines().map(|row| row.split(',').collect::<Vec<_>>());
    let header = rows.next().unwrap();
    let at = |name: &str| header.iter().position(|known| *known == name).unwrap();
    let hake = rows.next().unwrap();
    assert_eq!((hake[at("minimum")], hake[at("below_minimum")], hake[at("on_order")]), ("150", "70", "0"));
}

/// A supplier spelled otherwise than on the price rows is asked about; two minima of one supplier are an error, and neither
/// counts.
#[test]
fn a_supplier_that_is_not_known_or_known_twice_is_told() {
    let book = |rows: &str| format!("{KITCHEN}\nSupplier,Minimum order\n{rows}");
    let told = Folder::with("book.csv", book("Harbour Fish,$150.00\n")).run(&["buy", "book.csv"]).ends(0).err;
    assert!(told.contains("no price row is of “Harbour Fish”") && told.contains("Harbor Fish”?"), "{told}");
    let folder = Folder::with("book.csv", book("Harbor Fish,$150.00\nHarbor Fish,$90.00\n"));
    let run = folder.run(&["buy", "book.csv"]).ends(1);
    assert!(run.err.contains("the minimum order of “Harbor Fish” is “$90” here"), "{}", run.err);
    assert!(!run.out.contains("Below the minimum"), "{}", run.out);
}

/// Shells are short: 4 portions take 2 lb of them, peeling 2 lb of prawns gives 0.5 lb, so 1.5 lb are short. Instead of a pound
/// 2 oz of base are bought: 3 oz, 0.19 lb, all of what is wanted.
#[test]
fn what_stands_in_for_short_trim_is_told_on_the_terminal() {
    let book = "Item,Pack,Price,Supplier\nPrawns,5 lb,$50.00,Harbor Fish\nShellfish base,1 lb,$16.00,Harbor Fish\n\n\
                Test,Role,Part,Weight,Instead of\nPeeling,as purchased,Prawns,4 lb,\nPeeling,main,Prawn tails,2 lb,\n\
                Peeling,by-product,Shells,1 lb,2 oz Shellfish base per lb\n\n\
                Recipe,Bisque\nPortions,4\nIngredient,Qty,Unit\nShells,2,lb\nPrawn tails,1,lb\n\n\
                Dish,Recipe\nBisque,Bisque\n\nDish,Portions\nBisque,4\n";
    let printed = Folder::with("book.csv", book).run(&["buy", "book.csv"]).ends(0).out;
    let said = "- Shellfish base: 0.19 lb of what is wanted stands in for trim that is short.";
    assert!(printed.contains(said), "{printed}");
}

proptest! {
    #![proptest_config(crate::support::chance(16))]

    #[test]
    fn every_line_closes_whatever_is_on_order(house in house(), coming in vec((any::<prop::sample::Index>(), 0_i64..400), 0..5)) {
        let of = planned(&house.book());
        let names: Vec<String> = of.reading.kitchen.items.iter().map(|item| item.name.clone()).collect();
        let rows = coming.iter().map(|(of, ounces)| format!("{},,{ounces} oz\n", of.get(&names)));
        let stock = format!("\nItem,On hand,On order\n{}", rows.collect::<String>());
        let of = planned(&format!("{}{stock}", house.book()));
        let list = OrderList::of(&of.reading.kitchen, &of.costing).unwrap().unwrap();
        for line in list.orders.iter().flat_map(|order| &order.lines).chain(&list.covered) {
            prop_assert!(closes(line).is_ok(), "{:?}", closes(line));
            prop_assert!(line.to_buy.is_zero() || line.on_order < line.item.purchase);
        }
        // Every item that the plan wants stands in one of the two.
        let wanted = of.balance().purchases.items.iter().filter(|item| !item.wanted.is_zero()).count();
        let told = list.orders.iter().map(|order| order.lines.len()).sum::<usize>() + list.covered.len();
        prop_assert_eq!(wanted, told);
    }
}
