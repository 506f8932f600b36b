//! A cook who does what `check` says and nothing else: names under *Names*, what is bought under *Prices*, measures under
//! *Measures*, each as its message has it. Prices and weights are invented.

use std::collections::BTreeSet;

use parings::Reading;
use parings::problem::{Code, Problem};

use super::Sheets;

/// What is typed beside a book, a table to a kind.
#[derive(Default)]
pub struct Typed {
    prices: BTreeSet<String>,
    names: BTreeSet<String>,
    measures: BTreeSet<String>,
    /// What the kitchen's own lists name already, whether they are read or not.
    listed: BTreeSet<String>,
}

impl Typed {
    /// What is typed beside a book, which prices nothing that a sheet of prices in it names.
    pub fn beside(sheets: &Sheets) -> Typed {
        let of_prices = |name: &str| name.contains("price") || name == "what we pay";
        let lists = sheets.0.iter().filter(|(name, _)| of_prices(&name.to_lowercase()));
        let listed = lists.flat_map(|(_, rows)| rows).filter_map(|row| Some(bare(row.first()?))).collect();
        Typed { listed, ..Typed::default() }
    }

    /// Does what the messages say that speak of names and measures; whether anything was new.
    pub fn answer(&mut self, problems: &[Problem], reading: &Reading) -> bool {
        let before = self.rows();
        for problem in problems {
            match problem.code {
                Code::NameUnknown => self.name(problem, reading),
                Code::RecipeLoop => {
                    // Give “Pearl Couscous” a price row.
                    if let Some(name) = between(&problem.help.to_string(), "Give “", "” a price row") {
                        self.prices.insert(row(&[&name, "10 lb", "10.00"]));
                    }
                }
                Code::MeasureMissing => self.measure(&problem.help.to_string()),
                _ => {}
            }
        }
        self.rows() > before
    }

    fn rows(&self) -> usize {
        self.prices.len() + self.names.len() + self.measures.len()
    }

    /// Did you mean “garlic, peeled”? If “garlic” is your second name for it, type that … in a table Names.
    fn name(&mut self, problem: &Problem, reading: &Reading) {
        let name = between(&problem.message(), "“", "” has no price").unwrap();
        let near = between(&problem.help.to_string(), "Did you mean “", "”?");
        let bought = |near: &String| reading.kitchen.entries.prices.iter().any(|row| row.item == *near);
        match near.filter(bought) {
            Some(near) => self.names.insert(row(&[&near, &name])),
            None if self.listed.contains(&bare(&name)) => false,
            None => self.prices.insert(row(&[&name, "10 lb", "10.00"])),
        };
    }

    /// Add a Measures row: Item celery, Measure each, Weighs what one weighs, such as 4 oz. Or two of them.
    fn measure(&mut self, help: &str) {
        let mut rest = help;
        while let Some((_, row_of)) = rest.split_once("Item ") {
            let (item, behind) = row_of.split_once(", Measure ").unwrap_or_else(|| panic!("{help}"));
            let weighs = behind.find(", Weighs ").unwrap_or(behind.len());
            let holds = behind.find(", Holds ").unwrap_or(behind.len());
            let (measure, _) = behind.split_at(weighs.min(holds));
            let what = if weighs <= holds { ["4 oz", ""] } else { ["", "8 fl oz"] };
            self.measures.insert(row(&[item, measure, what[0], what[1]]));
            rest = behind;
        }
    }

    /// The file that is read beside the book.
    pub fn file(&self) -> (String, Vec<u8>) {
        let table = |header: &str, rows: &BTreeSet<String>| {
            if rows.is_empty() { String::new() } else { format!("{header}\n{}\n\n", join(rows)) }
        };
        let text = table("Item,Pack,Price", &self.prices)
            + &table("Item,Also called", &self.names)
            + &table("Item,Measure,Weighs,Holds", &self.measures);
        ("typed.csv".to_owned(), text.into_bytes())
    }
}

/// A name without what makes it plural.
fn bare(name: &str) -> String {
    name.trim().to_lowercase().trim_end_matches('s').to_owned()
}

fn join(rows: &BTreeSet<String>) -> String {
    rows.iter().cloned().collect::<Vec<_>>().join("\n")
}

fn row(cells: &[&str]) -> String {
    cells.iter().map(|cell| format!("\"{}\"", cell.replace('"', "\"\""))).collect::<Vec<_>>().join(",")
}

/// What stands in `text` behind `before` and in front of `after`.
fn between(text: &str, before: &str, after: &str) -> Option<String> {
    let (_, rest) = text.split_once(before)?;
    Some(rest.split_once(after)?.0.to_owned())
}
