//! Exports of the module: what JavaScript calls. It asks for room, puts a question there, calls [`ask`], and reads the answer.
//!
//! A module for browsers exports a function by its plain name, and giving a function one is `unsafe` in this edition, for two of
//! one name in a program would be mixed up. That is all that is allowed here: there is no `unsafe` block, and the two
//! addresses that are handed out are followed by JavaScript alone, within the module's own memory.
#![allow(unsafe_code)]

use std::sync::{Mutex, MutexGuard, PoisonError};

use crate::engine::Engine;

static QUESTION: Mutex<Vec<u8>> = Mutex::new(Vec::new());
static ANSWER: Mutex<Vec<u8>> = Mutex::new(Vec::new());
static LAST_WORDS: Mutex<String> = Mutex::new(String::new());
static ENGINE: Mutex<Option<Engine>> = Mutex::new(None);

/// There is one thread; a lock is never waited for.
fn lock<T>(what: &Mutex<T>) -> MutexGuard<'_, T> {
    what.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Makes room for a question of `len` bytes; says where.
#[unsafe(no_mangle)]
pub extern "C" fn parings_room(len: usize) -> *mut u8 {
    let mut question = lock(&QUESTION);
    question.clear();
    question.resize(len, 0);
    question.as_mut_ptr()
}

/// Answers the question; how many bytes the answer has.
#[unsafe(no_mangle)]
pub extern "C" fn parings_ask() -> usize {
    // Elsewhere a fault is told as always.
    #[cfg(target_family = "wasm")]
    std::panic::set_hook(Box::new(|fault| *lock(&LAST_WORDS) = fault.to_string()));
    let question = std::mem::take(&mut *lock(&QUESTION));
    let answer = lock(&ENGINE).get_or_insert_default().ask(&question);
    let mut kept = lock(&ANSWER);
    *kept = answer;
    kept.len()
}

/// Where the answer is.
#[unsafe(no_mangle)]
pub extern "C" fn parings_answer() -> *const u8 {
    lock(&ANSWER).as_ptr()
}

/// After a fault that ended it: makes what it said the answer; how many bytes that has.
#[unsafe(no_mangle)]
pub extern "C" fn parings_last_words() -> usize {
    let words = lock(&LAST_WORDS).clone();
    ANSWER.try_lock().map_or(0, |mut answer| {
        *answer = words.into_bytes();
        answer.len()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_question_is_answered_through_the_exports() {
        let question = br#"{"ask":"hello"}"#;
        parings_room(question.len());
        lock(&QUESTION).copy_from_slice(question);
        let len = parings_ask();
        let answer = lock(&ANSWER).clone();
        assert_eq!(answer.len(), len);
        let text = String::from_utf8(answer).unwrap();
        assert!(text.starts_with(r#"{"ok":{"#), "{text}");
        assert_eq!(parings_last_words(), 0);
    }
}
