//! Questions of the page, as it writes them.

use serde::Deserialize;

/// A question. Numbers that are figures are texts.
#[derive(Debug, Deserialize)]
#[serde(tag = "ask", rename_all = "kebab-case")]
pub enum Question {
    /// Who are you?
    Hello,
    /// Do all of it once with a sample, apart from what is open.
    Warm {
        /// When its workbook is written.
        at: String,
    },
    /// Here is a file, its bytes behind the question: of the book, or a supplier's list.
    File {
        /// Its name.
        name: String,
        /// Whether it is a list.
        #[serde(default)]
        list: bool,
    },
    /// Forget the lists, or everything.
    Forget {
        /// Whether the lists alone are meant.
        #[serde(default)]
        lists: bool,
    },
    /// Read and cost the files.
    Open {
        /// Today, as the browser knows it.
        today: String,
        /// The day to cost for; empty is the book's own.
        #[serde(default)]
        day: String,
    },
    /// All of it, as the command prints it as JSON.
    Costs,
    /// One recipe.
    Card {
        /// Which, by its place in the book.
        recipe: usize,
    },
    /// What trim is worth, with every by-product's credit moved in steps of 1 %.
    Trim,
    /// What can be tried.
    Knobs,
    /// The book as if these stood in it.
    Try {
        /// What is moved.
        moves: Vec<Move>,
    },
    /// A costed workbook.
    Workbook {
        /// Of which book.
        of: Of,
        /// When it is written.
        at: String,
    },
    /// A table of results.
    Csv {
        /// Which.
        of: Rows,
    },
    /// What the lists do.
    Reprice(Terms),
    /// The book with the new prices in it.
    NewBook {
        /// When it is written.
        at: String,
    },
    /// A built-in file.
    Built {
        /// Its name.
        name: String,
    },
}

/// A knob and where it stands.
#[derive(Debug, Deserialize)]
pub struct Move {
    /// Which, by its place among the knobs.
    pub knob: usize,
    /// Its value in its own unit.
    pub value: String,
}

/// Which book a workbook is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Of {
    /// The book as it was opened.
    Book,
    /// As tried.
    Tried,
    /// At the new prices.
    Repriced,
}

/// A table of results.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Rows {
    /// The dishes.
    Dishes,
    /// The lines of all recipes.
    Lines,
    /// The parts of all yield tests.
    Parts,
    /// The problems.
    Problems,
    /// What new prices do.
    Changes,
}

/// What is said of new lists.
#[derive(Debug, Default, Deserialize)]
#[serde(default)]
pub struct Terms {
    /// Whose they are.
    pub supplier: String,
    /// The day of rows that bear none.
    pub dated: String,
    /// Our columns with the headings they stand under.
    pub columns: Vec<(String, String)>,
    /// The items whose held prices are taken.
    pub accepted: Vec<String>,
}
