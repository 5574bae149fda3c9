//! Joints that take wood where the drawing leaves it.

use crate::diagnostics::{Diagnostic, Fix, Sum};
use crate::measure::{Length, Span, Tape};
use crate::model::{Build, Cut, MadeKind, Piece};
use crate::parts::{Assembly, Face, Part};
use crate::plans::made::{self, Fit, Lost, Mismatch};

use super::RULE;
use crate::checks::cut::cut_again;

/// As many joints of one part as are told one by one.
const TOLD: usize = 4;

pub(super) fn lost(piece: &Piece, part: &Part, cut: &Cut, fit: &Fit<'_>) -> Option<Diagnostic> {
    let tape = piece.tape();
    let [first, rest @ ..] = fit.lost.as_slice() else { return None };
    let said = Said::of(first, part, tape);
    let mut diagnostic = RULE.finding(
        format!("{} has its {}, but {}", part.path, said.is, said.wanted),
        first.made.span,
        format!("made on {}", cut.date),
    );
    if let Some((span, was, wanted)) = said.differs {
        let ((low, what), (high, other)) = if was < wanted {
            ((was, "made"), (wanted, "wanted"))
        } else {
            ((wanted, "wanted"), (was, "made"))
        };
        let sum =
            Sum::new("off by", high - low, tape).plus(high, other, tape).minus(low, what, tape);
        diagnostic = diagnostic.label(span, said.now).sum(sum);
    }
    let mut told = vec![(said.is, said.wanted)];
    for other in rest {
        let Said { is, wanted, .. } = Said::of(other, part, tape);
        let line = (is, wanted);
        if told.len() < TOLD && !told.contains(&line) {
            diagnostic = diagnostic.note(format!("it also has its {}, but {}", line.0, line.1));
            told.push(line);
        }
    }
    let sides = [Face::LengthStart, Face::WidthStart].into_iter().zip(fit.shift);
    for (side, off) in sides.filter(|(_, off)| off.is_positive()) {
        diagnostic = diagnostic.note(format!(
            "these figures count with {} taken off the {}, where a trim does the most good",
            tape.figure(off),
            part.face_name(side)
        ));
    }
    if fit.lost.iter().any(|lost| matches!(lost.mismatch, Mismatch::Gone { .. })) {
        diagnostic = diagnostic
            .note("if you fill a joint, or if it does no harm, take it out of the record");
    }
    if fits_turned(piece, part, cut) {
        diagnostic = diagnostic
            .note("turned end for end, the board has every joint where it is drawn; check its grain first");
    }
    if let Some(from_end) = from_end(part, cut, fit, tape) {
        diagnostic = diagnostic.note(format!(
            "you can also hang the door by the cups it has, with `from-end {}` in the hinge",
            tape.source(from_end)
        ));
    }
    if let Some(fix) = left_open(piece, part, fit) {
        diagnostic = diagnostic.fix(fix);
    }
    Some(diagnostic.fix(cut_again(cut)).subject(&part.path))
}

/// Draws the tenons without a set-in, where all that is wrong with a stile is that its
/// mortises are open at its ends.
fn left_open(piece: &Piece, part: &Part, fit: &Fit<'_>) -> Option<Fix> {
    let long = part.length.length;
    let is_open = |lost: &Lost<'_>| {
        let [Some((from, to)), ..] = lost.made.space else { return false };
        let (from, to) = (from - fit.shift[0], to - fit.shift[0]);
        let mark = piece.tape().mark;
        lost.made.kind.value == MadeKind::Mortise && (from <= mark || to >= long - mark)
    };
    if !fit.lost.iter().all(is_open) {
        return None;
    }
    let case = piece.case(part.case)?;
    let (set_in, at) = match part.assembly {
        Assembly::Frame(_) => {
            let joint = &case.frame.as_ref()?.joint;
            (joint.set_in.as_ref(), joint.set_in_at?)
        }
        Assembly::Front(front) => {
            let fronts = piece.opening(front.opening)?.front.as_ref()?;
            let Build::Panel(panel) = &fronts.build else { return None };
            (panel.set_in.as_ref(), panel.set_in_at)
        }
        Assembly::Carcass(_)
        | Assembly::Base(_)
        | Assembly::DrawerBox(_)
        | Assembly::Countertop(_)
        | Assembly::Filler(..)
        | Assembly::Loose(_) => return None,
    };
    let is_open_already = set_in.is_some_and(|own| own.length.is_zero());
    (!is_open_already)
        .then(|| at.says("set-in 0", "leave the mortises open at the ends, as they are cut"))
}

/// True where every joint comes right if the board is turned half round on its
/// face.
fn fits_turned(piece: &Piece, part: &Part, cut: &Cut) -> bool {
    let sizes = [
        cut.long.as_ref().map_or(part.length.length, |long| long.value),
        cut.wide.as_ref().map_or(part.width.length, |wide| wide.value),
    ];
    let mut turned = cut.clone();
    for made in &mut turned.made {
        for (side, size) in made.space.iter_mut().zip(sizes) {
            *side = side.map(|(from, to)| (size - to, size - from));
        }
    }
    let tolerance = piece.shop.tolerance.cut;
    made::fit(part, &turned, [Length::ZERO; 2], tolerance, &[]).lost.is_empty()
}

/// How far from the ends the hinges would have to be for the cups of a door to
/// be right, where it is they alone that are not, and they alike.
fn from_end(part: &Part, cut: &Cut, fit: &Fit<'_>, tape: &Tape) -> Option<Length> {
    let is_high = |lost: &Lost<'_>| {
        let along = matches!(lost.mismatch, Mismatch::Place { from: Face::LengthStart, .. });
        along && lost.made.kind.value == MadeKind::HingeCup
    };
    if !fit.lost.iter().all(is_high) {
        return None;
    }
    let cups = cut.made.iter().filter(|made| made.kind.value == MadeKind::HingeCup);
    let heights = cups.filter_map(|made| made.space[0]).map(|(from, to)| (from + to).half());
    let heights: Vec<Length> = heights.map(|height| height - fit.shift[0]).collect();
    let low = heights.iter().min()?;
    let high = part.length.length - *heights.iter().max()?;
    ((*low - high).abs() <= tape.mark).then(|| tape.print((*low + high).half()).shown)
}

/// A lost joint in words.
struct Said {
    /// `dado 17-11/64 from the left end`, `groove 1/4 wide`.
    is: String,
    /// `the design now wants it at 17-7/64`
    wanted: String,
    /// What stands under the statement that it comes from.
    now: String,
    /// That statement, and both figures.
    differs: Option<(Span, Length, Length)>,
}

impl Said {
    fn of(lost: &Lost<'_>, part: &Part, tape: &Tape) -> Self {
        let word = made::said(lost.made.kind.value);
        match lost.mismatch {
            Mismatch::Place { from, was, wanted, span } => {
                let [told, now] = tape.apart(was, wanted);
                Self {
                    is: format!("{word} {told} from the {}", part.face_name(from)),
                    wanted: format!("the design now wants it at {now}"),
                    now: format!("this one is now at {now}"),
                    differs: Some((span, was, wanted)),
                }
            }
            Mismatch::Size { word: size, was, wanted, span } => {
                let [told, now] = tape.apart(was, wanted);
                Self {
                    is: format!("{word} {told} {size}"),
                    wanted: format!("the design now wants {now}"),
                    now: format!("now {now} {size}"),
                    differs: Some((span, was, wanted)),
                }
            }
            Mismatch::Gone { from, was } => Self {
                is: format!("{word} {} from the {}", tape.figure(was), part.face_name(from)),
                wanted: "the design no longer has one there".to_owned(),
                now: String::new(),
                differs: None,
            },
        }
    }
}
