//! Help where no measure leads to the price: what was looked at, what a can's label would do, which built-in food
//! would help.

use crate::costing::conversion::convert::NoConversion;
use crate::costing::conversion::equivalence::Links;
use crate::costing::line::Coster;
use crate::costing::price::bought::{ItemCost, PriceFrom};
use crate::food::{Food, FoodMeasure};
use crate::kitchen::price::Item;
use crate::kitchen::{Field, Reference};
use crate::measure::{Measured, Unit, parse_pack};
use crate::number::{Marks, plain};
use crate::problem::{Code, suggest};

/// What a line asks for, and what the kitchen knows of it.
pub(super) struct AskedMeasure<'a> {
    /// The line.
    pub(super) coster: &'a Coster<'a>,
    /// The item it asks for.
    pub(super) item: &'a Item,
    /// What the item costs.
    pub(super) cost: &'a ItemCost,
    /// How much of it.
    pub(super) quantity: &'a Measured,
    /// The kitchen's own measures and pack.
    pub(super) own: &'a Links,
}

impl AskedMeasure<'_> {
    /// The kitchen's measures with those of a built-in food behind them.
    pub(super) fn with(&self, food: Reference) -> Links {
        let mut links = self.own.clone();
        links.reference(food);
        links
    }

    /// Whether these lead on, or would once the line says which preparation is meant.
    fn leads_on(&self, links: &Links) -> bool {
        match self.coster.convert(self.quantity, &self.cost.kind, links) {
            Ok(_) => true,
            Err(NoConversion::Fault(fault)) => fault.code != Code::MeasureMissing,
            Err(_) => false,
        }
    }

    /// The help for a missing measure: `rows`, which says what Measures row would do, and whatever else would.
    pub(super) fn help(&self, rows: &str, named: Option<Reference>, looked_at: &[Reference]) -> String {
        let mut help = vec![rows.to_owned()];
        if let Some(pack) = self.labelled() {
            help.push(format!("Or add what the label of a can says to the pack, such as {pack}."));
        }
        for food in looked_at {
            let whose = if Some(*food) == named { "Its Reference food" } else { "The built-in food of its name" };
            help.push(format!("{whose}, {}, was looked at and does not help: {}.", food.spoken(), has(*food)));
        }
        let near = || Reference::near(&self.item.name, |food| self.leads_on(&self.with(food)));
        match (&self.cost.reference, near()) {
            (Field::Broken, Some(near)) => help.push(format!(
                "The food named in its Reference food is not known; a built-in one that may lend its measures is {near}."
            )),
            (Field::Broken, None) => help.push("The food named in its Reference food is not known.".to_owned()),
            (_, Some(near)) => help.push(format!(
                "A built-in food may lend its measures: name it in the column Reference food of Prices, such as {near}."
            )),
            (_, None) => {}
        }
        help.join(" ")
    }

    /// The pack with a label weight, where it is counted in cans and their weight would lead on.
    fn labelled(&self) -> Option<String> {
        let PriceFrom::Row(row) = self.cost.from else { return None };
        let pack = self.coster.kitchen.entries.prices.get(row)?.pack.given()?;
        let cans = pack.pieces.as_ref().filter(|_| pack.content.is_none())?;
        let text = labelled(cans)?;
        let mut links = self.own.clone();
        links.pack(&parse_pack(&text, Marks::PointDecimal).ok()?, row, self.coster.kitchen.settings.volumes);
        self.leads_on(&links).then_some(text)
    }
}

/// So many cans with a weight such as their label may say.
fn labelled(cans: &Measured) -> Option<String> {
    let (count, Unit::Own(name)) = (plain(cans.amount), &cans.unit) else { return None };
    let size = name.strip_suffix(" can").filter(|_| cans.unit.is_numbered_can());
    let text = match size {
        Some("#10") => format!("{count}/#10 (6 lb 6 oz)"),
        Some(size) => format!("{count}/{size} (15 oz)"),
        None if cans.unit.is_plain_can() => format!("{count} cans 15 oz"),
        None => return None,
    };
    Some(text)
}

/// The measures that a food has: `it has “cup, sliced” and “bulb”`.
fn has(food: Reference) -> String {
    let mut names: Vec<String> = Vec::new();
    let readings = food.food().into_iter().flat_map(Food::measures).map(FoodMeasure::read);
    for reading in readings.filter(|reading| !reading.is_package()) {
        let name = std::iter::once(reading.unit.name()).chain(Some(reading.preps.join(" or ")));
        let name = name.filter(|part| !part.is_empty()).collect::<Vec<_>>().join(", ");
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    if names.is_empty() {
        "it has no measures".to_owned()
    } else {
        format!("it has {}", suggest::quoted_list(&names, "and"))
    }
}
