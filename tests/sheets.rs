//! What every printed sheet carries, asked of the pages as a printer's program
//! reads them.

use casewright::papers::{self, Format, PaperFile};

use crate::support::{compile, demo_pieces, spec};

/// The pages of a packet.
fn pages(files: Vec<PaperFile>) -> impl Iterator<Item = PaperFile> {
    files.into_iter().filter(|file| file.format == Format::Html)
}

/// The texts that a margin box of a page puts together, each `\3c ` read as
/// its letter (CSS Syntax, 4.3.7); a counter stands in its own name.
fn margin(page: &str, place: &str) -> String {
    let style = page.split_once("<style>").expect("a style sheet").1;
    let style = style.split_once("</style>").expect("it ends").0;
    let boxes = style.split(&format!("{place} {{ content: ")).nth(1).expect("a margin box");
    let mut letters = boxes.chars();
    let (mut said, mut quoted) = (String::new(), false);
    while let Some(letter) = letters.next() {
        match letter {
            '"' => quoted = !quoted,
            ';' if !quoted => return said,
            '\\' => {
                let digits: String = letters.by_ref().take_while(|c| *c != ' ').collect();
                let number = u32::from_str_radix(&digits, 16).expect("a number");
                said.push(char::from_u32(number).expect("a letter"));
            }
            ' ' if !quoted => {}
            letter => said.push(letter),
        }
    }
    panic!("a margin box that does not end: {boxes}")
}

#[test]
fn every_sheet_says_whose_it_is_and_which() {
    for (piece, job, revision, unit) in [
        ("alcove-shelves", "Mill Lane alcove", "A", "millimeters to 0.5"),
        ("first", "First cabinet", "A", "inches to 1/32"),
        ("hall-console", "Lock House hall console", "B", "inches to 1/32"),
        ("tide-cottage-press", "Tide Cottage linen press", "C", "millimeters to 0.5"),
    ] {
        let all = demo_pieces();
        let (_, compiled) = all.iter().find(|(name, _)| name == piece).expect("the piece");
        let mut hashes = Vec::new();
        let mut seen = 0;
        for file in pages(papers::packet(compiled).expect("a packet")) {
            let left = margin(&file.text, "@bottom-left");
            let hash = left
                .strip_prefix(&format!("{job} · revision {revision} · "))
                .unwrap_or_else(|| panic!("{piece}, {}: {left}", file.name));
            hashes.push(hash.to_owned());
            let paper = papers::PAPERS.iter().find(|paper| paper.slug == file.paper);
            let title = paper.map_or("Papers", |paper| paper.title);
            assert_eq!(
                margin(&file.text, "@bottom-right"),
                format!("{title} · {unit} · page counter(page) of counter(pages)")
            );
            seen += 1;
        }
        assert_eq!(seen, papers::PAPERS.len() + 1);
        hashes.dedup();
        assert!(hashes.len() == 1 && hashes[0].len() == 8, "{hashes:?}");
        assert!(hashes[0].chars().all(|c| c.is_ascii_hexdigit()), "{hashes:?}");
    }
}

#[test]
fn the_foot_of_a_sheet_takes_any_name_as_text() {
    let name = "A; } </style><script>alert(1)</script> %27 \\\\ é";
    let text = spec("first.case").replace("First cabinet", name);
    for file in pages(papers::packet(&compile(&text)).expect("a packet")) {
        let left = margin(&file.text, "@bottom-left");
        let shown = "A; } </style><script>alert(1)</script> %27 \\ é";
        assert!(left.starts_with(&format!("{shown} · revision A")), "{left}");
        assert_eq!(file.text.matches("</style>").count(), 1);
        assert!(!file.text.contains("<script"));
    }
    let long = spec("first.case").replace("First cabinet", &"long ".repeat(40));
    for file in pages(papers::packet(&compile(&long)).expect("a packet")) {
        let left = margin(&file.text, "@bottom-left");
        assert!(left.contains('…') && left.chars().count() < 100, "{left}");
    }
}
