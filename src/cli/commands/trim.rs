//! `trim`: what using trim is worth. Writes nothing.

use super::{costed, rows_without_csv};
use crate::analysis::Trim;
use crate::analysis::trim::worth_sweeping;
use crate::cli::args::{Common, Format, TrimArgs, TrimRows};
use crate::cli::exit::Exit;
use crate::cli::inputs::BookFiles;
use crate::cli::stop::Stop;
use crate::cli::terminal::Terminal;
use crate::costing::Costing;
use crate::kitchen::yield_test::Role;
use crate::kitchen::{Kitchen, NameKey, PartId, TestId};
use crate::output::{csv, json, text};
use crate::problem::names::Names;

/// Runs the command.
///
/// # Errors
/// [`Stop`] when a file cannot be read, none holds a table that parings knows, or a by-product is not there.
pub fn run(args: &TrimArgs, common: &Common, terminal: &Terminal) -> Result<Exit, Stop> {
    if args.rows.is_some() && common.format != Format::Csv {
        return Ok(rows_without_csv());
    }
    let inputs = BookFiles::open(&args.books)?;
    let progress = terminal.progress();
    let (reading, costing) = costed(inputs, common, &progress)?;
    let kitchen = &reading.kitchen;
    let trim = Trim::of(kitchen, &costing, &swept(args, kitchen, &costing)?, args.step);
    let trim = Trim { wage: args.wage, ..trim };
    let problems = reading.problems_with(&costing);
    drop(progress);
    let results = match common.format {
        Format::Table => text::trim(kitchen, &costing, &trim, terminal.results_view()),
        Format::Json => json::trim(kitchen, &costing, &trim, &problems),
        Format::Csv => match args.rows {
            Some(TrimRows::Balance) => csv::balance(kitchen, &trim),
            Some(TrimRows::Purchases) => csv::purchases(kitchen, &costing, &trim),
            Some(TrimRows::Portions) => csv::portions(kitchen, &trim),
            None if !args.vary.is_empty() => csv::sweeps(kitchen, &trim),
            Some(TrimRows::Ways) | None => csv::ways(kitchen, &costing, &trim),
        },
    };
    terminal.results(common.format, &results)?;
    Ok(Exit::after(&problems))
}

/// The by-products asked for; otherwise the first that a dish is made of.
fn swept(args: &TrimArgs, kitchen: &Kitchen, costing: &Costing) -> Result<Vec<PartId>, Stop> {
    if args.vary.is_empty() {
        return Ok(worth_sweeping(kitchen, costing).take(1).collect());
    }
    args.vary.iter().map(|name| by_product(kitchen, name)).collect()
}

fn by_product(kitchen: &Kitchen, name: &str) -> Result<PartId, Stop> {
    let wanted = NameKey::of(name);
    let mut names = Vec::new();
    for (index, test) in kitchen.tests.iter().enumerate() {
        for (at, part) in test.parts.iter().enumerate().filter(|(_, part)| part.role == Role::ByProduct) {
            if part.key == wanted || NameKey::of_pair(&test.name, &part.name) == wanted {
                return Ok(PartId::new(TestId::new(index), at));
            }
            names.push(part.name.as_str());
        }
    }
    let near: Names = names.into_iter().collect();
    Err(Stop::NoByProduct {
        name: name.to_owned(),
        near: near.answer(name, "The book has").map(|near| format!(". {near}")).unwrap_or_default(),
    })
}
