//! The command line: files in, files and text out, and the exit status.
//!
//! The only place that opens files, looks at the clock, or knows of a terminal. Everything else is the library's:
//! [`read`](crate::read), [`cost`](crate::cost), [`write`](crate::write) and the reports.

mod args;
mod commands;
mod exit;
mod faults;
pub(crate) mod flags;
mod half_written;
mod inputs;
mod new_book;
mod output;
mod progress;
mod signals;
mod stop;
mod terminal;
mod untouched;

use std::ffi::OsString;
use std::process::ExitCode;

use clap::Parser;
use clap::error::{ContextKind, ContextValue, ErrorKind};

use args::{Args, Color};
use exit::Exit;
use stop::Stop;
use terminal::Terminal;

use crate::output::text::printable;

/// Whether a file or a name is wanted where nothing is: the parser says that none was given.
fn is_of_an_empty_one(message: &clap::Error) -> bool {
    let one_of = message.get(ContextKind::ValidValue).is_some_and(|values| match values {
        ContextValue::Strings(values) => !values.is_empty(),
        _ => true,
    });
    message.kind() == ErrorKind::InvalidValue && !one_of
}

/// Runs the command that `args` ask for, the program's own name first, and gives its exit status.
pub fn run(args: impl IntoIterator<Item = OsString>) -> ExitCode {
    faults::tell_plainly();
    signals::meet_limits();
    let args: Vec<OsString> = args.into_iter().collect();
    let args = match Args::try_parse_from(&args) {
        Ok(args) => args,
        Err(message) => {
            // A word that would steer the terminal is complained of as it is shown.
            let shown = args.iter().map(|word| printable(&word.to_string_lossy()));
            let message = Args::try_parse_from(shown).err().unwrap_or(message);
            if is_of_an_empty_one(&message) && args.iter().any(|word| word.is_empty()) {
                Terminal::new(Color::Auto, false).stopped(&Stop::EmptyArgument);
                return Exit::CouldNotRun.into();
            }
            // Help and version are results; anything else is a fault of use.
            if message.use_stderr() {
                // Nobody is left to be told when it cannot be written.
                let _ = message.print();
                return Exit::CouldNotRun.into();
            }
            let terminal = Terminal::new(Color::Auto, false);
            return ended(terminal.help(&message.render().ansi().to_string()).map(|()| Exit::Done), &terminal);
        }
    };
    let terminal = Terminal::new(args.common.color, args.common.quiet);
    ended(commands::run(&args, &terminal), &terminal)
}

/// The exit status of a run, which says why where it stopped.
fn ended(ran: Result<Exit, Stop>, terminal: &Terminal) -> ExitCode {
    let exit = ran.unwrap_or_else(|stop| {
        terminal.stopped(&stop);
        Exit::CouldNotRun
    });
    exit.into()
}
