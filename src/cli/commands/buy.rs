//! `buy`: what to order for the plan. Writes nothing.

use super::{costed, tell};
use crate::analysis::OrderList;
use crate::cli::args::{BuyArgs, Common, Format};
use crate::cli::exit::Exit;
use crate::cli::inputs::BookFiles;
use crate::cli::stop::Stop;
use crate::cli::terminal::Terminal;
use crate::kitchen::NameKey;
use crate::output::{csv, json, text};
use crate::problem::names::Names;

/// Runs the command.
///
/// # Errors
/// [`Stop`] when a file cannot be read, none holds a table that parings knows, the plan asks for more than can be counted, or
/// nothing is ordered from the supplier asked for.
pub fn run(args: &BuyArgs, common: &Common, terminal: &Terminal) -> Result<Exit, Stop> {
    let inputs = BookFiles::open(&args.books)?;
    let progress = terminal.progress();
    let (reading, costing) = costed(inputs, common, &progress)?;
    let kitchen = &reading.kitchen;
    let mut list = OrderList::of(kitchen, &costing).map_err(|_| Stop::PlanTooLarge)?;
    if let (Some(list), Some(supplier)) = (&mut list, &args.supplier) {
        only(list, supplier)?;
    }
    let problems = reading.problems_with(&costing);
    drop(progress);
    let results = match common.format {
        Format::Table => text::order_list(kitchen, &costing, list.as_ref(), terminal.results_view()),
        Format::Json => json::order_list(kitchen, &costing, list.as_ref(), &problems),
        Format::Csv => csv::order_list(kitchen, &costing, list.as_ref()),
    };
    terminal.results(common.format, &results)?;
    tell(&problems, &args.books, common, terminal);
    Ok(Exit::after(&problems))
}

/// Leaves the order of one supplier.
fn only(list: &mut OrderList, supplier: &str) -> Result<(), Stop> {
    let wanted = NameKey::of(supplier);
    let names: Names = list.orders.iter().map(|order| order.supplier.as_str()).collect();
    let near = names.did_you_mean(supplier).map(|near| format!(". {near}")).unwrap_or_default();
    list.orders.retain(|order| NameKey::of(&order.supplier) == wanted);
    if list.orders.is_empty() {
        return Err(Stop::NoOrder { supplier: supplier.to_owned(), near });
    }
    Ok(())
}
