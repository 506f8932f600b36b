//! Why a figure is what it is: the answer in a few lines, every step to it, what one more percent on each price would do,
//! what was passed over, where allergens came in, what was assumed or stands in the way.

mod answer;
mod dish_steps;
mod figure;
mod item_steps;
mod not_used;
mod recipe_steps;
mod rows_on_the_way;
mod sources;
mod step;
mod test_steps;

pub use not_used::NotUsed;
pub use step::{OfWhat, StepWord, WhatAsked, WhyStepResult};

use std::collections::HashSet;

use schemars::JsonSchema;
use serde::Serialize;

use super::allergen_ways;
use super::allergen_words::{listed, silent_name};
use super::problem::ProblemResult;
use super::value::{Day, Figure, FormatVersion, VERSION};
use super::word::Word;
use crate::analysis::why::{PriceShares, Subject, Why};
use crate::costing::{AllergenSet, Costing, allergens};
use crate::kitchen::{ItemId, Kitchen, Node};
use crate::number::{Decimal, exact};
use crate::problem::{Problem, Severity};
use figure::FigureAsked;
use step::{Tongue, Walk};

/// Why a figure is what it is: `parings why --format json`. Money is in `currency`; percentages are such that "28" is 28 %.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "parings why")]
pub struct WhyResults<'a> {
    /// The version of the program.
    pub parings: &'a str,
    /// The version of this format.
    pub format: FormatVersion,
    /// The day whose prices count.
    pub as_of: Day,
    /// The currency of all money, such as USD; empty where the book shows none.
    pub currency: &'a str,
    /// What is asked about, as first spelled in the book.
    pub name: &'a str,
    /// What that is.
    pub what: Word<WhatAsked>,
    /// What else bears this name.
    pub also: Vec<Word<WhatAsked>>,
    /// The line asked about, as spelled in the recipe; null for all of it.
    pub line: Option<&'a str>,
    /// The figure asked for; null where it is not known.
    pub cost: Option<Figure>,
    /// What it is the cost of: a portion, a batch, the line in it, or one of a unit such as lb.
    pub cost_of: String,
    /// The answer, a sentence or two a line.
    pub answer: Vec<String>,
    /// Every step, line by line; what it stands on follows, the nearest first.
    pub steps: Vec<WhyStepResult>,
    /// Whether it stands on more than is walked.
    pub steps_cut: bool,
    /// What one more percent on each price would add to that figure, the most first. The cost is linear in every price as long as no other
    /// row, yield or measure is chosen for it.
    pub one_percent: Vec<OnePercent<'a>>,
    /// What one more percent on all other prices would add, where there are more than 256; else 0.
    pub one_percent_others: Option<Figure>,
    /// Money of the figure that no price moves: Q in money, charges stated in money, freight; null where it is not known.
    pub unmoved: Option<Figure>,
    /// Price rows and yields that were passed over.
    pub not_used: Vec<NotUsed>,
    /// The allergens in it.
    pub allergens: Vec<AllergenWay>,
    /// The ingredients whose allergens the book does not state.
    pub allergens_not_stated: Vec<String>,
    /// What was assumed or is doubtful in what it stands on.
    pub doubts: Vec<ProblemResult<'a>>,
    /// Where it is not known: the errors that stop it, the nearest first.
    pub stopped_by: Vec<ProblemResult<'a>>,
}

/// What one more percent on the price of an item would do.
#[derive(Debug, Clone, Serialize, JsonSchema)]
#[schemars(rename = "OnePercent")]
pub struct OnePercent<'a> {
    /// The item.
    pub item: &'a str,
    /// How much money the figure would rise by; below zero where a credit rises with it.
    pub adds: Figure,
    /// By how many points the food-cost % of the dish would rise; null of what is no dish, and without a menu price.
    pub points: Option<Figure>,
    /// The money as a person reads it.
    #[serde(skip)]
    pub told: String,
}

/// An allergen and a shortest way by which it came in.
#[derive(Debug, Clone, Serialize, JsonSchema)]
#[schemars(rename = "AllergenWay")]
pub struct AllergenWay {
    /// Its code, or the book's own word.
    pub allergen: String,
    /// Whether it only may be in it.
    pub may_contain: bool,
    /// The steps of a shortest way down to the item that states it; none of the item itself.
    pub way: Vec<String>,
}

/// What stands behind a figure.
pub fn why<'a>(kitchen: &'a Kitchen, costing: &'a Costing, why: &'a Why, problems: &'a [Problem]) -> WhyResults<'a> {
    let asked = FigureAsked::of(kitchen, costing, why);
    let one_percent = one_percent(kitchen, costing, why, &asked);
    let (allergens, silent) = allergen_set(kitchen, costing, why.subject);
    let stopped: Vec<&Problem> =
        if asked.cost.is_some() { Vec::new() } else { rows_on_the_way::stopping(kitchen, costing, why, problems) };
    let is_doubt = |problem: &&Problem| asked.cost.is_some() || problem.severity() != Severity::Error;
    let doubts: Vec<&Problem> =
        rows_on_the_way::touching(kitchen, costing, why, problems).into_iter().filter(is_doubt).collect();
    let mut results = WhyResults {
        parings: VERSION,
        format: FormatVersion,
        as_of: Day(costing.scenario.date),
        currency: &kitchen.settings.currency,
        name: why.subject.name(kitchen),
        what: Word(WhatAsked::of(kitchen, why.subject)),
        also: why.others.iter().map(|other| Word(WhatAsked::of(kitchen, *other))).collect(),
        line: asked.line,
        cost: asked.cost.map(Figure),
        cost_of: asked.of.clone(),
        answer: Vec::new(),
        steps: steps(kitchen, costing, why),
        steps_cut: why.way.is_cut,
        unmoved: asked.unmoved(why).map(Figure),
        one_percent_others: asked.scaled(why.prices.together).and_then(PriceShares::of_one_percent).map(Figure),
        one_percent,
        not_used: NotUsed::all(kitchen, costing, why),
        allergens,
        allergens_not_stated: silent,
        doubts: doubts.into_iter().map(ProblemResult::of).collect(),
        stopped_by: stopped.into_iter().map(ProblemResult::of).collect(),
    };
    results.answer = answer::answer(kitchen, costing, why, &results);
    results
}

/// Every step of what is asked about, then of what it stands on.
fn steps(kitchen: &Kitchen, costing: &Costing, why: &Why) -> Vec<WhyStepResult> {
    let mut walk = Walk::new(kitchen);
    if let (Subject::Dish(index), None) = (why.subject, &why.lines) {
        dish_steps::walk(&mut walk, kitchen, costing, index);
    }
    let tests = |walk: &mut Walk<'_>| {
        for id in &why.way.tests {
            test_steps::walk(walk, kitchen, costing, *id);
        }
    };
    let of_test = matches!(why.subject, Subject::Part(_));
    if of_test {
        tests(&mut walk);
    }
    let mut only = why.lines.as_deref();
    let mut plated = HashSet::new();
    for id in &why.way.recipes {
        let lines = only.take();
        recipe_steps::walk(&mut walk, kitchen, costing, *id, lines);
        for dish in recipe_steps::courses(costing, *id, lines).filter(|dish| plated.insert(*dish)) {
            dish_steps::plate(&mut walk, kitchen, costing, dish);
        }
    }
    if !of_test {
        tests(&mut walk);
    }
    for choices in &why.choices {
        item_steps::walk(&mut walk, kitchen, costing, choices);
    }
    walk.steps
}

fn one_percent<'a>(kitchen: &'a Kitchen, costing: &Costing, why: &Why, asked: &FigureAsked<'_>) -> Vec<OnePercent<'a>> {
    let ex_tax = match why.subject {
        Subject::Dish(index) => costing.dishes.get(index).and_then(Option::as_ref).and_then(|cost| cost.ex_tax),
        _ => None,
    };
    let one = |(item, money): &(ItemId, Decimal)| {
        let adds = PriceShares::of_one_percent(asked.scaled(*money)?)?;
        let points = |ex_tax| exact::div(exact::mul(adds, Decimal::ONE_HUNDRED).ok()?, ex_tax).ok();
        let points = ex_tax.and_then(points).map(Figure);
        let told = Tongue { kitchen }.rate(adds);
        Some(OnePercent { item: &kitchen.item(*item)?.name, adds: Figure(adds), points, told })
    };
    why.prices.items.iter().filter_map(one).collect()
}

fn allergen_set(kitchen: &Kitchen, costing: &Costing, subject: Subject) -> (Vec<AllergenWay>, Vec<String>) {
    let Some(node) = subject.node(kitchen) else { return Default::default() };
    let own;
    let set: Option<&AllergenSet> = match node {
        Node::Recipe(id) => costing.allergens.get(id.index()),
        Node::Test(id) => costing.test_allergens.get(id.index()),
        Node::Item(id) => {
            own = allergens::of_item(kitchen, costing, id.index());
            Some(&own)
        }
    };
    let Some(set) = set else { return Default::default() };
    let mut ways = Vec::new();
    for (may_contain, found) in [(false, &set.contains), (true, &set.may_contain)] {
        for code in listed(found.keys()) {
            let Some(allergen) = found.keys().find(|allergen| allergen.code() == code) else { continue };
            let way = costing.way_of(node, allergen, may_contain);
            let way = allergen_ways::named(kitchen, node, &way);
            ways.push(AllergenWay { allergen: code, may_contain, way });
        }
    }
    (ways, set.not_stated.iter().map(|silent| silent_name(kitchen, *silent)).collect())
}
