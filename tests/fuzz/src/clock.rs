//! Time of the processor, which a busy machine does not stretch.

use std::path::PathBuf;
use std::time::Duration;

/// What this thread has had of the processor. `None` where the system does not tell it: outside
/// Linux, as a rule.
pub(crate) fn processor() -> Option<Duration> {
    had(&std::fs::read_to_string("/proc/thread-self/schedstat").ok()?)
}

/// The same for a thread that another one looks at.
#[derive(Debug)]
pub(crate) struct Watched(Option<PathBuf>);

impl Watched {
    /// The thread that asks.
    pub(crate) fn this() -> Watched {
        let thread = std::fs::read_link("/proc/thread-self").ok();
        Watched(thread.map(|thread| PathBuf::from("/proc").join(thread).join("schedstat")))
    }

    /// What it has had of the processor.
    pub(crate) fn processor(&self) -> Option<Duration> {
        had(&std::fs::read_to_string(self.0.as_ref()?).ok()?)
    }
}

/// The first number of what the system tells of a thread.
fn had(told: &str) -> Option<Duration> {
    told.split_ascii_whitespace().next()?.parse().ok().map(Duration::from_nanos)
}

/// A clock that has been started.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Clock {
    wall: std::time::Instant,
    processor: Option<Duration>,
}

impl Clock {
    /// Starts one.
    pub(crate) fn start() -> Clock {
        Clock { wall: std::time::Instant::now(), processor: processor() }
    }

    /// Time of the processor since the start, of the thread that started the clock; time of the
    /// wall where the system does not tell it.
    pub(crate) fn passed(&self) -> Duration {
        match (self.processor, processor()) {
            (Some(from), Some(to)) => to.saturating_sub(from),
            _ => self.wall.elapsed(),
        }
    }

    /// Time of the wall since the start.
    pub(crate) fn wall(&self) -> Duration {
        self.wall.elapsed()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sleep_takes_no_time_of_the_processor() {
        let clock = Clock::start();
        std::thread::sleep(Duration::from_millis(200));
        assert!(clock.wall() >= Duration::from_millis(200));
        if processor().is_some() {
            assert!(clock.passed() < Duration::from_millis(150), "{clock:?}");
        }
    }

    #[test]
    fn work_takes_some() {
        let clock = Clock::start();
        let watched = Watched::this();
        let before = watched.processor();
        let mut sum = 0_u64;
        while clock.wall() < Duration::from_millis(60) {
            sum = std::hint::black_box(sum.wrapping_mul(31) + 7);
        }
        assert!(clock.passed() > Duration::from_millis(1), "{clock:?}");
        let seen = std::thread::spawn(move || watched.processor()).join().unwrap();
        assert!(processor().is_none() || seen > before, "{before:?} {seen:?}");
    }
}
