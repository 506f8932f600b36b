//! Words that tell one food from what is made of it, and other names for the same. From a cook's understanding; no
//! source.

/// Words that make another food of a plain one: celery seed, potato flour, lemon juice.
pub(super) const MADE: &[&str] = &[
    "seed",
    "powder",
    "flour",
    "meal",
    "bran",
    "starch",
    "oil",
    "juice",
    "nectar",
    "syrup",
    "sauce",
    "paste",
    "puree",
    "extract",
    "zest",
    "peel",
    "skin",
    "vinegar",
    "spread",
    "relish",
    "pickle",
    "jam",
    "jelly",
    "chip",
    "crouton",
    "crumb",
    "broth",
    "stock",
    "soup",
    "salad",
    "bread",
    "roll",
    "pudding",
    "cake",
    "cracker",
    "cereal",
    "candy",
    "drink",
    "beverage",
    "snack",
    "mix",
    "dressing",
    "dip",
    "substitute",
    "imitation",
    "babyfood",
    "sprout",
];

/// Words for what was done to a food: it is the same food, and not as it comes.
pub(super) const STATES: &[&str] = &[
    "dried",
    "dehydrated",
    "ground",
    "canned",
    "frozen",
    "cooked",
    "boiled",
    "baked",
    "braised",
    "fried",
    "grilled",
    "broiled",
    "microwaved",
    "roasted",
    "toasted",
    "stewed",
    "steamed",
    "mashed",
    "smoked",
    "cured",
    "pickled",
    "sweetened",
    "candied",
    "concentrate",
    "instant",
    "fast",
    "restaurant",
];

/// Words for what makes of a food something that weighs and costs otherwise: what is bought so is not the plain food.
pub(super) const KEPT: &[&str] = &[
    "dried",
    "dehydrated",
    "canned",
    "frozen",
    "cooked",
    "smoked",
    "cured",
    "pickled",
    "candied",
    "powdered",
    "kosher",
    "coarse",
];

/// Words that say how a food is, cut or taken apart, not what it is: alone they lead nowhere.
pub(super) const PASSED: &[&str] = &[
    "with", "without", "and", "for", "from", "fresh", "raw", "whole", "large", "medium", "small", "baby", "organic",
    "peeled", "diced", "chopped", "sliced", "grated", "shredded", "minced", "cut", "dry", "red", "green", "white",
    "yellow", "black", "brown", "sweet", "hot", "leaf", "clove", "stalk", "sprig", "bulb", "head", "piece", "fillet",
    "breast", "thigh", "leg", "style", "grade",
];

/// Words of a name, and the words by which the tables know it.
pub(super) const SAME: &[(&[&str], &[&str])] = &[
    (&["ap", "flour"], &["all", "purpose", "flour"]),
    (&["a", ".", "p", ".", "flour"], &["all", "purpose", "flour"]),
    (&["plain", "flour"], &["all", "purpose", "flour"]),
    (&["strong", "flour"], &["bread", "flour"]),
    (&["wholemeal", "flour"], &["whole", "wheat", "flour"]),
    (&["cornflour"], &["cornstarch"]),
    (&["corn", "starch"], &["cornstarch"]),
    (&["confectioner", "sugar"], &["powdered", "sugar"]),
    (&["icing", "sugar"], &["powdered", "sugar"]),
    (&["caster", "sugar"], &["granulated", "sugar"]),
    (&["double", "cream"], &["heavy", "cream"]),
    (&["whipping", "cream"], &["heavy", "cream"]),
    (&["single", "cream"], &["light", "cream"]),
    (&["tinned"], &["canned"]),
    (&["yoghurt"], &["yogurt"]),
    (&["bicarbonate", "of", "soda"], &["baking", "soda"]),
    (&["spring", "onion"], &["green", "onion"]),
    (&["coriander", "leaf"], &["cilantro"]),
    (&["fresh", "coriander"], &["cilantro"]),
    (&["coriander", ",", "fresh"], &["cilantro"]),
    (&["aubergine"], &["eggplant"]),
    (&["courgette"], &["zucchini"]),
    (&["beetroot"], &["beet"]),
    (&["swede"], &["rutabaga"]),
    (&["capsicum"], &["bell", "pepper"]),
    (&["rocket"], &["arugula"]),
    (&["chilli"], &["chili"]),
    (&["prawn"], &["shrimp"]),
    (&["garbanzo", "bean"], &["chickpea"]),
    (&["sultana"], &["raisin"]),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::problem::spelling;

    #[test]
    fn words_are_written_as_names_are_compared() {
        let same = SAME.iter().flat_map(|(from, to)| from.iter().chain(*to));
        for word in MADE.iter().chain(STATES).chain(KEPT).chain(PASSED).chain(same) {
            assert_eq!(spelling::words(word), [*word]);
        }
    }
}
