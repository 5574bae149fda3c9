//! Where texts come from: disk, an editor's buffers, a test.

use std::collections::BTreeMap;
use std::sync::Arc;

/// Why a text can't be had.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ReadError {
    /// There is no such file.
    Missing,
    /// It lies outside the folder of the spec.
    Outside,
    /// It is too large.
    TooLarge,
    /// It is no UTF-8 text.
    NotText,
    /// The system says why.
    Other(String),
}

/// A text with the name that identifies it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SourceText {
    /// The same for the same file, however it is referred to; shown in messages.
    pub name: String,
    /// The text.
    pub text: Arc<str>,
}

/// The texts that a spec is made of.
pub trait SourceFiles {
    /// The file that `path` means in the file `from`; the spec itself where
    /// `from` is `None`.
    ///
    /// # Errors
    /// Why the text can't be had.
    fn read(&self, from: Option<&str>, path: &str) -> Result<SourceText, ReadError>;
}

/// Texts in memory, by name.
#[derive(Clone, Debug, Default)]
pub struct MemoryFiles {
    files: BTreeMap<String, Arc<str>>,
}

impl MemoryFiles {
    /// One spec by itself.
    #[must_use]
    pub fn one(name: &str, text: &str) -> Self {
        Self::default().with(name, text)
    }

    /// Adds a text.
    #[must_use]
    pub fn with(mut self, name: &str, text: &str) -> Self {
        self.files.insert(name.to_owned(), text.into());
        self
    }
}

impl SourceFiles for MemoryFiles {
    fn read(&self, from: Option<&str>, path: &str) -> Result<SourceText, ReadError> {
        if from.is_none() {
            let text = self.files.get(path).cloned().ok_or(ReadError::Missing)?;
            return Ok(SourceText { name: path.to_owned(), text });
        }
        let folder = from.and_then(|from| from.rsplit_once('/')).map_or("", |(folder, _)| folder);
        let mut parts: Vec<&str> = folder.split('/').filter(|part| !part.is_empty()).collect();
        if path.starts_with('/') {
            return Err(ReadError::Outside);
        }
        for part in path.split('/') {
            match part {
                "" | "." => {}
                ".." => {
                    parts.pop().ok_or(ReadError::Outside)?;
                }
                part => parts.push(part),
            }
        }
        let name = parts.join("/");
        let text = self.files.get(&name).cloned().ok_or(ReadError::Missing)?;
        Ok(SourceText { name, text })
    }
}
