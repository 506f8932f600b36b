//! What the teaching kitchen buys and what it weighs: the Prices and Measures sheets.

use rust_xlsxwriter::XlsxError;

use super::super::pen::{Book, Cell, day, pct, row, usd};

/// Prices, under group headings; the shrimp with its history, butter and carrots with two suppliers each.
#[rustfmt::skip]
pub fn prices(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet(
        "Prices",
        &[25, 9, 23, 20, 10, 5, 13, 8, 10, 24, 21, 14],
        true,
    )?;
    page.title("What we pay", "One row for each price. Old prices stay: the newest one on or before the costing date counts.")?;
    page.lasting_header(
        &["Item", "Code", "Supplier", "Pack", ">Price", "Per", ">Date", ">Yield %", "Preferred", "Also called",
          "Allergens", "May contain"],
        1,
    )?;
    page.heading("SEAFOOD AND POULTRY")?;
    page.rows(&[
        row!["White shrimp, head on", "T-104", "Tidewrack Fish", "6/5 lb", usd(178.50), "", day(9, 18), "", "", "Head-on shrimp", "Crustaceans; Sulfites", "Molluscs"],
        row!["White shrimp, head on", "T-104", "Tidewrack Fish", "6/5 lb", usd(189.00), "", day(10, 30), "", "", "Head-on shrimp", "Crustaceans; Sulfites", "Molluscs"],
        row!["White shrimp, head on", "T-104", "Tidewrack Fish", "6/5 lb", usd(199.50), "", day(12, 1), "", "", "Head-on shrimp", "Crustaceans; Sulfites", "Molluscs"],
        row!["Whole duck", "X-220", "Oxbarrow Foods", "6/5 lb avg", usd(4.35), "lb", day(11, 9), "", "", "", "none", ""],
        row!["Chicken backs", "X-231", "Oxbarrow Foods", "40 lb", usd(27.60), "", day(11, 9), "", "", "", "none", ""],
    ])?;
    page.heading("DAIRY AND EGGS")?;
    page.rows(&[
        row!["Butter, unsalted", "X-310", "Oxbarrow Foods", "36/1 lb", usd(118.80), "", day(11, 2), "", "yes", "Unsalted butter", "Milk", ""],
        row!["Butter, unsalted", "C-12", "Cloverfen Dairy", "36/1 lb", usd(113.40), "", day(11, 9), "", "", "Unsalted butter", "Milk", ""],
        row!["Heavy cream", "C-20", "Cloverfen Dairy", "12/1 qt", usd(58.80), "", day(11, 9), "", "", "", "Milk", ""],
        row!["Eggs, large", "C-41", "Cloverfen Dairy", "30 dz", usd(97.20), "", day(11, 16), "", "", "", "Eggs", ""],
    ])?;
    page.heading("PRODUCE")?;
    page.rows(&[
        row!["Butternut squash", "F-05", "Fernhollow Produce", "35 lb", usd(28.00), "", day(11, 12), pct(84.0), "", "", "none", ""],
        row!["Yellow onions", "F-11", "Fernhollow Produce", "50 lb", usd(24.50), "", day(11, 12), pct(88.0), "", "", "none", ""],
        row!["Carrots", "X-402", "Oxbarrow Foods", "50 lb", usd(29.50), "", day(11, 2), pct(82.0), "", "", "none", ""],
        row!["Carrots", "F-14", "Fernhollow Produce", "50 lb", usd(31.00), "", day(11, 12), pct(82.0), "", "", "none", ""],
        row!["Celery", "F-15", "Fernhollow Produce", "24 ct", usd(38.40), "", day(11, 12), pct(75.0), "", "", "Celery", ""],
        row!["Fennel", "F-19", "Fernhollow Produce", "24 ct", usd(36.00), "", day(11, 12), pct(60.0), "", "", "none", ""],
        row!["Garlic, peeled", "F-22", "Fernhollow Produce", "4/5 lb", usd(58.00), "", day(11, 12), "", "", "", "none", ""],
        row!["Flat parsley", "F-27", "Fernhollow Produce", "60 bunch", usd(45.00), "", day(11, 12), pct(80.0), "", "Italian parsley", "none", ""],
        row!["Potatoes, yellow", "F-30", "Fernhollow Produce", "50 lb", usd(26.00), "", day(11, 12), pct(81.0), "", "", "none", ""],
        row!["Apples, tart", "F-41", "Fernhollow Produce", "88ct 40#", usd(44.00), "", day(11, 12), pct(76.0), "", "", "none", ""],
        row!["Grapefruit, ruby", "F-44", "Fernhollow Produce", "36 ct", usd(32.40), "", day(11, 12), pct(52.0), "", "", "none", ""],
        row!["Lemons", "F-47", "Fernhollow Produce", "140 ct", usd(42.00), "", day(11, 12), "", "", "", "none", ""],
    ])?;
    page.heading("DRY GOODS")?;
    page.rows(&[
        row!["Flour, all-purpose", "X-501", "Oxbarrow Foods", "50 lb", usd(21.00), "", day(10, 5), "", "", "Plain flour", "Wheat", ""],
        row!["Green lentils", "X-510", "Oxbarrow Foods", "25 lb", usd(38.75), "", day(10, 5), "", "", "", "none", "Wheat"],
        row!["Pearl barley", "X-512", "Oxbarrow Foods", "24/1 lb", usd(31.20), "", day(10, 5), "", "", "", "Barley", ""],
        row!["Honey", "X-520", "Oxbarrow Foods", "12/32 oz", usd(144.00), "", day(10, 5), "", "", "Wildflower honey", "none", ""],
        row!["Tomato paste", "X-533", "Oxbarrow Foods", "6/#10 (6 lb 15 oz)", usd(66.60), "", day(10, 5), "", "", "", "none", ""],
        row!["Smoked paprika", "X-541", "Oxbarrow Foods", "6/18 oz", usd(81.00), "", day(10, 5), "", "", "", "", ""],
        row!["Kosher salt", "X-545", "Oxbarrow Foods", "12/3 lb", usd(30.60), "", day(10, 5), "", "", "", "none", ""],
        row!["Bay leaves", "X-546", "Oxbarrow Foods", "8 oz", usd(9.20), "", day(10, 5), "", "", "", "none", ""],
        row!["Shellfish base", "X-560", "Oxbarrow Foods", "6/1 lb", usd(88.20), "", day(10, 5), "", "", "", "Crustaceans; Celery", "Fish"],
    ])?;
    page.heading("OIL, VINEGAR, CELLAR")?;
    page.rows(&[
        row!["Olive oil", "X-602", "Oxbarrow Foods", "4 x 3 L", usd(132.00), "", day(10, 5), "", "", "", "none", ""],
        row!["Cider vinegar", "X-610", "Oxbarrow Foods", "4/1 gal", usd(21.60), "", day(10, 5), "", "", "", "none", ""],
        row!["Dijon mustard", "X-615", "Oxbarrow Foods", "6 x 1 kg", usd(57.60), "", day(10, 5), "", "", "", "Mustard; Sulfites", ""],
        row!["Dry sherry", "V-08", "Ullage Wine Merchants", "12 x 750 ml", usd(135.00), "", day(8, 12), "", "", "", "Sulfites", ""],
        row!["Red wine", "V-15", "Ullage Wine Merchants", "12 x 750 ml", usd(99.00), "", day(10, 20), "", "", "", "Sulfites", ""],
    ])
}

/// What one cup, bunch or bottle of a thing weighs or holds in this kitchen.
#[rustfmt::skip]
pub fn measures(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Measures", &[24, 18, 12, 12, 8, 46], false)?;
    page.title("What things weigh", "Weighed in our own kitchen. AP is as it comes, EP is peeled, trimmed, ready for the pot.")?;
    page.lasting_header(&["Item", "Measure", "Weighs", "Holds", "Basis", "Note"], 1)?;
    page.rows(&[
        row!["Yellow onions", "cup, diced", "160 g", "", "EP", ""],
        row!["Yellow onions", "cup, sliced", "115 g", "", "EP", ""],
        row!["Celery", "each", "28 oz", "", "AP", "a head with its leaves; ten weighed"],
        row!["Fennel", "each", "14 oz", "", "AP", "a bulb with short tops; ten weighed"],
        row!["Grapefruit, ruby", "each", "1 lb", "", "AP", ""],
        row!["Flat parsley", "bunch", "2.5 oz", "", "AP", "ten weighed"],
        row!["Flat parsley", "cup, chopped", "60 g", "", "EP", ""],
        row!["Honey", "cup", "339 g", "", "", ""],
        row!["Smoked paprika", "tbsp", "6.8 g", "", "", ""],
        row!["Dijon mustard", "tbsp", "15 g", "", "", ""],
        row!["Pearl barley", "cup", "200 g", "", "", ""],
        row!["Red wine", "bottle", "", "750 ml", "", ""],
    ])
}
