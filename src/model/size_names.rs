//! Names of sizes that expressions may use.

use crate::diagnostics::{Diagnostic, Fix, Grade};
use crate::measure::{Spanned, nearest};
use crate::vocabulary::Fault;

use super::layout::Variable;
use super::opening::Axis;

/// Names of sizes that expressions may use.
#[derive(Debug, Default)]
pub(super) struct SizeNames {
    /// Dotted path, width and height.
    names: Vec<(String, [Variable; 2])>,
    /// Only their widths are unknown together.
    widths: bool,
}

impl SizeNames {
    /// Names of things of which only the widths may be asked for.
    pub(super) fn of_widths() -> Self {
        Self { names: Vec::new(), widths: true }
    }

    pub(super) fn add(&mut self, path: &str, wide: Variable, high: Variable) {
        self.names.push((path.to_owned(), [wide, high]));
    }

    /// The width or height of a name that was found.
    pub(super) fn variable(&self, index: usize, axis: Axis) -> Variable {
        self.names[index].1[usize::from(axis == Axis::Down)]
    }

    /// The variable that `upper.high` means.
    pub(super) fn size(&self, name: &crate::syntax::Name) -> Result<Variable, Fault> {
        let unknown = |title: String, label: &str| {
            Err(Box::new(Diagnostic::error("name-unknown", title, name.span, label)))
        };
        let text = name.text();
        let along = |word: &str| Axis::BOTH.into_iter().find(|axis| axis.size_word() == word);
        let Some((path, axis)) =
            text.rsplit_once('.').and_then(|(path, word)| along(word).map(|axis| (path, axis)))
        else {
            return unknown(
                format!("`{text}` is not a size; write `{text}.wide` or `{text}.high`"),
                "wide or high?",
            );
        };
        if self.widths && axis == Axis::Down {
            let title = format!("`{text}` can't be used here: only widths add up in a run");
            return unknown(title, "a height");
        }
        match self.find(path) {
            Found::One(index) => Ok(self.variable(index, axis)),
            Found::Many => unknown(
                format!("`{path}` is the name of several openings"),
                "write more of the name",
            ),
            Found::None => {
                let near = nearest(path, self.names.iter().map(|(n, _)| last(n)));
                let mut fault = Diagnostic::error(
                    "name-unknown",
                    format!("no opening is called `{path}`"),
                    name.span,
                    "unknown name",
                );
                if let Some(near) = near {
                    fault = fault.note(format!("did you mean `{near}`?"));
                }
                Err(Box::new(fault))
            }
        }
    }

    /// The finding of a name behind the `same` of `own` that means nothing.
    pub(super) fn unknown(&self, path: Spanned<&str>, own: &str, of_run: bool) -> Diagnostic {
        let title = match of_run {
            true => format!("nothing in the run is called `{}`", path.value),
            false => format!("no opening is called `{}`", path.value),
        };
        let found = Diagnostic::error("name-unknown", title, path.span, "unknown name");
        let others = self.names.iter().map(|(name, _)| last(name)).filter(|name| *name != own);
        match nearest(path.value, others).filter(|near| matches!(self.find(near), Found::One(_))) {
            Some(near) => {
                found.fix(Fix::new(Grade::Choice, format!("it is `{near}`"), path.span, near))
            }
            None => found,
        }
    }

    /// The name that a path, or the end of one, means.
    pub(super) fn find(&self, path: &str) -> Found {
        let dotted = format!(".{path}");
        let exact = self.names.iter().position(|(known, _)| known == path);
        if let Some(index) = exact {
            return Found::One(index);
        }
        let mut matches = self
            .names
            .iter()
            .enumerate()
            .filter(|(_, (known, _))| known.ends_with(&dotted))
            .map(|(index, _)| index);
        match (matches.next(), matches.next()) {
            (Some(index), None) => Found::One(index),
            (Some(_), Some(_)) => Found::Many,
            (None, _) => Found::None,
        }
    }
}

/// What a name means.
pub(super) enum Found {
    /// This one.
    One(usize),
    /// More than one thing.
    Many,
    /// Nothing.
    None,
}

/// The last part of a dotted name.
pub(super) fn last(path: &str) -> &str {
    path.rsplit('.').next().unwrap_or(path)
}
