//! One card per recipe: its labels, its lines with what each costs, and its totals.

use crate::costing::trace::CostedAs;
use crate::costing::{AllergenSet, LineCost, LineTrace, RecipeCost, YieldFrom};
use crate::kitchen::bridge::Basis;
use crate::kitchen::recipe::{Line, LineEntry, QFactor, Recipe, RecipeEntry, Source};
use crate::kitchen::{InputRow, RecipeId};
use crate::number::{BareRule, Decimal, exact};
use crate::report::context::{Context, fraction_from, input_cell};
use crate::report::formula::{Formula, Ref};
use crate::report::json::{listed, silent_name};
use crate::report::layout::{CardLayout, Slot, Total};
use crate::report::row::{Cell, Content, Frame, Ink, Look, Row, Rows};
use crate::report::sheets::prices::{base_unit, yield_formula};
use crate::schema::{Column, Label, TableKind, Value, output};

/// The frame of a card.
pub fn frame(card: &CardLayout) -> Frame {
    let widths = card.slots.iter().map(|slot| match slot {
        Slot::Input(Column::Item) => 30,
        Slot::Input(Column::Qty) => 22,
        Slot::Input(Column::Note) | Slot::Own("Source") => 24,
        Slot::Input(_) => 10,
        Slot::Own(_) => 14,
    });
    Frame { name: card.sheet.clone(), widths: widths.collect(), frozen_rows: 0 }
}

/// The rows of a card.
pub fn rows(context: &Context<'_>, id: RecipeId, out: &mut Rows<'_>) {
    let kitchen = context.kitchen;
    let (Some(recipe), Some(layout)) = (kitchen.recipe(id), context.layout.cards.get(id.index())) else { return };
    let Some(entry) = kitchen.entries.recipes.get(recipe.entry) else { return };
    let card = Card { context, id, recipe, entry, layout, cost: context.costing.recipe(id) };
    card.labels(out);
    out(header(layout));
    for (index, line) in entry.lines.iter().enumerate() {
        out(card.line(index, line));
    }
    for (unread, row) in entry.unread.iter().zip(entry.lines.len()..) {
        out(Row { row: layout.line_row(row), cells: card.inputs(unread) });
    }
    card.totals(out);
}

fn header(layout: &CardLayout) -> Row {
    let cells = layout.slots.iter().zip(0_u16..).map(|(slot, at)| match slot {
        Slot::Input(column) => Cell::text(at, TableKind::CardLines.header(*column), Ink::Header),
        Slot::Own(header) => Cell::text(at, *header, Ink::OwnHeader),
    });
    Row { row: layout.header_row(), cells: cells.collect() }
}

struct Card<'a> {
    context: &'a Context<'a>,
    id: RecipeId,
    recipe: &'a Recipe,
    entry: &'a RecipeEntry,
    layout: &'a CardLayout,
    cost: Option<&'a RecipeCost>,
}

impl Card<'_> {
    fn labels(&self, out: &mut Rows<'_>) {
        for (label, row) in self.layout.labels.iter().zip(0_u32..) {
            let ink = if *label == Label::Recipe { Ink::Title } else { Ink::Label };
            let mut cells = vec![Cell::text(0, label.text(), Ink::Label)];
            let typed = self.entry.input.typed(label.column());
            let value = input_cell(self.context, TableKind::RecipeFacts, label.column(), 1, typed);
            cells.extend(value.map(|cell| if ink == Ink::Title { Cell { ink, ..cell } } else { cell }));
            out(Row { row, cells });
        }
    }

    fn inputs(&self, row: &InputRow) -> Vec<Cell> {
        let slots = self.layout.slots.iter().zip(0_u16..);
        slots
            .filter_map(|(slot, at)| match slot {
                Slot::Input(column) => input_cell(self.context, TableKind::CardLines, *column, at, row.typed(*column)),
                Slot::Own(_) => None,
            })
            .collect()
    }

    fn line(&self, index: usize, entry: &LineEntry) -> Row {
        let mut cells = self.inputs(&entry.input);
        let line = self.recipe.lines.get(index);
        if let Some(source) = line.and_then(|line| self.source(line, index)) {
            cells.push(source);
        }
        let costed = self.cost.and_then(|cost| cost.lines.get(index));
        if let (Some(line), Some(LineCost::Costed { cost, trace })) = (line, costed) {
            let sheet = LineCells { card: self, index, entry, line, trace };
            cells.extend(sheet.cells(*cost));
        }
        cells.sort_by_key(|cell| cell.column);
        Row { row: self.layout.line_row(index), cells }
    }

    /// Where the ingredient comes from, leading there.
    fn source(&self, line: &Line, index: usize) -> Option<Cell> {
        let context = self.context;
        let column = self.layout.own(index, "Source").column;
        let (text, to) = match line.source {
            Source::Bought(id) => match context.item_cell(id) {
                Some(cell) => ("bought".to_owned(), cell),
                None => return Some(Cell::text(column, "bought", Ink::Reading)),
            },
            Source::Part(part) => {
                let test = context.kitchen.test(part.test)?;
                let row = *context.kitchen.part(part)?.rows.first()?;
                (format!("from {}", test.name), context.input(TableKind::YieldTests, row, Column::Part)?)
            }
            Source::Made(id) => {
                let card = context.layout.cards.get(id.index())?;
                ("made: see its card".to_owned(), Ref::new(&card.sheet, 0, 0))
            }
            Source::Unknown => return None,
        };
        let content = Content::Link { text, cell: to.cell(), sheet: to.sheet };
        Some(Cell { column, content, ink: Ink::Reading, look: Look::General })
    }

    fn total_row(&self, total: Total, cells: Option<Cell>) -> Row {
        let mut row = vec![Cell::text(0, total.label(), Ink::Label)];
        row.extend(cells);
        Row { row: self.layout.total(total).row, cells: row }
    }

    fn at(&self, total: Total) -> String {
        self.layout.total(total).cell()
    }

    /// A label's value as a formula reads it.
    fn label(&self, label: Label, rule: BareRule) -> Option<String> {
        let cell = self.layout.label(label)?.cell();
        fraction_from(self.entry.input.typed(label.column()), &cell, rule)
    }

    fn totals(&self, out: &mut Rows<'_>) {
        let Some(cost) = self.cost else {
            out(self.total_row(Total::Food, None));
            return self.words(out);
        };
        let money = || self.context.money();
        let figure =
            |total: Total, formula: Formula, look: Look| self.total_row(total, Some(Cell::figure(1, formula, look)));
        let reading = |total: Total, number: Decimal, look: Look| {
            self.total_row(total, Some(Cell::number(1, number, Ink::Reading, look)))
        };
        out(figure(Total::Food, Formula::number(self.food(), cost.food), money()));
        out(match self.q() {
            Some(text) => figure(Total::Q, Formula::number(text, cost.q), money()),
            None => reading(Total::Q, Decimal::ZERO, money()),
        });
        let spiced = if self.context.kitchen.settings.spice_covers_q {
            format!("({}+{})", self.at(Total::Food), self.at(Total::Q))
        } else {
            self.at(Total::Food)
        };
        out(match self.label(Label::SpiceFactor, BareRule::BelowOne) {
            Some(cell) => figure(Total::Spice, Formula::number(format!("{cell}*{spiced}"), cost.spice), money()),
            None => reading(Total::Spice, Decimal::ZERO, money()),
        });
        let all = format!("{}+{}+{}", self.at(Total::Food), self.at(Total::Q), self.at(Total::Spice));
        out(figure(Total::Batch, Formula::number(all, cost.batch), money()));
        self.batch_and_portions(cost, out);
        self.words(out);
    }

    fn food(&self) -> String {
        let first = self.layout.own(0, "Line cost").cell();
        let last = self.layout.own(self.layout.lines.saturating_sub(1), "Line cost").cell();
        format!("SUM({first}:{last})")
    }

    fn q(&self) -> Option<String> {
        let cell = self.layout.label(Label::QFactor)?.cell();
        match self.recipe.q? {
            QFactor::Share(_) => Some(format!("{cell}*{}", self.at(Total::Food))),
            QFactor::Money(_) => Some(format!("{cell}*{}", self.at(Total::Portions))),
        }
    }

    /// What the batch makes, its portions, and what one of each costs.
    fn batch_and_portions(&self, cost: &RecipeCost, out: &mut Rows<'_>) {
        let kept = match self.label(Label::ServingLoss, BareRule::BelowOne) {
            Some(cell) => format!("(1-{cell})"),
            None => "1".to_owned(),
        };
        let stated =
            self.layout.label(Label::Portions).map(|cell| cell.cell()).filter(|_| self.portions_are_a_number());
        let figure = |total: Total, text: String, result: Decimal, look: Look| {
            self.total_row(total, Some(Cell::figure(1, Formula::number(text, result), look)))
        };
        if let Some((kind, makes)) = &cost.makes {
            let mut row = match &stated {
                Some(portions) if self.recipe.makes_computed => {
                    let text = format!("{}*{portions}/{kept}", self.at(Total::Portion));
                    figure(Total::Makes, text, *makes, Look::Quantity)
                }
                _ => self.total_row(Total::Makes, Some(Cell::number(1, *makes, Ink::Reading, Look::Quantity))),
            };
            row.cells.push(Cell::text(2, base_unit(kind), Ink::Reading));
            out(row);
            if let Ok(unit_cost) = exact::div(cost.batch, *makes) {
                let text = format!("{}/{}", self.at(Total::Batch), self.at(Total::Makes));
                out(figure(Total::UnitCost, text, unit_cost, self.context.unit_cost()));
            }
        }
        if let Some(Ok(portion)) = cost.portion.map(|portion| portion.value()) {
            out(self.total_row(Total::Portion, Some(Cell::number(1, portion, Ink::Reading, Look::Quantity))));
        }
        if let Some(Ok(portions)) = cost.portions.map(|portions| portions.value()) {
            out(match (stated, self.recipe.stated_portions) {
                (Some(cell), _) => figure(Total::Portions, cell, portions, Look::Quantity),
                (None, Some(_)) => {
                    self.total_row(Total::Portions, Some(Cell::number(1, portions, Ink::Reading, Look::Quantity)))
                }
                (None, None) => {
                    let text = format!("{}*{kept}/{}", self.at(Total::Makes), self.at(Total::Portion));
                    figure(Total::Portions, text, portions, Look::Quantity)
                }
            });
        }
        if let Some(portion_cost) = cost.portion_cost {
            let text = format!("{}/{}", self.at(Total::Batch), self.at(Total::Portions));
            out(figure(Total::PortionCost, text, portion_cost, self.context.money()));
        }
    }

    fn portions_are_a_number(&self) -> bool {
        matches!(self.entry.input.typed(Column::Portions).value, Value::Number(_))
    }

    /// Lines not costed and allergens, in words.
    fn words(&self, out: &mut Rows<'_>) {
        let empty = AllergenSet::default();
        let set = self.context.costing.allergens.get(self.id.index()).unwrap_or(&empty);
        let silent: Vec<String> = set.not_stated.iter().map(|one| silent_name(self.context.kitchen, *one)).collect();
        let uncosted = self.cost.map(RecipeCost::uncosted_lines).unwrap_or_default();
        let words = [
            if uncosted > 0 { uncosted.to_string() } else { String::new() },
            none_if_empty(listed(set.contains.keys()).join(", ")),
            none_if_empty(listed(set.may_contain.keys()).join(", ")),
            silent.join(", "),
        ];
        let labels = output::CARD_LABELS.iter().skip(Total::PortionCost.index().saturating_add(1));
        let first = self.layout.total(Total::PortionCost).row.saturating_add(1);
        for ((label, text), row) in labels.zip(words).zip(first..) {
            if !text.is_empty() {
                out(Row { row, cells: vec![Cell::text(0, *label, Ink::Label), Cell::text(1, text, Ink::Reading)] });
            }
        }
    }
}

fn none_if_empty(text: String) -> String {
    if text.is_empty() { "none found".to_owned() } else { text }
}

/// The cells of our own of one costed line.
struct LineCells<'a> {
    card: &'a Card<'a>,
    index: usize,
    entry: &'a LineEntry,
    line: &'a Line,
    trace: &'a LineTrace,
}

impl LineCells<'_> {
    fn own(&self, header: &'static str) -> Ref {
        self.card.layout.own(self.index, header)
    }

    fn cell(&self, header: &'static str) -> String {
        self.own(header).cell()
    }

    fn typed(&self, column: Column) -> String {
        self.card.layout.input(self.index, column).map(|cell| cell.cell()).unwrap_or_default()
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
        cells.push(self.figure("Line cost", text, cost, self.card.context.money()));
        let food = self.card.cost.map(|cost| cost.food).unwrap_or_default();
        if let (Ok(share), false) = (exact::div(cost, food), food.is_zero()) {
            let text = format!("{}/{}", self.cell("Line cost"), self.card.at(Total::Food));
            cells.push(self.figure("Share of cost", text, share, Look::Percent(1)));
        }
        cells
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
            (Value::Number(_), crate::kitchen::recipe::LineQuantity::Measured(measured)) => Some(measured.amount),
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
        let context = self.card.context;
        let sheet = &self.card.layout.sheet;
        let text = match self.trace.yield_from {
            YieldFrom::Line => self.fraction(Column::Yield, BareRule::UpToOne),
            YieldFrom::Test(part) => context.part_cell(part, "Share of weight").map(|cell| cell.from(sheet)),
            YieldFrom::PriceRow(row) => yield_formula(context, row, sheet),
            YieldFrom::None => None,
        };
        Some(match text {
            Some(text) => self.figure("Yield used", text, self.trace.trim_yield, Look::Percent(2)),
            None => self.reading("Yield used", self.trace.trim_yield, Look::Percent(2)),
        })
    }

    fn unit_cost(&self) -> Option<Cell> {
        let unit_cost = self.trace.rate.unit_cost().ok()?;
        let context = self.card.context;
        let sheet = &self.card.layout.sheet;
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
