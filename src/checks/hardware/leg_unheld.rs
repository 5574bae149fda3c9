//! A bought leg that the bottom can't hold, or that stands where something else is.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{BoughtLeg, Case, OnLegs, Piece};
use crate::parts::{self, Cuboid, Direction, LegAt, Part, Parts, Point, Role};
use crate::plans::Workings;
use crate::plans::on_legs::bottom_on_legs;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "leg-unheld",
    severity: Severity::Error,
    finds: "A bought leg under a case is not held by the bottom: its screws, bolt, or dowel are too near an end or an edge of the bottom, or the hole for them comes too near its upper face. Or the leg stands where another board or another leg is.",
    why: "The whole piece pulls at its legs when it is pushed over the floor. A screw beside the bottom holds nothing, one near its edge splits it, and one that comes through scratches whatever lies inside.",
    source: "Plane geometry. Wood around a hole: 3/8 in (10 mm), and 1/16 in (1.5 mm) over it, common practice.",
    formula: "From the center of a hole to the inside face of the end beside it, and to the front or back edge of the bottom: at least 3/8 in (10 mm). The bottom's thickness less the depth of the hole: at least 1/16 in (1.5 mm).",
    accept: "",
    example: Example {
        base: Base::First,
        sound: concat!(
            "finish oil { hardwax-oil; coats 2; cure 24 h }\n",
            "\n",
            "case cupboard {\n",
            "  wide 36; deep 18; high 34-1/2          # over all\n",
            "  stock ply                              # unless a board says otherwise\n",
            "  base { toe-kick; high 4; set-back 3; cut-into ends }"
        ),
        wrong: concat!(
            "finish oil { hardwax-oil; coats 2; cure 24 h }\n",
            "\n",
            "leg turned { high 4; wide 2; foot 1; plate { screws 4; deep 3/4 } }\n",
            "\n",
            "case cupboard {\n",
            "  wide 36; deep 18; high 34-1/2          # over all\n",
            "  stock ply                              # unless a board says otherwise\n",
            "  base { legs turned { in 1 } }"
        ),
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    for case in &piece.cases {
        let Some((legs, leg)) = piece.legs_under(case) else { continue };
        let Some((_, bottom)) = bottom_on_legs(parts, case) else { continue };
        let own = Own { piece, parts, case, legs, leg, bottom };
        let all = parts::legs_under(piece, case, bottom);
        let found = own.through().or_else(|| own.aside(&all)).or_else(|| own.crowded(&all));
        let found = found.or_else(|| own.meets(&all));
        sink.extend(found.map(|found| found.subject(&case.path)));
    }
}

struct Own<'a> {
    piece: &'a Piece,
    parts: &'a Parts,
    case: &'a Case,
    legs: &'a OnLegs,
    leg: &'a BoughtLeg,
    bottom: &'a Part,
}

impl Own<'_> {
    fn finding(&self, title: String, label: String) -> Diagnostic {
        RULE.finding(title, self.legs.span, label)
    }

    /// A hole that comes too near the upper face of the bottom.
    fn through(&self) -> Option<Diagnostic> {
        let tape = self.piece.tape();
        let (thick, deep) = (self.bottom.thickness.length, self.leg.fixing.hole().deep);
        let least = tape.unit.either(Length::inches(1, 16), Length::mm(3).half());
        let left = thick - deep;
        let most = tape.down(thick - least);
        (left < least).then(|| {
            self.finding(
                format!(
                    "the holes for the legs come too near the upper face of {}",
                    self.bottom.path
                ),
                "these legs".to_owned(),
            )
            .label(self.leg.span, format!("{} deep", tape.figure(deep)))
            .label(self.bottom.span, format!("{} thick", tape.figure(thick)))
            .sum(
                Sum::new("left over them", left, tape)
                    .plus(thick, "bottom", tape)
                    .minus(deep, "hole", tape),
            )
            .because("what holds the leg comes out inside the case")
            .note(format!(
                "take shorter screws, and write `deep {}` or less, or a thicker bottom",
                tape.source(most)
            ))
        })
    }

    /// A hole beside the bottom, or too near an end or an edge of it.
    fn aside(&self, all: &[LegAt]) -> Option<Diagnostic> {
        let tape = self.piece.tape();
        let least = tape.unit.either(Length::inches(3, 8), Length::mm(10));
        let [from, to] = self.between_ends();
        let wide = self.bottom.width.length;
        // The middle legs stand between the outer ones.
        let near = all.iter().flat_map(|leg| &leg.holes).flat_map(|[along, across]| {
            [
                (along.length - from, "the end beside it"),
                (to - along.length, "the end beside it"),
                (across.length, "the front edge of the bottom"),
                (wide - across.length, "the back edge of the bottom"),
            ]
        });
        let (left, what) = near.min_by_key(|(left, _)| *left)?;
        if left >= least {
            return None;
        }
        let beyond = match left.is_negative() {
            true => format!("stands {} past {what}", tape.text(-left)),
            false => format!("stands {} from {what}", tape.text(left)),
        };
        let set_in = tape.up(self.legs.set_in.length + least - left);
        let says = format!("in {}", tape.source(set_in));
        let found = self
            .finding(
                format!("what holds a leg under {} {beyond}", self.case.name),
                format!("set in {}", tape.figure(self.legs.set_in.length)),
            )
            .label(self.bottom.span, "this bottom must hold it")
            .sum(Sum::new("short by", least - left, tape))
            .because("it finds too little wood to hold, or splits it");
        Some(match self.piece.facts.written(&self.legs.set_in) {
            Some(at) => found.fix(Fix::new(Grade::Choice, "set the legs farther in", at, says)),
            None => found.note(format!("write `{says}` in the braces of `legs`")),
        })
    }

    /// From the left end of the bottom to where it comes out of the left end of the case,
    /// and to where it goes into the right one.
    fn between_ends(&self) -> [Length; 2] {
        let own = self.bottom.cuboid();
        let (mut from, mut to) = (Length::ZERO, self.bottom.length.length);
        for part in self.parts.of_case(self.case.id) {
            let Role::End(_) = part.role else { continue };
            let end = part.cuboid();
            if (end.from.x + end.to.x) < (own.from.x + own.to.x) {
                from = from.max(end.to.x - own.from.x);
            } else {
                to = to.min(end.from.x - own.from.x);
            }
        }
        [from, to]
    }

    /// Two legs that stand in each other.
    fn crowded(&self, all: &[LegAt]) -> Option<Diagnostic> {
        let tape = self.piece.tape();
        let wide = self.leg.wide.length;
        let place = |leg: &LegAt| [leg.center[0].length, leg.center[1].length];
        let apart = all.iter().enumerate().flat_map(|(at, one)| {
            all.iter().skip(at + 1).map(move |other| {
                let ([a, b], [c, d]) = (place(one), place(other));
                (a - c).abs().max((b - d).abs())
            })
        });
        let apart = apart.min().filter(|apart| *apart < wide)?;
        Some(
            self.finding(
                format!("the legs under {} stand in each other", self.case.name),
                format!("{} of them", self.legs.count()),
            )
            .label(self.leg.span, format!("{} wide", tape.figure(wide)))
            .sum(Sum::new("over by", wide - apart, tape).plus(wide, "leg", tape).minus(
                apart,
                "from the middle of one to the next",
                tape,
            ))
            .note("take fewer with `across`, or set them less far in"),
        )
    }

    /// A leg that stands where a board is.
    fn meets(&self, all: &[LegAt]) -> Option<Diagnostic> {
        let own = self.bottom.cuboid();
        let half = self.leg.wide.length.half();
        let space = |leg: &LegAt| {
            let [x, z] = [own.from.x + leg.center[0].length, own.from.z + leg.center[1].length];
            Cuboid {
                from: Point { x: x - half, y: Length::ZERO, z: z - half },
                to: Point { x: x + half, y: own.from.y, z: z + half },
            }
        };
        let spaces: Vec<Cuboid> = all.iter().map(space).collect();
        let (part, by) = self.parts.all.iter().find_map(|part| {
            let met = spaces.iter().find(|space| space.overlaps(&part.cuboid()))?;
            let by =
                [Direction::X, Direction::Z].map(|axis| met.overlap_along(&part.cuboid(), axis));
            Some((part, by.into_iter().min()?))
        })?;
        let tape = self.piece.tape();
        Some(
            self.finding(
                format!("a leg under {} stands {} in {}", self.case.name, tape.text(by), part.path),
                format!("set in {}", tape.figure(self.legs.set_in.length)),
            )
            .label(part.span, "this stands there")
            .note(format!(
                "set the legs in by at least {} with `in`, or move what stands there",
                tape.figure(tape.up(self.legs.set_in.length + by))
            )),
        )
    }
}
