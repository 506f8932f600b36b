//! Finding the knobs of a book: the prices in use, the yields, the portions and the menu prices that stand in a cell as a number.

use parings::costing::RowState;
use parings::kitchen::price::Price;
use parings::kitchen::yield_test::{Charge, Role, Test, TestRow};
use parings::kitchen::{InputRow, Kitchen, PartId};
use parings::number::Decimal;
use parings::problem::Place;
use parings::schema::Column;
use parings::{Costing, Opened};

use super::{Kind, Knob, Lever, cell};

/// More than anybody looks through.
const MOST: usize = 3_000;

/// Every knob of a book, in its order.
pub fn knobs(kitchen: &Kitchen, costing: &Costing, opened: &Opened) -> Vec<Knob> {
    let finder = Finder { kitchen, costing, opened };
    let mut found: Vec<Knob> = finder.prices().chain(finder.price_yields()).take(MOST).collect();
    found.extend(finder.test_yields().take(MOST));
    found.extend(finder.credits().take(MOST));
    found.extend(finder.portions().take(MOST));
    found.extend(finder.menu_prices().take(MOST));
    found
}

#[derive(Clone, Copy)]
struct Finder<'a> {
    kitchen: &'a Kitchen,
    costing: &'a Costing,
    opened: &'a Opened,
}

impl<'a> Finder<'a> {
    /// Where `column` of a row holds a number in a cell of its own, that place and the number.
    fn held(&self, row: &InputRow, column: Column) -> Option<(Place, Decimal)> {
        let place = row.place(column);
        let number = cell::number(self.opened.cell(&place)?)?;
        Some((place, number))
    }

    /// A knob on one cell: `now` is what its number means in the knob's unit.
    fn on_cell(
        &self,
        row: &InputRow,
        column: Column,
        now: Decimal,
        knob: (Kind, &str, String, String),
    ) -> Option<Knob> {
        let (place, holds) = self.held(row, column)?;
        let (kind, name, detail, unit) = knob;
        let lever = Lever { place, up: holds, of: now, weighs: None };
        let high = now.checked_mul(Decimal::TWO)?;
        let high = if unit == "%" { high.min(Decimal::ONE_HUNDRED) } else { high };
        Knob::of((kind, name, detail, unit), now, high, vec![lever])
    }

    fn in_use(self) -> impl Iterator<Item = &'a parings::kitchen::price::PriceRow> {
        let rows = self.kitchen.entries.prices.iter().zip(&self.costing.row_states);
        rows.filter(|(_, state)| **state == RowState::InUse).map(|(row, _)| row)
    }

    fn prices(self) -> impl Iterator<Item = Knob> + use<'a> {
        self.in_use().filter_map(move |row| {
            let Price::Money(price) = *row.price.given()? else { return None };
            let (_, holds) = self.held(&row.input, Column::Price)?;
            let per = row.input.text(Column::Per);
            let bought = if per.is_empty() { row.input.text(Column::Pack) } else { per };
            let detail = [bought, row.supplier.clone()].into_iter().filter(|text| !text.is_empty());
            let detail = detail.collect::<Vec<_>>().join(", ");
            (holds == price).then(|| {
                self.on_cell(&row.input, Column::Price, price, (Kind::Price, &row.item, detail, String::new()))
            })?
        })
    }

    fn price_yields(self) -> impl Iterator<Item = Knob> + use<'a> {
        self.in_use().filter_map(move |row| {
            let now = row.trim_yield.given()?.checked_mul(Decimal::ONE_HUNDRED)?;
            let knob = (Kind::Yield, row.item.as_str(), "price list".to_owned(), "%".to_owned());
            self.on_cell(&row.input, Column::Yield, now, knob)
        })
    }

    fn test_yields(self) -> impl Iterator<Item = Knob> + use<'a> {
        let parts = self
            .kitchen
            .all_parts()
            .filter(move |id| self.kitchen.part(*id).is_some_and(|part| part.role == Role::Main));
        parts.filter_map(move |id| self.test_yield(id))
    }

    /// The yield of a main: its weight in every run, and that of the run's first waste against it.
    fn test_yield(&self, id: PartId) -> Option<Knob> {
        let (part, test) = (self.kitchen.part(id)?, self.kitchen.test(id.test)?);
        let now = self.costing.part(id)?.fraction.checked_mul(Decimal::ONE_HUNDRED)?;
        let mut most = Decimal::ONE_HUNDRED;
        let mut levers = Vec::new();
        for row in &part.rows {
            let main = self.kitchen.entries.tests.get(*row)?;
            let grams = main.weight.given()?.grams;
            levers.push(Lever { of: now, ..self.weight(main)? });
            let (spare, waste) = self.spare(test, *row)?;
            if let Some(waste) = waste {
                // What the main gains in grams the waste loses, each in what its own cell counts.
                let up = waste.up.checked_mul(grams)?.checked_div(spare)?;
                levers.push(Lever { up: Decimal::ZERO.checked_sub(up)?, of: now, ..waste });
            }
            let room = spare.checked_div(grams)?.checked_add(Decimal::ONE)?.checked_mul(now)?;
            most = most.min(room);
        }
        Knob::of((Kind::Yield, &part.name, test.name.clone(), "%".to_owned()), now, most, levers)
    }

    /// The cell of a weight, as a lever of all that it holds. Pieces that were counted with it are left alone.
    fn weight(&self, row: &TestRow) -> Option<Lever> {
        let place = row.input.place(Column::Weight);
        let weight = row.weight.given().filter(|weight| weight.count.is_none())?;
        let lever = |up, weighs| Lever { place: place.clone(), up, of: Decimal::ONE, weighs };
        let typed = self.opened.cell(&place)?;
        match cell::number(typed) {
            Some(holds) => Some(lever(holds, None)),
            // A name is no weight: what was tidied may stand elsewhere.
            None if !typed.seen().contains(|c: char| c.is_ascii_digit()) => None,
            None => Some(lever(weight.grams, Some(weight.grams))),
        }
    }

    /// What a main could still take in the run of its row, in grams: the first waste's weight with its cell, else the loss.
    fn spare(&self, test: &Test, main: usize) -> Option<(Decimal, Option<Lever>)> {
        let rows = &self.kitchen.entries.tests;
        let run = rows.get(main)?.breakdown();
        let of_run = |row: &&usize| rows.get(**row).is_some_and(|row| row.breakdown() == run);
        let grams = |row: &usize| rows.get(*row).and_then(|row| row.weight.given()).map(|weight| weight.grams);
        let wastes = test.parts.iter().filter(|part| part.role == Role::Waste);
        if let Some(waste) = wastes.flat_map(|part| part.rows.iter().filter(of_run)).next() {
            let lever = self.weight(rows.get(*waste)?)?;
            return Some((grams(waste).filter(|grams| *grams > Decimal::ZERO)?, Some(lever)));
        }
        let mut left = test.runs.iter().find(|one| of_run(&&one.row))?.grams;
        for row in test.parts.iter().flat_map(|part| part.rows.iter().filter(of_run)) {
            left = left.checked_sub(grams(row)?)?;
        }
        Some((left.max(Decimal::ZERO), None))
    }

    fn credits(self) -> impl Iterator<Item = Knob> + use<'a> {
        self.kitchen.all_parts().filter_map(move |id| self.credit(id))
    }

    /// The value of a by-product that is charged by one, in all of its rows.
    fn credit(&self, id: PartId) -> Option<Knob> {
        let part = self.kitchen.part(id).filter(|part| part.role == Role::ByProduct)?;
        let rows = part.rows.iter().map(|row| self.kitchen.entries.tests.get(*row));
        let rows = rows.collect::<Option<Vec<&TestRow>>>()?;
        let (now, unit) = match (&part.charge, rows.first()?.value.given()?) {
            (Charge::Fraction(fraction), _) => (fraction.checked_mul(Decimal::ONE_HUNDRED)?, "%"),
            (Charge::Price { .. }, value) => (value.money()?.0, ""),
            _ => return None,
        };
        let levers = rows.iter().map(|row| {
            let (place, holds) = self.held(&row.input, Column::Value)?;
            Some(Lever { place, up: holds, of: now, weighs: None })
        });
        let high = if unit == "%" { Decimal::ONE_HUNDRED } else { now.checked_mul(Decimal::TWO)? };
        let detail = if unit == "%" { "of the AP price" } else { "by weight" };
        let what = (Kind::Credit, part.name.as_str(), detail.to_owned(), unit.to_owned());
        Some(Knob { low: Decimal::ZERO, ..Knob::of(what, now, high, levers.collect::<Option<Vec<Lever>>>()?)? })
    }

    fn portions(self) -> impl Iterator<Item = Knob> + use<'a> {
        let cards = self.kitchen.entries.recipes.iter().filter_map(move |entry| match entry.portion.given() {
            Some(portion) => {
                let knob = (Kind::Portion, entry.name.as_str(), "on its card".to_owned(), portion.unit.name());
                self.on_cell(&entry.input, Column::Portion, portion.amount, knob)
            }
            None => {
                let knob = (Kind::Portion, entry.name.as_str(), "from a batch".to_owned(), "portions".to_owned());
                self.on_cell(&entry.input, Column::Portions, *entry.portions.given()?, knob)
            }
        });
        let menu = self.kitchen.entries.menu.iter().filter_map(move |row| {
            let portion = row.portion.given()?;
            let knob = (Kind::Portion, row.dish.as_str(), "on the menu".to_owned(), portion.unit.name());
            self.on_cell(&row.input, Column::Portion, portion.amount, knob)
        });
        menu.chain(cards)
    }

    fn menu_prices(self) -> impl Iterator<Item = Knob> + use<'a> {
        let menu = self.kitchen.entries.menu.iter().filter_map(move |row| {
            let knob = (Kind::MenuPrice, row.dish.as_str(), String::new(), String::new());
            self.on_cell(&row.input, Column::MenuPrice, *row.menu_price.given()?, knob)
        });
        let cards = self.kitchen.entries.recipes.iter().filter_map(move |entry| {
            let knob = (Kind::MenuPrice, entry.name.as_str(), String::new(), String::new());
            self.on_cell(&entry.input, Column::MenuPrice, *entry.menu_price.given()?, knob)
        });
        menu.chain(cards)
    }
}

impl Knob {
    /// A knob from half of what stands in the book up to `high`, in some hundred steps of round size.
    fn of(what: (Kind, &str, String, String), now: Decimal, high: Decimal, cells: Vec<Lever>) -> Option<Self> {
        if now <= Decimal::ZERO || cells.is_empty() {
            return None;
        }
        let (kind, name, detail, unit) = what;
        let step = step(now);
        let whole = |number: Decimal| {
            number.checked_div(step).map(|steps| steps.floor()).and_then(|steps| steps.checked_mul(step))
        };
        let low = whole(now.checked_div(Decimal::TWO)?)?.max(step);
        let high = whole(high)?.max(low).normalize();
        Some(Knob { kind, name: name.to_owned(), detail, unit, now, low: low.normalize(), high, step, cells })
    }
}

/// The largest of 1, 2 and 5 of any power of ten that is at most a hundredth of a number.
fn step(now: Decimal) -> Decimal {
    let mut step = Decimal::ONE;
    let hundredth = now.checked_div(Decimal::ONE_HUNDRED).unwrap_or(Decimal::ONE);
    while step > hundredth && step.scale() < 6 {
        step = step.checked_div(Decimal::TEN).unwrap_or(step);
    }
    while step.checked_mul(Decimal::TEN).is_some_and(|next| next <= hundredth) {
        step = step.checked_mul(Decimal::TEN).unwrap_or(step);
    }
    let times = |many: i64| step.checked_mul(Decimal::from(many)).filter(|step| *step <= hundredth);
    times(5).or_else(|| times(2)).unwrap_or(step).normalize()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_round_and_about_a_hundredth() {
        let step_of = |text: &str| step(text.parse().unwrap()).to_string();
        // 24.95 ÷ 100 = 0.2495: 0.2; 8 ÷ 100 = 0.08: 0.05; 53.7 ÷ 100 = 0.537: 0.5; 1,250 ÷ 100 = 12.5: 10.
        assert_eq!([step_of("24.95"), step_of("8"), step_of("53.7"), step_of("1250")], ["0.2", "0.05", "0.5", "10"]);
    }
}
