//! Dish costs as sold: its share of the batch, Q and spice, against its menu price and target.

use super::rate::{Amount, Rate};
use super::{Costing, RecipeCost, made};
use crate::costing::conversion::{equivalences_of_item, ounces};
use crate::costing::menu_price;
use crate::costing::q_and_spice::{QAndSpice, QAndSpiceMoney, portions_bearing_q, portions_wanted};
use crate::kitchen::Kitchen;
use crate::kitchen::menu::Dish;
use crate::kitchen::recipe::Recipe;
use crate::measure::Measured;
use crate::number::rounding::half_up;
use crate::number::{Decimal, Overflow, exact};
use crate::problem::{Code, Fault, Want};
use crate::schema::Column;

use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::convert::{NoConversion, Wanted, convert};

/// What a dish costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DishCost {
    /// Its share of the batch, as a ratio.
    pub share: Amount,
    /// What that share is taken by.
    pub served: ServedAs,
    /// Ingredients.
    pub food: Decimal,
    /// Accompaniments and incidentals, the card's or the settings'.
    pub q: Decimal,
    /// Seasoning, the card's or the settings'.
    pub spice: Decimal,
    /// All three.
    pub portion_cost: Decimal,
    /// The menu price without tax.
    pub ex_tax: Option<Decimal>,
    /// Portion cost over the price without tax, as a fraction.
    pub food_cost: Option<Decimal>,
    /// Price without tax less portion cost.
    pub margin: Option<Decimal>,
    /// The menu price that meets the target.
    pub price_at_target: Option<Decimal>,
    /// By how much the food cost is over target, as a fraction; zero when it is not.
    pub over: Option<Decimal>,
}

/// What is served of a batch as one dish.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Plate {
    /// Its share of the batch, as a ratio.
    pub share: Amount,
    /// What that share is taken by.
    pub served: ServedAs,
}

impl Plate {
    /// Whether it is one of the `portions` that a batch gives by its card; `None` where that does not fit.
    pub fn is_portion_of_card(&self, portions: Amount) -> Option<bool> {
        let of_card = portions.times(self.share.num).and_then(|many| many.over(self.share.den));
        Some(half_up(of_card.and_then(Amount::value).ok()?, SAME) == Decimal::ONE)
    }
}

/// So many decimals in which measures that are the same may differ: 1/3 is not kept whole.
const SAME: u32 = 9;

impl DishCost {
    /// What is served of the batch.
    pub fn plate(&self) -> Plate {
        Plate { share: self.share, served: self.served }
    }
}

/// What is served of a batch, as its share is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ServedAs {
    /// So many of the card's portions, by that name: one where the menu says nothing else.
    Portions(Decimal),
    /// So many batches, whatever the serving loss.
    Batches(Decimal),
    /// Another portion than the card's, of which it is so much, as a ratio.
    OfPortion(Amount),
    /// A portion measured against what the batch makes net of serving loss: the card has none.
    OfMakes,
}

/// Costs one dish. `None` when a reported problem stops it.
pub(super) fn cost(kitchen: &Kitchen, costing: &mut Costing, dish: &Dish) -> Option<DishCost> {
    let id = dish.recipe?;
    if dish.broken {
        return None;
    }
    let recipe = kitchen.recipe(id)?;
    let row = dish.row.and_then(|row| kitchen.entries.menu.get(row));
    let portion_place = || row.map_or_else(|| dish.place.clone(), |row| row.input.place(Column::Portion));
    // Without a cost of the recipe it is told all the same whether the portion is known.
    let (of_batch, food) = match costing.recipe(id) {
        Some(made) => (made.portions, Some(made.food)),
        None => (made::portions_of_card(kitchen, recipe).ok()?, None),
    };
    let (portions, warning) = Portions::of(kitchen, of_batch, dish, recipe);
    costing.problems.extend(warning.map(|warning| warning.at(portion_place())));
    let cost = share(kitchen, recipe, &portions)
        .and_then(|plate| food.map(|food| compute(kitchen, dish, recipe, food, (plate, of_batch))).transpose());
    match cost {
        Ok(None) => None,
        Ok(Some(cost)) => {
            if dish.target.is_none() {
                costing.problems.push(no_target(dish));
            }
            Some(cost)
        }
        Err(stop) => {
            costing.problems.extend(stop.at(portion_place()));
            None
        }
    }
}

fn no_target(dish: &Dish) -> crate::problem::Problem {
    Fault::new(
        Code::TargetMissing,
        format!("“{}” has no target food-cost %", dish.name),
        "Add a Target, or the setting Target food cost.",
    )
    .at(dish.place.clone())
}

fn compute(
    kitchen: &Kitchen,
    dish: &Dish,
    recipe: &Recipe,
    batch_food: Decimal,
    (Plate { share, served }, of_batch): (Plate, Option<Amount>),
) -> Result<DishCost, NoConversion> {
    let food = Rate { money: batch_food, per: share.den }.cost_of(Amount::of(share.num))?;
    let portions_of_q = || portions_bearing_q(served, of_batch)?.ok_or_else(|| portions_wanted(recipe));
    let QAndSpiceMoney { q, spice, total: portion_cost } =
        QAndSpice::of_dish(kitchen, recipe).on(food, portions_of_q)?;
    let figures = Figures::of(kitchen, dish, portion_cost)?;
    Ok(DishCost {
        share,
        served,
        food,
        q,
        spice,
        portion_cost,
        ex_tax: figures.ex_tax,
        food_cost: figures.food_cost,
        margin: figures.margin,
        price_at_target: figures.price_at_target,
        over: figures.over,
    })
}

/// What is served, as it was meant.
struct Portions {
    /// The dish's own portion, where it is not the card's.
    own: Option<Measured>,
    /// The card's.
    card: Option<Measured>,
    /// How many of the card's a batch gives.
    of_batch: Option<Amount>,
}

impl Portions {
    /// Those of a dish and its recipe, of which a batch gives `of_batch`, with the warning that the dish's own may need.
    fn of(kitchen: &Kitchen, of_batch: Option<Amount>, dish: &Dish, recipe: &Recipe) -> (Self, Option<Fault>) {
        let card = ounces::of_card(kitchen, recipe).map(|(portion, _)| portion);
        let own = ounces::of_dish(kitchen, dish, recipe, card.as_ref());
        let (own, warning) = own.map_or((None, None), |(own, warning)| (Some(own), warning));
        (Portions { own, card, of_batch }, warning)
    }
}

/// What is served as `dish` of a batch of `recipe`, which costs `made`. What is to be said of that is said of the dish.
///
/// # Errors
/// A [`NoConversion`] where it is no known share of the batch.
pub(super) fn plate(kitchen: &Kitchen, made: &RecipeCost, dish: &Dish, recipe: &Recipe) -> Result<Plate, NoConversion> {
    share(kitchen, recipe, &Portions::of(kitchen, made.portions, dish, recipe).0)
}

struct Figures {
    ex_tax: Option<Decimal>,
    food_cost: Option<Decimal>,
    margin: Option<Decimal>,
    price_at_target: Option<Decimal>,
    over: Option<Decimal>,
}

impl Figures {
    fn of(kitchen: &Kitchen, dish: &Dish, portion_cost: Decimal) -> Result<Self, Overflow> {
        let ex_tax = dish.menu_price.map(|menu_price| menu_price::without_tax(menu_price, dish.tax)).transpose()?;
        let food_cost = ex_tax.map(|ex_tax| exact::div(portion_cost, ex_tax)).transpose()?;
        let margin = ex_tax.map(|ex_tax| exact::sub(ex_tax, portion_cost)).transpose()?;
        let rounding = kitchen.settings.rounding;
        let price_at_target =
            dish.target.map(|target| menu_price::at_target(portion_cost, target, dish.tax, rounding)).transpose()?;
        let over = match (food_cost, dish.target) {
            (Some(food_cost), Some(target)) => Some(menu_price::over(food_cost, target)?),
            _ => None,
        };
        Ok(Figures { ex_tax, food_cost, margin, price_at_target, over })
    }
}

/// The dish's share of the batch: by portions or batches where the menu counts in those; in another portion than the
/// card's, in proportion to it; without a card's portion, of what the batch makes net of serving loss.
fn share(kitchen: &Kitchen, recipe: &Recipe, portions: &Portions) -> Result<Plate, NoConversion> {
    let of_portions = |many: Decimal| {
        let all = portions.of_batch.ok_or_else(|| no_portions(recipe))?;
        let share = Amount { num: exact::mul(many, all.den)?, den: all.num };
        Ok(Plate { share, served: ServedAs::Portions(many) })
    };
    let Some(own) = &portions.own else { return of_portions(Decimal::ONE) };
    if own.unit.is_portion() {
        return of_portions(own.amount);
    }
    if own.unit.is_batch() {
        return Ok(Plate { share: Amount::of(own.amount), served: ServedAs::Batches(own.amount) });
    }
    match (&portions.card, portions.of_batch) {
        (Some(card), Some(portions)) => {
            let ratio = ratio(kitchen, recipe, own, card)?;
            let share = Amount { num: exact::mul(ratio.num, portions.den)?, den: exact::mul(ratio.den, portions.num)? };
            Ok(Plate { share, served: ServedAs::OfPortion(ratio) })
        }
        _ if !recipe.makes.is_empty() => {
            let of_batch = made::portions_of(kitchen, recipe, own)?;
            let share = Amount { num: of_batch.den, den: of_batch.num };
            Ok(Plate { share, served: ServedAs::OfMakes })
        }
        _ => Err(no_measure(recipe, own)),
    }
}

fn no_portions(recipe: &Recipe) -> NoConversion {
    NoConversion::Fault(Fault::new(
        Code::PortionUnclear,
        format!("the card of “{}” does not say how many portions it makes", recipe.name),
        "Add Portions, or Makes and Portion, to the card; or sell all of it, with 1 batch under Portion on the menu.",
    ).wanting(Want::Batch { recipe: recipe.name.clone() }))
}

fn no_measure(recipe: &Recipe, own: &Measured) -> NoConversion {
    NoConversion::Fault(
        Fault::new(
            Code::PortionUnclear,
            format!("the card of “{}” does not say how much it makes, so {own} is no known share of it", recipe.name),
            "Add Makes, or Portion and Portions, to the card; or count in portions, such as 1/2 portion.",
        )
        .wanting(Want::Batch { recipe: recipe.name.clone() }),
    )
}

/// How many of `card` one of `own` is.
fn ratio(kitchen: &Kitchen, recipe: &Recipe, own: &Measured, card: &Measured) -> Result<Amount, NoConversion> {
    let volumes = kitchen.settings.volumes;
    let (kind, factor) = BaseUnitKind::of(&card.unit, volumes);
    let wanted = Wanted::as_purchased(own, &recipe.name);
    let joins = equivalences_of_item::of_recipe(kitchen, recipe, (&own.unit, &kind), None);
    let converted = convert(wanted, &kind, &joins, volumes)?.amount;
    Ok(converted.over(exact::mul(card.amount, factor)?)?)
}
