//! `casewright format`

use std::io::Read as _;
use std::path::Path;
use std::sync::Arc;

use crate::diagnostics::{Diagnostic, Sources, render};
use crate::model::{ReadError, SourceFiles as _};
use crate::syntax::LONGEST_FILE;
use crate::vocabulary;

use super::args::Formatting;
use super::disk::{self, Disk};
use super::exit::Exit;
use super::paths;
use super::save::Staged;
use super::terminal::{Terminal, complain};

/// What stands for standard input among the specs.
const STANDARD_INPUT: &str = "-";

pub(super) fn run(formatting: &Formatting, terminal: &Terminal) -> Exit {
    formatting.specs.iter().fold(Exit::Sound, |exit, spec| {
        let text = if spec.as_os_str() == STANDARD_INPUT {
            standard_input()
        } else {
            Disk::for_spec(spec).read(None, &spec.to_string_lossy()).map(|source| source.text)
        };
        exit.or(match text {
            Ok(text) => one(spec, &text, formatting.check, terminal),
            Err(error) => {
                complain(&disk::sentence(spec, &error));
                Exit::Misused
            }
        })
    })
}

fn one(spec: &Path, text: &Arc<str>, check: bool, terminal: &Terminal) -> Exit {
    let name = paths::slashed(spec);
    let mut sources = Sources::new();
    let file = sources.add(name.clone(), Arc::clone(text));
    let formatted = match vocabulary::format(file, text) {
        Ok(formatted) => formatted,
        Err(found) => {
            refuse(&name, &sources, &found, terminal);
            return Exit::Unsound;
        }
    };
    let changes = formatted != **text;
    if check {
        if changes {
            terminal.print(&format!("{}\n", render::plain(&name)));
            return Exit::Unsound;
        }
        return Exit::Sound;
    }
    if spec.as_os_str() == STANDARD_INPUT {
        terminal.print(&formatted);
        return Exit::Sound;
    }
    if !changes {
        return Exit::Sound;
    }
    let shown = render::plain(&name);
    match Staged::new(spec, text, &formatted).and_then(Staged::commit) {
        Ok(()) => {
            terminal.tell(&format!("formatted {shown}\n"));
            Exit::Sound
        }
        Err(error) => {
            complain(&format!("{shown} can't be written, and it was not changed: {error}"));
            Exit::Misused
        }
    }
}

fn refuse(name: &str, sources: &Sources, found: &[Diagnostic], terminal: &Terminal) {
    terminal.tell(&render::terminal(sources, found, terminal.look));
    terminal.tell(&format!("{}; the file was not changed\n", render::summary(name, found)));
}

fn standard_input() -> Result<Arc<str>, ReadError> {
    let mut bytes = Vec::new();
    std::io::stdin()
        .take(LONGEST_FILE as u64 + 1)
        .read_to_end(&mut bytes)
        .map_err(|error| ReadError::Other(error.to_string()))?;
    if bytes.len() > LONGEST_FILE {
        return Err(ReadError::TooLarge);
    }
    String::from_utf8(bytes).map(Arc::from).map_err(|_| ReadError::NotText)
}
