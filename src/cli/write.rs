//! The folder of papers, replaced as a whole.
//!
//! The new set is written to a folder beside the old one and then takes its
//! place by renaming, so that a reader, or a kill at any moment, finds the old
//! set or the new one. Between the two renames the old set lies in a folder of
//! a known name; the next run puts it back if the new one never arrived.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// The list of our files, by which we know a folder as ours.
const MANIFEST: &str = ".casewright";

/// Replaces the folder by these files. Other people's files in it are kept.
///
/// # Errors
/// The system's reason; nothing has changed then.
pub(super) fn replace(folder: &Path, files: &[(&str, &[u8])]) -> io::Result<()> {
    let folder = folder.to_path_buf();
    let name = folder.file_name().ok_or_else(|| io::Error::other("the folder has no name"))?;
    let beside = |suffix: &str| -> PathBuf {
        let mut sibling = std::ffi::OsString::from(".");
        sibling.push(name);
        sibling.push(suffix);
        folder.with_file_name(sibling)
    };
    let (fresh, old) = (beside(".new"), beside(".old"));
    if let Some(parent) = folder.parent().filter(|parent| !parent.as_os_str().is_empty()) {
        fs::create_dir_all(parent)?;
    }
    recover(&folder, &fresh, &old)?;
    if is_foreign(&folder)? {
        return Err(io::Error::other(format!(
            "{} holds files that are not papers of casewright; name another folder with --into",
            folder.display()
        )));
    }
    fs::create_dir(&fresh)?;
    let written = fill(&fresh, files).and_then(|()| keep_others(&folder, &fresh, files));
    if let Err(error) = written.and_then(|()| swap(&folder, &fresh, &old)) {
        // The reason is worth more than a second failure while clearing up.
        let _ = fs::remove_dir_all(&fresh);
        return Err(error);
    }
    Ok(())
}

/// Puts things right after a run that was killed.
fn recover(folder: &Path, fresh: &Path, old: &Path) -> io::Result<()> {
    if old.exists() {
        if folder.exists() {
            fs::remove_dir_all(old)?;
        } else {
            fs::rename(old, folder)?;
        }
    }
    if fresh.exists() {
        fs::remove_dir_all(fresh)?;
    }
    Ok(())
}

/// True for a folder that is there, is not empty, and was not written by us.
fn is_foreign(folder: &Path) -> io::Result<bool> {
    match fs::read_dir(folder) {
        Ok(mut entries) => Ok(entries.next().is_some() && !folder.join(MANIFEST).exists()),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(false),
        Err(error) => Err(error),
    }
}

fn fill(fresh: &Path, files: &[(&str, &[u8])]) -> io::Result<()> {
    let mut manifest = String::new();
    for (name, bytes) in files {
        fs::write(fresh.join(name), bytes)?;
        manifest.push_str(name);
        manifest.push('\n');
    }
    fs::write(fresh.join(MANIFEST), manifest)
}

/// Copies what someone else has put into the folder.
fn keep_others(folder: &Path, fresh: &Path, files: &[(&str, &[u8])]) -> io::Result<()> {
    let Ok(manifest) = fs::read_to_string(folder.join(MANIFEST)) else { return Ok(()) };
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let name = entry.file_name();
        let text = name.to_string_lossy();
        let ours = text == MANIFEST
            || manifest.lines().any(|line| line == text)
            || files.iter().any(|(file, _)| *file == text);
        if !ours && entry.file_type()?.is_file() {
            fs::copy(entry.path(), fresh.join(&name))?;
        }
    }
    Ok(())
}

fn swap(folder: &Path, fresh: &Path, old: &Path) -> io::Result<()> {
    if folder.exists() {
        fs::rename(folder, old)?;
        if let Err(error) = fs::rename(fresh, folder) {
            fs::rename(old, folder)?;
            return Err(error);
        }
        // The new set stands; a leftover of the old one goes next time.
        let _ = fs::remove_dir_all(old);
        return Ok(());
    }
    fs::rename(fresh, folder)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_folder_is_replaced_as_a_whole_and_foreign_files_stay() {
        let place = tempfile::tempdir().expect("a folder");
        let folder = place.path().join("papers");
        replace(&folder, &[("a.txt", b"1"), ("b.txt", b"2")]).expect("written");
        fs::write(folder.join("photo.jpg"), b"x").expect("a file");
        replace(&folder, &[("a.txt", b"3")]).expect("written");
        assert_eq!(fs::read(folder.join("a.txt")).expect("a"), b"3");
        assert!(!folder.join("b.txt").exists());
        assert!(folder.join("photo.jpg").exists());
        let left: Vec<_> = fs::read_dir(place.path()).expect("list").collect();
        assert_eq!(left.len(), 1);
    }

    #[test]
    fn a_folder_of_someone_else_is_left_alone() {
        let place = tempfile::tempdir().expect("a folder");
        fs::write(place.path().join("letter.txt"), b"x").expect("a file");
        assert!(replace(place.path(), &[("a.txt", b"1")]).is_err());
        assert!(!place.path().join("a.txt").exists());
    }

    #[test]
    fn a_run_killed_between_the_renames_is_put_right() {
        let place = tempfile::tempdir().expect("a folder");
        let folder = place.path().join("papers");
        replace(&folder, &[("a.txt", b"1")]).expect("written");
        fs::rename(&folder, place.path().join(".papers.old")).expect("renamed");
        fs::create_dir(place.path().join(".papers.new")).expect("made");
        replace(&folder, &[("a.txt", b"2")]).expect("written");
        assert_eq!(fs::read(folder.join("a.txt")).expect("a"), b"2");
    }
}
