//! The kitchen as a book: its tables as rows of text, and those as csv files.

use super::fraction::Num;
use super::kitchen::Kitchen;
use super::kitchen::breakdowns::{Added, Breakdown, Charge, Input, Joint, Part, Role};
use super::kitchen::lines::{self, Line};
use super::kitchen::measures::Measure;
use super::kitchen::menu::Rounding;
use super::kitchen::recipes::{Q, Recipe};
use super::unit::Unit;

type Row = Vec<String>;

/// A table, or a card.
#[derive(Debug, Clone)]
pub struct Table {
    /// A card's name row; nothing of a table.
    pub top: Option<Row>,
    /// A card's labels, in any order.
    pub labels: Vec<Row>,
    pub header: Row,
    /// In any order.
    pub rows: Vec<Row>,
}

fn cells<const N: usize>(texts: [&str; N]) -> Row {
    texts.map(str::to_owned).to_vec()
}

fn text(num: Option<&Num>) -> String {
    num.map(|num| num.text.clone()).unwrap_or_default()
}

fn table(header: Row, rows: Vec<Row>) -> Table {
    Table { top: None, labels: Vec::new(), header, rows }
}

fn prices(kitchen: &Kitchen) -> Table {
    let header = cells([
        "Item",
        "Pack",
        "Pack count",
        "Unit size",
        "Size unit",
        "Price",
        "Per",
        "Supplier",
        "Code",
        "Date",
        "Until",
        "Yield",
        "Preferred",
        "Further cost",
        "Credit",
        "Tax",
    ]);
    let mut rows = Vec::new();
    for item in &kitchen.items {
        for row in &item.rows {
            let (pack, split) = match &row.pack {
                Ok(pack) => (pack.clone(), [String::new(), String::new(), String::new()]),
                Err(split) => (String::new(), split.clone()),
            };
            let [count, size, unit] = split;
            let date = |day: Option<jiff::civil::Date>| day.map(|day| day.to_string()).unwrap_or_default();
            let preferred = if row.preferred { "yes" } else { "" };
            rows.push(vec![
                item.name.to_owned(),
                pack,
                count,
                size,
                unit,
                row.price.text.clone(),
                row.per.to_owned(),
                row.supplier.to_owned(),
                row.code.to_owned(),
                date(row.date),
                date(row.until),
                text(row.yields.as_ref()),
                preferred.to_owned(),
                text(row.further.as_ref()),
                text(row.credit.as_ref()),
                text(row.tax.as_ref()),
            ]);
        }
    }
    table(header, rows)
}

fn measures(kitchen: &Kitchen) -> Table {
    let header = cells(["Item", "Measure", "Weighs", "Holds", "Basis"]);
    let row = |item: &str, measure: &Measure| {
        let basis = if measure.says_basis { measure.basis.text() } else { "" };
        let weighs = measure.weighs.text();
        let (weighs, holds) = if measure.is_volume() { (String::new(), weighs) } else { (weighs, String::new()) };
        vec![item.to_owned(), measure.text(), weighs, holds, basis.to_owned()]
    };
    let mut rows = Vec::new();
    for item in &kitchen.items {
        rows.extend(item.measures.iter().map(|measure| row(item.name, measure)));
    }
    for part in kitchen.breakdowns.iter().flat_map(|test| &test.parts) {
        rows.extend(part.measures.iter().map(|measure| row(&part.name, measure)));
    }
    for recipe in &kitchen.recipes {
        rows.extend(recipe.measures.iter().map(|measure| row(&recipe.name, measure)));
    }
    table(header, rows)
}

fn charge(charge: Charge) -> &'static str {
    match charge {
        Charge::Blank => "",
        Charge::Free => "free",
        Charge::Fraction => "fraction",
        Charge::Price => "price",
        Charge::Market => "market",
        Charge::Joint(Joint::Weight) => "by weight",
        Charge::Joint(Joint::SalesValue) => "by sales value",
        Charge::Joint(Joint::NetRealizable) => "net realizable value",
    }
}

fn per_unit(money: &str, per: Option<Unit>) -> String {
    per.map_or_else(|| money.to_owned(), |unit| format!("{money} / {}", unit.name))
}

/// What goes into a test, by name.
fn input_name(kitchen: &Kitchen, test: &Breakdown) -> String {
    match test.input {
        Input::Bought(item) => kitchen.items[item].name.to_owned(),
        Input::Part(test, part) => kitchen.breakdowns[test].parts[part].name.clone(),
        Input::Recipe(recipe) => kitchen.recipes[recipe].name.clone(),
        // In no price list.
        Input::Unlisted => "Wexel".to_owned(),
    }
}

fn breakdown_rows(kitchen: &Kitchen, test: &Breakdown) -> Vec<Row> {
    let kind = if test.cooking { "cooking" } else { "" };
    let mut rows = Vec::new();
    let head = |run: usize, role: &str, part: &str| {
        let run = if test.runs.len() > 1 { (run + 1).to_string() } else { String::new() };
        vec![test.name.clone(), run, kind.to_owned(), role.to_owned(), part.to_owned()]
    };
    for (at, run) in test.runs.iter().enumerate() {
        let input = input_name(kitchen, test);
        let weight =
            run.count.map_or_else(|| run.weight.text(), |count| format!("{count} each, {}", run.weight.text()));
        let price = if at == 0 { text(test.price.as_ref()) } else { String::new() };
        let mut row = head(at, "as purchased", &input);
        row.extend([weight, String::new(), String::new(), String::new(), String::new(), price, String::new()]);
        rows.push(row);
        if let Some((what, weight)) = &run.added {
            let name = match what {
                Added::Water => "Water",
                Added::Bought(item) => kitchen.items[*item].name,
            };
            let mut row = head(at, "added", name);
            row.push(weight.text());
            row.extend(std::iter::repeat_n(String::new(), 6));
            rows.push(row);
        }
        for part in &test.parts {
            if let Some(weight) = &part.weights[at] {
                rows.push([head(at, role(part), &part.name), part_cells(kitchen, part, weight)].concat());
            }
        }
    }
    rows
}

fn role(part: &Part) -> &'static str {
    match part.role {
        Role::Main => "main",
        Role::ByProduct => "by-product",
        Role::Waste => "waste",
    }
}

/// Weight, Unit, Charged as, Value, Further cost, Price, Instead of.
fn part_cells(kitchen: &Kitchen, part: &Part, weight: &super::unit::Amount) -> Row {
    let (weight, unit) = match &weight.and {
        None => (weight.num.text.clone(), weight.unit.name.to_owned()),
        Some(_) => (weight.text(), String::new()),
    };
    let value = match (&part.share, &part.value) {
        (Some(share), _) => share.text.clone(),
        (None, Some(value)) => per_unit(&value.money.text, value.per),
        (None, None) => String::new(),
    };
    let instead = part
        .instead_of
        .as_ref()
        .map(|(amount, item)| {
            let unit = part.unit().name;
            format!("{} {} per {unit}", amount.text(), kitchen.items[*item].name)
        })
        .unwrap_or_default();
    vec![weight, unit, charge(part.charge).to_owned(), value, text(part.further.as_ref()), String::new(), instead]
}

fn breakdowns(kitchen: &Kitchen) -> Table {
    let header = cells([
        "Test",
        "Run",
        "Kind",
        "Role",
        "Part",
        "Weight",
        "Unit",
        "Charged as",
        "Value",
        "Further cost",
        "Price",
        "Instead of",
    ]);
    table(header, kitchen.breakdowns.iter().flat_map(|test| breakdown_rows(kitchen, test)).collect())
}

/// Ingredient, Qty, Unit, Prep, Basis, Yield, Used.
fn line_cells(kitchen: &Kitchen, line: &Line) -> Row {
    let and = line.and.as_ref().map(|(num, unit)| format!(" {} {}", num.text, unit.name)).unwrap_or_default();
    let qty = text(line.qty.as_ref());
    let unit = line.unit.name().to_owned();
    let (qty, unit) = if line.one_cell { (format!("{qty} {unit}{and}"), String::new()) } else { (qty, unit) };
    let basis = line.basis.map_or("", |basis| basis.text());
    let (yields, used) = (text(line.yields.as_ref()), text(line.used.as_ref()));
    vec![lines::name(kitchen, line), qty, unit, line.prep.to_owned(), basis.to_owned(), yields, used]
}

const LINES: [&str; 7] = ["Ingredient", "Qty", "Unit", "Prep", "Basis", "Yield", "Used"];

/// Makes, Portion, Portions, Menu price, Target, Q factor, Spice factor, Serving loss.
fn facts(recipe: &Recipe) -> [(&'static str, String); 8] {
    let makes: Vec<String> = recipe.makes.iter().map(super::unit::Amount::text).collect();
    [
        ("Makes", makes.join(", ")),
        ("Portion", recipe.portion.as_ref().map(super::unit::Amount::text).unwrap_or_default()),
        ("Portions", text(recipe.portions.as_ref())),
        ("Menu price", text(recipe.menu_price.as_ref())),
        ("Target", text(recipe.target.as_ref())),
        ("Q factor", recipe.q.as_ref().map(|q| q.text().to_owned()).unwrap_or_default()),
        ("Spice factor", text(recipe.spice.as_ref())),
        ("Serving loss", text(recipe.serving_loss.as_ref())),
    ]
}

fn card(kitchen: &Kitchen, recipe: &Recipe) -> Table {
    let labels = facts(recipe).into_iter().filter(|(_, value)| !value.is_empty());
    Table {
        top: Some(cells(["Recipe", &recipe.name])),
        labels: labels.map(|(label, value)| vec![label.to_owned(), value]).collect(),
        header: cells(LINES),
        rows: recipe.lines.iter().map(|line| line_cells(kitchen, line)).collect(),
    }
}

fn flat(kitchen: &Kitchen) -> [Table; 2] {
    let listed: Vec<&Recipe> = kitchen.recipes.iter().filter(|recipe| !recipe.card).collect();
    let mut header = vec!["Recipe".to_owned()];
    header.extend(cells(LINES));
    let lines = listed.iter().flat_map(|recipe| {
        recipe.lines.iter().map(|line| [vec![recipe.name.clone()], line_cells(kitchen, line)].concat())
    });
    let lines = table(header, lines.collect());
    let header = ["Recipe", "Makes", "Portion", "Portions", "Menu price", "Target", "Q factor", "Spice factor"];
    let header = [cells(header), cells(["Serving loss"])].concat();
    // A recipe that says nothing of itself has no row there.
    let said = listed.iter().filter(|recipe| facts(recipe).iter().any(|(_, value)| !value.is_empty()));
    let row = |recipe: &&&Recipe| [vec![recipe.name.clone()], facts(recipe).map(|(_, value)| value).to_vec()].concat();
    [lines, table(header, said.map(|recipe| row(&recipe)).collect())]
}

fn menu(kitchen: &Kitchen) -> Table {
    let header = cells(["Dish", "Recipe", "Portion", "Menu price", "Target", "Tax"]);
    let rows = kitchen.dishes.iter().map(|dish| {
        let recipe = kitchen.recipes[dish.recipe].name.clone();
        let (price, target) = (text(dish.menu_price.as_ref()), text(dish.target.as_ref()));
        vec![dish.name.clone(), recipe, dish.served.text(), price, target, text(dish.tax.as_ref())]
    });
    table(header, rows.collect())
}

fn settings(kitchen: &Kitchen) -> Table {
    let settings = &kitchen.settings;
    let covers = settings.spice_covers_q.map(|yes| if yes { "yes" } else { "no" }.to_owned());
    let (step, ending) = match &settings.rounding {
        Rounding::None => (None, None),
        Rounding::Step(step) => (Some(step.text.clone()), None),
        Rounding::Ending(ending) => (None, Some(ending.text.clone())),
    };
    let q = settings.q.as_ref().map(|q: &Q| q.text().to_owned());
    let of = |num: &Option<Num>| num.as_ref().map(|num| num.text.clone());
    let all = [
        ("Target food cost", of(&settings.target)),
        ("Q factor", q),
        ("Spice factor", of(&settings.spice)),
        ("Spice covers Q", covers),
        ("Menu prices include tax", of(&settings.menu_tax)),
        ("Prices include tax", of(&settings.price_tax)),
        ("Price step", step),
        ("Price ending", ending),
    ];
    let rows = all.into_iter().filter_map(|(name, value)| Some(vec![name.to_owned(), value?]));
    table(cells(["Setting", "Value"]), rows.collect())
}

/// Every table of a kitchen that has a row.
pub fn tables(kitchen: &Kitchen) -> Vec<Table> {
    let mut tables = vec![prices(kitchen), measures(kitchen), breakdowns(kitchen)];
    tables.extend(kitchen.recipes.iter().filter(|recipe| recipe.card).map(|recipe| card(kitchen, recipe)));
    tables.extend(flat(kitchen));
    tables.extend([menu(kitchen), settings(kitchen)]);
    tables.into_iter().filter(|table| table.top.is_some() || !table.rows.is_empty()).map(without_blanks).collect()
}

/// Without the columns in which no row has anything, save the ones a table is known by.
fn without_blanks(mut table: Table) -> Table {
    if table.top.is_some() {
        return table;
    }
    let needed = ["Unit", "Pack", "Makes", "Portion", "Qty"];
    let keep: Vec<bool> = (0..table.header.len())
        .map(|at| {
            let header = table.header[at].as_str();
            needed.contains(&header) || table.rows.iter().any(|row| !row[at].is_empty())
        })
        .collect();
    for row in table.rows.iter_mut().chain([&mut table.header]) {
        let mut at = 0;
        row.retain(|_| {
            at += 1;
            keep[at - 1]
        });
    }
    table
}

fn csv_row(row: &[String]) -> String {
    let cell = |text: &String| {
        if text.contains([',', '"']) { format!("\"{}\"", text.replace('"', "\"\"")) } else { text.clone() }
    };
    row.iter().map(cell).collect::<Vec<_>>().join(",")
}

/// Tables one below the other.
pub fn csv<'a>(tables: impl IntoIterator<Item = &'a Table>) -> String {
    let mut text = String::new();
    for table in tables {
        let rows = table.top.iter().chain(&table.labels).chain([&table.header]).chain(&table.rows);
        for row in rows {
            text.push_str(&csv_row(row));
            text.push('\n');
        }
        text.push('\n');
    }
    text
}

/// A workbook with a sheet for each table; everything in it is text.
pub fn xlsx(tables: &[Table]) -> Vec<u8> {
    let mut book = rust_xlsxwriter::Workbook::new();
    for table in tables {
        let sheet = book.add_worksheet();
        let rows = table.top.iter().chain(&table.labels).chain([&table.header]).chain(&table.rows);
        for (row, cells) in (0_u32..).zip(rows) {
            for (column, cell) in (0_u16..).zip(cells) {
                if !cell.is_empty() {
                    sheet.write_string(row, column, cell).unwrap();
                }
            }
        }
    }
    book.save_to_buffer().unwrap()
}
