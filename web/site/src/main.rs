//! The page's program. It runs in a browser; `cargo xtask serve` builds and serves it.

#[cfg(target_arch = "wasm32")]
fn main() {
    modewright_site::run();
}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    println!("This program runs in a browser: cargo xtask serve builds and serves the page.");
}
