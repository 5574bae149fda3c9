//! `casewright mend`

mod overlay;
mod show;

use std::path::Path;

use crate::diagnostics::{self, Fix, Grade, NamedFix, render};
use crate::measure::{FileId, nearest};
use crate::pipeline::Compilation;
use crate::vocabulary;

use super::args::Mend;
use super::check;
use super::exit::Exit;
use super::paths;
use super::terminal::{Terminal, complain};
use overlay::Overlay;

/// How often what an edit brings to light is mended as well. A line tells of
/// one mistake at a time.
const ROUNDS: usize = 8;

pub(super) fn run(mend: &Mend, terminal: &Terminal) -> Exit {
    let mut texts = Overlay::for_spec(&mend.spec);
    let Some(compiled) = check::compile_from(&texts, &mend.spec) else { return Exit::Misused };
    let named = diagnostics::named(&compiled.sources, &compiled.diagnostics);
    if mend.list {
        return list(&mend.spec, &compiled, &named, terminal);
    }
    if mend.check {
        let sure: Vec<NamedFix<'_>> =
            named.into_iter().filter(|named| named.fix.grade == Grade::Sure).collect();
        terminal.print(&show::list(&compiled.sources, &sure, terminal.look));
        return if sure.is_empty() { Exit::Sound } else { Exit::Unsound };
    }
    let made = match &mend.take {
        Some(name) => match asked_for(name, &named) {
            Ok(fix) => make(&mut texts, &compiled, &[fix]),
            Err(reason) => {
                complain(&reason);
                return Exit::Misused;
            }
        },
        None => make_sure(&mut texts, &compiled, &mend.spec),
    };
    let made = match made {
        Ok(made) => made,
        Err(reason) => {
            check::report(&mend.spec, &compiled, terminal);
            complain(&format!("{reason}, so nothing was changed"));
            return Exit::Unsound;
        }
    };
    finish(mend, &texts, made, terminal)
}

/// Writes what has changed, shows it, and says what is left.
fn finish(mend: &Mend, texts: &Overlay, made: usize, terminal: &Terminal) -> Exit {
    if let Err(error) = texts.save() {
        complain(&error);
        return Exit::Misused;
    }
    let mut told = true;
    for (name, old, new) in texts.changed() {
        told = told && terminal.print(&show::changes(&name, old, new));
    }
    let Some(compiled) = check::compile_from(texts, &mend.spec) else { return Exit::Misused };
    let spec = paths::display(&mend.spec);
    terminal.tell(&match made {
        0 => format!("{spec} has no sure fix\n"),
        1 => "1 fix was made\n".to_owned(),
        many => format!("{many} fixes were made\n"),
    });
    check::report(&mend.spec, &compiled, terminal);
    if compiled.diagnostics.iter().any(|found| !found.fixes.is_empty()) {
        terminal.tell(&format!("for the names of the fixes, run: casewright mend {spec} --list\n"));
    }
    check::judge(&compiled, None)
}

fn list(spec: &Path, compiled: &Compilation, all: &[NamedFix<'_>], terminal: &Terminal) -> Exit {
    terminal.print(&show::list(&compiled.sources, all, terminal.look));
    let spec = paths::display(spec);
    let has = |grade| all.iter().any(|named| named.fix.grade == grade);
    if all.is_empty() {
        terminal.tell(&format!("{spec} has nothing to fix\n"));
    }
    for (grade, said) in [
        (Grade::Sure, format!("sure:   casewright mend {spec} makes all of these\n")),
        (
            Grade::Choice,
            format!("choice: casewright mend {spec} --take NAME makes the one you name\n"),
        ),
        (
            Grade::Sketch,
            "sketch: this one has a blank to fill; write it into the spec yourself\n".to_owned(),
        ),
    ] {
        if has(grade) {
            terminal.tell(&said);
        }
    }
    Exit::Sound
}

/// The fix of that name, or why it can't be made.
fn asked_for<'a>(name: &str, all: &[NamedFix<'a>]) -> Result<&'a Fix, String> {
    let shown = render::plain(name);
    // The number may be left out where it is the only one.
    let first = format!("{name}:1");
    let second = format!("{name}:2");
    let only = all.iter().all(|named| named.name != second);
    let found = all.iter().find(|named| named.name == name || (only && named.name == first));
    match found {
        Some(named) if named.fix.grade == Grade::Sketch => {
            Err(format!("`{shown}` has a blank to fill; write it into the spec yourself"))
        }
        Some(named) => Ok(named.fix),
        None => {
            let near = nearest(name, all.iter().map(|named| named.name.as_str()));
            let hint = near.map_or("; `--list` shows the names".to_owned(), |near| {
                format!("; did you mean `{}`?", render::plain(near))
            });
            Err(format!("no fix is called `{shown}`{hint}"))
        }
    }
}

/// Makes every sure fix, then those that the edits have brought to light.
fn make_sure(texts: &mut Overlay, first: &Compilation, spec: &Path) -> Result<usize, String> {
    let mut made = 0;
    let mut later = None;
    for _ in 0..ROUNDS {
        let compiled = later.as_ref().unwrap_or(first);
        // Several fixes of one finding are ways to the same end.
        let is_sure = |fix: &&Fix| fix.grade == Grade::Sure;
        let sure: Vec<&Fix> = compiled
            .diagnostics
            .iter()
            .filter_map(|found| found.fixes.iter().find(is_sure))
            .collect();
        match make(texts, compiled, &sure)? {
            0 => break,
            more => made += more,
        }
        later = check::compile_from(texts, spec);
        if later.is_none() {
            break;
        }
    }
    Ok(made)
}

/// Makes these fixes; gives how many, or why none.
fn make(texts: &mut Overlay, compiled: &Compilation, fixes: &[&Fix]) -> Result<usize, String> {
    let mended = diagnostics::mend(&compiled.sources, fixes);
    for (file, text) in &mended.texts {
        let Some(source) = compiled.sources.get(*file) else { continue };
        if let Some(fault) = spoilt(&source.text, text) {
            return Err(format!("{} could no longer be read: {fault}", source.name));
        }
    }
    for (file, text) in mended.texts {
        if let Some(source) = compiled.sources.get(file) {
            texts.put(&source.name, text);
        }
    }
    Ok(mended.made)
}

/// Why a text can be read no more that could be read before.
fn spoilt(old: &str, new: &str) -> Option<String> {
    let (had, before) = vocabulary::parse(FileId::default(), old);
    let (has, after) = vocabulary::parse(FileId::default(), new);
    // Where one mistake hid another, the second is no fault of the edit.
    let spoils = before.is_empty() || has.shapeless && !had.shapeless;
    after.first().filter(|_| spoils).map(|found| found.title.clone())
}
