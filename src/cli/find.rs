//! Which specs a command was given: files as they are, folders with every
//! spec under them.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use super::git::simple;
use super::paths;
use super::spec_source::SpecSource;
use super::terminal::complain;

/// The ending of a spec.
const ENDING: &str = "case";

/// A file to look at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Candidate {
    pub(super) path: PathBuf,
    /// It was found in a folder, so it may be one that others use.
    pub(super) found: bool,
}

/// What the paths that were typed come to.
#[derive(Debug, Default)]
pub(super) struct Candidates {
    pub(super) all: Vec<Candidate>,
    /// A folder was among them.
    pub(super) searched: bool,
    /// A folder could not be read, or holds no such file.
    pub(super) failed: bool,
}

/// Files in the order they were typed, those of a folder sorted in its place.
pub(super) fn candidates(typed: &[PathBuf], source: &SpecSource) -> Candidates {
    let mut candidates = Candidates::default();
    for path in typed {
        if !source.is_folder(path) {
            candidates.all.push(Candidate { path: path.clone(), found: false });
            continue;
        }
        candidates.searched = true;
        let Found { files, all_read } = source.specs(path);
        candidates.failed |= !all_read;
        if files.is_empty() {
            complain(&format!("there is no .{ENDING} file in {}", paths::display(path)));
            candidates.failed = true;
        }
        for path in files {
            if candidates.all.iter().all(|known| simple(&known.path) != path) {
                candidates.all.push(Candidate { path, found: true });
            }
        }
    }
    candidates
}

/// The specs of a folder.
#[derive(Debug)]
pub(super) struct Found {
    /// Sorted.
    pub(super) files: Vec<PathBuf>,
    /// False where a folder below can't be read.
    pub(super) all_read: bool,
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
