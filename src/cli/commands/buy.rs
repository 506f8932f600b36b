//! `buy`: what to order for the plan, and sheets of it to print and tick.

use jiff::ZonedDateTime;

use super::{costed, tell};
use crate::analysis::OrderList;
use crate::cli::args::{BuyArgs, Common, Format};
use crate::cli::exit::Exit;
use crate::cli::inputs::BookFiles;
use crate::cli::output::Target;
use crate::cli::stop::Stop;
use crate::cli::terminal::Terminal;
use crate::kitchen::{Kitchen, NameKey};
use crate::output::{csv, json, text};
use crate::problem::names::Names;
use crate::write_order;

/// Runs the command.
///
/// # Errors
/// [`Stop`] when a file cannot be read or written, none holds a table that parings knows, the plan asks for more than can be counted, or
/// nothing is ordered from the supplier asked for.
pub fn run(args: &BuyArgs, common: &Common, terminal: &Terminal) -> Result<Exit, Stop> {
    let inputs = BookFiles::open(&args.books)?;
    let asked = args.output.as_deref();
    let target = asked.map(|_| Target::find(asked, inputs.paths(), "order", common.force)).transpose()?;
    let progress = terminal.progress();
    let (reading, costing) = costed(inputs, common, &progress)?;
    let kitchen = &reading.kitchen;
    let mut list = OrderList::of(kitchen, &costing).map_err(|_| Stop::PlanTooLarge)?;
    if let (Some(list), Some(supplier)) = (&mut list, &args.supplier) {
        only(kitchen, list, supplier)?;
    }
    let problems = reading.problems_with(&costing);
    let written = match target {
        Some(target) => {
            let name = target.name().to_owned();
            progress.doing(format!("Writing {}", name.display()));
            target.write(&write_order(&reading, &costing, list.as_ref(), ZonedDateTime::now().datetime())?)?;
            Some(name)
        }
        None => None,
    };
    drop(progress);
    let results = match common.format {
        Format::Table => text::order_list(kitchen, &costing, list.as_ref(), terminal.results_view()),
        Format::Json => json::order_list(kitchen, &costing, list.as_ref(), &problems),
        Format::Csv => csv::order_list(kitchen, &costing, list.as_ref()),
    };
    terminal.results(common.format, &results)?;
    if let Some(name) = written {
        terminal.notes(&format!("\nWrote {}\n", text::printable(&name.to_string_lossy())));
    }
    tell(&problems, &args.books, common, terminal);
    Ok(Exit::after(&problems))
}

/// Leaves the order of one supplier.
fn only(kitchen: &Kitchen, list: &mut OrderList, supplier: &str) -> Result<(), Stop> {
    let wanted = NameKey::of(supplier);
    let names: Names = list.orders.iter().map(|order| order.supplier.as_str()).collect();
    let near = names.answer(supplier, "Orders go to").map(|near| format!(". {near}")).unwrap_or_default();
    list.orders.retain(|order| NameKey::of(&order.supplier) == wanted);
    list.covered.retain(|line| {
        let row = line.row.and_then(|row| kitchen.entries.prices.get(row));
        row.is_some_and(|row| NameKey::of(&row.supplier) == wanted)
    });
    if list.orders.is_empty() {
        return Err(Stop::NoOrder { supplier: supplier.to_owned(), near });
    }
    Ok(())
}
