//! The element in its page: its attributes, and the events that leave it.

use js_sys::{Array, Function, Object, Reflect};
use modewright_components::analysis::Analysis;
use modewright_components::{ROWS, Rows, labels};
use modewright_core::Key;
use modewright_lesson::answer::verdict_name;
use modewright_lesson::words::{self, Advice};
use modewright_sheet::{MarkedNote, Paper};
use wasm_bindgen::prelude::*;
use web_sys::{CustomEvent, CustomEventInit, HtmlElement};

/// The wheel was turned.
pub const HOME: &str = "modewright-home";
/// A note was pointed at, or left.
pub const NOTE: &str = "modewright-note";
/// A tune was judged.
pub const VERDICT: &str = "modewright-verdict";

#[wasm_bindgen]
unsafe extern "C" {
    /// What the script does for an element.
    #[derive(Clone, Debug, PartialEq)]
    pub type Script;

    /// Everything that takes room stands.
    #[wasm_bindgen(method)]
    fn ready(this: &Script);
    /// Calls a function of a part that is loaded for it, and `done` with its answer or, second,
    /// with what went wrong.
    #[wasm_bindgen(method)]
    fn ask(this: &Script, part: &str, function: &str, values: &Array, done: &Function);
    /// Lets a tune or a key sound; `tell` is told how it goes ([`crate::sound`]). Gives its number.
    #[wasm_bindgen(method)]
    pub(crate) fn hear(
        this: &Script,
        what: &str,
        text: &str,
        loudness: u8,
        percent: u32,
        count_in: u32,
        tell: &Function,
    ) -> u32;
    /// Ends a sound, if it is still the one that is heard.
    #[wasm_bindgen(method)]
    pub(crate) fn hush(this: &Script, sound: u32);
    /// How loud a sound is, if it is still the one that is heard.
    #[wasm_bindgen(method)]
    pub(crate) fn louder(this: &Script, sound: u32, loudness: u8);
    /// How fast a sound is, if it is still the one that is heard.
    #[wasm_bindgen(method)]
    pub(crate) fn pace(this: &Script, sound: u32, percent: u32);
}

/// An element in a page.
#[derive(Clone, Debug, PartialEq)]
pub struct Host {
    element: HtmlElement,
    pub(crate) script: Script,
}

/// What the staff of an instrument is asked for.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Sheet<'a> {
    pub(crate) tune: &'a str,
    pub(crate) instrument: &'a str,
    pub(crate) rows: Rows,
    pub(crate) marks: &'a [MarkedNote],
    pub(crate) width: u32,
}

impl Host {
    /// The element, and what the script does for it.
    #[must_use]
    pub const fn new(element: HtmlElement, script: Script) -> Self {
        Self { element, script }
    }

    /// One of its attributes.
    #[must_use]
    pub fn attribute(&self, name: &str) -> Option<String> {
        self.element.get_attribute(name)
    }

    /// Whether its text holds tags other than those that lay text out.
    #[must_use]
    pub fn holds_markup(&self) -> bool {
        let plain = ":not(pre, code, br, p, div, span, script, noscript)";
        // A browser that does not know this selector finds nothing to complain of.
        self.element.query_selector(plain).is_ok_and(|found| found.is_some())
    }

    /// Asks for the picture of a tune with the fingerings of an instrument, from the part that
    /// knows instruments, which is loaded for the first of them. `take` is given the picture or,
    /// in words, what is wrong: an instrument that is not known, no network.
    pub(crate) fn sheet(
        &self,
        sheet: Sheet<'_>,
        take: impl FnOnce(Result<String, Advice>) + 'static,
    ) {
        let asked = Object::new();
        let row = |row| JsValue::from(labels::row(row));
        let rows: Array = ROWS.into_iter().filter(|row| sheet.rows.has(*row)).map(row).collect();
        set(&asked, "rows", &rows);
        let marks = sheet.marks.iter().map(|mark| JsValue::from(crate::settings::mark_name(*mark)));
        set(&asked, "mark", &marks.collect::<Array>());
        set(&asked, "on", &sheet.instrument.into());
        set(&asked, "width", &sheet.width.clamp(Paper::PIXELS.0, Paper::PIXELS.1).into());
        self.ask("engine", "sheetSvg", [sheet.tune.into(), asked.into()], move |drawn| {
            take(drawn.map(|picture| picture.as_string().unwrap_or_default()));
        });
    }

    /// Asks for the walk through a tune, as texts in threes (`lesson::walk`).
    pub(crate) fn walk(
        &self,
        tune: &str,
        american: bool,
        take: impl FnOnce(Result<Vec<String>, Advice>) + 'static,
    ) {
        self.ask("lesson", "walk", [tune.into(), american.into()], move |said| {
            take(said.map(|said| {
                Array::from(&said).iter().map(|text| text.as_string().unwrap_or_default()).collect()
            }));
        });
    }

    /// Calls a function of a part.
    fn ask(
        &self,
        part: &str,
        function: &str,
        [one, two]: [JsValue; 2],
        take: impl FnOnce(Result<JsValue, Advice>) + 'static,
    ) {
        // Boxed, so that the program holds the way there and back once.
        let take: Box<dyn FnOnce(JsValue, JsValue)> = Box::new(move |answer, why: JsValue| {
            take(if why.is_undefined() { Ok(answer) } else { Err(advice(&why)) });
        });
        let done = Closure::once_into_js(take);
        self.script.ask(part, function, &Array::of2(&one, &two), done.unchecked_ref());
    }

    /// Says that everything that takes room stands.
    pub fn ready(&self) {
        self.script.ready();
    }

    /// Tells the page that the wheel shows another key.
    pub fn tell_home(&self, key: Key) {
        let detail = key_detail(key);
        let notes = key.scale().map_or_else(
            |_| Array::new(),
            |scale| scale.iter().map(|note| JsValue::from(note.to_string())).collect(),
        );
        set(&detail, "notes", &notes);
        let signature = key.signature().map_or(JsValue::NULL, |s| i32::from(s.fifths()).into());
        set(&detail, "signature", &signature);
        set(&detail, "words", &words::in_one_sentence(key).into());
        self.tell(HOME, &detail);
    }

    /// Tells the page which note is pointed at.
    pub fn tell_note(&self, analysis: &Analysis, at: Option<usize>, told: Option<&str>) {
        let tune = &analysis.reading.tune;
        let event = at.and_then(|at| tune.events.get(at));
        let pitch = event.and_then(|event| event.sound.pitch());
        let detail = Object::new();
        #[expect(clippy::cast_precision_loss, reason = "a tune has fewer than 2^53 notes")]
        set(&detail, "index", &at.map_or(JsValue::NULL, |at| JsValue::from(at as f64)));
        set(&detail, "bar", &event.map_or(JsValue::NULL, |e| tune.bar_number(e).into()));
        set(&detail, "pitch", &pitch.map_or(JsValue::NULL, |pitch| pitch.to_string().into()));
        set(&detail, "words", &told.map_or(JsValue::NULL, JsValue::from));
        self.tell(NOTE, &detail);
    }

    /// Tells the page what a tune was found to be.
    pub fn tell_verdict(&self, analysis: &Analysis) {
        let best = analysis.finding.best();
        let detail = best.map_or_else(no_key, |best| key_detail(best.key));
        let chance = best.map(|best| f64::from(best.chance.ten_thousandths()) / 10_000.0);
        set(&detail, "chance", &chance.map_or(JsValue::NULL, JsValue::from));
        set(&detail, "verdict", &verdict_name(analysis.finding.verdict).into());
        set(&detail, "words", &analysis.words.verdict.as_str().into());
        let sure = analysis.words.sure.as_deref();
        set(&detail, "sure", &sure.map_or(JsValue::NULL, JsValue::from));
        self.tell(VERDICT, &detail);
    }

    /// Sends an event that bubbles, out of the shadow root too.
    fn tell(&self, name: &str, detail: &Object) {
        let options = CustomEventInit::new();
        options.set_bubbles(true);
        options.set_composed(true);
        options.set_detail(detail);
        if let Ok(event) = CustomEvent::new_with_event_init_dict(name, &options) {
            // A listener that fails has failed in the page.
            let _ = self.element.dispatch_event(&event);
        }
    }
}

fn key_detail(key: Key) -> Object {
    let detail = Object::new();
    set(&detail, "home", &key.home.to_string().into());
    set(&detail, "mode", &key.mode.name().into());
    detail
}

fn no_key() -> Object {
    let detail = Object::new();
    set(&detail, "home", &JsValue::NULL);
    set(&detail, "mode", &JsValue::NULL);
    detail
}

/// What was thrown, in words.
fn advice(error: &JsValue) -> Advice {
    Advice {
        // A part calls its option by a name that the element does not have.
        message: text_of(error, "message").trim_start_matches("on: ").to_owned(),
        hint: text_of(error, "hint"),
    }
}

/// A text that an error carries; nothing where it has none.
fn text_of(error: &JsValue, name: &str) -> String {
    let value = Reflect::get(error, &JsValue::from_str(name)).ok();
    value.and_then(|value| value.as_string()).unwrap_or_default()
}

fn set(detail: &Object, name: &str, value: &JsValue) {
    // A plain object takes any property.
    let _ = Reflect::set(detail, &JsValue::from_str(name), value);
}
