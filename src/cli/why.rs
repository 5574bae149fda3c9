//! `casewright why`

use crate::diagnostics::listed;
use crate::diagnostics::render::plain;
use crate::editor::{self, Subject, Unknown};
use std::fmt::Write as _;

use super::args::Why;
use super::check;
use super::exit::Exit;
use super::terminal::{Terminal, complain, complain_of_name};

pub(super) fn run(why: &Why, terminal: &Terminal) -> Exit {
    let Some(compiled) = check::compile(&why.spec) else { return Exit::Misused };
    let exit = check::judge(&compiled, None);
    if exit != Exit::Sound {
        check::report(&why.spec, &compiled, terminal);
    }
    if compiled.piece.is_none() {
        return exit;
    }
    // Quoted as one or not, `set-up 3` is two words.
    let words: Vec<&str> = why.words.iter().flat_map(|own| own.split_whitespace()).collect();
    let answer = match editor::answer(&compiled, &words) {
        Ok(answer) => answer,
        Err(unknown) => {
            refuse(&unknown);
            return exit.or(Exit::Unsound);
        }
    };
    let mut text = String::new();
    for why in &answer.whys {
        text.push_str(&editor::told(&compiled.sources, why));
        text.push('\n');
    }
    if answer.subjects.len() > 1 {
        let asked = plain(&why.words.join(" "));
        let _ = writeln!(
            text,
            "Ask for one of these alone, as in `{asked} {}`: {}.",
            first(&answer.subjects),
            all(&answer.subjects)
        );
    }
    terminal.print(&text);
    exit
}

/// A subject to show how it is asked for.
fn first(subjects: &[Subject]) -> &'static str {
    subjects.last().map_or("", |subject| subject.word())
}

fn all(subjects: &[Subject]) -> String {
    listed(&subjects.iter().map(|subject| subject.word()).collect::<Vec<_>>())
}

fn refuse(unknown: &Unknown) {
    match unknown {
        Unknown::Name { asked, known } => {
            let known = known.iter().map(String::as_str);
            complain_of_name("no part, opening, or figure", asked, known);
        }
        Unknown::Subject { name, subject, known } => complain(&format!(
            "nothing is printed of the {} of `{}`; it can be asked for its {}",
            subject.word(),
            plain(name),
            all(known)
        )),
    }
}
