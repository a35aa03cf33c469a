//! Joins the files of a run: which is a chart and which a lesson, equal ids, `needs` and their cycles.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::course::Course;
use crate::ground::bounds::FILE_BYTES;
use crate::ground::fault::{Code, Fault, FileId, SourceMap, Span};
use crate::read::chart_file::{head_span, read_chart};
use crate::read::check::slip_of;
use crate::read::course_file::{Sizes, default_course, read_course};
use crate::read::craft::stitched_charts;
use crate::read::files::{Links, ReadError, Text, course_of, read_file, read_folder};
use crate::read::loaded::{Loaded, Wanted};
use crate::read::needs::{Entry, add_lessons};
use crate::read::node::Node;
use crate::read::shape::is_id;
use crate::read::told::{folded, sort_by_place, tell_not_read, tell_spare_templates};
use crate::read::yaml;

/// Loads what each path names: a course folder, or a chart or lesson file.
///
/// # Errors
/// When a path cannot be read at all.
pub fn load_paths(paths: &[PathBuf], links: Links) -> Result<Vec<Loaded>, ReadError> {
    paths.iter().map(|path| load_path(path, links)).collect()
}

fn load_path(path: &Path, links: Links) -> Result<Loaded, ReadError> {
    if path.is_dir() {
        let folder = read_folder(path, None, links)?;
        let mut loaded = load_texts(&folder_name(path), folder.texts, true);
        tell_not_read(path, folder.not_read, &mut loaded);
        return Ok(loaded);
    }
    let name = path.file_name().and_then(|n| n.to_str()).unwrap_or("");
    let alone = read_file(path, name)?;
    let shown = alone.shown.clone();
    let course = course_of(path);
    let folder = match &course {
        Some(folder) => folder.clone(),
        None if is_lesson(&alone) => path
            .parent()
            .filter(|p| !p.as_os_str().is_empty())
            .unwrap_or(Path::new("."))
            .to_owned(),
        None => {
            let mut loaded = load_texts("", vec![alone], false);
            loaded.wanted = wanted_in(&loaded, &shown);
            return Ok(loaded);
        }
    };
    let texts = read_folder(&folder, Some((path, alone)), links)?.texts;
    let mut loaded = load_texts(&folder_name(&folder), texts, course.is_some());
    loaded.wanted = wanted_in(&loaded, &shown);
    // Faults of files that were not asked for are not this run's business; those it rests on are.
    let about = files_it_rests_on(&loaded, &shown);
    let sources = &loaded.sources;
    loaded.faults.retain(|fault| {
        fault
            .labels
            .iter()
            .any(|l| about.contains(sources.path(l.span.file)))
    });
    Ok(loaded)
}

/// Whether a text says that it is a lesson, however its keys are written.
fn is_lesson(text: &Text) -> bool {
    let mut sources = SourceMap::default();
    let file = sources.add(text.shown.clone(), text.text.clone().unwrap_or_default());
    let node = yaml::read(&sources, file, &mut Vec::new());
    node.is_ok_and(|node| node.get("bands").is_some())
}

/// What came of the file that is shown under this path.
fn wanted_in(loaded: &Loaded, shown: &str) -> Wanted {
    let is_it = |span: &Span| loaded.sources.path(span.file) == shown;
    let mut lessons = loaded.course.lessons.iter();
    if let Some(lesson) = lessons.find(|lesson| is_it(&lesson.place)) {
        return Wanted::Lesson(lesson.id.clone());
    }
    let mut charts = loaded.course.charts.values();
    match charts.find(|chart| chart.places.first().is_some_and(is_it)) {
        Some(chart) => Wanted::Chart(chart.id.clone()),
        None => Wanted::Nothing,
    }
}

/// The file itself, the course's settings, and the charts that it names.
fn files_it_rests_on(loaded: &Loaded, shown: &str) -> BTreeSet<String> {
    let sources = &loaded.sources;
    let text = sources.find(shown).map_or("", |at| sources.text(at.file));
    let is_id = |c: char| c.is_alphanumeric() || c == '-';
    let named: BTreeSet<&str> = text.split(|c| !is_id(c)).collect();
    let labels = loaded.faults.iter().flat_map(|fault| &fault.labels);
    let files = labels.map(|label| sources.path(label.span.file));
    let rests_on = |path: &&str| {
        let name = path.rsplit('/').next().unwrap_or("");
        let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem);
        *path == shown || name == "course.yaml" || named.contains(stem)
    };
    files.filter(rests_on).map(str::to_owned).collect()
}

fn folder_name(path: &Path) -> String {
    let full = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    full.file_name()
        .and_then(|n| n.to_str())
        .unwrap_or("course")
        .to_owned()
}

/// A lesson's id: its stem without a leading `NN-`.
#[must_use]
pub fn lesson_id(stem: &str) -> &str {
    match stem.split_once('-') {
        Some((number, rest))
            if !number.is_empty()
                && number.chars().all(|c| c.is_ascii_digit())
                && !rest.is_empty() =>
        {
            rest
        }
        _ => stem,
    }
}

/// Understands the texts of a course folder (or of a single file outside any course).
#[must_use]
pub fn load_texts(folder: &str, texts: Vec<Text>, is_course: bool) -> Loaded {
    let mut sources = SourceMap::default();
    let mut faults = Vec::new();
    let mut nodes: Vec<(Text, FileId, Option<Node>)> = Vec::new();
    for mut text in texts {
        let known = text.text.take();
        let is_text = known.is_some();
        let file = sources.add(text.shown.clone(), known.unwrap_or_default());
        let node = tree(&text, is_text, (&sources, file), &mut faults);
        nodes.push((text, file, node));
    }
    let (mut course, sizes) = settings(folder, &nodes, is_course, &mut sources, &mut faults);
    let mut charts = Vec::new();
    let mut lessons = Vec::new();
    let mut faulty = BTreeSet::new();
    let mut left_out = BTreeSet::new();
    for (text, file, node) in nodes {
        let name = text.inside.rsplit('/').next().unwrap_or("");
        let stem = name
            .rsplit_once('.')
            .map_or(name, |(stem, _)| stem)
            .to_owned();
        match (text.inside.split_once('/'), node) {
            (Some(("techniques", _)), _) => {
                let card = sources.text(file).to_owned();
                course.cards.insert(stem.replace("--", "/"), card);
            }
            (Some(("templates", name)), _) => {
                let template = sources.text(file).to_owned();
                course.templates.insert(name.to_owned(), template);
            }
            _ if text.inside == "course.yaml" => {}
            (_, None) => {
                left_out.insert(lesson_id(&stem).to_owned());
                faulty.insert(stem);
            }
            (_, Some(node)) => {
                let kinds = (&mut charts, &mut lessons);
                classify(node, &stem, file, kinds, &mut faulty, &mut faults);
            }
        }
    }
    tell_spare_templates(&course, &sources, &mut faults);
    if is_course && lessons.is_empty() && left_out.is_empty() {
        let at = sources
            .find("course.yaml")
            .unwrap_or_else(|| sources.anywhere());
        faults.push(
            Fault::new(Code::NoLessons, "the course holds no lesson", at, "")
                .help("add a file with `bands`; `yokeward begin DIR` writes two to start from"),
        );
    }
    refuse_equal_ids(&mut charts, &mut lessons, &mut faults);
    let stitched = stitched_charts(lessons.iter().map(|entry| &entry.node));
    for entry in &charts {
        let on_cloth = stitched.contains(entry.id.as_str());
        match read_chart(&entry.id, &entry.node, on_cloth, &sources, &mut faults) {
            Some(chart) => {
                course.charts.insert(entry.id.clone(), Arc::new(chart));
            }
            None => {
                faulty.insert(entry.id.clone());
            }
        }
    }
    add_lessons(
        &mut course,
        &lessons,
        &faulty,
        left_out,
        (&sizes, &sources),
        &mut faults,
    );
    sort_by_place(&mut faults);
    let faults = folded(faults);
    Loaded {
        sources,
        course,
        faults,
        wanted: Wanted::All,
    }
}

/// The tree of a file of YAML; `None` for another, and for one that cannot be read.
fn tree(
    text: &Text,
    is_text: bool,
    (sources, file): (&SourceMap, FileId),
    faults: &mut Vec<Fault>,
) -> Option<Node> {
    let whole = Span {
        file,
        start: 0,
        end: 0,
    };
    if !is_text {
        let title = format!("{} is not UTF-8 text", text.shown);
        faults.push(Fault::new(Code::Unreadable, title, whole, "").help("save it again as UTF-8"));
        return None;
    }
    if !is_yaml(&text.inside) {
        if sources.text(file).len() > FILE_BYTES {
            let title = yaml::too_long();
            faults.push(Fault::new(Code::TooLarge, title, whole, ""));
        }
        return None;
    }
    match yaml::read(sources, file, faults) {
        Ok(node) => Some(node),
        Err(fault) => {
            faults.push(*fault);
            None
        }
    }
}

/// Whether a file of this name is YAML, in letters of any size.
fn is_yaml(inside: &str) -> bool {
    let ending = inside.rsplit('.').next().unwrap_or("").to_lowercase();
    matches!(ending.as_str(), "yaml" | "yml")
}

fn settings(
    folder: &str,
    nodes: &[(Text, FileId, Option<Node>)],
    is_course: bool,
    sources: &mut SourceMap,
    faults: &mut Vec<Fault>,
) -> (Course, Sizes) {
    match nodes.iter().find(|(text, ..)| text.inside == "course.yaml") {
        Some((_, _, Some(node))) => read_course(folder, node, faults),
        Some(_) => (default_course(folder), Sizes::default()),
        None => {
            if is_course {
                let file = sources.add(format!("{folder}/course.yaml"), "");
                faults.push(
                    Fault::new(Code::NoCourse, "the folder holds no course.yaml", Span { file, start: 0, end: 0 }, "")
                        .help("`yokeward begin DIR` lays out a new course; the least is `title: My course`"),
                );
            }
            (default_course(folder), Sizes::default())
        }
    }
}

fn classify(
    node: Node,
    stem: &str,
    file: FileId,
    (charts, lessons): (&mut Vec<Entry>, &mut Vec<Entry>),
    strange: &mut BTreeSet<String>,
    faults: &mut Vec<Fault>,
) {
    let span = match node.entries().first() {
        Some((key, _)) => key.span,
        None => Span {
            file,
            start: 0,
            end: 0,
        },
    };
    let (is_chart, is_lesson) = match (node.get("rows").is_some(), node.get("bands").is_some()) {
        (false, false) => {
            // Which of the two it would be, but for a slip.
            let lesson = slip_of(&node, "bands");
            (!lesson && slip_of(&node, "rows"), lesson)
        }
        kinds => kinds,
    };
    let id = if is_lesson { lesson_id(stem) } else { stem }.to_owned();
    if !is_id(&id) {
        faults.push(
            Fault::new(
                Code::WrongValue,
                format!("`{stem}` cannot be an id"),
                span,
                "the file's name is the id",
            )
            .help("name the file with small letters, digits and hyphens"),
        );
    }
    match (is_chart, is_lesson) {
        (true, false) => charts.push(Entry { id, node }),
        (false, true) => lessons.push(Entry { id, node }),
        (both, _) => {
            strange.insert(id);
            let title = if both {
                "the file has both `rows` and `bands`"
            } else {
                "the file is neither a chart nor a lesson"
            };
            faults.push(
                Fault::new(Code::UnknownFile, title, span, "")
                    .help("a chart has `rows`, a lesson has `bands`; course.yaml lies at the top"),
            );
        }
    }
}

/// Keeps the first of two equal ids and reports both places.
fn refuse_equal_ids(charts: &mut Vec<Entry>, lessons: &mut Vec<Entry>, faults: &mut Vec<Fault>) {
    let mut seen: BTreeMap<String, Span> = BTreeMap::new();
    for entries in [charts, lessons] {
        entries.retain(|entry| {
            let span = head_span(&entry.node);
            match seen.get(&entry.id) {
                None => {
                    seen.insert(entry.id.clone(), span);
                    true
                }
                Some(first) => {
                    faults.push(
                        Fault::new(
                            Code::DuplicateId,
                            format!("two files have the id `{}`", entry.id),
                            span,
                            "again here",
                        )
                        .also(*first, "first here")
                        .help(
                            "rename one of the two files; lessons and charts share one list of ids",
                        ),
                    );
                    false
                }
            }
        });
    }
}
