//! `casewright build`

use std::path::PathBuf;

use crate::papers::{self, Format};

use super::args::Build;
use super::check;
use super::exit::Exit;
use super::terminal::{Terminal, complain};
use super::write;

pub(super) fn run(build: &Build, terminal: &Terminal) -> Exit {
    if let Some(slug) = &build.print
        && papers::PAPERS.iter().all(|paper| paper.slug != slug.as_str())
    {
        let known: Vec<&str> = papers::PAPERS.iter().map(|paper| paper.slug).collect();
        complain(&format!("there is no paper `{slug}`; there are: {}", known.join(", ")));
        return Exit::Misused;
    }
    let Some(compiled) = check::compile(&build.spec) else { return Exit::Misused };
    let exit = check::judge(&compiled, build.deny);
    check::report(&build.spec, &compiled, terminal);
    let Some(packet) = papers::packet(&compiled) else { return exit.or(Exit::Unsound) };
    if exit != Exit::Sound {
        terminal.tell("nothing was written\n");
        return exit;
    }
    if let Some(slug) = &build.print {
        let paper = packet.iter().find(|file| file.paper == slug && file.format == Format::Text);
        terminal.print(paper.map_or("", |paper| paper.text.as_str()));
        return exit;
    }
    let folder = build.into.clone().unwrap_or_else(|| {
        let name = build.spec.file_stem().unwrap_or_default();
        PathBuf::from("papers").join(name)
    });
    let files: Vec<(&str, &[u8])> =
        packet.iter().map(|file| (file.name.as_str(), file.text.as_bytes())).collect();
    match write::replace(&folder, &files) {
        Ok(()) => {
            let shown = crate::diagnostics::render::plain(&folder.to_string_lossy());
            terminal.tell(&format!("{} files in {shown}; open {shown}/index.html\n", files.len()));
            exit
        }
        Err(error) => {
            complain(&format!("the papers can't be written: {error}; nothing was changed"));
            Exit::Misused
        }
    }
}
