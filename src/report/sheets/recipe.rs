//! What a recipe shows wherever it stands: the cells of our own beside every line, its totals, its words.

use crate::costing::trace::CostedAs;
use crate::costing::{AllergenSet, LineCost, LineTrace, RecipeCost, YieldFrom};
use crate::kitchen::RecipeId;
use crate::kitchen::bridge::Basis;
use crate::kitchen::recipe::{Line, LineEntry, LineQuantity, QFactor, Recipe, RecipeEntry, Source};
use crate::number::{BareRule, Decimal, exact};
use crate::report::context::{Context, fraction_from};
use crate::report::formula::{Formula, Ref};
use crate::report::json::{listed, silent_name};
use crate::report::recipe_layout::{RecipeLayout, Total};
use crate::report::row::{Cell, Content, Ink, Look};
use crate::report::sheets::prices::{base_unit, yield_formula};
use crate::schema::{Column, Label, TableKind, Value, output};

/// A recipe with everything that its sheet is made from.
pub struct Shown<'a> {
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

impl<'a> Shown<'a> {
    /// The recipe of an id; `None` for an id that is not of this kitchen.
    pub fn of(context: &'a Context<'a>, id: RecipeId) -> Option<Self> {
        let recipe = context.kitchen.recipe(id)?;
        Some(Shown {
            context,
            id,
            recipe,
            entry: context.kitchen.entries.recipes.get(recipe.entry)?,
            layout: context.layout.recipes.get(id.index())?,
            cost: context.costing.recipe(id),
        })
    }

    /// The cells of our own of the line at `index`.
    pub fn line(&self, index: usize) -> Vec<Cell> {
        let (Some(entry), Some(line)) = (self.entry.lines.get(index), self.recipe.lines.get(index)) else {
            return vec![self.said(index, "not read")];
        };
        let mut cells: Vec<Cell> = self.source(line, index).into_iter().collect();
        if let Some(LineCost::Costed { cost, trace }) = self.cost.and_then(|cost| cost.lines.get(index)) {
            cells.extend(LineCells { shown: self, index, entry, line, trace }.cells(*cost));
        }
        cells
    }

    /// A word where an ingredient's source stands. Every line has one, so that a line of nothing but a name in capitals
    /// is not taken for a heading when it is read again.
    fn said(&self, index: usize, word: &str) -> Cell {
        Cell::text(self.layout.own(index, "Source").column, word, Ink::Reading)
    }

    /// Where the ingredient comes from, leading there.
    fn source(&self, line: &Line, index: usize) -> Option<Cell> {
        let context = self.context;
        let column = self.layout.own(index, "Source").column;
        let (text, to) = match line.source {
            Source::Bought(id) => match context.item_cell(id) {
                Some(cell) => ("bought".to_owned(), cell),
                None => return Some(self.said(index, "bought")),
            },
            Source::Part(part) => {
                let test = context.kitchen.test(part.test)?;
                let row = *context.kitchen.part(part)?.rows.first()?;
                (format!("from {}", test.name), context.input(TableKind::YieldTests, row, Column::Part)?)
            }
            Source::Made(id) => {
                let home = context.layout.recipes.get(id.index())?.home();
                ("made: see its recipe".to_owned(), home)
            }
            Source::Unknown => return Some(self.said(index, "not found")),
        };
        let content = Content::Link { text, cell: to.cell(), sheet: to.sheet };
        Some(Cell { column, content, ink: Ink::Reading, look: Look::General })
    }

    /// A total as formulas beside the totals name it.
    fn at(&self, total: Total) -> String {
        self.layout.total(total).cell()
    }

    /// A label's value as formulas beside the totals read it.
    fn label(&self, label: Label, rule: BareRule) -> Option<String> {
        let cell = self.layout.label(label)?.cell();
        fraction_from(self.entry.input.typed(label.column()), &cell, rule)
    }

    /// The totals that are known, in their order.
    pub fn totals(&self) -> Vec<TotalCell> {
        let Some(cost) = self.cost else { return Vec::new() };
        let mut totals = Totals { shown: self, cells: Vec::new() };
        totals.batch(cost);
        totals.makes_and_portions(cost);
        totals.cells
    }

    /// The unit that the batch is counted in.
    pub fn unit_made(&self) -> Option<String> {
        self.cost.and_then(|cost| cost.makes.as_ref()).map(|(kind, _)| base_unit(kind))
    }

    /// Lines not costed and allergens, each under its label; nothing where there is nothing to say.
    pub fn words(&self) -> Vec<(&'static str, String)> {
        let empty = AllergenSet::default();
        let set = self.context.costing.allergens.get(self.id.index()).unwrap_or(&empty);
        let silent: Vec<String> = set.not_stated.iter().map(|one| silent_name(self.context.kitchen, *one)).collect();
        let uncosted = self.cost.map(RecipeCost::uncosted_lines).unwrap_or_default();
        let words = [
            if uncosted > 0 { uncosted.to_string() } else { String::new() },
            or_none(listed(set.contains.keys()).join(", "), silent.is_empty()),
            or_none(listed(set.may_contain.keys()).join(", "), silent.is_empty()),
            // Names have commas in them.
            silent.join("; "),
        ];
        let labels = output::CARD_LABELS.iter().copied().skip(Total::PortionCost.index().saturating_add(1));
        labels.zip(words).filter(|(_, text)| !text.is_empty()).collect()
    }

    fn portions_are_a_number(&self) -> bool {
        matches!(self.entry.input.typed(Column::Portions).value, Value::Number(_))
    }
}

/// The allergens as text. None are only *none* where every ingredient states its own.
fn or_none(text: String, all_state: bool) -> String {
    let none = if all_state { "none" } else { "none stated" };
    if text.is_empty() { none.to_owned() } else { text }
}

/// Collects the totals of a costed recipe.
struct Totals<'a> {
    shown: &'a Shown<'a>,
    cells: Vec<TotalCell>,
}

impl Totals<'_> {
    fn figure(&mut self, total: Total, text: String, result: Decimal, look: Look) {
        let content = Content::Formula(Formula::number(text, result));
        self.cells.push(TotalCell { total, content, ink: Ink::Figure, look });
    }

    fn reading(&mut self, total: Total, number: Decimal, look: Look) {
        self.cells.push(TotalCell { total, content: Content::Number(number), ink: Ink::Reading, look });
    }

    fn money(&self) -> Look {
        self.shown.context.money()
    }

    /// Food, Q, spice and all three.
    fn batch(&mut self, cost: &RecipeCost) {
        let shown = self.shown;
        self.figure(Total::Food, self.food(), cost.food, self.money());
        match self.q() {
            Some(text) => self.figure(Total::Q, text, cost.q, self.money()),
            None => self.reading(Total::Q, Decimal::ZERO, self.money()),
        }
        let spiced = if shown.context.kitchen.settings.spice_covers_q {
            format!("({}+{})", shown.at(Total::Food), shown.at(Total::Q))
        } else {
            shown.at(Total::Food)
        };
        match shown.label(Label::SpiceFactor, BareRule::BelowOne) {
            Some(cell) => self.figure(Total::Spice, format!("{cell}*{spiced}"), cost.spice, self.money()),
            None => self.reading(Total::Spice, Decimal::ZERO, self.money()),
        }
        let all = format!("{}+{}+{}", shown.at(Total::Food), shown.at(Total::Q), shown.at(Total::Spice));
        self.figure(Total::Batch, all, cost.batch, self.money());
    }

    fn food(&self) -> String {
        let layout = self.shown.layout;
        let first = layout.own(0, "Line cost").from(layout.facts_sheet());
        let last = layout.own(layout.lines.saturating_sub(1), "Line cost").cell();
        format!("SUM({first}:{last})")
    }

    fn q(&self) -> Option<String> {
        let cell = self.shown.layout.label(Label::QFactor)?.cell();
        match self.shown.recipe.q? {
            QFactor::Share(_) => Some(format!("{cell}*{}", self.shown.at(Total::Food))),
            QFactor::Money(_) => Some(format!("{cell}*{}", self.shown.at(Total::Portions))),
        }
    }

    /// What the batch makes, its portions, and what one of each costs.
    fn makes_and_portions(&mut self, cost: &RecipeCost) {
        let shown = self.shown;
        let kept = match shown.label(Label::ServingLoss, BareRule::BelowOne) {
            Some(cell) => format!("(1-{cell})"),
            None => "1".to_owned(),
        };
        let stated = shown.layout.label(Label::Portions).map(|cell| cell.cell());
        let stated = stated.filter(|_| shown.portions_are_a_number());
        if let Some((_, makes)) = &cost.makes {
            match &stated {
                Some(portions) if shown.recipe.makes_computed => {
                    let text = format!("{}*{portions}/{kept}", shown.at(Total::Portion));
                    self.figure(Total::Makes, text, *makes, Look::Quantity);
                }
                _ => self.reading(Total::Makes, *makes, Look::Quantity),
            }
            if let Ok(unit_cost) = exact::div(cost.batch, *makes) {
                let text = format!("{}/{}", shown.at(Total::Batch), shown.at(Total::Makes));
                self.figure(Total::UnitCost, text, unit_cost, shown.context.unit_cost());
            }
        }
        if let Some(Ok(portion)) = cost.portion.map(|portion| portion.value()) {
            self.reading(Total::Portion, portion, Look::Quantity);
        }
        if let Some(Ok(portions)) = cost.portions.map(|portions| portions.value()) {
            match (stated, shown.recipe.stated_portions) {
                (Some(cell), _) => self.figure(Total::Portions, cell, portions, Look::Quantity),
                (None, Some(_)) => self.reading(Total::Portions, portions, Look::Quantity),
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

/// The cells of our own of one costed line.
struct LineCells<'a> {
    shown: &'a Shown<'a>,
    index: usize,
    entry: &'a LineEntry,
    line: &'a Line,
    trace: &'a LineTrace,
}

impl LineCells<'_> {
    fn own(&self, header: &'static str) -> Ref {
        self.shown.layout.own(self.index, header)
    }

    fn cell(&self, header: &'static str) -> String {
        self.own(header).cell()
    }

    fn typed(&self, column: Column) -> String {
        self.shown.layout.input(self.index, column).map(|cell| cell.cell()).unwrap_or_default()
    }

    fn figure(&self, header: &'static str, text: String, result: Decimal, look: Look) -> Cell {
        Cell::figure(self.own(header).column, Formula::number(text, result), look)
    }

    fn reading(&self, header: &'static str, number: Decimal, look: Look) -> Cell {
        Cell::number(self.own(header).column, number, Ink::Reading, look)
    }

    fn cells(&self, cost: Decimal) -> Vec<Cell> {
        let mut cells = vec![Cell::text(self.own("Base unit").column, base_unit(&self.trace.kind), Ink::Reading)];
        cells.extend(self.quantity());
        cells.extend(self.trim_yield());
        cells.extend(self.unit_cost());
        let mut text = format!("{}*{}", self.cell("Qty in base units"), self.cell("Unit cost"));
        if let Some(used) = self.fraction(Column::Used, BareRule::BelowOne) {
            text = format!("{text}*{used}");
        }
        cells.push(self.figure("Line cost", text, cost, self.shown.context.money()));
        let food = self.shown.cost.map(|cost| cost.food).unwrap_or_default();
        if let (Ok(share), false) = (exact::div(cost, food), food.is_zero()) {
            let text = format!("{}/{}", self.cell("Line cost"), self.food());
            cells.push(self.figure("Share of cost", text, share, Look::Percent(1)));
        }
        cells
    }

    /// The food cost of the batch as formulas beside the lines name it.
    fn food(&self) -> String {
        self.shown.layout.total(Total::Food).from(self.shown.layout.sheet())
    }

    fn fraction(&self, column: Column, rule: BareRule) -> Option<String> {
        fraction_from(self.entry.input.typed(column), &self.typed(column), rule)
    }

    /// The typed quantity in base units: live when it is a number.
    fn quantity(&self) -> Vec<Cell> {
        let amount =
            if self.trace.shrinks { self.trace.amount.times(self.trace.trim_yield) } else { Ok(self.trace.amount) };
        let Ok(amount) = amount.and_then(|amount| amount.value()) else { return Vec::new() };
        let typed = match (&self.entry.input.typed(Column::Qty).value, &self.line.quantity) {
            // Of pinches, too, where a Measures row says what one weighs.
            (
                Value::Number(_),
                LineQuantity::Measured(measured) | LineQuantity::Unmeasured { measured: Some(measured), .. },
            ) => Some(measured.amount),
            _ => None,
        };
        let factor = typed.and_then(|typed| {
            self.trace.amount.over(typed).and_then(|factor| factor.value()).ok().filter(|_| !typed.is_zero())
        });
        match factor {
            Some(factor) => {
                let mut text = format!("{}*{}", self.typed(Column::Qty), self.cell("Unit factor"));
                if self.trace.shrinks {
                    text = format!("{text}*{}", self.cell("Yield used"));
                }
                vec![
                    self.reading("Unit factor", factor, Look::General),
                    self.figure("Qty in base units", text, amount, Look::Quantity),
                ]
            }
            None => vec![self.reading("Qty in base units", amount, Look::Quantity)],
        }
    }

    fn is_yielded(&self) -> bool {
        self.trace.shrinks || self.trace.basis == Basis::Ep
    }

    fn trim_yield(&self) -> Option<Cell> {
        if !self.is_yielded() {
            return None;
        }
        let context = self.shown.context;
        let sheet = self.shown.layout.sheet();
        let text = match self.trace.yield_from {
            YieldFrom::Line => self.fraction(Column::Yield, BareRule::UpToOne),
            YieldFrom::Test(part) => context.part_cell(part, "Share of weight").map(|cell| cell.from(sheet)),
            YieldFrom::PriceRow(row) => yield_formula(context, row, sheet),
            YieldFrom::Reference(_) | YieldFrom::None => None,
        };
        Some(match text {
            Some(text) => self.figure("Yield used", text, self.trace.trim_yield, Look::Percent(2)),
            None => self.reading("Yield used", self.trace.trim_yield, Look::Percent(2)),
        })
    }

    fn unit_cost(&self) -> Option<Cell> {
        let unit_cost = self.trace.rate.unit_cost().ok()?;
        let context = self.shown.context;
        let sheet = self.shown.layout.sheet();
        let from = |cell: Option<Ref>| cell.map(|cell| cell.from(sheet));
        let (source, divided) = match self.trace.costed_as {
            CostedAs::Named(Source::Bought(id)) => {
                let cost = context.costing.item(id)?;
                (from(context.ap_cell(cost)), self.trace.basis == Basis::Ep)
            }
            CostedAs::ThroughTest(part) => (from(context.part_cell(part, "Cost per gram")), false),
            CostedAs::Named(Source::Part(part)) => {
                (from(context.part_cell(part, "Cost per gram")), self.by_own_yield())
            }
            CostedAs::Named(Source::Made(id)) => (from(context.total(id, Total::UnitCost)), self.by_own_yield()),
            CostedAs::Portions(id) => (from(context.total(id, Total::PortionCost)), self.by_own_yield()),
            CostedAs::Batches(id) => (from(context.total(id, Total::Batch)), self.by_own_yield()),
            CostedAs::Named(Source::Unknown) => return None,
        };
        Some(match source {
            Some(cell) => {
                let text = if divided { format!("{cell}/{}", self.cell("Yield used")) } else { cell };
                self.figure("Unit cost", text, unit_cost, context.unit_cost())
            }
            None => self.reading("Unit cost", unit_cost, context.unit_cost()),
        })
    }

    fn by_own_yield(&self) -> bool {
        self.trace.yield_from == YieldFrom::Line
    }
}
