//! Timing: many runs, the median told with its bounds, and beside it what they took of the processors, which hardly depends
//! on what else the machine does.

use std::time::{Duration, Instant};

/// What a run took.
#[derive(Debug, Clone, Copy, Default)]
pub struct Took {
    /// By the clock, at the median.
    pub wall: Duration,
    /// Of all processors, those of its threads and of the commands that it started, on average; nothing where the system
    /// does not tell.
    pub cpu: Duration,
}

/// Something to be timed, under the name that it is told by.
pub type Timed<'a> = (&'a str, &'a mut dyn FnMut());

/// Runs something `runs` times after one run that does not count; prints and gives what it took.
pub fn timed(what: &str, runs: u32, mut run: impl FnMut()) -> Took {
    let [took] = in_turn(runs, [(what, &mut run)]);
    took
}

/// Likewise several things in turn, `runs` times, so that a machine that grows slower does so for all of them.
pub fn in_turn<const N: usize>(runs: u32, mut all: [Timed<'_>; N]) -> [Took; N] {
    let mut walls = [const { Vec::new() }; N];
    let mut cpus = [Duration::ZERO; N];
    all.iter_mut().for_each(|(_, run)| run());
    for _ in 0..runs {
        for (((_, run), walls), cpu) in all.iter_mut().zip(&mut walls).zip(&mut cpus) {
            let (before, cpu_before) = (Instant::now(), processors());
            run();
            walls.push(before.elapsed());
            *cpu += processors().saturating_sub(cpu_before);
        }
    }
    let mut took = [Took::default(); N];
    for ((((what, _), mut walls), cpu), took) in all.into_iter().zip(walls).zip(cpus).zip(&mut took) {
        walls.sort_unstable();
        let at = |at: usize| walls.get(at).copied().unwrap_or_default();
        let (first, last) = (at(0), at(walls.len().saturating_sub(1)));
        *took = Took { wall: at(walls.len() / 2), cpu: cpu / runs.max(1) };
        let (wall, cpu) = (took.wall, took.cpu);
        println!(
            "{what:32} median {wall:>9.2?}   fastest {first:>9.2?}   slowest {last:>9.2?}   processors {cpu:>9.2?}   of {runs}"
        );
    }
    took
}

/// What the process and the commands that it waited for took of the processors so far, in hundredths of a second (Linux:
/// proc_pid_stat(5), the fields utime, stime, cutime and cstime).
fn processors() -> Duration {
    let told = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let after_name = told.rsplit_once(')').map_or("", |(_, rest)| rest);
    let ticks = after_name.split_whitespace().skip(11).take(4).filter_map(|field| field.parse::<u64>().ok());
    Duration::from_millis(ticks.sum::<u64>() * 10)
}
