//! Knobs: what can be tried of a book, each a number that stands in cells of it.
//!
//! To try is to type: the cells are set, the book is read and costed as always, and the cells are put back. A knob moves each
//! of its cells in proportion, so that several knobs may move one cell: what two mains give up is the same waste's.

mod cell;
mod find;

use parings::number::{Decimal, plain};
use parings::problem::Place;
use parings::schema::{CarriedSheet, Typed};
use parings::{Costing, Opened, Reading, Scenario, cost};
use serde::{Serialize, Serializer};

use crate::question::Move;
pub use find::knobs;

/// What a knob is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// The price of something bought.
    Price,
    /// How much is left of it: of a yield test the main's weight, which goes to or comes from the waste.
    Yield,
    /// What a by-product is charged at, where the book says it as a number.
    Credit,
    /// What is served.
    Portion,
    /// What is asked for a dish.
    MenuPrice,
}

/// A number that can be moved.
#[derive(Debug, Clone, Serialize)]
pub struct Knob {
    /// What it is about.
    pub kind: Kind,
    /// Of what.
    pub name: String,
    /// What else tells it apart: a pack, a test.
    pub detail: String,
    /// Its unit; empty for money.
    pub unit: String,
    /// Where it stands in the book.
    #[serde(serialize_with = "as_text")]
    pub now: Decimal,
    /// The least and the most that can be tried.
    #[serde(serialize_with = "as_text")]
    pub low: Decimal,
    /// As `low`.
    #[serde(serialize_with = "as_text")]
    pub high: Decimal,
    /// By how much a step moves it.
    #[serde(serialize_with = "as_text")]
    pub step: Decimal,
    #[serde(skip)]
    cells: Vec<Lever>,
}

/// A cell that a knob moves: by `up` for every `of` that the knob is moved.
#[derive(Debug, Clone)]
struct Lever {
    place: Place,
    up: Decimal,
    of: Decimal,
    /// Its weight in grams, where words say it.
    weighs: Option<Decimal>,
}

/// A book as it is being tried.
#[derive(Debug)]
pub struct Tried {
    /// The book as if.
    pub reading: Reading,
    /// What it would cost.
    pub costing: Costing,
    said: Vec<String>,
}

impl Tried {
    /// The book with a sheet that says what in it was only tried.
    pub fn marked(&self) -> Reading {
        let mut reading = self.reading.clone();
        let file = reading.sheets.first().map(|sheet| sheet.place.file_name().to_owned()).unwrap_or_default();
        let lines = ["Only tried: these are not the book's own figures.".to_owned()]
            .into_iter()
            .chain(self.said.iter().cloned());
        let cells = (0_u32..).zip(lines).map(|(row, line)| (row, 0, Typed::text(line)));
        let sheet =
            CarriedSheet { place: Place::sheet(&file, "Tried"), name: "Tried".to_owned(), cells: cells.collect() };
        reading.carried.push(sheet);
        reading
    }
}

/// The book as if the knobs stood so. What is typed is taken back at once.
pub fn tried(opened: &mut Opened, knobs: &[Knob], moves: &[Move]) -> Result<Tried, String> {
    let mut shifts: Vec<(&Lever, Decimal)> = Vec::new();
    let mut said = Vec::new();
    for one in moves {
        let knob = knobs.get(one.knob).ok_or("there is no such thing to try")?;
        let wanted: Decimal = one.value.parse().map_err(|_| format!("“{}” is no number", one.value))?;
        let wanted = wanted.clamp(knob.low.min(knob.now), knob.high.max(knob.now));
        let by = wanted.checked_sub(knob.now).ok_or(TOO_LARGE)?;
        said.push(knob.words(wanted));
        for lever in &knob.cells {
            let shift = lever.up.checked_mul(by).and_then(|shift| shift.checked_div(lever.of)).ok_or(TOO_LARGE)?;
            match shifts.iter_mut().find(|(known, _)| known.place == lever.place) {
                Some((_, all)) => *all = all.checked_add(shift).ok_or(TOO_LARGE)?,
                None => shifts.push((lever, shift)),
            }
        }
    }
    let mut were: Vec<(&Place, Typed)> = Vec::new();
    let mut fits = true;
    for (Lever { place, weighs, .. }, shift) in shifts {
        let shifted = opened.cell(place).and_then(|typed| cell::shifted(typed, *weighs, shift));
        let Some(typed) = shifted else {
            fits = false;
            break;
        };
        were.extend(opened.set(place, typed).map(|was| (place, was)));
    }
    let reading = fits.then(|| opened.read());
    for (place, was) in were.into_iter().rev() {
        opened.set(place, was);
    }
    let reading = reading.ok_or("That leaves less than nothing in a cell: move it less far.")?;
    let costing = cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
    Ok(Tried { reading, costing, said })
}

const TOO_LARGE: &str = "That is more than can be figured.";

impl Knob {
    fn words(&self, wanted: Decimal) -> String {
        let what = match self.kind {
            Kind::Price => "Price of",
            Kind::Yield => "Yield of",
            Kind::Credit => "Credit of",
            Kind::Portion => "Portion of",
            Kind::MenuPrice => "Menu price of",
        };
        let unit = if self.unit.is_empty() { String::new() } else { format!(" {}", self.unit) };
        format!("{what} {}: {}{unit}, in the book {}{unit}", self.name, plain(wanted), plain(self.now))
    }
}

fn as_text<S: Serializer>(number: &Decimal, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_str(&plain(*number))
}
