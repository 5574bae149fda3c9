//! What may be asked, and who answers it. The last compilation is kept, so that
//! what is asked of it does not wait for another.

use std::collections::BTreeMap;

use casewright::checks;
use casewright::diagnostics::render::plain;
use casewright::editor::Names;
use casewright::measure::FileId;
use casewright::model::MemoryFiles;
use casewright::papers::{self, Format};
use casewright::pipeline::{self, Compilation};
use casewright::vocabulary;
use serde::{Deserialize, Serialize};

use crate::at::{self, At};
use crate::catalog::{self, Piece};
use crate::drawn::{self, Drawn};
use crate::findings::{self, Findings};
use crate::offered::{self, Offered};
use crate::table::{self, Table};
use crate::told::{self, Told};

/// The last compilation, with its names.
#[derive(Debug, Default)]
pub(crate) struct Desk {
    compiled: Option<Compilation>,
    /// The names of the last text that gave any: half a text is looked up in them too.
    names: Names,
}

/// A question.
#[derive(Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Question {
    /// What is found of a piece, and how it is drawn.
    Check { entry: String, files: BTreeMap<String, String> },
    /// The drawing of another piece, to be looked at only.
    Sketch { entry: String, files: BTreeMap<String, String> },
    /// A paper of the piece that was checked last.
    Paper { slug: String, form: Form },
    /// Why the figures of a thing are what they are.
    Why { name: String },
    /// What stands at a place.
    At { file: String, line: u32, column: u32 },
    /// What may be written at a place of a text.
    Offers { text: String, line: u32, column: u32 },
    /// A text in one layout.
    Format { text: String },
    /// More about a finding.
    Explain { slug: String },
    /// Every paper there is.
    Papers,
    /// The pieces to start from.
    Catalog,
    /// The words of the language, for whoever paints them.
    Table,
}

/// The form of a paper.
#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Form {
    Html,
    Text,
    Csv,
}

impl Form {
    fn format(self) -> Format {
        match self {
            Self::Html => Format::Html,
            Self::Text => Format::Text,
            Self::Csv => Format::Csv,
        }
    }
}

/// An answer.
#[derive(Serialize)]
#[serde(rename_all = "kebab-case")]
enum Answer {
    Checked(Checked),
    /// A text; nothing where there is none of a piece like this.
    Text(Option<String>),
    Told(Vec<Told>),
    At(At),
    Offers(Offered),
    /// Why a text can't be put in order: what is found first.
    Unread(String),
    Papers(Vec<Paper>),
    Catalog(Vec<Piece>),
    Table(Table),
    /// The question itself was not understood.
    Wrong(String),
}

/// What became of a text.
#[derive(Serialize)]
struct Checked {
    /// It is a piece, not a file that others use.
    piece: bool,
    /// Papers may be made of it.
    sound: bool,
    findings: Findings,
    drawn: Option<Drawn>,
}

#[derive(Serialize)]
struct Paper {
    slug: &'static str,
    title: &'static str,
    about: &'static str,
}

/// The answer to a question, as JSON.
pub(crate) fn answered(desk: &mut Desk, question: &[u8]) -> Vec<u8> {
    let answer = match serde_json::from_slice(question) {
        Ok(question) => desk.answer(question),
        Err(error) => Answer::Wrong(error.to_string()),
    };
    serde_json::to_vec(&answer).unwrap_or_default()
}

impl Desk {
    fn answer(&mut self, question: Question) -> Answer {
        match question {
            Question::Check { entry, files } => match self.check(&entry, &files) {
                Some(checked) => Answer::Checked(checked),
                None => Answer::Wrong(format!("no text is called {entry}")),
            },
            Question::Sketch { entry, files } => {
                let compiled = compiled(&entry, &files);
                Answer::Text(compiled.as_ref().and_then(papers::elevation))
            }
            Question::Paper { slug, form } => {
                let one = |compiled| papers::sheet(compiled, &slug, form.format());
                Answer::Text(self.compiled.as_ref().and_then(one))
            }
            Question::Why { name } => {
                let of = |compiled| told::of(compiled, &name);
                Answer::Told(self.compiled.as_ref().map(of).unwrap_or_default())
            }
            Question::At { file, line, column } => {
                let of = |compiled| at::of(compiled, &self.names, &file, (line, column));
                Answer::At(self.compiled.as_ref().map(of).unwrap_or_default())
            }
            Question::Offers { text, line, column } => {
                Answer::Offers(offered::at(&self.names, &text, (line, column)))
            }
            Question::Format { text } => match vocabulary::format(FileId(0), &text) {
                Ok(text) => Answer::Text(Some(text)),
                Err(found) => {
                    Answer::Unread(found.first().map_or(String::new(), |found| plain(&found.title)))
                }
            },
            Question::Explain { slug } => Answer::Text(checks::explain(&slug)),
            Question::Papers => {
                let of = |paper: &papers::Paper| Paper {
                    slug: paper.slug,
                    title: paper.title,
                    about: paper.about,
                };
                Answer::Papers(papers::PAPERS.iter().map(of).collect())
            }
            Question::Catalog => Answer::Catalog(catalog::pieces()),
            Question::Table => Answer::Table(table::of_words()),
        }
    }

    fn check(&mut self, entry: &str, files: &BTreeMap<String, String>) -> Option<Checked> {
        let compiled = compiled(entry, files)?;
        let names = Names::of(&compiled);
        if names.all().next().is_some() {
            self.names = names;
        }
        let checked = Checked {
            piece: compiled.is_piece(),
            sound: compiled.is_sound() && compiled.is_piece(),
            findings: findings::of(&compiled),
            drawn: drawn::of(&compiled),
        };
        self.compiled = Some(compiled);
        Some(checked)
    }
}

/// What becomes of a text and the others that it uses; nothing where there is no such text.
fn compiled(entry: &str, files: &BTreeMap<String, String>) -> Option<Compilation> {
    let none = MemoryFiles::default();
    let files = files.iter().fold(none, |files, (name, text)| files.with(name, text));
    pipeline::check(&files, entry).ok()
}
