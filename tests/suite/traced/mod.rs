//! Charts read from their pictures. Every picture is drawn from a chart that is known; `tests/bench/traced.rs` reads two
//! hundred of them, which takes too long without optimization, and `tests/outside/traced.py` pages of the program's own PDFs.

mod sheet;

use yokeward::app::{chart_picture, traced_chart};
use yokeward::trace::{CornerFault, Glimpse, Options, Refusal, check, picture_of, trace};

use crate::demo_course::demo;
use crate::harness::yokeward;
use sheet::{Kind, Sheet, right};

#[test]
fn pictures_of_every_kind_are_read_cell_by_cell() {
    for (kind, seed) in [
        (Kind::Clean, 19),
        (Kind::Scan, 18),
        (Kind::Pencil, 8),
        (Kind::Photo, 15),
    ] {
        let sheet = Sheet::of(kind, seed);
        let read = trace(&sheet.file(), &Options::default()).unwrap();
        assert_eq!(
            (read.stitches, read.rows),
            (sheet.stitches, sheet.rows),
            "{kind:?}"
        );
        assert_eq!(
            right(&read.cells, &sheet.cells),
            sheet.cells.len(),
            "{kind:?}"
        );
        let pitch = (sheet.corners[1][0] - sheet.corners[0][0]).abs() / sheet.stitches as f64;
        for (found, drawn) in read.corners.iter().zip(sheet.corners) {
            let off = (found[0] - drawn[0]).hypot(found[1] - drawn[1]);
            assert!(off < pitch / 2.0, "{kind:?}: {off:.1} pixels");
        }
    }
}

#[test]
fn a_size_that_is_not_there_and_corners_that_are_known() {
    let sheet = Sheet::of(Kind::Scan, 18);
    let file = sheet.file();
    let size = (sheet.stitches, sheet.rows);
    let other = Options {
        size: Some((size.0 + 1, size.1)),
        ..Options::default()
    };
    let refused = Refusal::OtherSize {
        found: size,
        wanted: (size.0 + 1, size.1),
    };
    assert_eq!(trace(&file, &other), Err(refused));
    let corners = Options {
        corners: Some(sheet.corners),
        ..Options::default()
    };
    let counted = trace(&file, &corners).unwrap();
    assert_eq!((counted.stitches, counted.rows), size);
    let both = Options {
        size: Some(size),
        ..corners
    };
    let read = trace(&file, &both).unwrap();
    assert_eq!(right(&read.cells, &sheet.cells), sheet.cells.len());
}

/// Every chart of the demo as a picture of one pixel a cell, and of blocks of three by two, comes back as it was.
#[test]
fn a_chart_as_a_picture_reads_back() {
    for chart in demo().course.charts.values() {
        let picture = chart_picture(chart).unwrap();
        let read = trace(&picture, &Options::default()).unwrap();
        let back = traced_chart(&read, "back");
        assert_eq!(
            (back.width, back.height),
            (chart.width, chart.height),
            "{}",
            chart.id
        );
        assert_eq!(
            right(&back.cells, &chart.cells),
            chart.cells.len(),
            "{}",
            chart.id
        );
        let cells: Vec<[u8; 3]> = (0..chart.height * 2)
            .flat_map(|y| (0..chart.width * 3).map(move |x| (x / 3, y / 2)))
            .map(|(x, y)| [20 * chart.row(y)[x], 90, 30 + 40 * chart.row(y)[x]])
            .collect();
        let blocks = picture_of((chart.width * 3, chart.height * 2), &cells).unwrap();
        let read = trace(&blocks, &Options::default()).unwrap();
        assert_eq!(
            (read.stitches, read.rows),
            (chart.width, chart.height),
            "{}",
            chart.id
        );
    }
}

#[test]
fn what_is_no_chart_is_refused_and_never_guessed() {
    let picture = Sheet::of(Kind::Clean, 19).file();
    assert_eq!(
        trace(b"a chart, honestly", &Options::default()),
        Err(Refusal::NotAPicture)
    );
    assert_eq!(trace(b"", &Options::default()), Err(Refusal::NotAPicture));
    for cut in [9, 60, picture.len() / 2, picture.len() - 20] {
        let read = trace(&picture[..cut], &Options::default());
        assert!(
            matches!(read, Err(Refusal::Unreadable(_))),
            "cut at {cut}: {read:?}"
        );
    }
    // A PNG head that promises 60,000 by 60,000 pixels (PNG specification, 11.2.2), its checksum made anew.
    let mut head = b"IHDR".to_vec();
    head.extend([0, 0, 0xea, 0x60, 0, 0, 0xea, 0x60, 8, 2, 0, 0, 0]);
    let sum = head.iter().fold(!0_u32, |crc, byte| {
        (0..8).fold(crc ^ u32::from(*byte), |c, _| {
            (c >> 1) ^ (0xedb8_8320 & (c & 1).wrapping_neg())
        })
    });
    let mut huge = b"\x89PNG\r\n\x1a\n\x00\x00\x00\x0d".to_vec();
    huge.extend(head);
    huge.extend((!sum).to_be_bytes());
    huge.extend(b"\x00\x00\x00\x00IDAT\x35\xaf\x06\x1e");
    let refused = trace(&huge, &Options::default());
    assert!(
        matches!(
            refused,
            Err(Refusal::TooLarge { .. } | Refusal::Unreadable(_))
        ),
        "{refused:?}"
    );
    // A JPEG that is cut off has no end, though its decoder would go on.
    let photo = Sheet::of(Kind::Scan, 18).file();
    let cut = trace(&photo[..photo.len() * 3 / 5], &Options::default());
    assert!(matches!(cut, Err(Refusal::Unreadable(_))), "{cut:?}");
    // Corners that cannot be: outside, against the clock, on a line, of no size.
    let corners = |corners: [[f64; 2]; 4]| {
        let size = Some((30, 20));
        let options = Options {
            corners: Some(corners),
            size,
            ..Options::default()
        };
        trace(&photo, &options).map(|read| read.cells.len())
    };
    let far = [[9e3, 9e3], [1e4, 9e3], [1e4, 1e4], [9e3, 1e4]];
    assert_eq!(corners(far), Err(Refusal::Corners(CornerFault::Outside)));
    let back = [[10.0, 10.0], [10.0, 300.0], [300.0, 300.0], [300.0, 10.0]];
    assert_eq!(corners(back), Err(Refusal::Corners(CornerFault::Order)));
    let line = [[10.0, 10.0], [100.0, 10.0], [200.0, 10.0], [300.0, 10.0]];
    assert_eq!(corners(line), Err(Refusal::Corners(CornerFault::Order)));
    let small = [[10.0, 10.0], [40.0, 10.0], [40.0, 40.0], [10.0, 40.0]];
    assert_eq!(corners(small), Err(Refusal::Corners(CornerFault::Small)));
    // A drawn grid cut through its squares is no drawing of pixels.
    let squares = |i: usize| match (i % 90 % 20 < 2, i / 90 % 20 < 2) {
        (false, false) => [200, 30, 30],
        _ => [90, 90, 90],
    };
    let squares: Vec<[u8; 3]> = (0..90 * 70).map(squares).collect();
    let squares = picture_of((90, 70), &squares).unwrap();
    let read = trace(&squares, &Options::default()).map(|read| (read.stitches, read.rows));
    assert!(read.is_err() || read.is_ok_and(|(w, h)| w <= 5 && h <= 4));
    // Clouds: no line anywhere.
    let cloud = |i: usize| {
        let (x, y) = ((i % 120) as f64 / 19.0, (i / 120) as f64 / 23.0);
        [
            (128.0 + 60.0 * (x + y.sin()).sin()) as u8,
            (128.0 + 60.0 * (y - x.cos()).sin()) as u8,
            140,
        ]
    };
    let clouds: Vec<[u8; 3]> = (0..120 * 120).map(cloud).collect();
    let clouds = picture_of((120, 120), &clouds).unwrap();
    assert!(matches!(
        trace(&clouds, &Options::default()),
        Err(Refusal::NoGrid(Glimpse { .. }))
    ));
}

/// The command writes a chart that is whole, measures, and may be printed once its rights are set.
#[test]
fn the_file_is_a_chart_and_says_what_to_look_at() {
    let folder = tempfile::tempdir().unwrap();
    let sheet = Sheet::of(Kind::Clean, 19);
    std::fs::write(folder.path().join("shore band.png"), sheet.file()).unwrap();
    let run = |arguments: &[&str]| yokeward(folder.path(), arguments);
    let (code, out, err) = run(&["trace", "shore band.png", "--check", "seen.png"]);
    assert_eq!(code, 0, "{err}");
    insta::assert_snapshot!("traced", format!("{out}{err}"));
    let text = std::fs::read_to_string(folder.path().join("shore-band.yaml")).unwrap();
    insta::assert_snapshot!("traced_file", text);
    assert_eq!(run(&["proof", "shore-band.yaml"]).0, 0);
    let (code, measured, _) = run(&["measure", "--json", "shore-band.yaml"]);
    assert_eq!(code, 0);
    let head = format!("\"stitches\":{},\"rows\":{}", sheet.stitches, sheet.rows);
    assert!(measured.contains(&head), "{measured}");
    // Nothing is written over.
    assert_eq!(run(&["trace", "shore band.png"]).0, 2);
    let seen = std::fs::read(folder.path().join("seen.png")).unwrap();
    assert!(seen.starts_with(b"\x89PNG"));
    let (code, json, _) = run(&["trace", "--json", "shore band.png"]);
    assert_eq!(code, 0);
    assert!(json.starts_with("{\"format\":\"yokeward/trace/1\""));
    std::fs::write(folder.path().join("text.png"), "no picture").unwrap();
    let (code, out, err) = run(&["trace", "text.png"]);
    assert_eq!((code, out.as_str()), (1, ""));
    insta::assert_snapshot!("traced_refused", err);
}

/// Once somebody says whose it is, a traced chart is printed as any other.
#[test]
fn a_traced_chart_makes_a_lesson_when_its_rights_are_known() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::create_dir_all(folder.path().join("shore/charts")).unwrap();
    let write = |name: &str, bytes: &[u8]| std::fs::write(folder.path().join(name), bytes).unwrap();
    write("band.png", &Sheet::of(Kind::Clean, 19).file());
    let run = |arguments: &[&str]| yokeward(folder.path(), arguments);
    let (code, _, err) = run(&["trace", "band.png", "--to", "shore/charts/band.yaml"]);
    assert_eq!(code, 0, "{err}");
    write("shore/course.yaml", b"title: Shore\n");
    let lesson = "title: Band\nmakes: scarf\nworked: round\ngauge: { colourwork: { stitches: 20, rows: 26 } }\ncolours:\n  ground: { name: Tide, hex: \"#205062\" }\n  colour-2: { name: Foam, hex: \"#f7eeda\" }\n  colour-3: { name: Mist, hex: \"#cad6dc\" }\nbands: [ { chart: band } ]\n";
    write("shore/01-strip.yaml", lesson.as_bytes());
    let page = |name: &str| {
        let (code, _, err) = run(&["pack", "shore", "--to", name]);
        assert_eq!(code, 0, "{err}");
        let made = folder
            .path()
            .join(name)
            .join("shore/lessons/01-strip/handout.md");
        std::fs::read_to_string(made).unwrap()
    };
    assert!(!page("before").contains("in words"));
    let chart = std::fs::read_to_string(folder.path().join("shore/charts/band.yaml")).unwrap();
    write(
        "shore/charts/band.yaml",
        chart.replace("reference-only", "own").as_bytes(),
    );
    assert!(page("after").contains("in words"));
}

/// A telephone held upside down says so in its picture (EXIF 2.32, tag 274, value 3).
#[test]
fn a_picture_is_turned_as_its_note_says() {
    let sheet = Sheet::of(Kind::Scan, 18);
    let file = sheet.file();
    let note: &[u8] = b"Exif\0\0MM\0\x2a\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x03\0\0\0\0\0\0";
    let mut turned = file[..2].to_vec();
    turned.extend(b"\xff\xe1");
    turned.extend((note.len() as u16 + 2).to_be_bytes());
    turned.extend(note);
    turned.extend(&file[2..]);
    let read = trace(&turned, &Options::default()).unwrap();
    let drawn: Vec<u8> = sheet.cells.iter().rev().copied().collect();
    assert_eq!(right(&read.cells, &drawn), drawn.len());
}

#[test]
fn a_drawing_to_check_by_rings_what_is_unsure() {
    let sheet = Sheet::of(Kind::Clean, 19);
    let file = sheet.file();
    let mut read = trace(&file, &Options::default()).unwrap();
    let plain = check(&file, &read).unwrap();
    assert_eq!(plain, check(&file, &read).unwrap());
    let unsure = yokeward::trace::Unsure {
        place: (1, 2),
        colour: 0,
        instead: 1,
        certainty: 0.1,
    };
    read.uncertain.push(unsure);
    assert_ne!(plain, check(&file, &read).unwrap());
}
