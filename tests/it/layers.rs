//! The direction of the code: every module uses only what stands before it, and the core touches nothing outside.

mod arithmetic;
pub mod imports;

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use imports::{Module, code, modules, named, sources};

/// Left to right, each using only what stands before it. `book` stands beside them: it uses what the kitchen
/// uses, and neither knows the other. So do `workbook` and `output`. Books and reports meet in `reading`, `writing` and `repricing`.
const ORDER: &[&str] = &[
    "in_order",
    "number",
    "problem",
    "measure",
    "schema",
    "food",
    "kitchen",
    "costing",
    "analysis",
    "results",
    "workbook",
    "output",
    "reading",
    "repricing",
    "patching",
    "writing",
    "",
    "cli",
    "internals",
];

/// What may not be named in what runs without a file system, clock, terminal or environment.
const OUTSIDE: &[&str] = &[
    "std::fs",
    "std::env",
    "std::io::stdin",
    "std::io::stdout",
    "std::io::stderr",
    "std::process",
    "std::time",
    "SystemTime",
    "Instant",
    "DateTime::now",
    "Timestamp::now",
    "println!",
    "eprintln!",
    "print!(",
    "tempfile",
    "std::net",
    "std::thread",
];

/// Rooms that are there for a command alone: all of them behind the feature `cli`.
const OF_THE_COMMAND: &[&str] = &["cli", "internals"];

fn src() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// The room of a module: its top folder or file. The root, which only hands names on, is the empty one.
fn room(module: &Module) -> &str {
    module.first().map_or("", String::as_str)
}

fn may_use(from: &str, to: &str) -> bool {
    let place = |room: &str| ORDER.iter().position(|name| *name == room);
    match (from, to) {
        ("book", _) => place(to) < place("costing"),
        // Sheets and texts show the same results, and neither knows the other.
        ("workbook", "output") | ("output", "workbook") => false,
        // Readers of books are used where books and reports meet, and by nobody before.
        (_, "book") => place(from) >= place("reading"),
        _ => place(to) < place(from),
    }
}

#[test]
fn every_module_uses_only_what_stands_before_it() {
    let all = modules(&src());
    let mut seen = 0;
    for (module, path) in &all {
        // The root lists what there is; its own doc example uses it.
        if module.is_empty() {
            continue;
        }
        for other in named(module, path, &all) {
            seen += 1;
            let fine = room(module) == room(&other) || may_use(room(module), room(&other));
            assert!(fine, "{} uses {}, which does not stand before it", path.display(), other.join("::"));
        }
    }
    assert!(seen > 900, "only {seen} uses were seen: is the walk still finding them?");
}

#[test]
fn every_module_at_the_top_has_its_place() {
    for module in modules(&src()).keys() {
        let name = room(module);
        assert!(name == "book" || ORDER.contains(&name), "{name} has no place in the order");
    }
}

#[test]
fn read_cost_and_write_touch_nothing_outside() {
    for path in sources(&src()) {
        let inside = path.strip_prefix(src()).unwrap();
        // How many processors there are decides who makes which sheet, and no byte of it.
        if inside.starts_with("cli") || inside == Path::new("main.rs") || inside.ends_with("xlsx/workers.rs") {
            continue;
        }
        for line in code(&path) {
            for word in OUTSIDE {
                assert!(!line.contains(word), "{} names {word}: {line}", path.display());
            }
        }
    }
}

/// The crates that the feature `cli` brings, as code names them.
fn crates_of_the_command() -> Vec<String> {
    let manifest = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("Cargo.toml")).unwrap();
    let manifest: toml::Table = toml::from_str(&manifest).unwrap();
    let features = manifest["features"]["cli"].as_array().unwrap().iter().filter_map(toml::Value::as_str);
    features.filter_map(|feature| feature.strip_prefix("dep:")).map(|name| name.replace('-', "_")).collect()
}

/// Every use of a crate in the code of `path`, whether it is imported or named within an expression.
fn names(path: &Path, name: &str) -> bool {
    code(path).iter().any(|line| line.split(|c: char| !(c.is_alphanumeric() || c == '_')).any(|word| word == name))
}

/// Without the feature `cli` the library builds for a browser; whatever needs more stands behind it.
#[test]
fn only_the_command_names_what_only_a_command_needs() {
    let crates = crates_of_the_command();
    assert!(crates.len() > 5, "{crates:?}");
    let (of_command, others): (Vec<PathBuf>, Vec<PathBuf>) = sources(&src()).into_iter().partition(|path| {
        let inside = path.strip_prefix(src()).unwrap();
        inside == Path::new("main.rs")
            || OF_THE_COMMAND.iter().any(|room| inside.starts_with(room) || inside == Path::new(&format!("{room}.rs")))
    });
    for name in &crates {
        for path in &others {
            assert!(!names(path, name), "{} names {name}, which only the feature `cli` brings", path.display());
        }
        assert!(of_command.iter().any(|path| names(path, name)), "nothing needs {name} any more");
    }
    let root = std::fs::read_to_string(src().join("lib.rs")).unwrap();
    for room in OF_THE_COMMAND {
        let (before, _) = root.split_once(&format!("pub mod {room};")).unwrap_or_else(|| panic!("no {room}"));
        let gated = before.lines().rev().take_while(|line| line.starts_with("#[")).any(|line| line.contains("\"cli\""));
        assert!(gated, "{room} is there without the feature `cli`");
    }
}

/// How something is done on a command line is said by the command and by the reports for the terminal.
#[test]
fn the_library_names_no_flag() {
    let is_flag = |text: &str| text.starts_with("--") && text[2..].starts_with(|c: char| c.is_ascii_lowercase());
    let flags = |line: &str| line.match_indices("--").any(|(at, _)| is_flag(&line[at..]));
    assert!(flags("take it with --accept") && !flags("<!-- 1 -- 2 -->"));
    for path in sources(&src()) {
        let inside = path.strip_prefix(src()).unwrap();
        if ["cli", "output/text"].iter().any(|room| inside.starts_with(room)) {
            continue;
        }
        // A schema is called after the command whose output it describes.
        let of_schema = |line: &&String| !line.trim_start().starts_with("#[schemars(");
        for line in code(&path).iter().filter(of_schema) {
            assert!(!flags(line), "{} names a flag: {line}", path.display());
        }
    }
    for one in parings::problem::explanation::explanations() {
        let list = one.list_instead.as_deref().unwrap_or_default();
        let message = one.problem.message();
        let said = [&one.means, &one.matters, &one.example, &one.instead, list, &*one.problem.help, &message];
        let not_sure = one.not_sure.as_deref().unwrap_or_default();
        assert!(said.into_iter().all(|text| !flags(text)) && !flags(not_sure), "{}: {said:?} {not_sure}", one.code);
    }
}

/// The page is a program like others: it uses what is public, without the command, and nothing outside.
#[test]
fn the_page_uses_the_library_alone() {
    let page = Path::new(env!("CARGO_MANIFEST_DIR")).join("page");
    let manifest: toml::Table = std::fs::read_to_string(page.join("Cargo.toml")).unwrap().parse().unwrap();
    assert_eq!(manifest["dependencies"]["parings"]["default-features"], toml::Value::Boolean(false));
    let files = sources(&page.join("src"));
    assert!(files.len() > 8, "{files:?}");
    for path in files {
        for line in code(&path) {
            for word in OUTSIDE.iter().chain(&["parings::cli", "parings::internals", "unsafe {", "unsafe fn", "f64"]) {
                assert!(!line.contains(word), "{} names {word}: {line}", path.display());
            }
            assert!(!line.contains("unsafe") || path.ends_with("exports.rs"), "{}: {line}", path.display());
        }
    }
    // The scripts make elements in one place, and never from the text of a book.
    let scripts = std::fs::read_dir(page.join("js")).unwrap().map(|entry| entry.unwrap().path());
    let scripts: Vec<PathBuf> = scripts.collect();
    assert!(scripts.len() > 15);
    for path in scripts {
        let text = std::fs::read_to_string(&path).unwrap();
        assert!(text.starts_with("// @ts-check\n"), "{}", path.display());
        assert!(text.lines().count() < 120, "{} is long", path.display());
        for word in
            ["innerHTML", "outerHTML", "insertAdjacentHTML", "document.write", "eval(", "fetch(", "XMLHttpRequest"]
        {
            assert!(!text.contains(word), "{} names {word}", path.display());
        }
    }
}

/// The type that a line of code declares. An indented `type` is that of a trait, which has one for each who implements it.
fn declared(line: &str) -> Option<&str> {
    let bare = line.trim_start();
    let bare = bare.strip_prefix("pub").map_or(bare, |rest| {
        let within = rest.strip_prefix('(').and_then(|rest| rest.split_once(')'));
        within.map_or(rest, |(_, rest)| rest).trim_start()
    });
    let (word, rest) = bare.split_once(' ')?;
    let is_type = ["struct", "enum", "trait", "union"].contains(&word) || (word == "type" && !line.starts_with(' '));
    let name = rest.split(|c: char| !(c.is_alphanumeric() || c == '_')).next()?;
    (is_type && name.starts_with(char::is_uppercase)).then_some(name)
}

/// One name, one meaning: nobody need ask which of two a type is.
#[test]
fn no_two_types_bear_one_name() {
    for (line, name) in [
        ("pub(in crate::book) struct Own<'a> {", Some("Own")),
        ("    enum Side {", Some("Side")),
        ("pub type Rows = Vec<Row>;", Some("Rows")),
        ("    type Item = Row;", None),
        ("type of a cell", None),
    ] {
        assert_eq!(declared(line), name, "{line}");
    }
    let mut seen: BTreeMap<String, PathBuf> = BTreeMap::new();
    for path in sources(&src()) {
        for line in code(&path) {
            let Some(name) = declared(&line) else { continue };
            let other = seen.insert(name.to_owned(), path.clone());
            assert!(other.is_none(), "{name} is a type in {} and in {other:?}", path.display());
        }
    }
    assert!(seen.len() > 500, "only {} types were seen", seen.len());
}
