//! Another name for a thing, everywhere at once, with nothing else changed.

use std::collections::BTreeMap;

use crate::diagnostics::{self, Edit, Fix, Grade};
use crate::measure::Span;
use crate::model::MemoryFiles;
use crate::parts::{self, Meant, PartId, Parts};
use crate::pipeline::{self, Compilation};
use crate::vocabulary;

use super::gather::{self, Asked, Use};
use super::meaning::{NameId, NameKind};
use super::names::{Names, text};
use super::part_names::PartNames;

/// Why a thing can't be called so.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refused {
    /// It is no name as the language writes one.
    NoName,
    /// Another thing is called so, here.
    Taken(Span),
    /// The piece would not be the same any more.
    Changes,
}

/// Gives a thing another name wherever it is meant, also in the names of parts
/// that follow from it. A sound piece stays as it is, part by part.
///
/// # Errors
/// Why it can't be called so.
pub fn rename(
    compiled: &Compilation,
    names: &Names,
    id: NameId,
    new: &str,
) -> Result<Fix, Refused> {
    let named = names.get(id).ok_or(Refused::NoName)?;
    let written = match named.kind {
        NameKind::KeepOut if !new.is_empty() && !new.contains(['"', '\\', '\n', '\r']) => {
            format!("\"{new}\"")
        }
        kind if kind != NameKind::KeepOut && is_word(new) => new.to_owned(),
        _ => return Err(Refused::NoName),
    };
    let outer = named.path.rsplit_once('.').filter(|_| named.kind != NameKind::KeepOut);
    let path = outer.map_or(new.to_owned(), |(outer, _)| format!("{outer}.{new}"));
    let alike = |kind: NameKind| kind == named.kind || (kind.has_sizes() && named.kind.has_sizes());
    let taken =
        names.all().find(|(own, other)| *own != id && alike(other.kind) && other.path == path);
    if let Some((_, other)) = taken {
        return Err(Refused::Taken(other.definition));
    }
    let mut edits: BTreeMap<Span, String> =
        names.mentions(id).map(|mention| (mention.span, written.clone())).collect();
    if compiled.is_sound() && !is_plain(compiled, names, named.kind, new) {
        follow(compiled, names, &mut edits).ok_or(Refused::Changes)?;
    }
    Ok(fix(&edits, new))
}

/// True where the names alone say that the piece stays as it is: no statement names a part,
/// and the new name is like none that anything has, nor a word of the language, which may
/// mean something else in its place.
fn is_plain(compiled: &Compilation, names: &Names, kind: NameKind, new: &str) -> bool {
    // A wood of the spec's own may be called as one of the table.
    if names.name_parts() || matches!(kind, NameKind::Species | NameKind::KeepOut) {
        return false;
    }
    let behind = |long: &str, short: &str| {
        long.strip_prefix(short).is_some_and(|rest| rest.is_empty() || rest.starts_with('-'))
    };
    let is_like = |word: &str| behind(word, new) || behind(new, word);
    let parts = compiled.parts.iter().flat_map(|parts| &parts.all).map(|part| &part.path);
    let mut known = names.all().map(|(_, named)| &named.path).chain(parts);
    !known.any(|path| path.split('.').any(is_like)) && !vocabulary::is_known(new)
}

fn fix(edits: &BTreeMap<Span, String>, new: &str) -> Fix {
    let edits = edits.iter().map(|(span, text)| Edit { span: *span, text: text.clone() });
    Fix { title: format!("call it {new}"), grade: Grade::Choice, edits: edits.collect() }
}

/// A word as the grammar has it: letters and digits, hyphens between them.
fn is_word(text: &str) -> bool {
    let ends = text.ends_with('-') || text.contains("--");
    text.starts_with(|c: char| c.is_ascii_alphabetic())
        && !ends
        && text.chars().all(|c| c.is_ascii_alphanumeric() || c == '-')
}

/// Lets the names of parts in `accept` and `cut` follow, as the parts are called
/// after these edits; `None` where the piece would not be the same.
fn follow(compiled: &Compilation, names: &Names, edits: &mut BTreeMap<Span, String>) -> Option<()> {
    let old = compiled.parts.as_ref()?;
    let marked = match names.name_parts() {
        true => follow_parts(compiled, old, edits)?,
        false => Vec::new(),
    };
    let mut after = edited(compiled, edits)?;
    let mark = |after: &Compilation, id| Some(after.parts.as_ref()?.get(id)?.mark.clone());
    for (whole, id) in &marked {
        let now = mark(&after, *id)?;
        if !now.eq_ignore_ascii_case(compiled.sources.text(*whole)) {
            edits.insert(*whole, now);
        }
    }
    if !marked.is_empty() {
        after = edited(compiled, edits)?;
    }
    let slugs = |compiled: &Compilation| -> Vec<&'static str> {
        let mut slugs: Vec<_> = compiled.diagnostics.iter().map(|found| found.slug).collect();
        slugs.sort_unstable();
        slugs
    };
    let same = after.is_sound()
        && slugs(&after) == slugs(compiled)
        && is_alike(old, after.parts.as_ref()?);
    same.then_some(())
}

/// Lets the names of parts follow that stand for themselves; gives those that are written as
/// marks, with their parts.
fn follow_parts(
    compiled: &Compilation,
    old: &Parts,
    edits: &mut BTreeMap<Span, String>,
) -> Option<Vec<(Span, PartId)>> {
    let mut marked = Vec::new();
    // A part that is cut may not be found by its name before that follows.
    let built = parts::build(edited(compiled, edits)?.piece.as_ref()?);
    let known = PartNames::of(old);
    for Use { asked, words } in gather::gather(compiled).used {
        let Asked::Place { by_mark } = asked else { continue };
        let name = text(&words);
        let Some(id) = known.meant(&name, by_mark) else { continue };
        let whole = words.first()?.1.to(words.last()?.1);
        let path = &old.get(id)?.path;
        if !parts::suits(&name, path) {
            marked.push((whole, id));
            continue;
        }
        let now = called(&built, id, words.len())?;
        edits.retain(|span, _| *span < words[0].1 || *span > words[words.len() - 1].1);
        if now != name {
            edits.insert(whole, now);
        }
    }
    Some(marked)
}

/// What a part is called, in so many words, or in full where these mean others
/// too.
fn called(parts: &Parts, id: PartId, words: usize) -> Option<String> {
    let path = &parts.get(id)?.path;
    let dot = path.rmatch_indices('.').nth(words.checked_sub(1)?);
    let end = dot.and_then(|(dot, _)| path.get(dot + 1..)).unwrap_or(path);
    let is_enough = matches!(parts::meant(parts, end), Meant::One(found) if found == id);
    Some(if is_enough { end.to_owned() } else { path.clone() })
}

/// The spec as it is with these edits.
fn edited(compiled: &Compilation, edits: &BTreeMap<Span, String>) -> Option<Compilation> {
    let mended = diagnostics::mend(&compiled.sources, &[&fix(edits, "")]);
    let (_, main) = compiled.sources.iter().next()?;
    let mut files = MemoryFiles::default();
    for (file, source) in compiled.sources.iter() {
        files =
            files.with(&source.name, mended.texts.get(&file).unwrap_or(&source.text.to_string()));
    }
    pipeline::check(&files, &main.name).ok()
}

/// True where part by part the sizes, stock and place are the same.
fn is_alike(old: &Parts, new: &Parts) -> bool {
    let all = || old.all.iter().zip(&new.all);
    old.all.len() == new.all.len()
        && all().all(|(old, new)| {
            old.sizes() == new.sizes() && old.placement == new.placement && old.stock == new.stock
        })
}

#[cfg(test)]
mod tests {
    use super::is_word;

    #[test]
    fn a_name_is_written_as_the_grammar_has_it() {
        for word in ["a", "left-hand", "soft-15", "B2"] {
            assert!(is_word(word), "{word}");
        }
        for word in ["", "-a", "a-", "a--b", "1a", "a.b", "a b", "\u{e9}t\u{e9}", "a_b"] {
            assert!(!is_word(word), "{word}");
        }
    }
}
