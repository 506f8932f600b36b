//! Stops that end a run before its work is done, said with what to do about it.

use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

use super::flags;
use crate::analysis::resize::NotScaled;
use crate::analysis::why::NotMeant;
use crate::{NoCard, ReadError, WriteError};

/// Why a run ended.
#[derive(Debug, thiserror::Error)]
pub enum Stop {
    /// A file that should be read is not there.
    #[error("there is no file {}: check its name and its folder{}", .file.display(), or_meant(.file))]
    NotThere {
        /// The file as it was given.
        file: PathBuf,
    },
    /// A folder was given as a file.
    #[error("{} is a folder: give the files in it", .file.display())]
    Folder {
        /// The folder as it was given.
        file: PathBuf,
    },
    /// A pipe, a device or a socket was given as a file.
    #[error("{} is {what}, not a file: save the book as a file and give that", .file.display())]
    NoFile {
        /// The file as it was given.
        file: PathBuf,
        /// What it is, with its article.
        what: &'static str,
    },
    /// A file is too large to be a book.
    #[error("{} is larger than 300 MB: keep recipes and prices only, and save them as a new book", .file.display())]
    TooLarge {
        /// The file as it was given.
        file: PathBuf,
    },
    /// A file could not be opened or read.
    #[error(
        "{} could not be read ({source}): {}",
        .file.display(), held(.source).or(too_many(.source)).unwrap_or("check that you may open it and that nothing locks it")
    )]
    Unreadable {
        /// The file as it was given.
        file: PathBuf,
        /// What the system says.
        source: io::Error,
    },
    /// One file was given twice.
    #[error("{} and {} are one file: give it once", .first.display(), .second.display())]
    GivenTwice {
        /// The file.
        first: PathBuf,
        /// The file again, perhaps by another name.
        second: PathBuf,
    },
    /// The reading ended.
    #[error("{}", .0.saying(flags::words))]
    Read(#[from] ReadError),
    /// The machine has too little memory left.
    #[error("the book takes more memory than is left here: close other programs, or part it into several")]
    NoMemory,
    /// There is nothing to work on.
    #[error("no table that parings knows is in {files}: `parings check {files}` tells what was looked at")]
    NoTable {
        /// The files as they were given.
        files: String,
    },
    /// A word that should name a problem code does not.
    #[error("there is no problem code {}{near} (`parings explain` lists them all)", or_quotes(.word))]
    NoCode {
        /// The word as it was given.
        word: String,
        /// The nearest codes as a question, a full stop before it; empty when none is near.
        near: String,
    },
    /// A name that should be a by-product's is not.
    #[error("no yield test has a by-product called “{name}”{near}")]
    NoByProduct {
        /// The name as it was given.
        name: String,
        /// The nearest names as a question, else which there are, a full stop before it.
        near: String,
    },
    /// An argument that should be a file or a name is empty.
    #[error("an argument is empty, as in \"\": type the name of a file there, or what is asked about")]
    EmptyArgument,
    /// A figure was to be explained and its name is missing, or there are too many.
    #[error(
        "{why}: give the files of the book, then one name in quotation marks, then perhaps the ingredient of a line"
    )]
    NoName {
        /// What is wrong.
        why: String,
    },
    /// A name means nothing in the book.
    #[error("{0}")]
    NotMeant(#[from] NotMeant),
    /// A name that should get a card is none of the book's.
    #[error("{0} (--cards takes the name of a recipe, a dish or a group)")]
    NoCard(#[from] NoCard),
    /// A recipe could not be scaled.
    #[error(transparent)]
    NotScaled(#[from] NotScaled),
    /// The plan asks for more than can be counted.
    #[error("the plan asks for more than can be counted: check its Portions, and the quantities of its recipes")]
    PlanTooLarge,
    /// Nothing is ordered from the supplier asked for.
    #[error("nothing is ordered from “{supplier}” for this plan{near}")]
    NoOrder {
        /// The name asked for.
        supplier: String,
        /// The nearest names as a question, else which there are, a full stop before it.
        near: String,
    },
    /// No built-in food bears these words.
    #[error("no built-in food is called “{words}”: try one plain word, such as onion or thyme")]
    NoFood {
        /// The words as they were given.
        words: String,
    },
    /// The workbook could not be made.
    #[error(transparent)]
    Write(#[from] WriteError),
    /// The output would be one of the inputs.
    #[error("{} is read by this run and is never written: name another file with {flag}", .file.display())]
    OverInput {
        /// The flag that names another.
        flag: &'static str,
        /// The output's name.
        file: PathBuf,
    },
    /// The output exists, and is not known to be ours and unchanged.
    #[error(
        "{} is there already, and parings did not write it or it was changed since: write over it with --force, or name \
         another file with {flag}",
        .file.display()
    )]
    Touched {
        /// The flag that names another.
        flag: &'static str,
        /// The output's name.
        file: PathBuf,
    },
    /// Two workbooks would be written to one file.
    #[error("{} would be written twice: name another file with --write-book", .file.display())]
    WrittenTwice {
        /// The file's name.
        file: PathBuf,
    },
    /// A new book's file is there already.
    #[error("{} is there already: choose another name, or write over it with --force", .file.display())]
    Taken {
        /// The file's name.
        file: PathBuf,
    },
    /// A new book's name ends as another kind of file does.
    #[error(
        "a new book is a workbook, so {} must end in .xlsx: try {}",
        .file.display(),
        .instead.display()
    )]
    NewNotXlsx {
        /// The file's name.
        file: PathBuf,
        /// A name that will do.
        instead: PathBuf,
    },
    /// The page was given a name that no browser opens.
    #[error("{} is no name for a page: name it {}", .file.display(), .instead.display())]
    PageNotHtml {
        /// The file's name.
        file: PathBuf,
        /// A name that will do.
        instead: PathBuf,
    },
    /// The program was built without the page.
    #[error(
        "this program was built without the page: in its source folder, make it with cargo run --example make-page, which \
         writes target/page/parings.html"
    )]
    NoPage,
    /// A new book was given a folder's name.
    #[error("{} is a folder: give the new file a name in it, such as {}", .folder.display(), .folder.join("kitchen.xlsx").display())]
    FolderForNew {
        /// The folder.
        folder: PathBuf,
    },
    /// The output's name is taken by what is not a file.
    #[error("{} is not a file that can be written over: name another", .file.display())]
    NotAFile {
        /// The output's name.
        file: PathBuf,
    },
    /// The output's name does not end as a workbook's does.
    #[error(
        "{flag} names a workbook, so {} must {}end in .xlsx (for text, leave {flag} out and use --format csv or json)",
        .file.display(), or_name(.file)
    )]
    NotXlsx {
        /// The flag that names it.
        flag: &'static str,
        /// The output's name.
        file: PathBuf,
    },
    /// A book with new prices is of another kind than its name says.
    #[error("{} would be {} with the new prices, and must end as that does: try {}", .file.display(), .of.display(), .instead.display())]
    NewOfAnotherKind {
        /// The name that was given.
        file: PathBuf,
        /// The file of the book.
        of: PathBuf,
        /// A name that will do.
        instead: PathBuf,
    },
    /// New prices could not be put into the file of a book.
    #[error("{} was not written, for {reason}: with a name that ends in .xlsx all inputs are written anew", .file.display())]
    NotPatched {
        /// The name that was given.
        file: PathBuf,
        /// What stood in the way.
        reason: String,
    },
    /// The output's folder is not there.
    #[error("there is no folder {}: make it, or name another file", .folder.display())]
    NoFolder {
        /// The folder.
        folder: PathBuf,
    },
    /// The output is protected.
    #[error("{} is protected from being written: name another file, or take the protection off it", .file.display())]
    Protected {
        /// The output's name.
        file: PathBuf,
    },
    /// Another run or program has written the output while this one worked.
    #[error(
        "{} was written by another run or program while this one worked, and is left as it is: run this again when the \
         other is done, or name another file",
        .file.display()
    )]
    WrittenMeanwhile {
        /// The output's name.
        file: PathBuf,
    },
    /// The output could not be written.
    #[error(
        "{} could not be written ({source}): {}",
        .file.display(), mend_of(.source).unwrap_or("close it if it is open, or name another file")
    )]
    Unwritable {
        /// The output's name.
        file: PathBuf,
        /// What the system says.
        source: io::Error,
    },
    /// Results could not be printed.
    #[error(
        "the results could not be printed ({source}): {}",
        mend_of(.source).unwrap_or("send them to a file, as in > results.txt, or leave them to the terminal")
    )]
    Unprintable {
        /// What the system says.
        source: io::Error,
    },
}

/// What else a name needs that is nothing but an ending.
fn or_name(file: &Path) -> &'static str {
    let is_ending = file.file_name().is_some_and(|name| name.to_string_lossy().starts_with('.'));
    if is_ending { "have a name and " } else { "" }
}

/// A word as it was given; what shows that it is empty.
fn or_quotes(word: &str) -> &str {
    if word.trim().is_empty() { "“”" } else { word }
}

/// What else to say of a name that is no file: it may have been meant as a command, or for several files.
fn or_meant(file: &Path) -> &'static str {
    let name = file.to_string_lossy();
    match () {
        () if name.contains(['*', '?']) => " (nothing fills in * and ? here: give each file by its name)",
        () if name.bytes().all(|b| b.is_ascii_lowercase()) => " (nor is it a command: `parings --help` lists them)",
        () => "",
    }
}

/// What to do about what cannot be written, where the system says why.
fn mend_of(error: &io::Error) -> Option<&'static str> {
    held(error).or(match error.kind() {
        ErrorKind::StorageFull => Some("the disk is full; make room, or name a file on another disk"),
        ErrorKind::QuotaExceeded => {
            Some("your share of the disk is used up; make room, or name a file on another disk")
        }
        ErrorKind::FileTooLarge => {
            Some("the system lets no file grow so large here; raise its limit, or name a file on another disk")
        }
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => {
            Some("you may not write there; name a file in a folder of your own")
        }
        ErrorKind::InvalidFilename => Some("the system takes no file of such a name; name another"),
        _ => None,
    })
}

/// What to do about more files than a system lets be open at once, by Unix' number of that error.
fn too_many(error: &io::Error) -> Option<&'static str> {
    let is_too_many = cfg!(unix) && error.raw_os_error() == Some(24);
    is_too_many.then_some("so many files cannot be open at once here; put them together into fewer, or raise the limit")
}

/// What to do about what another program holds open: sharing and lock violations, by Windows' system error codes.
fn held(error: &io::Error) -> Option<&'static str> {
    let is_held = cfg!(windows) && matches!(error.raw_os_error(), Some(32 | 33));
    is_held.then_some("another program holds it open; close it there")
}
