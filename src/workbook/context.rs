//! Context that every sheet of the costed workbook is made from: the kitchen, its costing, and where everything stands.

use std::ops::Deref;

use crate::costing::price::bought::PriceFrom;
use crate::costing::{Costing, ItemCost, MeasureFrom};
use crate::in_order::InOrder;
use crate::kitchen::bridge::Bridge;
use crate::kitchen::price::Price;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::settings::Setting;
use crate::kitchen::{Field, ItemId, NameKey, PartId, RecipeId};
use crate::measure::Unit;
use crate::number::BareRule;
use crate::schema::{Column, Shown, TableKind, Typed, Value};
use crate::workbook::cells::formula::{NOT_KNOWN, Ref, is_typed, literal, or_else, says_other};
use crate::workbook::layout::compared::Compared;
use crate::workbook::layout::dish_cells::DishesOnCards;
use crate::workbook::layout::effective_settings::SettingsLayout;
use crate::workbook::layout::inputs::Inputs;
use crate::workbook::layout::recipe::Total;
use crate::workbook::layout::{Slot, rows_of};

/// So many bytes of conditions leave room in a formula for what they are about.
const ROOM: usize = 5_000;

/// The column of what a base unit costs as purchased.
pub const AP: &str = "AP per g, ml, each";
/// The column of the same as long as no other row comes before.
pub const AP_THAT_COUNTS: &str = "AP that counts";

/// Everything a sheet is made from.
#[derive(Debug)]
pub struct Context<'a> {
    /// What was typed, and where it stands.
    pub inputs: Inputs<'a>,
    /// Its costing.
    pub costing: &'a Costing,
    /// Where the settings stand.
    pub settings: &'a SettingsLayout,
    /// What A1 of an output sheet says.
    pub mark: &'a str,
    /// Where dishes stand on the cards of their recipes.
    pub dishes_on_cards: DishesOnCards,
}

impl<'a> Deref for Context<'a> {
    type Target = Inputs<'a>;

    fn deref(&self) -> &Inputs<'a> {
        &self.inputs
    }
}

impl Context<'_> {
    /// What the book tells the cost of, in a title: `What the menu costs`.
    pub fn what_costs(&self) -> &'static str {
        let kitchen = self.kitchen;
        if kitchen.dishes.is_empty() && !kitchen.recipes.is_empty() { "the recipes cost" } else { "the menu costs" }
    }

    /// The cell of a column of our own on a table sheet.
    pub fn own(&self, kind: TableKind, index: usize, header: &'static str) -> Option<Ref> {
        self.layout.table(kind).map(|table| table.own(index, header))
    }

    /// The cell of an input column on a table sheet.
    pub fn input(&self, kind: TableKind, index: usize, column: Column) -> Option<Ref> {
        self.layout.table(kind).and_then(|table| table.input(index, column))
    }

    /// What spice is taken on, of food and Q: both; or food alone, as long as the setting says so.
    pub fn spiced(&self, covers_q: bool, (food, q): (&str, &str), sheet: &str) -> String {
        match self.settings.value(Setting::SpiceCoversQ) {
            _ if covers_q => format!("({food}+{q})"),
            Some(cell) if q != "0" => format!("({food}+IF({}=\"\",{q},0))", cell.from(sheet)),
            _ => food.to_owned(),
        }
    }

    /// That more rows of a table say these words in a column than do as it is written; `None` in long tables, and of words
    /// that no formula holds.
    pub fn more_rows(&self, kind: TableKind, column: Column, typed: &Typed, sheet: &str) -> Option<String> {
        let table = self.layout.table(kind).filter(|table| table.roomy)?;
        let (all, words) = (table.all(Slot::Input(column), sheet)?, typed.words().and_then(literal)?);
        let said = Compared::of(typed);
        let rows = rows_of(self.kitchen, kind).into_iter();
        let known = rows.filter(|row| Compared::of(row.typed(column)).says(&said)).count();
        Some(format!("SUMPRODUCT(--({all}={words}))>{known}"))
    }

    /// What a measure of the book is said to weigh or hold.
    pub fn measure_cell(&self, row: usize) -> Option<Ref> {
        self.input(TableKind::Measures, row, self.measured_by(row)?)
    }

    fn measured_by(&self, row: usize) -> Option<Column> {
        let typed = &self.kitchen.entries.measures.get(row)?.input;
        [Column::Weighs, Column::Holds].into_iter().find(|column| !typed.typed(*column).is_blank())
    }

    /// That a cell of a table was cut and pasted elsewhere, as formulas of another sheet see it: it stands in another row than
    /// the key of its own, in another column than its header, or under another header.
    pub fn elsewhere(&self, kind: TableKind, index: usize, column: Column, sheet: &str) -> Option<String> {
        let table = self.layout.table(kind).filter(|table| table.roomy)?;
        let cell = table.input(index, column)?;
        let key = Ref { column: cell.key?.column, ..cell.clone() };
        let over = Ref { row: 0, ..cell.clone() };
        let [cell, key, over] = [cell, key, over].map(|cell| cell.unkeyed().from(sheet));
        let header = kind.header(column);
        Some(format!("OR(ROW({cell})<>ROW({key}),COLUMN({cell})<>COLUMN({over}),{over}<>\"{header}\")"))
    }

    fn source_name(&self, source: IngredientSource) -> Option<&str> {
        let kitchen = self.kitchen;
        match source {
            IngredientSource::Bought(id) => Some(&kitchen.item(id)?.name),
            IngredientSource::Part(id) => Some(&kitchen.part(id)?.name),
            IngredientSource::Made(id) => Some(&kitchen.recipe(id)?.name),
            IngredientSource::Unknown => None,
        }
    }

    fn bridge(&self, source: IngredientSource) -> Option<&Bridge> {
        let kitchen = self.kitchen;
        match source {
            IngredientSource::Bought(id) => kitchen.item(id).map(|item| &item.bridge),
            IngredientSource::Part(id) => kitchen.part(id).map(|part| &part.bridge),
            IngredientSource::Made(id) => kitchen.recipe(id).map(|recipe| &recipe.bridge),
            IngredientSource::Unknown => None,
        }
    }

    /// Whether it may hang on how an ingredient is prepared which of its measures lead from a unit of it to another.
    pub fn asks_for_prep(&self, measures: &[MeasureFrom], source: IngredientSource) -> bool {
        let borrowed = measures.iter().any(|step| matches!(step, MeasureFrom::Reference(..)));
        let of_prep = |bridge: &Bridge| bridge.measures.iter().any(|measure| measure.prep.is_some());
        borrowed || (!measures.is_empty() && self.bridge(source).is_some_and(of_prep))
    }

    /// What would undo the `measures` that lead from a unit of `source` to another, as formulas of `sheet` read it: one of the
    /// book says something else, or one of its others, which could be meant then, says nothing.
    pub fn measures_missed(&self, measures: &[MeasureFrom], source: IngredientSource, sheet: &str) -> Vec<String> {
        if measures.is_empty() {
            return Vec::new();
        }
        let kitchen = self.kitchen;
        let bridge = self.bridge(source);
        let used: Vec<usize> = measures
            .iter()
            .filter_map(|step| if let MeasureFrom::Row(row) = step { Some(*row) } else { None })
            .collect();
        let named = used.iter().filter_map(|row| kitchen.entries.measures.get(*row)?.measure.given());
        let mut asked: Vec<(Unit, Option<NameKey>)> =
            named.map(|(unit, prep)| (unit.clone(), prep.as_deref().map(NameKey::of))).collect();
        if asked.is_empty() {
            asked.push((Unit::gram(), None));
        }
        let mut rows: Vec<usize> = Vec::new();
        for ((unit, prep), bridge) in asked.iter().flat_map(|asked| Some(asked).zip(bridge)) {
            let others = bridge.asked([unit, unit], prep.as_ref(), kitchen.settings.volumes);
            rows.extend(others.into_iter().map(|measure| measure.row));
        }
        rows.extend(&used);
        rows.put_in_order();
        rows.dedup();
        let missed = |row: usize| {
            let typed = &kitchen.entries.measures.get(row)?.input;
            let words = [Column::Weighs, Column::Holds].into_iter().find_map(|column| typed.typed(column).words());
            let cell = self.measure_cell(row)?.from(sheet);
            // Another one may be taken out.
            Some(if used.contains(&row) { says_other(&cell, words) } else { format!("IFERROR({cell},1)=\"\"") })
        };
        // A row that says both what it weighs and what it holds says neither.
        let both = |row: usize| {
            let other =
                [Column::Weighs, Column::Holds].into_iter().find(|column| Some(*column) != self.measured_by(row))?;
            let cell = self.input(TableKind::Measures, row, other)?.from(sheet);
            Some(format!("IFERROR({cell},\"\")<>\"\""))
        };
        let named = rows.iter().filter_map(|row| kitchen.entries.measures.get(*row));
        let mut names: Vec<Typed> = named.map(|row| row.input.typed(Column::Item).clone()).collect();
        if names.is_empty() {
            names.extend(self.source_name(source).map(Typed::text));
        }
        names.dedup();
        // In lists every line would look through all of them.
        let added = names.iter().filter(|_| self.layout.lists.is_none());
        let added = added.filter_map(|name| self.more_rows(TableKind::Measures, Column::Item, name, sheet));
        // Whose it is, of what, and whether a weight is as purchased or edible, is said beside it.
        let typed = |row: usize, column: Column| {
            let typed = kitchen.entries.measures.get(row)?.input.typed(column);
            (!typed.is_blank()).then_some(typed)
        };
        let of_words = used.iter().flat_map(|row| {
            [Column::Item, Column::Measure, Column::Basis].into_iter().filter_map(|column| {
                let words = typed(*row, column)?.words();
                Some(says_other(&self.input(TableKind::Measures, *row, column)?.from(sheet), words))
            })
        });
        let elsewhere = |row: usize, column: Column| {
            let is_on_cards = self.layout.lists.is_none();
            is_on_cards.then(|| self.elsewhere(TableKind::Measures, row, column, sheet)).flatten()
        };
        let moved = used.iter().flat_map(|row| {
            let basis = typed(*row, Column::Basis).map(|_| Column::Basis);
            let columns =
                [Some(Column::Item), Some(Column::Measure), self.measured_by(*row), basis].into_iter().flatten();
            columns.filter_map(|column| elsewhere(*row, column))
        });
        let amount = |row: &usize| missed(*row).into_iter().chain(both(*row));
        let mut all: Vec<String> = used.iter().flat_map(amount).chain(of_words).chain(added).chain(moved).collect();
        let others = rows.iter().filter(|row| !used.contains(row));
        let of_others = others.flat_map(|row| {
            let moved = self.measured_by(*row).and_then(|column| elsewhere(*row, column));
            amount(row).chain(moved)
        });
        // Of many measures more can be asked than a formula has room for.
        for condition in of_others {
            if all.iter().map(String::len).fold(condition.len(), usize::saturating_add) > ROOM {
                break;
            }
            all.push(condition);
        }
        all
    }

    /// Where an item's AP unit cost stands; `None` for water.
    pub fn ap_cell(&self, id: ItemId) -> Option<Ref> {
        let cost = self.costing.item(id)?;
        match cost.from {
            PriceFrom::Row(row) if self.is_contested(id, cost) => self.own(TableKind::Prices, row, AP_THAT_COUNTS),
            PriceFrom::Row(row) => self.own(TableKind::Prices, row, AP),
            PriceFrom::TestRow(row) => self.own(TableKind::YieldTests, row, AP),
            PriceFrom::Water => None,
        }
    }

    /// The rows of an item that say a market price: the last price counts as long as they do.
    pub fn market_rows(&self, id: ItemId) -> impl Iterator<Item = usize> {
        let rows = &self.kitchen.entries.prices;
        let is_market = |row: &usize| rows.get(*row).is_some_and(|row| row.price == Field::Given(Price::Market));
        self.kitchen.item(id).into_iter().flat_map(|item| item.rows.iter().copied()).filter(is_market)
    }

    /// Whether it hangs on other rows than the one in use that this one's price counts; in a table of some size, where a row
    /// may be added, it always does.
    pub fn is_contested(&self, id: ItemId, cost: &ItemCost) -> bool {
        let is_roomy = || self.layout.table(TableKind::Prices).is_some_and(|table| table.roomy);
        !cost.rivals.is_empty() || is_roomy() || self.market_rows(id).next().is_some()
    }

    /// Where an item's price row stands.
    pub fn item_cell(&self, id: ItemId) -> Option<Ref> {
        match self.costing.item(id)?.from {
            PriceFrom::Row(row) => self.input(TableKind::Prices, row, Column::Item),
            PriceFrom::TestRow(row) => self.input(TableKind::YieldTests, row, Column::Part),
            PriceFrom::Water => None,
        }
    }

    /// A cell of a part's first row.
    pub fn part_cell(&self, id: PartId, header: &'static str) -> Option<Ref> {
        let row = *self.kitchen.part(id)?.rows.first()?;
        self.own(TableKind::YieldTests, row, header)
    }

    /// A total of a recipe's card.
    pub fn total(&self, id: RecipeId, total: Total) -> Option<Ref> {
        Some(self.layout.recipes.get(id.index())?.total(total))
    }
}

/// A fraction as a formula reads it: the cell itself when it is a percentage; a bare number by its rule.
pub fn fraction_from(typed: &Typed, cell: &str, rule: BareRule) -> Option<String> {
    // A cell that was cleared is no nought.
    Some(format!("IF({},{},\"{NOT_KNOWN}\")", is_typed(cell), as_fraction(typed, cell, rule)?))
}

/// A fraction of one at the most, likewise, which may be typed yet: the blank cell shows percentages.
pub fn share_from(typed: &Typed, cell: &str, rule: BareRule) -> String {
    let (fraction, most) = match as_fraction(typed, cell, rule).filter(|fraction| fraction != cell) {
        Some(fraction) => (fraction, "100"),
        None => (cell.to_owned(), "1"),
    };
    format!("IF(AND(ISNUMBER({cell}),{cell}>=0,{cell}<={most}),{fraction},\"{NOT_KNOWN}\")")
}

fn as_fraction(typed: &Typed, cell: &str, rule: BareRule) -> Option<String> {
    Some(match (&typed.value, &typed.shown, rule) {
        (Value::Number(_), Shown::Percent, _) => cell.to_owned(),
        (Value::Number(_), _, BareRule::UpToOne) => format!("IF({cell}>1,{cell}/100,{cell})"),
        (Value::Number(_), _, BareRule::BelowOne) => format!("IF({cell}>=1,{cell}/100,{cell})"),
        _ => return None,
    })
}

/// A fraction that may be blank, likewise, with what counts then.
pub fn fraction_or(typed: &Typed, cell: &str, rule: BareRule, blank: &str) -> Option<String> {
    if typed.is_blank() {
        return Some(or_else(cell, &share_from(typed, cell, rule), blank));
    }
    let fraction = as_fraction(typed, cell, rule)?;
    Some(format!("IF({},{fraction},IF({cell}=\"\",{blank},\"{NOT_KNOWN}\"))", is_typed(cell)))
}
