//! `casewright record`

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

use crate::diagnostics::{Severity, render};
use crate::measure::{Date, FileId, Span, Unit};
use crate::model::{Piece, ReadError, SourceFiles, SourceText};
use crate::parts::{self, Meant, Part, PartId, Parts};
use crate::pipeline::{self, Compilation};
use crate::plans::ledger::{Ledger, State};
use crate::syntax::{self, Argument, Block, Item};
use crate::vocabulary::{self, words::file};

use super::ahead::{self, today};
use super::args::Record;
use super::check;
use super::disk::Disk;
use super::exit::Exit;
use super::paths;
use super::save::Staged;
use super::terminal::{Terminal, complain};

mod statement;

use statement::{OwnSize, SIDES, Stage, statement};

pub(super) fn run(record: &Record, terminal: &Terminal) -> Exit {
    let Some(date) = record.date.or_else(today) else {
        complain("this machine does not know the day; give it with --date 2026-03-14");
        return Exit::Misused;
    };
    if let Some(today) = today().filter(|today| date > *today) {
        complain(&format!("{date} is still to come; today is {today}"));
        return Exit::Misused;
    }
    if record.size.is_some() && record.parts.len() > 1 {
        complain("--size is for one part; record the other parts separately");
        return Exit::Misused;
    }
    let Some(compiled) = check::compile(&record.spec) else { return Exit::Misused };
    // A cut part that no longer fits may be why another is recorded.
    let wrong = |d: &&crate::diagnostics::Diagnostic| {
        d.severity == Severity::Error && d.slug != "cut-misfit"
    };
    let (Some(piece), Some(parts), None) =
        (&compiled.piece, &compiled.parts, compiled.diagnostics.iter().find(wrong))
    else {
        check::report(&record.spec, &compiled, terminal);
        terminal.tell("nothing was recorded\n");
        return Exit::Unsound;
    };
    match statements(record, piece, parts) {
        Ok(statements) => {
            let exit = write(record, date, &compiled, parts, &statements, terminal);
            if exit != Exit::Misused {
                terminal.tell(&larger(record, piece, &statements));
            }
            exit
        }
        Err(why) => {
            complain(&why);
            Exit::Misused
        }
    }
}

/// Each part with what is written of it.
fn statements<'a>(
    record: &Record,
    piece: &Piece,
    parts: &'a Parts,
) -> Result<Vec<(&'a Part, String)>, String> {
    let own = match &record.size {
        Some(size) => sizes(size, piece.tape().unit)?,
        None => Vec::new(),
    };
    let stage = match (record.spoiled, record.sawn) {
        (true, _) => Stage::Spoiled,
        (_, true) => Stage::Sawn,
        _ => Stage::Made,
    };
    let mut all: Vec<(&Part, String)> = Vec::new();
    for name in &record.parts {
        let part = find(parts, name)?;
        if all.iter().any(|(known, _)| known.path == part.path) {
            continue;
        }
        all.push((part, statement(piece, parts, part, &own, stage)));
    }
    Ok(all)
}

/// A line for each size that is larger than the part is sawn from the rough:
/// more than a trim, so perhaps a slip.
fn larger(record: &Record, piece: &Piece, statements: &[(&Part, String)]) -> String {
    let tape = piece.tape();
    let own = record.size.as_ref().and_then(|size| sizes(size, tape.unit).ok());
    let (Some(own), [(part, _)]) = (own, statements) else { return String::new() };
    let [length, width] = part.as_made().map(|size| size.length);
    let listed = [
        (length, part.rough.length.max(length + piece.shop.allow_length)),
        (width, part.rough.width.max(width + piece.shop.allow_width)),
    ];
    let mut text = String::new();
    for size in own {
        let Some((_, (listed, rough))) =
            ["long", "wide"].into_iter().zip(listed).find(|(side, _)| *side == size.word)
        else {
            continue;
        };
        if size.length > rough {
            let (mark, was, is) = (&part.mark, &size.figure, tape.figure(listed));
            text.push_str(&format!(
                "{mark}: recorded {was} {}, but the cut list has {is}; check the figure\n",
                size.word
            ));
        }
    }
    text
}

fn find<'a>(parts: &'a Parts, name: &str) -> Result<&'a Part, String> {
    let shown = render::plain(name);
    match parts::meant(parts, name) {
        Meant::One(id) => parts.get(id).ok_or_else(|| format!("no part is called `{shown}`")),
        Meant::Many(ids) => {
            let known = ids.iter().filter_map(|id| parts.get(*id));
            let names: Vec<&str> = known.map(|part| part.path.as_str()).collect();
            Err(format!("`{shown}` is the name of several parts: {}", names.join(", ")))
        }
        Meant::None => {
            // The name of an opening, whose parts have names of their own.
            let under = |part: &&Part| part.path.split('.').any(|word| word == name);
            let own: Vec<&str> =
                parts.all.iter().filter(under).map(|part| part.mark.as_str()).collect();
            if !own.is_empty() {
                return Err(format!("`{shown}` is made of several parts: {}", own.join(", ")));
            }
            let near = parts::near(parts, name);
            let hint = near.map_or(String::new(), |near| format!("; did you mean `{near}`?"));
            Err(format!("no part is called `{shown}`{hint}"))
        }
    }
}

/// The sizes of `--size`, each with its figure as it was typed.
fn sizes(text: &str, unit: Unit) -> Result<Vec<OwnSize>, String> {
    let shown = render::plain(text);
    let wrong =
        || format!("`{shown}` is not a size; write it like `wide 16-9/32` or `long 30; wide 4`");
    let (tree, found) = vocabulary::parse(FileId::default(), text);
    if !found.is_empty() {
        return Err(wrong());
    }
    let mut sizes = Vec::new();
    for item in &tree.items {
        let Item::Statement(statement) = item else { return Err(wrong()) };
        let word = SIDES.into_iter().find(|word| statement.word.text() == *word);
        let (Some(word), [Argument::Expr(expr)], None) =
            (word, statement.arguments.as_slice(), &statement.block)
        else {
            return Err(wrong());
        };
        let length = vocabulary::length(expr, unit).map_err(|_| wrong())?;
        let figure = text.get(expr.span.range()).unwrap_or_default().trim();
        if !length.is_positive() || sizes.iter().any(|known: &OwnSize| known.word == word) {
            return Err(wrong());
        }
        sizes.push(OwnSize { word, figure: figure.to_owned(), length });
    }
    if sizes.is_empty() { Err(wrong()) } else { Ok(sizes) }
}

/// Changes the spec, once the new text has been read and says what it should.
fn write(
    record: &Record,
    date: Date,
    compiled: &Compilation,
    parts: &Parts,
    statements: &[(&Part, String)],
    terminal: &Terminal,
) -> Exit {
    let Some(source) = compiled.sources.get(FileId::default()) else { return Exit::Misused };
    let old = &source.text;
    let Some(text) = added(old, parts, date, statements) else {
        complain("the spec has no place for the record, so nothing was recorded");
        return Exit::Misused;
    };
    let after = match recheck(&record.spec, &text) {
        Some(after) if holds(&after, date, statements) => after,
        _ => {
            complain(
                "the spec could no longer be read with the record in it, so nothing was recorded",
            );
            return Exit::Misused;
        }
    };
    let shown = paths::display(&record.spec);
    let saved = Staged::new(&record.spec, old, &text).and_then(Staged::commit);
    if let Err(error) = saved {
        complain(&format!("{shown} can't be written, and nothing was recorded: {error}"));
        return Exit::Misused;
    }
    let marks: Vec<&str> = statements.iter().map(|(part, _)| part.mark.as_str()).collect();
    let word = if record.spoiled { "spoiled" } else { "cut" };
    terminal.tell(&format!("{shown}: {} {word} on {date}\n", marks.join(" ")));
    for (mark, later) in overruled(&after, date, statements) {
        terminal.tell(&format!("{mark}: the later record of {later} takes precedence\n"));
    }
    terminal.tell(&ahead::told(&after));
    let exit = check::judge(&after, None);
    if exit != Exit::Sound {
        check::report(&record.spec, &after, terminal);
    }
    exit
}

/// The text with what is said of parts on one day: in the place of what that
/// day says of one already, or behind it.
fn added(text: &str, parts: &Parts, date: Date, new: &[(&Part, String)]) -> Option<String> {
    let (tree, _) = vocabulary::parse(FileId::default(), text);
    let of_day: Vec<&Block> = tree
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Statement(statement) if statement.word.is(file::CUT.spelling()) => Some(statement),
            _ => None,
        })
        .filter(|cut| {
            matches!(cut.arguments.first(), Some(Argument::Date { value, .. }) if *value == date)
        })
        .filter_map(|cut| cut.block.as_ref())
        .collect();
    // What is said last of a part counts.
    let mut said: BTreeMap<PartId, Span> = BTreeMap::new();
    for item in of_day.iter().flat_map(|block| &block.items) {
        if let Item::Statement(known) = item
            && let Meant::One(id) = parts::meant(parts, known.word.text())
        {
            said.insert(id, known.span);
        }
    }
    let mut edits = Vec::new();
    let mut unsaid = Vec::new();
    for (part, statement) in new {
        match parts.named(&part.path).and_then(|(id, _)| said.get(&id)) {
            Some(span) => edits.push(syntax::rewrite(text, span.range(), statement)?),
            None => unsaid.push(statement.as_str()),
        }
    }
    if !unsaid.is_empty() {
        edits.push(match of_day.last() {
            Some(block) => syntax::append(text, block, &unsaid)?,
            None => syntax::append_block(text, &format!("cut {date}"), &unsaid),
        });
    }
    syntax::edited(text, edits)
}

/// The spec as it would be.
fn recheck(spec: &Path, text: &str) -> Option<Compilation> {
    let files = Edited { disk: Disk::for_spec(spec), text: text.into() };
    pipeline::check(&files, &spec.to_string_lossy()).ok()
}

/// True where the new text says of every part what it was to say.
fn holds(after: &Compilation, date: Date, statements: &[(&Part, String)]) -> bool {
    let Some(piece) = &after.piece else { return false };
    let said =
        |part: &Part| piece.cuts.iter().any(|cut| cut.date == date && cut.name.value == part.path);
    statements.iter().all(|(part, _)| said(part))
}

/// Parts of which something is said on a later day, which counts instead.
fn overruled<'a>(
    after: &'a Compilation,
    date: Date,
    statements: &[(&Part, String)],
) -> Vec<(&'a str, Date)> {
    let (Some(piece), Some(parts)) = (&after.piece, &after.parts) else { return Vec::new() };
    let ledger = Ledger::of(piece, parts);
    let later = |(part, _): &(&Part, String)| {
        let (id, part) = parts.named(&part.path)?;
        match ledger.state(id) {
            State::Cut(cut) | State::Spoiled(cut) if cut.date > date => {
                Some((part.mark.as_str(), cut.date))
            }
            _ => None,
        }
    };
    statements.iter().filter_map(later).collect()
}

/// The files of a spec, the spec itself with another text.
struct Edited {
    disk: Disk,
    text: Arc<str>,
}

impl SourceFiles for Edited {
    fn read(&self, from: Option<&str>, path: &str) -> Result<SourceText, ReadError> {
        let source = self.disk.read(from, path)?;
        Ok(match from {
            None => SourceText { text: Arc::clone(&self.text), ..source },
            Some(_) => source,
        })
    }
}
