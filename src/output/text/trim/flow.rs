//! Flow of weight and money through one yield test, how its runs differ, and what has moved since.

use super::super::table::{TextColumn, TextRow, table};
use super::super::{Emphasis, many, printable};
use super::TrimPage;
use crate::analysis::cost_factor::Factors;
use crate::analysis::missing_input::Lack;
use crate::analysis::run_variation::{RunOf, Spread};
use crate::costing::{PartCost, TestCost};
use crate::kitchen::TestId;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::{Charge, Part, Role, Test};
use crate::number::Decimal;
use crate::results::allergen_ways::name_of;
use crate::results::charge_words;
use crate::results::charge_words::ChargeWords;
use crate::results::display_units::DisplayUnit;
use crate::results::distinguishing_decimals;
use crate::results::figures::{NONE, amount, at_most, per_unit, percent, shown};
use crate::results::loss_words;
use crate::results::weight_flow::WeightFlow;

/// How many marks a bar of all that went in takes, what was added included: beans that took up water are no longer than that.
const BAR: i64 = 24;

/// The test's heading and its table.
pub(super) fn flow(page: &TrimPage<'_>, id: TestId, test: &Test) -> String {
    let mut out = Emphasis::Strong.on(&printable(&test.name), page.view);
    out.push('\n');
    let Some(cost) = page.costing.test(id) else {
        out.push_str(&page.say("Not costed: see the problems."));
        return out;
    };
    let unit = DisplayUnit::of_test(page.kitchen, test);
    let flow = WeightFlow::of(cost);
    out.push_str(&page.say(&went_in(page, test, cost, &unit)));
    out.push('\n');
    let columns = [
        TextColumn { header: &["Weight"], figures: true },
        TextColumn { header: &["Of what", "went in %"], figures: true },
        TextColumn { header: &[""], figures: false },
        TextColumn { header: &["Charged as"], figures: false },
        TextColumn { header: &["Bears"], figures: true },
        TextColumn { header: &["Per", "unit"], figures: true },
    ];
    let mut rows: Vec<TextRow> = test
        .parts
        .iter()
        .zip(&cost.parts)
        .map(|(part, figures)| part_row(page, test, part, figures, &unit, &flow))
        .collect();
    rows.push(lost(test, &unit, &flow));
    if !cost.taken_up_grams.is_zero() {
        let name = printable(&loss_words::taken_up(&page.kitchen.entries, test));
        rows.push(no_part(name, cost.taken_up_grams, flow.taken_up(), String::new(), &unit));
    }
    out.push_str(&table(&format!("Out of it came, in {}", unit.name), &columns, &rows, page.view));
    out
}

/// `2 runs: 15 lb of White shrimp went in, $94.50 at today's price.`
fn went_in(page: &TrimPage<'_>, test: &Test, cost: &TestCost, unit: &DisplayUnit) -> String {
    let runs = if test.runs.len() > 1 {
        let rows = test.runs.iter().filter_map(|run| page.kitchen.entries.tests.get(run.row));
        let dates = rows.filter_map(|row| row.date.given().copied());
        let between = match dates.clone().min().zip(dates.max()) {
            Some((first, last)) if first < last => format!(" of {first} to {last}"),
            _ => String::new(),
        };
        format!("{}{between} taken together: ", many(test.runs.len(), "run", "runs"))
    } else {
        String::new()
    };
    let name = name_of(page.kitchen, test.input);
    let added = if cost.added_grams.is_zero() {
        String::new()
    } else {
        format!(
            ", with {} {} of {} added",
            amount(cost.added_grams, unit),
            unit.name,
            loss_words::added(&page.kitchen.entries, test)
        )
    };
    format!(
        "{runs}{} {} of {name} went in{added}; today that is {}.",
        amount(cost.grams, unit),
        unit.name,
        page.money(cost.cost)
    )
}

fn part_row(
    page: &TrimPage<'_>,
    test: &Test,
    part: &Part,
    figures: &PartCost,
    unit: &DisplayUnit,
    flow: &WeightFlow<'_>,
) -> TextRow {
    let plain = |text: String| (text, Emphasis::Plain);
    TextRow {
        name: format!("{} ({})", printable(&part.name), part.role.word()),
        cells: vec![
            plain(amount(figures.grams, unit)),
            plain(percent(Some(figures.fraction))),
            (bar(figures.grams, flow), ink_of(part.role)),
            plain(printable(&charged(page, test, part))),
            plain(shown(Some(figures.cost), page.places)),
            plain(per_unit(figures.rate, unit, page.places)),
        ],
    }
}

fn lost(test: &Test, unit: &DisplayUnit, flow: &WeightFlow<'_>) -> TextRow {
    let missing = flow.missing_grams();
    let (name, bar) = match flow.is_over() {
        true => (loss_words::OVER, String::new()),
        false => (loss_words::of(test.kind), bar(missing, flow)),
    };
    no_part(name.to_owned(), missing, flow.missing(), bar, unit)
}

/// A row of a weight that no part has.
fn no_part(name: String, grams: Decimal, share: Option<Decimal>, bar: String, unit: &DisplayUnit) -> TextRow {
    let plain = |text: String| (text, Emphasis::Plain);
    TextRow {
        name,
        cells: vec![
            plain(amount(grams, unit)),
            plain(percent(share)),
            (bar, Emphasis::Faint),
            plain(String::new()),
            plain(String::new()),
            plain(String::new()),
        ],
    }
}

fn ink_of(role: Role) -> Emphasis {
    match role {
        Role::Main => Emphasis::Good,
        Role::ByProduct => Emphasis::Doubt,
        _ => Emphasis::Faint,
    }
}

/// A bar as long as the grams are of all.
fn bar(grams: Decimal, flow: &WeightFlow<'_>) -> String {
    "█".repeat(flow.marks(grams, BAR))
}

/// How a part is charged, in a few words.
fn charged(page: &TrimPage<'_>, test: &Test, part: &Part) -> String {
    match (&part.role, &part.charge) {
        (Role::Waste, _) => NONE.to_owned(),
        (_, Charge::Fraction(fraction)) => {
            format!("{} % of the AP price", percent(Some(*fraction)).trim_end_matches(".0"))
        }
        (_, Charge::Price { .. }) => {
            let row = part.rows.first().and_then(|row| page.kitchen.entries.tests.get(*row));
            let said = row.and_then(|row| ChargeWords::of(page.kitchen, test, part, row));
            said.map_or_else(|| charge_words::words(page.kitchen, test, part), |said| said.text())
        }
        (_, Charge::Market(buy_in)) => format!("as {}", name_of(page.kitchen, IngredientSource::Bought(buy_in.item))),
        (_, Charge::Free | Charge::Joint { .. }) => charge_words::words(page.kitchen, test, part),
    }
}

/// How the runs of a test differ, and what that does to a portion.
pub(super) fn runs(page: &TrimPage<'_>, spread: Option<&Spread>) -> String {
    let Some(spread) = spread.filter(|spread| spread.runs.len() > 1) else { return String::new() };
    let mut out = String::from("\n");
    for main in &spread.mains {
        let Some(part) = spread.parts.get(main.part.index()) else { continue };
        let name = page.kitchen.part(main.part).map(|part| part.name.as_str()).unwrap_or_default();
        let share =
            |run: usize| format!("{} % ({})", percent(part.yields.get(run).copied()), called(&spread.runs, run));
        let mut text = format!(
            "{name}: from {} to {} over {} runs, {} % taken together.",
            share(main.worst),
            share(main.best),
            spread.runs.len(),
            percent(Some(part.pooled))
        );
        for run in &part.far_off {
            text.push_str(&format!(" {} lies far from the others: look at it again.", called(&spread.runs, *run)));
        }
        out.push_str(&page.say(&text));
        for dish in &main.dishes {
            let name = page.kitchen.dishes.get(dish.dish).map(|dish| dish.name.as_str()).unwrap_or_default();
            let (Some(best), Some(worst), Some(pooled)) = (dish.best, dish.worst, dish.pooled) else { continue };
            let places = distinguishing_decimals::places(pooled, best, page.places)
                .max(distinguishing_decimals::places(pooled, worst, page.places));
            let [pooled, best, worst] = [pooled, best, worst].map(|money| page.money_to(money, places));
            out.push_str(&page.point(&format!(
                "A portion of {name} is {pooled} as costed, {best} if every run were like the best, {worst} if like the worst.",
            )));
        }
    }
    out
}

fn called(runs: &[RunOf], index: usize) -> String {
    match runs.get(index) {
        Some(RunOf { run, .. }) if !run.is_empty() => format!("run {run}"),
        Some(RunOf { date: Some(date), .. }) => date.to_string(),
        _ => format!("run {}", index.saturating_add(1)),
    }
}

/// What today's price makes of the test, where the price has moved since.
pub(super) fn factors(page: &TrimPage<'_>, test: &Test, factors: Option<&Result<Factors, Vec<Lack>>>) -> String {
    let Some(Ok(factors)) = factors else { return String::new() };
    if !factors.moved {
        return String::new();
    }
    let unit = DisplayUnit::of_test(page.kitchen, test);
    let rate = |rate| per_unit(rate, &unit, page.places);
    let mut out = String::from("\n");
    out.push_str(&page.say(&format!(
        "The price has moved since the test: {} a {} then, {} now. A cost factor kept from then, times today's price:",
        rate(Some(factors.then)),
        unit.name,
        rate(Some(factors.now))
    )));
    for (part, figures) in test.parts.iter().zip(&factors.parts).filter(|(part, _)| part.role == Role::Main) {
        let factor = |factor: Option<Decimal>| factor.map_or(NONE.to_owned(), |factor| at_most(factor, 4));
        out.push_str(&page.point(&format!(
            "{}: factor {} then, {} now; {} a {} by the old factor, {} as it is costed today.",
            part.name,
            factor(figures.then),
            factor(figures.now),
            rate(figures.by_old),
            unit.name,
            rate(figures.today)
        )));
    }
    out
}
