//! The papers on this machine's own browser, and nobody else's.

use std::io::{self, Read as _, Write as _};
use std::net::{Ipv4Addr, Shutdown, SocketAddr, TcpListener, TcpStream};
use std::path::PathBuf;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex};
use std::thread;
use std::time::{Duration, Instant};

use super::request::{Answer, Request, answer};

/// The longest head of a request.
const LONGEST_HEAD: usize = 16 << 10;
/// The most headers of one.
const MOST_HEADERS: usize = 100;
/// Requests that are answered at the same time.
const MOST_AT_ONCE: usize = 32;
/// What is read of a request behind its head, and thrown away.
const LONGEST_REST: u64 = 1 << 20;
/// How long the end of a request is waited for.
const LINGER: Duration = Duration::from_secs(1);
/// How long a request may take.
const PATIENCE: Duration = Duration::from_secs(10);

/// Hands out a folder on a port of 127.0.0.1 for as long as the run lasts.
pub(super) struct Server {
    address: SocketAddr,
    shared: Arc<Shared>,
}

struct Shared {
    folder: PathBuf,
    /// Changes with the papers.
    revision: Mutex<String>,
    busy: AtomicUsize,
}

impl Server {
    /// Listens; on any free port for 0.
    pub(super) fn start(port: u16, folder: PathBuf) -> io::Result<Self> {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port))?;
        let address = listener.local_addr()?;
        let revision = Mutex::new("none".to_owned());
        let shared = Arc::new(Shared { folder, revision, busy: AtomicUsize::new(0) });
        let own = Arc::clone(&shared);
        thread::Builder::new().spawn(move || listen(&listener, address.port(), &own))?;
        Ok(Self { address, shared })
    }

    pub(super) fn address(&self) -> SocketAddr {
        self.address
    }

    /// Says that the papers have changed.
    pub(super) fn announce(&self, digest: u64) {
        if let Ok(mut revision) = self.shared.revision.lock() {
            *revision = format!("{digest:016x}");
        }
    }
}

fn listen(listener: &TcpListener, port: u16, shared: &Arc<Shared>) {
    for stream in listener.incoming() {
        let Ok(stream) = stream else {
            // Out of handles, perhaps: others must end first.
            thread::sleep(Duration::from_millis(50));
            continue;
        };
        if shared.busy.fetch_add(1, Ordering::Relaxed) >= MOST_AT_ONCE {
            shared.busy.fetch_sub(1, Ordering::Relaxed);
            continue;
        }
        let own = Arc::clone(shared);
        let work = move || {
            // Whoever hangs up early needs no answer.
            let _ = converse(stream, port, &own);
            own.busy.fetch_sub(1, Ordering::Relaxed);
        };
        if thread::Builder::new().spawn(work).is_err() {
            shared.busy.fetch_sub(1, Ordering::Relaxed);
        }
    }
}

/// One request, one answer.
fn converse(mut stream: TcpStream, port: u16, shared: &Shared) -> io::Result<()> {
    let until = Instant::now() + PATIENCE;
    stream.set_write_timeout(Some(PATIENCE))?;
    let mut head = Vec::new();
    let mut more = [0; 2048];
    loop {
        let left = until.saturating_duration_since(Instant::now());
        stream.set_read_timeout(Some(left.max(Duration::from_millis(1))))?;
        let count = stream.read(&mut more)?;
        head.extend_from_slice(more.get(..count).unwrap_or_default());
        if let Some((answer, only_head)) = reply(&head, port, shared) {
            return send(&mut stream, &answer, only_head);
        }
        let over = count == 0 || Instant::now() >= until;
        if over {
            return Ok(());
        }
        if head.len() > LONGEST_HEAD {
            let why = "the request's header is too long";
            return send(
                &mut stream,
                &Answer::refusal("431 Request Header Fields Too Large", why),
                false,
            );
        }
    }
}

/// The answer, once the head is whole; whether only its head is wanted.
fn reply(head: &[u8], port: u16, shared: &Shared) -> Option<(Answer, bool)> {
    let mut headers = [httparse::EMPTY_HEADER; MOST_HEADERS];
    let mut request = httparse::Request::new(&mut headers);
    match request.parse(head) {
        Ok(httparse::Status::Partial) => None,
        Err(_) => Some((Answer::refusal("400 Bad Request", "this is not a valid request"), false)),
        Ok(httparse::Status::Complete(_)) => {
            let hosts: Vec<&str> = request
                .headers
                .iter()
                .filter(|header| header.name.eq_ignore_ascii_case("host"))
                .map(|header| std::str::from_utf8(header.value).unwrap_or_default().trim())
                .collect();
            let method = request.method.unwrap_or_default();
            let target = request.path.unwrap_or_default();
            // Taken before the paper: at worst a page is loaded once too often.
            let revision = shared.revision.lock().map(|now| now.clone()).unwrap_or_default();
            let asked = Request { method, target, hosts: &hosts };
            Some((answer(asked, port, &shared.folder, &revision), method == "HEAD"))
        }
    }
}

fn send(stream: &mut TcpStream, answer: &Answer, only_head: bool) -> io::Result<()> {
    let head = format!(
        "HTTP/1.1 {}\r\n\
         Content-Type: {}\r\n\
         Content-Length: {}\r\n\
         Connection: close\r\n\
         Cache-Control: no-store\r\n\
         Content-Security-Policy: default-src 'none'; script-src 'self'; connect-src 'self'; \
         style-src 'self' 'unsafe-inline'; img-src 'self' data:; base-uri 'none'; \
         form-action 'none'; frame-ancestors 'none'\r\n\
         Cross-Origin-Resource-Policy: same-origin\r\n\
         X-Content-Type-Options: nosniff\r\n\r\n",
        answer.status,
        answer.kind,
        answer.body.len(),
    );
    stream.write_all(head.as_bytes())?;
    if !only_head {
        stream.write_all(&answer.body)?;
    }
    // Closed with something of the request unread, a connection is reset and
    // the answer may be lost with it.
    stream.shutdown(Shutdown::Write)?;
    stream.set_read_timeout(Some(LINGER))?;
    let _ = io::copy(&mut stream.take(LONGEST_REST), &mut io::sink());
    Ok(())
}
