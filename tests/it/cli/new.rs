//! `new`: which file it writes under which name, and that it never writes over one that is there.

use std::fs;

use super::{BOOK, Folder};

fn template(name: &str) -> Vec<u8> {
    fs::read(format!("{}/templates/{name}", env!("CARGO_MANIFEST_DIR"))).unwrap()
}

#[test]
fn each_template_is_handed_out_as_it_is() {
    let folder = Folder::with("a note.txt", "");
    for (flags, from) in [
        (&[][..], "us.xlsx"),
        (&["--plain"][..], "us-plain.xlsx"),
        (&["--bench"][..], "us-bench.xlsx"),
        // The form has no example to leave out.
        (&["--bench", "--plain"][..], "us-bench.xlsx"),
        (&["--metric"][..], "metric.xlsx"),
        (&["--metric", "--plain"][..], "metric-plain.xlsx"),
        (&["--metric", "--bench"][..], "metric-bench.xlsx"),
    ] {
        let ran = folder.run(&[&["new", "kitchen", "--force"], flags].concat()).ends(0);
        assert!(folder.bytes("kitchen.xlsx") == template(from), "{flags:?}");
        ran.complains_of(&["Wrote kitchen.xlsx\n", "Next: ", "parings cost "]);
    }
    assert_eq!(folder.names(), ["a note.txt", "kitchen.xlsx"]);
}

#[test]
fn a_new_book_can_be_costed_at_once() {
    let folder = Folder::with("a note.txt", "");
    folder.run(&["new", "my kitchen.XLSX"]).ends(0).complains_of(&["parings cost \"my kitchen.XLSX\""]);
    let ran = folder.run(&["cost", "my kitchen.XLSX"]).ends(0);
    assert!(ran.out.contains("3 dishes."), "{ran:#?}");
    folder.run(&["new", "empty", "--plain", "--quiet"]).ends(0).complains_of(&[""]);
    let ran = folder.run(&["empty.xlsx"]).ends(0);
    assert!(ran.out.starts_with("Nothing to cost yet: fill in Prices"), "{ran:#?}");
    let ran = folder.run(&["check", "empty.xlsx"]).ends(0);
    for words in ["prices, no rows yet", "an empty recipe card"] {
        assert!(ran.out.contains(words), "{ran:#?}");
    }
}

#[test]
fn what_is_there_is_not_written_over() {
    let folder = Folder::with("kitchen.xlsx", BOOK);
    let ran = folder.run(&["new", "kitchen"]).ends(2).complains_of(&["kitchen.xlsx is there already", "--force"]);
    assert_eq!(ran.out, "");
    assert_eq!(folder.bytes("kitchen.xlsx"), BOOK.as_bytes());
    // Not even a costed workbook of our own, which `cost` would write over.
    folder.run(&["cost", "kitchen.xlsx", "-o", "ours.xlsx"]).ends(0);
    let ours = folder.bytes("ours.xlsx");
    folder.run(&["new", "ours.xlsx"]).ends(2).complains_of(&["--force"]);
    assert!(folder.bytes("ours.xlsx") == ours);
    folder.run(&["new", "ours.xlsx", "--force"]).ends(0);
    assert!(folder.bytes("ours.xlsx") == template("us.xlsx"));
}

#[test]
fn a_name_that_is_no_workbook_is_refused_with_one_that_is() {
    let folder = Folder::with("kitchen.csv", BOOK);
    fs::create_dir(folder.path("books")).unwrap();
    for (name, words) in [
        ("kitchen.csv", "try kitchen.xlsx"),
        ("menu.ods", "try menu.xlsx"),
        ("kitchen.", "try kitchen.xlsx"),
        ("books", "books is a folder"),
        ("nowhere/kitchen", "there is no folder nowhere"),
    ] {
        folder.run(&["new", name, "--force"]).ends(2).complains_of(&[words]);
    }
    folder.run(&["new"]).ends(2).complains_of(&["FILE"]);
    assert_eq!(folder.names(), ["books", "kitchen.csv"]);
    folder.run(&["new", "books/kitchen"]).ends(0);
    assert!(folder.bytes("books/kitchen.xlsx") == template("us.xlsx"));
}
