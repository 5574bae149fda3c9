//! What a text is made of: the things that it names, and what can be folded away.

use lsp_types::request::{DocumentSymbolRequest, FoldingRangeRequest, WorkspaceSymbolRequest};
use lsp_types::{
    DocumentSymbol, DocumentSymbolParams, DocumentSymbolResponse, FoldingRange, FoldingRangeKind,
    FoldingRangeParams, SymbolInformation, SymbolKind, WorkspaceSymbolParams,
    WorkspaceSymbolResponse,
};

use crate::diagnostics::Source;
use crate::editor::{NameKind, Named};
use crate::measure::Span;
use crate::syntax::{Item, Tree};

use super::answers::Answer;
use super::hovering;
use super::state::{Spot, State};
use super::texts;

/// Everything that a text gives a name, each within what its statement stands in.
pub(super) fn symbols(
    state: &State<'_>,
    params: DocumentSymbolParams,
) -> Answer<DocumentSymbolRequest> {
    let Some(spot) = state.spot(&params.text_document.uri) else { return Ok(None) };
    let names = spot.compiled.names().all().map(|(_, named)| named);
    let mut own: Vec<_> = names.filter(|named| named.definition.file == spot.file).collect();
    own.sort_by_key(|named| (named.statement.start, std::cmp::Reverse(named.statement.end)));
    let mut open: Vec<(Span, DocumentSymbol)> = Vec::new();
    let mut done = Vec::new();
    for named in own {
        while let Some((span, _)) = open.last()
            && span.end <= named.statement.start
        {
            close(&mut open, &mut done);
        }
        open.push((named.statement, symbol(&spot, named.kind, named.name(), named)));
    }
    while !open.is_empty() {
        close(&mut open, &mut done);
    }
    Ok(Some(DocumentSymbolResponse::Nested(done)))
}

/// The innermost thing that is open is whole.
fn close(open: &mut Vec<(Span, DocumentSymbol)>, done: &mut Vec<DocumentSymbol>) {
    let Some((_, symbol)) = open.pop() else { return };
    match open.last_mut() {
        Some((_, outer)) => outer.children.get_or_insert_with(Vec::new).push(symbol),
        None => done.push(symbol),
    }
}

fn symbol(spot: &Spot<'_>, kind: NameKind, name: &str, named: &Named) -> DocumentSymbol {
    #[expect(deprecated, reason = "the type has a field that went out of use")]
    DocumentSymbol {
        name: name.to_owned(),
        detail: Some(said(spot, named).unwrap_or(hovering::kind(kind)).to_owned()),
        kind: of_kind(kind),
        tags: None,
        deprecated: None,
        range: spot.range(named.statement),
        selection_range: spot.range(named.definition),
        children: None,
    }
}

/// The word of the statement that gives a name: of an opening, `drawer` or `doors`.
fn said<'s>(spot: &Spot<'s>, named: &Named) -> Option<&'s str> {
    let text = spot.compiled.compilation.sources.text(named.statement);
    text.split(|c: char| !c.is_ascii_alphanumeric() && c != '-').next().filter(|it| !it.is_empty())
}

/// The kind of symbol that an editor shows for a name: a picture beside it, no more.
fn of_kind(kind: NameKind) -> SymbolKind {
    match kind {
        NameKind::Run => SymbolKind::NAMESPACE,
        NameKind::Case => SymbolKind::CLASS,
        NameKind::Opening | NameKind::Between => SymbolKind::FIELD,
        NameKind::Member => SymbolKind::PROPERTY,
        NameKind::KeepOut => SymbolKind::OBJECT,
        NameKind::Stock | NameKind::Species => SymbolKind::CONSTANT,
        NameKind::Hinge | NameKind::Slide | NameKind::Pull | NameKind::Leg => SymbolKind::STRUCT,
        NameKind::Bit | NameKind::Finish => SymbolKind::VARIABLE,
    }
}

/// The names of every spec that is open and of what it uses, those that have these letters in
/// them.
pub(super) fn everywhere(
    state: &State<'_>,
    params: WorkspaceSymbolParams,
) -> Answer<WorkspaceSymbolRequest> {
    let asked = params.query.to_ascii_lowercase();
    let mut all: Vec<SymbolInformation> = Vec::new();
    for compiled in state.specs.values().filter_map(|spec| spec.now.as_ref()) {
        for (_, named) in compiled.names().all() {
            let path = &named.path;
            if !path.to_ascii_lowercase().contains(&asked) {
                continue;
            }
            let location = state.location(&compiled.compilation, named.definition);
            let outer = path.rsplit_once('.').filter(|_| named.kind != NameKind::KeepOut);
            #[expect(deprecated, reason = "the type has a field that went out of use")]
            let symbol = location.map(|location| SymbolInformation {
                name: named.name().to_owned(),
                kind: of_kind(named.kind),
                tags: None,
                deprecated: None,
                location,
                container_name: outer.map(|(outer, _)| outer.to_owned()),
            });
            all.extend(symbol.filter(|own| !all.contains(own)));
        }
    }
    Ok(Some(WorkspaceSymbolResponse::Flat(all)))
}

/// Every block and every comment that takes more than a line.
pub(super) fn folds(state: &State<'_>, params: FoldingRangeParams) -> Answer<FoldingRangeRequest> {
    let Some(spot) = state.spot(&params.text_document.uri) else { return Ok(None) };
    let compiled = &spot.compiled.compilation;
    let (Some(source), Some(tree)) = (compiled.sources.get(spot.file), compiled.tree(spot.file))
    else {
        return Ok(None);
    };
    let mut found = Vec::new();
    blocks(source, tree, &mut found);
    Ok(Some(found))
}

fn blocks(source: &Source, tree: &Tree, found: &mut Vec<FoldingRange>) {
    within(source, &tree.items, found);
    found.sort_by_key(|fold| (fold.start_line, fold.end_line));
}

fn within(source: &Source, items: &[Item], found: &mut Vec<FoldingRange>) {
    let line = |byte: u32| texts::position(source, byte).line;
    let mut add = |start_line: u32, end_line: u32, kind: Option<FoldingRangeKind>| {
        if start_line < end_line {
            found.push(FoldingRange { start_line, end_line, kind, ..FoldingRange::default() });
        }
    };
    // A comment goes on as long as each line has one of its own.
    let mut comment: Option<(u32, u32)> = None;
    for item in items {
        match item {
            Item::Comment(own) => {
                let at = line(own.span.start);
                comment = Some(comment.map_or((at, at), |(from, _)| (from, at)));
            }
            Item::Statement(_) | Item::Blank => {
                if let Some((from, to)) = comment.take() {
                    add(from, to, Some(FoldingRangeKind::Comment));
                }
            }
        }
        // The last line of a block stays in sight, with its brace.
        if let Item::Statement(statement) = item
            && let Some(block) = &statement.block
        {
            let end = line(block.close.start).saturating_sub(1);
            add(line(statement.span.start), end, None);
        }
    }
    if let Some((from, to)) = comment {
        add(from, to, Some(FoldingRangeKind::Comment));
    }
    for item in items {
        if let Item::Statement(statement) = item
            && let Some(block) = &statement.block
        {
            within(source, &block.items, found);
        }
    }
}
