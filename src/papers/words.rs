//! Parts and their features in the words of the trade.

mod joints;

use std::collections::BTreeMap;

use crate::diagnostics::counted;
use crate::measure::{Exact, Length, Unit};
use crate::model::Piece;
use crate::parts::{self, Assembly, Bore, Channel, Face, Feature, FeatureKind, Part, Parts, Role};

use crate::plans::Workings;
use crate::plans::seasons::Air;

use super::figures::Figures;
use super::{Source, measured};

/// What a part is called on paper: `left end`, `rail between upper and middle`.
pub(super) fn name(part: &Part, piece: &Piece) -> String {
    parts::title(piece, &part.key())
}

/// How warm the room usually is: `68 °F`, `19 °C`.
pub(super) fn warm(piece: &Piece) -> String {
    let warm = piece.site.temperature.0;
    match piece.tape().unit {
        Unit::Inch => format!("{} °F", (warm * Exact::ratio(9, 5) + Exact::int(32)).round()),
        _ => format!("{} °C", warm.round()),
    }
}

/// `Milled in air of 40 % humidity (7.7 % moisture); the room runs from …`
pub(super) fn climate(source: &Source<'_, '_>) -> String {
    let piece = source.work.piece;
    let climate = source.work.climate();
    let told = |air: Air, mark: &str| {
        format!(
            "{}{mark} % relative humidity ({:.1}{mark} % moisture)",
            air.humidity.0, air.moisture
        )
    };
    let air = |air: Air| told(air, "");
    let warm = warm(piece);
    let usual = match piece.site.humidity_span {
        Some(_) => "",
        None => " That is a usual heated room, since no humidity is entered for this one.",
    };
    format!(
        "The wood is milled and fitted at {}. The room goes from {} to {} at {warm}.{usual}",
        told(climate.milled, measured::air(source)),
        air(climate.driest),
        air(climate.dampest)
    )
}

/// `1 piece`, `12 pieces`.
pub(super) fn pieces(count: usize) -> String {
    counted(count, "piece")
}

/// `1 day`, `3 days`.
pub(super) fn days(count: u32) -> String {
    counted(count, "day")
}

/// Every feature of a part, one sentence each, like ones together.
pub(super) fn features(part: &Part, work: &Workings<'_>, figures: &Figures) -> Vec<String> {
    let Workings { piece, parts, .. } = *work;
    let mut lines: Vec<String> = Vec::new();
    let mut flutes: Vec<&Feature> = Vec::new();
    let mut bores: Vec<&Feature> = Vec::new();
    let mut slots: Vec<&Feature> = Vec::new();
    for feature in &part.features {
        match feature.kind {
            FeatureKind::Flute(_) => flutes.push(feature),
            FeatureKind::Bore(_) => bores.push(feature),
            FeatureKind::Slot => slots.push(feature),
            // Told with its tenon.
            FeatureKind::Haunch => {}
            _ => {
                let line = one(part, feature, parts, figures);
                if !lines.contains(&line) {
                    lines.push(line);
                }
            }
        }
    }
    lines = both_ends(lines);
    lines.extend(joints::shoulders(part, figures));
    lines.extend(joints::pins(part, piece));
    if let Some(first) = flutes.first() {
        let FeatureKind::Flute(bit) = first.kind else { return lines };
        let bit = piece.bit(bit).map_or("", |bit| bit.name.as_str());
        lines.push(format!(
            "{} flutes {} deep with {bit} (see the set-up sheet)",
            flutes.len(),
            figures.text(first.deep)
        ));
    }
    // Those of one row are alike.
    for row in slots.chunk_by(|a, b| a.v == b.v) {
        lines.extend(slotted(part, row, figures));
    }
    let all = [Bore::Cup, Bore::Pull, Bore::Plate, Bore::PlateBehind, Bore::Round, Bore::Leg];
    for bore in all {
        // A partition may have the plates of a door at either side.
        for face in Face::ALL {
            let same: Vec<&Feature> = bores
                .iter()
                .copied()
                .filter(|f| f.kind == FeatureKind::Bore(bore) && f.face == face)
                .collect();
            lines.extend(bored(part, bore, &same, figures));
        }
    }
    lines
}

/// A row of slots for the screws of a countertop.
fn slotted(part: &Part, row: &[&Feature], figures: &Figures) -> Option<String> {
    let first = row.first()?;
    let end = part.datum([Face::LengthStart, Face::LengthEnd]);
    let edge = part.datum([Face::WidthStart, Face::WidthEnd]);
    let mut places: Vec<Length> =
        row.iter().map(|slot| part.distance(end, slot.center().0)).collect();
    places.sort_unstable();
    let places: Vec<String> = places.into_iter().map(|place| figures.text(place)).collect();
    let plural = if row.len() == 1 { "" } else { "s" };
    Some(format!(
        "{} slot{plural} {} wide and {} long, front to back, through the {}: center {} from the {}, {} from the {}",
        row.len(),
        figures.text(first.u.1 - first.u.0),
        figures.text(first.v.1 - first.v.0),
        part.face_name(first.face),
        listed(&places),
        part.face_name(end),
        figures.text(part.distance(edge, first.center().1)),
        part.face_name(edge)
    ))
}

/// The bores of one kind in one face.
fn bored(part: &Part, bore: Bore, same: &[&Feature], figures: &Figures) -> Option<String> {
    let first = same.first()?;
    let end = part.datum([Face::LengthStart, Face::LengthEnd]);
    // The fence that the cups are bored at stands on the side of the hinges.
    let edge = match (first.face.is_broad(), bore) {
        (true, Bore::Cup) => part.hinge_edge(),
        (true, Bore::Pull | Bore::Plate | Bore::PlateBehind | Bore::Round | Bore::Leg) => None,
        (false, _) => Some(part.datum([Face::ThickStart, Face::ThickEnd])),
    };
    let edge = edge.unwrap_or_else(|| part.datum([Face::WidthStart, Face::WidthEnd]));
    let mut centers: Vec<(Length, Length)> = same
        .iter()
        .map(|bore| bore.center())
        .map(|(u, v)| (part.distance(end, u), part.distance(edge, v)))
        .collect();
    centers.sort();
    let start = part.face_name(end);
    let (along, across): (Vec<Length>, Vec<Length>) = centers.iter().copied().unzip();
    let alike = |places: &[Length]| places.iter().all(|place| Some(place) == places.first());
    let one = |place: Length| figures.text(place);
    let list = |places: &[Length]| listed(&places.iter().copied().map(one).collect::<Vec<_>>());
    let edge = part.face_name(edge);
    // What all have in common is told once: a line along the part, or across it
    // as the two screws of a pull on an upright panel.
    let (u, v) = centers.first().copied()?;
    let place = match (alike(&along), alike(&across)) {
        (_, true) => format!("{} from the {start}, {} from the {edge}", list(&along), one(v)),
        (true, false) => format!("{} from the {start}, {} from the {edge}", one(u), list(&across)),
        (false, false) if let Some([along, across]) = crossings(&centers) => format!(
            "where lines {} from the {start} cross lines {} from the {edge}",
            list(&along),
            list(&across)
        ),
        (false, false) => {
            let pairs = centers.iter().map(|(u, v)| format!("{} by {}", one(*u), one(*v)));
            format!("{} from the {start} and the {edge}", listed(&pairs.collect::<Vec<_>>()))
        }
    };
    let plural = if same.len() > 1 { "s" } else { "" };
    // A thin hinge block is bored right through.
    let through = match bore {
        Bore::Pull | Bore::Round => true,
        Bore::Cup | Bore::PlateBehind | Bore::Leg => false,
        Bore::Plate => first.face.is_broad() && first.deep >= part.thickness.length,
    };
    let deep = match through {
        true => String::new(),
        false => format!(", {} deep", figures.hardware(first.deep)),
    };
    let into = if through { "through from the" } else { "in the" };
    let later = match bore {
        Bore::PlateBehind => ", bored on through its hinge blocks when they are on",
        Bore::Cup | Bore::Pull | Bore::Plate | Bore::Round | Bore::Leg => "",
    };
    let face = format!(" {into} {}{later}", part.face_name(first.face));
    Some(format!(
        "{} {}{plural} {}{deep}{face}: center {place}",
        same.len(),
        bore.word(),
        figures.hardware(first.u.1 - first.u.0),
    ))
}

/// The lines along a part and across it that have a center at each of their crossings and
/// nowhere else; `None` where they have not.
fn crossings(centers: &[(Length, Length)]) -> Option<[Vec<Length>; 2]> {
    let lines = |of: fn(&(Length, Length)) -> Length| {
        let mut all: Vec<Length> = centers.iter().map(of).collect();
        all.sort_unstable();
        all.dedup();
        all
    };
    let [along, across] = [lines(|center| center.0), lines(|center| center.1)];
    let all = along.len() * across.len() == centers.len();
    (all && centers.len() > 4).then_some([along, across])
}

/// `1`, `1 and 2`, `1, 2 and 3`.
fn listed(figures: &[String]) -> String {
    match figures.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        Some((last, _)) => last.clone(),
        None => String::new(),
    }
}

/// Two lines that differ only in their end become one.
fn both_ends(lines: Vec<String>) -> Vec<String> {
    let mut joined: Vec<String> = Vec::new();
    // What is said before the end, and in which line.
    let mut single: BTreeMap<String, usize> = BTreeMap::new();
    for line in lines {
        let head = line.split_once(" at the ").map(|(head, _)| head.to_owned());
        let twin = head.as_ref().and_then(|head| single.remove(head));
        match (head, twin.and_then(|twin| joined.get_mut(twin))) {
            (Some(head), Some(known)) => *known = format!("{head} at both ends"),
            (head, _) => {
                single.extend(head.map(|head| (head, joined.len())));
                joined.push(line);
            }
        }
    }
    joined
}

fn one(part: &Part, feature: &Feature, parts: &Parts, figures: &Figures) -> String {
    let face = part.face_name(feature.face);
    let text = |length| figures.text(length);
    let fit = |length| figures.mating(length);
    match feature.kind {
        FeatureKind::Dado | FeatureKind::Groove | FeatureKind::Rabbet => {
            let channel = part.channel(feature);
            let what = feature.kind.word_along(channel.from.is_zero());
            let datum = part.face_name(channel.datum);
            let place = if channel.from.is_zero() {
                format!("along the {datum}")
            } else {
                format!("{} from the {datum}", fit(channel.from))
            };
            let housed = housed(part, feature, parts);
            let takes = match housed.is_empty() {
                true => String::new(),
                false => format!(", houses {}", listed(&housed)),
            };
            let stops = stops(part, feature, &channel, figures);
            format!(
                "{what} {} wide, {} deep in the {face}, {place}{stops}{takes}",
                fit(channel.wide),
                fit(feature.deep)
            )
        }
        FeatureKind::Glazing(_) => joints::glazing(part, feature, figures),
        FeatureKind::Miter => {
            format!("{face} mitered at 45 degrees, with the width to the long point")
        }
        FeatureKind::Notch if matches!(part.assembly, Assembly::Front(_)) => {
            joints::finger(part, feature, figures)
        }
        FeatureKind::Notch => {
            let (_, wide) = part.face_size(feature.face);
            let (end, inset) = notch_end(part, feature);
            let end = part.face_name(end);
            let inset = match inset.is_zero() {
                true => String::new(),
                false => format!(", set back {}", text(inset)),
            };
            let edge = match (feature.v.0.is_zero(), feature.v.1 == wide) {
                (true, _) => part.face_name(Face::WidthStart),
                (_, true) => part.face_name(Face::WidthEnd),
                _ => "middle".to_owned(),
            };
            format!(
                "notch {} along the {edge} and {} into it{inset} at the {end}",
                text(feature.u.1 - feature.u.0),
                text(feature.v.1 - feature.v.0)
            )
        }
        FeatureKind::Pockets(_, screw) => {
            let end = if feature.u.0.is_zero() { Face::LengthStart } else { Face::LengthEnd };
            let screw = screw.map(|screw| format!(" for {} screws", text(screw)));
            let screw = screw.unwrap_or_default();
            let edge = part.datum([Face::WidthStart, Face::WidthEnd]);
            let mut all: Vec<Length> = strips(part, feature)
                .flat_map(|(strip, count)| strip.pocket_places(count))
                .map(|place| part.distance(edge, place))
                .collect();
            all.sort_unstable();
            let count = all.len();
            let places: Vec<String> = all.into_iter().map(text).collect();
            let plural = if count == 1 { "" } else { "s" };
            format!(
                "{count} pocket hole{plural}{screw} in the {face}, {} from the {} at the {}",
                listed(&places),
                part.face_name(edge),
                part.face_name(end)
            )
        }
        FeatureKind::Tenon => joints::tenon(part, feature, figures),
        FeatureKind::Mortise => joints::mortise(part, feature, parts, figures),
        FeatureKind::Dovetails => {
            format!("dovetails {} long (see the layout sheet) at the {face}", text(feature.deep))
        }
        FeatureKind::Dowels(..) => joints::dowels(part, feature, parts, figures),
        FeatureKind::Bore(_) | FeatureKind::Flute(_) | FeatureKind::Slot | FeatureKind::Haunch => {
            String::new()
        }
    }
}

/// The marks of what lies in a channel: what it is made for, or the panels that stand one
/// above the other in the groove of a stile.
fn housed(part: &Part, channel: &Feature, parts: &Parts) -> Vec<String> {
    let lodged = parts.lodged(part, channel);
    if !lodged.is_empty() {
        return lodged.into_iter().map(|id| parts.mark(id).to_owned()).collect();
    }
    let is_glazed = part.features.iter().any(|own| matches!(own.kind, FeatureKind::Glazing(_)));
    if part.role != Role::FrontStile || is_glazed {
        return Vec::new();
    }
    let own = parts.iter().filter(|(_, own)| own.assembly == part.assembly);
    let panels = own.filter(|(_, own)| own.role == Role::FrontPanel);
    let within = panels.filter(|(id, own)| part.houses(channel, *id, own));
    within.map(|(id, _)| parts.mark(id).to_owned()).collect()
}

/// The end that a notch counts from, and how far it lies from it: the end it is
/// cut into or lies alike at both of, else the marked one.
pub(crate) fn notch_end(part: &Part, notch: &Feature) -> (Face, Length) {
    let far = part.length.length - notch.u.1;
    let mirrored = |other: &Feature| {
        let place = (part.length.length - other.u.1, part.length.length - other.u.0);
        other.kind == notch.kind && other.v == notch.v && place == notch.u
    };
    let own = notch.u.0.is_zero() || far.is_zero() || part.features.iter().any(mirrored);
    let end = match own {
        true if far < notch.u.0 => Face::LengthEnd,
        true => Face::LengthStart,
        false => part.datum([Face::LengthStart, Face::LengthEnd]),
    };
    (end, if end.is_start() { notch.u.0 } else { far })
}

/// The features of a kind at one end: where the end meets several boards, such
/// as two stretchers, each has its own holes. All are told in one line.
fn strips<'a>(part: &'a Part, first: &'a Feature) -> impl Iterator<Item = (&'a Feature, u32)> {
    part.features.iter().filter_map(move |other| match (first.kind, other.kind) {
        (FeatureKind::Pockets(..), FeatureKind::Pockets(count, _))
            if (first.face, first.u) == (other.face, other.u) =>
        {
            Some((other, count))
        }
        (FeatureKind::Dowels(..), FeatureKind::Dowels(count, ..))
            if (first.face, first.takes) == (other.face, other.takes) =>
        {
            Some((other, count))
        }
        _ => None,
    })
}

fn stops(part: &Part, feature: &Feature, channel: &Channel, figures: &Figures) -> String {
    let (start, end) = feature.face.ends_of_run(channel.along);
    // A dado may run out into a rabbet that is cut away there anyway.
    let open = |at: Length, face: Face| {
        let covers =
            |(from, to): (Length, Length), (low, high): (Length, Length)| from <= low && high <= to;
        part.features.iter().any(|other| {
            let (beside, near) = match face {
                Face::WidthStart | Face::WidthEnd => (covers(other.u, feature.u), other.v),
                _ => (covers(other.v, feature.v), other.u),
            };
            let end = part.depth(face);
            other.kind == FeatureKind::Rabbet
                && other.face == feature.face
                && beside
                && match face.is_start() {
                    true => near.0.is_zero() && near.1 >= at,
                    false => near.0 <= end - at && near.1 == end,
                }
        })
    };
    let mut text = String::new();
    for (stop, face) in [(channel.stops.0, start), (channel.stops.1, end)] {
        if stop.is_positive() && !open(stop, face) {
            text.push_str(&format!(
                ", stopped {} from the {}",
                figures.text(stop),
                part.face_name(face)
            ));
        }
    }
    text
}
