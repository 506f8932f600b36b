//! The names of a book that come nearest to one that was not found, for “Did you mean”.
//!
//! Takes the names of a book and one that is not among them; gives at most three, and none rather than nonsense. Slips of
//! the pen come first. Else the thing itself must be shared, the head of the name: the onion of “Onions, yellow”, of
//! “Yellow onions” and of “Onion powder”. What is shared beside it (the rice of “Rice vinegar” and “Coconut rice”, the
//! leaves of “Bay leaves” and “Salad leaves”) says nothing.

use std::cell::{Cell, RefCell};
use std::collections::HashSet;
use std::sync::LazyLock;

use super::edits::edits_within;
use super::short_names;
use super::spelling;
use super::suggest::quoted_list;

/// The most suggestions worth reading.
const MOST: usize = 3;

/// A thing that more names than these are of (oils, stocks) does not say which of them is near.
const MANY: usize = 3;

/// Words for a part, form, cut, state, size or colour, in the singular: they tell which, not what. Common kitchen usage,
/// no source.
const SIDE_WORDS: &str = "
    leaf seed root stalk stem sprig bulb head zest peel rind skin bone powder flake piece slice cube strip block stick
    sheet thread pod half trim trimming scrap shell carcass breast thigh leg wing drumstick fillet filet loin tenderloin
    shoulder rib shank belly rump cheek liver tail steak chop mince bird meat wedge ear clove
    fresh dried dry frozen canned tinned raw cooked roasted toasted smoked cured pickled salted unsalted sweetened
    unsweetened plain whole ground chopped diced sliced minced grated shredded crushed peeled picked boneless skinless
    extra virgin organic free range natural kosher baby young ripe mixed assorted hot cold sweet light heavy
    large medium small jumbo mini fine coarse thick thin red green yellow white black brown purple golden dark pink blue
    of with in the for from on at to a de la";

static SIDE: LazyLock<HashSet<&str>> = LazyLock::new(|| SIDE_WORDS.split_whitespace().collect());

/// What bears a name: of names equally near, what a cook most likely means comes first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Bearer {
    /// The main of a yield test.
    Main,
    /// Something bought.
    Bought,
    /// A recipe, or whatever else a list holds.
    Made,
    /// A by-product of a yield test.
    ByProduct,
}

/// The names of a book.
#[derive(Debug, Default)]
pub struct Names {
    spellings: Vec<(String, Bearer)>,
    /// The spellings made ready, as far as they were when something was last looked for: most books need none.
    known: RefCell<Vec<Known>>,
    asked: Cell<usize>,
    looked_at: Cell<usize>,
}

impl Names {
    /// Adds a name.
    pub fn add(&mut self, name: &str, bearer: Bearer) {
        self.spellings.push((name.to_owned(), bearer));
    }

    /// `Did you mean “Onions, yellow” or “Shallots”?`, or nothing when no name is near; nothing as well once so many were
    /// asked for that a whole list must be missing.
    pub fn did_you_mean(&self, wanted: &str) -> Option<String> {
        self.near(wanted).map(|near| near.question)
    }

    /// The question with what is known of its answer; as [`Names::did_you_mean`].
    pub fn near(&self, wanted: &str) -> Option<Near> {
        /// So many are asked for at the most.
        const MOST_ASKED: usize = 500;
        /// Each is looked for among all names of the book: so many are looked at in all.
        const MOST_LOOKED_AT: usize = 4_000_000;
        let asked = self.asked.get().saturating_add(1);
        self.asked.set(asked);
        let looked_at = self.looked_at.get().saturating_add(self.spellings.len());
        if asked > MOST_ASKED || looked_at > MOST_LOOKED_AT {
            return None;
        }
        self.looked_at.set(looked_at);
        let mut known = self.known.borrow_mut();
        let ready = known.len();
        known.extend(self.spellings.iter().skip(ready).map(|(name, bearer)| Known::of(name, *bearer)));
        let has_short = short_names::written_out(wanted) != wanted.to_lowercase();
        let wanted = Known::of(wanted, Bearer::Made);
        let near = nearest(&wanted, &known);
        if near.is_empty() {
            return None;
        }
        let is_bought = |text: &&str| self.spellings.iter().any(|(name, of)| name == text && *of == Bearer::Bought);
        Some(Near {
            question: format!("Did you mean {}?", quoted_list(&near, "or")),
            names: near.iter().map(|name| (*name).to_owned()).collect(),
            may_be_second_name: (has_short || slips_of(&wanted, &known).is_empty()) && near.iter().any(is_bought),
        })
    }
}

/// What comes near a name that was not found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Near {
    /// `Did you mean “Onions, yellow” or “Shallots”?`
    pub question: String,
    /// The names in it, the nearest first.
    pub names: Vec<String>,
    /// Whether it may be another name for something bought, rather than a slip.
    pub may_be_second_name: bool,
}

impl<'a> FromIterator<&'a str> for Names {
    fn from_iter<I: IntoIterator<Item = &'a str>>(names: I) -> Self {
        let spellings = names.into_iter().map(|name| (name.to_owned(), Bearer::Made)).collect();
        Names { spellings, ..Names::default() }
    }
}

/// Letters, ready to be compared with others.
#[derive(Debug)]
struct Letters {
    text: Box<[char]>,
    /// A bit for every letter that occurs: an edit changes two of them at most.
    mask: u64,
}

impl Letters {
    fn of(text: &str) -> Self {
        let mask = text.chars().fold(0, |mask, c| mask | (1_u64 << (u32::from(c) % 64)));
        Letters { text: text.chars().collect(), mask }
    }

    /// The edits to `other`, if they are few enough for a slip.
    fn slips(&self, other: &Letters) -> Option<usize> {
        let (a, b) = (self.text.len(), other.text.len());
        let allowed = if self.lacks_one_of(other) { 1 } else { slips_allowed(a.min(b)) };
        let apart = (self.mask ^ other.mask).count_ones() as usize;
        if a.abs_diff(b) > allowed || apart > 2 * allowed {
            return None;
        }
        edits_within(&self.text, &other.text, allowed)
    }

    /// Whether one is the other without a letter from its middle: “Leks”, which has lost its plural, and “Leeks”.
    fn lacks_one_of(&self, other: &Letters) -> bool {
        let ends = |letters: &Letters| (letters.text.first().copied(), letters.text.last().copied());
        let (short, long) = if self.text.len() < other.text.len() { (self, other) } else { (other, self) };
        short.text.len() == 3 && long.text.len() == 4 && ends(short) == ends(long)
    }

    fn is_near(&self, other: &Letters) -> bool {
        self.slips(other).is_some()
    }
}

/// Slips that a text of so many letters may hold and still be meant.
fn slips_allowed(letters: usize) -> usize {
    match letters {
        0..=3 => 0,
        4..=6 => 1,
        7..=11 => 2,
        _ => 3,
    }
}

#[derive(Debug)]
struct Word {
    letters: Letters,
    /// Whether it tells which, not what.
    is_side: bool,
    /// Whether it is a number: a grade, a share, a year.
    is_number: bool,
}

/// A name made ready to be compared.
#[derive(Debug)]
struct Known {
    text: Box<str>,
    bearer: Bearer,
    letters: Letters,
    words: Vec<Word>,
    /// How many words stand before the first comma, bracket or `with`: the rest qualifies.
    named: usize,
    /// Which word is the thing itself; none when all are side words.
    head: Option<usize>,
}

impl Known {
    fn of(name: &str, bearer: Bearer) -> Self {
        /// Nobody tells longer names apart by what stands further on.
        const MOST_LETTERS: usize = 100;
        let begins: String = name.chars().take(MOST_LETTERS).collect();
        let (mut words, mut named) = (Vec::new(), None);
        for word in spelling::words(&short_names::written_out(&begins)) {
            let is_mark = !word.starts_with(char::is_alphanumeric);
            if !words.is_empty() && ((is_mark && word != "&") || word == "with" || word == "in") {
                named = named.or(Some(words.len()));
            }
            if !is_mark && word != "and" {
                words.push(word);
            }
        }
        let named = named.unwrap_or(words.len());
        let letters = Letters::of(&words.concat());
        let words: Vec<Word> = words
            .iter()
            .map(|word| {
                let is_number = !word.chars().any(char::is_alphabetic);
                Word { letters: Letters::of(word), is_side: is_number || SIDE.contains(word.as_str()), is_number }
            })
            .collect();
        // The last thing named: “Leg of lamb” is lamb. “Ground, chuck” names it behind the comma.
        let head = words.iter().take(named).rposition(|word| !word.is_side);
        let head = head.or_else(|| words.iter().position(|word| !word.is_side));
        Known { text: name.into(), bearer, letters, words, named, head }
    }

    fn head(&self) -> Option<&Letters> {
        self.head.and_then(|head| self.words.get(head)).map(|word| &word.letters)
    }

    fn things(&self) -> impl Iterator<Item = &Letters> {
        self.words.iter().filter(|word| !word.is_side).map(|word| &word.letters)
    }

    fn has(&self, wanted: &Letters) -> bool {
        self.words.iter().any(|word| word.letters.is_near(wanted))
    }

    /// How many of its words `other` has.
    fn shared(&self, other: &Known) -> usize {
        self.words.iter().filter(|word| other.has(&word.letters)).count()
    }
}

/// Up to three of `known` that a cook may have meant by `wanted`, best first. For the tests, which look at many lists.
#[cfg(feature = "cli")]
pub fn nearest_names<'a>(wanted: &str, known: &[&'a str]) -> Vec<&'a str> {
    let ready: Vec<Known> = known.iter().map(|name| Known::of(name, Bearer::Made)).collect();
    let near = nearest(&Known::of(wanted, Bearer::Made), &ready);
    near.iter().filter_map(|text| known.iter().copied().find(|name| name == text)).collect()
}

fn nearest<'a>(wanted: &Known, known: &'a [Known]) -> Vec<&'a str> {
    let slips = slips_of(wanted, known);
    if !slips.is_empty() {
        return slips;
    }
    let Some(thing) = wanted.head() else { return ranked(known, |name| Some((same_part(wanted, name)?, name.bearer))) };
    let of_thing = known.iter().filter(|name| name.head().is_some_and(|head| head.is_near(thing))).count();
    let same = ranked(known, |name| same_thing(wanted, name, of_thing > MANY));
    if !same.is_empty() {
        return same;
    }
    // “Parmesan” of “Parmesan cheese”, where nothing else goes by that word.
    let mut bearing = known.iter().filter(|name| name.has(thing));
    match (wanted.things().count(), bearing.next(), bearing.next()) {
        (1, Some(only), None) => vec![&*only.text],
        _ => Vec::new(),
    }
}

fn slips_of<'a>(wanted: &Known, known: &'a [Known]) -> Vec<&'a str> {
    ranked(known, |name| Some((slip(wanted, name)?, name.bearer)))
}

/// The names that have a rank, the lowest first; of equals the first in the book.
fn ranked<R: Ord>(known: &[Known], rank: impl Fn(&Known) -> Option<R>) -> Vec<&str> {
    let mut found: Vec<(R, &str)> = known.iter().filter_map(|name| Some((rank(name)?, &*name.text))).collect();
    found.sort_by(|a, b| a.0.cmp(&b.0));
    let mut texts: Vec<&str> = Vec::new();
    for (_, text) in found {
        if texts.len() < MOST && !texts.contains(&text) {
            texts.push(text);
        }
    }
    texts
}

/// The edits between two spellings of one name; nothing when there are too many for a slip.
fn slip(wanted: &Known, name: &Known) -> Option<usize> {
    let (ours, theirs) = (wanted.words.len(), name.words.len());
    let all = |a: &Known, b: &Known| a.words.iter().all(|word| b.has(&word.letters));
    let all_near = || all(wanted, name) && all(name, wanted);
    match wanted.letters.slips(&name.letters) {
        // A slip within one short word of several makes another food of it: bay and hay leaves, rice and wine vinegar.
        Some(edits) => (ours != theirs || ours < 2 || all_near()).then_some(edits),
        // The same words in another order: “Tomatos, plum” is “Plum tomatoes”.
        None => (ours == theirs && all_near()).then(|| slips_allowed(usize::MAX)),
    }
}

/// How unlike two names of one thing are: whether the thing is but a qualifier, how many words are wanted in vain, what
/// bears the name (“Salmon” is rather the fillet than its bones), how many words the name has alone.
fn same_thing(wanted: &Known, name: &Known, is_common: bool) -> Option<(bool, usize, Bearer, usize)> {
    let thing = wanted.head()?;
    let shares_two = || wanted.things().filter(|word| name.things().any(|other| other.is_near(word))).count() > 1;
    let is_head = name.head().is_some_and(|head| head.is_near(thing));
    let qualifies = || name.words.iter().skip(name.named).any(|word| word.letters.is_near(thing));
    let enough =
        if is_head { !is_common || wanted.things().count() == 1 || shares_two() } else { qualifies() || shares_two() };
    let alone = |a: &Known, b: &Known| a.words.iter().filter(|word| !word.is_number && !b.has(&word.letters)).count();
    enough.then(|| (!is_head, alone(wanted, name), name.bearer, alone(name, wanted)))
}

/// For a name that is a part or form and no more (“ribs”): what is named by that part.
fn same_part(wanted: &Known, name: &Known) -> Option<usize> {
    let part = wanted.words.get(..wanted.named)?.last()?;
    let has = name.words.iter().take(name.named).any(|word| word.letters.is_near(&part.letters));
    has.then(|| name.words.len().saturating_sub(name.shared(wanted)))
}
