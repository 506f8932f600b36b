//! The two streams: results on standard output, everything else on standard error.

use std::io::{self, IsTerminal, Write};

use anstream::{AutoStream, ColorChoice};
use terminal_size::{Width, terminal_size_of};

use super::args::Color;
use super::progress::Progress;
use super::stop::Stop;
use crate::output::text::{Ink, View, WIDEST, printable};

/// The narrowest terminal that reports are laid out for.
const NARROWEST: usize = 60;

/// Where a run prints, and how.
#[derive(Debug)]
pub struct Terminal {
    quiet: bool,
    out: ColorChoice,
    err: ColorChoice,
}

impl Terminal {
    /// The standard streams, coloured as asked; `auto` looks at each stream and at `NO_COLOR`.
    pub fn new(color: Color, quiet: bool) -> Self {
        let (out, err) = match color {
            Color::Always => (ColorChoice::Always, ColorChoice::Always),
            Color::Never => (ColorChoice::Never, ColorChoice::Never),
            Color::Auto => (AutoStream::choice(&io::stdout()), AutoStream::choice(&io::stderr())),
        };
        Terminal { quiet, out, err }
    }

    /// How results are shown.
    pub fn results_view(&self) -> View {
        View { width: columns(terminal_size_of(io::stdout())), color: self.out != ColorChoice::Never }
    }

    /// How notes are shown.
    pub fn notes_view(&self) -> View {
        View { width: columns(terminal_size_of(io::stderr())), color: self.err != ColorChoice::Never }
    }

    /// Prints results. A reader that has gone away (`| head`) is no fault.
    ///
    /// # Errors
    /// [`Stop::Unprintable`] when the stream cannot be written otherwise, as on a full disk.
    pub fn results(&self, text: &[u8]) -> Result<(), Stop> {
        let mut out = AutoStream::new(io::stdout(), self.out).lock();
        match out.write_all(text).and_then(|()| out.flush()) {
            Err(source) if source.kind() != io::ErrorKind::BrokenPipe => Err(Stop::Unprintable { source }),
            _ => Ok(()),
        }
    }

    /// Prints problems, of which a quiet run leaves out the notes before.
    pub fn problems(&self, text: &str) {
        self.say(text);
    }

    /// Prints remarks, unless the run is to be quiet.
    pub fn notes(&self, text: &str) {
        if !self.quiet {
            self.say(text);
        }
    }

    /// Prints why the run ended, quiet or not.
    pub fn stopped(&self, stop: &Stop) {
        self.say(&format!("{} {}\n", Ink::Bad.on("error:", self.notes_view()), printable(&stop.to_string())));
    }

    /// A line that shows what a long run is doing, on a terminal only.
    pub fn progress(&self) -> Progress {
        Progress::new(!self.quiet && io::stderr().is_terminal())
    }

    /// Nobody is left to be told when standard error cannot be written.
    fn say(&self, text: &str) {
        let mut err = AutoStream::new(io::stderr(), self.err).lock();
        let _ = err.write_all(text.as_bytes()).and_then(|()| err.flush());
    }
}

/// As wide as the terminal, within what reports are laid out for; the widest where there is none.
fn columns(size: Option<(Width, terminal_size::Height)>) -> usize {
    size.map_or(WIDEST, |(Width(width), _)| usize::from(width).clamp(NARROWEST, WIDEST))
}
