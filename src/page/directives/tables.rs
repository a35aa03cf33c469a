//! Tables of a handout: sizes and yarns.

use std::sync::Arc;

use crate::page::blocks::{Align, Block, Cell, Inline, Table, Tone};
use crate::page::directives::HandoutDirectives;
use crate::picture::{Drawing, swatch_chip, symbol_order};
use crate::words::labels::{sizes_head, yarns_head};
use crate::words::{RoundTable, length_number, range_number};

impl HandoutDirectives<'_> {
    fn chip(&self, rgb: [u8; 3]) -> Drawing {
        let colours: Vec<[u8; 3]> = self.handout.yarns.iter().map(|y| y.rgb).collect();
        let symbols = symbol_order(&colours);
        let place = colours.iter().position(|c| *c == rgb).unwrap_or(0);
        symbols.get(place).map_or_else(Drawing::default, |s| {
            let chip = swatch_chip(rgb, *s, (6.5, 3.8), !self.handout.print.is_black(), "");
            self.shown(chip)
        })
    }

    pub(super) fn sizes_table(&self) -> Block {
        let h = self.handout;
        let body = h.fits.first().map_or("body", |(name, _)| name);
        // A yoke's bands repeat over different counts; its body, and what has no chart, over none.
        let has_repeats = h.yoke.is_none()
            && !h.charts.is_empty()
            && h.pieces.iter().any(|piece| piece.repeats > 1);
        let head = sizes_head(body, h.count_name, has_repeats, self.units());
        let rows = h
            .pieces
            .iter()
            .zip(&h.fits)
            .enumerate()
            .map(|(i, (piece, (_, range)))| {
                let label = piece.size.as_ref().map_or("", |size| size.label.as_str());
                let mut cells = vec![
                    label.to_owned(),
                    range_number(*range, self.units()),
                    length_number(piece.main.girth, self.units()),
                    piece.main.stitches.to_string(),
                ];
                if has_repeats {
                    cells.push(piece.repeats.to_string());
                }
                let cell = if h.yours == Some(i) {
                    Cell::strong
                } else {
                    Cell::words
                };
                cells.into_iter().map(cell).collect()
            });
        let mut align = vec![Align::Right; head.len()];
        align[0] = Align::Left;
        Block::Table(Table {
            yours: h.yours,
            ..Table::new(
                head.into_iter().map(Cell::words).collect(),
                rows.collect(),
                align,
            )
        })
    }

    /// Tables of all sizes, each under its heading.
    pub(super) fn round_tables(&self, tables: &[RoundTable]) -> Vec<Block> {
        let mut blocks = Vec::new();
        for table in tables {
            let words = |(i, text): (usize, &String)| match table.yours {
                Some(yours) if yours == i => Cell::strong(text.clone()),
                _ => Cell::words(text.clone()),
            };
            let cells = |row: &Vec<String>| row.iter().enumerate().map(words).collect();
            let side = if table.words {
                Align::Left
            } else {
                Align::Right
            };
            let mut align = vec![side; table.head.len()];
            if let Some(first) = align.first_mut() {
                *first = Align::Left;
            }
            blocks.push(Block::Heading(2, vec![Inline::Text(table.title.clone())]));
            blocks.push(Block::Table(Table::new(
                cells(&table.head),
                table.rows.iter().map(cells).collect(),
                align,
            )));
            if !table.note.is_empty() {
                blocks.push(Block::Paragraph(
                    Tone::Small,
                    vec![Inline::Text(table.note.clone())],
                ));
            }
        }
        blocks
    }

    pub(super) fn yarn_table(&self) -> Block {
        let noted = self.handout.yarns.iter().any(|yarn| !yarn.note.is_empty());
        let rows = self.handout.yarns.iter().map(|yarn| {
            let chip = Some(Arc::new(self.chip(yarn.rgb)));
            let name = Cell {
                chip,
                text: vec![Inline::Text(yarn.name.clone())],
            };
            let note = noted.then(|| Cell::words(yarn.note.clone()));
            std::iter::once(name).chain(note).collect()
        });
        let head = yarns_head(self.handout.wording, noted);
        let align = vec![Align::Left; head.len()];
        Block::Table(Table::new(
            head.into_iter().map(Cell::words).collect(),
            rows.collect(),
            align,
        ))
    }
}
