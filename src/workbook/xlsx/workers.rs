//! Workers: pieces of work made by as many workers as the machine has processors, and taken in their order.

use std::collections::BTreeMap;
use std::io;
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;

use crate::schema::memory;

/// How far the workers may run ahead of what is taken: what was made and not yet taken takes memory.
const AHEAD: usize = 32;

/// What a system may set aside for each thread (glibc: 64 MB of addresses, and a stack), and what is to be left beside:
/// where there is not so much, one does it all.
const OF_A_WORKER: usize = 120_000_000;

/// Which pieces were begun and made.
struct Desk<R> {
    /// How many there are.
    pieces: usize,
    begun: usize,
    taken: usize,
    made: BTreeMap<usize, R>,
    /// How far may be begun ahead of what is taken.
    ahead: usize,
    /// Whether the caller makes what it could wait for others to make.
    helps: bool,
    /// Whether nobody is to begin another: something failed.
    stopped: bool,
}

impl<R> Desk<R> {
    /// Begins the next piece, where one may be begun.
    fn begin(&mut self) -> Option<usize> {
        let at = self.begun;
        let may = at < self.pieces && at < self.taken.saturating_add(self.ahead);
        may.then(|| {
            self.begun = at.saturating_add(1);
            at
        })
    }
}

/// Everybody's desk, and the bell that says that something on it has changed.
struct Office<R> {
    desk: Mutex<Desk<R>>,
    bell: Condvar,
}

impl<R> Office<R> {
    fn desk(&self) -> MutexGuard<'_, Desk<R>> {
        self.desk.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn wait<'g>(&self, desk: MutexGuard<'g, Desk<R>>) -> MutexGuard<'g, Desk<R>> {
        self.bell.wait(desk).unwrap_or_else(PoisonError::into_inner)
    }

    /// What a worker is to make next; `None` where nothing is left.
    fn next(&self) -> Option<usize> {
        let mut desk = self.desk();
        loop {
            if desk.stopped || desk.begun >= desk.pieces {
                return None;
            }
            if let Some(at) = desk.begin() {
                return Some(at);
            }
            desk = self.wait(desk);
        }
    }

    /// What the caller, who takes the pieces in their order and is at the one at `at`, is to do.
    fn callers(&self, at: usize) -> Turn<R> {
        let mut desk = self.desk();
        loop {
            if let Some(made) = desk.made.remove(&at) {
                return Turn::Take(made);
            }
            if desk.stopped {
                return Turn::End;
            }
            if (desk.helps || desk.begun <= at)
                && let Some(other) = desk.begin()
            {
                return Turn::Make(other);
            }
            desk = self.wait(desk);
        }
    }

    /// Puts down what was made.
    fn put(&self, at: usize, made: R) {
        self.desk().made.insert(at, made);
        self.bell.notify_all();
    }

    /// Stops the others.
    fn stop(&self) {
        self.desk().stopped = true;
        self.bell.notify_all();
    }
}

/// What the caller is to do.
enum Turn<R> {
    /// Take what was made.
    Take(R),
    /// Make a piece that nobody has begun.
    Make(usize),
    /// Nothing more: somebody has failed.
    End,
}

/// Stops the others when its worker panics, so that nobody waits for what it was to make.
struct Watch<'a, R>(&'a Office<R>);

impl<R> Drop for Watch<'_, R> {
    fn drop(&mut self) {
        if thread::panicking() {
            self.0.stop();
        }
    }
}

/// How many processors the machine has.
pub(super) fn processors() -> usize {
    thread::available_parallelism().map_or(1, usize::from)
}

/// Hands to `take` what `make` gives for every piece of work, in the order of the work, until it says that it failed. The
/// caller takes, and makes only what nobody else has begun: all of it where threads cannot be had, as in a browser.
pub(super) fn in_order<W: Sync, R: Send, E>(
    work: &[W],
    make: impl Fn(&W) -> R + Sync,
    take: impl FnMut(R) -> Result<(), E>,
) -> Result<(), E> {
    with(hired(processors(), work.len()), (AHEAD, false), work, || Ok(()), make, take)
}

/// What `make` gives for every piece of work, in the order of the work, and what `meanwhile` gives, which the caller does
/// itself while others make them; then it makes some as well.
pub(super) fn beside<W: Sync, R: Send, E, T>(
    work: &[W],
    make: impl Fn(&W) -> R + Sync,
    meanwhile: impl FnOnce() -> Result<T, E>,
) -> Result<(Vec<R>, T), E> {
    let mut made = Vec::with_capacity(work.len());
    let hired = hired(processors().saturating_sub(1), work.len());
    let done = with(hired, (usize::MAX, true), work, meanwhile, make, |one| {
        made.push(one);
        Ok(())
    })?;
    Ok((made, done))
}

/// How many workers are hired of so many for so many pieces of work: none where the caller would be as soon done alone, or
/// where there is no memory for them.
fn hired(most: usize, pieces: usize) -> usize {
    let hired = if processors() > 1 { most.min(pieces) } else { 0 };
    if memory::is_left(hired.saturating_mul(OF_A_WORKER)) { hired } else { 0 }
}

/// Has `hired` workers and then the caller make the pieces, no more than so many `ahead` of what is taken, the caller also
/// those that it need not if it `helps`; before that it does what is to be done `first`.
fn with<W: Sync, R: Send, E, T>(
    hired: usize,
    (ahead, helps): (usize, bool),
    work: &[W],
    first: impl FnOnce() -> Result<T, E>,
    make: impl Fn(&W) -> R + Sync,
    mut take: impl FnMut(R) -> Result<(), E>,
) -> Result<T, E> {
    let desk = Desk { pieces: work.len(), begun: 0, taken: 0, made: BTreeMap::new(), ahead, helps, stopped: false };
    let office = Office { desk: Mutex::new(desk), bell: Condvar::new() };
    let worker = || {
        let _watch = Watch(&office);
        while let Some((at, piece)) = office.next().and_then(|at| Some((at, work.get(at)?))) {
            office.put(at, make(piece));
        }
    };
    thread::scope(|scope| {
        let _watch = Watch(&office);
        let hired: Vec<_> =
            (0..hired).filter_map(|_| thread::Builder::new().spawn_scoped(scope, worker).ok()).collect();
        let mut result = first();
        let mut at = 0;
        while at < work.len() && result.is_ok() {
            match office.callers(at) {
                Turn::Take(made) => {
                    result = result.and_then(|done| take(made).map(|()| done));
                    at = at.saturating_add(1);
                    office.desk().taken = at;
                    office.bell.notify_all();
                }
                Turn::Make(other) => {
                    let Some(piece) = work.get(other) else { break };
                    office.put(other, make(piece));
                }
                Turn::End => break,
            }
        }
        office.stop();
        for other in hired {
            if let Err(panic) = other.join() {
                std::panic::resume_unwind(panic);
            }
        }
        result
    })
}

/// Refuses to go on where so many bytes of memory cannot be had at once.
pub(super) fn expect_memory(bytes: usize) -> io::Result<()> {
    if memory::is_left(bytes) { Ok(()) } else { Err(too_little()) }
}

/// What is said where memory has ended.
pub(super) fn too_little() -> io::Error {
    io::Error::new(io::ErrorKind::OutOfMemory, "there is too little memory; close other programs and try again")
}

/// Refuses to go on where so many threads cannot be had at once: the writing library asks for one for each sheet when it
/// puts a workbook together, and panics without. So does the language's library where a thread has begun and its stack
/// cannot be guarded, so that addresses for all of them are asked for first.
pub(super) fn expect(threads: usize) -> io::Result<()> {
    /// Its stack (2 MiB), what guards it, and what the system keeps beside.
    const OF_A_THREAD: usize = 2_150_000;
    // In a browser it asks for none.
    if cfg!(target_arch = "wasm32") {
        return Ok(());
    }
    expect_memory(threads.saturating_mul(OF_A_THREAD))?;
    let gate = Mutex::new(());
    let had = thread::scope(|scope| {
        let held = gate.lock().unwrap_or_else(PoisonError::into_inner);
        let waiting = || drop(gate.lock().unwrap_or_else(PoisonError::into_inner));
        let had = (0..threads).map_while(|_| thread::Builder::new().spawn_scoped(scope, waiting).ok()).count();
        drop(held);
        had
    });
    if had == threads {
        return Ok(());
    }
    Err(too_little())
}

#[cfg(test)]
mod tests {
    use super::{AHEAD, with};

    fn taken(hired: usize, ahead: (usize, bool), work: &[u32]) -> Vec<u32> {
        let mut taken = Vec::new();
        let result = with(
            hired,
            ahead,
            work,
            || Ok(7),
            |n| n + 1,
            |n| {
                taken.push(n);
                Ok::<(), ()>(())
            },
        );
        assert_eq!(result, Ok(7));
        taken
    }

    #[test]
    fn results_are_taken_in_the_order_of_the_work() {
        let work: Vec<u32> = (0..1000).collect();
        for hired in [0, 1, 2, 7] {
            for ahead in [1, 30, usize::MAX].into_iter().flat_map(|ahead| [(ahead, false), (ahead, true)]) {
                assert_eq!(taken(hired, ahead, &work), (1..=1000).collect::<Vec<u32>>(), "{hired} hired");
                assert!(taken(hired, ahead, &[]).is_empty());
            }
        }
    }

    #[test]
    fn a_failure_ends_the_work() {
        let work: Vec<u32> = (0..1000).collect();
        for hired in [0, 2] {
            let mut taken = 0;
            let result = with(
                hired,
                (AHEAD, true),
                &work,
                || Ok(()),
                |n| *n,
                |n| {
                    taken += 1;
                    if n == 5 { Err(n) } else { Ok(()) }
                },
            );
            assert_eq!((result, taken), (Err(5), 6), "{hired} hired");
            let at_first = with(hired, (AHEAD, true), &work, || Err::<(), _>(1), |n| *n, |_| Ok(()));
            assert_eq!(at_first, Err(1), "{hired} hired");
        }
    }

    #[test]
    fn a_panic_of_a_worker_is_the_callers() {
        let work: Vec<u32> = (0..100).collect();
        for hired in [0, 2] {
            let told = std::panic::catch_unwind(|| {
                with(hired, (AHEAD, true), &work, || Ok(()), |n| assert_ne!(*n, 50), |()| Ok::<(), ()>(()))
            });
            assert!(told.is_err(), "{hired} hired");
        }
    }
}
