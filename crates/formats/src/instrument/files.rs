//! The files of the built-in instruments.

macro_rules! files {
    ($($name:literal),* $(,)?) => {
        /// The files of the built-in instruments, each with its name.
        pub const FILES: &[(&str, &str)] =
            &[$(($name, include_str!(concat!("../../instruments/", $name, ".json")))),*];
    };
}

files!(
    "tin-whistle",
    "flute",
    "recorder",
    "english-concertina",
    "anglo-concertina",
    "melodeon",
    "harmonica",
    "dulcimer",
    "fiddle",
    "mandolin",
    "tenor-banjo",
    "ukulele",
    "guitar",
    "highland-pipes",
    "smallpipes",
    "ocarina",
    "lever-harp",
    "piano-accordion",
    "voice",
);
