//! Findings of the reader and the solver, for their explain pages.

use crate::diagnostics::Severity;

use super::rule::{Base, Check, Example, Rule};

const OURS: &str = "The language; see `casewright reference`.";

const fn reading(
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
    }
}

/// They are found before there is a piece to look at.
pub(super) const RULES: &[Rule] = &[
    reading(
        "sizes-conflict",
        "Sizes that can't all hold: the openings and members of a list come to more or less than the list has. The message names the smallest set of statements that contradict each other; change any one of them and the rest can hold.",
        "Cut to these figures, the frame would not close, or the fronts would not fit it.",
        "doors store { share 1; shelf { adjustable 1 } }",
        "doors store { high 20; shelf { adjustable 1 } }",
    ),
    reading(
        "size-undetermined",
        "An opening or member whose size nothing fixes. One more statement is needed: a size, a share of what is left, or `same` as another.",
        "A size that is guessed is a size that is wrong.",
        "wide 36; deep 18",
        "deep 18",
    ),
    reading(
        "no-room",
        "An opening that comes out as nothing or less: what is fixed in its list takes all the room.",
        "There is nothing to build.",
        "drawer upper { high 5 }",
        "drawer upper { high 28 }",
    ),
    reading(
        "name-unknown",
        "A name that nothing in the spec has: a stock, a hinge, a slide, an opening.",
        "Whatever it was to bring in would be missing from the papers.",
        "back { stock thin;",
        "back { stock thni;",
    ),
    reading(
        "name-twice",
        "Two things of one kind with the same name, perhaps one of them in a file that is used.",
        "Which of the two is meant would hang on their order.",
        "pull knob { screw 5/32 }",
        "pull knob { screw 5/32 }\npull knob { screw 1/4 }",
    ),
    reading(
        "unit-mismatch",
        "A weight, an angle or a percentage where a length belongs, a length multiplied by a length, or a division by a size.",
        "The sum has no meaning in the shop.",
        "rail top    { wide 1-1/2 }",
        "rail top    { wide 1-1/2 * 2 in * 1 in }",
    ),
    reading(
        "made-odd",
        "A joint on record that can't be: a hole with a centre and no diameter, or the other way round, or one that lies beyond its board.",
        "It would be laid over the drawing and fit anything.",
        "finish oil { hardwax-oil; coats 2; cure 24 h }",
        "finish oil { hardwax-oil; coats 2; cure 24 h }\ncut 2026-03-14 { cupboard.kick { long 36; wide 4; thick 23/32; stock ply; made pull-hole { at 5 by 2 } } }",
    ),
    reading(
        "word-unknown",
        "A word that its block does not hold. A near miss is named with its mending; a word of another block is told where it belongs.",
        "A misspelt word that was passed over would leave a part off the papers.",
        "joint rabbet\n",
        "jiont rabbet\n",
    ),
    reading(
        "word-missing",
        "A word that a block can't do without.",
        "The part can't be worked out without it.",
        "stile right { wide 1-3/4 }",
        "stile right { }",
    ),
    reading(
        "word-twice",
        "A word said twice where it may stand once, or two words of which one must be chosen.",
        "Which of the two holds would hang on their order.",
        "wide 36; deep 18",
        "wide 36; wide 37; deep 18",
    ),
    reading(
        "value-wrong",
        "A value of the wrong kind: a word where a length belongs, a name that is none of the choices.",
        "The statement can't be understood.",
        "set inset;",
        "set insert;",
    ),
    reading(
        "value-missing",
        "A word without the value it needs.",
        "The statement says nothing.",
        "gap 3/32;",
        "gap;",
    ),
    reading(
        "value-extra",
        "More values than a word takes. A minus between two sizes needs a space on both sides: `opening - 1`.",
        "One of them would be passed over.",
        "box-high opening - 7/8",
        "box-high opening -7/8",
    ),
    reading(
        "block-missing",
        "A word that needs braces behind it to say what it is.",
        "The part can't be worked out without them.",
        "stile left  { wide 1-3/4 }",
        "stile left",
    ),
    reading(
        "block-unexpected",
        "Braces behind a word that has none.",
        "What stands in them would be passed over.",
        "finish oil\n}",
        "finish oil { coats 3 }\n}",
    ),
    reading(
        "not-supported-yet",
        "Something the language foresees and casewright does not do yet in this place.",
        "It is refused rather than left off the papers silently.",
        "top { stretchers 2 { wide 4 }; joint pocket }",
        "top { stretchers 2 { wide 4 }; joint pocket { deep 1/4 } }",
    ),
    reading(
        "not-a-length",
        "A name where a plain figure belongs. Only sizes of openings and members may be worked out from others.",
        "The figure would depend on something that is not known yet.",
        "gap 3/32;",
        "gap upper.high;",
    ),
    reading(
        "absurd-size",
        "A size below nought, of nothing, or beyond 100 m; a mark that no tape has; a sheet that is off what it is sold as by more than a quarter of it, and by more than 1/16 in (1.6 mm).",
        "Mostly a slip of a unit or a minus.",
        "wide 36; deep 18",
        "wide 36000 ft; deep 18",
    ),
    reading(
        "number-too-fine",
        "A figure finer than a millionth or of more than 18 digits, or a size that comes out finer still, as of long shares within shares.",
        "Rounding them in secret would make parts that don't add up.",
        "gap 3/32;",
        "gap 0.09375000000000000001;",
    ),
    reading(
        "division-by-nought",
        "A fraction over nought, or a division by it.",
        "It has no value.",
        "gap 3/32;",
        "gap 3/0;",
    ),
    reading(
        "list-empty",
        "An `across` or `down` without an opening in it.",
        "There is nothing to build.",
        "drawer upper { high 5 }\n      rail { wide 1-1/2 }\n      doors store { share 1; shelf { adjustable 1 } }",
        "rail { wide 1-1/2 }",
    ),
    reading(
        "hinge-poses",
        "Poses of a concealed hinge that give no path: one alone, angles that do not grow, or none of the closed door, which is at 0 deg and in its own place.",
        "The way of the door's edge could not be followed, and what it strikes would not be found.",
        "gap 1.5 mm; door-thickness",
        "gap 1.5 mm; pose { at 0 deg }; pose { at 90 deg; out 8 mm }; pose { at 45 deg; out 4 mm }; door-thickness",
    ),
    reading(
        "member-misplaced",
        "A rail in a list that runs across, a stile in one that runs down, a divider where there is a frame, or a partition behind a stile that does not run the whole height.",
        "Rails part openings that lie over each other, stiles those beside each other.",
        "rail { wide 1-1/2 }\n      doors",
        "stile { wide 1-1/2 }\n      doors",
    ),
    reading(
        "version-unknown",
        "A version of the language that this casewright does not know.",
        "Words may mean something else in it.",
        "casework 1 ",
        "casework 7 ",
    ),
    reading(
        "use-unreadable",
        "A file that is used and is not there, can't be read, or lies outside the folder of the spec.",
        "Its stock and hardware would be missing.",
        "casework 1 ",
        "use \"shop.case\"\ncasework 1 ",
    ),
    reading(
        "use-cycle",
        "Files that use each other in a ring.",
        "None of them could be read first.",
        "casework 1 ",
        "use \"first.case\"\ncasework 1 ",
    ),
    reading(
        "use-holds-piece",
        "A file that is used and holds a job, a site or a case.",
        "A used file is shared among jobs; a piece belongs to one.",
        "casework 1 ",
        "use \"other.case\"\ncasework 1 ",
    ),
    reading(
        "syntax",
        "A line that can't be read: a sign between a word and its value, a comma, a typesetter's fraction, a stray space in a mixed number.",
        "What it was to say would be missing.",
        "gap 3/32;",
        "gap = 3/32;",
    ),
    reading(
        "unclosed-block",
        "A brace that is never closed. The indentation tells which one.",
        "Everything after it would be read into the wrong block.",
        "stile left  { wide 1-3/4 }",
        "stile left  { wide 1-3/4",
    ),
    reading(
        "stray-brace",
        "A closing brace where none is open.",
        "A block may have ended too early.",
        "  finish oil\n}",
        "  finish oil\n} }",
    ),
    reading(
        "unclosed-text",
        "A text without its closing quote.",
        "The rest of the line would be taken for text.",
        "job \"First cabinet\" {",
        "job \"First cabinet {",
    ),
    reading(
        "control-character",
        "A control character in the file.",
        "It can't be seen, and could hide something.",
        "wide 36; deep 18",
        "wide 36;\u{7} deep 18",
    ),
    reading(
        "merge-conflict",
        "The marks that git leaves where two changes met, with both versions between them. Nothing else is said of the file until one of them holds.",
        "Read together, the two would ask for boards that nobody drew.",
        "pull knob { screw 5/32 }\n",
        "<<<<<<< HEAD\npull knob { screw 5/32 }\n=======\npull knob { screw 3/16 }\n>>>>>>> stout-screws\n",
    ),
    reading(
        "nested-too-deep",
        "Braces or parentheses nested deeper than any piece needs.",
        "Mostly braces that were never closed.",
        "wide 36; deep 18",
        "wide ((((((((((((((((((((((((((((((((((36)))))))))))))))))))))))))))))))))); deep 18",
    ),
    reading(
        "line-too-long",
        "A line of more than 4096 bytes.",
        "No statement is that long.",
        "casework 1 ",
        LONG_LINE,
    ),
    reading(
        "file-too-large",
        "A file of more than 8 MiB.",
        "No piece is that large; it would be slow to check on every save.",
        "casework 1 ",
        LARGE_FILE,
    ),
    reading(
        "too-many",
        "More than 10 000 statements in one block or 100 000 in a file, more than 1 000 cases, more than 500 openings in one case, more than 50 000 parts, or more than 300 joints on record of one part.",
        "No piece is that large; it would be slow to check on every save.",
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
    use super::super::{all, rule::Base};
    use super::{LARGE_FILE, LONG_LINE, MANY_CASES};
    use crate::diagnostics::Severity;
    use crate::model::MemoryFiles;
    use crate::pipeline;

    fn found(text: &str) -> Vec<&'static str> {
        let files = MemoryFiles::one("first.case", text).with("other.case", "site { left open }\n");
        let compiled = pipeline::check(&files, "first.case").expect("readable");
        compiled.diagnostics.iter().map(|d| d.slug).collect()
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
