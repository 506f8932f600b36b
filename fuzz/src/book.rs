//! Book of chance: sheets of tables whose cells are taken from a kitchen's vocabulary, spoilt here and there.

use arbitrary::{Result, Unstructured};

use crate::vocabulary::{LABELS, LINES, RECIPES, TABLES, Table};

/// A cell as it stands in a file.
#[derive(Debug, Clone, PartialEq)]
pub enum Cell {
    /// Nothing.
    Blank,
    /// A text.
    Text(String),
    /// A number, as its file writes it.
    Number(String),
    /// A number of days that its format shows as a date.
    Date(String),
    /// A share that its format shows as a percentage.
    Percent(String),
    /// A truth value.
    Bool(bool),
    /// A formula with the value stored beside it; none, where the program that wrote it does not calculate.
    Formula(String, Option<String>),
    /// An error of a spreadsheet program.
    Error(&'static str),
}

/// A sheet.
#[derive(Debug, Clone)]
pub struct Sheet {
    /// Its name.
    pub name: String,
    /// Its rows.
    pub rows: Vec<Vec<Cell>>,
}

/// A book.
#[derive(Debug, Clone)]
pub struct Book {
    /// Its sheets.
    pub sheets: Vec<Sheet>,
}

impl Book {
    /// A book made of the bytes of chance.
    ///
    /// # Errors
    /// When the bytes are used up in the wrong place.
    pub fn of(bytes: &mut Unstructured<'_>) -> Result<Self> {
        let mut sheets = Vec::new();
        for at in 0..bytes.int_in_range(1..=4)? {
            let mut rows = Vec::new();
            for _ in 0..bytes.int_in_range(1..=3)? {
                if bytes.ratio(2, 5)? {
                    card(bytes, &mut rows)?
                } else {
                    table(bytes, &mut rows)?
                }
                rows.extend(std::iter::repeat_n(Vec::new(), bytes.int_in_range(0..=2)?));
            }
            let name = if bytes.ratio(1, 8)? { text(bytes)? } else { format!("Sheet{at}") };
            sheets.push(Sheet { name, rows });
        }
        Ok(Book { sheets })
    }

    /// The book as csv files, one a sheet, each with its name.
    pub fn csv(&self) -> Vec<(String, Vec<u8>)> {
        let quoted = |cell: &Cell| format!("\"{}\"", cell.words().replace('"', "\"\""));
        let row = |row: &Vec<Cell>| row.iter().map(quoted).collect::<Vec<_>>().join(",");
        let files = self.sheets.iter().enumerate().map(|(at, sheet)| {
            let text = sheet.rows.iter().map(row).collect::<Vec<_>>().join("\n");
            (format!("{at}.csv"), text.into_bytes())
        });
        files.collect()
    }
}

impl Cell {
    /// What a csv shows of it.
    pub fn words(&self) -> String {
        match self {
            Cell::Blank => String::new(),
            Cell::Text(text) | Cell::Number(text) | Cell::Date(text) | Cell::Percent(text) => text.clone(),
            Cell::Bool(truth) => truth.to_string().to_uppercase(),
            Cell::Formula(_, value) => value.clone().unwrap_or_default(),
            Cell::Error(error) => (*error).to_owned(),
        }
    }

    /// A number as XML may hold it; nought where it is none.
    pub fn number(text: &str) -> String {
        text.parse::<f64>()
            .ok()
            .filter(|number| number.is_finite())
            .map_or_else(|| "0".to_owned(), |number| number.to_string())
    }
}

/// A table of some kind: some of its headers, a few rows.
fn table(bytes: &mut Unstructured<'_>, rows: &mut Vec<Vec<Cell>>) -> Result<()> {
    let kind = *bytes.choose(TABLES)?;
    lines(bytes, kind, rows)
}

/// A card: labels above lines.
fn card(bytes: &mut Unstructured<'_>, rows: &mut Vec<Vec<Cell>>) -> Result<()> {
    rows.push(vec![Cell::Text("Recipe".to_owned()), cell(bytes, RECIPES)?]);
    for (label, values) in LABELS {
        if bytes.ratio(2, 5)? {
            rows.push(vec![Cell::Text((*label).to_owned()), cell(bytes, values)?]);
        }
    }
    lines(bytes, LINES, rows)
}

fn lines(bytes: &mut Unstructured<'_>, kind: Table, rows: &mut Vec<Vec<Cell>>) -> Result<()> {
    // The first three headers make a table what it is.
    let mut columns = Vec::new();
    for (at, column) in kind.iter().enumerate() {
        if at < 3 || bytes.ratio(1, 2)? {
            columns.push(column);
        }
    }
    let headers = columns.iter().map(|(header, _)| Cell::Text((*header).to_owned()));
    rows.push(headers.collect());
    for _ in 0..bytes.int_in_range(0..=6)? {
        let row: Result<Vec<Cell>> = columns.iter().map(|(_, values)| cell(bytes, values)).collect();
        rows.push(row?);
    }
    Ok(())
}

/// A cell of a column: mostly one of its words, as text or as a number is typed.
fn cell(bytes: &mut Unstructured<'_>, values: &[&str]) -> Result<Cell> {
    let word = if bytes.ratio(1, 24)? { text(bytes)? } else { (*bytes.choose(values)?).to_owned() };
    Ok(match bytes.int_in_range(0..=31_u8)? {
        0 => Cell::Blank,
        1 => Cell::Bool(bytes.arbitrary()?),
        2 => Cell::Error(bytes.choose(&["#DIV/0!", "#N/A", "#REF!", "#VALUE!", "#NAME?"])?),
        3 => Cell::Date(number(bytes)?),
        4 => Cell::Percent(number(bytes)?),
        5 => Cell::Number(number(bytes)?),
        6 => Cell::Formula("1+1".to_owned(), Some(number(bytes)?)),
        7 => Cell::Formula("A1".to_owned(), None),
        _ => match word.strip_suffix('%').map(str::parse::<f64>) {
            Some(Ok(share)) => Cell::Percent((share / 100.0).to_string()),
            _ if word.parse::<f64>().is_ok() => Cell::Number(word),
            _ => Cell::Text(word),
        },
    })
}

/// A number that somebody might type, or nobody.
fn number(bytes: &mut Unstructured<'_>) -> Result<String> {
    Ok(match bytes.int_in_range(0..=4_u8)? {
        0 => bytes.int_in_range(0..=100_i64)?.to_string(),
        1 => bytes.arbitrary::<i32>()?.to_string(),
        2 => format!("{}.{:02}", bytes.int_in_range(0..=999_i64)?, bytes.int_in_range(0..=99_i64)?),
        3 => bytes.arbitrary::<f64>()?.to_string(),
        _ => "46330".to_owned(),
    })
}

/// A text of chance.
fn text(bytes: &mut Unstructured<'_>) -> Result<String> {
    let length = bytes.int_in_range(0..=12)?;
    (0..length)
        .map(|_| if bytes.ratio(3, 4)? { Ok(char::from(bytes.int_in_range(b' '..=b'~')?)) } else { bytes.arbitrary() })
        .collect()
}
