//! Reading a text: every construct of the language, and what is said of mistakes.

use casewright::diagnostics::Grade;
use casewright::measure::{Exact, FileId, Unit};
use casewright::syntax::{Argument, Expr, ExprKind, Item, Number, NumberUnit, Statement};
use casewright::vocabulary::parse;

fn statements(text: &str) -> Vec<Statement> {
    let (tree, found) = parse(FileId(0), text);
    assert!(found.is_empty(), "{text}: {found:#?}");
    let only = |item| match item {
        Item::Statement(statement) => Some(statement),
        _ => None,
    };
    tree.items.into_iter().filter_map(only).collect()
}

fn titles(text: &str) -> Vec<String> {
    parse(FileId(0), text).1.into_iter().map(|d| format!("{}: {}", d.slug, d.title)).collect()
}

fn number(text: &str) -> Number {
    let all = statements(&format!("wide {text}"));
    match all[0].arguments.as_slice() {
        [Argument::Expr(Expr { kind: ExprKind::Number(number), .. })] => *number,
        other => panic!("{text}: {other:?}"),
    }
}

#[test]
fn numbers_are_exact_however_they_are_written() {
    let inch = Some(NumberUnit::Length(Unit::Inch));
    let mm = Some(NumberUnit::Length(Unit::Millimetre));
    for (text, value, unit) in [
        ("3/4", Exact::ratio(3, 4), None),
        ("1-1/2", Exact::ratio(3, 2), None),
        ("1 1/2", Exact::ratio(3, 2), None),
        ("23.5", Exact::ratio(47, 2), None),
        ("0.1", Exact::ratio(1, 10), None),
        ("17/3", Exact::ratio(17, 3), None),
        ("18mm", Exact::int(18), mm),
        ("18 mm", Exact::int(18), mm),
        ("4 cm", Exact::int(4), Some(NumberUnit::Length(Unit::Centimetre))),
        ("1.2 m", Exact::ratio(6, 5), Some(NumberUnit::Length(Unit::Metre))),
        ("7\"", Exact::int(7), inch),
        ("7 in", Exact::int(7), inch),
        ("5'", Exact::int(5), Some(NumberUnit::Length(Unit::Foot))),
        ("5 ft", Exact::int(5), Some(NumberUnit::Length(Unit::Foot))),
        ("5' 3-1/2\"", Exact::ratio(127, 2), inch),
        ("5 ft 3 1/2 in", Exact::ratio(127, 2), inch),
        ("35%", Exact::int(35), Some(NumberUnit::Percent)),
        ("30 min", Exact::int(30), Some(NumberUnit::Minute)),
        ("68 F", Exact::int(68), Some(NumberUnit::Fahrenheit)),
        ("75 lb", Exact::int(75), Some(NumberUnit::Pound)),
    ] {
        let is_fraction = text.contains('/');
        let is_top_heavy = text == "17/3";
        assert_eq!(number(text), Number { value, unit, is_fraction, is_top_heavy }, "{text}");
    }
}

#[test]
fn a_minus_is_told_from_a_hyphen_by_its_spaces() {
    assert_eq!(statements("high opening - 1-5/8")[0].arguments.len(), 1);
    assert_eq!(statements("high upper.high/2 + 3 * (a - b)")[0].arguments.len(), 1);
    assert_eq!(statements("covers 30 m2 per l")[0].arguments.len(), 4);
    assert_eq!(statements("humidity 30% to 55%")[0].arguments.len(), 3);
    assert_eq!(statements("diagonals 37-5/32 37-7/32")[0].arguments.len(), 2);
}

#[test]
fn the_hall_console_is_read_whole() {
    let all = statements(include_str!("../specs/hall-console.case"));
    let words: Vec<&str> = all.iter().map(|s| s.word.text()).collect();
    for word in ["casework", "job", "site", "shop", "stock", "hinge", "slide", "case"] {
        assert!(words.contains(&word), "{word}");
    }
}

#[test]
fn comments_and_empty_lines_are_kept() {
    let (tree, _) = parse(FileId(0), "# head\n\nwide 3 # behind\nhigh 4\n");
    assert!(matches!(tree.items[0], Item::Comment(_)));
    assert!(matches!(tree.items[1], Item::Blank));
    let Item::Statement(wide) = &tree.items[2] else { panic!() };
    assert_eq!(wide.comment.as_ref().map(|c| c.text.as_str()), Some("# behind"));
    assert_eq!(tree.items.len(), 4);
}

#[test]
fn each_mistake_gives_one_message() {
    let text = "case a {\n  wide = 66\n  deep 17\n  high: 33\n  note “hm”\n  3 wide\n  \
                top { stretchers 2, wide 4 }\n  back ½\n  Bottom 1\n  deep 1/0\n  name \"x\n}\n";
    let found = titles(text);
    assert_eq!(found.len(), 9, "{found:#?}");
    assert!(found.iter().all(|title| !title.contains("Rule")));
}

#[test]
fn an_unclosed_brace_is_found_by_the_indent() {
    let text = "case a {\n  frame {\n    stock x\n  fronts { stock y }\n}\nshop { kerf 1 }\n";
    let (_, found) = parse(FileId(0), text);
    assert_eq!(found.len(), 1, "{found:#?}");
    assert_eq!(found[0].slug, "unclosed-block");
    // It is missing behind this, and the brace that it should close is labeled.
    assert_eq!(&text[found[0].primary.span.range()], "x");
    assert_eq!(found[0].labels[0].span.start, 17);
}

#[test]
fn a_stray_brace_and_a_missing_separator_are_told() {
    assert_eq!(titles("a { b 1 }\n}\n").len(), 1);
    assert_eq!(titles("a { b 1 } c 2\n").len(), 1);
}

#[test]
fn hostile_nesting_is_refused_on_a_small_stack() {
    let run = || {
        for text in ["a {".repeat(5_000), "{".repeat(1 << 20), format!("a {}", "(".repeat(100_000))]
        {
            assert!(!parse(FileId(0), &text).1.is_empty());
        }
        let long = format!("a 1{}", " + 1".repeat(200_000));
        assert!(!parse(FileId(0), &long).1.is_empty());
        let deepest = format!("{}{}", "a {\n".repeat(64), "}\n".repeat(64));
        assert!(parse(FileId(0), &deepest).1.is_empty());
        // What the limits let through must not end the stack either.
        let group = format!("b {}1{}\n", "(".repeat(32), ")".repeat(32));
        for (head, tail) in
            [("a {\n", ""), ("? {\n", ""), ("{\n", ""), ("a {\n", "? {"), ("a {\n", "{")]
        {
            let heads = head.repeat(64 - usize::from(!tail.is_empty()));
            let text = format!("{heads}{group}a \"\"{tail}");
            let found = parse(FileId(0), &text).1;
            assert!(found.iter().all(|found| found.slug != "nested-too-deep"), "{head:?} {tail:?}");
        }
    };
    let thread = std::thread::Builder::new().stack_size(2 << 20).spawn(run);
    thread.expect("a thread").join().expect("no overflow");
}

#[test]
fn a_brace_on_its_own_line_is_told_and_moved_up() {
    let text = "case a\n{\n  frame\n  {\n    stock x\n  }\n}\nwide 4\n";
    let (tree, found) = parse(FileId(0), text);
    assert_eq!(found.len(), 2, "{found:#?}");
    assert_eq!(tree.items.len(), 2);
    let Item::Statement(case) = &tree.items[0] else { panic!() };
    assert_eq!(case.block.as_ref().map(|block| block.items.len()), Some(1));
    let mut mended = text.to_owned();
    let mut edits: Vec<_> = found.iter().flat_map(|d| &d.fixes).flat_map(|f| &f.edits).collect();
    edits.sort_by_key(|edit| std::cmp::Reverse(edit.span.start));
    for edit in edits {
        mended.replace_range(edit.span.range(), &edit.text);
    }
    assert_eq!(parse(FileId(0), &mended).1, []);
}

#[test]
fn backslashes_that_stand_alone_are_told_and_mended() {
    for (text, mended) in [
        ("use \"own\\shop\\oak.case\"\n", "use \"own/shop/oak.case\"\n"),
        ("use\t\"own\\\\new\\nut.case\"\n", "use\t\"own/new/nut.case\"\n"),
        ("job \"a\\b; c #2 {x}\" {}\n", "job \"a\\\\b; c #2 {x}\" {}\n"),
        ("job \"a\\b \\\"c\\\" \\\\\"\n", "job \"a\\\\b \\\"c\\\" \\\\\"\n"),
    ] {
        let (_, found) = parse(FileId(0), text);
        assert_eq!(found.iter().map(|d| d.slug).collect::<Vec<_>>(), ["syntax"], "{text}");
        let mut own = text.to_owned();
        for edit in found[0].fixes[0].edits.iter().rev() {
            own.replace_range(edit.span.range(), &edit.text);
        }
        assert_eq!(own, mended);
        assert_eq!(parse(FileId(0), &own).1, []);
    }
    // Without a closing quote that is the mistake.
    for text in ["use \"own\\shop\n", "job \"a\\\"\n"] {
        let (_, found) = parse(FileId(0), text);
        assert_eq!(found[0].slug, "unclosed-text", "{text}");
    }
}

#[test]
fn figures_are_as_fine_as_a_millionth() {
    for kept in ["0.000001", "1/1000000", "3-1/999999 in", "23.8125000000000 mm", "1' 2-1/64\""] {
        assert_eq!(parse(FileId(0), &format!("wide {kept}\n")).1, [], "{kept}");
    }
    for (fine, near) in [
        ("35.43307086 in", Some("35.433071 in")),
        ("0.0000004", Some("0")),
        ("2.9999999", Some("3")),
        ("0.33333333333333333333333333", Some("0.333333")),
        ("1/1000001", None),
        ("1-1/1000001", None),
        ("922337203685.4775807", None),
        ("5.1' 2.12345678\"", None),
        ("12345678901234567890", None),
        ("12345678901234567890.5", None),
    ] {
        let (_, found) = parse(FileId(0), &format!("wide {fine}\n"));
        assert_eq!(found.len(), 1, "{fine}");
        assert_eq!(found[0].slug, "number-too-fine", "{fine}");
        let offered = found[0].fixes.first().map(|fix| fix.edits[0].text.as_str());
        assert_eq!(offered, near, "{fine}");
    }
}

#[test]
fn a_text_may_follow_a_number() {
    let all = statements("accept 3 \"x\"\nwide 7\" \"y\"\n");
    assert!(matches!(&all[0].arguments[1], Argument::Text { value, .. } if value == "x"));
    assert!(matches!(&all[1].arguments[1], Argument::Text { value, .. } if value == "y"));
}

#[test]
fn a_fix_leaves_the_marks_inside_a_text_alone() {
    for text in ["note \"½ inch\" = 3\n", "note \"“hm” he said\" ? 3\n"] {
        for fix in parse(FileId(0), text).1.iter().flat_map(|d| &d.fixes) {
            assert!(
                fix.edits.iter().all(|edit| edit.span.start as usize > text.rfind('"').unwrap())
            );
        }
    }
}

#[test]
fn a_fix_that_may_change_a_size_is_a_choice() {
    for line in
        ["wide 5–8", "sheet 96 × 48", "wide 23,5", "diagonals 37, 38", "mix 3:1", "high 1 -1/2"]
    {
        let (_, found) = parse(FileId(0), line);
        assert_eq!(found.len(), 1, "{line}: {found:#?}");
        assert!(found[0].fixes.iter().all(|fix| fix.grade == Grade::Choice), "{line}");
    }
}

/// Runs on a small stack; a hang or an overflow fails the test run.
fn on_a_small_stack(run: impl FnOnce() + Send + 'static) {
    let thread = std::thread::Builder::new().stack_size(512 << 10).spawn(run);
    thread.expect("a thread").join().expect("no overflow");
}

#[test]
fn braces_behind_quotes_that_open_no_text_are_counted() {
    on_a_small_stack(|| {
        for line in
            ["a 1 \"x\" {\n", "a7\"x\" {\n", "a 3\"\"x\" {\n", "? 7\"x\" {\n", "a \\\"x\" {\n"]
        {
            for many in [65, 400, 5_000] {
                let (_, found) = parse(FileId(0), &line.repeat(many));
                let told: Vec<_> = found.iter().map(|d| (d.slug, d.primary.span.start)).collect();
                let at = 65 * line.len() - "{\n".len();
                assert_eq!(told, [("nested-too-deep", at as u32)], "{line}");
            }
        }
    });
}

#[test]
fn a_bare_brace_under_many_open_ones_is_refused() {
    on_a_small_stack(|| {
        for head in ["a {\n", "? {\n", "{\n"] {
            for tail in ["{", "} {", "; {", "{ x 1 }", "? {"] {
                let text = format!("{}{tail}", head.repeat(60));
                assert!(!parse(FileId(0), &text).1.is_empty());
            }
        }
    });
}

proptest::proptest! {
    #[test]
    fn nothing_panics_and_spans_lie_in_the_text(text in "[ -~\n{}\";#½–é]{0,200}") {
        let (_, found) = parse(FileId(0), &text);
        for d in found {
            proptest::prop_assert!(text.get(d.primary.span.range()).is_some());
            for edit in d.fixes.iter().flat_map(|fix| &fix.edits) {
                proptest::prop_assert!(text.get(edit.span.range()).is_some());
            }
        }
    }

    #[test]
    fn a_damaged_spec_is_read_without_a_panic(at in 0usize..6000, cut in 0usize..9, put in "[ -~\n]{0,6}") {
        let spec = include_str!("../specs/hall-console.case");
        let mut text: Vec<char> = spec.chars().collect();
        let at = at.min(text.len());
        let end = (at + cut).min(text.len());
        text.splice(at..end, put.chars());
        let text: String = text.into_iter().collect();
        let (_, found) = parse(FileId(0), &text);
        for d in found {
            proptest::prop_assert!(text.get(d.primary.span.range()).is_some());
        }
    }
}

/// The grammar names the units that a number may have; the table of units is
/// in `measure`. They agree.
#[test]
fn the_grammar_knows_every_unit_of_the_table() {
    for (unit, spellings) in casewright::measure::SPELLINGS {
        for spelling in *spellings {
            assert_eq!(number(&format!("3{spelling}")).unit, Some(NumberUnit::Length(*unit)));
        }
    }
}
