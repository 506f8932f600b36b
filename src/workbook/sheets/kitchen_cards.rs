//! Kitchen cards, for the wall: each recipe on a page of its own as a cook reads it, with its quantities and its method in
//! large letters and no money. What they say is read off the cards that cost it.

pub mod scaled;
mod steps;

use crate::food::care;
use crate::kitchen::PartId;
use crate::kitchen::RecipeId;
use crate::kitchen::recipe::{IngredientSource, LineEntry, LineQuantity};
use crate::kitchen::yield_test::Role;
use crate::number::plain;
use crate::results::scale::ScaledRecipe;
use crate::schema::{Column, Label, TableKind, Typed, Value, own_sheets};
use crate::workbook::cells::formula::{BLANK, Formula, Outcome, Ref, or_else};
use crate::workbook::cells::row::{Cell, Content, Frame, Ink, Look, PrintedPage, Row, RowSink, Tab};
use crate::workbook::cells::unprintable::is_unprintable;
use crate::workbook::context::Context;
use crate::workbook::layout::inputs::input_cell;
use crate::workbook::layout::recipe::{Total, typed_lines};
use crate::workbook::layout::sheet_names;
use crate::workbook::sheets::recipe::{NONE_STATED, ShownRecipe};

/// The columns: how much, of what unit, what, and how it is prepared; beside the paper, where it is costed.
const QTY: u16 = 0;
const UNIT: u16 = 1;
const ITEM: u16 = 2;
const PREP: u16 = 3;
const BESIDE: u16 = 4;
const HEADERS: [&str; 4] = ["Qty", "Unit", "Ingredient", "How"];
/// Ruled rows for a method that is not in the book: the fewest and the most.
const RULED: (usize, usize) = (3, 14);
/// What stands on a page, and how high a row and a ruled one are, in points; so many letters go into a row.
const ON_A_PAGE: usize = 640;
const ROW: usize = 18;
const RULED_ROW: usize = 26;
const LETTERS: usize = 50;
/// Its name, two heads, and a blank row below each of its four blocks.
const BETWEEN: usize = 7;
/// The longest text that is read off its card: a longer one stands here once more.
const LONGEST: usize = 255;

/// What is said of allergens where no ingredient states any, and some say nothing at all.
const NOT_KNOWN_YET: &str = "NOT KNOWN: ask before serving";

/// Where the kitchen card of each recipe that has a card begins, in their order.
pub fn starts(context: &Context<'_>) -> Vec<(RecipeId, u32)> {
    let mut next = FIRST;
    let recipes = context.layout.recipes.iter().enumerate().filter(|(_, recipe)| recipe.is_card());
    recipes
        .map(|(index, _)| {
            let (id, start) = (RecipeId::new(index), next);
            next = next.saturating_add(KitchenCard::of(context, id, None).map_or(0, |card| card.rows()));
            (id, start)
        })
        .collect()
}

/// The first row of the first: the mark stands above it.
const FIRST: u32 = 1;

/// Where the kitchen card that begins in a row is found.
pub fn place(start: u32) -> Ref {
    Ref::new(sheet_names::KITCHEN_CARDS, start, 0)
}

/// The frame of the sheet.
pub fn frame(starts: &[(RecipeId, u32)]) -> Frame {
    let frame = Frame::new(sheet_names::KITCHEN_CARDS, vec![11, 10, 31, 36, 24]).tabbed(Tab::Card).upright();
    let begins = starts.iter().skip(1).map(|(_, start)| *start).collect();
    Frame { page: PrintedPage { last_column: Some(PREP), first_row: FIRST, begins, ..frame.page }, ..frame }
}

/// Its rows.
pub fn rows(context: &Context<'_>, starts: &[(RecipeId, u32)], out: &mut RowSink<'_>) {
    out(Row { row: 0, cells: vec![Cell::text(0, context.mark, Ink::Aside), Cell::back(BESIDE)] });
    for (id, start) in starts {
        if let Some(card) = KitchenCard::of(context, *id, None) {
            card.put(*start, out);
        }
    }
}

/// A recipe as the kitchen reads it.
struct KitchenCard<'a> {
    shown: ShownRecipe<'a>,
    /// The recipe in another size, where the card is of that: it stands alone, and reads nothing off another.
    scaled: Option<&'a ScaledRecipe<'a>>,
    facts: Vec<(&'static str, Cell)>,
    note: Option<Content>,
    steps: Vec<&'a str>,
    allergens: Vec<(&'static str, String)>,
    trim: Vec<PartId>,
}

impl<'a> KitchenCard<'a> {
    fn of(context: &'a Context<'a>, id: RecipeId, scaled: Option<&'a ScaledRecipe<'a>>) -> Option<Self> {
        let shown = ShownRecipe::of(context, id)?;
        let steps = match &shown.entry.input.typed(Column::Method).value {
            Value::Text(method) => steps::of(method),
            _ => Vec::new(),
        };
        let told = |label: &str| match label {
            "Allergens found" => Some("Contains"),
            "May contain found" => Some("May contain"),
            "Allergens not stated" => Some("Not known of"),
            _ => None,
        };
        let words = shown.words();
        let all_state = !words.iter().any(|(label, _)| *label == "Allergens not stated");
        // On a wall *none* must not be read where some ingredient says nothing.
        let careful = |text: String| if all_state || text != NONE_STATED { text } else { NOT_KNOWN_YET.to_owned() };
        let allergens = words.into_iter().filter_map(|(label, text)| Some((told(label)?, careful(text)))).collect();
        let mut trim: Vec<PartId> = Vec::new();
        for line in &shown.recipe.lines {
            if let IngredientSource::Part(part) = line.source
                && context.kitchen.part(part).is_some_and(|part| part.role == Role::ByProduct)
                && !trim.contains(&part)
            {
                trim.push(part);
            }
        }
        let facts = match scaled {
            Some(scaled) => scaled::facts(scaled, shown.entry),
            None => facts(&shown),
        };
        let note =
            input_cell(context, TableKind::RecipeFacts, Column::Note, ITEM, shown.entry.input.typed(Column::Note));
        let mut card = KitchenCard { shown, scaled, facts, note: None, steps, allergens, trim };
        card.note = note.map(|note| card.read(card.shown.layout.label(Label::Note), note.content));
        Some(card)
    }

    /// What stands in a cell of the card that costs it, read off it; by itself where the card stands alone.
    fn read(&self, cell: Option<Ref>, content: Content) -> Content {
        read(cell.filter(|_| self.scaled.is_none()), content)
    }

    /// How many rows what is said of trim takes.
    fn of_trim(&self) -> usize {
        if self.trim.is_empty() { 0 } else { self.trim.len().saturating_add(care::KEPT.len()).saturating_add(3) }
    }

    /// How many rows are ruled for a method that is not in the book.
    fn ruled(&self) -> usize {
        if !self.steps.is_empty() {
            return 0;
        }
        let longer = self.allergens.iter().map(|(_, text)| text.len() / LETTERS).sum::<usize>();
        // Two of the cautions take two rows each.
        let cautions = if self.trim.is_empty() { 0 } else { self.of_trim().saturating_add(2) };
        let others = [self.facts.len(), self.shown.layout.lines, self.allergens.len(), longer, cautions, BETWEEN];
        let others = others.into_iter().fold(0_usize, usize::saturating_add).saturating_mul(ROW);
        (ON_A_PAGE.saturating_sub(others) / RULED_ROW).clamp(RULED.0, RULED.1)
    }

    /// How many rows it takes, with the blank ones between what belongs together.
    fn rows(&self) -> u32 {
        let method = self.steps.len().saturating_add(self.ruled());
        let note = usize::from(self.note.is_some());
        let blocks = [self.facts.len(), note, self.shown.layout.lines, method, self.allergens.len(), self.of_trim()];
        let rows = blocks.into_iter().fold(BETWEEN, usize::saturating_add);
        u32::try_from(rows).unwrap_or(u32::MAX)
    }

    /// Puts it from the row `start` on.
    fn put(&self, start: u32, out: &mut RowSink<'_>) {
        let mut row = start;
        let mut put = |cells: Vec<Cell>| {
            out(Row { row, cells });
            row = row.saturating_add(1);
        };
        let name = self.shown.entry.input.typed(Column::Recipe);
        let named = match &name.value {
            Value::Text(name) => self.read(self.shown.layout.label(Label::Recipe), Content::Text(name.clone())),
            _ => Content::Text(self.shown.recipe.name.clone()),
        };
        let costed = match self.scaled {
            Some(_) => Cell::text(BESIDE, own_sheets::SCALED, Ink::Reading),
            None => Cell::link(BESIDE, own_sheets::TO_ITS_COSTING, &self.shown.layout.home(), Ink::Reading),
        };
        put(vec![Cell { column: 0, content: named, ink: Ink::WallTitle, look: Look::Flowing(PREP) }, costed]);
        for (label, value) in &self.facts {
            put(vec![Cell::text(QTY, *label, Ink::WallLabel), value.clone()]);
        }
        if let Some(note) = &self.note {
            let look = Look::Flowing(PREP);
            let note = Cell { column: ITEM, content: note.clone(), ink: Ink::WallFact, look };
            put(vec![Cell::text(QTY, Label::Note.text(), Ink::WallLabel), note]);
        }
        put(Vec::new());
        let headers = HEADERS.into_iter().zip(0_u16..).map(|(header, at)| Cell {
            look: if at == QTY {
                Look::OverFigures
            } else if at == UNIT {
                Look::Words
            } else {
                Look::General
            },
            ..Cell::text(at, header, Ink::WallHead)
        });
        put(headers.collect());
        for index in 0..self.shown.layout.lines {
            put(self.line(index));
        }
        put(Vec::new());
        let head = |text: &str| vec![Cell { look: Look::Flowing(PREP), ..Cell::text(0, text, Ink::WallHead) }];
        put(head("Method"));
        for (step, number) in self.steps.iter().zip(1_u32..) {
            let step = Cell { look: Look::Flowing(PREP), ..Cell::text(UNIT, *step, Ink::Wall) };
            put(vec![
                Cell { look: Look::OverFigures, ..Cell::text(QTY, format!("{number}.\u{A0}"), Ink::WallLabel) },
                step,
            ]);
        }
        for _ in 0..self.ruled() {
            let line = |column| Cell { column, content: Content::Blank, ink: Ink::WallRule, look: Look::General };
            put((QTY..=PREP).map(line).collect());
        }
        put(Vec::new());
        for (label, text) in &self.allergens {
            let flowing = Cell { look: Look::Flowing(PREP), ..Cell::text(ITEM, text, Ink::Wall) };
            put(vec![Cell::text(QTY, *label, Ink::WallLabel), flowing]);
        }
        put(Vec::new());
        if !self.trim.is_empty() {
            put(head("Trim is kept so"));
            for part in &self.trim {
                put(self.kept(*part));
            }
            let cautions = care::KEPT.iter().map(|caution| caution.text).chain([care::WHO_DECIDES]);
            for text in cautions {
                put(vec![Cell { look: Look::Flowing(PREP), ..Cell::text(QTY, text, Ink::Wall) }]);
            }
            put(Vec::new());
        }
    }

    /// A line: how much of what, and how it is prepared.
    fn line(&self, index: usize) -> Vec<Cell> {
        let Some(row) = typed_lines(self.shown.entry).nth(index) else { return Vec::new() };
        let layout = self.shown.layout;
        let cell = |at: u16, column: Column, look: Look| {
            let typed = input_cell(self.shown.context, TableKind::CardLines, column, at, row.typed(column))?;
            let content = self.read(layout.input(index, column), typed.content);
            Some(Cell { column: at, content, ink: Ink::Wall, look })
        };
        let mut cells: Vec<Cell> = Vec::new();
        let entry = self.shown.entry.lines.get(index);
        match self.scaled {
            Some(scaled) => cells.extend(scaled::quantity(scaled.lines.get(index))),
            None => {
                cells.extend(cell(QTY, Column::Qty, quantity_look(entry, row.typed(Column::Qty))));
                cells.extend(cell(UNIT, Column::Unit, Look::Words));
            }
        }
        cells.extend(cell(ITEM, Column::Item, Look::Wrapped));
        let how = [Column::Prep, Column::Basis, Column::Note];
        let how: Vec<(String, &str)> = how
            .into_iter()
            .filter_map(|column| match (&row.typed(column).value, layout.input(index, column)) {
                (Value::Text(text), Some(cell)) => Some((cell.from(sheet_names::KITCHEN_CARDS), text.as_str())),
                _ => None,
            })
            .collect();
        let said = match self.scaled {
            Some(_) => scaled::said(&how),
            None => joined(&how),
        };
        cells.extend(said.map(|content| Cell { column: PREP, content, ink: Ink::Wall, look: Look::Wrapped }));
        cells
    }

    /// For how many days a part is kept.
    fn kept(&self, id: PartId) -> Vec<Cell> {
        let context = self.shown.context;
        let Some(part) = context.kitchen.part(id) else { return Vec::new() };
        let mut cells = vec![Cell { look: Look::Flowing(ITEM), ..Cell::text(QTY, part.name.clone(), Ink::WallLabel) }];
        let rows = part.rows.iter().filter_map(|row| Some((*row, context.kitchen.entries.tests.get(*row)?)));
        let days = part.reuse.keeps;
        let home = rows.into_iter().find(|(_, row)| row.keeps.given().is_some() && row.keeps.given() == days.as_ref());
        let keeps = home.and_then(|(row, _)| context.input(TableKind::YieldTests, row, Column::Keeps));
        let told = match (days, keeps) {
            (Some(days), Some(_)) if self.scaled.is_some() => Content::Text(format!("{}{DAYS}", plain(days))),
            (Some(days), Some(cell)) => {
                let text = format!("IFERROR({}&\"{DAYS}\",\"{NOT_SAID}\")", cell.from(sheet_names::KITCHEN_CARDS));
                Content::Formula(Formula::text(text, format!("{}{DAYS}", plain(days))))
            }
            _ => Content::Text(NOT_SAID.to_owned()),
        };
        cells.push(Cell { column: PREP, content: told, ink: Ink::Wall, look: Look::Wrapped });
        cells
    }
}

/// For how long a part is kept, as the kitchen's own rule says.
const DAYS: &str = " days, the day it is made is the first";
const NOT_SAID: &str = "for as long as the house rule says";

/// What it makes, and for how many.
fn facts(shown: &ShownRecipe<'_>) -> Vec<(&'static str, Cell)> {
    let typed = |column| shown.entry.input.typed(column);
    let labels =
        [(Label::Makes, Column::Makes), (Label::Portion, Column::Portion), (Label::Portions, Column::Portions)];
    let mut facts = Vec::new();
    for (label, column) in labels {
        // A bare number under Makes is how many portions.
        let name = if label == Label::Makes && matches!(typed(column).value, Value::Number(_)) {
            Label::Portions
        } else {
            label
        };
        let cell = input_cell(shown.context, TableKind::RecipeFacts, column, ITEM, typed(column));
        let Some(cell) = cell else { continue };
        let content = read(shown.layout.label(label), cell.content);
        facts.push((name.text(), Cell { column: ITEM, content, ink: Ink::WallFact, look: Look::General }));
    }
    if facts.iter().any(|(name, _)| *name == Label::Portions.text()) {
        return facts;
    }
    let total = shown.totals().into_iter().find(|total| total.total == Total::Portions);
    if let Some(Content::Formula(Formula { result: Outcome::Number(result), .. })) = total.map(|total| total.content) {
        let at = shown.layout.total(Total::Portions).from(sheet_names::KITCHEN_CARDS);
        let look = if result.is_integer() { Look::Whole } else { Look::Quantity };
        let content = Content::Formula(Formula::number(at, result));
        facts.push((Label::Portions.text(), Cell { column: ITEM, content, ink: Ink::WallFact, look }));
    }
    facts
}

/// What stands in a cell of a card, read off it: a constant where some program would give it back otherwise.
fn read(cell: Option<Ref>, content: Content) -> Content {
    let Some(cell) = cell else { return content };
    let at = cell.from(sheet_names::KITCHEN_CARDS);
    match content {
        Content::Text(text) if is_plain(&text) => Content::Formula(Formula::text([&at, "&\"\""].concat(), text)),
        Content::Number(number) => Content::Formula(Formula::number(or_else(&at, &at, BLANK), number)),
        other => other,
    }
}

/// Texts of several cells, those that are filled, with a semicolon between.
fn joined(cells: &[(String, &str)]) -> Option<Content> {
    let texts: Vec<&str> = cells.iter().map(|(_, text)| *text).collect();
    let all = texts.join("; ");
    if !is_plain(&all) {
        return (!all.is_empty()).then_some(Content::Text(all));
    }
    let text = match cells {
        [] => return None,
        [(one, _)] => [one, "&\"\""].concat(),
        [(first, _), (second, _)] => format!("{first}&IF(OR({first}=\"\",{second}=\"\"),\"\",\"; \")&{second}"),
        // Seldom so many: they stand as they are.
        _ => return Some(Content::Text(all)),
    };
    Some(Content::Formula(Formula::text(text, all)))
}

/// Whether every program gives a text back as it is: what looks like the code of a character is none in the result of a
/// formula.
fn is_plain(text: &str) -> bool {
    !text.is_empty()
        && text.len() <= LONGEST
        && text.trim() == text
        && !text.contains("_x")
        && !text.contains(is_unprintable)
}

/// How a cook writes a quantity: halves and quarters as such, but of what is metric.
fn quantity_look(entry: Option<&LineEntry>, typed: &Typed) -> Look {
    const AS_FRACTIONS: [&str; 7] = ["125", "25", "375", "5", "625", "75", "875"];
    let Value::Number(number) = &typed.value else { return Look::Wrapped };
    let is_metric = match entry.and_then(|entry| entry.quantity.given()) {
        Some(LineQuantity::Measured(measured)) => measured.unit.is_metric(),
        _ => false,
    };
    let digits = plain(*number);
    let is_fraction = digits.split_once('.').is_some_and(|(_, part)| AS_FRACTIONS.contains(&part));
    if is_fraction && !is_metric { Look::Fraction } else { Look::General }
}
