//! Problem counts by severity.

use crate::problem::Severity;

/// How many problems there are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    /// Errors.
    pub errors: usize,
    /// Warnings.
    pub warnings: usize,
    /// Notes.
    pub notes: usize,
}

impl Counts {
    /// Counts severities.
    pub fn of(severities: impl Iterator<Item = Severity>) -> Self {
        let mut counts = Counts::default();
        for severity in severities {
            let count = match severity {
                Severity::Error => &mut counts.errors,
                Severity::Warning => &mut counts.warnings,
                Severity::Note => &mut counts.notes,
            };
            *count = count.saturating_add(1);
        }
        counts
    }

    /// Problems of every severity.
    pub fn all(&self) -> usize {
        self.errors.saturating_add(self.warnings).saturating_add(self.notes)
    }

    /// `1 error, 2 warnings, no notes`.
    pub fn words(&self) -> String {
        let say = |count: usize, one: &str| match count {
            0 => format!("no {one}s"),
            1 => format!("1 {one}"),
            many => format!("{many} {one}s"),
        };
        format!("{}, {}, {}", say(self.errors, "error"), say(self.warnings, "warning"), say(self.notes, "note"))
    }
}
