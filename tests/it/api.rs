//! Public paths of the library: every module and name that a program can write, held against a list, so that nothing
//! becomes public or goes by accident.
//!
//! Takes the sources; follows `pub mod` and `pub use` from `lib.rs` on. What methods a type has stands in its docs. A type
//! that a public signature names and nobody could write is found by the lint `unnameable_types`.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use crate::layers::imports::{code, paths};

/// What is public on purpose. A change of the list is a change of the API: it belongs into the change log.
const PUBLIC: &str = include_str!("api/public.txt");

/// The file of a module below `folder`, and where its own modules stand.
fn file_of(folder: &Path, module: &str) -> (PathBuf, PathBuf) {
    let inner = folder.join(module);
    let file = folder.join(format!("{module}.rs"));
    if file.exists() { (file, inner) } else { (inner.join("mod.rs"), inner) }
}

/// Notes the public names of the module in `file`, whose path is `module`, and of those within it.
fn walk(file: &Path, folder: &Path, module: &str, found: &mut BTreeSet<String>) {
    let lines = code(file);
    let at = |name: &str| if module.is_empty() { name.to_owned() } else { format!("{module}::{name}") };
    let mut hidden = false;
    for (nth, line) in lines.iter().enumerate() {
        if let Some(name) = line.strip_prefix("pub mod ").and_then(|rest| rest.strip_suffix(';')) {
            if !hidden {
                let (file, folder) = file_of(folder, name);
                found.insert(format!("{}::", at(name)));
                walk(&file, &folder, &at(name), found);
            }
        } else if line.starts_with("pub use ") {
            let text: String =
                lines[nth..].iter().take_while(|line| !line.is_empty()).cloned().collect::<Vec<_>>().join(" ");
            let statement = text.split(';').next().unwrap();
            found.extend(paths(statement).iter().map(|path| at(path.last().unwrap())));
        } else {
            let words: Vec<&str> = line.split(|c: char| !(c.is_alphanumeric() || c == '_')).collect();
            let name = match words.as_slice() {
                ["pub", "const", "fn", name, ..] => Some(name),
                ["pub", "struct" | "enum" | "fn" | "const" | "static" | "trait" | "type" | "union", name, ..] => {
                    Some(name)
                }
                _ => None,
            };
            found.extend(name.map(|name| at(name)));
        }
        hidden = line.starts_with("#[") && (hidden || line.contains("doc(hidden)"));
    }
}

fn public() -> BTreeSet<String> {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = BTreeSet::new();
    walk(&src.join("lib.rs"), &src, "", &mut found);
    found
}

#[test]
fn what_is_public_is_what_is_meant() {
    let found = public();
    let meant: BTreeSet<String> = PUBLIC.lines().map(str::to_owned).collect();
    let added: Vec<&String> = found.difference(&meant).collect();
    let gone: Vec<&String> = meant.difference(&found).collect();
    assert!(
        added.is_empty() && gone.is_empty(),
        "public, but not in api/public.txt: {added:#?}\nno longer public: {gone:#?}"
    );
    for name in
        ["Reading", "Costing", "Kitchen", "Scenario", "read", "cost", "write", "reprice", "read_list", "results::"]
    {
        assert!(meant.contains(name), "{name} is what the library is for");
    }
    for room in ["book", "workbook", "internals", "reading"] {
        assert!(!found.iter().any(|name| name.starts_with(room)), "{room} is nobody else's business");
    }
}

/// Types of other crates that a program would have to name: decimals and days are meant, spreadsheet libraries are not.
#[test]
fn no_public_signature_names_a_spreadsheet_library() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    for path in crate::layers::imports::sources(&src) {
        let inside = path.strip_prefix(&src).unwrap();
        // Rooms that are not public.
        if ["book", "workbook", "cli"].iter().any(|room| inside.starts_with(room)) || inside == Path::new("workbook.rs")
        {
            continue;
        }
        for line in code(&path).iter().filter(|line| line.trim_start().starts_with("pub ")) {
            for theirs in ["XlsxError", "calamine", "rust_xlsxwriter", "zip::", "quick_xml", "cfb::"] {
                assert!(!line.contains(theirs), "{} names {theirs}: {line}", path.display());
            }
        }
    }
}
