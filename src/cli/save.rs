//! A file replaced as a whole: its new text is written beside it, and one
//! rename puts it in place. A kill at any moment leaves the old or the new.

use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use tempfile::NamedTempFile;

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
            return Err(io::Error::other("it is no plain file"));
        }
        if about.permissions().readonly() {
            return Err(io::Error::other("it may only be read"));
        }
        let folder = target.parent().ok_or_else(|| io::Error::other("it lies in no folder"))?;
        let mut fresh = tempfile::Builder::new().prefix(".casewright-").tempfile_in(folder)?;
        fresh.write_all(text.as_bytes())?;
        fresh.as_file().set_permissions(about.permissions())?;
        // Unlike a paper, a spec can't be written again after a power cut.
        fresh.as_file().sync_all()?;
        Ok(Self { fresh, target, old: old.to_owned() })
    }

    /// Puts the new text in the place of the old one.
    pub(super) fn commit(self) -> io::Result<()> {
        if std::fs::read(&self.target)? != self.old.as_bytes() {
            return Err(io::Error::other("it was changed while casewright worked on it"));
        }
        self.fresh.persist(&self.target).map(|_| ()).map_err(|error| error.error)
    }
}
