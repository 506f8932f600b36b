//! The exit status: 0 done, 1 the book has errors, 2 could not run; and that a run that fails leaves nothing behind.

use super::{BOOK, BROKEN, Folder};

#[test]
fn a_sound_book_ends_well() {
    let folder = Folder::with("book.csv", BOOK);
    folder.run(&["check", "book.csv"]).ends(0);
    assert_eq!(folder.names(), ["book.csv"]);
    folder.run(&["cost", "book.csv"]).ends(0);
    assert_eq!(folder.names(), ["book.costed.xlsx", "book.csv"]);
}

#[test]
fn a_book_alone_is_costed() {
    let folder = Folder::with("book.csv", BOOK);
    let ran = folder.run(&["book.csv"]).ends(0).complains_of(&["Wrote book.costed.xlsx"]);
    assert!(ran.out.contains("Shortbread"), "{ran:#?}");
    folder.run(&["--format", "json", "book.csv"]).ends(0);
    folder.run(&["book.csv", "-o", "out.xlsx"]).ends(0);
    assert_eq!(folder.names(), ["book.costed.xlsx", "book.csv", "out.xlsx"]);
}

#[test]
fn several_files_are_one_book() {
    let (prices, recipes) = BOOK.split_once("Recipe,").unwrap();
    let folder = Folder::with("prices.csv", prices);
    folder.put("recipes.csv", format!("Recipe,{recipes}"));
    let ran = folder.run(&["recipes.csv", "prices.csv"]).ends(0);
    assert!(ran.out.contains("2 dishes"), "{ran:#?}");
    assert_eq!(folder.names(), ["prices.csv", "recipes.costed.xlsx", "recipes.csv"]);
}

#[test]
fn a_command_wins_over_a_file_of_its_name() {
    let folder = Folder::with("check", BOOK);
    folder.run(&["check"]).ends(2).complains_of(&["BOOK"]);
    folder.run(&["./check", "--format", "csv"]).ends(0);
    folder.run(&["--quiet", "check", "./check"]).ends(0);
}

#[test]
fn errors_in_the_book_end_in_one_and_the_rest_is_costed_and_written() {
    let folder = Folder::with("book.csv", format!("{BOOK}{BROKEN}"));
    folder.run(&["check", "book.csv"]).ends(1);
    let ran = folder.run(&["cost", "book.csv"]).ends(1).complains_of(&["error: ", "Saffron"]);
    assert!(ran.out.contains("not costed") && ran.out.contains("62.5"), "{ran:#?}");
    assert_eq!(folder.names(), ["book.costed.xlsx", "book.csv"]);
}

#[test]
fn warnings_and_notes_end_well() {
    let old = BOOK.replace("Item,Pack,Price", "Item,Pack,Price,Date").replace("$4.00", "$4.00,2026-01-02");
    let folder = Folder::with("book.csv", old);
    folder.run(&["cost", "book.csv"]).ends(0).complains_of(&["price-old"]);
}

#[test]
fn what_cannot_be_read_ends_in_two() {
    let folder = Folder::with("book.csv", BOOK);
    folder.put("menu.xlsx", b"%PDF-1.7 menu of the day");
    folder.put("cut.xlsx", b"PK\x03\x04 and no more");
    folder.put("empty.csv", "");
    folder.put("letter.txt", "Dear cook,\nplease peel the shrimp.\n");
    std::fs::create_dir(folder.path("books")).unwrap();
    let before = folder.names();
    for (file, word) in [
        ("nothing.xlsx", "there is no file nothing.xlsx"),
        ("no-folder/nothing.xlsx", "there is no file"),
        ("*.csv", "give each file by its name"),
        ("books", "is a folder"),
        ("menu.xlsx", "a PDF"),
        ("cut.xlsx", "damaged"),
        ("empty.csv", "is empty"),
        ("letter.txt", "no table that parings knows"),
    ] {
        folder.run(&["cost", file]).ends(2).complains_of(&["error: ", word]);
        folder.run(&["check", file]).ends(2).complains_of(&["error: ", word]);
    }
    // One bad file among good ones, and a good one twice, by another name.
    folder.run(&["book.csv", "menu.xlsx"]).ends(2).complains_of(&["a PDF"]);
    folder.run(&["book.csv", "./book.csv"]).ends(2).complains_of(&["one file"]);
    assert_eq!(folder.names(), before);
}

#[cfg(unix)]
#[test]
fn a_file_that_may_not_be_opened_ends_in_two() {
    use std::os::unix::fs::PermissionsExt;
    let folder = Folder::with("book.csv", BOOK);
    std::fs::set_permissions(folder.path("book.csv"), std::fs::Permissions::from_mode(0o000)).unwrap();
    // The superuser may open everything.
    if std::fs::File::open(folder.path("book.csv")).is_err() {
        folder.run(&["book.csv"]).ends(2).complains_of(&["book.csv could not be read"]);
    }
}

#[cfg(unix)]
#[test]
fn a_book_may_come_through_a_pipe() {
    use std::io::Write;
    use std::process::Stdio;
    let folder = Folder::with("other.csv", BOOK);
    let mut command = folder.command(&["--format", "json", "/dev/stdin"]);
    let mut child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
    child.stdin.take().unwrap().write_all(BOOK.as_bytes()).unwrap();
    let ran = super::Ran::of(child.wait_with_output().unwrap()).ends(0);
    assert!(ran.out.contains("Shortbread"), "{ran:#?}");
}

#[test]
fn wrong_use_ends_in_two_and_help_in_zero() {
    let folder = Folder::with("book.csv", BOOK);
    let before = folder.names();
    for args in [
        &[][..],
        &["cost"],
        &["--sideways", "book.csv"],
        &["cost", "book.csv", "--format", "pdf"],
        &["cost", "book.csv", "--as-of", "2026-02-30"],
        &["cost", "book.csv", "--as-of", "20.11.2026"],
        &["cost", "book.csv", "--as-of", "20261120"],
        &["-o", "out.xlsx", "cost", "book.csv"],
        &["cost", "book.csv", "-o", "out.csv"],
        &["cost", "book.csv", "-o", "no-folder/out.xlsx"],
        &["completions", "abacus"],
    ] {
        let ran = folder.run(args).ends(2);
        assert!(ran.out.is_empty() && !ran.err.is_empty(), "{args:?} {ran:#?}");
    }
    folder.run(&["cots"]).ends(2).complains_of(&["no file cots", "--help"]);
    for args in [&["--help"][..], &["help", "cost"], &["--version"]] {
        let ran = folder.run(args).ends(0);
        assert!(!ran.out.is_empty() && ran.err.is_empty(), "{args:?} {ran:#?}");
    }
    assert_eq!(folder.names(), before);
}

#[test]
fn every_command_shows_an_example() {
    let folder = Folder::with("book.csv", BOOK);
    for command in ["check", "cost", "explain", "completions", "man"] {
        let ran = folder.run(&[command, "--help"]).ends(0);
        assert!(ran.out.contains(&format!("  parings {command}")), "{ran:#?}");
    }
}

#[test]
fn completions_and_the_manual_page_know_the_commands() {
    let folder = Folder::with("book.csv", BOOK);
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let ran = folder.run(&["completions", shell]).ends(0);
        assert!(ran.out.contains("check") && ran.out.contains("as-of"), "{shell}");
    }
    let ran = folder.run(&["man"]).ends(0);
    assert!(ran.out.contains(".TH parings 1") && ran.out.contains("parings\\-check(1)"), "{ran:#?}");
}

/// A script whose variable is empty hears so in words of ours.
#[test]
fn an_empty_argument_is_told() {
    let folder = Folder::with("book.csv", BOOK);
    for args in [
        &["check", ""][..],
        &["cost", "book.csv", "-o", ""],
        &["check", "book.csv", "--missing", ""],
        &["reprice", "book.csv", "--prices", ""],
        &["new", ""],
    ] {
        folder.run(args).ends(2).complains_of(&["error: an argument is empty"]);
    }
    folder.run(&["cost", "book.csv", "-o", ".xlsx"]).ends(2).complains_of(&[".xlsx must have a name and end in .xlsx"]);
    folder.run(&["why", "book.csv", ""]).ends(2).complains_of(&["a name to ask about is empty"]);
    folder.run(&["explain", ""]).ends(2).complains_of(&["no problem code “”"]);
    folder.run(&["check", "book.csv", "--format", ""]).ends(2).complains_of(&["table, json, csv"]);
    assert_eq!(folder.names(), ["book.csv"]);
}
