//! `casewright why`

use std::fmt::Write as _;

use crate::diagnostics::{Sources, render::plain};
use crate::editor::{self, Sum, TermFrom, Thing};
use crate::vocabulary::Origin;

use super::args::Why;
use super::check;
use super::exit::Exit;
use super::terminal::{Terminal, complain_of_name};

pub(super) fn run(why: &Why, terminal: &Terminal) -> Exit {
    let Some(compiled) = check::compile(&why.spec) else { return Exit::Misused };
    let exit = check::judge(&compiled, None);
    if exit != Exit::Sound {
        check::report(&why.spec, &compiled, terminal);
    }
    if compiled.piece.is_none() {
        return exit;
    }
    let found = editor::why(&compiled, &why.name);
    if found.is_empty() {
        let known = editor::known_names(&compiled);
        complain_of_name("no part or opening", &why.name, known.iter().map(String::as_str));
        return Exit::Misused;
    }
    let mut text = String::new();
    for why in found {
        let _ = match why.thing {
            Thing::Case => writeln!(text, "{}", why.name),
            Thing::Opening => writeln!(text, "{}, opening", why.name),
            Thing::Part { mark } => writeln!(text, "{}, mark {mark}", why.name),
        };
        for sum in &why.sizes {
            print(&mut text, &compiled.sources, sum);
        }
        text.push('\n');
    }
    terminal.print(&text);
    exit
}

fn print(text: &mut String, sources: &Sources, sum: &Sum) {
    let rounded = sum.printed.as_ref().map(|printed| format!("  (printed {printed})"));
    let _ = writeln!(text, "  {:<10}{}{}", sum.word, sum.exact, rounded.unwrap_or_default());
    for term in &sum.terms {
        let TermFrom::Fact { name, origin } = &term.from else {
            let from = "from the geometry or the hardware's own figures";
            let _ = writeln!(text, "    {:<16}{from}", term.text);
            continue;
        };
        let from = match *origin {
            Origin::Written(span) | Origin::Measured(span) => {
                let file = sources.get(span.file).map_or("", |source| source.name.as_str());
                let line = sources.position(span).line;
                format!("{}:{line}  {}", plain(file), plain(sources.text(span)))
            }
            Origin::Default { block, word } => format!("default of `{word}` in `{block}`"),
        };
        let _ = writeln!(text, "    {:<16}{name:<24}{from}", term.text);
    }
}
