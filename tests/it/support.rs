//! Books written as csv text, costed through the tool's own reading, and their JSON taken apart.

use jiff::civil::date;
use parings::{Costing, Options, Reading, Scenario, Source, cost, read};
use proptest::test_runner::{Config as ProptestConfig, RngSeed};
use rust_decimal::{Decimal, RoundingStrategy};
use serde_json::Value;

/// The day on which the tests cost, unless a book says otherwise.
pub fn options() -> Options {
    Options::on(date(2026, 11, 20))
}

/// Whether the long checks run as well: `PARINGS_LONG=1`, which is asked for before every release (`.ci/run --long`).
pub fn at_length() -> bool {
    std::env::var_os("PARINGS_LONG").is_some_and(|asked| !asked.is_empty() && asked != "0")
}

/// How many times as many cases the long checks try.
const LONGER: u32 = 32;

/// How property tests run: the same cases every time, so that a change is judged by what it changes, and thirty-two times
/// as many with the long checks; as many and other ones when `PROPTEST_CASES` or `PROPTEST_RNG_SEED` asks for them.
pub fn chance(cases: u32) -> ProptestConfig {
    let asked = |name| std::env::var_os(name).is_some();
    let config = ProptestConfig { failure_persistence: None, max_shrink_iters: 200_000, ..ProptestConfig::default() };
    if asked("PROPTEST_CASES") || asked("PROPTEST_RNG_SEED") {
        return config;
    }
    let cases = if at_length() { cases * LONGER } else { cases };
    ProptestConfig { cases, rng_seed: RngSeed::Fixed(20_261_125), ..config }
}

/// Of many equal checks those that run: one in so many, spread evenly, or all of them with the long checks. It begins at
/// another one whenever `tried`, what the checks are made on, is of another length: so that in time each has its turn, and
/// the same code is judged by the same checks.
pub fn one_in_by_turns(every: usize, tried: &[u8]) -> impl Fn(usize) -> bool {
    let turn = tried.len();
    move |at| at_length() || (at + turn).is_multiple_of(every)
}

/// Whether it is the turn of a book for what is dear and the same for every book, such as another engine's recalculation:
/// one book in so many, told by its bytes, in turns that go round with the change log. All with the long checks, and where
/// workbooks are kept for another engine.
pub fn is_its_turn(every: usize, book: &[u8]) -> bool {
    let at = book.iter().map(|byte| usize::from(*byte)).sum();
    crate::recalc::keeps() || one_in_by_turns(every, include_bytes!("../../CHANGELOG.md"))(at)
}

/// Reads and costs files given as bytes.
#[track_caller]
pub fn cost_bytes(files: &[(&str, &[u8])]) -> (Reading, Costing) {
    let sources: Vec<Source<'_>> = files.iter().map(|(name, bytes)| Source { name, bytes }).collect();
    let reading = read(&sources, options()).unwrap_or_else(|error| panic!("{error}"));
    let costing = cost(&reading.kitchen, &Scenario::of(&reading.kitchen));
    (reading, costing)
}

/// The JSON of what was read and costed, which is as its schema says.
#[track_caller]
pub fn json_of(reading: &Reading, costing: &Costing) -> Value {
    let text = parings::output::json::costing(&reading.kitchen, costing, &reading.problems_with(costing));
    let json = serde_json::from_str(&text).unwrap();
    crate::wire::schemas::meets("cost", &json);
    json
}

/// The JSON of `cost --format json` for files of csv text.
#[track_caller]
pub fn cost_json(files: &[(&str, &str)]) -> Value {
    let files: Vec<(&str, &[u8])> = files.iter().map(|(name, text)| (*name, text.as_bytes())).collect();
    cost_bytes_json(&files)
}

/// The JSON of `cost --format json` for files of any kind.
#[track_caller]
pub fn cost_bytes_json(files: &[(&str, &[u8])]) -> Value {
    let (reading, costing) = cost_bytes(files);
    json_of(&reading, &costing)
}

#[track_caller]
fn named<'a>(list: &'a Value, key: &str, name: &str) -> &'a Value {
    let all = list.as_array().unwrap_or_else(|| panic!("no list where “{name}” was looked for"));
    all.iter().find(|one| one[key] == name).unwrap_or_else(|| panic!("no “{name}” in {list:#}"))
}

/// The dish of this name.
#[track_caller]
pub fn dish<'a>(json: &'a Value, name: &str) -> &'a Value {
    named(&json["dishes"], "name", name)
}

/// The recipe of this name.
#[track_caller]
pub fn recipe<'a>(json: &'a Value, name: &str) -> &'a Value {
    named(&json["recipes"], "name", name)
}

/// The yield test of this name.
#[track_caller]
pub fn test<'a>(json: &'a Value, name: &str) -> &'a Value {
    named(&json["tests"], "name", name)
}

/// A part of a yield test.
#[track_caller]
pub fn part<'a>(json: &'a Value, test_name: &str, name: &str) -> &'a Value {
    named(&test(json, test_name)["parts"], "name", name)
}

/// A line of a recipe.
#[track_caller]
pub fn line<'a>(json: &'a Value, recipe_name: &str, item: &str) -> &'a Value {
    named(&recipe(json, recipe_name)["lines"], "item", item)
}

/// The decimal in a JSON string.
#[track_caller]
pub fn dec(value: &Value) -> Decimal {
    value.as_str().and_then(|text| text.parse().ok()).unwrap_or_else(|| panic!("{value} is no decimal"))
}

/// The decimal in a JSON string, rounded half up as books print it.
#[track_caller]
pub fn rounded(value: &Value, places: u32) -> Decimal {
    dec(value).round_dp_with_strategy(places, RoundingStrategy::MidpointAwayFromZero)
}

/// Asserts that a book has no error.
#[track_caller]
pub fn no_errors(json: &Value) {
    let errors: Vec<_> = json["problems"].as_array().unwrap().iter().filter(|p| p["severity"] == "error").collect();
    assert!(errors.is_empty(), "{errors:#?}");
}

/// The rows of a table kept beside the tests: a tab between columns; lines that begin with `# ` are remarks.
pub fn tsv(text: &str) -> Vec<Vec<&str>> {
    text.lines()
        .filter(|line| !line.is_empty() && !line.starts_with("# "))
        .map(|line| line.split('\t').collect())
        .collect()
}
