//! Finding reference foods by words, and those that an item may mean: a plain food before what is made of it.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use super::reference::{Food, KitchenFood};
use super::words::{KEPT, MADE, PASSED, SAME, STATES};
use crate::in_order::InOrder;
use crate::problem::spelling;

/// Words are matched from their beginning once there are so many letters of them.
const ENOUGH: usize = 4;

/// The rank of a food whose own name ends with what was asked for, as *heavy cream* does with cream.
const ENDS: u8 = 1;

/// The kitchen names, ready to be looked through.
static KITCHENS: LazyLock<WordIndex<KitchenFood>> = LazyLock::new(|| {
    WordIndex::of(KitchenFood::all().map(|food| FoodName { only_head: true, ..FoodName::of(food, food.name()) }))
});
/// The descriptions, ready to be looked through.
static LISTED: LazyLock<WordIndex<Food>> = LazyLock::new(|| {
    WordIndex::of(
        Food::all().map(|food| FoodName { then: food.description().len(), ..FoodName::of(food, food.description()) }),
    )
});

/// Foods that bear every word of `text`, those with kitchen names first, then plain ones before what is made of them; the
/// words may stand in any order, and four letters of a word's beginning are enough.
pub fn search(text: &str, most: usize) -> Vec<(Food, Option<KitchenFood>)> {
    let wanted = asked(text);
    let named = KITCHENS.bearing(&wanted).into_iter().filter_map(|found| Some((found.food.food()?, Some(found.food))));
    let mut found: Vec<(Food, Option<KitchenFood>)> = Vec::new();
    for (food, kitchen) in named.chain(LISTED.bearing(&wanted).into_iter().map(|found| (found.food, None))) {
        if kitchen.is_some() || found.iter().all(|(known, _)| *known != food) {
            found.push((food, kitchen));
        }
    }
    found.truncate(most);
    found
}

/// Foods with kitchen names that may be meant by `text`, the likeliest first. What is made of a food (its seed, powder,
/// flour, oil, juice) is left out where the food itself is known.
pub fn kitchen_names(text: &str) -> Vec<KitchenFood> {
    let found = meant(&KITCHENS, text);
    // “Fennel” is no fennel seed: the list knows the bulb.
    let is_made = found.first().is_some_and(|found| found.rank.made > 0);
    let plain = |found: &FoundFood<Food>| found.rank.made == 0 && found.rank.head <= ENDS;
    if is_made && meant(&LISTED, text).first().is_some_and(plain) { Vec::new() } else { foods(found) }
}

/// Foods of the list that may be meant by `text`, by the same rule; of one that stands there in several states, that which
/// the fewest words are for.
pub fn listed(text: &str) -> Vec<Food> {
    let mut found = meant(&LISTED, text);
    let least = found.iter().map(|found| found.rank.states).min();
    found.retain(|found| Some(found.rank.states) == least);
    foods(found)
}

fn foods<T>(found: Vec<FoundFood<T>>) -> Vec<T> {
    found.into_iter().map(|found| found.food).collect()
}

/// The foods that bear all words of `text`; else all of its part before a comma or bracket; else one of its words, the
/// last that any bears. That something is dried, canned or frozen must always be borne.
fn meant<T: Copy>(index: &WordIndex<T>, text: &str) -> Vec<FoundFood<T>> {
    let all = asked(text);
    let kept: Vec<String> = all.iter().filter(|word| KEPT.contains(&word.as_str())).cloned().collect();
    let with_kept = |words: &[String]| -> Vec<String> {
        let others = kept.iter().filter(|word| !words.contains(word));
        words.iter().chain(others).cloned().collect()
    };
    let head = with_kept(&asked(text.split([',', '(']).next().unwrap_or(text)));
    let found = [&all, &head].into_iter().map(|words| likeliest(index.bearing(words)));
    let single = all.iter().rev().filter(|word| {
        word.chars().count() > 2 && ![PASSED, STATES, KEPT].iter().any(|list| list.contains(&word.as_str()))
    });
    let by_one = single.map(|word| {
        let found = index.bearing(&with_kept(std::slice::from_ref(word)));
        likeliest(found.into_iter().filter(|found| found.rank.partial == 0).collect())
    });
    found.chain(by_one).find(|found| !found.is_empty()).unwrap_or_default()
}

/// The words of `text` as the tables know them.
fn asked(text: &str) -> Vec<String> {
    let mut words = spelling::words(text);
    for (from, to) in SAME {
        if let Some(at) = words.windows(from.len()).position(|run| run == *from) {
            words.splice(at..at + from.len(), to.iter().map(|word| (*word).to_owned()));
        }
    }
    words.retain(|word| is_word(word));
    words
}

fn is_word(word: &str) -> bool {
    word.chars().any(char::is_alphanumeric)
}

/// How near a food is to what was asked for; the least is the nearest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Rank {
    /// Words of which it bears only the beginning.
    partial: usize,
    /// Words that make another food of it.
    made: usize,
    /// Words for what was done to it.
    states: usize,
    /// Whether what stands before its first comma is what was asked for, ends with it or is part of it, or begins with it.
    head: u8,
    /// Of equals the least goes first.
    then: usize,
}

/// A food that was found.
#[derive(Clone, Copy)]
struct FoundFood<T> {
    food: T,
    rank: Rank,
}

/// A name of a food.
struct FoodName<T> {
    food: T,
    words: Vec<String>,
    /// How many of the words stand before the first comma or bracket.
    head: usize,
    /// Whether these alone tell what it is: *tomatoes, whole in juice* are no juice. A list begins with what it is a kind
    /// of: *Spices, celery seed*.
    only_head: bool,
    /// Which of equally near ones goes first.
    then: usize,
}

impl<T> FoodName<T> {
    fn of(food: T, name: &str) -> Self {
        let words = spelling::words(name);
        let head = words.iter().position(|word| !is_word(word)).unwrap_or(words.len());
        let words = words.into_iter().filter(|word| is_word(word)).collect();
        FoodName { food, words, head, only_head: false, then: 0 }
    }
}

/// The words of names, and where they occur.
struct WordIndex<T> {
    names: Vec<FoodName<T>>,
    occurring: BTreeMap<String, Vec<usize>>,
}

impl<T: Copy> WordIndex<T> {
    fn of(names: impl Iterator<Item = FoodName<T>>) -> Self {
        let names: Vec<FoodName<T>> = names.collect();
        let mut occurring: BTreeMap<String, Vec<usize>> = BTreeMap::new();
        for (row, name) in names.iter().enumerate() {
            for word in &name.words {
                occurring.entry(word.clone()).or_default().push(row);
            }
        }
        WordIndex { names, occurring }
    }

    /// The rows that bear `word`, in order; those that bear only a longer one beginning with it, too.
    fn rows(&self, word: &str) -> Vec<usize> {
        let mut rows: Vec<usize> = if word.chars().count() < ENOUGH {
            self.occurring.get(word).cloned().unwrap_or_default()
        } else {
            let from = self.occurring.range(word.to_owned()..);
            from.take_while(|(found, _)| found.starts_with(word)).flat_map(|(_, rows)| rows.iter().copied()).collect()
        };
        rows.put_in_order();
        rows.dedup();
        rows
    }

    /// The foods that bear every one of `wanted`, the nearest first; of equals the first in the table.
    fn bearing(&self, wanted: &[String]) -> Vec<FoundFood<T>> {
        let mut lists = wanted.iter().map(|word| self.rows(word));
        let Some(mut rows) = lists.next() else { return Vec::new() };
        for list in lists {
            rows.retain(|row| list.binary_search(row).is_ok());
        }
        let names = rows.into_iter().filter_map(|row| self.names.get(row));
        let mut found: Vec<FoundFood<T>> =
            names.map(|name| FoundFood { food: name.food, rank: rank(name, wanted) }).collect();
        found.put_in_order_by_key(|found| found.rank);
        found
    }
}

fn rank<T>(name: &FoodName<T>, wanted: &[String]) -> Rank {
    let unasked = |words: &[String], list: &[&str]| {
        words.iter().filter(|word| list.contains(&word.as_str()) && !wanted.contains(word)).count()
    };
    let head = name.words.get(..name.head).unwrap_or(&name.words);
    Rank {
        partial: wanted.iter().filter(|word| !name.words.contains(word)).count(),
        made: unasked(if name.only_head { head } else { &name.words }, MADE),
        // What is raw is as it comes, even if `not previously frozen`.
        states: if name.words.iter().any(|word| word == "raw") { 0 } else { unasked(&name.words, STATES) },
        head: match head {
            _ if head == wanted => 0,
            _ if head.ends_with(wanted) || head.iter().all(|word| wanted.contains(word)) => ENDS,
            _ if head.starts_with(wanted) => 2,
            _ => 3,
        },
        then: name.then,
    }
}

/// Those that are no further from what was asked for than the nearest is, but for what was done to them.
fn likeliest<T>(mut found: Vec<FoundFood<T>>) -> Vec<FoundFood<T>> {
    if let Some(best) = found.first().map(|found| found.rank) {
        let near = |rank: Rank| rank.partial <= best.partial && rank.made <= best.made && rank.head <= best.head;
        found.retain(|found| near(found.rank));
    }
    found
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
        assert_eq!(kitchen_names("Eggs")[0].name(), "egg, whole");
        assert!(search("", 5).is_empty() && search("quartz", 5).is_empty());
    }
}
