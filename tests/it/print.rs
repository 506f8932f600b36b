//! Paper: what a costed workbook looks like printed, worked out from the file: how high its letters come out on Letter and A4,
//! whether every page is as wide as the paper, and what page breaks go through.

use std::fmt::Write as _;
use std::io::{Cursor, Read};

use zip::ZipArchive;

use crate::workbook::{TEACHING_KITCHEN, costed, costed_together, teaching_workbook};

/// Points of the two papers, short and long side (ISO 216: A4 is 210 × 297 mm; ANSI/ASME Y14.1: Letter is 8.5 × 11 in).
const A4: [f64; 2] = [595.28, 841.89];
const LETTER: [f64; 2] = [612.0, 792.0];

/// The smallest letters on paper, in points.
const SMALLEST: f64 = 9.0;

fn part(archive: &mut ZipArchive<Cursor<&[u8]>>, name: &str) -> Option<String> {
    let mut text = String::new();
    archive.by_name(name).ok()?.read_to_string(&mut text).ok()?;
    Some(text)
}

/// The value of an attribute in the first tag that begins so.
fn attribute<'t>(text: &'t str, tag: &str, name: &str) -> Option<&'t str> {
    let rest = text.split(&format!("<{tag} ")).nth(1)?.split('>').next()?;
    rest.split(&format!("{name}=\"")).nth(1)?.split('"').next()
}

fn number(text: Option<&str>) -> Option<f64> {
    text?.parse().ok()
}

/// The zero-based column of letters.
fn column(letters: &str) -> usize {
    letters
        .bytes()
        .filter(u8::is_ascii_uppercase)
        .fold(0, |so_far, letter| so_far * 26 + usize::from(letter - b'A') + 1)
        - 1
}

/// Sizes of the fonts of every cell format.
fn sizes(styles: &str) -> Vec<f64> {
    let fonts = styles.split("<fonts").nth(1).unwrap().split("</fonts>").next().unwrap();
    let fonts: Vec<f64> =
        fonts.split("<font>").skip(1).map(|font| number(attribute(font, "sz", "val")).unwrap()).collect();
    let formats = styles.split("<cellXfs").nth(1).unwrap().split("</cellXfs>").next().unwrap();
    let of = |format: &str| {
        fonts[format.split("fontId=\"").nth(1).unwrap().split('"').next().unwrap().parse::<usize>().unwrap()]
    };
    formats.split("<xf ").skip(1).map(of).collect()
}

/// What is wrong with how a workbook is printed, and how many pages each of its sheets takes.
fn faults(workbook: &[u8]) -> (Vec<(String, usize)>, String) {
    let mut archive = ZipArchive::new(Cursor::new(workbook)).unwrap();
    let sizes = sizes(&part(&mut archive, "xl/styles.xml").unwrap());
    let book = part(&mut archive, "xl/workbook.xml").unwrap();
    let names: Vec<String> =
        book.split("<sheet name=\"").skip(1).map(|rest| rest.split('"').next().unwrap().to_owned()).collect();
    let defined = |index: usize, name: &str| {
        let tag = format!("<definedName name=\"_xlnm.{name}\" localSheetId=\"{index}\"");
        let rest = book.split(&tag).nth(1)?.split('>').nth(1)?.split('<').next()?;
        // `'Yield tests'!$A:$B,'Yield tests'!$1:$1`, and an area's `Prices!$A$1:$N$20`.
        Some(rest.split(',').map(|one| one.rsplit('!').next().unwrap_or_default().to_owned()).collect::<Vec<String>>())
    };
    let (mut told, mut counted) = (String::new(), Vec::new());
    for (index, name) in names.iter().enumerate() {
        let (mut pages, mut strips) = (0, vec![0, usize::MAX]);
        let sheet = part(&mut archive, &format!("xl/worksheets/sheet{}.xml", index + 1)).unwrap();
        let mut say = |what: String| writeln!(told, "{name}: {what}").unwrap();
        let cells: Vec<(usize, usize, usize)> = sheet
            .split("<c r=\"")
            .skip(1)
            .map(|cell| {
                let at = cell.split('"').next().unwrap();
                let row = at.trim_start_matches(|letter: char| letter.is_ascii_uppercase()).parse::<usize>().unwrap();
                let style = cell.split('>').next().unwrap().split("s=\"").nth(1);
                let style = style.map_or(0, |style| style.split('"').next().unwrap().parse().unwrap());
                (row - 1, column(at), style)
            })
            .collect();
        let area = defined(index, "Print_Area")
            .and_then(|area| area.first().and_then(|area| area.split(':').nth(1).map(column)));
        let Some(filled) = cells.iter().map(|cell| cell.1).max() else { continue };
        let last = area.unwrap_or(filled);
        // On paper a figure is as wide as one of Carlito at 11 points (1038 of 2048 parts of an em: 5.575 points); LibreOffice 7.4
        // prints a column of 28.71 figures 159.3 points wide: 5.55 each.
        const FIGURE: f64 = 5.55;
        let mut widths = vec![8.43 * FIGURE; last + 1];
        for col in sheet.split("<col ").skip(1) {
            let get =
                |name: &str| number(col.split(&format!("{name}=\"")).nth(1).and_then(|rest| rest.split('"').next()));
            let (min, max, width) = (get("min").unwrap() as usize, get("max").unwrap() as usize, get("width").unwrap());
            let (min, max) = ((min - 1).min(last + 1), max.min(last + 1));
            widths[min..max.max(min)].fill(width * FIGURE);
        }
        let lying = attribute(&sheet, "pageSetup", "orientation") == Some("landscape");
        let size = |paper: [f64; 2]| if lying { (paper[1], paper[0]) } else { (paper[0], paper[1]) };
        let margin = |name: &str| number(attribute(&sheet, "pageMargins", name)).unwrap() * 72.0;
        let across = |paper| size(paper).0 - margin("left") - margin("right");
        let down = |paper| size(paper).1 - margin("top") - margin("bottom");
        let width: f64 = widths.iter().sum();
        let fitted = sheet.contains("fitToPage=\"1\"");
        let breaks = |tag: &str| -> Vec<usize> {
            let Some(all) = sheet.split(&format!("<{tag} ")).nth(1) else { return Vec::new() };
            let all = all.split(&format!("</{tag}>")).next().unwrap();
            all.split("<brk id=\"").skip(1).map(|one| one.split('"').next().unwrap().parse().unwrap()).collect()
        };
        let typed_scale = number(attribute(&sheet, "pageSetup", "scale")).unwrap_or(100.0) / 100.0;
        let smallest = cells.iter().filter(|(row, at, _)| *at <= last && (*row, *at) != (0, 0));
        let smallest = smallest.map(|cell| sizes[cell.2]).fold(f64::MAX, f64::min);
        let titles = defined(index, "Print_Titles").unwrap_or_default();
        let mut heights = std::collections::BTreeMap::new();
        for row in sheet.split("<row ").skip(1) {
            let tag = row.split('>').next().unwrap();
            let get =
                |name: &str| number(tag.split(&format!("{name}=\"")).nth(1).and_then(|rest| rest.split('"').next()));
            heights.insert(get("r").unwrap() as usize - 1, get("ht").unwrap_or(15.0));
        }
        let high =
            |rows: std::ops::Range<usize>| rows.map(|row| heights.get(&row).copied().unwrap_or(15.0)).sum::<f64>();
        let anchors = anchors(&mut archive, index);
        let rows_of_area = defined(index, "Print_Area").and_then(|area| {
            let row = |cell: &str| {
                cell.trim_start_matches(|c: char| c == '$' || c.is_ascii_uppercase()).parse::<usize>().ok()
            };
            let (first, last) = area.first()?.split_once(':')?;
            Some((row(first)? - 1, row(last)? - 1))
        });
        let filled_rows = anchors.iter().map(|anchor| anchor.1).chain(cells.iter().map(|cell| cell.0)).max().unwrap();
        let (first_row, end) = rows_of_area.unwrap_or((0, filled_rows));
        let again = titles.iter().find(|one| !one.contains(char::is_alphabetic)).map_or(0..0, |one| {
            let (first, last) = one.split_once(':').unwrap();
            let row = |text: &str| text[1..].parse::<usize>().unwrap();
            row(first) - 1..row(last)
        });
        let whole = fitted && attribute(&sheet, "pageSetup", "fitToHeight").is_none();
        for paper in [A4, LETTER] {
            let mut scale = if fitted { (across(paper) / width).min(1.0) } else { typed_scale };
            if whole {
                scale = scale.min(down(paper) / high(first_row..end + 1));
            }
            // What hangs on the wall is read from a step away.
            let least = if name == "Kitchen cards" { 12.0 } else { SMALLEST };
            if smallest * scale < least {
                say(format!("letters of {:.1} points", smallest * scale));
            }
            if !whole && !fitted {
                let again = titles
                    .iter()
                    .find(|one| one.starts_with("$A:"))
                    .map_or(0, |one| column(one.split(':').nth(1).unwrap()) + 1);
                let mut begins = vec![0];
                begins.extend(breaks("colBreaks"));
                begins.push(last + 1);
                strips.clone_from(&begins);
                for strip in begins.windows(2) {
                    let repeated: f64 = if strip[0] == 0 { 0.0 } else { widths[..again].iter().sum() };
                    let wide = (repeated + widths[strip[0]..strip[1]].iter().sum::<f64>()) * scale;
                    if wide > across(paper) {
                        say(format!("a strip of {wide:.0} points on a page of {:.0}", across(paper)));
                    }
                }
            }
            // Programs that fit a sheet to pages pass over where those are to begin.
            let wanted = if fitted { Vec::new() } else { breaks("rowBreaks") };
            let (mut begins, mut used) = (vec![first_row], 0.0);
            for row in first_row..=end {
                let needed = high(row..row + 1) * scale;
                let full = !whole && used + needed > down(paper) + 0.5;
                if row > first_row && (wanted.contains(&row) || full) {
                    begins.push(row);
                    used = if row > again.end { high(again.clone()) * scale } else { 0.0 };
                }
                used += needed;
            }
            let mut ends = begins.clone();
            ends.push(end + 1);
            // Those of a strip on which nothing stands are passed over.
            let filled = |rows: std::ops::Range<usize>, columns: std::ops::Range<usize>| {
                cells.iter().any(|(row, at, _)| rows.contains(row) && columns.contains(at))
                    || anchors.iter().any(|(from, to, _)| *from < rows.end && rows.start <= *to && columns.start == 0)
            };
            let of_page =
                |page: &[usize]| strips.windows(2).filter(|strip| filled(page[0]..page[1], strip[0]..strip[1])).count();
            let is_its_own = attribute(&sheet, "pageSetup", "paperSize") == Some(if paper == A4 { "9" } else { "1" });
            if is_its_own {
                pages = ends.windows(2).map(of_page).sum();
            }
            for (from, to, end) in &anchors {
                if let Some(cut) = begins.iter().find(|row| (from + 1..=*to).contains(*row)) {
                    say(format!("a chart in rows {from} to {to} is cut at {cut}"));
                }
                if end > &last {
                    say(format!("a chart goes beyond the last column on paper, to {end} of {last}"));
                }
            }
            begins.push(end + 1);
            for page in begins.windows(2) {
                let rows = page[0]..page[1];
                let drawn = anchors.iter().any(|(from, to, _)| *from < rows.end && rows.start <= *to);
                if !drawn && !cells.iter().any(|(row, at, _)| rows.contains(row) && *at <= last) {
                    say(format!("rows {rows:?} are a blank page"));
                }
            }
            // Where a sheet is two pages long, the second is worth its paper, but of a list.
            if let [_, second, end] = begins.as_slice()
                && end - second < 4
                && anchors.is_empty()
                && name != "How it was figured"
            {
                say(format!("rows {second} to {end} spill over"));
            }
        }
        counted.push((name.clone(), pages));
    }
    (counted, told)
}

/// Where charts of a sheet stand: the first row, the last one, and the last column.
fn anchors(archive: &mut ZipArchive<Cursor<&[u8]>>, index: usize) -> Vec<(usize, usize, usize)> {
    let rels = part(archive, &format!("xl/worksheets/_rels/sheet{}.xml.rels", index + 1)).unwrap_or_default();
    let drawing = rels.split("drawings/drawing").nth(1).and_then(|rest| rest.split(".xml").next());
    let Some(drawing) = drawing.and_then(|number| part(archive, &format!("xl/drawings/drawing{number}.xml"))) else {
        return Vec::new();
    };
    let anchors = drawing.split("<xdr:from>").skip(1).map(|anchor| {
        let to = anchor.split("<xdr:to>").nth(1).unwrap();
        let get = |end: &str, tag: &str| -> usize {
            end.split(&format!("<xdr:{tag}>")).nth(1).unwrap().split('<').next().unwrap().parse().unwrap()
        };
        (get(anchor, "row"), get(to, "row"), get(to, "col"))
    });
    anchors.collect()
}

/// A kitchen of dishes with names of 80 characters, of something bought; invented.
pub fn long_names(dishes: usize) -> String {
    let mut book = "Item,Pack,Price,Yield\nGreens of the garden,10 lb,$9.00,90%\n\n".to_owned();
    for n in 0..dishes {
        let name = format!("Slow dish {n:03} of garden greens with a warm dressing of mustard, honey and old cider");
        let name: String = name.chars().take(80).collect();
        book.push_str(&format!(
            "Recipe,{name}\nMakes,2 qt\nPortion,8 fl oz\nMenu price,$4.00\nIngredient,Qty,Unit,Note\n\
             Greens of the garden,{},oz,washed twice\nSalt,to taste,,\n\n",
            n % 7 + 1
        ));
    }
    book
}

/// Sheets before the cards.
const OTHERS: [&str; 4] = ["Summary", "What changed", "Menu", "Plan"];

#[test]
fn every_page_is_readable_on_letter_and_a4() {
    let metric = include_bytes!("../../sample-books/metric-kitchen.xlsx").as_slice();
    let messy: [(&str, &[u8]); 2] = [
        ("recipes.xlsx", include_bytes!("../../sample-books/messy-kitchen-recipes.xlsx")),
        ("supplier.xlsx", include_bytes!("../../sample-books/messy-kitchen-supplier.xlsx")),
    ];
    let books = [
        ("teaching kitchen", teaching_workbook(), 59),
        ("metric kitchen", costed("metric-kitchen.xlsx", metric).2, 75),
        ("messy kitchen", costed_together(&messy).2, 84),
        ("40 dishes", costed("forty.csv", long_names(40).as_bytes()).2, 102),
        ("1 recipe", costed("one.csv", long_names(1).as_bytes()).2, 8),
        ("250 recipes", costed("many.csv", long_names(250).as_bytes()).2, 118),
    ];
    let mut told = String::new();
    for (name, written, expected) in books {
        let (counted, faults) = faults(&written);
        assert!(counted.len() > 4, "{name}: {} sheets", counted.len());
        if !faults.is_empty() {
            writeln!(told, "{name}:\n{faults}").unwrap();
        }
        // A dish a page: the costing face of a card, and the kitchen's.
        let recipes = counted.iter().skip_while(|(sheet, _)| sheet != "Plan" && sheet != "Menu" && sheet != "Summary");
        let cards: Vec<&(String, usize)> = recipes
            .skip_while(|(sheet, _)| OTHERS.contains(&sheet.as_str()))
            .take_while(|(sheet, _)| sheet != "Kitchen cards")
            .collect();
        if let Some((_, kitchen)) = counted.iter().find(|(sheet, _)| sheet == "Kitchen cards") {
            // One with many lines and many parts of trim goes on overleaf.
            let expected = cards.len()..=cards.len() + cards.len() / 5;
            assert!(expected.contains(kitchen), "{name}: {kitchen} pages of kitchen cards, not {expected:?}");
            let long: Vec<_> = cards.iter().filter(|(_, pages)| *pages > 1).collect();
            assert!(long.len() <= cards.len() / 5, "{name}: {long:?}");
        }
        // As many as LibreOffice 7.4 prints of it, give or take one in twenty: programs break long sheets a row apart.
        let pages: usize = counted.iter().map(|(_, pages)| pages).sum();
        println!("{name}: {pages} pages, {expected} as LibreOffice prints it");
        assert!(pages.abs_diff(expected) <= expected.div_ceil(20), "{name}: {pages}, not {expected}: {counted:?}");
    }
    assert!(told.is_empty(), "{told}");
}

/// Words are set off from the number to their left, headers too: `On order` and `Note` are two. An indent counts only where
/// a side is said (ECMA-376 part 1, 18.8.1).
#[test]
fn the_templates_are_readable_on_paper() {
    for file in ["us", "metric", "us-plain", "metric-plain", "us-bench", "metric-bench"] {
        let template = std::fs::read(format!("{}/templates/{file}.xlsx", env!("CARGO_MANIFEST_DIR"))).unwrap();
        let (_, told) = faults(&template);
        let small: Vec<&str> =
            told.lines().filter(|line| line.contains("letters of") || line.contains("a strip of")).collect();
        assert!(small.is_empty(), "{file}: {small:#?}");
        let styles = part(&mut ZipArchive::new(Cursor::new(template.as_slice())).unwrap(), "xl/styles.xml").unwrap();
        let set_off: Vec<&str> = styles.split("<alignment ").skip(1).filter(|one| one.contains(" indent=")).collect();
        assert!(set_off.len() > 1 && set_off.iter().all(|one| one.starts_with("horizontal=\"left\"")), "{file}");
    }
}

/// A dish that is priced on its card alone is on the printed menu, with the figures of the Summary, and is no row of the menu
/// when the book is read again.
#[test]
fn the_printed_menu_shows_every_dish() {
    let (reading, _, written) = costed("teaching-kitchen.xlsx", TEACHING_KITCHEN);
    let sheets = crate::recalc::Sheets::open(&written);
    let text = |sheet: &str, cell: String| match sheets.value(sheet, &cell) {
        crate::recalc::Value::Text(text) => text,
        _ => String::new(),
    };
    let column = |sheet: &str, row: usize, header: &str| {
        let at = |at: &u8| text(sheet, format!("{}{row}", char::from(*at))) == header;
        char::from((b'A'..=b'Z').find(at).unwrap())
    };
    let rows = |sheet: &'static str| (2..60).map(move |row| (row, text(sheet, format!("A{row}"))));
    let menu: Vec<(usize, String)> = rows("Menu").collect();
    for dish in &reading.kitchen.dishes {
        let named = if dish.row.is_some() { dish.name.clone() } else { format!("On its card: {}", dish.name) };
        let (row, _) = menu.iter().find(|(_, text)| *text == named).unwrap_or_else(|| panic!("{named} is not on it"));
        let (of_summary, _) = rows("Summary").find(|(_, text)| *text == dish.name).unwrap();
        for header in ["Portion cost", "Food cost %", "Price at target", "Margin", "Standing"] {
            let here = sheets.value("Menu", &format!("{}{row}", column("Menu", 1, header)));
            let there = sheets.value("Summary", &format!("{}{of_summary}", column("Summary", 7, header)));
            assert!(here.agrees(&there), "{named}, {header}: {here}, not {there}");
        }
        let price = sheets.value("Menu", &format!("{}{row}", column("Menu", 1, "Menu price")));
        assert!(matches!(price, crate::recalc::Value::Number(_)), "{named}: {price}");
    }
    assert!(reading.kitchen.dishes.iter().any(|dish| dish.row.is_none()), "one is on its card alone");
    let (again, _) = crate::support::cost_bytes(&[("t.costed.xlsx", &written)]);
    assert_eq!(again.kitchen.entries.menu.len(), reading.kitchen.entries.menu.len());
}
