//! Pages for people, and that they keep their word.

mod make_problems;

/// The page is what its program makes of the explanations.
#[test]
fn the_committed_page_of_problems_is_what_is_made() {
    let committed = include_str!("../../docs/problems.md");
    assert!(committed == make_problems::page(), "run `cargo run --example make-problems`: docs/problems.md differs");
}
