//! Yokeward makes graded colourwork courses.
//!
//! The house, from the ground up. A room names only those above it in this list, and no two files of a room name each
//! other; a test checks both.
//!
//! 1. [`ground`]: units, colours, statistics, faults. Needs nothing.
//! 2. [`course`]: charts, bodies, lessons, logs, with no name left to look up. Knows no text and no disk.
//! 3. [`read`]: YAML and Markdown become a [`course::Course`], with every fault of the run. Only [`app`], [`desk`]
//!    and [`cli`] name it.
//! 4. [`trace`]: a picture of a chart becomes its cells. Knows neither charts nor words.
//! 5. [`rows`]: the rows as they are worked; what is measured, caught, tamed and graded in them. Knows no size but the
//!    middle one, and no words.
//! 6. [`piece`]: a lesson in every size, stage by stage; yarn, time, yarns that clash.
//! 7. [`study`]: all that is known of a lesson, worked out once and passed on.
//! 8. [`path`]: steps, the order, what closes a gap, what comes next.
//! 9. [`words`]: facts become sentences, in the words of a course; nothing after it forms any.
//! 10. [`report`]: facts become JSON.
//! 11. [`picture`]: drawings in millimetres. Knows no paper and no format.
//! 12. [`handout`]: all that a page says. Knows no paper.
//! 13. [`page`]: templates become blocks, blocks become HTML, Markdown and PDF; all of it a pack of bytes.
//! 14. [`app`]: joins the steps, with threads (so do `page::pack` and `trace`); writes a set to the disk at once.
//! 15. [`desk`]: a local page on which all of it can be done.
//! 16. [`cli`]: talks to people.
//!
//! As a library it measures a chart, orders lessons and makes a handout without a disk:
//!
//! ```
//! use yokeward::app::{BareOptions, PackOptions, pack, study_chart, study_course};
//! use yokeward::read::{Text, load_texts};
//!
//! let file = |path: &str, text: &str| Text {
//!     shown: path.to_owned(),
//!     inside: path.to_owned(),
//!     text: Some(text.to_owned()),
//! };
//! let chart = "title: Dot\nrights: own\ncolours: { \".\": ground, x: motif }\nrows: |\n  ..x.\n  ....\n";
//! let lesson = "title: Dot band\nmakes: headband\ngauge: { colourwork: { stitches: 20, rows: 26 } }\n\
//!     colours: { ground: { name: Peat, hex: \"#3b2f2a\" }, motif: { name: Fleece, hex: \"#f2ead8\" } }\n\
//!     bands: [ { chart: dot } ]\nsizes: [adult-medium]\n";
//! let texts = vec![file("charts/dot.yaml", chart), file("01-dot-band.yaml", lesson), file("course.yaml", "title: Dots\n")];
//! let loaded = load_texts("dots", texts, true);
//! assert!(!loaded.has_errors());
//!
//! let dot = study_chart(&loaded.course.charts["dot"], BareOptions::default(), &loaded.course);
//! assert_eq!(dot.measures.floats.longest, 3);
//!
//! let studied = study_course(&loaded.course);
//! assert_eq!(studied.order.placed.len(), 1);
//!
//! let files = pack(&loaded, &[], PackOptions::default(), &|_| {}).expect("built-in templates are valid");
//! let handout = String::from_utf8_lossy(&files["lessons/01-dot-band/handout.md"]);
//! assert!(handout.contains("# Dot band"));
//! ```

// Each module stands alone between blank lines, so that the formatter keeps this order, which is the layer order.

pub mod ground;

pub mod course;

pub mod read;

pub mod trace;

pub mod rows;

pub mod piece;

pub mod study;

pub mod path;

pub mod words;

pub mod report;

pub mod picture;

pub mod handout;

pub mod page;

pub mod app;

pub mod desk;

pub mod cli;
