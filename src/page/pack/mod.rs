//! The pack: sorted path → bytes. Nothing is written here.

mod inputs;
mod pages;
mod shopping;

pub use inputs::Inputs;

use std::collections::BTreeMap;

use rayon::prelude::*;
use serde_json::json;
use sha2::{Digest, Sha256};

use crate::course::{Course, Learner};
use crate::handout::{CoursePlan, Handout, Print, handout_of, handouts};
use crate::page::blocks::Block;
use crate::page::html::{self, PageInfo};
use crate::page::pack::pages::{Draft, Setting, Whole, folder, section};
use crate::page::pack::shopping::shopping;
use crate::page::pdf::{self, Binder, Document, Meta, Printed, Sheet};
use crate::page::{Comparison, TemplateError, Templates, markdown, svg};
use crate::words::labels;

/// A whole set of files by path below the pack's folder.
pub type Files = BTreeMap<String, Vec<u8>>;

/// A handout whose pages are written, with its other files.
struct Ready {
    folder: String,
    title: String,
    printed: Printed,
    files: Files,
}

/// Builds the whole pack in memory. `progress` is told the name of each handout as it is done.
///
/// # Errors
/// When a template cannot be rendered.
pub fn build(
    inputs: &Inputs<'_>,
    progress: &(dyn Fn(&str) + Sync),
) -> Result<Files, TemplateError> {
    let setting = Setting::new(inputs)?;
    let course = setting.course();
    let handouts = handouts(inputs.studied, &inputs.print);
    // One handout after the other is taken all the way to its written pages, so that no two cores hold more than two of
    // them as drawings.
    let ready: Vec<Ready> = handouts
        .par_iter()
        .with_max_len(1)
        .enumerate()
        .map(|(at, handout)| {
            let draft = setting.draft(handout)?;
            let files = handout_files(&draft, ways(&handouts, at), course, &inputs.print);
            let document = pdf::lay_out(std::slice::from_ref(&draft.section), setting.sheet());
            let (folder, title) = (draft.folder, draft.title);
            drop(draft.section);
            progress(&handout.title);
            let printed = Printed::of(document);
            Ok(Ready {
                folder,
                title,
                printed,
                files,
            })
        })
        .collect::<Result<_, TemplateError>>()?;
    drop(handouts);
    let plan = setting.plan(ready.iter().map(|one| one.printed.pages()).collect());
    let whole = Whole::of(inputs);
    let (wholes, index) = rayon::join(
        || {
            let each = whole.par_iter().with_max_len(1);
            let each = each.map(|which| Ok(Printed::of(setting.whole(*which, &plan)?)));
            each.collect::<Result<Vec<Printed>, TemplateError>>()
        },
        || index(&setting, &plan, &ready),
    );
    let mut wholes = wholes?;
    if let Some(first) = wholes.first_mut() {
        let all = ready.iter().map(|one| &one.printed);
        let all: Vec<&Printed> = std::iter::once(&*first).chain(all).collect();
        *first = Printed::join(&all, setting.sheet());
    }
    let learners = learners(&setting, progress)?;
    let mut files = pdfs(&ready, &wholes, &learners, inputs);
    files.insert("index.html".to_owned(), index?.into_bytes());
    files.extend(ready.into_iter().flat_map(|one| one.files));
    let grades = json!({"grade": inputs.grades, "order": inputs.order});
    files.insert("grades.json".to_owned(), json_bytes(&grades));
    files.insert("shopping.csv".to_owned(), shopping(&plan).into_bytes());
    let manifest = manifest(&course.id, &files);
    files.insert("pack.json".to_owned(), manifest);
    Ok(files)
}

/// The handout of one lesson: a PDF, or a page of HTML without ways to others. `None` where there is no such lesson.
#[must_use]
pub fn one(inputs: &Inputs<'_>, lesson: &str, pdf: bool) -> Option<Result<Vec<u8>, TemplateError>> {
    let handout = handout_of(inputs.studied, lesson, &inputs.print)?;
    let made = Setting::new(inputs).and_then(|setting| {
        let draft = setting.draft(&handout)?;
        let course = setting.course();
        if pdf {
            let printed = Printed::of(pdf::lay_out(&[draft.section], setting.sheet()));
            let binder = Binder::new(&[&printed]);
            return Ok(binder.bind(&printed, &meta(course, &draft.title)).bytes());
        }
        let info = PageInfo {
            about: draft.about.clone(),
            sizes: draft.sizes.clone(),
            ..page_info(course, &draft.title, &inputs.print)
        };
        Ok(html::page(&draft.section.blocks, &info).into_bytes())
    });
    Some(made)
}

/// The handouts of each learner whom the course names, if they are wanted: path, title, pages.
fn learners(
    setting: &Setting<'_>,
    progress: &(dyn Fn(&str) + Sync),
) -> Result<Vec<(String, String, Printed)>, TemplateError> {
    if !setting.inputs.for_all {
        return Ok(Vec::new());
    }
    let course = setting.course();
    let numbered = course.learners.par_iter().with_max_len(1).enumerate();
    let each = numbered.map(|(i, learner)| {
        let printed = Printed::of(setting.learner(learner)?);
        progress(&learner.name);
        let path = learner_path(i, learner, course.learners.len());
        let title = labels::handouts_for(&course.title, &learner.name);
        Ok((path, title, printed))
    });
    each.collect()
}

/// Where the handouts of a learner go: her number, then the letters and digits of her name, small, hyphens for gaps.
fn learner_path(index: usize, learner: &Learner, of: usize) -> String {
    let digits = of.to_string().len().max(2);
    let words = learner.name.split(|c: char| !c.is_alphanumeric());
    let words = words.filter(|word| !word.is_empty());
    let stem: String = words
        .map(|word| format!("-{}", word.to_lowercase()))
        .collect();
    format!("learners/{:0digits$}{stem}.pdf", index + 1)
}

/// Binds every PDF, and its booklet if one is asked for; the longest first, so that all cores are busy to the end.
fn pdfs(
    ready: &[Ready],
    wholes: &[Printed],
    learners: &[(String, String, Printed)],
    inputs: &Inputs<'_>,
) -> Files {
    let course = inputs.studied.course;
    let whole = Whole::of(inputs);
    let named = whole.iter().zip(wholes);
    let named =
        named.map(|(which, printed)| (which.path().to_owned(), which.title(course), printed));
    let handouts = ready.iter().map(|one| {
        let path = format!("{}/handout.pdf", one.folder);
        (path, one.title.clone(), &one.printed)
    });
    let own = learners.iter();
    let own = own.map(|(path, title, printed)| (path.clone(), title.clone(), printed));
    let all: Vec<(String, String, &Printed)> = named.chain(handouts).chain(own).collect();
    let binder = Binder::new(&all.iter().map(|(.., printed)| *printed).collect::<Vec<_>>());
    let bind = |(path, title, printed): &(String, String, &Printed)| {
        let mut bound = binder.bind(printed, &meta(course, title));
        let bytes = bound.bytes();
        let folded = inputs.booklet.then(|| bound.folded()).flatten();
        let stem = path.trim_end_matches(".pdf");
        let folded = folded.map(|bytes| (format!("{stem}-booklet.pdf"), bytes));
        std::iter::once((path.clone(), bytes)).chain(folded)
    };
    all.par_iter().with_max_len(1).flat_map_iter(bind).collect()
}

/// Every document of a pack, laid out and not written, by the path of its file; the course without its handouts.
///
/// # Errors
/// When a template cannot be rendered.
pub fn documents(inputs: &Inputs<'_>) -> Result<BTreeMap<String, Document>, TemplateError> {
    let setting = Setting::new(inputs)?;
    let mut all = BTreeMap::new();
    let mut pages = Vec::new();
    for handout in handouts(inputs.studied, &inputs.print) {
        let draft = setting.draft(&handout)?;
        let document = pdf::lay_out(&[draft.section], setting.sheet()).taken_apart();
        pages.push(document.pages.len());
        all.insert(format!("{}/handout.pdf", draft.folder), document);
    }
    let plan = setting.plan(pages);
    // The page of all lessons is none of these, but what it asks for must be there, too.
    let links = vec![String::new(); plan.pages.len()];
    setting.blocks("index.md", &plan, links, Vec::new())?;
    let wanted = if inputs.for_all {
        setting.course().learners.as_slice()
    } else {
        &[]
    };
    for (i, learner) in wanted.iter().enumerate() {
        all.insert(
            learner_path(i, learner, wanted.len()),
            setting.learner(learner)?.taken_apart(),
        );
    }
    for which in Whole::of(inputs) {
        let document = setting.whole(which, &plan)?.taken_apart();
        all.insert(which.path().to_owned(), document);
    }
    Ok(all)
}

/// Two charts side by side as a PDF of one sheet, in the manner of a course.
///
/// # Errors
/// When the template cannot be rendered.
pub fn comparison(
    pair: &Comparison,
    course: &Course,
    sheet: Sheet,
) -> Result<Vec<u8>, TemplateError> {
    let blocks = pair.blocks(&Templates::new(&course.templates)?)?;
    let section = section(course, labels::COMPARED, labels::COMPARED, None, blocks);
    let printed = Printed::of(pdf::lay_out(&[section], sheet));
    let title = labels::compared(&pair.titles);
    Ok(Binder::new(&[&printed])
        .bind(&printed, &meta(course, &title))
        .bytes())
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

fn page_info(course: &Course, title: &str, print: &Print) -> PageInfo {
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
        large: print.is_large(),
        black: print.is_black(),
        from_left: print.is_left_handed(),
        ..PageInfo::default()
    }
}

/// The files of a handout but its PDF; `ways` lead to the lessons before and after it.
fn handout_files(
    draft: &Draft,
    ways: Vec<(String, String)>,
    course: &Course,
    print: &Print,
) -> Files {
    let mut files = Files::new();
    let (folder, blocks) = (&draft.folder, &draft.section.blocks);
    charts(blocks, folder, &mut files);
    let picture = files.keys().next().and_then(|path| path.rsplit('/').next());
    let picture = picture.unwrap_or_default().to_owned();
    let info = PageInfo {
        about: draft.about.clone(),
        picture,
        ways,
        sizes: draft.sizes.clone(),
        ..page_info(course, &draft.title, print)
    };
    let page = html::page(blocks, &info);
    files.insert(format!("{folder}/handout.html"), page.into_bytes());
    let text = markdown::markdown(blocks);
    files.insert(format!("{folder}/handout.md"), text.into_bytes());
    files.values_mut().for_each(Vec::shrink_to_fit);
    files
}

/// From a handout's page to the others: the course, the lessons before and after it, itself in print.
fn ways(handouts: &[Handout<'_>], at: usize) -> Vec<(String, String)> {
    let to = |other: Option<&Handout<'_>>, words: &str| {
        let other = other?;
        let href = format!("../../{}/handout.html", folder(other));
        Some((href, format!("{words}: {}", other.title)))
    };
    let before = at.checked_sub(1).and_then(|before| handouts.get(before));
    let whole = (
        "../../index.html".to_owned(),
        labels::WHOLE_COURSE.to_owned(),
    );
    let print = ("handout.pdf".to_owned(), labels::AS_PDF.to_owned());
    [
        Some(whole),
        to(before, labels::LESSON_BEFORE),
        to(handouts.get(at + 1), labels::LESSON_AFTER),
        Some(print),
    ]
    .into_iter()
    .flatten()
    .collect()
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
            other => other
                .inner()
                .into_iter()
                .for_each(|inner| charts(inner, folder, files)),
        }
    }
}

fn index(
    setting: &Setting<'_>,
    plan: &CoursePlan,
    ready: &[Ready],
) -> Result<String, TemplateError> {
    let course = setting.course();
    let links = ready
        .iter()
        .map(|one| format!("{}/handout.html", one.folder));
    let links: Vec<String> = links.collect();
    let titles = plan.lessons.iter().map(|lesson| lesson.title.clone());
    let rungs = links.iter().cloned().zip(titles).collect();
    let blocks = setting.blocks("index.md", plan, links, Vec::new())?;
    let last = ready.last().and_then(|one| {
        let mut pictures = one.files.keys().filter(|path| path.ends_with(".svg"));
        pictures.next().cloned()
    });
    let info = PageInfo {
        about: labels::about_course(&course.title, ready.len()),
        picture: last.unwrap_or_default(),
        rungs,
        ..page_info(course, &course.title, &setting.inputs.print)
    };
    Ok(html::page(&blocks, &info))
}
