//! Whole sets: the same bytes twice, swapped in at once, nobody's file lost, never half a pack.

use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

use serde_json::Value;
use sha2::{Digest, Sha256};

use crate::harness::{Random, root, yokeward};

fn lessons() -> String {
    root().join("lessons").display().to_string()
}

/// Whether every file of a set has the size and digest its manifest names.
fn is_whole(set: &Path) -> Result<(), String> {
    let manifest =
        std::fs::read_to_string(set.join("pack.json")).map_err(|e| format!("no manifest: {e}"))?;
    let manifest: Value = serde_json::from_str(&manifest).map_err(|e| e.to_string())?;
    for file in manifest["files"].as_array().ok_or("no files")? {
        let path = file["path"].as_str().ok_or("no path")?;
        let bytes = std::fs::read(set.join(path)).map_err(|e| format!("{path}: {e}"))?;
        let digest: String = Sha256::digest(&bytes)
            .iter()
            .map(|b| format!("{b:02x}"))
            .collect();
        if file["size"] != bytes.len() || file["sha256"] != digest.as_str() {
            return Err(format!("{path} differs"));
        }
    }
    Ok(())
}

#[test]
fn the_same_course_gives_the_same_bytes() {
    let loaded = crate::demo_course::demo();
    let once =
        yokeward::app::pack(&loaded, &[], yokeward::app::PackOptions::default(), &|_| {}).unwrap();
    let twice = yokeward::app::pack(
        &crate::demo_course::demo(),
        &[],
        yokeward::app::PackOptions::default(),
        &|_| {},
    )
    .unwrap();
    assert!(once == twice);
    assert!(once.len() > 40);
}

#[test]
fn a_set_replaces_the_old_one_and_keeps_what_people_put_there() {
    let folder = tempfile::tempdir().unwrap();
    let lessons = lessons();
    let (code, out, _) = yokeward(folder.path(), &["pack", &lessons]);
    assert_eq!(code, 0);
    assert!(out.contains("course.pdf"));
    let set = folder.path().join("out/saltmarsh");
    is_whole(&set).unwrap();
    std::fs::write(set.join("lessons/my notes.txt"), "tea at four").unwrap();
    let (code, _, report) = yokeward(folder.path(), &["pack", &lessons, "--paper", "letter"]);
    assert_eq!(code, 0, "{report}");
    assert!(report.contains("my notes.txt"));
    assert_eq!(
        std::fs::read_to_string(set.join("lessons/my notes.txt")).unwrap(),
        "tea at four"
    );
    is_whole(&set).unwrap();
    let names: Vec<_> = std::fs::read_dir(folder.path().join("out"))
        .unwrap()
        .map(|e| e.unwrap().file_name())
        .collect();
    assert_eq!(names, ["saltmarsh"]);
}

#[test]
fn a_folder_of_somebody_else_is_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let set = folder.path().join("out/saltmarsh");
    std::fs::create_dir_all(&set).unwrap();
    std::fs::write(set.join("recipe.txt"), "scones").unwrap();
    let (code, _, report) = yokeward(folder.path(), &["pack", &lessons()]);
    assert_eq!(code, 2);
    assert!(report.contains("no pack.json of ours"), "{report}");
    assert_eq!(std::fs::read_dir(&set).unwrap().count(), 1);
}

#[test]
fn a_course_with_errors_writes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let course = folder.path().join("course");
    assert_eq!(yokeward(folder.path(), &["begin", "course"]).0, 0);
    let lesson = course.join("01-first-stripes.yaml");
    let text = std::fs::read_to_string(&lesson)
        .unwrap()
        .replace("makes: cowl", "makes: cowll");
    std::fs::write(&lesson, text).unwrap();
    let (code, out, report) = yokeward(folder.path(), &["pack", "course"]);
    assert_eq!((code, out.as_str()), (1, ""));
    assert!(
        report.contains("course/01-first-stripes.yaml:3:8"),
        "{report}"
    );
    assert!(report.contains("did you mean `cowl`?"), "{report}");
    assert!(!folder.path().join("out").exists());
}

/// Killed at any moment, the old set or the new one is there, whole.
#[test]
fn a_killed_run_leaves_a_whole_set() {
    let folder = tempfile::tempdir().unwrap();
    assert_eq!(yokeward(folder.path(), &["begin", "course"]).0, 0);
    assert_eq!(yokeward(folder.path(), &["pack", "course"]).0, 0);
    let set = folder.path().join("out/course");
    let program = assert_cmd::cargo::cargo_bin("yokeward");
    let mut random = Random::new(99);
    let mut killed = 0;
    for round in 0..200 {
        let paper = if round % 2 == 0 { "a4" } else { "letter" };
        let mut child = Command::new(&program)
            .current_dir(folder.path())
            .args(["pack", "course", "--paper", paper])
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        std::thread::sleep(Duration::from_micros(random.below(60_000) as u64));
        killed += usize::from(child.try_wait().unwrap().is_none());
        let _ = child.kill();
        child.wait().unwrap();
        assert_eq!(is_whole(&set), Ok(()), "round {round}");
    }
    assert!(killed > 20, "{killed} of 200 runs were still going");
    assert_eq!(yokeward(folder.path(), &["pack", "course"]).0, 0);
    let left: Vec<_> = std::fs::read_dir(folder.path().join("out"))
        .unwrap()
        .map(|e| e.unwrap().file_name())
        .collect();
    assert_eq!(left, ["course"]);
}
