//! Workers: one piece of work after another, by as many workers as the machine has processors.

use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

/// What `make` gives for every piece of work, in the order of the work. Each worker has a tool of its own. The last piece
/// is begun first: the long sheets stand at the end of the workbook, and nobody should be left alone with one.
pub(super) fn all<W: Sync, T, R: Send>(
    work: &[W],
    tool: impl Fn() -> T + Sync,
    make: impl Fn(&mut T, &W) -> R + Sync,
) -> Vec<R> {
    let begun = AtomicUsize::new(0);
    let worker = || {
        let mut tool = tool();
        let mut made = Vec::new();
        loop {
            let nth = begun.fetch_add(1, Ordering::Relaxed);
            let at = work.len().checked_sub(1).and_then(|last| last.checked_sub(nth));
            let Some((at, piece)) = at.and_then(|at| Some((at, work.get(at)?))) else { return made };
            made.push((at, make(&mut tool, piece)));
        }
    };
    // Where threads cannot be had, as in a browser, the caller works alone.
    let others = thread::available_parallelism().map_or(1, usize::from).min(work.len()).saturating_sub(1);
    let mut made = thread::scope(|scope| {
        let hired: Vec<_> =
            (0..others).filter_map(|_| thread::Builder::new().spawn_scoped(scope, worker).ok()).collect();
        let mut made = worker();
        for other in hired {
            match other.join() {
                Ok(theirs) => made.extend(theirs),
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        made
    });
    made.sort_unstable_by_key(|(at, _)| *at);
    made.into_iter().map(|(_, result)| result).collect()
}

#[cfg(test)]
mod tests {
    use super::all;

    #[test]
    fn results_stand_in_the_order_of_the_work() {
        let work: Vec<u32> = (0..1000).collect();
        assert_eq!(all(&work, || 1, |one, n| n + *one), (1..=1000).collect::<Vec<u32>>());
        assert!(all(&[], || (), |(), n: &u32| *n).is_empty());
    }
}
