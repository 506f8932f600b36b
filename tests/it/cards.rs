//! What a card says of its batch, under whichever labels, and what of it a menu serves: every book worked by hand.

use crate::follow::every_cell_follows;
use crate::recalc::{Sheets, Value, assert_recalculates, with_changes};
use crate::support::{cost_json, dec, dish, line, no_errors, recipe, rounded};
use crate::workbook::costed;

/// A decimal.
fn d(text: &str) -> rust_decimal::Decimal {
    text.parse().unwrap()
}

/// The problems of this code, as `cell: message`.
fn met(json: &serde_json::Value, code: &str) -> Vec<String> {
    let problems = json["problems"].as_array().unwrap().iter().filter(|problem| problem["code"] == code);
    problems
        .map(|problem| format!("{}: {}", problem["cell"].as_str().unwrap(), problem["message"].as_str().unwrap()))
        .collect()
}

/// A card of two pounds of beets at $1.50, labelled as `labels` say.
fn beets(labels: &str) -> String {
    format!("Item,Pack,Price\nBeets,20 lb,$30.00\n\nRecipe,Beet soup\n{labels}\nIngredient,Qty,Unit\nBeets,2,lb\n")
}

/// What the JSON says the beets make, and in how many portions.
#[track_caller]
fn makes(labels: &str) -> (String, String) {
    let json = cost_json(&[("book.csv", &beets(labels))]);
    no_errors(&json);
    let soup = recipe(&json, "Beet soup");
    let said = |value: &serde_json::Value| value.as_str().unwrap_or("-").to_owned();
    (format!("{} {}", said(&soup["makes"]["qty"]), said(&soup["makes"]["unit"])), said(&soup["portions"]))
}

#[test]
fn a_batch_is_read_under_every_label_that_cooks_write() {
    for (labels, made, portions) in [
        ("Yield,3 qt", "3 qt", "-"),
        ("Yields,3 qt", "3 qt", "-"),
        ("Batch size,3 qt", "3 qt", "-"),
        ("Makes,3 qt", "3 qt", "-"),
        ("Yield,12", "- -", "12"),
        ("Serves,12", "- -", "12"),
        ("Servings,12", "- -", "12"),
        ("Portions,12", "- -", "12"),
        ("Covers,12", "- -", "12"),
        ("Yield,12 covers", "- -", "12"),
        ("Makes,12 portions", "- -", "12"),
        ("Makes,12 plates", "- -", "12"),
        ("Yield,\"3 qt, 12 servings\"", "3 qt", "12"),
        ("Makes,\"3 qt (2.9 kg), serves 12\"", "3 qt", "12"),
        ("Batch size,3 qt; 12 portions", "3 qt", "12"),
        ("Makes,3 qt\nYield,12", "3 qt", "12"),
        // 3 qt are 96 fl oz, 12 of 8 fl oz.
        ("Yield,3 qt\nPortion,8 fl oz", "3 qt", "12"),
        ("Yield (qt),3\nServes,12", "3 qt", "12"),
        ("Makes,12", "- -", "12"),
    ] {
        assert_eq!(makes(labels), (made.to_owned(), portions.to_owned()), "{labels}");
    }
}

#[test]
fn what_is_doubtful_about_a_batch_is_told_and_what_is_no_batch_refused() {
    for (labels, code, told) in [
        ("Makes,12", "unit-assumed", "B5: Makes is 12, without a unit, and was read as 12 portions"),
        ("Yields,12", "unit-assumed", "B5: Makes is 12, without a unit, and was read as 12 portions"),
        ("Yield,85%", "not-a-number", "B5: Yield is 85%, a percentage where a recipe says how much the batch makes"),
        ("Yield %,85", "not-a-number", "B5: Yield is 85, a percentage where a recipe says how much the batch makes"),
        ("Makes,3 qt\nYield,80 %", "not-a-number", "B6: Yield is 80 %, a percentage"),
        ("Makes,3 qt\nYield,2 qt", "portions-disagree", "B6: Yield says 2 qt, but Makes at book.csv ▸ B5 says 3 qt"),
        ("Portions,12\nYield,10", "portions-disagree", "B6: Yield says 10 portions, but Portions at book.csv ▸ B5"),
        ("Serves,0", "number-out-of-range", "B5: Portions is 0"),
        ("Yield,0 servings", "number-out-of-range", "B5: Yield is 0"),
        ("Yield,10-12", "range-given", "B5: "),
        // 96 fl oz are 12 portions of 8; 14 is more, 10 more than one below; 11 and 12 are no warning (below).
        ("Makes,3 qt\nPortion,8 fl oz\nServes,14", "portions-disagree", "B7: “Beet soup” states 14 portions"),
        ("Makes,3 qt\nPortion,8 fl oz\nServes,10", "portions-disagree", "B7: “Beet soup” states 10 portions"),
    ] {
        let json = cost_json(&[("book.csv", &beets(labels))]);
        let found = met(&json, code);
        assert!(matches!(found.as_slice(), [one] if one.starts_with(told)), "{labels}: {found:#?}");
    }
    for labels in ["Makes,3 qt\nPortion,8 fl oz\nServes,11", "Makes,3 qt\nYield,3 qt\nServes,12", "Serves,12\nYield,12"]
    {
        let json = cost_json(&[("book.csv", &beets(labels))]);
        assert!(met(&json, "portions-disagree").is_empty(), "{labels}");
    }
}

/// The same words as columns of a list.
#[test]
fn facts_in_a_list_have_the_labels_of_cards() {
    let json = cost_json(&[(
        "book.csv",
        "Item,Pack,Price\nBeets,20 lb,$30.00\n\nRecipe,Yield,Portion\nBeet soup,\"3 qt, 12 servings\",\n\
         Beet salad,4,\nBeet juice,64 fl oz,8 fl oz\nBeet chips,90%,\n\nRecipe,Covers,Batch size\nBeet stew,6,2 qt\n\n\
         Recipe,Ingredient,Qty,Unit\nBeet soup,Beets,2,lb\nBeet salad,Beets,2,lb\nBeet juice,Beets,2,lb\n\
         Beet chips,Beets,2,lb\nBeet stew,Beets,2,lb\n",
    )]);
    for (name, portions) in [("Beet soup", "12"), ("Beet salad", "4"), ("Beet juice", "8"), ("Beet stew", "6")] {
        assert_eq!(recipe(&json, name)["portions"], portions, "{name}");
    }
    assert_eq!(recipe(&json, "Beet stew")["makes"]["unit"], "qt");
    assert_eq!(met(&json, "not-a-number").len(), 1, "{json:#}");
    assert!(recipe(&json, "Beet chips")["food_cost"].is_null());
}

/// Two pounds of beets are $3.00. Nobody knows how many plates that is: the plate is an error, the batch is not.
#[test]
fn a_card_that_does_not_say_how_much_is_a_batch_and_no_portion() {
    let book = "Item,Pack,Price\nBeets,20 lb,$30.00\n\nRecipe,Beet puree\nIngredient,Qty,Unit\nBeets,2,lb\n\n\
                Recipe,Tray\nPortions,4\nIngredient,Qty,Unit\nBeet puree,2,batch\n\n\
                Recipe,Cup\nPortions,4\nIngredient,Qty,Unit\nBeet puree,2,portions\n\n\
                Recipe,Sold\nMenu price,$9.00\nTarget,30%\nIngredient,Qty,Unit\nBeets,1,lb\n";
    let json = cost_json(&[("book.csv", book)]);
    // 2 × 3.00.
    assert_eq!(recipe(&json, "Tray")["food_cost"], "6");
    assert!(recipe(&json, "Beet puree")["portions"].is_null() && recipe(&json, "Beet puree")["portion_cost"].is_null());
    assert_eq!(met(&json, "makes-assumed").len(), 1, "{json:#}");
    assert_eq!(met(&json, "yield-unknown"), ["B16: “Beet puree” does not say how many portions it makes"]);
    assert!(line(&json, "Cup", "Beet puree")["cost"].is_null());
    // 1 lb at $1.50 stands for those who use it; the dish does not.
    assert_eq!(recipe(&json, "Sold")["food_cost"], "1.5");
    assert!(dish(&json, "Sold")["portion_cost"].is_null());
    assert_eq!(met(&json, "portion-unclear"), ["B19: the card of “Sold” does not say how many portions it makes"]);
}

/// A goulash of $36.00 in 12 portions of 10 oz, with a money Q of $0.40 and 4 % spice.
///
/// Food of a portion 36 ÷ 12 = 3.00; half 1.50; four 12.00; all 36.00; 15 oz, half as much again, 4.50.
/// Q 0.40 once, by the portion a whole one each: half 0.40, four 1.60, the pot 12 × 0.40 = 4.80, 15 oz 0.40, and two
/// and a half portions, 7.50 of food, three: 1.20.
/// Spice 4 % of the two: (3.00 + 0.40) × 0.04 = 0.136; half (1.50 + 0.40) × 0.04 = 0.076; four 13.60 × 0.04 = 0.544;
/// pot 40.80 × 0.04 = 1.632; 15 oz 4.90 × 0.04 = 0.196; two and a half 8.70 × 0.04 = 0.348.
const GOULASH: &str = "\
Item,Pack,Price,Allergens
Beef shin,10 lb,$60.00,none
Onions,50 lb,$25.00,none

Setting,Value
Spice factor,4%
Q factor,$0.40
Target food cost,30%

Recipe,Goulash
Yield,\"7.5 lb, 12 servings\"
Portion,10 oz
Menu price,$14.00
Ingredient,Qty,Unit
Beef shin,5,lb
Onions,12,lb

Dish,Recipe,Portion,Menu price
Goulash,,,
\"Goulash, child\",Goulash,1/2 portion,$7.00
\"Goulash, platter for four\",Goulash,4 portions,$52.00
\"Goulash, pot\",Goulash,1 batch,$150.00
\"Goulash, large\",Goulash,15 oz,$19.00
\"Goulash, for three\",Goulash,2 1/2 portions,$30.00
\"Goulash, again\",Goulash,1 portion,
";

const SERVED: [(&str, &str, &str, &str, &str); 7] = [
    ("Goulash", "3", "0.4", "0.136", "3.536"),
    ("Goulash, child", "1.5", "0.4", "0.076", "1.976"),
    ("Goulash, platter for four", "12", "1.6", "0.544", "14.144"),
    ("Goulash, pot", "36", "4.8", "1.632", "42.432"),
    ("Goulash, large", "4.5", "0.4", "0.196", "5.096"),
    ("Goulash, for three", "7.5", "1.2", "0.348", "9.048"),
    ("Goulash, again", "3", "0.4", "0.136", "3.536"),
];

#[test]
fn a_dish_is_so_many_portions_or_batches_and_bears_a_q_for_each() {
    let json = cost_json(&[("goulash.csv", GOULASH)]);
    no_errors(&json);
    for (name, food, q, spice, cost) in SERVED {
        let found = dish(&json, name);
        for (key, figure) in [("food_cost", food), ("q", q), ("spice", spice), ("portion_cost", cost)] {
            assert_eq!(dec(&found[key]), d(figure), "{name} {key}");
        }
        let sum = dec(&found["food_cost"]) + dec(&found["q"]) + dec(&found["spice"]);
        assert_eq!(sum, dec(&found["portion_cost"]), "{name}");
    }
    assert_eq!(dish(&json, "Goulash, pot")["share"], "1");
    assert_eq!(dish(&json, "Goulash, pot")["portion"]["unit"], "batch");
    // 4 ÷ 12.
    assert_eq!(rounded(&dish(&json, "Goulash, platter for four")["share"], 12), d("0.333333333333"));
    // One portion is the card's, at the card's price; half of one is not.
    assert_eq!(dish(&json, "Goulash, again")["menu_price"], "14");
    assert_eq!(dish(&json, "Goulash, again")["ex_tax_price"], "14");
}

/// Spice on food alone: 4 % of 1.50 is 0.06, of 12.00 0.48, of 4.50 0.18.
#[test]
fn spice_that_does_not_cover_q_is_on_the_dishes_own_food() {
    let book = GOULASH.replace("Q factor,$0.40", "Q factor,$0.40\nSpice covers Q,no");
    let json = cost_json(&[("goulash.csv", &book)]);
    for (name, spice) in [("Goulash, child", "0.06"), ("Goulash, platter for four", "0.48"), ("Goulash, large", "0.18")]
    {
        assert_eq!(dec(&dish(&json, name)["spice"]), d(spice), "{name}");
    }
}

/// Of 9 lb, a tenth lost in serving, a portion of 9 oz is 9 ÷ (9 × 0.9 × 16 = 129.6) of the batch; a batch is all of it.
#[test]
fn a_batch_is_all_of_it_whatever_the_serving_loss() {
    let book = "Item,Pack,Price\nBeans,10 lb,$10.80\n\nRecipe,Chili\nMakes,9 lb\nServing loss,10%\nIngredient,Qty,Unit\n\
                Beans,10,lb\n\nDish,Recipe,Portion,Menu price,Target\nChili bowl,Chili,9 oz,$4.00,30%\n\
                Chili pot,Chili,1 batch,$40.00,30%\nChili for a feast,Chili,2 batches,$70.00,30%\nChili half,Chili,1/2 portion,$3,30%\n";
    let json = cost_json(&[("book.csv", book)]);
    // 10.80 × 9 ÷ 129.6 = 0.75.
    assert_eq!(dish(&json, "Chili bowl")["portion_cost"], "0.75");
    assert_eq!(dish(&json, "Chili pot")["portion_cost"], "10.8");
    assert_eq!(dish(&json, "Chili for a feast")["portion_cost"], "21.6");
    // Nobody said what a portion is, so half of one is not known.
    assert_eq!(met(&json, "portion-unclear").len(), 1, "{json:#}");
    assert!(dish(&json, "Chili half")["portion_cost"].is_null());
    // With Q in money a pot needs to know how many portions it is.
    let json = cost_json(&[("book.csv", &format!("{book}\nSetting,Value\nQ factor,$0.20\n"))]);
    assert!(dish(&json, "Chili pot")["portion_cost"].is_null());
    assert_eq!(met(&json, "portion-unclear").len(), 3, "{json:#}");
    // A bowl bears one: 0.75 + 0.20.
    assert_eq!(dish(&json, "Chili bowl")["portion_cost"], "0.95");
}

/// The workbook recalculates to the same, every typed number is followed, and it is the same book when it is read again.
#[test]
fn dishes_in_portions_and_batches_live_in_the_workbook() {
    let (_, _, written) = costed("goulash.csv", GOULASH.as_bytes());
    assert_recalculates(&written, "goulash");
    let (_, _, again) = costed("goulash.costed.xlsx", &written);
    assert!(again == written, "costed again it is another book");
    // Menu prices move no cost.
    let unpriced =
        GOULASH.replace(",$7.00", ",").replace(",$52.00", ",").replace(",$150.00", ",").replace(",$19.00", ",");
    let (_, _, written) = costed("goulash.csv", unpriced.as_bytes());
    every_cell_follows(&written, 9);
}

/// Twice the beef, $12.00 a pound: the batch is 5 × 12 + 12 × 0.50 = 66.00, 5.50 a portion. Under 5 % spice a half is
/// (2.75 + 0.40) × 1.05 = 3.3075, the pot (66.00 + 4.80) × 1.05 = 74.34. With 11 portions on the card the pot has 11 Qs:
/// (66.00 + 4.40) × 1.05 = 73.92, and a half 66 ÷ 22 = 3.00: 3.40 × 1.05 = 3.57.
#[test]
fn what_the_dishes_add_up_to_follows_the_card() {
    let (reading, _, written) = costed("goulash.csv", GOULASH.as_bytes());
    let cell = |row: usize| format!("B{}", 8 + row);
    let place = |label: &str| {
        let sheets = Sheets::open(&written);
        (1..30)
            .map(|row| format!("A{row}"))
            .find(|at| sheets.value("Goulash", at) == Value::Text(label.to_owned()))
            .map(|at| at.replace('A', "B"))
            .unwrap_or_else(|| panic!("no {label} on the card"))
    };
    assert_eq!(reading.kitchen.dishes.len(), SERVED.len());
    let setting = (2..20)
        .map(|row| format!("A{row}"))
        .find(|at| Sheets::open(&written).value("Settings", at) == Value::Text("Spice factor".to_owned()))
        .map(|at| at.replace('A', "B"))
        .unwrap();
    let price = "C2";
    let portions = place("Portions");
    let sheets = with_changes(&written, &[("Prices", price, 120.0), ("Settings", &setting, 0.05)]);
    let near = |found: f64, wanted: f64| assert!((found - wanted).abs() < 1e-9, "{found}, not {wanted}");
    near(sheets.number("Summary", &cell(1)), 3.3075);
    near(sheets.number("Summary", &cell(3)), 74.34);
    let all = [("Prices", price, 120.0), ("Settings", setting.as_str(), 0.05), ("Goulash", portions.as_str(), 11.0)];
    let sheets = with_changes(&written, &all);
    near(sheets.number("Summary", &cell(1)), 3.57);
    near(sheets.number("Summary", &cell(3)), 73.92);
}

/// A bare number beside Makes stays where it was typed, and is live there.
#[test]
fn portions_typed_beside_makes_are_followed() {
    let (_, _, written) = costed("book.csv", format!("{}\nDish,Recipe\nBeet soup,\n", beets("Makes,12")).as_bytes());
    assert_recalculates(&written, "beets");
    let (_, _, again) = costed("book.costed.xlsx", &written);
    assert!(again == written, "costed again it is another book");
    // 3.00 ÷ 12 = 0.25; ÷ 10 = 0.30.
    assert_eq!(Sheets::open(&written).number("Beet soup", "B2"), 12.0);
    assert!((Sheets::open(&written).number("Summary", "B8") - 0.25).abs() < 1e-12);
    assert!((with_changes(&written, &[("Beet soup", "B2", 10.0)]).number("Summary", "B8") - 0.30).abs() < 1e-12);
}

/// The card tells what each dish adds up to, in live cells beside its own cost.
#[test]
fn the_card_shows_what_its_dishes_add_up_to() {
    let (_, _, written) = costed("goulash.csv", GOULASH.as_bytes());
    let sheets = Sheets::open(&written);
    let text = |column: char, row: u32| match sheets.value("Goulash", &format!("{column}{row}")) {
        Value::Text(text) => text,
        _ => String::new(),
    };
    let head = (1..60).find(|row| text('A', *row) == "On the menu").unwrap();
    let first = ('A'..='Z').find(|column| text(*column, head) == "Food").unwrap();
    let columns: Vec<char> = (first..='Z').take(4).collect();
    let headers: Vec<String> = columns.iter().map(|column| text(*column, head)).collect();
    assert_eq!(headers, ["Food", "Q", "Spice", "Portion cost"]);
    for ((name, food, q, spice, cost), row) in SERVED.into_iter().zip(head + 1..) {
        assert_eq!(text('A', row), format!("Sold as: {name}"));
        for (column, wanted) in columns.iter().zip([food, q, spice, cost]) {
            let found = sheets.number("Goulash", &format!("{column}{row}"));
            assert!((found - wanted.parse::<f64>().unwrap()).abs() < 1e-9, "{name}: {found}, not {wanted}");
        }
    }
    let against = (1..60).find(|row| text('A', *row) == "Against the target").unwrap();
    assert_eq!(text(first, against), "Menu price");
    assert_eq!(sheets.number("Goulash", &format!("{first}{}", against + 1)), 14.0);
}

/// Bought in words that are no codes: on the card they stand as they were typed, a word once.
#[test]
fn a_card_has_the_allergens_in_the_words_that_were_typed() {
    let book = "Item,Pack,Price,Allergens,May contain\nPrawns,10 lb,$100.00,\"Shrimp, Sulfites\",tree_nut\n\
                Crab,5 lb,$90.00,crustaceans,\nCream,1 qt,$4.00,Dairy,\nButter,1 lb,$4.00,dairy; gluten_other,\n\
                Mussels,10 lb,$30.00,Shellfish,\n\nRecipe,Bisque\nPortions,4\nIngredient,Qty,Unit\nCream,1,cup\n\
                Crab,1,lb\nPrawns,1,lb\nButter,1,oz\nMussels,1,lb\n";
    let json = cost_json(&[("book.csv", book)]);
    // The codes are for programs.
    let codes = ["milk", "crustacean", "mollusc", "gluten_other", "sulphite"];
    assert_eq!(recipe(&json, "Bisque")["allergens"], serde_json::json!(codes));
    let (_, _, written) = costed("book.csv", book.as_bytes());
    let sheets = Sheets::open(&written);
    let beside = |label: &str| {
        let row = (1..60)
            .find(|row| sheets.value("Bisque", &format!("A{row}")) == Value::Text(label.to_owned()))
            .unwrap_or_else(|| panic!("no {label} on the card"));
        sheets.value("Bisque", &format!("B{row}"))
    };
    // In the order of the list, the words of one allergen by the alphabet; shellfish names two, and stands once.
    let words = "Dairy, Shellfish, Shrimp, crustaceans, gluten other, Sulfites";
    assert_eq!(beside("Allergens found"), Value::Text(words.to_owned()));
    assert_eq!(beside("May contain found"), Value::Text("tree nut".to_owned()));
}

/// A third of a pinch has no place in a cell, so quantity and unit stay in one; the JSON keeps them apart, before and after.
/// 5 ÷ 3 pinches of 0.3 g at $2.00 a gram are $1.00.
#[test]
fn a_costed_pinch_is_a_quantity_and_a_unit() {
    let book = "Item,Pack,Price\nSaffron,10 g,$20.00\nSalt,1 kg,$1.00\n\nItem,Measure,Weighs\nSaffron,pinch,0.3 g\n\n\
                Recipe,Broth\nPortions,4\nIngredient,Qty,Unit\nSaffron,1-2/3 pinch,\nSalt,1-2/3 pinch,\n";
    let (reading, costing, written) = costed("book.csv", book.as_bytes());
    let first = crate::support::json_of(&reading, &costing);
    let (reading, costing, _) = costed("book.costed.xlsx", &written);
    let again = crate::support::json_of(&reading, &costing);
    for json in [first, again] {
        let saffron = line(&json, "Broth", "Saffron");
        assert_eq!((rounded(&saffron["qty"], 6), &saffron["unit"]), (d("1.666667"), &"pinch".into()));
        assert_eq!(rounded(&saffron["cost"], 20), d("1"));
        // Not costed: no quantity.
        let salt = line(&json, "Broth", "Salt");
        assert!(salt["qty"].is_null() && salt["unit"] == "pinch" && salt["cost"].is_null(), "{salt}");
    }
}

/// What is wrong beside a name that nobody knows is told with it, so that it is mended at once.
#[test]
fn an_unknown_unit_is_told_beside_an_unknown_name() {
    let book = "Item,Pack,Price\nBeets,20 lb,$30.00\n\nItem,Measure,Weighs\nBeets,trug,3 lb\n\nRecipe,Borscht\nPortions,4\n\
                Ingredient,Qty,Unit\nBetes rouges,2,firkles\nBetes noires,2 trugs,\nBetes,2,lb\nKvass,3 slurps,\n";
    let json = cost_json(&[("book.csv", book)]);
    assert_eq!(met(&json, "name-unknown").len(), 4, "{json:#}");
    let told = ["C10: “firkle” is not a unit", "B13: “slurp” is not a unit"];
    let found = met(&json, "unit-unknown");
    assert!(found.len() == 2 && found.iter().zip(told).all(|(found, told)| found.starts_with(told)), "{found:#?}");
}

/// The figures of a dish in portions, batches and another measure, as the terminal's records tell them, with tax: a half
/// at $7.70 with 10 % within is $7.00 without.
#[test]
fn the_csv_adds_up_what_the_json_adds_up() {
    let book =
        GOULASH.replace("$7.00", "$7.70").replace("Q factor,$0.40", "Q factor,$0.40\nMenu prices include tax,10%");
    let (reading, costing, _) = costed("goulash.csv", book.as_bytes());
    let csv = parings::output::csv::dishes(&reading.kitchen, &costing);
    let mut lines = csv.lines();
    let headers: Vec<&str> = lines.next().unwrap().split(',').collect();
    let child = lines.find(|row| row.starts_with("\"Goulash, child\"")).unwrap().replace("Goulash, child", "child");
    let cells: Vec<&str> = child.split(',').collect();
    let of = |name: &str| cells[headers.iter().position(|header| *header == name).unwrap()];
    assert_eq!((of("food_cost"), of("q"), of("spice"), of("portion_cost")), ("1.5", "0.4", "0.076", "1.976"));
    assert_eq!((of("ex_tax_price"), of("menu_price"), of("portion_unit")), ("7", "7.7", "portion"));
}

/// A platter of four and a pot in the three kitchens and the trim balance: so many portions, so much trim. 20 lb of
/// shrimp give 12 lb of tails and 5 lb of shells; a batch of bisque in 8 portions takes 4 lb of shells. Planned are one
/// platter of four portions and one pot: 0.5 + 1 batches, 6 lb of shells.
#[test]
fn platters_and_pots_draw_what_they_are() {
    let book = "Item,Pack,Price\nShrimp,10 lb,$60.00\nShellfish base,1 lb,$9.00\n\n\
                Test,Role,Part,Weight,Unit,Charged as,Value,Instead of\nPeeled,as purchased,Shrimp,20,lb,,,\n\
                Peeled,main,Shrimp tails,12,lb,,,\nPeeled,by-product,Shrimp shells,5,lb,price,$0.80,2 oz Shellfish base per lb\n\n\
                Recipe,Bisque\nPortions,8\nIngredient,Qty,Unit\nShrimp shells,4,lb\n\n\
                Recipe,Tails\nPortions,1\nIngredient,Qty,Unit\nShrimp tails,24,lb\n\n\
                Dish,Recipe,Portion,Menu price,Target\nBisque for four,Bisque,4 portions,$40.00,30%\n\
                Bisque pot,Bisque,1 batch,$80.00,30%\nTails,Tails,,$900.00,30%\n\n\
                Dish,Portions\nBisque for four,1\nBisque pot,1\nTails,1\n";
    let (reading, costing, _) = costed("book.csv", book.as_bytes());
    let trim = parings::analysis::Trim::of_book(&reading.kitchen, &costing);
    let balance = trim.balance.unwrap();
    let shells = reading
        .kitchen
        .all_parts()
        .find(|id| reading.kitchen.part(*id).is_some_and(|part| part.name == "Shrimp shells"))
        .unwrap();
    // 6 lb × 453.59237 g.
    assert_eq!(balance.part(shells).unwrap().wanted.normalize(), d("2721.55422"));
    let json = crate::support::json_of(&reading, &costing);
    // 4 lb × 0.80 = 3.20 the pot, half of it the platter.
    assert_eq!(dish(&json, "Bisque for four")["food_cost"], "1.6");
    assert_eq!(dish(&json, "Bisque pot")["food_cost"], "3.2");
}
