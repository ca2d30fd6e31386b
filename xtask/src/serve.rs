//! A plain file server for the page: one folder, this machine only, nothing but Rust's own library.

use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::{TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::time::Duration;
use std::{fs, thread};

/// Longest head of a request that is read, in bytes.
const LONGEST_HEAD: u64 = 16 * 1024;

/// Listens on the wanted port or, where that is taken, on any free one.
pub(crate) fn listen(wanted: u16) -> Result<TcpListener, String> {
    TcpListener::bind(("127.0.0.1", wanted))
        .or_else(|_| TcpListener::bind(("127.0.0.1", 0)))
        .map_err(|error| format!("no port to listen on: {error}"))
}

/// Answers requests for ever, each on a thread of its own.
pub(crate) fn serve(listener: &TcpListener, folder: &Path) {
    for stream in listener.incoming().flatten() {
        let folder = folder.to_path_buf();
        thread::spawn(move || {
            // A visitor who hangs up in the middle is no trouble of ours.
            let _ = answer(stream, &folder);
        });
    }
}

fn answer(mut stream: TcpStream, folder: &Path) -> std::io::Result<()> {
    stream.set_read_timeout(Some(Duration::from_secs(10)))?;
    let mut lines = BufReader::new(stream.try_clone()?.take(LONGEST_HEAD));
    let mut first = String::new();
    lines.read_line(&mut first)?;
    let mut rest = String::new();
    while lines.read_line(&mut rest)? > 2 {
        rest.clear();
    }
    let mut words = first.split_whitespace();
    let (method, target) = (words.next().unwrap_or_default(), words.next().unwrap_or_default());
    if !matches!(method, "GET" | "HEAD") {
        return respond(&mut stream, "405 Method Not Allowed", "text/plain", b"Only GET and HEAD.\n", true);
    }
    let body = method == "GET";
    match find(folder, target).and_then(|path| Some((kind(&path), fs::read(path).ok()?))) {
        Some((kind, bytes)) => respond(&mut stream, "200 OK", kind, &bytes, body),
        None => respond(&mut stream, "404 Not Found", "text/plain", b"There is no such file.\n", body),
    }
}

fn respond(
    stream: &mut TcpStream,
    status: &str,
    kind: &str,
    bytes: &[u8],
    body: bool,
) -> std::io::Result<()> {
    write!(
        stream,
        "HTTP/1.1 {status}\r\nContent-Type: {kind}\r\nContent-Length: {}\r\nCache-Control: no-cache\r\n\
         X-Content-Type-Options: nosniff\r\nConnection: close\r\n\r\n",
        bytes.len()
    )?;
    if body { stream.write_all(bytes) } else { Ok(()) }
}

/// The file that an address means. Names with anything but plain characters, and ways upward, mean none.
fn find(folder: &Path, target: &str) -> Option<PathBuf> {
    let path = target.split(['?', '#']).next()?.strip_prefix('/')?;
    let mut found = folder.to_path_buf();
    for part in path.split('/').filter(|part| !part.is_empty()) {
        let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '.' | '-' | '_');
        if part.starts_with('.') || !part.chars().all(plain) {
            return None;
        }
        found.push(part);
    }
    if found.is_dir() {
        found.push("index.html");
    }
    found.is_file().then_some(found)
}

/// What a file is, by its ending. Browsers compile a module in passing only if it is called one.
fn kind(path: &Path) -> &'static str {
    match path.extension().and_then(|e| e.to_str()).unwrap_or_default() {
        "html" => "text/html; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "svg" => "image/svg+xml",
        "json" => "application/json",
        "txt" | "md" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_address_leads_out_of_the_folder() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR"));
        assert_eq!(find(folder, "/src/serve.rs?x=1"), Some(folder.join("src/serve.rs")));
        for bad in [
            "/../Cargo.toml",
            "/src/../../Cargo.toml",
            "/%2e%2e/Cargo.toml",
            "//etc/passwd",
            "/.git",
            "src",
            "",
        ] {
            assert_eq!(find(folder, bad), None, "{bad}");
        }
    }

    #[test]
    fn a_module_is_called_one() {
        assert_eq!(kind(Path::new("halfcount.wasm")), "application/wasm");
    }
}
