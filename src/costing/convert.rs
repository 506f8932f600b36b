//! From a quantity as a cook measures it to the base unit of its price: grams, millilitres, pieces or a named count.
//!
//! Ways are tried in order: the food's own measures, then what its pack or batch says, then what a can of its size is
//! published to hold. Steps may chain, the fewest first; the yield is crossed once.

use crate::costing::rate::Amount;
use crate::food::{Food, FoodMeasure};
use crate::kitchen::bridge::{Basis, Bridge};
use crate::kitchen::{NameKey, Reference};
use crate::measure::{Base, CanFigure, Dimension, Measured, Pack, Unit, Volumes, published};
use crate::number::{Decimal, Overflow, exact};
use crate::problem::{Code, Fault, Place, Problem};

/// A kind of base unit.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Kind {
    /// Grams.
    Mass,
    /// Millilitres.
    Volume,
    /// Pieces.
    Each,
    /// A named count: bunches, heads, cans.
    Own(Box<str>),
}

impl Kind {
    /// The kind of a unit, and base units in one of it.
    pub fn of(unit: &Unit, volumes: Volumes) -> (Kind, Decimal) {
        match unit {
            Unit::Standard(standard) => {
                let kind = match standard.dimension() {
                    Dimension::Mass => Kind::Mass,
                    Dimension::Volume => Kind::Volume,
                    Dimension::Count => Kind::Each,
                };
                (kind, standard.to_base(volumes))
            }
            Unit::Own(name) => (Kind::Own(name.clone()), Decimal::ONE),
        }
    }

    /// `g`, `ml` or `each`.
    pub fn symbol(&self) -> &'static str {
        match self {
            Kind::Mass => "g",
            Kind::Volume => "ml",
            Kind::Each | Kind::Own(_) => "each",
        }
    }

    /// How a cook would call it: `weight`, `volume`, `pieces`, `bunch`.
    pub fn word(&self) -> &str {
        match self {
            Kind::Mass => "weight",
            Kind::Volume => "volume",
            Kind::Each => "piece",
            Kind::Own(name) => name,
        }
    }

    fn is_counted(&self) -> bool {
        matches!(self, Kind::Each | Kind::Own(_))
    }
}

/// Where a measure comes from, the most certain first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum MeasureFrom {
    /// A row of the measures table, as an index into the entries.
    Row(usize),
    /// What a recipe makes in two measures.
    Makes,
    /// The pack of a price row, as an index into the entries.
    Pack(usize),
    /// What a can of this size is published to hold.
    Can(CanFigure),
    /// A measure of a built-in food.
    Reference(FoodMeasure),
}

/// What joins two kinds for one food.
#[derive(Debug, Clone)]
struct Link {
    one: (Kind, Decimal),
    other: Option<(Kind, Decimal)>,
    prep: Option<(NameKey, String)>,
    unit: Option<Unit>,
    basis: Basis,
    from: MeasureFrom,
}

/// Everything that joins kinds for one food.
#[derive(Debug, Clone, Default)]
pub struct Links {
    links: Vec<Link>,
    broken: bool,
    bought: bool,
}

impl Links {
    /// Adds the food's own measures.
    pub fn measures(&mut self, bridge: &Bridge, volumes: Volumes) -> &mut Self {
        self.broken |= bridge.broken;
        self.links.extend(bridge.measures.iter().map(|measure| Link {
            one: Kind::of(&measure.unit, volumes),
            other: measure.equals.as_ref().and_then(|equals| in_base(equals, volumes)),
            prep: measure.prep.clone().map(|prep| (prep, measure.prep_text.clone())),
            unit: Some(measure.unit.clone()),
            basis: measure.basis,
            from: MeasureFrom::Row(measure.row),
        }));
        self
    }

    /// Adds what a pack says when it names both a count and a weight or volume.
    pub fn pack(&mut self, pack: &Pack, row: usize, volumes: Volumes) -> &mut Self {
        if let (Some(pieces), Some(content)) = (&pack.pieces, &pack.content)
            && let (Some(one), Some(other)) = (in_base(pieces, volumes), in_base(content, volumes))
        {
            self.push_plain(one, other, MeasureFrom::Pack(row));
        }
        self
    }

    /// Lets cans of a numbered size serve by their published figures where nothing else leads on: for what is bought.
    pub fn cans(&mut self) -> &mut Self {
        self.bought = true;
        self
    }

    /// What the cans among these links and in `wanted` are published to hold, where that may serve.
    fn published(&self, kinds: [&Kind; 2]) -> Vec<Link> {
        let others = self.links.iter().flat_map(|link| [Some(&link.one.0), link.other.as_ref().map(|other| &other.0)]);
        let mut cans: Vec<&str> = Vec::new();
        for kind in others.flatten().chain(kinds).filter(|_| self.bought) {
            if let Kind::Own(name) = kind
                && !cans.contains(&&**name)
            {
                cans.push(name);
            }
        }
        cans.iter().flat_map(|can| published(&Unit::Own((*can).into()))).filter_map(of_can).collect()
    }

    /// Adds what a recipe makes when it is known in two measures.
    pub fn makes(&mut self, makes: &[Measured], volumes: Volumes) -> &mut Self {
        if let [first, second, ..] = makes
            && let (Some(one), Some(other)) = (in_base(first, volumes), in_base(second, volumes))
        {
            self.push_plain(one, other, MeasureFrom::Makes);
        }
        self
    }

    /// Adds the measures of a built-in food: those that count when none is named, then all with their preparations.
    pub fn reference(&mut self, reference: Reference) -> &mut Self {
        if let Reference::Kitchen(food) = reference {
            for measure in food.measures() {
                self.borrow(measure, &measure.unit(), None);
                if food.is_whole(measure) {
                    self.borrow(measure, &Unit::each(), None);
                }
            }
        }
        for measure in reference.food().into_iter().flat_map(Food::measures) {
            let unit = measure.unit();
            let preps = measure.preps();
            if preps.is_empty() {
                self.borrow(measure, &unit, None);
            }
            for prep in preps {
                self.borrow(measure, &unit, Some((NameKey::of(&prep), prep)));
            }
        }
        self
    }

    /// Adds a measure of a built-in food. Its volumes are US ones, whatever the book's are.
    fn borrow(&mut self, measure: FoodMeasure, unit: &Unit, prep: Option<(NameKey, String)>) {
        let (kind, factor) = Kind::of(unit, Volumes::Us);
        let Ok(amount) = exact::mul(measure.amount(), factor) else { return };
        if kind == Kind::Mass || amount <= Decimal::ZERO || measure.grams() <= Decimal::ZERO {
            return;
        }
        self.links.push(Link {
            one: (kind, amount),
            other: Some((Kind::Mass, measure.grams())),
            prep,
            unit: Some(unit.clone()),
            basis: if measure.is_as_purchased() { Basis::Ap } else { Basis::Ep },
            from: MeasureFrom::Reference(measure),
        });
    }

    fn push_plain(&mut self, one: (Kind, Decimal), other: (Kind, Decimal), from: MeasureFrom) {
        self.links.push(Link { one, other: Some(other), prep: None, unit: None, basis: Basis::Ap, from });
    }
}

fn in_base(measured: &Measured, volumes: Volumes) -> Option<(Kind, Decimal)> {
    let (kind, factor) = Kind::of(&measured.unit, volumes);
    let amount = exact::mul(measured.amount, factor).ok()?;
    (amount > Decimal::ZERO).then_some((kind, amount))
}

fn of_can(figure: CanFigure) -> Option<Link> {
    let (base, size) = figure.in_base()?;
    let kind = match base {
        Base::Gram => Kind::Mass,
        Base::Millilitre => Kind::Volume,
        Base::Each => Kind::Each,
    };
    Some(Link {
        one: (Kind::of(&figure.can(), Volumes::Us).0, Decimal::ONE),
        other: Some((kind, size)),
        prep: None,
        unit: None,
        basis: Basis::Ap,
        from: MeasureFrom::Can(figure),
    })
}

/// A quantity in the base unit asked for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Converted {
    /// How much.
    pub amount: Amount,
    /// The basis it stands on now.
    pub basis: Basis,
    /// Whether it is still to be multiplied by the yield.
    pub shrinks: bool,
    /// The measures passed through.
    pub through: Vec<MeasureFrom>,
}

/// What stopped a conversion.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Stop {
    /// A problem to report at the line.
    Fault(Fault),
    /// A problem that has been reported where it stands.
    Known,
    /// A number that does not fit.
    Overflow,
}

impl Stop {
    /// What to say of it at `place`; nothing when it has been said.
    pub fn at(self, place: Place) -> Option<Problem> {
        match self {
            Stop::Fault(fault) => Some(fault.at(place)),
            Stop::Known => None,
            Stop::Overflow => {
                let fault = Fault::new(
                    Code::NumberOutOfRange,
                    "the numbers here are too large or too small to compute exactly",
                    "Check the quantity, the pack and the price.",
                );
                Some(fault.at(place))
            }
        }
    }
}

impl From<Overflow> for Stop {
    fn from(_: Overflow) -> Self {
        Stop::Overflow
    }
}

/// A quantity to be converted.
#[derive(Debug, Clone, Copy)]
pub struct Wanted<'a> {
    /// The quantity as typed.
    pub quantity: &'a Measured,
    /// The preparation asked for.
    pub prep: Option<&'a NameKey>,
    /// The basis it is asked on.
    pub basis: Basis,
    /// The food's name, for messages.
    pub name: &'a str,
}

/// Converts `wanted` to base units of `target`.
///
/// # Errors
/// A [`Stop`] that says what is missing or ambiguous.
pub fn convert(wanted: Wanted<'_>, target: &Kind, links: &Links, volumes: Volumes) -> Result<Converted, Stop> {
    let (kind, factor) = Kind::of(&wanted.quantity.unit, volumes);
    let amount = Amount::of(exact::mul(wanted.quantity.amount, factor)?);
    let start = Converted { amount, basis: wanted.basis, shrinks: false, through: Vec::new() };
    if kind == *target {
        return Ok(start);
    }
    if links.broken {
        return Err(Stop::Known);
    }
    let usable = choose(links, wanted)?;
    let own: Vec<&Link> = usable.iter().copied().filter(|link| matches!(link.from, MeasureFrom::Row(_))).collect();
    let cans = links.published([&kind, target]);
    let path = path(&own, &kind, target).or_else(|| path(&usable, &kind, target)).or_else(|| {
        let all: Vec<&Link> = usable.iter().copied().chain(&cans).collect();
        path(&all, &kind, target)
    });
    let Some(path) = path else { return Err(Stop::Fault(missing(wanted, &kind, target))) };
    let mut at = start;
    for (link, forward) in path {
        let Some(other) = &link.other else { return Err(Stop::Known) };
        let (from, to) = if forward { (&link.one, other) } else { (other, &link.one) };
        at.amount = at.amount.times(to.1)?.over(from.1)?;
        if link.basis == Basis::Ep {
            // An EP measure joins pieces as purchased to what is usable of them.
            if to.0.is_counted() {
                at.shrinks |= at.basis == Basis::Ap;
                at.basis = Basis::Ap;
            } else if from.0 != Kind::Mass {
                at.basis = Basis::Ep;
            }
        }
        at.through.push(link.from);
    }
    Ok(at)
}

/// The links that serve the preparation asked for: its own before those without one.
fn choose<'a>(links: &'a Links, wanted: Wanted<'_>) -> Result<Vec<&'a Link>, Stop> {
    let mut chosen: Vec<&Link> = Vec::new();
    let mut done: Vec<(&Kind, Option<&Kind>)> = Vec::new();
    for link in &links.links {
        let pair = (&link.one.0, link.other.as_ref().map(|other| &other.0));
        if done.contains(&pair) {
            continue;
        }
        done.push(pair);
        let group: Vec<&Link> = links
            .links
            .iter()
            .filter(|other| other.one.0 == *pair.0 && other.other.as_ref().map(|end| &end.0) == pair.1)
            .collect();
        let named = |key: Option<&NameKey>| -> Vec<&'a Link> {
            group.iter().copied().filter(|link| link.prep.as_ref().map(|(prep, _)| prep) == key).collect()
        };
        let asked = wanted.prep.map(|prep| named(Some(prep))).unwrap_or_default();
        let mut serving = if asked.is_empty() { named(None) } else { asked };
        if serving.is_empty() {
            let mut preps: Vec<&str> =
                group.iter().filter_map(|link| link.prep.as_ref().map(|(_, text)| text.as_str())).collect();
            preps.dedup();
            match (preps.as_slice(), wanted.prep) {
                ([_], None) => serving.clone_from(&group),
                _ if involves(wanted, link) => return Err(Stop::Fault(which(wanted, &preps))),
                _ => continue,
            }
        }
        // The row in the very unit asked for serves best, else the first.
        let exact = serving.iter().copied().find(|link| link.unit.as_ref() == Some(&wanted.quantity.unit));
        chosen.extend(exact.or_else(|| serving.first().copied()));
    }
    Ok(chosen)
}

fn involves(wanted: Wanted<'_>, link: &Link) -> bool {
    let (kind, _) = Kind::of(&wanted.quantity.unit, Volumes::Us);
    link.one.0 == kind || link.other.as_ref().is_some_and(|other| other.0 == kind)
}

fn which(wanted: Wanted<'_>, preps: &[&str]) -> Fault {
    let list: Vec<String> = preps.iter().map(|prep| format!("“{prep}”")).collect();
    Fault::new(
        Code::MeasureAmbiguous,
        format!("“{}” has measures for {}, and this line asks for none of them", wanted.name, list.join(" and ")),
        "Fill Prep with one of them, or add a Measures row without a preparation.",
    )
}

fn missing(wanted: Wanted<'_>, kind: &Kind, target: &Kind) -> Fault {
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

/// The shortest way from `from` to `to`, each step with its direction.
fn path<'a>(links: &[&'a Link], from: &Kind, to: &Kind) -> Option<Vec<(&'a Link, bool)>> {
    /// Cup to grams to each, and one more for a named count at either end.
    const MOST_STEPS: usize = 3;
    let mut frontier: Vec<(Kind, Vec<(&'a Link, bool)>)> = vec![(from.clone(), Vec::new())];
    for _ in 0..MOST_STEPS {
        let mut next = Vec::new();
        for (kind, steps) in &frontier {
            for link in links {
                let far = link.other.as_ref().map(|(kind, _)| kind);
                let (reached, forward) = match far {
                    Some(far) if link.one.0 == *kind => (far, true),
                    Some(far) if far == kind => (&link.one.0, false),
                    // A measure that could not be read stands in the way of what it might have joined.
                    None if link.one.0 == *kind => (to, true),
                    _ => continue,
                };
                let mut steps = steps.clone();
                steps.push((*link, forward));
                if reached == to {
                    return Some(steps);
                }
                next.push((reached.clone(), steps));
            }
        }
        frontier = next;
    }
    None
}
