//! The words that books of chance are drawn from: for every column its headers and what may stand under them, the likely
//! words first; and rubbish. Words are parted by `¦` and read by [`Cell::of_word`](super::cell::Cell::of_word).

const ITEMS: &str = "\
     Onions¦Carrots¦Cod¦Cod fillet¦Cod frames¦Cod cheeks¦Butter¦Fish stock¦Leek soup¦Cream¦Eggs¦onion¦Water¦\
     Salt¦Cod test: Cod fillet¦Shellfish base¦=1+1¦@sum¦+1¦Total¦GARNISH:¦Crème fraîche¦12¦Recipe¦A\u{1}b¦\
     n:7.0¦";
const PACKS: &str = "\
     50 lb¦6/5 lb¦24 ct¦12 x 750 ml¦140 ct 35 lb¦2 kg¦1 gal¦6/#10 (6 lb 9 oz)¦case of 24¦10 lb avg¦30 dz¦¦\
     half gal¦16/20 ct¦6/5¦1/2 gal¦12/up¦6xA10¦n:12.0¦d:2026-05-06";
const PRICES: &str = "\
     n:38.45¦m:12.5¦$4.20¦1.20 / lb¦$0.45/kg¦38.45/cs¦n:100.0¦MKT¦12¦1,234.50¦12.50 €¦(12.00)¦n:-3.0¦n:0.0¦\
     ask¦¦3-4¦p:0.3¦£3";
const UNITS: &str = "lb¦kg¦oz¦each¦g¦cup¦qt¦fl oz¦bunch¦dozen¦portion¦batch¦can¦¦case¦EA¦pinch¦flurb¦oz wt¦ml¦bu";
const QUANTITIES: &str = "\
     n:2.0¦n:1.5¦1 1/2¦12 oz¦2 cups¦38 lb 12 oz¦1½¦6 each¦to taste¦2 portions¦3/4¦¦n:0.0¦3-4¦1.5¦a pinch¦\
     n:-1.0¦d:2026-03-04¦some¦1 qt 8 fl oz¦1/3¦2/3 cup¦n:0.333333333333333";
const AMOUNTS: &str = "\
     3 qt¦8 fl oz¦180 g¦1 each¦2.4 kg¦3 qt, 2.9 kg¦10 lb¦24 each¦38 lb 12 oz¦2 cups¦¦n:4.0¦0 lb¦3-4 lb¦lots¦\
     12 each, 15 lb¦1 bunch";
const PERCENTS: &str =
    "¦p:0.85¦30%¦n:28.0¦n:0.8¦p:0.05¦85 %¦n:1.0¦n:1.5¦p:0.0¦n:0.0¦p:1.2¦p:-0.1¦half¦25-30%¦33 1/3%¦n:120.0";
const Q: &str = "¦5%¦$1.40¦p:0.05¦m:1.4¦n:5.0¦n:0.0¦5¦x";
const DATES: &str =
    "¦d:2026-11-01¦d:2026-10-01¦d:2026-12-01¦d:2025-01-01¦2026-11-20¦5/6/2026¦soon¦n:46000.0¦20 Nov 2026";
const TESTS: &str = "Cod test¦Cod bake¦Onion test¦";
const ROLES: &str = "as purchased¦main¦by-product¦main¦waste¦added¦¦AP¦tail";
const CHARGES: &str = "¦free¦fraction¦price¦market¦by weight¦by sales value¦net realizable value¦gift";
const VALUES: &str = "¦30%¦1.20 / lb¦n:1.2¦m:0.5¦n:30.0¦n:0.3¦p:0.1¦$2.00/kg¦2 / each¦n:500.0¦x¦n:-1.0¦n:1.5";
const WORDS: &str = "¦Starters¦Chop, sweat, simmer.¦n:3.0¦=HYPERLINK(1)";
const SUPPLIERS: &str = "¦North¦South";
const CODES: &str = "¦A1¦n:100.0";
const YES: &str = "¦yes¦no¦b:true¦maybe¦n:1.0";
const ALIASES: &str = "¦Yellow onions; Bulbs¦Bulbs¦Cod¦; ;";
const ALLERGENS: &str = "¦none¦fish¦milk, eggs¦shellfish¦stardust¦Molluscs;";
const BASES: &str = "¦EP¦AP¦as purchased¦raw";
const MEASURES: &str = "cup¦each¦bunch¦cup, sliced¦cup, diced¦pinch¦#10 can¦2\" hotel pan¦¦1 cup¦lb";
const PREPS: &str = "¦sliced¦diced¦whole";
const INSTEAD: &str =
    "¦2 oz Shellfish base per lb¦1 qt Fish stock per lb¦1 each Eggs per 100 g¦stock¦1 lb Ghost per lb";
const OTHERWISE: &str = "¦binned¦sold 0.80 / lb¦sold¦sold £1 / kg";
const KINDS: &str = "¦cooking¦trim¦frying";
const DISHES: &str = "Leek soup¦Soup, bowl¦Fish stock¦leek soups¦¦Ghost";
const RECIPES: &str = "Leek soup¦Fish stock¦Cod fillet¦¦Ghost¦Cod";
const MONEY: &str = "¦n:9.5¦m:12.0¦$14.00¦n:0.0¦-3¦12 €¦7/lb¦free¦n:8.0";
const SETTINGS: &str = "\
     Currency¦Target food cost¦Costing date¦Q factor¦Spice factor¦Spice covers Q¦Menu prices include tax¦\
     Price step¦Price ending¦Price age¦Volumes¦Waste haulage¦House name¦Mood¦Price age (days)¦";
const SETTING_VALUES: &str = "\
     USD¦30%¦d:2026-11-20¦$1.40¦p:0.05¦no¦8%¦n:0.25¦n:0.95¦n:30.0¦Imperial¦0.12 / lb¦The Old School¦¦yes¦\
     n:28.0¦EUR¦Metric¦n:0.0¦.95¦$0.25¦n:-1.0¦0.12¦£0.10 / kg";
/// What stands in nobody's cells.
pub const RUBBISH: &str = "\
     =¦=cmd|' /C calc'!A0¦-¦#REF!¦1e300¦n:1e300¦n:1e20¦n:1e-20¦n:7.9e27¦n:-1e27¦999999999999999999999999999¦\
     99999999999999999999¦0.0000000000000000000000000001¦NaN¦n:1e-7¦n:123456789.123456¦e:#REF!¦e:#N/A¦\
     f:Elsewhere!A1¦b:false¦b:true¦d:1900-01-01¦t:0.75¦d:9999-12-31¦Item¦Price¦Qty¦Food cost¦Row used¦\
     Line cost¦Figured by parings¦\u{1}\u{8}\u{1F}¦a\nb¦_x0041_¦_x005F_x0041_¦'quoted¦\u{FFFF}¦\u{202E}abc¦🍲¦\
     “”¦%¦1/2¦--¦000¦3 ?¦<b>&amp;</b>¦Subtotal¦CAPITALS¦Ends in a colon:¦true¦p:1e20¦m:1e15¦\
     m:0.333333333333333";

/// A column: its headers, whether every table of the kind has it, and what stands under it.
pub struct Column {
    pub headers: &'static [&'static str],
    pub must: bool,
    pub words: &'static str,
}

const fn must(headers: &'static [&'static str], words: &'static str) -> Column {
    Column { headers, must: true, words }
}

const fn may(headers: &'static [&'static str], words: &'static str) -> Column {
    Column { headers, must: false, words }
}

/// A card's labels are written as rows.
pub const CARD: usize = 10;

pub static KINDS_OF_TABLE: &[&[Column]] = &[
    // 0 prices
    &[
        must(&["Item", "Ingredient", "Product"], ITEMS),
        must(&["Price", "Cost", "Price ($)", "Price (€/kg)"], PRICES),
        must(&["Pack", "Pack size", "Pack (lb)"], PACKS),
        may(&["Per", "Priced by"], UNITS),
        may(&["Yield", "EP %"], PERCENTS),
        may(&["Date"], DATES),
        may(&["Supplier"], SUPPLIERS),
        may(&["Preferred"], YES),
        may(&["Also called"], ALIASES),
        may(&["Allergens"], ALLERGENS),
        may(&["May contain"], ALLERGENS),
        may(&["Code", "Item #"], CODES),
        may(&["Group"], WORDS),
        may(&["Mood"], WORDS),
        may(&["Pack count"], QUANTITIES),
        may(&["Unit size", "Size (kg)"], QUANTITIES),
        may(&["Size unit", "Unit"], UNITS),
        may(&["Reference food"], WORDS),
    ],
    // 1 recipe lines
    &[
        must(&["Recipe"], RECIPES),
        must(&["Ingredient", "Item"], ITEMS),
        must(&["Qty", "Quantity", "Qty (lb)"], QUANTITIES),
        must(&["Unit", "UOM"], UNITS),
        may(&["Basis"], BASES),
        may(&["Prep"], PREPS),
        may(&["Yield", "Yield (%)"], PERCENTS),
        may(&["Used"], PERCENTS),
        may(&["Note"], WORDS),
    ],
    // 2 recipe facts
    &[
        must(&["Recipe"], RECIPES),
        must(&["Makes", "Makes (qt)"], AMOUNTS),
        may(&["Portion"], AMOUNTS),
        may(&["Portions"], QUANTITIES),
        may(&["Menu price", "Menu price (USD)"], MONEY),
        may(&["Target"], PERCENTS),
        may(&["Q factor"], Q),
        may(&["Spice factor"], PERCENTS),
        may(&["Serving loss"], PERCENTS),
        may(&["Group"], WORDS),
        may(&["Method"], WORDS),
    ],
    // 3 yield tests
    &[
        must(&["Test"], TESTS),
        must(&["Role"], ROLES),
        must(&["Part"], ITEMS),
        must(&["Weight", "Weight (kg)"], AMOUNTS),
        may(&["Unit"], UNITS),
        may(&["Charged as"], CHARGES),
        may(&["Value"], VALUES),
        may(&["Further cost", "Further cost ($/lb)"], MONEY),
        may(&["Price"], MONEY),
        may(&["Instead of"], INSTEAD),
        may(&["Otherwise"], OTHERWISE),
        may(&["Eaten"], PERCENTS),
        may(&["Keeps"], QUANTITIES),
        may(&["Kind"], KINDS),
        may(&["Run"], CODES),
        may(&["Date"], DATES),
    ],
    // 4 menu
    &[
        must(&["Dish"], DISHES),
        must(&["Recipe"], RECIPES),
        may(&["Portion"], AMOUNTS),
        may(&["Menu price", "Menu price ($)"], MONEY),
        may(&["Target"], PERCENTS),
        may(&["Tax"], PERCENTS),
        may(&["Group"], WORDS),
        may(&["Sold"], QUANTITIES),
    ],
    // 5 measures
    &[
        must(&["Item"], ITEMS),
        must(&["Measure"], MEASURES),
        must(&["Weighs", "Weighs (g)"], AMOUNTS),
        may(&["Holds"], AMOUNTS),
        may(&["Basis"], BASES),
    ],
    // 6 settings
    &[must(&["Setting"], SETTINGS), must(&["Value"], SETTING_VALUES)],
    // 7 plan
    &[must(&["Dish"], DISHES), must(&["Portions"], QUANTITIES), may(&["Day"], DATES)],
    // 8 stock
    &[must(&["Item"], ITEMS), must(&["On hand"], AMOUNTS), may(&["Unit"], UNITS)],
    // 9 control
    &[
        must(&["Opening"], MONEY),
        must(&["Purchases"], MONEY),
        must(&["Closing"], MONEY),
        may(&["Sales"], MONEY),
        may(&["Period"], DATES),
    ],
    // 10 a card's lines
    &[
        must(&["Ingredient", "Item"], ITEMS),
        must(&["Qty", "Amount"], QUANTITIES),
        must(&["Unit"], UNITS),
        may(&["Basis"], BASES),
        may(&["Prep"], PREPS),
        may(&["Yield"], PERCENTS),
        may(&["Used"], PERCENTS),
        may(&["Note"], WORDS),
    ],
    // 11 loose cells
    &[may(&["Notes"], WORDS), may(&["Phone"], CODES), may(&["Call"], ITEMS)],
];

pub static LABELS: &[Column] = &[
    must(&["Recipe"], RECIPES),
    may(&["Makes", "Makes (qt)"], AMOUNTS),
    may(&["Portion"], AMOUNTS),
    may(&["Portions"], QUANTITIES),
    may(&["Menu price", "Menu price (USD)"], MONEY),
    may(&["Target"], PERCENTS),
    may(&["Q factor"], Q),
    may(&["Spice factor"], PERCENTS),
    may(&["Serving loss"], PERCENTS),
    may(&["Group"], WORDS),
    may(&["Method"], WORDS),
    may(&["Chef"], WORDS),
    may(&["Makes"], AMOUNTS),
];
