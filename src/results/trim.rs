//! Trim results: every test under every way of charging, run by run, its factors then and now, and charges
//! moved up and down.

pub mod balance;
pub mod plan;
pub mod shares;

use schemars::JsonSchema;
use serde::Serialize;

use super::problem::ProblemResult;
use super::value::{Day, Figure, FormatVersion, VERSION, percent};
use super::word::Word;
use crate::analysis::Trim;
use crate::analysis::charging_methods::{Way, Ways};
use crate::analysis::cost_factor::Factors;
use crate::analysis::missing_input::Lack;
use crate::analysis::run_variation::Spread;
use crate::analysis::sweep::{Side, Step, Sweep};
use crate::costing::{Costing, Rate};
use crate::kitchen::yield_test::Charged;
use crate::kitchen::{Kitchen, TestId};
use crate::number::Decimal;
use crate::problem::{Code, Problem};

/// What trim is worth: `parings trim --format json`. Lists are in book order; what is not known is null; percentages are such that "28" is 28 %.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "parings trim")]
pub struct TrimResults<'a> {
    /// The version of the program.
    pub parings: &'a str,
    /// The version of this format.
    pub format: FormatVersion,
    /// The day whose prices count.
    pub as_of: Day,
    /// The currency of all money, such as USD; empty where the book shows none.
    pub currency: &'a str,
    /// Every yield test under every way of charging, run by run, its factors then and now.
    pub tests: Vec<ComparedTest<'a>>,
    /// The weights of the plan, test by test: empty without a plan.
    pub balance: Vec<balance::TestInPlan<'a>>,
    /// The dishes, then other recipes that the plan serves, with the food they take in the three kitchens.
    pub dishes: Vec<plan::DishInKitchens<'a>>,
    /// What using each by-product that something uses saves over the plan.
    pub savings: Vec<plan::Saving<'a>>,
    /// The three kitchens over the whole plan; null without one.
    pub plan: Option<plan::Totals>,
    /// For how many portions there is enough trim; null where no trim is short that nothing is bought in for.
    pub enough_for: Option<plan::EnoughFor<'a>>,
    /// The bought items that the plan takes or the stock list holds, as purchased; empty without a plan.
    pub to_buy: Vec<plan::ToBuy<'a>>,
    /// The dishes of mains, were the trim that is left over thrown away.
    pub if_thrown_away: Vec<plan::IfThrownAway<'a>>,
    /// By-products whose charge is moved from nothing to all of the AP price.
    pub sweeps: Vec<SweepResult<'a>>,
    /// Every problem of the book.
    pub problems: Vec<ProblemResult<'a>>,
}

/// A yield test in comparison.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Test")]
pub struct ComparedTest<'a> {
    /// Its name, as first spelled in the book.
    pub name: &'a str,
    /// What went in costs, with what was added; null where it could not be costed.
    pub cost: Option<Figure>,
    /// What becomes of its weight, and who bears its money; null where it could not be costed.
    pub shares: Option<shares::TestShares>,
    /// Every way of charging; empty where the test could not be costed.
    pub ways: Vec<WayResult<'a>>,
    /// Its runs one by one; empty where a problem stops the test.
    pub runs: Vec<TestRun<'a>>,
    /// The dishes of its mains by the best and the worst run; empty with one run.
    pub dishes: Vec<RunDish<'a>>,
    /// Cost factors by the prices paid in the test and by those of today; empty where the test states no Price.
    pub factors: Vec<Factor<'a>>,
}

/// A test under one way of charging.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "TestUnderWay")]
pub struct WayResult<'a> {
    /// Which.
    pub way: Word<Way>,
    /// What each part bears; empty where something is lacking.
    pub parts: Vec<Bears<'a>>,
    /// What all parts bear together; null where something is lacking.
    pub total: Option<Figure>,
    /// What the book would have to say for this way.
    pub lacking: Vec<String>,
}

/// A part under one way.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "PartUnderWay")]
pub struct Bears<'a> {
    /// Its name.
    pub name: &'a str,
    /// How it is charged here; null for waste.
    pub charged_as: Option<Word<Charged>>,
    /// What it bears.
    pub cost: Figure,
    /// Money per gram of it.
    pub cost_per_g: Option<Figure>,
}

/// One run of a test.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Run")]
pub struct TestRun<'a> {
    /// Its mark in the column Run; empty where it has none.
    pub run: &'a str,
    /// When it was made, where stated.
    pub date: Option<Day>,
    /// What went in, in grams.
    pub weight_g: Figure,
    /// What came out.
    pub parts: Vec<PartOfRun<'a>>,
}

/// What came out in one run.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "PartOfRun")]
pub struct PartOfRun<'a> {
    /// Its name.
    pub name: &'a str,
    /// What it weighed, in grams; null where the run does not list it.
    pub weight_g: Option<Figure>,
    /// Its weight in % of what went in.
    pub yield_percent: Option<Figure>,
    /// Whether its yield is far from that of the other runs.
    pub far_off: bool,
}

/// A dish of a main, by the best and the worst run.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "DishByRuns")]
pub struct RunDish<'a> {
    /// The dish.
    pub dish: &'a str,
    /// The main it is made of.
    pub main: &'a str,
    /// What a portion costs with all runs pooled.
    pub portion_cost: Option<Figure>,
    /// What it would cost by the run that yields most.
    pub from_best_run: Option<Figure>,
    /// What it would cost by the run that yields least.
    pub from_worst_run: Option<Figure>,
}

/// Cost factors of a part, then and now.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Factors")]
pub struct Factor<'a> {
    /// The part.
    pub name: &'a str,
    /// Its cost by weight over that of what went in, with the prices paid in the test.
    pub factor_then: Option<Figure>,
    /// The same with the prices of today.
    pub factor_now: Option<Figure>,
    /// Money per gram by the old factor and the price of today.
    pub cost_per_g_by_old_factor: Option<Figure>,
    /// Money per gram as it is costed today.
    pub cost_per_g: Option<Figure>,
}

/// A by-product whose charge is moved.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Sweep")]
pub struct SweepResult<'a> {
    /// Which.
    pub by_product: &'a str,
    /// From nothing to all of the AP price.
    pub steps: Vec<SweepStepResult<'a>>,
}

/// One step.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Step")]
pub struct SweepStepResult<'a> {
    /// The charge in % of the AP price per weight.
    pub charged_percent: Option<Figure>,
    /// What the by-product bears in one batch of the test.
    pub bears: Option<Figure>,
    /// What the other parts bear.
    pub rest_bears: Option<Figure>,
    /// What all parts bear together: the same at every step.
    pub total: Option<Figure>,
    /// The problem that stops this step; null where none does.
    pub stopped: Option<Word<Code>>,
    /// The dishes that change.
    pub dishes: Vec<DishAtStep<'a>>,
}

/// A dish at a step.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "DishAtStep")]
pub struct DishAtStep<'a> {
    /// Its name.
    pub name: &'a str,
    /// Whether it is made of the by-product or beside it.
    pub side: Word<Side>,
    /// What a portion costs here.
    pub portion_cost: Option<Figure>,
    /// That in % of the menu price without tax.
    pub food_cost_percent: Option<Figure>,
}

/// What trim is worth.
pub fn trim<'a>(
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    trim: &'a Trim,
    problems: &'a [Problem],
) -> TrimResults<'a> {
    let tests =
        kitchen.tests.iter().zip(all_ways(kitchen, trim)).enumerate().map(|(index, (test, ways))| ComparedTest {
            name: &test.name,
            cost: costing.tests.get(index).and_then(Option::as_ref).map(|test| Figure(test.cost)),
            shares: shares::TestShares::of(kitchen, costing, trim, TestId::new(index)),
            ways,
            runs: of(&trim.spreads, index).map(|spread| runs(kitchen, spread)).unwrap_or_default(),
            dishes: of(&trim.spreads, index).map(|spread| dishes(kitchen, spread)).unwrap_or_default(),
            factors: of(&trim.factors, index).map(|factors| factor(kitchen, factors)).unwrap_or_default(),
        });
    TrimResults {
        parings: VERSION,
        format: FormatVersion,
        as_of: Day(costing.scenario.date),
        currency: &kitchen.settings.currency,
        tests: tests.collect(),
        balance: balance::balance(kitchen, trim),
        dishes: plan::dishes(kitchen, costing, trim),
        savings: plan::savings(kitchen, trim),
        plan: plan::totals(kitchen, costing, trim),
        enough_for: plan::enough_for(kitchen, trim),
        to_buy: plan::to_buy(kitchen, costing, trim),
        if_thrown_away: plan::if_thrown_away(kitchen, trim),
        sweeps: all_sweeps(kitchen, trim),
        problems: problems.iter().map(ProblemResult::of).collect(),
    }
}

/// Every yield test under every way of charging, in book order; none of one that is not costed.
pub(crate) fn all_ways<'a>(kitchen: &'a Kitchen, trim: &Trim) -> Vec<Vec<WayResult<'a>>> {
    trim.ways.iter().map(|ways| ways.as_ref().map(|ways| of_ways(kitchen, ways)).unwrap_or_default()).collect()
}

/// The by-products whose charge is moved.
pub(crate) fn all_sweeps<'a>(kitchen: &'a Kitchen, trim: &Trim) -> Vec<SweepResult<'a>> {
    trim.sweeps.iter().map(|sweep| swept(kitchen, sweep)).collect()
}

fn of<T>(list: &[Option<T>], index: usize) -> Option<&T> {
    list.get(index).and_then(Option::as_ref)
}

fn unit_cost(rate: Option<Rate>) -> Option<Figure> {
    rate.and_then(Rate::per_unit).map(Figure)
}

fn of_ways<'a>(kitchen: &'a Kitchen, ways: &Ways) -> Vec<WayResult<'a>> {
    let names = || kitchen.test(ways.test).into_iter().flat_map(|test| &test.parts).map(|part| part.name.as_str());
    let json = ways.ways.iter().map(|(way, under)| match under {
        Ok(under) => WayResult {
            way: Word(*way),
            parts: names()
                .zip(&under.parts)
                .map(|(name, part)| Bears {
                    name,
                    charged_as: part.charged.map(Word),
                    cost: Figure(part.cost),
                    cost_per_g: unit_cost(part.rate),
                })
                .collect(),
            total: Some(Figure(under.total)),
            lacking: Vec::new(),
        },
        Err(lacks) => WayResult {
            way: Word(*way),
            parts: Vec::new(),
            total: None,
            lacking: lacks.iter().map(|lack| lack.words(kitchen)).collect(),
        },
    });
    json.collect()
}

fn runs<'a>(kitchen: &'a Kitchen, spread: &'a Spread) -> Vec<TestRun<'a>> {
    let runs = spread.runs.iter().enumerate().map(|(index, run)| TestRun {
        run: &run.run,
        date: run.date.map(Day),
        weight_g: Figure(run.grams),
        parts: spread
            .parts
            .iter()
            .map(|part| PartOfRun {
                name: kitchen.part(part.part).map(|part| part.name.as_str()).unwrap_or_default(),
                weight_g: part.grams.get(index).copied().flatten().map(Figure),
                yield_percent: part.yields.get(index).copied().and_then(percent),
                far_off: part.far_off.contains(&index),
            })
            .collect(),
    });
    runs.collect()
}

fn dishes<'a>(kitchen: &'a Kitchen, spread: &Spread) -> Vec<RunDish<'a>> {
    let mut found = Vec::new();
    for main in &spread.mains {
        let name = kitchen.part(main.part).map(|part| part.name.as_str()).unwrap_or_default();
        found.extend(main.dishes.iter().map(|dish| RunDish {
            dish: kitchen.dishes.get(dish.dish).map(|dish| dish.name.as_str()).unwrap_or_default(),
            main: name,
            portion_cost: dish.pooled.map(Figure),
            from_best_run: dish.best.map(Figure),
            from_worst_run: dish.worst.map(Figure),
        }));
    }
    found
}

fn factor<'a>(kitchen: &'a Kitchen, factors: &Result<Factors, Vec<Lack>>) -> Vec<Factor<'a>> {
    let Ok(factors) = factors else { return Vec::new() };
    let parts = kitchen.test(factors.test).into_iter().flat_map(|test| &test.parts).zip(&factors.parts);
    let json = parts.map(|(part, figures)| Factor {
        name: &part.name,
        factor_then: figures.then.map(Figure),
        factor_now: figures.now.map(Figure),
        cost_per_g_by_old_factor: unit_cost(figures.by_old),
        cost_per_g: unit_cost(figures.today),
    });
    json.collect()
}

fn swept<'a>(kitchen: &'a Kitchen, sweep: &Sweep) -> SweepResult<'a> {
    SweepResult {
        by_product: kitchen.part(sweep.part).map(|part| part.name.as_str()).unwrap_or_default(),
        steps: sweep.steps.iter().map(|step| step_json(kitchen, sweep, step)).collect(),
    }
}

fn step_json<'a>(kitchen: &'a Kitchen, sweep: &Sweep, step: &Step) -> SweepStepResult<'a> {
    let swept = step.outcome.as_ref().ok();
    let number = |number: Option<Decimal>| number.map(Figure);
    let dishes = sweep.dishes.iter().enumerate().map(|(index, dish)| {
        let at = swept.and_then(|swept| swept.dishes.get(index).copied().flatten());
        DishAtStep {
            name: kitchen.dishes.get(dish.dish).map(|dish| dish.name.as_str()).unwrap_or_default(),
            side: Word(dish.side),
            portion_cost: number(at.map(|at| at.portion_cost)),
            food_cost_percent: at.and_then(|at| at.food_cost).and_then(percent),
        }
    });
    SweepStepResult {
        charged_percent: percent(step.fraction),
        bears: number(swept.and_then(|swept| swept.bears(sweep.part))),
        rest_bears: number(swept.and_then(|swept| swept.rest(sweep.part))),
        total: number(swept.map(|swept| swept.total)),
        stopped: step.outcome.as_ref().err().map(|problem| Word(problem.code)),
        dishes: dishes.collect(),
    }
}
