//! The folder of papers, replaced as a whole.
//!
//! The new set is written into a folder beside the old one, and the two change
//! names in one step of the system (Linux, macOS). Whoever looks, and a kill
//! at any moment, finds the old set or the new one. Where the system or the
//! disk has no such step, two renames do it; a kill between them leaves the
//! old set under its other name, and the next run puts it back.
//!
//! A file named [`MANIFEST`] lists what we wrote. Nothing else in the folder is
//! ever overwritten or removed: it moves over to the new folder. While a run
//! works on a folder it holds a lock on the manifest there, so that another
//! can tell its work from the leftovers of a run that was killed. On Windows,
//! where no folder is renamed that holds an open file, runs take turns instead.
//!
//! This guards against a kill, not against a power cut: nothing waits for the
//! disk, since a set of papers can be written again from its spec.

use std::collections::BTreeSet;
use std::ffi::{OsStr, OsString};
use std::fs::{self, File, TryLockError};
use std::io::{self, ErrorKind, Write as _};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};

use crate::diagnostics::render::plain;

use super::shown;

mod turn;

/// The list of our files, by which we know a folder as ours.
const MANIFEST: &str = ".casewright";

/// The end of the name under which an old set waits between two renames.
const OLD: &str = "-old";

/// How often a name for the working folder is tried.
const TRIES: u32 = 1000;

/// How many working folders this process has begun.
static STARTED: AtomicU64 = AtomicU64::new(0);

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
    let _turn = turn::wait(&target)?;
    target.tidy()?;
    let ours = target.ours()?;
    for (name, _) in files {
        let path = target.folder.join(name);
        if path.is_dir() || (exists(&path) && !ours.contains(OsStr::new(name))) {
            return Err(refuse(format!(
                "{} is not one of casewright's papers",
                shown::path(&path)
            )));
        }
    }
    let mut fresh = Fresh::start(&target)?;
    match fresh.fill(files).and_then(|()| target.swap(&mut fresh)) {
        Ok(()) => target.settle(&fresh.folder),
        Err(error) => {
            // The first reason is worth more than one found while clearing up.
            let _ = fs::remove_dir_all(&fresh.folder);
            Err(error)
        }
    }
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
                shown::path(&self.folder)
            )));
        }
        Ok(ours)
    }

    /// Puts the new set in the place of the old one, which then stands where
    /// the new one was written.
    fn swap(&self, fresh: &mut Fresh) -> io::Result<()> {
        if cfg!(windows) {
            // There a folder can't be renamed while a file in it is open. It is
            // our turn, so nobody misses the lock.
            fresh.manifest = None;
        }
        if !exists(&self.folder) {
            return fs::rename(&fresh.folder, &self.folder);
        }
        fs::set_permissions(&fresh.folder, fs::metadata(&self.folder)?.permissions())?;
        if exchange(&fresh.folder, &self.folder)? {
            return Ok(());
        }
        let aside = self.beside(&format!("{}{OLD}", std::process::id()));
        fs::rename(&self.folder, &aside)?;
        if let Err(error) = fs::rename(&fresh.folder, &self.folder) {
            fs::rename(&aside, &self.folder)?;
            return Err(error);
        }
        fs::rename(&aside, &fresh.folder)
    }

    /// Puts right what runs that were killed have left behind.
    fn tidy(&self) -> io::Result<()> {
        let prefix = self.working.as_encoded_bytes();
        let mut leftovers: Vec<PathBuf> = fs::read_dir(&self.parent)?
            .filter_map(Result::ok)
            .filter(|entry| entry.file_name().as_encoded_bytes().starts_with(prefix))
            .map(|entry| entry.path())
            .collect();
        leftovers.sort();
        for leftover in leftovers {
            let Ok(manifest) = File::open(leftover.join(MANIFEST)) else {
                // Killed before it could write anything; not ours if it holds
                // something all the same.
                let _ = fs::remove_dir(&leftover);
                continue;
            };
            let lock = manifest.try_lock();
            if cfg!(windows) {
                // There an open file keeps its folder from being renamed or
                // removed; it is our turn, so no other run works here.
                drop(manifest);
            }
            let is_old = leftover.as_os_str().as_encoded_bytes().ends_with(OLD.as_bytes());
            match lock {
                Err(TryLockError::WouldBlock) => {}
                _ if is_old && !exists(&self.folder) => fs::rename(&leftover, &self.folder)?,
                Ok(()) => self.settle(&leftover)?,
                // Without locks a leftover looks like another run's work.
                Err(TryLockError::Error(_)) => {}
            }
        }
        Ok(())
    }

    /// Clears a folder that has been replaced: what is not ours moves back to
    /// where it was, what is ours goes.
    fn settle(&self, replaced: &Path) -> io::Result<()> {
        let ours = listed(replaced)?;
        let mut kept = None;
        for entry in gone_is_fine(fs::read_dir(replaced).map(Some))?.into_iter().flatten() {
            let entry = entry?;
            let name = entry.file_name();
            if name == MANIFEST {
                continue;
            }
            if ours.contains(&name) && !entry.path().is_dir() {
                gone_is_fine(fs::remove_file(entry.path()))?;
            } else if exists(&self.folder) && !exists(&self.folder.join(&name)) {
                gone_is_fine(fs::rename(entry.path(), self.folder.join(&name)))?;
            } else {
                kept = Some(entry.path());
            }
        }
        if let Some(kept) = kept {
            let reason = format!(
                "{} is not one of casewright's files, and it could not be moved back",
                shown::path(&kept)
            );
            return Err(refuse(reason));
        }
        // The manifest goes last: until then a kill leaves a folder that the
        // next run knows as ours.
        gone_is_fine(fs::remove_file(replaced.join(MANIFEST)))?;
        for _ in 0..TRIES {
            match gone_is_fine(fs::remove_dir(replaced)) {
                // Another run has moved a file back into it while it was ours.
                Err(error) if error.kind() == ErrorKind::DirectoryNotEmpty => {
                    self.move_back(replaced)?;
                }
                done => return done,
            }
        }
        Err(refuse(format!("{} can't be cleared", shown::path(replaced))))
    }

    /// Moves everything that is left in a folder to where the papers are.
    fn move_back(&self, replaced: &Path) -> io::Result<()> {
        for entry in gone_is_fine(fs::read_dir(replaced).map(Some))?.into_iter().flatten() {
            let entry = entry?;
            let home = self.folder.join(entry.file_name());
            if exists(&home) {
                let reason = format!("{} could not be moved back", shown::path(&entry.path()));
                return Err(refuse(reason));
            }
            gone_is_fine(fs::rename(entry.path(), home))?;
        }
        Ok(())
    }
}

/// A folder in which a new set is being written.
struct Fresh {
    folder: PathBuf,
    /// Locked for as long as this run works.
    manifest: Option<File>,
}

impl Fresh {
    fn start(target: &Target) -> io::Result<Self> {
        for _ in 0..TRIES {
            // No name is used twice: who still clears the leftover of one run
            // must not find the work of the next under it.
            let number = STARTED.fetch_add(1, Ordering::Relaxed);
            let folder = target.beside(&format!("{}-{number}", std::process::id()));
            match fs::create_dir(&folder) {
                Err(error) if error.kind() == ErrorKind::AlreadyExists => continue,
                other => other?,
            }
            let path = folder.join(MANIFEST);
            let manifest = match File::create_new(&path) {
                Err(error) if error.kind() == ErrorKind::NotFound => continue,
                other => other?,
            };
            // Until it is locked, another run may take the folder for a
            // leftover and clear it; then the next name is tried.
            let lock = manifest.try_lock();
            if !matches!(lock, Err(TryLockError::WouldBlock)) && exists(&path) {
                return Ok(Self { folder, manifest: Some(manifest) });
            }
        }
        Err(refuse(format!("casewright can't make a folder in {}", shown::path(&target.parent))))
    }

    fn fill(&mut self, files: &[(&str, &[u8])]) -> io::Result<()> {
        let mut names: Vec<&str> = files.iter().map(|(name, _)| *name).collect();
        names.sort_unstable();
        let list: String = names.iter().map(|name| format!("{name}\n")).collect();
        if let Some(manifest) = &mut self.manifest {
            manifest.write_all(list.as_bytes())?;
        }
        for (name, bytes) in files {
            fs::write(self.folder.join(name), bytes)?;
        }
        Ok(())
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

/// Two runs may clear the same leftover; what is gone already is no error.
fn gone_is_fine<T: Default>(result: io::Result<T>) -> io::Result<T> {
    match result {
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(T::default()),
        other => other,
    }
}

fn refuse(reason: impl Into<String>) -> io::Error {
    io::Error::other(reason.into())
}

#[cfg(test)]
mod tests;
