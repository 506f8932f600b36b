//! The `parings` command: hands its arguments to the command line of the library.

use std::process::ExitCode;

fn main() -> ExitCode {
    parings::cli::run(std::env::args_os())
}
