//! As purchased to edible portion: yields from tests and from price rows, and what they do to a line's cost.

use super::{comes_to, costed, d, exactly, loss_percent, per_kg, per_lb, pounds, prints};
use crate::support::{dec, line, part, recipe, test};

/// A whole tenderloin and a whole salmon, at 1.00 a kilogram so that the cost per kilogram is the factor.
///
/// C-BC-EX12. BC Cook Articulation Committee, Basic Kitchen and Food Service Management (BCcampus, 2015; CC BY 4.0),
/// Yield Testing, example 12, <https://opentextbc.ca/basickitchenandfoodservicemanagement/chapter/yield-testing/>.
#[test]
fn tenderloin_and_salmon_in_grams() {
    let json = costed(
        r#"
Item,Price,Per
Beef fillet whole,1.00,kg
Salmon whole,1.00,kg

Test,Role,Part,Weight,Unit
Fillet trimming,as purchased,Beef fillet whole,2500,g
Fillet trimming,waste,Fillet trim,750,g
Fillet trimming,main,Beef fillet trimmed,1750,g
Salmon filleting,as purchased,Salmon whole,7750,g
Salmon filleting,waste,Salmon trim,2750,g
Salmon filleting,main,Salmon fillet,5000,g
"#,
    );
    let fillet = part(&json, "Fillet trimming", "Beef fillet trimmed");
    prints(&fillet["yield_percent"], "70"); // 1750 ÷ 2500
    prints(&fillet["cost_factor"], "1.42857143"); // the book cuts it to 1.42
    comes_to(per_kg(fillet), "1.43");
    exactly(&test(&json, "Fillet trimming")["loss_g"], "0");
    let salmon = part(&json, "Salmon filleting", "Salmon fillet");
    prints(&salmon["yield_percent"], "64.52"); // 5000 ÷ 7750 = 64.516…; the book cuts it to 64.51
    prints(&salmon["cost_factor"], "1.55");
    exactly(&part(&json, "Salmon filleting", "Salmon trim")["cost"], "0");
}

/// Drained tuna by volume. A yield test is by weight, so the printed 53.33 % stands on the price row. (The book says
/// 300 ml of liquid in 750 ml; its percentage needs 350.)
///
/// C-BC-EX12, as above.
#[test]
fn drained_tuna_in_millilitres() {
    let json = costed(
        r#"
Item,Pack,Price,Yield
Canned tuna,750 ml,0.75,53.33%
Canned tuna as stated,750 ml,0.75,60%

Recipe,A litre of tuna
Portions,1
Ingredient,Qty,Unit
Canned tuna,1,l

Recipe,What the can gives
Portions,1
Ingredient,Qty,Unit
Canned tuna as stated,450,ml
"#,
    );
    let tuna = line(&json, "A litre of tuna", "Canned tuna");
    prints(&tuna["cost"], "1.875"); // 1.00 ÷ 0.5333
    prints(&tuna["cost"], "1.87511719");
    prints(&tuna["yield_percent"], "53.33");
    assert_eq!(tuna["yield_from"], "price row");
    // 750 − 300 = 450 ml, 60 % of the can: they cost the can.
    prints(&recipe(&json, "What the can gives")["food_cost"], "0.75");
}

/// Yields of cauliflower and celery from tests, broccoli from a stated yield, and a purchase price had from an edible
/// one. Prices of 1.00 are ours, so that costs read as pounds bought.
///
/// C-TRASTER-4. Daniel Traster, Foundations of Cost Control (Pearson), chapter 4 slides, examples 4a to 4c,
/// <https://studylib.net/doc/5613335/butcher-s-yield-test>.
#[test]
fn vegetables_through_their_yields() {
    let json = costed(
        r#"
Item,Pack,Price,Per,Yield
Cauliflower,,1.00,lb,
Celery,,1.00,lb,
Broccoli,10 lb,10.00,,68%
Trimmed goods,,2.0832,lb,96%

Test,Role,Part,Weight
Cauliflower trimming,as purchased,Cauliflower,17 lb
Cauliflower trimming,main,Cauliflower florets,10 lb
Celery trimming,as purchased,Celery,8 lb
Celery trimming,main,Celery sticks,6 lb 7 oz

Recipe,Vegetables
Portions,1
Ingredient,Qty,Unit,Basis
Cauliflower,10,lb,EP
Celery,6 lb 7 oz,,
Broccoli,108.8,oz,EP
Trimmed goods,1,lb,EP

Recipe,One pound as bought
Portions,1
Ingredient,Qty,Unit,Basis
Trimmed goods,1,lb,AP
"#,
    );
    let florets = part(&json, "Cauliflower trimming", "Cauliflower florets");
    comes_to(dec(&florets["yield_percent"]) / d("100"), "0.588"); // 10 ÷ 17
    prints(&florets["yield_percent"], "58.8"); // the slide prints 58.5 beside its 0.588
    let sticks = part(&json, "Celery trimming", "Celery sticks");
    comes_to(dec(&sticks["yield_percent"]) / d("100"), "0.805"); // 6.4375 ÷ 8
    prints(&sticks["yield_percent"], "80.5");

    // An edible weight of a bought item goes through its own test: 10 lb want 17 lb, 6 lb 7 oz want 8 lb.
    let cauliflower = line(&json, "Vegetables", "Cauliflower");
    prints(&cauliflower["cost"], "17.00000000");
    assert_eq!(cauliflower["yield_from"], "test");
    prints(&cauliflower["yield_percent"], "58.8");
    prints(&line(&json, "Vegetables", "Celery")["cost"], "8.00000000");
    assert_eq!(line(&json, "Vegetables", "Celery")["basis"], "EP"); // weights are EP unless the line says AP
    // 10 lb × 68 % = 108.8 oz, which therefore cost the 10 lb.
    prints(&line(&json, "Vegetables", "Broccoli")["cost"], "10.00000000");
    assert_eq!(line(&json, "Vegetables", "Broccoli")["yield_from"], "price row");
    // 2.17 × 0.96 = 2.0832 as purchased, and back again.
    prints(&line(&json, "Vegetables", "Trimmed goods")["cost"], "2.17");
    let as_bought = line(&json, "One pound as bought", "Trimmed goods");
    prints(&as_bought["cost"], "2.08");
    assert_eq!(as_bought["basis"], "AP");
    assert!(as_bought["yield_percent"].is_null());
}

/// Green beans to buy for five covers, and portions out of ten pounds of potatoes. Beans at 1.00 an ounce, so that
/// the cost reads as ounces to buy.
///
/// C-PROSTART. "Foundations chapter 4, part 4: AP/EP", ProStart level 1 class slides,
/// <https://www.slideserve.com/monita/foundations-chapter-4-prostart-level-1>.
#[test]
fn beans_to_buy_and_potato_portions() {
    let json = costed(
        r#"
Item,Pack,Price,Per,Yield
Green beans,,1.00,oz,88%
Potatoes,10 lb,10.00,,80%

Recipe,Beans for five
Portions,5
Portion,3 oz
Ingredient,Qty,Unit
Green beans,15,oz

Recipe,Ten pounds of potatoes
Makes,8 lb
Portion,3 oz
Ingredient,Qty,Unit,Basis
Potatoes,10,lb,AP
"#,
    );
    // 5 × 3 oz ÷ 0.88; an order would be rounded up.
    prints(&recipe(&json, "Beans for five")["food_cost"], "17.04545455");
    // 8 lb = 128 oz; 128 ÷ 3 = 42.67, of which 42 can be served. The tool keeps the fraction in the portion cost.
    let potatoes = recipe(&json, "Ten pounds of potatoes");
    prints(&potatoes["food_cost"], "10.00000000");
    prints(&potatoes["portions"], "42.67");
    prints(&potatoes["portion_cost"], "0.23437500"); // 10 × 3 ÷ 128
}

/// A yield from pounds and ounces, and a 7 oz portion after an 80 % yield.
///
/// C-FSI-FORMULAS. "Math formulas", Foodservice Institute training sheet,
/// <http://docplayer.net/27018029-Math-formulas-2-20-divided-by-10-00-22-or-to-get-your-desired-food-cost-10-00-x-22-2-20.html>.
#[test]
fn seven_ounces_after_trimming() {
    let json = costed(
        r#"
Item,Price,Per,Yield
Meat before trimming,1.00,lb,
Meat at nine,9.00,lb,80%

Test,Role,Part,Weight
Meat trimming,as purchased,Meat before trimming,6 lb 4 oz
Meat trimming,main,Meat after trimming,5 lb 2 oz

Recipe,One ounce
Portions,1
Ingredient,Qty,Unit
Meat at nine,1,oz

Recipe,Seven ounces
Portions,1
Ingredient,Qty,Unit
Meat at nine,7,oz

Recipe,A pound trimmed
Portions,1
Ingredient,Qty,Unit
Meat at nine,12.8,oz
"#,
    );
    prints(&part(&json, "Meat trimming", "Meat after trimming")["yield_percent"], "82"); // 82 oz ÷ 100 oz
    comes_to(loss_percent(test(&json, "Meat trimming")), "18");
    prints(&recipe(&json, "A pound trimmed")["food_cost"], "9.00"); // 16 oz × 80 % = 12.8 oz
    prints(&recipe(&json, "One ounce")["food_cost"], "0.70"); // 9.00 ÷ 12.8 = 0.703125
    // 7 × 0.703125 = 4.921875. The sheet multiplies the rounded 0.70 and prints 4.90.
    prints(&recipe(&json, "Seven ounces")["food_cost"], "4.921875");
}

/// A side of beef at its hanging weight, taken home as 225 lb or as 215 lb.
///
/// C-OSU-SIDE. "Buying Beef in Large Quantities", No. 617, Oklahoma Cooperative Extension Service,
/// <https://studylib.net/doc/18774856/buying-beef-in-large-quantities>.
#[test]
fn side_of_beef() {
    // The divisions were cut off in what was read: 390 ÷ 225 and 390 ÷ 215.
    for (pounds_home, yield_percent, cost_per_lb) in [("225", "75", "1.73333333"), ("215", "71.66666667", "1.81395349")]
    {
        let json = costed(&format!(
            r#"
Item,Pack,Price,Per
Side of beef,300 lb CW,1.30,lb

Test,Role,Part,Weight
Side cutting,as purchased,Side of beef,300 lb
Side cutting,main,Cuts to take home,{pounds_home} lb
"#
        ));
        prints(&test(&json, "Side cutting")["cost"], "390"); // 300 × 1.30
        let cuts = part(&json, "Side cutting", "Cuts to take home");
        prints(&cuts["yield_percent"], yield_percent);
        comes_to(per_lb(cuts), cost_per_lb);
    }
}

/// Ten pounds for 20.00, three of them waste, served as 4 oz portions.
///
/// C-HTF-255. "HTF 255 chapter 5, Yield Test", course notes on a hospitality lecturer's blog,
/// <http://hazwani-hz.blogspot.com/2011/12/htf-255-chapter-5-yield-test.html>.
#[test]
fn ten_pounds_less_three() {
    let json = costed(
        r#"
Item,Pack,Price
Goods,10 lb,20.00

Test,Role,Part,Weight
Goods cleaning,as purchased,Goods,10 lb
Goods cleaning,waste,Peelings,3 lb
Goods cleaning,main,Clean goods,7 lb

Recipe,Four ounce plate
Makes,7 lb
Portion,4 oz
Ingredient,Qty,Unit
Clean goods,112,oz
"#,
    );
    comes_to(pounds(&part(&json, "Goods cleaning", "Clean goods")["weight_g"]), "7");
    let plate = recipe(&json, "Four ounce plate");
    prints(&plate["food_cost"], "20.00000000"); // 7 lb = 112 oz carry all of it
    prints(&plate["portions"], "28"); // 112 ÷ 4
    prints(&plate["portion_cost"], "0.71"); // 20 ÷ 28 = 0.71428571; the notes round it up to 0.72
    prints(&plate["portion_cost"], "0.71428571");
}

/// Three 300 lb sides of which 15, 30 and 45 % is waste: what is left must carry the whole side. At 1.00 a pound, so
/// that the cost reads as pounds of side.
///
/// C-UMN-SIDES. Richard J. Epley, "Cost Estimate of Beef by the Side", University of Minnesota Extension,
/// <https://webarchive.library.unt.edu/eot2008/20090115233055/http://www.extension.umn.edu/distribution/nutrition/DJ0598.html>.
#[test]
fn three_sides_of_different_fatness() {
    let json = costed(
        r#"
Item,Price,Per,Yield
Lean side,1.00,lb,85%
Average side,1.00,lb,70%
Fat side,1.00,lb,55%

Recipe,Three sides
Portions,1
Ingredient,Qty,Unit,Basis
Lean side,255,lb,EP
Average side,210,lb,EP
Fat side,165,lb,EP
"#,
    );
    // 300 × 0.85 = 255 (the source prints 225, figures swapped), 300 × 0.70 = 210, 300 × 0.55 = 165.
    for side in ["Lean side", "Average side", "Fat side"] {
        prints(&line(&json, "Three sides", side)["cost"], "300.00000000");
    }
    prints(&recipe(&json, "Three sides")["food_cost"], "900.00000000");
}
