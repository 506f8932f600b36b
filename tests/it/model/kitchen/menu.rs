//! The menu: recipes sold by their own portion, by another, by portions and by the batch; and the house's settings.

use super::super::dice::Dice;
use super::super::fraction::Num;
use super::super::unit::Amount;
use super::recipes::{Q, portion, q, spice};
use super::{Kitchen, letter};

/// What is served of a recipe.
#[derive(Debug, Clone)]
pub enum Served {
    /// The card's portion.
    Own,
    Amount(Amount),
    Portions(Num),
    Batches(Num),
}

impl Served {
    pub fn text(&self) -> String {
        match self {
            Served::Own => String::new(),
            Served::Amount(amount) => amount.text(),
            Served::Portions(num) if num.text == "1/2" => "1/2 portion".into(),
            Served::Portions(num) => format!("{} portions", num.text),
            Served::Batches(num) => format!("{} batch", num.text),
        }
    }
}

/// A row of the menu.
#[derive(Debug, Clone)]
pub struct Dish {
    pub name: String,
    pub recipe: usize,
    pub served: Served,
    pub menu_price: Option<Num>,
    pub target: Option<Num>,
    pub tax: Option<Num>,
}

/// To which prices the price at target is rounded up.
#[derive(Debug, Clone)]
pub enum Rounding {
    None,
    Step(Num),
    Ending(Num),
}

/// The settings.
#[derive(Debug, Clone)]
pub struct Settings {
    pub target: Option<Num>,
    pub q: Option<Q>,
    pub spice: Option<Num>,
    pub spice_covers_q: Option<bool>,
    /// Within menu prices.
    pub menu_tax: Option<Num>,
    /// Within what is paid.
    pub price_tax: Option<Num>,
    pub rounding: Rounding,
}

/// The settings of a house.
pub fn settings(dice: &mut Dice<'_>) -> Settings {
    Settings {
        target: dice.chance(60).then(|| Num::percent(dice.of(&[300, 285, 330]))),
        q: q(dice, 35),
        spice: spice(dice, 35),
        spice_covers_q: dice.chance(50).then(|| dice.chance(50)),
        menu_tax: dice.chance(35).then(|| Num::percent(dice.of(&[80, 1000, 0, 75]))).filter(|tax| tax.text != "100%"),
        price_tax: (dice.chance(15)).then(|| Num::percent(dice.of(&[190, 55]))),
        rounding: match dice.below(4) {
            1 => Rounding::Step(Num::hundredths(dice.of(&[25, 5, 50, 100]))),
            2 => Rounding::Ending(Num { text: ".95".into(), ..Num::hundredths(95) }),
            _ => Rounding::None,
        },
    }
}

/// A row of the menu; none where no recipe can be sold.
pub fn dish(dice: &mut Dice<'_>, kitchen: &Kitchen) -> Option<Dish> {
    let at = kitchen.dishes.len();
    let recipe = dice.below(kitchen.recipes.len());
    let sold = &kitchen.recipes[recipe];
    let mut ways: Vec<Served> = Vec::new();
    if sold.has_portions() {
        ways.push(Served::Own);
        ways.push(Served::Portions(dice.of(&[Num::mixed(0, 1, 2), Num::whole(4), Num::mixed(2, 1, 2)])));
    }
    let money_q = |q: &Option<Q>| matches!(q, Some(Q::Money(_)));
    let needs_portions = money_q(&sold.q) || (sold.q.is_none() && money_q(&kitchen.settings.q));
    if sold.has_portions() || !needs_portions {
        ways.push(Served::Batches(Num::whole(1)));
    }
    for dim in sold.dims() {
        ways.push(Served::Amount(portion(dice, dim)));
    }
    if ways.is_empty() {
        return None;
    }
    let served = dice.of(&ways);
    Some(Dish {
        name: format!("Plate {}", letter(at)),
        recipe,
        served,
        menu_price: dice.chance(60).then(|| Num::dollars(dice.between(250, 4000))),
        target: dice.chance(30).then(|| Num::percent(dice.of(&[310, 250]))),
        tax: dice.chance(20).then(|| Num::percent(dice.of(&[55, 0, 200]))),
    })
}
