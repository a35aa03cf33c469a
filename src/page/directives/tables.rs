//! Tables of a handout: sizes and yarns.

use std::sync::Arc;

use crate::page::blocks::{Align, Block, Cell, Inline, Table, Tone};
use crate::page::directives::HandoutDirectives;
use crate::page::directives::common::inlines;
use crate::picture::{Drawing, swatch_chip, symbol_order};
use crate::words::RoundTable;
use crate::words::labels::{self, yarns_head};

/// Words in more columns than this are set small.
const MANY: usize = 4;
/// Tables of so many columns can stand in two halves.
const HALVED: usize = 3;
/// Tables of so many rows do.
const LONG: usize = 12;

impl HandoutDirectives<'_> {
    pub(super) fn chip(&self, rgb: [u8; 3]) -> Drawing {
        let colours: Vec<[u8; 3]> = self.handout.yarns.iter().map(|y| y.rgb).collect();
        let symbols = symbol_order(&colours);
        let place = colours.iter().position(|c| *c == rgb).unwrap_or(0);
        symbols.get(place).map_or_else(Drawing::default, |s| {
            let chip = swatch_chip(rgb, *s, (6.5, 3.8), !self.handout.print.is_black(), "");
            self.shown(chip)
        })
    }

    /// Sizes across; the learner's own column stands out.
    pub(super) fn sizes_table(&self) -> Vec<Block> {
        let Some(table) = &self.handout.sizes else {
            return vec![self.yarn_table()];
        };
        let cell = |(at, text): (usize, &String)| match table.yours {
            Some(yours) if yours == at => Cell::strong(text.clone()),
            _ => Cell::words(text.clone()),
        };
        let rows = table.rows.iter().map(|(yarn, cells)| {
            let mut cells: Vec<Cell> = cells.iter().enumerate().map(cell).collect();
            let yarn = yarn.and_then(|at| self.handout.yarns.get(at));
            if let (Some(first), Some(yarn)) = (cells.first_mut(), yarn) {
                first.chip = Some(Arc::new(self.chip(yarn.rgb)));
            }
            cells
        });
        let mut align = vec![Align::Right; table.head.len()];
        if let Some(first) = align.first_mut() {
            *first = Align::Left;
        }
        let head = table.head.iter().enumerate().map(cell).collect();
        let mut blocks = vec![Block::Table(Table::new(head, rows.collect(), align))];
        // One small paragraph under the table: what the yarn is, and what is said of sizes.
        let order = match self.handout.pieces.len() {
            0 | 1 => "",
            _ => labels::ORDER_OF_SIZES,
        };
        let between = self.handout.between_sizes.as_deref().unwrap_or("");
        let notes = [table.note.as_str(), order, between].join(" ");
        if !notes.trim().is_empty() {
            blocks.push(Block::Paragraph(Tone::Small, inlines(notes.trim())));
        }
        blocks
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
            let part = |rows: &[Vec<String>]| {
                let rows = rows.iter().map(cells).collect();
                Block::Table(Table {
                    fine: table.words && table.head.len() > MANY,
                    ..Table::new(cells(&table.head), rows, align.clone())
                })
            };
            // A long narrow table stands in two halves, each read from its head to its foot.
            let halved = table.head.len() <= HALVED && !table.words && table.rows.len() >= LONG;
            blocks.push(match halved && !self.handout.print.is_large() {
                true => {
                    let (first, second) = table.rows.split_at(table.rows.len().div_ceil(2));
                    Block::Columns(vec![(6.0, vec![part(first)]), (6.0, vec![part(second)])])
                }
                false => part(&table.rows),
            });
            if !table.note.is_empty() {
                blocks.push(Block::Paragraph(
                    Tone::Small,
                    vec![Inline::Text(table.note.clone())],
                ));
            }
        }
        blocks
    }

    fn yarn_table(&self) -> Block {
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
