//! Typed cells of a card: its labels, the header of its lines, and their input cells.

use crate::kitchen::InputRow;
use crate::kitchen::recipe::RecipeEntry;
use crate::schema::{Label, TableKind, output};
use crate::workbook::cells::row::{Cell, Content, Ink, Look, Row, RowSink};
use crate::workbook::layout::Slot;
use crate::workbook::layout::column_width;
use crate::workbook::layout::inputs::{Inputs, input_cell};
use crate::workbook::layout::own_columns::{is_doubtful, row_cell};
use crate::workbook::layout::recipe::RecipeLayout;
use crate::workbook::sheets::recipe;

/// A card as typed.
pub(super) struct TypedCard<'a> {
    pub(super) inputs: &'a Inputs<'a>,
    pub(super) entry: &'a RecipeEntry,
    pub(super) layout: &'a RecipeLayout,
    /// The last column on paper.
    pub(super) last: u16,
    /// Whether long texts stand elsewhere in full.
    pub(super) has_kitchen_card: bool,
}

impl TypedCard<'_> {
    pub(super) fn labels(&self, out: &mut RowSink<'_>) {
        for (label, row) in self.layout.labels().iter().zip(0_u32..) {
            let typed = self.entry.input.typed(label.column());
            let value = input_cell(self.inputs, TableKind::RecipeFacts, label.column(), 1, typed);
            let value = value.map_or_else(|| self.to_fill(*label), |cell| Some(self.fact(*label, cell)));
            let mut cells = vec![Cell::text(0, label.text(), Ink::Label)];
            cells.extend(value);
            out(Row { row, cells });
        }
    }

    /// The room beside a blank label.
    fn to_fill(&self, label: Label) -> Option<Cell> {
        let room = match label {
            Label::MenuPrice => Some(Cell { look: self.inputs.money(), ..Cell::room(1) }),
            _ => recipe::room(label.column()).map(|look| Cell { look, ..Cell::room(1) }),
        };
        room.map(|cell| Cell { ink: Ink::Fact, ..cell })
    }

    /// A label's value: the name large, texts as wide as they need.
    fn fact(&self, label: Label, cell: Cell) -> Cell {
        let long = |text: &str| text.contains('\n') || text.chars().count() > usize::from(column_width::VALUES);
        let look = match &cell.content {
            Content::Text(text) if long(text) => Look::Flowing(self.last),
            _ => cell.look.clone(),
        };
        let ink = match label {
            Label::Recipe => Ink::Title,
            Label::Method | Label::Note if self.has_kitchen_card => Ink::LongFact,
            _ => Ink::Fact,
        };
        Cell { ink, look, ..cell }
    }

    pub(super) fn header(&self) -> Row {
        let layout = self.layout;
        let columns = layout.slots().iter().zip(layout.shapes()).zip(0_u16..);
        let cells = columns.map(|((slot, shape), at)| match slot {
            Slot::Input(column) => {
                column_width::header(at, TableKind::CardLines.header(*column), Ink::Header, Some(shape))
            }
            Slot::Own(header) => column_width::header(at, header, Ink::OwnHeader, Some(shape)),
        });
        Row { row: layout.line_row(0).saturating_sub(1), cells: cells.collect() }
    }

    /// The input cells of a line.
    pub(super) fn line(&self, row: &InputRow) -> Vec<Cell> {
        let slots = self.layout.slots().iter().zip(0_u16..);
        let cells = slots.filter_map(|(slot, at)| match slot {
            Slot::Input(column) => {
                let typed = input_cell(self.inputs, TableKind::CardLines, *column, at, row.typed(*column));
                let room = || {
                    let look = if self.layout.is_figured() { recipe::room(*column) } else { Some(Look::General) };
                    look.map(|look| Cell { look, ..Cell::room(at) })
                };
                typed.map(|cell| self.fitted(cell)).or_else(room)
            }
            Slot::Own(_) => None,
        });
        cells.collect()
    }

    /// The word that a line is a row, where it could be taken for something else.
    pub(super) fn row_cell(&self, row: &InputRow) -> Option<Cell> {
        let at = self.layout.slots().iter().position(|slot| *slot == Slot::Own(output::ROW_READ_AS))?;
        let at = u16::try_from(at).ok().filter(|_| is_doubtful(TableKind::CardLines, row, None))?;
        Some(self.fitted(row_cell(at)))
    }

    pub(super) fn fitted(&self, cell: Cell) -> Cell {
        let shape = self.layout.shapes().get(usize::from(cell.column));
        column_width::fitted(cell, shape)
    }
}
