//! Blocks as one self-contained HTML file: inline pictures, embedded fonts, its own security policy.
//!
//! Nothing needs a script; a page with rows in words carries one that keeps the reader's place in them.

mod blocks;
mod woff;

use std::sync::LazyLock;

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
    /// Guild and course, above the content.
    pub head: String,
    /// Imprint, below it.
    pub foot: String,
    /// A way back: address and words.
    pub back: Option<(String, String)>,
    /// Large print.
    pub large: bool,
    /// For a printer of black only.
    pub black: bool,
}

/// A whole page.
#[must_use]
pub fn page(blocks: &[Block], info: &PageInfo) -> String {
    let mut writer = Writer::default();
    writer.blocks(blocks);
    let back = info
        .back
        .as_ref()
        .map_or_else(String::new, |(href, words)| {
            format!(
                "<nav aria-label=\"{}\"><a href=\"{}\">{}</a></nav>",
                labels::COURSE,
                escape(href),
                escape(words)
            )
        });
    let foot = if info.foot.is_empty() {
        String::new()
    } else {
        format!("<footer><p>{}</p></footer>", escape(&info.foot))
    };
    let (policy, script) = if has_rows(blocks) {
        let policy = format!(" script-src 'sha256-{}';", tracker_hash());
        (policy, format!("<script>{TRACKER}</script>\n"))
    } else {
        Default::default()
    };
    let class = match (info.large, info.black) {
        (false, false) => "",
        (true, false) => " class=\"large\"",
        (false, true) => " class=\"black\"",
        (true, true) => " class=\"large black\"",
    };
    format!(
        "<!doctype html>\n<html lang=\"en\"{class}>\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline';{policy} \
         font-src data:; img-src data:; base-uri 'none'; form-action 'none'\">\n\
         <title>{}</title>\n<style>\n{STYLE}{}</style>\n</head>\n<body>\n\
         <header><p>{}</p>{back}</header>\n<main>\n{}</main>\n{foot}\n{script}</body>\n</html>\n",
        escape(&info.title),
        fonts(),
        escape(&info.head),
        writer.out
    )
}

/// Whether anywhere rows are told in words.
fn has_rows(blocks: &[Block]) -> bool {
    blocks.iter().any(|block| match block {
        Block::Rows(_) => true,
        other => other.inner().into_iter().any(has_rows),
    })
}

/// The digest by which a page's security policy knows its one script.
fn tracker_hash() -> &'static str {
    static HASH: LazyLock<String> = LazyLock::new(|| {
        base64::engine::general_purpose::STANDARD.encode(Sha256::digest(TRACKER.as_bytes()))
    });
    &HASH
}

/// The three faces of a page, embedded so that it needs nothing beside it.
fn fonts() -> &'static str {
    static FONTS: LazyLock<String> = LazyLock::new(|| {
        let face = |family: &str, weight: u32, bytes: &[u8]| {
            // The built-in files are fonts; one that were none would leave the page in a system face.
            let data = woff::woff(bytes).unwrap_or_default();
            let data = base64::engine::general_purpose::STANDARD.encode(data);
            format!(
                "@font-face{{font-family:'{family}';font-weight:{weight};src:url(data:font/woff;base64,{data})}}\n"
            )
        };
        let files = crate::page::pdf::font_files();
        face("Atkinson Hyperlegible Next", 400, files.regular)
            + &face("Atkinson Hyperlegible Next", 700, files.bold)
            + &face("Besley", 700, files.title)
    });
    &FONTS
}
