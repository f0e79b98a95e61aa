//! Lines, blanks, numbers, comments, percent signs.

use proptest::prelude::*;

use super::*;

#[test]
fn blanks_and_case_count_for_nothing() {
    // §3.3: the report's own example.
    check_end("g0x +0. 12 34y 7", 0.1234, 7.0, 0.0);
    check_end("\t G 0\tX-1\t.5 \r\n\n  \n", -1.5, 0.0, 0.0);
    check_end("/ N 12 G00 x.5 y+.25 z5.", 0.5, 0.25, 5.0);
}

#[test]
fn line_numbers_come_first_and_have_five_digits() {
    // §3.3.1.
    check_end("N99999 G0 X1", 1.0, 0.0, 0.0);
    check_fault("N100000 G0 X1", (1, 1), Fault::LineNumber);
    check_fault("N-1 G0 X1", (1, 1), Fault::LineNumber);
    check_fault("N1.5 G0 X1", (1, 1), Fault::LineNumber);
    check_fault("G0 X1 N10", (1, 7), Fault::LineNumberNotFirst);
}

#[test]
fn numbers_have_digits_and_no_exponent() {
    // §3.3.2.1.
    check_fault("G0 X", (1, 4), Fault::NoNumber('X'));
    check_fault("G0 X-", (1, 4), Fault::NoNumber('X'));
    check_fault("G0 X.", (1, 4), Fault::NoNumber('X'));
    check_fault("G0 X1.2.3", (1, 8), Fault::UnexpectedCharacter('.'));
    check_fault("G0 X--1", (1, 4), Fault::NoNumber('X'));
    check_fault("G0 X1,5", (1, 6), Fault::UnexpectedCharacter(','));
    check_fault("G0 X1E3", (1, 6), Fault::UnknownLetter('E'));
    check_fault("G0 X99999999999", (1, 4), Fault::NumberTooLarge('X'));
    check_fault(
        "G0 X1000000000000000000000000",
        (1, 4),
        Fault::NumberTooLarge('X'),
    );
    check_end(
        "G0 X0.000000000000000000000000000000001 Y00000000000000000000002",
        0.0,
        2.0,
        0.0,
    );
    check_end(
        "G0 X1.23456789012345678901234567890",
        1.234_567_890_123_456_7,
        0.0,
        0.0,
    );
}

proptest! {
    #![proptest_config(cases(4_000))]
    #[test]
    fn numbers_are_read_as_the_standard_library_reads_them(value in -2000.0..2000.0, decimals in 0_usize..9) {
        let number = format!("{value:.decimals$}");
        let replay = replay_of(&format!("G0 X{number}\nM2"));
        let expected: f64 = number.parse().expect("a decimal number");
        prop_assert_eq!(replay.motions[0].to.xy.x, expected);
    }
}

#[test]
fn comments_close_on_their_line_and_do_not_nest() {
    // §3.3.4.
    check_end("(first) G0 (second) X1 (MSG, third)", 1.0, 0.0, 0.0);
    check_end("(größer als ASCII) G0 X1", 1.0, 0.0, 0.0);
    check_fault("(a (b) c)", (1, 4), Fault::NestedComment);
    check_fault("G0 X1 (abc", (1, 7), Fault::UnclosedComment);
    check_fault("G0 X1 abc)", (1, 7), Fault::RotaryAxis('A'));
    check_fault("G0 X1 )", (1, 7), Fault::UnexpectedCharacter(')'));
    check_fault("G0 X1 ; c", (1, 7), Fault::Semicolon);
    check_fault("(ä) ; c", (1, 5), Fault::Semicolon);
}

#[test]
fn lines_have_a_greatest_length() {
    // §3.3: 256 characters with the end of the line.
    let longest = format!("G0 X1 ({})", "c".repeat(247));
    assert_eq!(longest.len(), 255);
    check_end(&longest, 1.0, 0.0, 0.0);
    check_fault(&format!("{longest} "), (1, 257), Fault::LineTooLong);
}

#[test]
fn percent_signs_frame_a_program() {
    // §3.1.
    let replay = replay_of("\n % \nG0 X1\n%\nnonsense");
    assert_eq!((replay.end.line, replay.end.ending), (4, Ending::Percent));
    assert_eq!(replay_of("%\nG0 X1\nM2\n").end.ending, Ending::M2);
    check_fault("G0 X1\n%", (2, 2), Fault::StrayPercent);
    let fault = |text: &str| read(text).expect_err(text).fault;
    assert_eq!(fault("%\nG0 X1\n"), Fault::PercentNotClosed);
    assert_eq!(fault("G0 X1\n"), Fault::NoEnd);
    assert_eq!(fault(""), Fault::NoEnd);
    assert_eq!(fault("% G0 X1\nM2"), Fault::UnexpectedCharacter('%'));
    // Nothing after the end is carried out (§3.6.1).
    assert_eq!(replay_of("G0 X1\nM30\nnonsense").motions.len(), 1);
}

#[test]
fn optional_lines_are_carried_out_and_listed() {
    let replay = replay_of("G0 X1\n/G0 X2\nM2");
    assert_eq!(replay.motions.len(), 2);
    assert_eq!(replay.optional_lines, [2]);
}

#[test]
fn messages_are_the_last_comment_of_a_line() {
    // §3.3.4.
    let replay =
        replay_of("(MSG, first) G0 X1 ( m S g , Turn the plank )\n(note: MSG, no)\n(MSG,)\nM2");
    let told: Vec<(usize, usize, &str)> = replay
        .messages
        .iter()
        .map(|message| (message.line, message.before, message.text.as_str()))
        .collect();
    assert_eq!(told, [(1, 0, "Turn the plank"), (3, 1, "")]);
}
