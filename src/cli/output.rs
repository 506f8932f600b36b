//! The file of a costed workbook or a new book: where it goes, whether it may be written there, and writing it all at
//! once.
//!
//! It is written to a temporary file beside its place and renamed, so that no half workbook is ever seen. A book that
//! is read is never written over; another file only when it is ours and untouched, or by force; by a new book, by force
//! alone.

use std::ffi::OsString;
use std::fs::{self, Metadata, OpenOptions};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use super::half_written::HalfWritten;
use super::inputs::{is_one_file, names_a_device};
use super::stop::Stop;
use super::untouched::is_untouched;

/// A place where the workbook may be written.
#[derive(Debug)]
pub struct Target {
    /// As it was named.
    named: PathBuf,
    /// The file itself, where the name is a link to one.
    file: PathBuf,
    folder: PathBuf,
    /// The file that is there, as it was found.
    replaces: Option<Metadata>,
    /// Whether it is a file that should not have been there.
    fresh: bool,
}

/// The flag that names a costed workbook.
const OUTPUT: &str = "-o";

impl Target {
    /// The place that `-o` names, or the default `NAME.ENDING.xlsx` beside the first of `inputs`; asked before any work is
    /// done.
    ///
    /// # Errors
    /// [`Stop`] when nothing may or can be written there.
    pub fn find(asked: Option<&Path>, inputs: &[PathBuf], ending: &str, force: bool) -> Result<Self, Stop> {
        let named = asked.map_or_else(|| default_for(inputs, ending), Path::to_owned);
        if asked.is_some() {
            return Target::named(OUTPUT, named, inputs, force);
        }
        Target::beside(OUTPUT, named, inputs, force)
    }

    /// The place that `flag` names.
    ///
    /// # Errors
    /// [`Stop`] when nothing may or can be written there.
    pub fn named(flag: &'static str, named: PathBuf, inputs: &[PathBuf], force: bool) -> Result<Self, Stop> {
        if !is_xlsx(&named) {
            return Err(Stop::NotXlsx { flag, file: named });
        }
        Target::beside(flag, named, inputs, force)
    }

    /// A place that is no input, and where nothing is but what is ours and untouched.
    fn beside(flag: &'static str, named: PathBuf, inputs: &[PathBuf], force: bool) -> Result<Self, Stop> {
        if inputs.iter().any(|input| is_one_file(input, &named)) {
            return Err(Stop::OverInput { flag, file: named });
        }
        Target::at(named, |file, named| {
            if force || is_untouched(file) { Ok(()) } else { Err(Stop::Touched { flag, file: named.to_owned() }) }
        })
    }

    /// The place of a new file at `named`. What is there already is in the way, be it ours, unless by `force`.
    ///
    /// # Errors
    /// [`Stop`] when nothing may or can be written there.
    pub fn fresh(named: &Path, force: bool) -> Result<Self, Stop> {
        let target =
            Target::at(
                named.to_owned(),
                |_, named| {
                    if force { Ok(()) } else { Err(Stop::Taken { file: named.to_owned() }) }
                },
            )?;
        Ok(Target { fresh: true, ..target })
    }

    /// The place of a new book at `named`, beside what is read and the other that is written.
    ///
    /// # Errors
    /// [`Stop`] when nothing may or can be written there.
    pub fn another(named: &Path, inputs: &[PathBuf], other: Option<&Target>, force: bool) -> Result<Self, Stop> {
        if inputs.iter().any(|input| is_one_file(input, named)) {
            return Err(Stop::OverInput { flag: "--write-book", file: named.to_owned() });
        }
        let target = Target::fresh(named, force)?;
        match other.filter(|other| other.folder == target.folder && other.file.file_name() == target.file.file_name()) {
            Some(_) => Err(Stop::WrittenTwice { file: named.to_owned() }),
            None => Ok(target),
        }
    }

    /// The place at `named`; `may_replace` judges a file that is there, and has the name it was given by.
    fn at(named: PathBuf, may_replace: impl Fn(&Path, &Path) -> Result<(), Stop>) -> Result<Self, Stop> {
        if cfg!(windows) && names_a_device(&named) {
            return Err(Stop::NotAFile { file: named });
        }
        let (file, replaces) = match fs::symlink_metadata(&named) {
            Ok(_) => {
                let file = existing(&named)?;
                // One that another program holds open cannot be judged either.
                let metadata = refuse_protected(&file, &named)?;
                may_replace(&file, &named)?;
                (file, Some(metadata))
            }
            Err(error) if error.kind() == ErrorKind::NotFound => (named.clone(), None),
            Err(source) => return Err(Stop::Unwritable { file: named, source }),
        };
        let folder = folder_of(&file);
        if !folder.is_dir() {
            return Err(Stop::NoFolder { folder });
        }
        // Better to hear of a folder that cannot be written now than after the work.
        match tempfile::tempfile_in(&folder) {
            Ok(_) => Ok(Target { named, file, folder, replaces, fresh: false }),
            Err(source) => Err(Stop::Unwritable { file: named, source }),
        }
    }

    /// As it was named.
    pub fn name(&self) -> &Path {
        &self.named
    }

    /// Writes the workbook.
    ///
    /// # Errors
    /// [`Stop`] when it cannot be written, or when another run or program has written there meanwhile.
    pub fn write(self, bytes: &[u8]) -> Result<(), Stop> {
        let unwritable = |source| Stop::Unwritable { file: self.named.clone(), source };
        let meanwhile = || Stop::WrittenMeanwhile { file: self.named.clone() };
        let file = HalfWritten::of(&self.folder, bytes, self.replaces.as_ref()).map_err(unwritable)?;
        if let Some(before) = &self.replaces {
            if !fs::metadata(&self.file).is_ok_and(|now| is_unchanged(before, &now)) {
                return Err(meanwhile());
            }
            return file.replace(&self.file).map_err(unwritable);
        }
        match file.put(&self.file) {
            Ok(()) => Ok(()),
            Err(error) if error.kind() == ErrorKind::AlreadyExists && self.fresh => {
                Err(Stop::Taken { file: self.named })
            }
            Err(error) if error.kind() == ErrorKind::AlreadyExists => Err(meanwhile()),
            Err(error) => Err(unwritable(error)),
        }
    }
}

/// Whether a file is the one that it was, and nobody has written to it.
fn is_unchanged(before: &Metadata, now: &Metadata) -> bool {
    #[cfg(unix)]
    {
        use std::os::unix::fs::MetadataExt;
        if (before.dev(), before.ino()) != (now.dev(), now.ino()) {
            return false;
        }
    }
    before.len() == now.len() && before.modified().ok() == now.modified().ok()
}

/// Refuses a file that its owner has protected, and one that this run may not write.
fn refuse_protected(file: &Path, named: &Path) -> Result<Metadata, Stop> {
    let unwritable = |source| Stop::Unwritable { file: named.to_owned(), source };
    let metadata = fs::metadata(file).map_err(unwritable)?;
    if metadata.permissions().readonly() {
        return Err(Stop::Protected { file: named.to_owned() });
    }
    match OpenOptions::new().write(true).open(file) {
        Ok(_) => Ok(metadata),
        Err(error) if error.kind() == ErrorKind::PermissionDenied => Err(Stop::Protected { file: named.to_owned() }),
        Err(source) => Err(unwritable(source)),
    }
}

/// The file at `named`, which may be a link.
fn existing(named: &Path) -> Result<PathBuf, Stop> {
    let not_a_file = || Stop::NotAFile { file: named.to_owned() };
    let file = fs::canonicalize(named).map_err(|_| not_a_file())?;
    if !file.is_file() {
        return Err(not_a_file());
    }
    Ok(file)
}

/// `NAME.costed.xlsx` beside the first book, or with another ending; of a costed workbook without its own.
fn default_for(inputs: &[PathBuf], ending: &str) -> PathBuf {
    let first = inputs.first().map_or(Path::new(""), PathBuf::as_path);
    let stem = Path::new(first.file_stem().unwrap_or_default());
    let stem = match stem.extension() {
        Some(extension) if extension == "costed" => stem.file_stem().unwrap_or_default(),
        _ => stem.as_os_str(),
    };
    let mut name = OsString::from(stem);
    name.push(format!(".{ending}.xlsx"));
    first.with_file_name(name)
}

fn is_xlsx(file: &Path) -> bool {
    file.extension().is_some_and(|extension| extension.eq_ignore_ascii_case("xlsx"))
}

fn folder_of(file: &Path) -> PathBuf {
    match file.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent.to_owned(),
        _ => PathBuf::from("."),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_default_stands_beside_the_first_book() {
        for (book, costed) in [
            ("menu.xlsx", "menu.costed.xlsx"),
            ("a/b/menu.csv", "a/b/menu.costed.xlsx"),
            ("menu", "menu.costed.xlsx"),
            ("spring.2026.xlsx", "spring.2026.costed.xlsx"),
            ("menu.costed.xlsx", "menu.costed.xlsx"),
        ] {
            assert_eq!(
                default_for(&[PathBuf::from(book), PathBuf::from("other.csv")], "costed"),
                PathBuf::from(costed)
            );
        }
    }
}
