//! Flour of baker's percentages: what one per cent of it weighs, following Makes or the flour's own weight.

use super::ShownRecipe;
use super::line::LineCells;
use crate::kitchen::recipe::{Flour, LineEntry, LineQuantity};
use crate::number::{Decimal, plain};
use crate::results::line::{base_per_gram, batch_in_grams};
use crate::schema::{Column, Label, Typed, Value};
use crate::workbook::cells::formula::{NOT_KNOWN, not_if, says_other};
use crate::workbook::layout::recipe::Total;

/// The most ranges of cells that one formula adds up.
const MOST: usize = 30;

impl LineCells<'_> {
    /// The base units of one per cent, `factor`, of a line in % of the flour as a formula; `None` of other lines, and where it
    /// cannot be followed.
    pub(super) fn per_percent(&self, factor: Decimal) -> Option<String> {
        let per_gram = base_per_gram((self.entry, self.line), factor)?;
        let text = self.shown.grams_per_percent()?;
        Some(if per_gram == Decimal::ONE { text } else { format!("{text}*{}", plain(per_gram)) })
    }
}

impl ShownRecipe<'_> {
    /// What one per cent of the flour weighs, in grams, as a formula of its lines.
    fn grams_per_percent(&self) -> Option<String> {
        let flour = self.recipe.flour.as_ref()?;
        let (flours, count) = self.quantities(|index, _| flour.lines.contains(&index))?;
        if !flour.of_batch {
            let sum = self.weighed(flour)?;
            return Some(format!("IF(COUNT({flours})={count},({sum})/100,\"{NOT_KNOWN}\")"));
        }
        let (all, lines) = self.quantities(|_, line| line.is_percent())?;
        let makes = self.batch()?;
        let known = format!("COUNT({all})={lines},ABS(SUM({flours})-100)<=0.5");
        Some(format!("IF(AND({known}),{makes}/SUM({all}),\"{NOT_KNOWN}\")"))
    }

    /// What the batch weighs, in grams. Under Makes in two measures the first one is that of the totals.
    fn batch(&self) -> Option<String> {
        if self.recipe.makes.first()?.unit.grams().is_some() {
            return Some(self.layout.total(Total::Makes).from(self.layout.sheet()));
        }
        let grams = batch_in_grams(self.recipe)?;
        Some(not_if(&self.label_moved(Label::Makes).into_iter().collect::<Vec<_>>(), &plain(grams)))
    }

    /// That a label says something else.
    fn label_moved(&self, label: Label) -> Option<String> {
        let cell = self.layout.label(label)?.from(self.layout.sheet());
        moved(&cell, self.entry.input.typed(label.column()))
    }

    /// What would undo the weight of the flour: other percentages, other flour, another batch.
    pub(super) fn flour_moved(&self) -> Vec<String> {
        let Some(flour) = &self.recipe.flour else { return Vec::new() };
        let counts =
            |index: usize, line: &LineEntry| flour.lines.contains(&index) || (flour.of_batch && line.is_percent());
        let lines = self.entry.lines.iter().enumerate().filter(|(index, line)| counts(*index, line));
        let lines = lines.filter_map(|(index, line)| {
            let cell = self.layout.input(index, Column::Qty)?.absolute();
            moved(&cell, line.input.typed(Column::Qty))
        });
        let labels = [Label::Makes, Label::Portion, Label::Portions].into_iter().filter(|_| flour.of_batch);
        lines.chain(labels.filter_map(|label| self.label_moved(label))).collect()
    }

    /// The flour typed as weights, in grams.
    fn weighed(&self, flour: &Flour) -> Option<String> {
        let weights = flour.lines.iter().map(|index| {
            let LineQuantity::Measured(own) = &self.recipe.lines.get(*index)?.quantity else { return None };
            let cell = self.layout.input(*index, Column::Qty)?.absolute();
            Some(format!("{cell}*{}", plain(own.unit.grams()?)))
        });
        Some(weights.collect::<Option<Vec<_>>>()?.join("+"))
    }

    /// The quantities of some lines as ranges, and how many they are; `None` where one is no number as typed.
    fn quantities(&self, is_meant: impl Fn(usize, &LineEntry) -> bool) -> Option<(String, usize)> {
        let mut ranges: Vec<(usize, usize)> = Vec::new();
        let mut count = 0_usize;
        for (index, line) in self.entry.lines.iter().enumerate().filter(|(index, line)| is_meant(*index, line)) {
            if !matches!(line.input.typed(Column::Qty).value, Value::Number(_)) {
                return None;
            }
            count = count.saturating_add(1);
            match ranges.last_mut() {
                Some((_, last)) if last.saturating_add(1) == index => *last = index,
                _ => ranges.push((index, index)),
            }
        }
        let cell = |index: usize| Some(self.layout.input(index, Column::Qty)?.absolute());
        let text = ranges.iter().map(|(first, last)| match first == last {
            true => cell(*first),
            false => Some(format!("{}:{}", cell(*first)?, cell(*last)?)),
        });
        let text = text.collect::<Option<Vec<_>>>()?.join(",");
        (!ranges.is_empty() && ranges.len() <= MOST).then_some((text, count))
    }
}

/// That a cell does not hold what was typed; `None` where nothing was.
fn moved(cell: &str, typed: &Typed) -> Option<String> {
    match &typed.value {
        Value::Number(number) => Some(format!("{cell}<>{}", plain(*number))),
        _ if typed.is_blank() => None,
        _ => Some(says_other(cell, typed.words())),
    }
}
