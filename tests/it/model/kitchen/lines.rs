//! Lines of recipes: what they are of, and in which of its units.

use super::super::dice::Dice;
use super::super::fraction::Num;
use super::super::unit::{CUP, DOZEN, Dim, EACH, LB, OZ, QT, Unit, VOLUMES, WEIGHTS, number};
use super::Kitchen;
use super::breakdowns::{Input, Role};
use super::measures::{Basis, Gauge, Measure, PREPS};
use super::prices::Sold;

/// What a line is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Target {
    Bought(usize),
    /// A part of a test.
    Part(usize, usize),
    Recipe(usize),
    /// A row of the menu: plates of it.
    Dish(usize),
    /// Costs nothing and needs no row.
    Water,
    /// Named nowhere else.
    Unknown,
}

/// In what a line is measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LineUnit {
    Unit(Unit),
    /// A counted measure: a bunch, a can.
    Piece(&'static str),
    /// The whole pack.
    Case(&'static str),
    /// One of the pack's innermost packages.
    Package(&'static str),
    Portion,
    Batch,
    /// Not measured: no cost.
    Vague(&'static str),
}

impl LineUnit {
    pub fn name(self) -> &'static str {
        match self {
            LineUnit::Unit(unit) => unit.name,
            LineUnit::Piece(name) | LineUnit::Case(name) | LineUnit::Package(name) | LineUnit::Vague(name) => name,
            LineUnit::Portion => "portion",
            LineUnit::Batch => "batch",
        }
    }

    /// The basis of a line that does not say.
    pub fn usual_basis(self) -> Basis {
        match self {
            LineUnit::Unit(unit) if unit.dim != Dim::Count => Basis::Ep,
            LineUnit::Piece("pinch") | LineUnit::Portion | LineUnit::Batch | LineUnit::Vague(_) => Basis::Ep,
            _ => Basis::Ap,
        }
    }
}

/// A line.
#[derive(Debug, Clone)]
pub struct Line {
    pub target: Target,
    /// Whether a part is named with its test before it.
    pub with_test: bool,
    pub qty: Option<Num>,
    pub unit: LineUnit,
    /// A second part of the quantity: `1 lb 4 oz`.
    pub and: Option<(Num, Unit)>,
    /// Whether the unit stands in the cell of the quantity.
    pub one_cell: bool,
    pub prep: &'static str,
    pub basis: Option<Basis>,
    pub yields: Option<Num>,
    pub used: Option<Num>,
}

/// What a line of the recipe of this number may be of.
fn target(dice: &mut Dice<'_>, kitchen: &Kitchen, at: usize) -> Target {
    match dice.below(20) {
        8..=11 if at > 0 && !kitchen.breakdowns.is_empty() => {
            let test = dice.below(kitchen.breakdowns.len());
            let parts = &kitchen.breakdowns[test].parts;
            let usable: Vec<usize> = (0..parts.len()).filter(|part| parts[*part].role != Role::Waste).collect();
            Target::Part(test, dice.of(&usable))
        }
        12..=15 if at > 0 => Target::Recipe(dice.below(at)),
        16 => Target::Water,
        17 => Target::Unknown,
        _ => Target::Bought(dice.below(kitchen.items.len())),
    }
}

fn any_volume(rows: &[Measure]) -> bool {
    rows.iter().any(|row| matches!(row.gauge, Gauge::Volume(_)))
}

fn has_piece(rows: &[Measure], name: &str) -> bool {
    rows.iter().any(|row| row.gauge == Gauge::Piece(name_of(name)))
}

/// The word itself, as long as the program runs.
fn name_of(name: &str) -> &'static str {
    ["each", "bunch", "#10 can", "pinch"].into_iter().find(|one| *one == name).unwrap_or("each")
}

/// The units in which a bought item can be asked for.
fn bought_units(dice: &mut Dice<'_>, kitchen: &Kitchen, at: usize) -> LineUnit {
    let item = &kitchen.items[at];
    let rows = &item.measures;
    let mut units: Vec<LineUnit> = Vec::new();
    let weights = || LineUnit::Unit(WEIGHTS[0]);
    let weighed = matches!(item.sold, Sold::Weight | Sold::CatchWeight | Sold::CountAndWeight | Sold::Cans);
    let each = has_piece(rows, "each");
    let joined = weighed || (item.sold == Sold::Count && each) || (item.sold == Sold::Volume && any_volume(rows));
    if joined {
        units.extend([weights(), weights()]);
    }
    if item.sold == Sold::Volume || (any_volume(rows) && joined) {
        units.extend([LineUnit::Unit(CUP), LineUnit::Unit(CUP)]);
    }
    if item.sold == Sold::Count || item.sold == Sold::CountAndWeight || (weighed && each) {
        units.extend([LineUnit::Unit(EACH), LineUnit::Unit(DOZEN)]);
    }
    if item.sold == Sold::Cans {
        units.extend([LineUnit::Piece("#10 can"); 2]);
    }
    for name in ["bunch", "pinch"] {
        if has_piece(rows, name) {
            units.push(LineUnit::Piece(name_of(name)));
        }
    }
    if item.sold != Sold::CatchWeight && item.one_pack() {
        units.push(LineUnit::Case("case"));
        if item.rows[0].buys.packages.is_some() {
            let word = if item.sold == Sold::Volume { "bottle" } else { "bag" };
            units.push(LineUnit::Package(word));
        }
    }
    match dice.of(&units) {
        LineUnit::Unit(unit) if unit.dim == Dim::Weight => LineUnit::Unit(dice.of(&WEIGHTS)),
        LineUnit::Unit(unit) if unit.dim == Dim::Volume => LineUnit::Unit(dice.of(&VOLUMES)),
        other => other,
    }
}

/// The units of what is measured in these dimensions and has these measures.
fn own_units(dice: &mut Dice<'_>, dims: &[Dim], rows: &[Measure]) -> Vec<LineUnit> {
    let mut units: Vec<LineUnit> = Vec::new();
    let has = |dim| dims.contains(&dim);
    let by_cup = any_volume(rows) && (has(Dim::Weight) || has(Dim::Volume));
    if has(Dim::Weight) || by_cup {
        units.push(LineUnit::Unit(dice.of(&WEIGHTS)));
    }
    if has(Dim::Volume) || by_cup {
        units.push(LineUnit::Unit(dice.of(&VOLUMES)));
    }
    if has(Dim::Count) || (has_piece(rows, "each") && (has(Dim::Weight) || by_cup)) {
        units.push(LineUnit::Unit(EACH));
    }
    units
}

/// A line of the recipe of this number.
pub fn line(dice: &mut Dice<'_>, kitchen: &Kitchen, at: usize) -> Line {
    let mut target = target(dice, kitchen, at);
    let rows: &[Measure] = match target {
        Target::Bought(item) => &kitchen.items[item].measures,
        Target::Part(test, part) => &kitchen.breakdowns[test].parts[part].measures,
        Target::Recipe(recipe) => &kitchen.recipes[recipe].measures,
        _ => &[],
    };
    let vague = LineUnit::Vague(["pinch", "to taste", "handful"][dice.below(3)]);
    let unit = match target {
        Target::Bought(_) | Target::Part(..) if dice.chance(4) && !has_piece(rows, "pinch") => vague,
        Target::Bought(item) => bought_units(dice, kitchen, item),
        Target::Part(..) => {
            let units = own_units(dice, &[Dim::Weight], rows);
            dice.of(&units)
        }
        Target::Recipe(of) => {
            let made = &kitchen.recipes[of];
            let mut units = own_units(dice, &made.dims(), rows);
            if made.has_portions() {
                units.push(LineUnit::Portion);
            }
            units.push(LineUnit::Batch);
            dice.of(&units)
        }
        Target::Dish(_) => LineUnit::Portion,
        Target::Water => LineUnit::Unit(dice.of(&[QT, LB, CUP])),
        Target::Unknown => vague,
    };
    if matches!(target, Target::Water) && dice.chance(20) {
        target = Target::Unknown;
    }
    let unit = if target == Target::Unknown { vague } else { unit };
    let costed = !matches!(unit, LineUnit::Vague(_));
    let in_units = matches!(unit, LineUnit::Unit(of) if of.dim != Dim::Count);
    let bought = matches!(target, Target::Bought(_));
    let preps = rows.iter().any(|row| !row.prep.is_empty());
    let mut qty = costed.then(|| number(dice, 9));
    let mut and = None;
    if matches!(unit, LineUnit::Unit(of) if of == LB) && dice.chance(20) {
        qty = Some(Num::whole(dice.between(1, 4)));
        and = Some((Num::whole(dice.between(1, 15)), OZ));
    }
    let by_count = costed && bought && !in_units && !matches!(unit, LineUnit::Piece("pinch"));
    // As purchased weight of what is priced by volume: nothing says whose the cup's weight is.
    let through = |of: Unit| match target {
        Target::Bought(item) => kitchen.items[item].sold == Sold::Volume && of.dim == Dim::Weight,
        _ => true,
    };
    let basis = match unit {
        LineUnit::Unit(of) if in_units && !through(of) && dice.chance(25) => Some(Basis::Ap),
        LineUnit::Unit(_) | LineUnit::Piece(_) if by_count && dice.chance(25) => Some(Basis::Ep),
        _ => None,
    };
    let ep = basis.unwrap_or(unit.usual_basis()) == Basis::Ep;
    // A line's own yield beside a test of several mains: the rules speak for either. The first recipe stands before the
    // tests.
    let several = at == 0
        || matches!(target, Target::Bought(item) if kitchen.breakdowns.iter().any(|test| {
            test.input == Input::Bought(item) && test.mains().count() > 1
        }));
    Line {
        target,
        with_test: dice.chance(10),
        one_cell: and.is_some() || (costed && dice.chance(20)),
        qty,
        unit,
        and,
        prep: if preps && dice.chance(50) { dice.of(&PREPS) } else { "" },
        basis,
        yields: (costed && ep && bought && !several && dice.chance(12))
            .then(|| Num::percent(dice.of(&[800, 1000, 950, 2500]))),
        used: (costed && dice.chance(8)).then(|| Num::percent(dice.of(&[500, 0, 100]))),
    }
}

/// A course of a set menu: plates of a dish.
pub fn course(dice: &mut Dice<'_>, kitchen: &Kitchen) -> Line {
    let unit = dice.of(&[LineUnit::Portion, LineUnit::Unit(EACH), LineUnit::Unit(DOZEN)]);
    Line {
        target: Target::Dish(dice.below(kitchen.dishes.len())),
        with_test: false,
        qty: Some(number(dice, 3)),
        unit,
        and: None,
        one_cell: dice.chance(20),
        prep: "",
        basis: None,
        yields: None,
        used: dice.chance(8).then(|| Num::percent(500)),
    }
}

/// The name under which a line asks for its target.
pub fn name(kitchen: &Kitchen, line: &Line) -> String {
    match line.target {
        Target::Bought(item) => kitchen.items[item].name.to_owned(),
        Target::Part(test, part) if line.with_test => {
            let test = &kitchen.breakdowns[test];
            format!("{}: {}", test.name, test.parts[part].name)
        }
        Target::Part(test, part) => kitchen.breakdowns[test].parts[part].name.clone(),
        Target::Recipe(recipe) => kitchen.recipes[recipe].name.clone(),
        Target::Dish(dish) => kitchen.dishes[dish].name.clone(),
        Target::Water => "Water".to_owned(),
        Target::Unknown => "Vexel dust".to_owned(),
    }
}
