//! Specs on disk.

use std::io::Read as _;
use std::path::{Component, Path, PathBuf};

use crate::model::{ReadError, SourceFiles, SourceText};
use crate::syntax::LONGEST_FILE;

use super::paths;

/// The files of one spec: those in its folder and below.
#[derive(Debug)]
pub(super) struct Disk {
    /// The folder of the spec as it was typed.
    folder: PathBuf,
}

impl Disk {
    pub(super) fn for_spec(spec: &Path) -> Self {
        Self { folder: spec.parent().map(Path::to_path_buf).unwrap_or_default() }
    }

    fn used(&self, from: &str, path: &str) -> Result<PathBuf, ReadError> {
        let path = Path::new(path);
        let inside = |component| matches!(component, Component::Normal(_) | Component::CurDir);
        if !path.components().all(inside) {
            return Err(ReadError::Outside);
        }
        let folder = Path::new(from).parent().map(Path::to_path_buf).unwrap_or_default();
        let file = folder.join(path);
        // A link may lead out of the folder though the path does not.
        let root = if self.folder.as_os_str().is_empty() { Path::new(".") } else { &self.folder };
        let real = |path: &Path| path.canonicalize().map_err(|error| reason(&error));
        if !real(&file)?.starts_with(real(root)?) {
            return Err(ReadError::Outside);
        }
        Ok(file)
    }

    /// A text with the file it was read from.
    pub(super) fn open(
        &self,
        from: Option<&str>,
        path: &str,
    ) -> Result<(PathBuf, SourceText), ReadError> {
        let file = match from {
            None => PathBuf::from(path),
            Some(from) => self.used(from, path)?,
        };
        // Opening a pipe would wait for someone to write to it.
        let is_special = |file: &Path| file.metadata().is_ok_and(|about| !about.is_file());
        if from.is_some() && is_special(&file) {
            return Err(ReadError::Other("it is not a plain file".to_owned()));
        }
        let text = text(&file)?;
        let name = name(&file);
        Ok((file, SourceText { name, text: text.into() }))
    }
}

impl SourceFiles for Disk {
    fn read(&self, from: Option<&str>, path: &str) -> Result<SourceText, ReadError> {
        self.open(from, path).map(|(_, source)| source)
    }
}

/// The text of a file.
pub(super) fn text(file: &Path) -> Result<String, ReadError> {
    let open = std::fs::File::open(file).map_err(|error| reason(&error))?;
    let about = open.metadata();
    if about.as_ref().is_ok_and(std::fs::Metadata::is_dir) {
        return Err(ReadError::Other("it is a folder".to_owned()));
    }
    // With room for its end, a file is read at once.
    let size = about.map_or(0, |about| about.len()).min(LONGEST_FILE as u64);
    let mut bytes = Vec::with_capacity(usize::try_from(size).unwrap_or(0) + 1);
    open.take(LONGEST_FILE as u64 + 1).read_to_end(&mut bytes).map_err(|error| reason(&error))?;
    if bytes.len() > LONGEST_FILE {
        return Err(ReadError::TooLarge);
    }
    String::from_utf8(bytes).map_err(|_| ReadError::NotText)
}

/// The name by which a file is told from others, and shown.
pub(super) fn name(file: &Path) -> String {
    let parts = file.components().filter(|part| *part != Component::CurDir);
    paths::slashed(&parts.collect::<PathBuf>())
}

fn reason(error: &std::io::Error) -> ReadError {
    match error.kind() {
        std::io::ErrorKind::NotFound => ReadError::Missing,
        _ => ReadError::Other(error.to_string()),
    }
}

/// Why a spec can't be read, as a sentence.
pub(super) fn sentence(path: &Path, error: &ReadError) -> String {
    let path = paths::display(path);
    match error {
        ReadError::Missing => format!("there is no file {path}"),
        ReadError::Outside => format!("{path} lies outside its folder"),
        ReadError::TooLarge => format!("{path} is larger than 8 MiB"),
        ReadError::NotText => format!("{path} is not UTF-8 text"),
        ReadError::Other(why) => format!("{path} can't be read: {why}"),
    }
}
