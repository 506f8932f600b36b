//! Vocabulary of typed ingredient lines: numbers in words, sizes, containers, what is done to food, what is not
//! counted. Common kitchen usage, no source.

/// Numbers in words.
pub(super) const NUMBERS: &[(&str, u32)] = &[
    ("one", 1),
    ("two", 2),
    ("three", 3),
    ("four", 4),
    ("five", 5),
    ("six", 6),
    ("seven", 7),
    ("eight", 8),
    ("nine", 9),
    ("ten", 10),
    ("eleven", 11),
    ("twelve", 12),
    ("fifteen", 15),
    ("sixteen", 16),
    ("eighteen", 18),
    ("twenty", 20),
    ("thirty", 30),
    ("forty", 40),
    ("fifty", 50),
    ("sixty", 60),
];

/// How large a thing is: part of what is bought.
pub(super) const SIZES: &[&str] =
    &["large", "lg", "lge", "med", "medium", "md", "small", "sm", "big", "jumbo", "xl", "extra-large", "baby", "mini"];

/// How full a measure is: no other amount, by what is written.
pub(super) const LEVELS: &[&str] = &["heaping", "heaped", "scant", "rounded", "level", "generous", "packed", "good"];

/// Measures of a kitchen that the catalogue of units does not know; each is asked for what it holds, or is priced
/// by it.
pub(super) const OWN_UNITS: &[&str] =
    &["rack", "log", "pan", "cap", "capful", "slab", "side", "knob", "chunk", "hand", "bar", "plate", "bowl", "order"];

/// Words before a name that measure nothing.
pub(super) const LOOSE: &[&str] =
    &["some", "a little", "little", "a bit", "bit", "a few", "few", "knob", "a knob", "lots", "plenty", "enough"];

/// What stands behind a name and says that nothing is measured.
pub(super) const AT_WILL: &[&str] =
    &["to taste", "taste", "tt", "as needed", "as required", "as desired", "if needed", "q.s.", "qs", "some"];

/// Vessels whose contents no name tells.
pub(super) const HOLDERS: &[&str] = &[
    "can", "tin", "jar", "bottle", "jug", "tub", "pail", "bucket", "pouch", "tube", "brick", "keg", "packet", "case",
    "box", "carton", "crate", "bag", "sack", "pack", "sleeve", "flat", "tray", "lug", "basket", "loaf", "log", "pan",
    "cap", "capful", "scoop", "ladle", "roll", "rack", "block", "side", "slab", "bar",
];

/// Words for a cut or a state that say what is done to what was bought. Words in *-ed* that are not among [`KINDS`]
/// do too.
pub(super) const PREPS: &[&str] = &[
    "dice",
    "julienne",
    "brunoise",
    "rondelle",
    "rondelles",
    "chiffonade",
    "concassé",
    "concasse",
    "batonnet",
    "coins",
    "ribbons",
    "wedges",
    "florets",
    "moons",
    "cubes",
    "chunks",
    "pieces",
    "pcs",
    "slice",
    "slices",
    "strips",
    "lardons",
    "rounds",
    "matchsticks",
    "halves",
    "quarters",
    "croutons",
    "crouton",
    "purée",
    "puree",
    "torn",
    "cut",
    "split",
    "slit",
    "melted",
    "softened",
    "softend",
    "soft",
    "zest",
    "juice",
    "p&d",
    "chop",
    "mince",
    "peel",
    "devein",
    "picked",
    "cold",
    "hot",
    "warm",
    "chilled",
    "temp",
    "temp.",
    "temperature",
    "divided",
    "optional",
    "opt.",
    "opt",
    "pounded",
    "scraped",
    "shaken",
    "brushed",
    "beaten",
    "whipped",
    "bloomed",
    "broken",
    "stale",
    "microplaned",
    "spritz",
    "o/n",
    "overnight",
    "squeezed",
    "crushed",
    "shaved",
    "scrub",
    "soak",
    "double",
    "save",
    "reserve",
    "tied",
    "pinned",
    "yesterday's",
    "over",
    "ends",
    "rind",
];

/// Words in *-ed* and others that name what is bought, not what is done to it.
pub(super) const KINDS: &[&str] = &[
    "unsalted",
    "salted",
    "unsltd",
    "unslt",
    "dried",
    "smoked",
    "canned",
    "tinned",
    "cured",
    "pickled",
    "sweetened",
    "unsweetened",
    "condensed",
    "evaporated",
    "granulated",
    "powdered",
    "mixed",
    "aged",
    "bleached",
    "unbleached",
    "fortified",
    "distilled",
    "red",
    "seed",
    "prepared",
    "corned",
    "candied",
    "filtered",
    "seeded-rye",
    "enriched",
    "cultured",
    "pitted",
    "rolled",
    "refined",
    "flaked",
    "clarified",
    "assorted",
    "flavored",
    "flavoured",
    "toasted-sesame",
];

/// Beginnings of a part that says what is done, where it comes from or goes.
pub(super) const PREP_STARTS: &[&str] = &[
    "w/", "with ", "without ", "for ", "to ", "plus ", "see ", "from ", "about ", "abt ", "if ", "then ", "cut ",
    "in ", "on ", "cover ", "use ", "save ", "keep ", "off ", "not ", "leaves ", "a few ", "and ", "both ", "stems ",
    "well ", "removed", "left ", "what's ", "whatever", "peel ", "don't",
];

/// Ends of a part that says what is left on or off.
pub(super) const PREP_ENDS: &[&str] = &[" off", " only", " on", " out", " too", " removed", " thin", " fine", " small"];

/// What a can holds is bought so: in a line of cans these words name it.
pub(super) const IN_CANS: &[&str] = &["crushed", "diced", "whole", "stewed", "sliced", "chopped", "peeled", "puree"];

/// What is weighed, poured or spooned, and never counted.
pub(super) const MASSES: &[&str] = &[
    "flour",
    "sugar",
    "salt",
    "stock",
    "broth",
    "cheese",
    "ginger",
    "garlic",
    "butter",
    "milk",
    "cream",
    "oil",
    "rice",
    "water",
    "pasta",
    "sauce",
    "meat",
    "beef",
    "pork",
    "lamb",
    "veal",
    "juice",
    "vinegar",
    "wine",
    "honey",
    "syrup",
    "base",
    "chocolate",
    "cocoa",
    "yeast",
    "cornstarch",
    "cornmeal",
    "mustard",
    "mayo",
    "mayonnaise",
    "yogurt",
    "parsley",
    "cilantro",
    "dill",
    "spinach",
    "arugula",
    "mirepoix",
    "masala",
    "bacon",
    "ham",
    "gravy",
    "batter",
    "dressing",
    "vin",
    "btr",
];

/// One and many alike, or a plural that no ending tells.
const INVARIANT: &[&str] = &[
    "zucchini",
    "squash",
    "shrimp",
    "fish",
    "salmon",
    "cod",
    "calamari",
    "squid",
    "broccoli",
    "fillet",
    "sheep",
    "geese",
    "feet",
    "halves",
    "leaf",
    "lf",
    "chilli",
    "chili",
    "endive",
    "kiwi",
    "toms",
    "octopus",
    "asparagus",
    "each",
    "ea",
    "lime",
];

/// Words behind a size that say it is how something is cut.
pub(super) const CUTS: &[&str] =
    &["pcs", "pieces", "piece", "cubes", "cube", "dice", "chunks", "slices", "portions", "strips", "balls"];

/// Whether a noun, in lower case, stands in the plural or has none.
pub(super) fn is_plural(noun: &str) -> bool {
    INVARIANT.contains(&noun) || (noun.ends_with('s') && !noun.ends_with("ss")) || noun.is_empty()
}
