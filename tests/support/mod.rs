//! What several test files need: the true binary in a folder of its own, and
//! specs compiled from text.
#![allow(dead_code, reason = "each test file is built by itself and uses what it needs")]

use std::path::Path;
use std::process::{Command, Output, Stdio};

use casewright::model::MemoryFiles;
use casewright::papers::{self, Format, SHARED};
use casewright::pipeline::{self, Compilation};
use serde_json::Value;
use tempfile::TempDir;

/// A folder with files, in which commands are run.
pub(crate) struct Bench {
    folder: TempDir,
}

/// What a command came to.
#[derive(Debug)]
pub(crate) struct Done {
    pub(crate) code: Option<i32>,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Bench {
    pub(crate) fn new() -> Self {
        Self { folder: TempDir::new().unwrap() }
    }

    /// Puts a file into the folder.
    pub(crate) fn with(self, name: &str, text: &str) -> Self {
        let path = self.path(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, text).unwrap();
        self
    }

    pub(crate) fn path(&self, name: &str) -> std::path::PathBuf {
        self.folder.path().join(name)
    }

    /// The command, away from whatever the environment says of colour.
    pub(crate) fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_casewright"));
        command.args(arguments).current_dir(self.folder.path()).stdin(Stdio::null());
        for name in ["NO_COLOR", "CLICOLOR_FORCE", "FORCE_COLOR", "LC_ALL", "LANG"] {
            command.env_remove(name);
        }
        command
    }

    pub(crate) fn run(&self, arguments: &[&str]) -> Done {
        done(&mut self.command(arguments))
    }
}

pub(crate) fn done(command: &mut Command) -> Done {
    let Output { status, stdout, stderr } = command.output().unwrap();
    Done {
        code: status.code(),
        out: String::from_utf8(stdout).unwrap(),
        err: String::from_utf8(stderr).unwrap(),
    }
}

/// A repository that knows nothing of the settings of whoever runs the test.
pub(crate) struct Repository {
    pub(crate) bench: Bench,
}

impl Repository {
    pub(crate) fn new() -> Self {
        let own = Self { bench: Bench::new() };
        own.git(&["init", "--quiet"]);
        own
    }

    pub(crate) fn write(&self, name: &str, text: &str) {
        let path = self.bench.path(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, text).unwrap();
    }

    pub(crate) fn git(&self, arguments: &[&str]) -> Done {
        let own = Path::new(env!("CARGO_BIN_EXE_casewright")).parent().unwrap().to_path_buf();
        let path = std::env::var_os("PATH").unwrap_or_default();
        let path = std::env::join_paths(std::iter::once(own).chain(std::env::split_paths(&path)));
        let mut command = Command::new("git");
        command
            .args(["-c", "user.name=A Maker", "-c", "user.email=maker@example.org"])
            .args(arguments)
            .current_dir(self.bench.path(""))
            .env("PATH", path.unwrap())
            .env("GIT_CONFIG_GLOBAL", self.bench.path("none"))
            .env("GIT_CONFIG_NOSYSTEM", "1");
        let done = done(&mut command);
        assert_eq!(done.code, Some(0), "{arguments:?} {done:?}");
        done
    }

    pub(crate) fn commit(&self) {
        self.git(&["add", "--all"]);
        self.git(&["commit", "--quiet", "--message", "another redraw"]);
    }

    pub(crate) fn diff(&self, arguments: &[&str]) -> Done {
        let arguments: Vec<&str> = ["diff"].iter().chain(arguments).copied().collect();
        self.bench.run(&arguments)
    }
}

/// A spec of one file, compiled.
pub(crate) fn compile(text: &str) -> Compilation {
    pipeline::check(&MemoryFiles::one("a.case", text), "a.case").unwrap()
}

/// A changed example of the reference, beside the file that the examples share.
pub(crate) fn compile_example(text: &str) -> Compilation {
    let files = MemoryFiles::one("a.case", text).with(SHARED.0, SHARED.1);
    pipeline::check(&files, "a.case").unwrap()
}

/// Asks of a page of HTML that no id stands twice, and that what is referred
/// to by its id is there. Returns how many ids there are.
pub(crate) fn ids_are_unique(name: &str, page: &str) -> usize {
    let ids: Vec<&str> =
        page.split(" id=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
    for (at, id) in ids.iter().enumerate() {
        assert!(!ids[..at].contains(id), "{name}: `{id}` stands twice");
    }
    let named = |mark: &'static str, end: char| {
        page.split(mark).skip(1).filter_map(move |rest| rest.split(end).next())
    };
    for id in named("url(#", ')').chain(named("href=\"#", '"')) {
        assert!(ids.contains(&id), "{name}: nothing is called `{id}`");
    }
    ids.len()
}

/// The packet of a sound piece, as other programs read it.
pub(crate) fn packet(compiled: &Compilation) -> Value {
    let packet = papers::one(compiled, "packet", Format::Json).expect("a packet");
    serde_json::from_str(&packet).unwrap()
}

/// The codes of what was found, in order.
pub(crate) fn slugs(compiled: &Compilation) -> Vec<&'static str> {
    compiled.diagnostics.iter().map(|found| found.slug).collect()
}

/// A demo piece of the project.
pub(crate) fn spec(name: &str) -> String {
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    std::fs::read_to_string(specs.join(name)).unwrap()
}

/// Every spec of the project by name, sorted.
pub(crate) fn specs() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let mut found: Vec<(String, String)> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "case"))
        .map(|path| {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            (name, std::fs::read_to_string(&path).unwrap())
        })
        .collect();
    found.sort();
    found
}

/// Every spec that has a case of its own, compiled, by name without its ending.
pub(crate) fn demo_pieces() -> Vec<(String, Compilation)> {
    let all = specs();
    all.iter()
        .filter(|(_, text)| {
            text.lines().any(|line| line.starts_with("case ") || line.starts_with("run "))
        })
        .map(|(name, text)| {
            let files = all
                .iter()
                .fold(MemoryFiles::one(name, text), |files, (name, text)| files.with(name, text));
            let compiled = pipeline::check(&files, name).unwrap();
            (name.trim_end_matches(".case").to_owned(), compiled)
        })
        .collect()
}

/// A line of screws on the layout sheet: what its first screw counts from, that screw, the
/// next, and how many there are.
pub(crate) type PrintedLine = (String, String, Option<String>, u64);

/// The screw lines through a board into another, by their marks.
pub(crate) fn screw_lines(text: &str, [through, into]: [&str; 2]) -> Vec<PrintedLine> {
    let packet = packet(&compile(text));
    let own = |line: &&Value| {
        line["kind"] == "screw line" && line["through"] == through && line["into"] == into
    };
    let text = |figure: &Value| figure["print"].as_str().map(str::to_owned);
    let all = packet["operations"].as_array().unwrap().iter().filter(own);
    let line = |line: &Value| {
        let from = line["from"][0].as_str().unwrap().to_owned();
        let count = line["count"].as_u64().unwrap();
        (from, text(&line["first"]).unwrap(), text(&line["apart"]), count)
    };
    all.map(line).collect()
}
