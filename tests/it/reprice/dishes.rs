//! Dishes before and after, by hand: a soup with a stock of the shells of a tested prawn.

use parings::analysis::Lack;
use parings::analysis::reprice::{LeftOut, NotPriced, UncostedDish};
use rust_decimal::Decimal;

use super::{Repriced, close, repriced};
use crate::analysis::d;

const PRICES: &str = "\
Prawns,10 kg,100.00,,2026-10-01
Carrots,1 kg,2.00,,2026-10-01
Butter,1 kg,8.00,,2026-10-01
Rice,1 kg,3.00,,2026-10-01
";

const OTHERS: &str = "\
Setting,Value
Currency,USD
Costing date,2026-11-20
Target food cost,30%

Test,Role,Part,Weight,Charged as,Value
Peeling prawns,as purchased,Prawns,10 kg,,
Peeling prawns,main,Peeled prawns,6 kg,,
Peeling prawns,by-product,Prawn shells,3 kg,fraction,10%
Peeling prawns,waste,Veins,1 kg,,

Recipe,Stock
Makes,4 kg
Q factor,0%
Spice factor,0%
Ingredient,Qty,Unit
Prawn shells,2,kg
Carrots,500,g

Recipe,Soup
Portions,10
Menu price,5.00
Q factor,10%
Spice factor,5%
Ingredient,Qty,Unit
Stock,2,kg
Peeled prawns,600,g
Butter,100,g

Recipe,Rice bowl
Portions,10
Menu price,4.00
Q factor,$0.35
Ingredient,Qty,Unit
Rice,1,kg
Prawns,300,g
";

const MORE: &str = "\
Prawns,10 kg,120.00,,2026-11-15
Carrots,1 kg,3.00,,2026-11-15
";

fn book(more: &str, plan: &str) -> Repriced {
    repriced(PRICES, more, &format!("{OTHERS}\n{plan}")).without_errors()
}

#[test]
fn a_soup_is_driven_by_what_went_into_its_stock_too() {
    let found = book(MORE, "");
    // 10 kg of prawns at 100.00: shells 3 kg × 10 % of 10.00 = 3.00, peeled 97.00 for 6 kg. At 120.00: 3.60 and 116.40.
    // Stock of 4 kg: shells 2.00 + carrots 1.00 = 3.00; then 2.40 + 1.50 = 3.90.
    // Soup: stock 1.50, prawns 9.70, butter 0.80 = 12.00; then 1.95 + 11.64 + 0.80 = 14.39.
    // A portion: 1.20 × 1.10 × 1.05 = 1.386; then 1.439 × 1.155 = 1.662045.
    let soup = found.dish("Soup");
    assert_eq!((soup.was.portion_cost, soup.now.portion_cost), (d("1.386"), d("1.662045")));
    assert_eq!(soup.change, d("0.276045"));
    // 1.386 ÷ 5 = 27.72 %, 1.662045 ÷ 5 = 33.2409 %: over 30 % by 3.2409 points. The margin is what is left of 5.00.
    assert_eq!((soup.was.food_cost, soup.now.food_cost), (Some(d("0.2772")), Some(d("0.332409"))));
    assert_eq!((soup.was.over, soup.now.over), (Some(Decimal::ZERO), Some(d("0.032409"))));
    assert!(soup.is_newly_over() && !soup.is_no_longer_over());
    assert_eq!((soup.was.margin, soup.now.margin), (Some(d("3.614")), Some(d("3.337955"))));
    // 1.386 ÷ 0.30 = 4.62; 1.662045 ÷ 0.30 = 5.54015.
    assert_eq!((soup.was.price_at_target, soup.now.price_at_target), (Some(d("4.62")), Some(d("5.54015"))));
    // Prawns: half of the stock's shells, 0.20, and a tenth of 19.40, 1.94: 2.14 ÷ 10 × 1.155. Carrots: 0.25 ÷ 10 × 1.155.
    found.driven("Soup", &[("Prawns", "0.24717"), ("Carrots", "0.028875")]);
}

#[test]
fn money_q_does_not_move_and_a_named_item_goes_through_its_test() {
    let found = book(MORE, "");
    // Rice 3.00 and 300 g of peeled prawns, a twentieth of 97.00 = 4.85: 0.785 + 0.35 = 1.135. Then 3.00 + 5.82 = 8.82:
    // 0.882 + 0.35. Prawns alone moved: 0.097.
    let bowl = found.dish("Rice bowl");
    assert_eq!((bowl.was.portion_cost, bowl.now.portion_cost), (d("1.135"), d("1.232")));
    found.driven("Rice bowl", &[("Prawns", "0.097")]);
    // Of 4.00: 28.375 % and 30.8 %, which is over 30 %. On the way back it is so no longer.
    assert!(bowl.is_newly_over());
    let back = parings::analysis::Effects::of(&found.new.kitchen, &found.now, &found.old.kitchen, &found.was);
    assert!(back.dishes.iter().all(|effect| effect.is_no_longer_over() && !effect.is_newly_over()));
}

#[test]
fn dishes_stand_by_what_their_change_is_worth() {
    // For a portion the soup's 0.276 is more than the bowl's 0.097; over 10 and 100 portions it is 2.76 against 9.70.
    assert_eq!(book(MORE, "").moved(), ["Soup", "Rice bowl"]);
    let planned = book(MORE, "Dish,Portions\nSoup,10\nRice bowl,60\nRice bowl,40\n");
    assert_eq!(planned.moved(), ["Rice bowl", "Soup"]);
    assert_eq!(planned.dish("Rice bowl").portions, Some(d("100")));
    assert_eq!(planned.dish("Rice bowl").worth, Ok(d("9.7")));
    assert_eq!(planned.dish("Soup").worth, Ok(d("2.76045")));
    // What the plan has none of is worth nothing to it; a fall stands below.
    let planned = book("Prawns,10 kg,90.00,,2026-11-15\n", "Dish,Portions\nSoup,10\n");
    assert_eq!(planned.moved(), ["Rice bowl", "Soup"]);
    assert_eq!(planned.dish("Rice bowl").worth, Ok(Decimal::ZERO));
}

#[test]
fn a_dish_that_has_no_cost_any_more_is_told_apart() {
    // The new row of the same day and pack contradicts: there is no price of carrots, stock and soup.
    let found = repriced(PRICES, "Carrots,1 kg,3.00,,2026-10-01\nRice,1 kg,4.00,,2026-11-15\n", OTHERS);
    assert_eq!(found.effects.uncosted, [UncostedDish { dish: 0, when: NotPriced::Now }]);
    assert_eq!(found.moved(), ["Rice bowl"]);
    // And the other way about.
    let back = parings::analysis::Effects::of(&found.new.kitchen, &found.now, &found.old.kitchen, &found.was);
    assert_eq!(back.uncosted, [UncostedDish { dish: 0, when: NotPriced::Before }]);
}

#[test]
fn nothing_new_moves_nothing() {
    let found = book("", "");
    assert!(found.effects.dishes.is_empty() && found.effects.tests.is_empty() && found.effects.recipes.is_empty());
    assert!(found.effects.movers.is_empty() && found.effects.switches.is_empty());
    assert_eq!(found.effects.unmoved, [0, 1]);
    assert_eq!(found.effects.index.as_ref().unwrap().index, Some(Decimal::ONE));
}

#[test]
fn recipes_on_the_way_are_told_with_their_units() {
    let found = book(MORE, "");
    // Only the stock is used by another: 3.00 and 3.90 for 4,000 g.
    let [stock] = found.effects.recipes.as_slice() else { panic!("one recipe is used by another") };
    assert_eq!(found.new.kitchen.recipe(stock.recipe).unwrap().name, "Stock");
    assert_eq!((stock.batch.was, stock.batch.now), (d("3"), d("3.9")));
    let unit = stock.unit.as_ref().unwrap().1;
    assert_eq!((unit.was, unit.now), (d("0.00075"), d("0.000975")));
    assert_eq!((unit.by(), unit.fraction()), (Ok(d("0.000225")), Ok(d("0.3"))));
}

#[test]
fn two_portions_of_one_recipe_move_in_proportion() {
    let others = "\
Recipe,Stew
Makes,2 kg
Portion,200 g
Q factor,$0.35
Spice factor,10%
Ingredient,Qty,Unit
Rice,1,kg
Carrots,500,g

Dish,Recipe,Portion,Menu price
Stew small,Stew,200 g,3.00
Stew large,Stew,300 g,4.00
";
    let found = repriced(PRICES, "Rice,1 kg,4.00,,2026-11-15\nCarrots,1 kg,1.00,,2026-11-15\n", others);
    // Ten portions: rice 3.00 → 4.00, carrots 1.00 → 0.50. Spice is a tenth of food and Q, so a tenth of what food moves:
    // 0.10 × 1.1 and −0.05 × 1.1; in a portion and a half half as much again. Q, 0.35 a plate, stays.
    found.driven("Stew small", &[("Rice", "0.11"), ("Carrots", "-0.055")]);
    found.driven("Stew large", &[("Rice", "0.165"), ("Carrots", "-0.0825")]);
    close(found.dish("Stew large").change, d("0.0825"), "Stew large");
}

#[test]
fn what_is_too_large_is_left_out_and_said() {
    // 10²⁷ portions of the soup, 60 g of peeled prawns out of 100 g in each, take more grams than a decimal holds: 10²⁹. The
    // dishes themselves are told.
    let portions = format!("1{}", "0".repeat(27));
    let found = repriced(PRICES, MORE, &format!("{OTHERS}\nDish,Portions\nSoup,{portions}\n"));
    let soup = found.dish("Soup");
    assert!(soup.drivers.is_ok());
    assert_eq!(found.effects.basket, Err(Lack::Outside));
    assert_eq!(found.effects.index, Err(Lack::Outside));
    assert!(found.effects.movers.iter().all(|mover| mover.worth == Err(LeftOut::Outside) && mover.quantity.is_none()));
}
