//! The terminal: colour, width and streams, decided once.

use std::cell::Cell;
use std::io::{ErrorKind, IsTerminal as _, Write as _};

use crate::diagnostics::render::{Look, plain};
use crate::measure::nearest;

use super::args::Color;
use super::exit::Exit;

/// What is known of standard error, where messages go.
#[derive(Debug)]
pub(super) struct Terminal {
    pub(super) look: Look,
    /// Understands more than lines.
    is_screen: bool,
    /// Set once something that was asked for could not be written.
    failed: Cell<bool>,
}

/// Messages are never wider than this, however wide the terminal is.
const WIDEST: u16 = 100;

impl Terminal {
    pub(super) fn new(colour: Color, width: Option<u16>) -> Self {
        let stream = std::io::stderr();
        let on_terminal = stream.is_terminal();
        let set = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
        let forced =
            |name: &str| set(name) && std::env::var_os(name).is_none_or(|value| value != "0");
        let colour = match colour {
            Color::Always => true,
            Color::Never => false,
            Color::Auto if set("NO_COLOR") => false,
            Color::Auto if forced("CLICOLOR_FORCE") || forced("FORCE_COLOR") => true,
            Color::Auto => on_terminal && std::env::var("TERM").is_ok_and(|term| term != "dumb"),
        };
        let own = || terminal_size::terminal_size_of(&stream).map(|(width, _)| width.0);
        let width = width.or_else(|| own().filter(|_| on_terminal).map(|width| width.min(WIDEST)));
        let look = Look {
            colour,
            unicode: !on_terminal || speaks_unicode(),
            width: usize::from(width.unwrap_or(80)),
        };
        let is_screen = on_terminal && std::env::var("TERM").is_ok_and(|term| term != "dumb");
        Self { look, is_screen, failed: Cell::new(false) }
    }

    /// Takes away what was said before; where that can't be done, an empty
    /// line parts it from what follows.
    pub(super) fn clear(&self) {
        self.tell(if self.is_screen { "\u{1b}[2J\u{1b}[3J\u{1b}[H" } else { "\n" });
    }

    /// Prints what was asked for; false where it can't be read any more.
    pub(super) fn print(&self, text: &str) -> bool {
        let mut out = std::io::stdout().lock();
        let Err(error) = out.write_all(text.as_bytes()).and_then(|()| out.flush()) else {
            return true;
        };
        // A reader that has seen enough closes the pipe; that is no failure.
        if error.kind() != ErrorKind::BrokenPipe && !self.failed.replace(true) {
            complain(&format!("the output can't be written: {error}"));
        }
        false
    }

    /// How the writing itself went.
    pub(super) fn exit(&self) -> Exit {
        if self.failed.get() { Exit::Misused } else { Exit::Sound }
    }

    /// Prints a message for people.
    pub(super) fn tell(&self, text: &str) {
        let mut err = std::io::stderr().lock();
        // Where nobody listens there is nobody to tell.
        let _ = err.write_all(text.as_bytes());
    }
}

/// A sentence of the command's own, on standard error.
pub(super) fn complain(text: &str) {
    let mut err = std::io::stderr().lock();
    // Names in it may be anybody's.
    let _ = writeln!(err, "casewright: {}", plain(text));
}

/// Says that `nothing` (`no table`) has this name, and which one comes near.
pub(super) fn complain_of_name<'a>(
    nothing: &str,
    name: &str,
    known: impl Iterator<Item = &'a str>,
) {
    let near = nearest(name, known);
    let hint = near.map_or(String::new(), |near| format!("; did you mean `{}`?", plain(near)));
    complain(&format!("{nothing} is called `{}`{hint}", plain(name)));
}

/// True where the locale says UTF-8.
fn speaks_unicode() -> bool {
    let first = ["LC_ALL", "LC_CTYPE", "LANG"]
        .into_iter()
        .find_map(|name| std::env::var(name).ok().filter(|value| !value.is_empty()));
    first.is_some_and(|locale| {
        let locale = locale.to_lowercase();
        locale.contains("utf-8") || locale.contains("utf8")
    })
}
