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
use casewright::model::{JointKind, MemoryFiles};
use casewright::papers;
use casewright::parts::{Direction, Face, Feature, FeatureKind, JointSort, Part, PartId, Parts};
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

/// Along each axis of space, what a channel, step or notch takes away.
fn cut_away(host: &Part, feature: &Feature) -> [(Length, Length); 3] {
    let (place, space) = (host.placement, host.cuboid());
    let deep_along = place.direction(feature.face);
    let (u_along, v_along) = match feature.face {
        Face::ThickStart | Face::ThickEnd => (place.length, place.width),
        Face::WidthStart | Face::WidthEnd => (place.length, place.thickness),
        Face::LengthStart | Face::LengthEnd => (place.width, place.thickness),
    };
    AXES.map(|axis| {
        let (from, to) = (space.from.along(axis), space.to.along(axis));
        if axis == u_along {
            (from + feature.u.0, from + feature.u.1)
        } else if axis == v_along {
            (from + feature.v.0, from + feature.v.1)
        } else if axis == deep_along && feature.face.is_start() {
            (from, from + feature.deep)
        } else {
            (to - feature.deep, to)
        }
    })
}

/// True where all that two parts share has been cut out of `host`.
fn makes_way(host: &Part, guest: &Part) -> bool {
    let (one, two) = (host.cuboid(), guest.cuboid());
    host.features.iter().filter(|f| f.is_channel() || f.kind == FeatureKind::Notch).any(|feature| {
        AXES.into_iter().zip(cut_away(host, feature)).all(|(axis, (from, to))| {
            let shared_from = one.from.along(axis).max(two.from.along(axis));
            let shared_to = one.to.along(axis).min(two.to.along(axis));
            from <= shared_from && shared_to <= to
        })
    })
}

/// True for two parts that interlock at the edge or end that one of them has
/// been shaped at, no deeper than the shape.
fn interlock(parts: &Parts, a: PartId, b: PartId) -> bool {
    let joined = parts.joints.iter().any(|joint| {
        let shaped = matches!(
            joint.sort,
            JointSort::Mitre | JointSort::Wood(JointKind::Tenon | JointKind::Dovetail)
        );
        shaped && ((joint.part, joint.into) == (a, b) || (joint.part, joint.into) == (b, a))
    });
    let (Some(a), Some(b)) = (parts.get(a), parts.get(b)) else { return false };
    let (one, two) = (a.cuboid(), b.cuboid());
    let shapes = |part: &Part| {
        part.features.iter().any(|f| {
            matches!(f.kind, FeatureKind::Mitre | FeatureKind::Tenon | FeatureKind::Dovetails)
                && one.overlap_along(&two, part.placement.direction(f.face)) <= f.deep
        })
    };
    joined && (shapes(a) || shapes(b))
}

const AXES: [Direction; 3] = [Direction::X, Direction::Y, Direction::Z];

/// Geometry: two boards can't be in one place. What two parts share must have
/// been cut out of one of them, or be the joint by which they interlock.
#[test]
fn no_two_parts_share_space_but_by_their_joint() {
    let (mut wrong, mut shared) = (Vec::new(), 0);
    for (name, compiled) in pieces() {
        let parts = compiled.parts.expect("parts");
        let all: Vec<(PartId, &Part)> = parts.iter().collect();
        for (i, (a, first)) in all.iter().enumerate() {
            for (b, second) in &all[i + 1..] {
                let (one, two) = (first.cuboid(), second.cuboid());
                if !one.overlaps(&two) {
                    continue;
                }
                shared += 1;
                if makes_way(first, second) || makes_way(second, first) {
                    continue;
                }
                if !interlock(&parts, *a, *b) {
                    let by = AXES.map(|axis| one.overlap_along(&two, axis).to_mm_f64());
                    wrong.push(format!("{name}: {} and {} by {by:?} mm", first.path, second.path));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{shared} share, {} wrong:\n{}", wrong.len(), wrong.join("\n"));
    assert!(shared > 100, "{shared}");
}

#[test]
fn the_same_spec_gives_the_same_bytes() {
    let twice = [pieces(), pieces()];
    let [first, second] = twice;
    for ((name, a), (_, b)) in first.iter().zip(&second) {
        assert_eq!(papers::packet(a), papers::packet(b), "{name}");
    }
}
