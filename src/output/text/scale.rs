//! A scaled recipe on the terminal: how much of everything first, then what it costs and what measuring changes.

use super::table::{TextColumn, TextRow, table};
use super::width::hang;
use super::{Emphasis, View, many, printable};
use crate::analysis::Resized;
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::measure::currency;
use crate::problem::Problem;
use crate::results::figures::{NONE, at_most_but_some, shown};
use crate::results::scale::{
    NOT_KNOWN, NOT_KNOWN_HEAD, NOT_SCALED, ScaleResults, ScaledLineResult, ScaledRecipe, more_of_all, more_of_line,
    scale as results,
};
use crate::results::stopped_by::Errors;
use crate::results::value::{Figure, TypedQuantity};

const QUANTITIES: [TextColumn; 3] = [
    TextColumn { header: &["Measure"], figures: true },
    TextColumn { header: &["Exactly"], figures: true },
    TextColumn { header: &["More or less"], figures: true },
];

const COSTED: [TextColumn; 6] = [
    QUANTITIES[0],
    QUANTITIES[1],
    QUANTITIES[2],
    TextColumn { header: &["Cost", "exactly"], figures: true },
    TextColumn { header: &["As", "measured"], figures: true },
    TextColumn { header: &["Differs"], figures: true },
];

/// The decimals of a quantity, of a factor and of a percentage.
const PLACES: u32 = 3;

/// The whole report.
pub fn scale(kitchen: &Kitchen, costing: &Costing, resized: &Resized, problems: &[Problem], view: View) -> String {
    let results = results(kitchen, costing, resized, problems);
    let page = ScalePage { view, places: currency::minor_digits(&kitchen.settings.currency), results: &results };
    let mut out = page.say(&page.heading());
    out.push_str(&page.sized_by());
    out.push('\n');
    out.push_str(&page.recipe(&results.recipe));
    if results.recipe.food_cost.is_none() {
        out.push_str(&page.not_costed(kitchen, costing, resized, problems));
    }
    if let Some(first) = results.recipe.made_first() {
        out.push('\n');
        out.push_str(&page.say(&format!("Made before it, in this order: {first}.")));
    }
    for sub in &results.sub_recipes {
        out.push('\n');
        out.push_str(&page.sub_recipe(sub));
        out.push_str(&page.recipe(sub));
    }
    out.push('\n');
    out.push_str(&Emphasis::Strong.on(NOT_KNOWN_HEAD, view));
    out.push('\n');
    for caution in NOT_KNOWN {
        out.push_str(&hang("- ", caution, view.width));
    }
    out
}

struct ScalePage<'a> {
    view: View,
    places: u32,
    results: &'a ScaleResults<'a>,
}

impl ScalePage<'_> {
    fn say(&self, text: &str) -> String {
        hang("", &printable(text), self.view.width)
    }

    /// `Leek soup, 60 portions: 1.875 × the recipe, which makes 3 3/4 gal.`
    fn heading(&self) -> String {
        let recipe = &self.results.recipe;
        let name = match self.results.dish {
            Some(dish) if dish != recipe.name => format!("{dish} ({})", recipe.name),
            _ => recipe.name.to_owned(),
        };
        format!("{name}{}{}", of_portions(recipe), size(recipe))
    }

    /// What on hand, or which whole ingredient, said how large it is.
    fn sized_by(&self) -> String {
        let mut out = String::new();
        for held in &self.results.on_hand {
            let enough = held.enough_for.map(|times| at_most_but_some(times.0, PLACES)).unwrap_or_default();
            let first = if held.binds && self.results.on_hand.len() > 1 { "runs out first, " } else { "" };
            let left = if held.left_in_words.is_empty() { "nothing" } else { held.left_in_words.as_str() };
            out.push_str(&self.say(&format!(
                "{} {}: enough for {enough} × the recipe; {first}{left} is left.",
                typed(&held.on_hand),
                held.item
            )));
        }
        if let Some(whole) = &self.results.whole {
            let factor = whole.factor_asked.map(|factor| at_most_but_some(factor.0, PLACES)).unwrap_or_default();
            let (now, asked) = (typed(&whole.now), typed(&whole.asked));
            out.push_str(&self.say(&match now == asked {
                true => format!("{}: {now}, which is whole as asked for.", whole.item),
                false => format!(
                    "{}: {now} instead of {asked}, and the rest follows: {factor} × the recipe was asked for.",
                    whole.item
                ),
            }));
        }
        out
    }

    fn sub_recipe(&self, sub: &ScaledRecipe<'_>) -> String {
        let name = Emphasis::Strong.on(&printable(sub.name), self.view);
        format!("{name}\n{}", self.say(&format!("Wanted in all{}{}", of_portions(sub), size(sub))))
    }

    /// The lines of a recipe, and what they come to.
    fn recipe(&self, recipe: &ScaledRecipe<'_>) -> String {
        let is_costed = recipe.food_cost.is_some();
        let columns: &[TextColumn] = if is_costed { &COSTED } else { &QUANTITIES };
        let mut rows: Vec<TextRow> = recipe.lines.iter().map(|line| self.line(line, is_costed)).collect();
        if is_costed {
            let blank = || (String::new(), Emphasis::Plain);
            let more = more_of_all(recipe).unwrap_or_default();
            let mut cells = vec![blank(), blank(), (more, Emphasis::Strong)];
            let money = [recipe.food_cost, recipe.food_cost_as_measured];
            cells.extend(money.map(|figure| (self.money(figure), Emphasis::Strong)));
            cells.push((self.signed(recipe.food_cost_difference), Emphasis::Strong));
            rows.push(TextRow { name: "In all".to_owned(), cells });
        }
        let mut out = table("Ingredient", columns, &rows, self.view);
        out.push_str(&self.remarks(recipe));
        out
    }

    fn line(&self, line: &ScaledLineResult<'_>, is_costed: bool) -> TextRow {
        let prep = if line.prep.is_empty() { String::new() } else { format!(", {}", line.prep) };
        let has_quantity = line.times.is_some();
        let measure = if line.too_little { format!("{} *", line.in_words) } else { line.in_words.clone() };
        let measure = if measure.is_empty() { NONE.to_owned() } else { printable(&measure) };
        let exactly = match line.in_words.as_str() {
            _ if has_quantity => typed(&line.exact),
            NOT_SCALED => "see the problem".to_owned(),
            _ => "as it is".to_owned(),
        };
        let mut cells = vec![
            (measure, Emphasis::Strong),
            (printable(&exactly), Emphasis::Plain),
            (more_of_line(line), Emphasis::Plain),
        ];
        if is_costed {
            let money = [line.cost, line.cost_as_measured];
            cells.extend(money.map(|figure| (self.money(figure), Emphasis::Plain)));
            cells.push((self.signed(line.cost_difference), Emphasis::Plain));
        }
        TextRow { name: printable(&format!("{}{prep}", line.item)), cells }
    }

    /// What stands below a table.
    fn remarks(&self, recipe: &ScaledRecipe<'_>) -> String {
        let mut told = Vec::new();
        if let (Some(difference), Some(percent)) = (recipe.food_cost_difference, recipe.food_cost_difference_percent) {
            let by = self.signed(Some(difference));
            let share = at_most_but_some(percent.0, 2);
            let share = share.trim_start_matches('-');
            told.push(match (by.strip_prefix('+'), by.strip_prefix('-')) {
                (Some(more), _) => format!("Measured so, the food costs {more} more ({share} %)."),
                (_, Some(less)) => format!("Measured so, the food costs {less} less ({share} %)."),
                (None, None) => "Measured so, the food costs the same.".to_owned(),
            });
        }
        if let Some(portion) = recipe.portion_food_cost {
            told.push(format!("The food of a portion costs {}.", self.money(Some(portion))));
        }
        if recipe.food_cost.is_some() {
            let currency = self.results.currency;
            let money = if currency.is_empty() { String::new() } else { format!(" in {currency}") };
            told.push(format!("Costed on {}{money}.", self.results.as_of.0));
        }
        if recipe.weight_not_known > 0 && more_of_all(recipe).is_some() {
            let lines = many(recipe.weight_not_known, "line", "lines");
            told.push(format!("The weight in all is without {lines} of which no weight is known."));
        }
        if recipe.as_typed > 0 {
            let lines = many(recipe.as_typed, "line without a quantity stays", "lines without a quantity stay");
            told.push(format!("{lines} as typed."));
        }
        for line in recipe.lines.iter().filter(|line| line.far_off) {
            let (item, measured, exact) = (&line.item, &line.in_words, typed(&line.exact));
            told.push(format!(
                "{item}: {measured} instead of {exact}; with --whole \"{item}\" all the rest follows it."
            ));
        }
        if recipe.lines.iter().any(|line| line.too_little) {
            told.push("* Less than a kitchen measures: make a larger batch.".to_owned());
        }
        if told.is_empty() { String::new() } else { self.say(&told.join(" ")) }
    }

    fn not_costed(&self, kitchen: &Kitchen, costing: &Costing, resized: &Resized, problems: &[Problem]) -> String {
        let errors = Errors::of(kitchen, costing, problems);
        match errors.stopping_recipe(resized.recipe).first() {
            Some(problem) => {
                let place = printable(&problem.place.to_string());
                self.say(&format!("It is not costed because of {place} ({}).", problem.code))
            }
            None => self.say("It is not costed."),
        }
    }

    fn money(&self, figure: Option<Figure>) -> String {
        shown(figure.map(|figure| figure.0), self.places)
    }

    /// Money with its sign; nothing where there is no difference to show.
    fn signed(&self, figure: Option<Figure>) -> String {
        let text = self.money(figure);
        let is_more =
            figure.is_some_and(|figure| figure.0.is_sign_positive()) && text.contains(|c| matches!(c, '1'..='9'));
        if is_more { format!("+{text}") } else { text }
    }
}

/// `, 60 portions`.
fn of_portions(recipe: &ScaledRecipe<'_>) -> String {
    recipe.portions.map(|portions| format!(", {} portions", at_most_but_some(portions.0, 2))).unwrap_or_default()
}

/// `: 1.875 × the recipe, which makes 3 3/4 gal.`
fn size(recipe: &ScaledRecipe<'_>) -> String {
    let factor = recipe.factor.map(|factor| at_most_but_some(factor.0, PLACES)).unwrap_or_default();
    let makes: Vec<&str> = recipe.makes.iter().map(|made| made.in_words.as_str()).collect();
    match makes.is_empty() {
        true => format!(": {factor} × the recipe."),
        false => format!(": {factor} × the recipe, which makes {}.", makes.join(" or ")),
    }
}

/// A quantity in its unit, to three decimals at the most, or its first two digits.
fn typed(quantity: &TypedQuantity) -> String {
    let number = quantity.qty.map(|qty| at_most_but_some(qty.0, PLACES)).unwrap_or_default();
    let unit = quantity.unit.as_deref().filter(|unit| *unit != "each").unwrap_or_default();
    format!("{number} {unit}").trim_end().to_owned()
}
