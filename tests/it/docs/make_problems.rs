//! Page of every problem, written anew from the explanations: `cargo run --example make-problems`.
//!
//! Takes nothing and gives the page as Markdown, the same text each time, so that a test can prove that the committed
//! page is what is made.

#![allow(dead_code, reason = "the tests include this file for the page and have no use for main")]

use parings::output::text::wrap;
use parings::problem::column_letters;
use parings::problem::{Explanation, Severity, explanation};

/// How wide text is set.
const WIDTH: usize = 120;

const HEAD: &str = "\
# Every problem

Each problem has a code, the word in square brackets behind its cell; [what to do about
one](cooks/something-is-wrong.md) stands with the pages for cooks. Here is what each means, an example with the message
that is met there, and what to type instead, in the words that `parings explain` prints. This page is made from them, by
`cargo run --example make-problems`.
";

fn main() -> std::io::Result<()> {
    let file = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/problems.md");
    std::fs::write(&file, page())?;
    println!("{}", file.display());
    Ok(())
}

/// The whole page.
pub fn page() -> String {
    let all = explanation::explanations();
    let mut groups: Vec<&str> = all.iter().map(|one| one.group).collect();
    groups.dedup();
    let mut contents = String::new();
    let mut sections = String::new();
    for group in groups {
        let of_group: Vec<&Explanation> = all.iter().filter(|one| one.group == group).collect();
        let codes: Vec<String> = of_group.iter().map(|one| format!("[{0}](#{0})", one.code)).collect();
        contents.push_str(&format!("\n**{group}**: {}\n", codes.join(", ")));
        sections.push_str(&format!("\n## {group}\n"));
        of_group.into_iter().for_each(|one| sections.push_str(&section(one)));
    }
    let contents: Vec<String> = contents.trim_end().split("\n\n").map(set).collect();
    format!("{HEAD}{}\n{sections}", contents.join("\n\n"))
}

/// One code with all that is said of it.
fn section(one: &Explanation) -> String {
    let severity = match one.code.severity() {
        Severity::Error => "Error",
        Severity::Warning => "Warning",
        Severity::Note => "Note",
    };
    let problem = &one.problem.saying(parings::internals::flags_in_words);
    let mut parts = vec![
        format!("### {}", one.code),
        set(&format!("**{severity}: {}** {}", prose(one.code.title()), prose(&one.means))),
        set(&prose(&one.matters)),
    ];
    match &one.list {
        None => parts.push(format!("An example:\n\n{}", table(&one.example))),
        Some(list) => {
            parts.push(format!("An example, the book:\n\n{}", table(&one.example)));
            parts.push(format!("and a supplier's list:\n\n{}", table(list)));
        }
    }
    let met = format!("> {}: {}", problem.place, prose(&problem.message()));
    parts.push(format!("{}\n>\n{}", quoted(&met), quoted(&format!("> → {}", prose(&problem.help)))));
    match &one.list_instead {
        Some(list) if one.instead == one.example => {
            parts.push(format!("To type instead, in the list:\n\n{}", table(list)));
        }
        Some(list) => {
            parts.push(format!("To type instead, in the book:\n\n{}", table(&one.instead)));
            parts.push(format!("and in the list:\n\n{}", table(list)));
        }
        None => parts.push(format!("To type instead:\n\n{}", table(&one.instead))),
    }
    parts.extend(one.not_sure.as_ref().map(|text| set(&format!("*If you are not sure.* {}", prose(text)))));
    format!("\n{}\n", parts.join("\n\n"))
}

/// Text in lines.
fn set(text: &str) -> String {
    wrap(text, WIDTH).join("\n")
}

/// A quotation in lines.
fn quoted(text: &str) -> String {
    wrap(text, WIDTH - 2).join("\n> ")
}

/// Text in which nothing is taken for Markdown.
fn prose(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        if matches!(c, '*' | '_' | '<' | '|' | '`' | '[' | ']' | '\\') {
            out.push('\\');
        }
        out.push(c);
    }
    out
}

/// A book of csv text as a spreadsheet program shows it, with the letters of columns and the numbers of rows.
fn table(book: &str) -> String {
    let rows: Vec<Vec<String>> = book.lines().map(cells).collect();
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let letters: Vec<String> = (0_u32..).take(columns).map(column_letters).collect();
    let line = |first: &str, cells: &[String]| {
        let cells = cells.iter().map(String::as_str).chain(std::iter::repeat("")).take(columns);
        let all: Vec<&str> = std::iter::once(first).chain(cells).collect();
        let filled: Vec<String> =
            all.iter().map(|cell| if cell.is_empty() { " ".into() } else { format!(" {cell} ") }).collect();
        format!("|{}|", filled.join("|"))
    };
    let mut lines = vec![line("", &letters), format!("|{}", " --- |".repeat(columns.saturating_add(1)))];
    lines.extend((1..).zip(&rows).map(|(number, cells)| line(&format!("**{number}**"), cells)));
    lines.join("\n")
}

/// The cells of a line of csv text.
fn cells(line: &str) -> Vec<String> {
    let mut reader = csv::ReaderBuilder::new().has_headers(false).from_reader(line.as_bytes());
    let record = reader.records().next().and_then(Result::ok).unwrap_or_default();
    record.iter().map(prose).collect()
}
