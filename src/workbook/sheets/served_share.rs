//! Share of a batch that a dish is served as, as formulas: from the totals of its recipe, as long as the menu's Portion says
//! what it said.

use crate::costing::Plate;
use crate::costing::dish::ServedAs;
use crate::kitchen::menu::Dish;
use crate::kitchen::recipe::Recipe;
use crate::number::{BareRule, plain};
use crate::results::dish;
use crate::schema::{Column, Label, TableKind, Typed};
use crate::workbook::cells::formula::{not_as_typed, not_if, unless};
use crate::workbook::context::{Context, fraction_or};
use crate::workbook::layout::recipe::{RecipeLayout, Total};

/// The formulas of what is served of a batch, for a row of a sheet.
pub struct ServedShare<'a> {
    context: &'a Context<'a>,
    dish: &'a Dish,
    recipe: &'a Recipe,
    card: &'a RecipeLayout,
    plate: Plate,
    /// The sheet on which they stand, and the zero-based row.
    at: (&'a str, u32),
}

impl<'a> ServedShare<'a> {
    /// Those of `dish`; `None` where its recipe is not in the book.
    pub fn of(context: &'a Context<'_>, dish: &'a Dish, plate: Plate, at: (&'a str, u32)) -> Option<Self> {
        let id = dish.recipe?;
        let card = context.layout.recipes.get(id.index())?;
        Some(ServedShare { context, dish, recipe: context.kitchen.recipe(id)?, card, plate, at })
    }

    /// That a cell of its row of the menu says something else than it said, or something where it was blank.
    fn says_other(&self, column: Column) -> Option<String> {
        let row = self.dish.row?;
        let typed = self.context.kitchen.entries.menu.get(row)?.input.typed(column);
        let table = self.context.layout.table(TableKind::Menu)?;
        let cell = table.input(row, column)?.beside(self.at.0, self.at.1);
        (table.roomy || !typed.is_blank()).then(|| not_as_typed(&cell, typed))
    }

    /// How much is served, as long as the menu's Portion says so.
    fn served(&self) -> String {
        let batch = self.dish.recipe.and_then(|id| self.context.costing.recipe(id));
        let served = dish::served(self.plate, self.recipe, batch).unwrap_or_default();
        let other = self.says_other(Column::Portion);
        unless(other.as_slice(), served).map_or_else(|| plain(served), |formula| formula.text)
    }

    /// Portions over what the batch has of them, or the dish's own portion in proportion to the card's; batches as they are.
    pub fn text(&self) -> String {
        let total = |total| self.card.total(total).from(self.at.0);
        let served = self.served();
        match self.plate.served {
            ServedAs::Batches(_) => served,
            ServedAs::Portions(_) | ServedAs::OfPortion(_) => format!("{served}/{}", total(Total::Portions)),
            ServedAs::OfMakes => {
                // Its portion over what the batch makes net of serving loss.
                let loss = label(
                    self.context,
                    (self.recipe, self.card),
                    Label::ServingLoss,
                    BareRule::BelowOne,
                    "0",
                    self.at.0,
                );
                let kept = loss.map_or("1".to_owned(), |loss| format!("(1-{loss})"));
                format!("{served}/({}*{kept})", total(Total::Makes))
            }
        }
    }

    /// What a plate costs inside another recipe, which names the dish: as long as the menu has it, of the same recipe.
    pub fn of_batch(&self) -> String {
        let other: Vec<String> = [Column::Dish, Column::Recipe].iter().filter_map(|at| self.says_other(*at)).collect();
        not_if(&other, &format!("{}*{}", self.text(), self.card.total(Total::Batch).from(self.at.0)))
    }
}

/// A label of a recipe's card as a formula reads it, with what counts where it is blank.
pub fn label(
    context: &Context<'_>,
    (recipe, card): (&Recipe, &RecipeLayout),
    label: Label,
    rule: BareRule,
    blank: &str,
    sheet: &str,
) -> Option<String> {
    fraction_or(typed(context, recipe, label)?, &card.label(label)?.from(sheet), rule, blank)
}

/// What is typed under a label of a recipe.
fn typed<'a>(context: &'a Context<'_>, recipe: &Recipe, label: Label) -> Option<&'a Typed> {
    Some(context.kitchen.entries.recipes.get(recipe.entry)?.input.typed(label.column()))
}
