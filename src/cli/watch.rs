//! `casewright watch`

mod files;
mod request;
mod serve;

use std::path::Path;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::time::Duration;

use crate::measure::digest;
use crate::model::ReadError;
use crate::papers;
use crate::pipeline;

use super::args::Watch;
use super::exit::Exit;
use super::parallel::SideBySide;
use super::paths;
use super::terminal::{Terminal, complain};
use super::{build, check, disk, write};

use files::Watched;
use serve::Server;

/// How often the files are looked at: a few of them cost next to nothing.
const POLL: Duration = Duration::from_millis(20);

/// How long they must rest before a save counts as done. What is written
/// later all the same is the next save.
const REST: Duration = Duration::from_millis(15);

/// Saves that follow each other without rest are built after so many looks.
const MOST_RESTS: u32 = 20;

pub(super) fn run(watch: &Watch, terminal: &Terminal) -> Exit {
    let (ask, asked) = channel();
    // Without a handler the system ends the run; the folder of papers is
    // whole then too.
    let _ = ctrlc::set_handler({
        let ask: Sender<()> = ask.clone();
        move || {
            let _ = ask.send(());
        }
    });
    let folder = build::folder(&watch.spec, watch.into.as_deref());
    let server = match watch.serve.map(|port| Server::start(port, folder.clone())).transpose() {
        Ok(server) => server,
        Err(error) => {
            let port = watch.serve.unwrap_or_default();
            complain(&format!(
                "port {port} can't be used ({error}); name another one with --serve=PORT"
            ));
            return Exit::Misused;
        }
    };
    let mut files = Watched::new(&watch.spec);
    let first = round(watch, &mut files, &folder, server.as_ref(), terminal);
    if let Err(error) = first {
        complain(&disk::sentence(&watch.spec, &error));
        return Exit::Misused;
    }
    while next_save(&mut files, &asked) {
        terminal.clear();
        if let Err(error) = round(watch, &mut files, &folder, server.as_ref(), terminal) {
            // An editor may take a file away before it puts the new one there.
            complain(&disk::sentence(&watch.spec, &error));
            foot(watch, &files, server.as_ref(), terminal);
        }
    }
    drop(ask);
    Exit::Sound
}

/// Waits until a file is other than it was; false when asked to end.
fn next_save(files: &mut Watched, asked: &Receiver<()>) -> bool {
    let is_over = |wait| asked.recv_timeout(wait).is_ok();
    while !files.changed() {
        if is_over(POLL) {
            return false;
        }
    }
    for _ in 0..MOST_RESTS {
        let before = files.stamps();
        if is_over(REST) {
            return false;
        }
        if files.stamps() == before {
            break;
        }
    }
    true
}

/// Compiles once, says what was found and writes the papers if they may be.
fn round(
    watch: &Watch,
    files: &mut Watched,
    folder: &Path,
    server: Option<&Server>,
    terminal: &Terminal,
) -> Result<(), ReadError> {
    let name = watch.spec.to_string_lossy();
    let compiled = files.read(|disk| pipeline::check(disk, &name))?;
    check::report(&watch.spec, &compiled, terminal);
    let packet = papers::packet_with(&compiled, &SideBySide);
    match packet.filter(|_| check::judge(&compiled, watch.deny) == Exit::Sound) {
        None if folder.exists() => {
            terminal
                .tell("nothing was written; the papers are still those of the last sound save\n");
        }
        None => terminal.tell("nothing was written\n"),
        Some(packet) => {
            let papers = build::files(&packet);
            match write::replace(folder, &papers) {
                Ok(()) => {
                    terminal.tell(&build::written(papers.len(), folder));
                    if let Some(server) = server {
                        server.announce(digest(papers.iter().map(|(_, bytes)| *bytes)));
                    }
                }
                Err(error) => complain(&build::unwritten(&error)),
            }
        }
    }
    foot(watch, files, server, terminal);
    Ok(())
}

/// What is being done, under what was found.
fn foot(watch: &Watch, files: &Watched, server: Option<&Server>, terminal: &Terminal) {
    if let Some(server) = server {
        terminal.tell(&format!("the papers are shown at http://{}/\n", server.address()));
    }
    let spec = paths::display(&watch.spec);
    let more = match files.used() {
        0 => String::new(),
        1 => " and 1 file it uses".to_owned(),
        many => format!(" and {many} files it uses"),
    };
    terminal.tell(&format!("watching {spec}{more}; press Ctrl-C to stop\n"));
}
