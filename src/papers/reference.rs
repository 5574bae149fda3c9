//! The language reference: what holds everywhere, the pieces by example, and
//! every word; as Markdown, and as one page with the examples drawn.

use std::fmt::Write as _;

use askama::Template;
use pulldown_cmark::{CowStr, Event, Options, Parser, Tag, TagEnd, html};

use crate::plans::Workings;
use crate::plans::fitting::pins;
use crate::vocabulary;

use super::drawing::view::{self, Doors};
use super::examples::{EXAMPLES, Example, SHARED};
use super::figures::Figures;

/// The reference as Markdown.
#[must_use]
pub fn reference() -> String {
    written(|_| String::new())
}

/// The reference as one page that needs nothing else, with each example drawn.
#[must_use]
pub fn reference_page() -> String {
    let text = written(|example| pictures(example).join("\n"));
    let page = Page::of(&text);
    // Only a template that is at fault can fail, which every test would show.
    page.render().unwrap_or_default()
}

fn written(pictures: impl Fn(&Example) -> String) -> String {
    let mut text = String::from(vocabulary::INTRODUCTION);
    let (shared, shop) = SHARED;
    let _ = writeln!(
        text,
        "## Pieces by example\n\nEach of these is a whole piece. All of them use `{shared}`, which \
         stands first; they lie in `specs/examples`.\n\n```\n{shop}```\n"
    );
    for example in EXAMPLES {
        let _ = writeln!(
            text,
            "### {}\n\n{}\n\n{}\n```\n{}\n```\n",
            title(example),
            example.says(),
            pictures(example),
            example.spec()
        );
    }
    text.push_str(&vocabulary::words());
    text
}

/// Its slug in words.
fn title(example: &Example) -> String {
    let words = example.slug.replace('-', " ");
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The elevation, and where doors hide something, the one without them.
fn pictures(example: &Example) -> Vec<String> {
    let Some(compiled) = example.compiled() else { return Vec::new() };
    let (Some(piece), Some(parts)) = (&compiled.piece, &compiled.parts) else {
        return Vec::new();
    };
    let work = Workings::of(piece, parts);
    let parts = &*pins::on_pins(work.pin_rows(), parts);
    let whole = view::extent(parts);
    let hides =
        piece.cases.iter().flat_map(|case| &case.openings).any(|door| door.behind.is_some());
    let views = [Some(Doors::Closed), hides.then_some(Doors::Open)];
    let drawn = views.into_iter().flatten().map(|doors| {
        let figures = Figures::new(*piece.tape());
        let svg = view::elevation(piece, parts, &figures, &whole, doors);
        // An empty line would end the drawing where Markdown is read.
        let svg = svg.lines().filter(|line| !line.trim().is_empty());
        format!("<figure>{}</figure>\n", svg.collect::<Vec<&str>>().join("\n"))
    });
    drawn.collect()
}

#[derive(Template)]
#[template(path = "reference.html")]
struct Page {
    /// The sections, as a list of links.
    contents: Vec<(String, String)>,
    body: String,
}

impl Page {
    fn of(text: &str) -> Self {
        let mut events: Vec<Event<'_>> = Parser::new_ext(text, Options::ENABLE_TABLES).collect();
        let mut contents = Vec::new();
        for at in 0..events.len() {
            if !matches!(events.get(at), Some(Event::Start(Tag::Heading { .. }))) {
                continue;
            }
            let title = heading(&events[at..]);
            let own = format!("s{}", contents.len());
            if let Some(Event::Start(Tag::Heading { id, .. })) = events.get_mut(at) {
                *id = Some(CowStr::from(own.clone()));
            }
            contents.push((own, title));
        }
        let mut body = String::new();
        html::push_html(&mut body, events.into_iter());
        Self { contents, body }
    }
}

/// The letters of the heading that these begin with.
fn heading(events: &[Event<'_>]) -> String {
    let own = events.iter().take_while(|event| !matches!(event, Event::End(TagEnd::Heading(_))));
    own.filter_map(|event| match event {
        Event::Text(text) | Event::Code(text) => Some(text.as_ref()),
        _ => None,
    })
    .collect()
}
