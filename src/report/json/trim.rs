//! What trim is worth, as JSON: every test under every way of charging, run by run, its factors then and now, and charges
//! moved up and down.

mod plan;

use serde::Serialize;

use super::{FORMAT, percent, pretty, problem_json};
use crate::analysis::Trim;
use crate::analysis::factor::Factors;
use crate::analysis::lack::Lack;
use crate::analysis::spread::Spread;
use crate::analysis::sweep::{Step, Sweep};
use crate::analysis::ways::Ways;
use crate::costing::{Costing, Rate};
use crate::kitchen::Kitchen;
use crate::number::{Decimal, plain};
use crate::problem::Problem;
use crate::report::csv::side;

#[derive(Debug, Serialize)]
struct Report<'a> {
    parings: &'a str,
    format: u32,
    as_of: String,
    currency: &'a str,
    tests: Vec<Test<'a>>,
    balance: Vec<plan::Balance<'a>>,
    dishes: Vec<plan::Dish<'a>>,
    savings: Vec<plan::Saving<'a>>,
    plan: Option<plan::Totals>,
    to_buy: Vec<plan::ToBuy<'a>>,
    if_thrown_away: Vec<plan::IfThrownAway<'a>>,
    sweeps: Vec<Swept<'a>>,
    problems: Vec<super::ProblemJson<'a>>,
}

#[derive(Debug, Serialize)]
struct Test<'a> {
    name: &'a str,
    cost: Option<String>,
    ways: Vec<Way<'a>>,
    runs: Vec<Run<'a>>,
    dishes: Vec<RunDish<'a>>,
    factors: Vec<Factor<'a>>,
}

#[derive(Debug, Serialize)]
struct Way<'a> {
    way: &'static str,
    parts: Vec<Bears<'a>>,
    total: Option<String>,
    lacking: Vec<String>,
}

#[derive(Debug, Serialize)]
struct Bears<'a> {
    name: &'a str,
    charged_as: Option<&'static str>,
    cost: String,
    cost_per_g: Option<String>,
}

#[derive(Debug, Serialize)]
struct Run<'a> {
    run: &'a str,
    date: Option<String>,
    weight_g: String,
    parts: Vec<Yield<'a>>,
}

#[derive(Debug, Serialize)]
struct Yield<'a> {
    name: &'a str,
    weight_g: Option<String>,
    yield_percent: Option<String>,
    far_off: bool,
}

#[derive(Debug, Serialize)]
struct RunDish<'a> {
    dish: &'a str,
    main: &'a str,
    portion_cost: Option<String>,
    from_best_run: Option<String>,
    from_worst_run: Option<String>,
}

#[derive(Debug, Serialize)]
struct Factor<'a> {
    name: &'a str,
    factor_then: Option<String>,
    factor_now: Option<String>,
    cost_per_g_by_old_factor: Option<String>,
    cost_per_g: Option<String>,
}

#[derive(Debug, Serialize)]
struct Swept<'a> {
    by_product: &'a str,
    steps: Vec<StepJson<'a>>,
}

#[derive(Debug, Serialize)]
struct StepJson<'a> {
    charged_percent: Option<String>,
    bears: Option<String>,
    total: Option<String>,
    stopped: Option<&'static str>,
    dishes: Vec<DishAt<'a>>,
}

#[derive(Debug, Serialize)]
struct DishAt<'a> {
    name: &'a str,
    side: &'static str,
    portion_cost: Option<String>,
    food_cost_percent: Option<String>,
}

/// The trim report.
pub fn trim(kitchen: &Kitchen, costing: &Costing, trim: &Trim, problems: &[Problem]) -> String {
    let tests = kitchen.tests.iter().enumerate().map(|(index, test)| Test {
        name: &test.name,
        cost: costing.tests.get(index).and_then(Option::as_ref).map(|test| plain(test.cost)),
        ways: of(&trim.ways, index).map(|ways| ways_json(kitchen, ways)).unwrap_or_default(),
        runs: of(&trim.spreads, index).map(|spread| runs(kitchen, spread)).unwrap_or_default(),
        dishes: of(&trim.spreads, index).map(|spread| dishes(kitchen, spread)).unwrap_or_default(),
        factors: of(&trim.factors, index).map(|factors| factor(kitchen, factors)).unwrap_or_default(),
    });
    pretty(&Report {
        parings: env!("CARGO_PKG_VERSION"),
        format: FORMAT,
        as_of: costing.scenario.date.to_string(),
        currency: &kitchen.settings.currency,
        tests: tests.collect(),
        balance: plan::balance(kitchen, trim),
        dishes: plan::dishes(kitchen, trim),
        savings: plan::savings(kitchen, trim),
        plan: plan::totals(trim),
        to_buy: plan::to_buy(kitchen, costing, trim),
        if_thrown_away: plan::if_thrown_away(kitchen, trim),
        sweeps: trim.sweeps.iter().map(|sweep| swept(kitchen, sweep)).collect(),
        problems: problems.iter().map(problem_json).collect(),
    })
}

fn of<T>(list: &[Option<T>], index: usize) -> Option<&T> {
    list.get(index).and_then(Option::as_ref)
}

fn unit_cost(rate: Option<Rate>) -> Option<String> {
    rate.and_then(|rate| rate.unit_cost().ok()).map(plain)
}

fn ways_json<'a>(kitchen: &'a Kitchen, ways: &Ways) -> Vec<Way<'a>> {
    let names = || kitchen.test(ways.test).into_iter().flat_map(|test| &test.parts).map(|part| part.name.as_str());
    let json = ways.ways.iter().map(|(way, under)| match under {
        Ok(under) => Way {
            way: way.word(),
            parts: names()
                .zip(&under.parts)
                .map(|(name, part)| Bears {
                    name,
                    charged_as: part.charged.map(|charged| charged.word()),
                    cost: plain(part.cost),
                    cost_per_g: unit_cost(part.rate),
                })
                .collect(),
            total: Some(plain(under.total)),
            lacking: Vec::new(),
        },
        Err(lacks) => Way {
            way: way.word(),
            parts: Vec::new(),
            total: None,
            lacking: lacks.iter().map(|lack| lack.words(kitchen)).collect(),
        },
    });
    json.collect()
}

fn runs<'a>(kitchen: &'a Kitchen, spread: &'a Spread) -> Vec<Run<'a>> {
    let runs = spread.runs.iter().enumerate().map(|(index, run)| Run {
        run: &run.run,
        date: run.date.map(|date| date.to_string()),
        weight_g: plain(run.grams),
        parts: spread
            .parts
            .iter()
            .map(|part| Yield {
                name: kitchen.part(part.part).map(|part| part.name.as_str()).unwrap_or_default(),
                weight_g: part.grams.get(index).copied().flatten().map(plain),
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
            portion_cost: dish.pooled.map(plain),
            from_best_run: dish.best.map(plain),
            from_worst_run: dish.worst.map(plain),
        }));
    }
    found
}

fn factor<'a>(kitchen: &'a Kitchen, factors: &Result<Factors, Vec<Lack>>) -> Vec<Factor<'a>> {
    let Ok(factors) = factors else { return Vec::new() };
    let parts = kitchen.test(factors.test).into_iter().flat_map(|test| &test.parts).zip(&factors.parts);
    let json = parts.map(|(part, figures)| Factor {
        name: &part.name,
        factor_then: figures.then.map(plain),
        factor_now: figures.now.map(plain),
        cost_per_g_by_old_factor: unit_cost(figures.by_old),
        cost_per_g: unit_cost(figures.today),
    });
    json.collect()
}

fn swept<'a>(kitchen: &'a Kitchen, sweep: &Sweep) -> Swept<'a> {
    Swept {
        by_product: kitchen.part(sweep.part).map(|part| part.name.as_str()).unwrap_or_default(),
        steps: sweep.steps.iter().map(|step| step_json(kitchen, sweep, step)).collect(),
    }
}

fn step_json<'a>(kitchen: &'a Kitchen, sweep: &Sweep, step: &Step) -> StepJson<'a> {
    let swept = step.outcome.as_ref().ok();
    let number = |number: Option<Decimal>| number.map(plain);
    let dishes = sweep.dishes.iter().enumerate().map(|(index, dish)| {
        let at = swept.and_then(|swept| swept.dishes.get(index).copied().flatten());
        DishAt {
            name: kitchen.dishes.get(dish.dish).map(|dish| dish.name.as_str()).unwrap_or_default(),
            side: side(dish.side),
            portion_cost: number(at.map(|at| at.portion_cost)),
            food_cost_percent: at.and_then(|at| at.food_cost).and_then(percent),
        }
    });
    StepJson {
        charged_percent: percent(step.fraction),
        bears: number(swept.and_then(|swept| swept.parts.get(sweep.part.index())).map(|part| part.cost)),
        total: number(swept.map(|swept| swept.total)),
        stopped: step.outcome.as_ref().err().map(|problem| problem.code.name()),
        dishes: dishes.collect(),
    }
}
