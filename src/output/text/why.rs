//! Why a figure is what it is, on the terminal: the answer in a few lines, or every step.

use super::width::{hang, left, printable, right, width};
use super::{Emphasis, View};
use crate::results::figures::at_most;
use crate::results::why::{NotUsed, StepWord, WhyResults, WhyStepResult};
use crate::results::word::Closed;

/// So many prices are named that move a figure.
const MOVING: usize = 5;

/// The answer; with `all` every step as well. `again` is the command that shows them.
pub fn why(results: &WhyResults<'_>, all: bool, again: &str, view: View) -> String {
    let mut out = String::new();
    for (at, line) in results.answer.iter().enumerate() {
        let text = hang("", &printable(line), view.width);
        out.push_str(&if at == 0 { inked(&text, Emphasis::Strong, view) } else { text });
    }
    if !all {
        if !results.steps.is_empty() {
            out.push_str(
                &Emphasis::Faint.on(&hang("", &format!("Step by step: {}", printable(again)), view.width), view),
            );
        }
        return out;
    }
    out.push_str(&steps(results, view));
    out.push_str(&one_percent(results, view));
    out.push_str(&not_used(results, view));
    out.push_str(&doubts(results, view));
    out
}

/// Each line in an ink of its own, so that no change of ink stands open at its end.
fn inked(text: &str, ink: Emphasis, view: View) -> String {
    text.lines().map(|line| format!("{}\n", ink.on(line, view))).collect()
}

fn heading(text: &str, view: View) -> String {
    format!("\n{}", inked(&hang("", &printable(text), view.width), Emphasis::Strong, view))
}

fn steps(results: &WhyResults<'_>, view: View) -> String {
    let mut out = String::new();
    let mut before: Option<&WhyStepResult> = None;
    let mut files: Vec<&str> =
        results.steps.iter().map(|step| step.file.as_str()).filter(|file| !file.is_empty()).collect();
    files.dedup();
    let one_file = files.len() == 1;
    for step in &results.steps {
        // What is measured as it was asked for says nothing new.
        let is_same = before.is_some_and(|before| before.step.0 == StepWord::Asked && before.told == step.told);
        if is_same && step.step.0 == StepWord::Measured && step.from.is_empty() {
            continue;
        }
        let is_new = before.is_none_or(|before| before.of != step.of || before.of_what != step.of_what);
        if is_new {
            out.push_str(&heading(&format!("{} ({})", step.of, step.of_what.0.word()), view));
        }
        if step.line > 0 && (is_new || before.is_none_or(|before| before.line != step.line)) {
            out.push_str(&hang("  ", &printable(&step.name), view.width));
        }
        out.push_str(&one(step, one_file, view));
        before = Some(step);
    }
    if results.steps_cut {
        out.push_str(&hang("", "There is more below: ask for it by its name.", view.width));
    }
    out
}

/// The width of the sign and figure of a step.
const FIGURE: usize = 20;

/// One step: its sign, its figure, what it is and where it comes from.
fn one(step: &WhyStepResult, one_file: bool, view: View) -> String {
    let sign = match step.step.0 {
        StepWord::Yield => "at",
        StepWord::UnitCost if step.line == 0 => "=",
        StepWord::UnitCost | StepWord::Used | StepWord::Share | StepWord::ShareOfRest | StepWord::Charge => "×",
        StepWord::Measured | StepWord::Drawn | StepWord::Cost | StepWord::Borne | StepWord::Credit => "=",
        StepWord::Food | StepWord::Batch | StepWord::PortionCost | StepWord::AllThatWentIn | StepWord::LeftToShare => {
            "="
        }
        StepWord::Paid | StepWord::Edible | StepWord::ExTax | StepWord::Plate => "=",
        _ => "",
    };
    let figure = right(&printable(&step.told), FIGURE);
    let place = place((&step.file, &step.sheet, &step.cell), one_file);
    let word = step.step.0.word();
    let from = if step.from.is_empty() { String::new() } else { format!(": {}", step.from) };
    let first = format!("    {} {figure}  ", left(sign, 2));
    hang(&first, &printable(&format!("{word}{from}{place}")), view.width.max(width(&first).saturating_add(20)))
}

/// Where something stands, in brackets; within the file where there is but one.
fn place((file, sheet, cell): (&str, &str, &str), one_file: bool) -> String {
    let sheet = if sheet.is_empty() { String::new() } else { format!("{sheet}!") };
    match cell {
        "" => String::new(),
        cell if one_file => format!(" ({sheet}{cell})"),
        cell => format!(" ({file} ▸ {sheet}{cell})"),
    }
}

fn one_percent(results: &WhyResults<'_>, view: View) -> String {
    if results.one_percent.is_empty() {
        return String::new();
    }
    let mut out = heading("One more percent on a price", view);
    for one in results.one_percent.iter().take(MOVING) {
        let points = one.points.map(|points| format!(", {} points", at_most(points.0, 4))).unwrap_or_default();
        let text = format!("{}: {}{points}", one.item, one.told);
        out.push_str(&hang("  ", &printable(&text), view.width));
    }
    let says = "Exact as long as no other row, yield or measure is chosen for it.";
    out.push_str(&hang("  ", says, view.width));
    out
}

fn not_used(results: &WhyResults<'_>, view: View) -> String {
    if results.not_used.is_empty() {
        return String::new();
    }
    let mut out = heading("Not used, and why", view);
    for NotUsed { item, says, why, file, sheet, cell, .. } in &results.not_used {
        let place = place((file, sheet, cell), false);
        out.push_str(&hang("  ", &printable(&format!("{item}: {says}{place}: {why}.")), view.width));
    }
    out
}

fn doubts(results: &WhyResults<'_>, view: View) -> String {
    if results.doubts.is_empty() {
        return String::new();
    }
    let mut out = heading("Assumed or doubtful", view);
    for doubt in &results.doubts {
        let sheet = if doubt.sheet.is_empty() { String::new() } else { format!("{}!", doubt.sheet) };
        let text = format!("{} ▸ {sheet}{}: {}.", doubt.file, doubt.cell, doubt.message);
        out.push_str(&hang("  ", &printable(&text), view.width));
    }
    out
}
