//! What an element is asked for by its attributes.

use crate::labels;
use crate::pace::Pace;
use modewright_components::player::Settings as Player;
use modewright_components::wheel::Layout;
use modewright_components::{ROWS, Rows};
use modewright_core::{Key, Mode, Spelling, Step};
use modewright_formats::names;
use modewright_lesson::walk::Values;
use modewright_lesson::words::{Advice, theory_error};
use modewright_sheet::{MarkedNote, RowKind};

/// The elements.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// `<modewright-wheel>`: a wheel that shows a key.
    Wheel,
    /// `<modewright-tune>`: a tune on a staff, with its verdict and range.
    Tune,
    /// `<modewright-ask>`: a box to paste a tune into.
    Ask,
    /// `<modewright-lesson>`: all there is to say about a tune.
    Lesson,
}

impl Kind {
    /// The element of a tag name.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_elements::settings::Kind;
    ///
    /// assert_eq!(Kind::named("modewright-tune"), Some(Kind::Tune));
    /// assert_eq!(Kind::named("modewright-tuna"), None);
    /// ```
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        match name {
            "modewright-wheel" => Some(Self::Wheel),
            "modewright-tune" => Some(Self::Tune),
            "modewright-ask" => Some(Self::Ask),
            "modewright-lesson" => Some(Self::Lesson),
            _ => None,
        }
    }

    /// The class of what it shows.
    pub(crate) const fn class(self) -> &'static str {
        match self {
            Self::Wheel => "of-wheel",
            Self::Tune => "of-tune",
            Self::Ask => "of-ask",
            Self::Lesson => "of-lesson",
        }
    }

    /// Whether its own text is a tune.
    #[must_use]
    pub const fn has_tune(self) -> bool {
        matches!(self, Self::Tune | Self::Lesson)
    }
}

/// A part of what an element shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The title of the tune.
    Title,
    /// The staff with its rows.
    Staff,
    /// The verdict in a line.
    Verdict,
    /// How sure it is.
    Sure,
    /// What else there is to say about the mode.
    Told,
    /// The range as a picture and in words.
    Range,
    /// The other candidates with their chances.
    Chances,
    /// The wheel.
    Wheel,
    /// The walk through the tune.
    Walk,
}

/// All parts with their names in the attribute `show`, in the order in which they stand.
pub const PARTS: [(Part, &str); 9] = [
    (Part::Title, "title"),
    (Part::Staff, "staff"),
    (Part::Verdict, "verdict"),
    (Part::Sure, "sure"),
    (Part::Told, "told"),
    (Part::Range, "range"),
    (Part::Chances, "chances"),
    (Part::Wheel, "wheel"),
    (Part::Walk, "walk"),
];

/// The notes that can be marked on the staff, with their names in the attribute `marks`.
pub const MARKS: [(MarkedNote, &str); 4] = [
    (MarkedNote::Home, "home"),
    (MarkedNote::Lowest, "lowest"),
    (MarkedNote::Highest, "highest"),
    (MarkedNote::Forms, "forms"),
];

/// The name of a mark.
pub(crate) fn mark_name(mark: MarkedNote) -> &'static str {
    MARKS.iter().find(|(known, _)| *known == mark).map_or("", |(_, name)| *name)
}

/// What is asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct Settings {
    /// The key of a wheel without a tune.
    pub key: Key,
    /// The order of the notes round the wheel.
    pub layout: Layout,
    /// Whether wheel and tune can be heard.
    pub sound: bool,
    /// How fast a tune is played, and how it is counted in.
    pub pace: Pace,
    /// What stands under the notes.
    pub rows: Rows,
    /// Which notes are marked on the staff.
    pub marks: Vec<MarkedNote>,
    /// Names of note values.
    pub values: Values,
    /// What is shown.
    pub show: Vec<Part>,
    /// The instrument whose fingerings stand under the notes, by its id.
    pub instrument: Option<String>,
    /// The level of the element's headings in the page, 1 to 6.
    pub level: u8,
    /// Attributes that say something impossible, with a way out each.
    pub mistakes: Vec<Advice>,
}

impl Settings {
    /// Reads the attributes of an element. One that cannot be understood leaves its usual value,
    /// and is told in `mistakes`.
    pub fn read(kind: Kind, attribute: &dyn Fn(&str) -> Option<String>) -> Self {
        let mut mistakes = Vec::new();
        let given =
            |name: &str| attribute(name).map(|v| v.trim().to_owned()).filter(|v| !v.is_empty());
        let mut choice = |name: &'static str, choices: [&'static str; 2]| {
            let value = given(name)?;
            let at = choices.iter().position(|choice| value.eq_ignore_ascii_case(choice));
            if at.is_none() {
                mistakes.push(labels::not_allowed(name, &value, &choices));
            }
            at
        };
        let layout = match choice("view", ["fifths", "pitch"]) {
            Some(1) => Layout::Pitch,
            _ => Layout::Fifths,
        };
        let sound = choice("sound", ["on", "off"]) != Some(1);
        let values = match choice("values", ["british", "american"]) {
            Some(1) => Values::American,
            _ => Values::British,
        };
        let home = given("home").map_or(Ok(Spelling::natural(Step::D)), |home| names::note(&home));
        let mode = given("mode").map_or(Ok(Mode::Dorian), |mode| names::mode(&mode));
        mistakes.extend(
            [home.as_ref().err(), mode.as_ref().err()].into_iter().flatten().map(theory_error),
        );
        let key =
            Key::new(home.unwrap_or(Spelling::natural(Step::D)), mode.unwrap_or(Mode::Dorian));
        let instrument = given("instrument").filter(|_| kind.has_tune());
        let mut list = |attribute: &'static str, names: &[&'static str]| {
            let (places, unknown) = listed(&given(attribute)?, names);
            mistakes.extend(unknown.iter().map(|bad| labels::not_allowed(attribute, bad, names)));
            Some(places)
        };
        let rows = list("rows", &ROWS.map(modewright_components::labels::row));
        let rows = rows.map(|places| at(&ROWS, &places));
        let rows = rows.unwrap_or_else(|| usual_rows(instrument.is_some()));
        let marks = list("marks", &MARKS.map(|(_, name)| name));
        let marks = marks.unwrap_or_else(|| (0..MARKS.len()).collect());
        let show = list("show", &PARTS.map(|(_, name)| name));
        let show = show.map(|places| at(&PARTS.map(|(part, _)| part), &places));
        let mut number = |name: &'static str, usual: u32, (low, high): (u32, u32)| {
            let Some(value) = given(name) else { return usual };
            let number = value.trim_end_matches('%').trim_end().parse().ok();
            number.filter(|number| (low..=high).contains(number)).unwrap_or_else(|| {
                let range = format!("a whole number from {low} to {high}");
                mistakes.push(labels::not_allowed(name, &value, &[&range]));
                usual
            })
        };
        let pace = Pace {
            percent: number("speed", Pace::PLAIN.percent, Player::SPEEDS),
            count_in: number("count-in", Pace::PLAIN.count_in, (0, 2)),
        };
        let level = given("level")
            .map_or(Some(3), |level| level.parse().ok().filter(|l| (1..=6).contains(l)));
        if level.is_none() {
            let level = given("level").unwrap_or_default();
            mistakes.push(labels::not_allowed("level", &level, &["1", "2", "3", "4", "5", "6"]));
        }
        Self {
            key,
            layout,
            sound,
            pace,
            rows: rows.iter().fold(Rows::from_number(0), |rows, row| rows.with(*row, true)),
            marks: at(&MARKS.map(|(mark, _)| mark), &marks),
            values,
            show: show.unwrap_or_else(|| usual_parts(kind)),
            instrument,
            level: level.unwrap_or(3),
            mistakes,
        }
    }

    /// Whether a part is shown.
    #[must_use]
    pub fn shows(&self, part: Part) -> bool {
        self.show.contains(&part)
    }
}

fn usual_rows(instrument: bool) -> Vec<RowKind> {
    let played = |row| instrument && matches!(row, RowKind::Fingering | RowKind::Bellows);
    ROWS.into_iter().filter(|row| Rows::default().has(*row) || played(*row)).collect()
}

fn usual_parts(kind: Kind) -> Vec<Part> {
    match kind {
        Kind::Tune => vec![Part::Staff, Part::Verdict, Part::Range],
        // The title stands over the staff.
        Kind::Lesson => {
            let usual = |part: &Part| !matches!(part, Part::Title | Part::Chances);
            PARTS.into_iter().map(|(part, _)| part).filter(usual).collect()
        }
        Kind::Wheel | Kind::Ask => Vec::new(),
    }
}

/// The things at some places of a list.
fn at<T: Copy>(all: &[T], places: &[usize]) -> Vec<T> {
    places.iter().filter_map(|place| all.get(*place).copied()).collect()
}

/// The places of the names that a list holds, parted by commas or blanks, and what is no name.
fn listed(list: &str, names: &[&str]) -> (Vec<usize>, Vec<String>) {
    let (mut known, mut unknown) = (Vec::new(), Vec::new());
    for word in list.split([',', ' ', '\n', '\t']).filter(|word| !word.is_empty()) {
        match names.iter().position(|name| name.eq_ignore_ascii_case(word)) {
            Some(place) => known.push(place),
            None if word.eq_ignore_ascii_case("none") => {}
            None => unknown.push(word.to_owned()),
        }
    }
    (known, unknown)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(kind: Kind, attributes: &[(&str, &str)]) -> Settings {
        let get = |name: &str| {
            attributes.iter().find(|(n, _)| *n == name).map(|(_, value)| (*value).to_owned())
        };
        Settings::read(kind, &get)
    }

    #[test]
    fn a_wheel_takes_home_mode_view_and_sound() {
        let asked = [("home", "f sharp"), ("mode", "Mix"), ("view", "Pitch"), ("sound", "off")];
        let settings = read(Kind::Wheel, &asked);
        assert_eq!(settings.key.to_string(), "F# mixolydian");
        assert_eq!((settings.layout, settings.sound), (Layout::Pitch, false));
        assert_eq!(settings.mistakes, []);
        let bare = read(Kind::Wheel, &[]);
        assert_eq!((bare.key.to_string().as_str(), bare.sound), ("D dorian", true));
    }

    #[test]
    fn rows_and_parts_are_lists() {
        let settings = read(Kind::Tune, &[("rows", "count, Degree"), ("show", "staff walk")]);
        let rows: Vec<_> = ROWS.into_iter().filter(|row| settings.rows.has(*row)).collect();
        assert_eq!(rows, [RowKind::Degree, RowKind::Count]);
        assert!(settings.shows(Part::Walk) && !settings.shows(Part::Verdict));
        let none = read(Kind::Tune, &[("rows", "none")]);
        assert!(ROWS.into_iter().all(|row| !none.rows.has(row)) && none.mistakes.is_empty());
        assert!(read(Kind::Tune, &[]).rows.has(RowKind::Note));
        assert!(!read(Kind::Tune, &[]).rows.has(RowKind::Fingering));
        let played = read(Kind::Tune, &[("instrument", "tin-whistle-d")]);
        assert!(played.rows.has(RowKind::Fingering) && played.rows.has(RowKind::Bellows));
        assert!(read(Kind::Lesson, &[]).shows(Part::Walk));
        let marks = |given: &[_]| read(Kind::Tune, given).marks;
        assert_eq!(marks(&[("marks", "home,Highest")]), [MarkedNote::Home, MarkedNote::Highest]);
        assert_eq!((marks(&[("marks", "none")]).len(), marks(&[]).len()), (0, 4));
    }

    #[test]
    fn speed_and_count_in_are_numbers() {
        let pace = |given: &[_]| read(Kind::Tune, given).pace;
        assert_eq!(pace(&[]), Pace::PLAIN);
        let asked = [("speed", "75 %"), ("count-in", "1")];
        assert_eq!(pace(&asked), Pace { percent: 75, count_in: 1 });
        let wrong = read(Kind::Tune, &[("speed", "39"), ("count-in", "three")]);
        assert_eq!(wrong.pace, Pace::PLAIN);
        let hints: Vec<&str> = wrong.mistakes.iter().map(|it| it.hint.as_str()).collect();
        assert_eq!(
            hints,
            ["write a whole number from 40 to 200", "write a whole number from 0 to 2"]
        );
    }

    #[test]
    fn what_cannot_be_understood_is_told_and_the_rest_holds() {
        let asked = [
            ("home", "H"),
            ("view", "thirds"),
            ("rows", "note,colour"),
            ("values", "german"),
            ("level", "9"),
        ];
        let settings = read(Kind::Lesson, &asked);
        let said: Vec<String> =
            settings.mistakes.iter().map(|m| format!("{}: {}", m.message, m.hint)).collect();
        assert_eq!(said.len(), 5, "{said:?}");
        assert!(
            said.iter().any(|s| s.contains("`thirds`") && s.contains("fifths or pitch")),
            "{said:?}"
        );
        assert!(said.iter().any(|s| s.contains("`H`")), "{said:?}");
        assert!(settings.rows.has(RowKind::Note));
        assert_eq!(settings.level, 3);
    }
}
