//! The files of a book: opened to read, never to write.

use std::collections::HashMap;
use std::fs::{File, Metadata};
use std::io::{self, ErrorKind, Read};
use std::path::{Path, PathBuf};

use jiff::ZonedDateTime;
use jiff::civil::Date;
use same_file::{Handle, is_same_file};

use super::progress::Progress;
use super::stop::Stop;
use crate::kitchen::resolve::Options;
use crate::schema::{Limits, memory};
use crate::{Reading, Source, read};

/// The most bytes of one file: no more could be read of it.
const MOST_BYTES: u64 = Limits::USUAL.bytes;

/// The bytes of files, each with its name as it was given.
pub type FileContents = Vec<(String, Vec<u8>)>;

/// The files of a book, opened.
#[derive(Debug)]
pub struct BookFiles<'a> {
    paths: &'a [PathBuf],
    files: Vec<Handle>,
}

impl<'a> BookFiles<'a> {
    /// Opens every file, so that a wrong name is heard of before any work is done.
    ///
    /// # Errors
    /// [`Stop`] when a file cannot be opened, or is given twice.
    pub fn open(paths: &'a [PathBuf]) -> Result<Self, Stop> {
        let files = paths.iter().map(|path| open(path)).collect::<Result<_, _>>()?;
        let files = BookFiles { paths, files };
        // One file by two names would count every row twice.
        let mut known = HashMap::new();
        for (file, path) in files.at_rest() {
            if let Some(first) = known.insert(file, path) {
                return Err(Stop::GivenTwice { first: first.clone(), second: path.clone() });
            }
        }
        Ok(files)
    }

    /// The files with their names, but for pipes, which are not the same when they are read again.
    fn at_rest(&self) -> impl Iterator<Item = (&Handle, &'a PathBuf)> {
        let all = self.files.iter().zip(self.paths);
        all.filter(|(file, _)| file.as_file().metadata().is_ok_and(|metadata| metadata.is_file()))
    }

    /// Their names as they were given.
    pub fn paths(&self) -> &'a [PathBuf] {
        self.paths
    }

    /// Refuses a file that is among `others` as well.
    ///
    /// # Errors
    /// [`Stop::GivenTwice`].
    pub fn refuse_twins(&self, others: &Self) -> Result<(), Stop> {
        let known: HashMap<_, _> = self.at_rest().collect();
        let twin = others.at_rest().find_map(|(file, second)| known.get(file).map(|first| (*first, second)));
        match twin {
            Some((first, second)) => Err(Stop::GivenTwice { first: first.clone(), second: second.clone() }),
            None => Ok(()),
        }
    }

    /// The bytes of the files, each with its name as it was given.
    ///
    /// # Errors
    /// [`Stop`] when a file cannot be read or is too large.
    pub fn contents(self, progress: &Progress) -> Result<FileContents, Stop> {
        let mut contents = Vec::with_capacity(self.files.len());
        for (path, file) in self.paths.iter().zip(self.files) {
            progress.doing(format!("Reading {}", path.display()));
            contents.push((path.to_string_lossy().into_owned(), bytes(path, file.as_file())?));
        }
        Ok(contents)
    }

    /// Reads the book, to be costed on `as_of`, else on its own costing date, else today.
    ///
    /// # Errors
    /// [`Stop`] when a file cannot be read or is no book.
    pub fn read(self, as_of: Option<Date>, progress: &Progress) -> Result<Reading, Stop> {
        self.read_kept(as_of, progress).map(|(reading, _)| reading)
    }

    /// As [`BookFiles::read`], with the bytes that were read.
    ///
    /// # Errors
    /// [`Stop`] when a file cannot be read or is no book.
    pub fn read_kept(self, as_of: Option<Date>, progress: &Progress) -> Result<(Reading, FileContents), Stop> {
        let contents = self.contents(progress)?;
        let sources: Vec<Source<'_>> = contents.iter().map(|(name, bytes)| Source { name, bytes }).collect();
        let reading = read(&sources, Options::on(ZonedDateTime::now().date()).costed_on(as_of))?;
        expect_memory(&reading)?;
        Ok((reading, contents))
    }
}

/// Refuses to cost a book for which too little memory is left.
fn expect_memory(reading: &Reading) -> Result<(), Stop> {
    /// What costing a line takes, its trace included, and telling of what is wrong with it.
    const OF_A_LINE: usize = 400;
    expect_for_lines(reading, OF_A_LINE)
}

/// Refuses to put together the JSON of a costing for which too little memory is left.
///
/// # Errors
/// [`Stop::NoMemory`].
pub fn expect_memory_of_json(reading: &Reading) -> Result<(), Stop> {
    /// Its record, some 530 bytes of text, and the room that a text which grows has ahead.
    const OF_A_LINE: usize = 900;
    expect_for_lines(reading, OF_A_LINE)
}

/// Refuses to go on where so many bytes for each line of the recipes cannot be had.
fn expect_for_lines(reading: &Reading, bytes: usize) -> Result<(), Stop> {
    let lines = reading.kitchen.recipes.iter().map(|recipe| recipe.lines.len()).fold(0, usize::saturating_add);
    let needed = lines.saturating_mul(bytes).saturating_add(memory::LITTLE);
    if memory::is_left(needed) { Ok(()) } else { Err(Stop::NoMemory) }
}

/// Refuses a book that holds nothing parings knows: there is nothing to work on.
///
/// # Errors
/// [`Stop::NoTable`].
pub fn holds_a_table(reading: &Reading, paths: &[PathBuf]) -> Result<(), Stop> {
    if reading.sheets.iter().any(|sheet| !sheet.tables.is_empty()) {
        return Ok(());
    }
    Err(Stop::NoTable { files: as_arguments(paths) })
}

/// The files as they would be typed again.
pub fn as_arguments(paths: &[PathBuf]) -> String {
    let plain = |c: char| c.is_alphanumeric() || "._-/\\:~+,@%=".contains(c);
    let typed = paths.iter().map(|path| {
        let path = path.to_string_lossy();
        if !path.is_empty() && path.chars().all(plain) { path.into_owned() } else { format!("\"{path}\"") }
    });
    typed.collect::<Vec<_>>().join(" ")
}

/// Whether two names are of one file. Only a file at rest is looked at: opening a pipe once more would disturb it.
pub fn is_one_file(first: &Path, second: &Path) -> bool {
    let at_rest = |path: &Path| path.metadata().is_ok_and(|metadata| metadata.is_file());
    at_rest(first) && at_rest(second) && is_same_file(first, second).unwrap_or(false)
}

fn open(path: &Path) -> Result<Handle, Stop> {
    if path.is_dir() {
        return Err(Stop::Folder { file: path.to_owned() });
    }
    refuse_no_file(path)?;
    File::open(path).and_then(Handle::from_file).map_err(|source| match source.kind() {
        // Windows refuses a name with signs that no file has.
        ErrorKind::NotFound | ErrorKind::InvalidFilename => Stop::NotThere { file: path.to_owned() },
        _ => unreadable(path, source),
    })
}

/// Refuses what is there and no file: opening a pipe would wait for whoever writes to it, and a device has no end. A pipe
/// that the system has opened for this run already (`/dev/stdin`) is as good as a file.
fn refuse_no_file(path: &Path) -> Result<(), Stop> {
    let no_file = |what| Err(Stop::NoFile { file: path.to_owned(), what });
    #[cfg(unix)]
    {
        use std::os::unix::fs::FileTypeExt;
        let Ok(metadata) = path.metadata() else { return Ok(()) };
        let kind = metadata.file_type();
        let is_open = path.starts_with("/dev") || path.starts_with("/proc");
        match kind {
            _ if kind.is_fifo() && !is_open => no_file("a pipe"),
            _ if kind.is_socket() => no_file("a socket"),
            _ if kind.is_char_device() || kind.is_block_device() => no_file("a device"),
            _ => Ok(()),
        }
    }
    #[cfg(not(unix))]
    if cfg!(windows) && names_a_device(path) { no_file("a device") } else { Ok(()) }
}

/// Whether Windows takes the name for a device, in whatever folder and with whatever ending.
pub fn names_a_device(path: &Path) -> bool {
    let name = path.file_name().unwrap_or_default().to_string_lossy().to_uppercase();
    let name = name.split(['.', ':']).next().unwrap_or_default().trim_end();
    let numbered = |of: &str| {
        let number =
            name.strip_prefix(of).and_then(|number| number.chars().next().filter(|_| number.chars().count() == 1));
        number.is_some_and(|number| "0123456789¹²³".contains(number))
    };
    ["CON", "PRN", "AUX", "NUL", "CONIN$", "CONOUT$"].contains(&name) || numbered("COM") || numbered("LPT")
}

fn bytes(path: &Path, file: &File) -> Result<Vec<u8>, Stop> {
    let too_large = || Stop::TooLarge { file: path.to_owned() };
    let declared = file.metadata().as_ref().map_or(0, Metadata::len);
    if declared > MOST_BYTES {
        return Err(too_large());
    }
    let mut bytes = Vec::new();
    let no_memory = |_| unreadable(path, io::Error::from(ErrorKind::OutOfMemory));
    bytes.try_reserve_exact(usize::try_from(declared).unwrap_or(0)).map_err(no_memory)?;
    // A pipe declares nothing: one byte more than allowed tells one without end from one that is just long enough.
    let read = file.take(MOST_BYTES + 1).read_to_end(&mut bytes).map_err(|source| unreadable(path, source))?;
    if u64::try_from(read).is_ok_and(|read| read <= MOST_BYTES) { Ok(bytes) } else { Err(too_large()) }
}

fn unreadable(path: &Path, source: io::Error) -> Stop {
    Stop::Unreadable { file: path.to_owned(), source }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn devices_of_windows_are_known_by_their_names() {
        for name in ["NUL", "nul.xlsx", "menus/con.csv", "COM1", "lpt².costed.xlsx", "AUX .xlsx", "CONIN$"] {
            assert!(names_a_device(Path::new(name)), "{name}");
        }
        for name in
            ["null.csv", "menu.nul", "CON/menu.xlsx", "COM.csv", "COM10.csv", "lpt.xlsx", "console.csv", "", "é.csv"]
        {
            assert!(!names_a_device(Path::new(name)), "{name}");
        }
    }
}
