//! A desk of a test's own, and one who asks it, over a bare connection: what a browser would not send can be sent, too.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use serde_json::{Value, json};

use crate::harness::root;

/// An answer.
#[derive(Debug)]
pub(super) struct Answer {
    pub(super) status: u16,
    pub(super) head: String,
    pub(super) body: Vec<u8>,
}

impl Answer {
    pub(super) fn json(&self) -> Value {
        serde_json::from_slice(&self.body)
            .unwrap_or_else(|e| panic!("{e}: {}", String::from_utf8_lossy(&self.body)))
    }
}

/// A running desk.
pub(super) struct Served {
    child: Child,
    pub(super) port: u16,
    pub(super) token: String,
    pub(super) cookie: String,
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// A copy of the demo course in a folder of its own.
pub(super) fn course() -> (tempfile::TempDir, PathBuf) {
    let place = tempfile::tempdir().unwrap();
    let course = place.path().join("lessons");
    copy(&root().join("lessons"), &course);
    (place, course)
}

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_str().unwrap().to_owned();
        if name.starts_with('.') || name == "pictures" || name == "people" {
            continue;
        }
        if path.is_dir() {
            copy(&path, &to.join(name));
        } else {
            std::fs::copy(&path, to.join(name)).unwrap();
        }
    }
}

impl Served {
    /// Opens a desk on a course and enters it.
    pub(super) fn open(course: &Path, options: &[&str]) -> Self {
        let mut served = Self::locked(course, options);
        let entered = served.post("/api/enter", &json!({"token": served.token}));
        assert_eq!(entered.status, 200);
        let cookie = entered.head.lines().find_map(|line| {
            let (name, value) = line.split_once(": ")?;
            (name.eq_ignore_ascii_case("set-cookie")).then(|| value.to_owned())
        });
        let cookie = cookie.unwrap();
        assert!(
            cookie.contains("HttpOnly") && cookie.contains("SameSite=Strict"),
            "{cookie}"
        );
        served.cookie = cookie.split(';').next().unwrap().to_owned();
        served
    }

    /// Opens a desk, without entering it.
    pub(super) fn locked(course: &Path, options: &[&str]) -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_yokeward"))
            .arg("desk")
            .arg(course)
            .args(["--no-open", "--to"])
            .arg(course.join("../out"))
            .args(options)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut line = String::new();
        let out = child.stdout.take().unwrap();
        BufReader::new(out).read_line(&mut line).unwrap();
        let (address, token) = line.trim().split_once("/#token=").unwrap();
        let port = address.rsplit(':').next().unwrap().parse().unwrap();
        Self {
            child,
            port,
            token: token.to_owned(),
            cookie: String::new(),
        }
    }

    /// Ends the desk as a cut in the current would.
    pub(super) fn kill(&mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }

    /// Its process.
    pub(super) fn id(&self) -> u32 {
        self.child.id()
    }

    pub(super) fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(("127.0.0.1", self.port)).unwrap();
        stream
            .set_read_timeout(Some(Duration::from_secs(60)))
            .unwrap();
        stream
    }

    /// Sends a request as it is and reads what comes back.
    pub(super) fn raw(&self, request: &[u8]) -> Option<Answer> {
        let mut stream = self.connect();
        stream.write_all(request).ok()?;
        answer(&mut stream)
    }

    fn head(&self, method: &str, path: &str, more: &[(&str, &str)]) -> String {
        let mut head = format!("{method} {path} HTTP/1.1\r\nConnection: close\r\n");
        let given = |name: &str| more.iter().any(|(n, _)| n.eq_ignore_ascii_case(name));
        if !given("host") {
            head.push_str(&format!("Host: 127.0.0.1:{}\r\n", self.port));
        }
        if !given("cookie") && !self.cookie.is_empty() {
            head.push_str(&format!("Cookie: {}\r\n", self.cookie));
        }
        for (name, value) in more.iter().filter(|(_, value)| !value.is_empty()) {
            head.push_str(&format!("{name}: {value}\r\n"));
        }
        head
    }

    pub(super) fn get_with(&self, path: &str, more: &[(&str, &str)]) -> Answer {
        let request = self.head("GET", path, more) + "\r\n";
        self.raw(request.as_bytes()).unwrap()
    }

    pub(super) fn get(&self, path: &str) -> Answer {
        self.get_with(path, &[])
    }

    pub(super) fn post_with(&self, path: &str, body: &[u8], more: &[(&str, &str)]) -> Answer {
        self.try_post(path, body, more).unwrap()
    }

    /// What comes of a request, where anything does.
    pub(super) fn try_post(
        &self,
        path: &str,
        body: &[u8],
        more: &[(&str, &str)],
    ) -> Option<Answer> {
        let kind = ("Content-Type", "application/json");
        let given = more
            .iter()
            .any(|(n, _)| n.eq_ignore_ascii_case("content-type"));
        let more: Vec<(&str, &str)> = (!given)
            .then_some(kind)
            .into_iter()
            .chain(more.iter().copied())
            .collect();
        let mut request = self.head("POST", path, &more).into_bytes();
        request.extend(format!("Content-Length: {}\r\n\r\n", body.len()).bytes());
        request.extend(body);
        let mut stream = TcpStream::connect(("127.0.0.1", self.port)).ok()?;
        stream
            .set_read_timeout(Some(Duration::from_secs(60)))
            .ok()?;
        stream.write_all(&request).ok()?;
        answer(&mut stream)
    }

    pub(super) fn post(&self, path: &str, body: &Value) -> Answer {
        self.post_with(path, body.to_string().as_bytes(), &[])
    }

    /// A file as it stands on the desk.
    pub(super) fn file(&self, id: &str) -> Value {
        let answer = self.get(&format!("/api/file/{id}"));
        assert_eq!(answer.status, 200, "{id}");
        answer.json()
    }

    /// Replaces the rows of a chart.
    pub(super) fn rows(&self, id: &str, at: &Value, rows: &str) -> Answer {
        let edits = json!([{"at": ["rows"], "block": rows}]);
        self.post(
            &format!("/api/file/{id}"),
            &json!({"at": at, "edits": edits}),
        )
    }

    /// Does something to a draft as it stands.
    pub(super) fn act(&self, id: &str, act: &str) -> Answer {
        let at = &self.file(id)["at"];
        self.post(&format!("/api/file/{id}/{act}"), &json!({"at": at}))
    }
}

/// Reads an answer: its head, and its body to the end.
pub(super) fn answer(stream: &mut TcpStream) -> Option<Answer> {
    let mut bytes = Vec::new();
    // A server that closes early may reset what is still under way; what came before counts.
    let _ = stream.read_to_end(&mut bytes);
    let end = bytes.windows(4).position(|w| w == b"\r\n\r\n")?;
    let head = String::from_utf8_lossy(&bytes[..end]).into_owned();
    let status = head.split(' ').nth(1)?.parse().ok()?;
    let body = bytes[end + 4..].to_vec();
    let chunked = head.to_lowercase().contains("transfer-encoding: chunked");
    Some(Answer {
        status,
        head,
        body: if chunked { unchunked(&body) } else { body },
    })
}

fn unchunked(mut body: &[u8]) -> Vec<u8> {
    let mut whole = Vec::new();
    while let Some(end) = body.windows(2).position(|w| w == b"\r\n") {
        let size = std::str::from_utf8(&body[..end]).unwrap();
        let size = usize::from_str_radix(size.trim(), 16).unwrap();
        let from = end + 2;
        whole.extend(&body[from..(from + size).min(body.len())]);
        if size == 0 || from + size + 2 > body.len() {
            break;
        }
        body = &body[from + size + 2..];
    }
    whole
}
