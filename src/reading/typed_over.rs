//! What was typed over in a costed workbook, told with what parings figures or reads there.

use indexmap::IndexMap;

use super::Reading;
use crate::analysis::RowYields;
use crate::book::typed_over::{Home, Kind, TypedOver};
use crate::costing::Costing;
use crate::kitchen::RecipeId;
use crate::problem::{Code, Fault, Problem};
use crate::workbook::figured::{FiguredRows, FiguredSheet};
use crate::workbook::xlsx::{Book, CardsAsked, figured};

/// The most cells that are named.
const NAMED: usize = 3;

/// File and sheet, the header or label, and what stood there.
type TypedOverColumn<'t> = ((&'t str, &'t str), &'t str, Kind);

/// A line for each sheet and column, or label.
pub(super) fn problems(reading: &Reading, costing: &Costing) -> Vec<Problem> {
    let mut columns: IndexMap<TypedOverColumn<'_>, Vec<&TypedOver>> = IndexMap::new();
    for one in &reading.typed_over {
        let sheet = (one.place.file_name(), one.place.sheet_name());
        columns.entry((sheet, one.named.as_str(), one.kind)).or_default().push(one);
    }
    let mut sheets: IndexMap<&Home, Option<FiguredRows>> = IndexMap::new();
    let mut problems = Vec::new();
    for ((_, named, kind), cells) in columns {
        let mut told = Vec::new();
        for cell in cells.iter().take(NAMED) {
            let sheet = sheets.entry(&cell.home).or_insert_with(|| sheet(reading, costing, &cell.home));
            let (begins, nth) = (&cell.row.0, cell.row.1);
            let ours = sheet.as_ref().and_then(|sheet| sheet.said(begins, nth, cell.header.as_deref()));
            told.push(in_words(cell, kind, ours.filter(|ours| *ours != cell.said)));
        }
        match cells.len().saturating_sub(NAMED) {
            0 => {}
            1 => told.push("one more".to_owned()),
            more => told.push(format!("{more} more")),
        }
        let message = format!("“{named}” was typed over, and not read: {}", told.join("; "));
        let fault = Fault::new(Code::FigureTypedOver, message, help(named, kind));
        problems.extend(cells.first().map(|first| fault.at(first.place.clone())));
    }
    problems
}

/// A sheet as it would be written.
fn sheet(reading: &Reading, costing: &Costing, home: &Home) -> Option<FiguredRows> {
    let kitchen = &reading.kitchen;
    let sheet = match home {
        Home::Summary => FiguredSheet::Summary,
        Home::Table(kind) => FiguredSheet::Table(*kind),
        Home::Card(name) => {
            let at = kitchen.recipes.iter().position(|recipe| recipe.name == *name)?;
            FiguredSheet::Card(RecipeId::new(at))
        }
    };
    let book = Book {
        kitchen,
        costing,
        problems: &[],
        carried: &reading.carried,
        cards: CardsAsked::USUAL,
        origins: &reading.origins,
        changes: None,
        trim: None,
        yields: &|| RowYields::of(kitchen, costing),
    };
    Some(figured(book, sheet))
}

/// What was typed in a cell, and what is ours.
fn in_words(cell: &TypedOver, kind: Kind, ours: Option<String>) -> String {
    let at = cell.place.cell_ref().map(|at| at.to_string()).unwrap_or_default();
    let said = &cell.said;
    match (kind, ours) {
        (Kind::Figure, Some(ours)) => format!("{said} in {at}, where parings figures {ours}"),
        (Kind::Figure, None) => format!("{said} in {at}, where parings has a formula"),
        (Kind::Reading, Some(ours)) => format!("{said} in {at}, where parings reads {ours}"),
        (Kind::Reading, None) => format!("{said} in {at}, where parings wrote another thing"),
        (Kind::Nothing, _) => format!("{said} in {at}, where parings wrote nothing"),
    }
}

fn help(named: &str, kind: Kind) -> &'static str {
    match kind {
        Kind::Figure => {
            "To change a figure, type into the cells that it comes from. Cost the workbook again, and the formula is back."
        }
        Kind::Reading if crate::schema::header::same(named, crate::schema::output::ROW_USED) => {
            "Which row is used follows from dates, suppliers and prices: to choose a supplier type yes under Preferred."
        }
        Kind::Reading => {
            "To change what is read, type into the cells that it is read from. Cost the workbook again, and it says what is read."
        }
        Kind::Nothing => "Type into the columns of your own: what stands in those of parings is written anew.",
    }
}
