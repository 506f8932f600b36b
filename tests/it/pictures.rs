//! Pictures of the costed workbook: the cells that they are drawn from, by hand and recalculated, and what the charts are.

use std::io::{Cursor, Read};

use jiff::civil::date;
use parings::{ListOptions, Options, Source, read, reprice, write_repriced};
use zip::ZipArchive;

use crate::recalc::{Sheets, Value, assert_recalculates, with_changes};
use crate::workbook::{TEACHING_KITCHEN, costed, teaching_workbook};

/// Prawns $6.00 a pound: ten pounds give five of tails and two of shells, charged a fifth, $1.20. The tails bear the rest,
/// (60 − 2 × 1.20) ÷ 5 = $11.52. Onions 30 ÷ 50 = $0.60.
const BOOK: &str = "\
Setting,Value
Costing date,2026-11-20
Target food cost,30%
Menu prices include tax,8%
Q factor,5%
Spice factor,2%

Item,Pack,Price,Supplier,Code,Date
Onions,50 lb,$25.00,Hill Farm,H1,2026-10-01
Onions,50 lb,$30.00,Hill Farm,H1,2026-11-01
Prawns,10 lb,$75.00,Quay,Q1,2026-10-01
Prawns,10 lb,$90.00,Quay,Q1,2026-10-15
Prawns,10 lb,$60.00,Quay,Q1,2026-11-01
Beans,10 lb,$20.00,Hill Farm,H2,2026-11-01

Test,Role,Part,Weight,Charged as,Value
Peeling,as purchased,Prawns,10 lb,,
Peeling,main,Tails,5 lb,,
Peeling,by-product,Shells,2 lb,fraction,20%
Soaking,as purchased,Beans,1 lb,,
Soaking,added,Water,1 lb,,
Soaking,main,Soaked beans,1.5 lb,,
Soaking,by-product,Liquor,0.25 lb,free,

Recipe,Prawn soup
Portions,8
Menu price,$10.80
Ingredient,Qty,Unit
Tails,2,lb
Shells,2,lb
Onions,2,lb

Dish,Portions
Prawn soup,80
";

/// The zero-based place of a text in the first column, counted as rows are.
#[track_caller]
fn row_of(sheets: &Sheets, sheet: &str, name: &str, nth: usize) -> u32 {
    let is = |row: &u32| matches!(sheets.value(sheet, &format!("A{row}")), Value::Text(text) if text == name);
    (1..200).filter(is).nth(nth).unwrap_or_else(|| panic!("no {name} on {sheet}"))
}

#[track_caller]
fn stands(sheets: &Sheets, sheet: &str, row: u32, expected: &[(&str, f64)]) {
    for (column, expected) in expected {
        let found = sheets.number(sheet, &format!("{column}{row}"));
        assert!((found - expected).abs() < 1e-9, "{sheet}!{column}{row}: {found}, not {expected}");
    }
}

#[test]
fn a_menu_price_comes_apart_into_what_adds_up_to_it() {
    let written = costed("book.csv", BOOK.as_bytes()).2;
    assert_recalculates(&written, "book.xlsx");
    // A batch: tails 23.04, shells 2.40, onions 1.20; a portion 26.64 ÷ 8 = 3.33, of which 0.30 is shells.
    // Q 5 % of 3.33 = 0.1665; spice 2 % of 3.4965 = 0.06993. 10.80 ÷ 1.08 = 10.00: tax 0.80.
    // Margin 10 − 3.33 − 0.1665 − 0.06993 = 6.43357.
    let sheets = Sheets::open(&written);
    let row = row_of(&sheets, "In pictures", "Prawn soup", 0);
    let parts = [("B", 3.03), ("C", 0.30), ("D", 0.1665), ("E", 0.069_93), ("F", 0.80), ("G", 6.433_57), ("H", 10.80)];
    stands(&sheets, "In pictures", row, &parts);
    // Onions at $50 for 50 lb: 2.00 in the batch, 0.10 a portion more. Food 3.43: Q 0.1715, spice 2 % of 3.6015.
    let onions = (2..=4).find(|row| sheets.value("Prices", &format!("C{row}")).agrees(&Value::Number(30.0))).unwrap();
    let changed = with_changes(&written, &[("Prices", &format!("C{onions}"), 50.0)]);
    stands(&changed, "In pictures", row, &[("B", 3.13), ("C", 0.30), ("D", 0.1715), ("E", 0.072_03), ("F", 0.80)]);
}

#[test]
fn prices_over_time_are_told_by_the_first() {
    let sheets = Sheets::open(&costed("book.csv", BOOK.as_bytes()).2);
    let first = row_of(&sheets, "In pictures", "2026-10-01", 0);
    // Onions 25 to 30: 120 %. Prawns 75, 90 and 60: 120 and 80 %. Both are a fifth from where they began.
    for (row, onions, prawns) in [(first, 1.0, 1.0), (first + 1, 1.0, 1.2), (first + 2, 1.2, 0.8)] {
        stands(&sheets, "In pictures", row, &[("B", onions), ("C", prawns)]);
    }
    // Beans have one price.
    assert!(matches!(sheets.value("In pictures", &format!("D{first}")), Value::Empty));
    // The JSON says the same, in grams of 453.59237 to the pound: 25 ÷ 50 lb, and 30 ÷ 50 lb.
    let json = crate::support::cost_json(&[("book.csv", BOOK)]);
    let history = json["price_history"].as_array().unwrap();
    assert_eq!(history.len(), 2, "{history:?}");
    for (of, item, percents) in [(0, "Onions", ["100", "100", "120"]), (1, "Prawns", ["100", "120", "80"])] {
        assert_eq!((&history[of]["item"], &history[of]["base_unit"]), (&item.into(), &"g".into()));
        let is = |found: &serde_json::Value, percent: &str| {
            let [found, percent] = [found.as_str().unwrap(), percent].map(|text| text.parse::<f64>().unwrap());
            assert!((found - percent).abs() < 1e-9, "{item}: {found}, not {percent}");
        };
        is(&history[of]["now_percent"], percents[2]);
        for (day, percent) in percents.into_iter().enumerate() {
            let price = &history[of]["prices"][day];
            let from = ["2026-10-01", "2026-10-15", "2026-11-01"][day];
            assert_eq!(price["from"], from, "{item}");
            is(&price["percent_of_first"], percent);
        }
    }
    let per_pound =
        |price: &serde_json::Value| price["unit_price"].as_str().unwrap().parse::<f64>().unwrap() * 453.592_37;
    let onions = &history[0]["prices"];
    assert!((per_pound(&onions[0]) - 0.5).abs() < 1e-9 && (per_pound(&onions[2]) - 0.6).abs() < 1e-9, "{onions}");
}

#[test]
fn weight_and_money_stand_side_by_side_with_what_was_added_in_the_hundred() {
    let sheets = Sheets::open(&costed("book.csv", BOOK.as_bytes()).2);
    let shares = |nth, weight: [f64; 4], money: [f64; 2]| {
        let row = row_of(&sheets, "Trim", "Of the weight", nth);
        let [mains, by_products, waste, loss] = weight;
        stands(&sheets, "Trim", row, &[("B", mains), ("C", by_products), ("D", waste), ("E", loss)]);
        stands(&sheets, "Trim", row + 1, &[("B", money[0]), ("C", money[1]), ("D", 0.0), ("E", 0.0)]);
    };
    // Five and two of ten pounds, three lost; the shells bear 2.40 of 60.
    shares(0, [0.5, 0.2, 0.0, 0.3], [0.96, 0.04]);
    // One and a half and a quarter of two pounds that went in, a quarter lost; the liquor is free.
    shares(1, [0.75, 0.125, 0.0, 0.125], [1.0, 0.0]);
}

#[test]
fn the_way_from_the_old_basket_to_the_new_adds_up() {
    let reading =
        read(&[Source { name: "book.csv", bytes: BOOK.as_bytes() }], Options::on(date(2026, 11, 20))).unwrap();
    let list = "Code,Item,Pack,Price,Supplier,Date\nH1,Onions,50 lb,$35.00,Hill Farm,2026-11-19\n\
                Q1,Prawns,10 lb,$54.00,Quay,2026-11-19\n";
    let lists = [Source { name: "new.csv", bytes: list.as_bytes() }];
    let repriced = reprice(reading, &lists, &ListOptions::default(), false).unwrap();
    let written = write_repriced(&repriced, date(2026, 11, 20).at(9, 0, 0, 0)).unwrap();
    assert_recalculates(&written, "repriced.xlsx");
    let sheets = Sheets::open(&written);
    let before = row_of(&sheets, "What changed", "Before", 0);
    // Ten batches: tails 20 lb of 40 lb of prawns, onions 20 lb. 40 × 6.00 + 20 × 0.60 = 252.00.
    // Onions 0.70 a pound: 2.00 more, 254.00. Prawns 5.40: 24.00 less, 230.00.
    stands(&sheets, "What changed", before, &[("C", 252.0), ("E", 252.0)]);
    let onions = [("B", 2.0), ("C", 254.0), ("D", 252.0), ("F", 2.0), ("G", 0.0), ("J", 2.0), ("K", 0.0)];
    stands(&sheets, "What changed", before + 1, &onions);
    let prawns = [("B", -24.0), ("C", 230.0), ("D", 230.0), ("F", 0.0), ("G", 24.0), ("J", 0.0), ("K", 24.0)];
    stands(&sheets, "What changed", before + 2, &prawns);
    stands(&sheets, "What changed", before + 3, &[("C", 230.0), ("E", 230.0)]);
    let changes = repriced.changes();
    let text = parings::output::json::reprice(&changes, &[]);
    let json: serde_json::Value = serde_json::from_str(&text).unwrap();
    crate::wire::schemas::meets("reprice", &json);
    let way = &json["way"];
    assert_eq!((&way["before"], &way["now"]), (&"252".into(), &"230".into()));
    for (at, item, change, comes_to) in [(0, "Onions", "2", "254"), (1, "Prawns", "-24", "230")] {
        let step = &way["steps"][at];
        assert_eq!((&step["item"], &step["items"]), (&item.into(), &1.into()));
        assert_eq!((&step["change"], &step["comes_to"]), (&change.into(), &comes_to.into()));
    }
    assert!(way["steps"].get(2).is_none(), "{way}");
    // The axis begins at a round number below 230 − 24; the currency stands on it.
    let charts = charts(&written);
    let way = charts.iter().find(|chart| chart.contains("The way from the old prices")).unwrap();
    assert!(way.contains("<c:min val=\"200\"/>"), "{way}");
    assert!(way.contains("formatCode=\"&quot;$&quot;#,##0.00\""), "{way}");
    // The onions at $60 for 50 lb: 1.20 a pound, 12.00 more than before, and the prawns as they were.
    let new = (2..12).find(|row| sheets.value("Prices", &format!("C{row}")).agrees(&Value::Number(35.0))).unwrap();
    let changed = with_changes(&written, &[("Prices", &format!("C{new}"), 60.0)]);
    stands(&changed, "What changed", before + 1, &[("B", 12.0), ("C", 264.0), ("D", 252.0), ("F", 12.0)]);
    stands(&changed, "What changed", before + 3, &[("C", 240.0), ("E", 240.0)]);
}

/// The charts of a workbook as XML.
fn charts(workbook: &[u8]) -> Vec<String> {
    let mut archive = ZipArchive::new(Cursor::new(workbook)).unwrap();
    let names: Vec<String> = archive.file_names().map(|name| name.unwrap().into_owned()).collect();
    let charts = names.into_iter().filter(|name| name.starts_with("xl/charts/chart"));
    charts
        .map(|name| {
            let mut text = String::new();
            archive.by_name(&name).unwrap().read_to_string(&mut text).unwrap();
            text
        })
        .collect()
}

#[test]
fn keys_and_titles_name_the_dish_and_one_thing_has_one_colour() {
    let charts = charts(&teaching_workbook());
    let of = |words: &str| charts.iter().filter(|chart| chart.contains(words)).collect::<Vec<_>>();
    assert!(of("What one dish gains the other pays")[0].contains("Smoky shrimp soup"), "{charts:?}");
    assert_eq!(of("Where the money goes in Duck breast").len(), 1);
    assert!(of("where the weight went, and the money").iter().all(|chart| chart.contains("Mains: ")), "{charts:?}");
    // A series and the colour that it is filled with.
    let mut colours: std::collections::BTreeMap<String, String> = std::collections::BTreeMap::new();
    for series in charts.iter().flat_map(|chart| chart.split("<c:ser>").skip(1)) {
        let name = series.split("<c:v>").nth(1).and_then(|rest| rest.split("</c:v>").next()).unwrap_or_default();
        let name = name.split(": ").next().unwrap();
        let Some(fill) = series.split("<c:spPr><a:solidFill><a:srgbClr val=\"").nth(1) else { continue };
        let fill = fill.split('"').next().unwrap().to_owned();
        // Food from trim and by-products are trim, mains and shares of food are food.
        let what = match name {
            "Trim used" | "By-products" | "Food from trim" => "trim",
            "Mains" | "Food" | "Food cost %" | "Share of food" => "food",
            other => other,
        };
        let known = colours.entry(what.to_owned()).or_insert_with(|| fill.clone());
        assert_eq!(*known, fill, "{name}");
    }
    assert!(colours.len() > 5, "{colours:?}");
}

/// Where a chart stands: its first and last zero-based rows and columns.
type Anchor = ([u32; 2], [u32; 2]);

/// A sheet's charts, and its zero-based cells that hold something.
type Drawn = (Vec<Anchor>, Vec<(u32, u32)>);

/// What every sheet holds.
fn sheets_of(workbook: &[u8]) -> Vec<Drawn> {
    let mut archive = ZipArchive::new(Cursor::new(workbook)).unwrap();
    let mut part = |name: &str| {
        let mut text = String::new();
        archive.by_name(name).ok()?.read_to_string(&mut text).ok()?;
        Some(text)
    };
    let mut sheets = Vec::new();
    while let Some(sheet) = part(&format!("xl/worksheets/sheet{}.xml", sheets.len() + 1)) {
        let links = part(&format!("xl/worksheets/_rels/sheet{}.xml.rels", sheets.len() + 1)).unwrap_or_default();
        let drawing = links.split("/drawings/").nth(1).and_then(|rest| rest.split('"').next());
        let drawing = drawing.filter(|name| name.starts_with("drawing"));
        let drawing = drawing.and_then(|name| part(&format!("xl/drawings/{name}"))).unwrap_or_default();
        let number = |text: &str, tag: &str| -> u32 {
            let rest = text.split(&format!("<xdr:{tag}>")).nth(1).unwrap();
            rest.split('<').next().unwrap().parse().unwrap()
        };
        let anchors = drawing.split("<xdr:from>").skip(1).map(|anchor| {
            let (from, to) = anchor.split_once("<xdr:to>").unwrap();
            // One that ends with the edge of a row or column does not reach into it.
            let end = |tag: &str, off: &str| number(to, tag) - u32::from(number(to, off) == 0);
            ([number(from, "row"), end("row", "rowOff")], [number(from, "col"), end("col", "colOff")])
        });
        let filled = sheet.split("<c r=\"").skip(1).filter_map(|cell| {
            let at = cell.split('"').next().unwrap();
            let row = at.trim_start_matches(|letter: char| letter.is_ascii_uppercase()).parse::<u32>().unwrap() - 1;
            let letters = at.bytes().filter(u8::is_ascii_uppercase);
            let column = letters.fold(0, |so_far, letter| so_far * 26 + u32::from(letter - b'A') + 1) - 1;
            (cell.contains("<v>") || cell.contains("<f>")).then_some((row, column))
        });
        let filled = filled.collect();
        sheets.push((anchors.collect(), filled));
    }
    sheets
}

/// What charts of a workbook lie on, and how many there are.
fn overlaps(workbook: &[u8]) -> (usize, Vec<String>) {
    let (mut charts, mut found) = (0, Vec::new());
    for (sheet, (anchors, cells)) in sheets_of(workbook).into_iter().enumerate() {
        charts += anchors.len();
        let within = |at: u32, [first, last]: [u32; 2]| (first..=last).contains(&at);
        for (nth, (rows, columns)) in anchors.iter().enumerate() {
            let hidden = cells.iter().filter(|(row, column)| within(*row, *rows) && within(*column, *columns));
            found.extend(hidden.map(|cell| format!("sheet {}: chart {nth} lies on cell {cell:?}", sheet + 1)));
            for (other_rows, other_columns) in anchors.iter().skip(nth + 1) {
                let meet = |[a, b]: [u32; 2], [c, d]: [u32; 2]| a <= d && c <= b;
                if meet(*rows, *other_rows) && meet(*columns, *other_columns) {
                    found.push(format!("sheet {}: chart {nth} lies on another", sheet + 1));
                }
            }
        }
    }
    (charts, found)
}

#[test]
fn no_chart_lies_on_a_cell_or_on_another() {
    let metric = include_bytes!("../../sample-books/metric-kitchen.xlsx");
    let mut many = "Setting,Value\nCosting date,2026-11-20\nTarget food cost,30%\n\nItem,Pack,Price,Date\n\
                    Onions,50 lb,$25.00,2026-11-01\n\nDish,Recipe,Menu price\n"
        .to_owned();
    for nth in 0..40 {
        many += &format!("A plate of onions with a name as long as menus have them and number {nth},Soup,${nth}.50\n");
    }
    many += "\nRecipe,Soup\nPortions,2\nIngredient,Qty,Unit\nOnions,2,lb\n";
    for (name, bytes, least) in [
        ("book.csv", BOOK.as_bytes(), 7),
        ("teaching-kitchen.xlsx", TEACHING_KITCHEN, 9),
        ("metric-kitchen.xlsx", metric.as_slice(), 4),
        // The ranking and four of ten dishes each.
        ("many.csv", many.as_bytes(), 5),
    ] {
        let (charts, found) = overlaps(&costed(name, bytes).2);
        assert!(found.is_empty(), "{name}: {found:?}");
        assert!(charts >= least, "{name} has {charts} charts");
    }
}
