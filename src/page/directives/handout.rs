//! Directives of a handout: front, measures, charts, rows in words, steps, cards.

use std::sync::Arc;

use crate::course::Units;
use crate::handout::{Handout, Print};
use crate::page::blocks::{Bar, Block, Directives, Inline, Setting, Step, Tone, parse};
use crate::page::directives::common::{below_level, common, in_one_column, inlines, markdown};
use crate::page::template::Templates;
use crate::picture::{self, Drawing, Paint, WIDEST};
use crate::words::pictures::measure_alt;
use crate::words::{Instruction, StripeLine, labels};

/// Directives of a handout.
#[derive(Clone, Copy, Debug)]
pub struct HandoutDirectives<'a> {
    pub(super) handout: &'a Handout<'a>,
    pub(super) templates: &'a Templates,
    /// Height of the pictures of a front page, in millimetres.
    pub(super) room: f64,
    /// How much of their greatest height pictures of a front page in large print have.
    pub(super) share: f64,
}

/// Shares of the usual height that are tried for each picture of a front page in large print.
const SHARES: [f64; 8] = [1.25, 1.12, 1.0, 0.9, 0.8, 0.7, 0.6, 0.5];

impl<'a> HandoutDirectives<'a> {
    /// For this handout.
    #[must_use]
    pub fn new(handout: &'a Handout<'a>, templates: &'a Templates) -> Self {
        Self {
            handout,
            templates,
            room: 68.0,
            share: 1.0,
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
            vec![Inline::Text(
                labels::longest_heading(self.handout.print.binding).to_owned(),
            )],
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

    /// In large print parts of a front page flow on, each picture as large as the page has room for.
    fn flowing(&self, room: f64, body: &str) -> Vec<Block> {
        let tries = SHARES.map(|share| {
            let known = Self {
                room,
                share,
                ..*self
            };
            in_one_column(markdown(body, &known))
        });
        // Measures, which run on, fill the page on which what is new stands; pictures follow them.
        let mut largest: Vec<(usize, &Block)> = tries[0].iter().enumerate().collect();
        let measures = |block: &Block| matches!(block, Block::Measures(..));
        let end = largest.iter().position(|(_, block)| measures(block));
        if let Some(end) = end {
            largest[..=end].sort_by_key(|(_, block)| matches!(block, Block::Figure { .. }));
        }
        let fitted = largest.into_iter().map(|(i, block)| match block {
            Block::Figure { .. } => {
                let smaller = tries.iter().zip(SHARES);
                let set = |(blocks, share): (&Vec<Block>, f64)| {
                    // As a chart's cells shrink, so does a picture, where that saves a page.
                    let setting =
                        Setting::new(vec![blocks.get(i)?.clone()], share.min(1.0) * WIDEST);
                    Some(Setting {
                        shrinks: true,
                        ..setting
                    })
                };
                Block::Fit(smaller.filter_map(set).collect())
            }
            _ => block.clone(),
        });
        fitted.collect()
    }

    fn cards(&self) -> Vec<Block> {
        let words = &self.handout.wording.words();
        self.handout
            .cards
            .iter()
            .map(|(_, source)| {
                // `proof` has told of a card that is no template; its words are still of use.
                let text = self.templates.render_text(source, words);
                let text = text.unwrap_or_else(|_| source.to_string());
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
            drawing: Arc::new(legible(drawing, self.0)),
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

/// A drawing with words as it is printed: in large print magnified until they can be read.
pub(super) fn legible(drawing: Drawing, print: &Print) -> Drawing {
    if print.is_large() {
        drawing.magnified(picture::LARGE_WORDS)
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
                let rooms: Vec<f64> = rooms.collect();
                if h.print.is_large() {
                    self.flowing(rooms.first().copied().unwrap_or(self.room), body)
                } else {
                    let set =
                        |room: f64| Setting::new(markdown(body, &Self { room, ..*self }), room);
                    vec![Block::Fit(rooms.into_iter().map(set).collect())]
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
