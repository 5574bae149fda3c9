//! A spec, changed as a whole: whoever looks finds the old text or the new one.

use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::Path;

/// Puts `new` in the place of `old` in a file.
///
/// # Errors
/// What stands in the way; the file is as it was then.
pub(super) fn rewrite(path: &Path, old: &str, new: &str) -> io::Result<()> {
    // The file itself, never a link to it.
    let path = path.canonicalize()?;
    let permissions = fs::metadata(&path)?.permissions();
    if permissions.readonly() {
        return Err(io::Error::other("it may not be written"));
    }
    let (Some(folder), Some(name)) = (path.parent(), path.file_name()) else {
        return Err(io::Error::other("it has no name"));
    };
    let mut fresh = std::ffi::OsString::from(".");
    fresh.push(name);
    fresh.push(format!(".casewright-{}", std::process::id()));
    let fresh = folder.join(fresh);
    let mut file = File::create_new(&fresh)?;
    let written = file
        .write_all(new.as_bytes())
        .and_then(|()| file.set_permissions(permissions))
        .and_then(|()| file.sync_all())
        .and_then(|()| unchanged(&path, old))
        .and_then(|()| fs::rename(&fresh, &path));
    if written.is_err() {
        // The first reason is worth more than one found while clearing up.
        let _ = fs::remove_file(&fresh);
    }
    written
}

/// An editor may have saved it since it was read.
fn unchanged(path: &Path, old: &str) -> io::Result<()> {
    match fs::read(path)? == old.as_bytes() {
        true => Ok(()),
        false => Err(io::Error::other("it was changed meanwhile")),
    }
}
