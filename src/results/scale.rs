//! Recipes in another size: every quantity exactly and as a kitchen measures it, what either costs, and what lies between.

mod words;

use std::borrow::Cow;

use schemars::JsonSchema;
use serde::Serialize;

use super::problem::ProblemResult;
use super::value::{Day, Figure, FormatVersion, TypedQuantity, VERSION, percent};
use super::word::{Word, base};
use crate::analysis::resize::{Cost, Limit, LineResized, Made, Resized, ScaledLine, Whole};
use crate::costing::Costing;
use crate::costing::rate::Amount;
use crate::kitchen::recipe::{Line, LineEntry};
use crate::kitchen::{InputRow, Kitchen, RecipeId};
use crate::measure::{Base, InKitchenUnits, Unit};
use crate::number::{Decimal, exact, half_up};
use crate::problem::Problem;
use crate::schema::Column;
pub(crate) use words::{NOT_KNOWN, NOT_KNOWN_HEAD, NOT_SCALED};
pub(crate) use words::{more_of_all, more_of_line};

/// A recipe in another size: `parings scale --format json`. Lists are in book order; what is not known is null; quantities as
/// measured are those that a kitchen can measure.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "parings scale")]
pub struct ScaleResults<'a> {
    /// The version of the program.
    pub parings: &'a str,
    /// The version of this format.
    pub format: FormatVersion,
    /// The day whose prices count.
    pub as_of: Day,
    /// The currency of all money, such as USD; empty where the book shows none.
    pub currency: &'a str,
    /// The dish that was asked for; null where the recipe was.
    pub dish: Option<&'a str>,
    /// The recipe in the size asked for.
    pub recipe: ScaledRecipe<'a>,
    /// What is on hand, in the order given; empty where the size was.
    pub on_hand: Vec<OnHandResult<'a>>,
    /// The ingredient that comes out whole; null where none was asked for.
    pub whole: Option<WholeCount<'a>>,
    /// The recipes within it, each before those that use it, as they are made; empty unless asked for.
    pub sub_recipes: Vec<ScaledRecipe<'a>>,
    /// What no scaling knows: common practice.
    pub not_known: Vec<&'a str>,
    /// Every problem of the book.
    pub problems: Vec<ProblemResult<'a>>,
}

/// A recipe in another size.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "ScaledRecipe")]
pub struct ScaledRecipe<'a> {
    /// Its name, as first spelled in the book.
    pub name: &'a str,
    /// How many times the recipe of the book.
    pub factor: Option<Figure>,
    /// How many portions that gives, net of serving loss, to 20 decimals.
    pub portions: Option<Figure>,
    /// What it makes, in every measure that its card states.
    pub makes: Vec<ScaledAmount>,
    /// What its lines cost, exactly so many times the recipe; null where it is not costed.
    pub food_cost: Option<Figure>,
    /// What its lines cost as they are measured.
    pub food_cost_as_measured: Option<Figure>,
    /// By how much measuring makes it dearer; below zero, cheaper.
    pub food_cost_difference: Option<Figure>,
    /// That difference in % of the food cost.
    pub food_cost_difference_percent: Option<Figure>,
    /// The food cost with the Q and spice of its own card, exactly so many times the recipe.
    pub batch_cost: Option<Figure>,
    /// The food cost of one portion.
    pub portion_food_cost: Option<Figure>,
    /// How many grams more are measured than asked for, over the lines whose weight is known.
    pub more_g: Option<Figure>,
    /// How many lines with a quantity have no known weight.
    pub weight_not_known: usize,
    /// How many lines have no quantity, such as those to taste, and stay as they are.
    pub as_typed: usize,
    /// Its lines, in book order; last those whose ingredient could not be read.
    pub lines: Vec<ScaledLineResult<'a>>,
    /// The recipes within it that are scaled as well, in the order in which they are made; for reports.
    #[serde(skip)]
    #[schemars(skip)]
    pub(crate) made_first: Vec<&'a str>,
}

/// A quantity in another size.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "ScaledAmount")]
pub struct ScaledAmount {
    /// Exactly, in the unit of the card.
    pub exact: TypedQuantity,
    /// As a kitchen measures it: one measure, or two that add up.
    pub measured: Vec<TypedQuantity>,
    /// The same in words.
    pub in_words: String,
}

/// A line in another size.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "ScaledLine")]
pub struct ScaledLineResult<'a> {
    /// The ingredient as spelled on the line; what is seen there where it could not be read.
    pub item: Cow<'a, str>,
    /// How it is prepared; empty where nothing is said.
    pub prep: &'a str,
    /// The exact quantity, in the unit typed; null where the line has none, as one to taste. One in % of the
    /// flour is in the unit of its weight.
    pub exact: TypedQuantity,
    /// As a kitchen measures it: one measure, or two that add up; empty where the line has no quantity.
    pub measured: Vec<TypedQuantity>,
    /// The same in words; what was typed where the line has no quantity, “not scaled” where it could not be read.
    pub in_words: String,
    /// Whether there is less of it than a kitchen measures.
    pub too_little: bool,
    /// Whether it is counted, and whole ones are more than a tenth more or less than asked for.
    pub far_off: bool,
    /// How many times the recipe's own quantity is measured.
    pub times: Option<Figure>,
    /// How much more is measured than asked for, in base units; below zero, less.
    pub more: Option<Figure>,
    /// The base unit.
    pub more_unit: Option<Word<Base>>,
    /// That in grams, where the weight of the ingredient is known.
    pub more_g: Option<Figure>,
    /// What the exact quantity costs; null where the line is not costed.
    pub cost: Option<Figure>,
    /// What the quantity measured costs.
    pub cost_as_measured: Option<Figure>,
    /// By how much measuring makes it dearer; below zero, cheaper.
    pub cost_difference: Option<Figure>,
    /// Whether it is weighed or poured in metric measures; for reports.
    #[serde(skip)]
    #[schemars(skip)]
    pub(crate) is_metric: bool,
}

/// Something on hand.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "OnHand")]
pub struct OnHandResult<'a> {
    /// What it is called in the recipe.
    pub item: &'a str,
    /// How much there is.
    pub on_hand: TypedQuantity,
    /// For how many times the recipe it is enough.
    pub enough_for: Option<Figure>,
    /// Whether it says how much can be made.
    pub binds: bool,
    /// How much of it is left.
    pub left: TypedQuantity,
    /// What is left as a kitchen measures it; empty where nothing is.
    pub left_in_words: String,
}

/// An ingredient that comes out whole.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "WholeCount")]
pub struct WholeCount<'a> {
    /// What it is called in the recipe.
    pub item: &'a str,
    /// How many the size asked for would take.
    pub asked: TypedQuantity,
    /// How many it takes now.
    pub now: TypedQuantity,
    /// How many times the recipe the size asked for was.
    pub factor_asked: Option<Figure>,
}

/// A recipe in another size.
pub fn scale<'a>(
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    resized: &'a Resized,
    problems: &'a [Problem],
) -> ScaleResults<'a> {
    let Resized { recipe, factor, portions, makes, cost, lines, .. } = resized;
    let one = ScaleParts { factor: *factor, portions: *portions, makes, cost: cost.as_ref(), lines };
    let sub_recipes: Vec<ScaledRecipe<'a>> = resized
        .sub_recipes
        .iter()
        .map(|sub| {
            let parts = ScaleParts {
                factor: sub.factor,
                portions: sub.portions,
                makes: &sub.makes,
                cost: sub.cost.as_ref(),
                lines: &sub.lines,
            };
            of_recipe(kitchen, sub.recipe, &parts)
        })
        .collect();
    let made_first = sub_recipes.iter().map(|sub| sub.name).collect();
    ScaleResults {
        parings: VERSION,
        format: FormatVersion,
        as_of: Day(costing.scenario.date),
        currency: &kitchen.settings.currency,
        dish: resized.dish.and_then(|index| kitchen.dishes.get(index)).map(|dish| dish.name.as_str()),
        recipe: ScaledRecipe { made_first, ..of_recipe(kitchen, *recipe, &one) },
        on_hand: resized.limits.iter().map(|limit| on_hand(kitchen, costing, limit)).collect(),
        whole: resized.whole.as_ref().map(whole),
        sub_recipes,
        not_known: NOT_KNOWN.to_vec(),
        problems: problems.iter().map(ProblemResult::of).collect(),
    }
}

impl ScaledRecipe<'_> {
    /// What is made before it, in order: `Base, then Batter`; `None` where nothing is.
    pub(crate) fn made_first(&self) -> Option<String> {
        (!self.made_first.is_empty()).then(|| self.made_first.join(", then "))
    }
}

/// What a scaled recipe is told from.
struct ScaleParts<'a> {
    factor: Amount,
    portions: Option<Amount>,
    makes: &'a [Made],
    cost: Option<&'a Cost>,
    lines: &'a [LineResized],
}

fn of_recipe<'a>(kitchen: &'a Kitchen, id: RecipeId, parts: &ScaleParts<'_>) -> ScaledRecipe<'a> {
    let recipe = kitchen.recipe(id);
    let entry = recipe.and_then(|recipe| kitchen.entries.recipes.get(recipe.entry));
    let typed = entry.into_iter().flat_map(|entry| &entry.lines);
    let of_kitchen = typed.zip(recipe.into_iter().flat_map(|recipe| &recipe.lines));
    let lines =
        of_kitchen.zip(parts.lines).map(|((entry, line), scaled)| of_line(kitchen, entry, line, scaled, parts.factor));
    // What has no name that could be read is in the pot all the same.
    let unread = entry.into_iter().flat_map(|entry| &entry.unread).map(of_unread);
    let lines: Vec<ScaledLineResult<'a>> = lines.chain(unread).collect();
    let value = |amount: Amount| amount.value().ok();
    let food = parts.cost.map(|cost| cost.food);
    let measured = parts.cost.map(|cost| cost.food_as_measured);
    let difference = difference(food, measured);
    let has_quantity = |line: &&ScaledLineResult<'_>| line.times.is_some();
    let more = exact::sum(lines.iter().filter_map(|line| line.more_g).map(|more| more.0)).ok();
    let per_portion = |food: Decimal| {
        let portions = parts.portions.filter(|portions| portions.num > Decimal::ZERO)?;
        Amount::of(food).times(portions.den).ok()?.over(portions.num).ok()?.value().ok()
    };
    ScaledRecipe {
        name: recipe.map(|recipe| recipe.name.as_str()).unwrap_or_default(),
        factor: value(parts.factor).map(Figure),
        portions: parts.portions.and_then(value).map(settled).map(Figure),
        makes: parts.makes.iter().map(|made| amount_of(&made.exact, &made.measured)).collect(),
        food_cost: food.map(Figure),
        food_cost_as_measured: measured.map(Figure),
        food_cost_difference: difference.map(Figure),
        food_cost_difference_percent: difference.zip(food).and_then(|(more, food)| share(more, food)),
        batch_cost: parts.cost.map(|cost| Figure(cost.batch)),
        portion_food_cost: food.and_then(per_portion).map(Figure),
        more_g: more.map(Figure),
        weight_not_known: lines.iter().filter(has_quantity).filter(|line| line.more_g.is_none()).count(),
        as_typed: lines.iter().filter(|line| !has_quantity(line) && line.in_words != words::NOT_SCALED).count(),
        lines,
        made_first: Vec::new(),
    }
}

/// A number without the last digits of its divisions: sixty portions are sixty.
fn settled(number: Decimal) -> Decimal {
    const PLACES: u32 = 20;
    half_up(number, PLACES)
}

fn of_line<'a>(
    kitchen: &Kitchen,
    entry: &'a LineEntry,
    line: &Line,
    scaled: &LineResized,
    factor: Amount,
) -> ScaledLineResult<'a> {
    let mut result = ScaledLineResult {
        item: Cow::Borrowed(&entry.item),
        prep: &entry.prep,
        is_metric: words::is_metric(kitchen, line.unit()),
        ..blank()
    };
    match scaled {
        LineResized::AsTyped => {
            let typed = [Column::Qty, Column::Unit].map(|column| entry.input.text(column));
            result.in_words = typed.iter().filter(|text| !text.is_empty()).cloned().collect::<Vec<_>>().join(" ");
        }
        LineResized::NotRead => result.in_words = words::NOT_SCALED.to_owned(),
        LineResized::Scaled(scaled) => {
            let ScaledLine { exact, measured, by, kind, more, more_grams, cost, cost_as_measured } = scaled.as_ref();
            result.exact = TypedQuantity::of(exact);
            // What a package holds may be told instead of it.
            let told = measured.parts.first().map(|part| &part.measured.unit);
            if line.unit().is_some_and(Unit::is_count_like) {
                result.is_metric = words::is_metric(kitchen, told);
            }
            result.measured = typed_parts(measured);
            result.in_words = measured.words();
            result.too_little = measured.is_too_little;
            result.far_off = !measured.is_too_little && words::is_far_off(kind, *by, factor);
            result.times = Some(Figure(by.value().unwrap_or_default()));
            result.more = Some(Figure(*more));
            result.more_unit = Some(base(kind));
            result.more_g = more_grams.map(Figure);
            result.cost = cost.map(Figure);
            result.cost_as_measured = cost_as_measured.map(Figure);
            result.cost_difference = difference(*cost, *cost_as_measured).map(Figure);
        }
    }
    result
}

/// A line without an ingredient that could be read: by what is seen there.
fn of_unread<'a>(row: &InputRow) -> ScaledLineResult<'a> {
    let seen = row.text(Column::Item);
    let item = if seen.is_empty() { words::NO_INGREDIENT.to_owned() } else { seen };
    ScaledLineResult { item: Cow::Owned(item), in_words: words::NOT_SCALED.to_owned(), ..blank() }
}

fn blank<'a>() -> ScaledLineResult<'a> {
    ScaledLineResult {
        item: Cow::Borrowed(""),
        prep: "",
        exact: TypedQuantity::default(),
        measured: Vec::new(),
        in_words: String::new(),
        too_little: false,
        far_off: false,
        times: None,
        more: None,
        more_unit: None,
        more_g: None,
        cost: None,
        cost_as_measured: None,
        cost_difference: None,
        is_metric: false,
    }
}

fn difference(exact: Option<Decimal>, measured: Option<Decimal>) -> Option<Decimal> {
    exact::sub(measured?, exact?).ok()
}

/// What `part` is of `all`, in %.
fn share(part: Decimal, all: Decimal) -> Option<Figure> {
    exact::div(part, all).ok().and_then(percent)
}

fn typed_parts(measured: &InKitchenUnits) -> Vec<TypedQuantity> {
    measured.parts.iter().map(|part| TypedQuantity::of(&part.measured)).collect()
}

fn amount_of(exact: &crate::measure::Measured, measured: &InKitchenUnits) -> ScaledAmount {
    ScaledAmount { exact: TypedQuantity::of(exact), measured: typed_parts(measured), in_words: measured.words() }
}

fn on_hand<'a>(kitchen: &Kitchen, costing: &Costing, limit: &'a Limit) -> OnHandResult<'a> {
    OnHandResult {
        item: &limit.item,
        on_hand: TypedQuantity::of(&limit.on_hand),
        enough_for: limit.enough_for.value().ok().map(Figure),
        binds: limit.binds,
        left: TypedQuantity::of(&limit.left),
        left_in_words: words::left(kitchen, costing, limit),
    }
}

fn whole(whole: &Whole) -> WholeCount<'_> {
    let count = |number: Decimal| TypedQuantity { qty: Some(Figure(number)), unit: Some(whole.unit.clone()) };
    WholeCount {
        item: &whole.item,
        asked: count(whole.before),
        now: count(whole.count),
        factor_asked: whole.asked.value().ok().map(Figure),
    }
}
