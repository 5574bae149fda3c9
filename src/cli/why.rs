//! `casewright why`

use std::fmt::Write as _;

use crate::diagnostics::{Sources, render::plain};
use crate::measure::Exact;
use crate::model::{Axis, Piece, Size};
use crate::pipeline::Compilation;
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
    let Some(piece) = &compiled.piece else { return exit };
    let found = sizes(&compiled, piece, &why.name);
    if found.is_empty() {
        let known = names(&compiled, piece);
        complain_of_name("no part or opening", &why.name, known.iter().map(String::as_str));
        return Exit::Misused;
    }
    let mut text = String::new();
    for (name, parts) in found {
        let _ = writeln!(text, "{name}");
        for (word, size) in parts {
            explain(&mut text, &compiled.sources, piece, word, &size);
        }
        text.push('\n');
    }
    terminal.print(&text);
    exit
}

type Named = (String, Vec<(&'static str, Size)>);

/// Every opening, and every part, that a name may mean: its whole name, the
/// end of it, or the mark of a part.
fn sizes(compiled: &Compilation, piece: &Piece, name: &str) -> Vec<Named> {
    let dotted = format!(".{name}");
    let meant = |path: &str| path == name || path.ends_with(&dotted);
    let mut found = Vec::new();
    for case in &piece.cases {
        if case.name == name {
            let sizes = vec![
                ("wide", case.wide.clone()),
                ("deep", case.deep.clone()),
                ("high", case.high.clone()),
            ];
            found.push((case.name.clone(), sizes));
        }
        for opening in case.openings.iter().filter(|o| o.parent.is_some() && meant(&o.path)) {
            let built = |axis| (opening.as_built(axis) != opening.along(axis)).then_some(axis);
            let mut sizes = Vec::new();
            for axis in [Axis::Across, Axis::Down] {
                sizes.push((axis.size_word(), opening.along(axis).clone()));
                let measured = built(axis).map(|axis| opening.as_built(axis).clone());
                sizes.extend(measured.map(|size| ("as built", size)));
            }
            found.push((format!("{}, opening", opening.path), sizes));
        }
    }
    for part in compiled.parts.iter().flat_map(|parts| &parts.all) {
        if meant(&part.path) || part.mark == name {
            let sizes = vec![
                ("length", part.length.clone()),
                ("width", part.width.clone()),
                ("thickness", part.thickness.clone()),
            ];
            found.push((format!("{}, mark {}", part.path, part.mark), sizes));
        }
    }
    found
}

fn names(compiled: &Compilation, piece: &Piece) -> Vec<String> {
    let openings = piece.cases.iter().flat_map(|case| &case.openings).map(|o| o.path.clone());
    let parts = compiled.parts.iter().flat_map(|parts| &parts.all).map(|part| part.path.clone());
    let all: Vec<String> = openings.chain(parts).collect();
    let last = |path: &String| path.rsplit('.').next().map(str::to_owned);
    all.iter().filter_map(last).chain(all.iter().cloned()).collect()
}

fn explain(text: &mut String, sources: &Sources, piece: &Piece, word: &str, size: &Size) {
    let tape = piece.tape();
    let rounded = if tape.print(size.length).is_rounded() {
        format!("  (printed {})", tape.text(size.length))
    } else {
        String::new()
    };
    let _ = writeln!(text, "  {word:<10}{}{rounded}", tape.exact_with_unit(size.length));
    let mut rest = size.length;
    for (fact, factor) in piece.facts.of(size) {
        let value = fact.length * factor;
        rest -= value;
        let sign = if value.is_negative() { '−' } else { '+' };
        let times = match factor.abs() {
            k if k == Exact::ONE => String::new(),
            k => format!("{k} × "),
        };
        let from = match fact.origin {
            Origin::Written(span) | Origin::Measured(span) => {
                let name = sources.get(span.file).map_or("", |source| source.name.as_str());
                let line = sources.position(span).line;
                format!("{}:{line}  {}", plain(name), plain(sources.text(span)))
            }
            Origin::Default { block, word } => format!("default of `{word}` in {block}"),
        };
        let figure = format!("{sign} {times}{}", tape.exact(fact.length));
        let _ = writeln!(text, "    {figure:<16}{:<24}{from}", fact.name);
    }
    if !rest.is_zero() && !rest.is_out_of_range() {
        let sign = if rest.is_negative() { '−' } else { '+' };
        let figure = format!("{sign} {}", tape.exact(rest.abs()));
        let _ = writeln!(text, "    {figure:<16}from the geometry or the hardware's own figures");
    }
}
