//! The mark of an output sheet lost, moved or copied, and input sheets copied: figures stay, and one line says what is.

use std::io::Cursor;
use std::sync::LazyLock;

use ironcalc::base::Model;
use parings::problem::Code;
use parings::{ListOptions, Source, reprice, write_repriced};

use crate::recalc::Original;
use crate::support::{at_length, cost_bytes, json_of, one_in_by_turns};
use crate::workbook::{STAMP, TEACHING_KITCHEN};

const LIST: &[u8] = include_bytes!("../../../sample-books/teaching-kitchen-fernhollow.csv");

/// The sheets of what came out.
const OUTPUT: [&str; 6] = ["Summary", "Trim", "What if", "Problems", "How it was figured", "What changed"];

/// A costed workbook with every output sheet.
fn workbook() -> &'static [u8] {
    static WORKBOOK: LazyLock<Vec<u8>> = LazyLock::new(|| {
        let (reading, _) = cost_bytes(&[("teaching-kitchen.xlsx", TEACHING_KITCHEN)]);
        let list = Source { name: "list.csv", bytes: LIST };
        write_repriced(&reprice(reading, &[list], &ListOptions::default(), true).unwrap(), STAMP).unwrap()
    });
    &WORKBOOK
}

/// Sheets to be edited in one workbook all together; with the long checks also each by itself.
fn together_or_alone<'s>(sheets: &'s [&'s str]) -> Vec<&'s [&'s str]> {
    let alone = sheets.chunks(if at_length() { 1 } else { sheets.len() });
    std::iter::once(sheets).chain(alone.filter(|some| some.len() < sheets.len())).collect()
}

/// The dishes of a book, and its problems: code, sheet and message.
type Told = (serde_json::Value, Vec<(Code, String, String)>);

fn told(bytes: &[u8]) -> Told {
    let (reading, costing) = cost_bytes(&[("costed.xlsx", bytes)]);
    let problems = reading.problems_with(&costing);
    let said = problems.iter().map(|one| (one.code, one.place.sheet_name().to_owned(), one.message()));
    (json_of(&reading, &costing)["dishes"].clone(), said.collect())
}

fn edited(original: &Original, edit: impl Fn(&mut Model<'static>, u32), sheets: &[&str]) -> Vec<u8> {
    let mut model = original.model();
    for sheet in sheets {
        let at = model.workbook.get_worksheet_names().iter().position(|name| name == sheet);
        edit(&mut model, u32::try_from(at.unwrap_or_else(|| panic!("there is no sheet {sheet}"))).unwrap());
    }
    model.evaluate();
    ironcalc::export::save_xlsx_to_writer(&model, Cursor::new(Vec::new())).unwrap().into_inner()
}

/// What is done to a sheet, whether it is told, and how it is done.
type Renamed<'e> = (&'static str, bool, &'e dyn Fn(&mut Model<'static>, u32));

fn retitled(model: &mut Model<'static>, sheet: u32, cells: &[(i32, &str)]) {
    for (row, text) in cells {
        model.set_user_input(sheet, *row, 1, (*text).to_owned()).unwrap();
    }
}

#[test]
fn an_output_sheet_is_known_whatever_became_of_its_title() {
    let workbook = Original::read(workbook());
    let (dishes, before) = told(&edited(&workbook, |_, _| {}, &[]));
    let of_cards =
        |said: &[(Code, String, String)]| said.iter().filter(|(code, ..)| *code == Code::LabelUnknown).count();
    assert_eq!(of_cards(&before), 0, "the way back to the Summary is ours: {before:?}");
    let edits: [Renamed<'_>; 6] = [
        ("retitled", true, &|model, at| retitled(model, at, &[(1, "Our figures")])),
        ("both title lines", true, &|model, at| retitled(model, at, &[(1, "Our figures"), (2, "for spring")])),
        ("a row above", false, &|model, at| model.insert_rows(at, 1, 1).unwrap()),
        ("three rows above", false, &|model, at| model.insert_rows(at, 1, 3).unwrap()),
        ("a column left", false, &|model, at| model.insert_columns(at, 1, 1).unwrap()),
        ("copied", false, &|model, at| drop(model.duplicate_sheet(at).unwrap())),
    ];
    let is_played = one_in_by_turns(2, self::workbook());
    for sheets in together_or_alone(&OUTPUT) {
        for (_, (what, noted, edit)) in edits.into_iter().enumerate().filter(|(at, _)| is_played(*at)) {
            let (now, said) = told(&edited(&workbook, edit, sheets));
            assert_eq!(now, dishes, "{sheets:?}, {what}");
            let new: Vec<_> = said.iter().filter(|one| !before.contains(one)).collect();
            let is_told = |sheet: &&str| {
                new.iter().filter(|(code, at, _)| *code == Code::OwnSheetChanged && at == sheet).count() == 1
            };
            let as_many = if noted { sheets.len() } else { 0 };
            assert!(new.len() == as_many && (!noted || sheets.iter().all(is_told)), "{sheets:?}, {what}: {new:?}");
        }
    }
}

#[test]
fn what_is_typed_above_a_title_is_told_as_not_read() {
    let book = edited(
        &Original::read(workbook()),
        |model, at| {
            model.insert_rows(at, 1, 3).unwrap();
            retitled(model, at, &[(1, "for the owner")]);
        },
        &["Summary"],
    );
    let (_, said) = told(&book);
    let told: Vec<_> = said.iter().filter(|(code, ..)| *code == Code::OwnSheetChanged).collect();
    assert!(matches!(told.as_slice(), [(_, sheet, text)] if sheet == "Summary" && text.contains("above its title")));
}

/// A plan read twice would ask for twice the food, a card twice would stop its dishes.
#[test]
fn a_copied_input_sheet_counts_once_and_is_told() {
    let workbook = Original::read(workbook());
    let saved = edited(&workbook, |_, _| {}, &[]);
    let (dishes, before) = told(&saved);
    let plan = |bytes: &[u8]| cost_bytes(&[("costed.xlsx", bytes)]).0.kitchen.entries.plan.len();
    for sheets in
        together_or_alone(&["Plan", "Stock", "Menu", "Yield tests", "Prices", "Measures", "Duck fat potatoes"])
    {
        let copy = edited(&workbook, |model, at| drop(model.duplicate_sheet(at).unwrap()), sheets);
        assert_eq!(plan(&copy), plan(&saved), "{sheets:?}");
        let (now, said) = told(&copy);
        assert_eq!(now, dishes, "{sheets:?}");
        let new: Vec<_> = said.iter().filter(|one| !before.contains(one)).collect();
        let is_told = |sheet: &&str| {
            let tells = |(code, at, text): &&&(Code, String, String)| {
                *code == Code::TableCopied && at != sheet && text.contains(sheet)
            };
            new.iter().filter(tells).count() == 1
        };
        assert!(new.len() == sheets.len() && sheets.iter().all(is_told), "{sheets:?}: {new:?}");
    }
}

/// Two equal cards that a cook typed are two recipes of one name, in the workbook made of them as well (found by books of
/// chance).
#[test]
fn a_card_typed_twice_stays_twice() {
    let card = "Recipe,Broth\nPortions,4\nIngredient,Qty,Unit\nLeeks,1,lb\n\n";
    let book = format!("Item,Pack,Price\nLeeks,10 lb,$20.00\n\n{card}{card}");
    let (reading, costing, written) = crate::workbook::costed("twice.csv", book.as_bytes());
    let (again, costed_again) = cost_bytes(&[("twice.costed.xlsx", &written)]);
    assert_eq!((reading.kitchen.recipes.len(), again.kitchen.recipes.len()), (2, 2));
    assert!(costing.recipes.iter().chain(&costed_again.recipes).all(Option::is_none));
}

#[test]
fn a_copied_card_that_was_changed_is_a_second_recipe_of_its_name() {
    let book = edited(
        &Original::read(workbook()),
        |model, at| {
            let (_, copy) = model.duplicate_sheet(at).unwrap();
            // What the recipe makes: the second label.
            model.set_user_input(copy, 2, 2, "5 lb".to_owned()).unwrap();
        },
        &["Duck fat potatoes"],
    );
    let (_, said) = told(&book);
    let twice: Vec<_> = said.iter().filter(|(code, ..)| *code == Code::RecipeTwice).collect();
    assert!(matches!(twice.as_slice(), [(_, _, text)] if text.contains("Duck fat potatoes")), "{said:?}");
}

#[test]
fn a_plan_copied_for_another_day_counts_besides() {
    let workbook = workbook();
    let (original, _) = cost_bytes(&[("costed.xlsx", workbook)]);
    let book = edited(
        &Original::read(workbook),
        |model, at| {
            let (_, copy) = model.duplicate_sheet(at).unwrap();
            model.set_user_input(copy, 2, 2, "30".to_owned()).unwrap();
        },
        &["Plan"],
    );
    let (reading, _) = cost_bytes(&[("costed.xlsx", &book)]);
    assert_eq!(reading.kitchen.entries.plan.len(), 2 * original.kitchen.entries.plan.len());
}
