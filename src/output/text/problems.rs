//! Problems on the terminal: all of them by severity, or their count and the worst three.

use super::width::{hang, printable};
use super::{Ink, View, many};
use crate::problem::{Code, Problem, Severity};
use crate::results::problem_counts::Counts;

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
    graded.sort_by_key(|problem| rank(problem));
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

/// All `problems` under their severities, in the order given.
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
        for problem in of(problems, severity) {
            out.push_str(&one(problem, "", view));
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
pub(super) fn ink(severity: Severity) -> Ink {
    match severity {
        Severity::Error => Ink::Bad,
        Severity::Warning => Ink::Doubt,
        Severity::Note => Ink::Faint,
    }
}

/// Place and code, then what was found, then what to do.
pub(super) fn one(problem: &Problem, grade: &str, view: View) -> String {
    let place = printable(&problem.place.to_string());
    let mut out = format!("  {}{place} ", ink(problem.severity()).on(grade, view));
    out.push_str(&Ink::Faint.on(&format!("[{}]", problem.code), view));
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
