//! Packs in trade notation, and what one of the things in them costs.

use super::{comes_to, costed, d, exactly, prints, read};
use crate::support::{dec, line, recipe};

/// Muffins in 48 of 4 oz, lemons by count and weight, eggs by thirty dozen, cream by the half gallon.
///
/// K-COUNT. "Math Mid-term Review Worksheet", culinary course slides,
/// <http://slidegur.com/doc/33764/math-mid-term-review-worksheet>.
#[test]
fn count_packs() {
    let json = costed(
        r#"
Item,Pack,Price
Muffin,48/4 oz,38.45
Lemons,140 ct 35 lb,48.00
Eggs,30 dz,72.00
Cream,half gal,8.95

Item,Measure,Weighs
Muffin,each,4 oz

Recipe,One each
Portions,1
Ingredient,Qty,Unit
Muffin,1,each
Lemons,1,each
Eggs,1,each

Recipe,By measure
Portions,1
Ingredient,Qty,Unit,Basis
Muffin,4,oz,AP
Lemons,1,lb,AP
Eggs,1,dozen,
Cream,1,fl oz,

Recipe,As the recipe asks
Portions,1
Ingredient,Qty,Unit
Eggs,3,each
Cream,4,fl oz

Recipe,Four lemons
Portions,1
Ingredient,Qty,Unit
Lemons,4,each
"#,
    );
    prints(&line(&json, "One each", "Muffin")["cost"], "0.80"); // 38.45 ÷ 48 = 0.80104167
    prints(&line(&json, "By measure", "Muffin")["cost"], "0.80104167"); // 4 oz of 192
    // 48 ÷ 140 = 0.34285714. The slides divide the rounded 1.37 a pound by four and print 0.342.
    prints(&line(&json, "One each", "Lemons")["cost"], "0.34285714");
    prints(&line(&json, "By measure", "Lemons")["cost"], "1.37"); // 48 ÷ 35
    // 140 ÷ 35 = 4 to the pound: four cost what a pound costs.
    comes_to(dec(&recipe(&json, "Four lemons")["food_cost"]), "1.37142857");
    comes_to(dec(&line(&json, "By measure", "Lemons")["cost"]), "1.37142857");
    prints(&line(&json, "By measure", "Eggs")["cost"], "2.40"); // 72 ÷ 30
    exactly(&line(&json, "One each", "Eggs")["cost"], "0.2"); // 72 ÷ 360
    exactly(&line(&json, "As the recipe asks", "Eggs")["cost"], "0.6");
    prints(&line(&json, "By measure", "Cream")["cost"], "0.1398"); // 8.95 ÷ 64 = 0.13984375
    prints(&line(&json, "As the recipe asks", "Cream")["cost"], "0.56"); // 0.559375
    comes_to(dec(&line(&json, "As the recipe asks", "Cream")["cost"]) * d("16"), "8.95000000");
}

/// The cream as the slides write it, `1/2 gal`, is refused: it may be one jug of two. The eggs are costed all the same.
///
/// K-COUNT, as above.
#[test]
fn half_a_gallon_as_a_fraction_is_refused() {
    let json = read(
        "",
        r#"
Item,Pack,Price
Eggs,30 dz,72.00
Cream,1/2 gal,8.95

Recipe,Custard
Portions,1
Ingredient,Qty,Unit
Cream,4,fl oz
Eggs,3,each

Recipe,Three eggs
Portions,1
Ingredient,Qty,Unit
Eggs,3,each
"#,
    );
    let refused = json["problems"]
        .as_array()
        .into_iter()
        .flatten()
        .any(|problem| problem["code"] == "pack-is-a-fraction" && problem["severity"] == "error");
    assert!(refused, "{}", json["problems"]);
    assert!(recipe(&json, "Custard")["food_cost"].is_null());
    exactly(&recipe(&json, "Three eggs")["food_cost"], "0.6");
}

/// Case notation: each case is priced at as many dollars as it holds quarts, pounds, pieces or gallons, so that one of
/// them costs a dollar.
///
/// K-NOTATION. Daniel Traster, Foundations of Cost Control (Pearson), chapter 5 slides,
/// <https://slideplayer.com/slide/1500579/>.
#[test]
fn case_notation() {
    let json = costed(
        r#"
Item,Pack,Price
Cream quarts,12/1Qt,12.00
Onion sack,40#,40.00
Bacon packs,8/5#,40.00
Apple case,80 count,80.00
Oil jugs,4/1Gal,4.00
Tomato cans,6/#10,6.00

Recipe,One of each
Portions,1
Ingredient,Qty,Unit,Basis
Cream quarts,1,qt,
Onion sack,1,lb,AP
Bacon packs,1,lb,AP
Apple case,1,each,
Oil jugs,1,gal,
Tomato cans,1,#10 can,
"#,
    );
    for item in ["Cream quarts", "Onion sack", "Bacon packs", "Apple case", "Oil jugs", "Tomato cans"] {
        prints(&line(&json, "One of each", item)["cost"], "1.00000000");
    }
}

/// An item bought in number-10 cans and nothing else is counted as cans: a bare `can` is one of them.
///
/// K-NOTATION, as above; the rule that a case of cans counts as cans is ours.
#[test]
fn a_bare_can_is_one_of_the_case() {
    let json = costed(
        r#"
Item,Pack,Price
Tomato cans,6/#10,6.00

Recipe,One can
Portions,1
Ingredient,Qty,Unit
Tomato cans,1,can
"#,
    );
    prints(&line(&json, "One can", "Tomato cans")["cost"], "1.00000000"); // 6.00 ÷ 6
}

/// Meat is listed by a range of weights and billed by the pound: the range says nothing about what was paid. The 2.00
/// a pound is ours.
///
/// K-WEIGHT-RANGE. Institutional Meat Purchase Specifications, series 700, USDA Agricultural Marketing Service,
/// <https://docslib.org/doc/5784889/variety-meats-and-edible-byby-productsproducts-series-700-interim>.
#[test]
fn weight_ranges_are_nominal() {
    let recipes = "Recipe,Liver\nPortions,1\nIngredient,Qty,Unit,Basis\nBeef liver,3,lb,AP";
    let by_the_pound = costed(&format!("Item,Pack,Price,Per\nBeef liver,13-16 lb avg,2.00,lb\n\n{recipes}"));
    prints(&recipe(&by_the_pound, "Liver")["food_cost"], "6.00000000");

    let by_the_pack = read("", &format!("Item,Pack,Price,Per\nBeef liver,13-16 lb avg,2.00,\n\n{recipes}"));
    let refused = json_codes(&by_the_pack).any(|code| code == "pack-nominal");
    assert!(refused, "{}", by_the_pack["problems"]);
    assert!(recipe(&by_the_pack, "Liver")["food_cost"].is_null());
}

/// The codes of a book's problems.
fn json_codes(json: &serde_json::Value) -> impl Iterator<Item = &str> {
    json["problems"].as_array().into_iter().flatten().filter_map(|problem| problem["code"].as_str())
}
