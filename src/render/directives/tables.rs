//! Tables of a handout: sizes and yarns.

use std::sync::Arc;

use crate::lesson::Units;
use crate::picture::{Drawing, swatch_chip, symbol_order};
use crate::render::blocks::{Align, Block, Cell, Inline};
use crate::render::directives::HandoutDirectives;
use crate::units::{Length, plain_number};

impl HandoutDirectives<'_> {
    fn chip(&self, rgb: [u8; 3]) -> Drawing {
        let colours: Vec<[u8; 3]> = self.handout.yarns.iter().map(|y| y.rgb).collect();
        let symbols = symbol_order(&colours);
        let place = colours.iter().position(|c| *c == rgb).unwrap_or(0);
        symbols.get(place).map_or_else(Drawing::default, |s| {
            swatch_chip(rgb, *s, (6.5, 3.8), true, "")
        })
    }

    pub(super) fn sizes_table(&self) -> Block {
        let unit = unit_name(self.units);
        let body = self.handout.sizes.first().map_or("body", |s| s.body.0);
        let has_repeats = self.handout.sizes.iter().any(|s| s.repeats > 1);
        let mut head = vec![
            "Size".to_owned(),
            format!("To fit {body} {unit}"),
            format!("Comes out {unit}"),
            self.handout.count_name.to_owned(),
        ];
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
        Block::Table {
            rows: rows.collect(),
            head: head.into_iter().map(Cell::words).collect(),
            align,
        }
    }

    pub(super) fn yarn_table(&self) -> Block {
        let rows = self.handout.yarns.iter().map(|yarn| {
            let chip = Some(Arc::new(self.chip(yarn.rgb)));
            vec![
                Cell {
                    chip,
                    text: vec![Inline::Text(yarn.name.clone())],
                },
                Cell::words(yarn.role.clone()),
            ]
        });
        Block::Table {
            head: vec![Cell::words("Colour"), Cell::words("Its part")],
            rows: rows.collect(),
            align: vec![Align::Left, Align::Left],
        }
    }
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
