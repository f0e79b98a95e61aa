//! Builds the demonstration typeface's files: `cargo run -p demo-face`.

use demo_face::font_file::{Layer, build};
use std::path::Path;
use std::process::ExitCode;

fn main() -> ExitCode {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fonts");
    for layer in [Layer::Regular, Layer::Inline] {
        let path = folder.join(layer.file_name());
        let written = build(layer)
            .map_err(|error| error.to_string())
            .and_then(|bytes| std::fs::write(&path, bytes).map_err(|error| error.to_string()));
        if let Err(error) = written {
            report(&format!("{} was not written: {error}", path.display()));
            return ExitCode::FAILURE;
        }
    }
    ExitCode::SUCCESS
}

#[allow(
    clippy::print_stderr,
    reason = "a command-line program speaks to its user"
)]
fn report(line: &str) {
    eprintln!("{line}");
}
