//! Which specs a command was given: files as they are, folders with every
//! spec under them.

use std::ffi::OsStr;
use std::path::{Component, Path, PathBuf};

use super::shown;
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
pub(super) fn candidates(typed: &[PathBuf]) -> Candidates {
    let mut candidates = Candidates::default();
    for path in typed {
        if !path.is_dir() {
            candidates.all.push(Candidate { path: path.clone(), found: false });
            continue;
        }
        candidates.searched = true;
        let mut files = Vec::new();
        candidates.failed |= !walk(path, &mut files);
        files.sort();
        if files.is_empty() {
            complain(&format!("there is no .{ENDING} file in {}", shown::path(path)));
            candidates.failed = true;
        }
        for path in files {
            if candidates.all.iter().all(|known| tidy(&known.path) != path) {
                candidates.all.push(Candidate { path, found: true });
            }
        }
    }
    candidates
}

/// Every file with the ending below a folder; hidden ones and links are left
/// out. False where something can't be read.
fn walk(root: &Path, files: &mut Vec<PathBuf>) -> bool {
    let mut readable = true;
    let mut folders = vec![root.to_path_buf()];
    while let Some(folder) = folders.pop() {
        let entries = std::fs::read_dir(&folder).and_then(Iterator::collect::<Result<Vec<_>, _>>);
        let entries = entries.unwrap_or_else(|error| {
            complain(&format!("{} can't be read: {error}", shown::path(&folder)));
            readable = false;
            Vec::new()
        });
        for entry in entries {
            let path = entry.path();
            let hidden = entry.file_name().as_encoded_bytes().starts_with(b".");
            let Ok(kind) = entry.file_type() else { continue };
            if hidden {
                continue;
            }
            if kind.is_dir() {
                folders.push(path);
            } else if kind.is_file() && path.extension() == Some(OsStr::new(ENDING)) {
                files.push(tidy(&path));
            }
        }
    }
    readable
}

/// Without the `.` that only says where one is.
fn tidy(path: &Path) -> PathBuf {
    path.components().filter(|part| *part != Component::CurDir).collect()
}
