//! The hall console worked by hand: every sum stands beside its check.

use casewright::measure::{Exact, Length, Unit};
use casewright::model::{MemoryFiles, Size};
use casewright::parts::{Direction, FeatureKind, Part};
use casewright::pipeline::{self, Compilation};
use casewright::plans::hardware;

fn console() -> Compilation {
    let files = MemoryFiles::one("console", include_str!("../specs/hall-console.case"));
    pipeline::check(&files, "console").expect("readable")
}

/// `26-1/2` as a length in inches.
fn inches(text: &str) -> Length {
    let (whole, fraction) = match (text.split_once('-'), text.contains('/')) {
        (Some((whole, fraction)), _) => (whole, Some(fraction)),
        (None, true) => ("0", Some(text)),
        (None, false) => (text, None),
    };
    let mut value = Exact::int(whole.parse().expect("a number"));
    if let Some((numer, denom)) = fraction.and_then(|fraction| fraction.split_once('/')) {
        value += Exact::ratio(numer.parse().expect("a number"), denom.parse().expect("a number"));
    }
    Length::new(value, Unit::Inch)
}

fn part<'a>(compiled: &'a Compilation, name: &str) -> &'a Part {
    let parts = compiled.parts.as_ref().expect("parts");
    let path = format!("console.{name}");
    parts.named(&path).unwrap_or_else(|| panic!("no part {path}")).1
}

fn is(compiled: &Compilation, name: &str, length: &str, width: &str) {
    let part = part(compiled, name);
    assert_eq!(part.length.length, inches(length), "length of {name}");
    assert_eq!(part.width.length, inches(width), "width of {name}");
}

#[test]
fn the_frame() {
    let c = console();
    // 33 high less the 4 of the base: 29.
    is(&c, "left-stile", "29", "1-3/4");
    is(&c, "right-stile", "29", "2-1/2");
    // 66 − 1-3/4 − 2-1/2 = 61-3/4.
    is(&c, "top-rail", "61-3/4", "1-1/2");
    is(&c, "bottom-rail", "61-3/4", "1-1/2");
    // 29 − 1-1/2 − 1-1/2 = 26.
    is(&c, "stile-bank-press", "26", "1-1/2");
    is(&c, "stile-press-niche", "26", "1-1/2");
    is(&c, "bank.rail-upper-middle", "17-1/4", "1-1/2");
    is(&c, "bank.rail-middle-lower", "17-1/4", "1-1/2");
}

#[test]
fn the_openings() {
    let c = console();
    let case = &c.piece.as_ref().expect("a piece").cases[0];
    let opening = |name: &str| {
        let path = format!("console.{name}");
        case.openings.iter().find(|o| o.path == path).unwrap_or_else(|| panic!("no {path}"))
    };
    // 17-1/4 + 1-1/2 + 26-1/2 + 1-1/2 + 15 = 61-3/4.
    assert_eq!(opening("bank").wide.length, inches("17-1/4"));
    assert_eq!(opening("press").wide.length, inches("26-1/2"));
    assert_eq!(opening("niche").wide.length, inches("15"));
    // 5 + 1-1/2 + 9 + 1-1/2 + 9 = 26.
    assert_eq!(opening("bank.upper").high.length, inches("5"));
    assert_eq!(opening("bank.middle").high.length, inches("9"));
    assert_eq!(opening("bank.lower").high.length, inches("9"));
}

#[test]
fn the_fronts() {
    let c = console();
    // 17-1/4 − 2 × 3/32 = 17-1/16; 5 − 3/16 = 4-13/16; 9 − 3/16 = 8-13/16.
    is(&c, "bank.upper.front", "17-1/16", "4-13/16");
    is(&c, "bank.middle.front", "17-1/16", "8-13/16");
    is(&c, "bank.lower.front", "17-1/16", "8-13/16");
    // (26-1/2 − 2 × 3/32 − 1/8) / 2 = 13-3/32; 26 − 3/16 = 25-13/16.
    is(&c, "press.left-door", "25-13/16", "13-3/32");
    is(&c, "press.right-door", "25-13/16", "13-3/32");
}

#[test]
fn the_carcass() {
    let c = console();
    // The left end is 17 to the long point of its miter, the right end 17 − 3/4.
    is(&c, "left-end", "33", "17");
    is(&c, "right-end", "33", "16-1/4");
    // 66 − 3/4 scribe = 65-1/4 wide over the ends.
    let right = part(&c, "right-end").cuboid();
    assert_eq!(right.to.x, inches("65-1/4"));
    // 65-1/4 − 23/32 = 64-17/32.
    assert_eq!(right.from.x, inches("64-17/32"));
    // 65-1/4 − 2 × 23/32 = 63-13/16 between them; + 2 × 1/4 dado = 64-5/16.
    assert_eq!(part(&c, "front-stretcher").length.length, inches("63-13/16"));
    // 16-1/4 − 13/64 back = 16-3/64 deep.
    is(&c, "bottom", "64-5/16", "16-3/64");
    // 63-13/16 + 2 × 3/8 rabbet = 64-9/16 by 33 − 4.
    is(&c, "back", "64-9/16", "29");
    // 33 − 4 − 2 × 23/32 = 27-9/16 between bottom and stretchers; + 2 × 1/4 dado.
    is(&c, "partition-bank-press", "27-9/16", "16-3/64");
    is(&c, "partition-press-niche", "28-1/16", "16-3/64");
}

#[test]
fn the_drawers() {
    let c = console();
    // 17-1/4 − 1-5/8 = 15-5/8 inside; + 2 × 5/8 = 16-7/8 outside.
    let left = part(&c, "bank.upper.left-side").cuboid();
    let right = part(&c, "bank.upper.right-side").cuboid();
    assert_eq!(right.to.x - left.from.x, inches("16-7/8"));
    assert_eq!(right.from.x - left.to.x, inches("15-5/8"));
    // 5 − 7/8 = 4-1/8; 9 − 7/8 = 8-1/8; as long as the slide.
    is(&c, "bank.upper.left-side", "15", "4-1/8");
    is(&c, "bank.middle.left-side", "15", "8-1/8");
    // 15-5/8 + 2 × 5/16 − 1/16 play = 16-3/16; 15 − 2 × 5/8 + 5/8 − 1/16 = 14-5/16.
    is(&c, "bank.upper.box-bottom", "16-3/16", "14-5/16");
    // The boards that bring the slides flush: 1-3/4 − 23/32 = 1-1/32 and
    // (1-1/2 − 23/32) / 2 = 25/64.
    assert_eq!(part(&c, "bank.upper.left-packer").thickness.length, inches("1-1/32"));
    assert_eq!(part(&c, "bank.upper.right-packer").thickness.length, inches("25/64"));
}

/// 17-1/16 at 3/4: 22 flutes from 21/32 on. 13-3/32 at 47/64: 17 flutes from
/// 43/64 on, and over the gap of 1/8 two margins make two pitches.
#[test]
fn the_flutes() {
    let c = console();
    let centers = |name: &str| -> Vec<Length> {
        let flutes = part(&c, name).features.iter();
        let flutes = flutes.filter(|f| matches!(f.kind, FeatureKind::Flute(_)));
        // A drawer front lies with its length across, a door with its width.
        let across = name.starts_with("bank");
        flutes.map(|f| if across { f.center().0 } else { f.center().1 }).collect()
    };
    let (drawer, door) = (centers("bank.upper.front"), centers("press.left-door"));
    assert_eq!((drawer.len(), door.len()), (22, 17));
    assert_eq!((drawer[0], door[0]), (inches("21/32"), inches("43/64")));
    assert_eq!(door[0] * 2 + inches("1/8"), inches("47/64") * 2);
}

/// The box front is 5/8, the front 3/4, and 1/4 of thread is in the pull: 3/4 + 5/8 +
/// 1/4 = 1-5/8 for two screws on each of three drawers; 3/4 + 1/4 = 1 for two on each
/// of two doors.
#[test]
fn the_screws_of_the_pulls() {
    let c = console();
    let (piece, parts) = (c.piece.as_ref().expect("a piece"), c.parts.as_ref().expect("parts"));
    let mut screws: Vec<(Length, u32)> = hardware::pull_screws(piece, parts)
        .iter()
        .map(|screw| (screw.length(casewright::measure::Unit::Inch), screw.number))
        .collect();
    screws.sort_unstable();
    assert_eq!(screws, [(inches("1"), 4), (inches("1-5/8"), 6)]);
}

/// What a size is over the sum of its facts.
fn rest(compiled: &Compilation, size: &Size) -> Length {
    let facts = &compiled.piece.as_ref().expect("a piece").facts;
    size.length - facts.of(size).map(|(fact, factor)| fact.length * factor).sum::<Length>()
}

#[test]
fn every_size_is_the_sum_of_its_facts() {
    let c = console();
    let piece = c.piece.as_ref().expect("a piece");
    let mut by_rule = 0;
    for part in &c.parts.as_ref().expect("parts").all {
        let of = |size| (part.path.as_str(), rest(&c, size));
        for size in [&part.length, &part.width, &part.thickness] {
            assert_eq!(of(size), (part.path.as_str(), Length::ZERO));
        }
        // The slide's own rule: a box is 1-5/8 narrower inside than its
        // opening and 7/8 lower.
        let taken =
            |size, off: &str| piece.facts.of(size).any(|(fact, _)| fact.length == -inches(off));
        let drawer = part.path.starts_with("console.bank.");
        let (across, up) = match part.path.rsplit('.').next() {
            Some("box-front" | "box-back") if drawer => (true, true),
            Some("box-bottom") if drawer => (true, false),
            Some("left-side" | "right-side") if drawer => (false, true),
            _ => (false, false),
        };
        assert_eq!(taken(&part.length, "1-5/8"), across, "{}", part.path);
        assert_eq!(taken(&part.width, "7/8"), up, "{}", part.path);
        by_rule += usize::from(across || up);
    }
    // Five boards to each of three boxes.
    assert_eq!(by_rule, 15);
}

/// The case is 66 over the frame, of which the scribe at the right wall takes 3/4: the
/// ends stand 65-1/4 apart over all, and the kick across their notches ends flush with
/// both. What is left to the wall, 3/4 by the 4 of the kick and the 1/2 that is left on it
/// to be scribed to the floor, is a strip of its own.
#[test]
fn a_kick_ends_flush_with_the_ends_and_a_strip_goes_to_the_wall() {
    let compiled = console();
    is(&compiled, "kick", "65-1/4", "4");
    let across = |name: &str| part(&compiled, name).extent(Direction::X);
    let (from, to) = across("kick");
    assert_eq!((from, to), (across("left-end").0, across("right-end").1));
    assert_eq!((from, to), (inches("0"), inches("65-1/4")));
    let packet = casewright::papers::packet(&compiled).expect("papers");
    let list = packet.iter().find(|file| file.name == "cut-list.txt").expect("the cut list");
    let strip = list.text.lines().find(|line| line.contains("1  scribe strip ")).expect("a strip");
    let words: Vec<&str> = strip.split_whitespace().collect();
    let row = "1 scribe strip 4-1/2 3/4 birch-ply KICK, from its right end to the wall";
    assert_eq!(words.join(" "), row);
}

/// In the other corner the kick starts where the left end does, and two walls take a
/// scribe off each side: 66 − 3/4 − 1/2 = 64-3/4.
#[test]
fn a_kick_between_two_walls_has_a_strip_at_both_ends() {
    let text = include_str!("../specs/hall-console.case")
        .replace("left      open ", "left      wall { scribe 1/2 } ")
        .replace("; seam miter }", " }");
    let files = MemoryFiles::one("console", &text);
    let compiled = pipeline::check(&files, "console").expect("readable");
    is(&compiled, "kick", "64-3/4", "4");
    assert_eq!(part(&compiled, "kick").extent(Direction::X), (inches("1/2"), inches("65-1/4")));
    let (piece, parts) = (compiled.piece.as_ref().unwrap(), compiled.parts.as_ref().unwrap());
    let strips = casewright::plans::scribe_strips::scribe_strips(piece, parts);
    let sizes: Vec<_> = strips.iter().map(|strip| (strip.wide, strip.high)).collect();
    assert_eq!(sizes, [(inches("1/2"), inches("4-1/2")), (inches("3/4"), inches("4-1/2"))]);
}
