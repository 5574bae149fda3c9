//! Which braces are missing or too many, line by line, as the indents tell.

use super::lines::Line;

/// A brace that is not where it should be.
#[derive(Clone, Copy, Debug)]
pub(super) enum Slip {
    /// The statement on this line lost its `{`: the next one stands further in.
    Opens {
        /// The place of the line.
        line: usize,
    },
    /// A `}` on this line closes what goes on below: a `{` before it was lost, or it is one
    /// too many.
    Excess {
        /// The place of the line.
        line: usize,
        /// The byte of the brace.
        close: usize,
    },
    /// A `{` is not closed where the indent says that its block ends.
    Closes {
        /// The place of the last line of the block.
        line: usize,
        /// The byte of the `{`.
        open: usize,
        /// The place of its own line.
        opened: usize,
    },
}

/// A block that is open.
#[derive(Clone, Copy, Debug)]
struct Open {
    /// How far in the line stands on which it was opened.
    indent: usize,
    line: usize,
    /// The byte of its brace; nothing where that was lost.
    at: Option<usize>,
    /// How far in its statements stand, once there is one on a line of its own.
    inner: Option<usize>,
}

/// What is wrong with the braces of these lines, from the first to the last.
pub(super) fn slips(lines: &[Line]) -> Vec<Slip> {
    let mut walk = Walk { lines, open: Vec::new(), inner: None, slips: Vec::new() };
    for at in 0..lines.len() {
        walk.line(at);
    }
    while let Some(open) = walk.open.pop() {
        walk.never_closed(open, lines.len());
    }
    walk.slips
}

struct Walk<'a> {
    lines: &'a [Line],
    open: Vec<Open>,
    /// How far in what stands in no braces stands.
    inner: Option<usize>,
    slips: Vec<Slip>,
}

impl Walk<'_> {
    /// A block should have ended before this line.
    fn never_closed(&mut self, block: Open, before: usize) {
        let Some(line) = before.checked_sub(1) else { return };
        // One whose own brace was lost has been told.
        if let Some(open) = block.at {
            self.slips.push(Slip::Closes { line, open, opened: block.line });
        }
    }

    fn line(&mut self, at: usize) {
        let Some(line) = self.lines.get(at) else { return };
        let closes = line.starts_with_close();
        while let Some(top) = self.open.last().copied()
            && (top.indent > line.indent || top.indent == line.indent && !closes)
        {
            self.open.pop();
            self.never_closed(top, at);
        }
        if !closes {
            self.placed(at, line.indent);
        }
        for brace in &line.braces {
            if brace.opens {
                let indent = line.indent;
                self.open.push(Open { indent, line: at, at: Some(brace.at), inner: None });
                continue;
            }
            match self.open.last() {
                Some(top) if self.ends(top, at, brace.at) => drop(self.open.pop()),
                _ => self.slips.push(Slip::Excess { line: at, close: brace.at }),
            }
        }
    }

    /// A statement stands so far in: as far as those beside it, or the last of them lost its
    /// brace.
    fn placed(&mut self, at: usize, indent: usize) {
        let inner = self.open.last_mut().map_or(&mut self.inner, |top| &mut top.inner);
        let before = at.checked_sub(1).and_then(|before| Some((before, self.lines.get(before)?)));
        match (*inner, before) {
            (Some(beside), Some((line, last))) if indent > beside && last.indent < indent => {
                self.slips.push(Slip::Opens { line });
                let open = Open { indent: last.indent, line, at: None, inner: Some(indent) };
                self.open.push(open);
            }
            (Some(beside), _) if indent >= beside => {}
            _ => *inner = Some(indent),
        }
    }

    /// True where a closing brace on this line ends this block.
    fn ends(&self, top: &Open, at: usize, close: usize) -> bool {
        let Some(line) = self.lines.get(at) else { return false };
        if top.line == at {
            return true;
        }
        if line.code.start == close && top.indent == line.indent {
            return true;
        }
        // Behind other things, it ends a block from further up where nothing more of that
        // comes.
        match self.lines.get(at + 1) {
            Some(next) if next.starts_with_close() => next.indent < top.indent,
            Some(next) => next.indent <= top.indent,
            None => true,
        }
    }
}
