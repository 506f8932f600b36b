//! When two spellings are one name: case, spacing, accents and plural endings do not count.

use crate::problem::spelling::run_together;

/// A name as it is compared.
#[derive(Debug, Clone, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct NameKey(Box<str>);

impl NameKey {
    /// The key of `name`: its words without what does not count, and the marks between them, run together.
    pub fn of(name: &str) -> Self {
        NameKey(run_together(name).into())
    }

    /// The key of `test: part`, a part named together with its test.
    pub fn of_pair(first: &str, second: &str) -> Self {
        NameKey::of(&format!("{first}:{second}"))
    }

    /// Whether there is nothing to compare.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spellings_of_one_name_are_one_key() {
        for names in [
            "Onions, yellow|onion,  Yellow|ONIONS,YELLOW|Onion , yellow",
            "Crème fraîche|creme fraiche|CRÈME  FRAÎCHE|Creme-fraiche",
            "Jalapeños|jalapeno|Jalapen\u{303}os",
            "Tomatoes|tomato|TOMATOES",
            "Plum tomatoes|plum  tomato|Plum-tomatoes|Plum\u{A0}tomatoes",
            "Berries|berry",
            "Bay leaves|bay leaf|Bay-leaf",
            "Radishes|radish",
            "All-purpose flour|all purpose flour|Allpurpose flour|All–purpose flours",
            "Confectioners’ sugar|confectioner's sugar|Confectioners sugar",
            "Bœuf|boeuf",
            "Smørrebrød|smorrebrod",
            "Octopuses|octopus",
            "Prawns|PRAWN",
            "Cookies|Cookie",
            "Pies|Pie",
            "Quiches|Quiche",
            "Cod roes|Cod roe",
            "Peeling prawns: Shells|peeling prawn:shell",
            "Stone fruit / berries|stone fruits/berry",
            "Tomatoes (diced)|tomato (diced)",
        ] {
            let (first, others) = names.split_once('|').unwrap_or((names, ""));
            for other in others.split('|') {
                assert_eq!(NameKey::of(first), NameKey::of(other), "{first} / {other}");
            }
        }
    }

    #[test]
    fn different_names_stay_different() {
        for (a, b) in [
            ("Bass", "Bas"),
            ("Peas", "Pears"),
            ("Asparagus", "Asparagu"),
            ("Couscous", "Couscou"),
            ("Gas", "Ga"),
            ("Pasta", "Paste"),
            ("Onions, yellow", "Yellow onions"),
            ("Onions, yellow", "Onions yellow"),
            ("Chicken stock", "Chicken"),
            ("Milk 2%", "Milk 3%"),
            ("Flour 00", "Flour 0"),
            ("Salt & pepper", "Salt and pepper"),
            ("Yogurt", "Yoghurt"),
            ("Butter, salted", "Butter, unsalted"),
        ] {
            assert_ne!(NameKey::of(a), NameKey::of(b), "{a} / {b}");
        }
    }
}
