//! Stock counts, item by item: a published example of price, mix and yield variances, and kitchens worked by hand.

use serde_json::Value;

use super::sheet::says;
use super::{control, control_of, is};
use crate::cli::Folder;
use crate::recalc::{Sheets, assert_recalculates};
use crate::support::{dec, no_errors};
use crate::workbook::costed;

/// The money of what was counted: actual, standard, gap, price, mix, use.
#[track_caller]
fn money(of: &Value, expected: [&str; 6]) {
    let keys = ["actual_cost", "standard_cost", "gap", "of_price", "of_mix", "of_use"];
    let found = keys.map(|key| of["money"][key].as_str().unwrap_or_else(|| panic!("no {key} in {of:#}")));
    assert_eq!(found, expected, "{of:#}");
}

#[track_caller]
fn item<'a>(json: &'a Value, name: &str) -> &'a Value {
    let items = json["counted"]["items"].as_array().unwrap();
    items.iter().find(|item| item["name"] == name).unwrap_or_else(|| panic!("no {name} in {json:#}"))
}

/// Tomatoes of three kinds for ketchup, after C. T. Horngren, S. M. Datar and M. V. Rajan, *Cost Accounting: A Managerial
/// Emphasis*, mix and yield variances of substitutable inputs (from memory; the figures agree with each other). A ton wants
/// 0.80 + 0.48 + 0.32 = 1.60 tons, at 70, 80 and 90; for 4,000 tons 3,250, 2,275 and 975 were used, at 70, 82 and 96.
///
/// Price: 2,275 × 2 + 975 × 6 = 10,400. Yield, here use: 6,500 − 6,400 = 100 tons at the standard mix, 50 × 70 + 30 × 80 + 20 ×
/// 90 = 7,700. Mix: 26,000 − 29,250 = −3,250. Efficiency, here mix and use: 4,450.
#[test]
fn tomatoes_that_stand_in_for_one_another() {
    let book = "Item,Pack,Price\nTomatoes A,1 each,70\nTomatoes B,1 each,80\nTomatoes C,1 each,90\n\n\
                Recipe,Ketchup\nPortions,1\nIngredient,Qty,Unit\nTomatoes A,0.8,each\nTomatoes B,0.48,each\n\
                Tomatoes C,0.32,each\n\nDish,Menu price,Sold\nKetchup,400,4000\n\n\
                Item,Opening,Purchases,Closing,Unit,Paid,Group\nTomatoes A,0,3250,0,each,227500,Tomatoes\n\
                Tomatoes B,0,2275,0,each,186550,Tomatoes\nTomatoes C,0,975,0,each,93600,Tomatoes\n";
    let json = control(book);
    no_errors(&json);
    money(item(&json, "Tomatoes A"), ["227500", "224000", "3500", "0", "0", "3500"]);
    money(item(&json, "Tomatoes B"), ["186550", "153600", "32950", "4550", "26000", "2400"]);
    money(item(&json, "Tomatoes C"), ["93600", "115200", "-21600", "5850", "-29250", "1800"]);
    money(&json["counted"], ["507650", "492800", "14850", "10400", "-3250", "7700"]);
    assert_eq!(item(&json, "Tomatoes B")["standard_use"], "1920");
    // Without a control table there is no variance to hold it against, and the counts say what they say.
    assert!(json["standard"].is_null() && json["counted"]["not_counted"].is_null());
    // Where nothing stands in for anything all of it is use: 50 × 70, 355 × 80, −305 × 90.
    let json = control(&book.replace(",Tomatoes\n", ",\n"));
    money(&json["counted"], ["507650", "492800", "14850", "10400", "0", "4450"]);
    money(item(&json, "Tomatoes C"), ["93600", "115200", "-21600", "5850", "0", "-27450"]);
}

/// Hake at 4.00 a pound on the first of the month and 4.40 on the last; of ten pounds come five of fillet and four of bones,
/// which are charged a tenth: 0.40, then 0.44.
pub const HAKE: &str = "\
Setting,Value
Costing date,2026-10-20

Item,Pack,Price,Date
Hake,10 lb,$40.00,2026-10-01
Hake,10 lb,$44.00,2026-10-25

Test,Role,Part,Weight,Charged as,Value
Filleting,as purchased,Hake,10 lb,,
Filleting,main,Fillet,5 lb,,
Filleting,by-product,Bones,4 lb,fraction,10%

Recipe,Hake plate
Portions,1
Ingredient,Qty,Unit
Fillet,0.5,lb

Recipe,Bone broth
Portions,1
Ingredient,Qty,Unit
Bones,0.5,lb

Dish,Menu price,Sold
Hake plate,$12.00,20
Bone broth,$2.00,30

Period,From,To,Opening,Purchases,Closing,Sales
October,2026-10-01,2026-10-31,,,,$300.00

Item,Opening,Purchases,Closing,Unit,Paid
Hake,5,20,3,lb,$86.00
Bones,10 lb,,2 lb,,
";

/// A price that is another on the last day is told beside the figures that go by it.
#[test]
fn a_price_that_moved_in_the_period_is_told() {
    let told = crate::cli::Folder::with("book.csv", HAKE).run(&["control", "book.csv"]).ends(0).out;
    let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(told.contains("The price of Hake moved in the period: 4.00 a lb at first, 4.40 at last."), "{told}");
    assert!(told.contains("The price of Bones moved in the period: 0.40 a lb at first, 0.44 at last."), "{told}");
    let still = HAKE.replace("Hake,10 lb,$44.00,2026-10-25\n", "");
    let told = crate::cli::Folder::with("book.csv", still).run(&["control", "book.csv"]).ends(0).out;
    assert!(!told.contains("moved in the period"), "{told}");
}

/// Standard: 20 plates take 10 lb of fillet, so 20 lb of hake, 88.00; that makes 8 lb of bones, 30 broths want 15: 7 lb off the
/// shelf at 0.44 are 3.08. By portions: a plate (44 − 4 × 0.44) ÷ 5 ÷ 2 = 4.224, a broth 0.22: 84.48 + 6.60 = 91.08, the same.
///
/// Hake: 5 + 20 − 3 = 22 lb used; 5 × 4.00 + 86.00 − 3 × 4.40 = 92.80; at 4.40 the 22 lb are 96.80, so price is −4.00 (5 × −0.40,
/// and 86.00 for what lists at 88.00), use 2 lb, 8.80. Bones, valued at their charge on both days: 10 × 0.40 − 2 × 0.44 = 3.12
/// for 8 lb, 3.52 at 0.44: price −0.40, use 1 lb, 0.44.
#[test]
fn trim_in_the_freezer_is_worth_its_charge_on_both_days() {
    let json = control(HAKE);
    no_errors(&json);
    assert_eq!((json["as_of"].as_str(), json["priced_on"].as_str()), (Some("2026-10-20"), Some("2026-10-31")));
    money(item(&json, "Hake"), ["92.8", "88", "4.8", "-4", "0", "8.8"]);
    money(item(&json, "Bones"), ["3.12", "3.08", "0.04", "-0.4", "0", "0.44"]);
    let bones = item(&json, "Bones");
    let of = |key: &str| bones[key].as_str().unwrap();
    assert_eq!(["opening_value", "closing_value", "opening_price", "price"].map(of), ["4", "0.88", "0.4", "0.44"]);
    is(&bones["used"], 12, "8");
    is(&bones["standard_use"], 12, "7");
    assert_eq!(bones["unit"], "lb");
    money(&json["counted"], ["95.92", "91.08", "4.84", "-4.4", "0", "9.24"]);
    // What the control table leaves blank is of the counts: 20 + 4, 86, 13.20 + 0.88. All of the variance is counted.
    let october = &json["periods"][0];
    let of = |key: &str| october[key].as_str().unwrap();
    assert_eq!(["opening", "purchases", "closing", "food_sold"].map(of), ["24", "86", "14.08", "95.92"]);
    assert_eq!(october["of_counts"], serde_json::json!(["Opening", "Purchases", "Closing"]));
    is(&json["standard"]["variance"], 12, "4.84");
    is(&json["counted"]["not_counted"], 12, "0");
    // 4.84 ÷ 300.
    is(&json["counted"]["gap_points"], 6, "1.613333");
    // What the table says itself counts: 30 + 86 − 14.08 = 101.92, of whose variance 6.00 is of what was not counted.
    let json = control(&HAKE.replace("2026-10-31,,,,", "2026-10-31,$30.00,,,"));
    assert_eq!(json["periods"][0]["food_sold"], "101.92");
    is(&json["counted"]["not_counted"], 12, "6");
}

/// Butter at 90.00 for 36 lb: 2.50 a pound; 160 toasts at two ounces want 20 lb. Two places, in cases and pounds: 36 + 6 + 20 + 1 −
/// 2 − 36 − 3 = 22 lb used, 2 lb above it are 5.00; 1.5 lb of waste are 3.75 of that.
#[test]
fn places_units_and_transfers_add_up() {
    let book = "Item,Pack,Price\nButter,36 lb,$90.00\n\nRecipe,Toast\nPortions,1\nIngredient,Qty,Unit\nButter,2,oz\n\n\
                Dish,Menu price,Sold\nToast,3.00,160\n\n\
                Item,Opening,Purchases,Transfers in,Transfers out,Closing,Waste,Unit\nButter,1 case,,,,1 case,,\n\
                Butter,6,20,1,2,3,1.5,lb\n";
    let json = control(book);
    no_errors(&json);
    let butter = item(&json, "Butter");
    assert_eq!(json["counted"]["items"].as_array().unwrap().len(), 1);
    is(&butter["used"], 12, "22");
    money(butter, ["55", "50", "5", "0", "0", "5"]);
    assert_eq!(butter["money"]["waste"], "3.75");
    let folder = Folder::with("book.csv", book);
    let printed = folder.run(&["control", "book.csv"]).ends(0).out;
    for said in ["22 lb", "20 lb", "contain 3.75 that was written down as thrown away"] {
        assert!(printed.contains(said), "{said} is not in\n{printed}");
    }
    let csv = folder.run(&["control", "book.csv", "--format", "csv", "--rows", "items"]).ends(0).out;
    let mut lines = csv.lines().map(|line| line.split(',').collect::<Vec<_>>());
    let (header, row) = (lines.next().unwrap(), lines.next().unwrap());
    let of = |name: &str| row[header.iter().position(|column| *column == name).unwrap()];
    assert_eq!(["item", "unit", "gap", "of_use", "waste"].map(of), ["Butter", "lb", "5", "5", "3.75"]);
    folder.run(&["control", "book.csv", "--rows", "items"]).ends(2);
}

/// Counted in bottles it is told in bottles, at 36 ÷ 6 = 6.00 each, and what is made in gallons in gallons, at 10 ÷ 4 = 2.50:
/// 2 + 18 − 1 = 19 bottles; 100 plates take a sixth of a bottle each, 16 2/3. Of 2 gal one is left; of a batch of three quarts
/// two quarts are two, not two and the last digit of a division.
#[test]
fn what_is_counted_in_packages_and_batches_is_told_so() {
    let book = "Item,Pack,Price\nOil,6/750 ml,$36.00\nMilk,1 gal,$2.50\n\nRecipe,Stock\nMakes,4 gal\nIngredient,Qty,Unit\n\
                Milk,4,gal\n\nRecipe,Sauce\nMakes,3 qt\nIngredient,Qty,Unit\nMilk,3,qt\n\n\
                Recipe,Plate\nPortions,6\nIngredient,Qty,Unit\nOil,1,bottle\n\nDish,Menu price,Sold\nPlate,3.00,100\n\n\
                Item,Opening,Purchases,Closing\nOil,2 bottle,3 case,1 bottle\nStock,2 gal,,1 gal\nSauce,2 qt,,1 qt\n";
    let json = control(book);
    no_errors(&json);
    for (name, unit, opening, used, price) in
        [("Oil", "bottle", "2", "19", "6"), ("Stock", "gal", "2", "1", "2.5"), ("Sauce", "qt", "2", "1", "0.625")]
    {
        let of = |key: &str| item(&json, name)[key].as_str().unwrap();
        assert_eq!(["unit", "opening", "used"].map(of), [unit, opening, used], "{name}");
        is(&item(&json, name)["price"], 12, price);
    }
    is(&item(&json, "Oil")["standard_use"], 6, "16.666667");
    // A bottle that was another on the first day is told in litres: 2 × 500 + 18 × 750 − 750 ml.
    let book = book.replace("Oil,6/750 ml,$36.00", "Oil,6/500 ml,$24.00,2026-10-01\nOil,6/750 ml,$36.00,2026-10-20");
    let book = book.replacen("Item,Pack,Price", "Item,Pack,Price,Date", 1)
        + "\nPeriod,From,To,Opening,Purchases,Closing\nOctober,2026-10-05,2026-10-31,,,\n";
    let json = control(&book);
    assert_eq!(item(&json, "Oil")["unit"], "l");
    is(&item(&json, "Oil")["used"], 12, "13.75");
}

/// What cannot be said is named, and the others stand: without a closing count, in a unit that nothing leads from, without a
/// price, paid for without a count, in words.
#[test]
fn counts_that_leave_something_unknown_are_named() {
    let book = "Item,Pack,Price\nLeeks,10 lb,$12.00\nOnions,10 lb,$5.00\nCream,1 qt,$4.00\nRye,1 lb,$2.00\nOats,1 lb,$1.00\n\n\
                Recipe,Stew\nPortions,1\nIngredient,Qty,Unit\nLeeks,1,lb\n\nDish,Menu price,Sold\nStew,5.00,10\n\n\
                Item,Opening,Purchases,Closing,Unit,Paid\nLeeks,5,10,5,lb,\nOnions,5,10,,lb,\nCream,2,1,1,ladle,\n\
                Rye,2,,1,lb,$9.00\nOats,some,,1,lb,\n";
    let json = control(book);
    let lacks = |name: &str| item(&json, name)["lacking"][0].clone();
    let lack = |column: &str, because: &str| serde_json::json!({ "column": column, "because": because });
    assert_eq!(lacks("Onions"), lack("Closing", "blank"));
    assert_eq!(lacks("Cream"), lack("Opening", "in a unit that nothing leads from to that of its price"));
    assert_eq!(lacks("Rye"), lack("Purchases", "blank"));
    assert_eq!(lacks("Oats"), lack("Opening", "not understood"));
    // 5 + 10 − 5 = 10 lb for ten stews: no gap; the others have none to say.
    money(&json["counted"], ["12", "12", "0", "0", "0", "0"]);
    assert!(item(&json, "Onions")["money"].is_null() && item(&json, "Rye")["money"].is_null());
    let printed = Folder::with("book.csv", book).run(&["control", "book.csv"]).ends(1).out;
    for said in ["Closing of Onions is blank", "Opening of Oats is not understood"] {
        assert!(printed.contains(said), "{said} is not in\n{printed}");
    }
    // A name that is not in the book is an error there; a period that ends before it begins is one.
    let json = control(
        "Item,Opening,Closing\nNobody,1 lb,2 lb\n\nFrom,To,Opening,Purchases,Closing\n2026-10-31,2026-10-01,1,2,3\n",
    );
    let codes: Vec<&str> =
        json["problems"].as_array().unwrap().iter().map(|one| one["code"].as_str().unwrap()).collect();
    assert!(codes.contains(&"name-unknown") && codes.contains(&"until-before-date"), "{codes:?}");
}

/// A costed book gives the same control.
#[test]
fn counts_come_round_in_the_costed_workbook() {
    let (_, _, written) = costed("book.csv", HAKE.as_bytes());
    let (first, again) = (control(HAKE), control_of("book.costed.xlsx", &written));
    assert_eq!((&first["periods"], &first["counted"]), (&again["periods"], &again["counted"]));
    let (_, _, twice) = costed("book.costed.xlsx", &written);
    assert!(written == twice, "costing the costed book gave another book");
}

/// A stock of something that the kitchen makes: two quarts came off the shelf. Their food was bought before: 2 × 1.00 of gap for
/// the stock, and 2 lb less of necks used than the soups ought to have taken, −2.00.
#[test]
fn what_the_kitchen_makes_counts_by_what_came_off_the_shelf() {
    let book = "Item,Pack,Price\nNecks,1 lb,$1.00\n\nRecipe,Stock\nMakes,10 qt\nIngredient,Qty,Unit\nNecks,10,lb\n\n\
                Recipe,Soup\nPortions,1\nIngredient,Qty,Unit\nStock,1,qt\n\nDish,Menu price,Sold\nSoup,6.00,10\n\n\
                Item,Opening,Purchases,Closing\nNecks,0,8 lb,0\nStock,4 qt,,2 qt\n";
    let json = control(book);
    no_errors(&json);
    money(item(&json, "Stock"), ["2", "0", "2", "0", "0", "2"]);
    money(item(&json, "Necks"), ["8", "10", "-2", "0", "0", "-2"]);
    assert_eq!(dec(&json["counted"]["money"]["gap"]), "0".parse().unwrap());
}

/// The case shrank from ten pounds at 4.00 to eight at 4.50: two cases of the first day are 20 lb, worth 80.00. 20 + 16 − 8 = 28 lb
/// used, 126.00 at 4.50; it cost 80 + 70 − 36 = 114.00; 25 plates want 25 lb, 112.50. Price −12.00, use 3 lb, 13.50.
#[test]
fn a_case_of_the_first_day_is_what_a_case_was_then() {
    let book = "Item,Pack,Price,Date,Until\nHake,10 lb,$40.00,2026-10-01,2026-10-24\nHake,8 lb,$36.00,2026-10-25,\n\n\
                Recipe,Hake plate\nPortions,1\nIngredient,Qty,Unit\nHake,1,lb\n\nDish,Menu price,Sold\nHake plate,$12.00,25\n\n\
                Period,From,To,Opening,Purchases,Closing,Sales\nOctober,2026-10-01,2026-10-31,,,,$390.00\n\n\
                Item,Opening,Purchases,Closing,Paid\nHake,2 case,16 lb,1 case,$70.00\n";
    let json = control(book);
    let hake = item(&json, "Hake");
    is(&hake["opening"], 12, "20");
    is(&hake["closing"], 12, "8");
    is(&hake["used"], 12, "28");
    money(hake, ["114", "112.5", "1.5", "-12", "0", "13.5"]);
    // Without Until the supplier has changed the pack all the same: a case of the last day is the newer one.
    let json = control(&book.replace("2026-10-24", ""));
    let hake = item(&json, "Hake");
    is(&hake["opening"], 12, "20");
    is(&hake["closing"], 12, "8");
    assert!(hake["lacking"].as_array().unwrap().is_empty());
    // By the piece on the first day, and by the pound on the last: nothing says what 20 lb were worth.
    let json = control(&book.replace("Hake,10 lb", "Hake,5 each").replace("2 case", "20 lb"));
    let hake = item(&json, "Hake");
    is(&hake["used"], 12, "28");
    assert_eq!(
        (hake["lacking"].as_array().unwrap().len(), hake["lacking"][0]["column"].as_str()),
        (1, Some("Opening"))
    );
}

/// First bought on the tenth: none was there on the first, so no price of that day is wanted. 16 − 4 = 12 lb at 3.00 for twelve
/// plates. With a pound there its price is wanted.
#[test]
fn what_was_not_there_on_the_first_day_needs_no_price_then() {
    let book = "Item,Pack,Price,Date\nSkate,1 lb,$3.00,2026-10-10\n\nRecipe,Skate plate\nPortions,1\nIngredient,Qty,Unit\n\
                Skate,1,lb\n\nDish,Menu price,Sold\nSkate plate,$12.00,12\n\nPeriod,From,To,Opening,Purchases,Closing,Sales\n\
                October,2026-10-01,2026-10-31,,,,$144.00\n\nItem,Opening,Purchases,Closing,Unit\nSkate,0,16,4,lb\n";
    let json = control(book);
    money(item(&json, "Skate"), ["36", "36", "0", "0", "0", "0"]);
    assert_eq!(json["periods"][0]["opening"], "0");
    let lacking = item(&control(&book.replace("Skate,0,", "Skate,1,")), "Skate")["lacking"].clone();
    assert_eq!(lacking, serde_json::json!([{ "column": "Opening", "because": "not costed" }]));
}

/// A hundred plates want 10 l of olive oil at 9.00; 8 l were used, and 4 l of sunflower oil at 3.00 in its place. All of the group
/// used 2 l above its 10, olive oil being all of its proportions: use 18.00. Mix: 8 − 12 l of olive oil, −36.00, and 4 l of
/// sunflower oil, 12.00.
#[test]
fn an_item_no_recipe_names_may_stand_in_for_one() {
    let book = "Item,Pack,Price\nOlive oil,1 l,$9.00\nSunflower oil,1 l,$3.00\n\nRecipe,Dressed leaves\nPortions,1\n\
                Ingredient,Qty,Unit\nOlive oil,100,ml\n\nDish,Menu price,Sold\nDressed leaves,$12.00,100\n\n\
                Item,Opening,Purchases,Closing,Unit,Group\nOlive oil,2,7,1,l,Oil\nSunflower oil,2,3,1,l,Oil\n";
    let json = control(book);
    money(item(&json, "Olive oil"), ["72", "90", "-18", "0", "-36", "18"]);
    money(item(&json, "Sunflower oil"), ["12", "0", "12", "0", "12", "0"]);
    money(&json["counted"], ["84", "90", "-6", "0", "-24", "18"]);
    // Of a group that no dish wants all is use: there are no proportions.
    let json = control(&book.replace("Olive oil,100,ml", "Sunflower oil,0,ml"));
    money(item(&json, "Olive oil"), ["72", "0", "72", "0", "0", "72"]);
}

/// 20 lb at 2.50 are there, 36 come, 6 come from the other kitchen, 4 go to it, 18 are left: 40 lb, 100.00, of which 160 toasts
/// at four ounces want all. A control table that says nothing of transfers has those of the counts, and one that does its own.
#[test]
fn transfers_that_were_counted_are_not_lost() {
    let book = "Item,Pack,Price\nButter,1 lb,$2.50\n\nRecipe,Toast\nPortions,1\nIngredient,Qty,Unit\nButter,4,oz\n\n\
                Dish,Menu price,Sold\nToast,3.00,160\n\nPeriod,Opening,Purchases,Closing,Transfers in,Transfers out,Sales\n\
                October,,,,,,$480.00\n\n\
                Item,Opening,Purchases,Transfers in,Transfers out,Closing,Unit\nButter,20,36,6,4,18,lb\n";
    for table in [book.to_owned(), book.replace("Transfers in,Transfers out,Sales\nOctober,,,,,", "Sales\nOctober,,,")]
    {
        let json = control(&table);
        no_errors(&json);
        let october = &json["periods"][0];
        let of = |key: &str| october[key].as_str().unwrap();
        assert_eq!(["transfers_in", "transfers_out", "food_sold"].map(of), ["15", "10", "100"]);
        let of_counts = serde_json::json!(["Opening", "Purchases", "Closing", "Transfers in", "Transfers out"]);
        assert_eq!(october["of_counts"], of_counts);
        assert_eq!((dec(&json["standard"]["variance"]), dec(&json["counted"]["not_counted"])), Default::default());
        let (_, _, written) = costed("book.csv", table.as_bytes());
        assert_recalculates(&written, "control.xlsx");
        let sheets = Sheets::open(&written);
        says(&sheets, "+ Transfers in", 0, "B", 15.0);
        says(&sheets, "Cost of food sold", 0, "B", 100.0);
    }
    let json = control(&book.replace("October,,,,,,", "October,,,,0,0,"));
    assert_eq!(json["periods"][0]["food_sold"], "95");
}
