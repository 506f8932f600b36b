//! Published measures and yields, run through the tool as books.
//!
//! `foods/measures.tsv` holds household measures of SR28 (USDA National Nutrient Database for Standard Reference, Release
//! 28, 2015) with what so much of the food costs at 3.00 a pound: grams × 3 ÷ 453.59237 ÷ yield, worked in exact fractions
//! from the source's own rows. `foods/yields.tsv` holds published yields (USDA Table of Cooking Yields for Meat and
//! Poultry, Release 2, 2014; USDA Agriculture Handbook 102 as quoted; USDA Food Buying Guide; SR28; Open Washington,
//! *Bakery and Business Math*) with what two pounds of the usable food cost when it is bought at 6.00 a pound:
//! 2 × 6 ÷ yield.

use rust_decimal::Decimal;
use serde_json::Value;

use crate::cli::{BOOK, Folder};
use crate::support::{cost_json, dec, line, no_errors, tsv};

/// The fraction that a table states.
fn fraction(text: &str) -> Decimal {
    let (upper, lower) = text.split_once('/').unwrap();
    upper.parse::<Decimal>().unwrap() / lower.parse::<Decimal>().unwrap()
}

#[track_caller]
fn assert_near(found: &Value, expected: Decimal, what: &str) {
    let off = (dec(found) - expected).abs();
    assert!(off < Decimal::new(1, 20), "{what}: {found} instead of {expected}");
}

#[test]
fn measures_are_borrowed_as_they_are_published() {
    let mut run = 0;
    for row in tsv(include_str!("foods/measures.tsv")) {
        let [item, reference, quantity, unit, prep, source, percent, cost] = row[..] else { panic!("{row:?}") };
        let json = cost_json(&[(
            "book.csv",
            &format!(
                "Item,Pack,Price,Reference food\n\"{item}\",1 lb,$3.00,{reference}\n\n\
                 Recipe,Plate\nPortions,1\nIngredient,Qty,Unit,Prep\n\"{item}\",{quantity},{unit},{prep}\n"
            ),
        )]);
        no_errors(&json);
        let line = line(&json, "Plate", item);
        assert_eq!(line["measure_from"], "reference", "{item}");
        // A line in pieces is as purchased, and has no yield of its own to tell.
        if !reference.is_empty() && line["basis"] == "EP" {
            assert_eq!(line["yield_from"], "reference", "{item}");
        }
        assert_near(&line["cost"], fraction(cost), &format!("{quantity} {unit} {item}, {source}, {percent} %"));
        run += 1;
    }
    assert!(run >= 40, "only {run}");
}

#[test]
fn published_yields_cost_what_they_leave() {
    let mut run = 0;
    for row in tsv(include_str!("foods/yields.tsv")) {
        let [item, percent, source, place, cost] = row[..] else { panic!("{row:?}") };
        // What cooks up takes on water: its yield belongs on the line, in cooked weight.
        let (on_row, on_line) = if percent.parse::<Decimal>().unwrap() > Decimal::ONE_HUNDRED {
            (String::new(), format!("{percent}%"))
        } else {
            (format!("{percent}%"), String::new())
        };
        let json = cost_json(&[(
            "book.csv",
            &format!(
                "Item,Pack,Price,Yield\nFood,1 lb,$6.00,{on_row}\n\n\
                 Recipe,Plate\nPortions,1\nIngredient,Qty,Unit,Yield\nFood,2,lb,{on_line}\n"
            ),
        )]);
        no_errors(&json);
        assert_near(&line(&json, "Plate", "Food")["cost"], fraction(cost), &format!("{item}: {source}, {place}"));
        run += 1;
    }
    assert!(run >= 40, "only {run}");
}

#[test]
fn the_kitchens_own_measure_and_yield_come_first() {
    let json = cost_json(&[(
        "book.csv",
        "Item,Pack,Price,Yield,Reference food\nLeeks,10 lb,$10.00,50%,leek\n\nItem,Measure,Weighs\nLeeks,cup,4 oz\n\n\
         Recipe,Plate\nPortions,1\nIngredient,Qty,Unit\nLeeks,2,cup\n",
    )]);
    let line = line(&json, "Plate", "Leeks");
    // Two cups of 4 oz are half a pound; at 1.00 a pound and 50 % that is 1.00.
    assert_eq!((&line["measure_from"], &line["yield_from"]), (&"measures".into(), &"price row".into()));
    assert_eq!(line["cost"], "1");
}

#[test]
fn shellfish_meat_and_nuts_lend_nothing_unasked() {
    for item in ["Almonds", "Walnuts", "\"Shrimp, peeled\"", "Bacon"] {
        let json = cost_json(&[(
            "book.csv",
            &format!(
                "Item,Pack,Price\n{item},1 lb,$9.00\n\nRecipe,Plate\nPortions,1\nIngredient,Qty,Unit\n{item},1,cup\n"
            ),
        )]);
        let codes: Vec<&str> =
            json["problems"].as_array().unwrap().iter().map(|problem| problem["code"].as_str().unwrap()).collect();
        assert!(codes.contains(&"measure-missing"), "{item}: {codes:?}");
    }
    // Named, almonds lend their cup of 143 g (SR28 12061), and not the yield of nuts in their shells.
    let json = cost_json(&[(
        "book.csv",
        "Item,Pack,Price,Reference food\nAlmonds,143 g,$9.00,almonds\n\n\
         Recipe,Plate\nPortions,1\nIngredient,Qty,Unit,Prep\nAlmonds,1,cup,whole\n",
    )]);
    assert_eq!(line(&json, "Plate", "Almonds")["cost"], "9");
}

#[test]
fn food_shows_what_is_known_and_proposes_without_changing() {
    let folder = Folder::with("book.csv", BOOK);
    let leek = folder.run(&["food", "leek"]).ends(0);
    for words in ["SR28 11246", "56 % of it as purchased is refuse", "the yield is 44 %", "1 cup    89 g"] {
        assert!(leek.out.contains(words), "{}", leek.out);
    }
    let found = folder.run(&["food", "roasted", "chicken"]).ends(0);
    assert!(found.out.lines().count() > 5 && found.out.contains("parings food NUMBER"), "{}", found.out);
    let json: Value = serde_json::from_str(&folder.run(&["food", "11246", "--format", "json"]).ends(0).out).unwrap();
    assert_eq!((&json["foods"][0]["refuse_percent"], &json["foods"][0]["yield_percent"]), (&"56".into(), &"44".into()));
    let none = folder.run(&["food", "unicorn"]).ends(2);
    assert!(none.err.contains("no built-in food is called “unicorn”"), "{}", none.err);
    let before = std::fs::read(folder.path("book.csv")).unwrap();
    let rows = folder.run(&["food", "--for", "book.csv", "--format", "csv"]).ends(0).out;
    assert!(rows.starts_with("Item,Reference food\nFlour,"), "{rows}");
    assert_eq!(std::fs::read(folder.path("book.csv")).unwrap(), before);
}

/// The problems of one code: where they stand, what they say and their help.
fn of_code(json: &Value, code: &str) -> Vec<(String, String, String)> {
    let problems = json["problems"].as_array().unwrap().iter().filter(|problem| problem["code"] == code);
    let text = |problem: &Value, key: &str| problem[key].as_str().unwrap().to_owned();
    problems.map(|problem| (text(problem, "cell"), text(problem, "message"), text(problem, "help"))).collect()
}

/// A book with one item and lines of it.
fn one(header: &str, row: &str, lines: &str) -> Value {
    cost_json(&[(
        "book.csv",
        &format!("{header}\n{row}\n\nRecipe,Plate\nPortions,1\nIngredient,Qty,Unit,Prep\n{lines}\n"),
    )])
}

/// SR28 11282 Onions, raw: 1 cup, chopped = 160 g; 1 cup, sliced = 115 g, more than a tenth apart.
#[test]
fn a_borrowed_measure_with_several_weights_asks_which_and_says_whose_they_are() {
    for (prep, asked) in [("", "blank"), ("minced", "unknown")] {
        let json = one("Item,Pack,Price,Reference food", "Onions,10 lb,$10.00,11282", &format!("Onions,2,cup,{prep}"));
        let found = of_code(&json, "measure-ambiguous");
        let [(cell, message, help)] = &found[..] else { panic!("{asked}: {found:?}") };
        assert_eq!(cell, "B7");
        assert_eq!(
            message,
            "the built-in food that “Onions” borrows from, Onions, raw (SR28 11282), has 1 cup, chopped = 160 g; 1 cup, \
             sliced = 115 g, and this line asks for none of them"
        );
        assert_eq!(
            help,
            "Type in Prep which it is: “chopped” or “sliced”. Or weigh one of yours and add a Measures row: Item Onions, \
             Measure cup, Weighs what it weighs."
        );
    }
    // 1150 g of onions at 10.00, two cups sliced: 230 g, a fifth.
    let json = one("Item,Pack,Price,Yield,Reference food", "Onions,1150 g,$10.00,100%,11282", "Onions,2,cup,sliced");
    assert_eq!(line(&json, "Plate", "Onions")["cost"], "2");
}

/// Where it does not matter which, or there is one alone, it is taken and told.
#[test]
fn borrowed_measures_that_are_alike_are_taken_and_told() {
    // SR28 11353: 0.5 cup, diced = 75 g, and no other cup. Two cups are 300 g, a tenth of 3 kg.
    let json = one("Item,Pack,Price,Yield,Reference food", "Spuds,3 kg,$10.00,100%,11353", "Spuds,2,cup,sliced");
    assert_eq!(line(&json, "Plate", "Spuds")["cost"], "1");
    // SR28 09326 Watermelon: 1 cup, balls = 154 g; 1 cup, diced = 152 g. Two cups as balls are a tenth of 3080 g.
    let json = one("Item,Pack,Price,Yield,Reference food", "Melon,3080 g,$10.00,100%,09326", "Melon,2,cup,");
    assert_eq!(line(&json, "Plate", "Melon")["cost"], "1");
}

#[test]
fn a_kitchens_own_measure_leaves_no_room_for_a_borrowed_one() {
    // Sliced leeks, asked for by the cup, priced by the piece: the kitchen's 100 g a cup, and SR28 11246's 89 g a leek.
    let json = cost_json(&[(
        "book.csv",
        "Item,Pack,Price,Yield\nLeeks,89 ct,$100.00,100%\n\nItem,Measure,Weighs\nLeeks,\"cup, sliced\",100 g\n\n\
         Recipe,Plate\nPortions,1\nIngredient,Qty,Unit\nLeeks,0.89,cup\n",
    )]);
    // 0.89 × 100 g = 89 g, one leek of 89: 100 ÷ 89.
    assert_near(&line(&json, "Plate", "Leeks")["cost"], fraction("100/89"), "leeks");
}

/// A borrowed cup that was cut otherwise, or for which the line names no cut, says for what it was taken.
#[test]
fn what_a_borrowed_measure_was_taken_for_is_told() {
    let told = |row: &str, line: &str| -> Vec<String> {
        of_code(&one("Item,Pack,Price,Yield", row, line), "measure-borrowed").into_iter().map(|found| found.1).collect()
    };
    let onions = "what “Yellow onions” weighs by measure was borrowed: 1 cup, chopped = 160 g (SR28 11282)";
    for (prep, behind) in
        [("chopped", ""), ("Chopped", ""), ("diced", ", taken for “diced”"), ("", ", as the line's Prep is blank")]
    {
        let found = told("Yellow onions,10 lb,$10.00,90%", &format!("Yellow onions,2,cup,{prep}"));
        assert_eq!(found, [format!("{onions}{behind}")], "{prep}");
    }
    // The source's cup of leeks says no cut; a whole leek is not cut.
    assert_eq!(
        told("Leeks,10 lb,$10.00,50%", "Leeks,2,cup,sliced"),
        ["what “Leeks” weighs by measure was borrowed: 1 cup = 89 g (SR28 11246), taken for “sliced”"]
    );
    assert_eq!(
        told("Leeks,10 lb,$10.00,50%", "Leeks,2,each,sliced"),
        ["what “Leeks” weighs by measure was borrowed: 1 leek = 89 g (SR28 11246)"]
    );
}

#[test]
fn an_unknown_reference_food_does_not_hide_the_measure_that_is_missing() {
    let json = one("Item,Pack,Price,Reference food", "Potatoes,10 lb,$10.00,potato king", "Potatoes,2,cup,");
    assert_eq!(of_code(&json, "reference-unknown").len(), 1);
    let found = of_code(&json, "measure-missing");
    let [(cell, _, help)] = &found[..] else { panic!("{found:?}") };
    assert_eq!(cell, "B7");
    assert_eq!(
        help,
        "Add a Measures row: Item Potatoes, Measure cup, Weighs what it weighs, such as 4 oz; or ask for it by weight. \
         The food named in its Reference food is not known; a built-in one that may lend its measures is “potato, \
         russet”, “potato, red” or “potato, white”."
    );
    // By weight it needs no measure, and its yield is what the one problem speaks of.
    let json = one("Item,Pack,Price,Reference food", "Potatoes,10 lb,$10.00,potato king", "Potatoes,2,lb,");
    assert!(of_code(&json, "measure-missing").is_empty());
}

/// SR28 11233 Kale, raw has a cup alone; 11143 Celery, raw has cups, spoons, stalks and strips: neither is sold by the
/// bunch there. Foods are offered only where they have what is missing: 11957 Fennel, bulb, raw has a bulb of 234 g.
#[test]
fn what_was_looked_at_is_told_and_only_what_helps_is_offered() {
    let help = |header: &str, row: &str, line: &str| -> String {
        let found = of_code(&one(header, row, line), "measure-missing");
        let [(_, _, help)] = &found[..] else { panic!("{found:?}") };
        help.rsplit_once("by weight. ").map_or("", |(_, rest)| rest).to_owned()
    };
    assert_eq!(
        help("Item,Pack,Price,Reference food", "Greens,10 lb,$10.00,kale", "Greens,2,bunch,"),
        "Its Reference food, kale (SR28 11233), was looked at and does not help: it has “cup, 1\" pieces or loosely \
         packed”."
    );
    assert_eq!(
        help("Item,Pack,Price", "Celery,10 lb,$10.00", "Celery,2,bunch,"),
        "The built-in food of its name, celery (SR28 11143), was looked at and does not help: it has “cup, chopped”, \
         “tbsp”, “stalk, large”, “stalk, medium”, “stalk, small” and “strip”."
    );
    assert_eq!(
        help("Item,Pack,Price", "Fennel,10 lb,$10.00", "Fennel,2,bulb,"),
        "A built-in food may lend its measures: name it in the column Reference food of Prices, such as “Fennel, bulb, \
         raw”."
    );
    assert_eq!(help("Item,Pack,Price", "Thyme,1 lb,$10.00", "Thyme,2,sprig,"), "");
}

/// The label weight of a can joins its published volume to the price.
#[test]
fn the_help_for_what_comes_in_cans_offers_their_label_weight() {
    let row = |pack: &str| format!("\"Tomatoes, canned\",{pack},$3.00,lb");
    let json = one("Item,Pack,Price,Per", &row("6/#10"), "\"Tomatoes, canned\",2,cup,");
    let found = of_code(&json, "measure-missing");
    let [(_, _, help)] = &found[..] else { panic!("{found:?}") };
    assert!(help.contains("Or add what the label of a can says to the pack, such as 6/#10 (6 lb 6 oz)."), "{help}");
    let json = one("Item,Pack,Price,Per", &row("6/#10 (6 lb 6 oz)"), "\"Tomatoes, canned\",2,cup,");
    no_errors(&json);
    // Two cups are 16 of the 96 fl oz of a can of 6.375 lb, at 3.00 a pound: 6.375 × 3 ÷ 6.
    assert_near(&line(&json, "Plate", "Tomatoes, canned")["cost"], "3.1875".parse().unwrap(), "two cups");
    // The label says the weight already: what a can holds is another measure.
    let [(_, message, help)] = &of_code(&json, "can-published")[..] else { panic!() };
    assert!(message.ends_with("96 to 105 US fl oz, is used"), "{message}");
    assert_eq!(help, "Add a Measures row: Item Tomatoes, canned, Measure #10 can, Holds what one holds.");
}

/// SR28 11353 Potatoes, russet: 1 Potato large = 369 g, 1 Potato medium = 213 g; 11282 Onions: 1 large = 150 g, 1 medium =
/// 110 g; 11135 Cauliflower: 1 head medium = 588 g; 09176 Mangos: 1 fruit without refuse = 336 g; 11507 Sweet potato: 1
/// sweetpotato = 130 g; 09070 Cherries: 1 cherry = 8.2 g; 11266 Mushrooms: 1 piece whole = 20 g;
/// 10123 Bacon: 1 slice raw = 28 g. Each at 10.00 a kilo.
#[test]
fn pieces_as_bought_and_their_sizes_are_borrowed() {
    for (food, line_of, cost) in [
        ("potato, russet", "2,each,", "4.26"),
        ("potato, russet", "2,each,large", "7.38"),
        ("potato, russet", "2,potato,large", "7.38"),
        ("\"onion, yellow\"", "2,each,", "2.2"),
        ("\"onion, yellow\"", "2,each,large", "3"),
        ("\"onion, yellow\"", "2,large,", "3"),
        ("cauliflower", "2,each,", "11.76"),
        ("cauliflower", "2,head,", "11.76"),
        ("mango", "2,each,", "6.72"),
        ("sweet potato", "2,each,", "2.6"),
        ("\"cherries, sweet\"", "100,each,", "8.2"),
        ("\"mushroom, cremini\"", "5,each,", "1"),
        ("bacon", "5,slice,", "1.4"),
    ] {
        let food = format!("\"{}\"", food.trim_matches('"'));
        let row = format!("Food,1 kg,$10.00,100%,{food}");
        let json = one("Item,Pack,Price,Yield,Reference food", &row, &format!("Food,{line_of}"));
        no_errors(&json);
        assert_eq!(line(&json, "Plate", "Food")["cost"], cost, "{food} {line_of}");
    }
}

/// SR28 11546 Tomato paste: 1 can (6 oz) = 170 g, of which a kitchen's can is none.
#[test]
fn retail_packs_are_not_borrowed() {
    let json = one("Item,Pack,Price,Per", "Tomato paste,,$3.00,lb", "Tomato paste,1,can,");
    let found = of_code(&json, "measure-missing");
    let [(_, _, help)] = &found[..] else { panic!("{found:?}") };
    assert!(help.contains("was looked at and does not help: it has “cup” and “tbsp”."), "{help}");
}

/// SR28 11954 Tomatillos, raw states no refuse; 20081 flour is no food to trim.
#[test]
fn a_reference_food_without_a_yield_says_so() {
    let told = |item: &str, food: &str| -> Vec<String> {
        let json =
            one("Item,Pack,Price,Reference food", &format!("{item},1 lb,$3.00,{food}"), &format!("{item},1,lb,"));
        of_code(&json, "yield-borrowed").into_iter().map(|found| found.1).collect()
    };
    assert_eq!(
        told("Husk tomatoes", "tomatillo"),
        [
            "the yield of “Husk tomatoes” was borrowed: 100 % of tomatillo (SR28 11954), for which no refuse is published"
        ]
    );
    assert!(told("White flour", "20081").is_empty());
}

/// What a spoon of something weighs is no cup's weight, and nobody weighs a millilitre.
#[test]
fn the_measure_to_add_is_one_that_can_be_weighed() {
    for (unit, row) in [
        ("tsp", "Measure tsp, Weighs what it weighs, such as 0.1 oz"),
        ("tbsp", "Measure tbsp, Weighs what it weighs, such as 0.3 oz"),
        ("fl oz", "Measure fl oz, Weighs what it weighs, such as 0.7 oz"),
        ("cup", "Measure cup, Weighs what it weighs, such as 4 oz"),
        ("qt", "Measure qt, Weighs what it weighs, such as 1 lb"),
        ("ml", "Measure l, Weighs what it weighs, such as 500 g"),
        ("bunch", "Measure bunch, Weighs what it weighs, such as 4 oz or 110 g"),
    ] {
        let json = one("Item,Pack,Price", "Samphire,10 lb,$3.00", &format!("Samphire,50,{unit},"));
        let found = of_code(&json, "measure-missing");
        assert!(found.len() == 1 && found[0].2.contains(row), "{unit}: {found:?}");
    }
}
