//! Which question is answered where.

use std::panic::{AssertUnwindSafe, catch_unwind};

use lsp_server::{ErrorCode, Notification, Request, Response, ResponseError};
use lsp_types::notification::{self, Notification as _};
use lsp_types::request::{self as ask, Request as Asked};
use lsp_types::{
    DidChangeTextDocumentParams, DidCloseTextDocumentParams, DidOpenTextDocumentParams,
};
use serde::de::DeserializeOwned;

use super::state::State;
use super::texts::{self, Text};
use super::{
    coloring, completing, formatting, hovering, looking, mending, outline, places, signing,
};

/// What is answered, or why not.
pub(super) type Answer<R> = Result<<R as Asked>::Result, ResponseError>;

/// Answers a request.
pub(super) fn answer(state: &mut State<'_>, request: Request) {
    state.refresh();
    let response = match request.method.as_str() {
        ask::CodeActionRequest::METHOD => {
            by::<ask::CodeActionRequest>(state, request, mending::actions)
        }
        ask::Completion::METHOD => by::<ask::Completion>(state, request, completing::offers),
        ask::DocumentHighlightRequest::METHOD => {
            by::<ask::DocumentHighlightRequest>(state, request, looking::mentions)
        }
        ask::DocumentSymbolRequest::METHOD => {
            by::<ask::DocumentSymbolRequest>(state, request, outline::symbols)
        }
        ask::FoldingRangeRequest::METHOD => {
            by::<ask::FoldingRangeRequest>(state, request, outline::folds)
        }
        ask::Formatting::METHOD => by::<ask::Formatting>(state, request, formatting::format),
        ask::GotoDefinition::METHOD => by::<ask::GotoDefinition>(state, request, places::given),
        ask::HoverRequest::METHOD => by::<ask::HoverRequest>(state, request, hovering::told),
        ask::InlayHintRequest::METHOD => {
            by::<ask::InlayHintRequest>(state, request, looking::hints)
        }
        ask::PrepareRenameRequest::METHOD => {
            by::<ask::PrepareRenameRequest>(state, request, places::named)
        }
        ask::References::METHOD => by::<ask::References>(state, request, places::used),
        ask::Rename::METHOD => by::<ask::Rename>(state, request, places::rename),
        ask::SemanticTokensFullRequest::METHOD => {
            by::<ask::SemanticTokensFullRequest>(state, request, coloring::tokens)
        }
        ask::SignatureHelpRequest::METHOD => {
            by::<ask::SignatureHelpRequest>(state, request, signing::signature)
        }
        ask::WorkspaceSymbolRequest::METHOD => {
            by::<ask::WorkspaceSymbolRequest>(state, request, outline::everywhere)
        }
        other => {
            let why = format!("`{other}` is not answered");
            Response::new_err(request.id, ErrorCode::MethodNotFound as i32, why)
        }
    };
    state.send(response.into());
}

/// The answer of one function.
fn by<R: Asked>(
    state: &State<'_>,
    request: Request,
    function: fn(&State<'_>, R::Params) -> Answer<R>,
) -> Response {
    let refused = |id, code: ErrorCode, why| Response::new_err(id, code as i32, why);
    let params: R::Params = match serde_json::from_value(request.params) {
        Ok(params) => params,
        Err(why) => return refused(request.id, ErrorCode::InvalidParams, why.to_string()),
    };
    match catch_unwind(AssertUnwindSafe(|| function(state, params))) {
        Ok(Ok(answer)) => Response::new_ok(request.id, answer),
        Ok(Err(error)) => Response { id: request.id, response_result: Err(error) },
        Err(_) => {
            let why = "this is a fault in casewright, not in the spec; please report it and \
                       include the spec";
            refused(request.id, ErrorCode::InternalError, why.to_owned())
        }
    }
}

/// Takes what the editor tells.
pub(super) fn hear(state: &mut State<'_>, told: Notification) {
    match told.method.as_str() {
        notification::DidOpenTextDocument::METHOD => {
            let Some(DidOpenTextDocumentParams { text_document: own }) = read(told) else { return };
            let text = Text { version: own.version, text: own.text.into(), uri: own.uri };
            state.put(texts::name(&text.uri), text);
        }
        notification::DidChangeTextDocument::METHOD => {
            let Some(DidChangeTextDocumentParams { text_document: own, content_changes }) =
                read(told)
            else {
                return;
            };
            let name = texts::name(&own.uri);
            let Some(known) = state.texts.get(&name) else { return };
            let text = content_changes
                .into_iter()
                .fold(known.text.to_string(), |text, change| texts::changed(&text, change));
            let text = Text { version: own.version, text: text.into(), uri: own.uri };
            state.put(name, text);
        }
        notification::DidCloseTextDocument::METHOD => {
            let Some(DidCloseTextDocumentParams { text_document: own }) = read(told) else {
                return;
            };
            state.close(&texts::name(&own.uri));
        }
        notification::DidSaveTextDocument::METHOD | notification::DidChangeWatchedFiles::METHOD => {
            state.look_again();
        }
        _ => {}
    }
}

/// What is told; nothing of what is not as the protocol has it.
fn read<P: DeserializeOwned>(told: Notification) -> Option<P> {
    serde_json::from_value(told.params).ok()
}
