//! The commands and flags, as clap reads them. Help, completions and the manual page come from here.

mod choices;
mod values;

use std::path::PathBuf;

use clap::{Parser, Subcommand};
use clap_complete::Shell;
use jiff::civil::Date;

use crate::number::Decimal;
use crate::schema::Column;
pub use choices::{Color, ControlRows, Format, TableRows, TrimRows};
use values::{bound, column, day, maybe_empty, step, wage};

/// Cost recipes from a kitchen's own spreadsheets, and give trim its due.
///
/// A book is one file or several that are read together: prices in one, recipes in another. Books are read and never
/// changed; the costed workbook is a new file.
#[derive(Debug, Parser)]
#[command(
    name = "parings",
    version,
    max_term_width = 100,
    override_usage = "parings BOOK...\n       parings COMMAND [OPTIONS] [BOOK]...",
    subcommand_negates_reqs = true,
    arg_required_else_help = true,
    after_help = "\
Give only a book to cost it:
  parings menu.xlsx
  parings prices.csv recipes.xlsx

Exit status: 0 done, 1 the book has errors and the rest was costed, 2 could not run."
)]
pub struct Args {
    /// What to do; a book alone is costed
    #[command(subcommand)]
    pub command: Option<Command>,
    /// What to cost, when no command is given
    #[command(flatten)]
    pub cost: CostArgs,
    /// What every command takes
    #[command(flatten)]
    pub common: Common,
}

/// The flags that every command takes.
#[derive(Debug, clap::Args)]
pub struct Common {
    /// Print the results as a table to read, or as JSON or csv for another program
    #[arg(long, global = true, value_name = "FORMAT", value_enum, default_value_t = Format::Table)]
    pub format: Format,
    /// Cost with the prices of this day instead of the book's costing date, as YYYY-MM-DD
    #[arg(long, global = true, value_name = "DATE", value_parser = day)]
    pub as_of: Option<Date>,
    /// Print results, errors and warnings alone: no notes, no progress; JSON and csv stay whole
    #[arg(long, short, global = true)]
    pub quiet: bool,
    /// Colour what is printed; NO_COLOR in the environment means never
    #[arg(long, global = true, value_name = "WHEN", value_enum, default_value_t = Color::Auto)]
    pub color: Color,
    /// Write over a file that parings did not write, or that was changed since; never over a book that is read
    #[arg(long, global = true)]
    pub force: bool,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Read a book, say what was found in it and what is wrong, and write nothing
    #[command(after_help = "\
Examples:
  parings check prices.csv recipes.xlsx
  parings check prices.csv recipes.xlsx --missing fill-in.xlsx

With --missing what is missing is written as tables to fill in: fill them in and read them together with the book.")]
    Check(CheckArgs),
    /// Cost every dish and write a costed workbook that still calculates
    #[command(after_help = "\
Examples:
  parings cost menu.xlsx
  parings cost prices.csv recipes.xlsx -o spring-menu.xlsx
  parings cost menu.xlsx --as-of 2026-11-20 --format csv
  parings cost menu.xlsx --format csv --rows lines
  parings cost canteen.xlsx --cards \"Leek soup\" --cards Desserts

With --format json or csv a workbook is written only where -o names one.")]
    Cost(CostArgs),
    /// Say what using trim is worth: where the weight and the money went, who gains by a credit, what is really saved
    #[command(after_help = "\
Examples:
  parings trim menu.xlsx
  parings trim menu.xlsx --vary \"Shrimp shells\" --step 5%
  parings trim menu.xlsx --format csv
  parings trim menu.xlsx --format csv --rows purchases

Figures only: when trim is kept, your local food code decides.")]
    Trim(TrimArgs),
    /// Compare the dishes of every group of the menu: how often they are ordered, and what is left of their price
    #[command(after_help = "\
Examples:
  parings mix menu.xlsx
  parings mix menu.xlsx sales-november.csv
  parings mix menu.xlsx --format csv

How many were sold stands in the menu's column Sold, or in a list with Dish and Sold that is read beside the book.")]
    Mix(MixArgs),
    /// Say what to order for the plan: from whom, in whole packs, what is left of them, and what trim comes out
    #[command(after_help = "\
Examples:
  parings buy menu.xlsx
  parings buy menu.xlsx --supplier Greengrocer
  parings buy menu.xlsx -o order.xlsx
  parings buy menu.xlsx --format csv

What is planned stands in a table with Dish and Portions, what is on hand and on order in one with Item, On hand and On
order, the least that a supplier delivers in one with Supplier and Minimum order.")]
    Buy(BuyArgs),
    /// Compare what the food sold cost by the stock counts with what it ought to have cost by the recipes
    #[command(after_help = "\
Examples:
  parings control menu.xlsx
  parings control menu.xlsx sales-november.csv
  parings control menu.xlsx --format csv --rows items

The stock stands in a table with Opening, Purchases and Closing in money, or with Item, Opening and Closing counted; how
many were sold in the menu's column Sold or in a list with Dish and Sold.")]
    Control(ControlArgs),
    /// Compare suppliers' new lists with a book: what moved, what it does to every dish and why, and what to do
    #[command(after_help = "\
Examples:
  parings reprice menu.xlsx --prices greengrocer.csv
  parings reprice menu.xlsx --prices dairy.xlsx --column price=\"Net amt\" --accept Butter
  parings reprice menu.xlsx --prices dairy.xlsx --write-book menu-december.xlsx

The book is never changed: --write-book writes it anew, with the new prices added to its history.")]
    Reprice(RepriceArgs),
    /// Say why a dish, recipe, part or item costs what it does, and what would change it
    #[command(after_help = "\
Examples:
  parings why menu.xlsx \"Leek soup\"
  parings why menu.xlsx \"Leek soup\" butter
  parings why prices.csv recipes.xlsx \"Shrimp shells\" --all
  parings why menu.xlsx \"Leek soup\" --format csv

A name behind the files is what is asked about, a second one a line of it. Nothing is written.")]
    Why(WhyArgs),
    /// Say how much of everything one recipe takes in another size, as a kitchen measures it, and what that costs
    #[command(after_help = "\
Examples:
  parings scale menu.xlsx \"Leek soup\" --to 60
  parings scale menu.xlsx \"Leek soup\" --to \"3 gal\" --with-sub-recipes
  parings scale menu.xlsx Custard --by 2.5 --whole Eggs -o custard.xlsx
  parings scale menu.xlsx \"Shellfish stock\" --from \"4 lb Shrimp shells\" --from \"2 lb Leeks\"

Seasoning, evaporation, cooking time and leavening are for the cook to judge.")]
    Scale(ScaleArgs),
    /// Write an empty book to fill in, with a small example
    #[command(after_help = "\
Examples:
  parings new kitchen
  parings new cuisine.xlsx --metric --plain
  parings new yield-test --bench

A file that is there already is written over with --force only.")]
    New(NewArgs),
    /// Write the page: all of this in a browser, as one file that needs no network
    #[command(after_help = "\
Examples:
  parings page
  parings page kitchen.html

Open it with a double click. A file that is there already is written over with --force only.")]
    Page(PageArgs),
    /// Look into the built-in foods: measures, refuse, cooked yields and where they come from
    #[command(after_help = "\
Examples:
  parings food leek
  parings food chicken roasted
  parings food --for menu.xlsx

With --for, rows to paste into Reference food are proposed; the book is never changed.")]
    Food(FoodArgs),
    /// Say what a problem code means, with an example and what to type instead
    #[command(after_help = "\
Examples:
  parings explain
  parings explain pack-is-a-date
  parings explain price-old yield-unused")]
    Explain(ExplainArgs),
    /// Print what a shell needs to complete commands and flags
    #[command(after_help = "Example:\n  parings completions bash > ~/.local/share/bash-completion/completions/parings")]
    Completions {
        /// Name the shell
        shell: Shell,
    },
    /// Print the manual page
    #[command(after_help = "Example:\n  parings man > parings.1")]
    Man,
}

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
