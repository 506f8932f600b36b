//! Records of new prices, each field with what a reader of the schema is told.

use schemars::JsonSchema;
use serde::Serialize;

use super::super::problem::ProblemResult;
use super::super::value::{Day, FormatVersion};
use crate::kitchen::yield_test::Role;
use crate::results::changes::Credit;
use crate::results::value::Figure;
use crate::results::word::Word;

/// What new prices do: `parings reprice --format json`. Money and quantities are in full; what is not known is null.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "parings reprice")]
pub struct RepriceResults<'a> {
    /// The version of the program.
    pub parings: &'a str,
    /// The version of this format.
    pub format: FormatVersion,
    /// The day for which both sides are costed.
    pub as_of: Day,
    /// The currency of all money, such as USD; empty where the book shows none.
    pub currency: &'a str,
    /// What a dish's change is worth over: the plan, or one portion where there is no plan.
    pub worth_over: &'static str,
    /// What the prices are weighed with: the plan, or one batch of each recipe.
    pub basket: &'static str,
    /// How much dearer the basket is; null where it could not be worked out.
    pub index: Option<IndexResult<'a>>,
    /// The way from what the basket cost to what it costs, step by step; null where it is not known, or nothing in it moved.
    pub way: Option<BasketWayResult<'a>>,
    /// The bought items whose price in use moved, by worth, the largest rise first.
    pub items: Vec<MovedItem<'a>>,
    /// The dishes whose portion cost moved, by worth, the largest rise first.
    pub dishes: Vec<MovedDish<'a>>,
    /// The dishes that cost what they did.
    pub unmoved: Vec<&'a str>,
    /// The dishes without a cost on one side or both.
    pub not_costed: Vec<NotCosted<'a>>,
    /// The parts of yield tests of which any part moved.
    pub parts: Vec<MovedPart<'a>>,
    /// The recipes that others use and whose batch moved.
    pub recipes: Vec<MovedRecipe<'a>>,
    /// Where another supplier's price, or another pack, is cheaper now, by worth over the basket.
    pub switches: Vec<SwitchTo<'a>>,
    /// The lists, and whose they are.
    pub lists: Vec<List<'a>>,
    /// The prices that were taken.
    pub taken: Vec<TakenRow<'a>>,
    /// The rows that were held back: not in the figures.
    pub held: Vec<HeldRow<'a>>,
    /// The rows that are about nothing in the book.
    pub unknown: Vec<UnknownRow<'a>>,
    /// What the book buys of these suppliers and their lists do not have.
    pub missing: Vec<MissingItem<'a>>,
    /// Every problem of the lists, then those of the book with the new prices.
    pub problems: Vec<ProblemResult<'a>>,
}

/// A Laspeyres index: the same quantities at both prices.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Index")]
pub struct IndexResult<'a> {
    /// The cost now over the cost before; null for a basket that cost nothing.
    pub laspeyres: Option<Figure>,
    /// What the basket cost.
    pub before: Figure,
    /// What it costs now.
    pub now: Figure,
    /// How many items are in it.
    pub items: usize,
    /// The items left out on both sides.
    pub left_out: Vec<LeftOutItem<'a>>,
}

/// The way of the basket from the old prices to the new: the steps add up to the difference.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "BasketWay")]
pub struct BasketWayResult<'a> {
    /// What the basket cost.
    pub before: Figure,
    /// What makes it dearer, the largest first, then what makes it cheaper, then what is told together.
    pub steps: Vec<BasketStepResult<'a>>,
    /// What it costs now.
    pub now: Figure,
}

/// One step of the way.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "BasketStep")]
pub struct BasketStepResult<'a> {
    /// The item that makes it; null of several together, and of what no item explains.
    pub item: Option<&'a str>,
    /// How many items make it; 0 of what no item explains.
    pub items: usize,
    /// What it adds, below zero what it takes off.
    pub change: Figure,
    /// What the basket comes to with it.
    pub comes_to: Figure,
}

/// An item left out of the index.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "LeftOut")]
pub struct LeftOutItem<'a> {
    /// The item.
    pub item: &'a str,
    /// Why.
    pub reason: &'static str,
}

/// A bought item whose price moved.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MovedItem")]
pub struct MovedItem<'a> {
    /// The item.
    pub name: &'a str,
    /// The unit of its costs: g, ml, each, or the name of a kitchen's own measure.
    pub base_unit: String,
    /// What one unit cost as purchased.
    pub before: Figure,
    /// What it costs now; null where the two prices are by unlike measures.
    pub now: Option<Figure>,
    /// By how much it moved.
    pub change_percent: Option<Figure>,
    /// How much of it the basket has.
    pub quantity: Option<Figure>,
    /// What the move is worth over the basket.
    pub worth: Option<Figure>,
}

/// A dish whose portion cost moved. The changes of its drivers, together and other add up to its change exactly.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MovedDish")]
pub struct MovedDish<'a> {
    /// The dish.
    pub name: &'a str,
    /// Before.
    pub before: DishSide,
    /// With the new prices.
    pub now: DishSide,
    /// By how much a portion's cost moved.
    pub change: Figure,
    /// Portions planned; null without a plan.
    pub portions: Option<Figure>,
    /// What the change is worth.
    pub worth: Option<Figure>,
    /// Its target food-cost percentage.
    pub target_percent: Option<Figure>,
    /// Whether the new prices put it over its target.
    pub newly_over: bool,
    /// The items that drove it, the largest first; null where they could not be worked out.
    pub drivers: Option<Vec<DriverResult<'a>>>,
    /// What many small ones come to, where they are too many to be followed one by one.
    pub together: Option<Figure>,
    /// What belongs to no one item.
    pub other: Option<Figure>,
}

/// A dish on one side.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "DishSide")]
pub struct DishSide {
    /// What a portion costs.
    pub portion_cost: Figure,
    /// Portion cost over the price without tax.
    pub food_cost_percent: Option<Figure>,
    /// Price without tax less portion cost.
    pub margin: Option<Figure>,
    /// By how many points it is over its target; 0 when it is not.
    pub over_points: Option<Figure>,
    /// The menu price that meets the target.
    pub price_at_target: Option<Figure>,
}

/// What one item moved in a portion.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Driver")]
pub struct DriverResult<'a> {
    /// The item.
    pub item: &'a str,
    /// By how much it moved the portion cost.
    pub change: Figure,
    /// The credit that moves the dish the other way than the item's price: a dearer item that a by-product saves buying makes a larger credit, and the mains cheaper; null where the dish moves as the price does.
    pub credit: Option<Word<Credit>>,
}

/// A dish without a cost.
#[derive(Debug, Serialize, JsonSchema)]
pub struct NotCosted<'a> {
    /// The dish.
    pub name: &'a str,
    /// When: before, now, or before and now.
    pub when: &'static str,
}

/// A part of a yield test of which any part moved.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MovedPart")]
pub struct MovedPart<'a> {
    /// The test.
    pub test: &'a str,
    /// The part.
    pub name: &'a str,
    /// What it is.
    pub role: Word<Role>,
    /// What it bore of the test's cost: a main's share, a by-product's credit.
    pub cost_before: Figure,
    /// What it bears now.
    pub cost_now: Figure,
    /// What a gram of it cost.
    pub cost_per_g_before: Option<Figure>,
    /// What a gram of it costs now.
    pub cost_per_g_now: Option<Figure>,
}

/// A recipe that others use.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MovedRecipe")]
pub struct MovedRecipe<'a> {
    /// The recipe.
    pub name: &'a str,
    /// What a batch cost.
    pub batch_before: Figure,
    /// What it costs now.
    pub batch_now: Figure,
}

/// A cheaper price than the one in use.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Switch")]
pub struct SwitchTo<'a> {
    /// The item.
    pub item: &'a str,
    /// The supplier whose price is in use; empty when not named.
    pub from: &'a str,
    /// The supplier of the cheaper one; the same for another pack.
    pub to: &'a str,
    /// Whether the one in use is marked Preferred.
    pub preferred: bool,
    /// The unit of the two costs.
    pub base_unit: String,
    /// What one edible unit costs at the price in use.
    pub ep_from: Figure,
    /// What it would cost.
    pub ep_to: Figure,
    /// What the switch would save over the basket.
    pub worth: Option<Figure>,
}

/// A list.
#[derive(Debug, Serialize, JsonSchema)]
pub struct List<'a> {
    /// The file as it was given on the command line.
    pub file: &'a str,
    /// Whose it is as a whole; empty when nothing says so.
    pub supplier: &'a str,
}

/// A price that was taken.
#[derive(Debug, Serialize, JsonSchema)]
pub struct TakenRow<'a> {
    /// The item, as the book spells it.
    pub item: &'a str,
    /// The supplier.
    pub supplier: &'a str,
    /// The supplier's code.
    pub code: &'a str,
    /// Since when it counts.
    pub date: Option<Day>,
    /// By how much the price per unit moved.
    pub change_percent: Option<Figure>,
    /// What happened besides, such as a smaller pack.
    pub happened: Option<String>,
    /// Where it stands.
    pub cell: String,
}

/// A row that was held back.
#[derive(Debug, Serialize, JsonSchema)]
pub struct HeldRow<'a> {
    /// The item.
    pub item: &'a str,
    /// Why.
    pub why: &'static str,
    /// Whether naming the item takes the price all the same.
    pub may_be_accepted: bool,
    /// By how much the price per unit would have moved.
    pub change_percent: Option<Figure>,
    /// Where it stands.
    pub cell: String,
}

/// A row about nothing in the book.
#[derive(Debug, Serialize, JsonSchema)]
pub struct UnknownRow<'a> {
    /// The item, as the list spells it.
    pub item: &'a str,
    /// The supplier's code.
    pub code: &'a str,
    /// The nearest name, as a question.
    pub question: Option<&'a str>,
    /// What to do about it.
    pub what_to_do: &'a str,
    /// Where it stands.
    pub cell: String,
}

/// An item that its supplier's list does not have.
#[derive(Debug, Serialize, JsonSchema)]
pub struct MissingItem<'a> {
    /// The item.
    pub item: &'a str,
    /// The nearest name in the lists, as a question.
    pub question: Option<&'a str>,
    /// What to do about it.
    pub what_to_do: &'a str,
}
