//! Faults of price rows: which price counts on the day, and the yields beside it.

use parings::problem::Code;

use super::expect::{Book, SETTINGS, SOUND, SOUP, Written, met};

pub const BOOKS: &[Book] = &[
    Book {
        name: "prices of which none can be taken",
        written: Written::Csv(&[
            "\
Item,Pack,Price,Supplier,Date,Preferred
Onions,50 lb,30.00,North,2026-12-01,
Carrots,25 lb,20.00,North,2026-11-01,
Carrots,25 lb,21.00,North,2026-11-01,
Celery,24 ct,24.00,North,2026-11-01,
Celery,10 lb,20.00,South,2026-11-01,
Butter,36 lb,90.00,North,2026-11-01,yes
Butter,36 lb,91.00,South,2026-11-01,yes
Cream,1 gal,,North,2026-11-01,
",
            "\
Recipe,Ingredient,Qty,Unit
One,Onions,1,lb
Two,Carrots,1,lb
Three,Celery,1,each
Four,Butter,1,lb
Five,Cream,1,qt
",
            "\
Recipe,Portions
One,1
Two,1
Three,1
Four,1
Five,1
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            met(
                Code::PriceMissing,
                "E2",
                "“Onions” has no price on or before 2026-11-20",
                "Add a price row of that day",
            ),
            met(Code::PriceRowTwice, "C4", "“Carrots” has another price … 2026-11-01 at book.csv ▸ C3", "its Date"),
            met(Code::PricesNotComparable, "C6", "“Celery” … by piece at book.csv ▸ C5 … by weight here", "Preferred"),
            met(
                Code::PreferredTwice,
                "F8",
                "both “North” and “South” are preferred for “Butter”",
                "one supplier's row",
            ),
            met(Code::PriceMissing, "A9", "this row has no price", "Type what the pack costs"),
        ],
        costs: &[SOUP, ("One", None), ("Two", None), ("Three", None), ("Four", None), ("Five", None)],
    },
    Book {
        name: "prices that stand but are doubtful",
        written: Written::Csv(&[
            "\
Item,Pack,Price,Date,Allergens
Onions,50 lb,30.00,2026-08-01,
Prawns,10 lb,80.00,2026-11-01,shellfish
Prawns,10 lb,MKT,2026-11-10,stardust
",
            "\
Recipe,Ingredient,Qty,Unit
One,Onions,1,lb
Two,Prawns,1,lb
",
            "\
Recipe,Portions
One,1
Two,1
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            // From 1 August to 20 November: 30 + 30 + 31 + 20 days.
            met(Code::PriceOld, "D2", "“Onions” is 111 days old", "Ask for a new price … now 60 days"),
            met(Code::ShellfishWide, "E3", "crustaceans and molluscs", "Write crustaceans or molluscs"),
            met(
                Code::PriceIsMarket,
                "C4",
                "“Prawns” is at market price … book.csv ▸ C3, is used",
                "Type today's price",
            ),
            met(Code::AllergenUnknown, "E4", "“stardust” is not one of the listed allergens", "crustacean"),
        ],
        // 30.00 ÷ 50 and 80.00 ÷ 10.
        costs: &[SOUP, ("One", Some("0.6")), ("Two", Some("8"))],
    },
    Book {
        name: "yields of price rows",
        written: Written::Csv(&[
            "\
Item,Pack,Price,Yield
Onions,50 lb,30.00,120%
Carrots,25 lb,20.00,0%
Celery,10 lb,20.00,70%
",
            "\
Test,Role,Part,Weight
Celery test,as purchased,Celery,10 lb
Celery test,main,\"Celery, trimmed\",8 lb
",
            "\
Recipe,Ingredient,Qty,Unit,Basis,Yield
One,Onions,1,lb,,
Two,Carrots,1,lb,,
Three,Celery,4,lb,,
Four,Leeks,1,lb,AP,90%
Five,Leeks,1,lb,,0
",
            "\
Recipe,Portions
One,1
Two,1
Three,1
Four,1
Five,1
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            met(Code::YieldTooHigh, "D2", "the yield is 120% … cannot add weight", "Type at most 100%"),
            met(Code::YieldZero, "D3", "the yield is zero", "such as 85%, or leave it blank"),
            met(Code::YieldDisagrees, "D4", "says 70 % … “Celery” gives 80 %; the test is used", "Clear Yield here"),
            met(Code::YieldUnused, "F14", "“Leeks” is asked for as purchased", "Clear Yield, or set Basis to EP"),
            met(Code::YieldZero, "F15", "the yield is zero", "such as 85%, or leave it blank"),
        ],
        // Three: 4 lb trimmed of 8 that cost 20.00. Four: 1 lb as purchased at 2.00.
        costs: &[SOUP, ("One", None), ("Two", None), ("Three", Some("10")), ("Four", Some("2")), ("Five", None)],
    },
    Book {
        name: "what is borrowed from built-in foods",
        written: Written::Csv(&[
            SETTINGS,
            "Item,Pack,Price,Yield,Reference food\n\
             \"Onions, yellow\",10 lb,$8.00,90%,\n\
             Pearl leeks,10 lb,$15.00,,leek\n\
             Carrots,10 lb,$5.00,,\n\
             Thyme,1 lb,$20.00,,unicornwort\n\
             Oca,1 lb,$3.00,,\n",
            "Recipe,Soup\nPortions,1\nIngredient,Qty,Unit,Prep\n\
             \"Onions, yellow\",1,cup,sliced\n\
             Pearl leeks,1,lb,\n\
             Carrots,1,lb,\n",
            "Recipe,Tea\nPortions,1\nIngredient,Qty,Unit\nThyme,1,oz\n",
            "Recipe,Oca mash\nPortions,1\nIngredient,Qty,Unit\nOca,1,cup\n",
        ]),
        met: &[
            met(
                Code::MeasureBorrowed,
                "A6",
                "what “Onions, yellow” weighs … 1 cup, sliced = 115 g (SR28 11282)",
                "add a Measures row for “Onions, yellow”",
            ),
            met(
                Code::YieldBorrowed,
                "E7",
                "yield of “Pearl leeks” … 44 % of leek (SR28 11246), a published average",
                "Test your own",
            ),
            met(
                Code::YieldPublished,
                "A8",
                "no yield is stated for “Carrots” … carrot (SR28 11124) has a published one of 89 %",
                "write carrot in Reference food",
            ),
            met(Code::ReferenceUnknown, "E9", "no built-in food is called “unicornwort”", "parings food"),
            met(Code::MeasureMissing, "B27", "“Oca” is asked for in cup", "Add a Measures row"),
        ],
        // 115 g of onions at 0.80 a pound, 90 %: 115 × 0.8 ÷ 453.59237 ÷ 0.9; a pound of leeks at 1.50, 44 %; 0.50.
        costs: &[("Soup", Some("4.1344523326576728400925752394")), ("Tea", None), ("Oca mash", None)],
    },
];
