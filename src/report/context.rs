//! What every sheet is made from: the kitchen, its costing, where everything stands, and how money is shown.

use crate::costing::bought::PriceFrom;
use crate::costing::{Costing, ItemCost};
use crate::kitchen::{ItemId, Kitchen, PartId, RecipeId};
use crate::measure::currency;
use crate::number::{BareRule, Decimal};
use crate::report::formula::Ref;
use crate::report::in_force::SettingsLayout;
use crate::report::layout::Layout;
use crate::report::recipe_layout::Total;
use crate::report::row::{Cell, Content, Ink, Look};
use crate::schema::{Column, Shown, TableKind, Typed, Value};

/// Everything a sheet is made from.
#[derive(Debug)]
pub struct Context<'a> {
    /// The kitchen.
    pub kitchen: &'a Kitchen,
    /// Its costing.
    pub costing: &'a Costing,
    /// Where everything stands.
    pub layout: &'a Layout,
    /// Where the settings stand.
    pub settings: &'a SettingsLayout,
    /// What A1 of an output sheet says.
    pub mark: &'a str,
}

impl Context<'_> {
    /// The currency's sign; empty when no currency is known.
    pub fn sign(&self) -> &str {
        currency::sign_of(&self.kitchen.settings.currency)
    }

    /// Money to the currency's smallest coin.
    pub fn money(&self) -> Look {
        self.money_with(0)
    }

    /// Money for one of a cook's units: a decimal more, for what is bought by the spoon.
    pub fn cost_per_unit(&self) -> Look {
        self.money_with(1)
    }

    /// Money per base unit: small, so with four decimals more.
    pub fn unit_cost(&self) -> Look {
        self.money_with(4)
    }

    fn money_with(&self, more: u32) -> Look {
        let places = currency::minor_digits(&self.kitchen.settings.currency).saturating_add(more);
        Look::Money { sign: self.sign().to_owned(), places }
    }

    /// The cell of a column of our own on a table sheet.
    pub fn own(&self, kind: TableKind, index: usize, header: &'static str) -> Option<Ref> {
        self.layout.table(kind).map(|table| table.own(index, header))
    }

    /// The cell of an input column on a table sheet.
    pub fn input(&self, kind: TableKind, index: usize, column: Column) -> Option<Ref> {
        self.layout.table(kind).and_then(|table| table.input(index, column))
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
    match (&typed.value, &typed.shown, rule) {
        (Value::Number(_), Shown::Percent, _) => Some(cell.to_owned()),
        (Value::Number(_), _, BareRule::UpToOne) => Some(format!("IF({cell}>1,{cell}/100,{cell})")),
        (Value::Number(_), _, BareRule::BelowOne) => Some(format!("IF({cell}>=1,{cell}/100,{cell})")),
        _ => None,
    }
}

/// An input cell as the user left it; `None` for a blank one, which stays blank.
pub fn input_cell(context: &Context<'_>, kind: TableKind, column: Column, at: u16, typed: &Typed) -> Option<Cell> {
    let (content, look) = match &typed.value {
        Value::Blank => return None,
        Value::Text(text) => (Content::Text(text.clone()), Look::General),
        Value::Number(number) => (Content::Number(*number), number_look(context, kind, column, *number, &typed.shown)),
        Value::Date(date) => (Content::Date(*date), Look::Date),
        Value::Bool(yes) => (Content::Bool(*yes), Look::General),
        Value::Error(text) => (Content::Text(text.clone()), Look::General),
        Value::Formula(text) => (Content::Text(format!("={text}")), Look::General),
    };
    Some(Cell { column: at, content, ink: Ink::Input, look })
}

fn number_look(context: &Context<'_>, kind: TableKind, column: Column, number: Decimal, shown: &Shown) -> Look {
    match shown {
        Shown::Percent => Look::Percent(percent_places(number)),
        Shown::Money(sign) if sign.is_empty() => Look::RegionMoney,
        Shown::Money(sign) => typed_money(context, sign, number),
        Shown::Fraction => Look::Fraction,
        Shown::Date => Look::Date,
        Shown::Plain if kind != TableKind::Settings && column.holds_money() && !context.sign().is_empty() => {
            typed_money(context, context.sign(), number)
        }
        Shown::Plain => Look::General,
    }
}

/// Money as typed: all of its decimals, up to six.
fn typed_money(context: &Context<'_>, sign: &str, number: Decimal) -> Look {
    let coin = currency::minor_digits(&context.kitchen.settings.currency);
    Look::Money { sign: sign.to_owned(), places: number.normalize().scale().clamp(coin, coin.max(6)) }
}

/// Decimals of a percentage as typed: 0.285 is 28.5 %.
pub fn percent_places(fraction: Decimal) -> u32 {
    fraction.normalize().scale().saturating_sub(2).min(4)
}
