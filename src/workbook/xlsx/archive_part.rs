//! Parts of the archive: a sheet's own XML as it grows, what the library wrote round it, and both as stretches that are packed.

use std::io;

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
    pub(super) fn unpacked(&self) -> usize {
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

impl OwnXml {
    /// Its rows packed, where they are short and so not packed as they came.
    pub(super) fn rows_packed(&self, packing: &mut Packing) -> io::Result<Option<Packed>> {
        let GrowingXml::Plain(rows) = &self.rows else { return Ok(None) };
        packing.push(rows)?;
        Ok(Some(packing.paused()?))
    }
}

/// A part of the archive before it is packed.
pub(super) struct ArchivePart {
    pub(super) name: String,
    pub(super) contents: PartContents,
}

pub(super) enum PartContents {
    Whole(Vec<u8>),
    /// A sheet: what stands round what is ours of it, and where its cells lead. Its rows are packed already.
    Sheet(Box<(Round, Vec<u8>)>),
    /// A sheet that is packed already.
    Packed,
}

impl PartContents {
    /// Its stretches that are not packed yet; what is packed already follows the first of them.
    pub(super) fn packed(&self, packing: &mut Packing) -> io::Result<Vec<Packed>> {
        Ok(match self {
            PartContents::Whole(bytes) => vec![packing.whole(bytes)?],
            PartContents::Sheet(sheet) => {
                let (round, links) = sheet.as_ref();
                packing.push(round.head.as_bytes())?;
                let head = packing.paused()?;
                packing.push(round.between.as_bytes())?;
                packing.push(links)?;
                vec![head, packing.whole(round.tail.as_bytes())?]
            }
            PartContents::Packed => Vec::new(),
        })
    }
}

/// What a sheet becomes a part of the archive as, and its stretches that are packed already.
pub(super) fn sheet_part(round: Round, own: OwnXml, rows: Option<Packed>) -> io::Result<(PartContents, Vec<Packed>)> {
    match (own.links, rows) {
        (GrowingXml::Plain(links), Some(rows)) => Ok((PartContents::Sheet(Box::new((round, links))), vec![rows])),
        (links, rows) => Ok((PartContents::Packed, long_sheet(&round, own.rows, rows, links)?)),
    }
}

/// The stretches of a sheet of which some was packed as it came; `packed_rows` are its rows where these were not.
fn long_sheet(
    round: &Round,
    rows: GrowingXml,
    packed_rows: Option<Packed>,
    links: GrowingXml,
) -> io::Result<Vec<Packed>> {
    let (mut stretches, mut packing) = (Vec::new(), Packing::new());
    packing.push(round.head.as_bytes())?;
    stretches.push(packing.paused()?);
    match (rows, packed_rows) {
        (_, Some(packed)) => stretches.push(packed),
        (GrowingXml::Plain(bytes), None) => packing.push(&bytes)?,
        (GrowingXml::Packing(mut packed), None) => stretches.push(packed.paused()?),
    }
    packing.push(round.between.as_bytes())?;
    match links {
        GrowingXml::Plain(bytes) => packing.push(&bytes)?,
        GrowingXml::Packing(mut packed) => {
            stretches.push(packing.paused()?);
            stretches.push(packed.paused()?);
        }
    }
    stretches.push(packing.whole(round.tail.as_bytes())?);
    Ok(stretches)
}

/// What stands round what is ours of a sheet.
pub(super) struct Round {
    /// Before its rows.
    head: String,
    /// Between them and where its cells lead; nothing where none do.
    between: String,
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
    let told = sheet.dimension().map_or_else(|| "A1".to_owned(), told);
    let head = format!("{before}<dimension ref=\"{told}\"{after}<sheetData>");
    let rows_end = ["</sheetData>", &merged(&sheet.merged)].concat();
    if !sheet.leads {
        return Ok(Round { head, between: String::new(), tail: [&rows_end, tail].concat() });
    }
    let (before, rest) = tail.split_once("<hyperlinks>").ok_or_else(strange)?;
    let (_, after) = rest.split_once("</hyperlinks>").ok_or_else(strange)?;
    let between = [&rows_end, before, "<hyperlinks>"].concat();
    Ok(Round { head, between, tail: ["</hyperlinks>", after].concat() })
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
