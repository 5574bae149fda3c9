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
        let name = joined(from, path)?;
        let text = self.files.get(&name).cloned().ok_or(ReadError::Missing)?;
        Ok(SourceText { name, text })
    }
}

/// The name of the file that `path` means in the file `from`.
fn joined(from: Option<&str>, path: &str) -> Result<String, ReadError> {
    let Some(from) = from else { return Ok(path.to_owned()) };
    let (folder, _) = from.rsplit_once('/').unwrap_or_default();
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
    let root = if from.starts_with('/') { "/" } else { "" };
    Ok(format!("{root}{}", parts.join("/")))
}

/// Texts that are being edited, over those of another source: an editor's
/// unsaved buffers over its disk.
#[derive(Clone, Debug)]
pub struct Buffers<'a, S: SourceFiles + ?Sized> {
    below: &'a S,
    open: BTreeMap<String, Arc<str>>,
}

impl<'a, S: SourceFiles + ?Sized> Buffers<'a, S> {
    /// Nothing is being edited yet.
    #[must_use]
    pub fn over(below: &'a S) -> Self {
        Self { below, open: BTreeMap::new() }
    }

    /// Takes this text for the file of this name, whatever the source below has
    /// for it. The name is the one by which a compilation knows the file.
    pub fn put(&mut self, name: impl Into<String>, text: impl Into<Arc<str>>) {
        self.open.insert(name.into(), text.into());
    }

    /// Takes the file from below again.
    pub fn close(&mut self, name: &str) {
        self.open.remove(name);
    }
}

impl<S: SourceFiles + ?Sized> SourceFiles for Buffers<'_, S> {
    fn read(&self, from: Option<&str>, path: &str) -> Result<SourceText, ReadError> {
        let edited = |name: String| {
            let text = self.open.get(&name).cloned();
            text.map(|text| SourceText { name, text })
        };
        match self.below.read(from, path) {
            Ok(source) => Ok(edited(source.name.clone()).unwrap_or(source)),
            // What may not be used there may not be used here.
            Err(ReadError::Outside) => Err(ReadError::Outside),
            // It may never have been saved, or may be no text there any more.
            Err(error) => joined(from, path).ok().and_then(edited).ok_or(error),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The text that a path means.
    fn text(files: &impl SourceFiles, from: Option<&str>, path: &str) -> Result<String, ReadError> {
        files.read(from, path).map(|source| source.text.to_string())
    }

    #[test]
    fn what_is_being_edited_covers_what_lies_below() {
        let disk = MemoryFiles::one("a/hall.case", "saved").with("a/shop.case", "shared");
        let mut buffers = Buffers::over(&disk);
        buffers.put("a/shop.case", "edited");
        buffers.put("a/new.case", "never saved");
        let from = Some("a/hall.case");
        assert_eq!(text(&buffers, None, "a/hall.case").as_deref(), Ok("saved"));
        assert_eq!(text(&buffers, from, "shop.case").as_deref(), Ok("edited"));
        assert_eq!(text(&buffers, from, "./shop.case").as_deref(), Ok("edited"));
        assert_eq!(text(&buffers, from, "new.case").as_deref(), Ok("never saved"));
        assert_eq!(text(&buffers, from, "none.case"), Err(ReadError::Missing));
        assert_eq!(text(&buffers, from, "../../a/new.case"), Err(ReadError::Outside));
        buffers.put("/a/root.case", "from the root");
        let rooted = Some("/a/hall.case");
        assert_eq!(text(&buffers, rooted, "root.case").as_deref(), Ok("from the root"));
        buffers.close("a/shop.case");
        assert_eq!(text(&buffers, from, "shop.case").as_deref(), Ok("shared"));
    }
}
