//! Kitchen cards in another size: as those for the wall, with quantities that a kitchen can measure. They stand alone: no
//! card costs them in this workbook.

use super::{FIRST, ITEM, KitchenCard, PREP, QTY, UNIT};
use crate::kitchen::RecipeId;
use crate::kitchen::recipe::RecipeEntry;
use crate::results::figures::at_most_but_some;
use crate::results::scale::{NOT_SCALED, ScaledLineResult, ScaledRecipe};
use crate::schema::{Column, Label};
use crate::workbook::cells::row::{Cell, Content, Frame, Ink, Look, PrintedPage, Row, RowSink, Tab};
use crate::workbook::context::Context;
use crate::workbook::layout::sheet_names;

/// The decimals of a factor.
const PLACES: u32 = 3;

/// The most letters of words in place of a quantity that stand on one line.
const LONGEST: usize = 14;

/// A recipe in another size, with its id.
pub type Scaled<'a> = (RecipeId, &'a ScaledRecipe<'a>);

/// Where each card begins.
pub fn starts(context: &Context<'_>, all: &[Scaled<'_>]) -> Vec<u32> {
    let mut next = FIRST;
    let start = |(id, scaled): &Scaled<'_>| {
        let start = next;
        next = next.saturating_add(KitchenCard::of(context, *id, Some(scaled)).map_or(0, |card| card.rows()));
        start
    };
    all.iter().map(start).collect()
}

/// The frame of their sheet: a unit may be two measures.
pub fn frame(starts: &[u32]) -> Frame {
    let frame = Frame::new(sheet_names::KITCHEN_CARDS, vec![11, 17, 29, 31, 30]).tabbed(Tab::Card).upright();
    let begins = starts.iter().skip(1).copied().collect();
    Frame { page: PrintedPage { last_column: Some(PREP), first_row: FIRST, begins, ..frame.page }, ..frame }
}

/// Their rows.
pub fn rows(context: &Context<'_>, all: &[Scaled<'_>], starts: &[u32], out: &mut RowSink<'_>) {
    out(Row { row: 0, cells: vec![Cell::text(0, context.mark, Ink::Aside)] });
    for ((id, scaled), start) in all.iter().zip(starts) {
        if let Some(card) = KitchenCard::of(context, *id, Some(scaled)) {
            card.put(*start, out);
        }
    }
}

/// What it makes, for how many, and how many times the recipe that is.
pub(super) fn facts(scaled: &ScaledRecipe<'_>, entry: &RecipeEntry) -> Vec<(&'static str, Cell)> {
    let fact = |text: String| Cell { look: Look::Flowing(PREP), ..Cell::text(ITEM, text, Ink::WallFact) };
    let makes: Vec<&str> = scaled.makes.iter().map(|made| made.in_words.as_str()).collect();
    let mut facts = Vec::new();
    if !makes.is_empty() {
        facts.push((Label::Makes.text(), fact(makes.join(", "))));
    }
    let portion = entry.input.typed(Column::Portion).seen();
    if !portion.is_empty() {
        facts.push((Label::Portion.text(), fact(portion)));
    }
    if let Some(portions) = scaled.portions {
        facts.push((Label::Portions.text(), fact(at_most_but_some(portions.0, 2))));
    }
    if let Some(factor) = scaled.factor {
        let times = format!("{} × the recipe: season to taste", at_most_but_some(factor.0, PLACES));
        facts.push(("Scaled", fact(times)));
    }
    if let Some(first) = scaled.made_first() {
        facts.push(("Make first", fact(first)));
    }
    facts
}

/// How much of a line: the number, and beside it the unit with what a second measure adds. A row that was not read is not
/// scaled either, and its own quantity would be a wrong one here.
pub(super) fn quantity(line: Option<&ScaledLineResult<'_>>) -> Vec<Cell> {
    let Some(line) = line else { return vec![Cell { look: Look::Words, ..Cell::text(UNIT, NOT_SCALED, Ink::Wall) }] };
    let words = line.in_words.as_str();
    let is_part = |word: &&str| word.starts_with(|c: char| c.is_ascii_digit());
    let number = words.split(' ').take_while(is_part).collect::<Vec<_>>().join(" ");
    let unit = words.strip_prefix(number.as_str()).unwrap_or(words).trim_start();
    let exactly =
        line.exact.qty.filter(|_| line.far_off).map(|qty| format!("(exactly {})", at_most_but_some(qty.0, 2)));
    let unit = [unit, exactly.as_deref().unwrap_or_default()].join(" ");
    let unit = unit.trim();
    let mut cells = Vec::new();
    if !number.is_empty() {
        cells.push(Cell { look: Look::OverFigures, ..Cell::text(QTY, number.clone(), Ink::Wall) });
    }
    if !unit.is_empty() {
        let is_long = unit.len() > LONGEST;
        let look = if number.is_empty() && is_long { Look::Wrapped } else { Look::Words };
        cells.push(Cell { look, ..Cell::text(UNIT, unit, Ink::Wall) });
    }
    cells
}

/// How it is prepared, with what else was noted.
pub(super) fn said(how: &[(String, &str)]) -> Option<Content> {
    let all = how.iter().map(|(_, text)| *text).collect::<Vec<_>>().join("; ");
    (!all.is_empty()).then_some(Content::Text(all))
}
