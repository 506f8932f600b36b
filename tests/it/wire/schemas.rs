//! The published schemas: what the types give, as the design has it, met by everything that is printed, and not by what
//! should not be. The validator is independent of the maker.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::sync::LazyLock;

use jsonschema::Validator;
use parings::analysis::trim::worth_sweeping;
use parings::analysis::why::Subject;
use parings::analysis::{Trim, Why};
use parings::output::{json, schemas};
use parings::problem::explanation;
use parings::results::why;
use parings::{Costing, Reading};
use rust_decimal::Decimal;
use serde_json::{Value, json};

use crate::cli::{BOOK, BROKEN, Folder};
use crate::contract::{BOOK as PROMISED_BOOK, PROMISED, PROMISED_OF_TRIM};
use crate::support::cost_bytes;
use crate::workbook::TEACHING_KITCHEN;

fn folder() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src/output/schemas")
}

/// The committed schemas by name.
static SCHEMAS: LazyLock<BTreeMap<String, Value>> = LazyLock::new(|| {
    let files = fs::read_dir(folder()).unwrap().map(|entry| entry.unwrap().path());
    files
        .map(|path| {
            let name = path.file_name().unwrap().to_str().unwrap().strip_suffix(".schema.json").unwrap().to_owned();
            (name, serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap())
        })
        .collect()
});

static VALIDATORS: LazyLock<BTreeMap<&str, Validator>> = LazyLock::new(|| {
    SCHEMAS.iter().map(|(name, schema)| (name.as_str(), jsonschema::validator_for(schema).unwrap())).collect()
});

/// What is wrong with a JSON by the schema of that name.
pub fn wrong(name: &str, json: &Value) -> Vec<String> {
    VALIDATORS[name].iter_errors(json).map(|error| format!("{}: {error}", error.instance_path())).collect()
}

/// Asserts that a JSON is as the schema of that name says.
#[track_caller]
pub fn meets(name: &str, json: &Value) {
    let wrong = wrong(name, json);
    assert!(wrong.is_empty(), "{name}: {wrong:#?}");
}

/// So many of the dishes, recipes, parts and items of a book are asked about.
const SOME: usize = 8;

/// Asserts that everything that is printed of a book is as the schemas say.
#[track_caller]
pub fn all_met(reading: &Reading, costing: &Costing) {
    let problems = reading.problems_with(costing);
    let kitchen = &reading.kitchen;
    let swept: Vec<_> = worth_sweeping(kitchen, costing).take(1).collect();
    let trim = Trim::of(kitchen, costing, &swept, Decimal::new(25, 2));
    for (name, text) in [
        ("cost", json::costing(kitchen, costing, &problems)),
        ("check", json::found(costing.scenario.date, &reading.sheets, &problems)),
        ("trim", json::trim(kitchen, costing, &trim, &problems)),
    ] {
        meets(name, &serde_json::from_str(&text).unwrap());
    }
    // Of everything that can be asked about some are looked at, of every kind.
    let subjects = Subject::all(kitchen);
    let every = (subjects.len() / SOME).max(1);
    for subject in subjects.into_iter().step_by(every) {
        let behind = Why::of(kitchen, costing, subject, None);
        let text = json::why(&why::why(kitchen, costing, &behind, &problems));
        meets("why", &serde_json::from_str(&text).unwrap());
    }
}

#[test]
fn the_committed_schemas_are_what_the_types_give() {
    let made = schemas::all();
    assert_eq!(SCHEMAS.len(), made.len());
    for (name, text) in made {
        let committed = fs::read_to_string(folder().join(format!("{name}.schema.json"))).unwrap();
        assert!(committed == text, "run `cargo run --example make-schemas`: {name} differs");
    }
}

#[test]
fn the_schemas_are_schemas() {
    let page = crate::docs::pages::read("docs/programs/json.md");
    for (name, schema) in SCHEMAS.iter() {
        assert!(page.contains(&format!("(../../src/output/schemas/{name}.schema.json)")), "{name}: not on the page");
        assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema", "{name}");
        assert!(jsonschema::meta::is_valid(schema), "{name}");
    }
}

/// The schema of what stands at a pointer into a JSON.
fn of<'a>(root: &'a Value, pointer: &str) -> &'a Value {
    let follow = |at: &'a Value| {
        let mut at = at;
        loop {
            let not_null = at["anyOf"].as_array().and_then(|all| all.iter().find(|one| one["type"] != "null"));
            let named = at["$ref"].as_str().map(|name| root.pointer(name.strip_prefix('#').unwrap()).unwrap());
            match not_null.or(named) {
                Some(next) => at = next,
                None => break at,
            }
        }
    };
    pointer
        .split('/')
        .skip(1)
        .fold(root, |at, step| follow(if step == "0" { &at["items"] } else { &at["properties"][step] }))
}

/// Every object has the keys of the design and no others, all of them required and described.
#[test]
fn every_key_of_the_design_is_required_and_described() {
    for (name, promised) in [("cost", PROMISED), ("trim", PROMISED_OF_TRIM)] {
        for (at, keys) in promised {
            let schema = of(&SCHEMAS[name], at);
            let properties: Vec<&str> = schema["properties"]
                .as_object()
                .unwrap_or_else(|| panic!("{name}{at}"))
                .keys()
                .map(String::as_str)
                .collect();
            assert_eq!(properties, *keys, "{name}{at}");
            assert_eq!(schema["required"], json!(keys), "{name}{at}");
        }
    }
    for (name, schema) in SCHEMAS.iter() {
        let mut objects = 0;
        for object in std::iter::once(schema).chain(schema["$defs"].as_object().unwrap().values()) {
            assert!(object["description"].is_string(), "{name}: {object}");
            let Some(properties) = object["properties"].as_object() else { continue };
            objects += 1;
            assert_eq!(object["additionalProperties"], false, "{name}: {object}");
            assert_eq!(object["required"].as_array().unwrap().len(), properties.len(), "{name}: {object}");
            for (key, property) in properties {
                assert!(property["description"].as_str().is_some_and(|text| text.ends_with('.')), "{name}: {key}");
            }
        }
        assert!(objects > 1, "{name}");
    }
}

/// The closed lists are those of the design.
#[test]
fn the_words_are_those_of_the_design() {
    for (list, words) in [
        ("Source", json!(["bought", "fabricated", "made"])),
        ("Basis", json!(["EP", "AP"])),
        ("BaseUnit", json!(["g", "ml", "each"])),
        ("YieldFrom", json!(["line", "test", "price row", "piece", "reference", "none"])),
        ("MeasureFrom", json!(["same kind", "measures", "pack", "reference"])),
        ("Role", json!(["main", "by-product", "waste"])),
        ("Severity", json!(["error", "warning", "note"])),
    ] {
        assert_eq!(SCHEMAS["cost"]["$defs"][list]["enum"], words, "{list}");
    }
}

#[test]
fn every_sample_and_template_meets_the_schemas() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut books = vec![vec!["sample-books/metric-kitchen-prices.csv", "sample-books/metric-kitchen.xlsx"]];
    books.push(vec!["sample-books/messy-kitchen-supplier.xlsx", "sample-books/messy-kitchen-recipes.xlsx"]);
    let alone = ["us", "us-plain", "us-bench", "metric", "metric-plain", "metric-bench"]
        .map(|name| format!("templates/{name}.xlsx"));
    books.extend(alone.iter().map(|name| vec![name.as_str()]));
    books.push(vec!["sample-books/teaching-kitchen.xlsx"]);
    for files in books {
        let read: Vec<(&str, Vec<u8>)> = files.iter().map(|file| (*file, fs::read(root.join(file)).unwrap())).collect();
        let read: Vec<(&str, &[u8])> = read.iter().map(|(file, bytes)| (*file, bytes.as_slice())).collect();
        let (reading, costing) = cost_bytes(&read);
        all_met(&reading, &costing);
    }
}

/// Each of them has a problem of its own code, and many stop a recipe.
#[test]
fn the_example_of_every_code_meets_the_schemas() {
    for one in explanation::explanations() {
        for book in [&one.example, &one.instead] {
            let (reading, costing) = cost_bytes(&[("book.csv", book.as_bytes())]);
            all_met(&reading, &costing);
        }
    }
}

/// Two suppliers' new lists for the teaching kitchen.
const FERNHOLLOW: &str = "teaching-kitchen-fernhollow.csv";
const OXBARROW: &str = "teaching-kitchen-oxbarrow.xlsx";

fn samples() -> std::path::PathBuf {
    std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-books")
}

#[test]
fn what_the_program_prints_meets_the_schemas() {
    let folder = Folder::with("book.csv", format!("{BOOK}{BROKEN}"));
    folder.put("kitchen.xlsx", TEACHING_KITCHEN);
    let lists = [FERNHOLLOW, OXBARROW];
    folder.put(lists[0], fs::read(samples().join(lists[0])).unwrap());
    folder.put(lists[1], fs::read(samples().join(lists[1])).unwrap());
    let runs: [(&str, &[&str]); 19] = [
        ("cost", &["cost", "book.csv"]),
        ("cost", &["kitchen.xlsx", "--as-of", "2026-10-01"]),
        ("check", &["check", "book.csv"]),
        ("check", &["check", "kitchen.xlsx"]),
        ("trim", &["trim", "kitchen.xlsx"]),
        ("trim", &["trim", "kitchen.xlsx", "--vary", "Shrimp shells", "--step", "5%"]),
        ("reprice", &["reprice", "kitchen.xlsx", "--prices", FERNHOLLOW]),
        (
            "reprice",
            &[
                "reprice",
                "kitchen.xlsx",
                "--prices",
                OXBARROW,
                "--column",
                "code=Prod #",
                "--column",
                "item=Description of goods",
                "--column",
                "pack=Pk/Sz",
                "--column",
                "price=Net amt USD",
            ],
        ),
        ("mix", &["mix", "kitchen.xlsx"]),
        ("buy", &["buy", "kitchen.xlsx"]),
        ("control", &["control", "kitchen.xlsx"]),
        ("why", &["why", "kitchen.xlsx", "Smoky shrimp soup, cup"]),
        ("why", &["why", "book.csv", "Saffron bun", "saffron"]),
        ("scale", &["scale", "kitchen.xlsx", "Duck and barley soup", "--to", "60", "--with-sub-recipes"]),
        ("scale", &["scale", "kitchen.xlsx", "Shrimp shell stock", "--from", "3 lb Shrimp shells"]),
        ("explain", &["explain"]),
        ("food", &["food", "leek"]),
        ("food", &["food", "chicken"]),
        ("food-for", &["food", "--for", "kitchen.xlsx"]),
    ];
    for (name, args) in runs {
        let ran = folder.run(&[args, &["--format", "json"]].concat());
        assert!(ran.code < 2, "{ran:#?}");
        meets(name, &serde_json::from_str(&ran.out).unwrap_or_else(|error| panic!("{args:?}: {error}")));
    }
    let printed = runs.map(|(name, _)| name);
    assert!(SCHEMAS.keys().all(|name| printed.contains(&name.as_str())), "a schema that no run is held against");
}

/// A validator that lets everything pass would prove nothing.
#[test]
fn what_is_planted_wrong_is_refused() {
    let (reading, costing) = cost_bytes(&[("soup.csv", PROMISED_BOOK.as_bytes())]);
    let text = json::costing(&reading.kitchen, &costing, &reading.problems_with(&costing));
    let sound: Value = serde_json::from_str(&text).unwrap();
    meets("cost", &sound);
    let cost = "/recipes/0/lines/0/cost";
    for (at, planted) in [
        // A number is none that was rounded on the way: it is a string.
        (cost, json!(0.6)),
        (cost, json!("6e-1")),
        (cost, json!("6E-1")),
        (cost, json!("0.60")),
        (cost, json!("-0")),
        (cost, json!("+0.6")),
        (cost, json!("0,6")),
        (cost, json!(".6")),
        (cost, json!("00.6")),
        (cost, json!("1,000")),
        (cost, json!("1.")),
        (cost, json!("")),
        (cost, json!("NaN")),
        (cost, json!(true)),
        ("/recipes/0/lines/0/source", json!("stolen")),
        ("/recipes/0/lines/0/basis", json!("ep")),
        ("/recipes/0/lines/0/basis", Value::Null),
        ("/recipes/0/lines/0/base_unit", json!("kg")),
        ("/recipes/0/lines/0/yield_from", json!("guess")),
        ("/recipes/0/lines/0/measure_from", json!("guess")),
        ("/recipes/0/name", Value::Null),
        ("/recipes/0/uncosted_lines", json!("1")),
        ("/recipes/0/uncosted_lines", json!(-1)),
        ("/recipes/0/allergens", Value::Null),
        ("/tests/0/parts/0/role", json!("as purchased")),
        ("/tests/0/parts/0/weight_g", Value::Null),
        ("/tests/0/runs", json!("1")),
        ("/problems/0/severity", json!("fatal")),
        ("/problems/0/code", json!("no-such-code")),
        ("/problems/0/cell", json!("14C")),
        ("/as_of", json!("20 November 2026")),
        ("/format", json!(2)),
        ("/format", json!("1")),
        ("/dishes", json!({})),
    ] {
        let mut json = sound.clone();
        *json.pointer_mut(at).unwrap_or_else(|| panic!("nothing at {at}")) = planted.clone();
        let wrong = wrong("cost", &json);
        assert!(wrong.iter().any(|error| error.starts_with(at)), "{at} may be {planted}: {wrong:?}");
    }
    for at in
        ["", "/dishes/0", "/dishes/0/portion", "/recipes/0", "/recipes/0/lines/0", "/tests/0/parts/0", "/problems/0"]
    {
        let mut json = sound.clone();
        let object = json.pointer_mut(at).unwrap().as_object_mut().unwrap();
        object.insert("extra".to_owned(), Value::Null);
        assert!(!wrong("cost", &json).is_empty(), "an unknown key at {at}");
        let object = json.pointer_mut(at).unwrap().as_object_mut().unwrap();
        object.remove("extra");
        let (first, _) = object.iter().next().map(|(key, value)| (key.clone(), value.clone())).unwrap();
        object.remove(&first);
        assert!(!wrong("cost", &json).is_empty(), "no {first} at {at}");
    }
    // Plain decimals of every form pass.
    for figure in ["0", "7", "-7", "10", "0.5", "-0.0625", "100.001", "-0.0000000000000000000000000001"] {
        let mut json = sound.clone();
        json["recipes"][0]["lines"][0]["cost"] = json!(figure);
        meets("cost", &json);
    }
}
