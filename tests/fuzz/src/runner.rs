//! Runs a target: makes inputs, checks them, keeps those that teach something, stops at the first
//! that breaks a promise.

use crate::clock::Clock;
use crate::{Chance, Seen, Target, mutate};
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::sync::Once;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};

/// How long a run goes on.
#[derive(Clone, Copy, Debug)]
pub struct Limits {
    /// The most inputs.
    pub inputs: u64,
    /// The most time of the processor.
    pub time: Duration,
}

/// What a run did.
#[derive(Clone, Debug, Default)]
pub struct Run {
    /// Inputs that were made and checked.
    pub inputs: u64,
    /// Of these, how many had the slower checks as well.
    pub thorough: u64,
    /// Sets of signs that were met.
    pub kinds: usize,
    /// Time of the processor.
    pub time: Duration,
    /// Time of the wall.
    pub wall: Duration,
    /// The most nanoseconds that a unit of work took.
    pub slowest: u128,
    /// The input of which that is true.
    pub slow: Vec<u8>,
}

/// An input that broke a promise.
#[derive(Clone, Debug)]
pub struct Broken {
    /// The input.
    pub input: Vec<u8>,
    /// Which promise, in words.
    pub why: String,
    /// How many inputs held before.
    pub inputs: u64,
    /// Time of the processor until then.
    pub time: Duration,
}

/// Time that every input may take, for starting.
const BASE: Duration = Duration::from_millis(400);
/// Time for each unit of work: some fifty times what it takes when all is well.
const EACH: Duration = Duration::from_micros(60);
/// A long run says how far it is so often, in time of the processor.
const TELLS: Duration = Duration::from_secs(60);
/// One in so many inputs has the slower checks.
const THOROUGH: u64 = 5;
/// The most inputs that are damaged further, beside those that a run began with.
const POOL: usize = 4000;

/// When the input that is being looked at was begun, in milliseconds from the start; 0 for none.
static BEGUN: AtomicU64 = AtomicU64::new(0);

/// After this long an input counts as hanging, and the program ends.
const HANGS: Duration = Duration::from_secs(120);

/// The exit code of a program that ended an input that hangs.
const HUNG: i32 = 3;

/// Checks inputs until the limits are met, or until one breaks a promise. `last` is a file that
/// always holds the input being looked at, for what ends the whole program.
///
/// # Errors
///
/// The first input that breaks a promise.
pub fn run(
    target: &Target,
    books: &[String],
    seed: u64,
    limits: Limits,
    last: Option<&Path>,
) -> Result<Run, Broken> {
    let start = Instant::now();
    let clock = Clock::start();
    watch(start);
    let mut pool = (target.seeds)(books);
    let begun_with = pool.len();
    let mut known: BTreeSet<Vec<&'static str>> = BTreeSet::new();
    let mut done = Run::default();
    let mut told = Duration::ZERO;
    let mut chance = Chance::new(seed);
    while done.inputs < limits.inputs && clock.passed() < limits.time {
        if clock.passed() > told + TELLS {
            told = clock.passed();
            eprintln!("{}: {} inputs in {} s", target.name, done.inputs, told.as_secs());
        }
        // What it began with is checked as it is, first.
        let at = usize::try_from(done.inputs).unwrap_or(usize::MAX);
        let input = match pool.get(at).filter(|_| at < begun_with) {
            Some(seed) => seed.clone(),
            None => mutate(&pool, target.grain, target.words, &mut chance),
        };
        let thorough = at < begun_with || done.inputs.is_multiple_of(THOROUGH);
        if let Some(last) = last {
            let _ = std::fs::write(last, &input);
        }
        BEGUN.store(now(start), Ordering::Relaxed);
        let checked = timed(target, &input, thorough);
        BEGUN.store(0, Ordering::Relaxed);
        match checked {
            Ok((mut seen, nanoseconds)) => {
                done.inputs += 1;
                done.thorough += u64::from(thorough);
                if nanoseconds > done.slowest {
                    (done.slowest, done.slow) = (nanoseconds, input.clone());
                }
                seen.signs.sort_unstable();
                seen.signs.dedup();
                if known.insert(seen.signs)
                    && input.len() < 60_000
                    && pool.len() < begun_with + POOL
                {
                    pool.push(input);
                }
            }
            Err(why) => {
                let (inputs, time) = (done.inputs, clock.passed());
                return Err(Broken { input, why, inputs, time });
            }
        }
    }
    done.kinds = known.len();
    (done.time, done.wall) = (clock.passed(), clock.wall());
    Ok(done)
}

/// Checks one input; its time of the processor too, which is measured again where it was long.
fn timed(target: &Target, input: &[u8], thorough: bool) -> Result<(Seen, u128), String> {
    let begun = Clock::start();
    let seen = try_one(target, input, thorough)?;
    let mut least = begun.passed();
    let work = u32::try_from(seen.work).unwrap_or(u32::MAX);
    let bound = BASE + EACH.saturating_mul(work);
    for _ in 0..3 {
        if least < bound {
            break;
        }
        let begun = Clock::start();
        try_one(target, input, thorough)?;
        least = least.min(begun.passed());
    }
    if least > bound {
        let length = input.len();
        return Err(format!(
            "{least:?} for {length} bytes, {work} units of work: {bound:?} at most"
        ));
    }
    let over = least.saturating_sub(Duration::from_millis(2)).as_nanos();
    Ok((seen, over / u128::from(work.max(1))))
}

thread_local! {
    static PANIC: RefCell<Option<String>> = const { RefCell::new(None) };
}

/// Checks one input; a panic is a broken promise like any other.
///
/// # Errors
///
/// Which promise was broken.
pub fn try_one(target: &Target, input: &[u8], thorough: bool) -> Result<Seen, String> {
    static HOOK: Once = Once::new();
    HOOK.call_once(|| {
        let usual = std::panic::take_hook();
        std::panic::set_hook(Box::new(move |panic| {
            let ours = PANIC.with_borrow_mut(|told| match told {
                Some(told) => {
                    *told = panic.to_string();
                    true
                }
                None => false,
            });
            if !ours {
                usual(panic);
            }
        }));
    });
    PANIC.set(Some(String::new()));
    let checked = catch_unwind(AssertUnwindSafe(|| (target.check)(input, thorough)));
    let told = PANIC.take().unwrap_or_default();
    checked.unwrap_or_else(|_| Err(format!("a panic: {told}")))
}

fn now(start: Instant) -> u64 {
    u64::try_from(start.elapsed().as_millis()).unwrap_or(u64::MAX).max(1)
}

/// Ends the program where an input takes minutes; the file `last` holds it then.
fn watch(start: Instant) {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        std::thread::spawn(move || {
            loop {
                std::thread::sleep(Duration::from_secs(1));
                let begun = BEGUN.load(Ordering::Relaxed);
                let long = now(start).saturating_sub(begun);
                if begun > 0 && u128::from(long) > HANGS.as_millis() {
                    eprintln!("an input hangs: {long} ms");
                    std::process::exit(HUNG);
                }
            }
        });
    });
}

/// The inputs that are kept for a target, by name.
#[must_use]
pub fn kept(target: &Target) -> Vec<(PathBuf, Vec<u8>)> {
    let folder = modewright_tests::path("fuzz/kept").join(target.name);
    let Ok(files) = std::fs::read_dir(folder) else { return Vec::new() };
    let mut paths: Vec<PathBuf> = files.filter_map(|file| Some(file.ok()?.path())).collect();
    paths.sort();
    paths.into_iter().filter_map(|path| std::fs::read(&path).ok().map(|b| (path, b))).collect()
}
