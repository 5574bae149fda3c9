//! A pull, or a cut for the fingers, that its front has no room for.

use std::collections::BTreeSet;

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{Build, Finger, FingerAt, FrontId, PullAt};
use crate::parts::{Feature, FeatureKind, Front, Part, Role};
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "pull-off-front",
    severity: Severity::Error,
    finds: "A pull sits so far from the top or the bottom of its front that its screws miss the front, or a finger pull is longer than the edge that it is cut into, or so deep that the board there is cut through.",
    why: "There is no wood for it. It is usually a height that was counted from the other end, or from the floor.",
    source: "Plane geometry. That 3/16 in stays beside the groove of a panel is common practice; no published source.",
    formula: "The height of the front, compared with the place of the pull and half of what is between its screws.",
    accept: "",
    example: Example {
        base: Base::Pantry,
        sound: "pull bar { from-top 4 }",
        wrong: "pull bar { from-top 60 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let mut seen: BTreeSet<FrontId> = BTreeSet::new();
    for front in work.fronts() {
        // The leaves of a pair are alike.
        let first = FrontId { leaf: front.opening.leaves()[0], ..front.id };
        if !seen.insert(first) {
            continue;
        }
        sink.extend(pull(work, front));
        if let Some(finger) = &front.fronts.finger {
            sink.extend(fingers(work, front, finger));
        }
    }
}

/// A pull whose height the front gives.
fn pull(work: &Workings<'_>, front: &Front<'_>) -> Option<Diagnostic> {
    let tape = work.piece.tape();
    let place = &front.fronts.pull_place;
    let pull = work.piece.pull(front.fronts.pull?)?;
    let (at, span) = (place.at?, place.at_span?);
    let (_, high) = front.opening.leaf(front.fronts);
    let high = high.length;
    let (from, edge, word) = match at {
        PullAt::FromTop(from) => (from, "top", "from-top"),
        PullAt::FromBottom(from) => (from, "bottom", "from-bottom"),
        PullAt::Middle => return None,
    };
    // The screws of a pull stand one above the other on a door.
    let apart = pull.centers.filter(|_| front.hung.is_some()).unwrap_or_default();
    let half = apart.half() + pull.screw.half();
    let far = high - half;
    if half <= from && from <= far {
        return None;
    }
    let noun = if pull.centers.is_some() { "pull" } else { "knob" };
    let what = if front.hung.is_some() { "a door" } else { "a front" };
    // As far from the edge as a base door has it, or clear of it by an inch.
    let (least, step) = tape
        .unit
        .either((Length::inches(3, 1), Length::inches(1, 1)), (Length::mm(75), Length::mm(25)));
    let usual = (step * ((half + step) / step).ceil()).max(least);
    let found = RULE
        .finding(
            format!(
                "the {noun} of {} would sit {} from the {edge} of {what} {} high",
                front.opening.path,
                tape.figure(from),
                tape.text(high)
            ),
            span,
            format!("{} from the {edge}", tape.figure(from)),
        )
        .label(front.opening.span, format!("its front is {} high", tape.text(high)))
        .subject(&front.opening.path)
        .urgency((from - far).max(half - from) / Length::mm(1));
    Some(match usual <= high - half {
        true => found.fix(Fix::new(
            Grade::Choice,
            format!("{} from the {edge}", tape.figure(usual)),
            span,
            format!("{word} {}", tape.source(usual)),
        )),
        false => found.note("write `middle`, and it sits at half the height"),
    })
}

/// A finger pull longer than its edge, or deeper than its board.
fn fingers(work: &Workings<'_>, front: &Front<'_>, finger: &Finger) -> Option<Diagnostic> {
    let tape = work.piece.tape();
    let (wide, high) = front.opening.leaf(front.fronts);
    let is_door = front.hung.is_some();
    // The top rail of a framed front has it between the stiles, which hold its tenons.
    let (long, edge) = match (&front.fronts.build, is_door) {
        (_, true) => (high.clone(), "latch edge"),
        (Build::Slab, false) => (wide.clone(), "top edge"),
        (Build::Panel(panel), false) => (&wide - &panel.stile * 2, "top edge between the stiles"),
    };
    let (from, to) = finger.along(&long, is_door);
    let path = &front.opening.path;
    let over = (-from.length).max(to.length - long.length);
    if over.is_positive() && finger.wide.length <= long.length {
        return Some(past_the_end(work, front, finger, over));
    }
    if over.is_positive() {
        return Some(
            RULE.finding(
                format!(
                    "the finger pull of {path} is {} long, and the {edge} of its front is {}",
                    tape.figure(finger.wide.length),
                    tape.text(long.length)
                ),
                finger.span,
                format!("{} long", tape.figure(finger.wide.length)),
            )
            .label(front.opening.span, "the front of this opening")
            .sum(
                Sum::new("over by", finger.wide.length - long.length, tape)
                    .plus(finger.wide.length, "finger pull", tape)
                    .minus(long.length, edge, tape),
            )
            .note("write a shorter `wide`")
            .subject(path),
        );
    }
    let board = front.parts.iter().find(|part| cut_by(part, finger))?;
    let across = match board.role {
        Role::Slab if is_door => wide.length,
        Role::Slab => high.length,
        _ => board.width.length,
    };
    let Build::Panel(panel) = &front.fronts.build else {
        return too_deep(work, front, finger, (across, across - least_left(work)));
    };
    let most = across - panel.groove.length - trade::lasting_wall();
    too_deep(work, front, finger, (across, most))
}

/// A finger pull that its place moves past an end of the latch edge.
fn past_the_end(
    work: &Workings<'_>,
    front: &Front<'_>,
    finger: &Finger,
    over: Length,
) -> Diagnostic {
    let tape = work.piece.tape();
    let (word, from) = match &finger.at {
        FingerAt::FromTop(from) => ("top", from),
        FingerAt::FromBottom(from) => ("bottom", from),
        FingerAt::Middle => ("top", &finger.wide),
    };
    let found = RULE
        .finding(
            format!(
                "the finger pull of {} runs {} past the end of the latch edge",
                front.opening.path,
                tape.text(over)
            ),
            finger.span,
            format!("{} long", tape.figure(finger.wide.length)),
        )
        .label(front.opening.span, "the front of this opening")
        .note("its place counts to its middle")
        .subject(&front.opening.path);
    let least = tape.up(finger.wide.length.half());
    match work.piece.facts.written(from) {
        Some(at) if from.length < least => found.fix(Fix::new(
            Grade::Choice,
            format!("{} from the {word}, where it ends flush", tape.figure(least)),
            at,
            format!("from-{word} {}", tape.source(least)),
        )),
        Some(_) | None => found,
    }
}

/// True where the finger pull is cut into this part.
fn cut_by(part: &Part, finger: &Finger) -> bool {
    let own = |cut: &Feature| cut.kind == FeatureKind::Notch && cut.span == finger.span;
    part.features.iter().any(own)
}

/// What stays of a slab below a finger pull: 1 in or 25 mm (common practice, no source).
fn least_left(work: &Workings<'_>) -> Length {
    work.piece.tape().unit.either(Length::inches(1, 1), Length::mm(25))
}

fn too_deep(
    work: &Workings<'_>,
    front: &Front<'_>,
    finger: &Finger,
    (across, most): (Length, Length),
) -> Option<Diagnostic> {
    let tape = work.piece.tape();
    let deep = finger.deep.length;
    if deep <= most {
        return None;
    }
    let path = &front.opening.path;
    let found = RULE
        .finding(
            format!(
                "the finger pull of {path} is {} deep, and the board that it is cut into is {} across there",
                tape.figure(deep),
                tape.text(across)
            ),
            finger.span,
            format!("{} deep", tape.figure(deep)),
        )
        .label(front.opening.span, "the front of this opening")
        .because("too little wood is left behind the cut to pull on")
        .subject(path);
    let fits = tape.down(most);
    Some(match fits.is_positive() {
        true => found.fix(finger.deep_at.says(
            &format!("deep {}", tape.source(fits)),
            format!("cut it {} deep", tape.figure(fits)),
        )),
        false => found.note("give this front a pull, or a wider board there"),
    })
}
