//! Speed of what matters: measuring, the history of words, a whole pack. Run with `cargo bench`.

use divan::counter::ItemsCount;
use yokeward::assess;
use yokeward::chart::Chart;
use yokeward::measure::lempel_ziv;
use yokeward::pipeline;
use yokeward::read::{Loaded, Text, load_paths, load_texts};
use yokeward::units::{FloatLimit, Gauge};
use yokeward::worked::BareSettings;

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
            field(&loaded).map(|chart| assess::chart(chart, settings(), &loaded.course).grade.grade)
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

#[divan::bench(sample_count = 10)]
fn pack_of_the_demo_course(bencher: divan::Bencher<'_, '_>) {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("lessons");
    let loaded = load_paths(&[folder]).unwrap_or_default();
    bencher.bench_local(|| {
        loaded
            .first()
            .map(|one| pipeline::pack(one, None, &|_| {}).map(|files| files.len()))
    });
}
