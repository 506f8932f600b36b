//! The command: what it prints where, its exit status, and which files it writes. The figures themselves are the
//! library's and are tested there; here is the wiring.

use std::fs;
use std::path::PathBuf;
use std::process::{Command, Output, Stdio};

use tempfile::TempDir;

mod exits;
mod new;
mod overwriting;
mod page;
mod reprice;
mod streams;
mod table;
mod trim;

/// A book of two dishes without a fault.
pub const BOOK: &str = "\
Setting,Value
Costing date,2026-11-20
Target food cost,30%

Item,Pack,Price
Flour,10 lb,$5.00
Butter,1 lb,$4.00

Recipe,Butter roll
Portions,4
Menu price,$2.00
Ingredient,Qty,Unit,Basis
Flour,1,lb,AP

Recipe,Shortbread
Makes,8 each
Portion,1 each
Menu price,$0.50
Ingredient,Qty,Unit,Basis
Flour,1,lb,AP
Butter,8,oz,AP
";

/// A dish that cannot be costed, for behind [`BOOK`].
pub const BROKEN: &str = "
Recipe,Saffron bun
Portions,1
Menu price,$9.00
Ingredient,Qty,Unit
Saffron,1,g
";

/// A folder of its own to run the command in.
pub struct Folder(TempDir);

impl Folder {
    /// A folder that holds one file.
    pub fn with(name: &str, content: impl AsRef<[u8]>) -> Self {
        let folder = Folder(TempDir::new().unwrap());
        folder.put(name, content);
        folder
    }

    /// Puts a file there.
    pub fn put(&self, name: &str, content: impl AsRef<[u8]>) {
        fs::write(self.path(name), content).unwrap();
    }

    /// Where a file of it is.
    pub fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    /// What a file of it holds.
    pub fn bytes(&self, name: &str) -> Vec<u8> {
        fs::read(self.path(name)).unwrap()
    }

    /// The names of its files, sorted.
    pub fn names(&self) -> Vec<String> {
        let entries = fs::read_dir(self.0.path()).unwrap();
        let mut names: Vec<String> =
            entries.map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect();
        names.sort();
        names
    }

    /// The command with these arguments, in this folder, without what the environment says of colour.
    pub fn command(&self, args: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_parings"));
        command.args(args).current_dir(self.0.path()).stdin(Stdio::null());
        for name in ["NO_COLOR", "CLICOLOR", "CLICOLOR_FORCE", "FORCE_COLOR"] {
            command.env_remove(name);
        }
        command
    }

    /// Runs the command.
    #[track_caller]
    pub fn run(&self, args: &[&str]) -> Ran {
        Ran::of(self.command(args).output().unwrap())
    }
}

/// How a run went.
#[derive(Debug)]
pub struct Ran {
    /// The exit status.
    pub code: i32,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
}

impl Ran {
    /// A run that has ended by itself.
    #[track_caller]
    pub fn of(output: Output) -> Self {
        Ran {
            code: output.status.code().unwrap(),
            out: String::from_utf8(output.stdout).unwrap(),
            err: String::from_utf8(output.stderr).unwrap(),
        }
    }

    /// Asserts the exit status.
    #[track_caller]
    pub fn ends(self, code: i32) -> Self {
        assert_eq!(self.code, code, "{self:#?}");
        self
    }

    /// Asserts that standard error speaks of all `words`.
    #[track_caller]
    pub fn complains_of(self, words: &[&str]) -> Self {
        for word in words {
            assert!(self.err.contains(word), "no “{word}” in {self:#?}");
        }
        self
    }
}
