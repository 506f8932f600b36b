//! The metric kitchen's yield tests: hake and chicken broken down twice, trout and prawns once, and what is cooked of
//! their parts.

use rust_xlsxwriter::XlsxError;

use super::super::pen::{Book, Cell, day, pct, row};
use super::eur;

/// One flat table; rows of one test share its name, the runs of hake and chicken are pooled.
#[rustfmt::skip]
pub fn tests(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Yield tests", &[23, 14, 10, 15, 24, 17, 7, 12, 10, 13, 11, 26, 17, 8, 8], true)?;
    page.title("Yield tests", "Weigh what goes in, then everything that comes out. What is missing is the loss.")?;
    page.lasting_header(
        &["Test", ">Date", "Kind", "Role", "Part", ">Weight", "Unit", "Charged as", ">Value", ">Further cost", ">Price",
          "Instead of", "Otherwise", ">Eaten", ">Keeps"],
        1,
    )?;
    page.lines(&[
        row!["Filleting hake", day(10, 20), "trim", "as purchased", "Hake, whole", 12.4, "kg", "", "", "", eur(13.80), "", "", "", ""],
        row!["Filleting hake", day(10, 20), "trim", "main", "Hake fillets", 5.65, "kg", "", "", "", "", "", "", "", ""],
        row!["Filleting hake", day(10, 20), "trim", "by-product", "Hake frames", 1.95, "kg", "price", eur(1.20), "", "", "1 kg Fish bones per kg", "binned", "", 2],
        row!["Filleting hake", day(10, 20), "trim", "by-product", "Hake heads", 2.3, "kg", "free", "", "", "", "", "binned", "", 2],
        row!["Filleting hake", day(10, 20), "trim", "by-product", "Hake trim", "720 g", "", "fraction", pct(50.0), "", "", "", "binned", pct(100.0), 2],
        row!["Filleting hake", day(10, 20), "trim", "waste", "Hake guts and fins", 1.55, "kg", "", "", "", "", "", "", "", ""],
        row!["Filleting hake", day(11, 17), "trim", "as purchased", "Hake, whole", 8.6, "kg", "", "", "", eur(14.90), "", "", "", ""],
        row!["Filleting hake", day(11, 17), "trim", "main", "Hake fillets", 3.9, "kg", "", "", "", "", "", "", "", ""],
        row!["Filleting hake", day(11, 17), "trim", "by-product", "Hake frames", 1.35, "kg", "price", eur(1.20), "", "", "1 kg Fish bones per kg", "binned", "", 2],
        row!["Filleting hake", day(11, 17), "trim", "by-product", "Hake heads", 1.6, "kg", "free", "", "", "", "", "binned", "", 2],
        row!["Filleting hake", day(11, 17), "trim", "by-product", "Hake trim", "520 g", "", "fraction", pct(50.0), "", "", "", "binned", pct(100.0), 2],
        row!["Filleting hake", day(11, 17), "trim", "waste", "Hake guts and fins", 1.05, "kg", "", "", "", "", "", "", "", ""],
    ], Some(5))?;
    page.skip(1);
    page.lines(&[
        row!["Filleting trout", day(11, 17), "trim", "as purchased", "Trout, whole", "20 each, 6,6 kg", "", "", "", "", "", "", "", "", ""],
        row!["Filleting trout", day(11, 17), "trim", "main", "Trout fillets", 3.4, "kg", "", "", "", "", "", "", "", ""],
        row!["Filleting trout", day(11, 17), "trim", "by-product", "Trout trim", "450 g", "", "fraction", pct(40.0), "", "", "", "binned", pct(100.0), 2],
        row!["Filleting trout", day(11, 17), "trim", "by-product", "Trout frames and heads", 1.85, "kg", "free", "", "", "", "1 kg Fish bones per kg", "binned", "", 2],
        row!["Filleting trout", day(11, 17), "trim", "waste", "Trout guts", "780 g", "", "", "", "", "", "", "", "", ""],
    ], Some(5))?;
    page.skip(1);
    page.lines(&[
        row!["Peeling prawns", day(11, 10), "trim", "as purchased", "Prawns, shell on", 3, "kg", "", "", "", eur(21.50), "", "", "", ""],
        row!["Peeling prawns", day(11, 10), "trim", "main", "Prawn tails", 1.56, "kg", "", "", "", "", "", "", "", ""],
        row!["Peeling prawns", day(11, 10), "trim", "by-product", "Prawn shells and heads", 1.32, "kg", "fraction", pct(10.0), "", "", "", "binned", "", 3],
        row!["Peeling prawns", day(11, 10), "trim", "waste", "Prawn veins", "60 g", "", "", "", "", "", "", "", "", ""],
    ], Some(5))?;
    page.skip(1);
    page.lines(&[
        row!["Jointing chicken", day(10, 27), "trim", "as purchased", "Chicken, whole", "8 each, 13,2 kg", "", "", "", "", eur(8.20), "", "", "", ""],
        row!["Jointing chicken", day(10, 27), "trim", "main", "Chicken breasts", 3.85, "kg", "", "", "", "", "", "", "", ""],
        row!["Jointing chicken", day(10, 27), "trim", "by-product", "Chicken legs", 4.3, "kg", "market", "", "", "", "", "binned", pct(60.0), 3],
        row!["Jointing chicken", day(10, 27), "trim", "by-product", "Chicken carcasses", 3.05, "kg", "market", "", eur(0.25), "", "1 kg Chicken bones per kg", "binned", "", 3],
        row!["Jointing chicken", day(10, 27), "trim", "by-product", "Chicken skin and fat", "950 g", "", "fraction", pct(20.0), "", "", "", "sold 0,40 / kg", pct(65.0), 3],
        row!["Jointing chicken", day(10, 27), "trim", "by-product", "Chicken giblets", 0.65, "kg", "price", eur(2.50), "", "", "", "binned", pct(100.0), 2],
        row!["Jointing chicken", day(10, 27), "trim", "waste", "Chicken feet and scraps", "200 g", "", "", "", "", "", "", "", "", ""],
        row!["Jointing chicken", day(11, 12), "trim", "as purchased", "Chicken, whole", "6 each, 9,8 kg", "", "", "", "", eur(8.60), "", "", "", ""],
        row!["Jointing chicken", day(11, 12), "trim", "main", "Chicken breasts", 2.9, "kg", "", "", "", "", "", "", "", ""],
        row!["Jointing chicken", day(11, 12), "trim", "by-product", "Chicken legs", 3.15, "kg", "market", "", "", "", "", "binned", pct(60.0), 3],
        row!["Jointing chicken", day(11, 12), "trim", "by-product", "Chicken carcasses", 2.3, "kg", "market", "", eur(0.25), "", "1 kg Chicken bones per kg", "binned", "", 3],
        row!["Jointing chicken", day(11, 12), "trim", "by-product", "Chicken skin and fat", "700 g", "", "fraction", pct(20.0), "", "", "", "sold 0,40 / kg", pct(65.0), 3],
        row!["Jointing chicken", day(11, 12), "trim", "by-product", "Chicken giblets", 0.5, "kg", "price", eur(2.50), "", "", "", "binned", pct(100.0), 2],
        row!["Jointing chicken", day(11, 12), "trim", "waste", "Chicken feet and scraps", "150 g", "", "", "", "", "", "", "", "", ""],
    ], Some(5))?;
    page.skip(1);
    page.lines(&[
        row!["Rendering chicken fat", day(11, 12), "cooking", "as purchased", "Chicken skin and fat", 1.6, "kg", "", "", "", "", "", "", "", ""],
        row!["Rendering chicken fat", day(11, 12), "cooking", "added", "Water", "400 g", "", "", "", "", "", "", "", "", ""],
        row!["Rendering chicken fat", day(11, 12), "cooking", "main", "Rendered chicken fat", "850 g", "", "", "", "", "", "", "", "", ""],
        row!["Rendering chicken fat", day(11, 12), "cooking", "by-product", "Chicken crackling", "240 g", "", "price", "1,00 € / kg", "", "", "", "binned", pct(100.0), 5],
        row!["Rendering chicken fat", day(11, 12), "cooking", "waste", "Fat strainings", "60 g", "", "", "", "", "", "", "", "", ""],
    ], Some(5))?;
    page.skip(1);
    page.lines(&[
        row!["Confit of chicken legs", day(11, 13), "cooking", "as purchased", "Chicken legs", 3.2, "kg", "", "", "", "", "", "", "", ""],
        row!["Confit of chicken legs", day(11, 13), "cooking", "added", "Rendered chicken fat", "800 g", "", "", "", "", "", "", "", "", ""],
        row!["Confit of chicken legs", day(11, 13), "cooking", "main", "Confit chicken meat", 1.76, "kg", "", "", "", "", "", "", "", ""],
        row!["Confit of chicken legs", day(11, 13), "cooking", "by-product", "Confit fat", "760 g", "", "price", "1,50 € / kg", "", "", "", "binned", pct(80.0), 7],
        row!["Confit of chicken legs", day(11, 13), "cooking", "by-product", "Confit leg bones", "580 g", "", "free", "", "", "", "", "binned", "", 3],
        row!["Confit of chicken legs", day(11, 13), "cooking", "waste", "Confit skin and gristle", "260 g", "", "", "", "", "", "", "", "", ""],
    ], Some(5))
}
