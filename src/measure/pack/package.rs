//! Package words of a pack: a case is all of it, a bag of `6/5 lb` one of its six.
//!
//! Takes a [`Pack`] and a word; gives so many of the word, and what they are together, so that nothing is divided.

use super::Pack;
use crate::measure::catalogue::WordKind;
use crate::measure::quantity::Measured;
use crate::measure::unit::Unit;
use crate::number::Decimal;

/// Words for all that one price buys.
const WHOLE: &[&str] = &["case", "box", "flat", "carton"];

/// Words for a package of pieces that are no packages themselves: a bag of limes, a tray of eggs. A can or brick of `24 ct`
/// may be one of them.
const OF_PIECES: &[&str] =
    &["bag", "sack", "bottle", "jar", "tub", "crate", "pack", "tray", "lug", "basket", "bucket", "pail"];

/// Words for a piece that is packed by itself: a block of `10/3 lb` is one of the ten.
const BY_ITSELF: &[&str] = &["block"];

impl Pack {
    /// Whether it is of cans, bottles or the like whose labels say what is in them.
    pub fn is_labelled(&self) -> bool {
        let named = self.pieces.as_ref().is_some_and(|pieces| is_package(&pieces.unit));
        named && self.content.is_some() && !self.nominal
    }

    /// So many of `word`, and what these are: 6 bags of `6/5 lb` are 30 lb. `None` where the pack counts in that very word,
    /// where it is no word for a package, and where the pack does not tell.
    pub fn packages(&self, word: &Unit) -> Option<(Decimal, Measured)> {
        let Unit::Own(name) = word else { return None };
        let counts_it = self.pieces.as_ref().is_some_and(|pieces| pieces.unit == *word);
        let is_packed = is_package(word) || BY_ITSELF.contains(&&**name);
        if self.nominal || counts_it || !is_packed || word.is_numbered_can() {
            return None;
        }
        let whole = || Some((Decimal::ONE, self.content.as_ref().or(self.pieces.as_ref())?.clone()));
        if WHOLE.contains(&&**name) {
            return whole();
        }
        match (&self.pieces, self.containers) {
            (Some(pieces), _) if is_package(&pieces.unit) => {
                Some((Decimal::ONE, Measured::new(Decimal::ONE, pieces.unit.clone())))
            }
            (_, Some(count)) => whole().map(|(_, all)| (count, all)),
            (Some(_), None) if OF_PIECES.contains(&&**name) => whole(),
            (Some(_), None) => None,
            (None, None) => whole(),
        }
    }
}

/// Whether it is a can, a bottle, a bag or the like.
fn is_package(unit: &Unit) -> bool {
    matches!(unit.word_kind(), Some(WordKind::Outer | WordKind::Vessel))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::parse_pack;
    use crate::number::Marks;

    fn said(pack: &str, word: &str) -> Option<String> {
        let pack = parse_pack(pack, Marks::PointDecimal).unwrap();
        pack.packages(&Unit::read(word)).map(|(count, all)| format!("{count} = {all}"))
    }

    #[test]
    fn a_case_is_the_whole_pack_and_a_bag_one_of_its_innermost() {
        for (pack, word, means) in [
            ("6/5 lb", "case", Some("1 = 30 lb")),
            ("6/5 lb", "bag", Some("6 = 30 lb")),
            ("12/750 ml", "bottle", Some("12 = 9000 ml")),
            ("4/6/8 oz", "packet", Some("24 = 192 oz")),
            ("50 lb", "sack", Some("1 = 50 lb")),
            ("10/3 lb", "block", Some("10 = 30 lb")),
            ("40 lb", "block", Some("1 = 40 lb")),
            ("24 ct", "block", None),
            ("50 lb bag", "sack", Some("1 = 1 bag")),
            ("50 lb bag", "flat", Some("1 = 50 lb")),
            ("6 bottles 750 ml", "jar", Some("1 = 1 bottle")),
            ("6/#10", "can", Some("1 = 1 #10 can")),
            ("6/#10 (6 lb 10 oz)", "case", Some("1 = 39.75 lb")),
            ("500/cs", "carton", Some("1 = 500 each")),
            ("140 ct 35 lb", "box", Some("1 = 35 lb")),
            ("140 ct 35 lb", "bag", Some("1 = 35 lb")),
            ("6 x 8 ct", "pack", Some("6 = 48 each")),
            ("24 ct", "tub", Some("1 = 24 each")),
            // One of the 24, or all of them? Counted in the very unit? Not a package? Billed by weight?
            ("24 ct", "can", None),
            ("12 box", "box", None),
            ("6/#10", "#300 can", None),
            ("6/5 lb", "bunch", None),
            ("6/5 lb", "each", None),
            ("2/10 lb avg", "case", None),
        ] {
            assert_eq!(said(pack, word).as_deref(), means, "{word} of {pack}");
        }
    }
}
