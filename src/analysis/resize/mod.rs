//! Resizing of a recipe: for so many portions, so much of what it makes, so many times, or for what is on hand.
//!
//! Takes a costing and what is wanted, as typed; gives every quantity exactly and as a kitchen measures it, what either
//! costs, and how far they lie apart. The recipe in the book is not touched.

mod factor;
mod held_text;
mod lines;
mod names;
mod needs;
mod on_hand;
mod refusal;
mod sub_recipes;
mod whole;

pub(crate) use lines::held_in;
pub use lines::{LineResized, ScaledLine};
pub use on_hand::Limit;
pub use refusal::NotScaled;
pub use sub_recipes::SubRecipe;
pub use whole::Whole;

use crate::costing::Costing;
use crate::costing::rate::Amount;
use crate::kitchen::{Kitchen, NameKey, RecipeId};
use crate::measure::{InKitchenUnits, Measured, Rounding, in_kitchen_units};
use crate::number::{Decimal, Overflow, exact};
use crate::problem::names::Names;

/// The size that is wanted, as typed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Size {
    /// So many portions, or so much of what the recipe makes: `60`, `3 gal`.
    To(String),
    /// So many times the recipe: `2.5`.
    By(String),
    /// As much as is on hand allows: `4 lb Shrimp shells`, once or several times.
    From(Vec<String>),
}

/// What is wanted of a recipe.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Request {
    /// The recipe's name, or that of a dish made by it.
    pub name: String,
    /// How much of it.
    pub size: Size,
    /// Another portion than the card's or the dish's: `230 g`.
    pub portion: Option<String>,
    /// An ingredient that is to come out whole.
    pub whole: Option<String>,
    /// Whether the recipes within it are scaled as well.
    pub with_sub_recipes: bool,
}

/// A recipe of another size.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Resized {
    /// The recipe.
    pub recipe: RecipeId,
    /// The dish that was named, as an index into the kitchen's dishes.
    pub dish: Option<usize>,
    /// How many times the recipe.
    pub factor: Amount,
    /// How many portions that gives, where it is known.
    pub portions: Option<Amount>,
    /// What it makes, in every measure that the card knows; exactly and as a kitchen measures it.
    pub makes: Vec<Made>,
    /// What it costs; `None` where the recipe is not costed.
    pub cost: Option<Cost>,
    /// Its lines, beside the recipe's own.
    pub lines: Vec<LineResized>,
    /// What is on hand, in the order given.
    pub limits: Vec<Limit>,
    /// The ingredient that comes out whole.
    pub whole: Option<Whole>,
    /// The recipes within it, each before those that use it, as they are made; none unless asked for.
    pub sub_recipes: Vec<SubRecipe>,
}

/// What a batch of another size makes, in one measure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Made {
    /// Exactly, in the unit of the card.
    pub exact: Measured,
    /// As a kitchen measures it.
    pub measured: InKitchenUnits,
}

/// What a batch of another size costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cost {
    /// Ingredients alone, as so many times the recipe.
    pub food: Decimal,
    /// With the Q and spice of the card.
    pub batch: Decimal,
    /// Ingredients alone, as they are measured.
    pub food_as_measured: Decimal,
}

impl Resized {
    /// The recipe that `request` names, in the size that it asks for.
    ///
    /// # Errors
    /// [`NotScaled`] where there is no such recipe, or what is asked for cannot be told.
    pub fn of(kitchen: &Kitchen, costing: &Costing, request: &Request) -> Result<Self, NotScaled> {
        let (recipe, dish) = named(kitchen, &request.name)?;
        let asked = factor::AskedSize { kitchen, costing, recipe, dish, portion: request.portion.as_deref() };
        let (factor, mut limits) = match &request.size {
            Size::To(text) => (asked.to(text)?, Vec::new()),
            Size::By(text) => (factor::times(text)?, Vec::new()),
            Size::From(texts) => on_hand::all(kitchen, costing, recipe, texts)?,
        };
        let factor = simplest(factor);
        factor::within_reason(factor)?;
        let (factor, whole) = match &request.whole {
            Some(name) => {
                let rounding = if limits.is_empty() { Rounding::Nearest } else { Rounding::Down };
                let whole = whole::of(kitchen, costing, recipe, name, (factor, rounding))?;
                (simplest(whole.factor), Some(whole))
            }
            None => (factor, None),
        };
        factor::within_reason(factor)?;
        on_hand::use_up(&mut limits, factor)?;
        let portions = asked.portions()?.map(|portions| multiplied(portions, factor)).transpose()?;
        let binding: Vec<_> = limits.iter().filter(|limit| limit.binds).map(|limit| limit.source).collect();
        let (lines, cost) = lines::all(kitchen, costing, recipe, factor, &binding)?;
        let sub_recipes = match request.with_sub_recipes {
            true => sub_recipes::all(kitchen, costing, recipe, factor, &binding)?,
            false => Vec::new(),
        };
        let makes = makes(kitchen, recipe, factor)?;
        Ok(Resized { recipe, dish, factor, portions, makes, cost, lines, limits, whole, sub_recipes })
    }
}

/// One ratio times another.
pub(super) fn multiplied(one: Amount, other: Amount) -> Result<Amount, Overflow> {
    one.times(other.num)?.over(other.den)
}

/// A ratio as the one number that it is exactly, where a decimal holds that: long numbers above and below leave no room for
/// what is multiplied with them.
pub(super) fn simplest(ratio: Amount) -> Amount {
    let value = ratio.value().ok().map(|value| value.normalize());
    let whole = value.filter(|value| exact::mul(*value, ratio.den) == Ok(ratio.num));
    whole.map_or(ratio, Amount::of)
}

/// What a recipe makes at another size.
fn makes(kitchen: &Kitchen, id: RecipeId, factor: Amount) -> Result<Vec<Made>, Overflow> {
    let Some(recipe) = kitchen.recipe(id) else { return Ok(Vec::new()) };
    let made = |typed: &Measured| {
        let amount = multiplied(Amount::of(typed.amount), factor)?.value()?;
        let exact = Measured::new(amount, typed.unit.clone());
        let measured = in_kitchen_units(&exact, typed.amount, Rounding::Nearest, kitchen.settings.volumes)?;
        Ok(Made { exact, measured })
    };
    // What was worked out from the portion says no more than the portions do.
    let typed = recipe.makes.iter().filter(|_| !recipe.makes_computed);
    typed.map(made).collect()
}

/// The recipe of a name, or that of the dish of it.
fn named(kitchen: &Kitchen, name: &str) -> Result<(RecipeId, Option<usize>), NotScaled> {
    let wanted = NameKey::of(name);
    let recipes = || (0..).map(RecipeId::new).zip(&kitchen.recipes);
    if let Some((id, _)) = recipes().find(|(_, recipe)| recipe.key == wanted) {
        return Ok((id, None));
    }
    let mut dishes = kitchen.dishes.iter().enumerate();
    let dish = dishes.find(|(_, dish)| NameKey::of(&dish.name) == wanted);
    if let Some((index, dish)) = dish {
        let no_recipe = || NotScaled::NoRecipeOfDish { name: dish.name.clone() };
        return dish.recipe.map(|id| (id, Some(index))).ok_or_else(no_recipe);
    }
    let names: Names = (kitchen.recipes.iter().map(|recipe| recipe.name.as_str()))
        .chain(kitchen.dishes.iter().map(|dish| dish.name.as_str()))
        .collect();
    Err(NotScaled::NoRecipe { name: name.to_owned(), near: refusal::near(&names, name, "The book has") })
}
