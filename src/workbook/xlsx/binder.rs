//! Binder of a workbook: takes its sheets piece by piece in their order, numbers their styles and texts, has the library write
//! what stands round their rows, and packs it all.

use std::collections::HashMap;
use std::io::{self, Cursor, Read};

use indexmap::IndexSet;
use rust_xlsxwriter::{DocProperties, Workbook, XlsxError};
use zip::ZipArchive;

use super::archive::{Archive, Packing};
use super::archive_part::{OwnPacked, OwnXml, PartTexts, PartTextsJob, Stretch, round};
use super::chart_cache;
use super::charts::Stored;
use super::extent::Extent;
use super::page_setup::{PageSetup, Paper, Printed};
use super::piece::Piece;
use super::sheet::{Drawn, PlainLook, Sheet};
use super::sheet_list::SheetList;
use super::styles::{Styles, TEXT_SPECIMEN};
use super::workers;
use super::workers::{Crew, Ticket};
use super::xml::{is_to_be_kept, push_text};
use crate::schema::{Limits, memory};

/// A long sheet is never whole in memory.
const LONG: usize = 1 << 20;

/// Short sheets are packed together, for what it takes to begin is more than what packing one takes.
const AT_ONE_GO: usize = 1 << 17;
/// So often every processor begins at the most to pack what the library wrote: parts are not of one length, and none is to
/// wait long for another.
const GOES: usize = 4;

/// The sheets so far.
#[derive(Debug)]
pub(super) struct Binder<'a, 'env> {
    paper: &'a Paper,
    crew: &'a Crew<'env>,
    /// Rows that are longer, in bytes, are packed as they come.
    long: usize,
    styles: Styles,
    texts: IndexSet<String>,
    /// How many cells hold a text.
    uses: u64,
    sheets: Vec<Sheet>,
    /// What is ours of the last sheets, which nobody packs yet.
    own: Vec<OwnXml>,
    /// And of those before.
    packed: Vec<Ticket<io::Result<Vec<OwnPacked>>>>,
    stored: Stored,
}

impl<'a, 'env> Binder<'a, 'env> {
    /// No sheet yet.
    pub(super) fn new(paper: &'a Paper, crew: &'a Crew<'env>) -> Self {
        Binder {
            paper,
            crew,
            long: LONG,
            styles: Styles::default(),
            texts: IndexSet::new(),
            uses: 0,
            sheets: Vec::new(),
            own: Vec::new(),
            packed: Vec::new(),
            stored: Stored::new(),
        }
    }

    /// With another bound of what is long.
    #[cfg(test)]
    pub(super) fn packing_above(self, long: usize) -> Self {
        Binder { long, ..self }
    }

    /// Takes the next sheet, or the next piece of the last one.
    pub(super) fn take(&mut self, drawn: Drawn) -> Result<(), XlsxError> {
        workers::expect_memory(memory::LITTLE)?;
        let Drawn { frame, piece, mut noted, notes } = drawn;
        if self.sheets.last().is_none_or(|last| last.frame.name != frame.name) {
            self.stored.extend(noted.stored());
            let (leads, merged, heights) = (false, Vec::new(), Vec::new());
            self.sheets.push(Sheet { frame, noted, notes, extent: None, leads, merged, heights });
            if self.own.iter().map(OwnXml::length).fold(0, usize::saturating_add) >= AT_ONE_GO {
                self.pack();
            }
            self.own.push(OwnXml::new());
        }
        self.add(piece)
    }

    /// Has what is ours of the last sheets packed, while others are drawn.
    fn pack(&mut self) {
        let own = std::mem::take(&mut self.own);
        self.packed.push(self.crew.put(move || {
            let mut packing = Packing::new();
            own.into_iter().map(|own| own.packed(&mut packing)).collect()
        }));
    }

    fn add(&mut self, mut piece: Piece) -> Result<(), XlsxError> {
        let (Some(sheet), Some(own)) = (self.sheets.last_mut(), self.own.last_mut()) else { return Ok(()) };
        sheet.extent = Extent::joined(sheet.extent, piece.extent);
        if !piece.links.is_empty() {
            sheet.leads = true;
            let (links, many) = at_most(&piece.links, LINKS.saturating_sub(own.many));
            own.many = own.many.saturating_add(many);
            own.links.push(links, self.long)?;
        }
        sheet.merged.append(&mut piece.merged);
        sheet.heights.append(&mut piece.heights);
        let styles: Vec<u32> = piece.kinds.drain(..).map(|kind| self.styles.number(kind)).collect();
        let number = |text| u32::try_from(self.texts.insert_full(text).0).unwrap_or(u32::MAX);
        let texts: Vec<u32> = piece.texts.drain(..).map(number).collect();
        self.uses = self.uses.saturating_add(piece.uses);
        let mut result = Ok(());
        piece.closed(&styles, &texts, &mut |bytes| {
            if result.is_ok() {
                result = own.rows.push(bytes, self.long);
            }
        });
        Ok(result?)
    }

    /// Binds the sheets into a workbook of these properties, with `names` and the formulas that they stand for.
    pub(super) fn bound(
        mut self,
        properties: &DocProperties,
        names: Vec<(String, String)>,
    ) -> Result<Vec<u8>, XlsxError> {
        let (sheets, most) = (self.sheets.len(), Limits::USUAL.sheets);
        if sheets > most {
            let error = format!("it would have {sheets} sheets, and none of more than {most} is read again");
            return Err(io::Error::other(error).into());
        }
        self.pack();
        let pages: Vec<_> = self.sheets.iter().map(|sheet| sheet.page(self.paper)).collect();
        let printed = self.sheets.iter().zip(&pages).map(|(sheet, (_, printed))| (sheet.frame.name.clone(), *printed));
        let list = SheetList::of(printed.collect(), names);
        let frames = self.frames(&pages);
        let mut workbook = self.framed(&frames, &pages, properties)?;
        workers::expect(frames.len())?;
        workers::expect_memory(memory::LITTLE)?;
        let framed = workbook.save_to_buffer()?;
        drop(workbook);
        Ok(self.archived(&frames, &framed, &list)?)
    }

    /// The sheets that each frame is for.
    ///
    /// The library writes one for all that look alike: it asks for a thread for each, which takes longer than to write it.
    fn frames(&self, pages: &[(PageSetup, Printed)]) -> Vec<Vec<usize>> {
        let mut frames: Vec<Vec<usize>> = Vec::new();
        let mut alike: HashMap<PlainLook, usize> = HashMap::new();
        for (at, (sheet, (page, _))) in self.sheets.iter().zip(pages).enumerate() {
            // The first has the specimens of styles.
            let next = frames.len();
            let look = if at == 0 { None } else { sheet.plain_look(page) };
            let frame = look.map_or(next, |look| *alike.entry(look).or_insert(next));
            match frames.get_mut(frame) {
                Some(sheets) => sheets.push(at),
                None => frames.push(vec![at]),
            }
        }
        frames
    }

    /// The frames for the library to write, each drawn from the first sheet that it is for.
    fn framed(
        &self,
        frames: &[Vec<usize>],
        pages: &[(PageSetup, Printed)],
        properties: &DocProperties,
    ) -> Result<Workbook, XlsxError> {
        let mut workbook = Workbook::new();
        // It is packed as it is to be below.
        workbook.set_zip_compression_level(1);
        for at in frames.iter().filter_map(|sheets| sheets.first()) {
            if let (Some(sheet), Some((page, _))) = (self.sheets.get(*at), pages.get(*at)) {
                workbook.push_worksheet(sheet.framed(page)?);
            }
        }
        if let Some(first) = workbook.worksheets_mut().first_mut() {
            self.styles.specimens(first)?;
            if !self.texts.is_empty() {
                first.write_string(TEXT_SPECIMEN.0, TEXT_SPECIMEN.1, "text")?;
            }
        }
        workbook.set_properties(properties);
        Ok(workbook)
    }

    /// The workbook's archive, its rows put into the frames that the library wrote.
    fn archived(self, frames: &[Vec<usize>], framed: &[u8], list: &SheetList) -> io::Result<Vec<u8>> {
        let mut own = Vec::with_capacity(self.sheets.len());
        for some in &self.packed {
            own.extend(self.crew.take(some)??.into_iter().map(Some));
        }
        let mut from = ZipArchive::new(Cursor::new(framed))?;
        let (mut parts, mut texts) = (Vec::new(), PartTexts::default());
        let sheets_of = |frame: Option<usize>| frame.and_then(|frame| frames.get(frame.checked_sub(1)?));
        for index in 0..from.len() {
            workers::expect_memory(memory::LITTLE)?;
            let mut part = from.by_index(index)?;
            let name = part.name()?.into_owned();
            let mut text = String::new();
            part.read_to_string(&mut text)?;
            if let Some(sheets) = sheets_of(number_in(&name, SHEET, ".xml")) {
                if sheets.contains(&0) && !self.styles.are_in(&text) {
                    return Err(io::Error::other("the library numbers styles in another order"));
                }
                for at in sheets {
                    let own = own.get_mut(*at).and_then(Option::take);
                    let (Some(sheet), Some(own)) = (self.sheets.get(*at), own) else { continue };
                    let stretches = texts.sheet(round(&text, sheet)?, own)?;
                    parts.push((format!("{SHEET}{}.xml", at.saturating_add(1)), stretches));
                }
                continue;
            }
            let sheet = sheets_of(number_in(&name, SHEET_RELATIONSHIPS, ".xml.rels")).and_then(|sheets| sheets.first());
            let name = sheet.map_or(name, |at| format!("{SHEET_RELATIONSHIPS}{}.xml.rels", at.saturating_add(1)));
            let contents = if name == "xl/sharedStrings.xml" {
                table(&self.texts, self.uses)
            } else if number_in(&name, "xl/charts/chart", ".xml").is_some() {
                chart_cache::filled(&text, &self.stored)?
            } else {
                list.told(&name, text)?.into_bytes()
            };
            parts.push((name, vec![texts.last(contents)]));
        }
        let mut packed = Vec::new();
        let jobs = texts.in_jobs(workers::processors().saturating_mul(GOES));
        self.crew.in_order(jobs, &PartTextsJob::packed, |some| {
            packed.append(&mut some?);
            workers::expect_memory(memory::LITTLE)
        })?;
        let mut archive = Archive::default();
        for (name, stretches) in &parts {
            let packed = stretches.iter().filter_map(|stretch| match stretch {
                Stretch::Own(packed) => Some(packed),
                Stretch::Text(at) => packed.get(*at),
            });
            archive.put(name, &packed.collect::<Vec<_>>())?;
        }
        archive.finished()
    }
}

/// What the names of sheets begin with, and of what they stand in relation to, before the sheet's number.
const SHEET: &str = "xl/worksheets/sheet";
const SHEET_RELATIONSHIPS: &str = "xl/worksheets/_rels/sheet";

/// The number in the name of a part, `xl/worksheets/sheet12.xml`.
fn number_in(name: &str, before: &str, after: &str) -> Option<usize> {
    name.strip_prefix(before)?.strip_suffix(after)?.parse().ok()
}

/// The most links of a sheet that programs open.
const LINKS: usize = 65_530;

/// The first of `links`, no more than `most`, and how many they are; the cells of the others keep their text.
fn at_most(links: &[u8], most: usize) -> (&[u8], usize) {
    // Within a link every such mark is escaped.
    let mut begins = links.iter().enumerate().filter(|(_, byte)| **byte == b'<');
    let taken = begins.by_ref().take(most).count();
    (begins.next().and_then(|(at, _)| links.get(..at)).unwrap_or(links), taken)
}

/// The table of texts.
fn table(texts: &IndexSet<String>, uses: u64) -> Vec<u8> {
    let mut table = Vec::new();
    table.extend_from_slice(b"<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n<sst xmlns=\"");
    table.extend_from_slice(b"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"");
    table.extend_from_slice(format!(" count=\"{uses}\" uniqueCount=\"{}\">", texts.len()).as_bytes());
    for text in texts {
        let tag: &[u8] = if is_to_be_kept(text) { b"<si><t xml:space=\"preserve\">" } else { b"<si><t>" };
        table.extend_from_slice(tag);
        push_text(&mut table, text);
        table.extend_from_slice(b"</t></si>");
    }
    table.extend_from_slice(b"</sst>");
    table
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn links_are_no_more_than_programs_open() {
        let links = b"<hyperlink ref=\"A1\"/><hyperlink ref=\"A2\"/><hyperlink ref=\"A3\"/>";
        assert_eq!(at_most(links, 3), (links.as_slice(), 3));
        assert_eq!(at_most(links, 2), (b"<hyperlink ref=\"A1\"/><hyperlink ref=\"A2\"/>".as_slice(), 2));
        assert_eq!(at_most(links, 0), (b"".as_slice(), 0));
    }
}
