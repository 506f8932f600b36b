//! A credit moved from nothing to all.

use parings::analysis::sweep;
use parings::analysis::sweep::{DishAt, Side, Step, Sweep, Swept, fractions};
use parings::{Costing, Reading};
use rust_decimal::Decimal;

use super::{comes_to, d, errors, part, per_lb, read, rounded, trial};

/// Fish for ten plates, and a soup from the stock of its bones; invented. Ten pounds at 8.00.
fn fish(bones: &str, roe: &str) -> String {
    format!(
        "Item,Pack,Price
Fish,10 lb,$80.00
Rice,10 lb,$10.00

Test,Role,Part,Weight,Charged as,Value
Filleting,as purchased,Fish,10 lb,,
Filleting,main,Fillet,5 lb,,
Filleting,by-product,Bones,4 lb,{bones}
Filleting,by-product,Roe,1 lb,{roe}

Recipe,Fillet plate
Portions,10
Menu price,$20.00
Ingredient,Qty,Unit
Fillet,5,lb

Recipe,Fish stock
Makes,8 qt
Ingredient,Qty,Unit
Bones,4,lb

Recipe,Fish soup
Portions,10
Menu price,$4.00
Ingredient,Qty,Unit
Fish stock,4,qt
Rice,5,lb

Recipe,Soup and fillet
Portions,5
Ingredient,Qty,Unit
Fish stock,4,qt
Fillet,1,lb

Recipe,Roe toast
Portions,2
Menu price,$9.00
Ingredient,Qty,Unit
Roe,1,lb

Dish,Recipe
Soup and fillet,
"
    )
}

fn swept(reading: &Reading, costing: &Costing, step: &str) -> Sweep {
    sweep::of(&mut trial(reading, costing), part(reading, "Bones"), &fractions(d(step))).unwrap()
}

#[track_caller]
fn ok(step: &Step) -> &Swept {
    step.outcome.as_ref().unwrap_or_else(|problem| panic!("{} at {}", problem.message(), step.fraction))
}

#[test]
fn the_total_stands_still_while_the_cost_moves() {
    let (reading, costing) = read(&fish("fraction,30%", "free,"));
    assert_eq!(errors(&reading, &costing), [""; 0]);
    let sweep = swept(&reading, &costing, "0.25");
    let name = |index: usize| reading.kitchen.dishes[index].name.as_str();
    let sides: Vec<(&str, Side)> = sweep.dishes.iter().map(|dish| (name(dish.dish), dish.side)).collect();
    // The toast is made of roe, which is free whatever the bones are charged.
    assert!(!sides.iter().any(|(name, _)| *name == "Roe toast"), "{sides:?}");
    for (dish, side) in [("Fillet plate", Side::Maker), ("Fish soup", Side::User), ("Soup and fillet", Side::Both)] {
        assert!(sides.contains(&(dish, side)), "{sides:?}");
    }
    assert_eq!(sides.len(), 3);
    // Four pounds of bones at 0, 2, 4, 6 and 8 a pound: 0 to 32; the fillets bear what is left of 80.
    let expected = [("0", "80"), ("8", "72"), ("16", "64"), ("24", "56"), ("32", "48")];
    assert_eq!(sweep.steps.len(), expected.len());
    for (step, (bones, fillet)) in sweep.steps.iter().zip(expected) {
        let swept = ok(step);
        comes_to(swept.parts[0].cost, fillet);
        comes_to(swept.parts[1].cost, bones);
        assert_eq!(swept.total, d("80"));
        comes_to(per_lb(swept.parts[0].rate) * d("5"), fillet);
        comes_to(per_lb(swept.parts[1].rate) * d("4"), bones);
        let at = |wanted: &str| -> DishAt {
            let nth = sweep.dishes.iter().position(|dish| name(dish.dish) == wanted).unwrap();
            swept.dishes[nth].unwrap()
        };
        // A tenth of the fillets; half of the stock and 5.00 of rice for ten; half of the stock and a fifth of the fillets
        // for five, without a price.
        let (bones, fillet) = (d(bones), d(fillet));
        let close = |found: Decimal, expected: Decimal| assert_eq!(rounded(found, 20), rounded(expected, 20));
        close(at("Fillet plate").portion_cost, fillet / d("10"));
        close(at("Fillet plate").food_cost.unwrap(), fillet / d("200"));
        close(at("Fish soup").portion_cost, (bones / d("2") + d("5")) / d("10"));
        close(at("Soup and fillet").food, (bones / d("2") + fillet / d("5")) / d("5"));
        assert_eq!(at("Soup and fillet").food_cost, None);
        assert!(swept.stopped.is_empty());
    }
}

#[test]
fn a_step_at_which_credits_exceed_the_cost_says_so_and_the_others_stand() {
    // Roe takes 60 of the 80: bones may take 20, five eighths of their 32.
    let (reading, costing) = read(&fish("fraction,30%", "price,60.00"));
    let sweep = swept(&reading, &costing, "0.25");
    for step in &sweep.steps[..3] {
        comes_to(ok(step).total, "80");
    }
    for (step, credits) in sweep.steps[3..].iter().zip(["84.00", "92.00"]) {
        let problem = step.outcome.as_ref().unwrap_err();
        assert_eq!(problem.code.name(), "credit-over-cost");
        assert!(problem.message().contains(&format!("{credits} of credits against a cost of 80.00")));
    }
    // The same when the book itself charges too much: what it would be at less is what one wants to see.
    let (reading, costing) = read(&fish("fraction,100%", "price,60.00"));
    assert_eq!(errors(&reading, &costing), ["credit-over-cost"]);
    let other = swept(&reading, &costing, "0.25");
    assert_eq!(
        other.steps.iter().map(|step| step.outcome.is_ok()).collect::<Vec<_>>(),
        [true, true, true, false, false]
    );
    assert_eq!(ok(&other.steps[1]).parts, ok(&sweep.steps[1]).parts);
    assert_eq!(other.dishes.len(), 3);
    assert!(ok(&other.steps[1]).dishes.iter().all(Option::is_some));
}

#[test]
fn a_later_test_that_is_stopped_at_a_step_is_told_there() {
    // The fillets are portioned; tails are charged 10.00 a pound, 50.00 in all, which is more than 48.00.
    let book = fish("fraction,30%", "free,").replace(
        "\nRecipe,Fillet plate",
        "Portioning,as purchased,Fillet,5 lb,,\nPortioning,main,Middles,1 oz,,\nPortioning,by-product,Tails,4 lb 15 oz,price,$10.00\n\nRecipe,Fillet plate",
    );
    let book = book.replace("Fillet,5,lb", "Middles,1,oz");
    let (reading, costing) = read(&book);
    assert_eq!(errors(&reading, &costing), [""; 0]);
    let sweep = swept(&reading, &costing, "0.5");
    // 4.9375 × 10 = 49.375: fine against 80 and 64, not against 48.
    let stopped: Vec<usize> = sweep.steps.iter().map(|step| ok(step).stopped.len()).collect();
    assert_eq!(stopped, [0, 0, 1]);
    let plate = sweep.dishes.iter().position(|dish| reading.kitchen.dishes[dish.dish].name == "Fillet plate").unwrap();
    let plates: Vec<bool> = sweep.steps.iter().map(|step| ok(step).dishes[plate].is_some()).collect();
    assert_eq!(plates, [true, true, false]);
}

#[test]
fn only_by_products_are_swept() {
    let (reading, costing) = read(&fish("fraction,30%", "free,"));
    let fractions = fractions(sweep::TENTH);
    assert_eq!(sweep::of(&mut trial(&reading, &costing), part(&reading, "Fillet"), &fractions), None);
}

#[test]
fn steps_end_at_all() {
    let texts = |step: &str| fractions(d(step)).iter().map(|one| one.normalize().to_string()).collect::<Vec<_>>();
    assert_eq!(texts("0.1"), ["0", "0.1", "0.2", "0.3", "0.4", "0.5", "0.6", "0.7", "0.8", "0.9", "1"]);
    assert_eq!(texts("0.4"), ["0", "0.4", "0.8", "1"]);
    assert_eq!(texts("2"), ["0", "1"]);
    assert_eq!(fractions(d("0")).len(), 1001);
}

/// Prawns as in `worth`: tails (60 − 12 x) ÷ 5 a pound, shells 6 x, where x is the fraction. A pound of either in four portions:
/// (12 − 2.40 x + 6 x) ÷ 4 = 3 + 0.90 x. Of crumbs that come free of the shells a pound is in a salad.
const MENU_SOUP: &str = "Item,Pack,Price,Allergens
Prawns,10 lb,$60.00,crustacean
Shellfish base,1 lb,$16.00,\"crustacean, soy\"

Test,Role,Part,Weight,Charged as,Value,Instead of
Peeling,as purchased,Prawns,10 lb,,,
Peeling,main,Tails,5 lb,,,
Peeling,by-product,Shells,2 lb,fraction,10%,2 oz Shellfish base per lb
Frying,as purchased,Shells,2 lb,,,
Frying,main,Shell oil,1 lb,,,
Frying,by-product,Crumbs,1 lb,free,,

Recipe,Menu soup
Portions,4
Menu price,$10.00
Ingredient,Qty,Unit
Tails,1,lb
Shells,1,lb

Recipe,Crumb salad
Portions,4
Menu price,$6.00
Ingredient,Qty,Unit
Crumbs,1,lb
";

#[test]
fn a_dish_of_both_stands_on_the_terminal_as_in_json() {
    let (reading, costing) = read(MENU_SOUP);
    assert_eq!(errors(&reading, &costing), [""; 0]);
    let trim = parings::analysis::Trim::of(&reading.kitchen, &costing, &[part(&reading, "Shells")], d("0.5"));
    let json = parings::output::json::trim(&reading.kitchen, &costing, &trim, &[]);
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    let text = parings::output::text::trim(&reading.kitchen, &costing, &trim, Default::default());
    let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
    for said in [
        "Made of both: Menu soup.",
        "Of both: Charged, % bears bears all a portion %",
        // It bears 2 × 6 x of 60.00.
        "0.0 0.00 60.00 60.00 3.00 30.0 50.0 6.00 54.00 60.00 3.45 34.5 100.0 12.00 48.00 60.00 3.90 39.0",
        "Menu soup is made of both: as the charge grows, it pays more for its trim than it gains by its mains.",
        // By the shells, not by the test that gave them; what only stands in for them is told as such.
        "Crumbs: Keeps does not say for how many days your house keeps it. It carries crustacean from Shells, of Prawns and \
         soy from Shellfish base, bought for want of Shells, into “Crumb salad”.",
        "Shells: Keeps does not say for how many days your house keeps it. It carries crustacean from Prawns, into “Menu soup” \
         and “Crumb salad”.",
    ] {
        assert!(words.contains(said), "no “{said}” in {words}");
    }
    for (step, [cost, percent]) in [(0, ["3", "30"]), (1, ["3.45", "34.5"]), (2, ["3.9", "39"])] {
        let dish = &json["sweeps"][0]["steps"][step]["dishes"][0];
        assert_eq!((&dish["name"], &dish["side"]), (&"Menu soup".into(), &"both".into()));
        assert_eq!((&dish["portion_cost"], &dish["food_cost_percent"]), (&cost.into(), &percent.into()));
    }
}

#[test]
fn of_many_dishes_one_of_each_side_is_shown_first() {
    let dish = |dish, side| sweep::SweptDish { dish, side };
    let makers = (0..7).map(|at| dish(at, Side::Maker));
    let dishes = makers.chain([dish(7, Side::Both), dish(8, Side::User), dish(9, Side::User)]).collect();
    let (reading, _) = read(MENU_SOUP);
    let sweep = Sweep { part: part(&reading, "Shells"), dishes, steps: Vec::new() };
    // One maker, one user, one of both; with room for six three more makers. Makers stand first, those of both last.
    assert_eq!(sweep.shown(3), [0, 8, 7]);
    assert_eq!(sweep.shown(6), [0, 1, 2, 3, 8, 7]);
    assert_eq!(sweep.shown(20), [0, 1, 2, 3, 4, 5, 6, 8, 9, 7]);
}
