//! A short run of every target, the same each time, and everything that once broke something.

use modewright_fuzz::{Limits, TARGETS, breaks, kept, run};
use std::time::Duration;

/// Inputs of a short run, beside those that it begins with.
const INPUTS: u64 = 500;

fn short(name: &str) {
    let target = modewright_fuzz::named(name).expect("a target");
    for (path, input) in kept(target) {
        let broken: Vec<String> = breaks(target, &input).into_iter().map(|it| it.why).collect();
        assert!(broken.is_empty(), "{}: {}", path.display(), broken.join("\n"));
    }
    let begun_with = (target.seeds)(&[]).len() as u64;
    let limits = Limits { inputs: begun_with + INPUTS, time: Duration::MAX };
    let done = run(target, &[], 1, limits, None);
    assert_eq!(done.inputs, begun_with + INPUTS);
    assert!(done.kinds > 3, "{name}: {} kinds of answers", done.kinds);
    for broken in &done.broken {
        let text = String::from_utf8_lossy(&broken.input);
        let text: String = text.chars().take(3000).collect();
        println!("{name}: {:?} of {} inputs: {}\n{text:?}", broken.of, broken.times, broken.why);
    }
    assert!(done.broken.is_empty());
}

macro_rules! targets {
    ($($name:ident)*) => {
        $(#[test]
        fn $name() {
            short(stringify!($name));
        })*

        #[test]
        fn every_target_is_run() {
            let names: Vec<&str> = TARGETS.iter().map(|target| target.name).collect();
            assert_eq!(names, [$(stringify!($name)),*]);
        }
    };
}

targets!(abc letters musicxml mxl midi instrument link);
