//! Directives of a handout: front, measures, charts, rows in words, steps, cards.

use std::collections::BTreeMap;
use std::sync::Arc;

use serde::Serialize;

use crate::handout::Handout;
use crate::lesson::Units;
use crate::picture::{self, Drawing, Paint, Path, Stroke, parts_of, swatch_chip, symbol_order};
use crate::render::blocks::{Bar, Block, Directives, Inline, Tone, parse};
use crate::render::directives::{below_level, common, inlines, markdown};
use crate::render::template::Templates;
use crate::units::plain_number;

/// What a handout template can say without a directive.
#[derive(Serialize)]
struct HandoutFields {
    title: String,
    lead: String,
    level: String,
    grade: String,
    measure_first: String,
    tools: String,
    has_fabric: bool,
    has_longest: bool,
    sizes: bool,
    size_notes: Vec<String>,
    has_tables: bool,
    sizes_line: String,
    size_note: String,
    tool: String,
    charts: Vec<ChartFields>,
    line: String,
    rights: String,
    abbreviations: String,
    number: usize,
    of: usize,
}

#[derive(Serialize)]
struct ChartFields {
    title: String,
    printable: bool,
    /// Millimetres that the chart needs with all that belongs to it.
    room: u32,
    reading: String,
    rights: String,
}

/// Directives of a handout.
#[derive(Debug)]
pub struct HandoutDirectives<'a> {
    pub(super) handout: &'a Handout<'a>,
    templates: &'a Templates,
    words: &'a BTreeMap<&'static str, &'static str>,
    pub(super) units: Units,
}

impl<'a> HandoutDirectives<'a> {
    /// For this handout.
    #[must_use]
    pub fn new(
        handout: &'a Handout<'a>,
        templates: &'a Templates,
        words: &'a BTreeMap<&'static str, &'static str>,
        units: Units,
    ) -> Self {
        Self {
            handout,
            templates,
            words,
            units,
        }
    }

    /// The handout's blocks, from its template.
    ///
    /// # Errors
    /// When the template cannot be rendered.
    pub fn blocks(&self) -> Result<Vec<Block>, crate::render::TemplateError> {
        let h = self.handout;
        let labels: Vec<&str> = h
            .pieces
            .iter()
            .filter_map(|piece| piece.size.as_ref())
            .map(|size| size.label.as_str())
            .collect();
        let sizes_line = match labels.as_slice() {
            [] | [_] => String::new(),
            [first, rest @ ..] => format!("{first} ({})", rest.join(", ")),
        };
        let sources: Vec<&str> = h.size_sources.iter().map(|s| s.name()).collect();
        let fields = HandoutFields {
            title: h.title.clone(),
            lead: h.lead.clone(),
            level: h.level.to_owned(),
            grade: h.grade.clone(),
            measure_first: h.measure_first.clone(),
            tools: h.tools.clone(),
            has_fabric: h.fabric.is_some(),
            has_longest: h.longest.is_some() && h.charts.iter().all(|c| c.picture.is_some()),
            sizes: !h.fits.is_empty(),
            size_notes: h.size_notes.clone(),
            has_tables: !h.tables.is_empty(),
            sizes_line,
            size_note: if sources.is_empty() {
                String::new()
            } else {
                let neutral = h.pieces.iter().any(|piece| {
                    let size = piece.size.as_ref();
                    size.is_some_and(|size| size.id.starts_with("adult"))
                });
                let what = if neutral {
                    " Adult small, medium and large are the 15th, 50th and 85th percentile, the mean of women and men."
                } else {
                    ""
                };
                format!("Body measures: {}.{what}", sources.join("; "))
            },
            tool: h.tool.to_owned(),
            charts: h
                .charts
                .iter()
                .map(|c| ChartFields {
                    title: c.title.clone(),
                    printable: c.picture.is_some(),
                    room: room(c),
                    reading: c.reading.clone(),
                    rights: c.rights.clone(),
                })
                .collect(),
            line: h.line.to_owned(),
            rights: h.rights.clone(),
            abbreviations: h.abbreviations.clone(),
            number: h.number,
            of: h.of,
        };
        let text = self.templates.render("handout.md", &fields, self.words)?;
        Ok(parse(&text, self))
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
                .map(|(i, part)| {
                    let caption = if many {
                        format!(
                            "Part {} of {}: {line}s {} to {}, stitches {} to {}.",
                            i + 1,
                            parts.len(),
                            part.rows.start + 1,
                            part.rows.end,
                            part.columns.start + 1,
                            part.columns.end,
                            line = self.handout.line
                        )
                    } else {
                        String::new()
                    };
                    let name = if many {
                        format!("chart-{}-{}", sheet.id, i + 1)
                    } else {
                        format!("chart-{}", sheet.id)
                    };
                    Block::Figure {
                        drawing: Arc::new(picture.draw(part)),
                        caption: if caption.is_empty() {
                            Vec::new()
                        } else {
                            vec![Inline::Text(caption)]
                        },
                        name: Some(name),
                    }
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
                Arc::new(swatch_chip(
                    look.rgb,
                    *symbol,
                    (8.75, 6.73),
                    self.handout.fills,
                    "",
                )),
                look.name.clone(),
            ));
        }
        if sheet.has_catches {
            items.push((Arc::new(staple_chip()), "catch the float here".to_owned()));
        }
        Some(vec![Block::Legend(items)])
    }

    fn measures(&self) -> Block {
        let bars = self.handout.measures.iter().map(|m| {
            let asked = plain_number(m.value * 100.0, 0);
            let met = m
                .met
                .map(|v| format!(", the most met before {}", plain_number(v * 100.0, 0)))
                .unwrap_or_default();
            Bar {
                name: m.name.to_owned(),
                drawing: Arc::new(picture::measure_bar(
                    m.value,
                    m.met,
                    format!("{}: {asked} of 100{met}", m.name),
                )),
                verdict: m.verdict.clone(),
                fact: m.fact.clone(),
            }
        });
        Block::Measures(bars.collect())
    }

    fn longest(&self) -> Option<Vec<Block>> {
        let longest = self.handout.longest.as_ref()?;
        let figure = |drawing: Drawing, caption: &str| Block::Figure {
            drawing: Arc::new(drawing),
            caption: inlines(caption),
            name: None,
        };
        let mut columns = vec![vec![figure(
            picture::life_size_float(longest.stitches, longest.pitch, Paint::Estuary),
            &longest.text,
        )]];
        if let Some((free, text)) = &longest.after {
            columns.push(vec![figure(
                picture::life_size_float(*free, longest.pitch, Paint::Mid),
                text,
            )]);
        }
        columns.push(vec![figure(
            picture::check_ruler(),
            "Printed right? This line is 50 mm long. If not, print again at 100 %.",
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
        self.handout
            .cards
            .iter()
            .map(|(_, source)| {
                let text = self.templates.render_text(source, self.words);
                let none = <dyn Directives>::none();
                // A card's title stands below the heading of its section.
                Block::Card(below_level(parse(&text, none.as_ref()), 3))
            })
            .collect()
    }
}

/// Millimetres that a chart needs: title, reading line, picture, legend. Its rows in words may go on overleaf.
fn room(sheet: &crate::handout::ChartSheet<'_>) -> u32 {
    let Some(picture) = &sheet.picture else {
        return 40;
    };
    let height = parts_of(picture)
        .first()
        .map_or(0.0, |part| picture.draw(part).height);
    let needed = 45.0 + height;
    needed.min(230.0) as u32
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
                Some(fabric) => vec![Block::Figure {
                    drawing: Arc::new(picture::fabric(fabric)),
                    caption: inlines(&h.fabric_note),
                    name: None,
                }],
                None => Vec::new(),
            },
            "measures" => vec![self.measures()],
            "sizes" => vec![self.sizes_table()],
            "tables" => self.round_tables(),
            "yarn" => vec![self.yarn_table()],
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
                    vec![Inline::Text("Take care".to_owned())],
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
