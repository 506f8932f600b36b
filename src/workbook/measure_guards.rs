//! Guards of measures: what would undo the measures that lead from a unit of an ingredient to another.

use crate::costing::MeasureFrom;
use crate::in_order::InOrder;
use crate::kitchen::NameKey;
use crate::kitchen::bridge::Bridge;
use crate::kitchen::recipe::IngredientSource;
use crate::measure::Unit;
use crate::schema::{Column, TableKind, Typed};
use crate::workbook::cells::formula::{BLANK, says_other};
use crate::workbook::context::Context;

/// So many bytes of conditions leave room in a formula for what they are about.
const ROOM: usize = 5_000;

/// What would undo the `measures` that lead from a unit of `source` to another, as formulas of `sheet` read it: a row of the
/// book says something else, or one of its others, which could be meant then, says nothing, or two things.
pub fn missed(context: &Context<'_>, measures: &[MeasureFrom], source: IngredientSource, sheet: &str) -> Vec<String> {
    if measures.is_empty() {
        return Vec::new();
    }
    let rows = measures.iter().filter_map(|step| if let MeasureFrom::Row(row) = step { Some(*row) } else { None });
    let used: Vec<usize> = rows.collect();
    let asked = asked(context, &used, source);
    MeasureGuards { context, source, used, asked, sheet }.conditions()
}

/// Whether it may hang on how an ingredient is prepared which of its measures lead from a unit of it to another.
pub fn asks_for_prep(context: &Context<'_>, measures: &[MeasureFrom], source: IngredientSource) -> bool {
    let borrowed = measures.iter().any(|step| matches!(step, MeasureFrom::Reference(..)));
    let of_prep = |bridge: &Bridge| bridge.measures.iter().any(|measure| measure.prep.is_some());
    borrowed || (!measures.is_empty() && bridge(context, source).is_some_and(of_prep))
}

fn bridge<'a>(context: &'a Context<'_>, source: IngredientSource) -> Option<&'a Bridge> {
    let kitchen = context.kitchen;
    match source {
        IngredientSource::Bought(id) => kitchen.item(id).map(|item| &item.bridge),
        IngredientSource::Part(id) => kitchen.part(id).map(|part| &part.bridge),
        IngredientSource::Made(id) => kitchen.recipe(id).map(|recipe| &recipe.bridge),
        IngredientSource::Unknown => None,
    }
}

fn name<'a>(context: &'a Context<'_>, source: IngredientSource) -> Option<&'a str> {
    let kitchen = context.kitchen;
    match source {
        IngredientSource::Bought(id) => Some(&kitchen.item(id)?.name),
        IngredientSource::Part(id) => Some(&kitchen.part(id)?.name),
        IngredientSource::Made(id) => Some(&kitchen.recipe(id)?.name),
        IngredientSource::Unknown => None,
    }
}

/// The rows that could be meant, those that are used among them, in book order.
fn asked(context: &Context<'_>, used: &[usize], source: IngredientSource) -> Vec<usize> {
    let kitchen = context.kitchen;
    let named = used.iter().filter_map(|row| kitchen.entries.measures.get(*row)?.measure.given());
    let mut asked: Vec<(Unit, Option<NameKey>)> =
        named.map(|(unit, prep)| (unit.clone(), prep.as_deref().map(NameKey::of))).collect();
    if asked.is_empty() {
        asked.push((Unit::gram(), None));
    }
    let mut rows: Vec<usize> = Vec::new();
    for ((unit, prep), bridge) in asked.iter().flat_map(|asked| Some(asked).zip(bridge(context, source))) {
        let others = bridge.asked([unit, unit], prep.as_ref(), kitchen.settings.volumes);
        rows.extend(others.into_iter().map(|measure| measure.row));
    }
    rows.extend(used);
    rows.put_in_order();
    rows.dedup();
    rows
}

/// The rows of Measures that lead from a unit to another, and those that could be meant.
struct MeasureGuards<'a> {
    context: &'a Context<'a>,
    source: IngredientSource,
    used: Vec<usize>,
    asked: Vec<usize>,
    /// On which the formulas stand.
    sheet: &'a str,
}

impl MeasureGuards<'_> {
    fn conditions(&self) -> Vec<String> {
        let of = |rows: &[usize], conditions: &dyn Fn(usize) -> Vec<String>| -> Vec<String> {
            rows.iter().flat_map(|row| conditions(*row)).collect()
        };
        let mut all = of(&self.used, &|row| self.amount(row));
        all.extend(of(&self.used, &|row| self.words(row)));
        all.extend(self.added());
        all.extend(of(&self.used, &|row| self.moved(row)));
        let others: Vec<usize> = self.asked.iter().copied().filter(|row| !self.used.contains(row)).collect();
        let of_others = of(&others, &|row| {
            let moved = self.context.measured_by(row).and_then(|column| self.elsewhere(row, column));
            self.amount(row).into_iter().chain(moved).collect()
        });
        // Of many measures more can be asked than a formula has room for.
        for condition in of_others {
            if all.iter().map(String::len).fold(condition.len(), usize::saturating_add) > ROOM {
                break;
            }
            all.push(condition);
        }
        all
    }

    fn typed(&self, row: usize, column: Column) -> Option<&Typed> {
        let typed = self.context.kitchen.entries.measures.get(row)?.input.typed(column);
        (!typed.is_blank()).then_some(typed)
    }

    fn cell(&self, row: usize, column: Column) -> Option<String> {
        Some(self.context.input(TableKind::Measures, row, column)?.from(self.sheet))
    }

    /// That it does not say as much as it said; or says both what it weighs and what it holds, and so neither. One that is
    /// not used may be taken out.
    fn amount(&self, row: usize) -> Vec<String> {
        const SAYING: [Column; 2] = [Column::Weighs, Column::Holds];
        let by = self.context.measured_by(row);
        let said = self.context.measure_cell(row).map(|cell| cell.from(self.sheet)).map(|cell| {
            let words = SAYING.into_iter().find_map(|column| self.typed(row, column)?.words());
            if self.used.contains(&row) { says_other(&cell, words) } else { format!("IFERROR({cell},1)={BLANK}") }
        });
        let other = SAYING.into_iter().find(|column| Some(*column) != by).and_then(|column| self.cell(row, column));
        said.into_iter().chain(other.map(|cell| format!("IFERROR({cell},{BLANK})<>{BLANK}"))).collect()
    }

    /// That it says another ingredient, measure or basis.
    fn words(&self, row: usize) -> Vec<String> {
        let other = |column| Some(says_other(&self.cell(row, column)?, self.typed(row, column)?.words()));
        [Column::Item, Column::Measure, Column::Basis].into_iter().filter_map(other).collect()
    }

    /// That more rows name the ingredient than did.
    fn added(&self) -> Vec<String> {
        let context = self.context;
        let named = self.asked.iter().filter_map(|row| context.kitchen.entries.measures.get(*row));
        let mut names: Vec<Typed> = named.map(|row| row.input.typed(Column::Item).clone()).collect();
        if names.is_empty() {
            names.extend(name(context, self.source).map(Typed::text));
        }
        names.dedup();
        // In lists every line would look through all of them.
        let names = names.iter().filter(|_| context.layout.lists.is_none());
        names.filter_map(|name| context.more_rows(TableKind::Measures, Column::Item, name, self.sheet)).collect()
    }

    /// That what it says stands elsewhere.
    fn moved(&self, row: usize) -> Vec<String> {
        let basis = self.typed(row, Column::Basis).map(|_| Column::Basis);
        let columns = [Some(Column::Item), Some(Column::Measure), self.context.measured_by(row), basis];
        columns.into_iter().flatten().filter_map(|column| self.elsewhere(row, column)).collect()
    }

    fn elsewhere(&self, row: usize, column: Column) -> Option<String> {
        let context = Some(self.context).filter(|context| context.layout.lists.is_none())?;
        context.elsewhere(TableKind::Measures, row, column, self.sheet)
    }
}
