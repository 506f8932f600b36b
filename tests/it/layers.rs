//! The direction of the code: every module uses only what stands before it, and the core touches nothing outside.

mod arithmetic;
mod imports;

use std::path::{Path, PathBuf};

use imports::{Module, code, modules, named, sources};

/// Left to right, each using only what stands before it. `book` stands beside them: it uses what the kitchen
/// uses, and neither knows the other. So do `workbook` and `output`. Books and reports meet in `reading`, `writing` and `repricing`.
const ORDER: &[&str] = &[
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
    "writing",
    "",
    "cli",
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
