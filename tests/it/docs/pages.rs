//! Pages in Markdown: which there are, in the order of reading, and the tables, blocks and code on them.
//!
//! A table or block that is tested stands below an HTML comment that says what it is.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

/// A page by its path from the root of the repository, with slashes.
#[derive(Debug)]
pub struct Page {
    /// `docs/cooks/prices.md`
    pub name: String,
    /// What stands on it.
    pub text: String,
}

/// A table's rows, its header first; the cells as they are typed, links by their words.
pub type Table = Vec<Vec<String>>;

/// The README, the index of `docs`, and the pages that it names, in its order.
pub static PAGES: LazyLock<Vec<Page>> = LazyLock::new(|| {
    let index = Page::of("docs/README.md");
    let mut names = vec!["README.md".to_owned(), index.name.clone()];
    for link in index.links() {
        let name = format!("docs/{}", link.split('#').next().unwrap());
        if !link.starts_with("..") && !names.contains(&name) {
            names.push(name);
        }
    }
    names.iter().map(|name| Page::of(name)).collect()
});

/// The root of the repository.
pub fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A file of the repository, by its path from the root.
pub fn read(name: &str) -> String {
    fs::read_to_string(root().join(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
}

/// Every Markdown file in a folder; those below it too, if `deep`.
pub fn markdown_in(folder: &str, deep: bool) -> Vec<String> {
    let mut found = Vec::new();
    let mut entries: Vec<PathBuf> =
        fs::read_dir(root().join(folder)).unwrap().map(|entry| entry.unwrap().path()).collect();
    entries.sort();
    for path in entries {
        let name = path.strip_prefix(root()).unwrap().to_str().unwrap().replace('\\', "/");
        if deep && path.is_dir() {
            found.extend(markdown_in(&name, deep));
        } else if name.ends_with(".md") {
            found.push(name);
        }
    }
    found
}

/// What stands below every comment that says `mark`, on any page, as far as the page goes.
pub fn below(mark: &str) -> Vec<&'static str> {
    let comment = format!("<!-- {mark} -->\n\n");
    let found: Vec<_> = PAGES.iter().flat_map(|page| page.text.split(&comment).skip(1)).collect();
    assert!(!found.is_empty(), "no {comment}");
    found
}

/// The rows of the one table below the comment `mark`, without its header.
pub fn rows(mark: &str) -> Table {
    let found = below(mark);
    assert_eq!(found.len(), 1, "{mark}");
    table(found[0]).split_off(1)
}

/// The tables of a file that the pages show, in the order of reading.
///
/// `<!-- file kitchen.csv prices.csv -->` says that the table below it stands in both.
pub fn tables(file: &str) -> Vec<Table> {
    FILES.iter().filter(|(names, _)| names.contains(&file)).map(|(_, table)| table.clone()).collect()
}

/// Every table that stands in a file, with the names of the files.
pub static FILES: LazyLock<Vec<(Vec<&str>, Table)>> = LazyLock::new(|| {
    let marked = PAGES.iter().flat_map(|page| page.text.split("<!-- file ").skip(1));
    let named = marked.map(|text| text.split_once(" -->\n\n").expect("a table below the mark"));
    named.map(|(names, below)| (names.split(' ').collect(), table(below))).collect()
});

/// The table at the start of a text.
fn table(text: &str) -> Table {
    let cells = |line: &str| -> Vec<String> {
        let inside = line.strip_prefix('|').and_then(|line| line.strip_suffix('|')).expect("a row ends with a bar");
        inside.split('|').map(|cell| words(cell.trim()).replace('\\', "")).collect()
    };
    let rows: Table = text.lines().take_while(|line| line.starts_with('|')).map(cells).collect();
    assert!(rows.len() > 2, "no table: {text:.60}");
    assert!(rows.iter().all(|row| row.len() == rows[0].len()), "{rows:?}");
    rows.into_iter().filter(|row| !row[0].starts_with("---")).collect()
}

/// `[words](link)` without the link.
fn words(cell: &str) -> String {
    match cell.strip_prefix('[').and_then(|cell| cell.split_once("](")) {
        Some((words, link)) if link.ends_with(')') => words.to_owned(),
        _ => cell.to_owned(),
    }
}

/// Tables as a csv file, one below the other.
pub fn csv(tables: &[Table]) -> String {
    let one = |table: &Table| {
        let mut writer = csv::WriterBuilder::new().flexible(true).from_writer(Vec::new());
        table.iter().for_each(|row| writer.write_record(row).unwrap());
        String::from_utf8(writer.into_inner().unwrap()).unwrap()
    };
    tables.iter().map(one).collect::<Vec<_>>().join("\n")
}

impl Page {
    /// The page of that name.
    pub fn of(name: &str) -> Self {
        Page { name: name.to_owned(), text: read(name) }
    }

    /// The fenced blocks of a language, whole.
    pub fn blocks(&self, language: &str) -> Vec<&str> {
        let fence = format!("```{language}\n");
        self.text.split(&fence).skip(1).map(|from| from.split("```").next().unwrap()).collect()
    }

    /// The text that is in no fenced block.
    pub fn prose(&self) -> String {
        self.text.split("```").step_by(2).collect::<Vec<_>>().join("\n")
    }

    /// What stands in backticks in the prose, on one line each.
    pub fn spans(&self) -> Vec<String> {
        let blocks = self.prose();
        let paragraphs = blocks.split("\n\n").flat_map(|text| text.split('`').skip(1).step_by(2));
        paragraphs.map(|span| span.split_whitespace().collect::<Vec<_>>().join(" ")).collect()
    }

    /// Where its links lead, as they are written.
    pub fn links(&self) -> Vec<String> {
        let prose = self.prose();
        let found = prose.split("](").skip(1).filter_map(|from| from.split_once(')'));
        found.map(|(link, _)| link.to_owned()).collect()
    }

    /// The anchors of its headings, as a forge makes them.
    pub fn anchors(&self) -> Vec<String> {
        let prose = self.prose();
        let headings = prose.lines().filter(|line| line.starts_with('#')).map(|line| line.trim_start_matches('#'));
        headings
            .map(|heading| {
                let kept = |c: &char| c.is_alphanumeric() || matches!(c, ' ' | '-' | '_');
                heading.trim().to_lowercase().chars().filter(kept).collect::<String>().replace(' ', "-")
            })
            .collect()
    }
}
