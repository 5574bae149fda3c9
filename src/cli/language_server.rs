//! `casewright language-server`

use std::path::Path;
use std::thread;

use lsp_server::Connection;

use crate::server::{self, Ended, Reach};

use super::disk::{self, Disk};
use super::exit::Exit;
use super::found;
use super::terminal::complain;

pub(super) fn run() -> Exit {
    let (outside, threads) = Connection::stdio();
    let connection = unhurried(outside);
    let reach = Reach { files: &|spec| Box::new(Disk::for_spec(Path::new(spec))), around: &around };
    let served = server::serve(&connection, reach);
    // What is still to be written goes out before the end.
    drop(connection);
    let written = threads.join();
    match (served, written) {
        (Ok(Ended::Orderly), Ok(())) => Exit::Sound,
        (Ok(Ended::Abruptly), _) | (Ok(Ended::Orderly), Err(_)) => Exit::Unsound,
        (Err(why), _) => {
            complain(&format!("this command is run by an editor, which never greeted it ({why})"));
            Exit::Misused
        }
    }
}

/// The same connection, with room for all that comes in. By itself it holds one message, and
/// a text that is typed faster than it can be checked would be checked at each letter.
fn unhurried(outside: Connection) -> Connection {
    let Connection { sender, receiver } = outside;
    let (own, inside) = Connection::memory();
    thread::spawn(move || receiver.iter().try_for_each(|message| own.sender.send(message)));
    Connection { sender, receiver: inside.receiver }
}

/// The specs that may use a file: a spec uses what lies in its own folder or below, so they
/// stand beside it or up to two folders higher.
fn around(file: &str) -> Vec<String> {
    let folders = Path::new(file).ancestors().skip(1).take(3);
    let specs = folders.flat_map(found::beside);
    specs.map(|spec| disk::name(&spec)).collect()
}
