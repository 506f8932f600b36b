//! The same kitchen three times: trim binned, reused free, reused with a credit. Who gains, and what is really saved.

use super::super::table::{TextColumn, TextRow, table};
use super::super::{Emphasis, printable};
use super::TrimPage;
use crate::analysis::trim_savings::{DishWorth, PartWorth, PlanTotals, PlanWorth, Worth};
use crate::number::{Decimal, plain};
use crate::results::display_units::DisplayUnit;
use crate::results::figures::{NONE, amount, per_unit, percent, shown};

const COLUMNS: [TextColumn; 4] = [
    TextColumn { header: &["Portions"], figures: true },
    TextColumn { header: &["Trim", "binned"], figures: true },
    TextColumn { header: &["Reused,", "free"], figures: true },
    TextColumn { header: &["Reused,", "credited"], figures: true },
];

const SAVED: [TextColumn; 6] = [
    TextColumn { header: &["Used"], figures: true },
    TextColumn { header: &["Not", "bought"], figures: true },
    TextColumn { header: &["Sale", "given up"], figures: true },
    TextColumn { header: &["Further", "cost"], figures: true },
    TextColumn { header: &["Haulage", "spared"], figures: true },
    TextColumn { header: &["Saved"], figures: true },
];

/// The three kitchens, and what the trim saves.
pub(super) fn worth(page: &TrimPage<'_>, worth: &Worth, minutes: Option<Decimal>) -> String {
    let mut out = Emphasis::Strong.on("What is using trim worth?", page.view);
    out.push('\n');
    out.push_str(&page.say(
        "The same kitchen three times. Binned: the mains bear everything, and who wants trim buys what it stands in for. \
         Free: trim is used and charged nothing. Credited: as the book charges it. Trim marked sold that is left over earns \
         its price in all three. Food alone, without Q and spice.",
    ));
    out.push('\n');
    out.push_str(&table("Food in a portion", &COLUMNS, &portions(page, worth), page.view));
    if let Some(plan) = &worth.plan {
        out.push('\n');
        out.push_str(&table("Over the plan", &COLUMNS, &totals(page, plan), page.view));
    }
    out.push_str(&unknown(page, worth));
    out.push('\n');
    out.push_str(&page.say(
        "Free and credited come to the same: a credit moves cost from the dish that makes the trim to the dish that uses it, \
         and saves nothing by itself. What is saved is what they come to less than binned: what need not be bought, less \
         what using it costs.",
    ));
    if let Some(plan) = &worth.plan {
        out.push('\n');
        out.push_str(&saved(page, worth, plan, minutes));
    }
    out.push_str(&made_of_trim(page, worth));
    out
}

fn portions(page: &TrimPage<'_>, worth: &Worth) -> Vec<TextRow> {
    let planned_only = worth.plan.is_some();
    let rows = worth.dishes.iter().filter(|dish| !planned_only || dish.portions.is_some()).map(|dish| {
        let portions = dish.portions.map_or(NONE.to_owned(), crate::number::plain);
        let mut cells = vec![(portions, Emphasis::Plain)];
        cells.extend(dish.food.iter().map(|food| (shown(*food, page.places), Emphasis::Plain)));
        TextRow { name: printable(page.kitchen.served_name(dish.served)), cells }
    });
    rows.collect()
}

fn totals(page: &TrimPage<'_>, plan: &PlanWorth) -> Vec<TextRow> {
    let row = |name: &str, ink: Emphasis, of: fn(&PlanTotals) -> Decimal| {
        let mut cells = vec![(String::new(), Emphasis::Plain)];
        cells.extend(plan.totals.iter().map(|total| (shown(total.as_ref().map(of), page.places), ink)));
        TextRow { name: name.to_owned(), cells }
    };
    // What is nothing in every kitchen is not told.
    let any = |of: fn(&PlanTotals) -> Decimal| plan.totals.iter().flatten().any(|total| !of(total).is_zero());
    let mut rows = vec![
        row("In the dishes", Emphasis::Plain, |total| total.served),
        row("and left over", Emphasis::Plain, |total| total.left_over),
        row("less what was on hand", Emphasis::Plain, |total| total.on_hand),
    ];
    if any(|total| total.sold) {
        rows.push(row("less what is sold", Emphasis::Plain, |total| total.sold));
    }
    rows.push(row("What the plan brings in", Emphasis::Strong, |total| total.brought_in));
    let using = [
        ("and further cost of using trim", (|total| total.further_cost) as fn(&PlanTotals) -> Decimal),
        ("less haulage spared", |total| total.haulage),
    ];
    let using: Vec<TextRow> =
        using.into_iter().filter(|(_, of)| any(*of)).map(|(name, of)| row(name, Emphasis::Plain, of)).collect();
    if !using.is_empty() {
        rows.extend(using);
        rows.push(row("What it comes to", Emphasis::Strong, |total| total.comes_to));
    }
    rows.push(row("To buy, before whole packs", Emphasis::Plain, |total| total.purchases));
    rows
}

/// Which parts nobody can judge.
fn unknown(page: &TrimPage<'_>, worth: &Worth) -> String {
    let silent: Vec<&str> = worth
        .parts
        .iter()
        .filter(|part| part.buy_in.is_none() && part.used.is_none_or(|used| !used.is_zero()))
        .filter_map(|part| page.kitchen.part(part.part).map(|part| part.name.as_str()))
        .collect();
    if silent.is_empty() {
        return String::new();
    }
    let mut out = String::from("\n");
    out.push_str(&page.point(&format!(
        "Nothing says what {} would cost to buy, so what binning it costs is not known, which is not nothing. Fill in Instead \
         of in its yield test, such as 2 oz Shellfish base per lb.",
        crate::problem::suggest::quoted_list(&silent, "or")
    )));
    out
}

fn saved(page: &TrimPage<'_>, worth: &Worth, plan: &PlanWorth, minutes: Option<Decimal>) -> String {
    let parts: Vec<&PartWorth> = worth.parts.iter().filter(|part| part.counts()).collect();
    if parts.is_empty() {
        return page.say("The plan uses no trim, so nothing is saved by it.");
    }
    let rows: Vec<TextRow> = parts.iter().filter_map(|part| row(page, part)).collect();
    let mut out = table("What the plan's trim saves", &SAVED, &rows, page.view);
    out.push('\n');
    match plan.saving {
        Some(saving) => out.push_str(&page.say(&format!(
            "In all {} are really saved over the plan. Using the trim is worth while as long as the extra labor costs less than that.",
            page.money(saving)
        ))),
        None => out.push_str(&page.say(&format!(
            "Of the trim that can be judged {} are saved over the plan; the rest is not known.",
            page.money(plan.known_saving)
        ))),
    }
    if let Some(minutes) = minutes.map(plain) {
        out.push_str(&page.point(&format!(
            "At the wage given, {minutes} minutes of labor over the plan use it up: with more, the trim costs more than it saves."
        )));
    }
    for part in &parts {
        out.push_str(&breaks_even(page, part));
    }
    if !plan.unearned.is_zero() {
        let dearer = plan.earned.iter().map(|dish| {
            let name = page.kitchen.served_name(dish.served);
            let (alone, food) = page.both(dish.alone, dish.food);
            format!("{name} {alone} instead of {food}")
        });
        let dearer: Vec<String> = dearer.collect();
        let dearer = if dearer.is_empty() {
            String::new()
        } else {
            format!(" If only the credit that is earned counts, the food in a portion is: {}.", dearer.join("; "))
        };
        out.push_str(&page.point(&format!(
            "Trim that is left over was given {} of credit that no dish has paid for; what it is sold for is taken off.{dearer}",
            page.money(plan.unearned)
        )));
    }
    out
}

/// How much of each dish is trim, and its margin: no sum, since a dish that holds a little would be sold without it.
fn made_of_trim(page: &TrimPage<'_>, worth: &Worth) -> String {
    let planned_only = worth.plan.is_some();
    let dishes = worth.dishes.iter().filter(|dish| dish.of_trim && (!planned_only || dish.portions.is_some()));
    let rows: Vec<TextRow> = dishes.map(|dish| held(page, dish)).collect();
    if rows.is_empty() {
        return String::new();
    }
    let mut out = String::from("\n");
    out.push_str(&table("How much of a dish is trim", &HELD, &rows, page.view));
    out.push('\n');
    out.push_str(&page.say(
        "Of its food: what its trim would cost to buy, beside that and the rest of its food as costed. Where it is half or \
         more, trim makes the dish possible.",
    ));
    out
}

const HELD: [TextColumn; 3] = [
    TextColumn { header: &["Of its", "food %"], figures: true },
    TextColumn { header: &["Margin", "a portion"], figures: true },
    TextColumn { header: &[""], figures: false },
];

fn held(page: &TrimPage<'_>, dish: &DishWorth) -> TextRow {
    let word = match dish.made_possible() {
        Some(true) => "made possible by trim",
        Some(false) => "holds some trim",
        None => "not known",
    };
    TextRow {
        name: printable(page.kitchen.served_name(dish.served)),
        cells: vec![
            (percent(dish.trim_share()), Emphasis::Plain),
            (shown(dish.margin, page.places), Emphasis::Plain),
            (word.to_owned(), Emphasis::Plain),
        ],
    }
}

fn row(page: &TrimPage<'_>, part: &PartWorth) -> Option<TextRow> {
    let test = page.kitchen.test(part.part.test)?;
    let unit = DisplayUnit::of_test(page.kitchen, test);
    let money = |amount: Option<Decimal>| (shown(amount, page.places), Emphasis::Plain);
    let cells = vec![
        (format!("{} {}", amount(part.used.unwrap_or_default(), &unit), unit.name), Emphasis::Plain),
        money(part.not_bought),
        money(Some(part.not_sold)),
        money(Some(part.further_cost)),
        money(Some(part.haulage)),
        (shown(part.saved, page.places), Emphasis::Strong),
    ];
    Some(TextRow { name: printable(&page.kitchen.part(part.part)?.name), cells })
}

/// The price at which buying would cost no more than using.
fn breaks_even(page: &TrimPage<'_>, part: &PartWorth) -> String {
    let (Some(rate), Some(buy_in)) = (part.breaks_even_at, part.buy_in) else { return String::new() };
    if rate.money <= Decimal::ZERO {
        return String::new();
    }
    let Some(test) = page.kitchen.test(part.part.test) else { return String::new() };
    let unit = DisplayUnit::of_test(page.kitchen, test);
    let name = page.kitchen.part(part.part).map(|part| part.name.as_str()).unwrap_or_default();
    page.point(&format!(
        "{name}: using it costs {} a {}; buying what it stands in for costs {}. Below the first it would be cheaper to buy.",
        per_unit(Some(rate), &unit, page.places),
        unit.name,
        per_unit(Some(buy_in), &unit, page.places)
    ))
}
