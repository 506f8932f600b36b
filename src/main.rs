//! The `parings` command.
fn main() {}
