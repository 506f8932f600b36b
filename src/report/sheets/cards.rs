//! One card per recipe: its labels, its lines with what each costs, and its totals.

use crate::kitchen::{InputRow, RecipeId};
use crate::report::context::{Context, input_cell};
use crate::report::layout::Slot;
use crate::report::recipe_layout::{RecipeLayout, Total, typed_lines};
use crate::report::row::{Cell, Frame, Ink, Look, Row, Rows};
use crate::report::sheets::recipe::Shown;
use crate::schema::{Column, Label, TableKind};

/// The frame of a card.
pub fn frame(card: &RecipeLayout) -> Frame {
    let widths = card.slots().iter().map(|slot| match slot {
        Slot::Input(Column::Item) => 30,
        Slot::Input(Column::Qty) => 22,
        Slot::Input(Column::Note) | Slot::Own("Source") => 24,
        Slot::Input(_) => 10,
        Slot::Own(_) => 14,
    });
    Frame::new(card.sheet(), widths.collect())
}

/// The rows of a card.
pub fn rows(context: &Context<'_>, id: RecipeId, out: &mut Rows<'_>) {
    let Some(shown) = Shown::of(context, id) else { return };
    labels(&shown, out);
    out(header(shown.layout));
    for (index, typed) in typed_lines(shown.entry).enumerate() {
        let mut cells = inputs(&shown, typed);
        cells.extend(shown.line(index));
        cells.sort_by_key(|cell| cell.column);
        out(Row { row: shown.layout.line_row(index), cells });
    }
    totals(&shown, out);
}

fn header(layout: &RecipeLayout) -> Row {
    let cells = layout.slots().iter().zip(0_u16..).map(|(slot, at)| match slot {
        Slot::Input(column) => Cell::text(at, TableKind::CardLines.header(*column), Ink::Header),
        Slot::Own(header) => Cell::text(at, *header, Ink::OwnHeader),
    });
    Row { row: layout.line_row(0).saturating_sub(1), cells: cells.collect() }
}

fn labels(shown: &Shown<'_>, out: &mut Rows<'_>) {
    for (label, row) in shown.layout.labels().iter().zip(0_u32..) {
        let typed = shown.entry.input.typed(label.column());
        let value = input_cell(shown.context, TableKind::RecipeFacts, label.column(), 1, typed);
        let value = value.map(|cell| if *label == Label::Recipe { Cell { ink: Ink::Title, ..cell } } else { cell });
        let mut cells = vec![Cell::text(0, label.text(), Ink::Label)];
        cells.extend(value);
        out(Row { row, cells });
    }
}

fn inputs(shown: &Shown<'_>, row: &InputRow) -> Vec<Cell> {
    let slots = shown.layout.slots().iter().zip(0_u16..);
    slots
        .filter_map(|(slot, at)| match slot {
            Slot::Input(column) => input_cell(shown.context, TableKind::CardLines, *column, at, row.typed(*column)),
            Slot::Own(_) => None,
        })
        .collect()
}

fn totals(shown: &Shown<'_>, out: &mut Rows<'_>) {
    for total in shown.totals() {
        let at = shown.layout.total(total.total);
        let mut cells = vec![
            Cell::text(0, total.total.label(), Ink::Label),
            Cell { column: at.column, content: total.content, ink: total.ink, look: total.look },
        ];
        if let (Total::Makes, Some(unit)) = (total.total, shown.unit_made()) {
            cells.push(Cell {
                column: 2,
                content: crate::report::row::Content::Text(unit),
                ink: Ink::Reading,
                look: Look::General,
            });
        }
        out(Row { row: at.row, cells });
    }
    let first = shown.layout.total(Total::PortionCost).row.saturating_add(1);
    for ((label, text), row) in shown.words().into_iter().zip(first..) {
        out(Row { row, cells: vec![Cell::text(0, label, Ink::Label), Cell::text(1, text, Ink::Reading)] });
    }
}
