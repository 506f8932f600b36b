//! The teaching kitchen's recipes: two basics as a flat list, the stocks, soups and plates as cards.

use rust_xlsxwriter::XlsxError;

use super::super::pen::{Book, Cell, pct, row, usd};

const WIDTHS: &[u16] = &[26, 12, 10, 11, 9, 9, 40];

/// The roux and the dressing: facts in one table, lines in another.
#[rustfmt::skip]
pub fn basics(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Basics", &[26, 20, 12, 10, 40], false)?;
    page.title("Basics", "Kept as a list: what each recipe makes, then its lines.")?;
    page.header(&["Recipe", "Makes", "Group", "Note"])?;
    page.rows(&[
        row!["Brown roux", "30 oz", "Basics", "cooked to the color of hazelnuts"],
        row!["Honey mustard dressing", "26 fl oz", "Basics", "shake before use"],
    ])?;
    page.skip(1);
    page.header(&["Recipe", "Ingredient", ">Qty", "Unit", "Note"])?;
    page.lines(
&[
        row!["Brown roux", "Unsalted butter", 1, "lb", "known here by its other name"],
        row!["Brown roux", "Flour, all-purpose", 1, "lb", ""],
        row!["Honey mustard dressing", "Olive oil", 2, "cup", ""],
        row!["Honey mustard dressing", "Cider vinegar", "3/4", "cup", ""],
        row!["Honey mustard dressing", "Honey", "1/4", "cup", ""],
        row!["Honey mustard dressing", "Dijon mustard", 2, "tbsp", ""],
        row!["Honey mustard dressing", "Lemons", 1, "each", "juice and zest"],
        row!["Honey mustard dressing", "Kosher salt", "to taste", "", ""],
    ], Some(2))
}

/// The two stocks.
#[rustfmt::skip]
pub fn stocks(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Stocks", WIDTHS, false)?;
    page.title("Stocks", "Chill fast, hold cold, date, and use or discard by the house rule.")?;
    page.card(
        &[
            row!["Recipe", "Shrimp shell stock"],
            row!["Makes", "8 qt"],
            row!["Spice factor", pct(1.0)],
            row!["Group", "Stocks"],
            row!["Note", "Crustaceans pass into the stock and into all that is made of it."],
            row!["Method", "Roast shells and heads in the oil; add the rest; simmer 40 minutes; strain."],
        ],
        &["Ingredient", ">Qty", "Unit", "Prep", ">Yield", ">Used", "Note"],
        &[
            row!["Shrimp shells", 2, "lb", "", "", "", ""],
            row!["Shrimp heads", 4, "lb", "", "", "", ""],
            row!["Olive oil", 2, "fl oz", "", "", "", ""],
            row!["Yellow onions", "1 lb 8 oz", "", "", "", "", ""],
            row!["Garlic, peeled", 2, "oz", "", "", "", ""],
            row!["Fennel", 12, "oz", "", "", "", "trimmed; keep the fronds"],
            row!["Celery", 8, "oz", "", "", "", ""],
            row!["Tomato paste", 3, "oz", "", "", "", ""],
            row!["Dry sherry", 1, "cup", "", "", "", ""],
            row!["Flat parsley", "1/2", "bunch", "", "", "", "stems and all"],
            row!["Water", 9, "qt", "", "", "", ""],
            row!["Bay leaves", "as needed", "", "", "", "", ""],
        ],
    )?;
    page.card(
        &[
            row!["Recipe", "Duck frame stock"],
            row!["Makes", "6 qt"],
            row!["Group", "Stocks"],
            row!["Method", "Roast frames and wing tips; add the rest; simmer 4 hours; strain and skim."],
        ],
        &["Ingredient", ">Qty", "Unit", "Prep", ">Yield", ">Used", "Note"],
        &[
            row!["Duck frame", 6, "lb", "", "", "", ""],
            row!["Duck wing tips", 12, "oz", "", "", "", ""],
            row!["Yellow onions", 1, "lb", "", "", "", ""],
            row!["Garlic, peeled", 1, "oz", "", "", "", ""],
            row!["Carrots", 8, "oz", "", "", "", ""],
            row!["Celery", 8, "oz", "", "", "", ""],
            row!["Tomato paste", 2, "oz", "", "", "", ""],
            row!["Red wine", "1/2", "bottle", "", "", "", ""],
            row!["Flat parsley", "1/2", "bunch", "", "", "", "stems and all"],
            row!["Water", 8, "qt", "", "", "", ""],
            row!["Bay leaves", "as needed", "", "", "", "", ""],
        ],
    )
}

/// The two soups that the stocks become.
#[rustfmt::skip]
pub fn soups(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Soups", WIDTHS, false)?;
    page.title("Soups", "Sold at lunch and at dinner.")?;
    page.card(
        &[
            row!["Recipe", "Smoky shrimp and butternut soup"],
            row!["Makes", "10 qt"],
            row!["Portion", "8 fl oz"],
            row!["Serving loss", pct(3.0)],
            row!["Q factor", usd(0.35)],
            row!["Spice factor", pct(2.0)],
            row!["Group", "Soups"],
            row!["Note", "Q is the roll and the lemon wedge, one of each whatever the bowl."],
            row!["Method", "Sweat onions and garlic; add squash and stock; bind with roux; blend; finish with cream."],
        ],
        &["Ingredient", ">Qty", "Unit", "Prep", ">Yield", ">Used", "Note"],
        &[
            row!["Butter, unsalted", 4, "oz", "", "", "", ""],
            row!["Yellow onions", 6, "cup", "diced", "", "", ""],
            row!["Garlic, peeled", 3, "oz", "", "", "", ""],
            row!["Butternut squash", 8, "lb", "", "", "", "peeled and seeded"],
            row!["Smoked paprika", "1/4", "cup", "", "", "", ""],
            row!["Tomato paste", 4, "oz", "", "", "", ""],
            row!["Dry sherry", 1, "cup", "", "", "", ""],
            row!["Shrimp shell stock", 6, "qt", "", "", "", ""],
            row!["Brown roux", 12, "oz", "", "", "", ""],
            row!["Heavy cream", 3, "cup", "", "", "", ""],
            row!["Lemons", 3, "each", "", "", "", "juice"],
            row!["Kosher salt", "to taste", "", "", "", "", ""],
        ],
    )?;
    page.card(
        &[
            row!["Recipe", "Duck and barley soup"],
            row!["Makes", "9 qt"],
            row!["Portion", "12 fl oz"],
            row!["Serving loss", pct(4.0)],
            row!["Spice factor", pct(1.5)],
            row!["Menu price", usd(7.95)],
            row!["Group", "Soups"],
            row!["Method", "Sweat vegetables in the fat; toast the barley; add stock; simmer; warm the meat in it."],
        ],
        &["Ingredient", ">Qty", "Unit", "Prep", ">Yield", ">Used", "Note"],
        &[
            row!["Rendered duck fat", 3, "oz", "", "", "", ""],
            row!["Yellow onions", 4, "cup", "diced", "", "", ""],
            row!["Carrots", "1 1/2", "lb", "", "", "", ""],
            row!["Celery", 1, "lb", "", "", "", ""],
            row!["Pearl barley", 3, "cup", "", "", "", ""],
            row!["Duck frame stock", 1, "batch", "", "", "", ""],
            row!["Braised duck meat", "1 lb 8 oz", "", "", "", "", ""],
            row!["Flat parsley", 1, "cup", "chopped", "", "", ""],
            row!["Water", 1, "qt", "", "", "", ""],
            row!["Kosher salt", "to taste", "", "", "", "", ""],
        ],
    )
}

/// The plates, and the potatoes that go with one of them.
#[rustfmt::skip]
pub fn plates(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Plates", WIDTHS, false)?;
    page.title("Plates", "Quantities are for the portions named on the card.")?;
    page.card(
        &[
            row!["Recipe", "Chilled shrimp with grapefruit and fennel"],
            row!["Portions", 10],
            row!["Group", "Plates"],
        ],
        &["Ingredient", ">Qty", "Unit", "Prep", ">Yield", ">Used", "Note"],
        &[
            row!["Shrimp tails", "3 lb 2 oz", "", "", "", "", "5 oz a plate"],
            row!["Grapefruit, ruby", 2, "lb", "", "", "", "segments"],
            row!["Fennel", "1 lb 4 oz", "", "", "", "", "shaved"],
            row!["Honey mustard dressing", 10, "fl oz", "", "", "", ""],
            row!["Flat parsley", "1/2", "cup", "chopped", "", "", ""],
            row!["Kosher salt", "to taste", "", "", "", "", ""],
        ],
    )?;
    page.card(
        &[
            row!["Recipe", "Duck breast with honeyed apples"],
            row!["Portions", 8],
            row!["Group", "Plates"],
        ],
        &["Ingredient", ">Qty", "Unit", "Prep", ">Yield", ">Used", "Note"],
        &[
            row!["Duck breast", 4, "lb", "", "", "", "8 oz a plate, raw"],
            row!["Apples, tart", 6, "each", "", "", "", ""],
            row!["Honey", "1/2", "cup", "", "", "", ""],
            row!["Cider vinegar", "1/2", "cup", "", "", "", ""],
            row!["Butter, unsalted", 4, "oz", "", "", "", ""],
            row!["Duck frame stock", 1, "qt", "", "", "", "reduced to a sauce"],
            row!["Duck fat potatoes", 8, "portion", "", "", "", ""],
            row!["Flat parsley", "1/4", "cup", "chopped", "", "", ""],
            row!["Kosher salt", "to taste", "", "", "", "", ""],
        ],
    )?;
    page.card(
        &[
            row!["Recipe", "Duck fat potatoes"],
            row!["Makes", "4 lb"],
            row!["Portion", "5 oz"],
            row!["Serving loss", pct(5.0)],
            row!["Group", "Sides"],
        ],
        &["Ingredient", ">Qty", "Unit", "Prep", ">Yield", ">Used", "Note"],
        &[
            row!["Potatoes, yellow", 5, "lb", "", "", "", "peeled, cut"],
            row!["Rendered duck fat", 8, "oz", "", "", pct(40.0), "the rest is strained and used again"],
            row!["Flat parsley", 2, "tbsp", "chopped", "", "", ""],
            row!["Kosher salt", "to taste", "", "", "", "", ""],
        ],
    )?;
    page.card(
        &[
            row!["Recipe", "Duck and lentil plate"],
            row!["Portions", 12],
            row!["Group", "Plates"],
        ],
        &["Ingredient", ">Qty", "Unit", "Prep", ">Yield", ">Used", "Note"],
        &[
            row!["Braised duck meat", 3, "lb", "", "", "", "4 oz a plate"],
            row!["Green lentils", 5, "lb", "", pct(240.0), "", "cooked weight: 1 lb dry gives 2.4 lb"],
            row!["Carrots", 1, "lb", "", "", "", ""],
            row!["Yellow onions", 1, "lb", "", "", "", ""],
            row!["Garlic, peeled", 1, "oz", "", "", "", ""],
            row!["Red wine", "1/2", "bottle", "", "", "", ""],
            row!["Duck frame stock", 1, "qt", "", "", "", ""],
            row!["Rendered duck fat", 2, "oz", "", "", "", ""],
            row!["Honey mustard dressing", 8, "fl oz", "", "", "", ""],
            row!["Flat parsley", 1, "bunch", "", "", "", ""],
            row!["Kosher salt", "to taste", "", "", "", "", ""],
        ],
    )?;
    page.card(
        &[
            row!["Recipe", "Warm lentils with a soft egg"],
            row!["Portions", 1],
            row!["Group", "Plates"],
        ],
        &["Ingredient", ">Qty", "Unit", "Prep", ">Yield", ">Used", "Note"],
        &[
            row!["Green lentils", 6, "oz", "", pct(240.0), "", "cooked weight"],
            row!["Eggs, large", 1, "each", "", "", "", ""],
            row!["Duck cracklings", "1/2", "oz", "", "", "", ""],
            row!["Carrots", 1, "oz", "", "", "", ""],
            row!["Honey mustard dressing", 1, "fl oz", "", "", "", ""],
            row!["Flat parsley", 1, "tbsp", "chopped", "", "", ""],
            row!["Kosher salt", "to taste", "", "", "", "", ""],
        ],
    )
}
