//! A wall beside a groove, dado, rabbet, or mortise that is too thin to last.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::measure::{Length, Span, Tape};
use crate::model::{Case, Piece, StockKind};
use crate::parts::{Assembly, Bore, Cuboid, Direction, Face, Feature, FeatureKind, Part};
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "thin-wall",
    severity: Severity::Warning,
    finds: "A groove, dado, rabbet, or mortise leaves less than 3/16 in (4.8 mm) of wood beside it or under it: up to a face of its part, or up to another cut in it. Between two cuts back to back in particleboard it tells of less than 5/16 in (8 mm).",
    why: "So thin a wall splits off while you cut it, or as the mating part goes in. Beside a panel it breaks when the wood moves or the door is slammed.",
    source: "Common practice; no published source.",
    formula: "",
    accept: "Accept it where the wall is glued up to its mating part over its whole length, and a sharp bit and a light last pass leave it standing.",
    example: Example {
        base: Base::Press,
        sound: "species european-ash; thickness 8;",
        wrong: "species european-ash; thickness 12;",
    },
    check: Check::Parts(check),
    sometimes: None,
};

const ALL: [Direction; 3] = [Direction::X, Direction::Y, Direction::Z];

/// A wall, and what lies on its other side: a cut, or else a face of the part.
struct Wall<'p> {
    left: Length,
    under: bool,
    behind: Option<&'p Feature>,
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    // What another rule refuses for being thin is not told again.
    if sink.has_errors() {
        return;
    }
    let tape = piece.tape();
    for part in &parts.all {
        let mut hollows: Option<Vec<(&Feature, Cuboid)>> = None;
        let mut told: Vec<&Feature> = Vec::new();
        let mut depths: Vec<Span> = Vec::new();
        for feature in part.features.iter().filter(|own| is_judged(own)) {
            let hollows = hollows.get_or_insert_with(|| {
                let own = part.features.iter().filter(|own| is_hollow(own));
                own.map(|own| (own, part.hollow(own, own.v))).collect()
            });
            let Some(wall) = thinnest(part, feature, hollows, tape) else { continue };
            if wall.left >= lasting(work, part, &wall) {
                continue;
            }
            // A wall between two cuts is one wall, and one depth makes all of its kind.
            let known =
                wall.behind.is_some_and(|behind| told.iter().any(|it| std::ptr::eq(*it, behind)));
            let depth = depth_of_both(feature, &wall);
            if known || depth.is_some_and(|depth| depths.contains(&depth)) {
                continue;
            }
            told.push(feature);
            depths.extend(depth);
            sink.push(finding(work, part, feature, &wall));
        }
    }
}

/// How thick a wall lasts: between two cuts back to back in particleboard, where chips
/// alone hold it, more than elsewhere.
fn lasting(work: &Workings<'_>, part: &Part, wall: &Wall<'_>) -> Length {
    let crumbles =
        work.piece.stock(part.stock).is_some_and(|own| own.kind == StockKind::Particleboard);
    match crumbles && wall.under && wall.behind.is_some() {
        true => trade::chips_wall(),
        false => trade::lasting_wall(),
    }
}

/// The statement that gives the depth of two cuts that meet in the middle of a board.
fn depth_of_both(feature: &Feature, wall: &Wall<'_>) -> Option<Span> {
    let behind = wall.behind.filter(|_| wall.under)?;
    feature.deep_at.filter(|depth| behind.deep_at == Some(*depth))
}

fn is_judged(feature: &Feature) -> bool {
    feature.is_channel() || feature.kind == FeatureKind::Mortise
}

/// Cuts that a wall may end at.
fn is_hollow(feature: &Feature) -> bool {
    match feature.kind {
        FeatureKind::Dado
        | FeatureKind::Groove
        | FeatureKind::Rabbet
        | FeatureKind::Glazing(_)
        | FeatureKind::Notch
        | FeatureKind::Slot
        | FeatureKind::Bore(
            Bore::Cup | Bore::Pull | Bore::Plate | Bore::PlateBehind | Bore::Round | Bore::Leg,
        )
        | FeatureKind::Flute(_)
        | FeatureKind::Mortise => true,
        FeatureKind::Miter
        | FeatureKind::Pockets(..)
        | FeatureKind::Tenon
        | FeatureKind::Haunch
        | FeatureKind::Dovetails
        | FeatureKind::Dowels(..) => false,
    }
}

/// The thinnest wall of a cut, with all that its part has cut out. A fin of less than
/// a tape can tell falls off by itself.
fn thinnest<'p>(
    part: &'p Part,
    feature: &'p Feature,
    hollows: &[(&'p Feature, Cuboid)],
    tape: &Tape,
) -> Option<Wall<'p>> {
    let fin = tape.mark.half() + trade::mating();
    let (own, whole) = (part.hollow(feature, feature.v), part.cuboid());
    let into = part.placement.direction(feature.face);
    let run = feature
        .is_channel()
        .then(|| part.placement.direction(feature.face.ends_of_run(feature.runs_along()).0));
    let others = || hollows.iter().filter(|(other, _)| !std::ptr::eq(*other, feature));
    let mut walls: Vec<Wall<'_>> = Vec::new();
    for axis in ALL.into_iter().filter(|axis| Some(*axis) != run) {
        // What lies beside the cut along this axis, on whichever side.
        let meets = |cuboid: &Cuboid| {
            ALL.into_iter().filter(|other| *other != axis).all(|other| {
                own.from.along(other) < cuboid.to.along(other)
                    && cuboid.from.along(other) < own.to.along(other)
            })
        };
        let beside: Vec<&(&Feature, Cuboid)> =
            others().filter(|(_, cuboid)| meets(cuboid)).collect();
        for is_end in [false, true] {
            // How far a place lies outside of the cut on this side.
            let beyond = |place: Length| match is_end {
                true => place - own.to.along(axis),
                false => own.from.along(axis) - place,
            };
            let side = |cuboid: &Cuboid| match is_end {
                true => (beyond(cuboid.from.along(axis)), beyond(cuboid.to.along(axis))),
                false => (beyond(cuboid.to.along(axis)), beyond(cuboid.from.along(axis))),
            };
            let covers = |cuboid: &Cuboid| {
                ALL.into_iter().filter(|other| *other != axis).all(|other| {
                    cuboid.from.along(other) <= own.from.along(other)
                        && own.to.along(other) <= cuboid.to.along(other)
                })
            };
            let (_, face) = side(&whole);
            let opens = |cuboid: &Cuboid| {
                let (near, far) = side(cuboid);
                near <= fin && far > fin
            };
            if face <= fin || beside.iter().any(|(_, cuboid)| covers(cuboid) && opens(cuboid)) {
                continue;
            }
            let under = axis == into;
            walls.push(Wall { left: face, under, behind: None });
            // The nearest of them, the first of those that are equally near.
            let near = |cuboid: &Cuboid| match is_end {
                true => cuboid.from.along(axis),
                false => cuboid.to.along(axis),
            };
            let end = match is_end {
                true => own.to.along(axis) + fin,
                false => own.from.along(axis) - fin,
            };
            let is_beyond =
                |place: Length, end: Length| if is_end { place > end } else { place < end };
            let apart = beside.iter().filter(|(_, cuboid)| is_beyond(near(cuboid), end));
            let nearest =
                apart.reduce(
                    |best, next| {
                        if is_beyond(near(&best.1), near(&next.1)) { next } else { best }
                    },
                );
            walls.extend(nearest.map(|(other, cuboid)| Wall {
                left: beyond(near(cuboid)),
                under,
                behind: Some(other),
            }));
        }
    }
    let mitered = part.features.iter().filter(|other| {
        other.kind == FeatureKind::Miter && Some(part.placement.direction(other.face)) != run
    });
    for miter in mitered {
        walls.extend(at_miter(part, &own, miter));
    }
    walls.into_iter().min_by_key(|wall| wall.left)
}

/// The wall up to a mitered edge, which takes the more of the wood the farther it is
/// from the face that keeps its corner.
fn at_miter<'p>(part: &Part, own: &Cuboid, miter: &'p Feature) -> Option<Wall<'p>> {
    let long = part.show?;
    let whole = part.cuboid();
    let beside = |face: Face, cuboid: &Cuboid| {
        let axis = part.placement.direction(face);
        match face.is_start() {
            true => (
                cuboid.from.along(axis) - whole.from.along(axis),
                cuboid.to.along(axis) - whole.from.along(axis),
            ),
            false => (
                whole.to.along(axis) - cuboid.to.along(axis),
                whole.to.along(axis) - cuboid.from.along(axis),
            ),
        }
    };
    let (edge, _) = beside(miter.face, own);
    let (_, deep) = beside(long, own);
    Some(Wall { left: edge - deep, under: false, behind: Some(miter) })
}

fn finding(work: &Workings<'_>, part: &Part, feature: &Feature, wall: &Wall<'_>) -> Diagnostic {
    let tape = work.piece.tape();
    let (word, left) = (feature.kind.word(), tape.figure(wall.left));
    let place = match (wall.behind, wall.under) {
        (Some(behind), _) => format!("between the {word} and the {}", behind.kind.word()),
        (None, true) => format!("under the {word}"),
        (None, false) => format!("beside the {word}"),
    };
    let least = lasting(work, part, wall);
    let mut diagnostic = RULE
        .finding(
            format!("only {left} of wood is left {place} of {}", part.path),
            feature.span,
            format!("{left} left"),
        )
        .because(format!(
            "a wall thinner than {} splits off as it is cut or as its board goes in",
            tape.figure_with_unit(tape.up(least))
        ))
        .subject(&part.path)
        .urgency(-wall.left / Length::mm(1));
    if let Some(behind) = wall.behind.filter(|behind| behind.span != feature.span) {
        diagnostic = diagnostic.label(behind.span, format!("the {}", behind.kind.word()));
    }
    mended(work, part, feature, wall, diagnostic)
}

/// What to do about it.
fn mended(
    work: &Workings<'_>,
    part: &Part,
    feature: &Feature,
    wall: &Wall<'_>,
    diagnostic: Diagnostic,
) -> Diagnostic {
    let tape = work.piece.tape();
    let least = lasting(work, part, wall);
    let short = tape.up(least - wall.left);
    let in_front = matches!(part.assembly, Assembly::Front(_));
    // Shallower than this a dado holds nothing.
    let holds = feature.deep - short.half() >= Length::inches(1, 8);
    if let Some(span) = depth_of_both(feature, wall).filter(|_| holds) {
        let deep = tape.down(feature.deep - short.half());
        let text = format!("{} deep from both sides", tape.figure(feature.deep));
        return diagnostic.label(span, text).fix(Fix::new(
            Grade::Choice,
            format!("{} deep from each side", tape.figure(deep)),
            span,
            format!("deep {}", tape.source(deep)),
        ));
    }
    match (feature.kind, wall.behind.map(|behind| behind.kind)) {
        (FeatureKind::Groove, None) if in_front && !wall.under => {
            panel(work, part, feature, diagnostic)
        }
        (FeatureKind::Groove, Some(FeatureKind::Bore(Bore::Cup))) => diagnostic.note(format!(
            "make the stile {} wider, or the groove as much shallower",
            tape.figure(short)
        )),
        (FeatureKind::Groove, Some(FeatureKind::Notch))
            if matches!(part.assembly, Assembly::DrawerBox(_)) =>
        {
            notched(work.piece, part, wall, diagnostic)
        }
        _ if wall.under => diagnostic.note(format!(
            "make the {} {} shallower, or use thicker stock",
            feature.kind.word(),
            tape.figure(short)
        )),
        _ => diagnostic.note(format!(
            "move the {} {} away from there, or make it narrower",
            feature.kind.word(),
            tape.figure(short)
        )),
    }
}

/// The groove of a panel is as wide as the panel is thick, in the middle of the edge.
fn panel(
    work: &Workings<'_>,
    part: &Part,
    feature: &Feature,
    diagnostic: Diagnostic,
) -> Diagnostic {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    let (from, to) = feature.v;
    let groove = to - from;
    let thick = part.thickness.length;
    let walls = trade::lasting_wall().twice();
    let fits = tape.down(thick - walls);
    let diagnostic = match piece.stock(part.stock) {
        Some(stock) => {
            diagnostic.label(stock.thickness_span, format!("stiles {} thick", tape.figure(thick)))
        }
        None => diagnostic,
    };
    let panel = feature.takes.and_then(|id| parts.get(id)).and_then(|own| piece.stock(own.stock));
    let panel = panel.filter(|stock| matches!(stock.kind, StockKind::Lumber));
    let written = panel.and_then(|panel| piece.facts.written(&panel.thickness));
    let stiles = tape.figure(tape.up(groove + walls));
    match written {
        Some(span) if fits >= trade::lasting_wall() => diagnostic.fix(Fix::new(
            Grade::Choice,
            format!("plane the panel to {}", tape.figure(fits)),
            span,
            format!("thickness {}", tape.source(fits)),
        )),
        Some(_) | None => diagnostic.note(format!(
            "use a panel at most {} thick, or stiles at least {stiles} thick",
            tape.figure(fits.max(tape.mark))
        )),
    }
}

/// Over the notch for a slide the groove leaves a sliver, or it lies well above.
fn notched(piece: &Piece, part: &Part, wall: &Wall<'_>, diagnostic: Diagnostic) -> Diagnostic {
    let tape = piece.tape();
    let boxes = piece
        .cases
        .iter()
        .find(|case| part.opening().is_some_and(|id| case.openings.iter().any(|o| o.id == id)))
        .and_then(|case: &Case| case.drawers.as_ref());
    let Some(boxes) = boxes else { return diagnostic };
    let up = tape.up(boxes.groove_up.length + trade::lasting_wall() - wall.left);
    let raised = format!("up {}", tape.source(up));
    match boxes.groove_up_span {
        Some(span) => diagnostic.fix(Fix::new(
            Grade::Choice,
            format!("raise the groove to {}", tape.figure(up)),
            span,
            raised,
        )),
        None => diagnostic.note(format!("write `{raised}` in the `groove` of the drawers")),
    }
}
