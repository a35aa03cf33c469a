//! What tests share: courses from text, a small random source, the program itself. The program's interface is touched
//! here and nowhere else.

use std::path::{Path, PathBuf};

use serde_json::Value;
use yokeward::app;
use yokeward::course::chart::Chart;
use yokeward::course::{Course, Lesson};
use yokeward::ground::units::{FloatLimit, Gauge};
use yokeward::piece::{NoSchedule, Piece, Pieces, pieces};
use yokeward::read::{Loaded, Text, load_texts};
use yokeward::rows::walk::BareSettings;
use yokeward::study::{self, Studied};

/// The repository.
pub(crate) fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Reads a file of the repository.
pub(crate) fn read(path: &str) -> String {
    std::fs::read_to_string(root().join(path)).unwrap_or_else(|e| panic!("{path}: {e}"))
}

/// JSON of a reference file.
pub(crate) fn reference(name: &str) -> Value {
    serde_json::from_str(&read(&format!("tests/reference/{name}"))).unwrap()
}

/// Texts of a course from one file: `=== path` begins each. `@repeat N M c` stands for N lines of M characters c.
pub(crate) fn texts(all: &str) -> Vec<Text> {
    let mut texts: Vec<Text> = Vec::new();
    for line in all.lines() {
        if let Some(path) = line.strip_prefix("=== ") {
            let inside = path.trim_end_matches(" (not text)").to_owned();
            let text = (!path.ends_with("(not text)")).then(String::new);
            texts.push(Text {
                shown: inside.clone(),
                inside,
                text,
            });
        } else if let Some(Some(text)) = texts.last_mut().map(|t| t.text.as_mut()) {
            if let Some(repeat) = line.strip_prefix("@repeat ") {
                let parts: Vec<&str> = repeat.split(' ').collect();
                let (lines, wide) = (parts[0].parse().unwrap(), parts[1].parse().unwrap());
                for _ in 0..lines {
                    text.push_str(&format!("  {}\n", parts[2].repeat(wide)));
                }
            } else {
                text.push_str(line);
                text.push('\n');
            }
        }
    }
    texts.sort_by(|a, b| a.inside.cmp(&b.inside));
    texts
}

/// A course from one text, with its text faults.
pub(crate) fn load(all: &str) -> Loaded {
    let mut loaded = load_texts("course", texts(all), true);
    app::proof_texts(&mut loaded);
    loaded
}

/// A course that must be without errors.
pub(crate) fn course(all: &str) -> Course {
    let loaded = load(all);
    let errors: Vec<&str> = loaded
        .faults
        .iter()
        .filter(|f| f.is_error())
        .map(|f| f.title.as_str())
        .collect();
    assert!(errors.is_empty(), "{errors:?}\n{all}");
    loaded.course
}

/// A lesson in every size, or why the first that has no counts has none.
pub(crate) fn all_pieces(lesson: &Lesson) -> Result<Vec<Piece>, NoSchedule> {
    let Pieces { made, without } = pieces(lesson);
    without
        .into_iter()
        .next()
        .map_or(Ok(made), |one| Err(one.reason))
}

/// A chart from rows (top line first) in letters, `.` the ground; worked in the round unless `extra` says otherwise.
pub(crate) fn chart(rows: &[&str], extra: &str) -> Chart {
    let mut letters: Vec<char> = rows.iter().flat_map(|row| row.chars()).collect();
    letters.sort_unstable();
    letters.dedup();
    let colours: Vec<String> = letters
        .iter()
        .map(|c| format!("\"{c}\": role{}", u32::from(*c)))
        .collect();
    let text = format!(
        "=== charts/it.yaml\ntitle: It\ncolours: {{ {} }}\nrights: own\n{extra}\nrows: |\n  {}\n",
        colours.join(", "),
        rows.join("\n  ")
    );
    load_chart(text.trim_start_matches("=== charts/it.yaml\n"))
}

/// A chart from the text of its file.
pub(crate) fn load_chart(text: &str) -> Chart {
    let loaded = load_texts("", texts(&format!("=== charts/it.yaml\n{text}")), false);
    assert!(!loaded.has_errors(), "{:?}\n{text}", loaded.faults);
    Chart::clone(&loaded.course.charts["it"])
}

/// Studies a bare chart with defaults at a gauge of `stitches` to 10 cm.
pub(crate) fn study_chart(chart: &Chart, stitches: f64) -> Studied<'_> {
    let settings = BareSettings {
        gauge: Gauge {
            stitches,
            rows: 26.0,
        },
        limit: FloatLimit::default(),
    };
    let course = course_defaults();
    study::chart(chart, settings, &course)
}

/// Studies a lesson with default weights.
pub(crate) fn study_lesson(lesson: &Lesson) -> Studied<'_> {
    study::lesson(lesson, &course_defaults())
}

fn course_defaults() -> Course {
    load_texts("", Vec::new(), false).course
}

/// A random source without surprises: the same numbers on every machine (xorshift64*).
pub(crate) struct Random(u64);

impl Random {
    /// Begins at a seed.
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    /// A number below `n`.
    pub(crate) fn below(&mut self, n: usize) -> usize {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        let value = self.0.wrapping_mul(0x2545_f491_4f6c_dd1d) >> 33;
        usize::try_from(value).unwrap() % n.max(1)
    }
}

/// The program, in a folder.
pub(crate) fn yokeward(folder: &Path, arguments: &[&str]) -> (i32, String, String) {
    yokeward_reading(folder, arguments, "")
}

/// The program, with something on its standard input.
pub(crate) fn yokeward_reading(
    folder: &Path,
    arguments: &[&str],
    input: impl Into<Vec<u8>>,
) -> (i32, String, String) {
    let output = assert_cmd::Command::cargo_bin("yokeward")
        .unwrap()
        .current_dir(folder)
        .args(arguments)
        .write_stdin(input)
        .output()
        .unwrap();
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    (
        output.status.code().unwrap_or(-1),
        text(output.stdout),
        text(output.stderr),
    )
}
