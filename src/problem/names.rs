//! The names of a book that come nearest to one that was not found, for “Did you mean”.
//!
//! Takes the names of a book and one that is not among them; gives at most three, and none rather than nonsense. Slips of
//! the pen come first. Else the thing itself must be shared, the head of the name: the onion of “Onions, yellow”, of
//! “Yellow onions” and of “Onion powder”. What is shared beside it (the rice of “Rice vinegar” and “Coconut rice”, the
//! leaves of “Bay leaves” and “Salad leaves”) says nothing.

use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet, HashSet};
use std::sync::LazyLock;

use super::near_words::{Letters, Near, Words, slips_allowed};
use super::short_names;
use super::spelling;
use super::suggest::quoted_list;
use crate::in_order::InOrder;

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
    ready: RefCell<Ready>,
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

    /// What to answer whoever asked for a name that is not there: the nearest, else those that begin as it does, else, behind
    /// `lead`, which names there are. `None` where there are none.
    pub fn answer(&self, wanted: &str, lead: &str) -> Option<String> {
        let mut seen = HashSet::new();
        let names = self.spellings.iter().map(|(name, _)| name.as_str());
        let names: Vec<&str> =
            names.filter(|name| !name.is_empty() && !is_alike(name, wanted) && seen.insert(*name)).collect();
        self.did_you_mean(wanted).or_else(|| begun(&names, wanted)).or_else(|| {
            let all = quoted_list(&names, "and");
            (!all.is_empty()).then(|| format!("{lead} {all}."))
        })
    }

    /// The question with what is known of its answer; as [`Names::did_you_mean`].
    pub fn near(&self, typed: &str) -> Option<Nearest> {
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
        let mut ready = self.ready.borrow_mut();
        let known = ready.names.len();
        self.spellings.iter().skip(known).for_each(|(name, bearer)| ready.add(name, *bearer));
        let has_short = short_names::written_out(typed) != typed.to_lowercase();
        let wanted = ready.wanted(typed);
        let mut near = nearest(&wanted, &ready);
        // What was typed is no answer to itself.
        near.retain(|name| !is_alike(name, typed));
        if near.is_empty() {
            return None;
        }
        let is_bought = |text: &&str| self.spellings.iter().any(|(name, of)| name == text && *of == Bearer::Bought);
        Some(Nearest {
            question: format!("Did you mean {}?", quoted_list(&near, "or")),
            names: near.iter().map(|name| (*name).to_owned()).collect(),
            may_be_second_name: (has_short || slips_of(&wanted, &ready).is_empty()) && near.iter().any(is_bought),
        })
    }
}

/// Whether two names are one but for case.
fn is_alike(name: &str, other: &str) -> bool {
    name.trim().to_lowercase() == other.trim().to_lowercase()
}

/// The names that begin with what was typed of them, as a question; nothing where that is one letter.
fn begun(names: &[&str], typed: &str) -> Option<String> {
    const FEWEST: usize = 2;
    let typed = typed.trim().to_lowercase();
    let begins = |name: &&&str| name.to_lowercase().starts_with(&typed);
    let found: Vec<&str> = names.iter().filter(begins).take(MOST).copied().collect();
    let is_enough = typed.chars().count() >= FEWEST && !found.is_empty();
    is_enough.then(|| format!("Did you mean {}?", quoted_list(&found, "or")))
}

/// What comes near a name that was not found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Nearest {
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

/// A name taken apart: what of each word is kept is `W`.
#[derive(Debug)]
struct NameParts<W> {
    letters: Letters,
    words: Vec<NameWord<W>>,
    /// How many words stand before the first comma, bracket or `with`: the rest qualifies.
    named: usize,
    /// Which word is the thing itself; none when all are side words.
    head: Option<usize>,
}

#[derive(Debug)]
struct NameWord<W> {
    kept: W,
    /// Whether it tells which, not what.
    is_side: bool,
    /// Whether it is a number: a grade, a share, a year.
    is_number: bool,
}

impl<W> NameParts<W> {
    fn of(name: &str, mut keep: impl FnMut(&str) -> W) -> Self {
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
        let words: Vec<NameWord<W>> = words
            .iter()
            .map(|word| {
                let is_number = !word.chars().any(char::is_alphabetic);
                NameWord { kept: keep(word), is_side: is_number || SIDE.contains(word.as_str()), is_number }
            })
            .collect();
        // The last thing named: “Leg of lamb” is lamb. “Ground, chuck” names it behind the comma.
        let head = words.iter().take(named).rposition(|word| !word.is_side);
        let head = head.or_else(|| words.iter().position(|word| !word.is_side));
        NameParts { letters, words, named, head }
    }

    fn head(&self) -> Option<&W> {
        self.head.and_then(|head| self.words.get(head)).map(|word| &word.kept)
    }

    fn things(&self) -> impl Iterator<Item = &W> {
        self.words.iter().filter(|word| !word.is_side).map(|word| &word.kept)
    }
}

/// A name of the book made ready to be compared; of its words, their numbers among those of all names.
#[derive(Debug)]
struct KnownName {
    text: Box<str>,
    bearer: Bearer,
    parts: NameParts<usize>,
}

impl KnownName {
    fn has(&self, wanted: &Near) -> bool {
        self.parts.words.iter().any(|word| wanted.has(word.kept))
    }
}

/// A name that is looked for; of its words, which words of the book are near.
type WantedName = NameParts<Near>;

impl WantedName {
    fn has(&self, word: usize) -> bool {
        self.words.iter().any(|wanted| wanted.kept.has(word))
    }
}

/// The names of a book, made ready.
#[derive(Debug, Default)]
struct Ready {
    names: Vec<KnownName>,
    words: Words,
    /// Names by how many letters they have.
    by_length: BTreeMap<usize, Vec<usize>>,
}

impl Ready {
    fn add(&mut self, name: &str, bearer: Bearer) {
        let at = self.names.len();
        let parts = NameParts::of(name, |word| self.words.note(word, at));
        self.by_length.entry(parts.letters.len()).or_default().push(at);
        self.names.push(KnownName { text: name.into(), bearer, parts });
    }

    fn wanted(&self, name: &str) -> WantedName {
        NameParts::of(name, |word| self.words.near(word))
    }

    /// The names that have a word near one of `wanted`, in the book's order.
    fn bearing(&self, wanted: &[&Near]) -> Vec<&KnownName> {
        let names: BTreeSet<usize> = wanted.iter().flat_map(|near| self.words.bearers(near)).collect();
        names.into_iter().filter_map(|at| self.names.get(at)).collect()
    }

    /// The names of which `wanted` may be a slip, in the book's order.
    fn spelled_like<'k>(&'k self, wanted: &WantedName) -> Vec<&'k KnownName> {
        let near = Letters::lengths_near(wanted.letters.len());
        let alike = self.by_length.range(near).flat_map(|(_, names)| names).copied();
        let alike =
            alike.filter(|at| self.names.get(*at).is_some_and(|name| name.parts.letters.may_be(&wanted.letters)));
        // Words in another order are all there: whoever lacks one is none.
        let rarest = wanted.words.iter().map(|word| &word.kept).min_by_key(|near| self.words.bearers(near).count());
        let reordered = rarest.into_iter().flat_map(|near| self.words.bearers(near));
        let names: BTreeSet<usize> = alike.chain(reordered).collect();
        names.into_iter().filter_map(|at| self.names.get(at)).collect()
    }
}

/// Up to three of `known` that a cook may have meant by `wanted`, best first. For the tests, which look at many lists.
#[cfg(feature = "cli")]
pub fn nearest_names<'a>(wanted: &str, known: &[&'a str]) -> Vec<&'a str> {
    let mut ready = Ready::default();
    known.iter().for_each(|name| ready.add(name, Bearer::Made));
    let near = nearest(&ready.wanted(wanted), &ready);
    near.iter().filter_map(|text| known.iter().copied().find(|name| name == text)).collect()
}

fn nearest<'a>(wanted: &WantedName, known: &'a Ready) -> Vec<&'a str> {
    let slips = slips_of(wanted, known);
    if !slips.is_empty() {
        return slips;
    }
    let Some(thing) = wanted.head() else {
        let Some(part) = wanted.words.get(..wanted.named).and_then(<[_]>::last).map(|word| &word.kept) else {
            return Vec::new();
        };
        return ranked(known.bearing(&[part]), |name| Some((same_part(wanted, part, name)?, name.bearer)));
    };
    let bearing = known.bearing(&[thing]);
    let of_thing = bearing.iter().filter(|name| name.parts.head().is_some_and(|head| thing.has(*head))).count();
    let things = known.bearing(&wanted.things().collect::<Vec<_>>());
    let same = ranked(things, |name| same_thing(wanted, thing, name, of_thing > MANY));
    if !same.is_empty() {
        return same;
    }
    // “Parmesan” of “Parmesan cheese”, where nothing else goes by that word.
    match (wanted.things().count(), bearing.as_slice()) {
        (1, [only]) => vec![&*only.text],
        _ => Vec::new(),
    }
}

fn slips_of<'a>(wanted: &WantedName, known: &'a Ready) -> Vec<&'a str> {
    ranked(known.spelled_like(wanted), |name| Some((slip(wanted, name)?, name.bearer)))
}

/// The names that have a rank, the lowest first; of equals the first in the book.
fn ranked<R: Ord>(known: Vec<&KnownName>, rank: impl Fn(&KnownName) -> Option<R>) -> Vec<&str> {
    let mut found: Vec<(R, &str)> = known.into_iter().filter_map(|name| Some((rank(name)?, &*name.text))).collect();
    found.put_in_order_by(|a, b| a.0.cmp(&b.0));
    let mut texts: Vec<&str> = Vec::new();
    for (_, text) in found {
        if texts.len() == MOST {
            break;
        }
        if !texts.contains(&text) {
            texts.push(text);
        }
    }
    texts
}

/// The edits between two spellings of one name; nothing when there are too many for a slip.
fn slip(wanted: &WantedName, name: &KnownName) -> Option<usize> {
    let (ours, theirs) = (wanted.words.len(), name.parts.words.len());
    let all_near = || {
        wanted.words.iter().all(|word| name.has(&word.kept))
            && name.parts.words.iter().all(|word| wanted.has(word.kept))
    };
    match wanted.letters.slips(&name.parts.letters) {
        // A slip within one short word of several makes another food of it: bay and hay leaves, rice and wine vinegar.
        Some(edits) => (ours != theirs || ours < 2 || all_near()).then_some(edits),
        // The same words in another order: “Tomatos, plum” is “Plum tomatoes”.
        None => (ours == theirs && all_near()).then(|| slips_allowed(usize::MAX)),
    }
}

/// How unlike two names of one thing are: whether the thing is but a qualifier, how many words are wanted in vain, what
/// bears the name (“Salmon” is rather the fillet than its bones), how many words the name has alone.
fn same_thing(
    wanted: &WantedName,
    thing: &Near,
    name: &KnownName,
    is_common: bool,
) -> Option<(bool, usize, Bearer, usize)> {
    let shares_two = || wanted.things().filter(|word| name.parts.things().any(|other| word.has(*other))).count() > 1;
    let is_head = name.parts.head().is_some_and(|head| thing.has(*head));
    let qualifies = || name.parts.words.iter().skip(name.parts.named).any(|word| thing.has(word.kept));
    let enough =
        if is_head { !is_common || wanted.things().count() == 1 || shares_two() } else { qualifies() || shares_two() };
    let in_vain = || wanted.words.iter().filter(|word| !word.is_number && !name.has(&word.kept)).count();
    let alone = || name.parts.words.iter().filter(|word| !word.is_number && !wanted.has(word.kept)).count();
    enough.then(|| (!is_head, in_vain(), name.bearer, alone()))
}

/// For a name that is a part or form and no more (“ribs”): what is named by that part.
fn same_part(wanted: &WantedName, part: &Near, name: &KnownName) -> Option<usize> {
    let words = &name.parts.words;
    let has = words.iter().take(name.parts.named).any(|word| part.has(word.kept));
    let shared = || words.iter().filter(|word| wanted.has(word.kept)).count();
    has.then(|| words.len().saturating_sub(shared()))
}
