//! The structure of every PDF, read back with lopdf: what a tagged PDF promises (ISO 32000-1, 14.7 and 14.8; the
//! machine-checkable part of ISO 14289-1 as the Matterhorn Protocol lists it), variants and booklets among them.

mod reader;

use lopdf::{Dictionary, Document, Object, ObjectId};
use yokeward::app::{PackOptions, pack};
use yokeward::course::Paper;
use yokeward::handout::Print;

use crate::demo_course::demo;
use reader::{OUT_OF_ORDER, kids, name, structure_faults};
use yokeward::course::{Hand, PrintedSizes, Printer, TypeSize};

/// PDFs of the demo course by path.
fn pdfs(options: PackOptions) -> Vec<(String, Document)> {
    let files = pack(&demo(), &[], options, &|_| {}).unwrap();
    files
        .iter()
        .filter(|(path, _)| path.ends_with(".pdf"))
        .map(|(path, bytes)| (path.clone(), Document::load_mem(bytes).unwrap()))
        .collect()
}

/// Whether the file claims to keep ISO 14289-1.
fn claims(document: &Document) -> bool {
    let id = document
        .catalog()
        .unwrap()
        .get(b"Metadata")
        .and_then(Object::as_reference)
        .unwrap();
    let xmp = &document
        .get_object(id)
        .and_then(Object::as_stream)
        .unwrap()
        .content;
    String::from_utf8_lossy(xmp).contains("<pdfuaid:part>1</pdfuaid:part>")
}

fn plain_and_all_at_once() -> [PackOptions; 2] {
    let all = Print {
        ink: Printer::Black,
        type_size: TypeSize::Large,
        hand: Hand::Left,
        sizes: PrintedSizes::Marked("adult-medium".to_owned()),
        ..Print::default()
    };
    [
        PackOptions {
            booklet: true,
            ..PackOptions::default()
        },
        PackOptions {
            booklet: true,
            paper: Some(Paper::Letter),
            print: all,
            ..PackOptions::default()
        },
    ]
}

#[test]
fn every_pdf_is_tagged_throughout_and_claims_it() {
    for options in plain_and_all_at_once() {
        let pdfs = pdfs(options);
        assert!(pdfs.len() > 28, "{}", pdfs.len());
        for (path, document) in &pdfs {
            let mut faults = structure_faults(document);
            // On a sheet of a booklet steps that go on overleaf and a box beside their beginning are two pages, each in its
            // own order.
            if path.ends_with("-booklet.pdf") {
                faults.retain(|fault| !fault.ends_with(OUT_OF_ORDER));
            }
            assert!(faults.is_empty(), "{path}: {faults:?}");
            assert!(claims(document), "{path}");
            if !path.ends_with("-booklet.pdf") {
                let pages: Vec<u32> = document.get_pages().into_keys().collect();
                let text = document.extract_text(&pages).unwrap();
                assert!(text.contains("Saltmarsh Guild"), "{path}");
            }
        }
    }
}

/// A check that cannot fail is none: planted faults are found.
#[test]
fn planted_structure_faults_are_caught() {
    let all = pdfs(PackOptions::default());
    let (_, document) = all.iter().find(|(path, _)| path == "course.pdf").unwrap();
    assert!(structure_faults(document).is_empty());
    let element = |role: &[u8]| {
        let found = document.objects.iter().find(|(_, o)| {
            o.as_dict().is_ok_and(|d| {
                d.has(b"P")
                    && d.get(b"S")
                        .and_then(Object::as_name)
                        .is_ok_and(|n| n == role)
            })
        });
        *found.unwrap().0
    };
    let root = document
        .catalog()
        .unwrap()
        .get(b"StructTreeRoot")
        .and_then(Object::as_reference)
        .unwrap();
    let tree = document
        .get_dictionary(root)
        .unwrap()
        .get(b"ParentTree")
        .and_then(Object::as_reference)
        .unwrap();
    let typed = |kind: &[u8]| {
        let found = document.objects.iter().find(|(_, o)| {
            o.as_dict().is_ok_and(|d| {
                d.get(b"Type")
                    .and_then(Object::as_name)
                    .is_ok_and(|n| n == kind)
            })
        });
        *found.unwrap().0
    };
    let type0 = *document
        .objects
        .iter()
        .find(|(_, o)| o.as_dict().is_ok_and(|d| name(d, b"Subtype") == "Type0"))
        .unwrap()
        .0;
    let plant = |what: &str, id: ObjectId, change: &dyn Fn(&mut Dictionary)| {
        let mut spoilt = document.clone();
        change(spoilt.get_object_mut(id).unwrap().as_dict_mut().unwrap());
        assert!(!structure_faults(&spoilt).is_empty(), "not found: {what}");
    };
    let catalog = document
        .trailer
        .get(b"Root")
        .and_then(Object::as_reference)
        .unwrap();
    let gone = |key: &'static [u8]| {
        move |d: &mut Dictionary| {
            d.remove(key);
        }
    };
    let role = |to: &'static str| move |d: &mut Dictionary| d.set("S", Object::Name(to.into()));
    plant("language", catalog, &gone(b"Lang"));
    plant("alternative text", element(b"Figure"), &gone(b"Alt"));
    plant("scope", element(b"TH"), &gone(b"A"));
    plant("content of a paragraph", element(b"P"), &|d| {
        d.set("K", Vec::<Object>::new())
    });
    plant("skipped level", element(b"H2"), &role("H3"));
    plant("item outside a list", element(b"L"), &role("Sect"));
    plant("row outside a table", element(b"Table"), &role("Sect"));
    plant("link without annotation", element(b"Link"), &|d| {
        let kept = kids(d)
            .into_iter()
            .filter(|k| k.as_dict().map_or(true, |k| name(k, b"Type") != "OBJR"));
        let kept: Vec<Object> = kept.collect();
        d.set("K", kept);
    });
    plant("parent tree", tree, &|d| {
        let nums = d.get_mut(b"Nums").unwrap().as_array_mut().unwrap();
        nums.truncate(nums.len() - 2);
    });
    plant("short row", element(b"TR"), &|d| {
        let mut cells = kids(d);
        cells.pop();
        d.set("K", cells);
    });
    plant(
        "embedded font",
        typed(b"FontDescriptor"),
        &gone(b"FontFile2"),
    );
    plant("readable font", type0, &gone(b"ToUnicode"));
    plant("tab order", typed(b"Page"), &gone(b"Tabs"));
}
