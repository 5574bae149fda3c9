//! Flutes that break step from one front to the next.

use std::collections::BTreeMap;

use crate::checks::once::Once;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::{Length, Span, Tape};
use crate::model::{Build, Case, Flutes, Fronts, Opening, OpeningKind, Piece, Pull, Run};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "flutes-uneven",
    severity: Severity::Note,
    finds: "Upright flutes break step. They do so where a pair of doors meets, between fronts of different width above each other, or where a plain margin is more than twice as wide as the lands.",
    why: "The eye follows the lines. A step that is neither one pitch nor two, with the gap in place of a line, shows across the room.",
    source: "Plane geometry. That a gap may stand in for a line is common practice; no published source.",
    formula: "Where a pair meets, the margin of one leaf + the gap + the margin of the other must be a whole number of pitches, within a mark of the tape.",
    accept: "Accept it if the fronts are meant to be seen one by one.",
    example: Example { base: Base::Console, sound: "meeting 1/8", wrong: "meeting 7/32" },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for case in &piece.cases {
        let fields = fields(piece, case);
        let stacked = stacked(&fields);
        let mut once = Once::default();
        // By the statement, which many fronts share.
        let mut pitches: BTreeMap<Span, Option<Length>> = BTreeMap::new();
        for fault in faults(&fields, &stacked, tape) {
            let Some(field) = fields.get(fault.field).filter(|_| once.is_first(fault.field)) else {
                continue;
            };
            let pitch = *pitches
                .entry(field.flutes.span)
                .or_insert_with(|| nearest_pitch(field, &fields, &stacked, tape));
            sink.push(finding(&fault, field, &fields, pitch, tape));
        }
    }
}

/// The flutes of an opening's front, or of both leaves of a pair.
#[derive(Clone)]
struct Field<'a> {
    opening: &'a Opening,
    flutes: &'a Flutes,
    /// The width of one flute.
    flute: Length,
    pitch: Length,
    /// The left sides of its leaves, and the width of each.
    leaves: Vec<Length>,
    wide: Length,
    /// Its height from the floor.
    high: (Length, Length),
    /// The centers of the holes of its pull, from the side of a leaf: of a door, whose
    /// lines are the same from either side, from the edge that it opens at.
    holes: Vec<Length>,
    /// Half of what stands on the front round a hole.
    foot: Length,
}

impl Field<'_> {
    /// From the side of a leaf to its first line; `None` where none fits.
    fn margin(&self) -> Option<Length> {
        trade::flute_lines(self.wide, self.flute, self.pitch, self.flutes.land).first().copied()
    }

    /// The least distance from `x` to a line of any leaf.
    fn nearest(&self, x: Length, margin: Length) -> Option<Length> {
        let count = ((self.wide - margin.twice()) / self.pitch).round();
        let from = |left: &Length| {
            let first = *left + margin;
            let number = ((x - first) / self.pitch).round().clamp(0, count);
            (x - first - self.pitch * number).abs()
        };
        self.leaves.iter().map(from).min()
    }

    /// Every line.
    fn lines(&self) -> impl Iterator<Item = Length> {
        let own = trade::flute_lines(self.wide, self.flute, self.pitch, self.flutes.land);
        self.leaves.iter().flat_map(move |left| own.clone().into_iter().map(|line| *left + line))
    }

    /// True where its pull stands on lands.
    fn holds_its_pull(&self, tape: &Tape) -> bool {
        let lines = trade::flute_lines(self.wide, self.flute, self.pitch, self.flutes.land);
        let clear = |hole: &Length, line: &Length| {
            self.foot + self.flute.half() - (*hole - *line).abs() <= tape.mark
        };
        self.holes.iter().all(|hole| lines.iter().all(|line| clear(hole, line)))
    }

    /// From line to line over the meeting of a pair.
    fn step(&self) -> Option<(Length, Length)> {
        let [left, right] = self.leaves.as_slice() else { return None };
        let gap = *right - *left - self.wide;
        Some((self.margin()?.twice() + gap, gap))
    }
}

/// Every front of a case with sound upright flutes.
fn fields<'a>(piece: &'a Piece, case: &'a Case) -> Vec<Field<'a>> {
    let field = |opening: &'a Opening| {
        let front = opening.front.as_ref()?;
        let flutes = front.flutes.as_ref()?;
        let bit = piece.bit(flutes.bit)?;
        let flute = trade::flute_width(bit.diameter, flutes.deep);
        let sound = flutes.run == Run::Vertical
            && front.build == Build::Slab
            && flutes.pitch - flute >= flutes.land;
        let (wide, high) = opening.leaf(front);
        let (x, y) = opening.front_corner();
        let second = x + wide.length + front.meeting.length;
        let leaves = match opening.kind {
            OpeningKind::Doors => vec![x, second],
            _ => vec![x],
        };
        let high = (y, y + high.length);
        let (pitch, wide) = (flutes.pitch, wide.length);
        let pull = front.pull.and_then(|pull| piece.pull(pull));
        let holes = pull.map_or_else(Vec::new, |pull| holes(opening, front, pull, wide));
        let foot = pull.map_or(Length::ZERO, |pull| pull.foot.max(pull.screw).half());
        sound.then_some(Field { opening, flutes, flute, pitch, leaves, wide, high, holes, foot })
    };
    case.openings.iter().filter_map(field).collect()
}

/// Where the holes of a pull are across a front.
fn holes(opening: &Opening, front: &Fronts, pull: &Pull, wide: Length) -> Vec<Length> {
    let place = &front.pull_place;
    if opening.is_door() {
        return vec![place.from_edge.unwrap_or(pull.from_edge)];
    }
    let count = i64::from(place.count);
    let off = pull.centers.map_or(Length::ZERO, Length::half);
    let middles = (0..count).map(|number| wide * (2 * number + 1) / (2 * count));
    middles.flat_map(|middle| [middle - off, middle + off]).collect()
}

/// Fronts of different width above each other: the one with the narrower
/// leaves, the other.
fn stacked(fields: &[Field<'_>]) -> Vec<(usize, usize)> {
    // A rail is seldom higher (from memory).
    let rail = Length::inches(4, 1);
    let mut found = Vec::new();
    for (i, one) in fields.iter().enumerate() {
        for (j, other) in fields.iter().enumerate() {
            let between = one.high.0.max(other.high.0) - one.high.1.min(other.high.1);
            let near = !between.is_negative() && between <= rail;
            let side = |field: &Field<'_>| {
                let from = field.leaves.first().copied().unwrap_or_default();
                (from, field.leaves.last().copied().unwrap_or_default() + field.wide)
            };
            let (a, b) = (side(one), side(other));
            if near && one.wide < other.wide && a.0 < b.1 && b.0 < a.1 {
                found.push((i, j));
            }
        }
    }
    found
}

/// A place where lines break step.
struct Fault {
    field: usize,
    kind: FaultKind,
    /// How far it is off.
    off: Length,
}

enum FaultKind {
    /// Over the meeting of a pair: from line to line, and the gap.
    Meeting { step: Length, gap: Length },
    /// Against this front above or below.
    Stack(usize),
    /// A plain margin this wide.
    Margin(Length),
}

fn faults(fields: &[Field<'_>], stacked: &[(usize, usize)], tape: &Tape) -> Vec<Fault> {
    let mut found = Vec::new();
    for (index, field) in fields.iter().enumerate() {
        if let Some((step, gap)) = field.step() {
            let pitches = (step / field.pitch).round().max(1);
            let off = (step - field.pitch * pitches).abs();
            if off > tape.mark {
                found.push(Fault { field: index, kind: FaultKind::Meeting { step, gap }, off });
            }
        } else if !stacked.iter().any(|(a, b)| *a == index || *b == index)
            && let Some(margin) = field.margin()
        {
            let (plain, land) = (margin - field.flute.half(), field.pitch - field.flute);
            let off = plain - land.twice();
            if off > tape.mark {
                found.push(Fault { field: index, kind: FaultKind::Margin(plain), off });
            }
        }
    }
    for (narrow, wide) in stacked {
        let (Some(one), Some(other)) = (fields.get(*narrow), fields.get(*wide)) else { continue };
        let (Some(first), Some(margin)) = (other.leaves.first(), other.margin()) else { continue };
        let last = other.leaves.last().copied().unwrap_or_default() + other.wide;
        let shared = one.lines().filter(|line| first <= line && *line <= last);
        let off = shared.filter_map(|line| other.nearest(line, margin)).max();
        if let Some(off) = off.filter(|off| *off > tape.mark) {
            found.push(Fault { field: *narrow, kind: FaultKind::Stack(*wide), off });
        }
    }
    found
}

fn finding(
    fault: &Fault,
    field: &Field<'_>,
    fields: &[Field<'_>],
    even: Option<Length>,
    tape: &Tape,
) -> Diagnostic {
    let path = &field.opening.path;
    let pitch = tape.figure(field.pitch);
    let title = match &fault.kind {
        FaultKind::Meeting { step, .. } => format!(
            "the flutes of {path} are {} apart where its doors meet and {pitch} apart elsewhere",
            tape.text(*step)
        ),
        FaultKind::Stack(other) => format!(
            "the flutes of {path} are up to {} out of line with those of {}",
            tape.text(fault.off),
            fields.get(*other).map_or("the next front", |other| other.opening.path.as_str())
        ),
        FaultKind::Margin(plain) => format!(
            "the flutes of {path} leave a margin of {}, and their lands are {}",
            tape.text(*plain),
            tape.text(field.pitch - field.flute)
        ),
    };
    let note =
        |title: String| RULE.finding(title, field.flutes.pitch_span, format!("pitch {pitch}"));
    let mut found = note(title)
        .label(field.opening.span, format!("front {} wide", tape.text(field.wide)))
        .because("the eye follows the lines and stops where they break step")
        .subject(path)
        .urgency(fault.off / Length::mm(1));
    match &fault.kind {
        FaultKind::Meeting { step, gap } => {
            let margin = (*step - *gap).half();
            let meeting = field.opening.front.as_ref().map(|front| front.meeting_span);
            found = found
                .sum(
                    Sum::new("step", *step, tape)
                        .plus(margin, "margin", tape)
                        .plus(*gap, "meeting", tape)
                        .plus(margin, "margin", tape),
                )
                .sum(Sum::new("off by", fault.off, tape));
            if let Some(span) = meeting.filter(|span| *span != field.flutes.span) {
                found = found.label(span, format!("gap {}", tape.figure(*gap)));
            }
            let whole = ((field.wide + *gap) / field.pitch).round();
            let wide = field.pitch * whole - *gap;
            found = found.note(format!(
                "at this pitch they would keep step on leaves {} wide",
                tape.text(wide)
            ));
        }
        FaultKind::Stack(other) => {
            if let Some(other) = fields.get(*other) {
                found = found
                    .label(other.opening.span, format!("front {} wide", tape.text(other.wide)));
            }
        }
        FaultKind::Margin(_) => {}
    }
    match even {
        Some(pitch) => found.fix(Fix::new(
            Grade::Choice,
            format!("use a pitch of {}, which keeps step", tape.figure(pitch)),
            field.flutes.pitch_span,
            format!("pitch {}", tape.source(pitch)),
        )),
        None => found,
    }
}

/// The plain pitch nearest to the one written at which no front breaks step and no
/// pull stands over a flute, else none that can't be moved.
fn nearest_pitch(
    field: &Field<'_>,
    fields: &[Field<'_>],
    stacked: &[(usize, usize)],
    tape: &Tape,
) -> Option<Length> {
    let fine = tape.unit.either(Length::inches(1, 64), Length::mm(1) / 10);
    let middle = (field.pitch / fine).round();
    // A quarter more or less is another pattern.
    let reach = (middle / 4).clamp(1, 100);
    let candidates = (1..=reach).flat_map(|off| [middle + off, middle - off]);
    let even: Vec<(Length, bool)> = candidates
        .map(|count| fine * count)
        .filter_map(|pitch| {
            let mut tried = fields.to_vec();
            for other in tried.iter_mut().filter(|other| other.flutes.span == field.flutes.span) {
                other.pitch = pitch;
            }
            let wide_enough =
                tried.iter().all(|other| other.pitch - other.flute >= other.flutes.land);
            if !wide_enough || !faults(&tried, stacked, tape).is_empty() {
                return None;
            }
            // The pull of a door can be moved to a land; that of a drawer stays where it is.
            let mut off = tried.iter().filter(|other| !other.holds_its_pull(tape));
            let all_held = off.clone().next().is_none();
            off.all(|other| other.opening.is_door()).then_some((pitch, all_held))
        })
        .collect();
    let held = even.iter().find(|(_, all_held)| *all_held);
    held.or(even.first()).map(|(pitch, _)| *pitch)
}

#[cfg(test)]
mod tests {
    use super::super::super::rule::Base;
    use crate::diagnostics::Diagnostic;
    use crate::model::MemoryFiles;
    use crate::pipeline;

    fn notes(from: &str, to: &str) -> Vec<(String, Vec<String>)> {
        let text = Base::Console.text();
        assert!(text.contains(from), "{from}");
        let text = text.replacen(from, to, 1);
        let compiled =
            pipeline::check(&MemoryFiles::one("a.case", &text), "a.case").expect("readable");
        compiled
            .diagnostics
            .iter()
            .filter(|d| d.slug == super::RULE.slug)
            .map(|d| {
                let fixes = d.fixes.iter().flat_map(|fix| &fix.edits);
                (d.title.clone(), fixes.map(|edit| edit.text.clone()).collect())
            })
            .collect()
    }

    /// Worked by hand: leaves 13-3/32, gap 1/8. At 47/64 seventeen lines, margin
    /// (13-3/32 − 16 × 47/64) / 2 = 43/64; 2 × 43/64 + 1/8 = 94/64 is twice the
    /// pitch. At 3/4 margin 35/64; 70/64 + 8/64 = 1-7/32 is no pitch.
    #[test]
    fn a_pair_runs_on_at_a_whole_number_of_pitches() {
        assert_eq!(notes("meeting 1/8", "meeting 1/8"), []);
        let found = notes("pitch 47/64", "pitch 3/4");
        assert_eq!(found.len(), 1, "{found:?}");
        assert!(found[0].0.contains("1-7/32 apart"), "{found:?}");
        assert_eq!(found[0].1, ["pitch 47/64"]);
    }

    /// The pull of a drawer stays in the middle, with its holes 3 apart: four pitches of
    /// 3/4, and 4.09 of 47/64, which puts one a tenth of an inch off its land. So where
    /// the doors have their flutes by the same statement, 47/64 is no help.
    #[test]
    fn no_pitch_is_offered_that_puts_the_pull_of_a_drawer_in_a_flute() {
        let text = Base::Console.text();
        let own = "front { flutes { run vertical; bit round-nose-half; deep 1/8; pitch 47/64; land 3/16 } }";
        assert!(text.contains(own));
        let text = text.replacen(own, "", 1);
        let found = |text: &str| {
            let compiled =
                pipeline::check(&MemoryFiles::one("a.case", text), "a.case").expect("readable");
            let own = compiled.diagnostics.into_iter();
            own.filter(|found| ["flutes-uneven", "pull-in-flute"].contains(&found.slug)).collect()
        };
        let drawers = |found: &Diagnostic| {
            found.slug == "pull-in-flute" && found.title.contains("console.bank")
        };
        let uneven: Vec<Diagnostic> = found(&text);
        assert!(uneven.iter().any(|found| found.slug == "flutes-uneven"));
        assert!(!uneven.iter().any(drawers), "{uneven:#?}");
        assert!(found(&text.replacen("pitch 3/4", "pitch 47/64", 1)).iter().any(drawers));
        let edits = uneven.iter().flat_map(|found| &found.fixes).flat_map(|fix| &fix.edits);
        for pitch in edits.map(|edit| edit.text.as_str()).filter(|text| text.starts_with("pitch")) {
            let fronts = text.replacen("pitch 3/4", pitch, 1);
            assert!(!found(&fronts).iter().any(drawers), "{pitch}");
        }
    }

    /// A drawer over the pair, as wide as both leaves and the gap, has its
    /// middle line over the gap at 47/64 and so all of them in line; at 3/4 not.
    #[test]
    fn a_drawer_over_a_pair_has_the_same_lines() {
        let over = |pitch: &str| {
            format!(
                "down column {{ share 1; drawer over {{ high 5; front {{ flutes {{ bit round-nose-half; deep 1/8; pitch {pitch}; land 3/16 }} }} }}\n rail {{ wide 1-1/2 }}\n doors press {{"
            )
        };
        let spec = |pitch| {
            let text = Base::Console.text().replacen("doors press {", &over(pitch), 1);
            // The pair stands in a list of its own now, which ends behind it.
            let pair = "pitch 47/64; land 3/16 } }\n      }";
            assert!(text.contains(pair));
            let text = text.replacen(pair, &format!("{pair} }}"), 1);
            let compiled =
                pipeline::check(&MemoryFiles::one("a.case", &text), "a.case").expect("readable");
            let all = compiled.diagnostics;
            all.iter().map(|d| (d.slug, d.title.clone())).collect::<Vec<_>>()
        };
        let even: Vec<_> = spec("47/64").into_iter().filter(|d| d.0 == super::RULE.slug).collect();
        assert_eq!(even, []);
        let odd = spec("3/4");
        assert!(odd.iter().any(|(_, title)| title.contains("out of line")), "{odd:?}");
    }
}
