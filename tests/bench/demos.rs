//! The demo pieces: the shop builds each of them from its packet.

use casewright::model::MemoryFiles;
use casewright::papers::{self, Format};
use casewright::pipeline::{self, Compilation};
use serde_json::Value;

use super::gates::Stop;
use super::{build, build_anew, mutants, off, open};
use crate::support::{demo_pieces, specs};

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

/// A spec with the sheets as they were measured.
pub(super) fn entered(text: &str, unit: &str, stops: &[Stop]) -> String {
    let stocks: String = stops
        .iter()
        .map(|Stop { sheet, thick }| format!("  stock {sheet} {{ actual {thick} {unit} }}\n"))
        .collect();
    format!("{text}\nmeasured {{\n{stocks}}}\n")
}

/// The unit of the job that a packet is for.
pub(super) fn unit(packet: &str) -> String {
    let packet: Value = serde_json::from_str(packet).unwrap();
    packet["job"]["unit"].as_str().unwrap().to_owned()
}

/// Wood that is off: a reading finds it, its remedy helps, and the piece is built
/// all the same.
#[test]
fn the_shop_builds_every_demo_piece_of_wood_that_is_off() {
    let (all, mut found, mut mended) = (specs(), Vec::new(), 0);
    for (name, packet) in packets() {
        for (what, own) in off::ALL {
            let file = format!("{name}.case");
            let anew = |stops: &[Stop]| {
                let files = all.iter().fold(MemoryFiles::one("", ""), |files, (name, text)| {
                    let text = match *name == file {
                        true => entered(text, &unit(&packet), stops),
                        false => text.clone(),
                    };
                    files.with(name, &text)
                });
                self::packet(&pipeline::check(&files, &file).unwrap())
            };
            let report = build_anew(&packet, own, anew);
            mended += report.mended;
            let complaints = report.complaints.iter();
            found.extend(complaints.map(|complaint| format!("{name}, {what}: {complaint}")));
        }
    }
    assert!(found.is_empty(), "{} complaints: {found:#?}", found.len());
    assert!(mended > 20, "{mended}");
}

#[test]
fn demo_pieces_have_no_thin_walls() {
    let walls = packets().into_iter().flat_map(|(name, packet)| {
        build(&packet).thin_walls.into_iter().map(move |wall| format!("{name}: {wall}"))
    });
    assert_eq!(walls.collect::<Vec<_>>(), Vec::<String>::new());
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
