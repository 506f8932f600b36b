//! Books worked by hand.

use super::{asked, step};
use crate::support::dec;
use serde_json::Value;

/// An invented kitchen.
///
/// Leeks: 10 kg for 15.00 is 0.0015 a gram; of them 60 % are left, so 0.0025 a gram ready to use. Cream: 12 l for 48.00, with
/// 6.00 of freight on top: 54.00, 0.0045 a millilitre. Hake: 10 kg for 80.00, 0.008 a gram.
/// Filleting: 10 kg of hake, 80.00; 2 kg of bones at a quarter of 0.008 is 0.002 a gram, 4.00; 5 kg of fillets bear 76.00.
/// Stock: 2 kg of bones, 4.00, and 300 g of leeks, 0.75: 4.75 for 5 l, 0.00095 a millilitre.
/// Soup: 900 g of leeks ready to use are 1500 g as purchased: 2.25. 2 l of stock: 1.90. 1 cup of cream (US, 236.5882365 ml):
/// 1.06464706425. Food 5.21464706425. Q is 0.10 a portion on 8 portions, 0.80; the batch 6.01464706425.
const BOOK: &str = r#"Setting,Value
Costing date,2026-11-20
Currency,EUR
Target food cost,30%

Item,Pack,Price,Supplier,Date,Yield,Further cost,Allergens,Preferred
Leeks,10 kg,14.00,Ullage Greens,2026-10-01,60%,,none,
Leeks,10 kg,15.00,Ullage Greens,2026-11-10,60%,,none,
Leeks,10 kg,16.00,Ullage Greens,2026-12-01,60%,,none,
Leeks,5 kg,7.00,Oxbarrow,2026-11-01,70%,,none,
Cream,12/1 l,48.00,,2026-11-01,,6.00,milk,
Hake,10 kg,80.00,,2026-11-01,,,fish,

Test,Role,Part,Weight,Charged as,Value
Filleting,as purchased,Hake,10 kg,,
Filleting,main,Hake fillet,5 kg,,
Filleting,by-product,Hake bones,2 kg,fraction,25%
Filleting,waste,Heads,2 kg,,

Recipe,Fish stock
Makes,5 l
Ingredient,Qty,Unit
Hake bones,2,kg
Leeks,300,g

Recipe,Leek soup
Portions,8
Q factor,€0.10
Menu price,€4.00
Ingredient,Qty,Unit
Leeks,900,g
Fish stock,2,l
Cream,1,cup
Salt,to taste,
"#;

fn amount(json: &Value, of: &str, line: u64, word: &str) -> String {
    step(json, of, line, word)["amount"].as_str().unwrap().to_owned()
}

#[test]
fn a_dish_is_walked_from_its_quantities_to_its_price() {
    let json = asked(BOOK, "leek soups", None);
    assert_eq!((json["name"].as_str(), json["what"].as_str()), (Some("Leek soup"), Some("dish")));
    assert_eq!(json["also"], serde_json::json!(["recipe"]));
    let soup = "Leek soup";
    // The first line.
    for (word, figure) in [
        ("asked", "900"),
        ("measured", "900"),
        ("yield", "60"),
        ("drawn", "1500"),
        ("unit cost", "0.0015"),
        ("cost", "2.25"),
    ] {
        assert_eq!(amount(&json, soup, 1, word), figure, "{word}");
    }
    assert_eq!(step(&json, soup, 1, "unit cost")["cell"], "C8");
    assert_eq!(step(&json, soup, 1, "unit cost")["unit"], "EUR per g");
    assert_eq!(step(&json, soup, 1, "yield")["cell"], "F8");
    // 2000 ml at 0.00095.
    assert_eq!(amount(&json, soup, 2, "unit cost"), "0.00095");
    assert_eq!(amount(&json, soup, 2, "cost"), "1.9");
    // 236.5882365 × 54 ÷ 12000.
    assert_eq!(amount(&json, soup, 3, "measured"), "236.5882365");
    assert_eq!(amount(&json, soup, 3, "cost"), "1.06464706425");
    assert_eq!(step(&json, soup, 4, "not costed")["amount"], Value::Null);
    // 2.25 + 1.90 + 1.06464706425; + 0.80; ÷ 8.
    assert_eq!(amount(&json, soup, 0, "batch cost"), "6.01464706425");
    assert_eq!(json["cost"], "0.75183088303125");
    // 0.75183088303125 ÷ 4.00.
    assert_eq!(amount(&json, soup, 0, "food cost %"), "18.79577207578125");
    // What the stock stands on.
    assert_eq!(amount(&json, "Fish stock", 1, "unit cost"), "0.002");
    assert_eq!(amount(&json, "Filleting", 0, "left to share"), "76");
    // Freight: 48 + 6.
    assert_eq!(amount(&json, "Cream", 0, "paid"), "54");
}

#[test]
fn one_more_percent_on_each_price() {
    let json = asked(BOOK, "Leek soup", None);
    // Of a batch, Q moving with nothing. Leeks: 2.25 + 2/5 of the 0.75 in the stock = 2.55. Hake: 2/5 of 4.00 = 1.60. Cream:
    // 236.5882365 ml × 48 ÷ 12000 = 0.946352946, for freight does not move with it. By 8 portions and a hundred.
    let adds = [("Leeks", "0.0031875"), ("Hake", "0.002"), ("Cream", "0.0011829411825")];
    let found = json["one_percent"].as_array().unwrap();
    assert_eq!(found.len(), adds.len());
    for (one, (item, money)) in found.iter().zip(adds) {
        assert_eq!((one["item"].as_str(), one["adds"].as_str()), (Some(item), Some(money)));
    }
    // 0.0031875 ÷ 4.00 × 100.
    assert_eq!(found[0]["points"], "0.0796875");
    // What no price moves: Q, 0.10, and freight, 236.5882365 × 6 ÷ 12000 ÷ 8 = 0.01478676478125.
    assert_eq!(json["unmoved"], "0.11478676478125");
}

#[test]
fn a_part_and_a_line_alone() {
    let bones = asked(BOOK, "Filleting: hake bone", None);
    // 0.002 a gram, told by the kilo.
    assert_eq!((bones["cost"].as_str(), bones["cost_of"].as_str()), (Some("2"), Some("kg")));
    assert_eq!(bones["one_percent"][0]["adds"], "0.02");
    let line = asked(BOOK, "Leek soup", Some("leek"));
    // 2.25 ÷ 8.
    assert_eq!((line["line"].as_str(), line["cost"].as_str()), (Some("Leeks"), Some("0.28125")));
    assert_eq!(line["one_percent"][0]["adds"], "0.0028125");
    assert_eq!(line["unmoved"], "0");
    // 2.25 of 5.21464706425 is 43.1 %.
    let said = line["answer"][0].as_str().unwrap();
    assert_eq!(said, "Leeks: €0.28 in a portion of Leek soup, 43.1 % of its food.");
}

#[test]
fn an_item_by_its_price_and_what_is_left_of_it() {
    let leeks = asked(BOOK, "leek", None);
    // 15.00 for 10 kg; ÷ 0.60.
    assert_eq!((dec(&leeks["cost"]).to_string(), leeks["cost_of"].as_str()), ("1.5".to_owned(), Some("kg")));
    assert_eq!(amount(&leeks, "Leeks", 0, "cost after trimming"), "0.0025");
    let said = leeks["answer"][0].as_str().unwrap();
    assert_eq!(said, "Leeks: €1.50 a kg; 60 % is left after trimming, which makes it €2.50 a kg.");
    // 80.00 less 4.00 for the bones, by 5 kg.
    let hake = asked(BOOK, "Hake", None);
    let said = hake["answer"][0].as_str().unwrap();
    assert_eq!(
        said,
        "Hake: €8.00 a kg; 50 % is left after trimming, which makes it €15.20 a kg, its by-products taken off."
    );
}

#[test]
fn an_allergen_says_how_it_came_in() {
    let json = asked(BOOK, "Leek soup", None);
    let ways: Vec<(&str, String)> = json["allergens"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| {
            let way: Vec<&str> = one["way"].as_array().unwrap().iter().map(|step| step.as_str().unwrap()).collect();
            (one["allergen"].as_str().unwrap(), way.join(" < "))
        })
        .collect();
    // Fish by the stock, of the bones, of the hake.
    assert_eq!(ways, [("milk", "Cream".to_owned()), ("fish", "Fish stock < Hake bones < Hake".to_owned())]);
    assert_eq!(json["allergens_not_stated"], serde_json::json!(["Salt"]));
}

#[test]
fn what_is_not_known_says_why_and_what_to_type() {
    let book = BOOK.replace("Hake,10 kg,80.00", "Hake,10/5,80.00");
    let json = asked(&book, "Leek soup", None);
    assert_eq!((&json["cost"], &json["unmoved"]), (&Value::Null, &Value::Null));
    let stopped = &json["stopped_by"][0];
    assert_eq!((stopped["code"].as_str(), stopped["cell"].as_str()), (Some("pack-is-a-ratio"), Some("B12")));
    assert_eq!(json["answer"][0], "Leek soup: what it costs is not known.");
    let said = json["answer"][2].as_str().unwrap();
    assert!(said.starts_with("book.csv ▸ B12: “10/5” lacks its unit. Write the unit"), "{said}");
    let part = asked(&book, "Hake bones", None);
    assert_eq!(part["stopped_by"][0]["cell"], "B12");
}

/// Prices that include tax: 10.70 at 7 % is 10.00 for 10 kg, 1.00 a kilo; 1.00 comes back, so 9.00 is paid, 0.90 a kilo. One
/// more percent on the price is 0.10 without tax, a hundredth of a kilo's 1.00: what comes back does not move.
#[test]
fn tax_and_what_comes_back_on_a_price() {
    let book = "Setting,Value\nCosting date,2026-11-20\nCurrency,EUR\nPrices include tax,7%\n\n\
        Item,Pack,Price,Credit\nLeeks,10 kg,10.70,1.00\n";
    let leeks = asked(book, "Leeks", None);
    for (word, figure) in [
        ("price", "10.7"),
        ("tax within", "7"),
        ("price without tax", "10"),
        ("credit on the price", "1"),
        ("paid", "9"),
        ("buys", "10000"),
        ("unit cost", "0.0009"),
    ] {
        assert_eq!(amount(&leeks, "Leeks", 0, word), figure, "{word}");
    }
    assert_eq!((leeks["cost"].as_str(), leeks["one_percent"][0]["adds"].as_str()), (Some("0.9"), Some("0.01")));
    assert_eq!(leeks["unmoved"], "-0.1");
    assert_eq!(step(&leeks, "Leeks", 0, "tax within")["cell"], "B4");
}

/// Six hundred recipes one within the other: the nearest five hundred are walked, and the price at the bottom counts all
/// the same. Each is a batch of the next; the last takes 1 kg of leeks at 1.50.
#[test]
fn a_price_counts_however_deep_it_stands() {
    let mut book = "Setting,Value\nCurrency,EUR\n\nItem,Pack,Price\nLeeks,10 kg,15.00\n\nRecipe,Portions\n".to_owned();
    let names: Vec<String> = (0..600).map(|at| format!("Broth {at:03}x")).collect();
    names.iter().for_each(|name| book.push_str(&format!("{name},1\n")));
    book.push_str("\nRecipe,Ingredient,Qty,Unit\n");
    names.windows(2).for_each(|pair| book.push_str(&format!("{},{},1,batch\n", pair[0], pair[1])));
    book.push_str(&format!("{},Leeks,1,kg\n", names[599]));
    let json = asked(&book, &names[0], None);
    assert_eq!((json["cost"].as_str(), &json["steps_cut"]), (Some("1.5"), &Value::Bool(true)));
    assert_eq!((json["one_percent"][0]["adds"].as_str(), json["unmoved"].as_str()), (Some("0.015"), Some("0")));
}

/// A line whose ingredient holds a formula without its result stops the dish, and is said to.
#[test]
fn a_line_without_a_name_says_why_nothing_is_known() {
    let book = "Item,Price,Per\nLeeks,1.00,kg\n\nRecipe,Soup\nPortions,2\nMenu price,5.00\nIngredient,Qty,Unit\n\
                Leeks,1,kg\n=A1,2,kg\n";
    let said = asked(book, "Soup", None)["answer"].to_string();
    assert!(said.contains("not known") && said.contains("book.csv ▸ A9: the formula =A1"), "{said}");
}

/// 1.00 a portion at 30 % is 3.33; of prices that end in .95 the next is 3.95, which is no step of 0.95.
#[test]
fn a_price_ending_is_told_as_an_ending() {
    let book = "Item,Price,Per\nLeeks,1.00,kg\n\nRecipe,Soup\nPortions,1\nMenu price,5.00\nIngredient,Qty,Unit\n\
                Leeks,1,kg\n\nSetting,Value\nTarget food cost,30%\nPrice ending,0.95\n";
    let json = asked(book, "Soup", None);
    let last = step(&json, "Soup", 0, "price at target");
    assert_eq!(last["amount"], "3.95");
    assert!(last["from"].as_str().unwrap().ends_with("up to the next price that ends in .95"), "{last:#}");
}

/// Wings at market, 2.00 a pound, come off the breast: a dearer wing makes the breast cheaper, by 5 lb × 0.02 ÷ 5 lb on the
/// pound.
#[test]
fn what_makes_it_cheaper_has_its_minus_before_the_sign() {
    let book = "Item,Price,Per\nBirds,$4.00,lb\nWings,$2.00,lb\n\nTest,Role,Part,Weight,Charged as\nCutting,as purchased,Birds,10 lb,\n\
                Cutting,main,Breast,5 lb,\nCutting,by-product,Wings,5 lb,market\n\n\
                Recipe,Plate\nPortions,1\nMenu price,$9.00\nIngredient,Qty,Unit\nBreast,1,lb\nSalt,,\nPepper,,\nSalt,,\n";
    let said = asked(book, "Plate", None)["answer"].to_string();
    assert!(said.contains("Birds $0.080, 0.889 points; Wings -$0.020, -0.222 points"), "{said}");
    assert!(said.contains("for want of a quantity: Salt, Pepper"), "{said}");
    assert!(!said.contains("Salt, Pepper, Salt"), "{said}");
}

/// Of two lines of one ingredient each is told: 4 × 9.00 and 1 × 9.00 are 45.00. What is to taste costs nothing.
#[test]
fn every_line_of_a_name_is_told() {
    let book = "Item,Pack,Price\nLobster,10 ct,$90.00\n\nRecipe,Chowder\nPortions,10\nIngredient,Qty,Unit\nLobster,4,each\n\
                Pepper,to taste,\nLobster,1,each\n";
    let json = asked(book, "Chowder", Some("lobster"));
    assert_eq!(json["answer"][0], "Lobster: $45.00 in a batch of Chowder, 100 % of its food.");
    let told = json["answer"][1].as_str().unwrap();
    assert!(told.starts_with("4 each, at $9.00 each (") && told.contains(". 1 each, at $9.00 each ("), "{told}");
    let pepper = asked(book, "Chowder", Some("pepper"));
    assert_eq!(pepper["answer"][0], "Pepper: no cost in a batch of Chowder.");
    assert_eq!(pepper["answer"][1], "Not costed: to taste.");
}
