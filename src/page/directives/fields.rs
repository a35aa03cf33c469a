//! What a handout template can say without a directive.

use serde::Serialize;

use crate::handout::ChartSheet;
use crate::page::blocks::{Block, parse};
use crate::page::directives::HandoutDirectives;
use crate::picture::parts_of;
use crate::words::{labels, literal};

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
    has_longest: bool,
    sizes: bool,
    size_notes: Vec<String>,
    has_piece: bool,
    has_yoke: bool,
    has_tables: bool,
    has_ticks: bool,
    sizes_line: String,
    size_note: String,
    stuff: String,
    measure_title: String,
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
    /// Whether its rows are told in words.
    has_rows: bool,
    /// How catches are counted and worked; empty where that is not needed or was said before.
    catching: String,
}

impl HandoutDirectives<'_> {
    /// The handout's blocks, from its template.
    ///
    /// # Errors
    /// When the template cannot be rendered.
    pub fn blocks(&self) -> Result<Vec<Block>, crate::page::TemplateError> {
        let h = self.handout;
        let labels: Vec<&str> = h
            .pieces
            .iter()
            .filter_map(|piece| piece.size.as_ref())
            .map(|size| size.label.as_str())
            .collect();
        let labels: Vec<String> = labels
            .iter()
            .enumerate()
            .map(|(i, label)| match h.yours {
                Some(yours) if yours == i => format!("**{}**", literal(label)),
                _ => literal(label),
            })
            .collect();
        let sizes_line = match labels.as_slice() {
            [] | [_] => String::new(),
            [first, rest @ ..] => format!("{first} ({})", rest.join(", ")),
        };
        let sources: Vec<&str> = h.size_sources.iter().map(|s| s.name()).collect();
        let mean = h.pieces.iter().any(|piece| {
            let size = piece.size.as_ref();
            size.is_some_and(|size| size.id.starts_with("adult"))
        });
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
            has_piece: h.shape.is_some(),
            has_yoke: h.yoke.is_some(),
            has_tables: !h.tables.is_empty(),
            has_ticks: !h.ticks.is_empty(),
            sizes_line,
            size_note: labels::size_note(&sources, mean),
            stuff: h.stuff.to_owned(),
            measure_title: h.measure_title.to_owned(),
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
                    has_rows: !c.rows.is_empty(),
                    catching: c.catching.clone(),
                })
                .collect(),
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

/// Millimetres that a chart needs: title, reading line, picture, legend. Its rows in words may go on overleaf.
fn room(sheet: &ChartSheet<'_>) -> u32 {
    let Some(picture) = &sheet.picture else {
        return 40;
    };
    let height = parts_of(picture)
        .first()
        .map_or(0.0, |part| picture.height(part));
    let around = if picture.large { 75.0 } else { 45.0 };
    (around + height).min(230.0) as u32
}
