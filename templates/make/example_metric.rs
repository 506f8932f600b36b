//! The example of the metric template: cod is filleted, its frames become a stock, the stock a soup on the menu.
//!
//! Worked by hand in tests/it/templates.rs.

use super::book::{FIRST_DAY, LAST_DAY, MARK, PROMOTION, Rows, owned};
use super::card::Example;
use super::pen::{Cell, pct, row};
use super::region::eur;

/// The rows.
#[rustfmt::skip]
pub fn rows() -> Rows {
    Rows {
        prices: owned(&[
            // Item, Supplier, Pack, Price, Per, Date, Until, Yield, Preferred, Also called, Allergens, May contain, Reference food, Note
            row!["Whole cod", "Fish supplier", "10 kg avg", eur(9.00), "kg", "", "", "", "", "", "fish", "", "", MARK],
            row!["Leeks", "Greengrocer", "5 kg", eur(10.00), "", "", "", pct(50.0), "", "", "none", "", "", MARK],
            row!["Potatoes", "Greengrocer", "10 kg", eur(8.00), "", "", "", pct(80.0), "", "", "none", "", "", MARK],
            row!["Cream", "Dairy", "6 x 1 l", eur(27.00), "", "", "", "", "", "", "milk", "", "", MARK],
            row!["Butter", "Dairy", "20 x 250 g", eur(40.00), "", "", "", "", "", "", "milk", "", "", MARK],
            row!["Salt", "Dry goods supplier", "10 x 1 kg", eur(9.00), "", "", "", "", "", "", "none", "", "", MARK],
            row!["Salt", "Dry goods supplier", "25 kg", eur(14.00), "", "", PROMOTION, "", "", "", "none", "", "", MARK],
            row!["Fish bones", "Fish supplier", "10 kg", eur(12.00), "", "", "", "", "", "", "fish", "", "", MARK],
            row!["Plum tomatoes, canned", "Dry goods supplier", "6xA10 (2.5 kg)", eur(27.00), "", "", "", "", "", "", "none", "", "", MARK],
        ]),
        measures: owned(&[
            row!["Leeks", "each", "300 g", "", "AP", MARK],
            // What is left of the label's 2.5 kg when the can is drained.
            row!["Plum tomatoes, canned", "A10 can", "1.5 kg", "", "EP", MARK],
        ]),
        tests: owned(&[
            // Test, Role, Part, Weight, Unit, Kind, Charged as, Value, Further cost, Price, Instead of, Otherwise, Eaten, Keeps, Date, Run, Note
            row!["Filleting cod", "as purchased", "Whole cod", 10, "kg", "trim", "", "", "", "", "", "", "", "", "", "", MARK],
            row!["Filleting cod", "main", "Cod fillet", 4.5, "kg", "", "", eur(26.00), "", "", "", "", "", "", "", "", MARK],
            row!["Filleting cod", "by-product", "Cod frames", 3, "kg", "", "price", eur(0.90), "", "", "1 kg Fish bones per kg", "sold 0.30 / kg", pct(0.0), 2, "", "", MARK],
            row!["Filleting cod", "waste", "Skin and trimmings", 2, "kg", "", "", "", "", "", "", "", "", "", "", "", MARK],
        ]),
        cards: vec![
            Example {
                labels: vec![("Recipe", Cell::Text("Fish stock")), ("Makes", Cell::Text("3 l"))],
                lines: owned(&[
                    row!["Cod frames", 3, "kg"],
                    row!["Leeks", 2, "each"],
                    row!["Water", "3 1/2", "l"],
                ]),
            },
            Example {
                labels: vec![
                    ("Recipe", Cell::Text("Cod and potato soup")),
                    ("Makes", Cell::Text("5 l")),
                    ("Portion", Cell::Text("250 ml")),
                    ("Serving loss", Cell::Percent(4.0)),
                ],
                lines: owned(&[
                    row!["Fish stock", 3, "l"],
                    row!["Potatoes", 1.5, "kg"],
                    row!["Cod fillet", 600, "g"],
                    row!["Leeks", 4, "each"],
                    row!["Cream", 500, "ml"],
                    row!["Butter", 150, "g"],
                    row!["Salt", "to taste", ""],
                ]),
            },
            Example {
                labels: vec![("Recipe", Cell::Text("Cod with leeks")), ("Portions", Cell::Number(8.0))],
                lines: owned(&[
                    row!["Cod fillet", 1.2, "kg"],
                    row!["Leeks", 8, "each"],
                    row!["Cream", 200, "ml"],
                    row!["Butter", 100, "g"],
                ]),
            },
        ],
        menu: owned(&[
            // Dish, Recipe, Portion, Menu price, Target, Tax, Group, Sold, Note
            row!["Cod and potato soup", "", "", eur(8.50), "", "", "Soups", 110, MARK],
            row!["Cod and potato soup, small", "Cod and potato soup", "150 ml", eur(5.50), "", "", "Soups", 60, MARK],
            row!["Cod with leeks", "", "", eur(18.50), "", "", "Plates", 80, MARK],
        ]),
        plan: owned(&[
            row!["Cod and potato soup", 20, "Friday", MARK],
            row!["Cod with leeks", 16, "Friday", MARK],
        ]),
        stock: owned(&[
            row!["Cod frames", 2, "kg", "", MARK],
            row!["Butter", 2, "kg", "1 case", MARK],
        ]),
        suppliers: owned(&[row!["Fish supplier", eur(75.00), MARK]]),
        // Period, From, To, Opening, Purchases, Closing, Transfers in, Transfers out, Staff meals, Comps, Waste, Sales
        control: owned(&[row!["EXAMPLE – week 47", FIRST_DAY, LAST_DAY, eur(310.00), eur(520.00), eur(290.00), "", eur(10.00), eur(25.00), eur(5.00), eur(8.00), eur(2495.45)]]),
        // Item, Opening, Purchases, Closing, Waste, Unit, Paid, Note
        counts: owned(&[
            row!["Potatoes", 8, 20, 13, 0.5, "kg", eur(16.00), MARK],
            row!["Butter", 6, "", 4, "", "kg", "", MARK],
        ]),
    }
}
