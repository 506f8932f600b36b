//! The metric kitchen's recipes as flat lists: what each makes, then every line of all of them. Before them, what a
//! bunch, a head, a can or a bottle comes to in this kitchen.

use rust_xlsxwriter::XlsxError;

use super::super::pen::{Book, Cell, pct, row};
use super::eur;

/// What one piece, bunch, can or bottle of a thing weighs or holds.
#[rustfmt::skip]
pub fn measures(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Measures", &[24, 14, 12, 12, 8], false)?;
    page.title("What things weigh", "Weighed in our own kitchen, as they come (AP) unless it says EP.")?;
    page.lasting_header(&["Item", "Measure", ">Weighs", "Holds", "Basis"], 1)?;
    page.lines(&[
        row!["Celery", "each", "550 g", "", "AP"],
        row!["Flat parsley", "bunch", "90 g", "", "AP"],
        row!["Tarragon", "bunch", "25 g", "", "AP"],
        row!["Chives", "bunch", "30 g", "", "AP"],
        row!["Peeled tomatoes", "can", "2,5 kg", "", "AP"],
        row!["White wine, dry", "bottle", "", "75 cl", "AP"],
        row!["Sourdough loaf", "each", "900 g", "", "AP"],
        row!["Crème fraîche", "l", "980 g", "", "EP"],
        row!["Black peppercorns", "pinch", "0,4 g", "", "EP"],
    ], Some(2))
}

/// What each recipe makes and in which portions; the plates state portions alone.
#[rustfmt::skip]
pub fn facts(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Recipes", &[42, 10, 10, 10, 10, 13, 13, 12, 56], true)?;
    page.title("Recipes", "What each makes after cooking. Their lines stand on the next sheet.")?;
    page.lasting_header(
        &["Recipe", "Makes", "Portion", ">Portions", ">Q factor", ">Spice factor", ">Serving loss", "Group", "Note"],
        1,
    )?;
    page.lines(&[
        row!["Fish stock", "6 l", "", "", "", pct(1.0), "", "Stocks", "Simmer 25 minutes, no longer; strain, chill fast, date."],
        row!["Chicken stock", "8 l", "", "", "", pct(1.0), "", "Stocks", "Simmer 4 hours; strain, chill fast, date."],
        row!["Prawn butter", "900 g", "", "", "", "", "", "Basics", "Roast the shells, melt the butter over them, strain."],
        row!["Vermouth sauce", "1,4 l", "", "", "", "", "", "Basics", "Crustaceans are not in it; fish is."],
        row!["Tarragon mayonnaise", "700 g", "", "", "", "", "", "Basics", ""],
        row!["Fish rillettes", "1,2 kg", "", "", "", "", "", "Basics", ""],
        row!["Buttered mash", "3,4 kg", "180 g", "", "", "", pct(4.0), "Sides", ""],
        row!["Roast potatoes", "2,4 kg", "160 g", "", "", "", pct(2.5), "Sides", ""],
        row!["Saffron fish soup", "7,5 l", "250 ml", "", eur(0.60), "", pct(3.0), "Starters", "Q is the bread and the spoon of mayonnaise."],
        row!["Fish rillettes with toast", "", "", 10, "", "", "", "Starters", ""],
        row!["Chicken rillettes", "1,8 kg", "90 g", "", "", "", "", "Starters", "Sold on a plate and in jars."],
        row!["Giblet terrine", "1,9 kg", "95 g", "", "", pct(2.0), pct(5.0), "Starters", "The ends are the cook's."],
        row!["Hake with vermouth sauce", "", "", 10, "", "", "", "Mains", ""],
        row!["Trout with capers and brown butter", "", "", 10, "", "", "", "Mains", ""],
        row!["Prawns with saffron rice", "", "", 8, "", "", "", "Mains", ""],
        row!["Chicken breast with tarragon and mushrooms", "", "", 10, "", "", "", "Mains", ""],
        row!["Confit chicken with lentils", "", "", 10, pct(3.0), "", "", "Mains", "No bread goes with it."],
    ], None)
}

/// Every line of every recipe.
#[rustfmt::skip]
pub fn lines(book: &mut Book) -> Result<(), XlsxError> {
    let mut page = book.sheet("Recipe lines", &[42, 24, 10, 9, 8, 8, 40], true)?;
    page.title("Recipe lines", "Weights and volumes are usable (EP); pieces, bunches, cans and bottles as they come (AP).")?;
    page.lasting_header(&["Recipe", "Ingredient", ">Qty", "Unit", ">Yield", ">Used", "Note"], 1)?;
    page.lines(&[
        row!["Fish stock", "Hake frames", 2.4, "kg", "", "", "rinsed, gills out"],
        row!["Fish stock", "Hake heads", 1.5, "kg", "", "", ""],
        row!["Fish stock", "Trout frames and heads", "900 g", "", "", "", ""],
        row!["Fish stock", "Leeks", 500, "g", "", "", ""],
        row!["Fish stock", "Fennel", 300, "g", "", "", ""],
        row!["Fish stock", "Celery", 200, "g", "", "", ""],
        row!["Fish stock", "White wine, dry", 1, "bottle", "", "", ""],
        row!["Fish stock", "Flat parsley", 0.5, "bunch", "", "", "stalks and all"],
        row!["Fish stock", "Bay leaves", 2, "g", "", "", ""],
        row!["Fish stock", "Black peppercorns", 3, "pinch", "", "", ""],
        row!["Fish stock", "Water", 6.5, "l", "", "", ""],
    ], Some(2))?;
    page.skip(1);
    page.lines(&[
        row!["Chicken stock", "Chicken carcasses", 4, "kg", "", "", ""],
        row!["Chicken stock", "Confit leg bones", 500, "g", "", "", ""],
        row!["Chicken stock", "Onions", 600, "g", "", "", ""],
        row!["Chicken stock", "Carrots", 400, "g", "", "", ""],
        row!["Chicken stock", "Celery", 1, "each", "", "", ""],
        row!["Chicken stock", "Leeks", 300, "g", "", "", ""],
        row!["Chicken stock", "Bay leaves", 4, "g", "", "", ""],
        row!["Chicken stock", "Water", 10, "l", "", "", ""],
    ], Some(2))?;
    page.skip(1);
    page.lines(&[
        row!["Prawn butter", "Butter", 1, "kg", "", "", "known here by its other name"],
        row!["Prawn butter", "Prawn shells and heads", 600, "g", "", "", ""],
        row!["Prawn butter", "Tomato paste", 60, "g", "", "", ""],
        row!["Prawn butter", "Brandy", 4, "cl", "", "", ""],
    ], Some(2))?;
    page.skip(1);
    page.lines(&[
        row!["Vermouth sauce", "Shallots", 150, "g", "", "", ""],
        row!["Vermouth sauce", "Butter", 80, "g", "", "", ""],
        row!["Vermouth sauce", "Dry vermouth", "2,5 dl", "", "", "", ""],
        row!["Vermouth sauce", "Fish stock", "1,5 l", "", "", "", "reduced to a third"],
        row!["Vermouth sauce", "Cream", 8, "dl", "", "", ""],
        row!["Vermouth sauce", "Lemons", 1, "each", "", "", ""],
        row!["Vermouth sauce", "Sea salt", "to taste", "", "", "", ""],
    ], Some(2))?;
    page.skip(1);
    page.lines(&[
        row!["Tarragon mayonnaise", "Eggs, free range", 3, "each", "", "", "yolks"],
        row!["Tarragon mayonnaise", "Wholegrain mustard", 40, "g", "", "", ""],
        row!["Tarragon mayonnaise", "White wine vinegar", 3, "cl", "", "", ""],
        row!["Tarragon mayonnaise", "Sunflower oil", "5,5 dl", "", "", "", ""],
        row!["Tarragon mayonnaise", "Tarragon", 1, "bunch", "", "", ""],
    ], Some(2))?;
    page.skip(1);
    page.lines(&[
        row!["Fish rillettes", "Hake trim", 420, "g", "", "", "poached"],
        row!["Fish rillettes", "Trout trim", 280, "g", "", "", "poached"],
        row!["Fish rillettes", "Crème fraîche", "2,5 dl", "", "", "", ""],
        row!["Fish rillettes", "Butter", 120, "g", "", "", ""],
        row!["Fish rillettes", "Shallots", 60, "g", "", "", ""],
        row!["Fish rillettes", "Capers", 50, "g", "", "", ""],
        row!["Fish rillettes", "Chives", 1, "bunch", "", "", ""],
        row!["Fish rillettes", "Lemons", 1, "each", "", "", ""],
    ], Some(2))?;
    page.skip(1);
    page.lines(&[
        row!["Buttered mash", "Potatoes", 2.8, "kg", "", "", ""],
        row!["Buttered mash", "Milk, whole", 4, "dl", "", "", ""],
        row!["Buttered mash", "Butter", 300, "g", "", "", ""],
        row!["Buttered mash", "Sea salt", "to taste", "", "", "", ""],
    ], Some(2))?;
    page.skip(1);
    page.lines(&[
        row!["Roast potatoes", "Potatoes", 3, "kg", "", "", ""],
        row!["Roast potatoes", "Confit fat", 350, "g", "", pct(60.0), "the rest is strained and kept"],
        row!["Roast potatoes", "Garlic", 30, "g", "", "", ""],
    ], Some(2))?;
    page.skip(1);
    page.lines(&[
        row!["Saffron fish soup", "Olive oil", 1, "dl", "", "", ""],
        row!["Saffron fish soup", "Onions", 600, "g", "", "", ""],
        row!["Saffron fish soup", "Fennel", 500, "g", "", "", ""],
        row!["Saffron fish soup", "Garlic", 40, "g", "", "", ""],
        row!["Saffron fish soup", "Peeled tomatoes", 1, "can", "", "", ""],
        row!["Saffron fish soup", "Saffron", 1.5, "g", "", "", ""],
        row!["Saffron fish soup", "Dry vermouth", 1.5, "dl", "", "", ""],
        row!["Saffron fish soup", "Fish stock", 4.5, "l", "", "", ""],
        row!["Saffron fish soup", "Hake trim", 500, "g", "", "", ""],
        row!["Saffron fish soup", "Prawn butter", 200, "g", "", "", "crustaceans come in with it"],
    ], Some(2))?;
    page.skip(1);
    page.lines(&[
        row!["Fish rillettes with toast", "Fish rillettes", 800, "g", "", "", ""],
        row!["Fish rillettes with toast", "Sourdough loaf", 600, "g", "", "", "two slices each"],
        row!["Fish rillettes with toast", "Fennel", 250, "g", "", "", "shaved"],
        row!["Fish rillettes with toast", "Olive oil", 5, "cl", "", "", ""],
    ], Some(2))?;
    page.skip(1);
    page.lines(&[
        row!["Chicken rillettes", "Confit chicken meat", "1,3 kg", "", "", "", ""],
        row!["Chicken rillettes", "Rendered chicken fat", 280, "g", "", "", ""],
        row!["Chicken rillettes", "Shallots", 120, "g", "", "", ""],
        row!["Chicken rillettes", "White wine, dry", 2, "dl", "", "", ""],
        row!["Chicken rillettes", "Wholegrain mustard", 50, "g", "", "", ""],
        row!["Chicken rillettes", "Flat parsley", 30, "g", "", "", "leaves, chopped"],
    ], Some(2))?;
    page.skip(1);
    page.lines(&[
        row!["Giblet terrine", "Chicken giblets", 700, "g", "", "", ""],
        row!["Giblet terrine", "Chicken legs", 900, "g", pct(70.0), "", "boned and minced; 70 % of a leg is meat"],
        row!["Giblet terrine", "Chicken crackling", 120, "g", "", "", ""],
        row!["Giblet terrine", "Eggs, free range", 2, "each", "", "", ""],
        row!["Giblet terrine", "Cream", 2, "dl", "", "", ""],
        row!["Giblet terrine", "Pistachios, shelled", 80, "g", "", "", ""],
        row!["Giblet terrine", "Brandy", 5, "cl", "", "", ""],
        row!["Giblet terrine", "Shallots", 100, "g", "", "", ""],
    ], Some(2))?;
    page.skip(1);
    page.lines(&[
        row!["Hake with vermouth sauce", "Hake fillets", "1,6 kg", "", "", "", ""],
        row!["Hake with vermouth sauce", "Vermouth sauce", "6 dl", "", "", "", ""],
        row!["Hake with vermouth sauce", "Buttered mash", 10, "portion", "", "", ""],
        row!["Hake with vermouth sauce", "Leeks", 800, "g", "", "", ""],
        row!["Hake with vermouth sauce", "Butter", 100, "g", "", "", ""],
        row!["Hake with vermouth sauce", "Chives", 15, "g", "", "", ""],
    ], Some(2))?;
    page.skip(1);
    page.lines(&[
        row!["Trout with capers and brown butter", "Trout fillets", "1,5 kg", "", "", "", ""],
        row!["Trout with capers and brown butter", "Plain flour", 150, "g", "", pct(40.0), "for dredging"],
        row!["Trout with capers and brown butter", "Butter", 250, "g", "", "", ""],
        row!["Trout with capers and brown butter", "Capers", 100, "g", "", "", ""],
        row!["Trout with capers and brown butter", "Lemons", 2, "each", "", "", ""],
        row!["Trout with capers and brown butter", "Potatoes", "1,8 kg", "", "", "", "boiled"],
        row!["Trout with capers and brown butter", "Flat parsley", 1, "bunch", "", "", ""],
    ], Some(2))?;
    page.skip(1);
    page.lines(&[
        row!["Prawns with saffron rice", "Prawn tails", 880, "g", "", "", ""],
        row!["Prawns with saffron rice", "Short-grain rice", 640, "g", "", "", ""],
        row!["Prawns with saffron rice", "Fish stock", "1,8 l", "", "", "", ""],
        row!["Prawns with saffron rice", "Prawn butter", 160, "g", "", "", ""],
        row!["Prawns with saffron rice", "Shallots", 120, "g", "", "", ""],
        row!["Prawns with saffron rice", "White wine, dry", 15, "cl", "", "", ""],
        row!["Prawns with saffron rice", "Saffron", 0.8, "g", "", "", ""],
        row!["Prawns with saffron rice", "Lemons", 2, "each", "", "", ""],
    ], Some(2))?;
    page.skip(1);
    page.lines(&[
        row!["Chicken breast with tarragon and mushrooms", "Chicken breasts", "1,6 kg", "", "", "", ""],
        row!["Chicken breast with tarragon and mushrooms", "Button mushrooms", 700, "g", "", "", ""],
        row!["Chicken breast with tarragon and mushrooms", "Shallots", 150, "g", "", "", ""],
        row!["Chicken breast with tarragon and mushrooms", "Chicken stock", 1, "l", "", "", ""],
        row!["Chicken breast with tarragon and mushrooms", "Cream", 4, "dl", "", "", ""],
        row!["Chicken breast with tarragon and mushrooms", "Tarragon", 15, "g", "", "", "leaves"],
        row!["Chicken breast with tarragon and mushrooms", "Butter", 60, "g", "", "", ""],
        row!["Chicken breast with tarragon and mushrooms", "Roast potatoes", 10, "portion", "", "", ""],
    ], Some(2))?;
    page.skip(1);
    page.lines(&[
        row!["Confit chicken with lentils", "Confit chicken meat", "1,1 kg", "", "", "", ""],
        row!["Confit chicken with lentils", "Green lentils", "1,6 kg", "", pct(230.0), "", "weighed cooked: 1 kg dry gives 2,3 kg"],
        row!["Confit chicken with lentils", "Chicken stock", "1,5 l", "", "", "", ""],
        row!["Confit chicken with lentils", "Carrots", 350, "g", "", "", ""],
        row!["Confit chicken with lentils", "Onions", 250, "g", "", "", ""],
        row!["Confit chicken with lentils", "Confit fat", 60, "g", "", "", ""],
        row!["Confit chicken with lentils", "Tarragon mayonnaise", 200, "g", "", "", ""],
        row!["Confit chicken with lentils", "Flat parsley", 20, "g", "", "", "leaves, chopped"],
    ], Some(2))
}
