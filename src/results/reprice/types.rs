//! Records of new prices, each field with what a reader of the schema is told.

use schemars::JsonSchema;
use serde::Serialize;

use super::super::problem::ProblemResult;
use super::super::value::{Day, Format};
use crate::kitchen::yield_test::Role;
use crate::results::changes::Credit;
use crate::results::value::Figure;
use crate::results::word::Word;

/// What new prices do: `parings reprice --format json`. Money and quantities are in full; what is not known is null.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "parings reprice")]
pub(crate) struct RepriceResults<'a> {
    /// The version of the program.
    pub(super) parings: &'a str,
    /// The version of this format.
    pub(super) format: Format,
    /// The day for which both sides are costed.
    pub(super) as_of: Day,
    /// The currency of all money, such as USD; empty where the book shows none.
    pub(super) currency: &'a str,
    /// What a dish's change is worth over: the plan, or one portion where there is no plan.
    pub(super) worth_over: &'static str,
    /// What the prices are weighed with: the plan, or one batch of each recipe.
    pub(super) basket: &'static str,
    /// How much dearer the basket is; null where it could not be worked out.
    pub(super) index: Option<Index<'a>>,
    /// The bought items whose price in use moved, by worth, the largest rise first.
    pub(super) items: Vec<Item<'a>>,
    /// The dishes whose portion cost moved, by worth, the largest rise first.
    pub(super) dishes: Vec<Dish<'a>>,
    /// The dishes that cost what they did.
    pub(super) unmoved: Vec<&'a str>,
    /// The dishes without a cost on one side or both.
    pub(super) not_costed: Vec<NotCosted<'a>>,
    /// The parts of yield tests of which any part moved.
    pub(super) parts: Vec<Part<'a>>,
    /// The recipes that others use and whose batch moved.
    pub(super) recipes: Vec<Recipe<'a>>,
    /// Where another supplier's price, or another pack, is cheaper now, by worth over the basket.
    pub(super) switches: Vec<SwitchTo<'a>>,
    /// The lists, and whose they are.
    pub(super) lists: Vec<List<'a>>,
    /// The prices that were taken.
    pub(super) taken: Vec<TakenRow<'a>>,
    /// The rows that were held back: not in the figures.
    pub(super) held: Vec<HeldRow<'a>>,
    /// The rows that are about nothing in the book.
    pub(super) unknown: Vec<UnknownRow<'a>>,
    /// What the book buys of these suppliers and their lists do not have.
    pub(super) missing: Vec<MissingItem<'a>>,
    /// Every problem of the lists, then those of the book with the new prices.
    pub(super) problems: Vec<ProblemResult<'a>>,
}

/// A Laspeyres index: the same quantities at both prices.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Index<'a> {
    /// The cost now over the cost before; null for a basket that cost nothing.
    pub(super) laspeyres: Option<Figure>,
    /// What the basket cost.
    pub(super) before: Figure,
    /// What it costs now.
    pub(super) now: Figure,
    /// How many items are in it.
    pub(super) items: usize,
    /// The items left out on both sides.
    pub(super) left_out: Vec<LeftOut<'a>>,
}

/// An item left out of the index.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct LeftOut<'a> {
    /// The item.
    pub(super) item: &'a str,
    /// Why.
    pub(super) reason: &'static str,
}

/// A bought item whose price moved.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MovedItem")]
pub(super) struct Item<'a> {
    /// The item.
    pub(super) name: &'a str,
    /// The unit of its costs: g, ml, each, or the name of a kitchen's own measure.
    pub(super) base_unit: String,
    /// What one unit cost as purchased.
    pub(super) before: Figure,
    /// What it costs now; null where the two prices are by unlike measures.
    pub(super) now: Option<Figure>,
    /// By how much it moved.
    pub(super) change_percent: Option<Figure>,
    /// How much of it the basket has.
    pub(super) quantity: Option<Figure>,
    /// What the move is worth over the basket.
    pub(super) worth: Option<Figure>,
}

/// A dish whose portion cost moved. The changes of its drivers, together and other add up to its change exactly.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MovedDish")]
pub(crate) struct Dish<'a> {
    /// The dish.
    pub(crate) name: &'a str,
    /// Before.
    pub(crate) before: Side,
    /// With the new prices.
    pub(crate) now: Side,
    /// By how much a portion's cost moved.
    pub(crate) change: Figure,
    /// Portions planned; null without a plan.
    pub(crate) portions: Option<Figure>,
    /// What the change is worth.
    pub(crate) worth: Option<Figure>,
    /// Its target food-cost percentage.
    pub(crate) target_percent: Option<Figure>,
    /// Whether the new prices put it over its target.
    pub(crate) newly_over: bool,
    /// The items that drove it, the largest first; null where they could not be worked out.
    pub(crate) drivers: Option<Vec<Driver<'a>>>,
    /// What many small ones come to, where they are too many to be followed one by one.
    pub(crate) together: Option<Figure>,
    /// What belongs to no one item.
    pub(crate) other: Option<Figure>,
}

/// A dish on one side.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "DishSide")]
pub(crate) struct Side {
    /// What a portion costs.
    pub(crate) portion_cost: Figure,
    /// Portion cost over the price without tax.
    pub(crate) food_cost_percent: Option<Figure>,
    /// Price without tax less portion cost.
    pub(crate) margin: Option<Figure>,
    /// By how many points it is over its target; 0 when it is not.
    pub(crate) over_points: Option<Figure>,
    /// The menu price that meets the target.
    pub(crate) price_at_target: Option<Figure>,
}

/// What one item moved in a portion.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct Driver<'a> {
    /// The item.
    pub(crate) item: &'a str,
    /// By how much it moved the portion cost.
    pub(crate) change: Figure,
    /// The credit that moves the dish the other way than the item's price: a dearer item that a by-product saves buying makes a larger credit, and the mains cheaper; null where the dish moves as the price does.
    pub(crate) credit: Option<Word<Credit>>,
}

/// A dish without a cost.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct NotCosted<'a> {
    /// The dish.
    pub(super) name: &'a str,
    /// When: before, now, or before and now.
    pub(super) when: &'static str,
}

/// A part of a yield test of which any part moved.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MovedPart")]
pub(super) struct Part<'a> {
    /// The test.
    pub(super) test: &'a str,
    /// The part.
    pub(super) name: &'a str,
    /// What it is.
    pub(super) role: Word<Role>,
    /// What it bore of the test's cost: a main's share, a by-product's credit.
    pub(super) cost_before: Figure,
    /// What it bears now.
    pub(super) cost_now: Figure,
    /// What a gram of it cost.
    pub(super) cost_per_g_before: Option<Figure>,
    /// What a gram of it costs now.
    pub(super) cost_per_g_now: Option<Figure>,
}

/// A recipe that others use.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "MovedRecipe")]
pub(super) struct Recipe<'a> {
    /// The recipe.
    pub(super) name: &'a str,
    /// What a batch cost.
    pub(super) batch_before: Figure,
    /// What it costs now.
    pub(super) batch_now: Figure,
}

/// A cheaper price than the one in use.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Switch")]
pub(super) struct SwitchTo<'a> {
    /// The item.
    pub(super) item: &'a str,
    /// The supplier whose price is in use; empty when not named.
    pub(super) from: &'a str,
    /// The supplier of the cheaper one; the same for another pack.
    pub(super) to: &'a str,
    /// Whether the one in use is marked Preferred.
    pub(super) preferred: bool,
    /// The unit of the two costs.
    pub(super) base_unit: String,
    /// What one edible unit costs at the price in use.
    pub(super) ep_from: Figure,
    /// What it would cost.
    pub(super) ep_to: Figure,
    /// What the switch would save over the basket.
    pub(super) worth: Option<Figure>,
}

/// A list.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct List<'a> {
    /// The file as it was given on the command line.
    pub(super) file: &'a str,
    /// Whose it is as a whole; empty when nothing says so.
    pub(super) supplier: &'a str,
}

/// A price that was taken.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct TakenRow<'a> {
    /// The item, as the book spells it.
    pub(super) item: &'a str,
    /// The supplier.
    pub(super) supplier: &'a str,
    /// The supplier's code.
    pub(super) code: &'a str,
    /// Since when it counts.
    pub(super) date: Option<Day>,
    /// By how much the price per unit moved.
    pub(super) change_percent: Option<Figure>,
    /// What happened besides, such as a smaller pack.
    pub(super) happened: Option<String>,
    /// Where it stands.
    pub(super) cell: String,
}

/// A row that was held back.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct HeldRow<'a> {
    /// The item.
    pub(super) item: &'a str,
    /// Why.
    pub(super) why: &'static str,
    /// Whether naming the item takes the price all the same.
    pub(super) may_be_accepted: bool,
    /// By how much the price per unit would have moved.
    pub(super) change_percent: Option<Figure>,
    /// Where it stands.
    pub(super) cell: String,
}

/// A row about nothing in the book.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct UnknownRow<'a> {
    /// The item, as the list spells it.
    pub(super) item: &'a str,
    /// The supplier's code.
    pub(super) code: &'a str,
    /// The nearest name, as a question.
    pub(super) question: Option<&'a str>,
    /// What to do about it.
    pub(super) what_to_do: &'a str,
    /// Where it stands.
    pub(super) cell: String,
}

/// An item that its supplier's list does not have.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct MissingItem<'a> {
    /// The item.
    pub(super) item: &'a str,
    /// The nearest name in the lists, as a question.
    pub(super) question: Option<&'a str>,
    /// What to do about it.
    pub(super) what_to_do: &'a str,
}
