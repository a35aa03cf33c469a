//! Directives of the course plan: ladder, contents, skills, shopping.

use std::sync::Arc;

use serde::Serialize;

use crate::handout::{CoursePlan, Meeting, SkillRow, Teaching};
use crate::page::blocks::{Align, Block, Cell, Directives, Inline, Setting, Table, Tone, parse};
use crate::page::directives::common::{common, markdown};
use crate::page::template::Templates;
use crate::picture::{self, Drawing, Paint, Path, Stroke};
use crate::words::pictures::{skill_alt, strata_alt, whole_climb_alt};
use crate::words::{Wording, hours_range, labels, plan_text};

/// Directives of the course plan; links lead to handouts from `index.html`, not in print.
#[derive(Debug)]
pub struct CourseDirectives<'a> {
    pub(super) plan: &'a CoursePlan,
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
    ) -> Result<Vec<Block>, crate::page::TemplateError> {
        let words = &self.plan.wording.words();
        #[derive(Serialize)]
        struct Fields<'a> {
            title: &'a str,
            guild: &'a Option<String>,
            lessons: Vec<&'a str>,
            footer: &'a Option<String>,
            largest: &'a Option<(String, usize, String)>,
            learners: Option<u32>,
            class_hours: bool,
            skill_marks: bool,
            meetings: &'a [Meeting],
            teaching: Vec<Teaching>,
            kit: &'a [String],
            plan: String,
            named: bool,
            quiz: bool,
            first_steps: bool,
            yarns: bool,
            rates: &'a str,
            stops: bool,
        }
        let over = self.plan.meetings.iter().filter(|meeting| !meeting.fits);
        let over: Vec<usize> = over.map(|meeting| meeting.number).collect();
        let fields = Fields {
            title: &self.plan.title,
            guild: &self.plan.guild,
            lessons: self.plan.lessons.iter().map(|l| l.title.as_str()).collect(),
            footer: &self.plan.footer,
            largest: &self.plan.largest,
            yarns: !self.plan.yarns.is_empty(),
            rates: &self.plan.rates,
            stops: self.plan.meetings.iter().any(|meeting| meeting.stops),
            learners: self.plan.learners,
            class_hours: self.plan.class_hours.is_some(),
            skill_marks: self.has_skill_marks(),
            meetings: &self.plan.meetings,
            teaching: self.teaching(templates, words),
            kit: &self.plan.kit,
            plan: plan_text(&over),
            named: !self.plan.register.is_empty(),
            first_steps: self.plan.first_steps,
            quiz: !self.plan.quiz.questions.is_empty(),
        };
        let text = templates.render(name, &fields, words)?;
        Ok(parse(&text, self))
    }

    /// The cover: what stands before `+++` under the title, what stands after it at the foot.
    fn cover(&self, body: &str) -> Block {
        let plan = self.plan;
        let (lead, imprint) = body.split_once("\n+++").unwrap_or((body, ""));
        let picture = match &plan.yoke {
            Some(view) => picture::yoke_circle(&view.circle, COVER, None),
            None if plan.strata.is_empty() => {
                let climb = picture::climb(&plan.climb, plan.climb.len());
                let alt = whole_climb_alt(plan.climb.len());
                let glass = 180.0 / climb.width;
                Drawing {
                    alt,
                    ..climb.magnified(glass)
                }
            }
            None => picture::strata(&plan.strata, 180.0, strata_alt(plan.strata.len())),
        };
        Block::Cover {
            title: plan.title.clone(),
            lead: markdown(lead, self),
            picture: Arc::new(picture),
            imprint: markdown(imprint, self),
        }
    }

    fn contents(&self) -> Block {
        let rows = self.plan.lessons.iter().enumerate().map(|(i, lesson)| {
            let words = Inline::Text(lesson.title.clone());
            let title = match self.links.get(i) {
                Some(href) => Inline::Link {
                    href: href.clone(),
                    text: vec![words],
                },
                None => words,
            };
            let mut cells = vec![
                Cell::words(lesson.number.to_string()),
                Cell {
                    chip: None,
                    text: vec![title],
                },
                Cell::words(lesson.level),
                Cell::words(lesson.grade.clone()),
                Cell::words(lesson.step.clone()),
                Cell::words(hours_range(lesson.class)),
                Cell::words(lesson.new.join(", ")),
            ];
            cells.extend(self.pages.get(i).map(|page| Cell::words(page.to_string())));
            cells
        });
        let head = labels::contents_head(!self.pages.is_empty());
        let head = head.into_iter().map(Cell::words).collect();
        let mut align = vec![
            Align::Right,
            Align::Left,
            Align::Left,
            Align::Right,
            Align::Right,
            Align::Right,
            Align::Left,
        ];
        if !self.pages.is_empty() {
            align.push(Align::Right);
        }
        Block::Table(Table::new(head, rows.collect(), align))
    }

    /// Whether each lesson has a column of its own in the table of skills.
    fn has_skill_marks(&self) -> bool {
        self.plan.lessons.len() <= MOST_COLUMNS && !self.plan.print.is_large()
    }

    fn skills(&self) -> Block {
        if !self.has_skill_marks() {
            return self.skills_in_words();
        }
        let first = Arc::new(skill_mark(true, self.plan.wording));
        let again = Arc::new(skill_mark(false, self.plan.wording));
        let head = std::iter::once(Cell::words(labels::SKILL)).chain(
            self.plan
                .lessons
                .iter()
                .map(|l| Cell::words(l.number.to_string())),
        );
        let rows = self.plan.skills.iter().map(|skill| {
            let cells = skill.met.iter().map(|met| match met {
                None => Cell::default(),
                Some(is_first) => Cell {
                    chip: Some(if *is_first { &first } else { &again }.clone()),
                    text: Vec::new(),
                },
            });
            std::iter::once(Cell::words(skill.title.clone()))
                .chain(cells)
                .collect()
        });
        let mut align = vec![Align::Centre; self.plan.lessons.len() + 1];
        align[0] = Align::Left;
        Block::Table(Table::new(head.collect(), rows.collect(), align))
    }

    /// What the marks of the table of skills say, for those who hear or search it; nothing where the table has no marks.
    fn skills_aloud(&self) -> Vec<Block> {
        if !self.has_skill_marks() {
            return Vec::new();
        }
        let each = self.plan.skills.iter().map(|skill| {
            let words = labels::skill_met(&skill.title, &met(skill, true), &met(skill, false));
            vec![Block::Paragraph(Tone::Small, vec![Inline::Text(words)])]
        });
        vec![Block::List(None, each.collect())]
    }

    /// For a course of many lessons, or large print: numbers of lessons instead of columns.
    fn skills_in_words(&self) -> Block {
        let rows = self.plan.skills.iter().map(|skill| {
            [skill.title.clone(), met(skill, true), met(skill, false)]
                .map(Cell::words)
                .to_vec()
        });
        Block::Table(Table::new(
            labels::skills_head(self.plan.wording)
                .map(Cell::words)
                .to_vec(),
            rows.collect(),
            vec![Align::Left; 3],
        ))
    }
}

/// The diameter of the yoke on a cover, in millimetres: wider than the page's text, and bled off at its foot.
const COVER: f64 = 225.0;

impl CourseDirectives<'_> {
    /// The sheet: each pair side by side, with room for an answer.
    fn questions(&self) -> Vec<Block> {
        let mut blocks = Vec::new();
        let large = self.plan.print.is_large();
        for (i, question) in self.plan.quiz.questions.iter().enumerate() {
            if i > 0 && i % 2 == 0 && !large {
                blocks.push(Block::Page(0));
            }
            let title = labels::pair_heading(question.number);
            let heading = Block::Heading(2, vec![Inline::Text(title)]);
            let columns = ["A", "B"]
                .iter()
                .zip(&question.drawings)
                .map(|(name, drawing)| {
                    let figure = Block::Figure {
                        drawing: Arc::new(drawing.clone()),
                        caption: vec![Inline::Text((*name).to_owned())],
                        name: None,
                    };
                    (6.0, vec![figure])
                });
            let columns = Block::Columns(columns.collect());
            let tick = |name: &str| vec![Inline::Text(labels::pair_tick(name))];
            let ticks = Block::Checks(vec![tick("A"), tick("B")]);
            let pair = vec![heading, columns, ticks];
            // In large print a pair stands on a page of its own: both are seen at once.
            match large {
                true => blocks.push(Block::Fit(vec![Setting::new(pair, 1.0)])),
                false => blocks.extend(pair),
            }
        }
        blocks
    }

    fn answers(&self) -> Vec<Block> {
        let quiz = &self.plan.quiz;
        let mut text = String::new();
        for question in &quiz.questions {
            text.push_str(&format!("{}. {}\n", question.number, question.answer));
        }
        text.push('\n');
        text.push_str(quiz.looks.as_deref().unwrap_or(""));
        parse(&text, self)
    }
}

/// More lessons than these do not stand side by side.
const MOST_COLUMNS: usize = 14;

/// In which lessons a skill is met for the first time, or again.
fn met(skill: &SkillRow, first: bool) -> String {
    let met = skill.met.iter().enumerate();
    let lessons = met.filter(|(_, met)| **met == Some(first));
    stretches(&lessons.map(|(i, _)| i + 1).collect::<Vec<_>>())
}

/// Numbers with their stretches drawn together: `3, 5–8`.
pub(super) fn stretches(numbers: &[usize]) -> String {
    let mut parts: Vec<(usize, usize)> = Vec::new();
    for &n in numbers {
        match parts.last_mut() {
            Some((_, end)) if *end + 1 == n => *end = n,
            _ => parts.push((n, n)),
        }
    }
    let words = parts.into_iter().map(|(from, to)| match to - from {
        0 => from.to_string(),
        1 => format!("{from}, {to}"),
        _ => format!("{from}–{to}"),
    });
    words.collect::<Vec<_>>().join(", ")
}

/// A filled square (first met) or a ring (practised).
fn skill_mark(first: bool, wording: Wording) -> Drawing {
    let alt = skill_alt(first, wording);
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
            "cover" => vec![self.cover(body)],
            "ladder" => {
                let plan = self.plan;
                let parts = picture::ladder(
                    &plan.ladder,
                    plan.levels,
                    plan.print.is_large(),
                    plan.wording,
                );
                let figure = |drawing| Block::Figure {
                    drawing: Arc::new(drawing),
                    caption: Vec::new(),
                    name: None,
                };
                parts.into_iter().map(figure).collect()
            }
            "contents" => vec![self.contents()],
            "skills" => vec![self.skills()],
            "skills-in-words" => self.skills_aloud(),
            "shopping" => vec![self.shopping()],
            "quiz" => self.questions(),
            "answers" => self.answers(),
            "hours" => vec![self.hours()],
            "meeting" => vec![self.meeting(argument)?],
            "register" => self.register(),
            "sheets" => vec![self.sheets()],
            "clashes" => self.clashes(),
            _ => return None,
        })
    }
}
