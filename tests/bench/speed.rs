//! Speed of what matters: measuring, the history of words, a whole pack. Run with `cargo bench`.

use divan::counter::ItemsCount;
use yokeward::app::{self, BareOptions};
use yokeward::course::Weights;
use yokeward::course::chart::{Chart, to_yaml};
use yokeward::ground::units::{FloatLimit, Gauge};
use yokeward::path::learner::{Aim, Filter, History, next};
use yokeward::path::{Map, State, Stop, route};
use yokeward::read::{Links, Loaded, Text, load_paths, load_texts};
use yokeward::rows::grade::Demand;
use yokeward::rows::measure::lempel_ziv;
use yokeward::rows::tame::{Request, tame};
use yokeward::rows::walk::BareSettings;
use yokeward::study;

fn main() {
    divan::main();
}

/// A chart of these columns and rows, of two colours in small motifs with plain rows between.
fn load(width: usize, height: usize) -> Loaded {
    let mut state = 88_172_645_463_325_252_u64;
    let mut rows = String::new();
    for row in 0..height {
        rows.push_str("  ");
        for _ in 0..width {
            state ^= state << 13;
            state ^= state >> 7;
            state ^= state << 17;
            rows.push(if row % 7 == 0 || state % 5 < 3 {
                '.'
            } else {
                'x'
            });
        }
        rows.push('\n');
    }
    let text =
        format!("title: Field\ncolours: {{ \".\": a, \"x\": b }}\nrights: own\nrows: |\n{rows}");
    let inside = "charts/field.yaml".to_owned();
    load_texts(
        "",
        vec![Text {
            shown: inside.clone(),
            inside,
            text: Some(text),
        }],
        false,
    )
}

fn settings() -> BareSettings {
    BareSettings {
        gauge: Gauge::BARE_CHART,
        limit: FloatLimit::default(),
    }
}

fn field(loaded: &Loaded) -> Option<&Chart> {
    loaded.course.charts.values().next().map(|chart| &**chart)
}

/// Cells a second, everything included; the second chart is twice as high.
#[divan::bench(args = [60, 120, 240])]
fn measure_96_columns(bencher: divan::Bencher<'_, '_>, height: usize) {
    let loaded = load(96, height);
    bencher
        .counter(ItemsCount::new(96 * height))
        .bench_local(|| {
            field(&loaded).map(|chart| study::chart(chart, settings(), &loaded.course).grade.grade)
        });
}

#[divan::bench]
fn lempel_ziv_of_5760_cells(bencher: divan::Bencher<'_, '_>) {
    let loaded = load(96, 60);
    let cells = field(&loaded)
        .map(|chart| chart.cells.clone())
        .unwrap_or_default();
    bencher
        .counter(ItemsCount::new(cells.len()))
        .bench_local(|| lempel_ziv(&cells));
}

/// A chart of 200 × 200 cells with floats of three at most afterwards; a 200-cell row is solved as one ring.
#[divan::bench(sample_count = 10)]
fn tame_200_by_200(bencher: divan::Bencher<'_, '_>) {
    let loaded = load(200, 200);
    let request = Request {
        longest: 3,
        ..Request::default()
    };
    bencher.bench_local(|| {
        field(&loaded).map(|chart| tame(chart, request).map(|tamed| tamed.cells.len()))
    });
}

/// Ten thousand charts of different sizes in one folder.
fn shelf() -> Loaded {
    let mut texts = Vec::new();
    for i in 0..10_000_usize {
        let loaded = load(6 + i % 30, 4 + i % 23);
        let Some(chart) = field(&loaded) else {
            continue;
        };
        let inside = format!("charts/c{i}.yaml");
        texts.push(Text {
            shown: inside.clone(),
            inside,
            text: Some(to_yaml(chart, &[])),
        });
    }
    load_texts("", texts, false)
}

#[divan::bench(sample_count = 3)]
fn measure_ten_thousand_charts(bencher: divan::Bencher<'_, '_>) {
    let shelf = [shelf()];
    bencher.bench_local(|| app::things(&shelf).len());
}

#[divan::bench(sample_count = 10)]
fn next_of_ten_thousand(bencher: divan::Bencher<'_, '_>) {
    let things = app::things(&[shelf()]);
    let past = History::default();
    bencher.bench_local(|| {
        next(
            &things,
            &past,
            Aim::Usual,
            &Filter::default(),
            Weights::default(),
        )
        .len()
    });
}

/// Demands of a library in which no stop covers another, so that nothing is easy about the way.
fn library(n: usize) -> Vec<Demand> {
    let names = [
        "stripes",
        "two-colours",
        "catching",
        "thumb",
        "long-unit",
        "steek",
        "short-rows",
        "three-colours",
    ];
    let mut state = 88_172_645_463_325_252_u64;
    let mut next = move |below: u64| {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        state % below
    };
    (0..n)
        .map(|_| {
            let hard = next(1000) as f64 / 1000.0;
            Demand {
                parts: std::array::from_fn(|_| (hard + next(300) as f64 / 1000.0).min(1.0)),
                techniques: names
                    .iter()
                    .filter(|_| next(1000) as f64 / 1000.0 < hard * 0.7)
                    .map(|name| (*name).to_owned())
                    .collect(),
            }
        })
        .collect()
}

#[divan::bench(sample_count = 3)]
fn route_over_two_thousand_lessons(bencher: divan::Bencher<'_, '_>) {
    let mut demands = library(1999);
    demands.push(Demand {
        parts: [1.0; 5],
        techniques: ["three-colours", "steek"].map(str::to_owned).into(),
    });
    let stops: Vec<Stop<'_>> = demands
        .iter()
        .map(|demand| Stop {
            demand,
            needs: Vec::new(),
        })
        .collect();
    bencher.bench_local(|| {
        let map = Map::new(&stops, &State::default(), &[], Weights::default());
        route(&map, stops.len() - 1)
    });
}

/// Charts of 24 × 40 as a stream on all cores.
#[divan::bench(sample_count = 5)]
fn stream_of_24_by_40(bencher: divan::Bencher<'_, '_>) {
    let loaded = load(24, 40);
    let Some(chart) = field(&loaded) else { return };
    let rows: Vec<String> = (0..40).rev().map(|row| chart.drawn_line(row)).collect();
    let line = format!(
        "{{\"id\":\"c\",\"rows\":\"{}\",\"colours\":{{\".\":\"a\",\"x\":\"b\"}}}}\n",
        rows.join("\\n")
    );
    let input = line.repeat(4000);
    let course = load_texts("", Vec::new(), false).course;
    bencher
        .counter(ItemsCount::new(4000_usize))
        .bench_local(|| {
            let mut output = Vec::new();
            let mut input = input.as_bytes();
            app::measure_stream(
                &mut input,
                &mut output,
                false,
                BareOptions::default(),
                &course,
            )
            .map(|done| done.charts)
            .ok()
        });
}

#[divan::bench(sample_count = 10)]
fn pack_of_the_demo_course(bencher: divan::Bencher<'_, '_>) {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("lessons");
    let loaded = load_paths(&[folder], Links::Inside).unwrap_or_default();
    bencher.bench_local(|| {
        loaded.first().map(|one| {
            app::pack(one, &[], yokeward::app::PackOptions::default(), &|_| {})
                .map(|files| files.len())
        })
    });
}
