//! Context that every sheet of the costed workbook is made from: the kitchen, its costing, and where everything stands.

use std::ops::Deref;

use crate::costing::price::bought::PriceFrom;
use crate::costing::{Costing, ItemCost};
use crate::kitchen::price::Price;
use crate::kitchen::settings::Setting;
use crate::kitchen::{Field, ItemId, PartId, RecipeId};
use crate::number::{BareRule, Decimal, plain};
use crate::schema::{Column, Shown, TableKind, Typed, Value};
use crate::workbook::cells::formula::{NOT_KNOWN, Ref, is_typed, literal, or_else};
use crate::workbook::layout::compared::Compared;
use crate::workbook::layout::dish_cells::DishesOnCards;
use crate::workbook::layout::effective_settings::SettingsLayout;
use crate::workbook::layout::inputs::Inputs;
use crate::workbook::layout::recipe::Total;
use crate::workbook::layout::{Slot, rows_of};

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

    /// The column that says it.
    pub fn measured_by(&self, row: usize) -> Option<Column> {
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

/// A fraction of one at the most, or of what was typed where that is more, likewise, which may be typed yet: the blank cell
/// shows percentages.
pub fn share_from(typed: &Typed, cell: &str, rule: BareRule) -> String {
    let (fraction, whole) = match as_fraction(typed, cell, rule).filter(|fraction| fraction != cell) {
        Some(fraction) => (fraction, Decimal::ONE_HUNDRED),
        None => (cell.to_owned(), Decimal::ONE),
    };
    let most = match typed.value {
        Value::Number(number) => plain(number.max(whole)),
        _ => plain(whole),
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
