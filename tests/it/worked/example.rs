//! An example as Markdown: its books, csv text by now, each with the table of what is expected of it.

/// An example.
#[derive(Debug)]
pub struct Example {
    pub cases: Vec<Case>,
}

/// A book with what is expected of it.
#[derive(Debug)]
pub struct Case {
    /// The line of its heading, counted from 1.
    pub line: usize,
    /// The book as csv.
    pub book: String,
    pub expected: Vec<Row>,
}

/// A row of what is expected.
#[derive(Debug, Clone)]
pub struct Row {
    /// Its line, counted from 1.
    pub line: usize,
    pub of: String,
    pub name: String,
    pub figure: String,
    pub expected: String,
}

/// The columns of what is expected.
const COLUMNS: [&str; 5] = ["Of", "Name", "Figure", "Expected", "Arithmetic"];

/// What is wrong with an example, and on which line.
type Wrong = (usize, String);

/// Where in an example a line stands.
#[derive(Clone, Copy, PartialEq)]
enum Section {
    Story,
    Book,
    Expected,
}

impl Example {
    /// Reads an example.
    pub fn read(text: &str) -> Result<Self, Wrong> {
        let lines: Vec<(usize, &str)> = text.lines().enumerate().map(|(at, line)| (at + 1, line.trim_end())).collect();
        if !text.starts_with("# ") {
            return Err((1, "the first line is the title, behind a “#”".to_owned()));
        }
        if !lines.iter().any(|(_, line)| line.starts_with("Source:")) {
            return Err((1, "the example does not say where it is from: a line begins with “Source:”".to_owned()));
        }
        let mut cases: Vec<Case> = Vec::new();
        let mut section = Section::Story;
        let mut rest = lines.as_slice();
        while let Some(((at, line), after)) = rest.split_first() {
            rest = after;
            if let Some(heading) = line.strip_prefix("## ") {
                section = begin(&mut cases, *at, heading)?;
            } else if line.starts_with("```") && section == Section::Book {
                if *line != "```csv" {
                    return Err((*at, "what stands in such a block is csv: open it with ```csv".to_owned()));
                }
                let length = rest.iter().position(|(_, line)| *line == "```");
                let length = length.ok_or_else(|| (*at, "this block does not end".to_owned()))?;
                let rows: Vec<&str> = rest[..length].iter().map(|(_, line)| *line).collect();
                add(&mut cases, &rows.join("\n"));
                rest = &rest[length + 1..];
            } else if line.starts_with('|') && section != Section::Story {
                let length = rest.iter().take_while(|(_, line)| line.starts_with('|')).count();
                let table: Vec<(usize, Vec<String>)> =
                    [(*at, *line)].iter().chain(&rest[..length]).map(|(at, line)| (*at, cells(line))).collect();
                rest = &rest[length..];
                match section {
                    Section::Expected => cases.last_mut().unwrap().expected.extend(rows(table)?),
                    _ => add(&mut cases, &csv(&table)),
                }
            }
        }
        match cases.iter().find(|case| case.expected.is_empty()) {
            Some(case) => Err((case.line, "nothing is expected of this book".to_owned())),
            None if cases.is_empty() => Err((1, "the example has no book: its heading is “## Book”".to_owned())),
            None => Ok(Example { cases }),
        }
    }
}

/// Begins what stands below a heading; behind its first word it may say anything.
fn begin(cases: &mut Vec<Case>, line: usize, heading: &str) -> Result<Section, Wrong> {
    let word = heading.split([' ', ',', ':']).next().unwrap_or_default();
    let book = match (word, cases.last()) {
        ("Book", _) => String::new(),
        ("More", Some(last)) => last.book.clone(),
        ("Expected", Some(_)) => return Ok(Section::Expected),
        ("More", None) => return Err((line, "there is no book yet to add to".to_owned())),
        ("Expected", None) => return Err((line, "there is no book yet of which it is expected".to_owned())),
        _ => return Err((line, format!("“{heading}” is no heading of an example: it has Book, More and Expected"))),
    };
    cases.push(Case { line, book, expected: Vec::new() });
    Ok(Section::Book)
}

/// Adds a table to the last book, below an empty row.
fn add(cases: &mut [Case], table: &str) {
    if let Some(case) = cases.last_mut() {
        case.book.push_str(table.trim_matches('\n'));
        case.book.push_str("\n\n");
    }
}

/// The cells of a row of a Markdown table.
fn cells(line: &str) -> Vec<String> {
    let inside = line.strip_prefix('|').unwrap_or(line);
    let inside = inside.strip_suffix('|').unwrap_or(inside);
    inside.split('|').map(|cell| cell.trim().to_owned()).collect()
}

/// Whether a row parts the header from the rows: `--- | :-: |`.
fn parts(row: &[String]) -> bool {
    row.iter().all(|cell| !cell.is_empty() && cell.chars().all(|c| c == '-' || c == ':'))
}

/// A Markdown table as csv.
fn csv(table: &[(usize, Vec<String>)]) -> String {
    let quoted = |cell: &String| format!("\"{}\"", cell.replace('"', "\"\""));
    let rows = table.iter().filter(|(_, row)| !parts(row));
    rows.map(|(_, row)| row.iter().map(quoted).collect::<Vec<_>>().join(",") + "\n").collect()
}

/// The rows of a table of what is expected.
fn rows(table: Vec<(usize, Vec<String>)>) -> Result<Vec<Row>, Wrong> {
    let mut table = table.into_iter();
    let (line, header) = table.next().unwrap();
    if header != COLUMNS {
        return Err((line, format!("the table of what is expected has the columns {}", COLUMNS.join(", "))));
    }
    table.filter(|(_, row)| !parts(row)).map(|(line, row)| expectation(line, row)).collect()
}

fn expectation(line: usize, row: Vec<String>) -> Result<Row, Wrong> {
    let columns = || (line, format!("a row here has 5 cells: {}", COLUMNS.join(", ")));
    let [of, name, figure, expected, arithmetic] = <[String; 5]>::try_from(row).map_err(|_| columns())?;
    if expected.is_empty() {
        return Err((line, "nothing is expected here".to_owned()));
    }
    if arithmetic.is_empty() && expected.contains(|c: char| c.is_ascii_digit()) {
        return Err((line, format!("{expected} needs its arithmetic in the last column")));
    }
    Ok(Row { line, of, name, figure, expected })
}
