//! Handouts as pages of a screen: light enough to send, leading on to each other, told to those who are sent them.

use crate::demo_course::demo;
use crate::goldens::packed;

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
