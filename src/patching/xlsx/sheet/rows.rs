//! Rows of a sheet part that a patch looks at: where each stands, its cells, and the formulas that cells share.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::ops::Range;

use crate::patching::xlsx::ranges::{Growth, cell as cell_at};
use crate::patching::xlsx::tags::{Splice, Tag, TagKind, unescaped};
use crate::patching::xlsx::{Addition, NotPatched};

/// A cell.
#[derive(Debug, Clone)]
pub(in crate::patching::xlsx) struct CellPart<'x> {
    pub column: u32,
    pub style: Option<u32>,
    /// Whether anything stands in it.
    pub filled: bool,
    raw: &'x str,
    formula: Option<ExistingFormula>,
}

/// A formula as it stands.
#[derive(Debug, Clone)]
enum ExistingFormula {
    /// Its own.
    Plain(String),
    /// The one of a group.
    Shared(String),
    /// Of a kind that does not go on: one for several cells at once.
    Other,
}

/// A row.
#[derive(Debug, Clone)]
pub(in crate::patching::xlsx) struct RowPart<'x> {
    /// The tag that opens it, and all of it.
    pub open: Range<usize>,
    pub whole: Range<usize>,
    pub cells: Vec<CellPart<'x>>,
    attributes: Vec<(&'x str, &'x str)>,
}

impl<'x> RowPart<'x> {
    /// The cell in a column.
    pub fn cell(&self, column: u32) -> Option<&CellPart<'x>> {
        self.cells.iter().find(|cell| cell.column == column)
    }

    /// Its cells as they stand.
    pub fn raw_cells(&self) -> Vec<(u32, String)> {
        self.cells.iter().map(|cell| (cell.column, cell.raw.to_owned())).collect()
    }

    /// The tag that opens it without what keeps it out of sight: filtered away, or hidden by hand.
    pub fn in_sight(&self, open: &str) -> String {
        let hides = |(name, value): &&(&str, &str)| {
            let is_flat = *name == "ht" && value.chars().all(|c| matches!(c, '0' | '.'));
            is_flat || *name == "hidden" || *name == "collapsed"
        };
        self.attributes.iter().filter(hides).fold(open.to_owned(), |open, (name, value)| {
            open.replacen(&format!(" {name}=\"{value}\""), "", 1).replacen(&format!(" {name}='{value}'"), "", 1)
        })
    }

    /// The attributes by which a row looks like this one: its height and style.
    pub fn looks(&self) -> String {
        const LOOKS: [&str; 4] = ["s", "customFormat", "ht", "customHeight"];
        let alike = self.attributes.iter().filter(|(name, _)| LOOKS.contains(name));
        alike.map(|(name, value)| format!(" {name}=\"{value}\"")).collect()
    }
}

/// What a patch needs of a sheet's rows.
pub(in crate::patching::xlsx) struct SheetRows<'x> {
    rows: BTreeMap<u32, RowPart<'x>>,
    /// Where every row begins.
    starts: BTreeMap<u32, usize>,
    /// Where the rows end; where there are none at all, the empty tag that stands for them.
    end: usize,
    /// What stands before the names of tags.
    pub prefix: &'x str,
    /// Formulas that cells share: the text, and the cell that it is written for.
    shared: HashMap<String, (String, (u32, u32))>,
}

impl<'x> SheetRows<'x> {
    /// # Errors
    /// [`NotPatched`] where rows or cells do not say where they stand, or are out of order.
    pub fn read(
        xml: &'x str,
        all: &[Tag<'x>],
        addition: &Addition,
        growth: &Growth,
    ) -> Result<SheetRows<'x>, NotPatched> {
        let odd = || NotPatched("its sheet does not say where its cells stand".to_owned());
        let likes = addition.rows.iter().flat_map(|row| row.cells.iter().filter_map(|cell| cell.like));
        let mut wanted: BTreeSet<u32> = likes.chain([addition.header, addition.last]).collect();
        wanted.extend(growth.last..=growth.now.saturating_add(1));
        let begins =
            all.iter().position(|tag| tag.name == "sheetData" && tag.kind == TagKind::Opens).ok_or_else(odd)?;
        let mut sheet = SheetRows {
            rows: BTreeMap::new(),
            starts: BTreeMap::new(),
            end: 0,
            prefix: all.get(begins).map_or("", Tag::prefix),
            shared: HashMap::new(),
        };
        let mut at = begins.saturating_add(1);
        let mut before = None;
        while let Some(tag) = all.get(at) {
            at = at.saturating_add(1);
            if tag.name == "sheetData" {
                sheet.end = tag.range.start;
                return Ok(sheet);
            }
            if tag.name != "row" || tag.kind == TagKind::Closes {
                continue;
            }
            let number = tag.value("r").and_then(|r| r.parse::<u32>().ok()?.checked_sub(1)).ok_or_else(odd)?;
            if before.is_some_and(|before| before >= number) {
                return Err(odd());
            }
            before = Some(number);
            sheet.starts.insert(number, tag.range.start);
            let end = match tag.kind {
                TagKind::Empty => at,
                _ => {
                    let closes = all
                        .get(at..)
                        .and_then(|rest| rest.iter().position(|tag| tag.name == "row" && tag.kind == TagKind::Closes));
                    at.saturating_add(closes.ok_or_else(odd)?).saturating_add(1)
                }
            };
            let inside = all.get(at..end).unwrap_or_default();
            let mut cells = cells(xml, inside, number).ok_or_else(odd)?;
            for (cell, master) in &mut cells {
                if let Some((group, text)) = master.take() {
                    sheet.shared.insert(group, (text, (number, cell.column)));
                }
            }
            if wanted.contains(&number) {
                let last = inside.last().map_or(tag.range.end, |tag| tag.range.end);
                let part = RowPart {
                    open: tag.range.clone(),
                    whole: tag.range.start..last,
                    cells: cells.into_iter().map(|(cell, _)| cell).collect(),
                    attributes: tag.attributes().into_iter().map(|(name, value, _)| (name, value)).collect(),
                };
                sheet.rows.insert(number, part);
            }
            at = end;
        }
        Err(odd())
    }

    /// A row that the patch looks at.
    pub fn get(&self, row: u32) -> Option<&RowPart<'x>> {
        self.rows.get(&row)
    }

    /// The cut that puts a row where none is.
    pub fn insert_at(&self, number: u32, row: String) -> Splice {
        let next = self.starts.range(number..).next().map_or(self.end, |(_, start)| *start);
        (next..next, row)
    }

    /// The formula of a cell in the row `row`, if it has one: the text where it can go on, and the cell for which that
    /// is written.
    pub fn formula(&self, cell: &CellPart<'_>, row: u32) -> Option<(Option<String>, (u32, u32))> {
        let here = (row, cell.column);
        Some(match cell.formula.as_ref()? {
            ExistingFormula::Plain(text) => (Some(text.clone()), here),
            ExistingFormula::Shared(group) => match self.shared.get(group) {
                Some((text, from)) if from.1 <= cell.column && from.0 <= row => (Some(text.clone()), *from),
                _ => (None, here),
            },
            ExistingFormula::Other => (None, here),
        })
    }
}

/// A cell, and the text of the shared formula that stands in it, with its group.
type Read<'x> = (CellPart<'x>, Option<(String, String)>);

/// The cells among the tags of a row; `None` where one does not say where it stands.
fn cells<'x>(xml: &'x str, tags: &[Tag<'x>], row: u32) -> Option<Vec<Read<'x>>> {
    let mut found: Vec<Read<'x>> = Vec::new();
    let mut start = 0;
    let mut formula: Option<(Tag<'x>, usize)> = None;
    for tag in tags {
        match (tag.name, tag.kind) {
            ("c", TagKind::Opens | TagKind::Empty) => {
                let (at, column) = cell_at(tag.attribute("r")?.0)?;
                if at != row {
                    return None;
                }
                start = tag.range.start;
                let style = tag.attribute("s").and_then(|(text, _)| text.parse().ok());
                found.push((CellPart { column, style, filled: false, raw: tag.raw, formula: None }, None));
            }
            ("c", TagKind::Closes) => found.last_mut()?.0.raw = xml.get(start..tag.range.end)?,
            ("f", TagKind::Opens) => formula = Some((tag.clone(), tag.range.end)),
            ("f", TagKind::Empty) => put_formula(found.last_mut()?, tag, ""),
            ("f", TagKind::Closes) => {
                let (opens, text) = formula.take()?;
                put_formula(found.last_mut()?, &opens, xml.get(text..tag.range.start)?);
            }
            ("v" | "is", TagKind::Opens) => found.last_mut()?.0.filled = true,
            _ => {}
        }
    }
    Some(found)
}

fn put_formula<'x>((cell, master): &mut Read<'x>, tag: &Tag<'x>, text: &str) {
    cell.filled = true;
    let text = unescaped(text);
    cell.formula = Some(match (tag.attribute("t").map(|(kind, _)| kind), tag.value("si")) {
        (None | Some("normal"), _) => ExistingFormula::Plain(text),
        (Some("shared"), Some(group)) => {
            if !text.is_empty() {
                *master = Some((group.clone(), text));
            }
            ExistingFormula::Shared(group)
        }
        _ => ExistingFormula::Other,
    });
}
