//! The pack: sorted path → bytes. Nothing is written here.

mod pages;

use std::collections::BTreeMap;

use rayon::prelude::*;
use serde_json::json;
use sha2::{Digest, Sha256};

use crate::assess::AssessedCourse;
use crate::handout::{CoursePlan, Print, Quiz, handouts};
use crate::lesson::{Course, Paper};
use crate::pack::pages::{LaidOut, Pages};
use crate::render::blocks::Block;
use crate::render::html::{self, PageInfo};
use crate::render::pdf::{self, Document, Meta, Plates, Press, Sheet};
use crate::render::{CourseDirectives, TemplateError, markdown, svg};
use crate::report::{GradeReport, OrderReport};
use crate::units::plain_number;

/// A whole set of files by path below the pack's folder.
pub type Files = BTreeMap<String, Vec<u8>>;

/// What a pack is made of.
#[derive(Debug)]
pub struct Inputs<'a> {
    /// The course, assessed and in order.
    pub assessed: &'a AssessedCourse<'a>,
    /// `grade --json`.
    pub grades: GradeReport,
    /// `order --json`.
    pub order: OrderReport,
    /// Paper.
    pub paper: Paper,
    /// Questions for the class.
    pub quiz: Quiz,
    /// Whether every PDF is made as a booklet, too.
    pub booklet: bool,
    /// How pages are printed.
    pub print: Print,
}

impl Inputs<'_> {
    /// The sheet that everything is laid out on.
    #[must_use]
    pub fn sheet(&self) -> Sheet {
        Sheet {
            paper: self.paper,
            large: self.print.large,
            black: self.print.black,
        }
    }
}

/// Builds the whole pack in memory. `progress` is told the name of each handout as it is done.
///
/// # Errors
/// When a template cannot be rendered.
pub fn build(
    inputs: &Inputs<'_>,
    progress: &(dyn Fn(&str) + Sync),
) -> Result<Files, TemplateError> {
    let course = inputs.assessed.course;
    let handouts = handouts(inputs.assessed, &inputs.print);
    let pages = Pages::lay_out(inputs, &handouts)?;
    // Long documents first, so that both cores are busy to the end.
    let documents: Vec<(String, String, Document)> = pages.documents(inputs)?;
    let all: Vec<&Document> = documents.iter().map(|(.., document)| document).collect();
    let mut press = Press::new(&all);
    let tasks = Press::tasks(&all);
    let plates: Vec<Plates> = tasks.par_iter().map(|task| press.write(task)).collect();
    plates.into_iter().for_each(|plates| press.keep(plates));
    let pdfs = documents
        .par_iter()
        .with_max_len(1)
        .flat_map_iter(|(path, title, document)| {
            let bytes = press.bind(document, &meta(course, title));
            let folded = inputs.booklet.then(|| pdf::booklet(&bytes)).flatten();
            let stem = path.trim_end_matches(".pdf");
            let folded = folded.map(|bytes| (format!("{stem}-booklet.pdf"), bytes));
            std::iter::once((path.clone(), bytes)).chain(folded)
        });
    let parts = pages.handouts.par_iter().map(|one| {
        let files = handout_files(one, course);
        progress(&one.handout.title);
        files
    });
    let (pdfs, parts): (Files, Vec<Files>) = rayon::join(|| pdfs.collect(), || parts.collect());
    let mut files: Files = parts.into_iter().flatten().chain(pdfs).collect();
    files.insert("index.html".to_owned(), index(&pages, inputs)?.into_bytes());
    let grades = json!({"grade": inputs.grades, "order": inputs.order});
    files.insert("grades.json".to_owned(), json_bytes(&grades));
    files.insert(
        "shopping.csv".to_owned(),
        shopping(&pages.plan).into_bytes(),
    );
    let manifest = manifest(&course.id, &files);
    files.insert("pack.json".to_owned(), manifest);
    Ok(files)
}

/// Every PDF of a pack, laid out and not yet written, by its path.
///
/// # Errors
/// When a template cannot be rendered.
pub fn documents(inputs: &Inputs<'_>) -> Result<BTreeMap<String, Document>, TemplateError> {
    let handouts = handouts(inputs.assessed, &inputs.print);
    let pages = Pages::lay_out(inputs, &handouts)?;
    let documents = pages.documents(inputs)?;
    Ok(documents
        .into_iter()
        .map(|(path, _, document)| (path, document))
        .collect())
}

fn json_bytes(value: &serde_json::Value) -> Vec<u8> {
    let mut text = serde_json::to_string_pretty(value).unwrap_or_default();
    text.push('\n');
    text.into_bytes()
}

/// Size and SHA-256 of every file, the manifest itself left out.
fn manifest(id: &str, files: &Files) -> Vec<u8> {
    let entries: Vec<serde_json::Value> = files
        .iter()
        .map(|(path, bytes)| {
            let digest: String = Sha256::digest(bytes)
                .iter()
                .map(|b| format!("{b:02x}"))
                .collect();
            json!({"path": path, "size": bytes.len(), "sha256": digest})
        })
        .collect();
    json_bytes(&json!({"format": "yokeward/pack/1", "course": id, "files": entries}))
}

fn page_info(
    course: &Course,
    title: &str,
    back: Option<(String, String)>,
    print: &Print,
) -> PageInfo {
    let guild = course.guild.as_deref().unwrap_or("");
    let head = if guild.is_empty() {
        course.title.clone()
    } else {
        format!("{guild} · {}", course.title)
    };
    PageInfo {
        title: title.to_owned(),
        head,
        foot: course.footer.clone().unwrap_or_default(),
        back,
        large: print.large,
        black: print.black,
    }
}

fn handout_files(one: &LaidOut<'_>, course: &Course) -> Files {
    let mut files = Files::new();
    let back = Some(("../../index.html".to_owned(), "The whole course".to_owned()));
    let (folder, blocks) = (&one.folder, &one.blocks);
    let page = html::page(
        blocks,
        &page_info(course, &one.title, back, &one.handout.print),
    );
    files.insert(format!("{folder}/handout.html"), page.into_bytes());
    files.insert(
        format!("{folder}/handout.md"),
        markdown::markdown(blocks).into_bytes(),
    );
    charts(blocks, folder, &mut files);
    files
}

fn meta(course: &Course, title: &str) -> Meta {
    Meta {
        title: title.to_owned(),
        author: course.guild.clone().unwrap_or_default(),
    }
}

/// Charts as files of their own, wherever they stand in the blocks.
fn charts(blocks: &[Block], folder: &str, files: &mut Files) {
    for block in blocks {
        match block {
            Block::Figure {
                drawing,
                name: Some(name),
                ..
            } => {
                let picture = svg::svg(drawing, "s", true);
                files.insert(format!("{folder}/{name}.svg"), picture.into_bytes());
            }
            Block::Columns(columns) => columns
                .iter()
                .for_each(|(_, inner)| charts(inner, folder, files)),
            _ => {}
        }
    }
}

fn index(pages: &Pages<'_>, inputs: &Inputs<'_>) -> Result<String, TemplateError> {
    let course = inputs.assessed.course;
    let links = pages
        .handouts
        .iter()
        .map(|f| format!("{}/handout.html", f.folder))
        .collect();
    let directives = CourseDirectives::new(&pages.plan, links, Vec::new());
    let blocks = directives.blocks(&pages.templates, "index.md", &pages.wording.words)?;
    let info = page_info(course, &course.title, None, &inputs.print);
    Ok(html::page(&blocks, &info))
}

/// Yarn colours, the lessons that use them and how much of each, as a table for a spreadsheet. Amounts that no formula
/// knows are left empty.
fn shopping(plan: &CoursePlan) -> String {
    let quote = |text: &str| format!("\"{}\"", text.replace('"', "\"\""));
    let learners = plan.learners.unwrap_or(1);
    let mut out =
        format!("colour,hex,lessons,grams_used,balls_of_50_g,balls_for_a_class_of_{learners}\n");
    for yarn in &plan.yarns {
        let lessons: Vec<String> = yarn.lessons.iter().map(usize::to_string).collect();
        let number =
            |value: Option<f64>| value.map_or(String::new(), |v| plain_number(v.ceil(), 0));
        let balls = yarn.balls.map(f64::from);
        out.push_str(&format!(
            "{},{},{},{},{},{}\n",
            quote(&yarn.name),
            crate::colour::hex(yarn.rgb),
            quote(&lessons.join(" ")),
            number(yarn.used),
            number(balls),
            number(balls.map(|b| b * f64::from(learners)))
        ));
    }
    out
}
