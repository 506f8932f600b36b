//! The answer in a few lines: what it costs, what makes it cost that, what one more percent would do, what is in it, what was
//! assumed; or why it is not known.

use std::collections::HashSet;

use super::item_steps::LESS_BY_PRODUCTS;
use super::step::{OfWhat, StepWord, Tongue, WhyStepResult};
use super::{NotUsed, WhyResults};
use crate::analysis::why::{Subject, Why};
use crate::costing::conversion::package;
use crate::costing::{Costing, LineCost, MeasureFrom, YieldFrom};
use crate::in_order::InOrder;
use crate::kitchen::recipe::{IngredientSource, Line};
use crate::kitchen::{Kitchen, NameKey};
use crate::number::{Decimal, exact};
use crate::results::allergen_ways::in_words;
use crate::results::figures::at_most;
use crate::results::word::Closed;

/// So many lines are named that make a cost what it is.
const NAMED: usize = 3;
/// So many prices are named that move it.
const MOVING: usize = 3;

/// The answer, a sentence or two a line.
pub(super) fn answer(kitchen: &Kitchen, costing: &Costing, why: &Why, results: &WhyResults<'_>) -> Vec<String> {
    let telling = WhyTelling { tongue: Tongue { kitchen }, costing, why, results };
    let mut lines = vec![telling.cost()];
    if !results.also.is_empty() {
        lines.push(format!(
            "This is the {}; there is also a {} of this name.",
            results.what.0.word(),
            in_words(&also(results))
        ));
    }
    if results.cost.is_none() {
        lines.extend(results.stopped_by.iter().take(NAMED).map(|problem| {
            let sheet = if problem.sheet.is_empty() { String::new() } else { format!("{}!", problem.sheet) };
            format!("{} ▸ {sheet}{}: {}. {}", problem.file, problem.cell, problem.message, problem.help)
        }));
        match results.stopped_by.len().saturating_sub(NAMED) {
            0 => {}
            1 => lines.push("One more error stands in the way.".to_owned()),
            more => lines.push(format!("{more} more errors stand in the way.")),
        }
        return lines;
    }
    lines.extend(telling.made_of());
    lines.extend(telling.one_percent());
    lines.extend(telling.passed_over());
    lines.extend(telling.allergens());
    lines.extend(telling.assumed());
    lines
}

fn also(results: &WhyResults<'_>) -> Vec<String> {
    results.also.iter().map(|word| word.0.word().to_owned()).collect()
}

struct WhyTelling<'a, 'r> {
    tongue: Tongue<'a>,
    costing: &'a Costing,
    why: &'a Why,
    results: &'r WhyResults<'r>,
}

impl WhyTelling<'_, '_> {
    fn kitchen(&self) -> &Kitchen {
        self.tongue.kitchen
    }

    /// The steps of what is asked about, of all of it.
    fn whole(&self, step: StepWord) -> Option<&WhyStepResult> {
        self.results.steps.iter().find(|one| one.line == 0 && one.of == self.results.name && one.step.0 == step)
    }

    fn told(&self, step: StepWord) -> Option<&str> {
        self.whole(step).map(|step| step.told.as_str())
    }

    fn cost(&self) -> String {
        let name = self.results.line.unwrap_or(self.results.name);
        let Some(cost) = self.results.cost else {
            return format!("{name}: what it costs is not known.");
        };
        let money = self.tongue.money(cost.0);
        if self.why.lines.is_some() {
            let of = if matches!(self.why.subject, Subject::Dish(_)) { "portion" } else { "batch" };
            if self.results.steps.first().is_some_and(|step| step.step.0 == StepWord::NotCosted) && cost.0.is_zero() {
                return format!("{name}: no cost in a {of} of {}.", self.results.name);
            }
            return format!("{name}: {money} in a {of} of {}{}.", self.results.name, self.share_of_whole(cost.0));
        }
        match self.why.subject {
            Subject::Dish(_) => format!("{name}: {money} a portion{}.", self.against_price()),
            Subject::Recipe(_) => {
                let makes = self.told(StepWord::Makes).map(|makes| format!(" of {makes}")).unwrap_or_default();
                let portion = match (self.told(StepWord::PortionCost), self.told(StepWord::Portions)) {
                    (Some(cost), Some(portions)) => format!("; {cost} for each of {portions} portions"),
                    _ => String::new(),
                };
                format!("{name}: {money} a batch{makes}{portion}.")
            }
            Subject::Part(_) | Subject::Item(_) => {
                let money = self.tongue.rate_of(cost.0, &self.results.cost_of);
                let left = self.whole(StepWord::Edible).zip(self.told(StepWord::Yield));
                let left = left.map(|(cost, left)| {
                    let less = if cost.from == LESS_BY_PRODUCTS { ", its by-products taken off" } else { "" };
                    format!("; {left} is left after trimming, which makes it {}{less}", cost.told)
                });
                format!("{name}: {money}{}.", left.unwrap_or_default())
            }
        }
    }

    /// A line's share of what it stands in.
    fn share_of_whole(&self, cost: Decimal) -> String {
        let batch = self.why.subject.recipe(self.kitchen()).and_then(|id| self.costing.recipe(id));
        let food = match self.why.subject {
            Subject::Dish(index) => self.costing.dishes.get(index).and_then(Option::as_ref).map(|dish| dish.food),
            _ => batch.map(|batch| batch.food),
        };
        let share = food.filter(|food| !food.is_zero()).and_then(|food| exact::div(cost, food).ok());
        share.map(|share| format!(", {} of its food", self.tongue.percent(share))).unwrap_or_default()
    }

    fn against_price(&self) -> String {
        let (Some(percent), Some(price)) = (self.told(StepWord::Percent), self.told(StepWord::MenuPrice)) else {
            return String::new();
        };
        let without = match (self.told(StepWord::Tax), self.told(StepWord::ExTax)) {
            (Some(_), Some(ex_tax)) => format!(", {ex_tax} without tax"),
            _ => String::new(),
        };
        let target = self.told(StepWord::Target).map(|target| format!("; the target is {target}")).unwrap_or_default();
        format!(", {percent} of {price}{without}{target}")
    }

    /// The lines, or what went in, that make it cost that.
    fn made_of(&self) -> Option<String> {
        if self.why.lines.is_some() {
            return self.each_line();
        }
        match self.why.subject {
            Subject::Dish(_) | Subject::Recipe(_) => self.largest_lines(),
            Subject::Part(_) => self.test(),
            Subject::Item(_) => self.price(),
        }
    }

    /// The steps of every line asked for, each in one sentence.
    fn each_line(&self) -> Option<String> {
        let first = self.results.steps.first()?;
        let steps = self.results.steps.iter().take_while(|step| step.of == first.of && step.line > 0);
        let steps: Vec<&WhyStepResult> = steps.collect();
        let told: Vec<String> = steps.chunk_by(|one, next| one.line == next.line).filter_map(Self::one_line).collect();
        (!told.is_empty()).then(|| told.join(" "))
    }

    fn one_line(steps: &[&WhyStepResult]) -> Option<String> {
        let told = steps.iter().filter_map(|step| match step.step.0 {
            StepWord::Asked => Some(step.told.clone()),
            StepWord::Measured if !step.from.is_empty() => Some(format!("is {} ({})", step.told, step.from)),
            StepWord::Yield => Some(format!("at {} left ({})", step.told, step.from)),
            StepWord::Drawn => Some(format!("is {} {}", step.told, step.from)),
            StepWord::UnitCost => Some(format!("at {} ({})", step.told, step.from)),
            StepWord::Used => Some(format!("of which {} is used up", step.told)),
            StepWord::NotCosted => Some(format!("Not costed: {}", step.told)),
            _ => None,
        });
        let told: Vec<String> = told.collect();
        (!told.is_empty()).then(|| format!("{}.", told.join(", ")))
    }

    fn largest_lines(&self) -> Option<String> {
        let id = self.why.subject.recipe(self.kitchen())?;
        let (recipe, cost) = (self.kitchen().recipe(id)?, self.costing.recipe(id)?);
        let entry = self.kitchen().entries.recipes.get(recipe.entry)?;
        let mut lines: Vec<(Decimal, &str)> = (entry.lines.iter().zip(&cost.lines))
            .filter_map(|(typed, cost)| match cost {
                LineCost::Costed { cost, .. } if !cost.is_zero() => Some((*cost, typed.item.as_str())),
                _ => None,
            })
            .collect();
        lines.put_in_order_by_key(|(cost, _)| std::cmp::Reverse(*cost));
        let (named, rest) = lines.split_at_checked(NAMED).unwrap_or((&lines, &[]));
        let mut told: Vec<String> = named
            .iter()
            .map(|(line, name)| {
                let share = cost.share_of_food(*line).and_then(|share| share.value().ok()).unwrap_or_default();
                format!("{name} {} ({})", self.tongue.money(self.in_figure(*line)), self.tongue.percent(share))
            })
            .collect();
        if !rest.is_empty() {
            let sum = exact::sum(rest.iter().map(|(cost, _)| *cost)).unwrap_or_default();
            let lines = if rest.len() == 1 { "line" } else { "lines" };
            told.push(format!("{} other {lines} {}", rest.len(), self.tongue.money(self.in_figure(sum))));
        }
        let on_top = self.on_top();
        let on_top =
            if on_top.is_zero() { String::new() } else { format!(" Q and spice: {}.", self.tongue.money(on_top)) };
        (!told.is_empty()).then(|| format!("Food: {}.{on_top}", told.join(", ")))
    }

    /// Money of a batch as it stands in the figure asked for.
    fn in_figure(&self, money: Decimal) -> Decimal {
        match self.why.subject {
            Subject::Dish(index) => {
                let share = self.costing.dishes.get(index).and_then(Option::as_ref).map(|cost| cost.share);
                share.and_then(|share| share.times(money).ok()?.value().ok()).unwrap_or_default()
            }
            _ => money,
        }
    }

    /// Q and spice in the figure.
    fn on_top(&self) -> Decimal {
        let (q, spice) = match self.why.subject {
            Subject::Dish(index) => match self.costing.dishes.get(index) {
                Some(Some(cost)) => (cost.q, cost.spice),
                _ => return Decimal::ZERO,
            },
            Subject::Recipe(id) => match self.costing.recipe(id) {
                Some(cost) => (cost.q, cost.spice),
                None => return Decimal::ZERO,
            },
            _ => return Decimal::ZERO,
        };
        exact::add(q, spice).unwrap_or_default()
    }

    fn test(&self) -> Option<String> {
        let Subject::Part(id) = self.why.subject else { return None };
        let (test, cost) = (self.kitchen().test(id.test)?, self.costing.test(id.test)?);
        let part = cost.parts.get(id.index())?;
        let credits = exact::sum(
            test.parts.iter().zip(&cost.parts).filter(|(part, _)| !part.is_joint()).map(|(_, figures)| figures.cost),
        );
        let whole = self.tongue.money(cost.cost);
        let share = self.tongue.percent(part.fraction);
        Some(match self.kitchen().part(id)?.is_joint() {
            true => format!(
                "In the yield test {} what went in costs {whole}, by-products are charged {} of it, and {} is borne by {share} \
                 of the weight.",
                test.name,
                self.tongue.money(credits.ok()?),
                self.tongue.money(part.cost)
            ),
            false => format!(
                "In the yield test {} it is {share} of the weight and charged {} of the {whole} that went in.",
                test.name,
                self.tongue.money(part.cost)
            ),
        })
    }

    fn price(&self) -> Option<String> {
        let is_item = |step: &&WhyStepResult| step.of_what.0 == OfWhat::Item && step.of == self.results.name;
        let price = self.results.steps.iter().filter(is_item).find(|step| step.step.0 == StepWord::Price)?;
        let sheet = if price.sheet.is_empty() { String::new() } else { format!("{}!", price.sheet) };
        let place =
            if price.cell.is_empty() { String::new() } else { format!(" ({} ▸ {sheet}{})", price.file, price.cell) };
        Some(format!("Its price: {}{place}.", price.from))
    }

    fn one_percent(&self) -> Option<String> {
        let told: Vec<String> = (self.results.one_percent.iter().take(MOVING))
            .map(|one| {
                let points = one.points.map(|points| format!(", {} points", at_most(points.0, 3))).unwrap_or_default();
                format!("{} {}{points}", one.item, one.told)
            })
            .collect();
        // Of what is bought one percent is one percent.
        let is_item = matches!(self.why.subject, Subject::Item(_));
        (!told.is_empty() && !is_item).then(|| format!("One more percent on a price would add: {}.", told.join("; ")))
    }

    fn passed_over(&self) -> Option<String> {
        let first: &NotUsed = self.results.not_used.first()?;
        let more = self.results.not_used.len().saturating_sub(1);
        let more = if more == 0 { String::new() } else { format!("; and {more} more") };
        let is_item = matches!(self.why.subject, Subject::Item(_)) || self.why.lines.is_some();
        is_item.then(|| format!("Not used: {} – {}{more}.", first.says, first.why))
    }

    fn allergens(&self) -> Option<String> {
        if self.why.lines.is_some() {
            return None;
        }
        let told: Vec<String> = (self.results.allergens.iter())
            .map(|one| {
                let perhaps = if one.may_contain { "perhaps " } else { "" };
                let from = if one.way.is_empty() { String::new() } else { format!(" by {}", one.way.join(", of ")) };
                format!("{perhaps}{}{from}", one.allergen.replace('_', " "))
            })
            .collect();
        let silent = self.results.allergens_not_stated.len();
        let silent = match silent {
            0 => String::new(),
            1 => format!(" Not stated: {}.", self.results.allergens_not_stated.concat()),
            _ => format!(" Not stated for {silent} ingredients."),
        };
        if told.is_empty() && silent.is_empty() {
            return None;
        }
        let list = if told.is_empty() { "none stated".to_owned() } else { told.join("; ") };
        Some(format!("Allergens: {list}.{silent}"))
    }

    /// What was assumed: lines without cost, measures and yields that are not the kitchen's own, and what else was told.
    fn assumed(&self) -> Option<String> {
        let mut told = Vec::new();
        let (mut uncosted, mut borrowed, mut published) = (Vec::new(), Vec::new(), Vec::new());
        let mut whole_packs = Vec::new();
        for id in &self.why.way.recipes {
            let entry = self.kitchen().recipe(*id).and_then(|recipe| self.kitchen().entries.recipes.get(recipe.entry));
            let lines = entry.map(|entry| entry.lines.as_slice()).unwrap_or_default();
            let costs = self.costing.recipe(*id).map(|cost| cost.lines.as_slice()).unwrap_or_default();
            let linked = self.kitchen().recipe(*id).map(|recipe| recipe.lines.as_slice()).unwrap_or_default();
            for ((line, cost), linked) in lines.iter().zip(costs).zip(linked) {
                match cost {
                    LineCost::Uncosted => uncosted.push(line.item.clone()),
                    LineCost::Costed { trace, .. } => {
                        whole_packs.extend(self.whole_pack(linked));
                        let is_borrowed =
                            |step: &MeasureFrom| matches!(step, MeasureFrom::Reference(_) | MeasureFrom::Can(_));
                        if trace.measures.iter().any(is_borrowed) {
                            borrowed.push(line.item.clone());
                        }
                        if matches!(trace.yield_from, YieldFrom::Reference(_)) && trace.is_yielded() {
                            published.push(line.item.clone());
                        }
                    }
                }
            }
        }
        if self.why.lines.is_none() {
            told.extend(listed("not costed, for want of a quantity: ", uncosted));
        }
        told.extend(listed("measures from published tables: ", borrowed));
        told.extend(listed("yields from published tables: ", published));
        told.extend(listed("taken for the whole pack: ", whole_packs));
        match self.results.doubts.as_slice() {
            [] => {}
            [one] => told.push(one.message.clone()),
            [first, _] => told.push(format!("{}; and one more remark", first.message)),
            [first, others @ ..] => told.push(format!("{}; and {} more remarks", first.message, others.len())),
        }
        (!told.is_empty()).then(|| format!("Assumed: {}.", told.join("; ")))
    }

    /// The package word of a line that was taken for all of a pack: `a flat of Eggs`.
    fn whole_pack(&self, line: &Line) -> Option<String> {
        let IngredientSource::Bought(id) = line.source else { return None };
        let (item, unit) = (self.kitchen().item(id)?, line.unit()?);
        package::assumed_whole(self.kitchen(), item, self.costing.item(id)?, unit)?;
        Some(format!("a {unit} of {}", item.name))
    }
}

/// The names behind their lead; of many how many more.
fn listed(lead: &str, mut names: Vec<String>) -> Option<String> {
    let mut told = HashSet::new();
    names.retain(|name| told.insert(NameKey::of(name)));
    let more = names.len().saturating_sub(NAMED);
    names.truncate(NAMED);
    let more = if more == 0 { String::new() } else { format!(" and {more} more") };
    (!names.is_empty()).then(|| format!("{lead}{}{more}", names.join(", ")))
}
