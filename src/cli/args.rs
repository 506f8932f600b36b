//! The commands and flags, as clap reads them. Help, completions and the manual page come from here.

mod choices;
mod of_commands;
mod values;

use clap::{Parser, Subcommand};
use clap_complete::Shell;
use jiff::civil::Date;

pub use choices::{Color, ControlRows, Format, TableRows, TrimRows};
pub use of_commands::{
    BuyArgs, CheckArgs, ControlArgs, CostArgs, ExplainArgs, FoodArgs, MixArgs, NewArgs, PageArgs, RepriceArgs,
    ScaleArgs, TrimArgs, WhyArgs,
};
use values::day;

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
