//! Context that every sheet of the costed workbook is made from: the kitchen, its costing, and where everything stands.

use std::ops::Deref;

use crate::costing::price::bought::PriceFrom;
use crate::costing::{Costing, ItemCost};
use crate::kitchen::settings::Setting;
use crate::kitchen::{ItemId, PartId, RecipeId};
use crate::number::BareRule;
use crate::schema::{Column, Shown, TableKind, Typed, Value};
use crate::workbook::cells::formula::{NOT_KNOWN, Ref};
use crate::workbook::layout::effective_settings::SettingsLayout;
use crate::workbook::layout::inputs::Inputs;
use crate::workbook::layout::recipe::Total;

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
}

impl<'a> Deref for Context<'a> {
    type Target = Inputs<'a>;

    fn deref(&self) -> &Inputs<'a> {
        &self.inputs
    }
}

impl Context<'_> {
    /// The cell of a column of our own on a table sheet.
    pub fn own(&self, kind: TableKind, index: usize, header: &'static str) -> Option<Ref> {
        self.layout.table(kind).map(|table| table.own(index, header))
    }

    /// The cell of an input column on a table sheet.
    pub fn input(&self, kind: TableKind, index: usize, column: Column) -> Option<Ref> {
        self.layout.table(kind).and_then(|table| table.input(index, column))
    }

    /// What spice is taken on, of food and Q: both, unless the setting says otherwise; on food alone as long as it does.
    pub fn spiced(&self, covers_q: bool, (food, q): (&str, &str), sheet: &str) -> String {
        match self.settings.value(Setting::SpiceCoversQ) {
            _ if covers_q => format!("({food}+{q})"),
            Some(cell) if q != "0" => format!("({food}+IF({}=\"\",{q},0))", cell.from(sheet)),
            _ => food.to_owned(),
        }
    }

    /// What a measure of the book is said to weigh or hold.
    pub fn measure_cell(&self, row: usize) -> Option<Ref> {
        let typed = &self.kitchen.entries.measures.get(row)?.input;
        let column = [Column::Weighs, Column::Holds].into_iter().find(|column| !typed.typed(*column).is_blank())?;
        self.input(TableKind::Measures, row, column)
    }

    /// Where an item's AP unit cost stands; `None` for water.
    pub fn ap_cell(&self, cost: &ItemCost) -> Option<Ref> {
        match cost.from {
            PriceFrom::Row(row) => self.own(TableKind::Prices, row, "AP per g, ml, each"),
            PriceFrom::TestRow(row) => self.own(TableKind::YieldTests, row, "AP per g, ml, each"),
            PriceFrom::Water => None,
        }
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
    Some(format!("IF(ISNUMBER({cell}),{},\"{NOT_KNOWN}\")", as_fraction(typed, cell, rule)?))
}

/// A fraction of one at the most, likewise, which may be typed yet: the blank cell shows percentages.
pub fn share_from(typed: &Typed, cell: &str, rule: BareRule) -> String {
    let (fraction, most) = match as_fraction(typed, cell, rule).filter(|fraction| fraction != cell) {
        Some(fraction) => (fraction, "100"),
        None => (cell.to_owned(), "1"),
    };
    format!("IF(AND(ISNUMBER({cell}),{cell}<={most}),{fraction},\"{NOT_KNOWN}\")")
}

fn as_fraction(typed: &Typed, cell: &str, rule: BareRule) -> Option<String> {
    Some(match (&typed.value, &typed.shown, rule) {
        (Value::Number(_), Shown::Percent, _) => cell.to_owned(),
        (Value::Number(_), _, BareRule::UpToOne) => format!("IF({cell}>1,{cell}/100,{cell})"),
        (Value::Number(_), _, BareRule::BelowOne) => format!("IF({cell}>=1,{cell}/100,{cell})"),
        _ => return None,
    })
}
