//! Trim balance: is there enough? What the plan makes, wants and leaves of every part, and what the day must buy.

use super::super::table::{TextColumn, TextRow, table};
use super::super::{Emphasis, printable};
use super::TrimPage;
use crate::analysis::balance::{Balance, PartBalance, Serving, TestBalance};
use crate::analysis::trim_savings::{Worth, buy_in_of, portion_cost, stand_in_cost};
use crate::analysis::where_used::Reach;
use crate::kitchen::yield_test::{Role, Test};
use crate::kitchen::{Kitchen, PartId, TestId};
use crate::number::Decimal;
use crate::results::display_units::DisplayUnit;
use crate::results::figures::{NONE, amount, shown};
use crate::results::not_weighed::{StockColumn, not_weighed};

const COLUMNS: [TextColumn; 6] = [
    TextColumn { header: &["On", "hand"], figures: true },
    TextColumn { header: &["Made"], figures: true },
    TextColumn { header: &["Wanted"], figures: true },
    TextColumn { header: &["Left", "over"], figures: true },
    TextColumn { header: &["Too", "old"], figures: true },
    TextColumn { header: &["Short"], figures: true },
];

/// The balance of every test that the plan touches, then what was left out.
pub(super) fn balance(page: &TrimPage<'_>, balance: &Balance, worth: Option<&Worth>) -> String {
    let mut out = Emphasis::Strong.on("Is there enough trim for the plan?", page.view);
    out.push('\n');
    out.push_str(&page.say(&planned(page.kitchen, balance)));
    for (id, test) in page.kitchen.test_ids().zip(&page.kitchen.tests) {
        let Some(Some(of_test)) = balance.tests.get(id.index()) else { continue };
        let touched = |part: &PartBalance| !(part.wanted.is_zero() && part.made.is_zero() && part.on_hand.is_zero());
        if of_test.parts.iter().any(touched) {
            out.push('\n');
            out.push_str(&of(page, id, test, balance, of_test));
        }
    }
    let mut points = String::new();
    for (id, test) in page.kitchen.test_ids().zip(&page.kitchen.tests) {
        for part in page.kitchen.part_ids(id) {
            points.push_str(&shortage(page, balance, worth, test, part));
        }
    }
    if let Some(promise) = &balance.promise {
        points.push_str(&super::enough::enough(page, promise));
    }
    for row in &balance.not_counted {
        if let Some(told) = not_weighed(page.kitchen, page.costing, *row, StockColumn::OnHand) {
            points.push_str(&page.point(&told));
        }
    }
    if !points.is_empty() {
        out.push('\n');
        out.push_str(&points);
    }
    out
}

/// `The plan: 36 Chilled shrimp, 44 Smoky soup; 2 days.`
fn planned(kitchen: &Kitchen, balance: &Balance) -> String {
    let served = balance.servings.iter().map(|serving| {
        let name = kitchen.served_name(serving.served);
        let left_out = if serving.costed { "" } else { " (not costed, so it takes nothing here)" };
        format!("{} × {name}{left_out}", crate::number::plain(serving.portions))
    });
    let days = &kitchen.plan.days;
    let over = if days.are_named() && days.len() > 1 { format!(" over {} days", days.len()) } else { String::new() };
    format!("Planned{over}: {}.", served.collect::<Vec<_>>().join(", "))
}

fn of(page: &TrimPage<'_>, id: TestId, test: &Test, all: &Balance, balance: &TestBalance) -> String {
    let unit = DisplayUnit::of_test(page.kitchen, test);
    let pieces = match balance.pieces {
        Some(pieces) => format!("{} whole, ", shown(Some(pieces), 0)),
        None => String::new(),
    };
    let input = crate::results::allergen_ways::name_of(page.kitchen, test.input);
    let mut out = page.say(&format!(
        "{}: {pieces}{} {} of {input} must go in.",
        test.name,
        amount(balance.goes_in, &unit),
        unit.name
    ));
    let mut rows = Vec::new();
    for (id, (part, balance)) in page.kitchen.part_ids(id).zip(test.parts.iter().zip(&balance.parts)) {
        if part.role == Role::Waste {
            continue;
        }
        let keeps = part.reuse.keeps.map(|days| format!(", keeps {} days", crate::number::plain(days)));
        let name = format!("{} ({}{})", printable(&part.name), part.role.word(), keeps.unwrap_or_default());
        rows.push(TextRow { name, cells: cells(balance, &unit) });
        for (day, balance) in all.by_day(id) {
            let day = page.kitchen.plan.days.names.get(day).map(String::as_str).unwrap_or_default();
            rows.push(TextRow { name: format!("· {}", printable(day)), cells: cells(&balance, &unit) });
        }
    }
    out.push_str(&table(&format!("In {}", unit.name), &COLUMNS, &rows, page.view));
    out
}

/// A part's weights, over the plan or on one day.
fn cells(balance: &PartBalance, unit: &DisplayUnit) -> Vec<(String, Emphasis)> {
    let cell = |grams: Decimal, ink: Emphasis| {
        if grams.is_zero() { (NONE.to_owned(), Emphasis::Faint) } else { (amount(grams, unit), ink) }
    };
    vec![
        cell(balance.on_hand, Emphasis::Plain),
        cell(balance.made, Emphasis::Plain),
        cell(balance.wanted, Emphasis::Plain),
        cell(balance.left_over, Emphasis::Plain),
        cell(balance.too_old, Emphasis::Bad),
        cell(balance.short, Emphasis::Bad),
    ]
}

/// What a part that runs short does to the dishes that want it.
fn shortage(page: &TrimPage<'_>, balance: &Balance, worth: Option<&Worth>, test: &Test, id: PartId) -> String {
    let (Some(part), Some(of_part)) = (page.kitchen.part(id), balance.part(id)) else { return String::new() };
    if of_part.short.is_zero() {
        return String::new();
    }
    let unit = DisplayUnit::of_test(page.kitchen, test);
    let reach = Reach::of(page.kitchen, page.costing, id.test);
    let takes_it = |serving: &&Serving| reach.served(page.kitchen, serving.served).contains(&id.index());
    let servings: Vec<&Serving> = balance.servings.iter().filter(takes_it).collect();
    let short = amount(of_part.short, &unit);
    let text = match buy_in_of(page.kitchen, page.costing, part) {
        Some(_) => {
            let cost = stand_in_cost(page.kitchen, page.costing, part, of_part.short);
            let stands_in = part.buy_in.as_ref().map(|buy_in| {
                crate::results::allergen_ways::name_of(
                    page.kitchen,
                    crate::kitchen::recipe::IngredientSource::Bought(buy_in.item),
                )
            });
            let moved = servings.iter().filter_map(|serving| {
                let before = portion_cost(page.costing, serving.served)?;
                let after = portion_cost(&worth?.planned, serving.served).filter(|after| *after != before)?;
                let name = page.kitchen.served_name(serving.served);
                let (before, after) = page.both(before, after);
                Some(format!("{name} from {before} to {after}"))
            });
            let moved: Vec<String> = moved.collect();
            let moved =
                if moved.is_empty() { String::new() } else { format!(" A portion of {}.", moved.join(", of ")) };
            format!(
                "{} {} of {} are short: what stands in for it, {}, costs {}.{moved}",
                short,
                unit.name,
                part.name,
                stands_in.unwrap_or_default(),
                cost.map(|cost| page.money(cost)).unwrap_or_default()
            )
        }
        None => {
            format!(
                "{} {} of {} are short, and nothing says what would be bought instead. Fill in Instead of to see what the \
                 rest would cost.",
                short, unit.name, part.name,
            )
        }
    };
    page.point(&text)
}
