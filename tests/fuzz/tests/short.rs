//! A short run of every target, the same each time, and everything that once broke something.

use modewright_fuzz::{Limits, TARGETS, kept, run, try_one};
use std::time::Duration;

/// Inputs of a short run, beside those that it begins with.
const INPUTS: u64 = 500;

fn short(name: &str) {
    let target = modewright_fuzz::named(name).expect("a target");
    for (path, input) in kept(target) {
        if let Err(why) = try_one(target, &input, true) {
            panic!("{}: {why}", path.display());
        }
    }
    let begun_with = (target.seeds)(&[]).len() as u64;
    let limits = Limits { inputs: begun_with + INPUTS, time: Duration::MAX };
    match run(target, &[], 1, limits, None) {
        Ok(done) => {
            assert_eq!(done.inputs, begun_with + INPUTS);
            assert!(done.kinds > 3, "{name}: {} kinds of answers", done.kinds);
        }
        Err(broken) => {
            let text = String::from_utf8_lossy(&broken.input);
            panic!("{name}: {}\n{:?}", broken.why, text.chars().take(3000).collect::<String>());
        }
    }
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
