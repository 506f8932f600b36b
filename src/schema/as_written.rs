//! Seal of a row of ours: what stood in its cells when it was written, so that what was typed over it is told.
//!
//! Two letters a cell, behind one that begins it. Letters and figures alone count of a text, and ten digits of a number, so
//! that no program changes them by saving.

use crate::number::{Decimal, plain, rounding};

/// The header of the column of seals.
pub const HEADER: &str = "As written";

/// What begins a seal.
const BEGINS: char = 'w';
const NOTHING: &str = "..";
const FORMULA: &str = "fx";
const OTHER: &str = "oo";
/// Letters that no word could be made of, and figures.
const LETTERS: &[u8; 30] = b"0123456789bcdghjkmnpqrstvwxzBC";

/// What stands in a cell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stands<'a> {
    /// Nothing.
    Nothing,
    /// A formula.
    Formula,
    /// Text.
    Text(&'a str),
    /// A number.
    Number(Decimal),
    /// Something that is not watched.
    Other,
}

/// What a seal says of a cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Was {
    /// Nothing stood in it.
    Nothing,
    /// A formula.
    Formula,
    /// A constant, and that is what stands there.
    Same,
    /// Another constant.
    Changed,
    /// It is not watched.
    NotWatched,
}

/// The seal of cells; `None` where there is nothing to watch in them.
pub fn sealed<'a>(cells: impl Iterator<Item = Stands<'a>>) -> Option<String> {
    let (mut seal, mut is_any) = (String::from(BEGINS), false);
    for cell in cells {
        is_any |= !matches!(cell, Stands::Nothing | Stands::Other);
        match cell {
            Stands::Nothing => seal.push_str(NOTHING),
            Stands::Formula => seal.push_str(FORMULA),
            Stands::Other => seal.push_str(OTHER),
            Stands::Text(_) | Stands::Number(_) => seal.extend(letters(cell)),
        }
    }
    is_any.then_some(seal)
}

/// A seal that was read.
#[derive(Debug, Clone, Copy)]
pub struct Seal<'t>(&'t str);

impl<'t> Seal<'t> {
    /// The seal that a text is.
    pub fn read(text: &'t str) -> Option<Self> {
        let seal = text.strip_prefix(BEGINS).filter(|seal| !seal.is_empty() && seal.len().is_multiple_of(2))?;
        let is_known = |pair: &[u8]| {
            [NOTHING, FORMULA, OTHER].iter().any(|known| known.as_bytes() == pair)
                || pair.iter().all(|letter| LETTERS.contains(letter))
        };
        seal.as_bytes().chunks(2).all(is_known).then_some(Seal(seal))
    }

    /// Of how many cells it is.
    pub fn cells(self) -> usize {
        self.0.len() / 2
    }

    /// What it says of the cell at `index`, in which this stands.
    pub fn was(self, index: usize, stands: Stands<'_>) -> Was {
        let start = index.saturating_mul(2);
        match self.0.get(start..start.saturating_add(2)) {
            None | Some(OTHER) => Was::NotWatched,
            Some(NOTHING) => Was::Nothing,
            Some(FORMULA) => Was::Formula,
            Some(was) if was.chars().eq(letters(stands)) => Was::Same,
            Some(_) => Was::Changed,
        }
    }
}

/// Two letters for what stands in a cell: a sum of it (FNV-1a, 32 bits), so that one in 900 others has the same.
fn letters(stands: Stands<'_>) -> [char; 2] {
    const BASIS: u32 = 0x811c_9dc5;
    const PRIME: u32 = 0x0100_0193;
    const DIGITS: u32 = 10;
    let counts = |c: &char| c.is_alphanumeric();
    let text: String = match stands {
        Stands::Text(text) => text.chars().filter(counts).collect(),
        Stands::Number(number) => format!("n{}", plain(rounding::to_digits(number, DIGITS))),
        Stands::Nothing | Stands::Formula | Stands::Other => String::new(),
    };
    let sum = text.bytes().fold(BASIS, |sum, byte| (sum ^ u32::from(byte)).wrapping_mul(PRIME));
    let mixed = sum ^ (sum >> 15);
    let letter = |sum: u32| {
        let at = usize::try_from(sum % 30).unwrap_or_default();
        char::from(LETTERS.get(at).copied().unwrap_or(b'0'))
    };
    [letter(mixed), letter(mixed / 30)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_seal_says_what_stood_in_each_cell() {
        let (text, number) = (Stands::Text("50 lb"), Stands::Number(Decimal::new(45_359_237, 5)));
        let seal = sealed([text, Stands::Nothing, Stands::Formula, number, Stands::Other].into_iter()).unwrap();
        let seal = Seal::read(&seal).unwrap();
        assert_eq!(seal.cells(), 5);
        let was = |index, stands| seal.was(index, stands);
        assert_eq!(
            [was(0, text), was(0, Stands::Text("25 lb")), was(0, number)],
            [Was::Same, Was::Changed, Was::Changed]
        );
        // What a program may change by saving.
        assert_eq!(was(0, Stands::Text(" 50  lb")), Was::Same);
        assert_eq!([was(1, text), was(2, number), was(4, text)], [Was::Nothing, Was::Formula, Was::NotWatched]);
        assert_eq!(
            [was(3, number), was(3, Stands::Number(Decimal::TEN)), was(9, text)],
            [Was::Same, Was::Changed, Was::NotWatched]
        );
        assert_eq!(sealed([Stands::Nothing, Stands::Other].into_iter()), None);
        for word in ["w", "water", "wheat", "whole", "50 lb"] {
            assert!(Seal::read(word).is_none(), "{word}");
        }
    }
}
