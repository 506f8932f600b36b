//! The two streams: results on standard output, everything else on standard error.
//!
//! The one door for text: what a terminal would obey instead of showing never leaves here but the colours of ours. JSON
//! and csv are for programs and leave byte for byte; where a terminal reads them, they are shown as the reports are.

use std::borrow::Cow;
use std::fs::File;
use std::io::{self, IsTerminal, Write};

use anstream::{AutoStream, ColorChoice};
use terminal_size::{Width, terminal_size_of};

use super::args::{Color, Format};
use super::progress::Progress;
use super::stop::Stop;
use crate::output::steering::spelled_out;
use crate::output::text::{Emphasis, View, WIDEST, printable};

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

    /// Prints results: a report to read, or text for another program.
    ///
    /// # Errors
    /// [`Stop::Unprintable`] when the stream cannot be written, as on a full disk. A reader that has gone away
    /// (`| head`) is no fault.
    pub fn results(&self, format: Format, text: &str) -> Result<(), Stop> {
        match format {
            Format::Table => self.printed(&shown(text)),
            Format::Json | Format::Csv => self.data(text.as_bytes()),
        }
    }

    /// Prints what the command says of itself, in the inks of its parser.
    ///
    /// # Errors
    /// As [`Terminal::results`].
    pub fn help(&self, styled: &str) -> Result<(), Stop> {
        self.printed(styled)
    }

    /// Prints text for another program, byte for byte; where a terminal stands in its place, as a report is shown.
    ///
    /// # Errors
    /// As [`Terminal::results`].
    pub fn data(&self, bytes: &[u8]) -> Result<(), Stop> {
        let out = io::stdout();
        if out.is_terminal() {
            written(out.lock(), shown_whole(&String::from_utf8_lossy(bytes)).as_bytes())
        } else {
            written(system_file(&out)?, bytes)
        }
    }

    /// Prints text with inks, which go where they are not wanted.
    fn printed(&self, text: &str) -> Result<(), Stop> {
        let out = io::stdout();
        if out.is_terminal() {
            written(AutoStream::new(out, self.out).lock(), text.as_bytes())
        } else {
            written(AutoStream::new(system_file(&out)?, self.out), text.as_bytes())
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
        self.say(&format!("{} {}\n", Emphasis::Bad.on("error:", self.notes_view()), printable(&stop.to_string())));
    }

    /// A line that shows what a long run is doing, on a terminal only.
    pub fn progress(&self) -> Progress {
        Progress::new(!self.quiet && io::stderr().is_terminal())
    }

    /// Nobody is left to be told when standard error cannot be written.
    fn say(&self, text: &str) {
        let mut err = AutoStream::new(io::stderr(), self.err).lock();
        let _ = err.write_all(shown(text).as_bytes()).and_then(|()| err.flush());
    }
}

/// As wide as the terminal, within what reports are laid out for; the widest where there is none.
fn columns(size: Option<(Width, terminal_size::Height)>) -> usize {
    size.map_or(WIDEST, |(Width(width), _)| usize::from(width).clamp(NARROWEST, WIDEST))
}

/// Writes all of it. A reader that has gone away is no fault.
fn written(mut out: impl Write, bytes: &[u8]) -> Result<(), Stop> {
    match out.write_all(bytes).and_then(|()| out.flush()) {
        Err(source) if source.kind() != io::ErrorKind::BrokenPipe => Err(Stop::Unprintable { source }),
        _ => Ok(()),
    }
}

/// The file that standard output is: the language's stream takes it for success where the system refuses all that is
/// written, as one that is open for reading alone does.
fn system_file(out: &io::Stdout) -> Result<File, Stop> {
    #[cfg(unix)]
    let own = std::os::fd::AsFd::as_fd(out).try_clone_to_owned();
    #[cfg(windows)]
    let own = std::os::windows::io::AsHandle::as_handle(out).try_clone_to_owned();
    own.map(File::from).map_err(|source| Stop::Unprintable { source })
}

/// A report without what steers a terminal but its line breaks and our inks.
fn shown(report: &str) -> String {
    let mut shown = String::with_capacity(report.len());
    let mut rest = report;
    while let Some(at) = rest.find(Emphasis::ESCAPE) {
        let (before, from) = rest.split_at(at);
        shown.push_str(&shown_whole(before));
        let ink = Emphasis::leading(from).unwrap_or_default();
        shown.push_str(ink);
        let behind = from.strip_prefix(ink).unwrap_or(from);
        rest = if ink.is_empty() {
            shown.push_str(&shown_whole(Emphasis::ESCAPE));
            behind.strip_prefix(Emphasis::ESCAPE).unwrap_or_default()
        } else {
            behind
        };
    }
    shown.push_str(&shown_whole(rest));
    shown
}

/// Text of lines without anything else that steers a terminal.
fn shown_whole(text: &str) -> Cow<'_, str> {
    spelled_out(text, &['\n', '\t'])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_our_inks_and_line_breaks_reach_a_terminal() {
        let view = View { color: true, ..View::default() };
        let ours = format!("{}\n", Emphasis::Bad.on("error:", view));
        assert_eq!(shown(&ours), ours);
        // Of another's colour, a title, a cleared screen and a cut one nothing is obeyed.
        assert_eq!(
            shown("a\u{1b}[45mb\u{1b}]0;c\u{7}\u{1b}[2J\u{9b}2J\r\u{1b}"),
            r"a\u{1b}[45mb\u{1b}]0;c\u{7}\u{1b}[2J\u{9b}2J\u{d}\u{1b}"
        );
        assert_eq!(shown_whole("name\n\"a\u{1b}[31m\tb\u{202e}\"\n"), "name\n\"a\\u{1b}[31m\tb\\u{202e}\"\n");
    }
}
