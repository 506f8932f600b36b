//! Signals that would end a run in the middle of writing: what is half written is taken away first, and a limit on the
//! size of files is met where the file is written, which then says so.
//!
//! On systems without signals nothing is done; a temporary file that is left there is swept by a later run.

#[cfg(unix)]
mod unix {
    use std::fs;
    use std::path::{Path, PathBuf};
    use std::sync::atomic::AtomicBool;
    use std::sync::{Arc, Mutex, Once, PoisonError};
    use std::thread;

    use signal_hook::consts::{SIGHUP, SIGINT, SIGTERM, SIGXFSZ};
    use signal_hook::iterator::Signals;
    use signal_hook::low_level::emulate_default_handler;

    /// The files that are half written.
    static HALF_WRITTEN: Mutex<Vec<PathBuf>> = Mutex::new(Vec::new());

    /// Has a file that would grow beyond the limit of the process fail to, instead of ending the run without a word.
    pub fn meet_limits() {
        // Where it cannot be asked for, the system says it in its own way.
        let _ = signal_hook::flag::register(SIGXFSZ, Arc::new(AtomicBool::new(false)));
    }

    /// Has `file` taken away when a signal ends the run.
    pub fn take_away(file: &Path) {
        static WATCHING: Once = Once::new();
        WATCHING.call_once(watch);
        HALF_WRITTEN.lock().unwrap_or_else(PoisonError::into_inner).push(file.to_owned());
    }

    /// Leaves `file` alone from now on.
    pub fn leave(file: &Path) {
        HALF_WRITTEN.lock().unwrap_or_else(PoisonError::into_inner).retain(|one| one != file);
    }

    /// Waits for signals beside the work. Without a thread to be had, they end the run as ever.
    fn watch() {
        let Ok(mut signals) = Signals::new([SIGHUP, SIGINT, SIGTERM]) else { return };
        let watcher = thread::Builder::new().spawn(move || {
            for signal in signals.forever() {
                for file in HALF_WRITTEN.lock().unwrap_or_else(PoisonError::into_inner).drain(..) {
                    let _ = fs::remove_file(file);
                }
                let _ = emulate_default_handler(signal);
            }
        });
        drop(watcher);
    }
}

#[cfg(not(unix))]
mod elsewhere {
    use std::path::Path;

    pub fn meet_limits() {}

    pub fn take_away(_: &Path) {}

    pub fn leave(_: &Path) {}
}

#[cfg(not(unix))]
pub(super) use elsewhere::{leave, meet_limits, take_away};
#[cfg(unix)]
pub(super) use unix::{leave, meet_limits, take_away};
