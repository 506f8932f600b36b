//! `new`: an empty book to fill in, or the form for the bench; a copy of one of the templates within the program.
//!
//! The templates are made by `templates/make.rs`. What is there already is written over by `--force` only.

use std::path::{Path, PathBuf};

use crate::cli::args::{Common, NewArgs};
use crate::cli::exit::Exit;
use crate::cli::inputs::as_arguments;
use crate::cli::output::Target;
use crate::cli::stop::Stop;
use crate::cli::terminal::Terminal;
use crate::output::text::printable;

const US: &[u8] = include_bytes!("../../../templates/us.xlsx");
const US_PLAIN: &[u8] = include_bytes!("../../../templates/us-plain.xlsx");
const US_BENCH: &[u8] = include_bytes!("../../../templates/us-bench.xlsx");
const METRIC: &[u8] = include_bytes!("../../../templates/metric.xlsx");
const METRIC_PLAIN: &[u8] = include_bytes!("../../../templates/metric-plain.xlsx");
const METRIC_BENCH: &[u8] = include_bytes!("../../../templates/metric-bench.xlsx");

/// Runs the command.
///
/// # Errors
/// [`Stop`] when the name is no workbook's, is taken, or cannot be written.
pub fn run(args: &NewArgs, common: &Common, terminal: &Terminal) -> Result<Exit, Stop> {
    let file = named(&args.file)?;
    Target::fresh(&file, common.force)?.write(template(args))?;
    terminal.notes(&said(args, &file));
    Ok(Exit::Done)
}

/// The template asked for. The form for the bench has no example that could be left out.
fn template(args: &NewArgs) -> &'static [u8] {
    match (args.metric, args.bench, args.plain) {
        (false, true, _) => US_BENCH,
        (false, false, true) => US_PLAIN,
        (false, false, false) => US,
        (true, true, _) => METRIC_BENCH,
        (true, false, true) => METRIC_PLAIN,
        (true, false, false) => METRIC,
    }
}

/// The file's name, with `.xlsx` behind it where it has no ending.
fn named(file: &Path) -> Result<PathBuf, Stop> {
    if file.is_dir() {
        return Err(Stop::FolderForNew { folder: file.to_owned() });
    }
    match file.extension() {
        Some(ending) if ending.eq_ignore_ascii_case("xlsx") => Ok(file.to_owned()),
        None if file.file_name().is_some() => Ok(file.with_extension("xlsx")),
        _ => Err(Stop::NewNotXlsx { file: file.to_owned(), instead: file.with_extension("xlsx") }),
    }
}

/// What was written, and what to do next.
fn said(args: &NewArgs, file: &PathBuf) -> String {
    let name = printable(&file.to_string_lossy());
    let again = printable(&as_arguments(std::slice::from_ref(file)));
    if args.bench {
        return format!(
            "Wrote {name}\nNext: print it, fill it in beside the scale, type it in, then read it together with your book:\n  \
             parings cost YOUR-BOOK.xlsx {again}\n"
        );
    }
    let first = if args.plain { "fill it in" } else { "look at its example, fill in yours" };
    format!("Wrote {name}\nNext: {first}, then cost it:\n  parings cost {again}\n")
}
