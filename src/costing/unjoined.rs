//! What is said where no measure leads from the quantity asked for to the price: which is missing, or which to choose.

use super::convert::Wanted;
use super::kind::Kind;
use crate::problem::{Code, Fault};

/// Several preparations have a measure, and none of them was asked for.
pub(super) fn which(wanted: Wanted<'_>, preps: &[&str]) -> Fault {
    let list: Vec<String> = preps.iter().map(|prep| format!("“{prep}”")).collect();
    Fault::new(
        Code::MeasureAmbiguous,
        format!("“{}” has measures for {}, and this line asks for none of them", wanted.name, list.join(" and ")),
        "Fill Prep with one of them, or add a Measures row without a preparation.",
    )
}

/// Nothing joins the kind asked for to that of the price.
pub(super) fn missing(wanted: Wanted<'_>, kind: &Kind, target: &Kind) -> Fault {
    let unit = wanted.quantity.unit.name();
    let asked = if *kind == Kind::Each { "pieces" } else { unit.as_str() };
    let sold = match target {
        Kind::Mass => "priced by weight",
        Kind::Volume => "priced by volume",
        Kind::Each => "priced by the piece",
        Kind::Own(name) => return by_name(wanted, &unit, name),
    };
    let (measure, equals) = match (kind, target) {
        (Kind::Mass, Kind::Volume) => ("cup".to_owned(), "Weighs what it weighs, such as 220 g"),
        (Kind::Mass, _) => ("each".to_owned(), "Weighs what one weighs, such as 110 g"),
        (_, Kind::Volume) => (unit.to_string(), "Holds what it holds, such as 250 ml"),
        (_, _) => (unit.to_string(), "Weighs what it weighs, such as 110 g"),
    };
    Fault::new(
        Code::MeasureMissing,
        format!("“{}” is asked for in {asked} but {sold}, and nothing joins the two", wanted.name),
        format!(
            "Add a Measures row: Item {}, Measure {measure}, {equals}; or ask for it by {}.",
            wanted.name,
            target.word()
        ),
    )
}

fn by_name(wanted: Wanted<'_>, unit: &str, name: &str) -> Fault {
    Fault::new(
        Code::MeasureMissing,
        format!("“{}” is asked for in {unit} but priced by the {name}, and nothing joins the two", wanted.name),
        format!("Add a Measures row: Item {}, Measure {name}, Weighs or Holds what one {name} does.", wanted.name),
    )
}
