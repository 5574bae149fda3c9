//! A slide with nothing near to carry it.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::measure::{Length, Span};
use crate::model::{Axis, Case, MemberKind, Opening, Partition, Piece, Side};
use crate::parts::{Direction, Role, Which};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "slide-unheld",
    severity: Severity::Error,
    finds: "A drawer slide would need a packer, or a drawer on wood a guide, more than 4 in (100 mm) thick, because no board of the case is near that side of its opening.",
    why: "A slide is screwed to a board. There is none behind a stile with `partition none`, or behind one that has no board of the case to stand on, and a block as thick as an opening is not a packer.",
    source: "Plane geometry. The 4 in is common practice; no published source.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "drawer upper { high 5 }",
        wrong: "across row { high 5; drawer upper { wide 15 }; stile { wide 1-1/2; partition none }; drawer other { share 1 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// The thickest packer.
const MOST: Length = Length::mm(102);

/// What stands between a slide and the board that is to carry it.
struct Cause<'a> {
    /// The statement to change.
    span: Span,
    /// The slides that it leaves without a board: left or right, of which
    /// drawer, how far from the nearest board.
    slides: Vec<(Side, &'a Opening, Length)>,
    /// What can be done.
    advice: Advice,
}

/// What can be done about a slide that nothing carries.
enum Advice {
    /// In words.
    Note(String),
    /// By an edit.
    Mend(Fix),
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let mut causes: Vec<Cause<'_>> = Vec::new();
    for part in parts.all.iter().filter(|part| matches!(part.role, Role::Packer | Role::Guide)) {
        let (from, to) = part.extent(Direction::X);
        let Which::At(side) = part.which else { continue };
        let Some(case) = piece.case(part.case) else { continue };
        let Some(opening) = part.opening().and_then(|id| piece.opening(id)) else { continue };
        // What keeps a tray clear of an open door is another rule's.
        let away = to - from - side.of(&opening.clear).length;
        if away <= MOST {
            continue;
        }
        let slide = (side, opening, away);
        let (span, advice) = beside(piece, case, opening, side);
        match causes.iter_mut().find(|cause| cause.span == span) {
            Some(known) => known.slides.push(slide),
            None => causes.push(Cause { span, slides: vec![slide], advice }),
        }
    }
    for cause in &causes {
        sink.extend(report(piece, cause));
    }
}

fn report(piece: &Piece, cause: &Cause<'_>) -> Option<Diagnostic> {
    let tape = piece.tape();
    let (first, others) = cause.slides.split_first()?;
    let (side, opening, away) = first;
    let far = tape.text(*away);
    let runs = |opening: &Opening| if opening.on_wood.is_some() { "guide" } else { "slide" };
    let what = runs(opening);
    let title = match others.len() {
        0 => format!(
            "nothing carries the {} {what} of {}; the nearest board is {far} away",
            side.word(),
            opening.path
        ),
        more => format!(
            "nothing carries {} {what}s, such as the {} one of {}; the nearest board is {far} away",
            more + 1,
            side.word(),
            opening.path
        ),
    };
    let mut found = RULE
        .finding(title, cause.span, "no board is near enough behind this")
        .subject(&opening.path);
    found = match &cause.advice {
        Advice::Note(note) => found.note(note),
        Advice::Mend(fix) => found.fix(fix.clone()),
    };
    for (side, opening, _) in &cause.slides {
        if opening.span != cause.span {
            found = found.label(opening.span, format!("{} {}", side.word(), runs(opening)));
        }
    }
    Some(found)
}

/// The statement beside an opening that keeps boards away from its slide, and
/// what to do about it.
fn beside(piece: &Piece, case: &Case, opening: &Opening, side: Side) -> (Span, Advice) {
    let tape = piece.tape();
    let thickness = |stock| piece.stock(stock).map_or(Length::ZERO, |s| s.thickness.length);
    let index = usize::from(side == Side::Right);
    let edge = |opening: &Opening| match side {
        Side::Left => opening.x,
        Side::Right => opening.x + opening.wide.length,
    };
    let own = edge(opening);
    let is_outer = case.openings.first().is_some_and(|root| edge(root) == own);
    if let Some(frame) = case.frame.as_ref().filter(|_| is_outer) {
        let (end, exposure) = (&case.ends[index], &case.exposure[index]);
        let most = MOST + thickness(end.stock) + exposure.scribe().length;
        let advice = format!(
            "make this stile {} wide or less, so that the end is near enough; or put a narrower stile, \
             an opening, and a stile of full height with a partition behind it in its place",
            tape.figure(tape.down(most))
        );
        return (frame.stiles[index].span, Advice::Note(advice));
    }
    let member = case.members.iter().filter(|member| member.axis == Axis::Across).find(|member| {
        let far = if side == Side::Left { member.x + member.wide.length } else { member.x };
        far == own && member.y <= opening.y && opening.y < member.y + member.long.length
    });
    let Some(member) = member else {
        return (opening.span, Advice::Note("put a board beside this opening".to_owned()));
    };
    let advice = match (&member.kind, member.left_out) {
        (MemberKind::Stile(Partition::Board(board)), _) => Advice::Note(format!(
            "make this stile {} wide or less, so that the partition behind it is near enough",
            tape.figure(tape.down(MOST.twice() + thickness(board.stock)))
        )),
        // A board behind its middle must be near enough to both slides.
        (_, Some(_)) if member.wide.length > MOST.twice() => Advice::Note(format!(
            "make this stile {} wide or less, and let a partition stand behind it",
            tape.figure(tape.down(MOST.twice()))
        )),
        (_, Some(said)) => {
            Advice::Mend(Fix::new(Grade::Choice, "let a partition stand behind it", said, "partition"))
        }
        (_, None) => Advice::Note(
            "give the case a bottom and a top, and each rail that this stile ends at a `shelf`, so that a partition can stand behind it"
                .to_owned(),
        ),
    };
    (member.span, advice)
}
