//! What a handout template can say without a directive.

use serde::Serialize;

use crate::page::blocks::{Block, parse};
use crate::page::directives::HandoutDirectives;
use crate::words::labels;

/// The fields of the template.
#[derive(Serialize)]
struct HandoutFields {
    title: String,
    lead: String,
    level: String,
    grade: String,
    measure_first: String,
    tools: String,
    has_fabric: bool,
    sizes_title: String,
    size_notes: Vec<String>,
    has_piece: bool,
    has_yoke: bool,
    has_tables: bool,
    size_note: String,
    stuff: String,
    measure_title: String,
    tool: String,
    line: String,
    rights: String,
    abbreviations: String,
    number: usize,
    of: usize,
}

impl HandoutDirectives<'_> {
    /// The handout's blocks, from its template.
    ///
    /// # Errors
    /// When the template cannot be rendered.
    pub fn blocks(&self) -> Result<Vec<Block>, crate::page::TemplateError> {
        let h = self.handout;
        let sources: Vec<&str> = h.size_sources.iter().map(|s| s.name()).collect();
        let fields = HandoutFields {
            title: h.title.clone(),
            lead: h.lead.clone(),
            level: h.level.to_owned(),
            grade: h.grade.clone(),
            measure_first: h.measure_first.clone(),
            tools: h.tools.clone(),
            has_fabric: h.fabric.is_some(),
            size_notes: h.size_notes.clone(),
            sizes_title: labels::sizes_title(h.pieces.len(), h.stuff),
            has_piece: h.shape.is_some(),
            has_yoke: h.yoke.is_some(),
            has_tables: !h.tables.is_empty(),
            size_note: labels::size_note(&sources),
            stuff: h.stuff.to_owned(),
            measure_title: h.measure_title.to_owned(),
            tool: h.tool.to_owned(),
            line: h.line.to_owned(),
            rights: h.rights.clone(),
            abbreviations: h.abbreviations.clone(),
            number: h.number,
            of: h.of,
        };
        let text = self
            .templates
            .render("handout.md", &fields, &h.wording.words())?;
        Ok(parse(&text, self))
    }
}
