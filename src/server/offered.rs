//! What the server can do, as it says when an editor greets it.

use lsp_types::{
    CodeActionKind, CodeActionOptions, CodeActionProviderCapability, CompletionOptions,
    FoldingRangeProviderCapability, HoverProviderCapability, InitializeResult, OneOf,
    PositionEncodingKind, RenameOptions, SemanticTokensFullOptions, SemanticTokensOptions,
    ServerCapabilities, ServerInfo, SignatureHelpOptions, TextDocumentSyncCapability,
    TextDocumentSyncKind, TextDocumentSyncOptions,
};

use super::coloring;

/// Everything that is answered, and who answers.
pub(super) fn offered() -> InitializeResult {
    let letters = |all: &[&str]| Some(all.iter().map(|own| (*own).to_owned()).collect());
    let sync = TextDocumentSyncOptions {
        open_close: Some(true),
        change: Some(TextDocumentSyncKind::INCREMENTAL),
        save: Some(true.into()),
        ..TextDocumentSyncOptions::default()
    };
    let actions = CodeActionOptions {
        code_action_kinds: Some(vec![CodeActionKind::QUICKFIX, CodeActionKind::SOURCE_FIX_ALL]),
        ..CodeActionOptions::default()
    };
    let coloring = SemanticTokensOptions {
        legend: coloring::legend(),
        full: Some(SemanticTokensFullOptions::Bool(true)),
        ..SemanticTokensOptions::default()
    };
    let capabilities = ServerCapabilities {
        position_encoding: Some(PositionEncodingKind::UTF16),
        text_document_sync: Some(TextDocumentSyncCapability::Options(sync)),
        code_action_provider: Some(CodeActionProviderCapability::Options(actions)),
        hover_provider: Some(HoverProviderCapability::Simple(true)),
        completion_provider: Some(CompletionOptions {
            trigger_characters: letters(&[" ", ".", "\""]),
            ..CompletionOptions::default()
        }),
        signature_help_provider: Some(SignatureHelpOptions {
            trigger_characters: letters(&[" "]),
            ..SignatureHelpOptions::default()
        }),
        document_symbol_provider: Some(OneOf::Left(true)),
        workspace_symbol_provider: Some(OneOf::Left(true)),
        definition_provider: Some(OneOf::Left(true)),
        references_provider: Some(OneOf::Left(true)),
        document_highlight_provider: Some(OneOf::Left(true)),
        rename_provider: Some(OneOf::Right(RenameOptions {
            prepare_provider: Some(true),
            work_done_progress_options: Default::default(),
        })),
        semantic_tokens_provider: Some(coloring.into()),
        folding_range_provider: Some(FoldingRangeProviderCapability::Simple(true)),
        document_formatting_provider: Some(OneOf::Left(true)),
        inlay_hint_provider: Some(OneOf::Left(true)),
        ..ServerCapabilities::default()
    };
    let server_info = ServerInfo {
        name: env!("CARGO_PKG_NAME").to_owned(),
        version: Some(env!("CARGO_PKG_VERSION").to_owned()),
    };
    InitializeResult { capabilities, server_info: Some(server_info) }
}
