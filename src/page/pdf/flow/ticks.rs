//! Rounds to tick off: small boxes in fives, each five with its number.

use crate::page::pdf::face::Face;
use crate::page::pdf::flow::{Flow, Slice};
use crate::page::pdf::frame::PageMark;
use crate::page::pdf::text::Style;
use crate::picture::{Paint, Path, Stroke};

/// Boxes that are counted at a glance.
const GROUP: usize = 5;

impl Flow<'_> {
    /// Boxes for so many rounds, in as many lines as they need. They say nothing that the step does not, so readers skip
    /// them.
    pub(super) fn boxes(&mut self, rounds: usize, width: f64) -> Slice {
        let sizes = self.sizes;
        let (side, gap) = (3.2 * sizes.scale, 1.2 * sizes.scale);
        let style = Style {
            tabular: true,
            ..Style::new(Face::Regular, sizes.foot).in_paint(Paint::Text2)
        };
        let number_room = self.typesetter.width("00", style) + 1.2 * sizes.scale;
        let group = GROUP as f64 * (side + gap) + number_room;
        let across = ((width + 2.0) / group).floor().max(1.0) as usize;
        let line = side + 1.8 * sizes.scale;
        let mut slice = Slice::default();
        if rounds == 0 {
            return slice;
        }
        for round in 0..rounds {
            let five = round / GROUP;
            let x = group * (five % across) as f64 + (side + gap) * (round % GROUP) as f64;
            let y = line * (five / across) as f64 + 0.8;
            let frame = Path::rect(x + 0.2, y, side, side);
            slice.mark(PageMark::Line(frame, Stroke::new(Paint::Ink, 0.35)), None);
            if round % GROUP == GROUP - 1 || round + 1 == rounds {
                let words = (round + 1).to_string();
                let leading = sizes.table_head.leading;
                let text = self.words(&words, style, leading, None, number_room);
                slice.absorb(&text, x + side + gap, y + (side - leading) / 2.0 + 0.1);
            }
        }
        slice.height = line * rounds.div_ceil(GROUP * across) as f64 + 0.6;
        slice
    }
}
