//! What is refused before anything is drawn, since the parser would leave it out without a word.

use usvg::roxmltree::{Document, Node};

use super::DEEPEST;
use crate::DrawingError;

/// How many characters of a text are told.
const LONGEST_TOLD: usize = 40;

/// Refuses text, pictures and elements nested too deeply.
///
/// # Errors
/// The first of them in the order of the file.
pub(super) fn check(document: &Document) -> Result<(), DrawingError> {
    // Depth by node, since walking up from each would take the square of the file's length.
    let mut depth = 0_usize;
    let mut next = Some(document.root_element());
    // Every step goes to another node of the file, first down, then along, then up.
    while let Some(node) = next {
        if depth > DEEPEST {
            return Err(DrawingError::TooDeep(DEEPEST));
        }
        check_one(node)?;
        let inside = if is_left_out(node) {
            None
        } else {
            node.first_child()
        };
        next = match inside {
            Some(child) => {
                depth += 1;
                Some(child)
            }
            None => after(node, &mut depth),
        };
    }
    Ok(())
}

/// The next node beside this one or beside one that it lies in.
fn after<'a, 'input>(node: Node<'a, 'input>, depth: &mut usize) -> Option<Node<'a, 'input>> {
    let mut at = Some(node);
    while let Some(node) = at {
        if *depth == 0 {
            return None;
        }
        if let Some(next) = node.next_sibling() {
            return Some(next);
        }
        *depth -= 1;
        at = node.parent();
    }
    None
}

/// Whether a viewer leaves an element out whatever else the file says.
fn is_left_out(node: Node) -> bool {
    let hidden = node.attribute("display") == Some("none")
        || node
            .attribute("style")
            .is_some_and(|style| style.replace(' ', "").contains("display:none"));
    hidden || (node.is_element() && matches!(node.tag_name().name(), "metadata" | "desc" | "title"))
}

fn check_one(node: Node) -> Result<(), DrawingError> {
    if !node.is_element() || is_left_out(node) {
        return Ok(());
    }
    match node.tag_name().name() {
        "text" | "flowRoot" => {
            let words: Vec<&str> = node
                .descendants()
                .filter_map(|part| part.text().filter(|_| part.is_text()))
                .flat_map(str::split_whitespace)
                .collect();
            if words.is_empty() {
                return Ok(());
            }
            let told: String = words.join(" ").chars().take(LONGEST_TOLD).collect();
            Err(DrawingError::Text(told))
        }
        "image" | "foreignObject" => Err(DrawingError::Picture),
        _ => Ok(()),
    }
}
