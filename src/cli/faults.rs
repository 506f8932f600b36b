//! Faults of the program itself: told in one plain sentence, with the exit status of a run that could not be done, and
//! nothing left half written.

use std::panic;
use std::process;
use std::sync::atomic::{AtomicBool, Ordering};

use super::half_written;
use super::signals;

/// Has a panic, on whatever thread, end the run plainly; and so an allocation that fails, as far as the system lets it
/// be told: its own sentence stands on standard error then.
pub fn tell_plainly() {
    static TOLD: AtomicBool = AtomicBool::new(false);
    panic::set_hook(Box::new(|fault| {
        // Of threads that fail together one speaks, and it ends the run.
        if !TOLD.swap(true, Ordering::SeqCst) {
            let at = fault.location().map(|at| format!(" at {}:{}", at.file(), at.line())).unwrap_or_default();
            eprintln!(
                "error: parings met a fault of its own{at} and stopped; no file is half written. Please send in the book \
                 with which it happened."
            );
            half_written::take_all_away();
            process::exit(2);
        }
    }));
    signals::end_plainly();
}

#[cfg(unix)]
#[cfg(test)]
mod tests {
    use std::env;
    use std::process::{Command, Output};

    use super::*;

    /// Says to the run of a test that it is the one that is to fail, and how.
    const TO_FAIL: &str = "PARINGS_TEST_TO_FAIL";

    /// This very test, run by itself and failing.
    fn failing(how: &str) -> Output {
        let test = "cli::faults::tests::a_fault_of_its_own_is_told_plainly";
        let mut command = Command::new(env::current_exe().unwrap());
        command.args([test, "--exact", "--nocapture"]).env(TO_FAIL, how).env_remove("RUST_BACKTRACE");
        // Of an allocation that failed the language's library tells all the same, to whom asks for it so.
        if how != "memory" {
            command.env("RUST_BACKTRACE", "full");
        }
        command.output().unwrap()
    }

    #[test]
    fn a_fault_of_its_own_is_told_plainly() {
        match env::var(TO_FAIL).as_deref() {
            Ok("panic") => {
                tell_plainly();
                panic!("planted");
            }
            Ok("thread") => {
                tell_plainly();
                let _ = std::thread::spawn(|| panic!("planted")).join();
            }
            Ok("memory") => {
                tell_plainly();
                let most = usize::try_from(isize::MAX).unwrap();
                drop(Vec::<u8>::with_capacity(most - 64));
            }
            _ => {
                for how in ["panic", "thread"] {
                    let ran = failing(how);
                    let said = String::from_utf8(ran.stderr).unwrap();
                    assert_eq!(ran.status.code(), Some(2), "{said}");
                    let lines: Vec<&str> = said.lines().collect();
                    let [line] = lines.as_slice() else { panic!("{said}") };
                    assert!(line.starts_with("error: parings met a fault of its own at src/cli/faults.rs:"), "{said}");
                }
                let ran = failing("memory");
                let said = String::from_utf8(ran.stderr).unwrap();
                assert_eq!(ran.status.code(), Some(2), "{said}");
                assert!(said.starts_with("memory allocation of") && !said.contains("stack backtrace"), "{said}");
            }
        }
    }
}
