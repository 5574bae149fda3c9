//! pest's pairs to our tree. Reading never fails: what is no statement
//! becomes a diagnostic, and reading goes on behind it.

use pest::Parser;
use pest::iterators::Pair;

use super::braces;
use super::conflict;
use super::faults;
use super::limits;
use super::number::{self, NumberFault};
use super::tree::{
    Argument, BinaryOp, Block, Comment, Expr, ExprKind, Item, Name, Number, Statement, Tree,
};
use crate::diagnostics::Diagnostic;
use crate::measure::{Date, FileId, Span};

#[derive(pest_derive::Parser)]
#[grammar = "../grammar/casewright.pest"]
pub(super) struct Grammar;

/// What of the form of a statement hangs on its word. What a word means is the
/// vocabulary's business, and so is this.
#[derive(Clone, Copy, Debug, Default)]
pub struct Shape {
    /// Its text is the path of a file.
    pub path: bool,
    /// Its first argument is a date.
    pub dated: bool,
    /// The statements in its braces begin with names and marks: a mark is
    /// written in capitals.
    pub marks: bool,
}

/// What the form of a text hangs on, of its words.
#[derive(Clone, Copy, Debug)]
pub struct Language {
    /// The shape of a statement that begins with a word.
    pub shape: fn(&Name) -> Shape,
    /// How many statements of a tree belong in another block. It tells with the next where a
    /// lost brace was, where several places would do.
    pub misplaced: fn(&Tree) -> usize,
    /// How many can't be read for what they are.
    pub wrong: fn(&Tree) -> usize,
}

/// Reads a text. The tree holds every statement that could be read; each mistake gives one
/// diagnostic. A brace that was lost is put back where the indents and the words say it was.
#[must_use]
pub fn parse(file: FileId, text: &str, language: Language) -> (Tree, Vec<Diagnostic>) {
    if let Some(refusal) = conflict::refuse(file, text) {
        return (Tree::shapeless(), vec![refusal]);
    }
    let read =
        |written: &str, text: &str, put: &[usize]| read(file, written, (text, put), language.shape);
    let once = match read(text, text, &[]) {
        Ok(once) => once,
        Err(refusal) => return (Tree::shapeless(), vec![*refusal]),
    };
    if !once.is_loose {
        return (once.tree, once.found);
    }
    let misfit = |text: &str| {
        let tried = read(text, text, &[]).ok().filter(|tried| !tried.is_loose)?;
        let wrong = (language.wrong)(&tried.tree) + tried.found.len();
        Some(((language.misplaced)(&tried.tree), wrong))
    };
    let repaired = braces::repaired(file, text, &misfit);
    let again = repaired.and_then(|own| Some((read(text, &own.text, &own.put).ok()?, own.found)));
    match again.filter(|(again, _)| !again.is_loose) {
        Some((Read { mut tree, found, .. }, mut told)) => {
            tree.shapeless = (language.misplaced)(&tree) > 0;
            if tree.shapeless {
                told.iter_mut().for_each(|own| own.is_meant = false);
            }
            told.extend(found);
            (tree, told)
        }
        None => {
            let Read { mut tree, mut found, .. } = once;
            tree.shapeless = true;
            found.extend(braces::unknown(file, text));
            (tree, found)
        }
    }
}

/// What came of reading a text.
struct Read {
    tree: Tree,
    found: Vec<Diagnostic>,
    /// Its braces do not fit.
    is_loose: bool,
}

/// Reads a text in which braces were put in at some places, as the one that was written.
fn read(
    file: FileId,
    written: &str,
    (text, put): (&str, &[usize]),
    shape: fn(&Name) -> Shape,
) -> Result<Read, Box<Diagnostic>> {
    if let Some(refusal) = limits::refuse(file, text) {
        return Err(Box::new(refusal));
    }
    let pairs = Grammar::parse(Rule::file, text)
        .map_err(|error| Box::new(faults::unreadable(file, text, &error)))?;
    if let Some(refusal) = limits::refuse_pairs(file, &pairs) {
        return Err(Box::new(refusal));
    }
    let found = Vec::new();
    let mut reader =
        Reader { file, text: written, put, shape, found, is_loose: false, marks: false };
    let mut items = Vec::new();
    for pair in pairs.flat_map(Pair::into_inner) {
        reader.item(pair, &mut items);
    }
    let Reader { found, is_loose, .. } = reader;
    Ok(Read { tree: Tree { items, shapeless: false }, found, is_loose })
}

struct Reader<'a> {
    file: FileId,
    /// The text as it was written.
    text: &'a str,
    /// Where a brace was put into the text that is read.
    put: &'a [usize],
    shape: fn(&Name) -> Shape,
    found: Vec<Diagnostic>,
    /// The brace of a block is not closed, or one closes nothing.
    is_loose: bool,
    /// Within a block whose statements begin with names and marks.
    marks: bool,
}

impl Reader<'_> {
    /// The byte of the written text that this one of the text that is read stands for.
    fn at(&self, byte: usize) -> usize {
        byte - self.put.partition_point(|put| *put < byte)
    }

    fn stretch(&self, start: usize, end: usize) -> Span {
        Span::new(self.file, self.at(start), self.at(end))
    }

    fn span(&self, pair: &Pair<'_, Rule>) -> Span {
        let span = pair.as_span();
        self.stretch(span.start(), span.end())
    }

    /// Adds what a pair stands for to the items of a block or file.
    fn item(&mut self, pair: Pair<'_, Rule>, items: &mut Vec<Item>) {
        let span = self.span(&pair);
        match pair.as_rule() {
            Rule::comment => self.comment(&pair, span, items),
            Rule::statement => {
                self.space_before(span, items);
                if let Some(statement) = self.statement(pair) {
                    items.push(Item::Statement(statement));
                }
            }
            Rule::junk => {
                self.space_before(span, items);
                self.junk(pair);
            }
            Rule::bare => self.bare(pair, items),
            Rule::stray_close => self.is_loose = true,
            _ => {}
        }
    }

    /// What stands between the last item and `span`; `None` where nothing
    /// comes before it in its block.
    fn since_last(&self, span: Span, items: &[Item]) -> Option<&str> {
        let end = match items.last()? {
            Item::Statement(statement) => {
                statement.comment.as_ref().map_or(statement.span.end, |c| c.span.end)
            }
            Item::Comment(comment) => comment.span.end,
            Item::Blank => return None,
        };
        Some(self.text.get(end as usize..span.start as usize).unwrap_or(""))
    }

    /// Keeps an empty line before what starts at `span`, and refuses a
    /// statement that follows another on the same line.
    fn space_before(&mut self, span: Span, items: &mut Vec<Item>) {
        let Some(between) = self.since_last(span, items) else { return };
        if has_empty_line(between) {
            items.push(Item::Blank);
        } else if !between.contains(['\n', '\r', ';']) {
            self.found.push(faults::no_separator(Span { end: span.start, ..span }));
        }
    }

    fn comment(&mut self, pair: &Pair<'_, Rule>, span: Span, items: &mut Vec<Item>) {
        let comment = Comment { text: pair.as_str().trim_end().to_owned(), span };
        let between = self.since_last(span, items);
        let same_line = between.is_some_and(|between| !between.contains(['\n', '\r']));
        if let Some(Item::Statement(last)) = items.last_mut().filter(|_| same_line)
            && last.comment.is_none()
        {
            last.comment = Some(comment);
            return;
        }
        if between.is_some_and(has_empty_line) {
            items.push(Item::Blank);
        }
        items.push(Item::Comment(comment));
    }

    /// A brace with no keyword on its line: most often that of the statement
    /// above, which then gets its block.
    fn bare(&mut self, pair: Pair<'_, Rule>, items: &mut [Item]) {
        let Some(part) = pair.into_inner().next() else { return };
        let block = self.block(part);
        let owner = match items.last_mut() {
            Some(Item::Statement(last)) if last.block.is_none() => {
                let between = last.span.end as usize..block.open.start as usize;
                let between = self.text.get(between).unwrap_or(";");
                between.trim().is_empty().then_some(last)
            }
            _ => None,
        };
        self.found.push(faults::bare_brace(block.open, owner.as_deref()));
        if let Some(owner) = owner {
            owner.span.end = block.close.end;
            owner.block = Some(block);
        }
    }

    fn junk(&mut self, pair: Pair<'_, Rule>) {
        for part in pair.into_inner() {
            match part.as_rule() {
                Rule::junk_text => {
                    let span = self.span(&part);
                    self.found.push(faults::junk(self.file, part.as_str(), span));
                }
                Rule::block => {
                    // Read for its own mistakes only: nobody knows what it belongs to.
                    let _ = self.block(part);
                }
                _ => {}
            }
        }
    }

    fn statement(&mut self, pair: Pair<'_, Rule>) -> Option<Statement> {
        let whole = self.span(&pair);
        let mut block = None;
        let mut sound = true;
        let mut parts = pair.into_inner();
        let mut word = self.name(&parts.next()?);
        let mut arguments = Vec::with_capacity(parts.len());
        for part in parts {
            if part.as_rule() == Rule::block {
                let outer = self.marks;
                self.marks |= (self.shape)(&word).marks;
                block = Some(self.block(part));
                self.marks = outer;
                continue;
            }
            let written = part.as_span();
            let (at, text) = (self.at(written.start()), written.as_str());
            if part.as_rule() == Rule::text && text.contains('\\') {
                let path = (self.shape)(&word).path;
                self.found.extend(faults::backslashes(self.file, text, at, path));
            }
            if arguments.is_empty()
                && part.as_rule() != Rule::date
                && let Some(fault) = faults::date(self.file, text, at)
                && (self.shape)(&word).dated
            {
                self.found.push(fault);
                sound = false;
                continue;
            }
            match self.argument(part) {
                Some(argument) => arguments.push(argument),
                None => sound = false,
            }
        }
        if let Some(fault) = faults::stray_space(&arguments, self.text) {
            self.found.push(fault);
            return None;
        }
        if !self.marks && word.text.contains(|c: char| c.is_ascii_uppercase()) {
            self.found.push(faults::capital(&word));
            word.text.make_ascii_lowercase();
        }
        let end = block.as_ref().map(|block: &Block| block.close.end);
        let end = end.or(arguments.last().map(|a| a.span().end)).unwrap_or(word.span.end);
        let span = Span { end, ..whole };
        sound.then_some(Statement { word, arguments, block, comment: None, span })
    }

    fn block(&mut self, pair: Pair<'_, Rule>) -> Block {
        let whole = pair.as_span();
        let open = self.stretch(whole.start(), whole.start() + 1);
        let mut close = self.stretch(whole.end() - 1, whole.end());
        let parts = pair.into_inner();
        let mut items = Vec::with_capacity(parts.len());
        for part in parts {
            if part.as_rule() == Rule::missing_close {
                close = self.span(&part);
                self.is_loose = true;
            } else {
                self.item(part, &mut items);
            }
        }
        Block { items, open, close }
    }

    fn name(&self, pair: &Pair<'_, Rule>) -> Name {
        Name { text: pair.as_str().to_owned(), span: self.span(pair) }
    }

    fn argument(&mut self, part: Pair<'_, Rule>) -> Option<Argument> {
        let span = self.span(&part);
        match part.as_rule() {
            Rule::text => Some(Argument::Text { value: unescape(part.as_str()), span }),
            Rule::date => {
                let date = Date::parse(part.as_str());
                if date.is_none() {
                    self.found.push(faults::no_such_date(span));
                }
                date.map(|value| Argument::Date { value, span })
            }
            Rule::name => Some(Argument::Expr(self.named(&part))),
            Rule::figure => {
                let figure = number::figure(part.as_str());
                self.number(figure, span).map(Argument::Expr)
            }
            Rule::plain => self.factor(part).map(Argument::Expr),
            _ => self.expression(part).map(Argument::Expr),
        }
    }

    /// `expression` and `product`: values with operators between them, from
    /// left to right.
    fn expression(&mut self, pair: Pair<'_, Rule>) -> Option<Expr> {
        let mut value: Option<Expr> = None;
        let mut op = BinaryOp::Add;
        for part in pair.into_inner() {
            match part.as_rule() {
                Rule::plus_sign => op = BinaryOp::Add,
                Rule::minus_sign => op = BinaryOp::Subtract,
                Rule::times_sign => op = BinaryOp::Multiply,
                Rule::divide_sign => op = BinaryOp::Divide,
                rule => {
                    let right = match rule {
                        Rule::product => self.expression(part)?,
                        _ => self.factor(part)?,
                    };
                    value = Some(match value {
                        None => right,
                        Some(left) => {
                            let span = left.span.to(right.span);
                            let kind = ExprKind::Binary(op, Box::new(left), Box::new(right));
                            Expr { kind, span }
                        }
                    });
                }
            }
        }
        value
    }

    /// `factor` and `plain`: one value, perhaps below nought.
    fn factor(&mut self, pair: Pair<'_, Rule>) -> Option<Expr> {
        let span = self.span(&pair);
        let mut negative = false;
        let mut value = None;
        for part in pair.into_inner() {
            match part.as_rule() {
                Rule::negative => negative = true,
                Rule::quantity => {
                    let span = self.span(&part);
                    value = self.number(number::quantity(part), span);
                }
                Rule::name => value = Some(self.named(&part)),
                Rule::group => {
                    let span = self.span(&part);
                    let inner = part.into_inner().next()?;
                    value = self.expression(inner).map(|expr| Expr { span, ..expr });
                }
                _ => {}
            }
        }
        let value = value?;
        if negative {
            return Some(Expr { kind: ExprKind::Negative(Box::new(value)), span });
        }
        Some(value)
    }

    fn number(&mut self, number: Result<Number, NumberFault>, span: Span) -> Option<Expr> {
        let fault = match number {
            Ok(number) => return Some(Expr { kind: ExprKind::Number(number), span }),
            Err(NumberFault::TooFine) => faults::number_too_fine(span, self.text),
            Err(NumberFault::OverNought) => faults::over_nought(span),
        };
        self.found.push(fault);
        None
    }

    fn named(&self, pair: &Pair<'_, Rule>) -> Expr {
        let name = self.name(pair);
        Expr { span: name.span, kind: ExprKind::Name(name) }
    }
}

/// True where an empty line stands in what parts two items.
fn has_empty_line(between: &str) -> bool {
    let mut ends = 0;
    let mut before = b' ';
    for byte in between.bytes() {
        // `\r\n` is one end.
        ends += usize::from(byte == b'\r' || byte == b'\n' && before != b'\r');
        before = byte;
    }
    ends > 1
}

/// The text between the quotes, its escapes resolved.
fn unescape(quoted: &str) -> String {
    let inner = quoted.strip_prefix('"').and_then(|text| text.strip_suffix('"')).unwrap_or(quoted);
    let mut text = String::with_capacity(inner.len());
    let mut escaped = false;
    for c in inner.chars() {
        match (escaped, c) {
            (false, '\\') => {
                escaped = true;
                continue;
            }
            (true, 'n') => text.push('\n'),
            (_, c) => text.push(c),
        }
        escaped = false;
    }
    text
}
