//! The layout sheet: every line that is struck with a rule, cumulative and from one
//! end, so that a story stick carries it from part to part.

use std::collections::BTreeMap;

use crate::measure::Length;
use crate::model::{CaseId, Piece};
use crate::parts::{Assembly, Face, Feature, FeatureKind, Part, PartId, Role, Which, front_told};
use crate::plans::layout::{Stick, Stretch, Tails};

mod screws;

use super::Source;
use super::page::{Block, Table, left, right};
use super::words;

pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let layout = source.work.layout();
    let mut blocks = Vec::new();
    if layout.sticks.is_empty() && layout.tails.is_empty() {
        blocks.push(Block::Note("No board of this piece is placed by a line that is struck by hand. The router-jig sheet has the place of every board that is let in.".into()));
    } else {
        blocks.push(Block::Note("Hook the tape over the end or edge that is named, and mark every figure without moving it: each counts from there, and none from the last. Clamp parts that are named together side by side, their marked ends flush, and square each line across all of them, or mark a stick once and take the lines from it. Put a cross on the side of a line where the other board stands.".into()));
    }
    for sticks in alike(source) {
        stick(source, &sticks, &mut blocks);
    }
    dovetails(source, &mut blocks);
    screws::blocks(source, &mut blocks);
    blocks
}

/// Boards of one assembly that bear the same lines, together.
fn alike<'w>(source: &Source<'w, '_>) -> Vec<Vec<&'w Stick>> {
    let work = source.work;
    let mut groups: Vec<Vec<&Stick>> = Vec::new();
    let mut of_assembly: BTreeMap<Option<Assembly>, Vec<usize>> = BTreeMap::new();
    for stick in &work.layout().sticks {
        let of = |stick: &Stick| {
            let host = work.parts.get(stick.host)?;
            let lines = stick.lines.iter();
            let datums = lines.map(|line| line.along.datum).chain(stick.face);
            let names: Vec<String> = datums.map(|face| host.face_name(face)).collect();
            Some((host.assembly, host.length.length, names))
        };
        let same = |group: &Vec<&Stick>| {
            group.first().is_some_and(|other| {
                (other.lines == stick.lines || are_webs_alike(source, other, stick))
                    && of(other) == of(stick)
            })
        };
        let assembly = work.parts.get(stick.host).map(|host| host.assembly);
        let near = of_assembly.entry(assembly).or_default();
        match near.iter().copied().find(|place| groups.get(*place).is_some_and(same)) {
            Some(place) => groups[place].push(stick),
            None => {
                near.push(groups.len());
                groups.push(vec![stick]);
            }
        }
    }
    // Frames stand with their cases, and the lines of one assembly together.
    let key = |group: &Vec<&Stick>| {
        let host = group.first().and_then(|stick| work.parts.get(stick.host));
        host.map(|host| (host.case, host.assembly))
    };
    groups.sort_by_key(key);
    groups
}

/// True for the rails of two web frames that take runners at the same places.
fn are_webs_alike(source: &Source<'_, '_>, one: &Stick, other: &Stick) -> bool {
    let parts = source.work.parts;
    let part = |id| parts.get(id);
    let role = |id| part(id).map(|part: &Part| part.role);
    let is_plain = |stick: &Stick| {
        part(stick.host).is_some_and(|host| {
            host.role == Role::WebRail
                && struck(stick, host).all(|own| own.kind != FeatureKind::Mortise)
        })
    };
    let same = one.lines.iter().zip(&other.lines).all(|(one, other)| {
        (one.along, one.across, role(one.part)) == (other.along, other.across, role(other.part))
    });
    is_plain(one) && is_plain(other) && one.lines.len() == other.lines.len() && same
}

/// What each of several parts is called, and what those of several web frames are.
fn named(source: &Source<'_, '_>, parts: &[&Part]) -> Vec<String> {
    let are = |role: Role| parts.len() > 2 && parts.iter().all(|part| part.role == role);
    if are(Role::WebRail) {
        return vec!["rails of these web frames".to_owned()];
    }
    if are(Role::WebRunner) {
        return vec!["runners, one in each frame".to_owned()];
    }
    parts.iter().map(|part| words::name(part, source.work.piece)).collect()
}

/// What a board is a part of, as a heading has it.
fn assembly(piece: &Piece, part: &Part) -> String {
    let name = |case: CaseId| piece.case(case).map_or("", |case| case.name.as_str());
    match part.assembly {
        Assembly::Base(case) => format!("Base of {}", piece.base_named(case)),
        Assembly::Carcass(case) => format!("Carcass of {}", name(case)),
        Assembly::Frame(case) => format!("Face frame of {}", name(case)),
        Assembly::Front(front) => {
            format!("Framed front: {}", front_told(piece, front))
        }
        // Nothing of these is laid out along another board.
        Assembly::DrawerBox(_)
        | Assembly::Countertop(_)
        | Assembly::Filler(..)
        | Assembly::Loose(_) => name(part.case).to_owned(),
    }
}

fn stick(source: &Source<'_, '_>, sticks: &[&Stick], blocks: &mut Vec<Block>) {
    let (work, figures) = (source.work, &source.figures);
    let hosts: Vec<&Part> = sticks.iter().filter_map(|own| work.parts.get(own.host)).collect();
    let (Some(stick), Some(host)) = (sticks.first(), hosts.first()) else { return };
    let heading = Block::Heading(assembly(work.piece, host));
    let is_headed = blocks.iter().rev().find(|block| matches!(block, Block::Heading(_)));
    if is_headed != Some(&heading) {
        blocks.push(heading);
    }
    let mut names = named(source, &hosts);
    names.extend(stick.face.map(|face| format!("on the {}", host.face_name(face))));
    let end = stick.lines.first().map(|line| host.face_name(line.along.datum));
    let long = figures.size(&host.length, &work.piece.facts);
    let mut more = Vec::new();
    if struck(stick, host).any(|own| own.kind == FeatureKind::Mortise) {
        let from = if stick.face.is_some() { "which face" } else { "the face side" };
        more.push(format!("the lines are the ends of the mortises too, but for those that are set in; the cut list says how wide and deep those are, and how far from {from}"));
    }
    more.extend(closed(source, stick, host));
    more.extend(shoulders(source, host));
    blocks.push(Block::Setting {
        figure: marks(source, sticks.iter().map(|own| own.host)),
        what: format!("{}: from the {}", names.join(", "), end.unwrap_or_default()),
        more,
    });
    let partly = stick.lines.iter().any(|line| line.across.is_some());
    let mut columns =
        vec![right("from").strong(), right("to").strong(), left("mark"), left("what stands there")];
    if partly {
        columns.push(left("across"));
    }
    let mut table =
        Table { columns, foot: format!("the other end is at {long}"), ..Table::default() };
    for (number, line) in stick.lines.iter().enumerate() {
        let own = sticks.iter().filter_map(|own| work.parts.get(own.lines.get(number)?.part));
        let mut guests: Vec<&Part> = own.collect();
        guests.dedup_by(|one, other| std::ptr::eq(*one, *other));
        let marks: Vec<&str> = guests.iter().map(|guest| guest.mark.as_str()).collect();
        let mut row = vec![
            figures.text(line.along.from),
            figures.text(line.along.to),
            marks.join(", "),
            named(source, &guests).join(", "),
        ];
        if partly {
            row.push(
                line.across.map_or("from side to side".to_owned(), |own| across(source, host, own)),
            );
        }
        table.rows.push(row);
    }
    blocks.push(Block::Table(table));
}

/// The cuts of a board that its lines place: those in the face that they are on.
fn struck<'p>(stick: &Stick, host: &'p Part) -> impl Iterator<Item = &'p Feature> {
    let face = stick.face;
    host.features.iter().filter(move |own| face.is_none_or(|face| own.face == face))
}

/// The mortises that are closed at the end of the board: the line of the other board
/// runs on to the end, and its tenon does not.
fn closed(source: &Source<'_, '_>, stick: &Stick, host: &Part) -> Vec<String> {
    let datum = host.datum([Face::LengthStart, Face::LengthEnd]);
    let along = host.placement.length;
    let told = |own: &Feature| {
        let guest = source.work.parts.get(own.takes?)?;
        let (from, to) = guest.extent(along);
        let is_whole = own.u.1 - own.u.0 == to - from;
        if own.kind != FeatureKind::Mortise || is_whole {
            return None;
        }
        let mut ends = [own.u.0, own.u.1].map(|place| host.distance(datum, place));
        ends.sort_unstable();
        let [from, to] = ends.map(|end| source.figures.text(end));
        let is_mid =
            guest.role == Role::FrontRail && !matches!(guest.which, Which::Top | Which::Bottom);
        let why = match (is_mid, guest.role, host.role) {
            (true, ..) => "between the two grooves of the rail",
            (_, Role::EndRail(_), _) => "between the groove of the rail and its other shoulder",
            (_, _, Role::Post(_)) => "and is closed at the end of the post",
            _ => "and is closed at the end of the stile",
        };
        Some(format!("the mortise for {} runs from {from} to {to} only, {why}", guest.mark))
    };
    struck(stick, host).filter_map(told).collect()
}

/// Where the board has shoulders of its own: its length counts from the tip of a
/// tenon.
fn shoulders(source: &Source<'_, '_>, host: &Part) -> Option<String> {
    let tenons = host.features.iter().filter(|own| own.kind == FeatureKind::Tenon);
    let datum = host.datum([Face::LengthStart, Face::LengthEnd]);
    let place = |end: Face, deep: Length| match end == datum {
        true => deep,
        false => host.length.length - deep,
    };
    let mut at: Vec<Length> = tenons.map(|own| place(own.face, own.deep)).collect();
    at.sort_unstable();
    let at: Vec<String> = at.into_iter().map(|at| source.figures.text(at)).collect();
    match at.as_slice() {
        [] => None,
        [one] => Some(format!("its own shoulder is at {one}")),
        all => Some(format!("its own shoulders are at {}", all.join(" and "))),
    }
}

/// `0 to 4 from the front edge`.
fn across(source: &Source<'_, '_>, host: &Part, own: Stretch) -> String {
    let text = |length| source.figures.text(length);
    format!("{} to {} from the {}", text(own.from), text(own.to), host.face_name(own.datum))
}

fn marks(source: &Source<'_, '_>, ids: impl Iterator<Item = PartId>) -> String {
    ids.map(|id| source.work.parts.mark(id)).collect::<Vec<_>>().join(", ")
}

fn dovetails(source: &Source<'_, '_>, blocks: &mut Vec<Block>) {
    let (work, figures) = (source.work, &source.figures);
    let all = &work.layout().tails;
    if all.is_empty() {
        return;
    }
    blocks.push(Block::Heading("Dovetails".into()));
    blocks.push(Block::Note("Gauge the baseline round both ends of the boards with the tails first. Mark the tails along the end, square the marks over the end, and draw the sides down to the baseline with a bevel at the slope that is given. Saw and chop the tails, then mark the pins from them, corner by corner, and number the corners on both boards.".into()));
    let mut groups: Vec<Vec<&Tails>> = Vec::new();
    for own in all {
        let alike = |other: &Tails| {
            Tails { part: own.part, pins: own.pins.clone(), ..other.clone() } == *own
        };
        match groups.iter_mut().find(|group| group.first().is_some_and(|first| alike(first))) {
            Some(group) => group.push(own),
            None => groups.push(vec![own]),
        }
    }
    for group in groups {
        let Some(own) = group.first() else { continue };
        let Some(part) = work.parts.get(own.part) else { continue };
        let (tails, wide) = (&own.tails, part.width.length);
        let lower = own.row.0.is_positive() || own.row.1 < wide;
        let edge = part.face_name(own.datum);
        let count = tails.len();
        let plural = if count == 1 { "" } else { "s" };
        let mut pins: Vec<PartId> = group.iter().flat_map(|own| own.pins.clone()).collect();
        pins.sort_unstable();
        pins.dedup();
        let mut more = vec![
            match own.end {
                Some(end) => {
                    format!(
                        "gauge the baseline {} from the {}",
                        figures.text(own.long),
                        part.face_name(end)
                    )
                }
                None => format!("gauge the baseline {} from each end", figures.text(own.long)),
            },
            format!(
                "the sides slope 1 in {}: each comes in {} between the end and the baseline",
                own.slope,
                figures.mating(own.lean)
            ),
            format!(
                "along the end, pin and tail in turn {}: {}",
                match lower {
                    true => format!("from {} on, counted from the {edge}", figures.text(own.row.0)),
                    false => format!("from the {edge}"),
                },
                figures.sum(&along(tails, own.row))
            ),
        ];
        if lower {
            more.push(format!(
                "the row runs from {} to {} only, as high as the board with the pins; the wood beyond it stays",
                figures.text(own.row.0),
                figures.text(own.row.1)
            ));
        }
        if let Some(tail) = own.grooved {
            more.push(format!(
                "the groove for the bottom runs out through tail {tail}: its ends show at the front and the back of the box, and not at its sides"
            ));
        } else if part.features.iter().any(|cut| cut.kind == FeatureKind::Groove && meets(cut, own))
        {
            more.push("the groove for the bottom does not lie within one tail, so its ends show at the sides of the box: plug them".to_owned());
        }
        more.push(format!("the pins are on {}", marks(source, pins.into_iter())));
        blocks.push(Block::Setting {
            figure: format!("{count} tail{plural}"),
            what: match own.end {
                Some(end) => format!(
                    "{}, at the {}: from the {edge}",
                    marks(source, group.iter().map(|own| own.part)),
                    part.face_name(end)
                ),
                None => {
                    format!("{}: from the {edge}", marks(source, group.iter().map(|own| own.part)))
                }
            },
            more,
        });
        let mut table = Table {
            columns: vec![
                right("tail"),
                right("from").strong(),
                right("to").strong(),
                right("at the baseline from"),
                right("to"),
            ],
            foot: format!("the other edge is at {}", figures.text(wide)),
            ..Table::default()
        };
        for (number, (from, to)) in (1..).zip(tails) {
            table.rows.push(vec![
                number.to_string(),
                figures.text(*from),
                figures.text(*to),
                figures.text(*from + own.lean),
                figures.text(*to - own.lean),
            ]);
        }
        blocks.push(Block::Table(table));
    }
}

/// True for a groove that runs out at the end among the pins and tails.
fn meets(groove: &Feature, own: &Tails) -> bool {
    let (low, high) = own.row;
    groove.v.0 < high && low < groove.v.1
}

/// Pin, tail, pin, … along the end of a board.
fn along(tails: &[(Length, Length)], (from, to): (Length, Length)) -> Vec<Length> {
    let mut marks: Vec<Length> = vec![from];
    marks.extend(tails.iter().flat_map(|(from, to)| [*from, *to]));
    marks.push(to);
    marks.windows(2).map(|two| two[1] - two[0]).collect()
}
