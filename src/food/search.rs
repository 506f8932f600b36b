//! Finding reference foods by words.

use std::sync::LazyLock;

use super::reference::{Food, KitchenFood};

/// Words are matched from their beginning once there are so many letters of them.
const ENOUGH: usize = 4;

/// The words of every kitchen name, ready to be looked through.
static KITCHENS: LazyLock<Vec<(KitchenFood, String)>> =
    LazyLock::new(|| KitchenFood::all().map(|food| (food, line(food.name()))).collect());
/// The words of every description, ready to be looked through.
static LISTED: LazyLock<Vec<(Food, String)>> =
    LazyLock::new(|| Food::all().map(|food| (food, line(food.description()))).collect());

/// Foods that bear every word of `text`, those with kitchen names first, then those with the shortest descriptions; the
/// words may stand in any order, and four letters of a word's beginning are enough.
pub fn search(text: &str, most: usize) -> Vec<(Food, Option<KitchenFood>)> {
    let named = kitchen_names(text, most).into_iter();
    let mut found: Vec<(Food, Option<KitchenFood>)> =
        named.filter_map(|named| named.food().map(|food| (food, Some(named)))).collect();
    for food in listed(text, most.saturating_add(found.len())) {
        if found.iter().all(|(known, _)| *known != food) {
            found.push((food, None));
        }
    }
    found.truncate(most);
    found
}

/// Foods whose kitchen name bears every word of `text`: those called just so first, then the shortest names.
pub fn kitchen_names(text: &str, most: usize) -> Vec<KitchenFood> {
    let mut found = bearing(&KITCHENS, text);
    let wanted = line(text);
    // `egg, whole` is nearer to eggs than `egg yolk` is.
    let head = |food: &KitchenFood| line(food.name().split(',').next().unwrap_or_default());
    found.sort_by_key(|food| (head(food) != wanted, !head(food).starts_with(&wanted), food.name().len()));
    found.truncate(most);
    found
}

/// Foods whose description bears every word of `text`, the shortest description first.
pub fn listed(text: &str, most: usize) -> Vec<Food> {
    let mut found = bearing(&LISTED, text);
    found.sort_by_key(|food| food.description().len());
    found.truncate(most);
    found
}

fn bearing<T: Copy>(lines: &[(T, String)], text: &str) -> Vec<T> {
    let wanted: Vec<String> = words(text)
        .map(|word| if word.chars().count() < ENOUGH { format!(" {word} ") } else { format!(" {word}") })
        .collect();
    if wanted.is_empty() {
        return Vec::new();
    }
    let bears = |line: &str| wanted.iter().all(|word| line.contains(word.as_str()));
    lines.iter().filter(|(_, line)| bears(line)).map(|(food, _)| *food).collect()
}

/// The words of a name, each between blanks.
fn line(name: &str) -> String {
    words(name).fold(" ".to_owned(), |line, word| line + &word + " ")
}

/// The words of a name in lower case, without a plural's s.
fn words(text: &str) -> impl Iterator<Item = String> {
    let text = text.to_lowercase();
    let words: Vec<String> = text
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(|word| if word.chars().count() >= ENOUGH { word.trim_end_matches('s') } else { word }.to_owned())
        .collect();
    words.into_iter()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kitchen_names_come_first_and_words_in_any_order() {
        let found = search("yellow onions", 5);
        assert_eq!(found[0].1.unwrap().name(), "onion, yellow");
        // SR28 11282.
        assert_eq!(search("raw onions", 50).iter().filter(|(food, _)| food.number() == "11282").count(), 1);
        assert_eq!(kitchen_names("Eggs", 1)[0].name(), "egg, whole");
        assert!(search("", 5).is_empty() && search("quartz", 5).is_empty());
    }
}
