//! Set menus: recipes whose lines name dishes of the menu. Everything that follows a line must follow such a one. Worked by
//! hand.
//!
//! A gallon and a quart of soup is 160 fl oz, of which 10 % stay in the pot: 144 fl oz, twelve bowls of 12 fl oz or eighteen
//! cups of 8. It takes 9 lb of leeks at 2.00: 18.00, so a bowl is 1.50 and a cup 1.00. A plate of skate is 2 lb at 8.00 for
//! four: 4.00. Bread is 6 lb of flour at 1.00 for 24 rolls, two a portion: 0.50 a portion, 0.25 a roll.

use rust_decimal::Decimal;
use serde_json::Value;

use crate::cli::Folder;
use crate::faults::chance::same_again;
use crate::follow::every_cell_follows;
use crate::recalc::{Sheets, Value as Cell, assert_recalculates, with_changes};
use crate::support::{cost_json, dec, dish, line, no_errors, recipe, rounded};
use crate::workbook::costed;
use crate::written::same_when_written;

const BEFORE: &str = "\
Setting,Value
Currency,USD
Costing date,2026-11-20
Target food cost,30%
Q factor,5%

Item,Pack,Price,Yield,Allergens
Leeks,10 lb,$20.00,100%,none
Skate,10 lb,$80.00,100%,fish
Flour,10 lb,$10.00,100%,wheat

Recipe,Leek and potato soup
Makes,\"1 gal 1 qt\"
Portion,12 fl oz
Serving loss,10%
Ingredient,Qty,Unit
Leeks,9,lb

Recipe,\"Skate, brown butter\"
Portions,4
Ingredient,Qty,Unit
Skate,2,lb

Recipe,Bread
Makes,24 each
Portion,2 each
Ingredient,Qty,Unit
Flour,6,lb

Dish,Recipe,Portion,Menu price
\"Leek soup, cup\",Leek and potato soup,8 fl oz,$4.50
\"Leek soup, bowl\",Leek and potato soup,,$6.50
\"Soup for the table\",Leek and potato soup,4 portions,$24.00
\"The pot\",Leek and potato soup,1 batch,$70.00
\"Skate, brown butter\",,,$18.00
Market lunch,,,$22.00

";

const COURSES: &str = "\
Recipe,Market lunch
Portions,1
Ingredient,Qty,Unit
\"Leek soup, cup\",1,portion
\"Skate, brown butter\",1,
Bread,1,portion
";

fn book(lines: &str) -> String {
    format!("{BEFORE}Recipe,Market lunch\nPortions,1\nIngredient,Qty,Unit\n{lines}")
}

fn lunch() -> String {
    format!("{BEFORE}{COURSES}")
}

fn told(json: &Value, code: &str) -> Vec<(String, String, String)> {
    let text = |problem: &Value, key: &str| problem[key].as_str().unwrap().to_owned();
    let problems = json["problems"].as_array().unwrap().iter().filter(|problem| problem["code"] == code);
    problems.map(|one| (text(one, "cell"), text(one, "message"), text(one, "help"))).collect()
}

/// 1.00 + 4.00 + 0.50 = 5.50 of food, and 5 % once: 5.775, of 22.00 26.25 %. The plates alone are 1.05, 4.20 and 0.525: as
/// much together.
#[test]
fn a_set_menu_costs_what_its_courses_cost_with_q_once() {
    let json = cost_json(&[("book.csv", &lunch())]);
    no_errors(&json);
    let costs = ["Leek soup, cup", "Skate, brown butter", "Bread"].map(|item| line(&json, "Market lunch", item));
    assert_eq!(costs.map(|line| line["cost"].as_str().unwrap()), ["1", "4", "0.5"]);
    assert!(costs.iter().all(|line| line["source"] == "made"), "{costs:#?}");
    assert_eq!(
        (&costs[0]["qty"], &costs[0]["unit"], &costs[0]["unit_cost"]),
        (&"1".into(), &"portion".into(), &"1".into())
    );
    let lunch = dish(&json, "Market lunch");
    let figures = ["food_cost", "q", "portion_cost", "food_cost_percent"].map(|key| lunch[key].as_str().unwrap());
    assert_eq!(figures, ["5.5", "0.275", "5.775", "26.25"]);
    let plates = ["Leek soup, cup", "Skate, brown butter"].map(|name| dec(&dish(&json, name)["portion_cost"]));
    assert_eq!(plates[0] + plates[1] + "0.525".parse::<Decimal>().unwrap(), dec(&lunch["portion_cost"]));
    assert!(told(&json, "factor-twice").is_empty());
    // Fish comes with the skate, wheat with the bread.
    assert_eq!(recipe(&json, "Market lunch")["allergens"].to_string(), "[\"fish\",\"wheat\"]");
    // As a flat list it is the same.
    let flat = format!(
        "{BEFORE}Recipe,Portions\nMarket lunch,1\n\nRecipe,Item,Qty,Unit\nMarket lunch,\"Leek soup, cup\",1,portion\n\
         Market lunch,\"Skate, brown butter\",1,each\nMarket lunch,Bread,1,portion\n"
    );
    assert_eq!(dish(&cost_json(&[("book.csv", &flat)]), "Market lunch"), lunch);
}

/// A cup is 1.00, a bowl 1.50, four of them 6.00, the pot 18.00 whatever stays in it.
#[test]
fn dishes_are_counted_in_plates() {
    let lines = [
        ("\"Leek soup, cup\",1,", "1"),
        ("\"Leek soup, cup\",1,each", "1"),
        ("\"leek SOUP,  Cups\",2,portions", "2"),
        ("\"Leek soup, cup\",1 1/2,portion", "1.5"),
        ("\"Leek soup, cup\",1/2,dozen", "6"),
        ("\"Leek soup, bowl\",1,portion", "1.5"),
        ("Soup for the table,1,portion", "6"),
        ("The pot,0.5,each", "9"),
        // Of a name that is a recipe a portion is the card's; its pieces are plates, where it makes none.
        ("\"Skate, brown butter\",1,portion", "4"),
        ("\"Skate, brown butter\",2,pc", "8"),
        ("Bread,1,each", "0.25"),
    ];
    for (typed, cost) in lines {
        let json = cost_json(&[("book.csv", &book(&format!("{typed}\n")))]);
        no_errors(&json);
        assert_eq!(recipe(&json, "Market lunch")["lines"][0]["cost"], cost, "{typed}");
    }
    // Half a cup is used up; nothing is counted of one to taste.
    let json = cost_json(&[("book.csv", &book("\"Leek soup, cup\",1,portion\n\"Leek soup, bowl\",to taste,\n"))]);
    assert_eq!(recipe(&json, "Market lunch")["food_cost"], "1");
    assert_eq!(recipe(&json, "Market lunch")["uncosted_lines"], 1);
}

#[test]
fn what_counts_no_plates_is_told_with_what_to_type() {
    for (typed, cell) in [("2,lb", "C41"), ("8 fl oz,", "B41"), ("1,batch", "C41"), ("1,bowl", "C41")] {
        let json = cost_json(&[("book.csv", &book(&format!("\"Leek soup, cup\",{typed}\n")))]);
        let measure = typed.replace(',', " ");
        let measure = measure.trim();
        let help = format!(
            "Write how many portions of it, such as 1 portion; or name its recipe, “Leek and potato soup”, for {measure}."
        );
        let message = format!("“Leek soup, cup” is a dish of the menu, and {measure} of it is not known");
        assert_eq!(told(&json, "yield-unknown"), [(cell.to_owned(), message, help)], "{typed}");
        assert!(dish(&json, "Market lunch")["portion_cost"].is_null());
    }
    // A portion that cannot be read stops the set menu and nothing else; a price that cannot, no more than the dish.
    for (wrong, stops) in [("8 fl oz,$4.50", true), ("$4.50", false)] {
        let mended = if stops { "1/4 of it,$4.50" } else { "cheap" };
        let json = cost_json(&[("book.csv", &lunch().replace(wrong, mended))]);
        assert!(dish(&json, "Leek soup, cup")["portion_cost"].is_null(), "{json:#}");
        assert_eq!(dish(&json, "Market lunch")["portion_cost"].is_null(), stops);
        assert_eq!(dish(&json, "Leek soup, bowl")["food_cost"], "1.5");
    }
}

/// A recipe, a part or a bought item of the name goes before the dish: sandwiches bought at 3.00.
#[test]
fn what_is_made_or_bought_goes_before_a_dish() {
    let bought = lunch().replace("Flour,10 lb", "\"Leek soup, cup\",12 ct,$36.00,100%,none\nFlour,10 lb");
    let json = cost_json(&[("book.csv", &bought.replace("cup\",1,portion", "cup\",1,each"))]);
    let cup = line(&json, "Market lunch", "Leek soup, cup");
    assert_eq!((&cup["source"], &cup["cost"]), (&"bought".into(), &"3".into()));
    let made = lunch() + "\nRecipe,\"Leek soup, cup\"\nPortions,9\nIngredient,Qty,Unit\nLeeks,9,lb\n";
    // The menu's row names another recipe; a line means the recipe of that name: 18.00 ÷ 9.
    let json = cost_json(&[("book.csv", &made)]);
    assert_eq!(line(&json, "Market lunch", "Leek soup, cup")["cost"], "2");
    // Two dishes of one name; a dish whose recipe is not there; a slip.
    let twice = lunch().replace("\"Leek soup, bowl\"", "\"Leek soup, cup\"");
    let json = cost_json(&[("book.csv", &twice)]);
    assert_eq!(told(&json, "name-twice")[0].1, "two dishes of the menu are called “Leek soup, cup”");
    let missing = lunch().replace("cup\",Leek and potato soup", "cup\",Nettle soup");
    let json = cost_json(&[("book.csv", &missing)]);
    let messages: Vec<String> = told(&json, "name-unknown").into_iter().map(|(_, message, _)| message).collect();
    let wanted = [
        "there is no recipe called “Nettle soup”",
        "“Leek soup, cup” is a dish of the menu at book.csv ▸ A31, and its recipe is not in the book",
    ];
    assert_eq!(messages, wanted);
    let json = cost_json(&[(
        "book.csv",
        &lunch().replace("\"Leek soup, cup\",1,portion", "\"Soup for the tabel\",1,portion"),
    )]);
    assert_eq!(told(&json, "name-unknown")[0].2, "Did you mean “Soup for the table”?");
    let json = cost_json(&[("book.csv", &lunch().replace("\"Leek soup, cup\",1,portion", "leek soup cup,1,portion"))]);
    let help = "Did you mean “Leek and potato soup”, or the dish “Leek soup, cup”?";
    assert_eq!(told(&json, "name-unknown")[0].2, help);
}

#[test]
fn a_set_menu_within_itself_is_a_loop() {
    let own = lunch().replace("Market lunch,,,$22.00", "Today,Market lunch,,$22.00");
    let json = cost_json(&[("book.csv", &own.replace("Bread,1,portion", "Today,1,portion"))]);
    let [(_, message, help)] = told(&json, "recipe-loop").try_into().unwrap();
    assert_eq!(message, "“Market lunch” contains itself: “Market lunch” → the dish “Today” of “Market lunch”");
    assert_eq!(help, "One of its lines names a dish that is served of it: name another recipe or dish there.");
    let two = own
        + "Feast of the day,1,portion\n\nRecipe,Feast\nPortions,1\nIngredient,Qty,Unit\nToday,1,portion\n\n\
                     Dish,Recipe\nFeast of the day,Feast\n";
    let json = cost_json(&[("book.csv", &two)]);
    let message = "“Market lunch” contains itself: “Market lunch” → the dish “Feast of the day” of “Feast” → the dish \
                   “Today” of “Market lunch”";
    assert_eq!(told(&json, "recipe-loop")[0].1, message);
}

/// A plate of skate whose card has 1.40 of Q is 5.40 within the lunch: 1.00 + 5.40 + 0.50 = 6.90, and the setting's 5 % on it
/// again, 0.345, is told. With 0 % on the card of the lunch it is 6.90.
#[test]
fn a_course_with_a_q_of_its_own_brings_it_along() {
    let own = lunch().replace("butter\"\nPortions,4", "butter\"\nPortions,4\nQ factor,$1.40");
    let json = cost_json(&[("book.csv", &own)]);
    assert_eq!(line(&json, "Market lunch", "Skate, brown butter")["cost"], "5.4");
    assert_eq!(dish(&json, "Market lunch")["portion_cost"], "7.245");
    let [(cell, message, help)] = told(&json, "factor-twice").try_into().unwrap();
    assert_eq!(cell, "A43");
    assert_eq!(
        message,
        "the card of “Skate, brown butter” has Q of its own, and “Market lunch” takes the setting's on it again"
    );
    assert_eq!(
        help,
        "Type on the card of “Market lunch” what it shall have: 0% under Q factor, if what its courses have is enough."
    );
    let said = own.replace("lunch\nPortions,1", "lunch\nPortions,1\nQ factor,0%");
    let json = cost_json(&[("book.csv", &said)]);
    assert_eq!(dish(&json, "Market lunch")["portion_cost"], "6.9");
    assert!(told(&json, "factor-twice").is_empty());
}

/// A number to so many decimals.
fn to(number: Decimal, places: u32) -> Decimal {
    rounded(&Value::String(number.to_string()), places).normalize()
}

fn run(folder: &Folder, arguments: &[&str]) -> Value {
    serde_json::from_str(&folder.run(&[arguments, &["--format", "json"]].concat()).ends(0).out).unwrap()
}

/// Thirty lunches are 30 cups, 240 of 144 fl oz, 15 lb of leeks; 30 plates, 15 lb of skate; 60 rolls, 15 lb of flour: two
/// packs of each, 5 lb left.
#[test]
fn a_plan_of_set_menus_buys_what_their_courses_take() {
    let folder = Folder::with("book.csv", lunch() + "\nDish,Portions\nMarket lunch,30\n");
    let orders = run(&folder, &["buy", "book.csv"]);
    let items = orders["orders"][0]["items"].as_array().unwrap();
    let pound = Decimal::new(45_359_237, 5);
    for (item, name) in items.iter().zip(["Leeks", "Skate", "Flour"]) {
        assert_eq!((item["item"].as_str(), item["packs"].as_str()), (Some(name), Some("2")));
        assert_eq!(to(dec(&item["left"]) / pound, 15), 5.into(), "{name}");
    }
    assert_eq!(items.len(), 3);
}

/// A 10 lb skate gives 5 lb of wing and 4 lb of bones; the soup takes 2 lb of these, a plate half a pound of wing. Twenty
/// lunches take 10 lb of wing, of two skates, which leave 8 lb of bones; their 20 cups are 160 of 144 fl oz, 10/9 of the pot
/// with 20/9 lb of bones. What is left is 52/9 lb. A menu that serves bowls takes 20 × 12 of 144 fl oz: 10/3 lb.
#[test]
fn the_trim_of_a_set_menus_courses_is_balanced() {
    let book = lunch().replace("9,lb\n", "9,lb\nSkate bones,2,lb\n").replace("Skate,2,lb", "Skate wing,2,lb")
        + "\nTest,Role,Part,Weight\nCutting up skate,as purchased,Skate,10 lb\nCutting up skate,main,Skate wing,5 lb\n\
           Cutting up skate,by-product,Skate bones,4 lb\n\nDish,Portions\nMarket lunch,20\n";
    let pounds = |book: &str, key: &str| {
        let folder = Folder::with("book.csv", book);
        let trim = run(&folder, &["trim", "book.csv"]);
        let parts = trim["balance"][0]["parts"].as_array().unwrap();
        let bones = parts.iter().find(|part| part["name"] == "Skate bones").unwrap();
        to(dec(&bones[key]) / Decimal::new(45_359_237, 5), 12)
    };
    let ninths = |many: i64| to(Decimal::from(many) / Decimal::from(9), 12);
    assert_eq!(pounds(&book, "made_g"), 8.into());
    assert_eq!(pounds(&book, "wanted_g"), ninths(20));
    assert_eq!(pounds(&book, "left_over_g"), ninths(52));
    assert_eq!(pounds(&book.replace("cup\",1,portion", "bowl\",1,portion"), "wanted_g"), ninths(30));
    let (_, _, written) = costed("book.csv", book.as_bytes());
    assert_recalculates(&written, "trim");
}

/// Twice is two cups, two plates and two portions of bread, 11.00; leeks at 30.00 make a cup 1.50 and the lunch 0.525 dearer.
#[test]
fn a_set_menu_is_scaled_explained_and_repriced() {
    let folder = Folder::with("book.csv", lunch());
    let scaled = run(&folder, &["scale", "book.csv", "Market lunch", "--to", "2"]);
    let lines = scaled["recipe"]["lines"].as_array().unwrap();
    let words: Vec<&str> = lines.iter().map(|line| line["in_words"].as_str().unwrap()).collect();
    assert_eq!(words, ["2 portions", "2", "2 portions"]);
    assert_eq!(scaled["recipe"]["food_cost"], "11");
    let why = folder.run(&["why", "book.csv", "Market lunch", "Leek soup, cup"]).ends(0).out;
    assert!(why.starts_with("Leek soup, cup: $1.00 in a portion of Market lunch, 18.2 % of its food.\n"), "{why}");
    assert!(why.contains("at $1.00 a portion (the dish Leek soup, cup, 8 fl oz of Leek and potato soup"), "{why}");
    // One more percent on leeks is 1 % of 1.00 and the Q on it.
    let why = run(&folder, &["why", "book.csv", "Market lunch"]);
    let leeks = why["one_percent"].as_array().unwrap().iter().find(|one| one["item"] == "Leeks").unwrap().clone();
    assert_eq!(leeks["adds"], "0.0105", "{why:#}");
    folder.put("new.csv", "Item,Pack,Price\nLeeks,10 lb,$30.00\n");
    let moved = run(&folder, &["reprice", "book.csv", "--prices", "new.csv"]);
    let lunch = moved["dishes"].as_array().unwrap().iter().find(|dish| dish["name"] == "Market lunch").unwrap();
    assert_eq!((&lunch["before"]["portion_cost"], &lunch["now"]["portion_cost"]), (&"5.775".into(), &"6.3".into()));
}

/// The line's quantity is followed: two plates of skate are 9.50 in all. So is the card of a course: 20 % left in the pot make
/// 16 cups, 1.125 each: 5.625. What the menu serves is text, so another portion of a cup is visibly not known, and so is a
/// portion of the skate, which had none.
#[test]
fn a_set_menu_lives_in_the_workbook() {
    for (name, lunch) in
        [("card", lunch()), ("pot", book("The pot,0.5,each\nSoup for the table,1,\n\"Leek soup, bowl\",2,\n"))]
    {
        let (_, _, written) = costed("book.csv", lunch.as_bytes());
        assert_recalculates(&written, name);
        let (_, _, again) = costed("book.costed.xlsx", &written);
        assert!(again == written, "{name}: costed again it is another book");
        same_again("book.csv", lunch.as_bytes()).unwrap();
        same_when_written(&[("book.csv", lunch.as_bytes())]).unwrap();
        every_cell_follows(&written, 9);
    }
    let (_, _, written) = costed("book.csv", lunch().as_bytes());
    let find = |sheet: &str, column: char, text: &str| {
        let sheets = Sheets::open(&written);
        let row = (1..60).find(|row| sheets.value(sheet, &format!("{column}{row}")) == Cell::Text(text.to_owned()));
        row.unwrap_or_else(|| panic!("no {text} on {sheet}"))
    };
    let cost = format!("B{}", find("Summary", 'A', "Market lunch"));
    let loss = format!("B{}", find("Leek and potato soup", 'A', "Serving loss"));
    let plates = format!("B{}", find("Market lunch", 'A', "Skate, brown butter"));
    let near = |found: f64, wanted: f64| assert!((found - wanted).abs() < 1e-9, "{found}, not {wanted}");
    near(Sheets::open(&written).number("Summary", &cost), 5.775);
    near(with_changes(&written, &[("Market lunch", &plates, 2.0)]).number("Summary", &cost), 9.5 * 1.05);
    near(with_changes(&written, &[("Leek and potato soup", &loss, 0.2)]).number("Summary", &cost), 5.625 * 1.05);
    for (dish, other) in [("Leek soup, cup", 10.0), ("Skate, brown butter", 2.0)] {
        for column in ['A', 'C'] {
            let cell = format!("{column}{}", find("Menu", 'A', dish));
            let sheets = with_changes(&written, &[("Menu", &cell, other)]);
            assert!(!matches!(sheets.value("Summary", &cost), Cell::Number(_)), "{dish}, {column}");
        }
    }
}
