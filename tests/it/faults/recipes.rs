//! Faults of recipes, the menu and the settings.

use parings::problem::Code;

use super::expect::{Book, SETTINGS, SOUND, SOUP, Written, met};

pub const BOOKS: &[Book] = &[
    Book {
        name: "names that are not there, or twice",
        written: Written::Csv(&[
            "\
Item,Pack,Price,Also called
Onions,50 lb,30.00,Bulbs
Garlic,10 lb,30.00,Bulbs
Cod,10 lb,50.00,
",
            "\
Test,Role,Part,Weight
Cod test,as purchased,Cod,10 lb
Cod test,main,Fish base,5 lb
",
            "\
Recipe,Ingredient,Qty,Unit
Fish base,Leeks,1,lb
One,Leaks,1,lb
Two,Bulbs,1,lb
Three,Fish base,1,lb
Four,Leeks,1,lb
Four,Bay leaf,to taste,
Four,Leeks,,
",
            "\
Recipe,Portions
Fish base,1
One,1
Two,1
Three,1
Four,1
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            met(Code::AliasTwice, "D3", "“Bulbs” is also the name of another item", "Also called of “Garlic”"),
            met(Code::NameUnknown, "B12", "“Leaks” has no price", "Did you mean “Leeks”"),
            met(Code::NameTwice, "B13", "two items are also called “Bulbs”", "the item's own name"),
            met(Code::NameTwice, "B14", "“Fish base” is both a part of a yield test and a recipe", "another name"),
            met(Code::NameUncosted, "B16", "“Bay leaf” is not costed", "Add a price row"),
            met(Code::LineUncosted, "B17", "no quantity", "or to taste"),
        ],
        costs: &[SOUP, ("Fish base", Some("2")), ("One", None), ("Two", None), ("Three", None), ("Four", Some("2"))],
    },
    Book {
        name: "cards that are not whole",
        written: Written::Csv(&[
            "\
Recipe,Empty
Portions,4
Ingredient,Qty,Unit
",
            "\
Recipe,Pie
Portions,4
Portions,5
Ingredient,Qty,Unit
Leeks,1,lb
",
            "\
Recipe,Pie
Portions,4
Ingredient,Qty,Unit
Leeks,2,lb
",
            "\
Recipe,One batch
Ingredient,Qty,Unit
Leeks,1,lb
",
            "\
Recipe,Sauce
Portions,4
Ingredient,Qty,Unit
Leeks,1,lb
",
            "\
Recipe,Roast
Makes,10 lb
Portion,1 lb
Portions,12
Ingredient,Qty,Unit
Sauce,1,qt
",
            "\
Recipe,Stew
Makes,10 lb
Portion,1 lb
Portions,12
Ingredient,Qty,Unit
Leeks,1,lb
",
            "\
Recipe,Egg
Portions,1
Ingredient,Qty,Unit
Hen,1,portion
",
            "\
Recipe,Hen
Portions,1
Ingredient,Qty,Unit
Egg,1,portion
",
            SOUND,
            SETTINGS,
        ]),
        met: &[
            met(Code::RecipeEmpty, "B1", "“Empty” has no ingredients", "Put a line header"),
            met(Code::LabelTwice, "B7", "Portions is stated here and at book.csv ▸ B6", "Keep one of them"),
            met(Code::RecipeTwice, "B11", "“Pie” is in the book already, at book.csv ▸ B5", "Keep one of the two"),
            met(Code::MakesAssumed, "B16", "“One batch” … counts as one batch", "such as 3 qt"),
            met(Code::PortionsDisagree, "B28", "“Roast” states 12 portions", "or clear Portions"),
            met(Code::YieldUnknown, "B30", "“Sauce” does not say how much it makes", "Add Makes to its card"),
            met(Code::PortionsDisagree, "B35", "states 12 portions … give 10", "or clear Portions"),
            met(Code::RecipeLoop, "A42", "“Egg” contains itself: “Egg” → “Hen” → “Egg”", "Take one of them out"),
        ],
        costs: &[
            SOUP,
            ("Empty", None),
            ("Pie", None),
            ("One batch", Some("2")),
            ("Sauce", Some("2")),
            ("Roast", None),
            ("Stew", Some("2")),
            ("Egg", None),
            ("Hen", None),
        ],
    },
    Book {
        name: "dishes that cannot be priced",
        written: Written::Csv(&[
            "\
Dish,Recipe,Portion,Menu price,Target
Leek soup,Leek soup,,9.50,
Leek soup,Leek soup,,8.00,
Soup bowl,Leek soup,12 fl oz,9.00,
Ghost,Ghost,,9.00,
Free soup,Leek soup,,0.00,
Soup cup,Leek soup,,9.50,
",
            SOUND,
            "\
Setting,Value
Currency,USD
",
        ]),
        met: &[
            met(Code::DishTwice, "A3", "“Leek soup” is already on the menu at book.csv ▸ A2", "a name of its own"),
            met(Code::PortionUnclear, "C4", "so 12 fl oz is no known share of it", "Add Makes, or Portion"),
            met(Code::NameUnknown, "B5", "there is no recipe called “Ghost”", "add the recipe"),
            met(Code::PriceBelowZero, "D6", "the menu price of “Free soup” is 0", "above zero"),
            met(Code::TargetMissing, "A7", "“Soup cup” has no target food-cost %", "Add a Target"),
        ],
        costs: &[SOUP],
    },
    Book {
        name: "settings",
        written: Written::Csv(&[
            SOUND,
            "\
Setting,Value
Currency,USD
Target food cost,30%
Volumes,US
Volumes,Metric
Price age,60
Price step,often
Mood,good
Waste haulage,cheap
",
            "\
Recipe,Leek tart
Portions,4
Menu price,8.00
Ingredient,Qty,Unit
Leeks,2,lb
",
            "\
Recipe,Leek pie
Makes,2 qt
Portion,1 cup
Ingredient,Qty,Unit
Leeks,2,lb
",
        ]),
        met: &[
            met(Code::SettingTwice, "B13", "Volumes is “Metric” here and “US” at book.csv ▸ B12", "Keep one row"),
            met(Code::NotANumber, "B15", "“often” is not an amount of money", "Write an amount"),
            met(Code::SettingUnknown, "A16", "“Mood” is not a setting", "changes nothing"),
            met(Code::SettingWrong, "B17", "Waste haulage is “cheap”", "such as 0.12 / lb"),
        ],
        // Only what is measured by the cup and the like depends on Volumes.
        costs: &[SOUP, ("Leek tart", Some("4")), ("Leek pie", None)],
    },
];
