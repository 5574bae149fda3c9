//! Friendly and unfriendly requests.

use super::*;

const PORT: u16 = 4650;

struct Place {
    place: tempfile::TempDir,
}

impl Place {
    fn new() -> Self {
        let place = tempfile::tempdir().unwrap();
        let papers = place.path().join("papers");
        std::fs::create_dir_all(papers.join("photos")).unwrap();
        std::fs::write(place.path().join("secret.txt"), "secret").unwrap();
        std::fs::write(papers.join(".casewright"), "secret").unwrap();
        std::fs::write(papers.join("index.html"), "<body><p>one</p></body>\n").unwrap();
        std::fs::write(papers.join("cut list.txt"), "cut").unwrap();
        std::fs::write(papers.join("photos/a.JPG"), [0xff, 0xd8]).unwrap();
        Self { place }
    }

    fn get(&self, target: &str) -> Answer {
        self.ask("GET", target, &["localhost:4650"])
    }

    fn ask(&self, method: &str, target: &str, hosts: &[&str]) -> Answer {
        let folder = self.place.path().join("papers");
        answer(Request { method, target, hosts }, PORT, &folder, "r1")
    }
}

#[test]
fn papers_come_as_they_are_and_pages_with_the_script() {
    let place = Place::new();
    let page = "<body><p>one</p><script src=\"/-/reload.js?r1\"></script>\n</body>\n";
    for target in ["/", "/index.html", "/?x", "/index.html?a=../b#c"] {
        assert_eq!(place.get(target), Answer::new("200 OK", HTML, page), "{target}");
    }
    assert_eq!(place.get("/cut%20list.txt"), Answer::new("200 OK", TEXT, "cut"));
    assert_eq!(place.get("/photos/a.JPG"), Answer::new("200 OK", "image/jpeg", [0xff, 0xd8]));
    assert_eq!(place.get("/-/revision").body, b"r1");
    assert_eq!(place.get("/-/reload.js?r1").body, SCRIPT.as_bytes());
    let missing = place.get("/none.html");
    assert_eq!(missing.status, "404 Not Found");
    assert!(String::from_utf8(missing.body).unwrap().contains("reload.js"));
}

#[test]
fn nothing_outside_the_folder_is_handed_out() {
    let place = Place::new();
    #[cfg(unix)]
    {
        let papers = place.place.path().join("papers");
        std::os::unix::fs::symlink("../secret.txt", papers.join("link.txt")).unwrap();
        std::os::unix::fs::symlink("..", papers.join("up")).unwrap();
    }
    let absolute = place.place.path().join("secret.txt");
    for target in [
        "/../secret.txt",
        "/%2e%2e/secret.txt",
        "/..%2fsecret.txt",
        "/%2e%2e%2fsecret.txt",
        "/..%5csecret.txt",
        "/photos/../../secret.txt",
        "/photos/..%2f..%2fsecret.txt",
        "/link.txt",
        "/up/secret.txt",
        "/.casewright",
        "/photos/./a.JPG",
        "//secret.txt",
        "/photos",
        "/photos/",
        "/%00",
        "/%ff",
        "/C:/secret.txt",
        "",
        "secret.txt",
        "http://localhost:4650/index.html",
        "*",
        absolute.to_str().unwrap(),
        &format!("/{}", absolute.display()),
        &absolute.to_str().unwrap().replace('/', "%2f"),
    ] {
        let answer = place.get(target);
        assert_eq!(answer.status, "404 Not Found", "{target}");
        assert!(!String::from_utf8_lossy(&answer.body).contains("secret"), "{target}");
    }
}

#[test]
fn only_this_machine_is_meant() {
    let place = Place::new();
    let status = |hosts: &[&str]| place.ask("GET", "/", hosts).status;
    for host in ["localhost:4650", "127.0.0.1:4650", "LOCALHOST:4650"] {
        assert_eq!(status(&[host]), "200 OK", "{host}");
    }
    for hosts in [
        &[][..],
        &["localhost:4650", "localhost:4650"],
        &["evil.example:4650"],
        &["localhost.evil.example:4650"],
        &["127.0.0.1.evil.example"],
        &["localhost"],
        &["localhost:80"],
        &["localhost:46500"],
        &["[::1]:4650"],
        &["user@localhost:4650"],
        &[" "],
    ] {
        assert_eq!(status(hosts), "403 Forbidden", "{hosts:?}");
        let revision = place.ask("GET", "/-/revision", hosts);
        assert_eq!(revision.status, "403 Forbidden", "{hosts:?}");
    }
}

#[test]
fn papers_can_only_be_read() {
    let place = Place::new();
    for method in ["POST", "PUT", "DELETE", "OPTIONS", "get"] {
        let answer = place.ask(method, "/", &["localhost:4650"]);
        assert_eq!(answer.status, "405 Method Not Allowed", "{method}");
    }
    assert_eq!(place.ask("HEAD", "/", &["localhost:4650"]).status, "200 OK");
}
