//! Parts of the archive: a sheet's own XML as it grows, what the library wrote round it, and both as stretches that are packed.

use std::io;

use indexmap::IndexSet;

use super::archive::{Packed, Packing};
use super::extent::Extent;
use super::sheet::Sheet;
use crate::problem::place::column_letters;

/// XML that grows.
#[derive(Debug)]
pub(super) enum GrowingXml {
    Plain(Vec<u8>),
    Packing(Box<Packing>),
}

impl GrowingXml {
    /// How long it is, in bytes, where it is not packed yet.
    fn unpacked(&self) -> usize {
        if let GrowingXml::Plain(plain) = self { plain.len() } else { 0 }
    }

    /// Takes some more; packed, where that makes it more than `most`.
    pub(super) fn push(&mut self, bytes: &[u8], most: usize) -> io::Result<()> {
        match self {
            GrowingXml::Plain(plain) if plain.len().saturating_add(bytes.len()) <= most => {
                plain.extend_from_slice(bytes)
            }
            GrowingXml::Plain(plain) => {
                let mut packing = Packing::new();
                packing.push(plain)?;
                packing.push(bytes)?;
                *self = GrowingXml::Packing(Box::new(packing));
            }
            GrowingXml::Packing(packing) => packing.push(bytes)?,
        }
        Ok(())
    }
}

/// What is ours of a sheet, as XML.
#[derive(Debug)]
pub(super) struct OwnXml {
    pub(super) rows: GrowingXml,
    /// The cells that lead to others.
    pub(super) links: GrowingXml,
    /// How many these are.
    pub(super) many: usize,
}

/// What is ours of a sheet, packed.
#[derive(Debug)]
pub(super) struct OwnPacked {
    rows: Packed,
    links: Packed,
}

impl OwnXml {
    /// Nothing yet.
    pub(super) fn new() -> Self {
        OwnXml { rows: GrowingXml::Plain(Vec::new()), links: GrowingXml::Plain(Vec::new()), many: 0 }
    }

    /// How much of it is not packed yet, in bytes.
    pub(super) fn length(&self) -> usize {
        self.rows.unpacked().saturating_add(self.links.unpacked())
    }

    /// Packs what is not packed as it came.
    pub(super) fn packed(self, packing: &mut Packing) -> io::Result<OwnPacked> {
        let mut packed = |xml: GrowingXml| match xml {
            GrowingXml::Plain(plain) => {
                packing.push(&plain)?;
                packing.paused()
            }
            GrowingXml::Packing(mut packing) => packing.paused(),
        };
        Ok(OwnPacked { rows: packed(self.rows)?, links: packed(self.links)? })
    }
}

/// A stretch of a part.
pub(super) enum Stretch {
    /// One that no other part has.
    Own(Packed),
    /// The text so numbered, which other parts may have as well.
    Text(usize),
}

/// The texts that parts are made of, each of which is packed once, and whether the part ends with it.
#[derive(Debug, Default)]
pub(super) struct PartTexts(IndexSet<(Vec<u8>, bool)>);

impl PartTexts {
    /// A text in the middle of a part.
    fn part_way(&mut self, text: impl Into<Vec<u8>>) -> Stretch {
        Stretch::Text(self.0.insert_full((text.into(), false)).0)
    }

    /// A text with which a part ends.
    pub(super) fn last(&mut self, text: impl Into<Vec<u8>>) -> Stretch {
        Stretch::Text(self.0.insert_full((text.into(), true)).0)
    }

    /// The stretches of a sheet.
    pub(super) fn sheet(&mut self, round: Round, own: OwnPacked) -> io::Result<Vec<Stretch>> {
        let mut stretches = vec![
            self.part_way(round.before),
            Stretch::Own(Packed::as_it_is(round.extent.as_bytes())?),
            self.part_way(round.head),
            Stretch::Own(own.rows),
        ];
        if let Some(between) = round.between {
            stretches.extend([self.part_way(between), Stretch::Own(own.links)]);
        }
        stretches.push(self.last(round.tail));
        Ok(stretches)
    }

    /// The texts in their order, as so many jobs at the most, that each take some time.
    pub(super) fn in_jobs(self, most: usize) -> Vec<PartTextsJob> {
        /// So many at the least: what it takes to begin is more than what packing a short one takes.
        const AT_ONE_GO: usize = 4;
        let at_one_go = self.0.len().div_ceil(most.max(1)).max(AT_ONE_GO);
        let mut jobs: Vec<PartTextsJob> = Vec::new();
        for text in self.0 {
            match jobs.last_mut().filter(|job| job.0.len() < at_one_go) {
                Some(job) => job.0.push(text),
                None => jobs.push(PartTextsJob(vec![text])),
            }
        }
        jobs
    }
}

/// Texts that are packed at one go.
#[derive(Debug)]
pub(super) struct PartTextsJob(Vec<(Vec<u8>, bool)>);

impl PartTextsJob {
    /// Packs them.
    pub(super) fn packed(self) -> io::Result<Vec<Packed>> {
        let mut packing = Packing::new();
        let mut packed = |(text, is_last): (Vec<u8>, bool)| {
            packing.push(&text)?;
            if is_last { packing.finished() } else { packing.paused() }
        };
        self.0.into_iter().map(&mut packed).collect()
    }
}

/// What stands round what is ours of a sheet.
pub(super) struct Round {
    /// Before the cells that it fills are told.
    before: String,
    /// These: `A1:H20`.
    extent: String,
    /// From there to its rows.
    head: String,
    /// Between its rows and where its cells lead, where any do.
    between: Option<String>,
    tail: String,
}

/// What stands round the rows of a sheet that the library wrote, and round where its cells lead, with the cells that it fills.
pub(super) fn round(framed: &str, sheet: &Sheet) -> io::Result<Round> {
    let strange = || io::Error::other("the library writes a sheet that is not as expected");
    let (head, rest) = framed.split_once("<sheetData").ok_or_else(strange)?;
    // Nothing in it, or specimens.
    let tail = rest.strip_prefix("/>").or_else(|| Some(rest.split_once("</sheetData>")?.1)).ok_or_else(strange)?;
    let (before, rest) = head.split_once("<dimension ref=\"").ok_or_else(strange)?;
    let (_, after) = rest.split_once('"').ok_or_else(strange)?;
    let before = [before, "<dimension ref=\""].concat();
    let extent = sheet.dimension().map_or_else(|| "A1".to_owned(), told);
    let head = ["\"", after, "<sheetData>"].concat();
    let rows_end = ["</sheetData>", &merged(&sheet.merged)].concat();
    if !sheet.leads {
        return Ok(Round { before, extent, head, between: None, tail: [&rows_end, tail].concat() });
    }
    let (first, rest) = tail.split_once("<hyperlinks>").ok_or_else(strange)?;
    let (_, last) = rest.split_once("</hyperlinks>").ok_or_else(strange)?;
    let between = Some([&rows_end, first, "<hyperlinks>"].concat());
    Ok(Round { before, extent, head, between, tail: ["</hyperlinks>", last].concat() })
}

/// The cells that share a text (ECMA-376 part 1, 18.3.1.55).
fn merged(cells: &[(u32, u16, u16)]) -> String {
    if cells.is_empty() {
        return String::new();
    }
    let one = |(row, first, last): &(u32, u16, u16)| {
        let extent = Extent { first: (*row, *first), last: (*row, *last) };
        format!("<mergeCell ref=\"{}\"/>", told(extent))
    };
    let all: String = cells.iter().map(one).collect();
    format!("<mergeCells count=\"{}\">{all}</mergeCells>", cells.len())
}

/// `A1:H20`.
fn told(extent: Extent) -> String {
    let cell = |(row, column): (u32, u16)| {
        format!("{}{}", column_letters(u32::from(column)), u64::from(row).saturating_add(1))
    };
    let (first, last) = (cell(extent.first), cell(extent.last));
    if first == last { first } else { format!("{first}:{last}") }
}
