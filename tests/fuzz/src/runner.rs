//! Runs a target: makes inputs, checks them, keeps those that teach something and those that break
//! a promise.

use crate::clock::{Clock, Watched};
use crate::{Chance, Seen, Target, mutate};
use std::cell::RefCell;
use std::collections::BTreeSet;
use std::fs::File;
use std::io::{Seek, Write};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::sync::Once;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;

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
    /// What broke, one of each kind.
    pub broken: Vec<Broken>,
}

/// A broken promise.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Break {
    /// A panic, too much time, a limit that was passed, or an answer of a wrong shape.
    Fault,
    /// A law that does not hold, like one of reading back what was written.
    Law,
}

/// A kind of broken promise, with the shortest input that showed it.
#[derive(Clone, Debug)]
pub struct Broken {
    /// Fault or law.
    pub of: Break,
    /// What it has in common with others of its kind.
    pub kind: String,
    /// Which promise, in words.
    pub why: String,
    /// The input.
    pub input: Vec<u8>,
    /// How many inputs showed it.
    pub times: u64,
    /// How many inputs came before the first.
    pub after: u64,
    /// Where the input is kept.
    pub file: Option<PathBuf>,
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
/// None of them is longer: damage makes inputs longer, and long ones leave time for few.
const SHORT: usize = 6000;

/// The number of the input that is being looked at, counted from 1; 0 for none.
static LOOKED_AT: AtomicU64 = AtomicU64::new(0);

/// After so many seconds of the processor an input counts as hanging, and the program ends.
const HANGS: u64 = 120;
/// After so many of the wall it does too, for what waits and never comes on.
const WAITS: u64 = 1200;

/// The exit code of a program that ended an input that hangs.
const HUNG: i32 = 3;

/// Checks inputs until the limits are met. `folder` keeps the input being looked at, for what ends
/// the whole program, and one input for each kind of broken promise.
pub fn run(
    target: &Target,
    books: &[String],
    seed: u64,
    limits: Limits,
    folder: Option<&Path>,
) -> Run {
    let clock = Clock::start();
    watch();
    let mut pool = (target.seeds)(books);
    let begun_with = pool.len();
    let mut known: BTreeSet<Vec<&'static str>> = BTreeSet::new();
    let mut done = Run::default();
    let mut told = Duration::ZERO;
    let mut chance = Chance::new(seed);
    let last = folder.map(|folder| folder.join(format!("{}.last", target.name)));
    // Open all the time: to make the file anew for each input is slow on some disks.
    let mut open = last.as_ref().and_then(|last| File::create(last).ok());
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
        if let Some(open) = &mut open {
            let _ = rewrite(open, &input);
        }
        LOOKED_AT.store(done.inputs + 1, Ordering::Relaxed);
        let checked = timed(target, &input, thorough);
        LOOKED_AT.store(0, Ordering::Relaxed);
        done.thorough += u64::from(thorough);
        let is_full = pool.len() >= begun_with + POOL;
        let broken = match checked {
            Ok((mut seen, nanoseconds)) => {
                if nanoseconds > done.slowest {
                    (done.slowest, done.slow) = (nanoseconds, input.clone());
                }
                seen.signs.sort_unstable();
                seen.signs.dedup();
                let is_new = seen.laws.is_empty() && known.insert(seen.signs);
                if is_new && input.len() <= SHORT {
                    // A full pool forgets one.
                    let place = begun_with + chance.below(POOL);
                    match pool.get_mut(place).filter(|_| is_full) {
                        Some(old) => old.clone_from(&input),
                        None => pool.push(input.clone()),
                    }
                }
                seen.laws.into_iter().map(|why| (Break::Law, why)).collect()
            }
            Err(why) => vec![(Break::Fault, why)],
        };
        for (of, why) in broken {
            let name = format!("{}-{seed}-{}.broken", target.name, done.broken.len() + 1);
            let file = folder.map(|folder| folder.join(name));
            done.keep(Broken::new(of, why, &input, file));
        }
        done.inputs += 1;
    }
    if let Some(last) = last {
        let _ = std::fs::remove_file(last);
    }
    done.kinds = known.len();
    (done.time, done.wall) = (clock.passed(), clock.wall());
    done
}

/// Replaces what a file holds.
fn rewrite(file: &mut File, with: &[u8]) -> std::io::Result<()> {
    file.rewind()?;
    file.write_all(with)?;
    file.set_len(u64::try_from(with.len()).unwrap_or(0))
}

/// Letters of a complaint that tell its kind.
const KIND: usize = 40;

impl Broken {
    fn new(of: Break, why: String, input: &[u8], file: Option<PathBuf>) -> Self {
        let line = why.lines().next().unwrap_or_default();
        let kind = if line.starts_with(PANIC) {
            // It names the place in the code.
            line.to_owned()
        } else {
            line.chars().filter(|c| !c.is_ascii_digit()).take(KIND).collect()
        };
        Self { of, kind, why, input: input.to_vec(), times: 1, after: 0, file }
    }
}

impl Run {
    /// Counts a broken promise, and keeps it if it is the first or the shortest of its kind.
    fn keep(&mut self, new: Broken) {
        let known = self.broken.iter_mut().find(|known| known.kind == new.kind);
        let kept = match known {
            Some(known) => {
                known.times += 1;
                if new.input.len() >= known.input.len() {
                    return;
                }
                (known.why, known.input) = (new.why, new.input);
                known
            }
            None => {
                self.broken.push(Broken { after: self.inputs, ..new });
                let Some(first) = self.broken.last_mut() else { return };
                first
            }
        };
        if let Some(file) = &kept.file {
            let _ = std::fs::write(file, &kept.input);
        }
    }
}

/// Every promise that an input breaks.
#[must_use]
pub fn breaks(target: &Target, input: &[u8]) -> Vec<Broken> {
    let broken = match try_one(target, input, true) {
        Ok(seen) => seen.laws.into_iter().map(|why| (Break::Law, why)).collect(),
        Err(why) => vec![(Break::Fault, why)],
    };
    broken.into_iter().map(|(of, why)| Broken::new(of, why, input, None)).collect()
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

/// How a complaint of a panic begins.
const PANIC: &str = "a panic: ";

thread_local! {
    static TOLD: RefCell<Option<String>> = const { RefCell::new(None) };
}

/// Checks one input; a panic is a fault like any other.
///
/// # Errors
///
/// The fault. Laws that do not hold are in what was seen.
pub fn try_one(target: &Target, input: &[u8], thorough: bool) -> Result<Seen, String> {
    static HOOK: Once = Once::new();
    HOOK.call_once(|| {
        let usual = std::panic::take_hook();
        std::panic::set_hook(Box::new(move |panic| {
            let ours = TOLD.with_borrow_mut(|told| match told {
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
    TOLD.set(Some(String::new()));
    let checked = catch_unwind(AssertUnwindSafe(|| (target.check)(input, thorough)));
    let told = TOLD.take().unwrap_or_default();
    checked.unwrap_or_else(|_| Err(format!("{PANIC}{told}")))
}

/// Ends the program where an input takes minutes; the file `last` holds it then. Seconds of the wall
/// are counted one by one: those in which the whole program is stopped are none.
fn watch() {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        let thread = Watched::this();
        std::thread::spawn(move || {
            let (mut known, mut seconds, mut from) = (0, 0, thread.processor());
            loop {
                std::thread::sleep(Duration::from_secs(1));
                let looked_at = LOOKED_AT.load(Ordering::Relaxed);
                if looked_at != known || looked_at == 0 {
                    (known, seconds, from) = (looked_at, 0, thread.processor());
                }
                seconds += 1;
                let worked = from.zip(thread.processor());
                let worked = worked.map_or(seconds, |(from, to)| to.saturating_sub(from).as_secs());
                if worked > HANGS || seconds > WAITS {
                    eprintln!("an input hangs: {worked} s of the processor, {seconds} of the wall");
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Grain;

    /// A reader of letters that cannot bear some of them.
    fn touchy(input: &[u8], _: bool) -> Result<Seen, String> {
        let mut seen = Seen { work: input.len(), ..Seen::default() };
        let count = |letter: u8| input.iter().filter(|byte| **byte == letter).count();
        assert!(count(b'p') == 0, "no p");
        if count(b'f') > 0 {
            return Err(format!("{} bytes are too long", input.len()));
        }
        if count(b'l') > 0 {
            seen.law(Err(format!("{} bytes read back as others", input.len())));
        }
        Ok(seen)
    }

    const TOUCHY: Target = Target {
        name: "touchy",
        seeds: |_| ["abc", "p", "p p", "f", "l l l", "l"].map(|it| it.as_bytes().to_vec()).into(),
        grain: Grain::Words,
        words: &["d", " "],
        check: touchy,
    };

    #[test]
    fn a_run_goes_on_and_keeps_the_shortest_of_each_kind() {
        let limits = Limits { inputs: 300, time: Duration::MAX };
        let done = run(&TOUCHY, &[], 1, limits, None);
        assert_eq!(done.inputs, 300);
        let kinds: Vec<_> = done.broken.iter().map(|it| (it.of, it.after)).collect();
        assert_eq!(kinds, [(Break::Fault, 1), (Break::Fault, 3), (Break::Law, 4)]);
        assert!(done.broken.iter().all(|it| it.times > 1 && it.input.len() == 1), "{done:?}");
        assert!(done.broken[0].why.contains("no p"));
        assert_eq!(done.broken[2].kind, " bytes read back as others");
    }

    #[test]
    fn too_long_for_its_work_is_a_fault() {
        let slow = |_: &[u8], _: bool| {
            let begun = Clock::start();
            while begun.passed() < BASE + Duration::from_millis(20) {
                std::hint::spin_loop();
            }
            Ok(Seen::default())
        };
        let slow = Target { seeds: |_| vec![Vec::new()], check: slow, ..TOUCHY };
        let done = run(&slow, &[], 1, Limits { inputs: 1, time: Duration::MAX }, None);
        assert_eq!(done.broken.len(), 1);
        assert_eq!(done.broken[0].of, Break::Fault);
        assert!(done.broken[0].why.contains("units of work"), "{:?}", done.broken[0].why);
    }
}
