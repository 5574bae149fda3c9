//! Which specs a command was given: files as they are, folders with every
//! spec under them.

use std::path::PathBuf;

use super::found::{ENDING, Found};
use super::git::simple;
use super::paths;
use super::spec_source::SpecSource;
use super::terminal::complain;

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
