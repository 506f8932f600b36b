//! The direction of the code: every module uses only what stands before it, and the core touches nothing outside.

use std::path::{Path, PathBuf};

/// Left to right, each using only what stands before it. `book` stands beside the reports: it uses what the kitchen
/// uses, and neither knows the other.
const ORDER: &[&str] = &["number", "problem", "measure", "schema", "food", "kitchen", "costing", "analysis", "report"];

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

fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(sources(&path));
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            found.push(path);
        }
    }
    found.sort();
    found
}

fn src() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// Lines of code: comments, and the tests at the end of a file, left out.
fn code(path: &Path) -> Vec<String> {
    let text = std::fs::read_to_string(path).unwrap();
    let lines = text.lines().take_while(|line| !line.starts_with("#[cfg(test)]"));
    lines.filter(|line| !line.trim_start().starts_with("//")).map(str::to_owned).collect()
}

/// The modules of the crate that a file names, in `use` lines and in paths.
fn named(path: &Path) -> Vec<String> {
    let mut found = Vec::new();
    for line in code(path) {
        for piece in line.split("crate::").skip(1) {
            found.push(piece.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect::<String>());
        }
    }
    found.retain(|name| !name.is_empty());
    found
}

fn may_use(module: &str) -> Vec<&'static str> {
    match module {
        "book" => ORDER.iter().copied().take_while(|name| *name != "costing").collect(),
        _ => ORDER.iter().copied().take_while(|name| *name != module).collect(),
    }
}

#[test]
fn every_module_uses_only_what_stands_before_it() {
    let mut seen = 0;
    for module in ORDER.iter().copied().chain(["book"]) {
        let allowed = may_use(module);
        for path in sources(&src().join(module)) {
            for name in named(&path) {
                seen += 1;
                let fine = name == module || allowed.contains(&name.as_str());
                assert!(fine, "{} uses {name}, which does not stand before {module}", path.display());
            }
        }
    }
    assert!(seen > 300, "only {seen} uses were seen: is the walk still finding them?");
}

#[test]
fn every_folder_of_the_source_has_its_place() {
    let known = |name: &str| ORDER.contains(&name) || ["book", "cli"].contains(&name);
    for entry in std::fs::read_dir(src()).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_str().unwrap().to_owned();
        assert!(!path.is_dir() || known(&name), "{name} has no place in the order");
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
