//! What a book lacks, as rows to be filled in: names that it does not have, prices and packs, weights of measures, what
//! recipes make; each with the cell that asks for it. Filled in and read together with the book, they are the answer.

use std::collections::{HashMap, HashSet};

use indexmap::IndexMap;

use crate::costing::Costing;
use crate::costing::price::bought::PriceFrom;
use crate::food::FoodMeasure;
use crate::kitchen::price::PriceRow;
use crate::kitchen::recipe::IngredientSource;
use crate::kitchen::{InputRow, Kitchen, NameKey, Reference};
use crate::measure::measure_name;
use crate::number::plain;
use crate::problem::{Code, Place, Problem, Want};
use crate::schema::fill_in::{PACK, pack_seen};
use crate::schema::{Column, Typed, Value};

/// Everything that a book lacks.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Missing {
    /// Names that are near to some of the book.
    pub names: Vec<MissingName>,
    /// Prices and packs.
    pub prices: Vec<MissingPrice>,
    /// Weights of measures.
    pub measures: Vec<MissingMeasure>,
    /// What recipes make, and what they sell for where that cannot be read.
    pub recipes: Vec<MissingBatch>,
    /// Menu prices and targets that cannot be read.
    pub dishes: Vec<MissingBatch>,
}

/// Who asks, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Asked {
    /// The first cell that asks.
    pub at: Place,
    /// How many more do.
    pub others: usize,
    /// Why, in a sentence.
    pub why: String,
}

/// A name that is not in the book.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MissingName {
    /// The name.
    pub name: String,
    /// Up to three that are in the book, the nearest first.
    pub near: Vec<String>,
    /// Who asks.
    pub asked: Asked,
}

/// A price row to complete, or one that is not there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MissingPrice {
    /// The item.
    pub item: String,
    /// What tells the row from others of the item: supplier, code and date as typed.
    pub apart: [Typed; 3],
    /// The pack that the book's row has, as it is seen; empty where there is none.
    pub pack: String,
    /// The price that it has.
    pub price: Typed,
    /// Who asks.
    pub asked: Asked,
}

/// A measure that nothing gives a weight.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MissingMeasure {
    /// The item, part or recipe.
    pub item: String,
    /// The measure.
    pub measure: String,
    /// What a published table says: `1 cup, chopped = 160 g`; empty where none does.
    pub published: String,
    /// Which food of which table; empty where none has it.
    pub source: String,
    /// Who asks.
    pub asked: Asked,
}

/// A recipe that does not say what it makes, or a dish whose price cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct MissingBatch {
    /// Its name.
    pub name: String,
    /// Who asks.
    pub asked: Asked,
}

/// What is missing while it is gathered: each once, in the order of the book.
#[derive(Debug, Default)]
struct Gathered {
    names: IndexMap<NameKey, MissingName>,
    new: IndexMap<NameKey, MissingPrice>,
    prices: IndexMap<usize, MissingPrice>,
    measures: IndexMap<(NameKey, String), MissingMeasure>,
    recipes: IndexMap<NameKey, MissingBatch>,
    dishes: IndexMap<NameKey, MissingBatch>,
}

impl Missing {
    /// What the problems of a book say that it lacks.
    pub fn of(kitchen: &Kitchen, costing: &Costing, problems: &[Problem]) -> Missing {
        let mut gathered = Gathered::default();
        let rows = CompletableRows::of(kitchen);
        for problem in problems {
            match problem.want.as_deref() {
                Some(Want::Name { name, near, may_be_bought }) => gathered.name(name, near, *may_be_bought, problem),
                Some(Want::Measures { item, measures }) => {
                    measures.iter().for_each(|measure| gathered.measure(kitchen, item, measure, problem));
                }
                Some(Want::Batch { recipe }) => {
                    ask(gathered.recipes.entry(NameKey::of(recipe)), problem, |asked| batch(recipe, asked));
                }
                None if problem.is_error() => gathered.cell(kitchen, costing, &rows, problem),
                None => {}
            }
        }
        gathered.batches(kitchen, costing);
        let mut prices: Vec<MissingPrice> = gathered.prices.into_values().collect();
        prices.extend(gathered.new.into_values());
        prices.extend(without_allergens(kitchen, costing));
        Missing {
            names: gathered.names.into_values().collect(),
            prices,
            measures: gathered.measures.into_values().collect(),
            recipes: gathered.recipes.into_values().collect(),
            dishes: gathered.dishes.into_values().collect(),
        }
    }

    /// Whether nothing is.
    pub fn is_empty(&self) -> bool {
        let Missing { names, prices, measures, recipes, dishes } = self;
        names.is_empty() && prices.is_empty() && measures.is_empty() && recipes.is_empty() && dishes.is_empty()
    }
}

impl Gathered {
    fn name(&mut self, name: &str, near: &[String], may_be_bought: bool, problem: &Problem) {
        let key = NameKey::of(name);
        if !near.is_empty() {
            let new = |asked| MissingName { name: name.to_owned(), near: near.to_vec(), asked };
            ask(self.names.entry(key.clone()), problem, new);
        }
        if may_be_bought {
            let new = |asked: Asked| {
                let why = if near.is_empty() {
                    format!("{}.", asked.why)
                } else {
                    "Only where it is a new item, and none of those on the sheet Names.".to_owned()
                };
                MissingPrice {
                    item: name.to_owned(),
                    apart: [Typed::BLANK, Typed::BLANK, Typed::BLANK],
                    pack: String::new(),
                    price: Typed::BLANK,
                    asked: Asked { why, ..asked },
                }
            };
            ask(self.new.entry(key), problem, new);
        }
    }

    fn measure(&mut self, kitchen: &Kitchen, item: &str, measure: &str, problem: &Problem) {
        let new = |asked| {
            let (published, source) = published(kitchen, item, measure);
            MissingMeasure { item: item.to_owned(), measure: measure.to_owned(), published, source, asked }
        };
        ask(self.measures.entry((NameKey::of(item), measure.to_owned())), problem, new);
    }

    /// Dishes whose portions will be asked for as soon as their recipe has a cost: better now.
    fn batches(&mut self, kitchen: &Kitchen, costing: &Costing) {
        for dish in kitchen.dishes.iter().filter(|dish| !dish.portion.as_ref().is_some_and(|own| own.unit.is_batch())) {
            let Some((id, recipe)) = dish.recipe.and_then(|id| Some((id, kitchen.recipe(id)?))) else { continue };
            let is_costed = costing.recipes.get(id.index()).is_some_and(Option::is_some);
            if is_costed || !recipe.makes.is_empty() || recipe.stated_portions.is_some() {
                continue;
            }
            let why = format!("the card of “{}” does not say how many portions it makes", recipe.name);
            let asked = Asked { at: dish.place.clone(), others: 0, why };
            self.recipes.entry(NameKey::of(&recipe.name)).or_insert_with(|| batch(&recipe.name, asked));
        }
    }

    /// A cell that cannot be read, or lacks what its row needs.
    fn cell(&mut self, kitchen: &Kitchen, costing: &Costing, rows: &CompletableRows<'_>, problem: &Problem) {
        let entries = &kitchen.entries;
        match rows.at(problem) {
            Some(CompletableRow::Price(index)) => {
                let Some(row) = entries.prices.get(index) else { return };
                ask(self.prices.entry(index), problem, |asked| price(row, asked));
            }
            Some(CompletableRow::Dish(index)) => {
                let Some(row) = entries.menu.get(index) else { return };
                ask(self.dishes.entry(NameKey::of(&row.dish)), problem, |asked| batch(&row.dish, asked));
            }
            Some(CompletableRow::Recipe(index)) => {
                let Some(row) = entries.recipes.get(index) else { return };
                ask(self.recipes.entry(NameKey::of(&row.name)), problem, |asked| batch(&row.name, asked));
            }
            None if matches!(problem.code, Code::PriceMissing | Code::PricesEnded) => {
                let is_here = |row: &&PriceRow| {
                    row.input.place == problem.place || row.input.cells.iter().any(|cell| cell.place == problem.place)
                };
                let Some(row) = entries.prices.iter().find(is_here) else { return };
                let day = Typed { value: Value::Date(costing.scenario.date), ..Typed::BLANK };
                let supplier = row.input.typed(Column::Supplier).clone();
                let code = row.input.typed(Column::Code).clone();
                ask(self.new.entry(NameKey::of(&row.item)), problem, |asked| MissingPrice {
                    item: row.item.clone(),
                    apart: [supplier, code, day],
                    // A row of its own, and none of the book completed.
                    pack: String::new(),
                    price: Typed::BLANK,
                    asked,
                });
            }
            None => {}
        }
    }
}

/// A row that a fill-in can complete, as an index into the entries.
#[derive(Debug, Clone, Copy)]
enum CompletableRow {
    Price(usize),
    Dish(usize),
    Recipe(usize),
}

/// Where the cells stand that a fill-in can complete, and their rows as a whole.
struct CompletableRows<'k> {
    cells: HashMap<&'k Place, CompletableRow>,
    whole: HashMap<&'k Place, CompletableRow>,
}

impl<'k> CompletableRows<'k> {
    fn of(kitchen: &'k Kitchen) -> Self {
        const SOLD: &[Column] = &[Column::MenuPrice, Column::Target];
        const MADE: &[Column] = &[Column::Makes, Column::BatchYield, Column::Portion, Column::Portions];
        let entries = &kitchen.entries;
        let mut rows = CompletableRows { cells: HashMap::new(), whole: HashMap::new() };
        for (index, row) in entries.prices.iter().enumerate() {
            rows.take(&row.input, &[&PACK, &[Column::Per, Column::Price]], CompletableRow::Price(index));
        }
        for (index, row) in entries.menu.iter().enumerate() {
            rows.take(&row.input, &[SOLD], CompletableRow::Dish(index));
        }
        for (index, row) in entries.recipes.iter().enumerate() {
            rows.take(&row.input, &[MADE, SOLD], CompletableRow::Recipe(index));
        }
        rows
    }

    fn take(&mut self, input: &'k InputRow, columns: &[&[Column]], row: CompletableRow) {
        self.whole.entry(&input.place).or_insert(row);
        for cell in input.cells.iter().filter(|cell| columns.iter().any(|columns| columns.contains(&cell.column))) {
            self.cells.entry(&cell.place).or_insert(row);
        }
    }

    /// The row whose cell a problem is about.
    fn at(&self, problem: &Problem) -> Option<CompletableRow> {
        if is_contest(problem.code) {
            return None;
        }
        let whole = || self.whole.get(&problem.place).filter(|_| is_about_rows(problem.code));
        self.cells.get(&problem.place).or_else(whole).copied()
    }
}

/// Whether a problem at a row's name is about what the row does not have.
fn is_about_rows(code: Code) -> bool {
    matches!(code, Code::PackMissing | Code::PriceMissing)
}

/// Whether it is about another row as well, so that no cell of this one answers it.
fn is_contest(code: Code) -> bool {
    matches!(code, Code::PriceRowTwice | Code::PreferredTwice | Code::PricesNotComparable | Code::PricesEnded)
}

/// Asks once more for what is asked for already, else anew.
fn ask<K, T: Askable>(entry: indexmap::map::Entry<'_, K, T>, problem: &Problem, new: impl FnOnce(Asked) -> T) {
    match entry {
        indexmap::map::Entry::Occupied(mut known) => {
            let asked = known.get_mut().asked();
            if asked.at != problem.place {
                asked.others = asked.others.saturating_add(1);
            }
        }
        indexmap::map::Entry::Vacant(place) => {
            place.insert(new(Asked { at: problem.place.clone(), others: 0, why: problem.message() }));
        }
    }
}

trait Askable {
    fn asked(&mut self) -> &mut Asked;
}

macro_rules! askable {
    ($($kind:ty)*) => { $(impl Askable for $kind { fn asked(&mut self) -> &mut Asked { &mut self.asked } })* };
}
askable!(MissingName MissingPrice MissingMeasure MissingBatch);

fn batch(name: &str, asked: Asked) -> MissingBatch {
    MissingBatch { name: name.to_owned(), asked }
}

/// A row of the book to be completed.
fn price(row: &PriceRow, asked: Asked) -> MissingPrice {
    let typed = |column: Column| row.input.typed(column).clone();
    MissingPrice {
        item: row.item.clone(),
        apart: [Column::Supplier, Column::Code, Column::Date].map(typed),
        pack: pack_of(&row.input),
        price: typed(Column::Price),
        asked,
    }
}

fn pack_of(row: &InputRow) -> String {
    pack_seen(|column| PACK.contains(&column).then(|| row.typed(column)))
}

/// What the item's built-in food says of a measure, and where it says it.
fn published(kitchen: &Kitchen, item: &str, measure: &str) -> (String, String) {
    const MOST: usize = 3;
    let Some((unit, _)) = measure_name(measure) else { return Default::default() };
    let key = NameKey::of(item);
    let known = kitchen.items.iter().find(|known| known.key == key);
    let rows = known.into_iter().flat_map(|item| &item.rows).filter_map(|row| kitchen.entries.prices.get(*row));
    let named = rows.filter_map(|row| row.reference.given().copied());
    let foods = named.chain(Reference::proposed(item));
    let said = |food: Reference| -> Vec<FoodMeasure> {
        let measures = food.food().into_iter().flat_map(|food| food.measures());
        measures.filter(|known| known.unit() == unit).take(MOST).collect()
    };
    let found = foods.map(|food| (food, said(food))).find(|(_, measures)| !measures.is_empty());
    let Some((food, measures)) = found else { return Default::default() };
    let texts: Vec<String> =
        measures.iter().map(|measure| format!("{} = {} g", measure.text(), plain(measure.grams()))).collect();
    (texts.join("; "), food.spoken())
}

/// Price rows in use whose allergens nobody states, in a kitchen that states any.
fn without_allergens(kitchen: &Kitchen, costing: &Costing) -> Vec<MissingPrice> {
    let rows = &kitchen.entries.prices;
    if rows.iter().all(|row| row.allergens.is_none()) {
        return Vec::new();
    }
    let lines = kitchen.recipes.iter().flat_map(|recipe| &recipe.lines);
    let used: HashSet<usize> = lines
        .filter_map(|line| if let IngredientSource::Bought(id) = line.source { Some(id.index()) } else { None })
        .collect();
    let in_use = kitchen.items.iter().zip(&costing.items).enumerate();
    let silent = in_use.filter_map(|(index, (item, cost))| {
        let PriceFrom::Row(row) = cost.as_ref()?.from else { return None };
        let stated = item.rows.iter().filter_map(|row| rows.get(*row)).any(|row| row.allergens.is_some());
        if stated || !used.contains(&index) { None } else { rows.get(row) }
    });
    let asked = |row: &PriceRow| Asked {
        at: row.input.place(Column::Item),
        others: 0,
        why: "Optional: its allergens are not stated. Look at the label; type none where there are none.".to_owned(),
    };
    silent.map(|row| price(row, asked(row))).collect()
}
