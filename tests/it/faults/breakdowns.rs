//! Faults of yield tests.

use parings::problem::Code;

use super::expect::{Book, SETTINGS, SOUND, SOUP, Written, met};

pub const BOOKS: &[Book] = &[
    Book {
        name: "tests that are not whole",
        written: Written::Csv(&[
            "\
Test,Role,Part,Weight,Kind
Cod test,as purchased,Cod,10 lb,
Cod test,tail,Cod fillet,5 lb,
Hake test,as purchased,Hake,10 lb,
Hake test,waste,Hake bones,5 lb,
Ling test,as purchased,Ling,10 lb,
Ling test,main,Ling,5 lb,
Pike test,as purchased,Pike,10 lb,
Pike test,main,Pike fillet,11 lb,
Bass test,main,Bass fillet,5 lb,
Sole test,as purchased,Sole,10 lb,frying
Sole test,main,Sole fillet,,
",
            "\
Item,Pack,Price
Cod,10 lb,50.00
Hake,10 lb,50.00
Ling,10 lb,50.00
Pike,10 lb,50.00
Sole,10 lb,50.00
",
            "\
Recipe,Ingredient,Qty,Unit,Basis
One,Cod,1,lb,
Two,Hake,1,lb,
Three,Ling,1,lb,AP
Four,Pike fillet,1,lb,
Five,Bass fillet,1,lb,
Six,Sole fillet,1,lb,
Seven,Hake,1,lb,AP
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
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            met(Code::RoleUnknown, "B3", "the role is “tail”", "as purchased, added, main, by-product or waste"),
            met(Code::MainMissing, "A4", "“Hake test” has no main", "Set the Role"),
            met(Code::PartNamedAsInput, "C7", "“Ling” is both", "“Ling, trimmed”"),
            met(Code::PartsOverweight, "D8", "“Pike test” weighs 1 lb more", "Check the weights"),
            met(Code::TestNotUnderstood, "A10", "“Bass test” does not say what went in", "Role as purchased"),
            met(Code::TestNotUnderstood, "E11", "the kind of test is “frying”", "trim or cooking"),
            met(Code::TestNotUnderstood, "C12", "the weight is blank", "such as 2 lb 8 oz"),
        ],
        costs: &[
            SOUP,
            ("One", None),
            ("Two", None),
            // The name means what came out of the test as well as what went in.
            ("Three", None),
            ("Four", None),
            ("Five", None),
            ("Six", None),
            // As purchased, Hake needs no test: 50.00 ÷ 10.
            ("Seven", Some("5")),
        ],
    },
    Book {
        name: "charges that cannot stand",
        written: Written::Csv(&[
            "\
Test,Role,Part,Weight,Charged as,Value,Further cost
Cod test,as purchased,Cod,10 lb,,,
Cod test,main,Cod fillet,6 lb,,,
Cod test,by-product,Cod frames,2 lb,gift,,
Hake test,as purchased,Hake,10 lb,free,,
Hake test,main,Hake fillet,6 lb,,,
Ling test,as purchased,Ling,10 lb,,,
Ling test,main,Ling fillet,6 lb,by weight,,
Ling test,by-product,Ling cheeks,1 lb,by sales value,$4.00,
Pike test,as purchased,Pike,10 lb,,,
Pike test,main,Pike fillet,6 lb,,,
Pike test,by-product,Pike frames,2 lb,price,,
Sole test,as purchased,Sole,10 lb,,,
Sole test,main,Sole fillet,6 lb,,,
Sole test,by-product,Sole frames,2 lb,,1.20,
Tuna test,as purchased,Tuna,10 lb,,,
Tuna test,main,Tuna loin,6 lb,,,
Tuna test,by-product,Tuna frames,2 lb,market,,
Carp test,as purchased,Carp,10 lb,,,
Carp test,main,Carp fillet,6 lb,,,
Carp test,by-product,Carp frames,2 lb,price,$30.00,
",
            "\
Item,Pack,Price
Cod,10 lb,50.00
Hake,10 lb,50.00
Ling,10 lb,50.00
Pike,10 lb,50.00
Sole,10 lb,50.00
Tuna,10 lb,50.00
Carp,10 lb,50.00
",
            "\
Recipe,Ingredient,Qty,Unit
One,Cod fillet,1,lb
Two,Hake fillet,1,lb
Three,Ling fillet,1,lb
Four,Pike fillet,1,lb
Five,Sole fillet,1,lb
Six,Tuna loin,1,lb
Seven,Carp fillet,1,lb
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
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            met(Code::ChargeUnknown, "E4", "“gift” is no way of charging", "Type free, fraction, price, market"),
            met(Code::ChargeMisplaced, "E5", "as purchased cannot be charged as free", "Clear Charged as"),
            met(Code::JointMixed, "E9", "“Ling test” … by weight and by sales value", "Keep one joint method"),
            met(Code::ValueMissing, "C12", "“Pike frames” needs a value: money per Unit", "Fill the Value column"),
            met(
                Code::ValueUncharged,
                "F15",
                "“Sole frames” has a value",
                "price (the value is money per Unit), fraction",
            ),
            met(Code::NoBuyIn, "E18", "“Tuna frames” is charged at market", "Fill Instead of"),
            // 2 lb × 30.00 against 10 lb × 5.00.
            met(
                Code::CreditOverCost,
                "F21",
                "“Carp test” … 60.00 of credits against a cost of 50.00 … 2 lb at 30.00 per lb: 60.00",
                "Value is money for one lb … Lower it",
            ),
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
        ],
    },
    Book {
        name: "tests that stand but are doubtful, and runs that differ",
        written: Written::Csv(&[
            "\
Test,Run,Role,Part,Weight,Charged as,Value,Further cost,Price
Cod test,1,as purchased,Cod,1000 g,,,,
Cod test,1,main,Cod fillet,900 g,,,,
Cod test,1,by-product,Cod frames,104 g,,,,
Hake test,1,as purchased,Hake,10 lb,,,,
Hake test,1,main,Hake fillet,5 lb,,,,
Hake test,1,by-product,Hake frames,2 lb,,,,
Hake test,2,as purchased,Hake,10 lb,,,,
Hake test,2,main,Hake fillet,5 lb,,,,
Ling test,1,as purchased,Ling,10 lb,,,,
Ling test,1,main,Ling fillet,5 lb,,,,
Ling test,1,by-product,Ling frames,2 lb,price,$15.00,,
Pike test,1,as purchased,Pike,10 lb,,,,4.00
Pike test,1,main,Pike fillet,5 lb,net realizable value,$10.00,,
Pike test,1,by-product,Pike skin,1 lb,net realizable value,$1.00,$2.00,
Sole test,1,as purchased,Sole,10 lb,,,,
Sole test,1,main,Sole fillet,5 lb,,,,
Sole test,1,by-product,Sole frames,2 lb,free,,,
Sole test,2,as purchased,Sole,10 lb,,,,
Sole test,2,main,Sole fillet,5 lb,,,,
Sole test,2,by-product,Sole frames,2 lb,price,$1.00,,
",
            "\
Item,Pack,Price
Cod,1000 g,9.00
Hake,10 lb,50.00
Ling,10 lb,50.00
Sole,10 lb,50.00
",
            "\
Recipe,Ingredient,Qty,Unit
One,Cod fillet,100,g
Two,Hake fillet,1,lb
Three,Ling fillet,1,lb
Four,Pike fillet,1,lb
Five,Sole fillet,1,lb
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
            met(Code::PartsSlightlyOver, "E2", "“Cod test” weighs 4 g more", "Nothing to do: within 0.5 %"),
            met(Code::PartMissingInRun, "D8", "“Hake frames” is not in this run", "or with 0"),
            met(Code::CreditLarge, "G12", "more than half of “Ling test”: 30.00 … 50.00", "Check it"),
            met(Code::TestPriceUsed, "I13", "“Pike” has no price row", "Add a price row"),
            met(Code::ValueNegative, "G15", "“Pike skin” is worth nothing", "Check Value and Further cost"),
            met(Code::ChargeConflict, "F21", "“Sole frames” is charged otherwise", "in every run"),
        ],
        costs: &[
            SOUP,
            // 9.00 on 900 g; the frames are free.
            ("One", Some("1")),
            // 100.00 on 10 lb.
            ("Two", Some("10")),
            // 50.00 − 2 × 15.00 on 5 lb.
            ("Three", Some("4")),
            // 10 lb × 4.00, all of it on 5 lb: the skin nets less than nothing.
            ("Four", Some("8")),
            ("Five", None),
        ],
    },
    Book {
        name: "joint costs that lack what they are shared by, and a run far from the others",
        written: Written::Csv(&[
            "\
Test,Run,Role,Part,Weight,Charged as,Value
Cod test,,as purchased,Cod,10 lb,,
Cod test,,main,Cod fillet,5 lb,by sales value,
Cod test,,by-product,Cod cheeks,1 lb,by sales value,$4.00
Hake test,,as purchased,Hake,10 lb,,
Hake test,,main,Hake fillet,5 lb,,$9.00
Hake test,,by-product,Hake cheeks,1 lb,net realizable value,30%
Ling test,,as purchased,Ling,10 lb,,
Ling test,,main,Ling fillet,5 lb,by sales value,$0
Ling test,,main,Ling loin,2 lb,by sales value,$0
Pike test,1,as purchased,Pike,10 lb,,
Pike test,1,main,Pike fillet,6 lb,,
Pike test,2,as purchased,Pike,10 lb,,
Pike test,2,main,Pike fillet,6.1 lb,,
Pike test,3,as purchased,Pike,10 lb,,
Pike test,3,main,Pike fillet,6.2 lb,,
Pike test,4,as purchased,Pike,10 lb,,
Pike test,4,main,Pike fillet,4 lb,,
",
            "\
Item,Pack,Price
Cod,10 lb,50.00
Hake,10 lb,50.00
Ling,10 lb,50.00
Pike,10 lb,50.00
",
            "\
Recipe,Ingredient,Qty,Unit
One,Cod fillet,1,lb
Two,Hake fillet,1,lb
Three,Ling fillet,1,lb
Four,Pike fillet,22.3,lb
",
            "\
Recipe,Portions
One,1
Two,1
Three,1
Four,1
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            met(Code::ValueMissing, "D3", "“Cod fillet” needs a value: money per Unit", "Fill the Value column"),
            met(
                Code::ValueMissing,
                "G7",
                "“Hake cheeks” needs money here, not a percentage",
                "Write the money per Unit",
            ),
            met(Code::ValueNegative, "G9", "“Ling fillet” is worth nothing", "Check Value"),
            met(Code::ValueNegative, "G10", "“Ling loin” is worth nothing", "Check Value"),
            met(
                Code::ValueMissing,
                "A8",
                "no main of “Ling test” has a weight and a value",
                "Check the Weight and Value",
            ),
            met(Code::RunFarOff, "D17", "“Pike fillet” is 40.0 % … elsewhere 60.0 to 62.0 %", "Check the weights"),
        ],
        // The run counts all the same: four times 50.00 on 22.3 lb.
        costs: &[SOUP, ("One", None), ("Two", None), ("Three", None), ("Four", Some("200"))],
    },
    Book {
        name: "names that tests share",
        written: Written::Csv(&[
            "\
Test,Role,Part,Weight
Cod test,as purchased,Cod,10 lb
Cod test,main,Cod fillet,5 lb
Cod test,by-product,Frames,2 lb
Hake test,as purchased,Hake,10 lb
Hake test,main,Hake fillet,5 lb
Hake test,by-product,Frames,2 lb
Beef test,as purchased,Beef,10 lb
Beef test,main,Loin,2 lb
Beef test,main,Rump,3 lb
Ling one,as purchased,Ling,10 lb
Ling one,main,Ling fillet,5 lb
Ling two,as purchased,Ling,10 lb
Ling two,main,Ling loin,5 lb
",
            "\
Item,Pack,Price
Cod,10 lb,50.00
Hake,10 lb,50.00
Beef,10 lb,50.00
Ling,10 lb,50.00
",
            "\
Recipe,Ingredient,Qty,Unit
One,Frames,1,lb
Two,Beef,1,lb
Three,Ling,1,lb
Four,Cod test: Frames,1,lb
",
            "\
Recipe,Portions
One,1
Two,1
Three,1
Four,1
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            met(Code::TestsSeveral, "A13", "“Ling one” and “Ling two” both break down Ling", "Name a part"),
            met(
                Code::PartInTwoTests,
                "B23",
                "“Frames” comes out of 2 yield tests",
                "“Cod test: Frames” or “Hake test: Frames”",
            ),
            met(Code::MainsSeveral, "B24", "“Beef” is broken down into several mains", "“Loin”, “Rump”"),
        ],
        // Ling at 100 %: 50.00 ÷ 10. The frames are free.
        costs: &[SOUP, ("One", None), ("Two", None), ("Three", Some("5")), ("Four", Some("0"))],
    },
];
