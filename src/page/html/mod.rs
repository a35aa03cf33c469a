//! Blocks as one self-contained HTML file: inline pictures, embedded fonts, its own security policy.
//!
//! Nothing needs a script; the one that a page carries keeps the reader's place and shows her size alone.

mod blocks;
mod figures;
mod subset;
mod woff;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, LazyLock, Mutex};

use base64::Engine as _;
use sha2::{Digest, Sha256};

use crate::page::blocks::Block;
use crate::page::html::blocks::Writer;
use crate::page::svg::escape;
use crate::words::labels;

const STYLE: &str = include_str!("../../../templates/page.css");
const TRACKER: &str = include_str!("../../../templates/tracker.js");

/// What stands around the blocks of a page.
#[derive(Clone, Debug, Default)]
pub struct PageInfo {
    /// Title in the window.
    pub title: String,
    /// What the page is, in a sentence, for those who are sent its address.
    pub about: String,
    /// A picture of it, as a file beside the page; empty without.
    pub picture: String,
    /// Guild and course, above the content.
    pub head: String,
    /// Imprint, below it.
    pub foot: String,
    /// Ways to other pages: address and words.
    pub ways: Vec<(String, String)>,
    /// Names of the sizes, in the order in which numbers of all sizes stand.
    pub sizes: Vec<String>,
    /// Addresses and names of the lessons of a ladder.
    pub rungs: Vec<(String, String)>,
    /// Large print.
    pub large: bool,
    /// Charts are read from the left.
    pub from_left: bool,
    /// For a printer of black only.
    pub black: bool,
}

/// A whole page.
#[must_use]
pub fn page(blocks: &[Block], info: &PageInfo) -> String {
    let mut writer = Writer::new(&info.rungs);
    writer.blocks(blocks);
    let ways: Vec<String> = info
        .ways
        .iter()
        .map(|(href, words)| format!("<a href=\"{}\">{}</a>", escape(href), escape(words)))
        .collect();
    let nav = match ways.is_empty() {
        true => String::new(),
        false => format!(
            "<nav aria-label=\"{}\">{}</nav>",
            labels::COURSE,
            ways.join("\n")
        ),
    };
    let foot = if info.foot.is_empty() {
        String::new()
    } else {
        format!("<footer><p>{}</p></footer>", escape(&info.foot))
    };
    let looks = [
        (info.large, "large"),
        (info.black, "black"),
        (info.from_left, "from-left"),
    ];
    let looks = looks.into_iter().filter(|(wanted, _)| *wanted);
    let looks: Vec<&str> = looks.map(|(_, look)| look).collect();
    let class = match looks.is_empty() {
        true => String::new(),
        false => format!(" class=\"{}\"", looks.join(" ")),
    };
    let sizes = match info.sizes.len() {
        0 | 1 => String::new(),
        _ => format!(" data-sizes=\"{}\"", escape(&info.sizes.join("|"))),
    };
    let body = format!(
        "<header><p>{}</p>{nav}</header>\n<main>\n{}</main>\n{foot}\n",
        escape(&info.head),
        writer.out
    );
    format!(
        "<!doctype html>\n<html lang=\"en\"{class}>\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; \
         script-src 'sha256-{}'; \
         font-src data:; img-src data:; base-uri 'none'; form-action 'none'\">\n\
         <title>{}</title>\n{}<style>\n{STYLE}{}</style>\n</head>\n<body{sizes}>\n{body}<script>{TRACKER}</script>\n</body>\n</html>\n",
        tracker_hash(),
        escape(&info.title),
        shared(info),
        fonts(&[&body, TRACKER]),
    )
}

/// What those see who are sent the page's address.
fn shared(info: &PageInfo) -> String {
    let mut out = String::new();
    let mut meta = |kind: &str, name: &str, content: &str| {
        if !content.is_empty() {
            let content = escape(content);
            out.push_str(&format!("<meta {kind}=\"{name}\" content=\"{content}\">\n"));
        }
    };
    meta("name", "description", &info.about);
    meta("property", "og:title", &info.title);
    meta("property", "og:description", &info.about);
    meta("property", "og:image", &info.picture);
    out
}

/// The digest by which a page's security policy knows its one script.
fn tracker_hash() -> &'static str {
    static HASH: LazyLock<String> = LazyLock::new(|| {
        base64::engine::general_purpose::STANDARD.encode(Sha256::digest(TRACKER.as_bytes()))
    });
    &HASH
}

/// What nearly every page is written in; its faces are cut down and compressed once for all pages.
const USUAL: &str = " !\"#$%&'()*+,-./0123456789:;<=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[\\]^_`abcdefghijklmnopqrstuvwxyz{|}~\
    \u{a0}·×–’“”";

/// The three faces of a page, embedded so that it needs nothing beside it, cut down to the glyphs of usual texts and of its
/// own.
fn fonts(texts: &[&str]) -> String {
    static CUT: Mutex<BTreeMap<Vec<char>, Arc<String>>> = Mutex::new(BTreeMap::new());
    let strange = texts.iter().flat_map(|text| text.chars());
    let strange: BTreeSet<char> = strange.filter(|c| !is_usual(*c)).collect();
    let key: Vec<char> = strange.into_iter().collect();
    let known = CUT.lock().ok().and_then(|cut| cut.get(&key).cloned());
    if let Some(known) = known {
        return known.as_ref().clone();
    }
    let made = Arc::new(faces(&key));
    if let Ok(mut cut) = CUT.lock() {
        if cut.len() >= MOST_CUT {
            cut.clear();
        }
        cut.insert(key, Arc::clone(&made));
    }
    made.as_ref().clone()
}

/// Sets of letters that are kept with their faces: a course has a few.
const MOST_CUT: usize = 16;

fn is_usual(c: char) -> bool {
    matches!(c, ' '..='~' | '\n') || USUAL.contains(c)
}

/// The faces with these letters besides the usual ones.
fn faces(strange: &[char]) -> String {
    use crate::page::pdf::Face;
    // Ligatures are off, so that a text needs no glyph that its characters do not.
    let characters: BTreeSet<char> = USUAL.chars().chain(strange.iter().copied()).collect();
    let face = |family: &str, weight: u32, face: Face| {
        // The built-in files are fonts; one that were none would leave the page in a system face.
        let glyphs = face.glyphs_of(&characters);
        let data = subset::subset(face.file(), &glyphs).and_then(|font| woff::woff(&font));
        let data = base64::engine::general_purpose::STANDARD.encode(data.unwrap_or_default());
        format!(
            "@font-face{{font-family:'{family}';font-weight:{weight};src:url(data:font/woff;base64,{data})}}\n"
        )
    };
    face("Atkinson Hyperlegible Next", 400, Face::Regular)
        + &face("Atkinson Hyperlegible Next", 700, Face::Bold)
        + &face("Besley", 700, Face::Title)
}
