//! Timing: many runs, the median told with its bounds.

use std::time::{Duration, Instant};

/// Runs something `runs` times after one run that does not count; prints and gives the median.
pub fn timed(what: &str, runs: usize, mut run: impl FnMut()) -> Duration {
    run();
    let mut times: Vec<Duration> = (0..runs)
        .map(|_| {
            let before = Instant::now();
            run();
            before.elapsed()
        })
        .collect();
    times.sort_unstable();
    let (first, median, last) = (times.first(), times.get(runs / 2), times.last());
    let (first, median, last) =
        (first.copied().unwrap_or_default(), median.copied().unwrap_or_default(), last.copied().unwrap_or_default());
    println!("{what:32} median {median:>9.2?}   fastest {first:>9.2?}   slowest {last:>9.2?}   of {runs}");
    median
}
