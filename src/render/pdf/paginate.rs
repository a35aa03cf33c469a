//! Slices to pages: what belongs together stays together, running head and foot round it.

use crate::lesson::Paper;
use crate::picture::{Paint, Path, Stroke};
use crate::render::blocks::Block;
use crate::render::pdf::face::Face;
use crate::render::pdf::flow::{Flow, Slice};
use crate::render::pdf::frame::{Item, LinkArea, Mark, PageFrame, Role, Tree};
use crate::render::pdf::text::{Run, Style, Typesetter};

/// Width of the content box, the same for both papers, in millimetres; it is 255 high.
pub(super) const WIDTH: f64 = 180.0;
/// Where the text begins and ends inside the content box: below the running head, above the foot.
const TOP: f64 = 9.5;
const BOTTOM: f64 = 247.0;

/// A part of a document with its own running head: a lesson, the course plan.
#[derive(Clone, Debug)]
pub struct Section {
    /// Its blocks.
    pub blocks: Vec<Block>,
    /// Bold in the running head: the guild.
    pub guild: String,
    /// Beside it: the course.
    pub course: String,
    /// Right in the running head, before the page: `Lesson 4`.
    pub label: String,
    /// Left in the foot.
    pub foot: String,
    /// What the bookmark says.
    pub title: String,
}

/// A document laid out.
#[derive(Clone, Debug)]
pub struct Document {
    /// Paper size in millimetres.
    pub paper: (f64, f64),
    /// Pages.
    pub pages: Vec<PageFrame>,
    /// Structure.
    pub tree: Tree,
    /// For each section its title, node and first page.
    pub sections: Vec<(String, usize, usize)>,
}

/// Paper size and the place of the content box on it.
fn geometry(paper: Paper) -> ((f64, f64), (f64, f64)) {
    match paper {
        Paper::A4 => ((210.0, 297.0), (15.0, 18.0)),
        Paper::Letter => ((215.9, 279.4), (17.95, 12.2)),
    }
}

/// Lays sections out, each from a new page on.
#[must_use]
pub fn lay_out(sections: &[Section], paper: Paper) -> Document {
    let (size, origin) = geometry(paper);
    let mut document = Document {
        paper: size,
        pages: Vec::new(),
        tree: Tree::default(),
        sections: Vec::new(),
    };
    let mut typesetter = Typesetter::default();
    for section in sections {
        let node = document.tree.add(0, Role::Section);
        let first = document.pages.len();
        let slices = {
            let mut flow = Flow::new(&mut typesetter, &mut document.tree, BOTTOM - TOP);
            flow.blocks(&section.blocks, node, WIDTH)
        };
        let pages = fill_pages(&slices, origin);
        document.sections.push((section.title.clone(), node, first));
        document.pages.extend(pages);
        let count = document.pages.len() - first;
        for i in 0..count {
            let page_number = first + i + 1;
            if let Some(page) = document.pages.get_mut(first + i) {
                furniture(
                    page,
                    section,
                    (i + 1, count, page_number),
                    origin,
                    &mut typesetter,
                );
            }
        }
    }
    document
}

/// Places slices on pages.
fn fill_pages(slices: &[Slice], origin: (f64, f64)) -> Vec<PageFrame> {
    let mut pages = vec![PageFrame::default()];
    let mut y = TOP;
    let mut fresh = true;
    let mut index = 0;
    // Page and lower edge of what stands beside the column.
    let mut side_end = (usize::MAX, 0.0);
    while index < slices.len() {
        // A group runs from here to the first slice that does not keep with the next.
        let mut end = index;
        while end + 1 < slices.len() && slices[end].keep {
            end += 1;
        }
        let group = &slices[index..=end];
        let height = needed(group, fresh);
        let breaks = group
            .first()
            .and_then(|s| s.new_page)
            .is_some_and(|unless| unless == 0.0 || BOTTOM - y < unless);
        let fits = y + height <= BOTTOM + 1e-6;
        if (breaks || !fits) && !fresh {
            pages.push(PageFrame::default());
            y = TOP;
            fresh = true;
            if let Some(head) = group.first().and_then(|s| s.repeat_head.clone()) {
                place(&head, y, origin, pages.last_mut());
                y += head.height;
                fresh = false;
            }
        }
        for slice in group {
            if slice.clear && side_end.0 == pages.len() && side_end.1 > y {
                y = side_end.1;
            }
            let gap = if fresh { 0.0 } else { slice.gap };
            // A group taller than a page breaks where it must.
            if y + gap + slice.height > BOTTOM + 1e-6 && !fresh && y > TOP + 1e-6 {
                pages.push(PageFrame::default());
                y = TOP;
                place(slice, y, origin, pages.last_mut());
                y += slice.height;
            } else {
                place(slice, y + gap, origin, pages.last_mut());
                if let Some(side) = &slice.side {
                    place(side, y + gap, origin, pages.last_mut());
                    side_end = (pages.len(), y + gap + side.height);
                }
                y += gap + slice.height;
            }
            fresh = fresh && slice.height == 0.0;
        }
        index = end + 1;
    }
    pages
}

/// The height that a group takes, what stands beside its slices included.
fn needed(group: &[Slice], fresh: bool) -> f64 {
    let (mut end, mut lowest) = (0.0, 0.0_f64);
    for (i, slice) in group.iter().enumerate() {
        let top = end + if i == 0 && fresh { 0.0 } else { slice.gap };
        end = top + slice.height;
        let side = slice.side.as_ref().map_or(0.0, |side| side.height);
        lowest = lowest.max(end).max(top + side);
    }
    lowest
}

fn place(slice: &Slice, y: f64, (left, top): (f64, f64), page: Option<&mut PageFrame>) {
    let Some(page) = page else { return };
    let (dx, dy) = (left, top + y);
    for item in &slice.items {
        page.items.push(Item {
            mark: moved(&item.mark, dx, dy),
            node: item.node,
        });
    }
    for link in &slice.links {
        let (x0, y0, x1, y1) = link.area;
        page.links.push(LinkArea {
            area: (x0 + dx, y0 + dy, x1 + dx, y1 + dy),
            href: link.href.clone(),
        });
    }
    for node in &slice.headings {
        page.headings.push((*node, dy));
    }
}

/// A mark moved by so much.
pub(super) fn moved(mark: &Mark, dx: f64, dy: f64) -> Mark {
    let path = |path: &Path| path.placed((dx, dy), (1.0, 1.0));
    match mark {
        Mark::Run(run) => Mark::Run(Run {
            x: run.x + dx,
            y: run.y + dy,
            ..run.clone()
        }),
        Mark::Fill(p, paint) => Mark::Fill(path(p), *paint),
        Mark::Line(p, stroke) => Mark::Line(path(p), *stroke),
        Mark::Both(p, paint, stroke) => Mark::Both(path(p), *paint, *stroke),
    }
}

/// Running head and foot.
fn furniture(
    page: &mut PageFrame,
    section: &Section,
    (number, of, page_number): (usize, usize, usize),
    (left, top): (f64, f64),
    typesetter: &mut Typesetter,
) {
    // `room` is the width that words may take; negative: as wide as they are, ending at x.
    let mut text = |words: &str, face: Face, size: f64, x: f64, y: f64, room: f64| -> f64 {
        let style =
            Style::new(face, size).in_paint(if size < 9.0 { Paint::Text2 } else { Paint::Ink });
        let words = if room < 0.0 {
            words.to_owned()
        } else {
            cut(words, room, style, typesetter)
        };
        let width = typesetter.width(&words, style);
        let glyphs = typesetter.shape(&words, face, false);
        let x = if room < 0.0 { x - width } else { x };
        let run = Run {
            face,
            size,
            paint: style.paint,
            x: left + x,
            y: top + y,
            glyphs,
        };
        page.items.push(Item {
            mark: Mark::Run(run),
            node: None,
        });
        width
    };
    let mut x = 0.0;
    if !section.guild.is_empty() {
        x = text(&section.guild, Face::Bold, 9.0, 0.0, 4.2, f64::MAX) + 3.0;
    }
    let right = if of > 1 {
        format!("{} · page {number} of {of}", section.label)
    } else {
        section.label.clone()
    };
    let taken = text(&right, Face::SemiBold, 9.0, WIDTH, 4.2, -1.0);
    text(
        &section.course,
        Face::Regular,
        9.0,
        x,
        4.2,
        WIDTH - x - taken - 4.0,
    );
    text(&section.foot, Face::Regular, 8.5, 0.0, 253.4, WIDTH - 12.0);
    text(
        &page_number.to_string(),
        Face::Regular,
        8.5,
        WIDTH,
        253.4,
        -1.0,
    );
    let mut rule = |y: f64, stroke: Stroke| {
        let path = Path::line(&[(left, top + y), (left + WIDTH, top + y)]);
        page.items.push(Item {
            mark: Mark::Line(path, stroke),
            node: None,
        });
    };
    rule(6.2, Stroke::new(Paint::Ink, 0.35));
    rule(249.4, Stroke::new(Paint::Rule, 0.2));
}

/// Cuts words that would run into others.
fn cut(text: &str, room: f64, style: Style, typesetter: &mut Typesetter) -> String {
    if typesetter.width(text, style) <= room {
        return text.to_owned();
    }
    let mut kept = text.to_owned();
    while kept.pop().is_some() {
        let shown = format!("{}…", kept.trim_end());
        if typesetter.width(&shown, style) <= room {
            return shown;
        }
    }
    String::new()
}
