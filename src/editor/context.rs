//! Where a cursor stands: in which block, behind which word. Read from the
//! letters before it and not from the tree, since what is being typed has most
//! often no form yet; where a brace is missing, the indentation tells.

use crate::measure::{FileId, Unit};
use crate::syntax::Item;
use crate::vocabulary::{self, Block, Kind, Row, words};

/// Where a cursor stands.
#[derive(Clone, Debug)]
pub struct Context {
    /// The block; `None` in the braces of something unknown.
    pub block: Option<&'static Block>,
    /// The word whose statement it stands in; `None` where a word begins.
    pub word: Option<&'static Row>,
    /// What may stand there; `None` where a word begins, or nothing may.
    pub kind: Option<Kind>,
    /// Which of the word's arguments that is.
    pub slot: Option<usize>,
    /// Where the name that is being typed begins; the cursor's own place where
    /// none is.
    pub start: u32,
    /// False in a comment and in a text between quotes, where nothing is to be
    /// offered.
    pub open: bool,
    /// The words of the statements that stand in the block already.
    pub written: Vec<&'static Row>,
    /// The name of what the block is of.
    pub of: Option<String>,
}

/// A brace that is open.
#[derive(Clone, Debug)]
struct Frame {
    block: Option<&'static Block>,
    /// How far in the line of its statement stands.
    indent: usize,
    /// A line in it stands farther in: indentation means something here.
    deeper: bool,
    /// The words of the statements in it.
    written: Vec<&'static Row>,
    /// What stands behind the word of its statement.
    name: Option<String>,
}

impl Frame {
    fn of(block: Option<&'static Block>) -> Self {
        Self { block, indent: 0, deeper: false, written: Vec::new(), name: None }
    }
}

struct Scan<'a> {
    text: &'a str,
    frames: Vec<Frame>,
    /// The brace closed last: it was closed too early if what follows belongs
    /// in it.
    closed: Option<Frame>,
    /// Where the statement at hand begins, and its word.
    head: Option<(usize, Option<&'static Row>)>,
    /// How far in the line at hand stands; `None` behind its first word.
    fresh: Option<usize>,
    indent: usize,
    /// The braces of the whole text do not fit: the indentation counts.
    loose: bool,
    /// A closing brace closed nothing.
    stray: bool,
    /// Reading ends where one does.
    ends_at_stray: bool,
}

/// Where a byte of a text stands.
#[must_use]
pub fn context(text: &str, byte: u32, unit: Unit) -> Context {
    let mut end = (byte as usize).min(text.len());
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    let mut whole = Scan::of(text, false);
    whole.run();
    let loose = whole.stray || whole.frames.len() > 1;
    let mut scan = Scan::of(text.get(..end).unwrap_or(""), loose);
    let mut context = match scan.run() {
        Some(start) => scan.at_word(start, unit),
        None => scan.closed_to_offers(),
    };
    if let Some(mut frame) = scan.frames.pop() {
        context.of = frame.name.take();
        context.written = std::mem::take(&mut frame.written);
        context.written.extend(behind(text.get(end..).unwrap_or(""), frame));
    }
    context
}

/// The words of the statements that follow in the block of this frame, which has none yet.
fn behind(text: &str, frame: Frame) -> Vec<&'static Row> {
    let mut scan = Scan::of(text, false);
    scan.frames = vec![frame];
    // What stands at the cursor is not whole, and neither is the rest of its word.
    scan.head = Some((0, None));
    scan.ends_at_stray = true;
    scan.run();
    scan.frames.swap_remove(0).written
}

impl<'a> Scan<'a> {
    fn of(text: &'a str, loose: bool) -> Self {
        let file = Frame::of(Some(words::file::block()));
        Self {
            text,
            frames: vec![file],
            closed: None,
            head: None,
            fresh: Some(0),
            indent: 0,
            loose,
            stray: false,
            ends_at_stray: false,
        }
    }

    /// Reads to the end; gives where the word begins that stands there, `None`
    /// within a comment or a text.
    fn run(&mut self) -> Option<usize> {
        let bytes = self.text.as_bytes();
        let mut at = if self.text.starts_with('\u{feff}') { 3 } else { 0 };
        while let Some(byte) = bytes.get(at) {
            match byte {
                b'\n' | b'\r' => {
                    self.head = None;
                    self.fresh = Some(0);
                    at += 1;
                }
                b';' => {
                    self.head = None;
                    at += 1;
                }
                b' ' | b'\t' => {
                    if let Some(indent) = &mut self.fresh {
                        *indent += 1;
                    }
                    at += 1;
                }
                b'#' => {
                    let line = bytes.iter().skip(at).position(|b| matches!(b, b'\n' | b'\r'));
                    at += line?;
                }
                b'"' => at = self.text_end(at)?,
                b'{' => {
                    self.open(at);
                    at += 1;
                }
                b'}' => {
                    self.head = None;
                    self.fresh = None;
                    match self.frames.len() {
                        1 if self.ends_at_stray => return None,
                        1 => self.stray = true,
                        _ => self.closed = self.frames.pop(),
                    }
                    at += 1;
                }
                _ => {
                    let end = self.word_end(at);
                    if end == bytes.len() {
                        return Some(at);
                    }
                    self.word(at, end);
                    at = end;
                }
            }
        }
        Some(bytes.len())
    }

    /// Just behind the text that begins here; `None` where the cursor is in it.
    fn text_end(&self, at: usize) -> Option<usize> {
        let bytes = self.text.as_bytes();
        // Behind a digit it is an inch mark.
        if at.checked_sub(1).and_then(|at| bytes.get(at)).is_some_and(u8::is_ascii_digit) {
            return Some(at + 1);
        }
        let mut end = at + 1;
        loop {
            match bytes.get(end)? {
                b'"' => return Some(end + 1),
                b'\n' | b'\r' => return Some(end),
                b'\\' => end += 2,
                _ => end += 1,
            }
        }
    }

    fn word_end(&self, at: usize) -> usize {
        let ends = |c: char| c.is_ascii_whitespace() || matches!(c, '{' | '}' | ';' | '#' | '"');
        let rest = self.text.get(at..).unwrap_or("");
        rest.find(ends).map_or(self.text.len(), |len| at + len.max(1))
    }

    fn block(&self) -> Option<&'static Block> {
        self.frames.last().and_then(|frame| frame.block)
    }

    /// A whole word has been read.
    fn word(&mut self, at: usize, end: usize) {
        if self.head.is_some() {
            return;
        }
        let word = self.text.get(at..end).unwrap_or("");
        if let Some(indent) = self.fresh.take() {
            self.line(indent, Some(word));
        }
        let meant = self.block().and_then(|block| block.meant(word));
        if let (Some(frame), Some(row)) = (self.frames.last_mut(), meant) {
            frame.written.push(row);
        }
        self.head = Some((at, meant));
    }

    /// A line begins so far in, with a word that is whole or still being typed.
    fn line(&mut self, indent: usize, word: Option<&str>) {
        self.indent = indent;
        if !self.loose {
            return;
        }
        let knows = |frame: &Frame, word: &str| {
            frame.block.is_some_and(|block| block.words.iter().any(|known| known.word == word))
        };
        // A brace closed too early: what follows belongs in what it closed.
        if let (Some(word), Some(closed)) = (word, self.closed.take())
            && !self.frames.last().is_some_and(|frame| knows(frame, word))
            && knows(&closed, word)
            && indent > closed.indent
        {
            self.frames.push(closed);
        }
        // Braces that were never closed, by the indentation.
        while let [.., outer, frame] = self.frames.as_slice()
            && indent <= frame.indent
        {
            let is_told = match word {
                Some(word) => {
                    let wanted = self.frames.iter().any(|frame| knows(frame, word));
                    wanted && (!knows(frame, word) || (frame.deeper && knows(outer, word)))
                }
                None => frame.deeper,
            };
            if !is_told {
                break;
            }
            self.frames.pop();
        }
        if let Some(frame) = self.frames.last_mut() {
            frame.deeper |= indent > frame.indent;
        }
    }

    fn open(&mut self, at: usize) {
        let head = self.head.take();
        let block = head.and_then(|(_, word)| word?.body.block());
        let said = head.and_then(|(from, _)| self.text.get(from..at)).unwrap_or("");
        let name = said.split_ascii_whitespace().nth(1).map(str::to_owned);
        self.frames.push(Frame { indent: self.indent, name, ..Frame::of(block) });
        self.fresh = None;
    }

    /// The cursor stands behind what is being typed since `start`.
    fn at_word(&mut self, start: usize, unit: Unit) -> Context {
        if self.head.is_none()
            && let Some(indent) = self.fresh.take()
        {
            self.line(indent, None);
        }
        let block = self.block();
        let Some((from, word)) = self.head else {
            return Context {
                block,
                word: None,
                kind: None,
                slot: None,
                start: start as u32,
                open: true,
                written: Vec::new(),
                of: None,
            };
        };
        let slot = word.and_then(|word| self.slot(word, from, start, unit));
        let kind = slot.and_then(|slot| word?.takes.get(slot)).map(|slot| slot.kind);
        let (written, of) = (Vec::new(), None);
        Context { block, word, kind, slot, start: start as u32, open: true, written, of }
    }

    /// Which argument comes next behind the words of a statement.
    fn slot(&self, word: &'static Row, from: usize, start: usize, unit: Unit) -> Option<usize> {
        let (tree, found) = vocabulary::parse(FileId::default(), self.text.get(from..start)?);
        let statement = tree.items.iter().find_map(|item| match item {
            Item::Statement(statement) => Some(statement),
            _ => None,
        });
        if let (Some(statement), true) = (statement, found.is_empty()) {
            return vocabulary::next_slot(word, statement, unit);
        }
        // Arithmetic that waits for its next figure.
        let only = word.takes.first().map(|slot| slot.kind);
        only.filter(|kind| matches!(kind, Kind::Size | Kind::Length)).map(|_| 0)
    }

    /// In a comment or a text.
    fn closed_to_offers(&self) -> Context {
        let start = self.text.len() as u32;
        let word = self.head.and_then(|(_, word)| word);
        let (block, written, of) = (self.block(), Vec::new(), None);
        Context { block, word, kind: None, slot: None, start, open: false, written, of }
    }
}
