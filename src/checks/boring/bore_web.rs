//! Holes that meet inside a board, or come out at its far side.

use crate::checks::once::Once;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{Hinge, Piece, Plate};
use crate::parts::{Bore, Feature, Part, Role};
use crate::plans::Workings;
use crate::trade;

use super::bores;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "bore-web",
    severity: Severity::Error,
    finds: "Two holes in one part meet or leave less than 2 mm of wood between them, or a plate screw leaves less than 2 mm to the far face. The usual case is the plate screws of two doors that hang back to back on one partition.",
    why: "The second screw strikes the first or breaks into its hole, and neither one holds. A screw that comes through shows on the other side.",
    source: "Plane geometry. The 2 mm is common practice, as for hinge cups.",
    formula: "For two holes bored toward each other, the wood left is the board's thickness less both depths. For two holes side by side, it is the distance between their centers less both radii.",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "from-edge 4 mm; swing 105 deg",
        wrong: "from-edge 4 mm; swing 105 deg; plate { deep 45 mm }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// The least wood between two holes.
fn least() -> Length {
    Length::mm(2)
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    for part in &parts.all {
        let mut once = Once::default();
        let all: Vec<(&Feature, Bore)> = bores(part).collect();
        for (i, (bore, kind)) in all.iter().enumerate() {
            let left = part.depth(bore.face) - bore.deep;
            // Behind a block lies the board that it is glued to.
            let plate = matches!(kind, Bore::Plate | Bore::PlateBehind);
            let blind = plate && part.role != Role::HingeBlock;
            let far = (blind && left < least()).then(|| through(piece, part, bore));
            let found = far.or_else(|| {
                all.iter().skip(i + 1).find_map(|(other, its)| {
                    between(part, bore, other)
                        .map(|web| meeting(piece, part, (bore, *kind), (other, *its), web))
                })
            });
            sink.extend(found.filter(|_| once.is_first(bore.span)));
        }
    }
}

/// How two holes of a part lie to each other.
enum Web {
    /// Bored toward each other, this much apart; below nought where they meet.
    Ends(Length),
    /// Side by side, their centers this much apart.
    Sides(Length),
}

/// What is too little between two holes; `None` where there is enough.
fn between(part: &Part, a: &Feature, b: &Feature) -> Option<Web> {
    if part.placement.direction(a.face) != part.placement.direction(b.face) {
        // Square to each other: it is enough to look at their boxes.
        let meet = part.hollows(a).any(|one| part.hollows(b).any(|other| one.overlaps(&other)));
        return meet.then_some(Web::Ends(Length::ZERO));
    }
    let (one, other) = (a.center(), b.center());
    let apart = trade::diagonal((one.0 - other.0).abs(), (one.1 - other.1).abs());
    let reach = (a.u.1 - a.u.0).half() + (b.u.1 - b.u.0).half();
    let within = |reach: Length| apart < reach;
    let ends = part.depth(a.face) - a.deep - b.deep;
    if a.face != b.face && !ends.is_negative() {
        return (ends < least() && within(reach)).then_some(Web::Ends(ends));
    }
    if a.face != b.face && within(reach) {
        return Some(Web::Ends(ends));
    }
    within(reach + least()).then_some(Web::Sides(apart))
}

fn meeting(
    piece: &Piece,
    part: &Part,
    (a, kind): (&Feature, Bore),
    (b, other): (&Feature, Bore),
    web: Web,
) -> Diagnostic {
    let tape = piece.tape();
    let (one, two) = (kind.word(), other.word());
    let both = match one == two {
        true => format!("two {one}s"),
        false => format!("a {one} and a {two}"),
    };
    let title = match &web {
        Web::Ends(left) if left.is_negative() => {
            format!(
                "{both} bored toward each other overlap by {} in {}",
                tape.text(-*left),
                part.path
            )
        }
        Web::Ends(left) => {
            format!("{both} leave {} between them in {}", tape.figure(*left), part.path)
        }
        Web::Sides(_) => format!(
            "{both} side by side leave less than {} between them in {}",
            tape.figure(least()),
            part.path
        ),
    };
    let mut found = RULE
        .finding(title, a.span, format!("{one} {} deep", tape.figure(a.deep)))
        .because(
            "the second screw strikes the first or breaks into its hole, and neither one holds",
        )
        .subject(&part.path);
    if part.span != a.span {
        found = found.label(part.span, "in this board");
    }
    if b.span != a.span {
        found = found.label(b.span, format!("{two} {} deep", tape.figure(b.deep)));
    }
    match web {
        Web::Ends(left) => {
            let thick = part.depth(a.face);
            found =
                found.label(thickness_span(piece, part), format!("{} thick", tape.figure(thick)));
            found = found.sum(match left.is_negative() {
                true => Sum::new("over by", -left, tape)
                    .plus(a.deep, one, tape)
                    .plus(b.deep, two, tape)
                    .minus(thick, "board", tape),
                false => Sum::new("leaves", left, tape)
                    .plus(thick, "board", tape)
                    .minus(a.deep, one, tape)
                    .minus(b.deep, two, tape),
            });
            // Two holes of one plate: the screws can both be shorter.
            let most = whole_mm((thick - least()).half());
            match plate(piece, a).filter(|_| a.span == b.span && most.is_positive()) {
                Some(plate) => found = shallower(piece, found, &plate, a.deep - most),
                None => {
                    found = found.note("use shorter screws, or put the hinges at other heights");
                }
            }
            found
        }
        Web::Sides(apart) => {
            let radii = tape.print((a.u.1 - a.u.0).half() + (b.u.1 - b.u.0).half()).shown;
            let apart = tape.print(apart).shown;
            found
                .sum(
                    Sum::new("leaves", apart - radii, tape)
                        .plus(apart, "between centers", tape)
                        .minus(radii, "two radii", tape),
                )
                .note("move one of the two")
        }
    }
}

/// A plate screw that reaches the far face.
fn through(piece: &Piece, part: &Part, bore: &Feature) -> Diagnostic {
    let tape = piece.tape();
    let thick = part.depth(bore.face);
    let left = thick - bore.deep;
    let title = if left.is_negative() {
        format!("the plate screws come through {}", part.path)
    } else {
        format!("the plate screws leave {} at the far face of {}", tape.figure(left), part.path)
    };
    let found = RULE
        .finding(title, bore.span, format!("{} deep", tape.figure(bore.deep)))
        .label(thickness_span(piece, part), format!("{} thick here", tape.figure(thick)))
        .sum(
            Sum::new("leaves", left, tape)
                .plus(thick, "wood", tape)
                .minus(bore.deep, "screw", tape),
        )
        .because("with less than 2 mm, the screw's point raises a bulge or breaks through")
        .subject(&part.path);
    let most = whole_mm(thick - least());
    match plate(piece, bore).filter(|_| most.is_positive()) {
        Some(plate) => shallower(piece, found, &plate, bore.deep - most),
        None => found,
    }
}

/// Screws of plates are sold by the millimetre.
fn whole_mm(length: Length) -> Length {
    Length::mm((length / Length::mm(1)).floor())
}

/// Holes less deep by this much; they may begin in a block before the board.
fn shallower(piece: &Piece, found: Diagnostic, plate: &Plate, by: Length) -> Diagnostic {
    let tape = piece.tape();
    let deep = whole_mm(plate.deep - by);
    match plate.deep_span {
        Some(span) => found.fix(Fix::new(
            Grade::Choice,
            format!("bore the holes {} deep, and use screws of that length", tape.figure(deep)),
            span,
            format!("deep {}", tape.source(deep)),
        )),
        None => found.note(format!("`deep {}` in the plate leaves enough wood", tape.source(deep))),
    }
}

/// The plate that a hole was bored for.
fn plate(piece: &Piece, bore: &Feature) -> Option<Plate> {
    piece.hinges.iter().filter_map(Hinge::plate).find(|plate| plate.span == bore.span)
}

/// Where the thickness of a part comes from: its stock, or what it was made for.
fn thickness_span(piece: &Piece, part: &Part) -> crate::measure::Span {
    match piece.stock(part.stock) {
        Some(stock) if stock.thickness.length == part.thickness.length => stock.thickness_span,
        _ => part.span,
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::rule::Base;
    use crate::model::MemoryFiles;
    use crate::pipeline;

    fn found(plate: &str, second: &str) -> Vec<String> {
        let text = Base::First
            .text()
            .replace("pull knob { screw 5/32 }", "pull knob { screw 5/32; stands 1/4 }")
            .replace("swing 105 deg", &format!("swing 105 deg; {plate}"))
            .replace("  frame {\n    stock maple; joint pocket\n    stile left  { wide 1-3/4 }\n    stile right { wide 1-3/4 }\n    rail top    { wide 1-1/2 }\n    rail bottom { wide 1-1/2 }\n    down {", "  partitions { stock ply; joint dado { deep 1/4 } }\n  frame none\n  across {")
            .replace("      drawer upper { high 5 }\n      rail { wide 1-1/2 }\n      doors store { share 1; shelf { adjustable 1 } }\n    }\n  }", second);
        let compiled =
            pipeline::check(&MemoryFiles::one("a.case", &text), "a.case").expect("readable");
        // That nothing is made by its drawers block is another matter.
        let found = compiled.diagnostics.iter().filter(|d| d.slug != "drawers-unused");
        found.map(|d| format!("{}: {}", d.slug, d.title)).collect()
    }

    const BACK_TO_BACK: &str = "    door one { share 1; hung right }\n    divider { }\n    door two { share 1; hung left }\n  }";

    /// Worked by hand: two doors on one 23/32 in (18.26 mm) partition. 2 × 12 =
    /// 24 > 18.26 meets; 2 × 8 = 16 leaves 2.26; 2 × 8.2 leaves 1.86.
    #[test]
    fn doors_back_to_back_share_one_partition() {
        let meets = found("plate { }", BACK_TO_BACK);
        assert_eq!(meets.len(), 1, "{meets:?}");
        assert!(meets[0].starts_with("bore-web") && meets[0].contains("overlap by"), "{meets:?}");
        assert_eq!(found("plate { deep 8 mm }", BACK_TO_BACK), Vec::<String>::new());
        assert_eq!(found("plate { deep 8.2 mm }", BACK_TO_BACK).len(), 1);
    }

    /// Hung on the far sides the screws share no board.
    #[test]
    fn doors_hung_apart_are_sound() {
        let apart = BACK_TO_BACK
            .replace("hung right", "hung x")
            .replace("hung left", "hung right")
            .replace("hung x", "hung left");
        assert_eq!(found("plate { }", &apart), Vec::<String>::new());
    }
}
