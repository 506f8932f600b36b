//! Scaling: a recipe used inside another by weight, volume or portions costs its share, which is the scaling factor.

use super::{costed, prints};
use crate::support::{line, recipe};

/// A hundred portions scaled to 348: 1.25 lb become 4.35 lb. At 1.00 a pound the cost reads as pounds.
///
/// E-DOD-348. Armed Forces Recipe Service, A No. 1(2), US Department of Defense,
/// <https://theodora.com/recipies/general_information/information_for_standardized_recipes_4.html>.
#[test]
fn hundred_portions_to_348() {
    let json = costed(
        r#"
Item,Price,Per
Dry goods,1.00,lb

Recipe,Card for a hundred
Portions,100
Ingredient,Qty,Unit
Dry goods,1.25,lb

Recipe,Long table
Portions,348
Ingredient,Qty,Unit
Card for a hundred,348,portion
"#,
    );
    prints(&recipe(&json, "Long table")["food_cost"], "4.35000000"); // 1.25 × 3.48 = 4 lb 5.6 oz
    assert_eq!(line(&json, "Long table", "Card for a hundred")["source"], "made");
}

/// Number and size of portions both change: 35 of 185 g to 50 of 230 g. A batch that costs 1.00 shows the factor.
///
/// E-PORTION-CHANGE. "Recipe conversion", chefhelp.ca, <http://www.chefhelp.ca/recipeconversion.html>.
#[test]
fn number_and_size_of_portions_change() {
    let json = costed(
        r#"
Item,Price,Per
Batch of food,1.00,each

Recipe,Small batch
Portions,35
Portion,185 g
Ingredient,Qty,Unit
Batch of food,1,each

Recipe,All of it
Portions,35
Ingredient,Qty,Unit
Small batch,6475,g

Recipe,Large batch
Portions,50
Portion,230 g
Ingredient,Qty,Unit
Small batch,11.5,kg
"#,
    );
    prints(&recipe(&json, "All of it")["food_cost"], "1.00000000"); // 35 × 185 g = 6.475 kg is the whole batch
    prints(&recipe(&json, "Large batch")["food_cost"], "1.77606"); // 50 × 230 g = 11.5 kg; 11.5 ÷ 6.475
}

/// Eight bowls of 8 oz to 128 of 5 oz, and a coulis and a cider scaled likewise. Prices of 1.00 are ours, so that the
/// cost of each line reads as its quantity.
///
/// E-NOODLE-SOUP. "Figuring Food Cost / Converting Recipes", high-school culinary class slides,
/// <http://slideplayer.com/slide/1500549/>.
#[test]
fn noodle_soup_tenfold() {
    let json = costed(
        r#"
Item,Price,Per
Clear stock,1.00,qt
Soup onion,1.00,lb
Soup carrot,1.00,oz
Soup celery,1.00,oz
Soup noodles,1.00,lb
Fruit,1.00,each

Recipe,Noodle soup
Portions,8
Portion,8 fl oz
Ingredient,Qty,Unit
Clear stock,4,qt
Soup onion,1,lb
Soup carrot,8,oz
Soup celery,8,oz
Soup noodles,1,lb

Recipe,Banquet soup
Portions,128
Portion,5 fl oz
Ingredient,Qty,Unit
Noodle soup,640,fl oz

Recipe,Coulis
Makes,1 qt
Ingredient,Qty,Unit
Fruit,1,each

Recipe,Plates with coulis
Portions,96
Ingredient,Qty,Unit
Coulis,192,fl oz

Recipe,Cup of cider
Portions,1
Ingredient,Qty,Unit
Coulis,1,cup
"#,
    );
    prints(&recipe(&json, "Noodle soup")["food_cost"], "22.00000000"); // 4 + 1 + 8 + 8 + 1
    prints(&recipe(&json, "Banquet soup")["food_cost"], "220.00000000"); // 128 × 5 = 640 of 64 oz: ten times
    prints(&recipe(&json, "Banquet soup")["portion_cost"], "1.71875000"); // 220 ÷ 128
    prints(&recipe(&json, "Plates with coulis")["food_cost"], "6.00000000"); // 96 × 2 = 192 oz of 32
    prints(&recipe(&json, "Cup of cider")["food_cost"], "0.25000000"); // one cup of a quart; the coulis stands in
}

/// A hundred servings of 3.49 oz cut to eighty: 12 lb 12 oz of chicken become 10.2 lb. At 1.00 a pound the cost reads
/// as pounds.
///
/// E-USDA-80. USDA Recipes for Schools, Recipe Adjustment, factor method (answers recomputed),
/// <https://abcdocz.com/doc/79961/recipe-adjustment-%E2%80%93-method-1--factor-method->.
#[test]
fn hundred_servings_to_eighty() {
    let json = costed(
        r#"
Item,Price,Per
Cooked chicken,1.00,lb

Recipe,School dish
Portions,100
Portion,3.49 oz
Ingredient,Qty
Cooked chicken,12 lb 12 oz

Recipe,Eighty by portions
Portions,80
Ingredient,Qty,Unit
School dish,80,portion

Recipe,Eighty by weight
Portions,80
Ingredient,Qty,Unit
School dish,279.2,oz
"#,
    );
    prints(&recipe(&json, "Eighty by portions")["food_cost"], "10.20000000"); // 12.75 × 0.8
    prints(&recipe(&json, "Eighty by weight")["food_cost"], "10.20000000"); // 80 × 3.49 = 279.2 of 349 oz
}
