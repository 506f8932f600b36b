//! Missing conversions: what is said where no measure leads from the quantity asked for to the price: which is missing,
//! or which to choose.

use super::convert::{AskedBy, Wanted};
use crate::costing::conversion::base_unit::BaseUnitKind;
use crate::costing::conversion::equivalence::{Link, MeasureFrom};
use crate::food::FoodMeasure;
use crate::measure::{Dimension, QuantityText, Unit, Volumes, parse_quantity};
use crate::number::{Decimal, Marks, exact, plain};
use crate::problem::{Code, Fault, Want, suggest};

/// Several preparations have a measure of the kitchen's own, and none of them was asked for: these and perhaps more, as
/// `many` as there are.
pub(crate) fn which(wanted: Wanted<'_>, preps: &[&Link], many: usize) -> Fault {
    let named = preps.iter().filter_map(|link| Some(format!("“{}”", link.prep.as_ref()?.1)));
    let list = suggest::first_few(named, many);
    Fault::new(
        Code::MeasureAmbiguous,
        format!(
            "“{}” has measures for {}, and {} none of them",
            wanted.name,
            list.join(" and "),
            match wanted.by {
                AskedBy::Recipe => "this line asks for",
                AskedBy::Stock => "what is counted is",
            }
        ),
        match wanted.by {
            AskedBy::Recipe => "Fill Prep with one of them, or add a Measures row without a preparation.",
            AskedBy::Stock => "Count it by weight, or add a Measures row without a preparation.",
        },
    )
    .wanting(Want::Measures { item: wanted.name.to_owned(), measures: vec![wanted.quantity.unit.name()] })
}

/// A built-in food has measures for several preparations that weigh differently, and none of them was asked for.
pub(crate) fn which_borrowed(wanted: Wanted<'_>, preps: &[&Link]) -> Fault {
    let measures = preps.iter().filter_map(|link| match link.from {
        MeasureFrom::Reference(measure) => Some(measure),
        _ => None,
    });
    let food = measures.clone().find_map(FoodMeasure::food);
    let (name, number) = food.map_or(("", ""), |food| (food.description(), food.number()));
    let mut weights: Vec<String> =
        measures.clone().map(|measure| format!("{} = {} g", measure.text(), plain(measure.grams()))).collect();
    // One measure may hold for two preparations.
    weights.dedup();
    let words: Vec<&str> = preps.iter().filter_map(|link| Some(link.prep.as_ref()?.1.as_str())).collect();
    let unit = wanted.quantity.unit.name();
    Fault::new(
        Code::MeasureAmbiguous,
        format!(
            "the built-in food that “{}” borrows from, {name} (SR28 {number}), has {}, and this line asks for none of them",
            wanted.name,
            weights.join("; ")
        ),
        format!(
            "Type in Prep which it is: {}. Or weigh one of yours and add a Measures row: Item {}, Measure {unit}, Weighs \
             what it weighs.",
            suggest::quoted_list(&words, "or"),
            wanted.name
        ),
    )
    .wanting(Want::Measures { item: wanted.name.to_owned(), measures: vec![unit] })
}

/// Nothing joins the kind asked for to that of the price.
pub(crate) fn missing(
    wanted: Wanted<'_>,
    kind: &BaseUnitKind,
    target: &BaseUnitKind,
    joined: Joined,
    volumes: Volumes,
) -> Fault {
    let unit = wanted.quantity.unit.name();
    if let Some(fault) = no_unit(wanted, &unit).or_else(|| priced_by_no_unit(wanted, target)) {
        return fault;
    }
    let asked = if *kind == BaseUnitKind::Each { "pieces" } else { unit.as_str() };
    let sold = match target {
        BaseUnitKind::Mass => "priced by weight",
        BaseUnitKind::Volume => "priced by volume",
        BaseUnitKind::Each => "priced by the piece",
        BaseUnitKind::Own(name) => &format!("priced by the {name}"),
    };
    if target.is_counted() && *kind != BaseUnitKind::Mass {
        return between_counts(wanted, (kind, asked), (target, sold), joined, volumes);
    }
    let system = System::beside(&wanted.quantity.unit, volumes);
    let weighs =
        |what: &str, metric, customary| format!("Weighs what {what} weighs, such as {}", system.of(metric, customary));
    let (measure, equals) = match (kind, target) {
        (BaseUnitKind::Mass, BaseUnitKind::Volume) => ("cup".to_owned(), weighs("it", "220 g", "8 oz")),
        (BaseUnitKind::Mass, BaseUnitKind::Own(name)) => (name.to_string(), weighs("one", "110 g", "4 oz")),
        (BaseUnitKind::Mass, _) => ("each".to_owned(), weighs("one", "110 g", "4 oz")),
        (_, BaseUnitKind::Volume) => {
            (unit.clone(), format!("Holds what it holds, such as {}", system.of("250 ml", "8 fl oz")))
        }
        (BaseUnitKind::Volume, _) => weighed(&wanted.quantity.unit, system),
        (_, _) => (unit.clone(), weighs("it", "110 g", "4 oz")),
    };
    Fault::new(
        Code::MeasureMissing,
        nothing_joins(wanted, asked, sold),
        format!(
            "Add a Measures row: Item {}, Measure {measure}, {equals}; or {}.",
            wanted.name,
            instead(wanted, target)
        ),
    )
    .wanting(Want::Measures { item: wanted.name.to_owned(), measures: vec![measure] })
}

/// Which of the two ends of a conversion the kitchen's measures lead to a weight or volume.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Joined {
    /// What is asked for.
    pub(crate) asked: bool,
    /// What the price is for.
    pub(crate) sold: bool,
}

/// A cup, bulb or piece that meets a price by the head or piece: each needs a weight, and those that have none are named,
/// both at once.
fn between_counts(
    wanted: Wanted<'_>,
    (kind, asked): (&BaseUnitKind, &str),
    (target, sold): (&BaseUnitKind, &str),
    joined: Joined,
    volumes: Volumes,
) -> Fault {
    let system = System::beside(&wanted.quantity.unit, volumes);
    let one = |what: &str| format!("Weighs what {what} weighs, such as {}", system.of("110 g", "4 oz"));
    let ours = match kind {
        BaseUnitKind::Volume => weighed(&wanted.quantity.unit, system),
        BaseUnitKind::Each => ("each".to_owned(), one("one")),
        _ => (wanted.quantity.unit.name(), one("it")),
    };
    let theirs = match target {
        BaseUnitKind::Own(name) => (name.to_string(), one("one")),
        _ => ("each".to_owned(), one("one")),
    };
    let lacks = [(joined.asked, ours), (joined.sold, theirs)];
    let lacks: Vec<(String, String)> = lacks.into_iter().filter_map(|(has, row)| (!has).then_some(row)).collect();
    let rows: Vec<String> =
        lacks.iter().map(|(measure, weighs)| format!("Item {}, Measure {measure}, {weighs}", wanted.name)).collect();
    let (add, rows) = match rows.as_slice() {
        [one] => ("Add a Measures row", one.clone()),
        _ => ("Add two Measures rows", rows.join("; and ")),
    };
    let measures = lacks.into_iter().map(|(measure, _)| measure).collect();
    Fault::new(
        Code::MeasureMissing,
        nothing_joins(wanted, asked, sold),
        format!("{add}: {rows}; or {}.", instead(wanted, target)),
    )
    .wanting(Want::Measures { item: wanted.name.to_owned(), measures })
}

fn nothing_joins(wanted: Wanted<'_>, asked: &str, sold: &str) -> String {
    let is = match wanted.by {
        AskedBy::Recipe => "asked for",
        AskedBy::Stock => "counted",
    };
    format!("“{}” is {is} in {asked} but {sold}, and nothing joins the two", wanted.name)
}

/// How to ask for what is priced by `target`, or to count it.
fn instead(wanted: Wanted<'_>, target: &BaseUnitKind) -> String {
    let by = match target {
        BaseUnitKind::Own(name) => format!("the {name}"),
        other => other.word().to_owned(),
    };
    match wanted.by {
        AskedBy::Recipe => format!("ask for it by {by}"),
        AskedBy::Stock => format!("count it by {by}"),
    }
}

/// A word that is no measure: one letter from a unit, two things at once, or an amount.
fn no_unit(wanted: Wanted<'_>, unit: &str) -> Option<Fault> {
    let amount = wanted.quantity.amount;
    let (message, help) = if unit == "bu" {
        (
            format!("“bu” beside “{}” may be a bunch or a bushel", wanted.name),
            "Write bunch or bushel, or ask for it by weight.".to_owned(),
        )
    } else if let Some(slip) = wanted.quantity.unit.slip_of() {
        (
            format!("“{unit}” is not a unit, and no Measures row of “{}” says what one is", wanted.name),
            format!(
                "Did you mean {slip}? If it is a measure of your own, add a Measures row: Item {}, Measure {unit}.",
                wanted.name
            ),
        )
    } else if let Ok(QuantityText::Measured(one)) = parse_quantity(unit, Marks::Unknown) {
        let all = exact::mul(one.amount, amount).ok()?;
        (
            format!("Unit holds an amount, “{unit}”, beside the quantity {}", plain(amount)),
            format!(
                "Type one amount: Qty {} and Unit {}, if {} times {unit} are meant.",
                plain(all),
                one.unit,
                plain(amount)
            ),
        )
    } else {
        return None;
    };
    Some(Fault::new(Code::UnitUnknown, message, help))
}

/// A price or batch by what is no unit but a slip of the pen away from one.
fn priced_by_no_unit(wanted: Wanted<'_>, target: &BaseUnitKind) -> Option<Fault> {
    let BaseUnitKind::Own(name) = target else { return None };
    let slip = Unit::own(name).slip_of()?;
    Some(Fault::new(
        Code::UnitUnknown,
        format!("“{}” is priced by the {name}, which is not a unit", wanted.name),
        format!(
            "Did you mean {slip}? Correct it where its pack, or what it makes, is typed. If it is a measure of your own, add \
             a Measures row: Item {}, Measure {name}.",
            wanted.name
        ),
    ))
}

/// The measure to weigh where a volume is asked for, with such a weight as it may have. A millilitre is too little for the
/// scale.
fn weighed(unit: &Unit, system: System) -> (String, String) {
    let held = |most: i64| unit.to_base(Volumes::Us).is_some_and(|(_, size)| size < Decimal::from(most));
    let (measure, grams, ounces) = match unit {
        _ if held(2) => ("l".to_owned(), "500 g", "1 lb"),
        _ if held(8) => (unit.name(), "3 g", "0.1 oz"),
        _ if held(25) => (unit.name(), "9 g", "0.3 oz"),
        _ if held(60) => (unit.name(), "20 g", "0.7 oz"),
        _ if held(400) => (unit.name(), "110 g", "4 oz"),
        _ => (unit.name(), "500 g", "1 lb"),
    };
    (measure, format!("Weighs what it weighs, such as {}", system.of(grams, ounces)))
}

/// What a cook weighs and measures in, by the unit of a quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum System {
    Metric,
    Customary,
    /// Pieces tell nothing.
    Either,
}

impl System {
    fn beside(unit: &Unit, volumes: Volumes) -> Self {
        match unit {
            _ if unit.dimension() == Dimension::Count => System::Either,
            _ if unit.varies() && volumes == Volumes::Metric => System::Metric,
            _ if unit.is_metric() => System::Metric,
            _ => System::Customary,
        }
    }

    /// The example that the cook's own scale or jug shows.
    fn of(self, metric: &str, customary: &str) -> String {
        match self {
            System::Metric => metric.to_owned(),
            System::Customary => customary.to_owned(),
            System::Either => format!("{customary} or {metric}"),
        }
    }
}
