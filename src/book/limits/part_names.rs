//! Names of a zip's parts: no two may be one, for two programs would read two different books.
//!
//! Takes the zip's directory as it stands in the file; what reads it keeps but one part of each name.

use std::collections::HashSet;

/// A record of the directory: its mark, and the bytes before the name, its length among them.
const MARK: &[u8] = b"PK\x01\x02";
const BEFORE_NAME: usize = 46;

/// The letters of a name that are told.
const TOLD: usize = 100;

/// The first name that two parts bear in the directory that begins at `start`. Case makes no difference (ECMA-376 part
/// 2, 6.2.2.2), nor do the strokes between folders.
pub(super) fn borne_twice(bytes: &[u8], start: u64) -> Option<String> {
    let mut rest = bytes.get(usize::try_from(start).ok()?..)?;
    let mut known: HashSet<String> = HashSet::new();
    while rest.starts_with(MARK) {
        let length = |at: usize| {
            let bytes = rest.get(at..at.checked_add(2)?)?;
            bytes.try_into().ok().map(|bytes| usize::from(u16::from_le_bytes(bytes)))
        };
        let (name, extra, comment) = (length(28)?, length(30)?, length(32)?);
        let end = BEFORE_NAME.checked_add(name)?;
        let name = String::from_utf8_lossy(rest.get(BEFORE_NAME..end)?).replace('\\', "/");
        if !known.insert(name.to_lowercase()) {
            return Some(name.chars().take(TOLD).collect());
        }
        rest = rest.get(end.checked_add(extra)?.checked_add(comment)?..)?;
    }
    None
}
