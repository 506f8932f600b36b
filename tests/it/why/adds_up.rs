//! Every figure of the walk adds up again to the figure asked for, of every dish, recipe, part and item of every sample,
//! template and kitchens of chance: in exact fractions, to 1e-15 of each figure. Nothing of the crate is used but its JSON.

use std::collections::BTreeMap;

use parings::analysis::why::Subject;
use parings::{Costing, Reading};
use serde_json::Value;

use super::{books, costed, explained};
use crate::model::fraction::{Fraction, decimal, whole};
use crate::support::{cost_bytes, json_of};

/// What differs, and how many sums were made.
#[derive(Default)]
pub struct Sums {
    pub made: usize,
    pub differ: Vec<String>,
}

fn abs(x: &Fraction) -> Fraction {
    if *x < whole(0) { -x.clone() } else { x.clone() }
}

impl Sums {
    /// Holds one sum against what it should be, to 1e-15 of the larger, or of `size` where parts of it cancel.
    fn hold(&mut self, what: &str, made: &Fraction, given: &Fraction, size: &Fraction) {
        self.made += 1;
        let most = [abs(made), abs(given), abs(size)].into_iter().max().unwrap();
        if abs(&(made - given)) > most * decimal("0.000000000000001") {
            self.differ.push(format!("{what}: {made} is not {given}"));
        }
    }
}

/// The steps of one line, or of the whole, by their words; several of one word are all kept.
type Group<'a> = Vec<(&'a str, Option<Fraction>, &'a Value)>;

fn first(group: &Group<'_>, word: &str) -> Option<Fraction> {
    group.iter().find(|(step, ..)| *step == word).and_then(|(_, amount, _)| amount.clone())
}

fn percent(group: &Group<'_>, word: &str) -> Option<Fraction> {
    first(group, word).map(|percent| percent / whole(100))
}

fn groups(json: &Value) -> BTreeMap<(String, String), BTreeMap<u64, Group<'_>>> {
    let mut all: BTreeMap<(String, String), BTreeMap<u64, Group<'_>>> = BTreeMap::new();
    for step in json["steps"].as_array().unwrap() {
        let of = (step["of_what"].as_str().unwrap().to_owned(), step["of"].as_str().unwrap().to_owned());
        let amount = step["amount"].as_str().map(decimal);
        let group = all.entry(of).or_default().entry(step["line"].as_u64().unwrap()).or_default();
        group.push((step["step"].as_str().unwrap(), amount, step));
    }
    all
}

/// Every sum within one explanation.
pub fn check(json: &Value, sums: &mut Sums) {
    let all = groups(json);
    for ((what, of), lines) in &all {
        let whole_of = lines.get(&0).cloned().unwrap_or_default();
        let own: Vec<&Group<'_>> = lines.iter().filter(|(line, _)| **line > 0).map(|(_, group)| group).collect();
        match what.as_str() {
            "recipe" => recipe(of, &whole_of, &own, sums, &all),
            "dish" => dish(of, &whole_of, sums, &all),
            "yield test" => test(of, &whole_of, &own, sums),
            _ => item(of, &whole_of, sums),
        }
    }
    prices(json, sums);
}

fn sum(parts: impl Iterator<Item = Fraction>) -> Fraction {
    parts.fold(whole(0), |sum, part| sum + part)
}

fn line(of: &str, group: &Group<'_>, sums: &mut Sums) {
    let Some(cost) = first(group, "cost") else { return };
    let name = group[0].2["name"].as_str().unwrap();
    let what = format!("{of}: {name}");
    let measured = first(group, "measured").unwrap();
    let drawn = first(group, "drawn").unwrap_or_else(|| measured.clone());
    let unit = first(group, "unit cost").unwrap();
    let used = percent(group, "used").unwrap_or_else(|| whole(1));
    sums.hold(&format!("{what}: the line"), &(&drawn * unit * used), &cost, &whole(0));
    // What is drawn is what was measured, by its yield or not.
    if first(group, "drawn").is_some() {
        let left = percent(group, "yield").unwrap();
        let (over, times) = (&measured / &left, &measured * &left);
        let near = if abs(&(&over - &drawn)) < abs(&(&times - &drawn)) { over } else { times };
        sums.hold(&format!("{what}: what is drawn"), &near, &drawn, &whole(0));
    }
}

type Groups<'a> = BTreeMap<(String, String), BTreeMap<u64, Group<'a>>>;

fn recipe(of: &str, totals: &Group<'_>, lines: &[&Group<'_>], sums: &mut Sums, all: &Groups<'_>) {
    lines.iter().for_each(|group| line(of, group, sums));
    let Some(food) = first(totals, "food cost") else { return };
    sums.hold(&format!("{of}: food"), &sum(lines.iter().filter_map(|group| first(group, "cost"))), &food, &whole(0));
    let batch = first(totals, "batch cost").unwrap();
    let on_top = sum(["Q", "spice"].iter().filter_map(|word| first(totals, word)));
    sums.hold(&format!("{of}: batch"), &(food + on_top), &batch, &whole(0));
    if let Some(portion) = first(totals, "portion cost") {
        let portions = first(totals, "portions").unwrap();
        sums.hold(&format!("{of}: portion"), &(portion * portions), &batch, &whole(0));
    }
    // What is made of it elsewhere costs what it makes here, by its measures, portions and batches.
    for (key, unit, from) in unit_costs(all) {
        let many = match from {
            from if from == format!("the recipe {of}") && key != of => first(totals, "makes"),
            from if from == format!("a portion of {of}") => first(totals, "portions"),
            from if from == format!("a batch of {of}") => Some(whole(1)),
            _ => continue,
        };
        sums.hold(&format!("{key}: a unit of {of}"), &(unit * many.unwrap()), &batch, &whole(0));
    }
}

/// What each line of a recipe costs by the unit, and where that is from.
fn unit_costs<'a>(all: &'a Groups<'_>) -> impl Iterator<Item = (&'a str, &'a Fraction, &'a str)> {
    let recipes = all.iter().filter(|((what, _), _)| what == "recipe");
    let groups = recipes.flat_map(|((_, of), lines)| lines.values().map(move |group| (of.as_str(), group)));
    groups.filter_map(|(of, group)| {
        let (_, unit, step) = group.iter().find(|(word, ..)| *word == "unit cost")?;
        Some((of, unit.as_ref()?, step["from"].as_str()?))
    })
}

/// A plate of a dish is its share of the batch, and what a line that names it costs each.
fn plate(of: &str, steps: &Group<'_>, sums: &mut Sums, all: &Groups<'_>) {
    let Some(plate) = first(steps, "plate cost") else { return };
    let batch = first(steps, "cost of the batch").unwrap();
    let share = percent(steps, "share of the batch").unwrap();
    sums.hold(&format!("{of}: a plate"), &(&batch * share), &plate, &whole(0));
    let (.., step) = steps.iter().find(|(word, ..)| *word == "cost of the batch").unwrap();
    let recipe = step["from"].as_str().unwrap().strip_prefix("the recipe ").unwrap();
    let walked = all.get(&("recipe".to_owned(), recipe.to_owned())).and_then(|recipe| recipe.get(&0));
    if let Some(walked) = walked.and_then(|recipe| first(recipe, "batch cost")) {
        sums.hold(&format!("{of}: the batch"), &walked, &batch, &whole(0));
    }
    let named = format!("the dish {of}, ");
    let lines: Vec<_> = unit_costs(all).filter(|(_, _, from)| from.starts_with(&named)).collect();
    assert!(!lines.is_empty(), "{of} is a plate of no line");
    for (key, unit, _) in lines {
        sums.hold(&format!("{key}: a plate of {of}"), unit, &plate, &whole(0));
    }
}

fn dish(of: &str, steps: &Group<'_>, sums: &mut Sums, all: &Groups<'_>) {
    plate(of, steps, sums, all);
    let Some(cost) = first(steps, "portion cost") else { return };
    let food = first(steps, "food cost").unwrap();
    let share = percent(steps, "share of the batch").unwrap();
    let of_batch = first(steps, "food cost of the batch").unwrap() * share;
    sums.hold(&format!("{of}: share"), &of_batch, &food, &whole(0));
    let on_top = sum(["Q", "spice"].iter().filter_map(|word| first(steps, word)));
    sums.hold(&format!("{of}: portion cost"), &(food + on_top), &cost, &whole(0));
    let Some(ex_tax) = first(steps, "price without tax") else { return };
    let tax = percent(steps, "tax within").unwrap_or_else(|| whole(0));
    let price = first(steps, "menu price").unwrap();
    sums.hold(&format!("{of}: tax"), &(&ex_tax * (whole(1) + tax)), &price, &whole(0));
    let fraction = percent(steps, "food cost %").unwrap();
    sums.hold(&format!("{of}: food cost %"), &(&fraction * &ex_tax), &cost, &whole(0));
    sums.hold(&format!("{of}: margin"), &(&ex_tax - &cost), &first(steps, "margin").unwrap(), &ex_tax);
    if let Some(over) = percent(steps, "over target") {
        let target = percent(steps, "target %").unwrap();
        sums.hold(&format!("{of}: over"), &(over + target), &fraction, &whole(0));
    }
}

fn test(of: &str, totals: &Group<'_>, lines: &[&Group<'_>], sums: &mut Sums) {
    let Some(all) = first(totals, "all that went in") else { return };
    for group in lines.iter().filter(|group| first(group, "cost").is_some()) {
        let weight = first(group, "drawn").or_else(|| first(group, "went in")).or_else(|| first(group, "added"));
        let made = weight.unwrap() * first(group, "unit cost").unwrap();
        sums.hold(&format!("{of}: went in"), &made, &first(group, "cost").unwrap(), &whole(0));
    }
    sums.hold(&format!("{of}: went in"), &sum(lines.iter().filter_map(|group| first(group, "cost"))), &all, &whole(0));
    let credits = sum(lines.iter().filter_map(|group| first(group, "credit")));
    let borne = sum(lines.iter().filter_map(|group| first(group, "borne")));
    let left = first(totals, "left to share").unwrap();
    sums.hold(&format!("{of}: left"), &(&all - &credits), &left, &all);
    sums.hold(&format!("{of}: borne"), &borne, &left, &all);
    for group in lines {
        let name = group[0].2["name"].as_str().unwrap();
        let weight = first(group, "came out");
        let bears = first(group, "credit").or_else(|| first(group, "borne"));
        if let (Some(weight), Some(charge)) = (&weight, first(group, "charge")) {
            sums.hold(&format!("{of}: charge of {name}"), &(weight * charge), bears.as_ref().unwrap(), &all);
        }
        if let (Some(weight), Some(unit)) = (&weight, first(group, "cost by weight")) {
            sums.hold(&format!("{of}: {name} by weight"), &(weight * unit), bears.as_ref().unwrap(), &whole(0));
        }
        if let Some(share) = percent(group, "share of what is left") {
            sums.hold(&format!("{of}: share of {name}"), &(&left * share), bears.as_ref().unwrap(), &whole(0));
        }
    }
}

fn item(of: &str, steps: &Group<'_>, sums: &mut Sums) {
    let price = first(steps, "price").unwrap();
    let tax = percent(steps, "tax within").unwrap_or_else(|| whole(0));
    let on_top = first(steps, "further cost").unwrap_or_else(|| whole(0));
    let back = first(steps, "credit on the price").unwrap_or_else(|| whole(0));
    let made = &price / (whole(1) + tax) + on_top - back;
    let paid = first(steps, "paid").unwrap_or_else(|| price.clone());
    sums.hold(&format!("{of}: paid"), &made, &paid, &price);
    let unit = first(steps, "unit cost").unwrap();
    sums.hold(&format!("{of}: unit cost"), &(first(steps, "buys").unwrap() * &unit), &paid, &whole(0));
    // What a yield test makes of it holds credits: that adds up within the test.
    let is_tested =
        steps.iter().any(|(word, _, step)| *word == "yield" && step["from"].as_str().unwrap().contains("test"));
    if let Some(edible) = first(steps, "cost after trimming").filter(|_| !is_tested) {
        sums.hold(&format!("{of}: edible"), &(edible * percent(steps, "yield").unwrap()), &unit, &whole(0));
    }
}

/// A hundred times one percent of every price, and what no price moves, is all of it.
fn prices(json: &Value, sums: &mut Sums) {
    let Some(cost) = json["cost"].as_str().map(decimal) else { return };
    let adds: Vec<Fraction> =
        json["one_percent"].as_array().unwrap().iter().map(|one| decimal(one["adds"].as_str().unwrap())).collect();
    let size = sum(adds.iter().map(abs)) * whole(100);
    let others = decimal(json["one_percent_others"].as_str().unwrap());
    let unmoved = decimal(json["unmoved"].as_str().unwrap());
    sums.hold("one percent", &((sum(adds.into_iter()) + others) * whole(100) + unmoved), &cost, &size);
}

/// Everything of a book that can be asked about adds up, and is what the costing says.
fn everything(reading: &Reading, costing: &Costing, sums: &mut Sums) {
    let costs = json_of(reading, costing);
    let problems = reading.problems_with(costing);
    for subject in Subject::all(&reading.kitchen) {
        let json = explained(reading, costing, subject, &problems);
        check(&json, sums);
        let said = match subject {
            Subject::Dish(index) => Some(&costs["dishes"][index]["portion_cost"]),
            Subject::Recipe(id) => Some(&costs["recipes"][id.index()]["batch_cost"]),
            Subject::Part(_) | Subject::Item(_) => None,
        };
        if let Some(said) = said.filter(|said| **said != json["cost"]) {
            sums.differ.push(format!("{} is {}, by cost {said}", json["name"], json["cost"]));
        }
        let last = match subject {
            Subject::Dish(_) => "portion cost",
            Subject::Recipe(_) => "batch cost",
            Subject::Part(_) | Subject::Item(_) => "",
        };
        let steps = json["steps"].as_array().unwrap();
        let found = steps.iter().find(|step| step["of"] == json["name"] && step["step"] == last);
        if let Some(found) = found.filter(|found| found["amount"] != json["cost"]) {
            sums.differ.push(format!("{} is {}, walked {}", json["name"], json["cost"], found["amount"]));
        }
        // Nothing is unknown without a reason; only a part that weighs nothing has no cost by weight.
        let weightless = matches!(subject, Subject::Part(id) if costing.part(id).is_some());
        if json["cost"].is_null() && json["stopped_by"].as_array().unwrap().is_empty() && !weightless {
            sums.differ.push(format!("{}: not known, and nothing says why", json["name"]));
        }
    }
}

#[test]
fn every_figure_of_every_sample_and_template_adds_up() {
    let mut sums = Sums::default();
    for files in books() {
        let (reading, costing) = costed(&files);
        everything(&reading, &costing, &mut sums);
    }
    assert!(sums.differ.is_empty(), "{:#?}", sums.differ);
    assert!(sums.made > 5_000, "only {} sums were made", sums.made);
}

#[test]
fn every_figure_of_kitchens_of_chance_adds_up() {
    crate::model::over_books(8, |book| {
        let mut sums = Sums::default();
        let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
        everything(&reading, &costing, &mut sums);
        if sums.differ.is_empty() { Ok(sums.made) } else { Err(sums.differ.join("\n")) }
    });
}

/// A checker that lets everything pass would prove nothing.
#[test]
fn a_figure_that_is_planted_wrong_is_found() {
    let files = &books()[0];
    let (reading, costing) = costed(files);
    let problems = reading.problems_with(&costing);
    let soup = explained(&reading, &costing, Subject::Dish(0), &problems);
    let mut sound = Sums::default();
    check(&soup, &mut sound);
    assert!(sound.differ.is_empty() && sound.made > 50, "{:?}", sound.differ);
    let words =
        ["cost", "unit cost", "food cost", "Q", "batch cost", "portion cost", "credit", "borne", "buys", "price"];
    for word in words {
        let mut planted = soup.clone();
        let steps = planted["steps"].as_array_mut().unwrap();
        let amount = steps.iter_mut().find(|step| step["step"] == word && step["amount"] != "0").unwrap();
        // A millionth more.
        let more = decimal(amount["amount"].as_str().unwrap()) * decimal("1.000001");
        let text = crate::model::fraction::rounded(&more, 20);
        amount["amount"] = Value::String(plain(&text));
        let mut sums = Sums::default();
        check(&planted, &mut sums);
        assert!(!sums.differ.is_empty(), "a wrong {word} was not found");
    }
}

/// A fraction of at most 20 decimals, written out.
fn plain(x: &Fraction) -> String {
    let scale = decimal("100000000000000000000");
    let digits = (x * scale).to_integer().to_string();
    let padded = format!("{digits:0>21}");
    let (before, after) = padded.split_at(padded.len() - 20);
    format!("{before}.{after}")
}
