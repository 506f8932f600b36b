//! Shares of prices in a cost: how much money of it stands for each price, so that one more percent on that price adds one
//! percent of it.
//!
//! A cost is a sum of prices times constants, and of money that no price moves: a charge stated in money, a Q in money,
//! freight. So it is linear in every price as long as the choices among rows, yields and measures stand; what is given here
//! is its derivative, exactly. Goes once through what a figure stands on, in cost order.

use std::collections::{HashMap, HashSet};

use super::on_the_way::OnTheWay;
use super::subject::Subject;
use crate::analysis::flow_constants::{batches, joint_shares, taken};
use crate::analysis::moves_by_item::{Moves, Sum};
use crate::costing::price::bought::PriceFrom;
use crate::costing::q_and_spice::QAndSpice;
use crate::costing::rate::{Amount, Rate};
use crate::costing::yield_test::at_market::buy_in_amount;
use crate::costing::yield_test::charge::in_scenario;
use crate::costing::yield_test::input_cost::priced;
use crate::costing::{Costing, LineCost, TestCost};
use crate::in_order::InOrder;
use crate::kitchen::price::Price;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::{Charge, Test};
use crate::kitchen::{ItemId, Kitchen, Node, RecipeId, TestId};
use crate::number::{Decimal, exact};

/// The money of a cost by the price that it stands for, the most first.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct PriceShares {
    /// The items, by the size of what stands for their price; none of nothing.
    pub items: Vec<(ItemId, Decimal)>,
    /// What the smallest of more than a few hundred come to.
    pub together: Decimal,
}

impl PriceShares {
    /// Those of what is asked about: of a portion of a dish, a batch, all of a part that its test gives, one base unit of an
    /// item.
    pub fn of(kitchen: &Kitchen, costing: &Costing, subject: Subject, way: &OnTheWay, lines: Option<&[usize]>) -> Self {
        let mut flow = PriceShareFlow {
            kitchen,
            costing,
            recipes: HashMap::new(),
            parts: HashMap::new(),
            sum: Sum::over(kitchen.items.len()),
            only: lines.and_then(|lines| Some((subject.recipe(kitchen)?, lines))),
            none: Moves::default(),
        };
        let wanted: HashSet<Node> = (way.recipes.iter().map(|id| Node::Recipe(*id)))
            .chain(way.tests.iter().map(|id| Node::Test(*id)))
            .collect();
        for node in kitchen.order.iter().filter(|node| wanted.contains(node)) {
            match node {
                Node::Item(_) => {}
                Node::Test(id) => {
                    let parts = flow.test(*id).unwrap_or_default();
                    flow.parts.insert(*id, parts);
                }
                Node::Recipe(id) => {
                    let food = flow.recipe(*id);
                    flow.recipes.insert(*id, food);
                }
            }
        }
        flow.finish(subject)
    }

    /// What one more percent on each of these prices adds.
    pub fn of_one_percent(share: Decimal) -> Option<Decimal> {
        exact::div(share, Decimal::ONE_HUNDRED).ok()
    }
}

struct PriceShareFlow<'a> {
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    /// The food of a batch.
    recipes: HashMap<RecipeId, Moves>,
    /// The parts of every test.
    parts: HashMap<TestId, Vec<Moves>>,
    sum: Sum,
    /// The lines of the recipe asked about that count.
    only: Option<(RecipeId, &'a [usize])>,
    none: Moves,
}

impl PriceShareFlow<'_> {
    /// The price of an item as typed, without the tax within it, for as many base units as its price buys: what stands
    /// beside the price moves with nothing.
    fn price(&self, id: ItemId) -> Option<Rate> {
        let cost = self.costing.item(id)?;
        let money = match cost.from {
            PriceFrom::Water => Decimal::ZERO,
            PriceFrom::TestRow(_) => cost.ap.money,
            PriceFrom::Row(row) => {
                let row = self.kitchen.entries.prices.get(row)?;
                let Price::Money(price) = *row.price.given()? else { return None };
                match row.charges.tax_within(self.kitchen.settings.price_tax) {
                    Some(tax) => exact::div(price, exact::add(Decimal::ONE, tax).ok()?).ok()?,
                    None => price,
                }
            }
        };
        Some(Rate { money, per: cost.ap.per })
    }

    fn add_bought(&mut self, id: ItemId, amount: Amount) {
        if let Some(money) = self.price(id).and_then(|price| price.cost_of(amount).ok()) {
            self.sum.add(id, money);
        }
    }

    fn add(&mut self, source: IngredientSource, by: Amount) {
        match source {
            IngredientSource::Part(part) => {
                let parts = self.parts.get(&part.test);
                let moves = parts.and_then(|parts| parts.get(part.index())).unwrap_or(&self.none);
                self.sum.add_times(moves, by);
            }
            IngredientSource::Made(id) => {
                let by = batches(self.kitchen, self.costing, id, by).unwrap_or(by);
                self.sum.add_times(self.recipes.get(&id).unwrap_or(&self.none), by);
            }
            IngredientSource::Bought(_) | IngredientSource::Unknown => {}
        }
    }

    fn recipe(&mut self, id: RecipeId) -> Moves {
        let (Some(recipe), Some(cost)) = (self.kitchen.recipe(id), self.costing.recipe(id)) else {
            return Moves::default();
        };
        for (index, (line, cost)) in recipe.lines.iter().zip(&cost.lines).enumerate() {
            let LineCost::Costed { trace, .. } = cost else { continue };
            if self.only.is_some_and(|(of, lines)| of == id && !lines.contains(&index)) {
                continue;
            }
            if let IngredientSource::Bought(item) = trace.costed_as.source() {
                let amount = trace.as_purchased().and_then(|amount| amount.times(line.used));
                amount.into_iter().for_each(|amount| self.add_bought(item, amount));
            } else if let Ok(Some((source, by))) = taken(self.costing, trace, line.used) {
                self.add(source, by);
            }
        }
        self.sum.finish()
    }

    fn weight(&mut self, source: IngredientSource, grams: Decimal, count: Option<Decimal>) {
        let Ok((amount, rate)) = priced(self.kitchen, self.costing, source, grams, count) else { return };
        match source {
            IngredientSource::Bought(id) => self.add_bought(id, amount),
            _ => amount.over(rate.per).into_iter().for_each(|by| self.add(source, by)),
        }
    }

    /// The parts of a test. `None` when it is not costed.
    fn test(&mut self, id: TestId) -> Option<Vec<Moves>> {
        let (test, cost) = (self.kitchen.test(id)?, self.costing.test(id)?);
        for run in &test.runs {
            self.weight(test.input, run.grams, run.count);
        }
        let input = self.sum.finish();
        self.sum.add_all(&input);
        for added in &test.added {
            if let Some(source) = added.source {
                self.weight(source, added.grams, added.count);
            }
        }
        let all = self.sum.finish();
        let charges: Vec<Charge> = (test.parts.iter().zip(self.kitchen.part_ids(id)))
            .map(|(part, id)| in_scenario(self.costing.scenario.charging, id, part))
            .collect();
        let mut parts = self.credits(test, cost, &charges, &input);
        self.sum.add_all(&all);
        parts.iter().for_each(|credit| self.sum.take_away(credit));
        let remainder = self.sum.finish();
        for (index, share) in joint_shares(test, &charges)? {
            self.sum.add_times(&remainder, share);
            if let Some(slot) = parts.get_mut(index) {
                *slot = self.sum.finish();
            }
        }
        Some(parts)
    }

    /// What moves the fixed charges of a test: a fraction moves with the input, what is charged at market with what it
    /// stands in for.
    fn credits(&mut self, test: &Test, cost: &TestCost, charges: &[Charge], input: &Moves) -> Vec<Moves> {
        let mut parts = Vec::with_capacity(test.parts.len());
        for (part, charge) in test.parts.iter().zip(charges) {
            match charge {
                Charge::Fraction(fraction) => {
                    if let Ok(weight) = exact::mul(*fraction, part.grams) {
                        self.sum.add_times(input, Amount { num: weight, den: cost.grams });
                    }
                }
                Charge::Market(buy_in) => {
                    let amount = buy_in_amount(self.kitchen, self.costing, buy_in).ok();
                    let amount = amount.and_then(|amount| amount.times(part.grams).ok()?.over(buy_in.grams).ok());
                    amount.into_iter().for_each(|amount| self.add_bought(buy_in.item, amount));
                }
                Charge::Free | Charge::Price { .. } | Charge::Joint { .. } => {}
            }
            parts.push(self.sum.finish());
        }
        parts
    }

    fn finish(mut self, subject: Subject) -> PriceShares {
        match subject {
            Subject::Dish(index) => self.dish(index),
            Subject::Recipe(id) if self.only.is_some() => {
                self.sum.add_all(self.recipes.get(&id).unwrap_or(&self.none));
            }
            Subject::Recipe(id) => self.add(IngredientSource::Made(id), Amount::ONE),
            Subject::Part(id) => self.add(IngredientSource::Part(id), Amount::ONE),
            Subject::Item(id) => self.add_bought(id, Amount::ONE),
        }
        let Moves { mut items, together } = self.sum.finish();
        items.put_in_order_by_key(|(item, money)| (std::cmp::Reverse(money.abs()), *item));
        PriceShares { items, together }
    }

    fn dish(&mut self, index: usize) {
        let costed = self.costing.dishes.get(index).and_then(Option::as_ref);
        let dish = self.kitchen.dishes.get(index);
        let Some((cost, id)) = costed.zip(dish.and_then(|dish| dish.recipe)) else { return };
        let Some(recipe) = self.kitchen.recipe(id) else { return };
        // What some lines cost is food alone.
        let factor = match self.only {
            Some(_) => Ok(Decimal::ONE),
            None => QAndSpice::of_dish(self.kitchen, recipe).factor(),
        };
        if let Ok(by) = factor.and_then(|factor| cost.share.times(factor)) {
            self.sum.add_times(self.recipes.get(&id).unwrap_or(&self.none), by);
        }
    }
}
