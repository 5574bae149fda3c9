//! What the page may look like; decided by whoever owns the terminal.

use miette::{GraphicalTheme, ThemeCharacters, ThemeStyles};

use crate::diagnostics::Severity;

/// Width, characters and colour of what is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Look {
    /// Columns.
    pub width: usize,
    /// Lines and signs beyond ASCII are understood.
    pub unicode: bool,
    /// Colour is wanted. It never carries meaning alone.
    pub colour: bool,
}

impl Look {
    /// What a file or a pipe gets: 80 columns, all characters, no colour.
    #[must_use]
    pub fn plain() -> Self {
        Self { width: 80, unicode: true, colour: false }
    }

    /// miette's theme for this look; never asks the environment.
    pub(super) fn theme(self) -> GraphicalTheme {
        GraphicalTheme {
            characters: if self.unicode {
                ThemeCharacters::unicode()
            } else {
                ThemeCharacters::ascii()
            },
            styles: if self.colour { ThemeStyles::ansi() } else { ThemeStyles::none() },
        }
    }

    /// A word in the colour of a severity.
    pub(super) fn severity(self, severity: Severity, text: &str) -> String {
        if !self.colour {
            return text.to_owned();
        }
        let styles = ThemeStyles::ansi();
        let style = match severity {
            Severity::Error => styles.error,
            Severity::Warning => styles.warning,
            Severity::Note => styles.advice,
        };
        style.bold().style(text).to_string()
    }

    /// A word that should be found at once.
    pub(super) fn strong(self, text: &str) -> String {
        if !self.colour {
            return text.to_owned();
        }
        ThemeStyles::none().error.bold().style(text).to_string()
    }

    /// A word that stands back.
    pub(super) fn faint(self, text: &str) -> String {
        if !self.colour {
            return text.to_owned();
        }
        ThemeStyles::ansi().linum.style(text).to_string()
    }

    /// What stands for lines or words left out.
    pub(super) fn ellipsis(self) -> &'static str {
        if self.unicode { "…" } else { "..." }
    }
}
