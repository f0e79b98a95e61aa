//! Parameters, expressions, functions: NISTIR 6556 (2000) §3.3.2.

use super::*;

/// What an expression comes to.
#[track_caller]
fn check_value(value: &str, expected: f64) {
    let replay = replay_of(&format!("#1=2 #2=-3.5\n#31=1\nG0 X{value}\nM2\n"));
    let found = replay.motions[0].to.xy.x;
    assert!((found - expected).abs() < 1e-9, "{value} came to {found}");
}

/// The fault of a value, and the column of the line `G0 X…` that it is told of.
#[track_caller]
fn check_no_value(value: &str, column: usize, fault: Fault) {
    check_fault(&format!("#1=2\nG0 X{value}"), (2, column), fault);
}

#[test]
fn operators_bind_in_three_ranks_from_left_to_right() {
    // §3.3.2.3: powers, then products, then sums and logic; of one rank from left to right.
    for (value, expected) in [
        ("[2+3*4]", 14.0),
        ("[[2+3]*4]", 20.0),
        ("[10-4-3]", 3.0),
        ("[24/4/3]", 2.0),
        ("[2*3**2]", 18.0),
        ("[2**3**2]", 64.0),
        ("[2 ** - 1]", 0.5),
        ("[7 MOD 4*2]", 6.0),
        ("[-7 mod 4]", 1.0),
        ("[7 MOD -4]", 3.0),
        ("[1+1 AND 0]", 0.0),
        ("[1 AND -2]", 1.0),
        ("[0 or 0 OR 0.1]", 1.0),
        ("[3 XOR 4]", 0.0),
        ("[3 x o r 0]", 1.0),
        ("[1 XOR 1 OR 1]", 1.0),
        ("[+5]", 5.0),
        ("[[[[8]]]]", 8.0),
        ("[ 1 2 . 5 ]", 12.5),
        ("[6/2*1.5-5/10]", 4.0),
    ] {
        check_value(value, expected);
    }
}

#[test]
fn functions_work_in_degrees() {
    // §3.3.2.4.
    for (value, expected) in [
        ("ABS[-4]", 4.0),
        ("ACOS[0.5]", 60.0),
        ("ASIN[-1]", -90.0),
        ("ATAN[1]/[-1]", 135.0),
        ("ATAN[-1]/[-1]", -135.0),
        ("ATAN[0]/[-1]", 180.0),
        ("COS[60]", 0.5),
        ("EXP[0]", 1.0),
        ("FIX[2.8]", 2.0),
        ("FIX[-2.8]", -3.0),
        ("FUP[2.2]", 3.0),
        ("FUP[-2.8]", -2.0),
        ("LN[EXP[3]]", 3.0),
        ("ROUND[2.5]", 3.0),
        ("ROUND[-2.5]", -3.0),
        ("SIN[30]", 0.5),
        ("s q r t [ 9 ]", 3.0),
        ("TAN[45]", 1.0),
        ("SQRT[[3**2]+4*4]", 5.0),
    ] {
        check_value(value, expected);
    }
}

#[test]
fn parameters_hold_numbers_and_name_one_another() {
    // §3.3.2.2, §3.3.3.
    check_value("#1", 2.0);
    check_value("#[1+1]", -3.5);
    check_value("##31", 2.0);
    check_value("[#1*#2]", -7.0);
    check_value("#1.00001", 2.0);
    check_value("ABS[#2]", 3.5);
    // A setting takes effect after the whole line is read, whatever the order.
    check_end("#3=15\n#3=6 G0 X#3", 15.0, 0.0, 0.0);
    check_end("#3=15\n#3=6\nG0 X#3", 6.0, 0.0, 0.0);
    check_end("#3=1 #3=4\n#[#3]=9\nG0 X#4", 9.0, 0.0, 0.0);
    // Words of any letter take values.
    check_end("#7=1 #8=21\nG#8 G[#7-1] X5", 5.0, 0.0, 0.0);
    assert_eq!(
        replay_of("#9=3\nM#9 S[#9*1000] G0 X1\nM2").motions[0].spindle,
        Spindle::Clockwise { rpm: 3000.0 }
    );
    check_end("#5399=2\nG0 X#5399", 2.0, 0.0, 0.0);
}

#[test]
fn parameters_of_the_machine_are_left_to_it() {
    check_fault("G0 X#5", (1, 5), Fault::ParameterNotSet(5));
    check_fault("#5=#6", (1, 4), Fault::ParameterNotSet(6));
    for number in [0, 5400, 99_999] {
        check_fault(&format!("#{number}=1"), (1, 1), Fault::ParameterNumber);
    }
    check_fault("#1.5=1", (1, 1), Fault::ParameterNumber);
    check_fault("#-1=1", (1, 1), Fault::ParameterNumber);
    check_fault("#5221=1", (1, 1), Fault::MachineParameter(5221));
    check_fault("G0 X#5220", (1, 5), Fault::MachineParameter(5220));
    check_fault("#1", (1, 1), Fault::SettingWithoutEquals);
    check_fault("#1=", (1, 1), Fault::NoNumber('='));
    check_fault("#=1", (1, 1), Fault::NoNumber('#'));
}

#[test]
fn values_that_are_none() {
    check_no_value("[", 5, Fault::NoNumber('['));
    check_no_value("[]", 5, Fault::NoNumber('['));
    check_no_value("[1", 5, Fault::UnclosedBracket);
    check_no_value("[[1]", 5, Fault::UnclosedBracket);
    check_no_value("[1+]", 7, Fault::NoNumber('+'));
    check_no_value("[1 2 Y]", 10, Fault::NoOperator('Y'));
    check_no_value("[1 × 2]", 8, Fault::NoOperator('×'));
    check_no_value("[1][2]", 8, Fault::StrayBracket);
    check_no_value("1]", 6, Fault::StrayBracket);
    check_no_value("-#1", 6, Fault::SignWithoutDigits);
    check_no_value("-[1]", 6, Fault::SignWithoutDigits);
    check_no_value("SIN 30", 5, Fault::FunctionWithoutBracket("SIN"));
    check_no_value("ATAN[1]", 5, Fault::AtanWithoutSlash);
    check_no_value("ATAN[1]/2", 5, Fault::AtanWithoutSlash);
    check_no_value("COT[1]", 4, Fault::NoNumber('X'));
    for (value, column) in [
        ("[1/0]", 7),
        ("[1 MOD 0]", 8),
        ("[[-2]**0.5]", 10),
        ("SQRT[-1]", 5),
        ("LN[0]", 5),
        ("ACOS[1.1]", 5),
        ("ASIN[-2]", 5),
        ("ATAN[0]/[0]", 5),
        ("EXP[1000]", 5),
        ("[10**400]", 8),
    ] {
        let error = read(&format!("G0 X{value}\nM2\n")).expect_err(value);
        assert!(
            matches!(error.fault, Fault::NoResult(_)),
            "{value}: {error}"
        );
        assert_eq!(error.column, column, "{value}");
    }
    check_no_value("[10**10]", 4, Fault::NumberTooLarge('X'));
    // As deep as a line allows.
    check_no_value(&"[".repeat(245), 249, Fault::NoNumber('['));
    let deep = format!("{}1{}", "[".repeat(120), "]".repeat(120));
    check_value(&deep, 1.0);
    check_no_value(&"#".repeat(245), 249, Fault::NoNumber('#'));
}
