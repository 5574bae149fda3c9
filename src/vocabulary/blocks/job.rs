//! The job.

use super::NOTE;
use crate::vocabulary::word::{Block, Kind, Word, needs};

/// `job "…" { … }`
pub(super) const JOB: Block = Block {
    name: "job",
    title: "the job",
    help: "The heading of every paper, and how its figures are written.",
    words: &[
        Word::new("revision", "the letter or number of this drawing", "revision B")
            .takes(&[needs(Kind::LetterOrNumber)])
            .default("A"),
        Word::new("units", "the unit of bare numbers and of the papers", "units in")
            .takes(&[needs(Kind::Choice(&["in", "mm"]))])
            .required(),
        Word::new("tape", "the finest mark printed on the papers: 1/2, 1/4 and so on to 1/128 in an inch job, 1, 0.5 or 0.1 mm in a metric one; 1/32 or 0.5 mm unless written", "tape 1/32")
            .takes(&[needs(Kind::Length)]),
        Word::new("currency", "the currency of all prices", "currency \"USD\"")
            .takes(&[needs(Kind::Text)]),
        NOTE,
    ],
    one_of: &[],
};
