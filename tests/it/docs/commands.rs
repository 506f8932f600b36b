//! Commands on the pages: each is run once, in the order of reading, in a folder that holds the files of the pages.

use std::collections::BTreeMap;
use std::fs;

use rust_xlsxwriter::Workbook;

use super::pages::{FILES, PAGES, Page, Table, csv, read, root, tables};
use crate::cli::Folder;

/// What is for cargo alone, and not run from within a test.
const CARGO: [&str; 2] = ["cargo test --locked", "cargo install --locked --path ."];

/// A folder to run in, and what was printed so far.
struct Shell {
    folder: Folder,
    printed: BTreeMap<Vec<String>, String>,
}

/// A folder with every file whose tables are on the pages.
pub fn folder() -> Folder {
    let folder = Folder::with("kitchen.csv", csv(&tables("kitchen.csv")));
    for name in FILES.iter().flat_map(|(names, _)| names) {
        match name.ends_with(".csv") {
            true => folder.put(name, csv(&tables(name))),
            false => folder.put(name, xlsx(&tables(name))),
        }
    }
    folder
}

/// Tables on one sheet as they are typed, one below the other.
fn xlsx(tables: &[Table]) -> Vec<u8> {
    let mut workbook = Workbook::new();
    let sheet = workbook.add_worksheet();
    let mut at = 0;
    for table in tables {
        for row in table {
            for (column, cell) in (0_u16..).zip(row).filter(|(_, cell)| !cell.is_empty()) {
                sheet.write_string(at, column, cell).unwrap();
            }
            at += 1;
        }
        at += 1;
    }
    workbook.save_to_buffer().unwrap()
}

/// A command as its arguments, those in quotation marks whole; `None` if it is none of parings.
fn arguments(command: &str) -> Option<Vec<String>> {
    let rest = command.strip_prefix("parings ").or_else(|| command.strip_prefix("cargo run --release --locked -- "))?;
    let mut arguments = Vec::new();
    for (at, part) in rest.split('"').enumerate() {
        match at % 2 {
            1 => arguments.push(part.to_owned()),
            _ => arguments.extend(part.split_whitespace().map(str::to_owned)),
        }
    }
    Some(arguments)
}

/// The command below the comment `<!-- prints COMMAND -->`, and the lines that are shown.
fn shown(page: &Page) -> Vec<(&str, &str)> {
    let marked = page.text.split("<!-- prints ").skip(1);
    marked
        .map(|from| {
            let (command, block) = from.split_once(" -->\n\n```text\n").expect("a block below the comment");
            (command, block.split("```").next().unwrap())
        })
        .collect()
}

impl Shell {
    /// Runs a command unless it was run before; gives what it printed, results first.
    fn run(&mut self, page: &Page, arguments: Vec<String>) -> &str {
        let folder = &self.folder;
        self.printed.entry(arguments).or_insert_with_key(|arguments| {
            let ran = folder.run(&arguments.iter().map(String::as_str).collect::<Vec<_>>());
            assert_eq!(ran.code, 0, "{}: parings {arguments:?}: {ran:#?}", page.name);
            ran.out + &ran.err
        })
    }
}

/// Whether `printed` is what is shown; a line `…` stands for any lines.
fn is_shown(printed: &str, shown: &str) -> bool {
    let parts: Vec<&str> = shown.split("…\n").collect();
    let mut rest = Some(printed);
    for part in &parts {
        rest = rest.and_then(|rest| rest.find(part).map(|at| &rest[at + part.len()..]));
    }
    rest.is_some() && printed.starts_with(parts[0]) && printed.ends_with(parts[parts.len() - 1])
}

#[test]
fn every_command_runs_and_prints_what_is_shown() {
    let folder = folder();
    fs::create_dir(folder.path("sample-books")).unwrap();
    for entry in fs::read_dir(root().join("sample-books")).unwrap().map(Result::unwrap) {
        let name = format!("sample-books/{}", entry.file_name().to_str().unwrap());
        if name.ends_with(".xlsx") || name.ends_with(".csv") {
            folder.put(&name, fs::read(entry.path()).unwrap());
        }
    }
    let mut shell = Shell { folder, printed: BTreeMap::new() };
    for page in PAGES.iter() {
        for command in page.blocks("sh").into_iter().flat_map(str::lines) {
            match arguments(command) {
                Some(arguments) => drop(shell.run(page, arguments).len()),
                None => assert!(CARGO.contains(&command), "{}: {command}", page.name),
            }
        }
        for arguments in page.spans().iter().filter_map(|span| arguments(span)) {
            // A command without its book is only spoken of.
            let spoken_of = arguments.len() == 1 && arguments[0] != "help";
            shell.run(page, if spoken_of { vec!["help".to_owned(), arguments[0].clone()] } else { arguments });
        }
        for (command, shown) in shown(page) {
            let printed = shell.run(page, arguments(command).expect(command));
            assert!(is_shown(printed, shown), "{}: {command} prints:\n{printed}", page.name);
        }
    }
    let used = |name: &&str| shell.printed.keys().any(|arguments| arguments.iter().any(|argument| argument == *name));
    let unused: Vec<_> = FILES.iter().flat_map(|(names, _)| names).filter(|name| !used(name)).collect();
    assert!(unused.is_empty(), "no command reads {unused:?}");
    let written: Vec<String> = shell.folder.names().into_iter().filter(|name| !tables_of(name)).collect();
    assert_eq!(
        written,
        [
            "fill-in.xlsx",
            "house-today.costed.xlsx",
            "house-today.csv",
            "house.repriced.xlsx",
            "kitchen-december.xlsx",
            "kitchen.costed.xlsx",
            "kitchen.repriced.xlsx",
            "my-kitchen.costed.xlsx",
            "my-kitchen.xlsx",
            "order.xlsx",
            "our-kitchen.xlsx",
            "pantry.costed.xlsx",
            "sample-books",
            "soup-for-sixty.xlsx",
            "soup.costed.xlsx",
            "spring-menu.xlsx",
            "trout.costed.xlsx",
            "yield-test.xlsx",
        ]
    );
    assert!(shell.folder.path("sample-books/teaching-kitchen.costed.xlsx").is_file());
}

/// Whether the pages show what is in the file.
fn tables_of(name: &str) -> bool {
    FILES.iter().any(|(names, _)| names.contains(&name))
}

#[test]
fn what_is_left_out_stands_for_any_lines() {
    assert!(is_shown("a\nb\nc\n", "a\n…\nc\n") && is_shown("a\nb\n", "a\n…\n") && is_shown("a\nb\n", "…\nb\n"));
    for other in ["a\nc\n", "b\n…\n", "a\n…\nb\n", "c\n…\na\n…\n", "…\na\n"] {
        assert!(!is_shown("a\nb\nc\n", other), "{other:?}");
    }
}

#[test]
fn the_two_commands_for_a_fresh_machine_stand_first() {
    let readme = &PAGES[0];
    let commands: Vec<&str> = readme.blocks("sh").into_iter().flat_map(str::lines).collect();
    assert!(commands[0].starts_with("cargo run --release --locked -- cost sample-books/"), "{commands:?}");
    assert_eq!(commands[1], "cargo test --locked");
    assert!(read(".ci/run").lines().any(|line| line.trim() == commands[1]), "how every change is tested");
    assert!(read(".gitignore").lines().any(|line| line == "*.costed.xlsx"));
    assert!(readme.text.lines().count() <= 150, "the README is read at a glance; the rest is for docs");
}
