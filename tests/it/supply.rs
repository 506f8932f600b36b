//! What parings is made of besides its own code: under which licences, each with its reason, in the versions that
//! `Cargo.lock` names, and without `unsafe` of ours.

use std::fs;
use std::path::Path;
use std::process::Command;

use toml::{Table, Value};

/// Licences under which what is linked may be given away, by their SPDX names.
const ALLOWED: [&str; 11] = [
    "MIT",
    "MIT-0",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "ISC",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
];

fn read(file: &str) -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(file)).unwrap()
}

fn manifest() -> Table {
    read("Cargo.toml").parse().unwrap()
}

/// Whether an SPDX expression leaves a choice that is allowed in every part that must hold.
fn may_be_given_away(licence: &str) -> bool {
    let allowed = |one: &str| ALLOWED.contains(&one.trim().trim_matches(['(', ')']).trim());
    let any = |part: &str| part.replace('/', " OR ").split(" OR ").any(allowed);
    !licence.is_empty() && licence.split(" AND ").all(any)
}

#[test]
fn licences_are_judged_by_their_parts() {
    for licence in ["MIT", "MIT/Apache-2.0", "(MIT OR Apache-2.0) AND Unicode-3.0", "GPL-3.0 OR Zlib"] {
        assert!(may_be_given_away(licence), "{licence}");
    }
    for licence in ["", "GPL-3.0", "MIT AND GPL-3.0", "(GPL-3.0 OR LGPL-3.0) AND MIT", "MITX"] {
        assert!(!may_be_given_away(licence), "{licence}");
    }
}

#[test]
fn what_is_linked_may_be_given_away() {
    // What is linked here; what other systems want besides is not fetched.
    // `CARGO_TERM_COLOR=always`, as a CI sets it, would colour the marks of what is listed twice.
    let tree = "tree --color never --locked --offline --no-dedupe --prefix none -e normal,build -f {p}\t{l}";
    let mut cargo = Command::new(env!("CARGO"));
    let listed = cargo.args(tree.split(' ')).current_dir(env!("CARGO_MANIFEST_DIR")).output().unwrap();
    assert!(listed.status.success(), "{}", String::from_utf8_lossy(&listed.stderr));
    let listed = String::from_utf8(listed.stdout).unwrap();
    let packages: Vec<(&str, &str)> = listed.lines().filter_map(|line| line.split_once('\t')).collect();
    assert!(packages.len() > 50, "{listed}");
    let others: Vec<_> = packages.iter().filter(|(_, licence)| !may_be_given_away(licence)).collect();
    assert!(others.is_empty(), "{others:#?}");
}

/// The names of all dependencies: of the library, of some systems, and of the tests.
fn dependencies() -> Vec<String> {
    fn of(table: &Table, found: &mut Vec<String>) {
        for (key, value) in table {
            match value {
                Value::Table(inner) if key.ends_with("dependencies") => found.extend(inner.keys().cloned()),
                Value::Table(inner) if key == "target" || key.starts_with("cfg(") => of(inner, found),
                _ => {}
            }
        }
    }
    let mut found = Vec::new();
    of(&manifest(), &mut found);
    found.sort();
    found.dedup();
    found
}

#[test]
fn every_dependency_has_its_reason() {
    let developers = read("DEVELOPERS.md");
    let (_, section) = developers.split_once("\n## Dependencies\n").unwrap();
    let (section, _) = section.split_once("\nBy hand although").unwrap();
    let named: Vec<&str> = section
        .lines()
        .filter_map(|line| line.strip_prefix("| `"))
        .flat_map(|line| line.split('|').next().unwrap().split('`').step_by(2))
        .collect();
    let mut named: Vec<&str> = named.into_iter().filter(|name| !name.is_empty()).collect();
    named.sort_unstable();
    assert_eq!(named, dependencies());
}

#[test]
fn the_lock_is_honoured_and_nothing_is_unsafe() {
    let lints = manifest()["lints"]["rust"]["unsafe_code"].clone();
    assert_eq!(lints, Value::String("forbid".to_owned()));
    let builds = |line: &str| {
        [
            "cargo test",
            "cargo run --release",
            "cargo install",
            "cargo clippy",
            "cargo build",
            "cargo check",
            "cargo doc",
        ]
        .iter()
        .any(|command| line.trim_start().starts_with(command) || line.contains(&format!(" {command}")))
    };
    for file in ["README.md", "docs/cooks/commands.md", ".ci/run"] {
        let text = read(file);
        let commands = text.lines().filter(|line| builds(line) && !line.trim_start().starts_with('#'));
        // In running text a command is spoken of; a command to type stands by itself.
        let loose: Vec<&str> = commands.filter(|line| !line.contains("--locked") && !line.contains('`')).collect();
        assert!(loose.is_empty(), "{file}: {loose:#?}");
    }
}
