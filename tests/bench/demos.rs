//! The demo pieces: the shop builds each of them from its packet.

use casewright::papers::{self, Format};
use casewright::pipeline::Compilation;
use serde_json::Value;

use super::{build, mutants, open};
use crate::support::demo_pieces;

/// The packet of a piece, as `casewright build` writes it.
pub(super) fn packet(compiled: &Compilation) -> Option<String> {
    papers::one(compiled, "packet", Format::Json)
}

/// The packet of every demo piece.
fn packets() -> Vec<(String, String)> {
    let all = demo_pieces().into_iter();
    all.map(|(name, compiled)| (name, packet(&compiled).unwrap())).collect()
}

#[test]
fn the_shop_builds_every_demo_piece() {
    let packets = packets();
    assert!(packets.len() >= 4);
    let mut found = Vec::new();
    for (name, packet) in &packets {
        let complaints = build(packet).complaints;
        found.extend(complaints.iter().map(|complaint| format!("{name}: {complaint}")));
    }
    let unknown: Vec<&String> =
        found.iter().filter(|own| !open::is_known(own, &[open::IN_DEMOS])).collect();
    assert!(unknown.is_empty(), "{} complaints: {unknown:#?}", unknown.len());
    for known in open::IN_DEMOS {
        assert!(found.iter().any(|own| open::has_all(own, known)), "{known:?} is mended");
    }
}

/// Doors with a panel 12 thick in stiles of 19 have 3.5 beside their grooves.
#[test]
fn thin_walls_of_the_demo_pieces_are_known() {
    let walls = packets().into_iter().flat_map(|(name, packet)| {
        build(&packet).thin_walls.into_iter().map(move |wall| format!("{name}: {wall}"))
    });
    let known = |wall: &String| {
        wall.starts_with("tide-cottage-press: LI") && wall.contains("only 3.5 is left beside")
    };
    let unknown: Vec<String> = walls.filter(|wall| !known(wall)).collect();
    assert!(unknown.is_empty(), "{unknown:#?}");
}

#[test]
fn mistakes_in_the_packets_of_demo_pieces_are_noticed() {
    let packets = packets().into_iter();
    let packets: Vec<(String, Value)> =
        packets.map(|(name, packet)| (name, serde_json::from_str(&packet).unwrap())).collect();
    let (made, unnoticed) = mutants::unnoticed(&packets, mutants::each());
    assert!(made > 0);
    assert!(unnoticed.len() * 50 <= made, "{} of {made}: {unnoticed:#?}", unnoticed.len());
}
