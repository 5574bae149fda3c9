//! The names of a spec as they stand in its trees: those that are given, and
//! those that are asked for.

use crate::measure::{Span, Unit};
use crate::pipeline::Compilation;
use crate::syntax::Name;
use crate::vocabulary::words::{self, cut, drawer, file, list, measured, run, site};
use crate::vocabulary::{self, Given, Kind, Step, Value, Word};

use super::meaning::NameKind;

/// A name that is given.
#[derive(Debug)]
pub(super) struct NewName {
    pub(super) kind: NameKind,
    pub(super) path: String,
    /// Of an opening: it is a list of others.
    pub(super) is_list: bool,
    pub(super) definition: Span,
    pub(super) statement: Span,
}

/// A name that is asked for, word by word.
#[derive(Debug)]
pub(super) struct Use {
    pub(super) asked: Asked,
    pub(super) words: Vec<(String, Span)>,
}

/// What a name that is asked for may mean.
#[derive(Debug)]
pub(super) enum Asked {
    /// A thing of this kind, by its whole name.
    Thing(NameKind),
    /// A size of an opening of this case.
    Size(String),
    /// An opening of this case.
    Beside(String),
    /// A case or a run that another case stands on.
    Footing,
    /// A case that another one is like: of this run, or by itself.
    Like(Option<String>),
    /// An opening that can be measured.
    Opening,
    /// A part or an opening.
    Place {
        /// A part may be meant by its mark.
        by_mark: bool,
    },
}

/// What was gathered.
#[derive(Debug, Default)]
pub(super) struct Gathered {
    pub(super) given: Vec<NewName>,
    pub(super) used: Vec<Use>,
    /// The paths of cases, each with that of the case that it is like.
    pub(super) like: Vec<(String, String)>,
}

/// A statement that is open.
#[derive(Debug)]
struct Open {
    word: &'static str,
    /// The path of what is inside; empty outside of cases.
    path: String,
    statement: Span,
}

/// Gathers the names of every text of a spec.
pub(super) fn gather(compiled: &Compilation) -> Gathered {
    let mut gathered = Gathered::default();
    let unit = compiled
        .trees()
        .first()
        .and_then(vocabulary::stated_unit)
        .map_or(Unit::Inch, |said| said.value);
    for tree in compiled.trees() {
        let mut open: Vec<Open> = Vec::new();
        vocabulary::walk(tree, unit, &mut |step| match step {
            Step::Word { out, word, statement, .. } => {
                let holder = open.iter().rev().nth(out);
                let path = holder.map(|open| open.path.clone()).unwrap_or_default();
                open.push(Open { word: word.word, path, statement: statement.span });
            }
            Step::Argument(given) => argument(&mut gathered, &mut open, &given),
            Step::End => drop(open.pop()),
            Step::Unknown { .. } => {}
        });
    }
    gathered
}

fn argument(gathered: &mut Gathered, open: &mut [Open], given: &Given<'_>) {
    let depth = open.len();
    let (in_run, case) = around(open);
    let Some(own) = open.last_mut() else { return };
    let mut asks = |asked, name: &Name| {
        gathered.used.push(Use { asked, words: each_word(name) });
    };
    let members = [list::STILE, list::RAIL, list::DIVIDER].map(Word::spelling);
    let lists = [list::ACROSS, list::DOWN].map(Word::spelling);
    match (given.kind, given.name) {
        (Kind::Define, Some(name)) => {
            let kind = match own.word {
                word if depth == 1 || in_run.is_some() && depth == 3 => NameKind::of(word),
                word if members.contains(&word) => case.map(|_| NameKind::Member),
                _ => case.map(|_| NameKind::Opening),
            };
            let Some(kind) = kind else { return };
            let path = match own.path.as_str() {
                "" => name.text().to_owned(),
                outer => format!("{outer}.{}", name.text()),
            };
            if kind.has_sizes() {
                own.path.clone_from(&path);
            }
            gathered.given.push(NewName {
                kind,
                path,
                is_list: lists.contains(&own.word),
                definition: name.span,
                statement: own.statement,
            });
        }
        (Kind::Refer(what), Some(name)) => {
            if let Some(kind) = NameKind::of(what) {
                asks(Asked::Thing(kind), name);
            }
        }
        // The wood of a stock may be one of the spec's own; so may that of a
        // part which is cut, and its stock.
        (Kind::Label, Some(name)) => {
            let kind = NameKind::of(own.word);
            if let Some(kind @ (NameKind::Species | NameKind::Stock)) = kind {
                asks(Asked::Thing(kind), name);
            }
        }
        (Kind::Path, Some(name)) => {
            let asked = match case {
                _ if own.word == words::case::ON.spelling() => Asked::Footing,
                Some(case) if own.word == words::case::LIKE.spelling() => {
                    let other = match &in_run {
                        Some(run) => format!("{run}.{}", name.text()),
                        None => name.text().to_owned(),
                    };
                    gathered.like.push((case, other));
                    let asked = Asked::Like(in_run);
                    gathered.used.push(Use { asked, words: each_word(name) });
                    return;
                }
                _ if in_run.is_some() && depth == 4 => Asked::Beside(in_run.unwrap_or_default()),
                Some(case) => Asked::Beside(case),
                None if own.word == measured::OPENING.spelling() => Asked::Opening,
                None => Asked::Place { by_mark: own.word == cut::PART.spelling() },
            };
            asks(asked, name);
        }
        (Kind::Size, _) => {
            let of_run = in_run.filter(|_| depth <= 4 && own.word == run::WIDE.spelling());
            let Some(case) = of_run.or(case) else { return };
            for name in &given.sizes {
                asks(Asked::Size(case.clone()), name);
            }
        }
        (Kind::Text, _) => {
            let Some(Value::Text(text)) = &given.value else { return };
            if own.word == site::KEEP_OUT.spelling() {
                gathered.given.push(NewName {
                    kind: NameKind::KeepOut,
                    path: text.clone(),
                    is_list: false,
                    definition: given.span,
                    statement: own.statement,
                });
            } else if own.word == drawer::AROUND.spelling() {
                gathered.used.push(Use {
                    asked: Asked::Thing(NameKind::KeepOut),
                    words: vec![(text.clone(), given.span)],
                });
            }
        }
        _ => {}
    }
}

/// The path of the run whose braces are open, and that of the case.
fn around(open: &[Open]) -> (Option<String>, Option<String>) {
    let is = |at: usize, word: &str| open.get(at).filter(|outer| outer.word == word);
    let run = is(0, file::RUN.spelling()).map(|run| run.path.clone());
    let case = match run {
        Some(_) => is(2, file::CASE.spelling()),
        None => is(0, file::CASE.spelling()),
    };
    (run, case.map(|case| case.path.clone()))
}

fn each_word(name: &Name) -> Vec<(String, Span)> {
    name.words().map(|word| (word.text.to_owned(), word.span)).collect()
}
