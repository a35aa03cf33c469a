//! The cover of a course.

use std::sync::Arc;

use crate::page::blocks::Block;
use crate::page::pdf::face::Face;
use crate::page::pdf::flow::{Flow, Slice, drawing, stacked};
use crate::page::pdf::frame::PageMark;
use crate::page::pdf::text::Style;
use crate::picture::{Drawing, Paint, Path};

impl Flow<'_> {
    /// A whole page: a band of the sea colour, the title, what stands under it, the picture, the imprint at the foot; a
    /// picture wider than the text bleeds off it.
    pub(super) fn cover(
        &mut self,
        title: &str,
        lead: &[Block],
        picture: &Arc<Drawing>,
        imprint: &[Block],
        node: usize,
        width: f64,
    ) -> Slice {
        let mut slice = Slice {
            height: self.page,
            bare: true,
            ..Slice::default()
        };
        let heading = self.heading_node(1, title, node);
        slice.headings.push(heading);
        let band = Path::rect(0.0, 3.0, 25.0, 6.0);
        slice.mark(PageMark::Fill(band, Paint::Estuary), None);
        let size = self.sizes.cover;
        let style = Style::new(Face::Title, size.size);
        let words = self.words(title, style, size.leading, Some(heading), width);
        slice.absorb(&words, 0.0, 14.0);
        let mut y = 14.0 + words.height + 2.0;
        let lead = stacked(&self.blocks(lead, node, width * 0.8));
        slice.absorb(&lead, 0.0, y);
        y += lead.height + 10.0;
        let foot = stacked(&self.blocks(imprint, node, width));
        let bleeds = picture.width > width;
        if bleeds {
            // The imprint stands above a picture that runs off the foot of the page.
            slice.absorb(&foot, 0.0, y - 6.0);
            y += foot.height;
        }
        let tag = (!picture.alt.is_empty()).then(|| self.tree.add_figure(node, &picture.alt));
        // The picture takes what is left, and no more than it needs.
        let room = (self.page - foot.height - 8.0 - y).max(10.0);
        let scale = (width / picture.width.max(0.1))
            .min(room / picture.height.max(0.1))
            .min(1.0);
        let (x, scale) = match bleeds {
            true => ((width - picture.width) / 2.0, 1.0),
            false => (0.0, scale),
        };
        drawing::put(&mut slice, picture, (x, y), scale, tag);
        if !bleeds {
            slice.absorb(&foot, 0.0, self.page - foot.height);
        }
        slice
    }
}
