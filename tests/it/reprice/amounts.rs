//! New rows that change more than a price: what a piece weighs, the yield, the measure an item is priced by.

use super::repriced;

#[test]
fn a_pack_of_heavier_pieces_is_the_items_own_doing() {
    let prices = "Crabs,10 ct 5 kg in all,50.00,,2026-10-01\nSalt,1 kg,1.00,,2026-10-01\n";
    let more = "Crabs,8 ct 5 kg in all,60.00,,2026-11-01\nSalt,1 kg,3.00,,2026-11-01\n";
    let others = "\
Test,Role,Part,Weight
Picking,as purchased,Crabs,10 kg
Picking,added,Salt,1 kg
Picking,main,Crab meat,4 kg
Picking,waste,Crab shells,7 kg

Recipe,Salad
Portions,1
Menu price,60
Ingredient,Qty,Unit,Basis
Crabs,2,each,EP
";
    // Two crabs' meat: 1,000 g at (100.00 + 1.00) ÷ 4 kg = 25.25; now 1,250 g at (120.00 + 3.00) ÷ 4 kg: 38.4375.
    // Salt, 2.00 more for 4 kg of meat: 0.625 in 1,250 g. Crabs, 20.00 more: 6.25; and a quarter kilo more at 25.25 a kilo,
    // 6.3125.
    let found = repriced(prices, more, others).without_errors();
    found.driven("Salad", &[("Crabs", "12.5625"), ("Salt", "0.625")]);
}

#[test]
fn a_yield_stated_anew_moves_a_dish_at_the_same_price() {
    // 800 g at 80 % are a kilo, 2.00; at 64 % 1.25 kg, 2.50.
    let prices = "Carrots,1 kg,2.00,,2026-10-01,80%\n";
    let others = "Recipe,Salad\nPortions,2\nMenu price,60\nIngredient,Qty,Unit\nCarrots,800,g\n";
    let found = repriced(prices, "Carrots,1 kg,2.00,,2026-11-01,64%\n", others).without_errors();
    found.driven("Salad", &[("Carrots", "0.25")]);
    assert!(found.effects.movers.is_empty());
}

#[test]
fn a_price_by_weight_in_place_of_one_by_the_piece() {
    let prices = "Lemons,100 each,50.00,,2026-10-01\n";
    let others = "\
Item,Measure,Weighs,Basis
Lemons,each,100 g,AP

Recipe,Salad
Portions,2
Menu price,60
Ingredient,Qty,Unit
Lemons,4,each
";
    // Four at 0.50, then 400 g at 4.00 a kilo: 0.40 less, for two.
    let found = repriced(prices, "Lemons,10 kg,40.00,,2026-11-01\n", others).without_errors();
    found.driven("Salad", &[("Lemons", "-0.2")]);
}

#[test]
fn items_are_matched_by_name_where_new_rows_name_more_of_them() {
    // Salmon stands in no price row before, only in its test with the price paid; the new list names others above it.
    let others = "\
Test,Role,Part,Weight,Price
Filleting,as purchased,Salmon,10 kg,8.00
Filleting,main,Fillet,5 kg,
Filleting,waste,Bones,5 kg,

Recipe,Plate
Portions,1
Menu price,60
Ingredient,Qty,Unit
Fillet,1,kg
Capers,100,g
";
    let more = "Olives,1 kg,9.00,,2026-11-01\nSalmon,1 kg,9.00,,2026-11-01\nCapers,1 kg,30.00,,2026-11-01\n";
    let found = repriced("Capers,1 kg,20.00,,2026-10-01\n", more, others).without_errors();
    // A kilo of fillet is two of salmon: 16.00, then 18.00. Capers 2.00, then 3.00. Olives are in nothing.
    found.driven("Plate", &[("Salmon", "2"), ("Capers", "1")]);
    assert_eq!(found.effects.movers.len(), 2);
}
