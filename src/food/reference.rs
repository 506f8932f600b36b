//! Reference foods: an SR28 food by its number, and the kitchen names under which some of them go.

use super::measure::{FoodMeasure, MeasureText};
use super::tables::{COOKED, FOODS, GROUPS, KITCHEN, MEASURES, REFUSE};
use crate::measure::Dimension;
use crate::number::Decimal;
use crate::problem::spelling;

/// A food of SR28; cheap to copy.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Food {
    row: usize,
}

/// What of a food's weight as purchased is not eaten.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Refuse {
    /// Whole percent of the weight as purchased.
    pub percent: Decimal,
    /// What it is: `Stem ends, sprouts and defects`.
    pub what: &'static str,
}

/// What cooking leaves of so much raw meat.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CookedYield {
    /// The measure as published.
    pub measure: &'static str,
    /// What went in.
    pub from: &'static str,
    /// What came out.
    pub to: &'static str,
    /// Percent of the weight that went in.
    pub percent: Decimal,
}

impl Food {
    /// The food with this number, `11282`.
    pub fn by_number(number: &str) -> Option<Food> {
        FOODS.of_food(number).next().map(|row| Food { row })
    }

    /// All foods in the order of their numbers.
    pub fn all() -> impl Iterator<Item = Food> {
        (0..FOODS.len()).map(|row| Food { row })
    }

    /// Its number in SR28, five digits.
    pub fn number(self) -> &'static str {
        FOODS.field(self.row, 0)
    }

    /// Its description in SR28: `Onions, raw`.
    pub fn description(self) -> &'static str {
        FOODS.field(self.row, 2)
    }

    /// Its group in SR28: `Vegetables and Vegetable Products`.
    pub fn group(self) -> &'static str {
        FOODS.field(self.row, 1).parse().map_or("", |group| GROUPS.field(group, 1))
    }

    /// Its household measures, in the order of the source. They weigh what is edible, without refuse, but for those that
    /// say otherwise (SR28 documentation, file WEIGHT).
    pub fn measures(self) -> impl Iterator<Item = FoodMeasure> {
        MEASURES.of_food(self.number()).map(FoodMeasure::new)
    }

    /// What is not eaten of it, where SR28 states more than nothing.
    pub fn refuse(self) -> Option<Refuse> {
        let row = REFUSE.of_food(self.number()).next()?;
        Some(Refuse { percent: REFUSE.field(row, 1).parse().ok()?, what: REFUSE.field(row, 2) })
    }

    /// What is left of its weight as purchased when the refuse is off, as a fraction. A nut's refuse is its shell, and
    /// nuts are bought without it: all of them is left.
    pub fn trim_yield(self) -> Decimal {
        let refuse = self.refuse().filter(|_| !self.is_nut()).map_or(Decimal::ZERO, |refuse| refuse.percent);
        let left = Decimal::ONE_HUNDRED.checked_sub(refuse).and_then(|left| left.checked_div(Decimal::ONE_HUNDRED));
        left.unwrap_or(Decimal::ONE).normalize()
    }

    /// Whether it is bought with what is cut off it, so that one may expect a refuse: raw vegetables and fruit.
    pub fn is_trimmed(self) -> bool {
        let grows = ["Vegetables and Vegetable Products", "Fruits and Fruit Juices"].contains(&self.group());
        let description = self.description();
        grows && (description.ends_with(", raw") || description.contains(", raw,"))
    }

    /// Whether its refuse is the shell of a nut.
    pub fn is_nut(self) -> bool {
        self.group() == "Nut and Seed Products"
    }

    /// Whether its refuse counts the fat that is cut off: meat described as lean only.
    pub fn counts_fat_as_refuse(self) -> bool {
        self.description().contains("separable lean only")
    }

    /// What cooking leaves of it, by the parts that were weighed.
    pub fn cooked(self) -> impl Iterator<Item = CookedYield> {
        COOKED.of_food(self.number()).filter_map(|row| {
            let (measure, from, to) = (COOKED.field(row, 1), COOKED.field(row, 2), COOKED.field(row, 3));
            Some(CookedYield { measure, from, to, percent: COOKED.field(row, 4).parse().ok()? })
        })
    }
}

/// A food under the name by which kitchens know it; cheap to copy.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct KitchenFood {
    row: usize,
}

impl KitchenFood {
    /// All of them, in the order of the table.
    pub fn all() -> impl Iterator<Item = KitchenFood> {
        (0..KITCHEN.len()).map(|row| KitchenFood { row })
    }

    /// Its name: `onion, yellow`.
    pub fn name(self) -> &'static str {
        KITCHEN.field(self.row, 0)
    }

    /// Ways to spell its name: `onion, yellow` and `yellow onion`; what stands in brackets is another name.
    pub fn spellings(self) -> Vec<String> {
        let (plain, other) = match self.name().split_once('(') {
            Some((before, after)) => (before.trim(), after.split(')').next().map(str::trim)),
            None => (self.name(), None),
        };
        let turned =
            plain.split_once(", ").filter(|(_, rest)| !rest.contains(',')).map(|(head, kind)| format!("{kind} {head}"));
        let whole = other.map(|_| self.name().to_owned());
        [Some(plain.to_owned()), turned, other.map(str::to_owned), whole].into_iter().flatten().collect()
    }

    /// Its kind: `vegetable`, `meat`, `nut`.
    pub fn category(self) -> &'static str {
        KITCHEN.field(self.row, 1)
    }

    /// Whether an item of this name may take its measures unasked. Meat, poultry, fish, shellfish and nuts come in too
    /// many states for that: whole or filleted, with the bone or without, in the shell or out of it.
    pub fn is_plain(self) -> bool {
        !matches!(self.category(), "meat" | "poultry" | "seafood" | "nut")
    }

    /// The SR28 food it is; a few names have none.
    pub fn food(self) -> Option<Food> {
        Food::by_number(KITCHEN.field(self.row, 2))
    }

    /// The measures that count when none is named: its cup, its spoons, one piece of it.
    pub fn measures(self) -> impl Iterator<Item = FoodMeasure> {
        let wanted: Vec<&'static str> = KITCHEN.field(self.row, 3).split(',').collect();
        self.food().into_iter().flat_map(Food::measures).filter(move |measure| wanted.contains(&measure.place()))
    }

    /// Whether a measure is one piece as it is bought: a medium onion, a leek, a head of lettuce; not a clove, a stalk or
    /// a slice, of which a piece as bought has many.
    pub fn is_whole(self, measure: FoodMeasure, reading: &MeasureText) -> bool {
        const WHOLE: &[&str] = &["fruit", "head", "melon", "each"];
        if reading.unit.dimension() != Dimension::Count || measure.text().contains("yield") {
            return false;
        }
        let unit = reading.unit.name();
        let own = || {
            let (name, unit) = (spelling::words(self.name()), spelling::words(&unit).concat());
            // `sweetpotato` of the sweet potato.
            name.contains(&unit) || name.concat() == unit
        };
        WHOLE.contains(&unit.as_str()) || MeasureText::is_size(&unit) || own()
    }

    /// What to know about it; empty when there is nothing.
    pub fn note(self) -> &'static str {
        KITCHEN.field(self.row, 4)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(name: &str) -> KitchenFood {
        KitchenFood::all().find(|food| food.name() == name).unwrap()
    }

    /// SR28, FOOD_DES and WEIGHT: 11282 Onions, raw: 10 % refuse; 1 cup, chopped 160 g; 1 medium 110 g.
    #[test]
    fn a_food_has_its_measures_and_its_refuse() {
        let onion = named("onion, yellow").food().unwrap();
        assert_eq!((onion.number(), onion.description()), ("11282", "Onions, raw"));
        assert_eq!(onion.group(), "Vegetables and Vegetable Products");
        let refuse = onion.refuse().unwrap();
        assert_eq!((refuse.percent.to_string().as_str(), refuse.what), ("10", "Stem ends, sprouts and defects"));
        assert_eq!(onion.trim_yield().to_string(), "0.9");
        let texts: Vec<String> =
            onion.measures().map(|measure| format!("{} {}", measure.text(), measure.grams())).collect();
        assert!(texts.contains(&"1 cup, chopped 160".to_owned()), "{texts:?}");
        assert_eq!(
            named("onion, yellow").measures().map(|m| m.grams().to_string()).collect::<Vec<_>>(),
            ["160", "10", "110"]
        );
    }

    #[test]
    fn a_piece_as_bought_is_told_from_a_part_of_it() {
        let whole = |name: &str| named(name).measures().any(|one| named(name).is_whole(one, &one.read()));
        for name in [
            "onion, yellow",
            "leek",
            "lettuce, romaine",
            "lemon",
            "egg, whole",
            "beet",
            "cantaloupe",
            "potato, russet",
            "sweet potato",
            "cherries, sweet",
            "mango",
            "cauliflower",
            "mushroom, cremini",
        ] {
            assert!(whole(name), "{name}");
        }
        for name in [
            "garlic",
            "celery",
            "chard, swiss",
            "asparagus",
            "butter, unsalted",
            "bread, white",
            "lemon juice",
            "spinach",
        ] {
            assert!(!whole(name), "{name}");
        }
    }

    #[test]
    fn names_are_spelled_in_both_orders_and_in_brackets() {
        assert_eq!(named("onion, yellow").spellings(), ["onion, yellow", "yellow onion"]);
        let scallion = named("onion, green (scallion)").spellings();
        assert_eq!(scallion, ["onion, green", "green onion", "scallion", "onion, green (scallion)"]);
    }

    #[test]
    fn nuts_come_without_their_shells() {
        // SR28 12061 Nuts, almonds: 60 % refuse, shells.
        let almonds = named("almonds").food().unwrap();
        assert_eq!(almonds.refuse().unwrap().percent.to_string(), "60");
        assert_eq!(almonds.trim_yield(), Decimal::ONE);
        assert!(!named("almonds").is_plain() && named("leek").is_plain());
    }

    #[test]
    fn every_kitchen_name_has_its_food_and_measures() {
        for food in KitchenFood::all() {
            let listed = KITCHEN.field(food.row, 3).split(',').filter(|place| !place.is_empty()).count();
            assert_eq!(food.measures().count(), listed, "{}", food.name());
            assert!(food.food().is_some() || KITCHEN.field(food.row, 2).is_empty(), "{}", food.name());
        }
    }
}
