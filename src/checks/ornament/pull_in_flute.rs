//! A pull whose foot has no flat to stand on.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::{Length, Span, Tape};
use crate::model::{Flutes, Opening, Piece, Pull, Side};
use crate::parts::{Assembly, Bore, Face, Feature, FeatureKind, Part};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "pull-in-flute",
    severity: Severity::Warning,
    finds: "A pull on a fluted front has its hole in a flute, or its foot overhangs one by more than a mark of the tape.",
    why: "The bit wanders off the side of a flute. The pull rocks on its edges, and daylight shows under its foot.",
    source: "Plane geometry. Where no foot is written, it is taken as twice the screw (common practice; no published source).",
    formula: "",
    accept: "Accept it if the pull has a backplate that spans the flutes, or if you pare the flutes away under its feet by hand.",
    example: Example { base: Base::Console, sound: "from-edge 1-1/32", wrong: "from-edge 1-1/4" },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    for part in &parts.all {
        let Some((opening, flutes, pull)) = fluted(piece, part) else { continue };
        if holes(part).next().is_none() {
            continue;
        }
        let lines: Vec<&Feature> =
            part.features.iter().filter(|f| matches!(f.kind, FeatureKind::Flute(_))).collect();
        let half = pull.foot.max(pull.screw).half();
        let worst = holes(part)
            .map(|hole| (hole, foot(hole, half)))
            .flat_map(|(hole, foot)| {
                lines.iter().map(move |line| (hole, shared(foot, line), *line))
            })
            .filter(|(_, (from, to), _)| from < to)
            .map(|(hole, (from, to), line)| (to - from, hole, line))
            .max_by_key(|(over, ..)| *over);
        let Some((over, hole, line)) = worst else { continue };
        if over <= piece.tape().mark {
            continue;
        }
        sink.push(finding(piece, part, opening, (flutes, pull), (over, hole, line), &lines));
    }
}

/// The statement that says how far the pull of a door sits from its latch edge.
fn from_edge_span(opening: &Opening, pull: &Pull) -> Option<Span> {
    let own = opening.front.as_ref().and_then(|front| front.pull_place.from_edge_span);
    own.or(pull.from_edge_span)
}

/// The holes of its pull.
fn holes(part: &Part) -> impl Iterator<Item = &Feature> {
    part.features.iter().filter(|f| f.kind == FeatureKind::Bore(Bore::Pull))
}

/// The opening, flutes and pull of a front that has both.
fn fluted<'a>(piece: &'a Piece, part: &Part) -> Option<(&'a Opening, &'a Flutes, &'a Pull)> {
    let opening = super::opening_of(piece, part)?;
    let front = opening.front.as_ref()?;
    let flutes = front.flutes.as_ref()?;
    let width = crate::trade::flute_width(piece.bit(flutes.bit)?.diameter, flutes.deep);
    // Where the lands themselves are too narrow, that is said instead.
    let sound = flutes.pitch - width >= flutes.land;
    let pull = piece.pull(front.pull?)?;
    sound.then_some((opening, flutes, pull))
}

/// From where to where a foot of this radius round a hole stands, along `u`
/// and `v` of its face.
fn foot(hole: &Feature, half: Length) -> [(Length, Length); 2] {
    let (u, v) = hole.center();
    [u, v].map(|at| (at - half, at + half))
}

/// From where to where across the flutes a foot stands over one.
fn shared([u, v]: [(Length, Length); 2], line: &Feature) -> (Length, Length) {
    let along = line.runs_along();
    let (across, run) = if along { (v, u) } else { (u, v) };
    let (band, long) = (line.across(along), line.run(along));
    if run.1 <= long.0 || run.0 >= long.1 {
        return (Length::ZERO, Length::ZERO);
    }
    (across.0.max(band.0), across.1.min(band.1))
}

fn finding(
    piece: &Piece,
    part: &Part,
    opening: &Opening,
    (flutes, pull): (&Flutes, &Pull),
    (over, hole, line): (Length, &Feature, &Feature),
    lines: &[&Feature],
) -> Diagnostic {
    let tape = piece.tape();
    let along = line.runs_along();
    let (from, to) = line.across(along);
    let land = flutes.pitch - (to - from);
    let hole_over = shared(foot(hole, pull.screw.half()), line);
    let hole_in = hole_over.1 - hole_over.0;
    let title = if hole_in > tape.mark {
        format!("a hole of the pull of {} breaks {} into a flute", part.path, tape.text(hole_in))
    } else {
        format!("the foot of the pull of {} overhangs a flute by {}", part.path, tape.text(over))
    };
    let (u, v) = hole.center();
    let (at, sides) = if along {
        (v, [Face::WidthStart, Face::WidthEnd])
    } else {
        (u, [Face::LengthStart, Face::LengthEnd])
    };
    let side = part.datum(sides);
    let counted = |(from, to): (Length, Length)| {
        let (from, to) = (part.distance(side, from), part.distance(side, to));
        (from.min(to), from.max(to))
    };
    let over_it = shared(foot(hole, pull.foot.max(pull.screw).half()), line);
    let ((from, to), (from_over, to_over)) = (counted((from, to)), counted(over_it));
    let mut found = RULE
        .finding(
            title,
            from_edge_span(opening, pull).filter(|_| opening.is_door()).unwrap_or(pull.span),
            format!(
                "center {} from the {}",
                tape.text(part.distance(side, at)),
                part.face_name(side)
            ),
        )
        .label(
            flutes.span,
            format!(
                "a flute from {} to {}, with lands {} wide",
                tape.text(from),
                tape.text(to),
                tape.text(land)
            ),
        )
        .sum(
            Sum::new(
                "over the flute",
                tape.print(to_over).shown - tape.print(from_over).shown,
                tape,
            )
            .plus(
                tape.print(to_over).shown,
                if to_over == to { "end of flute" } else { "end of foot" },
                tape,
            )
            .minus(
                tape.print(from_over).shown,
                if from_over == from { "start of flute" } else { "start of foot" },
                tape,
            ),
        )
        .because("the bit wanders off the side of a flute, and the pull rocks on its edges")
        .subject(&part.path)
        .urgency(over / Length::mm(1));
    let foot = pull.foot.max(pull.screw);
    let too_wide = format!(
        "its foot is {} across; a wider pitch or shallower flutes leave a land for it, and so does a smaller `foot`",
        tape.figure(foot)
    );
    if foot - land > tape.mark.twice() {
        return found.note(too_wide);
    }
    match moved(tape, part, opening, pull, at, lines) {
        // At the nearest mark the foot still stands over a flute.
        Some((_, off)) if (foot - land).half() + off > tape.mark => found = found.note(too_wide),
        Some((edge, _)) => {
            let latch = part.hinge_edge().map(|hinge| part.face_name(hinge.opposite()));
            let title = format!(
                "put its holes on the middle of a land, {} from the {}",
                tape.figure(edge),
                latch.unwrap_or_default()
            );
            if let Some(span) = from_edge_span(opening, pull) {
                let text = format!("from-edge {}", tape.source(edge));
                found = found.fix(Fix::new(Grade::Choice, title, span, text));
            } else {
                let text = tape.source(edge);
                found = found.note(format!("write `from-edge {text}` in the pull to put it on a land"));
            }
        }
        None if holes(part).count() > 1 => {
            let middle = if along { part.width.length } else { part.length.length }.half();
            let in_flute = lines.iter().any(|line| {
                let (from, to) = line.across(along);
                from < middle && middle < to
            });
            let (here, other) = if in_flute { ("flute", "land") } else { ("land", "flute") };
            let (odd, even) = if in_flute { ("odd", "even") } else { ("even", "odd") };
            found = found.note(format!("choose a pitch that puts both holes on lands: the pull's `centers` must be an {odd} number of pitches on a front with a {here} in its middle, like this one, and an {even} number where there is a {other}"));
        }
        None => found = found.note("choose a pitch that puts a land in the middle of this front, or set the pull off the middle"),
    }
    found
}

/// From the latch edge of a door with upright flutes to the middle of the land
/// nearest to where the pull is now, at a mark of the tape; and how far that
/// mark lies beside the middle.
fn moved(
    tape: &Tape,
    part: &Part,
    opening: &Opening,
    pull: &Pull,
    at: Length,
    lines: &[&Feature],
) -> Option<(Length, Length)> {
    let upright = lines.first().is_some_and(|line| line.runs_along());
    if !opening.is_door() || !upright {
        return None;
    }
    let middle = |pair: &[&Feature]| match pair {
        [a, b] => Some((a.v.1 + b.v.0).half()),
        _ => None,
    };
    let nearest = lines.windows(2).filter_map(middle).min_by_key(|land| (*land - at).abs())?;
    // The distance counts from the latch edge: on one side it grows as `v`
    // does, on the other it shrinks.
    let Assembly::Front(front) = part.assembly else { return None };
    let lead = opening.hung(front.leaf)?.other();
    let shift = if lead == Side::Left { nearest - at } else { at - nearest };
    let own = opening.front.as_ref().and_then(|front| front.pull_place.from_edge);
    let edge = own.unwrap_or(pull.from_edge) + shift;
    let shown = tape.print(edge).shown;
    Some((shown, (edge - shown).abs()))
}
