//! The folder of papers, replaced as a whole.
//!
//! The new set is written into a folder beside the old one, and the two change
//! names in one step of the system (Linux, macOS). Whoever looks, and a kill
//! at any moment, finds the old set or the new one. Where the system or the
//! disk has no such step, two renames do it; a kill between them leaves the
//! old set under its other name, and the next run puts it back.
//!
//! A file named [`MANIFEST`] lists what we wrote. Nothing else in the folder is
//! ever overwritten or removed: it moves over to the new folder. Runs on one
//! folder take turns, so that what a run finds beside it is a leftover.
//!
//! This guards against a kill, not against a power cut: nothing waits for the
//! disk, since a set of papers can be written again from its spec.

use std::collections::BTreeSet;
use std::ffi::{OsStr, OsString};
use std::fs::{self, File, TryLockError};
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use crate::diagnostics::render::plain;

use super::paths;

/// The list of our files, by which we know a folder as ours.
const MANIFEST: &str = ".casewright";

/// The end of the name under which a new set is written.
const NEW: &str = "new";

/// The end of the name under which an old set waits between two renames.
const OLD: &str = "old";

/// How long a run waits for its turn. Others need it for a moment only.
const PATIENCE: Duration = Duration::from_secs(10);

/// Among how many locks the folders of a system are shared out: a lock for each
/// would leave a file for each.
const LOCKS: u64 = 64;

/// Names that mean a device on some systems, with any ending (Microsoft,
/// "Naming Files, Paths, and Namespaces").
const DEVICES: [&str; 22] = [
    "con", "prn", "aux", "nul", "com1", "com2", "com3", "com4", "com5", "com6", "com7", "com8",
    "com9", "lpt1", "lpt2", "lpt3", "lpt4", "lpt5", "lpt6", "lpt7", "lpt8", "lpt9",
];

/// A name for a folder that every system can have: what means a device on some
/// gets a word before it, and what can't be seen or typed a hyphen.
pub(super) fn folder_name(name: &OsStr) -> OsString {
    let text = name.to_string_lossy();
    let wild = |c: char| plain(c.encode_utf8(&mut [0; 4])) != c.to_string();
    let device = is_device(&text);
    if !device && !text.contains(wild) {
        return name.to_owned();
    }
    let shown = text.replace(wild, "-");
    OsString::from(if device { format!("piece-{shown}") } else { shown })
}

/// Replaces the set of papers in `folder` by these files.
///
/// # Errors
/// What stands in the way; the old set is untouched then, except where the
/// error says where something of it was left.
pub(super) fn replace(folder: &Path, files: &[(&str, &[u8])]) -> io::Result<()> {
    let mut names = BTreeSet::new();
    for (name, _) in files {
        if !is_safe(name) || !names.insert(name.to_lowercase()) {
            return Err(refuse(format!("a paper can't be called `{name}`")));
        }
    }
    let target = Target::find(folder)?;
    let _turn = turn(&target.folder)?;
    target.recover()?;
    let ours = target.ours()?;
    for (name, _) in files {
        let path = target.folder.join(name);
        if path.is_dir() || (exists(&path) && !ours.contains(OsStr::new(name))) {
            return Err(refuse(format!(
                "{} is not one of casewright's papers",
                paths::display(&path)
            )));
        }
    }
    let fresh = target.beside(NEW);
    fs::create_dir(&fresh)?;
    match fill(&fresh, files).and_then(|()| target.swap(&fresh)) {
        Ok(()) => target.settle(&fresh),
        Err(error) => {
            // The first reason is worth more than one found while clearing up.
            let _ = fs::remove_dir_all(&fresh);
            Err(error)
        }
    }
}

/// Waits until no other run writes into the folder, and keeps others waiting
/// until it is dropped, also by a kill. Where there are no locks, none waits.
fn turn(folder: &Path) -> io::Result<Option<File>> {
    let number = crate::measure::digest([folder.as_os_str().as_encoded_bytes()]) % LOCKS;
    let place = std::env::temp_dir().join(format!("casewright-papers-{number}.lock"));
    let file = File::open(&place);
    let Ok(file) = file.or_else(|_| File::options().create(true).append(true).open(&place)) else {
        return Ok(None);
    };
    let end = Instant::now() + PATIENCE;
    while let Err(TryLockError::WouldBlock) = file.try_lock() {
        if Instant::now() >= end {
            let folder = paths::display(folder);
            return Err(refuse(format!(
                "another run of casewright is still writing into {folder}"
            )));
        }
        std::thread::sleep(Duration::from_millis(1));
    }
    Ok(Some(file))
}

/// Writes a set into a new folder, its list first: a kill leaves nothing that
/// the next run would not know as ours.
fn fill(fresh: &Path, files: &[(&str, &[u8])]) -> io::Result<()> {
    let mut names: Vec<&str> = files.iter().map(|(name, _)| *name).collect();
    names.sort_unstable();
    let list: String = names.iter().map(|name| format!("{name}\n")).collect();
    fs::write(fresh.join(MANIFEST), list)?;
    files.iter().try_for_each(|(name, bytes)| fs::write(fresh.join(name), bytes))
}

/// Where the papers go.
struct Target {
    /// The folder itself, never a link to it.
    folder: PathBuf,
    parent: PathBuf,
    /// How the names of our working folders beside it start.
    working: OsString,
}

impl Target {
    fn find(folder: &Path) -> io::Result<Self> {
        let folder = match folder.canonicalize() {
            Ok(real) => real,
            Err(error) if error.kind() == ErrorKind::NotFound => {
                let name = folder.file_name().ok_or_else(|| refuse("the folder has no name"))?;
                let parent = folder.parent().filter(|parent| !parent.as_os_str().is_empty());
                let parent = parent.unwrap_or(Path::new("."));
                fs::create_dir_all(parent)?;
                parent.canonicalize()?.join(name)
            }
            Err(error) => return Err(error),
        };
        if std::env::current_dir().is_ok_and(|here| here.starts_with(&folder)) {
            return Err(refuse("that is the folder you are in; name another one"));
        }
        let parent = folder.parent().ok_or_else(|| refuse("the folder has no name"))?.to_path_buf();
        let mut working = OsString::from(".");
        working.push(folder.file_name().unwrap_or_default());
        working.push(".casewright-");
        Ok(Self { folder, parent, working })
    }

    fn beside(&self, ending: &str) -> PathBuf {
        let mut name = self.working.clone();
        name.push(ending);
        self.parent.join(name)
    }

    /// What in the folder is ours.
    fn ours(&self) -> io::Result<BTreeSet<OsString>> {
        let mut entries = match fs::read_dir(&self.folder) {
            Ok(entries) => entries,
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(BTreeSet::new()),
            Err(error) => return Err(error),
        };
        let ours = listed(&self.folder)?;
        if ours.is_empty() && entries.next().is_some() {
            return Err(refuse(format!(
                "{} holds files that are not papers; name a folder that holds nothing else",
                paths::display(&self.folder)
            )));
        }
        Ok(ours)
    }

    /// Puts the new set in the place of the old one, which then stands where
    /// the new one was written.
    fn swap(&self, fresh: &Path) -> io::Result<()> {
        if !exists(&self.folder) {
            return fs::rename(fresh, &self.folder);
        }
        fs::set_permissions(fresh, fs::metadata(&self.folder)?.permissions())?;
        if exchange(fresh, &self.folder)? {
            return Ok(());
        }
        let aside = self.beside(OLD);
        fs::rename(&self.folder, &aside)?;
        if let Err(error) = fs::rename(fresh, &self.folder) {
            fs::rename(&aside, &self.folder)?;
            return Err(error);
        }
        fs::rename(&aside, fresh)
    }

    /// Puts right what a run that was killed has left behind.
    fn recover(&self) -> io::Result<()> {
        let aside = self.beside(OLD);
        if exists(&aside) && !exists(&self.folder) {
            fs::rename(&aside, &self.folder)?;
        }
        self.settle(&aside)?;
        self.settle(&self.beside(NEW))
    }

    /// Clears a folder that has been replaced, if there is one: what is not
    /// ours moves back to where it was, what is ours goes.
    fn settle(&self, replaced: &Path) -> io::Result<()> {
        let entries = match fs::read_dir(replaced) {
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(()),
            entries => entries?,
        };
        let ours = listed(replaced)?;
        for entry in entries {
            let entry = entry?;
            let (name, home) = (entry.file_name(), self.folder.join(entry.file_name()));
            if name == MANIFEST {
                continue;
            }
            if ours.contains(&name) && !entry.path().is_dir() {
                fs::remove_file(entry.path())?;
            } else if ours.is_empty() || !exists(&self.folder) || exists(&home) {
                let reason =
                    format!("{} is not one of casewright's papers", paths::display(&entry.path()));
                return Err(refuse(reason));
            } else {
                fs::rename(entry.path(), home)?;
            }
        }
        // The manifest goes last: until then a kill leaves a folder that the
        // next run knows as ours.
        if !ours.is_empty() {
            fs::remove_file(replaced.join(MANIFEST))?;
        }
        fs::remove_dir(replaced)
    }
}

/// The names in a folder's manifest; none where it has no manifest.
fn listed(folder: &Path) -> io::Result<BTreeSet<OsString>> {
    match fs::read_to_string(folder.join(MANIFEST)) {
        Ok(text) => {
            let names = text.lines().filter(|name| is_safe(name)).map(OsString::from);
            Ok(names.chain([OsString::from(MANIFEST)]).collect())
        }
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(BTreeSet::new()),
        Err(error) => Err(error),
    }
}

/// Swaps two folders in one step; false where the system or disk can't.
#[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
fn exchange(left: &Path, right: &Path) -> io::Result<bool> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    use rustix::io::Errno;
    let unable = [Errno::INVAL, Errno::NOSYS, Errno::NOTSUP, Errno::OPNOTSUPP];
    match renameat_with(CWD, left, CWD, right, RenameFlags::EXCHANGE) {
        Ok(()) => Ok(true),
        Err(error) if unable.contains(&error) => Ok(false),
        Err(error) => Err(error.into()),
    }
}

/// Swaps two folders in one step; false where the system or disk can't.
#[cfg(not(any(target_os = "linux", target_os = "android", target_vendor = "apple")))]
fn exchange(_: &Path, _: &Path) -> io::Result<bool> {
    Ok(false)
}

/// True for a name that is a plain file in its folder on every system.
fn is_safe(name: &str) -> bool {
    let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.');
    (1..=100).contains(&name.len())
        && name.chars().all(plain)
        && !name.starts_with(['.', '-'])
        && !name.ends_with('.')
        && !is_device(name)
}

/// True for a name that means a device on some systems.
fn is_device(name: &str) -> bool {
    let stem = name.split('.').next().unwrap_or_default().to_ascii_lowercase();
    DEVICES.contains(&stem.as_str())
}

/// True for anything of that name, even a link that leads nowhere.
fn exists(path: &Path) -> bool {
    path.symlink_metadata().is_ok()
}

fn refuse(reason: impl Into<String>) -> io::Error {
    io::Error::other(reason.into())
}

#[cfg(test)]
mod tests;
