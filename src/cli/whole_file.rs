//! One file, replaced as a whole.

use std::ffi::OsString;
use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

/// Writes a file as a whole: whoever looks finds the old one or the new one.
pub(super) fn write(file: &Path, bytes: &[u8]) -> io::Result<()> {
    // A pipe or a device can't be replaced, only written to.
    if file.metadata().is_ok_and(|about| !about.is_file() && !about.is_dir()) {
        return fs::write(file, bytes);
    }
    // A link stays one.
    let file: PathBuf = file.canonicalize().unwrap_or_else(|_| file.to_path_buf());
    let mut beside = OsString::from(".");
    beside.push(file.file_name().ok_or_else(|| io::Error::other("it has no name"))?);
    beside.push(format!(".casewright-{}", std::process::id()));
    let beside = file.with_file_name(beside);
    let mut fresh = File::create_new(&beside)?;
    let written = fresh.write_all(bytes).and_then(|()| fs::rename(&beside, &file));
    if written.is_err() {
        let _ = fs::remove_file(&beside);
    }
    written
}
