//! A file replaced as a whole: its new text is written beside it, and one
//! rename puts it in place. A kill at any moment leaves the old or the new, and
//! of two that save at once the later sees what the first has done.

use std::fs::{File, TryLockError};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use tempfile::NamedTempFile;

/// How long another may hold the file. A save holds it for a moment only.
const PATIENCE: Duration = Duration::from_secs(2);

/// How the names begin under which new texts wait beside their files.
const PREFIX: &str = ".casewright-";

/// A new text is held from its first moment on, give or take a slow disk.
const SURELY_HELD: Duration = Duration::from_secs(10);

/// A new text that waits beside its file.
#[derive(Debug)]
pub(super) struct Staged {
    fresh: NamedTempFile,
    /// The file itself, never a link to it.
    target: PathBuf,
    /// What the new text was made from.
    old: String,
}

impl Staged {
    /// Writes the new text beside the file, which stays as it is.
    pub(super) fn new(file: &Path, old: &str, text: &str) -> io::Result<Self> {
        let target = file.canonicalize()?;
        let about = target.metadata()?;
        if !about.is_file() {
            return Err(io::Error::other("it is not a plain file"));
        }
        if about.permissions().readonly() {
            return Err(io::Error::other("it is read-only"));
        }
        let folder = target.parent().ok_or_else(|| io::Error::other("it is not in a folder"))?;
        clear(folder);
        let mut fresh = tempfile::Builder::new().prefix(PREFIX).tempfile_in(folder)?;
        // Held as long as this run lives: one that nobody holds is left over. Where the
        // drive has no locks, none is taken for one.
        let _ = fresh.as_file().try_lock();
        fresh.write_all(text.as_bytes())?;
        fresh.as_file().set_permissions(about.permissions())?;
        // Unlike a paper, a spec can't be written again after a power cut.
        fresh.as_file().sync_all()?;
        Ok(Self { fresh, target, old: old.to_owned() })
    }

    /// Puts the new text in the place of the old one.
    pub(super) fn commit(self) -> io::Result<()> {
        // Nobody else puts a text there between the look and the rename.
        let _lock = lock(&self.target)?;
        if std::fs::read(&self.target)? != self.old.as_bytes() {
            return Err(io::Error::other("it changed while casewright worked on it"));
        }
        self.fresh.persist(&self.target).map(|_| ()).map_err(|error| error.error)
    }
}

/// Removes what runs that were killed have left in a folder. What can't be
/// looked at or removed stays: it does no harm.
fn clear(folder: &Path) {
    let Ok(entries) = std::fs::read_dir(folder) else { return };
    let is_ours = |entry: &std::fs::DirEntry| {
        let name = entry.file_name();
        name.to_str().and_then(|name| name.strip_prefix(PREFIX)).is_some_and(|rest| {
            rest.len() == 6 && rest.bytes().all(|own| own.is_ascii_alphanumeric())
        })
    };
    for entry in entries.filter_map(Result::ok).filter(is_ours) {
        let age = entry.metadata().ok().filter(std::fs::Metadata::is_file);
        let age = age.and_then(|about| about.modified().ok()?.elapsed().ok());
        let path = entry.path();
        let left = age.is_some_and(|age| age > SURELY_HELD)
            && File::open(&path).is_ok_and(|file| file.try_lock().is_ok());
        if left {
            let _ = std::fs::remove_file(&path);
        }
    }
}

/// Waits until no other run saves this file, and keeps others waiting until it
/// is dropped. The lock is the file's own, so that nothing is left beside it.
#[cfg(unix)]
fn lock(target: &Path) -> io::Result<File> {
    use std::os::unix::fs::MetadataExt as _;
    let end = Instant::now() + PATIENCE;
    loop {
        // On network drives only a file that may be written can be locked.
        let file = File::options().read(true).write(true).open(target);
        let file = file.or_else(|_| File::open(target))?;
        take(&file, end)?;
        // Whoever had it may have put another file in its place meanwhile.
        let (own, there) = (file.metadata()?, target.metadata()?);
        if (own.dev(), own.ino()) == (there.dev(), there.ino()) {
            return Ok(file);
        }
    }
}

/// A file that is open can't be replaced here: the lock is one for this file
/// among those that come and go.
#[cfg(not(unix))]
fn lock(target: &Path) -> io::Result<File> {
    let name = crate::measure::digest([target.as_os_str().as_encoded_bytes()]);
    let place = std::env::temp_dir().join(format!("casewright-{name:016x}.lock"));
    let file = File::options().create(true).append(true).open(place)?;
    take(&file, Instant::now() + PATIENCE)?;
    Ok(file)
}

/// Where the drive has no locks, what was read is compared all the same.
fn take(file: &File, end: Instant) -> io::Result<()> {
    while let Err(TryLockError::WouldBlock) = file.try_lock() {
        if Instant::now() >= end {
            return Err(io::Error::other("another program is using it"));
        }
        std::thread::sleep(Duration::from_millis(5));
    }
    Ok(())
}

#[cfg(test)]
mod tests;
