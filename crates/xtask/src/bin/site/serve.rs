//! A small server for this machine alone.

use std::fs::File;
use std::path::{Component, Path, PathBuf};
use tiny_http::{Header, Response, Server};

/// Where the page is served, unless another port is asked for.
pub(crate) const PORT: u16 = 4177;

/// Serves a folder until it is stopped.
pub(crate) fn serve(folder: &Path, port: u16) -> Result<(), String> {
    let server = Server::http(("127.0.0.1", port)).map_err(|why| {
        format!("port {port} cannot be used: {why}\nhint: cargo xtask serve PORT")
    })?;
    println!("the page is at http://127.0.0.1:{port}/ (stop with Ctrl+C)");
    for request in server.incoming_requests() {
        let file = file_of(folder, request.url());
        // A reader who goes away in the middle is no error of ours.
        let _ = match file.as_ref().and_then(|path| File::open(path).ok()) {
            Some(open) => {
                let kind = file.as_deref().map_or("", kind);
                let mut response = Response::from_file(open);
                for (name, value) in [
                    ("Content-Type", kind),
                    ("Cache-Control", "no-cache"),
                    ("X-Content-Type-Options", "nosniff"),
                ] {
                    if let Ok(header) = Header::from_bytes(name, value) {
                        response.add_header(header);
                    }
                }
                request.respond(response)
            }
            None => request.respond(Response::from_string("not here").with_status_code(404)),
        };
    }
    Ok(())
}

/// The file that an address names; `None` for anything outside the folder.
fn file_of(folder: &Path, url: &str) -> Option<PathBuf> {
    let path = url.split(['?', '#']).next()?.trim_start_matches('/');
    let path = Path::new(if path.is_empty() { "index.html" } else { path });
    let plain = path.components().all(|part| matches!(part, Component::Normal(_)));
    plain.then(|| folder.join(path))
}

fn kind(path: &Path) -> &'static str {
    match path.extension().and_then(|ending| ending.to_str()) {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("wasm") => "application/wasm",
        Some("svg") => "image/svg+xml",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_stay_inside_the_folder() {
        let of = |url| file_of(Path::new("dist"), url);
        assert_eq!(of("/"), Some("dist/index.html".into()));
        assert_eq!(of("/a-1.js?x#y"), Some("dist/a-1.js".into()));
        assert_eq!(of("/../Cargo.toml"), None);
        assert_eq!(of("/a/../../b"), None);
    }
}
