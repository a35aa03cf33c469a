//! Words shaped, and text broken into lines. The only file that names unicode-linebreak.

use std::cell::RefCell;
use std::collections::HashMap;
use std::fmt::Write as _;
use std::sync::Arc;

use unicode_linebreak::{BreakOpportunity, linebreaks};

use crate::page::pdf::face::{Face, Glyph, shape};
use crate::page::pdf::run::{in_mm, reach};

pub use crate::page::pdf::run::Run;
pub(super) use crate::page::pdf::run::{Line, POINT, Span, Style, pt};

/// Shapes words and breaks lines, and remembers both: a text is laid out once for each way of setting its page.
pub(super) struct Typesetter {
    words: Words,
    broken: HashMap<(String, u64), Vec<Line>>,
}

type Words = HashMap<(Face, bool), HashMap<String, Shaped>>;

thread_local! {
    /// Words that this thread has shaped: handouts of a course share most of theirs.
    static WORDS: RefCell<Words> = RefCell::default();
}

/// Words of a face that are kept from one document to the next.
const MOST_WORDS: usize = 20_000;

impl Default for Typesetter {
    fn default() -> Self {
        Self {
            words: WORDS.take(),
            broken: HashMap::new(),
        }
    }
}

impl Drop for Typesetter {
    fn drop(&mut self) {
        let mut words = std::mem::take(&mut self.words);
        if words.values().all(|words| words.len() <= MOST_WORDS) {
            // Of two at once on a thread the later one's words are kept.
            WORDS.set(std::mem::take(&mut words));
        }
    }
}

/// A word's glyphs, and how far they reach in thousandths of an em.
#[derive(Clone)]
struct Shaped {
    glyphs: Arc<Vec<Glyph>>,
    reach: f64,
}

impl Typesetter {
    /// The glyphs of a piece of text.
    pub(super) fn shape(&mut self, text: &str, face: Face, tabular: bool) -> Arc<Vec<Glyph>> {
        self.shaped(text, face, tabular).glyphs
    }

    fn shaped(&mut self, text: &str, face: Face, tabular: bool) -> Shaped {
        let words = self.words.entry((face, tabular)).or_default();
        if let Some(known) = words.get(text) {
            return known.clone();
        }
        let glyphs = shape(text, face, tabular);
        let shaped = Shaped {
            reach: reach(&glyphs),
            glyphs: Arc::new(glyphs),
        };
        words.insert(text.to_owned(), shaped.clone());
        shaped
    }

    /// Width of a piece of text in millimetres.
    pub(super) fn width(&mut self, text: &str, style: Style) -> f64 {
        let shaped = self.shaped(text, style.face, style.tabular);
        in_mm(shaped.reach, style.size)
    }

    /// Breaks spans into lines no wider than `width`; no last line of one short word.
    pub(super) fn lines(&mut self, spans: &[Span], width: f64) -> Vec<Line> {
        let key = (key_of(spans), width.to_bits());
        if let Some(known) = self.broken.get(&key) {
            return known.clone();
        }
        let lines = self.break_lines(spans, width);
        self.broken.insert(key, lines.clone());
        lines
    }

    fn break_lines(&mut self, spans: &[Span], width: f64) -> Vec<Line> {
        let words = split_long(self.words_of(spans), width);
        let mut best = fill(&words, width);
        let lonely =
            |lines: &[Vec<&Word>]| lines.len() > 1 && lines.last().is_some_and(|l| l.len() == 1);
        if lonely(&best) {
            let count = best.len();
            for step in 1..=4 {
                let tighter = fill(&words, width * (1.0 - 0.03 * f64::from(step)));
                if tighter.len() == count && !lonely(&tighter) {
                    best = tighter;
                    break;
                }
            }
        }
        best.into_iter().map(|words| set(&words)).collect()
    }

    /// Pieces between break opportunities, shaped.
    fn words_of(&mut self, spans: &[Span]) -> Vec<Word> {
        let text: String = spans.iter().map(|span| span.text.as_str()).collect();
        let mut words: Vec<Word> = Vec::new();
        let mut start = 0;
        for (end, kind) in linebreaks(&text) {
            let mut word = Word {
                parts: Vec::new(),
                ends_line: kind == BreakOpportunity::Mandatory && end < text.len(),
            };
            let mut at = 0;
            for span in spans {
                let (from, to) = (start.max(at), end.min(at + span.text.len()));
                if from < to
                    && let Some(piece) = span.text.get(from - at..to - at)
                {
                    let piece = piece.trim_end_matches(['\n', '\r']);
                    let visible = piece.trim_end_matches(' ');
                    let blank = piece.len() - visible.len();
                    let style = span.style;
                    let gap = if blank > 0 {
                        self.width(" ", style) * blank as f64
                    } else {
                        0.0
                    };
                    let Shaped { glyphs, reach } = self.shaped(piece, style.face, style.tabular);
                    let width = in_mm(reach, style.size) - gap;
                    word.parts.push(WordPart {
                        glyphs,
                        style,
                        width,
                        gap,
                        link: span.link.clone(),
                    });
                }
                at += span.text.len();
            }
            words.push(word);
            start = end;
        }
        words
    }
}

/// All that tells spans apart, as one text: the length of each part says where it ends.
fn key_of(spans: &[Span]) -> String {
    let mut key = String::with_capacity(spans.iter().map(|span| span.text.len() + 24).sum());
    for Span { text, style, link } in spans {
        let looks = (style.face as u8, style.paint, style.tabular);
        let _ = write!(
            key,
            "{} {text}{:x} {looks:?}",
            text.len(),
            style.size.to_bits()
        );
        if let Some(link) = link {
            key.push_str(link);
        }
        key.push('\0');
    }
    key
}

struct WordPart {
    glyphs: Arc<Vec<Glyph>>,
    style: Style,
    width: f64,
    gap: f64,
    link: Option<String>,
}

struct Word {
    parts: Vec<WordPart>,
    ends_line: bool,
}

impl Word {
    fn visible(&self) -> f64 {
        self.whole() - self.parts.last().map_or(0.0, |p| p.gap)
    }

    fn whole(&self) -> f64 {
        self.parts.iter().map(|p| p.width + p.gap).sum()
    }
}

/// Words wider than the measure, cut into pieces that fit.
fn split_long(words: Vec<Word>, width: f64) -> Vec<Word> {
    if words.iter().all(|word| word.visible() <= width) {
        return words;
    }
    let mut out = Vec::new();
    for word in words {
        if word.visible() <= width {
            out.push(word);
            continue;
        }
        let ends_line = word.ends_line;
        for part in word.parts {
            let glyph_width = |g: &Glyph| g.advance / 1000.0 * part.style.size * POINT;
            let mut rest: &[Glyph] = &part.glyphs;
            while !rest.is_empty() {
                let mut used = 0.0;
                let fits = rest.iter().take_while(|g| {
                    used += glyph_width(g);
                    used <= width
                });
                let (piece, after) = rest.split_at(fits.count().max(1));
                let is_last = after.is_empty();
                let gap = if is_last { part.gap } else { 0.0 };
                let whole: f64 = piece.iter().map(glyph_width).sum();
                let (style, link) = (part.style, part.link.clone());
                let glyphs = Arc::new(piece.to_vec());
                let parts = vec![WordPart {
                    glyphs,
                    style,
                    width: whole - gap,
                    gap,
                    link,
                }];
                out.push(Word {
                    parts,
                    ends_line: false,
                });
                rest = after;
            }
        }
        if let Some(last) = out.last_mut() {
            last.ends_line = ends_line;
        }
    }
    out
}

/// Greedy filling: ragged right, no hyphens.
fn fill(words: &[Word], width: f64) -> Vec<Vec<&Word>> {
    let mut lines: Vec<Vec<&Word>> = vec![Vec::new()];
    let mut used = 0.0;
    for word in words {
        let fits = used + word.visible() <= width + 1e-6;
        if !fits && lines.last().is_some_and(|line| !line.is_empty()) {
            lines.push(Vec::new());
            used = 0.0;
        }
        used += word.whole();
        if let Some(line) = lines.last_mut() {
            line.push(word);
        }
        if word.ends_line {
            lines.push(Vec::new());
            used = 0.0;
        }
    }
    lines.retain(|line| !line.is_empty());
    lines
}

fn set(words: &[&Word]) -> Line {
    let mut line = Line::default();
    let mut x = 0.0;
    for word in words {
        for part in &word.parts {
            if let Some(href) = &part.link {
                match line.links.last_mut() {
                    Some((_, to, last)) if last == href && (x - *to).abs() < 3.0 => {
                        *to = x + part.width
                    }
                    _ => line.links.push((x, x + part.width, href.clone())),
                }
            }
            let Style {
                face, size, paint, ..
            } = part.style;
            line.runs.push(Run {
                face,
                size,
                paint,
                x,
                y: 0.0,
                glyphs: Arc::clone(&part.glyphs),
                turned: false,
            });
            x += part.width;
            line.width = x;
            x += part.gap;
        }
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_keep_within_the_measure_and_end_in_two_words() {
        let style = Style::new(Face::Regular, 11.0);
        let text =
            "In round 3 the Fleece yarn travels behind five stitches. Trap it half-way, and again.";
        let spans = [Span {
            text: text.to_owned(),
            style,
            link: None,
        }];
        let mut type_setter = Typesetter::default();
        for width in [20.0, 33.0, 47.0, 60.0, 88.0] {
            let lines = type_setter.lines(&spans, width);
            assert!(lines.iter().all(|l| l.width <= width + 1e-6));
            let all: String = lines
                .iter()
                .flat_map(|l| l.runs.iter().map(Run::text))
                .collect();
            assert_eq!(all, text);
        }
    }
}
