//! The half-written file of a workbook: temporary, beside its place, and gone unless it becomes the workbook.
//!
//! It bears the mode and owner of what it replaces, is on the disk before it is renamed, and is taken away when a signal
//! ends the run. One that a run left behind all the same, when the power went, is swept by a later run.

use std::fs::{self, File, Metadata};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::{Duration, SystemTime};

use tempfile::{Builder, NamedTempFile, TempPath};

use super::signals;

const PREFIX: &str = ".parings-";
const SUFFIX: &str = ".tmp";

/// No run writes for so long: an older temporary file is nobody's.
const STALE: Duration = Duration::from_secs(3_600);

/// The files that are half written, by whatever thread.
static NAMES: Mutex<Vec<PathBuf>> = Mutex::new(Vec::new());

fn names() -> MutexGuard<'static, Vec<PathBuf>> {
    NAMES.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Takes away what is half written: the run ends here.
pub(super) fn take_all_away() {
    for file in names().drain(..) {
        let _ = fs::remove_file(file);
    }
}

/// A file on its way to a place in the same folder.
#[derive(Debug)]
pub(super) struct HalfWritten(Option<NamedTempFile>, PathBuf);

impl HalfWritten {
    /// A file in `folder` with `bytes` in it, on the disk; as what it `replaces`, if anything.
    ///
    /// # Errors
    /// What the system says.
    pub fn of(folder: &Path, bytes: &[u8], replaces: Option<&Metadata>) -> io::Result<Self> {
        sweep(folder);
        let mut builder = Builder::new();
        builder.prefix(PREFIX).suffix(SUFFIX);
        #[cfg(unix)]
        {
            // Read and write for whom the user's own mask lets in, as for any new file.
            use std::os::unix::fs::PermissionsExt;
            builder.permissions(fs::Permissions::from_mode(0o666));
        }
        signals::watch();
        // Whoever takes all away waits until the name is known.
        let mut known = names();
        let file = builder.tempfile_in(folder)?;
        let path = file.path().to_owned();
        known.push(path.clone());
        drop(known);
        let filled = fill(&file, bytes, replaces);
        let file = HalfWritten(Some(file), path);
        filled.map(|()| file)
    }

    /// Puts it in the place of `file`, whatever is there.
    ///
    /// # Errors
    /// What the system says.
    pub fn replace(self, file: &Path) -> io::Result<()> {
        self.persist(|path| path.persist(file).map_err(|failed| failed.error))
    }

    /// Puts it at `file`, where nothing may be.
    ///
    /// # Errors
    /// What the system says, which is [`io::ErrorKind::AlreadyExists`] where something is.
    pub fn put(self, file: &Path) -> io::Result<()> {
        self.persist(|path| path.persist_noclobber(file).map_err(|failed| failed.error))
    }

    fn persist(mut self, put: impl FnOnce(TempPath) -> io::Result<()>) -> io::Result<()> {
        // Closed before it is renamed.
        self.0.take().map_or(Ok(()), |file| put(file.into_temp_path()))
    }
}

impl Drop for HalfWritten {
    fn drop(&mut self) {
        drop(self.0.take());
        names().retain(|one| *one != self.1);
    }
}

fn fill(file: &NamedTempFile, bytes: &[u8], replaces: Option<&Metadata>) -> io::Result<()> {
    if let Some(replaced) = replaces {
        resemble(file.as_file(), replaced)?;
    }
    // The file itself: what it says of a fault does not name a file that nobody knows.
    let mut file = file.as_file();
    file.write_all(bytes)?;
    file.sync_all()
}

/// Gives a new file the mode and owner of the one that it replaces. The owner can be kept by whom the system lets; the
/// group then still can.
fn resemble(file: &File, replaced: &Metadata) -> io::Result<()> {
    #[cfg(unix)]
    {
        use std::os::unix::fs::{MetadataExt, fchown};
        let ours = file.metadata()?;
        if (ours.uid(), ours.gid()) != (replaced.uid(), replaced.gid()) {
            let _ = fchown(file, Some(replaced.uid()), Some(replaced.gid()))
                .or_else(|_| fchown(file, None, Some(replaced.gid())));
        }
    }
    file.set_permissions(replaced.permissions())
}

/// Removes what runs have left half written in a folder.
fn sweep(folder: &Path) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries.flatten() {
        let name = entry.file_name();
        let is_ours = name.to_str().is_some_and(|name| name.starts_with(PREFIX) && name.ends_with(SUFFIX));
        let is_stale = |metadata: Metadata| {
            let age = metadata.modified().ok().and_then(|then| SystemTime::now().duration_since(then).ok());
            metadata.is_file() && age.is_some_and(|age| age > STALE)
        };
        if is_ours && entry.metadata().is_ok_and(is_stale) {
            let _ = fs::remove_file(entry.path());
        }
    }
}
