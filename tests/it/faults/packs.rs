//! Faults of packs, units and measures.

use parings::problem::Code;

use super::expect::{Book, SETTINGS, SOUND, SOUP, Written, met};

pub const BOOKS: &[Book] = &[
    Book {
        name: "packs that say too little or too much",
        written: Written::Csv(&[
            "\
Item,Pack,Price,Per,Pack count,Unit size,Size unit
Onions,a sack,12.00,,,,
Prawns,16/20 ct,12.00,,,,
Carrots,6/5,12.00,,,,
Cream,1/2 gal,12.00,,,,
Beef,10 lb avg,12.00,,,,
Celery,,12.00,,,,
Butter,36 lb,12.00,,30,1,lb
Limes,24 ct,12.00,EA,,,
Flour,50,12.00,,,,
Oats,,12.00,flurbs,,,
",
            "\
Recipe,Ingredient,Qty,Unit
One,Onions,1,lb
Two,Prawns,1,lb
Three,Carrots,1,lb
Four,Cream,1,qt
Five,Beef,1,lb
Six,Celery,1,each
Seven,Butter,1,lb
Eight,Limes,1,each
Nine,Flour,1,lb
Ten,Oats,1,lb
",
            "\
Recipe,Portions
One,1
Two,1
Three,1
Four,1
Five,1
Six,1
Seven,1
Eight,1
Nine,1
Ten,1
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            met(Code::PackNotUnderstood, "B2", "“a sack”", "50 lb, 6/5 lb, 12 x 750 ml"),
            met(Code::PackIsAGrade, "B3", "“16/20 ct” is a count grade", "such as 5 lb or 10/2 lb"),
            met(Code::PackIsARatio, "B4", "“6/5” lacks its unit", "such as 6/5 lb if it is 6 packs of 5 lb"),
            met(Code::PackIsAFraction, "B5", "“1/2 gal” may be", "0.5 gal … 1 x 2 gal"),
            met(Code::PackNominal, "B6", "10 lb avg is nominal", "its unit in Per"),
            met(Code::PackMissing, "A7", "does not say what it is for", "such as 50 lb, or a unit in Per"),
            met(Code::PackConflict, "B8", "36 lb … 30 × 1 lb = 30 lb", "Keep one of the two"),
            met(Code::PerAmbiguous, "D9", "EACH may mean the pack of 24 each", "Leave Per blank"),
            met(Code::UnitMissing, "B10", "50 of what", "50 lb, 50 ct"),
            met(Code::UnitUnknown, "D11", "“flurbs” is not a unit", "such as lb, oz, kg"),
        ],
        costs: &[
            SOUP,
            ("One", None),
            ("Two", None),
            ("Three", None),
            ("Four", None),
            ("Five", None),
            ("Six", None),
            ("Seven", None),
            ("Eight", None),
            ("Nine", None),
            ("Ten", None),
        ],
    },
    Book {
        name: "quantities that meet no price",
        written: Written::Csv(&[
            "\
Item,Measure,Weighs,Holds
Parsley,\"cup, chopped\",60 g,
Parsley,\"cup, whole\",25 g,
Nettles,cup,20 g,
Leeks,bunch,,
",
            "\
Item,Pack,Price
Parsley,10 lb,50.00
Cream,1 gal,16.00
",
            "\
Recipe,Portions
One,1
Two,1
Three,1
Four,1
Five,1
",
            "\
Recipe,Ingredient,Qty,Unit
One,Parsley,1,cup
Two,Cream,8,oz
Three,Cream,2,each
Four,Leeks,1,bunch
Five,Parsley,2,
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            met(
                Code::MeasureUnused,
                "A4",
                "nothing in the book is called “Nettles”",
                "Correct the name, or delete the row",
            ),
            met(Code::MeasureIncomplete, "A5", "neither … weighs nor what it holds", "such as 4 oz or 110 g in Weighs"),
            met(Code::MeasureAmbiguous, "C19", "“chopped” and “whole”", "Fill Prep with one of them"),
            met(Code::OunceOfLiquid, "C20", "“Cream” is priced by volume", "Write fl oz, or oz wt"),
            met(
                Code::MeasureMissing,
                "C21",
                "“Cream” is asked for in pieces but priced by volume",
                "Add a Measures row … Holds what it holds",
            ),
            met(
                Code::MeasureMissing,
                "C23",
                "“Parsley” is asked for in pieces but priced by weight",
                "Weighs what it weighs",
            ),
            met(Code::UnitAssumed, "C23", "2 without a unit was read as 2 each", "Write each in Unit"),
        ],
        // 8 fl oz of 128 at 16.00.
        costs: &[SOUP, ("One", None), ("Two", Some("1")), ("Three", None), ("Four", None), ("Five", None)],
    },
    Book {
        name: "cans whose label weight nobody typed",
        written: Written::Csv(&[
            "\
Item,Pack,Price
Plum tomatoes,6/#10,42.00
Chickpeas,6xA10,42.00
Cream,1 gal,16.00
",
            "\
Recipe,Ingredient,Qty,Unit
One,Plum tomatoes,10.5,oz
Two,Chickpeas,2,can
Three,Plum tomatoes,1,#10 can
Three,Cream,2,#16 scoop
Four,Cream,3,4 oz ladle
Five,Cream,2 #8 scoops,
Five,Cream,4 oz ladle,
Six,Chickpeas,1.2,US cup
",
            "\
Recipe,Portions
One,1
Two,1
Three,1
Four,1
Five,1
Six,1
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            met(
                Code::CanPublished,
                "C7",
                "a #10 can of “Plum tomatoes” weighs … 105 oz (2977 g), where figures run from 96 to 117 oz",
                "such as 6/#10 (6 lb 9 oz), or a Measures row: Item Plum tomatoes, Measure #10 can, Weighs",
            ),
            met(
                Code::CanPublished,
                "C14",
                "a #10 can of “Chickpeas” holds … 96 US fl oz",
                "Item Chickpeas, Measure #10 can, Holds",
            ),
        ],
        // A can is 7.00 and holds 105 oz or 96 fl oz by published figures. Cream is 16 ÷ 128 = 0.125 a fl oz: two scoops
        // of 32 ÷ 16 fl oz 0.50, three ladles of 4 fl oz 1.50, two scoops of 4 fl oz and 4 fl oz 1.50.
        costs: &[
            SOUP,
            ("One", Some("0.7")),
            ("Two", Some("14")),
            ("Three", Some("7.5")),
            ("Four", Some("1.5")),
            ("Five", Some("1.5")),
            ("Six", Some("0.7")),
        ],
    },
];
