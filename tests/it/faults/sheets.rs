//! Faults of sheets, tables and rows.

use parings::problem::Code;

use super::cell::Cell::{self, Number, Text};
use super::expect::{Book, SETTINGS, SOUND, SOUP, Written, met};

pub const BOOKS: &[Book] = &[
    Book {
        name: "columns, headings and totals",
        written: Written::Csv(&[
            "\
Item,Pack,Price,Cost,Mood
PRODUCE
Leeks,10 lb,20.00,21.00,fresh
",
            "\
Recipe,Leek soup
Portions,4
Chef,Ana
Ingredient,Qty,Unit
Leeks,2,lb
Total,2
",
            SETTINGS,
        ]),
        met: &[
            met(Code::ColumnTwice, "D1", "“Cost” and “Price” mean the same … “Price” was used", "rename “Price”"),
            met(Code::ColumnIgnored, "E1", "“Mood” is not a column … prices", "Nothing to do"),
            met(Code::HeadingKept, "A2", "“PRODUCE” … heading", "fill in the rest of its row"),
            met(Code::LabelUnknown, "A7", "“Chef” is not a label … “Ana”", "beside Note or Method"),
            met(Code::TotalSkipped, "A10", "“Total” was skipped", "give it another"),
        ],
        // 2 lb × 20.00 ÷ 10 lb: the price under Price counts, not the one under Cost.
        costs: &[("Leek soup", Some("4"))],
    },
    Book {
        name: "a header that fits two kinds, and rows above it",
        written: Written::Csv(&[
            "\
Spring menu,2026
Kept by,Ana
Item,On hand,Measure,Weighs
Onions,3 lb,each,100 g
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            met(Code::RowsNotRead, "A1", "rows 1 to 2 stand above the first table", "give them a header row"),
            met(Code::TableAmbiguous, "A3", "measures and stock", "Make two tables of it"),
        ],
        costs: &[SOUP],
    },
    Book {
        name: "rows without a name",
        written: Written::Csv(&[
            "\
Item,Pack,Price
,50 lb,30.00
",
            "\
Recipe,Onion soup
Portions,4
Ingredient,Qty,Unit
Leeks,2,lb
,3,lb
",
            "\
Recipe,Ingredient,Qty,Unit
,Leeks,1,lb
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            met(Code::RowNotUnderstood, "B2", "no Item", "Fill Item, or clear the row"),
            met(Code::RowNotUnderstood, "B8", "no Ingredient", "Fill Ingredient, or clear the row"),
            met(Code::RowNotUnderstood, "B11", "no Recipe", "Fill Recipe, or clear the row"),
        ],
        // What the row without an ingredient stands for is not known, so Onion soup has no cost.
        costs: &[SOUP, ("Onion soup", None)],
    },
    Book {
        name: "a card without a name",
        written: Written::Csv(&[
            "\
Recipe
Makes,3 qt
Ingredient,Qty,Unit
Leeks,2,lb
Nettles,2,lb
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            met(Code::RowNotUnderstood, "B2", "no Recipe", "Fill Recipe"),
            met(Code::NameUnknown, "A5", "“Nettles” has no price, no recipe and no yield test", "Add a price row"),
        ],
        costs: &[SOUP, ("", None)],
    },
    Book {
        name: "a unit in the header and another in the cell",
        written: Written::Csv(&[
            "\
Recipe,Ingredient,Qty (kg)
Leek pie,Leeks,3 lb
Leek tart,Leeks,0.45359237
",
            "\
Recipe,Portions
Leek pie,4
Leek tart,4
",
            SOUND,
            SETTINGS,
        ]),
        met: &[met(
            Code::UnitTwice,
            "C2",
            "Qty is in lb, but its column or the unit beside it says kg",
            "Keep one of the two units",
        )],
        // 0.45359237 kg is one pound: 20.00 ÷ 10.
        costs: &[SOUP, ("Leek pie", None), ("Leek tart", Some("2"))],
    },
    Book {
        name: "a sheet without a table",
        written: Written::Xlsx(&[
            ("Notes", &[&[Text("Call the fishmonger")], &[Text("Ana"), Number(555.0)]]),
            ("Prices", &[&[Text("Item"), Text("Pack"), Text("Price")], &[Text("Leeks"), Text("10 lb"), Number(20.0)]]),
            ("Near", &[&[Text("Item"), Text("Price")], &[Text("Nettles"), Number(2.0)]]),
            ("Soup", SOUP_CARD),
            ("Settings", SETTINGS_SHEET),
        ]),
        met: &[
            met(Code::SheetNotRead, "Notes", "no table or recipe card", "give it a header row"),
            met(Code::SheetNotRead, "Near!A1", "no table or recipe card", "header of prices with one of “Pack”"),
        ],
        costs: &[SOUP],
    },
];

/// [`SOUND`]'s card as a worksheet.
pub const SOUP_CARD: &[&[Cell]] = &[
    &[Text("Recipe"), Text("Leek soup")],
    &[Text("Portions"), Number(4.0)],
    &[Text("Ingredient"), Text("Qty"), Text("Unit")],
    &[Text("Leeks"), Number(2.0), Text("lb")],
];

/// [`SETTINGS`] as a worksheet.
pub const SETTINGS_SHEET: &[&[Cell]] =
    &[&[Text("Setting"), Text("Value")], &[Text("Currency"), Text("USD")], &[Text("Target food cost"), Text("30%")]];
