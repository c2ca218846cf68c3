//! Which notes stand together, where the source does not say.

use modewright_core::tune::Event;
use modewright_core::{Length, Tune};

/// Joins the short notes of each beat, in a tune whose source joins none; 4/4 joins half a bar.
///
/// A tune that joins any notes is left as it is.
pub fn join_by_beat(tune: &mut Tune) {
    if tune.events.iter().any(|e| e.joined) {
        return;
    }
    for i in 0..tune.bars.len() {
        let Some(bar) = tune.bars.get(i) else { return };
        let (first, end) = (bar.first, bar.end);
        let Some(unit) = bar.metre.unit() else { continue };
        let beats = match (bar.metre.upper(), bar.metre.lower()) {
            (4, 4) => vec![2, 2],
            (3, 8) => vec![3],
            _ => bar.metre.beats(),
        };
        // An upbeat is the end of a bar.
        let full = bar.metre.bar_length().unwrap_or(Length::ZERO);
        let lead = if i == 0 && bar.number == 0 { full.minus(bar.length) } else { None };
        let lead = lead.unwrap_or(Length::ZERO);
        let beat = |event: &Event| -> usize {
            let at = event.at.plus(lead).unwrap_or(event.at);
            let mut sum = 0_u32;
            let ends = beats.iter().map(|&b| {
                sum += b;
                sum
            });
            let passed = ends.take_while(|&end| unit.times(end, 1).is_ok_and(|end| end <= at));
            passed.count()
        };
        let short = |e: &Event| e.sound.pitch().is_some() && e.length < Length::CROTCHET;
        let events = tune.events.get_mut(first..end).unwrap_or(&mut []);
        let mut places = events.iter().map(|e| (beat(e), short(e))).collect::<Vec<_>>();
        places.push((usize::MAX, false));
        for (event, pair) in events.iter_mut().zip(places.windows(2)) {
            event.joined = pair[0].1 && pair[1].1 && pair[0].0 == pair[1].0;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::TuneText;
    use crate::{ReadOptions, abc};

    #[test]
    fn beats_stand_together() {
        for (metre, music, wanted) in [
            ("4/4", "A B c d e f g a", "ABcd efga"),
            ("6/8", "A B c d e f", "ABc def"),
            ("6/8", "A | A B c d2 f", "A | ABc d2 f"),
            ("3/4", "A B c2 d e", "AB c2 de"),
            ("2/4", "A B | c d e f", "AB | cd ef"),
            ("2+3/8", "A B c d e", "AB cde"),
        ] {
            let text = TuneText::abc(format!("X:1\nM:{metre}\nL:1/8\nK:C\n{music}\n"));
            let mut tune = abc::read(&text, &ReadOptions::default()).tune;
            join_by_beat(&mut tune);
            let written = abc::write(&tune);
            assert!(written.ends_with(&format!("K:C\n{wanted}\n")), "{metre}: {written}");
        }
    }
}
