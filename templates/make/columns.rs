//! The columns of every sheet of a template: header, width, how what is typed is shown, the note on the header that
//! says what goes there, and the words to choose from.

use super::choices::{EVERYTHING, RECIPES};
use super::region::Region;

/// How what is typed into a column is kept and shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Words, or whatever a spreadsheet program takes it for.
    Free,
    /// Kept as it is typed, so that `6/5 lb` does not become a day in May.
    AsTyped,
    /// Kept as it is typed, to the right: `1/2`, `38 lb 12 oz`.
    Amount,
    /// Money.
    Money,
    /// A percentage.
    Percent,
    /// A day.
    Day,
    /// A plain number.
    Number,
}

/// A column of a form.
pub struct Column {
    /// Its header.
    pub name: &'static str,
    /// Its width in characters.
    pub width: u16,
    /// How what is typed is kept.
    pub shape: Shape,
    /// What the note on its header says.
    pub note: &'static str,
    /// The words to choose from.
    pub choices: &'static [&'static str],
    /// Or the cells in which they were typed; empty where there are none.
    pub typed_in: &'static str,
    /// What happens to other words.
    pub others: Others,
}

/// What a spreadsheet program does with a word that is not among those to choose from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Others {
    /// Takes it: several of the words, or one with something behind it, are as good.
    Taken,
    /// Asks whether it is meant.
    Doubted,
    /// Refuses it: it would mean nothing.
    Refused,
}

/// A column without words to choose from.
const fn column(name: &'static str, width: u16, shape: Shape, note: &'static str) -> Column {
    Column { name, width, shape, note, choices: &[], typed_in: "", others: Others::Taken }
}

impl Shape {
    /// Whether it stands to the right of its column.
    pub fn is_right(self) -> bool {
        !matches!(self, Shape::Free | Shape::AsTyped)
    }
}

impl Column {
    /// With words to choose from; others are as good.
    const fn such_as(mut self, choices: &'static [&'static str]) -> Column {
        self.choices = choices;
        self
    }

    /// With what was typed elsewhere to choose from; other words are as good.
    const fn typed_in(mut self, cells: &'static str) -> Column {
        self.typed_in = cells;
        self
    }

    /// With words to choose from; others may be meant.
    const fn with(mut self, choices: &'static [&'static str]) -> Column {
        self.others = Others::Doubted;
        self.such_as(choices)
    }

    /// With the only words that mean anything here.
    const fn only(mut self, choices: &'static [&'static str]) -> Column {
        self.others = Others::Refused;
        self.such_as(choices)
    }
}

/// Roles of rows of a yield test.
pub const ROLES: &[&str] = &["as purchased", "added", "main", "by-product", "waste"];
/// Ways of charging a by-product.
pub const CHARGES: &[&str] =
    &["free", "fraction", "price", "market", "by weight", "by sales value", "net realizable value"];
/// Yes or no.
pub const YES_NO: &[&str] = &["yes", "no"];
const KINDS: &[&str] = &["trim", "cooking"];
const BASES: &[&str] = &["AP", "EP"];
const ALLERGENS: &[&str] = &[
    "none",
    "milk",
    "eggs",
    "wheat",
    "barley",
    "oats",
    "rye",
    "fish",
    "crustaceans",
    "molluscs",
    "celery",
    "mustard",
    "soy",
    "peanuts",
    "tree nuts",
    "sesame",
    "sulphites",
    "lupin",
];
const NOTE: &str = "Anything you want to remember. It is carried along and changes no figure.";
const ITEM_BOUGHT: &str = "The name your kitchen uses, and the only one: recipes must use the same.";

/// Where items are typed, on the sheet Prices below its header, as far as lists reach.
pub const ITEMS: &str = "=Prices!$A$5:$A$204";
/// Where dishes are typed, on the sheet Menu.
pub const DISHES: &str = "=Menu!$A$5:$A$204";

/// Prices.
#[rustfmt::skip]
pub fn prices(region: Region) -> Vec<Column> {
    vec![
        column("Item", 25, Shape::Free, ITEM_BOUGHT).typed_in(ITEMS),
        column("Supplier", 18, Shape::Free, "Who sells it. May stay blank."),
        column("Pack", 17, Shape::AsTyped, region.pick(
            "What one price buys, as the supplier writes it.\n\n50 lb\n6/5 lb = six of 5 lb\n4/1 gal\n24 ct\n140 ct 35 lb\n2/16 lb avg = billed by its real weight: put lb under Per",
            "What one price buys, as the supplier writes it.\n\n25 kg\n6 x 2.5 kg\n12 x 750 ml\n24 ct\n10 kg avg = billed by its real weight: put kg under Per",
        )),
        column("Price", 11, Shape::Money, region.pick(
            "What the pack costs, or one of what Per says.\n\n$48.00\nMKT = the last price with a date",
            "What the pack costs, or one of what Per says.\n\n48.00\nMKT = the last price with a date",
        )),
        column("Per", 8, Shape::Free, region.pick(
            "Blank or case: the price is for the pack.\nlb, oz, each: the price is for one of those.",
            "Blank or case: the price is for the pack.\nkg, g, each: the price is for one of those.",
        )).with(region.per()),
        column("Date", 12, Shape::Day, "Since when this price holds, safest as 2026-11-09. Keep the old row and add a new one: the newest price on or before the costing date counts."),
        column("Until", 12, Shape::Day, "The last day on which this price counts, such as 2026-11-30 for a promotion: from then on the price before it does again.\n\nBlank: it counts until a newer one begins."),
        column("Yield", 8, Shape::Percent, "How much is left after peeling and trimming, at most 100%.\n\n80%\n\nBlank: nothing is lost. A yield test of the item comes before this."),
        column("Preferred", 11, Shape::Free, "yes on the supplier you buy from, when there are several.").only(YES_NO),
        column("Also called", 15, Shape::Free, "Other names that recipes use, with ; between."),
        column("Allergens", 18, Shape::Free, "From the label, with ; between: milk; wheat\n\nnone = there are none. Blank = nobody has looked.").such_as(ALLERGENS),
        column("May contain", 14, Shape::Free, "What the label says it may contain, with ; between.").such_as(ALLERGENS),
        column("Reference food", 15, Shape::Free, "A built-in food that stands in where your kitchen has not weighed it: what its cup or piece weighs, and how much peeling leaves.\n\nonion, yellow\nflour, all-purpose\n\nparings food onion shows what there is. Your own Measures and Yield come first. May stay blank."),
        column("Note", 26, Shape::Free, NOTE),
    ]
}

/// Measures.
#[rustfmt::skip]
pub fn measures(region: Region) -> Vec<Column> {
    vec![
        column("Item", 28, Shape::Free, "A bought item, a part of a yield test, or a recipe: the name used there.").typed_in(EVERYTHING),
        column("Measure", 16, Shape::AsTyped, region.pick(
            "One of what was weighed.\n\ncup\ncup, diced\nbunch\neach\n#10 can",
            "One of what was weighed.\n\neach\nbunch\ntbsp\ncup, diced",
        )).such_as(region.measures()),
        column("Weighs", 13, Shape::Amount, region.pick("What it weighs, with the unit: 4 1/2 oz", "What it weighs, with the unit: 110 g")),
        column("Holds", 13, Shape::Amount, region.pick("Or what it holds, with the unit: 2 qt", "Or what it holds, with the unit: 750 ml")),
        column("Basis", 9, Shape::Free, "AP = as it comes, EP = peeled and trimmed.\n\nBlank: AP for each, bunch, head and can, EP for the rest.").only(BASES),
        column("Note", 30, Shape::Free, NOTE),
    ]
}

/// Yield tests.
#[rustfmt::skip]
pub fn yield_tests(region: Region) -> Vec<Column> {
    vec![
        column("Test", 22, Shape::Free, "Its name, the same on all its rows."),
        column("Role", 14, Shape::Free, "as purchased: what went in, once\nadded: water, fat or brine that went in with it\nmain: what it was cut for\nby-product: kept and used elsewhere\nwaste: thrown away").only(ROLES),
        column("Part", 25, Shape::Free, "As purchased: the item as it is called in Prices.\n\nElse your own name for what came out. Recipes use it by that name.").typed_in(EVERYTHING),
        column("Weight", 13, Shape::Amount, region.pick("What it weighed: 12 with lb beside it, or 38 lb 12 oz", "What it weighed: 4.5 with kg beside it, or 4.5 kg")),
        column("Unit", 7, Shape::Free, "The unit of the weight, if it is not written with it.").with(region.weights()),
        column("Kind", 9, Shape::Free, "trim, or cooking for a cooking loss. Blank: trim.").only(KINDS),
        column("Charged as", 15, Shape::Free, "How a by-product is charged.\n\nfree: it costs nothing (also if blank)\nfraction: a share of the price it was bought at\nprice: your own price\nmarket: what buying its like would cost\nThe other three share the cost with the mains.").only(CHARGES),
        column("Value", 10, Shape::Free, region.pick(
            "What the way of charging needs.\n\nfraction: 20%\nprice: $0.50 for one of Unit\n\nOn a main: what it sells for, to share the cost between several mains.",
            "What the way of charging needs.\n\nfraction: 20%\nprice: €0.90 for one of Unit\n\nOn a main: what it sells for, to share the cost between several mains.",
        )),
        column("Further cost", 13, Shape::Money, "Money per Unit to make it ready for sale. Only net realizable value uses it."),
        column("Price", 10, Shape::Money, "On what went in: what was paid for one of Unit. Used only if Prices does not have the item."),
        column("Instead of", 22, Shape::Free, region.pick("Under market: what it saves buying.\n\n1 lb Chicken backs per lb", "Under market: what it saves buying.\n\n1 kg Fish bones per kg")),
        column("Otherwise", 18, Shape::AsTyped, region.pick(
            "What happens to a by-product that is not used.\n\nbinned (also if blank)\nsold 0.80 / lb",
            "What happens to a by-product that is not used.\n\nbinned (also if blank)\nsold 1.20 / kg",
        )),
        column("Eaten", 8, Shape::Percent, "How much of a by-product leaves on plates when it is used: 100% of trim in a filling. Blank: nothing, as with bones, which are strained out."),
        column("Keeps", 8, Shape::Number, parings::food::care::KEEPS),
        column("Date", 12, Shape::Day, "When it was weighed. A repeat of a test has the same name and another date: the weights are pooled."),
        column("Run", 7, Shape::Free, "Which of several repeats on one day: 1, 2. May stay blank."),
        column("Note", 26, Shape::Free, NOTE),
    ]
}

/// The lines of a recipe card.
#[rustfmt::skip]
pub fn lines(region: Region) -> Vec<Column> {
    vec![
        column("Ingredient", 28, Shape::Free, "A bought item, a part of a yield test, another recipe or, for a set menu, a dish of the menu: the name used there.\n\nWater costs nothing.").typed_in(EVERYTHING),
        column("Qty", 10, Shape::Amount, "How much: 2, 1.5, 1 1/2\n\nto taste = a line without cost"),
        column("Unit", 9, Shape::Free, region.pick("lb, cup, each; of another recipe also portion or batch.", "kg, ml, each; of another recipe also portion or batch.")).with(region.recipe_units()),
        column("Prep", 13, Shape::Free, "How it is cut: diced. It chooses the measure."),
        column("Basis", 8, Shape::Free, "AP = as it comes, EP = peeled and trimmed.\n\nBlank: weights and volumes are EP; each, bunch, head and can are AP.").only(BASES),
        column("Yield", 8, Shape::Percent, "Of this line alone. Above 100% if the line is written in cooked weight."),
        column("Used", 8, Shape::Percent, "How much of it is used up: 40% of the frying oil."),
        column("Note", 22, Shape::Free, NOTE),
    ]
}

/// The menu.
#[rustfmt::skip]
pub fn menu(region: Region) -> Vec<Column> {
    vec![
        column("Dish", 32, Shape::Free, "As it stands on the menu."),
        column("Recipe", 26, Shape::Free, "Its recipe. Blank: the one of the same name.").typed_in(RECIPES),
        column("Portion", 12, Shape::Amount, region.pick("What is served of it, if not what the card says: 8 fl oz", "What is served of it, if not what the card says: 250 ml")),
        column("Menu price", 11, Shape::Money, "What a portion sells for. Blank: the card's price."),
        column("Target", 9, Shape::Percent, "Food-cost % to keep to. Blank: the card's, else the one in Settings."),
        column("Tax", 8, Shape::Percent, "The rate of tax within this price, if it is not the one in Settings."),
        column("Group", 16, Shape::Free, "Soups, Plates: carried along."),
        column("Sold", 8, Shape::Number, "How many were sold in the period you look at. May stay blank."),
        column("Note", 26, Shape::Free, NOTE),
    ]
}

/// What else things are called.
pub fn names(_: Region) -> Vec<Column> {
    vec![
        column(
            "Item",
            32,
            Shape::Free,
            "What is meant: a bought item, a part of a yield test or a recipe, as it is called there.",
        )
        .typed_in(EVERYTHING),
        column("Also called", 36, Shape::Free, "Other names that recipes use for it, with ; between."),
        column("Note", 28, Shape::Free, NOTE),
    ]
}

/// Opening, purchases and closing.
#[rustfmt::skip]
pub fn control(_: Region) -> Vec<Column> {
    vec![
        column("Period", 18, Shape::Free, "November, or week 47."),
        column("From", 11, Shape::Day, "Its first day: that day's prices count for what was there. May stay blank."),
        column("To", 11, Shape::Day, "Its last day: that day's prices count for what was sold. May stay blank."),
        column("Opening", 12, Shape::Money, "What was in store when the period began, in money."),
        column("Purchases", 12, Shape::Money, "What was bought in it."),
        column("Closing", 12, Shape::Money, "What was in store when it ended."),
        column("Transfers in", 13, Shape::Money, "Food that came from another kitchen or the bar."),
        column("Transfers out", 13, Shape::Money, "Food that went to another kitchen or the bar."),
        column("Staff meals", 12, Shape::Money, "What the staff ate."),
        column("Comps", 9, Shape::Money, "Food given away, at what it cost."),
        column("Waste", 11, Shape::Money, "What the waste log says was thrown away, at what it cost."),
        column("Sales", 12, Shape::Money, "What guests paid for food, without tax."),
    ]
}

/// Opening, purchases and closing item by item.
#[rustfmt::skip]
pub fn counts(region: Region) -> Vec<Column> {
    vec![
        column("Item", 32, Shape::Free, "A bought item, or trim in the freezer, as it is called there.").typed_in(EVERYTHING),
        column("Opening", 12, Shape::Amount, region.pick("How much there was on the first day: 12 with lb beside it, or 1 case", "How much there was on the first day: 5 with kg beside it, or 1 case")),
        column("Purchases", 12, Shape::Amount, "How much was bought since. May stay blank."),
        column("Closing", 12, Shape::Amount, "How much there was on the last day."),
        column("Waste", 10, Shape::Amount, "How much of it was thrown away, if somebody wrote it down."),
        column("Unit", 9, Shape::Free, "The unit of all four, where it is not written with them.").with(region.stock_units()),
        column("Paid", 11, Shape::Money, "What was paid for all that was bought of it. Blank: what Prices says."),
        column("Note", 26, Shape::Free, NOTE),
    ]
}

/// What holds for a supplier.
pub fn suppliers(_: Region) -> Vec<Column> {
    vec![
        column("Supplier", 32, Shape::Free, "Who sells it, as in Prices."),
        column("Minimum order", 16, Shape::Money, "The least that is delivered, in money. An order below it is told."),
        column("Note", 36, Shape::Free, NOTE),
    ]
}

/// The plan.
pub fn plan(_: Region) -> Vec<Column> {
    vec![
        column("Dish", 36, Shape::Free, "A dish of the menu, as it is called there.").typed_in(DISHES),
        column("Portions", 11, Shape::Number, "How many will be served."),
        column("Day", 16, Shape::Free, "Friday, or a date. May stay blank."),
        column("Note", 30, Shape::Free, NOTE),
    ]
}

/// What is on hand.
#[rustfmt::skip]
pub fn stock(region: Region) -> Vec<Column> {
    vec![
        column("Item", 36, Shape::Free, "A bought item or a part of a yield test, as it is called there.").typed_in(EVERYTHING),
        column("On hand", 13, Shape::Amount, region.pick("How much there is: 12 with lb beside it, or 12 lb", "How much there is: 5 with kg beside it, or 5 kg")),
        column("Unit", 9, Shape::Free, "The unit, if it is not written with the amount.").with(region.stock_units()),
        column("On order", 12, Shape::Amount, "What is ordered and not there yet: 1 case. It comes off the next order."),
        column("Note", 26, Shape::Free, NOTE),
    ]
}
