//! The finished piece in a handout: as it is worn, and a yoke from above.

use std::sync::Arc;

use crate::handout::FinishedPiece;
use crate::page::blocks::Block;
use crate::page::directives::HandoutDirectives;
use crate::page::directives::common::inlines;
use crate::page::directives::handout::legible;
use crate::picture::{self, LARGE, LARGE_WORDS, jersey_shape, tube, yoke_circle};
use crate::words::{fabric_note, labels};

/// Room for the piece on a front page, in millimetres: its width; its height is that of the fabric beside it.
const PIECE: f64 = 70.0;

/// How wide the fabric on a front page is.
const FABRIC: f64 = 103.3;

/// How high the fabric is at most in large print.
const FABRIC_TALLEST: f64 = 150.0;

/// How wide a yoke from above is at most in large print.
const YOKE_WIDEST: f64 = 170.0;

/// The least share of it: its words stand within.
const YOKE_LEAST: f64 = 0.7;

/// How much larger than life the fabric is in large print.
const FABRIC_GLASS: f64 = 1.8;

impl HandoutDirectives<'_> {
    /// The piece, with the size that it shows.
    pub(super) fn piece(&self) -> Vec<Block> {
        let h = self.handout;
        // What is magnified for its words stands in the room of what is magnified for its figures.
        let grown = if h.print.is_large() {
            LARGE / LARGE_WORDS
        } else {
            1.0
        };
        let room = self.room * self.share * grown;
        // Words on a jersey of large print need all the width there is.
        let jersey = match h.print.is_large() {
            true => 178.0 / LARGE_WORDS,
            false => PIECE,
        };
        let drawing = match &h.shape {
            None => return Vec::new(),
            Some(FinishedPiece::Tube(shape)) => tube(shape, (PIECE, room)),
            Some(FinishedPiece::Jersey(shape)) => jersey_shape(shape, (jersey, room)),
        };
        vec![Block::Figure {
            drawing: Arc::new(legible(drawing, &h.print)),
            caption: inlines(&labels::finished_caption(&h.shape_size)),
            name: None,
        }]
    }

    /// The fabric, at life size where it is low enough; in large print magnified, as wide as the page.
    pub(super) fn fabric(&self) -> Vec<Block> {
        let h = self.handout;
        let Some(fabric) = &h.fabric else {
            return Vec::new();
        };
        let (drawing, caption) = if h.print.is_large() {
            // As wide as the page, and no higher than most of one.
            let tall = fabric.rise * fabric.rows.len().max(1) as f64;
            let glass = FABRIC_GLASS.min(FABRIC_TALLEST * self.share / tall);
            let stitches = (180.0 / glass / fabric.pitch).floor().max(1.0) as usize;
            let cloth = picture::cloth(fabric, stitches).magnified(glass);
            match glass >= 1.0 {
                true => (cloth, labels::magnified_caption(glass)),
                false => (cloth, fabric_note(h.print.binding, glass)),
            }
        } else {
            let room = (FABRIC, self.room);
            let (drawing, scale) = picture::fabric(fabric, self.units(), room);
            (drawing, fabric_note(h.print.binding, scale))
        };
        vec![Block::Figure {
            drawing: Arc::new(drawing),
            caption: inlines(&caption),
            name: None,
        }]
    }

    /// The yoke from above, as large as its room.
    pub(super) fn yoke(&self) -> Vec<Block> {
        let Some(view) = &self.handout.yoke else {
            return Vec::new();
        };
        let large = self.handout.print.is_large();
        let (diameter, points) = if large {
            (YOKE_WIDEST * self.share.clamp(YOKE_LEAST, 1.0), 16.0)
        } else {
            (self.room, 9.0)
        };
        let drawing = yoke_circle(&view.circle, diameter, Some(points));
        vec![Block::Figure {
            drawing: Arc::new(drawing),
            caption: inlines(&labels::yoke_caption(&view.size)),
            name: None,
        }]
    }
}
