//! What to order for a plan, by hand; and that what is on hand, on order and ordered is what is wanted and left, for every
//! item of the samples and over houses of chance. All books invented.

mod sheet;
mod under_way;

use parings::analysis::OrderList;
use parings::analysis::order_list::OrderLine;
use rust_decimal::Decimal;
use serde_json::Value;

use crate::cli::Folder;
use crate::support::{cost_bytes, dec};

/// Hake comes in boxes of 10 lb at 40.00, of which half is fillet; a plate takes half a pound of it. Twelve plates on
/// Tuesday and eight on Wednesday want 6 and 4 lb of fillet: 12 and 8 lb of hake, 20 lb, of which 3 are there: 17, so two
/// boxes, 20 lb, 80.00, and 3 lb are left, which is 3 ÷ (20 ÷ 2 days) = 0.3 days. Of the bones 40 %: 4.8 lb and 3.2 lb, kept
/// for three days, that of their making the first.
/// Leeks are bought by the pound at 1.50 of another supplier: 20 plates × 0.25 lb ÷ 50 % = 10 lb, as much as is wanted, 15.00.
/// Salt is there: a pound on hand, none ordered.
const KITCHEN: &str = "\
Item,Pack,Price,Per,Supplier,Code,Yield
Hake,10 lb,$40.00,,Harbor Fish,H-10,
Leeks,20 lb,$1.50,lb,Greengrocer,,50%
Salt,3 lb,$3.00,,Greengrocer,,

Test,Role,Part,Weight,Keeps
Filleting,as purchased,Hake,10 lb,
Filleting,main,Fillet,5 lb,
Filleting,by-product,Bones,4 lb,3

Recipe,Hake plate
Portions,1
Menu price,$14.00
Ingredient,Qty,Unit
Fillet,0.5,lb
Leeks,0.25,lb
Salt,0.01,lb

Dish,Portions,Day
Hake plate,12,2026-11-24
Hake plate,8,2026-11-25

Item,On hand
Hake,3 lb
Salt,1 lb
";

#[track_caller]
fn order(book: &str) -> Value {
    let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
    let list = OrderList::of(&reading.kitchen, &costing).unwrap();
    json_of(&parings::output::json::order_list(
        &reading.kitchen,
        &costing,
        list.as_ref(),
        &reading.problems_with(&costing),
    ))
}

#[track_caller]
fn json_of(text: &str) -> Value {
    let json = serde_json::from_str(text).unwrap();
    crate::wire::schemas::meets("buy", &json);
    json
}

#[track_caller]
fn item<'a>(json: &'a Value, name: &str) -> &'a Value {
    let orders = json["orders"].as_array().unwrap();
    let mut items = orders.iter().flat_map(|order| order["items"].as_array().unwrap());
    items.find(|item| item["item"] == name).unwrap_or_else(|| panic!("no “{name}” in {json:#}"))
}

/// So many pounds in grams: 453.59237 g each.
fn lb(pounds: &str) -> Decimal {
    pounds.parse::<Decimal>().unwrap() * Decimal::new(45_359_237, 5)
}

#[test]
fn boxes_are_ordered_whole_and_what_is_there_is_used_first() {
    let json = order(KITCHEN);
    assert_eq!(json["plan_days"], "2");
    let hake = item(&json, "Hake");
    assert_eq!(
        (hake["packs"].as_str(), hake["code"].as_str(), hake["pack"].as_str()),
        (Some("2"), Some("H-10"), Some("10 lb"))
    );
    assert_eq!((dec(&hake["wanted"]), dec(&hake["on_hand"]), dec(&hake["to_buy"])), (lb("20"), lb("3"), lb("17")));
    assert_eq!((dec(&hake["ordered"]), dec(&hake["left"]), dec(&hake["money"])), (lb("20"), lb("3"), 80.into()));
    assert_eq!(hake["lasts_days"], "0.3");
    let leeks = item(&json, "Leeks");
    assert!(leeks["packs"].is_null());
    assert_eq!((dec(&leeks["ordered"]), dec(&leeks["money"]), dec(&leeks["left"])), (lb("10"), 15.into(), 0.into()));
    let suppliers: Vec<&str> =
        json["orders"].as_array().unwrap().iter().map(|o| o["supplier"].as_str().unwrap()).collect();
    assert_eq!(suppliers, ["Harbor Fish", "Greengrocer"]);
    // 80 + 15; no salt is ordered.
    assert_eq!(json["money"], "95");
    assert_eq!(json["orders"][1]["items"].as_array().unwrap().len(), 1);
}

/// Made on the 24th and kept three days, bones are last used on the 26th.
#[test]
fn trim_that_comes_out_is_told_with_the_last_day_of_its_use() {
    let json = order(KITCHEN);
    let bones = &json["trim"][0];
    assert_eq!((bones["part"].as_str(), bones["keeps_days"].as_str()), (Some("Bones"), Some("3")));
    let days: Vec<(&str, Decimal, &str)> = bones["days"]
        .as_array()
        .unwrap()
        .iter()
        .map(|day| (day["day"].as_str().unwrap(), dec(&day["made_g"]), day["use_by"].as_str().unwrap()))
        .collect();
    assert_eq!(days.iter().map(|day| day.2).collect::<Vec<_>>(), ["2026-11-26", "2026-11-27"]);
    // What is there of hake is broken down with the rest: 12 and 8 lb go in.
    assert_eq!(days.iter().map(|day| day.1).collect::<Vec<_>>(), [lb("4.8"), lb("3.2")]);
}

/// Without a day's date or Keeps no day is named; without a plan there is nothing to order.
#[test]
fn without_dates_or_a_plan() {
    let weekdays = KITCHEN.replace("2026-11-24", "Tuesday").replace("2026-11-25", "Friday");
    let json = order(&weekdays);
    // Tuesday to Friday.
    assert_eq!(json["plan_days"], "4");
    assert!(json["trim"][0]["days"][0]["use_by"].is_null());
    let (before, _) = KITCHEN.split_once("Dish,").unwrap();
    let json = order(before);
    assert!(json["plan_days"].is_null() && json["money"].is_null());
    assert_eq!(json["orders"].as_array().unwrap().len(), 0);
}

/// On hand + ordered = wanted + left for every item of every sample, and the orders add up to what they come to.
#[test]
fn every_sample_closes_item_by_item() {
    let mut items = 0;
    for name in ["teaching-kitchen.xlsx", "metric-kitchen.xlsx", "messy-kitchen-recipes.xlsx"] {
        let file = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-books").join(name);
        let bytes = std::fs::read(file).unwrap();
        let (reading, costing) = cost_bytes(&[(name, &bytes)]);
        let Some(list) = OrderList::of(&reading.kitchen, &costing).unwrap() else { continue };
        for order in &list.orders {
            let money: Decimal = order.lines.iter().filter_map(|line| line.money).sum();
            assert_eq!(order.money, Some(money), "{name}, {}", order.supplier);
            for line in order.lines.iter().chain(&list.covered) {
                closes(line).unwrap_or_else(|why| panic!("{name}: {why}"));
                items += 1;
            }
        }
    }
    assert!(items > 10, "{items} items");
}

/// On hand, on order and ordered is wanted and left, and nothing is below nothing.
fn closes(line: &OrderLine) -> Result<(), String> {
    let (there, gone) = (line.item.on_hand + line.on_order + line.ordered, line.item.wanted + line.left);
    let apart = (there - gone).abs();
    if apart > there * Decimal::new(1, 15) {
        return Err(format!("{there} and {gone} of {line:?}"));
    }
    let least = -there * Decimal::new(1, 9);
    let amounts = [line.on_order, line.to_buy, line.ordered, line.left, line.ordered - line.to_buy];
    if amounts.into_iter().any(|amount| amount < least) {
        return Err(format!("something is below nothing: {line:?}"));
    }
    Ok(())
}

#[test]
fn the_command_prints_an_order_a_supplier() {
    let folder = Folder::with("book.csv", KITCHEN);
    let printed = folder.run(&["buy", "book.csv"]).ends(0).out;
    for said in ["2 items to order, 95.00 in all", "Harbor Fish", "2 × 10 lb", "to be used by 2026-11-26"] {
        assert!(printed.contains(said), "{said} is not in\n{printed}");
    }
    let one = folder.run(&["buy", "book.csv", "--supplier", "greengrocer", "--format", "csv"]).ends(0).out;
    assert!(one.lines().count() == 2 && one.lines().nth(1).unwrap().starts_with("Greengrocer,Leeks,"), "{one}");
    let other = folder.run(&["buy", "book.csv", "--supplier", "Greengroser"]).ends(2).err;
    assert!(other.contains("nothing is ordered from “Greengroser”") && other.contains("Greengrocer"), "{other}");
    let (before, _) = KITCHEN.split_once("Dish,").unwrap();
    let none = Folder::with("book.csv", before).run(&["buy", "book.csv"]).ends(0).out;
    assert!(none.contains("Nothing is planned"), "{none}");
}

/// What is not costed wants an unknown amount, so the orders are short of it and come to no known sum: said dish by dish.
#[test]
fn dishes_that_are_not_costed_are_told_and_leave_the_sum_unknown() {
    let more = "\nRecipe,Stew\nPortions,1\nIngredient,Qty,Unit\nSorrel,1,lb\n\nDish,Portions\nStew,5\nHake plate,x\n";
    let json = order(&format!("{KITCHEN}{more}"));
    assert_eq!(json["nothing_for"], serde_json::json!(["Stew", "Hake plate"]));
    assert!(json["money"].is_null(), "{json:#}");
    assert_eq!(item(&json, "Hake")["packs"], "2");
    // A plan of which no row could be read is a plan.
    let (before, _) = KITCHEN.split_once("Dish,").unwrap();
    let printed = Folder::with("book.csv", format!("{before}Dish,Portions\nHake plate,x\n"))
        .run(&["buy", "book.csv"])
        .ends(1)
        .out;
    assert!(printed.contains("A row of the plan for Hake plate could not be read"), "{printed}");
    assert!(!printed.contains("Nothing is planned"), "{printed}");
    // Sorrel is in both: nothing at all is known, which is not nothing to order.
    let all = KITCHEN.replace("Salt,0.01,lb", "Sorrel,1,lb");
    let printed = Folder::with("book.csv", &all).run(&["buy", "book.csv"]).ends(1).out;
    assert!(printed.contains("Nothing is ordered for Hake plate: it is not costed."), "{printed}");
    assert!(!printed.contains("nothing to order"), "{printed}");
}

/// Two grams of a box of ten are 0.002 kg, which two decimals would call nought: 2 g wanted, 8 g left. What is bought by metric
/// packs is told so: two bottles of six are 1.5 l. Pieces are told without decimals that say nothing.
#[test]
fn little_is_told_in_grams() {
    let book = "Item,Pack,Price\nSaffron,10 g,$34.00\nEggs,12 ct,$4.00\nOil,6/750 ml,$36.00\n\n\
                Recipe,Soup\nPortions,1\nIngredient,Qty,Unit\nSaffron,1,g\nEggs,2.5,each\nOil,1,bottle\n\nDish,Recipe\nSoup,Soup\n\nDish,Portions\nSoup,2\n";
    let printed = Folder::with("book.csv", book).run(&["buy", "book.csv"]).ends(0).out;
    let row = |name: &str| {
        printed.lines().find(|line| line.starts_with(name)).unwrap().split_whitespace().collect::<Vec<_>>().join(" ")
    };
    assert_eq!(row("Saffron"), "Saffron 2 g 0.00 kg 1 × 10 g 34.00 8 g 4.0");
    assert_eq!(row("Oil"), "Oil 1.50 l 0.00 l 1 × 6/750 ml 36.00 3.00 l 2.0");
    assert_eq!(row("Eggs"), "Eggs 5 each 0 each 1 × 12 ct 4.00 7 each 1.4");
}

/// A sheet for each of a thousand suppliers and one beside them.
#[test]
fn a_workbook_of_more_sheets_than_are_read_is_not_made() {
    let rows = |row: fn(usize) -> String| (0..1_000).map(row).collect::<String>();
    let book = format!(
        "Item,Pack,Price,Supplier\n{}\nRecipe,Feast\nPortions,1\nIngredient,Qty,Unit\n{}\nDish,Recipe\nFeast,Feast\n\n\
         Dish,Portions\nFeast,2\n",
        rows(|n| format!("Item {n},1 lb,$5.00,Supplier {n}\n")),
        rows(|n| format!("Item {n},1,lb\n")),
    );
    let folder = Folder::with("book.csv", book);
    folder.run(&["buy", "book.csv", "-o", "orders.xlsx"]).ends(2).complains_of(&["1001 sheets", "more than 1000"]);
    assert_eq!(folder.names(), ["book.csv"]);
}
