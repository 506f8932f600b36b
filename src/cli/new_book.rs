//! The book with new prices: the file that holds its prices as it was, with the new rows in it, where that can be; else
//! all of its inputs written anew, and what those do not hold.

use std::path::{Path, PathBuf};

use jiff::civil::DateTime;

use super::inputs::FileContents;
use super::output::Target;
use super::stop::Stop;
use crate::kitchen::Field;
use crate::kitchen::settings::{Setting, SettingValue};
use crate::schema::Column;
use crate::{Repriced, Source, patch_book, write_book};

/// Endings of files into which new prices can be put.
const PATCHED: [&str; 3] = ["xlsx", "xlsm", "csv"];

/// Where the book goes, and the files that it is made from.
pub struct NewBook {
    target: Target,
}

/// A file that was written, and what there is to say of it.
pub struct WrittenFile {
    pub name: PathBuf,
    pub said: Vec<String>,
}

impl NewBook {
    /// The place of a new book at `named`; asked before any work is done. Beside a workbook it may be of a kind that one of
    /// the `books` is.
    ///
    /// # Errors
    /// [`Stop`] when nothing may or can be written there.
    pub fn at(
        named: &Path,
        books: &[PathBuf],
        read: &[PathBuf],
        other: Option<&Target>,
        force: bool,
    ) -> Result<Self, Stop> {
        let same = |book: &PathBuf| ending(book) == ending(named);
        let fits = ending(named) == "xlsx" || (PATCHED.contains(&ending(named).as_str()) && books.iter().any(same));
        if !fits {
            return Err(Stop::NotXlsx { flag: "--write-book", file: named.to_owned() });
        }
        Ok(NewBook { target: Target::another(named, read, other, force)? })
    }

    /// Where it goes.
    pub fn name(&self) -> &Path {
        self.target.name()
    }

    /// Writes it.
    ///
    /// # Errors
    /// [`Stop`] when it cannot be written, or its name ends as another kind of file does.
    pub fn write(self, books: &FileContents, repriced: &Repriced, at: DateTime) -> Result<WrittenFile, Stop> {
        let name = self.name().to_owned();
        let sources: Vec<Source<'_>> = books.iter().map(|(name, bytes)| Source { name, bytes }).collect();
        let wanted = ending(&name);
        let file_of = |at: usize| sources.get(at).map(|source| source.name).unwrap_or_default();
        let (bytes, mut said) = match patch_book(&sources, repriced) {
            Ok(patched) => {
                let file = file_of(patched.source);
                let is = patched.ending;
                if is == wanted {
                    let mut said = vec![kept(file, &patched.added, sources.len())];
                    said.extend(patched.said);
                    (patched.bytes, said)
                } else if is == "csv" && wanted == "xlsx" {
                    let said =
                        format!("It is the book as a workbook; named with .csv, it is {file} with the new rows.");
                    (write_book(&repriced.after, at)?, vec![said])
                } else {
                    let instead = name.with_extension(is);
                    return Err(Stop::NewOfAnotherKind { file: name, of: PathBuf::from(file), instead });
                }
            }
            Err(why) if wanted == "xlsx" => (write_book(&repriced.after, at)?, vec![anew(&sources, &why.reason)]),
            Err(why) => return Err(Stop::NotPatched { file: name, reason: why.reason }),
        };
        said.extend(counts_later(repriced));
        self.target.write(&bytes)?;
        Ok(WrittenFile { name, said })
    }
}

/// What is said of a file that was kept.
fn kept(file: &str, added: &[crate::problem::Place], files: usize) -> String {
    let cells = added.iter().filter_map(|place| {
        let cell = place.cell_ref()?;
        let sheet = place.sheet_name();
        Some(if sheet.is_empty() { format!("row {}", cell.row.saturating_add(1)) } else { format!("{sheet}!{cell}") })
    });
    let cells: Vec<String> = cells.collect();
    if cells.is_empty() {
        return format!("It is {file} as it was: no new price was taken.");
    }
    let from = format!(", from {} on", cells.join(" and from "));
    let others = if files > 1 { " Read it in the place of that file, beside the others." } else { "" };
    format!("It is {file} with the new prices below its own{from}; all else is as it was.{others}")
}

/// What is said of a book whose own costing date is before the day from which the new prices count.
fn counts_later(repriced: &Repriced) -> Option<String> {
    let mut settings = repriced.before.kitchen.entries.settings.iter();
    let row = settings.find(|row| row.setting == Some(Setting::CostingDate))?;
    let Field::Given(SettingValue::Date(day)) = &row.value else { return None };
    let dates = repriced.list.taken.iter().filter_map(|taken| match &taken.price.date {
        Field::Given(from) => Some(from),
        _ => None,
    });
    let from = dates.max().filter(|from| *from > day)?;
    let cell = row.input.place(Column::Value);
    Some(format!("Its costing date is {day}, before them: type {from} for it, as in {cell}, and the new prices count."))
}

/// What is said of a book that was written anew.
fn anew(sources: &[Source<'_>], reason: &str) -> String {
    let files: Vec<&str> = sources.iter().map(|source| source.name).collect();
    format!(
        "It holds what was typed in {}, written anew: not its colors, widths, comments, drop-down lists and formulas. The \
         file itself was not copied, for {reason}.",
        files.join(", ")
    )
}

/// How a file's name ends, in lower case.
fn ending(file: &Path) -> String {
    file.extension().map(|ending| ending.to_string_lossy().to_lowercase()).unwrap_or_default()
}
