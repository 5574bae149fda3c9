//! A size over all that is written wrong, where none of what follows from it is found
//! at its own line.

use crate::diagnostics::{self, Diagnostic, Fix, Grade, Severity};
use crate::measure::{Exact, FileId, IF_DIGIT_LOST, IF_MEANT, IF_POINT_OFF, Length, Span, Unit};
use crate::model::SourceFiles;
use crate::syntax::{Argument, Expr, ExprKind, Item, Number, NumberUnit, Statement};
use crate::vocabulary::{stated_unit, words};

use super::causes::{OF_FIGURES, is_case, most, same, tell_with};
use super::{Compilation, found_with};

/// Below so many inches a case is rarely wide, high, or deep (common practice, no source: the
/// narrowest that is usually built for a kitchen).
const SMALL: i64 = 9;

/// A size over all.
struct OverAll<'a> {
    case: &'a Statement,
    statement: &'a Statement,
    /// Its figure.
    number: Number,
    at: Span,
}

/// What a size may have been meant to be, and what is found then.
struct Better<'a> {
    size: OverAll<'a>,
    fixes: Vec<Fix>,
    after: Vec<Diagnostic>,
}

/// The compilation with what follows from a size over all told at it: where more than one
/// thing is found, and no error is left with the figure that was probably meant.
pub(super) fn told(files: &dyn SourceFiles, entry: &str, mut compiled: Compilation) -> Compilation {
    let Some((found, gone)) = cause(files, entry, &compiled) else { return compiled };
    let mut kept = Vec::with_capacity(compiled.diagnostics.len());
    let mut follows = Vec::new();
    for (own, goes) in compiled.diagnostics.drain(..).zip(gone) {
        match goes {
            true => follows.push(own),
            false => kept.push(own),
        }
    }
    // What is found of the figure by itself is this.
    follows.retain(|own| !OF_FIGURES.contains(&own.slug));
    let mut found = found;
    tell_with(&mut found, &follows);
    kept.push(found);
    compiled.diagnostics = kept;
    compiled
}

/// The finding of the size, and which of the others go with it.
fn cause(
    files: &dyn SourceFiles,
    entry: &str,
    compiled: &Compilation,
) -> Option<(Diagnostic, Vec<bool>)> {
    let all = &compiled.diagnostics;
    let count = |is: &dyn Fn(&Diagnostic) -> bool| all.iter().filter(|own| is(own)).count();
    let is_figure = |own: &Diagnostic| OF_FIGURES.contains(&own.slug);
    let told = count(&|own| own.severity != Severity::Note);
    let errors = count(&|own| own.severity == Severity::Error && !is_figure(own));
    if told < 2 || errors == 0 {
        return None;
    }
    let tree = compiled.tree(FileId::default())?;
    let unit = stated_unit(tree)?.value;
    let mut sizes = Vec::new();
    gather(None, &tree.items, &mut sizes);
    let is_of = |own: &Diagnostic, size: &OverAll<'_>| own.primary.span == size.at;
    // Another figure that is odd by itself is looked into by itself.
    let is_alone =
        |size: &OverAll<'_>| all.iter().filter(|own| is_figure(own)).all(|own| is_of(own, size));
    let is_tried = |size: &OverAll<'_>| is_alone(size) && !size.meant(unit).is_empty();
    let sizes: Vec<OverAll<'_>> = sizes.into_iter().filter(is_tried).collect();
    // Each takes checks of the whole spec; where many may be it, none is.
    if sizes.len() > most(compiled) {
        return None;
    }
    let mut better: Vec<Better<'_>> = sizes
        .into_iter()
        .filter_map(|size| Better::of(files, entry, compiled, size, unit))
        .collect();
    better.sort_by_key(|better| better.after.len());
    // Where two sizes may be it, neither is.
    if let [one, other, ..] = better.as_slice()
        && one.after.len() == other.after.len()
    {
        return None;
    }
    let best = better.into_iter().next()?;
    let stays = |own: &Diagnostic| best.after.iter().any(|after| same(after, own));
    let goes: Vec<bool> =
        all.iter().map(|own| own.severity != Severity::Note && !stays(own)).collect();
    let follow = goes.iter().filter(|goes| **goes).count();
    let known = all.iter().find(|own| is_figure(own) && is_of(own, &best.size));
    if follow < 2 {
        return None;
    }
    let mut found = match known {
        Some(known) => known.clone(),
        None => best.size.doubtful(follow, unit),
    };
    found.fixes = best.fixes;
    Some((found, goes))
}

/// The sizes over all of cases and runs, where each is one figure.
fn gather<'a>(case: Option<&'a Statement>, items: &'a [Item], found: &mut Vec<OverAll<'a>>) {
    for item in items {
        let Item::Statement(statement) = item else { continue };
        if let Some(size) = case.and_then(|case| OverAll::of(case, statement)) {
            found.push(size);
        }
        if let Some(block) = &statement.block {
            let inner = is_case(statement).then_some(statement);
            gather(inner, &block.items, found);
        }
    }
}

impl<'a> OverAll<'a> {
    fn of(case: &'a Statement, statement: &'a Statement) -> Option<Self> {
        let word = statement.word.text();
        let sizes = [words::case::WIDE.spelling(), words::case::HIGH.spelling()];
        if !sizes.contains(&word) && word != words::case::DEEP.spelling() {
            return None;
        }
        let [Argument::Expr(Expr { kind: ExprKind::Number(number), span })] =
            statement.arguments.as_slice()
        else {
            return None;
        };
        Some(Self { case, statement, number: *number, at: *span })
    }

    /// The unit of length that is written behind it.
    fn unit(&self) -> Option<Unit> {
        match self.number.unit? {
            NumberUnit::Length(unit) => Some(unit),
            NumberUnit::Percent
            | NumberUnit::Degree
            | NumberUnit::Fahrenheit
            | NumberUnit::Celsius
            | NumberUnit::Minute
            | NumberUnit::Hour
            | NumberUnit::Pound
            | NumberUnit::Kilogram => None,
        }
    }

    /// What may have been meant, likeliest first: the file's unit, a point a place off, feet,
    /// a first digit that is missing.
    fn meant(&self, file: Unit) -> Vec<(String, &'static str)> {
        let Number { value: count, .. } = self.number;
        let own = self.unit().unwrap_or(file);
        if own != file {
            return vec![(count.to_string(), IF_MEANT)];
        }
        let is_written = count.is_whole() || !file.is_metric();
        if Length::new(count, file) >= Length::inches(SMALL, 1)
            || !count.is_positive()
            || !is_written
        {
            return Vec::new();
        }
        let behind = self.unit().map_or(String::new(), |unit| format!(" {}", unit.name()));
        let mut all = Vec::new();
        if count.is_whole() {
            all.push((format!("{}{behind}", count * Exact::int(10)), IF_POINT_OFF));
            if file == Unit::Inch {
                all.push((format!("{count} ft"), IF_MEANT));
            }
        }
        let digits = count.floor().to_string().len();
        let place = (0..digits).fold(Exact::ONE, |place, _| place * Exact::int(10));
        let first = (1..10).map(|digit| count + place * Exact::int(digit));
        all.extend(first.map(|meant| (format!("{meant}{behind}"), IF_DIGIT_LOST)));
        all
    }

    /// The finding of the size, from which so many others follow.
    fn doubtful(&self, follow: usize, file: Unit) -> Diagnostic {
        let name = match self.case.arguments.first() {
            Some(Argument::Expr(Expr { kind: ExprKind::Name(name), .. })) => name.text().to_owned(),
            _ => self.case.word.text().to_owned(),
        };
        let word = self.statement.word.text();
        let own = self.unit().unwrap_or(file);
        let behind = if own == file { String::new() } else { format!(" {}", own.name()) };
        let size = format!("{}{behind}", self.number.value);
        let follow = diagnostics::counted(follow, "finding");
        let title = format!("{name} is {size} {word} overall, and {follow} follow from that");
        Diagnostic::error("size-doubtful", title, self.at, "is this what you meant?")
            .subject(format!("{name}.{word}"))
    }
}

impl<'a> Better<'a> {
    /// `None` where nothing that may have been meant leaves the piece without errors.
    fn of(
        files: &dyn SourceFiles,
        entry: &str,
        compiled: &Compilation,
        size: OverAll<'a>,
        file: Unit,
    ) -> Option<Self> {
        let (mut fixes, mut found): (Vec<Fix>, Option<Vec<Diagnostic>>) = (Vec::new(), None);
        for (text, if_so) in size.meant(file) {
            // Of the digits that may be missing, the first that will do stands for all.
            if if_so == IF_DIGIT_LOST && fixes.iter().any(|fix| fix.title.ends_with(if_so)) {
                break;
            }
            let fix = Fix::new(Grade::Choice, format!("{text}, {if_so}"), size.at, text);
            let Some(after) = found_with(files, entry, compiled, &fix) else { continue };
            let is_known = |own: &Diagnostic| compiled.diagnostics.iter().any(|it| same(it, own));
            let is_bad = |own: &Diagnostic| {
                own.severity == Severity::Error
                    || OF_FIGURES.contains(&own.slug)
                        && (own.primary.span.start == size.at.start || !is_known(own))
            };
            if after.iter().any(is_bad) {
                continue;
            }
            fixes.push(fix);
            found.get_or_insert(after);
        }
        Some(Self { size, fixes, after: found? })
    }
}
