//! Limits on what is read: more than a kitchen's book can be, and little enough for any machine.
//!
//! What a file claims of itself decides nothing; these are counted while it is read.

/// How much a file may hold. The caller may allow more.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct Limits {
    /// The bytes of a file of text, and those that the parts of a workbook unpack into.
    pub bytes: u64,
    /// The parts of a workbook that is a zip.
    pub parts: usize,
    /// The sheets of a workbook.
    pub sheets: usize,
    /// The filled cells of a file, over all its sheets.
    pub cells: usize,
    /// The bytes of text in them. Texts that many cells share count once for each: that is what they take.
    pub text: usize,
}

impl Limits {
    /// 300 MB in 2,000 parts, 1,000 sheets, 5 million filled cells and 150 MB of text.
    pub const USUAL: Limits =
        Limits { bytes: 300_000_000, parts: 2_000, sheets: 1_000, cells: 5_000_000, text: 150_000_000 };

    /// The bytes as a person says them: `300 MB`.
    pub(crate) fn bytes_in_words(&self) -> String {
        format!("{} MB", counted(self.bytes / 1_000_000))
    }

    /// As [`Limits::bytes_in_words`], of text.
    pub(crate) fn text_in_words(&self) -> String {
        format!("{} MB of text", counted(u64::try_from(self.text).unwrap_or(u64::MAX) / 1_000_000))
    }

    /// `5 million filled cells`.
    pub(crate) fn cells_in_words(&self) -> String {
        format!("{} filled cells", several(self.cells))
    }

    /// `2,000 parts`.
    pub(crate) fn parts_in_words(&self) -> String {
        format!("{} parts", several(self.parts))
    }

    /// `1,000 sheets`.
    pub(crate) fn sheets_in_words(&self) -> String {
        format!("{} sheets", several(self.sheets))
    }
}

impl Default for Limits {
    fn default() -> Self {
        Limits::USUAL
    }
}

/// `5 million`, `2,000`.
fn several(count: usize) -> String {
    let count = u64::try_from(count).unwrap_or(u64::MAX);
    if count >= 1_000_000 && count.is_multiple_of(1_000_000) {
        format!("{} million", counted(count / 1_000_000))
    } else {
        counted(count)
    }
}

/// A number with a comma before every three digits.
fn counted(number: u64) -> String {
    let digits = number.to_string();
    let mut shown = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && digits.len().saturating_sub(at).is_multiple_of(3) {
            shown.push(',');
        }
        shown.push(digit);
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn limits_are_said_as_people_say_them() {
        let limits = Limits::USUAL;
        assert_eq!(limits.bytes_in_words(), "300 MB");
        assert_eq!(limits.text_in_words(), "150 MB of text");
        assert_eq!(limits.cells_in_words(), "5 million filled cells");
        assert_eq!(limits.parts_in_words(), "2,000 parts");
        assert_eq!(Limits { bytes: 1_500_000_000, sheets: 7, ..limits }.bytes_in_words(), "1,500 MB");
    }
}
