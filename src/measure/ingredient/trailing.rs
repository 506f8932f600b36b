//! Amount behind a name, or within it: `butter 8 oz`, `onions, diced - 2 lb`, `eggs x 6`, `bacon 1# slab, lardons`.

use super::amount::at_start;
use super::found::FoundAmount;
use super::vocabulary::CUTS;
use super::{AmountText, Conventions};
use crate::number::text::vulgar;

/// An amount that was found behind the beginning of a text.
#[derive(Debug)]
pub(super) struct Trailing {
    /// The amount.
    pub found: FoundAmount,
    /// The text before it.
    pub before: String,
    /// The text behind it.
    pub after: String,
}

/// The last amount outside brackets.
pub(super) fn find(text: &str, how: Conventions) -> Option<Trailing> {
    let mut depth = 0_u32;
    let mut before = 'x';
    let mut starts = Vec::new();
    for (at, c) in text.char_indices() {
        match c {
            '(' => depth = depth.saturating_add(1),
            ')' => depth = depth.saturating_sub(1),
            _ => {}
        }
        let begins = c.is_ascii_digit() || vulgar(c).is_some();
        if begins && depth == 0 && at > 0 && matches!(before, ' ' | ',' | '-' | ':') {
            starts.push(at);
        }
        before = c;
    }
    // `1 1/2 lb` begins at its 1.
    let mut best: Option<Trailing> = None;
    let mut end_of_best = 0;
    for at in starts {
        let (before, here) = text.split_at_checked(at)?;
        let Some((found, after)) = at_start(here, how) else { continue };
        if !is_amount(&found, before, after) || at < end_of_best {
            continue;
        }
        end_of_best = text.len().saturating_sub(after.len());
        let after = after.trim_start().strip_prefix("whole").unwrap_or(after);
        best = Some(Trailing { found, before: before.to_owned(), after: after.to_owned() });
    }
    best
}

/// Whether what was found is how much there is of it, not how it is cut or graded.
fn is_amount(found: &FoundAmount, before: &str, after: &str) -> bool {
    let next = after.trim_start().split([' ', ',']).next().unwrap_or("");
    let parted = before.trim_end().ends_with(['-', ',', ':', 'x', '×']);
    match &found.amount {
        AmountText::Measured(_) | AmountText::Packages { .. } => !CUTS.contains(&next),
        AmountText::Bare(_) => parted && (after.trim().is_empty() || next == "whole"),
        AmountText::Asked => parted && !after.starts_with('/'),
        AmountText::Unsaid | AmountText::Unmeasured(_) => false,
    }
}

/// The name around an amount, without the marks that led to it.
pub(super) fn joined(before: &str, after: &str) -> String {
    let before = before.trim_end_matches([' ', '-', ',', ':']);
    let before = before.strip_suffix(" x").or_else(|| before.strip_suffix(" ×")).unwrap_or(before);
    let after = after.trim();
    if after.is_empty() || after.starts_with(',') { format!("{before}{after}") } else { format!("{before} {after}") }
}
