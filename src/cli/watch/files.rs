//! The files of a spec, and whether they are still what was read.
//!
//! They are looked at, not waited for: editors replace files in many ways, and
//! a look finds every one of them, on every disk.

use std::cell::RefCell;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use crate::cli::disk::{self, Disk};
use crate::measure::digest;
use crate::model::{ReadError, SourceFiles, SourceText};

/// A change within the same tick of the file system's clock leaves the time
/// as it was; the coarsest ticks are two seconds.
const TICK: Duration = Duration::from_secs(2);

/// When a file was written and how long it is; `None` for no plain file.
type Stamp = Option<(SystemTime, u64)>;

/// The files that the last compilation asked for, also those that were not
/// there.
pub(super) struct Watched {
    spec: PathBuf,
    files: Vec<File>,
}

struct File {
    path: PathBuf,
    stamp: Stamp,
    /// Of the text as it was read; `None` where it could not be.
    text: Option<u64>,
}

impl Watched {
    pub(super) fn new(spec: &Path) -> Self {
        Self { spec: spec.to_path_buf(), files: Vec::new() }
    }

    /// Reads anew, and watches what is read.
    pub(super) fn read<R>(&mut self, read: impl FnOnce(&dyn SourceFiles) -> R) -> R {
        let noting = Noting { disk: Disk::for_spec(&self.spec), files: RefCell::default() };
        let result = read(&noting);
        self.files = noting.files.into_inner();
        result
    }

    /// How many files the spec uses.
    pub(super) fn used(&self) -> usize {
        self.files.iter().filter(|file| file.text.is_some()).count().saturating_sub(1)
    }

    /// True where a text is other than it was read.
    pub(super) fn changed(&mut self) -> bool {
        self.files.iter_mut().any(|file| {
            let now = stamp(&file.path);
            if now == file.stamp && is_settled(now) {
                return false;
            }
            file.stamp = now;
            let text = now.and_then(|_| disk::text(&file.path).ok());
            text.map(|text| digest([text.as_bytes()])) != file.text
        })
    }

    /// How the files look from outside.
    pub(super) fn stamps(&self) -> Vec<Stamp> {
        self.files.iter().map(|file| stamp(&file.path)).collect()
    }
}

/// Notes every file that is asked for.
struct Noting {
    disk: Disk,
    files: RefCell<Vec<File>>,
}

impl SourceFiles for Noting {
    fn read(&self, from: Option<&str>, path: &str) -> Result<SourceText, ReadError> {
        let folder = from.and_then(|from| Path::new(from).parent());
        let file = folder.map_or_else(|| PathBuf::from(path), |folder| folder.join(path));
        // Before it is read: what changes meanwhile is a change.
        let stamp = stamp(&file);
        let read = self.disk.read(from, path);
        if !matches!(read, Err(ReadError::Outside)) {
            let text = read.as_ref().ok().map(|source| digest([source.text.as_bytes()]));
            self.files.borrow_mut().push(File { path: file, stamp, text });
        }
        read
    }
}

fn stamp(path: &Path) -> Stamp {
    let about = path.metadata().ok().filter(std::fs::Metadata::is_file)?;
    Some((about.modified().ok()?, about.len()))
}

/// True once a change must show in the time.
fn is_settled(stamp: Stamp) -> bool {
    stamp.is_none_or(|(written, _)| written.elapsed().is_ok_and(|age| age > TICK))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn watched(spec: &Path) -> Watched {
        let mut watched = Watched::new(spec);
        let name = spec.to_string_lossy();
        watched.read(|disk| {
            let first = disk.read(None, &name).unwrap();
            let _ = disk.read(Some(&first.name), "shop.case");
            let _ = disk.read(Some(&first.name), "../outside.case");
        });
        watched
    }

    #[test]
    fn a_change_of_any_text_is_seen_and_nothing_else() {
        let place = tempfile::tempdir().unwrap();
        let at = |name: &str| place.path().join(name);
        std::fs::write(at("a.case"), "one").unwrap();
        let mut files = watched(&at("a.case"));
        assert_eq!(files.used(), 0);
        assert!(!files.changed());
        // The same text again is no change.
        std::fs::write(at("a.case"), "one").unwrap();
        assert!(!files.changed());
        // As long as before, and perhaps within one tick.
        std::fs::write(at("a.case"), "two").unwrap();
        assert!(files.changed());

        // A file that was missing appears.
        let mut files = watched(&at("a.case"));
        std::fs::write(at("shop.case"), "shop").unwrap();
        assert!(files.changed());
        let mut files = watched(&at("a.case"));
        assert_eq!(files.used(), 1);
        assert!(!files.changed());
        std::fs::remove_file(at("a.case")).unwrap();
        assert!(files.changed());
    }

    #[test]
    fn an_old_file_is_known_by_its_time() {
        let place = tempfile::tempdir().unwrap();
        let path = place.path().join("a.case");
        let long_ago = SystemTime::now() - Duration::from_secs(100);
        let write = |text: &str, time| {
            std::fs::write(&path, text).unwrap();
            std::fs::File::options().append(true).open(&path).unwrap().set_modified(time).unwrap();
        };
        write("one", long_ago);
        let mut files = watched(&path);
        assert!(!files.changed());
        write("two", long_ago + Duration::from_secs(1));
        assert!(files.changed());
    }
}
