//! What is said of a text that can't be read, in the maker's words.

use pest::Parser;
use pest::error::{Error, ErrorVariant, InputLocation};

use super::parser::{Grammar, Rule};
use super::tree::{Argument, Expr, ExprKind, Name, Statement};
use crate::diagnostics::{Diagnostic, Edit, Fix, Grade};
use crate::measure::{Date, Exact, FileId, Span, date_readings};

/// A brace that stands on a line without a keyword; `owner` is the statement
/// it surely belongs to.
pub(super) fn bare_brace(open: Span, owner: Option<&Statement>) -> Diagnostic {
    let Some(owner) = owner else {
        return syntax("this brace has no word before it", open, "write before it what it holds");
    };
    let between = Span { start: owner.span.end, end: open.start, ..open };
    let title = format!("the brace of `{}` stands on a line of its own", owner.word.text());
    syntax(title, open, "this belongs on the line above")
        .label(owner.head(), "to the end of this")
        .fix(Fix::new(Grade::Sure, "move it up", between, " "))
        .meant()
}

pub(super) fn no_separator(span: Span) -> Diagnostic {
    syntax("a new statement needs a new line or `;` before it", span, "`;` is missing here")
        .fix(Fix::new(Grade::Sure, "put `;` between them", span, "; "))
        .meant()
}

pub(super) fn no_such_date(span: Span) -> Diagnostic {
    syntax("the calendar has no such day", span, "write year-month-day, as in 2026-03-14")
}

/// A date written as in another place than a spec.
pub(super) fn date(file: FileId, written: &str, at: usize) -> Option<Diagnostic> {
    let written = written.trim_end();
    // Every form of a date begins with a figure.
    let figures = written.starts_with(|c: char| c.is_ascii_digit()).then_some(written)?;
    let days = date_readings(figures).filter(|_| Date::parse(written).is_none())?;
    let span = Span::new(file, at, at + written.len());
    let found = syntax(
        "write a date as year, month, and day, as in `2026-03-14`",
        span,
        if days.is_empty() { "no such day" } else { "not in this form" },
    );
    Some(match days.as_slice() {
        [day] => found.fix(Fix::new(Grade::Choice, "write it like this", span, day.to_string())),
        _ => found,
    })
}

pub(super) fn number_too_fine(span: Span, text: &str) -> Diagnostic {
    let title = "this number has more digits than can be kept exactly";
    let found = Diagnostic::error("number-too-fine", title, span, "too many digits")
        .note("a figure may be as fine as a millionth and may have up to 18 digits");
    match text.get(span.range()).and_then(to_a_millionth) {
        Some(near) => found.fix(Fix::new(Grade::Choice, format!("write `{near}`"), span, near)),
        None => found,
    }
}

/// Decimals cut to the nearest millionth, as many as it needs, with the unit
/// that stood behind them.
fn to_a_millionth(written: &str) -> Option<String> {
    let end = written.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(written.len());
    let (units, places) = written.get(..end)?.split_once('.')?;
    let seventh: i64 = format!("{units}{places:0<7.7}").parse().ok()?;
    let millionths = seventh.checked_add(5)? / 10;
    let (units, places) = (millionths / Exact::FINEST, millionths % Exact::FINEST);
    let near = format!("{units}.{places:06}");
    let unit = written.get(end..)?;
    // Of feet and inches it may be the inches that are too fine.
    let alone = !unit.contains(|c: char| c.is_ascii_digit());
    alone.then(|| format!("{}{unit}", near.trim_end_matches('0').trim_end_matches('.')))
}

pub(super) fn over_nought(span: Span) -> Diagnostic {
    Diagnostic::error(
        "division-by-zero",
        "nothing can be divided by zero",
        span,
        "a division by zero",
    )
}

pub(super) fn capital(word: &Name) -> Diagnostic {
    let small = word.text().to_ascii_lowercase();
    syntax("write words of the language in lower case", word.span, "this has a capital letter")
        .fix(Fix::new(Grade::Sure, format!("write `{small}`"), word.span, small))
        .meant()
}

/// `1 -1/2`, which reads as two values but surely means one.
pub(super) fn stray_space(arguments: &[Argument], text: &str) -> Option<Diagnostic> {
    arguments.windows(2).find_map(|pair| {
        let [Argument::Expr(left), Argument::Expr(right)] = pair else { return None };
        let ExprKind::Negative(inner) = &right.kind else { return None };
        let is_whole = number(left).is_some_and(Exact::is_whole);
        let is_fraction = number(inner).is_some_and(|n| n < Exact::ONE);
        if !is_whole || !is_fraction {
            return None;
        }
        let span = left.span.to(right.span);
        let written: String =
            text.get(span.range()).unwrap_or("").chars().filter(|c| !c.is_whitespace()).collect();
        // `1 - 1/2` is the other reading, and half the size.
        Some(syntax("a mixed number has no space in it", span, "one space too many").fix(Fix::new(
            Grade::Choice,
            format!("write `{written}`"),
            span,
            written,
        )))
    })
}

fn number(expr: &Expr) -> Option<Exact> {
    match expr.kind {
        ExprKind::Number(number) if number.unit.is_none() => Some(number.value),
        _ => None,
    }
}

/// True for the hyphen of `3-4`, which stands where a rule has the slash of a fraction.
fn slash_meant(line: &str, hyphen: usize) -> bool {
    let [before, after] =
        [line.get(..hyphen), line.get(hyphen + 1..)].map(Option::unwrap_or_default);
    let is_digit = |c: char| c.is_ascii_digit();
    let over = before.rsplit(|c| !is_digit(c)).next().and_then(|own| own.parse::<u32>().ok());
    let under = after.split(|c| !is_digit(c)).next().and_then(|own| own.parse::<u32>().ok());
    let parts = [2, 4, 8, 16, 32, 64];
    over.zip(under)
        .is_some_and(|(over, under)| over < under && over % 2 == 1 && parts.contains(&under))
}

/// The message for a line that is no statement.
pub(super) fn junk(file: FileId, line: &str, at: Span) -> Diagnostic {
    let line = line.trim_end();
    let start = at.start as usize;
    let span = |from: usize, to: usize| Span::new(file, start + from, start + to);
    let (mut from, expected) = match Grammar::parse(Rule::strict, line) {
        // It reads well by itself, so what follows it is wrong.
        Ok(_) => (line.len(), "the end of the line".to_owned()),
        Err(error) => (position(&error), expectation(&error)),
    };
    while !line.is_char_boundary(from) {
        from -= 1;
    }
    // An unclosed text fails where it opens; other marks may fail a little later.
    let from = from.min(line.len());
    if let Some(diagnostic) = typographic(line, from, &span) {
        return diagnostic;
    }
    // A date of another form begins as a number does.
    let is_part = |c: char| c.is_ascii_digit() || matches!(c, '.' | '/' | '-');
    let begin = line.get(..from).map_or(0, |before| before.trim_end_matches(is_part).len());
    if let Some(fault) = line.get(begin..).and_then(|rest| {
        let end = rest.find(|c| !is_part(c)).unwrap_or(rest.len());
        date(file, rest.get(..end)?, start + begin)
    }) {
        return fault;
    }
    let rest = line.get(from..).unwrap_or("");
    let skipped = rest.len() - rest.trim_start().len();
    let from = from + skipped;
    let rest = rest.trim_start();
    let Some(c) = rest.chars().next() else {
        return syntax(
            format!("{expected} is missing"),
            span(from, from),
            "something is missing here",
        );
    };
    let here = span(from, from + c.len_utf8());
    match c {
        ':' | '=' => {
            // One space stays, the one before the mark if there is one.
            let spaced = line.get(..from).is_some_and(|b| b.ends_with(' '));
            let behind = rest.get(1..).unwrap_or("");
            let spaces = behind.len() - behind.trim_start_matches(' ').len();
            let gone = span(from, from + 1 + spaces);
            // Behind a number it may stand for `to` or for a slash.
            let before = line.get(..from).unwrap_or("").trim_end();
            let number = before.ends_with(|d: char| d.is_ascii_digit());
            let grade = if number { Grade::Choice } else { Grade::Sure };
            syntax(format!("don't write `{c}` between a word and its value"), here, "delete this")
                .fix(Fix::new(grade, "leave a space", gone, if spaced { "" } else { " " }))
        }
        ',' if is_decimal(line, from) => {
            syntax("write a decimal with a point, not a comma", here, "a comma")
                .fix(Fix::new(Grade::Choice, "write `.`", here, "."))
                .note("if you mean two statements, put `;` between them")
        }
        ',' => syntax("separate statements with `;` or a new line, not with `,`", here, "a comma")
            .fix(Fix::new(Grade::Choice, "write `;`", here, ";")),
        '"' if is_inch_mark(line, from) => {
            let gone = span(line.get(..from).unwrap_or("").trim_end().len(), from);
            syntax("an inch mark touches its figure", here, "a space stands before this")
                .fix(Fix::new(Grade::Choice, "take out the space", gone, ""))
        }
        '"' => Diagnostic::error(
            "unclosed-text",
            "a text has no closing quote",
            span(from, line.len()),
            "the text opens here",
        )
        .note("a text must end on the line where it starts; write `\\n` for a new line in it"),
        '.' if rest[1..].starts_with(|d: char| d.is_ascii_digit()) => {
            // `5 .6` may be `5.6`.
            let before = line.get(..from).unwrap_or("").trim_end();
            let is_alone = !before.ends_with(|d: char| d.is_ascii_digit());
            let grade = if is_alone { Grade::Sure } else { Grade::Choice };
            syntax(
                "a figure can't start with its decimal point",
                here,
                "a zero is missing before this",
            )
            .fix(Fix::new(
                grade,
                "write a zero before the decimal point",
                span(from, from),
                "0",
            ))
        }
        '\'' => syntax("put a text in double quotes", here, "a single quote"),
        '-' if rest[1..].trim_start().starts_with(|d: char| d.is_ascii_digit()) => {
            let found = syntax(
                "a minus needs a space on both sides, and a mixed number has none",
                here,
                "is this a minus or a hyphen?",
            )
            .note("`2 - 1/2` takes a half away from two, and `2-1/2` is two and a half");
            match slash_meant(line, from) {
                true => found.fix(Fix::new(Grade::Choice, "a fraction has a slash", here, "/")),
                false => found,
            }
        }
        '}' | '{' => syntax(format!("{expected} belongs here"), here, "not a brace"),
        _ if from == 0 => {
            let word = first_word(rest);
            let found = syntax(
                "a line must start with a word that says what it is",
                span(0, word),
                "this is not such a word",
            );
            match rest.starts_with(|digit: char| digit.is_ascii_digit()) {
                true => {
                    let figure = &rest[..word];
                    found.note(format!(
                        "write before a figure what it is, such as `high {figure}` or `wide {figure}`"
                    ))
                }
                false => found,
            }
        }
        _ => syntax(
            format!("{expected} belongs here"),
            span(from, from + first_word(rest)),
            "this can't be read",
        ),
    }
}

/// Backslashes that mean nothing in a text that begins at `at`, with its
/// quotes. In a path none does: it is the path as some systems write it.
pub(super) fn backslashes(file: FileId, quoted: &str, at: usize, path: bool) -> Option<Diagnostic> {
    let span = |from: usize, to: usize| Span::new(file, at + from, at + to);
    let plain = if path { "/" } else { "\\\\" };
    let mut edits = Vec::new();
    let mut marks = quoted.char_indices();
    while let Some((i, mark)) = marks.next() {
        if mark != '\\' {
            continue;
        }
        let next = marks.next().map(|(_, next)| next);
        let long = match next {
            Some('"') => continue,
            Some('\\') if path => 2,
            Some('\\' | 'n') if !path => continue,
            _ => 1,
        };
        edits.push(Edit { span: span(i, i + long), text: plain.to_owned() });
    }
    let first = edits.first()?.span;
    let found = match path {
        true => syntax("separate the folders of a path with `/`", first, "a backslash"),
        false => syntax("this backslash has no meaning in a text", first, "a single backslash")
            .note("in a text, write `\\\"` for a quote, `\\n` for a new line, and `\\\\` for a backslash"),
    };
    Some(found.fix(Fix { title: format!("write `{plain}`"), grade: Grade::Choice, edits }))
}

/// A mark that a word processor puts in the place of a plain one, at the byte
/// where reading stopped. Those inside a text are the maker's own and stay.
fn typographic(line: &str, at: usize, span: &dyn Fn(usize, usize) -> Span) -> Option<Diagnostic> {
    const FRACTIONS: [(char, &str); 13] = [
        ('¼', "1/4"),
        ('½', "1/2"),
        ('¾', "3/4"),
        ('⅓', "1/3"),
        ('⅔', "2/3"),
        ('⅛', "1/8"),
        ('⅜', "3/8"),
        ('⅝', "5/8"),
        ('⅞', "7/8"),
        ('⅕', "1/5"),
        ('⅖', "2/5"),
        ('⅙', "1/6"),
        ('⅚', "5/6"),
    ];
    let before = line.get(..at)?;
    let c = line.get(at..)?.chars().next()?;
    let here = span(at, at + c.len_utf8());
    if let Some((_, plain)) = FRACTIONS.iter().find(|(mark, _)| *mark == c) {
        let joined = before.ends_with(|digit: char| digit.is_ascii_digit());
        let plain = if joined { format!("-{plain}") } else { (*plain).to_owned() };
        return Some(
            syntax("write a fraction with a slash", here, "this is one character").fix(Fix::new(
                Grade::Sure,
                format!("write `{plain}`"),
                here,
                plain,
            )),
        );
    }
    // A dash may be a minus, a hyphen or `to`, and a cross a product or the two
    // sides of a sheet: the reading changes a size, so it is the maker's choice.
    let (plain, grade) = match c {
        '“' | '”' | '„' | '«' | '»' | '″' => ("\"", Grade::Sure),
        '–' | '—' | '−' | '‑' => ("-", Grade::Choice),
        '×' => ("*", Grade::Choice),
        '′' | '’' | '‘' => ("'", Grade::Sure),
        '\u{a0}' | '\u{2009}' | '\u{202f}' => (" ", Grade::Sure),
        _ => return None,
    };
    let mut fix = Fix::new(grade, format!("write `{plain}`"), here, plain);
    if matches!(c, '“' | '”' | '„' | '«' | '»') {
        // A quote is one of a pair: mend the one that closes it as well.
        let from = at + c.len_utf8();
        let closing = line
            .get(from..)
            .and_then(|rest| rest.char_indices().find(|(_, c)| matches!(c, '“' | '”' | '«' | '»')));
        fix.edits.extend(closing.map(|(i, other)| Edit {
            span: span(from + i, from + i + other.len_utf8()),
            text: plain.to_owned(),
        }));
    }
    let title = format!("`{c}` comes from a word processor; write the plain character");
    Some(syntax(title, here, "not a plain character").fix(fix))
}

/// True where the mark at this byte has a digit on each side.
fn is_decimal(line: &str, at: usize) -> bool {
    let is_digit = |byte: Option<&u8>| byte.is_some_and(u8::is_ascii_digit);
    let bytes = line.as_bytes();
    at > 0 && is_digit(bytes.get(at - 1)) && is_digit(bytes.get(at + 1))
}

/// True for a quote behind a figure and a space, with no other behind it.
fn is_inch_mark(line: &str, at: usize) -> bool {
    let before = line.get(..at).unwrap_or("").trim_end_matches(' ');
    let behind = line.get(at + 1..).unwrap_or("").trim_start();
    before.len() < at
        && before.ends_with(|c: char| c.is_ascii_digit())
        && (behind.is_empty() || behind.starts_with([';', '}', '#']))
}

fn first_word(text: &str) -> usize {
    let end = text.find(|c: char| c.is_whitespace() || ";{}#".contains(c)).unwrap_or(text.len());
    end.max(text.chars().next().map_or(0, char::len_utf8))
}

fn syntax(title: impl Into<String>, span: Span, label: &str) -> Diagnostic {
    Diagnostic::error("syntax", title, span, label)
}

fn position(error: &Error<Rule>) -> usize {
    match error.location {
        InputLocation::Pos(at) | InputLocation::Span((at, _)) => at,
    }
}

/// What could have stood there, most useful first.
fn expectation(error: &Error<Rule>) -> String {
    let ErrorVariant::ParsingError { positives, .. } = &error.variant else {
        return "something else".to_owned();
    };
    let mut names: Vec<&str> = positives.iter().map(|rule| trade_name(*rule)).collect();
    names.sort_unstable();
    names.dedup();
    match names.as_slice() {
        [] => "something else".to_owned(),
        [only] => (*only).to_owned(),
        [rest @ .., last] => format!("{} or {last}", rest.join(", ")),
    }
}

/// What a rule of the grammar is to someone who writes specs.
fn trade_name(rule: Rule) -> &'static str {
    match rule {
        Rule::keyword | Rule::statement | Rule::item | Rule::strict => {
            "a word that says what it is"
        }
        Rule::argument
        | Rule::plain
        | Rule::expression
        | Rule::product
        | Rule::factor
        | Rule::quantity
        | Rule::figure
        | Rule::fraction
        | Rule::feet_tail
        | Rule::number
        | Rule::negative
        | Rule::group
        | Rule::name
        | Rule::date
        | Rule::text => "a value",
        Rule::plus_sign
        | Rule::minus_sign
        | Rule::times_sign
        | Rule::divide_sign
        | Rule::sum_tail
        | Rule::operator
        | Rule::more => "an arithmetic sign",
        Rule::mark
        | Rule::unit
        | Rule::unit_start
        | Rule::unit_letter
        | Rule::foot
        | Rule::inch => "a unit",
        Rule::bare | Rule::block => "`{`",
        Rule::stray_close | Rule::missing_close => "`}`",
        Rule::comment => "a comment",
        Rule::file
        | Rule::EOI
        | Rule::end
        | Rule::stop
        | Rule::gap
        | Rule::space
        | Rule::blank
        | Rule::newline
        | Rule::word_char
        | Rule::junk
        | Rule::junk_text => "the end of the line",
    }
}

/// The message for a text that the grammar refuses as a whole. It takes any
/// text that passes the limits, so this speaks of a limit of the parser's own.
pub(super) fn unreadable(file: FileId, text: &str, error: &Error<Rule>) -> Diagnostic {
    let mut at = position(error).min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    syntax("the file can't be read from this point on", Span::new(file, at, at), "here")
}
