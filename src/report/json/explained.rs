//! What problem codes mean as JSON: each with its example, the problem met in it, and the example mended.

use super::pretty;
use serde::Serialize;

use super::{FORMAT, ProblemJson, problem_json};
use crate::problem::Explanation;

#[derive(Debug, Serialize)]
struct Report<'a> {
    parings: &'a str,
    format: u32,
    codes: Vec<CodeJson<'a>>,
}

#[derive(Debug, Serialize)]
struct CodeJson<'a> {
    code: &'static str,
    severity: String,
    group: &'static str,
    title: &'static str,
    means: &'a str,
    matters: &'a str,
    example: &'a str,
    /// The supplier's list beside the book, for what concerns lists.
    list: Option<&'a str>,
    problem: ProblemJson<'a>,
    instead: &'a str,
    list_instead: Option<&'a str>,
    not_sure: Option<&'a str>,
}

/// The JSON of explanations, pretty-printed, with a final line break. Books are csv text.
pub fn explained(explanations: &[&Explanation]) -> String {
    let report = Report {
        parings: env!("CARGO_PKG_VERSION"),
        format: FORMAT,
        codes: explanations.iter().map(|one| code_json(one)).collect(),
    };
    pretty(&report)
}

fn code_json(one: &Explanation) -> CodeJson<'_> {
    CodeJson {
        code: one.code.name(),
        severity: one.code.severity().to_string(),
        group: one.group,
        title: one.code.title(),
        means: &one.means,
        matters: &one.matters,
        example: &one.example,
        list: one.list.as_deref(),
        problem: problem_json(&one.problem),
        instead: &one.instead,
        list_instead: one.list_instead.as_deref(),
        not_sure: one.not_sure.as_deref(),
    }
}
