//! A kitchen in which every way of buying, breaking down, measuring and selling meets: figured by hand, live in the
//! workbook, and the same book when it is read again. The kitchen is invented.

use crate::follow::every_cell_follows;
use crate::recalc::assert_recalculates;
use crate::support::{cost_json, dish, line, no_errors, part, rounded};
use crate::workbook::costed;
use crate::written::same_when_written;

pub const CORNERS: &str = r#"Setting,Value
Currency,USD
Costing date,2026-11-20
Target food cost,30%
Q factor,3%
Spice factor,1%
Spice covers Q,no
Menu prices include tax,8%
Price step,0.25

Item,Pack,Price,Per,Yield,Date
Whole cod,10 lb avg,4.00,lb,,2026-11-01
Whole cod,10 lb avg,5.00,lb,,2026-10-01
Fish base,1 lb,8.00,,,
Oil,1 gal,12.80,,,
Eggs,15 dz,36.00,,,
Lemons,140 ct 35 lb,42.00,,,
Parsley,12 bunch,9.00,,80%,
Whole crab,24 each,72.00,,,
Flour,50 lb,20.00,,,
Onions,50 lb,25.00,,90%,

Item,Measure,Weighs,Basis
Parsley,bunch,2.5 oz,AP
Parsley,"cup, chopped",2 oz,EP
Eggs,each,50 g,EP
Oil,cup,218 g,

Test,Role,Part,Weight,Unit,Kind,Charged as,Value,Instead of,Further cost
Filleting cod,as purchased,Whole cod,10,lb,,,,,
Filleting cod,main,Cod fillet,4,lb,,,9.00,,
Filleting cod,by-product,Cod collars,1,lb,,by sales value,3.00,,
Filleting cod,by-product,Cod frames,3,lb,,market,,1 oz Fish base per lb,
Filleting cod,waste,Guts,1.5,lb,,,,,
Picking crab,as purchased,Whole crab,"12 each, 15 lb",,,,,,
Picking crab,main,Crab meat,4,lb,,,,,
Picking crab,by-product,Crab shells,9,lb,,fraction,10%,,
Picking crab,waste,Lungs,1,lb,,,,,
Poaching cod,as purchased,Cod fillet,2,lb,cooking,,,,
Poaching cod,added,Water,1,lb,,,,,
Poaching cod,added,Oil,109,g,,,,,
Poaching cod,main,Poached cod,1.8,lb,,net realizable value,6.00,,0.50
Poaching cod,by-product,Poaching liquor,1,lb,,net realizable value,1.20,,0.20

Recipe,Fish broth
Makes,"6 qt, 5.6 kg"
Serving loss,5%
Ingredient,Qty,Unit
Cod frames,3,lb
Onions,1,lb
Water,2,gal

Recipe,Crab soup
Makes,3 qt
Portion,8 fl oz
Q factor,$0.25
Spice factor,2%
Ingredient,Qty,Unit,Prep,Basis,Yield,Used
Fish broth,2,qt,,,,
Crab shells,2,lb,,,,
Flour,8,oz,,,,
Eggs,2,each,,,,
Eggs,100,g,,,,
Parsley,1,cup,chopped,,,
Lemons,3,each,,,,
Oil,1,cup,,,,50%
Onions,1,lb,,,85%,
Salt,to taste,,,,,

Recipe,Fish stew
Portion,10 oz
Portions,6
Menu price,14.00
Ingredient,Qty,Unit,Basis
Crab soup,2,portion,
Fish broth,0.5,batch,
Fish broth,280,g,
Poached cod,1,lb,
Whole cod,8,oz,AP
Crab meat,4,oz,

Dish,Recipe,Portion,Menu price,Target,Tax
Crab soup,,,8.00,,
Mug of crab soup,Crab soup,12 fl oz,11.00,25%,5%
Sip of broth,Fish broth,4 fl oz,3.00,,0%
"#;

#[test]
fn every_corner_is_costed_as_by_hand() {
    let json = cost_json(&[("corners.csv", CORNERS)]);
    no_errors(&json);
    let at = |value, places: u32| format!("{:.1$}", rounded(value, places), places as usize);
    // Cod: 10 lb at 4.00 = 40.00. Frames save 1 oz of base a pound: 8.00 ÷ 16 = 0.50 × 3 lb = 1.50. The rest, 38.50, by
    // sales value: fillet 4 × 9 = 36, collars 1 × 3 = 3: 38.50 × 36 ÷ 39 = 35.538462 and 38.50 × 3 ÷ 39 = 2.961538.
    assert_eq!(at(&part(&json, "Filleting cod", "Cod fillet")["cost"], 6), "35.538462");
    assert_eq!(at(&part(&json, "Filleting cod", "Cod collars")["cost"], 6), "2.961538");
    assert_eq!(at(&part(&json, "Filleting cod", "Cod frames")["cost"], 6), "1.500000");
    // Crab: 12 at 3.00 = 36.00, 2.40 a pound; shells 10 % of that × 9 lb = 2.16; the meat bears 33.84, 8.46 a pound.
    assert_eq!(at(&part(&json, "Picking crab", "Crab shells")["cost"], 6), "2.160000");
    assert_eq!(at(&part(&json, "Picking crab", "Crab meat")["cost"], 6), "33.840000");
    // Poaching: 2 lb of fillet at 35.538462 ÷ 4 = 17.769231; 109 g of oil is half a cup, 0.40: 18.169231 in all. Net
    // values: 1.8 × (6.00 − 0.50) = 9.90 and 1 × (1.20 − 0.20) = 1.00: 18.169231 × 9.90 ÷ 10.90 = 16.502329.
    assert_eq!(at(&part(&json, "Poaching cod", "Poached cod")["cost"], 6), "16.502329");
    assert_eq!(at(&part(&json, "Poaching cod", "Poaching liquor")["cost"], 6), "1.666902");
    // Broth: frames 3 × 0.50 = 1.50; onions 0.50 ÷ 90 % = 0.555556; 2.055556 for 6 qt.
    assert_eq!(at(&line(&json, "Fish broth", "Onions")["cost"], 6), "0.555556");
    let soup = |item| at(&line(&json, "Crab soup", item)["cost"], 6);
    assert_eq!(soup("Fish broth"), "0.685185"); // 2.055556 × 2 ÷ 6
    assert_eq!(soup("Crab shells"), "0.480000"); // 2 lb at 0.24
    assert_eq!(soup("Flour"), "0.200000"); // half a pound at 0.40
    assert_eq!(soup("Parsley"), "0.750000"); // 2 oz ÷ 80 % = 2.5 oz, one bunch
    assert_eq!(soup("Lemons"), "0.900000"); // 3 × 42.00 ÷ 140
    assert_eq!(soup("Oil"), "0.400000"); // a cup is 0.80; half of it is used up
    assert_eq!(soup("Onions"), "0.588235"); // 0.50 ÷ 85 %, the line's own yield
    let eggs: Vec<_> = json["recipes"][1]["lines"].as_array().unwrap().iter().filter(|l| l["item"] == "Eggs").collect();
    assert_eq!(at(&eggs[0]["cost"], 6), "0.400000"); // 2 × 0.20
    assert_eq!(at(&eggs[1]["cost"], 6), "0.400000"); // 100 g ÷ 50 g a piece, which is edible weight: no yield on top
    assert_eq!(eggs[1]["yield_percent"], "100");
    // Food 4.803420 + Q 12 × 0.25 = 3.00 + spice 2 % of food alone 0.096068 = 7.899489; 12 portions of 8 fl oz.
    let crab_soup = crate::support::recipe(&json, "Crab soup");
    assert_eq!(at(&crab_soup["food_cost"], 6), "4.803420");
    assert_eq!(at(&crab_soup["batch_cost"], 6), "7.899489");
    assert_eq!(crab_soup["portions"], "12");
    assert_eq!(crab_soup["uncosted_lines"], 1);
    // Stew: 2 portions of soup 1.316581; half a batch of broth 1.027778; 280 g of broth, of 5.6 kg, 0.102778; poached cod
    // 16.502329 ÷ 1.8 = 9.167961; 8 oz of whole cod 2.00; 4 oz of crab 2.115. In all 15.730098.
    assert_eq!(at(&crate::support::recipe(&json, "Fish stew")["food_cost"], 6), "15.730098");
    // A cup of soup: (4.803420 + 0.096068) ÷ 12 + 0.25 = 0.658291. A mug is one and a half, with one Q: 0.862436.
    assert_eq!(at(&dish(&json, "Crab soup")["portion_cost"], 6), "0.658291");
    assert_eq!(at(&dish(&json, "Mug of crab soup")["portion_cost"], 6), "0.862436");
    // 11.00 with 5 % tax within is 10.476190: 0.86243611 ÷ 10.47619048 = 8.232345 %. At 25 %: 3.449744 × 1.05 = 3.622,
    // up to 3.75.
    assert_eq!(at(&dish(&json, "Mug of crab soup")["food_cost_percent"], 4), "8.2323");
    assert_eq!(at(&dish(&json, "Mug of crab soup")["price_at_target"], 2), "3.75");
    // A sip: 4 fl oz of 192 × 95 % = 182.4: 2.055556 × 4 ÷ 182.4 = 0.045078; Q 3 % and spice 1 % of food: 0.046881.
    assert_eq!(at(&dish(&json, "Sip of broth")["portion_cost"], 6), "0.046881");
    // Stew: 15.730098 ÷ 6 = 2.621683, × 1.04 = 2.726550; 14.00 ÷ 1.08 = 12.962963: 21.0334 %.
    assert_eq!(at(&dish(&json, "Fish stew")["food_cost_percent"], 4), "21.0334");
}

#[test]
fn every_corner_is_live_and_the_same_when_read_again() {
    let (_, _, once) = costed("corners.csv", CORNERS.as_bytes());
    assert_recalculates(&once, "corners.costed.xlsx");
    let (_, _, twice) = costed("corners.costed.xlsx", &once);
    assert!(once == twice, "costing the costed book gave another book");
    every_cell_follows(&once, 60);
    same_when_written(&[("corners.csv", CORNERS.as_bytes())]).unwrap();
}
