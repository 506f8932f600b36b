//! Hostile books, each built by a program and checked by the command in a process of its own, within bounds of memory and
//! processor time: what is said of it, and how it ends. `docs/limits.md` is made by running all of them at full size.

use std::env;
use std::ffi::OsString;
use std::fmt::Write as _;
use std::fs;
use std::os::unix::process::ExitStatusExt;
use std::path::Path;
use std::process::Command;

use parings::problem::Severity;
use parings::{Limits, Source, read};
use tempfile::TempDir;

use super::books;
use crate::formats::hostile::{hostile, ods};
use crate::support::{at_length, options};

/// Memory that a run may take, in kilobytes of address space.
const MEMORY: u32 = 500_000;
/// Seconds of the processor that a run may take: a program that is not optimised takes five to ten times as long.
const SECONDS: u32 = 60;

/// A hostile book.
pub struct Case {
    /// The file's name; its ending says of which kind it is.
    pub name: &'static str,
    /// What it is, as the page tells it.
    pub what: &'static str,
    pub bytes: Vec<u8>,
    /// What is said of it, and the exit status.
    pub says: &'static str,
    pub ends: i32,
}

/// An xlsx of these parts beside those that every workbook has; `sheet` is the XML of its one sheet.
fn xlsx(sheet: &str, others: &[(&str, &str)]) -> Vec<u8> {
    let types =
        "<?xml version=\"1.0\"?><Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\"/>";
    let root = "<Relationships><Relationship Id=\"rId1\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument\" Target=\"xl/workbook.xml\"/></Relationships>";
    let book = "<workbook xmlns:r=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships\"><sheets><sheet name=\"S\" sheetId=\"1\" r:id=\"rId1\"/></sheets></workbook>";
    let relations = "<Relationships><Relationship Id=\"rId1\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet\" Target=\"worksheets/sheet1.xml\"/><Relationship Id=\"rId2\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/sharedStrings\" Target=\"texts.xml\"/><Relationship Id=\"rId3\" Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles\" Target=\"styles.xml\"/></Relationships>";
    let mut parts: Vec<(String, Vec<u8>)> = [
        ("[Content_Types].xml", types),
        ("_rels/.rels", root),
        ("xl/workbook.xml", book),
        ("xl/_rels/workbook.xml.rels", relations),
        ("xl/worksheets/sheet1.xml", sheet),
    ]
    .iter()
    .map(|(name, text)| ((*name).to_owned(), text.as_bytes().to_vec()))
    .collect();
    for (name, text) in others {
        match parts.iter_mut().find(|(known, _)| known == name) {
            Some((_, bytes)) => *bytes = text.as_bytes().to_vec(),
            None => parts.push(((*name).to_owned(), text.as_bytes().to_vec())),
        }
    }
    books::packed(&parts)
}

fn sheet(rows: &str) -> String {
    format!("<worksheet><sheetData>{rows}</sheetData></worksheet>")
}

/// All of them; `share` of a hundred of their full size.
fn cases(share: usize) -> Vec<Case> {
    let of = |full: usize| (full / 100).max(1) * share;
    let case = |name, what, bytes: Vec<u8>, says, ends| Case { name, what, bytes, says, ends };
    let number = "<c r=\"A1\"><v>1</v></c>";
    let plain = sheet(&format!("<row r=\"1\">{number}</row>"));
    let header = "Item,Pack,Price\n";
    let long = "x".repeat(1_200_000);
    let filled = |rows: usize| {
        let row = "<table:table-cell office:value-type=\"string\"><text:p>Leeks</text:p></table:table-cell>";
        format!("<table:table-row table:number-rows-repeated=\"{rows}\">{row}</table:table-row>")
    };
    let mut western = b"Item,Pack,Price\n".to_vec();
    for n in 0..if share >= 100 { 1_500_000 } else { 2_000 } {
        western.extend(format!("Cr\u{e8}me {n},1 lb,$1\n").chars().map(|c| u8::try_from(c).unwrap()));
    }

    let mut all = vec![
        // Texts.
        case(
            "commas.csv",
            "30 million commas in a row",
            [header.as_bytes(), &b",".repeat(of(30_000_000).max(1_000_001))].concat(),
            "a million cells in one row",
            2,
        ),
        case(
            "quote.csv",
            "a quotation mark that is never closed, and 40 MB behind it",
            [header.as_bytes(), b"Leeks,\"", &b"x,y\n".repeat(of(10_000_000))].concat(),
            "opens a quotation mark in line 2",
            2,
        ),
        case(
            "large.csv",
            "a csv of 301 MB",
            vec![b' '; if share >= 100 { 301_000_000 } else { 3_000_000 }],
            if share >= 100 { "larger than 300 MB" } else { "" },
            2,
        ),
        case(
            "blank.csv",
            "30 million blank lines",
            [header.as_bytes(), &b"\n".repeat(of(30_000_000)), b"Leeks,1 lb,$1\n"].concat(),
            "",
            if share >= 100 { 1 } else { 0 },
        ),
        case(
            "far.csv",
            "a cell in the 20,000th column",
            format!("{header}Leeks,1 lb,$1{}far\n", ",".repeat(20_000)).into_bytes(),
            "",
            1,
        ),
        case(
            "same.csv",
            "one row a million times",
            [header.as_bytes(), &b"Leeks,1 lb,$1\n".repeat(of(1_000_000))].concat(),
            "",
            0,
        ),
        case(
            "western.csv",
            "a million and a half price rows in Windows-1252",
            western,
            if share >= 100 { "unpacks into more than" } else { "" },
            if share >= 100 { 2 } else { 0 },
        ),
        case("steering.csv", "names that would steer a terminal", books::steering().into_bytes(), "", 1),
        case(
            "names.csv",
            "500 unknown names of 5,000 letters among 2,000 others",
            books::long_names(of(500), of(2_000), 5_000).into_bytes(),
            "",
            1,
        ),
        case(
            "unknown.csv",
            "500 unknown names among 20,000 price rows",
            books::unknown_names(of(500), of(20_000)).into_bytes(),
            "",
            1,
        ),
        case(
            "side.csv",
            "4,000 tables side by side, of 40 rows each",
            books::side_by_side(of(4_000), 40).into_bytes(),
            "",
            0,
        ),
        case(
            "cards.csv",
            "2,000 recipes side by side, without the word Recipe",
            books::cards_side_by_side(of(2_000), 20).into_bytes(),
            "",
            1,
        ),
        case(
            "cups.csv",
            "5,000 weights of one cup, and as many lines that use it",
            books::weights_of_one_cup(of(5_000)).into_bytes(),
            "",
            1,
        ),
        case(
            "boxes.csv",
            "5,000 measures of one item, and as many lines that use them",
            books::measures_of_one_item(of(5_000)).into_bytes(),
            "",
            0,
        ),
        case(
            "cuts.csv",
            "5,000 preparations of one cup, and as many lines that ask for none",
            books::preparations_of_one_cup(of(5_000)).into_bytes(),
            "",
            1,
        ),
        case(
            "tests.csv",
            "5,000 yield tests that make one part, and as many lines that use it",
            books::tests_of_one_part(of(5_000)).into_bytes(),
            "",
            1,
        ),
        case(
            "amounts.csv",
            "1,500 quantities, units, measures and packs of 30,000 letters",
            books::long_amounts(of(300), 30_000).into_bytes(),
            "",
            1,
        ),
        case("circle.csv", "a circle of 16,000 recipes", books::circle(of(16_000)).into_bytes(), "", 1),
        case("chain.csv", "a chain of 16,000 recipes", books::chain(of(16_000)).into_bytes(), "", 0),
        case("broken.csv", "100,000 prices that are none", books::broken_prices(of(100_000)).into_bytes(), "", 1),
        // Zips and XML.
        case(
            "bomb.xlsx",
            "a part that unpacks into 400 MB",
            xlsx(&plain, &[("xl/media/a.xml", &" ".repeat(of(400_000_000)))]),
            if share >= 100 { "unpacks into more than 300 MB" } else { "" },
            2,
        ),
        case(
            "parts.xlsx",
            "5,000 parts",
            books::packed(&(0..5_000).map(|n| (format!("xl/{n}.xml"), Vec::new())).collect::<Vec<_>>()),
            "more than 2,000 parts",
            2,
        ),
        case(
            "twins.xlsx",
            "two parts of one name",
            books::twins(
                xlsx(&plain, &[("xl/worksheets/Sheet9.xml", &plain)]),
                "xl/worksheets/Sheet9.xml",
                "XL/worksheets/sheet1.xml",
            ),
            "two parts called “XL/worksheets/sheet1.xml”",
            2,
        ),
        case(
            "tag.xlsx",
            "a tag of a megabyte",
            xlsx(&sheet(&format!("<row a=\"{long}\"/>")), &[]),
            "longer than any cell",
            2,
        ),
        case(
            "text.xlsx",
            "a text of a megabyte",
            xlsx(&sheet(&format!("<row><c t=\"str\"><v>{long}</v></c></row>")), &[]),
            "longer than any cell",
            2,
        ),
        case(
            "comment.xlsx",
            "a comment of a megabyte",
            xlsx(&sheet(&format!("<!--{long}-->")), &[]),
            "longer than any cell",
            2,
        ),
        case(
            "entities.xlsx",
            "a text that stands for ten of another, which stands for ten more, and so nine times",
            xlsx(
                &plain,
                &[(
                    "xl/texts.xml",
                    &format!(
                        "<!DOCTYPE sst [<!ENTITY e0 \"x\">{}]><sst><si><t>&e9;</t></si></sst>",
                        (1..10)
                            .map(|n| format!("<!ENTITY e{n} \"{}\">", format!("&e{};", n - 1).repeat(10)))
                            .collect::<String>()
                    ),
                )],
            ),
            "no table",
            2,
        ),
        case(
            "wide.xlsx",
            "parts written in UTF-16",
            books::packed(&[
                ("[Content_Types].xml".to_owned(), b"<Types/>".to_vec()),
                (
                    "xl/workbook.xml".to_owned(),
                    "\u{feff}<workbook/>".encode_utf16().flat_map(u16::to_le_bytes).collect(),
                ),
            ]),
            "UTF-16",
            2,
        ),
        case(
            "deep.xlsx",
            "a million elements within one another",
            xlsx(&"<a>".repeat(of(1_000_000).max(1_000)), &[]),
            "too deep",
            2,
        ),
        case(
            "declared.xlsx",
            "a list of texts that declares 4 billion",
            xlsx(&plain, &[("xl/texts.xml", "<!-- <sst> --><x:sst uniqueCount = '4000000000'/>")]),
            "absurd length",
            2,
        ),
        case(
            "formats.xlsx",
            "100,000 cell formats with one number format of a million letters",
            xlsx(
                &plain,
                &[(
                    "xl/styles.xml",
                    &format!(
                        "<styleSheet><numFmts><numFmt numFmtId=\"200\" formatCode=\"{}\"/></numFmts><cellXfs>{}</cellXfs></styleSheet>",
                        "0".repeat(999_000),
                        "<xf numFmtId=\"200\"/>".repeat(of(100_000))
                    ),
                )],
            ),
            "a number format is longer",
            2,
        ),
        case(
            "styles.xlsx",
            "a million cell formats",
            xlsx(
                &plain,
                &[(
                    "xl/styles.xml",
                    &format!(
                        "<styleSheet><cellXfs>{}</cellXfs></styleSheet>",
                        "<xf numFmtId=\"9\"/>".repeat(1_000_000)
                    ),
                )],
            ),
            "more cell formats",
            2,
        ),
        case(
            "sheets.xlsx",
            "5,000 sheets",
            xlsx(
                &plain,
                &[(
                    "xl/workbook.xml",
                    &format!(
                        "<workbook><sheets>{}</sheets></workbook>",
                        (0..5_000).map(|n| format!("<sheet name=\"S{n}\" r:id=\"r{n}\"/>")).collect::<String>()
                    ),
                )],
            ),
            "more than 1,000 sheets",
            2,
        ),
        case(
            "shared.xlsx",
            "900 sheets that are one part",
            xlsx(
                &plain,
                &[(
                    "xl/workbook.xml",
                    &format!(
                        "<workbook><sheets>{}</sheets></workbook>",
                        (0..900).map(|n| format!("<sheet name=\"S{n}\" r:id=\"rId1\"/>")).collect::<String>()
                    ),
                )],
            ),
            "two of its sheets are one",
            2,
        ),
        case(
            "empty.xlsx",
            "a million empty rows with a style",
            xlsx(
                &sheet(
                    &(1..=of(1_000_000))
                        .map(|n| format!("<row r=\"{n}\"><c r=\"A{n}\" s=\"0\"/></row>"))
                        .collect::<String>(),
                ),
                &[],
            ),
            "no table",
            2,
        ),
        case(
            "corner.xlsx",
            "one cell in the far corner",
            xlsx(&sheet("<row r=\"1048576\"><c r=\"XFD1048576\"><v>1</v></c></row>"), &[]),
            "no table",
            2,
        ),
        case(
            "filled.ods",
            "a filled row that is repeated to the end of the sheet",
            ods(&filled(1_048_576)),
            "no table",
            2,
        ),
        case(
            "spaces.ods",
            "three billion spaces in a cell",
            ods(&format!(
                "<table:table-row><table:table-cell office:value-type=\"string\"><text:p>{}</text:p></table:table-cell></table:table-row>",
                "<text:s text:c=\"32767\"/>".repeat(of(100_000))
            )),
            "no table",
            2,
        ),
    ];
    let kinds = hostile().into_iter().map(|(name, bytes, says)| {
        let read = says.ends_with("cells");
        Case { name, what: "", bytes, says: if read { "" } else { says }, ends: 2 }
    });
    all.extend(kinds);
    all
}

/// How a run went.
struct Run {
    code: Option<i32>,
    said: String,
}

/// The program: another build of it where `PARINGS_PROGRAM` names one.
fn program() -> OsString {
    env::var_os("PARINGS_PROGRAM").unwrap_or_else(|| env!("CARGO_BIN_EXE_parings").into())
}

/// Checks a file in a process of its own, which `timed` with its arguments starts.
fn checked(folder: &Path, name: &str, timed: &str) -> Run {
    let script = format!("ulimit -v {MEMORY}; ulimit -t {SECONDS}; exec {timed} \"$0\" check \"$1\"");
    let output = Command::new("sh")
        .arg("-c")
        .arg(script)
        .arg(program())
        .arg(name)
        .current_dir(folder)
        .env_remove("RUST_BACKTRACE")
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(output.status.signal().is_none(), "{name}: {} {said}", output.status);
    Run { code: output.status.code(), said }
}

/// A run with the seconds of the processor and the megabytes of memory it took, by the system's own `time`.
fn measured(folder: &Path, name: &str) -> (Run, f64, u64) {
    let run = checked(folder, name, "/usr/bin/time -q -o taken -f '%U %S %M'");
    let taken = fs::read_to_string(folder.join("taken")).unwrap();
    let numbers: Vec<f64> = taken.split_whitespace().map(|number| number.parse().unwrap()).collect();
    let [user, system, kilobytes] = numbers.as_slice() else { panic!("{taken}") };
    (run, user + system, (kilobytes / 1_000.0).ceil() as u64)
}

#[test]
fn hostile_books_get_one_clear_answer_within_bounds() {
    let folder = TempDir::new().unwrap();
    let mut failed = String::new();
    for case in cases(if at_length() { 100 } else { 1 }) {
        fs::write(folder.path().join(case.name), &case.bytes).unwrap();
        let run = checked(folder.path(), case.name, "");
        fs::remove_file(folder.path().join(case.name)).unwrap();
        let plain =
            !run.said.contains("panicked") && !run.said.contains("fault of its own") && !run.said.contains("memory");
        // What can be read and holds no table of ours ends in 2 as well.
        if run.code != Some(case.ends) || !run.said.contains(case.says) || !plain {
            writeln!(failed, "{}: {:?} {}", case.name, run.code, run.said).unwrap();
        }
    }
    assert!(failed.is_empty(), "{failed}");
}

/// Some program writes texts as sections, and what stands in one counts.
#[test]
fn a_value_in_a_cdata_section_or_beside_a_comment_counts() {
    let text = |cell: &str, text: &str| format!("<c r=\"{cell}\" t=\"str\"><v>{text}</v></c>");
    let rows = [
        format!("<row r=\"1\">{}{}", text("A1", "<![CDATA[Item]]>"), text("B1", "P<![CDATA[ac]]>k")),
        format!("{}</row><row r=\"2\">{}", text("C1", "Price"), text("A2", "<![CDATA[Salt & pepper]]>")),
        format!("{}<c r=\"C2\"><v><![CDATA[2.5]]></v></c></row><row r=\"3\">", text("B2", "1 lb")),
        format!("{}{}<c r=\"C3\"><v>1<!-- 9 -->2<?a b?>.5</v></c></row>", text("A3", "Leeks"), text("B3", "1 lb")),
    ];
    let bytes = xlsx(&sheet(&rows.concat()), &[]);
    let reading = read(&[Source { name: "book.xlsx", bytes: &bytes }], options()).unwrap();
    let row = &reading.kitchen.entries.prices[0];
    assert_eq!(row.item, "Salt & pepper");
    assert!(format!("{:?}", row.price).contains("2.5"), "{:?}", row.price);
    let leeks = format!("{:?}", reading.kitchen.entries.prices[1].price);
    assert!(leeks.contains("12.5"), "{leeks}");
    assert!(reading.problems.iter().all(|problem| problem.severity() != Severity::Error), "{:?}", reading.problems);
}

/// What a person is shown of a cell is no longer than a line or two.
#[test]
fn long_texts_are_quoted_by_their_beginning() {
    let bytes = books::long_amounts(1, 30_000).into_bytes();
    let reading = read(&[Source { name: "book.csv", bytes: &bytes }], options()).unwrap();
    let long: Vec<String> = reading.problems.iter().map(|problem| problem.message()).collect();
    assert!(long.iter().any(|message| message.contains("12 x 12 x") && message.contains('…')), "{long:?}");
    assert!(long.iter().all(|message| message.chars().count() < 700), "{long:?}");
}

/// The caller of the library says how much is too much.
#[test]
fn a_caller_may_allow_more_or_less() {
    let book = b"Item,Pack,Price\nLeeks,1 lb,$1\n";
    let within = |change: &dyn Fn(&mut Limits)| {
        let mut limits = Limits::USUAL;
        change(&mut limits);
        let source = Source { name: "book.csv", bytes: book };
        read(&[source], options().within(limits)).map(drop).map_err(|error| error.to_string())
    };
    assert_eq!(within(&|_| ()), Ok(()));
    // Two rows of 100 bytes, six texts of 88 and their letters: Item, Pack, Price, Leeks, 1 lb, $1.
    let said = within(&|limits| limits.cells = 200 + 6 * 88 + 23).unwrap_err();
    assert!(said.contains("more than 0 MB of cells"), "{said}");
    assert_eq!(within(&|limits| limits.cells = 200 + 6 * 88 + 24), Ok(()));
    let said = within(&|limits| limits.bytes = 80).unwrap_err();
    assert!(said.contains("more than 0 MB"), "{said}");
}

/// The page of limits, made by running every case at full size, by a program that was built for release:
/// `PARINGS_PROGRAM=target/release/parings cargo test --test it write_the_page_of_limits -- --ignored`.
#[test]
#[ignore = "writes docs/limits.md, for which every case is run at full size"]
fn write_the_page_of_limits() {
    let folder = TempDir::new().unwrap();
    let (mut rows, mut beyond) = (String::new(), String::new());
    for case in cases(100).into_iter().filter(|case| !case.what.is_empty()) {
        fs::write(folder.path().join(case.name), &case.bytes).unwrap();
        let (run, seconds, megabytes) = measured(folder.path(), case.name);
        if run.code != Some(case.ends) || !run.said.contains(case.says) || seconds > 10.0 || megabytes > 500 {
            writeln!(beyond, "{}: {:?} {seconds:.1} s {megabytes} MB {}", case.name, run.code, run.said).unwrap();
        }
        let size = case.bytes.len();
        fs::remove_file(folder.path().join(case.name)).unwrap();
        let size = match size {
            0..10_000 => format!("{size} bytes"),
            10_000..10_000_000 => format!("{} kB", size / 1_000),
            _ => format!("{} MB", size / 1_000_000),
        };
        let answer = match run.code {
            Some(0) => "read and costed".to_owned(),
            Some(1) => "read; its errors are told at their cells".to_owned(),
            _ => run.said.trim().trim_start_matches("error: ").split(':').next().unwrap_or_default().trim().to_owned(),
        };
        writeln!(rows, "| `{}`: {} | {size} | {seconds:.1} s | {megabytes} MB | {answer} |", case.name, case.what)
            .unwrap();
    }
    let page = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/limits.md");
    let text = fs::read_to_string(&page).unwrap();
    let (before, rest) = text.split_once("<!-- cases -->").unwrap();
    let (_, after) = rest.split_once("<!-- end -->").unwrap();
    let table = format!("\n\n| case | size | time | memory | answer |\n| --- | --- | --- | --- | --- |\n{rows}\n");
    fs::write(page, format!("{before}<!-- cases -->{table}<!-- end -->{after}")).unwrap();
    assert!(beyond.is_empty(), "{beyond}");
}
