//! Files on a disk that misbehaves or is shared: what is replaced keeps its mode and owner, what is protected stays, what is
//! half written goes, and what is no file is refused at once.
#![cfg(unix)]

use std::fs::{self, File, Permissions};
use std::io::Write;
use std::os::unix::fs::{MetadataExt, PermissionsExt, chown};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant, SystemTime};

use crate::cli::{BOOK, Folder, Ran};
use crate::support::at_length;

fn mode(folder: &Folder, name: &str) -> u32 {
    fs::metadata(folder.path(name)).unwrap().permissions().mode() & 0o777
}

fn set_mode(folder: &Folder, name: &str, mode: u32) {
    fs::set_permissions(folder.path(name), Permissions::from_mode(mode)).unwrap();
}

#[test]
fn a_replaced_workbook_keeps_its_mode_and_owner() {
    let folder = Folder::with("book.csv", BOOK);
    folder.run(&["book.csv"]).ends(0);
    for kept in [0o600, 0o640, 0o666] {
        set_mode(&folder, "book.costed.xlsx", kept);
        folder.run(&["book.csv"]).ends(0);
        assert_eq!(mode(&folder, "book.costed.xlsx"), kept);
    }
    // Only the superuser may give a file away.
    if chown(folder.path("book.costed.xlsx"), Some(65_534), Some(65_534)).is_ok() {
        folder.run(&["book.csv"]).ends(0);
        let metadata = fs::metadata(folder.path("book.costed.xlsx")).unwrap();
        assert_eq!((metadata.uid(), metadata.gid()), (65_534, 65_534));
    }
}

#[test]
fn a_protected_workbook_is_left_alone_by_force_too() {
    let folder = Folder::with("book.csv", BOOK);
    folder.run(&["book.csv"]).ends(0);
    set_mode(&folder, "book.costed.xlsx", 0o444);
    let before = folder.bytes("book.costed.xlsx");
    for args in [&["book.csv"][..], &["book.csv", "--force"], &["new", "book.costed.xlsx", "--force"]] {
        folder.run(args).ends(2).complains_of(&["book.costed.xlsx is protected from being written"]);
    }
    assert!(folder.bytes("book.costed.xlsx") == before);
    assert_eq!(folder.names(), ["book.costed.xlsx", "book.csv"]);
}

#[test]
fn what_a_run_left_half_written_is_swept_and_another_runs_is_not() {
    let folder = Folder::with("book.csv", BOOK);
    for name in [".parings-old.tmp", ".parings-new.tmp", ".parings-old.txt"] {
        folder.put(name, "half");
    }
    let hours_ago = SystemTime::now() - Duration::from_secs(7_200);
    for name in [".parings-old.tmp", ".parings-old.txt"] {
        File::options().write(true).open(folder.path(name)).unwrap().set_modified(hours_ago).unwrap();
    }
    folder.run(&["book.csv"]).ends(0);
    assert_eq!(folder.names(), [".parings-new.tmp", ".parings-old.txt", "book.costed.xlsx", "book.csv"]);
}

/// The program under one of the shell's limits, with arguments as a shell reads them.
fn limited(folder: &Folder, limit: &str, args: &str) -> Ran {
    let script = format!("ulimit {limit}; exec \"$0\" {args}");
    let mut command = Command::new("sh");
    command.args(["-c", &script, env!("CARGO_BIN_EXE_parings")]).current_dir(folder.path("."));
    Ran::of(command.output().unwrap())
}

#[test]
fn a_limit_on_the_size_of_files_is_told() {
    let folder = Folder::with("book.csv", BOOK);
    // Two blocks, of 512 or 1,024 bytes by the shell: less than any workbook.
    let limited = |args: &str| limited(&folder, "-f 2", args).ends(2);
    limited("book.csv").complains_of(&["book.costed.xlsx could not be written", "lets no file grow so large"]);
    limited("explain --format json > out").complains_of(&["could not be printed", "lets no file grow so large"]);
    assert_eq!(folder.names(), ["book.csv", "out"]);
}

#[test]
fn what_is_no_file_is_refused_at_once() {
    let folder = Folder::with("book.csv", BOOK);
    assert!(Command::new("mkfifo").arg(folder.path("pipe")).status().unwrap().success());
    let socket = std::os::unix::net::UnixListener::bind(folder.path("socket")).unwrap();
    for (file, what) in
        [("pipe", "a pipe"), ("socket", "a socket"), ("/dev/zero", "a device"), ("/dev/null", "a device")]
    {
        let started = Instant::now();
        folder.run(&["check", "book.csv", file]).ends(2).complains_of(&[&format!("{file} is {what}, not a file")]);
        assert!(started.elapsed() < Duration::from_secs(20), "{file}");
    }
    drop(socket);
}

/// A run that waits for its book while another writes its target.
#[cfg(target_os = "linux")]
#[test]
fn two_runs_at_one_target_are_told() {
    let folder = Folder::with("book.csv", BOOK);
    for before in [false, true] {
        let mut command = folder.command(&["/dev/stdin", "-o", "out.xlsx"]);
        let mut waiting = command.stdin(Stdio::piped()).stderr(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
        // It has found its place for the workbook when it waits for the pipe.
        let waits = || {
            let at = fs::read_to_string(format!("/proc/{}/wchan", waiting.id())).unwrap_or_default();
            at.contains("pipe_read")
        };
        let started = Instant::now();
        while !waits() && started.elapsed() < Duration::from_secs(20) {
            std::thread::sleep(Duration::from_millis(5));
        }
        if !waits() {
            // A system that does not say what a process waits for.
            waiting.kill().unwrap();
            waiting.wait().unwrap();
            return;
        }
        folder.run(&["book.csv", "-o", "out.xlsx"]).ends(0);
        let other = folder.bytes("out.xlsx");
        waiting.stdin.take().unwrap().write_all(BOOK.as_bytes()).unwrap();
        let ran = Ran::of(waiting.wait_with_output().unwrap()).ends(2);
        ran.complains_of(&["out.xlsx was written by another run or program while this one worked"]);
        assert!(folder.bytes("out.xlsx") == other, "{before}");
        assert_eq!(folder.names(), ["book.csv", "out.xlsx"]);
    }
}

#[test]
fn a_signal_leaves_nothing_half_written() {
    let rows: String = (0..400).map(|n| format!("Item {n},10 lb,$5.00\n")).collect();
    let folder = Folder::with("book.csv", format!("Item,Pack,Price\n{rows}"));
    let half = |folder: &Folder| folder.names().iter().any(|name| name.starts_with(".parings-"));
    for signal in ["INT", "TERM", "HUP", "QUIT", "XCPU", "USR1"].iter().cycle().take(if at_length() { 60 } else { 6 }) {
        let mut command = folder.command(&["book.csv"]);
        let mut child = command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
        while !half(&folder) && child.try_wait().unwrap().is_none() {}
        let _ =
            Command::new("kill").args([&format!("-{signal}"), &child.id().to_string()]).stderr(Stdio::null()).status();
        child.wait().unwrap();
        assert!(!half(&folder), "{signal}: {:?}", folder.names());
        // What is there is whole.
        if folder.names().len() > 1 {
            assert!(zip::ZipArchive::new(File::open(folder.path("book.costed.xlsx")).unwrap()).is_ok());
        }
    }
}

/// More files than the system lets be open at once, and as many as it does; one of them twice.
#[test]
fn more_files_than_may_be_open_are_told() {
    let folder = Folder::with("0.csv", BOOK);
    for n in 1..40 {
        folder.put(&format!("{n}.csv"), format!("Item,Pack,Price\nItem {n},10 lb,$5.00\n"));
    }
    let check = |most: &str, files: &str| limited(&folder, most, &format!("check {files}"));
    check("-n 20", "*.csv").ends(2).complains_of(&["could not be read", "so many files cannot be open at once here"]);
    check("-n 60", "*.csv").ends(0);
    check("-n 60", "*.csv ./7.csv").ends(2).complains_of(&["7.csv and ./7.csv are one file: give it once"]);
}

/// A run that is begun without a stream: no file of it takes that stream's place, so that nothing is printed into it.
#[test]
fn closed_streams_are_not_printed_into_a_workbook() {
    let folder = Folder::with("book.csv", BOOK);
    for closed in ["<&-", ">&-", "2>&-", "<&- >&- 2>&-"] {
        limited(&folder, "-n 64", &format!("book.csv --force {closed}")).ends(0);
        assert!(zip::ZipArchive::new(File::open(folder.path("book.costed.xlsx")).unwrap()).is_ok(), "{closed}");
        assert_eq!(folder.bytes("book.csv"), BOOK.as_bytes(), "{closed}");
    }
}
