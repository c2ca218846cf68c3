//! The wheel as SVG. Colours come from the page's style sheet by role; shapes and signs say the
//! same without colour.

use super::layout::{self, HUB, Layout, NAMES, OUTSIDE, RIM, SHARE};
use super::marks::{PlaceMark, Role, degree_name, note_name};
use crate::number::hundredths;
use yew::prelude::*;

/// One of the twelve places, drawn at the top and turned to its angle by its class.
pub(super) fn place(mark: &PlaceMark, layout: Layout, ring_beyond: f64) -> Html {
    let role = match mark.role {
        Role::Home => "home",
        Role::InMode => "in-mode",
        Role::Changed { .. } => "changed",
        Role::Outside => "outside",
    };
    let at = format!("at-{}", layout.place(mark.class));
    let foreign = mark.is_foreign();
    let class = classes!(
        "place",
        at,
        role,
        mark.open.then_some("open"),
        foreign.then_some("foreign"),
        (mark.share > 0.0).then_some("sounds")
    );
    let follow = format!("rotate({})", hundredths(ring_beyond));
    html! {
        <g {class} data-note={mark.name.to_string()} key={mark.class.semitones()}>
            <g class="turning" transform={follow}>
                <line class="spoke" x1="0" x2="0" y1={hundredths(-HUB)} y2={hundredths(-RIM.0)} />
                <path class="rim" d={layout::rim_piece(RIM)} />
            </g>
            if mark.degree.is_some() && mark.role != Role::Home {
                { share_bar(mark.share, 9.0) }
            } else if foreign {
                { share_outside(mark.share) }
            }
            <g transform={format!("translate(0 {})", hundredths(-NAMES))}>
                <text class="upright name" dy="0.35em">{ note_name(mark.name) }</text>
            </g>
            { badge(mark) }
        </g>
    }
}

/// How long a note of the mode sounds: a bar along its spoke, from the hub outwards.
fn share_bar(share: f64, width: f64) -> Html {
    let length = share * SHARE;
    html! {
        <rect class="share" x={hundredths(-width / 2.0)} width={hundredths(width)} rx={hundredths(width / 2.0)}
            y={hundredths(-HUB - 5.0 - length)} height={hundredths(length)} />
    }
}

/// How long a note from outside sounds: a bar beyond its badge.
fn share_outside(share: f64) -> Html {
    let length = (share * SHARE).clamp(4.0, 22.0);
    html! {
        <rect class="share" x="-4.5" width="9" rx="4.5" y={hundredths(-OUTSIDE - 20.0 - length)}
            height={hundredths(length)} />
    }
}

/// What stands outside the rim: the degree of a note of the mode, or a foreign or open note in
/// a ring of dashes.
fn badge(mark: &PlaceMark) -> Html {
    let lift = format!("translate(0 {})", hundredths(-OUTSIDE));
    match mark.role {
        Role::InMode | Role::Changed { .. } => {
            let degree = mark.degree.map(degree_name).unwrap_or_default();
            let (sign, dx) = match mark.role {
                Role::Changed { raised: true } => ("M-4.5 3.5L0 -4.5L4.5 3.5Z", "7"),
                Role::Changed { raised: false } => ("M-4.5 -3.5L0 4.5L4.5 -3.5Z", "7"),
                _ => ("", "0"),
            };
            html! {
                <g class="badge" transform={lift}>
                    <g class="upright">
                        if !sign.is_empty() { <path class="sign" d={sign} transform="translate(-12 0)" /> }
                        <text class="degree" x={dx} dy="0.35em">{ degree }</text>
                        if mark.open { <circle class="dashes" r="17" /> }
                    </g>
                </g>
            }
        }
        Role::Outside if mark.is_foreign() || mark.open => html! {
            <g class="badge" transform={lift}>
                <g class="upright">
                    <circle class="dashes" r="17" />
                    <text class="degree" dy="0.35em">{ note_name(mark.name) }</text>
                </g>
            </g>
        },
        // At home stands the home marker.
        Role::Home | Role::Outside => Html::default(),
    }
}

/// The name of home, drawn once more above the marker that covers it.
pub(super) fn home_name(mark: &PlaceMark, layout: Layout) -> Html {
    if mark.role != Role::Home {
        return Html::default();
    }
    let class = classes!("home-name", format!("at-{}", layout.place(mark.class)));
    html! {
        <g {class} key="home-name">
            <g transform={format!("translate(0 {})", hundredths(-NAMES))}>
                <text class="upright name" dy="0.35em">{ note_name(mark.name) }</text>
            </g>
        </g>
    }
}

/// The home marker, drawn at the top: a thick spoke and a house beyond the rim.
pub(super) fn home_marker(beyond: f64, share: f64) -> Html {
    html! {
        <g transform={format!("rotate({})", hundredths(beyond))}>
            <line class="home-spoke" x1="0" x2="0" y1={hundredths(-HUB)} y2={hundredths(-RIM.0)} />
            { share_bar(share, 5.0) }
            <path class="home-rim" d={layout::rim_piece(RIM)} />
            <g transform={format!("translate(0 {})", hundredths(-OUTSIDE))}>
                <circle class="reach" r="26" />
                <path class="house" d="M-17 15V-3L0 -19L17 -3V15Z" />
                <text class="upright degree" dy="0.4em">{ "1" }</text>
            </g>
        </g>
    }
}

/// The hub with the name of the key.
pub(super) fn hub(home: &str, mode: &str, signature: &str) -> Html {
    html! {
        <g class="hub">
            <circle r={hundredths(HUB)} />
            <text class="hub-home" y="-11">{ home }</text>
            <text class="hub-mode" y="12">{ mode }</text>
            <text class="hub-signature" y="32">{ signature }</text>
        </g>
    }
}
