//! Engine for a browser: the crate built for `wasm32-unknown-unknown`, by whatever toolchain has what that takes.

use std::error::Error;
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::Command;

const TARGET: &str = "wasm32-unknown-unknown";
/// Debian's compiler, with the sources of the standard library, from which it is built as well.
const DEBIAN: [&str; 3] = ["/usr/bin/cargo", "/usr/bin/rustc", "/usr/bin/wasm-ld-22"];
const DEBIAN_SOURCES: &str = "/usr/lib/rustlib/src/rust";

/// Builds the engine; gives the file. The bottom of `root` is the workspace's.
pub fn build(root: &Path) -> Result<PathBuf, Box<dyn Error>> {
    let mut cargo = if has_target() {
        let mut cargo = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
        cargo.arg("build");
        cargo
    } else if has_debian() {
        let [cargo, rustc, linker] = DEBIAN;
        let mut cargo = Command::new(cargo);
        cargo.env("RUSTC", rustc).env("RUSTC_BOOTSTRAP", "1").env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", linker);
        // A cargo of rustup's would hand its own compiler on.
        cargo.env_remove("RUSTUP_TOOLCHAIN").args(["build", "-Zbuild-std=std,panic_abort"]);
        cargo
    } else {
        return Err(format!(
            "the standard library for {TARGET} is not here. With rustup:\n  rustup target add {TARGET}\non Debian:\n  \
             apt-get install --no-install-recommends rustc-web cargo-web rust-web-src lld-22"
        )
        .into());
    };
    cargo.args(["--locked", "-p", "parings-page", "--lib", "--profile", "page", "--target", TARGET]).current_dir(root);
    cargo.env("CARGO_ENCODED_RUSTFLAGS", without_folders());
    if !cargo.status()?.success() {
        return Err("the engine was not built".into());
    }
    let target = std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| root.join("target"), PathBuf::from);
    Ok(root.join(target).join(TARGET).join("page/parings_page.wasm"))
}

/// Flags by which no folder of this machine stands in the engine: where in the sources of others a fault would be.
fn without_folders() -> OsString {
    let home = std::env::var_os("CARGO_HOME").map(PathBuf::from);
    let home = home.or_else(|| Some(PathBuf::from(std::env::var_os("HOME")?).join(".cargo")));
    let sources = home.and_then(|home| std::fs::read_dir(home.join("registry/src")).ok());
    let mut flags = OsString::new();
    for folder in sources.into_iter().flatten().flatten() {
        if !flags.is_empty() {
            // What cargo parts flags by.
            flags.push("\u{1f}");
        }
        flags.push("--remap-path-prefix=");
        flags.push(folder.path());
        flags.push("=crates");
    }
    flags
}

/// Whether the compiler in use has the browser's standard library.
fn has_target() -> bool {
    let sysroot = Command::new("rustc").args(["--print", "sysroot"]).output();
    let Ok(sysroot) = sysroot.map(|output| String::from_utf8_lossy(&output.stdout).trim().to_owned()) else {
        return false;
    };
    Path::new(&sysroot).join("lib/rustlib").join(TARGET).join("lib").is_dir()
}

fn has_debian() -> bool {
    DEBIAN.iter().chain([&DEBIAN_SOURCES]).all(|path| Path::new(path).exists())
}
