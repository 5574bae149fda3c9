//! What an editor asks by the Language Server Protocol, version 3.17, and what it is told.
//! In: messages, and a way to the texts on disk. Out: messages.
//! Knows the protocol. Must not know disk or terminal.
//!
//! One thread does it all. What has come in by the time it looks is taken together, so
//! that a text which is typed faster than it can be checked is checked once.

mod answers;
mod coloring;
mod completing;
mod findings;
mod formatting;
mod hovering;
mod looking;
mod mending;
mod names;
mod offered;
mod outline;
mod places;
mod signing;
mod specs;
mod state;
mod texts;
mod used;
mod watching;

use std::collections::BTreeSet;

use lsp_server::{Connection, ErrorCode, Message, ProtocolError, RequestId, Response};
use lsp_types::{CancelParams, InitializeParams, NumberOrString};

use crate::model::SourceFiles;

use state::State;

/// The texts in the folder of a spec, and below it, by the name of the spec: its path with
/// `/` between its folders.
pub type FilesOf<'a> = dyn Fn(&str) -> Box<dyn SourceFiles> + 'a;

/// The names of the specs that may use a file: those beside it and in the folders around it.
pub type SpecsAround<'a> = dyn Fn(&str) -> Vec<String> + 'a;

/// The way to the texts on disk.
#[derive(Clone, Copy)]
pub struct Reach<'a> {
    /// The texts of a spec.
    pub files: &'a FilesOf<'a>,
    /// The specs that may use a file.
    pub around: &'a SpecsAround<'a>,
}

impl std::fmt::Debug for Reach<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Reach").finish_non_exhaustive()
    }
}

/// How an editor took its leave.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ended {
    /// As the protocol asks.
    Orderly,
    /// Without a word, or by `exit` alone.
    Abruptly,
}

/// Answers an editor until it leaves.
///
/// # Errors
/// What it said at the start was no greeting as the protocol has it.
pub fn serve(connection: &Connection, reach: Reach<'_>) -> Result<Ended, ProtocolError> {
    let (id, greeting) = connection.initialize_start()?;
    // What is not understood of it says nothing of what the editor can do.
    let greeting: InitializeParams = serde_json::from_value(greeting).unwrap_or_default();
    let offered = serde_json::to_value(offered::offered()).unwrap_or_default();
    connection.initialize_finish(id, offered)?;
    let mut state = State::new(connection, reach, &greeting);
    if let Some(request) = watching::asked(&greeting) {
        state.send(request.into());
    }
    let mut leaving = false;
    while let Ok(first) = connection.receiver.recv() {
        let messages: Vec<Message> =
            std::iter::once(first).chain(connection.receiver.try_iter()).collect();
        let withdrawn: BTreeSet<RequestId> = messages.iter().filter_map(withdrawn).collect();
        for message in messages {
            match message {
                Message::Request(request) if leaving => {
                    let why = "the server is about to end".to_owned();
                    let code = ErrorCode::InvalidRequest as i32;
                    state.send(Response::new_err(request.id, code, why).into());
                }
                Message::Request(request) if request.method == "shutdown" => {
                    leaving = true;
                    state.send(Response::new_ok(request.id, ()).into());
                }
                Message::Request(request) if withdrawn.contains(&request.id) => {
                    let code = ErrorCode::RequestCanceled as i32;
                    let why = "it was withdrawn".to_owned();
                    state.send(Response::new_err(request.id, code, why).into());
                }
                Message::Request(request) => answers::answer(&mut state, request),
                Message::Notification(told) if told.method == "exit" => {
                    return Ok(if leaving { Ended::Orderly } else { Ended::Abruptly });
                }
                Message::Notification(told) => answers::hear(&mut state, told),
                Message::Response(_) => {}
            }
        }
        if !leaving {
            findings::tell(&mut state);
        }
    }
    Ok(Ended::Abruptly)
}

/// The request that a message takes back.
fn withdrawn(message: &Message) -> Option<RequestId> {
    let Message::Notification(told) = message else { return None };
    if told.method != "$/cancelRequest" {
        return None;
    }
    let params: CancelParams = serde_json::from_value(told.params.clone()).ok()?;
    Some(match params.id {
        NumberOrString::Number(id) => id.into(),
        NumberOrString::String(id) => id.into(),
    })
}
