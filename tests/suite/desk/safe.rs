//! Who may ask, and how much: foreign pages, other names, no keys, ways out of the folder, floods.

use std::collections::BTreeMap;
use std::io::{Read, Write};
use std::path::Path;
use std::time::{Duration, Instant};

use serde_json::json;

use super::client::{Served, answer, course};

#[test]
fn only_a_page_of_this_desk_with_its_key_is_answered() {
    let (_place, course) = course();
    let desk = Served::open(&course, &[]);
    let port = desk.port;
    assert_eq!(desk.get("/api/course").status, 200);
    let own = format!("http://127.0.0.1:{port}");
    assert_eq!(
        desk.get_with("/api/course", &[("Origin", &own)]).status,
        200
    );
    let local = format!("localhost:{port}");
    assert_eq!(
        desk.get_with("/api/course", &[("Host", &local)]).status,
        200
    );
    let strange: &[&[(&str, &str)]] = &[
        &[("Host", "shore.example")],
        &[("Host", "127.0.0.1")],
        &[("Host", "127.0.0.1:1")],
        &[
            ("Host", "shore.example"),
            ("Origin", "http://shore.example"),
        ],
        &[("Origin", "http://shore.example")],
        &[("Origin", "null")],
        &[("Origin", "https://127.0.0.1:1")],
        &[("Sec-Fetch-Site", "cross-site")],
        &[("Sec-Fetch-Site", "same-site")],
        &[("Cookie", "desk=1")],
        &[("Cookie", "desk-1=0000; other=1")],
    ];
    let rows = json!({"at": desk.file("pebble")["at"], "edits": []}).to_string();
    for headers in strange {
        let read = desk.get_with("/api/course", headers);
        assert_eq!(read.status, 403, "{headers:?}");
        assert!(
            !String::from_utf8_lossy(&read.body).contains("Saltmarsh"),
            "{headers:?}"
        );
        let written = desk.post_with("/api/file/pebble", rows.as_bytes(), headers);
        assert_eq!(written.status, 403, "{headers:?}");
    }
    // Two hosts, or none.
    let cookie = &desk.cookie;
    for hosts in [
        format!("Host: 127.0.0.1:{port}\r\nHost: shore.example\r\n"),
        String::new(),
    ] {
        let request = format!(
            "GET /api/course HTTP/1.1\r\n{hosts}Cookie: {cookie}\r\nConnection: close\r\n\r\n"
        );
        let status = desk.raw(request.as_bytes()).map(|a| a.status);
        assert!(matches!(status, Some(400 | 403)), "{hosts}: {status:?}");
    }
    // A form of another site is sent without asking first; it is not taken.
    let kinds = [
        "text/plain",
        "application/x-www-form-urlencoded",
        "multipart/form-data; boundary=a",
    ];
    for kind in kinds {
        let sent = desk.post_with(
            "/api/file/pebble",
            rows.as_bytes(),
            &[("Content-Type", kind)],
        );
        assert_eq!(sent.status, 415, "{kind}");
    }
}

#[test]
fn a_wrong_key_opens_nothing() {
    let (_place, course) = course();
    let desk = Served::locked(&course, &[]);
    assert_eq!(desk.get("/api/course").status, 403);
    assert_eq!(desk.get("/api/events").status, 403);
    let mut wrong = desk.token.clone();
    wrong.replace_range(0..1, if wrong.starts_with('0') { "1" } else { "0" });
    for token in [
        "",
        "0",
        &wrong,
        &desk.token[1..],
        &format!("{}0", desk.token),
    ] {
        let entered = desk.post("/api/enter", &json!({"token": token}));
        assert_eq!(entered.status, 403);
        assert!(!entered.head.to_lowercase().contains("set-cookie"));
    }
    assert_eq!(desk.post_with("/api/enter", b"[]", &[]).status, 400);
    // The page itself holds nothing, and says what it may load.
    let page = desk.get("/");
    assert_eq!(page.status, 200);
    assert!(
        page.head.contains("default-src 'none'; script-src 'self'"),
        "{}",
        page.head
    );
    assert!(!String::from_utf8_lossy(&page.body).contains("Saltmarsh"));
    assert_eq!(desk.get("/desk/main.js").status, 200);
}

fn tree(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut all = BTreeMap::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            all.extend(tree(&path));
        } else {
            all.insert(path.display().to_string(), std::fs::read(&path).unwrap());
        }
    }
    all
}

#[test]
fn no_way_leads_out_of_the_folder() {
    let (place, course) = course();
    std::fs::write(
        place.path().join("secret.yaml"),
        "title: Secret\nrows: |\n  x.\n",
    )
    .unwrap();
    let desk = Served::open(&course, &[]);
    let before = tree(place.path());
    let ways = [
        "..%2fsecret",
        "%2e%2e%2fsecret",
        "..%5csecret",
        "....//secret",
        "%252e%252e%252fsecret",
        "..%c0%afsecret",
        "pebble%00",
        "pebble%2f..%2f..%2fsecret",
        "/etc/passwd",
        "%2fetc%2fpasswd",
        "C:%5csecret",
        "secret.yaml",
        ".desk",
        "%2e",
        "%2e%2e",
        "PEBBLE",
        "pebble.yaml",
        "-",
        "",
    ];
    let places = [
        "/desk/{}",
        "/api/file/{}",
        "/api/kinder/{}",
        "/api/fabric/{}.svg",
        "/api/piece/{}.svg",
        "/api/handout/{}.html",
        "/api/handout/{}.pdf",
        "/api/make/{}",
        "/api/pack/{}",
        "/api/person/{}",
        "/api/person/{}/way?to=pebble-hat",
        "/api/fit/{}?gauge=20",
        "/api/class?a={}&b=pebble",
        "/api/class?a=pebble&b={}",
    ];
    for way in ways {
        for place in places {
            let path = place.replace("{}", way);
            let got = desk.get(&path);
            assert!((400..500).contains(&got.status), "{path}: {}", got.status);
            let said = String::from_utf8_lossy(&got.body);
            assert!(
                !said.contains("Secret") && !said.contains("root:"),
                "{path}: {said}"
            );
        }
        for place in [
            "/api/file/{}",
            "/api/file/{}/save",
            "/api/file/{}/undo",
            "/api/person/{}/done",
        ] {
            let path = place.replace("{}", way);
            let body = json!({"at": 0, "made": "pebble-hat", "went": "right"});
            let status = desk.post(&path, &body).status;
            assert!((400..500).contains(&status), "{path}: {status}");
        }
        let ids = way
            .replace("%2f", "/")
            .replace("%2e", ".")
            .replace("%5c", "\\");
        for body in [
            json!({"kind": "chart", "id": ids, "title": "A", "stitches": 4, "rows": 4}),
            json!({"kind": "chart", "id": "a", "copy": ids}),
        ] {
            let status = desk.post("/api/new", &body).status;
            assert!((400..500).contains(&status), "{body}: {status}");
        }
        let status = desk
            .post("/api/person", &json!({"id": ids, "name": "Wren"}))
            .status;
        assert!((400..500).contains(&status), "{ids}: {status}");
        let make = json!({
            "id": ids, "title": "A", "chart": "pebble", "makes": "hat", "gauge": null, "weight": 4,
            "sizes": ["adult-medium"], "own": null, "times": 1, "below": 1, "above": 1, "colours": {},
        });
        let status = desk.post("/api/make", &make).status;
        assert!((400..500).contains(&status), "{ids}: {status}");
    }
    let mut after = tree(place.path());
    after.retain(|path, _| !path.ends_with("/.desk/lock"));
    assert_eq!(before, after);
}

#[test]
fn floods_cost_themselves() {
    let (_place, course) = course();
    let desk = Served::open(&course, &[]);
    // A thousand million bytes, told: refused before they come.
    let head = |length: &str| {
        format!(
            "POST /api/file/pebble HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nCookie: {}\r\nContent-Type: application/json\r\n{length}\r\n\r\n",
            desk.port, desk.cookie
        )
    };
    let told = desk
        .raw(head("Content-Length: 1000000000").as_bytes())
        .unwrap();
    assert_eq!(told.status, 413);
    // The same, not told: cut off after what a file may have.
    let mut stream = desk.connect();
    stream
        .write_all(head("Transfer-Encoding: chunked").as_bytes())
        .unwrap();
    let piece = vec![b' '; 1 << 20];
    let mut sent = 0;
    while sent < 1000 {
        let wrote = stream
            .write_all(format!("{:x}\r\n", piece.len()).as_bytes())
            .and_then(|()| stream.write_all(&piece))
            .and_then(|()| stream.write_all(b"\r\n"));
        if wrote.is_err() {
            break;
        }
        sent += 1;
    }
    assert!(sent < 100, "{sent} MB were taken");
    // A head without end.
    let endless = format!("GET / HTTP/1.1\r\nHost: {}\r\n", "a".repeat(1 << 20));
    let status = desk.raw(endless.as_bytes()).map_or(0, |a| a.status);
    assert!(matches!(status, 0 | 400 | 431), "{status}");
    assert_eq!(desk.get("/api/course").status, 200);
}

#[test]
fn who_sends_slowly_is_not_waited_for() {
    let (_place, course) = course();
    let desk = Served::open(&course, &[]);
    let start = Instant::now();
    let mut slow = desk.connect();
    let head = format!(
        "POST /api/file/pebble HTTP/1.1\r\nHost: 127.0.0.1:{}\r\nCookie: {}\r\nContent-Type: application/json\r\nContent-Length: 1000\r\nConnection: close\r\n\r\n{{",
        desk.port, desk.cookie
    );
    slow.write_all(head.as_bytes()).unwrap();
    let mut mute = desk.connect();
    mute.write_all(b"GET / HT").unwrap();
    assert_eq!(desk.get("/api/course").status, 200);
    let answered = answer(&mut slow).unwrap();
    assert_eq!(answered.status, 408);
    let mut rest = Vec::new();
    let _ = mute.read_to_end(&mut rest);
    assert!(
        start.elapsed() < Duration::from_secs(30),
        "{:?}",
        start.elapsed()
    );
}

#[test]
fn a_thousand_connections_are_survived() {
    let (_place, course) = course();
    let desk = Served::open(&course, &[]);
    let mut open = Vec::new();
    for _ in 0..1000 {
        match std::net::TcpStream::connect(("127.0.0.1", desk.port)) {
            Ok(stream) => open.push(stream),
            Err(_) => break,
        }
    }
    assert!(open.len() > 400, "{}", open.len());
    let start = Instant::now();
    assert_eq!(desk.get("/api/course").status, 200);
    assert!(
        start.elapsed() < Duration::from_secs(20),
        "{:?}",
        start.elapsed()
    );
    drop(open);
    assert_eq!(desk.get("/api/course").status, 200);
}

#[test]
fn a_desk_that_only_reads_writes_nothing() {
    let (place, course) = course();
    let before = tree(place.path());
    let desk = Served::open(&course, &["--read-only"]);
    assert_eq!(desk.get("/api/course").json()["readOnly"], true);
    let at = desk.file("pebble")["at"].clone();
    let lesson = json!({"ids": [], "moved": "pebble-hat"});
    for (path, body) in [
        (
            "/api/file/pebble",
            json!({"at": at, "edits": [{"at": ["title"], "text": "A"}]}),
        ),
        ("/api/file/pebble/save", json!({"at": at})),
        ("/api/file/pebble/drop", json!({"at": at})),
        (
            "/api/new",
            json!({"kind": "chart", "id": "a", "title": "A", "stitches": 4, "rows": 4}),
        ),
        ("/api/pack", json!({})),
        ("/api/register", json!({"at": 0, "learners": []})),
        ("/api/person", json!({"id": "wren", "name": "Wren"})),
    ] {
        assert_eq!(desk.post(path, &body).status, 403, "{path}");
    }
    assert!(desk.post("/api/along/keep", &lesson).status >= 400);
    assert_eq!(desk.get("/api/kinder/pebble").status, 200);
    assert_eq!(before, tree(place.path()));
}
