//! The cells of our own beside a costed line: what it was counted as, and its cost.

use super::{NOT_COSTED, ShownRecipe};
use crate::costing::conversion::convert::Crossing;
use crate::costing::trace::CostedAs;
use crate::costing::{LineTrace, YieldFrom};
use crate::kitchen::Field;
use crate::kitchen::bridge::Basis;
use crate::kitchen::recipe::{IngredientSource, Line, LineEntry, LineQuantity};
use crate::number::{BareRule, Decimal, plain};
use crate::results::display_units::base_unit;
use crate::results::line::{LineFigures, TypedUnit, share};
use crate::schema::{Column, Value};
use crate::workbook::cells::formula::{Formula, NOT_KNOWN, Ref, cell, needed, says_other, unless, while_filled};
use crate::workbook::cells::row::{Cell, Content, Ink, Look};
use crate::workbook::context::{fraction_from, fraction_or};
use crate::workbook::layout::Slot;
use crate::workbook::layout::recipe::Total;
use crate::workbook::sheets::prices::yield_cell;

/// The cells of our own of one costed line.
pub(super) struct LineCells<'a> {
    pub(super) shown: &'a ShownRecipe<'a>,
    pub(super) index: usize,
    pub(super) entry: &'a LineEntry,
    pub(super) line: &'a Line,
    pub(super) trace: &'a LineTrace,
}

impl LineCells<'_> {
    fn column(&self, header: &'static str) -> u16 {
        self.shown.layout.own_column(header)
    }

    fn row(&self) -> u32 {
        self.shown.layout.line_row(self.index)
    }

    fn cell(&self, header: &'static str) -> String {
        cell(self.row(), self.column(header))
    }

    fn typed(&self, column: Column) -> String {
        let column = self.shown.layout.column(Slot::Input(column));
        column.map(|column| cell(self.row(), column)).unwrap_or_default()
    }

    fn figure(&self, header: &'static str, text: String, result: Decimal, look: Look) -> Cell {
        Cell::figure(self.column(header), Formula::number(text, result), look)
    }

    fn reading(&self, header: &'static str, number: Decimal, look: Look) -> Cell {
        Cell::number(self.column(header), number, Ink::Reading, look)
    }

    /// A number that was read of `cells`.
    fn read_of(&self, header: &'static str, cells: &[String], number: Decimal, look: Look) -> Cell {
        Cell { content: Content::read_of(cells, number), ..self.reading(header, number, look) }
    }

    /// The cells of the measures that lead from its unit to the one it is figured in.
    fn measured(&self) -> Vec<String> {
        let source = self.line.source;
        self.shown.context.measure_cells(&self.trace.measures, source, self.shown.layout.sheet())
    }

    /// What a measure of the book is said to weigh or hold.
    fn equals(&self, row: usize) -> Option<String> {
        Some(self.shown.context.measure_cell(row)?.from(self.shown.layout.sheet()))
    }

    /// Adds the cells.
    pub(super) fn put(&self, cost: Decimal, cells: &mut Vec<Cell>) {
        let figures = LineFigures::of(self.line, self.trace);
        cells.push(Cell::text(self.column("Figured in"), base_unit(&self.trace.kind), Ink::Reading));
        cells.push(Cell::text(self.column("AP or EP"), self.trace.basis.name(), Ink::Reading));
        if let Some(amount) = figures.base_qty {
            self.quantity(amount, cells);
        }
        let own = || self.is_divided().then_some((self.trace.trim_yield, self.trace.yield_from));
        cells.extend(figures.trim_yield.or_else(own).map(|(left, from)| self.trim_yield(left, from)));
        cells.extend(figures.unit_cost.and_then(|unit_cost| self.unit_cost(unit_cost)));
        let mut text = [&*self.cell("Qty in g, ml, each"), "*", &self.cell("Cost per g, ml, each")].concat();
        if let Some(used) = self.blank_or(Column::Used, BareRule::BelowOne, "1") {
            text.push('*');
            text.push_str(&used);
        }
        if self.would_turn() {
            text = format!("IF({}=\"\",{text},\"{NOT_KNOWN}\")", self.typed(Column::Yield));
        }
        let qty = self.typed(Column::Qty);
        text = if self.entry.input.typed(Column::Qty).is_blank() {
            // One of a measure that has a weight.
            format!("IF({qty}=\"\",{text},\"{NOT_KNOWN}\")")
        } else {
            // Without its quantity a line is one that is not costed, and stops nothing.
            ["IF(", &*qty, "=\"\",\"", NOT_COSTED, "\",", &text, ")"].concat()
        };
        cells.push(self.figure("Line cost", text, cost, self.shown.context.money()));
        if let Some(share) = self.shown.cost.and_then(|batch| share(batch, cost)) {
            let mut text = self.cell("Line cost");
            text.push('/');
            self.shown.layout.total(Total::Food).push_from(&mut text, self.shown.layout.sheet());
            cells.push(self.figure("Share of cost", text, share, Look::Percent(1)));
        }
    }

    fn fraction(&self, column: Column, rule: BareRule) -> Option<String> {
        fraction_from(self.entry.input.typed(column), &self.typed(column), rule)
    }

    /// A fraction that may be left blank; `None` where the lines have no such column.
    fn blank_or(&self, column: Column, rule: BareRule, blank: &str) -> Option<String> {
        let cell = cell(self.row(), self.shown.layout.column(Slot::Input(column))?);
        fraction_or(self.entry.input.typed(column), &cell, rule, blank)
    }

    /// Whether the cost per unit is divided by the yield used: of a part or a recipe where the line has a yield of its own, or
    /// may be given one.
    fn is_divided(&self) -> bool {
        let is_whole =
            !matches!(self.trace.costed_as, CostedAs::Named(IngredientSource::Bought(_)) | CostedAs::ThroughTest(_));
        self.trace.is_rate_yielded() || (is_whole && self.may_have_own())
    }

    /// Whether the line may be given a yield of its own: one that is said to be as purchased takes none.
    fn may_have_own(&self) -> bool {
        let has_cell = self.shown.layout.column(Slot::Input(Column::Yield)).is_some();
        has_cell && self.entry.basis != Field::Given(Basis::Ap) && self.entry.own_yield == Field::Blank
    }

    /// Whether a yield of its own that is typed yet is followed.
    pub(super) fn follows_own_yield(&self) -> bool {
        self.may_have_own() && !self.would_turn() && !matches!(self.trace.costed_as, CostedAs::ThroughTest(_))
    }

    /// Whether a yield of its own would make it a line of the edible portion, which it would be measured as: a count is as
    /// purchased where nothing else is said.
    fn would_turn(&self) -> bool {
        let measured =
            matches!(self.trace.costed_as, CostedAs::Named(IngredientSource::Bought(_)) | CostedAs::ThroughTest(_))
                || !self.trace.measures.is_empty();
        self.line.basis == Basis::Ap && measured && self.may_have_own()
    }

    /// The typed quantity in base units: live when it is a number.
    fn quantity(&self, amount: Decimal, out: &mut Vec<Cell>) {
        let typed = match (&self.entry.input.typed(Column::Qty).value, &self.line.quantity) {
            // Of pinches, too, where a Measures row says what one weighs.
            (
                Value::Number(_),
                LineQuantity::Measured(measured) | LineQuantity::Unmeasured { measured: Some(measured), .. },
            ) => Some(measured.amount),
            _ => None,
        };
        match typed.and_then(|typed| TypedUnit::of(self.line, self.trace, typed)) {
            Some(unit) => {
                let text = [&*needed(&self.typed(Column::Qty)), "*", &self.cell("Unit factor")].concat();
                let text = self.crossed(text);
                out.push(self.read_of("Unit factor", &self.measured(), unit.factor, Look::General));
                out.push(self.figure("Qty in g, ml, each", text, amount, Look::Quantity));
                out.extend(unit.told.into_iter().flat_map(|told| self.cost_per_unit(told)));
            }
            None => {
                let mut other: Vec<String> = self.measured().iter().map(|cell| format!("{cell}=\"\"")).collect();
                let qty = self.entry.input.typed(Column::Qty);
                if !qty.is_blank() {
                    other.push(says_other(&self.typed(Column::Qty), qty.words()));
                }
                let mut cell = self.reading("Qty in g, ml, each", amount, Look::Quantity);
                if let Some(read) = unless(&other, amount) {
                    cell.content = Content::Formula(read);
                }
                out.push(cell);
            }
        }
    }

    /// What one of the line's own units costs, or of a larger one.
    fn cost_per_unit(&self, (unit, times, cost): (String, u32, Decimal)) -> [Cell; 2] {
        let text = [&*self.cell("Cost per g, ml, each"), "*", &self.cell("Unit factor")].concat();
        let mut text = self.crossed(text);
        if times > 1 {
            text.push('*');
            text.push_str(&times.to_string());
        }
        [
            self.figure("Cost per unit", text, cost, self.shown.context.cost_per_unit()),
            Cell { look: Look::Words, ..Cell::text(self.column("Unit costed"), unit, Ink::Reading) },
        ]
    }

    /// A quantity in base units as a formula, on the other side of the yield.
    fn crossed(&self, mut text: String) -> String {
        text.push_str(match self.trace.crossing {
            Crossing::None => return text,
            Crossing::Times => "*",
            Crossing::Over => "/",
        });
        text.push_str(&self.cell("Yield used"));
        text
    }

    fn trim_yield(&self, left: Decimal, from: YieldFrom) -> Cell {
        let context = self.shown.context;
        let sheet = self.shown.layout.sheet();
        let text = match from {
            YieldFrom::Line => self.fraction(Column::Yield, BareRule::UpToOne),
            YieldFrom::Test(part) => context.part_cell(part, "Share of weight").map(|cell| cell.from(sheet)),
            YieldFrom::PriceRow(_) | YieldFrom::Piece(_) | YieldFrom::Reference(_) | YieldFrom::None => {
                self.yield_cell(from).map(|cell| cell.from(sheet))
            }
        };
        let piece = if let YieldFrom::Piece(row) = from { self.equals(row) } else { None };
        match text.map(|text| self.unless_own(from, text)) {
            Some(text) => self.figure("Yield used", text, left, Look::Percent(1)),
            None if self.may_be_own(from) => {
                let read = while_filled(piece.as_slice(), left).map_or_else(|| plain(left), |formula| formula.text);
                self.figure("Yield used", self.unless_own(from, read), left, Look::Percent(1))
            }
            None => self.read_of("Yield used", piece.as_slice(), left, Look::Percent(1)),
        }
    }

    /// Where the yield stands by which the line goes that its price row states or may state yet: not where the edible
    /// weight of a piece holds the yield already, nor where none is wanted.
    fn yield_cell(&self, from: YieldFrom) -> Option<Ref> {
        let IngredientSource::Bought(id) = self.line.source else { return None };
        let is_wanted = self.trace.basis == Basis::Ep || self.trace.crossing != Crossing::None;
        let is_held = self.trace.kind.is_counted()
            && matches!(from, YieldFrom::Piece(_))
            && (self.line.basis, self.trace.basis) == (Basis::Ep, Basis::Ap);
        (is_wanted && !is_held).then(|| yield_cell(self.shown.context, id, from)).flatten()
    }

    /// Whether a yield may be typed on the line in the place of another, and counts.
    fn may_be_own(&self, from: YieldFrom) -> bool {
        let counts = self.is_divided() || self.trace.is_yielded();
        from != YieldFrom::Line && counts && self.may_have_own()
    }

    /// A yield as long as none is typed on the line, and that one then.
    fn unless_own(&self, from: YieldFrom, text: String) -> String {
        if !self.may_be_own(from) {
            return text;
        }
        if let CostedAs::ThroughTest(_) = self.trace.costed_as {
            // With a yield of its own the line does not go through the test.
            return format!("IF({}=\"\",{text},\"{NOT_KNOWN}\")", self.typed(Column::Yield));
        }
        self.blank_or(Column::Yield, BareRule::UpToOne, &text).unwrap_or(text)
    }

    fn unit_cost(&self, unit_cost: Decimal) -> Option<Cell> {
        let context = self.shown.context;
        let sheet = self.shown.layout.sheet();
        let source = match self.trace.costed_as {
            CostedAs::Named(IngredientSource::Bought(id)) => context.ap_cell(id),
            CostedAs::ThroughTest(part) | CostedAs::Named(IngredientSource::Part(part)) => {
                context.part_cell(part, "Cost per gram")
            }
            CostedAs::Named(IngredientSource::Made(id)) => context.total(id, Total::UnitCost),
            CostedAs::Portions(id) => context.total(id, Total::PortionCost),
            CostedAs::Batches(id) => context.total(id, Total::Batch),
            CostedAs::Named(IngredientSource::Unknown) => return None,
        };
        Some(match source {
            Some(cell) => {
                let mut text = cell.from(sheet);
                if self.is_divided() {
                    text.push('/');
                    text.push_str(&self.cell("Yield used"));
                }
                self.figure("Cost per g, ml, each", text, unit_cost, context.per_base_unit())
            }
            None => self.reading("Cost per g, ml, each", unit_cost, context.per_base_unit()),
        })
    }
}
