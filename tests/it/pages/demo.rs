//! The demo library's jobs, from files to pages.

use std::collections::BTreeMap;
use std::sync::LazyLock;
use wirelore::check;
use wirelore::choose::choose;
use wirelore::judge::judge;
use wirelore::land::land;
use wirelore::model::{Job, Library, Survey};
use wirelore::pack::{PictureFile, View, view};
use wirelore::render::{self, Templates};
use wirelore::source::Files;
use wirelore::work::work;

/// The files of a pack by name.
pub(crate) type Pack = BTreeMap<String, Vec<u8>>;

/// The demo library and all its surveys.
pub(crate) fn library() -> (Library, Vec<Survey>) {
    let files = Files::embedded();
    let library = check::library(&files).value;
    let surveys = files.surveys().iter().filter_map(|file| check::survey(&library, file).value).collect();
    (library, surveys)
}

/// The demo library's files, its pictures among them.
static FILES: LazyLock<Files> = LazyLock::new(Files::embedded);

/// The view of a survey's pack.
pub(crate) fn view_of(library: &Library, survey: &Survey) -> View {
    let job = Job::new(library, survey).expect("a checked survey is a job");
    let plan = land(&job, choose(&job));
    let figures = work(&job, &plan);
    let judgement = judge(&job, &plan, &figures);
    let mut view = view(&job, &plan, &figures, &judgement, None);
    view.show_pictures(|card, name| {
        let picture = FILES.picture(&format!("notes/{card}/{name}"))?.ok()?;
        Some(PictureFile { media_type: picture.kind.media_type(), bytes: picture.bytes })
    });
    view
}

/// The views of all demo surveys.
pub(crate) fn views() -> Vec<View> {
    let (library, surveys) = library();
    surveys.iter().map(|survey| view_of(&library, survey)).collect()
}

/// The files of a view's pack.
pub(crate) fn files(view: &View) -> Pack {
    render::pack(view, &TEMPLATES).expect("a view fits the program's own templates")
}

/// A pack's page alone.
pub(crate) fn page(view: &View) -> String {
    text(&files(view), "pack.html")
}

/// A pack's Markdown alone.
pub(crate) fn markdown(view: &View) -> String {
    render::markdown(view, &TEMPLATES).expect("a view fits the program's own templates")
}

static TEMPLATES: LazyLock<Templates> =
    LazyLock::new(|| Templates::embedded().expect("the program's own templates have no fault"));

/// One file of a pack, as text.
pub(crate) fn text(pack: &Pack, name: &str) -> String {
    String::from_utf8(pack[name].clone()).expect("pages are UTF-8")
}
