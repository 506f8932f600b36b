//! New lists that change what a pack counts or what its label says, and dishes in portions and batches, through what drove
//! them and through the three kitchens: by hand.

use crate::analysis::d;
use crate::analysis::planned::{is, planned};
use crate::reprice::{Repriced, close, repriced};

#[track_caller]
fn moves(found: &Repriced, name: &str, [was, now]: [&str; 2]) {
    let effect = found.dish(name);
    close(effect.was.portion_cost, d(was), &format!("{name} before"));
    close(effect.now.portion_cost, d(now), &format!("{name} now"));
}

/// Limes for two: three by the piece and 8 oz edible, each of 3.2 oz; half a pound of sugar.
const LIMES: &str = "Item,Measure,Weighs,Basis\nKey limes,each,3.2 oz,EP\n\n\
                     Recipe,Sorbet\nPortions,2\nMenu price,9.00\nIngredient,Qty,Unit\nKey limes,3,each\nKey limes,8,oz\n\
                     Sugar,0.5,lb\n";

#[test]
fn a_pack_that_counts_fewer() {
    let prices = "Key limes,140 ct 35 lb,56.00,Alpha,2026-10-01,,\nSugar,1 lb,1.00,Alpha,2026-10-01,,\n";
    let more = "Key limes,120 ct 35 lb,54.00,Alpha,2026-11-01,,\nSugar,1 lb,1.20,Alpha,2026-11-01,,\n";
    let found = repriced(prices, more, LIMES).without_errors();
    // 3 × 56.00 ÷ 140 = 1.20; 8 oz are 2.5 limes of 3.2 oz, 1.00; sugar 0.50: 2.70 for two.
    // 3 × 54.00 ÷ 120 = 1.35; 2.5 × 0.45 = 1.125, though a pound fell from 1.60 to 1.5429; sugar 0.60: 3.075 for two.
    moves(&found, "Sorbet", ["1.35", "1.5375"]);
    found.driven("Sorbet", &[("Key limes", "0.1375"), ("Sugar", "0.05")]);
    // Back again it is as much less.
    let back = crate::reprice::between(
        &format!("Item,Pack,Price,Supplier,Date\n{}\n{LIMES}", more.replace(",,\n", "\n")),
        &format!("Item,Pack,Price,Supplier,Date\n{}\n{LIMES}", prices.replace(",,\n", "\n")),
    );
    moves(&back, "Sorbet", ["1.5375", "1.35"]);
    back.driven("Sorbet", &[("Key limes", "-0.1375"), ("Sugar", "-0.05")]);
}

/// The same count and price for less in the box: pieces cost what they did, a pound as purchased does not.
#[test]
fn a_pack_that_weighs_less_moves_only_what_is_weighed_as_purchased() {
    let others = "Recipe,Jar\nPortions,1\nMenu price,9.00\nIngredient,Qty,Unit,Basis\nKey limes,10,each,AP\n\n\
                  Recipe,Press\nPortions,4\nMenu price,9.00\nIngredient,Qty,Unit,Basis\nKey limes,7,lb,AP\n";
    let prices = "Key limes,140 ct 35 lb,56.00,Alpha,2026-10-01,,\n";
    let found = repriced(prices, "Key limes,140 ct 28 lb,56.00,Alpha,2026-11-01,,\n", others).without_errors();
    // 7 lb at 1.60 = 11.20, at 56.00 ÷ 28 = 2.00 14.00: 2.80 and 3.50 for each of four. Ten limes are 4.00 both times.
    assert_eq!(found.moved(), ["Press"]);
    moves(&found, "Press", ["2.8", "3.5"]);
    found.driven("Press", &[("Key limes", "0.7")]);
}

/// For four: a can, a quarter of what is drained of one (68 oz), and 53 oz as purchased.
const PEACHES: &str = "Item,Measure,Weighs,Basis\nCling peaches,#10 can,4 lb 4 oz,EP\n\n\
                       Recipe,Cobbler\nPortions,4\nMenu price,9.00\nIngredient,Qty,Unit,Basis\nCling peaches,1,#10 can,AP\n\
                       Cling peaches,17,oz,EP\nCling peaches,53,oz,AP\n";

#[test]
fn a_can_whose_label_weighs_less() {
    let prices = "Cling peaches,6/#10 (6 lb 10 oz),48.00,Alpha,2026-10-01,,\n";
    // 8.00 a can. Of 106 oz 53 are half of one: 8.00 + 2.00 + 4.00 = 14.00. Of 100 oz they are 0.53, 4.24; the can and a
    // quarter of what is drained cost what they did: 14.24.
    let found =
        repriced(prices, "Cling peaches,6/#10 (6 lb 4 oz),48.00,Alpha,2026-11-01,,\n", PEACHES).without_errors();
    moves(&found, "Cobbler", ["3.5", "3.56"]);
    found.driven("Cobbler", &[("Cling peaches", "0.06")]);
    // At 54.00 a can is 9.00: 9.00 + 2.25 + 4.77 = 16.02.
    let found =
        repriced(prices, "Cling peaches,6/#10 (6 lb 4 oz),54.00,Alpha,2026-11-01,,\n", PEACHES).without_errors();
    moves(&found, "Cobbler", ["3.5", "4.005"]);
    found.driven("Cobbler", &[("Cling peaches", "0.505")]);
}

const TAGINE: &str = "\
Setting,Value
Q factor,$0.40
Spice factor,4%

Recipe,Tagine
Portions,12
Ingredient,Qty,Unit
Mutton,5,lb
Apricots,1.5,lb

Dish,Recipe,Portion,Menu price
Tagine,,,14.00
\"Tagine, child\",Tagine,1/2 portion,7.00
\"Tagine, platter\",Tagine,4 portions,52.00
\"Tagine, pot\",Tagine,1 batch,150.00
";

/// 30.00 of mutton and 6.00 of apricots for twelve, 3.00 each; with mutton at 6.60 39.00, 3.25. A portion bears 0.40, half a
/// one too, a platter four and a pot twelve; 4 % of spice on all of it.
#[test]
fn dishes_in_portions_and_batches_move_by_their_food_alone() {
    let prices = "Mutton,10 lb,60.00,,2026-10-01,,\nApricots,5 lb,20.00,,2026-10-01,,\n";
    let found = repriced(prices, "Mutton,10 lb,66.00,,2026-11-01,,\n", TAGINE).without_errors();
    for (name, costs, change) in [
        ("Tagine", ["3.536", "3.796"], "0.26"), // 3.40 × 1.04, 3.65 × 1.04; 0.25 × 1.04
        ("Tagine, child", ["1.976", "2.106"], "0.13"), // 1.90, 2.025; 0.125
        ("Tagine, platter", ["14.144", "15.184"], "1.04"), // 12 + 1.60, 13 + 1.60; 1.00
        ("Tagine, pot", ["42.432", "45.552"], "3.12"), // 36 + 4.80, 39 + 4.80; 3.00
    ] {
        moves(&found, name, costs);
        found.driven(name, &[("Mutton", change)]);
    }
}

/// Ten pounds of prawns at 6.00 give five of tails and two of shells at 10 %, 0.60 a pound: tails 58.80 ÷ 5 = 11.76, without
/// credit 12.00. What stands in for a pound of shells costs 2 × 16.00 ÷ 16 = 2.00.
const BISQUE: &str = "\
Setting,Value
Q factor,$0.30
Spice factor,10%

Item,Pack,Price
Prawns,10 lb,60.00
Shellfish base,1 lb,16.00
Rice,5 lb,10.00

Test,Role,Part,Weight,Charged as,Value,Instead of
Peeling,as purchased,Prawns,10 lb,,,
Peeling,main,Tails,5 lb,,,
Peeling,by-product,Shells,2 lb,fraction,10%,2 oz Shellfish base per lb

Recipe,Plate
Portions,10
Ingredient,Qty,Unit
Tails,5,lb

Recipe,Bisque
Portions,8
Ingredient,Qty,Unit
Shells,4,lb
Rice,0.4,lb

Dish,Recipe,Portion,Menu price
Plate,,,20.00
Bisque,,,8.00
Bisque cup,Bisque,1/2 portion,4.50
Bisque tureen,Bisque,4 portions,30.00
Bisque pot,Bisque,1 batch,58.00

Dish,Portions
Plate,40
Bisque,2
Bisque cup,4
Bisque tureen,1
Bisque pot,1
";

#[test]
fn the_three_kitchens_share_out_food_and_q_comes_on_top_of_it() {
    let of = planned(BISQUE);
    assert_eq!(crate::analysis::errors(&of.reading, &of.costing), [""; 0]);
    // 40 plates want 20 lb of tails, 40 of prawns: 8 lb of shells. Two bowls, four cups and a tureen take a batch, the pot
    // another: 8 lb.
    of.balances("Shells", ["0", "8", "8", "8", "0", "0", "0"]);
    of.takes("Rice", ["0.8", "0", "0.8"]);
    // A batch: shells 4 × 2.00, nothing, 4 × 0.60; rice 0.80: 8.80, 0.80, 3.20. A bowl is an eighth of it.
    of.food("Bisque", [d("1.1"), d("0.1"), d("0.4")]);
    of.food("Bisque cup", [d("0.55"), d("0.05"), d("0.2")]);
    of.food("Bisque tureen", [d("4.4"), d("0.4"), d("1.6")]);
    of.food("Bisque pot", [d("8.8"), d("0.8"), d("3.2")]);
    of.food("Plate", [d("6"), d("6"), d("5.88")]);
    // As the book says: 0.30 for every portion, of half a one too, and 10 % on top.
    for (name, cost) in [
        ("Plate", "6.798"),        // (5.88 + 0.30) × 1.10
        ("Bisque", "0.77"),        // (0.40 + 0.30) × 1.10
        ("Bisque cup", "0.55"),    // (0.20 + 0.30) × 1.10
        ("Bisque tureen", "3.08"), // (1.60 + 1.20) × 1.10
        ("Bisque pot", "6.16"),    // (3.20 + 2.40) × 1.10
    ] {
        is(of.dish(name).planned.unwrap(), d(cost), name);
    }
    // Trim at what it would cost to buy, and the rest: ten elevenths of each, in its own measure.
    for (name, bought, rest) in [
        ("Bisque", "1", "0.1"),
        ("Bisque cup", "0.5", "0.05"),
        ("Bisque tureen", "4", "0.4"),
        ("Bisque pot", "8", "0.8"),
    ] {
        let trim = of.dish(name).trim.unwrap();
        is(trim.bought, d(bought), name);
        is(trim.rest, d(rest), name);
        is(trim.share().unwrap(), d("10") / d("11"), name);
    }
    // Served: 240 + 2 × 8.80; 240 + 2 × 0.80; 235.20 + 2 × 3.20. No Q in any of it, and nothing is left.
    of.totals([["257.6", "0", "0", "257.6"], ["241.6", "0", "0", "241.6"], ["241.6", "0", "0", "241.6"]]);
    is(of.plan().purchases.unwrap(), d("241.6"), "purchases");
    // 8 lb at 2.00.
    is(of.plan().saving.unwrap(), d("16"), "saving");
}

/// Prawns at 7.00: shells 0.70, tails (70 − 1.40) ÷ 5 = 13.72. A batch is 2.80 + 0.80: a bowl 0.45, 0.05 more, with spice 0.055.
#[test]
fn dearer_prawns_reach_cups_tureens_and_pots_through_the_credit() {
    let new = BISQUE.replace("Prawns,10 lb,60.00", "Prawns,10 lb,70.00");
    let found = crate::reprice::between(BISQUE, &new).without_errors();
    for (name, costs, change) in [
        ("Plate", ["6.798", "7.876"], "1.078"),       // (6.86 + 0.30) × 1.10
        ("Bisque", ["0.77", "0.825"], "0.055"),       // (0.45 + 0.30) × 1.10
        ("Bisque cup", ["0.55", "0.5775"], "0.0275"), // (0.225 + 0.30) × 1.10
        ("Bisque tureen", ["3.08", "3.3"], "0.22"),   // (1.80 + 1.20) × 1.10
        ("Bisque pot", ["6.16", "6.6"], "0.44"),      // (3.60 + 2.40) × 1.10
    ] {
        moves(&found, name, costs);
        found.driven(name, &[("Prawns", change)]);
    }
}
