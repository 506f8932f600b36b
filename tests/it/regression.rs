//! What once went wrong: one small book each, its figure worked by hand. The kitchens are invented.

use crate::follow::every_cell_follows;
use crate::recalc::assert_recalculates;
use crate::support::{cost_bytes, cost_json, dish, line, no_errors, recipe, rounded};
use crate::workbook::{STAMP, costed};
use serde_json::Value;

const HEAD: &str = "Setting,Value\nCurrency,USD\nCosting date,2026-11-20\nTarget food cost,30%\n\n";

/// A recipe of one portion that asks for one line.
fn asking(line: &str) -> String {
    format!("\nRecipe,Plate\nPortions,1\nMenu price,$20\nIngredient,Qty,Unit,Basis\n{line}\n")
}

fn json(tables: &str, line: &str) -> Value {
    cost_json(&[("book.csv", &format!("{HEAD}{tables}{}", asking(line)))])
}

fn plate(json: &Value) -> String {
    rounded(&recipe(json, "Plate")["food_cost"], 6).normalize().to_string()
}

fn codes(json: &Value) -> Vec<&str> {
    json["problems"].as_array().unwrap().iter().map(|problem| problem["code"].as_str().unwrap()).collect()
}

fn words<'a>(json: &'a Value, recipe_name: &str, key: &str) -> Vec<&'a str> {
    recipe(json, recipe_name)[key].as_array().unwrap().iter().map(|word| word.as_str().unwrap()).collect()
}

#[test]
fn a_market_price_is_compared_by_the_price_it_stands_for() {
    // A asks 5.00 on the day on which B is at market; B's last price was 9.00. The cheaper is A's.
    let tables = "Item,Per,Price,Supplier,Date\nCod,lb,5.00,A,2026-11-01\nCod,lb,MKT,B,2026-11-01\n\
                  Cod,lb,9.00,B,2026-10-01\n";
    let json = json(tables, "Cod,1,lb,");
    assert_eq!(plate(&json), "5");
    assert!(codes(&json).is_empty(), "{:?}", codes(&json));
}

#[test]
fn a_market_price_never_falls_back_on_a_later_day() {
    let json = json("Item,Per,Price,Date\nCod,lb,MKT,\nCod,lb,9.00,2027-10-01\n", "Cod,1,lb,");
    assert_eq!(recipe(&json, "Plate")["food_cost"], Value::Null);
    assert_eq!(codes(&json), ["price-missing"]);
}

#[test]
fn preferred_marks_the_row_where_no_supplier_is_named() {
    // The sack is 50.00 ÷ 50 lb = 1.00; the small bag would be 0.20.
    let tables = "Item,Pack,Price,Preferred\nFlour,50 lb,50.00,yes\nFlour,5 lb,1.00,\n";
    assert_eq!(plate(&json(tables, "Flour,1,lb,")), "1");
    // Nothing joins pieces and pounds, so the mark says which of the supplier's packs is meant.
    let tables = "Item,Pack,Price,Preferred,Supplier\nFlour,50 lb,50.00,yes,A\nFlour,6 each,1.00,,A\n";
    assert_eq!(plate(&json(tables, "Flour,1,lb,")), "1");
    // Of two that can be compared the supplier's cheaper one is used, whichever bears the mark.
    let tables =
        "Item,Pack,Price,Preferred,Supplier\nFlour,50 lb,50.00,yes,A\nFlour,5 lb,1.00,,A\nFlour,9 lb,0.90,,B\n";
    assert_eq!(plate(&json(tables, "Flour,1,lb,")), "0.2");
}

#[test]
fn without_a_costing_date_no_dated_price_is_chosen() {
    let book = |item: &str| {
        let head = "Setting,Value\nCurrency,USD\nCosting date,the fifth\n\n";
        let prices = "Item,Per,Price,Date\nCod,lb,5.00,2026-01-01\nCod,lb,7.00,2026-06-01\nHam,lb,3.00,\n";
        cost_json(&[("book.csv", &format!("{head}{prices}{}", asking(&format!("{item},1,lb,"))))])
    };
    assert_eq!(recipe(&book("Cod"), "Plate")["food_cost"], Value::Null);
    assert_eq!(plate(&book("Ham")), "3");
}

const CRAB: &str = "Item,Pack,Price\nWhole crab,24 each,72.00\n\n\
                    Item,Measure,Weighs,Basis\nWhole crab,each,150 g,EP\n\n\
                    Test,Role,Part,Weight\nPicking,as purchased,Whole crab,\"12 each, 15 lb\"\nPicking,main,Meat,4 lb\n";

#[test]
fn a_weight_as_purchased_of_what_is_bought_by_the_piece_takes_the_weight_of_a_piece() {
    // 15 lb of 12 is 566.990463 g a piece: 100 ÷ 566.990463 × 3.00 = 0.529109.
    let json = json(CRAB, "Whole crab,100,g,AP");
    assert_eq!(plate(&json), "0.529109");
    // As edible portion the test rules: 36.00 for 4 lb, 1814.36948 g: 100 × 36 ÷ 1814.36948 = 1.984160.
    assert_eq!(plate(&self::json(CRAB, "Whole crab,100,g,EP")), "1.98416");
}

#[test]
fn what_is_added_to_a_test_is_never_dropped_in_silence() {
    let tables = "Item,Pack,Price,Allergens\nCod,10 lb,40.00,fish\nPork,10 lb,30.00,none\n\n\
                  Test,Role,Part,Weight\nA,as purchased,Cod,10 lb\nA,main,Fillet,5 lb\nA,by-product,Fat,1 lb\n\
                  B,as purchased,Pork,10 lb\nB,main,Loin,5 lb\nB,by-product,Fat,1 lb\n\
                  C,as purchased,Fillet,2 lb\nC,added,WHAT,1 lb\nC,main,Confit,2 lb\n";
    let two = json(&tables.replace("WHAT", "Fat"), "Confit,1,lb,");
    assert_eq!(codes(&two), ["part-in-two-tests"]);
    assert_eq!(recipe(&two, "Plate")["food_cost"], Value::Null);
    // 2 lb of fillet at 8.00; the marinade is not in the book, and says nothing of its allergens.
    let unknown = json(&tables.replace("WHAT", "Marinade"), "Confit,1,lb,");
    assert_eq!(plate(&unknown), "8");
    assert_eq!(codes(&unknown), ["name-uncosted"]);
    assert_eq!(words(&unknown, "Plate", "allergens_not_stated"), ["Marinade"]);
}

#[test]
fn ounces_of_weight_in_one_cell_stay_ounces_of_weight() {
    // A cup, 8 fl oz, weighs 7.5 oz: 3.75 oz are 4 fl oz of a gallon of 128 at 12.80, 0.40.
    let tables = "Item,Pack,Price\nOil,1 gal,12.80\n\nItem,Measure,Weighs\nOil,cup,7.5 oz\n";
    let json = json(tables, "Oil,3.75 oz wt,,");
    assert_eq!(plate(&json), "0.4");
    assert!(codes(&json).is_empty(), "{:?}", codes(&json));
}

#[test]
fn what_contains_a_loop_never_claims_to_know_its_allergens() {
    let tables = "Item,Pack,Price,Allergens\nCod,1 lb,4.00,fish\nFlour,1 lb,1.00,wheat\n\n\
                  Recipe,Broth\nMakes,1 lb\nIngredient,Qty,Unit\nCod,1,lb\nSauce,1,lb\n\n\
                  Recipe,Sauce\nMakes,1 lb\nIngredient,Qty,Unit\nFlour,1,lb\nBroth,1,lb\n";
    let json = json(tables, "Sauce,1,lb,");
    for name in ["Broth", "Sauce", "Plate"] {
        assert!(!words(&json, name, "allergens_not_stated").is_empty(), "{name}");
    }
}

#[test]
fn every_row_in_force_speaks_of_allergens() {
    // One price typed twice, with other allergens; and an item that is only sold from next year on.
    let twice = json("Item,Pack,Price,Allergens\nSauce,1 lb,2.00,soy\nSauce,1 lb,2.00,milk\n", "Sauce,1,lb,");
    assert_eq!(words(&twice, "Plate", "allergens"), ["milk", "soy"]);
    let later = json("Item,Pack,Price,Date,Allergens\nSauce,1 lb,2.00,2027-01-01,soy\n", "Sauce,1,lb,");
    assert_eq!(words(&later, "Plate", "allergens_not_stated"), ["Sauce"]);
}

#[test]
fn money_per_another_unit_is_another_charge() {
    let tables = "Item,Pack,Price\nCod,10 lb,40.00\n\nTest,Run,Role,Part,Weight,Charged as,Value\n\
                  T,1,as purchased,Cod,2 lb,,\nT,1,main,Fillet,1 lb,,\nT,1,by-product,Bone,0.5 lb,price,0.60\n\
                  T,2,as purchased,Cod,2 lb,,\nT,2,main,Fillet,1 lb,,\nT,2,by-product,Bone,200 g,price,0.60\n";
    assert_eq!(codes(&json(tables, "Fillet,1,lb,")), ["charge-conflict"]);
}

const SOUP: &str = "Item,Pack,Price\nCod,10 lb,40.00\nIce,10 lb,5.00\n\n\
                    Recipe,Soup\nMakes,1 gal\nPortions,16\nMenu price,5.00\nQ factor,$1.00\nSpice factor,10%\n\
                    Ingredient,Qty,Unit\nCod,1,lb\nWater,1,gal\n\n\
                    Recipe,Broth\nMakes,1 gal\nPortion,8 fl oz\nMenu price,6.00\nIngredient,Qty,Unit\nCod,1,lb\n\n\
                    Dish,Recipe,Portion,Menu price\nTaste of soup,Soup,4 fl oz,3.00\nSoup,,,\nCup,Broth,1 cup,\n";

#[test]
fn half_a_portion_without_a_card_portion_has_a_whole_money_q_and_its_own_spice() {
    let json = cost_json(&[("book.csv", &format!("{HEAD}{}", SOUP.replace("Soup,,,\n", "Soup,Soup,,\n")))]);
    no_errors(&json);
    // A portion: food 4.00 ÷ 16 = 0.25, Q 1.00, spice 10 % of 1.25: 1.375. Half of one: food 0.125, a whole Q, and 10 %
    // of its own food and Q, 0.1125: 1.2375.
    assert_eq!(rounded(&dish(&json, "Soup")["portion_cost"], 6).normalize().to_string(), "1.375");
    assert_eq!(rounded(&dish(&json, "Taste of soup")["portion_cost"], 6).normalize().to_string(), "1.2375");
}

#[test]
fn the_card_portion_in_another_unit_is_the_card_portion() {
    let json = cost_json(&[("book.csv", &format!("{HEAD}{}", SOUP.replace("Soup,,,\n", "Soup,Soup,,\n")))]);
    assert_eq!(dish(&json, "Cup")["menu_price"], "6");
}

#[test]
fn water_is_measured_as_it_was_asked_for() {
    let json = cost_json(&[("book.csv", &format!("{HEAD}{SOUP}"))]);
    // A US gallon is 3785.411784 ml.
    assert_eq!(line(&json, "Soup", "Water")["base_qty"], "3785.411784");
    assert_eq!(line(&json, "Soup", "Water")["cost"], "0");
}

#[test]
fn a_dish_of_a_card_and_one_of_the_menu_may_not_share_a_name() {
    let tables = "Item,Pack,Price\nCod,10 lb,40.00\n\nRecipe,Soup\nPortions,1\nMenu price,9.00\nIngredient,Qty,Unit\n\
                  Cod,1,lb\n\nDish,Recipe,Menu price\nSoup,Plate,5.00\n";
    assert!(codes(&json(tables, "Cod,1,lb,")).contains(&"dish-twice"));
}

#[test]
fn of_prices_in_tests_the_newest_counts_then_the_dearest_in_any_order() {
    let head = "Test,Date,Role,Part,Weight,Unit,Price\n";
    let test = |name: &str, date: &str, price: &str| {
        format!("{name},{date},as purchased,Hake,10,lb,{price}\n{name},{date},main,{name} fillet,8,lb,\n")
    };
    let cost = |one: &str, other: &str| {
        let json = cost_json(&[("book.csv", &format!("{head}{one}{other}"))]);
        no_errors(&json);
        ["First", "Second"].map(|name| crate::support::test(&json, name)["cost"].as_str().unwrap().to_owned())
    };
    // 10 lb at 1.00 are 10.00, at 2.00 20.00: one item has one price, whichever test was typed first, and a test that
    // says none has that of the other.
    let old = test("First", "2026-10-01", "$2.00");
    let new = test("Second", "2026-11-01", "$1.00");
    assert_eq!([cost(&old, &new), cost(&new, &old)], [["10", "10"], ["10", "10"]]);
    let (cheap, dear) = (test("First", "", "$1.00"), test("Second", "", "$2.00"));
    assert_eq!([cost(&cheap, &dear), cost(&dear, &cheap)], [["20", "20"], ["20", "20"]]);
    let silent = test("First", "", "");
    assert_eq!([cost(&silent, &dear), cost(&dear, &silent)], [["20", "20"], ["20", "20"]]);
}

#[test]
fn of_two_dishes_of_one_name_neither_is_costed_in_any_order() {
    let head = "Item,Pack,Price\nCod,10 lb,$40.00\n\nRecipe,Stew\nPortions,2\nIngredient,Qty,Unit\nCod,1,lb\n\n";
    for rows in ["Bowl,Stew,$9.00\nBowl,Stew,$8.00\n", "Bowl,Stew,$8.00\nBowl,Stew,$9.00\n"] {
        let json = cost_json(&[("book.csv", &format!("{head}Dish,Recipe,Menu price\n{rows}Pot,Stew,$7.00\n"))]);
        assert!(codes(&json).contains(&"dish-twice"));
        let bowls = json["dishes"].as_array().unwrap().iter().filter(|dish| dish["name"] == "Bowl");
        assert_eq!(bowls.filter(|bowl| bowl["portion_cost"].is_null()).count(), 2);
        // 40.00 ÷ 10 for the pound in two portions.
        assert_eq!(dish(&json, "Pot")["portion_cost"], "2");
    }
}

#[test]
fn lines_of_one_recipe_in_two_files_are_a_recipe_twice() {
    let prices = "Item,Pack,Price\nCod,10 lb,40.00\n";
    let lines = "Recipe,Item,Qty,Unit\nStew,Cod,1,lb\n";
    let json = cost_json(&[("p.csv", prices), ("a.csv", lines), ("b.csv", lines)]);
    assert!(codes(&json).contains(&"recipe-twice"));
    let facts = "Recipe,Portions\nStew,2\n";
    no_errors(&cost_json(&[("p.csv", prices), ("a.csv", lines), ("f.csv", facts)]));
}

#[test]
fn these_books_recalculate_and_are_the_same_when_read_again() {
    let soup = SOUP.split("Recipe,Broth").next().unwrap().replace("Ice,10 lb,5.00\n", "");
    let soup = format!("{HEAD}{soup}Dish,Recipe,Portion\nTaste of soup,Soup,4 fl oz\n");
    let crab = format!("{HEAD}{CRAB}{}", asking("Whole crab,100,g,AP"));
    let oil = format!(
        "{HEAD}Item,Pack,Price\nOil,1 gal,12.80\n\nItem,Measure,Weighs\nOil,cup,7.5 oz\n{}",
        asking("Oil,3.75 oz wt,,")
    );
    let market = "Item,Per,Price,Supplier,Date\nCod,lb,5.00,A,2026-11-01\nCod,lb,MKT,B,2026-11-01\n\
                  Cod,lb,4.00,B,2026-10-01\n";
    let market = format!("{HEAD}{market}{}", asking("Cod,1,lb,"));
    for book in [soup, crab, oil, market] {
        let (_, _, once) = costed("book.csv", book.as_bytes());
        assert_recalculates(&once, "book.costed.xlsx");
        let (_, _, twice) = costed("book.costed.xlsx", &once);
        assert!(once == twice, "costing the costed book gave another book: {book}");
    }
}

#[test]
fn makes_in_portions_says_how_many_portions() {
    let book = format!(
        "{HEAD}Item,Pack,Price\nCod,1 lb,$5.00\n\nRecipe,Stew\nMakes,10 portions\nMenu price,$4\nIngredient,Qty,Unit\nCod,4,lb\n"
    );
    let json = cost_json(&[("book.csv", &book)]);
    no_errors(&json);
    // 4 lb at 5.00 are 20.00, for ten.
    assert_eq!((&recipe(&json, "Stew")["portions"], &dish(&json, "Stew")["portion_cost"]), (&"10".into(), &"2".into()));
    let (_, _, once) = costed("book.csv", book.as_bytes());
    assert_recalculates(&once, "stew.costed.xlsx");
    let (_, _, twice) = costed("stew.costed.xlsx", &once);
    assert!(once == twice);
}

#[test]
fn pinches_that_weigh_something_follow_their_number() {
    let book = format!(
        "{HEAD}Item,Pack,Price\nPepper,1 kg,$20.00\nBeef,1 kg,$9.00\n\nItem,Measure,Weighs\nPepper,pinch,0.5 g\n\n\
         Recipe,Stew\nPortions,2\nMenu price,$4\nIngredient,Qty,Unit\nPepper,3,pinch\nBeef,400,g\n"
    );
    let (_, costing, once) = costed("book.csv", book.as_bytes());
    // Three pinches of 0.5 g at 0.02 a gram, and 400 g at 0.009.
    assert_eq!(costing.recipes[0].as_ref().unwrap().food.normalize().to_string(), "3.63");
    every_cell_follows(&once, 4);
}

fn helps<'a>(json: &'a Value, code: &str) -> Vec<(&'a str, &'a str)> {
    let problems = json["problems"].as_array().unwrap().iter().filter(|problem| problem["code"] == code);
    problems.map(|problem| (problem["cell"].as_str().unwrap(), problem["help"].as_str().unwrap())).collect()
}

#[test]
fn what_each_may_mean_is_told_by_the_piece() {
    // 192 oz in six tubs of 32 oz.
    let json = json("Item,Pack,Price,Per\nYogurt,6/32 oz,$4.00,EA\n", "Yogurt,1,lb,");
    let help = "Leave Per blank if the price is for the whole pack; if it is for one piece, also make the pack that piece, \
                such as 32 oz.";
    assert_eq!(helps(&json, "per-ambiguous"), [("D7", help)]);
    // As the help says: 4.00 ÷ 32 oz × 16 oz.
    assert_eq!(plate(&self::json("Item,Pack,Price,Per\nYogurt,32 oz,$4.00,\n", "Yogurt,1,lb,")), "2");
}

#[test]
fn a_pack_in_columns_without_its_unit_says_so() {
    let json = json("Item,Units per case,Pack size,UOM,Cost\nPeanuts,6,5,,$66.00\n", "Peanuts,1,lb,");
    assert_eq!(helps(&json, "unit-missing"), [("C7", "Fill Size unit, such as lb, gal or each.")]);
}

#[test]
fn a_name_with_two_spaces_is_shown_with_one() {
    let json = json("Item,Pack,Price\nBrown  butter,1 lb,$3.00\n", "Brown buter,1,lb,");
    assert_eq!(helps(&json, "name-unknown")[0].1, "Did you mean “Brown butter”?");
}

/// Typed into a cell that was formatted as a percentage before, 50 may become 5000 %.
#[test]
fn a_percentage_a_hundred_times_too_large_says_what_may_be_meant() {
    let json = json("Item,Pack,Price,Yield\nLeeks,10 lb,15,5000%\n", "Leeks,1,lb,");
    let problem = &json["problems"][0];
    assert_eq!(problem["code"], "yield-too-high");
    assert!(problem["help"].as_str().unwrap().starts_with("If 50% is meant, type 50%. "), "{problem}");
}

#[test]
fn a_pack_in_columns_may_name_its_can() {
    let json = json("Item,Units per case,Pack size,UOM,Cost\nTomatoes,6,#10,CAN,$30.00\n", "Tomatoes,1,#10 can,");
    no_errors(&json);
    // 30.00 ÷ 6.
    assert_eq!(plate(&json), "5");
}

#[test]
fn weights_in_messages_are_in_the_units_of_the_row() {
    let said = |weights: [&str; 2], code: &str| {
        let [in_one, out] = weights;
        let book = format!(
            "Item,Pack,Price\nCod,10 lb,50.00\n\nTest,Role,Part,Weight\nA,as purchased,Cod,{in_one}\nA,main,Fillet,{out}\n"
        );
        let json = json(&book, "Cod,1,lb,AP");
        let problems = json["problems"].as_array().unwrap().iter();
        let found: Vec<&Value> = problems.filter(|problem| problem["code"] == code).collect();
        assert!(!found.is_empty(), "{weights:?} {json:#}");
        found[0]["message"].as_str().unwrap().split(" weighs ").nth(1).unwrap().to_owned()
    };
    assert_eq!(said(["10 lb", "11 lb 4 oz"], "parts-overweight"), "1.25 lb more than what went in");
    assert_eq!(said(["10 lb 2 oz", "10 lb 3 oz"], "parts-overweight"), "0.0625 lb more than what went in");
    // 3 g on 4.5 kg; 0.10763 g on 16 oz, ÷ 28.349523125 g.
    assert_eq!(said(["4.5 kg", "4503 g"], "parts-slightly-over"), "0.003 kg more than what went in");
    assert_eq!(said(["16 oz", "453.7 g"], "parts-slightly-over"), "0.0038 oz more than what went in");
    // What a missing measure may weigh or hold, beside the quantity asked for.
    let prices = "Item,Pack,Price\nSamphire,10 lb,20.00\nBlini,30 each,6.00\nVerjus,1 gal,16.00\n";
    for (line, such_as) in [
        ("Samphire,2,cup,", "such as 4 oz; or"),
        ("Samphire,200,ml,", "Measure l, Weighs what it weighs, such as 500 g; or"),
        ("Samphire,1,bunch,", "such as 4 oz or 110 g; or"),
        ("Blini,1,lb,", "such as 4 oz; or"),
        ("Blini,300,g,", "such as 110 g; or"),
        ("Verjus,2,lb,", "Measure cup, Weighs what it weighs, such as 8 oz; or"),
        ("Verjus,900,g,", "Measure cup, Weighs what it weighs, such as 220 g; or"),
        ("Verjus,1,slice,", "such as 8 fl oz or 250 ml; or"),
    ] {
        let json = json(prices, line);
        let helps = helps(&json, "measure-missing");
        assert!(helps[0].1.contains(such_as), "{line}: {helps:?}");
    }
}

/// The Summary showed the setting's target, by a formula that points at the cell with the slip.
#[test]
fn a_target_that_could_not_be_read_is_not_the_settings() {
    let book = "Setting,Value\nTarget food cost,30%\n\nItem,Pack,Price\nLeeks,10 lb,$20.00\n\n\
                Recipe,Leek soup\nPortions,4\nIngredient,Qty,Unit\nLeeks,2,lb\n\n\
                Dish,Recipe,Menu price,Target\nSoup,Leek soup,$5.00,0%\n";
    let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
    assert_eq!(reading.kitchen.dishes[0].target, None);
    let written = parings::write(&reading, &costing, STAMP).unwrap();
    assert_recalculates(&written, "a target of nothing");
}

#[test]
fn credits_that_are_too_large_name_the_largest_in_the_unit_of_its_row() {
    // 2 lb of bones at 0.05 an ounce are 1.60, 3 lb of trim at 9.00 are 27.00: 28.60 of 50.00.
    let test = "Item,Pack,Price\nCod,10 lb,50.00\n\nTest,Role,Part,Weight,Charged as,Value\nA,as purchased,Cod,10 lb,,\n\
                A,main,Fillet,5 lb,,\nA,by-product,Bones,2 lb,price,0.05 / oz\nA,by-product,Trim,3 lb,price,HOW\n";
    let met = |value: &str, code: &str| {
        let json = json(&test.replace("HOW", value), "Cod,1,lb,AP");
        let found = json["problems"].as_array().unwrap().iter().find(|problem| problem["code"] == code).cloned();
        let problem = found.unwrap_or_else(|| panic!("{json:#}"));
        ["cell", "message", "help"].map(|key| problem[key].as_str().unwrap().to_owned())
    };
    assert_eq!(
        met("9.00", "credit-large"),
        [
            "F13",
            "by-products carry more than half of “A”: 28.60 of credits against a cost of 50.00; the largest is “Trim”, \
             3 lb at 9.00 per lb: 27.00",
            "Value is money for one lb of a part, not for all of it. Check it: what a by-product takes, the main no \
             longer pays.",
        ]
    );
    // 3 lb at 40.00 are 120.00.
    let [_, message, help] = met("$40", "credit-over-cost");
    assert!(
        message.ends_with(
            "121.60 of credits against a cost of 50.00; the largest is “Trim”, 3 lb at 40.00 per lb: 120.00"
        )
    );
    assert!(help.starts_with("Value is money for one lb"));
    // A percentage of the price is no money per unit: 3 lb at 180 % of 5.00.
    let [_, message, help] = met("180%\nB,as purchased,Cod,1 lb,,\nB,main,Loin,1 lb,,", "value-missing");
    assert!(message.contains("needs money"), "{message}");
    assert!(help.contains("type fraction"), "{help}");
}

/// A recipe that is in the book three times, in a list and on two cards: what is told of the first hung on the order in
/// which the cells stood, which is another one in the costed workbook.
#[test]
fn a_recipe_given_three_times_says_the_same_when_costed_again() {
    let book = "Recipe,Ingredient,Qty,Unit\nStock,Onions,2,lb\n\n\
                Recipe,Stock\nMakes,3 qt\nIngredient,Qty,Unit\nOnions,2,lb\n\n\
                Recipe,Stock\nIngredient,Qty,Unit\nOnions,3,lb\n";
    crate::faults::chance::same_again("book.csv", book.as_bytes()).unwrap();
}

#[test]
fn a_card_whose_spice_may_cover_its_q_or_not_waits_for_the_setting() {
    // Food 4.00, Q 10 %, spice 10 %: 0.44 on both or 0.40 on food alone. Without a Q of its own it is 0.40 either way.
    let book = |q: &str| {
        let settings =
            "Setting,Value\nCurrency,USD\nCosting date,2026-11-20\nSpice covers Q,yes\nSpice covers Q,no\n\n";
        let card = format!("Recipe,Plate\nMakes,1 gal\n{q}Spice factor,10%\nIngredient,Qty,Unit\nCod,1,lb\n");
        cost_json(&[("book.csv", &format!("{settings}Item,Pack,Price\nCod,10 lb,40.00\n\n{card}"))])
    };
    assert!(recipe(&book("Q factor,10%\n"), "Plate")["batch_cost"].is_null());
    assert_eq!(recipe(&book(""), "Plate")["batch_cost"], "4.4");
}

#[test]
fn of_two_things_that_one_run_breaks_down_neither_has_its_yield() {
    // Which of the rows is the slip nobody can tell, so lines of the edible portion of either wait, in any order of rows.
    let book = |first: &str, second: &str| {
        let test = format!(
            "Test,Role,Part,Weight\nT,as purchased,{first},4 lb\nT,main,Fillet,2 lb\nT,as purchased,{second},4 lb\n"
        );
        json(&format!("Item,Pack,Price\nCod,10 lb,40.00\nHake,10 lb,30.00\n\n{test}"), "Cod,1,lb,\nHake,1,lb,")
    };
    for (first, second) in [("Cod", "Hake"), ("Hake", "Cod")] {
        let costed = book(first, second);
        assert!(codes(&costed).contains(&"test-not-understood"), "{:?}", codes(&costed));
        let lines = recipe(&costed, "Plate")["lines"].as_array().unwrap();
        assert!(lines.iter().all(|line| line["cost"].is_null()), "{lines:?}");
    }
}

#[test]
fn what_a_test_leaves_open_is_left_open_in_any_order() {
    // Whether Skin is a main, and whether the test is of trimming at all, nobody can tell: a line of the edible portion
    // waits. Cod as purchased is North's at 4.00, the cheaper by the rows' own yields: 4.00 ÷ 80 % = 5.00 against 3.00 ÷
    // 50 % = 6.00. South's would be the cheaper if a test gave both one yield.
    let prices = "Item,Pack,Price,Supplier,Date,Yield\nCod,10 lb,40.00,North,2026-11-01,80%\n\
                  Cod,10 lb,30.00,South,2026-11-01,50%\n\n";
    let head = "Test,Kind,Role,Part,Weight\nT,,as purchased,Cod,4 lb\nT,,main,Fillet,2 lb\n";
    for open in [
        ["T,,by-product,Skin,1 lb\n", "T,,main,Skin,1 lb\n"],
        ["T,trim,by-product,Skin,1 lb\n", "T,cooking,waste,Bones,1 lb\n"],
        ["T,,by-product,Skin,1 lb\n", "T,,?,Skin,1 lb\n"],
    ] {
        for [first, second] in [open, [open[1], open[0]]] {
            let costed = |line| json(&format!("{prices}{head}{first}{second}"), line);
            assert_eq!(plate(&costed("Cod,1,lb,AP")), "4", "{first}{second}");
            assert!(recipe(&costed("Cod,1,lb,"), "Plate")["food_cost"].is_null(), "{first}{second}");
        }
    }
}

#[test]
fn a_tax_above_the_price_is_the_same_in_the_workbook() {
    // 22.00 with 120 % of tax within are 10.00; a pound of cod at 4.00 is 40 % of that.
    let book = format!(
        "{HEAD}Item,Pack,Price\nCod,10 lb,40.00\n\nDish,Recipe,Menu price,Tax\nSupper,Plate,$22.00,120%\n\
         Lunch,Plate,$11.00,10%\n{}",
        asking("Cod,1,lb,").replace("Menu price,$20\n", "")
    );
    let json = cost_json(&[("book.csv", &book)]);
    assert_eq!(dish(&json, "Supper")["food_cost_percent"], "40");
    assert_recalculates(&costed("book.csv", book.as_bytes()).2, "book.csv");
}

#[test]
fn a_bare_yield_of_one_and_a_half_is_one_and_a_half_percent_in_the_workbook_too() {
    // Up to 1 a fraction, above 1 a percentage: 1.20 ÷ 1.5 % = 80.
    let book = format!("{HEAD}Item,Price,Per,Yield\nCod,1.20,lb,1.5\n{}", asking("Cod,1,lb,"));
    assert_eq!(plate(&cost_json(&[("book.csv", &book)])), "80");
    assert_recalculates(&costed("book.csv", book.as_bytes()).2, "book.csv");
}
