//! Which files may be written over: never one that is read, ours while nobody has touched it, others by force.

use std::fs;
use std::io::{Cursor, Read, Write};

use zip::write::SimpleFileOptions;
use zip::{ZipArchive, ZipWriter};

use super::{BOOK, Folder};

/// The workbook with `from` in one of its parts replaced, as a program that saves it would.
fn resaved(workbook: &[u8], part: &str, from: &str, to: &str) -> Vec<u8> {
    let mut old = ZipArchive::new(Cursor::new(workbook)).unwrap();
    let mut new = ZipWriter::new(Cursor::new(Vec::new()));
    for at in 0..old.len() {
        let mut entry = old.by_index(at).unwrap();
        let name = entry.name().unwrap().into_owned();
        let mut bytes = Vec::new();
        entry.read_to_end(&mut bytes).unwrap();
        if name == part {
            let text = String::from_utf8(bytes).unwrap();
            assert!(text.contains(from), "no “{from}” in {text}");
            bytes = text.replacen(from, to, 1).into_bytes();
        }
        new.start_file(name, SimpleFileOptions::default()).unwrap();
        new.write_all(&bytes).unwrap();
    }
    new.finish().unwrap().into_inner()
}

#[test]
fn our_own_untouched_workbook_is_written_over() {
    let folder = Folder::with("book.csv", BOOK);
    folder.run(&["book.csv"]).ends(0);
    folder.put("book.csv", BOOK.replace("$4.00", "$8.00"));
    let before = folder.bytes("book.costed.xlsx");
    folder.run(&["book.csv"]).ends(0);
    assert!(folder.bytes("book.costed.xlsx") != before);
    // The same holds for a name that was asked for, and nothing is left beside it.
    folder.run(&["book.csv", "-o", "book.costed.xlsx"]).ends(0);
    assert_eq!(folder.names(), ["book.costed.xlsx", "book.csv"]);
}

#[test]
fn what_is_missing_is_never_written_over_a_book_or_what_was_filled_in() {
    let lacking = "Item,Pack,Price\nLeeks,6/5,$30.00\n\nRecipe,Soup\nPortions,4\nIngredient,Qty,Unit\nLeeks,3,lb\n";
    let folder = Folder::with("book.csv", lacking);
    folder.run(&["check", "book.csv", "--missing", "book.csv"]).ends(2).complains_of(&["--missing", ".xlsx"]);
    folder
        .run(&["check", "book.csv", "--missing", "fill-in.xlsx"])
        .ends(1)
        .complains_of(&["Wrote fill-in.xlsx", "parings cost book.csv fill-in.xlsx"]);
    folder.run(&["check", "book.csv", "fill-in.xlsx", "--missing", "fill-in.xlsx", "--force"]).ends(2);
    // Untouched it is written again; once it is filled in it is kept.
    folder.run(&["check", "book.csv", "--missing", "fill-in.xlsx"]).ends(1);
    let core = ("docProps/core.xml", "</dcterms:modified>", "0</dcterms:modified>");
    let saved = resaved(&folder.bytes("fill-in.xlsx"), core.0, core.1, core.2);
    folder.put("fill-in.xlsx", &saved);
    folder.run(&["check", "book.csv", "--missing", "fill-in.xlsx"]).ends(2).complains_of(&["--force", "--missing"]);
    assert!(folder.bytes("fill-in.xlsx") == saved);
    folder.run(&["check", "book.csv", "--missing", "fill-in.xlsx", "--force"]).ends(1);
    assert!(folder.bytes("fill-in.xlsx") != saved);
    // Nothing to ask, nothing written.
    folder.put("book.csv", lacking.replace("6/5", "6/5 lb"));
    folder.run(&["check", "book.csv", "--missing", "other.xlsx"]).ends(0).complains_of(&["Nothing is missing"]);
    assert!(!folder.names().contains(&"other.xlsx".to_owned()));
}

#[test]
fn a_workbook_that_was_saved_since_is_kept() {
    let folder = Folder::with("book.csv", BOOK);
    folder.run(&["book.csv"]).ends(0);
    let ours = folder.bytes("book.costed.xlsx");
    for (part, from, to) in [
        ("docProps/core.xml", "</dcterms:modified>", "0</dcterms:modified>"),
        ("docProps/app.xml", "<Application>", "<Application>Not "),
        ("docProps/app.xml", "<AppVersion>12.0000", "<AppVersion>16.0300"),
        ("docProps/custom.xml", "name=\"parings\"", "name=\"parsley\""),
    ] {
        let saved = resaved(&ours, part, from, to);
        folder.put("book.costed.xlsx", &saved);
        folder.run(&["book.csv"]).ends(2).complains_of(&["book.costed.xlsx is there already", "--force", "-o"]);
        folder.run(&["book.csv", "--format", "json", "-o", "book.costed.xlsx"]).ends(2);
        assert!(folder.bytes("book.costed.xlsx") == saved, "{part}");
    }
    folder.run(&["book.csv", "--force"]).ends(0);
    folder.run(&["book.csv"]).ends(0);
    // Only zipped anew, with every part as it was: still ours.
    folder.put("book.costed.xlsx", resaved(&ours, "docProps/core.xml", "dcterms", "dcterms"));
    folder.run(&["book.csv"]).ends(0);
}

#[test]
fn a_file_of_someone_else_is_kept_and_nothing_is_done_first() {
    let folder = Folder::with("book.csv", BOOK);
    folder.put("book.costed.xlsx", "my notes");
    let ran = folder.run(&["book.csv"]).ends(2).complains_of(&["--force", "-o"]);
    assert_eq!(ran.out, "");
    assert_eq!(folder.bytes("book.costed.xlsx"), b"my notes");
    assert_eq!(folder.names(), ["book.costed.xlsx", "book.csv"]);
    folder.run(&["book.csv", "--force"]).ends(0);
    assert!(folder.bytes("book.costed.xlsx") != b"my notes");
}

#[test]
fn a_book_that_is_read_is_never_written() {
    // A book is known by what it holds, not by its name: text in a file called .xlsx is read as text.
    let folder = Folder::with("book.xlsx", BOOK);
    folder.put("second.xlsx", "Dish,Target\nButter roll,28%\n");
    fs::hard_link(folder.path("book.xlsx"), folder.path("linked.xlsx")).unwrap();
    let before = folder.names();
    for out in ["book.xlsx", "./book.xlsx", "linked.xlsx", "second.xlsx"] {
        let ran = folder.run(&["book.xlsx", "second.xlsx", "-o", out, "--force"]).ends(2);
        ran.complains_of(&["is read by this run", "-o"]);
    }
    assert_eq!(folder.bytes("book.xlsx"), BOOK.as_bytes());
    assert_eq!(folder.names(), before);
    folder.run(&["book.xlsx", "second.xlsx"]).ends(0);
    assert_eq!(folder.bytes("book.xlsx"), BOOK.as_bytes());
}

#[cfg(unix)]
#[test]
fn links_are_followed_to_the_file_itself() {
    let folder = Folder::with("book.xlsx", BOOK);
    let link = |to: &str, name: &str| std::os::unix::fs::symlink(folder.path(to), folder.path(name)).unwrap();
    link("book.xlsx", "same.xlsx");
    folder.run(&["book.xlsx", "-o", "same.xlsx", "--force"]).ends(2).complains_of(&["is read by this run"]);
    assert_eq!(folder.bytes("book.xlsx"), BOOK.as_bytes());
    // A link to another file stays a link, and the file behind it is written.
    folder.put("old.xlsx", "old");
    link("old.xlsx", "latest.xlsx");
    folder.run(&["book.xlsx", "-o", "latest.xlsx"]).ends(2).complains_of(&["--force"]);
    folder.run(&["book.xlsx", "-o", "latest.xlsx", "--force"]).ends(0);
    assert!(folder.path("latest.xlsx").is_symlink());
    assert!(folder.bytes("old.xlsx").starts_with(b"PK"));
    link("nowhere.xlsx", "dangling.xlsx");
    folder.run(&["book.xlsx", "-o", "dangling.xlsx", "--force"]).ends(2).complains_of(&["not a file"]);
}

#[test]
fn what_is_no_file_is_not_replaced_even_by_force() {
    let folder = Folder::with("book.csv", BOOK);
    fs::create_dir(folder.path("out.xlsx")).unwrap();
    folder.run(&["book.csv", "-o", "out.xlsx", "--force"]).ends(2).complains_of(&["not a file"]);
    assert!(folder.path("out.xlsx").is_dir());
}

#[test]
fn a_costed_workbook_is_a_book_that_wants_another_name() {
    let folder = Folder::with("book.csv", BOOK);
    folder.run(&["book.csv"]).ends(0);
    let costed = folder.bytes("book.costed.xlsx");
    folder.run(&["book.costed.xlsx"]).ends(2).complains_of(&["book.costed.xlsx is read by this run", "-o"]);
    folder.run(&["book.costed.xlsx", "--force"]).ends(2);
    assert!(folder.bytes("book.costed.xlsx") == costed);
    folder.run(&["book.costed.xlsx", "-o", "again.xlsx"]).ends(0);
    // Beside its own source it would count every row twice.
    let ran = folder.run(&["check", "book.costed.xlsx", "book.csv"]).ends(2);
    ran.complains_of(&["book.costed.xlsx was made from book.csv"]);
}

#[cfg(unix)]
#[test]
fn the_workbook_may_be_read_like_any_new_file() {
    use std::os::unix::fs::PermissionsExt;
    let folder = Folder::with("book.csv", BOOK);
    folder.run(&["book.csv"]).ends(0);
    let mode = |name: &str| fs::metadata(folder.path(name)).unwrap().permissions().mode();
    assert_eq!(mode("book.costed.xlsx"), mode("book.csv"));
}
