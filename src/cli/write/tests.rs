//! The folder of papers under friendly and unfriendly treatment.

#[cfg(any(target_os = "linux", target_vendor = "apple"))]
use std::{
    process::{Command, Stdio},
    time::Duration,
};

use super::*;

const A: &[(&str, &[u8])] = &[("cut-list.txt", b"A"), ("order.txt", b"A"), ("only-a.txt", b"A")];
const B: &[(&str, &[u8])] = &[("cut-list.txt", b"B"), ("order.txt", b"B"), ("only-b.txt", b"B")];

/// What a folder holds, without the manifest.
fn contents(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let mut found: Vec<_> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap())
        .filter(|entry| entry.file_name() != MANIFEST && entry.path().is_file())
        .map(|entry| (entry.file_name().into_string().unwrap(), fs::read(entry.path()).unwrap()))
        .collect();
    found.sort();
    found
}

fn set(files: &[(&str, &[u8])]) -> Vec<(String, Vec<u8>)> {
    let mut files: Vec<_> =
        files.iter().map(|(name, bytes)| ((*name).to_owned(), bytes.to_vec())).collect();
    files.sort();
    files
}

fn names(folder: &Path) -> Vec<String> {
    let mut names: Vec<_> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

#[test]
fn a_set_replaces_the_one_before_it() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("deep/er/papers");
    replace(&folder, A).unwrap();
    assert_eq!(contents(&folder), set(A));
    replace(&folder, B).unwrap();
    assert_eq!(contents(&folder), set(B));
    assert_eq!(names(folder.parent().unwrap()), ["papers"]);
}

#[test]
fn other_files_and_folders_stay() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("papers");
    replace(&folder, A).unwrap();
    fs::write(folder.join("photo.jpg"), "p").unwrap();
    fs::create_dir(folder.join("notes")).unwrap();
    fs::write(folder.join("notes/wood.txt"), "n").unwrap();
    replace(&folder, B).unwrap();
    assert_eq!(fs::read(folder.join("photo.jpg")).unwrap(), b"p");
    assert_eq!(fs::read(folder.join("notes/wood.txt")).unwrap(), b"n");
    assert!(!folder.join("only-a.txt").exists());
    assert_eq!(names(place.path()), ["papers"]);
}

#[test]
fn someone_elses_folder_or_file_is_refused() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("letters");
    fs::create_dir(&folder).unwrap();
    replace(&folder, A).unwrap();

    fs::write(folder.join("only-b.txt"), "mine").unwrap();
    let error = replace(&folder, B).unwrap_err().to_string();
    assert!(error.contains("only-b.txt is not one of casewright's papers"), "{error}");
    assert_eq!(fs::read(folder.join("only-b.txt")).unwrap(), b"mine");

    fs::remove_file(folder.join(MANIFEST)).unwrap();
    let error = replace(&folder, A).unwrap_err().to_string();
    assert!(error.contains("holds files that are not papers"), "{error}");
    assert_eq!(fs::read(folder.join("cut-list.txt")).unwrap(), b"A");
    assert_eq!(names(place.path()), ["letters"]);
}

#[test]
fn the_folder_one_stands_in_and_a_file_are_refused() {
    assert!(replace(Path::new("."), A).is_err());
    let place = tempfile::tempdir().unwrap();
    let file = place.path().join("papers");
    fs::write(&file, "x").unwrap();
    assert!(replace(&file, A).is_err());
    assert_eq!(fs::read(&file).unwrap(), b"x");
}

#[cfg(unix)]
#[test]
fn a_link_to_the_folder_stays_a_link() {
    let place = tempfile::tempdir().unwrap();
    let (real, link) = (place.path().join("real"), place.path().join("link"));
    replace(&real, A).unwrap();
    std::os::unix::fs::symlink(&real, &link).unwrap();
    replace(&link, B).unwrap();
    assert!(link.is_symlink());
    assert_eq!(contents(&real), set(B));
}

#[test]
fn names_that_lead_elsewhere_or_mean_a_device_are_refused() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("papers");
    for name in [
        "", ".", "..", "a/b", "a\\b", "/etc", ".hidden", "-x", "CON", "nul.txt", "lpt1.a.b", "a\n",
        "é", "a:b", "x.",
    ] {
        assert!(replace(&folder, &[(name, b"")]).is_err(), "{name:?}");
    }
    assert!(replace(&folder, &[("a.txt", b""), ("A.txt", b"")]).is_err());
    assert!(!folder.exists());
    replace(&folder, &[("console.txt", b"")]).unwrap();
}

#[test]
fn a_set_that_waits_between_two_renames_is_put_back() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("papers");
    replace(&folder, A).unwrap();
    fs::write(folder.join("photo.jpg"), "p").unwrap();
    fs::rename(&folder, place.path().join(".papers.casewright-old")).unwrap();
    replace(&folder, B).unwrap();
    assert!(folder.join("photo.jpg").exists());
    assert_eq!(names(place.path()), ["papers"]);
}

#[test]
fn a_leftover_gives_back_what_is_not_ours() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("papers");
    let leftover = place.path().join(".papers.casewright-new");
    replace(&leftover, A).unwrap();
    fs::write(leftover.join("photo.jpg"), "p").unwrap();
    replace(&folder, B).unwrap_err();
    // Until there is a folder to give it back to.
    fs::create_dir(&folder).unwrap();
    replace(&folder, B).unwrap_err();
    assert_eq!(fs::read(folder.join("photo.jpg")).unwrap(), b"p");
    fs::remove_file(folder.join("photo.jpg")).unwrap();
    replace(&folder, B).unwrap();
    assert_eq!((names(place.path()), contents(&folder)), (vec!["papers".to_owned()], set(B)));
}

#[test]
fn a_folder_of_someone_else_in_the_way_stays() {
    let place = tempfile::tempdir().unwrap();
    let other = place.path().join(".papers.casewright-new");
    fs::create_dir(&other).unwrap();
    fs::write(other.join("letter.txt"), "l").unwrap();
    let error = replace(&place.path().join("papers"), A).unwrap_err().to_string();
    assert!(error.contains("letter.txt is not one of casewright's papers"), "{error}");
    assert_eq!(fs::read(other.join("letter.txt")).unwrap(), b"l");
}

#[test]
fn runs_at_the_same_time_take_turns() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("papers");
    replace(&folder, A).unwrap();
    fs::write(folder.join("photo.jpg"), "p").unwrap();
    std::thread::scope(|scope| {
        for files in [A, B, A, B] {
            let folder = &folder;
            scope.spawn(move || {
                for _ in 0..20 {
                    replace(folder, files).unwrap();
                }
            });
        }
    });
    assert_eq!(names(place.path()), ["papers"]);
    fs::remove_file(folder.join("photo.jpg")).unwrap();
    let left = contents(&folder);
    assert!(left == set(A) || left == set(B), "{left:?}");
}

/// Not a test by itself: the process that the next test kills.
#[test]
#[ignore = "runs until it is killed"]
fn writes_until_killed() {
    let folder = PathBuf::from(std::env::var_os("PAPERS").unwrap());
    loop {
        replace(&folder, B).unwrap();
        replace(&folder, A).unwrap();
    }
}

#[cfg(any(target_os = "linux", target_vendor = "apple"))]
#[test]
fn killed_at_any_moment_the_folder_holds_one_whole_set() {
    let place = tempfile::tempdir().unwrap();
    let folder = place.path().join("papers");
    replace(&folder, A).unwrap();
    fs::write(folder.join("photo.jpg"), "p").unwrap();
    let with_photo = |files: &[(&str, &[u8])]| {
        let mut all = files.to_vec();
        all.push(("photo.jpg", b"p"));
        set(&all)
    };
    let mut interrupted = 0;
    for round in 0..400 {
        if interrupted == 20 {
            break;
        }
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args(["--exact", "cli::write::tests::writes_until_killed", "--ignored"])
            .env("PAPERS", &folder)
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        std::thread::sleep(Duration::from_micros(2000 + 617 * (round % 40)));
        child.kill().unwrap();
        child.wait().unwrap();
        interrupted += usize::from(names(place.path()).len() > 1);
        let left: Vec<_> =
            contents(&folder).into_iter().filter(|(name, _)| name != "photo.jpg").collect();
        assert!(left == set(A) || left == set(B), "round {round}: {left:?}");
        // The next run brings back what the killed one had in hand.
        replace(&folder, A).unwrap();
        assert_eq!(contents(&folder), with_photo(A), "round {round}");
        assert_eq!(names(place.path()), ["papers"], "round {round}");
    }
    assert!(interrupted > 0, "no kill came while the papers were being written");
}
