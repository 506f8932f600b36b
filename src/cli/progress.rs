//! A line on standard error that says what a long run is doing; a short run never shows it.

use std::io::{self, Write};
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

use crate::output::text::printable;

/// How long a run stays silent.
const PATIENCE: Duration = Duration::from_millis(250);

/// The widest line, so that it never wraps.
const WIDEST: usize = 59;

/// The line. It is taken away when this is dropped.
#[derive(Debug)]
pub struct Progress {
    /// The thread that shows it, and the way to tell it what is being done.
    shown: Option<(Sender<String>, JoinHandle<()>)>,
}

impl Progress {
    /// A line that shows nothing yet, and nothing ever unless `on`.
    pub fn new(on: bool) -> Self {
        if !on {
            return Progress { shown: None };
        }
        let (tell, told) = mpsc::channel();
        let thread = thread::Builder::new().spawn(move || follow(&told));
        Progress { shown: thread.ok().map(|thread| (tell, thread)) }
    }

    /// Says what is done from now on.
    pub fn doing(&self, what: impl Into<String>) {
        if let Some((tell, _)) = &self.shown {
            let _ = tell.send(what.into());
        }
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if let Some((tell, thread)) = self.shown.take() {
            drop(tell);
            let _ = thread.join();
        }
    }
}

/// Shows what is told once patience has run out, until nobody tells any more.
fn follow(told: &Receiver<String>) {
    let started = Instant::now();
    let mut doing = String::new();
    loop {
        match told.recv_timeout(PATIENCE.saturating_sub(started.elapsed())) {
            Ok(now) => doing = now,
            Err(RecvTimeoutError::Timeout) => break,
            Err(RecvTimeoutError::Disconnected) => return,
        }
    }
    let mut width = show(&doing, 0);
    for doing in told {
        width = show(&doing, width);
    }
    show("", width);
}

/// Shows `text` over a line of `before` characters, and gives its own.
fn show(text: &str, before: usize) -> usize {
    let text: String = printable(text).chars().take(WIDEST).collect();
    let blank = " ".repeat(before.saturating_sub(text.chars().count()));
    let back = if text.is_empty() { "\r" } else { "" };
    let mut err = io::stderr().lock();
    let _ = write!(err, "\r{text}{blank}{back}").and_then(|()| err.flush());
    text.chars().count()
}
