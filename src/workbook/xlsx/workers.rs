//! Workers: as many as the machine has processors, the caller among them, who do the jobs of a crew in the order in which
//! these were given, and hand over what came out when it is asked for.

use std::collections::VecDeque;
use std::io;
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;

use crate::schema::memory;

/// How far the workers may run ahead of what is taken: what was made and not yet taken takes memory.
const AHEAD: usize = 32;

/// What a system may set aside for each thread (glibc: 64 MB of addresses, and a stack), and what is to be left beside:
/// where there is not so much, one does it all.
const OF_A_WORKER: usize = 120_000_000;

/// A job, which puts down itself what comes out.
type Job<'env> = Box<dyn FnOnce() + Send + 'env>;

/// What is to be done, and whether anybody is still to begin it.
struct Desk<'env> {
    waiting: VecDeque<Job<'env>>,
    /// How many workers wait for a job.
    idle: usize,
    /// Whether nobody is to begin another: all is done, or somebody has failed.
    stopped: bool,
}

/// Workers at one desk.
#[derive(Debug)]
pub(super) struct Crew<'env> {
    desk: Mutex<Desk<'env>>,
    /// Says that there is a job.
    begin: Condvar,
    /// Says that one is done.
    done: Condvar,
}

/// What a job will have made.
#[derive(Debug)]
pub(super) struct Ticket<T>(Arc<Mutex<Option<T>>>);

/// Why nothing comes of a ticket: a worker failed, and whoever hired it will be told.
fn failed() -> io::Error {
    io::Error::other("the workbook was not finished")
}

impl std::fmt::Debug for Desk<'_> {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "{} jobs wait", self.waiting.len())
    }
}

impl<'env> Crew<'env> {
    fn desk(&self) -> MutexGuard<'_, Desk<'env>> {
        self.desk.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Gives a job to whoever is free first.
    pub(super) fn put<T: Send + 'env>(&self, make: impl FnOnce() -> T + Send + 'env) -> Ticket<T> {
        let made = Arc::new(Mutex::new(None));
        let place = Arc::clone(&made);
        let job = move || {
            let made = make();
            *place.lock().unwrap_or_else(PoisonError::into_inner) = Some(made);
        };
        let mut desk = self.desk();
        desk.waiting.push_back(Box::new(job));
        if desk.idle > 0 {
            self.begin.notify_one();
        }
        Ticket(made)
    }

    /// What a job made; the caller does others while it waits, all of them where threads cannot be had, as in a browser.
    ///
    /// # Errors
    /// Where a worker has failed, which [`hire`] tells.
    pub(super) fn take<T>(&self, ticket: &Ticket<T>) -> io::Result<T> {
        let made = || ticket.0.lock().unwrap_or_else(PoisonError::into_inner).take();
        let mut desk = self.desk();
        loop {
            if let Some(made) = made() {
                return Ok(made);
            }
            if desk.stopped {
                return Err(failed());
            }
            desk = match desk.waiting.pop_front() {
                Some(job) => {
                    drop(desk);
                    job();
                    self.desk()
                }
                None => self.done.wait(desk).unwrap_or_else(PoisonError::into_inner),
            };
        }
    }

    /// Hands to `take` what `make` gives for every piece of work, in the order of the work, until it says that it failed.
    pub(super) fn in_order<W, R, E>(
        &self,
        work: impl IntoIterator<Item = W>,
        make: &'env (impl Fn(W) -> R + Sync),
        mut take: impl FnMut(R) -> Result<(), E>,
    ) -> Result<(), E>
    where
        W: Send + 'env,
        R: Send + 'env,
        E: From<io::Error>,
    {
        let mut begun = VecDeque::new();
        let mut work = work.into_iter();
        loop {
            let more = AHEAD.saturating_sub(begun.len());
            begun.extend(work.by_ref().take(more).map(|piece| self.put(move || make(piece))));
            let Some(next) = begun.pop_front() else { return Ok(()) };
            take(self.take(&next)?)?;
        }
    }

    /// Does jobs until there will be no more.
    fn work(&self) {
        let _watch = Watch(self);
        let mut desk = self.desk();
        while !desk.stopped {
            desk = match desk.waiting.pop_front() {
                Some(job) => {
                    drop(desk);
                    job();
                    let desk = self.desk();
                    self.done.notify_all();
                    desk
                }
                None => {
                    desk.idle = desk.idle.saturating_add(1);
                    let mut desk = self.begin.wait(desk).unwrap_or_else(PoisonError::into_inner);
                    desk.idle = desk.idle.saturating_sub(1);
                    desk
                }
            };
        }
    }

    /// Ends the work, begun jobs aside.
    fn stop(&self) {
        let mut desk = self.desk();
        desk.stopped = true;
        desk.waiting.clear();
        self.begin.notify_all();
        self.done.notify_all();
    }
}

/// Stops the others when its worker panics, so that nobody waits for what it was to make.
struct Watch<'a, 'env>(&'a Crew<'env>);

impl Drop for Watch<'_, '_> {
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

/// What `run` gives, which has a crew for as long as it takes: the caller, and as many others as the machine has processors
/// besides; none where there is no memory for them.
pub(super) fn hire<'env, T>(run: impl FnOnce(&Crew<'env>) -> T) -> T {
    let others = processors().saturating_sub(1);
    let others = if memory::is_left(others.saturating_mul(OF_A_WORKER)) { others } else { 0 };
    hire_others(others, run)
}

fn hire_others<'env, T>(others: usize, run: impl FnOnce(&Crew<'env>) -> T) -> T {
    let desk = Desk { waiting: VecDeque::new(), idle: 0, stopped: false };
    let crew = Crew { desk: Mutex::new(desk), begin: Condvar::new(), done: Condvar::new() };
    thread::scope(|scope| {
        let _watch = Watch(&crew);
        let worker = || crew.work();
        let hired: Vec<_> =
            (0..others).filter_map(|_| thread::Builder::new().spawn_scoped(scope, worker).ok()).collect();
        let result = run(&crew);
        crew.stop();
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
    use std::io;

    use super::{AHEAD, Crew, hire_others};

    /// What is made of all of the `work` by so many others beside the caller, as far as it was taken.
    fn taken(others: usize, work: &[u32], upto: Option<u32>) -> (Vec<u32>, Result<(), String>) {
        let mut taken = Vec::new();
        let double = |n: &u32| n * 2;
        let result = hire_others(others, |crew| {
            crew.in_order(work, &double, |n| {
                taken.push(n);
                if Some(n) == upto { Err(io::Error::other("enough")) } else { Ok(()) }
            })
        });
        (taken, result.map_err(|error| error.to_string()))
    }

    #[test]
    fn results_are_taken_in_the_order_of_the_work() {
        let work: Vec<u32> = (0..1000).collect();
        let doubled: Vec<u32> = (0..1000).map(|n| n + n).collect();
        for others in [0, 1, 2, 7] {
            assert_eq!(taken(others, &work, None), (doubled.clone(), Ok(())), "{others} others");
            assert_eq!(taken(others, &[], None), (Vec::new(), Ok(())));
        }
    }

    #[test]
    fn a_failure_ends_the_work() {
        let work: Vec<u32> = (0..1000).collect();
        for others in [0, 2] {
            let (taken, result) = taken(others, &work, Some(10));
            assert_eq!((taken, result), (vec![0, 2, 4, 6, 8, 10], Err("enough".to_owned())), "{others} others");
        }
    }

    #[test]
    fn workers_do_not_run_far_ahead_of_what_is_taken() {
        use std::sync::atomic::{AtomicUsize, Ordering::SeqCst};
        let (begun, mut taken) = (AtomicUsize::new(0), 0);
        let make = |()| begun.fetch_add(1, SeqCst);
        let result = hire_others(3, |crew| {
            crew.in_order([(); 500], &make, |_| {
                taken += 1;
                assert!(begun.load(SeqCst) <= taken + AHEAD, "{} begun, {taken} taken", begun.load(SeqCst));
                Ok::<(), io::Error>(())
            })
        });
        assert!(result.is_ok() && taken == 500);
    }

    #[test]
    fn jobs_of_other_kinds_stand_in_the_same_line() {
        let twice = |n: u32| n + n;
        for others in [0, 1, 3] {
            let (sum, letters) = hire_others(others, |crew: &Crew<'_>| {
                let letters: Vec<_> = ('a'..='e').map(|letter| crew.put(move || letter.to_string())).collect();
                let mut sum = 0;
                let done = crew.in_order(1..=10_u32, &twice, |n| {
                    sum += n;
                    Ok::<(), io::Error>(())
                });
                assert!(done.is_ok());
                // Taken in any order.
                let letters: Vec<String> = letters.iter().rev().map(|ticket| crew.take(ticket).unwrap()).collect();
                (sum, letters.concat())
            });
            assert_eq!((sum, letters.as_str()), (110, "edcba"), "{others} others");
        }
    }

    #[test]
    fn a_panic_of_a_worker_is_the_callers() {
        let work: Vec<u32> = (0..100).collect();
        let make = |n: &u32| assert_ne!(*n, 50);
        for others in [0, 2] {
            let told = std::panic::catch_unwind(|| {
                hire_others(others, |crew| crew.in_order(&work, &make, |()| Ok::<(), io::Error>(())))
            });
            assert!(told.is_err(), "{others} others");
        }
    }
}
