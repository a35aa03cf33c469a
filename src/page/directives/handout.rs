//! Directives of a handout: front, measures, charts, rows in words, steps, cards.

use std::sync::Arc;

use crate::course::Units;
use crate::handout::{Handout, Print};
use crate::page::blocks::{Bar, Block, Directives, Inline, Setting, Step, Tone, parse};
use crate::page::directives::common::{below_level, common, inlines, markdown};
use crate::page::template::Templates;
use crate::picture::{self, Drawing, Paint};
use crate::words::pictures::measure_alt;
use crate::words::{Instruction, StripeLine, labels};

/// Directives of a handout.
#[derive(Clone, Copy, Debug)]
pub struct HandoutDirectives<'a> {
    pub(super) handout: &'a Handout<'a>,
    pub(super) templates: &'a Templates,
    /// Height of the pictures of a front page, in millimetres.
    pub(super) room: f64,
}

impl<'a> HandoutDirectives<'a> {
    /// For this handout.
    #[must_use]
    pub fn new(handout: &'a Handout<'a>, templates: &'a Templates) -> Self {
        Self {
            handout,
            templates,
            room: 68.0,
        }
    }

    pub(super) fn units(&self) -> Units {
        self.handout.wording.units()
    }

    /// A drawing as it is printed: in large print magnified.
    pub(super) fn shown(&self, drawing: Drawing) -> Drawing {
        shown(drawing, &self.handout.print)
    }

    fn measures(&self) -> Block {
        let bars = self.handout.measures.iter().map(|m| Bar {
            name: m.name.clone(),
            drawing: Arc::new(self.shown(picture::measure_bar(
                m.value,
                m.met,
                measure_alt(&m.name, m.value, m.met),
            ))),
            verdict: m.verdict.clone(),
            fact: m.fact.clone(),
        });
        let met = self.handout.measures.iter().any(|m| m.met.is_some());
        let mark = if met { labels::MET_BEFORE } else { "" };
        Block::Measures(bars.collect(), mark.to_owned())
    }

    /// The longest float and a line to check the printer by, at life size.
    pub(super) fn longest(&self) -> Option<Vec<Block>> {
        let longest = self.handout.longest.as_ref()?;
        // At life size in large print, too: only its words grow.
        let points = if self.handout.print.is_large() {
            18.0
        } else {
            11.0
        };
        let figure = |drawing: Drawing, caption: &str| Block::Figure {
            drawing: Arc::new(drawing),
            caption: inlines(caption),
            name: None,
        };
        let mut columns = vec![vec![figure(
            picture::life_size_float(
                longest.stitches,
                longest.pitch,
                Paint::Estuary,
                (points, self.units()),
            ),
            &longest.text,
        )]];
        if let Some((free, text)) = &longest.after {
            columns.push(vec![figure(
                picture::life_size_float(*free, longest.pitch, Paint::Mid, (points, self.units())),
                text,
            )]);
        }
        columns.push(vec![figure(
            picture::check_ruler(self.units()),
            &labels::check_line_caption(self.handout.print.binding, self.units()),
        )]);
        let mut blocks = vec![Block::Heading(
            3,
            vec![Inline::Text(labels::LONGEST.to_owned())],
        )];
        blocks.extend(columns.into_iter().flatten());
        Some(blocks)
    }

    fn step(&self, step: &Instruction) -> Step {
        let stripe = |line: &StripeLine| {
            let yarn = self.handout.yarns.get(line.yarn);
            let chip = yarn.map_or_else(Drawing::default, |yarn| self.chip(yarn.rgb));
            (Arc::new(chip), line.words.clone(), line.boxes)
        };
        Step {
            title: step.title.clone(),
            text: inlines(&step.text),
            boxes: step.boxes,
            stripes: step.stripes.iter().map(stripe).collect(),
        }
    }

    fn cards(&self) -> Vec<Block> {
        let words = &self.handout.wording.words();
        self.handout
            .cards
            .iter()
            .map(|(_, source)| {
                let text = self.templates.render_text(source, words);
                // A card's title stands below the heading of its section.
                let known = CardDirectives(&self.handout.print);
                Block::Card(below_level(parse(&text, &known), 3))
            })
            .collect()
    }
}

/// What a card knows: drawings of techniques, as they are printed.
struct CardDirectives<'a>(&'a Print);

impl Directives for CardDirectives<'_> {
    fn resolve(&self, name: &str, argument: &str, _: &str) -> Option<Vec<Block>> {
        let drawing = (name == "technique").then(|| picture::technique(argument))??;
        Some(vec![Block::Figure {
            drawing: Arc::new(shown(drawing, self.0)),
            caption: Vec::new(),
            name: None,
        }])
    }
}

/// A drawing as it is printed: in large print magnified.
pub(super) fn shown(drawing: Drawing, print: &Print) -> Drawing {
    if print.is_large() {
        drawing.magnified(picture::LARGE)
    } else {
        drawing
    }
}

impl Directives for HandoutDirectives<'_> {
    fn resolve(&self, name: &str, argument: &str, body: &str) -> Option<Vec<Block>> {
        let h = self.handout;
        if let Some(blocks) = common(self, name, argument, body) {
            return Some(blocks);
        }
        Some(match name {
            "front" => vec![Block::Front {
                number: h.number,
                of: h.of,
                title: h.title.clone(),
                lead: markdown(body, self),
                climb: Arc::new(picture::climb(&h.climb, h.number.saturating_sub(1))),
            }],
            "new" => {
                let things = h
                    .new
                    .iter()
                    .map(|n| (n.title.clone(), inlines(&n.text)))
                    .collect();
                vec![Block::New(inlines(&h.new_intro), things)]
            }
            "fabric" => self.fabric(),
            "ways" => {
                let rooms = argument.split_whitespace().filter_map(|n| n.parse().ok());
                let set = |room: f64| Setting {
                    blocks: markdown(body, &Self { room, ..*self }),
                    after: Vec::new(),
                    worth: room,
                    shrinks: false,
                };
                let mut ways: Vec<Setting> = rooms.map(set).collect();
                // Large print flows on.
                if h.print.is_large() {
                    ways.drain(..)
                        .next()
                        .map_or_else(Vec::new, |way| way.blocks)
                } else {
                    vec![Block::Fit(ways)]
                }
            }
            "piece" => self.piece(),
            "yoke" => self.yoke(),
            "measures" => vec![self.measures()],
            "sizes" => self.sizes_table(),
            "tables" => self.round_tables(&h.tables),
            "charts" => self.charts(&markdown(body, self)),
            "text" => below_level(parse(&h.text, <dyn Directives>::none().as_ref()), 3),
            "steps" => vec![Block::Steps(h.steps.iter().map(|s| self.step(s)).collect())],
            "cards" => self.cards(),
            "checks" => vec![Block::Checks(h.checks.iter().map(|c| inlines(c)).collect())],
            "cautions" => {
                let mut blocks = vec![Block::Heading(
                    3,
                    vec![Inline::Text(labels::TAKE_CARE.to_owned())],
                )];
                blocks.extend(
                    h.cautions
                        .iter()
                        .map(|c| Block::Paragraph(Tone::Body, inlines(c))),
                );
                vec![Block::Caution(blocks)]
            }
            _ => return None,
        })
    }
}
