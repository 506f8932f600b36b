//! Charging methods: one yield test under every way of charging its by-products, side by side.
//!
//! Takes a kitchen and its costing, from which comes what went into the test; gives for every way what each part bears, or
//! why that cannot be said. The parts add up to what went in, exactly, under every way.

use crate::analysis::missing_input::Lack;
use crate::analysis::part_values;
use crate::costing::yield_test::charge::{takers, takes};
use crate::costing::yield_test::cost::{WentIn, went_in};
use crate::costing::yield_test::split::{Split, split};
use crate::costing::{Costing, Rate};
use crate::kitchen::yield_test::{Charge, Charged, JointMethod, Part, Role, Test, net_value};
use crate::kitchen::{Kitchen, PartId, TestId};
use crate::number::{Decimal, exact};

/// A way of charging the by-products of a test.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Way {
    /// All at nothing: the mains bear everything.
    Free,
    /// Each at what it would cost to buy; those that nothing says it of, as the book says.
    Market,
    /// As joint products, by weight.
    Weight,
    /// As joint products, by sales value.
    SalesValue,
    /// As joint products, by sales value less further cost.
    NetRealizableValue,
    /// Each as its own row says.
    AsTheBookSays,
}

impl Way {
    /// Every way, in the order in which they are shown: from nothing charged to the book's own choice.
    pub const ALL: [Way; 6] =
        [Way::Free, Way::Market, Way::Weight, Way::SalesValue, Way::NetRealizableValue, Way::AsTheBookSays];

    /// The word for it: the one of the Charged as column, or `as the book says`.
    pub fn word(self) -> &'static str {
        match self {
            Way::Free => Charged::Free.word(),
            Way::Market => Charged::Market.word(),
            Way::Weight => JointMethod::Weight.word(),
            Way::SalesValue => JointMethod::SalesValue.word(),
            Way::NetRealizableValue => JointMethod::NetRealizableValue.word(),
            Way::AsTheBookSays => "as the book says",
        }
    }
}

/// A test under every way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ways {
    /// The test.
    pub test: TestId,
    /// Cost of what went in, added included, in money: what the parts add up to under every way.
    pub cost: Decimal,
    /// What comes of every way, in the order of [`Way::ALL`]; where it cannot be done, everything that is wanting.
    pub ways: Vec<(Way, Result<UnderWay, Vec<Lack>>)>,
}

/// A test under one way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnderWay {
    /// Its parts, beside the test's own.
    pub parts: Vec<PartUnder>,
    /// What the fixed charges among them come to, in money.
    pub credits: Decimal,
    /// What all parts come to, in money: the cost of the test exactly.
    pub total: Decimal,
}

/// A part under one way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PartUnder {
    /// How it is charged here; `None` for waste, which bears nothing.
    pub charged: Option<Charged>,
    /// Whether it stays as the book says because what it would cost to buy is not stated.
    pub kept: bool,
    /// Whether it takes nothing of the joint cost because it is worth nothing, or less, once it is finished.
    pub worthless: bool,
    /// What it bears, in money.
    pub cost: Decimal,
    /// Money by weight in grams; `None` when it weighs nothing.
    pub rate: Option<Rate>,
}

/// The test of `id` under every way. `None` when it is broken or what went in has no cost: its problem has been reported.
pub fn of(kitchen: &Kitchen, costing: &Costing, id: TestId) -> Option<Ways> {
    let test = kitchen.test(id).filter(|test| !test.broken)?;
    let went_in = went_in(kitchen, costing, test).ok()?;
    let sides = TestSides { kitchen, costing, id, test, went_in };
    Some(Ways { test: id, cost: went_in.cost, ways: Way::ALL.map(|way| (way, sides.under(way))).to_vec() })
}

/// A charge under a way, and whether it is the book's for want of a buy-in.
type ChosenCharge = (Charge, bool);

struct TestSides<'a> {
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    id: TestId,
    test: &'a Test,
    went_in: WentIn,
}

impl TestSides<'_> {
    fn under(&self, way: Way) -> Result<UnderWay, Vec<Lack>> {
        let mut chosen = Vec::with_capacity(self.test.parts.len());
        let mut wanting = Vec::new();
        for (index, part) in self.test.parts.iter().enumerate() {
            match self.charge(way, PartId::new(self.id, index), part) {
                Ok(charge) => chosen.push(charge),
                Err(lack) => wanting.push(lack),
            }
        }
        if way == Way::Market {
            wanting.extend(self.no_buy_in(&chosen));
        }
        if !wanting.is_empty() {
            return Err(wanting);
        }
        let charges: Vec<Charge> = chosen.iter().map(|(charge, _)| charge.clone()).collect();
        let Split { costs, credits } =
            shared(self.kitchen, self.costing, self.id, self.test, &charges, self.went_in.input(), self.went_in.cost)?;
        let total = exact::sum(costs.iter().copied()).map_err(|_| vec![Lack::Outside])?;
        let method = self.method(way);
        let parts = self.test.parts.iter().zip(chosen).zip(costs).map(|((part, (charge, kept)), cost)| PartUnder {
            charged: charged(part.role, &charge, method),
            kept,
            worthless: method == JointMethod::NetRealizableValue
                && matches!(charge, Charge::Joint { money, .. } if money.is_zero()),
            cost,
            rate: (!part.grams.is_zero()).then_some(Rate { money: cost, per: part.grams }),
        });
        Ok(UnderWay { parts: parts.collect(), credits, total })
    }

    /// The joint method of a way: its own, or the book's among the mains.
    fn method(&self, way: Way) -> JointMethod {
        match way {
            Way::Weight => JointMethod::Weight,
            Way::SalesValue => JointMethod::SalesValue,
            Way::NetRealizableValue => JointMethod::NetRealizableValue,
            Way::Free | Way::Market | Way::AsTheBookSays => self.test.joint,
        }
    }

    fn charge(&self, way: Way, id: PartId, part: &Part) -> Result<ChosenCharge, Lack> {
        let book = || part.charge.clone();
        let charge = match (part.role, way) {
            (Role::Main | Role::ByProduct, Way::Weight | Way::SalesValue | Way::NetRealizableValue) => {
                self.joint(way, id, part)?
            }
            (Role::ByProduct, Way::Free) => Charge::Free,
            (Role::ByProduct, Way::Market) => match part_values::at_market(part) {
                Some(charge) => charge,
                None => return Ok((book(), true)),
            },
            _ => book(),
        };
        Ok((charge, false))
    }

    fn joint(&self, way: Way, id: PartId, part: &Part) -> Result<Charge, Lack> {
        if way == Way::Weight {
            return Ok(Charge::Joint { money: Decimal::ONE, grams: Decimal::ONE });
        }
        let value = part_values::sales_value(self.kitchen, part).ok_or(Lack::Value(id))?;
        let further = part_values::further_cost(part).filter(|_| way == Way::NetRealizableValue);
        let money = match further {
            Some(further) => net_value((value.money, value.per), (further.money, further.per)),
            None => Ok(value.money),
        };
        let money = money.map_err(|_| Lack::Outside)?.max(Decimal::ZERO);
        Ok(Charge::Joint { money, grams: value.per })
    }

    /// What is wanting when no by-product at all has a buy-in.
    fn no_buy_in(&self, chosen: &[ChosenCharge]) -> Vec<Lack> {
        let by_products = || {
            let parts = self.test.parts.iter().zip(chosen).enumerate();
            parts.filter(|(_, (part, _))| part.role == Role::ByProduct)
        };
        if by_products().any(|(_, (_, (_, kept)))| !kept) {
            return Vec::new();
        }
        by_products().map(|(index, _)| Lack::BuyIn(PartId::new(self.id, index))).collect()
    }
}

/// How a part of this role is charged, as the column Charged as says it; `None` for waste, which bears nothing.
pub(crate) fn charged(role: Role, charge: &Charge, method: JointMethod) -> Option<Charged> {
    match (role, charge) {
        (Role::Main, _) | (Role::ByProduct, Charge::Joint { .. }) => Some(Charged::Joint(method)),
        (Role::ByProduct, Charge::Free) => Some(Charged::Free),
        (Role::ByProduct, Charge::Fraction(_)) => Some(Charged::Fraction),
        (Role::ByProduct, Charge::Price { .. }) => Some(Charged::Price),
        (Role::ByProduct, Charge::Market(_)) => Some(Charged::Market),
        _ => None,
    }
}

/// Splits `cost` over the parts of a test charged as `charges` says, where `input` is what its input costs by weight.
pub(super) fn shared(
    kitchen: &Kitchen,
    costing: &Costing,
    id: TestId,
    test: &Test,
    charges: &[Charge],
    input: Rate,
    cost: Decimal,
) -> Result<Split, Vec<Lack>> {
    let mut wanting = Vec::new();
    let mut all = Vec::with_capacity(charges.len());
    for (index, charge) in charges.iter().enumerate() {
        match (takes(kitchen, costing, charge, input), charge) {
            (Ok(takes), _) => all.push(takes),
            (Err(_), Charge::Market(buy_in)) => {
                wanting.push(Lack::BuyInCost { part: PartId::new(id, index), item: buy_in.item });
            }
            (Err(_), _) => wanting.push(Lack::Outside),
        }
    }
    if !wanting.is_empty() {
        return Err(wanting);
    }
    split(cost, &takers(&test.parts, &all)).map_err(|unsplit| vec![Lack::of(unsplit, cost)])
}
