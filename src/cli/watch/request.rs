//! What a browser may ask for, and what it gets.
//!
//! Only this machine can connect, yet any page open in a browser on it can
//! send requests here. So only requests that name this machine as their host
//! are answered (else a foreign name that is made to lead here could read the
//! papers), and no answer may be read or framed by pages from elsewhere.

use std::path::{Path, PathBuf};

use percent_encoding::percent_decode_str;

/// The first part of paths that are ours, not the folder's.
const OWN: &str = "/-/";

/// The script that loads a page again.
const SCRIPT: &str = include_str!("../../../templates/reload.js");

/// A request, as far as it matters.
#[derive(Clone, Copy, Debug)]
pub(super) struct Request<'a> {
    pub(super) method: &'a str,
    pub(super) target: &'a str,
    /// Every `Host` header.
    pub(super) hosts: &'a [&'a str],
}

/// An answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Answer {
    /// Code and reason.
    pub(super) status: &'static str,
    pub(super) kind: &'static str,
    pub(super) body: Vec<u8>,
}

impl Answer {
    fn new(status: &'static str, kind: &'static str, body: impl Into<Vec<u8>>) -> Self {
        Self { status, kind, body: body.into() }
    }

    pub(super) fn refusal(status: &'static str, why: &str) -> Self {
        Self::new(status, TEXT, format!("{why}\n"))
    }
}

const TEXT: &str = "text/plain; charset=utf-8";
const HTML: &str = "text/html; charset=utf-8";

/// Answers from the folder of papers as it is now.
pub(super) fn answer(request: Request<'_>, port: u16, folder: &Path, revision: &str) -> Answer {
    if !matches!(request.hosts, [host] if is_here(host, port)) {
        return Answer::refusal(
            "403 Forbidden",
            "only requests for localhost or 127.0.0.1 are answered",
        );
    }
    if !matches!(request.method, "GET" | "HEAD") {
        return Answer::refusal("405 Method Not Allowed", "papers can only be read");
    }
    let path = request.target.split(['?', '#']).next().unwrap_or_default();
    match path.strip_prefix(OWN) {
        Some("revision") => return Answer::new("200 OK", TEXT, revision),
        Some("reload.js") => {
            return Answer::new("200 OK", "text/javascript; charset=utf-8", SCRIPT);
        }
        _ => {}
    }
    let Some(name) = name(path) else {
        return Answer::refusal("404 Not Found", "there is no such paper");
    };
    let kind = kind(&name);
    match read(folder, &name) {
        Some(bytes) if kind == HTML => Answer::new("200 OK", HTML, with_script(&bytes, revision)),
        Some(bytes) => Answer::new("200 OK", kind, bytes),
        None if kind == HTML => {
            let page = "<!DOCTYPE html>\n<title>No papers</title>\n<p>There is no such paper yet. \
                        The terminal says why.</p>\n";
            Answer::new("404 Not Found", HTML, with_script(page.as_bytes(), revision))
        }
        None => Answer::refusal("404 Not Found", "there is no such paper"),
    }
}

/// True for this machine, with our port if any is named.
fn is_here(host: &str, port: u16) -> bool {
    let (name, named) = match host.split_once(':') {
        Some((name, named)) => (name, named.parse().ok()),
        None => (host, Some(80)),
    };
    (name.eq_ignore_ascii_case("localhost") || name == "127.0.0.1") && named == Some(port)
}

/// The path below the folder; `None` for one that might lead elsewhere or to
/// something hidden.
fn name(path: &str) -> Option<PathBuf> {
    let path = percent_decode_str(path.strip_prefix('/')?).decode_utf8().ok()?;
    if path.is_empty() {
        return Some(PathBuf::from("index.html"));
    }
    let is_plain = |part: &str| {
        let odd = |c: char| c.is_control() || matches!(c, '\\' | ':');
        !part.is_empty() && !part.starts_with('.') && !part.contains(odd)
    };
    path.split('/').all(is_plain).then(|| path.split('/').collect())
}

/// The bytes of a file that truly lies in the folder: a link may lead out of it.
fn read(folder: &Path, name: &Path) -> Option<Vec<u8>> {
    let file = folder.join(name).canonicalize().ok()?;
    let inside = file.starts_with(folder.canonicalize().ok()?);
    // Opening a pipe would wait for someone to write to it.
    (inside && file.is_file()).then(|| std::fs::read(file).ok()).flatten()
}

fn kind(name: &Path) -> &'static str {
    let ending = name.extension().and_then(|ending| ending.to_str()).unwrap_or_default();
    match ending.to_ascii_lowercase().as_str() {
        "html" => HTML,
        "txt" | "md" => TEXT,
        "csv" => "text/csv; charset=utf-8",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "jpg" | "jpeg" => "image/jpeg",
        "pdf" => "application/pdf",
        _ => "application/octet-stream",
    }
}

/// The page with the script at its end; the file itself stays without.
fn with_script(page: &[u8], revision: &str) -> Vec<u8> {
    let script = format!("<script src=\"{OWN}reload.js?{revision}\"></script>\n");
    let end = b"</body>";
    let at = page.windows(end.len()).rposition(|window| window == end).unwrap_or(page.len());
    let (before, after) = page.split_at(at);
    [before, script.as_bytes(), after].concat()
}

#[cfg(test)]
mod tests;
