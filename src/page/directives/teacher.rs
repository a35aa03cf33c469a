//! Directives of the teacher's guide, and the tables that the course plan shares with it.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::ground::units::plain_number;
use crate::handout::{Teaching, Trouble};
use crate::page::blocks::{Align, Block, Cell, Inline, Table, parse};
use crate::page::directives::course::stretches;
use crate::page::directives::{CourseDirectives, handout::shown};
use crate::page::template::Templates;
use crate::picture::{self, Drawing, Paint, Path, Stroke};
use crate::words::{labels, literal};

impl CourseDirectives<'_> {
    /// What is said of each lesson, with the trade words filled in.
    pub(super) fn teaching(
        &self,
        templates: &Templates,
        words: &BTreeMap<&'static str, &'static str>,
    ) -> Vec<Teaching> {
        let trouble = |trouble: &Trouble| Trouble {
            items: trouble
                .items
                .iter()
                .map(|item| {
                    templates
                        .render_text(item, words)
                        .unwrap_or_else(|_| item.clone())
                })
                .collect(),
            ..trouble.clone()
        };
        let lesson = |lesson: &Teaching| Teaching {
            trouble: lesson.trouble.iter().map(trouble).collect(),
            ..lesson.clone()
        };
        self.plan.teaching.iter().map(lesson).collect()
    }

    /// The minutes of a meeting.
    pub(super) fn meeting(&self, number: &str) -> Option<Block> {
        let number = number.parse::<usize>().ok()?;
        let meeting = self.plan.meetings.iter().find(|m| m.number == number)?;
        let rows = meeting.stretches.iter().map(|stretch| {
            vec![
                Cell::words(format!("{}–{}", stretch.from, stretch.to)),
                Cell::words(stretch.what.clone()),
            ]
        });
        Some(Block::Table(Table::new(
            labels::MEETING_HEAD.map(Cell::words).to_vec(),
            rows.collect(),
            vec![Align::Left, Align::Left],
        )))
    }

    /// A register, of whom the course names or of as many blank lines as there are learners.
    pub(super) fn register(&self) -> Vec<Block> {
        let plan = self.plan;
        let blank = || vec![(String::new(), String::new()); plan.learners.unwrap_or(0) as usize];
        let lines = if plan.register.is_empty() {
            blank()
        } else {
            plan.register.clone()
        };
        let figure = |drawing| Block::Figure {
            drawing: Arc::new(drawing),
            caption: Vec::new(),
            name: None,
        };
        let large = plan.print.is_large();
        let parts = picture::register(&lines, plan.lessons.len(), large);
        parts.into_iter().map(figure).collect()
    }

    /// Sheets of paper, printed on both sides: for one, and for the class.
    pub(super) fn sheets(&self) -> Block {
        let learners = self.plan.learners.unwrap_or(1) as usize;
        let mut all = 0;
        let mut rows: Vec<Vec<Cell>> = self
            .plan
            .lessons
            .iter()
            .zip(&self.plan.pages)
            .map(|(lesson, &pages)| {
                let sheets = pages.div_ceil(2);
                all += sheets;
                [
                    format!("{}. {}", lesson.number, lesson.title),
                    pages.to_string(),
                    sheets.to_string(),
                    (sheets * learners).to_string(),
                ]
                .map(Cell::words)
                .to_vec()
            })
            .collect();
        let pages: usize = self.plan.pages.iter().sum();
        let total = [
            labels::ALL_LESSONS.to_owned(),
            pages.to_string(),
            all.to_string(),
            (all * learners).to_string(),
        ];
        rows.push(total.map(Cell::strong).to_vec());
        let head = labels::sheets_head(learners);
        Block::Table(Table::new(
            head.map(Cell::words).to_vec(),
            rows,
            vec![Align::Left, Align::Right, Align::Right, Align::Right],
        ))
    }

    pub(super) fn shopping(&self) -> Block {
        let unknown = || labels::UNKNOWN.to_owned();
        let rows = self.plan.yarns.iter().map(|yarn| {
            let mut chip = Drawing::new(6.5, 3.8, "");
            if !self.plan.print.is_black() {
                chip.fill(Path::rect(0.0, 0.0, 6.5, 3.8), Paint::Yarn(yarn.rgb));
            }
            chip.line(
                Path::rect(0.0, 0.0, 6.5, 3.8),
                Stroke::new(Paint::Ink, 0.35),
            );
            let lessons = stretches(&yarn.lessons);
            let without = stretches(&yarn.without);
            let used = yarn.used.map(|grams| labels::used_without(grams, &without));
            let mut cells = vec![
                Cell {
                    chip: (!self.plan.print.is_black())
                        .then(|| Arc::new(shown(chip, &self.plan.print))),
                    text: vec![Inline::Text(yarn.name.clone())],
                },
                Cell::words(lessons),
                Cell::words(used.unwrap_or_else(unknown)),
                Cell::words(yarn.balls.map_or_else(unknown, |balls| balls.to_string())),
            ];
            if self.plan.learners.is_some() {
                let (grams, balls) = yarn.class;
                let grams = grams.map(|grams| format!("{} g", plain_number(grams.ceil(), 0)));
                cells.push(Cell::words(grams.unwrap_or_else(unknown)));
                cells.push(Cell::words(
                    balls.map_or_else(unknown, |balls| balls.to_string()),
                ));
            }
            cells
        });
        let head = labels::shopping_head(self.plan.learners, self.plan.wording);
        let head = head.into_iter().map(Cell::words).collect();
        let mut align = vec![Align::Left, Align::Left, Align::Right, Align::Right];
        if self.plan.learners.is_some() {
            align.extend([Align::Right; 2]);
        }
        Block::Table(Table::new(head, rows.collect(), align))
    }

    /// Hours of each lesson: a fluent knitter's, a class's, and how these part into class and home.
    pub(super) fn hours(&self) -> Block {
        let range =
            |from: f64, to: f64| format!("{}–{}", plain_number(from, 1), plain_number(to, 1));
        let rows = self.plan.lessons.iter().map(|lesson| {
            let mut cells = vec![
                format!("{}. {}", lesson.number, lesson.title),
                range(lesson.fluent.from, lesson.fluent.to),
                range(lesson.class.from, lesson.class.to),
            ];
            if let Some(hours) = self.plan.class_hours {
                let home = |all: f64| (all - hours).max(0.0);
                cells.push(plain_number(hours.min(lesson.class.to), 1));
                cells.push(range(home(lesson.class.from), home(lesson.class.to)));
            }
            cells.into_iter().map(Cell::words).collect()
        });
        let head = labels::hours_head(self.plan.class_hours.is_some());
        let mut align = vec![Align::Right; head.len()];
        if let Some(lesson) = align.first_mut() {
            *lesson = Align::Left;
        }
        Block::Table(Table::new(
            head.into_iter().map(Cell::words).collect(),
            rows.collect(),
            align,
        ))
    }

    /// Yarns that do not read apart, lesson by lesson.
    pub(super) fn clashes(&self) -> Vec<Block> {
        let mut text = String::new();
        for lesson in self.plan.lessons.iter().filter(|l| !l.clashes.is_empty()) {
            for clash in &lesson.clashes {
                text.push_str(&format!(
                    "- **{}.** {}\n",
                    literal(&lesson.title),
                    literal(clash)
                ));
            }
        }
        if text.is_empty() {
            text = labels::no_clash(self.plan.wording);
        }
        parse(&text, self)
    }
}
