//! Two whole books opened at once: one sentence, where each cell would be an error of its own.

use std::collections::{BTreeMap, BTreeSet};

use parings::Reading;
use parings::problem::Code;
use parings::schema::Column;

/// One recipe that stands twice is a slip, and one setting as well.
const LEAST: usize = 2;

/// What to say where two of the files are a book each: most recipes of one stand in the other too, or both have recipes and
/// their settings contradict each other.
pub fn told(reading: &Reading) -> Option<String> {
    let mut recipes: BTreeMap<&str, BTreeMap<String, &str>> = BTreeMap::new();
    let places: Vec<_> =
        reading.kitchen.entries.recipes.iter().map(|one| (one.input.place(Column::Recipe), &one.name)).collect();
    for (place, name) in &places {
        recipes.entry(place.file_name()).or_default().insert(name.to_lowercase(), name);
    }
    let files: Vec<_> = recipes.iter().collect();
    for (at, (one, of_one)) in files.iter().enumerate() {
        for (other, of_other) in files.iter().skip(at.saturating_add(1)) {
            let both: Vec<&str> =
                of_one.iter().filter(|(key, _)| of_other.contains_key(*key)).map(|(_, name)| *name).collect();
            let most = of_one.len().min(of_other.len()).div_ceil(2).max(LEAST);
            if both.len() >= most {
                return Some(said(one, other, &format!("hold the same recipes, such as “{}”", both.first()?)));
            }
        }
    }
    let mut settings: BTreeMap<(&str, &str), BTreeSet<String>> = BTreeMap::new();
    for problem in reading.problems.iter().filter(|problem| problem.code == Code::SettingTwice) {
        let Some(there) = &problem.there else { continue };
        let pair = (there.file_name(), problem.place.file_name());
        if pair.0 != pair.1 && recipes.contains_key(pair.0) && recipes.contains_key(pair.1) {
            settings.entry(pair).or_default().insert(problem.place.to_string());
        }
    }
    let ((one, other), _) = settings.iter().find(|(_, at)| at.len() >= LEAST)?;
    Some(said(one, other, "have different settings"))
}

fn said(one: &str, other: &str, why: &str) -> String {
    format!(
        "{one} and {other} are two books, for both {why}: open one of them at a time. Files are read together where they are \
         parts of one book, such as prices in one and recipes in the other."
    )
}
