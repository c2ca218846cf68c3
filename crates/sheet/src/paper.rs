//! What a sheet is laid out for: the size of the paper and of the music on it.

/// The size of a page and of the music, in micrometres.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Paper {
    /// Width of the page.
    pub width: u32,
    /// Height of the page; `None` for one long picture.
    pub height: Option<u32>,
    /// Margin on all four sides.
    pub margin: u32,
    /// The distance of two lines of the stave.
    pub space: u32,
}

impl Paper {
    /// ISO A4, 210 by 297 mm.
    pub const A4: Self =
        Self { width: 210_000, height: Some(297_000), margin: 15_000, space: 1_750 };
    /// US Letter, 8.5 by 11 inches.
    pub const LETTER: Self =
        Self { width: 215_900, height: Some(279_400), margin: 15_000, space: 1_750 };
    /// The width of a small phone held upright, 360 pixels of a 96th of an inch; no pages.
    pub const PHONE: Self = Self { width: 95_250, height: None, margin: 3_000, space: 1_600 };

    /// The widths of a picture on a screen, in pixels.
    pub const PIXELS: (u32, u32) = (240, 1_600);

    /// A picture on a screen, so many pixels of a 96th of an inch wide, within [`Self::PIXELS`];
    /// no pages and no margin.
    #[must_use]
    pub fn screen(pixels: u32) -> Self {
        let width = pixels.clamp(Self::PIXELS.0, Self::PIXELS.1) * 25_400 / 96;
        Self { width, height: None, margin: 0, space: 1_700 }
    }

    /// The narrowest and the widest that music can be laid out in, in thousandths of a space.
    pub const WIDTHS: (i32, i32) = (40_000, 1_000_000);

    /// The width between the margins in thousandths of a staff space.
    ///
    /// # Examples
    ///
    /// ```
    /// use modewright_sheet::Paper;
    ///
    /// assert_eq!(Paper::A4.inner_width(), 102_857);
    /// // A strip of paper that is all margin still holds a few notes.
    /// assert_eq!(Paper { width: 10, ..Paper::A4 }.inner_width(), 40_000);
    /// ```
    #[must_use]
    pub fn inner_width(self) -> i32 {
        let inner = self.width.saturating_sub(self.margin.saturating_mul(2));
        self.in_spaces(inner).clamp(Self::WIDTHS.0, Self::WIDTHS.1)
    }

    /// The height between the margins in thousandths of a staff space.
    #[must_use]
    pub fn inner_height(self) -> Option<i32> {
        let inner = self.height?.saturating_sub(self.margin.saturating_mul(2));
        Some(self.in_spaces(inner).max(Self::WIDTHS.0))
    }

    /// Micrometres as thousandths of a staff space.
    #[must_use]
    pub fn in_spaces(self, micrometres: u32) -> i32 {
        let spaces = u64::from(micrometres) * 1000 / u64::from(self.space.max(1));
        i32::try_from(spaces).unwrap_or(i32::MAX)
    }
}

impl Default for Paper {
    fn default() -> Self {
        Self::A4
    }
}
