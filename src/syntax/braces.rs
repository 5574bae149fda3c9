//! Which braces a maker forgot, as the indents tell. What stands outermost is looked at
//! piece by piece, each by itself: one that closes all it opens is left as it is, however its
//! lines are moved in.

mod lines;
mod told;
mod walk;

use std::ops::Range;

use lines::Line;
use walk::Slip;

use crate::diagnostics::Diagnostic;
use crate::measure::FileId;

/// How badly statements stand where they stand: first how many belong in another block, then
/// how many can't be read for what they are.
pub(super) type Misfit = (usize, usize);

/// A text with its lost braces put back.
#[derive(Debug)]
pub(super) struct Repaired {
    /// As long as the written one and the braces that were put in.
    pub(super) text: String,
    /// Where a brace was put in, in this text, from its start on.
    pub(super) put: Vec<usize>,
    /// What is said of each.
    pub(super) found: Vec<Diagnostic>,
}

/// An edit that puts a text right.
#[derive(Clone, Copy, Debug)]
enum Mend {
    /// This brace goes in before this byte.
    Put(usize, char),
    /// The brace at this byte goes.
    Drop(usize),
}

/// What may be done about a slip: the likeliest first.
#[derive(Debug)]
struct Choice {
    slip: Slip,
    ways: Vec<Mend>,
}

/// So many bytes are read to find the best of several places for a brace: more are not worth
/// the wait.
const MOST_TRIED: usize = 400_000;

/// So many lost braces may make up for each other in the whole text.
const MOST_HIDDEN: usize = 2;

/// Puts the braces back that a text lost. Nothing where the indents don't tell which those are.
/// `misfit` says how well a text stands that was put right.
pub(super) fn repaired(
    file: FileId,
    text: &str,
    misfit: &dyn Fn(&str) -> Option<Misfit>,
) -> Option<Repaired> {
    let lines = lines::of(text);
    let mut left = MOST_TRIED;
    let (mut mends, mut found) = (Vec::new(), Vec::new());
    for piece in pieces(&lines) {
        let own = lines.get(piece)?;
        let (strays, open) = lines::unmatched(own);
        if strays + open == 0 {
            continue;
        }
        let slips = walk::slips(own);
        if slips.len() != strays + open {
            return None;
        }
        let mut choices: Vec<Choice> =
            slips.into_iter().filter_map(|slip| Choice::of(text, own, slip)).collect();
        let all = own.first()?.code.start - own.first()?.indent..own.last()?.code.end;
        for at in 0..choices.len() {
            settle(text, &all, &mut choices, at, &mut left, misfit);
        }
        for Choice { slip, ways } in choices {
            let mend = *ways.first()?;
            found.push(told::told(file, text, own, slip, mend));
            mends.push(mend);
        }
    }
    // Where indents mean nothing, much more is found than the braces themselves tell.
    let (strays, open) = lines::unmatched(&lines);
    if found.is_empty() || found.len() > strays + open + MOST_HIDDEN {
        return None;
    }
    let (text, put) = mended(text, &(0..text.len()), &mends)?;
    Some(Repaired { text, put, found })
}

/// The lines of each statement that stands in no braces, with everything in it.
fn pieces(lines: &[Line]) -> Vec<Range<usize>> {
    let mut all: Vec<Range<usize>> = Vec::new();
    for (at, line) in lines.iter().enumerate() {
        match all.last_mut() {
            Some(piece) if line.indent > 0 || line.starts_with_close() => piece.end = at + 1,
            _ => all.push(at..at + 1),
        }
    }
    all
}

impl Choice {
    fn of(text: &str, lines: &[Line], slip: Slip) -> Option<Self> {
        let ways = match slip {
            // No statement is there to open: what goes on below was closed too soon.
            Slip::Opens { line } if lines.get(line)?.starts_with_close() => {
                vec![Mend::Drop(lines.get(line)?.code.start)]
            }
            Slip::Opens { line } => {
                let mut ends = lines.get(line)?.ends(text);
                ends.reverse();
                ends.into_iter().map(|end| Mend::Put(end, '{')).collect()
            }
            Slip::Excess { line, close } => {
                let line = lines.get(line)?;
                let closes = line.braces.iter().rev().filter(|own| !own.opens && own.at <= close);
                let drops = closes.map(|own| Mend::Drop(own.at));
                let before = line.ends(text).into_iter().filter(|end| *end <= close);
                let opens = before.map(|end| Mend::Put(end, '{'));
                match line.code.start == close {
                    true => vec![Mend::Drop(close)],
                    false => opens.chain(drops).collect(),
                }
            }
            Slip::Closes { line, open, opened } => {
                let own = lines.get(line)?;
                let mut ends = own.ends(text);
                ends.reverse();
                ends.retain(|end| *end == own.code.end || opened == line && *end > open);
                ends.into_iter().map(|end| Mend::Put(end, '}')).collect()
            }
        };
        Some(Self { slip, ways })
    }
}

/// Finds the best way for one choice, the others as they stand, and puts it first.
fn settle(
    text: &str,
    piece: &Range<usize>,
    choices: &mut [Choice],
    at: usize,
    left: &mut usize,
    misfit: &dyn Fn(&str) -> Option<Misfit>,
) {
    if choices.get(at).is_none_or(|choice| choice.ways.len() < 2) || *left < piece.len() {
        return;
    }
    let firsts: Vec<Mend> =
        choices.iter().filter_map(|choice| choice.ways.first().copied()).collect();
    let Some(choice) = choices.get_mut(at) else { return };
    let mut best: Option<(Misfit, usize)> = None;
    for (place, way) in choice.ways.iter().enumerate() {
        let Some(rest) = left.checked_sub(piece.len()) else { return };
        *left = rest;
        let mut mends = firsts.clone();
        if let Some(own) = mends.get_mut(at) {
            *own = *way;
        }
        let tried = mended(text, piece, &mends).and_then(|(text, _)| misfit(&text));
        let Some(tried) = tried else { continue };
        if best.is_none_or(|(least, _)| tried < least) {
            best = Some((tried, place));
        }
    }
    if let Some((_, place)) = best {
        choice.ways.swap(0, place);
    }
}

/// A part of a text with these mends made, and where braces were put in.
fn mended(text: &str, part: &Range<usize>, mends: &[Mend]) -> Option<(String, Vec<usize>)> {
    let mut mends = mends.to_vec();
    mends.sort_by_key(|mend| match mend {
        Mend::Put(at, _) | Mend::Drop(at) => *at,
    });
    let (mut whole, mut put, mut done) =
        (String::with_capacity(part.len() + 8), Vec::new(), part.start);
    for mend in mends {
        match mend {
            Mend::Put(at, brace) => {
                whole.push_str(text.get(done..at)?);
                put.push(whole.len());
                whole.push(brace);
                done = at;
            }
            Mend::Drop(at) => {
                whole.push_str(text.get(done..at)?);
                whole.push(' ');
                done = at + 1;
            }
        }
    }
    whole.push_str(text.get(done..part.end)?);
    Some((whole, put))
}

/// What is said where the indents don't tell which brace was lost.
pub(super) fn unknown(file: FileId, text: &str) -> Vec<Diagnostic> {
    told::unknown(file, &lines::of(text))
}
