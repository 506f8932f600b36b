//! Styles of a workbook: a cell's style made anew for a day or a percentage where none above shows one.

use std::collections::HashMap;

use super::NotPatched;
use super::package::Package;
use super::tags::{Tag, TagKind, spliced, tags};
use super::workbook_part::WorkbookPart;

/// What a cell must show.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub(super) enum Shows {
    /// A day, as the program's own short date.
    Day,
    /// A percentage.
    Percent,
}

impl Shows {
    /// The number of the built-in format (ECMA-376 part 1, 18.8.30).
    fn format(self) -> &'static str {
        match self {
            Shows::Day => "14",
            Shows::Percent => "10",
        }
    }
}

/// The styles part.
pub(super) struct StylesPart {
    part: Option<String>,
    xml: String,
    /// Cell formats as they stand.
    formats: Vec<String>,
    /// Those that were added.
    added: Vec<String>,
    made: HashMap<(u32, Shows), u32>,
}

impl StylesPart {
    /// # Errors
    /// [`NotPatched`] where they cannot be read.
    pub fn read(package: &mut Package<'_>, book: &WorkbookPart) -> Result<Self, NotPatched> {
        let part = package.relations(&book.part)?.into_iter().find(|one| one.kind == "styles").map(|one| one.part);
        let xml = match &part {
            Some(part) => package.text(part)?,
            None => String::new(),
        };
        let all = tags(&xml)?;
        let mut formats = Vec::new();
        let (mut within, mut start) = (false, 0);
        for tag in &all {
            match (tag.name, tag.kind) {
                ("cellXfs", TagKind::Opens) => within = true,
                ("cellXfs", TagKind::Closes) => within = false,
                ("xf", TagKind::Empty) if within => formats.push(tag.raw.to_owned()),
                ("xf", TagKind::Opens) if within => start = tag.range.start,
                ("xf", TagKind::Closes) if within => {
                    formats.push(xml.get(start..tag.range.end).unwrap_or_default().to_owned());
                }
                _ => {}
            }
        }
        Ok(StylesPart { part, xml, formats, added: Vec::new(), made: HashMap::new() })
    }

    /// The number of a style like `base` that shows a day or a percentage; `None` where there are no styles to add to.
    pub fn like(&mut self, base: u32, shows: Shows) -> Option<u32> {
        if let Some(made) = self.made.get(&(base, shows)) {
            return Some(*made);
        }
        let format = self.formats.get(usize::try_from(base).ok()?)?;
        let all = tags(format).ok()?;
        let tag = all.first()?;
        let mut cuts = Vec::new();
        let mut add = String::new();
        for (name, value) in [("numFmtId", shows.format()), ("applyNumberFormat", "1")] {
            match tag.attribute(name) {
                Some((_, range)) => cuts.push((range, value.to_owned())),
                None => add.push_str(&format!(" {name}=\"{value}\"")),
            }
        }
        let behind_name = "<".len().checked_add(tag.prefix().len())?.checked_add(tag.name.len())?;
        cuts.push((behind_name..behind_name, add));
        let number = u32::try_from(self.formats.len().checked_add(self.added.len())?).ok()?;
        let added = spliced(format, cuts);
        self.added.push(added);
        self.made.insert((base, shows), number);
        Some(number)
    }

    /// Puts the part back with what was added.
    pub fn write(&self, package: &mut Package<'_>) {
        let (Some(part), false) = (&self.part, self.added.is_empty()) else { return };
        let Ok(all) = tags(&self.xml) else { return };
        let find = |kind: TagKind| all.iter().find(|tag: &&Tag<'_>| tag.name == "cellXfs" && tag.kind == kind);
        let (Some(opens), Some(closes)) = (find(TagKind::Opens), find(TagKind::Closes)) else { return };
        let mut cuts = vec![(closes.range.start..closes.range.start, self.added.concat())];
        if let Some((_, range)) = opens.attribute("count") {
            cuts.push((range, self.formats.len().saturating_add(self.added.len()).to_string()));
        }
        package.replace(part, spliced(&self.xml, cuts));
    }
}
