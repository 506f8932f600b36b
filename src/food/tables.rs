//! The embedded tables, cut into rows when they are first needed.
//!
//! `tables/make_tables.py` makes them from extracts of the USDA National Nutrient Database for Standard Reference,
//! Release 28 (SR28; 2015, a work of the US government, public domain). All but the groups are in the order of food
//! numbers, so that the rows of one food stand together.

use std::ops::Range;
use std::sync::LazyLock;

/// A table: its rows without the header.
pub(super) struct FoodTable {
    rows: Vec<&'static str>,
}

impl FoodTable {
    fn of(text: &'static str) -> Self {
        FoodTable { rows: text.lines().skip(1).collect() }
    }

    /// How many rows there are.
    pub fn len(&self) -> usize {
        self.rows.len()
    }

    /// A field of a row; empty where there is none.
    pub fn field(&self, row: usize, field: usize) -> &'static str {
        self.rows.get(row).and_then(|row| row.split('\t').nth(field)).unwrap_or_default()
    }

    /// The rows whose first field is this food's number.
    pub fn of_food(&self, number: &str) -> Range<usize> {
        let key = |row: &&'static str| row.split('\t').next().unwrap_or_default();
        let start = self.rows.partition_point(|row| key(row) < number);
        let end = self.rows.partition_point(|row| key(row) <= number);
        start..end
    }
}

/// Group number, name.
pub(super) static GROUPS: LazyLock<FoodTable> = LazyLock::new(|| FoodTable::of(include_str!("tables/groups.tsv")));
/// Food number, group, description.
pub(super) static FOODS: LazyLock<FoodTable> = LazyLock::new(|| FoodTable::of(include_str!("tables/foods.tsv")));
/// Food number, place in the source, amount, measure, grams.
pub(super) static MEASURES: LazyLock<FoodTable> = LazyLock::new(|| FoodTable::of(include_str!("tables/measures.tsv")));
/// Food number, percent of the weight as purchased, what it is.
pub(super) static REFUSE: LazyLock<FoodTable> = LazyLock::new(|| FoodTable::of(include_str!("tables/refuse.tsv")));
/// Food number, measure, from, to, percent.
pub(super) static COOKED: LazyLock<FoodTable> = LazyLock::new(|| FoodTable::of(include_str!("tables/cooked.tsv")));
/// Kitchen name, category, food number, its measures by their place in the source, note.
pub(super) static KITCHEN: LazyLock<FoodTable> = LazyLock::new(|| FoodTable::of(include_str!("tables/kitchen.tsv")));
