//! Problems on the terminal: all of them by severity, or their count and the worst three.

use super::width::{hang, printable};
use super::{Emphasis, View, many};
use crate::in_order::InOrder;
use crate::problem::{Code, Problem, Severity};
use crate::results::problem_counts::Counts;
use crate::results::problem_groups::{ProblemGroup, first_cells, grouped};

/// The most problems shown beside a result.
const WORST: usize = 3;

const SEVERITIES: [Severity; 3] = [Severity::Error, Severity::Warning, Severity::Note];

/// `3 problems: 1 error, 2 notes`; `no problems`.
pub fn counted(problems: &[Problem]) -> String {
    if problems.is_empty() {
        return "no problems".to_owned();
    }
    let kinds: Vec<String> = SEVERITIES
        .iter()
        .map(|severity| (severity, of(problems, *severity).count()))
        .filter(|(_, count)| *count > 0)
        .map(|(severity, count)| heading(*severity, count))
        .collect();
    format!("{}: {}", many(problems.len(), "problem", "problems"), kinds.join(", "))
}

/// The count of the problems, the worst three, and how to see the rest; nothing when there are none.
pub fn worst(problems: &[Problem], how_to_see_all: &str, view: View) -> String {
    if problems.is_empty() {
        return String::new();
    }
    let mut graded: Vec<&Problem> = problems.iter().collect();
    graded.put_in_order_by_key(|problem| rank(problem));
    let more = graded.len() > WORST;
    let mut out = counted(problems);
    out.push_str(if more { "; the worst three:\n" } else { ":\n" });
    for problem in graded.into_iter().take(WORST) {
        out.push_str(&one(problem, &format!("{}: ", problem.severity()), view));
    }
    if more {
        out.push_str(&format!("See all: {how_to_see_all}\n"));
    }
    out.push_str(&what_it_means(problems));
    out
}

/// Why a costed workbook counts fewer problems than `problems`: it has `counts` of them. Nothing where it has them all.
pub fn not_in_workbook(problems: &[Problem], counts: Counts) -> String {
    let others = problems.len().saturating_sub(counts.all());
    match others {
        0 => String::new(),
        1 => format!("Its Summary counts {}. The other one is about the files that were read.\n", counts.words()),
        _ => format!("Its Summary counts {}. The other {others} are about the files that were read.\n", counts.words()),
    }
}

/// All `problems` under their severities, in the order given; more than a hundred of one code in one place.
pub fn all_problems(problems: &[Problem], view: View) -> String {
    let mut out = String::new();
    for severity in SEVERITIES {
        let count = of(problems, severity).count();
        if count == 0 {
            continue;
        }
        if !out.is_empty() {
            out.push('\n');
        }
        out.push_str(&ink(severity).on(&heading(severity, count), view));
        out.push('\n');
        for group in grouped(of(problems, severity), |problem| problem.code) {
            match group {
                ProblemGroup::One(problem) => out.push_str(&one(problem, "", view)),
                ProblemGroup::Many(problems) => out.push_str(&several(&problems, view)),
            }
        }
    }
    if !out.is_empty() {
        out.push_str(&format!("\n{}", what_it_means(problems)));
    }
    out
}

/// The worst first; last of all a sheet that nobody may have wanted read.
fn rank(problem: &Problem) -> (Severity, bool) {
    (problem.severity(), problem.code == Code::SheetNotRead)
}

/// How to read more about a code, by the example of the first of the worst.
fn what_it_means(problems: &[Problem]) -> String {
    let worst = problems.iter().min_by_key(|problem| rank(problem));
    worst.map(|worst| format!("What a code means: parings explain {}\n", worst.code)).unwrap_or_default()
}

fn of(problems: &[Problem], severity: Severity) -> impl Iterator<Item = &Problem> {
    problems.iter().filter(move |problem| problem.severity() == severity)
}

fn heading(severity: Severity, count: usize) -> String {
    many(count, &severity.to_string(), &format!("{severity}s"))
}

/// The colour of a severity.
pub(super) fn ink(severity: Severity) -> Emphasis {
    match severity {
        Severity::Error => Emphasis::Bad,
        Severity::Warning => Emphasis::Doubt,
        Severity::Note => Emphasis::Faint,
    }
}

/// Problems of one code: how many, where the first ones are, and what the very first says.
fn several(problems: &[&Problem], view: View) -> String {
    let Some(first) = problems.first() else { return String::new() };
    let cells = problems.iter().map(|problem| {
        let cell = problem.place.cell_ref().map(|cell| cell.to_string()).unwrap_or_default();
        let (file, sheet) = (problem.place.file_name(), problem.place.sheet_name());
        let sheet = if sheet.is_empty() { format!("{file} ▸ ") } else { format!("{file} ▸ {sheet}!") };
        (printable(&sheet), "", cell)
    });
    let of_code = Emphasis::Faint.on(&format!("[{}]", first.code), view);
    let mut out = format!("  {} of this kind {of_code}\n", problems.len());
    out.push_str(&hang("    ", &format!("at {}", first_cells(cells, problems.len())), view.width));
    out.push_str(&hang("    ", &format!("the first: {}", printable(&first.message())), view.width));
    if !first.help.is_empty() {
        out.push_str(&hang("    → ", &printable(&first.help), view.width));
    }
    out
}

/// Place and code, then what was found, then what to do.
pub(super) fn one(problem: &Problem, grade: &str, view: View) -> String {
    let place = printable(&problem.place.to_string());
    let mut out = format!("  {}{place} ", ink(problem.severity()).on(grade, view));
    out.push_str(&Emphasis::Faint.on(&format!("[{}]", problem.code), view));
    out.push('\n');
    out.push_str(&hang("    ", &printable(&problem.message()), view.width));
    if !problem.help.is_empty() {
        out.push_str(&hang("    → ", &printable(&problem.help), view.width));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::problem::{CellRef, Fault, Place};

    fn problem(code: Code, row: u32) -> Problem {
        let place = Place::sheet("prices.csv", "").cell(CellRef::new(row, 1));
        Fault::new(code, format!("what {row}"), format!("fix {row}")).at(place)
    }

    #[test]
    fn the_worst_come_first_and_the_rest_are_pointed_at() {
        let problems = [
            problem(Code::CurrencyUnknown, 1),
            problem(Code::PriceOld, 2),
            problem(Code::PackIsARatio, 3),
            problem(Code::UnitUnknown, 4),
        ];
        let text = worst(&problems, "parings check prices.csv", View::default());
        let lines: Vec<&str> = text.lines().collect();
        assert_eq!(
            lines,
            [
                "4 problems: 2 errors, 1 warning, 1 note; the worst three:",
                "  error: prices.csv ▸ B4 [pack-is-a-ratio]",
                "    what 3",
                "    → fix 3",
                "  error: prices.csv ▸ B5 [unit-unknown]",
                "    what 4",
                "    → fix 4",
                "  warning: prices.csv ▸ B3 [price-old]",
                "    what 2",
                "    → fix 2",
                "See all: parings check prices.csv",
                "What a code means: parings explain pack-is-a-ratio",
            ]
        );
        assert_eq!(worst(&[], "", View::default()), "");
        let notes = [problem(Code::SheetNotRead, 1), problem(Code::CurrencyUnknown, 2)];
        let text = worst(&notes, "", View::default());
        assert!(text.starts_with("2 problems: 2 notes:\n  note: prices.csv ▸ B3 [currency-unknown]"), "{text}");
        assert!(text.ends_with("parings explain currency-unknown\n"), "{text}");
    }

    #[test]
    fn a_thousand_of_a_kind_are_told_once() {
        let mut problems: Vec<Problem> = (1..=1_000).map(|row| problem(Code::UnitUnknown, row)).collect();
        problems.push(problem(Code::PackIsARatio, 7));
        let text = all_problems(&problems, View::default());
        assert_eq!(
            text,
            "1001 errors\n  1000 of this kind [unit-unknown]\n    at prices.csv ▸ B2, B3, B4, B5, B6, B7, B8, B9, B10, B11 \
             and 990 more\n    the first: what 1\n    → fix 1\n  prices.csv ▸ B8 [pack-is-a-ratio]\n    what 7\n    → fix 7\n\n\
             What a code means: parings explain unit-unknown\n"
        );
    }

    #[test]
    fn a_check_groups_by_severity() {
        let problems = [problem(Code::CurrencyUnknown, 1), problem(Code::UnitUnknown, 4)];
        let text = all_problems(&problems, View::default());
        assert_eq!(
            text,
            "1 error\n  prices.csv ▸ B5 [unit-unknown]\n    what 4\n    → fix 4\n\n1 note\n  prices.csv ▸ B2 \
             [currency-unknown]\n    what 1\n    → fix 1\n\nWhat a code means: parings explain unit-unknown\n"
        );
    }
}
