//! What a costed workbook shows besides its cells: names to link to, links, notes, how it comes to paper, filled charts.

use std::io::{Cursor, Read};

use zip::ZipArchive;

use crate::recalc::{Sheets, Value};
use crate::workbook::{costed, teaching_workbook};

/// The parts of a workbook by name.
struct Parts(ZipArchive<Cursor<Vec<u8>>>);

impl Parts {
    fn of(workbook: Vec<u8>) -> Self {
        Parts(ZipArchive::new(Cursor::new(workbook)).unwrap())
    }

    fn text(&mut self, name: &str) -> String {
        let mut text = String::new();
        self.0.by_name(name).unwrap_or_else(|_| panic!("no {name}")).read_to_string(&mut text).unwrap();
        text
    }

    /// The names of the parts that begin so.
    fn named(&self, start: &str) -> Vec<String> {
        self.0.file_names().map(|name| name.unwrap().into_owned()).filter(|name| name.starts_with(start)).collect()
    }

    /// The part of the sheet of this name: sheets are numbered as they stand.
    fn sheet(&mut self, name: &str) -> String {
        let book = self.text("xl/workbook.xml");
        let names: Vec<&str> = book.split("<sheet name=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
        let at = names.iter().position(|known| *known == name).unwrap_or_else(|| panic!("no {name} in {names:?}"));
        self.text(&format!("xl/worksheets/sheet{}.xml", at + 1))
    }
}

fn teaching_kitchen() -> Parts {
    let written = teaching_workbook();
    Parts::of(written)
}

#[test]
fn figures_have_names_to_link_to() {
    let written = teaching_workbook();
    let (book, sheets) = (teaching_kitchen().text("xl/workbook.xml"), Sheets::open(&written));
    for (name, cell) in [
        // The first dish stands in the row below the headers of the Summary.
        ("Portion_cost.Smoky_shrimp_soup_cup", "B8"),
        ("Food_cost.Smoky_shrimp_soup_cup", "D8"),
        ("Price_at_target.Smoky_shrimp_soup_cup", "F8"),
        ("Margin.Smoky_shrimp_soup_bowl", "G9"),
    ] {
        let begins = format!("<definedName name=\"{name}\">");
        let named = book.split(&begins).nth(1).unwrap_or_else(|| panic!("no {name} in {book}"));
        let (sheet, at) = named.split('<').next().unwrap().split_once('!').unwrap();
        // On the card, which no sorting of dishes moves.
        assert_eq!(sheet, "'Smoky shrimp and butternut soup'", "{name}");
        let (there, here) =
            (sheets.value(sheet.trim_matches('\''), &at.replace('$', "")), sheets.value("Summary", cell));
        assert!(matches!(here, Value::Number(_)) && there.agrees(&here), "{name}: {there}, {here}");
    }
    assert!(book.contains("name=\"Batch_cost.Shrimp_shell_stock\"") && book.contains("name=\"Target_food_cost\""));
}

#[test]
fn the_summary_leads_to_the_cards_and_they_lead_on() {
    let mut parts = teaching_kitchen();
    let summary = parts.sheet("Summary");
    for to in ["'Smoky shrimp and butternut so'!A1", "'Shrimp shell stock'!A1", "'Problems'!A1"] {
        // A sheet's name ends at 31 characters.
        let start = to.trim_end_matches("'!A1").trim_start_matches('\'');
        assert!(summary.contains(&format!("location=\"'{start}")), "no link to {to} in {summary}");
    }
    let card = parts.sheet("Shrimp shell stock");
    assert!(card.contains("location=\"'Yield tests'!") && card.contains("location=\"'Prices'!"), "{card}");
    let soup = parts.sheet("Duck and barley soup");
    assert!(soup.contains("location=\"'Summary'!A") && soup.contains("location=\"'Duck frame stock'!A1\""), "{soup}");
}

#[test]
fn a_doubt_has_a_note_at_its_cell() {
    let mut parts = teaching_kitchen();
    // The sherry's price is old: the one warning of the book, at its date. The header Keeps says whose rule it follows.
    let notes: Vec<String> = parts.named("xl/comments");
    assert_eq!(notes.len(), 2, "{notes:?}");
    let texts: Vec<String> = notes.iter().map(|name| parts.text(name)).collect();
    for words in ["the price of “Dry sherry” is 100 days old", "FDA Food Code 3-501.17"] {
        let with: Vec<&String> = texts.iter().filter(|text| text.contains(words)).collect();
        assert!(with.len() == 1 && with[0].matches("<comment ").count() == 1, "{words}: {texts:?}");
    }
}

#[test]
fn a_card_stands_upright_on_one_page_without_its_working() {
    let mut parts = teaching_kitchen();
    let card = parts.sheet("Shrimp shell stock");
    // Letter, for dollars; one page wide (ECMA-376 part 1, 18.3.1.63).
    assert!(card.contains("<pageSetup") && card.contains("orientation=\"portrait\""), "{card}");
    assert!(card.contains("fitToHeight=\"0\"") && card.contains("<pageSetUpPr fitToPage=\"1\"/>"), "{card}");
    assert!(card.contains("Quince and Ladle Teaching Kitchen") && card.contains("Costed on 2026-11-20"), "{card}");
    let book = parts.text("xl/workbook.xml");
    let area =
        book.split("<definedName name=\"_xlnm.Print_Area\"").skip(1).find(|area| area.contains("Shrimp shell stock"));
    let area = area.and_then(|area| area.split("</definedName>").next()).unwrap();
    // The header row says where the paper ends: behind Share of cost, before Source.
    let strings = parts.text("xl/sharedStrings.xml");
    let strings: Vec<&str> = strings.split("<si>").skip(1).collect();
    let column = |header: &str| {
        let index = strings.iter().position(|text| text.contains(&format!(">{header}</t>"))).unwrap();
        let cell = card.split("<c r=\"").find(|cell| cell.contains(&format!("t=\"s\"><v>{index}</v>"))).unwrap();
        cell.chars().take_while(char::is_ascii_uppercase).collect::<String>()
    };
    let (last, first_of_working) = (column("Share of cost"), column("Source"));
    assert!(area.contains(&format!("${last}$")) && !area.contains(&format!("${first_of_working}$")), "{area}");
}

#[test]
fn no_chart_is_empty_where_nothing_recalculates() {
    let mut parts = teaching_kitchen();
    let charts = parts.named("xl/charts/chart");
    // Two on the Summary; on Trim one of all tests and one each of the three that have by-products; one on What if; two in
    // pictures; one of the menu mix.
    assert_eq!(charts.len(), 10, "{charts:?}");
    for chart in charts {
        let text = parts.text(&chart);
        let caches: Vec<&str> =
            text.split("<c:numCache>").skip(1).filter_map(|one| one.split("</c:numCache>").next()).collect();
        assert!(!caches.is_empty(), "{chart}: {text}");
        for cache in caches {
            let count = cache.split("<c:ptCount val=\"").nth(1).and_then(|rest| rest.split('"').next()).unwrap();
            assert_eq!(cache.matches("<c:v>").count().to_string(), count, "{chart}: {cache}");
        }
    }
}

#[test]
fn every_sheet_is_listed_and_leads_back() {
    let mut parts = teaching_kitchen();
    let book = parts.text("xl/workbook.xml");
    let names = book.split("<sheet name=\"").skip(1).filter_map(|rest| rest.split('"').next());
    let all: Vec<String> = names.clone().map(str::to_owned).collect();
    let names: Vec<&str> = names.filter(|name| !["Summary", "What if"].contains(name)).collect();
    assert!(names.len() > 15, "{names:?}");
    let summary = parts.sheet("Summary");
    for name in names {
        assert!(summary.contains(&format!("location=\"'{name}'!A1\"")), "no link to {name}");
    }
    // Inputs by their first header, which says what it said; the kitchen's own sheet is left as it is.
    for name in all.iter().filter(|name| !["Summary", "About this book"].contains(&name.as_str())) {
        assert!(parts.sheet(name).contains("location=\"'Summary'!A1\""), "{name} does not lead back");
    }
    assert!(parts.sheet("Prices").contains("<hyperlink ref=\"A1\" location=\"'Summary'!A1\""));
    assert!(parts.sheet("Trim").contains("location=\"'What if'!A1\""));
    // The soup is made with the stock: each leads to the other.
    assert!(parts.sheet("Duck frame stock").contains("location=\"'Duck and barley soup'!A1\""));
    assert!(parts.sheet("How it was figured").contains("location=\"'Duck frame stock'!A1\""));
    // Seven dishes stand below the headers in row 7, their standing in column H; counted is from there to the blank row below.
    assert!(summary.contains("COUNTIF(H7:H15,\"over target\")"), "{summary}");
}

#[test]
fn every_chart_says_what_it_shows() {
    let mut parts = teaching_kitchen();
    let mut told: Vec<String> = Vec::new();
    for drawing in parts.named("xl/drawings/drawing") {
        let text = parts.text(&drawing);
        let texts = text.split(" descr=\"").skip(1).filter_map(|rest| rest.split('"').next()).map(str::to_owned);
        let texts: Vec<String> = texts.collect();
        assert_eq!(text.matches("<c:chart ").count(), texts.len(), "{drawing}: {text}");
        told.extend(texts);
    }
    assert_eq!(told.len(), 10, "{told:?}");
    // Worked by hand beside the sample book: 5.17 of 16.95 is 30.5 %.
    let dish = "Chilled shrimp with grapefruit and fennel 30.5 % of 30 %";
    assert!(told.iter().any(|text| text.contains(dish)), "{told:?}");
    let title = "<dc:title>Quince and Ladle Teaching Kitchen: what the menu costs on 2026-11-20</dc:title>";
    assert!(parts.text("docProps/core.xml").contains(title));
}

/// A format that ends with places that may be empty leaves the point behind a whole number: `15.`; and a sign stands in one
/// place, before the number, in templates as in costed workbooks.
#[test]
fn number_formats_leave_no_point_behind_and_have_their_sign_in_front() {
    let metric = include_bytes!("../../sample-books/metric-kitchen.xlsx").as_slice();
    let template = |bytes: &[u8]| bytes.to_vec();
    let books = [
        teaching_workbook(),
        costed("metric-kitchen.xlsx", metric).2,
        template(include_bytes!("../../templates/us.xlsx")),
        template(include_bytes!("../../templates/metric.xlsx")),
    ];
    let mut signs = 0;
    for book in books {
        let styles = Parts::of(book).text("xl/styles.xml");
        for code in styles.split("formatCode=\"").skip(1).map(|rest| rest.split('"').next().unwrap()) {
            let code = code.replace("&quot;", "\"");
            let decimals = code.split('.').nth(1).unwrap_or("0");
            assert!(!decimals.starts_with(['#', '?']), "{code}");
            if let Some(at) = code.find(['$', '€']) {
                signs += 1;
                assert!(at < code.find(['#', '0']).unwrap(), "{code}");
            }
        }
    }
    assert!(signs > 4, "{signs}");
}
