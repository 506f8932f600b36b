//! `page`: the page, which does the same in a browser.
//!
//! It is built apart, for a browser, and is within the program where the feature `page` is on.

use std::path::{Path, PathBuf};

use crate::cli::args::{Common, PageArgs};
use crate::cli::exit::Exit;
use crate::cli::output::Target;
use crate::cli::stop::Stop;
use crate::cli::terminal::Terminal;
use crate::output::text::printable;

/// The page, where the program was built with it.
#[cfg(feature = "page")]
const PAGE: Option<&[u8]> = Some(include_bytes!("../../../target/page/parings.html"));
#[cfg(not(feature = "page"))]
const PAGE: Option<&[u8]> = None;

/// Runs the command.
///
/// # Errors
/// [`Stop`] when the program has no page in it, or the name is no page's, is taken, or cannot be written.
pub fn run(args: &PageArgs, common: &Common, terminal: &Terminal) -> Result<Exit, Stop> {
    let file = named(&args.file)?;
    let page = PAGE.ok_or(Stop::NoPage)?;
    Target::fresh(&file, common.force)?.write(page)?;
    let name = printable(&file.to_string_lossy());
    terminal.notes(&format!("Wrote {name}\nNext: open it in a browser, and drop a book on it.\n"));
    Ok(Exit::Done)
}

/// The file's name, with `.html` behind it where it has no ending.
fn named(file: &Path) -> Result<PathBuf, Stop> {
    match file.extension() {
        Some(ending) if ending.eq_ignore_ascii_case("html") => Ok(file.to_owned()),
        None if file.file_name().is_some() => Ok(file.with_extension("html")),
        _ => Err(Stop::PageNotHtml { file: file.to_owned(), instead: file.with_extension("html") }),
    }
}
