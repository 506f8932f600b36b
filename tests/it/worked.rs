//! Worked examples: every `tests/worked/*.md` is read, its books are costed, and what it expects is compared.
//!
//! Takes Markdown alone, so that a teacher adds an example without a line of Rust; `tests/worked/README.md` says how.

mod example;
mod figures;

use std::path::{Path, PathBuf};

use example::{Case, Example, Row};
use figures::{FIGURES, Outcome};

use crate::recalc::{Value, recalculated};
use crate::support::at_length;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/worked")
}

/// Every example: how failures name the file, and what it says.
fn examples() -> Vec<(String, String)> {
    let files = std::fs::read_dir(folder()).unwrap().map(|entry| entry.unwrap().path());
    let mut files: Vec<PathBuf> = files
        .filter(|path| path.extension().is_some_and(|extension| extension == "md") && !path.ends_with("README.md"))
        .collect();
    files.sort();
    let name = |path: &Path| format!("tests/worked/{}", path.file_name().unwrap().to_string_lossy());
    files.iter().map(|path| (name(path), std::fs::read_to_string(path).unwrap())).collect()
}

/// Everything in which an example does not come out, each naming its file and line.
fn wrong(file: &str, text: &str) -> Vec<String> {
    let example = match Example::read(text) {
        Ok(example) => example,
        Err((line, message)) => return vec![format!("{file}:{line}: {message}")],
    };
    example.cases.iter().flat_map(|case| wrong_in(file, case)).collect()
}

fn wrong_in(file: &str, case: &Case) -> Vec<String> {
    let outcome = Outcome::of(&case.book);
    let unlooked_for = outcome.errors_beside(&case.expected);
    let unlooked_for = unlooked_for.map(|error| format!("{file}:{}: the book has an error: {error}", case.line));
    let rows = case.expected.iter().filter_map(|row| {
        let said = outcome.compare(row).err()?;
        Some(format!("{file}:{}: {} “{}”, {}: {said}", row.line, row.of, row.name, row.figure))
    });
    unlooked_for.chain(rows).collect()
}

#[test]
fn every_worked_example_comes_out() {
    let examples = examples();
    assert!(!examples.is_empty(), "there is no example in {}", folder().display());
    let wrong: Vec<String> = examples.iter().flat_map(|(file, text)| wrong(file, text)).collect();
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

/// Every expectation of every example is one that can fail.
#[test]
fn every_expectation_notices_another_figure() {
    for (file, text) in examples() {
        for case in Example::read(&text).unwrap().cases {
            let outcome = Outcome::of(&case.book);
            for row in &case.expected {
                let planted = Row { expected: another(&row.expected), ..row.clone() };
                assert!(outcome.compare(&planted).is_err(), "{file}:{}: {} passes", row.line, planted.expected);
            }
        }
    }
}

/// A figure that differs by one in its last digit, or another word.
fn another(expected: &str) -> String {
    let number = expected.strip_prefix("exactly ").unwrap_or(expected);
    let Ok(number) = number.parse::<rust_decimal::Decimal>() else {
        return if expected == "not known" { "1".to_owned() } else { format!("{expected} or so") };
    };
    let digit = rust_decimal::Decimal::new(1, number.scale());
    let planted = (number + digit).to_string();
    if expected.starts_with("exactly ") { format!("exactly {planted}") } else { planted }
}

/// What an independent spreadsheet engine finds in the costed workbooks; with the long checks only.
#[test]
fn every_formula_of_every_worked_example_recalculates() {
    if !at_length() {
        return;
    }
    for (file, text) in examples() {
        for case in Example::read(&text).unwrap().cases {
            let cells = recalculated(&Outcome::of(&case.book).workbook());
            let number = |value: &Value| if let Value::Number(number) = value { number.abs() } else { 0.0 };
            let largest = cells.iter().map(|cell| number(&cell.stored)).fold(0.0, f64::max);
            // A float holds sixteen digits (IEEE 754): between tens of millions of grams the ninth decimal of a difference
            // is none. Spreadsheet programs show nought there.
            let speck = largest * 1e-15;
            for cell in cells {
                let is_speck = match (&cell.stored, &cell.fresh) {
                    (Value::Number(stored), Value::Number(fresh)) => (stored - fresh).abs() <= speck,
                    _ => false,
                };
                assert!(is_speck || cell.stored.agrees(&cell.fresh), "{file}: {cell}");
            }
        }
    }
}

/// 10 lb at 2.00 are 20.00; 8 lb of them are used: 2.50 a pound.
const RIGHT: &str = "\
# Carrots

Source: ours.

## Book

| Item | Pack | Price |
| --- | --- | --- |
| Carrots | 10 lb | 20.00 |

```csv
Test,Role,Part,Weight
Peeling,as purchased,Carrots,10 lb
Peeling,main,Peeled carrots,8 lb
```

## Expected

| Of | Name | Figure | Expected | Arithmetic |
| --- | --- | --- | --- | --- |
| part | Peeled carrots | cost per lb | 2.50 | 20.00 ÷ 8 |
| part | Peeling > Peeled carrots | yield % | exactly 80 | 8 ÷ 10 |
| part | Peeled carrots | role | main | |
";

#[test]
fn a_right_example_comes_out() {
    assert_eq!(wrong("a.md", RIGHT), [""; 0]);
}

#[test]
fn a_wrong_figure_is_noticed() {
    let planted = RIGHT.replace("| 2.50 |", "| 2.51 |").replace("exactly 80", "exactly 80.1");
    assert_eq!(
        wrong("a.md", &planted),
        [
            "a.md:21: part “Peeled carrots”, cost per lb: expected 2.51, it is 2.50",
            "a.md:22: part “Peeling > Peeled carrots”, yield %: expected exactly 80.1, it is 80"
        ]
    );
    let word = RIGHT.replace("| main | |", "| by-product | |");
    assert_eq!(wrong("a.md", &word), ["a.md:23: part “Peeled carrots”, role: expected by-product, it is main"]);
    let nothing = RIGHT.replace("| 2.50 |", "| not known |");
    assert_eq!(wrong("a.md", &nothing), ["a.md:21: part “Peeled carrots”, cost per lb: expected not known, it is 2.5"]);
}

#[test]
fn what_is_misspelt_is_noticed() {
    for (typed, instead, said) in [
        (
            "| cost per lb |",
            "| cost pre lb |",
            "a.md:21: part “Peeled carrots”, cost pre lb: a part has no figure “cost pre lb”; it has yield %, ",
        ),
        (
            "| part | Peeled carrots | cost",
            "| prat | Peeled carrots | cost",
            "a.md:21: prat “Peeled carrots”, cost per lb: “prat” is none of recipe, ",
        ),
        (
            "| part | Peeled carrots | cost",
            "| part | Peeled parrots | cost",
            "a.md:21: part “Peeled parrots”, cost per lb: there is no part “Peeled parrots”; there are “Peeled carrots”",
        ),
        ("| 2.50 |", "| 2,50 |", "a.md:21: part “Peeled carrots”, cost per lb: expected 2,50, it is 2.5"),
        ("| 2.50 | 20.00 ÷ 8 |", "| 2.50 | |", "a.md:21: 2.50 needs its arithmetic in the last column"),
        ("| 2.50 | 20.00 ÷ 8 |", "| | 20.00 ÷ 8 |", "a.md:21: nothing is expected here"),
        ("| 2.50 | 20.00 ÷ 8 |", "| 2.50 |", "a.md:21: a row here has 5 cells: Of, Name, Figure, Expected, Arithmetic"),
        (
            "| Figure |",
            "| Figures |",
            "a.md:19: the table of what is expected has the columns Of, Name, Figure, Expected, Arithmetic",
        ),
        (
            "## Expected",
            "## Expectations",
            "a.md:17: “Expectations” is no heading of an example: it has Book, More and Expected",
        ),
        (
            "Source: ours.",
            "From us.",
            "a.md:1: the example does not say where it is from: a line begins with “Source:”",
        ),
        ("# Carrots", "Carrots", "a.md:1: the first line is the title, behind a “#”"),
        ("```csv", "```", "a.md:11: what stands in such a block is csv: open it with ```csv"),
        ("| Carrots | 10 lb |", "| Parrots | 10 lb |", "a.md:5: the book has an error: name-unknown at "),
        ("## Book", "## More", "a.md:5: there is no book yet to add to"),
    ] {
        assert!(RIGHT.contains(typed), "{typed}");
        let found = wrong("a.md", &RIGHT.replacen(typed, instead, 1));
        assert!(found.first().is_some_and(|found| found.starts_with(said)), "{instead}\n{found:#?}\n{said}");
    }
    let ends = RIGHT.split("## Expected").next().unwrap();
    assert_eq!(wrong("a.md", ends), ["a.md:5: nothing is expected of this book"]);
}

/// An error that is expected must be met, and stops no other check.
#[test]
fn an_expected_error_is_met() {
    let book = RIGHT.replace("10 lb | 20.00", "1/2 lb | 20.00");
    let met = "| problem | pack-is-a-fraction | severity | error | |\n";
    let rows = "| part | Peeled carrots | cost per lb | not known | |\n";
    let head = book.split("| part |").next().unwrap();
    assert_eq!(wrong("a.md", &format!("{head}{met}{rows}")), [""; 0]);
    let found = wrong("a.md", &format!("{head}{rows}"));
    assert!(found[0].starts_with("a.md:5: the book has an error: pack-is-a-fraction at "), "{found:?}");
    let none = format!("{RIGHT}{met}");
    let found = wrong("a.md", &none);
    let said = "a.md:24: problem “pack-is-a-fraction”, severity: there is no problem “pack-is-a-fraction”";
    assert!(found.len() == 1 && found[0].starts_with(said), "{found:?}");
}

#[test]
fn the_guide_names_every_figure() {
    let guide = std::fs::read_to_string(folder().join("README.md")).unwrap();
    let (_, list) = guide.split_once("| Of | Figures |").unwrap();
    for (of, figures) in FIGURES {
        let row = list.lines().find(|line| line.starts_with(&format!("| {of} |")));
        let named: Vec<&str> = row.unwrap_or_else(|| panic!("no row of {of}")).split('`').skip(1).step_by(2).collect();
        assert_eq!(named, figures.iter().map(|figure| figure.name).collect::<Vec<_>>(), "{of}");
    }
}
