//! In which order faults are told, how many of a kind, and what is said of things that are not read.

use std::collections::BTreeMap;
use std::path::Path;

use crate::course::{Course, TEMPLATES};
use crate::ground::bounds::FAULTS_OF_A_KIND;
use crate::ground::fault::{Code, Fault, FileId, SourceMap, Span, did_you_mean};
use crate::read::files::{Why, shown};
use crate::read::loaded::Loaded;

/// What in the folder is not read, each as a warning of its own.
pub(super) fn tell_not_read(folder: &Path, not_read: Vec<(String, Why)>, loaded: &mut Loaded) {
    for (inside, why) in not_read {
        let path = shown(&folder.join(&inside));
        let (title, help) = match why {
            Why::DeadLink => ("the link leads nowhere", "mend it, or take it away"),
            Why::LeadsOut => (
                "the link leads out of the course's folder and is not followed",
                "copy what it leads to into the course, or allow it: `yokeward --links-out …`",
            ),
            Why::Name => (
                "the name is not text in UTF-8, and the file is not read",
                "name it with small letters, digits and hyphens",
            ),
            Why::Ending => (
                "the file's ending is not one that is read here",
                "lessons and charts end in .yaml, technique cards in .md; a copy lies better elsewhere",
            ),
            Why::OtherCourse => (
                "the folder holds a course of its own and is not read",
                "name it with --library where its charts are wanted",
            ),
            Why::Closed => (
                "the folder cannot be opened and is not read",
                "look at whom it lets in, if it belongs to the course",
            ),
            Why::Depth => (
                "the folder lies too deep in others and is not read",
                "lay it into the course's folder itself",
            ),
        };
        let file = loaded.sources.add(path, "");
        let place = Span {
            file,
            start: 0,
            end: 0,
        };
        let fault = Fault::new(Code::NotRead, title, place, "");
        loaded.faults.push(fault.help(help));
    }
}

/// Of many faults of one kind in a file the first, and how many more there are.
pub(super) fn folded(faults: Vec<Fault>) -> Vec<Fault> {
    let kind = |fault: &Fault| Some((fault.labels.first()?.span.file, fault.code));
    let mut counts: BTreeMap<(FileId, Code), usize> = BTreeMap::new();
    for key in faults.iter().filter_map(kind) {
        *counts.entry(key).or_default() += 1;
    }
    let mut told: BTreeMap<(FileId, Code), usize> = BTreeMap::new();
    let mut fold = |fault: Fault| {
        let Some(key) = kind(&fault) else {
            return Some(fault);
        };
        let told = told.entry(key).or_default();
        *told += 1;
        let all = counts.get(&key).copied().unwrap_or(0);
        match all.checked_sub(FAULTS_OF_A_KIND) {
            Some(more) if more > 1 && *told == FAULTS_OF_A_KIND + 1 => Some(Fault {
                title: format!("and {more} more of this kind in this file"),
                help: None,
                ..fault
            }),
            Some(more) if more > 1 && *told > FAULTS_OF_A_KIND => None,
            _ => Some(fault),
        }
    };
    faults.into_iter().filter_map(&mut fold).collect()
}

/// Faults in the order of files and lines, so that a report reads like the course; last those that follow from others.
pub(super) fn sort_by_place(faults: &mut [Fault]) {
    let follows = |fault: &Fault| fault.code == Code::NeedsLeftOut;
    faults.sort_by_key(|fault| {
        let place = fault.labels.first().map(|l| (l.span.file, l.span.start));
        (follows(fault), place)
    });
}

/// Templates that no page is made with: neither ours by name nor named in another.
pub(super) fn tell_spare_templates(course: &Course, sources: &SourceMap, faults: &mut Vec<Fault>) {
    for name in course.templates.keys() {
        let mut others = course.templates.iter().filter(|(other, _)| *other != name);
        if TEMPLATES.contains(&name.as_str()) || others.any(|(_, text)| text.contains(name)) {
            continue;
        }
        let place = sources.find(&format!("templates/{name}"));
        let title = format!("no page is made with `{name}`");
        let place = place.unwrap_or_else(|| sources.anywhere());
        let fault = Fault::new(Code::NotRead, title, place, "");
        faults.push(fault.help(did_you_mean(name, &TEMPLATES)));
    }
}
