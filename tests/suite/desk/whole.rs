//! What stays whole: through a full disk, and through two hundred cuts in the current while it is being written.

use std::time::Duration;

use serde_json::json;

use super::client::{Served, course};

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_loses_nothing() {
    let (_place, course) = course();
    let desk = Served::open(&course, &[]);
    let path = course.join("charts/pebble.yaml");
    let text = std::fs::read_to_string(&path).unwrap();
    let seen = desk.file("pebble");
    let rows = |letter: char| format!("{letter}....x\n......\n");
    // A device that is always full stands for the disk: first where steps are kept.
    let steps = course.join(".desk/pebble.steps");
    std::fs::create_dir_all(course.join(".desk")).unwrap();
    std::os::unix::fs::symlink("/dev/full", &steps).unwrap();
    let full = desk.rows("pebble", &seen["at"], &rows('x'));
    assert_eq!(full.status, 507, "{}", String::from_utf8_lossy(&full.body));
    assert_eq!(desk.file("pebble")["text"], text);
    std::fs::remove_file(&steps).unwrap();
    let kept = desk.rows("pebble", &desk.file("pebble")["at"], &rows('x'));
    assert_eq!(kept.status, 200);
    // Then where the file is written: a folder in the way refuses as a full disk does.
    let way = course.join("charts/.pebble.yaml.new");
    std::fs::create_dir(&way).unwrap();
    let full = desk.act("pebble", "save");
    assert_eq!(full.status, 507, "{}", String::from_utf8_lossy(&full.body));
    assert_eq!(
        std::fs::read_to_string(&path).unwrap(),
        text,
        "the file is whole"
    );
    assert_eq!(
        desk.file("pebble")["text"],
        kept.json()["text"],
        "the draft is whole"
    );
    std::fs::remove_dir(&way).unwrap();
    assert_eq!(desk.act("pebble", "save").status, 200);
    assert_eq!(
        std::fs::read_to_string(&path).unwrap(),
        kept.json()["text"].as_str().unwrap()
    );
}

/// A desk that nobody uses sleeps: looking at the folder is no change of it.
#[cfg(target_os = "linux")]
#[test]
fn an_idle_desk_sleeps() {
    let (_place, course) = course();
    let desk = Served::open(&course, &[]);
    desk.file("pebble");
    std::thread::sleep(Duration::from_millis(500));
    let woken = || -> u64 {
        let tasks = std::fs::read_dir(format!("/proc/{}/task", desk.id())).unwrap();
        let status = tasks.map(|task| {
            std::fs::read_to_string(task.unwrap().path().join("status")).unwrap_or_default()
        });
        let count = |text: String| -> u64 {
            let line = text
                .lines()
                .find_map(|line| line.strip_prefix("voluntary_ctxt_switches:"))
                .unwrap_or("0")
                .trim()
                .to_owned();
            line.parse().unwrap()
        };
        status.map(count).sum()
    };
    let before = woken();
    std::thread::sleep(Duration::from_secs(2));
    let after = woken();
    assert!(
        after - before < 20,
        "woken {} times in two seconds",
        after - before
    );
}

/// Strokes and saves as fast as they go, and the desk killed in the midst of them, two hundred times: the file is always
/// one of the texts that were to be saved, whole; no stroke that was answered is lost.
#[test]
fn two_hundred_kills_lose_no_stroke() {
    let (_place, course) = course();
    let path = course.join("charts/pebble.yaml");
    let letters = ['.', 'x', 's'];
    let row = |n: usize| -> String {
        let mut n = n;
        (0..6)
            .map(|_| {
                let c = letters[n % 3];
                n /= 3;
                c
            })
            .collect()
    };
    let (mut strokes, mut saves, mut n) = (0, 0, 0_usize);
    for round in 0..200_u64 {
        let mut desk = Served::open(&course, &[]);
        let first = desk.file("pebble");
        let mut last = first["text"].as_str().unwrap().to_owned();
        let mut at = first["at"].clone();
        let mut maybe = Vec::new();
        std::thread::scope(|scope| {
            let pid = desk.id();
            scope.spawn(move || {
                std::thread::sleep(Duration::from_millis(3 + round * 7 % 40));
                kill(pid);
            });
            loop {
                n += 1;
                let rows = format!("{}\n{}\n", row(n), row(n / 729));
                let edits = json!([{"at": ["rows"], "block": rows}]);
                let body = json!({"at": at, "edits": edits}).to_string();
                let answered = desk.try_post("/api/file/pebble", body.as_bytes(), &[]);
                maybe = vec![rows];
                let Some(answered) = answered.filter(|a| a.status == 200 && !a.body.is_empty())
                else {
                    break;
                };
                let Ok(file) = serde_json::from_slice::<serde_json::Value>(&answered.body) else {
                    break;
                };
                strokes += 1;
                last = file["text"].as_str().unwrap().to_owned();
                at = file["at"].clone();
                maybe.clear();
                if n % 3 == 0 {
                    let body = json!({"at": at}).to_string();
                    let answered = desk.try_post("/api/file/pebble/save", body.as_bytes(), &[]);
                    let file = answered
                        .and_then(|a| serde_json::from_slice::<serde_json::Value>(&a.body).ok());
                    let Some(file) = file.filter(|file| file["at"].is_u64()) else {
                        break;
                    };
                    saves += 1;
                    at = file["at"].clone();
                }
            }
        });
        desk.kill();
        let on_disk = std::fs::read_to_string(&path).unwrap();
        assert!(
            on_disk.ends_with('\n') && on_disk.contains("rights: own"),
            "round {round}: {on_disk}"
        );
        let desk = Served::open(&course, &[]);
        let now = desk.file("pebble");
        let text = now["text"].as_str().unwrap();
        // The stroke that was under way may have been kept or not.
        let under_way = maybe.first().is_some_and(|rows: &String| {
            rows.lines().all(|row| text.contains(&format!("  {row}\n")))
        });
        assert!(text == last || under_way, "round {round}:\n{last}\n{text}");
        assert_eq!(now["elsewhere"], serde_json::Value::Null, "round {round}");
    }
    assert!(
        strokes > 200 && saves > 50,
        "{strokes} strokes, {saves} saves"
    );
}

/// Ends a process as a cut in the current would.
fn kill(pid: u32) {
    let _ = std::process::Command::new("kill")
        .args(["-9", &pid.to_string()])
        .status();
}

/// What somebody else put where the desk writes is not written through: links, pipes, places outside, files that are no text.
#[cfg(unix)]
#[test]
fn nothing_is_written_through_what_others_left() {
    use std::os::unix::fs::symlink;
    let (place, course) = course();
    let outside = place.path().join("outside.yaml");
    std::fs::write(&outside, "precious").unwrap();
    std::fs::create_dir(course.join(".desk")).unwrap();
    let evil = "{\"new\":\"charts/../../outside.yaml\"}\n{\"base\":null}\n{\"text\":\"rows: |\\n  x.\\n\"}\n";
    std::fs::write(course.join(".desk/evil.steps"), evil).unwrap();
    symlink(&outside, course.join(".desk/tern.steps")).unwrap();
    symlink(&outside, course.join("charts/.pebble.yaml.new")).unwrap();
    symlink(
        place.path().join("nowhere"),
        course.join("charts/dead.yaml"),
    )
    .unwrap();
    std::fs::write(
        course.join("charts/latin.yaml"),
        b"title: \xe9\nrows: |\n  x.\n",
    )
    .unwrap();
    let desk = Served::open(&course, &[]);
    assert_eq!(desk.get("/api/file/evil").status, 404);
    let tern = desk.file("tern");
    assert_eq!(desk.rows("tern", &tern["at"], "x.\n").status, 507);
    let pebble = desk.file("pebble");
    assert_eq!(
        desk.rows("pebble", &pebble["at"], "x.....\n......\n")
            .status,
        200
    );
    assert_eq!(desk.act("pebble", "save").status, 200);
    assert!(
        !course
            .join("charts/pebble.yaml")
            .symlink_metadata()
            .unwrap()
            .is_symlink()
    );
    assert_eq!(std::fs::read_to_string(&outside).unwrap(), "precious");
    // A dead link, and a file that is no text, keep their names and their bytes.
    let new = |id: &str| json!({"kind": "chart", "id": id, "title": "A", "stitches": 4, "rows": 4});
    assert_eq!(desk.post("/api/new", &new("dead")).status, 422);
    assert_eq!(desk.get("/api/file/latin").status, 422);
    assert_eq!(desk.post("/api/new", &new("latin")).status, 422);
    assert!(
        std::fs::read(course.join("charts/latin.yaml"))
            .unwrap()
            .contains(&0xe9)
    );
    // Pipes are not waited for.
    std::fs::create_dir_all(course.join("people")).unwrap();
    for pipe in ["people/a.yaml", "people/register.yaml"] {
        assert!(
            std::process::Command::new("mkfifo")
                .arg(course.join(pipe))
                .status()
                .unwrap()
                .success()
        );
    }
    assert_eq!(desk.get("/api/course").status, 200);
    assert_eq!(desk.get("/api/register").status, 503);
    // A course that is moved away leaves no empty one behind.
    let away = place.path().join("away");
    std::fs::rename(&course, &away).unwrap();
    assert!(desk.rows("pebble", &pebble["at"], "x.\n").status >= 400);
    assert!(!course.exists());
}

/// Steps in every script: torn in the midst of a letter, and so many that the oldest go.
#[test]
fn journals_lose_no_more_than_their_torn_end() {
    let (_place, course) = course();
    let title = |desk: &Served, title: &str| {
        let edits = json!([{"at": ["title"], "text": title}]);
        let body = json!({"at": desk.file("pebble")["at"], "edits": edits});
        assert_eq!(desk.post("/api/file/pebble", &body).status, 200);
    };
    let mut desk = Served::open(&course, &[]);
    title(&desk, "Båt");
    title(&desk, "Båter");
    desk.kill();
    let steps = course.join(".desk/pebble.steps");
    let bytes = std::fs::read(&steps).unwrap();
    let letter = bytes.iter().rposition(|byte| *byte == 0xc3).unwrap();
    std::fs::write(&steps, &bytes[..=letter]).unwrap();
    let mut desk = Served::open(&course, &[]);
    assert_eq!(desk.file("pebble")["chart"]["title"], "Båt");
    title(&desk, "Skjær");
    desk.kill();
    let mut desk = Served::open(&course, &[]);
    assert_eq!(desk.file("pebble")["chart"]["title"], "Skjær");
    // Texts of 100 kB: the journal is shortened, and many steps stay.
    let filler = "# a remark that is long\n".repeat(4500);
    let text = desk.file("pebble")["text"].as_str().unwrap().to_owned();
    for n in 0..90 {
        let body =
            json!({"at": desk.file("pebble")["at"], "text": format!("{text}# {n}\n{filler}")});
        assert_eq!(desk.post("/api/file/pebble", &body).status, 200);
    }
    assert!(std::fs::metadata(&steps).unwrap().len() < 12 << 20);
    desk.kill();
    let desk = Served::open(&course, &[]);
    let mut undone = 0;
    while desk.file("pebble")["undo"] == true {
        assert_eq!(desk.act("pebble", "undo").status, 200);
        undone += 1;
    }
    assert!(undone >= 30, "{undone} steps are left");
}
