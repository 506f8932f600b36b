//! Recipes on the Summary: what is made for other dishes, each leading to its card, with what its batch and one of its units
//! cost; all of them where the book has no dish, with what a portion costs, too.

use std::collections::HashSet;

use crate::kitchen::RecipeId;
use crate::schema::own_sheets;
use crate::workbook::cells::formula::{Formula, Outcome, Ref};
use crate::workbook::cells::row::{Cell, Content, Ink, Look, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::recipe::Total;
use crate::workbook::layout::sheet_names;
use crate::workbook::sheets::recipe::ShownRecipe;

/// The columns of the unit made, of the portion's cost, and of what a portion is.
const MADE: u16 = 3;
const PORTION_COST: u16 = 4;
const PORTION: u16 = 5;

/// Recipes that are no dish of their own.
pub(super) struct RecipesMade<'a> {
    context: &'a Context<'a>,
    recipes: Vec<RecipeId>,
}

impl<'a> RecipesMade<'a> {
    /// Those that have cards to lead to.
    pub(super) fn of(context: &'a Context<'_>) -> Self {
        let sold: HashSet<RecipeId> = context.kitchen.dishes.iter().filter_map(|dish| dish.recipe).collect();
        let recipes: Vec<RecipeId> = if context.layout.lists.is_some() {
            Vec::new()
        } else {
            (0..context.kitchen.recipes.len()).map(RecipeId::new).filter(|id| !sold.contains(id)).collect()
        };
        RecipesMade { context, recipes }
    }

    /// Whether they stand in place of the dishes, of which there are none.
    pub(super) fn are_alone(&self) -> bool {
        self.context.kitchen.dishes.is_empty() && !self.context.kitchen.recipes.is_empty()
    }

    /// How many rows they take, the headers among them.
    pub(super) fn len(&self) -> u32 {
        let rows = u32::try_from(self.recipes.len()).unwrap_or(u32::MAX);
        match (self.are_alone(), rows) {
            (true, 0) => 2,
            (false, 0) => 0,
            _ => rows.saturating_add(1),
        }
    }

    /// Their rows, the headers in `row`.
    pub(super) fn rows(&self, row: u32, out: &mut RowSink<'_>) {
        if self.len() == 0 {
            return;
        }
        out(Row { row, cells: self.headers() });
        if self.recipes.is_empty() {
            out(Row { row: row.saturating_add(1), cells: self.in_lists().into_iter().collect() });
        }
        for (id, row) in self.recipes.iter().zip(row.saturating_add(1)..) {
            let Some(shown) = ShownRecipe::of(self.context, *id) else { continue };
            out(Row { row, cells: self.cells(&shown) });
        }
    }

    fn headers(&self) -> Vec<Cell> {
        let [recipe, batch, unit, made, portion_cost, portion] = own_sheets::RECIPES_MADE;
        let words = |column, text| Cell { look: Look::Words, ..Cell::text(column, text, Ink::OwnHeader) };
        let recipe = if self.are_alone() { recipe } else { "Made for other dishes" };
        let mut cells = vec![
            Cell::text(0, recipe, Ink::OwnHeader),
            Cell::over_figures(1, batch),
            Cell::over_figures(2, unit),
            words(MADE, made),
        ];
        if self.are_alone() {
            cells.extend([Cell::over_figures(PORTION_COST, portion_cost), words(PORTION, portion)]);
        }
        cells
    }

    /// Where so many recipes that they have no cards say what they cost.
    fn in_lists(&self) -> Option<Cell> {
        let facts = &self.context.layout.lists.as_ref()?.facts;
        let text = format!("What each of {} recipes costs: {}", self.context.kitchen.recipes.len(), facts.sheet);
        Some(Cell::link(0, text, &Ref::new(facts.sheet.to_string(), 0, 0), Ink::Reading))
    }

    fn cells(&self, shown: &ShownRecipe<'_>) -> Vec<Cell> {
        let mut cells = vec![Cell::link(0, &shown.recipe.name, &shown.layout.home(), Ink::Reading)];
        let totals = shown.totals();
        let portion_cost = Some((Total::PortionCost, PORTION_COST)).filter(|_| self.are_alone());
        for (total, column) in [(Total::Batch, 1), (Total::PerMade, 2)].into_iter().chain(portion_cost) {
            let found = totals.iter().find(|found| found.total == total).map(|found| &found.content);
            if let Some(Content::Formula(Formula { result: Outcome::Number(result), .. })) = found {
                let text = shown.layout.total(total).from(sheet_names::SUMMARY);
                cells.push(Cell::figure(column, Formula::number(text, *result), self.context.money()));
            }
        }
        let words = |column, text: String| Cell { look: Look::Words, ..Cell::text(column, text, Ink::Reading) };
        match (shown.cost, shown.unit_told()) {
            (None, _) => cells.push(words(MADE, "not costed".to_owned())),
            (Some(_), Some(unit)) => cells.push(words(MADE, format!("per {unit}"))),
            _ => {}
        }
        let is_told = self.are_alone() && shown.cost.is_some_and(|cost| cost.portions.is_some());
        let portion = shown.recipe.portion.as_ref().filter(|_| is_told);
        cells.extend(portion.map(|portion| words(PORTION, portion.to_string())));
        cells
    }
}
