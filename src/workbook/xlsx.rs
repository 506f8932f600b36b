//! The costed workbook: its sheets in their order, made side by side where the machine can, and bound together.

#[cfg(test)]
mod against_library;
mod archive;
mod archive_part;
mod binder;
mod chart_cache;
mod charts;
mod extent;
pub mod fill_in;
mod format;
mod height;
mod input_book;
mod letters;
mod notes;
pub mod order_sheets;
mod page_setup;
mod palette;
mod piece;
mod row_writer;
pub mod scaled_cards;
mod sheet;
mod sheet_list;
mod sheet_order;
mod strips;
mod styles;
mod to_print;
mod workers;
pub mod xml;

use std::sync::OnceLock;

use jiff::civil::DateTime;
use rust_xlsxwriter::{DocProperties, ExcelDateTime, XlsxError};

use crate::analysis::{RowYields, Trim};
use crate::costing::Costing;
use crate::kitchen::Kitchen;
use crate::problem::Problem;
use crate::results::changes::Changes;
use crate::results::problem_counts::Counts;
use crate::results::stopped_by::Errors;
use crate::schema::{CarriedSheet, marker};
use crate::workbook::cells::unprintable::is_unprintable;
use crate::workbook::context::Context;
use crate::workbook::figured::{FiguredRows, FiguredSheet};
pub use crate::workbook::layout::CardsAsked;
use crate::workbook::layout::Layout;
use crate::workbook::layout::dish_cells::DishesOnCards;
use crate::workbook::layout::effective_settings::SettingsLayout;
use crate::workbook::layout::inputs::Inputs;
use crate::workbook::layout::own_columns::Beside;
use crate::workbook::layout::problem_places::land;
use crate::workbook::sheets::problems::Lines;
use crate::workbook::sheets::{defined_names, food_cost, in_pictures, kitchen_cards, menu_mix};
use crate::workbook::stamp;
use binder::Binder;
pub use input_book::write_inputs;
use page_setup::Paper;
use sheet::{day, month, year};
use sheet_order::{Leaf, Leaves, ShownSheets, in_order};

/// What a workbook is made from.
#[derive(Clone, Copy)]
pub struct Book<'a> {
    /// The kitchen.
    pub kitchen: &'a Kitchen,
    /// Its costing.
    pub costing: &'a Costing,
    /// All problems.
    pub problems: &'a [Problem],
    /// Sheets carried over.
    pub carried: &'a [CarriedSheet],
    /// The recipes that have cards.
    pub cards: CardsAsked<'a>,
    /// The files that the figures come from.
    pub origins: &'a [String],
    /// What new prices changed, where some were compared.
    pub changes: Option<&'a Changes<'a>>,
    /// What trim is worth, where the book has any; asked for by whoever draws it, while others draw other sheets.
    pub trim: Option<&'a OnDemand<'a, Trim>>,
    /// The yield of every price row; likewise.
    pub yields: &'a OnDemand<'a, RowYields>,
}

/// An analysis that is handed in to be asked for once.
pub type OnDemand<'a, T> = dyn Fn() -> T + Sync + 'a;

/// The workbook's bytes, and how many problems it tells of: those at cells that it has.
///
/// # Errors
/// When it has more rows or sheets than a workbook can hold.
pub fn write(book: Book<'_>, at: DateTime) -> Result<(Vec<u8>, Counts), XlsxError> {
    /// What a line takes until its sheet is packed, with what workers that each have room of their own leave unused.
    const OF_A_LINE: usize = 1_600;
    let lines = book.kitchen.recipes.iter().map(|recipe| recipe.lines.len()).fold(0, usize::saturating_add);
    workers::expect_memory(lines.saturating_mul(OF_A_LINE))?;
    let layout = Layout::of(book.kitchen, book.carried, Beside::Figures, book.cards);
    let settings_layout = SettingsLayout::of(book.kitchen);
    let mark = marker::text(stamp::VERSION, book.origins);
    let context = Context {
        inputs: Inputs { kitchen: book.kitchen, layout: &layout },
        costing: book.costing,
        settings: &settings_layout,
        mark: &mark,
        dishes_on_cards: DishesOnCards::of(book.kitchen, book.costing),
    };
    let landed = land(book.kitchen, &layout, &settings_layout, book.carried, book.problems);
    let lines = Lines::of(&landed);
    let counts = Counts::of(landed.iter().map(|problem| problem.severity));
    let errors = Errors::of(book.kitchen, book.costing, book.problems);
    let shown = ShownSheets {
        mix: menu_mix::any(book.kitchen),
        control: food_cost::any(book.kitchen),
        pictures: in_pictures::Pictures::any(&context),
    };
    let order = in_order(&layout, book.carried, book.changes, book.trim, shown);
    let sheets: Vec<String> =
        order.iter().skip(1).flat_map(|leaf| leaf.sheets().into_iter().map(str::to_owned)).collect();
    let kitchen_cards = kitchen_cards::starts(&context);
    let leaves = Leaves {
        context: &context,
        landed: &landed,
        lines: &lines,
        counts: &counts,
        errors: &errors,
        changes: book.changes,
        yields: book.yields,
        prices: OnceLock::new(),
        sheets: &sheets,
        kitchen_cards: &kitchen_cards,
    };
    let paper = Paper::of(&context, Some(book.costing.scenario.date));
    let properties = stamped(&title(&context), at)?;
    let draw = |leaf: &Leaf<'_>| leaves.draw(leaf);
    let bytes = workers::hire(|crew| {
        let mut binder = Binder::new(&paper, crew);
        crew.in_order(&order, &draw, |drawn| drawn?.into_iter().try_for_each(|one| binder.take(one)))?;
        binder.bound(&properties, defined_names::all(&context))
    })?;
    Ok((bytes, counts))
}

/// What a sheet of ours would hold, without writing the workbook.
pub fn figured(book: Book<'_>, sheet: FiguredSheet) -> FiguredRows {
    let layout = Layout::of(book.kitchen, book.carried, Beside::Figures, book.cards);
    let settings = SettingsLayout::of(book.kitchen);
    let context = Context {
        inputs: Inputs { kitchen: book.kitchen, layout: &layout },
        costing: book.costing,
        settings: &settings,
        mark: "",
        dishes_on_cards: DishesOnCards::of(book.kitchen, book.costing),
    };
    FiguredRows::of(&context, book.yields, sheet)
}

/// When a workbook was made, as its properties say it.
fn created(at: DateTime) -> Result<ExcelDateTime, XlsxError> {
    ExcelDateTime::from_ymd(year(at.date()), month(at.date()), day(at.date()))?.and_hms(
        u16::try_from(at.hour()).unwrap_or_default(),
        u8::try_from(at.minute()).unwrap_or_default(),
        u8::try_from(at.second()).unwrap_or_default(),
    )
}

/// The properties of a workbook of ours.
fn stamped(title: &str, at: DateTime) -> Result<DocProperties, XlsxError> {
    let properties = DocProperties::new().set_creation_datetime(&created(at)?).set_title(title);
    let properties = properties.set_custom_property(stamp::PROPERTY, stamp::VERSION);
    Ok(properties.set_subject("Costs of recipes and dishes"))
}

/// The house's name as a title holds it.
fn house(kitchen: &Kitchen) -> String {
    const MOST: usize = 100;
    kitchen.settings.house_name.chars().filter(|c| !is_unprintable(*c)).take(MOST).collect()
}

/// The title of a workbook, as programs and screen readers tell it: whose it is, and of which day.
fn title(context: &Context<'_>) -> String {
    let house = house(context.kitchen);
    let (what, date) = (context.what_costs(), context.costing.scenario.date);
    if house.is_empty() { format!("What {what} on {date}") } else { format!("{house}: what {what} on {date}") }
}
