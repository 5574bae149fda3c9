//! Files that change behind the editor's back, such as by `git pull`: an editor that can watch
//! for them is asked to.

use lsp_server::Request;
use lsp_types::notification::{DidChangeWatchedFiles, Notification};
use lsp_types::request::{RegisterCapability, Request as _};
use lsp_types::{
    DidChangeWatchedFilesRegistrationOptions, FileSystemWatcher, GlobPattern, InitializeParams,
    Registration, RegistrationParams,
};

/// What asks the editor to tell of every spec that changes on disk; `None` where it can't.
pub(super) fn asked(greeting: &InitializeParams) -> Option<Request> {
    let workspace = greeting.capabilities.workspace.as_ref()?;
    let watches = workspace.did_change_watched_files.as_ref()?;
    watches.dynamic_registration.filter(|can| *can)?;
    let specs =
        FileSystemWatcher { glob_pattern: GlobPattern::String("**/*.case".to_owned()), kind: None };
    let options = DidChangeWatchedFilesRegistrationOptions { watchers: vec![specs] };
    let registration = Registration {
        id: "specs".to_owned(),
        method: DidChangeWatchedFiles::METHOD.to_owned(),
        register_options: serde_json::to_value(options).ok(),
    };
    let params = RegistrationParams { registrations: vec![registration] };
    let method = RegisterCapability::METHOD.to_owned();
    Some(Request::new("specs".to_owned().into(), method, params))
}
