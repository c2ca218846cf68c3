//! Clefs.

use std::fmt;

/// The sign of a clef.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ClefSign {
    /// The G clef.
    #[default]
    Treble,
    /// The C clef, as violas read it.
    Alto,
    /// The C clef, one line higher.
    Tenor,
    /// The F clef.
    Bass,
    /// For drums: lines mean no pitch.
    Percussion,
    /// No clef is printed.
    None,
}

/// A clef: its sign, the line it stands on, and an 8 above or below it.
///
/// # Examples
///
/// ```
/// use modewright_core::tune::{Clef, ClefSign};
///
/// assert_eq!(Clef::new(ClefSign::Bass).to_string(), "bass");
/// // The clef of a tenor voice sounds an octave lower than it looks.
/// let clef = Clef { octave: -1, ..Clef::default() };
/// assert_eq!(clef.to_string(), "treble-8");
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Clef {
    /// Its sign.
    pub sign: ClefSign,
    /// The line it stands on, counted from the lowest, 1.
    pub line: u8,
    /// Octaves that an 8 above (1) or below (−1) the clef says; 0 without one.
    pub octave: i8,
}

impl Clef {
    /// A clef on its usual line.
    #[must_use]
    pub const fn new(sign: ClefSign) -> Self {
        Self { sign, line: sign.usual_line(), octave: 0 }
    }

    /// The same on a line from 1 to 5. The signs that name no pitch stand on none, and stay as they
    /// are, as does a clef that is put on a line that there is not.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_core::tune::{Clef, ClefSign};
    ///
    /// assert_eq!(Clef::new(ClefSign::Alto).on_line(1).to_string(), "alto1");
    /// let none = Clef::new(ClefSign::None);
    /// assert_eq!(none.on_line(1), none);
    /// ```
    #[must_use]
    pub const fn on_line(self, line: u8) -> Self {
        match self.sign {
            ClefSign::Percussion | ClefSign::None => self,
            _ if line < 1 || line > 5 => self,
            _ => Self { line, ..self },
        }
    }
}

impl Default for Clef {
    fn default() -> Self {
        Self::new(ClefSign::Treble)
    }
}

impl ClefSign {
    /// The line that the clef usually stands on. Source: ABC 2.1, §4.6.
    #[must_use]
    pub const fn usual_line(self) -> u8 {
        match self {
            Self::Treble | Self::None => 2,
            Self::Alto | Self::Percussion => 3,
            Self::Tenor | Self::Bass => 4,
        }
    }
}

impl fmt::Display for Clef {
    /// `treble`, `alto1`, `treble-8`, as ABC writes it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self.sign {
            ClefSign::Treble => "treble",
            ClefSign::Alto => "alto",
            ClefSign::Tenor => "tenor",
            ClefSign::Bass => "bass",
            ClefSign::Percussion => "perc",
            ClefSign::None => "none",
        })?;
        if self.line != self.sign.usual_line() {
            write!(f, "{}", self.line)?;
        }
        match self.octave {
            0 => Ok(()),
            up if up > 0 => f.write_str("+8"),
            _ => f.write_str("-8"),
        }
    }
}
