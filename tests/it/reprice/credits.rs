//! Credits by hand: a fraction moves with the input, a price stays, the market has a price of its own, joint parts share.

use super::{Repriced, repriced};
use crate::analysis::d;

const PRICES: &str = "\
Prawns,10 kg,100.00,,2026-10-01
Shells,1 kg,1.00,,2026-10-01
Cod,10 kg,100.00,,2026-10-01
Salt,1 kg,1.00,,2026-10-01
";

const MORE: &str = "\
Prawns,10 kg,120.00,,2026-11-15
Shells,1 kg,2.00,,2026-11-15
Cod,10 kg,110.00,,2026-11-15
Salt,1 kg,3.00,,2026-11-15
";

/// The shells charged so, and a dish of 600 g of peeled prawns and one of a kilo of shells.
fn prawns(charged: &str, more: &str) -> Repriced {
    let others = format!(
        "\
Test,Role,Part,Weight,Charged as,Value,Instead of
Peeling,as purchased,Prawns,10 kg,,,
Peeling,main,Peeled,6 kg,,,
Peeling,by-product,Peelings,3 kg,{charged}
Peeling,waste,Veins,1 kg,,,

Recipe,Plate
Portions,1
Menu price,20
Ingredient,Qty,Unit
Peeled,600,g

Recipe,Broth
Portions,1
Menu price,20
Ingredient,Qty,Unit
Peelings,1,kg
"
    );
    repriced(PRICES, more, &others).without_errors()
}

#[test]
fn a_fraction_moves_with_the_input() {
    // A tenth of 10.00 a kilo, then of 12.00: 1.00 and 1.20; the main bears 97.00, then 116.40, a tenth of it 9.70 and 11.64.
    let found = prawns("fraction,10%,", MORE);
    found.driven("Broth", &[("Prawns", "0.2")]);
    found.driven("Plate", &[("Prawns", "1.94")]);
    let (shells, main) = (found.part("Peeling", "Peelings"), found.part("Peeling", "Peeled"));
    let charge = shells.charge.unwrap();
    assert_eq!((charge.was, charge.now), (d("0.001"), d("0.0012")));
    assert_eq!((shells.cost.was, shells.cost.now), (d("3"), d("3.6")));
    assert_eq!(main.charge, None);
    assert_eq!(main.per_gram.unwrap().now, d("0.0194"));
    // Waste is no part that anyone pays for.
    assert_eq!(found.test("Peeling").parts.len(), 2);
    assert_eq!(found.test("Peeling").cost.by(), Ok(d("20")));
}

#[test]
fn a_price_stays() {
    // 3 kg at 1.50 are 4.50 on both sides: all of the 20.00 falls to the main, a tenth of it to the plate.
    let found = prawns("price,1.50 / kg,", MORE);
    found.driven("Plate", &[("Prawns", "2")]);
    assert_eq!(found.moved(), ["Plate"]);
    assert!(!found.part("Peeling", "Peelings").charge.unwrap().moved());
}

#[test]
fn the_market_takes_from_the_main_what_it_gives_the_by_product() {
    // A kilo of peelings saves 500 g of shells: 0.50, then 1.00. Three kilos: 1.50, then 3.00. The main bears 98.50, then
    // 117.00; a tenth of it is 9.85 and 11.70: prawns 2.00 more, shells 0.15 less.
    let found = prawns("market,,500 g Shells per kg", MORE);
    found.driven("Plate", &[("Prawns", "2"), ("Shells", "-0.15")]);
    found.driven("Broth", &[("Shells", "0.5")]);
    // Dearer shells alone make the plate cheaper.
    let found = prawns("market,,500 g Shells per kg", "Shells,1 kg,2.00,,2026-11-15\n");
    found.driven("Plate", &[("Shells", "-0.15")]);
    assert_eq!(found.moved(), ["Broth", "Plate"]);
    assert!(!found.test("Peeling").cost.moved());
}

#[test]
fn a_credit_above_the_cost_stops_the_dish_and_is_no_driver() {
    // 3 kg at 40.00 are more than 100.00; as things stood they were 60.00.
    let others = "\
Test,Role,Part,Weight,Charged as,Value,Instead of
Peeling,as purchased,Prawns,10 kg,,,
Peeling,main,Peeled,6 kg,,,
Peeling,by-product,Peelings,3 kg,market,,1 kg Shells per kg

Recipe,Plate
Portions,1
Menu price,20
Ingredient,Qty,Unit
Peeled,600,g
";
    let found = repriced(&PRICES.replace("1.00,,", "20.00,,"), "Shells,1 kg,40.00,,2026-11-15\n", others);
    assert!(found.effects.dishes.is_empty());
    assert_eq!(found.effects.uncosted.len(), 1);
}

#[test]
fn joint_mains_and_what_was_added_share_by_value() {
    let others = "\
Test,Role,Part,Weight,Charged as,Value
Cutting,as purchased,Cod,10 kg,,
Cutting,added,Salt,2 kg,,
Cutting,main,Fillet,4 kg,by sales value,20 / kg
Cutting,main,Tail,2 kg,by sales value,10 / kg
Cutting,by-product,Bones,2 kg,fraction,5%
Cutting,waste,Guts,4 kg,,

Recipe,Fillet plate
Portions,4
Menu price,20
Ingredient,Qty,Unit
Fillet,1,kg

Recipe,Tail plate
Portions,4
Menu price,20
Ingredient,Qty,Unit
Tail,1,kg
";
    let found = repriced(PRICES, MORE, others).without_errors();
    // Cod 100.00 → 110.00, salt 2.00 → 6.00. Bones: 2 kg at a twentieth of 10.00, then 11.00, a kilo: 1.00 → 1.10.
    // Left: 101.00 → 114.90, 80 : 20. Of its 13.90 cod has 9.90 and salt 4.00. A quarter kilo of fillet is a sixteenth of
    // 80 %, one of tail an eighth of 20 %.
    found.driven("Fillet plate", &[("Cod", "0.495"), ("Salt", "0.2")]);
    found.driven("Tail plate", &[("Cod", "0.2475"), ("Salt", "0.1")]);
}

#[test]
fn credits_flow_on_through_a_second_test_and_a_card_with_its_own_q() {
    let others = "\
Test,Role,Part,Weight,Charged as,Value
Cutting,as purchased,Cod,10 kg,,
Cutting,main,Side,5 kg,,
Cutting,by-product,Bones,2 kg,fraction,50%
Cutting,waste,Guts,3 kg,,
Trimming,as purchased,Side,10 kg,,
Trimming,main,Loin,8 kg,,
Trimming,by-product,Belly,2 kg,fraction,25%

Recipe,Brine
Makes,2 kg
Q factor,20%
Spice factor,10%
Ingredient,Qty,Unit
Salt,1,kg
Belly,100,g

Recipe,Loin plate
Portions,10
Menu price,20
Ingredient,Qty,Unit
Loin,2,kg
Brine,500,g
";
    let found = repriced(PRICES, MORE, others).without_errors();
    // Cod 10.00 → 11.00 a kilo. Bones take 2 × 5.00 = 10.00 → 11.00: sides 90.00 → 99.00 for 5 kg, 18.00 → 19.80 a kilo.
    // Ten kilos of sides: 180.00 → 198.00. Belly 2 × 4.50 = 9.00 → 9.90; loin 171.00 → 188.10 for 8 kg.
    // Two kilos of loin: 42.75 → 47.025, 4.275 more, all cod's.
    // Brine: salt 1.00 → 3.00, belly 0.45 → 0.495; times 1.2 × 1.1 = 1.32; a quarter of it: salt 0.66, cod 0.01485.
    found.driven("Loin plate", &[("Cod", "0.428985"), ("Salt", "0.066")]);
}
