//! Memory that is still to be had: asked for before it is needed, because the language ends a run in which it ends.
//!
//! What is asked for is given back at once, untouched, so that it costs next to nothing. A system that promises more than
//! it has says yes to everything, and is believed.

use std::hint::black_box;

/// Less than this is needed between two times that the reader of a large book asks.
pub(crate) const STEP: usize = 8_000_000;
/// Less than this is needed for what comes next of a small one.
pub(crate) const LITTLE: usize = 2_000_000;

/// Whether so many bytes can be had at once.
pub(crate) fn is_left(bytes: usize) -> bool {
    let mut asked: Vec<u8> = Vec::new();
    let had = asked.try_reserve_exact(bytes).is_ok();
    // Nobody uses it, and without this nobody would ask.
    black_box(&asked);
    had
}

#[cfg(test)]
mod tests {
    use super::is_left;

    #[test]
    fn some_is_left_and_not_all_there_could_be() {
        assert!(is_left(1_000_000));
        assert!(!is_left(usize::MAX / 4));
    }
}
