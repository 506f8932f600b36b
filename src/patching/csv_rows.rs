//! Rows put below a table of a csv file, typed as the file is: its separator, its quotation marks, its decimal mark, its
//! signs of money, its line ends, its encoding. Every other byte stays.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use jiff::civil::Date;

use super::tables::OwnTable;
use crate::book::csv::{Dialect, dialect};
use crate::in_order::InOrder;
use crate::number::{Decimal, exact, plain};
use crate::patching::xlsx::{Addition, NewContent, NewRow, NotPatched};
use crate::schema::Value;

/// The file with `additions`.
///
/// # Errors
/// [`NotPatched`] where its encoding does not have a letter that is needed.
pub(super) fn with_rows(bytes: &[u8], additions: &[(&OwnTable<'_>, Addition)]) -> Result<Vec<u8>, NotPatched> {
    let file = dialect(bytes).map_err(|error| NotPatched(format!("its text could not be read again: {error}")))?;
    let records = records(&file);
    let gone = || NotPatched("its rows were not found again".to_owned());
    // What is put where, by places in the text.
    let mut inserts: Vec<(usize, String)> = Vec::new();
    for (table, addition) in additions {
        let record = |row: u32| usize::try_from(row).ok().and_then(|row| records.get(row)).ok_or_else(gone);
        let (header, last) = (record(addition.header)?, record(addition.last)?);
        let text = |record: &CsvRecord| file.text.get(record.cells.clone()).unwrap_or_default();
        let quotes_all = quotes_all(text(header)) && quotes_all(text(last));
        let columns =
            addition.rows.iter().flat_map(|row| &row.cells).map(|cell| cell.column).collect::<BTreeSet<u32>>();
        let columns = columns.into_iter().map(|column| (column, ColumnForm::of(table, column))).collect();
        let form = RowForm { file: &file, quotes_all, columns };
        if !addition.headers.is_empty() {
            let mut more = String::new();
            let wanted = usize::try_from(addition.span.1).unwrap_or(usize::MAX).saturating_add(1);
            let have = fields(text(header), file.separator);
            // Separators behind the last header stay behind the new ones.
            let empty = text(header).chars().rev().take_while(|c| *c == file.separator).count();
            let behind = have.saturating_sub(wanted).min(empty);
            (have..wanted).for_each(|_| more.push(file.separator));
            for name in &addition.headers {
                more.push(file.separator);
                more.push_str(&form.field(name));
            }
            if have.saturating_sub(behind) > wanted {
                return Err(NotPatched("something stands right of the headers of its prices".to_owned()));
            }
            let width = behind.saturating_mul(file.separator.len_utf8());
            inserts.push((header.cells.end.saturating_sub(width), more));
        }
        let end_of_line = [header, last].into_iter().find_map(|record| file.text.get(record.cells.end..record.end));
        let end_of_line = end_of_line.filter(|end| !end.is_empty()).unwrap_or("\n");
        let wide = fields(text(last), file.separator);
        let lines: Vec<String> = addition.rows.iter().map(|row| form.line(row, wide)).collect();
        let all = lines.join(end_of_line);
        let unended = last.cells.end == last.end;
        let text = if unended { format!("{end_of_line}{all}") } else { format!("{all}{end_of_line}") };
        inserts.push((last.end, text));
    }
    inserts.put_in_order_by_key(|(at, _)| *at);
    let mut out = Vec::with_capacity(bytes.len());
    let mut from = 0;
    for (at, text) in inserts {
        let at = file.byte(at);
        out.extend_from_slice(bytes.get(from..at).ok_or_else(gone)?);
        out.extend(
            file.encoded(&text).ok_or_else(|| NotPatched("its encoding lacks a letter of the new rows".to_owned()))?,
        );
        from = at;
    }
    out.extend_from_slice(bytes.get(from..).ok_or_else(gone)?);
    Ok(out)
}

/// A row of the file, as a spreadsheet program numbers them.
struct CsvRecord {
    /// Its cells.
    cells: Range<usize>,
    /// Where the next one begins.
    end: usize,
}

/// The rows of a text: line breaks within quotation marks part none.
fn records(file: &Dialect) -> Vec<CsvRecord> {
    let mut found = Vec::new();
    let (mut start, mut quoted, mut at_start) = (file.begins, false, true);
    let mut chars = file.text.get(file.begins..).unwrap_or_default().char_indices().peekable();
    while let Some((at, c)) = chars.next() {
        let at = at.saturating_add(file.begins);
        match c {
            '"' if quoted => {
                if chars.next_if(|(_, next)| *next == '"').is_none() {
                    quoted = false;
                }
                at_start = false;
            }
            _ if quoted => {}
            '"' if at_start => quoted = true,
            '\r' | '\n' => {
                let mut end = at.saturating_add(1);
                if c == '\r' && chars.next_if(|(_, next)| *next == '\n').is_some() {
                    end = end.saturating_add(1);
                }
                found.push(CsvRecord { cells: start..at, end });
                (start, at_start) = (end, true);
            }
            c => at_start = c == file.separator,
        }
    }
    if start < file.text.len() {
        found.push(CsvRecord { cells: start..file.text.len(), end: file.text.len() });
    }
    found
}

/// How many cells a row has.
fn fields(text: &str, separator: char) -> usize {
    let (mut quoted, mut count) = (false, 1_usize);
    for c in text.chars() {
        match c {
            '"' => quoted = !quoted,
            c if c == separator && !quoted => count = count.saturating_add(1),
            _ => {}
        }
    }
    count
}

/// Whether cells stand between quotation marks that would not need them.
fn quotes_all(text: &str) -> bool {
    text.starts_with('"') && text.trim_end().ends_with('"')
}

/// How the file types a row.
struct RowForm<'f> {
    file: &'f Dialect,
    quotes_all: bool,
    columns: BTreeMap<u32, ColumnForm<'f>>,
}

/// How the cells of a column are typed.
struct ColumnForm<'t> {
    /// A comma is the decimal mark.
    comma: bool,
    /// Days are typed as `02.11.2026`.
    pointed: bool,
    /// What stands round a number.
    dress: Option<Dress<'t>>,
}

impl<'t> ColumnForm<'t> {
    fn of(table: &OwnTable<'t>, column: u32) -> Self {
        ColumnForm {
            comma: has_comma(table, column),
            pointed: is_pointed(table, column),
            dress: texts(table, column).find_map(Dress::of),
        }
    }
}

impl RowForm<'_> {
    fn line(&self, row: &NewRow, wide: usize) -> String {
        let last = row.cells.iter().map(|cell| cell.column).max().unwrap_or_default();
        let wide = usize::try_from(last).unwrap_or_default().saturating_add(1).max(wide);
        let mut cells = vec![String::new(); wide];
        for cell in &row.cells {
            let text = match &cell.content {
                NewContent::Text(text) => guarded(text),
                NewContent::Number(number) => dressed(*number, self.columns.get(&cell.column)),
                NewContent::Percent(share) => match exact::mul(*share, Decimal::ONE_HUNDRED) {
                    Ok(percent) => format!(
                        "{}%",
                        marked(plain(percent), self.columns.get(&cell.column).is_some_and(|form| form.comma))
                    ),
                    Err(_) => plain(*share),
                },
                NewContent::Date(day) => dated(*day, self.columns.get(&cell.column)),
                NewContent::Bool(yes) => if *yes { "yes" } else { "no" }.to_owned(),
            };
            if let Some(place) = usize::try_from(cell.column).ok().and_then(|at| cells.get_mut(at)) {
                *place = self.field(&text);
            }
        }
        cells.join(&self.file.separator.to_string())
    }

    /// A cell, between quotation marks where it needs them.
    fn field(&self, text: &str) -> String {
        let needs = text.contains([self.file.separator, '"', '\n', '\r']) || text.trim() != text;
        if needs || (self.quotes_all && !text.is_empty()) {
            format!("\"{}\"", text.replace('"', "\"\""))
        } else {
            text.to_owned()
        }
    }
}

/// Text of a list that no program takes for a formula.
fn guarded(text: &str) -> String {
    if text.starts_with(['=', '+', '@', '\t', '\r']) || (text.starts_with('-') && text.len() > 1) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}

/// The texts of a column's cells, from the last up.
fn texts<'g>(table: &OwnTable<'g>, column: u32) -> impl Iterator<Item = &'g str> {
    table
        .column(column)
        .filter_map(|typed| if let Value::Text(text) = &typed.value { Some(text.as_str()) } else { None })
}

/// Whether a comma is the decimal mark of a column: a cell with one, and one or two digits behind it.
fn has_comma(table: &OwnTable<'_>, column: u32) -> bool {
    texts(table, column).any(|text| {
        let digits = |behind: &str| behind.chars().take_while(char::is_ascii_digit).count();
        let is_last = |behind: &str| !behind.contains('.') && matches!(digits(behind), 1 | 2);
        text.rsplit_once(',').is_some_and(|(_, behind)| is_last(behind))
    })
}

fn marked(number: String, comma: bool) -> String {
    if comma { number.replace('.', ",") } else { number }
}

/// Whether the days of a column are all typed with points, which can only be read one way: `02.11.2026`.
fn is_pointed(table: &OwnTable<'_>, column: u32) -> bool {
    let is_pointed = |text: &str| {
        let mut parts = text.split('.').map(|part| (part.len(), part.bytes().all(|byte| byte.is_ascii_digit())));
        [(2, true), (2, true), (4, true)].into_iter().all(|wanted| parts.next() == Some(wanted))
            && parts.next().is_none()
    };
    let mut samples = texts(table, column).peekable();
    samples.peek().is_some() && samples.all(is_pointed)
}

/// A day as the column has them, else as YYYY-MM-DD.
fn dated(day: Date, form: Option<&ColumnForm<'_>>) -> String {
    if form.is_some_and(|form| form.pointed) {
        format!("{:02}.{:02}.{:04}", day.day(), day.month(), day.year())
    } else {
        day.to_string()
    }
}

/// A number as the column has them: with its sign of money, its decimal mark, and as many decimals.
fn dressed(number: Decimal, form: Option<&ColumnForm<'_>>) -> String {
    let comma = form.is_some_and(|form| form.comma);
    let mark = if comma { ',' } else { '.' };
    let sample = form.and_then(|form| form.dress.as_ref());
    let decimals = sample.map_or(0, |dress| dress.decimals(mark));
    let mut number = number.normalize();
    if number.scale() < decimals {
        number.rescale(decimals);
    }
    // Three digits behind a mark may part thousands.
    if number.scale() == 3 {
        number.rescale(4);
    }
    let digits = marked(number.to_string(), comma);
    match sample {
        Some(dress) => format!("{}{digits}{}", dress.before, dress.behind),
        None => digits,
    }
}

/// What stands round the digits of a number.
struct Dress<'t> {
    before: &'t str,
    digits: &'t str,
    behind: &'t str,
}

impl<'t> Dress<'t> {
    /// `None` for what is more than a number with a sign of money.
    fn of(text: &'t str) -> Option<Dress<'t>> {
        let first = text.find(|c: char| c.is_ascii_digit())?;
        let last = text.rfind(|c: char| c.is_ascii_digit())?.checked_add(1)?;
        let dress = Dress { before: text.get(..first)?, digits: text.get(first..last)?, behind: text.get(last..)? };
        let number = dress.digits.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | ' '));
        let sign =
            |text: &str| !text.chars().any(|c| c.is_alphanumeric() || matches!(c, '/' | '%' | '(' | ')' | '-' | '#'));
        (number && sign(dress.before) && sign(dress.behind)).then_some(dress)
    }

    fn decimals(&self, mark: char) -> u32 {
        let behind = self.digits.rsplit_once(mark).map_or(0, |(_, behind)| behind.len());
        u32::try_from(behind).unwrap_or_default().min(4)
    }
}
