#![allow(clippy::unwrap_used, reason = "a test that can't go on stops")]

use std::collections::BTreeSet;
use std::path::Path;
use std::sync::Mutex;

use super::Staged;

fn add(file: &Path, line: &str) -> bool {
    let old = std::fs::read_to_string(file).unwrap();
    Staged::new(file, &old, &format!("{old}{line}\n")).and_then(Staged::commit).is_ok()
}

#[test]
fn what_is_said_to_be_saved_by_many_at_once_is_in_the_file() {
    let place = tempfile::tempdir().unwrap();
    let file = place.path().join("a.case");
    std::fs::write(&file, "").unwrap();
    let saved = Mutex::new(BTreeSet::new());
    std::thread::scope(|scope| {
        for thread in 0..8 {
            let (file, saved) = (&file, &saved);
            scope.spawn(move || {
                for round in 0..40 {
                    let line = format!("{thread}-{round}");
                    if add(file, &line) {
                        saved.lock().unwrap().insert(line);
                    }
                }
            });
        }
    });
    let saved = saved.into_inner().unwrap();
    let text = std::fs::read_to_string(&file).unwrap();
    assert_eq!(text.lines().map(str::to_owned).collect::<BTreeSet<_>>(), saved);
    assert_eq!(text.lines().count(), saved.len());
    assert!(saved.len() >= 40, "nobody waits in vain: {}", saved.len());
    // Nothing lies beside it.
    assert_eq!(std::fs::read_dir(place.path()).unwrap().count(), 1);
}

#[test]
fn a_text_that_was_changed_meanwhile_is_kept() {
    let place = tempfile::tempdir().unwrap();
    let file = place.path().join("a.case");
    std::fs::write(&file, "one").unwrap();
    let staged = Staged::new(&file, "one", "two").unwrap();
    assert!(add(&file, "and more"));
    assert!(staged.commit().unwrap_err().to_string().contains("changed while"));
    assert_eq!(std::fs::read_to_string(&file).unwrap(), "oneand more\n");
}

#[cfg(unix)]
#[test]
fn nobody_waits_for_ever_for_a_file_that_another_holds() {
    let place = tempfile::tempdir().unwrap();
    let file = place.path().join("a.case");
    std::fs::write(&file, "one").unwrap();
    let held = std::fs::File::open(&file).unwrap();
    held.lock().unwrap();
    let staged = Staged::new(&file, "one", "two").unwrap();
    assert!(staged.commit().unwrap_err().to_string().contains("another program is using it"));
    assert_eq!(std::fs::read_to_string(&file).unwrap(), "one");
    // Nothing lies beside it.
    assert_eq!(std::fs::read_dir(place.path()).unwrap().count(), 1);
}

#[test]
fn what_killed_runs_have_left_is_cleared() {
    let place = tempfile::tempdir().unwrap();
    let file = place.path().join("a.case");
    std::fs::write(&file, "").unwrap();
    let hour = std::time::Duration::from_secs(3600);
    let left = |name: &str, age: std::time::Duration| {
        let path = place.path().join(name);
        std::fs::write(&path, "half").unwrap();
        let file = std::fs::File::options().write(true).open(&path).unwrap();
        file.set_modified(std::time::SystemTime::now() - age).unwrap();
        (path, file)
    };
    let (old, _) = left(".casewright-aB3xYz", hour);
    // One that a run holds, one that is just begun, and names that are not ours.
    let (held, holds) = left(".casewright-aaaaaa", hour);
    holds.lock().unwrap();
    let (begun, _) = left(".casewright-bbbbbb", std::time::Duration::ZERO);
    let (other, _) = left(".casewright-notes", hour);
    assert!(add(&file, "one"));
    assert!(!old.exists());
    assert!(held.exists() && begun.exists() && other.exists());
}
