//! The heading of a job.

use casewright::papers;

use crate::support::{compile, slugs, spec};

fn cut_list(text: &str) -> String {
    let files = papers::packet(&compile(text)).expect("a sound piece");
    files.into_iter().find(|file| file.name == "cut-list.txt").expect("the paper").text
}

#[test]
fn a_revision_is_a_letter_or_a_number() {
    for revision in ["7", "B", "12", "C2"] {
        let text = spec("first.case").replace("revision A", &format!("revision {revision}"));
        assert_eq!(slugs(&compile(&text)), Vec::<&str>::new(), "{revision}");
        let heading = cut_list(&text).lines().nth(1).unwrap().to_owned();
        assert!(heading.contains(&format!("revision {revision} ")), "{heading}");
    }
    for revision in ["2.5", "1/2", "7 mm", "-1"] {
        let text = spec("first.case").replace("revision A", &format!("revision {revision}"));
        assert_eq!(slugs(&compile(&text)), ["value-wrong"], "{revision}");
    }
}

#[test]
fn papers_are_printed_to_a_mark_that_a_tape_has() {
    let slugs_of = |units: &str, tape: &str| {
        let text = format!(
            "casework 1\njob \"A\" {{ units {units}; tape {tape} }}\nsite {{ left open; right open; fixing none }}\nshop {{ kerf 3 mm }}\n"
        );
        slugs(&compile(&text)).into_iter().filter(|slug| *slug == "absurd-size").count()
    };
    for tape in ["1/2", "1/4", "1/8", "1/16", "1/32", "1/64", "1/128", "0.03125"] {
        assert_eq!(slugs_of("in", tape), 0, "{tape}");
    }
    for tape in ["1/3", "1/7", "13/16", "1", "3/32", "1/256", "0.5 mm", "10 mm", "0"] {
        assert_eq!(slugs_of("in", tape), 1, "{tape}");
    }
    for tape in ["1", "0.5", "1/2", "0.1", "1 mm"] {
        assert_eq!(slugs_of("mm", tape), 0, "{tape}");
    }
    for tape in ["0.25", "0.3", "2", "1/32", "1/32 in", "10"] {
        assert_eq!(slugs_of("mm", tape), 1, "{tape}");
    }
}
