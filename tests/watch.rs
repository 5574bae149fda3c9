//! `casewright watch`, run as a maker runs it.

#![cfg(unix)]

use std::io::{Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, ExitStatus, Stdio};
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

use crate::support::{Bench, spec};

/// Far longer than anything takes, even on a machine with much else to do.
const PATIENCE: Duration = Duration::from_secs(60);

/// A watch that is running, and all it has said.
struct Running {
    child: Child,
    said: Arc<Mutex<String>>,
    /// Up to where what it said has been waited for.
    heard: usize,
}

impl Running {
    fn start(bench: &Bench, arguments: &[&str]) -> Self {
        let mut command = bench.command(&[&["watch"], arguments].concat());
        let mut child = command.stdout(Stdio::null()).stderr(Stdio::piped()).spawn().unwrap();
        let said = Arc::new(Mutex::new(String::new()));
        let mut pipe = child.stderr.take().unwrap();
        let own = Arc::clone(&said);
        std::thread::spawn(move || {
            let mut bytes = [0; 4096];
            while let Ok(count @ 1..) = pipe.read(&mut bytes) {
                own.lock().unwrap().push_str(&String::from_utf8_lossy(&bytes[..count]));
            }
        });
        Self { child, said, heard: 0 }
    }

    /// Waits until it has said this, and hands back what came before.
    fn hear(&mut self, awaited: &str) -> String {
        let until = Instant::now() + PATIENCE;
        loop {
            let said = self.said.lock().unwrap().clone();
            if let Some(at) = said[self.heard..].find(awaited) {
                let end = self.heard + at + awaited.len();
                let heard = said[self.heard..end].to_owned();
                self.heard = end;
                return heard;
            }
            assert!(Instant::now() < until, "`{awaited}` was not said: {said}");
            assert!(self.child.try_wait().unwrap().is_none(), "it has ended: {said}");
            std::thread::sleep(Duration::from_millis(5));
        }
    }

    /// The port that it says.
    fn port(&mut self) -> u16 {
        self.hear("shown at http://127.0.0.1:");
        let port = self.hear("/\n");
        port.trim_end_matches("/\n").parse().unwrap()
    }

    fn interrupt(mut self) -> (ExitStatus, String) {
        let id = self.child.id().to_string();
        assert!(Command::new("kill").args(["-INT", &id]).status().unwrap().success());
        let until = Instant::now() + PATIENCE;
        loop {
            if let Some(status) = self.child.try_wait().unwrap() {
                return (status, self.said.lock().unwrap().clone());
            }
            assert!(Instant::now() < until, "it does not end");
            std::thread::sleep(Duration::from_millis(5));
        }
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

const ENDS: &str = "press Ctrl-C to stop\n";

fn paper(bench: &Bench, name: &str) -> String {
    std::fs::read_to_string(bench.path("papers/my").join(name)).unwrap()
}

fn bench() -> Bench {
    Bench::new().with("my.case", &spec("first.case"))
}

/// As an editor saves: the new text is put in the place of the old.
fn save(path: &Path, text: &str) {
    let beside = path.with_extension("tmp");
    std::fs::write(&beside, text).unwrap();
    std::fs::rename(beside, path).unwrap();
}

#[test]
fn papers_follow_every_sound_save_and_stay_at_a_broken_one() {
    let bench = bench();
    let mut watch = Running::start(&bench, &["my.case"]);
    let said = watch.hear(ENDS);
    assert!(said.contains("my.case is sound\n"), "{said}");
    assert!(said.ends_with("watching my.case; press Ctrl-C to stop\n"), "{said}");
    let first = paper(&bench, "cut-list.txt");

    let wider = spec("first.case").replace("wide 36; deep 18", "wide 40; deep 18");
    save(&bench.path("my.case"), &wider);
    watch.hear(ENDS);
    let second = paper(&bench, "cut-list.txt");
    assert_ne!(first, second);

    // Written in place this time, and wrong.
    let tall = wider.replace("doors store { share 1;", "doors store { high 23;");
    std::fs::write(bench.path("my.case"), &tall).unwrap();
    // A look may fall between the two halves of the save, so there may be
    // other messages before.
    watch.hear("error[sizes-conflict]: the openings of cupboard come to 29-1/2");
    watch.hear("nothing was written");
    watch.hear(ENDS);
    assert_eq!(paper(&bench, "cut-list.txt"), second);

    // A save in which the file is gone for a while.
    std::fs::remove_file(bench.path("my.case")).unwrap();
    watch.hear("there is no file my.case\n");
    watch.hear(ENDS);
    save(&bench.path("my.case"), &spec("first.case"));
    watch.hear("my.case is sound\n");
    watch.hear(ENDS);
    assert_eq!(paper(&bench, "cut-list.txt"), first);

    let (status, said) = watch.interrupt();
    assert_eq!(status.code(), Some(0), "{said}");
    assert!(said.ends_with(ENDS), "{said}");
    let left: Vec<_> = std::fs::read_dir(bench.path("papers")).unwrap().collect();
    assert_eq!(left.len(), 1, "no working folder stays behind: {left:?}");
}

/// A slow disk or a slow hand: what is read between two pieces is no piece to
/// build, and the last look sees the whole.
#[test]
fn a_text_that_is_written_in_pieces_is_built_whole() {
    let bench = bench();
    let mut watch = Running::start(&bench, &["my.case"]);
    watch.hear(ENDS);
    let text = spec("first.case").replace("wide 36;", "wide 40;");
    let mut file = std::fs::File::create(bench.path("my.case")).unwrap();
    for piece in text.as_bytes().chunks(text.len() / 3) {
        file.write_all(piece).unwrap();
        std::thread::sleep(Duration::from_millis(60));
    }
    watch.hear(" is sound\n");
    watch.hear(ENDS);
    assert!(paper(&bench, "cut-list.csv").contains("cupboard.kick,ply,40,"));
}

#[test]
fn files_that_are_used_are_watched_too() {
    let text = format!("{}use \"own/more.case\"\n", spec("first.case"));
    let bench = bench().with("my.case", &text);
    let mut watch = Running::start(&bench, &["my.case"]);
    let said = watch.hear(ENDS);
    assert!(said.contains("there is no file `own/more.case`"), "{said}");
    assert!(!bench.path("papers").exists());
    // The file that was missing appears.
    let bench = bench.with(
        "own/more.case",
        "stock spare { plywood 1/2; actual 15/32; sheet { long 96; wide 48 } }\n",
    );
    let said = watch.hear(ENDS);
    assert!(said.contains("my.case is sound\n"), "{said}");
    assert!(said.contains("watching my.case and 1 file it uses; "), "{said}");
    assert!(bench.path("papers/my/index.html").exists());
    save(&bench.path("own/more.case"), "stock spare { plywood = 1/2 }\n");
    watch.hear("error[syntax]");
    watch.hear(ENDS);
}

#[test]
fn warnings_that_are_denied_write_nothing() {
    let text = format!("{}accept sag on cupboard.store \"it holds\"\n", spec("first.case"));
    let bench = bench().with("my.case", &text);
    let mut watch = Running::start(&bench, &["my.case", "--deny", "warnings", "--into", "out/a"]);
    let said = watch.hear(ENDS);
    assert!(
        said.contains("warning[accept-unused]") && said.contains("nothing was written"),
        "{said}"
    );
    assert!(!bench.path("out").exists());
    save(&bench.path("my.case"), &spec("first.case"));
    let said = watch.hear(ENDS);
    assert!(said.contains("files are in out/a; open out/a/index.html\n"), "{said}");
}

#[test]
fn what_is_not_there_at_the_start_is_a_mistake() {
    let done = bench().run(&["watch", "no.case"]);
    assert_eq!(done.code, Some(2));
    assert_eq!(done.err, "casewright: there is no file no.case\n");
    let taken = std::net::TcpListener::bind("127.0.0.1:0").unwrap();
    let port = taken.local_addr().unwrap().port();
    let done = bench().run(&["watch", "my.case", &format!("--serve={port}")]);
    assert_eq!(done.code, Some(2));
    assert!(done.err.starts_with(&format!("casewright: port {port} can't be used (")), "{done:?}");
}

/// Sends bytes as they are, for no client would send some of these.
fn ask(port: u16, request: &str) -> String {
    let mut stream = TcpStream::connect(("127.0.0.1", port)).unwrap();
    stream.set_read_timeout(Some(PATIENCE)).unwrap();
    stream.write_all(request.as_bytes()).unwrap();
    let mut answer = Vec::new();
    stream.read_to_end(&mut answer).unwrap();
    String::from_utf8_lossy(&answer).into_owned()
}

fn get(port: u16, target: &str) -> String {
    ask(port, &format!("GET {target} HTTP/1.1\r\nHost: localhost:{port}\r\n\r\n"))
}

#[test]
fn papers_are_shown_on_this_machine_and_say_when_they_change() {
    let bench = bench();
    std::fs::write(bench.path("papers.secret"), "secret").unwrap();
    let mut watch = Running::start(&bench, &["my.case", "--serve=0"]);
    let port = watch.port();
    watch.hear(ENDS);

    let page = get(port, "/");
    assert!(page.starts_with("HTTP/1.1 200 OK\r\n"), "{page}");
    assert!(
        page.contains("content-security-policy: ") || page.contains("Content-Security-Policy: ")
    );
    let (head, shown) = page.split_once("\r\n\r\n").unwrap();
    assert!(head.contains(&format!("Content-Length: {}\r\n", shown.len())), "{head}");
    // The copy on disk is the same without the script.
    let revision = get(port, "/-/revision").split_once("\r\n\r\n").unwrap().1.to_owned();
    let script = format!("<script src=\"/-/reload.js?{revision}\"></script>\n");
    assert_eq!(shown.replacen(&script, "", 1), paper(&bench, "index.html"));
    assert!(shown.contains(&script) && !paper(&bench, "index.html").contains("<script"));
    assert!(get(port, "/-/reload.js").contains("location.reload()"));
    assert!(get(port, "/cut-list.txt").ends_with(&paper(&bench, "cut-list.txt")));

    // A broken save changes nothing, a sound one the revision.
    save(&bench.path("my.case"), "casework 1\n");
    watch.hear("nothing was written");
    watch.hear(ENDS);
    assert!(get(port, "/-/revision").ends_with(&revision));
    save(&bench.path("my.case"), &spec("first.case").replace("wide 36;", "wide 40;"));
    watch.hear(" is sound\n");
    watch.hear(ENDS);
    assert!(!get(port, "/-/revision").ends_with(&revision));
    assert!(!get(port, "/").contains(&revision));

    for target in ["/../../papers.secret", "/..%2f..%2fpapers.secret", "/.casewright", "/%2e%2e/"] {
        let answer = get(port, target);
        assert!(answer.starts_with("HTTP/1.1 404 "), "{target}: {answer}");
        assert!(!answer.contains("secret\n") && !answer.ends_with("secret"), "{target}: {answer}");
    }
    for host in ["", "Host: evil.example\r\n", "Host: localhost:1\r\n"] {
        let answer = ask(port, &format!("GET / HTTP/1.1\r\n{host}\r\n"));
        assert!(answer.starts_with("HTTP/1.1 403 "), "{host}: {answer}");
    }
    let head = ask(port, &format!("HEAD / HTTP/1.1\r\nhost: 127.0.0.1:{port}\r\n\r\n"));
    assert!(head.starts_with("HTTP/1.1 200 OK\r\n") && head.ends_with("\r\n\r\n"), "{head}");
    assert!(ask(port, "nonsense\r\n\r\n").starts_with("HTTP/1.1 400 "));
    let long = format!("GET / HTTP/1.1\r\nx: {}\r\n", "y".repeat(20_000));
    assert!(ask(port, &long).starts_with("HTTP/1.1 431 "));

    // Someone who connects and says nothing holds nobody up.
    let _silent: Vec<TcpStream> =
        (0..5).map(|_| TcpStream::connect(("127.0.0.1", port)).unwrap()).collect();
    assert!(get(port, "/").starts_with("HTTP/1.1 200 OK\r\n"));
    let (status, said) = watch.interrupt();
    assert_eq!(status.code(), Some(0), "{said}");
}

/// Other machines can't connect at all.
#[cfg(target_os = "linux")]
#[test]
fn only_the_loopback_is_listened_on() {
    let bench = bench();
    let mut watch = Running::start(&bench, &["my.case", "--serve=0"]);
    let port = watch.port();
    let listening = std::fs::read_to_string("/proc/net/tcp").unwrap();
    let ends = format!(":{port:04X}");
    let locals: Vec<&str> = listening
        .lines()
        .filter_map(|line| line.split_whitespace().nth(1))
        .filter(|local| local.ends_with(&ends))
        .collect();
    assert!(
        !locals.is_empty() && locals.iter().all(|local| local.starts_with("0100007F:")),
        "{locals:?}"
    );
}
