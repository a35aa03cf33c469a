//! The pack: sorted path → bytes. Nothing is written here.

use std::collections::BTreeMap;

use rayon::prelude::*;
use serde_json::json;
use sha2::{Digest, Sha256};

use crate::assess::AssessedCourse;
use crate::handout::{CoursePlan, Handout, course_plan, handouts};
use crate::lesson::{Course, Paper};
use crate::render::blocks::Block;
use crate::render::html::{self, PageInfo};
use crate::render::pdf::{self, Meta, Section};
use crate::render::{CourseDirectives, HandoutDirectives, TemplateError, Templates, markdown, svg};
use crate::report::{GradeReport, OrderReport};
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
}

/// A finished handout with everything that other files need of it.
struct Finished {
    folder: String,
    pages: usize,
    section: Section,
    files: Files,
}

/// Builds the whole pack in memory. `progress` is told the name of each handout as it is done.
///
/// # Errors
/// When a template cannot be rendered.
pub fn build(inputs: &Inputs<'_>, progress: &(dyn Fn(&str) + Sync)) -> Result<Files, TemplateError> {
    let course = inputs.assessed.course;
    let templates = Templates::new(&course.templates)?;
    let wording = Wording::of(course.terms);
    let handouts = handouts(inputs.assessed);
    let plan = course_plan(inputs.assessed);
    let finished: Vec<Finished> = handouts
        .par_iter()
        .map(|handout| {
            let done = finish_handout(handout, course, &templates, &wording, inputs.paper)?;
            progress(&handout.title);
            Ok(done)
        })
        .collect::<Result<_, TemplateError>>()?;
    let mut files = Files::new();
    files.insert("index.html".to_owned(), index(&plan, &finished, course, &templates, &wording)?.into_bytes());
    files.insert("course.pdf".to_owned(), course_pdf(&plan, &finished, course, &templates, &wording, inputs.paper)?);
    files.insert("grades.json".to_owned(), json_bytes(&json!({"grade": inputs.grades, "order": inputs.order})));
    files.insert("shopping.csv".to_owned(), shopping(&plan).into_bytes());
    for one in finished {
        files.extend(one.files);
    }
    let manifest = manifest(&course.id, &files);
    files.insert("pack.json".to_owned(), manifest);
    Ok(files)
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
            let digest: String = Sha256::digest(bytes).iter().map(|b| format!("{b:02x}")).collect();
            json!({"path": path, "size": bytes.len(), "sha256": digest})
        })
        .collect();
    json_bytes(&json!({"format": "yokeward/pack/1", "course": id, "files": entries}))
}

fn page_info(course: &Course, title: &str, back: Option<(String, String)>) -> PageInfo {
    let guild = course.guild.as_deref().unwrap_or("");
    let head = if guild.is_empty() { course.title.clone() } else { format!("{guild} · {}", course.title) };
    PageInfo { title: title.to_owned(), head, foot: course.footer.clone().unwrap_or_default(), back }
}

fn section(course: &Course, label: String, title: String, foot: String, blocks: Vec<Block>) -> Section {
    Section {
        blocks,
        guild: course.guild.clone().unwrap_or_default(),
        course: course.title.clone(),
        label,
        foot,
        title,
    }
}

fn finish_handout(
    handout: &Handout<'_>,
    course: &Course,
    templates: &Templates,
    wording: &Wording,
    paper: Paper,
) -> Result<Finished, TemplateError> {
    let blocks = HandoutDirectives::new(handout, templates, &wording.words, course.units).blocks()?;
    let folder = format!("lessons/{:02}-{}", handout.number, handout.id);
    let mut files = Files::new();
    let back = Some(("../../index.html".to_owned(), "The whole course".to_owned()));
    let title = format!("{}, lesson {} of {}", handout.title, handout.number, handout.of);
    let page = html::page(&blocks, &page_info(course, &title, back));
    files.insert(format!("{folder}/handout.html"), page.into_bytes());
    files.insert(format!("{folder}/handout.md"), markdown::markdown(&blocks).into_bytes());
    charts(&blocks, &folder, &mut files);
    let foot = course.footer.clone().unwrap_or_else(|| handout.next.clone());
    let section = section(course, format!("Lesson {}", handout.number), handout.title.clone(), foot, blocks);
    let document = pdf::lay_out(std::slice::from_ref(&section), paper);
    files.insert(format!("{folder}/handout.pdf"), pdf::write(&document, &meta(course, &title)));
    Ok(Finished { folder, pages: document.pages.len(), section, files })
}

fn meta(course: &Course, title: &str) -> Meta {
    Meta { title: title.to_owned(), author: course.guild.clone().unwrap_or_default() }
}

/// Charts as files of their own, wherever they stand in the blocks.
fn charts(blocks: &[Block], folder: &str, files: &mut Files) {
    for block in blocks {
        match block {
            Block::Figure { drawing, name: Some(name), .. } => {
                let picture = svg::svg(drawing, "s", true);
                files.insert(format!("{folder}/{name}.svg"), picture.into_bytes());
            }
            Block::Columns(columns) => columns.iter().for_each(|(_, inner)| charts(inner, folder, files)),
            _ => {}
        }
    }
}

fn index(
    plan: &CoursePlan,
    finished: &[Finished],
    course: &Course,
    templates: &Templates,
    wording: &Wording,
) -> Result<String, TemplateError> {
    let links = finished.iter().map(|f| format!("{}/handout.html", f.folder)).collect();
    let blocks = CourseDirectives::new(plan, links, Vec::new()).blocks(templates, "index.md", &wording.words)?;
    Ok(html::page(&blocks, &page_info(course, &course.title, None)))
}

/// The plan, then every handout. The plan is laid out twice: once to learn where lessons begin, once to say it.
fn course_pdf(
    plan: &CoursePlan,
    finished: &[Finished],
    course: &Course,
    templates: &Templates,
    wording: &Wording,
    paper: Paper,
) -> Result<Vec<u8>, TemplateError> {
    let links: Vec<String> = (1..=finished.len()).map(|n| format!("#lesson-{n}")).collect();
    let plan_section = |starts: Vec<usize>| -> Result<Section, TemplateError> {
        let directives = CourseDirectives::new(plan, links.clone(), starts);
        let blocks = directives.blocks(templates, "course.md", &wording.words)?;
        let foot = course.footer.clone().unwrap_or_default();
        Ok(section(course, "Course plan".to_owned(), "Course plan".to_owned(), foot, blocks))
    };
    let draft = plan_section(vec![1000; finished.len()])?;
    let mut next = pdf::lay_out(&[draft], paper).pages.len() + 1;
    let mut starts = Vec::new();
    for one in finished {
        starts.push(next);
        next += one.pages;
    }
    let mut sections = vec![plan_section(starts)?];
    sections.extend(finished.iter().map(|f| f.section.clone()));
    let document = pdf::lay_out(&sections, paper);
    Ok(pdf::write(&document, &meta(course, &course.title)))
}

/// Yarn colours and the lessons that use them, as a table for a spreadsheet.
fn shopping(plan: &CoursePlan) -> String {
    let quote = |text: &str| format!("\"{}\"", text.replace('"', "\"\""));
    let mut out = String::from("colour,hex,lessons\n");
    for (name, rgb, lessons) in &plan.yarns {
        let lessons: Vec<String> = lessons.iter().map(usize::to_string).collect();
        out.push_str(&format!("{},{},{}\n", quote(name), crate::colour::hex(*rgb), quote(&lessons.join(" "))));
    }
    out
}
