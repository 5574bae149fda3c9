//! Reads a tree against the vocabulary: every word known, every argument of
//! its kind, every block complete.

use std::cell::OnceCell;
use std::collections::BTreeSet;

use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::measure::{Span, Spanned, Unit};
use crate::syntax::{Argument, Expr, ExprKind, Item, Statement, Tree, statements};

use super::blocks::{file, job, run_list};
use super::choices::Units;
use super::elsewhere;
use super::entries::{Entries, Entry};
use super::evaluate::Fault;
use super::example;
use super::figure;
use super::known::Known;
use super::meant::{self, meant};
use super::natural;
use super::pairs::{Found, Pair, Pairs};
use super::value::Value;
use super::word::{Block, Body, Kind, Row, Times};

mod feet;
mod missing;
mod twice;
mod unknown;

use missing::{listed, missing, named, names, offered, one_of_missing};
use twice::twice;
use unknown::{unit_in_words, unknown};

/// The unit of bare numbers that a file states: `job { units … }`, or `units …`
/// of its own. Where it is misspelled but plain, it is the one that is meant, so
/// that nothing else is measured by the wrong one.
#[must_use]
pub fn stated_unit(tree: &Tree) -> Option<Spanned<Unit>> {
    let of = |statement: &Statement| {
        let argument = statement.arguments.first()?;
        let said = argument.as_word()?.text;
        let meant = || natural::same(said, Units::ALL.iter().map(|unit| unit.spelling()));
        let unit = Unit::parse(said).or_else(|| Unit::parse(meant()?))?;
        Some(Spanned::new(unit, argument.span()))
    };
    let is_units = |text: &str| text == job::UNITS.spelling();
    statements(&tree.items).find_map(|statement| {
        let text = statement.word.text();
        if meant::row(file::block(), text).is_some_and(|row| row.word == file::JOB.spelling()) {
            let block = statement.block.as_ref()?;
            return statements(&block.items).find_map(|statement| {
                let text = statement.word.text();
                let said = meant::row(job::block(), text).is_some_and(|row| is_units(row.word));
                said.then(|| of(statement)).flatten()
            });
        }
        is_units(text).then(|| of(statement)).flatten()
    })
}

/// Reads a whole file. What is wrong goes to `sink`; what is sound is returned.
/// A tree from which lines are missing, not being `whole`, is not asked for
/// words that may have stood on them.
pub fn read(
    tree: &Tree,
    end: Span,
    unit: Unit,
    whole: bool,
    known: &Known,
    sink: &mut Sink,
) -> Entries {
    let start = Span { start: 0, end: 0, ..end };
    Reader { tree, unit, whole, known, around: Vec::new(), sink }.block(
        file::block(),
        &tree.items,
        start,
        end,
    )
}

struct Reader<'a> {
    tree: &'a Tree,
    unit: Unit,
    whole: bool,
    /// The names that may be offered.
    known: &'a Known,
    /// The statements whose braces are open, with their words.
    around: Vec<(&'static Row, &'a Statement)>,
    sink: &'a mut Sink,
}

impl<'a> Reader<'a> {
    fn block(
        &mut self,
        block: &'static Block,
        items: &'a [Item],
        open: Span,
        close: Span,
    ) -> Entries {
        let mut entries: Vec<Entry> = Vec::new();
        for statement in statements(items) {
            let Some(word) = self.word(block, statement, items) else { continue };
            let Some(entry) = self.statement(block, word, statement) else { continue };
            if entry.word.times != Times::Many
                && let Some(first) = entries.iter().find(|e| e.word.word == entry.word.word)
            {
                self.sink.push(twice(first, &entry, items));
                continue;
            }
            entries.push(entry);
        }
        if self.whole {
            self.complete(block, &entries, items, open, close);
        }
        Entries::new(block, self.unit, open, close, entries)
    }

    /// Required words, and groups of which exactly one must stand.
    fn complete(
        &mut self,
        block: &'static Block,
        entries: &[Entry],
        items: &[Item],
        open: Span,
        close: Span,
    ) {
        let higher = self.higher();
        let misspelt = OnceCell::new();
        let misspelt = |word: &str| {
            let all = misspelt.get_or_init(|| -> BTreeSet<&str> {
                let texts = statements(items).map(|statement| statement.word.text());
                let unknown = texts.filter(|text| block.meant(text).is_none());
                unknown.filter_map(|text| meant(block, text)).collect()
            });
            all.contains(word)
        };
        // What another case has need not be written again.
        let takes_over = statements(items)
            .any(|own| block.meant(own.word.text()).is_some_and(|row| row.takes_over));
        // A word that stands but could not be read has been reported already,
        // and so has one that is spelt wrong.
        let written = |row: &Row| {
            let stands = statements(items).any(|statement| {
                let among =
                    |argument: &Argument| argument.as_word().is_some_and(|w| row.is(w.text));
                row.is(statement.word.text()) || statement.arguments.iter().any(among)
            });
            stands
                || takes_over
                || misspelt(row.word)
                || higher.is_some_and(|items| {
                    statements(items).any(|statement| row.is(statement.word.text()))
                })
        };
        // Another word takes the place of some.
        let stood_for = |row: &Row| {
            let other = row.unless.and_then(|other| block.word(other));
            other.filter(|other| written(other))
        };
        for entry in entries {
            if let Some(other) = stood_for(entry.word) {
                self.sink.push(Diagnostic::error(
                    "word-twice",
                    format!("`{}` says nothing where `{}` stands", entry.word.word, other.word),
                    entry.head,
                    format!("take this out, or take out `{}`", other.word),
                ));
            }
        }
        for word in block.words.iter().filter(|word| word.times == Times::Required) {
            if !written(word) && stood_for(word).is_none() {
                let mut found = Diagnostic::error(
                    "word-missing",
                    format!(
                        "{} need{} `{}`: {}",
                        block.title,
                        block.verb_ending(),
                        word.word,
                        word.help
                    ),
                    open,
                    format!("there is no `{}` here", word.word),
                );
                let names = names(word, self.known);
                found.fixes = missing(block, word, names, self.unit, items, close);
                self.sink.push(listed(found, names));
            }
        }
        for (group, what) in block.one_of {
            let standing: Vec<&Entry> =
                entries.iter().filter(|entry| group.contains(&entry.word.word)).collect();
            match standing.as_slice() {
                [] if group.iter().filter_map(|word| block.word(word)).any(written) => {}
                [] if group
                    .iter()
                    .filter_map(|word| block.word(word))
                    .any(|row| stood_for(row).is_some()) => {}
                [] => {
                    let words: Vec<String> = group.iter().map(|word| format!("`{word}`")).collect();
                    let mut found = Diagnostic::error(
                        "word-missing",
                        format!(
                            "{} need{} {what}: {}",
                            block.title,
                            block.verb_ending(),
                            words.join(" or ")
                        ),
                        open,
                        format!("{what} is missing"),
                    );
                    found.fixes = one_of_missing(block, group, self.unit, items, close);
                    self.sink.push(found);
                }
                [first, rest @ ..] => {
                    for other in rest {
                        self.sink.push(
                            Diagnostic::error(
                                "word-twice",
                                format!(
                                    "{} give{} {what} twice, with `{}` and `{}`",
                                    block.title,
                                    block.verb_ending(),
                                    first.word.word,
                                    other.word.word
                                ),
                                other.head,
                                "take out one of the two",
                            )
                            .label(first.head, "already given here"),
                        );
                    }
                }
            }
        }
    }

    /// What the run of a case says in the braces that are the same as those that are
    /// open in the case; `None` outside of the case of a run.
    fn higher(&self) -> Option<&'a [Item]> {
        let [(outer, run), _, (case, _), inner @ ..] = self.around.as_slice() else { return None };
        if outer.word != file::RUN.spelling() || case.word != run_list::CASE.spelling() {
            return None;
        }
        let mut items = run.block.as_ref()?.items.as_slice();
        for (row, _) in inner {
            let mut same = statements(items).filter(|other| row.is(other.word.text()));
            items =
                same.next().filter(|_| row.times != Times::Many)?.block.as_ref()?.items.as_slice();
        }
        Some(items)
    }

    /// The word of a statement: the one that was meant where another stands, unless that stands
    /// there too.
    fn word(
        &mut self,
        block: &'static Block,
        statement: &Statement,
        items: &[Item],
    ) -> Option<&'static Row> {
        let text = statement.word.text();
        if let Some(word) = block.meant(text) {
            return Some(word);
        }
        let found = unknown(block, text, statement.word.span);
        let is_free = |word: &&Row| {
            let many = word.times == Times::Many;
            let own = |other: &Statement| {
                !std::ptr::eq(other, statement)
                    && meant::row(block, other.word.text()).is_some_and(|own| own.word == word.word)
            };
            many || !statements(items).any(own)
        };
        let word = meant::row(block, text).filter(is_free);
        self.sink.push(if word.is_some() { found.meant() } else { found });
        word
    }

    fn statement(
        &mut self,
        block: &'static Block,
        word: &'static Row,
        statement: &'a Statement,
    ) -> Option<Entry> {
        let values = match self.arguments(block, word, statement) {
            Ok(values) => values,
            Err(fault) => {
                self.sink.push(unit_in_words(statement, self.unit).unwrap_or(*fault));
                return None;
            }
        };
        let body = self.body(block, word, statement)?;
        Some(Entry::new(word, statement.word.span, statement.head(), values, body))
    }

    fn body(
        &mut self,
        home: &'static Block,
        word: &'static Row,
        statement: &'a Statement,
    ) -> Option<Option<Entries>> {
        let head = statement.head();
        let example = || example::of(home, word, self.unit);
        match (word.body, &statement.block) {
            (Body::None, None) => Some(None),
            (Body::May(block), None) => {
                self.bare(block(), (word, statement));
                Some(None)
            }
            (Body::None, Some(block)) => {
                self.sink.push(
                    Diagnostic::error(
                        "block-unexpected",
                        format!("`{}` takes no braces", word.word),
                        block.open,
                        "these braces have no meaning here",
                    )
                    .note(format!("write it like this: `{}`", example())),
                );
                None
            }
            (Body::Must(block), None) => {
                self.sink.push(
                    Diagnostic::error(
                        "block-missing",
                        format!("`{}` needs braces after it", word.word),
                        head,
                        format!("`{{ … }}` with {} is missing after this", block().title),
                    )
                    .note(format!("for example, `{}`", example())),
                );
                None
            }
            (Body::May(definition) | Body::Must(definition), Some(block)) => {
                self.around.push((word, statement));
                let body = self.block(definition(), &block.items, block.open, block.close);
                self.around.pop();
                Some(Some(body))
            }
        }
    }

    /// What braces would have to hold that a word may stand without, such as the side that
    /// a door is hung at. Behind a choice they are for some of its words only.
    fn bare(&mut self, block: &'static Block, (word, statement): (&'static Row, &'a Statement)) {
        let is_choice = word.takes.iter().any(|slot| matches!(slot.kind, Kind::Choice(_)));
        if !self.whole || is_choice {
            return;
        }
        let (head, others) = (statement.head(), std::mem::take(self.sink));
        let behind = Span { start: head.end, ..head };
        self.around.push((word, statement));
        self.complete(block, &[], &[], head, behind);
        self.around.pop();
        let found = std::mem::replace(self.sink, others);
        self.sink.extend(found.into_sorted().into_iter().map(|mut own| {
            for edit in own.fixes.iter_mut().flat_map(|fix| &mut fix.edits) {
                edit.text = format!(" {{ {} }}", edit.text.trim().trim_end_matches(';'));
            }
            own
        }));
    }

    /// A word as it stands here: its figure may usually be another beside some other word.
    fn as_here(&self, word: &Row) -> Row {
        let beside = word.usual_beside.filter(|(other, _)| {
            let around = self.around.last().and_then(|(_, own)| own.block.as_ref());
            let stands = |own: &Statement| own.word.text() == *other;
            around.is_some_and(|block| statements(&block.items).any(stands))
        });
        Row { usual: beside.map(|(_, range)| range).or(word.usual), ..*word }
    }

    /// The path of a statement: the names around it and its word, as an `accept` takes
    /// it.
    fn place(&self, word: &Row) -> String {
        let name = |(row, statement): &(&Row, &Statement)| {
            let first = statement.arguments.first().and_then(Argument::as_word);
            match (row.takes.first().map(|slot| slot.kind), first) {
                (Some(Kind::Define), Some(name)) => name.text.to_owned(),
                (Some(Kind::Choice(_)), Some(choice)) => format!("{}-{}", row.word, choice.text),
                _ => row.word.to_owned(),
            }
        };
        let names: Vec<String> = self.around.iter().map(name).collect();
        [names.join("."), word.word.to_owned()].join(".")
    }

    fn arguments(
        &mut self,
        block: &'static Block,
        word: &'static Row,
        statement: &Statement,
    ) -> Result<Vec<Option<Spanned<Value>>>, Fault> {
        let mut values = Vec::with_capacity(word.takes.len());
        let unit = self.unit;
        let example = || format!("for example, `{}`", example::of(block, word, unit));
        let mut pairs = Pairs::of(word, statement, self.unit);
        for Pair { slot, found } in pairs.by_ref() {
            values.push(match found {
                Found::Keyword(name) => Some(Spanned::new(Value::Path(name.clone()), name.span)),
                Found::Value(value, from) => {
                    let place = || self.place(word);
                    let (kind, is) = (slot.kind, &value.value);
                    let here = self.as_here(word);
                    let odd = figure::judge(block, &here, kind, is, from, self.unit, place);
                    let whole = (word, statement);
                    let odd = odd.map(|odd| elsewhere::offered(odd, whole, self.tree, self.unit));
                    match odd {
                        Some(fault) if fault.severity == Severity::Error => {
                            return Err(Box::new(fault));
                        }
                        Some(odd) => self.sink.push(odd),
                        None => {}
                    }
                    let place = || self.place(word);
                    let turned = figure::backwards(block, word, is, from, self.unit, place);
                    if let Some(turned) = turned {
                        self.sink.push(turned);
                    }
                    Some(value)
                }
                Found::Nothing if slot.optional => None,
                Found::Nothing => {
                    let head = statement.head();
                    let title = format!("`{}` needs {}", word.word, slot.kind.describe());
                    let label = "a value is missing after this";
                    let found = Diagnostic::error("value-missing", title, head, label);
                    let names = self.known.for_kind(slot.kind);
                    if names.is_empty() {
                        return Err(Box::new(found.note(example())));
                    }
                    let behind = Span { start: head.end, ..head };
                    let mut found = listed(found, names);
                    found.fixes = offered(names).map(|name| named(word, name, behind)).collect();
                    return Err(Box::new(found));
                }
                Found::Wrong(fault, _) => return Err(Box::new(fault.note(example()))),
            });
        }
        let rest = pairs.rest();
        match rest {
            [] => Ok(values),
            [first, ..] => {
                let last = rest.last().unwrap_or(first);
                let whole = first.span().to(last.span());
                let mut fault = extra(block, word, first, whole, self.unit);
                fault.fixes.extend(feet::with_inches(statement, rest));
                Err(fault)
            }
        }
    }
}

fn extra(block: &Block, word: &Row, first: &Argument, span: Span, unit: Unit) -> Fault {
    // Two statements on one line, the `;` between them forgotten.
    if let Some(next) = first.as_word().and_then(|next| block.word(next.text)) {
        return Box::new(
            Diagnostic::error(
                "value-extra",
                format!("`{}` is a statement of its own", next.word),
                span,
                format!("`;` is missing before `{}`", next.word),
            )
            .fix(Fix::new(
                Grade::Sure,
                "put `;` between the two statements",
                first.span(),
                format!("; {}", next.word),
            )),
        );
    }
    let title = if word.takes.is_empty() {
        format!("`{}` takes no value", word.word)
    } else {
        format!("`{}` takes no more values than it has", word.word)
    };
    let fault = Diagnostic::error("value-extra", title, span, "this does not belong here")
        .note(format!("write it like this: `{}`", example::of(block, word, unit)));
    let minus = matches!(first, Argument::Expr(Expr { kind: ExprKind::Negative(_), .. }));
    Box::new(match minus {
        true => {
            fault.note("a minus between two sizes needs a space on both sides, as in `opening - 1`")
        }
        false => fault,
    })
}
