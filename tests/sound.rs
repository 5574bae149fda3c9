//! The demo pieces: sound, complete, and possible in space.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that can't go on stops"
)]

use std::fs;
use std::path::Path;

use casewright::measure::Length;
use casewright::model::MemoryFiles;
use casewright::papers;
use casewright::parts::{Direction, FeatureKind, Part, PartId, Parts};
use casewright::pipeline::{self, Compilation};

/// Every spec that holds a piece, compiled, with its name.
fn pieces() -> Vec<(String, Compilation)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let mut texts: Vec<(String, String)> = fs::read_dir(folder)
        .expect("the specs")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "case"))
        .map(|path| {
            let name = path.file_name().expect("a name").to_string_lossy().into_owned();
            (name, fs::read_to_string(path).expect("a spec"))
        })
        .collect();
    texts.sort();
    let files =
        texts.iter().fold(MemoryFiles::default(), |files, (name, text)| files.with(name, text));
    texts
        .iter()
        .filter(|(_, text)| text.lines().any(|line| line.starts_with("case ")))
        .map(|(name, _)| (name.clone(), pipeline::check(&files, name).expect("readable")))
        .collect()
}

#[test]
fn the_demo_pieces_are_sound_and_their_papers_are_whole() {
    let pieces = pieces();
    assert!(pieces.len() >= 4);
    for (name, compiled) in pieces {
        let titles: Vec<&str> = compiled.diagnostics.iter().map(|d| d.title.as_str()).collect();
        assert!(titles.is_empty(), "{name}: {titles:#?}");
        let packet = papers::packet(&compiled).expect("papers");
        for file in &packet {
            assert!(file.text.len() > 100, "{name}: {} is empty", file.name);
        }
        // Every part stands on the cut list by its mark.
        let list = packet.iter().find(|file| file.name == "cut-list.txt").expect("a cut list");
        for part in &compiled.parts.expect("parts").all {
            assert!(list.text.contains(&part.mark), "{name}: {} is missing", part.mark);
        }
    }
}

#[test]
fn marks_are_short_and_no_two_parts_share_one() {
    for (name, compiled) in pieces() {
        let parts = compiled.parts.expect("parts");
        let mut marks: Vec<&str> = parts.all.iter().map(|part| part.mark.as_str()).collect();
        marks.sort_unstable();
        let all = marks.len();
        marks.dedup();
        assert_eq!(marks.len(), all, "{name}");
        for mark in marks {
            assert!(mark.len() <= 12, "{name}: {mark} is too long to pencil");
        }
    }
}

/// What a joint lets two parts share: the depth of the deepest channel, tenon
/// or mitre of either.
fn shared_depth(parts: &Parts, a: PartId, b: PartId) -> Option<Length> {
    let joined = parts
        .joints
        .iter()
        .any(|joint| (joint.part, joint.into) == (a, b) || (joint.part, joint.into) == (b, a));
    let deep = |part: &Part| {
        part.features
            .iter()
            .filter(|f| !matches!(f.kind, FeatureKind::Bore(_) | FeatureKind::Flute(_)))
            .map(|f| f.deep)
            .max()
            .unwrap_or_default()
    };
    let (a, b) = (parts.get(a)?, parts.get(b)?);
    joined.then(|| deep(a).max(deep(b)))
}

/// Geometry: two boards can't be in one place, but for the joint between them.
#[test]
fn no_two_parts_share_space_but_by_their_joint() {
    let mut wrong = Vec::new();
    for (name, compiled) in pieces() {
        let parts = compiled.parts.expect("parts");
        let all: Vec<(PartId, &Part)> = parts.iter().collect();
        for (i, (a, first)) in all.iter().enumerate() {
            for (b, second) in &all[i + 1..] {
                let (one, two) = (first.cuboid(), second.cuboid());
                if !one.overlaps(&two) {
                    continue;
                }
                let least = [Direction::X, Direction::Y, Direction::Z]
                    .into_iter()
                    .map(|direction| one.overlap_along(&two, direction))
                    .min()
                    .unwrap_or_default();
                if shared_depth(&parts, *a, *b).is_none_or(|deep| least > deep) {
                    wrong.push(format!("{name}: {} and {} by {least:?}", first.path, second.path));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_same_spec_gives_the_same_bytes() {
    let twice = [pieces(), pieces()];
    let [first, second] = twice;
    for ((name, a), (_, b)) in first.iter().zip(&second) {
        assert_eq!(papers::packet(a), papers::packet(b), "{name}");
    }
}
