//! Words that a kitchen has for packages (sack, bag, bottle, block, pkg, flat, case), bills with tax, freight and deposits,
//! a menu at one price, and a book without a menu: each through cost, why, scale and the order list. Worked by hand.

use serde_json::Value;

use crate::cli::Folder;
use crate::support::dec;

/// A sack of flour is the pack, 25.00. A bag of oats is one of six, 30 ÷ 6 = 5.00. A bottle of vinegar is 36 ÷ 12 = 3.00, a
/// block of cheese 60 ÷ 10 = 6.00, a package of peas 45 ÷ 12 = 3.75, a flat of eggs the pack, 6.00. Half a sack 12.50, two
/// bags 10.00, a bottle 3.00, a block 6.00, three packages 11.25, half a flat 3.00: 45.75, for ten 4.575 each.
const BOOK: &str = "\
Setting,Value
Currency,USD
Costing date,2026-11-20

Item,Pack,Price,Supplier
Flour,50 lb,$25.00,Mill
Oats,6/5 lb,$30.00,Mill
Vinegar,12/750 ml,$36.00,Mill
Cream cheese,10/3 lb,$60.00,Dairy
Peas,12/2.5 lb,$45.00,Dairy
Eggs,30 ct,$6.00,Dairy

Recipe,Everything
Portions,10
Ingredient,Qty,Unit
Flour,1/2,sack
Oats,2,bag
Vinegar,1,bottle
Cream cheese,1,block
Peas,3,pkg
Eggs,0.5,flat

Item,On hand,On order
Flour,1 sack,
Oats,2 bag,1 case
Cream cheese,1 block,2 block

Dish,Portions
Everything,40
";

/// A flat of thirty eggs may be less than the pack, which does not say flat: that is told at the line, by check and why. A sack
/// of a pack of one, a case, and a word that the pack says are no guess.
#[test]
fn a_word_that_was_taken_for_the_whole_pack_is_told() {
    let folder = Folder::with("book.csv", BOOK);
    let notes = |folder: &Folder| {
        let json: Value =
            serde_json::from_str(&folder.run(&["check", "book.csv", "--format", "json"]).ends(0).out).unwrap();
        let problems = json["problems"].as_array().unwrap().iter();
        let assumed = problems.filter(|problem| problem["code"] == "package-assumed");
        assumed
            .map(|problem| format!("{}: {}", problem["cell"], problem["message"]).replace('"', ""))
            .collect::<Vec<_>>()
    };
    let flat = "1 flat of “Eggs” was taken for its whole pack, 30 each, which does not say flat";
    assert_eq!(notes(&folder), [format!("B21: {flat}")]);
    let why = folder.run(&["why", "book.csv", "Everything"]).ends(0).out;
    assert!(why.contains("taken for the whole pack: a flat of Eggs"), "{why}");
    // In the stock list too; a case is what packs come in.
    let stock = BOOK
        .replace("Flour,1 sack,\n", "Flour,1 sack,\nEggs,1 carton,1 case\n")
        .replace("Eggs,0.5,flat", "Eggs,9,each");
    let carton = "1 carton of “Eggs” was taken for its whole pack, 30 each, which does not say carton";
    assert_eq!(notes(&Folder::with("book.csv", &stock)), [format!("B25: {carton}")]);
    let said = Folder::with("book.csv", BOOK.replace("Eggs,30 ct", "Eggs,1 flat 30 ct"));
    assert_eq!(notes(&said), [""; 0]);
}

fn json(folder: &Folder, arguments: &[&str]) -> Value {
    serde_json::from_str(&folder.run(&[arguments, &["--format", "json"]].concat()).ends(0).out).unwrap()
}

#[test]
fn packages_cost_their_share_of_the_pack() {
    let folder = Folder::with("book.csv", BOOK);
    let costed = json(&folder, &["cost", "book.csv"]);
    let recipe = &costed["recipes"][0];
    let lines: Vec<&str> =
        recipe["lines"].as_array().unwrap().iter().map(|line| line["cost"].as_str().unwrap()).collect();
    assert_eq!(lines, ["12.5", "10", "3", "6", "11.25", "3"]);
    assert_eq!((&recipe["food_cost"], &recipe["portion_cost"]), (&"45.75".into(), &"4.575".into()));
    // Twice the recipe: a sack, four bags, two bottles, two blocks, six packages, a flat.
    let scaled = json(&folder, &["scale", "book.csv", "Everything", "--by", "2"]);
    let words: Vec<&str> =
        scaled["recipe"]["lines"].as_array().unwrap().iter().map(|line| line["in_words"].as_str().unwrap()).collect();
    assert_eq!(words, ["1 sack", "4 bags", "2 bottles", "2 blocks", "6 packs", "1 flat"]);
    assert_eq!(scaled["recipe"]["food_cost"], "91.5");
    let why = folder.run(&["why", "book.csv", "Everything", "cream cheese"]).ends(0).out;
    assert!(why.starts_with("Cream cheese: $6.00 in a batch of Everything, 13.1 % of its food.\n"), "{why}");
    assert!(why.contains("1 block, is 3 lb (by its pack, 10 × 3 lb = 30 lb), at $2.00 a lb"), "{why}");
}

/// Forty portions are four batches: two sacks of which one is there, so one; eight bags, 40 lb, of which 10 are there and 30
/// coming: none. Four bottles of twelve: a case, 8 left. Four blocks, one there and two coming: one is wanted, so a case of
/// ten, and 1 + 2 + 10 − 4 = 9 are left, 27 lb. Twelve packages: a case. Two flats: two.
#[test]
fn packages_are_stock_and_orders_too() {
    let folder = Folder::with("book.csv", BOOK);
    let orders = json(&folder, &["buy", "book.csv"]);
    let items: Vec<&Value> =
        orders["orders"].as_array().unwrap().iter().flat_map(|order| order["items"].as_array().unwrap()).collect();
    let told: Vec<(&str, &str, &str)> = items
        .iter()
        .map(|item| (item["item"].as_str().unwrap(), item["packs"].as_str().unwrap(), item["money"].as_str().unwrap()))
        .collect();
    let wanted = [
        ("Flour", "1", "25"),
        ("Vinegar", "1", "36"),
        ("Cream cheese", "1", "60"),
        ("Peas", "1", "45"),
        ("Eggs", "2", "12"),
    ];
    assert_eq!(told, wanted);
    let pound = rust_decimal::Decimal::new(45_359_237, 5);
    assert_eq!(dec(&items[2]["left"]) / pound, 27.into());
    assert_eq!(
        (orders["covered"][0]["item"].as_str(), orders["covered"][0]["left"].as_str()),
        (Some("Oats"), Some("0"))
    );
}

/// 107.00 with 7 % tax within is 100.00; 5.00 of freight on top and 2.50 of deposit back: 102.50 a box of 10 kg. Two kilos
/// are 20.50. For 30 plates of 0.5 kg 15 kg are wanted: two boxes, 205.00.
#[test]
fn tax_freight_and_deposits_go_all_the_way() {
    let book = "Setting,Value\nCurrency,USD\nCosting date,2026-11-20\nPrices include tax,7%\n\n\
                Item,Pack,Price,Further cost,Credit\nFish,10 kg,$107.00,5.00,2.50\n\n\
                Recipe,Plate\nPortions,4\nIngredient,Qty,Unit\nFish,2,kg\n\nDish,Portions\nPlate,30\n";
    let folder = Folder::with("book.csv", book);
    let costed = json(&folder, &["cost", "book.csv"]);
    assert_eq!(
        (&costed["recipes"][0]["food_cost"], &costed["recipes"][0]["portion_cost"]),
        (&"20.5".into(), &"5.125".into())
    );
    assert_eq!(json(&folder, &["scale", "book.csv", "Plate", "--to", "10"])["recipe"]["food_cost"], "51.25");
    assert_eq!(json(&folder, &["why", "book.csv", "Plate"])["cost"], "20.5");
    let order = &json(&folder, &["buy", "book.csv"])["orders"][0];
    assert_eq!((&order["items"][0]["packs"], &order["money"]), (&"2".into(), &"205".into()));
}

/// Leeks 10 lb at 20.00: 5 lb are 10.00, a bowl 1.00, a cup of half a portion 0.50. Hake 2 lb at 8.00 for four: 4.00 a plate.
/// A menu of a cup and a plate at 18.00 is 4.50, 25 %. Thirty of it take 15 bowls, 7.5 lb of leeks, and 15 lb of hake.
#[test]
fn a_menu_at_one_price_is_made_of_portions() {
    let before = "Setting,Value\nCurrency,USD\nCosting date,2026-11-20\nTarget food cost,30%\n\n\
                  Item,Pack,Price,Yield\nLeeks,10 lb,$20.00,100%\nHake,10 lb,$80.00,100%\n\n\
                  Recipe,Soup\nPortions,10\nIngredient,Qty,Unit\nLeeks,5,lb\n\n\
                  Recipe,Plate\nPortions,4\nIngredient,Qty,Unit\nHake,2,lb\n\n\
                  Dish,Recipe,Portion,Menu price\n\"Soup, cup\",Soup,1/2 portion,$4.00\n\n\
                  Recipe,Set menu\nPortions,1\nMenu price,$18.00\nIngredient,Qty,Unit\n";
    let plan = "\nDish,Portions\nSet menu,30\n";
    let folder = Folder::with("book.csv", format!("{before}Soup,0.5,portion\nPlate,1,portion\n{plan}"));
    let costed = json(&folder, &["cost", "book.csv"]);
    let menu = costed["dishes"].as_array().unwrap().iter().find(|dish| dish["name"] == "Set menu").unwrap();
    assert_eq!((&menu["portion_cost"], &menu["food_cost_percent"]), (&"4.5".into(), &"25".into()));
    let orders = json(&folder, &["buy", "book.csv"]);
    let items = orders["orders"][0]["items"].as_array().unwrap();
    let packs: Vec<(&Value, &Value)> = items.iter().map(|item| (&item["item"], &item["packs"])).collect();
    assert_eq!(packs, [(&"Leeks".into(), &"1".into()), (&"Hake".into(), &"2".into())]);
    // By the names of the menu it is the same.
    let folder = Folder::with("book.csv", format!("{before}\"Soup, cup\",1,portion\nPlate,1,portion\n{plan}"));
    let by_name = json(&folder, &["cost", "book.csv"]);
    assert_eq!(by_name["dishes"], costed["dishes"]);
    assert_eq!(json(&folder, &["buy", "book.csv"])["orders"], orders["orders"]);
}

/// Two recipes and nothing for sale: leeks 5 lb at 2.00 are 10.00 for 2 gal, of 8 fl oz 32, 0.3125 each; the stew takes a
/// gallon, 5.00, and nobody says for how many.
#[test]
fn a_book_without_a_menu_says_what_its_recipes_cost() {
    let book = "Setting,Value\nCurrency,USD\nCosting date,2026-11-20\n\nItem,Pack,Price,Yield\nLeeks,10 lb,$20.00,100%\n\n\
                Recipe,Soup\nMakes,2 gal\nPortion,8 fl oz\nIngredient,Qty,Unit\nLeeks,5,lb\n\n\
                Recipe,Stew\nMakes,1 gal\nIngredient,Qty,Unit\nSoup,1,gal\n";
    let folder = Folder::with("book.csv", book);
    let printed = folder.run(&["cost", "book.csv"]).ends(0).out;
    let rows: Vec<String> = printed.lines().map(|line| line.split_whitespace().collect::<Vec<_>>().join(" ")).collect();
    for row in ["Recipe cost Makes Portions cost", "Soup 10.00 2 gal 32 0.31", "Stew 5.00 1 gal – –"] {
        assert!(rows.iter().any(|known| known == row), "{row} is not in {rows:#?}");
    }
    let csv = folder.run(&["cost", "book.csv", "--format", "csv"]).ends(0).out;
    let rows: Vec<&str> = csv.lines().skip(1).collect();
    assert_eq!(rows, ["Soup,10,10,2,gal,32,0.3125,0,8,fl oz,USD,2026-11-20", "Stew,5,5,1,gal,,,0,,,USD,2026-11-20"]);
    let costed = json(&folder, &["cost", "book.csv"]);
    assert_eq!(costed["dishes"].as_array().unwrap().len(), 0);
    assert_eq!(
        (&costed["recipes"][0]["batch_cost"], &costed["recipes"][0]["portion_cost"]),
        (&"10".into(), &"0.3125".into())
    );
}

/// A supplier who changes the pack: a case is the new one, 30 lb at 93.00. 400 portions take 400 ÷ 10 × 2 = 80 lb; one case is
/// there and one on order, so 20 lb are to buy: one case. Another supplier's 36 lb leave open which case is meant.
#[test]
fn a_changed_pack_is_the_suppliers_newest() {
    let book = |rows: &str| {
        format!(
            "Item,Pack,Price,Supplier,Code,Date\nButter,36/1 lb,$108.00,Dairy,B1,2026-11-01\n{rows}\n\n\
             Recipe,Rolls\nPortions,10\nIngredient,Qty,Unit\nButter,2,lb\n\n\
             Recipe,Shortbread\nPortions,10\nIngredient,Qty,Unit\nButter,1/10,case\n\n\
             Item,On hand,On order\nButter,1 case,1 case\n\nDish,Portions\nRolls,400\n"
        )
    };
    let new = "Butter,30/1 lb,$93.00,Dairy,B1,2026-11-10";
    let folder = Folder::with("book.csv", book(new));
    let bought = json(&folder, &["buy", "book.csv", "--as-of", "2026-11-20"]);
    let line = &bought["orders"][0]["items"][0];
    assert_eq!((&line["packs"], &line["money"]), (&"1".into(), &"93".into()), "{bought:#}");
    let costed = json(&folder, &["cost", "book.csv", "--as-of", "2026-11-20"]);
    let shortbread = &costed["recipes"].as_array().unwrap()[1];
    assert_eq!(shortbread["food_cost"], "9.3", "{costed:#}");

    let folder = Folder::with("book.csv", book(&new.replace("Dairy,B1", "Mill,M7")));
    let costed = folder.run(&["cost", "book.csv", "--as-of", "2026-11-20", "--format", "json"]).ends(1).out;
    let costed: Value = serde_json::from_str(&costed).unwrap();
    assert!(costed["problems"].as_array().unwrap().iter().any(|one| one["code"] == "measure-ambiguous"), "{costed:#}");
}
