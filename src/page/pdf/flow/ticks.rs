//! Rounds to tick off: a box for each, ten in a line.

use crate::handout::Ticks;
use crate::page::blocks::Inline;
use crate::page::pdf::face::Face;
use crate::page::pdf::flow::{Flow, Slice, stacked};
use crate::page::pdf::frame::{PageMark, Role};
use crate::page::pdf::text::Style;
use crate::picture::{Paint, Path, Stroke, staple};
use crate::words::labels;

/// Boxes of a line: ten can be counted at a glance; large print has room for five.
const ACROSS: usize = 10;
const ACROSS_LARGE: usize = 5;

impl Flow<'_> {
    /// Groups of boxes, each under its title.
    pub(super) fn ticks(&mut self, groups: &[Ticks], node: usize, width: f64) -> Vec<Slice> {
        groups
            .iter()
            .flat_map(|group| self.tick_group(group, node, width))
            .collect()
    }

    fn tick_group(&mut self, group: &Ticks, node: usize, width: f64) -> Vec<Slice> {
        let sizes = self.sizes;
        let title = [Inline::Text(group.title.clone())];
        let mut slices = vec![self.heading(3, &title, node, width)];
        let list = self.tree.add(node, Role::List);
        let across = if sizes.large { ACROSS_LARGE } else { ACROSS };
        let pitch = width / across as f64;
        let side = 4.0 * sizes.scale;
        let style = Style {
            tabular: true,
            ..Style::new(Face::Regular, sizes.table.size)
        };
        for line in group.boxes.chunks(across) {
            let mut slice = Slice {
                height: side.max(sizes.table.leading) + 1.6,
                gap: 0.4,
                ..Slice::default()
            };
            for (i, (number, watch)) in line.iter().enumerate() {
                let x = pitch * i as f64;
                let item = self.tree.add(list, Role::ListItem);
                let body = self.tree.add(item, Role::ListBody);
                let frame = Path::rect(x + 0.25, 0.4, side, side);
                slice.mark(PageMark::Line(frame, Stroke::new(Paint::Ink, 0.45)), None);
                let words = number.clone();
                let leading = sizes.table.leading;
                let text = self.words(&words, style, leading, Some(body), pitch);
                slice.absorb(&text, x + side + 1.6, (side - leading) / 2.0 + 0.4);
                if *watch {
                    // A catch in this round: the mark of the chart, said in words for those who hear the page.
                    let mark = self.tree.add_figure(body, labels::CATCH);
                    let at = x + side + 2.6 + self.typesetter.width(&words, style) + side * 0.3;
                    let stroke = Stroke::new(Paint::Buoy, 0.16 * side);
                    let path = staple((at, 0.4 + side * 0.85), side * 0.55);
                    slice.mark(PageMark::Line(path, stroke), Some(mark));
                }
            }
            slices.push(slice);
        }
        // A short group stays together.
        if slices.len() <= 4 {
            let mut whole = stacked(&slices);
            whole.gap = 3.0;
            return vec![whole];
        }
        slices
    }
}
