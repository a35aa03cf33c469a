//! The finished piece in a handout: as it is worn, and a yoke from above.

use std::sync::Arc;

use crate::handout::FinishedPiece;
use crate::page::blocks::{Align, Block, Cell, Table};
use crate::page::directives::HandoutDirectives;
use crate::page::directives::common::inlines;
use crate::picture::{jersey_shape, tube, yoke_circle};
use crate::words::labels;

/// Room for the piece on a front page, in millimetres.
const ROOM: (f64, f64) = (70.0, 68.0);

impl HandoutDirectives<'_> {
    /// The piece, with the size that it shows.
    pub(super) fn piece(&self) -> Vec<Block> {
        let h = self.handout;
        let drawing = match &h.shape {
            None => return Vec::new(),
            Some(FinishedPiece::Tube(shape)) => tube(shape, ROOM),
            Some(FinishedPiece::Jersey(shape)) => jersey_shape(shape, ROOM),
        };
        vec![Block::Figure {
            drawing: Arc::new(self.shown(drawing)),
            caption: inlines(&labels::finished_caption(&h.shape_size)),
            name: None,
        }]
    }

    /// The yoke from above with the table of its narrowings.
    pub(super) fn yoke(&self) -> Vec<Block> {
        let Some(view) = &self.handout.yoke else {
            return Vec::new();
        };
        // It is as wide as the page: in large print only its words grow.
        let points = if self.handout.print.is_large() {
            14.5
        } else {
            9.0
        };
        let drawing = yoke_circle(&view.circle, points);
        let figure = Block::Figure {
            drawing: Arc::new(drawing),
            caption: inlines(&labels::yoke_caption(&view.size)),
            name: None,
        };
        let head = labels::NARROWINGS_HEAD.map(Cell::words).to_vec();
        let rows = view
            .rows
            .iter()
            .map(|row| row.clone().map(Cell::words).to_vec())
            .collect();
        let align = vec![
            Align::Left,
            Align::Right,
            Align::Right,
            Align::Right,
            Align::Left,
        ];
        vec![figure, Block::Table(Table::new(head, rows, align))]
    }
}
