//! Explanations of problem codes: each with its example, the problem met in it, and the example mended.

use schemars::JsonSchema;
use serde::Serialize;

use super::problem::ProblemResult;
use super::value::{FormatVersion, VERSION};
use super::word::Word;
use crate::problem::{Code, Explanation, Severity};

/// What problem codes mean: `parings explain --format json`.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "parings explain")]
pub struct ExplainedResults<'a> {
    /// The version of the program.
    pub parings: &'a str,
    /// The version of this format.
    pub format: FormatVersion,
    /// The codes asked for, or all of them.
    pub codes: Vec<CodeResult<'a>>,
}

/// A problem code. Books are csv text.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(rename = "Explanation")]
pub struct CodeResult<'a> {
    /// The code.
    pub code: Word<Code>,
    /// How grave it is.
    pub severity: Word<Severity>,
    /// What the code is about.
    pub group: &'static str,
    /// What it means, in one sentence.
    pub title: &'static str,
    /// What it means, at length.
    pub means: &'a str,
    /// What it does to the cost.
    pub matters: &'a str,
    /// A small book that has it.
    pub example: &'a str,
    /// The supplier's list beside the book, for what concerns lists.
    pub list: Option<&'a str>,
    /// The problem as it is met in that book.
    pub problem: ProblemResult<'a>,
    /// The same book put right.
    pub instead: &'a str,
    /// The same list put right.
    pub list_instead: Option<&'a str>,
    /// What to do when the right thing is not known; null where there is nothing to add.
    pub not_sure: Option<&'a str>,
}

/// What codes mean.
pub fn explained<'a>(explanations: &[&'a Explanation]) -> ExplainedResults<'a> {
    ExplainedResults {
        parings: VERSION,
        format: FormatVersion,
        codes: explanations.iter().map(|one| code_json(one)).collect(),
    }
}

fn code_json(one: &Explanation) -> CodeResult<'_> {
    CodeResult {
        code: Word(one.code),
        severity: Word(one.code.severity()),
        group: one.group,
        title: one.code.title(),
        means: &one.means,
        matters: &one.matters,
        example: &one.example,
        list: one.list.as_deref(),
        problem: ProblemResult::of(&one.problem),
        instead: &one.instead,
        list_instead: one.list_instead.as_deref(),
        not_sure: one.not_sure.as_deref(),
    }
}
