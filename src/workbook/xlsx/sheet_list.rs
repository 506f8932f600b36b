//! List of a workbook's sheets and names, in the four parts of the archive that tell of all of them (ECMA-376 part 1, 18.2, and
//! part 2, 9.3 and 10.1.2.2). The library knows only the sheets whose frames it writes; what it says of them is told anew.

use std::io;

use rust_xlsxwriter::quote_sheet_name;

use super::page_setup::Printed;
use super::xml::{push_attribute, push_escaped};
use crate::problem::place::column_letters;

/// The parts that tell of all sheets.
const CONTENT_TYPES: &str = "[Content_Types].xml";
const RELATIONSHIPS: &str = "xl/_rels/workbook.xml.rels";
const WORKBOOK: &str = "xl/workbook.xml";
const PROPERTIES: &str = "docProps/app.xml";

/// The sheets in their order, and the workbook's names in theirs.
#[derive(Debug)]
pub(super) struct SheetList {
    sheets: Vec<String>,
    names: Vec<DefinedName>,
}

/// A name of the workbook, or of one sheet.
#[derive(Debug, PartialEq, Eq, PartialOrd, Ord)]
struct DefinedName {
    /// What it is sorted by, as programs sort names.
    sorted_by: String,
    /// What it stands for.
    stands_for: String,
    name: String,
    /// The sheet whose it is, counted from none.
    sheet: Option<usize>,
    /// As the properties tell of it.
    told: String,
}

impl SheetList {
    /// The sheets with what of them is printed, and `names` with the formulas that they stand for.
    pub(super) fn of(sheets: Vec<(String, Printed)>, names: Vec<(String, String)>) -> Self {
        let mut all: Vec<DefinedName> = names
            .into_iter()
            .map(|(name, stands_for)| {
                let told = if stands_for.contains('!') { name.clone() } else { String::new() };
                DefinedName { sorted_by: name.to_lowercase(), stands_for, name, sheet: None, told }
            })
            .collect();
        for (at, (sheet, printed)) in sheets.iter().enumerate() {
            let sheet = quote_sheet_name(sheet);
            let mut named = |name: &str, sorted_by: &str, stands_for: String| {
                all.push(DefinedName {
                    sorted_by: sorted_by.to_owned(),
                    stands_for,
                    name: format!("_xlnm.{name}"),
                    sheet: Some(at),
                    told: format!("{sheet}!{name}"),
                });
            };
            if let Some(area) = area(&sheet, printed) {
                named("Print_Area", "print_area{}", area);
            }
            if let Some(titles) = titles(&sheet, printed) {
                named("Print_Titles", "print_titles", titles);
            }
        }
        all.sort();
        SheetList { sheets: sheets.into_iter().map(|(name, _)| name).collect(), names: all }
    }

    /// A part as it is to be: told anew where it tells of all sheets.
    ///
    /// # Errors
    /// Where the library writes it otherwise than it did.
    pub(super) fn told(&self, part: &str, text: String) -> io::Result<String> {
        let told = match part {
            CONTENT_TYPES => self.content_types(&text),
            RELATIONSHIPS => self.relationships(&text),
            WORKBOOK => self.workbook(&text),
            PROPERTIES => self.properties(&text),
            _ => return Ok(text),
        };
        told.ok_or_else(|| io::Error::other(format!("the library writes {part} otherwise than expected")))
    }

    fn numbers(&self) -> impl Iterator<Item = usize> {
        1..=self.sheets.len()
    }

    fn content_types(&self, text: &str) -> Option<String> {
        const SHEET: &str = "<Override PartName=\"/xl/worksheets/";
        const TYPE: &str = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml";
        let (before, rest) = text.split_at_checked(text.find(SHEET)?)?;
        let (_, after) = rest.split_at_checked(rest.rfind(SHEET)?)?.1.split_once("/>")?;
        let sheet = |n| format!("{SHEET}sheet{n}.xml\" ContentType=\"{TYPE}\"/>");
        Some([before, &self.numbers().map(sheet).collect::<String>(), after].concat())
    }

    fn relationships(&self, text: &str) -> Option<String> {
        const TAG: &str = "<Relationship ";
        const SHEET: &str = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet";
        let mut tags = text.split(TAG);
        let mut told = tags.next()?.to_owned();
        for n in self.numbers() {
            told.push_str(&format!("{TAG}Id=\"rId{n}\" Type=\"{SHEET}\" Target=\"worksheets/sheet{n}.xml\"/>"));
        }
        let others = tags.filter(|tag| !tag.contains(SHEET));
        for (tag, n) in others.zip(self.sheets.len().saturating_add(1)..) {
            let (_, rest) = tag.strip_prefix("Id=\"rId")?.split_once('"')?;
            told.push_str(&format!("{TAG}Id=\"rId{n}\"{rest}"));
        }
        Some(told)
    }

    fn workbook(&self, text: &str) -> Option<String> {
        let (before, rest) = text.split_once("<sheets>")?;
        let (_, after) = rest.split_once("</sheets>")?;
        let mut told = before.as_bytes().to_vec();
        told.extend_from_slice(b"<sheets>");
        for (name, n) in self.sheets.iter().zip(1_usize..) {
            told.extend_from_slice(b"<sheet name=\"");
            push_attribute(&mut told, name);
            told.extend_from_slice(format!("\" sheetId=\"{n}\" r:id=\"rId{n}\"/>").as_bytes());
        }
        told.extend_from_slice(b"</sheets>");
        if !self.names.is_empty() {
            told.extend_from_slice(b"<definedNames>");
            for name in &self.names {
                let sheet = name.sheet.map(|at| format!(" localSheetId=\"{at}\"")).unwrap_or_default();
                told.extend_from_slice(format!("<definedName name=\"{}\"{sheet}>", name.name).as_bytes());
                push_escaped(&mut told, &name.stands_for);
                told.extend_from_slice(b"</definedName>");
            }
            told.extend_from_slice(b"</definedNames>");
        }
        told.extend_from_slice(after.as_bytes());
        String::from_utf8(told).ok()
    }

    fn properties(&self, text: &str) -> Option<String> {
        let (before, rest) = text.split_once("<HeadingPairs>")?;
        let (_, after) = rest.split_once("</TitlesOfParts>")?;
        let names: Vec<&str> =
            self.names.iter().map(|name| name.told.as_str()).filter(|told| !told.is_empty()).collect();
        let pairs = [("Worksheets", self.sheets.len()), ("Named Ranges", names.len())];
        let pairs: Vec<_> = pairs.into_iter().filter(|(_, many)| *many > 0).collect();
        let mut told = before.as_bytes().to_vec();
        let size = pairs.len().saturating_mul(2);
        let begins = format!("<HeadingPairs><vt:vector size=\"{size}\" baseType=\"variant\">");
        told.extend_from_slice(begins.as_bytes());
        for (what, many) in pairs {
            let pair = format!(
                "<vt:variant><vt:lpstr>{what}</vt:lpstr></vt:variant><vt:variant><vt:i4>{many}</vt:i4></vt:variant>"
            );
            told.extend_from_slice(pair.as_bytes());
        }
        let size = self.sheets.len().saturating_add(names.len());
        let titles =
            format!("</vt:vector></HeadingPairs><TitlesOfParts><vt:vector size=\"{size}\" baseType=\"lpstr\">");
        told.extend_from_slice(titles.as_bytes());
        for title in self.sheets.iter().map(String::as_str).chain(names) {
            told.extend_from_slice(b"<vt:lpstr>");
            push_escaped(&mut told, title);
            told.extend_from_slice(b"</vt:lpstr>");
        }
        told.extend_from_slice(b"</vt:vector></TitlesOfParts>");
        told.extend_from_slice(after.as_bytes());
        String::from_utf8(told).ok()
    }
}

/// The cells of a sheet that are printed.
fn area(sheet: &str, printed: &Printed) -> Option<String> {
    let corner = |(row, column): (u32, u16)| {
        format!("${}${}", column_letters(u32::from(column)), u64::from(row).saturating_add(1))
    };
    let (first, last) = printed.area.map(|area| (corner(area.first), corner(area.last)))?;
    Some(if first == last { format!("{sheet}!{first}") } else { format!("{sheet}!{first}:{last}") })
}

/// The rows and columns of a sheet that stand again on every page.
fn titles(sheet: &str, printed: &Printed) -> Option<String> {
    let row = |row: u32| u64::from(row).saturating_add(1);
    let columns = printed.columns.map(|last| format!("{sheet}!$A:${}", column_letters(u32::from(last))));
    let rows = printed.rows.map(|(first, last)| format!("{sheet}!${}:${}", row(first), row(last)));
    let both: Vec<String> = columns.into_iter().chain(rows).collect();
    (!both.is_empty()).then(|| both.join(","))
}
