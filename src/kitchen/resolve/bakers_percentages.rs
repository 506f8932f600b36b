//! Baker's percentages: lines in % of the flour turned into weights, by what the batch weighs or by the flour's own weight.
//!
//! Of a batch weighed under Makes a line is its share of all percentages, since all are of one flour; else it is so much of
//! the flour that is typed as a weight. Common practice, no source.

use crate::food::flour::is_flour;
use crate::kitchen::Field;
use crate::kitchen::recipe::{Flour, LineEntry, LineQuantity, RecipeEntry};
use crate::measure::{Measured, Unit};
use crate::number::{Decimal, Overflow, exact, plain};
use crate::problem::{Code, Fault, Problem};
use crate::schema::Column;

/// So far from 100 % the flours may lie together, in per cent: thirds are typed as 33.3. Common sense, no source.
const ROUNDED: Decimal = Decimal::from_parts(5, 0, 0, false, 1);

/// How the lines of a recipe in % are weighed.
pub(super) struct Percentages {
    /// The flour; `None` where a reported problem leaves it unknown.
    pub flour: Option<Flour>,
    /// What is shared, and among how many per cent.
    shared: Option<(Measured, Decimal)>,
}

impl Percentages {
    /// Those of a recipe that makes this much; `None` where no line is in %.
    pub fn of(entry: &RecipeEntry, makes: &[Measured], problems: &mut Vec<Problem>) -> Option<Self> {
        let dough = Dough { entry, makes };
        if !entry.lines.iter().any(LineEntry::is_percent) {
            return None;
        }
        match dough.weighed() {
            Ok((flour, shared)) => Some(Percentages { flour: Some(flour), shared: Some(shared) }),
            Err(stop) => {
                problems.extend(stop.map(|problem| *problem));
                Some(Percentages { flour: None, shared: None })
            }
        }
    }

    /// The weight of so many per cent; `None` where it is not known.
    pub fn weight(&self, percent: Decimal) -> Option<Measured> {
        let (all, of) = self.shared.as_ref()?;
        let amount = share(all.amount, percent, *of).ok()?;
        Some(Measured::new(amount, all.unit.clone()))
    }
}

/// `all × percent ÷ of`.
fn share(all: Decimal, percent: Decimal, of: Decimal) -> Result<Decimal, Overflow> {
    exact::div(exact::mul(all, percent)?, of)
}

struct Dough<'a> {
    entry: &'a RecipeEntry,
    makes: &'a [Measured],
}

/// A problem, or nothing where one is reported already.
type Unweighed = Option<Box<Problem>>;

/// The flour, and what is shared among how many per cent.
type WeighedFlour = (Flour, (Measured, Decimal));

impl Dough<'_> {
    fn lines(&self) -> impl Iterator<Item = (usize, &LineEntry, &Measured)> {
        self.entry.lines.iter().enumerate().filter_map(|(index, line)| match &line.quantity {
            Field::Given(LineQuantity::Measured(measured)) => Some((index, line, measured)),
            _ => None,
        })
    }

    /// The lines of flour: those of which the name says so, else the one line of 100 %.
    fn flour(&self) -> Vec<(usize, &LineEntry, &Measured)> {
        let named: Vec<_> = self.lines().filter(|(_, line, _)| is_flour(&line.item)).collect();
        if !named.is_empty() {
            return named;
        }
        let whole = |line: &LineEntry| line.percent_of_flour() == Some(Decimal::ONE_HUNDRED);
        let whole: Vec<_> = self.lines().filter(|(_, line, _)| whole(line)).collect();
        if whole.len() == 1 { whole } else { Vec::new() }
    }

    fn weighed(&self) -> Result<WeighedFlour, Unweighed> {
        // What cannot be read, which is reported, may be flour, or a percentage.
        if self.entry.lines.iter().any(|line| line.quantity.is_broken()) || !self.entry.unread.is_empty() {
            return Err(None);
        }
        let is_blank = |line: &&LineEntry| line.is_percent() && line.percent_of_flour().is_none();
        if let Some(blank) = self.entry.lines.iter().find(is_blank) {
            let message = format!("“{}” is in % of the flour, and how many is not said", blank.item);
            return Err(at(blank, message, "Type the percentage under Qty, such as 2; or take the % out."));
        }
        let flour = self.flour();
        let Some((_, last, _)) = flour.last() else {
            let line = self.entry.lines.iter().find(|line| line.is_percent());
            return Err(line.and_then(|line| {
                let message = format!("“{}” is in % of the flour, and no line is the flour", line.item);
                at(
                    line,
                    message,
                    "Name the flour with that word, such as Bread flour, and give it 100 % or its weight.",
                )
            }));
        };
        let indices = flour.iter().map(|(index, ..)| *index).collect();
        let weighed = flour.iter().find(|(_, line, _)| !line.is_percent());
        let percent = flour.iter().find(|(_, line, _)| line.is_percent());
        match (weighed, percent) {
            (Some(_), Some((_, line, _))) => {
                let message = format!("“{}” is in %, and other flour of this recipe is not", line.item);
                Err(at(line, message, "Give every flour as a weight; or all of them in %, 100 together."))
            }
            (Some(_), None) => self.by_weight(&flour, indices),
            (None, _) => self.by_batch(last, &flour, indices),
        }
    }

    /// So much of the flour, which is typed as a weight.
    fn by_weight(
        &self,
        flour: &[(usize, &LineEntry, &Measured)],
        lines: Vec<usize>,
    ) -> Result<WeighedFlour, Unweighed> {
        let grams = |measured: &Measured| measured.unit.grams();
        if let Some((_, line, measured)) = flour.iter().find(|(.., measured)| grams(measured).is_none()) {
            let message = format!("“{}” is given as {measured}, and the other lines are in % of its weight", line.item);
            return Err(at(line, message, "Give it as a weight, such as 10 kg; or as 100 % beside Makes."));
        }
        let Some((_, first, one)) = flour.first() else { return Err(None) };
        let sum = if flour.iter().all(|(.., measured)| measured.unit == one.unit) {
            exact::sum(flour.iter().map(|(.., measured)| measured.amount))
                .map(|sum| Measured::new(sum, one.unit.clone()))
        } else {
            let each = flour.iter().map(|(.., own)| exact::mul(own.amount, grams(own).unwrap_or_default()));
            each.collect::<Result<Vec<_>, _>>().and_then(exact::sum).map(|sum| Measured::new(sum, Unit::gram()))
        };
        let weight = sum.map_err(|_| too_large(first))?;
        Ok((Flour { weight: weight.clone(), of_batch: false, lines }, (weight, Decimal::ONE_HUNDRED)))
    }

    /// A share of the batch, which Makes weighs.
    fn by_batch(
        &self,
        last: &LineEntry,
        flour: &[(usize, &LineEntry, &Measured)],
        lines: Vec<usize>,
    ) -> Result<WeighedFlour, Unweighed> {
        let sum = exact::sum(flour.iter().map(|(.., measured)| measured.amount)).map_err(|_| too_large(last))?;
        let apart = exact::sub(sum, Decimal::ONE_HUNDRED).map_err(|_| too_large(last))?;
        if apart.abs() > ROUNDED {
            let message = match flour.len() {
                1 => format!("“{}” is the flour and {} %, where the flour is 100 %", last.item, plain(sum)),
                _ => format!(
                    "the flours of “{}” come to {} %, where they are 100 % together",
                    self.entry.name,
                    plain(sum)
                ),
            };
            return Err(at(last, message, "Make the flour 100 %, and give everything else in % of that."));
        }
        if let Some((_, line, measured)) = self.lines().find(|(_, line, _)| !line.is_percent()) {
            let message =
                format!("“{}” is {measured} and no %, so how much of the batch is flour is not known", line.item);
            return Err(at(line, message, "Give it in % of the flour, too; or type the flour as a weight."));
        }
        if self.entry.makes.is_broken() || self.entry.portion.is_broken() || self.entry.portions.is_broken() {
            return Err(None);
        }
        let Some(batch) = self.makes.iter().find(|makes| makes.unit.grams().is_some()) else {
            let message = format!("“{}” is in %, and what the batch weighs is not known", self.entry.name);
            let help = "Write what the dough weighs under Makes, such as 50 lb, or 24 each, 36 lb; or type the flour as a \
                        weight.";
            return Err(at(last, message, help));
        };
        let all = exact::sum(self.entry.lines.iter().filter_map(LineEntry::percent_of_flour));
        let all = all.map_err(|_| too_large(last))?;
        let weight = share(batch.amount, sum, all).map_err(|_| too_large(last))?;
        let flour = Flour { weight: Measured::new(weight, batch.unit.clone()), of_batch: true, lines };
        Ok((flour, (batch.clone(), all)))
    }
}

fn at(line: &LineEntry, message: String, help: &'static str) -> Unweighed {
    Some(Box::new(Fault::new(Code::FlourUnknown, message, help).at(line.input.place(Column::Qty))))
}

fn too_large(line: &LineEntry) -> Unweighed {
    let fault = Fault::new(Code::NumberOutOfRange, "the percentages are too large to compute", "Check Qty and Makes.");
    Some(Box::new(fault.at(line.input.place(Column::Qty))))
}
