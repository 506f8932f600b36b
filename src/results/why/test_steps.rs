//! Steps of a yield test: what went in and what that costs, what by-products are charged, what the others share.

use super::sources;
use super::step::{OfWhat, StepWord, Walk};
use crate::costing::yield_test::input_cost::{priced, weight_cost};
use crate::costing::{BaseUnitKind, Costing, PartCost, TestCost};
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::yield_test::{Charge, Part, Role, Test};
use crate::kitchen::{Kitchen, TestId};
use crate::number::{Decimal, exact};
use crate::problem::Place;
use crate::results::allergen_ways::name_of;
use crate::results::charge_words;
use crate::results::display_units::{DisplayUnit, base_unit};
use crate::results::test_row::left_to_share;
use crate::schema::Column;

/// The steps of a test.
pub(super) fn walk(walk: &mut Walk<'_>, kitchen: &Kitchen, costing: &Costing, id: TestId) -> Option<()> {
    let test = kitchen.test(id)?;
    walk.begin(&test.name, OfWhat::Test);
    let cost = costing.test(id)?;
    let unit = DisplayUnit::of_test(kitchen, test);
    let steps = TestSteps { kitchen, costing, test, cost, unit };
    let mut line = 0_usize;
    for run in &test.runs {
        line = line.saturating_add(1);
        let name = name_of(kitchen, test.input);
        walk.line(line, &name);
        steps.went_in(walk, (StepWord::WentIn, run.row), test.input, (run.grams, run.count));
    }
    for added in &test.added {
        let Some(source) = added.source else { continue };
        line = line.saturating_add(1);
        let name = name_of(kitchen, source);
        walk.line(line, &name);
        steps.went_in(walk, (StepWord::Added, added.row), source, (added.grams, added.count));
    }
    walk.whole();
    walk.money(StepWord::AllThatWentIn, cost.cost, "", None);
    for (part, figures) in test.parts.iter().zip(&cost.parts) {
        line = line.saturating_add(1);
        walk.line(line, &part.name);
        steps.came_out(walk, part, figures);
    }
    walk.whole();
    if let Some(left) = left_to_share(test, cost) {
        walk.money(StepWord::LeftToShare, left, "what went in, less what is charged by-products", None);
    }
    walk.amount(StepWord::Lost, cost.lost_grams(), (&steps.unit, "g"), "cutting or cooking loss", None);
    Some(())
}

struct TestSteps<'a> {
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    test: &'a Test,
    cost: &'a TestCost,
    unit: DisplayUnit,
}

impl TestSteps<'_> {
    /// Where a column of a row stands; its name where it is blank.
    fn place(&self, row: usize, column: Column) -> Option<Place> {
        let input = &self.kitchen.entries.tests.get(row)?.input;
        Some(input.place(if input.typed(column).is_blank() { Column::Part } else { column }))
    }

    fn went_in(
        &self,
        walk: &mut Walk<'_>,
        (step, row): (StepWord, usize),
        source: IngredientSource,
        (grams, count): (Decimal, Option<Decimal>),
    ) {
        let (kitchen, costing) = (self.kitchen, self.costing);
        walk.amount(step, grams, (&self.unit, "g"), "", self.place(row, Column::Weight).as_ref());
        let found = priced(kitchen, costing, source, grams, count).ok();
        let Some((Ok(amount), Ok(unit_cost))) = found.map(|(amount, rate)| (amount.value(), rate.unit_cost())) else {
            return;
        };
        let kind = match source {
            IngredientSource::Bought(id) => costing.item(id).map(|cost| cost.kind.clone()),
            IngredientSource::Made(id) => costing.recipe(id).and_then(|cost| Some(cost.makes.as_ref()?.0.clone())),
            IngredientSource::Part(_) | IngredientSource::Unknown => None,
        };
        let kind = kind.unwrap_or(BaseUnitKind::Mass);
        let base = base_unit(&kind);
        let unit = match source {
            IngredientSource::Bought(id) => DisplayUnit::of_item(kitchen, costing, id),
            IngredientSource::Part(_) => Some(self.unit.clone()),
            _ => None,
        };
        let unit = unit.unwrap_or_else(|| DisplayUnit::of_house(&kind, kitchen.settings.volumes));
        if kind != BaseUnitKind::Mass {
            let words = if count.is_some() { "as it was counted" } else { "by its measures" };
            walk.amount(StepWord::Drawn, amount, (&unit, &base), words, None);
        }
        let (words, place) = match source {
            IngredientSource::Bought(id) => sources::price(kitchen, costing, id),
            other => (name_of(kitchen, other), None),
        };
        walk.rate(StepWord::UnitCost, unit_cost, (&unit, &base), words, place.as_ref());
        if let Ok(cost) = weight_cost(kitchen, costing, source, grams, count) {
            walk.money(StepWord::Cost, cost, "", None);
        }
    }

    fn came_out(&self, walk: &mut Walk<'_>, part: &Part, figures: &PartCost) {
        let units = (&self.unit, "g");
        let row = part.rows.first().copied();
        let at = |column: Column| row.and_then(|row| self.place(row, column));
        let words = format!("{}, {} of what went in", part.role.word(), walk.tongue.percent(figures.fraction));
        walk.amount(StepWord::CameOut, figures.grams, units, words, at(Column::Weight).as_ref());
        if part.role == Role::Waste {
            return;
        }
        let charged = charge_words::words(self.kitchen, self.test, part);
        match &part.charge {
            Charge::Joint { .. } => {
                let left = left_to_share(self.test, self.cost).filter(|left| !left.is_zero());
                if let Some(share) = left.and_then(|left| exact::div(figures.cost, left).ok()) {
                    walk.percent(StepWord::ShareOfRest, share, charged, at(Column::ChargedAs).as_ref());
                }
                walk.money(StepWord::Borne, figures.cost, "", None);
            }
            charge => {
                if let Some(rate) = figures.charge.and_then(|rate| rate.unit_cost().ok()) {
                    let charged = match charge {
                        Charge::Fraction(fraction) => format!("{} of the AP price", walk.tongue.percent(*fraction)),
                        _ => charged,
                    };
                    let has_value = matches!(charge, Charge::Fraction(_) | Charge::Price { .. });
                    let place = at(if has_value { Column::Value } else { Column::ChargedAs });
                    walk.rate(StepWord::Charge, rate, units, charged, place.as_ref());
                }
                walk.money(StepWord::Credit, figures.cost, "taken off what the mains bear", None);
            }
        }
        if let Some(per_gram) = figures.rate.and_then(|rate| rate.per_unit()) {
            walk.rate(StepWord::ByWeight, per_gram, units, "for those who use it", None);
        }
    }
}
