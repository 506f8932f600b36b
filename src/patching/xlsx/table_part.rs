//! Table object over a table: it grows with the rows, its filter too, and learns new headers.

use super::package::Package;
use super::ranges::{CellRange, Growth};
use super::tags::{Tag, TagKind, spliced, tags};
use super::{Addition, NotPatched};
use crate::workbook::xlsx::xml::push_attribute;

/// Lets the table objects of a sheet grow that lie over the table.
///
/// # Errors
/// [`NotPatched`] where one has a row of totals below it, or cannot be read.
pub(super) fn grow(
    package: &mut Package<'_>,
    sheet: &str,
    addition: &Addition,
    growth: &Growth,
) -> Result<(), NotPatched> {
    let tables: Vec<String> =
        package.relations(sheet)?.into_iter().filter(|one| one.kind == "table").map(|one| one.part).collect();
    for part in tables {
        let xml = package.text(&part)?;
        if let Some(grown) = grown(&xml, addition, growth)? {
            package.replace(&part, grown);
        }
    }
    Ok(())
}

fn grown(xml: &str, addition: &Addition, growth: &Growth) -> Result<Option<String>, NotPatched> {
    let all = tags(xml)?;
    let Some(table) = all.iter().find(|tag| tag.name == "table" && tag.kind != TagKind::Closes) else {
        return Ok(None);
    };
    let Some(block) = table.attribute("ref").and_then(|(text, _)| CellRange::read(text)) else { return Ok(None) };
    let beside = block.first.1 > growth.wide || block.last.1 < growth.span.0;
    if beside || block.last.0 < growth.header || block.first.0 > growth.now {
        return Ok(None);
    }
    let with_totals = table.value("totalsRowCount").is_some_and(|count| count != "0");
    if with_totals || block.last.0 > growth.now {
        return Err(NotPatched("the table there has a row of totals, or goes on below its last row".to_owned()));
    }
    let wide = block.last.1 == growth.span.1;
    if !growth.has_rows_of(block) {
        return Err(NotPatched("the table there does not begin and end with its prices".to_owned()));
    }
    let now = CellRange {
        first: block.first,
        last: (growth.now.max(block.last.0), if wide { growth.wide } else { block.last.1 }),
    };
    let mut cuts = Vec::new();
    for tag in all.iter().filter(|tag| matches!(tag.name, "table" | "autoFilter") && tag.kind != TagKind::Closes) {
        // A filter over the same cells; nothing else in the part has one.
        if let Some((_, range)) = tag.attribute("ref").filter(|(text, _)| CellRange::read(text) == Some(block)) {
            cuts.push((range, now.written()));
        }
    }
    if wide && !addition.headers.is_empty() {
        cuts.extend(columns(&all, addition)?);
    }
    Ok(Some(spliced(xml, cuts)))
}

/// The new headers as columns of the object.
fn columns(all: &[Tag<'_>], addition: &Addition) -> Result<Vec<super::tags::Splice>, NotPatched> {
    let unknown = || NotPatched("the table there does not list its columns".to_owned());
    let find =
        |kind: TagKind| all.iter().find(|tag| tag.name == "tableColumns" && tag.kind == kind).ok_or_else(unknown);
    let (opens, closes) = (find(TagKind::Opens)?, find(TagKind::Closes)?);
    let ids = all.iter().filter(|tag| tag.name == "tableColumn").filter_map(|tag| tag.value("id")?.parse::<u32>().ok());
    let mut id = ids.max().ok_or_else(unknown)?;
    let mut text = Vec::new();
    let known = all.iter().filter(|tag| tag.name == "tableColumn" && tag.kind != TagKind::Closes).count();
    for header in &addition.headers {
        id = id.checked_add(1).ok_or_else(unknown)?;
        text.extend_from_slice(format!("<{}tableColumn id=\"{id}\" name=\"", opens.prefix()).as_bytes());
        push_attribute(&mut text, header);
        text.extend_from_slice(b"\"/>");
    }
    let text = String::from_utf8(text).map_err(NotPatched::damaged)?;
    let mut cuts = vec![(closes.range.start..closes.range.start, text)];
    if let Some((_, range)) = opens.attribute("count") {
        cuts.push((range, known.saturating_add(addition.headers.len()).to_string()));
    }
    Ok(cuts)
}
