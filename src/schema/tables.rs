//! The columns of each kind of table: canonical header, synonyms, and whether the kind must have them.

use crate::schema::column::{Column as C, ColumnDef};

/// A column the kind must have.
const fn must(column: C, header: &'static str, synonyms: &'static [&'static str]) -> ColumnDef {
    ColumnDef::required(column, header, synonyms)
}

/// A column the kind may have.
const fn may(column: C, header: &'static str, synonyms: &'static [&'static str]) -> ColumnDef {
    ColumnDef::optional(column, header, synonyms)
}

/// Other headers of an item, where the table is about what is bought.
const BOUGHT: &[&str] = &[
    "Ingredient",
    "Product",
    "Description",
    "Article",
    "Ingredients",
    "Description of goods",
    "Item description",
    "Product description",
    "Item name",
    "Product name",
    "Item / spec",
    "Goods",
];
/// Other headers of an item, where it may as well be a part or a recipe.
const NAMED: &[&str] = &["Ingredient", "Product"];

/// Other headers of a price.
const PRICE: &[&str] = &[
    "Pack price",
    "Case price",
    "Cost",
    "Price paid",
    "Unit price",
    "Unit cost",
    "Case cost",
    "Net price",
    "Net cost",
    "List price",
    "Cost/CS",
    "Price/CS",
    "Price per case",
    "Cost per case",
    "Net price per case",
];
/// Other headers of a second price.
const POUND_PRICE: &[&str] = &[
    "Lb price",
    "Price/lb",
    "Price per lb",
    "Price per pound",
    "Cost/lb",
    "Cost per lb",
    "Kg price",
    "Price/kg",
    "Price per kg",
    "Cost/kg",
    "Cost per kg",
    "Price per unit",
    "Net price per unit",
];
/// Other headers of a code.
const CODE: &[&str] = &[
    "Item code",
    "Item no",
    "SKU",
    "Product code",
    "Prod no",
    "Product no",
    "Prod code",
    "Art",
    "Art no",
    "Article no",
    "Item number",
    "Product number",
    "Stock no",
];

/// Price rows. `Pack size` means the pack, save where it holds a bare number beside a size unit: see `book::rows::packs`.
pub(super) const PRICES: &[ColumnDef] = &[
    must(C::Item, "Item", BOUGHT),
    may(
        C::Pack,
        "Pack",
        &[
            "Pack size",
            "Pack/size",
            "Pk/Sz",
            "Pk size",
            "Size / Count",
            "Packing",
            "Packaging",
            "Case pack",
            "Comes as",
            "Bought as",
        ],
    ),
    may(C::PackCount, "Pack count", &["Units per case", "Count", "Outer", "Packing per case"]),
    may(C::UnitSize, "Unit size", &["Size", "Packing unit size"]),
    may(C::SizeUnit, "Size unit", &["Pack unit", "Unit", "UOM", "U/M", "Sell unit", "Unit of measure"]),
    must(C::Price, "Price", PRICE),
    may(C::PoundPrice, "Pound price", POUND_PRICE),
    may(C::Per, "Per", &["Price per", "Priced by", "Price unit"]),
    may(C::FurtherCost, "Further cost", &["Freight", "Delivery"]),
    may(C::Credit, "Credit", &["Deposit", "Rebate"]),
    may(C::Tax, "Tax", &[]),
    may(C::Qty, "Qty", &["Quantity", "Qty shipped", "Shipped", "Qty delivered", "Qty ship"]),
    may(
        C::Weight,
        "Weight",
        &["Net weight", "Weight shipped", "Catch weight", "Avg wt", "Average weight", "Avg weight"],
    ),
    may(C::Extended, "Extended", &["Ext", "Amount", "Amt", "Extension", "Extended price", "Ext price", "Line total"]),
    may(C::Supplier, "Supplier", &["Vendor", "Purveyor"]),
    may(C::Code, "Code", CODE),
    may(C::Date, "Date", &["Price date", "Effective", "Invoice date", "Valid from"]),
    may(C::Until, "Until", &["Expires", "Valid to", "Valid until", "End date", "Through"]),
    may(C::Yield, "Yield", &["Yield %", "EP %", "Edible portion"]),
    may(C::Preferred, "Preferred", &["Use"]),
    may(C::AlsoCalled, "Also called", &["Alias", "Other names"]),
    may(C::Allergens, "Allergens", &["Contains"]),
    may(C::MayContain, "May contain", &[]),
    may(C::Group, "Group", &["Category", "Section"]),
    may(C::ReferenceFood, "Reference food", &[]),
    may(C::Note, "Note", &["Notes", "Remarks", "Remark", "Comment", "Comments", "Status"]),
];

/// What measures weigh or hold.
pub(super) const MEASURES: &[ColumnDef] = &[
    must(C::Item, "Item", NAMED),
    must(C::Measure, "Measure", &[]),
    may(C::Weighs, "Weighs", &[]),
    may(C::Holds, "Holds", &[]),
    may(C::Basis, "Basis", &[]),
    may(C::Note, "Note", &[]),
];

/// Yield tests.
pub(super) const YIELD_TESTS: &[ColumnDef] = &[
    must(C::Test, "Test", &[]),
    must(C::Role, "Role", &[]),
    must(C::Part, "Part", &[]),
    must(C::Weight, "Weight", &[]),
    may(C::Unit, "Unit", &[]),
    may(C::Kind, "Kind", &[]),
    may(C::ChargedAs, "Charged as", &["Credit"]),
    may(C::Value, "Value", &[]),
    may(C::FurtherCost, "Further cost", &[]),
    may(C::Price, "Price", &[]),
    may(C::InsteadOf, "Instead of", &[]),
    may(C::Otherwise, "Otherwise", &[]),
    may(C::Eaten, "Eaten", &[]),
    may(C::Keeps, "Keeps", &[]),
    may(C::Date, "Date", &[]),
    may(C::Run, "Run", &[]),
    may(C::Note, "Note", &[]),
];

/// The lines of a card.
pub(super) const CARD_LINES: &[ColumnDef] = &[
    must(C::Item, "Ingredient", &["Item", "Product", "Ingredients"]),
    must(C::Qty, "Qty", &["Quantity", "Amount", "Amt"]),
    may(C::Unit, "Unit", &["UOM", "Measure"]),
    may(C::Prep, "Prep", &[]),
    may(C::Basis, "Basis", &[]),
    may(C::Yield, "Yield", &[]),
    may(C::Used, "Used", &[]),
    may(C::Note, "Note", &[]),
];

/// The lines of many recipes.
pub(super) const RECIPE_LINES: &[ColumnDef] = &[
    must(C::Recipe, "Recipe", &[]),
    must(C::Item, "Ingredient", &["Item", "Product", "Ingredients"]),
    must(C::Qty, "Qty", &["Quantity", "Amount", "Amt"]),
    may(C::Unit, "Unit", &["UOM", "Measure"]),
    may(C::Prep, "Prep", &[]),
    may(C::Basis, "Basis", &[]),
    may(C::Yield, "Yield", &[]),
    may(C::Used, "Used", &[]),
    may(C::Note, "Note", &[]),
];

/// A card's labels as columns.
pub(super) const RECIPE_FACTS: &[ColumnDef] = &[
    must(C::Recipe, "Recipe", &[]),
    may(C::Makes, "Makes", &["Yields", "Batch size"]),
    may(C::BatchYield, "Yield", &[]),
    may(C::Portion, "Portion", &[]),
    may(C::Portions, "Portions", &["Serves", "Servings", "Covers"]),
    may(C::MenuPrice, "Menu price", &[]),
    may(C::Target, "Target", &[]),
    may(C::QFactor, "Q factor", &["Accompaniments"]),
    may(C::SpiceFactor, "Spice factor", &["Seasoning"]),
    may(C::ServingLoss, "Serving loss", &[]),
    may(C::Group, "Group", &[]),
    may(C::Note, "Note", &[]),
    may(C::Method, "Method", &[]),
];

/// The menu.
pub(super) const MENU: &[ColumnDef] = &[
    must(C::Dish, "Dish", &[]),
    may(C::Recipe, "Recipe", &[]),
    may(C::Portion, "Portion", &[]),
    may(C::MenuPrice, "Menu price", &[]),
    may(C::Target, "Target", &[]),
    may(C::Tax, "Tax", &[]),
    may(C::Group, "Group", &[]),
    may(C::Sold, "Sold", &[]),
    may(C::Note, "Note", &[]),
];

/// The plan.
pub(super) const PLAN: &[ColumnDef] = &[
    must(C::Dish, "Dish", &[]),
    must(C::Portions, "Portions", &[]),
    may(C::Day, "Day", &[]),
    may(C::Note, "Note", &[]),
];

/// What is on hand.
pub(super) const STOCK: &[ColumnDef] = &[
    must(C::Item, "Item", NAMED),
    must(C::OnHand, "On hand", &[]),
    may(C::OnOrder, "On order", &["Under way"]),
    may(C::Unit, "Unit", &[]),
    may(C::Note, "Note", &[]),
];

/// Other headers of what there is on the first day, in money or counted.
const AT_FIRST: &[&str] = &["Opening stock", "Opening inventory", "Beginning inventory"];
/// Other headers of what there is on the last day.
const AT_LAST: &[&str] = &["Closing stock", "Closing inventory", "Ending inventory"];

/// Stock counts, one row per item.
pub(super) const COUNTS: &[ColumnDef] = &[
    must(C::Item, "Item", NAMED),
    must(C::OpeningCount, "Opening", AT_FIRST),
    may(C::PurchasedCount, "Purchases", &["Purchased", "Received"]),
    may(C::CameIn, "Transfers in", &[]),
    may(C::WentOut, "Transfers out", &[]),
    must(C::ClosingCount, "Closing", AT_LAST),
    may(C::Thrown, "Waste", &[]),
    may(C::Unit, "Unit", &["UOM"]),
    may(C::Paid, "Paid", &[]),
    may(C::Group, "Group", &[]),
    may(C::Note, "Note", &[]),
];

/// Food-cost control, one row per period.
pub(super) const CONTROL: &[ColumnDef] = &[
    may(C::Period, "Period", &[]),
    may(C::FirstDay, "From", &["First day"]),
    may(C::LastDay, "To", &["Last day"]),
    must(C::Opening, "Opening", AT_FIRST),
    must(C::Purchases, "Purchases", &[]),
    must(C::Closing, "Closing", AT_LAST),
    may(C::TransfersIn, "Transfers in", &[]),
    may(C::TransfersOut, "Transfers out", &[]),
    may(C::StaffMeals, "Staff meals", &[]),
    may(C::Comps, "Comps", &[]),
    may(C::WasteLogged, "Waste", &[]),
    may(C::TrimSold, "Trim sold", &[]),
    may(C::Sales, "Sales", &[]),
];

/// What else things are called.
pub(super) const NAMES: &[ColumnDef] = &[
    must(C::Item, "Item", NAMED),
    must(C::AlsoCalled, "Also called", &["Alias", "Other names"]),
    may(C::Note, "Note", &[]),
];

/// Under which headings suppliers' lists have what we call otherwise.
pub(super) const SUPPLIER_LAYOUTS: &[ColumnDef] = &[
    must(C::Supplier, "Supplier", &[]),
    must(C::OurColumn, "Column", &[]),
    must(C::TheirHeading, "Their heading", &[]),
    may(C::Note, "Note", &[]),
];

/// What holds for a supplier.
pub(super) const SUPPLIERS: &[ColumnDef] = &[
    must(C::Supplier, "Supplier", &["Vendor", "Purveyor"]),
    must(C::MinimumOrder, "Minimum order", &["Minimum", "Order minimum", "Smallest order"]),
    may(C::Note, "Note", &[]),
];

/// Settings.
pub(super) const SETTINGS: &[ColumnDef] = &[must(C::Setting, "Setting", &[]), must(C::Value, "Value", &[])];
