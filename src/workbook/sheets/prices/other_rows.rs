//! What undoes the choice of a price row besides a cheaper one of its day: a newer row, one that was added, another
//! supplier preferred, another costing date, a market price that is known.
//!
//! Rows are counted over the whole columns of the table, so that one is seen that was put in or typed below. What is
//! counted when the workbook is written holds from then on.

use std::cmp::Ordering;
use std::collections::BTreeSet;

use jiff::civil::Date;

use crate::costing::price::in_use::history_of;
use crate::costing::price::preferred_supplier::is_preferred;
use crate::kitchen::price::{Item, Price, PriceRow};
use crate::kitchen::settings::Setting;
use crate::kitchen::{Field, NameKey};
use crate::number::plain;
use crate::schema::{Column, Shown, Typed, Value};
use crate::workbook::cells::formula::{literal, not_as_typed};
use crate::workbook::context::Context;
use crate::workbook::layout::compared::Compared;
use crate::workbook::layout::{Slot, TableLayout};

/// A condition, and what is said where it holds.
pub(super) type Undone = (String, &'static str);

const ANOTHER_DAY: &str = "it does not count on the costing date: cost again";
const NEWER: &str = "another row is newer now: cost again";
const ADDED: &str = "a row of it was added: cost again";
const PREFERRED: &str = "who is preferred has changed: cost again";
const SUPPLIER: &str = "its supplier is another now: cost again";
const MARKET: &str = "the market price has changed: cost again";

/// The rows of an item beside the one in use.
pub(super) struct OtherRows<'a> {
    pub(super) context: &'a Context<'a>,
    pub(super) table: &'a TableLayout,
    /// The row in use.
    pub(super) index: usize,
    pub(super) row: &'a PriceRow,
    pub(super) item: &'a Item,
    /// Whether it was compared with others of its day.
    pub(super) has_rivals: bool,
}

impl<'a> OtherRows<'a> {
    /// What would undo its choice: in long lists that a market price is known, and nothing else.
    pub(super) fn undone(&self) -> Vec<Undone> {
        let mut undone = self.market();
        if !self.table.roomy {
            return undone;
        }
        undone.extend(self.another_day());
        undone.extend(self.newer());
        undone.extend(self.spelled_otherwise());
        let marks = self.marks();
        undone.extend(marks);
        undone
    }

    fn prices(&self) -> &'a [PriceRow] {
        &self.context.kitchen.entries.prices
    }

    /// A cell of the row in use.
    fn here(&self, column: Column) -> Option<String> {
        self.table.input(self.index, column).map(|cell| cell.cell())
    }

    /// All cells of a column.
    fn all(&self, column: Column) -> Option<String> {
        self.table.all(Slot::Input(column), &self.table.sheet)
    }

    fn typed(&self, column: Column) -> &'a Typed {
        self.row.input.typed(column)
    }

    /// The costing date, as the row reads it.
    fn costing_date(&self) -> Option<String> {
        self.context.settings.value(Setting::CostingDate).map(|cell| cell.from(&self.table.sheet))
    }

    /// The rows that say the name of the item as the one in use does.
    fn alike(&self) -> impl Iterator<Item = &'a PriceRow> {
        let prices = self.prices();
        let name = Compared::of(self.typed(Column::Item));
        let rows = self.item.rows.iter().filter_map(|row| prices.get(*row));
        rows.filter(move |row| Compared::of(row.input.typed(Column::Item)).says(&name))
    }

    /// That a row says that name.
    fn named(&self) -> Option<String> {
        Some(format!("({}={})", self.all(Column::Item)?, self.here(Column::Item)?))
    }

    /// That the costing date is before the row begins, or after it ends; or is no day, where rows of the item have days.
    fn another_day(&self) -> Option<Undone> {
        let day = self.costing_date()?;
        // No day is before all days, as a number.
        let is_dated = matches!(says(self.row, Column::Date), Compared::Number(_));
        let begins = self
            .here(Column::Date)
            .map(|cell| if is_dated { format!("{cell}>N({day})") } else { format!("{cell}>{day}") });
        // A day typed in words is one that nothing here reads.
        let ends = self.here(Column::Until).map(|cell| match self.typed(Column::Until).words() {
            Some(_) => format!("AND({cell}<>\"\",{cell}<{day})"),
            None => format!("AND({cell}<>\"\",OR(ISTEXT({cell}),{cell}<{day}))"),
        });
        let has_day = |row: &PriceRow| row.date.given().is_some() || row.until.given().is_some();
        let dated = self.item.rows.iter().filter_map(|row| self.prices().get(*row)).any(has_day);
        let no_day = (dated && !is_dated).then(|| format!("ISTEXT({day})"));
        let either: Vec<String> = begins.into_iter().chain(ends).chain(self.ends_first()).chain(no_day).collect();
        (!either.is_empty()).then(|| (format!("OR({})", either.join(",")), ANOTHER_DAY))
    }

    /// That a row of the item ends before it begins, which leaves open when it counts.
    fn ends_first(&self) -> Option<String> {
        let (named, begin, end) = (self.named()?, self.all(Column::Date)?, self.all(Column::Until)?);
        let is_so = |row: &&PriceRow| {
            let (date, until) = (says(row, Column::Date), says(row, Column::Until));
            !until.says(&Compared::Words(String::new())) && until.against(&date).is_lt()
        };
        let known = self.alike().filter(is_so).count();
        Some(format!("SUMPRODUCT({named}*({end}<>\"\")*({end}<{begin}))>{known}"))
    }

    /// That more rows are as new as the one in use, or newer, than there were; where its supplier is preferred, of that.
    fn newer(&self) -> Option<Undone> {
        let (day, as_of) = (self.costing_date()?, self.context.costing.scenario.date);
        let mut terms = vec![self.named()?];
        let supplier = self.preferred_supplier().and_then(|said| Some((said, self.same_supplier()?)));
        terms.extend(supplier.iter().map(|(_, same)| same.clone()));
        // Rows of its own supplier count three times: one of them of its day contradicts it, another's is a rival.
        let own = if supplier.is_none() { self.same_supplier() } else { None };
        terms.extend(own.iter().map(|same| format!("(1+2*{same})")));
        let date = self.here(Column::Date).zip(self.all(Column::Date));
        // One of the same day counts once, a later one twice, so that the one cannot hide the other.
        terms.extend(date.iter().map(|(here, all)| format!("(({all}>{here})+({all}>={here}))")));
        // Those that do not count on the day yet, or no more, may do on another one.
        let is_out = |row: &PriceRow| !row.has_begun(as_of) || row.has_ended(as_of);
        let on_the_day = self.alike().any(is_out);
        if on_the_day {
            // Words come behind all numbers: what they say may be a day that has come.
            terms.extend(date.iter().map(|(_, all)| format!("(1-({all}>{day})*({all}<{NO_DAY}))")));
            terms.extend(self.all(Column::Until).map(|all| format!("((({all}=\"\")+({all}>={day}))>0)")));
        }
        let mut most = 0_u64;
        for row in self.alike() {
            let of_supplier = supplier.as_ref().is_none_or(|(said, _)| says(row, Column::Supplier).says(said));
            if !of_supplier || (on_the_day && !counts_on(row, as_of)) {
                continue;
            }
            let against = says(row, Column::Date).against(&Compared::of(self.typed(Column::Date)));
            let times =
                if date.is_none() { 1 } else { u64::from(against.is_gt()).saturating_add(u64::from(against.is_ge())) };
            let is_own = own.is_some() && says(row, Column::Supplier).says(&says(self.row, Column::Supplier));
            most = most.saturating_add(if is_own { 3_u64 } else { 1 }.saturating_mul(times));
        }
        // The last price stands in for a market price that is newer than it.
        let is_other = if self.alike().any(is_market) { "<>" } else { ">" };
        let text = match terms.as_slice() {
            [one] => format!("SUMPRODUCT(--{one}){is_other}{most}"),
            several => format!("SUMPRODUCT({}){is_other}{most}", several.join("*")),
        };
        Some((text, if date.is_some() { NEWER } else { ADDED }))
    }

    /// That a row which spells the name in another way, and is not counted among those that spell it so, stands before or
    /// behind the one in use where it did not.
    fn spelled_otherwise(&self) -> Option<Undone> {
        /// More are not asked one by one.
        const MOST: usize = 8;
        let (as_of, prices) = (self.context.costing.scenario.date, self.prices());
        let name = says(self.row, Column::Item);
        let rows = self.item.rows.iter().filter_map(|index| Some((*index, prices.get(*index)?)));
        let mut other = Vec::new();
        for (index, row) in rows.filter(|(_, row)| !says(row, Column::Item).says(&name)).take(MOST) {
            let cell = |column| {
                let cell = self.table.input(index, column)?;
                Some(cell.beside(&self.table.sheet, self.table.row(self.index)))
            };
            let order = match says(row, Column::Date).against(&says(self.row, Column::Date)) {
                Ordering::Less => ">=",
                Ordering::Equal => "<>",
                Ordering::Greater => "<=",
            };
            let moved = cell(Column::Date).zip(self.here(Column::Date));
            other.extend(moved.map(|(there, here)| [&there, order, &here].concat()));
            let said = |column| Some(is_other(&cell(column)?, row.input.typed(column)));
            other.extend([Column::Until, Column::Preferred].into_iter().filter_map(said));
            if !row.has_begun(as_of) || row.has_ended(as_of) {
                let day = self.costing_date()?;
                other.push(is_other(&day, &Typed { value: Value::Date(as_of), shown: Shown::Date }));
            }
        }
        // One that was taken out is none that could come before.
        (!other.is_empty()).then(|| (format!("IFERROR(OR({}),FALSE)", other.join(",")), NEWER))
    }

    /// The supplier of the row in use, where it is preferred and has a name.
    fn preferred_supplier(&self) -> Option<Compared> {
        let supplier = NameKey::of(&self.row.supplier);
        if supplier.is_empty() {
            return None;
        }
        let prices = self.prices();
        let its = self.item.rows.iter().filter_map(|row| prices.get(*row));
        let its = its.filter(|row| NameKey::of(&row.supplier) == supplier);
        is_preferred(its, self.context.costing.scenario.date).then(|| says(self.row, Column::Supplier))
    }

    /// That a row says the supplier of the one in use.
    fn same_supplier(&self) -> Option<String> {
        Some(format!("({}={})", self.all(Column::Supplier)?, self.here(Column::Supplier)?))
    }

    /// That other rows are marked as preferred, or that the supplier is another where it decides.
    fn marks(&self) -> Vec<Undone> {
        let marked = self.all(Column::Preferred).zip(self.here(Column::Preferred));
        let several = self.item.rows.iter().filter_map(|row| self.prices().get(*row)).map(history_of);
        let several = several.collect::<BTreeSet<_>>().len() > 1;
        let mut undone = Vec::new();
        if let (Some((all, here)), Some(named), true) = (marked, self.named(), several) {
            undone.push((self.marked_otherwise(&all, &here, named), PREFERRED));
        }
        let decides = self.has_rivals || self.alike().any(|row| !row.input.typed(Column::Preferred).is_blank());
        let supplier = self.here(Column::Supplier).filter(|_| decides && several);
        undone.extend(supplier.and_then(|cell| Some((other_words(&cell, self.typed(Column::Supplier))?, SUPPLIER))));
        undone
    }

    /// That the marks stand otherwise: those of the supplier count three times, and each with a word that means yes twice.
    fn marked_otherwise(&self, all: &str, here: &str, named: String) -> String {
        let yes: BTreeSet<String> = self
            .alike()
            .filter(|row| row.preferred == Field::Given(true))
            .filter_map(|row| literal(row.input.typed(Column::Preferred).words()?))
            .map(|words| words.to_lowercase())
            .collect();
        let means = yes.iter().map(|words| format!("+({all}={words})"));
        let marks = format!("(({all}<>\"\"){})", means.collect::<String>());
        let (own, same) = (says(self.row, Column::Supplier), self.same_supplier());
        let mut was = 0_u64;
        for row in self.alike() {
            let mark = row.input.typed(Column::Preferred);
            let is_yes = mark.words().and_then(literal).is_some_and(|words| yes.contains(&words.to_lowercase()));
            let times = u64::from(!mark.is_blank()).saturating_add(u64::from(is_yes));
            let of_own = same.is_some() && says(row, Column::Supplier).says(&own);
            was = was.saturating_add(times.saturating_mul(if of_own { 3 } else { 1 }));
        }
        let by_supplier = same.map_or_else(String::new, |same| format!("*(1+2*{same})"));
        let counted = format!("SUMPRODUCT({named}{by_supplier}*{marks})<>{was}");
        match other_words(here, self.typed(Column::Preferred)) {
            Some(other) => format!("OR({counted},{other})"),
            None => counted,
        }
    }

    /// That a row at a market price, which the last price stands in for, says another one or another pack. One that was taken
    /// out says nothing.
    fn market(&self) -> Vec<Undone> {
        let prices = self.prices();
        let rows = self.item.rows.iter().filter_map(|index| Some((*index, prices.get(*index)?)));
        let at_market = rows.filter(|(_, row)| is_market(row));
        let other = at_market.flat_map(|(index, row)| {
            [Column::Price, Column::Pack].into_iter().filter_map(move |column| {
                let typed = row.input.typed(column);
                let cell = self.table.input(index, column).filter(|_| !typed.is_blank())?;
                let cell = cell.beside(&self.table.sheet, self.table.row(self.index));
                Some((
                    match typed.words().and_then(literal) {
                        Some(words) => format!("IFERROR({cell},{words})<>{words}"),
                        None => format!("IFERROR({cell},1)=\"\""),
                    },
                    MARKET,
                ))
            })
        });
        other.collect()
    }
}

/// More than the number of any day.
const NO_DAY: &str = "1E9";

fn is_market(row: &PriceRow) -> bool {
    row.price == Field::Given(Price::Market)
}

/// That a cell does not say what was typed in it.
fn is_other(cell: &str, typed: &Typed) -> String {
    match Compared::of(typed) {
        Compared::Number(number) => [cell, "<>", &plain(number)].concat(),
        _ => not_as_typed(cell, typed),
    }
}

fn says(row: &PriceRow, column: Column) -> Compared {
    Compared::of(row.input.typed(column))
}

/// Whether a row counts on a day, as the formula tells.
fn counts_on(row: &PriceRow, day: Date) -> bool {
    let day = Compared::of_day(day);
    let (date, until) = (says(row, Column::Date), says(row, Column::Until));
    let is_later = matches!(date, Compared::Number(_)) && date.against(&day).is_gt();
    !is_later && (until.says(&Compared::Words(String::new())) || until.against(&day).is_ge())
}

/// That a cell says other words than it did, or any where it said none; `None` where no formula holds them.
fn other_words(cell: &str, typed: &Typed) -> Option<String> {
    let is_held = typed.is_blank() || typed.words().and_then(literal).is_some();
    is_held.then(|| not_as_typed(cell, typed))
}
