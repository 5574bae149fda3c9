//! Tenons, mortises, and dowel holes in the words of the trade.

use crate::measure::Length;
use crate::model::{JointKind, Piece};
use crate::papers::figures::Figures;
use crate::parts::{Face, Feature, FeatureKind, Part, Parts, Role};
use crate::plans::operations;

use super::{listed, strips};

/// A tenon, with what a groove in the edge of its part and its haunch leave of its width,
/// and how far it is set in.
pub(super) fn tenon(part: &Part, tenon: &Feature, figures: &Figures) -> String {
    let fit = |length| figures.mating(length);
    let wide = tenon.u.1 - tenon.u.0;
    let grooves: Vec<Length> =
        part.features.iter().filter_map(|own| gone(part, own, tenon)).collect();
    let (grooved, edges): (Length, _) = (
        grooves.iter().copied().sum(),
        if grooves.len() > 1 { "the grooves" } else { "the groove" },
    );
    let haunch =
        part.features.iter().find(|own| own.kind == FeatureKind::Haunch && own.face == tenon.face);
    let sawn = haunch.map_or(Length::ZERO, |own| own.u.1 - own.u.0);
    let left = fit(wide - grooved - sawn);
    let width = match (grooved.is_zero(), haunch.is_some()) {
        (true, false) => format!("{left} wide"),
        (false, false) => format!("{left} wide ({} less {edges})", fit(wide)),
        (true, true) => format!("{left} wide ({} less the haunch)", fit(wide)),
        (false, true) => format!("{left} wide ({} less {edges} and the haunch)", fit(wide)),
    };
    let haunched = haunch.map_or(String::new(), |own| {
        let edge = if own.u.0.is_zero() { Face::WidthStart } else { Face::WidthEnd };
        format!(
            ", cut back {} over {} from the {} to a haunch {} long",
            fit(own.deep),
            fit(sawn),
            part.face_name(edge),
            fit(tenon.deep - own.deep)
        )
    });
    let shouldered: String = [Face::WidthStart, Face::WidthEnd]
        .into_iter()
        .map(|edge| (edge, part.distance(edge, tenon.u.0).min(part.distance(edge, tenon.u.1))))
        .filter(|(_, from)| from.is_positive())
        .map(|(edge, from)| format!(", set in {} from the {}", fit(from), part.face_name(edge)))
        .collect();
    format!(
        "tenon {} long, {width}{shouldered}{haunched}, {} thick, {} at the {}",
        fit(tenon.deep),
        fit(tenon.v.1 - tenon.v.0),
        from_side(part, tenon.v, figures),
        part.face_name(tenon.face)
    )
}

/// What a groove along an edge takes of the width of a tenon: nothing of one that is set in
/// as far as the groove is deep.
fn gone(part: &Part, groove: &Feature, tenon: &Feature) -> Option<Length> {
    let (low, high) = tenon.u;
    let left = match groove.face {
        Face::WidthStart => groove.deep - low,
        Face::WidthEnd => groove.deep - (part.width.length - high),
        Face::LengthStart | Face::LengthEnd | Face::ThickStart | Face::ThickEnd => return None,
    };
    let across = groove.v.0 <= tenon.v.0 && tenon.v.1 <= groove.v.1;
    (groove.kind == FeatureKind::Groove && across && left.is_positive()).then_some(left)
}

/// How far a stretch of the thickness lies from the face side: `6 from the front
/// face`.
fn from_side(part: &Part, (one, other): (Length, Length), figures: &Figures) -> String {
    let side = part.datum([Face::ThickStart, Face::ThickEnd]);
    let from = part.distance(side, one).min(part.distance(side, other));
    format!("{} from the {}", figures.mating(from), part.face_name(side))
}

/// How far a stretch of the width lies from the face edge: `9/32 from the inside face`.
fn from_edge(part: &Part, (one, other): (Length, Length), figures: &Figures) -> String {
    let edge = part.datum([Face::WidthStart, Face::WidthEnd]);
    let from = part.distance(edge, one).min(part.distance(edge, other));
    format!("{} from the {}", figures.mating(from), part.face_name(edge))
}

/// A finger pull, cut through the edge of a front.
pub(super) fn finger(part: &Part, cut: &Feature, figures: &Figures) -> String {
    let (long, wide) = part.face_size(cut.face);
    let of_ends = [(cut.u.0, Face::LengthStart), (long - cut.u.1, Face::LengthEnd)];
    let of_edges = [(cut.v.0, Face::WidthStart), (wide - cut.v.1, Face::WidthEnd)];
    let open = |faces: &[(Length, Face)]| {
        faces.iter().find(|(from, _)| from.is_zero()).map(|(_, face)| *face)
    };
    let (u, v) = cut.center();
    // It opens at an edge, or at an end of a front whose grain runs to it.
    let (along, deep, face, datum, center) = match open(&of_edges) {
        Some(edge) => (cut.u, cut.v, edge, [Face::LengthStart, Face::LengthEnd], u),
        None => {
            let end = open(&of_ends).unwrap_or(Face::LengthEnd);
            (cut.v, cut.u, end, [Face::WidthStart, Face::WidthEnd], v)
        }
    };
    let datum = part.datum(datum);
    format!(
        "finger pull {} long and {} deep, right through at the {}: center {} from the {}",
        figures.text(along.1 - along.0),
        figures.text(deep.1 - deep.0),
        part.face_name(face),
        figures.text(part.distance(datum, center)),
        part.face_name(datum)
    )
}

/// The length of a part between the shoulders of its tenons.
pub(super) fn shoulders(part: &Part, figures: &Figures) -> Option<String> {
    let tenons = part.features.iter().filter(|own| own.kind == FeatureKind::Tenon);
    let long: Vec<Length> = tenons.map(|tenon| tenon.deep).collect();
    let between = part.length.length - long.iter().copied().sum();
    let ends = match long.len() {
        0 => return None,
        1 => "from its shoulder to the other end",
        _ => "between its shoulders",
    };
    Some(format!("{} {ends}", figures.mating(between)))
}

/// The pins of a drawer box, which nothing but the tails of its sides places.
pub(super) fn pins(part: &Part, piece: &Piece) -> Option<String> {
    let boxes = piece.case(part.case)?.drawers.as_ref()?;
    let bears = matches!(part.role, Role::DrawerFront | Role::DrawerBack)
        && boxes.joint.kind == JointKind::Dovetail;
    bears.then(|| "pins at both ends, marked from the tails of the sides".to_owned())
}

/// A mortise, with its place across and along its part.
pub(super) fn mortise(part: &Part, mortise: &Feature, parts: &Parts, figures: &Figures) -> String {
    let fit = |length| figures.mating(length);
    let end = part.datum([Face::LengthStart, Face::LengthEnd]);
    let (one, other) = mortise.u;
    let from = part.distance(end, one).min(part.distance(end, other));
    let end = part.face_name(end);
    let place = match from.is_zero() {
        true => format!("flush with the {end}"),
        false => format!("{} from the {end}", fit(from)),
    };
    format!(
        "mortise {} long, {} wide, {} deep in the {}, {}, {place}{}",
        fit(other - one),
        fit(mortise.v.1 - mortise.v.0),
        fit(mortise.deep),
        part.face_name(mortise.face),
        match mortise.face.is_broad() {
            // In a post, of which each face is as broad as the next.
            true => from_edge(part, mortise.v, figures),
            false => from_side(part, mortise.v, figures),
        },
        mortise.takes.map_or(String::new(), |id| format!(", houses {}", parts.mark(id))),
    )
}

/// The dowel holes at an end of a part, or those in a part for the end of another.
pub(super) fn dowels(part: &Part, first: &Feature, parts: &Parts, figures: &Figures) -> String {
    let FeatureKind::Dowels(_, diameter, long) = first.kind else { return String::new() };
    let [u, v] = operations::sides(first.face);
    let (along, across) = if parts.runs_along_u(part, first) { (u, v) } else { (v, u) };
    let [along, across] = [along, across].map(|(first, last)| part.datum([first, last]));
    let rows = strips(part, first).map(|(row, count)| parts.dowels(part, row, count));
    let (mut places, mut beside) = (Vec::new(), Length::ZERO);
    for row in rows {
        places.extend(row.places.into_iter().map(|place| part.distance(along, place)));
        beside = part.distance(across, row.beside);
    }
    places.sort_unstable();
    let (plural, center) = if places.len() == 1 { ("", "center") } else { ("s", "centers") };
    let wide = diameter.map_or(String::new(), |own| format!(" {}", figures.hardware(own)));
    let deep = figures.text(first.deep);
    let holes = format!("{} dowel hole{plural}{wide}, {deep} deep", places.len());
    let places: Vec<String> = places.into_iter().map(|place| figures.text(place)).collect();
    let at = format!(
        "{center} {} from the {}, {} from the {}",
        listed(&places),
        part.face_name(along),
        figures.text(beside),
        part.face_name(across)
    );
    let face = part.face_name(first.face);
    match first.takes {
        Some(guest) => format!("{holes} in the {face}, {at}, for {}", parts.mark(guest)),
        None => format!("{holes}, for dowels {} long, {at} at the {face}", figures.text(long)),
    }
}

/// A rabbet for glass, which is cut when the frame is glued up.
pub(super) fn glazing(part: &Part, feature: &Feature, figures: &Figures) -> String {
    let text = |length| figures.text(length);
    let long = part.length.length;
    let tenons = part.features.iter().any(|own| own.kind == FeatureKind::Tenon);
    let edge = match feature.v.0.is_zero() {
        true => Face::WidthStart,
        false => Face::WidthEnd,
    };
    let run = match tenons {
        true => "from shoulder to shoulder".to_owned(),
        false => {
            let end = part.datum([Face::LengthStart, Face::LengthEnd]);
            let [one, other] = [feature.u.0, feature.u.1].map(|at| part.distance(end, at));
            let (from, to) = (one.min(other), one.max(other).min(long));
            format!("from {} to {} from the {}", text(from), text(to), part.face_name(end))
        }
    };
    format!(
        "when its frame is glued up: rabbet for glass {} wide, {} deep in the {}, along the {}, {run}",
        figures.mating(feature.v.1 - feature.v.0),
        figures.mating(feature.deep),
        part.face_name(feature.face),
        part.face_name(edge)
    )
}
