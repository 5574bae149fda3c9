//! `casewright build`

use std::io;
use std::mem::ManuallyDrop;
use std::path::{Path, PathBuf};

use crate::papers::{self, Format, PaperFile};

use super::args::Build;
use super::check;
use super::exit::Exit;
use super::parallel::SideBySide;
use super::paths;
use super::terminal::{Terminal, complain};
use super::write;

pub(super) fn run(build: &Build, terminal: &Terminal) -> Exit {
    if let Some(slug) = &build.print
        && papers::PAPERS.iter().all(|paper| paper.slug != slug.as_str())
    {
        let known: Vec<&str> = papers::PAPERS.iter().map(|paper| paper.slug).collect();
        complain(&format!("no paper is called `{slug}`; the papers are {}", known.join(", ")));
        return Exit::Misused;
    }
    let Some(compiled) = check::compile(&build.spec) else { return Exit::Misused };
    // The run ends with this: the system takes all room back at once, and piece
    // by piece it takes long.
    let compiled = ManuallyDrop::new(compiled);
    let exit = check::judge(&compiled, build.deny);
    check::report(&build.spec, &compiled, terminal);
    if !compiled.is_sound() {
        return exit.or(Exit::Unsound);
    }
    if exit != Exit::Sound {
        terminal.tell("nothing was written\n");
        return exit;
    }
    if let Some(slug) = &build.print {
        let paper = papers::one(&compiled, slug, Format::Text);
        terminal.print(&paper.unwrap_or_default());
        return exit;
    }
    let Some(packet) = papers::packet_with(&compiled, &SideBySide) else {
        return exit.or(Exit::Unsound);
    };
    let packet = ManuallyDrop::new(packet);
    let folder = folder(&build.spec, build.into.as_deref());
    let files = files(&packet);
    match write::replace(&folder, &files) {
        Ok(()) => {
            terminal.tell(&written(files.len(), &folder));
            exit
        }
        Err(error) => {
            complain(&unwritten(&error));
            Exit::Misused
        }
    }
}

/// Where the papers of a spec go.
pub(super) fn folder(spec: &Path, into: Option<&Path>) -> PathBuf {
    let name = || write::folder_name(spec.file_stem().unwrap_or_default());
    let usual = || PathBuf::from("papers").join(name());
    into.map_or_else(usual, Path::to_path_buf)
}

/// The papers by name.
pub(super) fn files(packet: &[PaperFile]) -> Vec<(&str, &[u8])> {
    packet.iter().map(|file| (file.name.as_str(), file.text.as_bytes())).collect()
}

/// What is said when they have been written.
pub(super) fn written(count: usize, folder: &Path) -> String {
    let shown = paths::display(folder);
    format!("{count} files are in {shown}; open {shown}/index.html\n")
}

/// What is said when they can't be.
pub(super) fn unwritten(error: &io::Error) -> String {
    format!("the papers can't be written, and nothing was changed: {error}")
}
