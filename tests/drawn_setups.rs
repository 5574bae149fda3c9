//! The drawings of the router set-ups as they come out of the printer: letters large
//! enough for arm's length, none over another, and no figure that the text beside
//! them has not.

use casewright::papers;

use crate::support::demo_pieces;

/// A page between its margins of 12 mm on the narrower of the two sheets, A4.
const PAGE: f64 = 210.0 - 24.0;
/// 10 points.
const LEAST: f64 = 10.0 * 25.4 / 72.0;
/// How high the style sheet lets a drawing of a view be: 46 times 12 points.
const HIGHEST: f64 = 46.0 * 12.0 * 25.4 / 72.0;
/// 9 points, for the views of the piece.
const LEAST_ON_VIEWS: f64 = 9.0 * 25.4 / 72.0;

/// A text with the box that its letters take.
#[derive(Clone, Debug)]
struct Text {
    words: String,
    size: f64,
    x: (f64, f64),
    y: (f64, f64),
    is_turned: bool,
}

/// How wide a letter of the sheet's typeface is, in thousandths of its size. (From
/// memory: the widths of Helvetica, which Liberation Sans and Arial share.)
fn advance(letter: char) -> f64 {
    f64::from(match letter {
        'i' | 'j' | 'l' => 222,
        ' ' | ',' | '.' | '/' | 'f' | 't' => 278,
        '(' | ')' | '-' | 'r' => 333,
        'c' | 'k' | 's' | 'v' | 'x' | 'y' | 'z' => 500,
        '~' => 584,
        'w' => 722,
        'm' | 'M' => 833,
        'F' | 'T' | 'Z' => 611,
        'C' | 'D' | 'H' | 'N' | 'R' | 'U' => 722,
        'G' | 'O' | 'Q' => 778,
        'W' => 944,
        'A'..='Z' => 667,
        _ => 556,
    }) / 1000.0
}

fn attribute<'t>(tag: &'t str, name: &str) -> &'t str {
    let start = format!(" {name}=\"");
    let rest =
        &tag[tag.find(&start).unwrap_or_else(|| panic!("no {name} in {tag}")) + start.len()..];
    &rest[..rest.find('"').expect("an end")]
}

fn number(tag: &str, name: &str) -> f64 {
    attribute(tag, name).trim_end_matches("mm").parse().expect("a number")
}

fn texts(svg: &str) -> Vec<Text> {
    let read = |piece: &str| {
        let (tag, rest) = piece.split_once('>').expect("a tag");
        // A plain sheet has `~` for the sign of a rounded figure.
        let words = rest.split("</text>").next().expect("a text").replace('≈', "~");
        let (x, y, size) = (number(tag, "x"), number(tag, "y"), number(tag, "font-size"));
        let wide = words.chars().map(advance).sum::<f64>() * size;
        let left = match attribute(tag, "text-anchor") {
            "start" => x,
            "end" => x - wide,
            _ => x - wide / 2.0,
        };
        if tag.contains("rotate(-90") {
            // Turned about its point, and read from the right: it has its middle there.
            let (x, y) = ((x - size * 0.73, x + size * 0.21), (y - wide / 2.0, y + wide / 2.0));
            return Text { words, size, x, y, is_turned: true };
        }
        let (x, y) = ((left, left + wide), (y - size * 0.73, y + size * 0.21));
        Text { words, size, x, y, is_turned: false }
    };
    svg.split("<text").skip(1).map(read).collect()
}

fn overlap(a: &Text, b: &Text) -> bool {
    let meet = |a: (f64, f64), b: (f64, f64)| a.0 < b.1 && b.0 < a.1;
    meet(a.x, b.x) && meet(a.y, b.y)
}

/// The drawings of a piece, each with what the plain sheet says of its set-up.
fn drawn(compiled: &casewright::pipeline::Compilation) -> Vec<(String, String)> {
    let files = papers::packet(compiled).expect("papers");
    let text = |name: &str| {
        files.iter().find(|file| file.name == name).map(|file| file.text.clone()).expect("a sheet")
    };
    let (page, plain) = (text("jig-sheet.html"), text("jig-sheet.txt"));
    let svgs = page.split("<svg").skip(1).map(|svg| svg.split("</svg>").next().unwrap().to_owned());
    svgs.zip(plain.split("\n>> ").skip(1).map(str::to_owned)).collect()
}

#[test]
fn drawings_are_read_at_arms_length() {
    let mut seen = 0;
    for (name, compiled) in demo_pieces() {
        for (svg, _) in drawn(&compiled) {
            let frame: Vec<f64> = attribute(&svg, "viewBox")
                .split(' ')
                .map(|figure| figure.parse().expect("a number"))
                .collect();
            let [x, y, wide, high] = frame[..] else { panic!("{frame:?}") };
            let on_paper = number(&svg, "width").min(PAGE) / wide;
            let texts = texts(&svg);
            for (at, text) in texts.iter().enumerate() {
                assert!(text.size * on_paper >= LEAST, "{name}: {text:?}");
                assert!(!text.is_turned, "to be read without turning the sheet: {text:?}");
                let inside = text.x.0 >= x && text.x.1 <= x + wide;
                assert!(inside && text.y.0 >= y && text.y.1 <= y + high, "{name}: {text:?}");
                for other in &texts[at + 1..] {
                    assert!(!overlap(text, other), "{name}: {text:?} lies over {other:?}");
                }
            }
            seen += 1;
        }
    }
    assert!(seen >= 20, "{seen}");
}

#[test]
fn drawings_have_the_figures_of_the_text() {
    for (name, compiled) in demo_pieces() {
        for (svg, told) in drawn(&compiled) {
            let texts = texts(&svg);
            let first = told.split("  set-up").next().expect("a setting");
            let has = |words: &str| texts.iter().any(|text| text.words == words);
            let all: String =
                texts.iter().map(|text| text.words.as_str()).collect::<Vec<_>>().join(" ");
            for part in first.split(", ") {
                assert!(all.contains(part), "{name}: {part} is not drawn: {all}");
            }
            let words: Vec<&str> = told.split([' ', '\n', ';', ',', ':']).collect();
            let with_figure = |word: &&str| word.contains(|letter: char| letter.is_ascii_digit());
            for word in texts.iter().flat_map(|text| text.words.split(' ')).filter(with_figure) {
                assert!(words.contains(&word), "{name}: nothing says {word}: {told}");
            }
            // The first piece is drawn with its stops, and both its ends are named.
            let row =
                told.lines().find(|line| line.contains("[ ]") && line.contains(" feed toward"));
            let Some(row) =
                row.filter(|row| told.lines().find(|line| line.contains("[ ]")) == Some(row))
            else {
                continue;
            };
            let plunge = row.split("plunge ").nth(1).and_then(|rest| rest.split(' ').next());
            let short = row.split(" stop ").nth(1).and_then(|rest| rest.split(' ').next());
            for figure in [plunge, short].into_iter().flatten() {
                assert!(has(figure), "{name}: the stop of {figure} is not drawn: {all}");
            }
        }
    }
}

/// Worked by hand. Seen from above, the bit of a router turned over in its table turns
/// against the clock; with the fence behind the bit the work goes from right to left,
/// against the edge that cuts. The drawing has the cut face toward whoever looks, as if
/// from below, and the fence at the lower side: turned half round the way is from left to
/// right, and seen from below from right to left again. A router in the hand turns with
/// the clock and pulls to the left of its way, where its straight-edge stands: with that
/// above the cut it goes from left to right, and with that below it from right to left.
#[test]
fn arrows_show_what_moves_and_which_way() {
    let (mut tables, mut hands) = (0, 0);
    for (name, compiled) in demo_pieces() {
        for (svg, told) in drawn(&compiled) {
            let texts = texts(&svg);
            let find = |words: &str| texts.iter().find(|text| text.words.starts_with(words));
            // An arrow begins behind its word, which stands at the end that it comes from.
            let from_left = |word: &str| {
                let tags = svg.split("<text").find(|tag| tag.contains(&format!(">{word}</text>")));
                attribute(tags.unwrap_or_else(|| panic!("{name}: {told}")), "text-anchor")
                    == "start"
            };
            if find("fence").is_some() {
                assert!(find("feed").is_none() && !from_left("work"), "{name}: {told}");
                tables += 1;
                continue;
            }
            let (word, guide) =
                (find("feed").expect("a feed"), find("straight-edge").expect("one"));
            let guide_above = guide.y.0 < word.y.0 || guide.words.contains("line 1");
            assert_eq!(from_left("feed"), guide_above, "{name}: {word:?} {guide:?} {told}");
            hands += 1;
        }
    }
    assert!(tables >= 5 && hands >= 10, "{tables} {hands}");
}

/// The views of a whole piece: no letter is under 9 pt, no text lies over another, and
/// none is cut off.
#[test]
fn marks_and_figures_of_the_views_stand_apart() {
    let seen = stand_apart("drawings.html");
    assert!(seen > 300, "{seen}");
}

/// The same of sheets and boards with their cuts.
#[test]
fn marks_and_numbers_of_sheets_and_boards_stand_apart() {
    let seen = ["sheet-plans.html", "board-plan.html"].map(stand_apart);
    assert!(seen.iter().all(|own| *own > 300), "{seen:?}");
}

fn stand_apart(paper: &str) -> usize {
    let mut seen = 0;
    for (name, compiled) in demo_pieces() {
        let files = papers::packet(&compiled).expect("papers");
        let page = files.iter().find(|file| file.name == paper).expect("the drawings");
        for svg in page.text.split("<svg").skip(1) {
            let svg = svg.split("</svg>").next().expect("an end");
            let frame: Vec<f64> = attribute(svg, "viewBox")
                .split(' ')
                .map(|figure| figure.parse().expect("a number"))
                .collect();
            let [x, y, wide, high] = frame[..] else { panic!("{frame:?}") };
            let what = attribute(svg, "aria-label");
            let sized = svg.split('>').next().is_some_and(|tag| tag.contains("mm\""));
            let on_paper = match sized {
                true => number(svg, "width").min(PAGE) / wide,
                false => (PAGE / wide).min(HIGHEST / high),
            };
            assert!(page.text.contains("max-height: 46rem"));
            let texts = texts(svg);
            for (at, text) in texts.iter().enumerate() {
                let printed = text.size * on_paper;
                assert!(printed >= LEAST_ON_VIEWS, "{name}, {what}: {printed} mm, {text:?}");
                let inside = text.x.0 >= x && text.x.1 <= x + wide;
                assert!(
                    inside && text.y.0 >= y && text.y.1 <= y + high,
                    "{name}, {what}: {text:?}"
                );
                for other in &texts[at + 1..] {
                    assert!(!overlap(text, other), "{name}, {what}: {text:?} over {other:?}");
                }
                seen += 1;
            }
        }
    }
    seen
}

/// The exploded views of a piece, each with its heading.
fn exploded(page: &str) -> Vec<(&str, &str)> {
    let views = page.split("<h2>Exploded view of ").skip(1);
    views
        .map(|view| {
            let (heading, rest) = view.split_once("</h2>").expect("a heading");
            (heading, rest.split("<h2>").next().expect("what stands below it"))
        })
        .collect()
}

/// Nothing is hidden in the exploded views: every part is marked once, one of a box or a
/// door that is built like another in the table below that. A box or paneled door is
/// named once more where it is in one piece.
#[test]
fn every_part_is_marked_in_an_exploded_view() {
    for (name, compiled) in demo_pieces() {
        let files = papers::packet(&compiled).expect("papers");
        let page = files.iter().find(|file| file.name == "drawings.html").expect("the drawings");
        let views = exploded(&page.text);
        for part in &compiled.parts.as_ref().expect("parts").all {
            let marked = |view: &str| view.matches(&format!(">{}</text>", part.mark)).count();
            let listed = |view: &str| {
                let words = view.split(|letter: char| !letter.is_alphanumeric() && letter != '-');
                words.filter(|word| **word == part.mark).count()
            };
            let drawn: usize = views.iter().map(|(_, view)| marked(view)).sum();
            let told: usize = views.iter().map(|(_, view)| listed(view)).sum();
            assert!(drawn <= 1 && told >= 1, "{name}: {} {drawn} {told}", part.mark);
        }
    }
}

/// Worked by hand: the three boxes of the console are rabbeted alike, and so are those
/// of the cupboard; the two leaves of the press mirror each other; the vanity drawer of
/// the wash stand goes round the trap, the one for towels does not.
#[test]
fn what_is_built_alike_shares_a_drawing() {
    let kinds = [
        ("hall-console", vec!["the drawer box of upper"]),
        ("alcove-shelves", vec!["the drawer box of upper in cupboard"]),
        ("tide-cottage-press", vec!["the left door of linen", "the drawer box of sheets"]),
    ];
    let pieces = demo_pieces();
    for (name, expected) in kinds {
        let (_, compiled) = pieces.iter().find(|(own, _)| own == name).expect("it");
        let files = papers::packet(compiled).expect("papers");
        let page = files.iter().find(|file| file.name == "drawings.html").expect("the drawings");
        let headings: Vec<&str> = exploded(&page.text)
            .into_iter()
            .map(|(heading, _)| heading)
            .filter(|heading| heading.contains("box of") || heading.contains("linen"))
            .collect();
        assert_eq!(headings, expected, "{name}");
    }
    let (_, console) = pieces.iter().find(|(own, _)| own == "hall-console").expect("it");
    let files = papers::packet(console).expect("papers");
    let page = files.iter().find(|file| file.name == "drawings.txt").expect("the drawings");
    assert!(page.text.contains("UP-XF, MI-XF, LO-XF"), "{}", page.text);
}

/// The base of the console is 4 high and its bottom rail 1-1/2 wide; the pipe stands
/// 52 from the left and is 6 wide.
#[test]
fn the_views_tell_heights_and_what_stands_in_the_way() {
    let pieces = demo_pieces();
    let (_, compiled) = pieces.iter().find(|(name, _)| name == "hall-console").expect("it");
    let files = papers::packet(compiled).expect("papers");
    let page = files.iter().find(|file| file.name == "drawings.html").expect("the drawings");
    for told in [">BRL 4 to 5-1/2<", ">52<", ">6<", ">UP-LPK<", ">PBA-PR<"] {
        assert!(page.text.contains(told), "{told}");
    }
}

/// Through the upper drawer of the console the cut meets the left end with its packer,
/// the four walls of the box and its front, the packer on the right, the partition behind
/// its stile, the left stile, the left door beside it, and the back.
#[test]
fn everything_that_is_cut_has_its_mark() {
    let pieces = demo_pieces();
    let (_, compiled) = pieces.iter().find(|(name, _)| name == "hall-console").expect("it");
    let files = papers::packet(compiled).expect("papers");
    let page = files.iter().find(|file| file.name == "drawings.html").expect("the drawings");
    let (_, level) = page.text.split_once("Level section through upper").expect("it");
    let texts = texts(level.split("</svg>").next().expect("an end"));
    for mark in [
        "LE", "UP-LPK", "UP-LSD", "UP-XF", "UP-XK", "UP-RSD", "UP-F", "UP-RPK", "PBA-PR", "SBA-PR",
        "LS", "PR-LD", "K",
    ] {
        assert_eq!(texts.iter().filter(|text| text.words == mark).count(), 1, "{mark}");
    }
}

/// Proof that the test above can fail: two texts of three letters of 42 are 70 wide.
#[test]
fn texts_that_lie_over_each_other_are_found() {
    let text = |x: i64| {
        format!("<text x=\"{x}\" y=\"0\" font-size=\"42\" text-anchor=\"start\">108</text>")
    };
    let both = |apart: i64| {
        let texts = texts(&(text(0) + &text(apart)));
        overlap(&texts[0], &texts[1])
    };
    assert!(both(60));
    assert!(!both(71));
}
