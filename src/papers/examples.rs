//! Short complete pieces, one for each construct of the language: whoever looks
//! for the way to say a thing finds it by looking. What they share stands in a
//! file that all of them `use`.

use crate::model::MemoryFiles;
use crate::pipeline::{self, Compilation};

/// A piece that shows how one thing is said.
#[derive(Clone, Copy, Debug)]
pub struct Example {
    /// The name of its file, without the ending.
    pub slug: &'static str,
    /// Its text. A comment of its own, from the head to the job, says what it shows.
    pub text: &'static str,
}

/// The file that every example uses, by the name that they use it by.
pub const SHARED: (&str, &str) = ("shop.case", include_str!("../../specs/examples/shop.case"));

macro_rules! examples {
    ($($slug:literal)*) => {
        /// The examples, in the order of the reference.
        pub const EXAMPLES: &[Example] = &[$(Example {
            slug: $slug,
            text: include_str!(concat!("../../specs/examples/", $slug, ".case")),
        }),*];
    };
}

examples! {
    "open-shelves"
    "frame-and-doors"
    "lists-in-lists"
    "shelf-behind-a-rail"
    "overlay"
    "fronts-in-sequence"
    "false-front"
    "paneled-doors"
    "glazed-doors"
    "trays-behind-doors"
    "drawers-on-wood"
    "web-frames"
    "dadoes-by-saw"
    "posts"
    "bought-legs"
    "cupboard-on-posts"
    "nightstand"
    "nightstands"
    "slides-between-posts"
    "fluted-fronts"
    "edges"
    "countertop"
    "holes"
    "hung-on-the-wall"
    "over-a-case"
    "baseboard"
    "two-cases"
    "pair"
    "run"
    "run-on-the-wall"
    "tops-in-line"
    "hutch"
    "boards-on-hand"
    "covers"
    "cover-under"
    "measured-and-cut"
}

impl Example {
    /// The piece, compiled with what it uses.
    #[must_use]
    pub fn compiled(&self) -> Option<Compilation> {
        let (shared, text) = SHARED;
        let name = format!("{}.case", self.slug);
        let files = MemoryFiles::one(&name, self.text).with(shared, text);
        pipeline::check(&files, &name).ok()
    }

    /// What it shows: the sentences of its comment.
    #[must_use]
    pub fn says(&self) -> String {
        let comment = self.text.lines().filter_map(|line| line.strip_prefix("# "));
        comment.collect::<Vec<&str>>().join(" ")
    }

    /// What is to be written, without the comment that says what it shows.
    #[must_use]
    pub fn spec(&self) -> String {
        let mut lines: Vec<&str> = Vec::new();
        for line in self.text.lines().filter(|line| !line.starts_with("# ")) {
            let doubled = line.is_empty() && lines.last().is_some_and(|last| last.is_empty());
            if !doubled {
                lines.push(line);
            }
        }
        lines.join("\n")
    }
}
