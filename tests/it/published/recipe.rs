//! Standard recipes: what a batch and a portion cost.

use super::{costed, costed_with, exactly, prints, read};
use crate::support::{dish, line, no_errors, recipe};

/// An egg bake for fifty: pounds and ounces, dozens, cups out of gallons.
///
/// D-EGGBAKE. Foodservice Management supplement (2025), appendix A, "Focus on Formulas",
/// <https://content.yudu.com/web/2y6m8/0A43xes/FSM2025-Supplement/html/597.html>.
#[test]
fn egg_bake_for_fifty() {
    let json = costed(
        r#"
Item,Pack,Price,Per
Spinach,,1.55,lb
Cheese,,5.60,lb
Eggs,1 dz,4.50,
Milk,1 gal,4.30,

Recipe,Egg bake
Portions,50
Ingredient,Qty,Unit
Spinach,4 lb 10 oz,
Cheese,3,lb
Eggs,75,each
Milk,3,cup

Recipe,Seven eggs
Portions,1
Ingredient,Qty,Unit
Eggs,7,each

Recipe,Cup of milk
Portions,1
Ingredient,Qty,Unit
Milk,1,cup
"#,
    );
    let cost_of = |item| &line(&json, "Egg bake", item)["cost"];
    prints(cost_of("Spinach"), "7.17"); // 4.625 × 1.55 = 7.16875
    prints(cost_of("Cheese"), "16.80"); // 3 × 5.60
    prints(&line(&json, "Egg bake", "Eggs")["unit_cost"], "0.375"); // 4.50 ÷ 12
    prints(cost_of("Eggs"), "28.13"); // 75 × 0.375 = 28.125, half up
    exactly(cost_of("Eggs"), "28.125");
    prints(cost_of("Milk"), "0.81"); // 4.30 ÷ 16 cups × 3 = 0.80625
    prints(&recipe(&json, "Cup of milk")["food_cost"], "0.27"); // 0.26875
    prints(&recipe(&json, "Seven eggs")["food_cost"], "2.63"); // 7 × 0.375 = 2.625, half up

    let bake = recipe(&json, "Egg bake");
    // 7.16875 + 16.80 + 28.125 + 0.80625 = 52.90. The source adds the four rounded lines and prints 52.91.
    prints(&bake["food_cost"], "52.9000000000");
    prints(&bake["portions"], "50");
    prints(&bake["portion_cost"], "1.06"); // 52.90 ÷ 50 = 1.058
    prints(&bake["portion_cost"], "1.0580000000");
}

/// The couscous book, its stock line in this unit and its parsley in these words.
fn couscous(stock_unit: &str, parsley: &str) -> serde_json::Value {
    read(
        "",
        &format!(
            r#"
Item,Pack,Price
Couscous,1 qt,4.20
Carrot,1 lb,0.68
Raisins,1 lb,4.37
Chicken stock,1 qt,0.84
{parsley}

Recipe,Couscous salad
Portions,8
Ingredient,Qty,Unit,Prep,Yield
Couscous,2,cup,,100%
Carrot,4,oz,diced,77%
Raisins,4,oz,,100%
Chicken stock,16,{stock_unit},,100%
Parsley,2,Tbsp,chopped,
Salt and pepper,to taste,,,
"#
        ),
    )
}

/// A costing sheet with packs by the quart, the pound and the bunch. The completed sheet was not in what was read: the
/// inputs are the source's, the arithmetic ours. A bunch of parsley holds 8 tablespoons.
///
/// D-TRASTER-5. Daniel Traster, Foundations of Cost Control (Pearson), chapter 5 slides, costing sheet,
/// <https://slideplayer.com/slide/1500579/>.
#[test]
fn couscous_for_eight() {
    let json = couscous("fl oz", "Parsley,1 bunch,0.72\n\nItem,Measure,Holds\nParsley,bunch,8 Tbsp");
    no_errors(&json);
    let cost_of = |item| &line(&json, "Couscous salad", item)["cost"];
    prints(cost_of("Couscous"), "2.10000000"); // 2 of 4 cups
    prints(cost_of("Carrot"), "0.22077922"); // 0.68 ÷ 16 ÷ 0.77 × 4
    assert_eq!(line(&json, "Couscous salad", "Carrot")["yield_from"], "line");
    prints(&line(&json, "Couscous salad", "Carrot")["yield_percent"], "77");
    prints(cost_of("Raisins"), "1.09250000"); // 4.37 ÷ 4
    prints(cost_of("Chicken stock"), "0.42000000"); // 16 of 32 fl oz
    prints(cost_of("Parsley"), "0.18000000"); // 2 of 8 tablespoons of 0.72
    assert_eq!(line(&json, "Couscous salad", "Parsley")["measure_from"], "measures");
    assert!(cost_of("Salt and pepper").is_null());
    let salad = recipe(&json, "Couscous salad");
    assert_eq!(salad["uncosted_lines"], 1);
    prints(&salad["food_cost"], "4.01327922");
    prints(&salad["portion_cost"], "0.50165990"); // ÷ 8
}

/// The same sheet as the source writes it, with 16 *oz* of stock: read as fluid ounces, with a warning. The parsley is
/// counted as pieces here, an `each` being the bunch.
///
/// D-TRASTER-5, as above.
#[test]
fn couscous_with_a_bare_ounce_of_stock() {
    let json = couscous("oz", "Parsley,1 ct,0.72\n\nItem,Measure,Holds\nParsley,each,8 Tbsp");
    no_errors(&json);
    prints(&line(&json, "Couscous salad", "Chicken stock")["cost"], "0.42000000");
    prints(&line(&json, "Couscous salad", "Parsley")["cost"], "0.18000000");
    let warned = json["problems"].as_array().into_iter().flatten().any(|problem| problem["code"] == "ounce-of-liquid");
    assert!(warned, "{}", json["problems"]);
}

/// Case packs to kitchen units: six cans of diced tomatoes with their label weight, four gallons of vinegar.
///
/// D-TRASTER-5, examples 5a and 5b, as above; 5b in the copy at
/// <https://123doc.top/document/4754068-foundations-of-cost-control-by-daniel-traster-chapter05.htm>.
#[test]
fn tomato_and_vinegar_cases() {
    let json = costed(
        r#"
Item,Pack,Price
Diced tomatoes,6/#10 (6 lb 6 oz),16.54
Vinegar,4/1 gal,31.80

Recipe,By the case
Portions,1
Ingredient,Qty,Unit
Diced tomatoes,612,oz wt
Vinegar,64,cup

Recipe,By the unit
Portions,1
Ingredient,Qty,Unit
Diced tomatoes,1,oz wt
Vinegar,1,cup

Recipe,One can
Portions,1
Ingredient,Qty,Unit
Diced tomatoes,102,oz wt
"#,
    );
    // 6 lb 6 oz = 102 oz a can, 612 oz a case; 4 gallons = 64 cups.
    prints(&line(&json, "By the case", "Diced tomatoes")["cost"], "16.54000000");
    prints(&line(&json, "By the case", "Vinegar")["cost"], "31.80000000");
    prints(&line(&json, "By the unit", "Diced tomatoes")["cost"], "0.02702614"); // 16.54 ÷ 612
    prints(&line(&json, "By the unit", "Vinegar")["cost"], "0.497"); // 31.80 ÷ 64 = 0.496875
    prints(&recipe(&json, "One can")["food_cost"], "2.75666667"); // 16.54 ÷ 6
}

/// Sixteen dozen rolls, bought by five pounds, by the dozen and by four ounces, with water that costs nothing. The
/// worksheet is blank: inputs are its own, answers recomputed.
///
/// D-ROLLS. "Costing a Recipe", baking class worksheet,
/// <http://www.docstoc.com/docs/52086225/Recipe-Cost-is-the-total-cost-of-all-ingredients>.
#[test]
fn sixteen_dozen_rolls() {
    let json = costed(
        r#"
Item,Pack,Price
Sugar,5 lb,1.99
Shortening,3 lb,2.89
Dry milk,1 lb,1.89
Salt,1 lb,0.59
Whole eggs,1 dz,0.89
Yeast,4 oz,4.29
Bread flour,5 lb,2.89

Recipe,Dinner rolls
Makes,16 dozen
Portion,1 each
Ingredient,Qty,Unit
Sugar,1,lb
Shortening,1 lb 4 oz,
Dry milk,8,oz
Salt,2,oz
Whole eggs,3,each
Yeast,6,oz
Water,4,lb
Bread flour,7,lb

Dish,Recipe,Portion
Roll,Dinner rolls,1 each
Dozen rolls,Dinner rolls,1 dozen
"#,
    );
    for (item, cost) in [
        ("Sugar", "0.39800000"),       // 1.99 ÷ 5
        ("Shortening", "1.20416667"),  // 2.89 × 1.25 ÷ 3
        ("Dry milk", "0.94500000"),    // 1.89 ÷ 2
        ("Salt", "0.07375000"),        // 0.59 ÷ 8
        ("Whole eggs", "0.22250000"),  // 0.89 ÷ 4
        ("Yeast", "6.43500000"),       // 4.29 × 1.5
        ("Bread flour", "4.04600000"), // 2.89 × 7 ÷ 5
    ] {
        prints(&line(&json, "Dinner rolls", item)["cost"], cost);
    }
    exactly(&line(&json, "Dinner rolls", "Water")["cost"], "0");
    let rolls = recipe(&json, "Dinner rolls");
    prints(&rolls["food_cost"], "13.32441667");
    prints(&rolls["portions"], "192");
    prints(&rolls["portion_cost"], "0.069398"); // ÷ 192
    prints(&dish(&json, "Roll")["portion_cost"], "0.069398");
    prints(&dish(&json, "Dozen rolls")["portion_cost"], "0.83277604"); // ÷ 16
}

/// The food of a hamburger, the part of its variable cost that is food. Which amount is which food is ours.
///
/// D-GW-PRIME. Controlling Costs in Foodservice (Goodheart-Willcox, 2014), chapter 2, pages 24 to 26,
/// <https://www.g-wonlinetextbooks.com/controlling-costs-foodservice-2014/39>.
#[test]
fn food_of_a_hamburger() {
    let json = costed(
        r#"
Item,Price,Per
Beef patty,0.43,each
Bun,0.19,each
Condiments,0.03,each
Salmon plate,3.75,each

Recipe,Hamburger
Portions,1
Target,10%
Ingredient,Qty,Unit
Beef patty,1,each
Bun,1,each
Condiments,1,each

Recipe,Salmon
Portions,1
Menu price,12.30
Ingredient,Qty,Unit
Salmon plate,1,each

Dish,Recipe,Target
Burger,Hamburger,
"#,
    );
    exactly(&recipe(&json, "Hamburger")["food_cost"], "0.65"); // 0.43 + 0.19 + 0.03
    // The mark-up method leaves 100 − 20 − 45 − 25 = 10 % for food: 0.65 ÷ 0.10, recomputed.
    prints(&dish(&json, "Burger")["target_percent"], "10");
    prints(&dish(&json, "Burger")["price_at_target"], "6.50");
    // Salmon at 12.30, its prime cost 6.15 being half of that; the food alone is 3.75 ÷ 12.30.
    prints(&dish(&json, "Salmon")["food_cost_percent"], "30.48780488");
    prints(&dish(&json, "Salmon")["margin"], "8.55");
}

/// One drink in five proportions at 7.00, in full precision. The source rounds the cost of an ounce and the total to
/// cents, so it prints 10.43, 15.71, 9.86, 11.43 and 14.29 %.
///
/// D-MIDNIGHT. Dopson and Hayes, Food and Beverage Cost Control (Wiley; attribution ours), answered on a homework
/// site, <https://gauthmath.com/solution/1813858623277109/4-Maureen-is-the-manager-of-a-very-popular-nightspot-She-and-her-bartender-Leon->.
#[test]
fn one_drink_in_five_proportions() {
    let json = costed(
        r#"
Item,Pack,Price,Per
Gin,25.35 fl oz,9.50,
Juice,1 qt,2.50,
Soda,,0.06,fl oz

Recipe,Item,Qty,Unit
Drink one,Gin,1,fl oz
Drink one,Juice,3,fl oz
Drink one,Soda,2,fl oz
Drink two,Gin,2,fl oz
Drink two,Juice,3,fl oz
Drink two,Soda,2,fl oz
Drink three,Gin,1,fl oz
Drink three,Juice,1,fl oz
Drink three,Soda,4,fl oz
Drink four,Gin,1.5,fl oz
Drink four,Juice,1 1/2,fl oz
Drink four,Soda,2,fl oz
Drink five,Gin,2,fl oz
Drink five,Juice,1,fl oz
Drink five,Soda,3,fl oz

Recipe,Portions,Menu price
Drink one,1,7.00
Drink two,1,7.00
Drink three,1,7.00
Drink four,1,7.00
Drink five,1,7.00
"#,
    );
    prints(&line(&json, "Drink one", "Gin")["cost"], "0.37475345"); // 9.50 ÷ 25.35
    prints(&line(&json, "Drink three", "Juice")["cost"], "0.078125"); // 2.50 ÷ 32
    for (drink, percent) in [
        ("Drink one", "10.41612074"), // (0.37475345 + 3 × 0.078125 + 2 × 0.06) ÷ 7
        ("Drink two", "15.76974148"),
        ("Drink three", "9.89826360"),
        ("Drink four", "11.41882396"),
        ("Drink five", "14.39474148"),
    ] {
        prints(&dish(&json, drink)["food_cost_percent"], percent);
    }
}

/// Spice after Q or beside it: the source says that texts differ on the order and gives no figures, so the plate of
/// 4.00, the Q of 1.40 and the 10 % of spice are ours.
///
/// D-SPICE-Q. Costing assignment of a US culinary college (spice factor, Q factor, true cost per portion),
/// <https://www.solutioninn.com/study-help/questions/determine-q-factor-adjusted-cost-per-portion-step-9-determine-1041005>.
#[test]
fn spice_on_q_or_on_food_alone() {
    let plate = r#"
Item,Price,Per
Plate of food,4.00,each

Recipe,Plate
Portions,10
Menu price,18.00
Q factor,$1.40
Spice factor,10%
Ingredient,Qty,Unit
Plate of food,10,each

Recipe,Plate with half
Portions,10
Menu price,18.00
Q factor,5%
Spice factor,10%
Ingredient,Qty,Unit
Plate of food,10,each
"#;
    for (setting, money_q, percent_q) in [
        ("", "5.94", "4.62"),                   // (4.00 + 1.40) × 1.10; (4.00 + 0.20) × 1.10
        ("Spice covers Q,yes", "5.94", "4.62"), // the same, said aloud
        ("Spice covers Q,no", "5.80", "4.60"),  // 4.00 + 1.40 + 0.40; 4.00 + 0.20 + 0.40
    ] {
        let json = costed_with(setting, plate);
        prints(&recipe(&json, "Plate")["food_cost"], "40.00000000");
        prints(&recipe(&json, "Plate")["portion_cost"], &format!("{money_q}000000"));
        prints(&dish(&json, "Plate")["portion_cost"], &format!("{money_q}000000"));
        prints(&recipe(&json, "Plate with half")["portion_cost"], &format!("{percent_q}000000"));
    }
}

/// The same from the settings: Q and spice then stand on the dish, once, and not on the recipe behind it.
///
/// D-SPICE-Q, as above; figures ours.
#[test]
fn spice_and_q_from_the_settings() {
    for (covers, portion_cost) in [("yes", "5.94"), ("no", "5.80")] {
        let json = costed_with(
            &format!("Q factor,$1.40\nSpice factor,10%\nSpice covers Q,{covers}"),
            r#"
Item,Price,Per
Plate of food,4.00,each

Recipe,Sauced food
Makes,10 each
Portion,1 each
Ingredient,Qty,Unit
Plate of food,10,each

Recipe,Plate
Portions,1
Menu price,18.00
Ingredient,Qty,Unit
Sauced food,1,each
"#,
        );
        prints(&recipe(&json, "Sauced food")["batch_cost"], "40.00000000");
        prints(&recipe(&json, "Plate")["batch_cost"], "4.00000000");
        prints(&dish(&json, "Plate")["portion_cost"], portion_cost);
    }
}
