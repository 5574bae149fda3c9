//! A size over all that is written wrong, or one of an opening that takes most of its case,
//! where none of what follows from it is found at its own line.

use crate::diagnostics::{self, Diagnostic, Fix, Grade, Severity};
use crate::measure::{
    Exact, FileId, IF_DIGIT_LOST, IF_DOUBLED, IF_MEANT, IF_POINT_OFF, IF_TURNED, Length, Span,
    Unit, turned, undoubled,
};
use crate::model::SourceFiles;
use crate::syntax::{Argument, Expr, ExprKind, Item, Number, NumberUnit, Statement, statements};
use crate::vocabulary::{stated_unit, words};

use super::causes::{OF_FIGURES, is_case, most, same, tell_with};
use super::{Compilation, found_with};

/// Below so many inches a case is rarely wide, high, or deep (common practice, no source: the
/// narrowest that is usually built for a kitchen).
const SMALL: i64 = 9;

/// At least so many findings follow from the size of an opening that is written wrong.
const MANY: usize = 4;

/// What is told in place of all that follows from a depth: one finding is enough.
const FOR_ALL: &str = "base-too-deep";

/// A size over all, or of an opening.
struct Doubted<'a> {
    /// The case, the run, or the opening.
    of: &'a Statement,
    statement: &'a Statement,
    /// Its figure.
    number: Number,
    at: Span,
    /// It is that of an opening.
    is_inner: bool,
}

/// What a size may have been meant to be, and what is found then.
struct Better<'a> {
    size: Doubted<'a>,
    fixes: Vec<Fix>,
    after: Vec<Diagnostic>,
}

/// The compilation with what follows from a size over all, or from one of an opening, told at
/// it: where more than one thing is found, and no error is left with the figure that was
/// probably meant.
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
    let enough = if all.iter().any(|own| own.slug == FOR_ALL) { 1 } else { 2 };
    if told < enough || errors == 0 {
        return None;
    }
    let tree = compiled.tree(FileId::default())?;
    let unit = stated_unit(tree)?.value;
    let mut sizes = Vec::new();
    gather(&tree.items, &[], &mut sizes);
    let is_of = |own: &Diagnostic, size: &Doubted<'_>| own.primary.span == size.at;
    // Another figure that is odd by itself is looked into by itself.
    let is_alone =
        |size: &Doubted<'_>| all.iter().filter(|own| is_figure(own)).all(|own| is_of(own, size));
    let is_tried = |size: &Doubted<'_>| is_alone(size) && !size.meant(unit).is_empty();
    let sizes: Vec<Doubted<'_>> = sizes.into_iter().filter(is_tried).collect();
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
    // What other cases do to each other may only have found room beside this one.
    let mut gone = all.iter().zip(&goes).filter(|(_, goes)| **goes).map(|(own, _)| own);
    if !gone.any(|own| best.size.is_in(own)) {
        return None;
    }
    let known = all.iter().find(|own| is_figure(own) && is_of(own, &best.size));
    // A large opening may be meant so, and a few findings may have another cause.
    if follow < if best.size.is_inner { MANY } else { enough } {
        return None;
    }
    let mut found = match known {
        Some(known) => known.clone(),
        None => best.size.doubtful(follow, unit),
    };
    found.fixes = best.fixes;
    Some((found, goes))
}

/// The sizes over all of cases and runs, and those of openings that take more than four fifths
/// of their case, where each is one figure.
fn gather<'a>(items: &'a [Item], run: &[Whole<'a>], found: &mut Vec<Doubted<'a>>) {
    for statement in statements(items) {
        let Some(block) = &statement.block else { continue };
        if !is_case(statement) {
            gather(&block.items, run, found);
            continue;
        }
        let own: Vec<Doubted<'a>> =
            statements(&block.items).filter_map(|size| Doubted::of(statement, size)).collect();
        // What a case does not say it has of its run.
        let whole: Vec<Whole<'a>> =
            own.iter().map(|own| (own.statement.word.text(), own.number)).collect();
        let whole = [whole, run.to_vec()].concat();
        within(&block.items, &whole, found);
        found.extend(own);
        gather(&block.items, &whole, found);
    }
}

/// `wide`, `high`, or `deep` of a case, and its figure.
type Whole<'a> = (&'a str, Number);

/// The sizes of the openings in a case that take more than four fifths of it: what is left for
/// the others is then too little for most.
fn within<'a>(items: &'a [Item], whole: &[Whole<'a>], found: &mut Vec<Doubted<'a>>) {
    for opening in statements(items) {
        let Some(block) = opening.block.as_ref().filter(|_| !is_case(opening)) else { continue };
        if is_opening(opening) {
            let sizes = statements(&block.items).filter_map(|size| Doubted::of(opening, size));
            let large = sizes.filter(|own| {
                let word = own.statement.word.text();
                let all = whole.iter().find(|all| all.0 == word && all.1.unit == own.number.unit);
                all.is_some_and(|(_, all)| {
                    own.number.value * Exact::int(5) > all.value * Exact::int(4)
                })
            });
            found.extend(large.map(|own| Doubted { is_inner: true, ..own }));
        }
        within(&block.items, whole, found);
    }
}

/// True for an opening, and for a list of them.
fn is_opening(statement: &Statement) -> bool {
    let words = [
        words::list::DOWN.spelling(),
        words::list::ACROSS.spelling(),
        words::list::DRAWER.spelling(),
        words::list::DOOR.spelling(),
        words::list::DOORS.spelling(),
        words::list::OPEN.spelling(),
        words::list::FALSE.spelling(),
    ];
    words.contains(&statement.word.text())
}

impl<'a> Doubted<'a> {
    fn of(of: &'a Statement, statement: &'a Statement) -> Option<Self> {
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
        Some(Self { of, statement, number: *number, at: *span, is_inner: false })
    }

    /// True for a finding that points into its case, run, or opening.
    fn is_in(&self, own: &Diagnostic) -> bool {
        own.labels.iter().chain([&own.primary]).any(|label| self.of.span.holds(label.span))
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
        if self.is_inner {
            return self.less();
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

    /// What an opening that takes too much may have been meant to have: its digits the other
    /// way round, one of two that are alike, a point a place off, half.
    fn less(&self) -> Vec<(String, &'static str)> {
        let Number { value: count, .. } = self.number;
        if !count.is_whole() || !count.is_positive() {
            return Vec::new();
        }
        let behind = self.unit().map_or(String::new(), |unit| format!(" {}", unit.name()));
        let all = [
            (turned(count), IF_TURNED),
            (undoubled(count), IF_DOUBLED),
            (Some(count * Exact::ratio(1, 10)), IF_POINT_OFF),
            (Some(count * Exact::ratio(1, 2)), IF_MEANT),
        ];
        let all = all.into_iter().filter_map(|(own, if_so)| Some((own?, if_so)));
        let whole = all.filter(|(own, _)| own.is_whole() && *own < count);
        whole.map(|(own, if_so)| (format!("{own}{behind}"), if_so)).collect()
    }

    /// The finding of the size, from which so many others follow.
    fn doubtful(&self, follow: usize, file: Unit) -> Diagnostic {
        let name = match self.of.arguments.first() {
            Some(Argument::Expr(Expr { kind: ExprKind::Name(name), .. })) => name.text().to_owned(),
            _ => self.of.word.text().to_owned(),
        };
        let word = self.statement.word.text();
        let own = self.unit().unwrap_or(file);
        let behind = if own == file { String::new() } else { format!(" {}", own.name()) };
        let size = format!("{}{behind}", self.number.value);
        let follows = if follow == 1 { "follows" } else { "follow" };
        let follow = diagnostics::counted(follow, "finding");
        let overall = if self.is_inner { "" } else { " overall" };
        let title = format!("{name} is {size} {word}{overall}, and {follow} {follows} from that");
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
        size: Doubted<'a>,
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
