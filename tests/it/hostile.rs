//! Hostile input: files built to break a reader, values that are absurd, disks and terminals that misbehave. One clear
//! problem, in bounded time and memory.

mod books;
mod files;
#[cfg(unix)]
mod inputs;
mod values;
