//! Findings of the reader and the solver, for their explain pages.

use crate::diagnostics::Severity;

use super::rule::{Base, Check, Example, Rule};

const RANGES: &str = "Each word's own range in the vocabulary, which is wider than what is usually built: common practice, no source.";
const OURS: &str = "The language. See `casewright reference`.";

pub(super) const fn reading(
    slug: &'static str,
    finds: &'static str,
    why: &'static str,
    sound: &'static str,
    wrong: &'static str,
) -> Rule {
    Rule {
        slug,
        severity: Severity::Error,
        finds,
        why,
        source: OURS,
        formula: "",
        accept: "",
        example: Example { base: Base::First, sound, wrong },
        check: Check::Reading,
        sometimes: None,
    }
}

/// They are found before there is a piece to look at.
pub(super) const RULES: &[Rule] = &[
    reading(
        "sizes-conflict",
        "Sizes can't all hold: the openings and members of a list come to more or less than the list has. The message names the smallest set of statements that contradict each other. Change any one of them, and the rest can hold.",
        "If you cut to these figures, the frame would not close or the fronts would not fit it.",
        "doors store { share 1; shelf { adjustable 1 } }",
        "doors store { high 20; shelf { adjustable 1 } }",
    ),
    reading(
        "size-undetermined",
        "Nothing fixes the size of an opening or a member. It needs one more statement: a size, a share of what is left, or `same` as another.",
        "A guessed size is a wrong size.",
        "wide 36; deep 18",
        "deep 18",
    ),
    reading(
        "no-room",
        "An opening comes out at zero or less, because the fixed sizes in its list take all the room.",
        "There is nothing to build.",
        "drawer upper { high 5 }",
        "drawer upper { high 28 }",
    ),
    Rule {
        example: Example {
            base: Base::Run,
            sound: "filler corner { share 1 }",
            wrong: "filler corner { share 1 }\n    filler slip { wide 50 }",
        },
        ..reading(
            "filler-unheld",
            "A filler has no case beside it. Its batten is screwed to the end of a case; a wall, a space, and another filler hold nothing.",
            "A strip that nothing holds falls over.",
            "",
            "",
        )
    },
    reading(
        "name-unknown",
        "A name does not stand for anything in the spec. It should be a stock, a hinge, a slide, or an opening.",
        "Whatever it was meant to bring in would be missing from the papers.",
        "back { stock thin;",
        "back { stock thni;",
    ),
    reading(
        "name-twice",
        "Two things of one kind have the same name. One of them may be in a used file.",
        "Nobody could tell which of the two is meant.",
        "pull knob { screw 5/32 }",
        "pull knob { screw 5/32 }\npull knob { screw 1/4 }",
    ),
    reading(
        "unit-mismatch",
        "A weight, an angle, or a percentage stands where a length belongs, a length is multiplied by a length, or something is divided by a size.",
        "The sum has no meaning in the shop.",
        "rail top    { wide 1-1/2 }",
        "rail top    { wide 1-1/2 * 2 in * 1 in }",
    ),
    Rule {
        example: Example {
            base: Base::Pantry,
            sound: "tray pans  { high 16; box { high 3-1/2 } }",
            wrong: "drawer pans  { high 16; front { set overlay } }",
        },
        ..reading(
            "front-behind-door",
            "A drawer behind doors has a front that is set over the edges of its opening. There the doors close.",
            "The doors would stand open by the thickness of the front.",
            "",
            "",
        )
    },
    reading(
        "made-odd",
        "A recorded joint can't exist. It is a hole with a center but no diameter, a hole with a diameter but no center, or a joint that lies off its board.",
        "Laid over the drawing, such a joint would match anything.",
        "finish oil { hardwax-oil; coats 2; cure 24 h }",
        "finish oil { hardwax-oil; coats 2; cure 24 h }\ncut 2026-03-14 { cupboard.kick { long 36; wide 4; thick 23/32; stock ply; made pull-hole { at 5 by 2 } } }",
    ),
    reading(
        "word-unknown",
        "A block does not take a word that stands in it. For a near miss the message offers the right word, and for a word of another block it says where that word belongs.",
        "If a misspelled word were skipped, a part would be missing from the papers.",
        "joint rabbet\n",
        "jiont rabbet\n",
    ),
    reading(
        "word-missing",
        "A block lacks a word that it needs.",
        "The part can't be worked out without it.",
        "stile right { wide 1-3/4 }",
        "stile right { }",
    ),
    reading(
        "word-twice",
        "A word that may stand once is written twice, or two words are written where you must choose one.",
        "Nobody could tell which of the two holds.",
        "wide 36; deep 18",
        "wide 36; wide 37; deep 18",
    ),
    reading(
        "value-wrong",
        "A value is of the wrong kind, such as a word where a length belongs, or a name that is not one of the choices.",
        "The statement can't be understood.",
        "set inset;",
        "set insert;",
    ),
    reading(
        "value-missing",
        "A word has no value, and it needs one.",
        "The statement says nothing.",
        "gap 3/32;",
        "gap;",
    ),
    reading(
        "value-extra",
        "A word has more values than it takes. A minus between two sizes needs a space on both sides: `opening - 1`.",
        "One of the values would be skipped.",
        "box-high opening - 7/8",
        "box-high opening -7/8",
    ),
    reading(
        "block-missing",
        "A word needs braces after it, and it has none.",
        "The part can't be worked out without what belongs in them.",
        "stile left  { wide 1-3/4 }",
        "stile left",
    ),
    reading(
        "block-unexpected",
        "A word has braces after it, and it takes none.",
        "What stands in the braces would be skipped.",
        "finish oil\n}",
        "finish oil { coats 3 }\n}",
    ),
    reading(
        "not-supported-yet",
        "The language allows this here, but casewright does not support it yet.",
        "It is refused so that it can't go missing from the papers unnoticed.",
        "top { stretchers 2 { wide 4 }; joint pocket }",
        "top { stretchers 2 { wide 4 }; joint pocket { deep 1/4 } }",
    ),
    reading(
        "not-a-length",
        "A name stands where a plain figure belongs. Only the sizes of openings and members may be worked out from other sizes.",
        "The figure would depend on something that is not known yet.",
        "gap 3/32;",
        "gap upper.high;",
    ),
    reading(
        "absurd-size",
        "A size is negative, zero, or over 100 m, the job has a mark that no tape has, or a sheet is far off the thickness it is sold as. A sheet is far off when it differs by more than a quarter and by more than 1/16 in (1.6 mm).",
        "The usual cause is a wrong unit or a stray minus.",
        "tape     1/32",
        "tape     1/48",
    ),
    Rule {
        source: RANGES,
        ..reading(
            "unit-slip",
            "A figure can't be right in its unit, but it would be in the other one. It may have a unit behind it that is not the file's, as `wide 1400 in` or `gap 1/8 mm` has.",
            "The case would be cut 25 times too large or too small, and all that follows from the figure would be reported instead of the slip.",
            "wide 36; deep 18",
            "wide 36 mm; deep 18",
        )
    },
    Rule {
        source: RANGES,
        ..reading(
            "figure-impossible",
            "A figure can't be right in any piece: it lies outside what its word can be. Where it would be right in the other unit, it is a `unit-slip` instead.",
            "A digit is missing or doubled, or a point is a place off, and the wood or the hour is gone before anyone sees it.",
            "swing 105 deg",
            "swing 10.5 deg",
        )
    },
    Rule {
        severity: Severity::Warning,
        source: RANGES,
        accept: "Accept it when the figure is what you mean.",
        sometimes: Some((
            Severity::Error,
            "What follows from the figure can't be built. Those findings are told with it, and not by themselves unless you accept the figure.",
        )),
        ..reading(
            "figure-odd",
            "A figure is possible, but outside what its word usually is. The message offers what may have been meant: the other unit, or the point one place to the left or right.",
            "A figure in the wrong unit or with a digit too many looks right on paper and is found at the saw.",
            "set-back 3; cut-into",
            "set-back 0.3; cut-into",
        )
    },
    Rule {
        source: "Common practice, no source.",
        ..reading(
            "size-doubtful",
            "A case is less than 9 in (229 mm) wide, high, or deep overall, or its size has a different unit from the rest of the file, and the size that was probably meant would clear two or more other findings. Or an opening takes more than four fifths of its case, and the size that was probably meant would clear four or more. Those findings are listed under this one, not separately.",
            "A digit missing from an overall size would be reported at every board and front that has no room, and nowhere as what it is.",
            "wide 36; deep 18",
            "wide 6; deep 18",
        )
    },
    Rule {
        severity: Severity::Warning,
        accept: "There is no need: it is read the right way round. Turn it around.",
        ..reading(
            "range-backwards",
            "A range is written with its upper end first. It is read the right way round.",
            "One of the two figures may be a slip, since nobody counts downward.",
            "humidity 30% to 55%",
            "humidity 55% to 30%",
        )
    },
    Rule {
        example: Example {
            base: Base::Console,
            sound: "stile left   { wide 1-3/4; seam miter }",
            wrong: "stile left   { wide 1-3/4; seam butt }",
        },
        ..reading(
            "seams-differ",
            "An end says that its seam with the stile is mitered and the stile says that it is butted, or the other way around. What only one of the two says holds for both.",
            "They are the two sides of one joint. Cut to both, the end or the stile comes out too narrow.",
            "",
            "",
        )
    },
    reading(
        "number-too-fine",
        "A figure is finer than a millionth or has more than 18 digits, or a size works out finer still, as long shares within shares do.",
        "If it were rounded in secret, the parts would not add up.",
        "gap 3/32;",
        "gap 0.09375000000000000001;",
    ),
    reading(
        "division-by-zero",
        "A fraction has zero under its line, or a size is divided by zero.",
        "The result has no value.",
        "gap 3/32;",
        "gap 3/0;",
    ),
    reading(
        "list-empty",
        "An `across` or `down` has no opening in it.",
        "There is nothing to build.",
        "drawer upper { high 5 }\n      rail { wide 1-1/2 }\n      doors store { share 1; shelf { adjustable 1 } }",
        "rail { wide 1-1/2 }",
    ),
    reading(
        "hinge-poses",
        "The poses of a concealed hinge give no path. There is only one, the angles don't increase, or none is the closed door at 0 deg in its own place.",
        "Nobody could follow the path of the door's edge or find what it strikes.",
        "gap 1.5 mm; door-thickness",
        "gap 1.5 mm; pose { at 0 deg }; pose { at 90 deg; out 8 mm }; pose { at 45 deg; out 4 mm }; door-thickness",
    ),
    reading(
        "member-misplaced",
        "A member stands where it can't part anything. It is a rail in a list that runs across, a stile in a list that runs down, a divider where there is a frame, or a partition behind a stile that stops short of the full height.",
        "Rails part openings that lie above each other. Stiles part openings that lie beside each other.",
        "rail { wide 1-1/2 }\n      doors",
        "stile { wide 1-1/2 }\n      doors",
    ),
    reading(
        "version-unknown",
        "This casewright does not know the spec's version of the language.",
        "Words may have another meaning in that version.",
        "casework 1 ",
        "casework 7 ",
    ),
    reading(
        "use-unreadable",
        "A used file is missing, can't be read, or lies outside the spec's folder.",
        "Its stock and hardware would be missing.",
        "casework 1 ",
        "use \"shop.case\"\ncasework 1 ",
    ),
    reading(
        "use-cycle",
        "Files use each other in a ring.",
        "None of them could be read first.",
        "casework 1 ",
        "use \"first.case\"\ncasework 1 ",
    ),
    reading(
        "use-holds-piece",
        "A used file holds a job, a site, or a case.",
        "A used file is shared among jobs, and a piece belongs to one job.",
        "casework 1 ",
        "use \"other.case\"\ncasework 1 ",
    ),
    reading(
        "syntax",
        "A line can't be read. The cause may be a sign between a word and its value, a comma, a one-character fraction, or a stray space in a mixed number.",
        "What the line was meant to say would be missing.",
        "gap 3/32;",
        "gap = 3/32;",
    ),
    reading(
        "unclosed-block",
        "A brace is never closed. The indentation shows which one.",
        "Everything after it would be read into the wrong block.",
        "stile left  { wide 1-3/4 }",
        "stile left  { wide 1-3/4",
    ),
    reading(
        "stray-brace",
        "A closing brace stands where none is open.",
        "A block may have ended too early.",
        "  finish oil\n}",
        "  finish oil\n} }",
    ),
    reading(
        "unclosed-text",
        "A text has no closing quote.",
        "The rest of the line would be read as part of the text.",
        "job \"First cabinet\" {",
        "job \"First cabinet {",
    ),
    reading(
        "control-character",
        "The file holds a control character.",
        "Nobody can see it, and it could hide something.",
        "wide 36; deep 18",
        "wide 36;\u{7} deep 18",
    ),
    reading(
        "merge-conflict",
        "The file holds the conflict markers that git leaves where two changes met. Nothing else is reported for the file until you keep one version.",
        "Read together, the two versions would ask for boards that nobody drew.",
        "pull knob { screw 5/32 }\n",
        "<<<<<<< HEAD\npull knob { screw 5/32 }\n=======\npull knob { screw 3/16 }\n>>>>>>> stout-screws\n",
    ),
    reading(
        "nested-too-deep",
        "Braces or parentheses are nested deeper than any piece needs.",
        "The usual cause is braces that were never closed.",
        "wide 36; deep 18",
        "wide ((((((((((((((((((((((((((((((((((36)))))))))))))))))))))))))))))))))); deep 18",
    ),
    reading(
        "line-too-long",
        "A line has more than 4096 bytes.",
        "No statement is that long.",
        "casework 1 ",
        LONG_LINE,
    ),
    reading(
        "file-too-large",
        "A file has more than 8 MiB.",
        "No piece is that large, and it would be slow to check on every save.",
        "casework 1 ",
        LARGE_FILE,
    ),
    reading(
        "too-many",
        "The spec holds more than casewright reads. The limits are 10,000 statements in one block and 100,000 in a file, 1,000 cases, 500 openings and 300 shelves in one case, 1,000 shelves, 50,000 parts, and 300 recorded joints of one part.",
        "No piece is that large, and it would be slow to check on every save.",
        "casework 1 ",
        MANY_CASES,
    ),
];

/// Stand-ins for texts too long to print; the test writes the real ones.
pub(super) const LONG_LINE: &str = "(a line of 5000 letters)";
pub(super) const LARGE_FILE: &str = "(a file of 9 MiB)";
pub(super) const MANY_CASES: &str = "(a spec of 1001 cases)";

#[cfg(test)]
mod tests {
    use std::fmt::Write as _;

    use super::super::{all, rule::Base};
    use super::{LARGE_FILE, LONG_LINE, MANY_CASES};
    use crate::diagnostics::Severity;
    use crate::model::MemoryFiles;
    use crate::pipeline;

    fn compiled(text: &str) -> pipeline::Compilation {
        let files = MemoryFiles::one("first.case", text).with("other.case", "site { left open }\n");
        pipeline::check(&files, "first.case").expect("readable")
    }

    fn found(text: &str) -> Vec<&'static str> {
        compiled(text).diagnostics.iter().map(|d| d.slug).collect()
    }

    /// The text, with every odd figure of it accepted: what follows from one is not told
    /// before that.
    fn with_odd_accepted(mut text: String) -> String {
        for odd in compiled(&text).diagnostics.iter().filter(|own| own.slug == "figure-odd") {
            let subject = odd.subject.as_deref().unwrap_or_default();
            let _ = write!(text, "\naccept figure-odd on {subject} \"meant so\"\n");
        }
        text
    }

    #[test]
    fn the_specs_that_examples_change_are_sound() {
        for base in [Base::First, Base::Console, Base::Press, Base::Alcove] {
            assert_eq!(found(base.text()), Vec::<&str>::new(), "{base:?}");
        }
    }

    #[test]
    fn every_rule_fires_on_its_example_and_says_nothing_else() {
        let mut wrong = Vec::new();
        for rule in all() {
            let example = rule.example;
            assert!(example.base.text().contains(example.sound), "{}", rule.slug);
            let mut broken = example.broken();
            broken = broken.replace(LONG_LINE, &"x".repeat(5000));
            broken = broken.replace(LARGE_FILE, &"# long\n".repeat(1_300_000));
            if broken.contains(MANY_CASES) {
                let at = broken.find("case cupboard").expect("a case");
                let case = broken[at..].to_owned();
                broken = broken.replace(MANY_CASES, &format!("casework 1\n{}", case.repeat(1001)));
            }
            if rule.slug != "figure-odd" {
                broken = with_odd_accepted(broken);
            }
            let slugs = found(&broken);
            if slugs.is_empty() || slugs.iter().any(|slug| *slug != rule.slug) {
                wrong.push((rule.slug, slugs));
            }
        }
        assert!(wrong.is_empty(), "{wrong:#?}");
    }

    #[test]
    fn what_may_be_accepted_says_when() {
        for rule in all() {
            let acceptable = rule.severity != Severity::Error;
            assert_eq!(acceptable, !rule.accept.is_empty(), "{}", rule.slug);
        }
    }

    #[test]
    fn slugs_are_declared_once() {
        let mut slugs: Vec<&str> = all().map(|rule| rule.slug).collect();
        slugs.sort_unstable();
        let all = slugs.len();
        slugs.dedup();
        assert_eq!(slugs.len(), all);
    }
}
