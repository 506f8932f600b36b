//! `page`: where it goes, and what is said where the program was built without it.

use super::Folder;

#[test]
fn the_page_is_written_or_it_is_said_how_to_make_it() {
    let folder = Folder::with("kitchen.html", "mine");
    if cfg!(feature = "page") {
        folder.run(&["page"]).ends(0).complains_of(&["Wrote parings.html\n", "open it in a browser"]);
        assert!(folder.bytes("parings.html").starts_with(b"<!doctype html>"));
        folder.run(&["page", "kitchen"]).ends(2).complains_of(&["kitchen.html is there already", "--force"]);
    } else {
        let words = ["built without the page", "cargo run --example make-page"];
        folder.run(&["page"]).ends(2).complains_of(&words);
        folder.run(&["page", "kitchen.html", "--force"]).ends(2).complains_of(&words);
        assert_eq!(folder.names(), ["kitchen.html"]);
    }
    assert_eq!(folder.bytes("kitchen.html"), b"mine");
    folder.run(&["page", "kitchen.xlsx"]).ends(2).complains_of(&["name it kitchen.html"]);
}
