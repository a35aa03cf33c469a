//! Yarn and time against published relations and the trade's rules of thumb.

use yokeward::ground::units::Gauge;
use yokeward::piece::StageKind;
use yokeward::piece::time;
use yokeward::piece::yarn::{Basis, amounts, loop_length};

use crate::harness::{all_pieces, course, read};

#[test]
fn loops_follow_mundens_relation() {
    // Fully relaxed plain knitting, Kc 5.5, Kw 4.2, loops of 0.5 cm: 92 to a square centimetre (worked example of the
    // GATE 2015 examination, textile engineering, after Munden, J. Text. Inst. 50, T448, 1959).
    let ks: f64 = 5.5 * 4.2;
    let density = ks / (0.5 * 0.5);
    assert_eq!(density.round(), 92.0);
    let side = density.sqrt() * 10.0;
    let gauge = Gauge {
        stitches: side,
        rows: side,
    };
    assert!((loop_length(gauge, ks) - 5.0).abs() < 1e-9);
    // tests/reference/munden_loop_length.csv: Ks 19.0 dry and 21.6 wet relaxed (from memory), arithmetic to 1e-6.
    let table = read("tests/reference/munden_loop_length.csv");
    let mut rows = 0;
    for line in table.lines().filter(|l| !l.starts_with('#')).skip(1) {
        let cells: Vec<f64> = line.split(',').map(|c| c.parse().unwrap()).collect();
        let gauge = Gauge {
            stitches: cells[0],
            rows: cells[1],
        };
        for (ks, wanted) in [(19.0, cells[3]), (21.6, cells[4])] {
            assert!(
                (loop_length(gauge, ks) / wanted - 1.0).abs() < 1e-6,
                "{line}"
            );
        }
        rows += 1;
    }
    assert!(rows > 3);
}

#[test]
fn an_adult_hat_needs_eighty_to_a_hundred_and_eighty_metres() {
    // Common practice, no source: an adult's stranded hat at 20 x 26 to 10 cm.
    let loaded = crate::demo_course::demo();
    let mut hats = 0;
    for lesson in &loaded.course.lessons {
        let gauge = lesson.colourwork.gauge;
        if lesson.makes.name() != "hat" || (gauge.stitches, gauge.rows) != (20.0, 26.0) {
            continue;
        }
        for piece in all_pieces(lesson).unwrap() {
            if !piece.size.as_ref().is_some_and(|size| size.adult) {
                continue;
            }
            let (basis, all) = amounts(lesson, &piece).unwrap();
            assert_eq!(basis, Basis::Loops);
            let metres: f64 = all.iter().filter_map(|a| a.metres).sum();
            assert!((80.0..180.0).contains(&metres), "{}: {metres}", lesson.id);
            hats += 1;
        }
    }
    assert!(hats >= 4);
}

const SCARF: &str = "=== course.yaml\ntitle: C\n=== 01-it.yaml\ntitle: It\nmakes: swatch\nCRAFT\ngauge: { colourwork: { stitches: 20, rows: 26 }, plain: { stitches: 20, rows: 26 } }\nyarn: { metres_per_100g: 200 WEIGHED }\ncolours: { a: { name: Peat, hex: \"#3b2f2a\" }, b: { name: Fleece, hex: \"#f2ead8\" } }\nbands:\n  - plain: { rows: 10, colour: a }\n  - chart: dot\n=== charts/dot.yaml\ntitle: Dot\ncolours: { \".\": a, \"x\": b }\nrows: |\n  ...x\n  ....\nrights: own\n";

#[test]
fn stitches_are_counted_by_hand() {
    // 96 stitches: 10 plain rows of Peat, one chart row all Peat, one with a stitch of Fleece in four.
    let course = course(&SCARF.replace("CRAFT\n", "").replace("WEIGHED", ""));
    let lesson = &course.lessons[0];
    let piece = &all_pieces(lesson).unwrap()[0];
    let (_, all) = amounts(lesson, piece).unwrap();
    assert_eq!((all[0].stitches, all[1].stitches), (1056.0 + 72.0, 24.0));
    // Peat passes one stitch 24 times (two widths each), Fleece three stitches 24 times (four widths each).
    let loops = loop_length(lesson.colourwork.gauge, 21.6) / 1000.0;
    let float = |widths: f64| widths * 5.0 * 1.1 / 1000.0;
    let fleece = 24.0 * loops + 24.0 * float(4.0) + 0.3;
    assert!((all[1].metres.unwrap() - fleece).abs() < 1e-9);
    let peat = 1128.0 * loops + 24.0 * float(2.0) + 0.3;
    assert!((all[0].metres.unwrap() - peat).abs() < 1e-9);
    assert_eq!(all[1].grams.unwrap(), all[1].metres.unwrap() / 2.0);
    let spent = time::of_piece(lesson, piece);
    assert_eq!(spent.stranded, 96.0);
    // Cast on, ten rows, one plain chart row, cast off.
    assert_eq!(spent.plain, 96.0 * 13.0);
    assert!(
        piece.parts[0]
            .stages
            .iter()
            .any(|s| s.kind == StageKind::CastOff)
    );
    // 20 plain stitches a minute, 12 stranded; a range of 0.7 to 1.5.
    let hours = (96.0 * 13.0 / 20.0 + 96.0 / 12.0) / 60.0;
    assert!((spent.fluent().from - 0.7 * hours).abs() < 1e-9);
    assert!((spent.fluent().to - 1.5 * hours).abs() < 1e-9);
}

#[test]
fn crochet_without_a_weighed_swatch_gets_no_estimate() {
    let bare = course(
        &SCARF
            .replace("CRAFT", "craft: crochet")
            .replace("WEIGHED", ""),
    );
    let lesson = &bare.lessons[0];
    assert!(amounts(lesson, &all_pieces(lesson).unwrap()[0]).is_none());
    let weighed = SCARF.replace("CRAFT", "craft: crochet").replace(
        "WEIGHED",
        ", weighed: { stitches: 40, rows: 50, grams: 12 }",
    );
    let weighed = course(&weighed);
    let lesson = &weighed.lessons[0];
    let (basis, all) = amounts(lesson, &all_pieces(lesson).unwrap()[0]).unwrap();
    assert_eq!(basis, Basis::Weighed);
    // 12 g for 2000 stitches.
    assert!((all[1].grams.unwrap() - 24.0 * 12.0 / 2000.0).abs() < 1e-9);
}

#[test]
fn counts_of_the_json_stand_in_the_handout() {
    let folder = tempfile::tempdir().unwrap();
    let lessons = crate::harness::root().join("lessons");
    let to = folder.path().display().to_string();
    let (code, _, err) = crate::harness::yokeward(&lessons, &["pack", ".", "--to", &to]);
    assert_eq!(code, 0, "{err}");
    let (_, out, _) = crate::harness::yokeward(&lessons, &["fit", ".", "--json"]);
    let fit: serde_json::Value = serde_json::from_str(&out).unwrap();
    let order = std::fs::read_dir(folder.path().join("saltmarsh/lessons")).unwrap();
    let folders: Vec<std::path::PathBuf> = order.map(|e| e.unwrap().path()).collect();
    let mut checked = 0;
    for lesson in fit["lessons"].as_array().unwrap() {
        let id = lesson["id"].as_str().unwrap();
        let folder = folders
            .iter()
            .find(|f| f.to_str().unwrap().ends_with(&format!("-{id}")))
            .unwrap();
        let texts = ["handout.md", "handout.html"]
            .map(|name| std::fs::read_to_string(folder.join(name)).unwrap());
        let sizes = lesson["sizes"].as_array().unwrap();
        let numbers = |get: &dyn Fn(&serde_json::Value) -> u64| -> String {
            let all: Vec<String> = sizes.iter().map(|s| get(s).to_string()).collect();
            if all.iter().all(|n| *n == all[0]) {
                all[0].clone()
            } else {
                format!("{} ({})", all[0], all[1..].join(", "))
            }
        };
        let stages = sizes[0]["parts"][0]["stages"].as_array().unwrap().len();
        for stage in 0..stages {
            let after = numbers(&|s| s["parts"][0]["stages"][stage]["after"].as_u64().unwrap());
            let what = sizes[0]["parts"][0]["stages"][stage]["what"]
                .as_str()
                .unwrap();
            if what == "cast on" || what == "shaping rounds" || what == "set aside" {
                for text in &texts {
                    assert!(text.contains(&after), "{id}: {what} {after}");
                }
                checked += 1;
            }
        }
    }
    assert!(checked > 15, "{checked}");
}

#[test]
fn things_side_by_side_need_the_yarn_of_their_joined_rows() {
    // By hand, in Peat: the post of six rows has 2 + 2 + 1 + 2 + 1 + 2 stitches. Beside it stand 17 of a chart whose first
    // row is all Peat, six stitches, and whose two others, two stitches each, are worked again and again: 6 + 5 × 2.
    let loaded = crate::harness::load(&read("tests/fixtures/courses/flat.txt"));
    let mut lessons = loaded.course.lessons.iter();
    let lesson = lessons.find(|l| l.id == "slack-band").unwrap();
    let peat = lesson.yarns.iter().position(|yarn| yarn.name == "Peat");
    let piece = &all_pieces(lesson).unwrap()[0];
    assert_eq!(piece.cast_on(), 4 + 2 + 17 * 6);
    let (_, amounts) = amounts(lesson, piece).unwrap();
    assert_eq!(amounts[peat.unwrap()].stitches, 10.0 + 17.0 * 16.0);
}

/// A colour of which there are a few stitches needs its tails and little more: one ball, not a swatch of its own.
#[test]
fn a_rare_colour_is_bought_once() {
    let course = course(
        "=== course.yaml\ntitle: It\n=== charts/gorse.yaml\ntitle: Gorse\ncolours: { \".\": ground, x: motif, o: gorse }\nrights: own\nrows: |\n  ....\n  .xx.\n  .o..\n\
         === 01-cowl.yaml\ntitle: Cowl\nmakes: cowl\ngauge: { colourwork: { stitches: 20, rows: 26 }, plain: { stitches: 20, rows: 26 } }\n\
         yarn: { weight: 4, metres_per_100g: 180 }\ncolours:\n  ground: { name: Peat, hex: \"#3b2f2a\" }\n  motif: { name: Fleece, hex: \"#f2ead8\" }\n  gorse: { name: Gorse, hex: \"#e0b020\" }\n\
         bands: [ { plain: { rows: 20, colour: ground } }, { chart: gorse }, { plain: { rows: 20, colour: ground } } ]\nsizes: [adult-medium]\n",
    );
    let lesson = &course.lessons[0];
    let piece = &all_pieces(lesson).unwrap()[0];
    let (_, amounts) = amounts(lesson, piece).unwrap();
    let gorse = amounts[2];
    // A quarter of one round of about 120 stitches: thirty stitches, the strand behind the others, two tails of 15 cm.
    assert!((25.0..35.0).contains(&gorse.stitches), "{gorse:?}");
    let metres = gorse.metres.unwrap();
    assert!((1.0..3.0).contains(&metres), "{metres}");
    assert_eq!(gorse.balls, Some(1));
}
