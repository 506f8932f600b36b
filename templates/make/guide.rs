//! The first sheet: what to fill in, in which order, and how to run it; read in a minute. It holds no table.

use rust_xlsxwriter::{Format, FormatBorder, XlsxError};

use super::pen::{ACCENT, Book, Cell, INK, Page, RULE};
use super::region::Region;

/// A word or two, and what they mean.
type Lines = &'static [(&'static str, &'static str)];

const ORDER: Lines = &[
    ("1  Prices", "What you buy: your name for it, the pack as the supplier writes it, what it costs."),
    ("2  Yield tests", "What went in and what came out when something was boned, filleted or peeled. May wait."),
    ("3  Recipe card", "Copy the sheet for every recipe (right-click its tab). Stocks and sauces are recipes too."),
    ("4  Measures", "Only where a recipe asks in cups, bunches or pieces and the price is by weight."),
    ("5  Menu", "What is sold: the dish, its recipe, its price."),
    ("6  Settings", "Your target food-cost %, tax, and how prices are rounded."),
    ("Plan, Stock", "What will be served; what is on hand and on order. They may stay empty."),
    ("Suppliers, Names", "The least that each delivers; other names for things. They may stay empty."),
    ("Control, Counts", "What food really cost, in all and item by item. They may stay empty."),
];

const US_PACKS: Lines = &[
    ("50 lb", "one sack of 50 pounds"),
    ("6/5 lb", "six of 5 pounds"),
    ("4/1 gal", "four of one gallon"),
    ("140 ct 35 lb", "140 pieces that weigh 35 pounds in all"),
    ("2/16 lb avg", "two of about 16 pounds, billed by their real weight: put lb under Per"),
];

const METRIC_PACKS: Lines = &[
    ("25 kg", "one sack of 25 kilos"),
    ("6 x 2.5 kg", "six of 2.5 kilos"),
    ("12 x 750 ml", "twelve bottles of 750 ml"),
    ("60 ct 10 kg", "60 pieces that weigh 10 kilos in all"),
    ("10 kg avg", "about 10 kilos, billed by their real weight: put kg under Per"),
];

const ROLES: Lines = &[
    ("as purchased", "what went in, at the weight you were billed for"),
    ("added", "water, fat or brine that went in with it"),
    ("main", "what it was cut for; it bears what the by-products do not"),
    ("by-product", "kept and used elsewhere: bones for the stock. Charged as says what it bears"),
    ("waste", "thrown away. What nobody weighed is the cutting loss and works itself out"),
];

const RUN: Lines = &[
    ("Save this book,", "then drop the file on parings; or, where commands are typed: parings cost FILE.xlsx"),
    ("Look beside it", "for FILE.costed.xlsx: every dish with its cost, and how it was figured."),
    ("What is missing", "is listed with its cell, and what to type there. This book is only read, never changed."),
];

/// Adds the sheet.
pub fn add(book: &mut Book, region: Region, example: bool) -> Result<(), XlsxError> {
    let mut page = book.sheet("Start here", &[20, 88], false)?;
    page.sheet().set_print_fit_to_pages(1, 1);
    page.title(
        "Your kitchen's book",
        "parings reads these sheets and tells what every dish costs. Leave blank what you do not know.",
    )?;
    section(&mut page, "Fill in, in this order", ORDER)?;
    section(&mut page, "How a pack is written", region.pick(US_PACKS, METRIC_PACKS))?;
    section(&mut page, "The roles in a yield test", ROLES)?;
    section(&mut page, "Run it", RUN)?;
    section(
        &mut page,
        "Good to know",
        &[
            ("Help", "Rest on a header and a note says what goes there, with an example. Some cells have a list."),
            (
                "Names",
                "One name for one thing: what Prices calls Onions is Onions in every recipe. Lists offer what was typed.",
            ),
            ("Room", "Go on below the lines as far as you like. Columns you do not need may stay blank."),
        ],
    )?;
    if example {
        section(
            &mut page,
            "The example",
            &[
                ("EXAMPLE", "Shaded rows are an invented example. Look at it, cost it, then delete them and the sheet"),
                ("", "Example recipes. Type your own settings over its settings."),
            ],
        )?;
    }
    Ok(())
}

fn section(page: &mut Page<'_>, heading: &'static str, lines: Lines) -> Result<(), XlsxError> {
    let rule = Format::new().set_border_bottom(FormatBorder::Hair).set_border_bottom_color(RULE);
    page.put(0, Cell::Text(heading), &rule.clone().set_bold().set_font_color(ACCENT))?;
    page.put(1, Cell::Blank, &rule)?;
    page.skip(1);
    for (word, meaning) in lines {
        page.put(0, Cell::from(*word), &Format::new().set_bold().set_font_color(INK))?;
        page.put(1, Cell::from(*meaning), &Format::new().set_font_color(INK))?;
        page.skip(1);
    }
    page.skip(1);
    Ok(())
}
