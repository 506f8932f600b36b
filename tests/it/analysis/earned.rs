//! Credit that is not earned, by hand: it reaches every dish on its way, through a cooking test and a recipe. Invented.

use rust_decimal::Decimal;

use super::planned::{Planned, is, planned};
use super::{d, errors};

/// A hundred pounds of hog at 2.00 give forty of loin and twenty of bones at 1.00: loin (200 − 20) ÷ 40 = 4.50. Roasted, forty
/// pounds give thirty, and two of drippings at a tenth of 4.50: roast (180 − 0.90) ÷ 30 = 5.97.
const HOG: &str = "Item,Pack,Price
Hog,100 lb,$200.00
Bone base,1 lb,$16.00

Test,Kind,Role,Part,Weight,Charged as,Value,Instead of,Otherwise
Cutting,trim,as purchased,Hog,100 lb,,,,
Cutting,trim,main,Loin,40 lb,,,,
Cutting,trim,by-product,Bones,20 lb,price,1.00 / lb,2 oz Bone base per lb,
Roasting,cooking,as purchased,Loin,40 lb,,,,
Roasting,cooking,main,Roast,30 lb,,,,
Roasting,cooking,by-product,Drippings,2 lb,fraction,10%,1 oz Bone base per lb,

Recipe,Sliced roast
Makes,10 lb
Ingredient,Qty,Unit
Roast,10,lb

Recipe,Plate
Portions,1
Ingredient,Qty,Unit
Sliced roast,0.5,lb

Recipe,Broth
Portions,10
Ingredient,Qty,Unit
Bones,5,lb

Recipe,Gravy
Portions,4
Ingredient,Qty,Unit
Drippings,1,lb

Dish,Menu price
Plate,20.00
Broth,6.00
Gravy,3.00

Dish,Portions
Plate,60
Broth,10
Gravy,4
";

fn alone(of: &Planned) -> Vec<(&str, Decimal, Decimal)> {
    of.plan().earned.iter().map(|earned| (of.name(earned.served), earned.food, earned.alone)).collect()
}

#[test]
fn it_reaches_dishes_through_a_cooking_test_and_a_recipe() {
    let of = planned(HOG);
    assert_eq!(errors(&of.reading, &of.costing), [""; 0]);
    // 30 lb of roast want 40 of loin, all of the hog. 15 lb of bones are left at 1.00, and 1 of drippings at 0.45.
    of.balances("Bones", ["0", "20", "5", "5", "15", "0", "0"]);
    of.balances("Drippings", ["0", "2", "1", "1", "1", "0", "0"]);
    is(of.plan().unearned, d("15.45"), "unearned");
    // Loin bears 180 + 15 = 195, 4.875 a pound; drippings a tenth, 0.4875. Roast bears 195 less the one pound that earns it,
    // 194.5125, 6.48375 a pound: 3.241875 for half of one, which was 2.985. A quarter pound of drippings was 0.1125.
    let [plate, gravy] = &alone(&of)[..] else { panic!("{:?}", of.plan().earned) };
    for ((name, food, found), (dish, as_credited, expected)) in
        [plate, gravy].into_iter().zip([("Plate", "2.985", "3.241875"), ("Gravy", "0.1125", "0.121875")])
    {
        assert_eq!(*name, dish);
        is(*food, d(as_credited), dish);
        is(*found, d(expected), dish);
    }
    // 60 × 0.256875 + 4 × 0.009375: all of it.
    is(d("60") * (plate.2 - plate.1) + d("4") * (gravy.2 - gravy.1), d("15.45"), "all that is unearned");
    let report = of.report();
    assert!(report.contains("Plate $3.24 instead of $2.99; Gravy $0.12 instead of $0.11"), "{report}");
}

#[test]
fn a_recipe_that_the_plan_serves_bears_it_too() {
    // Sliced roast by the pound: 10 portions of a pound, 5.97 as credited.
    let sliced = HOG.replace("Makes,10 lb\n", "Makes,10 lb\nPortion,1 lb\n").replace("Plate,60\n", "Sliced roast,30\n");
    let of = planned(&sliced);
    let found = alone(&of);
    let (_, food, alone) = found.iter().find(|(name, ..)| *name == "Sliced roast").unwrap();
    is(*food, d("5.97"), "as credited");
    is(*alone, d("6.48375"), "earned alone");
}

#[test]
fn what_cost_its_mains_nothing_is_borne_by_weight() {
    // Bones at 10.00 take all of the 200.00: two mains of 30 and 10 lb bear nothing. Of 20 lb none is used: 200.00 over 40 lb.
    let book = HOG
        .replace("main,Loin,40 lb,,,,", "main,Loin,30 lb,by weight,,,\nCutting,trim,main,Belly,10 lb,by weight,,,")
        .replace("price,1.00 / lb", "price,10.00 / lb")
        .replace("Roasting,cooking,as purchased,Loin,40 lb", "Roasting,cooking,as purchased,Loin,30 lb")
        .replace("Broth,10\nGravy,4\n", "")
        .replace("by-product,Drippings,2 lb,fraction,10%", "by-product,Drippings,0 lb,free,");
    let of = planned(&book);
    // 30 lb of loin for 30 of roast, 5.00 a pound: 2.50 for half of one.
    let [plate] = &alone(&of)[..] else { panic!("{:?}", of.plan().earned) };
    assert_eq!((plate.0, plate.1), ("Plate", Decimal::ZERO));
    is(plate.2, d("2.5"), "by weight");
}
