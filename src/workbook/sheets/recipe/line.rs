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
use crate::schema::{Column, TableKind, Value};
use crate::workbook::cells::formula::{
    Formula, NOT_KNOWN, Ref, cell, elsewhere, needed, not_as_typed, not_if, or_else, push_cell, says_other, unless,
    while_filled,
};
use crate::workbook::cells::row::{Cell, Content, Ink, Look};
use crate::workbook::context::{fraction_from, fraction_or};
use crate::workbook::layout::Slot;
use crate::workbook::layout::recipe::{LineColumns, Total};
use crate::workbook::measure_guards;
use crate::workbook::sheets::prices::yield_cell;
use crate::workbook::sheets::served_share::ServedShare;

/// The cells of our own of one costed line.
pub(super) struct LineCells<'a> {
    pub(super) shown: &'a ShownRecipe<'a>,
    pub(super) index: usize,
    pub(super) entry: &'a LineEntry,
    pub(super) line: &'a Line,
    pub(super) trace: &'a LineTrace,
}

impl LineCells<'_> {
    fn columns(&self) -> &LineColumns {
        &self.shown.columns
    }

    fn row(&self) -> u32 {
        self.shown.layout.line_row(self.index)
    }

    fn cell(&self, column: u16) -> String {
        cell(self.row(), column)
    }

    /// The cell of a typed column; nothing where the lines have no such column.
    fn typed(&self, column: Option<u16>) -> String {
        column.map(|column| self.cell(column)).unwrap_or_default()
    }

    /// A cell times another, as the beginning of a formula.
    fn product(&self, one: u16, other: u16) -> String {
        let mut text = String::with_capacity(64);
        push_cell(&mut text, self.row(), one);
        text.push('*');
        push_cell(&mut text, self.row(), other);
        text
    }

    fn figure(column: u16, text: String, result: Decimal, look: Look) -> Cell {
        Cell::figure(column, Formula::number(text, result), look)
    }

    fn reading(column: u16, number: Decimal, look: Look) -> Cell {
        Cell::number(column, number, Ink::Reading, look)
    }

    /// A number that was read of `cells`.
    fn read_of(column: u16, cells: &[String], number: Decimal, look: Look) -> Cell {
        Cell { content: Content::read_of(cells, number), ..LineCells::reading(column, number, look) }
    }

    /// What would undo the measures that lead from its unit to the one it is figured in.
    fn missed(&self) -> Vec<String> {
        let source = self.line.source;
        measure_guards::missed(self.shown.context, &self.trace.measures, source, self.shown.layout.sheet())
    }

    /// That, and of a line in % whatever would undo the weight of the flour.
    fn missed_or_moved(&self) -> Vec<String> {
        let mut missed = self.missed();
        if self.entry.is_percent() {
            missed.extend(self.shown.flour_moved());
        }
        missed
    }

    /// What a measure of the book is said to weigh or hold.
    fn equals(&self, row: usize) -> Option<String> {
        Some(self.shown.context.measure_cell(row)?.from(self.shown.layout.sheet()))
    }

    /// Adds the cells.
    pub(super) fn put(&self, cost: Decimal, cells: &mut Vec<Cell>) {
        let figures = LineFigures::of(self.line, self.trace);
        let columns = self.columns();
        cells.push(Cell::text(columns.figured_in, base_unit(&self.trace.kind), Ink::Reading));
        cells.push(Cell::text(columns.basis, self.trace.basis.name(), Ink::Reading));
        if let Some(amount) = figures.base_qty {
            self.quantity(amount, cells);
        }
        let own = || self.is_divided().then_some((self.trace.trim_yield, self.trace.yield_from));
        cells.extend(figures.trim_yield.or_else(own).map(|(left, from)| self.trim_yield(left, from)));
        cells.extend(figures.unit_cost.and_then(|unit_cost| self.unit_cost(unit_cost)));
        let mut text = self.product(columns.base_qty, columns.unit_cost);
        if let Some(used) = self.blank_or((columns.used, Column::Used), BareRule::BelowOne, "1") {
            text.push('*');
            text.push_str(&used);
        }
        if self.would_turn() {
            text = format!("IF({}=\"\",{text},\"{NOT_KNOWN}\")", self.typed(self.columns().own_yield));
        }
        let qty = self.typed(self.columns().qty);
        text = if self.entry.input.typed(Column::Qty).is_blank() {
            // One of a measure that has a weight.
            format!("IF({qty}=\"\",{text},\"{NOT_KNOWN}\")")
        } else if self.is_one_when_cleared() {
            text
        } else {
            // Without its quantity a line is one that is not costed, and stops nothing.
            ["IF(", &*qty, "=\"\",\"", NOT_COSTED, "\",", &text, ")"].concat()
        };
        cells.push(LineCells::figure(columns.line_cost, text, cost, self.shown.context.money()));
        if let Some(share) = self.shown.cost.and_then(|batch| share(batch, cost)) {
            let mut text = String::with_capacity(256);
            push_cell(&mut text, self.row(), columns.line_cost);
            text.push('/');
            self.shown.layout.total(Total::Food).push_from(&mut text, self.shown.layout.sheet());
            cells.push(LineCells::figure(columns.share, text, share, Look::Percent(1)));
        }
    }

    /// A fraction that may be left blank; `None` where the lines have no such column.
    fn blank_or(&self, (at, column): (Option<u16>, Column), rule: BareRule, blank: &str) -> Option<String> {
        let cell = self.cell(at?);
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
        self.columns().own_yield.is_some()
            && self.entry.basis != Field::Given(Basis::Ap)
            && self.entry.own_yield == Field::Blank
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

    /// Whether the line without its number is still costed: `pinch` is one pinch, where a Measures row says what that weighs.
    fn is_one_when_cleared(&self) -> bool {
        let typed = |column| self.entry.input.typed(column);
        matches!(typed(Column::Qty).value, Value::Number(_))
            && !typed(Column::Unit).is_blank()
            && matches!(self.line.quantity, LineQuantity::Unmeasured { measured: Some(_), .. })
    }

    /// The typed quantity in base units: live when it is a number.
    fn quantity(&self, amount: Decimal, out: &mut Vec<Cell>) {
        let typed = match (&self.entry.input.typed(Column::Qty).value, &self.line.quantity) {
            (Value::Number(_), LineQuantity::Measured(_)) if self.entry.is_percent() => self.entry.percent_of_flour(),
            // Of pinches, too, where a Measures row says what one weighs.
            (
                Value::Number(_),
                LineQuantity::Measured(measured) | LineQuantity::Unmeasured { measured: Some(measured), .. },
            ) => Some(measured.amount),
            _ => None,
        };
        let columns = self.columns();
        match typed.and_then(|typed| TypedUnit::of((self.entry, self.line), self.trace, typed)) {
            Some(unit) => {
                let qty = self.typed(columns.qty);
                let mut text = needed(&qty);
                if self.is_one_when_cleared() {
                    text = or_else(&qty, &text, "1");
                }
                text.push('*');
                push_cell(&mut text, self.row(), columns.unit_factor);
                let text = not_if(&self.renamed(), &self.crossed(text));
                let mut factor = LineCells::reading(columns.unit_factor, unit.factor, Look::General);
                if let Some(text) = self.per_percent(unit.factor) {
                    let text = not_if(&self.missed(), &text);
                    factor = LineCells::figure(columns.unit_factor, text, unit.factor, Look::General);
                } else if let Some(read) = unless(&self.missed_or_moved(), unit.factor) {
                    factor.content = Content::Formula(read);
                }
                out.push(factor);
                out.push(LineCells::figure(columns.base_qty, text, amount, Look::Quantity));
                out.extend(unit.told.into_iter().flat_map(|told| self.cost_per_unit(told)));
            }
            None => {
                let mut other = self.missed_or_moved();
                other.extend(self.renamed());
                let qty = self.entry.input.typed(Column::Qty);
                if !qty.is_blank() {
                    other.push(says_other(&self.typed(self.columns().qty), qty.words()));
                }
                let mut cell = LineCells::reading(columns.base_qty, amount, Look::Quantity);
                if let Some(read) = unless(&other, amount) {
                    cell.content = Content::Formula(read);
                }
                out.push(cell);
            }
        }
    }

    /// That the line says another ingredient, unit, basis or preparation than it said, or stands elsewhere, on a card: lines that
    /// were sorted or pasted without the columns of our own are other ones. Of lists the number of lines beside each recipe's
    /// name is told.
    fn renamed(&self) -> Vec<String> {
        let layout = self.shown.layout;
        let columns = [Column::Item, Column::Unit, Column::Basis, Column::Prep].into_iter();
        let other = columns.filter(|column| layout.is_card() && self.hangs_on(*column)).filter_map(|column| {
            let typed = self.entry.input.typed(column);
            // A basis that is filled is another than the usual one, and a preparation may ask for another measure.
            let counts = matches!(column, Column::Basis | Column::Prep) || !typed.is_blank();
            layout.column(Slot::Input(column)).filter(|_| counts).map(|at| not_as_typed(&self.cell(at), typed))
        });
        other.chain(self.elsewhere()).collect()
    }

    /// Whether what stands in a column can move the line's figures.
    fn hangs_on(&self, column: Column) -> bool {
        column != Column::Prep
            || measure_guards::asks_for_prep(self.shown.context, &self.trace.measures, self.line.source)
    }

    /// That what was typed of it stands no more where it stood on its card, or under another header.
    fn elsewhere(&self) -> Vec<String> {
        let layout = self.shown.layout;
        let columns =
            [Column::Item, Column::Qty, Column::Unit, Column::Prep, Column::Basis, Column::Yield, Column::Used];
        let filled = columns
            .into_iter()
            .filter(|column| layout.is_card() && self.hangs_on(*column) && !self.entry.input.typed(*column).is_blank());
        let cells = filled.filter_map(|column| Some((column, layout.input(self.index, column)?)));
        let over = layout.line_row(0).saturating_sub(1);
        cells.flat_map(|(column, cell)| elsewhere(&cell, over, TableKind::CardLines.header(column))).collect()
    }

    /// What one of the line's own units costs, or of a larger one.
    fn cost_per_unit(&self, (unit, times, cost): (String, u32, Decimal)) -> [Cell; 2] {
        let columns = self.columns();
        let mut text = self.crossed(self.product(columns.unit_cost, columns.unit_factor));
        if times > 1 {
            text.push('*');
            text.push_str(&times.to_string());
        }
        [
            LineCells::figure(columns.cost_per_unit, text, cost, self.shown.context.cost_per_unit()),
            Cell { look: Look::Words, ..Cell::text(columns.unit_costed, unit, Ink::Reading) },
        ]
    }

    /// A quantity in base units as a formula, on the other side of the yield.
    fn crossed(&self, mut text: String) -> String {
        text.push_str(match self.trace.crossing {
            Crossing::None => return text,
            Crossing::Times => "*",
            Crossing::Over => "/",
        });
        push_cell(&mut text, self.row(), self.columns().yield_used);
        text
    }

    fn trim_yield(&self, left: Decimal, from: YieldFrom) -> Cell {
        let context = self.shown.context;
        let sheet = self.shown.layout.sheet();
        let at = self.columns().yield_used;
        let text = match from {
            YieldFrom::Line => {
                let typed = self.entry.input.typed(Column::Yield);
                fraction_from(typed, &self.typed(self.columns().own_yield), BareRule::UpToOne)
            }
            YieldFrom::Test(part) => context.part_cell(part, "Share of weight").map(|cell| cell.from(sheet)),
            YieldFrom::PriceRow(_) | YieldFrom::Piece(_) | YieldFrom::Reference(_) | YieldFrom::None => {
                self.yield_cell(from).map(|cell| cell.from(sheet))
            }
        };
        let piece = if let YieldFrom::Piece(row) = from { self.equals(row) } else { None };
        match text.map(|text| self.unless_own(from, text)) {
            Some(text) => LineCells::figure(at, text, left, Look::Percent(1)),
            None if self.may_be_own(from) => {
                let read = while_filled(piece.as_slice(), left).map_or_else(|| plain(left), |formula| formula.text);
                LineCells::figure(at, self.unless_own(from, read), left, Look::Percent(1))
            }
            None => LineCells::read_of(at, piece.as_slice(), left, Look::Percent(1)),
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
            return format!("IF({}=\"\",{text},\"{NOT_KNOWN}\")", self.typed(self.columns().own_yield));
        }
        self.blank_or((self.columns().own_yield, Column::Yield), BareRule::UpToOne, &text).unwrap_or(text)
    }

    fn unit_cost(&self, unit_cost: Decimal) -> Option<Cell> {
        let context = self.shown.context;
        let sheet = self.shown.layout.sheet();
        let cell = |cell: Option<Ref>| cell.map(|cell| cell.from(sheet));
        let source = match self.trace.costed_as {
            CostedAs::Named(IngredientSource::Bought(id)) => cell(context.ap_cell(id)),
            CostedAs::ThroughTest(part) | CostedAs::Named(IngredientSource::Part(part)) => {
                cell(context.part_cell(part, "Cost per gram"))
            }
            CostedAs::Named(IngredientSource::Made(id)) => cell(context.total(id, Total::UnitCost)),
            CostedAs::Portions(id) => cell(context.total(id, Total::PortionCost)),
            CostedAs::Batches(id) => cell(context.total(id, Total::Batch)),
            CostedAs::Plates(_, id) => {
                let (dish, plate) = (context.kitchen.dish(id)?, context.costing.plate(id)?);
                ServedShare::of(context, dish, plate, (sheet, self.row())).map(|share| share.of_batch())
            }
            CostedAs::Named(IngredientSource::Unknown) => return None,
        };
        Some(match source {
            Some(mut text) => {
                if self.is_divided() {
                    text.push('/');
                    push_cell(&mut text, self.row(), self.columns().yield_used);
                }
                LineCells::figure(self.columns().unit_cost, text, unit_cost, context.per_base_unit())
            }
            None => LineCells::reading(self.columns().unit_cost, unit_cost, context.per_base_unit()),
        })
    }
}
