//! Letters as wide as they print: the advance widths of Carlito, which has those of the workbook's own font.

/// The parts of an em that widths are counted in.
pub(super) const EM: u64 = 2048;

/// The advance widths of the signs from the space on, in parts of an em (Carlito Regular, table `hmtx`).
const WIDTHS: [u16; 95] = [
    463, 667, 821, 1020, 1038, 1464, 1397, 452, 621, 621, 1020, 1020, 511, 627, 517, 791, 1038, 1038, 1038, 1038, 1038,
    1038, 1038, 1038, 1038, 1038, 548, 548, 1020, 1020, 1020, 949, 1831, 1185, 1114, 1092, 1260, 1000, 941, 1292, 1276,
    516, 653, 1064, 861, 1751, 1322, 1356, 1058, 1378, 1112, 941, 998, 1314, 1162, 1822, 1063, 998, 959, 628, 791, 628,
    1020, 1020, 596, 981, 1076, 866, 1076, 1019, 625, 964, 1076, 470, 490, 931, 470, 1636, 1076, 1080, 1076, 1076, 714,
    801, 686, 1076, 925, 1464, 887, 927, 809, 644, 943, 644, 1020,
];
/// What other signs are taken for: a wide letter of Latin, and a sign of a script whose signs are as wide as high.
const OTHER: u64 = 1_150;
const FIRST_FULL: char = '\u{2E80}';

/// The width of a space.
pub(super) const SPACE: u64 = 463;

/// How wide a text is, in parts of an em.
pub(super) fn width(text: &str) -> u64 {
    let of = |letter: char| {
        let at = usize::try_from(u32::from(letter)).ok().and_then(|code| code.checked_sub(usize::from(b' ')));
        match at.and_then(|at| WIDTHS.get(at)) {
            Some(width) => u64::from(*width),
            None if letter < FIRST_FULL => OTHER,
            None => EM,
        }
    };
    text.chars().map(of).fold(0, u64::saturating_add)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_as_wide_as_its_letters() {
        // i is 470 wide, m 1636, a space 463; 日 is as wide as high.
        assert_eq!((width("im m"), width(""), width("é日")), (470 + 1636 + 463 + 1636, 0, 1_150 + 2048));
    }
}
