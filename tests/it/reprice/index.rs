//! The basket and its index by hand, and against a published example.

use parings::analysis::reprice::{BasketKind, LeftOut, NotPriced};
use parings::costing::PriceFrom;
use rust_decimal::Decimal;

use super::{close, repriced};
use crate::analysis::d;

/// The artificial data of the Consumer Price Index Manual (ILO and others, 2004), tables 19.1 and 19.2: six commodities at
/// 1.0 in the first period, their prices in the four after it, their quantities in the first, and the Laspeyres index of
/// table 19.4. From memory; each index is worked here as well, and the Python library pyindexnum 0.4.0 gives the same.
const MANUAL: [([&str; 6], &str); 4] = [
    // 1.2×1 + 3.0×1 + 1.3×2 + 0.7×1 + 1.4×4.5 + 0.8×0.5 = 14.20, over 10.0
    (["1.2", "3.0", "1.3", "0.7", "1.4", "0.8"], "1.4200"),
    // 1.0 + 1.0 + 3.0 + 0.5 + 7.65 + 0.3 = 13.45
    (["1.0", "1.0", "1.5", "0.5", "1.7", "0.6"], "1.3450"),
    // 0.8 + 0.5 + 3.2 + 0.3 + 8.55 + 0.2 = 13.55
    (["0.8", "0.5", "1.6", "0.3", "1.9", "0.4"], "1.3550"),
    // 1.0 + 1.0 + 3.2 + 0.1 + 9.0 + 0.1 = 14.40
    (["1.0", "1.0", "1.6", "0.1", "2.0", "0.2"], "1.4400"),
];

#[test]
fn the_manuals_six_commodities() {
    let names = ["Amber", "Cobalt", "Ebony", "Fawn", "Garnet", "Jade"];
    let prices: String = names.iter().map(|name| format!("{name},1 kg,1.0,,2026-10-01\n")).collect();
    let quantities = ["1.0", "1.0", "2.0", "1.0", "4.5", "0.5"];
    let lines: String = names.iter().zip(quantities).map(|(name, q)| format!("{name},{q},kg\n")).collect();
    let others = format!("Recipe,Stew\nPortions,1\nIngredient,Qty,Unit\n{lines}");
    for (period, expected) in MANUAL {
        let rows = names.iter().zip(period);
        let more: String = rows.map(|(name, price)| format!("{name},1 kg,{price},,2026-11-01\n")).collect();
        let found = repriced(&prices, &more, &others).without_errors();
        let index = found.effects.index.as_ref().unwrap();
        assert_eq!(index.index, Some(d(expected)));
        assert_eq!((index.was, index.counted), (d("10"), 6));
    }
}

const PRICES: &str = "\
Prawns,10 kg,100.00,,2026-10-01
Carrots,1 kg,2.00,,2026-10-01,80%
Lemons,100 each,50.00,,2026-10-01
Salt,1 kg,1.00,,2026-10-01
Wine,1 l,6.00,,2026-10-01
";

const OTHERS: &str = "\
Item,Measure,Weighs,Basis
Lemons,each,100 g,AP

Test,Role,Part,Weight,Charged as,Value
Peeling,as purchased,Prawns,10 kg,,
Peeling,added,Salt,1 kg,,
Peeling,main,Peeled,5 kg,,
Peeling,by-product,Shells,4 kg,fraction,10%
Peeling,waste,Veins,2 kg,,

Recipe,Stock
Makes,4 kg
Ingredient,Qty,Unit
Shells,2,kg
Carrots,400,g
Tap water,5,kg

Recipe,Soup
Portions,10
Menu price,5
Ingredient,Qty,Unit
Stock,2,kg
Peeled,1,kg
Lemons,4,each
";

const MORE: &str = "\
Prawns,10 kg,120.00,,2026-11-15
Carrots,1 kg,3.00,,2026-11-15
Lemons,10 kg,40.00,,2026-11-15
Wine,2 bunches,3.00,,2026-11-15
";

#[test]
fn one_batch_of_each_recipe_without_a_plan() {
    let found = repriced(PRICES, MORE, OTHERS).without_errors();
    let basket = found.effects.basket.as_ref().unwrap();
    assert_eq!(basket.kind, BasketKind::Batches);
    // A kilo of peeled prawns of 5 from 10: 2,000 g go in, with 200 g of salt; the shells come with them. 400 g of carrots
    // at 80 % are 500 g. Four lemons. No wine is in any recipe, and tap water is not bought.
    let items: Vec<_> = basket.items.iter().map(|(id, amount)| (found.item(*id), amount.normalize())).collect();
    let expected = [("Prawns", "2000"), ("Carrots", "500"), ("Lemons", "4"), ("Salt", "200")];
    assert_eq!(items, expected.map(|(name, amount)| (name, d(amount))));
    // 20.00 + 1.00 + 2.00 + 0.20 = 23.20. Then 24.00 + 1.50 + 400 g of lemons at 4.00 a kilo, 1.60, + 0.20 = 27.30.
    let index = found.effects.index.as_ref().unwrap();
    assert_eq!((index.was, index.now, index.counted), (d("23.2"), d("27.3"), 4));
    close(index.index.unwrap(), d("27.3") / d("23.2"), "index");
    assert!(index.left_out.is_empty());
}

#[test]
fn the_plans_quantities_where_there_is_one() {
    let plan = "\nDish,Portions\nSoup,20\n";
    let found = repriced(PRICES, MORE, &format!("{OTHERS}{plan}")).without_errors();
    let basket = found.effects.basket.as_ref().unwrap();
    assert_eq!(basket.kind, BasketKind::Plan);
    // Two batches: 2 kg of peeled prawns from 4 kg, with 400 g of salt; 4 kg of stock is one batch, 500 g of carrots.
    let items: Vec<_> = basket.items.iter().map(|(id, amount)| (found.item(*id), amount.normalize())).collect();
    let expected = [("Prawns", "4000"), ("Carrots", "500"), ("Lemons", "8"), ("Salt", "400")];
    assert_eq!(items, expected.map(|(name, amount)| (name, d(amount))));
    // 40.00 + 1.00 + 4.00 + 0.40 = 45.40. Then 48.00 + 1.50 + 3.20 + 0.40 = 53.10.
    let index = found.effects.index.as_ref().unwrap();
    assert_eq!((index.was, index.now), (d("45.4"), d("53.1")));
}

#[test]
fn movers_stand_by_what_they_are_worth() {
    let found = repriced(PRICES, MORE, OTHERS).without_errors();
    let movers = &found.effects.movers;
    let names: Vec<_> = movers.iter().map(|mover| found.item(mover.item)).collect();
    // Prawns +4.00, carrots +0.50, lemons −0.40; wine by the bunch tells nothing.
    assert_eq!(names, ["Prawns", "Carrots", "Lemons", "Wine"]);
    let prawns = &movers[0];
    assert_eq!((prawns.was.unit_cost, prawns.now.unit_cost), (d("0.01"), d("0.012")));
    assert_eq!((prawns.was.from, prawns.now.from), (PriceFrom::Row(0), PriceFrom::Row(5)));
    assert_eq!((prawns.fraction, prawns.worth), (Some(d("0.2")), Ok(d("4"))));
    // A lemon was 0.50; 100 g of the new ones are 0.40, a fifth less; four of them 0.40 less.
    let lemons = &movers[2];
    assert_eq!((lemons.now.unit_cost, lemons.now_as_was), (d("0.004"), Ok(d("0.4"))));
    assert_eq!((lemons.fraction, lemons.quantity, lemons.worth), (Some(d("-0.2")), Some(d("4")), Ok(d("-0.4"))));
    let wine = &movers[3];
    assert_eq!((wine.now_as_was, wine.worth, wine.fraction), (Err(LeftOut::NotJoined), Err(LeftOut::NotJoined), None));
}

#[test]
fn what_has_no_price_on_a_side_is_left_out_and_named() {
    let others = OTHERS.replace("Lemons,4,each", "Lemons,4,each\nWine,1,l");
    // Two prices of one pack and day: lemons have none any more. Wine changes to bunches, which no measure leads to.
    let more = "Lemons,100 each,60.00,,2026-10-01\nWine,2 bunches,3.00,,2026-11-15\nCarrots,1 kg,3.00,,2026-11-15\n";
    let found = repriced(PRICES, more, &others);
    let index = found.effects.index.as_ref().unwrap();
    let left_out: Vec<_> = index.left_out.iter().map(|(id, why)| (found.item(*id), *why)).collect();
    assert_eq!(left_out, [("Lemons", LeftOut::NoPriceNow), ("Wine", LeftOut::NotJoined)]);
    // Prawns 20.00, carrots 1.00 and salt 0.20 stay in: 21.20, then 21.70.
    assert_eq!((index.was, index.now, index.counted), (d("21.2"), d("21.7"), 3));
    let unpriced: Vec<_> = found.effects.unpriced.iter().map(|item| (found.item(item.item), item.when)).collect();
    assert_eq!(unpriced, [("Lemons", NotPriced::Now)]);
    // The other way about the soup had no cost, and takes nothing.
    let back = parings::analysis::Effects::of(&found.new.kitchen, &found.now, &found.old.kitchen, &found.was);
    assert_eq!(back.basket.unwrap().not_costed.len(), 1);
    let named = back.index.unwrap().left_out;
    assert!(named.iter().any(|(id, why)| found.item(*id) == "Lemons" && *why == LeftOut::NoPriceBefore));
}

#[test]
fn an_empty_basket_has_no_index() {
    let found = repriced(PRICES, MORE, "");
    let index = found.effects.index.as_ref().unwrap();
    assert_eq!((index.index, index.was, index.counted), (None, Decimal::ZERO, 0));
}
