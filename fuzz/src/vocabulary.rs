//! Vocabulary of a kitchen's tables: what may stand in each column, and what should not.

/// A kind of table: its headers, and for each what its cells are taken from.
pub type Table = &'static [(&'static str, &'static [&'static str])];

const ITEMS: &[&str] = &[
    "Leeks",
    "Butter",
    "Cream",
    "Whole bird",
    "Bones",
    "Breast",
    "Leek soup",
    "Stock",
    "Salt",
    "water",
    "leeks",
    "Egg",
];
const PACKS: &[&str] =
    &["10 lb", "6/5 lb", "1 kg", "24 ct", "4/1 gal", "each", "6/#10 can", "12 x 750 ml", "lb", "0 lb"];
const MONEY: &[&str] = &["$20.00", "4", "0", "0.01", "-3.00", "1e300", "$1,234.50", "1 234,50", "ask", "7,304,485"];
const UNITS: &[&str] = &["lb", "oz", "g", "kg", "each", "cup", "qt", "ml", "tsp", "bunch", "fl oz", "flurb", "portion"];
const AMOUNTS: &[&str] =
    &["1", "2", "0", "1/2", "2 1/2", "3-4", "0.0001", "99999999", "to taste", "2 lb", "1 lb 8 oz", "?"];
const PERCENTS: &[&str] = &["50%", "0.8", "100%", "0%", "120%", "1", "80", "-5%", "33.333%"];
const DATES: &[&str] = &["2026-11-01", "2026-12-31", "1899-12-31", "11/20/2026", "20261120", "yesterday"];
const WORDS: &[&str] = &["", "sliced", "yes", "no", "EP", "AP", "note", "=1+1", "\u{202e}odd", "Produce; Dairy"];
const NUMBERS: &[&str] = &["1", "2", "3", "12", "0", "0.5", "1000000"];
const SIZES: &[&str] = &["4 qt", "8 fl oz", "10 lb", "2 each", "12 portions", "1.5 l", "0 lb", "1 flurb"];

/// Tables by kind.
pub const TABLES: &[Table] = &[
    &[
        ("Item", ITEMS),
        ("Pack", PACKS),
        ("Price", MONEY),
        ("Per", UNITS),
        ("Yield", PERCENTS),
        ("Supplier", WORDS),
        ("Date", DATES),
        ("Preferred", WORDS),
        ("Also called", ITEMS),
        ("Allergens", WORDS),
        ("Group", WORDS),
        ("Credit", MONEY),
        ("Tax", PERCENTS),
        ("Reference food", ITEMS),
    ],
    &[("Item", ITEMS), ("Measure", UNITS), ("Weighs", AMOUNTS), ("Holds", AMOUNTS), ("Basis", WORDS)],
    &[
        ("Test", &["Bird", "Trim", "Roast"]),
        ("Role", &["as purchased", "main", "by-product", "waste", "added", "Main", "loss"]),
        ("Part", ITEMS),
        ("Weight", AMOUNTS),
        ("Unit", UNITS),
        ("Charged as", &["free", "fraction", "money", "market", "added", "by weight", "residual", ""]),
        ("Value", AMOUNTS),
        ("Further cost", MONEY),
        ("Price", MONEY),
        ("Instead of", ITEMS),
        ("Otherwise", &["thrown away", "sold", ""]),
        ("Eaten", PERCENTS),
        ("Keeps", NUMBERS),
        ("Run", NUMBERS),
        ("Kind", &["trimming", "cooking", ""]),
    ],
    &[
        ("Recipe", &["Leek soup", "Stock", "Roast", "Dish"]),
        ("Ingredient", ITEMS),
        ("Qty", AMOUNTS),
        ("Unit", UNITS),
        ("Prep", WORDS),
        ("Basis", WORDS),
        ("Yield", PERCENTS),
        ("Used", PERCENTS),
        ("Note", WORDS),
    ],
    &[
        ("Recipe", &["Leek soup", "Stock", "Roast", "Portions"]),
        ("Makes", SIZES),
        ("Portion", SIZES),
        ("Portions", NUMBERS),
        ("Menu price", MONEY),
        ("Target", PERCENTS),
        ("Q factor", PERCENTS),
        ("Spice factor", PERCENTS),
        ("Serving loss", PERCENTS),
    ],
    &[
        ("Dish", &["Leek soup", "Soup of the day", "Roast"]),
        ("Recipe", &["Leek soup", "Stock", "Roast"]),
        ("Portion", SIZES),
        ("Menu price", MONEY),
        ("Target", PERCENTS),
        ("Tax", PERCENTS),
        ("Sold", NUMBERS),
    ],
    &[("Dish", &["Leek soup", "Soup of the day"]), ("Portions", NUMBERS), ("Day", DATES)],
    &[("Item", ITEMS), ("On hand", AMOUNTS), ("Unit", UNITS)],
    &[
        (
            "Setting",
            &[
                "Currency",
                "Target food cost",
                "Q factor",
                "Spice factor",
                "Volumes",
                "Price step",
                "Price ending",
                "Menu prices include tax",
            ],
        ),
        ("Value", &["USD", "EUR", "28%", "yes", "no", "US", "metric", "0.05", "0.95", "5%"]),
    ],
];

/// A card: labels with their values, then lines.
pub const LABELS: Table = &[
    ("Makes", SIZES),
    ("Portion", SIZES),
    ("Portions", NUMBERS),
    ("Menu price", MONEY),
    ("Target", PERCENTS),
    ("Q factor", PERCENTS),
    ("Spice factor", PERCENTS),
    ("Serving loss", PERCENTS),
    ("Note", WORDS),
    ("Method", WORDS),
];

/// The columns of a card's lines.
pub const LINES: Table = &[
    ("Ingredient", ITEMS),
    ("Qty", AMOUNTS),
    ("Unit", UNITS),
    ("Prep", WORDS),
    ("Yield", PERCENTS),
    ("Used", PERCENTS),
    ("Basis", WORDS),
];

/// Names of cards.
pub const RECIPES: &[&str] = &["Leek soup", "Stock", "Roast", "Dish", "Makes"];
