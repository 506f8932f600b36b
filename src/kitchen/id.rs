//! Identifiers within one kitchen: an id never stands for another kind of thing.
//!
//! ```compile_fail
//! use parings::kitchen::{Kitchen, RecipeId};
//! fn price_of(kitchen: &Kitchen, id: RecipeId) {
//!     kitchen.item(id); // a recipe is not an item
//! }
//! ```

/// Declares an index type.
macro_rules! id {
    ($name:ident $what:literal) => {
        #[doc = $what]
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub struct $name(u32);

        impl $name {
            /// The id of the thing at `index` of its list.
            pub(crate) fn new(index: usize) -> Self {
                $name(u32::try_from(index).unwrap_or(u32::MAX))
            }

            /// Its place in its list.
            pub fn index(self) -> usize {
                self.0 as usize
            }
        }
    };
}

id!(ItemId "Something bought.");
id!(TestId "A yield test, pooled over its runs.");
id!(RecipeId "A recipe.");
id!(DishId "A dish of the menu that a recipe's line names.");

/// What came out of a yield test.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct PartId {
    /// The test.
    pub test: TestId,
    part: u32,
}

impl PartId {
    /// The part at `index` of `test`.
    pub(crate) fn new(test: TestId, index: usize) -> Self {
        PartId { test, part: u32::try_from(index).unwrap_or(u32::MAX) }
    }

    /// Its place among the parts of its test.
    pub fn index(self) -> usize {
        self.part as usize
    }
}

/// Something that has a cost of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Node {
    /// Bought.
    Item(ItemId),
    /// Fabricated.
    Test(TestId),
    /// Made.
    Recipe(RecipeId),
}
