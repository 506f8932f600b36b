//! Package words of a pack: a case is all of it, a bag of `6/5 lb` one of its six.
//!
//! Takes a [`Pack`] and a word; gives so many of the word, and what they are together, so that nothing is divided.

use super::Pack;
use super::mul;
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

    /// What one of a package word holds: 5 lb of a bag of `6/5 lb`, 750 ml of a bottle of `6 bottles 750 ml`, 15 dozen of
    /// a flat of `15 dz`. `None` where it is no package, or the pack does not say.
    pub fn one_holds(&self, word: &Unit) -> Option<Measured> {
        let is_packed = is_package(word) || matches!(word, Unit::Own(name) if BY_ITSELF.contains(&&**name));
        if self.nominal || !is_packed {
            return None;
        }
        let (count, all) = match self.pieces_in(word) {
            Some(count) => (count, self.content.clone()?),
            None => self.packages(word)?,
        };
        // A sack of `50 lb bag` is that bag, and a case of `6/#10 (6 lb 9 oz)` six times what a can holds.
        let inner = self.pieces_in(&all.unit).filter(|_| is_package(&all.unit)).zip(self.content.as_ref());
        if inner.is_none() && is_package(&all.unit) && all.amount == count {
            // One can is one can.
            return None;
        }
        let (of, unit) = match inner {
            Some((pieces, content)) => (mul(all.amount, content.amount).ok()?.checked_div(pieces)?, &content.unit),
            None => (all.amount, &all.unit),
        };
        Some(Measured::new(of.checked_div(count)?.normalize(), unit.clone()))
    }

    /// All of it, where `word` is taken for that though the pack holds several and does not say the word: a flat of `15 dz`, a
    /// carton of `12/32 oz`. A case is what packs come in.
    pub fn assumed_whole(&self, word: &Unit) -> Option<&Measured> {
        let is_several = self.containers.is_some_and(|count| count > Decimal::ONE)
            || (self.is_loose_count() && self.is_of_several());
        let is_case = matches!(word, Unit::Own(name) if &**name == "case");
        let (count, meant) = self.packages(word).filter(|_| is_several && !is_case)?;
        let all = self.content.as_ref().or(self.pieces.as_ref())?;
        let says = self.text.split(|c: char| !c.is_alphanumeric()).any(|said| Unit::read(said) == *word);
        (count == Decimal::ONE && meant == *all && !says).then_some(all)
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
    fn what_one_of_a_package_holds() {
        for (pack, word, holds) in [
            ("12/750 ml", "bottle", Some("750 ml")),
            ("12/750 ml", "case", Some("9000 ml")),
            ("5 lb", "block", Some("5 lb")),
            ("50 lb bag", "bag", Some("50 lb")),
            ("50 lb bag", "sack", Some("50 lb")),
            ("6 bottles 750 ml", "bottle", Some("750 ml")),
            ("6/#10 (6 lb 10 oz)", "#10 can", Some("6.625 lb")),
            ("6/#10 (6 lb 10 oz)", "can", Some("6.625 lb")),
            ("6/#10", "case", Some("6 #10 can")),
            ("15 dz", "flat", Some("15 dozen")),
            ("6 x 8 ct", "pack", Some("8 each")),
            ("6/#10", "#10 can", None),
            ("6/#10", "can", None),
            ("12 bunch", "bunch", None),
            ("6/5 lb", "bunch", None),
            ("2/10 lb avg", "case", None),
        ] {
            let pack = parse_pack(pack, Marks::PointDecimal).unwrap();
            let one = pack.one_holds(&Unit::read(word)).map(|one| one.to_string());
            assert_eq!(one.as_deref(), holds, "{word} of {}", pack.text);
        }
    }

    #[test]
    fn a_word_that_the_pack_does_not_say_is_assumed_to_be_all_of_it() {
        for (pack, word, is_assumed) in [
            ("15 dz", "flat", true),
            ("15 dz", "carton", true),
            ("15 dz", "tray", true),
            ("12/32 oz", "carton", true),
            ("12/32 oz", "bottle", false),
            ("15 dz", "case", false),
            ("40 lb", "box", false),
            ("140 ct 35 lb", "box", false),
            ("500/carton", "carton", false),
        ] {
            let pack = parse_pack(pack, Marks::PointDecimal).unwrap();
            assert_eq!(pack.assumed_whole(&Unit::read(word)).is_some(), is_assumed, "{word} of {}", pack.text);
        }
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
