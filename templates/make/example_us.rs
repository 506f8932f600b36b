//! The example of the US template: a turkey is boned, its bones become a stock, the stock a soup on the menu.
//!
//! Worked by hand in tests/it/templates.rs.

use super::book::{FIRST_DAY, LAST_DAY, MARK, PROMOTION, Rows, owned};
use super::card::Example;
use super::pen::{Cell, pct, row, usd};

/// The rows.
#[rustfmt::skip]
pub fn rows() -> Rows {
    Rows {
        prices: owned(&[
            // Item, Supplier, Pack, Price, Per, Date, Until, Yield, Preferred, Also called, Allergens, May contain, Reference food, Note
            row!["Whole turkey", "Poultry supplier", "2/16 lb avg", usd(1.50), "lb", "", "", "", "", "", "none", "", "", MARK],
            row!["Onions", "Greengrocer", "50 lb", usd(30.00), "", "", "", pct(80.0), "", "", "none", "", "", MARK],
            row!["Carrots", "Greengrocer", "25 lb", usd(16.00), "", "", "", pct(80.0), "", "", "none", "", "", MARK],
            row!["Rice", "Dry goods supplier", "25 lb", usd(20.00), "", "", "", "", "", "", "none", "", "", MARK],
            row!["Butter", "Dairy", "36/1 lb", usd(158.40), "", "", "", "", "", "", "milk", "", "", MARK],
            row!["Salt", "Dry goods supplier", "12/3 lb", usd(27.00), "", "", "", "", "", "", "none", "", "", MARK],
            row!["Salt", "Dry goods supplier", "25 lb", usd(9.50), "", "", PROMOTION, "", "", "", "none", "", "", MARK],
            row!["Chicken backs", "Poultry supplier", "40 lb", usd(26.00), "", "", "", "", "", "", "none", "", "", MARK],
            row!["Plum tomatoes, canned", "Dry goods supplier", "6/#10 (6 lb 6 oz)", usd(36.00), "", "", "", "", "", "", "none", "", "", MARK],
        ]),
        measures: owned(&[
            row!["Carrots", "cup, diced", "4 1/2 oz", "", "EP", MARK],
            // What is left of the label's 6 lb 6 oz when the can is drained.
            row!["Plum tomatoes, canned", "#10 can", "4 lb 2 oz", "", "EP", MARK],
        ]),
        tests: owned(&[
            // Test, Role, Part, Weight, Unit, Kind, Charged as, Value, Further cost, Price, Instead of, Otherwise, Eaten, Keeps, Date, Run, Note
            row!["Boning turkey", "as purchased", "Whole turkey", 32, "lb", "trim", "", "", "", "", "", "", "", "", "", "", MARK],
            row!["Boning turkey", "main", "Turkey breast", 12, "lb", "", "", usd(6.00), "", "", "", "", "", "", "", "", MARK],
            row!["Boning turkey", "main", "Turkey leg meat", 8, "lb", "", "", usd(3.00), "", "", "", "", "", "", "", "", MARK],
            row!["Boning turkey", "by-product", "Turkey bones", 8, "lb", "", "fraction", pct(20.0), "", "", "1 lb Chicken backs per lb", "sold 0.20 / lb", pct(0.0), 3, "", "", MARK],
            row!["Boning turkey", "waste", "Skin and scraps", 2, "lb", "", "", "", "", "", "", "", "", "", "", "", MARK],
        ]),
        cards: vec![
            Example {
                labels: vec![("Recipe", Cell::Text("Turkey stock")), ("Makes", Cell::Text("9 qt"))],
                lines: owned(&[
                    row!["Turkey bones", 8, "lb"],
                    row!["Onions", 1, "lb"],
                    row!["Water", 12, "qt"],
                ]),
            },
            Example {
                labels: vec![
                    ("Recipe", Cell::Text("Turkey and rice soup")),
                    ("Makes", Cell::Text("10 qt")),
                    ("Portion", Cell::Text("10 fl oz")),
                    ("Serving loss", Cell::Percent(5.0)),
                ],
                lines: owned(&[
                    row!["Turkey stock", 8, "qt"],
                    row!["Turkey leg meat", 4, "lb"],
                    row!["Carrots", 8, "cup", "diced"],
                    row!["Onions", 2, "lb"],
                    row!["Rice", "1 1/2", "lb"],
                    row!["Butter", 8, "oz"],
                    row!["Salt", "to taste", ""],
                ]),
            },
            Example {
                labels: vec![("Recipe", Cell::Text("Turkey breast with carrots")), ("Portions", Cell::Number(10.0))],
                lines: owned(&[
                    row!["Turkey breast", 5, "lb"],
                    row!["Carrots", 2, "lb"],
                    row!["Butter", 4, "oz"],
                    row!["Turkey stock", 1, "qt"],
                ]),
            },
        ],
        menu: owned(&[
            // Dish, Recipe, Portion, Menu price, Target, Tax, Group, Sold, Note
            row!["Turkey and rice soup, bowl", "Turkey and rice soup", "", usd(6.95), "", "", "Soups", 120, MARK],
            row!["Turkey and rice soup, cup", "Turkey and rice soup", "6 fl oz", usd(4.95), "", "", "Soups", 90, MARK],
            row!["Turkey breast with carrots", "", "", usd(13.95), "", "", "Plates", 75, MARK],
        ]),
        plan: owned(&[
            row!["Turkey and rice soup, bowl", 24, "Friday", MARK],
            row!["Turkey breast with carrots", 20, "Friday", MARK],
        ]),
        stock: owned(&[
            row!["Turkey bones", 6, "lb", "", MARK],
            row!["Butter", 4, "lb", "1 case", MARK],
        ]),
        suppliers: owned(&[row!["Poultry supplier", usd(75.00), MARK]]),
        // Period, From, To, Opening, Purchases, Closing, Transfers in, Transfers out, Staff meals, Comps, Waste, Sales
        control: owned(&[row!["EXAMPLE – week 47", FIRST_DAY, LAST_DAY, usd(180.00), usd(240.00), usd(160.00), "", usd(5.00), usd(12.00), usd(3.00), usd(4.00), usd(2325.75)]]),
        // Item, Opening, Purchases, Closing, Waste, Unit, Paid, Note
        counts: owned(&[
            row!["Carrots", 12, 50, 26, 1, "lb", usd(32.00), MARK],
            row!["Butter", 20, "", 15, "", "lb", "", MARK],
        ]),
    }
}
