//! Pages for people: README, DEVELOPERS and `docs` keep their word. Their commands run and print what is shown, their
//! books cost what is worked out by hand, their lists are those of the code, and their links and paths lead somewhere.

mod commands;
mod evening;
mod example;
mod links;
mod lists;
mod make_problems;
pub mod pages;

/// The page is what its program makes of the explanations.
#[test]
fn the_committed_page_of_problems_is_what_is_made() {
    let committed = pages::read("docs/problems.md");
    assert!(committed == make_problems::page(), "run `cargo run --example make-problems`: docs/problems.md differs");
}
