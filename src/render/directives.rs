//! What the fenced blocks of templates stand for, in a handout and in the course plan.

use std::collections::BTreeMap;
use std::sync::Arc;

use serde::Serialize;

use crate::handout::{CoursePlan, Handout};
use crate::lesson::Units;
use crate::picture::{self, Drawing, Paint, Path, Stroke, parts_of, swatch_chip, symbol_order};
use crate::render::blocks::{Align, Bar, Block, Cell, Directives, Inline, Tone, parse};
use crate::render::template::Templates;
use crate::units::{Length, plain_number};

/// Height that a chart may take on a page of its own, in millimetres: the content box less title and reading line.
const CHART_HEIGHT: f64 = 185.0;

/// Blocks of a text in which nothing is a directive but what `outer` knows.
fn markdown(text: &str, outer: &dyn Directives) -> Vec<Block> {
    parse(text, outer)
}

/// The running text of a one-paragraph Markdown.
fn inlines(text: &str) -> Vec<Inline> {
    let none = <dyn Directives>::none();
    parse(text, none.as_ref())
        .into_iter()
        .flat_map(|block| match block {
            Block::Paragraph(_, inlines) => inlines,
            _ => Vec::new(),
        })
        .collect()
}

/// A length in the course's units: `52 cm`, `20.5 in`, or both.
fn length(length: Length, units: Units) -> String {
    let cm = plain_number(length.to_cm(), 0);
    let inches = plain_number((length.to_mm() / 25.4 * 2.0).round() / 2.0, 1);
    match units {
        Units::Metric => cm,
        Units::Imperial => inches,
        Units::Both => format!("{cm} / {inches}"),
    }
}

fn unit_name(units: Units) -> &'static str {
    match units {
        Units::Metric => "cm",
        Units::Imperial => "in",
        Units::Both => "cm / in",
    }
}

/// Directives that every document knows: layout, small print, boxes.
fn common(outer: &dyn Directives, name: &str, argument: &str, body: &str) -> Option<Vec<Block>> {
    Some(match name {
        "page" => vec![Block::Page(argument.parse().unwrap_or(0))],
        "small" => markdown(body, outer)
            .into_iter()
            .map(|block| match block {
                Block::Paragraph(_, inlines) => Block::Paragraph(Tone::Small, inlines),
                other => other,
            })
            .collect(),
        "caution" => {
            let mut blocks = Vec::new();
            if !argument.is_empty() {
                blocks.push(Block::Heading(3, vec![Inline::Text(argument.to_owned())]));
            }
            blocks.extend(markdown(body, outer));
            vec![Block::Caution(blocks)]
        }
        "columns" => {
            let shares: Vec<u8> = argument.split_whitespace().filter_map(|n| n.parse().ok()).collect();
            let parts = split_columns(body);
            let equal = 12 / u8::try_from(parts.len().clamp(1, 12)).unwrap_or(1);
            let columns = parts.iter().enumerate().map(|(i, part)| {
                let share = shares.get(i).copied().unwrap_or(equal).clamp(1, 12);
                (share, markdown(part, outer))
            });
            vec![Block::Columns(columns.collect())]
        }
        _ => return None,
    })
}

/// Parts of a `columns` block, divided by lines of `+++` that stand outside inner fences.
fn split_columns(body: &str) -> Vec<String> {
    let mut parts = vec![String::new()];
    let mut fenced = false;
    for line in body.lines() {
        if line.trim_start().starts_with("```") {
            fenced = !fenced;
        }
        if line.trim() == "+++" && !fenced {
            parts.push(String::new());
        } else if let Some(last) = parts.last_mut() {
            last.push_str(line);
            last.push('\n');
        }
    }
    parts
}

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
    sizes_line: String,
    size_note: String,
    tool: String,
    charts: Vec<ChartFields>,
    line: String,
    rights: String,
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
    handout: &'a Handout<'a>,
    templates: &'a Templates,
    words: &'a BTreeMap<&'static str, &'static str>,
    units: Units,
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
        Self { handout, templates, words, units }
    }

    /// The handout's blocks, from its template.
    ///
    /// # Errors
    /// When the template cannot be rendered.
    pub fn blocks(&self) -> Result<Vec<Block>, crate::render::TemplateError> {
        let h = self.handout;
        let labels: Vec<&str> = h.sizes.iter().map(|s| s.label.as_str()).collect();
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
            sizes: !h.sizes.is_empty(),
            sizes_line,
            size_note: if sources.is_empty() { String::new() } else { format!("Body measures: {}.", sources.join("; ")) },
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
            number: h.number,
            of: h.of,
        };
        let text = self.templates.render("handout.md", &fields, self.words)?;
        Ok(parse(&text, self))
    }

    fn chip(&self, rgb: [u8; 3]) -> Drawing {
        let colours: Vec<[u8; 3]> = self.handout.yarns.iter().map(|y| y.rgb).collect();
        let symbols = symbol_order(&colours);
        let place = colours.iter().position(|c| *c == rgb).unwrap_or(0);
        symbols.get(place).map_or_else(Drawing::default, |s| swatch_chip(rgb, *s, (6.5, 3.8), true, ""))
    }

    fn sizes_table(&self) -> Block {
        let unit = unit_name(self.units);
        let body = self.handout.sizes.first().map_or("body", |s| s.body.0);
        let has_repeats = self.handout.sizes.iter().any(|s| s.repeats > 1);
        let mut head =
            vec!["Size".to_owned(), format!("To fit {body} {unit}"), format!("Comes out {unit}"), self.handout.count_name.to_owned()];
        if has_repeats {
            head.push("Repeats".to_owned());
        }
        let rows = self.handout.sizes.iter().map(|s| {
            let mut cells = vec![
                s.label.clone(),
                length(s.body.1, self.units),
                length(s.finished, self.units),
                s.stitches.to_string(),
            ];
            if has_repeats {
                cells.push(s.repeats.to_string());
            }
            cells.into_iter().map(Cell::words).collect()
        });
        let mut align = vec![Align::Right; head.len()];
        align[0] = Align::Left;
        Block::Table { rows: rows.collect(), head: head.into_iter().map(Cell::words).collect(), align }
    }

    fn yarn_table(&self) -> Block {
        let rows = self.handout.yarns.iter().map(|yarn| {
            let chip = Some(Arc::new(self.chip(yarn.rgb)));
            vec![Cell { chip, text: vec![Inline::Text(yarn.name.clone())] }, Cell::words(yarn.role.clone())]
        });
        Block::Table {
            head: vec![Cell::words("Colour"), Cell::words("Its part")],
            rows: rows.collect(),
            align: vec![Align::Left, Align::Left],
        }
    }

    fn chart(&self, number: &str) -> Option<Vec<Block>> {
        let index = number.parse::<usize>().ok()?.checked_sub(1)?;
        let sheet = self.handout.charts.get(index)?;
        let picture = sheet.picture.as_ref()?;
        let parts = parts_of(picture, CHART_HEIGHT);
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
                    let name = if many { format!("chart-{}-{}", sheet.id, i + 1) } else { format!("chart-{}", sheet.id) };
                    Block::Figure {
                        drawing: Arc::new(picture.draw(part)),
                        caption: if caption.is_empty() { Vec::new() } else { vec![Inline::Text(caption)] },
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
            items.push((Arc::new(swatch_chip(look.rgb, *symbol, (8.75, 6.73), true, "")), look.name.clone()));
        }
        if sheet.has_catches {
            items.push((Arc::new(staple_chip()), "catch the float here".to_owned()));
        }
        Some(vec![Block::Legend(items)])
    }

    fn measures(&self) -> Block {
        let bars = self.handout.measures.iter().map(|m| {
            let asked = plain_number(m.value * 100.0, 0);
            let met = m.met.map(|v| format!(", the most met before {}", plain_number(v * 100.0, 0))).unwrap_or_default();
            Bar {
                name: m.name.to_owned(),
                drawing: Arc::new(picture::measure_bar(m.value, m.met, format!("{}: {asked} of 100{met}", m.name))),
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
            columns.push(vec![figure(picture::life_size_float(*free, longest.pitch, Paint::Mid), text)]);
        }
        columns.push(vec![figure(
            picture::check_ruler(),
            "Printed right? This line is 50 mm long. If not, print again at 100 %.",
        )]);
        let share = if columns.len() == 3 { 4 } else { 6 };
        Some(vec![Block::Columns(columns.into_iter().map(|blocks| (share, blocks)).collect())])
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

/// Millimetres that a chart needs: title, picture, legend, rows in words (about three and a half a row in two columns).
fn room(sheet: &crate::handout::ChartSheet<'_>) -> u32 {
    let Some(picture) = &sheet.picture else { return 40 };
    let height = parts_of(picture, CHART_HEIGHT).first().map_or(0.0, |part| picture.draw(part).height);
    let needed = 60.0 + height + 3.5 * sheet.rows.len() as f64;
    needed.min(230.0) as u32
}

/// Headings moved down so that none stands above `least`.
fn below_level(blocks: Vec<Block>, least: u8) -> Vec<Block> {
    blocks
        .into_iter()
        .map(|block| match block {
            Block::Heading(level, text) => Block::Heading(level.max(least), text),
            other => other,
        })
        .collect()
}

/// A catch mark for a legend.
fn staple_chip() -> Drawing {
    let mut drawing = Drawing::new(8.75, 6.73, "");
    drawing.line(Path::line(&[(0.6, 5.4), (8.1, 5.4)]), Stroke::new(Paint::Buoy, 0.45));
    drawing.line(crate::picture::staple((4.4, 5.4), 3.3), Stroke::new(Paint::Buoy, 0.9));
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
                let things = h.new.iter().map(|n| (n.title.clone(), inlines(&n.text))).collect();
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
            "yarn" => vec![self.yarn_table()],
            "chart" => self.chart(argument)?,
            "legend" => self.legend(argument)?,
            "rows" => {
                let index = argument.parse::<usize>().ok()?.checked_sub(1)?;
                vec![Block::Rows(h.charts.get(index)?.rows.clone())]
            }
            "longest" => self.longest().unwrap_or_default(),
            "text" => below_level(parse(&h.text, <dyn Directives>::none().as_ref()), 3),
            "steps" => vec![Block::Steps(h.steps.iter().map(|s| (s.title.clone(), inlines(&s.text))).collect())],
            "cards" => self.cards(),
            "checks" => vec![Block::Checks(h.checks.iter().map(|c| inlines(c)).collect())],
            "cautions" => {
                let mut blocks = vec![Block::Heading(3, vec![Inline::Text("Take care".to_owned())])];
                blocks.extend(h.cautions.iter().map(|c| Block::Paragraph(Tone::Body, inlines(c))));
                vec![Block::Caution(blocks)]
            }
            _ => return None,
        })
    }
}

/// Directives of the course plan; links lead to handouts from `index.html`, not in print.
#[derive(Debug)]
pub struct CourseDirectives<'a> {
    plan: &'a CoursePlan,
    /// For each lesson in order, where a link leads; empty in print.
    links: Vec<String>,
    /// For each lesson its first page; empty where there are no pages.
    pages: Vec<usize>,
}

impl<'a> CourseDirectives<'a> {
    /// For this plan; `links` lead to the lessons, `pages` are their first pages in print.
    #[must_use]
    pub fn new(plan: &'a CoursePlan, links: Vec<String>, pages: Vec<usize>) -> Self {
        Self { plan, links, pages }
    }

    /// The blocks of a template (`course.md` or `index.md`).
    ///
    /// # Errors
    /// When the template cannot be rendered.
    pub fn blocks(
        &self,
        templates: &Templates,
        name: &str,
        words: &BTreeMap<&'static str, &'static str>,
    ) -> Result<Vec<Block>, crate::render::TemplateError> {
        #[derive(Serialize)]
        struct Fields<'a> {
            title: &'a str,
            guild: &'a Option<String>,
            lessons: Vec<&'a str>,
            largest: &'a Option<(String, usize, String)>,
        }
        let fields = Fields {
            title: &self.plan.title,
            guild: &self.plan.guild,
            lessons: self.plan.lessons.iter().map(|l| l.title.as_str()).collect(),
            largest: &self.plan.largest,
        };
        let text = templates.render(name, &fields, words)?;
        Ok(parse(&text, self))
    }

    fn contents(&self) -> Block {
        let rows = self.plan.lessons.iter().enumerate().map(|(i, lesson)| {
            let words = Inline::Text(lesson.title.clone());
            let title = match self.links.get(i) {
                Some(href) => Inline::Link { href: href.clone(), text: vec![words] },
                None => words,
            };
            let mut cells = vec![
                Cell::words(lesson.number.to_string()),
                Cell { chip: None, text: vec![title] },
                Cell::words(lesson.level),
                Cell::words(lesson.grade.clone()),
                Cell::words(lesson.step.clone()),
                Cell::words(lesson.new.join(", ")),
            ];
            cells.extend(self.pages.get(i).map(|page| Cell::words(page.to_string())));
            cells
        });
        let mut head = ["No.", "Lesson", "Level", "How hard", "Step", "What is new"].map(Cell::words).to_vec();
        let mut align = vec![Align::Right, Align::Left, Align::Left, Align::Right, Align::Right, Align::Left];
        if !self.pages.is_empty() {
            head.push(Cell::words("Page"));
            align.push(Align::Right);
        }
        Block::Table { head, rows: rows.collect(), align }
    }

    fn skills(&self) -> Block {
        let first = Arc::new(skill_mark(true));
        let again = Arc::new(skill_mark(false));
        let head = std::iter::once(Cell::words("Skill"))
            .chain(self.plan.lessons.iter().map(|l| Cell::words(l.number.to_string())));
        let rows = self.plan.skills.iter().map(|skill| {
            let cells = skill.met.iter().map(|met| match met {
                None => Cell::default(),
                Some(is_first) => {
                    Cell { chip: Some(if *is_first { &first } else { &again }.clone()), text: Vec::new() }
                }
            });
            std::iter::once(Cell::words(skill.title.clone())).chain(cells).collect()
        });
        let mut align = vec![Align::Centre; self.plan.lessons.len() + 1];
        align[0] = Align::Left;
        Block::Table { head: head.collect(), rows: rows.collect(), align }
    }

    fn shopping(&self) -> Block {
        let rows = self.plan.yarns.iter().map(|(name, rgb, lessons)| {
            let mut chip = Drawing::new(6.5, 3.8, "");
            chip.fill(Path::rect(0.0, 0.0, 6.5, 3.8), Paint::Yarn(*rgb));
            chip.line(Path::rect(0.0, 0.0, 6.5, 3.8), Stroke::new(Paint::Ink, 0.35));
            let lessons: Vec<String> = lessons.iter().map(usize::to_string).collect();
            vec![
                Cell { chip: Some(Arc::new(chip)), text: vec![Inline::Text(name.clone())] },
                Cell::words(lessons.join(", ")),
            ]
        });
        Block::Table {
            head: vec![Cell::words("Colour"), Cell::words("In lessons")],
            rows: rows.collect(),
            align: vec![Align::Left, Align::Left],
        }
    }
}

/// A filled square (first met) or a ring (practised).
fn skill_mark(first: bool) -> Drawing {
    let alt = if first { "met for the first time" } else { "practised again" };
    let mut drawing = Drawing::new(3.8, 3.8, alt);
    if first {
        drawing.fill(Path::rect(0.0, 0.0, 3.8, 3.8), Paint::Estuary);
    } else {
        drawing.line(Path::circle(1.9, 1.9, 1.05), Stroke::new(Paint::Ink, 0.4));
    }
    drawing
}

impl Directives for CourseDirectives<'_> {
    fn resolve(&self, name: &str, argument: &str, body: &str) -> Option<Vec<Block>> {
        if let Some(blocks) = common(self, name, argument, body) {
            return Some(blocks);
        }
        Some(match name {
            "ladder" => vec![Block::Figure {
                drawing: Arc::new(picture::ladder(&self.plan.ladder, self.plan.levels)),
                caption: Vec::new(),
                name: None,
            }],
            "contents" => vec![self.contents()],
            "skills" => vec![self.skills()],
            "shopping" => vec![self.shopping()],
            _ => return None,
        })
    }
}
