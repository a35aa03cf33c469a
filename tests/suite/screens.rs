//! Handouts as pages of a screen: light enough to send, leading on to each other, told to those who are sent them.

use serde_json::Value;
use sha2::{Digest, Sha256};

use crate::demo_course::demo;
use crate::goldens::packed;
use crate::harness::root;

/// What stands between two marks, each time.
fn between<'a>(text: &'a str, open: &'a str, close: &'a str) -> Vec<&'a str> {
    let parts = text.split(open).skip(1);
    parts.filter_map(|part| part.split(close).next()).collect()
}

/// What an address leads to, from a page of a handout.
fn target(page: &str, href: &str) -> String {
    let folder = page.rsplit_once('/').map_or("", |(folder, _)| folder);
    match href.strip_prefix("../../") {
        Some(path) => path.to_owned(),
        None => format!("{folder}/{href}"),
    }
}

#[test]
fn handouts_are_light_and_lead_on() {
    let files = packed(&demo());
    let pages: Vec<&String> = files
        .keys()
        .filter(|path| path.ends_with("handout.html"))
        .collect();
    assert_eq!(pages.len(), 12);
    for (at, path) in pages.iter().enumerate() {
        let text = std::str::from_utf8(&files[*path]).unwrap();
        let drawn: usize = between(text, "<svg", "</svg>")
            .iter()
            .map(|svg| svg.len())
            .sum();
        let rest = text.len() - drawn;
        assert!(rest < 120_000, "{path}: {rest} bytes without its pictures");
        let nav = between(text, "<nav", "</nav>")[0];
        let ways = between(nav, "href=\"", "\"");
        let mut led: Vec<String> = ways.iter().map(|href| target(path, href)).collect();
        assert!(
            led.iter().all(|way| files.contains_key(way)),
            "{path}: {led:?}"
        );
        led.retain(|way| way.ends_with("handout.html"));
        let neighbours = [at.checked_sub(1), Some(at + 1)];
        let neighbours = neighbours
            .into_iter()
            .flatten()
            .filter_map(|i| pages.get(i));
        let neighbours: Vec<String> = neighbours.map(|page| (*page).clone()).collect();
        assert_eq!(led, neighbours, "{path}");
        assert!(
            ways.contains(&"handout.pdf") && ways.contains(&"../../index.html"),
            "{path}"
        );
        let about = between(text, "<meta name=\"description\" content=\"", "\"");
        assert!(about.len() == 1 && about[0].len() > 40, "{path}: {about:?}");
        // A piece of stripes has no chart to show.
        let picture = between(text, "<meta property=\"og:image\" content=\"", "\"");
        let folder = path.trim_end_matches("handout.html");
        let drawn = files
            .keys()
            .any(|file| file.starts_with(folder) && file.ends_with(".svg"));
        assert_eq!(!picture.is_empty(), drawn, "{path}");
        assert!(
            picture
                .iter()
                .all(|href| files.contains_key(&target(path, href))),
            "{path}"
        );
    }
}

#[test]
fn rungs_of_the_ladder_lead_to_their_lessons() {
    let files = packed(&demo());
    let text = std::str::from_utf8(&files["index.html"]).unwrap();
    let rungs = between(text, "<a class=\"rung\" href=\"", "\"");
    let pages: Vec<&String> = files
        .keys()
        .filter(|path| path.ends_with("handout.html"))
        .collect();
    assert_eq!(rungs, pages);
}

/// The README's pictures are of the pack that is made today: `made-from.json` beside them keeps what they were drawn from.
/// When this fails, draw them again and look at them; DEVELOPERS.md says how.
#[test]
fn pictures_of_the_readme_are_of_today() {
    let files = packed(&demo());
    let folder = root().join("lessons/pictures");
    let made = std::fs::read_to_string(folder.join("made-from.json")).unwrap();
    let made: serde_json::Map<String, Value> = serde_json::from_str(&made).unwrap();
    let readme = std::fs::read_to_string(root().join("README.md")).unwrap();
    assert_eq!(made.len(), 3);
    for (picture, of) in &made {
        let path = of["path"].as_str().unwrap();
        let digest = Sha256::digest(&files[path]);
        let digest: String = digest.iter().map(|byte| format!("{byte:02x}")).collect();
        assert_eq!(of["sha256"], digest, "{picture} is of an older {path}");
        let png = std::fs::read(folder.join(picture)).unwrap();
        assert!(png.starts_with(b"\x89PNG"), "{picture}");
        let shown = format!("](lessons/pictures/{picture})");
        let alt = readme
            .split(&shown)
            .next()
            .unwrap()
            .rsplit("![")
            .next()
            .unwrap();
        assert!(
            readme.contains(&shown) && alt.len() > 40,
            "{picture} has no words in the README"
        );
    }
}
