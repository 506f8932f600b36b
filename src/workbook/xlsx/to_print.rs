//! Workbooks to print beside the costed one, order sheets and scaled cards: what their sheets are drawn from. They hold no
//! inputs of the book.

use std::collections::BTreeSet;

use rust_xlsxwriter::XlsxError;

use crate::costing::Costing;
use crate::kitchen::{Kitchen, RecipeId};
use crate::schema::marker;
use crate::workbook::context::Context;
use crate::workbook::layout::Layout;
use crate::workbook::layout::dish_cells::DishesOnCards;
use crate::workbook::layout::effective_settings::SettingsLayout;
use crate::workbook::layout::inputs::Inputs;
use crate::workbook::layout::own_columns::Beside;
use crate::workbook::stamp;

/// The bytes of what `draw` makes of a kitchen in which `cards` have cards.
///
/// # Errors
/// Those of `draw`.
pub(super) fn drawn(
    kitchen: &Kitchen,
    costing: &Costing,
    cards: &BTreeSet<RecipeId>,
    origins: &[String],
    draw: impl FnOnce(&Context<'_>) -> Result<Vec<u8>, XlsxError>,
) -> Result<Vec<u8>, XlsxError> {
    let layout = Layout::of(kitchen, &[], Beside::Figures, cards);
    let settings_layout = SettingsLayout::of(kitchen);
    let mark = marker::text(stamp::VERSION, origins);
    draw(&Context {
        inputs: Inputs { kitchen, layout: &layout },
        costing,
        settings: &settings_layout,
        mark: &mark,
        dishes_on_cards: DishesOnCards::of(kitchen, costing),
    })
}
