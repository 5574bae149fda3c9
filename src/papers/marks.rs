//! The marks that every part gets before anything is cut into it.

use std::collections::BTreeMap;

use crate::model::RailSide;
use crate::parts::{Part, Parts, Role, Which};

use super::page::{Block, Table, Ticks, left};

/// What parts are called together, and their own marks.
type Kind<'p> = (&'static str, Vec<&'p str>);

/// What the marks mean, and where each kind of part of the piece carries them.
pub(super) fn blocks(parts: &Parts) -> Vec<Block> {
    let columns = vec![left("part"), left("face side"), left("face edge"), left("datum end")];
    let mut table = Table { columns, ticks: Ticks::None, ..Table::default() };
    // Each kind with the marks of its parts that carry theirs alike.
    let mut rows: Vec<(Vec<Kind<'_>>, [String; 3])> = Vec::new();
    for part in &parts.all {
        let marks = part.marks();
        let (Some(side), Some(edge), Some(end)) = (marks.side, marks.edge, marks.end) else {
            continue;
        };
        let (kind, names) = (kind(part), [side, edge, end].map(|face| part.face_name(face)));
        let at = rows.iter().position(|(_, known)| *known == names).unwrap_or(rows.len());
        if at == rows.len() {
            rows.push((Vec::new(), names));
        }
        let Some((kinds, _)) = rows.get_mut(at) else { continue };
        match kinds.iter_mut().find(|(known, _)| *known == kind) {
            Some((_, marks)) => marks.push(&part.mark),
            None => kinds.push((kind, vec![&part.mark])),
        }
    }
    // Of a kind that stands in several rows each part has to be named.
    let mut often: BTreeMap<&str, usize> = BTreeMap::new();
    for (kind, _) in rows.iter().flat_map(|(kinds, _)| kinds) {
        *often.entry(kind).or_default() += 1;
    }
    let told = |(kind, marks): &Kind<'_>| match often.get(kind) {
        Some(2..) => format!("{kind} ({})", marks.join(" ")),
        Some(_) | None => (*kind).to_owned(),
    };
    table.rows = rows
        .iter()
        .map(|(kinds, names)| {
            let kinds: Vec<String> = kinds.iter().map(told).collect();
            [vec![kinds.join(", ")], names.to_vec()].concat()
        })
        .collect();
    vec![
        Block::Heading("Face marks".into()),
        Block::Note("Mark every part before you cut anything into it: a loop on its face side, a V on its face edge with its point toward the face side, and a bar on its datum end. Distances count from these marks, unless another edge or end is named. Left and right are as seen from the front.".into()),
        Block::Table(table),
    ]
}

/// What parts with the same marks are called together.
fn kind(part: &Part) -> &'static str {
    let is_door = part.hung.is_some();
    match (part.role, part.which) {
        (Role::End(_), _) => "end",
        (Role::Post(_), Which::Front) => "front post",
        (Role::Post(_), _) => "back post",
        (Role::EndRail(_), Which::Top) => "top rail of an end",
        (Role::EndRail(_), _) => "bottom rail of an end",
        (Role::EndPanel(_), _) => "panel of an end",
        (Role::Bottom, _) => "bottom",
        (Role::Top, _) => "top",
        (Role::Countertop, _) => "countertop",
        (Role::Stretcher, _) => "stretcher",
        (Role::Back, _) => "back",
        (Role::Nailer(RailSide::Top), _) => "top nailer",
        (Role::Nailer(RailSide::Bottom), _) => "bottom nailer",
        (Role::Partition, _) => "partition",
        (Role::Divider, _) => "divider",
        (Role::WebRail, Which::Front) => "front rail of a web frame",
        (Role::WebRail, _) => "back rail of a web frame",
        (Role::WebRunner, _) => "runner of a web frame",
        (Role::DustPanel, _) => "dust panel",
        (Role::FixedShelf | Role::AdjustableShelf, _) => "shelf",
        (Role::Leg | Role::BaseLeg, _) => "leg",
        (Role::Kick, _) => "kick",
        (Role::BaseMember, Which::Front) => "base front",
        (Role::BaseMember, Which::Back) => "base back",
        (Role::BaseMember, _) => "sleeper",
        (Role::Stile, Which::At(_)) => "outer stile",
        (Role::Stile, _) => "middle stile",
        (Role::Rail, Which::Top) => "top rail",
        (Role::Rail, Which::Bottom) => "bottom rail",
        (Role::Rail, _) => "middle rail",
        (Role::Slab, _) if is_door => "slab door",
        (Role::Slab, _) => "slab front",
        (Role::FrontStile, _) if is_door => "door stile",
        (Role::FrontStile, _) => "stile of a front",
        (Role::FrontRail, Which::Top) if is_door => "top rail of a door",
        (Role::FrontRail, Which::Bottom) if is_door => "bottom rail of a door",
        (Role::FrontRail, _) if is_door => "mid rail of a door",
        (Role::FrontRail, Which::Top) => "top rail of a front",
        (Role::FrontRail, Which::Bottom) => "bottom rail of a front",
        (Role::FrontRail, _) => "mid rail of a front",
        (Role::FrontPanel, _) => "panel",
        (Role::Bead, _) => "glazing bead",
        (Role::DrawerSide, _) => "drawer side",
        (Role::DrawerFront, _) => "box front",
        (Role::DrawerBack, _) => "box back",
        (Role::DrawerBottom, _) => "drawer bottom",
        (Role::Packer, _) => "packer",
        (Role::HingeBlock, _) => "hinge block",
        (Role::HoldingBlock, _) => "holding block",
        (Role::Guide, _) => "guide",
        (Role::Kicker, _) => "kicker",
        (Role::Runner, _) => "runner",
        (Role::Stop, _) => "drawer stop",
        (Role::Filler, _) => "filler",
        (Role::Cover, Which::Back) => "cover over the back",
        (Role::Cover, Which::Bottom) => "cover under the case",
        (Role::Cover, _) => "cover over an end",
        (Role::Batten, _) => "batten of a filler",
    }
}
