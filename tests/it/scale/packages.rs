//! Packages that do not come out whole are told in what the pack says that they hold; the money is of the exact quantity and
//! of the one told, as ever.

use super::support::{by, done, from, line, words};

/// A bottle is 36 ÷ 6 = 6.00, a block 60 ÷ 10 = 6.00, a flat the pack of 15 dozen, 45.00, a can 42 ÷ 6 = 7.00, a sack 20.00.
const BOOK: &str = "\
Item,Pack,Price
Oil,6/750 ml,36.00
Cheese,10/5 lb,60.00
Eggs,15 dz,45.00
Tomatoes,6/#10 (6 lb 10 oz),42.00
Beans,6/#10,30.00
Flour,50 lb bag,20.00
Limes,24 ct,12.00
Cream,12/32 fl oz,48.00

Recipe,Batch
Portions,10
Ingredient,Qty,Unit
Oil,1,bottle
Cheese,1,block
Eggs,1,flat
Tomatoes,1,#10 can
Beans,1,can
Flour,1,sack
Limes,1,each
Cream,1,case

Recipe,Parts
Portions,10
Ingredient,Qty,Unit
Oil,1/2,bottle
Cheese,0.7,block
";

/// 1.4 × 750 ml = 1050 ml; 1.4 × 5 lb = 7 lb; 1.4 × 15 dozen = 21 dozen; 1.4 × 6 lb 10 oz = 9.275 lb = 148.4 oz, to the quarter
/// 148.5; 1.4 × 50 lb = 70 lb; 1.4 × 384 fl oz = 4.2 gal, 4 1/4 within three hundredths. A can of which nothing says what it
/// holds is counted, and so is a lime.
#[test]
fn what_does_not_come_out_whole_is_told_in_what_it_holds() {
    let recipe = &done(BOOK, &by("Batch", "1.4"))["recipe"];
    for (item, told) in [
        ("Oil", "1.05 l"),
        ("Cheese", "7 lb"),
        ("Eggs", "21 dozen"),
        ("Tomatoes", "9 lb 4 1/2 oz"),
        ("Beans", "1 can"),
        ("Flour", "70 lb"),
        ("Limes", "1"),
        ("Cream", "4 1/4 gal"),
    ] {
        assert_eq!(words(recipe, item), told, "{item}");
    }
    let oil = line(recipe, "Oil");
    assert_eq!((&oil["exact"]["qty"], &oil["exact"]["unit"]), (&"1.4".into(), &"bottle".into()));
    assert_eq!((&oil["cost"], &oil["cost_as_measured"]), (&"8.4".into(), &"8.4".into()));
    assert_eq!((&oil["more"], &oil["more_unit"], &oil["far_off"]), (&"0".into(), &"ml".into(), &false.into()));
    // 148.5 ÷ 106 cans at 7.00; a tenth of an ounce more is 2.8349523125 g.
    let tomatoes = line(recipe, "Tomatoes");
    assert_eq!(tomatoes["cost"], "9.8");
    assert!(tomatoes["cost_as_measured"].as_str().unwrap().starts_with("9.80660377"), "{tomatoes:#}");
    assert_eq!(tomatoes["more_g"], "2.8349523125");
    assert_eq!(line(recipe, "Cheese")["cost_as_measured"], "8.4");
}

/// 0.14 × 750 ml = 105 ml; 0.14 × 80 oz = 11.2 oz, to the quarter 11 1/4; 0.14 × 180 = 25.2 eggs.
#[test]
fn little_of_a_package_is_told_so_too() {
    let recipe = &done(BOOK, &by("Batch", "0.14"))["recipe"];
    for (item, told) in [("Oil", "105 ml"), ("Cheese", "11 1/4 oz"), ("Eggs", "25")] {
        assert_eq!(words(recipe, item), told, "{item}");
    }
}

/// Whole ones stay, and so do parts in which the recipe itself counts: 3 × 1/2. 2.02 come within three hundredths of two.
/// 0.7 block is 3.5 lb in any size: 3 × 3.5 = 10.5 lb.
#[test]
fn a_count_that_a_cook_would_take_stays() {
    let recipe = &done(BOOK, &by("Batch", "3"))["recipe"];
    for (item, told) in [("Oil", "3 bottles"), ("Cheese", "3 blocks"), ("Eggs", "3 flats"), ("Tomatoes", "3 #10 cans")]
    {
        assert_eq!(words(recipe, item), told, "{item}");
    }
    assert_eq!(words(&done(BOOK, &by("Batch", "2.02"))["recipe"], "Oil"), "2 bottles");
    let recipe = &done(BOOK, &by("Parts", "3"))["recipe"];
    assert_eq!((words(recipe, "Oil"), words(recipe, "Cheese")), ("1 1/2 bottles", "10 1/2 lb"));
    let recipe = &done(BOOK, &by("Parts", "1"))["recipe"];
    assert_eq!((words(recipe, "Oil"), words(recipe, "Cheese")), ("1/2 bottle", "3 1/2 lb"));
}

/// 7.5 lb of cheese are 1.5 blocks, and no more of it is there; so 1.5 × 750 ml = 1125 ml of oil, to the ten 1130.
#[test]
fn what_is_on_hand_is_told_so_too() {
    let recipe = &done(BOOK, &from("Batch", &["7.5 lb Cheese"]))["recipe"];
    assert_eq!((words(recipe, "Cheese"), words(recipe, "Oil")), ("7 1/2 lb", "1.13 l"));
    // Of three bottles 1.4 are taken: 1.6 × 750 ml = 1.2 l are left; where two are taken one is; of 6 lb of cheese 5 are taken.
    let left = |held: [&str; 2]| done(BOOK, &from("Batch", &held))["on_hand"][0]["left_in_words"].to_string();
    assert_eq!(left(["3 bottle Oil", "7 lb Cheese"]), "\"1.2 l\"");
    assert_eq!(left(["3 bottle Oil", "2 blocks Cheese"]), "\"1 bottle\"");
    assert_eq!(left(["6 lb Cheese", "1 bottle Oil"]), "\"1 lb\"");
}
