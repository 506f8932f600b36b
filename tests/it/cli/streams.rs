//! What goes to standard output and what to standard error, in which format and colour, and when nobody reads.

use std::process::{Command, Stdio};

use serde_json::Value;

use super::{BOOK, BROKEN, Folder, Ran};

const ESCAPE: char = '\u{1b}';

fn broken() -> Folder {
    Folder::with("book.csv", format!("{BOOK}{BROKEN}"))
}

#[test]
fn json_alone_is_on_standard_output_and_no_workbook_is_written() {
    let folder = broken();
    let ran = folder.run(&["cost", "book.csv", "--format", "json"]).ends(1).complains_of(&["name-unknown"]);
    let json: Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(json["dishes"].as_array().unwrap().len(), 3);
    // 0.50 of flour and 2.00 of butter are 2.50, over 8 pieces.
    assert_eq!(json["dishes"][1]["portion_cost"], "0.3125");
    assert_eq!(json["problems"][0]["code"], "name-unknown");
    assert_eq!(folder.names(), ["book.csv"]);
    folder.run(&["cost", "book.csv", "--format", "json", "-o", "out.xlsx"]).ends(1).complains_of(&["Wrote out.xlsx"]);
    assert_eq!(folder.names(), ["book.csv", "out.xlsx"]);
}

#[test]
fn quiet_leaves_out_notes_and_remarks_and_no_more() {
    let folder = broken();
    // A note: nobody sees from the book which currency it is in. The error of the saffron stays.
    folder.put("noted.csv", format!("{BOOK}{BROKEN}").replace('$', ""));
    let loud = folder.run(&["cost", "noted.csv"]).ends(1).complains_of(&["note: ", "error: ", "Wrote"]);
    let quiet = folder.run(&["cost", "noted.csv", "--quiet"]).ends(1);
    assert_eq!(quiet.out, loud.out);
    assert!(quiet.err.starts_with("\n1 problem: 1 error:\n  error: noted.csv ▸ A27 [name-unknown]\n"), "{quiet:#?}");
    assert!(!quiet.err.contains("note: ") && !quiet.err.contains("Wrote"), "{quiet:#?}");
    let loud = folder.run(&["check", "noted.csv"]).ends(1);
    let quiet = folder.run(&["check", "-q", "noted.csv"]).ends(1);
    assert!(loud.out.contains("\n1 note\n") && quiet.out.contains("\n1 error\n"), "{loud:#?}");
    assert!(!quiet.out.contains("currency-unknown") && quiet.err.is_empty(), "{quiet:#?}");
    // Other programs get all of it.
    let json = |args: &[&str]| folder.run(&[&["check", "noted.csv", "--format", "json"], args].concat()).ends(1).out;
    assert_eq!(json(&["-q"]), json(&[]));
    // Notes alone: nothing is left to be said.
    folder.put("fine.csv", BOOK.replace('$', ""));
    let quiet = folder.run(&["cost", "fine.csv", "-q"]).ends(0);
    assert_eq!(quiet.err, "");
    let quiet = folder.run(&["check", "fine.csv", "-q"]).ends(0);
    assert!(quiet.out.ends_with("No errors, no warnings.\n"), "{quiet:#?}");
    // What ends the run is said all the same.
    folder.run(&["-q", "nothing.csv"]).ends(2).complains_of(&["nothing.csv"]);
}

/// The instructions of a template are nobody's table, and water is nothing that is bought.
#[test]
fn instructions_are_no_note_and_water_is_not_bought() {
    let folder =
        Folder::with("book.csv", BOOK.to_owned() + "\nRecipe,Tea\nPortions,1\nIngredient,Qty,Unit\nWater,1,cup\n");
    folder.put(
        "guide.csv",
        "Your kitchen's book\nparings reads these sheets and tells what every dish costs.\n\nPacks\n",
    );
    let ran = folder.run(&["check", "book.csv", "guide.csv"]).ends(0);
    for said in ["guide.csv\n  instructions\n", "Understood: 2 bought items,"] {
        assert!(ran.out.contains(said), "no “{said}” in {}", ran.out);
    }
    assert!(!ran.out.contains("sheet-not-read"), "{ran:#?}");
    // What was typed on it for a table is missed.
    folder.put("guide.csv", "Your kitchen's book\n\nItem,Prize,Pack size\nLeeks,2.00,10 lb\n");
    let ran = folder.run(&["check", "book.csv", "guide.csv"]).ends(0);
    assert!(ran.out.contains("guide.csv ▸ A3 [sheet-not-read]"), "{}", ran.out);
}

#[test]
fn check_tells_what_was_found_understood_and_wrong() {
    let folder = broken();
    folder.put("letter.csv", "Dear cook,\n");
    let ran = folder.run(&["check", "book.csv", "letter.csv", "--as-of", "2026-11-21"]).ends(1);
    assert_eq!(ran.err, "");
    for said in [
        "book.csv\n",
        "settings, 2 rows, from A1",
        "prices, 2 rows, from A5",
        "3 cards: Butter roll (1 line) · Shortbread (2 lines) · Saffron bun (1 line)",
        "letter.csv\n  not read",
        "3 dishes",
        "Costing date             2026-11-21 (as asked)",
        "Target food cost         30 %",
        "Currency                 USD (the sign seen first)",
        "1 error\n  book.csv ▸ A27 [name-unknown]",
        "Saffron",
    ] {
        assert!(ran.out.contains(said), "no “{said}” in {}", ran.out);
    }
    assert_eq!(folder.names(), ["book.csv", "letter.csv"]);
}

#[test]
fn check_as_json_and_csv() {
    let folder = broken();
    let ran = folder.run(&["check", "book.csv", "--format", "json"]).ends(1);
    let json: Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(json["format"], 1);
    assert_eq!(json["as_of"], "2026-11-20");
    assert_eq!(json["sheets"][0]["file"], "book.csv");
    assert_eq!(json["sheets"][0]["sheet"], "");
    let tables = &json["sheets"][0]["tables"];
    let prices = serde_json::json!({ "kind": "prices", "cell": "A5", "name": null, "rows": 2 });
    let card = serde_json::json!({ "kind": "card", "cell": "A15", "name": "Shortbread", "rows": 2 });
    assert_eq!((&tables[1], &tables[3]), (&prices, &card));
    assert_eq!(json["problems"][0]["cell"], "A27");

    let ran = folder.run(&["check", "book.csv", "--format", "csv"]).ends(1);
    let mut rows = ran.out.lines();
    assert_eq!(rows.next(), Some("code,severity,file,sheet,cell,message,help"));
    assert!(rows.next().unwrap().starts_with("name-unknown,error,book.csv,,A27,"), "{ran:#?}");
}

#[test]
fn the_day_asked_for_overrules_the_book() {
    let priced = BOOK.replace("Item,Pack,Price", "Item,Pack,Price,Date").replace("$5.00", "$5.00,2026-11-01");
    let priced = priced.replace("Butter,1 lb", "Flour,10 lb,$6.00,2026-12-01\nButter,1 lb");
    let folder = Folder::with("book.csv", priced);
    let cost = |args: &[&str]| -> Value {
        let ran = folder.run(&[&["book.csv", "--format", "json"], args].concat()).ends(0);
        serde_json::from_str(&ran.out).unwrap()
    };
    // A pound of ten for 5.00, over 4 rolls; from December 6.00.
    assert_eq!(cost(&[])["dishes"][0]["portion_cost"], "0.125");
    let december = cost(&["--as-of", "2026-12-01"]);
    assert_eq!((&december["as_of"], &december["dishes"][0]["portion_cost"]), (&"2026-12-01".into(), &"0.15".into()));
}

#[test]
fn no_cell_becomes_a_formula_in_csv_or_steers_the_terminal() {
    let hostile = BOOK
        .replace("Recipe,Butter roll", "Recipe,\"@SUM(1,\"\"x\"\")\"")
        .replace("Recipe,Shortbread", "Recipe,Short\u{1b}[31m\u{202E}bread");
    let folder = Folder::with("book.csv", hostile);
    let ran = folder.run(&["book.csv", "--format", "csv"]);
    let mut rows = ran.out.lines();
    assert!(rows.next().unwrap().starts_with("dish,recipe,portion_qty,portion_unit,portion_cost,menu_price,"));
    let name = r#""'@SUM(1,""x"")""#;
    assert!(rows.next().unwrap().starts_with(&format!("{name},{name},1,portion,0.125,2,6.25,30,")), "{ran:#?}");
    for args in [&["book.csv"][..], &["check", "book.csv"]] {
        let ran = folder.run(args);
        assert!(!format!("{}{}", ran.out, ran.err).contains([ESCAPE, '\u{202E}']), "{ran:#?}");
    }
}

/// A title, a cleared screen, a one-byte introducer, a turned line: what a terminal obeys, in a name and where a number
/// belongs.
const STEERING: &str = "Short\u{1b}]0;x\u{7}\u{1b}[2J\u{9b}31m\u{7f}\u{202E}\u{2066}bread";
const SPELLED: &str = r"Short\u{1b}]0;x\u{7}\u{1b}[2J\u{9b}31m\u{7f}\u{202e}\u{2066}bread";

fn steering_book() -> Folder {
    let book = BOOK.replace("Shortbread", STEERING).replace("Butter,8,", &format!("Butter,\"{STEERING}\","));
    Folder::with("book.csv", book)
}

/// What no report may hold: all that steers but line breaks.
fn steers(text: &str) -> bool {
    text.contains(|c: char| c.is_control() && c != '\n' || ('\u{202A}'..='\u{202E}').contains(&c) || c == '\u{2066}')
}

#[test]
fn what_would_steer_a_terminal_is_shown_as_what_it_is() {
    let folder = steering_book();
    for args in
        [&["book.csv"][..], &["check", "book.csv"], &["trim", "book.csv"], &["trim", "book.csv", "--vary", STEERING]]
    {
        let ran = folder.run(args);
        assert!(!steers(&format!("{}{}", ran.out, ran.err)), "{ran:#?}");
    }
    let ran = folder.run(&["check", "book.csv"]).ends(1);
    assert!(ran.out.contains(SPELLED), "{ran:#?}");
    // The names of files, and words on the command line.
    folder.run(&["check", "a\u{1b}[2Jb.csv"]).ends(2).complains_of(&[r"there is no file a\u{1b}[2Jb.csv"]);
    let ran = folder.run(&["check", "book.csv", "--a\u{1b}]0;b"]).ends(2).complains_of(&[r"--a\u{1b}]0;b"]);
    assert!(!steers(&ran.err), "{ran:#?}");
}

#[test]
fn csv_and_json_are_whole_byte_for_byte() {
    let folder = steering_book();
    for args in
        [&["--format", "csv"][..], &["--format", "csv", "--color", "never"], &["--format", "csv", "--color", "always"]]
    {
        let ran = folder.run(&[&["book.csv"], args].concat()).ends(1);
        // The header and two dishes; the name bears every byte that was typed.
        assert_eq!(ran.out.lines().count(), 3, "{ran:#?}");
        assert!(ran.out.lines().nth(2).unwrap().starts_with(&format!("{STEERING},{STEERING},1,each,")), "{ran:#?}");
    }
    let ran = folder.run(&["book.csv", "--format", "json"]).ends(1);
    assert!(!steers(&ran.out), "{ran:#?}");
    let json: Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(json["dishes"][1]["name"], STEERING);
}

#[test]
fn a_figure_below_zero_stays_a_figure_in_csv() {
    let folder = Folder::with("book.csv", BOOK.replace("$0.50", "$0.25"));
    let ran = folder.run(&["book.csv", "--format", "csv"]).ends(0);
    // 0.25 − 0.3125.
    assert!(ran.out.contains(",-0.0625,over target,") && ran.out.contains(",USD,2026-11-20"), "{ran:#?}");
}

#[test]
fn colour_is_for_terminals_unless_asked_for() {
    let folder = broken();
    let colored = |args: &[&str], environment: &[(&str, &str)]| {
        let mut command = folder.command(&[&["cost", "book.csv", "--force"], args].concat());
        let ran = Ran::of(command.envs(environment.iter().copied()).output().unwrap()).ends(1);
        (ran.out.contains(ESCAPE), ran.err.contains(ESCAPE))
    };
    let (plain, both) = ((false, false), (true, true));
    assert_eq!(colored(&[], &[]), plain);
    assert_eq!(colored(&["--color", "always"], &[]), both);
    assert_eq!(colored(&["--color", "never"], &[("CLICOLOR_FORCE", "1")]), plain);
    // The usual variables speak for `auto` alone: what is asked for on the command line comes first.
    assert_eq!(colored(&[], &[("CLICOLOR_FORCE", "1")]), both);
    assert_eq!(colored(&[], &[("CLICOLOR_FORCE", "1"), ("NO_COLOR", "1")]), plain);
    assert_eq!(colored(&["--color", "always"], &[("NO_COLOR", "1")]), both);
    assert_eq!(colored(&["--format", "json", "--color", "always"], &[]), (false, true));
}

#[test]
fn nobody_reading_is_no_fault() {
    let folder = Folder::with("book.csv", BOOK);
    let many: String = (0..1_500)
        .map(|n| format!("\nRecipe,Roll {n}\nPortions,1\nMenu price,$2\nIngredient,Qty,Unit,Basis\nFlour,1,lb,AP\n"))
        .collect();
    folder.put("many.csv", format!("{BOOK}{many}"));
    let unread = |mut command: Command| {
        let mut child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
        drop(child.stdout.take());
        Ran::of(child.wait_with_output().unwrap()).ends(0)
    };
    // More than a pipe holds, so that writing must meet the closed end.
    let ran = unread(folder.command(&["cost", "many.csv"]));
    assert!(ran.err.contains("Wrote many.costed.xlsx") && !ran.err.contains("error"), "{ran:#?}");
    for args in [&["check", "many.csv"][..], &["--help"], &["completions", "bash"], &["man"]] {
        let ran = unread(folder.command(args));
        assert_eq!(ran.err, "", "{args:?}");
    }
    // Nobody reads what is said beside the results either.
    let mut child = folder.command(&["cost", "book.csv"]).stdout(Stdio::null()).stderr(Stdio::piped()).spawn().unwrap();
    drop(child.stderr.take());
    assert_eq!(child.wait().unwrap().code(), Some(0));
}

/// A full disk, and a stream that is open for reading alone, which the language's own takes for written to.
#[cfg(target_os = "linux")]
#[test]
fn results_that_are_lost_are_told() {
    let folder = Folder::with("book.csv", BOOK);
    let full = || std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let read_only = || std::fs::File::open(folder.path("book.csv")).unwrap();
    for args in [
        &["check", "book.csv"][..],
        &["cost", "book.csv", "--force"],
        &["check", "book.csv", "--format", "json"],
        &["food", "onion", "--format", "csv"],
        &["--help"],
        &["cost", "--help"],
        &["--version"],
        &["man"],
    ] {
        for (out, why) in [(full(), "the disk is full"), (read_only(), "send them to a file")] {
            let ran = Ran::of(folder.command(args).stdout(out).output().unwrap());
            ran.ends(2).complains_of(&["error: the results could not be printed", why]);
        }
        // What is thrown away on purpose is not lost.
        let ran = Ran::of(folder.command(args).stdout(Stdio::null()).output().unwrap());
        assert!(!ran.ends(0).err.contains("printed"));
    }
}
