//! Links and paths: every page is in the index, every link leads to a file and a heading, and every path that is named
//! is there. Lines are as wide as the code's.

use super::pages::{PAGES, Page, markdown_in, read, root};

/// The widest line; rows of a table cannot break.
const WIDEST: usize = 120;

/// The pages and what developers read.
fn all() -> Vec<Page> {
    let developers = Page::of("DEVELOPERS.md");
    PAGES.iter().map(|page| Page::of(&page.name)).chain([developers]).collect()
}

/// The page that a relative link on another leads to, by its path from the root.
fn target(from: &str, link: &str) -> String {
    let mut steps: Vec<&str> = from.split('/').collect();
    steps.pop();
    for step in link.split('/') {
        match step {
            ".." => drop(steps.pop().expect("a link that leaves the repository")),
            step => steps.push(step),
        }
    }
    steps.join("/")
}

/// What is wrong with the links of a page.
fn dead_links(page: &Page) -> Vec<String> {
    let dead = |link: &String| {
        let (path, anchor) = link.split_once('#').unwrap_or((link, ""));
        let path = if path.is_empty() { page.name.clone() } else { target(&page.name, path) };
        let has_anchor = |page: &Page| page.anchors().iter().any(|one| one == anchor);
        let leads = match path == page.name {
            true => has_anchor(page),
            false => root().join(&path).exists() && (anchor.is_empty() || has_anchor(&Page::of(&path))),
        };
        (!leads).then(|| format!("{}: {link}", page.name))
    };
    page.links().iter().filter(|link| !link.starts_with("http")).filter_map(dead).collect()
}

/// Whether what stands in backticks is a path of this repository.
fn is_path(span: &str) -> bool {
    let in_paths = |c: char| c.is_ascii_alphanumeric() || matches!(c, '_' | '-' | '.' | '/');
    let starts = span.starts_with(|c: char| c.is_ascii_lowercase() || c == '.');
    starts && span.chars().all(in_paths) && (span.contains('/') || span.ends_with(".rs"))
}

/// The paths that a page names and that are not there, from the root or from `src`.
fn dead_paths(page: &Page) -> Vec<String> {
    let is_there = |span: &String| root().join(span).exists() || root().join("src").join(span).exists();
    let dead = page.spans().into_iter().filter(|span| is_path(span) && !is_there(span));
    dead.map(|span| format!("{}: {span}", page.name)).collect()
}

#[test]
fn every_page_is_in_the_index() {
    let listed: Vec<&str> = PAGES.iter().map(|page| page.name.as_str()).collect();
    let unlisted: Vec<String> =
        markdown_in("docs", true).into_iter().filter(|name| !listed.contains(&name.as_str())).collect();
    assert!(unlisted.is_empty() && listed.len() > 15, "docs/README.md does not lead to {unlisted:?}");
}

#[test]
fn every_link_leads_somewhere() {
    let others = ["", "sample-books", "tests/worked"].into_iter().flat_map(|folder| markdown_in(folder, false));
    let pages = all().into_iter().chain(others.map(|name| Page::of(&name)));
    let dead: Vec<String> = pages.flat_map(|page| dead_links(&page)).collect();
    assert!(dead.is_empty(), "{dead:#?}");
}

#[test]
fn every_path_that_is_named_is_there() {
    let dead: Vec<String> = all().iter().flat_map(dead_paths).collect();
    assert!(dead.is_empty(), "{dead:#?}");
}

#[test]
fn every_program_that_developers_are_told_to_run_is_there() {
    let manifest = read("Cargo.toml") + &read("page/Cargo.toml");
    let text = read("DEVELOPERS.md").split_whitespace().collect::<Vec<_>>().join(" ");
    let named = ["cargo run --example ", "cargo bench --bench "]
        .map(|flag| text.split(flag).skip(1).collect::<Vec<_>>())
        .concat();
    assert!(named.len() > 5);
    for after in named {
        let name: String = after.chars().take_while(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_')).collect();
        assert!(manifest.contains(&format!("name = \"{name}\"")), "no example or bench {name}");
    }
}

#[test]
fn every_folder_of_the_code_has_its_row() {
    let folders = read("DEVELOPERS.md");
    for entry in std::fs::read_dir(root().join("src")).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let is_root = name == "lib.rs" || name == "main.rs";
        let row = |line: &str| line.starts_with('|') && line.contains(&format!("`{name}`"));
        assert!(is_root || folders.lines().any(row), "{name} has no row in the table of folders");
    }
}

#[test]
fn every_worked_example_is_listed_for_teachers() {
    let links = Page::of("docs/teachers/worked-examples.md").links();
    for name in markdown_in("tests/worked", false) {
        assert!(links.contains(&format!("../../{name}")), "{name}");
    }
}

#[test]
fn no_line_is_wider_than_the_code() {
    let wide = |page: &Page| -> Vec<String> {
        let lines = (1..).zip(page.text.lines());
        let wide = lines.filter(|(_, line)| !line.starts_with('|') && line.chars().count() > WIDEST);
        wide.map(|(number, _)| format!("{}:{number}", page.name)).collect()
    };
    let wide: Vec<String> = all().iter().flat_map(wide).collect();
    assert!(wide.is_empty(), "wider than {WIDEST} columns: {wide:#?}");
}

/// A check that finds nothing would prove nothing.
#[test]
fn what_is_planted_dead_is_found() {
    let text =
        "[a](cooks/book.md) [b](cooks/books.md) [c](cooks/book.md#nowhere) `src/lib.rs` `costing/lost.rs` `lost.rs`";
    let page =
        Page { name: "docs/planted.md".to_owned(), text: format!("# Not here\n\n{text} [d](#not-here) [e](#here)") };
    let found = [dead_links(&page), dead_paths(&page)].concat();
    let planted = ["cooks/books.md", "cooks/book.md#nowhere", "#here", "costing/lost.rs", "lost.rs"];
    assert_eq!(found, planted.map(|dead| format!("docs/planted.md: {dead}")));
}
