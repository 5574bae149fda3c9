//! What the faces of a part are called, and what its distances count from. The
//! names stand here as the trade has them; which way a face looks is taken from
//! where the part stands.

use std::collections::BTreeSet;

use casewright::measure::Length;
use casewright::model::{MemoryFiles, RailSide, Side};
use casewright::papers;
use casewright::parts::{
    Bore, Direction, Face, Feature, FeatureKind, Of, Part, PartId, Parts, Role, Which,
};
use casewright::pipeline::{self, Compilation};

use crate::jig::BOTH_FACES;
use crate::support::{compile, spec};

const DEMOS: [&str; 9] = [
    "fern-bank-stand.case",
    "heron-quay-hutch.case",
    "gate-cottage-laundry.case",
    "orchard-lane-chest.case",
    "first.case",
    "hall-console.case",
    "ferry-road-wash-stand.case",
    "tide-cottage-press.case",
    "alcove-shelves.case",
];

/// A kind of part; its six faces, as they look to the left, right, down, up,
/// forward and back; its face side, face edge and datum end.
type Row = (&'static str, [&'static str; 6], [&'static str; 3]);

/// By the trade's names of faces and its rules for marks (common practice, no
/// source): uprights count from the bottom end, lying parts from the left end.
const TABLE: &[Row] = &[
    (
        "left end",
        ["outside face", "inside face", "bottom end", "top end", "front edge", "back edge"],
        ["inside face", "front edge", "bottom end"],
    ),
    (
        "right end",
        ["inside face", "outside face", "bottom end", "top end", "front edge", "back edge"],
        ["inside face", "front edge", "bottom end"],
    ),
    (
        "front left post",
        ["outside face", "inside face", "bottom end", "top end", "front face", "back face"],
        ["front face", "inside face", "top end"],
    ),
    (
        "front right post",
        ["inside face", "outside face", "bottom end", "top end", "front face", "back face"],
        ["front face", "inside face", "top end"],
    ),
    (
        "back left post",
        ["outside face", "inside face", "bottom end", "top end", "front face", "back face"],
        ["back face", "inside face", "top end"],
    ),
    (
        "back right post",
        ["inside face", "outside face", "bottom end", "top end", "front face", "back face"],
        ["back face", "inside face", "top end"],
    ),
    (
        "left end top rail",
        ["outside face", "inside face", "bottom edge", "top edge", "front end", "back end"],
        ["inside face", "bottom edge", "front end"],
    ),
    (
        "left end bottom rail",
        ["outside face", "inside face", "bottom edge", "top edge", "front end", "back end"],
        ["inside face", "top edge", "front end"],
    ),
    (
        "left end panel",
        ["outside face", "inside face", "bottom end", "top end", "front edge", "back edge"],
        ["outside face", "front edge", "bottom end"],
    ),
    (
        "right end top rail",
        ["inside face", "outside face", "bottom edge", "top edge", "front end", "back end"],
        ["inside face", "bottom edge", "front end"],
    ),
    (
        "right end bottom rail",
        ["inside face", "outside face", "bottom edge", "top edge", "front end", "back end"],
        ["inside face", "top edge", "front end"],
    ),
    (
        "right end panel",
        ["inside face", "outside face", "bottom end", "top end", "front edge", "back edge"],
        ["outside face", "front edge", "bottom end"],
    ),
    (
        "left cover",
        ["outside face", "inside face", "bottom end", "top end", "front edge", "back edge"],
        ["inside face", "front edge", "top end"],
    ),
    (
        "right cover",
        ["inside face", "outside face", "bottom end", "top end", "front edge", "back edge"],
        ["inside face", "front edge", "top end"],
    ),
    (
        "partition",
        ["left face", "right face", "bottom end", "top end", "front edge", "back edge"],
        ["left face", "front edge", "bottom end"],
    ),
    (
        "lying",
        ["left end", "right end", "underside", "top face", "front edge", "back edge"],
        ["top face", "front edge", "left end"],
    ),
    (
        "back",
        ["left end", "right end", "bottom edge", "top edge", "inside face", "wall face"],
        ["inside face", "bottom edge", "left end"],
    ),
    (
        "front rail of a web frame",
        ["left end", "right end", "underside", "top face", "front edge", "back edge"],
        ["top face", "back edge", "left end"],
    ),
    (
        "runner of a web frame",
        ["left edge", "right edge", "underside", "top face", "front end", "back end"],
        ["top face", "left edge", "front end"],
    ),
    (
        "tall back",
        ["left edge", "right edge", "bottom end", "top end", "inside face", "wall face"],
        ["inside face", "left edge", "bottom end"],
    ),
    (
        "nailer",
        ["left end", "right end", "bottom edge", "top edge", "front face", "back face"],
        ["front face", "top edge", "left end"],
    ),
    (
        "lower nailer",
        ["left end", "right end", "bottom edge", "top edge", "front face", "back face"],
        ["front face", "bottom edge", "left end"],
    ),
    (
        "kick",
        ["left end", "right end", "bottom edge", "top edge", "front face", "back face"],
        ["front face", "top edge", "left end"],
    ),
    (
        "sleeper",
        ["left face", "right face", "bottom edge", "top edge", "front end", "back end"],
        ["left face", "top edge", "front end"],
    ),
    (
        "left stile",
        ["outer edge", "inner edge", "bottom end", "top end", "front face", "back face"],
        ["front face", "inner edge", "bottom end"],
    ),
    (
        "right stile",
        ["inner edge", "outer edge", "bottom end", "top end", "front face", "back face"],
        ["front face", "inner edge", "bottom end"],
    ),
    (
        "middle stile",
        ["left edge", "right edge", "bottom end", "top end", "front face", "back face"],
        ["front face", "left edge", "bottom end"],
    ),
    (
        "top rail",
        ["left end", "right end", "bottom edge", "top edge", "front face", "back face"],
        ["front face", "bottom edge", "left end"],
    ),
    (
        "other rail",
        ["left end", "right end", "bottom edge", "top edge", "front face", "back face"],
        ["front face", "top edge", "left end"],
    ),
    (
        "slab front",
        ["left end", "right end", "bottom edge", "top edge", "front face", "back face"],
        ["front face", "bottom edge", "left end"],
    ),
    (
        "single door hung left",
        ["hinge edge", "latch edge", "bottom end", "top end", "front face", "back face"],
        ["back face", "hinge edge", "bottom end"],
    ),
    (
        "single door hung right",
        ["latch edge", "hinge edge", "bottom end", "top end", "front face", "back face"],
        ["back face", "hinge edge", "bottom end"],
    ),
    (
        "fluted left leaf",
        ["hinge edge", "meeting edge", "bottom end", "top end", "front face", "back face"],
        ["front face", "hinge edge", "bottom end"],
    ),
    (
        "fluted right leaf",
        ["meeting edge", "hinge edge", "bottom end", "top end", "front face", "back face"],
        ["front face", "hinge edge", "bottom end"],
    ),
    (
        "plain left leaf",
        ["hinge edge", "meeting edge", "bottom end", "top end", "front face", "back face"],
        ["back face", "hinge edge", "bottom end"],
    ),
    (
        "plain right leaf",
        ["meeting edge", "hinge edge", "bottom end", "top end", "front face", "back face"],
        ["back face", "hinge edge", "bottom end"],
    ),
    (
        "left hinge stile",
        ["hinge edge", "inner edge", "bottom end", "top end", "front face", "back face"],
        ["front face", "inner edge", "bottom end"],
    ),
    (
        "right hinge stile",
        ["inner edge", "hinge edge", "bottom end", "top end", "front face", "back face"],
        ["front face", "inner edge", "bottom end"],
    ),
    (
        "right meeting stile",
        ["inner edge", "meeting edge", "bottom end", "top end", "front face", "back face"],
        ["front face", "inner edge", "bottom end"],
    ),
    (
        "left meeting stile",
        ["meeting edge", "inner edge", "bottom end", "top end", "front face", "back face"],
        ["front face", "inner edge", "bottom end"],
    ),
    (
        "right latch stile",
        ["inner edge", "latch edge", "bottom end", "top end", "front face", "back face"],
        ["front face", "inner edge", "bottom end"],
    ),
    (
        "left stile of a drawer front",
        ["outer edge", "inner edge", "bottom end", "top end", "front face", "back face"],
        ["front face", "inner edge", "bottom end"],
    ),
    (
        "right stile of a drawer front",
        ["inner edge", "outer edge", "bottom end", "top end", "front face", "back face"],
        ["front face", "inner edge", "bottom end"],
    ),
    (
        "panel",
        ["left edge", "right edge", "bottom end", "top end", "front face", "back face"],
        ["front face", "left edge", "bottom end"],
    ),
    (
        "upright bead",
        ["left edge", "right edge", "bottom end", "top end", "front face", "back face"],
        ["", "", ""],
    ),
    (
        "lying bead",
        ["left end", "right end", "bottom edge", "top edge", "front face", "back face"],
        ["", "", ""],
    ),
    (
        "left drawer side",
        ["outside face", "inside face", "bottom edge", "top edge", "front end", "back end"],
        ["inside face", "bottom edge", "front end"],
    ),
    (
        "right drawer side",
        ["inside face", "outside face", "bottom edge", "top edge", "front end", "back end"],
        ["inside face", "bottom edge", "front end"],
    ),
    (
        "box front",
        ["left end", "right end", "bottom edge", "top edge", "outside face", "inside face"],
        ["inside face", "bottom edge", "left end"],
    ),
    (
        "box back",
        ["left end", "right end", "bottom edge", "top edge", "inside face", "outside face"],
        ["inside face", "bottom edge", "left end"],
    ),
    (
        "strip",
        ["left edge", "right edge", "underside", "top face", "front end", "back end"],
        ["", "", ""],
    ),
    (
        "packer",
        ["left face", "right face", "bottom edge", "top edge", "front end", "back end"],
        ["", "", ""],
    ),
    (
        "left hinge block",
        ["left face", "right face", "bottom end", "top end", "front edge", "back edge"],
        ["right face", "front edge", "bottom end"],
    ),
    (
        "right hinge block",
        ["left face", "right face", "bottom end", "top end", "front edge", "back edge"],
        ["left face", "front edge", "bottom end"],
    ),
    (
        "holding block",
        ["left face", "right face", "bottom end", "top end", "front edge", "back edge"],
        ["left face", "front edge", "bottom end"],
    ),
    (
        "flat holding block",
        ["left edge", "right edge", "bottom end", "top end", "front face", "back face"],
        ["front face", "left edge", "bottom end"],
    ),
];

/// The row of the table that a part goes by. A door is known by its cups and
/// pulls, not by what the spec calls its sides.
fn kind(parts: &Parts, part: &Part) -> &'static str {
    let left = part.which == Which::At(Side::Left);
    let bored = |bore| part.features.iter().find(|f| f.kind == FeatureKind::Bore(bore));
    let is_at_left = |hole: &Feature| {
        let x = hole.center().1;
        x < part.width.length - x
    };
    let leaves: BTreeSet<_> =
        parts.all.iter().filter(|p| p.opening() == part.opening()).map(|p| p.of).collect();
    let leaves = leaves.iter().filter(|of| matches!(of, Of::Front(_))).count();
    let sides = |names: [&'static str; 2]| if left { names[0] } else { names[1] };
    match part.role {
        Role::End(Side::Left) => "left end",
        Role::End(Side::Right) => "right end",
        Role::Post(Side::Left) if part.which == Which::Front => "front left post",
        Role::Post(Side::Left) => "back left post",
        Role::Post(Side::Right) if part.which == Which::Front => "front right post",
        Role::Post(Side::Right) => "back right post",
        Role::EndRail(Side::Left) if part.which == Which::Top => "left end top rail",
        Role::EndRail(Side::Left) => "left end bottom rail",
        Role::EndRail(Side::Right) if part.which == Which::Top => "right end top rail",
        Role::EndRail(Side::Right) => "right end bottom rail",
        Role::EndPanel(Side::Left) => "left end panel",
        Role::EndPanel(Side::Right) => "right end panel",
        Role::Cover => sides(["left cover", "right cover"]),
        Role::Partition | Role::Batten => "partition",
        Role::Bottom
        | Role::Top
        | Role::Countertop
        | Role::Stretcher
        | Role::Divider
        | Role::FixedShelf
        | Role::AdjustableShelf
        | Role::DrawerBottom => "lying",
        Role::WebRail if part.which == Which::Front => "front rail of a web frame",
        Role::WebRail => "lying",
        Role::DustPanel if part.placement.length == Direction::X => "lying",
        Role::WebRunner | Role::DustPanel => "runner of a web frame",
        Role::Back if part.placement.length == Direction::Y => "tall back",
        Role::Back => "back",
        Role::Nailer(RailSide::Top) => "nailer",
        Role::Nailer(RailSide::Bottom) => "lower nailer",
        Role::Kick => "kick",
        Role::BaseMember if matches!(part.which, Which::Front | Which::Back) => "kick",
        Role::Leg | Role::BaseLeg | Role::BaseMember => "sleeper",
        Role::Stile if part.which == Which::Only => "middle stile",
        Role::Stile | Role::Filler => sides(["left stile", "right stile"]),
        Role::Rail | Role::FrontRail if part.which == Which::Top => "top rail",
        Role::Rail | Role::FrontRail => "other rail",
        Role::Slab => {
            let Some(cup) = bored(Bore::Cup) else { return "slab front" };
            let fluted = part.features.iter().any(|f| matches!(f.kind, FeatureKind::Flute(_)));
            match (leaves, is_at_left(cup), fluted) {
                (1, true, false) => "single door hung left",
                (1, false, false) => "single door hung right",
                (2, true, true) => "fluted left leaf",
                (2, false, true) => "fluted right leaf",
                (2, true, false) => "plain left leaf",
                (2, false, false) => "plain right leaf",
                other => panic!("{}: {other:?}", part.path),
            }
        }
        Role::FrontStile => match (bored(Bore::Cup), bored(Bore::Pull), leaves) {
            (Some(cup), _, _) if is_at_left(cup) => "left hinge stile",
            (Some(_), ..) => "right hinge stile",
            (_, Some(_), 2) => sides(["left meeting stile", "right meeting stile"]),
            (_, Some(_), _) => "right latch stile",
            _ => sides(["left stile of a drawer front", "right stile of a drawer front"]),
        },
        Role::FrontPanel => "panel",
        Role::Bead if part.placement.length == Direction::Y => "upright bead",
        Role::Bead => "lying bead",
        Role::DrawerSide => sides(["left drawer side", "right drawer side"]),
        Role::DrawerFront => "box front",
        Role::DrawerBack => "box back",
        Role::Packer | Role::Guide => "packer",
        Role::Kicker | Role::Runner | Role::Stop => "strip",
        Role::HingeBlock => match part.which {
            Which::AtNumber(Side::Left, _) => "left hinge block",
            _ => "right hinge block",
        },
        Role::HoldingBlock if part.placement.thickness == Direction::X => "holding block",
        Role::HoldingBlock => "flat holding block",
    }
}

/// The face that looks to the left, right, down, up, forward or back.
fn looks(part: &Part, way: usize) -> Face {
    let axis = [Direction::X, Direction::Y, Direction::Z][way / 2];
    let place = &part.placement;
    let faces = if place.length == axis {
        [Face::LengthStart, Face::LengthEnd]
    } else if place.width == axis {
        [Face::WidthStart, Face::WidthEnd]
    } else {
        [Face::ThickStart, Face::ThickEnd]
    };
    faces[way % 2]
}

/// The demo pieces, and some of them made otherwise for what they lack.
fn pieces() -> Vec<Compilation> {
    let changed = |name: &str, changes: &[(&str, &str)]| {
        let mut text = spec(name);
        for (old, new) in changes {
            assert!(text.contains(old), "{name} no longer has {old:?}");
            text = text.replace(old, new);
        }
        let files = MemoryFiles::one("a.case", &text).with("shop.case", &spec("shop.case"));
        pipeline::check(&files, "a.case").unwrap()
    };
    let panel =
        "front { build panel { stile 50; rail 40; panel-stock ash-thin; groove 10; float 2 } }";
    let drawer = format!("drawer sheets {{ high 180; {panel} }}");
    let mut all: Vec<Compilation> = DEMOS.iter().map(|name| changed(name, &[])).collect();
    all.push(changed("first.case", &[("swing 105 deg", "swing 105 deg; plate { }")]));
    all.push(changed("first.case", &[("drawer upper {", "false upper {")]));
    all.push(changed(
        "tide-cottage-press.case",
        &[
            ("drawer sheets { high 180 }", &drawer),
            ("doors linen {", "door linen {\n hung left;"),
            ("  drawers {", "  leg { stock ash-ply; at 300 }\n  drawers {"),
        ],
    ));
    let glazed = papers::EXAMPLES.iter().find(|own| own.slug == "glazed-doors");
    all.push(glazed.and_then(casewright::papers::Example::compiled).expect("an example"));
    all
}

#[test]
fn every_face_has_the_trades_name() {
    let mut seen = BTreeSet::new();
    for compiled in pieces() {
        let parts =
            compiled.parts.as_ref().unwrap_or_else(|| panic!("{:#?}", compiled.diagnostics));
        for part in &parts.all {
            let own = kind(parts, part);
            let row = TABLE.iter().find(|(kind, ..)| *kind == own);
            let (_, faces, marks) = row.unwrap_or_else(|| panic!("no row for {own}"));
            let names = [0, 1, 2, 3, 4, 5].map(|way| part.face_name(looks(part, way)));
            assert_eq!(names, *faces, "{own}: {}", part.path);
            let own_marks = part.marks();
            let told = [own_marks.side, own_marks.edge, own_marks.end]
                .map(|face| face.map_or(String::new(), |face| part.face_name(face)));
            assert_eq!(told, *marks, "{own}: {}", part.path);
            seen.insert(own);
        }
    }
    let unseen: Vec<_> = TABLE.iter().filter(|(kind, ..)| !seen.contains(kind)).collect();
    assert!(unseen.is_empty(), "no piece has one: {unseen:#?}");
}

/// Where the near side of a channel is cut that lies `from` from its datum, in
/// the whole piece.
fn place(part: &Part, feature: &Feature) -> (Direction, Length) {
    let channel = part.channel(feature);
    let direction = part.placement.direction(channel.datum);
    let (low, high) = part.extent(direction);
    let near = match channel.datum.is_start() {
        true => low + channel.from,
        false => high - channel.from - channel.wide,
    };
    (direction, near)
}

#[test]
fn both_dadoes_of_a_board_count_from_the_same_end() {
    let mut pairs = 0;
    for compiled in pieces() {
        let parts = compiled.parts.as_ref().unwrap();
        let dadoes: Vec<(PartId, &Part, &Feature)> = parts
            .iter()
            .flat_map(|(_, part)| part.features.iter().map(move |feature| (part, feature)))
            .filter(|(_, feature)| feature.kind == FeatureKind::Dado)
            .filter_map(|(part, feature)| Some((feature.takes?, part, feature)))
            .collect();
        for (at, (taken, part, feature)) in dadoes.iter().enumerate() {
            for (other_taken, other, beside) in &dadoes[at + 1..] {
                let across = [(part, feature), (other, beside)]
                    .map(|(part, feature)| part.placement.direction(part.channel(feature).datum));
                if taken != other_taken || across[0] != across[1] {
                    continue;
                }
                let [one, two] = [(part, feature), (other, beside)]
                    .map(|(part, feature)| (part.channel(feature), place(part, feature)));
                let names = [(part, one.0), (other, two.0)]
                    .map(|(part, channel)| part.face_name(channel.datum));
                assert_eq!(names[0], names[1], "{} and {}", part.path, other.path);
                assert_eq!(one.1, two.1, "{} and {}", part.path, other.path);
                let starts = [part, other].map(|part| part.extent(across[0]).0);
                if starts[0] == starts[1] {
                    assert_eq!(one.0.from, two.0.from, "{} and {}", part.path, other.path);
                }
                pairs += 1;
            }
        }
    }
    assert!(pairs >= 10, "{pairs}");
}

#[test]
fn uprights_count_from_the_bottom_and_lying_boards_from_the_left() {
    let mut counted = 0;
    for compiled in pieces() {
        for part in &compiled.parts.as_ref().unwrap().all {
            let own = match part.role {
                Role::End(_) | Role::Partition => "bottom end",
                Role::Bottom | Role::Stretcher => "left end",
                _ => continue,
            };
            let across = part.features.iter().filter(|feature| feature.is_channel());
            for feature in across.filter(|feature| !part.channel(feature).along) {
                let channel = part.channel(feature);
                let far = part.length.length - channel.from - channel.wide;
                let name = part.face_name(channel.datum);
                // A step at the very end of a board is set from that end.
                assert!(name == own || channel.from == Length::ZERO, "{}: {name}", part.path);
                assert!(name == own || far > channel.from, "{}", part.path);
                counted += 1;
            }
        }
    }
    assert!(counted >= 20, "{counted}");
}

/// A paper of a piece.
fn paper(compiled: &Compilation, name: &str) -> String {
    let packet = papers::packet(compiled).unwrap();
    packet.into_iter().find(|file| file.name == name).unwrap().text
}

/// What stands behind the mark of a part on the cut list.
fn machining(list: &str, mark: &str) -> String {
    let line = list.lines().find(|line| line.contains(&format!("[ ] {mark} "))).unwrap();
    line.split("along  ").nth(1).unwrap_or_default().to_owned()
}

/// The cups are bored at a fence on the hinge edge, with the door on its face:
/// one setting does for both leaves. Worked by hand: the edge of the cup lies
/// 4 mm in, its center 4 + 35/2 = 21.5 mm, 27/32 to the nearest 1/32. The pull
/// lies 1-1/32 from the meeting edge of a leaf 13-3/32 wide, so 12-1/16 from the
/// hinge edge.
#[test]
fn both_leaves_of_a_pair_share_one_setting() {
    let compiled = compile(&spec("hall-console.case"));
    let list = paper(&compiled, "cut-list.txt");
    let both = ["PR-LD", "PR-RD"].map(|mark| machining(&list, mark));
    assert_eq!(both[0], both[1]);
    for told in [
        "2 hinge cups 35 mm, 12.5 mm deep in the back face: center 3 and 22-13/16 from the bottom end, 27/32~ from the hinge edge",
        "2 pull holes 5/32 through from the front face: center 11-13/32 and 14-13/32 from the bottom end, 12-1/16 from the hinge edge",
    ] {
        assert!(both[0].contains(told), "{}", both[0]);
    }
}

/// The cups lie nearer the hinge edge than any other edge of the door.
#[test]
fn the_hinge_edge_is_the_one_beside_the_cups() {
    let mut cups = 0;
    for compiled in pieces() {
        for part in &compiled.parts.as_ref().unwrap().all {
            let holes = part.features.iter().filter(|f| f.kind == FeatureKind::Bore(Bore::Cup));
            for hole in holes {
                let at = hole.center().1;
                let near =
                    if at < part.width.length - at { Face::WidthStart } else { Face::WidthEnd };
                assert_eq!(part.hinge_edge(), Some(near), "{}", part.path);
                assert_eq!(part.face_name(hole.face), "back face", "{}", part.path);
                cups += 1;
            }
        }
    }
    assert!(cups >= 20, "{cups}");
}

/// The dadoes of a shelf lie at one height when they come from one setting.
/// Worked by hand: below the top of 3/4 the upper opening is 12 high, then comes
/// the board of 3/4: 34 − 3/4 − 12 − 3/4 = 20-1/2.
#[test]
fn ends_and_partition_are_cut_at_one_setting() {
    // Without its bottom, ends and partition stand on the same floor.
    let level = BOTH_FACES.replace("  bottom { joint dado { deep 1/4 } }\n", "");
    assert_ne!(level, BOTH_FACES);
    let compiled = compile(&level);
    let sheet = paper(&compiled, "jig-sheet.txt");
    let sets: Vec<&str> = sheet
        .split(">> ")
        .filter(|set| {
            set.contains("dado 3/4 wide") && set.contains("straight-edge, from the bottom")
        })
        .collect();
    assert_eq!(sets.len(), 2, "{sheet}");
    assert!(
        sets.iter().all(|set| set.contains("its near side lies 20-1/2 from the bottom end")),
        "{sheet}"
    );
    assert!(sets[0].contains("deep in the face that is named below"), "{sheet}");
    let faces = |set: &str| -> Vec<String> {
        let rows = set.lines().filter(|line| line.trim_start().starts_with("[ ]  "));
        rows.filter(|row| row.contains("face"))
            .map(|row| {
                let words: Vec<&str> = row.split_whitespace().collect();
                words[words.len() - 2..].join(" ")
            })
            .collect()
    };
    assert_eq!(faces(sets[0]), ["inside face", "inside face", "left face"], "{sheet}");
    assert!(sets[1].contains("deep in the right face"), "{sheet}");
}

/// The legend tells every mark that the sentences of the list count from.
#[test]
fn the_cut_list_says_where_the_marks_are() {
    let list = paper(&compile(&spec("hall-console.case")), "cut-list.txt");
    let legend = list.split("== ").find(|part| part.starts_with("Face marks ==")).unwrap();
    for (kind, marks) in [
        ("end", ["inside face", "front edge", "bottom end"]),
        ("partition", ["left face", "front edge", "bottom end"]),
        ("stretcher", ["top face", "front edge", "left end"]),
        ("outer stile", ["front face", "inner edge", "bottom end"]),
        ("top rail", ["front face", "bottom edge", "left end"]),
        ("slab door", ["front face", "hinge edge", "bottom end"]),
        ("box back", ["inside face", "bottom edge", "left end"]),
    ] {
        let row = legend.lines().find_map(|line| {
            let cells: Vec<&str> =
                line.split("  ").map(str::trim).filter(|cell| !cell.is_empty()).collect();
            let kinds = cells.first()?;
            kinds.split(", ").any(|own| own == kind).then(|| cells[1..].to_vec())
        });
        assert_eq!(row.as_deref(), Some(&marks[..]), "{kind}: {legend}");
    }
    for told in ["loop", "V", "bar", "as seen from the front"] {
        assert!(legend.contains(told), "{legend}");
    }
}

/// Worked by hand: the opening of the drawer begins 2 + 13 + 1-1/2 = 16-1/2 from
/// the left, its box 1/2 further on; the back of the box reaches 1/4 into sides
/// of 1/2, so it begins at 17-1/4 in = 438.15 mm. The trap begins at 640 mm, the
/// notch an inch before it: 640 − 25.4 − 438.15 = 176.45 mm, 6-15/16. The two
/// notches for a runner lie alike at both ends of their back, 15 in behind
/// dovetails of 15.
#[test]
fn a_notch_counts_from_the_datum_end_unless_it_has_a_twin() {
    let shop = spec("shop.case");
    let files = MemoryFiles::one("a.case", &spec("ferry-road-wash-stand.case"));
    let stand = pipeline::check(&files.with("shop.case", &shop), "a.case").unwrap();
    let notch = machining(&paper(&stand, "cut-list.txt"), "VA-XK");
    assert!(
        notch
            .contains("along the top edge and 7-15/16~ into it, set back 6-15/16~ at the left end"),
        "{notch}"
    );
    let press = compile(&spec("tide-cottage-press.case"));
    let notches = machining(&paper(&press, "cut-list.txt"), "SH-XK");
    assert!(
        notches.contains("notch 35 along the bottom edge and 13 into it, set back 15 at both ends"),
        "{notches}"
    );
}
