//! The pack: sorted path → bytes. Nothing is written here.

use std::collections::BTreeMap;

use rayon::prelude::*;
use serde_json::json;
use sha2::{Digest, Sha256};

use crate::assess::AssessedCourse;
use crate::handout::{CoursePlan, Handout, Quiz, course_plan, handouts};
use crate::lesson::{Course, Paper};
use crate::render::blocks::Block;
use crate::render::html::{self, PageInfo};
use crate::render::pdf::{self, Document, Meta, Section};
use crate::render::{CourseDirectives, HandoutDirectives, TemplateError, Templates, markdown, svg};
use crate::report::{GradeReport, OrderReport};
use crate::units::plain_number;
use crate::words::Wording;

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
    /// For a printer of black only: symbols, no fills.
    pub black: bool,
}

/// A handout laid out, before its files are written.
struct LaidOut<'a> {
    handout: &'a Handout<'a>,
    folder: String,
    title: String,
    section: Section,
    document: Document,
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
    let templates = Templates::new(&course.templates)?;
    let wording = Wording::of(course.terms);
    let mut handouts = handouts(inputs.assessed);
    if inputs.black {
        handouts = handouts.into_iter().map(Handout::in_black).collect();
    }
    let plan = CoursePlan {
        quiz: inputs.quiz.clone(),
        fills: !inputs.black,
        ..course_plan(inputs.assessed)
    };
    let laid_out: Vec<LaidOut<'_>> = handouts
        .par_iter()
        .map(|handout| lay_out(handout, course, &templates, &wording, inputs.paper))
        .collect::<Result<_, TemplateError>>()?;
    // The course as one file takes about as long as all its handouts: both are written at the same time.
    let (whole, parts) = rayon::join(
        || course_pdf(&plan, &laid_out, course, &templates, &wording, inputs.paper),
        || {
            let each = laid_out.par_iter().map(|one| {
                let files = handout_files(one, course);
                progress(&one.handout.title);
                files
            });
            each.collect::<Vec<Files>>()
        },
    );
    let mut files: Files = parts.into_iter().flatten().collect();
    files.insert("course.pdf".to_owned(), whole?);
    for (name, template, title) in [
        ("quiz.pdf", "quiz.md", "Which is harder?"),
        ("teacher.pdf", "teacher.md", "For the teacher"),
    ] {
        let directives = CourseDirectives::new(&plan, Vec::new(), Vec::new());
        let blocks = directives.blocks(&templates, template, &wording.words)?;
        let foot = course.footer.clone().unwrap_or_default();
        let section = section(course, title.to_owned(), title.to_owned(), foot, blocks);
        let document = pdf::lay_out(&[section], inputs.paper);
        let title = format!("{}: {title}", course.title);
        let bytes = pdf::write(&document, &meta(course, &title));
        files.insert(name.to_owned(), bytes);
    }
    files.insert(
        "index.html".to_owned(),
        index(&plan, &laid_out, course, &templates, &wording)?.into_bytes(),
    );
    if inputs.booklet {
        files.extend(booklets(&files));
    }
    let grades = json!({"grade": inputs.grades, "order": inputs.order});
    files.insert("grades.json".to_owned(), json_bytes(&grades));
    files.insert("shopping.csv".to_owned(), shopping(&plan).into_bytes());
    let manifest = manifest(&course.id, &files);
    files.insert("pack.json".to_owned(), manifest);
    Ok(files)
}

/// Every PDF as a booklet beside it.
fn booklets(files: &Files) -> Files {
    let pdfs: Vec<(&String, &Vec<u8>)> = files
        .iter()
        .filter(|(name, _)| name.ends_with(".pdf"))
        .collect();
    let each = pdfs.par_iter().filter_map(|(name, bytes)| {
        let stem = name.trim_end_matches(".pdf");
        Some((format!("{stem}-booklet.pdf"), pdf::booklet(bytes)?))
    });
    each.collect::<Vec<_>>().into_iter().collect()
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

fn page_info(course: &Course, title: &str, back: Option<(String, String)>) -> PageInfo {
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
    }
}

fn section(
    course: &Course,
    label: String,
    title: String,
    foot: String,
    blocks: Vec<Block>,
) -> Section {
    Section {
        blocks,
        guild: course.guild.clone().unwrap_or_default(),
        course: course.title.clone(),
        label,
        foot,
        title,
    }
}

fn lay_out<'a>(
    handout: &'a Handout<'a>,
    course: &Course,
    templates: &Templates,
    wording: &Wording,
    paper: Paper,
) -> Result<LaidOut<'a>, TemplateError> {
    let blocks =
        HandoutDirectives::new(handout, templates, &wording.words, course.units).blocks()?;
    let label = format!("Lesson {}", handout.number);
    let foot = course
        .footer
        .clone()
        .unwrap_or_else(|| handout.next.clone());
    let section = section(course, label, handout.title.clone(), foot, blocks);
    Ok(LaidOut {
        handout,
        folder: format!("lessons/{:02}-{}", handout.number, handout.id),
        title: format!(
            "{}, lesson {} of {}",
            handout.title, handout.number, handout.of
        ),
        document: pdf::lay_out(std::slice::from_ref(&section), paper),
        section,
    })
}

fn handout_files(one: &LaidOut<'_>, course: &Course) -> Files {
    let mut files = Files::new();
    let back = Some(("../../index.html".to_owned(), "The whole course".to_owned()));
    let (folder, blocks) = (&one.folder, &one.section.blocks);
    let page = html::page(blocks, &page_info(course, &one.title, back));
    files.insert(format!("{folder}/handout.html"), page.into_bytes());
    files.insert(
        format!("{folder}/handout.md"),
        markdown::markdown(blocks).into_bytes(),
    );
    let pdf = pdf::write(&one.document, &meta(course, &one.title));
    files.insert(format!("{folder}/handout.pdf"), pdf);
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

fn index(
    plan: &CoursePlan,
    laid_out: &[LaidOut<'_>],
    course: &Course,
    templates: &Templates,
    wording: &Wording,
) -> Result<String, TemplateError> {
    let links = laid_out
        .iter()
        .map(|f| format!("{}/handout.html", f.folder))
        .collect();
    let blocks = CourseDirectives::new(plan, links, Vec::new()).blocks(
        templates,
        "index.md",
        &wording.words,
    )?;
    Ok(html::page(&blocks, &page_info(course, &course.title, None)))
}

/// The plan, then every handout. The plan is laid out twice: once to learn where lessons begin, once to say it.
fn course_pdf(
    plan: &CoursePlan,
    laid_out: &[LaidOut<'_>],
    course: &Course,
    templates: &Templates,
    wording: &Wording,
    paper: Paper,
) -> Result<Vec<u8>, TemplateError> {
    let links: Vec<String> = (1..=laid_out.len())
        .map(|n| format!("#lesson-{n}"))
        .collect();
    let plan_section = |starts: Vec<usize>| -> Result<Section, TemplateError> {
        let directives = CourseDirectives::new(plan, links.clone(), starts);
        let blocks = directives.blocks(templates, "course.md", &wording.words)?;
        let foot = course.footer.clone().unwrap_or_default();
        Ok(section(
            course,
            "Course plan".to_owned(),
            "Course plan".to_owned(),
            foot,
            blocks,
        ))
    };
    let draft = plan_section(vec![1000; laid_out.len()])?;
    let mut next = pdf::lay_out(&[draft], paper).pages.len() + 1;
    let mut starts = Vec::new();
    for one in laid_out {
        starts.push(next);
        next += one.document.pages.len();
    }
    let mut sections = vec![plan_section(starts)?];
    sections.extend(laid_out.iter().map(|f| f.section.clone()));
    let document = pdf::lay_out(&sections, paper);
    Ok(pdf::write(&document, &meta(course, &course.title)))
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
