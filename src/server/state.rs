//! What the server knows: the open texts, what they compile to, and what the editor can do.

use std::collections::{BTreeMap, BTreeSet};
use std::panic::{AssertUnwindSafe, catch_unwind};

use lsp_server::{Connection, Message, Notification};
use lsp_types::{InitializeParams, Location, Position, Uri};

use crate::measure::{FileId, Span};
use crate::model::Buffers;
use crate::pipeline::{self, Compilation};

use super::Reach;
use super::names;
use super::specs::{Compiled, Spec, Specs};
use super::texts::{self, Text, Texts};

/// So many specs around a file are looked at, so that no folder keeps an editor waiting.
const MOST_AROUND: usize = 200;

/// All that the server knows.
pub(super) struct State<'a> {
    connection: &'a Connection,
    reach: Reach<'a>,
    pub(super) texts: Texts,
    pub(super) specs: Specs,
    /// Something has changed since findings were told last.
    pub(super) untold: bool,
    /// Of these files the editor has been told findings.
    pub(super) marked: BTreeSet<String>,
    /// The editor takes edits with the version of the text that they are meant for.
    pub(super) takes_versions: bool,
    /// The editor shows Markdown in what it is told of a word.
    pub(super) shows_markdown: bool,
}

/// A place in a text, in the compilation that says most of it.
#[derive(Clone, Copy)]
pub(super) struct Spot<'s> {
    pub(super) spec: &'s Spec,
    pub(super) compiled: &'s Compiled,
    pub(super) file: FileId,
}

impl<'a> State<'a> {
    pub(super) fn new(
        connection: &'a Connection,
        reach: Reach<'a>,
        greeting: &InitializeParams,
    ) -> Self {
        let can = &greeting.capabilities;
        let edits = can.workspace.as_ref().and_then(|own| own.workspace_edit.as_ref());
        let hover = can.text_document.as_ref().and_then(|own| own.hover.as_ref());
        let formats = hover.and_then(|own| own.content_format.as_ref());
        let takes_versions = edits.and_then(|own| own.document_changes).unwrap_or(false);
        let shows_markdown =
            formats.is_some_and(|own| own.contains(&lsp_types::MarkupKind::Markdown));
        Self {
            connection,
            reach,
            texts: Texts::new(),
            specs: Specs::new(),
            untold: false,
            marked: BTreeSet::new(),
            takes_versions,
            shows_markdown,
        }
    }

    /// Sends a message; an editor that has gone away hears nothing.
    pub(super) fn send(&self, message: Message) {
        let _ = self.connection.sender.send(message);
    }

    /// Tells the editor something that it did not ask for.
    pub(super) fn notify<N: lsp_types::notification::Notification>(&self, params: N::Params) {
        self.send(Notification::new(N::METHOD.to_owned(), params).into());
    }

    /// A text is open, or is not the same any more.
    pub(super) fn put(&mut self, name: String, text: Text) {
        self.untold = true;
        let known = self.texts.insert(name.clone(), text).is_some();
        self.specs.entry(name.clone()).or_default().stale = true;
        for spec in self.specs.values_mut() {
            // One that was not open may be what a spec looked for in vain.
            let uses = spec.now.as_ref().is_none_or(|own| own.file(&name).is_some());
            spec.stale |= uses || !known;
        }
    }

    /// A text is not open any more.
    pub(super) fn close(&mut self, name: &str) {
        self.texts.remove(name);
        self.specs.remove(name);
        self.look_again();
    }

    /// Something may have changed on disk.
    pub(super) fn look_again(&mut self) {
        self.untold = true;
        self.specs.values_mut().for_each(|spec| spec.stale = true);
    }

    /// Compiles what has changed. A fault of ours leaves what was known before.
    pub(super) fn refresh(&mut self) {
        let stale = self.specs.iter().filter(|(_, spec)| spec.stale).map(|(name, _)| name.clone());
        for name in stale.collect::<Vec<_>>() {
            let new = catch_unwind(AssertUnwindSafe(|| self.compile(&name)));
            if let Some(spec) = self.specs.get_mut(&name) {
                match new {
                    Ok(new) => spec.take(new),
                    Err(_) => spec.stale = false,
                }
            }
        }
    }

    fn compile(&self, name: &str) -> Result<Compilation, crate::model::ReadError> {
        let below = (self.reach.files)(name);
        let mut buffers = Buffers::over(&*below);
        for (name, text) in &self.texts {
            buffers.put(name.clone(), text.text.clone());
        }
        pipeline::check(&buffers, name)
    }

    /// A text, in its own compilation if that is a piece, and otherwise in the first one
    /// that uses it.
    pub(super) fn spot(&self, uri: &Uri) -> Option<Spot<'_>> {
        let name = texts::name(uri);
        let own = self.specs.get(&name).and_then(|spec| Spot::of(spec, &name));
        let is_piece = |spot: &Spot<'_>| spot.compiled.compilation.is_piece();
        let using = || {
            let mut all = self.specs.values().filter_map(|spec| Spot::of(spec, &name));
            all.find(is_piece)
        };
        own.filter(is_piece).or_else(using).or(own)
    }

    /// Every compilation that a file takes part in, with the file there.
    pub(super) fn with(&self, name: &str) -> Vec<(&Compiled, FileId)> {
        let all = self.specs.values().filter_map(|spec| spec.now.as_ref());
        all.filter_map(|compiled| Some((compiled, compiled.file(name)?))).collect()
    }

    /// The specs that are not open and use a file, compiled.
    pub(super) fn closed_with(&self, name: &str) -> Vec<Compiled> {
        let around = (self.reach.around)(name).into_iter();
        let closed = around.filter(|spec| !self.specs.contains_key(spec)).take(MOST_AROUND);
        let compiled = closed.filter_map(|spec| self.compile(&spec).ok()).map(Compiled::new);
        compiled.filter(|own| own.file(name).is_some()).collect()
    }

    /// The files that one may use, each with its path from there: those on disk in its
    /// folder, and those that are open in it or below it.
    pub(super) fn beside(&self, name: &str) -> BTreeMap<String, String> {
        let (folder, _) = name.split_at(name.rfind('/').map_or(0, |slash| slash + 1));
        let known = (self.reach.around)(name).into_iter().chain(self.texts.keys().cloned());
        let below = known.filter_map(|own| {
            let path = own.strip_prefix(folder)?.to_owned();
            Some((own, path))
        });
        below.collect()
    }

    /// The URI of a file: as the editor wrote it, where it did.
    pub(super) fn uri(&self, name: &str) -> Option<Uri> {
        match self.texts.get(name) {
            Some(text) => Some(text.uri.clone()),
            None => names::to_uri(name).parse().ok(),
        }
    }

    /// Where a span stands.
    pub(super) fn location(&self, compiled: &Compilation, span: Span) -> Option<Location> {
        let source = compiled.sources.get(span.file)?;
        let uri = self.uri(&source.name)?;
        Some(Location { uri, range: texts::range(source, span.start, span.end) })
    }
}

impl<'s> Spot<'s> {
    /// A file of this name in a spec.
    fn of(spec: &'s Spec, name: &str) -> Option<Self> {
        let compiled = spec.now.as_ref()?;
        Some(Self { spec, compiled, file: compiled.file(name)? })
    }

    /// The byte at a position.
    pub(super) fn byte(&self, position: Position) -> u32 {
        let source = self.compiled.compilation.sources.get(self.file);
        source.map_or(0, |source| source.byte(texts::utf16(position)))
    }

    /// The range of a span in its own file.
    pub(super) fn range(&self, span: Span) -> lsp_types::Range {
        let source = self.compiled.compilation.sources.get(span.file);
        source.map_or_else(Default::default, |own| texts::range(own, span.start, span.end))
    }
}
