//! Own workbooks: whether a file is one that parings wrote and that nobody has saved since: read off its document
//! properties.
//!
//! A spreadsheet program that saves a workbook sets the time of change, its own name, or its own version.

use std::fs::File;
use std::io::Read;
use std::path::Path;

use zip::ZipArchive;

use crate::workbook::stamp::PROPERTY;

/// The application that `docProps/app.xml` names, as rust_xlsxwriter writes it.
const APPLICATION: &str = "Microsoft Excel";

/// The application's version beside it, as rust_xlsxwriter writes it.
const APP_VERSION: &str = "12.0000";

/// The most bytes of a part of document properties.
const MOST_BYTES: u64 = 65_536;

/// Whether `file` is ours and unchanged. A file that cannot be read so is not.
pub fn is_untouched(file: &Path) -> bool {
    File::open(file).is_ok_and(|file| bears_our_stamp(file).unwrap_or(false))
}

/// Whether the properties are as we write them; `None` when one is not there.
fn bears_our_stamp(file: File) -> Option<bool> {
    let mut zip = ZipArchive::new(file).ok()?;
    let custom = part(&mut zip, "docProps/custom.xml")?;
    let core = part(&mut zip, "docProps/core.xml")?;
    let app = part(&mut zip, "docProps/app.xml")?;
    let ours = version(&custom).is_some_and(|version| !version.is_empty());
    let created = element(&core, "dcterms:created")?;
    let unchanged = !created.is_empty() && created == element(&core, "dcterms:modified")?;
    let by_us = element(&app, "Application")? == APPLICATION && element(&app, "AppVersion")? == APP_VERSION;
    Some(ours && unchanged && by_us)
}

fn part(zip: &mut ZipArchive<File>, name: &str) -> Option<String> {
    let mut text = String::new();
    zip.by_name(name).ok()?.take(MOST_BYTES).read_to_string(&mut text).ok()?;
    Some(text)
}

/// What our custom property holds.
fn version(custom: &str) -> Option<&str> {
    let (_, property) = custom.split_once(&format!("name=\"{PROPERTY}\""))?;
    let (property, _) = property.split_once("</property>")?;
    element(property, "vt:lpwstr")
}

/// The text of the first element of this name.
fn element<'a>(xml: &'a str, name: &str) -> Option<&'a str> {
    let (_, from) = xml.split_once(&format!("<{name}"))?;
    let (attributes, rest) = from.split_once('>')?;
    if !(attributes.is_empty() || attributes.starts_with(' ')) || attributes.ends_with('/') {
        return None;
    }
    rest.split_once(&format!("</{name}>")).map(|(text, _)| text.trim())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn elements_and_our_property_are_found() {
        // As ECMA-376 part 2, 11 (core properties) and part 1, 22.3 (custom properties) spell them.
        let core =
            "<cp:coreProperties><dcterms:created xsi:type=\"dcterms:W3CDTF\">2026-11-20T09:00:00Z</dcterms:created>";
        assert_eq!(element(core, "dcterms:created"), Some("2026-11-20T09:00:00Z"));
        assert_eq!(element(core, "dcterms:modified"), None);
        assert_eq!(element("<A/><Application>x</Application>", "App"), None);
        let custom = "<Properties><property fmtid=\"{D}\" pid=\"2\" name=\"other\"><vt:lpwstr>x</vt:lpwstr></property>\
                      <property fmtid=\"{D}\" pid=\"3\" name=\"parings\"><vt:lpwstr>0.1.0</vt:lpwstr></property>";
        assert_eq!(version(custom), Some("0.1.0"));
        assert_eq!(version("<property name=\"parings\"><vt:i4>1</vt:i4></property>"), None);
    }
}
