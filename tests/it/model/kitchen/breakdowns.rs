//! Yield tests and cooking tests, in one run or several, charged in every way.

use super::super::dice::Dice;
use super::super::fraction::{Num, ratio};
use super::super::unit::{Amount, KG, LB, OZ, Unit};
use super::prices::Sold;
use super::{Kitchen, letter};

/// What goes into a test.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Input {
    /// A bought item, by number.
    Bought(usize),
    /// A part of an earlier test.
    Part(usize, usize),
    /// A recipe that uses nothing but what is bought.
    Recipe(usize),
    /// Something of which the price list has no row: the test's own price counts.
    Unlisted,
}

/// What a part is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    Main,
    ByProduct,
    Waste,
}

/// A joint method.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Joint {
    Weight,
    SalesValue,
    NetRealizable,
}

/// How a part is charged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Charge {
    /// Nothing typed.
    Blank,
    Free,
    Fraction,
    Price,
    Market,
    Joint(Joint),
}

/// Money for a unit of weight.
#[derive(Debug, Clone)]
pub struct PerWeight {
    pub money: Num,
    /// Its own unit; the row's where none.
    pub per: Option<Unit>,
}

/// A part and what it weighed in every run; none where the run does not have it.
#[derive(Debug, Clone)]
pub struct Part {
    pub name: String,
    pub role: Role,
    pub charge: Charge,
    /// A percentage of `fraction`.
    pub share: Option<Num>,
    pub value: Option<PerWeight>,
    pub further: Option<Num>,
    /// What one unit of it saves buying.
    pub instead_of: Option<(Amount, usize)>,
    pub weights: Vec<Option<Amount>>,
    /// Its rows of Measures.
    pub measures: Vec<super::measures::Measure>,
}

/// Something that went in with the rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Added {
    Water,
    Bought(usize),
}

/// One breakdown.
#[derive(Debug, Clone)]
pub struct Run {
    pub weight: Amount,
    /// How many pieces that was.
    pub count: Option<i64>,
    pub added: Option<(Added, Amount)>,
}

/// A test, pooled over its runs.
#[derive(Debug, Clone)]
pub struct Breakdown {
    pub name: String,
    pub input: Input,
    pub cooking: bool,
    /// The price paid in the test, per unit of the first run's weight.
    pub price: Option<Num>,
    pub runs: Vec<Run>,
    pub parts: Vec<Part>,
}

impl Part {
    /// The unit that money per Unit is for: the first named.
    pub fn unit(&self) -> Unit {
        self.weights.iter().flatten().next().map_or(LB, |weight| weight.unit)
    }
}

impl Breakdown {
    /// The mains.
    pub fn mains(&self) -> impl Iterator<Item = &Part> {
        self.parts.iter().filter(|part| part.role == Role::Main)
    }
}

/// A weight of so many ounces, written in one of the ways of a kitchen.
fn weight(dice: &mut Dice<'_>, unit: Unit, ounces: i64) -> Amount {
    let ounces = ounces.max(1);
    if unit == KG {
        return Amount::new(Num::hundredths((ounces * 3).max(1)), KG);
    }
    if unit == OZ {
        return Amount::new(Num::whole(ounces), OZ);
    }
    if ounces > 16 && ounces % 16 != 0 && dice.chance(50) {
        return Amount { and: Some((Num::whole(ounces % 16), OZ)), ..Amount::new(Num::whole(ounces / 16), LB) };
    }
    Amount::new(Num { text: decimal_of_sixteenths(ounces), value: ratio(ounces, 16) }, LB)
}

/// Sixteenths as a decimal of four places, its zeros struck off.
fn decimal_of_sixteenths(ounces: i64) -> String {
    let tenths = ounces * 10_000 / 16;
    let text = format!("{}.{:04}", tenths / 10_000, tenths % 10_000);
    let short = text.trim_end_matches('0').trim_end_matches('.').to_owned();
    // Three digits behind the point could be thousands; a fourth says that they are not.
    if short.split_once('.').is_some_and(|(_, after)| after.len() == 3) { format!("{short}0") } else { short }
}

fn money(dice: &mut Dice<'_>, cents: i64) -> PerWeight {
    let money = Num::dollars(cents);
    let per = dice.chance(25).then(|| dice.of(&[LB, KG, OZ]));
    PerWeight { money, per }
}

/// What a test may break down, given the ones before it.
fn input(dice: &mut Dice<'_>, kitchen: &Kitchen) -> Option<Input> {
    let bought: Vec<usize> = (0..kitchen.items.len())
        .filter(|at| kitchen.items[*at].weighable() && !(kitchen.breaks_a_recipe() && kitchen.in_base_recipe(*at)))
        .collect();
    match dice.below(8) {
        5 | 6 if !kitchen.breakdowns.is_empty() => {
            let test = dice.below(kitchen.breakdowns.len());
            Some(Input::Part(test, 0))
        }
        7 if dice.chance(40) => Some(Input::Unlisted),
        4 if kitchen.base_recipe().is_some() => Some(Input::Recipe(0)),
        _ if bought.is_empty() => Some(Input::Unlisted),
        _ => Some(Input::Bought(dice.of(&bought))),
    }
}

/// A test of what the kitchen has so far.
pub fn breakdown(dice: &mut Dice<'_>, kitchen: &Kitchen) -> Option<Breakdown> {
    let at = kitchen.breakdowns.len();
    let input = input(dice, kitchen)?;
    let unit = dice.of(&[LB, LB, KG, OZ]);
    let runs = dice.of(&[1, 1, 2, 3]);
    let counted = match input {
        Input::Bought(item) => {
            let sold = kitchen.items[item].sold;
            // Of several tests that weigh a piece the rules name none.
            let other = kitchen.breakdowns.iter().any(|test| test.input == input && test.runs[0].count.is_some());
            !other && matches!(sold, Sold::Count | Sold::Weight) && dice.chance(40)
        }
        _ => false,
    };
    let mains = dice.of(&[1, 1, 1, 2, 3]);
    let by_products = dice.of(&[1, 0, 2, 3]);
    let joint = dice.of(&[None, None, Some(Joint::Weight), Some(Joint::SalesValue), Some(Joint::NetRealizable)]);
    let valued =
        matches!(joint, Some(Joint::SalesValue | Joint::NetRealizable)) || (joint.is_none() && dice.chance(40));
    let ounces: Vec<i64> = (0..runs).map(|_| dice.between(8, 60) * 16).collect();
    let mut parts = Vec::new();
    let all = mains + by_products + usize::from(dice.chance(60));
    // Now and then nothing is lost.
    let lossless = dice.chance(20);
    let named = joint.is_some() && dice.chance(60);
    for number in 0..all {
        let role = match number {
            _ if number < mains => Role::Main,
            _ if number < mains + by_products => Role::ByProduct,
            _ => Role::Waste,
        };
        let mut part = Part {
            name: format!("{} {}", letter(at), ["loin", "tip", "cap", "shells", "frame", "rind", "bin"][number.min(6)]),
            role,
            charge: Charge::Blank,
            share: None,
            value: None,
            further: None,
            instead_of: None,
            weights: Vec::new(),
            measures: Vec::new(),
        };
        for (run, in_run) in ounces.iter().enumerate() {
            let most = if role == Role::Main { in_run * 6 / 10 } else { in_run * 35 / 100 };
            let each = most / i64::try_from(if role == Role::Main { mains } else { (all - mains).max(1) }).unwrap();
            // The first main is there in every run.
            let there = number == 0 || run == 0 || dice.chance(85);
            let ounces = if lossless { each } else { dice.between(1, each.max(1)) };
            part.weights.push(there.then(|| weight(dice, unit, ounces)));
        }
        match role {
            Role::Main => {
                if named && (number == 0 || dice.chance(50)) {
                    part.charge = joint.map_or(Charge::Blank, Charge::Joint);
                }
                if valued || (mains == 1 && dice.chance(10)) {
                    let cents = if number == 0 || dice.chance(85) { dice.of(&[500, 1250, 500]) } else { 0 };
                    part.value = Some(money(dice, cents));
                }
                if joint == Some(Joint::NetRealizable) && number > 0 && dice.chance(40) {
                    part.further = Some(Num::dollars(dice.of(&[50, 500, 1500])));
                }
            }
            Role::ByProduct => by_product(dice, kitchen, joint, named, &mut part),
            Role::Waste => {}
        }
        if role != Role::Waste && dice.chance(25) {
            part.measures = super::measures::of_own(dice);
        }
        parts.push(part);
    }
    let runs = ounces
        .iter()
        .map(|ounces| Run {
            weight: weight(dice, unit, *ounces),
            count: counted.then(|| dice.between(2, 12)),
            added: dice.chance(15).then(|| {
                let bought = (0..kitchen.items.len())
                    .find(|item| kitchen.items[*item].weighed() && input != Input::Bought(*item));
                let what = bought.filter(|_| dice.chance(60)).map_or(Added::Water, Added::Bought);
                let ounces = dice.between(4, 64);
                (what, weight(dice, unit, ounces))
            }),
        })
        .collect();
    let price = (input == Input::Unlisted || dice.chance(20)).then(|| Num::dollars(dice.between(80, 900)));
    let cooking = dice.chance(if matches!(input, Input::Part(..) | Input::Recipe(_)) { 70 } else { 15 });
    Some(Breakdown { name: format!("Test {}", letter(at)), input, cooking, price, runs, parts })
}

/// How a by-product is charged.
fn by_product(dice: &mut Dice<'_>, kitchen: &Kitchen, joint: Option<Joint>, named: bool, part: &mut Part) {
    let weighed: Vec<usize> = (0..kitchen.items.len()).filter(|at| kitchen.items[*at].weighed()).collect();
    let volumes: Vec<usize> = (0..kitchen.items.len()).filter(|at| kitchen.items[*at].sold == Sold::Volume).collect();
    match dice.below(7) {
        0 => {}
        1 => part.charge = Charge::Free,
        2 => {
            part.charge = Charge::Fraction;
            part.share = Some(Num::percent(dice.of(&[200, 50, 1000, 0, 125])));
        }
        3 => {
            part.charge = Charge::Price;
            let cents = dice.of(&[40, 110, 5]);
            part.value = Some(money(dice, cents));
        }
        4 if !weighed.is_empty() || !volumes.is_empty() => {
            part.charge = Charge::Market;
            let by_volume = weighed.is_empty() || (!volumes.is_empty() && dice.chance(30));
            let (item, unit) = if by_volume {
                (dice.of(&volumes), super::super::unit::FL_OZ)
            } else {
                (dice.of(&weighed), dice.of(&[OZ, super::super::unit::G, LB]))
            };
            let amount = if unit == LB { Num::hundredths(10) } else { Num::whole(dice.between(1, 3)) };
            part.instead_of = Some((Amount::new(amount, unit), item));
        }
        // A joint by-product needs a method that its test names.
        5 | 6 if joint.is_some() && named => {
            part.charge = joint.map_or(Charge::Blank, Charge::Joint);
            if joint != Some(Joint::Weight) {
                let cents = dice.of(&[80, 0, 300]);
                part.value = Some(money(dice, cents));
                if joint == Some(Joint::NetRealizable) && dice.chance(70) {
                    part.further = Some(Num::dollars(dice.of(&[80, 20, 500])));
                }
            }
        }
        _ => {}
    }
}
