//! Lists of sales beside a menu, groups, dishes of trim, and what is left out, by hand. All books invented.

use super::{dish, mix, mix_of, plates};
use crate::cli::Folder;
use crate::support::{cost_json, dec, no_errors};
use crate::workbook::costed;

pub const FOUR: [(&str, u32, &str, &str); 4] = [
    ("Barley stew", 40, "2.00", "9.00"),
    ("Egg toast", 20, "1.00", "6.00"),
    ("Pea soup", 25, "1.50", "7.00"),
    ("Pan bread", 15, "3.00", "5.00"),
];

fn problems(json: &serde_json::Value) -> Vec<(String, String)> {
    let text = |value: &serde_json::Value| value.as_str().unwrap().to_owned();
    json["problems"].as_array().unwrap().iter().map(|one| (text(&one["code"]), text(&one["cell"]))).collect()
}

/// Two days of sales in a list of their own: 40 + 12 + 8 = 60 stews. The menu still costs the same, and no dish is twice.
#[test]
fn a_list_of_sales_adds_to_the_dishes_of_the_menu() {
    let book = plates(&FOUR);
    let sales = "Dish,Sold\nBarley stew,12\nPea soup,3\nbarley stews,8\nCider,90\n";
    let json = mix(&[("book.csv", &book), ("sales.csv", sales)]);
    assert_eq!(dish(&json, "Barley stew")["sold"], "60");
    assert_eq!(dish(&json, "Pea soup")["sold"], "28");
    assert_eq!(dish(&json, "Egg toast")["sold"], "20");
    // The menu's own number and the list's may be the same sales: that they were added is said.
    let added: Vec<_> = problems(&json).into_iter().filter(|(code, _)| code == "sales-added").collect();
    assert_eq!(added.len(), 2, "{json:#}");
    // 60 + 20 + 28 + 15.
    assert_eq!(json["groups"][0]["sold"], "123");
    // Cider is told, not guessed at, and no error: it is sold, not cooked.
    assert!(problems(&json).contains(&("sale-not-on-menu".to_owned(), "A5".to_owned())), "{json:#}");
    no_errors(&json);
    let alone = cost_json(&[("book.csv", &book)]);
    let beside = cost_json(&[("book.csv", &book), ("sales.csv", sales)]);
    assert_eq!(alone["dishes"], beside["dishes"]);
}

/// A name that is nearly a dish is asked about, as on any menu.
#[test]
fn a_slip_in_a_list_of_sales_is_asked_about() {
    let json = mix(&[("book.csv", &plates(&FOUR)), ("sales.csv", "Dish,Sold\nBarly stew,12\n")]);
    assert!(problems(&json).contains(&("name-unknown".to_owned(), "A2".to_owned())), "{json:#}");
}

/// A list of sales alone names the dishes whose cards have a price.
#[test]
fn sales_of_dishes_that_only_their_cards_price() {
    let book = "Item,Pack,Price\nOats,1 each,1.00\n\nRecipe,Porridge\nPortions,1\nMenu price,4.00\nIngredient,Qty,Unit\n\
                Oats,1,each\n";
    let json = mix(&[("book.csv", book), ("sales.csv", "Dish,Sold\nPorridge,7\nPorridge,5\n")]);
    let porridge = dish(&json, "Porridge");
    assert_eq!((porridge["sold"].as_str(), porridge["margin"].as_str()), (Some("12"), Some("3")));
    assert_eq!(json["groups"][0]["unclassed"], "fewer than four dishes");
    assert!(porridge["class"].is_null());
}

/// Groups stand apart, by the heading, the column or the card; who has no number sold is named and counts for nothing.
#[test]
fn groups_are_compared_within() {
    let menu = plates(&FOUR);
    let (cards, _) = menu.split_once("\nDish,").unwrap();
    let text = "\nDish,Menu price,Group,Sold\nSTARTERS\nPea soup,7.00,,25\nBarley stew,9.00,Mains,40\n\
                Egg toast,6.00,mains,\nPan bread,5.00,Starters,few\n";
    let json = mix(&[("book.csv", &format!("{cards}{text}"))]);
    let groups = json["groups"].as_array().unwrap();
    let names: Vec<&str> = groups.iter().map(|group| group["name"].as_str().unwrap()).collect();
    assert_eq!(names, ["STARTERS", "Mains"]);
    assert_eq!(groups[0]["not_counted"][0]["because"], "number sold not understood");
    assert_eq!(groups[1]["not_counted"][0]["because"], "no number sold");
    assert_eq!(groups[1]["dishes"].as_array().unwrap().len(), 1);
}

const HAKE: &str = "
Item,Pack,Price
Hake,10 lb,40.00
Fish base,1 lb,16.00

Test,Role,Part,Weight,Charged as,Value,Instead of
Filleting,as purchased,Hake,10 lb,,,
Filleting,main,Fillet,5 lb,,,
Filleting,by-product,Bones,4 lb,price,0.25 / lb,2 oz Fish base per lb

Recipe,Bone broth
Portions,2
Ingredient,Qty,Unit
Bones,1,lb

Dish,Menu price,Sold
Bone broth,8.00,10
";

fn beside_trim() -> String {
    plates(&[("Toast", 10, "0.50", "8.00"), ("Salad", 10, "1.00", "8.00"), ("Omelet", 10, "1.00", "8.00")])
}

/// The dishes above in one book.
pub fn trim_book() -> String {
    format!("{}{HAKE}", beside_trim())
}

/// Ten pounds of hake at 4.00 give five of fillet; four of bones are credited at 0.25 a pound and save buying two ounces of
/// base at 16.00 a pound each: 2.00 a pound. A bowl takes half a pound: 0.125 as charged, 1.00 if it were bought. At 8.00 its
/// margin is 7.875, or 7.00.
///
/// Sold 10 of each of four dishes, the others at margins of 7.50, 7.00 and 7.00: the average is (7.875 + 7.50 + 7.00 + 7.00)
/// ÷ 4 = 7.34375, so the bowl is high; with 7.00 the average is 7.125, and it is low.
#[test]
fn a_dish_of_trim_is_shown_at_what_its_trim_would_cost_to_buy() {
    let (plates, hake) = (beside_trim(), HAKE);
    let json = mix(&[("plates.csv", &plates), ("hake.csv", hake)]);
    let broth = dish(&json, "Bone broth");
    assert_eq!(dec(&broth["margin"]), "7.875".parse().unwrap());
    assert_eq!(dec(&broth["margin_at_buy_in"]), "7".parse().unwrap());
    assert_eq!(broth["class"], "popular, high margin");
    assert_eq!(broth["class_at_buy_in"], "popular, low margin");
    assert_eq!(dish(&json, "Toast")["made_of_trim"], false);
    assert!(dish(&json, "Toast")["margin_at_buy_in"].is_null());
    // Nobody says what the bones would cost to buy.
    let unsaid = hake.replace("2 oz Fish base per lb", "");
    let json = mix(&[("plates.csv", &plates), ("hake.csv", &unsaid)]);
    let broth = dish(&json, "Bone broth");
    assert_eq!((broth["made_of_trim"].as_bool(), broth["margin_at_buy_in"].is_null()), (Some(true), true));
}

/// The costed workbook is a book that says the same.
#[test]
fn a_costed_book_has_the_same_mix() {
    let sales = "Dish,Sold\nBarley stew,12\nPea soup,3\nCider,90\n";
    let book = format!("{}\n{sales}", plates(&FOUR));
    let (_, _, workbook) = costed("book.csv", book.as_bytes());
    let (of_book, of_costed) = (mix(&[("book.csv", &book)]), mix_of(&[("costed.xlsx", &workbook)]));
    assert_eq!(of_book["groups"], of_costed["groups"]);
    no_errors(&of_costed);
}

/// Nothing sold, nothing divided by; sums beyond what a decimal holds are told at the cell.
#[test]
fn nothing_sold_and_too_much_sold() {
    let none = FOUR.map(|(name, _, cost, price)| (name, 0, cost, price));
    let json = mix(&[("book.csv", &plates(&none))]);
    assert_eq!(json["groups"][0]["unclassed"], "nothing sold");
    let much = "79000000000000000000000000000";
    let sales = format!("Dish,Sold\nPea soup,{much}\nPea soup,{much}\n");
    let json = mix(&[("book.csv", &plates(&FOUR)), ("sales.csv", &sales)]);
    assert!(problems(&json).iter().any(|(code, _)| code == "number-out-of-range"), "{json:#}");
}

/// What the command prints.
#[test]
fn the_command_prints_groups_and_what_to_try() {
    let folder = Folder::with("menu.csv", plates(&FOUR));
    let printed = folder.run(&["mix", "menu.csv"]).ends(0).out;
    // 40 × 7.00 + 20 × 5.00 + 25 × 5.50 + 15 × 2.00 = 547.50 of 100 portions: 5.475.
    let heading = "4 dishes, 100 sold. Popular from 17.5 % of them, high margin from 5.48.";
    for said in [heading, "Popular, high margin: Barley stew; Pea soup.", "Kasavana and Smith"] {
        assert!(printed.contains(said), "{said} is not in\n{printed}");
    }
    let csv = folder.run(&["mix", "menu.csv", "--format", "csv"]).ends(0).out;
    assert!(csv.lines().nth(1).unwrap().starts_with(",Barley stew,40,40,7,280,\"popular, high margin\","), "{csv}");
    let folder = Folder::with("menu.csv", plates(&FOUR).replace("Sold", "Note"));
    let printed = folder.run(&["mix", "menu.csv"]).ends(0).out;
    assert!(printed.contains("fill in the column Sold"), "{printed}");
}

/// Of a dish that is not costed nobody says what it would cost without its trim.
#[test]
fn a_dish_without_a_margin_is_not_compared_with_what_trim_would_cost() {
    let book = "Item,Price,Per\nHake,2.00,lb\n\nTest,Role,Part,Weight,Instead of\nFilleting,as purchased,Hake,10 lb,\n\
                Filleting,main,Fillet,5 lb,\nFilleting,by-product,Bones,4 lb,1 lb Hake per lb\n\n\
                Recipe,Broth\nPortions,1\nIngredient,Qty,Unit\nBones,1,lb\nSorrel,1,lb\n\nDish,Menu price,Sold\nBroth,6.00,9\n";
    let printed = Folder::with("book.csv", book).run(&["mix", "book.csv"]).ends(1).out;
    assert!(printed.contains("Broth"), "{printed}");
    assert!(!printed.contains("trim; "), "{printed}");
}

/// Beside groups, dishes that stand in none are said to.
#[test]
fn dishes_without_a_group_are_told_apart() {
    let book = plates(&[("Pie", 9, "1.00", "5.00"), ("Tart", 4, "1.00", "4.00")]);
    let book = book.replace("Dish,Menu price,Sold", "Dish,Menu price,Sold,Group").replace(",9\n", ",9,Sweets\n");
    let printed = Folder::with("book.csv", &book).run(&["mix", "book.csv"]).ends(0).out;
    assert!(printed.contains("Sweets: 1 dish") && printed.contains("Without a group: 1 dish"), "{printed}");
}

/// A refund in a list of sales comes off: 40 + 12 − 2 = 50. What the menu itself says cannot be below nothing, and neither can
/// all of it together: 25 − 30.
#[test]
fn a_refund_comes_off_what_was_sold() {
    let book = plates(&FOUR);
    let json = mix(&[("book.csv", &book), ("sales.csv", "Dish,Sold\nBarley stew,12\nBarley stew,-2\n")]);
    assert_eq!(dish(&json, "Barley stew")["sold"], "50");
    no_errors(&json);
    let json = mix(&[("book.csv", &book), ("sales.csv", "Dish,Sold\nPea soup,-10\nPea soup,-20\n")]);
    assert_eq!(problems(&json).into_iter().filter(|(code, _)| code == "number-out-of-range").count(), 1, "{json:#}");
    assert!(problems(&json).contains(&("number-out-of-range".to_owned(), "B3".to_owned())), "{json:#}");
    assert_eq!(json["groups"][0]["not_counted"][0]["because"], "number sold not understood");
    let json = mix(&[("book.csv", &book.replace("Pea soup,7.00,25", "Pea soup,7.00,-25"))]);
    assert!(problems(&json).iter().any(|(code, _)| code == "number-out-of-range"), "{json:#}");
    // Read again, the costed book says the same.
    let all = format!("{book}\nDish,Sold\nBarley stew,12\nBarley stew,-2\n");
    let (_, _, workbook) = costed("book.csv", all.as_bytes());
    assert_eq!(dish(&mix_of(&[("costed.xlsx", &workbook)]), "Barley stew")["sold"], "50");
}

/// A dish that stands twice on the menu is an error; what was sold of it counts once: 40 + 8, of 40 + 20 + 25 + 15 + 8.
#[test]
fn sales_of_a_dish_that_stands_twice_count_once() {
    let book = format!("{}Barley stew,8.00,8\n", plates(&FOUR));
    let json = mix(&[("book.csv", &book)]);
    assert!(problems(&json).iter().any(|(code, _)| code == "dish-twice"), "{json:#}");
    assert_eq!(
        (dish(&json, "Barley stew")["sold"].as_str(), json["groups"][0]["sold"].as_str()),
        (Some("48"), Some("108"))
    );
}
