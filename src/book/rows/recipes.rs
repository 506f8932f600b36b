//! Recipes: cards, and flat lists of facts and lines joined by name.

use indexmap::IndexMap;

use super::amounts::Quantity;
use super::marks::{ColumnMarks, marks_of};
use super::notes::ReadingNotes;
use super::reader::Reader;
use crate::book::Card;
use crate::kitchen::recipe::{LineEntry, LineQuantity, QFactor, RecipeEntry};
use crate::kitchen::{Entries, Field, InputRow, NameKey};
use crate::measure::{Conventions, Measured, Unit, named_percentage, parse_line};
use crate::number::{BareRule, Decimal, PercentText, parse_percent, plain};
use crate::problem::{Code, Fault};
use crate::schema::{Column, Shown, Typed, Value};

use super::fields::MoneyCell;
use super::reader::CellContent;
use crate::measure::Volumes;

/// Reads a card.
pub(super) fn card(card: &Card<'_>, notes: &mut ReadingNotes, volumes: Volumes) -> RecipeEntry {
    let marks = ColumnMarks::new();
    let mut recipe = head(Reader::of_card(card, &marks, volumes, notes));
    for table in &card.lines {
        let marks = marks_of(table);
        for row in &table.rows {
            match line(Reader::of_row(table, row, &marks, volumes, notes)) {
                Ok(line) => recipe.lines.push(line),
                Err(unread) => recipe.unread.push(unread),
            }
        }
    }
    recipe
}

/// Flat lists while they are gathered.
#[derive(Debug, Default)]
pub(super) struct RecipeLists {
    facts: Vec<RecipeEntry>,
    /// The lists of every name, one a file.
    lines: IndexMap<NameKey, Vec<RecipeEntry>>,
    /// The name before the last line, and which it is: the next line mostly has it, too.
    last: Option<(String, usize)>,
}

impl RecipeLists {
    /// Takes a row of recipe facts.
    pub(super) fn facts(&mut self, reader: Reader<'_>) {
        self.facts.push(head(reader));
    }

    /// Takes a recipe line.
    pub(super) fn line(&mut self, mut reader: Reader<'_>) {
        let Some(recipe) = reader.name(Column::Recipe) else { return };
        if reader.input.cells.iter().all(|cell| cell.column == Column::Recipe) {
            // A recipe's name and nothing else is no line of it.
            reader.name(Column::Item);
            return;
        }
        let place = reader.input.place(Column::Recipe);
        let named = match &self.last {
            Some((name, at)) if *name == recipe => *at,
            _ => {
                let lists = self.lines.entry(NameKey::of(&recipe));
                let at = lists.index();
                lists.or_default();
                self.last = Some((recipe.clone(), at));
                at
            }
        };
        let Some((_, lists)) = self.lines.get_index_mut(named) else { return };
        // A file that goes on with another file's recipe defines it twice.
        let at = lists.iter().position(|list| list.input.place.file_name() == place.file_name());
        let at = at.unwrap_or_else(|| {
            let cells = reader.input.cells.iter().filter(|cell| cell.column == Column::Recipe).cloned().collect();
            lists.push(RecipeEntry::bare(InputRow { place, cells }, recipe));
            lists.len().saturating_sub(1)
        });
        let Some(recipe) = lists.get_mut(at) else { return };
        match line(reader) {
            Ok(line) => recipe.lines.push(line),
            Err(unread) => recipe.unread.push(unread),
        }
    }

    /// Joins lines to facts; lines without facts are a recipe of their own.
    pub(super) fn join(mut self, entries: &mut Entries) {
        for mut recipe in self.facts {
            // Taken and not taken out: of many recipes the others would move up every time.
            let named = !recipe.name.is_empty();
            let lists = if named { self.lines.get_mut(&NameKey::of(&recipe.name)) } else { None };
            let mut lists = lists.map(std::mem::take).unwrap_or_default().into_iter();
            if let Some(list) = lists.next() {
                recipe.lines = list.lines;
                recipe.unread = list.unread;
            }
            entries.recipes.push(recipe);
            entries.recipes.extend(lists);
        }
        entries.recipes.extend(self.lines.into_values().flatten());
        entries.recipes.iter_mut().for_each(|recipe| recipe.lines.shrink_to_fit());
    }
}

/// Reads a recipe's labels. One whose name is missing or cannot be read, which is reported, has no name.
pub(super) fn head(mut reader: Reader<'_>) -> RecipeEntry {
    let (makes, portions) = reader.makes_and_portions();
    RecipeEntry {
        name: reader.name_if_any(Column::Recipe).unwrap_or_default(),
        makes,
        portion: reader.portion(),
        portions,
        menu_price: reader.money(Column::MenuPrice),
        target: reader.share(Column::Target, BareRule::UpToOne, false),
        q: reader.q_factor(Column::QFactor),
        spice: reader.percent(Column::SpiceFactor, BareRule::BelowOne),
        serving_loss: reader.serving_loss(),
        group: reader.text(Column::Group).unwrap_or_default(),
        lines: Vec::new(),
        unread: Vec::new(),
        input: reader.input,
    }
}

/// Reads a line; its cells alone when it has no ingredient, which is reported.
pub(super) fn line(mut reader: Reader<'_>) -> Result<LineEntry, InputRow> {
    let Some(item) = reader.name_if_any(Column::Item) else { return Err(reader.input) };
    let quantity = reader.line_quantity();
    let entry = LineEntry {
        item,
        quantity,
        prep: reader.text(Column::Prep).unwrap_or_default(),
        basis: reader.basis(),
        own_yield: reader.line_yield(),
        used: reader.share(Column::Used, BareRule::BelowOne, true),
        input: reader.input,
    };
    Ok(entry)
}

impl Reader<'_> {
    /// A portion: one quantity; `1` alone is one piece of what is counted.
    pub(super) fn portion(&mut self) -> Field<Measured> {
        self.measured(Column::Portion)
    }

    fn serving_loss(&mut self) -> Field<Decimal> {
        match self.percent(Column::ServingLoss, BareRule::BelowOne) {
            Field::Given(loss) if loss >= Decimal::ONE => {
                let seen = self.input.text(Column::ServingLoss);
                let fault = Fault::new(
                    Code::NumberOutOfRange,
                    format!("the serving loss is {seen}: nothing would be served"),
                    "Type the share that stays in pots and ladles, such as 3%.",
                );
                self.fail(Column::ServingLoss, fault)
            }
            field => field,
        }
    }

    /// A percentage of the food, or money per portion; a bare number may be either, except nothing.
    pub(super) fn q_factor(&mut self, column: Column) -> Field<QFactor> {
        let money = |reader: &mut Self| match reader.money(column) {
            Field::Given(money) => Field::Given(QFactor::Money(money)),
            Field::Blank => Field::Blank,
            Field::Broken => Field::Broken,
        };
        let share = |reader: &mut Self| match reader.percent(column, BareRule::MustSay) {
            Field::Given(share) => Field::Given(QFactor::Share(share)),
            Field::Blank => Field::Blank,
            Field::Broken => Field::Broken,
        };
        match self.content(column) {
            CellContent::Number(_, Shown::Money(_)) => money(self),
            CellContent::Number(number, Shown::Plain) if number.is_zero() => {
                self.input.set(column, Typed { value: Value::Number(number), shown: Shown::Percent });
                Field::Given(QFactor::Share(number))
            }
            CellContent::Text(text) => match parse_percent(&text, self.marks(column)) {
                Ok(PercentText::Fraction(_)) => share(self),
                Ok(PercentText::Bare(number)) if number.is_zero() => {
                    self.input.set(column, Typed { value: Value::Number(number), shown: Shown::Percent });
                    Field::Given(QFactor::Share(number))
                }
                _ => match self.money_text(column) {
                    Field::Given(MoneyCell { signed: true, .. }) => money(self),
                    Field::Given(MoneyCell { amount, .. }) => {
                        let fault = self.must_say(column, amount);
                        self.fail(column, fault)
                    }
                    Field::Blank => Field::Blank,
                    Field::Broken => Field::Broken,
                },
            },
            _ => share(self),
        }
    }

    /// Takes the sign of `65%`, or the format of a cell, off the number of a line in % of the flour, into Unit.
    fn tidy_percentage(&mut self) {
        let typed = self.input.typed(Column::Qty);
        let fraction = match (&typed.value, &typed.shown) {
            (Value::Number(number), Shown::Percent) => *number,
            (Value::Text(text), _) if text.trim_end().ends_with('%') => {
                match parse_percent(text, self.marks(Column::Qty)) {
                    Ok(PercentText::Fraction(fraction)) => fraction,
                    _ => return,
                }
            }
            _ => return,
        };
        let beside = self.input.text(Column::Unit);
        if !beside.is_empty() && !Unit::read(&beside).is_percent() {
            return;
        }
        let Some(percent) = fraction.checked_mul(Decimal::ONE_HUNDRED).map(|percent| percent.normalize()) else {
            return;
        };
        self.input.set(Column::Qty, Typed::number(percent));
        self.input.set(Column::Unit, Typed::text(Unit::percent().name()));
    }

    fn line_quantity(&mut self) -> Field<LineQuantity> {
        let unmeasured = |words: String| {
            let unit = if words.is_empty() { None } else { Some(Unit::own(&words)) };
            LineQuantity::Unmeasured { words, measured: unit.map(|unit| Measured::new(Decimal::ONE, unit)) }
        };
        self.tidy_percentage();
        match self.quantity(Column::Qty, Column::Unit) {
            Field::Given(Quantity::Measured(measured)) if measured.unit.is_unmeasured() => {
                let words = measured.to_string();
                Field::Given(LineQuantity::Unmeasured { words, measured: Some(measured) })
            }
            Field::Given(Quantity::Measured(measured)) => {
                if measured.amount.is_zero() {
                    let fault = Fault::new(
                        Code::QuantityZero,
                        "the quantity is 0, so this line costs nothing",
                        "Type the quantity, or to taste; or take the line out.",
                    );
                    self.report(Column::Qty, fault);
                }
                Field::Given(LineQuantity::Measured(measured))
            }
            Field::Given(Quantity::Bare(number)) => {
                let fault = Fault::new(
                    Code::UnitAssumed,
                    format!("{} without a unit was read as {} each", plain(number), plain(number)),
                    "Write each in Unit if pieces are meant, or the unit that is.",
                );
                self.report(Column::Qty, fault);
                Field::Given(LineQuantity::Measured(Measured::new(number, Unit::each())))
            }
            Field::Given(Quantity::Words(words)) => Field::Given(unmeasured(words)),
            Field::Blank => {
                let help = self.quantity_in_name();
                let help = format!("Type a quantity, or to taste.{}", help.unwrap_or_default());
                self.report(
                    Column::Item,
                    Fault::new(Code::LineUncosted, "this line has no quantity, so it is not costed", help),
                );
                Field::Given(unmeasured(String::new()))
            }
            Field::Broken => Field::Broken,
        }
    }

    /// What to type where the ingredient of a line without a quantity begins with one, as `65% water` does.
    fn quantity_in_name(&self) -> Option<String> {
        let (item, marks) = (self.input.text(Column::Item), self.marks(Column::Qty));
        let (quantity, name) = match named_percentage(&item, marks) {
            Some(named) => (Measured::new(named.percent, Unit::percent()), named.name),
            None => {
                let line = parse_line(&item, Conventions { marks, volumes: self.volumes });
                (line.total().filter(|_| !line.name.is_empty())?, line.name)
            }
        };
        let Measured { amount, unit } = quantity;
        let (qty, of_flour) = (plain(amount), if unit.is_percent() { " (of the flour)" } else { "" });
        Some(format!(
            " If {qty} {unit}{of_flour} is how much, type {qty} under Qty and {unit} under Unit, and {name} as its name."
        ))
    }

    /// A yield of the line alone; above 100 % where the line is in cooked weight.
    fn line_yield(&mut self) -> Field<Decimal> {
        match self.percent(Column::Yield, BareRule::UpToOne) {
            Field::Given(fraction) if fraction.is_zero() => {
                let fault = Fault::new(
                    Code::YieldZero,
                    "the yield is zero: nothing would be left",
                    "Type what is left, such as 85%, or leave it blank.",
                );
                self.fail(Column::Yield, fault)
            }
            field => field,
        }
    }
}
