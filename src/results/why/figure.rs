//! The figure asked for: the portion cost of a dish, the batch of a recipe, a unit of a part or an item, or what a line costs
//! in it.

use crate::analysis::why::{Subject, Why};
use crate::costing::rate::Amount;
use crate::costing::{Costing, LineCost};
use crate::kitchen::{ItemId, Kitchen};
use crate::number::{Decimal, exact};
use crate::results::display_units::{DisplayUnit, base_unit};

/// The figure, and how the shares of prices are brought to it.
#[derive(Debug, Clone)]
pub(super) struct FigureAsked<'a> {
    /// The figure; `None` where it is not known.
    pub cost: Option<Decimal>,
    /// What it is the cost of.
    pub of: String,
    /// The line asked about.
    pub line: Option<&'a str>,
    /// What shares are multiplied by: those of a part are of all that its test gives, those of an item of a base unit.
    scale: Amount,
}

impl<'a> FigureAsked<'a> {
    /// That of what is asked about.
    pub fn of(kitchen: &'a Kitchen, costing: &Costing, why: &Why) -> Self {
        let (cost, of, scale) = match why.subject {
            Subject::Dish(index) => {
                let cost = costing.dishes.get(index).and_then(Option::as_ref);
                (cost.map(|cost| cost.portion_cost), "portion".to_owned(), Amount::ONE)
            }
            Subject::Recipe(id) => (costing.recipe(id).map(|cost| cost.batch), "batch".to_owned(), Amount::ONE),
            Subject::Part(id) => {
                let unit = kitchen.test(id.test).map(|test| DisplayUnit::of_test(kitchen, test));
                let unit = unit.unwrap_or(DisplayUnit { name: "g".to_owned(), size: Decimal::ONE });
                let cost = costing.part(id).and_then(|part| unit.cost_at(part.rate?));
                let grams = costing.part(id).map(|part| part.grams).filter(|grams| !grams.is_zero());
                (cost, unit.name.clone(), Amount { num: unit.size, den: grams.unwrap_or(Decimal::ONE) })
            }
            Subject::Item(id) => {
                let unit = DisplayUnit::of_item(kitchen, costing, id);
                let cost = unit.as_ref().and_then(|unit| unit.cost_at(costing.item(id)?.ap));
                let size = unit.as_ref().map_or(Decimal::ONE, |unit| unit.size);
                (cost, unit.map_or_else(|| base_unit_of(costing, id), |unit| unit.name), Amount::of(size))
            }
        };
        match &why.lines {
            None => FigureAsked { cost, of, line: None, scale },
            Some(lines) => FigureAsked::of_lines(kitchen, costing, why.subject, lines, of),
        }
    }

    fn of_lines(kitchen: &'a Kitchen, costing: &Costing, subject: Subject, lines: &[usize], of: String) -> Self {
        let recipe = subject.recipe(kitchen);
        let entry = recipe.and_then(|id| kitchen.entries.recipes.get(kitchen.recipe(id)?.entry));
        let line = lines.first().and_then(|first| Some(entry?.lines.get(*first)?.item.as_str()));
        let cost = recipe.and_then(|id| costing.recipe(id)).and_then(|cost| {
            exact::sum(lines.iter().filter_map(|line| match cost.lines.get(*line)? {
                LineCost::Costed { cost, .. } => Some(*cost),
                LineCost::Uncosted => None,
            }))
            .ok()
        });
        let cost = match subject {
            Subject::Dish(index) => cost.and_then(|cost| {
                let share = costing.dishes.get(index)?.as_ref()?.share;
                share.times(cost).and_then(Amount::value).ok()
            }),
            _ => cost,
        };
        FigureAsked { cost, of: format!("this line in a {of}"), line, scale: Amount::ONE }
    }

    /// A share of a price as it stands in the figure.
    pub fn scaled(&self, share: Decimal) -> Option<Decimal> {
        self.scale.times(share).and_then(Amount::value).ok()
    }

    /// What of the figure stands for no price.
    pub fn unmoved(&self, why: &Why) -> Option<Decimal> {
        let shares = why.prices.items.iter().map(|(_, money)| *money).chain([why.prices.together]);
        let moved = exact::sum(shares.map(|money| self.scaled(money)).collect::<Option<Vec<_>>>()?).ok()?;
        exact::sub(self.cost?, moved).ok()
    }
}

fn base_unit_of(costing: &Costing, id: ItemId) -> String {
    costing.item(id).map(|cost| base_unit(&cost.kind)).unwrap_or_default()
}
