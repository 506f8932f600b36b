//! Rows of a price list.

use jiff::civil::Date;

use super::fields::MoneyCell;
use super::reader::{CellContent, Reader};
use crate::food::{StatedAllergens, allergens};
use crate::kitchen::price::{Charges, Price, PriceRow};
use crate::kitchen::{Field, Reference};
use crate::measure::is_market;
use crate::number::{BareRule, Decimal, plain};
use crate::problem::{Code, Fault};
use crate::schema::{Column, Typed};

/// Reads a price row; `None` when it has no item.
pub(super) fn row(mut reader: Reader<'_>) -> Option<PriceRow> {
    if reader.is_no_price() {
        return None;
    }
    let item = reader.name(Column::Item)?;
    if let (Some(group), true) = (reader.group.clone(), reader.input.typed(Column::Group).is_blank()) {
        reader.input.set(Column::Group, Typed::text(group));
    }
    let reference = reader.reference();
    let preferred = reader.yes_no(Column::Preferred);
    let aliases = reader.text(Column::AlsoCalled).unwrap_or_default();
    let aliases = aliases.split(';').map(str::trim).filter(|alias| !alias.is_empty()).map(str::to_owned).collect();
    Some(PriceRow { reference, preferred, aliases, ..supplied(reader, item, true) })
}

/// Reads a row of a supplier's list; `None` when it has neither item nor code. Only what a supplier knows is read. Where
/// the list has no column for packs (`says_pack`), a price without one is no fault yet: the book may know it.
pub(super) fn of_list(mut reader: Reader<'_>, says_pack: bool) -> Option<PriceRow> {
    if reader.is_no_price() {
        return None;
    }
    let by_code = reader.input.typed(Column::Item).is_blank() && !reader.input.typed(Column::Code).is_blank();
    let item = if by_code { String::new() } else { reader.name(Column::Item)? };
    Some(supplied(reader, item, says_pack))
}

/// What a supplier knows of `item`.
fn supplied(mut reader: Reader<'_>, item: String, says_pack: bool) -> PriceRow {
    let withdrawn = reader.withdrawn();
    let (pack, price, per) = reader.bought(says_pack);
    let charges = reader.charges();
    let date = reader.date(Column::Date);
    let until = reader.until(&date);
    PriceRow {
        item,
        pack,
        price,
        per,
        charges,
        withdrawn,
        supplier: reader.text(Column::Supplier).unwrap_or_default(),
        code: reader.text(Column::Code).unwrap_or_default(),
        date,
        until,
        trim_yield: reader.trim_yield(),
        reference: Field::Blank,
        preferred: Field::Blank,
        aliases: Vec::new(),
        allergens: reader.stated(Column::Allergens),
        may_contain: reader.stated(Column::MayContain),
        input: reader.input,
    }
}

impl Reader<'_> {
    /// What stands on top of the price or comes off it.
    fn charges(&mut self) -> Charges {
        Charges {
            further: self.money(Column::FurtherCost),
            credit: self.money(Column::Credit),
            tax: self.percent(Column::Tax, BareRule::BelowOne),
        }
    }

    /// The built-in food to borrow from.
    fn reference(&mut self) -> Field<Reference> {
        let Some(text) = self.text(Column::ReferenceFood).filter(|text| !text.is_empty()) else { return Field::Blank };
        if let Some(food) = Reference::named(&text) {
            return Field::Given(food);
        }
        let help = match Reference::near(&text, |_| true) {
            Some(near) => format!("Write one of its names, such as {near}, or leave it blank."),
            None => "Look for its name with parings food, or leave it blank.".to_owned(),
        };
        let fault = Fault::new(Code::ReferenceUnknown, format!("no built-in food is called “{text}”"), help);
        self.fail(Column::ReferenceFood, fault)
    }

    /// The last day on which the price counts. One before its first leaves open which of the two was mistyped.
    fn until(&mut self, since: &Field<Date>) -> Field<Date> {
        let until = self.date(Column::Until);
        match (since.given(), until.given()) {
            (Some(since), Some(until)) if until < since => {
                let fault = Fault::new(
                    Code::UntilBeforeDate,
                    format!("Until is {until}, before the price begins on {since}"),
                    "Correct Until, or Date: a price counts from its Date to its Until, both days included.",
                );
                self.fail(Column::Until, fault)
            }
            _ => until,
        }
    }

    /// The price, blank where there is none, and what stands behind its slash.
    pub(super) fn price(&mut self) -> (Field<Price>, Option<String>) {
        if let CellContent::Text(text) = self.content(Column::Price)
            && is_market(&text)
        {
            return (Field::Given(Price::Market), None);
        }
        if self.is_out() {
            let fault = Fault::new(
                Code::PriceMissing,
                format!("the price says {}: there is none at present", self.input.text(Column::Price).trim()),
                "Type the last price that was paid, or price the item from another supplier.",
            );
            return (self.fail(Column::Price, fault), None);
        }
        match self.money_text(Column::Price) {
            Field::Given(MoneyCell { amount, .. }) if amount < Decimal::ZERO => {
                let fault = Fault::new(
                    Code::PriceNegative,
                    format!("the price is {}", plain(amount)),
                    "A credit note is no price: type what the pack costs.",
                );
                (self.fail(Column::Price, fault), None)
            }
            Field::Given(MoneyCell { amount, per, .. }) => {
                if amount.is_zero() {
                    let fault = Fault::new(
                        Code::PriceZero,
                        "the price is 0, so whatever is made of it is costed as if it were free",
                        "Type what was paid. Leave it if nothing is.",
                    );
                    self.report(Column::Price, fault);
                }
                (Field::Given(Price::Money(amount)), per)
            }
            Field::Blank => (Field::Blank, None),
            Field::Broken => (Field::Broken, None),
        }
    }

    /// The fault of a row without a price.
    pub(super) fn price_missing(&mut self) -> Field<Price> {
        let fault = Fault::new(
            Code::PriceMissing,
            "this row has no price",
            "Type what the pack costs, or MKT for a market price.",
        );
        self.fail(Column::Price, fault)
    }

    fn trim_yield(&mut self) -> Field<Decimal> {
        match self.percent(Column::Yield, BareRule::UpToOne) {
            Field::Given(fraction) if fraction > Decimal::ONE => {
                let seen = self.input.text(Column::Yield);
                let fault = Fault::new(
                    Code::YieldTooHigh,
                    format!("the yield is {seen}, but trimming cannot add weight"),
                    Self::percent_help(
                        fraction,
                        "Type at most 100%. What swells in cooking belongs in a recipe line's Yield or a cooking test.",
                    ),
                );
                self.fail(Column::Yield, fault)
            }
            Field::Given(fraction) if fraction.is_zero() => {
                let fault = Fault::new(
                    Code::YieldZero,
                    "the yield is zero: nothing would be left",
                    "Type what is left after trimming, such as 85%, or leave it blank.",
                );
                self.fail(Column::Yield, fault)
            }
            field => field,
        }
    }

    /// What an allergen column states; `None` for a blank one.
    fn stated(&mut self, column: Column) -> Option<StatedAllergens> {
        let text = self.text(column)?;
        let stated = allergens::read(&text)?;
        if stated.shellfish {
            self.report(
                column,
                Fault::new(
                    Code::ShellfishWide,
                    "shellfish was read as crustaceans and molluscs, both",
                    "Write crustaceans or molluscs to say which.",
                ),
            );
        }
        for word in &stated.unknown {
            let fault = Fault::new(
                Code::AllergenUnknown,
                format!("“{word}” is not one of the listed allergens; it is carried along as written"),
                format!("The listed ones are: {}.", allergens::codes().join(", ")),
            );
            self.report(column, fault);
        }
        Some(stated)
    }
}
