//! The names of files: as editors write them, and as compilations know them.

use percent_encoding::percent_decode_str;

use crate::diagnostics::Sources;
use crate::diagnostics::render::uri::uri;
use crate::measure::FileId;

/// The name by which a compilation knows the file of a URI: its path, with `/` between its
/// folders. What is no file on this machine, such as a text that was never saved, keeps the
/// URI for its name.
pub(super) fn of_uri(text: &str) -> String {
    let known = if cfg!(windows) { windows(text) } else { unix(text) };
    known.unwrap_or_else(|| text.to_owned())
}

/// The URI of a name: nothing for one that is none and has none.
pub(super) fn to_uri(name: &str) -> String {
    if name.starts_with('/') || (cfg!(windows) && name.get(1..3) == Some(":/")) {
        uri(name)
    } else {
        name.to_owned()
    }
}

/// What is told, with each file named from the folder of the spec that it belongs to, as a
/// maker names it there.
pub(super) fn near(sources: &Sources, told: String) -> String {
    let Some(first) = sources.get(FileId::default()) else { return told };
    let folder = first.name.rfind('/').map_or("", |at| first.name.get(..=at).unwrap_or(""));
    sources.iter().fold(told, |told, (_, source)| match source.name.strip_prefix(folder) {
        Some(short) if !folder.is_empty() => told.replace(&source.name, short),
        Some(_) | None => told,
    })
}

/// The path of a `file` URI, its letters as they are.
fn path(text: &str) -> Option<(String, String)> {
    let rest = text.strip_prefix("file://")?;
    let (host, path) = rest.split_at(rest.find('/')?);
    let path = percent_decode_str(path).decode_utf8().ok()?;
    // Two slashes or a dot between them mean the same folder.
    let parts: Vec<&str> =
        path.split('/').filter(|part| !part.is_empty() && *part != ".").collect();
    Some((host.to_owned(), parts.join("/")))
}

fn unix(text: &str) -> Option<String> {
    path(text).map(|(_, path)| format!("/{path}"))
}

/// The drive is told by a capital, since editors write it either way.
fn windows(text: &str) -> Option<String> {
    let (host, path) = path(text)?;
    if !host.is_empty() {
        return Some(format!("//{host}/{path}"));
    }
    let mut letters = path.chars();
    match letters.next() {
        Some(drive) if drive.is_ascii_alphabetic() && letters.as_str().starts_with(':') => {
            Some(format!("{}{}", drive.to_ascii_uppercase(), letters.as_str()))
        }
        _ => Some(format!("/{path}")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_is_read_whichever_way_it_is_written() {
        let known = |text: &str| unix(text).unwrap();
        assert_eq!(known("file:///jobs/hall.case"), "/jobs/hall.case");
        assert_eq!(known("file:///jobs/a%20b/50%25%23.case"), "/jobs/a b/50%#.case");
        assert_eq!(known("file:///jobs/ch%C3%AAne.case"), "/jobs/ch\u{ea}ne.case");
        assert_eq!(known("file:///jobs/ch\u{ea}ne.case"), "/jobs/ch\u{ea}ne.case");
        assert_eq!(known("file://localhost/jobs//./hall.case"), "/jobs/hall.case");
        assert_eq!(unix("untitled:Untitled-1"), None);
        // No text has such a name.
        assert_eq!(unix("file:///jobs/%FF.case"), None);
    }

    #[test]
    fn a_drive_is_the_same_in_either_case_and_with_its_colon_written_out() {
        for text in ["file:///c%3A/Jobs/a.case", "file:///C:/Jobs/a.case", "file:///c:/Jobs/a.case"]
        {
            assert_eq!(windows(text).as_deref(), Some("C:/Jobs/a.case"), "{text}");
        }
        assert_eq!(windows("file://shop/jobs/a.case").as_deref(), Some("//shop/jobs/a.case"));
    }

    #[test]
    fn what_was_never_saved_keeps_its_uri() {
        assert_eq!(of_uri("untitled:Untitled-1"), "untitled:Untitled-1");
        assert_eq!(to_uri("untitled:Untitled-1"), "untitled:Untitled-1");
    }

    #[cfg(unix)]
    #[test]
    fn a_name_leads_back_to_its_uri() {
        for name in ["/jobs/hall.case", "/a b/50%#.case", "/ch\u{ea}ne/\u{1f600}.case"] {
            assert_eq!(of_uri(&to_uri(name)), name);
        }
    }
}
