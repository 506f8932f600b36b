//! Errors that end a run: a file that cannot be read at all, said with what to do about it.

use crate::book::grid::TooMuch;
use crate::problem::{Advice, Choice};

/// Why a file could not be read. Each names the file and the next move.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum ReadError {
    /// Nothing is in it.
    #[error("{file} is empty: save the book again and check that it was copied whole")]
    Empty {
        /// The file as it was given.
        file: String,
    },
    /// It is no spreadsheet.
    #[error("{file} is {what}, not a spreadsheet: save the book as .xlsx or .csv and give that file")]
    NotASpreadsheet {
        /// The file as it was given.
        file: String,
        /// What it seems to be, with its article.
        what: &'static str,
    },
    /// It is encrypted.
    #[error("{file} is protected by a password: open it, remove the password, save it, and give that file")]
    PasswordProtected {
        /// The file as it was given.
        file: String,
    },
    /// It is a spreadsheet of a kind that is not read.
    #[error("{file} is {what}, which parings does not read: open it in a spreadsheet program and save it as .xlsx")]
    OtherFormat {
        /// The file as it was given.
        file: String,
        /// What it is, with its article.
        what: &'static str,
    },
    /// It was cut short or damaged.
    #[error("{file} is damaged or was not copied whole ({detail}): open it in a spreadsheet program and save it again")]
    Damaged {
        /// The file as it was given.
        file: String,
        /// What went wrong, for those who look into it.
        detail: String,
    },
    /// It would unpack into too much.
    #[error(
        "{file} unpacks into more than {most}, so it is not read: keep recipes and prices only, and save them as a new book"
    )]
    TooLarge {
        /// The file as it was given.
        file: String,
        /// The bound that was passed.
        most: String,
    },
    /// The machine has too little memory for it.
    #[error(
        "{file} takes more memory than is left here: close other programs, or keep recipes and prices only and save them as a \
         new book"
    )]
    NoMemory {
        /// The file as it was given.
        file: String,
    },
    /// A costed workbook beside what it was made from: every row would count twice.
    #[error("{costed} was made from {origin}, so the two cannot be read together: give one of them")]
    OutputWithSource {
        /// The costed workbook.
        costed: String,
        /// The file it was made from.
        origin: String,
    },
    /// A supplier's list in which no price row was found, or lacks a heading that was named.
    #[error("{file} {detail}")]
    NoPriceList {
        /// The file as it was given.
        file: String,
        /// What it has instead, and what to do; the choice of columns is among its choices where that would help.
        detail: Advice,
        /// The headings found in it; none where it has no row of them.
        headings: Vec<String>,
    },
    /// A quotation mark in a csv file is never closed.
    #[error(
        "{file} opens a quotation mark in line {line} that is never closed: close it, or write it twice if it means inches"
    )]
    QuoteOpen {
        /// The file as it was given.
        file: String,
        /// One-based line.
        line: usize,
    },
}

impl ReadError {
    /// What is wrong and what to do, with the caller's `words` for the choices in it.
    pub fn saying(&self, words: impl Fn(&Choice) -> String) -> String {
        match self {
            ReadError::NoPriceList { file, detail, .. } => format!("{file} {}", detail.saying(words)),
            other => other.to_string(),
        }
    }

    /// The file was cut short or damaged, as `detail` tells.
    pub(super) fn damaged(file: &str, detail: impl std::fmt::Display) -> Self {
        let detail = detail.to_string();
        // What the unpacking library says is for those who wrote it.
        let detail = match detail.strip_prefix("invalid Zip archive") {
            Some(rest) if rest.contains("EOCD") => "its end is missing".to_owned(),
            Some(_) => "its parts cannot be unpacked".to_owned(),
            None => detail,
        };
        ReadError::Damaged { file: file.to_owned(), detail }
    }

    /// There is no room for what the file holds.
    pub(super) fn too_large(file: &str, much: TooMuch) -> Self {
        let file = file.to_owned();
        match much {
            TooMuch::Allowed(most) => ReadError::TooLarge { file, most },
            TooMuch::Memory => ReadError::NoMemory { file },
        }
    }
}
