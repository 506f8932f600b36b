//! Arguments of each command.

use std::path::PathBuf;

use jiff::civil::Date;

use super::choices::{ControlRows, TableRows, TrimRows};
use super::values::{bound, column, day, maybe_empty, step, wage};
use crate::number::Decimal;
use crate::schema::Column;

/// What to check.
#[derive(Debug, clap::Args)]
pub struct CheckArgs {
    /// Give the files of the book: xlsx, xlsm, xlsb, xls, ods or csv
    #[arg(value_name = "BOOK", required = true)]
    pub books: Vec<PathBuf>,
    /// Write what is missing here, as tables ready to fill in
    #[arg(long, value_name = "FILL-IN.xlsx")]
    pub missing: Option<PathBuf>,
}

/// What to cost, and where to.
#[derive(Debug, clap::Args)]
pub struct CostArgs {
    /// Give the files of the book: xlsx, xlsm, xlsb, xls, ods or csv
    #[arg(value_name = "BOOK", required = true)]
    pub books: Vec<PathBuf>,
    /// Write the costed workbook here instead of NAME.costed.xlsx beside the first book
    #[arg(long, short, value_name = "OUT.xlsx")]
    pub output: Option<PathBuf>,
    /// Put this recipe, dish or group on cards where the workbook has lists, above 200 recipes; may be given several times
    #[arg(long, value_name = "NAME")]
    pub cards: Vec<String>,
    /// Choose what --format csv prints a row for: dishes when nothing is chosen, recipes where the book has no dish
    #[arg(long, value_name = "ROWS", value_enum)]
    pub rows: Option<TableRows>,
}

/// Whose trim, and which charge to move.
#[derive(Debug, clap::Args)]
pub struct TrimArgs {
    /// Give the files of the book: xlsx, xlsm, xlsb, xls, ods or csv
    #[arg(value_name = "BOOK", required = true)]
    pub books: Vec<PathBuf>,
    /// Move the charge of this by-product from nothing to all of the AP price; the first that a dish is made of otherwise
    #[arg(long, value_name = "BY-PRODUCT")]
    pub vary: Vec<String>,
    /// Move it in steps of so much
    #[arg(long, value_name = "PERCENT", value_parser = step, default_value = "10%")]
    pub step: Decimal,
    /// Choose what --format csv prints a row for: parts under every way of charging, or with --vary steps, when nothing is chosen
    #[arg(long, value_name = "WHAT", value_enum)]
    pub rows: Option<TrimRows>,
    /// Say for how many minutes of labor what is saved would pay, at so much money an hour
    #[arg(long, value_name = "MONEY", value_parser = wage)]
    pub wage: Option<Decimal>,
}

/// Whose menu.
#[derive(Debug, clap::Args)]
pub struct MixArgs {
    /// Give the files of the book: xlsx, xlsm, xlsb, xls, ods or csv
    #[arg(value_name = "BOOK", required = true)]
    pub books: Vec<PathBuf>,
}

/// Whose plan.
#[derive(Debug, clap::Args)]
pub struct BuyArgs {
    /// Give the files of the book: xlsx, xlsm, xlsb, xls, ods or csv
    #[arg(value_name = "BOOK", required = true)]
    pub books: Vec<PathBuf>,
    /// Print the order of this supplier alone
    #[arg(long, value_name = "NAME")]
    pub supplier: Option<String>,
    /// Write a sheet for each supplier, to print and tick, here
    #[arg(long, short, value_name = "OUT.xlsx")]
    pub output: Option<PathBuf>,
}

/// Whose periods.
#[derive(Debug, clap::Args)]
pub struct ControlArgs {
    /// Give the files of the book: xlsx, xlsm, xlsb, xls, ods or csv
    #[arg(value_name = "BOOK", required = true)]
    pub books: Vec<PathBuf>,
    /// Choose what --format csv prints a row for: periods, when nothing is chosen
    #[arg(long, value_name = "WHAT", value_enum)]
    pub rows: Option<ControlRows>,
}

/// Which new lists, and how to read them.
#[derive(Debug, clap::Args)]
pub struct RepriceArgs {
    /// Give the files of the book: xlsx, xlsm, xlsb, xls, ods or csv
    #[arg(value_name = "BOOK", required = true)]
    pub books: Vec<PathBuf>,
    /// Give suppliers' new lists, of the same kinds
    #[arg(long, value_name = "NEW", num_args = 1.., required = true)]
    pub prices: Vec<PathBuf>,
    /// Say whose lists they are, where they do not say it themselves
    #[arg(long, value_name = "NAME")]
    pub supplier: Option<String>,
    /// Say under which heading a list has a column, as in price="Net amt"; the table Supplier layouts of a book remembers it
    #[arg(long, value_name = "COLUMN=HEADING", value_parser = column)]
    pub column: Vec<(Column, String)>,
    /// Take the price of this item that was held back
    #[arg(long, value_name = "ITEM")]
    pub accept: Vec<String>,
    /// Hold back what moves by more than this per unit
    #[arg(long, value_name = "PERCENT", value_parser = bound, default_value = "50%")]
    pub bound: Decimal,
    /// Date the rows that bear no date themselves, as YYYY-MM-DD; the costing date otherwise
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub dated: Option<Date>,
    /// Write a costed workbook at the new prices, with a sheet of what changed, here instead of NAME.repriced.xlsx
    #[arg(long, short, value_name = "OUT.xlsx")]
    pub output: Option<PathBuf>,
    /// Write the file that holds the prices with the new ones below its own, under this name; of a file of a kind that is only
    /// read, all inputs as a new workbook
    #[arg(long, value_name = "NEW")]
    pub write_book: Option<PathBuf>,
}

/// Which figure to explain.
#[derive(Debug, clap::Args)]
pub struct WhyArgs {
    /// Give the files of the book, then the name of a dish, recipe, part or item, and the ingredient of a line if one is meant
    #[arg(value_name = "BOOK... NAME [LINE]", required = true, value_parser = maybe_empty())]
    pub given: Vec<PathBuf>,
    /// Walk every line from quantity to money, and all that it stands on
    #[arg(long)]
    pub all: bool,
}

/// Which recipe, and in which size.
#[derive(Debug, clap::Args)]
#[command(group = clap::ArgGroup::new("size").required(true).args(["to", "by", "from"]))]
pub struct ScaleArgs {
    /// Give the files of the book: xlsx, xlsm, xlsb, xls, ods or csv
    #[arg(value_name = "BOOK", required = true, num_args = 1..)]
    pub books: Vec<PathBuf>,
    /// Name the recipe, or a dish made by it
    #[arg(value_name = "RECIPE", required = true)]
    pub recipe: String,
    /// Make so many portions, or so much of what it makes: 60, "3 gal", "12 kg"
    #[arg(long, value_name = "AMOUNT", allow_hyphen_values = true)]
    pub to: Option<String>,
    /// Make so many times the recipe: 2.5, 1/2
    #[arg(long, value_name = "FACTOR", allow_hyphen_values = true)]
    pub by: Option<String>,
    /// Make as much as is on hand allows: "4 lb Shrimp shells"; may be given several times
    #[arg(long, value_name = "AMOUNT ITEM", allow_hyphen_values = true)]
    pub from: Vec<String>,
    /// Count portions of another size than the card's: "230 g"
    #[arg(long, value_name = "SIZE")]
    pub portion: Option<String>,
    /// Let this ingredient come out whole, and the rest follow it: Eggs, "Tomatoes, canned"
    #[arg(long, value_name = "ITEM")]
    pub whole: Option<String>,
    /// Scale the recipes within it as well, each to all that is wanted of it
    #[arg(long)]
    pub with_sub_recipes: bool,
    /// Write a kitchen card to print, without money, here
    #[arg(long, short, value_name = "OUT.xlsx")]
    pub output: Option<PathBuf>,
}

/// Which empty book to write, and where to.
#[derive(Debug, clap::Args)]
pub struct NewArgs {
    /// Name the new file; .xlsx is put behind a name without an ending
    #[arg(value_name = "FILE")]
    pub file: PathBuf,
    /// Take kilos, litres, euros and A4 instead of pounds, cups, dollars and Letter
    #[arg(long)]
    pub metric: bool,
    /// Leave the example out
    #[arg(long)]
    pub plain: bool,
    /// Write only the form of a yield test, to print and fill in beside the scale; it has no example to leave out
    #[arg(long)]
    pub bench: bool,
}

/// Where the page goes.
#[derive(Debug, clap::Args)]
pub struct PageArgs {
    /// Name the file; .html is put behind a name without an ending
    #[arg(value_name = "FILE", default_value = "parings.html")]
    pub file: PathBuf,
}

/// Which food to look up, or for which book.
#[derive(Debug, clap::Args)]
pub struct FoodArgs {
    /// Name the food, or some words of its name, or its number in SR28
    #[arg(value_name = "NAME", required_unless_present = "books")]
    pub words: Vec<String>,
    /// Propose a food for every item of these files that names none
    #[arg(long = "for", value_name = "BOOK", num_args = 1.., conflicts_with = "words")]
    pub books: Vec<PathBuf>,
}

/// What to explain.
#[derive(Debug, clap::Args)]
pub struct ExplainArgs {
    /// Give codes as they are printed beside problems; none lists them all
    #[arg(value_name = "CODE")]
    pub codes: Vec<String>,
}
