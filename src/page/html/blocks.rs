//! Blocks as the elements of a page.

use std::fmt::Write as _;

use crate::page::blocks::{Block, Inline, Tone, plain};
use crate::page::svg::escape;
use crate::words::labels;

/// Writes the blocks of a page.
pub(super) struct Writer<'a> {
    pub(super) out: String,
    pub(super) pictures: usize,
    /// Level of the last heading; 0 before the first.
    level: u8,
    /// The last heading: what it is over is named by it.
    pub(super) over: String,
    /// Addresses and names of the lessons of a ladder.
    pub(super) rungs: &'a [(String, String)],
}

impl<'a> Writer<'a> {
    pub(super) const fn new(rungs: &'a [(String, String)]) -> Self {
        Self {
            out: String::new(),
            pictures: 0,
            level: 0,
            over: String::new(),
            rungs,
        }
    }

    pub(super) fn blocks(&mut self, blocks: &[Block]) {
        for block in blocks {
            self.block(block);
        }
    }

    pub(super) fn line(&mut self, text: &str) {
        self.out.push_str(text);
        self.out.push('\n');
    }

    #[allow(
        clippy::too_many_lines,
        reason = "one arm for each kind of block, none with logic of its own"
    )]
    fn block(&mut self, block: &Block) {
        match block {
            Block::Heading(level, text) => {
                // No level is skipped on the way down, whatever a text or template asks for.
                let level = (*level).min(self.level + 1);
                self.level = level;
                self.over = plain(text);
                let text = inlines(text);
                self.line(&format!("<h{level}>{text}</h{level}>"));
            }
            Block::Paragraph(tone, text) => {
                let class = if *tone == Tone::Small {
                    " class=\"small\""
                } else {
                    ""
                };
                self.line(&format!("<p{class}>{}</p>", inlines(text)));
            }
            Block::List(start, items) => self.list(*start, items),
            Block::Table(table) => self.table(table),
            Block::Figure {
                drawing,
                caption,
                name,
            } => self.figure(drawing, caption, name.is_some()),
            Block::Quote(inner) => self.wrapped("blockquote", "", inner),
            Block::Code(text) => self.line(&format!("<pre><code>{}</code></pre>", escape(text))),
            Block::Rule => self.line("<hr>"),
            Block::Page(_) => self.line("<div class=\"page\"></div>"),
            Block::Front {
                number,
                of,
                title,
                lead,
                climb,
            } => {
                let climb = self.picture(climb);
                self.line(&format!(
                    "<div class=\"front\"><p class=\"step\"><span>{} </span><b>{number}</b><span> {}</span></p><div>",
                    labels::LESSON,
                    labels::of_lessons(*of)
                ));
                self.line(&format!("<h1>{}</h1>", escape(title)));
                self.level = 1;
                self.blocks(lead);
                self.line(&format!("</div><div class=\"climb\">{climb}</div></div>"));
            }
            Block::New(intro, things) => {
                self.line(&format!(
                    "<section class=\"new\"><h2>{}</h2><p>{}</p>",
                    labels::NEW,
                    inlines(intro)
                ));
                self.level = 2;
                if !things.is_empty() {
                    self.line("<ol>");
                    for (title, text) in things {
                        self.line(&format!(
                            "<li><strong>{}</strong> {}</li>",
                            escape(title),
                            inlines(text)
                        ));
                    }
                    self.line("</ol>");
                }
                self.line("</section>");
            }
            Block::Measures(bars, mark) => {
                self.line("<dl class=\"measures\">");
                for bar in bars {
                    let picture = self.picture(&bar.drawing);
                    self.line(&format!(
                        "<div><dt>{}</dt><dd class=\"bar\">{picture}</dd><dd><strong>{}</strong><br>{}</dd></div>",
                        escape(&bar.name),
                        escape(&bar.verdict),
                        escape(&bar.fact)
                    ));
                }
                self.line("</dl>");
                if !mark.is_empty() {
                    self.line(&format!("<p class=\"small\">▲ {mark}</p>"));
                }
            }
            Block::Legend(items) => {
                self.line("<ul class=\"legend\">");
                for (drawing, words) in items {
                    let picture = self.picture(drawing);
                    self.line(&format!("<li>{picture} {}</li>", escape(words)));
                }
                self.line("</ul>");
            }
            Block::Rows(rows) => {
                self.line("<dl class=\"rows\">");
                for row in rows {
                    let (label, words) = (escape(&row.label), escape(&row.words));
                    // The first box is named by the row, the others by their number.
                    let mut boxes = String::new();
                    for time in 1..=row.boxes {
                        let name = labels::row_box(&row.label, time);
                        let _ = write!(
                            boxes,
                            "<input type=\"checkbox\" aria-label=\"{}\"> ",
                            escape(&name)
                        );
                    }
                    self.line(&format!(
                        "<div><dt>{boxes}{label}</dt><dd>{words}</dd></div>"
                    ));
                }
                self.line("</dl>");
            }
            Block::Steps(steps) => {
                self.line("<ol class=\"steps\">");
                for step in steps {
                    self.line(&format!(
                        "<li><h3>{}</h3><p>{}</p>",
                        escape(&step.title),
                        inlines(&step.text)
                    ));
                    self.ticks(step.boxes);
                    if !step.stripes.is_empty() {
                        self.line("<ul class=\"stripes\">");
                        for (chip, words, boxes) in &step.stripes {
                            let picture = self.picture(chip);
                            self.line(&format!("<li>{picture} {}", escape(words)));
                            self.ticks(*boxes);
                            self.line("</li>");
                        }
                        self.line("</ul>");
                    }
                    self.line("</li>");
                }
                self.line("</ol>");
            }
            Block::Checks(checks) => {
                self.line("<ul class=\"checks\">");
                for check in checks {
                    let words = inlines(check);
                    let text = blanks(&words);
                    // A label has room for one field: where there are more, the box is named by the words.
                    let item = match text == words {
                        true => format!("<li><label><input type=\"checkbox\"> {text}</label></li>"),
                        false => {
                            self.pictures += 1;
                            let id = format!("c{}", self.pictures);
                            format!(
                                "<li><input type=\"checkbox\" aria-labelledby=\"{id}\"> <span id=\"{id}\">{text}</span></li>"
                            )
                        }
                    };
                    self.line(&item);
                }
                self.line("</ul>");
            }
            Block::Cover {
                title,
                lead,
                picture,
                imprint,
            } => {
                self.line(&format!("<h1>{}</h1>", escape(title)));
                self.level = 1;
                self.blocks(lead);
                let picture = self.picture(picture);
                self.line(&format!("<figure>{picture}</figure>"));
                self.blocks(imprint);
            }
            Block::Fit(ways) => {
                if let Some(best) = ways.first() {
                    self.blocks(&best.blocks);
                    self.blocks(&best.after);
                }
            }
            Block::Turned(inner) => self.blocks(inner),
            Block::Card(inner) => self.wrapped("section", "card", inner),
            Block::Caution(inner) => self.wrapped("section", "caution", inner),
            Block::Columns(columns) => {
                self.line("<div class=\"columns\">");
                for (share, inner) in columns {
                    self.line(&format!("<div class=\"c{share:.0}\">"));
                    self.blocks(inner);
                    self.line("</div>");
                }
                self.line("</div>");
            }
        }
    }

    /// Boxes for rounds to tick off.
    fn ticks(&mut self, rounds: usize) {
        if rounds == 0 {
            return;
        }
        self.line(&format!(
            "<ul class=\"ticks\" aria-label=\"{}\">",
            labels::TO_TICK
        ));
        for round in 1..=rounds {
            self.line(&format!(
                "<li><label><input type=\"checkbox\"> {round}</label></li>"
            ));
        }
        self.line("</ul>");
    }

    fn wrapped(&mut self, tag: &str, class: &str, inner: &[Block]) {
        let class = if class.is_empty() {
            String::new()
        } else {
            format!(" class=\"{class}\"")
        };
        self.line(&format!("<{tag}{class}>"));
        self.blocks(inner);
        self.line(&format!("</{tag}>"));
    }

    fn list(&mut self, start: Option<u64>, items: &[Vec<Block>]) {
        let (open, close) = match start {
            Some(1) => ("<ol>".to_owned(), "</ol>"),
            Some(n) => (format!("<ol start=\"{n}\">"), "</ol>"),
            None => ("<ul>".to_owned(), "</ul>"),
        };
        self.line(&open);
        for item in items {
            self.out.push_str("<li>");
            match item.as_slice() {
                [Block::Paragraph(_, text)] => self.out.push_str(&inlines(text)),
                blocks => self.blocks(blocks),
            }
            self.line("</li>");
        }
        self.line(close);
    }
}

pub(super) fn inlines(list: &[Inline]) -> String {
    list.iter()
        .map(|inline| match inline {
            Inline::Text(text) => escape(text),
            Inline::Strong(inner) => format!("<strong>{}</strong>", inlines(inner)),
            Inline::Emphasis(inner) => format!("<em>{}</em>", inlines(inner)),
            Inline::Code(code) => format!("<code>{}</code>", escape(code)),
            Inline::Link { href, text } => {
                format!("<a href=\"{}\">{}</a>", escape(href), inlines(text))
            }
            Inline::Break => "<br>".to_owned(),
        })
        .collect()
}

/// Blanks to write in as fields: a screen has no pencil.
fn blanks(text: &str) -> String {
    let field = format!(
        "<input class=\"blank\" type=\"text\" size=\"5\" aria-label=\"{}\">",
        labels::TO_FILL_IN
    );
    text.replace(labels::BLANK, &field)
}
