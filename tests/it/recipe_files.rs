//! Twelve loose recipe books as kitchens type them (`tests/recipe-files`), against what a cook reads in them line
//! by line (`NAME.expected.tsv`, by hand, from common kitchen practice, by somebody who had not seen our grammar).

use parings::kitchen::Field;
use parings::kitchen::recipe::{LineEntry, LineQuantity, RecipeEntry};
use parings::measure::{Measured, Unit, Volumes};
use parings::number::Decimal;
use parings::problem::CellRef;
use parings::{Reading, Source, read};

use crate::ingredient_lines::{decimal, same_words, words};

/// A row of what a cook reads.
struct Expected {
    is_recipe: bool,
    sheet: String,
    cell: String,
    recipe: String,
    quantity: String,
    unit: String,
    ingredient: String,
    prep: String,
    ask: String,
}

fn folder() -> std::path::PathBuf {
    std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/recipe-files")
}

fn expected(name: &str) -> Vec<Expected> {
    let table = std::fs::read_to_string(folder().join(format!("{name}.expected.tsv"))).unwrap();
    table
        .lines()
        .skip(1)
        .map(|line| {
            let mut cells = line.split('\t').map(str::to_owned);
            let mut next = || cells.next().unwrap_or_default();
            Expected {
                is_recipe: next() == "recipe",
                sheet: next(),
                cell: next(),
                recipe: next(),
                quantity: next(),
                unit: next(),
                ingredient: next().replace(" (own recipe)", ""),
                prep: next(),
                ask: next(),
            }
        })
        .collect()
}

fn reading(files: &[&str]) -> Reading {
    let bytes: Vec<(&str, Vec<u8>)> =
        files.iter().map(|file| (*file, std::fs::read(folder().join(file)).unwrap())).collect();
    let sources: Vec<Source<'_>> = bytes.iter().map(|(name, bytes)| Source { name, bytes }).collect();
    read(&sources, crate::support::options()).unwrap()
}

/// What the chef's quantity and unit come to.
fn figure(quantity: &str, unit: &str) -> Option<Measured> {
    if quantity.is_empty() {
        return None;
    }
    let (name, size) = unit.split_once(" (").unwrap_or((unit, ""));
    let (size, number) = (size.trim_end_matches(')'), decimal(quantity));
    let unit =
        if size.starts_with('#') { Unit::read(size) } else { Unit::read(if name.is_empty() { "each" } else { name }) };
    let measured = size.split_once(' ').filter(|_| !size.starts_with('#'));
    Some(match measured {
        Some((many, of)) => Measured::new(number * decimal(many), Unit::read(of)),
        None => Measured::new(number, unit),
    })
}

fn same(a: &Measured, b: &Measured) -> bool {
    let ounces = a.unit.name() == "fl oz" && b.unit.name() == "oz" && a.amount == b.amount;
    let base = |m: &Measured| m.in_base(Volumes::Us).unwrap();
    ounces
        || match (base(a), base(b)) {
            (Some((one, n)), Some((other, m))) => {
                one == other
                    && n.round_dp_with_strategy(9, rust_decimal::RoundingStrategy::MidpointAwayFromZero)
                        == m.round_dp_with_strategy(9, rust_decimal::RoundingStrategy::MidpointAwayFromZero)
            }
            (None, None) => a.amount.normalize() == b.amount.normalize() && a.unit == b.unit,
            _ => false,
        }
}

fn given(line: &LineEntry) -> Option<Measured> {
    match &line.quantity {
        Field::Given(LineQuantity::Measured(measured)) => Some(measured.clone()),
        Field::Given(LineQuantity::Unmeasured { measured, .. }) => {
            measured.clone().filter(|one| one.unit.is_unmeasured())
        }
        _ => None,
    }
}

/// The chef's recipe in what was read.
fn recipe<'r>(reading: &'r Reading, row: &Expected) -> Option<&'r RecipeEntry> {
    let known = |entry: &&RecipeEntry| entry.name == row.recipe;
    reading.kitchen.entries.recipes.iter().find(known)
}

fn makes_what(entry: &RecipeEntry, row: &Expected) -> bool {
    let Some(chef) = figure(&row.quantity, &row.unit) else { return true };
    if chef.unit.is_portion() {
        let made = entry.makes.given().and_then(|all| all.first()).filter(|made| made.unit.is_portion());
        return entry.portions.given().copied().or(made.map(|made| made.amount)) == Some(chef.amount);
    }
    // A kitchen's “half hotel pan” is the chef's hotel pan, with half in the rest of the yield.
    entry.makes.given().is_some_and(|all| {
        all.iter().any(|made| {
            same(&chef, made) || (made.amount == chef.amount && made.unit.name().ends_with(&chef.unit.name()))
        })
    })
}

/// What is wrong with how a row was read; `None` where it is right. The second word is true where it is silently
/// wrong.
fn wrong(reading: &Reading, row: &Expected) -> Option<(String, bool)> {
    let at = format!(
        "{}!{} {} {} “{}” [{}] ask “{}”",
        row.sheet, row.cell, row.quantity, row.unit, row.ingredient, row.prep, row.ask
    );
    let Some(entry) = recipe(reading, row) else { return Some((format!("{}: no such recipe", row.recipe), false)) };
    if row.is_recipe {
        return (!makes_what(entry, row))
            .then(|| (format!("{at}: makes {:?}, portions {:?}", entry.makes, entry.portions), true));
    }
    let line_of = CellRef::named(&row.cell).unwrap().row;
    let line = entry.lines.iter().find(|line| line.input.place.cell_ref().is_some_and(|cell| cell.row == line_of));
    let Some(line) = line else { return Some((format!("{at}: no such line in {}", row.recipe), row.ask.is_empty())) };
    let ours = given(line);
    let read_as = format!("{at}: {:?} “{}” [{}]", ours.as_ref().map(ToString::to_string), line.item, line.prep);
    let chef = figure(&row.quantity, &row.unit);
    let is_equal = match (&chef, &ours) {
        (Some(chef), Some(ours)) => same(chef, ours),
        (None, None) => true,
        // A handful is no figure until a measure says what one weighs.
        (None, Some(ours)) => ours.unit.is_unmeasured(),
        _ => false,
    };
    let figured = ours.filter(|ours| !ours.unit.is_unmeasured());
    if !is_equal && (figured.is_some() || row.ask.is_empty()) {
        return Some((read_as, figured.is_some()));
    }
    if !row.ask.is_empty() {
        return None;
    }
    let together = format!("{} {}", row.ingredient, row.prep);
    let named = same_words(&row.ingredient, &line.item)
        || (same_words(&together, &line.item) && words(&row.ingredient).is_subset(&words(&line.item)));
    (!named).then_some((read_as, false))
}

/// Rows that we read otherwise, and why.
const OTHERWISE: &[(&str, &str, &str)] = &[
    ("fish-counter", "A4", "w/ juice is kept as what is said of the clams; their name is clams, chopped"),
    ("cake-cards", "A31", "1 without a unit is a piece, with a note; costing asks for cakes, which the recipe makes"),
    ("curry-house", "A17", "black pepper is kept as typed; that peppercorns are meant may be proposed"),
    ("curry-house", "A37", "that the leaves are dried is not typed"),
    ("church-supper", "A39", "soda is kept as typed; baking soda may be proposed"),
];

const BOOKS: &[(&str, &[&str])] = &[
    ("fish-counter", &["fish-counter.csv", "fish-counter-prices.csv"]),
    ("soup-binder", &["soup-binder.csv"]),
    ("taco-window", &["taco-window.csv", "taco-window-prices.csv"]),
    ("cake-cards", &["cake-cards.csv"]),
    ("bistro", &["bistro.csv"]),
    ("diner", &["diner.xlsx"]),
    ("smokehouse", &["smokehouse.xlsx"]),
    ("catering", &["catering.xlsx"]),
    ("bakery", &["bakery.xlsx"]),
    ("curry-house", &["curry-house.xlsx"]),
    ("church-supper", &["church-supper.xls"]),
    ("juice-bar", &["juice-bar.ods"]),
];

/// What two recipes of every book with prices cost by hand: `NAME.cost.md`, where every line is worked and rounded
/// to the cent. The onion soup with its stock at the stock's own card.
const COSTS: &[(&str, [(&str, &str); 2])] = &[
    ("fish-counter", [("SHRIMP ROLL", "31.38"), ("TARTAR", "12.21")]),
    ("taco-window", [("SALSA VERDE", "10.19"), ("CARNITAS", "43.02")]),
    ("bistro", [("Steak tartare", "4.45"), ("Onion soup / soupe à l'oignon", "21.03")]),
    ("diner", [("Pancake Batter", "11.65"), ("Mash", "24.20")]),
    ("smokehouse", [("Rub, house", "18.98"), ("Pulled Pork", "101.00")]),
    ("bakery", [("PASTRY CREAM", "7.81"), ("SWEET DOUGH", "4.44")]),
    ("curry-house", [("Base Gravy", "25.16"), ("Raita", "11.09")]),
    ("juice-bar", [("Green Juice", "8.05"), ("Ginger Shot", "15.92")]),
];

/// The second round: what the messages of the first ask for, in a table beside the book, and the recipes cost what
/// they do by hand.
#[test]
fn a_table_beside_the_book_answers_the_first_round() {
    let mut wrong = Vec::new();
    for (book, recipes) in COSTS {
        let (_, files) = BOOKS.iter().find(|(name, _)| name == book).unwrap();
        let fill_in = format!("{book}.fill-in.csv");
        let files: Vec<&str> = files.iter().copied().chain([fill_in.as_str()]).collect();
        let reading = reading(&files);
        let costing = parings::cost(&reading.kitchen, &parings::Scenario::of(&reading.kitchen));
        let json = crate::support::json_of(&reading, &costing);
        for (name, total) in recipes {
            let recipe = json["recipes"].as_array().unwrap().iter().find(|recipe| recipe["name"] == *name).unwrap();
            let lines = recipe["lines"].as_array().unwrap().len();
            let cost = recipe["food_cost"].as_str().and_then(|cost| cost.parse::<Decimal>().ok());
            let by_hand: Decimal = total.parse().unwrap();
            // By hand every line is rounded to the cent, so each may be half a cent off.
            let within = Decimal::new(5, 3) * Decimal::from(lines);
            if cost.is_none_or(|cost| (cost - by_hand).abs() > within) {
                let told = reading.problems_with(&costing);
                let told: Vec<String> = told
                    .iter()
                    .filter(|one| one.severity() == parings::problem::Severity::Error)
                    .map(|one| format!("  {} {}", one.place, one.message()))
                    .collect();
                wrong.push(format!("{book} {name}: {cost:?}, by hand {by_hand}\n{}", told.join("\n")));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The first round, as a cook meets it: every recipe is found, every line read, and what is asked is a name, a
/// measure or a question. Sheets of prices without headings of ours are the only ones not read.
#[test]
fn the_first_round_asks_for_names_measures_and_answers() {
    let asked = [
        "name-unknown",
        "measure-missing",
        "measure-ambiguous",
        "line-unclear",
        "cell-is-a-date",
        "unit-unknown",
        "pack-not-understood",
        "recipe-loop",
        "yield-unknown",
        "prices-not-comparable",
    ];
    let mut stories = Vec::new();
    for (book, files) in BOOKS {
        let reading = reading(files);
        let costing = parings::cost(&reading.kitchen, &parings::Scenario::of(&reading.kitchen));
        let mut codes: std::collections::BTreeMap<&str, usize> = std::collections::BTreeMap::new();
        let not_read: Vec<String> = reading
            .problems_with(&costing)
            .iter()
            .filter(|problem| {
                if problem.severity() == parings::problem::Severity::Error {
                    *codes.entry(problem.code.name()).or_default() += 1;
                    assert!(asked.contains(&problem.code.name()), "{book}: {} {}", problem.place, problem.message());
                }
                problem.code.name() == "sheet-not-read"
            })
            .map(|problem| problem.place.sheet_name().to_owned())
            .collect();
        let recipes = expected(book).iter().filter(|row| row.is_recipe).count();
        assert_eq!(reading.kitchen.entries.recipes.len(), recipes, "{book}");
        let prices = ["what we pay", "prices"];
        assert!(not_read.iter().all(|sheet| prices.contains(&sheet.as_str())), "{book}: {not_read:?}");
        let codes: Vec<String> = codes.iter().map(|(code, many)| format!("{many} {code}")).collect();
        stories.push(format!("{book}: {}", codes.join(", ")));
    }
    assert_eq!(stories, FIRST_ROUND);
}

/// The errors of the first round of every book.
const FIRST_ROUND: [&str; 12] = [
    "fish-counter: 2 line-unclear, 9 measure-missing, 15 name-unknown",
    "soup-binder: 2 line-unclear, 34 name-unknown",
    "taco-window: 12 measure-missing, 4 name-unknown, 2 pack-not-understood",
    "cake-cards: 3 line-unclear, 30 name-unknown",
    "bistro: 23 name-unknown",
    "diner: 4 measure-missing, 24 name-unknown",
    "smokehouse: 1 line-unclear, 22 name-unknown",
    "catering: 48 name-unknown, 1 recipe-loop, 1 unit-unknown",
    "bakery: 13 name-unknown, 1 pack-not-understood",
    "curry-house: 1 line-unclear, 35 name-unknown",
    "church-supper: 1 cell-is-a-date, 3 line-unclear, 29 name-unknown, 1 unit-unknown",
    "juice-bar: 2 line-unclear, 21 name-unknown",
];

/// The costed workbook, and the book written as typed, have cards of ours, and read back to the same figures.
#[test]
fn a_loose_book_is_the_same_book_when_costed_and_when_written() {
    let mut differ = Vec::new();
    for (book, files) in BOOKS {
        let fill_in = format!("{book}.fill-in.csv");
        let has_answers = COSTS.iter().any(|(name, _)| name == book);
        let files: Vec<&str> = files.iter().copied().chain(has_answers.then_some(fill_in.as_str())).collect();
        let read: Vec<(&str, Vec<u8>)> =
            files.iter().map(|file| (*file, std::fs::read(folder().join(file)).unwrap())).collect();
        let sources: Vec<(&str, &[u8])> = read.iter().map(|(name, bytes)| (*name, bytes.as_slice())).collect();
        let (reading, costing) = crate::support::cost_bytes(&sources);
        let first = crate::support::json_of(&reading, &costing);
        let costed = parings::write(&reading, &costing, crate::workbook::STAMP).unwrap();
        let typed = parings::write_book(&reading, crate::workbook::STAMP).unwrap();
        for (way, bytes) in [("costed", costed), ("as typed", typed)] {
            let (again, costing_again) = crate::support::cost_bytes(&[("book.xlsx", &bytes)]);
            let second = crate::support::json_of(&again, &costing_again);
            for list in ["dishes", "recipes", "tests"] {
                if first[list] != second[list] {
                    differ.push(format!("{book}, {way}: {list}"));
                }
            }
            // Nothing of ours is recognised by loose signs.
            let loose = again.problems.iter().any(|problem| problem.code.name() == "card-assumed");
            if loose || again.sheets.iter().all(|sheet| sheet.tables.is_empty()) {
                differ.push(format!("{book}, {way}: not a book of ours"));
            }
        }
    }
    assert!(differ.is_empty(), "{}", differ.join("\n"));
}

#[test]
fn twelve_books_line_by_line() {
    let (mut all, mut wrongs, mut silent) = (0, Vec::new(), Vec::new());
    for (book, files) in BOOKS {
        let reading = reading(files);
        let rows = expected(book);
        all += rows.len();
        let mut here = 0;
        for row in &rows {
            let known = |(name, cell, _): &(&str, &str, &str)| *name == *book && *cell == row.cell;
            if OTHERWISE.iter().any(known) {
                continue;
            }
            if let Some((story, is_silent)) = wrong(&reading, row) {
                here += 1;
                if is_silent {
                    silent.push(format!("{book} {story}"));
                }
                wrongs.push(format!("{book} {story}"));
            }
        }
        println!("{book}: {here} of {} wrong", rows.len());
    }
    assert_eq!(all, 516);
    assert!(silent.is_empty(), "silently wrong:\n{}", silent.join("\n"));
    assert!(wrongs.is_empty(), "{} of {all} wrong:\n{}", wrongs.len(), wrongs.join("\n"));
}

/// Cells of loose books: names, yields, headings, lines, amounts and rubbish.
const CELLS: &[&str] = &[
    "",
    "",
    "Leek soup",
    "Stock, house",
    "Serves 4",
    "Makes 2 gal",
    "1 kg / 2 loaves",
    "12 x 350 ml",
    "Item",
    "Qty",
    "Unit",
    "g",
    "2 lb leeks, sliced",
    "leeks",
    "2-3 lb",
    "2 cans (14 oz)",
    "juice of 2",
    "to taste",
    "½",
    "1,5",
    "lb",
    "For the top:",
    "TOTAL",
    "1. Simmer.",
    "5 flour",
    "half & half (1 qt), or 2 pt",
    "?",
    "$3.00",
];

proptest::proptest! {
    #![proptest_config(crate::support::chance(16))]

    /// Whatever stands on the sheet, it is read without a panic, and what is written is the same book.
    #[test]
    fn loose_books_of_chance_are_the_same_book_when_costed(
        rows in proptest::collection::vec(proptest::collection::vec(0..CELLS.len(), 1..5), 2..14)
    ) {
        let line = |row: &Vec<usize>| {
            row.iter().map(|at| format!("\"{}\"", CELLS[*at])).collect::<Vec<_>>().join(",")
        };
        let book = rows.iter().map(line).collect::<Vec<_>>().join("\n");
        let (first, once) = crate::faults::chance::through("book.csv", book.as_bytes())?;
        let (second, _) = crate::faults::chance::through("book.costed.xlsx", &once)?;
        for list in ["dishes", "recipes", "tests"] {
            proptest::prop_assert_eq!(&first[list], &second[list], "{}\n{}", list, book);
        }
    }
}

/// A cook's line that its comma parted over two cells is one line: 4 oz at 3.20 a pound are 0.80; leeks are 2.00 a pound.
#[test]
fn a_line_that_its_comma_parted_is_read_whole() {
    let soup = "Leek soup\nServes 4\n2 lb leeks, sliced\n1 lb leeks, peeled\n1 lb leeks, diced\nbutter, 4 oz\n";
    let prices = "Item,Pack,Price\nLeeks,10 lb,20.00\nButter,1 lb,3.20\n";
    let json = crate::support::cost_json(&[("soup.csv", soup), ("prices.csv", prices)]);
    let lines = json["recipes"][0]["lines"].as_array().unwrap();
    let told: Vec<(&str, &str)> =
        lines.iter().map(|line| (line["qty"].as_str().unwrap(), line["cost"].as_str().unwrap())).collect();
    assert_eq!(told, [("2", "4"), ("1", "2"), ("1", "2"), ("4", "0.8")]);
}
