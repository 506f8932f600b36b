//! Engine: the book that is open, and what is asked of it.
//!
//! An answer is a line of JSON, with bytes behind it where a file is handed back: `{"ok":…}`, or `{"no":"why"}`. What is
//! tried stands beside the book and never in it: the book's own cells are put back before anything else is asked.

use jiff::civil::{Date, DateTime};
use parings::analysis::Trim;
use parings::analysis::trim::worth_sweeping;
use parings::kitchen::PartId;
use parings::number::Decimal;
use parings::output::{csv, json};
use parings::{
    Costing, Limits, Opened, Options, Problem, Reading, Repriced, Scenario, Source, cost, open, results, write,
    write_repriced,
};
use serde::Serialize;
use serde_json::{Value, json};

use crate::knobs::{Knob, Tried};
use crate::question::{Of, Question, Rows};
use crate::{card, knobs, list, overview, samples, two_books, wording};

/// Recipes beyond which a page is slow.
const MANY_RECIPES: usize = 5_000;
/// By-products whose credit is moved: more than a lesson has, and of a large book no more than a page holds steps of dishes.
const SWEPT: usize = 12;
const SWEPT_DISHES: usize = 2_000;

/// A book that is open, with what was made of it.
#[derive(Default)]
pub struct Engine {
    files: Vec<File>,
    lists: Vec<File>,
    book: Option<Book>,
    repriced: Option<Repriced>,
}

/// A file that was handed over.
pub struct File {
    /// Its name.
    pub name: String,
    /// What is in it.
    pub bytes: Vec<u8>,
}

/// An open book.
struct Book {
    opened: Opened,
    reading: Reading,
    costing: Costing,
    knobs: Vec<Knob>,
    tried: Option<Tried>,
}

/// What is answered: what there is to say, and a file.
pub struct Answer {
    said: Value,
    file: Vec<u8>,
}

impl Answer {
    /// An answer in words and figures.
    pub fn of(said: impl Serialize) -> Result<Answer, String> {
        Ok(Answer { said: serde_json::to_value(said).map_err(|error| error.to_string())?, file: Vec::new() })
    }

    /// A file.
    pub fn file(file: Vec<u8>) -> Result<Answer, String> {
        Ok(Answer { said: Value::Null, file })
    }

    /// A file with what there is to say of it.
    pub fn both(said: Value, file: Vec<u8>) -> Result<Answer, String> {
        Ok(Answer { said, file })
    }
}

/// The files as the library takes them.
pub fn sources(files: &[File]) -> Vec<Source<'_>> {
    files.iter().map(|file| Source { name: &file.name, bytes: &file.bytes }).collect()
}

/// What a page reads at most: a tab has less room than a command, and nobody to end it.
fn limits() -> Limits {
    let mut limits = Limits::USUAL;
    limits.bytes = 120_000_000;
    limits.sheets = 300;
    limits.cells = 150_000_000;
    limits
}

impl Engine {
    /// Answers a question.
    pub fn ask(&mut self, question: &[u8]) -> Vec<u8> {
        let end = question.iter().position(|byte| *byte == b'\n').unwrap_or(question.len());
        let (line, bytes) = question.split_at_checked(end).unwrap_or((question, &[]));
        let bytes = bytes.get(1..).unwrap_or_default();
        let answer = serde_json::from_slice(line)
            .map_err(|error| format!("the page asked for what is not known: {error}"))
            .and_then(|question| self.answer(question, bytes));
        let (said, file) = match answer {
            Ok(Answer { said, file }) => (json!({ "ok": said }), file),
            Err(why) => (json!({ "no": why }), Vec::new()),
        };
        let mut all = said.to_string().into_bytes();
        if !file.is_empty() {
            all.push(b'\n');
            all.extend(file);
        }
        all
    }

    fn answer(&mut self, question: Question, bytes: &[u8]) -> Result<Answer, String> {
        match question {
            Question::Hello => Answer::of(json!({ "parings": env!("CARGO_PKG_VERSION") })),
            Question::Warm { at } => warm(&at),
            Question::File { name, list } => {
                let file = File { name, bytes: bytes.to_vec() };
                if list {
                    self.lists.push(file)
                } else {
                    self.files.push(file)
                }
                Answer::of(())
            }
            Question::Forget { lists: true } => {
                self.lists.clear();
                self.repriced = None;
                Answer::of(())
            }
            Question::Forget { lists: false } => {
                *self = Engine::default();
                Answer::of(())
            }
            Question::Open { today, day } => self.open(&today, &day),
            Question::Costs => {
                let book = self.book()?;
                let all = json::costing(&book.reading.kitchen, &book.costing, &book.problems());
                Answer::file(all.into_bytes())
            }
            Question::Card { recipe } => card::card(&self.book()?.reading.kitchen, &self.book()?.costing, recipe),
            Question::Trim => self.trim(),
            Question::Knobs => {
                let book = self.book.as_mut().ok_or(NOT_OPEN)?;
                book.knobs = knobs::knobs(&book.reading.kitchen, &book.costing, &book.opened);
                Answer::of(&book.knobs)
            }
            Question::Try { moves } => {
                let book = self.book.as_mut().ok_or(NOT_OPEN)?;
                let tried = knobs::tried(&mut book.opened, &book.knobs, &moves)?;
                let problems = tried.reading.problems_with(&tried.costing);
                let new = problems.iter().filter(|problem| problem.is_error());
                let known = book.reading.problems_with(&book.costing);
                let new: Vec<Problem> = new.filter(|problem| !known.contains(problem)).cloned().collect();
                let answer = overview::tried(&tried.reading, &tried.costing, &wording::said(&new));
                book.tried = Some(tried).filter(|_| !moves.is_empty());
                answer
            }
            Question::Workbook { of, at } => self.workbook(of, &at),
            Question::Csv { of } => self.csv(of),
            Question::Reprice(terms) => {
                let book = self.book()?;
                let (answer, repriced) = list::reprice(book.reading.clone(), &self.lists, &terms)?;
                self.repriced = repriced;
                Ok(answer)
            }
            Question::NewBook { at } => list::new_book(&self.files, self.repriced()?, moment(&at)?),
            Question::Built { name } => Answer::file(samples::built(&name).ok_or("there is no such file")?),
        }
    }

    fn book(&self) -> Result<&Book, String> {
        self.book.as_ref().ok_or_else(|| NOT_OPEN.to_owned())
    }

    fn repriced(&self) -> Result<&Repriced, String> {
        self.repriced.as_ref().ok_or_else(|| "No new price list was read.".to_owned())
    }

    fn open(&mut self, today: &str, day: &str) -> Result<Answer, String> {
        self.book = None;
        self.repriced = None;
        let costed_on = if day.is_empty() { None } else { Some(date(day)?) };
        let options = Options::on(date(today)?).costed_on(costed_on).within(limits());
        let opened = open(&sources(&self.files), options).map_err(|error| error.saying(wording::words))?;
        let reading = opened.read();
        if reading.sheets.iter().all(|sheet| sheet.tables.is_empty()) {
            let names: Vec<&str> = self.files.iter().map(|file| file.name.as_str()).collect();
            return Err(format!("No table that parings knows is in {}. {TABLES}", names.join(" or ")));
        }
        if let Some(why) = two_books::told(&reading) {
            return Err(why);
        }
        let costing = cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
        let book = Book { opened, reading, costing, knobs: Vec::new(), tried: None };
        let many = book.reading.kitchen.recipes.len() > MANY_RECIPES;
        let answer = overview::overview(&book.reading, &book.costing, &wording::said(&book.problems()), many);
        self.book = Some(book);
        answer
    }

    fn trim(&self) -> Result<Answer, String> {
        let book = self.book()?;
        let (kitchen, costing) = (&book.reading.kitchen, &book.costing);
        let most = SWEPT_DISHES.checked_div(kitchen.dishes.len()).unwrap_or(SWEPT).clamp(1, SWEPT);
        let swept: Vec<PartId> = worth_sweeping(kitchen, costing).take(most).collect();
        let trim = Trim::of(kitchen, costing, &swept, Decimal::new(1, 2));
        Answer::of(results::trim::trim(kitchen, costing, &trim, &[]))
    }

    fn workbook(&self, of: Of, at: &str) -> Result<Answer, String> {
        let (book, at) = (self.book()?, moment(at)?);
        let bytes = match of {
            Of::Book => write(&book.reading, &book.costing, at),
            Of::Tried => {
                let tried = book.tried.as_ref().ok_or("Nothing is being tried.")?;
                write(&tried.marked(), &tried.costing, at)
            }
            Of::Repriced => write_repriced(self.repriced()?, at),
        };
        Answer::file(bytes.map_err(|error| error.to_string())?)
    }

    fn csv(&self, of: Rows) -> Result<Answer, String> {
        let book = self.book()?;
        let (kitchen, costing) = (&book.reading.kitchen, &book.costing);
        let rows = match of {
            Rows::Dishes => csv::dishes(kitchen, costing),
            Rows::Lines => csv::lines(kitchen, costing),
            Rows::Parts => csv::parts(kitchen, costing),
            Rows::Problems => csv::problems(&wording::said(&book.problems())),
            Rows::Changes => csv::reprice(&self.repriced()?.changes()),
        };
        Answer::file(rows.into_bytes())
    }
}

impl Book {
    fn problems(&self) -> Vec<Problem> {
        self.reading.problems_with(&self.costing)
    }
}

/// All of it once: with an engine of its own, that goes away again.
fn warm(at: &str) -> Result<Answer, String> {
    let name = "teaching-kitchen.xlsx".to_owned();
    let bytes = samples::built(&name).unwrap_or_default();
    let mut apart = Engine { files: vec![File { name, bytes }], ..Engine::default() };
    apart.open("2026-11-20", "")?;
    apart.trim()?;
    apart.workbook(Of::Book, at)?;
    Answer::of(())
}

const NOT_OPEN: &str = "No book is open.";
const TABLES: &str = "A price list has the headings Item, Pack and Price; a recipe begins with Recipe and its name, and lists \
                      Ingredient, Qty and Unit.";

/// A day as a browser writes it.
pub fn date(text: &str) -> Result<Date, String> {
    text.parse().map_err(|_| format!("“{text}” is no day; write it as 2026-11-20."))
}

/// A moment as a browser writes it, without its zone.
fn moment(text: &str) -> Result<DateTime, String> {
    text.parse().map_err(|_| format!("“{text}” is no moment."))
}
