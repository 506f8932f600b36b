//! Workbooks to print beside the costed one, order sheets and scaled cards: what their sheets are drawn from. They hold no
//! inputs of the book.

use rust_xlsxwriter::XlsxError;

use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::schema::marker;
use crate::workbook::context::Context;
use crate::workbook::layout::dish_cells::DishesOnCards;
use crate::workbook::layout::effective_settings::SettingsLayout;
use crate::workbook::layout::inputs::Inputs;
use crate::workbook::layout::own_columns::Beside;
use crate::workbook::layout::{CardsAsked, Layout};
use crate::workbook::stamp;

/// The bytes of what `draw` makes of a kitchen with the cards asked for.
///
/// # Errors
/// Those of `draw`.
pub(super) fn drawn(
    kitchen: &Kitchen,
    costing: &Costing,
    cards: CardsAsked<'_>,
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
