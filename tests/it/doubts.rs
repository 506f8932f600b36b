//! Figures that no kitchen can mean are doubted, at the cell to look at; what kitchens really boil down is not.

use crate::support::cost_json;
use serde_json::Value;

const HEAD: &str = "Setting,Value\nCurrency,USD\nCosting date,2026-11-20\nTarget food cost,30%\n\n\
                    Item,Pack,Price\nBones,10 lb,5.00\nPotatoes,50 lb,30.00\nSalt,50 lb,10.00\nSea bass,10 lb,90.00\n\
                    Red wine,1 gal,12.00\nOil,1 gal,16.00\nSaffron,1 oz,90.00\nHam,1 lb,4.00\n";

fn costed(tables: &str) -> Value {
    cost_json(&[("book.csv", &format!("{HEAD}\n{tables}"))])
}

/// The warnings as `cell code`.
fn warnings(json: &Value) -> Vec<String> {
    let problems = json["problems"].as_array().unwrap().iter();
    let text = |problem: &Value, key: &str| problem[key].as_str().unwrap().to_owned();
    let warnings = problems.filter(|problem| problem["severity"] == "warning");
    warnings.map(|problem| format!("{} {}", text(problem, "cell"), text(problem, "code"))).collect()
}

fn recipe(labels: &str, lines: &str) -> String {
    format!("Recipe,Tried\n{labels}\nIngredient,Qty,Unit,Used\n{lines}\n")
}

#[test]
fn a_day_of_the_calendar_as_a_weight_is_doubted_at_the_heaviest_line() {
    // 2.5 gal are 9463.5 ml and weigh 14195 g at 1.5 g/ml; 46115 lb are 20917413 g: 1473 times as much.
    let json = costed(&recipe("Makes,2.5 gal", "Ham,1,lb,\nPotatoes,46115,lb,\nWater,2,gal,"));
    assert_eq!(warnings(&json), ["B20 lines-outweigh-makes"]);
    let message = json["problems"][0]["message"].as_str().unwrap();
    assert!(message.contains("1473 times") && message.contains("46115 lb of “Potatoes”"), "{message}");
    // By weight: 60 lb into 1 lb; a gram for a kilo; a volume of what is poured, at half a gram: 200 gal are 378541 g at
    // the least, into 1 qt, 1419.5 g at the most.
    for (labels, line) in [
        ("Makes,1 lb", "Potatoes,60,lb,"),
        ("Makes,800 g", "Ham,800,kg,"),
        ("Makes,1 qt", "Red wine,200,gal,"),
        ("Portion,4 oz\nPortions,4", "Potatoes,60,lb,"),
    ] {
        assert_eq!(warnings(&costed(&recipe(labels, line))).len(), 1, "{labels}: {line}");
    }
}

#[test]
fn stocks_glazes_and_crusts_are_not_doubted() {
    for (labels, lines) in [
        // A glaze from the bones on: fifty pounds and the water for a quart. Common practice, no source.
        ("Makes,1 qt", "Bones,50,lb,\nWater,15,gal,"),
        // Water alone may boil away to nothing, and costs nothing.
        ("Makes,8 fl oz", "Saffron,0.1,oz,\nWater,40,gal,"),
        // Frying oil and a salt crust, of which little is eaten.
        ("Makes,1 lb", "Sea bass,1,lb,\nSalt,60,lb,2%"),
        ("Makes,1 lb", "Potatoes,1,lb,\nOil,5,gal,3%\nHam,1,oz,"),
        ("Makes,1 pt", "Red wine,3,gal,"),
        // Nothing is known of what pieces weigh.
        ("Makes,2 each", "Potatoes,60,lb,"),
        ("Portions,2", "Potatoes,60,lb,"),
    ] {
        assert_eq!(warnings(&costed(&recipe(labels, lines))), [""; 0], "{labels}: {lines}");
    }
}

#[test]
fn a_dish_that_costs_more_than_it_sells_for_names_its_dearest_line() {
    // 12 lb of ham are 48.00, 2 lb of potatoes 1.20: 49.20 ÷ 4 = 12.30, against 11.00 with 10 % tax: 10.00.
    let card = "Recipe,Ham plate\nPortions,4\nIngredient,Qty,Unit\nPotatoes,2,lb\nHam,12,lb\n\n";
    let sold = costed(&format!("{card}Dish,Recipe,Menu price,Tax\nHam,Ham plate,$11.00,10%\n"));
    assert_eq!(warnings(&sold), ["C23 cost-over-price"]);
    let problem = &sold["problems"].as_array().unwrap().iter().find(|p| p["code"] == "cost-over-price").unwrap();
    assert_eq!(
        problem["message"],
        "“Ham” costs $12.30 a portion, more than the $10.00 it sells for without tax; its dearest line is 12 lb of “Ham” \
         for $48.00, at book.csv ▸ B20"
    );
    // The price on the card counts where the menu gives none, and a price as high as the cost is not doubted.
    let priced = card.replace("Portions,4\n", "Portions,4\nMenu price,$12.00\n");
    let on_card = costed(&format!("{priced}Dish,Target\nHam plate,30%\n"));
    assert_eq!(warnings(&on_card), ["B18 cost-over-price"]);
    let even = costed(&card.replace("Portions,4\n", "Portions,4\nMenu price,$12.30\n"));
    assert_eq!(warnings(&even), [""; 0]);
    // Nothing but a Q in money: no line is to blame.
    let q = "Recipe,Glass of water\nPortions,1\nQ factor,$2.00\nMenu price,$1.00\nIngredient,Qty,Unit\nWater,1,cup\n";
    assert_eq!(warnings(&costed(q)), ["B19 cost-over-price"]);
}

#[test]
fn a_menu_price_that_lost_its_point_is_doubted_and_a_high_margin_is_not() {
    // 4 lb of potatoes are 2.40, 0.60 a portion: 2 % of 30.00. 16.95 without its point is 0.035 %.
    let dish = |price: &str| {
        costed(&format!("Recipe,Potato plate\nPortions,4\nMenu price,{price}\nIngredient,Qty,Unit\nPotatoes,4,lb\n"))
    };
    for (price, expected) in [("$30.00", 0), ("$30.01", 1), ("$1695", 1), ("$16.95", 0)] {
        let said = warnings(&dish(price));
        assert_eq!(said, vec!["B18 price-far-over-cost"; expected], "{price}");
    }
    let json = dish("$1695");
    let problem = json["problems"].as_array().unwrap().iter().find(|p| p["code"] == "price-far-over-cost").unwrap();
    assert_eq!(
        problem["message"],
        "“Potato plate” costs $0.60 a portion and sells for $1695.00, more than fifty times as much"
    );
    assert!(problem["help"].as_str().unwrap().starts_with("If the point is missing, type $16.95."));
    // A hundredth of 40.00 is less than it costs: the point is not what is missing.
    assert!(dish("$40").to_string().contains("Check this price, the numbers and units"), "0.40 is below 0.60");
    // With tax the price without it counts: 32.00 with 10 % is 29.09, of which 0.60 is 2.06 %. Water costs nothing.
    let card = "Recipe,Potato plate\nPortions,4\nIngredient,Qty,Unit\nPotatoes,4,lb\n\n";
    assert_eq!(
        warnings(&costed(&format!("{card}Dish,Recipe,Menu price,Tax\nPlate,Potato plate,$32.00,10%\n"))),
        [""; 0]
    );
    let water = "Recipe,Glass of water\nPortions,1\nMenu price,$2.00\nIngredient,Qty,Unit\nWater,1,cup\n";
    assert_eq!(warnings(&costed(water)), [""; 0]);
}

/// A word one slip away from a unit is asked about, wherever it stands; a measure of the kitchen's own is none.
#[test]
fn a_word_that_is_nearly_a_unit_is_asked_about() {
    let book = "Item,Pack,Price,Per\nFlour,50 lb,$25.00,\nOats,10 pund,$5.00,\nBeef,10 lb avg,$5.00,pund\n\n\
                Recipe,Rolls\nMakes,24 ecah\nPortion,2 ecah\nIngredient,Qty,Unit\nFlour,2,lb\n\n\
                Recipe,Stew\nPortions,4\nIngredient,Qty,Unit\nTurnips,2,pund\n";
    let told = |book: &str, code: &str| -> Vec<(String, String)> {
        let json = crate::support::cost_json(&[("book.csv", book)]);
        let problems = json["problems"].as_array().unwrap().iter().filter(|problem| problem["code"] == code);
        let text = |problem: &serde_json::Value, key: &str| problem[key].as_str().unwrap().to_owned();
        problems.map(|problem| (text(problem, "cell"), text(problem, "help"))).collect()
    };
    let help = "Did you mean each? If it is one, add a Measures row: Item Rolls, Measure ecah.";
    let doubted = [("B7".to_owned(), help.to_owned()), ("B8".to_owned(), help.to_owned())];
    assert_eq!(told(book, "unit-doubtful"), doubted);
    for (code, cell) in [("pack-not-understood", "B3"), ("unit-unknown", "D4"), ("unit-unknown", "C15")] {
        let all = told(book, code);
        let (_, help) = all.iter().find(|(at, _)| at == cell).unwrap_or_else(|| panic!("{all:?}"));
        assert!(help.starts_with("Did you mean pound? Write "), "{help}");
    }
    let own = format!("{book}\nItem,Measure,Weighs\nRolls,ecah,50 g\n");
    assert!(told(&own, "unit-doubtful").is_empty());
}
