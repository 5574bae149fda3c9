//! A spec with everything it uses, read against the vocabulary.

use crate::diagnostics::{Diagnostic, Sink, Sources};
use crate::measure::{Span, Unit};
use crate::syntax::{self, Tree};
use crate::vocabulary::{self, Entries, Known, words};

use super::files::{ReadError, SourceFiles};
use super::role::{Role, role_of};

/// A spec and the files it uses, the spec first.
#[derive(Debug)]
pub struct Loaded {
    /// The texts.
    pub sources: Sources,
    /// What the spec itself is for, as far as it can be read.
    pub role: Role,
    /// The statements of each file; none where the form of one is lost.
    pub files: Vec<Entries>,
    /// What was found on the way.
    pub sink: Sink,
}

struct Loader<'a> {
    disk: &'a dyn SourceFiles,
    sources: Sources,
    names: Vec<String>,
    trees: Vec<Tree>,
    sink: Sink,
}

/// How many files one spec may use.
const MOST_FILES: usize = 64;

/// Reads a spec and the files it uses.
///
/// # Errors
/// The reason why the spec itself can't be read; what is wrong with the files
/// it uses is reported in the sink.
pub fn load(disk: &dyn SourceFiles, entry: &str) -> Result<Loaded, ReadError> {
    let first = disk.read(None, entry)?;
    let mut loader = Loader {
        disk,
        sources: Sources::new(),
        names: Vec::new(),
        trees: Vec::new(),
        sink: Sink::new(),
    };
    loader.add(first.name, first.text, &mut Vec::new());
    let Loader { sources, trees, mut sink, .. } = loader;
    let role = trees.first().map_or(Role::Doubtful, |tree| role_of(tree, true));
    let unit = trees.first().and_then(vocabulary::stated_unit).map(|said| said.value);
    let unit = unit.unwrap_or(Unit::Inch);
    let readable = !sink.has_holes();
    if trees.iter().any(|tree| tree.shapeless) {
        return Ok(Loaded { sources, role, files: Vec::new(), sink });
    }
    // The trees of a large spec take more room than all that comes of them:
    // each goes when it has been read.
    let known = Known::of(&trees);
    let files = trees
        .into_iter()
        .zip(sources.iter())
        .map(|(tree, (file, source))| {
            let length = source.text.len();
            let end = Span::new(file, length, length);
            let unit = vocabulary::stated_unit(&tree).map_or(unit, |said| said.value);
            vocabulary::read(&tree, end, unit, readable, &known, &mut sink)
        })
        .collect();
    Ok(Loaded { sources, role, files, sink })
}

impl Loader<'_> {
    fn add(&mut self, name: String, text: std::sync::Arc<str>, open: &mut Vec<String>) {
        let file = self.sources.add(name.clone(), text.clone());
        self.names.push(name.clone());
        let (tree, found) = vocabulary::parse(file, &text);
        self.sink.extend(found);
        let uses = uses(&tree);
        self.trees.push(tree);
        open.push(name.clone());
        for (path, span) in uses {
            self.use_file(&name, &path, span, open);
        }
        open.pop();
    }

    fn use_file(&mut self, from: &str, path: &str, span: Span, open: &mut Vec<String>) {
        let fault =
            |title: String, label: &str| Diagnostic::error("use-unreadable", title, span, label);
        let source = match self.disk.read(Some(from), path) {
            Ok(source) => source,
            Err(error) => {
                let (title, label) = match error {
                    ReadError::Missing => (format!("there is no file `{path}`"), "no such file"),
                    ReadError::Outside => (
                        format!("`{path}` lies outside the spec's folder"),
                        "use only files beside or below the spec",
                    ),
                    ReadError::TooLarge => (format!("`{path}` is too large"), "larger than 8 MiB"),
                    ReadError::NotText => (format!("`{path}` is not a text file"), "not UTF-8"),
                    ReadError::Other(why) => {
                        (format!("`{path}` can't be read: {why}"), "can't be read")
                    }
                };
                return self.sink.push(fault(title, label));
            }
        };
        if open.contains(&source.name) {
            // What only leads to the ring is no part of it.
            let first = open.iter().position(|name| *name == source.name).unwrap_or_default();
            let mut ring: Vec<String> = open.iter().skip(first).cloned().collect();
            let title = if ring.len() == 1 {
                format!("{} uses itself", source.name)
            } else {
                ring.push(source.name);
                format!("these files use each other in a ring: {}", ring.join(" → "))
            };
            return self.sink.push(Diagnostic::error(
                "use-cycle",
                title,
                span,
                "this closes the ring",
            ));
        }
        if self.names.contains(&source.name) {
            return;
        }
        if self.names.len() >= MOST_FILES {
            return self.sink.push(fault(
                format!("the spec uses more than {MOST_FILES} files"),
                "one too many",
            ));
        }
        self.add(source.name, source.text, open);
    }
}

/// The paths of a tree's `use` statements.
fn uses(tree: &Tree) -> Vec<(String, Span)> {
    tree.items
        .iter()
        .filter_map(|item| match item {
            syntax::Item::Statement(statement)
                if statement.word.text() == words::file::USE.spelling() =>
            {
                match statement.arguments.first() {
                    Some(syntax::Argument::Text { value, span }) => Some((value.clone(), *span)),
                    _ => None,
                }
            }
            _ => None,
        })
        .collect()
}
