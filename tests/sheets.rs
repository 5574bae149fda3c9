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

/// What a page says between two of its tags.
fn words(markup: &str) -> String {
    let mut said = String::new();
    for piece in markup.split('<') {
        said.push_str(piece.split_once('>').map_or(piece, |(_, text)| text));
    }
    said.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Each setting holds until the next, or until a new heading.
#[test]
fn the_head_of_a_table_names_the_setting_that_its_rows_are_cut_at() {
    for (piece, compiled) in demo_pieces() {
        let files = papers::packet(&compiled).expect("a packet");
        for slug in ["cut-list", "jig-sheet", "gaps"] {
            let text = |format| {
                let is = |file: &&PaperFile| file.paper == slug && file.format == format;
                &files.iter().find(is).expect("the paper").text
            };
            let page = text(Format::Html);
            assert!(page.contains("thead { display: table-header-group;"), "{slug}");
            let (mut setting, mut settings, mut heads) = (None, 0, 0);
            for tag in page.split_once("<body>").expect("a body").1.split_inclusive('<') {
                let at = tag.as_ptr() as usize - page.as_ptr() as usize;
                let rest = &page[at..];
                if tag.starts_with("h2>") {
                    setting = None;
                } else if tag.contains("class=\"big\"") {
                    let end = rest.find("</h").expect("it ends");
                    setting = Some(words(&format!("<{}", &rest[..end])));
                    settings += 1;
                } else if tag.starts_with("thead>") {
                    let head = words(&rest[..rest.find("</thead>").expect("it ends")]);
                    let own = rest
                        .find("class=\"big\"")
                        .filter(|own| *own < rest.find("</thead>").expect("it ends"));
                    if own.is_none()
                        && let Some(setting) = &setting
                    {
                        assert!(head.contains(setting), "{piece}, {slug}: {setting}: {head}");
                        heads += 1;
                    } else if own.is_some() {
                        heads += 1;
                    }
                }
            }
            let asked = text(Format::Text).lines().filter(|line| line.starts_with(">> ")).count();
            assert_eq!(settings, asked, "{piece}, {slug}");
            assert!(heads >= asked, "{piece}, {slug}: {heads} heads for {asked} settings");
        }
    }
}

#[test]
fn each_piece_has_a_box_and_a_list_to_look_up_has_none() {
    for (piece, compiled) in demo_pieces() {
        let files = papers::packet(&compiled).expect("a packet");
        let text =
            |name: &str| &files.iter().find(|file| file.name == name).expect("the file").text;
        let boxes = |name: &str| text(name).matches("class=\"box").count();
        // A row of the list for other programs is one piece.
        let pieces = text("cut-list.csv").lines().count() - 1;
        let checks = text("cut-list.txt").lines().filter(|line| line.starts_with("  [ ] "));
        let checks =
            checks.filter(|line| line.contains(" = ") || line.contains("when all is sawn")).count();
        assert_eq!(boxes("cut-list.html"), pieces + checks, "{piece}");
        assert_eq!(text("cut-list.txt").matches("[ ] ").count(), pieces + checks, "{piece}");
        assert_eq!(text("cut-list.md").matches(['☐', '☑']).count(), pieces, "{piece}");
        assert_eq!(boxes("drawings.html"), 0, "{piece}");
        // What the weights ask to be checked: that they add up, and one of them.
        assert_eq!(boxes("weights.html"), 2, "{piece}");
    }
}

#[test]
fn a_figure_is_heard_and_copied_as_it_is_read() {
    let files = papers::packet(&compile(&spec("first.case"))).expect("a packet");
    let list = files.iter().find(|file| file.name == "cut-list.html").expect("the list");
    let said = words(list.text.split_once("<body>").expect("a body").1);
    // The bottom, and the rough size of a door, worked in tests/hall_console.rs.
    assert!(said.contains("35 1/16"), "{said}");
    assert!(!said.contains('⁄') && !said.contains("351/16"), "{said}");
    assert!(!list.text.contains("&frasl;"));
}

#[test]
fn warnings_stand_on_the_first_paper_and_on_the_page_that_leads_to_all() {
    let damp = spec("first.case").replace("humidity 30% to 55%", "humidity 30% to 80%");
    let upper = "cupboard.upper will jam at its top edge in the damp season";
    let leaves = "the two leaves of cupboard.store will meet in the damp season";
    let told = |text: &str| -> Vec<(String, String)> {
        let files = papers::packet(&compile(text)).expect("a packet");
        pages(files).map(|file| (file.name, words(&file.text))).collect()
    };
    for (name, page) in told(&damp) {
        let is_first = ["index.html", "drawings.html"].contains(&name.as_str());
        for what in [upper, leaves] {
            assert_eq!(page.contains(&format!("warning not accepted: {what}")), is_first, "{name}");
        }
    }
    let accept = "accept gap-closes on cupboard.upper \"the room is never that damp\"";
    for (name, page) in told(&format!("{damp}\n{accept}\n")) {
        assert!(!page.contains(upper), "{name}");
        assert!(
            page.contains("accepted: gap-closes on cupboard.upper: the room is never that damp"),
            "{name}"
        );
        let is_first = ["index.html", "drawings.html"].contains(&name.as_str());
        assert_eq!(page.contains(&format!("warning not accepted: {leaves}")), is_first, "{name}");
    }
}

/// Every body of a table, and everything that is kept whole, as it stands in the page.
fn kept<'p>(page: &'p str, tag: &str) -> Vec<&'p str> {
    let (start, end) =
        (format!("<{tag}"), format!("</{}>", tag.split([' ', '>']).next().expect("a tag")));
    let rest = page.split(start.as_str()).skip(1);
    rest.map(|rest| &rest[..rest.find(end.as_str()).expect("it ends")]).collect()
}

/// A printer parts a table between its bodies only.
#[test]
fn no_sheet_parts_a_row_from_its_lines_or_leaves_one_row_alone() {
    let mut seen = 0;
    for (piece, compiled) in demo_pieces() {
        for file in pages(papers::packet(&compiled).expect("a packet")) {
            assert!(file.text.contains("tbody, tbody tr { break-inside: avoid; }"));
            for table in kept(&file.text, "table ") {
                let rows = |body: &str| body.matches("<tr>").count();
                let bodies = kept(table, "tbody>");
                for body in &bodies {
                    assert!(
                        !body.trim_start_matches(['>', '\n']).starts_with("<tr class=\"below\"")
                    );
                    seen += 1;
                }
                if bodies.len() > 1 {
                    let ends = [bodies[0], bodies[bodies.len() - 1]].map(rows);
                    assert_eq!(ends, [2, 2], "{piece}, {}", file.name);
                }
            }
        }
    }
    assert!(seen > 500, "{seen}");
}

/// A set-up of a few pieces is one block, with its drawing, its table, and its check.
#[test]
fn a_set_up_stays_on_one_sheet() {
    let pieces = demo_pieces();
    let (_, compiled) = pieces.iter().find(|(name, _)| name == "tide-cottage-press").expect("it");
    let files = papers::packet(compiled).expect("a packet");
    let sheet = files.iter().find(|file| file.name == "jig-sheet.html").expect("the sheet");
    assert!(sheet.text.contains(".whole { break-inside: avoid; }"));
    // The press has six, and each of them fits a sheet.
    let wholes = kept(&sheet.text, "div class=\"whole\"");
    assert_eq!(wholes.len(), 6);
    for whole in wholes {
        for part in ["class=\"setting", "<svg", "<tbody>", "class=\"proof\""] {
            assert_eq!(whole.matches(part).count().min(1), 1, "{part}: {whole}");
        }
    }
}

/// The foot of a page never stands by itself: what it says is one block that no sheet
/// may begin with.
#[test]
fn the_foot_stands_with_what_is_above_it() {
    for (piece, compiled) in demo_pieces() {
        for file in pages(papers::packet(&compiled).expect("a packet")) {
            if file.name == "index.html" {
                continue;
            }
            let end = kept(&file.text, "div class=\"end\"");
            assert_eq!(end.len(), 1, "{piece}, {}", file.name);
            assert!(end[0].contains("<footer>"), "{piece}, {}", file.name);
            assert!(file.text.contains(".end { break-before: avoid; break-inside: avoid; }"));
        }
    }
}
