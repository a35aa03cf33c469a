//! The sheet of two charts side by side.

use std::sync::Arc;

use serde::Serialize;

use crate::page::blocks::{Align, Block, Cell, Directives, Inline, Table, parse};
use crate::page::directives::common::common;
use crate::page::{TemplateError, Templates};
use crate::picture::Drawing;
use crate::words::{Verdict, Wording, labels};

/// Two charts as they are laid side by side.
#[derive(Clone, Debug)]
pub struct Comparison {
    /// Their titles.
    pub titles: [String; 2],
    /// Their pictures, at one scale; none of a chart that may not be printed.
    pub drawings: [Option<Drawing>; 2],
    /// What is measured: its name, and of each.
    pub measures: Vec<(String, [String; 2])>,
    /// Which is harder.
    pub verdict: Verdict,
    /// The words of the course.
    pub wording: Wording,
}

impl Comparison {
    /// The blocks of the template `compare.md`.
    ///
    /// # Errors
    /// When the template cannot be rendered.
    pub(in crate::page) fn blocks(
        &self,
        templates: &Templates,
    ) -> Result<Vec<Block>, TemplateError> {
        #[derive(Serialize)]
        struct Fields<'a> {
            titles: &'a [String; 2],
            verdict: &'a str,
            why: &'a str,
        }
        let fields = Fields {
            titles: &self.titles,
            verdict: &self.verdict.verdict,
            why: &self.verdict.why,
        };
        let text = templates.render("compare.md", &fields, &self.wording.words())?;
        Ok(parse(&text, self))
    }

    fn pair(&self) -> Block {
        let each = ["A", "B"].iter().zip(&self.titles).zip(&self.drawings);
        let columns = each.map(|((letter, title), drawing)| {
            let caption = vec![Inline::Text(labels::contender(letter, title))];
            let block = match drawing {
                Some(drawing) => Block::Figure {
                    drawing: Arc::new(drawing.clone()),
                    caption,
                    name: None,
                },
                None => Block::Paragraph(
                    crate::page::blocks::Tone::Body,
                    vec![Inline::Text(labels::not_ours(letter, title))],
                ),
            };
            (6.0, vec![block])
        });
        Block::Columns(columns.collect())
    }

    fn table(&self) -> Block {
        let rows = self
            .measures
            .iter()
            .map(|(name, [a, b])| [name, a, b].map(|text| Cell::words(text.clone())).to_vec());
        let head = [labels::MEASURED, "A", "B"].map(Cell::words).to_vec();
        let align = vec![Align::Left, Align::Right, Align::Right];
        Block::Table(Table::new(head, rows.collect(), align))
    }
}

impl Directives for Comparison {
    fn resolve(&self, name: &str, argument: &str, body: &str) -> Option<Vec<Block>> {
        if let Some(blocks) = common(self, name, argument, body) {
            return Some(blocks);
        }
        Some(match name {
            "pair" => vec![self.pair()],
            "measures" => vec![self.table()],
            _ => return None,
        })
    }
}
