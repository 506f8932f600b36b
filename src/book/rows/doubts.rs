//! Doubts about what a pack holds: ice in its weight, ounces that may be fluid ones, layers.

use super::billed::is_within;
use super::reader::Reader;
use crate::kitchen::Field;
use crate::measure::Pack;
use crate::number::{Decimal, exact};
use crate::problem::{Code, Fault};
use crate::schema::Column;

impl Reader<'_> {
    /// Warns of a weight that may be partly ice.
    pub(super) fn glaze(&mut self, pack: &Field<Pack>) {
        let said = |column| self.input.text(column).to_lowercase();
        let glazed = [Column::Item, Column::Pack, Column::Note]
            .into_iter()
            .any(|column| said(column).contains("glaze") && said(column).contains('%'));
        let weighs = pack.given().and_then(|pack| pack.content.as_ref()).is_some_and(|all| all.unit.grams().is_some());
        if glazed && weighs {
            let fault = Fault::new(
                Code::GlazeInWeight,
                "the item is glazed, and the weight may hold the ice: 20 % glaze on 1 kg leaves 800 g",
                "Ask for the net weight without glaze and make that the pack; or give the item a Yield, such as 80%.",
            );
            self.report(Column::Item, fault);
        }
    }

    /// Warns of bare ounces in the pack of a liquid, which may be fluid ones; unless what was shipped weighed as many.
    pub(super) fn ounces(&mut self, pack: &Field<Pack>) {
        let Field::Given(given) = pack else { return };
        let Some(content) = given.content.as_ref().filter(|content| content.unit.is_bare_ounce()) else { return };
        // `oz wt` is by weight.
        if [Column::Pack, Column::UnitSize, Column::SizeUnit]
            .into_iter()
            .any(|column| self.input.text(column).to_lowercase().contains("wt"))
        {
            return;
        }
        let billed = self.billed();
        let shipped = billed.weight.zip(billed.qty).and_then(|(weight, qty)| exact::div(weight, qty).ok());
        let weighed = shipped.zip(self.weighed_in().and_then(|unit| unit.grams()));
        let weighed = weighed.and_then(|(weight, size)| exact::mul(weight, size).ok());
        let says = content.unit.grams().and_then(|size| exact::mul(content.amount, size).ok());
        let near = |of: Decimal, a: Decimal, b: Decimal| exact::mul(a, of).is_ok_and(|most| is_within(a, b, most));
        let doubtful = match (weighed, says) {
            // Heavier by what a liquid is heavier than its fluid ounces, or otherwise not what it says.
            (Some(weighed), Some(says)) => !near(Decimal::new(2, 2), says, weighed) && !self.one_weighs(given, weighed),
            _ => is_liquid(&self.input.text(Column::Item)),
        };
        if doubtful {
            let fault = Fault::new(
                Code::OuncesDoubtful,
                format!("the pack {} was read by weight; of a liquid the ounces may be fluid ones", given.text.trim()),
                "Write fl oz if they are fluid ounces, or oz wt if they are by weight.",
            );
            self.report(Column::Pack, fault);
        }
    }

    /// Whether one unit of the pack weighs so many grams, as in a split case.
    fn one_weighs(&self, pack: &Pack, grams: Decimal) -> bool {
        let one = pack.one_of_several().and_then(|one| exact::mul(one.amount, one.unit.grams()?).ok());
        one.is_some_and(|one| exact::mul(one, Decimal::new(2, 2)).is_ok_and(|most| is_within(one, grams, most)))
    }

    /// The fault of a remark that leaves open how many a pack holds: `4x6 count` and `2 layer`.
    pub(super) fn layered(&mut self, pack: &mut Field<Pack>) {
        let note = self.input.text(Column::Note).to_lowercase();
        let counts = pack.given().is_some_and(|pack| pack.content.is_none() && pack.containers.is_some());
        if counts && note.contains("layer") {
            let read_as = pack.given().map(|pack| pack.read_as.clone()).unwrap_or_default();
            let fault = Fault::new(
                Code::PackNotUnderstood,
                format!("the pack is {read_as}, and the remark “{}”: one layer, or all of them?", note.trim()),
                "Write how many there are in all, such as 48 ct.",
            );
            *pack = self.fail(Column::Pack, fault);
        }
    }
}

/// Whether an item is one that is sold by volume as often as by weight, by the words of its name. Common practice, no
/// source.
fn is_liquid(item: &str) -> bool {
    let lower = item.to_lowercase();
    let words: Vec<&str> = lower.split(|c: char| !c.is_alphanumeric()).collect();
    let says = |list: &[&str]| list.iter().any(|word| words.contains(word));
    let packed_in = [" in oil", " in water", " in juice", " w/ "].iter().any(|words| lower.contains(words));
    let poured = ["oil", "vinegar", "juice", "milk", "cream", "bleach", "degreaser", "detergent", "sanitizer", "wine"];
    let solid = [
        "cheese",
        "sour",
        "ice",
        "powder",
        "dry",
        "condensed",
        "spray",
        "aerosol",
        "butter",
        "dried",
        "fish",
        "peanut",
        "yogurt",
        "yoghurt",
    ];
    says(&poured) && !says(&solid) && !packed_in
}
