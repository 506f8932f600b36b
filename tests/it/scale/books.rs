//! Books worked by hand, and published examples: factors, quantities, what they cost, what is on hand and what is left.

use rust_decimal::Decimal;

use crate::support::rounded;

use super::support::{by, done, from, line, to, words};

fn dec(text: &str) -> Decimal {
    text.parse().unwrap()
}

/// Armed Forces Recipe Service, A No. 1(2): 1.25 lb for 100 portions are 4.35 lb for 348, which is 4 lb 5.60 oz and is
/// weighed out as 4 lb 5 1/2 oz.
#[test]
fn a_hundred_portions_to_348() {
    let book = "Item,Price,Per\nDry goods,1.00,lb\n\nRecipe,Card for a hundred\nPortions,100\nIngredient,Qty,Unit\n\
                Dry goods,1.25,lb\n";
    let json = done(book, &to("Card for a hundred", "348"));
    let recipe = &json["recipe"];
    assert_eq!(recipe["factor"], "3.48");
    assert_eq!(recipe["portions"], "348");
    assert_eq!(words(recipe, "Dry goods"), "4 lb 5 1/2 oz");
    // 1.25 × 3.48 = 4.35 lb at 1.00; 69.5 oz ÷ 16 = 4.34375 lb; a tenth of an ounce less is 2.8349523125 g.
    assert_eq!(recipe["food_cost"], "4.35");
    assert_eq!(recipe["food_cost_as_measured"], "4.34375");
    assert_eq!(recipe["food_cost_difference"], "-0.00625");
    assert_eq!(recipe["more_g"], "-2.8349523125");
    // 4.35 ÷ 348.
    assert_eq!(recipe["portion_food_cost"], "0.0125");
}

/// USDA Recipes for Schools, Method 1: 12 lb 12 oz for 100 servings are 10.2 lb for 80.
#[test]
fn a_hundred_servings_to_eighty() {
    let book = "Item,Price,Per\nChicken,2.00,lb\n\nRecipe,School lunch\nPortions,100\nIngredient,Qty\n\
                Chicken,12 lb 12 oz\n";
    let recipe = &done(book, &to("School lunch", "80 portions"))["recipe"];
    assert_eq!(recipe["factor"], "0.8");
    assert_eq!(line(recipe, "Chicken")["exact"]["qty"], "10.2");
    // 163.2 oz in whole ones above ten pounds.
    assert_eq!(words(recipe, "Chicken"), "10 lb 3 oz");
}

/// chefhelp.ca, Recipe conversion: 35 portions of 185 g to 50 of 230 g is 11.5 ÷ 6.475 = 1.77606 times, not 50 ÷ 35.
#[test]
fn number_and_size_of_portions() {
    let book = "Item,Price,Per\nBeans,1.00,kg\n\nRecipe,Stew\nMakes,6.475 kg\nPortion,185 g\nIngredient,Qty,Unit\n\
                Beans,6.475,kg\n";
    let mut request = to("Stew", "50");
    request.portion = Some("230 g".to_owned());
    let recipe = &done(book, &request)["recipe"];
    assert_eq!(rounded(&recipe["factor"], 5), dec("1.77606"));
    assert_eq!(recipe["portions"], "50");
    assert_eq!(rounded(&line(recipe, "Beans")["exact"]["qty"], 20), dec("11.5"));
    assert_eq!(recipe["makes"][0]["in_words"], "11.5 kg");
    // Without the size it is the classic mistake, which is what was asked for then.
    let recipe = &done(book, &to("Stew", "50"))["recipe"];
    assert_eq!(rounded(&recipe["factor"], 4), dec("1.4286"));
}

/// Converting recipes (class slides, slideplayer.com/slide/1500549): 8 servings of 8 oz to 128 of 5 oz is tenfold.
#[test]
fn noodle_soup_tenfold() {
    let book = "Item,Price,Per\nStock,0.50,qt\nOnion,1.00,lb\nCarrot,1.00,lb\nNoodles,1.00,lb\n\n\
                Recipe,Noodle soup\nMakes,64 fl oz\nPortion,8 fl oz\nIngredient,Qty,Unit\n\
                Stock,4,qt\nOnion,1,lb\nCarrot,8,oz\nNoodles,1,lb\n\n\
                Recipe,Coulis\nMakes,1 qt\nIngredient,Qty,Unit\nOnion,1,lb\n";
    let mut request = to("Noodle soup", "128");
    request.portion = Some("5 fl oz".to_owned());
    let recipe = &done(book, &request)["recipe"];
    assert_eq!(recipe["factor"], "10");
    for (item, told) in [("Stock", "10 gal"), ("Onion", "10 lb"), ("Carrot", "5 lb"), ("Noodles", "10 lb")] {
        assert_eq!(words(recipe, item), told);
        assert_eq!(line(recipe, item)["more"], "0", "{item}");
    }
    // 40 qt at 0.50, 25 lb at 1.00.
    assert_eq!(recipe["food_cost"], "45");
    assert_eq!(recipe["food_cost_as_measured"], "45");
    // 96 plates of 2 oz are 6 qt; a cup is a quarter of a quart.
    let mut request = to("Coulis", "96");
    request.portion = Some("2 oz".to_owned());
    assert_eq!(done(book, &request)["recipe"]["factor"], "6");
    assert_eq!(done(book, &to("Coulis", "1 cup"))["recipe"]["factor"], "0.25");
    assert_eq!(done(book, &to("Coulis", "1 gal 2 qt"))["recipe"]["factor"], "6");
}

const SOUP: &str = "\
Item,Price,Per,Yield
Leeks,2.00,lb,80%
Onions,0.60,lb,
Butter,4.00,lb,
Salt,0.50,lb,
Shells,1.00,lb,
Eggs,0.25,each,
Milk,1.00,qt,

Recipe,Stock
\"Makes\",\"4 qt, 8 lb\"
Ingredient,Qty,Unit
Shells,1,lb
Onions,8,oz

Recipe,Soup
Makes,3 gal
Portion,8 fl oz
Ingredient,Qty,Unit
Leeks,2,lb
Onions,1,lb
Stock,2,qt
Finish,1,batch
Salt,,to taste

Recipe,Finish
Makes,2 cup
Ingredient,Qty,Unit
Butter,4,oz
Stock,1,qt

Recipe,Custard
Makes,1 qt
Portions,8
Ingredient,Qty,Unit
Eggs,3,each
Milk,2,cup

Dish,Recipe,Portion,Menu price
\"Soup, bowl\",Soup,12 fl oz,6.00
";

#[test]
fn what_a_batch_makes_in_either_of_its_measures() {
    // 3 gal are 384 fl oz, 48 portions.
    for (size, factor) in [("96", "2"), ("1.5 gal", "0.5"), ("6 qt", "0.5"), ("2 batches", "2"), ("24 servings", "0.5")]
    {
        assert_eq!(done(SOUP, &to("Soup", size))["recipe"]["factor"], factor, "{size}");
    }
    // 8 lb are 4 qt: the card says both.
    assert_eq!(done(SOUP, &to("Stock", "2 lb"))["recipe"]["factor"], "0.25");
    let stock = &done(SOUP, &by("Stock", "1/2"))["recipe"];
    assert_eq!(stock["makes"][0]["in_words"], "2 qt");
    assert_eq!(stock["makes"][1]["in_words"], "4 lb");
    // A third is kept as one: 3 eggs are one again.
    assert_eq!(line(&done(SOUP, &by("Custard", "1/3"))["recipe"], "Eggs")["exact"]["qty"], "1");
}

/// 384 fl oz are 32 bowls of 12; 48 bowls are one and a half times.
#[test]
fn a_dish_is_scaled_in_its_own_portions() {
    let json = done(SOUP, &to("soup,  Bowl", "48"));
    assert_eq!(json["dish"], "Soup, bowl");
    assert_eq!(json["recipe"]["name"], "Soup");
    assert_eq!(json["recipe"]["factor"], "1.5");
    assert_eq!(json["recipe"]["portions"], "48");
}

#[test]
fn what_is_not_measured_stays_as_it_is() {
    let recipe = &done(SOUP, &by("Soup", "7"))["recipe"];
    let salt = line(recipe, "Salt");
    assert_eq!(salt["in_words"], "to taste");
    assert!(salt["exact"]["qty"].is_null() && salt["cost"].is_null() && salt["times"].is_null());
    assert_eq!(recipe["as_typed"], 1);
}

/// 2 lb of trimmed leeks are 2.5 lb as purchased, so 5 lb are enough for two; 3 lb of onions, besides those in the stock, for
/// more: a batch takes 1 lb, and 3 qt of stock with 8 oz in four quarts, 0.375 lb.
#[test]
fn the_scarcest_on_hand_says_how_much() {
    let json = done(SOUP, &from("Soup", &["5 lb Leeks", "3 lb Onions"]));
    assert_eq!(json["recipe"]["factor"], "2");
    let [leeks, onions] = [&json["on_hand"][0], &json["on_hand"][1]];
    assert_eq!((&leeks["binds"], &onions["binds"]), (&true.into(), &false.into()));
    assert_eq!(leeks["left"]["qty"], "0");
    // 3 ÷ 1.375 = 2.1818 batches; 3 − 2 × 1.375 = 0.25 lb.
    assert_eq!(rounded(&onions["enough_for"], 4), dec("2.1818"));
    assert_eq!(onions["left"]["qty"], "0.25");
    assert_eq!(onions["left_in_words"], "4 oz");
    // Trimmed: 4 lb, of which there is no more.
    assert_eq!(words(&json["recipe"], "Leeks"), "4 lb");
}

/// 3 qt of stock go into a batch of soup, one of them through the finish: three quarters of a pound of shells.
#[test]
fn what_is_on_hand_may_go_into_a_recipe_within() {
    let json = done(SOUP, &from("Soup", &["3 lb Shells"]));
    assert_eq!(json["recipe"]["factor"], "4");
    let json = done(SOUP, &from("Soup", &["6 qt Stock"]));
    assert_eq!(json["recipe"]["factor"], "2");
    assert_eq!(words(&json["recipe"], "Stock"), "1 gal");
}

/// 1.06 lb of leeks as purchased leave 0.848 lb, 13.568 oz: 13 1/2 are weighed out, and 13 1/2 is the nearest below as well;
/// 1.08 lb leave 13.824 oz, of which 13 3/4 is the nearest and no more than there is; 1.09 leave 13.952, nearest 14, below it
/// 13 3/4.
#[test]
fn no_more_is_weighed_out_than_there_is() {
    for (on_hand, told) in
        [("1.06 lb Leeks", "13 1/2 oz"), ("1.08 lb Leeks", "13 3/4 oz"), ("1.09 lb Leeks", "13 3/4 oz")]
    {
        assert_eq!(words(&done(SOUP, &from("Soup", &[on_hand]))["recipe"], "Leeks"), told, "{on_hand}");
    }
}

/// 2.73 lb of shells are 43.68 oz: 43 3/4 would be more than there is, in the stock within as well.
#[test]
fn nor_in_a_recipe_within() {
    let mut request = from("Soup", &["2.73 lb Shells"]);
    request.with_sub_recipes = true;
    let json = done(SOUP, &request);
    let stock = json["sub_recipes"].as_array().unwrap().iter().find(|sub| sub["name"] == "Stock").unwrap();
    assert_eq!(words(stock, "Shells"), "2 lb 11 1/2 oz");
}

/// 3 × 2.5 = 7.5 eggs; eight of them are 8 ÷ 3 times the custard: 16 ÷ 3 cups of milk.
#[test]
fn the_rest_follows_the_whole_egg() {
    let mut request = by("Custard", "2.5");
    let recipe = &done(SOUP, &request)["recipe"];
    assert_eq!(words(recipe, "Eggs"), "8");
    assert_eq!(line(recipe, "Eggs")["more"], "0.5");
    assert_eq!(words(recipe, "Milk"), "1 1/4 qt");
    request.whole = Some("egg".to_owned());
    let json = done(SOUP, &request);
    assert_eq!(rounded(&json["recipe"]["factor"], 6), dec("2.666667"));
    assert_eq!(words(&json["recipe"], "Eggs"), "8");
    assert_eq!(line(&json["recipe"], "Eggs")["more"], "0");
    assert_eq!(words(&json["recipe"], "Milk"), "5 1/3 cups");
    let whole = &json["whole"];
    assert_eq!((&whole["asked"]["qty"], &whole["now"]["qty"]), (&"7.5".into(), &"8".into()));
    assert_eq!(whole["factor_asked"], "2.5");
    // 8 × 0.25, and 16 ÷ 3 cups are 4 ÷ 3 qt at 1.00.
    assert_eq!(rounded(&json["recipe"]["food_cost"], 6), dec("3.333333"));
    // What is on hand is never gone beyond: 7 of 7.9 eggs' worth of milk.
    let mut request = from("Custard", &["5 1/4 cups Milk"]);
    request.whole = Some("Eggs".to_owned());
    let json = done(SOUP, &request);
    // 5.25 ÷ 2 × 3 = 7.875 eggs; 7 of them take 14 ÷ 3 cups, and 7 ÷ 12 of a cup are left: 9 1/3 tbsp.
    assert_eq!(json["whole"]["now"]["qty"], "7");
    assert_eq!(rounded(&json["on_hand"][0]["left"]["qty"], 6), dec("0.583333"));
}

/// Twice the soup: 4 qt of stock by its own line, and 2 qt by two batches of finish; 6 of the 4 qt of a batch.
#[test]
fn recipes_within_are_scaled_to_all_that_is_wanted_of_them() {
    let mut request = by("Soup", "2");
    assert_eq!(done(SOUP, &request)["sub_recipes"].as_array().unwrap().len(), 0);
    request.with_sub_recipes = true;
    let json = done(SOUP, &request);
    // A batch is told in what it makes: 2 × 2 cups.
    assert_eq!(words(&json["recipe"], "Finish"), "1 qt");
    let subs = json["sub_recipes"].as_array().unwrap();
    let names: Vec<&str> = subs.iter().map(|sub| sub["name"].as_str().unwrap()).collect();
    assert_eq!(names, ["Stock", "Finish"], "as they are made: each before those that use it");
    assert_eq!(subs[1]["factor"], "2");
    assert_eq!(subs[0]["factor"], "1.5");
    assert_eq!(subs[0]["makes"][0]["in_words"], "1 1/2 gal");
    assert_eq!(words(&subs[0], "Shells"), "1 1/2 lb");
    assert_eq!(words(&subs[0], "Onions"), "12 oz");
    // Stock costs 1.00 + 0.30 a batch.
    assert_eq!(subs[0]["food_cost"], "1.95");
}

/// 0.3 oz of yeast in a batch for 1 kg of dough: a tenth of it is less than a kitchen weighs.
#[test]
fn too_little_is_said_to_be() {
    let book = "Item,Price,Per\nYeast,8.00,lb\n\nRecipe,Dough\nPortions,10\nIngredient,Qty,Unit\nYeast,0.3,oz\n";
    let recipe = &done(book, &by("Dough", "0.1"))["recipe"];
    let yeast = line(recipe, "Yeast");
    assert_eq!(yeast["too_little"], true);
    assert_eq!(yeast["in_words"], "0.03 oz");
}

/// A recipe with an error is scaled, and has no cost.
#[test]
fn what_is_not_costed_is_scaled_all_the_same() {
    let book = "Item,Price,Per\nLeeks,2.00,lb\n\nRecipe,Soup\nPortions,10\nIngredient,Qty,Unit\nLeeks,2,lb\n\
                Cream,1,qt\n";
    let recipe = &done(book, &to("Soup", "25"))["recipe"];
    assert_eq!(words(recipe, "Leeks"), "5 lb");
    assert_eq!(words(recipe, "Cream"), "2 1/2 qt");
    assert!(recipe["food_cost"].is_null() && line(recipe, "Leeks")["cost"].is_null());
}

/// Neither twice a range nor the range as typed would be right: it says that it is not scaled.
#[test]
fn a_quantity_that_could_not_be_read_is_not_scaled() {
    let book = "Item,Price,Per\nLeeks,2.00,lb\nButter,4.00,lb\n\nRecipe,Soup\nPortions,10\nIngredient,Qty,Unit\n\
                Leeks,3-4,lb\nButter,1,lb\n";
    let recipe = &done(book, &to("Soup", "20"))["recipe"];
    assert_eq!(words(recipe, "Leeks"), "not scaled");
    assert_eq!(words(recipe, "Butter"), "2 lb");
}

/// A bare ounce of what is poured was costed as a fluid one, and is told as one.
#[test]
fn a_bare_ounce_of_what_is_poured() {
    let book = "Item,Pack,Price\nCream,1 qt,4.00\n\nRecipe,Soup\nPortions,10\nIngredient,Qty,Unit\nCream,8,oz\n";
    let recipe = &done(book, &by("Soup", "5"))["recipe"];
    // 40 fl oz are 1 1/4 qt at 4.00.
    assert_eq!(words(recipe, "Cream"), "1 1/4 qt");
    assert_eq!(recipe["food_cost"], "5");
}

/// A line whose ingredient could not be read is in the pot all the same: it is shown, and not scaled.
#[test]
fn a_line_without_a_name_is_not_left_out() {
    let book =
        "Item,Price,Per\nLeeks,1.00,kg\n\nRecipe,Soup\nPortions,2\nIngredient,Qty,Unit\nLeeks,1,kg\n=A1,2,kg\n,3,kg\n";
    let recipe = &done(book, &by("Soup", "3"))["recipe"];
    assert_eq!(words(recipe, "Leeks"), "3 kg");
    assert_eq!(words(recipe, "=A1"), "not scaled");
    assert_eq!(words(recipe, "(no ingredient)"), "not scaled");
    assert_eq!(recipe["as_typed"], 0);
}
