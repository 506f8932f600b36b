//! Workbook part: which part each sheet is, the names that grow with a table, and that formulas are to be figured anew.

use std::ops::Range;

use super::NotPatched;
use super::package::Package;
use super::ranges::{CellRange, Growth};
use super::tags::{TagKind, spliced, tags, unescaped};

/// The workbook part.
pub(super) struct WorkbookPart {
    /// Its name.
    pub part: String,
    xml: String,
    /// Each worksheet's name and part, in order.
    sheets: Vec<(String, String)>,
    /// Whether days are counted from 1904.
    pub from_1904: bool,
    /// Where the text of each defined name stands, and the text as it is now.
    names: Vec<(Range<usize>, String)>,
}

impl WorkbookPart {
    /// # Errors
    /// [`NotPatched`] where it cannot be read.
    pub fn read(package: &mut Package<'_>) -> Result<Self, NotPatched> {
        let of_package = package.relations("")?;
        let part = of_package.into_iter().find(|one| one.kind == "officeDocument").map(|one| one.part);
        let part = part.ok_or_else(|| NotPatched("it does not say which part is the workbook".to_owned()))?;
        let xml = package.text(&part)?;
        let relations = package.relations(&part)?;
        let (mut sheets, mut names, mut from_1904, mut opened) = (Vec::new(), Vec::new(), false, 0);
        for tag in tags(&xml)? {
            match (tag.name, tag.kind) {
                ("sheet", TagKind::Opens | TagKind::Empty) => {
                    let id = tag.attributes().into_iter().find(|(name, ..)| name.ends_with(":id")).map(|(_, id, _)| id);
                    let leads = relations.iter().find(|one| Some(one.id.as_str()) == id && one.kind == "worksheet");
                    if let (Some(name), Some(leads)) = (tag.value("name"), leads) {
                        sheets.push((name, leads.part.clone()));
                    }
                }
                ("workbookPr", TagKind::Opens | TagKind::Empty) => {
                    from_1904 = matches!(tag.value("date1904").as_deref(), Some("1" | "true"));
                }
                ("definedName", TagKind::Opens) => opened = tag.range.end,
                ("definedName", TagKind::Closes) => {
                    let range = opened..tag.range.start;
                    let text = xml.get(range.clone()).unwrap_or_default().to_owned();
                    names.push((range, text));
                }
                _ => {}
            }
        }
        Ok(WorkbookPart { part, xml, sheets, from_1904, names })
    }

    /// The part of a sheet.
    ///
    /// # Errors
    /// [`NotPatched`] where there is none.
    pub fn sheet(&self, name: &str) -> Result<String, NotPatched> {
        let found = self.sheets.iter().find(|(known, _)| known == name);
        found.map(|(_, part)| part.clone()).ok_or_else(|| NotPatched(format!("its sheet {name} was not found")))
    }

    /// The parts of all sheets.
    pub fn parts(&self) -> impl Iterator<Item = &str> {
        self.sheets.iter().map(|(_, part)| part.as_str())
    }

    /// Lets the names grow that end with a table: what is printed, what is filtered, what drop-downs list.
    pub fn grow_names(&mut self, sheet: &str, growth: &Growth) {
        for (_, text) in &mut self.names {
            if let Some(grown) = grown_name(text, sheet, growth) {
                *text = grown;
            }
        }
    }

    /// Puts the part back. Where the book calculates, it is figured anew when it is opened.
    ///
    /// # Errors
    /// [`NotPatched`] where it is no XML.
    pub fn write(&self, package: &mut Package<'_>, calculates: bool) -> Result<(), NotPatched> {
        let mut cuts: Vec<(Range<usize>, String)> =
            self.names.iter().filter(|(range, text)| self.xml.get(range.clone()) != Some(text)).cloned().collect();
        if calculates {
            let all = tags(&self.xml)?;
            let settings = all.iter().find(|tag| tag.name == "calcPr" && tag.kind != TagKind::Closes);
            if let Some(tag) = settings {
                match tag.attribute("fullCalcOnLoad") {
                    Some((_, range)) => cuts.push((range, "1".to_owned())),
                    None => {
                        let behind = tag.range.start.saturating_add("<calcPr".len().saturating_add(tag.prefix().len()));
                        cuts.push((behind..behind, " fullCalcOnLoad=\"1\"".to_owned()));
                    }
                }
            } else {
                // Behind the names, else behind the sheets and what stands between (ECMA-376 part 1, 18.2.27).
                const BEFORE: [&str; 6] =
                    ["sheets", "functionGroups", "externalReferences", "definedNames", "bookViews", "workbookPr"];
                let last = all
                    .iter()
                    .filter(|tag| BEFORE.contains(&tag.name) && tag.kind != TagKind::Opens)
                    .max_by_key(|tag| tag.range.end);
                if let Some(tag) = last {
                    let calc = format!("<{}calcPr fullCalcOnLoad=\"1\"/>", tag.prefix());
                    cuts.push((tag.range.end..tag.range.end, calc));
                }
            }
        }
        if !cuts.is_empty() {
            package.replace(&self.part, spliced(&self.xml, cuts));
        }
        Ok(())
    }
}

/// The text of a name that is one range on `sheet` and grows with the table; `None` for any other.
fn grown_name(text: &str, sheet: &str, growth: &Growth) -> Option<String> {
    let (of, range) = text.rsplit_once('!')?;
    let plain = unescaped(of);
    let named = match plain.strip_prefix('\'').and_then(|rest| rest.strip_suffix('\'')) {
        Some(quoted) => quoted.replace("''", "'"),
        None => plain,
    };
    let block = CellRange::read(&range.replace('$', ""))?;
    let grown = growth.grown(block);
    if named != sheet || grown == block || block.first.0 == block.last.0 {
        return None;
    }
    let first = range.split(':').next()?;
    let held = |(row, column): (u32, u32)| {
        format!("${}${}", crate::problem::place::column_letters(column), row.saturating_add(1))
    };
    // Only what is held by dollar signs is told from a name that moves with the cell that uses it.
    (first.matches('$').count() == 2).then(|| format!("{of}!{}:{}", held(grown.first), held(grown.last)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_that_ends_with_the_table_grows() {
        let growth = Growth { header: 0, last: 9, now: 11, span: (0, 5), wide: 5 };
        for (text, grown) in [
            ("Prices!$A$2:$A$10", Some("Prices!$A$2:$A$12")),
            ("'Prices'!$A$1:$F$10", Some("'Prices'!$A$1:$F$12")),
            ("Prices!$A$2:$A$9", None),
            ("Other!$A$2:$A$10", None),
            ("Prices!A2:A10", None),
            ("Prices!$B$10", None),
            ("SUM(Prices!$A$2:$A$10)", None),
            ("#REF!", None),
        ] {
            assert_eq!(grown_name(text, "Prices", &growth).as_deref(), grown, "{text}");
        }
        assert_eq!(
            grown_name("'Bob''s &amp; co'!$A$2:$A$10", "Bob's & co", &growth).as_deref(),
            Some("'Bob''s &amp; co'!$A$2:$A$12")
        );
    }
}
