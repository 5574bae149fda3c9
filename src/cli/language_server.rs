//! `casewright language-server`

use std::path::Path;

use lsp_server::Connection;

use crate::server::{self, Ended};

use super::disk::Disk;
use super::exit::Exit;
use super::terminal::complain;

pub(super) fn run() -> Exit {
    let (connection, threads) = Connection::stdio();
    let served = server::serve(&connection, &|spec| Box::new(Disk::for_spec(Path::new(spec))));
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
