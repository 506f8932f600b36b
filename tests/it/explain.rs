//! The explanations of problem codes keep their word: every example meets its code at the cell and in the words that are
//! shown, every mended book is sound, and the command finds them and lays them out.

use parings::output::text::{View, WIDEST, explained, listed, wrap};
use parings::problem::{Code, Explanation, Severity, explanation};
use rust_xlsxwriter::Workbook;
use serde_json::Value;

use crate::cli::{BOOK, BROKEN, Folder};
use crate::faults::cell::{Cell, put};
use crate::faults::chance::same_again;
use crate::faults::expect::{assert_well_said, without_lost_results};
use crate::lists::told;
use crate::recalc::assert_recalculates_if_any;
use crate::support::{cost_bytes, json_of, one_in_by_turns};
use crate::workbook::STAMP;
use crate::written::same_when_written;

/// The example as a file. What csv text cannot hold makes it a workbook.
fn example(of: &'static Explanation) -> (&'static str, Vec<u8>) {
    if of.typed.is_empty() {
        // Nobody reads so long a cell in an explanation.
        let example = of.example.replace("[40000 letters]", &"leek".repeat(10_000));
        let example = example.replace("[16400 commas]", &",".repeat(16_400));
        let example = example.replace("Leeks,10 lb,$20.00[1500 times]\n", &"Leeks,10 lb,$20.00\n".repeat(1_500));
        return ("book.csv", example.into_bytes());
    }
    let mut workbook = Workbook::new();
    let sheet = workbook.add_worksheet();
    let mut typed = 0;
    for (row, line) in (0_u32..).zip(of.example.lines()) {
        assert!(!line.contains('"'), "{}: commas only part cells here", of.code);
        for (column, text) in (0_u16..).zip(line.split(',')) {
            let at = parings::problem::CellRef::new(row, column.into()).to_string();
            let word = of.typed.get(&at);
            typed += usize::from(word.is_some());
            put(sheet, row, column, Cell::of_word(word.map_or(text, String::as_str)));
        }
    }
    assert_eq!(typed, of.typed.len(), "{}: a typed cell is not in the example", of.code);
    ("book.xlsx", without_lost_results(&workbook.save_to_buffer().unwrap()))
}

/// The costing of a book as JSON, and its costed workbook.
fn costed(name: &str, bytes: &[u8]) -> Value {
    let (reading, costing) = cost_bytes(&[(name, bytes)]);
    json_of(&reading, &costing)
}

fn written(name: &str, bytes: &[u8]) -> Vec<u8> {
    let (reading, costing) = cost_bytes(&[(name, bytes)]);
    parings::write(&reading, &costing, STAMP).unwrap()
}

/// What the turn of a code goes by: the page that tells of all of them.
const PAGE: &[u8] = include_bytes!("../../docs/problems.md");

/// Whether it is a code's turn, one in so many; with the long checks always.
fn is_its_turn(code: Code, every: usize) -> bool {
    let at = explanation::explanations().iter().position(|other| other.code == code).unwrap();
    one_in_by_turns(every, PAGE)(at)
}

/// A supplier's list compared with the book beside it.
fn compared(book: &str, list: &str) -> parings::PriceList {
    let (reading, _) = cost_bytes(&[("book.csv", book.as_bytes())]);
    let source = parings::Source { name: "list.csv", bytes: list.as_bytes() };
    parings::reprice(reading, &[source], &parings::ListOptions::default(), true).unwrap().list
}

fn problems(json: &Value) -> &[Value] {
    json["problems"].as_array().unwrap()
}

/// The recipes without a cost.
fn stopped(json: &Value) -> Vec<&Value> {
    json["recipes"].as_array().unwrap().iter().filter(|recipe| recipe["food_cost"].is_null()).collect()
}

/// Runs `check` on every explanation, and tells of all that fail.
#[track_caller]
fn of_every_code(check: impl Fn(&'static Explanation) + std::panic::RefUnwindSafe) {
    let fails = |one: &&'static Explanation| std::panic::catch_unwind(|| check(one)).is_err();
    let failed: Vec<&str> = explanation::explanations().iter().filter(fails).map(|one| one.code.name()).collect();
    assert!(failed.is_empty(), "see above: {failed:?}");
}

#[test]
fn every_example_meets_its_code_where_and_in_the_words_that_are_shown() {
    of_every_code(|one| {
        let (name, bytes) = example(one);
        let json = costed(name, &bytes);
        let name_of = |problem: &Value| {
            let text = |key: &str| problem[key].as_str().unwrap().to_owned();
            ["code", "file", "sheet", "cell", "message", "help"].map(text)
        };
        let said = &one.problem;
        let wanted = [
            said.code.name().to_owned(),
            said.place.file_name().to_owned(),
            said.place.sheet_name().to_owned(),
            said.place.cell_ref().unwrap().to_string(),
            said.message(),
            said.help.to_string(),
        ];
        if let Some(list) = &one.list {
            assert!(problems(&json).is_empty(), "the book beside the list is sound: {json:#}");
            let met = compared(&one.example, list).problems;
            assert_eq!(met.iter().map(told).collect::<Vec<_>>(), [told(said)]);
            return;
        }
        assert_eq!(said.place.file_name(), name);
        let found: Vec<_> = problems(&json).iter().map(name_of).collect();
        assert!(found.contains(&wanted), "{wanted:#?} is not in {found:#?}");
        for problem in problems(&json) {
            let is_other_error = problem["severity"] == "error" && problem["code"] != one.code.name();
            assert!(!is_other_error, "an error that is not spoken of: {problem:#}");
        }
        // A warning or a note stops nothing.
        assert!(one.code.severity() == Severity::Error || stopped(&json).is_empty(), "{json:#}");
    });
}

#[test]
fn every_mended_book_is_without_a_fault_and_costed() {
    of_every_code(|one| {
        let json = costed("book.csv", one.instead.as_bytes());
        // The leeks that most examples cost state no yield, which is worth a note but not in each of them.
        let is_spoken_of = |problem: &&Value| {
            let about_yields = Code::YieldPublished.name();
            problem["code"] != about_yields || one.code.name() == about_yields
        };
        assert_eq!(one.list.is_some(), one.list_instead.is_some());
        if let Some(list) = &one.list_instead {
            let compared = compared(&one.instead, list);
            assert!(compared.problems.is_empty() && compared.taken.len() == 1, "{compared:#?}");
        }
        let left: Vec<_> = problems(&json).iter().filter(is_spoken_of).collect();
        assert!(left.is_empty() && stopped(&json).is_empty(), "{json:#}");
        if !is_its_turn(one.code, 4) {
            return;
        }
        let written = written("book.csv", one.instead.as_bytes());
        assert_recalculates_if_any(&written, one.code.name());
    });
}

/// Of every ninth code, by turns; of all with the long checks.
#[test]
fn every_example_is_the_same_book_when_costed_and_when_written() {
    of_every_code(|one| {
        if !is_its_turn(one.code, 9) {
            return;
        }
        let (name, bytes) = example(one);
        same_again(name, &bytes).unwrap();
        same_when_written(&[(name, &bytes)]).unwrap_or_else(|error| panic!("{}: {error}", one.code));
        let written = written(name, &bytes);
        assert_recalculates_if_any(&written, one.code.name());
    });
}

/// Sentences, as many as can be read at a glance; the messages as messages are worded everywhere.
#[test]
fn every_explanation_is_well_said() {
    of_every_code(|one| {
        assert_well_said("message", &one.problem.message());
        assert_well_said("help", &one.problem.help);
        for text in [Some(&one.means), Some(&one.matters), one.not_sure.as_ref()].into_iter().flatten() {
            assert!(text.ends_with(['.', '?']), "{text}");
            assert!(wrap(text, WIDEST - 2).len() <= 4, "too long to be read: {text}");
        }
        assert_ne!((&one.example, &one.list), (&one.instead, &one.list_instead));
        assert!(one.example.lines().count() <= 20, "only the rows that matter");
    });
}

#[test]
fn nothing_is_wider_than_the_terminal() {
    let all: Vec<&Explanation> = explanation::explanations().iter().collect();
    let view = View::default();
    for line in explained(&all, view).lines().chain(listed(explanation::explanations(), view).lines()) {
        assert!(line.chars().count() <= WIDEST, "{line}");
    }
}

#[test]
fn a_code_is_found_as_it_is_printed_and_several_at_once() {
    let folder = Folder::with("book.csv", BOOK);
    let plain = folder.run(&["explain", "price-old"]).ends(0);
    for part in ["price-old (warning)", "the price of “Onions” is 111 days old", "   5  Onions        50 lb"] {
        assert!(plain.out.contains(part), "no “{part}” in {plain:#?}");
    }
    let printed = folder.run(&["explain", "[Price-Old]"]).ends(0);
    assert_eq!(printed.out, plain.out);
    let both = folder.run(&["explain", "price-old", "YIELD-UNUSED", "[price-old]"]).ends(0);
    assert!(both.out.starts_with(&plain.out) && both.out.contains("yield-unused (warning)"), "{both:#?}");
    assert_eq!(both.out.matches("price-old (warning)").count(), 1);
    assert_eq!(folder.names(), ["book.csv"]);
}

#[test]
fn a_word_that_is_no_code_ends_in_two_with_the_nearest() {
    let folder = Folder::with("book.csv", BOOK);
    for (words, near) in [
        (&["pack-is-date"][..], "“pack-is-a-date”"),
        (&["price-old", "[Unit-Mising]"], "“unit-missing”"),
        (&["yields"], "“yield-zero”"),
        (&["book.csv"], "`parings explain` lists them all"),
        (&[""], "`parings explain` lists them all"),
    ] {
        let ran = folder.run(&[&["explain"], words].concat()).ends(2).complains_of(&["no problem code", near]);
        assert!(ran.out.is_empty(), "{ran:#?}");
    }
}

#[test]
fn all_codes_are_listed_with_severity_and_title() {
    let ran = Folder::with("book.csv", BOOK).run(&["explain"]).ends(0);
    let words: Vec<String> =
        ran.out.lines().map(|line| line.split_whitespace().collect::<Vec<_>>().join(" ")).collect();
    for one in explanation::explanations() {
        let head = format!("{} {} ", one.code, one.code.severity());
        assert!(words.iter().any(|line| line.starts_with(&head)), "{head}");
        assert!(words.contains(&one.group.to_owned()), "{}", one.group);
    }
    let joined = words.join(" ");
    for one in explanation::explanations() {
        assert!(joined.contains(one.code.title()), "{}", one.code.title());
    }
}

#[test]
fn json_and_csv_hold_every_word() {
    let folder = Folder::with("book.csv", BOOK);
    let ran = folder.run(&["explain", "price-old", "pack-is-a-date", "--format", "json"]).ends(0);
    let json: Value = serde_json::from_str(&ran.out).unwrap();
    let codes = json["codes"].as_array().unwrap();
    assert_eq!(codes.len(), 2);
    for code in codes {
        let one = explanation::named(code["code"].as_str().unwrap()).unwrap();
        let help = one.problem.help.to_string();
        let words = [&one.means, &one.matters, &one.example, &one.instead, &help];
        let told = [&code["means"], &code["matters"], &code["example"], &code["instead"], &code["problem"]["help"]];
        assert_eq!(told.map(|text| text.as_str().unwrap()), words.map(String::as_str));
        assert_eq!(code["not_sure"].as_str(), one.not_sure.as_deref());
        let keys: Vec<&str> = code.as_object().unwrap().keys().map(String::as_str).collect();
        let promised = [
            "code",
            "severity",
            "group",
            "title",
            "means",
            "matters",
            "example",
            "list",
            "problem",
            "instead",
            "list_instead",
            "not_sure",
        ];
        assert_eq!(keys, promised);
    }
    let all = folder.run(&["explain", "--format", "csv"]).ends(0);
    let mut reader = csv::Reader::from_reader(all.out.as_bytes());
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let told: Vec<(&str, &str, &str)> = rows.iter().map(|row| (&row[0], &row[2], &row[6])).collect();
    let known = explanation::explanations().iter();
    let known: Vec<(&str, &str, &str)> = known.map(|one| (one.code.name(), one.group, one.example.as_str())).collect();
    assert_eq!(told, known);
}

/// The last line of a list of problems names the code of the worst, and what it says to run can be run.
#[test]
fn a_list_of_problems_says_how_to_read_more() {
    let folder = Folder::with("book.csv", format!("{BOOK}{BROKEN}"));
    let line = "What a code means: parings explain name-unknown\n";
    let checked = folder.run(&["check", "book.csv"]).ends(1);
    assert!(checked.out.ends_with(line), "{checked:#?}");
    let costed = folder.run(&["cost", "book.csv"]).ends(1);
    assert_eq!(costed.err.matches(line).count(), 1, "{costed:#?}");
    folder.run(&["explain", "name-unknown"]).ends(0);
    folder.put("sound.csv", BOOK);
    for command in ["check", "cost"] {
        let sound = folder.run(&[command, "sound.csv"]).ends(0);
        let told = sound.out.contains("parings explain") || sound.err.contains("parings explain");
        assert_eq!(told, sound.out.contains("note") || sound.err.contains("note"), "{sound:#?}");
    }
}
