//! Baker's percentages through cost, why, scale, the order list and the workbook. Worked by hand; flour is 100 %, common
//! practice.

use serde_json::Value;

use crate::cli::Folder;
use crate::recalc::{Sheets, Value as Cell, assert_recalculates, with_changes};
use crate::support::{cost_json, line, recipe, rounded};
use crate::workbook;

/// 84 lb ÷ (100 + 65 + 2 + 1) = 0.5 lb for one per cent: 50 lb of flour at 20.00, 32.5 of water, 1 lb of salt at 0.40, 0.5 lb
/// of yeast at 5.00: 22.90.
const LEAN: &str = "\
Setting,Value
Currency,USD
Costing date,2026-11-20

Item,Pack,Price
Bread flour,50 lb,$20.00
Salt,25 lb,$10.00
Yeast,1 lb,$5.00

Recipe,Lean dough
Makes,84 lb
Ingredient,Qty,Unit
Bread flour,100,%
Water,65%,
Salt,2,%
Yeast,1,%

Recipe,Loaf
Makes,10 each
Portion,1 each
Menu price,$4.00
Ingredient,Qty,Unit
Lean dough,15,lb

Dish,Portions
Loaf,100
";

fn json(folder: &Folder, args: &[&str]) -> Value {
    let args = [args, &["--format", "json"]].concat();
    serde_json::from_str(&folder.run(&args).ends(0).out).unwrap()
}

/// Quantity and unit are as typed, the base quantity is the weight: 1 lb is 453.59237 g. 15 of 84 lb are 22.9 × 15 ÷ 84.
#[test]
fn a_line_is_told_as_typed_and_costed_by_its_weight() {
    let costed = cost_json(&[("book.csv", LEAN)]);
    for (item, qty, grams) in [
        ("Bread flour", "100", "22679.6185"),
        ("Water", "65", "14741.752025"),
        ("Salt", "2", "453.59237"),
        ("Yeast", "1", "226.796185"),
    ] {
        let told = line(&costed, "Lean dough", item);
        let wanted = (&qty.into(), &"%".into(), &grams.into(), &"g".into());
        assert_eq!((&told["qty"], &told["unit"], &told["base_qty"], &told["base_unit"]), wanted, "{item}");
    }
    assert_eq!(recipe(&costed, "Lean dough")["food_cost"], "22.9");
    assert_eq!(rounded(&recipe(&costed, "Loaf")["food_cost"], 8).to_string(), "4.08928571");
}

/// 42 lb are half: 25 lb of flour, 16.25 of water, half a pound of salt, a quarter of yeast, 11.45. With 10 lb of flour a
/// fifth can be made. A hundred loaves take 150 lb: 50 × 150 ÷ 84 = 89.29 lb of flour, two bags; 1.79 lb of salt; 0.89 of
/// yeast: 40 + 10 + 5 = 55.
#[test]
fn why_scale_and_the_order_go_by_the_weight() {
    let folder = Folder::with("book.csv", LEAN);
    let scaled = json(&folder, &["scale", "book.csv", "Lean dough", "--to", "42 lb"]);
    let lines = scaled["recipe"]["lines"].as_array().unwrap();
    let words: Vec<&str> = lines.iter().map(|line| line["in_words"].as_str().unwrap()).collect();
    assert_eq!(words, ["25 lb", "16 1/4 lb", "8 oz", "4 oz"]);
    assert_eq!(scaled["recipe"]["food_cost"], "11.45");
    let scaled = json(&folder, &["scale", "book.csv", "Lean dough", "--from", "10 lb Bread flour"]);
    assert_eq!(scaled["recipe"]["factor"], "0.2");
    let order = &json(&folder, &["buy", "book.csv"])["orders"][0];
    let packs: Vec<&Value> = order["items"].as_array().unwrap().iter().map(|item| &item["packs"]).collect();
    assert_eq!((packs, &order["money"]), (vec![&"2".into(), &"1".into(), &"1".into()], &"55".into()));
    let why = folder.run(&["why", "book.csv", "Lean dough", "--all"]).ends(0).out;
    assert!(why.contains("65 %  asked: of 50 lb of flour, from what Makes weighs: 32.5 lb"), "{why}");
}

/// The weight of a line that is no weight where it is priced: 5 % of 10 kg are 500 g, at 920 g a litre; 2 litres at 9.20 make
/// that 0.5 ÷ 0.92 × 4.60 = 2.50.
#[test]
fn oil_by_the_litre_is_weighed_in() {
    let book = "Item,Pack,Price\nFlour,25 kg,$25.00\nOil,2 l,$9.20\n\nItem,Measure,Weighs\nOil,l,920 g\n\n\
                Recipe,Dough\nIngredient,Qty,Unit\nFlour,10,kg\nOil,5%,\n";
    let costed = cost_json(&[("book.csv", book)]);
    assert_eq!(rounded(&line(&costed, "Dough", "Oil")["cost"], 12).normalize().to_string(), "2.5");
    let (_, _, bytes) = workbook::costed("book.csv", book.as_bytes());
    assert_recalculates(&bytes, "oil");
    // 20 kg of flour: 1 kg of oil.
    assert_eq!(costs(&bytes, "Dough", &[("Flour", 20.0)]), [20.0, 5.0].map(Some));
}

/// As a baker writes it, a line in one cell, by what the dough weighs or by the flour: 84 lb as above, 22.90; 50 lb of flour at
/// 0.40, 65 % of water, 2 % of salt, one pound, at 0.40: 20.40, and 25 lb of butter at 4.00.
#[test]
fn a_line_in_one_cell_says_per_cent_of_the_flour() {
    let prices =
        "\n\nItem,Pack,Price\nBread flour,50 lb,$20.00\nSalt,25 lb,$10.00\nYeast,1 lb,$5.00\nButter,1 lb,$4.00\n";
    for (lines, cost) in [
        ("Makes 84 lb\n100% bread flour\n65% water\n2 % salt\n1% yeast", "22.9"),
        ("Makes 84 lb\nbread flour 100%\nwater 65%\nsalt 2%\nyeast 1 %", "22.9"),
        ("Makes 84 lb\nbread flour,100%\nwater,65%\nsalt,2%\nyeast,1%", "22.9"),
        ("Makes 40 loaves\n50 lb bread flour\n65% water\n2% salt\n25 lb butter", "120.4"),
    ] {
        let json = cost_json(&[("book.csv", &format!("Lean dough\n{lines}{prices}"))]);
        assert_eq!(recipe(&json, "Lean dough")["food_cost"], cost, "{lines}: {json:#}");
        let water = line(&json, "Lean dough", "water");
        assert_eq!((&water["qty"], &water["unit"]), (&"65".into(), &"%".into()), "{lines}");
    }
    let card = "Lean dough\nMakes 84 lb\n100% bread flour\n65% water\n2 % salt\n1% yeast";
    let book = format!("{card}{prices}");
    let json = cost_json(&[("book.csv", &book)]);
    let told: Vec<&str> =
        json["problems"].as_array().unwrap().iter().map(|one| one["message"].as_str().unwrap()).collect();
    let said = "“100% bread flour” and 3 other lines of “Lean dough” were taken in % of the flour";
    assert!(told.contains(&said), "{told:?}");
    let (_, _, bytes) = workbook::costed("book.csv", book.as_bytes());
    assert_recalculates(&bytes, "lines in one cell");
    let (_, _, again) = workbook::costed("book.costed.xlsx", &bytes);
    assert!(again == bytes, "costed again it is another book");
}

/// A percentage that is part of a name stays one: of milk that the book knows by it, behind a name where the flour is weighed,
/// and where there is no flour at all. What to type is said.
#[test]
fn a_percentage_of_a_name_is_no_quantity() {
    let items = |lines: &str| {
        let prices = "Item,Pack,Price\nFlour,10 lb,$10.00\n2% milk,1 gal,$4.00\nCream,1 qt,$3.00\nSalt,1 lb,$1.00\n";
        let json = cost_json(&[("book.csv", &format!("Cake\nServes 4\n{lines}\n\n{prices}"))]);
        let told = json["problems"].as_array().unwrap().clone();
        let lines = json["recipes"][0]["lines"].as_array().unwrap();
        let said = |line: &Value| format!("{} {}", line["item"].as_str().unwrap(), line["qty"].as_str().unwrap_or("-"));
        (lines.iter().map(said).collect::<Vec<_>>(), told)
    };
    assert_eq!(items("2 lb flour\n2% milk\n10% salt").0, ["flour 2", "2% milk -", "salt 10"]);
    assert_eq!(items("2 lb flour\ndark chocolate 70%").0, ["flour 2", "dark chocolate 70% -"]);
    let (lines, told) = items("1 qt cream\n35% cream");
    assert_eq!(lines, ["cream 1", "35% cream -"]);
    let help = "Type a quantity, or to taste. If 35 % (of the flour) is how much, type 35 under Qty and % under Unit, and cream \
                as its name.";
    assert!(told.iter().any(|one| one["code"] == "line-uncosted" && one["help"] == help), "{told:#?}");
}

/// What cannot be known is said at the cell, and nothing is costed.
#[test]
fn what_cannot_be_weighed_is_said() {
    let prices =
        "Item,Pack,Price\nBread flour,50 lb,$20.00\nRye flour,50 lb,$20.00\nEggs,30 ct,$6.00\nSalt,1 lb,$1.00\n\n";
    for (card, cell, says) in [
        ("Makes,84 lb\nIngredient,Qty,Unit\nBread flour,90,%\nWater,65,%\n", "B10", "is the flour and 90 %"),
        ("Makes,84 lb\nIngredient,Qty,Unit\nBread flour,80,%\nRye flour,30,%\n", "B11", "come to 110 %"),
        ("Makes,84 lb\nIngredient,Qty,Unit\nBread flour,100,%\nEggs,12,each\n", "B11", "is 12 each and no %"),
        ("Makes,84 lb\nIngredient,Qty,Unit\nSalt,2,%\nWater,65,%\n", "B10", "no line is the flour"),
        ("Makes,84 lb\nIngredient,Qty,Unit\nBread flour,4,cup\nWater,65,%\n", "B10", "is given as 4 cup"),
        (
            "Makes,84 lb\nIngredient,Qty,Unit\nBread flour,4,lb\nRye flour,20,%\n",
            "B11",
            "other flour of this recipe is not",
        ),
        (
            "Makes,24 each\nIngredient,Qty,Unit\nBread flour,100,%\nWater,65,%\n",
            "B10",
            "what the batch weighs is not known",
        ),
    ] {
        let costed = cost_json(&[("book.csv", &format!("{prices}Recipe,Dough\n{card}"))]);
        let errors: Vec<&Value> =
            costed["problems"].as_array().unwrap().iter().filter(|problem| problem["severity"] == "error").collect();
        assert_eq!(errors.len(), 1, "{card}: {errors:?}");
        assert_eq!((&errors[0]["code"], &errors[0]["cell"]), (&"flour-unknown".into(), &cell.into()), "{card}");
        assert!(errors[0]["message"].as_str().unwrap().contains(says), "{errors:?}");
        assert!(recipe(&costed, "Dough")["food_cost"].is_null());
    }
}

/// The line costs of a card after quantities were typed over, by another engine; `None` where one is not known.
fn costs(bytes: &[u8], card: &str, changes: &[(&str, f64)]) -> Vec<Option<f64>> {
    let row_of = |sheets: &Sheets, item: &str| {
        let is_it = |row: &u32| sheets.value(card, &format!("A{row}")) == Cell::Text(item.to_owned());
        (1..40).find(is_it).unwrap()
    };
    let before = Sheets::open(bytes);
    let cells: Vec<(String, f64)> =
        changes.iter().map(|(item, number)| (format!("B{}", row_of(&before, item)), *number)).collect();
    let cells: Vec<(&str, &str, f64)> = cells.iter().map(|(cell, number)| (card, cell.as_str(), *number)).collect();
    let sheets = with_changes(bytes, &cells);
    let header = row_of(&sheets, "Ingredient");
    let is_cost =
        |column: &char| sheets.value(card, &format!("{column}{header}")) == Cell::Text("Line cost".to_owned());
    let column = ('A'..='Z').find(is_cost).unwrap();
    let lines = (header + 1..40).take_while(|row| sheets.value(card, &format!("A{row}")) != Cell::Empty);
    let cost = |row| match sheets.value(card, &format!("{column}{row}")) {
        Cell::Number(number) => Some((number * 1e9).round() / 1e9),
        _ => None,
    };
    lines.map(cost).collect()
}

/// With 49 % of water all come to 152: one per cent is 84 ÷ 152 lb; flour 0.40 a pound × 100 of that, 22.105263158, salt
/// 0.442105263, yeast 2.763157895. Flour of 90 % is no formula.
#[test]
fn the_workbook_follows_every_percentage() {
    let (_, _, bytes) = workbook::costed("book.csv", LEAN.as_bytes());
    assert_recalculates(&bytes, "lean dough");
    let (_, _, again) = workbook::costed("book.costed.xlsx", &bytes);
    assert!(again == bytes, "costed again it is another book");
    let wanted = [22.105_263_158, 0.0, 0.442_105_263, 2.763_157_895].map(Some);
    assert_eq!(costs(&bytes, "Lean dough", &[("Water", 49.0)]), wanted);
    assert_eq!(costs(&bytes, "Lean dough", &[("Bread flour", 90.0)]), [None; 4]);
    // The same with the dough's weight behind its count, and where a third, as typed, is no number that a cell holds.
    let (_, _, bytes) =
        workbook::costed("book.csv", LEAN.replace("Makes,84 lb", "Makes,\"56 each, 84 lb\"").as_bytes());
    assert_recalculates(&bytes, "lean dough, counted");
    assert_eq!(costs(&bytes, "Lean dough", &[("Water", 49.0)]), wanted);
    let (_, _, bytes) = workbook::costed("book.csv", LEAN.replace("Yeast,1,%", "Yeast,1/3,%").as_bytes());
    assert_recalculates(&bytes, "lean dough with a third");
    assert_eq!(costs(&bytes, "Lean dough", &[("Water", 49.0)]), [None; 4]);
}

/// In 56 portions of 1.5 lb, typed so, there are 84 lb; in 28 portions 42, at half the cost.
#[test]
fn a_batch_known_by_its_portions_is_followed() {
    let book = LEAN.replace("Makes,84 lb", "Portion,1.5 lb\nPortions,56");
    let (_, _, bytes) = workbook::costed("book.csv", book.as_bytes());
    assert_recalculates(&bytes, "by portions");
    assert_eq!(costs(&bytes, "Lean dough", &[]), [20.0, 0.0, 0.4, 2.5].map(Some));
    assert_eq!(costs(&bytes, "Lean dough", &[("Portions", 28.0)]), [10.0, 0.0, 0.2, 1.25].map(Some));
}

/// In lists, which stand for more recipes than get cards, as on them.
#[test]
fn in_lists_it_recalculates_too() {
    let mut book = LEAN.to_owned();
    for n in 0..200 {
        book.push_str(&format!("\nRecipe,Salt water {n}\nMakes,1 qt\nIngredient,Qty,Unit\nSalt,1,oz\n"));
    }
    let (_, costing, bytes) = workbook::costed("book.csv", book.as_bytes());
    assert!(costing.recipes.iter().all(Option::is_some));
    assert_recalculates(&bytes, "lists");
}
