//! The specs in and below a folder.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use super::git::simple;
use super::paths;
use super::terminal::complain;

/// The ending of a spec.
pub(super) const ENDING: &str = "case";

/// The specs of a folder.
#[derive(Debug)]
pub(super) struct Found {
    /// Sorted.
    pub(super) files: Vec<PathBuf>,
    /// False where a folder below can't be read.
    pub(super) all_read: bool,
}

/// The specs in a folder itself, sorted; none where it can't be read.
pub(super) fn beside(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let files = entries.filter(|entry| entry.file_type().is_ok_and(|kind| kind.is_file()));
    let files = files.filter(|entry| !is_hidden(&entry.file_name()));
    let mut specs: Vec<PathBuf> =
        files.map(|entry| entry.path()).filter(|own| has_ending(own)).collect();
    specs.sort();
    specs
}

/// Every spec in and below a folder on disk, none where it is not there;
/// hidden ones and links are left out.
pub(super) fn below(root: &Path) -> Found {
    let mut found = Found { files: Vec::new(), all_read: true };
    let mut folders: Vec<PathBuf> = root.is_dir().then(|| root.to_path_buf()).into_iter().collect();
    while let Some(folder) = folders.pop() {
        let entries = std::fs::read_dir(&folder).and_then(Iterator::collect::<Result<Vec<_>, _>>);
        let entries = entries.unwrap_or_else(|error| {
            complain(&format!("{} can't be read: {error}", paths::display(&folder)));
            found.all_read = false;
            Vec::new()
        });
        for entry in entries {
            let path = entry.path();
            let Ok(kind) = entry.file_type() else { continue };
            if is_hidden(&entry.file_name()) {
                continue;
            }
            if kind.is_dir() {
                folders.push(path);
            } else if kind.is_file() && has_ending(&path) {
                found.files.push(simple(&path));
            }
        }
    }
    found.files.sort();
    found
}

/// True for the path of a spec within a folder, none of it hidden.
pub(super) fn is_spec(within: &Path) -> bool {
    has_ending(within) && !within.iter().any(is_hidden)
}

fn has_ending(path: &Path) -> bool {
    path.extension() == Some(OsStr::new(ENDING))
}

fn is_hidden(name: &OsStr) -> bool {
    name.as_encoded_bytes().starts_with(b".")
}
