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
    /// The bytes of memory that the filled cells of a file take, over all its sheets, with their rows and texts. Texts that
    /// many cells share count once for each: that is what they take.
    pub cells: usize,
}

impl Limits {
    /// 300 MB in 2,000 parts, 1,000 sheets, and 350 MB of cells: five million numbers, or three million short texts.
    pub const USUAL: Limits = Limits { bytes: 300_000_000, parts: 2_000, sheets: 1_000, cells: 350_000_000 };

    /// The bytes of a file of text: a third of what a workbook unpacks into, for all of it is in memory.
    pub(crate) const fn bytes_of_text(&self) -> u64 {
        self.bytes / 3
    }

    /// `300 MB`.
    pub(crate) fn bytes_in_words(&self) -> String {
        megabytes(self.bytes)
    }

    /// `100 MB of text`.
    pub(crate) fn text_in_words(&self) -> String {
        format!("{} of text", megabytes(self.bytes_of_text()))
    }

    /// `350 MB of cells`.
    pub(crate) fn cells_in_words(&self) -> String {
        format!("{} of cells", megabytes(u64::try_from(self.cells).unwrap_or(u64::MAX)))
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

fn megabytes(bytes: u64) -> String {
    format!("{} MB", counted(bytes / 1_000_000))
}

fn several(count: usize) -> String {
    counted(u64::try_from(count).unwrap_or(u64::MAX))
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
        assert_eq!(limits.text_in_words(), "100 MB of text");
        assert_eq!(limits.cells_in_words(), "350 MB of cells");
        assert_eq!(limits.parts_in_words(), "2,000 parts");
        assert_eq!(Limits { bytes: 1_500_000_000, sheets: 7, ..limits }.bytes_in_words(), "1,500 MB");
    }
}
