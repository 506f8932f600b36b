//! Second marks of our own output sheets: titles and rows of headers that no other table has. A sheet whose first cell
//! was typed over, moved or copied is known by them still.

/// The dishes of the Summary.
pub const SUMMARY: [&str; 8] =
    ["Dish", "Portion cost", "Menu price", "Food cost %", "Target %", "Price at target", "Margin", "Standing"];
/// The recipes of the Summary, where there is no dish.
pub const RECIPES_MADE: [&str; 6] = ["Recipe", "Batch cost", "Cost per unit", "made", "Portion cost", "Portion"];
/// Problems.
pub const PROBLEMS: [&str; 5] = ["Severity", "Where", "What", "What to do", "Code"];
/// The dishes of How it was figured.
pub const WORKING: [&str; 8] =
    ["Dish", "Recipe", "Share of batch", "Food", "Q", "Spice", "Portion cost", "Price without tax"];
/// The lines of How it was figured.
pub const WORKING_LINES: [&str; 8] =
    ["Recipe", "Ingredient", "Quantity", "In g, ml or each", "Measure", "Yield", "Price", "Line cost"];
/// Where the weight and the money went, on Trim.
pub const TRIM_FLOW: [&str; 9] =
    ["Out of it came", "Role", "Weight", "Unit", "Of what went in", "Charged as", "Bears", "Of the money", "Per unit"];
/// A sweep of What if, before its dishes.
pub const WHAT_IF: [&str; 4] = ["Charged", "It bears", "The rest bears", "In all"];
/// The lines of an order.
pub const ORDER: [&str; 13] = [
    "Done", "Item", "Code", "Order", "Pack", "Price", "Money", "Wanted", "On hand", "On order", "Left", "Unit",
    "Remarks",
];
/// The items of What changed.
pub const MOVERS: [&str; 8] = ["Item", "Per", "Before", "Now", "Moved", "Quantity", "Worth", "What happened"];

/// The menu prices of In pictures.
pub const PRICES_APART: [&str; 8] = ["Dish", "Food", "Food from trim", "Q", "Spice", "Tax", "Margin", "Menu price"];

/// The dishes of Menu mix.
pub const MENU_MIX: [&str; 9] = [
    "Dish",
    "Class",
    "What to try",
    "Class, trim bought",
    "Sold",
    "% of group",
    "Margin",
    "Margin in all",
    "Margin, trim bought",
];

/// The title of Food cost.
pub const FOOD_COST_TITLE: &str = "What the food sold did cost, and ought to have";
/// The title of Menu mix.
pub const MENU_MIX_TITLE: &str = "The menu by popularity and margin";
/// The title of In pictures.
pub const IN_PICTURES_TITLE: &str = "The menu in pictures";
/// The title of Trim.
pub const TRIM_TITLE: &str = "Trim given its due";
/// The title of What if.
pub const WHAT_IF_TITLE: &str = "What if the trim were charged more, or less?";
/// What stands below the title of What changed, behind the day.
pub const CHANGED_SAID: &str = "Slanted figures are those before the new prices; the others are live.";

/// What stands beside the name of a recipe on Kitchen cards, and leads to the card that costs it.
pub const TO_ITS_COSTING: &str = "To its costing";

/// What stands beside the name of a recipe on a kitchen card in another size.
pub const SCALED: &str = "A kitchen card in another size";

const HEADERS: [&[&str]; 11] = [
    &SUMMARY,
    &RECIPES_MADE,
    &PROBLEMS,
    &WORKING,
    &WORKING_LINES,
    &TRIM_FLOW,
    &WHAT_IF,
    &ORDER,
    &MOVERS,
    &PRICES_APART,
    &MENU_MIX,
];

/// Whether a cell with this text stands on one of our output sheets and nowhere else.
pub fn is_title(text: &str) -> bool {
    [TRIM_TITLE, WHAT_IF_TITLE, IN_PICTURES_TITLE, MENU_MIX_TITLE, FOOD_COST_TITLE, TO_ITS_COSTING, SCALED]
        .contains(&text)
        || text.ends_with(CHANGED_SAID)
}

/// Whether the texts of a row are the headers of a table that only our output has, be it with columns put in between.
pub fn is_header_row<'t>(texts: impl Iterator<Item = &'t str> + Clone) -> bool {
    HEADERS.iter().any(|headers| {
        let mut texts = texts.clone();
        headers.iter().all(|header| texts.any(|text| text == *header))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headers_are_known_with_a_column_put_in_and_not_in_another_order() {
        let row = ["Severity", "Where", "Who", "What", "What to do", "Code"];
        assert!(is_header_row(row.into_iter()));
        assert!(!is_header_row(row.into_iter().rev()));
        assert!(!is_header_row(["Severity", "Where", "What", "What to do"].into_iter()), "one is missing");
    }

    #[test]
    fn a_costed_menu_is_no_summary() {
        let row =
            ["Dish", "Menu price", "Target", "Portion cost", "Food cost %", "Price at target", "Margin", "Standing"];
        assert!(!is_header_row(row.into_iter()));
    }
}
