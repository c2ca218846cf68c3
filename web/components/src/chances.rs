//! The chances of the candidates as a small plot.

use crate::number::hundredths;
use yew::prelude::*;

/// One candidate.
#[derive(Clone, Debug, PartialEq)]
pub struct ChanceBar {
    /// Its name.
    pub name: AttrValue,
    /// Its chance in words or number, as it is told.
    pub told: AttrValue,
    /// Its chance in ten-thousandths.
    pub chance: u16,
}

/// What the plot is given.
#[derive(Clone, Debug, PartialEq, Properties)]
pub struct ChancesProps {
    /// The candidates, the likeliest first.
    pub bars: Vec<ChanceBar>,
    /// What it shows, for those who do not see it.
    pub title: AttrValue,
    /// Told the place of the candidate that was chosen.
    pub on_choose: Callback<usize>,
    /// The candidate that is chosen now.
    #[prop_or_default]
    pub chosen: Option<usize>,
}

/// Length of a bar in units of a plot that is a hundred wide; what is not nothing is seen.
#[must_use]
pub fn bar_length(chance: u16) -> f64 {
    let length = f64::from(chance.min(10_000)) / 100.0;
    if chance == 0 { 0.0 } else { length.max(0.8) }
}

/// The plot: a row for each candidate, each a button.
#[component]
pub fn Chances(props: &ChancesProps) -> Html {
    plot(&props.bars, &props.title, props.chosen, &props.on_choose)
}

/// The same for those who need no component of it.
pub fn plot(
    bars: &[ChanceBar],
    title: &AttrValue,
    chosen: Option<usize>,
    on_choose: &Callback<usize>,
) -> Html {
    html! {
        <ol class="chances" aria-label={title.clone()}>
            { for bars.iter().enumerate().map(|(i, bar)| {
                let on_choose = on_choose.clone();
                html! {
                    <li key={i}>
                        <button type="button" aria-pressed={(chosen == Some(i)).to_string()}
                            onclick={move |_| on_choose.emit(i)}>
                            <span class="chance-name">{ bar.name.clone() }</span>
                            <svg class="chance-bar" viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true">
                                <rect class="chance-all" width="100" height="10" />
                                <rect class="chance" width={hundredths(bar_length(bar.chance))} height="10" />
                            </svg>
                            <span class="chance-told">{ bar.told.clone() }</span>
                        </button>
                    </li>
                }
            }) }
        </ol>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bars_are_in_proportion_and_never_vanish() {
        assert_eq!(bar_length(0), 0.0);
        assert_eq!(bar_length(10_000), 100.0);
        assert_eq!(bar_length(5_000), 50.0);
        assert!(bar_length(1) > 0.5);
        assert_eq!(bar_length(u16::MAX), 100.0);
    }
}
