//! Batch yield and portions, under whichever labels it was typed: Makes, Yield, Portions, or both
//! in one cell.
//!
//! What is clear is tidied into Makes and Portions, so that both are live when they are written back; what is doubtful
//! stays as typed.

use super::amounts::is_held;
use super::reader::{CellContent, Reader};
use crate::kitchen::Field;
use crate::measure::{Measured, QuantityText, parse_batch};
use crate::number::{Decimal, PercentText, parse_percent, plain};
use crate::problem::{Code, Fault, THERE};
use crate::schema::{Column, Shown, Typed};

/// What one cell says of a batch.
#[derive(Debug, Default)]
struct Batch {
    /// What it makes, in one or two measures.
    makes: Vec<Measured>,
    /// How many portions it gives.
    portions: Option<Decimal>,
    /// Whether those are a bare number.
    bare: bool,
}

impl Reader<'_> {
    /// What the batch makes, and how many portions it gives.
    pub(super) fn makes_and_portions(&mut self) -> (Field<Vec<Measured>>, Field<Decimal>) {
        let stated = self.portions();
        let (makes, yields) = (self.batch(Column::Makes), self.batch(Column::BatchYield));
        let broken = (makes.is_broken() || yields.is_broken(), stated.is_broken());
        let mut makes = makes.given_or_default();
        let yields = yields.given_or_default();
        if makes.bare {
            let many = makes.portions.map(plain).unwrap_or_default();
            let header = self.header(Column::Makes);
            makes.portions.into_iter().for_each(|many| self.tidy_number(Column::Makes, many));
            let fault = Fault::new(
                Code::UnitAssumed,
                format!("{header} is {many}, without a unit, and was read as {many} portions"),
                "Type it beside Portions; or write its unit, such as 3 qt, if it is a measure.",
            );
            self.report(Column::Makes, fault);
        }
        let first = stated.given().copied().map(|many| (many, Column::Portions));
        let first = first.or(makes.portions.map(|many| (many, Column::Makes)));
        for (column, other) in [(Column::Makes, makes.portions), (Column::BatchYield, yields.portions)] {
            if let (Some((many, at)), Some(other)) = (first, other.filter(|_| !broken.1))
                && many != other
            {
                self.disagree(column, &plain(other), at, &plain(many));
            }
        }
        if !makes.makes.is_empty() && !yields.makes.is_empty() && makes.makes != yields.makes {
            self.disagree(Column::BatchYield, &listed(&yields.makes), Column::Makes, &listed(&makes.makes));
        }
        let portions = first.map(|(many, _)| many).or(yields.portions);
        if !broken.0 && !broken.1 {
            self.tidy_batch(Column::Makes, &makes);
            self.tidy_batch(Column::BatchYield, &yields);
        }
        if makes.makes.is_empty() {
            makes.makes = yields.makes;
        }
        let makes = match makes.makes {
            _ if broken.0 => Field::Broken,
            makes if makes.is_empty() => Field::Blank,
            makes => Field::Given(makes),
        };
        let portions = match portions {
            _ if broken.1 => Field::Broken,
            Some(many) => Field::Given(many),
            None => Field::Blank,
        };
        (makes, portions)
    }

    /// What a cell says of the batch.
    fn batch(&mut self, column: Column) -> Field<Batch> {
        let header_percent = self.default_of(column).is_some_and(|default| default.contains('%'));
        let parts = match self.content(column) {
            CellContent::Blank => return Field::Blank,
            CellContent::Broken => return Field::Broken,
            CellContent::Date(date) => {
                let fault = self.is_a_date(column, date, Code::CellIsADate);
                return self.fail(column, fault);
            }
            CellContent::Number(_, Shown::Percent) => return self.not_a_share(column, false),
            CellContent::Number(..) | CellContent::Text(_) if header_percent => return self.not_a_share(column, true),
            CellContent::Number(number, _) if number < Decimal::ZERO => {
                let fault = self.below_zero(column, &plain(number));
                return self.fail(column, fault);
            }
            CellContent::Number(number, _) => (vec![QuantityText::Number(number)], None),
            CellContent::Text(text) => {
                if matches!(parse_percent(&text, self.marks(column)), Ok(PercentText::Fraction(_))) {
                    return self.not_a_share(column, false);
                }
                match parse_batch(&text, self.marks(column)) {
                    Ok(parts) => parts,
                    Err(fault) => return self.fail(column, fault),
                }
            }
        };
        let mut batch = Batch { portions: parts.1, ..Batch::default() };
        if let ([QuantityText::Number(many)], None, None) = (parts.0.as_slice(), parts.1, self.default_of(column)) {
            batch.portions = Some(*many);
            batch.bare = true;
        } else {
            for part in parts.0 {
                match self.one_of(column, part) {
                    Ok(measured) => batch.makes.push(measured),
                    Err(fault) if fault.code == Code::UnitTwice => return self.fail_against_header(column, fault),
                    Err(fault) => return self.fail(column, fault),
                }
            }
        }
        match batch.portions {
            Some(many) if many <= Decimal::ZERO => self.no_portions(column, many),
            _ => Field::Given(batch),
        }
    }

    /// Portions beside the label of that name.
    fn portions(&mut self) -> Field<Decimal> {
        if let CellContent::Text(text) = self.content(Column::Portions) {
            // `12 portions` says it twice.
            if let Ok((measures, Some(many))) = parse_batch(&text, self.marks(Column::Portions))
                && measures.is_empty()
            {
                self.input.set(Column::Portions, Typed::number(many));
            }
        }
        match self.number(Column::Portions) {
            Field::Given(number) if number <= Decimal::ZERO => self.no_portions(Column::Portions, number),
            field => field,
        }
    }

    fn no_portions<T>(&mut self, column: Column, many: Decimal) -> Field<T> {
        let header = self.header(column);
        let fault = Fault::new(
            Code::NumberOutOfRange,
            format!("{header} is {}", plain(many)),
            "Type how many portions the batch gives, or leave it blank.",
        );
        self.fail(column, fault)
    }

    /// A percentage says what is left of what goes in, which a batch does not need to know. Its sign is the cell's own or
    /// the header's.
    fn not_a_share<T>(&mut self, column: Column, by_header: bool) -> Field<T> {
        let (header, seen) = (self.header(column), self.input.text(column));
        let fault = Fault::new(
            Code::NotANumber,
            format!("{header} is {seen}, a percentage where a recipe says how much the batch makes"),
            "Write what the batch makes, such as 3 qt, or how many portions. What trimming leaves is the Yield of a line,              or of a price row.",
        );
        if by_header { self.fail_against_header(column, fault) } else { self.fail(column, fault) }
    }

    /// Warns that a cell says otherwise than another, which is used.
    fn disagree(&mut self, column: Column, said: &str, used: Column, other: &str) {
        if column == used {
            return;
        }
        let (header, ruling) = (self.header(column), self.header(used));
        let what = if used == Column::Portions || said.parse::<Decimal>().is_ok() { " portions" } else { "" };
        let fault = Fault::new(
            Code::PortionsDisagree,
            format!("{header} says {said}{what}, but {ruling} at {THERE} says {other}; {ruling} is used"),
            format!("Correct one of the two, or clear {header}."),
        );
        let there = self.input.place(used);
        self.report(column, fault.speaking_of(there));
    }

    /// Puts what a cell says into Makes and Portions where these are free for it. A bare number beside Makes may be a
    /// measure, and stays.
    fn tidy_batch(&mut self, column: Column, batch: &Batch) {
        let is_free = |to: Column| to == column || self.input.typed(to).is_blank();
        let in_makes = column == Column::Makes;
        let stays = batch.portions.is_some_and(|many| !is_held(many))
            || (in_makes && (batch.bare || batch.portions.is_none()))
            || (!batch.makes.is_empty() && !is_free(Column::Makes))
            || (batch.portions.is_some() && !is_free(Column::Portions));
        if stays {
            return;
        }
        match (batch.makes.is_empty(), batch.portions) {
            (true, Some(many)) => {
                self.input.move_to(Column::Portions, column);
                self.input.set(Column::Portions, Typed::number(many));
            }
            (false, portions) => {
                if !in_makes {
                    self.input.move_to(Column::Makes, column);
                }
                if let Some(many) = portions {
                    self.input.set(Column::Makes, Typed::text(listed(&batch.makes)));
                    self.input.put_beside(Column::Portions, Column::Makes, Typed::number(many));
                }
            }
            (true, None) => {}
        }
    }
}

/// One measure or two, as they are typed.
fn listed(makes: &[Measured]) -> String {
    makes.iter().map(Measured::to_string).collect::<Vec<_>>().join(", ")
}
