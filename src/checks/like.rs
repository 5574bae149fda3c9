//! Findings of cases that are like others, for their explain pages.

use super::reading::reading;
use super::rule::{Base, Example, Rule};

/// They are found before there is a piece to look at.
pub(super) const RULES: &[Rule] = &[
    reading(
        "like-ring",
        "A case is like itself, or cases are like each other in a ring.",
        "None of them says what it is.",
        "hardwax-oil; coats 2; cure 24 h }",
        "hardwax-oil; coats 2; cure 24 h }\ncase twin { like twin }",
    ),
    reading(
        "like-openings",
        "A case that is like another says openings or a frame of its own.",
        "Nobody could tell which of the two holds.",
        "hardwax-oil; coats 2; cure 24 h }",
        "hardwax-oil; coats 2; cure 24 h }\ncase twin { like cupboard; frame none }",
    ),
    Rule {
        example: Example {
            base: Base::Hutch,
            sound: "hardwax-oil; coats 2; cure 24 h }",
            wrong: "hardwax-oil; coats 2; cure 24 h }\ncase twin { like hutch }",
        },
        ..reading(
            "like-place",
            "A case that is like another would stand or hang in the same place on or over a third one.",
            "Two cases can't be in one place.",
            "",
            "",
        )
    },
];
