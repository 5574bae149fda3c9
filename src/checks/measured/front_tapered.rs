//! An opening out of square, and how its front is planed to fit it.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink};
use crate::measure::{Length, Tape};
use crate::model::Build;
use crate::plans::Workings;
use crate::plans::square::{Corner, Leaning};
use crate::trade;

use super::lean_too_much::is_beyond;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "front-tapered",
    severity: Severity::Note,
    finds: "The measured diagonals of an opening differ by more than the tape may be off, so a square front in it has uneven gaps. The message says how much wider to leave the front, and how much to plane off at which corner to get the drawn gap all the way up.",
    why: "A gap that narrows by 1/32 over a door can be seen across the room. Planing the front to its opening hides it. But planing makes the front narrower, so you must leave the wood for it.",
    source: "Plane geometry (Pythagoras): the squares of the diagonals differ by four times the width times the lean. That the meeting edges of a pair stay square is common practice; no published source.",
    formula: "Lean = difference of the diagonals × diagonal / twice the width. Each edge beside a side of the opening is planed by the lean. Leave a single front wider by the lean, and each leaf of a pair wider by half of it. A front that was cut to its drawn width ends up, once planed, with its gap plus half the lean on both sides.",
    accept: "Accept it if you plane every front to its opening anyway.",
    example: Example {
        base: Base::First,
        sound: "finish oil { hardwax-oil; coats 2; cure 24 h }",
        wrong: "finish oil { hardwax-oil; coats 2; cure 24 h }\nmeasured { opening store { diagonals { rising 38-23/32; falling 38-21/32 } } }",
    },
    check: Check::Parts(check),
    sometimes: Some((
        Severity::Warning,
        "A square front would jam, with less than 1/64 in (0.4 mm) left at two corners.",
    )),
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let leaning = work.leaning();
    if leaning.is_empty() {
        return;
    }
    let ledger = work.ledger();
    for leaning in leaning {
        if !is_beyond(leaning) {
            let cut = leaning.tight.each_ref();
            let cut = cut.map(|corner| leaning.even_as_cut(corner, parts, ledger));
            sink.push(report(piece.tape(), leaning, cut));
        }
    }
}

/// What each side comes to whose board is cut already.
type AsCut = [Option<Length>; 2];

fn report(tape: &Tape, leaning: &Leaning<'_>, cut: AsCut) -> Diagnostic {
    let opening = leaning.opening;
    let pair = opening.is_pair();
    let off = super::fine(tape, leaning.lean);
    let (each, of) = if pair {
        ("each leaf", "one corner of each leaf")
    } else {
        ("its front", "two corners of its front")
    };
    let leave = match uncut(leaning, cut) {
        Uncut::None => String::new(),
        Uncut::All => format!("leave {each} {} wider, and ", super::fine(tape, leaning.wider())),
        // A leaf or a stile: half of the lean either way.
        Uncut::One(corner) => {
            let half = super::fine(tape, leaning.lean.half());
            format!("leave the {} {half} wider, and ", board(leaning, corner))
        }
    };
    let jams = leaning.least_surely() < trade::least_gap();
    let title = format!("{} is out of square; {leave}plane {off} off {of}", opening.path);
    let mut found = super::out_of_square(&RULE, title, tape, leaning);
    if jams {
        found = RULE.at_times(found).because("a square front jams at two corners before it closes");
    }
    if let Some(wood) = wood(tape, leaning, cut) {
        found = found.note(wood);
    }
    for corner in &leaning.tight {
        found = found.note(format!("then plane {}", taper(tape, leaning, corner)));
    }
    if pair {
        found = found.note("keep the meeting edges square, so that the leaves meet evenly");
    }
    if opening.is_door() {
        found =
            found.note("plane it before you cut in or bore for its hinges, because they are set from the planed edge");
    }
    as_cut(tape, leaning, cut).into_iter().fold(found, Diagnostic::note)
}

/// Which of the planed boards are still to be cut.
enum Uncut<'a> {
    None,
    One(&'a Corner),
    All,
}

fn uncut<'a>(leaning: &'a Leaning<'_>, cut: AsCut) -> Uncut<'a> {
    let [left, right] = &leaning.tight;
    match cut {
        [None, None] => Uncut::All,
        [None, Some(_)] => Uncut::One(left),
        [Some(_), None] => Uncut::One(right),
        [Some(_), Some(_)] => Uncut::None,
    }
}

/// What a board that is planed by itself is called: `left door`, and of a
/// single front its `left stile`.
fn board(leaning: &Leaning<'_>, corner: &Corner) -> String {
    match leaning.opening.is_pair() {
        true => leaf(corner),
        false => format!("{} stile", corner.side.word()),
    }
}

fn leaf(corner: &Corner) -> String {
    corner.front.leaf.word().replace('-', " ")
}

/// What a front comes to that is cut already, or was cut as it is drawn.
/// Nothing of one that was left as wide as it has to be.
fn as_cut(tape: &Tape, leaning: &Leaning<'_>, cut: AsCut) -> Vec<String> {
    let gap = leaning.fronts.gap.length;
    let say = |what: String, even: Length, sides: &str| {
        let widest = trade::widest_gap(tape.unit);
        let daylight = if even > widest && gap <= widest { ", which shows daylight" } else { "" };
        let (even, gap) = (tape.fine(even), tape.figure(gap));
        format!("{what} {even} on {sides}, not {gap}{daylight}")
    };
    match cut {
        [None, None] => {
            let what = "a front already cut to its drawn width will, once planed, have a gap of"
                .to_owned();
            vec![say(what, leaning.even_as_drawn(), "both sides")]
        }
        [Some(left), Some(right)] if tape.fine(left) == tape.fine(right) => {
            let what = "it is already cut, so once planed it will have a gap of".to_owned();
            let wide = Some(left).filter(|even| *even > gap);
            wide.map(|even| say(what, even, "both sides")).into_iter().collect()
        }
        _ => {
            let sides = leaning.tight.iter().zip(cut);
            let wide = sides.filter_map(|(corner, even)| {
                let even = even.filter(|even| *even > gap)?;
                let what = board(leaning, corner);
                let what =
                    format!("the {what} is already cut, so once planed it will have a gap of");
                Some(say(what, even, "its side"))
            });
            wide.collect()
        }
    }
}

/// What has to be left for the planing of what is not cut.
fn wood(tape: &Tape, leaning: &Leaning<'_>, cut: AsCut) -> Option<String> {
    let pair = leaning.opening.is_pair();
    let half = super::fine(tape, leaning.lean.half());
    let what = match uncut(leaning, cut) {
        Uncut::None => return None,
        Uncut::One(corner) if !pair => {
            return Some(format!("cut the {} {half} wider", board(leaning, corner)));
        }
        Uncut::One(corner) => format!("the {}", leaf(corner)),
        Uncut::All if pair => "each leaf".to_owned(),
        Uncut::All => "the front".to_owned(),
    };
    let how = match (&leaning.fronts.build, pair) {
        (Build::Slab, _) => String::new(),
        (Build::Panel(_), true) => format!(", by making its outer stile {half} wider"),
        (Build::Panel(_), false) => format!(", by making both stiles {half} wider"),
    };
    let drawn = tape.figure(leaning.blank() - leaning.wider());
    Some(format!("cut {what} {} wide, not {drawn}{how}", super::fine(tape, leaning.blank())))
}

/// `1.38 off the upper left corner of the front, running out to nothing …`
fn taper(tape: &Tape, leaning: &Leaning<'_>, corner: &Corner) -> String {
    let leaf = leaf(corner);
    format!(
        "{} off the {} corner of the {leaf}, tapering to nothing at its {} corner",
        super::fine(tape, leaning.lean),
        corner.word(),
        corner.other_end()
    )
}
