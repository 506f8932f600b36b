//! Recipe cells of our own, wherever it stands: the cells of our own beside every line, its totals, its words.

mod flour;
mod line;
mod new_lines;
mod totals;

use line::LineCells;
use totals::BatchTotals;

use crate::costing::{AllergenSet, LineCost, RecipeCost};
use crate::kitchen::RecipeId;
use crate::kitchen::recipe::{IngredientSource, Line, LineEntry, LineQuantity, Recipe, RecipeEntry};
use crate::number::{BareRule, Decimal};
use crate::results::allergen_words::in_words;
use crate::results::allergen_words::silent_name;
use crate::results::display_units::{MadeUnit, base_unit};
use crate::schema::{Column, Label, TableKind, Value, output};
use crate::workbook::cells::formula::{Formula, NOT_KNOWN, Ref, literal};
use crate::workbook::cells::row::{Cell, Content, Ink, Look};
use crate::workbook::context::{Context, fraction_or};
use crate::workbook::layout::dish_cells::CardRows;
use crate::workbook::layout::recipe::{LineColumns, RecipeLayout, Total};

/// What stands for the cost of a line that has none: it stops nothing, and is counted.
pub(super) const NOT_COSTED: &str = "not costed";

/// What is said of allergens where some ingredient does not say.
pub(super) const NONE_STATED: &str = "none stated";

/// What is said where the rows of a list are not those that were costed.
pub const MOVED: &str = "lines moved or new: cost again";

/// A recipe with everything that its sheet is made from.
pub struct ShownRecipe<'a> {
    /// What every sheet is made from.
    pub context: &'a Context<'a>,
    /// The recipe's id.
    pub id: RecipeId,
    /// The recipe.
    pub recipe: &'a Recipe,
    /// The recipe as typed.
    pub entry: &'a RecipeEntry,
    /// Where it stands.
    pub layout: &'a RecipeLayout,
    columns: LineColumns,
    /// What it costs; `None` when a problem stops it.
    pub cost: Option<&'a RecipeCost>,
}

/// A total, or a reading among the totals.
pub struct TotalCell {
    /// Which.
    pub total: Total,
    /// What stands in it.
    pub content: Content,
    /// A figure or a reading.
    pub ink: Ink,
    /// How it is shown.
    pub look: Look,
}

impl<'a> ShownRecipe<'a> {
    /// The recipe of an id; `None` for an id that is not of this kitchen.
    pub fn of(context: &'a Context<'a>, id: RecipeId) -> Option<Self> {
        let recipe = context.kitchen.recipe(id)?;
        let layout = context.layout.recipes.get(id.index())?;
        Some(ShownRecipe {
            context,
            id,
            recipe,
            entry: context.kitchen.entries.recipes.get(recipe.entry)?,
            layout,
            columns: layout.line_columns(),
            cost: context.costing.recipe(id),
        })
    }

    /// Adds the cells of our own of the line at `index`.
    pub fn line(&self, index: usize, cells: &mut Vec<Cell>) {
        let (Some(entry), Some(line)) = (self.entry.lines.get(index), self.recipe.lines.get(index)) else {
            return cells.push(self.said("not read"));
        };
        cells.reserve(self.layout.slots().len());
        cells.extend(self.source(line));
        match self.cost.and_then(|cost| cost.lines.get(index)) {
            Some(LineCost::Costed { cost, trace }) => {
                LineCells { shown: self, index, entry, line, trace }.put(*cost, cells);
            }
            Some(LineCost::Uncosted) => cells.push(self.without_cost(index, entry)),
            None => {}
        }
    }

    /// Whether a yield typed on the line at `index`, which has none, is followed.
    pub fn follows_own_yield(&self, index: usize) -> bool {
        let (Some(entry), Some(line)) = (self.entry.lines.get(index), self.recipe.lines.get(index)) else {
            return false;
        };
        match self.cost.and_then(|cost| cost.lines.get(index)) {
            Some(LineCost::Costed { trace, .. }) => {
                LineCells { shown: self, index, entry, line, trace }.follows_own_yield()
            }
            Some(LineCost::Uncosted) | None => false,
        }
    }

    /// The cost of a line without one, as long as no quantity is typed.
    fn without_cost(&self, index: usize, entry: &LineEntry) -> Cell {
        let column = self.columns.line_cost;
        let typed = entry.input.typed(Column::Qty);
        let cell = self.layout.input(index, Column::Qty).map(|cell| cell.cell()).unwrap_or_default();
        let still = match (typed.is_blank(), typed.words().and_then(literal)) {
            (true, _) => format!("{cell}=\"\""),
            (false, Some(words)) => format!("OR({cell}={words},{cell}=\"\")"),
            // A number of what has no weight.
            (false, None) => return Cell { look: Look::Words, ..Cell::text(column, NOT_COSTED, Ink::Reading) },
        };
        let text = format!("IF({still},\"{NOT_COSTED}\",\"{NOT_KNOWN}\")");
        Cell { ink: Ink::Reading, ..Cell::figure(column, Formula::text(text, NOT_COSTED), Look::Words) }
    }

    /// A word where an ingredient's source stands. Every line has one, so that a line of nothing but a name in capitals
    /// is not taken for a heading when it is read again.
    fn said(&self, word: &str) -> Cell {
        Cell::text(self.columns.source, word, Ink::Reading)
    }

    /// Where the ingredient comes from, leading there.
    fn source(&self, line: &Line) -> Option<Cell> {
        let context = self.context;
        let column = self.columns.source;
        let (text, to) = match line.source {
            IngredientSource::Bought(id) => match context.item_cell(id) {
                Some(cell) => ("bought".to_owned(), cell),
                None => return Some(self.said("bought")),
            },
            IngredientSource::Part(part) => {
                let test = context.kitchen.test(part.test)?;
                let row = *context.kitchen.part(part)?.rows.first()?;
                (format!("from {}", test.name), context.input(TableKind::YieldTests, row, Column::Part)?)
            }
            IngredientSource::Made(id) => {
                let home = context.layout.recipes.get(id.index())?.home();
                ("made: see its recipe".to_owned(), home)
            }
            IngredientSource::Unknown => {
                let measured = matches!(line.quantity, LineQuantity::Measured(_));
                return Some(self.said(if measured { "not found" } else { "not costed" }));
            }
        };
        let content = Content::Link { text, to: Box::new(to) };
        Some(Cell { column, content, ink: Ink::Reading, look: Look::General })
    }

    /// Where it stands what the one dish that is sold of the recipe costs, with what that is: `None` of several, of none, and of
    /// one in another portion than the card's.
    pub fn only_dish(&self) -> Option<(Ref, Decimal)> {
        let context = self.context;
        let dishes = context.kitchen.dishes.iter().zip(&context.costing.dishes).enumerate();
        let mut sold = dishes.filter(|(_, (dish, _))| dish.recipe == Some(self.id));
        let (index, (_, cost)) = sold.next().filter(|_| sold.next().is_none())?;
        let (cost, portions) = (cost.as_ref()?, self.cost.and_then(|made| made.portions));
        let is_other = portions.and_then(|portions| cost.plate().is_portion_of_card(portions)) == Some(false);
        let at = CardRows::of(context, index).filter(|_| !is_other)?.cost(3);
        Some((at, cost.portion_cost))
    }

    /// A total as formulas beside the totals name it.
    fn at(&self, total: Total) -> String {
        self.layout.total(total).cell()
    }

    /// A label's value as formulas beside the totals read it; nought where it is blank.
    fn label(&self, label: Label, rule: BareRule) -> Option<String> {
        let cell = self.layout.label(label)?.cell();
        fraction_or(self.entry.input.typed(label.column()), &cell, rule, "0")
    }

    /// The totals that are known, in their order.
    pub fn totals(&self) -> Vec<TotalCell> {
        let Some(cost) = self.cost else { return Vec::new() };
        let mut totals = BatchTotals { shown: self, cells: Vec::new() };
        totals.batch(cost);
        totals.makes_and_portions(cost);
        totals.uncosted(cost);
        totals.cells
    }

    /// The unit that the batch is counted in.
    pub fn unit_made(&self) -> Option<String> {
        self.cost.and_then(|cost| cost.makes.as_ref()).map(|(kind, _)| base_unit(kind))
    }

    /// The unit by which it is told what the batch costs.
    pub fn unit_told(&self) -> Option<String> {
        MadeUnit::of(self.recipe).map(|unit| unit.name)
    }

    /// Allergens, each under its label; nothing where there is nothing to say.
    pub fn words(&self) -> Vec<(&'static str, String)> {
        let empty = AllergenSet::default();
        let set = self.context.costing.allergens.get(self.id.index()).unwrap_or(&empty);
        let silent: Vec<String> = set.not_stated.iter().map(|one| silent_name(self.context.kitchen, *one)).collect();
        let words = [
            or_none(in_words(set.contains.iter()).join(", "), silent.is_empty()),
            // A blank May contain says nothing, whatever is said of allergens.
            or_none(in_words(set.may_contain.iter()).join(", "), false),
            // Names have commas in them.
            silent.join("; "),
        ];
        let labels = output::CARD_LABELS.iter().copied().skip(Total::Uncosted.index().saturating_add(1));
        labels.zip(words).filter(|(_, text)| !text.is_empty()).collect()
    }

    /// The cell of the portions as typed, where it is a number: beside Portions, or alone beside Makes.
    fn portions_typed(&self) -> Option<String> {
        let is_number = |column: Column| matches!(self.entry.input.typed(column).value, Value::Number(_));
        let label = if is_number(Column::Portions) {
            Label::Portions
        } else if self.entry.input.typed(Column::Portions).is_blank() && is_number(Column::Makes) {
            Label::Makes
        } else {
            return None;
        };
        self.layout.label(label).map(|cell| cell.cell())
    }
}

/// How a blank cell of a recipe looks in which a number counts, or on which nothing hangs; `None` where a word would change
/// how a line is read, which wants costing again: such a cell does not look like one to fill.
pub fn room(column: Column) -> Option<Look> {
    match column {
        Column::Note | Column::Group | Column::Method => Some(Look::General),
        // What is typed there is a percentage, whatever program takes it.
        Column::Yield | Column::Used | Column::Target | Column::QFactor | Column::SpiceFactor | Column::ServingLoss => {
            Some(Look::Percent(1))
        }
        _ => None,
    }
}

/// The allergens as text. None are only *none* where every ingredient states its own.
fn or_none(text: String, all_state: bool) -> String {
    let none = if all_state { "none" } else { NONE_STATED };
    if text.is_empty() { none.to_owned() } else { text }
}
