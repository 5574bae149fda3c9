//! What a page owes to whoever hears it or sees little, by the success
//! criteria of WCAG 2.1 that a text can be asked for: language (3.1.1), title
//! (2.4.2), headings and tables (1.3.1), names of pictures (1.1.1), purpose of
//! links (2.4.4), ids (4.1.1), contrast (1.4.3, 1.4.11), zoom (1.4.4).

use casewright::papers::{self, Format};
use casewright::revision::{self, Named};

use crate::support::{compile, demo_pieces, ids_are_unique, spec};

/// The page of a difference, which leads nowhere.
const DIFFERENCE: &str = "a difference";

/// A tag, or the text before the next one.
enum Piece<'a> {
    Open(&'a str),
    Close(&'a str),
    Text(&'a str),
}

/// Elements that never end.
const VOID: &[&str] = &["meta", "col", "br", "!DOCTYPE"];

fn pieces(page: &str) -> Vec<Piece<'_>> {
    let mut found = Vec::new();
    let mut rest = page;
    while let Some((text, behind)) = rest.split_once('<') {
        let (tag, behind) = behind.split_once('>').expect("a tag ends");
        if !text.trim().is_empty() {
            found.push(Piece::Text(text.trim()));
        }
        found.push(match tag.strip_prefix('/') {
            Some(name) => Piece::Close(name),
            None => Piece::Open(tag),
        });
        rest = behind;
    }
    found
}

fn name(tag: &str) -> &str {
    tag.split([' ', '/']).next().unwrap_or(tag)
}

/// What an attribute of a tag says.
fn attribute<'a>(tag: &'a str, name: &str) -> Option<&'a str> {
    tag.split_once(&format!(" {name}=\""))?.1.split('"').next()
}

/// The elements of a page with what each says, in the order in which they begin.
fn elements(page: &str) -> Result<Vec<(&str, String)>, String> {
    let mut all: Vec<(&str, String)> = Vec::new();
    let mut open: Vec<usize> = Vec::new();
    for piece in pieces(page) {
        match piece {
            Piece::Text(text) => {
                for at in &open {
                    all[*at].1.push_str(text);
                }
            }
            Piece::Open(tag) => {
                if !VOID.contains(&name(tag)) && !tag.ends_with('/') {
                    open.push(all.len());
                }
                all.push((tag, String::new()));
            }
            Piece::Close(closed) => {
                let at = open.pop().ok_or(format!("</{closed}> ends nothing"))?;
                if name(all[at].0) != closed {
                    return Err(format!("</{closed}> ends <{}>", all[at].0));
                }
            }
        }
    }
    Ok(all)
}

/// Everything that is wrong with a page.
fn faults(page: &str) -> Vec<String> {
    let all = match elements(page) {
        Ok(all) => all,
        Err(fault) => return vec![fault],
    };
    let mut faults = Vec::new();
    let mut fault = |is: bool, what: String| {
        if is {
            faults.push(what);
        }
    };
    let of = |wanted: &'static str| all.iter().filter(move |(tag, _)| name(tag) == wanted);
    fault(of("html").all(|(tag, _)| attribute(tag, "lang") != Some("en")), "language".into());
    fault(of("title").all(|(_, said)| said.is_empty()), "title".into());
    fault(of("h1").count() != 1, "one main heading".into());
    fault(of("main").count() != 1, "one main part".into());
    let viewport = of("meta").find(|(tag, _)| tag.contains("viewport"));
    fault(
        viewport.is_none_or(|(tag, _)| tag.contains("scalable") || tag.contains("maximum")),
        "a reader can zoom".into(),
    );
    let mut last = 0;
    for (tag, said) in &all {
        let level = name(tag).strip_prefix('h').and_then(|level| level.parse::<u8>().ok());
        if let Some(level) = level {
            fault(level > last + 1, format!("heading {level} after {last}: {said}"));
            fault(said.is_empty(), format!("an empty heading {level}"));
            last = level;
        }
        match name(tag) {
            "a" => fault(said.is_empty(), format!("a link without a name: {tag}")),
            "th" => {
                let scope = attribute(tag, "scope");
                fault(!matches!(scope, Some("col" | "row")), format!("no scope: {said}"));
                fault(said.is_empty(), "an empty head".into());
            }
            "svg" => fault(attribute(tag, "role") != Some("img"), format!("no picture: {tag}")),
            _ => {}
        }
        if attribute(tag, "role") == Some("img") {
            let label = attribute(tag, "aria-label").unwrap_or("");
            fault(label.is_empty(), format!("a picture without a name: {tag}"));
        }
    }
    for table in page.split("<table").skip(1) {
        let table = table.split("</table>").next().expect("a table");
        let caption = table.split_once("<caption>").and_then(|(_, rest)| rest.split_once("</"));
        fault(caption.is_none_or(|(said, _)| said.is_empty()), "a table without a caption".into());
        let (head, body) = table.split_once("</thead>").unwrap_or(("", table));
        fault(!head.contains("<th scope=\"col\""), "a table without heads".into());
        fault(!body.contains("<t"), "a table without rows".into());
    }
    faults
}

/// Every page there is: of each demo piece, and what a difference is told by.
fn all_pages() -> Vec<(String, String)> {
    let mut all = Vec::new();
    for (piece, compiled) in demo_pieces() {
        for file in papers::packet(&compiled).expect("a packet") {
            if file.format == Format::Html {
                all.push((format!("{piece}, {}", file.name), file.text));
            }
        }
    }
    let old = compile(&spec("first.case"));
    let new = compile(&spec("first.case").replace("high 5 }", "high 6 }"));
    let named = |compiled| Named { name: "first.case", compiled };
    let difference = revision::compare(named(&old), named(&new));
    all.push((DIFFERENCE.to_owned(), revision::html(&difference)));
    all
}

#[test]
fn every_page_is_built_to_be_heard() {
    for (name, page) in all_pages() {
        assert_eq!(faults(&page), Vec::<String>::new(), "{name}");
        ids_are_unique(&name, &page);
    }
}

#[test]
fn what_is_left_out_of_a_page_is_missed() {
    let (_, page) =
        all_pages().into_iter().find(|(name, _)| name == "first, drawings.html").expect("a page");
    let caption = page.find("<caption>").expect("a caption");
    let caption_end = page.find("</caption>").expect("it ends");
    let without = format!("{}{}", &page[..caption + 9], &page[caption_end..]);
    assert_ne!(faults(&without), Vec::<String>::new());
    for (from, to) in [
        (" lang=\"en\"", ""),
        ("<h1>", "<h1>another</h1><h1>"),
        ("<h2>", "<h4>deep</h4><h2>"),
        (" scope=\"col\"", ""),
        (" scope=\"row\"", ""),
        (" role=\"img\"", ""),
        ("role=\"img\" aria-label=\"", "role=\"img\" aria-label=\"\" title=\""),
        ("<nav", "<a href=\"index.html\"></a><nav"),
        ("</main>", ""),
        ("initial-scale=1", "initial-scale=1, maximum-scale=1"),
    ] {
        assert!(page.contains(from), "{from}");
        let wrong = page.replacen(from, to, 1);
        assert_ne!(faults(&wrong), Vec::<String>::new(), "{from}");
    }
    let (head, title) = page.split_once("<title>").expect("a title");
    let (_, behind) = title.split_once("</title>").expect("its end");
    let untitled = format!("{head}<title></title>{behind}");
    assert_ne!(faults(&untitled), Vec::<String>::new());
}

#[test]
fn each_paper_leads_to_the_others() {
    let is_paper = |name: &str| name != DIFFERENCE && !name.ends_with("index.html");
    for (name, page) in all_pages().into_iter().filter(|(name, _)| is_paper(name)) {
        let nav = page.split_once("<nav").expect("links").1.split_once("</nav>").expect("end").0;
        assert!(nav.contains("href=\"index.html\""), "{name}");
        for paper in papers::PAPERS {
            let here = name.ends_with(&format!("{}.html", paper.slug));
            let link = match here {
                true => {
                    format!("href=\"{}.html\" aria-current=\"page\">{}<", paper.slug, paper.title)
                }
                false => format!("href=\"{}.html\">{}<", paper.slug, paper.title),
            };
            assert!(nav.contains(&link), "{name}: {link}");
        }
    }
}

/// Relative luminance of a color `#rgb` or `#rrggbb` (WCAG 2.1, definition).
fn luminance(color: &str) -> f64 {
    let digits = color.trim_start_matches('#');
    let wide = digits.len() / 3;
    let [red, green, blue] = [0, 1, 2].map(|at| {
        let part = &digits[at * wide..(at + 1) * wide];
        let part = if wide == 1 { part.repeat(2) } else { part.to_owned() };
        let part = f64::from(u8::from_str_radix(&part, 16).expect("a color")) / 255.0;
        match part <= 0.03928 {
            true => part / 12.92,
            false => ((part + 0.055) / 1.055).powf(2.4),
        }
    });
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

/// Contrast ratio (WCAG 2.1, definition).
fn contrast(one: &str, other: &str) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

#[test]
fn contrast_is_worked_out_as_published() {
    assert!((contrast("#000", "#ffffff") - 21.0).abs() < 1e-9);
    // The grays known to lie on either side of 4.5 on white: 4.54 and 4.48.
    assert!((contrast("#767676", "#fff") - 4.54).abs() < 0.005);
    assert!((contrast("#777", "#fff") - 4.48).abs() < 0.005);
}

/// The colors behind a name of a style sheet or of an element.
fn colors<'a>(text: &'a str, names: &[&str]) -> Vec<&'a str> {
    let mut found = Vec::new();
    for name in names {
        for rest in text.split(name).skip(1) {
            let value = rest.split([';', '}', '"']).next().unwrap_or("");
            let words = value.split([' ', ',']).filter(|word| word.starts_with('#'));
            found.extend(words);
        }
    }
    found.sort_unstable();
    found.dedup();
    found
}

/// Words of 1.4.3 (4.5 to 1, whatever their size), lines of 1.4.11 (3 to 1).
#[test]
fn every_color_stands_out_from_what_it_stands_on() {
    for (name, page) in all_pages() {
        let style = page.split_once("<style>").expect("a style sheet").1;
        let (style, body) = style.split_once("</style>").expect("it ends");
        let grounds = colors(style, &[" background: "]);
        let words = colors(style, &[" color: "]);
        let lines =
            colors(style, &[" border: ", " border-top: ", " border-bottom: ", " border-left: "]);
        assert!(!grounds.is_empty() && !words.is_empty() && !lines.is_empty(), "{name}");
        let known = [&grounds[..], &words[..], &lines[..]].concat();
        for color in style.split([' ', ';', ':', '{', '}']).filter(|word| word.starts_with('#')) {
            assert!(known.contains(&color), "{name}: what is {color} for?");
        }
        for ground in &grounds {
            for word in &words {
                assert!(contrast(word, ground) >= 4.5, "{name}: {word} on {ground}");
            }
            for line in &lines {
                assert!(contrast(line, ground) >= 3.0, "{name}: {line} on {ground}");
            }
        }
        // In a drawing what is written is black.
        for ground in colors(body, &["fill=\""]) {
            let ink = colors(body, &["stroke=\""]);
            assert!(ground == "#000" || contrast("#000", ground) >= 4.5, "{name}: {ground}");
            for ink in ink.iter().filter(|ink| **ink != "#fff") {
                assert!(ground == "#000" || contrast(ink, ground) >= 3.0, "{name}: {ink}");
            }
        }
    }
}
