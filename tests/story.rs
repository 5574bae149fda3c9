//! One piece through eight revisions in a repository, three of them after the
//! saw has run and two of them measured: what each says at the bench.

use crate::support::Repository;

const SPEC: &str = "hall.case";

/// The piece, from `casewright new` on.
struct Story {
    repository: Repository,
}

impl Story {
    fn begin() -> Self {
        let story = Self { repository: Repository::new() };
        assert_eq!(story.run(&["new", SPEC]).0, 0);
        story.repository.commit();
        story
    }

    /// A command, and all that it says.
    fn run(&self, arguments: &[&str]) -> (i32, String) {
        let done = self.repository.bench.run(arguments);
        (done.code.unwrap(), done.out + &done.err)
    }

    fn text(&self) -> String {
        std::fs::read_to_string(self.repository.bench.path(SPEC)).unwrap()
    }

    /// The next revision: one thing put otherwise.
    fn redraw(&self, old: &str, new: &str) {
        let text = self.text();
        assert!(text.contains(old), "no `{old}` in\n{text}");
        self.repository.write(SPEC, &text.replacen(old, new, 1));
    }

    /// What has changed since the last commit; exit code 1 says that something
    /// has.
    fn changes(&self) -> String {
        let (code, told) = self.run(&["diff", SPEC, "--from", "HEAD", "--width", "160"]);
        assert_eq!(code, 1, "{told}");
        told
    }

    /// As [`Story::changes`], and the revision is kept.
    fn keep(&self) -> String {
        let told = self.changes();
        self.repository.commit();
        told
    }
}

fn has(told: &str, lines: &[&str]) {
    for line in lines {
        assert!(told.lines().any(|own| own.trim() == *line), "no `{line}` in\n{told}");
    }
}

#[test]
fn the_plan_changes_and_no_board_is_wasted() {
    let story = Story::begin();

    // B: the client wants it wider. Nothing is cut: no word of the bench.
    story.redraw("wide 36; deep 18", "wide 38; deep 18");
    let told = story.keep();
    has(&told, &["Parts: 16 to make again; 24 in all.", "36 → 38 long: KICK (kick)"]);
    assert!(!told.contains("Wood already cut") && !told.contains("cut yet"), "{told}");

    // C: a higher drawer takes from the doors.
    story.redraw("drawer upper { high 5 }", "drawer upper { high 6 }");
    has(&story.keep(), &["store 21 → 20 high, 1 lower"]);

    // D: a second drawer.
    story.redraw(
        "drawer upper { high 6 }",
        "drawer tray { high 4 }\n      rail { wide 1-1/2 }\n      drawer upper { high 6 }",
    );
    has(&story.keep(), &["new: drawer tray, 34-1/2 wide and 4 high", "pull knob: 3 → 4"]);

    // The carcass and the frame are cut.
    let carcass = ["left-end", "right-end", "bottom", "back", "FST", "KST"];
    let frame = ["LS", "RS", "TRL", "BRL", "RTR-UP", "RUP-ST"];
    for (parts, date) in [(carcass, "2026-11-02"), (frame, "2026-11-03")] {
        let arguments = [&["record", SPEC, "--date", date], &parts[..]].concat();
        assert_eq!(story.run(&arguments).0, 0);
    }
    let told = story.keep();
    has(&told, &["No part changes.", "== Recorded since =="]);
    assert!(told.contains("12 parts cut since: LE, RE, B, FST, KST, K,"), "{told}");

    // E: half an inch narrower. The wood is there; it is trimmed.
    story.redraw("wide 38; deep 18", "wide 37-1/2; deep 18");
    has(
        &story.keep(),
        &[
            "Parts: 21 changed, 8 of them already cut; 33 in all, 12 cut.",
            // 38 + 1/2 − 1-7/16 = 37-1/16, and half an inch less.
            "B (bottom): cut 37-1/16 long; trim it to 36-9/16",
            "TRL, BRL, RTR-UP, RUP-ST: cut 34-1/2 long; trim it to 34; still to cut: pocket \
             holes",
        ],
    );

    // F: the sheet is measured, and is thinner than it was sold as. What was
    // cut from it before is as thick as it is.
    story.repository.write(
        SPEC,
        &format!(
            "{}\nmeasured {{\n  with 1/64\n  stock ply {{ actual 45/64 }}\n}}\n",
            story.text()
        ),
    );
    let told = story.keep();
    has(&told, &["2 parts with other cuts or joints: LE (left end), RE (right end)"]);
    has(&told, &["width 23/32 → 45/64", "already made in: LE, RE"]);
    // 37-1/2 + 1/2 − 2 × 45/64 = 36-19/32.
    has(&told, &["B (bottom): cut 37-1/16 long; trim it to 36-19/32"]);

    // G: wider than the wood that is there. The spec is refused, the difference
    // told all the same, and each board is given up by name or not at all.
    story.redraw("wide 37-1/2; deep 18", "wide 38-1/2; deep 18");
    let (code, told) = story.run(&["check", SPEC]);
    assert_eq!(code, 1);
    assert!(told.contains("error[cut-misfit]: cupboard.bottom is cut 17/32 too short"), "{told}");
    let (code, told) = story.run(&["diff", SPEC, "--from", "HEAD", "--width", "160"]);
    assert_eq!(code, 2);
    has(&told, &["8 parts already cut, to make again"]);
    has(&told, &["B (bottom): cut 37-1/16 long, but the drawing wants 37-19/32"]);
    for _ in 0..8 {
        let (_, list) = story.run(&["mend", SPEC, "--list"]);
        let again = list.lines().find(|line| line.contains("cut it again")).expect("a board");
        story.run(&["mend", SPEC, "--take", again.split_whitespace().next().unwrap()]);
    }
    assert_eq!(story.run(&["check", SPEC]).0, 0);
    has(
        &story.keep(),
        &[
            "8 parts spoiled, to cut again: B, FST, KST, K, TRL, BRL, RTR-UP, RUP-ST",
            "Parts: 21 changed and not cut yet; 33 in all, 4 cut.",
        ],
    );

    // H: they are cut again, the frame is glued and measured: out of square.
    let again = ["B", "K", "FST", "KST", "TRL", "BRL", "RTR-UP", "RUP-ST"];
    assert_eq!(story.run(&[&["record", SPEC, "--date", "2026-11-09"], &again[..]].concat()).0, 0);
    story.redraw(
        "actual 45/64 }\n",
        "actual 45/64 }\n  opening store { wide 34-31/32; high 14-17/32; \
         diagonals { rising 37-29/32; falling 37-25/32 } }\n",
    );
    assert_eq!(story.run(&["format", SPEC]).0, 0);
    let told = story.changes();
    assert!(told.contains("new: note[front-tapered]: cupboard.store is out of square"), "{told}");
    has(&told, &["none of them is cut yet"]);

    // The reviewer reads the same, with boxes for what is to be done only.
    let arguments = ["diff", SPEC, "--from", "HEAD", "--format", "markdown"];
    let (_, comment) = story.run(&arguments);
    has(&comment, &["### Recorded since", "### Parts that change"]);
    assert!(comment.contains("\n- 8 parts cut since: "), "{comment}");
    assert!(comment.contains("\n- [ ] 2 parts 1/32 longer"), "{comment}");
    story.repository.commit();

    // Over the whole story: what lies on the bench now, beside the first drawing.
    let first = story.repository.git(&["rev-list", "--max-parents=0", "HEAD"]).out;
    let (code, told) = story.run(&["diff", SPEC, "--from", first.trim()]);
    assert_eq!(code, 1);
    assert!(told.contains("12 parts cut since: "), "{told}");
}
