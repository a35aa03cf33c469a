//! Directives of a handout: front, measures, charts, rows in words, steps, cards.

use std::sync::Arc;

use crate::course::Units;
use crate::handout::{Handout, Print};
use crate::page::blocks::{Bar, Block, Directives, Inline, Tone, parse};
use crate::page::directives::common::{below_level, common, inlines, markdown};
use crate::page::template::Templates;
use crate::picture::{self, Drawing, Paint, Path, Stroke, parts_of, swatch_chip, symbol_order};
use crate::words::pictures::measure_alt;
use crate::words::{labels, mark_name};

/// Directives of a handout.
#[derive(Debug)]
pub struct HandoutDirectives<'a> {
    pub(super) handout: &'a Handout<'a>,
    pub(super) templates: &'a Templates,
}

impl<'a> HandoutDirectives<'a> {
    /// For this handout.
    #[must_use]
    pub fn new(handout: &'a Handout<'a>, templates: &'a Templates) -> Self {
        Self { handout, templates }
    }

    pub(super) fn units(&self) -> Units {
        self.handout.wording.units()
    }

    fn chart(&self, number: &str) -> Option<Vec<Block>> {
        let index = number.parse::<usize>().ok()?.checked_sub(1)?;
        let sheet = self.handout.charts.get(index)?;
        let picture = sheet.picture.as_ref()?;
        let parts = parts_of(picture);
        let many = parts.len() > 1;
        Some(
            parts
                .iter()
                .enumerate()
                .flat_map(|(i, part)| {
                    let caption = many.then(|| {
                        labels::part_caption(
                            (i + 1, parts.len()),
                            (part.rows.start + 1, part.rows.end),
                            (part.columns.start + 1, part.columns.end),
                            self.handout.line,
                        )
                    });
                    let name = if many {
                        format!("chart-{}-{}", sheet.id, i + 1)
                    } else {
                        format!("chart-{}", sheet.id)
                    };
                    let figure = Block::Figure {
                        drawing: Arc::new(picture.draw(part)),
                        caption: caption.map(Inline::Text).into_iter().collect(),
                        name: Some(name),
                    };
                    // Each part has its key; that of the last one stands where the template puts it.
                    let key = (i + 1 < parts.len()).then(|| self.legend(number));
                    let key = key.flatten().unwrap_or_default();
                    std::iter::once(figure).chain(key).collect::<Vec<Block>>()
                })
                .collect(),
        )
    }

    fn legend(&self, number: &str) -> Option<Vec<Block>> {
        let index = number.parse::<usize>().ok()?.checked_sub(1)?;
        let sheet = self.handout.charts.get(index)?;
        let picture = sheet.picture.as_ref()?;
        let colours: Vec<_> = picture.looks.iter().map(|l| l.rgb).collect();
        let symbols = symbol_order(&colours);
        let mut items: Vec<(Arc<Drawing>, String)> = Vec::new();
        for (look, symbol) in picture.looks.iter().zip(&symbols) {
            items.push((
                Arc::new(self.shown(swatch_chip(
                    look.rgb,
                    *symbol,
                    (8.75, 6.73),
                    !self.handout.print.is_black(),
                    "",
                ))),
                look.name.clone(),
            ));
        }
        for mark in picture.chart.marks_used() {
            let chip = Arc::new(self.shown(picture::mark_chip(mark, (8.75, 6.73))));
            items.extend(mark_name(mark, &self.handout.leans).map(|name| (chip, name)));
        }
        if sheet.has_catches {
            items.push((
                Arc::new(self.shown(staple_chip())),
                labels::CATCH_HERE.to_owned(),
            ));
        }
        Some(vec![Block::Legend(items)])
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
        Block::Measures(bars.collect())
    }

    fn longest(&self) -> Option<Vec<Block>> {
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
        // A third of the page is 56 mm wide; a longer float takes a line of its own.
        let mut blocks = Vec::new();
        if longest.stitches as f64 * longest.pitch > 55.0 {
            blocks.append(&mut columns.remove(0));
        }
        let share = if columns.len() == 3 { 4 } else { 6 };
        blocks.push(Block::Columns(
            columns.into_iter().map(|inner| (share, inner)).collect(),
        ));
        Some(blocks)
    }

    fn cards(&self) -> Vec<Block> {
        let words = &self.handout.wording.words();
        self.handout
            .cards
            .iter()
            .map(|(_, source)| {
                let text = self.templates.render_text(source, words);
                let none = <dyn Directives>::none();
                // A card's title stands below the heading of its section.
                Block::Card(below_level(parse(&text, none.as_ref()), 3))
            })
            .collect()
    }
}

/// How much larger than life the fabric is in large print: as wide as the page.
const FABRIC_GLASS: f64 = 1.8;

/// A drawing as it is printed: in large print magnified.
pub(super) fn shown(drawing: Drawing, print: &Print) -> Drawing {
    if print.is_large() {
        drawing.magnified(picture::LARGE)
    } else {
        drawing
    }
}

/// A catch mark for a legend.
fn staple_chip() -> Drawing {
    let mut drawing = Drawing::new(8.75, 6.73, "");
    drawing.line(
        Path::line(&[(0.6, 5.4), (8.1, 5.4)]),
        Stroke::new(Paint::Buoy, 0.45),
    );
    drawing.line(
        crate::picture::staple((4.4, 5.4), 3.3),
        Stroke::new(Paint::Buoy, 0.9),
    );
    drawing
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
            "fabric" => match &h.fabric {
                Some(fabric) if h.print.is_large() => vec![Block::Figure {
                    drawing: Arc::new(picture::cloth(fabric).magnified(FABRIC_GLASS)),
                    caption: inlines(&labels::magnified_caption(FABRIC_GLASS)),
                    name: None,
                }],
                Some(fabric) => vec![Block::Figure {
                    drawing: Arc::new(picture::fabric(fabric, self.units())),
                    caption: inlines(&h.fabric_note),
                    name: None,
                }],
                None => Vec::new(),
            },
            "piece" => self.piece(),
            "yoke" => self.yoke(),
            "measures" => vec![self.measures()],
            "sizes" => vec![self.sizes_table()],
            "tables" => self.round_tables(&h.tables),
            "measured" => self.round_tables(&h.measured),
            "yarn" => vec![self.yarn_table()],
            "ticks" => vec![Block::Ticks(h.ticks.clone())],
            "chart" => self.chart(argument)?,
            "legend" => self.legend(argument)?,
            "rows" => {
                let index = argument.parse::<usize>().ok()?.checked_sub(1)?;
                vec![Block::Rows(h.charts.get(index)?.rows.clone())]
            }
            "longest" => self.longest().unwrap_or_default(),
            "text" => below_level(parse(&h.text, <dyn Directives>::none().as_ref()), 3),
            "steps" => vec![Block::Steps(
                h.steps
                    .iter()
                    .map(|s| (s.title.clone(), inlines(&s.text)))
                    .collect(),
            )],
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
