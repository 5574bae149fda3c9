//! What a file is for: a piece of its own, or something that pieces use.

use crate::measure::FileId;
use crate::syntax::{Item, Statement, Tree};
use crate::vocabulary::words::file;
use crate::vocabulary::{self, Word};

/// What a file is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// It is a piece, or was to be one: it has a job or a case.
    Piece,
    /// It has neither, and nothing in it tells of a slip: others use it.
    Shared,
    /// It has neither, but it can't be read to its end, or a line begins with a
    /// word that no file has: a slip may have hidden the piece.
    Doubtful,
}

/// What the file with this text is for.
#[must_use]
pub fn role(text: &str) -> Role {
    let (tree, found) = vocabulary::parse(FileId::default(), text);
    role_of(&tree, found.is_empty())
}

/// What the file with this tree is for; `whole` where nothing was wrong with
/// its form.
#[must_use]
pub(super) fn role_of(tree: &Tree, whole: bool) -> Role {
    let mut words = tree.items.iter().filter_map(statement).map(|it| it.word.text());
    let pieces = [file::CASE, file::RUN].map(Word::spelling);
    if words.clone().any(|word| pieces.contains(&word) || word == file::JOB.spelling()) {
        return Role::Piece;
    }
    match !whole || words.any(|word| file::block().word(word).is_none()) {
        true => Role::Doubtful,
        false => Role::Shared,
    }
}

fn statement(item: &Item) -> Option<&Statement> {
    match item {
        Item::Statement(statement) => Some(statement),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_a_piece_by_its_job_or_case() {
        assert_eq!(role("job \"Hall\" { units inch }\n"), Role::Piece);
        assert_eq!(role("case a {\n  wide 3\n"), Role::Piece);
        assert_eq!(role("# shared\nstock ply { sheet 3/4 }\n"), Role::Shared);
        assert_eq!(role(""), Role::Shared);
        assert_eq!(role("caes a { wide 3 }\n"), Role::Doubtful);
        assert_eq!(role("stock ply { sheet 3/4\n"), Role::Doubtful);
    }
}
