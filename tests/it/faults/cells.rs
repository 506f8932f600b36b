//! Faults of single cells: what stands in them is no number, date, word or value that can be read in one way.

use parings::problem::Code;

use super::cell::Cell::{Date, Error, Formula, Money, Number, Percent, Text};
use super::expect::{Book, SETTINGS, SOUND, SOUP, Written, met};
use super::sheets::{SETTINGS_SHEET, SOUP_CARD};

pub const BOOKS: &[Book] = &[
    Book {
        name: "cells that hold no value",
        written: Written::Xlsx(&[
            (
                "Prices",
                &[
                    &[Text("Item"), Text("Pack"), Text("Price"), Text("Date")],
                    &[Text("Leeks"), Text("10 lb"), Number(20.0)],
                    &[Text("Onions"), Text("50 lb"), Error("#REF!")],
                    &[Text("Carrots"), Text("25 lb"), Formula("Elsewhere!A1")],
                    &[Text("Celery"), Date(2026, 5, 6), Number(12.0)],
                    &[Text("Butter"), Text("36 lb"), Number(1e300)],
                ],
            ),
            (
                "Lines",
                &[
                    &[Text("Recipe"), Text("Ingredient"), Text("Qty"), Text("Unit")],
                    &[Text("Onion soup"), Text("Onions"), Number(1.0), Text("lb")],
                    &[Text("Carrot soup"), Text("Carrots"), Number(1.0), Text("lb")],
                    &[Text("Celery soup"), Text("Celery"), Number(1.0), Text("lb")],
                    &[Text("Leek pie"), Text("Leeks"), Date(2026, 3, 4), Text("lb")],
                    &[Text("Shortbread"), Text("Butter"), Number(1.0), Text("lb")],
                ],
            ),
            (
                "Facts",
                &[
                    &[Text("Recipe"), Text("Portions")],
                    &[Text("Onion soup"), Number(4.0)],
                    &[Text("Carrot soup"), Number(4.0)],
                    &[Text("Celery soup"), Number(4.0)],
                    &[Text("Leek pie"), Number(4.0)],
                    &[Text("Shortbread"), Number(4.0)],
                ],
            ),
            ("Soup", SOUP_CARD),
            ("Settings", SETTINGS_SHEET),
        ]),
        met: &[
            met(Code::CellError, "Prices!C3", "shows #REF!", "Mend the formula, or type the value"),
            met(Code::FormulaWithoutValue, "Prices!C4", "=Elsewhere!A1 … without its result", "save it once"),
            met(
                Code::PackIsADate,
                "Prices!B5",
                "2026-05-06 … 5/6 or 6/5 was probably typed",
                "Type it again with its unit, such as 5/6 lb",
            ),
            met(Code::NumberOutOfRange, "Prices!C6", "1e300 … too large", "Type the number in full"),
            met(Code::CellIsADate, "Lines!C5", "2026-03-04 … 3/4 or 4/3 was probably typed", "Format the cell as text"),
        ],
        costs: &[
            SOUP,
            ("Onion soup", None),
            ("Carrot soup", None),
            ("Celery soup", None),
            ("Leek pie", None),
            ("Shortbread", None),
        ],
    },
    Book {
        name: "cells that hold no number",
        written: Written::Csv(&[
            "\
Item,Pack,Price
Onions,50 lb,ask
Carrots,25 lb,\"1,234\"
Celery,24 ct,-12
",
            "\
Recipe,Portions
Onion soup,4
Carrot soup,4
Celery soup,4
Leek pie,0
",
            "\
Recipe,Ingredient,Qty,Unit
Onion soup,Onions,1,lb
Carrot soup,Carrots,1,lb
Celery soup,Celery,1,each
Leek pie,Leeks,1,lb
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            met(Code::NotANumber, "C2", "“ask” is not an amount of money", "such as 12.50, $12.50 or 38.45/cs"),
            met(Code::PriceNegative, "C4", "-12", "type what the pack costs"),
            met(Code::NumberOutOfRange, "B10", "Portions is 0", "Type how many portions"),
        ],
        // The book's $20.00 decides that 1,234 is more than a thousand: 1 lb of 25 lb, 1234 ÷ 25 = 49.36.
        costs: &[SOUP, ("Onion soup", None), ("Carrot soup", Some("49.36")), ("Celery soup", None), ("Leek pie", None)],
    },
    Book {
        name: "dates, words and ranges",
        written: Written::Csv(&[
            "\
Item,Pack,Price,Date,Preferred
Onions,50 lb,30.00,5/6/2026,
Carrots,25 lb,20.00,,maybe
",
            "\
Recipe,Ingredient,Qty,Unit,Basis
Onion soup,Onions,1,lb,
Carrot soup,Carrots,1,lb,
Leek pie,Leeks,3-4,lb,
Leek tart,Leeks,1,lb,raw
",
            "\
Recipe,Portions
Onion soup,4
Carrot soup,4
Leek pie,4
Leek tart,4
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            met(
                Code::NotADate,
                "D2",
                "“5/6/2026”, which may be 2026-05-06 or 2026-06-05",
                "Write 2026-05-06 or 2026-06-05",
            ),
            met(Code::NotYesNo, "E3", "Preferred is “maybe”", "Type yes or no"),
            met(Code::RangeGiven, "C8", "“3-4” is a range", "Write one number"),
            met(Code::BasisUnknown, "E9", "“raw”", "Type AP (as purchased) or EP (edible portion)"),
        ],
        costs: &[SOUP, ("Onion soup", None), ("Carrot soup", None), ("Leek pie", None), ("Leek tart", None)],
    },
    Book {
        name: "percentages that may be something else",
        written: Written::Csv(&[
            "\
Recipe,Portions,Q factor,Spice factor
Leek pie,4,5,
Leek tart,4,,1.5
",
            "\
Recipe,Ingredient,Qty,Unit
Leek pie,Leeks,1,lb
Leek tart,Leeks,1,lb
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            met(Code::PercentUnclear, "C2", "Q factor is 5 … percentage or money", "such as 5% or $1.40"),
            met(Code::PercentDoubtful, "D3", "Spice factor is 1.5 … 1.5 %", "Write a percent sign"),
        ],
        // The doubtful one is costed: 1 lb × 20.00 ÷ 10 lb, spice aside.
        costs: &[SOUP, ("Leek pie", None), ("Leek tart", Some("2"))],
    },
    Book {
        name: "two currencies",
        written: Written::Xlsx(&[
            (
                "Prices",
                &[
                    &[Text("Item"), Text("Pack"), Text("Price")],
                    &[Text("Leeks"), Text("10 lb"), Money(20.0)],
                    &[Text("Onions"), Text("50 lb"), Text("£30")],
                    &[Text("Carrots"), Text("50 lb"), Percent(0.3)],
                ],
            ),
            (
                "Lines",
                &[
                    &[Text("Recipe"), Text("Ingredient"), Text("Qty"), Text("Unit")],
                    &[Text("Onion soup"), Text("Onions"), Number(1.0), Text("lb")],
                    &[Text("Carrot soup"), Text("Carrots"), Number(1.0), Text("lb")],
                ],
            ),
            (
                "Facts",
                &[
                    &[Text("Recipe"), Text("Portions")],
                    &[Text("Onion soup"), Number(4.0)],
                    &[Text("Carrot soup"), Number(4.0)],
                ],
            ),
            ("Soup", SOUP_CARD),
            ("Settings", SETTINGS_SHEET),
        ]),
        met: &[
            met(Code::CurrencyMixed, "Prices!C3", "“£” stands here … in USD", "Type the amount in USD"),
            met(Code::NotANumber, "Prices!C4", "Price is 30% … money is wanted", "Type the amount of money"),
        ],
        costs: &[SOUP, ("Onion soup", None), ("Carrot soup", None)],
    },
];
