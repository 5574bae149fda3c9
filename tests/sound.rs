//! The demo pieces: sound, complete, and possible in space.

use casewright::model::MemoryFiles;
use casewright::papers;
use casewright::parts::clashes;
use casewright::pipeline;

use crate::support::{demo_pieces, ids_are_unique};

#[test]
fn the_demo_pieces_are_sound_and_their_papers_are_whole() {
    let pieces = demo_pieces();
    assert!(pieces.len() >= 4);
    for (name, compiled) in pieces {
        let titles: Vec<&str> = compiled.diagnostics.iter().map(|d| d.title.as_str()).collect();
        assert!(titles.is_empty(), "{name}: {titles:#?}");
        let packet = papers::packet(&compiled).expect("papers");
        for file in &packet {
            assert!(file.text.len() > 100, "{name}: {} is empty", file.name);
        }
        // Every part stands on the cut list by its mark.
        let list = packet.iter().find(|file| file.name == "cut-list.txt").expect("a cut list");
        for part in &compiled.parts.expect("parts").all {
            assert!(list.text.contains(&part.mark), "{name}: {} is missing", part.mark);
        }
    }
}

/// An id that stands twice on a page is not valid HTML, and a reference to it
/// takes the first: the hatching of another section.
#[test]
fn every_id_stands_once_on_its_page() {
    for (name, compiled) in demo_pieces() {
        let packet = papers::packet(&compiled).expect("papers");
        let pages = packet.iter().filter(|file| file.name.ends_with(".html"));
        let ids: usize =
            pages.map(|page| ids_are_unique(&format!("{name}, {}", page.name), &page.text)).sum();
        // One hatching for each section, level section, and set-up with strips.
        let pages = packet.iter().filter(|file| file.name.ends_with(".html"));
        let drawings = pages.flat_map(|page| page.text.split("<svg").skip(1));
        let hatched = drawings.filter(|drawing| drawing.contains("url(#")).count();
        assert_eq!(ids, hatched, "{name}");
    }
}

#[test]
fn marks_are_short_and_no_two_parts_share_one() {
    for (name, compiled) in demo_pieces() {
        let parts = compiled.parts.expect("parts");
        let mut marks: Vec<&str> = parts.all.iter().map(|part| part.mark.as_str()).collect();
        marks.sort_unstable();
        let all = marks.len();
        marks.dedup();
        assert_eq!(marks.len(), all, "{name}");
        for mark in marks {
            assert!(mark.len() <= 12, "{name}: {mark} is too long to pencil");
        }
    }
}

/// Geometry: two boards can't be in one place. What two parts share must have
/// been cut out of one of them, or be the joint by which they interlock.
#[test]
fn no_two_parts_share_space_but_by_their_joint() {
    let (mut wrong, mut shared) = (Vec::new(), 0);
    for (name, compiled) in demo_pieces() {
        let parts = compiled.parts.expect("parts");
        let (clashes, count) = clashes(&parts);
        shared += count;
        let path = |id| parts.get(id).map_or("", |part| part.path.as_str());
        wrong.extend(clashes.iter().map(|clash| {
            format!("{name}: {} and {} by {:?}", path(clash.one), path(clash.other), clash.by)
        }));
    }
    assert!(wrong.is_empty(), "{shared} share, {} wrong:\n{}", wrong.len(), wrong.join("\n"));
    assert!(shared > 100, "{shared}");
}

#[test]
fn the_same_spec_gives_the_same_bytes() {
    let twice = [demo_pieces(), demo_pieces()];
    let [first, second] = twice;
    for ((name, a), (_, b)) in first.iter().zip(&second) {
        assert_eq!(papers::packet(a), papers::packet(b), "{name}");
    }
}

/// Half the end, as is usual (American Furniture Design, Rabbet & Dado Joints:
/// a half to two thirds of the thickness), holds the back on ends 18 mm thick
/// and, with 6 mm for ledge and lip, on those of 12 mm.
#[test]
fn a_rabbet_with_no_depth_written_holds_the_back() {
    let first = include_str!("../specs/first.case");
    assert!(first.contains("joint rabbet { deep 3/8 }"));
    let unwritten = first.replace("joint rabbet { deep 3/8 }", "joint rabbet");
    for (thick, actual, found) in
        [("3/4", "23/32", false), ("12 mm", "12 mm", false), ("12 mm", "11.5 mm", true)]
    {
        let text = unwritten
            .replace("plywood 3/4; actual 23/32", &format!("plywood {thick}; actual {actual}"));
        let compiled = pipeline::check(&MemoryFiles::one("a.case", &text), "a.case").unwrap();
        let thin = compiled.diagnostics.iter().any(|d| d.slug == "rabbet-too-thin");
        assert_eq!(thin, found, "{actual}: {:?}", compiled.diagnostics);
    }
}
