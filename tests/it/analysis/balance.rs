//! Is there enough trim: what a plan takes, makes, leaves and lacks, in pounds worked with a pencil. All books invented.

use parings::analysis::balance::Balance;
use parings::kitchen::plan::Served;

use super::planned::{LB, is, planned};
use super::{d, errors, read};

/// Ten pounds of prawns give five of tails and two of shells. A plate takes half a pound of tails; a portion of bisque a
/// quart of stock for every four, in each quart a pound of shells; a portion of butter a quarter pound of shells.
const PRAWNS: &str = "Item,Pack,Price
Prawns,10 lb,$60.00
Shellfish base,1 lb,$16.00

Test,Role,Part,Weight,Charged as,Value,Instead of
Peeling,as purchased,Prawns,10 lb,,,
Peeling,main,Tails,5 lb,,,
Peeling,by-product,Shells,2 lb,fraction,10%,2 oz Shellfish base per lb

Recipe,Prawn plate
Portions,10
Ingredient,Qty,Unit
Tails,5,lb

Recipe,Shell stock
Makes,4 qt
Ingredient,Qty,Unit
Shells,4,lb

Recipe,Bisque
Portions,8
Ingredient,Qty,Unit
Shell stock,2,qt

Recipe,Shell butter
Portions,4
Ingredient,Qty,Unit
Shells,1,lb

Dish,Menu price
Prawn plate,20.00
Bisque,8.00
Shell butter,5.00
";

#[test]
fn one_by_product_feeds_two_recipes_and_runs_short() {
    let of = planned(&format!("{PRAWNS}\nDish,Portions\nPrawn plate,20\nBisque,16\nShell butter,8\n"));
    assert_eq!(errors(&of.reading, &of.costing), [""; 0]);
    // 20 plates take 10 lb of tails, for which 10 × 10 ÷ 5 = 20 lb go in; 20 × 2 ÷ 10 = 4 lb of shells come out.
    // Bisque 16 ÷ 8 × 2 qt × 1 lb = 4 lb, butter 8 ÷ 4 × 1 lb = 2 lb: 6 wanted, 2 short.
    is(of.test("Peeling").goes_in, d("20") * LB, "goes in");
    assert_eq!(of.test("Peeling").pieces, None);
    of.balances("Tails", ["0", "10", "10", "10", "0", "0", "0"]);
    of.balances("Shells", ["0", "4", "6", "4", "0", "0", "2"]);
    of.takes("Prawns", ["20", "0", "20"]);
    // What stands in for 2 lb of shells, at 2 oz a pound: a quarter pound of base.
    of.takes("Shellfish base", ["0.25", "0", "0.25"]);
    is(of.item("Shellfish base").stands_in, d("0.25") * LB, "in place of shells");
    assert!(of.balance().recipes.is_empty() && of.balance().not_counted.is_empty());
}

#[test]
fn what_is_on_hand_comes_off_first() {
    let of = planned(&format!(
        "{PRAWNS}\nDish,Portions\nPrawn plate,20\nBisque,16\nShell butter,8\n
Item,On hand\nTails,2 lb\nShells,1 lb\nPrawns,5 lb\nShell stock,2 qt\nShellfish base,3 lb\n"
    ));
    assert_eq!(errors(&of.reading, &of.costing), [""; 0]);
    // 10 lb of tails less 2 on hand: 8 × 2 = 16 lb go in, 16 × 0.2 = 3.2 lb of shells come out.
    is(of.test("Peeling").goes_in, d("16") * LB, "goes in");
    of.balances("Tails", ["2", "8", "10", "10", "0", "0", "0"]);
    // The bisque wants 4 qt of stock, 2 are there: 2 lb of shells for the rest, and 2 lb for the butter.
    // 1 on hand and 3 of the 3.2 made; 0.2 left.
    of.balances("Shells", ["1", "3.2", "4", "4", "0.2", "0", "0"]);
    of.takes("Prawns", ["16", "5", "11"]);
    // Nothing stands in for anything: the base stays on the shelf.
    of.takes("Shellfish base", ["0", "0", "0"]);
    is(of.item("Shellfish base").left_over, d("3") * LB, "base left");
    let [stock] = of.balance().recipes[..] else { panic!("{:?}", of.balance().recipes) };
    is(stock.on_hand, d("0.5"), "batches of stock on hand");
    is(stock.left_over, d("0"), "batches of stock left");
}

#[test]
fn more_on_hand_than_is_wanted_stays() {
    let of = planned(&format!(
        "{PRAWNS}\nDish,Portions\nPrawn plate,10\nBisque,8\n
Item,On hand\nTails,6 lb\nShells,1 lb\nPrawns,5 lb\nShell stock,3 qt\nShell stock,0.5 batch\n"
    ));
    assert_eq!(errors(&of.reading, &of.costing), [""; 0]);
    // 5 lb of tails of 6: nothing goes in. 2 qt of stock of 3 + 2 qt: 3 qt left, ¾ of a batch.
    is(of.test("Peeling").goes_in, d("0"), "goes in");
    of.balances("Tails", ["6", "0", "5", "5", "1", "0", "0"]);
    of.balances("Shells", ["1", "0", "0", "0", "1", "0", "0"]);
    of.takes("Prawns", ["0", "0", "0"]);
    is(of.item("Prawns").left_over, d("5") * LB, "prawns left");
    let [stock] = of.balance().recipes[..] else { panic!("{:?}", of.balance().recipes) };
    is(stock.on_hand, d("1.25"), "batches of stock on hand");
    is(stock.left_over, d("0.75"), "batches of stock left");
}

#[test]
fn what_stands_in_comes_off_the_shelf_first() {
    let of = planned(&format!(
        "{PRAWNS}\nDish,Portions\nBisque,16\nShell butter,8\n\nItem,On hand\nShellfish base,0.5 lb\n"
    ));
    // Nothing is peeled: 6 lb of shells are short, for which 12 oz of base stand in, 8 of them on the shelf.
    of.balances("Shells", ["0", "0", "6", "0", "0", "0", "6"]);
    of.takes("Shellfish base", ["0.75", "0.5", "0.25"]);
    is(of.item("Shellfish base").on_hand, d("0.5") * LB, "on hand");
    is(of.item("Shellfish base").left_over, d("0"), "left");
    // A quarter pound at 16.00 is the whole list, and what the plan brings in: 12.00 in the dishes, 8.00 from the shelf.
    of.totals([["12", "0", "8", "4"], ["12", "0", "8", "4"], ["12", "0", "8", "4"]]);
    is(of.plan().purchases.unwrap(), d("4"), "the list");
}

#[test]
fn the_kitchen_that_bins_its_trim_has_a_list_of_its_own() {
    let of = planned(&format!("{PRAWNS}\nDish,Portions\nPrawn plate,20\nBisque,16\nShell butter,8\n"));
    // Binned, all 6 lb of shells are bought in: 12 oz of base at 16.00 a pound, and 20 lb of prawns at 6.00.
    let of_base = |purchases: &parings::analysis::balance::Purchases| {
        let base = of.item("Shellfish base").item;
        purchases.item(base).unwrap().purchase
    };
    is(of_base(&of.balance().purchases_binned), d("0.75") * LB, "binned");
    is(of_base(&of.balance().purchases), d("0.25") * LB, "used");
    let [binned, free, credited] = of.plan().totals.map(|total| total.unwrap().purchases);
    is(binned, d("132"), "120.00 and 12.00");
    is(free, d("124"), "120.00 and 4.00");
    is(credited, d("124"), "the same");
}

#[test]
fn what_is_on_hand_in_unknown_measures_counts_as_nothing_and_is_told() {
    let of = planned(&format!(
        "{PRAWNS}\nDish,Portions\nShell butter,4\n\nItem,On hand\nShells,2 tub\nShells,1 lb\n\nItem,Measure,Weighs\nTails,tub,3 lb\n"
    ));
    of.balances("Shells", ["1", "0", "1", "1", "0", "0", "0"]);
    assert_eq!(of.balance().not_counted, [0]);
    let report = of.report().split_whitespace().collect::<Vec<_>>().join(" ");
    let why = "What is on hand of Shells could not be weighed against the plan, so it counts as nothing: “Shells” is counted \
               in tub but priced by weight, and nothing joins the two.";
    assert!(report.contains(why), "{report}");
}

#[test]
fn a_measure_of_the_part_weighs_what_is_on_hand() {
    let of = planned(&format!(
        "{PRAWNS}\nDish,Portions\nShell butter,8\n\nItem,On hand\nShells,2 tub\n\nItem,Measure,Weighs\nShells,tub,1.5 lb\n"
    ));
    // 2 × 1.5 = 3 lb on hand, 2 wanted.
    of.balances("Shells", ["3", "0", "2", "2", "1", "0", "0"]);
}

#[test]
fn a_by_product_is_not_made_for_its_own_sake() {
    // No plate is planned, so nothing is peeled: all of the shells are short.
    let of = planned(&format!("{PRAWNS}\nDish,Portions\nBisque,8\n"));
    is(of.test("Peeling").goes_in, d("0"), "goes in");
    of.balances("Shells", ["0", "0", "2", "0", "0", "0", "2"]);
    assert!(of.found_item("Prawns").is_none());
}

/// Four ducks of 20 lb in all.
fn ducks(price: &str, weights: &str) -> String {
    format!(
        "Item,Pack,Price,Per
Duck,{price}

Test,Run,Role,Part,Weight,Charged as
{weights}
Recipe,Breast
Portions,1
Ingredient,Qty,Unit
Duck breast,1,lb

Recipe,Leg
Portions,1
Ingredient,Qty,Unit
Duck legs,1,lb

Recipe,Broth
Portions,1
Ingredient,Qty,Unit
Duck frame,1,lb

Dish,Menu price
Breast,20.00
Leg,10.00
Broth,5.00
"
    )
}

const COUNTED: &str = "Cutting,,as purchased,Duck,\"4 each, 20 lb\",
Cutting,,main,Duck breast,5 lb,
Cutting,,main,Duck legs,4 lb,
Cutting,,by-product,Duck frame,6 lb,free
";

#[test]
fn pieces_are_whole_every_day() {
    let plan = "\nDish,Portions,Day\nBreast,3,1\nBreast,3,2\n";
    for (price, whole, purchase) in [("20 lb,3.00,lb", d("25") * LB, d("25") * LB), ("4 each,60.00,", d("5"), d("5"))] {
        let of = planned(&format!("{}{plan}", ducks(price, COUNTED)));
        assert_eq!(errors(&of.reading, &of.costing), [""; 0]);
        // Day 1: 3 lb of breast want 3 × 20 ÷ 5 = 12 lb, 2.4 ducks: 3 of 5 lb. 15 × 5 ÷ 20 = 3.75 lb made, 0.75 left.
        // Day 2: 3 − 0.75 = 2.25 lb want 9 lb, 1.8 ducks: 2, 10 lb. 2.5 lb made, 0.25 left. Five ducks, 25 lb.
        assert_eq!(of.test("Cutting").pieces, Some(d("5")), "{price}");
        is(of.test("Cutting").goes_in, d("25") * LB, "goes in");
        of.balances("Duck breast", ["0", "6.25", "6", "6", "0.25", "0", "0"]);
        of.balances("Duck legs", ["0", "5", "0", "0", "5", "0", "0"]);
        of.balances("Duck frame", ["0", "7.5", "0", "0", "7.5", "0", "0"]);
        // By the pound 25 lb; by the piece five ducks.
        let item = of.item("Duck");
        is(item.wanted, whole, price);
        is(item.purchase, purchase, price);
    }
}

#[test]
fn what_is_whole_but_for_a_last_digit_is_whole() {
    // Three ducks of 10 lb give 1 lb of breast: 1 lb of breast wants 10 lb, that is 10 × 3 ÷ 10 = 3 ducks and not 4, in
    // whatever digits a third is lost.
    let weights = COUNTED.replace("4 each, 20 lb", "3 each, 10 lb").replace("breast,5 lb", "breast,1 lb");
    let weights = weights.replace("legs,4 lb", "legs,1 lb").replace("frame,6 lb", "frame,3 lb");
    for (portions, pieces) in [("1", "3"), ("0.33333333333333333333", "1"), ("2", "6"), ("0.7", "3"), ("7", "21")] {
        // 0.7 lb of breast want 7 lb, 2.1 ducks.
        let of = planned(&format!("{}\nDish,Portions\nBreast,{portions}\n", ducks("20 lb,3.00,lb", &weights)));
        assert_eq!(of.test("Cutting").pieces, Some(d(pieces)), "{portions}");
    }
}

#[test]
fn pieces_count_only_where_every_run_counts_them() {
    let runs = "Cutting,1,as purchased,Duck,\"4 each, 20 lb\",
Cutting,1,main,Duck breast,5 lb,
Cutting,1,main,Duck legs,4 lb,
Cutting,1,by-product,Duck frame,6 lb,free
Cutting,2,as purchased,Duck,\"2 each, 12 lb\",
Cutting,2,main,Duck breast,3 lb,
Cutting,2,main,Duck legs,2 lb,
Cutting,2,by-product,Duck frame,4 lb,free
";
    let plan = "\nDish,Portions\nBreast,3\n";
    // 32 lb give 8 lb of breast, 3 lb want 12 lb; six ducks weigh 32 lb, so 12 × 6 ÷ 32 = 2.25: three, 16 lb.
    let of = planned(&format!("{}{plan}", ducks("20 lb,3.00,lb", runs)));
    assert_eq!(of.test("Cutting").pieces, Some(d("3")));
    is(of.test("Cutting").goes_in, d("16") * LB, "goes in");
    of.balances("Duck breast", ["0", "4", "3", "3", "1", "0", "0"]);
    let of = planned(&format!("{}{plan}", ducks("20 lb,3.00,lb", &runs.replace("\"2 each, 12 lb\"", "12 lb"))));
    assert_eq!(of.test("Cutting").pieces, None);
    is(of.test("Cutting").goes_in, d("12") * LB, "goes in");
}

#[test]
fn the_main_that_wants_most_decides_and_the_others_are_left() {
    let weights = COUNTED.replace("\"4 each, 20 lb\"", "20 lb");
    let of = planned(&format!("{}\nDish,Portions\nBreast,2.5\nLeg,3\nBroth,4\n", ducks("20 lb,3.00,lb", &weights)));
    // Breast 2.5 × 20 ÷ 5 = 10 lb, legs 3 × 20 ÷ 4 = 15 lb.
    is(of.test("Cutting").goes_in, d("15") * LB, "goes in");
    of.balances("Duck breast", ["0", "3.75", "2.5", "2.5", "1.25", "0", "0"]);
    of.balances("Duck legs", ["0", "3", "3", "3", "0", "0", "0"]);
    of.balances("Duck frame", ["0", "4.5", "4", "4", "0.5", "0", "0"]);
    of.takes("Duck", ["15", "0", "15"]);
}

#[test]
fn tests_follow_on_each_other() {
    let of = planned(
        "Item,Pack,Price
Bird,20 lb,$40.00
Salt,1 lb,$1.00

Test,Role,Part,Weight,Charged as
Cutting,as purchased,Bird,20 lb,
Cutting,main,Legs,4 lb,by weight
Cutting,main,Breast,6 lb,by weight
Cutting,by-product,Skin,3 lb,free
Braising,as purchased,Legs,4 lb,
Braising,added,Salt,0.5 lb,
Braising,main,Braised legs,2 lb,
Rendering,as purchased,Skin,3 lb,
Rendering,added,Water,1 lb,
Rendering,main,Fat,1.5 lb,
Rendering,by-product,Cracklings,0.5 lb,free

Recipe,Plate
Portions,1
Ingredient,Qty,Unit
Braised legs,1,lb
Fat,0.6,lb

Dish,Portions
Plate,1
",
    );
    assert_eq!(errors(&of.reading, &of.costing), [""; 0]);
    // 1 lb of braised legs want 1 × 4 ÷ 2 = 2 lb of legs, and with them 2 × 0.5 ÷ 4 = 0.25 lb of salt; 2 lb of legs want
    // 2 × 20 ÷ 4 = 10 lb of bird, which give 10 × 3 ÷ 20 = 1.5 lb of skin. 0.6 lb of fat want 0.6 × 3 ÷ 1.5 = 1.2 lb of
    // skin, and give 1.2 × 0.5 ÷ 3 = 0.2 lb of cracklings; the water costs nothing and is bought from nobody.
    is(of.test("Braising").goes_in, d("2") * LB, "legs in");
    is(of.test("Rendering").goes_in, d("1.2") * LB, "skin in");
    is(of.test("Cutting").goes_in, d("10") * LB, "bird in");
    of.balances("Legs", ["0", "2", "2", "2", "0", "0", "0"]);
    of.balances("Breast", ["0", "3", "0", "0", "3", "0", "0"]);
    of.balances("Skin", ["0", "1.5", "1.2", "1.2", "0.3", "0", "0"]);
    of.balances("Fat", ["0", "0.6", "0.6", "0.6", "0", "0", "0"]);
    of.balances("Cracklings", ["0", "0.2", "0", "0", "0.2", "0", "0"]);
    of.takes("Bird", ["10", "0", "10"]);
    of.takes("Salt", ["0.25", "0", "0.25"]);
    assert_eq!(of.balance().purchases.items.len(), 2, "{:?}", of.balance().purchases.items);
}

#[test]
fn what_a_recipe_makes_can_be_broken_down() {
    let of = planned(
        "Item,Pack,Price
Pork,10 lb,$30.00

Test,Role,Part,Weight,Charged as
Slicing,as purchased,Terrine,5 lb,
Slicing,main,Slices,4 lb,
Slicing,by-product,Ends,0.5 lb,free

Recipe,Terrine
Makes,10 lb
Serving loss,50%
Ingredient,Qty,Unit
Pork,12,lb

Recipe,Plate
Portions,8
Ingredient,Qty,Unit
Slices,2,lb

Dish,Portions
Plate,16

Item,On hand
Terrine,1 lb
",
    );
    assert_eq!(errors(&of.reading, &of.costing), [""; 0]);
    // 16 plates take 4 lb of slices: 5 lb of terrine go in, 1 of them is there. 4 lb are 0.4 of a batch: 4.8 lb of pork.
    is(of.test("Slicing").goes_in, d("5") * LB, "goes in");
    of.balances("Slices", ["0", "4", "4", "4", "0", "0", "0"]);
    of.balances("Ends", ["0", "0.5", "0", "0", "0.5", "0", "0"]);
    of.takes("Pork", ["4.8", "0", "4.8"]);
}

/// Leeks have a test of one main; carrots a yield on their price row.
const LINES: &str = "Item,Pack,Price,Yield
Leeks,10 lb,$20.00,
Carrots,10 lb,$10.00,80%

Test,Role,Part,Weight,Charged as
Leeks,as purchased,Leeks,10 lb,
Leeks,main,White of leek,5 lb,
Leeks,by-product,Green of leek,3 lb,free

Recipe,Plate
Portions,1
Ingredient,Qty,Unit,Basis,Yield,Used
";

#[test]
fn a_line_draws_what_it_is_costed_for() {
    let plan = "\nDish,Portions\nPlate,2\n";
    let of = |line: &str| planned(&format!("{LINES}{line}\n{plan}"));
    // Two portions of the edible pound go through the test: 2 lb of white want 4 lb of leeks.
    let through = of("Leeks,1,lb,,,");
    through.balances("White of leek", ["0", "2", "2", "2", "0", "0", "0"]);
    through.balances("Green of leek", ["0", "1.2", "0", "0", "1.2", "0", "0"]);
    through.takes("Leeks", ["4", "0", "4"]);
    // As purchased they are not broken down.
    let bought = of("Leeks,1,lb,AP,,");
    is(bought.test("Leeks").goes_in, d("0"), "goes in");
    bought.takes("Leeks", ["2", "0", "2"]);
    // Nor with a yield of the line's own: 2 ÷ 40 % = 5.
    of("Leeks,1,lb,,40%,").takes("Leeks", ["5", "0", "5"]);
    // A price row's yield: 2 ÷ 80 % = 2.5; half of it used up: 1.25.
    of("Carrots,1,lb,,,").takes("Carrots", ["2.5", "0", "2.5"]);
    of("Carrots,1,lb,,,50%").takes("Carrots", ["1.25", "0", "1.25"]);
    // The same of a part: 2 × 50 %, 2 ÷ 80 %, and both: 2 ÷ 80 % × 50 % = 1.25.
    of("White of leek,1,lb,,,50%").balances("White of leek", ["0", "1", "1", "1", "0", "0", "0"]);
    of("White of leek,1,lb,,80%,").balances("White of leek", ["0", "2.5", "2.5", "2.5", "0", "0", "0"]);
    of("White of leek,1,lb,,80%,50%").balances("White of leek", ["0", "1.25", "1.25", "1.25", "0", "0", "0"]);
    // Nothing is drawn without a quantity.
    assert!(of("Carrots,to taste,,,,").balance().purchases.items.is_empty());
    assert!(of("Water,3,qt,,,").balance().purchases.items.is_empty());
}

#[test]
fn recipes_within_recipes_are_drawn_by_portion_batch_and_volume() {
    let lines = |line: &str| {
        format!(
            "Item,Pack,Price
Rice,10 lb,$10.00

Recipe,Base
Makes,4 qt
Portion,1 qt
Serving loss,20%
Ingredient,Qty,Unit,Basis
Rice,4,lb,AP

Recipe,Plate
Portions,1
Ingredient,Qty,Unit,Yield
Base,{line}

Dish,Portions
Plate,2
"
        )
    };
    // A quart of four is a pound; a batch four. A portion is 1 ÷ (4 × 80 % ÷ 1) of the batch: 1.25 lb. A quart ÷ 50 %: 2.
    for (line, pounds) in [("1,qt,", "2"), ("1,batch,", "8"), ("1,portion,", "2.5"), ("1,qt,50%", "4")] {
        planned(&lines(line)).takes("Rice", [pounds, "0", pounds]);
    }
}

#[test]
fn a_plan_may_name_a_recipe_that_is_no_dish() {
    let of = planned(
        "Item,Pack,Price
Rice,10 lb,$10.00

Recipe,Staff meal
Makes,8 lb
Portion,1 lb
Ingredient,Qty,Unit,Basis
Rice,4,lb,AP

Dish,Portions,Day
Staff meal,6,Mon
Staff meal,2,Tue
",
    );
    // Eight portions are a batch.
    of.takes("Rice", ["4", "0", "4"]);
    let [serving] = of.balance().servings[..] else { panic!("{:?}", of.balance().servings) };
    assert!(matches!(serving.served, Served::Recipe(_)) && serving.costed);
    assert_eq!(serving.portions, d("8"));
}

#[test]
fn a_dish_that_is_not_costed_takes_nothing() {
    let of = planned(&format!(
        "{PRAWNS}\nRecipe,Mystery\nPortions,4\nIngredient,Qty,Unit\nTails,4,lb\nSaffron,1,oz\n
Dish,Portions\nPrawn plate,20\nMystery,8\n"
    ));
    assert!(errors(&of.reading, &of.costing).contains(&"name-unknown"));
    of.balances("Tails", ["0", "10", "10", "10", "0", "0", "0"]);
    let costed: Vec<bool> = of.balance().servings.iter().map(|serving| serving.costed).collect();
    assert_eq!(costed, [true, false]);
    assert!(of.report().contains("8 × Mystery (not costed"), "{}", of.report());
}

#[test]
fn without_a_plan_there_is_no_balance() {
    for plan in ["", "\nDish,Portions\n", "\nDish,Portions\nPrawn plate,\n", "\nDish,Portions\nNobody knows,5\n"] {
        let (reading, costing) = read(&format!("{PRAWNS}{plan}"));
        assert_eq!(Balance::of(&reading.kitchen, &costing).unwrap(), None, "{plan:?}");
    }
    // No portions are planned: everything is nothing.
    let of = planned(&format!("{PRAWNS}\nDish,Portions\nPrawn plate,0\n"));
    of.balances("Tails", ["0", "0", "0", "0", "0", "0", "0"]);
    assert_eq!(of.test("Peeling").goes_in, d("0"));
}

#[test]
fn a_loop_takes_nothing_and_makes_nothing() {
    let of = planned(
        "Item,Pack,Price
Flour,10 lb,$5.00

Test,Role,Part,Weight,Charged as
Slicing,as purchased,Bread,2 lb,
Slicing,main,Slices,1.5 lb,
Slicing,by-product,Crusts,0.5 lb,free

Recipe,Bread
Makes,2 lb
Ingredient,Qty,Unit
Flour,1,lb
Crusts,0.5,lb

Recipe,Toast
Portions,1
Ingredient,Qty,Unit
Slices,1,lb

Dish,Portions
Toast,2
",
    );
    assert!(errors(&of.reading, &of.costing).contains(&"recipe-loop"));
    assert_eq!(of.balance().tests, [None]);
    assert!(of.balance().purchases.items.is_empty());
    assert!(of.worth.parts.iter().all(|part| part.used.is_none() && part.saved.is_none()), "{:?}", of.worth.parts);
}
