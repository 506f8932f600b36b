//! Two prices of one row, for the case and for the pound, the kilo or one unit: the one that the goods go by counts, the other
//! checks it.

use super::billed::{CENT, content_in, is_within};
use super::per::Per;
use super::reader::Reader;
use crate::kitchen::Field;
use crate::kitchen::price::Price;
use crate::measure::{Measured, Pack, Unit};
use crate::number::{Decimal, exact, plain};
use crate::problem::{Code, Fault};
use crate::schema::{Column, Typed};

impl Reader<'_> {
    /// Takes a second price, for the pound, the kilo or one unit, together with the first: where the goods go by weight, or
    /// there is no other, it is the price; else it checks the first.
    pub(super) fn second_price(&mut self, pack: &Field<Pack>, per: &mut Per, price: &mut Field<Price>) {
        if self.input.typed(Column::PoundPrice).is_blank() {
            return;
        }
        let Field::Given(other) = self.money_text(Column::PoundPrice) else { return };
        let unit = other.per.as_deref().and_then(Unit::parse);
        let amount = other.amount;
        let by_weight = unit.as_ref().is_some_and(|unit| !unit.is_count_like());
        let wants_weight = per.is_by_amount() || pack.given().is_some_and(|pack| pack.nominal);
        let first = price.given().copied();
        if let (Some(Price::Money(first)), Some(pack)) = (first, pack.given())
            && !self.agrees(first, amount, unit.as_ref(), pack)
        {
            let said = unit.as_ref().map_or_else(|| "one unit".to_owned(), |unit| unit.one());
            let fault = Fault::new(
                Code::PricesDisagree,
                format!("{} for {} and {} for {said} do not go together", plain(first), pack.read_as, plain(amount)),
                "Ask the supplier which of the two is right, and clear the other.",
            );
            *price = self.fail(Column::Price, fault);
            return;
        }
        if first.is_none() || (wants_weight && by_weight) {
            let (sign, signed) = (other.sign.clone().unwrap_or_default(), other.signed);
            if let (Some(unit), true) = (&unit, by_weight) {
                self.input.set(Column::Per, Typed::text(unit.to_string()));
                *per = Per::Measured(Measured::new(Decimal::ONE, unit.clone()));
            } else if first.is_none() {
                *per = Per::One(Unit::each());
            }
            if self.input.typed(Column::Price).is_blank() {
                self.input.put_beside(Column::Price, Column::PoundPrice, Typed::BLANK);
            }
            self.set_money(Column::Price, amount, sign, signed);
            *price = Field::Given(Price::Money(amount));
        }
    }

    /// Whether so much for the pack and `other` for one of `unit` go together, as far as they can be compared: to a cent, and
    /// half a cent in each `other`, which is rounded.
    fn agrees(&self, first: Decimal, other: Decimal, unit: Option<&Unit>, pack: &Pack) -> bool {
        let weight = if self.proof(Column::Qty).is_none() { self.proof(Column::Weight) } else { None };
        let content = match unit {
            Some(unit) => vec![Some(Decimal::ONE), content_in(Some(pack), unit), weight],
            None => {
                let units = pack.one_unit().map_or(Decimal::ONE, |(count, _)| count);
                vec![Some(units), pack.content.as_ref().map(|content| content.amount), weight]
            }
        };
        let known: Vec<Decimal> = content.into_iter().flatten().collect();
        let comparable = unit.is_none() || known.len() > 1;
        !comparable
            || known.into_iter().any(|times| {
                let most = exact::mul(times, Decimal::new(5, 3)).and_then(|most| exact::add(most, CENT));
                let all = exact::mul(times, other);
                all.is_ok_and(|all| most.is_ok_and(|most| is_within(all, first, most)))
            })
    }
}
