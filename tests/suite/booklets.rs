//! Booklets: the order of pages on sheets, and what a reader finds on them.

use lopdf::Document;
use yokeward::app::{PackOptions, pack, pages};
use yokeward::course::Paper;
use yokeward::page::pdf::{PageMark, sheets};

#[test]
fn pages_stand_where_folding_puts_them() {
    // Orders for 4, 8 and 16 pages as printers' guides give them (4: 4 1 / 2 3; 8: 8 1 / 2 7, 6 3 / 4 5).
    assert_eq!(sheets(4), [(4, 1), (2, 3)]);
    assert_eq!(sheets(8), [(8, 1), (2, 7), (6, 3), (4, 5)]);
    let sixteen = [
        (16, 1),
        (2, 15),
        (14, 3),
        (4, 13),
        (12, 5),
        (6, 11),
        (10, 7),
        (8, 9),
    ];
    assert_eq!(sheets(16), sixteen);
    for pages in 1..=32 {
        let order = sheets(pages);
        let n = 4 * pages.div_ceil(4);
        // The two pages of a side sum to n + 1, odd ones stand right, every page comes once.
        assert!(order.iter().all(|(l, r)| l + r == n + 1));
        let mut all: Vec<usize> = order.iter().flat_map(|(l, r)| [*l, *r]).collect();
        all.sort_unstable();
        assert_eq!(all, (1..=n).collect::<Vec<_>>());
    }
    // Eighteen pages: twenty places, the last two blank.
    assert_eq!(sheets(18)[0], (20, 1));
    assert_eq!(sheets(18).len(), 10);
}

#[test]
fn a_booklet_shows_every_page_once_on_a_sheet_turned_on_its_side() {
    let loaded = crate::demo_course::demo();
    let options = PackOptions {
        booklet: true,
        ..PackOptions::default()
    };
    let files = pack(&loaded, &[], options, &|_| {}).unwrap();
    let mut seen = 0;
    for (name, bytes) in files
        .iter()
        .filter(|(name, _)| name.ends_with("handout-booklet.pdf"))
    {
        let pages = Document::load_mem(&files[&name.replace("-booklet", "")]).unwrap();
        let pages = pages.get_pages().len();
        let booklet = Document::load_mem(bytes).unwrap();
        let sides: Vec<u32> = booklet.get_pages().into_keys().collect();
        assert_eq!(sides.len(), 2 * pages.div_ceil(4), "{name}");
        for (side, (left, right)) in sides.iter().zip(sheets(pages)) {
            // Running heads read "page 3 of 6"; the page that is read first is written first.
            let text = booklet.extract_text(&[*side]).unwrap();
            let words: Vec<&str> = text.split_whitespace().collect();
            let heads = words.windows(3).filter(|w| w[0] == "page" && w[2] == "of");
            let shown: Vec<usize> = heads.filter_map(|w| w[1].parse().ok()).collect();
            let mut wanted: Vec<usize> =
                [left, right].into_iter().filter(|p| *p <= pages).collect();
            wanted.sort_unstable();
            assert_eq!(shown, wanted, "{name}");
        }
        seen += 1;
    }
    assert_eq!(seen, loaded.course.lessons.len());
}

/// The pages of a pile in the order in which they are read once it is folded: the right halves of the fronts and the left
/// halves of the backs from the outer sheet inwards, then back out again.
fn folded(pile: &[(usize, usize)]) -> Vec<usize> {
    let fronts = pile.iter().step_by(2);
    let backs = pile.iter().skip(1).step_by(2);
    let mut read: Vec<usize> = Vec::new();
    for (front, back) in fronts.clone().zip(backs.clone()) {
        read.extend([front.1, back.0]);
    }
    let inner: Vec<usize> = fronts
        .zip(backs)
        .flat_map(|(front, back)| [front.0, back.1])
        .collect();
    read.extend(inner.into_iter().rev());
    read
}

/// Eighteen pages are the case that leaves two places blank: the sheets are put together as a folder would lie, and read.
#[test]
fn a_course_of_eighteen_pages_reads_in_order_once_folded() {
    assert_eq!(folded(&sheets(18)), (1..=20).collect::<Vec<_>>());
}

/// More than eight sheets are folded in piles of about the same height, which lie one upon the other.
#[test]
fn a_long_course_is_folded_in_piles_that_lie_flat() {
    for pages in 33..140 {
        let order = sheets(pages);
        let piles = pages.div_ceil(4).div_ceil(8);
        // A pile begins where the left page of a front is no longer lower than the one before.
        let fronts: Vec<usize> = order.iter().step_by(2).map(|(left, _)| *left).collect();
        let begins: Vec<usize> = (0..fronts.len())
            .filter(|i| *i == 0 || fronts[*i] > fronts[*i - 1])
            .collect();
        assert_eq!(begins.len(), piles, "{pages} pages");
        let mut read = Vec::new();
        let mut heights = Vec::new();
        for (i, begin) in begins.iter().enumerate() {
            let end = begins.get(i + 1).copied().unwrap_or(fronts.len());
            heights.push(end - begin);
            read.extend(folded(&order[2 * begin..2 * end]));
        }
        let (low, high) = (heights.iter().min().unwrap(), heights.iter().max().unwrap());
        assert!(*high <= 8 && high - low <= 1, "{pages} pages: {heights:?}");
        assert_eq!(read, (1..=4 * pages.div_ceil(4)).collect::<Vec<_>>());
    }
}

#[test]
fn black_pages_tell_every_colour_by_a_symbol_of_its_own() {
    use yokeward::picture::symbol_order;
    let loaded = crate::demo_course::demo();
    let studied = yokeward::app::study_course(&loaded.course);
    let mut charts = 0;
    let print = yokeward::handout::Print {
        ink: yokeward::course::Printer::Black,
        ..Default::default()
    };
    for handout in yokeward::handout::handouts(&studied, &print) {
        for picture in handout
            .charts
            .iter()
            .filter_map(|sheet| sheet.picture.as_ref())
        {
            assert!(!picture.fills);
            let colours: Vec<_> = picture.looks.iter().map(|look| look.rgb).collect();
            let symbols = symbol_order(&colours);
            for (i, a) in symbols.iter().enumerate() {
                assert!(symbols[..i].iter().all(|b| a != b), "{}", handout.id);
            }
            for part in yokeward::picture::parts_of(picture) {
                let drawing = picture.draw(&part);
                let yarn = |paint: &yokeward::picture::Paint| {
                    matches!(paint, yokeward::picture::Paint::Yarn(_))
                };
                let filled = drawing.shapes.iter().any(|shape| match shape {
                    yokeward::picture::Shape::Fill(_, paint) => yarn(paint),
                    yokeward::picture::Shape::Stamps { fill, .. } => {
                        fill.as_ref().is_some_and(yarn)
                    }
                    _ => false,
                });
                assert!(!filled, "{}", handout.id);
            }
            charts += 1;
        }
    }
    assert!(charts > 8);
}

/// Width and height of every link of a document, in points.
fn link_sizes(bytes: &[u8]) -> Vec<(f32, f32, f32, f32)> {
    let document = Document::load_mem(bytes).unwrap();
    let mut found = Vec::new();
    for page in document.get_pages().into_values() {
        let annotations = document.get_page_annotations(page).unwrap();
        for dict in annotations {
            let rect = dict.get(b"Rect").unwrap().as_array().unwrap();
            let at = |i: usize| rect[i].as_float().unwrap();
            found.push((at(0), at(1), at(2) - at(0), at(3) - at(1)));
        }
    }
    found
}

#[test]
fn links_of_a_booklet_lie_where_its_smaller_words_do() {
    let loaded = crate::demo_course::demo();
    let options = PackOptions {
        booklet: true,
        ..PackOptions::default()
    };
    let files = pack(&loaded, &[], options, &|_| {}).unwrap();
    let (plain, folded) = (
        link_sizes(&files["course.pdf"]),
        link_sizes(&files["course-booklet.pdf"]),
    );
    assert_eq!(plain.len(), folded.len());
    assert!(plain.len() >= 12, "{}", plain.len());
    // The 180 mm of a page's text on half a sheet of A4 (ISO 216: 148.5 mm) less 7.5 mm at either side.
    let sizes = |links: &[(f32, f32, f32, f32)], scale: f32| {
        let mut all: Vec<(i64, i64)> = links
            .iter()
            .map(|(_, _, w, h)| ((w * scale).round() as i64, (h * scale).round() as i64))
            .collect();
        all.sort_unstable();
        all
    };
    for ((w, h), (fw, fh)) in sizes(&plain, 133.5 / 180.0).iter().zip(sizes(&folded, 1.0)) {
        assert!(
            (w - fw).abs() <= 1 && (h - fh).abs() <= 1,
            "{w}×{h} {fw}×{fh}"
        );
    }
    for (x, y, w, h) in folded {
        // Inside the sheet, and not across its fold.
        let (from, to) = (x, x + w);
        assert!(from > 0.0 && to < 841.9 && y > 0.0 && y + h < 595.3);
        assert!(to <= 421.0 || from >= 420.9, "{from} {to}");
    }
}

/// Running heads of a booklet are of 7 pt and more, on either paper: their size on the page, and how much smaller it gets.
#[test]
fn running_heads_of_a_booklet_can_be_read() {
    let loaded = crate::demo_course::demo();
    for paper in [Paper::A4, Paper::Letter] {
        let options = PackOptions {
            booklet: true,
            paper: Some(paper),
            ..PackOptions::default()
        };
        let documents = pages(&loaded, &[], options.clone()).unwrap();
        let page = &documents["lessons/06-pebble-hat/handout.pdf"].pages[1];
        let heads = page.furniture.iter().filter_map(|mark| match mark {
            PageMark::Run(run) if run.text() == "Saltmarsh Guild" => Some(run.size),
            _ => None,
        });
        let head = heads.fold(f64::MAX, f64::min);
        let files = pack(&loaded, &[], options, &|_| {}).unwrap();
        let folded = Document::load_mem(&files["quiz-booklet.pdf"]).unwrap();
        let sheet = folded.get_pages()[&1];
        let content = folded.get_and_decode_page_content(sheet).unwrap();
        let scale = content
            .operations
            .iter()
            .find(|o| o.operator == "cm")
            .unwrap();
        let scale = f64::from(scale.operands[0].as_float().unwrap());
        assert!(
            head < 12.0 && head * scale >= 7.0,
            "{paper:?}: {head} × {scale}"
        );
    }
}
