//! Every name of a spec: where it is given, and where it is used.

use std::cell::OnceCell;
use std::collections::BTreeMap;

use crate::measure::{FileId, Span};
use crate::pipeline::Compilation;

use super::gather::{self, Asked, Use};
use super::meaning::{Meaning, NameId, NameKind};
use super::part_names::PartNames;
use super::paths::Paths;

/// A name that a statement gives.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Named {
    /// What it is the name of.
    pub kind: NameKind,
    /// The whole name: `console.bank.upper`.
    pub path: String,
    /// Its names in the cases that are like its own.
    pub also: Vec<String>,
    /// Where it is given; of a keep-out with its quotes.
    pub definition: Span,
    /// The whole statement.
    pub statement: Span,
    /// Its mentions, into those of the spec.
    mentions: Vec<usize>,
}

impl Named {
    /// The last part of it, as it is written where it is given.
    #[must_use]
    pub fn name(&self) -> &str {
        match self.kind {
            // Its name may have dots of its own.
            NameKind::KeepOut => &self.path,
            _ => self.path.rsplit('.').next().unwrap_or(&self.path),
        }
    }
}

/// A place at which something is meant by its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Mention {
    /// One word; of a keep-out with its quotes.
    pub span: Span,
    /// What it means.
    pub meaning: Meaning,
    /// True where the name is given here.
    pub defines: bool,
}

/// Every name of a spec.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Names {
    all: Vec<Named>,
    /// In the order of the texts.
    mentions: Vec<Mention>,
    /// A statement names a part: of a record, a reading, or what is accepted.
    name_parts: bool,
}

impl Names {
    /// Reads the names of a spec, in one walk over its trees.
    #[must_use]
    pub fn of(compiled: &Compilation) -> Self {
        let gathered = gather::gather(compiled);
        let mut names = Self::default();
        let parts: OnceCell<PartNames<'_>> = OnceCell::new();
        let mut by_name: BTreeMap<(NameKind, String), NameId> = BTreeMap::new();
        let mut paths = Paths::default();
        for given in gathered.given {
            let id = NameId(names.all.len());
            let mention =
                Mention { span: given.definition, meaning: Meaning::Name(id), defines: true };
            names.mentions.push(mention);
            if given.kind.has_sizes() {
                paths.add(&given.path, given.kind, given.is_list, id);
            } else {
                by_name.entry((given.kind, given.path.clone())).or_insert(id);
            }
            names.all.push(Named {
                kind: given.kind,
                path: given.path,
                also: Vec::new(),
                definition: given.definition,
                statement: given.statement,
                mentions: Vec::new(),
            });
        }
        for (case, other) in written_out(&gathered.like) {
            for (index, named) in names.all.iter_mut().enumerate() {
                let below = named.path.strip_prefix(other).filter(|_| named.kind.has_sizes());
                let Some(rest) = below.filter(|rest| rest.starts_with('.')) else { continue };
                let path = format!("{case}{rest}");
                let is_list = paths.is_list(&named.path);
                paths.add(&path, named.kind, is_list, NameId(index));
                named.also.push(path);
            }
        }
        for Use { asked, words } in gathered.used {
            let mut mention = |span, meaning| {
                names.mentions.push(Mention { span, meaning, defines: false });
            };
            match asked {
                Asked::Thing(kind) => {
                    let [(name, span)] = words.as_slice() else { continue };
                    if let Some(id) = by_name.get(&(kind, name.clone())) {
                        mention(*span, Meaning::Name(*id));
                    }
                }
                Asked::Size(case) => {
                    // What stands behind the last dot says which of its sizes.
                    let Some((_, named)) = words.split_last() else { continue };
                    let path = paths.in_case(&case, &text(named));
                    paths.mentions(path.as_deref(), named, &mut mention);
                }
                Asked::Beside(case) => {
                    let path = paths.in_case(&case, &text(&words));
                    paths.mentions(path.as_deref(), &words, &mut mention);
                }
                Asked::Like(run) => {
                    let name = text(&words);
                    let path = match run {
                        Some(run) => paths.in_case(&run, &name),
                        None => paths.footing(&name),
                    };
                    paths.mentions(path.as_deref(), &words, &mut mention);
                }
                Asked::Footing => {
                    let path = paths.footing(&text(&words));
                    paths.mentions(path.as_deref(), &words, &mut mention);
                }
                Asked::Opening => {
                    let path = paths.leaf(&text(&words));
                    paths.mentions(path.as_deref(), &words, &mut mention);
                }
                Asked::Place { by_mark } => {
                    names.name_parts = true;
                    let part = compiled.parts.as_ref().and_then(|all| {
                        let known = parts.get_or_init(|| PartNames::of(all));
                        let id = known.meant(&text(&words), by_mark)?;
                        Some((id, all.get(id)?))
                    });
                    let path = match part {
                        Some((_, part)) => Some(part.path.clone()),
                        None => paths.any(&text(&words)),
                    };
                    let known = paths.mentions(path.as_deref(), &words, &mut mention);
                    // The last word is the part's own, or its mark.
                    if let (Some((id, part)), Some((_, span)), false) = (part, words.last(), known)
                    {
                        mention(*span, Meaning::Part { id, statement: part.span });
                    }
                }
            }
        }
        names.mentions.sort_by_key(|mention| mention.span);
        for (place, mention) in names.mentions.iter().enumerate() {
            if let Meaning::Name(id) = mention.meaning
                && let Some(named) = names.all.get_mut(id.0)
            {
                named.mentions.push(place);
            }
        }
        names
    }

    /// True where a statement names a part: of a record, a reading, or what is accepted.
    pub(super) fn name_parts(&self) -> bool {
        self.name_parts
    }

    /// Every name, in the order in which they are given.
    pub fn all(&self) -> impl Iterator<Item = (NameId, &Named)> {
        self.all.iter().enumerate().map(|(index, named)| (NameId(index), named))
    }

    /// A name; `None` for an id that other names gave out.
    #[must_use]
    pub fn get(&self, id: NameId) -> Option<&Named> {
        self.all.get(id.0)
    }

    /// What is meant at a byte of a file; just behind a word counts as in it.
    #[must_use]
    pub fn at(&self, file: FileId, byte: u32) -> Option<Mention> {
        let before = |mention: &Mention| (mention.span.file, mention.span.start) <= (file, byte);
        let index = self.mentions.partition_point(before).checked_sub(1)?;
        let found = self.mentions.get(index)?;
        (found.span.file == file && byte <= found.span.end).then_some(*found)
    }

    /// Where what is meant is given.
    #[must_use]
    pub fn definition(&self, meaning: Meaning) -> Option<Span> {
        match meaning {
            Meaning::Name(id) => self.get(id).map(|named| named.definition),
            Meaning::Part { statement, .. } => Some(statement),
        }
    }

    /// Every place at which a name is meant, that where it is given included,
    /// in the order of the texts.
    pub fn mentions(&self, id: NameId) -> impl Iterator<Item = Mention> {
        let places = self.get(id).map_or(&[][..], |named| &named.mentions);
        places.iter().filter_map(|place| self.mentions.get(*place).copied())
    }
}

/// Each case that is like another, with the one in which its openings are written.
fn written_out(like: &[(String, String)]) -> Vec<(&str, &str)> {
    let next: BTreeMap<&str, &str> =
        like.iter().map(|(case, other)| (case.as_str(), other.as_str())).collect();
    let last = |case: &'_ str| {
        let (mut at, mut left) = (next.get(case).copied()?, next.len());
        while let Some(other) = next.get(at) {
            // Cases may be like each other in a ring.
            left = left.checked_sub(1)?;
            at = other;
        }
        Some(at)
    };
    next.keys().filter_map(|case| Some((*case, last(case)?))).collect()
}

/// The words joined by dots.
pub(super) fn text(words: &[(String, Span)]) -> String {
    let words: Vec<&str> = words.iter().map(|(word, _)| word.as_str()).collect();
    words.join(".")
}
