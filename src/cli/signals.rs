//! Signals that would end a run in the middle of writing: what is half written is taken away first, and a limit on the
//! size of files is met where the file is written, which then says so.
//!
//! On systems without signals nothing is done; a temporary file that is left there is swept by a later run.

#[cfg(unix)]
mod unix {
    use std::sync::atomic::AtomicBool;
    use std::sync::{Arc, Once};
    use std::thread;

    use signal_hook::consts::{SIGABRT, SIGALRM, SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGUSR1, SIGUSR2, SIGXCPU, SIGXFSZ};
    use signal_hook::flag;
    use signal_hook::iterator::Signals;
    use signal_hook::low_level::emulate_default_handler;

    use crate::cli::half_written;

    /// Has a file that would grow beyond the limit of the process fail to, instead of ending the run without a word.
    pub fn meet_limits() {
        // Where it cannot be asked for, the system says it in its own way.
        let _ = flag::register(SIGXFSZ, Arc::new(AtomicBool::new(false)));
    }

    /// Has an abort, as when memory ends, be a run that could not be done, and no crash.
    pub fn end_plainly() {
        let _ = flag::register_conditional_shutdown(SIGABRT, 2, Arc::new(AtomicBool::new(true)));
    }

    /// Has a signal take away what is half written before it ends the run.
    pub fn watch() {
        static WATCHING: Once = Once::new();
        WATCHING.call_once(|| {
            // Without a thread to be had, signals end the run as ever.
            let all = [SIGALRM, SIGHUP, SIGINT, SIGQUIT, SIGTERM, SIGUSR1, SIGUSR2, SIGXCPU];
            let Ok(mut signals) = Signals::new(all) else { return };
            let watcher = thread::Builder::new().spawn(move || {
                for signal in signals.forever() {
                    half_written::take_all_away();
                    let _ = emulate_default_handler(signal);
                }
            });
            drop(watcher);
        });
    }
}

#[cfg(not(unix))]
mod elsewhere {
    pub fn meet_limits() {}

    pub fn end_plainly() {}

    pub fn watch() {}
}

#[cfg(not(unix))]
pub(super) use elsewhere::{end_plainly, meet_limits, watch};
#[cfg(unix)]
pub(super) use unix::{end_plainly, meet_limits, watch};
