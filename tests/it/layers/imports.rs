//! Imports of a Rust source: every path that a file names, resolved to the module that it stands for.
//!
//! Takes the files below `src`; gives arrows from file to file. Reads `use` trees with their braces, `super`, `self`, names
//! of child modules and paths within expressions; comments, and the tests at the end of a file, are left out.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// The path of a module below the crate: `costing`, `line`.
pub type Module = Vec<String>;

/// Every file below `folder` that holds Rust.
pub fn sources(folder: &Path) -> Vec<PathBuf> {
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

/// Lines of code: comments, and the tests at the end of a file, left out.
pub fn code(path: &Path) -> Vec<String> {
    let text = std::fs::read_to_string(path).unwrap();
    let lines = text.lines().take_while(|line| !line.starts_with("#[cfg(test)]"));
    lines.filter(|line| !line.trim_start().starts_with("//")).map(str::to_owned).collect()
}

/// Every module of the crate in `src` with its file.
pub fn modules(src: &Path) -> BTreeMap<Module, PathBuf> {
    sources(src).into_iter().map(|path| (module_of(path.strip_prefix(src).unwrap()), path)).collect()
}

fn module_of(path: &Path) -> Module {
    let mut module: Module =
        path.iter().map(|part| part.to_str().unwrap().trim_end_matches(".rs").to_owned()).collect();
    if module.last().is_some_and(|last| ["mod", "lib", "main"].contains(&last.as_str())) {
        module.pop();
    }
    module
}

/// The modules that `module` names, each once, itself left out. A path ends at the last module in it; what follows is a
/// name in that module.
pub fn named(module: &Module, path: &Path, all: &BTreeMap<Module, PathBuf>) -> Vec<Module> {
    let text = code(path).join("\n");
    let mut found: Vec<Module> = paths(&text).into_iter().filter_map(|path| resolved(module, &path, all)).collect();
    found.retain(|other| other != module);
    found.sort();
    found.dedup();
    found
}

/// The module at which a path that stands in `module` ends; `None` for what is not of this crate.
fn resolved(module: &Module, path: &[String], all: &BTreeMap<Module, PathBuf>) -> Option<Module> {
    let mut steps = path.iter();
    let first = steps.next()?;
    let mut at: Module = match first.as_str() {
        "crate" => Vec::new(),
        "self" => module.clone(),
        "super" => module.split_last()?.1.to_vec(),
        child => [module.as_slice(), &[child.to_owned()]].concat(),
    };
    if !all.contains_key(&at) {
        return None;
    }
    for step in steps {
        if step == "super" {
            at.pop();
            continue;
        }
        at.push(step.clone());
        if !all.contains_key(&at) {
            at.pop();
            break;
        }
    }
    Some(at)
}

/// Every path in a piece of code, those of a tree of braces written out.
pub fn paths(text: &str) -> Vec<Vec<String>> {
    let tokens = tokens(text);
    let mut found = Vec::new();
    let mut at = 0;
    while at < tokens.len() {
        let starts = tokens[at].chars().next().is_some_and(|c| c.is_alphabetic() || c == '_');
        if starts && tokens.get(at + 1).is_some_and(|next| next == "::") {
            at = tree(&tokens, at, &[], &mut found);
        } else {
            at += 1;
        }
    }
    found
}

/// Reads the path or tree that begins at `at` below `before`; gives where it ends.
fn tree(tokens: &[String], mut at: usize, before: &[String], found: &mut Vec<Vec<String>>) -> usize {
    let mut path = before.to_vec();
    loop {
        match tokens.get(at).map(String::as_str) {
            Some("{") => {
                at += 1;
                while tokens.get(at).is_some_and(|token| token != "}") {
                    if tokens[at] == "," {
                        at += 1;
                    } else {
                        at = tree(tokens, at, &path, found);
                        // `a as b`
                        while tokens.get(at).is_some_and(|token| token != "," && token != "}") {
                            at += 1;
                        }
                    }
                }
                return at + 1;
            }
            Some(word) if word.chars().all(|c| c.is_alphanumeric() || c == '_') => {
                if word != "self" || path.is_empty() {
                    path.push(word.to_owned());
                }
                at += 1;
            }
            _ => {
                found.push(path);
                return at + 1;
            }
        }
        if tokens.get(at).is_some_and(|token| token == "::") {
            at += 1;
        } else {
            found.push(path);
            return at;
        }
    }
}

/// Words, `::`, and every other character alone; texts in quotation marks are passed over.
fn tokens(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut rest = text.chars().peekable();
    while let Some(c) = rest.next() {
        if c == '"' {
            while let Some(inner) = rest.next() {
                match inner {
                    '\\' => drop(rest.next()),
                    '"' => break,
                    _ => {}
                }
            }
        } else if c.is_alphanumeric() || c == '_' {
            let mut word = String::from(c);
            while let Some(next) = rest.next_if(|next| next.is_alphanumeric() || *next == '_') {
                word.push(next);
            }
            found.push(word);
        } else if c == ':' && rest.next_if_eq(&':').is_some() {
            found.push("::".to_owned());
        } else if !c.is_whitespace() {
            found.push(c.to_string());
        }
    }
    found
}

#[test]
fn paths_and_trees_are_read() {
    let text = "use super::{Costing, links::{self, no_makes}, a::b as c};\nlet x: crate::book::Grid = \"crate::cli::no\"; \
                pub use inner::Thing; vec::<u8>::new()";
    let read: Vec<String> = paths(text).iter().map(|path| path.join("::")).collect();
    let expected = [
        "super::Costing",
        "super::links",
        "super::links::no_makes",
        "super::a::b",
        "crate::book::Grid",
        "inner::Thing",
    ];
    for path in expected {
        assert!(read.iter().any(|found| found == path), "{path} is not among {read:?}");
    }
    assert!(!read.iter().any(|found| found.contains("cli")), "{read:?}");
}

#[test]
fn a_path_is_resolved_from_where_it_stands() {
    let module =
        |text: &str| -> Module { text.split("::").filter(|step| !step.is_empty()).map(str::to_owned).collect() };
    let all: BTreeMap<Module, PathBuf> =
        ["", "a", "a::b", "a::b::c", "d"].iter().map(|text| (module(text), PathBuf::new())).collect();
    for (from, path, to) in [
        ("a::b", "super::super::d::Name", Some("d")),
        ("a::b", "c::Name", Some("a::b::c")),
        ("a::b::c", "super::Name", Some("a::b")),
        ("a", "self::b::c::Name", Some("a::b::c")),
        ("a::b", "crate::a::Name", Some("a")),
        ("a::b", "std::fs::File", None),
    ] {
        assert_eq!(resolved(&module(from), &module(path), &all), to.map(module), "{path} in {from}");
    }
}
