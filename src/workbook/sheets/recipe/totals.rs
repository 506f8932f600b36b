//! A recipe's totals: food, Q and spice, what the batch makes, its portions, and what one of each costs.

use super::new_lines::unless_new;
use super::{MOVED, NOT_COSTED, ShownRecipe, TotalCell};
use crate::costing::RecipeCost;
use crate::costing::q_and_spice::QAndSpice;
use crate::kitchen::recipe::{Line, LineQuantity, QFactor};
use crate::number::{BareRule, Decimal, plain};
use crate::results::display_units::MadeUnit;
use crate::results::recipe::BatchFigures;
use crate::schema::Label;
use crate::workbook::cells::formula::{Formula, NOT_KNOWN, Ref, YES, is_typed, needed, not_if, says_other, unless};
use crate::workbook::cells::row::{Content, Ink, Look};
use crate::workbook::layout::recipe::Total;

/// Collects the totals of a costed recipe.
pub(super) struct BatchTotals<'a> {
    pub(super) shown: &'a ShownRecipe<'a>,
    pub(super) cells: Vec<TotalCell>,
}

impl BatchTotals<'_> {
    fn figure(&mut self, total: Total, text: String, result: Decimal, look: Look) {
        let content = Content::Formula(Formula::number(text, result));
        self.cells.push(TotalCell { total, content, ink: Ink::Figure, look });
    }

    /// A reading of what was typed under labels.
    fn reading(&mut self, total: Total, number: Decimal, look: Look, read_of: &[Label]) {
        let layout = self.shown.layout;
        let other = read_of.iter().filter_map(|label| {
            let typed = self.shown.entry.input.typed(label.column());
            if typed.is_blank() {
                return None;
            }
            Some(says_other(&layout.label(*label)?.cell(), typed.words()))
        });
        let read = unless(&other.collect::<Vec<_>>(), number);
        let content = read.map_or(Content::Number(number), Content::Formula);
        self.cells.push(TotalCell { total, content, ink: Ink::Reading, look });
    }

    fn money(&self) -> Look {
        self.shown.context.money()
    }

    /// Food, Q, spice and all three.
    pub(super) fn batch(&mut self, cost: &RecipeCost) {
        let shown = self.shown;
        self.figure(Total::Food, self.food(), cost.food, self.money());
        match self.q() {
            Some(text) => self.figure(Total::Q, text, cost.q, self.money()),
            None => self.reading(Total::Q, Decimal::ZERO, self.money(), &[]),
        }
        let (food, q) = (shown.at(Total::Food), shown.at(Total::Q));
        let spiced = shown.context.spiced(self.added().spice_covers_q, (&food, &q), shown.layout.facts_sheet());
        match shown.label(Label::SpiceFactor, BareRule::BelowOne) {
            Some(cell) => self.figure(Total::Spice, format!("{cell}*{spiced}"), cost.spice, self.money()),
            None => self.reading(Total::Spice, Decimal::ZERO, self.money(), &[]),
        }
        let all = format!("{}+{}+{}", shown.at(Total::Food), shown.at(Total::Q), shown.at(Total::Spice));
        self.figure(Total::Batch, all, cost.batch, self.money());
    }

    fn food(&self) -> String {
        let layout = self.shown.layout;
        let costs = layout.line_costs();
        // Lines that are new, or of which something is not known, would be left out of the sum.
        let uncosted = layout.total(Total::Uncosted);
        let mut all = vec![format!("ISNUMBER({})", uncosted.cell()), format!("COUNTIF({costs},\"{NOT_KNOWN}\")=0")];
        if !layout.is_card() {
            let over = Ref { row: 0, ..uncosted.clone() };
            all.push(format!("{}=\"{}\"", over.absolute(), Total::Uncosted.label()));
        }
        match layout.lines {
            0 => "0".to_owned(),
            _ => format!("IF(AND({}),SUM({costs}),\"{NOT_KNOWN}\")", all.join(",")),
        }
    }

    /// How many lines have no cost; words where some are new, or are in another place.
    pub(super) fn uncosted(&mut self, cost: &RecipeCost) {
        let shown = self.shown;
        let count = Decimal::from(cost.uncosted_lines());
        let counted = format!("COUNTIF({},\"{NOT_COSTED}\")", shown.layout.line_costs());
        let counted = not_if(&self.unmeasured_without_cost(), &counted);
        let text = match shown.layout.in_place() {
            Some(_) if shown.layout.lines == 0 => return self.reading(Total::Uncosted, count, Look::General, &[]),
            Some(in_place) => format!("IF({}=\"{YES}\",{counted},\"{MOVED}\")", in_place.cell()),
            None => unless_new(shown.layout, shown.entry, &counted),
        };
        let content = Content::Formula(Formula::number(text, count));
        self.cells.push(TotalCell { total: Total::Uncosted, content, ink: Ink::Figure, look: Look::General });
    }

    /// That what a pinch costs, or the like, is not known: of an ingredient without a price it would be one more line that is
    /// not costed.
    fn unmeasured_without_cost(&self) -> Vec<String> {
        let of_a_pinch = |line: &&Line| matches!(line.quantity, LineQuantity::Unmeasured { measured: Some(_), .. });
        let layout = self.shown.layout;
        let cost = |at| layout.own(at, "Line cost").from(layout.facts_sheet());
        let lines = self.shown.recipe.lines.iter().enumerate().filter(|(_, line)| of_a_pinch(line));
        lines.map(|(at, _)| format!("{}=\"{NOT_KNOWN}\"", cost(at))).collect()
    }

    fn added(&self) -> QAndSpice {
        let context = self.shown.context;
        QAndSpice::of_batch(context.kitchen, &context.costing.scenario, self.shown.recipe)
    }

    fn q(&self) -> Option<String> {
        if let Some((QFactor::Money(_), _)) = self.added().q {
            let cell = self.shown.layout.label(Label::QFactor)?.cell();
            let money = format!("IF({},{cell},IF({cell}=\"\",0,\"{NOT_KNOWN}\"))", is_typed(&cell));
            return Some(format!("{money}*{}", self.shown.at(Total::Portions)));
        }
        let share = self.shown.label(Label::QFactor, BareRule::MustSay)?;
        Some(format!("{share}*{}", self.shown.at(Total::Food)))
    }

    /// What one of the units costs in which it is typed what the batch makes.
    fn per_made(&mut self, batch: Decimal, in_base: Decimal) {
        let Some(unit) = MadeUnit::of(self.shown.recipe) else { return };
        if let (Some(factor), Some(cost)) = (unit.share_of(in_base), unit.share_of(batch)) {
            let text = format!("{}*{}", self.shown.at(Total::UnitCost), plain(factor));
            self.figure(Total::PerMade, text, cost, self.money());
        }
    }

    /// What the batch makes, its portions, and what one of each costs.
    pub(super) fn makes_and_portions(&mut self, cost: &RecipeCost) {
        let shown = self.shown;
        let figures = BatchFigures::of(cost);
        let kept = match shown.label(Label::ServingLoss, BareRule::BelowOne) {
            Some(cell) => format!("(1-{cell})"),
            None => "1".to_owned(),
        };
        let stated = shown.portions_typed();
        if let Some((_, makes)) = &cost.makes {
            match &stated {
                Some(portions) if shown.recipe.makes_computed => {
                    let text = format!("{}*{}/{kept}", shown.at(Total::Portion), needed(portions));
                    self.figure(Total::Makes, text, *makes, Look::Quantity);
                }
                _ if shown.recipe.makes_computed => {
                    self.reading(Total::Makes, *makes, Look::Quantity, &[Label::Portion, Label::Portions]);
                }
                _ => self.reading(Total::Makes, *makes, Look::Quantity, &[Label::Makes]),
            }
            if let Some(unit_cost) = figures.unit_cost {
                let text = format!("{}/{}", shown.at(Total::Batch), shown.at(Total::Makes));
                self.figure(Total::UnitCost, text, unit_cost, shown.context.per_base_unit());
                self.per_made(cost.batch, *makes);
            }
        }
        if let Some(portion) = figures.portion {
            self.reading(Total::Portion, portion, Look::Quantity, &[Label::Portion]);
        }
        if let Some(portions) = figures.portions {
            match (stated, shown.recipe.stated_portions) {
                (Some(cell), _) => self.figure(Total::Portions, needed(&cell), portions, Look::Quantity),
                (None, Some(_)) => {
                    let typed = !shown.entry.input.typed(Label::Portions.column()).is_blank();
                    let label = if typed { Label::Portions } else { Label::Makes };
                    self.reading(Total::Portions, portions, Look::Quantity, &[label]);
                }
                (None, None) => {
                    let text = format!("{}*{kept}/{}", shown.at(Total::Makes), shown.at(Total::Portion));
                    self.figure(Total::Portions, text, portions, Look::Quantity);
                }
            }
        }
        if let Some(portion_cost) = cost.portion_cost {
            let text = format!("{}/{}", shown.at(Total::Batch), shown.at(Total::Portions));
            self.figure(Total::PortionCost, text, portion_cost, self.money());
        }
    }
}
