//! The exit status: what a script learns of a run.

use std::process::ExitCode;

use crate::problem::Problem;

/// How a run ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Exit {
    /// Done, whatever the warnings.
    Done,
    /// The book has errors; whatever could be done was.
    BookHasErrors,
    /// Nothing was done: wrong use, or a file that could not be read or written.
    CouldNotRun,
}

impl Exit {
    /// The end of a run that did its work on a book with these problems.
    pub fn after(problems: &[Problem]) -> Self {
        if problems.iter().any(Problem::is_error) { Exit::BookHasErrors } else { Exit::Done }
    }
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        ExitCode::from(match exit {
            Exit::Done => 0,
            Exit::BookHasErrors => 1,
            Exit::CouldNotRun => 2,
        })
    }
}
