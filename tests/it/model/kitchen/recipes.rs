//! Recipes: what they make, how many portions that is, what they are sold for, with Q and spice of their own or without.

use super::super::dice::Dice;
use super::super::fraction::Num;
use super::super::unit::{Amount, Dim, EACH, FL_OZ, G, GAL, KG, LB, LITRE, OZ, QT, Unit, number};
use super::lines::{Line, Target, course, line};
use super::measures::Measure;
use super::{Kitchen, letter};

/// A Q factor.
#[derive(Debug, Clone)]
pub enum Q {
    Percent(Num),
    Money(Num),
}

impl Q {
    pub fn text(&self) -> &str {
        match self {
            Q::Percent(num) | Q::Money(num) => &num.text,
        }
    }
}

/// A recipe.
#[derive(Debug, Clone)]
pub struct Recipe {
    pub name: String,
    /// A card, rather than rows of the two lists.
    pub card: bool,
    pub makes: Vec<Amount>,
    pub portion: Option<Amount>,
    pub portions: Option<Num>,
    pub menu_price: Option<Num>,
    pub target: Option<Num>,
    pub q: Option<Q>,
    pub spice: Option<Num>,
    pub serving_loss: Option<Num>,
    pub lines: Vec<Line>,
    /// Its rows of Measures.
    pub measures: Vec<Measure>,
}

impl Recipe {
    /// Whether its portions are stated or follow.
    pub fn has_portions(&self) -> bool {
        self.portions.is_some() || (!self.makes.is_empty() && self.portion.is_some())
    }

    /// In which dimensions it can be measured out.
    pub fn dims(&self) -> Vec<Dim> {
        let makes = self.makes.iter().map(|amount| amount.unit.dim);
        let known = self.portions.as_ref().and(self.portion.as_ref()).map(|amount| amount.unit.dim);
        let mut dims: Vec<Dim> = makes.collect();
        if dims.is_empty() {
            dims.extend(known);
        }
        dims
    }
}

/// A Q factor, or none.
pub fn q(dice: &mut Dice<'_>, percent: i64) -> Option<Q> {
    dice.chance(percent).then(|| match dice.below(3) {
        0 => Q::Percent(Num::percent(dice.of(&[50, 0, 35]))),
        1 => Q::Money(Num::dollars(dice.of(&[140, 25, 100]))),
        _ => Q::Percent(Num::percent(80)),
    })
}

/// A percentage of seasoning, or none.
pub fn spice(dice: &mut Dice<'_>, percent: i64) -> Option<Num> {
    dice.chance(percent).then(|| Num::percent(dice.of(&[20, 0, 15])))
}

/// What a unit of this dimension is called on a card.
fn made_unit(dice: &mut Dice<'_>, dim: Dim) -> Unit {
    match dim {
        Dim::Weight => dice.of(&[LB, KG]),
        Dim::Volume => dice.of(&[QT, GAL, LITRE]),
        Dim::Count => EACH,
    }
}

/// What a portion of this dimension is.
pub fn portion(dice: &mut Dice<'_>, dim: Dim) -> Amount {
    match dim {
        Dim::Weight => Amount::new(Num::whole(dice.of(&[6, 4, 180])), dice.of(&[OZ, OZ, G])),
        Dim::Volume => Amount::new(Num::whole(dice.of(&[8, 6, 12])), FL_OZ),
        Dim::Count => Amount::new(Num::whole(dice.of(&[1, 2])), EACH),
    }
}

/// The recipe of this number.
pub fn recipe(dice: &mut Dice<'_>, kitchen: &Kitchen) -> Recipe {
    let at = kitchen.recipes.len();
    let dim = if at == 0 { Dim::Weight } else { dice.of(&[Dim::Volume, Dim::Weight, Dim::Count]) };
    let unit = made_unit(dice, dim);
    let mut makes = vec![Amount::new(number(dice, 12), unit)];
    if dim == Dim::Volume && dice.chance(25) {
        makes.push(Amount::new(number(dice, 9), KG));
    }
    let mut portion = dice.chance(60).then(|| portion(dice, dim));
    let mut portions = dice.chance(40).then(|| Num::whole(dice.between(1, 40)));
    if at > 0 {
        match dice.below(10) {
            7 => makes.clear(),
            8 => {
                makes.clear();
                portion = None;
                portions = Some(Num::whole(dice.between(1, 12)));
            }
            9 => {
                makes.clear();
                portion = None;
                portions = None;
            }
            _ => {}
        }
        if makes.is_empty() && portions.is_none() {
            portion = None;
        }
    }
    let mut recipe = Recipe {
        name: format!("Dish {}", letter(at)),
        card: dice.chance(50),
        makes,
        portion,
        portions,
        menu_price: None,
        target: None,
        q: q(dice, 30),
        spice: spice(dice, 25),
        serving_loss: None,
        lines: Vec::new(),
        measures: Vec::new(),
    };
    if recipe.has_portions() {
        recipe.serving_loss = dice.chance(30).then(|| Num::percent(dice.of(&[50, 0, 100])));
        recipe.menu_price = dice.chance(40).then(|| Num::dollars(dice.between(200, 3500)));
        recipe.target = dice.chance(40).then(|| Num::percent(dice.of(&[300, 280, 350])));
    } else if matches!(recipe.q, Some(Q::Money(_))) {
        recipe.q = None;
    }
    if matches!(recipe.makes.first(), Some(made) if made.unit.dim == Dim::Volume)
        && recipe.makes.len() == 1
        && dice.chance(30)
    {
        recipe.measures = super::measures::of_own(dice);
    }
    let lines = dice.of(&[2, 1, 3, 5, 7]);
    for _ in 0..lines {
        let line = line(dice, kitchen, at);
        recipe.lines.push(line);
    }
    recipe
}

/// A set menu, which is made of dishes; none where there is none to make it of.
pub fn set_menu(dice: &mut Dice<'_>, kitchen: &Kitchen) -> Option<Recipe> {
    if kitchen.dishes.is_empty() || !dice.chance(50) {
        return None;
    }
    let courses = dice.of(&[2, 1, 3, 4]);
    Some(Recipe {
        name: "Lunch".to_owned(),
        card: dice.chance(50),
        makes: Vec::new(),
        portion: None,
        portions: Some(Num::whole(dice.between(1, 4))),
        menu_price: Some(Num::dollars(dice.between(900, 6000))),
        target: dice.chance(40).then(|| Num::percent(300)),
        q: q(dice, 30),
        spice: spice(dice, 25),
        serving_loss: None,
        lines: (0..courses).map(|_| course(dice, kitchen)).collect(),
        measures: Vec::new(),
    })
}

/// Whether a recipe is built of nothing but what is bought, so that a test may break it down.
pub fn is_base(recipe: &Recipe) -> bool {
    recipe.lines.iter().all(|line| matches!(line.target, Target::Bought(_) | Target::Water | Target::Unknown))
        && matches!(recipe.makes.first(), Some(made) if made.unit.dim == Dim::Weight)
}
