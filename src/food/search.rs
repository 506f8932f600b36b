//! Finding reference foods by words.

use super::reference::{Food, KitchenFood};

/// Foods that bear every word of `text`, those with kitchen names first, then those with the shortest descriptions; the
/// words may stand in any order, and four letters of a word's beginning are enough.
pub fn search(text: &str, most: usize) -> Vec<(Food, Option<KitchenFood>)> {
    let wanted = words(text);
    if wanted.is_empty() {
        return Vec::new();
    }
    let bears = |name: &str| {
        let words = words(name);
        wanted.iter().all(|wanted| {
            words.iter().any(|word| word == wanted || wanted.len() > 3 && word.starts_with(wanted.as_str()))
        })
    };
    let mut found: Vec<(Food, Option<KitchenFood>)> = Vec::new();
    let mut kitchen: Vec<KitchenFood> = KitchenFood::all().filter(|food| bears(food.name())).collect();
    kitchen.sort_by_key(|food| food.name().len());
    for named in kitchen {
        found.extend(named.food().map(|food| (food, Some(named))));
    }
    let mut others: Vec<Food> = Food::all().filter(|food| bears(food.description())).collect();
    others.sort_by_key(|food| food.description().len());
    for food in others {
        if found.iter().all(|(known, _)| *known != food) {
            found.push((food, None));
        }
    }
    found.truncate(most);
    found
}

/// The words of a name in lower case, without a plural's s.
fn words(text: &str) -> Vec<String> {
    text.to_lowercase()
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(|word| if word.chars().count() > 3 { word.trim_end_matches('s') } else { word }.to_owned())
        .collect()
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
        assert!(search("", 5).is_empty() && search("quartz", 5).is_empty());
    }
}
