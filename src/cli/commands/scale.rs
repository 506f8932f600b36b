//! `scale`: one recipe in another size, and a kitchen card of it to print.

use jiff::ZonedDateTime;

use super::costed;
use crate::analysis::Resized;
use crate::analysis::resize::{Request, Size};
use crate::cli::args::{Common, Format, ScaleArgs};
use crate::cli::exit::Exit;
use crate::cli::inputs::BookFiles;
use crate::cli::output::Target;
use crate::cli::stop::Stop;
use crate::cli::terminal::Terminal;
use crate::output::{csv, json, text};
use crate::write_scaled;

/// Runs the command.
///
/// # Errors
/// [`Stop`] when a file cannot be read or written, none holds a table that parings knows, or the recipe cannot be scaled so.
pub fn run(args: &ScaleArgs, common: &Common, terminal: &Terminal) -> Result<Exit, Stop> {
    let inputs = BookFiles::open(&args.books)?;
    let asked = args.output.as_deref();
    let target = asked.map(|_| Target::find(asked, inputs.paths(), "scaled", common.force)).transpose()?;
    let progress = terminal.progress();
    let (reading, costing) = costed(inputs, common, &progress)?;
    let kitchen = &reading.kitchen;
    let resized = Resized::of(kitchen, &costing, &request(args))?;
    let problems = reading.problems_with(&costing);
    let written = match target {
        Some(target) => {
            let name = target.name().to_owned();
            progress.doing(format!("Writing {}", name.display()));
            target.write(&write_scaled(&reading, &costing, &resized, ZonedDateTime::now().datetime())?)?;
            Some(name)
        }
        None => None,
    };
    drop(progress);
    let results = match common.format {
        Format::Table => text::scale(kitchen, &costing, &resized, &problems, terminal.results_view()),
        Format::Json => json::scale(kitchen, &costing, &resized, &problems),
        Format::Csv => csv::scale(kitchen, &costing, &resized),
    };
    terminal.results(common.format, &results)?;
    if let Some(name) = written {
        terminal.notes(&format!("\nWrote {}\n", text::printable(&name.to_string_lossy())));
    }
    Ok(Exit::after(&problems))
}

fn request(args: &ScaleArgs) -> Request {
    let size = match (&args.to, &args.by) {
        (Some(to), _) => Size::To(to.clone()),
        (None, Some(by)) => Size::By(by.clone()),
        (None, None) => Size::From(args.from.clone()),
    };
    Request {
        name: args.recipe.clone(),
        size,
        portion: args.portion.clone(),
        whole: args.whole.clone(),
        with_sub_recipes: args.with_sub_recipes,
    }
}
