//! Dice thrown from a tape of chance: the same tape gives the same choices, a tape that ends gives the first choice from
//! then on. So whoever shortens or lowers the tape, as proptest does with a failure, makes the thing simpler.

/// What chance says, which nobody wants to read.
#[derive(Clone)]
pub struct Tape(pub Vec<u16>);

impl std::fmt::Debug for Tape {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} throws", self.0.len())
    }
}

/// Choices read off a tape.
pub struct Dice<'a> {
    tape: &'a [u16],
    at: usize,
}

impl<'a> Dice<'a> {
    pub fn new(tape: &'a Tape) -> Self {
        Dice { tape: &tape.0, at: 0 }
    }

    fn throw(&mut self) -> u16 {
        let thrown = self.tape.get(self.at).copied().unwrap_or(0);
        self.at += 1;
        thrown
    }

    /// A number below `n`, which is not 0.
    pub fn below(&mut self, n: usize) -> usize {
        usize::from(self.throw()) * n / 65_536
    }

    /// A number from `low` to `high`, both within.
    pub fn between(&mut self, low: i64, high: i64) -> i64 {
        low + i64::from(self.throw()) * (high - low + 1) / 65_536
    }

    /// One of several.
    pub fn of<T: Clone>(&mut self, choices: &[T]) -> T {
        choices[self.below(choices.len())].clone()
    }

    /// Yes in so many of a hundred; no where the tape has ended.
    pub fn chance(&mut self, percent: i64) -> bool {
        self.between(1, 100) > 100 - percent
    }
}
