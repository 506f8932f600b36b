//! Sweep of a credit, the sheet What if: One dish pays less as the other pays more, and the total stands still.
//!
//! Every step is a costing of its own, so the figures are constants.

use crate::analysis::Trim;
use crate::analysis::sweep::{Side, Sweep};
use crate::results::figures::percent_at_most;
use crate::results::word::side;
use crate::schema::own_sheets;
use crate::workbook::cells::chart::{Picture, PictureKind, Series, Span, Tint};
use crate::workbook::cells::row::{Cell, Frame, Ink, Look, Row, RowSink};
use crate::workbook::context::Context;
use crate::workbook::layout::sheet_names;

/// The rows that a picture covers.
const PICTURE_ROWS: u32 = 20;
/// The most dishes that are shown of one by-product.
const MOST: usize = 6;
/// The columns before the dishes.
const BEFORE: u16 = 4;

/// Where one by-product's table stands: its heading.
fn starts(trim: &Trim) -> impl Iterator<Item = (&Sweep, u32)> {
    let mut next = 3_u32;
    trim.sweeps.iter().map(move |sweep| {
        let start = next;
        let rows = u32::try_from(sweep.steps.len()).unwrap_or_default();
        next = next.saturating_add(rows).saturating_add(PICTURE_ROWS).saturating_add(5);
        (sweep, start)
    })
}

/// The frame of the sheet.
pub fn frame(context: &Context<'_>, trim: &Trim) -> Frame {
    let pictures = starts(trim).map(|(sweep, start)| picture(context, sweep, start)).collect();
    Frame { pictures, ..Frame::new(sheet_names::WHAT_IF, vec![20, 12, 12, 12, 14, 10, 14, 10, 14, 10, 14, 10]) }
}

fn picture(context: &Context<'_>, sweep: &Sweep, start: u32) -> Picture {
    let first = start.saturating_add(3);
    let last = first.saturating_add(u32::try_from(sweep.steps.len()).unwrap_or_default()).saturating_sub(1);
    let span = |column| Span { column, first, last };
    // The first dish of each side: what one gains the other pays.
    let dishes = sweep.shown(MOST);
    let first_of =
        |wanted: Side| dishes.iter().position(|index| sweep.dishes.get(*index).is_some_and(|dish| dish.side == wanted));
    let drawn = [first_of(Side::Maker), first_of(Side::User), first_of(Side::Both)];
    let series = drawn.into_iter().flatten().zip(0_usize..).map(|(nth, at)| {
        let index = dishes.get(nth).copied().unwrap_or_default();
        let dish = sweep.dishes.get(index);
        let made = dish.map_or("", |dish| side(dish.side));
        let name = dish.and_then(|dish| context.kitchen.dishes.get(dish.dish)).map_or("", |dish| dish.name.as_str());
        let column = BEFORE.saturating_add(u16::try_from(nth).unwrap_or_default().saturating_mul(2)).saturating_add(1);
        Series::new(format!("{name} ({made})"), span(column), Tint::Line(at))
    });
    let series: Vec<Series> = series.collect();
    let ends = [sweep.steps.first(), sweep.steps.last()].into_iter().flatten();
    let ends: Vec<String> = ends.map(|step| format!("{} %", percent_at_most(step.fraction, 0))).collect();
    let named: Vec<&str> = series.iter().map(|series| series.name.as_str()).collect();
    Picture {
        title: "What one dish gains the other pays".to_owned(),
        told: format!(
            "Lines of the food cost of {} as the trim is charged from {} of the AP price: as one rises the other falls",
            named.join(" and "),
            ends.join(" to ")
        ),
        kind: PictureKind::Lines,
        at: (last.saturating_add(2), 0),
        size: (900, PICTURE_ROWS.saturating_mul(20).saturating_sub(20)),
        names: span(0),
        series,
        names_look: Look::Percent(0),
        look: Look::Percent(0),
        axes: (Some("Food cost %".to_owned()), Some("Charged, % of the AP price".to_owned())),
        begins: None,
    }
}

/// Its rows.
pub fn rows(context: &Context<'_>, trim: &Trim, out: &mut RowSink<'_>) {
    out(Row { row: 0, cells: vec![Cell::text(0, context.mark, Ink::Aside), Cell::back(6)] });
    out(Row { row: 1, cells: vec![Cell::text(0, own_sheets::WHAT_IF_TITLE, Ink::Title)] });
    for (sweep, start) in starts(trim) {
        table(context, sweep, start, out);
    }
}

fn table(context: &Context<'_>, sweep: &Sweep, start: u32, out: &mut RowSink<'_>) {
    let kitchen = context.kitchen;
    let part = kitchen.part(sweep.part).map(|part| part.name.as_str()).unwrap_or_default();
    let test = kitchen.test(sweep.part.test).map(|test| test.name.as_str()).unwrap_or_default();
    let title =
        format!("{part}, over one batch of {test}: a credit moves cost from dish to dish, and saves nothing by itself");
    out(Row { row: start, cells: vec![Cell::text(0, title, Ink::Section)] });
    let dishes = sweep.shown(MOST);
    let columns = || dishes.iter().zip((BEFORE..).step_by(2));
    let named = columns().filter_map(|(index, column)| {
        let dish = sweep.dishes.get(*index)?;
        let name = &kitchen.dishes.get(dish.dish)?.name;
        let named = Cell::text(column, format!("{name} ({})", side(dish.side)), Ink::Reading);
        Some(Cell { look: Look::Wrapped, ..named })
    });
    out(Row { row: start.saturating_add(1), cells: named.collect() });
    let mut headers: Vec<Cell> =
        own_sheets::WHAT_IF.iter().zip(0_u16..).map(|(text, column)| Cell::over_figures(column, *text)).collect();
    for (_, column) in columns() {
        headers.push(Cell::over_figures(column, "A portion"));
        headers.push(Cell::over_figures(column.saturating_add(1), "Food cost %"));
    }
    out(Row { row: start.saturating_add(2), cells: headers });
    for (step, row) in sweep.steps.iter().zip(start.saturating_add(3)..) {
        let reading = |column, number, look| Cell::number(column, number, Ink::Reading, look);
        let mut cells = vec![reading(
            0,
            step.fraction,
            Look::Percent(crate::workbook::layout::inputs::percent_places(step.fraction)),
        )];
        match &step.outcome {
            Ok(swept) => {
                cells.extend(swept.bears(sweep.part).map(|own| reading(1, own, context.money())));
                cells.extend(swept.rest(sweep.part).map(|rest| reading(2, rest, context.money())));
                cells.push(reading(3, swept.total, context.money()));
                for (index, column) in columns() {
                    let Some(dish) = swept.dishes.get(*index).copied().flatten() else { continue };
                    cells.push(reading(column, dish.portion_cost, context.money()));
                    cells
                        .extend(dish.food_cost.map(|share| reading(column.saturating_add(1), share, Look::Percent(1))));
                }
            }
            Err(problem) => cells.push(Cell::text(1, problem.message(), Ink::Reading)),
        }
        out(Row { row, cells });
    }
}
