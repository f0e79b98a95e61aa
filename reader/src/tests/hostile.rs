//! Text that is meant to do harm.

use proptest::prelude::*;

use super::*;

/// A program that holds a little of everything.
const PROGRAM: &str = "%\nN10 G21 G17 G90 (head)\n/S1000 M3 F200\nG0 X1.5 Y-2 Z5\nG1 Z-1\nG2 X3 Y-2 I0.75 J0\n\
    G3 X3 Y-2 I5 J0 Z-2\nG90 G42 D1 G1 X20 Y-2\nX30\nG3 X35 Y3 J5\nG40 G1 X9\nG91 G1 X1\nG4 P1\nM0\nG20 G0 Z1\nM5\nM30\n%\n";

/// A change of one character: where, which kind, and the new one.
fn changes() -> impl Strategy<Value = Vec<(usize, u8, u8)>> {
    let character = prop::sample::select(b"GXYZIJRDFMNSTP0123456789.-+()%/\n #".to_vec());
    prop::collection::vec((0..PROGRAM.len(), 0_u8..3, character), 1..5)
}

#[test]
fn the_program_is_good_as_it_stands() {
    let replay = read_with(PROGRAM, &compensation::cutters()).expect("it is a program");
    assert_eq!(replay.compensations.len(), 1);
}

proptest! {
    #![proptest_config(cases(4_000))]
    #[test]
    fn odd_text_is_read_or_refused_with_its_place(changes in changes()) {
        let mut bytes = PROGRAM.as_bytes().to_vec();
        for (at, kind, character) in changes {
            let at = at.min(bytes.len() - 1);
            match kind {
                0 => bytes[at] = character,
                1 => bytes.insert(at, character),
                _ => {
                    bytes.remove(at);
                }
            }
        }
        let text = String::from_utf8_lossy(&bytes);
        match read_with(&text, &compensation::cutters()) {
            Ok(replay) => {
                prop_assert!(replay.motions.iter().all(|motion| motion.length_mm().is_finite()));
            }
            Err(error) => {
                let lines = text.split('\n').count();
                prop_assert!(error.line <= lines && !error.to_string().is_empty());
            }
        }
    }
}

#[test]
fn hostile_text_is_refused_soon() {
    let fault = |text: &str| read(text).expect_err("hostile").fault;
    assert_eq!(fault(&"X".repeat(5_000_000)), Fault::LineTooLong);
    assert_eq!(fault(&"\n".repeat(MOST_LINES + 10)), Fault::NoEnd);
    assert_eq!(fault(&"(a)\n".repeat(MOST_LINES + 10)), Fault::TooManyLines);
}
