//! What stays on the disk, whatever happens: two runs at once, what a person put among the files or changed in them, links,
//! leftovers of a killed run, full devices, logs that are strangely written.

use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use crate::harness::root;

fn program(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_yokeward"));
    command.args(arguments).current_dir(root());
    command
}

fn run(arguments: &[&str]) -> Output {
    program(arguments).output().unwrap()
}

/// A course of one lesson, which packs quickly.
fn small() -> (tempfile::TempDir, String, PathBuf) {
    let place = tempfile::tempdir().unwrap();
    let course = place.path().join("small");
    std::fs::create_dir_all(course.join("charts")).unwrap();
    let write = |name: &str, text: &str| std::fs::write(course.join(name), text).unwrap();
    write(
        "course.yaml",
        "id: small\ntitle: Small\nlimit: { stitches: 4 }\n",
    );
    write(
        "charts/dot.yaml",
        "title: Dot\nrights: own\ncolours: { \".\": ground, x: motif }\nrows: |\n  ..x.\n  ....\n",
    );
    write(
        "01-dot-band.yaml",
        "title: Dot band\nmakes: headband\ngauge: { colourwork: { stitches: 20, rows: 26 } }\n\
         colours: { ground: { name: Peat, hex: \"#3b2f2a\" }, motif: { name: Fleece, hex: \"#f2ead8\" } }\n\
         bands: [ { chart: dot } ]\nsizes: [adult-medium]\n",
    );
    let out = place.path().join("out");
    (place, course.display().to_string(), out)
}

/// Whether a set is whole: every file that its manifest lists is there, of the size it says.
fn assert_whole(set: &Path) {
    let manifest: serde_json::Value =
        serde_json::from_str(&std::fs::read_to_string(set.join("pack.json")).unwrap()).unwrap();
    for file in manifest["files"].as_array().unwrap() {
        let path = set.join(file["path"].as_str().unwrap());
        assert_eq!(
            path.metadata().unwrap().len(),
            file["size"].as_u64().unwrap(),
            "{path:?}"
        );
    }
}

#[test]
fn two_packs_at_once_take_turns() {
    let (_place, course, out) = small();
    let to = out.display().to_string();
    let mut waited = 0;
    for _ in 0..20 {
        let runs: Vec<_> = (0..3)
            .map(|_| {
                let mut command = program(&["pack", &course, "--to", &to]);
                command
                    .stdout(Stdio::null())
                    .stderr(Stdio::piped())
                    .spawn()
                    .unwrap()
            })
            .collect();
        for run in runs {
            let done = run.wait_with_output().unwrap();
            let said = String::from_utf8_lossy(&done.stderr).into_owned();
            assert!(done.status.success(), "{said}");
            waited += usize::from(said.contains("waiting for it"));
        }
        assert_whole(&out.join("small"));
        assert!(!out.join(".small.new").exists() && !out.join(".small.old").exists());
    }
    assert!(waited > 0, "none of forty had to wait");
}

#[cfg(unix)]
#[test]
fn what_a_person_put_there_is_moved_and_never_touched() {
    use std::os::unix::ffi::OsStrExt;
    use std::os::unix::fs::{MetadataExt, PermissionsExt, symlink};
    let (place, course, out) = small();
    let to = out.display().to_string();
    assert!(run(&["pack", &course, "--to", &to]).status.success());
    let set = out.join("small");
    let inside = set.join("lessons/01-dot-band");
    std::fs::write(set.join("notes.txt"), "mine").unwrap();
    std::fs::set_permissions(
        set.join("notes.txt"),
        std::fs::Permissions::from_mode(0o600),
    )
    .unwrap();
    std::fs::write(inside.join("photo.jpg"), "photo").unwrap();
    std::fs::create_dir(set.join("empty")).unwrap();
    std::fs::create_dir_all(set.join("own/deep")).unwrap();
    std::fs::write(set.join("own/deep/a"), "a").unwrap();
    symlink("nowhere", set.join("dead")).unwrap();
    symlink(place.path(), set.join("folder")).unwrap();
    let odd = set.join(std::ffi::OsStr::from_bytes(b"odd-\xff"));
    std::fs::write(&odd, "odd").unwrap();
    assert!(
        Command::new("mkfifo")
            .arg(set.join("pipe"))
            .status()
            .unwrap()
            .success()
    );
    let stamps = |path: &Path| {
        let known = path.symlink_metadata().unwrap();
        (known.ino(), known.mode(), known.mtime(), known.mtime_nsec())
    };
    let all = [
        "notes.txt",
        "lessons/01-dot-band/photo.jpg",
        "empty",
        "own",
        "own/deep/a",
        "dead",
        "folder",
        "pipe",
    ];
    let before: Vec<_> = all.iter().map(|name| stamps(&set.join(name))).collect();
    for _ in 0..2 {
        let done = run(&["pack", &course, "--to", &to]);
        assert!(
            done.status.success(),
            "{}",
            String::from_utf8_lossy(&done.stderr)
        );
        assert!(String::from_utf8_lossy(&done.stderr).contains("kept your own notes.txt"));
    }
    let after: Vec<_> = all.iter().map(|name| stamps(&set.join(name))).collect();
    assert_eq!(before, after, "moved, not written anew");
    assert_eq!(std::fs::read(odd).unwrap(), b"odd");
    assert_whole(&set);
}

#[test]
fn a_handout_that_was_changed_by_hand_is_kept_beside_the_new_one() {
    let (_place, course, out) = small();
    let to = out.display().to_string();
    assert!(run(&["pack", &course, "--to", &to]).status.success());
    let folder = out.join("small/lessons/01-dot-band");
    let made = std::fs::read_to_string(folder.join("handout.md")).unwrap();
    std::fs::write(folder.join("handout.md"), format!("{made}\nBring tea.\n")).unwrap();
    let done = run(&["pack", &course, "--to", &to]);
    let said = String::from_utf8_lossy(&done.stderr).into_owned();
    assert!(
        done.status.success() && said.contains("handout.yours.md"),
        "{said}"
    );
    assert_eq!(
        std::fs::read_to_string(folder.join("handout.md")).unwrap(),
        made
    );
    let yours = || std::fs::read_to_string(folder.join("handout.yours.md")).unwrap();
    assert!(yours().ends_with("Bring tea.\n"));
    // Another pack has nothing more to say of it, and leaves it.
    let again = run(&["pack", &course, "--to", &to]);
    assert!(!String::from_utf8_lossy(&again.stderr).contains("had changed"));
    assert!(yours().ends_with("Bring tea.\n"));
}

#[cfg(unix)]
#[test]
fn links_stay_links() {
    let (place, course, out) = small();
    let real = place.path().join("elsewhere");
    std::fs::create_dir(&real).unwrap();
    std::os::unix::fs::symlink(&real, &out).unwrap();
    let to = out.display().to_string();
    for _ in 0..2 {
        assert!(run(&["pack", &course, "--to", &to]).status.success());
        assert!(out.symlink_metadata().unwrap().is_symlink());
        assert_whole(&real.join("small"));
    }
    // The set itself, too.
    std::fs::rename(real.join("small"), real.join("moved")).unwrap();
    std::os::unix::fs::symlink("moved", real.join("small")).unwrap();
    assert!(run(&["pack", &course, "--to", &to]).status.success());
    assert!(real.join("small").symlink_metadata().unwrap().is_symlink());
    assert_whole(&real.join("moved"));
}

#[test]
fn what_a_killed_run_left_is_cleared_and_nothing_of_a_person_goes_with_it() {
    let (_place, course, out) = small();
    let to = out.display().to_string();
    assert!(run(&["pack", &course, "--to", &to]).status.success());
    let set = out.join("small");
    // Killed right after the exchange: the old set, with what a person had in it, lies under the other name.
    let left = out.join(".small.new");
    std::fs::create_dir_all(left.join("lessons/01-dot-band")).unwrap();
    for name in ["pack.json", "lessons/01-dot-band/handout.md"] {
        std::fs::copy(set.join(name), left.join(name)).unwrap();
    }
    std::fs::write(left.join("notes.txt"), "mine").unwrap();
    // And one that never got as far as its manifest.
    std::fs::create_dir_all(out.join(".small.old")).unwrap();
    std::fs::write(out.join(".small.old/course.pdf"), "half").unwrap();
    assert!(run(&["pack", &course, "--to", &to]).status.success());
    assert!(!left.exists() && !out.join(".small.old").exists());
    assert_eq!(
        std::fs::read_to_string(set.join("notes.txt")).unwrap(),
        "mine"
    );
    assert_whole(&set);
}

#[cfg(target_os = "linux")]
#[test]
fn an_answer_that_does_not_arrive_is_no_success() {
    let full = || {
        Stdio::from(
            std::fs::File::options()
                .write(true)
                .open("/dev/full")
                .unwrap(),
        )
    };
    for arguments in [
        &["measure", "--json", "lessons"][..],
        &["order", "--json"],
        &["grade"],
        &["schema"],
    ] {
        let done = program(arguments).stdout(full()).output().unwrap();
        assert_eq!(done.status.code(), Some(2), "{arguments:?}");
        let said = String::from_utf8_lossy(&done.stderr).into_owned();
        assert!(said.contains("could not be written"), "{said}");
    }
}

#[test]
fn a_log_grows_by_one_entry_or_stays_as_it_is() {
    let place = tempfile::tempdir().unwrap();
    let log = place.path().join("me.yaml");
    let path = log.display().to_string();
    let record = |more: &[&str]| {
        let base = ["record", "tideline-cowl", "--log", &path, "--went", "right"];
        run(&[&base[..], more, &["lessons"]].concat())
    };
    let old = [
        "done: ~\n",
        "done: {}\n",
        "done: { made: a }\n",
        "done:\n  - { made: tideline-cowl, went: easy }\n...\n",
        "done: []\n...\n",
        "learner: Wren\ndone: [] # none\n",
        "done:\n",
        "# only a remark\n",
        "",
        "learner: Wren\n",
        "done: null\nlearner: Wren\n",
        "{ learner: Wren }\n",
        "{ done: [] }\n",
        "done: !!seq []\n",
        "done:\n- made: tideline-cowl\n  went: easy\n  note: |\n    long\n\n    note\n# end\n",
        "---\ndone: []\n",
    ];
    let (mut grown, mut left) = (0, 0);
    for old in old {
        std::fs::write(&log, old).unwrap();
        let done = record(&["--note", "tea: \"hot\" # \u{7} \t end"]);
        let new = std::fs::read_to_string(&log).unwrap();
        if done.status.success() {
            let entries = |text: &str| -> Vec<serde_yaml::Value> {
                let value: serde_yaml::Value =
                    serde_yaml::from_str(text).unwrap_or_else(|e| panic!("{e}\n{text}"));
                value["done"].as_sequence().cloned().unwrap_or_default()
            };
            let (before, after) = (entries(old), entries(&new));
            assert_eq!(after.len(), before.len() + 1, "{old}\n{new}");
            assert_eq!(after[..before.len()], before[..], "{old}\n{new}");
            assert_eq!(
                after.last().unwrap()["note"].as_str(),
                Some("tea: \"hot\" # \u{7} \t end")
            );
            assert!(
                run(&["next", "--log", &path, "lessons"]).status.success(),
                "{new}"
            );
            grown += 1;
        } else {
            assert_eq!(new, old, "left as it is");
            left += 1;
        }
    }
    assert!(grown >= 8 && left >= 3, "{grown} grown, {left} left");
    for day in [
        "2026-02-30",
        "2026-13-01",
        "2025-02-29",
        "2026-00-10",
        "2026-04-31",
        "2026-1-1",
        "20261-01-1",
    ] {
        assert_eq!(record(&["--on", day]).status.code(), Some(2), "{day}");
    }
    std::fs::write(&log, "").unwrap();
    assert!(record(&["--on", "2024-02-29"]).status.success());
}

#[cfg(unix)]
#[test]
fn a_log_keeps_its_link_and_its_mode() {
    use std::os::unix::fs::PermissionsExt;
    let place = tempfile::tempdir().unwrap();
    let (real, link) = (place.path().join("real.yaml"), place.path().join("me.yaml"));
    std::fs::write(&real, "done: []\n").unwrap();
    std::fs::set_permissions(&real, std::fs::Permissions::from_mode(0o600)).unwrap();
    std::os::unix::fs::symlink("real.yaml", &link).unwrap();
    let done = run(&[
        "record",
        "tideline-cowl",
        "--log",
        link.to_str().unwrap(),
        "--went",
        "easy",
        "lessons",
    ]);
    assert!(done.status.success());
    assert!(link.symlink_metadata().unwrap().is_symlink());
    assert_eq!(real.metadata().unwrap().permissions().mode() & 0o777, 0o600);
    assert!(
        std::fs::read_to_string(&real)
            .unwrap()
            .contains("made: tideline-cowl")
    );
}

#[test]
fn a_text_is_replaced_only_if_it_is_what_it_was_thought_to_be() {
    use yokeward::app::store::{StoreError, replace_text};
    let place = tempfile::tempdir().unwrap();
    let path = place.path().join("a.yaml");
    let read = || std::fs::read_to_string(&path).unwrap();
    replace_text(&path, "first", None).unwrap();
    assert_eq!(read(), "first");
    replace_text(&path, "second", Some("first")).unwrap();
    assert_eq!(read(), "second");
    // An editor was quicker: what it wrote stays, whole, and nothing lies beside it.
    std::fs::write(&path, "the editor's").unwrap();
    for old in [Some("second"), None] {
        let refused = replace_text(&path, "third", old);
        assert!(
            matches!(refused, Err(StoreError::Changed(_))),
            "{refused:?}"
        );
        assert_eq!(read(), "the editor's");
    }
    assert!(replace_text(&place.path().join("gone.yaml"), "a", Some("b")).is_err());
    assert_eq!(std::fs::read_dir(place.path()).unwrap().count(), 1);
}
